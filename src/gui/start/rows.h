/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * The rows of the page Surveys: one an aircraft, and one a file that needs a look.
 * Buttons name actions of the group "surveys" with the path of the file they act on;
 * what these do is left to the page.
 */
#pragma once

#include "gui/start/timeline.h"

G_BEGIN_DECLS

/** BondStartColumns: what keeps the columns of all rows in line. */
typedef struct
{
  GtkSizeGroup *act;
  BondTimeSpan span;
} BondStartColumns;

/** bond_start_label: text at the left that ellipsizes and then has its whole text as tooltip. @css may be NULL. */
GtkWidget *bond_start_label (const char *text, const char *css);
/**
 * bond_list_rove: Tab stops once in @list, at the row that is chosen, and goes on to what that row shows; arrows
 * choose. GTK's own way goes through all rows and chooses each on the way, so that the details of the first are out of
 * reach. Call it before other handlers of "row-selected" are connected.
 */
void bond_list_rove (GtkListBox *list);
/** bond_aircraft_row_new: @aircraft is read now, not kept. */
GtkWidget *bond_aircraft_row_new (const BondAircraft *aircraft, const BondStartColumns *columns);
/** bond_aircraft_row_header: the line above all rows. */
GtkWidget *bond_aircraft_row_header (const BondStartColumns *columns);
/** bond_problem_row_new: @summary has a trouble. */
GtkWidget *bond_problem_row_new (const BondSurveySummary *summary);

/** bond_start_row_path: the file a row is of; of an aircraft the survey in hand. (transfer none) */
const char *bond_start_row_path (GtkWidget *row);
/** bond_start_row_opens: Enter on the row opens that file. */
gboolean bond_start_row_opens (GtkWidget *row);
gboolean bond_start_row_is_problem (GtkWidget *row);
/** bond_start_row_matches: @words (lower case, nullable) are all in the row, and it is open or needs a look as asked.
 */
gboolean bond_start_row_matches (GtkWidget *row, const char *words, gboolean only_open, gboolean only_look);
/** bond_start_row_busy: shows @text and a bar in place of the words; NULL = no more. */
void bond_start_row_busy (GtkWidget *row, const char *text);
/** bond_aircraft_words: "open, 112 of 122 done, 3 fail" of the survey in hand. (transfer full) */
char *bond_aircraft_words (const BondAircraft *aircraft);
/** bond_problem_words: what is the matter with the file and what to do. (transfer full) */
char *bond_problem_words (const BondSurveySummary *summary);

G_END_DECLS
