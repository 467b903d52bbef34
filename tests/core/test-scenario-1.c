/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * The first worked day: which limit applies when.  Step by step, with the totals.
 * Everything in it is invented; row 16 (the next survey of the aircraft) needs the
 * library and is tested there.
 */
#include "hangar.h"

static void
expect_last (Hangar *h, const char *number, gboolean conforms, gint64 permille)
{
  hangar_expect_last (h, number, BOND_OUTCOME_JUDGED, BOND_REASON_NONE);
  g_assert_cmpint (hangar_result (h, number)->last->conforms, ==, conforms);
  g_assert_cmpint (hangar_used_permille (h, number), ==, permille);
}

/* Rows 1 to 5. */
static void
play_rework (Hangar *h)
{
  const BondPlaceResult *result;
  guint i, measurements = 0, reworks = 0;

  hangar_point (h, "541-J01", "J1");
  hangar_point (h, "541-J02", "J1");
  hangar_expect_tier (h, "541-J01", BOND_CONDITION_UNDISTURBED, UOHM (5000));
  hangar_read (h, "541-J01", "4.00");
  hangar_expect_state (h, "541-J01", BOND_STATE_PASS);
  expect_last (h, "541-J01", TRUE, 800);
  g_assert_cmpstr (bond_condition_name (hangar_result (h, "541-J01")->last->condition), ==, "in service");

  hangar_read (h, "541-J02", "6.20");
  hangar_expect_state (h, "541-J02", BOND_STATE_FAIL);
  expect_last (h, "541-J02", FALSE, 1240);

  hangar_rework (h, "541-J02", BOND_REWORK_SURFACES_CLEANED);
  hangar_expect_state (h, "541-J02", BOND_STATE_REMEASURE);
  hangar_expect_tier (h, "541-J02", BOND_CONDITION_REWORKED, UOHM (2500));

  hangar_read (h, "541-J02", "3.10");
  hangar_expect_state (h, "541-J02", BOND_STATE_FAIL);
  expect_last (h, "541-J02", FALSE, 1240);

  hangar_rework (h, "541-J02", BOND_REWORK_JUMPER_REPLACED);
  hangar_read (h, "541-J02", "1.95");
  hangar_expect_state (h, "541-J02", BOND_STATE_PASS_AFTER_REWORK);
  expect_last (h, "541-J02", TRUE, 780);
  result = hangar_result (h, "541-J02");
  g_assert_cmpuint (result->history->len, ==, 5);
  for (i = 0; i < result->history->len; i++)
    {
      const BondHistoryItem *item = g_ptr_array_index (result->history, i);
      measurements += item->measurement != NULL;
      reworks += item->entry->kind == BOND_ENTRY_REWORK;
    }
  g_assert_cmpuint (measurements, ==, 3);
  g_assert_cmpuint (reworks, ==, 2);
  g_assert_cmpint (bond_mean_nohm (&result->found->mean), ==, UOHM (6200));
}

/* Rows 6 to 9. */
static void
play_opened (Hangar *h)
{
  hangar_point (h, "541-J03", "J1");
  hangar_read (h, "541-J03", "4.00");
  hangar_expect_state (h, "541-J03", BOND_STATE_PASS);
  hangar_condition (h, "541-J03", BOND_CONDITION_OPENED);
  hangar_expect_state (h, "541-J03", BOND_STATE_REMEASURE);
  hangar_expect_tier (h, "541-J03", BOND_CONDITION_OPENED, UOHM (2500));
  g_assert_cmpint (bond_mean_nohm (&hangar_result (h, "541-J03")->found->mean), ==, UOHM (4000));
  g_assert_true (hangar_result (h, "541-J03")->found_undisturbed);
  hangar_read (h, "541-J03", "4.00");
  hangar_expect_state (h, "541-J03", BOND_STATE_FAIL);
  expect_last (h, "541-J03", FALSE, 1600);
  g_assert_cmpint (hangar_result (h, "541-J03")->rejects_as_found, ==, 0);
  hangar_rework (h, "541-J03", BOND_REWORK_SURFACES_CLEANED);
  hangar_read (h, "541-J03", "2.50");
  expect_last (h, "541-J03", TRUE, 1000);
  g_assert_cmpint (hangar_result (h, "541-J03")->last->zone, ==, BOND_ZONE_WORD_CONDITIONAL_PASS);
  g_assert_true (hangar_result (h, "541-J03")->conforms);
}

/* Rows 10 and 11. */
static void
play_visual (Hangar *h)
{
  BondEntry *visual;

  hangar_point (h, "541-J04", "J1");
  hangar_read (h, "541-J04", "3.00");
  visual = hangar_entry (h, BOND_ENTRY_VISUAL, "541-J04");
  visual->visual.finding = BOND_VISUAL_STRANDS;
  visual->visual.percent = 30;
  visual->visual.reject = TRUE;
  hangar_record (h, visual);
  expect_last (h, "541-J04", TRUE, 600);
  hangar_expect_state (h, "541-J04", BOND_STATE_FAIL);
  g_assert_true (hangar_result (h, "541-J04")->visual_reject);
  g_assert_false (hangar_result (h, "541-J04")->conforms);
  hangar_rework (h, "541-J04", BOND_REWORK_JUMPER_REPLACED);
  hangar_expect_tier (h, "541-J04", BOND_CONDITION_NEW, UOHM (2500));
  hangar_read (h, "541-J04", "1.10");
  hangar_expect_state (h, "541-J04", BOND_STATE_PASS_AFTER_REWORK);
}

/* Rows 12 and 13. */
static void
play_new (Hangar *h)
{
  hangar_point_as (h, "541-J05", "J1", BOND_CONDITION_NEW);
  hangar_expect_tier (h, "541-J05", BOND_CONDITION_NEW, UOHM (2500));
  hangar_read (h, "541-J05", "2.60");
  hangar_expect_state (h, "541-J05", BOND_STATE_FAIL);
  expect_last (h, "541-J05", FALSE, 1040);
  g_assert_cmpint (hangar_result (h, "541-J05")->rejects_installation, ==, 1);
  g_assert_cmpint (hangar_result (h, "541-J05")->rejects_as_found, ==, 0);
  hangar_rework (h, "541-J05", BOND_REWORK_TORQUE_RESTORED);
  hangar_read (h, "541-J05", "2.40");
  hangar_expect_state (h, "541-J05", BOND_STATE_PASS_AFTER_REWORK);
  g_assert_true (hangar_result (h, "541-J05")->conforms);
}

/* Row 14. */
static void
play_undone_rework (Hangar *h)
{
  hangar_point (h, "541-J06", "J1");
  hangar_rework (h, "541-J06", BOND_REWORK_SURFACES_CLEANED);
  hangar_expect_tier (h, "541-J06", BOND_CONDITION_REWORKED, UOHM (2500));
  hangar_undo (h, BOND_VOID_WRONG_POINT, "wrong point");
  hangar_expect_tier (h, "541-J06", BOND_CONDITION_UNDISTURBED, UOHM (5000));
  hangar_read (h, "541-J06", "3.00");
  hangar_expect_state (h, "541-J06", BOND_STATE_PASS);
  expect_last (h, "541-J06", TRUE, 600);
}

/* Row 15. */
static void
check_totals (Hangar *h)
{
  BondTotals totals;

  hangar_expect_value (h, "541-J01", UOHM (4000));
  hangar_expect_value (h, "541-J02", UOHM (1950));
  hangar_expect_value (h, "541-J03", UOHM (2500));
  hangar_expect_value (h, "541-J04", UOHM (1100));
  hangar_expect_value (h, "541-J05", UOHM (2400));
  hangar_expect_value (h, "541-J06", UOHM (3000));
  bond_survey_totals (h->survey, &totals);
  g_assert_cmpint (totals.as_found_measured, ==, 5);
  g_assert_cmpint (totals.rejects_as_found, ==, 1);
  g_assert_cmpint (totals.rejects_visual, ==, 1);
  g_assert_cmpint (totals.rejects_installation, ==, 1);
  g_assert_cmpint (totals.rejects_opened, ==, 1);
  g_assert_cmpint (totals.rejects_rework, ==, 1);
  g_assert_true (totals.control_total_nohm == UOHM (14950));
  g_assert_cmpint (totals.points, ==, 6);
  g_assert_cmpint (totals.conform, ==, 6);
  g_assert_cmpint (totals.open, ==, 0);
  g_assert_cmpint (totals.done, ==, 6);
}

static void
test_day (void)
{
  g_autoptr (Hangar) h = hangar_new (BOND_RULE_SIMPLE);

  play_rework (h);
  play_opened (h);
  play_visual (h);
  play_new (h);
  play_undone_rework (h);
  check_totals (h);
}

int
main (int argc, char *argv[])
{
  g_test_init (&argc, &argv, NULL);
  g_test_add_func ("/core/scenario-1/day", test_day);
  return g_test_run ();
}
