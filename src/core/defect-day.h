/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * The day a defect was first found.  Kept apart from judging: it changes no state, and
 * a disposition needs it ("first date kept", design.md 4).
 */
#pragma once

#include "core/judge.h"

G_BEGIN_DECLS

/**
 * bond_place_result_first_found:
 * The day the defect that stands was first found: of the as-found reading that does not conform (or the visual reject),
 * not of one taken after rework that decides now. A day an earlier disposition kept goes before it. What conformed
 * after a change of the joint was put right, and a fail after that is another defect.
 *
 * Returns: (nullable): local day, year-month-day; NULL when nothing failed. (transfer full)
 */
char *bond_place_result_first_found (const BondPlaceResult *result);

G_END_DECLS
