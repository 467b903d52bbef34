/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * What one seating of the probes is worth: pairs and planned repeats put together,
 * readings that cannot be trusted told apart from readings that do not conform, the
 * uncertainty asked for.  How the exact mean stands to its limit is left to
 * measurement-bounds.c, which measurement of a place decides to judge.c.
 */
#include "core/measurement.h"

#include <glib/gi18n-lib.h>

#define MAX_PAIRS 2

/* The two directions of one pair; a half is used when its count is not 0. */
typedef struct
{
  BondMean half[2];
} Pair;

/* One judging under way. */
typedef struct
{
  BondMeasurement *m;
  const BondJudgeContext *context;
  const BondInstrument *instrument;
  const BondRange *range; /* the coarsest in use: the least it can resolve counts */
  int n;
  int planned;
  gboolean asks_pair;
  Pair pair[MAX_PAIRS];
  int n_pairs; /* may exceed MAX_PAIRS: then there is no result */
  gboolean any_over, any_below;
  /* Said of any reading: the probes stay where they are for the whole seating. */
  gboolean isolated, confirmed;
  double forward[BOND_MAX_PLANNED]; /* one direction, for the scatter of repeats */
  int n_forward;
} Work;

static const char *const reason_names[] = {
  [BOND_REASON_NONE] = "",
  [BOND_REASON_REVERSE_MISSING] = N_ ("the reading in the other direction is missing"),
  [BOND_REASON_REPEATS_MISSING] = N_ ("planned readings are missing"),
  [BOND_REASON_PAIR_DISAGREES] = N_ ("forward and reverse do not agree: take the pair again"),
  [BOND_REASON_PAIRS_DISAGREE] = N_ ("the two pairs do not agree: clean the spots and measure anew"),
  [BOND_REASON_EMF_TOO_LARGE]
  = N_ ("the difference is too large for a thermal voltage: a contact moved, seat the probes anew"),
  [BOND_REASON_NEGATIVE] = N_ ("negative reading: check the leads"),
  [BOND_REASON_ZERO] = N_ ("zero: below the display step, or both probes on one part?"),
  [BOND_REASON_BELOW_UNCONFIRMED] = N_ ("below the display step: confirm that the probes are on two parts"),
  [BOND_REASON_RANGE_TOO_LOW] = N_ ("over the end of a range that is below the limit: change range"),
  [BOND_REASON_WRONG_STATE] = N_ ("not measured in the state the limit asks for"),
  [BOND_REASON_WRONG_METHOD] = N_ ("not measured by the method the limit asks for"),
  [BOND_REASON_RANGE_TOO_COARSE] = N_ ("the display step is above the limit: change range"),
  [BOND_REASON_U_UNKNOWN] = N_ ("the uncertainty is not known, and guarded acceptance needs it"),
  [BOND_REASON_U_TOO_LARGE]
  = N_ ("the uncertainty reaches over the limit, and guarded acceptance does not allow it: change range"),
  [BOND_REASON_CURRENT_UNKNOWN]
  = N_ ("the test current of the range is not known, and a thermal voltage cannot be told without it"),
  [BOND_REASON_LIMIT_MISSING]
  = N_ ("no limit set of this survey holds the limit named: adopt its set or choose another limit"),
  [BOND_REASON_BELOW_METAL] = N_ ("lower than the metal alone: parallel path, or both probes on one part"),
  [BOND_REASON_METAL_UNSURE]
  = N_ ("lower than the metal alone: confirm that the probes are on two parts, or seat them anew"),
};

const char *
bond_reason_name (BondReason reason)
{
  g_return_val_if_fail ((guint)reason < G_N_ELEMENTS (reason_names), "");
  return reason == BOND_REASON_NONE ? "" : _ (reason_names[reason]);
}

BondMeasurement *
bond_measurement_new (void)
{
  BondMeasurement *m = g_new0 (BondMeasurement, 1);

  m->readings = g_ptr_array_new ();
  return m;
}

void
bond_measurement_free (BondMeasurement *measurement)
{
  if (measurement == NULL)
    return;
  g_ptr_array_unref (measurement->readings);
  g_free (measurement->id);
  g_free (measurement);
}

static __int128
magnitude (__int128 value)
{
  return value < 0 ? -value : value;
}

gboolean
bond_means_agree (const BondMean *a, const BondMean *b, BondOhm step, const BondHouse *house)
{
  __int128 x, y, difference;

  g_return_val_if_fail (a != NULL && b != NULL && house != NULL, FALSE);
  g_return_val_if_fail (a->count > 0 && b->count > 0, FALSE);
  x = a->sum * b->count;
  y = b->sum * a->count;
  difference = magnitude (x - y);
  /* |x − y| ≤ p % of (x + y)/2, and |x − y| ≤ n steps, both with the counts multiplied out. */
  return 200 * difference <= house->pair_percent * (x + y)
         || difference <= (__int128)house->pair_steps * step * a->count * b->count;
}

gboolean
bond_readings_agree (BondOhm a, BondOhm b, BondOhm step, const BondHouse *house)
{
  BondMean x = { .sum = a, .count = 1 }, y = { .sum = b, .count = 1 };

  return bond_means_agree (&x, &y, step, house);
}

const BondReading *
bond_entry_get_reading (const BondEntry *entry)
{
  g_return_val_if_fail (entry != NULL, NULL);
  switch (entry->kind)
    {
    case BOND_ENTRY_READING:
    case BOND_ENTRY_SEEN:
      return &entry->reading;
    case BOND_ENTRY_CORRECT:
      return &entry->correct.reading;
    default:
      return NULL;
    }
}

gboolean
bond_entry_is_reading (const BondEntry *entry)
{
  return entry->kind == BOND_ENTRY_READING || entry->kind == BOND_ENTRY_CORRECT;
}

static const BondInstrument *
find_instrument (const BondJudgeContext *context, const BondReading *reading, const BondEntry *entry)
{
  if (reading->instrument == NULL || context->find_instrument == NULL)
    return NULL;
  return context->find_instrument (context->data, reading->instrument, entry);
}

static gboolean
is_right_method (const BondLimitRow *row, const BondInstrument *instrument)
{
  switch (row->method)
    {
    case BOND_METHOD_FOUR_TERMINAL:
      return instrument == NULL || instrument->kind == BOND_INSTRUMENT_MILLIOHMMETER;
    case BOND_METHOD_MEGOHMMETER:
      /* Nobody measures insulation by eye: an instrument or a voltage not stated vouches for nothing. */
      return instrument != NULL && instrument->kind == BOND_INSTRUMENT_MEGOHMMETER
             && (row->method_volts == 0 || row->method_volts == instrument->test_volts);
    case BOND_METHOD_VISUAL:
    case BOND_METHOD_ABSENT:
    default:
      return FALSE; /* these are looked at, not measured */
    }
}

/* Not stated is not the state asked for: nobody has vouched for it. */
gboolean
bond_reading_is_as_asked (const BondReading *reading, const BondLimitRow *row)
{
  g_return_val_if_fail (reading != NULL && row != NULL, FALSE);
  return (row->connectors == BOND_CONNECTORS_ANY || row->connectors == reading->connectors)
         && (row->mounting == BOND_MOUNTING_ANY || row->mounting == reading->mounting);
}

static BondReason
figure_trouble (const BondReading *reading, gboolean negate, BondOhm step)
{
  const BondQuantity *q = &reading->quantity;

  if (q->qualifier == BOND_QUALIFIER_BELOW)
    return reading->confirmed ? BOND_REASON_NONE : BOND_REASON_BELOW_UNCONFIRMED;
  if (q->qualifier == BOND_QUALIFIER_OVER)
    return BOND_REASON_NONE;
  if (negate ? q->nohm > 0 : q->nohm < 0)
    return BOND_REASON_NEGATIVE;
  if (q->nohm == 0)
    return reading->confirmed && step > 0 ? BOND_REASON_NONE : BOND_REASON_ZERO;
  return BOND_REASON_NONE;
}

static void
set_outcome (BondMeasurement *m, BondOutcome outcome, BondReason reason)
{
  m->outcome = outcome;
  m->reason = reason;
}

/* A named person has accepted that it was taken in another state. */
static gboolean
is_accepted (const BondJudgeContext *context, const BondReading *reading)
{
  return context->accepted != NULL && g_hash_table_contains (context->accepted, reading);
}

/* Every reading must be worth something before anything is put together; the first trouble is the one told. */
static gboolean
check_reading (Work *work, const BondReading *reading, const BondInstrument *instrument, gboolean negate, BondOhm step)
{
  const BondLimitRow *row = work->context->row;
  BondMeasurement *m = work->m;
  BondReason trouble = figure_trouble (reading, negate, step);

  if (m->reason != BOND_REASON_NONE)
    return FALSE;
  if (row != NULL && !is_right_method (row, instrument))
    set_outcome (m, BOND_OUTCOME_NO_VERDICT, BOND_REASON_WRONG_METHOD);
  else if (row != NULL && !bond_reading_is_as_asked (reading, row) && !is_accepted (work->context, reading))
    set_outcome (m, BOND_OUTCOME_NO_VERDICT, BOND_REASON_WRONG_STATE);
  else if (trouble != BOND_REASON_NONE)
    set_outcome (m, BOND_OUTCOME_SUSPECT, trouble);
  return m->reason == BOND_REASON_NONE;
}

static void
use_range (Work *work, const BondInstrument *instrument, const BondRange *range)
{
  if (work->n == 0)
    work->instrument = instrument;
  if (range != NULL && (work->range == NULL || range->step > work->range->step))
    work->range = range;
}

/* Puts one reading in its half; a direction that comes back after both halves opens the next pair. */
static void
add_to_pair (Work *work, int direction, const BondQuantity *quantity, gboolean negate)
{
  Pair *pair;

  if (work->n_pairs == 0
      || (work->n > 0 && work->n_pairs <= MAX_PAIRS && work->pair[work->n_pairs - 1].half[0].count > 0
          && work->pair[work->n_pairs - 1].half[1].count > 0 && work->m->last_direction != direction))
    work->n_pairs++;
  work->m->last_direction = direction;
  if (work->n_pairs > MAX_PAIRS)
    return;
  pair = &work->pair[work->n_pairs - 1];
  bond_mean_add (&pair->half[direction], quantity, negate);
}

static void
add_reading (Work *work, const BondEntry *entry)
{
  const BondReading *reading = bond_entry_get_reading (entry);
  const BondInstrument *instrument = find_instrument (work->context, reading, entry);
  const BondRange *range
      = instrument != NULL && reading->range != NULL ? bond_instrument_find_range (instrument, reading->range) : NULL;
  BondOhm step = range != NULL ? range->step : 0;
  int direction = reading->direction == BOND_DIRECTION_REPEAT ? work->m->last_direction
                                                              : reading->direction == BOND_DIRECTION_REVERSE;
  gboolean negate = direction == 1 && reading->quantity.qualifier == BOND_QUALIFIER_NONE && instrument != NULL
                    && instrument->reversal == BOND_REVERSAL_SHOWS_MINUS;
  BondQuantity quantity = reading->quantity;

  check_reading (work, reading, instrument, negate, step);
  if (quantity.qualifier == BOND_QUALIFIER_NONE && quantity.nohm == 0 && reading->confirmed && step > 0)
    quantity = (BondQuantity){ .nohm = step, .qualifier = BOND_QUALIFIER_BELOW };
  use_range (work, instrument, range);
  add_to_pair (work, direction, &quantity, negate);
  work->any_over |= quantity.qualifier == BOND_QUALIFIER_OVER;
  work->any_below |= quantity.qualifier == BOND_QUALIFIER_BELOW;
  work->isolated |= reading->mounting == BOND_MOUNTING_ISOLATED;
  work->confirmed |= reading->confirmed;
  work->planned = MAX (work->planned, reading->planned);
  if (direction == 0 && work->n_pairs == 1 && work->n_forward < BOND_MAX_PLANNED)
    work->forward[work->n_forward++] = (double)quantity.nohm;
  work->n++;
  work->m->at = entry->at;
  work->m->by = entry->by;
}

static gboolean
check_complete (Work *work)
{
  const Pair *last = &work->pair[MIN (work->n_pairs, MAX_PAIRS) - 1];
  gboolean both = last->half[0].count > 0 && last->half[1].count > 0;
  gboolean wants_pair = work->n_pairs > 1 || (work->asks_pair && !work->m->self_reversed);

  if (wants_pair && !both)
    set_outcome (work->m, BOND_OUTCOME_INCOMPLETE, BOND_REASON_REVERSE_MISSING);
  else if (work->n < work->planned || (both && last->half[0].count != last->half[1].count))
    set_outcome (work->m, BOND_OUTCOME_INCOMPLETE, BOND_REASON_REPEATS_MISSING);
  work->m->paired = both || work->n_pairs > 1;
  return work->m->reason == BOND_REASON_NONE;
}

/*
 * Thermal EMF = half the difference × current (nΩ × µA = 10⁻⁶ nV).  TRUE when it is known and within
 * the house value; @emf gets it in nV, rounded outward so that it never looks smaller than it is.
 */
static gboolean
pair_emf_is_small (const Pair *pair, gint64 microampere, const BondHouse *house, gint64 *emf)
{
  const BondMean *f = &pair->half[0], *r = &pair->half[1];
  __int128 numerator = magnitude (f->sum * r->count - r->sum * f->count) * microampere;
  __int128 denominator = (__int128)2 * f->count * r->count * 1000000;
  __int128 rounded = (numerator + denominator - 1) / denominator;

  *emf = rounded > G_MAXINT64 ? G_MAXINT64 : (gint64)rounded;
  return microampere > 0 && numerator <= (__int128)house->emf_microvolt * 1000 * denominator;
}

static BondMean
pair_mean (const Pair *pair)
{
  const BondMean *other = &pair->half[1];
  BondMean mean = pair->half[0];

  mean.sum += other->sum;
  mean.count += other->count;
  mean.n_rest += other->n_rest;
  mean.rest_mixed |= other->rest_mixed || (mean.rest != 0 && other->rest == -mean.rest);
  if (mean.rest == 0)
    mean.rest = other->rest;
  return mean;
}

/* Pair rules (R5; 10 %, 4 display steps and 50 µV are house values: common practice, no source). */
static gboolean
check_pairs (Work *work)
{
  const BondHouse *house = work->context->house;
  BondOhm step = work->range != NULL ? work->range->step : 0;
  gint64 current = work->range != NULL ? work->range->microampere : 0;
  gboolean small = TRUE;
  BondMean first, second;
  int i;

  for (i = 0; i < MIN (work->n_pairs, MAX_PAIRS); i++)
    small &= pair_emf_is_small (&work->pair[i], current, house, &work->m->emf_nanovolt);
  if (work->n_pairs > MAX_PAIRS)
    set_outcome (work->m, BOND_OUTCOME_SUSPECT, BOND_REASON_PAIRS_DISAGREE);
  else if (work->n_pairs == 1)
    {
      if (!bond_means_agree (&work->pair[0].half[0], &work->pair[0].half[1], step, house))
        set_outcome (work->m, BOND_OUTCOME_NO_VERDICT, BOND_REASON_PAIR_DISAGREES);
    }
  else
    {
      first = pair_mean (&work->pair[0]);
      second = pair_mean (&work->pair[1]);
      if (!bond_means_agree (&first, &second, step, house))
        set_outcome (work->m, BOND_OUTCOME_SUSPECT, BOND_REASON_PAIRS_DISAGREE);
      else if (!small)
        set_outcome (work->m, BOND_OUTCOME_SUSPECT,
                     current > 0 ? BOND_REASON_EMF_TOO_LARGE : BOND_REASON_CURRENT_UNKNOWN);
    }
  return work->m->reason == BOND_REASON_NONE;
}

static void
set_mean (Work *work)
{
  BondMeasurement *m = work->m;
  Pair all = { 0 };
  int i;

  for (i = 0; i < MIN (work->n_pairs, MAX_PAIRS); i++)
    {
      BondMean one = pair_mean (&work->pair[i]);
      all.half[i] = one;
    }
  m->mean = pair_mean (&all);
  m->qualifier = work->any_over ? BOND_QUALIFIER_OVER : work->any_below ? BOND_QUALIFIER_BELOW : BOND_QUALIFIER_NONE;
  m->below_resolution = m->qualifier == BOND_QUALIFIER_BELOW;
}

static void
compute_budget (Work *work)
{
  BondMeasurement *m = work->m;
  const BondPlacingStudy *study = &work->context->house->placing[work->context->klass];

  if (work->instrument == NULL || work->range == NULL)
    return;
  bond_budget_compute (&m->budget, work->instrument, work->range, (double)m->mean.sum / m->mean.count, work->forward,
                       work->n_forward, study->n > 0 ? study : NULL);
}

/* "< X" tells only when X itself is no more than the metal; "> X" never does. */
static gboolean
is_below_metal (const BondMeasurement *m, const BondConductor *metal, BondOhm u_nohm)
{
  int sign = bond_conductor_compare (metal, &m->mean, u_nohm);

  return m->qualifier == BOND_QUALIFIER_NONE ? sign < 0 : m->qualifier == BOND_QUALIFIER_BELOW && sign <= 0;
}

/*
 * In place, current may take another path as well: that is asked once and said.  An isolated part cannot measure less
 * than its metal; what U leaves open is not held against it.  What does not conform stays evidence either way.
 */
static void
weigh_against_metal (Work *work)
{
  const BondConductor *metal = work->context->metal;
  BondMeasurement *m = work->m;
  BondOhm u = m->budget.known ? m->budget.u_nohm : 0;
  BondReason trouble = BOND_REASON_NONE;

  if (metal == NULL || (m->outcome != BOND_OUTCOME_JUDGED && m->outcome != BOND_OUTCOME_RECORDED)
      || !is_below_metal (m, metal, 0))
    return;
  m->caution = BOND_REASON_BELOW_METAL;
  if (m->outcome == BOND_OUTCOME_JUDGED && !m->conforms)
    return;
  if (work->isolated && is_below_metal (m, metal, u))
    trouble = BOND_REASON_BELOW_METAL;
  else if (!work->confirmed)
    trouble = BOND_REASON_METAL_UNSURE;
  if (trouble == BOND_REASON_NONE)
    return;
  set_outcome (m, BOND_OUTCOME_SUSPECT, trouble);
  m->conforms = m->within_u = FALSE;
  m->zone = BOND_ZONE_WORD_PASS;
  m->caution = BOND_REASON_NONE;
}

static void
reset (BondMeasurement *m, const BondJudgeContext *context, BondCondition condition)
{
  char *id = m->id;
  GPtrArray *readings = m->readings;

  *m = (BondMeasurement){ .id = id, .readings = readings, .condition = condition, .row = context->row };
}

static void
judge_all (BondMeasurement *m, const BondJudgeContext *context, BondCondition condition, gboolean alone)
{
  Work work = { .m = m, .context = context };
  guint i;

  reset (m, context, condition);
  if (m->readings->len == 0)
    return;
  work.asks_pair = !alone && (context->pair || (context->row != NULL && context->row->pair));
  for (i = 0; i < m->readings->len; i++)
    add_reading (&work, g_ptr_array_index (m->readings, i));
  if (alone)
    work.planned = 0;
  m->step = work.range != NULL ? work.range->step : 0;
  m->self_reversed = work.instrument != NULL && work.instrument->reversal == BOND_REVERSAL_BY_ITSELF;
  if (work.n == 1)
    set_mean (&work); /* one figure stands for itself, with or without a verdict */
  if (m->reason != BOND_REASON_NONE || !check_complete (&work))
    return;
  if (m->paired && !check_pairs (&work))
    return;
  set_mean (&work);
  compute_budget (&work);
  bond_measurement_hold_against (m, context->row != NULL ? bond_limit_row_bounds (context->row, condition) : NULL,
                                 context->limit_missing, context->rule);
  weigh_against_metal (&work);
}

void
bond_measurement_judge (BondMeasurement *measurement, const BondJudgeContext *context, BondCondition condition)
{
  g_return_if_fail (measurement != NULL && context != NULL && context->house != NULL);
  judge_all (measurement, context, condition, FALSE);
}

void
bond_measurement_judge_alone (BondMeasurement *measurement, const BondJudgeContext *context, BondCondition condition)
{
  g_return_if_fail (measurement != NULL && context != NULL && context->house != NULL);
  judge_all (measurement, context, condition, TRUE);
}
