/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * The seventh worked day: connectors, parallel paths, two-legged straps, what is seen
 * beside what is measured, and paths of several joints.  Row by row; everything in it
 * is invented.
 */
#include "core/bond-path.h"
#include "core/parallel.h"
#include "hangar.h"

static BondEntry *
accept_deviation (Hangar *h, const BondEntry *reading, const char *holder, const char *reason)
{
  BondEntry *entry = bond_entry_new (BOND_ENTRY_DEVIATION);

  entry->point = g_strdup (reading->point);
  entry->ref = g_strdup (reading->id);
  entry->deviation.holder = g_strdup (holder);
  entry->reason = g_strdup (reason);
  return entry;
}

static const BondHistoryItem *
history_item (Hangar *h, const char *number, guint nth)
{
  GPtrArray *history = hangar_result (h, number)->history;

  g_assert_cmpuint (nth, <, history->len);
  return g_ptr_array_index (history, nth);
}

/* Rows 1 and 2: measured with the connectors mated, then as the limit asks. */
static void
test_mated (void)
{
  g_autoptr (Hangar) h = hangar_new (BOND_RULE_SIMPLE);

  hangar_point (h, "131-E01", "E1");
  h->connectors = BOND_CONNECTORS_MATED;
  hangar_read (h, "131-E01", "1.20");
  hangar_expect_last (h, "131-E01", BOND_OUTCOME_NO_VERDICT, BOND_REASON_WRONG_STATE);
  hangar_expect_state (h, "131-E01", BOND_STATE_REMEASURE);
  g_assert_false (hangar_result (h, "131-E01")->conforms);

  h->connectors = BOND_CONNECTORS_UNMATED;
  hangar_read (h, "131-E01", "2.60");
  hangar_expect_state (h, "131-E01", BOND_STATE_FAIL);
  hangar_expect_value (h, "131-E01", UOHM (2600));
  g_assert_cmpint (hangar_used_permille (h, "131-E01"), ==, 1040);
  /* The reading that flattered it is kept, with its figure and without a verdict. */
  g_assert_cmpuint (hangar_result (h, "131-E01")->history->len, ==, 2);
  g_assert_cmpint (bond_mean_nohm (&history_item (h, "131-E01", 0)->measurement->mean), ==, UOHM (1200));
  g_assert_cmpint (history_item (h, "131-E01", 0)->measurement->outcome, ==, BOND_OUTCOME_NO_VERDICT);
}

/* Rows 1 and 3, the other way out: a named person accepts the state it was measured in, and says why. */
static void
test_deviation (void)
{
  g_autoptr (Hangar) h = hangar_new (BOND_RULE_SIMPLE);
  BondEntry *reading;

  hangar_point (h, "231-E04", "E1");
  h->connectors = BOND_CONNECTORS_MATED; /* the coax is still on */
  reading = hangar_read (h, "231-E04", "1.20");
  hangar_expect_last (h, "231-E04", BOND_OUTCOME_NO_VERDICT, BOND_REASON_WRONG_STATE);
  hangar_refused (h, accept_deviation (h, reading, NULL, "coax cannot be reached"), BOND_SURVEY_ERROR_REASON);
  hangar_refused (h, accept_deviation (h, reading, "A. Sato", NULL), BOND_SURVEY_ERROR_REASON);
  hangar_expect_state (h, "231-E04", BOND_STATE_REMEASURE);

  hangar_record (h, accept_deviation (h, reading, "A. Sato", "coax cannot be reached"));
  hangar_expect_state (h, "231-E04", BOND_STATE_PASS);
  hangar_expect_value (h, "231-E04", UOHM (1200));
  g_assert_cmpint (history_item (h, "231-E04", 1)->entry->kind, ==, BOND_ENTRY_DEVIATION);
  g_assert_cmpstr (history_item (h, "231-E04", 1)->entry->deviation.holder, ==, "A. Sato");

  /* It was given for that reading and for no other. */
  hangar_read (h, "231-E04", "1.30");
  hangar_expect_last (h, "231-E04", BOND_OUTCOME_NO_VERDICT, BOND_REASON_WRONG_STATE);
}

/* Row 4: a jumper in place passes with that mark; what it would be alone is worked out beside it. */
static void
test_in_place (void)
{
  g_autoptr (Hangar) h = hangar_new (BOND_RULE_SIMPLE);
  g_autofree char *alone_text = NULL;
  const BondMeasurement *m;
  BondOhm alone = 0;

  hangar_point (h, "551-J01", "J1");
  h->mounting = BOND_MOUNTING_IN_PLACE;
  hangar_read (h, "551-J01", "1.87");
  hangar_expect_state (h, "551-J01", BOND_STATE_PASS);
  m = hangar_result (h, "551-J01")->decides;
  g_assert_cmpint (bond_entry_get_reading (m->readings->pdata[0])->mounting, ==, BOND_MOUNTING_IN_PLACE);
  g_assert_true (bond_parallel_alone (bond_mean_nohm (&m->mean), UOHM (3000), &alone, NULL));
  alone_text = bond_ohm_format (alone, BOND_UNIT_MILLIOHM, 2, '.');
  g_assert_cmpstr (alone_text, ==, "4.96");
  hangar_expect_value (h, "551-J01", UOHM (1870)); /* it changes nothing */
}

/* Row 5: one end freed: the jumper itself in service, the connection made anew on the stricter tier. */
static void
test_freed_end (void)
{
  g_autoptr (Hangar) h = hangar_new (BOND_RULE_SIMPLE);

  hangar_point (h, "551-J01", "J1");
  h->mounting = BOND_MOUNTING_ISOLATED;
  hangar_read (h, "551-J01", "5.00");
  hangar_expect_state (h, "551-J01", BOND_STATE_PASS);
  g_assert_cmpint (hangar_used_permille (h, "551-J01"), ==, 1000);
  g_assert_true (hangar_result (h, "551-J01")->freed); /* which the walk does not let pass */
  g_assert_true (bond_survey_next_open (h->survey, NULL) == hangar_find (h, "551-J01"));
  hangar_condition (h, "551-J01", BOND_CONDITION_OPENED);
  g_assert_false (hangar_result (h, "551-J01")->freed);
  hangar_expect_state (h, "551-J01", BOND_STATE_REMEASURE);
  hangar_expect_tier (h, "551-J01", BOND_CONDITION_OPENED, UOHM (2500));
  h->mounting = BOND_MOUNTING_IN_PLACE;
  hangar_read (h, "551-J01", "2.60");
  hangar_expect_state (h, "551-J01", BOND_STATE_FAIL);
  g_assert_cmpint (hangar_result (h, "551-J01")->rejects_opened, ==, 1);
  g_assert_cmpint (hangar_result (h, "551-J01")->rejects_as_found, ==, 0);
  hangar_rework (h, "551-J01", BOND_REWORK_TORQUE_RESTORED);
  hangar_read (h, "551-J01", "1.87");
  hangar_expect_state (h, "551-J01", BOND_STATE_PASS_AFTER_REWORK);
}

/* Row 6: both legs in parallel measure well with one of them broken; what is seen decides, and the note says why. */
static void
test_broken_leg (void)
{
  g_autoptr (Hangar) h = hangar_new (BOND_RULE_SIMPLE);
  g_autofree char *note = NULL;
  BondTotals totals;

  hangar_point (h, "713-J02", "J1");
  hangar_read (h, "713-J02", "2.00");
  hangar_expect_state (h, "713-J02", BOND_STATE_PASS);
  hangar_visual (h, "713-J02", BOND_VISUAL_LEG_BROKEN, TRUE);
  hangar_expect_state (h, "713-J02", BOND_STATE_FAIL);
  g_assert_true (hangar_result (h, "713-J02")->visual_reject);
  g_assert_true (hangar_result (h, "713-J02")->decides->conforms); /* the resistance does */
  note = bond_strap_note (hangar_result (h, "713-J02"), 2, BOND_UNIT_MILLIOHM, 2, '.');
  g_assert_cmpstr (note, ==, "One leg of 2.00\u00a0mΩ alone reads the same; 2 good legs would read 1.00\u00a0mΩ.");
  bond_survey_totals (h->survey, &totals);
  g_assert_cmpint (totals.rejects_visual, ==, 1);
  g_assert_cmpint (totals.rejects_as_found, ==, 0);
  g_assert_cmpint (totals.fail, ==, 1);
}

/* Row 7: legs measured one by one: one of them fails and with it the group. */
static void
test_three_legs (void)
{
  g_autoptr (Hangar) h = hangar_new (BOND_RULE_SIMPLE);
  static const char *const legs[] = { "a", "b", "c" };
  static const char *const texts[] = { "0.90", "1.00", ">30" };
  BondPoint *point;
  guint i;

  hangar_point (h, "713-J03", "J1");
  for (i = 0; i < G_N_ELEMENTS (legs); i++)
    hangar_add_place (h, "713-J03", legs[i], TRUE);
  for (i = 0; i < G_N_ELEMENTS (legs); i++)
    {
      h->place = legs[i];
      hangar_read (h, "713-J03", texts[i]);
      hangar_expect_state (h, "713-J03", i < 2 ? BOND_STATE_PASS : BOND_STATE_FAIL);
    }
  point = hangar_find (h, "713-J03");
  g_assert_cmpint (bond_point_get_state (point), ==, BOND_STATE_FAIL);
  g_assert_cmpstr (bond_point_get_worst (point)->place, ==, "c");
  g_assert_cmpint (bond_point_get_worst (point)->decides->qualifier, ==, BOND_QUALIFIER_OVER);
}

static void
place_braid (Hangar *h, const char *number)
{
  BondEntry *entry = hangar_point_entry (number, "J1", TRUE);

  entry->spec->conductor = (BondConductor){ 8400000, 150000, BOND_RESISTIVITY_COPPER };
  hangar_record (h, entry);
}

/* Rows 8 and 9: lower than the metal alone, in place and isolated. */
static void
test_metal (void)
{
  g_autoptr (Hangar) h = hangar_new (BOND_RULE_SIMPLE);
  g_autofree char *metal_text = NULL;
  BondQuantity metal;
  const BondMeasurement *m;

  place_braid (h, "551-J02");
  g_assert_true (bond_conductor_resistance (&bond_point_get_spec (hangar_find (h, "551-J02"))->conductor, &metal));
  metal_text = bond_ohm_format (metal.nohm, BOND_UNIT_MILLIOHM, 4, '.');
  g_assert_cmpstr (metal_text, ==, "0.3079");

  h->mounting = BOND_MOUNTING_IN_PLACE;
  hangar_read (h, "551-J02", "0.21"); /* "not sure" */
  hangar_expect_state (h, "551-J02", BOND_STATE_SUSPECT);
  h->confirmed = TRUE; /* one confirmation */
  hangar_read (h, "551-J02", "0.21");
  hangar_expect_state (h, "551-J02", BOND_STATE_PASS);
  m = hangar_result (h, "551-J02")->decides;
  g_assert_cmpstr (bond_measurement_said (m), ==, "pass");
  g_assert_cmpstr (bond_reason_name (m->caution), ==,
                   "lower than the metal alone: parallel path, or both probes on one part");

  place_braid (h, "551-J03");
  h->mounting = BOND_MOUNTING_ISOLATED;
  hangar_read (h, "551-J03", "0.21");
  hangar_expect_last (h, "551-J03", BOND_OUTCOME_SUSPECT, BOND_REASON_BELOW_METAL);
  hangar_expect_state (h, "551-J03", BOND_STATE_SUSPECT);
}

/* Reads @texts on new joints under J2 and judges the path under P1; a NULL text is not read. */
static BondPathResult *
judge_path (Hangar *h, const char *const *texts, guint n)
{
  const BondLimitSet *set = g_ptr_array_index (bond_survey_get_limit_sets (h->survey), 0);
  BondPathJoint joints[8];
  guint i;

  g_assert_cmpuint (n, <=, G_N_ELEMENTS (joints));
  for (i = 0; i < n; i++)
    {
      g_autofree char *number = g_strdup_printf ("131-J%02u", i + 1);

      joints[i] = (BondPathJoint){ hangar_point (h, number, "J2"), NULL };
      if (texts[i] == NULL)
        continue;
      hangar_read (h, number, texts[i]);
      hangar_expect_state (h, number, BOND_STATE_PASS);
    }
  return bond_path_judge (joints, n, bond_limit_set_find (set, "P1"), BOND_RULE_SIMPLE);
}

typedef struct
{
  const char *texts[5];
  guint n;
  BondOhm uohm;
  gboolean conforms;
  BondZoneWord zone;
  const char *u; /* mΩ, rounded up as it is printed */
} Path;

/* Rows 10 to 12. */
static const Path paths[] = {
  { { "2.40", "2.40", "2.40", "2.40", "2.40" }, 5, 12000, FALSE, BOND_ZONE_WORD_FAIL, "0.094" },
  { { "2.40", "2.40", "2.40" }, 3, 7200, TRUE, BOND_ZONE_WORD_PASS, "0.057" },
  { { "2.49", "2.49", "2.49", "2.47" }, 4, 9940, TRUE, BOND_ZONE_WORD_CONDITIONAL_PASS, "0.076" },
};

static char *
rounded_up (BondOhm u_nohm)
{
  return bond_ohm_format ((u_nohm + 999) / 1000 * 1000, BOND_UNIT_MILLIOHM, 3, '.');
}

static void
test_paths (void)
{
  gsize i;

  for (i = 0; i < G_N_ELEMENTS (paths); i++)
    {
      g_autoptr (Hangar) h = hangar_new (BOND_RULE_SIMPLE);
      g_autoptr (BondPathResult) path = judge_path (h, paths[i].texts, paths[i].n);
      g_autofree char *u = rounded_up (path->sum->budget.u_nohm);

      g_assert_cmpint (path->fault, ==, BOND_PATH_FAULT_NONE);
      g_assert_true (path->sum->mean.sum == UOHM (paths[i].uohm) * path->sum->mean.count);
      g_assert_cmpint (path->sum->conforms, ==, paths[i].conforms);
      g_assert_cmpint (path->sum->zone, ==, paths[i].zone);
      g_assert_cmpstr (u, ==, paths[i].u);
    }
}

/* Row 12, the other way: were the joints' readings independent, 9.94 would be a plain pass. */
static void
test_path_if_independent (void)
{
  g_autoptr (Hangar) h = hangar_new (BOND_RULE_SIMPLE);
  g_autoptr (BondPathResult) path = judge_path (h, paths[2].texts, paths[2].n);
  static const char *const meters[] = { "1", "2", "3", "4" }; /* as if each joint had a meter of its own */
  const BondBudget *budgets[4];
  g_autofree char *u = NULL;
  BondBudget sum;
  guint i;

  for (i = 0; i < 4; i++)
    {
      g_autofree char *number = g_strdup_printf ("131-J%02u", i + 1);

      budgets[i] = &hangar_result (h, number)->decides->budget;
    }
  bond_budget_sum (&sum, budgets, meters, 4);
  u = rounded_up (sum.u_nohm);
  g_assert_cmpstr (u, ==, "0.040");
  g_assert_cmpint (bond_bounds_zone (bond_limit_row_bounds (path->sum->row, BOND_CONDITION_UNDISTURBED),
                                     &path->sum->mean, sum.u_nohm),
                   ==, BOND_ZONE_WORD_PASS);
  g_assert_true (path->sum->within_u);
  g_assert_nonnull (strstr (bond_budget_sum_rule (), "one meter"));
}

/* Row 13: no sum of the rest. */
static void
test_no_path (void)
{
  g_autoptr (Hangar) h = hangar_new (BOND_RULE_SIMPLE);
  static const char *const texts[] = { "2.40", NULL, "2.40" };
  g_autoptr (BondPathResult) path = judge_path (h, texts, 3);

  g_assert_cmpint (path->fault, ==, BOND_PATH_FAULT_NOT_MEASURED);
  g_assert_cmpuint (path->at, ==, 1);
  g_assert_cmpint (path->sum->outcome, ==, BOND_OUTCOME_NONE);
  g_assert_true (path->sum->mean.count == 0 && path->sum->mean.sum == 0);
  g_assert_false (path->sum->conforms);
}

/* Row 14: after six points the clip goes to another stud; the change is an entry, each reading names its end. */
static void
test_reference_moved (void)
{
  g_autoptr (Hangar) h = hangar_new (BOND_RULE_SIMPLE);
  BondEntry *move;
  guint i;

  h->reference_end = "stud G1";
  for (i = 1; i <= 8; i++)
    {
      g_autofree char *number = g_strdup_printf ("541-J%02u", i);
      BondEntry *reading;

      hangar_point (h, number, "J1");
      if (i == 7)
        {
          move = bond_entry_new (BOND_ENTRY_REFERENCE);
          hangar_refused (h, move, BOND_SURVEY_ERROR_INVALID); /* to where? */
          move = bond_entry_new (BOND_ENTRY_REFERENCE);
          move->reference_move.from = g_strdup ("stud G1");
          move->reference_move.to = g_strdup ("stud G2");
          move = hangar_record (h, move);
          g_assert_false (bond_entry_kind_info (move->kind)->content); /* it changes no result */
          h->reference_end = move->reference_move.to;
        }
      reading = hangar_read (h, number, "1.50");
      g_assert_cmpstr (reading->reading.reference_end, ==, i <= 6 ? "stud G1" : "stud G2");
    }
  for (i = 1; i <= 8; i++)
    {
      g_autofree char *number = g_strdup_printf ("541-J%02u", i);

      hangar_expect_state (h, number, BOND_STATE_PASS);
    }
}

int
main (int argc, char *argv[])
{
  g_test_init (&argc, &argv, NULL);
  g_test_add_func ("/core/scenario-7/mated", test_mated);
  g_test_add_func ("/core/scenario-7/deviation", test_deviation);
  g_test_add_func ("/core/scenario-7/in-place", test_in_place);
  g_test_add_func ("/core/scenario-7/freed-end", test_freed_end);
  g_test_add_func ("/core/scenario-7/broken-leg", test_broken_leg);
  g_test_add_func ("/core/scenario-7/three-legs", test_three_legs);
  g_test_add_func ("/core/scenario-7/metal", test_metal);
  g_test_add_func ("/core/scenario-7/paths", test_paths);
  g_test_add_func ("/core/scenario-7/path-if-independent", test_path_if_independent);
  g_test_add_func ("/core/scenario-7/no-path", test_no_path);
  g_test_add_func ("/core/scenario-7/reference-moved", test_reference_moved);
  return g_test_run ();
}
