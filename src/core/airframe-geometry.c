/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * Where things lie: which zone a place in a view belongs to, what stations it
 * stands for, and the way back.  A coordinate the view does not show stays not
 * known: it is never filled with 0.
 */
#include "core/airframe.h"

#include <math.h>

/* Twice the area of the triangle a b c: above 0 when c lies left of a→b. */
static double
turn (const BondXY *a, const BondXY *b, const BondXY *c)
{
  return (b->x - a->x) * (c->y - a->y) - (b->y - a->y) * (c->x - a->x);
}

static gboolean
in_box (const BondXY *a, const BondXY *b, const BondXY *p)
{
  return p->x >= MIN (a->x, b->x) && p->x <= MAX (a->x, b->x) && p->y >= MIN (a->y, b->y) && p->y <= MAX (a->y, b->y);
}

static gboolean
on_side (const BondXY *a, const BondXY *b, const BondXY *p)
{
  return in_box (a, b, p) && turn (a, b, p) == 0;
}

/* Whether the sides a b and c d have a point in common. */
static gboolean
sides_meet (const BondXY *a, const BondXY *b, const BondXY *c, const BondXY *d)
{
  double abc = turn (a, b, c), abd = turn (a, b, d), cda = turn (c, d, a), cdb = turn (c, d, b);

  if (((abc > 0 && abd < 0) || (abc < 0 && abd > 0)) && ((cda > 0 && cdb < 0) || (cda < 0 && cdb > 0)))
    return TRUE;
  return on_side (a, b, c) || on_side (a, b, d) || on_side (c, d, a) || on_side (c, d, b);
}

static const BondXY *
corner (const GArray *ring, guint i)
{
  return &g_array_index (ring, BondXY, i % ring->len);
}

/* Sides i and j, i < j: neighbours share a corner and must not double back, others must not meet. */
static gboolean
pair_is_simple (const GArray *ring, guint i, guint j)
{
  const BondXY *a = corner (ring, i), *b = corner (ring, i + 1);
  const BondXY *c = corner (ring, j), *d = corner (ring, j + 1);

  if (j == i + 1)
    return !on_side (a, b, d) && !on_side (c, d, a);
  if (i == 0 && j == ring->len - 1)
    return !on_side (a, b, c) && !on_side (c, d, b);
  return !sides_meet (a, b, c, d);
}

gboolean
bond_ring_is_simple (const GArray *ring)
{
  guint i, j;

  g_return_val_if_fail (ring != NULL, FALSE);
  if (ring->len < 3)
    return FALSE;
  for (i = 0; i < ring->len; i++)
    {
      const BondXY *a = corner (ring, i), *b = corner (ring, i + 1);

      if (a->x == b->x && a->y == b->y)
        return FALSE;
    }
  for (i = 0; i < ring->len; i++)
    for (j = i + 1; j < ring->len; j++)
      if (!pair_is_simple (ring, i, j))
        return FALSE;
  return TRUE;
}

/*
 * Even-odd count of the sides to the right of @p; a side itself belongs to the ring.  Each side is taken from its lower
 * end, whichever way round the ring goes: two rings that share it round alike, so no place falls between them.
 */
static gboolean
ring_contains (const GArray *ring, const BondXY *p)
{
  gboolean inside = FALSE;
  guint i;

  for (i = 0; i < ring->len; i++)
    {
      const BondXY *a = corner (ring, i), *b = corner (ring, i + 1);
      const BondXY *low = a->y < b->y ? a : b, *high = low == a ? b : a;

      if (on_side (low, high, p))
        return TRUE;
      if (low->y <= p->y && high->y > p->y && turn (low, high, p) > 0)
        inside = !inside;
    }
  return inside;
}

gboolean
bond_zone_shape_contains (const BondZoneShape *shape, double x, double y)
{
  const BondXY p = { x, y };
  guint i;

  g_return_val_if_fail (shape != NULL, FALSE);
  for (i = 0; i < shape->rings->len; i++)
    if (ring_contains (g_ptr_array_index (shape->rings, i), &p))
      return TRUE;
  return FALSE;
}

const BondZoneShape *
bond_view_hit (const BondView *view, double x, double y)
{
  guint i;

  g_return_val_if_fail (view != NULL, NULL);
  if (!isfinite (x) || !isfinite (y))
    return NULL;
  for (i = 0; i < view->shapes->len; i++)
    {
      const BondZoneShape *shape = g_ptr_array_index (view->shapes, i);

      if (bond_zone_shape_contains (shape, x, y))
        return shape;
    }
  return NULL;
}

void
bond_view_coordinates (const BondView *view, double x, double y, BondCoordinate *sta, BondCoordinate *bl,
                       BondCoordinate *wl)
{
  BondCoordinate *all[] = { sta, bl, wl };
  gsize i;

  g_return_if_fail (view != NULL && sta != NULL && bl != NULL && wl != NULL);
  for (i = 0; i < G_N_ELEMENTS (all); i++)
    *all[i] = (BondCoordinate){ FALSE, 0 };
  for (i = 0; i < G_N_ELEMENTS (view->axis); i++)
    {
      const BondAxis *axis = &view->axis[i];

      *all[axis->of] = (BondCoordinate){ TRUE, ((axis->vertical ? y : x) - axis->zero) * axis->sign };
    }
}

gboolean
bond_view_place (const BondView *view, const BondCoordinate *sta, const BondCoordinate *bl, const BondCoordinate *wl,
                 double *x, double *y)
{
  const BondCoordinate *all[] = { sta, bl, wl };
  double screen[2] = { 0, 0 };
  gsize i;

  g_return_val_if_fail (view != NULL && sta != NULL && bl != NULL && wl != NULL && x != NULL && y != NULL, FALSE);
  for (i = 0; i < G_N_ELEMENTS (view->axis); i++)
    {
      const BondAxis *axis = &view->axis[i];

      if (!all[axis->of]->known)
        return FALSE;
      screen[axis->vertical ? 1 : 0] = all[axis->of]->value * axis->sign + axis->zero; /* 1 ÷ ±1 is ±1 */
    }
  *x = screen[0];
  *y = screen[1];
  return TRUE;
}

gboolean
bond_view_is_main (const BondView *view)
{
  static const char *const main_views[] = { "plan-upper", "plan-lower", "side-left", "side-right", "front", NULL };

  g_return_val_if_fail (view != NULL, FALSE);
  return g_strv_contains (main_views, view->id);
}

/* Digits of @value, not negative, in tenths at most: "801", "759.1". */
static char *
tenths_text (double value, char mark)
{
  gint64 tenths = llround (value * 10);

  if (tenths % 10 == 0)
    return g_strdup_printf ("%" G_GINT64_FORMAT, tenths / 10);
  return g_strdup_printf ("%" G_GINT64_FORMAT "%c%d", tenths / 10, mark, (int)(tenths % 10));
}

char *
bond_coordinate_format (BondAxisName axis, const BondCoordinate *coordinate, char mark)
{
  g_autofree char *digits = NULL;
  int sign;

  g_return_val_if_fail (coordinate != NULL, NULL);
  if (!coordinate->known)
    return NULL;
  digits = tenths_text (fabs (coordinate->value), mark);
  sign = strcmp (digits, "0") == 0 ? 0 : coordinate->value < 0 ? -1 : 1;
  /* Butt lines are spoken as left and right of the centre, not as signed numbers. */
  if (axis == BOND_AXIS_BL && sign != 0)
    return g_strdup_printf ("%s %s", sign < 0 ? "L" : "R", digits);
  return g_strdup_printf ("%s %s%s", bond_axis_symbol (axis), sign < 0 ? "−" : "", digits);
}
