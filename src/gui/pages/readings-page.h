/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * The Readings page: the whole survey as a table.  It records nothing; acts on the
 * chosen row are the window's, which asks the page for the walk they mean.
 *
 * Signals
 *   "details" ()                        the details of the chosen row are asked for
 *   "go" ()                             the chosen row is to be the point in hand of the walk
 *   "walk" ()                           back to the Walk page
 *   "say" (const char *css, const char *text)   something to tell in a band
 */
#pragma once

#include "gui/pages/readings-bar.h"
#include "gui/walk.h"

G_BEGIN_DECLS

#define BOND_TYPE_READINGS_PAGE (bond_readings_page_get_type ())
G_DECLARE_FINAL_TYPE (BondReadingsPage, bond_readings_page, BOND, READINGS_PAGE, GtkWidget)

/** bond_readings_page_new: @walk: the walk of the window; the page follows its point when it comes into sight. */
GtkWidget *bond_readings_page_new (BondWalk *walk);
/** bond_readings_page_get_hand: a walk whose point in hand is the chosen row; NULL = none is chosen. (transfer none) */
BondWalk *bond_readings_page_get_hand (BondReadingsPage *page);
BondReadingsTable *bond_readings_page_get_table (BondReadingsPage *page);
BondReadingsModel *bond_readings_page_get_model (BondReadingsPage *page);
BondReadingsBar *bond_readings_page_get_bar (BondReadingsPage *page);
/** bond_readings_page_enter: the page was chosen: the focus goes to the row in hand. */
void bond_readings_page_enter (BondReadingsPage *page);
void bond_readings_page_find (BondReadingsPage *page);
/** bond_readings_page_copy: the rows chosen, as tab-separated text, to the clipboard. */
void bond_readings_page_copy (BondReadingsPage *page);
/** bond_readings_page_export: asks for a file beside @beside (nullable), then writes the rows shown as CSV. */
void bond_readings_page_export (BondReadingsPage *page, const char *beside);
/** bond_readings_page_export_to: the same without asking; @file is replaced whole or not at all, a survey never. */
void bond_readings_page_export_to (BondReadingsPage *page, GFile *file);

/* --- readings-export.c --- */
/** BondReadingsExported: @message says where it is, or what happened and what to do next. */
typedef void (*BondReadingsExported) (const char *message, gboolean failed, gpointer data);
/**
 * bond_readings_export: @rows (BondReadingsRow) as CSV into @file, without blocking the window.
 * @progress: (nullable): shown from one second on
 * @filter: (nullable): in words
 */
void bond_readings_export (BondSurvey *survey, GPtrArray *rows, const char *filter, GFile *file,
                           GtkProgressBar *progress, BondReadingsExported done, gpointer data);
/** bond_readings_export_would_destroy: @file has the name of a survey or of what belongs to one. */
gboolean bond_readings_export_would_destroy (GFile *file);

G_END_DECLS
