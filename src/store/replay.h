/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * From a record to a survey: its entries are loaded, and what core or the airframe
 * finds wrong with them is told with the line it stands in.
 */
#pragma once

#include "core/survey.h"
#include "store/record.h"

G_BEGIN_DECLS

/**
 * bond_record_replay:
 * @path: name for messages; "PATH.journal" for entries of the journal
 * @record: its @broken and @zone_missing say afterwards what makes no sense; see bond_record_check_sense()
 * @problems: (nullable): all of that, located
 *
 * Returns: FALSE with a located BOND_STORE_ERROR_SENSE: duplicate ids, references to nothing
 */
gboolean bond_record_replay (BondRecord *record, BondSurvey *survey, const char *path, GPtrArray *problems,
                             GError **error);

G_END_DECLS
