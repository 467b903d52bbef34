/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * What is decided on paper about a point that does not conform: its defect card, its
 * disposition, and a deviation of the measuring state that somebody accepts.
 */
#pragma once

#include "gui/walk.h"
#include <gtk/gtk.h>

G_BEGIN_DECLS

/** bond_defect_dialog: number of the defect card raised for the reject. */
void bond_defect_dialog (GtkWindow *parent, BondWalk *walk);
/** bond_disposition_dialog: carried forward, deferred, accepted by engineering disposition. */
void bond_disposition_dialog (GtkWindow *parent, BondWalk *walk);
/** bond_deviation_dialog: a named person accepts the reading taken in another measuring state than the limit asks. */
void bond_deviation_dialog (GtkWindow *parent, BondWalk *walk);
/** bond_deviation_target: (nullable): reading of @result that has no verdict because of its measuring state. */
BondEntry *bond_deviation_target (const BondPlaceResult *result);

G_END_DECLS
