/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * Bond paths: the exact sum of the values of record, the uncertainty of a sum made
 * with one meter, and when there is no path at all.  The scenario's own paths are in
 * test-scenario-7.c; the figures here are invented or arithmetic.
 */
#include "core/bond-path.h"
#include "hangar.h"
#include <math.h>

#define MAX_JOINTS 8

static const BondLimitRow *
row_of (Hangar *h, const char *code)
{
  return bond_limit_set_find (g_ptr_array_index (bond_survey_get_limit_sets (h->survey), 0), code);
}

/* Places and reads 541-J01 … with @texts; a NULL text is left unread. */
static guint
read_joints (Hangar *h, const char *const *texts, guint n, BondPathJoint *joints)
{
  guint i;

  for (i = 0; i < n; i++)
    {
      g_autofree char *number = g_strdup_printf ("541-J%02u", i + 1);

      joints[i] = (BondPathJoint){ hangar_point (h, number, "J2"), NULL };
      if (texts[i] != NULL)
        hangar_read (h, number, texts[i]);
    }
  return n;
}

typedef struct
{
  const char *texts[MAX_JOINTS];
  BondQualifier qualifier;
  gint64 twice_nohm; /* of the sum */
  gboolean conforms;
} Case;

/* P1: ≤ 10 mΩ. */
static const Case cases[] = {
  { { "2.50", "2.50", "2.50", "2.50" }, BOND_QUALIFIER_NONE, 20000000, TRUE },
  { { "2.50", "2.50", "2.50", "2.51" }, BOND_QUALIFIER_NONE, 20020000, FALSE },
  { { "2.50 2.51", "2.50", "2.50", "2.49" }, BOND_QUALIFIER_NONE, 19990000, TRUE },
  { { "2.50 2.51", "2.50 2.51", "2.50", "2.50" }, BOND_QUALIFIER_NONE, 20020000, FALSE },
  { { "2.50 2.51", "2.50", "2.50", "2.50" }, BOND_QUALIFIER_NONE, 20010000, FALSE },
  { { "<0.01", "2.00" }, BOND_QUALIFIER_BELOW, 4020000, TRUE },
  { { ">30", "2.00" }, BOND_QUALIFIER_OVER, 64000000, FALSE },
  { { ">30", "<0.01" }, BOND_QUALIFIER_OVER, 60000000, FALSE },
};

static void
test_sums (void)
{
  gsize i;

  for (i = 0; i < G_N_ELEMENTS (cases); i++)
    {
      g_autoptr (Hangar) h = hangar_new (BOND_RULE_SIMPLE);
      g_autoptr (BondPathResult) path = NULL;
      BondPathJoint joints[MAX_JOINTS];
      guint n = 0;

      while (n < MAX_JOINTS && cases[i].texts[n] != NULL)
        n++;
      h->confirmed = TRUE;
      read_joints (h, cases[i].texts, n, joints);
      path = bond_path_judge (joints, n, row_of (h, "P1"), BOND_RULE_SIMPLE);
      g_assert_cmpint (path->fault, ==, BOND_PATH_FAULT_NONE);
      g_assert_cmpint (path->sum->outcome, ==, BOND_OUTCOME_JUDGED);
      g_assert_cmpint (path->sum->qualifier, ==, cases[i].qualifier);
      g_assert_true (2 * path->sum->mean.sum == (__int128)cases[i].twice_nohm * path->sum->mean.count);
      g_assert_cmpint (path->sum->conforms, ==, cases[i].conforms);
    }
}

/* Three quotients of 10/3 mΩ and one of a whole number: what was cut off keeps its sign in the sum. */
static void
test_quotients (void)
{
  g_autoptr (Hangar) h = hangar_new (BOND_RULE_SIMPLE);
  g_autoptr (BondPathResult) path = NULL;
  static const char *const texts[] = { "10.0mV 3.0A", "10.0mV 3.0A", "10.0mV 3.0A" };
  BondPathJoint joints[3];
  guint i;

  for (i = 0; i < 3; i++)
    {
      g_autofree char *number = g_strdup_printf ("541-J%02u", i + 1);
      BondEntry *entry;

      joints[i].point = hangar_point (h, number, "J1");
      joints[i].place = NULL;
      entry = hangar_reading (h, number, "3.33", BOND_DIRECTION_FORWARD, NULL);
      entry->reading.nanovolt = 10000000;
      entry->reading.microampere = 3000000;
      g_free (entry->reading.text);
      entry->reading.text = g_strdup (texts[i]);
      g_assert_true (bond_ohm_from_quotient (10000000, 3000000, &entry->reading.quantity, NULL));
      hangar_record (h, entry);
    }
  path = bond_path_judge (joints, 3, row_of (h, "P1"), BOND_RULE_SIMPLE);
  /* 9 999 999 nΩ and three parts of up to half a nano-ohm: whether it is above 10 mΩ is open, so it is not met. */
  g_assert_true (path->sum->mean.sum == 9999999);
  g_assert_cmpint (path->sum->mean.n_rest, ==, 3);
  g_assert_false (path->sum->conforms);
}

typedef struct
{
  BondPathFault fault;
  guint at;
  const char *words;
} Fault;

static void
expect_fault (Hangar *h, const BondPathJoint *joints, guint n, const char *row, const Fault *should)
{
  g_autoptr (BondPathResult) path = bond_path_judge (joints, n, row_of (h, row), BOND_RULE_SIMPLE);
  g_autofree char *words = bond_path_fault_words (path, joints);

  g_assert_cmpint (path->fault, ==, should->fault);
  g_assert_cmpint (path->sum->outcome, ==, BOND_OUTCOME_NONE);
  g_assert_cmpint (path->sum->mean.count, ==, 0);
  g_assert_true (path->sum->mean.sum == 0); /* never a sum of the rest */
  g_assert_false (path->sum->conforms);
  if (should->fault == BOND_PATH_FAULT_NONE)
    return;
  g_assert_cmpint (path->at, ==, should->at);
  g_assert_nonnull (strstr (words, should->words));
}

static void
test_faults (void)
{
  g_autoptr (Hangar) h = hangar_new (BOND_RULE_SIMPLE);
  static const char *const texts[] = { "1.00", "1.00", NULL, "1.00" };
  BondPathJoint joints[6];

  read_joints (h, texts, 4, joints);
  expect_fault (h, joints, 0, "P1", &(Fault){ BOND_PATH_FAULT_EMPTY, 0, "no joint" });
  expect_fault (h, joints, 4, "P1", &(Fault){ BOND_PATH_FAULT_NOT_MEASURED, 2, "541-J03" });
  expect_fault (h, joints, 2, "J1", &(Fault){ BOND_PATH_FAULT_SCOPE, 0, "one joint" });
  joints[2] = joints[0];
  expect_fault (h, joints, 3, "P1", &(Fault){ BOND_PATH_FAULT_TWICE, 2, "541-J01" });

  /* A joint reworked and not measured again, one no longer accessible: what was read before is no value of it now. */
  hangar_rework (h, "541-J02", BOND_REWORK_SURFACES_CLEANED);
  expect_fault (h, joints, 2, "P1", &(Fault){ BOND_PATH_FAULT_NOT_MEASURED, 1, "541-J02" });
  hangar_mark (h, "541-J01", BOND_POINT_MARK_NOT_ACCESSIBLE, "panel corroded on");
  expect_fault (h, joints, 1, "P1", &(Fault){ BOND_PATH_FAULT_NOT_MEASURED, 0, "541-J01" });

  /* Bolts beside each other are no joints one after the other: the path runs through one that is named. */
  joints[4].point = hangar_point (h, "541-F01", "F1");
  joints[4].place = NULL;
  hangar_add_place (h, "541-F01", "b-1", TRUE);
  hangar_add_place (h, "541-F01", "b-2", TRUE);
  h->place = "b-1";
  hangar_read (h, "541-F01", "1.00");
  joints[4].point = hangar_find (h, "541-F01");
  expect_fault (h, &joints[4], 1, "P1", &(Fault){ BOND_PATH_FAULT_PLACE, 0, "541-F01" });
  joints[4].place = "b-9";
  expect_fault (h, &joints[4], 1, "P1", &(Fault){ BOND_PATH_FAULT_PLACE, 0, "541-F01" });
  joints[4].place = "b-2";
  expect_fault (h, &joints[4], 1, "P1", &(Fault){ BOND_PATH_FAULT_NOT_MEASURED, 0, "541-F01" });
  joints[4].place = "b-1";
  {
    g_autoptr (BondPathResult) path = bond_path_judge (&joints[4], 1, row_of (h, "P1"), BOND_RULE_SIMPLE);

    g_assert_cmpint (path->fault, ==, BOND_PATH_FAULT_NONE);
    g_assert_null (bond_path_fault_words (path, joints));
    g_assert_true (path->sum->conforms);
  }
}

/* Prime counts of repeats have a common count beyond any: refused rather than rounded. */
static void
test_too_many_counts (void)
{
  g_autoptr (Hangar) h = hangar_new (BOND_RULE_SIMPLE);
  static const int counts[] = { 97, 89, 83, 79, 73 };
  static const char *texts[BOND_MAX_PLANNED];
  BondPathJoint joints[5];
  guint i;

  for (i = 0; i < G_N_ELEMENTS (texts); i++)
    texts[i] = "1.00";
  for (i = 0; i < 5; i++)
    {
      g_autofree char *number = g_strdup_printf ("541-J%02u", i + 1);

      joints[i] = (BondPathJoint){ hangar_point (h, number, "J2"), NULL };
      hangar_read_planned (h, number, texts, counts[i]);
    }
  expect_fault (h, joints, 5, "P1", &(Fault){ BOND_PATH_FAULT_SUM, 0, "repeats" });
  {
    g_autoptr (BondPathResult) path = bond_path_judge (joints, 3, row_of (h, "P1"), BOND_RULE_SIMPLE);

    g_assert_cmpint (path->sum->mean.count, ==, 97 * 89 * 83);
    g_assert_cmpint (bond_mean_nohm (&path->sum->mean), ==, UOHM (3000));
  }
}

/* Two meters: each one's accuracy in full within its joints, apart from each other. */
static void
test_two_meters (void)
{
  g_autoptr (Hangar) h = hangar_new (BOND_RULE_SIMPLE);
  g_autoptr (BondPathResult) path = NULL;
  static const char *const texts[] = { NULL, NULL, NULL, NULL };
  static const char *const values[] = { "2.49", "2.49", "2.49", "2.47" };
  BondPathJoint joints[4];
  guint i;

  read_joints (h, texts, 4, joints);
  for (i = 0; i < 4; i++)
    {
      hangar_take (h, i < 2 ? "MO-1" : "MO-3", "30m");
      hangar_read (h, bond_point_get_number (joints[i].point), values[i]);
    }
  path = bond_path_judge (joints, 4, row_of (h, "P1"), BOND_RULE_SIMPLE);
  g_assert_cmpint (path->sum->budget.u_nohm, ==, 54422);
  g_assert_cmpint (path->sum->budget.n_lines, ==, 3);
  g_assert_cmpfloat (path->sum->budget.k, ==, 2);
  g_assert_cmpuint (path->sum->readings->len, ==, 4);
}

/* One joint without an instrument: U of the path is unknown, and under guarded acceptance there is no verdict. */
static void
test_u_unknown (void)
{
  g_autoptr (Hangar) h = hangar_new (BOND_RULE_SIMPLE);
  g_autoptr (BondPathResult) simple = NULL;
  g_autoptr (BondPathResult) guarded = NULL;
  static const char *const texts[] = { "1.00", NULL };
  BondPathJoint joints[2];

  read_joints (h, texts, 2, joints);
  hangar_take (h, NULL, NULL);
  hangar_read (h, "541-J02", "1.00");
  simple = bond_path_judge (joints, 2, row_of (h, "P1"), BOND_RULE_SIMPLE);
  g_assert_false (simple->sum->budget.known);
  g_assert_true (simple->sum->conforms);
  guarded = bond_path_judge (joints, 2, row_of (h, "P1"), BOND_RULE_GUARDED);
  g_assert_cmpint (guarded->sum->outcome, ==, BOND_OUTCOME_NO_VERDICT);
  g_assert_cmpint (guarded->sum->reason, ==, BOND_REASON_U_UNKNOWN);
}

/* The stricter value of a path row holds once any joint was touched; without a row the sum is recorded. */
static void
test_tier (void)
{
  g_autoptr (Hangar) h = hangar_new (BOND_RULE_SIMPLE);
  g_autoptr (BondLimitRow) row = bond_limit_row_new ();
  g_autoptr (BondPathResult) before = NULL;
  g_autoptr (BondPathResult) after = NULL;
  g_autoptr (BondPathResult) bare = NULL;
  static const char *const texts[] = { "2.00", "2.00" };
  BondPathJoint joints[2];

  row->code = g_strdup ("P2");
  row->scope = BOND_SCOPE_PATH;
  row->in_service.upper = (BondBound){ BOND_RELATION_LE, UOHM (5000), BOND_UNIT_MILLIOHM };
  row->has_strict = TRUE;
  row->strict.upper = (BondBound){ BOND_RELATION_LE, UOHM (3500), BOND_UNIT_MILLIOHM };
  read_joints (h, texts, 2, joints);
  before = bond_path_judge (joints, 2, row, BOND_RULE_SIMPLE);
  g_assert_true (before->sum->conforms);
  hangar_condition (h, "541-J02", BOND_CONDITION_OPENED);
  hangar_read (h, "541-J02", "2.00");
  after = bond_path_judge (joints, 2, row, BOND_RULE_SIMPLE);
  g_assert_cmpint (after->sum->condition, ==, BOND_CONDITION_OPENED);
  g_assert_false (after->sum->conforms);
  bare = bond_path_judge (joints, 2, NULL, BOND_RULE_SIMPLE);
  g_assert_cmpint (bare->sum->outcome, ==, BOND_OUTCOME_RECORDED);
  g_assert_true (bare->sum->mean.sum == UOHM (4000));
}

/* Type A parts stay independent and keep their degrees of freedom. */
static void
test_budget_sum (void)
{
  BondBudget a = { .known = TRUE, .n_lines = 2, .placing_included = TRUE }, b = a, sum;
  const BondBudget *both[] = { &a, &b };
  const char *one[] = { "m", "m" }, *two[] = { "m", "n" };

  a.line[0] = (BondBudgetLine){ BOND_BUDGET_ACCURACY, 3, 1, 3, INFINITY };
  a.line[1] = (BondBudgetLine){ BOND_BUDGET_PLACING, 6, 1, 6, 9 };
  b.line[0] = (BondBudgetLine){ BOND_BUDGET_ACCURACY, 4, 1, 4, INFINITY };
  b.line[1] = (BondBudgetLine){ BOND_BUDGET_PLACING, 8, 1, 8, 9 };
  bond_budget_sum (&sum, both, one, 2);
  g_assert_cmpfloat_with_epsilon (sum.u_c, sqrt (7 * 7 + 10 * 10), 1e-12);
  g_assert_cmpfloat_with_epsilon (sum.line[1].dof, 9 * 10000.0 / (1296 + 4096), 1e-9); /* JCGM 100 G.2b */
  g_assert_cmpfloat_with_epsilon (sum.dof_eff, 149.0 * 149 * 9 / (1296 + 4096), 1e-9);
  g_assert_true (sum.placing_included && sum.known);
  bond_budget_sum (&sum, both, two, 2);
  g_assert_cmpfloat_with_epsilon (sum.u_c, sqrt (25 + 100), 1e-12);
  b.known = FALSE;
  b.placing_included = FALSE;
  bond_budget_sum (&sum, both, one, 2);
  g_assert_false (sum.known || sum.placing_included);
  g_assert_cmpint (sum.u_nohm, ==, 0);
  bond_budget_sum (&sum, NULL, NULL, 0);
  g_assert_false (sum.known);
  g_assert_cmpuint (strlen (bond_budget_sum_rule ()), >, 20);
}

int
main (int argc, char *argv[])
{
  g_test_init (&argc, &argv, NULL);
  g_test_add_func ("/core/bond-path/sums", test_sums);
  g_test_add_func ("/core/bond-path/quotients", test_quotients);
  g_test_add_func ("/core/bond-path/faults", test_faults);
  g_test_add_func ("/core/bond-path/too-many-counts", test_too_many_counts);
  g_test_add_func ("/core/bond-path/two-meters", test_two_meters);
  g_test_add_func ("/core/bond-path/u-unknown", test_u_unknown);
  g_test_add_func ("/core/bond-path/tier", test_tier);
  g_test_add_func ("/core/bond-path/budget-sum", test_budget_sum);
  return g_test_run ();
}
