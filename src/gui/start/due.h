/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * Which instrument falls due next, in words.
 */
#pragma once

#include "core/source.h"
#include "store/catalog.h"

G_BEGIN_DECLS

/**
 * bond_due_words: "MO-1 is due for calibration on 14 Oct 2025, in 6 days."
 * @n: (out): how many instruments are due within 30 days or past
 * Returns: (transfer full) (nullable): NULL = none
 */
char *bond_due_words (BondCatalog *catalog, BondSource *source, guint *n);
/** bond_due_today: the local day. */
void bond_due_today (BondSource *source, GDate *today);

G_END_DECLS
