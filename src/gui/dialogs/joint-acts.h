/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * What is done to the joint in hand: rework, opened or replaced, refinished.  Each
 * asks, then records one entry through the walk.
 */
#pragma once

#include "gui/walk.h"
#include <gtk/gtk.h>

G_BEGIN_DECLS

void bond_rework_dialog (GtkWindow *parent, BondWalk *walk);
/** bond_condition_dialog: joint opened or replaced without a fail. */
void bond_condition_dialog (GtkWindow *parent, BondWalk *walk);
/** bond_refinish_dialog: the stripped joint was protected again; shows since when it is bare. */
void bond_refinish_dialog (GtkWindow *parent, BondWalk *walk);

G_END_DECLS
