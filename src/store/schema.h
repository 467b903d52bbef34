/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * Which root elements the program knows, up to which format, and the schema each
 * is held against.  Schemas are data of this library; no schema is ever fetched.
 */
#pragma once

#include "store/xml.h"

#include <libxml/xmlschemas.h>

G_BEGIN_DECLS

/** BondDialect: one kind of file. @format: newest format understood; @size_cap: bytes of a whole file. */
typedef struct
{
  const char *root;
  const char *ns;
  const char *schema; /* resource name below data/schemas */
  int format;
  gsize size_cap;
} BondDialect;

/** bond_dialect_of: by namespace and element name; NULL when not ours. */
const BondDialect *bond_dialect_of (const xmlNode *node);
/** bond_dialect_find: by root element name; NULL when not ours. */
const BondDialect *bond_dialect_find (const char *root);
/** bond_dialect_cap: largest size a file with @root may have (NULL: any). */
gsize bond_dialect_cap (const char *root);

typedef struct _BondSchema BondSchema;
/** bond_schema_new: compiles the schema (1–2 ms); use one object in one thread at a time. */
BondSchema *bond_schema_new (const BondDialect *dialect, GError **error);
void bond_schema_free (BondSchema *schema);
/** bond_schema_get: the calling thread's own, compiled when it is first asked for. (transfer none) */
BondSchema *bond_schema_get (const BondDialect *dialect, GError **error);
/**
 * bond_schema_check: holds @node and what is below it against the schema.
 * @node: a root element, or any element the schema declares globally
 *
 * Returns: number of problems added to @problems
 */
guint bond_schema_check (BondSchema *schema, xmlNode *node, const char *file, GPtrArray *problems);

/** bond_schema_plain_message: what libxml2 said as one short line of valid UTF-8, without namespaces and full stop. */
char *bond_schema_plain_message (const char *message);

G_DEFINE_AUTOPTR_CLEANUP_FUNC (BondSchema, bond_schema_free)

G_END_DECLS
