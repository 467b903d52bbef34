/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * Running bondwright-batch from a test: what it said, how it ended, and what the
 * folder it worked in looks like afterwards.
 */
#pragma once

#include "small-survey.h"

typedef struct
{
  int status;
  char *out, *err;
  char **lines; /* of @out, the empty one after the last newline left out */
} Outcome;
void outcome_clear (Outcome *outcome);
G_DEFINE_AUTO_CLEANUP_CLEAR_FUNC (Outcome, outcome_clear)

/** batch_run: the program named by BOND_BATCH with these words, to its end. */
void batch_run (Outcome *outcome, const char *first, ...) G_GNUC_NULL_TERMINATED;
const char *batch_last_line (const Outcome *outcome);
/** batch_folder_state: name and content of all there is in @folder, comparable as text. */
char *batch_folder_state (const char *folder);
/** batch_make_survey: readings of 511-J01, 511-J02 and 611-J01 in nΩ, 0 = to measure; returns its path. */
char *batch_make_survey (SmallSurvey *fixture, const char *name, const BondOhm nohm[3]);
