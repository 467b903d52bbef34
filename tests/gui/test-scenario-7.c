/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * The day among the equipment (scenarios.md 7, rows 1 to 3 and 14) through the window:
 * a measuring state the limit does not ask for, and a reference clip that moves.
 * All figures are invented.
 */
#include "screen.h"
#include "window-fixture.h"

static const WindowPoint points[] = {
  { "131-E01", "example/E1", BOND_CONDITION_UNDISTURBED },
  { "231-E04", "example/E1", BOND_CONDITION_UNDISTURBED },
  { "551-J01", "example/J1", BOND_CONDITION_UNDISTURBED },
  { "551-J02", "example/J1", BOND_CONDITION_UNDISTURBED },
};
static const WindowPoints day = { points, G_N_ELEMENTS (points) };

static BondWalk *
walk_of (WindowFixture *fixture)
{
  return bond_survey_window_get_walk (fixture->window);
}

static void
wait_idle (WindowFixture *fixture)
{
  BondSurvey *survey = bond_walk_get_survey (walk_of (fixture));

  for (int i = 0; i < 200 && bond_survey_is_busy (survey); i++)
    screen_spin (10);
  screen_spin (30);
}

static void
pin (WindowFixture *fixture, BondConnectors connectors, const char *clip)
{
  bond_walk_pin_state (walk_of (fixture), connectors, BOND_MOUNTING_IN_PLACE, clip, 1);
  wait_idle (fixture);
}

static const BondPlaceResult *
result_of (BondSurvey *survey, const char *number)
{
  return bond_point_get_worst (bond_survey_find_number (survey, number));
}

static const BondEntry *
nth_reading (const BondPlaceResult *result, guint n)
{
  return g_ptr_array_index (((BondHistoryItem *)g_ptr_array_index (result->history, n))->measurement->readings, 0);
}

/* Rows 1 and 3: no verdict; the walk stays, says why and offers the two ways on. */
static void
expect_wrong_state (WindowFixture *fixture, const char *number)
{
  const BondPlaceResult *result = result_of (bond_walk_get_survey (walk_of (fixture)), number);

  g_assert_cmpint (result->last->outcome, ==, BOND_OUTCOME_NO_VERDICT);
  g_assert_cmpint (result->last->reason, ==, BOND_REASON_WRONG_STATE);
  g_assert_true (bond_state_is_open (result->state));
  g_assert_cmpstr (window_number_in_hand (fixture), ==, number);
  g_assert_cmpstr (bond_reading_panel_get_said (window_panel_of (fixture)), !=, "");
}

static void
test_connectors (WindowFixture *fixture, gconstpointer data)
{
  g_autoptr (BondSurveyFile) file = NULL;
  const BondPlaceResult *result;

  window_begin (fixture);
  pin (fixture, BOND_CONNECTORS_MATED, "G1");
  window_type_reading (fixture, "131-E01");
  window_type_reading (fixture, "1.20");
  expect_wrong_state (fixture, "131-E01");
  pin (fixture, BOND_CONNECTORS_UNMATED, "G1");
  window_type_reading (fixture, "2.60");
  result = result_of (bond_walk_get_survey (walk_of (fixture)), "131-E01");
  g_assert_cmpint (result->state, ==, BOND_STATE_FAIL); /* the mated reading flattered it */
  g_assert_true (bond_walk_is_stopped (walk_of (fixture)));
  pin (fixture, BOND_CONNECTORS_MATED, "G1");
  window_type_reading (fixture, "231-E04");
  window_type_reading (fixture, "1.30");
  expect_wrong_state (fixture, "231-E04");

  file = window_read_again (fixture);
  result = result_of (bond_survey_file_get_survey (file), "131-E01");
  g_assert_cmpuint (result->history->len, ==, 2); /* both kept */
  g_assert_cmpint (nth_reading (result, 0)->reading.connectors, ==, BOND_CONNECTORS_MATED);
  g_assert_cmpint (nth_reading (result, 1)->reading.connectors, ==, BOND_CONNECTORS_UNMATED);
}

/* Row 14: the move is an entry, and each reading names its end. */
static void
test_clip_moves (WindowFixture *fixture, gconstpointer data)
{
  g_autoptr (BondSurveyFile) file = NULL;
  BondSurvey *survey;
  GPtrArray *entries;
  guint moves = 0;

  window_begin (fixture);
  pin (fixture, BOND_CONNECTORS_UNMATED, "G1");
  window_type_reading (fixture, "551-J01");
  window_type_reading (fixture, "1.87");
  pin (fixture, BOND_CONNECTORS_UNMATED, "G2");
  window_type_reading (fixture, "1.90");

  file = window_read_again (fixture);
  survey = bond_survey_file_get_survey (file);
  g_assert_cmpstr (nth_reading (result_of (survey, "551-J01"), 0)->reading.reference_end, ==, "G1");
  g_assert_cmpstr (nth_reading (result_of (survey, "551-J02"), 0)->reading.reference_end, ==, "G2");
  entries = bond_survey_get_entries (survey);
  for (guint i = 0; i < entries->len; i++)
    {
      const BondEntry *entry = g_ptr_array_index (entries, i);

      if (entry->kind != BOND_ENTRY_REFERENCE || entry->reference_move.from == NULL)
        continue;
      g_assert_cmpstr (entry->reference_move.from, ==, "G1");
      g_assert_cmpstr (entry->reference_move.to, ==, "G2");
      moves++;
    }
  g_assert_cmpuint (moves, ==, 1);
}

int
main (int argc, char **argv)
{
  g_setenv ("GTK_A11Y", "test", TRUE);
  g_setenv ("GSK_RENDERER", "cairo", TRUE);
  g_unsetenv ("DBUS_SESSION_BUS_ADDRESS");
  g_test_init (&argc, &argv, NULL);
  gtk_init ();
  g_test_add ("/gui/scenario-7/connectors", WindowFixture, &day, window_set_up, test_connectors, window_tear_down);
  g_test_add ("/gui/scenario-7/clip-moves", WindowFixture, &day, window_set_up, test_clip_moves, window_tear_down);
  return g_test_run ();
}
