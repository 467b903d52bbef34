/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * A survey open for writing, as bytes: what the file holds, what the journal holds,
 * and how both grow.  Recording and whole saves may come from different threads; the
 * ledger lets one at a time through, so that a save never takes away a journal line
 * it has not written.  It knows no survey and no main loop.
 */
#pragma once

#include "store/disk.h"
#include "store/record.h"

G_BEGIN_DECLS

typedef struct _BondLedger BondLedger;

/**
 * bond_ledger_new:
 * @path: survey file, symbolic links resolved
 * @record: what was read from it, and verified
 * @disk: (transfer none): outlives the ledger
 */
BondLedger *bond_ledger_new (const char *path, const BondRecord *record, const BondDisk *disk);
void bond_ledger_free (BondLedger *ledger);
/** bond_ledger_create: writes an empty survey; BOND_STORE_ERROR_WRITE when @path exists or cannot be written. */
gboolean bond_ledger_create (const char *path, const char *survey_id, const BondDisk *disk, GError **error);

/** bond_ledger_begin: opens a sitting; it stands in the journal with its first entry. Main thread, once. */
void bond_ledger_begin (BondLedger *ledger, const char *sitting_id, const char *station, const char *opened);
/**
 * bond_ledger_seal: main thread: chains @entry to the last durable one and gives its line.
 *
 * Returns: (transfer full): the line; entry->digest is set. NULL when the entry could not be read back: it is not
 * written
 */
char *bond_ledger_seal (BondLedger *ledger, BondEntry *entry, GError **error);
/** bond_ledger_append: any thread: makes a sealed line durable. FALSE with BOND_STORE_ERROR_WRITE: it is not recorded.
 */
gboolean bond_ledger_append (BondLedger *ledger, const char *line, const BondEntry *entry, GError **error);
/**
 * bond_ledger_save: any thread: whole save, absorbs the journal. Does nothing when the file holds everything.
 *
 * Fails with BOND_STORE_ERROR_WRITE; with BOND_STORE_ERROR_UNSURE when the file is written and only its name is not
 * known to be durable: the journal stays, and the next save tries again; or BOND_STORE_ERROR_CHANGED when the file on
 * disk is not the one this ledger knows: it is then left alone, this version is kept beside it, and the journal stays.
 */
gboolean bond_ledger_save (BondLedger *ledger, GError **error);
/** bond_ledger_unsaved: entries that are in the journal only. */
guint bond_ledger_unsaved (BondLedger *ledger);
/** bond_ledger_size: bytes a whole save writes, about. */
gsize bond_ledger_size (BondLedger *ledger);

/** bond_ledger_attach: @bytes durable beside the survey until the next save. (transfer full): SHA-256 */
char *bond_ledger_attach (BondLedger *ledger, GBytes *bytes, const char *name, const char *type, GError **error);
/** bond_ledger_get_attachment: NULL with an error when there is none of that SHA-256 or it does not verify. */
GBytes *bond_ledger_get_attachment (BondLedger *ledger, const char *sha256, GError **error);

G_DEFINE_AUTOPTR_CLEANUP_FUNC (BondLedger, bond_ledger_free)

G_END_DECLS
