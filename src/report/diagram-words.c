/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * Words and numbers on a view: zone numbers at the places the airframe gives them,
 * which way is forward, which wing is the left one, and stations along two edges.
 * Everything here is laid out in device units, so that it reads the same at every
 * zoom; the airframe itself is drawn in diagram-painter.c.
 */
#include "report/diagram-private.h"

#include <glib/gi18n-lib.h>
#include <math.h>

/* The longest label of a view is this share of its longer side in the airframe files. */
#define LABEL_SHARE 0.0115
#define LABEL_LEAST 0.72 /* small zones have smaller numbers, but no smaller than this */

/* Moves to (x, y) in view units and goes on in device units. */
static void
begin_device (BondPaint *paint, double x, double y)
{
  cairo_save (paint->cr);
  cairo_translate (paint->cr, x, y);
  cairo_scale (paint->cr, 1 / paint->style->scale, 1 / paint->style->scale);
}

PangoLayout *
bond_paint_layout (cairo_t *cr, const BondDiagramStyle *style)
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
set_text (BondPaint *paint, const char *text, double size, PangoWeight weight)
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
show_text (BondPaint *paint, double align)
{
  PangoRectangle box;

  pango_cairo_update_layout (paint->cr, paint->layout);
  pango_layout_get_extents (paint->layout, NULL, &box);
  cairo_move_to (paint->cr, -align * box.width / PANGO_SCALE, -0.5 * box.height / PANGO_SCALE);
  pango_cairo_show_layout (paint->cr, paint->layout);
}

static double
label_size (BondPaint *paint, const BondLabel *label)
{
  double share = label->size > 0 ? label->size / (LABEL_SHARE * paint->side) : 1;

  return paint->style->label_size * CLAMP (share, LABEL_LEAST, 1.0);
}

/* The patch of the ground a number with a leader stands on. */
static void
paint_patch (BondPaint *paint, const PangoRectangle *box)
{
  bond_paint_ink (paint, BOND_INK (paper));
  cairo_rectangle (paint->cr, -0.5 * box->width / PANGO_SCALE - 1, -0.4 * box->height / PANGO_SCALE,
                   (double)box->width / PANGO_SCALE + 2, 0.8 * box->height / PANGO_SCALE);
  cairo_fill (paint->cr);
}

static void
paint_leader (BondPaint *paint, const BondLabel *label)
{
  cairo_move_to (paint->cr, label->x, label->y);
  cairo_line_to (paint->cr, label->leader_x, label->leader_y);
  bond_paint_ink (paint, BOND_INK (outline));
  cairo_set_line_width (paint->cr, 0.4 / paint->style->scale);
  cairo_stroke (paint->cr);
}

/* The caller sees the upright box around the number, turned as it will be. */
static gboolean
ask_place (BondPaint *paint, const BondLabel *label, const BondZoneShape *shape, const PangoRectangle *text, double *x,
           double *y)
{
  double width = (double)text->width / PANGO_SCALE / paint->style->scale;
  double height = 0.75 * text->height / PANGO_SCALE / paint->style->scale;
  double across = fabs (cos (label->rotate * G_PI / 180)), up = fabs (sin (label->rotate * G_PI / 180));

  return paint->style->place_label (shape, width * across + height * up, width * up + height * across, x, y,
                                    paint->style->place_data);
}

static void
paint_label (BondPaint *paint, const BondLabel *label, const BondZoneShape *shape)
{
  const BondDiagramStyle *style = paint->style;
  double x = label->x, y = label->y;
  PangoRectangle box;

  set_text (paint, shape->zone, label_size (paint, label), PANGO_WEIGHT_NORMAL);
  pango_layout_get_extents (paint->layout, NULL, &box);
  if (!label->has_leader && style->place_label != NULL && !ask_place (paint, label, shape, &box, &x, &y))
    return;
  if (label->has_leader)
    paint_leader (paint, label);
  begin_device (paint, x, y);
  if (label->has_leader)
    paint_patch (paint, &box);
  if (x == label->x && y == label->y)
    cairo_rotate (paint->cr, label->rotate * G_PI / 180);
  bond_paint_ink (paint, BOND_INK (quiet));
  show_text (paint, 0.5);
  cairo_restore (paint->cr);
}

static void
paint_labels (BondPaint *paint)
{
  guint i, j;

  for (i = 0; i < paint->view->shapes->len; i++)
    {
      const BondZoneShape *shape = g_ptr_array_index (paint->view->shapes, i);

      for (j = 0; j < shape->labels->len; j++)
        paint_label (paint, &g_array_index (shape->labels, BondLabel, j), shape);
    }
}

static const BondAxis *
find_axis (const BondView *view, BondAxisName of)
{
  return view->axis[0].of == of ? &view->axis[0] : view->axis[1].of == of ? &view->axis[1] : NULL;
}

/* An arrow of 14 device units whose tip is at the origin and which points up, turned by @angle. */
static void
paint_arrow (BondPaint *paint, double angle)
{
  cairo_save (paint->cr);
  cairo_rotate (paint->cr, angle);
  cairo_move_to (paint->cr, 0, 14);
  cairo_line_to (paint->cr, 0, 0);
  cairo_move_to (paint->cr, -3.5, 4);
  cairo_line_to (paint->cr, 0, 0);
  cairo_line_to (paint->cr, 3.5, 4);
  bond_paint_ink (paint, BOND_INK (text));
  cairo_set_line_width (paint->cr, 1);
  cairo_stroke (paint->cr);
  cairo_restore (paint->cr);
}

static double
word_size (BondPaint *paint)
{
  return paint->style->label_size > 0 ? MAX (paint->style->label_size, 6.5) : 6;
}

/* The way forward: stations grow aft, so forward is against the axis. */
static void
paint_forward (BondPaint *paint, const BondXY *from, const BondXY *to)
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
paint_side_word (BondPaint *paint, double from_x, double to_x, double y, const char *word)
{
  if ((to_x - from_x) < 0.02 * paint->side)
    return;
  set_text (paint, word, word_size (paint) + 1, PANGO_WEIGHT_SEMIBOLD);
  begin_device (paint, (from_x + to_x) / 2, y);
  bond_paint_ink (paint, BOND_INK (text));
  show_text (paint, 0.5);
  cairo_restore (paint->cr);
}

/* Butt lines are negative to the left of the plane of symmetry. */
static void
paint_sides (BondPaint *paint, const BondXY *from, const BondXY *to)
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
ruler_number (BondPaint *paint, const BondAxis *axis, double value, double align)
{
  g_autofree char *text = NULL;

  if (axis->of == BOND_AXIS_BL && value != 0)
    text = g_strdup_printf ("%s %.0f", value < 0 ? C_ ("butt line", "L") : C_ ("butt line", "R"), fabs (value));
  else
    text = g_strdup_printf ("%s%.0f", value < 0 ? "\u2212" : "", fabs (value));
  set_text (paint, text, MAX (paint->style->label_size * 0.85, 5), PANGO_WEIGHT_NORMAL);
  bond_paint_ink (paint, BOND_INK (quiet));
  show_text (paint, align);
}

static void
ruler_tick (BondPaint *paint, const BondAxis *axis, double value, gboolean major)
{
  double screen = axis->zero + value * axis->sign;
  double length = major ? 5 : 2.5;

  begin_device (paint, axis->vertical ? 0 : screen, axis->vertical ? screen : paint->view->height);
  bond_paint_ink (paint, BOND_INK (line));
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
paint_ruler (BondPaint *paint, const BondAxis *axis, const BondXY *from, const BondXY *to)
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

void
bond_paint_words (BondPaint *paint, const BondXY *from, const BondXY *to)
{
  if (paint->style->label_size > 0)
    paint_labels (paint);
  if (!paint->style->no_sides)
    {
      paint_forward (paint, from, to);
      paint_sides (paint, from, to);
    }
  if (paint->style->rulers)
    {
      paint_ruler (paint, &paint->view->axis[0], from, to);
      paint_ruler (paint, &paint->view->axis[1], from, to);
    }
}
