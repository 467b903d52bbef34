/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * A survey that is open elsewhere: who has it, where and since when, and the way to
 * write in it once they have closed it.
 */
#pragma once

#include "gui/dialog.h"
#include "store/survey-file.h"

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
/**
 * bond_lock_ask: tells who has the survey, where and since when, and asks whether to read it; on Cancel nothing is
 * opened.
 * @parent: (nullable)
 * @lock: BOND_STORE_ERROR_LOCKED or BOND_STORE_ERROR_LEFT of bond_survey_file_open()
 * @read_only: called with @data when it is to be read; @destroy frees @data when the question is gone
 */
void bond_lock_ask (GtkWindow *parent, const GError *lock, BondDialogAct read_only, gpointer data,
                    GDestroyNotify destroy);

G_END_DECLS
