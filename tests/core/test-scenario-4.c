/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * The fourth worked day: fail, re-seat, not confirmed; and the ways in which a fail
 * could be made to vanish, none of which work.  Everything in it is invented.  Row 3
 * (the sign-off page) and the review of row 11 belong to later layers; here stands
 * what one survey shows of them.
 */
#include "hangar.h"

/* Rows 1 to 3. */
static void
test_not_confirmed (void)
{
  g_autoptr (Hangar) h = hangar_new (BOND_RULE_SIMPLE);
  const BondPlaceResult *result;
  g_autofree char *dump = NULL;
  BondTotals totals;

  hangar_point (h, "542-J04", "J2");
  hangar_read (h, "542-J04", "3.12");
  hangar_expect_state (h, "542-J04", BOND_STATE_FAIL);
  hangar_read (h, "542-J04", "1.90");
  hangar_expect_state (h, "542-J04", BOND_STATE_FAIL);
  g_assert_true (hangar_result (h, "542-J04")->held);
  hangar_read (h, "542-J04", "1.92");
  hangar_expect_state (h, "542-J04", BOND_STATE_NOT_CONFIRMED);
  hangar_expect_value (h, "542-J04", UOHM (1920));
  result = hangar_result (h, "542-J04");
  g_assert_cmpint (bond_mean_nohm (&result->found->mean), ==, UOHM (3120));
  g_assert_false (result->held);
  g_assert_false (result->intermittent);
  g_assert_true (result->conforms);
  g_assert_cmpint (((BondHistoryItem *)result->history->pdata[0])->phase, ==, BOND_PHASE_AS_FOUND);
  g_assert_cmpint (((BondHistoryItem *)result->history->pdata[2])->phase, ==, BOND_PHASE_RESEATED);
  dump = hangar_dump (h->survey);
  g_assert_null (strstr (dump, "2313")); /* the mean of all three appears nowhere */

  /* No blocker: not open, not a fail, a count of its own, and no confirmed reject. */
  bond_survey_totals (h->survey, &totals);
  g_assert_cmpint (totals.by_state[BOND_STATE_NOT_CONFIRMED], ==, 1);
  g_assert_cmpint (totals.open, ==, 0);
  g_assert_cmpint (totals.fail, ==, 0);
  g_assert_cmpint (totals.rejects_as_found, ==, 0);
  g_assert_true (bond_point_has_history (hangar_find (h, "542-J04")));
}

/* Row 4. */
static void
test_intermittent (void)
{
  g_autoptr (Hangar) h = hangar_new (BOND_RULE_SIMPLE);
  BondEntry *disposition;
  BondTotals totals;

  hangar_point (h, "542-J05", "J2");
  hangar_read (h, "542-J05", "3.12");
  hangar_read (h, "542-J05", "1.90");
  hangar_read (h, "542-J05", "2.95");
  hangar_expect_state (h, "542-J05", BOND_STATE_FAIL);
  hangar_expect_value (h, "542-J05", UOHM (3120));
  g_assert_true (hangar_result (h, "542-J05")->intermittent);
  g_assert_false (hangar_result (h, "542-J05")->held);
  g_assert_cmpint (hangar_result (h, "542-J05")->reseats, ==, 2);

  disposition = hangar_entry (h, BOND_ENTRY_DISPOSITION, "542-J05");
  disposition->disposition.kind = BOND_DISPOSITION_DEFERRED;
  disposition->disposition.reference = g_strdup ("DD-12");
  disposition->disposition.holder = g_strdup ("p-sato");
  disposition->disposition.until = g_strdup ("2026-12-24");
  disposition->disposition.first_date = g_strdup ("2026-11-24");
  hangar_record (h, disposition);
  hangar_expect_state (h, "542-J05", BOND_STATE_DEFERRED);
  g_assert_false (hangar_result (h, "542-J05")->conforms);
  bond_survey_totals (h->survey, &totals);
  g_assert_cmpint (totals.fail, ==, 1);
  g_assert_cmpint (totals.open, ==, 0);
  g_assert_cmpint (totals.rejects_as_found, ==, 1);
}

/* Row 5. */
static void
test_held (void)
{
  g_autoptr (Hangar) h = hangar_new (BOND_RULE_SIMPLE);
  BondTotals totals;

  hangar_point (h, "542-J06", "J2");
  hangar_point (h, "542-J10", "J2");
  hangar_read (h, "542-J06", "3.12");
  hangar_read (h, "542-J06", "1.90");
  hangar_read (h, "542-J10", "1.00"); /* moves on */
  hangar_expect_state (h, "542-J06", BOND_STATE_FAIL);
  g_assert_true (hangar_result (h, "542-J06")->held);
  bond_survey_totals (h->survey, &totals);
  g_assert_cmpint (totals.open, ==, 1);
  g_assert_true (bond_survey_next_open (h->survey, hangar_find (h, "542-J10")) == hangar_find (h, "542-J06"));
}

/* Rows 6 and 7: void offers four reasons; wrong point moves the reading. */
static void
test_void_and_move (void)
{
  g_autoptr (Hangar) h = hangar_new (BOND_RULE_SIMPLE);
  static const BondVoidReason refused[]
      = { BOND_VOID_NONE, BOND_VOID_OTHER, BOND_VOID_WRONG_POINT /* done as a move */ };
  const BondHistoryItem *item;
  BondEntry *reading;
  BondTotals totals;
  gsize i;

  hangar_point (h, "542-J07", "J2");
  hangar_point (h, "542-J08", "J2");
  reading = hangar_read (h, "542-J07", "3.12");
  for (i = 0; i < G_N_ELEMENTS (refused); i++)
    hangar_refused (h, hangar_void (h, reading, refused[i], "film under the probe"), BOND_SURVEY_ERROR_REASON);
  hangar_expect_state (h, "542-J07", BOND_STATE_FAIL);

  hangar_record (h, hangar_move (h, reading, "542-J08"));
  hangar_expect_state (h, "542-J08", BOND_STATE_FAIL);
  hangar_expect_value (h, "542-J08", UOHM (3120));
  hangar_expect_state (h, "542-J07", BOND_STATE_TO_MEASURE);
  item = g_ptr_array_index (hangar_result (h, "542-J07")->history, 0);
  g_assert_true (item->moved_away);
  bond_survey_totals (h->survey, &totals);
  g_assert_cmpint (totals.rejects_as_found, ==, 1);
  g_assert_cmpint (totals.over_limit_taken_back, ==, 0);
}

/* Row 8. */
static void
test_undo (void)
{
  g_autoptr (Hangar) h = hangar_new (BOND_RULE_SIMPLE);
  const BondPlaceResult *result;
  BondEntry *reading;
  BondTotals totals;

  hangar_point (h, "542-J09", "J2");
  reading = hangar_read (h, "542-J09", "3.12");
  g_assert_true (bond_survey_undo_needs_reason (h->survey, reading));
  hangar_refused (h, hangar_undo_entry (h, reading, BOND_VOID_NONE, NULL), BOND_SURVEY_ERROR_REASON);
  hangar_undo (h, BOND_VOID_TYPING_SLIP, "typing slip, meter showed 1.32");
  hangar_expect_state (h, "542-J09", BOND_STATE_TO_MEASURE);
  reading = hangar_read (h, "542-J09", "1.32");
  g_assert_false (bond_survey_undo_needs_reason (h->survey, reading));
  hangar_expect_state (h, "542-J09", BOND_STATE_PASS);
  result = hangar_result (h, "542-J09");
  g_assert_cmpuint (result->history->len, ==, 3); /* 3.12 struck through, the undo with its reason, 1.32 */
  g_assert_true (((BondHistoryItem *)result->history->pdata[0])->taken_back);
  bond_survey_totals (h->survey, &totals);
  g_assert_cmpint (totals.over_limit_taken_back, ==, 1);
}

/* Rows 9 and 10: what a live meter showed steadily and was not recorded is a notice; a flash leaves nothing. */
static void
test_seen (void)
{
  g_autoptr (Hangar) h = hangar_new (BOND_RULE_SIMPLE);
  BondEntry *seen, *reading;
  BondTotals totals;

  hangar_point (h, "542-J10", "J2");
  seen = hangar_entry (h, BOND_ENTRY_SEEN, "542-J10");
  reading = hangar_reading (h, "542-J10", "3.40", BOND_DIRECTION_FORWARD, NULL);
  bond_reading_copy (&seen->reading, &reading->reading);
  bond_entry_unref (reading);
  hangar_record (h, seen);
  hangar_expect_state (h, "542-J10", BOND_STATE_TO_MEASURE);
  hangar_read (h, "542-J10", "1.70");
  hangar_expect_state (h, "542-J10", BOND_STATE_PASS);
  hangar_expect_value (h, "542-J10", UOHM (1700));
  g_assert_cmpint (hangar_result (h, "542-J10")->seen_not_recorded, ==, 1);
  bond_survey_totals (h->survey, &totals);
  g_assert_cmpint (totals.seen_not_recorded, ==, 1); /* a review can count it */
  g_assert_cmpint (totals.rejects_as_found, ==, 0);
  g_assert_cmpint (totals.over_limit_taken_back, ==, 0);
  g_assert_cmpint (((BondHistoryItem *)hangar_result (h, "542-J10")->history->pdata[0])->entry->kind, ==,
                   BOND_ENTRY_SEEN);
  /* A notice is nobody's newest act: undo goes to the reading. */
  g_assert_cmpint (bond_survey_undo_target (h->survey)->kind, ==, BOND_ENTRY_READING);
}

int
main (int argc, char *argv[])
{
  g_test_init (&argc, &argv, NULL);
  g_test_add_func ("/core/scenario-4/not-confirmed", test_not_confirmed);
  g_test_add_func ("/core/scenario-4/intermittent", test_intermittent);
  g_test_add_func ("/core/scenario-4/held", test_held);
  g_test_add_func ("/core/scenario-4/void-and-move", test_void_and_move);
  g_test_add_func ("/core/scenario-4/undo", test_undo);
  g_test_add_func ("/core/scenario-4/seen", test_seen);
  return g_test_run ();
}
