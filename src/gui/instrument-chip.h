/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * Which instrument is in use: a button that says it and a popover that changes it.
 * Registers hold the choices; what is taken from them is adopted into the survey.
 */
#pragma once

#include "gui/walk.h"
#include "store/catalog.h"
#include <gtk/gtk.h>

G_BEGIN_DECLS

/** bond_instrument_chip_new: @catalog (nullable): registers to choose more from; must outlive the chip. */
GtkWidget *bond_instrument_chip_new (BondWalk *walk, BondCatalog *catalog);

G_END_DECLS
