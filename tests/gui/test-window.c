/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * The survey window as a hand meets it: readings typed into the field, a point placed
 * by the diagram's signal, undo, questions, a file that cannot be used.  What was
 * recorded is looked for in the file, read again by itself.
 */
#include "gui/application.h"
#include "gui/dialog.h"
#include "library/library.h"
#include "screen.h"

#include <glib/gstdio.h>

typedef struct
{
  char *folder, *path;
  BondApplication *application;
  BondSurveyWindow *window;
} Fixture;

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
  return meter;
}

/* An airframe with three points of one row (J2: ≤ 2.5 mΩ, no pair) and its drawing. */
static void
make_survey (const char *path)
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

static void
set_up (Fixture *fixture, gconstpointer data)
{
  g_autoptr (GError) error = NULL;

  fixture->folder = g_dir_make_tmp ("bond-window-XXXXXX", &error);
  g_assert_no_error (error);
  g_setenv ("XDG_DATA_HOME", fixture->folder, TRUE);
  fixture->path = g_build_filename (fixture->folder, "t.bondsurvey", NULL);
  make_survey (fixture->path);
  fixture->application = bond_application_new ();
  g_application_register (G_APPLICATION (fixture->application), NULL, &error);
  g_assert_no_error (error);
  fixture->window = bond_application_open_survey (fixture->application, fixture->path);
  g_assert_nonnull (fixture->window);
  screen_spin (100);
}

static void
wait_written (Fixture *fixture)
{
  for (int i = 0; i < 200 && bond_walk_is_busy (bond_survey_window_get_walk (fixture->window)); i++)
    screen_spin (10);
  screen_spin (30);
}

static void
tear_down (Fixture *fixture, gconstpointer data)
{
  GList *windows;

  while ((windows = gtk_application_get_windows (GTK_APPLICATION (fixture->application))) != NULL)
    gtk_window_destroy (windows->data);
  screen_spin (50);
  g_clear_object (&fixture->application);
  g_free (fixture->folder);
  g_free (fixture->path);
}

static BondReadingPanel *
panel_of (Fixture *fixture)
{
  return bond_walk_page_get_panel (bond_survey_window_get_page (fixture->window));
}

static void
type_reading (Fixture *fixture, const char *text)
{
  gtk_editable_set_text (bond_reading_panel_get_entry (panel_of (fixture)), text);
  bond_reading_panel_record (panel_of (fixture));
  wait_written (fixture);
}

static void
begin (Fixture *fixture)
{
  bond_walk_set_person (bond_survey_window_get_walk (fixture->window), "p-test");
  bond_survey_window_begin (fixture->window);
}

static const char *
number_in_hand (Fixture *fixture)
{
  return bond_point_get_number (bond_walk_get_point (bond_survey_window_get_walk (fixture->window)));
}

/* The file as anybody else reads it, after the window has let go of it. */
static BondSurveyFile *
read_again (Fixture *fixture)
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

static void
test_readings (Fixture *fixture, gconstpointer data)
{
  g_autoptr (BondSurveyFile) file = NULL;
  BondPoint *point;

  begin (fixture);
  g_assert_cmpstr (number_in_hand (fixture), ==, "521-J01");
  gtk_editable_set_text (bond_reading_panel_get_entry (panel_of (fixture)), "1.84");
  g_assert_nonnull (strstr (bond_reading_panel_get_record_text (panel_of (fixture)), "pass"));
  bond_reading_panel_record (panel_of (fixture));
  wait_written (fixture);
  g_assert_cmpstr (number_in_hand (fixture), ==, "521-J02"); /* a pass goes on by itself */
  g_assert_cmpstr (gtk_editable_get_text (bond_reading_panel_get_entry (panel_of (fixture))), ==, "");
  type_reading (fixture, "3.12");
  g_assert_cmpstr (number_in_hand (fixture), ==, "521-J02"); /* a fail stays */
  g_assert_true (bond_walk_is_stopped (bond_survey_window_get_walk (fixture->window)));
  g_assert_cmpstr (bond_reading_panel_get_said (panel_of (fixture)), !=, "");
  type_reading (fixture, "521-03");
  g_assert_cmpstr (number_in_hand (fixture), ==, "521-J03"); /* a number of a point only jumps */
  type_reading (fixture, "1.8.4");
  g_assert_cmpstr (gtk_editable_get_text (bond_reading_panel_get_entry (panel_of (fixture))), ==, "1.8.4");

  file = read_again (fixture);
  point = bond_survey_find_number (bond_survey_file_get_survey (file), "521-J01");
  g_assert_cmpint (bond_point_get_state (point), ==, BOND_STATE_PASS);
  g_assert_cmpint (bond_mean_nohm (&bond_point_get_worst (point)->decides->mean), ==, 1840000);
  point = bond_survey_find_number (bond_survey_file_get_survey (file), "521-J02");
  g_assert_cmpint (bond_point_get_state (point), ==, BOND_STATE_FAIL);
  point = bond_survey_find_number (bond_survey_file_get_survey (file), "521-J03");
  g_assert_cmpint (bond_point_get_state (point), ==, BOND_STATE_TO_MEASURE);
}

static void
test_undo (Fixture *fixture, gconstpointer data)
{
  g_autoptr (BondSurveyFile) file = NULL;
  BondWalk *walk = bond_survey_window_get_walk (fixture->window);

  begin (fixture);
  type_reading (fixture, "1.90");
  gtk_widget_activate_action (GTK_WIDGET (fixture->window), "win.undo", NULL);
  wait_written (fixture);
  screen_spin (50);
  g_assert_cmpstr (number_in_hand (fixture), ==, "521-J01");
  g_assert_cmpstr (gtk_editable_get_text (bond_reading_panel_get_entry (panel_of (fixture))), ==, "1.90");
  g_assert_cmpint (bond_point_get_state (bond_walk_get_point (walk)), ==, BOND_STATE_TO_MEASURE);
  file = read_again (fixture);
  g_assert_cmpint (bond_point_get_state (bond_survey_find_number (bond_survey_file_get_survey (file), "521-J01")), ==,
                   BOND_STATE_TO_MEASURE);
}

/* Nothing is recorded before the question is answered, and Enter alone does not answer it. */
static void
test_questions (Fixture *fixture, gconstpointer data)
{
  BondSurvey *survey = bond_walk_get_survey (bond_survey_window_get_walk (fixture->window));
  guint before;
  const char *const asked[] = { "0", "1840", "42", "<" };

  begin (fixture);
  before = bond_survey_get_entries (survey)->len;
  for (gsize i = 0; i < G_N_ELEMENTS (asked); i++)
    {
      type_reading (fixture, asked[i]);
      bond_reading_panel_record (panel_of (fixture));
      wait_written (fixture);
      g_assert_cmpint (bond_survey_get_entries (survey)->len, ==, before);
      g_assert_cmpstr (gtk_editable_get_text (bond_reading_panel_get_entry (panel_of (fixture))), ==, asked[i]);
      g_assert_cmpstr (bond_reading_panel_get_said (panel_of (fixture)), !=, "");
    }
}

static GtkWidget *
find_of_type (GtkWidget *widget, GType type, const char *label)
{
  if (G_TYPE_CHECK_INSTANCE_TYPE (widget, type)
      && (label == NULL || g_strcmp0 (gtk_button_get_label (GTK_BUTTON (widget)), label) == 0))
    return widget;
  for (GtkWidget *child = gtk_widget_get_first_child (widget); child != NULL;
       child = gtk_widget_get_next_sibling (child))
    {
      GtkWidget *found = find_of_type (child, type, label);

      if (found != NULL)
        return found;
    }
  return NULL;
}

static GtkWindow *
newest_dialog (void)
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

static void
fill (GtkWindow *dialog, int n, const char *text)
{
  gtk_editable_set_text (GTK_EDITABLE (nth_entry (GTK_WIDGET (dialog), &n)), text);
}

static void
test_place (Fixture *fixture, gconstpointer data)
{
  BondWalkPage *page = bond_survey_window_get_page (fixture->window);
  g_autoptr (BondSurveyFile) file = NULL;
  const BondPlacement *home;
  const BondPointSpec *spec;
  BondPoint *point;
  GtkWindow *dialog;

  begin (fixture);
  g_signal_emit_by_name (bond_walk_page_get_diagram (page), "zone-clicked", "521", "plan-upper", 592.86, 716.77);
  dialog = newest_dialog ();
  g_assert_nonnull (dialog);
  gtk_window_set_default_size (dialog, 400, 300);
  g_signal_emit_by_name (find_of_type (GTK_WIDGET (dialog), GTK_TYPE_BUTTON, "Place Point"), "clicked");
  g_assert_true (newest_dialog () == dialog); /* both ends have to be named first */
  fill (dialog, 0, "Rib 4 cleat");
  fill (dialog, 1, "Front spar web");
  g_signal_emit_by_name (find_of_type (GTK_WIDGET (dialog), GTK_TYPE_BUTTON, "Place Point"), "clicked");
  wait_written (fixture);
  screen_spin (100);
  g_assert_cmpstr (number_in_hand (fixture), ==, "521-J04");

  file = read_again (fixture);
  point = bond_survey_find_number (bond_survey_file_get_survey (file), "521-J04");
  g_assert_nonnull (point);
  spec = bond_point_get_spec (point);
  home = bond_point_spec_home (spec);
  g_assert_cmpstr (spec->from, ==, "Rib 4 cleat");
  g_assert_cmpstr (spec->zone, ==, "521");
  g_assert_cmpfloat_with_epsilon (home->x, 592.9, 1e-9);
  g_assert_cmpfloat_with_epsilon (home->y, 716.8, 1e-9);
  g_assert_true (spec->sta.known && spec->bl.known);
  g_assert_false (spec->wl.known); /* a plan view does not show it: empty, not 0 */
}

/* A refusing disk: the digits come back and the message says that they are not recorded. */
static void
refuse (gpointer sink, BondEntry *entry)
{
  g_autoptr (GError) error = g_error_new_literal (G_IO_ERROR, G_IO_ERROR_NO_SPACE, "the disk is full");

  bond_survey_written (sink, entry, error);
}

static void
test_write_error (Fixture *fixture, gconstpointer data)
{
  BondSurvey *survey = bond_walk_get_survey (bond_survey_window_get_walk (fixture->window));
  BondSink sink = { .write = refuse, .sink = survey };
  guint before = bond_survey_get_entries (survey)->len;

  begin (fixture);
  bond_survey_begin_sitting (survey, "s-00000000000000000000000000000001");
  bond_survey_set_sink (survey, &sink);
  type_reading (fixture, "1.84");
  g_assert_cmpint (bond_survey_get_entries (survey)->len, ==, before);
  g_assert_cmpstr (gtk_editable_get_text (bond_reading_panel_get_entry (panel_of (fixture))), ==, "1.84");
  g_assert_nonnull (strstr (bond_reading_panel_get_said (panel_of (fixture)), "NOT recorded"));
  g_assert_cmpstr (number_in_hand (fixture), ==, "521-J01");
}

static void
test_bad_file (Fixture *fixture, gconstpointer data)
{
  g_autofree char *bad = g_build_filename (fixture->folder, "bad.bondsurvey", NULL);
  g_autoptr (GError) error = NULL;

  g_file_set_contents (bad, "<survey xmlns=\"urn:bondwright:survey\"", -1, &error);
  g_assert_no_error (error);
  g_assert_null (bond_application_open_survey (fixture->application, bad));
  screen_spin (50);
  g_assert_nonnull (newest_dialog ());
  g_assert_true (gtk_widget_get_mapped (GTK_WIDGET (fixture->window))); /* the open survey is not disturbed */
  gtk_window_destroy (newest_dialog ());
}

static void
check_named (GtkWidget *widget)
{
  if (!gtk_widget_get_visible (widget) || !gtk_widget_get_child_visible (widget))
    return;
  if ((GTK_IS_BUTTON (widget) || GTK_IS_MENU_BUTTON (widget) || GTK_IS_DROP_DOWN (widget) || GTK_IS_ENTRY (widget)
       || GTK_IS_SEARCH_ENTRY (widget) || GTK_IS_LIST_VIEW (widget))
      && !(GTK_IS_BUTTON (widget) && gtk_button_get_label (GTK_BUTTON (widget)) != NULL)
      && !gtk_test_accessible_has_property (GTK_ACCESSIBLE (widget), GTK_ACCESSIBLE_PROPERTY_LABEL)
      && !gtk_test_accessible_has_relation (GTK_ACCESSIBLE (widget), GTK_ACCESSIBLE_RELATION_LABELLED_BY))
    {
      GtkWidget *parent = gtk_widget_get_parent (widget);

      /* The button inside a named menu button or drop-down is spoken for by it. */
      if (!GTK_IS_MENU_BUTTON (parent) && !GTK_IS_DROP_DOWN (parent))
        g_error ("%s in %s has no accessible name", G_OBJECT_TYPE_NAME (widget), G_OBJECT_TYPE_NAME (parent));
    }
  for (GtkWidget *child = gtk_widget_get_first_child (widget); child != NULL;
       child = gtk_widget_get_next_sibling (child))
    check_named (child);
}

static void
test_names (Fixture *fixture, gconstpointer data)
{
  begin (fixture);
  screen_spin (100);
  check_named (gtk_window_get_child (GTK_WINDOW (fixture->window)));
  check_named (gtk_window_get_titlebar (GTK_WINDOW (fixture->window)));
}

int
main (int argc, char **argv)
{
  g_setenv ("GTK_A11Y", "test", TRUE);
  g_setenv ("GSK_RENDERER", "cairo", TRUE);
  g_unsetenv ("DBUS_SESSION_BUS_ADDRESS");
  g_test_init (&argc, &argv, NULL);
  gtk_init ();
#define ADD(name, test) g_test_add ("/gui/window/" name, Fixture, NULL, set_up, test, tear_down)
  ADD ("readings", test_readings);
  ADD ("undo", test_undo);
  ADD ("questions", test_questions);
  ADD ("place", test_place);
  ADD ("write-error", test_write_error);
  ADD ("bad-file", test_bad_file);
  ADD ("names", test_names);
  return g_test_run ();
}
