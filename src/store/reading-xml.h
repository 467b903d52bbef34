/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * The <reading> element: the figures as typed beside the exact whole number.  It
 * stands in entries of the kinds reading, correct and seen.
 */
#pragma once

#include "core/entry.h"
#include "store/xml.h"

G_BEGIN_DECLS

void bond_reading_write (xmlNode *parent, const BondReading *reading);
/** bond_reading_read: FALSE with a located BOND_STORE_ERROR_SENSE; @reading may then be half filled. */
gboolean bond_reading_read (xmlNode *node, BondReading *reading, const char *file, GError **error);

G_END_DECLS
