/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * Uncertainty budgets against worked figures.  Published examples of the GUM are in
 * test-published.c.
 */
#include "core/uncertainty.h"

#include <math.h>

/* The invented meter MO-1 of scenarios.md B: every certificate U = 0.10 % of reading, k = 2. */
static const BondRange range_3m = { (char *)"3m", 3000000, 1000, TRUE, 2500, 0, 0, 3000, 10000000 };
static const BondRange range_30m = { (char *)"30m", 30000000, 10000, TRUE, 2500, 0, 0, 10000, 10000000 };
static const BondRange range_300m = { (char *)"300m", 300000000, 100000, TRUE, 2500, 0, 0, 100000, 1000000 };

static BondInstrument *
make_meter (void)
{
  BondInstrument *meter = bond_instrument_new ("i-014", 1, BOND_INSTRUMENT_MILLIOHMMETER, "MO-1");

  meter->certificate_ppm = 1000;
  meter->certificate_k = 2;
  return meter;
}

/* As @expected to a relative 1e-9. */
static void
assert_close (double value, double expected)
{
  g_assert_cmpfloat_with_epsilon (value, expected, fabs (expected) * 1e-9);
}

/* metrology.md 2.3: the worked budget, figures computed there and given to ten digits. */
static void
test_worked_budget (void)
{
  const double readings[] = { 2413000, 2421000, 2409000, 2416000, 2418000 };
  const BondRange range = { (char *)"3m", 3000000, 1000, TRUE, 2500, 0, 3, 0, 10000000 };
  g_autoptr (BondInstrument) meter = bond_instrument_new ("i-1", 1, BOND_INSTRUMENT_MILLIOHMMETER, "X");
  BondBudget budget;

  meter->certificate_nohm = 4000;
  meter->certificate_k = 2;
  bond_budget_compute (&budget, meter, &range, 2415400, readings, 5, NULL);

  g_assert_true (budget.known);
  g_assert_false (budget.placing_included);
  g_assert_cmpint (budget.n_lines, ==, 4);
  g_assert_cmpint (budget.line[0].source, ==, BOND_BUDGET_ACCURACY);
  assert_close (budget.line[0].half_width, 9038.5);
  assert_close (budget.line[0].u, 5218.38040412);
  g_assert_cmpint (budget.line[1].source, ==, BOND_BUDGET_RESOLUTION);
  assert_close (budget.line[1].u, 288.675134595);
  g_assert_cmpint (budget.line[2].source, ==, BOND_BUDGET_CERTIFICATE);
  assert_close (budget.line[2].u, 2000);
  g_assert_cmpint (budget.line[3].source, ==, BOND_BUDGET_REPEATS);
  assert_close (budget.line[3].half_width, 4615.19230368);
  assert_close (budget.line[3].u, 2063.97674406);
  g_assert_cmpfloat (budget.line[3].dof, ==, 4);
  /* The page prints these with eight to eleven digits: a half in the last one is the tolerance. */
  g_assert_cmpfloat_with_epsilon (budget.u_c, 5964.4637, 0.00005);
  g_assert_cmpfloat_with_epsilon (budget.dof_eff, 278.950, 0.0005);
  g_assert_cmpfloat (budget.k, ==, 2);
  g_assert_cmpfloat_with_epsilon (budget.expanded, 11928.927, 0.0005);
  g_assert_cmpint (budget.u_nohm, ==, 11929);
  /* From exact squares: a²/3 + q²/12 + 2000² + s²/5 with s² = 21.3e6 nΩ². */
  assert_close (budget.u_c, sqrt (9038.5 * 9038.5 / 3 + 1e6 / 12 + 4e6 + 21.3e6 / 5));
}

/* scenarios.md B, printed to three or four digits. */
static void
test_scenario_figures (void)
{
  static const struct
  {
    const BondRange *range;
    double mean;
    double expanded, tolerance;
  } rows[] = {
    { &range_30m, 2400000, 19500, 50 },  { &range_30m, 2500000, 19800, 50 },     { &range_30m, 4000000, 24100, 50 },
    { &range_3m, 2500000, 11000, 50 },   { &range_300m, 42300000, 248000, 500 }, { &range_30m, 2480000, 19700, 50 },
    { &range_30m, -2480000, 19700, 50 },
  };
  g_autoptr (BondInstrument) meter = make_meter ();
  gsize i;

  for (i = 0; i < G_N_ELEMENTS (rows); i++)
    {
      BondBudget budget;

      bond_budget_compute (&budget, meter, rows[i].range, rows[i].mean, NULL, 1, NULL);
      g_assert_true (budget.known);
      g_assert_cmpfloat (budget.k, ==, 2);
      g_assert_true (isinf (budget.dof_eff));
      g_assert_cmpfloat_with_epsilon (budget.expanded, rows[i].expanded, rows[i].tolerance);
      g_assert_cmpfloat ((double)budget.u_nohm, >=, budget.expanded);
      g_assert_cmpfloat ((double)budget.u_nohm, <, budget.expanded + 1);
    }
}

/*
 * scenarios.md 2: a placing study of s = 0.012 mΩ, n = 10, makes 2 u_c(2.47) = 0.0311 mΩ.  ν_eff is 25 there, so
 * the k of design.md 3.9 is 2.105 and U a little larger than that page's 2 u_c.
 */
static void
test_placing_study (void)
{
  const BondPlacingStudy study = { 12000, 10 };
  const BondPlacingStudy none = { 12000, 0 };
  g_autoptr (BondInstrument) meter = make_meter ();
  BondBudget budget;

  bond_budget_compute (&budget, meter, &range_30m, 2470000, NULL, 1, &study);
  g_assert_true (budget.placing_included);
  g_assert_cmpint (budget.n_lines, ==, 4);
  g_assert_cmpint (budget.line[3].source, ==, BOND_BUDGET_PLACING);
  g_assert_cmpfloat (budget.line[3].dof, ==, 9);
  g_assert_cmpfloat_with_epsilon (2 * budget.u_c, 31100, 100);
  g_assert_cmpint ((int)budget.dof_eff, ==, 25);
  g_assert_cmpfloat_with_epsilon (budget.k, 2.105, 0.001);

  bond_budget_compute (&budget, meter, &range_30m, 2470000, NULL, 1, &none);
  g_assert_false (budget.placing_included);
  g_assert_cmpint (budget.n_lines, ==, 3);
}

static void
test_unknown (void)
{
  BondRange range = range_30m;
  g_autoptr (BondInstrument) meter = make_meter ();
  BondBudget budget;

  range.accuracy_known = FALSE;
  bond_budget_compute (&budget, meter, &range, 2400000, NULL, 1, NULL);
  g_assert_false (budget.known);
  g_assert_cmpint (budget.u_nohm, ==, 0);
  bond_budget_compute (&budget, NULL, NULL, 2400000, NULL, 1, NULL);
  g_assert_false (budget.known);
  g_assert_cmpint (budget.n_lines, ==, 0);
  bond_budget_compute (&budget, meter, &range_30m, NAN, NULL, 1, NULL);
  g_assert_false (budget.known);
  bond_budget_compute (&budget, meter, &range_30m, INFINITY, NULL, 1, NULL);
  g_assert_false (budget.known);
}

/* Identical repeats have s = 0; the display step must remain (JCGM 100:2008 F.2.2.1: u = q/(2√3), 0.29 q). */
static void
test_identical_repeats (void)
{
  const double readings[] = { 2400000, 2400000, 2400000 };
  const BondRange range = { (char *)"30m", 30000000, 10000, TRUE, 0, 0, 0, 0, 0 };
  BondBudget budget;

  bond_budget_compute (&budget, NULL, &range, 2400000, readings, 3, NULL);
  g_assert_true (budget.known);
  assert_close (budget.u_c, 2886.75134594813);
  g_assert_true (isinf (budget.dof_eff));
  g_assert_cmpint (budget.u_nohm, ==, 5774);
}

static void
test_certificate (void)
{
  g_autoptr (BondInstrument) meter = make_meter ();
  BondBudget budget;

  meter->certificate_k = 0;
  bond_budget_compute (&budget, meter, &range_30m, 2400000, NULL, 1, NULL);
  g_assert_cmpint (budget.n_lines, ==, 2);
  g_assert_false (budget.known); /* 0.10 % of what k? */
  g_assert_cmpint (budget.u_nohm, ==, 0);
  meter->certificate_k = 3;
  meter->certificate_nohm = 600;
  meter->certificate_dof = 8;
  bond_budget_compute (&budget, meter, &range_30m, 2400000, NULL, 1, NULL);
  g_assert_cmpint (budget.n_lines, ==, 3);
  assert_close (budget.line[2].u, 1000);
  g_assert_cmpfloat (budget.line[2].dof, ==, 8);
  g_assert_true (isfinite (budget.dof_eff));
}

/* A single line's own ν must come back whole: 4 − 1e-15 is 4, not 3. */
static void
test_whole_dof (void)
{
  int n;

  for (n = 1; n < 50; n++)
    {
      double u = 0.1 * n;
      double dof = n;
      double dof_eff = bond_welch_satterthwaite (u, &u, &dof, 1);

      g_assert_cmpfloat (bond_coverage_factor (dof_eff), ==, bond_coverage_factor (n));
      g_assert_cmpfloat (bond_coverage_factor (n + 0.999), ==, bond_coverage_factor (n));
      if (n > 1)
        g_assert_cmpfloat (bond_coverage_factor (n), <, bond_coverage_factor (n - 1));
    }
  g_assert_cmpfloat (bond_coverage_factor (50), ==, 2);
  g_assert_cmpfloat (bond_coverage_factor (49.99), >, 2.05);
  g_assert_cmpfloat (bond_coverage_factor (INFINITY), ==, 2);
  g_assert_cmpfloat (bond_coverage_factor (0.3), ==, bond_coverage_factor (1));
}

static void
test_names (void)
{
  int i;

  for (i = 0; i < BOND_BUDGET_MAX_LINES; i++)
    g_assert_cmpuint (strlen (bond_budget_source_name (i)), >, 0);
}

/* The budget as it is printed, in both marks. */
static void
test_words (void)
{
  static const struct
  {
    double nohm;
    char mark;
    gboolean with_unit;
    const char *text;
  } parts[] = {
    { 13500, '.', TRUE, "0.0135\u00a0mΩ" }, { 7794.2, ',', FALSE, "0,00779" }, { 0, '.', FALSE, "0.000" },
    { 1234567, '.', FALSE, "1.23" },        { 123456789, '.', FALSE, "123" },
  };
  static const struct
  {
    double divisor;
    const char *text;
  } divisors[] = { { 1.7320508075688772, "√3" }, { 3.4641016151377544, "2√3" }, { 2, "2" }, { 3.16227766, "3,162" } };

  for (gsize i = 0; i < G_N_ELEMENTS (parts); i++)
    {
      g_autofree char *text
          = bond_budget_format_part (parts[i].nohm, BOND_UNIT_MILLIOHM, parts[i].mark, parts[i].with_unit);
      g_assert_cmpstr (text, ==, parts[i].text);
    }
  for (gsize i = 0; i < G_N_ELEMENTS (divisors); i++)
    {
      g_autofree char *text = bond_budget_format_divisor (divisors[i].divisor, ',');
      g_assert_cmpstr (text, ==, divisors[i].text);
    }
  for (int i = 0; i < 3; i++)
    {
      static const double dof[] = { 9, 12.44, INFINITY };
      static const char *const words[] = { "9", "12.4", "∞" };
      g_autofree char *text = bond_budget_format_dof (dof[i], '.');

      g_assert_cmpstr (text, ==, words[i]);
    }
  g_assert_cmpstr (bond_budget_source_shape (BOND_BUDGET_RESOLUTION), ==, "rectangular");
  g_assert_cmpstr (bond_budget_source_shape (BOND_BUDGET_REPEATS), ==, "normal");
}

int
main (int argc, char **argv)
{
  g_test_init (&argc, &argv, NULL);
  g_test_add_func ("/core/uncertainty/worked-budget", test_worked_budget);
  g_test_add_func ("/core/uncertainty/scenario-figures", test_scenario_figures);
  g_test_add_func ("/core/uncertainty/placing-study", test_placing_study);
  g_test_add_func ("/core/uncertainty/unknown", test_unknown);
  g_test_add_func ("/core/uncertainty/identical-repeats", test_identical_repeats);
  g_test_add_func ("/core/uncertainty/certificate", test_certificate);
  g_test_add_func ("/core/uncertainty/whole-dof", test_whole_dof);
  g_test_add_func ("/core/uncertainty/names", test_names);
  g_test_add_func ("/core/uncertainty/words", test_words);
  return g_test_run ();
}
