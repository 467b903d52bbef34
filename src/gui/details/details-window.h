/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * Point Details in a window of its own beside the survey window: looking at one
 * point must not take the reading field away.
 *
 * Signals
 *   "go" ()       the point shown is to be the point in hand of the walk
 */
#pragma once

#include "gui/details/details-view.h"
#include "store/survey-file.h"

G_BEGIN_DECLS

#define BOND_TYPE_DETAILS_WINDOW (bond_details_window_get_type ())
G_DECLARE_FINAL_TYPE (BondDetailsWindow, bond_details_window, BOND, DETAILS_WINDOW, GtkWindow)

/** bond_details_window_new: @parent: the survey window; @file: keeps photos. Shows the first point of the walk. */
GtkWidget *bond_details_window_new (GtkWindow *parent, BondSurveyFile *file);
/** bond_details_window_show: @point, and of a group @place (nullable). */
void bond_details_window_show (BondDetailsWindow *window, BondPoint *point, const char *place);
BondDetailsView *bond_details_window_get_view (BondDetailsWindow *window);

G_END_DECLS
