/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * The camera's arithmetic, kept apart from the widget so that it can be tested
 * without a display.
 */
#include "gui/widgets/camera.h"

#define LEAST_ROOM 16.0 /* pixels left for the drawing however much is covered */

BondCamera
bond_camera_fit (const BondBox *box, double width, double height, const BondInsets *insets)
{
  double room_x = MAX (LEAST_ROOM, width - insets->left - insets->right);
  double room_y = MAX (LEAST_ROOM, height - insets->top - insets->bottom);
  double scale = MIN (room_x / MAX (box->width, 1e-3), room_y / MAX (box->height, 1e-3));
  double middle_x = insets->left + room_x / 2.0;
  double middle_y = insets->top + room_y / 2.0;

  return (BondCamera){ .x = box->x + box->width / 2.0 - middle_x / scale,
                       .y = box->y + box->height / 2.0 - middle_y / scale,
                       .scale = scale };
}

void
bond_camera_zoom (BondCamera *camera, double factor, double px, double py, double least, double most)
{
  double x, y;

  g_return_if_fail (factor > 0.0);

  bond_camera_to_view (camera, px, py, &x, &y);
  camera->scale = CLAMP (camera->scale * factor, least, most);
  camera->x = x - px / camera->scale;
  camera->y = y - py / camera->scale;
}

void
bond_camera_keep (BondCamera *camera, const BondBox *box, double width, double height)
{
  double half_x = width / 2.0 / camera->scale;
  double half_y = height / 2.0 / camera->scale;

  camera->x = CLAMP (camera->x + half_x, box->x, box->x + box->width) - half_x;
  camera->y = CLAMP (camera->y + half_y, box->y, box->y + box->height) - half_y;
}

/* How far pixel @p must move to lie in @from … @to; the middle when that is empty. */
static double
shift_into (double p, double from, double to)
{
  if (from > to)
    return (from + to) / 2.0 - p;
  return CLAMP (p, from, to) - p;
}

gboolean
bond_camera_reveal (BondCamera *camera, double x, double y, double width, double height, const BondInsets *insets,
                    double margin)
{
  double px, py, dx, dy;

  bond_camera_to_pixel (camera, x, y, &px, &py);
  dx = shift_into (px, insets->left + margin, width - insets->right - margin);
  dy = shift_into (py, insets->top + margin, height - insets->bottom - margin);
  camera->x -= dx / camera->scale;
  camera->y -= dy / camera->scale;
  return dx != 0.0 || dy != 0.0;
}

gboolean
bond_camera_equal (const BondCamera *a, const BondCamera *b)
{
  return a->x == b->x && a->y == b->y && a->scale == b->scale;
}

gboolean
bond_insets_equal (const BondInsets *a, const BondInsets *b)
{
  return a->top == b->top && a->right == b->right && a->bottom == b->bottom && a->left == b->left;
}

void
bond_camera_to_view (const BondCamera *camera, double px, double py, double *x, double *y)
{
  *x = camera->x + px / camera->scale;
  *y = camera->y + py / camera->scale;
}

void
bond_camera_to_pixel (const BondCamera *camera, double x, double y, double *px, double *py)
{
  *px = (x - camera->x) * camera->scale;
  *py = (y - camera->y) * camera->scale;
}
