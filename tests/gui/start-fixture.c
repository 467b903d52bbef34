/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * A library folder with surveys in it, and the start window that lists them.
 */
#include "start-fixture.h"
#include "find.h"
#include "screen.h"

#include <glib/gstdio.h>

#define PATIENCE_MS 20000

static void
empty_folder (const char *folder)
{
  g_autoptr (GDir) dir = g_dir_open (folder, 0, NULL);
  const char *name;

  while (dir != NULL && (name = g_dir_read_name (dir)) != NULL)
    {
      g_autofree char *path = g_build_filename (folder, name, NULL);

      if (g_file_test (path, G_FILE_TEST_IS_DIR))
        empty_folder (path);
      g_remove (path);
    }
}

static void
set_up (StartFixture *fixture, gconstpointer data)
{
  g_autoptr (GError) error = NULL;
  g_autofree char *state = g_build_filename (g_get_user_state_dir (), "bondwright", NULL);

  fixture->folder = bond_library_default_folder ();
  g_mkdir_with_parents (fixture->folder, 0700);
  empty_folder (fixture->folder);
  empty_folder (state);
  fixture->application = bond_application_new ();
  g_application_register (G_APPLICATION (fixture->application), NULL, &error);
  g_assert_no_error (error);
}

static void
tear_down (StartFixture *fixture, gconstpointer data)
{
  GList *windows;
  GtkWindow *dialog;

  while ((dialog = window_newest_dialog ()) != NULL)
    gtk_window_destroy (dialog);
  while ((windows = gtk_application_get_windows (GTK_APPLICATION (fixture->application))) != NULL)
    gtk_window_destroy (windows->data);
  screen_spin (100);
  g_clear_object (&fixture->application);
  g_free (fixture->folder);
}

int
start_run (int argc, char **argv, const StartTest *tests, gsize n)
{
  g_autofree char *data = g_dir_make_tmp ("bond-start-data-XXXXXX", NULL);
  g_autofree char *state = g_dir_make_tmp ("bond-start-state-XXXXXX", NULL);

  /* GLib asks once and keeps the answer, so this has to come before anything else. */
  g_setenv ("XDG_DATA_HOME", data, TRUE);
  g_setenv ("XDG_STATE_HOME", state, TRUE);
  gtk_test_init (&argc, &argv, NULL);
  bond_xml_init ();
  for (gsize i = 0; i < n; i++)
    g_test_add (tests[i].path, StartFixture, NULL, set_up, tests[i].test, tear_down);
  return g_test_run ();
}

char *
start_path (StartFixture *fixture, const char *name)
{
  return g_build_filename (fixture->folder, name, NULL);
}

/* --- surveys --- */

static void
record (BondSurvey *survey, BondEntry *entry)
{
  g_autoptr (GError) error = NULL;

  bond_survey_record_now (survey, entry, &error);
  g_assert_no_error (error);
}

static void
add_point (BondSurvey *survey, const char *number)
{
  BondPointSpec *spec = bond_point_spec_new (number, number, BOND_CLASS_STRUCTURE, "571");
  BondEntry *entry = bond_entry_new (BOND_ENTRY_POINT);

  g_free (spec->from);
  g_free (spec->to);
  spec->from = g_strdup ("Hinge");
  spec->to = g_strdup ("Spar");
  spec->limit = g_strdup ("example/J2");
  entry->point = g_strdup (number);
  entry->spec = spec;
  record (survey, entry);
}

static void
measure (BondSurvey *survey, const char *number, BondOhm nohm)
{
  BondEntry *entry = bond_entry_new (BOND_ENTRY_READING);

  entry->point = g_strdup (number);
  entry->reading.text = bond_ohm_format (nohm, BOND_UNIT_MILLIOHM, 2, '.');
  entry->reading.unit = BOND_UNIT_MILLIOHM;
  entry->reading.quantity.nohm = nohm;
  entry->reading.instrument = g_strdup ("i-mo-1");
  entry->reading.range = g_strdup ("30m");
  entry->reading.via = g_strdup ("typed");
  record (survey, entry);
}

static void
close_file (BondSurveyFile *file)
{
  g_autoptr (GError) error = NULL;

  bond_survey_file_close (file, &error);
  g_assert_no_error (error);
}

void
start_make (StartFixture *fixture, const char *name, const char *registration, const char *serial, BondOhm nohm)
{
  g_autoptr (BondCatalog) catalog = bond_catalog_new (NULL, NULL);
  g_autoptr (BondSource) source = bond_source_new_system ();
  g_autoptr (BondPerson) person = bond_person_new ("p-test", 1, "T. Tester", NULL, NULL);
  g_autoptr (GPtrArray) sets = g_ptr_array_new ();
  g_autoptr (GPtrArray) people = g_ptr_array_new ();
  g_autoptr (GPtrArray) meters = g_ptr_array_new ();
  g_autofree char *path = start_path (fixture, name);
  g_autoptr (BondSurveyFile) file = NULL;
  g_autoptr (GError) error = NULL;
  BondNewSurvey what = { .registration = registration,
                         .serial = serial,
                         .title = "Base check",
                         .order = "W-7",
                         .location = "Hangar 2",
                         .person_id = "p-test",
                         .rule = BOND_RULE_SIMPLE,
                         .no_points = TRUE,
                         .invented = TRUE };

  what.airframe = bond_catalog_find (catalog, BOND_ADOPT_AIRFRAME, "generic-jet-transport");
  g_ptr_array_add (sets, bond_catalog_find (catalog, BOND_ADOPT_LIMIT_SET, "example"));
  g_ptr_array_add (people, person);
  g_ptr_array_add (meters, bond_catalog_find (catalog, BOND_ADOPT_INSTRUMENT, "i-mo-1"));
  what.limit_sets = sets;
  what.people = people;
  what.instruments = meters;
  file = bond_library_new_survey (path, &what, source, "test", &error);
  g_assert_no_error (error);
  bond_survey_file_set_synchronous (file, TRUE);
  add_point (bond_survey_file_get_survey (file), "571-J31");
  add_point (bond_survey_file_get_survey (file), "571-J32");
  if (nohm != 0)
    measure (bond_survey_file_get_survey (file), "571-J31", nohm);
  close_file (file);
}

void
start_go_on (StartFixture *fixture, const char *name)
{
  g_autofree char *path = start_path (fixture, name);
  g_autoptr (BondSource) source = bond_source_new_system ();
  g_autoptr (GError) error = NULL;
  g_autoptr (BondSurveyFile) file = bond_survey_file_open (path, BOND_OPEN_WRITE, source, "test", NULL, &error);

  g_assert_no_error (error);
  bond_survey_file_set_synchronous (file, TRUE);
  bond_survey_set_person (bond_survey_file_get_survey (file), "p-test");
  measure (bond_survey_file_get_survey (file), "571-J32", 1900000);
  close_file (file);
}

/* --- the window --- */

BondSurveysPage *
start_surveys (StartFixture *fixture)
{
  return BOND_SURVEYS_PAGE (window_find_of_type (GTK_WIDGET (fixture->window), BOND_TYPE_SURVEYS_PAGE, NULL));
}

void
start_wait (StartFixture *fixture)
{
  BondSurveysPage *page = start_surveys (fixture);

  for (int ms = 0; ms < PATIENCE_MS && bond_surveys_page_is_looking (page); ms += 20)
    screen_spin (20);
  g_assert_false (bond_surveys_page_is_looking (page));
  screen_spin (50);
}

void
start_open (StartFixture *fixture)
{
  fixture->window = bond_start_window_show (fixture->application);
  screen_spin (100);
  start_wait (fixture);
}

guint
start_n_rows (StartFixture *fixture, GtkWidget **row)
{
  GtkListBox *list = bond_surveys_page_get_list (start_surveys (fixture));
  guint n = 0;

  for (int i = 0; gtk_list_box_get_row_at_index (list, i) != NULL; i++)
    {
      GtkWidget *child = GTK_WIDGET (gtk_list_box_get_row_at_index (list, i));

      if (!gtk_widget_get_child_visible (child))
        continue;
      n++;
      if (row != NULL)
        *row = child;
    }
  return n;
}

static gboolean
says (GtkWidget *widget, const char *what)
{
  return GTK_IS_LABEL (widget) && gtk_widget_get_mapped (widget)
         && strstr (gtk_label_get_text (GTK_LABEL (widget)), what) != NULL;
}

GtkWidget *
start_says (GtkWidget *widget, const char *text)
{
  return find_widget (widget, says, text);
}

GtkWidget *
start_button (StartFixture *fixture, const char *text, const char *label)
{
  GtkWidget *said = start_says (GTK_WIDGET (start_surveys (fixture)), text);
  GtkWidget *row = said != NULL ? gtk_widget_get_ancestor (said, GTK_TYPE_LIST_BOX_ROW) : NULL;

  return row != NULL ? window_find_of_type (row, GTK_TYPE_BUTTON, label) : NULL;
}

BondSurveyWindow *
start_survey_window (StartFixture *fixture)
{
  for (int ms = 0; ms < PATIENCE_MS; ms += 20)
    {
      for (GList *l = gtk_application_get_windows (GTK_APPLICATION (fixture->application)); l != NULL; l = l->next)
        if (BOND_IS_SURVEY_WINDOW (l->data))
          return l->data;
      screen_spin (20);
    }
  return NULL;
}
