/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * What each column says.  Screen and file differ on purpose: the screen speaks the
 * user's language and unit, a file plain ohms and the words of the batch table.
 */
#include "gui/pages/readings-columns.h"
#include "gui/words.h"
#include "report/marks.h"
#include "report/place-cells.h"
#include <glib/gi18n-lib.h>

static const BondPointSpec *
spec_of (BondReadingsRow *row)
{
  return bond_point_get_spec (bond_readings_row_get_point (row));
}

static const BondBounds *
bounds_of (BondReadingsRow *row)
{
  const BondPlaceResult *result = bond_readings_row_get_result (row);

  return result->row != NULL ? bond_limit_row_bounds (result->row, bond_cell_tier (result)) : NULL;
}

/* --- what they say on the screen --- */

static char *
verdict_text (BondReadingsRow *row)
{
  const BondPlaceResult *result = bond_readings_row_get_result (row);

  if (result->decides == NULL)
    return bond_words_sentence (bond_state_name (result->state));
  return bond_words_sentence (
      bond_mark_name (bond_mark_for (result, bond_survey_get_rule (bond_readings_row_get_survey (row)))));
}

static char *
point_text (BondReadingsRow *row)
{
  const BondPlaceResult *result = bond_readings_row_get_result (row);

  if (result->place == NULL)
    return g_strdup (spec_of (row)->number);
  return g_strdup_printf ("%s · %s", spec_of (row)->number, result->label != NULL ? result->label : result->place);
}

static char *
what_text (BondReadingsRow *row)
{
  return g_strdup_printf (_ ("%s to %s"), spec_of (row)->from, spec_of (row)->to);
}

static char *
class_text (BondReadingsRow *row)
{
  return g_strdup (bond_class_name (spec_of (row)->klass));
}

static char *
zone_text (BondReadingsRow *row)
{
  return g_strdup (bond_readings_row_get_zone (row));
}

char *
bond_readings_limit (BondReadingsRow *row)
{
  const BondPlaceResult *result = bond_readings_row_get_result (row);
  const BondBounds *bounds = bounds_of (row);
  g_autofree char *limit = NULL;

  if (bounds == NULL || !bond_bounds_any (bounds))
    return g_strdup (result->row != NULL ? bond_method_name (result->row->method) : _ ("no limit"));
  limit = bond_bounds_format (bounds, bond_locale_mark (), TRUE);
  if (!result->row->has_strict)
    return g_steal_pointer (&limit);
  return g_strdup_printf ("%s, %s", limit, bond_words_tier (bond_cell_tier (result)));
}

static char *
value_text (BondReadingsRow *row, const BondMeasurement *measurement)
{
  if (measurement == NULL || measurement->mean.count == 0)
    return NULL;
  return bond_words_result (bond_readings_row_get_survey (row), measurement, bond_readings_row_get_unit (row), FALSE);
}

static char *
found_text (BondReadingsRow *row)
{
  return value_text (row, bond_readings_row_get_result (row)->found);
}

static char *
result_text (BondReadingsRow *row)
{
  return value_text (row, bond_readings_row_get_value (row));
}

static char *
u_text (BondReadingsRow *row)
{
  const BondMeasurement *value = bond_readings_row_get_value (row);
  BondUnit unit = bond_readings_row_get_unit (row);

  if (value == NULL || value->mean.count == 0 || value->qualifier != BOND_QUALIFIER_NONE)
    return NULL;
  if (!value->budget.known)
    return g_strdup (_ ("unknown"));
  return bond_uncertainty_format (value->budget.u_nohm, unit,
                                  bond_words_decimals (bond_readings_row_get_survey (row), value, unit),
                                  bond_locale_mark ());
}

gint64
bond_readings_used (BondReadingsRow *row)
{
  const BondMeasurement *value = bond_readings_row_get_value (row);
  const BondBounds *bounds = bounds_of (row);

  if (bounds == NULL || value == NULL || value->outcome != BOND_OUTCOME_JUDGED
      || value->qualifier != BOND_QUALIFIER_NONE)
    return -1;
  return bond_bounds_used_permille (bounds, &value->mean);
}

/* Decimals until it is seen on which side of 100 % it is. */
static char *
used_text (BondReadingsRow *row)
{
  gint64 permille = bond_readings_used (row);
  g_autofree char *digits = NULL;

  if (permille < 0)
    return NULL;
  digits = bond_ratio_format (permille, 10, permille > 990 && permille < 1010 ? 1 : 0, bond_locale_mark ());
  return g_strdup_printf (_ ("%s\302\240%%"), digits);
}

static char *
meter_text (BondReadingsRow *row)
{
  return g_strdup (bond_readings_row_get_instrument (row));
}

static char *
by_text (BondReadingsRow *row)
{
  const BondMeasurement *value = bond_readings_row_get_value (row);

  return value != NULL && value->by != NULL
             ? g_strdup (bond_survey_person_name (bond_readings_row_get_survey (row), value->by))
             : NULL;
}

static char *
when_text (BondReadingsRow *row)
{
  const BondMeasurement *value = bond_readings_row_get_value (row);

  return value != NULL && value->at != NULL ? bond_words_when (bond_readings_row_get_survey (row), value->at) : NULL;
}

/* --- what they say in a file --- */

static char *
verdict_cell (BondReadingsRow *row)
{
  const BondPlaceResult *result = bond_readings_row_get_result (row);

  if (result->state != BOND_STATE_PASS && result->state != BOND_STATE_FAIL)
    return g_strdup (bond_state_file_name (result->state));
  return g_strdup (bond_cell_verdict (bond_readings_row_get_survey (row), result));
}

static char *
class_cell (BondReadingsRow *row)
{
  return g_strdup (bond_class_file_name (spec_of (row)->klass));
}

static char *
limit_cell (BondReadingsRow *row)
{
  const BondBounds *bounds = bounds_of (row);

  return bounds != NULL ? bond_bounds_to_file (bounds) : NULL;
}

static char *
found_cell (BondReadingsRow *row)
{
  return bond_cell_ohm (bond_readings_row_get_result (row)->found);
}

static char *
result_cell (BondReadingsRow *row)
{
  return bond_cell_ohm (bond_readings_row_get_result (row)->decides);
}

static char *
u_cell (BondReadingsRow *row)
{
  return bond_cell_u_ohm (bond_readings_row_get_result (row)->decides);
}

static char *
used_cell (BondReadingsRow *row)
{
  return bond_cell_used_percent (bounds_of (row), bond_readings_row_get_result (row)->decides);
}

static char *
when_cell (BondReadingsRow *row)
{
  const BondMeasurement *value = bond_readings_row_get_value (row);

  return value != NULL ? g_strdup (value->at) : NULL;
}

/* --- order --- */

static int
sign (double difference)
{
  return (difference > 0) - (difference < 0);
}

static double
nohm_of (const BondMeasurement *measurement)
{
  return measurement != NULL && measurement->mean.count > 0 ? (double)bond_mean_nohm (&measurement->mean)
                                                            : -G_MAXDOUBLE;
}

static int
compare_verdict (BondReadingsRow *a, BondReadingsRow *b)
{
  return bond_state_rank (bond_readings_row_get_result (b)->state)
         - bond_state_rank (bond_readings_row_get_result (a)->state);
}

static int
compare_found (BondReadingsRow *a, BondReadingsRow *b)
{
  return sign (nohm_of (bond_readings_row_get_result (a)->found) - nohm_of (bond_readings_row_get_result (b)->found));
}

static int
compare_result (BondReadingsRow *a, BondReadingsRow *b)
{
  return sign (nohm_of (bond_readings_row_get_value (a)) - nohm_of (bond_readings_row_get_value (b)));
}

static double
u_of (BondReadingsRow *row)
{
  const BondMeasurement *value = bond_readings_row_get_value (row);

  return value != NULL && value->budget.known ? (double)value->budget.u_nohm : -1;
}

static int
compare_u (BondReadingsRow *a, BondReadingsRow *b)
{
  return sign (u_of (a) - u_of (b));
}

static int
compare_used (BondReadingsRow *a, BondReadingsRow *b)
{
  return sign ((double)bond_readings_used (a) - (double)bond_readings_used (b));
}

static double
limit_of (BondReadingsRow *row)
{
  const BondBounds *bounds = bounds_of (row);

  if (bounds == NULL)
    return -1;
  return (double)(bounds->upper.relation != BOND_RELATION_NONE ? bounds->upper.nohm : bounds->lower.nohm);
}

static int
compare_limit (BondReadingsRow *a, BondReadingsRow *b)
{
  return sign (limit_of (a) - limit_of (b));
}

static int
compare_class (BondReadingsRow *a, BondReadingsRow *b)
{
  return (int)spec_of (a)->klass - (int)spec_of (b)->klass;
}

static int
compare_point (BondReadingsRow *a, BondReadingsRow *b)
{
  return g_strcmp0 (spec_of (a)->number, spec_of (b)->number);
}

static int
compare_what (BondReadingsRow *a, BondReadingsRow *b)
{
  return g_utf8_collate (spec_of (a)->from, spec_of (b)->from);
}

static int
compare_zone (BondReadingsRow *a, BondReadingsRow *b)
{
  return g_strcmp0 (bond_readings_row_get_zone (a), bond_readings_row_get_zone (b));
}

static int
compare_meter (BondReadingsRow *a, BondReadingsRow *b)
{
  return g_strcmp0 (bond_readings_row_get_instrument (a), bond_readings_row_get_instrument (b));
}

static int
compare_by (BondReadingsRow *a, BondReadingsRow *b)
{
  g_autofree char *first = by_text (a);
  g_autofree char *second = by_text (b);

  return g_utf8_collate (first != NULL ? first : "", second != NULL ? second : "");
}

/* The offset counts: two stations may keep different time. */
static int
compare_when (BondReadingsRow *a, BondReadingsRow *b)
{
  g_autofree char *text[2] = { when_cell (a), when_cell (b) };
  gint64 at[2] = { G_MININT64, G_MININT64 };

  for (int i = 0; i < 2; i++)
    {
      g_autoptr (GDateTime) time = text[i] != NULL ? g_date_time_new_from_iso8601 (text[i], NULL) : NULL;

      if (time != NULL)
        at[i] = g_date_time_to_unix (time);
    }
  return (at[0] > at[1]) - (at[0] < at[1]);
}

static const BondReadingsColumn columns[BOND_N_READINGS_COLUMNS] = {
  { "verdict", N_ ("Verdict"), "verdict", BOND_READINGS_LOOK_MARK, 138, FALSE, FALSE, verdict_text, verdict_cell,
    compare_verdict },
  { "point", N_ ("Point"), "point", BOND_READINGS_LOOK_STRONG, 86, FALSE, FALSE, point_text, point_text,
    compare_point },
  { "what", N_ ("What It Is"), "what", BOND_READINGS_LOOK_TEXT, 150, TRUE, FALSE, what_text, what_text, compare_what },
  { "class", N_ ("Class"), "class", BOND_READINGS_LOOK_CLASS, 100, FALSE, FALSE, class_text, class_cell,
    compare_class },
  { "zone", N_ ("Zone"), "zone", BOND_READINGS_LOOK_TEXT, 46, FALSE, FALSE, zone_text, zone_text, compare_zone },
  { "limit", N_ ("Limit"), "limit_ohm", BOND_READINGS_LOOK_TEXT, 152, FALSE, FALSE, bond_readings_limit, limit_cell,
    compare_limit },
  { "found", N_ ("As Found"), "found_ohm", BOND_READINGS_LOOK_NUMBER, 90, FALSE, TRUE, found_text, found_cell,
    compare_found },
  { "result", N_ ("Result"), "result_ohm", BOND_READINGS_LOOK_RESULT, 92, FALSE, TRUE, result_text, result_cell,
    compare_result },
  { "u", N_ ("U"), "U_ohm", BOND_READINGS_LOOK_NUMBER, 90, FALSE, TRUE, u_text, u_cell, compare_u },
  { "used", N_ ("% of Limit"), "used_percent", BOND_READINGS_LOOK_USED, 116, FALSE, TRUE, used_text, used_cell,
    compare_used },
  { "meter", N_ ("Meter"), "meter", BOND_READINGS_LOOK_QUIET, 64, FALSE, FALSE, meter_text, meter_text, compare_meter },
  { "by", N_ ("Measured By"), "measured_by", BOND_READINGS_LOOK_QUIET, 92, FALSE, FALSE, by_text, by_text, compare_by },
  { "when", N_ ("When"), "when", BOND_READINGS_LOOK_QUIET, 96, FALSE, FALSE, when_text, when_cell, compare_when },
};

const BondReadingsColumn *
bond_readings_columns (void)
{
  return columns;
}
