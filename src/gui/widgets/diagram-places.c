/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * Groups: a panel of bolts or the legs of a strap is one mark, and close up its
 * places stand round it, each with its own verdict.  Places that are not asked are
 * dots.  Which mark each has is worked out in diagram-layout.c.
 */
#include "gui/widgets/diagram-private.h"

#include <math.h>

#define PLACES_FROM 2.5  /* closeness from which on places are drawn one by one */
#define PLACE_SHARE 0.58 /* of the plate of the group */
#define PLACE_STEP 1.3   /* plates between places */
#define ROW_STEP 1.2     /* plates between two rows */
#define ROW_MOST 15      /* places in one row */
#define RING_LEAST 1.75  /* plates of the group from its middle to the ring */
#define LABEL_DROP 0.75  /* plates from the middle of a single mark to its label */

double
bond_places_size (double size)
{
  return MAX (8.0, size * PLACE_SHARE);
}

static double
arrange_ring (guint n, double size, BondXY *offset)
{
  double place = bond_places_size (size);
  double radius = MAX (RING_LEAST * size, n * PLACE_STEP * place / (2.0 * G_PI));
  guint i;

  for (i = 0; i < n; i++)
    {
      double angle = 2.0 * G_PI * i / n - G_PI_2;

      offset[i].x = radius * cos (angle);
      offset[i].y = radius * sin (angle);
    }
  return radius + place * 0.75;
}

/* Rows of equal length under the mark, as short as the number of rows allows. */
static double
arrange_row (guint n, double size, BondXY *offset)
{
  double place = bond_places_size (size);
  guint n_rows = (n + ROW_MOST - 1) / ROW_MOST;
  guint columns = (n + n_rows - 1) / n_rows;
  guint i;

  for (i = 0; i < n; i++)
    {
      guint row = i / columns, in_row = MIN (columns, n - row * columns);

      offset[i].x = ((i % columns) - (in_row - 1) / 2.0) * place * PLACE_STEP;
      offset[i].y = size * 0.85 + row * place * ROW_STEP;
    }
  return size * 0.85 + (n_rows - 1) * place * ROW_STEP + place * 0.75;
}

static double
arrange_legs (guint n, double size, BondXY *offset)
{
  double place = bond_places_size (size);
  guint i;

  for (i = 0; i < n; i++)
    offset[i] = (BondXY){ (i - (n - 1) / 2.0) * place * PLACE_STEP, size * 1.5 };
  return size * 1.5 + place * 0.75;
}

double
bond_places_arrange (BondArrangement arrangement, guint n, double size, BondXY *offset)
{
  switch (arrangement)
    {
    case BOND_ARRANGEMENT_RING:
      return arrange_ring (n, size, offset);
    case BOND_ARRANGEMENT_LEGS:
      return arrange_legs (n, size, offset);
    default:
      return arrange_row (n, size, offset);
    }
}

gboolean
bond_diagram_has_places (BondDiagram *self, BondPoint *point)
{
  return bond_point_get_places (point)->len > 1
         && (bond_diagram_closeness (self) >= PLACES_FROM || bond_diagram_in_zone (self, point));
}

double
bond_diagram_label_drop (BondDiagram *self, BondPoint *point)
{
  double size = bond_diagram_mark_size (self);
  GPtrArray *places;
  g_autofree BondXY *offset = NULL;

  if (!bond_diagram_has_places (self, point))
    return size * LABEL_DROP;
  places = bond_point_get_places (point);
  offset = g_new (BondXY, places->len);
  return bond_places_arrange (bond_point_get_spec (point)->arrangement, places->len, size, offset);
}

int
bond_diagram_find_place (BondPoint *point, const char *place)
{
  GPtrArray *places = bond_point_get_places (point);
  guint i;

  for (i = 0; place != NULL && i < places->len; i++)
    if (g_strcmp0 (((const BondPlaceResult *)g_ptr_array_index (places, i))->place, place) == 0)
      return (int)i;
  return -1;
}

/* A ring shows as a thin circle behind its places, a strap as lines from its end to each leg. */
void
bond_diagram_draw_group (BondDiagram *self, cairo_t *cr, const BondStand *stand)
{
  const BondInks *inks = bond_diagram_inks (self);
  BondPoint *point = bond_mark_field_get (self->field, stand->index)->point;
  BondArrangement arrangement = bond_point_get_spec (point)->arrangement;
  guint i, n = bond_point_get_places (point)->len;
  double size = bond_diagram_mark_size (self);
  g_autofree BondXY *offset = g_new (BondXY, n);

  bond_places_arrange (arrangement, n, size, offset);
  cairo_new_path (cr);
  if (arrangement == BOND_ARRANGEMENT_RING)
    cairo_arc (cr, stand->px, stand->py, -offset[0].y, 0.0, 2.0 * G_PI);
  for (i = 0; arrangement == BOND_ARRANGEMENT_LEGS && i < n; i++)
    {
      cairo_move_to (cr, stand->px, stand->py + size * 0.3);
      cairo_line_to (cr, stand->px + offset[i].x, stand->py + offset[i].y);
    }
  cairo_set_source_rgb (cr, inks->quiet.r, inks->quiet.g, inks->quiet.b);
  cairo_set_line_width (cr, 1.0);
  cairo_stroke (cr);
}
