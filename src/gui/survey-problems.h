/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * Messages of opening a survey, in its window.
 */
#pragma once

#include "gui/survey-window.h"

G_BEGIN_DECLS

/**
 * bond_survey_window_tell_problems: bands for @problems and for a file that is only read; acts that record are off
 * then.
 * @bands: where the bands go
 * @strip: the identity strip, which stops counting for an altered file
 * @problems: (nullable): of BondProblem
 */
void bond_survey_window_tell_problems (BondSurveyWindow *self, GtkBox *bands, GtkWidget *strip, GPtrArray *problems);

G_END_DECLS
