/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * The zones of an airframe as a tree of ticks, each with how many points it has.
 */
#pragma once

#include "core/airframe.h"
#include <gtk/gtk.h>

G_BEGIN_DECLS

#define BOND_TYPE_ZONE_TREE (bond_zone_tree_get_type ())
G_DECLARE_FINAL_TYPE (BondZoneTree, bond_zone_tree, BOND, ZONE_TREE, GtkBox)

GtkWidget *bond_zone_tree_new (void);
/**
 * bond_zone_tree_set_airframe: the zones of @airframe (nullable, held) that have points, all ticked.
 * @more: (nullable): of BondPointSpec, points besides those of its template; held
 */
void bond_zone_tree_set_airframe (BondZoneTree *tree, BondAirframe *airframe, GPtrArray *more);
/** bond_zone_tree_get_zones: the highest zones that are ticked whole; NULL = all; empty = none. (transfer full):
 * GPtrArray of char*, freed with it */
GPtrArray *bond_zone_tree_get_zones (BondZoneTree *tree);
/** bond_zone_tree_count: points in the zones ticked, of @all points. */
guint bond_zone_tree_count (BondZoneTree *tree, guint *all);

G_END_DECLS
