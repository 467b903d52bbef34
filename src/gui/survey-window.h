/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * One window for one survey.
 */
#pragma once

#include "gui/pages/walk-page.h"
#include "store/catalog.h"
#include "store/survey-file.h"

G_BEGIN_DECLS

#define BOND_TYPE_SURVEY_WINDOW (bond_survey_window_get_type ())
G_DECLARE_FINAL_TYPE (BondSurveyWindow, bond_survey_window, BOND, SURVEY_WINDOW, GtkApplicationWindow)

/**
 * bond_survey_window_new:
 * @file: opened for writing; the window closes it
 * @catalog: (nullable): registers; must outlive the window
 * @problems: (nullable): of BondProblem: what was found on opening and did not stop it
 */
BondSurveyWindow *bond_survey_window_new (GtkApplication *application, BondSurveyFile *file, BondCatalog *catalog,
                                          GPtrArray *problems);
BondSurveyFile *bond_survey_window_get_file (BondSurveyWindow *window);
BondWalk *bond_survey_window_get_walk (BondSurveyWindow *window);
BondWalkPage *bond_survey_window_get_page (BondSurveyWindow *window);
/** bond_survey_window_begin: leaves the cautions for the walk. */
void bond_survey_window_begin (BondSurveyWindow *window);
/** bond_survey_window_show_page: "walk" … (rows of survey-pages.c); what is typed in the walk stays. */
void bond_survey_window_show_page (BondSurveyWindow *window, const char *name);
/**
 * bond_survey_window_get_hand: the walk that acts on a point mean: on the Walk page the walk itself, on another page
 * one whose point in hand is the row chosen there; NULL when none is. (transfer none)
 */
BondWalk *bond_survey_window_get_hand (BondSurveyWindow *window);
/**
 * bond_survey_window_carry: point in hand, text of the reading field and size of @window go over to @to, a window that
 * was opened on the same file in its place.  Text whose point @to does not have is told there, not put on another
 * point.
 */
void bond_survey_window_carry (BondSurveyWindow *window, BondSurveyWindow *to);
/** bond_survey_window_tell: a band above the page; @css "fail", "guard" or NULL. */
void bond_survey_window_tell (BondSurveyWindow *window, const char *css, const char *text);

G_END_DECLS
