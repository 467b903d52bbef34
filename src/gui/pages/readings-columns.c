/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * What each column says.  Screen and file differ on purpose: the screen speaks the
 * user's language and unit, a file plain ohms and the words of the batch table.
 */
#include "gui/pages/readings-columns.h"
#include "gui/pages/readings-compare.h"
#include "gui/words.h"
#include "report/marks.h"
#include "report/place-cells.h"
#include <glib/gi18n-lib.h>

static const BondPointSpec *
spec_of (BondReadingsRow *row)
{
  return bond_point_get_spec (bond_readings_row_get_point (row));
}

const BondBounds *
bond_readings_bounds (BondReadingsRow *row)
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
bond_readings_limit (BondReadingsRow *row, gboolean with_unit)
{
  const BondPlaceResult *result = bond_readings_row_get_result (row);
  const BondBounds *bounds = bond_readings_bounds (row);
  g_autofree char *limit = NULL;

  if (bounds == NULL || !bond_bounds_any (bounds))
    return g_strdup (result->row != NULL ? bond_method_name (result->row->method) : _ ("no limit"));
  limit = bond_bounds_format (bounds, bond_locale_mark (), with_unit);
  if (!result->row->has_strict)
    return g_steal_pointer (&limit);
  return g_strdup_printf ("%s, %s", limit, bond_words_tier (bond_cell_tier (result)));
}

static char *
limit_text (BondReadingsRow *row)
{
  return bond_readings_limit (row, TRUE);
}

static char *
value_text (BondReadingsRow *row, const BondMeasurement *measurement)
{
  if (measurement == NULL || measurement->mean.count == 0)
    return NULL;
  return bond_words_result (bond_readings_row_get_survey (row), measurement, bond_readings_row_get_unit (row), FALSE);
}

/* Only where it is not the result, too. */
static char *
found_text (BondReadingsRow *row)
{
  return bond_readings_blank_found (row) ? NULL : value_text (row, bond_readings_row_get_result (row)->found);
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

char *
bond_readings_spoken_verdict (BondReadingsRow *row)
{
  return verdict_text (row);
}

char *
bond_readings_spoken_result (BondReadingsRow *row)
{
  g_autofree char *result = result_text (row);

  return result != NULL ? g_strdup_printf ("%s %s", result, bond_unit_spoken (bond_readings_row_get_unit (row))) : NULL;
}

gint64
bond_readings_used (BondReadingsRow *row)
{
  const BondMeasurement *value = bond_readings_row_get_value (row);
  const BondBounds *bounds = bond_readings_bounds (row);

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
  const BondBounds *bounds = bond_readings_bounds (row);

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
  return bond_cell_used_percent (bond_readings_bounds (row), bond_readings_row_get_result (row)->decides);
}

static char *
when_cell (BondReadingsRow *row)
{
  const BondMeasurement *value = bond_readings_row_get_value (row);

  return value != NULL ? g_strdup (value->at) : NULL;
}

/* Widths suffice for what the demo says in them, in the default type. */
static const BondReadingsColumn columns[BOND_N_READINGS_COLUMNS] = {
  { "verdict", N_ ("Verdict"), "verdict", BOND_READINGS_LOOK_MARK, 146, 200, 0, FALSE, FALSE, FALSE, verdict_text,
    verdict_cell, bond_readings_compare_verdict, NULL },
  { "point", N_ ("Point"), "point", BOND_READINGS_LOOK_STRONG, 100, 104, 0, FALSE, FALSE, FALSE, point_text, point_text,
    bond_readings_compare_point, NULL },
  { "what", N_ ("What It Is"), "what", BOND_READINGS_LOOK_TEXT, 150, 330, 0, TRUE, FALSE, FALSE, what_text, what_text,
    bond_readings_compare_what, NULL },
  { "class", N_ ("Class"), "class", BOND_READINGS_LOOK_CLASS, 66, 150, 5, FALSE, FALSE, FALSE, class_text, class_cell,
    bond_readings_compare_class, NULL },
  { "zone", N_ ("Zone"), "zone", BOND_READINGS_LOOK_TEXT, 54, 54, 6, FALSE, TRUE, FALSE, zone_text, zone_text,
    bond_readings_compare_zone, NULL },
  { "limit", N_ ("Limit"), "limit_ohm", BOND_READINGS_LOOK_LIMIT, 120, 180, 0, FALSE, FALSE, FALSE, limit_text,
    limit_cell, bond_readings_compare_limit, bond_readings_blank_limit },
  { "found", N_ ("As Found"), "found_ohm", BOND_READINGS_LOOK_FOUND, 120, 120, 2, FALSE, FALSE, TRUE, found_text,
    found_cell, bond_readings_compare_found, bond_readings_blank_found },
  { "result", N_ ("Result"), "result_ohm", BOND_READINGS_LOOK_RESULT, 114, 114, 0, FALSE, FALSE, TRUE, result_text,
    result_cell, bond_readings_compare_result, bond_readings_blank_value },
  { "u", N_ ("U"), "U_ohm", BOND_READINGS_LOOK_NUMBER, 76, 76, 0, FALSE, FALSE, TRUE, u_text, u_cell,
    bond_readings_compare_u, bond_readings_blank_u },
  { "used", N_ ("% of Limit"), "used_percent", BOND_READINGS_LOOK_USED, 124, 124, 1, FALSE, FALSE, TRUE, used_text,
    used_cell, bond_readings_compare_used, bond_readings_blank_used },
  { "meter", N_ ("Meter"), "meter", BOND_READINGS_LOOK_QUIET, 72, 130, 4, FALSE, FALSE, FALSE, meter_text, meter_text,
    bond_readings_compare_meter, bond_readings_blank_value },
  { "by", N_ ("Measured By"), "measured_by", BOND_READINGS_LOOK_QUIET, 108, 160, 7, FALSE, TRUE, FALSE, by_text,
    by_text, bond_readings_compare_by, bond_readings_blank_value },
  { "when", N_ ("When"), "when", BOND_READINGS_LOOK_QUIET, 108, 108, 3, FALSE, FALSE, FALSE, when_text, when_cell,
    bond_readings_compare_when, bond_readings_blank_value },
};

const BondReadingsColumn *
bond_readings_columns (void)
{
  return columns;
}
