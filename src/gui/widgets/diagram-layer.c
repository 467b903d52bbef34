/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * The small layer over the diagram: what follows the hand.  It is a widget of its
 * own because GTK keeps a widget's picture until that widget asks for a new one;
 * so a pointer that moves does not draw thousands of marks again.
 */
#include "gui/widgets/diagram-private.h"

#include <math.h>

#define HOVERED 0.05 /* part of text ink in the zone under the pointer */
#define LINE_WIDTH 1.1
#define RING 0.72 /* of the hovered mark's ring, in plates */

#define BOND_TYPE_DIAGRAM_LAYER (bond_diagram_layer_get_type ())
G_DECLARE_FINAL_TYPE (BondDiagramLayer, bond_diagram_layer, BOND, DIAGRAM_LAYER, GtkWidget)

struct _BondDiagramLayer
{
  GtkWidget parent;
  BondDiagram *diagram; /* the parent widget, borrowed */
};

G_DEFINE_FINAL_TYPE (BondDiagramLayer, bond_diagram_layer, GTK_TYPE_WIDGET)

static void
set_ink (cairo_t *cr, const BondRgb *ink, double alpha)
{
  cairo_set_source_rgba (cr, ink->r, ink->g, ink->b, alpha);
}

/* Where @point stands on the screen: at the pointer while it is being moved. */
static gboolean
pixel_of (BondDiagram *self, BondPoint *point, double *px, double *py)
{
  const BondPlacedMark *mark = bond_mark_field_find (self->field, point);

  if (mark == NULL)
    return FALSE;
  if (self->grip.kind == BOND_GRIP_MOVE && self->grip.point == point)
    bond_camera_to_pixel (&self->camera, self->grip.x, self->grip.y, px, py);
  else
    bond_camera_to_pixel (&self->camera, mark->x, mark->y, px, py);
  return TRUE;
}

static void
draw_hover (BondDiagram *self, cairo_t *cr)
{
  const BondInks *inks = bond_diagram_inks (self);
  double size = bond_diagram_mark_size (self);
  double px, py;

  if (self->hover != NULL && pixel_of (self, self->hover, &px, &py))
    {
      cairo_rectangle (cr, floor (px - size * RING) - 1.5, floor (py - size * 0.5) - 1.5,
                       ceil (2.0 * size * RING) + 3.0, ceil (size) + 3.0);
      set_ink (cr, &inks->text, 0.7);
      cairo_set_line_width (cr, 1.0);
      cairo_stroke (cr);
    }
  else if (self->hover_shape != NULL)
    bond_diagram_draw_shape (self, cr, self->hover_shape, HOVERED, 0.55);
}

/* One leg of the walk line, from the edge of a mark to the edge of the next. */
static void
draw_leg (cairo_t *cr, const BondXY *from, const BondXY *to, double gap)
{
  double length = hypot (to->x - from->x, to->y - from->y);
  double part;

  if (length <= 2.5 * gap)
    return;
  part = gap / length;
  cairo_move_to (cr, from->x + (to->x - from->x) * part, from->y + (to->y - from->y) * part);
  cairo_line_to (cr, to->x - (to->x - from->x) * part, to->y - (to->y - from->y) * part);
}

static void
draw_digit (BondDiagram *self, cairo_t *cr, guint number, const BondXY *at, double size)
{
  const BondInks *inks = bond_diagram_inks (self);
  char digit[2] = { (char)('0' + number), '\0' };
  double width, height;

  bond_labeller_measure (self->layer_labeller, BOND_LABEL_DIGIT, digit, &width, &height);
  bond_labeller_draw (self->layer_labeller, cr, BOND_LABEL_DIGIT, digit, at->x + size * 0.68,
                      at->y - size * 0.2 - height * 0.75, &inks->text, &inks->paper);
}

/* The next points this view shows, each with its number in the walk; a line only between two that follow each other. */
static void
draw_walk (BondDiagram *self, cairo_t *cr)
{
  double size = bond_diagram_mark_size (self);
  BondXY at[BOND_DIAGRAM_MAX_WALK + 1];
  gboolean is_shown[BOND_DIAGRAM_MAX_WALK + 1] = { FALSE };
  guint i;

  if (self->current == NULL)
    return;
  is_shown[0] = pixel_of (self, self->current, &at[0].x, &at[0].y);
  for (i = 1; i <= self->n_walk; i++)
    is_shown[i] = pixel_of (self, self->walk[i - 1], &at[i].x, &at[i].y);
  set_ink (cr, &bond_diagram_inks (self)->text, 1.0);
  cairo_set_line_width (cr, LINE_WIDTH);
  for (i = 0; i < self->n_walk; i++)
    if (is_shown[i] && is_shown[i + 1])
      draw_leg (cr, &at[i], &at[i + 1], size * 0.8);
  cairo_stroke (cr);
  for (i = 1; i <= self->n_walk; i++)
    if (is_shown[i])
      draw_digit (self, cr, i, &at[i], size);
}

static void
draw_current (BondDiagram *self, cairo_t *cr)
{
  const BondInks *inks = bond_diagram_inks (self);
  double size = bond_diagram_mark_size (self);
  const BondPlacedMark *mark = bond_mark_field_find (self->field, self->current);
  double px, py, width, height;
  const char *number;

  if (mark == NULL || !pixel_of (self, self->current, &px, &py))
    return;
  /* Once more above its neighbours: where marks crowd, the one in hand must be seen whole. */
  bond_mark_stamps_paint (self->stamps, cr, mark->mark, px, py);
  bond_probe_ticks_draw (cr, round (px), round (py), size, &inks->accent);
  number = bond_point_get_number (self->current);
  bond_labeller_measure (self->layer_labeller, BOND_LABEL_STRONG, number, &width, &height);
  bond_labeller_draw (self->layer_labeller, cr, BOND_LABEL_STRONG, number, px - width / 2.0, py + size * 0.75,
                      &inks->text, &inks->paper);
}

static void
draw_moved (BondDiagram *self, cairo_t *cr)
{
  const BondPlacedMark *mark = bond_mark_field_find (self->field, self->grip.point);
  const BondZoneShape *shape = bond_view_hit (self->view, self->grip.x, self->grip.y);
  double px, py;

  if (mark == NULL)
    return;
  if (shape != NULL)
    bond_diagram_draw_shape (self, cr, shape, HOVERED, 0.7);
  bond_camera_to_pixel (&self->camera, self->grip.x, self->grip.y, &px, &py);
  bond_mark_stamps_paint (self->stamps, cr, mark->mark, px, py);
}

static void
bond_diagram_layer_snapshot (GtkWidget *widget, GtkSnapshot *snapshot)
{
  BondDiagram *self = BOND_DIAGRAM_LAYER (widget)->diagram;
  cairo_t *cr;

  if (self->view == NULL || self->width <= 0 || self->height <= 0)
    return;
  cr = gtk_snapshot_append_cairo (snapshot, &GRAPHENE_RECT_INIT (0, 0, self->width, self->height));
  bond_labeller_begin (self->layer_labeller, gtk_widget_get_pango_context (GTK_WIDGET (self)));
  if (self->grip.kind == BOND_GRIP_MOVE)
    draw_moved (self, cr);
  else
    draw_hover (self, cr);
  draw_walk (self, cr);
  draw_current (self, cr);
  cairo_destroy (cr);
}

static void
bond_diagram_layer_class_init (BondDiagramLayerClass *klass)
{
  GtkWidgetClass *widget_class = GTK_WIDGET_CLASS (klass);

  widget_class->snapshot = bond_diagram_layer_snapshot;
  gtk_widget_class_set_css_name (widget_class, "bond-layer");
  gtk_widget_class_set_accessible_role (widget_class, GTK_ACCESSIBLE_ROLE_PRESENTATION);
}

static void
bond_diagram_layer_init (BondDiagramLayer *layer)
{
  gtk_widget_set_can_target (GTK_WIDGET (layer), FALSE);
}

GtkWidget *
bond_diagram_layer_new (BondDiagram *self)
{
  BondDiagramLayer *layer = g_object_new (BOND_TYPE_DIAGRAM_LAYER, NULL);

  layer->diagram = self;
  return GTK_WIDGET (layer);
}
