/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * The page Surveys where the disk is slow, may not be written, or holds what is no
 * survey at all: what is said meanwhile, how it is stopped, and what is offered.
 */
#include "gui/start/surveys-private.h"
#include "reach.h"
#include "screen.h"
#include "start-fixture.h"

#include <glib/gstdio.h>
#include <sys/stat.h>
#include <unistd.h>

#define MANY 16
#define NOBODY 65534

/* --- a slow folder --- */

static void
make_many (StartFixture *fixture)
{
  g_autofree char *first = start_path (fixture, "0.bondsurvey");

  start_make (fixture, "0.bondsurvey", "ZZ-AAA", "1", 1840000);
  for (int i = 1; i < MANY; i++)
    {
      g_autofree char *name = g_strdup_printf ("%d.bondsurvey", i);
      g_autofree char *path = start_path (fixture, name);

      g_assert_true (bond_library_copy (first, path, NULL));
    }
}

/* Until @text is shown, or nothing is looked for any more. */
static gboolean
wait_for (StartFixture *fixture, const char *text)
{
  BondSurveysPage *page = start_surveys (fixture);

  while (start_says (GTK_WIDGET (page), text) == NULL && bond_surveys_page_is_looking (page))
    g_main_context_iteration (NULL, TRUE);
  return start_says (GTK_WIDGET (page), text) != NULL;
}

static void
test_slow_folder (StartFixture *fixture, gconstpointer data)
{
  BondSurveysPage *page;

  start_open (fixture);
  page = start_surveys (fixture);
  g_assert_cmpuint (page->patience_ms, ==, 1000);
  make_many (fixture);
  bond_surveys_page_look (page);
  /* Nothing is said of what is over at once. */
  g_assert_null (start_says (GTK_WIDGET (page), "Looking for surveys"));
  start_wait (fixture);
  page->patience_ms = 0;
  g_clear_pointer (&page->found, g_ptr_array_unref); /* else files that look as they did are not read again */
  bond_surveys_page_look (page);
  g_assert_true (wait_for (fixture, "of 16 read"));
  reach_assert (GTK_WINDOW (fixture->window));
  start_wait (fixture);
  g_assert_null (start_says (GTK_WIDGET (page), "Looking for surveys"));
  g_assert_cmpuint (page->found->len, ==, MANY);
}

/* Stopped: what was found so far is listed, and that it is not all is said. The next look finds the rest. */
static void
test_stopped (StartFixture *fixture, gconstpointer data)
{
  BondSurveysPage *page;

  make_many (fixture);
  fixture->window = bond_start_window_show (fixture->application);
  page = start_surveys (fixture);
  page->patience_ms = 0;
  g_assert_true (wait_for (fixture, "of 16 read"));
  g_signal_emit_by_name (window_find_of_type (GTK_WIDGET (page), GTK_TYPE_BUTTON, "Stop"), "clicked");
  start_wait (fixture);
  g_assert_cmpuint (page->found->len, <, MANY);
  g_assert_nonnull (start_says (GTK_WIDGET (page), "some surveys may be missing from this list"));
  bond_surveys_page_look (page);
  start_wait (fixture);
  g_assert_cmpuint (page->found->len, ==, MANY);
}

/* A pipe would be waited for, for ever; a link may lead to one. */
static void
test_pipe (StartFixture *fixture, gconstpointer data)
{
  g_autofree char *pipe = start_path (fixture, "pipe.bondsurvey");
  g_autofree char *link = start_path (fixture, "link.bondsurvey");
  g_autofree char *real = start_path (fixture, "a.bondsurvey");
  g_autofree char *second = start_path (fixture, "second.bondsurvey");

  start_make (fixture, "a.bondsurvey", "ZZ-AAA", "1", 1840000);
  g_assert_cmpint (mkfifo (pipe, 0600), ==, 0);
  g_assert_cmpint (symlink (pipe, link), ==, 0);
  g_assert_cmpint (symlink (real, second), ==, 0);
  start_open (fixture);
  g_assert_cmpuint (start_surveys (fixture)->found->len, ==, 2);
}

/* --- opening --- */

static void
test_slow_opening (StartFixture *fixture, gconstpointer data)
{
  g_autofree char *path = start_path (fixture, "a.bondsurvey");
  BondSurveysPage *page;

  start_make (fixture, "a.bondsurvey", "ZZ-AAA", "1", 1840000);
  start_open (fixture);
  page = start_surveys (fixture);
  page->patience_ms = 0;
  gtk_widget_activate_action (GTK_WIDGET (page), "surveys.open", "s", path);
  while (page->opening != NULL && start_says (GTK_WIDGET (page), "Opening a.bondsurvey, 1 reading") == NULL)
    g_main_context_iteration (NULL, TRUE);
  g_assert_nonnull (page->opening);
  /* A second press while it is being opened opens nothing twice. */
  gtk_widget_activate_action (GTK_WIDGET (page), "surveys.open", "s", path);
  g_assert_nonnull (start_survey_window (fixture));
  screen_spin (300);
  g_assert_cmpuint (g_list_length (gtk_application_get_windows (GTK_APPLICATION (fixture->application))), ==, 1);
}

/* Open in this program already: its window comes to the front, no second one is made. */
static void
test_open_here (StartFixture *fixture, gconstpointer data)
{
  g_autofree char *path = start_path (fixture, "a.bondsurvey");
  BondSurveyWindow *opened;

  start_make (fixture, "a.bondsurvey", "ZZ-AAA", "1", 1840000);
  start_open (fixture);
  gtk_widget_activate_action (GTK_WIDGET (start_surveys (fixture)), "surveys.open", "s", path);
  opened = start_survey_window (fixture);
  g_assert_nonnull (opened);
  start_open (fixture);
  g_assert_null (start_says (GTK_WIDGET (start_surveys (fixture)), "Files that need a look"));
  g_assert_nonnull (start_button (fixture, "ZZ-AAA", "Continue"));
  gtk_widget_activate_action (GTK_WIDGET (start_surveys (fixture)), "surveys.open", "s", path);
  screen_spin (500);
  g_assert_cmpuint (g_list_length (gtk_application_get_windows (GTK_APPLICATION (fixture->application))), ==, 1);
  g_assert_true (start_survey_window (fixture) == opened);
}

/* --- a place that cannot be written --- */

/*
 * To root every folder can be written, so the question is asked as somebody else: access() goes by the real user, all
 * the rest by the effective one.
 */
static void
be_nobody (gboolean nobody)
{
  if (geteuid () == 0)
    g_assert_cmpint (setreuid (nobody ? NOBODY : 0, 0), ==, 0);
}

static void
test_read_only_place (StartFixture *fixture, gconstpointer data)
{
  GtkWidget *page;
  BondSurveyWindow *opened;
  BondSurvey *survey;

  start_make (fixture, "a.bondsurvey", "ZZ-AAA", "1", 1840000);
  g_assert_cmpint (g_chmod (fixture->folder, 0555), ==, 0);
  be_nobody (TRUE);
  start_open (fixture);
  be_nobody (FALSE);
  page = GTK_WIDGET (start_surveys (fixture));
  g_assert_nonnull (start_says (page, "The place of a.bondsurvey cannot be written to. Save a copy to take readings."));
  g_assert_nonnull (start_says (page, "ZZ-AAA")); /* and it counts */
  g_assert_nonnull (start_button (fixture, "The place of", "Save Copy…"));
  reach_assert (GTK_WINDOW (fixture->window));
  g_signal_emit_by_name (start_button (fixture, "The place of", "Open Read-Only"), "clicked");
  opened = start_survey_window (fixture);
  g_assert_cmpint (g_chmod (fixture->folder, 0755), ==, 0);
  g_assert_nonnull (opened);
  survey = bond_survey_file_get_survey (bond_survey_window_get_file (opened));
  g_assert_nonnull (strstr (bond_survey_get_read_only (survey), "cannot be written to"));
}

/* A library folder that is none, or that nobody may look into: said, and nothing else is in the way of working. */
static void
test_no_folder (StartFixture *fixture, gconstpointer data)
{
  g_assert_cmpint (g_rmdir (fixture->folder), ==, 0);
  g_assert_true (g_file_set_contents (fixture->folder, "no folder", -1, NULL));
  start_open (fixture);
  g_assert_nonnull (start_says (GTK_WIDGET (start_surveys (fixture)), "The library folder “"));
  g_assert_nonnull (start_says (GTK_WIDGET (start_surveys (fixture)), "cannot be read: "));
  reach_assert (GTK_WINDOW (fixture->window));
  g_assert_cmpint (g_remove (fixture->folder), ==, 0);
}

int
main (int argc, char **argv)
{
  static const StartTest tests[] = {
    { "/start/slow-folder", test_slow_folder },
    { "/start/stopped", test_stopped },
    { "/start/pipe", test_pipe },
    { "/start/slow-opening", test_slow_opening },
    { "/start/open-here", test_open_here },
    { "/start/read-only-place", test_read_only_place },
    { "/start/no-folder", test_no_folder },
  };

  return start_run (argc, argv, tests, G_N_ELEMENTS (tests));
}
