/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * Point Details as one scrolling page: history, earlier surveys, limits,
 * uncertainty and place of one point.  It follows the walk it is given and every
 * new entry of the survey, and records nothing.
 */
#pragma once

#include "gui/walk.h"
#include <gtk/gtk.h>

G_BEGIN_DECLS

#define BOND_TYPE_DETAILS_VIEW (bond_details_view_get_type ())
G_DECLARE_FINAL_TYPE (BondDetailsView, bond_details_view, BOND, DETAILS_VIEW, GtkWidget)

/** bond_details_view_new: @walk: its point in hand is shown; a reference is kept. */
GtkWidget *bond_details_view_new (BondWalk *walk);
/** bond_details_view_set_docked: it stands in a narrow pane beside other things, where space is dear. */
void bond_details_view_set_docked (BondDetailsView *view);
BondWalk *bond_details_view_get_walk (BondDetailsView *view);
/** bond_details_view_add_acts: a row of buttons below the history. */
void bond_details_view_add_acts (BondDetailsView *view, GtkWidget *acts);
/** bond_details_view_enter: the focus goes to the history, of a group to the places above it. */
void bond_details_view_enter (BondDetailsView *view);
/** bond_details_view_text: everything the page says of the point, as lines of text. (transfer full) */
char *bond_details_view_text (BondDetailsView *view);

G_END_DECLS
