/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * The points pane: search, chips with counts, and the list of points by zone in
 * walking order.  Choosing a row moves the walk; nothing is recorded here.
 */
#pragma once

#include "gui/walk.h"
#include <gtk/gtk.h>

G_BEGIN_DECLS

#define BOND_TYPE_POINTS_PANE (bond_points_pane_get_type ())
G_DECLARE_FINAL_TYPE (BondPointsPane, bond_points_pane, BOND, POINTS_PANE, GtkWidget)
/* Signals: "chosen" (): a row was chosen, the field should have the focus again;
 *          "typed" (guint character): a digit typed in the list belongs to the field. */

GtkWidget *bond_points_pane_new (BondWalk *walk);
/** bond_points_pane_find: focus into the search entry. */
void bond_points_pane_find (BondPointsPane *pane);

/** bond_points_pane_grab_list: the focus goes to the row of the point in hand. */
void bond_points_pane_grab_list (BondPointsPane *pane);

G_END_DECLS
