/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * What a new survey needs to be known: airframe, aircraft, job, limits, people,
 * instrument, decision rule, and the last survey of the same aircraft.
 */
#pragma once

#include "gui/application.h"

G_BEGIN_DECLS

/** bond_new_survey_dialog: makes the file in the library folder and opens its window. */
void bond_new_survey_dialog (GtkWindow *parent, BondApplication *application, BondSource *source);
/**
 * bond_survey_again_dialog: the same form for the aircraft of the survey at @path: its points, open items and values
 * come along, never as readings; a message where it cannot be used.
 */
void bond_survey_again_dialog (GtkWindow *parent, BondApplication *application, BondSource *source, const char *path);

G_END_DECLS
