/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * A place that several limit rows hold for: which of their results governs, and the
 * counts of them all.  Every row is judged by itself in judge.c; all must be met, so
 * the worst speaks for the place and none is dropped.
 */
#include "core/judge-private.h"

guint
bond_place_result_n_rows (const BondPlaceResult *result)
{
  g_return_val_if_fail (result != NULL, 0);
  return 1 + (result->others != NULL ? result->others->len : 0);
}

const BondPlaceResult *
bond_place_result_nth_row (const BondPlaceResult *result, guint nth)
{
  g_return_val_if_fail (result != NULL && nth < bond_place_result_n_rows (result), NULL);
  return nth == 0 ? result : g_ptr_array_index (result->others, nth - 1);
}

int
bond_measurement_badness (const BondMeasurement *measurement)
{
  const BondMeasurement *m = measurement;
  static const int badness[] = {
    [BOND_OUTCOME_NONE] = 0,       [BOND_OUTCOME_JUDGED] = 1,     [BOND_OUTCOME_RECORDED] = 3,
    [BOND_OUTCOME_INCOMPLETE] = 4, [BOND_OUTCOME_NO_VERDICT] = 5, [BOND_OUTCOME_SUSPECT] = 6,
  };

  if (m == NULL || m->outcome != BOND_OUTCOME_JUDGED)
    return m != NULL ? badness[m->outcome] : 0;
  return m->conforms ? badness[BOND_OUTCOME_JUDGED] + m->within_u : 8 - m->within_u;
}

/* Of two rows the one without a limit may not be answered for by one that conforms. */
static int
state_badness (const BondPlaceResult *result)
{
  if (result->state == BOND_STATE_RECORDED)
    return 2 * bond_state_rank (BOND_STATE_NOT_CONFIRMED) + 1;
  return 2 * bond_state_rank (result->state);
}

static gint64
used_permille (const BondPlaceResult *result)
{
  const BondMeasurement *m = result->decides;

  if (m == NULL || m->outcome != BOND_OUTCOME_JUDGED || m->qualifier != BOND_QUALIFIER_NONE)
    return -1;
  return bond_bounds_used_permille (bond_limit_row_bounds (m->row, m->condition), &m->mean);
}

/* Before a reading there is no share to go by: a limit before none, the lower upper bound, < before ≤. */
static int
compare_bounds (const BondBounds *a, const BondBounds *b)
{
  const BondBound *x, *y;

  if (a == NULL || b == NULL)
    return (a != NULL) - (b != NULL);
  x = &a->upper;
  y = &b->upper;
  if (x->relation == BOND_RELATION_NONE || y->relation == BOND_RELATION_NONE)
    return (x->relation != BOND_RELATION_NONE) - (y->relation != BOND_RELATION_NONE);
  if (x->nohm != y->nohm)
    return x->nohm < y->nohm ? 1 : -1;
  return (x->relation == BOND_RELATION_LT) - (y->relation == BOND_RELATION_LT);
}

/* > 0 when @a is the worse of two results of one place. */
static int
compare_rows (const BondPlaceResult *a, const BondPlaceResult *b)
{
  gint64 keys[][2] = {
    { state_badness (a), state_badness (b) },
    { bond_measurement_badness (a->last), bond_measurement_badness (b->last) },
    { bond_measurement_badness (a->decides), bond_measurement_badness (b->decides) },
    { used_permille (a), used_permille (b) },
  };
  guint i;

  for (i = 0; i < G_N_ELEMENTS (keys); i++)
    if (keys[i][0] != keys[i][1])
      return keys[i][0] > keys[i][1] ? 1 : -1;
  return compare_bounds (a->bounds, b->bounds);
}

/* An epoch is the same stretch of time under every row: beyond any limit in it counts once. */
static void
join_epochs (BondPlaceResult *result, const BondPlaceResult *other)
{
  guint i;

  for (i = 0; i < MIN (result->epochs->len, other->epochs->len); i++)
    {
      BondEpoch *epoch = &g_array_index (result->epochs, BondEpoch, i);
      const BondEpoch *also = &g_array_index (other->epochs, BondEpoch, i);

      epoch->beyond |= also->beyond;
      epoch->visual |= also->visual;
      epoch->failed |= also->failed;
    }
}

static int
count_struck_beyond (const BondPlaceResult *result)
{
  g_autoptr (GHashTable) entries = g_hash_table_new (NULL, NULL);
  guint i, j;

  for (i = 0; i < bond_place_result_n_rows (result); i++)
    {
      const BondPlaceResult *row = bond_place_result_nth_row (result, i);

      for (j = 0; j < row->history->len; j++)
        {
          const BondHistoryItem *item = g_ptr_array_index (row->history, j);
          if (bond_history_item_is_struck_beyond (item))
            g_hash_table_add (entries, item->entry);
        }
    }
  return (int)g_hash_table_size (entries);
}

BondPlaceResult *
bond_place_result_join (GPtrArray *results)
{
  BondPlaceResult *worst;
  guint i;

  g_return_val_if_fail (results != NULL && results->len > 0, NULL);
  worst = g_ptr_array_index (results, 0);
  for (i = 1; i < results->len; i++)
    if (compare_rows (g_ptr_array_index (results, i), worst) > 0)
      worst = g_ptr_array_index (results, i);
  if (results->len == 1)
    return worst;
  worst->others = g_ptr_array_new_with_free_func ((GDestroyNotify)bond_place_result_free);
  for (i = 0; i < results->len; i++)
    {
      BondPlaceResult *other = g_ptr_array_index (results, i);

      if (other == worst)
        continue;
      g_ptr_array_add (worst->others, other);
      join_epochs (worst, other);
    }
  bond_place_result_count (worst);
  worst->over_limit_taken_back = count_struck_beyond (worst);
  return worst;
}

const BondMeasurement *
bond_place_result_measurement_of (const BondPlaceResult *result, const BondEntry *entry)
{
  const BondMeasurement *worst = NULL;
  guint i;

  g_return_val_if_fail (result != NULL && entry != NULL, NULL);
  for (i = 0; i < bond_place_result_n_rows (result); i++)
    {
      const BondHistoryItem *item = bond_place_result_find (bond_place_result_nth_row (result, i), entry);
      const BondMeasurement *m = item != NULL ? item->measurement : NULL;

      if (m != NULL && (worst == NULL || bond_measurement_badness (m) > bond_measurement_badness (worst)))
        worst = m;
    }
  return worst;
}
