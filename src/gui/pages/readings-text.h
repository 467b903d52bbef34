/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * Rows of the Readings page as text for other programs: tab-separated for the
 * clipboard, CSV for a file.  Numbers are plain ohms with '.', whatever the locale.
 */
#pragma once

#include "gui/pages/readings-columns.h"

G_BEGIN_DECLS

/**
 * bond_readings_tsv: a header line and a line for each of @rows that is no header of a zone.
 * @order: (nullable): indices into bond_readings_columns(); NULL = all as they stand there
 * Returns: (transfer full)
 */
char *bond_readings_tsv (GPtrArray *rows, const int *order, int n_order);
/** bond_readings_csv_head: the comment line "# Bondwright …" and the header line. (transfer full) */
GString *bond_readings_csv_head (BondSurvey *survey, const char *filter, const char *now);
/** bond_readings_csv_add: the line of @row; a header of a zone adds none. */
void bond_readings_csv_add (GString *csv, BondReadingsRow *row);
/** bond_csv_add_cell: after RFC 4180, guarded against being taken for a formula unless it is a @number. */
void bond_csv_add_cell (GString *csv, const char *text, gboolean first, gboolean number);

G_END_DECLS
