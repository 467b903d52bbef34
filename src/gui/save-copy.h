/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * A way out when the place of a survey can no longer be written: everything recorded
 * so far, written somewhere else.
 */
#pragma once

#include "store/survey-file.h"
#include <gtk/gtk.h>

G_BEGIN_DECLS

/** bond_save_copy_dialog: asks where, writes, and says what is in the copy. The survey stays open where it is. */
void bond_save_copy_dialog (GtkWindow *parent, BondSurveyFile *file);

G_END_DECLS
