/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * A new point where the diagram was clicked: zone, side and coordinates are filled
 * in, the rest is asked.  The coordinate a view cannot show stays empty.
 */
#pragma once

#include "gui/dialog.h"
#include "gui/walk.h"
#include <gtk/gtk.h>

G_BEGIN_DECLS

/** bond_place_dialog: @zone as the view draws it, @x, @y in units of @view. */
BondDialog *bond_place_dialog (GtkWindow *parent, BondWalk *walk, const char *zone, const char *view, double x,
                               double y);
/** bond_place_move: records @point at a new place of @view (a dragged mark). FALSE + @problem when that is no place. */
gboolean bond_place_move (BondWalk *walk, BondPoint *point, const char *view, double x, double y, char **problem);

G_END_DECLS
