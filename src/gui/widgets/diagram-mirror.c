/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * A view with left and right exchanged.  Some shops draw the lower side as seen
 * through from above, so that the left wing is at left there too; then the whole
 * view is turned over once, and drawing, pointing and words need not know.
 */
#include "gui/widgets/diagram-private.h"

static BondPath *
mirrored_path (const BondPath *path, double width)
{
  BondPath *mirrored;
  guint i, j;

  if (path == NULL)
    return NULL;
  mirrored = g_new0 (BondPath, 1);
  mirrored->text = g_strdup (path->text);
  mirrored->ops = g_array_copy (path->ops);
  for (i = 0; i < mirrored->ops->len; i++)
    for (j = 0; j < G_N_ELEMENTS (((BondPathOp *)0)->p); j++)
      {
        BondXY *at = &g_array_index (mirrored->ops, BondPathOp, i).p[j];

        at->x = width - at->x;
      }
  return mirrored;
}

static void
add_mirrored_shape (BondView *view, const BondZoneShape *shape)
{
  BondZoneShape *mirrored = bond_view_add_shape (view, shape->zone);
  guint i, j;

  for (i = 0; i < shape->rings->len; i++)
    {
      GArray *ring = g_array_copy (g_ptr_array_index (shape->rings, i));

      for (j = 0; j < ring->len; j++)
        g_array_index (ring, BondXY, j).x = view->width - g_array_index (ring, BondXY, j).x;
      g_ptr_array_add (mirrored->rings, ring);
    }
  for (i = 0; i < shape->labels->len; i++)
    {
      BondLabel label = g_array_index (shape->labels, BondLabel, i);

      label.x = view->width - label.x;
      label.leader_x = view->width - label.leader_x;
      label.rotate = -label.rotate;
      g_array_append_val (mirrored->labels, label);
    }
}

static void
mirror_axis (BondAxis *axis, double width)
{
  if (axis->vertical)
    return;
  axis->zero = width - axis->zero;
  axis->sign = -axis->sign;
}

BondView *
bond_view_new_mirrored (const BondView *view)
{
  BondView *mirrored;
  guint i;

  g_return_val_if_fail (view != NULL, NULL);

  mirrored = bond_view_new (view->id, view->title, view->width, view->height);
  mirrored->toward = g_strdup (view->toward);
  mirrored->ruler_major = view->ruler_major;
  mirrored->ruler_minor = view->ruler_minor;
  for (i = 0; i < G_N_ELEMENTS (view->axis); i++)
    {
      mirrored->axis[i] = view->axis[i];
      mirror_axis (&mirrored->axis[i], view->width);
    }
  mirrored->outline = mirrored_path (view->outline, view->width);
  mirrored->boundaries = mirrored_path (view->boundaries, view->width);
  mirrored->edges = mirrored_path (view->edges, view->width);
  for (i = 0; i < view->details->len; i++)
    {
      const BondDetailPath *detail = g_ptr_array_index (view->details, i);
      BondDetailPath *copy = g_new0 (BondDetailPath, 1);

      copy->klass = g_strdup (detail->klass);
      copy->layer = g_strdup (detail->layer);
      copy->path = mirrored_path (detail->path, view->width);
      g_ptr_array_add (mirrored->details, copy);
    }
  for (i = 0; i < view->shapes->len; i++)
    add_mirrored_shape (mirrored, g_ptr_array_index (view->shapes, i));
  return mirrored;
}
