/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * What a table for other programs says of one place under one limit row: plain ohms
 * with '.', words as in files, nothing translated.
 */
#pragma once

#include "core/survey.h"

G_BEGIN_DECLS

/** bond_cell_ohm: "0.00141", ">0.03", "<0.00001"; NULL where nothing counts. (transfer full) */
char *bond_cell_ohm (const BondMeasurement *measurement);
/** bond_cell_row: "set/CODE"; a name that no set holds as it is; NULL without a row. (transfer full) */
char *bond_cell_row (const BondPlaceResult *result);
/** bond_cell_tier: the condition the value of record was judged under, without one that of the next reading. */
BondCondition bond_cell_tier (const BondPlaceResult *result);
/** bond_cell_used_percent: "56.4", part of the limit that a judged figure uses; NULL else. (transfer full) */
char *bond_cell_used_percent (const BondBounds *bounds, const BondMeasurement *decides);
/** bond_cell_u_ohm: U of a figure; NULL where it has none or none is known. (transfer full) */
char *bond_cell_u_ohm (const BondMeasurement *decides);
/** bond_cell_verdict: "pass", "conditional-pass", "suspect" …; NULL where there is none. */
const char *bond_cell_verdict (BondSurvey *survey, const BondPlaceResult *result);

G_END_DECLS
