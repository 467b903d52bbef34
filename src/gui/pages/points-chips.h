/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * The row of chips over the points list: how many points are in which state, and
 * which of them are shown.  It counts nothing itself.
 */
#pragma once

#include "gui/pages/points-model.h"
#include <gtk/gtk.h>

G_BEGIN_DECLS

#define BOND_TYPE_POINTS_CHIPS (bond_points_chips_get_type ())
G_DECLARE_FINAL_TYPE (BondPointsChips, bond_points_chips, BOND, POINTS_CHIPS, GtkWidget)
/* Signal: "chosen" (int chip): another chip of the model's was pressed. */

/** bond_points_chips_show: counts of the whole survey, one a chip; a chip of none hides unless it is the chosen one. */
void bond_points_chips_show (BondPointsChips *chips, const guint counts[BOND_N_POINTS_CHIPS]);
/** bond_points_chips_choose: presses the chip of that number. */
void bond_points_chips_choose (BondPointsChips *chips, int chip);

G_END_DECLS
