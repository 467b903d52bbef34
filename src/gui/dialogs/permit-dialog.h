/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * Leave to measure where something can catch fire or go off: recorded before the
 * first reading there, closed when clips and leads are out again.
 */
#pragma once

#include "gui/walk.h"
#include <gtk/gtk.h>

G_BEGIN_DECLS

/** bond_permit_dialog: records a permit, with the zone and the hazard of the point in hand filled in. */
void bond_permit_dialog (GtkWindow *parent, BondWalk *walk);
/** bond_close_permit_dialog: closes one of the open permits, that of the point in hand first. */
void bond_close_permit_dialog (GtkWindow *parent, BondWalk *walk);

G_END_DECLS
