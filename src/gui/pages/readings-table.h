/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * The table of the Readings page: columns that can be hidden, moved and sorted by,
 * and what is chosen in it.
 *
 * Signals
 *   "chosen" ()                      another row, or none, is the one acts mean
 *   "activate" (BondReadingsRow *)   Enter or a double click
 *   "menu" (BondReadingsRow *, double x, double y)   right click or a long touch; the place is the view's
 */
#pragma once

#include "gui/pages/readings-columns.h"
#include "gui/pages/readings-model.h"

G_BEGIN_DECLS

#define BOND_TYPE_READINGS_TABLE (bond_readings_table_get_type ())
G_DECLARE_FINAL_TYPE (BondReadingsTable, bond_readings_table, BOND, READINGS_TABLE, GtkWidget)

GtkWidget *bond_readings_table_new (BondReadingsModel *model);
/** bond_readings_table_get_chosen: the first row chosen that is no header; NULL = none. (transfer full) */
BondReadingsRow *bond_readings_table_get_chosen (BondReadingsTable *table);
/** bond_readings_table_get_rows: all rows chosen, in the order shown; @all: all rows shown. (transfer full) */
GPtrArray *bond_readings_table_get_rows (BondReadingsTable *table, gboolean all);
/** bond_readings_table_choose: the row of @point and brings it into sight; @place as of the walk. FALSE = not shown. */
gboolean bond_readings_table_choose (BondReadingsTable *table, BondPoint *point, const char *place);
/** bond_readings_table_get_order: columns wanted, as indices, in order; some may have no room. Returns: how many */
int bond_readings_table_get_order (BondReadingsTable *table, int order[BOND_N_READINGS_COLUMNS]);
GtkColumnView *bond_readings_table_get_view (BondReadingsTable *table);
/** bond_readings_table_sort_by: @column −1 = walking order. */
void bond_readings_table_sort_by (BondReadingsTable *table, int column, GtkSortType type);
/** bond_readings_table_get_sort: column and direction; −1 = walking order. */
int bond_readings_table_get_sort (BondReadingsTable *table, GtkSortType *type);
/** bond_readings_table_show_column: by index. */
void bond_readings_table_show_column (BondReadingsTable *table, int column, gboolean show);
/** bond_readings_table_move_column: by @by places among all columns. */
void bond_readings_table_move_column (BondReadingsTable *table, int column, int by);
/** bond_readings_table_reset: the usual columns, in the order of the table of columns, and walking order. */
void bond_readings_table_reset (BondReadingsTable *table);
/** bond_readings_table_nth_column: index of the column at @position, and whether it is wanted. */
int bond_readings_table_nth_column (BondReadingsTable *table, guint position, gboolean *wanted);
/** bond_readings_table_has_room: FALSE = it is wanted and gave way. */
gboolean bond_readings_table_has_room (BondReadingsTable *table, int column);
/** bond_readings_table_is_end: @column is the first, or the @last, of those in sight. */
gboolean bond_readings_table_is_end (BondReadingsTable *table, int column, gboolean last);
/** bond_readings_table_get_unit: the unit in the heads; cells name another one. */
BondUnit bond_readings_table_get_unit (BondReadingsTable *table);
/** bond_readings_table_is_mixed: some row has another unit. */
gboolean bond_readings_table_is_mixed (BondReadingsTable *table);
/** bond_readings_table_skip_header: from the row chosen over the header beside it; @by 1 = down, −1 = up. FALSE = there
 * is none. */
gboolean bond_readings_table_skip_header (BondReadingsTable *table, int by);
/** bond_readings_table_grab: the row chosen is brought into sight and gets the focus, as soon as it has been laid out.
 */
void bond_readings_table_grab (BondReadingsTable *table);

G_END_DECLS
