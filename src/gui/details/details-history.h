/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * The history of Point Details: one row a line, each to be reached by arrows and
 * read aloud whole.
 */
#pragma once

#include "core/survey.h"
#include <gtk/gtk.h>

G_BEGIN_DECLS

/** bond_details_history_new: an empty GtkListBox. */
GtkWidget *bond_details_history_new (void);
/** bond_details_history_show: everything recorded at @point, oldest first; the row with the focus keeps it. */
void bond_details_history_show (GtkListBox *list, BondSurvey *survey, BondPoint *point);

G_END_DECLS
