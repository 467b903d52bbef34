/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * One row of the points pane.  It shows an item and follows it; it holds no state.
 */
#pragma once

#include "gui/pages/points-model.h"
#include <gtk/gtk.h>

G_BEGIN_DECLS

#define BOND_TYPE_POINTS_ROW (bond_points_row_get_type ())
G_DECLARE_FINAL_TYPE (BondPointsRow, bond_points_row, BOND, POINTS_ROW, GtkBox)

GtkWidget *bond_points_row_new (BondSurvey *survey);
/** bond_points_row_set_item: (nullable): item to show and follow. */
void bond_points_row_set_item (BondPointsRow *row, BondPointsItem *item);

/** bond_points_row_get_item: (nullable). */
BondPointsItem *bond_points_row_get_item (BondPointsRow *row);

G_END_DECLS
