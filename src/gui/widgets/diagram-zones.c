/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * The ground the marks stand on: the airframe, the zone the work is in, and zone
 * numbers.  A number stands where the airframe says, else near it inside its zone;
 * where marks, their labels or other numbers leave it no room it is left out.
 */
#include "gui/widgets/diagram-private.h"

#include <glib/gi18n-lib.h>
#include <math.h>

#define LIT 0.09           /* part of text ink in a lit zone */
#define LABEL_SHARE 0.0115 /* the longest label of a view is this share of its longer side in the airframe files */
#define SMALL_BELOW 0.86   /* of that: the smaller letters */
#define GAP 2.0            /* pixels kept free round a number */

static void
set_ink (cairo_t *cr, const BondRgb *ink, double alpha)
{
  cairo_set_source_rgba (cr, ink->r, ink->g, ink->b, alpha);
}

static void
append_shape (cairo_t *cr, const BondCamera *camera, const BondZoneShape *shape)
{
  guint i, j;

  for (i = 0; i < shape->rings->len; i++)
    {
      const GArray *ring = g_ptr_array_index (shape->rings, i);

      for (j = 0; j < ring->len; j++)
        {
          const BondXY *corner = &g_array_index (ring, BondXY, j);
          double px, py;

          bond_camera_to_pixel (camera, corner->x, corner->y, &px, &py);
          cairo_line_to (cr, px, py);
        }
      cairo_close_path (cr);
    }
}

void
bond_diagram_draw_shape (BondDiagram *self, cairo_t *cr, const BondZoneShape *shape, double fill, double line)
{
  const BondRgb *ink = &bond_diagram_inks (self)->text;

  append_shape (cr, &self->camera, shape);
  set_ink (cr, ink, fill);
  cairo_fill_preserve (cr);
  set_ink (cr, ink, line);
  cairo_set_line_width (cr, 1.25);
  cairo_set_line_join (cr, CAIRO_LINE_JOIN_ROUND);
  cairo_stroke (cr);
}

const BondZoneShape *
bond_diagram_lit_shape (BondDiagram *self)
{
  if (self->current != NULL)
    return bond_diagram_shape_of (self, bond_point_get_spec (self->current)->zone);
  return self->zone != NULL ? bond_diagram_shape_of (self, self->zone) : NULL;
}

void
bond_diagram_draw_airframe (BondDiagram *self, cairo_t *cr)
{
  const PangoFontDescription *font
      = pango_context_get_font_description (gtk_widget_get_pango_context (GTK_WIDGET (self)));
  BondPicture picture = { .airframe = self->airframe,
                          .view = self->view,
                          .inks = bond_diagram_inks (self),
                          .font = pango_font_description_get_family (font),
                          .scale_factor = gtk_widget_get_scale_factor (GTK_WIDGET (self)) };
  const BondZoneShape *lit = bond_diagram_lit_shape (self);
  const BondZoneShape *zoomed = self->zone != NULL ? bond_diagram_shape_of (self, self->zone) : NULL;

  bond_outline_cache_paint (self->outline, cr, &picture, &self->camera, self->width, self->height);
  if (zoomed != NULL && zoomed != lit)
    bond_diagram_draw_shape (self, cr, zoomed, LIT / 2.0, 0.7);
  if (lit != NULL)
    bond_diagram_draw_shape (self, cr, lit, LIT, 1.0);
}

/* --- numbers ------------------------------------------------------------------------------------------------------ */

/* A number that looks for its place; all in pixels. */
typedef struct
{
  BondDiagram *diagram;
  const BondZoneShape *shape;
  const BondLabel *label;
  const char *text;
  BondLabelKind kind;
  double width, height, turn;
  BondBox box; /* the upright box around it where it stands */
} Number;

static gboolean
holds_box (const Number *number, const BondBox *box)
{
  guint i;

  for (i = 0; i < 4; i++)
    {
      double x, y;

      bond_camera_to_view (&number->diagram->camera, box->x + (i % 2) * box->width, box->y + (i / 2) * box->height, &x,
                           &y);
      if (!bond_zone_shape_contains (number->shape, x, y))
        return FALSE;
    }
  return TRUE;
}

/* Too many marks for a list of boxes: the field knows them by place. */
static gboolean
covers_mark (BondDiagram *self, const BondBox *box)
{
  double size = bond_diagram_mark_size (self), scale = self->camera.scale;
  BondBox around = { .width = (box->width + size) / scale, .height = (box->height + size * 0.6) / scale };

  bond_camera_to_view (&self->camera, box->x - size * 0.5, box->y - size * 0.3, &around.x, &around.y);
  g_array_set_size (self->visible, 0);
  bond_mark_field_collect (self->field, &around, self->visible);
  return self->visible->len > 0;
}

/* Whole in the window, and close up not under what lies over the diagram: half a number is another number. */
static gboolean
is_in_sight (BondDiagram *self, const BondBox *box)
{
  double top = self->zone != NULL ? self->insets.top : 0.0;
  double bottom = self->zone != NULL ? self->insets.bottom : 0.0;

  return box->x >= 0.0 && box->x + box->width <= self->width && box->y >= top
         && box->y + box->height <= self->height - bottom;
}

static gboolean
is_free (BondDiagram *self, const BondBox *box)
{
  BondBox roomy = { box->x - GAP, box->y - 1.0, box->width + 2.0 * GAP, box->height + 2.0 };

  return bond_labeller_is_free (self->labeller, &roomy) && (bond_diagram_has_labels (self) || !covers_mark (self, box));
}

/* At its own place, else near it inside the zone. */
static gboolean
find_place (Number *number, double px, double py)
{
  static const BondXY steps[]
      = { { 0, 0 },     { 0, 1.2 },     { 0, -1.2 },   { 0.9, 0 },    { -0.9, 0 }, { 0, 2.4 }, { 0, -2.4 },
          { 0.9, 1.2 }, { -0.9, -1.2 }, { 0.9, -1.2 }, { -0.9, 1.2 }, { 1.8, 0 },  { -1.8, 0 } };
  guint i, n = number->label->has_leader ? 1 : G_N_ELEMENTS (steps);

  for (i = 0; i < n; i++)
    {
      number->box.x = px + steps[i].x * number->box.width - number->box.width / 2.0;
      number->box.y = py + steps[i].y * number->box.height - number->box.height / 2.0;
      if ((i == 0 || holds_box (number, &number->box)) && is_in_sight (number->diagram, &number->box)
          && is_free (number->diagram, &number->box))
        return TRUE;
    }
  return FALSE;
}

static void
draw_leader (const Number *number, cairo_t *cr, double px, double py)
{
  BondDiagram *self = number->diagram;
  const BondInks *inks = bond_diagram_inks (self);
  double to_x, to_y;

  bond_camera_to_pixel (&self->camera, number->label->leader_x, number->label->leader_y, &to_x, &to_y);
  cairo_move_to (cr, px, py);
  cairo_line_to (cr, to_x, to_y);
  set_ink (cr, &inks->outline, 1.0);
  cairo_set_line_width (cr, 0.5);
  cairo_stroke (cr);
  set_ink (cr, &inks->paper, 1.0);
  cairo_rectangle (cr, number->box.x - 1.0, number->box.y, number->box.width + 2.0, number->box.height);
  cairo_fill (cr);
}

static void
measure (Number *number, const char *text, double turn)
{
  double across = fabs (cos (turn)), up = fabs (sin (turn));

  number->text = text;
  number->turn = turn;
  bond_labeller_measure (number->diagram->labeller, number->kind, text, &number->width, &number->height);
  number->height *= 0.8; /* figures have no parts below the line */
  number->box.width = number->width * across + number->height * up;
  number->box.height = number->width * up + number->height * across;
}

/* A number keeps its turn only at the place it was drawn for; what reaches over the zone's edge has paper round it. */
static void
draw_number (Number *number, cairo_t *cr, double px, double py)
{
  BondLabeller *labeller = number->diagram->labeller;
  double x = number->box.x + number->box.width / 2.0, y = number->box.y + number->box.height / 2.0;
  const BondInks *inks = bond_diagram_inks (number->diagram);
  gboolean moved = hypot (x - px, y - py) > 0.5;

  bond_labeller_take (labeller, &number->box);
  if (number->label->has_leader)
    draw_leader (number, cr, px, py);
  bond_labeller_draw_turned (labeller, cr, number->kind, number->text, x, y, moved ? 0.0 : number->turn, &inks->quiet,
                             holds_box (number, &number->box) ? NULL : &inks->paper);
}

static gboolean
try_number (Number *number, cairo_t *cr, const char *text, double turn, double px, double py)
{
  measure (number, text, turn);
  if (!find_place (number, px, py))
    return FALSE;
  draw_number (number, cr, px, py);
  return TRUE;
}

/* With the count of points this view draws only as a part of the zone, where there is room for both. */
static void
offer_number (BondDiagram *self, cairo_t *cr, const BondZoneShape *shape, const BondLabel *label, guint count)
{
  Number number = { .diagram = self, .shape = shape, .label = label, .kind = BOND_LABEL_ZONE };
  double side = MAX (self->view->width, self->view->height);
  double turn = label->rotate * G_PI / 180.0;
  g_autofree char *both = NULL;
  double px, py;

  bond_camera_to_pixel (&self->camera, label->x, label->y, &px, &py);
  if (px < -100.0 || py < -100.0 || px > self->width + 100.0 || py > self->height + 100.0)
    return;
  if (label->size > 0.0 && label->size < SMALL_BELOW * LABEL_SHARE * side)
    number.kind = BOND_LABEL_ZONE_SMALL;
  if (count > 0)
    both = g_strdup_printf (ngettext ("%s: %u point", "%s: %u points", count), shape->zone, count);
  if (both == NULL || !try_number (&number, cr, both, 0.0, px, py))
    try_number (&number, cr, shape->zone, turn, px, py);
}

void
bond_diagram_draw_numbers (BondDiagram *self, cairo_t *cr)
{
  guint i, j;

  for (i = 0; i < self->view->shapes->len; i++)
    {
      const BondZoneShape *shape = g_ptr_array_index (self->view->shapes, i);
      guint count = bond_mark_field_count (self->field, shape->zone);

      for (j = 0; j < shape->labels->len; j++)
        offer_number (self, cr, shape, &g_array_index (shape->labels, BondLabel, j), j == 0 ? count : 0);
    }
}
