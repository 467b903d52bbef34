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

G_END_DECLS
