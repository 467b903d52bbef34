/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * What the files of the library share among themselves.
 */
#pragma once

#include "library/library.h"
#include "store/record.h"

G_BEGIN_DECLS

/** bond_summary_stamp: what the files of the survey at @path look like now. (transfer full) */
char *bond_summary_stamp (const char *path);

/** BondCopy: how the records of two files of one survey stand to each other. */
typedef enum
{
  BOND_COPY_SAME,
  BOND_COPY_INSIDE, /* all of the first is in the second */
  BOND_COPY_HOLDS,  /* all of the second is in the first */
  BOND_COPY_APART,  /* each has what the other has not */
} BondCopy;
/** bond_record_compare: by their sittings and the digests of their entries. */
BondCopy bond_record_compare (const BondRecord *a, const BondRecord *b);
/** bond_library_find_copies: tells files of one survey id apart: sets trouble, detail and problem. */
void bond_library_find_copies (GPtrArray *summaries);

G_END_DECLS
