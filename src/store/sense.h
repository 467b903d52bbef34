/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * Holds what was replayed against itself: figures against their text, acts against
 * the people, meters and points they name.  It changes nothing.
 */
#pragma once

#include "core/survey.h"
#include "store/record.h"

G_BEGIN_DECLS

/**
 * BondSense:
 * @broken: (transfer full) (nullable): the first contradiction, a sentence: the survey is for looking at only
 * @zone_missing: a point stands in a zone that the airframe does not have: it can be put right, and until then no
 *   figure may be passed on
 */
typedef struct
{
  char *broken;
  gboolean zone_missing;
} BondSense;

/**
 * bond_record_check_sense: after the replay of @record into @survey.
 * @path: name for messages; "PATH.journal" for entries of the journal
 * @problems: (nullable): everything found; a limit name without a row is told here only, its point stays open
 */
BondSense bond_record_check_sense (const BondRecord *record, BondSurvey *survey, const char *path, GPtrArray *problems);

G_END_DECLS
