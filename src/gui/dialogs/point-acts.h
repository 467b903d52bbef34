/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * Acts on the point in hand that touch neither joint nor reading: why it is not
 * measured, its visual condition, a note, a photo.  Each asks, then records one
 * entry through the walk.
 */
#pragma once

#include "gui/walk.h"
#include "store/survey-file.h"
#include <gtk/gtk.h>

G_BEGIN_DECLS

/** bond_state_dialog: not accessible, not fitted, not applicable, not in sample. */
void bond_state_dialog (GtkWindow *parent, BondWalk *walk);
void bond_visual_dialog (GtkWindow *parent, BondWalk *walk);
void bond_note_dialog (GtkWindow *parent, BondWalk *walk);

/** BOND_PHOTO_MAX_BYTES: photos are kept up to this size. */
#define BOND_PHOTO_MAX_BYTES (12 * 1000 * 1000)

/** bond_photo_dialog: asks for a JPEG or PNG file and keeps it with the survey. */
void bond_photo_dialog (GtkWindow *parent, BondWalk *walk, BondSurveyFile *file);
/**
 * bond_photo_add: what the dialog does with the file chosen: checks its size and that it is a JPEG or PNG image, keeps
 * its bytes in @file and records the entry. FALSE: nothing was added, @error says why.
 */
gboolean bond_photo_add (BondWalk *walk, BondSurveyFile *file, GFile *photo, GError **error);

G_END_DECLS
