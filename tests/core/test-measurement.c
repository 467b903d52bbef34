/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * One seating judged alone, against every limit the project names, at it and one
 * nano-ohm to either side; and every way in which a reading has no verdict.
 */
#include "core/measurement.h"

#define KILOOHM (BOND_NOHM_PER_OHM * 1000)

/* One judging: a row, an instrument and the readings of one seating. */
typedef struct
{
  BondLimitRow *row;
  BondInstrument *instrument;
  BondHouse *house;
  GPtrArray *entries;
  BondRule rule;
} Bench;

static void
bench_set_up (Bench *bench, gconstpointer data)
{
  BondRange range = { .id = (char *)"r",
                      .end = 30000000,
                      .step = 10000,
                      .accuracy_known = TRUE,
                      .accuracy_nohm = 10000,
                      .microampere = 100000 };

  bench->row = bond_limit_row_new ();
  bench->row->code = g_strdup ("X");
  bench->row->method = BOND_METHOD_FOUR_TERMINAL;
  bench->row->in_service.upper = (BondBound){ BOND_RELATION_LE, 2500000, BOND_UNIT_MILLIOHM };
  bench->instrument = bond_instrument_new ("m", 1, BOND_INSTRUMENT_MILLIOHMMETER, "m");
  bond_instrument_add_range (bench->instrument, &range);
  bench->house = bond_house_new ("house", 1, NULL);
  bench->entries = g_ptr_array_new_with_free_func ((GDestroyNotify)bond_entry_unref);
  bench->rule = BOND_RULE_SIMPLE;
}

static void
bench_tear_down (Bench *bench, gconstpointer data)
{
  bond_limit_row_unref (bench->row);
  bond_instrument_unref (bench->instrument);
  bond_house_unref (bench->house);
  g_ptr_array_unref (bench->entries);
}

static const BondInstrument *
find_instrument (gconstpointer data, const char *id, const BondEntry *entry)
{
  const Bench *bench = data;

  return strcmp (id, bench->instrument->id) == 0 ? bench->instrument : NULL;
}

static BondReading *
put (Bench *bench, BondOhm nohm, BondQualifier qualifier, BondDirection direction)
{
  BondEntry *entry = bond_entry_new (BOND_ENTRY_READING);

  entry->id = g_strdup_printf ("e-%u", bench->entries->len + 1);
  entry->reading.quantity = (BondQuantity){ .nohm = nohm, .qualifier = qualifier };
  entry->reading.direction = direction;
  entry->reading.instrument = g_strdup ("m");
  entry->reading.range = g_strdup ("r");
  g_ptr_array_add (bench->entries, entry);
  return &entry->reading;
}

static BondMeasurement *
judge_as (Bench *bench, BondCondition condition)
{
  BondMeasurement *m = bond_measurement_new ();
  BondJudgeContext context = {
    .row = bench->row, .rule = bench->rule, .house = bench->house, .find_instrument = find_instrument, .data = bench
  };
  guint i;

  for (i = 0; i < bench->entries->len; i++)
    g_ptr_array_add (m->readings, bench->entries->pdata[i]);
  bond_measurement_judge (m, &context, condition);
  return m;
}

static void
expect (Bench *bench, BondOutcome outcome, BondReason reason)
{
  g_autoptr (BondMeasurement) m = judge_as (bench, BOND_CONDITION_UNDISTURBED);

  g_assert_cmpint (m->outcome, ==, outcome);
  g_assert_cmpint (m->reason, ==, reason);
  g_assert_cmpint (strlen (bond_reason_name (m->reason)) > 0, ==, reason != BOND_REASON_NONE);
}

static void
expect_conforms (Bench *bench, gboolean conforms)
{
  g_autoptr (BondMeasurement) m = judge_as (bench, BOND_CONDITION_UNDISTURBED);

  g_assert_cmpint (m->outcome, ==, BOND_OUTCOME_JUDGED);
  g_assert_cmpint (m->conforms, ==, conforms);
}

static void
clear (Bench *bench)
{
  g_ptr_array_set_size (bench->entries, 0);
}

/* One nano-ohm under, at, one over: 1 conforms, 0 does not. */
typedef struct
{
  BondRelation relation;
  BondOhm limit;
  gboolean under, at, over;
  const char *source;
} Edge;

static const Edge edges[] = {
  { BOND_RELATION_LT, 2500000, TRUE, FALSE, FALSE, "AC 43.13-1B (8 Sep 1998) 11-188f: less than 2.5 mΩ" },
  { BOND_RELATION_LE, 2500000, TRUE, TRUE, FALSE, "FAA AD 2007-19-02 (f): 2.5 mΩ or less" },
  { BOND_RELATION_LE, 3000000, TRUE, TRUE, FALSE, "AC 43.13-1B (8 Sep 1998) 11-189: does not exceed 0.003 Ω" },
  { BOND_RELATION_LT, 100000000, TRUE, FALSE, FALSE,
    "MIL-HDBK-274A(AS) (14 Nov 2011) 5.10; TM 1-1500-204-23-4 \"Bonds\": less than 0.1 Ω" },
  { BOND_RELATION_GT, 100000000, FALSE, FALSE, TRUE, "relation only: no source" },
  { BOND_RELATION_GE, 100000000, FALSE, TRUE, TRUE, "relation only: no source" },
};

static void
test_edges (Bench *bench, gconstpointer data)
{
  gsize i;
  int d;

  for (i = 0; i < G_N_ELEMENTS (edges); i++)
    {
      const Edge *edge = &edges[i];
      const gboolean should[] = { edge->under, edge->at, edge->over };
      BondBound bound = { edge->relation, edge->limit, BOND_UNIT_MILLIOHM };
      gboolean upper = edge->relation == BOND_RELATION_LT || edge->relation == BOND_RELATION_LE;

      g_test_message ("%s", edge->source);
      bench->row->in_service = upper ? (BondBounds){ .upper = bound } : (BondBounds){ .lower = bound };
      for (d = -1; d <= 1; d++)
        {
          clear (bench);
          put (bench, edge->limit + d, BOND_QUALIFIER_NONE, BOND_DIRECTION_FORWARD);
          expect_conforms (bench, should[d + 1]);
        }
    }
}

/* Two tiers, each at its edge: in service ≤ 5 mΩ, opened, new or reworked ≤ 2.5 mΩ (invented). */
static void
test_tiers (Bench *bench, gconstpointer data)
{
  static const BondOhm limit[] = { 5000000, 2500000, 2500000, 2500000 };
  int condition, d;

  bench->row->in_service.upper.nohm = 5000000;
  bench->row->has_strict = TRUE;
  bench->row->strict.upper = (BondBound){ BOND_RELATION_LE, 2500000, BOND_UNIT_MILLIOHM };
  for (condition = BOND_CONDITION_UNDISTURBED; condition <= BOND_CONDITION_REWORKED; condition++)
    for (d = -1; d <= 1; d++)
      {
        g_autoptr (BondMeasurement) m = NULL;
        clear (bench);
        put (bench, limit[condition] + d, BOND_QUALIFIER_NONE, BOND_DIRECTION_FORWARD);
        m = judge_as (bench, (BondCondition)condition);
        g_assert_cmpint (m->conforms, ==, d <= 0);
        g_assert_cmpint (m->condition, ==, condition);
      }
}

/* The band of a tube isolator, 1e5 to 1e8 Ω over 500 V (US patent 9,618,148, an example and not a standard). */
static void
test_band (Bench *bench, gconstpointer data)
{
  static const struct
  {
    BondOhm nohm;
    gboolean conforms;
  } values[] = {
    { 50 * KILOOHM, FALSE },    { 100 * KILOOHM - 1, FALSE },    { 100 * KILOOHM, TRUE },     { 10000 * KILOOHM, TRUE },
    { 100000 * KILOOHM, TRUE }, { 100000 * KILOOHM + 1, FALSE }, { 200000 * KILOOHM, FALSE },
  };
  gsize i;

  bench->row->method = BOND_METHOD_MEGOHMMETER;
  bench->row->method_volts = 500;
  bench->row->in_service.lower = (BondBound){ BOND_RELATION_GE, 100 * KILOOHM, BOND_UNIT_MEGOHM };
  bench->row->in_service.upper = (BondBound){ BOND_RELATION_LE, 100000 * KILOOHM, BOND_UNIT_MEGOHM };
  bench->instrument->kind = BOND_INSTRUMENT_MEGOHMMETER;
  bench->instrument->test_volts = 500;
  for (i = 0; i < G_N_ELEMENTS (values); i++)
    {
      clear (bench);
      put (bench, values[i].nohm, BOND_QUALIFIER_NONE, BOND_DIRECTION_FORWARD);
      expect_conforms (bench, values[i].conforms);
    }
  /* Over 1 GΩ is above the band for certain; over 10 MΩ may be in it. */
  clear (bench);
  put (bench, 1000000 * KILOOHM, BOND_QUALIFIER_OVER, BOND_DIRECTION_FORWARD);
  expect_conforms (bench, FALSE);
  clear (bench);
  put (bench, 10000 * KILOOHM, BOND_QUALIFIER_OVER, BOND_DIRECTION_FORWARD);
  expect (bench, BOND_OUTCOME_NO_VERDICT, BOND_REASON_RANGE_TOO_LOW);
  bench->instrument->test_volts = 250;
  expect (bench, BOND_OUTCOME_NO_VERDICT, BOND_REASON_WRONG_METHOD);
  bench->instrument->kind = BOND_INSTRUMENT_MILLIOHMMETER;
  expect (bench, BOND_OUTCOME_NO_VERDICT, BOND_REASON_WRONG_METHOD);
}

/* R6: "> X" fails from X = limit on; one nano-ohm below there is no verdict. */
static void
test_over (Bench *bench, gconstpointer data)
{
  put (bench, 2500000, BOND_QUALIFIER_OVER, BOND_DIRECTION_FORWARD);
  expect_conforms (bench, FALSE);
  clear (bench);
  put (bench, 2500001, BOND_QUALIFIER_OVER, BOND_DIRECTION_FORWARD);
  expect_conforms (bench, FALSE);
  clear (bench);
  put (bench, 2499999, BOND_QUALIFIER_OVER, BOND_DIRECTION_FORWARD);
  expect (bench, BOND_OUTCOME_NO_VERDICT, BOND_REASON_RANGE_TOO_LOW);
  bench->row->in_service.upper.relation = BOND_RELATION_LT;
  expect (bench, BOND_OUTCOME_NO_VERDICT, BOND_REASON_RANGE_TOO_LOW);
  clear (bench);
  put (bench, 2500000, BOND_QUALIFIER_OVER, BOND_DIRECTION_FORWARD);
  expect_conforms (bench, FALSE);
}

/* R7: "< X" asks once, then conforms to an upper limit down to X = limit. */
static void
test_below (Bench *bench, gconstpointer data)
{
  BondReading *reading = put (bench, 10000, BOND_QUALIFIER_BELOW, BOND_DIRECTION_FORWARD);

  expect (bench, BOND_OUTCOME_SUSPECT, BOND_REASON_BELOW_UNCONFIRMED);
  reading->confirmed = TRUE;
  expect_conforms (bench, TRUE);
  reading->quantity.nohm = 2500000;
  expect_conforms (bench, TRUE);
  reading->quantity.nohm = 2500001;
  expect (bench, BOND_OUTCOME_NO_VERDICT, BOND_REASON_RANGE_TOO_COARSE);
  /* Against a lower limit it fails from X = limit down. */
  bench->row->in_service = (BondBounds){ .lower = { BOND_RELATION_GE, 2500000, BOND_UNIT_MILLIOHM } };
  expect (bench, BOND_OUTCOME_NO_VERDICT, BOND_REASON_RANGE_TOO_COARSE);
  reading->quantity.nohm = 2500000;
  expect_conforms (bench, FALSE);
}

static void
test_zero_and_negative (Bench *bench, gconstpointer data)
{
  BondReading *reading = put (bench, 0, BOND_QUALIFIER_NONE, BOND_DIRECTION_FORWARD);

  expect (bench, BOND_OUTCOME_SUSPECT, BOND_REASON_ZERO);
  reading->quantity.nohm = -1;
  expect (bench, BOND_OUTCOME_SUSPECT, BOND_REASON_NEGATIVE);
  reading->confirmed = TRUE; /* a negative figure cannot be confirmed away */
  expect (bench, BOND_OUTCOME_SUSPECT, BOND_REASON_NEGATIVE);
  reading->quantity.nohm = G_MININT64 + 1;
  expect (bench, BOND_OUTCOME_SUSPECT, BOND_REASON_NEGATIVE);
  reading->quantity.nohm = 1;
  expect_conforms (bench, TRUE);
  /* Without a known display step a zero stays suspect whatever is answered. */
  reading->quantity.nohm = 0;
  g_clear_pointer (&reading->range, g_free);
  expect (bench, BOND_OUTCOME_SUSPECT, BOND_REASON_ZERO);
}

/* A meter that shows minus in reverse must show it, and only there. */
static void
test_shows_minus (Bench *bench, gconstpointer data)
{
  bench->instrument->reversal = BOND_REVERSAL_SHOWS_MINUS;
  put (bench, 2400000, BOND_QUALIFIER_NONE, BOND_DIRECTION_FORWARD);
  put (bench, -2400000, BOND_QUALIFIER_NONE, BOND_DIRECTION_REVERSE);
  expect_conforms (bench, TRUE);
  clear (bench);
  put (bench, 2400000, BOND_QUALIFIER_NONE, BOND_DIRECTION_FORWARD);
  put (bench, 2400000, BOND_QUALIFIER_NONE, BOND_DIRECTION_REVERSE);
  expect (bench, BOND_OUTCOME_SUSPECT, BOND_REASON_NEGATIVE);
  clear (bench);
  put (bench, -2400000, BOND_QUALIFIER_NONE, BOND_DIRECTION_FORWARD);
  expect (bench, BOND_OUTCOME_SUSPECT, BOND_REASON_NEGATIVE);
}

/* Two pairs agree, and yet nothing says whether a thermal voltage could have made the difference. */
static void
test_emf_without_current (Bench *bench, gconstpointer data)
{
  int i;

  ((BondRange *)bench->instrument->ranges->pdata[0])->microampere = 0;
  for (i = 0; i < 2; i++)
    {
      put (bench, 2600000, BOND_QUALIFIER_NONE, BOND_DIRECTION_FORWARD);
      put (bench, 2000000, BOND_QUALIFIER_NONE, BOND_DIRECTION_REVERSE);
    }
  expect (bench, BOND_OUTCOME_SUSPECT, BOND_REASON_CURRENT_UNKNOWN);
}

/* Half the difference × current at exactly 50 µV, and one nano-ohm more: 1 mΩ × 0.1 A / 2. */
static void
test_emf_edge (Bench *bench, gconstpointer data)
{
  int over;

  for (over = 0; over <= 1; over++)
    {
      g_autoptr (BondMeasurement) m = NULL;
      clear (bench);
      put (bench, 2000000 + over, BOND_QUALIFIER_NONE, BOND_DIRECTION_FORWARD);
      put (bench, 1000000, BOND_QUALIFIER_NONE, BOND_DIRECTION_REVERSE);
      put (bench, 2000000 + over, BOND_QUALIFIER_NONE, BOND_DIRECTION_FORWARD);
      put (bench, 1000000, BOND_QUALIFIER_NONE, BOND_DIRECTION_REVERSE);
      m = judge_as (bench, BOND_CONDITION_UNDISTURBED);
      g_assert_cmpint (m->emf_nanovolt, ==, 50000 + over);
      g_assert_cmpint (m->outcome, ==, over ? BOND_OUTCOME_SUSPECT : BOND_OUTCOME_JUDGED);
    }
  expect (bench, BOND_OUTCOME_SUSPECT, BOND_REASON_EMF_TOO_LARGE);
}

static void
test_second_pair (Bench *bench, gconstpointer data)
{
  put (bench, 2600000, BOND_QUALIFIER_NONE, BOND_DIRECTION_FORWARD);
  put (bench, 2200000, BOND_QUALIFIER_NONE, BOND_DIRECTION_REVERSE);
  expect (bench, BOND_OUTCOME_NO_VERDICT, BOND_REASON_PAIR_DISAGREES);
  put (bench, 3000000, BOND_QUALIFIER_NONE, BOND_DIRECTION_FORWARD);
  expect (bench, BOND_OUTCOME_INCOMPLETE, BOND_REASON_REVERSE_MISSING);
  put (bench, 2600000, BOND_QUALIFIER_NONE, BOND_DIRECTION_REVERSE);
  expect (bench, BOND_OUTCOME_SUSPECT, BOND_REASON_PAIRS_DISAGREE);
  put (bench, 2400000, BOND_QUALIFIER_NONE, BOND_DIRECTION_FORWARD);
  expect (bench, BOND_OUTCOME_SUSPECT, BOND_REASON_PAIRS_DISAGREE); /* a third pair helps nothing */

  /* The first pair's contact moved (140 µV); that the second agrees in itself and with the mean saves nothing. */
  clear (bench);
  put (bench, 1100000, BOND_QUALIFIER_NONE, BOND_DIRECTION_FORWARD);
  put (bench, 3900000, BOND_QUALIFIER_NONE, BOND_DIRECTION_REVERSE);
  put (bench, 2500000, BOND_QUALIFIER_NONE, BOND_DIRECTION_FORWARD);
  put (bench, 2500000, BOND_QUALIFIER_NONE, BOND_DIRECTION_REVERSE);
  expect (bench, BOND_OUTCOME_SUSPECT, BOND_REASON_EMF_TOO_LARGE);
}

static void
test_state_and_method (Bench *bench, gconstpointer data)
{
  BondReading *reading = put (bench, 1000000, BOND_QUALIFIER_NONE, BOND_DIRECTION_FORWARD);

  bench->row->connectors = BOND_CONNECTORS_UNMATED;
  expect (bench, BOND_OUTCOME_NO_VERDICT, BOND_REASON_WRONG_STATE); /* not stated */
  reading->connectors = BOND_CONNECTORS_MATED;
  expect (bench, BOND_OUTCOME_NO_VERDICT, BOND_REASON_WRONG_STATE);
  reading->connectors = BOND_CONNECTORS_UNMATED;
  expect_conforms (bench, TRUE);
  bench->row->mounting = BOND_MOUNTING_ISOLATED;
  reading->mounting = BOND_MOUNTING_IN_PLACE;
  expect (bench, BOND_OUTCOME_NO_VERDICT, BOND_REASON_WRONG_STATE);
  reading->mounting = BOND_MOUNTING_ISOLATED;
  expect_conforms (bench, TRUE);
  bench->instrument->kind = BOND_INSTRUMENT_MEGOHMMETER;
  expect (bench, BOND_OUTCOME_NO_VERDICT, BOND_REASON_WRONG_METHOD);
  bench->row->method = BOND_METHOD_VISUAL;
  expect (bench, BOND_OUTCOME_NO_VERDICT, BOND_REASON_WRONG_METHOD);
}

static void
test_planned (Bench *bench, gconstpointer data)
{
  put (bench, 2490000, BOND_QUALIFIER_NONE, BOND_DIRECTION_FORWARD)->planned = 3;
  expect (bench, BOND_OUTCOME_INCOMPLETE, BOND_REASON_REPEATS_MISSING);
  put (bench, 2500000, BOND_QUALIFIER_NONE, BOND_DIRECTION_REPEAT);
  expect (bench, BOND_OUTCOME_INCOMPLETE, BOND_REASON_REPEATS_MISSING);
  put (bench, 2510000, BOND_QUALIFIER_NONE, BOND_DIRECTION_REPEAT);
  expect_conforms (bench, TRUE);
  ((BondEntry *)bench->entries->pdata[2])->reading.quantity.nohm = 2510001;
  expect_conforms (bench, FALSE);
  bench->row->pair = TRUE;
  expect (bench, BOND_OUTCOME_INCOMPLETE, BOND_REASON_REVERSE_MISSING);
}

/* No limit: recorded.  No instrument: judged, U unknown, and nothing within an unknown U. */
static void
test_unknown (Bench *bench, gconstpointer data)
{
  BondReading *reading = put (bench, 2500000, BOND_QUALIFIER_NONE, BOND_DIRECTION_FORWARD);
  BondLimitRow *row = bench->row;
  g_autoptr (BondMeasurement) m = NULL;

  bench->row = NULL;
  expect (bench, BOND_OUTCOME_RECORDED, BOND_REASON_NONE);
  bench->row = row;
  g_free (reading->instrument);
  reading->instrument = g_strdup ("no such meter");
  m = judge_as (bench, BOND_CONDITION_UNDISTURBED);
  g_assert_true (m->conforms);
  g_assert_false (m->budget.known);
  g_assert_false (m->within_u);
  bench->rule = BOND_RULE_GUARDED;
  expect (bench, BOND_OUTCOME_NO_VERDICT, BOND_REASON_U_UNKNOWN);
  clear (bench);
  expect (bench, BOND_OUTCOME_NONE, BOND_REASON_NONE);
}

/* The worked budget of five repeats (project's own case, computed to 1e-9), here through a whole measurement. */
static void
test_budget (Bench *bench, gconstpointer data)
{
  static const BondOhm values[] = { 2413000, 2421000, 2409000, 2416000, 2418000 };
  g_autoptr (BondMeasurement) m = NULL;
  BondRange *range = g_ptr_array_index (bench->instrument->ranges, 0);
  gsize i;

  range->step = 1000;
  range->accuracy_nohm = 0;
  range->accuracy_counts = 3;
  range->accuracy_reading_ppm = 2500;
  bench->instrument->certificate_nohm = 4000;
  bench->instrument->certificate_ppm = 0;
  bench->instrument->certificate_k = 2;
  for (i = 0; i < G_N_ELEMENTS (values); i++)
    put (bench, values[i], BOND_QUALIFIER_NONE, i == 0 ? BOND_DIRECTION_FORWARD : BOND_DIRECTION_REPEAT)->planned = 5;
  m = judge_as (bench, BOND_CONDITION_UNDISTURBED);
  g_assert_cmpint (bond_mean_nohm (&m->mean), ==, 2415400);
  g_assert_cmpfloat_with_epsilon (m->budget.u_c / 1e6, 0.0059644637, 1e-9);
  g_assert_cmpfloat_with_epsilon (m->budget.expanded / 1e6, 0.011928927, 1e-9);
  g_assert_cmpint (m->zone, ==, BOND_ZONE_WORD_PASS);
}

#define ADD(name, test) g_test_add ("/core/measurement/" name, Bench, NULL, bench_set_up, test, bench_tear_down)

int
main (int argc, char *argv[])
{
  g_test_init (&argc, &argv, NULL);
  ADD ("edges", test_edges);
  ADD ("tiers", test_tiers);
  ADD ("band", test_band);
  ADD ("over", test_over);
  ADD ("below", test_below);
  ADD ("zero-and-negative", test_zero_and_negative);
  ADD ("shows-minus", test_shows_minus);
  ADD ("emf-edge", test_emf_edge);
  ADD ("emf-without-current", test_emf_without_current);
  ADD ("second-pair", test_second_pair);
  ADD ("state-and-method", test_state_and_method);
  ADD ("planned", test_planned);
  ADD ("unknown", test_unknown);
  ADD ("budget", test_budget);
  return g_test_run ();
}
