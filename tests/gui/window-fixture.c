/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * A survey window on a small survey of its own, for the tests that need one.
 */
#include "window-fixture.h"
#include "library/library.h"
#include "screen.h"

#include <glib/gstdio.h>

static BondInstrument *
new_meter (void)
{
  BondInstrument *meter = bond_instrument_new ("i-test", 1, BOND_INSTRUMENT_MILLIOHMMETER, "TM-1");
  BondRange range = { .id = (char *)"30m",
                      .end = 30 * BOND_NOHM_PER_MILLIOHM,
                      .step = BOND_NOHM_PER_MILLIOHM / 100,
                      .accuracy_known = TRUE,
                      .accuracy_reading_ppm = 2500,
                      .accuracy_counts = 1,
                      .microampere = 10000000 };

  bond_instrument_add_range (meter, &range);
  range.id = (char *)"300m";
  range.end *= 10;
  range.step *= 10;
  bond_instrument_add_range (meter, &range);
  return meter;
}

/* An airframe with three points of one row (J2: ≤ 2.5 mΩ, no pair) and its drawing. */
void
window_make_survey (const char *path)
{
  g_autoptr (GPtrArray) problems = g_ptr_array_new_with_free_func ((GDestroyNotify)bond_problem_free);
  g_autoptr (BondCatalog) catalog = bond_catalog_new (NULL, problems);
  g_autoptr (BondSource) source = bond_source_new_fixed ("2026-11-24T09:58:00+01:00", 1, 7);
  g_autoptr (BondInstrument) meter = new_meter ();
  g_autoptr (BondPerson) person = bond_person_new ("p-test", 1, "T. Tester", NULL, NULL);
  g_autoptr (GPtrArray) sets = g_ptr_array_new ();
  g_autoptr (GPtrArray) people = g_ptr_array_new ();
  g_autoptr (GPtrArray) meters = g_ptr_array_new ();
  g_autoptr (GPtrArray) airframes = bond_catalog_list (catalog, BOND_ADOPT_AIRFRAME);
  g_autoptr (GError) error = NULL;
  g_autoptr (BondSurveyFile) file = NULL;
  BondNewSurvey what = { .registration = "ZZ-TST",
                         .serial = "1",
                         .title = "Test",
                         .person_id = "p-test",
                         .rule = BOND_RULE_SIMPLE,
                         .no_points = TRUE,
                         .invented = TRUE };

  g_assert_cmpint (airframes->len, >, 0);
  what.airframe = bond_catalog_find (catalog, BOND_ADOPT_AIRFRAME, "generic-jet-transport");
  if (what.airframe == NULL)
    what.airframe = g_ptr_array_index (airframes, 0);
  g_ptr_array_add (sets, bond_catalog_find (catalog, BOND_ADOPT_LIMIT_SET, "example"));
  g_ptr_array_add (people, person);
  g_ptr_array_add (meters, meter);
  what.limit_sets = sets;
  what.people = people;
  what.instruments = meters;
  file = bond_library_new_survey (path, &what, source, "test", &error);
  g_assert_no_error (error);
  bond_survey_file_set_synchronous (file, TRUE);
  for (int i = 1; i <= 3; i++)
    {
      g_autofree char *id = g_strdup_printf ("q-%032d", i);
      g_autofree char *number = g_strdup_printf ("521-J%02d", i);
      BondPointSpec *spec = bond_point_spec_new (id, number, BOND_CLASS_STRUCTURE, "521");
      BondEntry *entry = bond_entry_new (BOND_ENTRY_POINT);

      g_free (spec->from);
      g_free (spec->to);
      g_free (spec->limit);
      spec->from = g_strdup_printf ("End %d", i);
      spec->to = g_strdup ("Structure");
      spec->limit = g_strdup ("example/J2");
      entry->point = g_strdup (id);
      entry->spec = spec;
      bond_survey_record_now (bond_survey_file_get_survey (file), entry, &error);
      g_assert_no_error (error);
    }
  bond_survey_file_close (file, &error);
  g_assert_no_error (error);
}

void
window_set_up (WindowFixture *fixture, gconstpointer data)
{
  g_autoptr (GError) error = NULL;

  fixture->folder = g_dir_make_tmp ("bond-window-XXXXXX", &error);
  g_assert_no_error (error);
  g_setenv ("XDG_DATA_HOME", fixture->folder, TRUE);
  fixture->path = g_build_filename (fixture->folder, "t.bondsurvey", NULL);
  window_make_survey (fixture->path);
  fixture->application = bond_application_new ();
  g_application_register (G_APPLICATION (fixture->application), NULL, &error);
  g_assert_no_error (error);
  fixture->window = bond_application_open_survey (fixture->application, fixture->path);
  g_assert_nonnull (fixture->window);
  screen_spin (100);
}

void
window_wait_written (WindowFixture *fixture)
{
  for (int i = 0; i < 200 && bond_walk_is_busy (bond_survey_window_get_walk (fixture->window)); i++)
    screen_spin (10);
  screen_spin (30);
}

void
window_tear_down (WindowFixture *fixture, gconstpointer data)
{
  GList *windows;

  while ((windows = gtk_application_get_windows (GTK_APPLICATION (fixture->application))) != NULL)
    gtk_window_destroy (windows->data);
  screen_spin (50);
  g_clear_object (&fixture->application);
  g_free (fixture->folder);
  g_free (fixture->path);
}

BondReadingPanel *
window_panel_of (WindowFixture *fixture)
{
  return bond_walk_page_get_panel (bond_survey_window_get_page (fixture->window));
}

void
window_type_reading (WindowFixture *fixture, const char *text)
{
  gtk_editable_set_text (bond_reading_panel_get_entry (window_panel_of (fixture)), text);
  bond_reading_panel_record (window_panel_of (fixture));
  window_wait_written (fixture);
}

void
window_begin (WindowFixture *fixture)
{
  bond_walk_set_person (bond_survey_window_get_walk (fixture->window), "p-test");
  bond_survey_window_begin (fixture->window);
}

const char *
window_number_in_hand (WindowFixture *fixture)
{
  return bond_point_get_number (bond_walk_get_point (bond_survey_window_get_walk (fixture->window)));
}

/* The file as anybody else reads it, after the window has let go of it. */
BondSurveyFile *
window_read_again (WindowFixture *fixture)
{
  g_autoptr (GPtrArray) problems = g_ptr_array_new_with_free_func ((GDestroyNotify)bond_problem_free);
  g_autoptr (BondSource) source = bond_source_new_system ();
  g_autoptr (GError) error = NULL;
  BondSurveyFile *file;

  bond_survey_file_close (bond_survey_window_get_file (fixture->window), &error);
  g_assert_no_error (error);
  file = bond_survey_file_open (fixture->path, BOND_OPEN_READ, source, "test", problems, &error);
  g_assert_no_error (error);
  g_assert_cmpint (problems->len, ==, 0);
  return file;
}

GtkWidget *
window_find_of_type (GtkWidget *widget, GType type, const char *label)
{
  if (G_TYPE_CHECK_INSTANCE_TYPE (widget, type)
      && (label == NULL || g_strcmp0 (gtk_button_get_label (GTK_BUTTON (widget)), label) == 0))
    return widget;
  for (GtkWidget *child = gtk_widget_get_first_child (widget); child != NULL;
       child = gtk_widget_get_next_sibling (child))
    {
      GtkWidget *found = window_find_of_type (child, type, label);

      if (found != NULL)
        return found;
    }
  return NULL;
}

GtkWindow *
window_newest_dialog (void)
{
  GListModel *windows = gtk_window_get_toplevels ();

  for (guint i = g_list_model_get_n_items (windows); i-- > 0;)
    {
      g_autoptr (GtkWindow) window = g_list_model_get_item (windows, i);

      if (BOND_IS_DIALOG (window))
        return window;
    }
  return NULL;
}

/* The n-th entry of a dialog, in the order they stand in. */
static GtkWidget *
nth_entry (GtkWidget *widget, int *n)
{
  if (GTK_IS_ENTRY (widget) && (*n)-- == 0)
    return widget;
  for (GtkWidget *child = gtk_widget_get_first_child (widget); child != NULL;
       child = gtk_widget_get_next_sibling (child))
    {
      GtkWidget *found = nth_entry (child, n);

      if (found != NULL)
        return found;
    }
  return NULL;
}

void
window_fill (GtkWindow *dialog, int n, const char *text)
{
  gtk_editable_set_text (GTK_EDITABLE (nth_entry (GTK_WIDGET (dialog), &n)), text);
}
