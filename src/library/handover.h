/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * What one shift tells the next, computed from the record: done, to do, what stopped
 * the walk, joints left bare and by when they must be protected, panels, permits with
 * clips still inside, meters.  The window only shows it and asks who accepts.
 */
#pragma once

#include "core/survey.h"

G_BEGIN_DECLS

typedef enum
{
  BOND_BARE_OPEN,    /* time enough */
  BOND_BARE_SOON,    /* five sixths of the time are over: 20 h of 24 */
  BOND_BARE_OVERDUE, /* not protected in the time allowed */
} BondBareState;

/** BondBareJoint: @since, @due: ISO 8601; @minutes_left until @due, negative when overdue. */
typedef struct
{
  BondPoint *point; /* owned */
  char *since, *due;
  int minutes_bare, minutes_left;
  BondBareState state;
} BondBareJoint;

/**
 * bond_bare_joints: joints of @survey that are bare at @now, the most urgent first. (transfer full)
 *
 * The time allowed is the house's: 24 h unless it says otherwise (AC 43.13-1B (8 Sep 1998) ¶11-189).
 */
GPtrArray *bond_bare_joints (BondSurvey *survey, const char *now);
/** bond_bare_words: "541-J02 bare for 3 h 20 min, protect by 10:15 tomorrow". (transfer full) */
char *bond_bare_words (const BondBareJoint *joint, const char *now);
/** bond_bare_warning: one line on those that are soon or over due; NULL = none. @state: of the worst. (transfer full)
 */
char *bond_bare_warning (BondSurvey *survey, const char *now, BondBareState *state);

/**
 * BondHandoverSheet: strings owned, one line an item, "" = nothing.
 * @stopped: results that ask for a decision; @panels: panels of points touched in this survey: a proposal
 * @permits: open ones, with what is still counted in; @counts: closed ones whose count differed, with the reason
 */
typedef struct
{
  char *at, *aircraft;
  int points_done, points_to_do;
  char *done, *to_do, *stopped, *bare, *panels, *permits, *counts, *meter;
  GPtrArray *joints; /* of BondBareJoint */
} BondHandoverSheet;
BondHandoverSheet *bond_handover_sheet_new (BondSurvey *survey, const char *now);
void bond_handover_sheet_free (BondHandoverSheet *sheet);
G_DEFINE_AUTOPTR_CLEANUP_FUNC (BondHandoverSheet, bond_handover_sheet_free)

/** bond_handover_text: the sheet as plain text for paper; @from, @to: names; @panels, @notes: as edited, nullable.
 * (transfer full) */
char *bond_handover_text (const BondHandoverSheet *sheet, const char *from, const char *to, const char *panels,
                          const char *notes);
/** bond_handover_entry: what is recorded; @to: id of who accepts. (transfer full) */
BondEntry *bond_handover_entry (const BondHandoverSheet *sheet, const char *to, const char *panels, const char *notes);

G_END_DECLS
