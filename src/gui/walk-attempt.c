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

BondDirection
bond_walk_expect (BondWalk *self, const char **of)
{
  const BondPlaceResult *result = bond_walk_get_result (self);
  const BondMeasurement *last = result != NULL ? result->last : NULL;

  *of = NULL;
  if (self->fresh || last == NULL)
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
  reading->confirmed = (answers & BOND_ANSWER_TWO_PARTS) != 0;
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

static void
guard_unit (BondWalk *self, BondAttempt *attempt)
{
  const BondTypedValue *value = &attempt->text.value[0];
  Compared what;
  BondOhm reference = reference_value (self, &what);
  BondOhm nohm = value->quantity.nohm;
  g_autofree char *typed = NULL;
  g_autofree char *ratio = NULL;
  g_autofree char *before = NULL;

  if (reference <= 0 || nohm <= 0 || value->quantity.qualifier != BOND_QUALIFIER_NONE || value->microampere != 0)
    return;
  if (!far_apart (nohm, reference, SLIP_FACTOR) || !find_near_unit (nohm, value->unit, reference, &attempt->other))
    return;
  typed = g_strdup_printf ("%s %s", value->text, bond_unit_symbol (value->unit));
  ratio = times (nohm, reference);
  before = bond_words_quantity (&(BondQuantity){ .nohm = reference }, bond_ohm_best_unit (reference), 0);
  ask (attempt, BOND_ASK_UNIT, slip_question (what, typed, ratio, before));
}

static void
guard_range (BondWalk *self, BondAttempt *attempt)
{
  const BondRange *range = bond_walk_range (self);
  const BondInstrument *instrument;
  const BondRange *better;
  BondOhm nohm = attempt->text.value[0].quantity.nohm;
  g_autofree char *end = NULL;

  if (range == NULL || attempt->text.value[0].quantity.qualifier != BOND_QUALIFIER_NONE || nohm <= range->end)
    return;
  instrument = bond_survey_find_instrument (self->survey, self->pinned.instrument);
  better = bond_instrument_range_for (instrument, nohm);
  end = bond_words_quantity (&(BondQuantity){ .nohm = range->end }, bond_ohm_best_unit (range->end), 0);
  attempt->range = better != NULL ? better->id : NULL;
  ask (attempt, BOND_ASK_RANGE,
       g_strdup_printf (_ ("The pinned range ends at %s. Which range was %s on?"), end, instrument->name));
}

static void
guard_zero (BondWalk *self, BondAttempt *attempt, BondAnswer answers)
{
  const BondTypedValue *value = &attempt->text.value[0];

  if (answers & (BOND_ANSWER_TWO_PARTS | BOND_ANSWER_NOT_SURE))
    return;
  if (value->quantity.qualifier == BOND_QUALIFIER_BELOW)
    ask (attempt, BOND_ASK_BELOW, g_strdup (_ ("Below the display step. Are the probes on two parts?")));
  else if (value->quantity.qualifier == BOND_QUALIFIER_NONE && value->quantity.nohm == 0)
    ask (attempt, BOND_ASK_ZERO, g_strdup (_ ("Zero: below the display step, or are the probes touching each other?")));
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

static const BondInstrument *
find_instrument (gconstpointer survey, const char *id)
{
  return bond_survey_find_instrument ((BondSurvey *)survey, id);
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
judge_pair (BondWalk *self, GPtrArray *pair, const BondPlaceResult *now)
{
  BondMeasurement *worst = NULL;

  for (guint i = 0; i < bond_place_result_n_rows (now); i++)
    {
      BondMeasurement *one = bond_measurement_new ();
      BondJudgeContext context = {
        .row = bond_place_result_nth_row (now, i)->row,
        .rule = bond_survey_get_rule (self->survey),
        .house = bond_survey_get_house (self->survey),
        .klass = bond_point_get_spec (self->point)->klass,
        .find_instrument = find_instrument,
        .data = self->survey,
      };

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
preview_pair (BondWalk *self, BondAttempt *attempt, BondAnswer answers)
{
  BondPlaceResult *preview = attempt->preview;
  const BondPlaceResult *now = bond_walk_get_result (self);

  attempt->pair = g_ptr_array_new_with_free_func ((GDestroyNotify)bond_entry_unref);
  g_ptr_array_add (attempt->pair, half_of_pair (self, &attempt->text.value[0], BOND_DIRECTION_FORWARD, answers));
  g_ptr_array_add (attempt->pair, half_of_pair (self, &attempt->text.value[1], BOND_DIRECTION_REVERSE, answers));
  attempt->pair_result = judge_pair (self, attempt->pair, now);
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
  guard_zero (self, attempt, answers);
  if (attempt->ask == BOND_ASK_NONE && (answers & BOND_ANSWER_UNIT) == 0)
    guard_unit (self, attempt);
  if (attempt->ask == BOND_ASK_NONE)
    guard_range (self, attempt);
  if (attempt->ask == BOND_ASK_NONE && (answers & BOND_ANSWER_STATE) == 0)
    guard_state (self, attempt);
  bond_walk_fill_reading (self, &attempt->text.value[0], answers, &reading);
  reading.direction = attempt->direction;
  reading.of = g_strdup (of);
  attempt->preview = bond_survey_preview (self->survey, self->point, self->place, &reading);
  bond_reading_clear (&reading);
  if (attempt->preview != NULL && attempt->text.n_values == 2 && of == NULL)
    preview_pair (self, attempt, answers);
}
