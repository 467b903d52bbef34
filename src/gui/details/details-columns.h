/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * Two columns beside each other where there is room, else one below the other.  The
 * children are moved, never rebuilt.
 */
#pragma once

#include <gtk/gtk.h>

G_BEGIN_DECLS

#define BOND_TYPE_DETAILS_COLUMNS (bond_details_columns_get_type ())
G_DECLARE_FINAL_TYPE (BondDetailsColumns, bond_details_columns, BOND, DETAILS_COLUMNS, GtkWidget)

/** bond_details_columns_new: takes both over. */
GtkWidget *bond_details_columns_new (GtkWidget *left, GtkWidget *right);

G_END_DECLS
