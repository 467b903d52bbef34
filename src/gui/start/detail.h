/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * The parts that details are made of: labels that wrap, pairs, tables.
 */
#pragma once

#include <gtk/gtk.h>

G_BEGIN_DECLS

/** bond_detail_label: text at the left that wraps. @css may be NULL. */
GtkWidget *bond_detail_label (const char *text, const char *css);
void bond_detail_heading (GtkBox *box, const char *text);
void bond_detail_text (GtkBox *box, const char *text, const char *css);
/** bond_detail_pair: "Serial   EXAMPLE-MO-1"; nothing when @value is NULL. */
void bond_detail_pair (GtkBox *box, const char *label, const char *value);
/**
 * bond_detail_table: a table with @columns (translated; a leading '#' sets a column of figures at the right, a leading
 * '+' lets it take the room that is left). Returns: for bond_detail_row()
 */
GtkWidget *bond_detail_table (GtkBox *box, const char *const *columns);
/** bond_detail_row: as many @cells as columns; NULL or "" stays empty. */
void bond_detail_row (GtkWidget *table, const char *const *cells);

G_END_DECLS
