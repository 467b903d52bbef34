/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * What reading the file (record.c) and reading the journal (record-journal.c) share.
 */
#pragma once

#include "store/record.h"
#include "store/verify.h"

G_BEGIN_DECLS

/* The reading under way. @file is the name messages carry: the survey's or the journal's path. */
typedef struct
{
  BondRecord *record;
  BondVerifier *verifier;
  GHashTable *numbers; /* point id → printed number */
  GPtrArray *problems;
  const char *file;
  char *program;
  char *holds;
} BondRecordReading;

/** bond_record_check_schema: @line: 0 when the node knows its own. FALSE with a located BOND_STORE_ERROR_SCHEMA. */
gboolean bond_record_check_schema (BondRecordReading *reading, xmlNode *node, const char *root, int line,
                                   GError **error);
/** bond_record_take_entry: adds the entry of @node. @line: as above; not 0 means that it stands in the journal. */
gboolean bond_record_take_entry (BondRecordReading *reading, xmlNode *node, int line, GError **error);
BondSitting *bond_record_find_sitting (BondRecord *record, const char *id);
/** bond_record_add_sitting: takes @text over. */
BondSitting *bond_record_add_sitting (BondRecord *record, BondLink *link, GBytes *text);
/** bond_record_read_journal: @lines of BondJournalLine. FALSE with @error when the journal forbids using the file. */
gboolean bond_record_read_journal (BondRecordReading *reading, const char *path, GArray *lines, GError **error);

G_END_DECLS
