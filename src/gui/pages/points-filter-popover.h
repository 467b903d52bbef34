/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * The Filter popover of the points pane: what the chips and the search cannot ask.
 */
#pragma once

#include "gui/pages/points-model.h"
#include <gtk/gtk.h>

G_BEGIN_DECLS

/**
 * bond_points_filter_popover_new: changes the filter of @model and calls @changed with @data; the caller asks the
 * points anew.  Filled each time it opens.
 */
GtkWidget *bond_points_filter_popover_new (BondSurvey *survey, BondPointsModel *model, GCallback changed,
                                           gpointer data);

G_END_DECLS
