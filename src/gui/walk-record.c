/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * Recording without stopping the typing: entries go to the survey one after the
 * other, the walk moves on when they are durable, and what could not be written
 * comes back as text.  Judging and durability are left to core and store.
 */
#include "gui/walk-private.h"
#include "gui/words.h"
#include "store/xml.h"
#include <gio/gio.h>
#include <glib/gi18n-lib.h>

#define NBSP "\302\240"

static void record_next (BondWalk *self);

static void
emit_not_recorded (BondWalk *self, const char *text, const char *message)
{
  g_signal_emit (self, bond_walk_signal (BOND_WALK_NOT_RECORDED), 0, text, message);
}

/* A pass, an answered fail or a value without a limit lets the walk go on; anything else, and an end that was freed and
 * is not recorded as opened, keeps it here. */
static gboolean
lets_go (const BondPlaceResult *result)
{
  if (result == NULL || result->last == NULL || result->freed)
    return FALSE;
  if (result->last->outcome == BOND_OUTCOME_RECORDED)
    return TRUE;
  return result->last->outcome == BOND_OUTCOME_JUDGED
         && (result->state == BOND_STATE_PASS || result->state == BOND_STATE_PASS_AFTER_REWORK
             || result->state == BOND_STATE_NOT_CONFIRMED);
}

static gboolean
is_standing_fail (const BondPlaceResult *result)
{
  return result != NULL && result->state == BOND_STATE_FAIL;
}

static void
move_on (BondWalk *self)
{
  const BondPlaceResult *result = bond_walk_get_result (self);

  self->fresh = FALSE;
  if (result != NULL && result->last != NULL && result->last->outcome == BOND_OUTCOME_INCOMPLETE)
    return;
  if (lets_go (result))
    {
      if (!bond_walk_next_open (self))
        g_signal_emit (self, bond_walk_signal (BOND_WALK_DONE), 0);
      return;
    }
  self->stopped = TRUE;
  g_signal_emit (self, bond_walk_signal (BOND_WALK_STOPPED), 0);
}

static void
end_batch (BondWalk *self)
{
  self->busy = FALSE;
  g_clear_pointer (&self->queue, g_ptr_array_unref);
  g_clear_object (&self->queue_point);
  g_clear_pointer (&self->first_id, g_free);
  g_clear_pointer (&self->typed, g_free);
}

char *
bond_walk_shown (const BondReading *reading)
{
  /* "3.0 mV at 1.2 A" carries its units */
  return reading->microampere != 0 ? g_strdup (reading->text)
                                   : g_strconcat (reading->text, NBSP, bond_unit_symbol (reading->unit), NULL);
}

/* Told apart because something can be done about it at once. */
static gboolean
is_disk_full (const GError *error)
{
  return g_error_matches (error, BOND_STORE_ERROR, BOND_STORE_ERROR_FULL)
         || g_error_matches (error, G_IO_ERROR, G_IO_ERROR_NO_SPACE)
         || g_error_matches (error, G_FILE_ERROR, G_FILE_ERROR_NOSPC);
}

/* What could not be written says where the digits are; what core refused says so itself. */
static char *
failed_words (BondWalk *self, const char *shown, const GError *error)
{
  const char *number = bond_point_get_number (self->queue_point);
  const GError *disk = bond_survey_get_write_error (self->survey);

  if (!g_error_matches (error, BOND_SURVEY_ERROR, BOND_SURVEY_ERROR_NOT_WRITTEN))
    return g_strdup_printf ("%s: %s", number, error->message);
  if (is_disk_full (disk))
    return g_strdup_printf (_ ("The disk is full. %s on %s is NOT recorded; it stays in the field."), shown, number);
  return g_strdup_printf (_ ("%s could not be written (%s). %s stays in the field and is not recorded."), number,
                          disk != NULL ? disk->message : error->message, shown);
}

static void
reading_failed (BondWalk *self, const BondEntry *entry, const GError *error)
{
  g_autofree char *back = NULL;
  g_autofree char *message = NULL;
  g_autofree char *shown = bond_walk_shown (&entry->reading);

  back = self->queue_at == 0 ? g_strdup (self->typed) : bond_walk_text_again (self, &entry->reading);
  message = failed_words (self, shown, error);
  self->write_failed = g_error_matches (error, BOND_SURVEY_ERROR, BOND_SURVEY_ERROR_NOT_WRITTEN);
  bond_walk_go (self, self->queue_point, entry->place);
  end_batch (self);
  emit_not_recorded (self, back, message);
}

static void
reading_done_cb (BondSurvey *survey, BondEntry *entry, const GError *error, gpointer data)
{
  g_autoptr (BondWalk) self = BOND_WALK (data);
  gboolean still_there;

  if (self->survey == NULL || self->queue == NULL)
    return; /* the window went away meanwhile; the entry is safe */
  if (error != NULL)
    {
      reading_failed (self, entry, error);
      return;
    }
  if (self->first_id == NULL)
    self->first_id = g_strdup (entry->reading.of != NULL ? entry->reading.of : entry->id);
  g_clear_pointer (&self->last, bond_entry_unref);
  self->last = bond_entry_ref (entry);
  if (++self->queue_at < self->queue->len)
    {
      record_next (self);
      return;
    }
  still_there = self->point == self->queue_point;
  end_batch (self);
  g_signal_emit (self, bond_walk_signal (BOND_WALK_RECORDED), 0, entry);
  if (still_there)
    move_on (self);
}

/* The verdict shown at this moment is kept with the reading. */
static void
note_said (BondWalk *self, BondEntry *entry)
{
  BondReading *reading = &entry->reading;
  BondPlaceResult *preview = bond_survey_preview (self->survey, self->queue_point, entry->place, reading);

  if (preview == NULL)
    return;
  reading->said = g_strdup (bond_place_result_said (preview));
  bond_place_result_free (preview);
}

static void
record_next (BondWalk *self)
{
  BondEntry *entry = g_ptr_array_index (self->queue, self->queue_at);

  if (self->queue_at > 0)
    {
      g_free (entry->reading.of);
      entry->reading.of = g_strdup (self->first_id);
      entry->reading.direction = BOND_DIRECTION_REVERSE;
    }
  note_said (self, entry);
  bond_survey_record (self->survey, bond_entry_ref (entry), reading_done_cb, g_object_ref (self));
}

char *
bond_walk_text_again (BondWalk *self, const BondReading *reading)
{
  g_return_val_if_fail (BOND_IS_WALK (self) && reading != NULL, NULL);
  if (reading->microampere != 0 || reading->unit == self->pinned.unit)
    return g_strdup (reading->text);
  return g_strconcat (reading->text, bond_unit_symbol (reading->unit), NULL);
}

gboolean
bond_walk_write_failed (BondWalk *self)
{
  g_return_val_if_fail (BOND_IS_WALK (self), FALSE);
  return self->write_failed;
}

gboolean
bond_walk_record (BondWalk *self, const char *text, const BondAttempt *attempt, BondAnswer answers)
{
  const char *of = NULL;

  g_return_val_if_fail (BOND_IS_WALK (self) && attempt != NULL, FALSE);
  if (self->busy || self->point == NULL || !attempt->parsed || attempt->ask != BOND_ASK_NONE)
    return FALSE;
  self->busy = TRUE;
  self->write_failed = FALSE;
  self->typed = g_strdup (text);
  self->queue_at = 0;
  self->queue_point = g_object_ref (self->point);
  self->queue = g_ptr_array_new_with_free_func ((GDestroyNotify)bond_entry_unref);
  for (int i = 0; i < attempt->text.n_values; i++)
    {
      BondEntry *entry = bond_entry_new (BOND_ENTRY_READING);

      entry->point = g_strdup (bond_point_get_id (self->point));
      entry->place = g_strdup (self->place);
      bond_walk_fill_reading (self, &attempt->text.value[i], answers, &entry->reading);
      entry->reading.direction = bond_walk_expect (self, &of);
      entry->reading.of = g_strdup (of);
      /* A pair typed as one is one measurement even where the limit asks for none. */
      if (i == 0 && attempt->text.n_values == 2)
        entry->reading.planned = MAX (entry->reading.planned, 2);
      g_ptr_array_add (self->queue, entry);
    }
  record_next (self);
  return TRUE;
}

gboolean
bond_walk_is_busy (BondWalk *self)
{
  g_return_val_if_fail (BOND_IS_WALK (self), FALSE);
  return self->busy;
}

void
bond_walk_read_again (BondWalk *self)
{
  g_return_if_fail (BOND_IS_WALK (self));
  self->fresh = TRUE;
  self->stopped = FALSE;
  g_signal_emit (self, bond_walk_signal (BOND_WALK_CURRENT_CHANGED), 0);
}

BondEntry *
bond_walk_last_reading (BondWalk *self)
{
  g_return_val_if_fail (BOND_IS_WALK (self), NULL);
  return self->last;
}

static void
act_done_cb (BondSurvey *survey, BondEntry *entry, const GError *error, gpointer data)
{
  g_autoptr (BondWalk) self = BOND_WALK (data);
  g_autofree char *message = NULL;

  if (self->survey == NULL)
    return;
  if (error != NULL)
    {
      /* A refusal of core says so itself. */
      if (error->domain == BOND_SURVEY_ERROR && error->code != BOND_SURVEY_ERROR_NOT_WRITTEN)
        message = g_strdup (error->message);
      else
        message = g_strdup_printf (_ ("Nothing was recorded. %s"), error->message);
      self->write_failed = FALSE; /* nothing of the field is at stake */
      emit_not_recorded (self, NULL, message);
      return;
    }
  /* A note or a card does not let a fail go. */
  self->stopped = self->stopped && is_standing_fail (bond_walk_get_result (self));
  g_signal_emit (self, bond_walk_signal (BOND_WALK_RECORDED), 0, entry);
}

void
bond_walk_record_entry (BondWalk *self, BondEntry *entry)
{
  g_return_if_fail (BOND_IS_WALK (self) && entry != NULL);
  bond_survey_record (self->survey, entry, act_done_cb, g_object_ref (self));
}

static void
take_back (BondWalk *self, const BondEntry *target, BondVoidReason why, const char *reason)
{
  BondEntry *entry;

  if (target == NULL)
    return;
  entry = bond_entry_new (BOND_ENTRY_TAKE_BACK);
  entry->ref = g_strdup (target->id);
  entry->point = g_strdup (target->point);
  entry->place = g_strdup (target->place);
  entry->reason = g_strdup (reason);
  entry->take_back.why = why;
  bond_walk_record_entry (self, entry);
}

void
bond_walk_undo (BondWalk *self, BondVoidReason why, const char *reason)
{
  g_return_if_fail (BOND_IS_WALK (self));
  take_back (self, bond_survey_undo_target (self->survey), why, reason);
}

void
bond_walk_redo (BondWalk *self)
{
  g_return_if_fail (BOND_IS_WALK (self));
  take_back (self, bond_survey_redo_target (self->survey), BOND_VOID_NONE, NULL);
}
