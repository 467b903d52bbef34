/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * One walk round one aircraft: which point is in hand, what is pinned (instrument,
 * range, unit, measuring state), what the typed text would give, and recording
 * without stopping the typing.  It has no widgets; the page shows it.
 *
 * Signals
 *   "current-changed" ()                           another point or place is in hand
 *   "pinned-changed" ()                            instrument, range, unit or measuring state
 *   "recorded" (BondEntry *entry)                  an act is durable and applied
 *   "stopped" ()                                   the walk stays: no pass; the result says why
 *   "walk-done" ()                                 no point is left that needs a reading
 *   "not-recorded" (const char *text, const char *message)
 *       nothing was kept; @text (nullable) goes back into the field
 *   "filter-changed" ()                            other points are walked from now on
 */
#pragma once

#include "core/survey.h"

G_BEGIN_DECLS

/** BondPinned: what holds for every reading until it is changed. Strings owned. */
typedef struct
{
  char *instrument;
  char *range;
  BondUnit unit;
  BondConnectors connectors;
  BondMounting mounting;
  char *reference_end;
  int planned; /* readings planned in one seating; 1 = single */
} BondPinned;

/** BondAsk: what stands between the typed text and the record. */
typedef enum
{
  BOND_ASK_NONE,
  BOND_ASK_ERROR, /* not a reading */
  BOND_ASK_ZERO,  /* 0: below the display step, or probes touching? */
  BOND_ASK_BELOW, /* "<": are the probes on two parts? */
  BOND_ASK_MARK,  /* "1,250" */
  BOND_ASK_UNIT,  /* unit slip? */
  BOND_ASK_RANGE, /* the pinned range cannot have shown it: beyond its end, finer than its step */
  BOND_ASK_STATE, /* the limit asks for a measuring state that is not stated */
  BOND_ASK_METAL, /* lower than the metal alone: are the probes on two parts? */
} BondAsk;

typedef enum
{
  BOND_ANSWER_NONE = 0,
  BOND_ANSWER_TWO_PARTS = 1 << 0, /* probes are on two parts: "< step" */
  BOND_ANSWER_NOT_SURE = 1 << 1,  /* zero as it is: suspect */
  BOND_ANSWER_UNIT = 1 << 2,      /* the unit is as typed */
  BOND_ANSWER_STATE = 1 << 3,     /* the measuring state is as pinned */
  BOND_ANSWER_METAL = 1 << 4,     /* lower than the metal alone, and the probes are on two parts */
} BondAnswer;

/**
 * BondAttempt: what a text would give.
 * @words: question or error, NULL when there is none
 * @answers: what was answered before this question
 * @asked_value: which value of a pair the question is about
 * @other: for BOND_ASK_UNIT: the other unit the meter may have shown
 * @slipped: for BOND_ASK_UNIT: the values that @other would be for
 * @range: for BOND_ASK_RANGE: id of the range that holds the value (borrowed)
 * @preview: result of recording it; NULL when it cannot be read
 */
typedef struct
{
  BondAsk ask;
  char *words;
  gboolean parsed;
  BondReadingText text;
  BondAnswer answers;
  int asked_value;
  BondUnit other;
  gboolean slipped[2];
  const char *range;
  BondDirection direction;
  BondPlaceResult *preview;
  GPtrArray *pair; /* of BondEntry: both halves of a pair, held for @pair_result */
  BondMeasurement *pair_result;
} BondAttempt;
void bond_attempt_clear (BondAttempt *attempt);
G_DEFINE_AUTO_CLEANUP_CLEAR_FUNC (BondAttempt, bond_attempt_clear)

#define BOND_TYPE_WALK (bond_walk_get_type ())
G_DECLARE_FINAL_TYPE (BondWalk, bond_walk, BOND, WALK, GObject)

BondWalk *bond_walk_new (BondSurvey *survey);
BondSurvey *bond_walk_get_survey (BondWalk *walk);

/* --- where --- */
BondPoint *bond_walk_get_point (BondWalk *walk);              /* (nullable) */
const char *bond_walk_get_place (BondWalk *walk);             /* (nullable): the only place */
const BondPlaceResult *bond_walk_get_result (BondWalk *walk); /* (nullable) */
/** bond_walk_go: NULL @place = the first place still to measure, else the one that decides. */
void bond_walk_go (BondWalk *walk, BondPoint *point, const char *place);
void bond_walk_step (BondWalk *walk, int by);
void bond_walk_step_zone (BondWalk *walk, int by);
/** bond_walk_next_open: goes to the next point that needs a reading; FALSE when there is none. */
gboolean bond_walk_next_open (BondWalk *walk);
/** bond_walk_first_open: goes to the first point in walking order that needs a reading; FALSE when there is none. */
gboolean bond_walk_first_open (BondWalk *walk);

/** BondWalkFilter: whether @point is walked. */
typedef gboolean (*BondWalkFilter) (BondPoint *point, gpointer data);
/**
 * bond_walk_set_filter: steps, zones, next open and upcoming points keep to the points @filter lets through; NULL = all
 * points.  A jump and bond_walk_go() still go anywhere.  @destroy (nullable) frees @data.
 */
void bond_walk_set_filter (BondWalk *walk, BondWalkFilter filter, gpointer data, GDestroyNotify destroy);
gboolean bond_walk_is_filtered (BondWalk *walk);
/** bond_walk_n_hidden_open: open points that the filter keeps out of the walk; 0 without a filter. */
guint bond_walk_n_hidden_open (BondWalk *walk);
/** bond_walk_jump: number as typed, "#" and case do not matter; FALSE when there is no such point. */
gboolean bond_walk_jump (BondWalk *walk, const char *text);
/** bond_walk_is_jump: text has the form of a point number. */
gboolean bond_walk_is_jump (const char *text);
/** bond_walk_upcoming: the next open points after the one in hand, at most @max. (transfer container) */
GPtrArray *bond_walk_upcoming (BondWalk *walk, guint max);
/** bond_walk_place_in_zone: "4 of 7" of the point in hand; 0 of 0 without one. */
void bond_walk_place_in_zone (BondWalk *walk, guint *index, guint *of);
gboolean bond_walk_is_stopped (BondWalk *walk);

/* --- pinned --- */
/** bond_walk_set_person: who measures from now on. */
void bond_walk_set_person (BondWalk *walk, const char *person);
const BondPinned *bond_walk_get_pinned (BondWalk *walk);
void bond_walk_pin_instrument (BondWalk *walk, const char *instrument);
void bond_walk_pin_range (BondWalk *walk, const char *range);
void bond_walk_pin_unit (BondWalk *walk, BondUnit unit);
void bond_walk_pin_state (BondWalk *walk, BondConnectors connectors, BondMounting mounting, const char *reference_end,
                          int planned);
/** bond_walk_instrument_problem: why no reading can be taken with what is pinned (none, out of date), NULL = none.
 * (transfer full) */
char *bond_walk_instrument_problem (BondWalk *walk);
/** bond_walk_accept_mark: the answer about "1,250", for this walk. */
void bond_walk_accept_mark (BondWalk *walk);

/* --- reading --- */
/** bond_walk_try: what @text would give with @answers; never records. */
void bond_walk_try (BondWalk *walk, const char *text, BondAnswer answers, BondAttempt *attempt);
/** bond_walk_record: @attempt as tried with BOND_ASK_NONE; the outcome comes by a signal. FALSE = busy or not
 * recordable. */
gboolean bond_walk_record (BondWalk *walk, const char *text, const BondAttempt *attempt, BondAnswer answers);
gboolean bond_walk_is_busy (BondWalk *walk);
/** bond_walk_write_failed: the newest reading could not be written; its digits came back, trying again may help. */
gboolean bond_walk_write_failed (BondWalk *walk);
/** bond_walk_shown: a reading as it was typed, with its unit: "1.84 mΩ". (transfer full) */
char *bond_walk_shown (const BondReading *reading);
/** bond_walk_text_again: what to type for the same reading now: with its unit where another is pinned. (transfer full)
 */
char *bond_walk_text_again (BondWalk *walk, const BondReading *reading);
/** bond_walk_read_again: the next reading begins a new seating. */
void bond_walk_read_again (BondWalk *walk);
/** bond_walk_record_entry: any other act; takes @entry. The outcome comes by a signal. */
void bond_walk_record_entry (BondWalk *walk, BondEntry *entry);
/** bond_walk_last_reading: newest reading of this survey that was recorded in this window, NULL = none. */
BondEntry *bond_walk_last_reading (BondWalk *walk);
/** bond_walk_undo: takes back the newest act; @why, @reason where one is needed. */
void bond_walk_undo (BondWalk *walk, BondVoidReason why, const char *reason);
void bond_walk_redo (BondWalk *walk);
/** bond_walk_earlier_nohm: value of the point in hand in the newest earlier survey; FALSE = none. */
gboolean bond_walk_earlier_nohm (BondWalk *walk, BondOhm *nohm);
/** bond_walk_range: the pinned range, NULL = none. */
const BondRange *bond_walk_range (BondWalk *walk);

G_END_DECLS
