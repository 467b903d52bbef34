/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * What stands above the table of the Readings page: search, choices, verdict chips,
 * how many rows are shown.
 *
 * Signal: "leave" (): Enter or Esc in the search: the table gets the focus
 */
#pragma once

#include "gui/pages/readings-table.h"

G_BEGIN_DECLS

#define BOND_TYPE_READINGS_BAR (bond_readings_bar_get_type ())
G_DECLARE_FINAL_TYPE (BondReadingsBar, bond_readings_bar, BOND, READINGS_BAR, GtkWidget)

GtkWidget *bond_readings_bar_new (BondReadingsModel *model, BondReadingsTable *table);
void bond_readings_bar_find (BondReadingsBar *bar);
/** bond_readings_bar_clear: as [Clear] does. */
void bond_readings_bar_clear (BondReadingsBar *bar);

/** bond_readings_columns_button: what is shown, in which order, sorted by what, all by key. (transfer floating) */
GtkWidget *bond_readings_columns_button (BondReadingsTable *table);

G_END_DECLS
