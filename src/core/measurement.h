/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * One seating of the probes: forward, reverse and the repeats planned before the
 * first was taken.  A mean is formed here and nowhere else, never across a
 * re-seat, a fail or a rework.
 */
#pragma once

#include "core/conductor.h"
#include "core/entry.h"

G_BEGIN_DECLS

/** BondOutcome: what a measurement is worth. */
typedef enum
{
  BOND_OUTCOME_NONE,       /* no reading that counts */
  BOND_OUTCOME_INCOMPLETE, /* a pair or planned repeats still to finish */
  BOND_OUTCOME_NO_VERDICT, /* see @reason */
  BOND_OUTCOME_SUSPECT,    /* see @reason */
  BOND_OUTCOME_RECORDED,   /* no limit */
  BOND_OUTCOME_JUDGED,
} BondOutcome;

typedef enum
{
  BOND_REASON_NONE,
  BOND_REASON_REVERSE_MISSING,
  BOND_REASON_REPEATS_MISSING,
  BOND_REASON_PAIR_DISAGREES, /* take the pair again */
  BOND_REASON_PAIRS_DISAGREE, /* second pair did not help */
  BOND_REASON_EMF_TOO_LARGE,
  BOND_REASON_NEGATIVE,
  BOND_REASON_ZERO,
  BOND_REASON_BELOW_UNCONFIRMED,
  BOND_REASON_RANGE_TOO_LOW, /* over-range below the limit: change range */
  BOND_REASON_WRONG_STATE,   /* connectors or mounting are not what the row asks */
  BOND_REASON_WRONG_METHOD,
  BOND_REASON_RANGE_TOO_COARSE, /* "< X" with X above the limit */
  BOND_REASON_U_UNKNOWN,        /* guarded acceptance cannot judge without U */
  BOND_REASON_U_TOO_LARGE,      /* guarded: "< X" or "> X" whose U reaches over the limit */
  BOND_REASON_CURRENT_UNKNOWN,  /* the EMF of a pair cannot be told without the test current */
  BOND_REASON_LIMIT_MISSING,    /* the point names a row that no set of the survey holds */
  BOND_REASON_BELOW_METAL,      /* caution: lower than the metal alone, in place; or why it is suspect, isolated */
  BOND_REASON_METAL_UNSURE,     /* lower than the metal alone, and nobody said that the probes are on two parts */
} BondReason;
const char *bond_reason_name (BondReason reason); /* translated sentence */

/**
 * BondMeasurement: derived, plain.
 * @readings: BondEntry* borrowed from the survey, void ones left out
 * @mean: exact mean of the readings that count
 * @qualifier: OVER / BELOW when the result is no figure (then @mean holds the X)
 * @emf_nanovolt: estimated thermal EMF of the last pair (half the difference × current), 0 unknown
 * @condition: joint condition at that moment → tier
 * @budget: expanded uncertainty; not known = U unknown
 * @step: display step of the coarsest range used, 0 unknown
 * @caution: what to know of a result that has its verdict all the same: BELOW_METAL; else NONE
 */
typedef struct
{
  char *id;
  GPtrArray *readings;
  BondOutcome outcome;
  BondReason reason;
  BondMean mean;
  BondQualifier qualifier;
  gboolean paired;
  gboolean self_reversed;
  gint64 emf_nanovolt;
  BondCondition condition;
  const BondLimitRow *row;
  BondBudget budget;
  gboolean conforms; /* under the survey's rule */
  gboolean within_u; /* value within U of a bound (limit included) */
  gboolean below_resolution;
  BondZoneWord zone;
  const char *at; /* borrowed: time of the last reading */
  const char *by;
  BondOhm step;
  BondReason caution;
  int last_direction; /* private */
} BondMeasurement;

/** BOND_MAX_PLANNED: most readings one seating may plan. */
#define BOND_MAX_PLANNED 100

/** bond_entry_is_reading: the entry carries a reading that may count: reading, correct. */
gboolean bond_entry_is_reading (const BondEntry *entry);
/** bond_entry_get_reading: its figures (reading, correct, seen), else NULL. */
const BondReading *bond_entry_get_reading (const BondEntry *entry);

BondMeasurement *bond_measurement_new (void);
void bond_measurement_free (BondMeasurement *measurement);

/** bond_readings_agree: |a − b| ≤ percent of their mean or ≤ steps × step. All nano-ohms; integer arithmetic. */
gboolean bond_readings_agree (BondOhm a, BondOhm b, BondOhm step, const BondHouse *house);
/** bond_means_agree: the same for two exact means. */
gboolean bond_means_agree (const BondMean *a, const BondMean *b, BondOhm step, const BondHouse *house);

/**
 * BondJudgeContext: what judging one measurement needs.
 * @row: (nullable): limit row that applies; @rule; @house; @klass for the placing study
 * @find_instrument: id → instrument as it was when the reading @entry was recorded, or NULL
 * @pair: another row of the same point asks a pair
 * @metal: (nullable): the metal between the ends of one place, known
 * @limit_missing: @row is NULL because no set holds the row named: no verdict, not "recorded"
 * @accepted: (nullable): set of BondReading*: taken in another measuring state than the row asks, which was accepted
 * @point: (nullable): id of the point that is judged; readings moved elsewhere are told by it
 */
typedef struct
{
  const BondLimitRow *row;
  BondRule rule;
  const BondHouse *house;
  BondClass klass;
  const BondConductor *metal;
  const BondInstrument *(*find_instrument) (gconstpointer data, const char *id, const BondEntry *entry);
  gconstpointer data;
  const char *point;
  gboolean pair;
  gboolean limit_missing;
  GHashTable *accepted;
} BondJudgeContext;

/**
 * bond_measurement_judge: fills everything below @readings from @readings.
 * Pure: no state but its arguments.
 */
void bond_measurement_judge (BondMeasurement *measurement, const BondJudgeContext *context, BondCondition condition);

/**
 * bond_measurement_judge_alone: the same with neither the other half of a pair nor planned repeats asked for: what a
 * single reading is worth that was struck, or that is half of a pair.
 */
void bond_measurement_judge_alone (BondMeasurement *measurement, const BondJudgeContext *context,
                                   BondCondition condition);
/**
 * bond_measurement_hold_against: outcome, reason, zone and conformity of a value that is put together: mean, qualifier
 * and budget of @measurement are filled in.
 * @bounds: (nullable): NULL or none on either side = recorded without limit
 * @limit_missing: there is a limit, and nobody knows it: no verdict
 */
void bond_measurement_hold_against (BondMeasurement *measurement, const BondBounds *bounds, gboolean limit_missing,
                                    BondRule rule);
/** bond_reading_is_as_asked: taken in the measuring state @row asks; a state not stated is not the one asked. */
gboolean bond_reading_is_as_asked (const BondReading *reading, const BondLimitRow *row);
/** bond_measurement_said: the verdict as kept in files: "pass", "pass within-u", "fail", "suspect", "no-verdict" … */
const char *bond_measurement_said (const BondMeasurement *measurement);

G_DEFINE_AUTOPTR_CLEANUP_FUNC (BondMeasurement, bond_measurement_free)

G_END_DECLS
