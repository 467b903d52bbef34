/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * The plain members of payloads, one table a kind of entry: clearing and copying
 * here, writing and reading in the store all walk the same rows, so that a new
 * member cannot be freed and never written, or written and never read.  Members
 * that are more than plain (bounds, sets, objects) are left to their own code.
 */
#pragma once

#include "core/entry.h"

G_BEGIN_DECLS

#define BOND_COUNT_NOT_STATED (-1)

typedef enum
{
  BOND_FIELD_TEXT,   /* char *, owned, NULL = not stated */
  BOND_FIELD_CHILD,  /* the same, in files an element of its own */
  BOND_FIELD_WORD,   /* enumeration */
  BOND_FIELD_COUNT,  /* int, 0 or more; BOND_COUNT_NOT_STATED = not stated */
  BOND_FIELD_SIZE,   /* gint64, always stated */
  BOND_FIELD_ANSWER, /* gboolean, always stated; absent in a file = TRUE */
  BOND_FIELD_FLAG,   /* gboolean, stated only when TRUE */
} BondFieldType;

typedef const char *(*BondFieldWord) (guint value);
typedef gboolean (*BondFieldParse) (const char *text, gpointer value);

/**
 * BondField:
 * @name: in files
 * @element: child element whose attribute it is; NULL = of the payload's own
 * @offset: within BondEntry (of bond_reading_texts(): within BondReading)
 * @word, @parse: of BOND_FIELD_WORD
 */
typedef struct
{
  const char *name;
  BondFieldType type;
  gsize offset;
  const char *element;
  BondFieldWord word;
  BondFieldParse parse;
} BondField;

/** bond_entry_fields: the plain members of @kind in the order of the file; those of a reading inside it are apart. */
const BondField *bond_entry_fields (BondEntryKind kind, guint *n);
/** bond_reading_texts: the strings of a reading, all BOND_FIELD_TEXT. */
const BondField *bond_reading_texts (guint *n);

G_END_DECLS
