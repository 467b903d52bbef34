/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * A survey that is read while somebody else has it, and taken over when they have
 * closed it: what was typed meanwhile comes along to the point it was typed for, and
 * nowhere else.  Two programs at once are tested from outside (xdotool-two).
 */
#include "reach.h"
#include "screen.h"
#include "window-fixture.h"

#include <glib/gstdio.h>

/* The band looks every three seconds. */
#define LOOK_MS 3600

static BondSurveyFile *
hold (const char *path)
{
  g_autoptr (BondSource) source = bond_source_new_system ();
  g_autoptr (GError) error = NULL;
  BondSurveyFile *file = bond_survey_file_open (path, BOND_OPEN_WRITE, source, "bench 2", NULL, &error);

  g_assert_no_error (error);
  return file;
}

static BondSurveyWindow *
newest_window (WindowFixture *fixture)
{
  for (GList *l = gtk_application_get_windows (GTK_APPLICATION (fixture->application)); l != NULL; l = l->next)
    if (BOND_IS_SURVEY_WINDOW (l->data))
      return l->data;
  return NULL;
}

/* The window of the fixture is closed, somebody else has the survey, and it is opened again to be read. */
static BondSurveyFile *
read_what_is_held (WindowFixture *fixture)
{
  BondSurveyFile *holder;

  g_application_hold (G_APPLICATION (fixture->application));
  gtk_window_close (GTK_WINDOW (fixture->window));
  screen_spin (50);
  holder = hold (fixture->path);
  g_assert_null (bond_application_open_survey (fixture->application, fixture->path));
  screen_spin (100);
  window_press (window_newest_dialog (), "Open Read-Only");
  screen_spin (100);
  fixture->window = newest_window (fixture);
  g_assert_nonnull (fixture->window);
  return holder;
}

static void
type_on_second_point (WindowFixture *fixture)
{
  window_keys (fixture, "#521-J02\n");
  g_assert_cmpstr (window_number_in_hand (fixture), ==, "521-J02");
  window_keys (fixture, "2.22\n");
  g_assert_cmpstr (gtk_editable_get_text (bond_reading_panel_get_entry (window_panel_of (fixture))), ==, "2.22");
}

static void
take_over (WindowFixture *fixture)
{
  window_press (fixture->window, "Take Over");
  screen_spin (200);
  fixture->window = newest_window (fixture);
  g_assert_nonnull (fixture->window);
}

/* The act that is offered now has its place in the round of Tab. */
static void
assert_reached (WindowFixture *fixture)
{
  g_autoptr (GPtrArray) faults = reach_faults (GTK_WINDOW (fixture->window));

  g_assert_true (window_has_act (fixture->window, "Take Over"));
  for (guint i = 0; i < faults->len; i++)
    g_assert_null (strstr (g_ptr_array_index (faults, i), "Take Over"));
  bond_reading_panel_grab_field (window_panel_of (fixture));
}

static const char *
said (WindowFixture *fixture)
{
  return bond_reading_panel_get_said (window_panel_of (fixture));
}

static void
test_typed (WindowFixture *fixture, gconstpointer data)
{
  BondSurveyFile *holder = read_what_is_held (fixture);
  g_autoptr (BondSurveyFile) file = NULL;
  g_autoptr (BondEntry) last = NULL;
  const char *id;

  g_assert_false (window_has_act (fixture->window, "Take Over"));
  type_on_second_point (fixture);
  g_assert_nonnull (strstr (said (fixture), "bench 2"));
  bond_survey_file_close (holder, NULL);
  g_clear_object (&holder);
  screen_spin (LOOK_MS);
  g_assert_nonnull (strstr (said (fixture), "closed there"));
  g_assert_false (window_says (GTK_WIDGET (fixture->window), "bench 2"));
  assert_reached (fixture);

  take_over (fixture);
  g_assert_null (bond_survey_get_read_only (bond_walk_get_survey (bond_survey_window_get_walk (fixture->window))));
  g_assert_cmpstr (window_number_in_hand (fixture), ==, "521-J02");
  g_assert_nonnull (strstr (said (fixture), "“2.22” was typed before taking over"));
  window_begin (fixture);
  g_assert_cmpstr (window_number_in_hand (fixture), ==, "521-J02");
  g_assert_cmpstr (gtk_editable_get_text (bond_reading_panel_get_entry (window_panel_of (fixture))), ==, "2.22");
  g_assert_nonnull (strstr (said (fixture), "Enter records what you typed"));
  window_keys (fixture, "\n");
  last = bond_entry_ref (bond_walk_last_reading (bond_survey_window_get_walk (fixture->window)));
  g_assert_nonnull (last);
  g_assert_cmpstr (last->reading.text, ==, "2.22");
  id = bond_point_get_id (
      bond_survey_find_point (bond_walk_get_survey (bond_survey_window_get_walk (fixture->window)), last->point));
  g_assert_cmpstr (id, ==, "q-00000000000000000000000000000002");
  file = window_read_again (fixture);
  g_assert_nonnull (bond_survey_find_entry (bond_survey_file_get_survey (file), last->id));
  g_application_release (G_APPLICATION (fixture->application));
}

/* A field nothing was typed into says nothing, and a sentence that does not name the other program stays. */
static void
test_nothing_typed (WindowFixture *fixture, gconstpointer data)
{
  BondSurveyFile *holder = read_what_is_held (fixture);

  bond_reading_panel_say (window_panel_of (fixture), NULL, "Another sentence.");
  bond_survey_file_close (holder, NULL);
  g_clear_object (&holder);
  screen_spin (LOOK_MS);
  g_assert_cmpstr (said (fixture), ==, "Another sentence.");
  g_assert_true (window_says (GTK_WIDGET (fixture->window), "It was closed there"));
  take_over (fixture);
  window_begin (fixture);
  g_assert_cmpstr (gtk_editable_get_text (bond_reading_panel_get_entry (window_panel_of (fixture))), ==, "");
  g_assert_cmpstr (window_number_in_hand (fixture), ==, "521-J01");
  g_assert_false (window_says (GTK_WIDGET (fixture->window), "typed before taking over"));
  g_application_release (G_APPLICATION (fixture->application));
}

/* The file was exchanged for one whose second point has another number: digits go to no other point. */
static void
test_other_points (WindowFixture *fixture, gconstpointer data)
{
  static const WindowPoint others[] = { { "521-J01", "example/J2", BOND_CONDITION_UNDISTURBED },
                                        { "999-J07", "example/J2", BOND_CONDITION_UNDISTURBED } };
  g_autofree char *path = g_build_filename (fixture->folder, "other.bondsurvey", NULL);
  BondSurveyFile *holder = read_what_is_held (fixture);

  type_on_second_point (fixture);
  bond_survey_file_close (holder, NULL);
  g_clear_object (&holder);
  window_make_survey_of (path, &(WindowPoints){ others, G_N_ELEMENTS (others) });
  g_assert_cmpint (g_rename (path, fixture->path), ==, 0);
  screen_spin (LOOK_MS);
  take_over (fixture);
  g_assert_cmpstr (gtk_editable_get_text (bond_reading_panel_get_entry (window_panel_of (fixture))), ==, "");
  g_assert_true (window_says (GTK_WIDGET (fixture->window), "“2.22”, typed for 521-J02"));
  g_application_release (G_APPLICATION (fixture->application));
}

/* Whoever had the survey wrote about the same point: the second record there is made knowingly. */
static void
test_more_meanwhile (WindowFixture *fixture, gconstpointer data)
{
  BondSurveyFile *holder = read_what_is_held (fixture);
  BondEntry *note = bond_entry_new (BOND_ENTRY_NOTE);
  g_autoptr (GError) error = NULL;

  type_on_second_point (fixture);
  note->point = g_strdup ("q-00000000000000000000000000000002");
  note->note.text = g_strdup ("Seen by bench 2.");
  bond_survey_file_set_synchronous (holder, TRUE);
  bond_survey_set_person (bond_survey_file_get_survey (holder), "p-test");
  bond_survey_record_now (bond_survey_file_get_survey (holder), note, &error);
  g_assert_no_error (error);
  bond_survey_file_close (holder, NULL);
  g_clear_object (&holder);
  screen_spin (LOOK_MS);
  take_over (fixture);
  g_assert_nonnull (strstr (said (fixture), "“2.22” was typed before taking over"));
  g_assert_nonnull (strstr (said (fixture), "Others have recorded here since"));
  g_application_release (G_APPLICATION (fixture->application));
}

int
main (int argc, char **argv)
{
  g_setenv ("GTK_A11Y", "test", TRUE);
  g_setenv ("GSK_RENDERER", "cairo", TRUE);
  g_unsetenv ("DBUS_SESSION_BUS_ADDRESS");
  g_test_init (&argc, &argv, NULL);
  gtk_init ();
#define ADD(name, test) g_test_add ("/gui/take-over/" name, WindowFixture, NULL, window_set_up, test, window_tear_down)
  ADD ("typed", test_typed);
  ADD ("nothing-typed", test_nothing_typed);
  ADD ("other-points", test_other_points);
  ADD ("more-meanwhile", test_more_meanwhile);
  return g_test_run ();
}
