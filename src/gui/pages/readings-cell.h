/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * One cell of the Readings page.  A table shows some two hundred rows of thirteen
 * cells at once, so a cell is one widget that draws everything itself.
 */
#pragma once

#include "gui/pages/readings-table.h"

G_BEGIN_DECLS

#define BOND_TYPE_READINGS_CELL (bond_readings_cell_get_type ())
G_DECLARE_FINAL_TYPE (BondReadingsCell, bond_readings_cell, BOND, READINGS_CELL, GtkWidget)

/** bond_readings_cell_new: of @column of @table, which outlives it. */
GtkWidget *bond_readings_cell_new (BondReadingsTable *table, int column);
/** bond_readings_cell_set_row: (nullable) follows its "changed". */
void bond_readings_cell_set_row (BondReadingsCell *cell, BondReadingsRow *row);
BondReadingsRow *bond_readings_cell_get_row (BondReadingsCell *cell);

G_END_DECLS
