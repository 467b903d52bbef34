/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * Acts on the point in hand that are no readings: rework, joint opened or
 * replaced, not accessible, visual condition, note.  Each asks, then records one
 * entry through the walk.
 */
#pragma once

#include "gui/walk.h"
#include "store/survey-file.h"
#include <gtk/gtk.h>

G_BEGIN_DECLS

void bond_rework_dialog (GtkWindow *parent, BondWalk *walk);
void bond_condition_dialog (GtkWindow *parent, BondWalk *walk);
void bond_state_dialog (GtkWindow *parent, BondWalk *walk);
void bond_visual_dialog (GtkWindow *parent, BondWalk *walk);
/** bond_note_dialog: a note is a small text kept with the survey, like a photo. @file may be NULL (then it says so). */
void bond_note_dialog (GtkWindow *parent, BondWalk *walk, BondSurveyFile *file);

G_END_DECLS
