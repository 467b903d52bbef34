/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * What the survey window and its acts share.
 */
#pragma once

#include "gui/pages/before-page.h"
#include "gui/survey-window.h"

G_BEGIN_DECLS

struct _BondSurveyWindow
{
  GtkApplicationWindow parent_instance;
  BondSurveyFile *file;
  BondWalk *walk;
  BondWalkPage *page;
  BondBeforePage *before;
  GtkWidget *strip, *chip[2];
  GtkWidget *people[2], *gate; /* shift-acts.c */
  GtkWidget *strip_slot, *bands, *title_box;
  GtkStack *stack;
  GtkLabel *short_label;
  GtkMenuButton *menu_button;
  GtkButton *undo_button;
  GtkWidget *instrument_band;
  GMenu *saved_section;
  GtkWidget *details; /* Point Details while it is open, its window */
  GtkWidget *docked;  /* the same in a pane of the Walk page, NULL until the window was wide */
  gboolean close_failed;
};

/** bond_survey_acts_install: the acts without a state, one row each. */
void bond_survey_acts_install (GtkWidgetClass *klass);
/** bond_survey_point_acts_install: the acts that record something about the point in hand. */
void bond_survey_point_acts_install (GtkWidgetClass *klass);
/** bond_survey_shift_acts_install: the acts about people, permits and handing over. */
void bond_survey_shift_acts_install (GtkWidgetClass *klass);
/** bond_survey_window_add_shift: who measures, and the bands of what is to be settled first; after page and chips. */
void bond_survey_window_add_shift (BondSurveyWindow *window, BondCatalog *catalog);
/** bond_survey_window_open_gate: the walk has begun: the bands show. */
void bond_survey_window_open_gate (BondSurveyWindow *window);
/** bond_survey_acts_add_stateful: the acts that carry a state or a parameter. */
void bond_survey_acts_add_stateful (BondSurveyWindow *window);
/** bond_survey_window_show_view: lets the act "view" carry the view the diagram shows. */
void bond_survey_window_show_view (BondSurveyWindow *window);

/** bond_survey_window_show_state: what hangs on the newest entry: title, progress, undo, when it was written. */
void bond_survey_window_show_state (BondSurveyWindow *window);

/* --- survey-pages.c: names are those of the act "page" --- */
#define BOND_PAGE_WALK "walk"
#define BOND_PAGE_READINGS "readings"
/** bond_survey_window_add_switcher: the buttons of the pages into @box, and the act behind them. */
void bond_survey_window_add_switcher (BondSurveyWindow *window, GtkBox *box);
/** bond_survey_window_build_page: the page, built if need be, not shown. (transfer none) */
GtkWidget *bond_survey_window_build_page (BondSurveyWindow *window, const char *name);
/** bond_survey_window_need_page: shows it unless it is shown or the cautions are: for acts that are seen there only. */
void bond_survey_window_need_page (BondSurveyWindow *window, const char *name);
const char *bond_survey_window_page_title (BondSurveyWindow *window);
/** bond_survey_window_show_details: Point Details of the point that acts mean. */
void bond_survey_window_show_details (BondSurveyWindow *window);
/** bond_survey_window_dock_details: in a wide window they stand beside the reading panel. */
void bond_survey_window_dock_details (BondSurveyWindow *window);
/** bond_survey_window_drop_details: closes them for good, as the window goes. */
void bond_survey_window_drop_details (BondSurveyWindow *window);
/** bond_survey_window_find: the search of the page that is shown. */
void bond_survey_window_find (BondSurveyWindow *window);

G_END_DECLS
