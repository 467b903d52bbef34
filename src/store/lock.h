/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * One writer at a time: a lock on a hidden file beside the survey, held as long as
 * the survey is open for writing.  The kernel drops it when the program dies, so what
 * a crash on this computer left behind is taken over without a word; what another
 * computer left is told first, for its lock may hold and not be seen here.
 */
#pragma once

#include "store/xml.h"

G_BEGIN_DECLS

typedef struct _BondLock BondLock;

/**
 * bond_lock_take:
 * @station: where the writer sits, for the text others see
 * @take_over: a person says that the program on the other computer has ended
 *
 * Returns: NULL with BOND_STORE_ERROR_LOCKED (who, where, since when), BOND_STORE_ERROR_LEFT (the same of a lock that
 * another computer left behind) or BOND_STORE_ERROR_WRITE (no lock can be made here)
 */
BondLock *bond_lock_take (const char *survey_path, const char *station, gboolean take_over, GError **error);
/**
 * bond_lock_peek: who has the survey open for writing, where and since when, in the words of the lock; NULL when nobody
 * has. Takes no lock that outlasts the call. (transfer full)
 */
char *bond_lock_peek (const char *survey_path);
/** bond_lock_drop: the hidden file goes too. */
void bond_lock_drop (BondLock *lock);

G_DEFINE_AUTOPTR_CLEANUP_FUNC (BondLock, bond_lock_drop)

G_END_DECLS
