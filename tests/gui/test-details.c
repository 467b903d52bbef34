/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * Point Details: every way that opens it, what it says against what the survey
 * holds, that it stays true while entries come, and that keys reach all of it.
 */
#include "gui/details/details-line.h"
#include "gui/details/details-window.h"
#include "gui/details/earlier-strip.h"
#include "gui/dialogs/void-dialog.h"
#include "gui/pages/readings-page.h"
#include "gui/survey-window-private.h"
#include "gui/words.h"
#include "reach.h"
#include "screen.h"
#include "window-fixture.h"

static BondDetailsWindow *
find_details (void)
{
  GListModel *windows = gtk_window_get_toplevels ();

  for (guint i = 0; i < g_list_model_get_n_items (windows); i++)
    {
      g_autoptr (GtkWindow) window = g_list_model_get_item (windows, i);

      if (BOND_IS_DETAILS_WINDOW (window))
        return BOND_DETAILS_WINDOW (window);
    }
  return NULL;
}

static BondDetailsWindow *
open_details (WindowFixture *fixture)
{
  gtk_widget_activate_action (GTK_WIDGET (fixture->window), "win.point-details", NULL);
  screen_spin (150);
  g_assert_nonnull (find_details ());
  return find_details ();
}

static const char *
number_shown (BondDetailsWindow *details)
{
  return bond_point_get_number (
      bond_walk_get_point (bond_details_view_get_walk (bond_details_window_get_view (details))));
}

static void
expect_says (BondDetailsWindow *details, const char *text)
{
  if (!window_says (GTK_WIDGET (details), text))
    g_error ("Point Details do not say “%s”", text);
}

static void
close_details (void)
{
  gtk_window_close (GTK_WINDOW (find_details ()));
  screen_spin (50);
  g_assert_null (find_details ());
}

static GtkListBox *
history_of (BondDetailsWindow *details)
{
  return GTK_LIST_BOX (window_find_of_type (GTK_WIDGET (details), GTK_TYPE_LIST_BOX, NULL));
}

static guint
n_rows (BondDetailsWindow *details)
{
  guint n = 0;

  while (gtk_list_box_get_row_at_index (history_of (details), (int)n) != NULL)
    n++;
  return n;
}

static gboolean
field_has_focus (WindowFixture *fixture)
{
  GtkWidget *focus = gtk_root_get_focus (GTK_ROOT (fixture->window));

  return focus != NULL
         && gtk_widget_is_ancestor (focus, GTK_WIDGET (bond_reading_panel_get_entry (window_panel_of (fixture))));
}

/* --- the ways in --- */

/* Whether a key of @widget's own does @action. */
static gboolean
has_key (GtkWidget *widget, guint keyval, GdkModifierType modifiers, const char *action)
{
  g_autoptr (GListModel) controllers = gtk_widget_observe_controllers (widget);

  for (guint i = 0; i < g_list_model_get_n_items (controllers); i++)
    {
      g_autoptr (GtkEventController) controller = g_list_model_get_item (controllers, i);

      for (guint k = 0;
           GTK_IS_SHORTCUT_CONTROLLER (controller) && k < g_list_model_get_n_items (G_LIST_MODEL (controller)); k++)
        {
          g_autoptr (GtkShortcut) shortcut = g_list_model_get_item (G_LIST_MODEL (controller), k);
          GtkShortcutTrigger *trigger = gtk_shortcut_get_trigger (shortcut);
          GtkShortcutAction *act = gtk_shortcut_get_action (shortcut);

          if (GTK_IS_KEYVAL_TRIGGER (trigger) && GTK_IS_NAMED_ACTION (act)
              && gtk_keyval_trigger_get_keyval (GTK_KEYVAL_TRIGGER (trigger)) == keyval
              && gtk_keyval_trigger_get_modifiers (GTK_KEYVAL_TRIGGER (trigger)) == modifiers
              && g_str_equal (gtk_named_action_get_action_name (GTK_NAMED_ACTION (act)), action))
            return TRUE;
        }
    }
  return FALSE;
}

static void
test_keys (WindowFixture *fixture, gconstpointer data)
{
  g_auto (GStrv) accels = NULL;

  window_begin (fixture);
  accels = gtk_application_get_accels_for_action (GTK_APPLICATION (fixture->application), "win.point-details");
  g_assert_cmpstr (accels[0], ==, "F4");
  g_assert_true (has_key (GTK_WIDGET (fixture->window), GDK_KEY_Return, GDK_ALT_MASK, "win.point-details"));
  g_assert_cmpstr (number_shown (open_details (fixture)), ==, "521-J01");
  g_assert_true (has_key (GTK_WIDGET (find_details ()), GDK_KEY_Escape, 0, "details.close"));
  g_assert_true (has_key (GTK_WIDGET (find_details ()), GDK_KEY_Left, GDK_ALT_MASK, "details.previous"));
  g_assert_true (has_key (GTK_WIDGET (find_details ()), GDK_KEY_Right, GDK_ALT_MASK, "details.next"));
  gtk_widget_activate_action (GTK_WIDGET (find_details ()), "details.close", NULL);
  screen_spin (50);
  g_assert_null (find_details ());
  g_assert_true (field_has_focus (fixture));
}

static BondReadingsPage *
readings_of (WindowFixture *fixture, const char *number)
{
  BondReadingsPage *page;
  BondSurvey *survey = bond_walk_get_survey (bond_survey_window_get_walk (fixture->window));

  bond_survey_window_show_page (fixture->window, "readings");
  page = BOND_READINGS_PAGE (
      window_find_of_type (gtk_window_get_child (GTK_WINDOW (fixture->window)), BOND_TYPE_READINGS_PAGE, NULL));
  screen_spin (100);
  g_assert_true (
      bond_readings_table_choose (bond_readings_page_get_table (page), bond_survey_find_number (survey, number), NULL));
  screen_spin (50);
  return page;
}

/* What Enter and a double click on the row chosen come to. */
static void
activate_chosen (BondReadingsPage *page)
{
  GtkColumnView *view = bond_readings_table_get_view (bond_readings_page_get_table (page));
  GtkSelectionModel *model = gtk_column_view_get_model (view);
  guint at = 0;

  while (at < g_list_model_get_n_items (G_LIST_MODEL (model)) && !gtk_selection_model_is_selected (model, at))
    at++;
  g_assert_cmpuint (at, <, g_list_model_get_n_items (G_LIST_MODEL (model)));
  g_signal_emit_by_name (view, "activate", at);
  screen_spin (50);
}

/* Enter, a double click and the menu of a row of the Readings page: the row's point, not that of the walk. */
static void
test_from_readings (WindowFixture *fixture, gconstpointer data)
{
  BondReadingsPage *page;

  window_begin (fixture);
  page = readings_of (fixture, "521-J03");
  activate_chosen (page);
  g_assert_cmpstr (number_shown (find_details ()), ==, "521-J03");
  close_details ();
  gtk_widget_activate_action (GTK_WIDGET (page), "readings.details", NULL);
  g_assert_cmpstr (number_shown (find_details ()), ==, "521-J03");
  g_assert_cmpstr (window_number_in_hand (fixture), ==, "521-J01");
  window_press (find_details (), "Go to Point");
  screen_spin (50);
  g_assert_null (find_details ());
  g_assert_cmpstr (window_number_in_hand (fixture), ==, "521-J03");
  g_assert_true (field_has_focus (fixture));
}

/* --- what it says --- */

static void
test_empty (WindowFixture *fixture, gconstpointer data)
{
  BondDetailsWindow *details;

  window_begin (fixture);
  details = open_details (fixture);
  expect_says (details, "521-J01");
  expect_says (details, "End 1 – Structure");
  expect_says (details, "point 1 of 3 on the walk");
  expect_says (details, "The next reading is judged against ≤ 2.5 mΩ.");
  expect_says (details, "No reading yet.");
  expect_says (details, "First survey of this point.");
  expect_says (details, "No value counts, so there is no uncertainty.");
  expect_says (details, "structure J");
  reach_assert (GTK_WINDOW (details));
}

/* Accuracy 0.25 % of 1.83 mΩ and one step of 0.01 mΩ: 0.014575 mΩ; see the meter of the fixture. */
static void
test_pass (WindowFixture *fixture, gconstpointer data)
{
  BondDetailsWindow *details;

  window_begin (fixture);
  window_type_reading (fixture, "1.83");
  bond_walk_step (bond_survey_window_get_walk (fixture->window), -1);
  details = open_details (fixture);
  expect_says (details, "Pass: 1.83 mΩ against ≤ 2.5 mΩ");
  expect_says (details, "Pass, as found, counts");
  expect_says (details, "TM-1, range 30 mΩ, T. Tester");
  expect_says (details, "said then: pass");
  expect_says (details, "permit P-1");
  expect_says (details, "Accuracy of the range, rectangular");
  expect_says (details, "0.0146");  /* half-width */
  expect_says (details, "0.00841"); /* ÷ √3 */
  expect_says (details, "Combined, and ν effective");
  expect_says (details, "U with k = 2, rounded up");
  expect_says (details, "Probe placing not included");
  expect_says (details, "simple acceptance");
  reach_assert (GTK_WINDOW (details));
}

static void
test_live (WindowFixture *fixture, gconstpointer data)
{
  BondDetailsWindow *details;
  guint before;

  window_begin (fixture);
  details = open_details (fixture);
  before = n_rows (details);
  gtk_widget_grab_focus (GTK_WIDGET (gtk_list_box_get_row_at_index (history_of (details), 0)));
  window_type_reading (fixture, "4.00");
  screen_spin (100);
  expect_says (details, "Fail: 4.00 mΩ against ≤ 2.5 mΩ");
  g_assert_cmpuint (n_rows (details), ==, before); /* the empty row went */
  window_type_reading (fixture, "4.10");
  screen_spin (100);
  g_assert_cmpuint (n_rows (details), ==, before + 1);
  expect_says (details, "Fail, re-seated");
  g_assert_true (gtk_widget_get_focus_child (GTK_WIDGET (history_of (details)))
                 == GTK_WIDGET (gtk_list_box_get_row_at_index (history_of (details), 0)));
}

static void
record (WindowFixture *fixture, BondEntry *entry)
{
  bond_walk_record_entry (bond_survey_window_get_walk (fixture->window), entry);
  window_wait_written (fixture);
  for (int i = 0; i < 200 && bond_survey_is_busy (bond_walk_get_survey (bond_survey_window_get_walk (fixture->window)));
       i++)
    screen_spin (10);
}

static GtkLabel *
find_struck (GtkWidget *widget)
{
  if (GTK_IS_LABEL (widget) && gtk_label_get_attributes (GTK_LABEL (widget)) != NULL)
    return GTK_LABEL (widget);
  for (GtkWidget *child = gtk_widget_get_first_child (widget); child != NULL;
       child = gtk_widget_get_next_sibling (child))
    {
      GtkLabel *found = find_struck (child);

      if (found != NULL)
        return found;
    }
  return NULL;
}

static void
test_void (WindowFixture *fixture, gconstpointer data)
{
  BondWalk *walk = bond_survey_window_get_walk (fixture->window);
  BondEntry *entry = bond_entry_new (BOND_ENTRY_VOID);
  BondDetailsWindow *details;

  window_begin (fixture);
  window_type_reading (fixture, "0.40");
  entry->ref = g_strdup (bond_walk_last_reading (walk)->id);
  entry->point = g_strdup (bond_walk_last_reading (walk)->point);
  entry->voided.why = BOND_VOID_WRONG_POINT;
  entry->reason = g_strdup ("probes were on 521-J02");
  record (fixture, entry);
  bond_walk_step (walk, -1);
  details = open_details (fixture);
  expect_says (details, "void, wrong point, probes were on 521-J02");
  g_assert_nonnull (find_struck (GTK_WIDGET (history_of (details))));
  g_assert_true (g_str_has_prefix (gtk_label_get_text (find_struck (GTK_WIDGET (history_of (details)))), "0"));
  expect_says (details, "No value counts");
}

static void
test_undone (WindowFixture *fixture, gconstpointer data)
{
  BondWalk *walk = bond_survey_window_get_walk (fixture->window);
  BondDetailsWindow *details;

  window_begin (fixture);
  window_type_reading (fixture, "1.40");
  bond_walk_undo (walk, BOND_VOID_NONE, NULL);
  window_wait_written (fixture);
  screen_spin (100);
  bond_walk_go (walk, bond_survey_find_number (bond_walk_get_survey (walk), "521-J01"), NULL);
  details = open_details (fixture);
  expect_says (details, "undone");
  expect_says (details, "Undone");
  g_assert_nonnull (find_struck (GTK_WIDGET (history_of (details))));
}

/* Every row with its own limit and verdict; which of them governs. */
static void
test_rows (WindowFixture *fixture, gconstpointer data)
{
  BondDetailsWindow *details;

  window_begin (fixture);
  window_type_reading (fixture, "4.00");
  details = open_details (fixture);
  expect_says (details, "example/J-2.5, governs, Fail");
  expect_says (details, "example/J-5, Pass");
  expect_says (details, "J-2.5 Fail, J-5 Pass");
  expect_says (details, "≤ 2.5 mΩ in service, which is in force");
  expect_says (details, "≤ 5 mΩ in service, which is in force");
}

static const WindowPoint two_rows[] = { { "521-J01", "example/J-2.5 example/J-5", BOND_CONDITION_UNDISTURBED } };
static const WindowPoints points_of_two_rows = { two_rows, G_N_ELEMENTS (two_rows) };

/* --- the demo survey, which has most of what can happen --- */

static BondDetailsWindow *
open_demo (WindowFixture *fixture, const char *number)
{
  g_autofree char *demo = g_test_build_filename (G_TEST_DIST, "..", "data", "demo", "zz-lmq-invented.bondsurvey", NULL);
  g_autofree char *path = g_build_filename (fixture->folder, "demo.bondsurvey", NULL);
  g_autoptr (GFile) from = g_file_new_for_path (demo), to = g_file_new_for_path (path);
  g_autoptr (GError) error = NULL;
  BondSurveyWindow *window;
  BondWalk *walk;

  g_file_copy (from, to, G_FILE_COPY_NONE, NULL, NULL, NULL, &error);
  g_assert_no_error (error);
  window = bond_application_open_survey (fixture->application, path);
  g_assert_nonnull (window);
  bond_survey_window_begin (window);
  walk = bond_survey_window_get_walk (window);
  bond_walk_go (walk, bond_survey_find_number (bond_walk_get_survey (walk), number), NULL);
  gtk_widget_activate_action (GTK_WIDGET (window), "win.point-details", NULL);
  screen_spin (200);
  return find_details ();
}

static void
test_earlier (WindowFixture *fixture, gconstpointer data)
{
  BondDetailsWindow *details = open_demo (fixture, "571-J01");
  GtkWidget *strip = window_find_of_type (GTK_WIDGET (details), BOND_TYPE_EARLIER_STRIP, NULL);

  g_assert_nonnull (strip);
  g_assert_nonnull (strstr (gtk_widget_get_tooltip_text (strip), "Nov 2020"));
  g_assert_nonnull (strstr (gtk_widget_get_tooltip_text (strip), "After rework"));
  expect_says (details, "Pass after rework: ");
  expect_says (details, "The joint is bare since ");
  expect_says (details, "surfaces cleaned");
  expect_says (details, "Left aileron, in ");
  reach_assert (GTK_WINDOW (details));
}

static void
test_group (WindowFixture *fixture, gconstpointer data)
{
  BondDetailsWindow *details = open_demo (fixture, "522-F02");
  BondWalk *walk = bond_details_view_get_walk (bond_details_window_get_view (details));
  GPtrArray *places = bond_point_get_places (bond_walk_get_point (walk));

  g_assert_cmpuint (places->len, >, 2);
  expect_says (details, "Places planned");
  for (guint i = 0; i < places->len; i++)
    {
      const BondPlaceResult *place = g_ptr_array_index (places, i);

      expect_says (details, place->label != NULL ? place->label : place->place);
    }
}

/* The demo's places were entered in one go: one line for all. */
static guint
n_merged (GPtrArray *story)
{
  guint n = 0;

  for (guint i = 0; i < story->len; i++)
    n += ((BondStoryLine *)story->pdata[i])->entry->kind == BOND_ENTRY_PLACE;
  return n > 0 ? n - 1 : 0;
}

/* Every point of the demo survey: nothing it says is worth a warning, and the history is as long as the story. */
static void
test_all_points (WindowFixture *fixture, gconstpointer data)
{
  BondDetailsWindow *details = open_demo (fixture, "571-J01");
  BondWalk *walk = bond_details_view_get_walk (bond_details_window_get_view (details));
  BondSurvey *survey = bond_walk_get_survey (walk);
  guint n = g_list_model_get_n_items (G_LIST_MODEL (survey));

  bond_walk_go (walk, bond_survey_find_number (survey, "111-J01"), NULL);
  for (guint i = 0; i < n; i++)
    {
      g_autoptr (BondPoint) point = g_list_model_get_item (G_LIST_MODEL (survey), i);
      g_autoptr (GPtrArray) story = bond_point_story (point);
      guint expected = story->len - n_merged (story);
      gboolean measured = FALSE;

      bond_walk_go (walk, point, NULL);
      while (g_main_context_iteration (NULL, FALSE))
        continue;
      for (guint k = 0; k < story->len; k++)
        measured |= ((BondStoryLine *)story->pdata[k])->item != NULL
                    && ((BondStoryLine *)story->pdata[k])->item->measurement != NULL;
      g_assert_cmpuint (n_rows (details), ==, expected + !measured);
      expect_says (details, bond_point_get_number (point));
    }
}

static void
test_steps (WindowFixture *fixture, gconstpointer data)
{
  BondDetailsWindow *details;

  window_begin (fixture);
  details = open_details (fixture);
  gtk_widget_activate_action (GTK_WIDGET (details), "details.next", NULL);
  screen_spin (50);
  g_assert_cmpstr (number_shown (details), ==, "521-J02");
  expect_says (details, "point 2 of 3 on the walk");
  g_assert_cmpstr (window_number_in_hand (fixture), ==, "521-J01"); /* the walk stays where it is */
  gtk_widget_activate_action (GTK_WIDGET (details), "details.previous", NULL);
  gtk_widget_activate_action (GTK_WIDGET (details), "details.previous", NULL);
  g_assert_cmpstr (number_shown (details), ==, "521-J01");
}

static void
test_copy (WindowFixture *fixture, gconstpointer data)
{
  BondDetailsWindow *details;
  g_autofree char *text = NULL;

  window_begin (fixture);
  window_type_reading (fixture, "1.83");
  bond_walk_step (bond_survey_window_get_walk (fixture->window), -1);
  details = open_details (fixture);
  text = bond_details_view_text (bond_details_window_get_view (details));
  g_assert_nonnull (strstr (text, "521-J01\tEnd 1 – Structure\n"));
  g_assert_nonnull (strstr (text, "\tPass, as found, counts\t"));
}

/* Closing the survey takes its details along, and the other way round leaves it open. */
static void
test_closing (WindowFixture *fixture, gconstpointer data)
{
  window_begin (fixture);
  open_details (fixture);
  close_details ();
  open_details (fixture);
  gtk_window_destroy (GTK_WINDOW (fixture->window));
  screen_spin (50);
  g_assert_null (find_details ());
}

static void
test_height (void)
{
  double limit = bond_earlier_strip_height (2.5e6, 2.5e6);

  g_assert_cmpfloat (bond_earlier_strip_height (4e6, 2.5e6), <, limit);
  g_assert_cmpfloat (bond_earlier_strip_height (1e6, 2.5e6), >, limit);
  /* The limit stands at one place, and twice the limit is the same step above whatever it is. */
  g_assert_cmpfloat_with_epsilon (bond_earlier_strip_height (1e9, 1e9), limit, 1e-12);
  g_assert_cmpfloat_with_epsilon (bond_earlier_strip_height (2e9, 1e9), bond_earlier_strip_height (5e6, 2.5e6), 1e-12);
  g_assert_cmpfloat (bond_earlier_strip_height (0, 1e6), >, bond_earlier_strip_height (1e5, 1e6));
  g_assert_cmpfloat (bond_earlier_strip_height (1e18, 1), >, 0);
}

static void
test_offset (void)
{
  static const char *const rows[][2] = { { "2026-11-24T10:00:00+01:00", "UTC+1" },
                                         { "2026-11-24T10:00:00-03:30", "UTC−3:30" },
                                         { "2026-11-24T10:00:00Z", "UTC" },
                                         { "yesterday", NULL } };

  for (gsize i = 0; i < G_N_ELEMENTS (rows); i++)
    {
      g_autofree char *words = bond_words_offset (rows[i][0]);

      g_assert_cmpstr (words, ==, rows[i][1]);
    }
}

int
main (int argc, char **argv)
{
  g_setenv ("GTK_A11Y", "test", TRUE);
  g_setenv ("GSK_RENDERER", "cairo", TRUE);
  g_unsetenv ("DBUS_SESSION_BUS_ADDRESS");
  g_test_init (&argc, &argv, NULL);
  gtk_init ();
#define ADD(name, data, test)                                                                                          \
  g_test_add ("/gui/details/" name, WindowFixture, data, window_set_up, test, window_tear_down)
  g_test_add_func ("/gui/details/height", test_height);
  g_test_add_func ("/gui/details/offset", test_offset);
  ADD ("keys", NULL, test_keys);
  ADD ("from-readings", NULL, test_from_readings);
  ADD ("empty", NULL, test_empty);
  ADD ("pass", NULL, test_pass);
  ADD ("live", NULL, test_live);
  ADD ("void", NULL, test_void);
  ADD ("undone", NULL, test_undone);
  ADD ("rows", &points_of_two_rows, test_rows);
  ADD ("earlier", NULL, test_earlier);
  ADD ("group", NULL, test_group);
  ADD ("all-points", NULL, test_all_points);
  ADD ("steps", NULL, test_steps);
  ADD ("copy", NULL, test_copy);
  ADD ("closing", NULL, test_closing);
  return g_test_run ();
}
