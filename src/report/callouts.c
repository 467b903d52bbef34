/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * Where the words of call-outs stand beside a diagram.  A leader runs level from
 * its words to the mark's own x and then straight to the mark.  Words get the
 * nearest free heights in the order of their marks, then two whose leaders cross
 * change places until none do; where that does not end well the caller prints
 * numbers and a list instead.  Pure geometry.
 */
#include "report/report-private.h"

#include <math.h>

#define MOST_ROUNDS 400

static int
compare_height (gconstpointer a, gconstpointer b)
{
  const BondCallout *p = *(const BondCallout *const *)a, *q = *(const BondCallout *const *)b;

  return p->y != q->y ? (p->y < q->y ? -1 : 1) : (p->x > q->x) - (p->x < q->x);
}

static gboolean
between (double value, double a, double b)
{
  return value > MIN (a, b) - 1e-6 && value < MAX (a, b) + 1e-6;
}

/* Whether the level part of @a meets the upright part of @b. */
static gboolean
level_meets_upright (const BondCallout *a, const BondCallout *b, double side_x)
{
  return between (b->x, side_x, a->x) && between (a->label_y, b->label_y, b->y);
}

/* Whether the upright part of @a runs through the words of @b. */
static gboolean
upright_meets_words (const BondCallout *a, const BondCallout *b, double side_x)
{
  double top = b->label_y - BOND_CALLOUT_ASCENT, bottom = b->label_y + BOND_CALLOUT_DESCENT;

  return a->x > side_x - 2 && a->x < side_x + b->width + 2 && MAX (a->label_y, a->y) > top
         && MIN (a->label_y, a->y) < bottom;
}

gboolean
bond_callouts_cross (const BondCallout *a, const BondCallout *b, double left_x, double right_x)
{
  double a_side = a->right ? right_x : left_x, b_side = b->right ? right_x : left_x;

  if (level_meets_upright (a, b, a_side) || level_meets_upright (b, a, b_side))
    return TRUE;
  if (upright_meets_words (a, b, b_side) || upright_meets_words (b, a, a_side))
    return TRUE;
  /* Uprights on one line, one over the other. */
  return a->x == b->x && between (a->label_y, b->label_y, b->y);
}

/*
 * The slots that cost least in sum of |slot - mark|, in the order of the marks: cost[j] of the first i marks in the
 * first j slots, from which the way back is read off.
 */
static gboolean
assign (GPtrArray *side, const double *slots, int n_slots)
{
  int n = (int)side->len, i, j;
  g_autofree double *cost = g_new0 (double, (gsize)(n + 1) * (gsize)(n_slots + 1));
  gsize wide = (gsize)n_slots + 1;

  if (n > n_slots)
    return FALSE;
  for (i = 1; i <= n; i++)
    for (j = 0; j <= n_slots; j++)
      {
        const BondCallout *callout = g_ptr_array_index (side, i - 1);
        double *here = &cost[(gsize)i * wide + (gsize)j];

        *here = G_MAXDOUBLE;
        if (j >= i)
          *here = MIN (here[-1], cost[(gsize)(i - 1) * wide + (gsize)(j - 1)] + fabs (slots[j - 1] - callout->y));
      }
  for (i = n, j = n_slots; i > 0; j--)
    if (j == i || cost[(gsize)i * wide + (gsize)j] < cost[(gsize)i * wide + (gsize)(j - 1)])
      ((BondCallout *)g_ptr_array_index (side, --i))->label_y = slots[j - 1];
  return TRUE;
}

static gboolean
swap_one_crossing (GPtrArray *side, double left_x, double right_x)
{
  guint i, j;

  for (i = 0; i < side->len; i++)
    for (j = i + 1; j < side->len; j++)
      {
        BondCallout *a = g_ptr_array_index (side, i), *b = g_ptr_array_index (side, j);

        if (bond_callouts_cross (a, b, left_x, right_x))
          {
            double y = a->label_y;

            a->label_y = b->label_y;
            b->label_y = y;
            return TRUE;
          }
      }
  return FALSE;
}

static gboolean
any_crossing (const BondCallout *callouts, int n, double left_x, double right_x)
{
  int i, j;

  for (i = 0; i < n; i++)
    for (j = i + 1; j < n; j++)
      if (bond_callouts_cross (&callouts[i], &callouts[j], left_x, right_x))
        return TRUE;
  return FALSE;
}

gboolean
bond_callouts_place (BondCallout *callouts, int n, double left_x, double right_x, const BondSlots *left,
                     const BondSlots *right)
{
  const BondSlots *slots[] = { left, right };
  int on_right, i, round;

  for (on_right = 0; on_right < 2; on_right++)
    {
      g_autoptr (GPtrArray) side = g_ptr_array_new ();

      for (i = 0; i < n; i++)
        if (callouts[i].right == (gboolean)on_right)
          g_ptr_array_add (side, &callouts[i]);
      g_ptr_array_sort (side, compare_height);
      if (!assign (side, slots[on_right]->y, slots[on_right]->n))
        return FALSE;
      for (round = 0; round < MOST_ROUNDS && swap_one_crossing (side, left_x, right_x); round++)
        ;
    }
  return !any_crossing (callouts, n, left_x, right_x);
}
