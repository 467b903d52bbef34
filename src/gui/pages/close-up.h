/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * The lower half of the canvas of a wide window: the zone in hand from near, while
 * the diagram above keeps the whole airframe.  It follows the walk by itself.
 */
#pragma once

#include "gui/walk.h"
#include "gui/widgets/diagram.h"

G_BEGIN_DECLS

#define BOND_TYPE_CLOSE_UP (bond_close_up_get_type ())
G_DECLARE_FINAL_TYPE (BondCloseUp, bond_close_up, BOND, CLOSE_UP, GtkWidget)

GtkWidget *bond_close_up_new (BondWalk *walk);
BondDiagram *bond_close_up_get_diagram (BondCloseUp *close_up);

G_END_DECLS
