/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * One writer at a time: a lock on a hidden file beside the survey, held as long as
 * the survey is open for writing.  The kernel drops it when the program dies; the
 * text in it is for people only.
 */
#pragma once

#include "store/xml.h"

G_BEGIN_DECLS

typedef struct _BondLock BondLock;

/**
 * bond_lock_take:
 * @station: where the writer sits, for the text others see
 *
 * Returns: NULL with BOND_STORE_ERROR_LOCKED (who, where, since when) or BOND_STORE_ERROR_WRITE (no lock can be made
 * here)
 */
BondLock *bond_lock_take (const char *survey_path, const char *station, GError **error);
/** bond_lock_drop: the hidden file goes too. */
void bond_lock_drop (BondLock *lock);

G_DEFINE_AUTOPTR_CLEANUP_FUNC (BondLock, bond_lock_drop)

G_END_DECLS
