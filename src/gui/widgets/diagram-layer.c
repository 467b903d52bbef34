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
pixel_of (BondDiagram *self, BondPoint *point, int place, double *px, double *py)
{
  const BondPlacedMark *mark = bond_mark_field_find (self->field, point);
  const BondStand *stand = bond_diagram_find_stand (self, point, place);

  if (mark == NULL)
    return FALSE;
  if (self->grip.kind == BOND_GRIP_MOVE && self->grip.point == point)
    bond_camera_to_pixel (&self->camera, self->grip.x, self->grip.y, px, py);
  else if (stand != NULL)
    *px = stand->px, *py = stand->py;
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

  if (self->hover_place >= 0)
    size = bond_places_size (size);
  if (self->hover != NULL && pixel_of (self, self->hover, self->hover_place, &px, &py))
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

static void
draw_moved_zone (BondDiagram *self, cairo_t *cr)
{
  const BondZoneShape *shape = bond_view_hit (self->view, self->grip.x, self->grip.y);

  if (shape != NULL)
    bond_diagram_draw_shape (self, cr, shape, HOVERED, 0.7);
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
    draw_moved_zone (self, cr);
  else
    draw_hover (self, cr);
  bond_diagram_draw_walk (self, cr);
  bond_diagram_draw_current (self, cr);
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
