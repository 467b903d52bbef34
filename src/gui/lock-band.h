/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * A survey that is open elsewhere: who has it, where and since when, and the way to
 * write in it once they have closed it.
 */
#pragma once

#include "store/survey-file.h"
#include <gtk/gtk.h>

G_BEGIN_DECLS

/** BondLockHold: why a file that was to be written is only read. */
typedef enum
{
  BOND_LOCK_NONE,
  BOND_LOCK_HELD, /* another program has it: it can be taken over when that one closes it */
  BOND_LOCK_LEFT, /* another computer left it so: a person must say that the program there has ended */
} BondLockHold;
/** bond_lock_hold_of: what bond_lock_mark() said of @file. */
BondLockHold bond_lock_hold_of (BondSurveyFile *file);
void bond_lock_mark (BondSurveyFile *file, BondLockHold hold);

/** bond_lock_band_new: the band for @file, opened to be read; looks every few seconds whether it has become free. Its
 * button does "win.take-over". */
GtkWidget *bond_lock_band_new (BondSurveyFile *file);

G_END_DECLS
