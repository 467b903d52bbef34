/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * The walk as an object, and what is pinned.  Kept apart from the widgets so that
 * its rules can be tested by themselves; where it goes is in walk-where.c.
 */
#include "gui/walk-private.h"
#include "gui/words.h"
#include <glib/gi18n-lib.h>

static guint signals[BOND_WALK_N_SIGNALS];

G_DEFINE_FINAL_TYPE (BondWalk, bond_walk, G_TYPE_OBJECT)

guint
bond_walk_signal (BondWalkSignal signal)
{
  return signals[signal];
}

/* The newest reading tells what the inspector had pinned when the file was left. */
static const BondReading *
newest_reading (BondSurvey *survey)
{
  GPtrArray *entries = bond_survey_get_entries (survey);

  for (guint i = entries->len; i-- > 0;)
    {
      const BondEntry *entry = g_ptr_array_index (entries, i);

      if (entry->kind == BOND_ENTRY_READING)
        return &entry->reading;
    }
  return NULL;
}

static gboolean
can_measure (const BondInstrument *instrument)
{
  return instrument->kind == BOND_INSTRUMENT_MILLIOHMMETER || instrument->kind == BOND_INSTRUMENT_MEGOHMMETER;
}

static const BondInstrument *
first_meter (BondSurvey *survey)
{
  GPtrArray *instruments = bond_survey_get_instruments (survey);

  for (guint i = 0; i < instruments->len; i++)
    if (can_measure (g_ptr_array_index (instruments, i)))
      return g_ptr_array_index (instruments, i);
  return NULL;
}

static void
pin_first_range (BondWalk *self, const BondInstrument *instrument)
{
  const BondPlaceResult *result = bond_walk_get_result (self);
  const BondRange *range = NULL;

  if (instrument == NULL || instrument->ranges->len == 0)
    return;
  if (result != NULL && result->bounds != NULL && result->bounds->upper.relation != BOND_RELATION_NONE)
    range = bond_instrument_range_for (instrument, result->bounds->upper.nohm);
  if (range == NULL)
    range = g_ptr_array_index (instrument->ranges, 0);
  g_free (self->pinned.range);
  self->pinned.range = g_strdup (range->id);
}

static void
pin_as_before (BondWalk *self)
{
  const BondReading *reading = newest_reading (self->survey);
  const BondInstrument *meter = first_meter (self->survey);

  if (reading != NULL)
    {
      self->pinned.instrument = g_strdup (reading->instrument);
      self->pinned.range = g_strdup (reading->range);
      self->pinned.connectors = reading->connectors;
      self->pinned.mounting = reading->mounting;
      self->pinned.reference_end = g_strdup (reading->reference_end);
      self->pinned.unit = reading->unit;
    }
  else if (meter != NULL)
    {
      self->pinned.instrument = g_strdup (meter->id);
      pin_first_range (self, meter);
    }
}

static void
points_changed_cb (GListModel *model, guint position, guint removed, guint added, BondWalk *self)
{
  if (self->point == NULL && added > 0)
    bond_walk_next_open (self);
}

static void
bond_walk_dispose (GObject *object)
{
  BondWalk *self = BOND_WALK (object);

  if (self->survey != NULL)
    g_signal_handlers_disconnect_by_data (self->survey, self);
  bond_walk_set_filter (self, NULL, NULL, NULL);
  g_clear_object (&self->point);
  g_clear_object (&self->queue_point);
  g_clear_object (&self->survey);
  g_clear_pointer (&self->queue, g_ptr_array_unref);
  g_clear_pointer (&self->last, bond_entry_unref);
  G_OBJECT_CLASS (bond_walk_parent_class)->dispose (object);
}

static void
bond_walk_finalize (GObject *object)
{
  BondWalk *self = BOND_WALK (object);

  g_free (self->place);
  g_free (self->first_id);
  g_free (self->typed);
  g_free (self->pinned.instrument);
  g_free (self->pinned.range);
  g_free (self->pinned.reference_end);
  G_OBJECT_CLASS (bond_walk_parent_class)->finalize (object);
}

static guint
new_signal (const char *name, guint n, GType first, GType second)
{
  return g_signal_new (name, BOND_TYPE_WALK, G_SIGNAL_RUN_LAST, 0, NULL, NULL, NULL, G_TYPE_NONE, n, first, second);
}

static void
bond_walk_class_init (BondWalkClass *klass)
{
  G_OBJECT_CLASS (klass)->dispose = bond_walk_dispose;
  G_OBJECT_CLASS (klass)->finalize = bond_walk_finalize;
  signals[BOND_WALK_CURRENT_CHANGED] = new_signal ("current-changed", 0, G_TYPE_NONE, G_TYPE_NONE);
  signals[BOND_WALK_PINNED_CHANGED] = new_signal ("pinned-changed", 0, G_TYPE_NONE, G_TYPE_NONE);
  signals[BOND_WALK_RECORDED] = new_signal ("recorded", 1, G_TYPE_POINTER, G_TYPE_NONE);
  signals[BOND_WALK_STOPPED] = new_signal ("stopped", 0, G_TYPE_NONE, G_TYPE_NONE);
  signals[BOND_WALK_DONE] = new_signal ("walk-done", 0, G_TYPE_NONE, G_TYPE_NONE);
  signals[BOND_WALK_FILTER_CHANGED] = new_signal ("filter-changed", 0, G_TYPE_NONE, G_TYPE_NONE);
  signals[BOND_WALK_NOT_RECORDED] = new_signal ("not-recorded", 2, G_TYPE_STRING, G_TYPE_STRING);
}

static void
bond_walk_init (BondWalk *self)
{
  self->format.mark = bond_locale_mark ();
  self->pinned.unit = BOND_UNIT_MILLIOHM;
  self->pinned.planned = 1;
}

BondWalk *
bond_walk_new (BondSurvey *survey)
{
  BondWalk *self;

  g_return_val_if_fail (BOND_IS_SURVEY (survey), NULL);
  self = g_object_new (BOND_TYPE_WALK, NULL);
  self->survey = g_object_ref (survey);
  g_signal_connect (survey, "items-changed", G_CALLBACK (points_changed_cb), self);
  bond_walk_start (self);
  pin_as_before (self);
  return self;
}

BondSurvey *
bond_walk_get_survey (BondWalk *self)
{
  g_return_val_if_fail (BOND_IS_WALK (self), NULL);
  return self->survey;
}

BondPoint *
bond_walk_get_point (BondWalk *self)
{
  g_return_val_if_fail (BOND_IS_WALK (self), NULL);
  return self->point;
}

const char *
bond_walk_get_place (BondWalk *self)
{
  g_return_val_if_fail (BOND_IS_WALK (self), NULL);
  return self->place;
}

const BondPlaceResult *
bond_walk_get_result (BondWalk *self)
{
  g_return_val_if_fail (BOND_IS_WALK (self), NULL);
  return self->point != NULL ? bond_point_get_place (self->point, self->place) : NULL;
}

gboolean
bond_walk_is_stopped (BondWalk *self)
{
  g_return_val_if_fail (BOND_IS_WALK (self), FALSE);
  return self->stopped;
}

const BondPinned *
bond_walk_get_pinned (BondWalk *self)
{
  g_return_val_if_fail (BOND_IS_WALK (self), NULL);
  return &self->pinned;
}

static void
pinned_changed (BondWalk *self)
{
  g_signal_emit (self, signals[BOND_WALK_PINNED_CHANGED], 0);
}

void
bond_walk_pin_instrument (BondWalk *self, const char *instrument)
{
  g_return_if_fail (BOND_IS_WALK (self));
  if (g_strcmp0 (instrument, self->pinned.instrument) == 0)
    return;
  g_free (self->pinned.instrument);
  self->pinned.instrument = g_strdup (instrument);
  g_clear_pointer (&self->pinned.range, g_free);
  pin_first_range (self, instrument != NULL ? bond_survey_find_instrument (self->survey, instrument) : NULL);
  pinned_changed (self);
}

void
bond_walk_set_person (BondWalk *self, const char *person)
{
  g_return_if_fail (BOND_IS_WALK (self));
  bond_survey_set_person (self->survey, person);
  pinned_changed (self);
}

void
bond_walk_pin_range (BondWalk *self, const char *range)
{
  g_return_if_fail (BOND_IS_WALK (self));
  if (g_strcmp0 (range, self->pinned.range) == 0)
    return;
  g_free (self->pinned.range);
  self->pinned.range = g_strdup (range);
  pinned_changed (self);
}

void
bond_walk_pin_unit (BondWalk *self, BondUnit unit)
{
  g_return_if_fail (BOND_IS_WALK (self));
  if (unit == self->pinned.unit)
    return;
  self->pinned.unit = unit;
  pinned_changed (self);
}

/* From here on readings are against another end: that is an entry, not only a field of the next reading. */
static void
note_clip_moved (BondWalk *self, const char *from)
{
  BondEntry *entry;

  if (bond_survey_get_read_only (self->survey) != NULL)
    return;
  entry = bond_entry_new (BOND_ENTRY_REFERENCE);
  entry->reference_move.from = g_strdup (from);
  entry->reference_move.to = g_strdup (self->pinned.reference_end);
  bond_walk_record_entry (self, entry);
}

void
bond_walk_pin_state (BondWalk *self, BondConnectors connectors, BondMounting mounting, const char *reference_end,
                     int planned)
{
  g_autofree char *end = NULL;
  g_autofree char *before = NULL;

  g_return_if_fail (BOND_IS_WALK (self));
  end = g_strdup (reference_end);
  before = g_strdup (self->pinned.reference_end);
  self->pinned.connectors = connectors;
  self->pinned.mounting = mounting;
  g_free (self->pinned.reference_end);
  self->pinned.reference_end = g_steal_pointer (&end);
  self->pinned.planned = MAX (planned, 1);
  pinned_changed (self);
  if (self->pinned.reference_end != NULL && g_strcmp0 (before, self->pinned.reference_end) != 0)
    note_clip_moved (self, before);
}

char *
bond_walk_instrument_problem (BondWalk *self)
{
  const BondInstrument *instrument;
  g_autofree char *now = NULL;
  g_autofree char *due = NULL;
  g_autoptr (GDateTime) time = NULL;
  GDate today;
  int year, month, day;

  g_return_val_if_fail (BOND_IS_WALK (self), NULL);
  instrument
      = self->pinned.instrument != NULL ? bond_survey_find_instrument (self->survey, self->pinned.instrument) : NULL;
  if (instrument == NULL)
    return g_strdup (_ ("Choose the instrument you are using. Readings need one."));
  now = bond_source_now (bond_survey_get_source (self->survey));
  time = g_date_time_new_from_iso8601 (now, NULL);
  if (time == NULL)
    return NULL;
  g_date_time_get_ymd (time, &year, &month, &day); /* local date where the reading is taken */
  g_date_clear (&today, 1);
  g_date_set_dmy (&today, day, month, year);
  if (bond_instrument_in_date (instrument, &today))
    return NULL;
  due = bond_words_date (instrument->due);
  return g_strdup_printf (_ ("%s was due for calibration on %s. Choose another instrument to go on."), instrument->name,
                          due);
}

void
bond_walk_accept_mark (BondWalk *self)
{
  g_return_if_fail (BOND_IS_WALK (self));
  self->format.other_is_decimal = TRUE;
}

const BondRange *
bond_walk_range (BondWalk *self)
{
  const BondInstrument *instrument = NULL;

  g_return_val_if_fail (BOND_IS_WALK (self), NULL);
  if (self->pinned.instrument != NULL)
    instrument = bond_survey_find_instrument (self->survey, self->pinned.instrument);
  return instrument != NULL && self->pinned.range != NULL ? bond_instrument_find_range (instrument, self->pinned.range)
                                                          : NULL;
}

gboolean
bond_walk_earlier_nohm (BondWalk *self, BondOhm *nohm)
{
  GPtrArray *earlier;

  g_return_val_if_fail (BOND_IS_WALK (self), FALSE);
  earlier = bond_survey_get_earlier (self->survey);
  for (guint i = earlier != NULL ? earlier->len : 0; self->point != NULL && i-- > 0;)
    {
      const BondEarlierItem *item = bond_earlier_find (g_ptr_array_index (earlier, i), bond_point_get_id (self->point));

      if (item == NULL || item->result.qualifier != BOND_QUALIFIER_NONE || item->result.nohm <= 0)
        continue;
      *nohm = item->result.nohm;
      return TRUE;
    }
  return FALSE;
}
