/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * Which part of a view the diagram shows, as plain numbers: fit, zoom about a
 * place, pan, and the way between view units and pixels.  No drawing, no GTK.
 */
#pragma once

#include <glib.h>

G_BEGIN_DECLS

/** BondCamera: widget pixel = (view unit − (@x, @y)) × @scale. */
typedef struct
{
  double x, y;
  double scale;
} BondCamera;

/** BondBox: a rectangle in view units or pixels. */
typedef struct
{
  double x, y, width, height;
} BondBox;

/** BondInsets: pixels at each side that other things cover. */
typedef struct
{
  double top, right, bottom, left;
} BondInsets;

/** bond_camera_fit: all of @box in the middle of what @insets leave of @width × @height pixels; never an empty scale.
 */
BondCamera bond_camera_fit (const BondBox *box, double width, double height, const BondInsets *insets);
/** bond_camera_zoom: by @factor, the view place under pixel (@px, @py) stays there; scale is kept in @least … @most. */
void bond_camera_zoom (BondCamera *camera, double factor, double px, double py, double least, double most);
/** bond_camera_keep: moves the camera so that the middle of the window stays over @box. */
void bond_camera_keep (BondCamera *camera, const BondBox *box, double width, double height);
/** bond_camera_reveal: the least pan that brings (@x, @y) at least @margin pixels inside the insets; TRUE when it
 * moved. */
gboolean bond_camera_reveal (BondCamera *camera, double x, double y, double width, double height,
                             const BondInsets *insets, double margin);
/** bond_camera_equal, bond_insets_equal: the very same figures, as when nothing was moved since. */
gboolean bond_camera_equal (const BondCamera *a, const BondCamera *b);
gboolean bond_insets_equal (const BondInsets *a, const BondInsets *b);
void bond_camera_to_view (const BondCamera *camera, double px, double py, double *x, double *y);
void bond_camera_to_pixel (const BondCamera *camera, double x, double y, double *px, double *py);

G_END_DECLS
