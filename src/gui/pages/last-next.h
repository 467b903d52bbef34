/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * Two lines: what was recorded last, with Undo, and where the walk goes next.
 * Upright below the reading panel, level in the foot of a narrow window.
 */
#pragma once

#include "gui/walk.h"
#include <gtk/gtk.h>

G_BEGIN_DECLS

#define BOND_TYPE_LAST_NEXT (bond_last_next_get_type ())
G_DECLARE_FINAL_TYPE (BondLastNext, bond_last_next, BOND, LAST_NEXT, GtkWidget)

GtkWidget *bond_last_next_new (BondWalk *walk, GtkOrientation orientation);

G_END_DECLS
