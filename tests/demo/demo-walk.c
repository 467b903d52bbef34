/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * The acts of demo-walk.h, each through the interfaces the window uses: the text is
 * parsed, and the reading pins the range, the leads and the measuring state.
 */
#include "demo-walk.h"

#include <gsl/gsl_randist.h>

#define CLOCK_FORMAT "%Y-%m-%dT%H:%M:%S%:z"

static void
tell_clock (DemoWalk *walk)
{
  g_autofree char *now = g_date_time_format (walk->clock, CLOCK_FORMAT);
  bond_source_set_now (walk->source, now);
}

void
demo_walk_wait (DemoWalk *walk, int seconds)
{
  GDateTime *later = g_date_time_add_seconds (walk->clock, seconds);
  g_date_time_unref (walk->clock);
  walk->clock = later;
  tell_clock (walk);
}

void
demo_walk_set_clock (DemoWalk *walk, const char *iso8601)
{
  g_clear_pointer (&walk->clock, g_date_time_unref);
  walk->clock = g_date_time_new_from_iso8601 (iso8601, NULL);
  tell_clock (walk);
}

BondPoint *
demo_walk_point (DemoWalk *walk, const char *number)
{
  BondPoint *point = bond_survey_find_number (walk->survey, number);
  if (point == NULL && walk->error == NULL)
    walk->error = g_error_new (BOND_SURVEY_ERROR, BOND_SURVEY_ERROR_INVALID, "there is no point %s", number);
  return point;
}

void
demo_walk_record (DemoWalk *walk, BondEntry *entry)
{
  g_autofree char *what = g_strdup_printf ("%s of %s: ", bond_entry_kind_info (entry->kind)->name,
                                           entry->point != NULL ? entry->point : "the survey");
  if (walk->error != NULL)
    {
      bond_entry_unref (entry);
      return;
    }
  if (!bond_survey_record_now (walk->survey, entry, &walk->error))
    g_prefix_error (&walk->error, "%s", what);
}

BondEntry *
demo_walk_entry (BondEntryKind kind, BondPoint *point, const char *place)
{
  BondEntry *entry = bond_entry_new (kind);
  entry->point = point != NULL ? g_strdup (bond_point_get_id (point)) : NULL;
  entry->place = g_strdup (place);
  return entry;
}

BondEntry *
demo_walk_newest (DemoWalk *walk, BondPoint *point, BondEntryKind kind)
{
  GPtrArray *entries = bond_survey_get_entries (walk->survey);
  for (guint i = entries->len; point != NULL && i > 0; i--)
    {
      BondEntry *entry = entries->pdata[i - 1];
      if (entry->kind == kind && g_strcmp0 (entry->point, bond_point_get_id (point)) == 0)
        return entry;
    }
  return NULL;
}

/* --- readings --- */

static const BondInstrument *
meter_for (DemoWalk *walk, const BondLimitRow *row)
{
  gboolean high = row != NULL && row->method == BOND_METHOD_MEGOHMMETER;
  return bond_survey_find_instrument (walk->survey, high ? DEMO_MEGOHMMETER : DEMO_MILLIOHMMETER);
}

static BondUnit
unit_for (const BondInstrument *meter)
{
  return meter->kind == BOND_INSTRUMENT_MEGOHMMETER ? BOND_UNIT_MEGOHM : BOND_UNIT_MILLIOHM;
}

/* A range is chosen for the limit first, as an inspector does, and higher when the figure does not fit. */
static const BondRange *
range_for (const BondInstrument *meter, const BondLimitRow *row, BondOhm nohm)
{
  BondOhm limit = row != NULL && row->in_service.upper.relation != BOND_RELATION_NONE ? row->in_service.upper.nohm : 0;
  const BondRange *range = bond_instrument_range_for (meter, MAX (limit, nohm));
  return range != NULL ? range : meter->ranges->pdata[meter->ranges->len - 1];
}

static BondEntry *
reading_entry (BondPoint *point, const char *place, const BondTypedValue *value, const BondInstrument *meter,
               const BondRange *range, const BondEntry *first)
{
  const BondLimitRow *row = bond_point_get_row (point);
  BondEntry *entry = demo_walk_entry (BOND_ENTRY_READING, point, place);
  BondReading *reading = &entry->reading;

  bond_reading_set_typed (reading, value);
  reading->direction = first != NULL ? BOND_DIRECTION_REVERSE : BOND_DIRECTION_FORWARD;
  if (first != NULL)
    reading->of = g_strdup (first->reading.of != NULL ? first->reading.of : first->id);
  reading->instrument = g_strdup (meter->id);
  reading->range = g_strdup (range->id);
  reading->leads = g_strdup (DEMO_LEADS);
  reading->via = g_strdup ("typed");
  reading->confirmed = value->quantity.qualifier == BOND_QUALIFIER_BELOW;
  reading->connectors = row != NULL ? row->connectors : BOND_CONNECTORS_ANY;
  reading->mounting = row != NULL ? row->mounting : BOND_MOUNTING_ANY;
  reading->reference_end = g_strdup ("stud G1");
  return entry;
}

/* A pair taken again belongs to the seating whose first pair did not agree. */
static const char *
pair_to_take_again (BondPoint *point, const char *place)
{
  const BondMeasurement *last = bond_point_get_place (point, place)->last;
  return last != NULL && last->reason == BOND_REASON_PAIR_DISAGREES ? last->id : NULL;
}

void
demo_walk_type (DemoWalk *walk, BondPoint *point, const char *place, const char *text, const char *range_id)
{
  const BondLimitRow *row = point != NULL ? bond_point_get_row (point) : NULL;
  const BondInstrument *meter;
  const BondRange *range;
  BondReadingText typed = { 0 };
  g_autoptr (BondEntry) first = NULL;

  if (walk->error != NULL)
    return;
  meter = meter_for (walk, row);
  range = range_id != NULL ? bond_instrument_find_range (meter, range_id) : range_for (meter, row, 0);
  if (!bond_reading_text_parse (text, unit_for (meter), &bond_number_format_file, range->end, range->step, &typed,
                                &walk->error))
    return;
  if (range_id == NULL && typed.value[0].quantity.qualifier == BOND_QUALIFIER_NONE)
    range = range_for (meter, row, typed.value[0].quantity.nohm);
  first = reading_entry (point, place, &typed.value[0], meter, range, NULL);
  first->reading.planned = typed.n_values;
  first->reading.of = g_strdup (pair_to_take_again (point, place));
  demo_walk_record (walk, bond_entry_ref (first));
  if (typed.n_values == 2)
    {
      demo_walk_wait (walk, 9);
      demo_walk_record (walk, reading_entry (point, place, &typed.value[1], meter, range, first));
    }
  bond_reading_text_clear (&typed);
}

void
demo_walk_measure (DemoWalk *walk, BondPoint *point, const char *place)
{
  double z = gsl_ran_ugaussian (walk->random);
  int shift = (int)gsl_rng_uniform_int (walk->random, 5) - 2;
  const BondLimitRow *row;
  const BondInstrument *meter;
  const BondRange *range;
  g_autofree char *forward = NULL;
  g_autofree char *reverse = NULL;
  g_autofree char *both = NULL;
  BondUnit unit;
  BondOhm nohm;

  if (walk->error != NULL)
    return;
  row = bond_point_get_row (point);
  meter = meter_for (walk, row);
  unit = unit_for (meter);
  nohm = row != NULL ? demo_typical (bond_limit_row_bounds (row, bond_point_get_worst (point)->tier), z)
                     : (BondOhm)(4 + z) * BOND_NOHM_PER_MILLIOHM;
  range = range_for (meter, row, nohm);
  nohm = MAX (nohm / range->step, 6) * range->step;
  forward = bond_ohm_format (nohm, unit, bond_range_decimals (range, unit), '.');
  reverse = bond_ohm_format (nohm + shift * range->step, unit, bond_range_decimals (range, unit), '.');
  both = g_strconcat (forward, " ", reverse, NULL);
  demo_walk_type (walk, point, place, row != NULL && row->pair ? both : forward, NULL);
}
