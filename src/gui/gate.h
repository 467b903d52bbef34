/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * What stands between a typed reading and the record that is no matter of the digits:
 * cautions not read today, a permit missing or over, a meter not approved.  A band
 * says it before Enter; Enter says it again and keeps the digits.
 */
#pragma once

#include "gui/walk.h"
#include <gtk/gtk.h>

G_BEGIN_DECLS

/** bond_gate_problem: why no reading can be taken now at the point in hand; NULL = it can. (transfer full) */
char *bond_gate_problem (BondWalk *walk);
/** bond_gate_bands_new: the bands of @walk, renewed with every change and as time goes on. */
GtkWidget *bond_gate_bands_new (BondWalk *walk);
/** bond_gate_bands_refresh: renews them now. */
void bond_gate_bands_refresh (GtkWidget *bands);

/** bond_cautions_dialog: what the person who measures has still to read today, else all of this survey. */
void bond_cautions_dialog (GtkWindow *parent, BondWalk *walk);

G_END_DECLS
