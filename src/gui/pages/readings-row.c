/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * A row holds no figures: it asks its point whenever it is shown or compared, so
 * that it can never show what the record no longer says.
 */
#include "gui/pages/readings-row.h"
#include "gui/words.h"

struct _BondReadingsRow
{
  GObject parent_instance;
  BondSurvey *survey; /* borrowed: the model holds it as long as its rows */
  BondPoint *point;
  guint place, position, count;
  char *zone;
  gboolean shown;
};

static guint changed;

G_DEFINE_FINAL_TYPE (BondReadingsRow, bond_readings_row, G_TYPE_OBJECT)

static void
bond_readings_row_finalize (GObject *object)
{
  BondReadingsRow *self = BOND_READINGS_ROW (object);

  g_clear_object (&self->point);
  g_free (self->zone);
  G_OBJECT_CLASS (bond_readings_row_parent_class)->finalize (object);
}

static void
bond_readings_row_class_init (BondReadingsRowClass *klass)
{
  G_OBJECT_CLASS (klass)->finalize = bond_readings_row_finalize;
  changed = g_signal_new ("changed", BOND_TYPE_READINGS_ROW, G_SIGNAL_RUN_LAST, 0, NULL, NULL, NULL, G_TYPE_NONE, 0);
}

static void
bond_readings_row_init (BondReadingsRow *self)
{
}

BondReadingsRow *
bond_readings_row_new (BondSurvey *survey, BondPoint *point, guint place, guint position)
{
  BondReadingsRow *self = g_object_new (BOND_TYPE_READINGS_ROW, NULL);

  self->survey = survey;
  self->point = g_object_ref (point);
  self->place = place;
  self->position = position;
  return self;
}

BondReadingsRow *
bond_readings_row_new_zone (BondSurvey *survey, const char *zone, guint position)
{
  BondReadingsRow *self = g_object_new (BOND_TYPE_READINGS_ROW, NULL);

  self->survey = survey;
  self->zone = g_strdup (zone);
  self->position = position;
  return self;
}

BondSurvey *
bond_readings_row_get_survey (BondReadingsRow *self)
{
  g_return_val_if_fail (BOND_IS_READINGS_ROW (self), NULL);
  return self->survey;
}

BondPoint *
bond_readings_row_get_point (BondReadingsRow *self)
{
  g_return_val_if_fail (BOND_IS_READINGS_ROW (self), NULL);
  return self->point;
}

const BondPlaceResult *
bond_readings_row_get_result (BondReadingsRow *self)
{
  GPtrArray *places;

  g_return_val_if_fail (BOND_IS_READINGS_ROW (self), NULL);
  if (self->point == NULL)
    return NULL;
  places = bond_point_get_places (self->point);
  return g_ptr_array_index (places, MIN (self->place, places->len - 1));
}

const char *
bond_readings_row_get_place (BondReadingsRow *self)
{
  const BondPlaceResult *result = bond_readings_row_get_result (self);

  return result != NULL ? result->place : NULL;
}

const BondMeasurement *
bond_readings_row_get_value (BondReadingsRow *self)
{
  const BondPlaceResult *result = bond_readings_row_get_result (self);

  if (result == NULL)
    return NULL;
  return result->decides != NULL ? result->decides : result->last;
}

const char *
bond_readings_row_get_zone (BondReadingsRow *self)
{
  g_return_val_if_fail (BOND_IS_READINGS_ROW (self), NULL);
  return self->point != NULL ? bond_point_get_spec (self->point)->zone : self->zone;
}

const char *
bond_readings_row_get_zone_name (BondReadingsRow *self)
{
  const char *number = bond_readings_row_get_zone (self);
  const BondAirframe *airframe = number != NULL ? bond_survey_get_airframe (self->survey) : NULL;
  const BondZone *zone = airframe != NULL ? bond_airframe_find_zone (airframe, number) : NULL;

  return zone != NULL ? zone->name : number;
}

guint
bond_readings_row_get_position (BondReadingsRow *self)
{
  g_return_val_if_fail (BOND_IS_READINGS_ROW (self), 0);
  return self->position;
}

const char *
bond_readings_row_get_instrument (BondReadingsRow *self)
{
  const BondMeasurement *value = bond_readings_row_get_value (self);
  const BondEntry *entry = value != NULL && value->readings->len > 0 ? value->readings->pdata[0] : NULL;
  const BondReading *reading = entry != NULL ? bond_entry_get_reading (entry) : NULL;
  const BondInstrument *meter = NULL;

  if (reading == NULL || reading->instrument == NULL)
    return NULL;
  meter = bond_survey_find_instrument_at (self->survey, reading->instrument, entry);
  return meter != NULL ? meter->name : reading->instrument;
}

/* Without a limit the unit in which the value reads easiest. */
BondUnit
bond_readings_row_get_unit (BondReadingsRow *self)
{
  const BondMeasurement *value = bond_readings_row_get_value (self);
  BondUnit easiest = value != NULL && value->mean.count > 0 ? bond_ohm_best_unit (bond_mean_nohm (&value->mean))
                                                            : BOND_UNIT_MILLIOHM;

  return bond_words_unit (bond_readings_row_get_result (self), easiest);
}

guint
bond_readings_row_get_count (BondReadingsRow *self)
{
  g_return_val_if_fail (BOND_IS_READINGS_ROW (self), 0);
  return self->count;
}

void
bond_readings_row_set_count (BondReadingsRow *self, guint count)
{
  g_return_if_fail (BOND_IS_READINGS_ROW (self));
  if (self->count == count)
    return;
  self->count = count;
  bond_readings_row_changed (self);
}

gboolean
bond_readings_row_get_shown (BondReadingsRow *self)
{
  g_return_val_if_fail (BOND_IS_READINGS_ROW (self), FALSE);
  return self->shown;
}

gboolean
bond_readings_row_set_shown (BondReadingsRow *self, gboolean shown)
{
  gboolean other = self->shown != shown;

  g_return_val_if_fail (BOND_IS_READINGS_ROW (self), FALSE);
  self->shown = shown;
  return other;
}

void
bond_readings_row_changed (BondReadingsRow *self)
{
  g_return_if_fail (BOND_IS_READINGS_ROW (self));
  g_signal_emit (self, changed, 0);
}
