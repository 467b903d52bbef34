/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * What is pinned beside the field: unit, range, connectors, mounting, reference
 * end, planned repeats.  Changing it costs no key per reading.
 */
#pragma once

#include "gui/walk.h"
#include <gtk/gtk.h>

G_BEGIN_DECLS

/** bond_pinned_popover_new: filled anew each time it opens. */
GtkWidget *bond_pinned_popover_new (BondWalk *walk);
/** bond_pinned_summary: "30 mΩ range, connectors unmated, in place"; (transfer full) */
char *bond_pinned_summary (BondWalk *walk);
/** bond_connectors_words / bond_mounting_words: "connectors unmated", "in place"; translated. */
const char *bond_connectors_words (BondConnectors connectors);
const char *bond_mounting_words (BondMounting mounting);

G_END_DECLS
