/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * How the leave to measure stands at one point: none, valid and for how long, over,
 * or given while the meter in hand is not approved.  Whether a reading is taken is
 * core's to say; this only puts into words why, and what to do.
 */
#pragma once

#include "core/survey.h"

G_BEGIN_DECLS

/** Minutes before the end of a permit from which it is warned of: our own figure, no source. */
#define BOND_PERMIT_WARN_MINUTES 15

typedef enum
{
  BOND_LEAVE_NOT_NEEDED, /* no such hazard at the point */
  BOND_LEAVE_MISSING,
  BOND_LEAVE_VALID,
  BOND_LEAVE_ENDING, /* valid, in its last minutes */
  BOND_LEAVE_OVER,
  BOND_LEAVE_METER, /* valid, but the meter in hand is not approved there */
} BondLeave;

/**
 * BondLeaveStatus:
 * @hazard: the one that @words are about
 * @permit: (nullable): borrowed: the permit, open or past its time
 * @minutes_left: of @permit, negative when it is over
 * @words: (nullable): one or two sentences
 */
typedef struct
{
  BondLeave leave;
  BondHazard hazard;
  BondEntry *permit;
  int minutes_left;
  char *words;
} BondLeaveStatus;
void bond_leave_status_clear (BondLeaveStatus *status);
G_DEFINE_AUTO_CLEANUP_CLEAR_FUNC (BondLeaveStatus, bond_leave_status_clear)

/**
 * bond_leave_status: how it stands at @point, the worst of its hazards.
 * @instrument: (nullable): id of the meter in hand; @range: (nullable): id of its range, for the test current
 * @now: ISO 8601 with offset
 */
void bond_leave_status (BondSurvey *survey, BondPoint *point, const char *instrument, const char *range,
                        const char *now, BondLeaveStatus *status);
/** bond_leave_bars: no reading is to be taken as it stands. */
gboolean bond_leave_bars (BondLeave leave);
/** bond_permit_approved: meters of @survey approved for fuel vapour. GPtrArray of BondInstrument. (transfer container)
 */
GPtrArray *bond_permit_approved (BondSurvey *survey);
/** bond_permit_open_in: the newest permit for @zone that is not closed, be its time over; NULL = none. */
BondEntry *bond_permit_open_in (BondSurvey *survey, const char *zone, const char *now);
/** bond_permit_name: "Permit P-17", "Authority of R. Haddad". (transfer full) */
char *bond_permit_name (const BondPermit *permit);
/**
 * bond_time_of_day: "14:30" as a time of the local day of @now. @is_end TRUE: one that would lie more than half a day
 * back is tomorrow's; FALSE: one that would lie more than half a day ahead was yesterday's.
 * (transfer full): ISO 8601 with offset; NULL when @text is no time.
 */
char *bond_time_of_day (const char *text, const char *now, gboolean is_end);
/** bond_minutes_between: whole minutes from @from to @to, rounded down; 0 when either is no time. */
int bond_minutes_between (const char *from, const char *to);
/** bond_words_minutes: "3 h 20 min", "35 min". @minutes ≥ 0. (transfer full) */
char *bond_words_minutes (int minutes);

G_END_DECLS
