/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * Which part of which zone the diagram shows: fit, zoom to a zone, free zoom, and
 * what of that must hold when the window changes its size.  The arithmetic is the
 * camera's; drawing is left to diagram-draw.c.
 */
#include "gui/widgets/diagram-private.h"

#include <math.h>

#define LOWER "plan-lower"
#define MARK_LEAST 12.0 /* plate width in pixels at whole airframe … */
#define MARK_MOST 24.0  /* … and in a close-up */
#define ZONE_ROOM 0.12  /* of a zone's size left free round it */
#define LEAST_ZOOM 0.8  /* of the scale at which the whole view shows */
#define MOST_ZOOM 60.0
#define USEFUL_ZOOM 24.0 /* marks that are one up to here are at one place */
#define ZONE_LEFT 0.1    /* of the window: less of the zone in sight, and it is not the zone in hand any more */

/* Asked for every mark of every frame: kept until the view, the window or what covers it changes. */
double
bond_diagram_fit_scale (BondDiagram *self)
{
  BondFit fit = { self->view, self->width, self->height, self->insets, 1.0 };
  BondBox box;

  if (self->view == NULL)
    return 1.0;
  if (self->fit.view == fit.view && self->fit.width == fit.width && self->fit.height == fit.height
      && bond_insets_equal (&self->fit.insets, &fit.insets))
    return self->fit.scale;
  bond_diagram_view_box (self, &box);
  fit.scale = bond_camera_fit (&box, self->width, self->height, &self->insets).scale;
  self->fit = fit;
  return fit.scale;
}

double
bond_diagram_closeness (BondDiagram *self)
{
  return self->camera.scale / bond_diagram_fit_scale (self);
}

gboolean
bond_diagram_at_most (BondDiagram *self)
{
  return bond_diagram_closeness (self) >= USEFUL_ZOOM;
}

gboolean
bond_diagram_in_zone (BondDiagram *self, BondPoint *point)
{
  return self->zone != NULL && self->airframe != NULL
         && bond_airframe_is_within (self->airframe, bond_point_get_spec (point)->zone, self->zone);
}

double
bond_diagram_mark_size (BondDiagram *self)
{
  double size = self->zone != NULL ? MARK_MOST : MARK_LEAST * pow (MAX (bond_diagram_closeness (self), 1.0), 0.75);

  /* In steps of two pixels, so that a zoom does not draw all stamps anew at every step. */
  return CLAMP (floor (size / 2.0) * 2.0, MARK_LEAST, MARK_MOST);
}

void
bond_diagram_view_box (BondDiagram *self, BondBox *box)
{
  bond_view_bounds (self->view, &box->x, &box->y, &box->width, &box->height);
}

double
bond_diagram_true_x (BondDiagram *self, double x)
{
  return self->mirrored != NULL ? self->mirrored->width - x : x;
}

void
bond_diagram_set_seen (BondDiagram *self, const BondView *view)
{
  gboolean mirror = view != NULL && self->seen_through && strcmp (view->id, LOWER) == 0;

  self->fit.view = NULL;
  g_clear_pointer (&self->mirrored, bond_view_free);
  if (mirror)
    self->mirrored = bond_view_new_mirrored (view);
  bond_mark_field_set_mirror (self->field, mirror ? view->width : 0.0);
  self->view = mirror ? self->mirrored : view;
}

static const BondZoneShape *
find_shape (const BondView *view, const char *zone)
{
  guint i;

  for (i = 0; i < view->shapes->len; i++)
    {
      const BondZoneShape *shape = g_ptr_array_index (view->shapes, i);

      if (strcmp (shape->zone, zone) == 0)
        return shape;
    }
  return NULL;
}

const BondZoneShape *
bond_diagram_shape_of (BondDiagram *self, const char *zone)
{
  const BondZoneShape *shape = NULL;

  while (self->view != NULL && zone != NULL && shape == NULL)
    {
      const BondZone *info = bond_airframe_find_zone (self->airframe, zone);

      shape = find_shape (self->view, zone);
      zone = info != NULL ? info->parent : NULL;
    }
  return shape;
}

void
bond_diagram_set_zone (BondDiagram *self, const char *zone)
{
  if (g_strcmp0 (zone, self->zone) == 0)
    return;
  g_free (self->zone);
  self->zone = g_strdup (zone);
  self->zone_fitted = zone != NULL;
  self->stands_valid = FALSE;
  bond_diagram_speak_later (self);
  g_object_notify (G_OBJECT (self), "zone");
}

/* The box of the corners of one zone's drawing grows by it. */
static void
grow_by_shape (const BondZoneShape *shape, BondXY *from, BondXY *to)
{
  guint i, j;

  for (i = 0; i < shape->rings->len; i++)
    {
      const GArray *ring = g_ptr_array_index (shape->rings, i);

      for (j = 0; j < ring->len; j++)
        {
          const BondXY *corner = &g_array_index (ring, BondXY, j);

          from->x = MIN (from->x, corner->x);
          from->y = MIN (from->y, corner->y);
          to->x = MAX (to->x, corner->x);
          to->y = MAX (to->y, corner->y);
        }
    }
}

/* What the view draws of a zone, with some room round it: itself, else all its parts, else the zone it is a part of. */
static gboolean
zone_box (BondDiagram *self, const char *zone, BondBox *box)
{
  BondXY from = { INFINITY, INFINITY }, to = { -INFINITY, -INFINITY };
  const BondZoneShape *shape = find_shape (self->view, zone);
  guint i;

  if (shape != NULL)
    grow_by_shape (shape, &from, &to);
  for (i = 0; shape == NULL && i < self->view->shapes->len; i++)
    {
      const BondZoneShape *part = g_ptr_array_index (self->view->shapes, i);

      if (bond_airframe_is_within (self->airframe, part->zone, zone))
        grow_by_shape (part, &from, &to);
    }
  if (from.x > to.x && (shape = bond_diagram_shape_of (self, zone)) != NULL)
    grow_by_shape (shape, &from, &to);
  if (from.x > to.x)
    return FALSE;
  *box = (BondBox){ from.x - (to.x - from.x) * ZONE_ROOM, from.y - (to.y - from.y) * ZONE_ROOM,
                    (to.x - from.x) * (1.0 + 2.0 * ZONE_ROOM), (to.y - from.y) * (1.0 + 2.0 * ZONE_ROOM) };
  return TRUE;
}

/* Panned or zoomed away: the zone is not the one in hand once little of it, or little but it, is in sight. */
static void
leave_zone (BondDiagram *self)
{
  double left, top, right, bottom, seen;
  BondBox box;

  if (self->zone == NULL || !zone_box (self, self->zone, &box))
    return;
  bond_camera_to_pixel (&self->camera, box.x, box.y, &left, &top);
  bond_camera_to_pixel (&self->camera, box.x + box.width, box.y + box.height, &right, &bottom);
  seen = MAX (0.0, MIN (right, self->width) - MAX (left, 0.0)) * MAX (0.0, MIN (bottom, self->height) - MAX (top, 0.0));
  if (seen < ZONE_LEFT * self->width * self->height || bond_diagram_closeness (self) < 1.05)
    bond_diagram_set_zone (self, NULL);
}

void
bond_diagram_camera_changed (BondDiagram *self, gboolean free)
{
  BondBox box;

  if (self->view == NULL)
    return;
  bond_diagram_view_box (self, &box);
  if (free)
    {
      self->fitted = self->zone_fitted = FALSE;
      bond_camera_keep (&self->camera, &box, self->width, self->height);
      leave_zone (self);
    }
  bond_diagram_update_label (self);
  gtk_widget_queue_allocate (GTK_WIDGET (self)); /* the cursor's place */
  bond_diagram_queue_all (self);
}

static void
place_camera (BondDiagram *self, const BondBox *box)
{
  self->camera = bond_camera_fit (box, self->width, self->height, &self->insets);
}

/* Puts the camera where it belongs after a change of size, view or zone. */
void
bond_diagram_settle_camera (BondDiagram *self)
{
  BondBox box;

  if (self->view == NULL)
    return;
  if (self->fitted)
    bond_diagram_view_box (self, &box);
  else if (!self->zone_fitted || self->zone == NULL || !zone_box (self, self->zone, &box))
    return;
  place_camera (self, &box);
}

void
bond_diagram_set_insets (BondDiagram *self, int top, int right, int bottom, int left)
{
  g_return_if_fail (BOND_IS_DIAGRAM (self));

  self->insets = (BondInsets){ top, right, bottom, left };
  bond_diagram_settle_camera (self);
  bond_diagram_camera_changed (self, FALSE);
}

void
bond_diagram_fit (BondDiagram *self)
{
  g_return_if_fail (BOND_IS_DIAGRAM (self));

  bond_diagram_set_zone (self, NULL);
  self->fitted = TRUE;
  bond_diagram_settle_camera (self);
  bond_diagram_camera_changed (self, FALSE);
}

gboolean
bond_diagram_zoom_to_zone (BondDiagram *self, const char *zone)
{
  BondBox box;

  g_return_val_if_fail (BOND_IS_DIAGRAM (self), FALSE);
  g_return_val_if_fail (zone != NULL, FALSE);

  if (self->view == NULL || !zone_box (self, zone, &box))
    return FALSE;
  self->fitted = FALSE;
  bond_diagram_set_zone (self, zone);
  self->zone_fitted = TRUE;
  bond_diagram_settle_camera (self);
  bond_diagram_camera_changed (self, FALSE);
  return TRUE;
}

void
bond_diagram_zoom_at (BondDiagram *self, double factor, double px, double py)
{
  double fit = bond_diagram_fit_scale (self);

  if (self->view == NULL)
    return;
  bond_camera_zoom (&self->camera, factor, px, py, fit * LEAST_ZOOM, fit * MOST_ZOOM);
  bond_diagram_camera_changed (self, TRUE);
}

void
bond_diagram_zoom (BondDiagram *self, double factor)
{
  g_return_if_fail (BOND_IS_DIAGRAM (self));
  g_return_if_fail (factor > 0.0);

  bond_diagram_zoom_at (self, factor, self->width / 2.0, self->height / 2.0);
}

const char *
bond_diagram_get_zone (BondDiagram *self)
{
  g_return_val_if_fail (BOND_IS_DIAGRAM (self), NULL);
  return self->zone;
}

gboolean
bond_diagram_to_view (BondDiagram *self, double widget_x, double widget_y, double *x, double *y)
{
  g_return_val_if_fail (BOND_IS_DIAGRAM (self) && x != NULL && y != NULL, FALSE);

  if (self->view == NULL)
    return FALSE;
  bond_camera_to_view (&self->camera, widget_x, widget_y, x, y);
  *x = bond_diagram_true_x (self, *x);
  return TRUE;
}

gboolean
bond_diagram_to_widget (BondDiagram *self, double x, double y, double *widget_x, double *widget_y)
{
  g_return_val_if_fail (BOND_IS_DIAGRAM (self) && widget_x != NULL && widget_y != NULL, FALSE);

  if (self->view == NULL)
    return FALSE;
  bond_camera_to_pixel (&self->camera, bond_diagram_true_x (self, x), y, widget_x, widget_y);
  return TRUE;
}
