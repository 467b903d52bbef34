/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * Entries as XML and back, one row of one table for each kind.  Neither digests nor
 * files are known here.
 */
#pragma once

#include "core/entry.h"
#include "store/xml.h"

G_BEGIN_DECLS

/** bond_entry_write: appends <entry> with all but `d` to @parent. */
xmlNode *bond_entry_write (xmlNode *parent, const BondEntry *entry);
/**
 * bond_entry_read:
 * @node: an <entry> that has passed the schema
 * @file: name for messages
 *
 * Returns: (transfer full): NULL with BOND_STORE_ERROR_SENSE, located, when it cannot mean anything
 */
BondEntry *bond_entry_read (xmlNode *node, const char *file, GError **error);
/** bond_entry_id_split: "SITTING-N" into its parts; FALSE when it is no such id. @sitting (transfer full). */
gboolean bond_entry_id_split (const char *id, char **sitting, int *n);

G_END_DECLS
