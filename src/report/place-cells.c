/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * One place as cells of a table for other programs.  The batch table and what is
 * copied or exported from the window must say the same, so both take it from here.
 * Which columns there are is left to them.
 */
#include "report/place-cells.h"

char *
bond_cell_ohm (const BondMeasurement *measurement)
{
  static const char *const sign[]
      = { [BOND_QUALIFIER_NONE] = "", [BOND_QUALIFIER_OVER] = ">", [BOND_QUALIFIER_BELOW] = "<" };
  g_autofree char *ohm = NULL;

  if (measurement == NULL || measurement->mean.count == 0)
    return NULL;
  ohm = bond_ohm_to_file (bond_mean_nohm (&measurement->mean));
  return g_strconcat (sign[measurement->qualifier], ohm, NULL);
}

char *
bond_cell_row (const BondPlaceResult *result)
{
  const BondLimitRow *row = result->row;
  if (row == NULL)
    return g_strdup (result->row_name); /* a name that no set holds is said, so that it is looked for */
  return result->set != NULL ? g_strconcat (result->set->id, "/", row->code, NULL) : g_strdup (row->code);
}

/* What the value of record was judged against; without one, what the next reading will be. */
BondCondition
bond_cell_tier (const BondPlaceResult *result)
{
  return result->decides != NULL ? result->decides->condition : result->tier;
}

char *
bond_cell_used_percent (const BondBounds *bounds, const BondMeasurement *decides)
{
  gint64 permille = -1;
  if (bounds != NULL && decides != NULL && decides->outcome == BOND_OUTCOME_JUDGED
      && decides->qualifier == BOND_QUALIFIER_NONE)
    permille = bond_bounds_used_permille (bounds, &decides->mean);
  return permille < 0 ? NULL : g_strdup_printf ("%" G_GINT64_FORMAT ".%" G_GINT64_FORMAT, permille / 10, permille % 10);
}

/* Of a figure only: "> X" and "< X" have none. */
char *
bond_cell_u_ohm (const BondMeasurement *decides)
{
  gboolean stated = decides != NULL && decides->qualifier == BOND_QUALIFIER_NONE && decides->budget.known;
  return stated ? bond_ohm_to_file (decides->budget.u_nohm) : NULL;
}

/*
 * Of the value of record, in the words of the survey's rule; without one, why the last measurement gave none.
 * A verdict from before a rework is history and not shown here.
 */
const char *
bond_cell_verdict (BondSurvey *survey, const BondPlaceResult *result)
{
  static const char *const zone_words[] = { [BOND_ZONE_WORD_PASS] = "pass",
                                            [BOND_ZONE_WORD_CONDITIONAL_PASS] = "conditional-pass",
                                            [BOND_ZONE_WORD_CONDITIONAL_FAIL] = "conditional-fail",
                                            [BOND_ZONE_WORD_FAIL] = "fail" };
  const BondMeasurement *measurement = result->decides != NULL ? result->decides : result->last;
  if (measurement == NULL || (result->decides == NULL && measurement->outcome == BOND_OUTCOME_JUDGED))
    return NULL;
  if (bond_survey_get_rule (survey) == BOND_RULE_GUARDED && measurement->outcome == BOND_OUTCOME_JUDGED)
    return zone_words[measurement->zone];
  return bond_measurement_said (measurement);
}
