/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * What a typed text would give, and what has to be asked first.  Asking costs a
 * key, so each question has a narrow reason: a zero, a mark that can be read two
 * ways, a unit that is probably another, a value the pinned range cannot show.
 * Nothing is recorded here.
 */
#include "gui/walk-private.h"
#include "gui/words.h"
#include <glib/gi18n-lib.h>
#include <string.h>

/* House values of the unit question: our own, no source. */
#define SLIP_FACTOR 100
#define SLIP_NEAR_FACTOR 10

void
bond_attempt_clear (BondAttempt *attempt)
{
  g_clear_pointer (&attempt->words, g_free);
  g_clear_pointer (&attempt->preview, bond_place_result_free);
  g_clear_pointer (&attempt->pair_result, bond_measurement_free);
  g_clear_pointer (&attempt->pair, g_ptr_array_unref);
  if (attempt->parsed)
    bond_reading_text_clear (&attempt->text);
  memset (attempt, 0, sizeof *attempt);
}

/* A seating goes on with the instrument it was begun with; with another one a new seating begins. */
static gboolean
is_same_instrument (BondWalk *self, const BondMeasurement *last)
{
  const BondReading *first;

  if (last->readings->len == 0)
    return FALSE;
  first = bond_entry_get_reading (g_ptr_array_index (last->readings, 0));
  return first != NULL && g_strcmp0 (first->instrument, self->pinned.instrument) == 0;
}

BondDirection
bond_walk_expect (BondWalk *self, const char **of)
{
  const BondPlaceResult *result = bond_walk_get_result (self);
  const BondMeasurement *last = result != NULL ? result->last : NULL;

  *of = NULL;
  if (self->fresh || last == NULL || !is_same_instrument (self, last))
    return BOND_DIRECTION_FORWARD;
  if (last->outcome == BOND_OUTCOME_INCOMPLETE)
    {
      *of = last->id;
      return last->reason == BOND_REASON_REPEATS_MISSING ? BOND_DIRECTION_REPEAT : BOND_DIRECTION_REVERSE;
    }
  if (last->outcome == BOND_OUTCOME_NO_VERDICT && last->reason == BOND_REASON_PAIR_DISAGREES)
    *of = last->id; /* the second pair belongs to the same measurement */
  return BOND_DIRECTION_FORWARD;
}

void
bond_walk_fill_reading (BondWalk *self, const BondTypedValue *value, BondAnswer answers, BondReading *reading)
{
  bond_reading_set_typed (reading, value);
  reading->instrument = g_strdup (self->pinned.instrument);
  reading->range = g_strdup (self->pinned.range);
  reading->connectors = self->pinned.connectors;
  reading->mounting = self->pinned.mounting;
  reading->reference_end = g_strdup (self->pinned.reference_end);
  reading->via = g_strdup ("typed");
  reading->planned = self->pinned.planned;
  /* Asked of a value without a figure only; the other half of the pair has one. The metal is asked of both. */
  reading->confirmed = (answers & BOND_ANSWER_METAL) != 0
                       || ((answers & BOND_ANSWER_TWO_PARTS) != 0
                           && (value->quantity.qualifier == BOND_QUALIFIER_BELOW || value->quantity.nohm == 0));
}

static void
ask (BondAttempt *attempt, BondAsk what, char *words)
{
  attempt->ask = what;
  g_free (attempt->words);
  attempt->words = words;
}

static gboolean
parse (BondWalk *self, const char *text, BondAttempt *attempt)
{
  const BondRange *range = bond_walk_range (self);
  g_autoptr (GError) error = NULL;

  attempt->parsed = bond_reading_text_parse (text, self->pinned.unit, &self->format, range != NULL ? range->end : 0,
                                             range != NULL ? range->step : 0, &attempt->text, &error);
  if (attempt->parsed)
    return TRUE;
  if (g_error_matches (error, BOND_OHM_ERROR, BOND_OHM_ERROR_AMBIGUOUS))
    ask (attempt, BOND_ASK_MARK, g_strdup_printf (_ ("Is the mark in “%s” a decimal mark?"), text));
  else
    ask (attempt, BOND_ASK_ERROR, g_strdup (error != NULL ? error->message : _ ("Nothing was recorded.")));
  return FALSE;
}

typedef enum
{
  COMPARED_READING,
  COMPARED_EARLIER,
  COMPARED_LIMIT
} Compared;

static BondOhm
reference_value (BondWalk *self, Compared *what)
{
  const BondPlaceResult *result = bond_walk_get_result (self);
  BondOhm nohm = 0;

  *what = COMPARED_READING;
  if (result != NULL && result->decides != NULL && result->decides->qualifier == BOND_QUALIFIER_NONE)
    return bond_mean_nohm (&result->decides->mean);
  *what = COMPARED_EARLIER;
  if (bond_walk_earlier_nohm (self, &nohm))
    return nohm;
  *what = COMPARED_LIMIT;
  if (result != NULL && result->bounds != NULL && result->bounds->upper.relation != BOND_RELATION_NONE)
    return result->bounds->upper.nohm;
  return 0;
}

static char *
slip_question (Compared what, const char *typed, const char *ratio, const char *before)
{
  /* TRANSLATORS: the typed reading, a ratio, and the value it is compared with */
  if (what == COMPARED_READING)
    return g_strdup_printf (_ ("%s is %s times the last reading here, %s. Which unit did the meter show?"), typed,
                            ratio, before);
  if (what == COMPARED_EARLIER)
    return g_strdup_printf (_ ("%s is %s times the last survey’s %s. Which unit did the meter show?"), typed, ratio,
                            before);
  return g_strdup_printf (_ ("%s is %s times the limit of %s. Which unit did the meter show?"), typed, ratio, before);
}

static gboolean
far_apart (BondOhm a, BondOhm b, int factor)
{
  return a / factor >= b || b / factor >= a;
}

/* A unit in which the same digits would lie near @reference; FALSE when there is none. */
static gboolean
find_near_unit (BondOhm nohm, BondUnit unit, BondOhm reference, BondUnit *other)
{
  for (int i = 0; i < BOND_N_UNITS; i++)
    {
      __int128 shifted = (__int128)nohm * bond_unit_nohm (i) / bond_unit_nohm (unit);

      if (i == (int)unit || shifted <= 0 || shifted > G_MAXINT64)
        continue;
      if (far_apart ((BondOhm)shifted, reference, SLIP_NEAR_FACTOR))
        continue;
      *other = i;
      return TRUE;
    }
  return FALSE;
}

static char *
times (BondOhm nohm, BondOhm reference)
{
  double ratio = (double)nohm / (double)reference;
  char text[G_ASCII_DTOSTR_BUF_SIZE];

  return g_strdup (g_ascii_formatd (text, sizeof text, ratio >= 1 ? "%.0f" : "%.2g", ratio));
}

/* A unit that would bring @value near what is known here; FALSE when it lies there already or no unit would. */
static gboolean
is_slip (const BondTypedValue *value, BondOhm reference, BondUnit *other)
{
  BondOhm nohm = value->quantity.nohm;

  if (reference <= 0 || nohm <= 0 || value->quantity.qualifier != BOND_QUALIFIER_NONE || value->microampere != 0)
    return FALSE;
  return far_apart (nohm, reference, SLIP_FACTOR) && find_near_unit (nohm, value->unit, reference, other);
}

static void
guard_unit (BondWalk *self, BondAttempt *attempt, BondAnswer answers)
{
  const BondTypedValue *value = &attempt->text.value[attempt->asked_value];
  Compared what;
  BondOhm reference = reference_value (self, &what);
  g_autofree char *typed = NULL;
  g_autofree char *ratio = NULL;
  g_autofree char *before = NULL;

  if ((answers & BOND_ANSWER_UNIT) != 0 || !is_slip (value, reference, &attempt->other))
    return;
  typed = g_strdup_printf ("%s %s", value->text, bond_unit_symbol (value->unit));
  ratio = times (value->quantity.nohm, reference);
  before = bond_words_quantity (&(BondQuantity){ .nohm = reference }, bond_ohm_best_unit (reference), 0);
  for (int i = 0; i < attempt->text.n_values; i++)
    {
      BondUnit other;

      attempt->slipped[i] = attempt->text.value[i].unit == value->unit
                            && is_slip (&attempt->text.value[i], reference, &other) && other == attempt->other;
    }
  ask (attempt, BOND_ASK_UNIT, slip_question (what, typed, ratio, before));
}

/* What one unit of the last typed decimal is worth, nano-ohms: "1.84" mΩ → 10 000; zeros before the mark tell nothing.
 */
static BondOhm
last_digit_nohm (const BondTypedValue *value)
{
  const char *mark = strpbrk (value->text, ".,");
  BondOhm nohm = bond_unit_nohm (value->unit);

  if (mark == NULL)
    return G_MAXINT64;
  for (const char *at = mark + 1; g_ascii_isdigit (*at) && nohm > 0; at++)
    nohm /= 10;
  return nohm;
}

/* The display has digits down to its step and no finer; a quotient of voltage and current was never on it. */
static gboolean
is_finer (const BondTypedValue *value, BondOhm step)
{
  BondOhm digit = 1;

  if (step <= 0 || value->microampere != 0)
    return FALSE;
  while (digit <= step / 10)
    digit *= 10;
  return value->quantity.nohm % step != 0 || last_digit_nohm (value) < digit;
}

/* Could the meter have shown this on @range?  ">" shows the end of the range it was on, "<" its step. */
static gboolean
can_show (const BondRange *range, const BondTypedValue *value)
{
  BondOhm nohm = ABS (value->quantity.nohm);

  if (value->quantity.qualifier == BOND_QUALIFIER_BELOW)
    return nohm >= range->step && nohm <= range->end;
  return nohm <= range->end && !is_finer (value, range->step);
}

/* The range of the pinned instrument that can have shown @value, the one that fits a qualifier exactly first. */
static const BondRange *
find_range (const BondInstrument *instrument, const BondTypedValue *value)
{
  const BondRange *found = NULL;

  for (guint i = 0; i < instrument->ranges->len; i++)
    {
      const BondRange *range = g_ptr_array_index (instrument->ranges, i);
      BondOhm own = value->quantity.qualifier == BOND_QUALIFIER_OVER ? range->end : range->step;

      if (!can_show (range, value))
        continue;
      if (value->quantity.qualifier != BOND_QUALIFIER_NONE && own == value->quantity.nohm)
        return range;
      if (found == NULL)
        found = range;
    }
  return found;
}

static char *
range_question (const BondInstrument *instrument, const BondRange *range, const BondTypedValue *value)
{
  BondUnit unit = bond_ohm_best_unit (range->end);
  g_autofree char *end = bond_words_quantity (&(BondQuantity){ .nohm = range->end }, unit, 0);
  g_autofree char *step = bond_words_quantity (&(BondQuantity){ .nohm = range->step }, unit, 0);
  g_autofree char *typed = g_strconcat (value->text, "\302\240", bond_unit_symbol (value->unit), NULL);

  if (ABS (value->quantity.nohm) > range->end)
    return g_strdup_printf (_ ("%s: the pinned range ends at %s. Which range was %s on?"), typed, end,
                            instrument->name);
  /* TRANSLATORS: the typed reading, the end of the range, its display step, the instrument */
  return g_strdup_printf (_ ("%s: the pinned %s range shows steps of %s. Which range was %s on?"), typed, end, step,
                          instrument->name);
}

/* Over-range typed with the end of another range of the meter: that is the range it was on. */
static gboolean
is_end_of_other (const BondInstrument *instrument, const BondRange *pinned, const BondTypedValue *value)
{
  const BondRange *other = find_range (instrument, value);

  return value->quantity.qualifier == BOND_QUALIFIER_OVER && pinned->end != value->quantity.nohm && other != NULL
         && other->end == value->quantity.nohm;
}

static void
guard_range (BondWalk *self, BondAttempt *attempt, BondAnswer answers)
{
  const BondTypedValue *value = &attempt->text.value[attempt->asked_value];
  const BondRange *range = bond_walk_range (self);
  const BondInstrument *instrument;
  const BondRange *better;

  if (range == NULL)
    return;
  instrument = bond_survey_find_instrument (self->survey, self->pinned.instrument);
  if (can_show (range, value) && !is_end_of_other (instrument, range, value))
    return;
  better = find_range (instrument, value);
  attempt->range = better != NULL ? better->id : NULL;
  ask (attempt, BOND_ASK_RANGE, range_question (instrument, range, value));
}

static void
guard_zero (BondWalk *self, BondAttempt *attempt, BondAnswer answers)
{
  const BondTypedValue *value = &attempt->text.value[attempt->asked_value];

  if (answers & (BOND_ANSWER_TWO_PARTS | BOND_ANSWER_NOT_SURE))
    return;
  if (value->quantity.qualifier == BOND_QUALIFIER_BELOW)
    ask (attempt, BOND_ASK_BELOW, g_strdup (_ ("Below the display step. Are the probes on two parts?")));
  else if (value->quantity.qualifier == BOND_QUALIFIER_NONE && value->quantity.nohm == 0)
    ask (attempt, BOND_ASK_ZERO, g_strdup (_ ("Zero: below the display step, or are the probes touching each other?")));
}

/* One value of a pair is measured as the other is: every question is for both. */
static void
guard_values (BondWalk *self, BondAttempt *attempt, BondAnswer answers)
{
  static void (*const guards[]) (BondWalk *, BondAttempt *, BondAnswer) = { guard_zero, guard_unit, guard_range };

  for (gsize i = 0; i < G_N_ELEMENTS (guards); i++)
    for (int j = 0; j < attempt->text.n_values && attempt->ask == BOND_ASK_NONE; j++)
      {
        attempt->asked_value = j;
        guards[i](self, attempt, answers);
      }
}

/* A first reading waits for one value, and a pair is two: which of them belongs to it cannot be told. */
static void
guard_count (BondWalk *self, BondAttempt *attempt)
{
  const BondPlaceResult *result = bond_walk_get_result (self);
  const BondMeasurement *last = result != NULL ? result->last : NULL;

  if (attempt->text.n_values == 2 && !self->fresh && last != NULL && last->outcome == BOND_OUTCOME_INCOMPLETE)
    ask (attempt, BOND_ASK_ERROR,
         g_strdup (_ ("One reading is still to come here, not two. Type it alone, or choose Read Again to begin with a "
                      "new pair. Nothing was recorded.")));
}

/* Not stated is not the state asked for: ask once, the answer is pinned. */
static void
guard_state (BondWalk *self, BondAttempt *attempt)
{
  BondAsked asked = bond_point_get_asked (self->point);

  if ((asked.connectors != BOND_CONNECTORS_ANY && self->pinned.connectors == BOND_CONNECTORS_ANY)
      || (asked.mounting != BOND_MOUNTING_ANY && self->pinned.mounting == BOND_MOUNTING_ANY))
    ask (attempt, BOND_ASK_STATE, g_strdup (_ ("This limit holds in one measuring state only. How was it measured?")));
}

/* What the judge would find unconfirmed is asked before it is recorded. */
static void
guard_metal (BondAttempt *attempt, BondAnswer answers)
{
  const BondMeasurement *last = attempt->preview != NULL ? attempt->preview->last : NULL;

  if (attempt->ask == BOND_ASK_NONE && (answers & (BOND_ANSWER_METAL | BOND_ANSWER_NOT_SURE)) == 0 && last != NULL
      && last->reason == BOND_REASON_METAL_UNSURE)
    ask (attempt, BOND_ASK_METAL,
         g_strdup_printf (_ ("This is %s. Are the probes on two parts?"), bond_reason_name (BOND_REASON_BELOW_METAL)));
}

static const BondInstrument *
find_instrument (gconstpointer survey, const char *id, const BondEntry *entry)
{
  return bond_survey_find_instrument_at ((BondSurvey *)survey, id, entry);
}

static BondEntry *
half_of_pair (BondWalk *self, const BondTypedValue *value, BondDirection direction, BondAnswer answers)
{
  BondEntry *entry = bond_entry_new (BOND_ENTRY_READING);

  entry->id = g_strdup (direction == BOND_DIRECTION_FORWARD ? "preview-1" : "preview-2");
  entry->at = g_strdup ("");
  entry->by = g_strdup ("");
  bond_walk_fill_reading (self, value, answers, &entry->reading);
  entry->reading.direction = direction;
  entry->reading.planned = MAX (entry->reading.planned, 2);
  return entry;
}

/* The pair under the row it does worst by: all must be met. */
static BondMeasurement *
judge_pair (BondWalk *self, GPtrArray *pair, const BondPlaceResult *now, gboolean second)
{
  const BondConductor *conductor = &bond_point_get_spec (self->point)->conductor;
  const BondConductor *metal = bond_conductor_is_known (conductor) ? conductor : NULL;
  BondMeasurement *worst = NULL;

  for (guint i = 0; i < bond_place_result_n_rows (now); i++)
    {
      const BondPlaceResult *row = bond_place_result_nth_row (now, i);
      BondMeasurement *one = bond_measurement_new ();
      BondJudgeContext context = {
        .row = row->row,
        .rule = bond_survey_get_rule (self->survey),
        .house = bond_survey_get_house (self->survey),
        .klass = bond_point_get_spec (self->point)->klass,
        .find_instrument = find_instrument,
        .data = self->survey,
        .metal = metal,
      };

      /* A second pair is taken because the first disagreed: all four are one measurement. */
      for (guint j = 0; second && row->last != NULL && j < row->last->readings->len; j++)
        g_ptr_array_add (one->readings, g_ptr_array_index (row->last->readings, j));
      for (guint j = 0; j < pair->len; j++)
        g_ptr_array_add (one->readings, g_ptr_array_index (pair, j));
      bond_measurement_judge (one, &context, now->tier);
      if (worst != NULL && bond_measurement_badness (one) <= bond_measurement_badness (worst))
        {
          bond_measurement_free (one);
          continue;
        }
      g_clear_pointer (&worst, bond_measurement_free);
      worst = one;
    }
  return worst;
}

/*
 * Both halves of a typed pair judged as the one measurement they will be.  What it does to the point (a fail that
 * stands, pass after rework) is read from the state before it; the survey itself decides when it is recorded.
 */
static void
preview_pair (BondWalk *self, BondAttempt *attempt, BondAnswer answers, gboolean second)
{
  BondPlaceResult *preview = attempt->preview;
  const BondPlaceResult *now = bond_walk_get_result (self);

  attempt->pair = g_ptr_array_new_with_free_func ((GDestroyNotify)bond_entry_unref);
  g_ptr_array_add (attempt->pair, half_of_pair (self, &attempt->text.value[0], BOND_DIRECTION_FORWARD, answers));
  g_ptr_array_add (attempt->pair, half_of_pair (self, &attempt->text.value[1], BOND_DIRECTION_REVERSE, answers));
  attempt->pair_result = judge_pair (self, attempt->pair, now, second);
  preview->last = attempt->pair_result;
  preview->within_u = attempt->pair_result->within_u;
  if (attempt->pair_result->outcome != BOND_OUTCOME_JUDGED || now->state == BOND_STATE_FAIL)
    return;
  if (!attempt->pair_result->conforms)
    preview->state = BOND_STATE_FAIL;
  else
    preview->state = now->state == BOND_STATE_REMEASURE ? BOND_STATE_PASS_AFTER_REWORK : BOND_STATE_PASS;
}

void
bond_walk_try (BondWalk *self, const char *text, BondAnswer answers, BondAttempt *attempt)
{
  BondReading reading = { 0 };
  const char *of = NULL;

  g_return_if_fail (BOND_IS_WALK (self) && text != NULL && attempt != NULL);
  memset (attempt, 0, sizeof *attempt);
  if (self->point == NULL || !parse (self, text, attempt))
    return;
  attempt->direction = bond_walk_expect (self, &of);
  attempt->answers = answers;
  guard_count (self, attempt);
  if (attempt->ask == BOND_ASK_ERROR)
    return;
  guard_values (self, attempt, answers);
  if (attempt->ask == BOND_ASK_NONE && (answers & BOND_ANSWER_STATE) == 0)
    guard_state (self, attempt);
  bond_walk_fill_reading (self, &attempt->text.value[0], answers, &reading);
  reading.direction = attempt->direction;
  reading.of = g_strdup (of);
  attempt->preview = bond_survey_preview (self->survey, self->point, self->place, &reading);
  bond_reading_clear (&reading);
  if (attempt->preview != NULL && attempt->text.n_values == 2)
    preview_pair (self, attempt, answers, of != NULL);
  guard_metal (attempt, answers);
}
