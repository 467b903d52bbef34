/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * What happened to one place in this survey, oldest first, and what earlier
 * surveys found.  Read only; nothing is ever left out of it.
 */
#pragma once

#include "core/survey.h"
#include <gtk/gtk.h>

G_BEGIN_DECLS

#define BOND_TYPE_HISTORY_LIST (bond_history_list_get_type ())
G_DECLARE_FINAL_TYPE (BondHistoryList, bond_history_list, BOND, HISTORY_LIST, GtkWidget)

GtkWidget *bond_history_list_new (void);
/** bond_history_list_show: history of @result, the state of a place of @point. */
void bond_history_list_show (BondHistoryList *list, BondSurvey *survey, BondPoint *point,
                             const BondPlaceResult *result);
/**
 * bond_history_list_show_whole: a line that is cut at @bottom_px, measured in @widget (which holds the list), is not
 * drawn; it keeps its place and comes when it is scrolled into sight.
 */
void bond_history_list_show_whole (BondHistoryList *list, GtkWidget *widget, double bottom_px);
/** bond_history_earlier_words: "1.58 mΩ in Sep 2022, 1.62 mΩ in Mar 2024" of @point, NULL when there are none.
 * (transfer full) */
char *bond_history_earlier_words (BondSurvey *survey, BondPoint *point);

G_END_DECLS
