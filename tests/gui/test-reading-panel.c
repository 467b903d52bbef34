/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * The reading panel and its flow: what is asked before a reading is recorded, what
 * Record promises, and what voiding offers.
 */
#include "gui/words.h"
#include "screen.h"
#include "window-fixture.h"

static const char *
said (WindowFixture *fixture)
{
  return bond_reading_panel_get_said (window_panel_of (fixture));
}

static const char *
record_text (WindowFixture *fixture)
{
  return bond_reading_panel_get_record_text (window_panel_of (fixture));
}

static void
answer (WindowFixture *fixture, const char *label)
{
  GtkWidget *button = window_find_of_type (GTK_WIDGET (window_panel_of (fixture)), GTK_TYPE_BUTTON, label);

  g_assert_nonnull (button);
  g_signal_emit_by_name (button, "clicked");
  window_wait_written (fixture);
}

/* Either value of a pair is asked about as a single one is; while a question stands nothing is promised. */
static void
test_pair_questions (WindowFixture *fixture, gconstpointer data)
{
  static const struct
  {
    const char *typed, *asked;
  } cases[] = { { "1.84 0", "Zero" },        { "0 1.84", "Zero" },        { "1.84 <0.01", "Nothing was recorded" },
                { "1.84 40", "range ends" }, { "40 1.84", "range ends" }, { "1.84 1.8451", "shows steps" },
                { "1.84 1840", "unit" },     { "1840 1.84", "unit" },     { "1.84 >300", "Nothing was recorded" } };
  BondSurvey *survey = bond_walk_get_survey (bond_survey_window_get_walk (fixture->window));
  guint before;

  window_begin (fixture);
  before = bond_survey_get_entries (survey)->len;
  for (gsize i = 0; i < G_N_ELEMENTS (cases); i++)
    {
      window_type_reading (fixture, cases[i].typed);
      g_assert_cmpint (bond_survey_get_entries (survey)->len, ==, before);
      g_test_message ("%s: %s", cases[i].typed, said (fixture));
      g_assert_nonnull (strstr (said (fixture), cases[i].asked));
      if (strstr (said (fixture), "Nothing was recorded") == NULL)
        g_assert_cmpstr (record_text (fixture), ==, "Answer the Question First");
    }
  window_type_reading (fixture, "1.84 1840"); /* the other half keeps its unit */
  answer (fixture, "1840\302\240µΩ");
  g_assert_cmpint (bond_survey_get_entries (survey)->len, ==, before + 2);
  g_assert_cmpint (bond_mean_nohm (&bond_point_get_worst (bond_survey_find_number (survey, "521-J01"))->decides->mean),
                   ==, 1840000);
}

/* The meter cannot have shown it on the pinned range: neither beyond its end nor finer than its step. */
static void
test_range (WindowFixture *fixture, gconstpointer data)
{
  BondWalk *walk = bond_survey_window_get_walk (fixture->window);
  BondSurvey *survey = bond_walk_get_survey (walk);
  static const char *const fine[] = { "1.84", "1.80", "184.05", ">30", "<0.01" };
  static const char *const shown[] = { "1.8", ">300", "<0.1", "OL" };
  guint before;

  window_begin (fixture);
  before = bond_survey_get_entries (survey)->len;
  window_type_reading (fixture, ">300");
  g_assert_nonnull (strstr (said (fixture), "range ends"));
  g_assert_cmpint (bond_survey_get_entries (survey)->len, ==, before);
  answer (fixture, "300\302\240mΩ Range");
  g_assert_cmpint (bond_survey_get_entries (survey)->len, ==, before + 1);
  g_assert_cmpstr (bond_walk_get_pinned (walk)->range, ==, "300m");
  bond_walk_jump (walk, "521-J02");
  for (gsize i = 0; i < G_N_ELEMENTS (fine); i++)
    {
      g_auto (BondAttempt) attempt = { 0 };

      bond_walk_try (walk, fine[i], BOND_ANSWER_TWO_PARTS, &attempt);
      g_assert_cmpint (attempt.ask, ==, BOND_ASK_RANGE);
      g_assert_cmpstr (attempt.range, ==, g_str_equal (fine[i], "184.05") ? NULL : "30m");
    }
  for (gsize i = 0; i < G_N_ELEMENTS (shown); i++)
    {
      g_auto (BondAttempt) attempt = { 0 };

      bond_walk_try (walk, shown[i], BOND_ANSWER_TWO_PARTS, &attempt);
      g_assert_cmpint (attempt.ask, ==, BOND_ASK_NONE);
    }
  window_type_reading (fixture, "1.84");
  answer (fixture, "30\302\240mΩ Range");
  g_assert_cmpint (bond_survey_get_entries (survey)->len, ==, before + 2);
  g_assert_cmpstr (bond_walk_get_pinned (walk)->range, ==, "30m");
}

/* What Record says of a pair, the first and the second, is what comes of it. */
static void
test_pairs (WindowFixture *fixture, gconstpointer data)
{
  static const char *const typed[] = { "1.84 1.20", "1.84 1.80" };
  BondSurvey *survey = bond_walk_get_survey (bond_survey_window_get_walk (fixture->window));
  BondPoint *point = bond_survey_find_number (survey, "521-J01");

  window_begin (fixture);
  for (gsize i = 0; i < G_N_ELEMENTS (typed); i++)
    {
      g_autofree char *promised = NULL;
      g_autofree char *verdict = NULL;
      g_autofree char *value = NULL;

      gtk_editable_set_text (bond_reading_panel_get_entry (window_panel_of (fixture)), typed[i]);
      promised = g_strdup (record_text (fixture));
      bond_reading_panel_record (window_panel_of (fixture));
      window_wait_written (fixture);
      verdict = bond_words_verdict (bond_point_get_worst (point), BOND_RULE_SIMPLE);
      value = bond_words_result (survey, bond_point_get_worst (point)->last, BOND_UNIT_MILLIOHM, TRUE);
      g_test_message ("%s: %s; recorded %s, %s", typed[i], promised, value, verdict);
      g_assert_true (g_str_has_suffix (promised, verdict));
      if (i == 0)
        g_assert_cmpstr (promised, ==, "Record pair, no verdict");
      else if (bond_point_get_worst (point)->last->mean.count > 0)
        g_assert_nonnull (strstr (promised, value));
    }
  g_assert_cmpint (bond_point_get_worst (point)->last->readings->len, ==, 4);
}

static GtkWidget *
find_check (GtkWidget *widget, const char *label)
{
  if (GTK_IS_CHECK_BUTTON (widget) && g_strcmp0 (gtk_check_button_get_label (GTK_CHECK_BUTTON (widget)), label) == 0)
    return widget;
  for (GtkWidget *child = gtk_widget_get_first_child (widget); child != NULL;
       child = gtk_widget_get_next_sibling (child))
    {
      GtkWidget *found = find_check (child, label);

      if (found != NULL)
        return found;
    }
  return NULL;
}

/* "Other" is not for a reading that fails, and what core refuses is said in the dialog. */
static void
test_void (WindowFixture *fixture, gconstpointer data)
{
  BondWalk *walk = bond_survey_window_get_walk (fixture->window);
  guint before;
  GtkWindow *dialog;
  GtkWidget *other, *which, *act;

  window_begin (fixture);
  window_type_reading (fixture, "3.12");
  window_type_reading (fixture, "1.80");
  before = bond_survey_get_entries (bond_walk_get_survey (walk))->len;
  gtk_widget_activate_action (GTK_WIDGET (fixture->window), "win.void-reading", NULL);
  dialog = window_newest_dialog ();
  g_assert_nonnull (dialog);
  which = window_find_of_type (GTK_WIDGET (dialog), GTK_TYPE_DROP_DOWN, NULL);
  act = window_find_of_type (GTK_WIDGET (dialog), GTK_TYPE_BUTTON, "Record");
  other = find_check (GTK_WIDGET (dialog), "Other");
  g_assert_nonnull (other);
  g_assert_true (gtk_widget_get_visible (other)); /* the pass, newest first */
  gtk_drop_down_set_selected (GTK_DROP_DOWN (which), 1);
  g_assert_false (gtk_widget_get_visible (other)); /* the fail */
  gtk_check_button_set_active (GTK_CHECK_BUTTON (other), TRUE);
  window_fill (dialog, 2, "poor contact");
  g_signal_emit_by_name (act, "clicked");
  g_assert_true (window_newest_dialog () == dialog);
  g_assert_cmpint (bond_survey_get_entries (bond_walk_get_survey (walk))->len, ==, before);
  gtk_check_button_set_active (GTK_CHECK_BUTTON (find_check (GTK_WIDGET (dialog), "Instrument fault")), TRUE);
  g_signal_emit_by_name (act, "clicked");
  window_wait_written (fixture);
  g_assert_null (window_newest_dialog ());
  g_assert_cmpint (bond_survey_get_entries (bond_walk_get_survey (walk))->len, ==, before + 1);
}

int
main (int argc, char **argv)
{
  g_setenv ("GTK_A11Y", "test", TRUE);
  g_setenv ("GSK_RENDERER", "cairo", TRUE);
  g_unsetenv ("DBUS_SESSION_BUS_ADDRESS");
  g_test_init (&argc, &argv, NULL);
  gtk_init ();
#define ADD(name, test)                                                                                                \
  g_test_add ("/gui/reading-panel/" name, WindowFixture, NULL, window_set_up, test, window_tear_down)
  ADD ("pair-questions", test_pair_questions);
  ADD ("range", test_range);
  ADD ("pairs", test_pairs);
  ADD ("void", test_void);
  return g_test_run ();
}
