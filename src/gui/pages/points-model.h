/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * The flat list of the points pane: a header for each zone, then its points in
 * walking order.  GTK 4.8 has no list sections, so headers are items.
 */
#pragma once

#include "gui/pages/points-filter.h"

G_BEGIN_DECLS

#define BOND_TYPE_POINTS_ITEM (bond_points_item_get_type ())
G_DECLARE_FINAL_TYPE (BondPointsItem, bond_points_item, BOND, POINTS_ITEM, GObject)
/* Signal: "changed" (): words or counts of this item changed. */

/** bond_points_item_get_point: NULL for a zone header. */
BondPoint *bond_points_item_get_point (BondPointsItem *item);
const char *bond_points_item_get_zone (BondPointsItem *item);
/** bond_points_item_get_name: name of the zone of a header. */
const char *bond_points_item_get_name (BondPointsItem *item);
void bond_points_item_get_progress (BondPointsItem *item, guint *done, guint *of);
gboolean bond_points_item_get_folded (BondPointsItem *item);

#define BOND_TYPE_POINTS_MODEL (bond_points_model_get_type ())
G_DECLARE_FINAL_TYPE (BondPointsModel, bond_points_model, BOND, POINTS_MODEL, GObject)
/* Signal: "counts-changed" (). */

BondPointsModel *bond_points_model_new (BondSurvey *survey);
/** bond_points_model_get_list: what a list view shows. (transfer none) */
GListModel *bond_points_model_get_list (BondPointsModel *model);
/** bond_points_model_get_filter: change it, then call bond_points_model_refilter(). */
BondPointsFilter *bond_points_model_get_filter (BondPointsModel *model);
/**
 * bond_points_model_refilter: asks every point anew.  Only then: a point that was shown stays when a reading changes
 * its verdict, else the row in hand would go from under the hand.  A point that is new to the survey is shown.
 */
void bond_points_model_refilter (BondPointsModel *model);
/** bond_points_model_shows: @point passed when the filter was last asked, folded or not. */
gboolean bond_points_model_shows (BondPointsModel *model, BondPoint *point);
/** bond_points_model_toggle_zone: folds or unfolds the points of @zone. */
void bond_points_model_toggle_zone (BondPointsModel *model, const char *zone);
/** bond_points_model_find: position of @point in the list, G_MAXUINT when it is not there. */
guint bond_points_model_find (BondPointsModel *model, BondPoint *point);
/** bond_points_model_find_zone: position of the first header of @zone, G_MAXUINT when it is not there. */
guint bond_points_model_find_zone (BondPointsModel *model, const char *zone);
/** bond_points_model_counts: points of each chip, and how many pass the filter. */
void bond_points_model_counts (BondPointsModel *model, guint counts[BOND_N_POINTS_CHIPS], guint *shown);

G_END_DECLS
