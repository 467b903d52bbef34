/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * From the entries of one place to its state: which measurement is as found, which
 * decides, whether a fail stands, was not confirmed, or was put right.  Pure.
 */
#pragma once

#include "core/measurement.h"

G_BEGIN_DECLS

typedef enum
{
  BOND_STATE_TO_MEASURE,
  BOND_STATE_REMEASURE,
  BOND_STATE_PASS,
  BOND_STATE_FAIL,
  BOND_STATE_PASS_AFTER_REWORK,
  BOND_STATE_NOT_CONFIRMED,
  BOND_STATE_ACCEPTED,
  BOND_STATE_CARRIED_FORWARD,
  BOND_STATE_DEFERRED,
  BOND_STATE_NOT_ACCESSIBLE,
  BOND_STATE_NOT_FITTED,
  BOND_STATE_NOT_APPLICABLE,
  BOND_STATE_NOT_IN_SAMPLE,
  BOND_STATE_RECORDED,
  BOND_STATE_SUSPECT,
  BOND_STATE_IN_DOUBT,
} BondState;
#define BOND_N_STATES 16
const char *bond_state_file_name (BondState state); /* "to-measure" … "pass-after-rework" */
const char *bond_state_name (BondState state);      /* translated */

typedef enum
{
  BOND_PHASE_AS_FOUND,
  BOND_PHASE_RESEATED,
  BOND_PHASE_AS_LEFT
} BondPhase;

/**
 * BondHistoryItem: one line of a place's history, oldest first.
 * Either a measurement (@measurement not NULL) or another entry.
 * @taken_back / @voided: it stays, struck through; @entry is the first entry of the item
 */
typedef struct
{
  BondEntry *entry;             /* borrowed */
  BondMeasurement *measurement; /* owned, NULL for other entries */
  BondPhase phase;
  gboolean taken_back;
  gboolean voided;
  gboolean moved_away;
} BondHistoryItem;

/**
 * BondPlaceResult: the derived state of one place (or of a point with one place).
 * @found: first counting measurement (as found only when @found_undisturbed)
 * @decides: measurement that decides, NULL when none
 * @tier: condition in force now; @bounds what the next reading is judged against (NULL = no limit)
 * @row, @set, @row_name: what it was judged against: the row and its set (borrowed, both nullable) and the name the
 *   point gives the row (NULL for its own row and the default of its class)
 * @others: (nullable): BondPlaceResult of the point's other rows, in the order named; this one governs. Only the counts
 *   for totals are of all rows together, an event once.
 * @held: a fail whose re-seat was begun and is not finished
 * @intermittent: a fail after which re-seats did not agree
 * @freed: measured isolated, so an end was freed, and the joint is not recorded as opened since: what is refitted
 *   is still to be measured
 */
typedef struct
{
  char *place; /* NULL for the point's only place */
  char *label;
  GPtrArray *history; /* of BondHistoryItem */
  const BondMeasurement *found;
  gboolean found_undisturbed;
  const BondMeasurement *decides;
  const BondMeasurement *last;
  BondState state;
  gboolean conforms;
  gboolean within_u;
  gboolean visual_reject;
  BondVisualFinding visual;
  gboolean held;
  gboolean intermittent;
  gboolean freed;
  gboolean in_sample;
  BondCondition tier;
  const BondBounds *bounds;
  int reseats;
  /* counts for totals */
  int rejects_as_found, rejects_installation, rejects_opened, rejects_rework, rejects_visual;
  int over_limit_taken_back;
  int seen_not_recorded;
  const BondLimitRow *row;
  const BondLimitSet *set;
  char *row_name;
  GPtrArray *others;
  GPtrArray *kept; /* private: entries only this result holds (a preview) */
  GArray *epochs;  /* private: what each time between two changes of the joint adds to the rejects */
} BondPlaceResult;

/** bond_measurement_is_beyond: beyond the limit itself, whatever the decision rule; what rejects are counted by. */
gboolean bond_measurement_is_beyond (const BondMeasurement *measurement);
/** bond_visual_rejects: the visual finding @entry rejects a joint under @row (nullable). */
gboolean bond_visual_rejects (const BondEntry *entry, const BondLimitRow *row);
/** bond_disposition_covers: @fail (nullable) lies within the new limit of an acceptance, or there is none. */
gboolean bond_disposition_covers (const BondDisposition *disposition, const BondMeasurement *fail);

BondPlaceResult *bond_place_result_new (void);
void bond_place_result_free (BondPlaceResult *result);
/** bond_place_result_find: the line of the history @entry counts in; NULL when it was struck or is not of this place.
 */
const BondHistoryItem *bond_place_result_find (const BondPlaceResult *result, const BondEntry *entry);

/**
 * bond_place_judge:
 * @result: with place, label and in_sample filled in
 * @entries: BondEntry* of the point in replay order, with those of readings that were moved here or away; entries of
 *   other places are passed over
 * @removed: set of BondEntry* that were taken back
 * @planned: condition the point was planned in
 */
void bond_place_judge (BondPlaceResult *result, GPtrArray *entries, GHashTable *removed,
                       const BondJudgeContext *context, BondCondition planned);

/**
 * bond_measurement_badness: for picking the worst of one reading under several rows; higher = worse: nothing, pass,
 * pass within U, recorded, incomplete, no verdict, suspect, fail within U, fail.
 * @measurement: (nullable)
 */
int bond_measurement_badness (const BondMeasurement *measurement);
/** bond_place_result_n_rows: how many rows the place was judged against, at least 1. */
guint bond_place_result_n_rows (const BondPlaceResult *result);
/** bond_place_result_nth_row: the result of one row; 0 = @result itself, which governs. (transfer none) */
const BondPlaceResult *bond_place_result_nth_row (const BondPlaceResult *result, guint nth);
/**
 * bond_place_result_join: one result of those of all rows of a place: all must be met, so the worst governs and holds
 * the others. Of equal states the one whose reading does not conform, then within U, then with the most of its limit
 * used, then the tighter limit, then the first. A row without a limit is recorded, and then the place is: a conforming
 * row never answers for it.
 * @results: BondPlaceResult without a free function, not empty; all are taken over
 * Returns: (transfer full)
 */
BondPlaceResult *bond_place_result_join (GPtrArray *results);
/**
 * bond_place_result_measurement_of: the measurement @entry counts in, of the row it does worst by; NULL when it does
 * not count here.
 */
const BondMeasurement *bond_place_result_measurement_of (const BondPlaceResult *result, const BondEntry *entry);

/** bond_state_conforms_rank: order of badness, higher = worse; the worst place decides a point. */
int bond_state_rank (BondState state);
/** bond_state_in_scope: not (not applicable or not fitted). */
gboolean bond_state_in_scope (BondState state);
/** bond_state_conforms: pass, pass after rework, not confirmed. */
gboolean bond_state_conforms (BondState state);
/** bond_state_is_open: still asks for a reading, a reason or a disposition. */
gboolean bond_state_is_open (BondState state);

G_END_DECLS
