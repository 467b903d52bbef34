/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * Where the words of call-outs stand beside a diagram.  A leader runs level from
 * its words to the mark's own x and then straight to the mark.  Starting in the
 * order of height, two that cross change places until none do; where that does not
 * end well the caller prints numbers and a list instead.  Pure geometry.
 */
#include "report/report-private.h"

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

gboolean
bond_callouts_cross (const BondCallout *a, const BondCallout *b, double left_x, double right_x)
{
  double a_side = a->right ? right_x : left_x, b_side = b->right ? right_x : left_x;

  if (level_meets_upright (a, b, a_side) || level_meets_upright (b, a, b_side))
    return TRUE;
  /* Uprights on one line, one over the other. */
  return a->x == b->x && between (a->label_y, b->label_y, b->y);
}

/* Even steps as near to the marks as they fit: pushed down from the top, then up from the bottom. */
static gboolean
spread (GPtrArray *side, double top, double bottom, double pitch)
{
  double y = top;
  guint i;

  if (side->len > 0 && top + (side->len - 1) * pitch > bottom)
    return FALSE;
  for (i = 0; i < side->len; i++)
    {
      BondCallout *callout = g_ptr_array_index (side, i);

      callout->label_y = MAX (y, callout->y - pitch);
      y = callout->label_y + pitch;
    }
  y = bottom;
  for (i = side->len; i > 0; i--)
    {
      BondCallout *callout = g_ptr_array_index (side, i - 1);

      callout->label_y = MIN (y, callout->label_y);
      y = callout->label_y - pitch;
    }
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
bond_callouts_place (BondCallout *callouts, int n, double left_x, double right_x, double top, double bottom,
                     double pitch)
{
  int right, i, round;

  for (right = 0; right < 2; right++)
    {
      g_autoptr (GPtrArray) side = g_ptr_array_new ();

      for (i = 0; i < n; i++)
        if (callouts[i].right == (gboolean)right)
          g_ptr_array_add (side, &callouts[i]);
      g_ptr_array_sort (side, compare_height);
      if (!spread (side, top, bottom, pitch))
        return FALSE;
      for (round = 0; round < MOST_ROUNDS && swap_one_crossing (side, left_x, right_x); round++)
        ;
    }
  return !any_crossing (callouts, n, left_x, right_x);
}
