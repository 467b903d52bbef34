/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * The hangar of the worked days: invented limits, instruments and people, and short
 * words for what people do there, so that a test reads like the day it plays.  Every
 * helper goes through bond_survey_record(); none reaches into a survey.
 */
#pragma once

#include "core/survey.h"

/* Micro-ohms to nano-ohms. */
#define UOHM(x) ((BondOhm)(x)*1000)

typedef struct
{
  BondSurvey *survey;
  BondSource *source;
  /* in hand */
  const char *instrument;
  const char *range;
  BondUnit unit;
  BondConnectors connectors;
  BondMounting mounting;
  const char *reference_end; /* where the reference clip is */
  const char *place;
  gboolean confirmed; /* "the probes are on two parts" */
} Hangar;

/** hangar_new: a survey of ZZ-AAA with all sets, instruments and people adopted; MO-1 on 30 mΩ in hand. */
Hangar *hangar_new (BondRule rule);
void hangar_free (Hangar *h);
G_DEFINE_AUTOPTR_CLEANUP_FUNC (Hangar, hangar_free)

/* The registers. (transfer full) */
BondLimitSet *hangar_make_limits (void);
/** hangar_make_milliohmmeter: MO-1, MO-2, MO-3, MO-5; NULL after the last. */
BondInstrument *hangar_make_milliohmmeter (guint nth);
BondInstrument *hangar_make_megohmmeter (void);

/** hangar_new_bare: the survey and nothing in it. */
Hangar *hangar_new_bare (void);
/** hangar_furnish: adopts everything with @house (nullable). */
void hangar_furnish (Hangar *h, BondRule rule, BondHouse *house);

void hangar_take (Hangar *h, const char *instrument, const char *range);
/** hangar_point: places @number under @row ("J1"); class by the letter of the number. */
BondPoint *hangar_point (Hangar *h, const char *number, const char *row);
BondPoint *hangar_point_as (Hangar *h, const char *number, const char *row, BondCondition condition);
/** hangar_point_unresolved: as hangar_point() with names of which the limit set held Z9 then and no more. */
void hangar_point_unresolved (Hangar *h, const char *number, const char *names);
/** hangar_point_entry: an unrecorded point entry. (transfer full) */
BondEntry *hangar_point_entry (const char *number, const char *row, gboolean from_template);
BondPointSpec *hangar_spec (const char *number, const char *row);
void hangar_add_place (Hangar *h, const char *number, const char *place, gboolean in_sample);
BondPoint *hangar_find (Hangar *h, const char *number);

/** hangar_entry: an entry about @number, nothing else filled in. (transfer full) */
BondEntry *hangar_entry (Hangar *h, BondEntryKind kind, const char *number);
/** hangar_record: must be accepted. Returns the entry, owned by the survey. */
BondEntry *hangar_record (Hangar *h, BondEntry *entry);
/** hangar_refused: must be refused with @code and a message. */
void hangar_refused (Hangar *h, BondEntry *entry, BondSurveyError code);

/** hangar_reading: an unrecorded reading of what is in hand; must parse as one value. (transfer full) */
BondEntry *hangar_reading (Hangar *h, const char *number, const char *text, BondDirection direction,
                           const BondEntry *of);
/** hangar_read: types @text: one value or a pair. Returns the last entry. */
BondEntry *hangar_read (Hangar *h, const char *number, const char *text);
/** hangar_read_pair_of: another pair of the seating that began with @first. */
BondEntry *hangar_read_pair_of (Hangar *h, const char *number, const char *text, const BondEntry *first);
/** hangar_read_planned: @n values, planned before the first, one direction. */
void hangar_read_planned (Hangar *h, const char *number, const char *const *texts, int n);
void hangar_rework (Hangar *h, const char *number, guint done);
void hangar_condition (Hangar *h, const char *number, BondCondition condition);
BondEntry *hangar_visual (Hangar *h, const char *number, BondVisualFinding finding, gboolean reject);
void hangar_mark (Hangar *h, const char *number, BondPointMark mark, const char *reason);
BondEntry *hangar_undo (Hangar *h, BondVoidReason why, const char *reason);
BondEntry *hangar_redo (Hangar *h);
BondEntry *hangar_undo_entry (Hangar *h, const BondEntry *target, BondVoidReason why, const char *reason);
BondEntry *hangar_void (Hangar *h, const BondEntry *target, BondVoidReason why, const char *reason);
BondEntry *hangar_correct (Hangar *h, const BondEntry *target, const char *text, BondVoidReason why);
BondEntry *hangar_move (Hangar *h, const BondEntry *target, const char *to);

/* The result of a point's place in hand, and checks on it that name the point when they fail. */
const BondPlaceResult *hangar_result (Hangar *h, const char *number);
void hangar_expect_state (Hangar *h, const char *number, BondState state);
/** hangar_expect_value: the value of record, exact mean as @nohm. */
void hangar_expect_value (Hangar *h, const char *number, BondOhm nohm);
/** hangar_expect_last: outcome and reason of the last measurement. */
void hangar_expect_last (Hangar *h, const char *number, BondOutcome outcome, BondReason reason);
/** hangar_expect_tier: condition in force and the upper limit of it. */
void hangar_expect_tier (Hangar *h, const char *number, BondCondition condition, BondOhm upper);
/** hangar_used_permille: last measurement against the limit of its tier. */
gint64 hangar_used_permille (Hangar *h, const char *number);
/** hangar_dump: everything derived, as text, for comparing two ways to the same state. (transfer full) */
char *hangar_dump (BondSurvey *survey);
