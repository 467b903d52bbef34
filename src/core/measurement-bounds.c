/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * A measured value held against its limit: figures by the survey's decision rule,
 * "> X" and "< X" by what they say for certain.  The value itself, of a seating or of
 * a path, is put together elsewhere.
 */
#include "core/measurement.h"

static void
set_outcome (BondMeasurement *m, BondOutcome outcome, BondReason reason)
{
  m->outcome = outcome;
  m->reason = reason;
}

static void
judge_figure (BondMeasurement *m, const BondBounds *bounds, BondRule rule)
{
  m->zone = bond_bounds_zone (bounds, &m->mean, m->budget.known ? m->budget.u_nohm : 0);
  m->within_u
      = m->budget.known && (m->zone == BOND_ZONE_WORD_CONDITIONAL_PASS || m->zone == BOND_ZONE_WORD_CONDITIONAL_FAIL);
  m->conforms = rule == BOND_RULE_GUARDED ? m->zone == BOND_ZONE_WORD_PASS : bond_bounds_conform (bounds, &m->mean);
}

/* What conforms as "< X" or "> X" does so under guarded acceptance only with U added: @sign 1 below an upper @bound, -1
 * above a lower. */
static void
guard_qualifier (BondMeasurement *m, BondOhm bound, int sign)
{
  BondOhm u = MIN (m->budget.u_nohm, G_MAXINT64 - bound);

  if (!m->budget.known)
    set_outcome (m, BOND_OUTCOME_NO_VERDICT, BOND_REASON_U_UNKNOWN);
  else if (sign * bond_mean_compare (&m->mean, bound - sign * u) > 0)
    set_outcome (m, BOND_OUTCOME_NO_VERDICT, BOND_REASON_U_TOO_LARGE);
  m->conforms = m->outcome == BOND_OUTCOME_JUDGED;
}

/* R > X.  An upper bound is broken for certain when X ≥ bound; a lower one is kept when X ≥ bound. */
static void
judge_over (BondMeasurement *m, const BondBounds *bounds, BondRule rule)
{
  gboolean upper = bounds->upper.relation != BOND_RELATION_NONE;

  if (upper && bond_mean_compare (&m->mean, bounds->upper.nohm) >= 0)
    m->conforms = FALSE;
  else if (!upper && bond_mean_compare (&m->mean, bounds->lower.nohm) >= 0)
    m->conforms = TRUE;
  else
    set_outcome (m, BOND_OUTCOME_NO_VERDICT, BOND_REASON_RANGE_TOO_LOW);
  if (m->conforms && rule == BOND_RULE_GUARDED)
    guard_qualifier (m, bounds->lower.nohm, -1);
  m->zone = m->conforms ? BOND_ZONE_WORD_PASS : BOND_ZONE_WORD_FAIL;
}

/* R < X.  A lower bound is broken for certain when X ≤ bound; an upper one is kept when X ≤ bound. */
static void
judge_below (BondMeasurement *m, const BondBounds *bounds, BondRule rule)
{
  gboolean lower = bounds->lower.relation != BOND_RELATION_NONE;

  if (lower && bond_mean_compare (&m->mean, bounds->lower.nohm) <= 0)
    m->conforms = FALSE;
  else if (!lower && bond_mean_compare (&m->mean, bounds->upper.nohm) <= 0)
    m->conforms = TRUE;
  else
    set_outcome (m, BOND_OUTCOME_NO_VERDICT, BOND_REASON_RANGE_TOO_COARSE);
  if (m->conforms && rule == BOND_RULE_GUARDED)
    guard_qualifier (m, bounds->upper.nohm, 1);
  m->zone = m->conforms ? BOND_ZONE_WORD_PASS : BOND_ZONE_WORD_FAIL;
}

void
bond_measurement_hold_against (BondMeasurement *measurement, const BondBounds *bounds, gboolean limit_missing,
                               BondRule rule)
{
  BondMeasurement *m = measurement;

  g_return_if_fail (m != NULL && m->mean.count > 0);
  if (limit_missing)
    set_outcome (m, BOND_OUTCOME_NO_VERDICT, BOND_REASON_LIMIT_MISSING);
  else if (bounds == NULL || !bond_bounds_any (bounds))
    set_outcome (m, BOND_OUTCOME_RECORDED, BOND_REASON_NONE);
  else
    {
      set_outcome (m, BOND_OUTCOME_JUDGED, BOND_REASON_NONE);
      if (m->qualifier == BOND_QUALIFIER_OVER)
        judge_over (m, bounds, rule);
      else if (m->qualifier == BOND_QUALIFIER_BELOW)
        judge_below (m, bounds, rule);
      else if (rule == BOND_RULE_GUARDED && !m->budget.known)
        set_outcome (m, BOND_OUTCOME_NO_VERDICT, BOND_REASON_U_UNKNOWN);
      else
        judge_figure (m, bounds, rule);
    }
}
