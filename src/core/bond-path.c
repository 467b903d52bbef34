/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * Joints summed to a path and held against its limit.  Means of different counts are
 * brought to one count, so that the sum stays exact; how it stands to the limit is
 * left to measurement-bounds.c, its uncertainty to uncertainty.c.
 */
#include "core/bond-path.h"

#include <glib/gi18n-lib.h>

static void
set_fault (BondPathResult *result, BondPathFault fault, guint at)
{
  result->fault = fault;
  result->at = at;
}

static gboolean
stands_before (const BondPathJoint *joints, guint at)
{
  guint i;

  for (i = 0; i < at; i++)
    if (joints[i].point == joints[at].point && g_strcmp0 (joints[i].place, joints[at].place) == 0)
      return TRUE;
  return FALSE;
}

static const BondPlaceResult *
find_place (const BondPathJoint *joint)
{
  const BondPlaceResult *only = bond_point_get_place (joint->point, NULL);

  if (joint->place == NULL)
    return bond_point_get_places (joint->point)->len == 1 && only->place == NULL ? only : NULL;
  return bond_point_get_place (joint->point, joint->place);
}

/* A joint that is marked as not there or not reached has no value of record, whatever was read before. */
static gboolean
is_measured (const BondPlaceResult *place)
{
  switch (place->state)
    {
    case BOND_STATE_NOT_ACCESSIBLE:
    case BOND_STATE_NOT_FITTED:
    case BOND_STATE_NOT_APPLICABLE:
    case BOND_STATE_NOT_IN_SAMPLE:
      return FALSE;
    default:
      return place->decides != NULL
             && (place->decides->outcome == BOND_OUTCOME_JUDGED || place->decides->outcome == BOND_OUTCOME_RECORDED);
    }
}

/* The values of record in order; NULL with the fault set. (transfer container) */
static GPtrArray *
collect (BondPathResult *result, const BondPathJoint *joints, guint n)
{
  g_autoptr (GPtrArray) values = g_ptr_array_new ();
  guint i;

  if (n == 0)
    set_fault (result, BOND_PATH_FAULT_EMPTY, 0);
  for (i = 0; i < n && result->fault == BOND_PATH_FAULT_NONE; i++)
    {
      const BondPlaceResult *place = find_place (&joints[i]);

      if (place == NULL)
        set_fault (result, BOND_PATH_FAULT_PLACE, i);
      else if (stands_before (joints, i))
        set_fault (result, BOND_PATH_FAULT_TWICE, i);
      else if (!is_measured (place))
        set_fault (result, BOND_PATH_FAULT_NOT_MEASURED, i);
      else
        g_ptr_array_add (values, (gpointer)place->decides);
    }
  return result->fault == BOND_PATH_FAULT_NONE ? g_steal_pointer (&values) : NULL;
}

static BondQualifier
qualifier_of (GPtrArray *values)
{
  BondQualifier qualifier = BOND_QUALIFIER_NONE;
  guint i;

  for (i = 0; i < values->len; i++)
    {
      const BondMeasurement *m = g_ptr_array_index (values, i);

      if (m->qualifier == BOND_QUALIFIER_OVER)
        return BOND_QUALIFIER_OVER;
      if (m->qualifier == BOND_QUALIFIER_BELOW)
        qualifier = BOND_QUALIFIER_BELOW;
    }
  return qualifier;
}

static guint64
greatest_divisor (guint64 a, guint64 b)
{
  while (b != 0)
    {
      guint64 rest = a % b;

      a = b;
      b = rest;
    }
  return a;
}

/* The least count that every mean can be brought to; 0 when it is too large for exact sums. */
static int
common_count (GPtrArray *values)
{
  guint64 count = 1;
  guint i;

  for (i = 0; i < values->len; i++)
    {
      guint64 one = (guint64)MAX (1, ((const BondMeasurement *)values->pdata[i])->mean.count);

      count = count / greatest_divisor (count, one) * one;
      if (count * values->len > G_MAXINT)
        return 0;
    }
  return (int)count;
}

/* Σ of the means as one mean: the sum of every reading, each as often as brings its mean to the common count. */
static void
add_up (BondMeasurement *sum, GPtrArray *values)
{
  guint i;

  for (i = 0; i < values->len; i++)
    {
      const BondMeasurement *m = g_ptr_array_index (values, i);
      const BondMean *mean = &m->mean;
      int times = sum->mean.count / mean->count;

      if (m->qualifier == BOND_QUALIFIER_BELOW && sum->qualifier == BOND_QUALIFIER_OVER)
        continue; /* may be as good as nothing */
      sum->mean.sum += mean->sum * times;
      sum->mean.n_rest += mean->n_rest * times;
      sum->mean.rest_mixed |= mean->rest_mixed || (sum->mean.rest != 0 && mean->rest == -sum->mean.rest);
      if (sum->mean.rest == 0)
        sum->mean.rest = mean->rest;
    }
}

static const char *
meter_of (const BondMeasurement *m)
{
  return m->readings->len > 0 ? bond_entry_get_reading (g_ptr_array_index (m->readings, 0))->instrument : NULL;
}

static void
fill_rest (BondMeasurement *sum, GPtrArray *values)
{
  g_autofree const BondBudget **budgets = g_new (const BondBudget *, values->len);
  g_autofree const char **meters = g_new (const char *, values->len);
  guint i;

  for (i = 0; i < values->len; i++)
    {
      const BondMeasurement *m = g_ptr_array_index (values, i);

      budgets[i] = &m->budget;
      meters[i] = meter_of (m);
      g_ptr_array_extend (sum->readings, m->readings, NULL, NULL);
      sum->step = MAX (sum->step, m->step);
      if (sum->condition == BOND_CONDITION_UNDISTURBED)
        sum->condition = m->condition;
    }
  bond_budget_sum (&sum->budget, budgets, meters, values->len);
}

BondPathResult *
bond_path_judge (const BondPathJoint *joints, guint n, const BondLimitRow *row, BondRule rule)
{
  g_autoptr (GPtrArray) values = NULL;
  BondPathResult *result;
  BondMeasurement *sum;

  g_return_val_if_fail (n == 0 || joints != NULL, NULL);
  result = g_new0 (BondPathResult, 1);
  sum = result->sum = bond_measurement_new ();
  sum->row = row;
  values = collect (result, joints, n);
  if (values == NULL)
    return result;
  sum->mean.count = common_count (values);
  if (row != NULL && row->scope != BOND_SCOPE_PATH)
    set_fault (result, BOND_PATH_FAULT_SCOPE, 0);
  else if (sum->mean.count == 0)
    set_fault (result, BOND_PATH_FAULT_SUM, 0);
  if (result->fault != BOND_PATH_FAULT_NONE)
    {
      sum->mean.count = 0;
      return result;
    }
  sum->qualifier = qualifier_of (values);
  sum->below_resolution = sum->qualifier == BOND_QUALIFIER_BELOW;
  add_up (sum, values);
  fill_rest (sum, values);
  bond_measurement_hold_against (sum, row != NULL ? bond_limit_row_bounds (row, sum->condition) : NULL, FALSE, rule);
  return result;
}

void
bond_path_result_free (BondPathResult *result)
{
  if (result == NULL)
    return;
  bond_measurement_free (result->sum);
  g_free (result);
}

char *
bond_path_fault_words (const BondPathResult *result, const BondPathJoint *joints)
{
  const char *number;

  g_return_val_if_fail (result != NULL, NULL);
  if (result->fault == BOND_PATH_FAULT_NONE)
    return NULL;
  if (result->fault == BOND_PATH_FAULT_EMPTY)
    return g_strdup (_ ("No path: it has no joint. Choose its joints."));
  if (result->fault == BOND_PATH_FAULT_SCOPE)
    return g_strdup (_ ("No path: this limit is of one joint. Choose a limit of a whole path."));
  if (result->fault == BOND_PATH_FAULT_SUM)
    return g_strdup (_ ("No path: its joints were measured with too many different numbers of repeats for an exact "
                        "sum. Measure them alike."));
  g_return_val_if_fail (joints != NULL, NULL);
  number = bond_point_get_number (joints[result->at].point);
  if (result->fault == BOND_PATH_FAULT_TWICE)
    return g_strdup_printf (_ ("No path: %s stands in it twice. Take one out."), number);
  if (result->fault == BOND_PATH_FAULT_PLACE)
    return g_strdup_printf (_ ("No path: %s has several places. Name the one the path runs through."), number);
  return g_strdup_printf (_ ("No path: %s is not measured. Measure it; a sum of the rest would be too low."), number);
}
