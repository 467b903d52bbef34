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
  GtkWidget *strip_slot, *bands, *title_box;
  GtkStack *stack;
  GtkLabel *short_label, *page_label;
  GtkMenuButton *menu_button;
  GtkButton *undo_button;
  GtkWidget *instrument_band;
  GMenu *saved_section;
  gboolean close_failed;
};

/** bond_survey_acts_install: the acts without a state, one row each. */
void bond_survey_acts_install (GtkWidgetClass *klass);
/** bond_survey_acts_add_stateful: the acts that carry a state or a parameter. */
void bond_survey_acts_add_stateful (BondSurveyWindow *window);
/** bond_survey_window_show_view: lets the act "view" carry the view the diagram shows. */
void bond_survey_window_show_view (BondSurveyWindow *window);

G_END_DECLS
