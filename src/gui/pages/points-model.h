/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * The flat list of the points pane: a header for each zone, then its points in
 * walking order.  GTK 4.8 has no list sections, so headers are items.
 */
#pragma once

#include "core/survey.h"

G_BEGIN_DECLS

#define BOND_TYPE_POINTS_ITEM (bond_points_item_get_type ())
G_DECLARE_FINAL_TYPE (BondPointsItem, bond_points_item, BOND, POINTS_ITEM, GObject)
/* Signal: "changed" (): words or counts of this item changed. */

/** BondPointsFilter: which points are shown; they combine with the search text. */
typedef enum
{
  BOND_POINTS_ALL,
  BOND_POINTS_TO_MEASURE,
  BOND_POINTS_REMEASURE,
  BOND_POINTS_WITHIN_U,
  BOND_POINTS_FAIL,
  BOND_POINTS_OTHER, /* suspect, not accessible, in doubt: open for another reason */
} BondPointsFilter;
#define BOND_N_POINTS_FILTERS 6

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
/** bond_points_model_set_search: words to be found in number, ends, zone; NULL or "" = all. */
void bond_points_model_set_search (BondPointsModel *model, const char *text);
void bond_points_model_set_filter (BondPointsModel *model, BondPointsFilter filter);
/** bond_points_model_toggle_zone: folds or unfolds the points of @zone. */
void bond_points_model_toggle_zone (BondPointsModel *model, const char *zone);
/** bond_points_model_find: position of @point in the list, G_MAXUINT when it is not shown. */
guint bond_points_model_find (BondPointsModel *model, BondPoint *point);
/** bond_points_model_counts: points of each filter, and how many are shown now. */
void bond_points_model_counts (BondPointsModel *model, guint counts[BOND_N_POINTS_FILTERS], guint *shown);

G_END_DECLS
