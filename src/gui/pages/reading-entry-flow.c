/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * From the first digit to the record: the verdict while typing, the questions that
 * Enter may raise, and what is said afterwards.  Nothing is stored until Enter; a
 * text that could not be written comes back into the field.
 */
#include "gui/actions.h"
#include "gui/pages/reading-panel-private.h"
#include "gui/words.h"
#include <glib/gi18n-lib.h>

void
bond_reading_panel_say (BondReadingPanel *self, const char *css, const char *text)
{
  GtkWidget *label = GTK_WIDGET (self->say_label);

  g_return_if_fail (BOND_IS_READING_PANEL (self));
  gtk_widget_remove_css_class (label, "band");
  bond_reading_panel_set_ink (label, css);
  if (css != NULL)
    gtk_widget_add_css_class (label, "band");
  (css != NULL ? gtk_widget_remove_css_class : gtk_widget_add_css_class) (label, "note");
  gtk_label_set_text (self->say_label, text != NULL ? text : "");
  gtk_widget_set_visible (label, text != NULL && *text != '\0');
  if (text != NULL && *text != '\0')
    bond_reading_entry_say (self->entry, text);
}

static void
jump_to (BondReadingPanel *self, const char *text)
{
  g_autofree char *kept = g_strdup (text);
  g_autofree char *message = NULL;

  if (bond_walk_jump (self->walk, kept))
    {
      gtk_editable_set_text (GTK_EDITABLE (self->entry), "");
      return;
    }
  message = g_strdup_printf (_ ("There is no point %s in this survey."), kept);
  bond_reading_panel_say (self, "guard", message);
}

static gboolean
may_measure (BondReadingPanel *self)
{
  const char *read_only = bond_survey_get_read_only (bond_walk_get_survey (self->walk));
  g_autofree char *problem = NULL;

  if (read_only != NULL)
    {
      bond_reading_panel_say (self, "guard", read_only);
      return FALSE;
    }
  problem = bond_walk_instrument_problem (self->walk);
  if (problem != NULL)
    bond_reading_panel_say (self, "guard", problem);
  return problem == NULL;
}

void
bond_reading_panel_record_with (BondReadingPanel *self, BondAnswer answers)
{
  g_autofree char *text = g_strstrip (g_strdup (gtk_editable_get_text (GTK_EDITABLE (self->entry))));
  g_auto (BondAttempt) attempt = { 0 };

  if (*text == '\0')
    return;
  if (bond_walk_is_busy (self->walk))
    {
      self->enter_waits = TRUE;
      return;
    }
  if (bond_walk_is_jump (text))
    {
      jump_to (self, text);
      return;
    }
  if (!may_measure (self))
    return;
  bond_walk_try (self->walk, text, answers, &attempt);
  if (attempt.ask != BOND_ASK_NONE)
    {
      bond_reading_panel_ask (self, &attempt);
      return;
    }
  bond_reading_panel_say (self, NULL, NULL);
  /* Empty first: a record that is answered at once moves the walk on, and the digits must not be tried there. */
  gtk_editable_set_text (GTK_EDITABLE (self->entry), "");
  bond_walk_record (self->walk, text, &attempt, answers);
}

void
bond_reading_panel_record (BondReadingPanel *self)
{
  g_return_if_fail (BOND_IS_READING_PANEL (self));
  if (!self->asked)
    bond_reading_panel_record_with (self, BOND_ANSWER_NONE);
}

/* --- what came of it --- */

static char *
stopped_words (BondReadingPanel *self, const BondPlaceResult *result)
{
  BondUnit unit = bond_words_unit (result, BOND_UNIT_MILLIOHM);
  g_autofree char *found = NULL;

  if (result->last == NULL || result->last->outcome != BOND_OUTCOME_JUDGED)
    return bond_words_second_line (result);
  if (result->visual_reject && result->last->conforms)
    return g_strdup_printf (_ ("The resistance conforms; the point is rejected on its visual condition (%s)."),
                            bond_visual_name (result->visual));
  if (result->decides != NULL)
    found = bond_words_result (bond_walk_get_survey (self->walk), result->decides, unit, TRUE);
  if (result->last->conforms && result->intermittent)
    return g_strdup_printf (_ ("%s stands: the re-seated readings do not agree. It needs rework or a disposition."),
                            found);
  if (result->last->conforms)
    return g_strdup_printf (_ ("%s stands. A second re-seated reading that agrees makes it not confirmed."), found);
  return g_strdup (
      _ ("Type again with the joint not touched, or choose Rework. Two re-seated passes that agree make it "
         "not confirmed; one does not."));
}

static void
stopped_cb (BondReadingPanel *self)
{
  const BondPlaceResult *result = bond_walk_get_result (self->walk);
  g_autofree char *words = result != NULL ? stopped_words (self, result) : NULL;
  const char *ink = result != NULL && result->state == BOND_STATE_FAIL ? "fail" : "guard";

  self->enter_waits = FALSE; /* digits typed for the next point must not become a re-seat of this one */
  bond_reading_panel_refresh_entry (self);
  bond_reading_panel_say (self, ink, words);
}

static void
say_undone (BondReadingPanel *self, const BondEntry *entry)
{
  BondSurvey *survey = bond_walk_get_survey (self->walk);
  const BondEntry *target = bond_survey_find_entry (survey, entry->ref);
  BondPoint *point = entry->point != NULL ? bond_survey_find_point (survey, entry->point) : NULL;
  g_autofree char *words = NULL;

  if (target == NULL)
    return;
  self->keep_words = TRUE;
  if (point != NULL)
    bond_walk_go (self->walk, point, entry->place);
  if (target->kind == BOND_ENTRY_READING)
    {
      words
          = g_strdup_printf (_ ("Undone: %s %s on %s."), target->reading.text, bond_unit_symbol (target->reading.unit),
                             point != NULL ? bond_point_get_number (point) : "");
      gtk_editable_set_text (GTK_EDITABLE (self->entry), target->reading.text);
      gtk_editable_select_region (GTK_EDITABLE (self->entry), 0, -1);
    }
  else
    words = g_strdup_printf (target->kind == BOND_ENTRY_TAKE_BACK ? _ ("Done again%s%s.") : _ ("Undone%s%s."),
                             point != NULL ? ": " : "", point != NULL ? bond_point_get_number (point) : "");
  bond_reading_panel_say (self, NULL, words);
  self->keep_words = FALSE;
}

static void
recorded_cb (BondReadingPanel *self, BondEntry *entry)
{
  if (entry->kind == BOND_ENTRY_TAKE_BACK)
    say_undone (self, entry);
  else if (entry->kind == BOND_ENTRY_REWORK || entry->kind == BOND_ENTRY_CONDITION)
    bond_reading_panel_say (self, NULL, _ ("Recorded. Measure again; the limit above is the one that now applies."));
  else if (entry->kind == BOND_ENTRY_READING)
    bond_reading_panel_refresh_entry (self);
}

static gboolean
waiting_enter_cb (gpointer data)
{
  g_autoptr (BondReadingPanel) self = BOND_READING_PANEL (data);

  if (self->walk != NULL && self->enter_waits && !bond_walk_is_busy (self->walk))
    {
      self->enter_waits = FALSE;
      bond_reading_panel_record (self);
    }
  return G_SOURCE_REMOVE;
}

/* The walk has moved on (or stays, and then stopped_cb has dropped the Enter): only now the Enter that waited is done.
 */
static void
after_record_cb (BondReadingPanel *self)
{
  if (self->enter_waits)
    g_idle_add (waiting_enter_cb, g_object_ref (self));
}

static void
not_recorded_cb (BondReadingPanel *self, const char *text, const char *message)
{
  const char *typed = gtk_editable_get_text (GTK_EDITABLE (self->entry));
  g_autofree char *words = NULL;

  self->enter_waits = FALSE;
  if (text != NULL && *typed != '\0' && g_strcmp0 (typed, text) != 0)
    words = g_strdup_printf (_ ("%s “%s”, typed meanwhile, was not used."), message, typed);
  self->keep_words = TRUE;
  if (text != NULL)
    gtk_editable_set_text (GTK_EDITABLE (self->entry), text);
  gtk_editable_set_position (GTK_EDITABLE (self->entry), -1);
  self->keep_words = FALSE;
  bond_reading_panel_say (self, "fail", words != NULL ? words : message);
}

static void
walk_done_cb (BondReadingPanel *self)
{
  bond_reading_panel_say (self, NULL, _ ("Every point has a reading or a reason."));
}

static void
entry_changed_cb (BondReadingPanel *self)
{
  if (!self->keep_words)
    {
      bond_reading_panel_clear_ask (self);
      if (*gtk_editable_get_text (GTK_EDITABLE (self->entry)) != '\0')
        bond_reading_panel_say (self, NULL, NULL);
    }
  bond_reading_panel_refresh_entry (self);
}

static void
verb_cb (BondReadingPanel *self, int letter)
{
  const char *action = bond_action_for_letter (letter);

  if (action != NULL)
    gtk_widget_activate_action (GTK_WIDGET (self), action, NULL);
}

static void
step_cb (BondReadingPanel *self, int by)
{
  bond_walk_step (self->walk, by);
}

static void
step_zone_cb (BondReadingPanel *self, int by)
{
  bond_walk_step_zone (self->walk, by);
}

static void
cancel_cb (BondReadingPanel *self)
{
  bond_reading_panel_clear_ask (self);
  bond_reading_panel_say (self, NULL, NULL);
  bond_reading_panel_refresh_entry (self);
}

static char *
all_letters (void)
{
  gsize n;
  const BondActionInfo *info = bond_actions (&n);
  GString *letters = g_string_new (NULL);

  for (gsize i = 0; i < n; i++)
    if (info[i].letter != 0)
      g_string_append_c (letters, info[i].letter);
  return g_string_free (letters, FALSE);
}

void
bond_reading_panel_connect_entry (BondReadingPanel *self)
{
  g_autofree char *letters = all_letters ();

  bond_reading_entry_set_verbs (self->entry, letters);
  g_signal_connect_swapped (self->entry, "changed", G_CALLBACK (entry_changed_cb), self);
  g_signal_connect_swapped (self->entry, "record", G_CALLBACK (bond_reading_panel_record), self);
  g_signal_connect_swapped (self->entry, "jump", G_CALLBACK (jump_to), self);
  g_signal_connect_swapped (self->entry, "verb", G_CALLBACK (verb_cb), self);
  g_signal_connect_swapped (self->entry, "step", G_CALLBACK (step_cb), self);
  g_signal_connect_swapped (self->entry, "step-zone", G_CALLBACK (step_zone_cb), self);
  g_signal_connect_swapped (self->entry, "cancel", G_CALLBACK (cancel_cb), self);
  g_signal_connect_swapped (self->walk, "recorded", G_CALLBACK (recorded_cb), self);
  g_signal_connect_object (self->walk, "recorded", G_CALLBACK (after_record_cb), self,
                           G_CONNECT_SWAPPED | G_CONNECT_AFTER);
  g_signal_connect_swapped (self->walk, "stopped", G_CALLBACK (stopped_cb), self);
  g_signal_connect_swapped (self->walk, "walk-done", G_CALLBACK (walk_done_cb), self);
  g_signal_connect_swapped (self->walk, "not-recorded", G_CALLBACK (not_recorded_cb), self);
}
