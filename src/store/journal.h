/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * NAME.journal: entries that are durable and not yet in the survey file.  One line
 * each, written with fdatasync before anybody is told that an entry is recorded.
 *
 *   <journal xmlns="urn:bondwright:survey" format="1" survey="6f0c…" program="0.1.0">
 *   <sitting id="s-…" station="…" opened="…" program="…" after="…">
 *   <entry …>…</entry>
 *
 * The end tags are never written: the file only grows, and every line stands for
 * itself.  What its entries mean is left to record.c.
 */
#pragma once

#include "store/disk.h"
#include "store/xml.h"

G_BEGIN_DECLS

/** bond_journal_path: of the journal that belongs to @survey_path. (transfer full) */
char *bond_journal_path (const char *survey_path);

typedef struct _BondJournal BondJournal;

/** bond_journal_new: nothing is written before the first entry. @disk: (transfer none), outlives the journal. */
BondJournal *bond_journal_new (const char *survey_path, const char *survey_id, const BondDisk *disk);
void bond_journal_free (BondJournal *journal);
/**
 * bond_journal_append: any thread, one at a time.
 * @sitting_line: start tag of the sitting, written when the journal begins
 * @line: the entry, without line end
 *
 * Returns: TRUE once the line is on the disk; FALSE with BOND_STORE_ERROR_WRITE when it is not: what stood before stays
 */
gboolean bond_journal_append (BondJournal *journal, const char *sitting_line, const char *line, GError **error);
/**
 * bond_journal_fill: makes a journal that holds the end of its sitting hold the whole of it, for a survey file that no
 * longer has the rest.
 * @lines: every entry of the sitting so far, each with its line end
 *
 * Returns: FALSE when it is as it was
 */
gboolean bond_journal_fill (BondJournal *journal, const char *sitting_line, const GString *lines);
/**
 * bond_journal_absorbed: its entries are in the survey file now: takes it away.
 * @keep_as_damaged: TRUE: renamed to NAME.journal.damaged instead, for whoever wants to look at what was dropped
 */
void bond_journal_absorbed (BondJournal *journal, gboolean keep_as_damaged);

/** BondJournalLine: one line of a journal on disk. @text without line end, NUL-terminated. */
typedef struct
{
  char *text;
  int number;
  gboolean is_last;
  gboolean is_cut_off; /* the last one, without its line end */
} BondJournalLine;
/** bond_journal_split: the lines of a journal as bytes: a GArray of BondJournalLine. (transfer full) */
GArray *bond_journal_split (const char *bytes, gsize length);
/** bond_journal_load: lines of BondJournalLine; an empty array when there is none (@exists FALSE). NULL with @error. */
GArray *bond_journal_load (const char *survey_path, gboolean *exists, GPtrArray *problems, GError **error);

G_DEFINE_AUTOPTR_CLEANUP_FUNC (BondJournal, bond_journal_free)

G_END_DECLS
