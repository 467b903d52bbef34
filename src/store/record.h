/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * What a survey file and its journal hold, read and verified: the entries, the
 * sittings with their very bytes, attachments, and the first thing that does not
 * verify.  It changes nothing on disk and knows nothing of replay.
 */
#pragma once

#include "core/entry.h"
#include "store/xml.h"

G_BEGIN_DECLS

/**
 * BondSitting: one sitting as far as it is on disk.
 * @last: number of its last entry; @digest: that entry's `d`
 * @text: the whole element; bytes of the file when the file holds it to its end
 */
typedef struct
{
  char *id;
  int last;
  char *digest;
  GBytes *text;
} BondSitting;

/** BondRecordEntry: where an entry was read. */
typedef struct
{
  BondEntry *entry;
  int line;
  gboolean in_journal;
} BondRecordEntry;

/**
 * BondRecord:
 * @bytes: the file as read
 * @sittings: of BondSitting, in file order, those only in the journal last
 * @entries: of BondRecordEntry, file order
 * @attachments: of BondAttachment
 * @waiting: of BondAttachment, named by entries and beside the file, not in it yet
 * @heads: last entry and digest of every sitting: what the next sitting says in `after`
 * @zone_missing: set by the replay: a point stands in a zone that the airframe does not have
 * @broken: why the record cannot be trusted as a whole, naming entry and point; NULL when it verifies
 * @journal_exists: there is a journal; @journal_damaged: something in it was dropped
 * @journal_cut: its last line was cut off while being written, and was dropped
 */
typedef struct
{
  char *survey_id;
  GBytes *bytes;
  GPtrArray *sittings;
  GPtrArray *entries;
  GPtrArray *attachments;
  GPtrArray *waiting;
  char *heads;
  char *broken;
  gboolean zone_missing;
  gboolean journal_exists;
  gboolean journal_damaged;
  gboolean journal_cut;
} BondRecord;

/**
 * bond_record_read:
 * @path: the survey file; its journal is looked for beside it
 * @problems: GPtrArray of BondProblem: what was found, whether or not it stops the reading
 *
 * Returns: (transfer full): NULL with a located #BondStoreError when the file cannot be used at all
 */
BondRecord *bond_record_read (const char *path, GPtrArray *problems, GError **error);
/** bond_record_read_bytes: the same of bytes in hand; @journal: lines as bond_journal_split() gives them. */
BondRecord *bond_record_read_bytes (const char *name, GBytes *bytes, GArray *journal, GPtrArray *problems,
                                    GError **error);
void bond_record_free (BondRecord *record);

void bond_sitting_free (BondSitting *sitting);
/** bond_heads: "s-…-60:7c1e… s-…-3:…" of @sittings. (transfer full) */
char *bond_heads (GPtrArray *sittings);

G_DEFINE_AUTOPTR_CLEANUP_FUNC (BondRecord, bond_record_free)

G_END_DECLS
