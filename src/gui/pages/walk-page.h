/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * The Walk page: points pane, diagram with its views, reading panel, and the foot
 * of a narrow window.  It owns nothing but widgets; the walk is the window's.
 */
#pragma once

#include "gui/pages/panes.h"
#include "gui/pages/points-pane.h"
#include "gui/pages/reading-panel.h"
#include "gui/widgets/diagram.h"

G_BEGIN_DECLS

#define BOND_TYPE_WALK_PAGE (bond_walk_page_get_type ())
G_DECLARE_FINAL_TYPE (BondWalkPage, bond_walk_page, BOND, WALK_PAGE, GtkWidget)
/* Signal: "class-changed" (): see BondPanes. */

GtkWidget *bond_walk_page_new (BondWalk *walk);
BondReadingPanel *bond_walk_page_get_panel (BondWalkPage *page);
BondDiagram *bond_walk_page_get_diagram (BondWalkPage *page);
BondPanes *bond_walk_page_get_panes (BondWalkPage *page);
/** bond_walk_page_find: shows the points pane and puts the focus into its search. */
void bond_walk_page_find (BondWalkPage *page);
/** bond_walk_page_step_pane: the focus goes to the next (1) or previous (−1) pane. */
void bond_walk_page_step_pane (BondWalkPage *page, int by);
/** bond_walk_page_set_view: by id. */
void bond_walk_page_set_view (BondWalkPage *page, const char *view);
/** bond_walk_page_toggle_zone: zooms to the zone of the point in hand, or back to the whole. */
void bond_walk_page_toggle_zone (BondWalkPage *page);
/** bond_walk_page_place_point: opens the form for a point in the middle of the current zone (the keys' way). */
void bond_walk_page_place_point (BondWalkPage *page);
/** bond_walk_page_add_foot: a widget at the end of the foot line (instrument of a narrow window). */
void bond_walk_page_add_foot (BondWalkPage *page, GtkWidget *widget);

G_END_DECLS
