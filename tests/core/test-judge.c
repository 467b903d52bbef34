/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * From a place's history to its state: measuring states and places of the seventh
 * worked day (rows 1, 2, 6, 7; all invented), visual rows, marks, dispositions,
 * re-seats to their end, sampling, and the rule that no mean crosses a fail.
 */
#include "hangar.h"

/* Seventh day, rows 1 and 2 (row 3 is row 1 at another point). */
static void
test_connectors (void)
{
  g_autoptr (Hangar) h = hangar_new (BOND_RULE_SIMPLE);

  hangar_point (h, "131-E01", "E1");
  h->connectors = BOND_CONNECTORS_MATED;
  hangar_read (h, "131-E01", "1.20");
  hangar_expect_last (h, "131-E01", BOND_OUTCOME_NO_VERDICT, BOND_REASON_WRONG_STATE);
  hangar_expect_state (h, "131-E01", BOND_STATE_REMEASURE);
  h->connectors = BOND_CONNECTORS_UNMATED;
  hangar_read (h, "131-E01", "2.60");
  hangar_expect_state (h, "131-E01", BOND_STATE_FAIL);
  g_assert_cmpuint (hangar_result (h, "131-E01")->history->len, ==, 2);
  g_assert_cmpint (hangar_result (h, "131-E01")->rejects_as_found, ==, 1);
}

/* Row 6: a good resistance does not save a broken leg, until it is replaced. */
static void
test_broken_leg (void)
{
  g_autoptr (Hangar) h = hangar_new (BOND_RULE_SIMPLE);
  BondEntry *visual;

  hangar_point (h, "713-J02", "J1");
  hangar_read (h, "713-J02", "2.00");
  visual = hangar_visual (h, "713-J02", BOND_VISUAL_LEG_BROKEN, TRUE);
  hangar_expect_state (h, "713-J02", BOND_STATE_FAIL);
  g_assert_true (hangar_result (h, "713-J02")->decides->conforms);
  g_assert_cmpint (hangar_result (h, "713-J02")->visual, ==, BOND_VISUAL_LEG_BROKEN);

  /* A second look does not clear it, opening the joint does not, "not fitted" cannot hide it, undo asks why. */
  hangar_visual (h, "713-J02", BOND_VISUAL_GOOD, FALSE);
  hangar_expect_state (h, "713-J02", BOND_STATE_FAIL);
  hangar_undo (h, BOND_VOID_NONE, NULL);
  g_assert_true (bond_survey_undo_needs_reason (h->survey, visual));
  hangar_condition (h, "713-J02", BOND_CONDITION_OPENED);
  hangar_expect_state (h, "713-J02", BOND_STATE_FAIL);
  visual = hangar_entry (h, BOND_ENTRY_STATE, "713-J02");
  visual->state.mark = BOND_POINT_MARK_NOT_FITTED;
  visual->reason = g_strdup ("gone");
  hangar_refused (h, visual, BOND_SURVEY_ERROR_INVALID);

  hangar_condition (h, "713-J02", BOND_CONDITION_NEW);
  hangar_expect_state (h, "713-J02", BOND_STATE_REMEASURE);
  hangar_read (h, "713-J02", "2.00");
  hangar_expect_state (h, "713-J02", BOND_STATE_PASS_AFTER_REWORK);
  g_assert_cmpint (hangar_result (h, "713-J02")->rejects_visual, ==, 1);
}

/* Row 7: the worst leg decides. */
static void
test_legs (void)
{
  g_autoptr (Hangar) h = hangar_new (BOND_RULE_SIMPLE);
  BondPoint *point = hangar_point (h, "713-J03", "J1");
  BondEntry *whole;
  BondTotals totals;

  hangar_add_place (h, "713-J03", "a", TRUE);
  hangar_add_place (h, "713-J03", "b", TRUE);
  hangar_add_place (h, "713-J03", "c", TRUE);
  g_assert_cmpuint (bond_point_get_places (point)->len, ==, 3);
  whole = hangar_reading (h, "713-J03", "0.9", BOND_DIRECTION_FORWARD, NULL);
  hangar_refused (h, whole, BOND_SURVEY_ERROR_INVALID); /* which leg? */
  g_assert_cmpstr (bond_point_next_place (point), ==, "a");
  h->place = "a";
  hangar_read (h, "713-J03", "0.9");
  g_assert_cmpint (bond_point_get_state (point), ==, BOND_STATE_TO_MEASURE);
  g_assert_cmpstr (bond_point_next_place (point), ==, "b");
  h->place = "b";
  hangar_read (h, "713-J03", "1.0");
  h->place = "c";
  hangar_read (h, "713-J03", ">30");
  hangar_expect_state (h, "713-J03", BOND_STATE_FAIL);
  g_assert_cmpint (bond_point_get_state (point), ==, BOND_STATE_FAIL);
  g_assert_cmpstr (bond_point_get_worst (point)->place, ==, "c");
  g_assert_null (bond_point_next_place (point));
  h->place = "a";
  hangar_expect_state (h, "713-J03", BOND_STATE_PASS);
  bond_survey_totals (h->survey, &totals);
  g_assert_cmpint (totals.points, ==, 1);
  g_assert_cmpint (totals.places, ==, 3);
  g_assert_cmpint (totals.fail, ==, 1);
  g_assert_true (totals.control_total_nohm == UOHM (1900)); /* > 30 is no figure to add */
}

/* Every second bolt is asked; the first fail asks for all of them, and rework does not take that back. */
static void
test_sample (void)
{
  g_autoptr (Hangar) h = hangar_new (BOND_RULE_SIMPLE);
  BondEntry *entry = bond_entry_new (BOND_ENTRY_POINT);
  BondPoint *point;

  entry->spec = hangar_spec ("541-F01", "F1");
  entry->spec->sample_every = 2;
  entry->point = g_strdup (entry->spec->id);
  hangar_record (h, entry);
  point = hangar_find (h, "541-F01");
  hangar_add_place (h, "541-F01", "1", TRUE);
  hangar_add_place (h, "541-F01", "2", FALSE);
  h->place = "2";
  hangar_expect_state (h, "541-F01", BOND_STATE_NOT_IN_SAMPLE);
  h->place = "1";
  hangar_read (h, "541-F01", "2.90");
  g_assert_cmpint (bond_point_get_state (point), ==, BOND_STATE_PASS);
  hangar_rework (h, "541-F01", BOND_REWORK_TORQUE_RESTORED);
  hangar_read (h, "541-F01", "2.60");
  hangar_expect_state (h, "541-F01", BOND_STATE_FAIL);
  h->place = "2";
  hangar_expect_state (h, "541-F01", BOND_STATE_TO_MEASURE);
  h->place = "1";
  hangar_rework (h, "541-F01", BOND_REWORK_SURFACES_CLEANED);
  hangar_read (h, "541-F01", "1.00");
  g_assert_cmpint (bond_point_get_state (point), ==, BOND_STATE_TO_MEASURE);
  g_assert_cmpstr (bond_point_next_place (point), ==, "2");
}

/* A jumper that must be absent, and a row that is only looked at. */
static void
test_visual_rows (void)
{
  g_autoptr (Hangar) h = hangar_new (BOND_RULE_SIMPLE);

  hangar_point (h, "541-T01", "T3");
  hangar_point (h, "541-T02", "T3");
  hangar_point (h, "541-J01", "V1");
  hangar_expect_state (h, "541-T01", BOND_STATE_TO_MEASURE);
  hangar_visual (h, "541-T01", BOND_VISUAL_PRESENT, FALSE);
  hangar_expect_state (h, "541-T01", BOND_STATE_FAIL);
  hangar_rework (h, "541-T01", BOND_REWORK_OTHER);
  hangar_expect_state (h, "541-T01", BOND_STATE_REMEASURE);
  hangar_visual (h, "541-T01", BOND_VISUAL_MISSING, FALSE);
  hangar_expect_state (h, "541-T01", BOND_STATE_PASS_AFTER_REWORK);
  hangar_visual (h, "541-T02", BOND_VISUAL_GOOD, FALSE);
  hangar_expect_state (h, "541-T02", BOND_STATE_PASS);
  hangar_visual (h, "541-J01", BOND_VISUAL_CORROSION, TRUE);
  hangar_expect_state (h, "541-J01", BOND_STATE_FAIL);
  hangar_read (h, "541-T02", "1.00");
  hangar_expect_last (h, "541-T02", BOND_OUTCOME_NO_VERDICT, BOND_REASON_WRONG_METHOD);
  hangar_expect_state (h, "541-T02", BOND_STATE_PASS);
}

static void
test_marks (void)
{
  g_autoptr (Hangar) h = hangar_new (BOND_RULE_SIMPLE);
  BondEntry *entry;
  BondTotals totals;

  hangar_point (h, "541-J01", "J1");
  hangar_point (h, "541-J02", "J1");
  hangar_point (h, "541-J03", "J1");
  entry = hangar_entry (h, BOND_ENTRY_STATE, "541-J01");
  entry->state.mark = BOND_POINT_MARK_NOT_ACCESSIBLE;
  hangar_refused (h, entry, BOND_SURVEY_ERROR_REASON);
  hangar_mark (h, "541-J01", BOND_POINT_MARK_NOT_ACCESSIBLE, "tank not open");
  hangar_mark (h, "541-J02", BOND_POINT_MARK_NOT_FITTED, "option not bought");
  hangar_mark (h, "541-J03", BOND_POINT_MARK_NOT_APPLICABLE, "other variant");
  bond_survey_totals (h->survey, &totals);
  g_assert_cmpint (totals.points, ==, 3);
  g_assert_cmpint (totals.scope, ==, 1);
  g_assert_cmpint (totals.open, ==, 1); /* not accessible is open, never done */
  g_assert_cmpint (totals.done, ==, 0);
  g_assert_null (bond_survey_next_open (h->survey, NULL));

  hangar_refused (h, hangar_reading (h, "541-J02", "1.00", BOND_DIRECTION_FORWARD, NULL), BOND_SURVEY_ERROR_INVALID);
  hangar_mark (h, "541-J02", BOND_POINT_MARK_NONE, NULL);
  hangar_expect_state (h, "541-J02", BOND_STATE_TO_MEASURE);
  /* What was measured was reached after all. */
  hangar_read (h, "541-J01", "1.00");
  hangar_expect_state (h, "541-J01", BOND_STATE_PASS);
}

static BondEntry *
accept_up_to (Hangar *h, const char *number, BondOhm limit)
{
  BondEntry *entry = hangar_entry (h, BOND_ENTRY_DISPOSITION, number);

  entry->disposition.kind = BOND_DISPOSITION_ACCEPTED;
  entry->disposition.reference = g_strdup ("ED-77");
  entry->disposition.holder = g_strdup ("design holder");
  entry->disposition.until = g_strdup ("no end");
  entry->disposition.bounds.upper = (BondBound){ BOND_RELATION_LE, limit, BOND_UNIT_MILLIOHM };
  return entry;
}

static void
test_disposition (void)
{
  g_autoptr (Hangar) h = hangar_new (BOND_RULE_SIMPLE);
  BondEntry *entry;
  BondTotals totals;

  hangar_point (h, "541-J01", "J2");
  hangar_read (h, "541-J01", "2.40");
  hangar_refused (h, accept_up_to (h, "541-J01", UOHM (4000)), BOND_SURVEY_ERROR_INVALID); /* it conforms */
  hangar_read (h, "541-J01", "3.12");
  hangar_refused (h, accept_up_to (h, "541-J01", UOHM (3119)), BOND_SURVEY_ERROR_INVALID);
  entry = accept_up_to (h, "541-J01", UOHM (4000));
  g_clear_pointer (&entry->disposition.holder, g_free);
  hangar_refused (h, entry, BOND_SURVEY_ERROR_REASON);
  entry = accept_up_to (h, "541-J01", UOHM (4000));
  entry->disposition.kind = BOND_DISPOSITION_CARRIED_FORWARD; /* without its first date */
  hangar_refused (h, entry, BOND_SURVEY_ERROR_REASON);

  hangar_record (h, accept_up_to (h, "541-J01", UOHM (4000)));
  hangar_expect_state (h, "541-J01", BOND_STATE_ACCEPTED);
  g_assert_false (hangar_result (h, "541-J01")->conforms);
  bond_survey_totals (h->survey, &totals);
  g_assert_cmpint (totals.measured, ==, totals.conform + totals.fail);
  g_assert_cmpint (totals.open, ==, 0);
  /* Measured again beyond the new limit too: the acceptance does not cover that. */
  hangar_read (h, "541-J01", "4.10");
  hangar_expect_state (h, "541-J01", BOND_STATE_FAIL);
  hangar_rework (h, "541-J01", BOND_REWORK_SURFACES_CLEANED);
  hangar_read (h, "541-J01", "2.60");
  hangar_expect_state (h, "541-J01", BOND_STATE_FAIL); /* it ended with the rework */
}

/* Re-seats after a 3.12 against ≤ 2.5, and what they come to. */
static void
test_reseats (void)
{
  static const struct
  {
    const char *values; /* after the fail */
    BondState state;
    gboolean held, intermittent;
    BondOhm record;
  } rows[] = {
    { "", BOND_STATE_FAIL, FALSE, FALSE, UOHM (3120) },
    { "1.92 1.90", BOND_STATE_NOT_CONFIRMED, FALSE, FALSE, UOHM (1920) },
    { "2.95", BOND_STATE_FAIL, FALSE, FALSE, UOHM (3120) },
    { "2.95 1.90", BOND_STATE_FAIL, TRUE, FALSE, UOHM (3120) },
    { "2.95 1.90 1.92", BOND_STATE_NOT_CONFIRMED, FALSE, FALSE, UOHM (1920) },
    { "1.90 1.20", BOND_STATE_FAIL, TRUE, FALSE, UOHM (3120) }, /* conform, do not agree */
    { "1.90 1.20 1.21", BOND_STATE_NOT_CONFIRMED, FALSE, FALSE, UOHM (1210) },
    { "1.90 2.95 1.90", BOND_STATE_FAIL, FALSE, TRUE, UOHM (3120) },
    { "1.90 2.95 1.90 1.92", BOND_STATE_FAIL, FALSE, TRUE, UOHM (3120) }, /* a fourth comes too late */
    { "1.90 0 1.90", BOND_STATE_FAIL, FALSE, TRUE, UOHM (3120) },         /* a suspect one breaks the row */
    { "1.90 1.92 1.00", BOND_STATE_NOT_CONFIRMED, FALSE, FALSE, UOHM (1920) },
    { "1.90 1.92 2.60", BOND_STATE_FAIL, FALSE, TRUE, UOHM (2600) },
    { "1.90 1.92 3.20 3.30 1.90 1.90", BOND_STATE_FAIL, FALSE, TRUE, UOHM (3200) }, /* the tries do not begin anew */
  };
  gsize i, j;

  for (i = 0; i < G_N_ELEMENTS (rows); i++)
    {
      g_autoptr (Hangar) h = hangar_new (BOND_RULE_SIMPLE);
      g_auto (GStrv) values = g_strsplit (rows[i].values, " ", 0);

      g_test_message ("3.12, then %s", rows[i].values);
      hangar_point (h, "541-J01", "J2");
      hangar_read (h, "541-J01", "3.12");
      for (j = 0; values[j] != NULL; j++)
        hangar_read (h, "541-J01", values[j]);
      hangar_expect_state (h, "541-J01", rows[i].state);
      hangar_expect_value (h, "541-J01", rows[i].record);
      g_assert_cmpint (hangar_result (h, "541-J01")->held, ==, rows[i].held);
      g_assert_cmpint (hangar_result (h, "541-J01")->intermittent, ==, rows[i].intermittent);
    }
}

/* A pass measured again and failing is a fail; a fail measured again and passing once is still a fail. */
static void
test_fail_stands (void)
{
  g_autoptr (Hangar) h = hangar_new (BOND_RULE_SIMPLE);

  hangar_point (h, "541-J01", "J2");
  hangar_read (h, "541-J01", "1.00");
  hangar_read (h, "541-J01", "1.10");
  hangar_expect_value (h, "541-J01", UOHM (1100)); /* the newest */
  hangar_read (h, "541-J01", "2.51");
  hangar_expect_state (h, "541-J01", BOND_STATE_FAIL);
  hangar_read (h, "541-J01", "1.00");
  hangar_expect_state (h, "541-J01", BOND_STATE_FAIL);
  hangar_expect_value (h, "541-J01", UOHM (2510));
}

/* No mean crosses a fail, a rework or another meter, whatever the entry claims to belong to. */
static void
test_no_mean_across (void)
{
  g_autoptr (Hangar) h = hangar_new (BOND_RULE_SIMPLE);
  BondEntry *first, *second;

  hangar_point (h, "541-J01", "J2");
  first = hangar_read (h, "541-J01", "2.55");
  second = hangar_reading (h, "541-J01", "2.40", BOND_DIRECTION_REVERSE, first);
  hangar_record (h, second);
  hangar_expect_state (h, "541-J01", BOND_STATE_FAIL);
  g_assert_cmpuint (hangar_result (h, "541-J01")->last->readings->len, ==, 1);

  hangar_point (h, "541-J02", "J2P");
  first = hangar_record (h, hangar_reading (h, "541-J02", "2.45", BOND_DIRECTION_FORWARD, NULL));
  hangar_rework (h, "541-J02", BOND_REWORK_SURFACES_CLEANED);
  hangar_record (h, hangar_reading (h, "541-J02", "2.40", BOND_DIRECTION_REVERSE, first));
  hangar_expect_last (h, "541-J02", BOND_OUTCOME_INCOMPLETE, BOND_REASON_REVERSE_MISSING);

  hangar_point (h, "541-J03", "J2P");
  first = hangar_record (h, hangar_reading (h, "541-J03", "2.45", BOND_DIRECTION_FORWARD, NULL));
  hangar_take (h, "MO-3", "30m");
  hangar_refused (h, hangar_reading (h, "541-J03", "2.40", BOND_DIRECTION_REVERSE, first), BOND_SURVEY_ERROR_INVALID);
  hangar_expect_last (h, "541-J03", BOND_OUTCOME_INCOMPLETE, BOND_REASON_REVERSE_MISSING);

  /* A row that asks a pair has no verdict on the half that is beyond the limit. */
  hangar_take (h, "MO-1", "30m");
  hangar_point (h, "541-J04", "J2P");
  first = hangar_record (h, hangar_reading (h, "541-J04", "2.51", BOND_DIRECTION_FORWARD, NULL));
  g_assert_cmpstr (first->reading.said, ==, "incomplete");
  second = hangar_record (h, hangar_reading (h, "541-J04", "2.49", BOND_DIRECTION_REVERSE, first));
  g_assert_cmpstr (second->reading.said, ==, "pass within-u");
  hangar_expect_state (h, "541-J04", BOND_STATE_PASS);
}

/* Guarded acceptance: a conditional pass does not conform, yet it is no reject against the limit (R11). */
static void
test_guarded_reject (void)
{
  g_autoptr (Hangar) h = hangar_new (BOND_RULE_GUARDED);

  hangar_point (h, "541-J01", "J2");
  hangar_read (h, "541-J01", "2.49");
  hangar_expect_state (h, "541-J01", BOND_STATE_FAIL);
  g_assert_cmpint (hangar_result (h, "541-J01")->rejects_as_found, ==, 0);
  hangar_point (h, "541-J02", "J2");
  hangar_read (h, "541-J02", "2.51");
  g_assert_cmpint (hangar_result (h, "541-J02")->rejects_as_found, ==, 1);
}

static void
test_no_limit (void)
{
  g_autoptr (Hangar) h = hangar_new (BOND_RULE_SIMPLE);
  BondTotals totals;

  hangar_point (h, "541-J01", NULL); /* names no row, and no set has one for its class */
  hangar_read (h, "541-J01", "99");
  hangar_expect_state (h, "541-J01", BOND_STATE_RECORDED);
  g_assert_cmpstr (bond_place_result_said (hangar_result (h, "541-J01")), ==, "recorded");
  bond_survey_totals (h->survey, &totals);
  g_assert_cmpint (totals.measured, ==, 1);
  g_assert_cmpint (totals.conform + totals.fail, ==, 0);
}

/* Every state has words, a rank of its own and a place in exactly the sets the design says. */
static void
test_states (void)
{
  gboolean rank_used[BOND_N_STATES] = { FALSE };
  int i;

  for (i = 0; i < BOND_N_STATES; i++)
    {
      int rank = bond_state_rank ((BondState)i);
      g_assert_nonnull (bond_state_file_name ((BondState)i));
      g_assert_nonnull (bond_state_name ((BondState)i));
      g_assert_false (rank_used[rank]);
      rank_used[rank] = TRUE;
      g_assert_false (bond_state_conforms ((BondState)i) && bond_state_is_open ((BondState)i));
    }
  g_assert_cmpint (bond_state_rank (BOND_STATE_FAIL), ==, BOND_N_STATES - 1);
  g_assert_cmpstr (bond_state_file_name (BOND_STATE_PASS_AFTER_REWORK), ==, "pass-after-rework");
  g_assert_true (bond_state_is_open (BOND_STATE_NOT_ACCESSIBLE));
  g_assert_true (bond_state_in_scope (BOND_STATE_NOT_ACCESSIBLE));
  g_assert_false (bond_state_in_scope (BOND_STATE_NOT_FITTED));
  g_assert_false (bond_state_in_scope (BOND_STATE_NOT_APPLICABLE));
}

int
main (int argc, char *argv[])
{
  g_test_init (&argc, &argv, NULL);
  g_test_add_func ("/core/judge/connectors", test_connectors);
  g_test_add_func ("/core/judge/broken-leg", test_broken_leg);
  g_test_add_func ("/core/judge/legs", test_legs);
  g_test_add_func ("/core/judge/sample", test_sample);
  g_test_add_func ("/core/judge/visual-rows", test_visual_rows);
  g_test_add_func ("/core/judge/marks", test_marks);
  g_test_add_func ("/core/judge/disposition", test_disposition);
  g_test_add_func ("/core/judge/reseats", test_reseats);
  g_test_add_func ("/core/judge/fail-stands", test_fail_stands);
  g_test_add_func ("/core/judge/no-mean-across", test_no_mean_across);
  g_test_add_func ("/core/judge/guarded-reject", test_guarded_reject);
  g_test_add_func ("/core/judge/no-limit", test_no_limit);
  g_test_add_func ("/core/judge/states", test_states);
  return g_test_run ();
}
