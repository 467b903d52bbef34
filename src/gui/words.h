/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * How results are worded on the screen: values with their unit, verdicts, limits
 * with their tier, states.  One place, so that list, panel and messages agree.
 */
#pragma once

#include "core/survey.h"

G_BEGIN_DECLS

/** bond_words_ohm: "1.83 mΩ" with a no-break space; @decimals as given. (transfer full) */
char *bond_words_ohm (BondOhm nohm, BondUnit unit, int decimals);
/** bond_words_quantity: a figure or its qualifier ("> 30 mΩ", "< 0.01 mΩ"). (transfer full) */
char *bond_words_quantity (const BondQuantity *quantity, BondUnit unit, int decimals);
/**
 * bond_words_result: value of a measurement as shown, with as many decimals as its instrument shows and more until the
 * side of the limit is seen.
 * @unit: unit of the row; @with_unit FALSE leaves it out; (transfer full)
 */
char *bond_words_result (BondSurvey *survey, const BondMeasurement *measurement, BondUnit unit, gboolean with_unit);
/** bond_words_decimals: decimals the instrument of @measurement shows in @unit. */
int bond_words_decimals (BondSurvey *survey, const BondMeasurement *measurement, BondUnit unit);
/** bond_words_unit: the unit result, U and limit of @place share; @fallback without a limit. */
BondUnit bond_words_unit (const BondPlaceResult *place, BondUnit fallback);
/** bond_words_verdict: "pass", "fail", "fail stands", "forward", … of the newest measurement of @place. (transfer full)
 */
char *bond_words_verdict (const BondPlaceResult *place, BondRule rule);
/** bond_words_second_line: "within U of the limit", a reason, or NULL. (transfer full) */
char *bond_words_second_line (const BondPlaceResult *place);
/** bond_words_phase: "as found", "re-seated", "as left"; @failed: a fail came before it, else it was only measured
 * again.
 */
const char *bond_words_phase (BondPhase phase, gboolean failed);
/** bond_words_offset: of a time (ISO 8601 with offset): "UTC+1", "UTC−3:30", "UTC"; NULL without one. (transfer full)
 */
char *bond_words_offset (const char *iso);
/** bond_words_tier: "in service", "after rework" …; @has_strict FALSE = one limit only: "all tiers". */
const char *bond_words_tier (BondCondition tier);
/** bond_words_state: state word of a list row; empty for to measure and a plain pass. */
const char *bond_words_state (BondPoint *point);
/** bond_words_source: "Document, revision, paragraph" of @row, with "unverified" where it is. (transfer full) */
char *bond_words_source (const BondLimitRow *row, const BondLimitSet *set);
/** bond_words_where: "Left inboard flap, STA 801, BL −170". (transfer full) */
char *bond_words_where (BondSurvey *survey, const BondPointSpec *spec);
/** bond_words_sentence: @text with a capital at its beginning. (transfer full) */
char *bond_words_sentence (const char *text);
/** bond_words_clock: "10:42" of an ISO 8601 time. (transfer full) */
char *bond_words_clock (const char *iso);
/** bond_words_strap: why a strap with a broken leg measures well; NULL when no leg of @place is broken. (transfer full)
 */
char *bond_words_strap (BondSurvey *survey, const BondPlaceResult *place);
/** bond_words_when: "10:42" of today in the survey's own time, "24 Nov 10:42" of another day. (transfer full) */
char *bond_words_when (BondSurvey *survey, const char *iso);
/** bond_words_date: "24 Nov 2026" in the user's language. (transfer full) */
char *bond_words_date (const char *iso);

G_END_DECLS
