/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * Holds entries against the chain as they are read, and puts what does not match
 * into words: which entry, of which point, and whether it was changed, moved or
 * taken out.  Where the entries come from is left to record.c.
 */
#pragma once

#include "core/entry.h"
#include "store/xml.h"

G_BEGIN_DECLS

typedef struct _BondVerifier BondVerifier;

/** BondLink: where the chain of one sitting stands. @last: number of the last entry seen, @digest: its `d` as stored.
 */
typedef struct
{
  char *sitting;
  int last;
  char *digest;
  char *computed; /* when @digest was not what it should be: what it should be */
} BondLink;

BondVerifier *bond_verifier_new (const char *survey_id);
void bond_verifier_free (BondVerifier *verifier);
/** bond_verifier_open_sitting: d(0) of @sitting; clear @link with bond_link_clear(). */
void bond_verifier_open_sitting (BondVerifier *verifier, xmlNode *sitting, BondLink *link);
/** bond_verifier_entry: takes @entry into the chain. FALSE when it does not follow; the difference is noted. */
gboolean bond_verifier_entry (BondVerifier *verifier, BondLink *link, xmlNode *node, const char *file, int line);
/** bond_verifier_follows: @entry has the digest it must have behind @link; nothing is noted. */
gboolean bond_verifier_follows (const BondLink *link, xmlNode *entry);
/**
 * bond_verifier_known: after all entries: every "ENTRY:DIGEST" of @heads must have been seen.
 * @who: for the message: the sitting that names them, or NULL for the file itself
 */
void bond_verifier_known (BondVerifier *verifier, const char *heads, const char *who, const char *file, int line);
/** bond_verifier_note: another difference, already a sentence. */
void bond_verifier_note (BondVerifier *verifier, const char *sentence, const char *file, int line);
/** bond_verifier_close: the first difference as a sentence (transfer full), NULL when all matched; all of them to
 * @problems. */
char *bond_verifier_close (BondVerifier *verifier, GHashTable *point_numbers, GPtrArray *problems);

void bond_link_clear (BondLink *link);

G_DEFINE_AUTOPTR_CLEANUP_FUNC (BondVerifier, bond_verifier_free)

G_END_DECLS
