/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * Who, when, how far and what next: four columns in line from row to row.
 */
#pragma once

#include <gtk/gtk.h>

G_BEGIN_DECLS

#define BOND_TYPE_ROW_LAYOUT (bond_row_layout_get_type ())
G_DECLARE_FINAL_TYPE (BondRowLayout, bond_row_layout, BOND, ROW_LAYOUT, GtkLayoutManager)

/** bond_row_columns_new: a container whose first four visible children stand in the columns, in order. */
GtkWidget *bond_row_columns_new (void);

G_END_DECLS
