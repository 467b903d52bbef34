/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * Paints one view of an airframe as a person on the hangar floor needs it: quiet
 * zones, a firm outline, numbers that can be read, and words that say which way is
 * forward and which wing is the left one.  The same code serves the window and the
 * page.  Marks, call-outs and what is under the pointer are left to the caller.
 *
 * Geometry is in view units; pens and text are in device units, so that they keep
 * their weight at every zoom: what is drawn as text stands in a space scaled back.
 */
#include "report/diagram-painter.h"

#include <glib/gi18n-lib.h>
#include <math.h>
#include <string.h>

#define NO_INK G_MAXSIZE
#define INK(field) G_STRUCT_OFFSET (BondInks, field)
#define HAIRLINE 0.25

/* Pens in thousandths of the longer side of the view. */
#define PEN_BOUNDARY 0.8
#define PEN_EDGE 1.3
#define PEN_OUTLINE 1.9
#define PEN_MAX 2.0 /* device units: zooming in does not fatten the outline */

/* The longest label of a view is this share of its longer side in the airframe files. */
#define LABEL_SHARE 0.0115
#define LABEL_LEAST 0.72 /* small zones have smaller numbers, but no smaller than this */

typedef struct
{
  const char *klass;
  gsize fill;
  gsize stroke;
  double pen; /* as above */
} Detail;

static const Detail details[] = {
  { "window", INK (line), NO_INK, 0 },
  { "glass", INK (line), INK (outline), 0.5 },
  { "dark", INK (line), INK (outline), 0.5 },
  { "tyre", INK (outline), NO_INK, 0 },
  { "hub", INK (paper), INK (outline), 0.7 },
  { "metal", INK (zone_tint[1]), INK (outline), 0.7 },
  { "blade", INK (paper), INK (outline), 0.8 },
  { "disc", NO_INK, INK (line), 0.7 },
  { "ground", NO_INK, INK (line), 0.7 },
  { "hinge", NO_INK, INK (outline), 0.9 },
  { "wick", NO_INK, INK (outline), 0.7 },
  { "panel", NO_INK, INK (line), 0.6 },
  { "rib", NO_INK, INK (line), 0.5 },
  { NULL, NO_INK, INK (line), 0.6 }, /* "line" and what a later file may bring */
};

/* What one painting needs at every step. */
typedef struct
{
  cairo_t *cr;
  const BondAirframe *airframe;
  const BondView *view;
  const BondDiagramStyle *style;
  PangoLayout *layout;
  double side; /* longer side of the view */
} Paint;

static void
set_rgb (cairo_t *cr, const BondRgb *rgb)
{
  cairo_set_source_rgb (cr, rgb->r, rgb->g, rgb->b);
}

static void
set_ink (Paint *paint, gsize offset)
{
  set_rgb (paint->cr, G_STRUCT_MEMBER_P (paint->style->inks, offset));
}

static void
set_pen (Paint *paint, double thousandths)
{
  double device = thousandths * paint->side / 1000 * paint->style->scale;

  cairo_set_line_width (paint->cr, CLAMP (device, HAIRLINE, PEN_MAX) / paint->style->scale);
}

static void
stroke_path (Paint *paint, const BondPath *path, gsize ink, double pen)
{
  if (path == NULL)
    return;
  bond_path_append (paint->cr, path);
  set_ink (paint, ink);
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
paint_details (Paint *paint, const char *layer)
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
          set_ink (paint, detail->fill);
          cairo_fill_preserve (paint->cr);
        }
      if (detail->stroke != NO_INK)
        {
          set_ink (paint, detail->stroke);
          set_pen (paint, detail->pen);
          cairo_stroke_preserve (paint->cr);
        }
      cairo_new_path (paint->cr);
    }
}

/* A zone is lit where it is drawn itself, by one of its parts, or by what it is a part of. */
static gboolean
is_lit (Paint *paint, const char *zone)
{
  const char *lit = paint->style->lit_zone;

  return lit != NULL
         && (g_strcmp0 (lit, zone) == 0 || bond_airframe_is_within (paint->airframe, zone, lit)
             || bond_airframe_is_within (paint->airframe, lit, zone));
}

static BondRgb
zone_fill (Paint *paint, const char *number)
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
paint_zones (Paint *paint)
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

/* Moves to (x, y) in view units and goes on in device units. */
static void
begin_device (Paint *paint, double x, double y)
{
  cairo_save (paint->cr);
  cairo_translate (paint->cr, x, y);
  cairo_scale (paint->cr, 1 / paint->style->scale, 1 / paint->style->scale);
}

static PangoLayout *
make_layout (cairo_t *cr, const BondDiagramStyle *style)
{
  g_autoptr (PangoFontDescription) font = pango_font_description_from_string (style->font ? style->font : "Sans");
  g_autoptr (PangoAttrList) attributes = pango_attr_list_new ();
  PangoLayout *layout = pango_cairo_create_layout (cr);

  pango_context_set_round_glyph_positions (pango_layout_get_context (layout), FALSE);
  pango_layout_set_font_description (layout, font);
  pango_attr_list_insert (attributes, pango_attr_font_features_new ("tnum=1"));
  pango_layout_set_attributes (layout, attributes);
  return layout;
}

static void
set_text (Paint *paint, const char *text, double size, PangoWeight weight)
{
  g_autoptr (PangoFontDescription) font
      = pango_font_description_copy (pango_layout_get_font_description (paint->layout));

  pango_font_description_set_absolute_size (font, size * PANGO_SCALE);
  pango_font_description_set_weight (font, weight);
  pango_layout_set_font_description (paint->layout, font);
  pango_layout_set_text (paint->layout, text, -1);
}

/* Shows the layout's text with its middle, or the share @align of its width, at the origin. */
static void
show_text (Paint *paint, double align)
{
  PangoRectangle box;

  pango_cairo_update_layout (paint->cr, paint->layout);
  pango_layout_get_extents (paint->layout, NULL, &box);
  cairo_move_to (paint->cr, -align * box.width / PANGO_SCALE, -0.5 * box.height / PANGO_SCALE);
  pango_cairo_show_layout (paint->cr, paint->layout);
}

static double
label_size (Paint *paint, const BondLabel *label)
{
  double share = label->size > 0 ? label->size / (LABEL_SHARE * paint->side) : 1;

  return paint->style->label_size * CLAMP (share, LABEL_LEAST, 1.0);
}

static void
paint_label (Paint *paint, const BondLabel *label, const char *zone)
{
  if (label->has_leader)
    {
      cairo_move_to (paint->cr, label->x, label->y);
      cairo_line_to (paint->cr, label->leader_x, label->leader_y);
      set_ink (paint, INK (outline));
      cairo_set_line_width (paint->cr, 0.4 / paint->style->scale);
      cairo_stroke (paint->cr);
    }
  set_text (paint, zone, label_size (paint, label), PANGO_WEIGHT_NORMAL);
  begin_device (paint, label->x, label->y);
  if (label->has_leader)
    {
      PangoRectangle box;

      /* The number stands at the end of its leader, on a patch of the ground. */
      pango_layout_get_extents (paint->layout, NULL, &box);
      set_ink (paint, INK (paper));
      cairo_rectangle (paint->cr, -0.5 * box.width / PANGO_SCALE - 1, -0.4 * box.height / PANGO_SCALE,
                       (double)box.width / PANGO_SCALE + 2, 0.8 * box.height / PANGO_SCALE);
      cairo_fill (paint->cr);
    }
  cairo_rotate (paint->cr, label->rotate * G_PI / 180);
  set_ink (paint, INK (quiet));
  show_text (paint, 0.5);
  cairo_restore (paint->cr);
}

static void
paint_labels (Paint *paint)
{
  guint i, j;

  for (i = 0; i < paint->view->shapes->len; i++)
    {
      const BondZoneShape *shape = g_ptr_array_index (paint->view->shapes, i);

      for (j = 0; j < shape->labels->len; j++)
        paint_label (paint, &g_array_index (shape->labels, BondLabel, j), shape->zone);
    }
}

static const BondAxis *
find_axis (const BondView *view, BondAxisName of)
{
  return view->axis[0].of == of ? &view->axis[0] : view->axis[1].of == of ? &view->axis[1] : NULL;
}

/* An arrow of 14 device units whose tip is at the origin and which points up, turned by @angle. */
static void
paint_arrow (Paint *paint, double angle)
{
  cairo_save (paint->cr);
  cairo_rotate (paint->cr, angle);
  cairo_move_to (paint->cr, 0, 14);
  cairo_line_to (paint->cr, 0, 0);
  cairo_move_to (paint->cr, -3.5, 4);
  cairo_line_to (paint->cr, 0, 0);
  cairo_line_to (paint->cr, 3.5, 4);
  set_ink (paint, INK (text));
  cairo_set_line_width (paint->cr, 1);
  cairo_stroke (paint->cr);
  cairo_restore (paint->cr);
}

static double
word_size (Paint *paint)
{
  return paint->style->label_size > 0 ? MAX (paint->style->label_size, 6.5) : 6;
}

/* The way forward: stations grow aft, so forward is against the axis. */
static void
paint_forward (Paint *paint, const BondXY *from, const BondXY *to)
{
  const BondAxis *sta = find_axis (paint->view, BOND_AXIS_STA);
  const BondAxis *bl = find_axis (paint->view, BOND_AXIS_BL);
  double middle = (from->x + to->x) / 2;

  if (sta == NULL)
    return;
  if (sta->vertical)
    {
      if (bl != NULL && bl->zero > from->x && bl->zero < to->x)
        middle = bl->zero;
      begin_device (paint, middle, sta->sign > 0 ? from->y : to->y);
      cairo_translate (paint->cr, 0, sta->sign > 0 ? -20 : 20);
      paint_arrow (paint, sta->sign > 0 ? 0 : G_PI);
      cairo_translate (paint->cr, 7, sta->sign > 0 ? 7 : -7);
    }
  else
    {
      begin_device (paint, sta->sign > 0 ? from->x : to->x, from->y);
      paint_arrow (paint, sta->sign > 0 ? -G_PI_2 : G_PI_2);
      cairo_translate (paint->cr, sta->sign > 0 ? 20 : -20, 0);
    }
  set_text (paint, _ ("FWD"), word_size (paint), PANGO_WEIGHT_SEMIBOLD);
  show_text (paint, sta->vertical || sta->sign > 0 ? 0 : 1);
  cairo_restore (paint->cr);
}

static void
paint_side_word (Paint *paint, double from_x, double to_x, double y, const char *word)
{
  if ((to_x - from_x) < 0.02 * paint->side)
    return;
  set_text (paint, word, word_size (paint) + 1, PANGO_WEIGHT_SEMIBOLD);
  begin_device (paint, (from_x + to_x) / 2, y);
  set_ink (paint, INK (text));
  show_text (paint, 0.5);
  cairo_restore (paint->cr);
}

/* Butt lines are negative to the left of the plane of symmetry. */
static void
paint_sides (Paint *paint, const BondXY *from, const BondXY *to)
{
  const BondAxis *bl = find_axis (paint->view, BOND_AXIS_BL);
  double zero, y = from->y + 0.02 * paint->side;

  if (bl == NULL || bl->vertical || paint->style->label_size <= 0)
    return;
  zero = CLAMP (bl->zero, from->x, to->x);
  paint_side_word (paint, from->x, zero, y, bl->sign > 0 ? _ ("LEFT") : _ ("RIGHT"));
  paint_side_word (paint, zero, to->x, y, bl->sign > 0 ? _ ("RIGHT") : _ ("LEFT"));
}

static void
ruler_number (Paint *paint, const BondAxis *axis, double value, double align)
{
  g_autofree char *text = NULL;

  if (axis->of == BOND_AXIS_BL && value != 0)
    text = g_strdup_printf ("%s %.0f", value < 0 ? C_ ("butt line", "L") : C_ ("butt line", "R"), fabs (value));
  else
    text = g_strdup_printf ("%s%.0f", value < 0 ? "\u2212" : "", fabs (value));
  set_text (paint, text, MAX (paint->style->label_size * 0.85, 5), PANGO_WEIGHT_NORMAL);
  set_ink (paint, INK (quiet));
  show_text (paint, align);
}

static void
ruler_tick (Paint *paint, const BondAxis *axis, double value, gboolean major)
{
  double screen = axis->zero + value * axis->sign;
  double length = major ? 5 : 2.5;

  begin_device (paint, axis->vertical ? 0 : screen, axis->vertical ? screen : paint->view->height);
  set_ink (paint, INK (line));
  cairo_set_line_width (paint->cr, 0.5);
  cairo_move_to (paint->cr, 0, 0);
  cairo_line_to (paint->cr, axis->vertical ? length : 0, axis->vertical ? 0 : -length);
  cairo_stroke (paint->cr);
  if (major)
    {
      cairo_translate (paint->cr, axis->vertical ? 8 : 0, axis->vertical ? 0 : -11);
      ruler_number (paint, axis, value, axis->vertical ? 0 : 0.5);
    }
  cairo_restore (paint->cr);
}

static void
paint_ruler (Paint *paint, const BondAxis *axis, const BondXY *from, const BondXY *to)
{
  double first = axis->vertical ? from->y : from->x, last = axis->vertical ? to->y : to->x;
  double low = (first - axis->zero) * axis->sign, high = (last - axis->zero) * axis->sign;
  double step = paint->view->ruler_minor > 0 ? paint->view->ruler_minor : paint->view->ruler_major;
  gint64 i, each = step > 0 ? llround (paint->view->ruler_major / step) : 0;

  if (step <= 0 || each <= 0 || fabs (high - low) / step > 2000)
    return;
  for (i = llround (ceil (MIN (low, high) / step)); i <= llround (floor (MAX (low, high) / step)); i++)
    if (i % each == 0 || step * paint->style->scale > 3)
      ruler_tick (paint, axis, (double)i * step, i % each == 0);
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
paint_airframe (Paint *paint)
{
  paint_details (paint, "under");
  paint_zones (paint);
  paint_details (paint, "low");
  stroke_path (paint, paint->view->boundaries, INK (line), PEN_BOUNDARY);
  paint_details (paint, "over");
  stroke_path (paint, paint->view->edges, INK (outline), PEN_EDGE);
  stroke_path (paint, paint->view->outline, INK (outline), PEN_OUTLINE);
  paint_details (paint, "top");
}

static void
paint_words (Paint *paint)
{
  BondXY from, to;

  outline_box (paint->view, &from, &to);
  if (paint->style->label_size > 0)
    paint_labels (paint);
  paint_forward (paint, &from, &to);
  paint_sides (paint, &from, &to);
  if (paint->style->rulers)
    {
      paint_ruler (paint, &paint->view->axis[0], &from, &to);
      paint_ruler (paint, &paint->view->axis[1], &from, &to);
    }
}

void
bond_diagram_paint (cairo_t *cr, const BondAirframe *airframe, const BondView *view, const BondDiagramStyle *style)
{
  g_autoptr (PangoLayout) layout = NULL;
  Paint paint = { cr, airframe, view, style };

  g_return_if_fail (cr != NULL && airframe != NULL && view != NULL);
  g_return_if_fail (style != NULL && style->inks != NULL && style->scale > 0);

  layout = make_layout (cr, style);
  paint.layout = layout;
  paint.side = MAX (view->width, view->height);
  cairo_save (cr);
  cairo_new_path (cr);
  cairo_set_line_join (cr, CAIRO_LINE_JOIN_ROUND);
  cairo_set_line_cap (cr, CAIRO_LINE_CAP_ROUND);
  paint_airframe (&paint);
  cairo_set_line_cap (cr, CAIRO_LINE_CAP_BUTT);
  paint_words (&paint);
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
