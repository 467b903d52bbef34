/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * Values at a limit, one nano-ohm below it and one above it; means as sums; zones.
 */
#include "core/reading-text.h"
#include "core/uncertainty.h"
#include "core/verdict.h"

#include <string.h>

#define LE BOND_RELATION_LE
#define LT BOND_RELATION_LT
#define GE BOND_RELATION_GE
#define GT BOND_RELATION_GT
#define MILLI BOND_UNIT_MILLIOHM
#define OHM BOND_NOHM_PER_OHM
#define PASS BOND_ZONE_WORD_PASS
#define COND_PASS BOND_ZONE_WORD_CONDITIONAL_PASS
#define COND_FAIL BOND_ZONE_WORD_CONDITIONAL_FAIL
#define FAIL BOND_ZONE_WORD_FAIL

static const BondNumberFormat point = { '.', FALSE };

static BondBounds
upper (BondRelation relation, BondOhm nohm)
{
  return (BondBounds){ .upper = { relation, nohm, MILLI } };
}

static BondMean
mean_of (const BondOhm *nohm, int n)
{
  BondMean mean = { 0 };
  int i;

  for (i = 0; i < n; i++)
    bond_mean_add (&mean, &(BondQuantity){ .nohm = nohm[i] }, FALSE);
  return mean;
}

static BondMean
mean_of_one (BondOhm nohm)
{
  return mean_of (&nohm, 1);
}

/* The mean of what is typed, so that a test reads as the line in the field does. */
static BondMean
mean_typed (const char *line)
{
  g_auto (GStrv) parts = g_strsplit (line, " + ", -1);
  BondMean mean = { 0 };
  int i, j;

  for (i = 0; parts[i] != NULL; i++)
    {
      BondReadingText typed;

      g_assert_true (bond_reading_text_parse (parts[i], MILLI, &point, 0, 0, &typed, NULL));
      for (j = 0; j < typed.n_values; j++)
        bond_mean_add (&mean, &typed.value[j].quantity, FALSE);
      bond_reading_text_clear (&typed);
    }
  return mean;
}

static void
assert_conforms (const BondBounds *bounds, BondOhm nohm, gboolean conforms)
{
  BondMean mean = mean_of_one (nohm);

  g_assert_cmpint (bond_bounds_conform (bounds, &mean), ==, conforms);
}

/* At a published limit and a nano-ohm either side of it.  The last row is invented. */
static void
test_at_the_limit (void)
{
  static const struct
  {
    BondRelation relation;
    BondOhm limit;
    gboolean at;
    const char *source;
  } rows[] = {
    { LT, 2500000, FALSE, "AC 43.13-1B (8 Sep 1998) par. 11-188f: less than 0.0025 ohm" },
    { LE, 2500000, TRUE, "AD 2007-19-02 (f): 2.5 milliohms or less" },
    { LE, 3000000, TRUE, "AC 43.13-1B (8 Sep 1998) par. 11-189: not to exceed .003 ohm" },
    { LT, 100000000, FALSE, "TM 1-1500-204-23-4, Bonds, item k: less than 0.1 ohm" },
    { LE, 100000000, TRUE, "AD 2020-17-08 (g)(1): greater than 100 milliohms fails" },
    { LE, G_MAXINT64 - 1, TRUE, "the largest limit" },
  };
  gsize i;

  for (i = 0; i < G_N_ELEMENTS (rows); i++)
    {
      BondBounds bounds = upper (rows[i].relation, rows[i].limit);

      g_test_message ("%s", rows[i].source);
      assert_conforms (&bounds, rows[i].limit - 1, TRUE);
      assert_conforms (&bounds, rows[i].limit, rows[i].at);
      assert_conforms (&bounds, rows[i].limit + 1, FALSE);
    }
}

/* standards.md 12, rows 4 to 6: the same value under two documents. */
static void
test_same_value_two_documents (void)
{
  BondBounds faa_frame = upper (LT, 2500000);  /* AC 43.13-1B par. 11-188f */
  BondBounds ad_pump = upper (LE, 2500000);    /* AD 2007-19-02 (f) */
  BondBounds faa_jumper = upper (LE, 3000000); /* AC 43.13-1B par. 11-189 */
  BondBounds tm_frame = upper (LT, 100000000); /* TM 1-1500-204-23-4, Bonds, item k */
  BondBounds ad_panel = upper (LE, 100000000); /* AD 2020-17-08 (g)(1) */

  assert_conforms (&faa_frame, 2500000, FALSE);
  assert_conforms (&ad_pump, 2500000, TRUE);
  assert_conforms (&faa_jumper, 3000000, TRUE);
  assert_conforms (&faa_frame, 3000000, FALSE);
  assert_conforms (&tm_frame, 100000000, FALSE);
  assert_conforms (&ad_panel, 100000000, TRUE);
}

/* scenarios.md 1: 4.00 passes in service (5.0) and fails after the joint was opened (2.5). */
static void
test_two_tiers (void)
{
  static const struct
  {
    BondOhm nohm;
    gboolean in_service, strict;
    gint64 used_in_service, used_strict;
  } rows[] = {
    { 4000000, TRUE, FALSE, 800, 1600 },  { 6200000, FALSE, FALSE, 1240, 2480 }, { 3100000, TRUE, FALSE, 620, 1240 },
    { 1950000, TRUE, TRUE, 390, 780 },    { 2500000, TRUE, TRUE, 500, 1000 },    { 2500001, TRUE, FALSE, 500, 1000 },
    { 5000000, TRUE, FALSE, 1000, 2000 }, { 5000001, FALSE, FALSE, 1000, 2000 }, { 2600000, TRUE, FALSE, 520, 1040 },
  };
  BondBounds in_service = upper (LE, 5000000);
  BondBounds strict = upper (LE, 2500000);
  gsize i;

  for (i = 0; i < G_N_ELEMENTS (rows); i++)
    {
      BondMean mean = mean_of_one (rows[i].nohm);

      assert_conforms (&in_service, rows[i].nohm, rows[i].in_service);
      assert_conforms (&strict, rows[i].nohm, rows[i].strict);
      g_assert_cmpint (bond_bounds_used_permille (&in_service, &mean), ==, rows[i].used_in_service);
      g_assert_cmpint (bond_bounds_used_permille (&strict, &mean), ==, rows[i].used_strict);
    }
}

/* US patent 9,618,148: 1e5 to 1e8 Ω, as standards.md 10 and 12 row 15 give it. */
static void
test_band (void)
{
  const BondBounds band = { { LE, 100000000 * OHM, BOND_UNIT_MEGOHM }, { GE, 100000 * OHM, BOND_UNIT_KILOOHM } };
  const BondBounds open = { { LT, 100000000 * OHM, BOND_UNIT_MEGOHM }, { GT, 100000 * OHM, BOND_UNIT_KILOOHM } };
  const BondBounds lower = { { BOND_RELATION_NONE }, { GE, 100000 * OHM, BOND_UNIT_KILOOHM } };
  const BondBounds none = { { BOND_RELATION_NONE }, { BOND_RELATION_NONE } };
  BondMean mean;

  assert_conforms (&band, 50000 * OHM, FALSE);
  assert_conforms (&band, 100000 * OHM - 1, FALSE);
  assert_conforms (&band, 100000 * OHM, TRUE);
  assert_conforms (&band, 100000 * OHM + 1, TRUE);
  assert_conforms (&band, 10000000 * OHM, TRUE);
  assert_conforms (&band, 100000000 * OHM - 1, TRUE);
  assert_conforms (&band, 100000000 * OHM, TRUE);
  assert_conforms (&band, 100000000 * OHM + 1, FALSE);
  assert_conforms (&band, 200000000 * OHM, FALSE);
  assert_conforms (&band, 0, FALSE);
  assert_conforms (&band, -1000000 * OHM, FALSE);
  assert_conforms (&open, 100000 * OHM, FALSE);
  assert_conforms (&open, 100000000 * OHM, FALSE);
  assert_conforms (&open, 100000 * OHM + 1, TRUE);

  mean = mean_of_one (50000 * OHM);
  g_assert_cmpint (bond_bounds_used_permille (&band, &mean), ==, 2000);
  g_assert_cmpint (bond_bounds_used_permille (&lower, &mean), ==, 2000);
  g_assert_cmpint (bond_bounds_used_permille (&none, &mean), ==, -1);
  mean = mean_of_one (80000000 * OHM);
  g_assert_cmpint (bond_bounds_used_permille (&band, &mean), ==, 800);
  mean = mean_of_one (0);
  g_assert_cmpint (bond_bounds_used_permille (&band, &mean), ==, -1);
}

/* A halved integer would let an odd sum through. */
static void
test_odd_sums (void)
{
  static const struct
  {
    BondOhm nohm[4];
    int n;
    int side;
  } rows[] = {
    { { 2500000, 2500001 }, 2, 1 },          { { 2500000, 2500000 }, 2, 0 },
    { { 2499999, 2500000 }, 2, -1 },         { { 2500001, 2499999 }, 2, 0 },
    { { 2500000, 2500000, 2500001 }, 3, 1 }, { { 2500000, 2500000, 2499999 }, 3, -1 },
    { { -2500000, 7500000 }, 2, 0 },         { { G_MAXINT64, G_MAXINT64, G_MAXINT64, G_MAXINT64 }, 4, 1 },
  };
  BondBounds bounds = upper (LE, 2500000);
  gsize i;

  for (i = 0; i < G_N_ELEMENTS (rows); i++)
    {
      BondMean mean = mean_of (rows[i].nohm, rows[i].n);

      g_assert_cmpint (bond_mean_compare (&mean, 2500000), ==, rows[i].side);
      g_assert_cmpint (bond_bounds_conform (&bounds, &mean), ==, rows[i].side <= 0);
    }
}

/* standards.md 12, rows 1 to 3, and quotients that are no whole number of nano-ohms. */
static void
test_quotients (void)
{
  static const struct
  {
    const char *line;
    BondRelation relation;
    gboolean conforms;
  } rows[] = {
    { "2.5mV 1.0A", LE, TRUE },
    { "3.0mV 1.2A", LE, TRUE },
    { "3.0mV 1.2A", LT, FALSE },
    { "2.5mV 0.9A", LE, FALSE },
    { "2.5mV 1.1A", LE, TRUE },
    /* 0.08 nΩ above the limit, and below: rounded to a nano-ohm both would equal it */
    { "30.000001mV 12A", LE, FALSE },
    { "29.999999mV 12A", LT, TRUE },
    { "3.0mV 1.2A + 2.50", LE, TRUE },
    { "30.000001mV 12A + 2.50", LE, FALSE },
    { "29.999999mV 12A + 2.50", LT, TRUE },
  };
  gsize i;

  for (i = 0; i < G_N_ELEMENTS (rows); i++)
    {
      BondBounds bounds = upper (rows[i].relation, 2500000);
      BondMean mean = mean_typed (rows[i].line);

      g_test_message ("%s", rows[i].line);
      g_assert_cmpint (bond_bounds_conform (&bounds, &mean), ==, rows[i].conforms);
    }
}

/* Of several quotients only the span is known; a limit inside it is never met from either side. */
static void
test_several_quotients (void)
{
  static const struct
  {
    int rests[3];
    int n;
    int offset; /* sum − n × limit */
    gboolean upper_met, lower_met;
  } rows[] = {
    { { 1 }, 1, 0, FALSE, TRUE },         { { -1 }, 1, 0, TRUE, FALSE },       { { 1 }, 1, -1, TRUE, FALSE },
    { { 1, 1 }, 2, 0, FALSE, TRUE },      { { 1, 1 }, 2, -1, FALSE, FALSE },   { { 1, 1 }, 2, -2, TRUE, FALSE },
    { { -1, -1 }, 2, 0, TRUE, FALSE },    { { -1, -1 }, 2, 1, FALSE, FALSE },  { { -1, -1 }, 2, 2, FALSE, TRUE },
    { { 1, -1 }, 2, 0, FALSE, FALSE },    { { 1, -1 }, 2, 1, FALSE, TRUE },    { { 1, -1 }, 2, -1, TRUE, FALSE },
    { { 1, 1, 1 }, 3, -1, FALSE, FALSE }, { { 1, 1, 1 }, 3, -2, TRUE, FALSE }, { { 1, 0, 0 }, 3, -1, TRUE, FALSE },
  };
  const BondBounds over = { { LE, 1000, MILLI }, { BOND_RELATION_NONE } };
  const BondBounds under = { { BOND_RELATION_NONE }, { GE, 1000, MILLI } };
  gsize i;
  int j;

  for (i = 0; i < G_N_ELEMENTS (rows); i++)
    {
      BondMean mean = { 0 };

      for (j = 0; j < rows[i].n; j++)
        bond_mean_add (&mean,
                       &(BondQuantity){ .nohm = 1000 + (j == 0 ? rows[i].offset : 0), .rest = (gint8)rows[i].rests[j] },
                       FALSE);
      g_test_message ("row %" G_GSIZE_FORMAT, i);
      g_assert_cmpint (bond_bounds_conform (&over, &mean), ==, rows[i].upper_met);
      g_assert_cmpint (bond_bounds_conform (&under, &mean), ==, rows[i].lower_met);
    }
}

/* A minus shown in reverse is turned before it is added, with what was cut off. */
static void
test_negate (void)
{
  BondMean mean = { 0 };

  bond_mean_add (&mean, &(BondQuantity){ .nohm = 2600000, .rest = 1 }, FALSE);
  bond_mean_add (&mean, &(BondQuantity){ .nohm = -2200000, .rest = -1 }, TRUE);
  g_assert_cmpint (bond_mean_nohm (&mean), ==, 2400000);
  g_assert_cmpint (mean.rest, ==, 1);
  g_assert_false (mean.rest_mixed);
  bond_mean_add (&mean, &(BondQuantity){ .nohm = 2400000, .rest = -1 }, FALSE);
  g_assert_true (mean.rest_mixed);
}

/* Stored means are half-even; what a quotient cut off breaks the tie. */
static void
test_mean_nohm (void)
{
  BondMean mean = mean_of ((BondOhm[]){ 2, 3 }, 2);

  g_assert_cmpint (bond_mean_nohm (&mean), ==, 2);
  mean = mean_of ((BondOhm[]){ 3, 4 }, 2);
  g_assert_cmpint (bond_mean_nohm (&mean), ==, 4);
  mean = mean_of ((BondOhm[]){ -2, -3 }, 2);
  g_assert_cmpint (bond_mean_nohm (&mean), ==, -2);
  mean = (BondMean){ 0 };
  bond_mean_add (&mean, &(BondQuantity){ .nohm = 2, .rest = 1 }, FALSE);
  bond_mean_add (&mean, &(BondQuantity){ .nohm = 3 }, FALSE);
  g_assert_cmpint (bond_mean_nohm (&mean), ==, 3);
  mean = mean_of ((BondOhm[]){ G_MAXINT64, G_MAXINT64 }, 2);
  g_assert_cmpint (bond_mean_nohm (&mean), ==, G_MAXINT64);
}

static void
test_format (void)
{
  static const struct
  {
    const char *line;
    BondRelation relation;
    int min_decimals;
    const char *shown;
  } rows[] = {
    { "2.50 2.51", LE, 2, "2.505" },             /* scenarios.md 2, row 6 */
    { "2.49 2.51", LE, 2, "2.50" },              /* row 7: exactly at the limit */
    { "2.504", LE, 2, "2.504" },                 /* row 9 */
    { "0.03 0.04", LE, 2, "0.035" },             /* scenarios.md 3, row 7 */
    { "2.61 2.21 + 2.60 2.20", LE, 2, "2.405" }, /* scenarios.md 3, row 2 */
    { "2.49 + 2.50 + 2.52", LE, 2, "2.503" },    /* 2.50333…: two decimals would hide the fail */
    { "2.49 + 2.50 + 2.50", LE, 2, "2.497" },
    { "2.41 + 2.42 + 2.42", LE, 2, "2.42" },
    { "2.500001", LE, 2, "2.500001" },
    { "2.499999", LT, 2, "2.499999" },
    { "2.5mV 0.9A", LE, 2, "2.78" },
    { "30.000001mV 12A", LE, 2, "2.500000…" },
    { "29.999999mV 12A", LE, 2, "2.499999…" },
    { "-0.02", LE, 2, "\342\210\2220.02" },
  };
  gsize i;

  for (i = 0; i < G_N_ELEMENTS (rows); i++)
    {
      BondBounds bounds = upper (rows[i].relation, 2500000);
      BondMean mean = mean_typed (rows[i].line);
      g_autofree char *shown = bond_mean_format (&mean, MILLI, rows[i].min_decimals, &bounds, '.');

      g_test_message ("%s", rows[i].line);
      g_assert_cmpstr (shown, ==, rows[i].shown);
    }
}

/* Nearer to the limit than any print shows: cut off on its own side, and said to go on. */
static void
test_format_cut_off (void)
{
  BondBounds bounds = upper (LE, 2500000);
  BondMean above = { 0 };
  BondMean below = { 0 };
  g_autofree char *shown_above = NULL;
  g_autofree char *shown_below = NULL;
  g_autofree char *free_of_limits = NULL;

  bond_mean_add (&above, &(BondQuantity){ .nohm = 2500000, .rest = 1 }, FALSE);
  bond_mean_add (&below, &(BondQuantity){ .nohm = 2500000, .rest = -1 }, FALSE);
  shown_above = bond_mean_format (&above, MILLI, 2, &bounds, ',');
  shown_below = bond_mean_format (&below, MILLI, 2, &bounds, ',');
  free_of_limits = bond_mean_format (&above, MILLI, 2, NULL, ',');
  g_assert_cmpstr (shown_above, ==, "2,500000…");
  g_assert_cmpstr (shown_below, ==, "2,499999…");
  g_assert_cmpstr (free_of_limits, ==, "2,50");
}

/* scenarios.md 2, meter MO-1 of section B: value, verdict and zone of every row; U from the budget. */
static void
test_scenario_two (void)
{
  static const BondRange range_3m = { (char *)"3m", 3000000, 1000, TRUE, 2500, 0, 0, 3000, 10000000 };
  static const BondRange range_30m = { (char *)"30m", 30000000, 10000, TRUE, 2500, 0, 0, 10000, 10000000 };
  static const struct
  {
    BondRelation relation;
    const BondRange *range;
    const char *line;
    BondOhm nohm;
    gboolean conforms;
    BondZoneWord zone;
  } rows[] = {
    { LE, &range_30m, "2.50", 2500000, TRUE, COND_PASS },
    { LT, &range_30m, "2.50", 2500000, FALSE, COND_FAIL },
    { LE, &range_3m, "2499u", 2499000, TRUE, COND_PASS },
    { LE, &range_3m, "2501u", 2501000, FALSE, COND_FAIL },
    { LE, &range_30m, "0.0025o", 2500000, TRUE, COND_PASS },
    { LE, &range_30m, "2.50 2.51", 2505000, FALSE, COND_FAIL },
    { LE, &range_30m, "2.49 2.51", 2500000, TRUE, COND_PASS },
    { LT, &range_30m, "2.49 2.51", 2500000, FALSE, COND_FAIL },
    { LE, &range_3m, "2.504", 2504000, FALSE, COND_FAIL },
    { LE, &range_30m, "2.48", 2480000, TRUE, PASS },
    { LE, &range_30m, "2.49", 2490000, TRUE, COND_PASS },
    { LE, &range_30m, "2.51", 2510000, FALSE, COND_FAIL },
    { LE, &range_30m, "2.52", 2520000, FALSE, FAIL },
    { LE, NULL, "3.0 mV at 1.2 A", 2500000, TRUE, PASS },
    { LE, NULL, "2.5 mV at 0.9 A", 2777778, FALSE, PASS },
    { LE, NULL, "2.49 + 2.50 + 2.51", 2500000, TRUE, PASS },
    { LE, NULL, "2.49 + 2.50 + 2.52", 2503333, FALSE, PASS },
  };
  g_autoptr (BondInstrument) meter = bond_instrument_new ("i-014", 1, BOND_INSTRUMENT_MILLIOHMMETER, "MO-1");
  gsize i;

  meter->certificate_ppm = 1000;
  meter->certificate_k = 2;
  for (i = 0; i < G_N_ELEMENTS (rows); i++)
    {
      BondBounds bounds = upper (rows[i].relation, 2500000);
      BondMean mean = mean_typed (rows[i].line);
      BondBudget budget;

      g_test_message ("row %" G_GSIZE_FORMAT ": %s", i + 1, rows[i].line);
      g_assert_cmpint (bond_mean_nohm (&mean), ==, rows[i].nohm);
      g_assert_cmpint (bond_bounds_conform (&bounds, &mean), ==, rows[i].conforms);
      if (rows[i].range == NULL) /* the page gives no zone */
        continue;
      bond_budget_compute (&budget, meter, rows[i].range, (double)bond_mean_nohm (&mean), NULL, 1, NULL);
      g_assert_true (budget.known);
      g_assert_cmpint (bond_bounds_zone (&bounds, &mean, budget.u_nohm), ==, rows[i].zone);
    }
}

/* scenarios.md 2: with the placing study 2.47 becomes a conditional pass while 2.46 stays a pass. */
static void
test_placing_study (void)
{
  static const BondRange range = { (char *)"30m", 30000000, 10000, TRUE, 2500, 0, 0, 10000, 10000000 };
  const BondPlacingStudy study = { 12000, 10 };
  const BondOhm values[] = { 2460000, 2470000 };
  const BondZoneWord with[] = { PASS, COND_PASS };
  g_autoptr (BondInstrument) meter = bond_instrument_new ("i-014", 1, BOND_INSTRUMENT_MILLIOHMMETER, "MO-1");
  BondBounds bounds = upper (LE, 2500000);
  int i;

  meter->certificate_ppm = 1000;
  meter->certificate_k = 2;
  for (i = 0; i < 2; i++)
    {
      BondMean mean = mean_of_one (values[i]);
      BondBudget budget;

      bond_budget_compute (&budget, meter, &range, (double)values[i], NULL, 1, NULL);
      g_assert_cmpint (bond_bounds_zone (&bounds, &mean, budget.u_nohm), ==, PASS);
      bond_budget_compute (&budget, meter, &range, (double)values[i], NULL, 1, &study);
      g_assert_cmpint (bond_bounds_zone (&bounds, &mean, budget.u_nohm), ==, with[i]);
    }
}

/* Zones of a band, and of a limit without uncertainty: never a fifth answer. */
static void
test_zones (void)
{
  static const struct
  {
    BondRelation upper, lower;
    BondOhm nohm, u_nohm;
    BondZoneWord zone;
  } rows[] = {
    { LE, GE, 500, 10, PASS },         { LE, GE, 90, 10, COND_FAIL },   { LE, GE, 89, 10, FAIL },
    { LE, GE, 99, 10, COND_FAIL },     { LE, GE, 100, 10, COND_PASS },  { LE, GE, 109, 10, COND_PASS },
    { LE, GE, 110, 10, PASS },         { LE, GE, 990, 10, PASS },       { LE, GE, 991, 10, COND_PASS },
    { LE, GE, 1000, 10, COND_PASS },   { LE, GE, 1001, 10, COND_FAIL }, { LE, GE, 1010, 10, COND_FAIL },
    { LE, GE, 1011, 10, FAIL },        { LT, GT, 1000, 10, COND_FAIL }, { LT, GT, 100, 10, COND_FAIL },
    { LT, GT, 990, 10, PASS },         { LT, GT, 110, 10, PASS },       { LE, GE, 1000, 0, PASS },
    { LT, GT, 1000, 0, COND_FAIL },    { LE, GE, 1001, 0, FAIL },       { LE, GE, 999, 0, PASS },
    { LE, GE, 1000, 5000, COND_PASS },
  };
  gsize i;

  for (i = 0; i < G_N_ELEMENTS (rows); i++)
    {
      const BondBounds bounds = { { rows[i].upper, 1000, MILLI }, { rows[i].lower, 100, MILLI } };
      BondMean mean = mean_of_one (rows[i].nohm);

      g_test_message ("row %" G_GSIZE_FORMAT, i);
      g_assert_cmpint (bond_bounds_zone (&bounds, &mean, rows[i].u_nohm), ==, rows[i].zone);
    }
}

static void
test_rules (void)
{
  BondRule rule;

  g_assert_true (bond_rule_parse ("guarded-acceptance", &rule));
  g_assert_cmpint (rule, ==, BOND_RULE_GUARDED);
  g_assert_cmpstr (bond_rule_file_name (BOND_RULE_SIMPLE), ==, "simple-acceptance");
  g_assert_cmpstr (bond_rule_name (BOND_RULE_SIMPLE), ==, "simple acceptance");
  g_assert_false (bond_rule_parse ("simple", &rule));
}

int
main (int argc, char **argv)
{
  g_test_init (&argc, &argv, NULL);
  g_test_add_func ("/core/verdict/at-the-limit", test_at_the_limit);
  g_test_add_func ("/core/verdict/same-value-two-documents", test_same_value_two_documents);
  g_test_add_func ("/core/verdict/two-tiers", test_two_tiers);
  g_test_add_func ("/core/verdict/band", test_band);
  g_test_add_func ("/core/verdict/odd-sums", test_odd_sums);
  g_test_add_func ("/core/verdict/quotients", test_quotients);
  g_test_add_func ("/core/verdict/several-quotients", test_several_quotients);
  g_test_add_func ("/core/verdict/negate", test_negate);
  g_test_add_func ("/core/verdict/mean-nohm", test_mean_nohm);
  g_test_add_func ("/core/verdict/format", test_format);
  g_test_add_func ("/core/verdict/format-cut-off", test_format_cut_off);
  g_test_add_func ("/core/verdict/scenario-two", test_scenario_two);
  g_test_add_func ("/core/verdict/placing-study", test_placing_study);
  g_test_add_func ("/core/verdict/zones", test_zones);
  g_test_add_func ("/core/verdict/rules", test_rules);
  return g_test_run ();
}
