/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * One shift gives the survey to the next: the sheet as the record gives it, what the
 * two add in words, and who accepts by name.
 */
#pragma once

#include "gui/walk.h"
#include <gtk/gtk.h>

G_BEGIN_DECLS

/** bond_handover_dialog: who accepts measures from then on. */
void bond_handover_dialog (GtkWindow *parent, BondWalk *walk);

G_END_DECLS
