/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * Where the diagram looks, as a path of zones: "› 500 Left wing › 541 Left inboard
 * flap".  Each part is a button that zooms there.
 */
#pragma once

#include "gui/widgets/diagram.h"

G_BEGIN_DECLS

#define BOND_TYPE_ZONE_CRUMBS (bond_zone_crumbs_get_type ())
G_DECLARE_FINAL_TYPE (BondZoneCrumbs, bond_zone_crumbs, BOND, ZONE_CRUMBS, GtkWidget)

/** bond_zone_crumbs_new: follows the zone that @diagram is zoomed to; nothing is shown while it shows the whole. */
GtkWidget *bond_zone_crumbs_new (BondDiagram *diagram, BondSurvey *survey);

G_END_DECLS
