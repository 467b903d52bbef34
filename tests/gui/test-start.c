/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * The page Surveys of the start window on real files: aircraft in words, search and
 * filters, every kind of file that needs a look, and what its buttons do.
 */
#include "gui/start/timeline.h"
#include "reach.h"
#include "screen.h"
#include "start-fixture.h"

#include <glib/gstdio.h>
#include <string.h>

static void
test_empty (StartFixture *fixture, gconstpointer data)
{
  start_open (fixture);
  g_assert_nonnull (start_says (GTK_WIDGET (start_surveys (fixture)), "No surveys yet."));
  g_assert_nonnull (start_says (GTK_WIDGET (start_surveys (fixture)),
                                "A survey is one walk round one aircraft. Start from an airframe, or open a file."));
  reach_assert (GTK_WINDOW (fixture->window));
}

static void
test_aircraft (StartFixture *fixture, gconstpointer data)
{
  GtkWidget *page;

  start_make (fixture, "a.bondsurvey", "ZZ-AAA", "1", 3120000);
  start_make (fixture, "b.bondsurvey", "ZZ-BBB", "2", 1840000);
  start_make (fixture, "b2.bondsurvey", "ZZ-BBB", "2", 1840000);
  start_go_on (fixture, "b.bondsurvey");
  start_go_on (fixture, "b2.bondsurvey");
  start_open (fixture);
  page = GTK_WIDGET (start_surveys (fixture));
  g_assert_cmpuint (start_n_rows (fixture, NULL), ==, 2);
  g_assert_nonnull (start_says (page, "open, 0 of 2 done, 1 fail"));
  g_assert_nonnull (start_says (page, "nothing open, 2 of 2 done"));
  g_assert_nonnull (start_says (page, "last reading 571-J31"));
  g_assert_nonnull (start_says (page, "invented data"));
  g_assert_nonnull (start_says (page, "MSN\u00a01"));
  g_assert_nonnull (start_button (fixture, "ZZ-AAA", "Continue"));
  g_assert_null (start_button (fixture, "ZZ-AAA", "Survey Again"));
  g_assert_nonnull (start_button (fixture, "ZZ-BBB", "Survey Again"));
  reach_assert (GTK_WINDOW (fixture->window));
}

/* The keys are the list's from the start, and what is typed searches wherever they are, on this page only. */
static void
test_focus (StartFixture *fixture, gconstpointer data)
{
  GtkWidget *search, *row;

  start_make (fixture, "a.bondsurvey", "ZZ-AAA", "1", 3120000);
  start_open (fixture);
  search = GTK_WIDGET (bond_surveys_page_get_search (start_surveys (fixture)));
  row = GTK_WIDGET (gtk_list_box_get_row_at_index (bond_surveys_page_get_list (start_surveys (fixture)), 0));
  g_assert_true (gtk_window_get_focus (GTK_WINDOW (fixture->window)) == row);
  g_assert_true (gtk_search_entry_get_key_capture_widget (GTK_SEARCH_ENTRY (search)) == GTK_WIDGET (fixture->window));
  bond_start_window_show_page (fixture->window, "house");
  screen_spin (100);
  g_assert_null (gtk_search_entry_get_key_capture_widget (GTK_SEARCH_ENTRY (search)));
}

static void
test_search_and_filters (StartFixture *fixture, gconstpointer data)
{
  GtkWidget *page, *row = NULL;
  GtkEditable *search;

  start_make (fixture, "a.bondsurvey", "ZZ-AAA", "1", 3120000);
  start_make (fixture, "b.bondsurvey", "ZZ-BBB", "2", 1840000);
  start_go_on (fixture, "b.bondsurvey");
  start_open (fixture);
  page = GTK_WIDGET (start_surveys (fixture));
  search = bond_surveys_page_get_search (start_surveys (fixture));
  gtk_editable_set_text (search, "zz-b w-7"); /* each word, in any order, whatever its case */
  screen_spin (300);
  g_assert_cmpuint (start_n_rows (fixture, &row), ==, 1);
  g_assert_nonnull (start_says (row, "ZZ-BBB"));
  gtk_editable_set_text (search, "zebra");
  screen_spin (300);
  g_assert_cmpuint (start_n_rows (fixture, NULL), ==, 0);
  g_assert_nonnull (start_says (page, "No survey matches “zebra”."));
  gtk_editable_set_text (search, "");
  gtk_toggle_button_set_active (GTK_TOGGLE_BUTTON (window_find_of_type (page, GTK_TYPE_TOGGLE_BUTTON, "Open")), TRUE);
  screen_spin (300);
  g_assert_cmpuint (start_n_rows (fixture, &row), ==, 1);
  g_assert_nonnull (start_says (row, "ZZ-AAA"));
  gtk_toggle_button_set_active (GTK_TOGGLE_BUTTON (window_find_of_type (page, GTK_TYPE_TOGGLE_BUTTON, "Needs a Look")),
                                TRUE);
  screen_spin (300);
  g_assert_cmpuint (start_n_rows (fixture, &row), ==, 1); /* the fail wants eyes; the other has none */
  g_assert_nonnull (start_says (row, "ZZ-AAA"));
}

static GtkWidget *
column_of (GtkListBoxRow *row, GType type)
{
  return window_find_of_type (GTK_WIDGET (row), type, NULL);
}

/* However the texts break, the lines of time stand under each other and mean the same years. */
static void
test_columns (StartFixture *fixture, gconstpointer data)
{
  static const int widths[] = { 900, 1024, 1280, 1920 };
  GtkListBox *list;

  start_make (fixture, "a.bondsurvey", "ZZ-AAA", "A SERIAL NUMBER THAT IS LONGER THAN ANY", 3120000);
  start_make (fixture, "b.bondsurvey", "ZZ-BBB", "2", 0);
  start_open (fixture);
  list = bond_surveys_page_get_list (start_surveys (fixture));
  for (gsize i = 0; i < G_N_ELEMENTS (widths); i++)
    {
      graphene_rect_t bounds[2];

      gtk_window_set_default_size (GTK_WINDOW (fixture->window), widths[i], 700);
      screen_spin (200);
      for (int j = 0; j < 2; j++)
        g_assert_true (gtk_widget_compute_bounds (
            column_of (gtk_list_box_get_row_at_index (list, j), BOND_TYPE_TIMELINE), GTK_WIDGET (list), &bounds[j]));
      g_test_message ("%d: %g, %g wide", widths[i], bounds[0].origin.x, bounds[0].size.width);
      g_assert_cmpfloat (bounds[0].origin.x, ==, bounds[1].origin.x);
      g_assert_cmpfloat (bounds[0].size.width, ==, bounds[1].size.width);
    }
}

/* Enter on the row opens the survey that is in hand, for writing, and the start window makes room. */
static void
test_enter_opens (StartFixture *fixture, gconstpointer data)
{
  GtkListBox *list;
  BondSurveyWindow *opened;

  start_make (fixture, "a.bondsurvey", "ZZ-AAA", "1", 0);
  start_open (fixture);
  list = bond_surveys_page_get_list (start_surveys (fixture));
  gtk_widget_activate (GTK_WIDGET (gtk_list_box_get_row_at_index (list, 0)));
  opened = start_survey_window (fixture);
  g_assert_nonnull (opened);
  g_assert_null (bond_survey_get_read_only (bond_survey_file_get_survey (bond_survey_window_get_file (opened))));
}

/* --- files that need a look --- */

static void
test_not_usable (StartFixture *fixture, gconstpointer data)
{
  g_autofree char *whole = start_path (fixture, "a.bondsurvey");
  g_autofree char *letter = start_path (fixture, "letter.bondsurvey");
  g_autofree char *newer = start_path (fixture, "newer.bondsurvey");
  g_autofree char *half = start_path (fixture, "half.bondsurvey");
  g_autofree char *altered = start_path (fixture, "altered.bondsurvey");
  g_autofree char *text = NULL;
  g_autoptr (GString) changed = NULL;
  GtkWidget *page;

  start_make (fixture, "a.bondsurvey", "ZZ-AAA", "1", 1840000);
  g_assert_true (g_file_get_contents (whole, &text, NULL, NULL));
  g_file_set_contents (letter, "Dear Ines", -1, NULL);
  g_file_set_contents (half, text, (gssize)strlen (text) / 2, NULL);
  changed = g_string_new (text);
  g_string_replace (changed, "format=\"1\"", "format=\"99\"", 1);
  g_file_set_contents (newer, changed->str, -1, NULL);
  g_string_assign (changed, text);
  g_assert_cmpuint (g_string_replace (changed, "nohm=\"1840000\"", "nohm=\"1740000\"", 1), ==, 1);
  g_file_set_contents (altered, changed->str, -1, NULL);
  g_assert_true (bond_library_note_recent ("/nowhere/gone.bondsurvey", NULL));
  start_open (fixture);
  page = GTK_WIDGET (start_surveys (fixture));
  g_assert_cmpuint (start_n_rows (fixture, NULL), ==, 6);
  g_assert_nonnull (start_says (page, "Files that need a look"));
  g_assert_nonnull (start_says (page, "letter.bondsurvey is not a Bondwright survey. Nothing was opened."));
  g_assert_nonnull (start_says (page, "newer.bondsurvey: "));
  g_assert_nonnull (start_says (page, "format 99"));
  g_assert_nonnull (start_says (page, "half.bondsurvey: line "));
  g_assert_nonnull (start_says (page, "altered.bondsurvey: The record does not verify"));
  g_assert_nonnull (start_says (page, "gone.bondsurvey is not where it was. It was last seen in /nowhere."));
  g_assert_nonnull (start_button (fixture, "gone.bondsurvey", "Find…"));
  g_assert_nonnull (start_button (fixture, "altered.bondsurvey", "Open Read-Only"));
  reach_assert (GTK_WINDOW (fixture->window));
  /* Off the list, and only off the list. */
  g_signal_emit_by_name (start_button (fixture, "gone.bondsurvey", "Remove from List"), "clicked");
  screen_spin (100);
  start_wait (fixture);
  g_assert_null (start_says (page, "gone.bondsurvey"));
  g_assert_nonnull (start_says (page, "The file itself was not touched."));
  gtk_widget_activate_action (page, "surveys.forget", "s", whole);
  g_assert_nonnull (start_says (page, "stands in the library folder, so it stays on the list."));
  g_assert_true (g_file_test (whole, G_FILE_TEST_EXISTS));
}

static void
test_copies (StartFixture *fixture, gconstpointer data)
{
  g_autofree char *from = start_path (fixture, "a.bondsurvey");
  g_autofree char *to = start_path (fixture, "a (conflicted copy).bondsurvey");
  GtkWidget *page;

  start_make (fixture, "a.bondsurvey", "ZZ-AAA", "1", 1840000);
  g_assert_true (bond_library_copy (from, to, NULL));
  start_open (fixture);
  page = GTK_WIDGET (start_surveys (fixture));
  g_assert_nonnull (start_says (page, "A copy: all of it is in "));
  g_assert_nonnull (start_says (page, "open, 1 of 2 done")); /* the aircraft counts once */
  start_go_on (fixture, "a.bondsurvey");
  start_go_on (fixture, "a (conflicted copy).bondsurvey");
  bond_surveys_page_look (start_surveys (fixture));
  start_wait (fixture);
  g_assert_nonnull (start_says (page, "a.bondsurvey: Merge first:"));
  g_assert_nonnull (start_says (page, "a (conflicted copy).bondsurvey: Merge first:"));
  g_assert_null (start_says (page, "of 2 done"));
}

/* Who, where and since when; it can be looked at, and says so in its own window. */
static void
test_open_elsewhere (StartFixture *fixture, gconstpointer data)
{
  g_autofree char *path = start_path (fixture, "a.bondsurvey");
  g_autoptr (BondSource) source = bond_source_new_system ();
  g_autoptr (BondSurveyFile) other = NULL;
  BondSurveyWindow *opened;
  BondSurvey *survey;

  start_make (fixture, "a.bondsurvey", "ZZ-AAA", "1", 1840000);
  other = bond_survey_file_open (path, BOND_OPEN_WRITE, source, "Dock 3", NULL, NULL);
  g_assert_nonnull (other);
  start_open (fixture);
  g_assert_nonnull (start_says (GTK_WIDGET (start_surveys (fixture)), "station “Dock 3”, since 20"));
  g_assert_nonnull (start_says (GTK_WIDGET (start_surveys (fixture)), "open elsewhere"));
  g_signal_emit_by_name (start_button (fixture, "Dock 3", "Open Read-Only"), "clicked");
  opened = start_survey_window (fixture);
  g_assert_nonnull (opened);
  survey = bond_survey_file_get_survey (bond_survey_window_get_file (opened));
  g_assert_nonnull (strstr (bond_survey_get_read_only (survey), "Dock 3"));
  bond_survey_file_close (other, NULL);
}

static void
test_cut_tail (StartFixture *fixture, gconstpointer data)
{
  g_autofree char *path = start_path (fixture, "a.bondsurvey");
  g_autofree char *journal = g_strconcat (path, ".journal", NULL);
  g_autofree char *whole = NULL, *lines = NULL;
  g_autoptr (BondSource) source = bond_source_new_system ();
  g_autoptr (BondSurveyFile) file = NULL;
  BondEntry *note = bond_entry_new (BOND_ENTRY_NOTE);
  gsize length = 0, journal_length = 0;

  start_make (fixture, "a.bondsurvey", "ZZ-AAA", "1", 1840000);
  g_assert_true (g_file_get_contents (path, &whole, &length, NULL));
  file = bond_survey_file_open (path, BOND_OPEN_WRITE, source, "test", NULL, NULL);
  bond_survey_file_set_synchronous (file, TRUE);
  bond_survey_set_person (bond_survey_file_get_survey (file), "p-test");
  note->point = g_strdup ("571-J31");
  note->note.text = g_strdup ("cut off");
  g_assert_true (bond_survey_record_now (bond_survey_file_get_survey (file), note, NULL));
  g_assert_true (g_file_get_contents (journal, &lines, &journal_length, NULL));
  bond_survey_file_close (file, NULL);
  /* As it was on the disk when the program was killed in the middle of the last line. */
  g_assert_true (g_file_set_contents (path, whole, (gssize)length, NULL));
  g_assert_true (g_file_set_contents (journal, lines, (gssize)journal_length - 30, NULL));
  start_open (fixture);
  g_assert_nonnull (start_says (GTK_WIDGET (start_surveys (fixture)),
                                "The last entry of a.bondsurvey was cut off while being written. 1 reading is safe; it "
                                "is 571-J31 on "));
  g_assert_nonnull (start_button (fixture, "cut off", "Open"));
}

/* What somebody puts into the folder, or takes out, shows by itself. */
static void
test_disk_changes (StartFixture *fixture, gconstpointer data)
{
  g_autofree char *path = start_path (fixture, "b.bondsurvey");

  start_make (fixture, "a.bondsurvey", "ZZ-AAA", "1", 0);
  start_open (fixture);
  start_make (fixture, "b.bondsurvey", "ZZ-BBB", "2", 0);
  for (int i = 0; i < 100 && start_n_rows (fixture, NULL) < 2; i++)
    screen_spin (50);
  g_assert_cmpuint (start_n_rows (fixture, NULL), ==, 2);
  g_unlink (path);
  for (int i = 0; i < 100 && start_n_rows (fixture, NULL) > 1; i++)
    screen_spin (50);
  g_assert_cmpuint (start_n_rows (fixture, NULL), ==, 1);
}

int
main (int argc, char **argv)
{
  static const StartTest tests[] = {
    { "/start/empty", test_empty },
    { "/start/aircraft", test_aircraft },
    { "/start/focus", test_focus },
    { "/start/search-and-filters", test_search_and_filters },
    { "/start/columns", test_columns },
    { "/start/enter-opens", test_enter_opens },
    { "/start/not-usable", test_not_usable },
    { "/start/copies", test_copies },
    { "/start/open-elsewhere", test_open_elsewhere },
    { "/start/cut-tail", test_cut_tail },
    { "/start/disk-changes", test_disk_changes },
  };

  return start_run (argc, argv, tests, G_N_ELEMENTS (tests));
}
