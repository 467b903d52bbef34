/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * Photos, meter files and scans carried at the end of a survey: base64 in pieces,
 * known by the SHA-256 of their bytes.  Which entry names one is left to others.
 */
#pragma once

#include "core/entry.h"
#include "store/xml.h"

G_BEGIN_DECLS

#define BOND_ATTACHMENT_MAX ((gsize)12 * 1000 * 1000)
#define BOND_ATTACHMENTS_MAX ((gsize)200 * 1000 * 1000)

/** BondAttachment: @element: the <file> element as it stands in the survey. @size in bytes, decoded. */
typedef struct
{
  char *sha256, *name, *type;
  gint64 size;
  GBytes *element;
} BondAttachment;

/** bond_attachment_new: encodes @bytes. NULL with BOND_STORE_ERROR_WRITE when empty or too large. */
BondAttachment *bond_attachment_new (GBytes *bytes, const char *name, const char *type, GError **error);
/** bond_attachment_read: from a <file> element; @element its bytes. NULL when the bytes are not what SHA-256 and size
 * say. */
BondAttachment *bond_attachment_read (xmlNode *node, GBytes *element);
/** bond_attachment_decode: the bytes themselves, checked against their SHA-256. NULL with BOND_STORE_ERROR_CHAIN. */
GBytes *bond_attachment_decode (const BondAttachment *attachment, GError **error);
/** bond_attachment_side_path: where the bytes wait beside the survey at @path until a save. (transfer full) */
char *bond_attachment_side_path (const char *path, const char *sha256);
/** bond_attachment_read_side: what waits there for @attach. NULL when nothing does, or other bytes. */
BondAttachment *bond_attachment_read_side (const char *path, const BondAttach *attach);
BondAttachment *bond_attachment_copy (const BondAttachment *attachment);
void bond_attachment_free (BondAttachment *attachment);
/** bond_attachment_find: by SHA-256; NULL when not there. */
BondAttachment *bond_attachment_find (GPtrArray *attachments, const char *sha256);

G_DEFINE_AUTOPTR_CLEANUP_FUNC (BondAttachment, bond_attachment_free)

G_END_DECLS
