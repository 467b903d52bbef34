/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * Taking a reading out of the count: void, correct, move, undo.  Each asks for the
 * reason the record needs; the reading itself always stays.
 */
#pragma once

#include "gui/walk.h"
#include <gtk/gtk.h>

G_BEGIN_DECLS

/** bond_void_dialog: for the readings of the place in hand. */
void bond_void_dialog (GtkWindow *parent, BondWalk *walk);
/** bond_undo: takes back the newest act of this sitting; asks for a reason where one is needed. */
void bond_undo (GtkWindow *parent, BondWalk *walk);

G_END_DECLS
