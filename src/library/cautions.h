/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * What has hurt people and aircraft in this work, and which of it a given survey
 * has: chosen by its zones, classes, limit rows and meters.  Showing the cautions
 * is left to the window; that they were read is an entry.
 */
#pragma once

#include "core/survey.h"

G_BEGIN_DECLS

/** BondCaution: @code "fuel-vapour"; @heading and @text translated, borrowed; @where: "521, 541", NULL = everywhere. */
typedef struct
{
  const char *code;
  const char *heading, *text;
  char *where;
} BondCaution;

/** bond_cautions_preface: who decides; stands before every list of cautions. Translated, borrowed. */
const char *bond_cautions_preface (void);
/** bond_cautions_all: every caution there is. GPtrArray of BondCaution. (transfer full) */
GPtrArray *bond_cautions_all (void);
/** bond_cautions_for: those that concern @survey, in the order of the list, the general ones last. (transfer full) */
GPtrArray *bond_cautions_for (BondSurvey *survey);
/** bond_cautions_unread: those of bond_cautions_for() that @person (id) has not acknowledged today. (transfer full) */
GPtrArray *bond_cautions_unread (BondSurvey *survey, const char *person);
/** bond_cautions_all_read: nothing is left of bond_cautions_unread(); asked before every reading, so it remembers a
 * yes.
 */
gboolean bond_cautions_all_read (BondSurvey *survey, const char *person);
/** bond_cautions_entry: the entry by which @person acknowledges @cautions. (transfer full) */
BondEntry *bond_cautions_entry (GPtrArray *cautions, const char *person);

G_END_DECLS
