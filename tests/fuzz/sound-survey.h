/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * A sound survey for the targets to start from: made once by the program itself, so
 * that it is always of the form that is read.
 */
#pragma once

#include "store/record.h"

/** fuzz_sound_survey: a whole file with one entry of nearly every kind, attributes in single quotes. Static. */
const char *fuzz_sound_survey (void);
/** fuzz_sound_journal: the journal of a survey of which the file holds no entry yet. Static. */
const char *fuzz_sound_journal (void);
/** fuzz_empty_survey: the file that journal belongs to. Static. */
GBytes *fuzz_empty_survey (void);
/** fuzz_check_record: what was read can be replayed, or says why not; problems and errors are text. Takes @record. */
void fuzz_check_record (BondRecord *record, GPtrArray *problems, GError *error);
