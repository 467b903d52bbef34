/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * The plain members of payloads as attributes and small elements, both ways, after
 * the tables of core/entry-field.h.
 */
#pragma once

#include "core/entry-field.h"
#include "store/xml.h"

G_BEGIN_DECLS

/** bond_fields_write: fills @node, the payload element of @entry, with its plain members that are stated. */
void bond_fields_write (xmlNode *node, const BondEntry *entry);
/** bond_fields_read: the other way; FALSE with a located error where a word or number cannot mean anything. */
gboolean bond_fields_read (xmlNode *node, BondEntry *entry, const char *file, GError **error);

G_END_DECLS
