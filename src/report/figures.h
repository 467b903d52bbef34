/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * Words and figures of one measurement, for paper and screen alike.
 */
#pragma once

#include "report/marks.h"

G_BEGIN_DECLS

/** bond_figure_verdict: the word of one measurement: "Fail", "Pass", "Suspect", "No verdict" … */
const char *bond_figure_verdict (const BondMeasurement *measurement, BondRule rule);
/** bond_figure_mark: the mark one measurement would give its point, were it alone. */
BondMark bond_figure_mark (const BondMeasurement *measurement, BondRule rule);
/** bond_figure_tier: "in service", "reworked" …; NULL where the row has one value only. */
const char *bond_figure_tier (const BondLimitRow *row, BondCondition tier);
/** bond_figure_state: state of a place in words, first letter large. (transfer full) */
char *bond_figure_state (const BondPlaceResult *place, BondRule rule);
/** bond_reading_figure: one reading in @unit without it, with as many decimals as its range shows; "> 30" too.
 * (transfer full) */
char *bond_reading_figure (BondSurvey *survey, const BondReading *reading, BondUnit unit, char mark);

G_END_DECLS
