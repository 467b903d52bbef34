/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * Paints one view of an airframe as a person on the hangar floor needs it: quiet
 * zones, a firm outline, numbers that can be read, and words that say which way is
 * forward and which wing is the left one.  The same code serves the window and the
 * page.  Words and numbers are drawn in diagram-words.c; marks, call-outs and what
 * is under the pointer are left to the caller.
 *
 * Geometry is in view units; pens and text are in device units, so that they keep
 * their weight at every zoom: what is drawn as text stands in a space scaled back.
 */
#include "report/diagram-private.h"

#define NO_INK G_MAXSIZE
#define HAIRLINE 0.25

/* Pens in thousandths of the longer side of the view. */
#define PEN_BOUNDARY 0.8
#define PEN_EDGE 1.3
#define PEN_OUTLINE 1.9
#define PEN_MAX 2.0 /* device units: zooming in does not fatten the outline */

typedef struct
{
  const char *klass;
  gsize fill;
  gsize stroke;
  double pen; /* as above */
} Detail;

static const Detail details[] = {
  { "window", BOND_INK (line), NO_INK, 0 },
  { "glass", BOND_INK (line), BOND_INK (outline), 0.5 },
  { "dark", BOND_INK (line), BOND_INK (outline), 0.5 },
  { "tyre", BOND_INK (outline), NO_INK, 0 },
  { "hub", BOND_INK (paper), BOND_INK (outline), 0.7 },
  { "metal", BOND_INK (zone_tint[1]), BOND_INK (outline), 0.7 },
  { "blade", BOND_INK (paper), BOND_INK (outline), 0.8 },
  { "disc", NO_INK, BOND_INK (line), 0.7 },
  { "ground", NO_INK, BOND_INK (line), 0.7 },
  { "hinge", NO_INK, BOND_INK (outline), 0.9 },
  { "wick", NO_INK, BOND_INK (outline), 0.7 },
  { "panel", NO_INK, BOND_INK (line), 0.6 },
  { "rib", NO_INK, BOND_INK (line), 0.5 },
  { NULL, NO_INK, BOND_INK (line), 0.6 }, /* "line" and what a later file may bring */
};

static void
set_rgb (cairo_t *cr, const BondRgb *rgb)
{
  cairo_set_source_rgb (cr, rgb->r, rgb->g, rgb->b);
}

static void
set_pen (BondPaint *paint, double thousandths)
{
  double device = thousandths * paint->side / 1000 * paint->style->scale;

  cairo_set_line_width (paint->cr, CLAMP (device, HAIRLINE, PEN_MAX) / paint->style->scale);
}

static void
stroke_path (BondPaint *paint, const BondPath *path, gsize ink, double pen)
{
  if (path == NULL)
    return;
  bond_path_append (paint->cr, path);
  bond_paint_ink (paint, ink);
  set_pen (paint, pen);
  cairo_stroke (paint->cr);
}

static const Detail *
find_detail (const char *klass)
{
  const Detail *detail = details;

  while (detail->klass != NULL && g_strcmp0 (detail->klass, klass) != 0)
    detail++;
  return detail;
}

static void
paint_details (BondPaint *paint, const char *layer)
{
  guint i;

  for (i = 0; i < paint->view->details->len; i++)
    {
      const BondDetailPath *path = g_ptr_array_index (paint->view->details, i);
      const Detail *detail = find_detail (path->klass);

      if (g_strcmp0 (path->layer, layer) != 0 || path->path == NULL)
        continue;
      bond_path_append (paint->cr, path->path);
      if (detail->fill != NO_INK)
        {
          bond_paint_ink (paint, detail->fill);
          cairo_fill_preserve (paint->cr);
        }
      if (detail->stroke != NO_INK)
        {
          bond_paint_ink (paint, detail->stroke);
          set_pen (paint, detail->pen);
          cairo_stroke_preserve (paint->cr);
        }
      cairo_new_path (paint->cr);
    }
}

/* A zone is lit where it is drawn itself, by one of its parts, or by what it is a part of. */
static gboolean
is_lit (BondPaint *paint, const char *zone)
{
  const char *lit = paint->style->lit_zone;

  return lit != NULL
         && (g_strcmp0 (lit, zone) == 0 || bond_airframe_is_within (paint->airframe, zone, lit)
             || bond_airframe_is_within (paint->airframe, lit, zone));
}

static BondRgb
zone_fill (BondPaint *paint, const char *number)
{
  const BondInks *inks = paint->style->inks;
  const BondZone *zone = bond_airframe_find_zone (paint->airframe, number);
  const BondRgb *tint = &inks->zone_tint[zone != NULL && zone->tint % 2 == 1];
  BondRgb rgb = *tint;

  if (is_lit (paint, number))
    {
      rgb.r += 0.22 * (inks->accent.r - tint->r);
      rgb.g += 0.22 * (inks->accent.g - tint->g);
      rgb.b += 0.22 * (inks->accent.b - tint->b);
    }
  return rgb;
}

static void
append_ring (cairo_t *cr, const GArray *ring)
{
  guint i;

  cairo_new_sub_path (cr);
  for (i = 0; i < ring->len; i++)
    cairo_line_to (cr, g_array_index (ring, BondXY, i).x, g_array_index (ring, BondXY, i).y);
  cairo_close_path (cr);
}

/* Filled and stroked in one colour: without the stroke the seams between zones would show. */
static void
paint_zones (BondPaint *paint)
{
  guint i, j;

  for (i = 0; i < paint->view->shapes->len; i++)
    {
      const BondZoneShape *shape = g_ptr_array_index (paint->view->shapes, i);
      BondRgb rgb = zone_fill (paint, shape->zone);

      for (j = 0; j < shape->rings->len; j++)
        append_ring (paint->cr, g_ptr_array_index (shape->rings, j));
      set_rgb (paint->cr, &rgb);
      cairo_fill_preserve (paint->cr);
      cairo_set_line_width (paint->cr, 0.6 / paint->style->scale);
      cairo_stroke (paint->cr);
    }
}

/* Grows a box by the points of a path; control points are good enough for "fit". */
static void
grow_box (const BondPath *path, BondXY *from, BondXY *to)
{
  guint i, j;

  for (i = 0; path != NULL && i < path->ops->len; i++)
    {
      const BondPathOp *op = &g_array_index (path->ops, BondPathOp, i);
      guint n = op->op == 'C' ? 3 : op->op == 'Z' ? 0 : 1;

      for (j = 0; j < n; j++)
        {
          from->x = MIN (from->x, op->p[j].x);
          from->y = MIN (from->y, op->p[j].y);
          to->x = MAX (to->x, op->p[j].x);
          to->y = MAX (to->y, op->p[j].y);
        }
    }
}

/* Without a usable outline the box of the view. */
static void
outline_box (const BondView *view, BondXY *from, BondXY *to)
{
  *from = (BondXY){ G_MAXDOUBLE, G_MAXDOUBLE };
  *to = (BondXY){ -G_MAXDOUBLE, -G_MAXDOUBLE };
  grow_box (view->outline, from, to);
  if (from->x >= to->x || from->y >= to->y)
    {
      *from = (BondXY){ 0, 0 };
      *to = (BondXY){ view->width, view->height };
    }
}

static void
paint_airframe (BondPaint *paint)
{
  paint_details (paint, "under");
  paint_zones (paint);
  paint_details (paint, "low");
  stroke_path (paint, paint->view->boundaries, BOND_INK (line), PEN_BOUNDARY);
  paint_details (paint, "over");
  stroke_path (paint, paint->view->edges, BOND_INK (outline), PEN_EDGE);
  stroke_path (paint, paint->view->outline, BOND_INK (outline), PEN_OUTLINE);
  paint_details (paint, "top");
}

void
bond_paint_ink (BondPaint *paint, gsize offset)
{
  set_rgb (paint->cr, G_STRUCT_MEMBER_P (paint->style->inks, offset));
}

void
bond_diagram_paint (cairo_t *cr, const BondAirframe *airframe, const BondView *view, const BondDiagramStyle *style)
{
  g_autoptr (PangoLayout) layout = NULL;
  BondPaint paint = { cr, airframe, view, style };
  BondXY from, to;

  g_return_if_fail (cr != NULL && airframe != NULL && view != NULL);
  g_return_if_fail (style != NULL && style->inks != NULL && style->scale > 0);

  layout = bond_paint_layout (cr, style);
  paint.layout = layout;
  paint.side = MAX (view->width, view->height);
  cairo_save (cr);
  cairo_new_path (cr);
  cairo_set_line_join (cr, CAIRO_LINE_JOIN_ROUND);
  cairo_set_line_cap (cr, CAIRO_LINE_CAP_ROUND);
  paint_airframe (&paint);
  cairo_set_line_cap (cr, CAIRO_LINE_CAP_BUTT);
  outline_box (view, &from, &to);
  bond_paint_words (&paint, &from, &to);
  cairo_restore (cr);
}

void
bond_view_bounds (const BondView *view, double *x, double *y, double *width, double *height)
{
  BondXY from, to;

  g_return_if_fail (view != NULL && x != NULL && y != NULL && width != NULL && height != NULL);
  outline_box (view, &from, &to);
  *x = from.x;
  *y = from.y;
  *width = to.x - from.x;
  *height = to.y - from.y;
}

void
bond_path_append (cairo_t *cr, const BondPath *path)
{
  guint i;

  g_return_if_fail (cr != NULL && path != NULL);
  for (i = 0; i < path->ops->len; i++)
    {
      const BondPathOp *op = &g_array_index (path->ops, BondPathOp, i);

      switch (op->op)
        {
        case 'M':
          cairo_move_to (cr, op->p[0].x, op->p[0].y);
          break;
        case 'L':
          cairo_line_to (cr, op->p[0].x, op->p[0].y);
          break;
        case 'C':
          cairo_curve_to (cr, op->p[0].x, op->p[0].y, op->p[1].x, op->p[1].y, op->p[2].x, op->p[2].y);
          break;
        default:
          cairo_close_path (cr);
        }
    }
}

gboolean
bond_diagram_shows (const BondView *view, const BondPointSpec *spec, double *x, double *y)
{
  const BondPlacement *placement;

  g_return_val_if_fail (view != NULL && spec != NULL, FALSE);
  placement = bond_point_spec_in_view (spec, view->id);
  if (placement == NULL || placement->drawn_zone != NULL)
    return FALSE;
  if (x != NULL)
    *x = placement->x;
  if (y != NULL)
    *y = placement->y;
  return TRUE;
}
