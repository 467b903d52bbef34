/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * A survey window on a small survey of its own, for the tests that need one.
 */
#include "window-fixture.h"
#include "gui/widgets/reading-entry.h"
#include "library/cautions.h"
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
  meter->vapour_approved = TRUE; /* zone 521 is a tank */
  return meter;
}

static void
add_points (BondSurveyFile *file, const WindowPoints *points)
{
  g_autoptr (GError) error = NULL;

  for (gsize i = 0; i < points->n; i++)
    {
      g_autofree char *id = g_strdup_printf ("q-%032d", (int)i + 1);
      BondPointSpec *spec = bond_point_spec_new (id, points->points[i].number, BOND_CLASS_STRUCTURE, "521");
      BondEntry *entry = bond_entry_new (BOND_ENTRY_POINT);

      g_free (spec->from);
      g_free (spec->to);
      g_free (spec->limit);
      spec->from = g_strdup_printf ("End %d", (int)i + 1);
      spec->to = g_strdup ("Structure");
      spec->limit = g_strdup (points->points[i].limit);
      spec->condition = points->points[i].condition;
      entry->point = g_strdup (id);
      entry->spec = spec;
      bond_survey_record_now (bond_survey_file_get_survey (file), entry, &error);
      g_assert_no_error (error);
    }
}

/* The points are in a tank: without leave nothing could be typed. */
static void
record_permit (BondSurvey *survey)
{
  BondEntry *entry = bond_entry_new (BOND_ENTRY_PERMIT);
  g_autoptr (GError) error = NULL;

  entry->permit.hazard = BOND_HAZARD_FUEL_VAPOUR;
  entry->permit.number = g_strdup ("P-1");
  entry->permit.zones = g_strdup ("521");
  entry->permit.tester = g_strdup ("G. Tester");
  entry->permit.gas_at = g_strdup ("2026-11-24T09:30:00+01:00");
  entry->permit.valid_until = g_strdup ("2099-01-01T00:00:00+01:00");
  entry->permit.vapour_permille = 10;
  entry->permit.oxygen_permille = 209;
  entry->permit.counted_in = 4;
  bond_survey_record_now (survey, entry, &error);
  g_assert_no_error (error);
}

/* An airframe with its drawing, and @points. */
void
window_make_survey_of (const char *path, const WindowPoints *points)
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
  add_points (file, points);
  record_permit (bond_survey_file_get_survey (file));
  bond_survey_file_close (file, &error);
  g_assert_no_error (error);
}

/* Three points of one row (J2: ≤ 2.5 mΩ, no pair). */
void
window_make_survey (const char *path)
{
  static const WindowPoint points[] = { { "521-J01", "example/J2", BOND_CONDITION_UNDISTURBED },
                                        { "521-J02", "example/J2", BOND_CONDITION_UNDISTURBED },
                                        { "521-J03", "example/J2", BOND_CONDITION_UNDISTURBED } };

  window_make_survey_of (path, &(WindowPoints){ points, G_N_ELEMENTS (points) });
}

void
window_set_up (WindowFixture *fixture, gconstpointer data)
{
  g_autoptr (GError) error = NULL;

  fixture->folder = g_dir_make_tmp ("bond-window-XXXXXX", &error);
  g_assert_no_error (error);
  g_setenv ("XDG_DATA_HOME", fixture->folder, TRUE);
  fixture->path = g_build_filename (fixture->folder, "t.bondsurvey", NULL);
  if (data != NULL)
    window_make_survey_of (fixture->path, data);
  else
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
  BondWalk *walk = bond_survey_window_get_walk (fixture->window);

  for (int i = 0; i < 500 && (bond_walk_is_busy (walk) || bond_survey_is_busy (bond_walk_get_survey (walk))); i++)
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
  BondWalk *walk = bond_survey_window_get_walk (fixture->window);
  BondSurvey *survey = bond_walk_get_survey (walk);
  g_autoptr (GPtrArray) unread = bond_cautions_unread (survey, "p-test");

  bond_walk_set_person (walk, "p-test");
  if (unread->len > 0 && bond_survey_get_read_only (survey) == NULL)
    bond_walk_record_entry (walk, bond_cautions_entry (unread, "p-test"));
  for (int i = 0; i < 200 && bond_survey_is_busy (survey); i++)
    screen_spin (10);
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

void
window_keys (WindowFixture *fixture, const char *keys)
{
  BondReadingEntry *entry = BOND_READING_ENTRY (bond_reading_panel_get_entry (window_panel_of (fixture)));

  for (const char *at = keys; *at != '\0'; at = g_utf8_next_char (at))
    {
      gunichar character = g_utf8_get_char (at);
      guint keyval = character == '\n'     ? GDK_KEY_Return
                     : character == '\033' ? GDK_KEY_Escape
                                           : gdk_unicode_to_keyval (character);
      int position;

      if (bond_reading_entry_key (entry, keyval, 0, 0))
        {
          window_wait_written (fixture);
          continue;
        }
      gtk_editable_delete_selection (GTK_EDITABLE (entry));
      position = gtk_editable_get_position (GTK_EDITABLE (entry));
      gtk_editable_insert_text (GTK_EDITABLE (entry), at, (int)(g_utf8_next_char (at) - at), &position);
      gtk_editable_set_position (GTK_EDITABLE (entry), position);
    }
}

/* As the tests write it: plain spaces, and a point for the decimal mark of whatever locale they run in. */
static char *
plain_spaces (const char *text)
{
  g_auto (GStrv) parts = g_strsplit (text, "\302\240", -1);
  char *plain = g_strjoinv (" ", parts);

  for (char *at = plain; bond_locale_mark () == ',' && (at = strchr (at, ',')) != NULL; at++)
    if (at > plain && g_ascii_isdigit (at[-1]) && g_ascii_isdigit (at[1]))
      *at = '.';
  return plain;
}

gboolean
window_says (GtkWidget *widget, const char *text)
{
  if (!gtk_widget_get_visible (widget))
    return FALSE;
  if (GTK_IS_LABEL (widget))
    {
      g_autofree char *shown = plain_spaces (gtk_label_get_text (GTK_LABEL (widget)));

      if (strstr (shown, text) != NULL)
        return TRUE;
    }
  for (GtkWidget *child = gtk_widget_get_first_child (widget); child != NULL;
       child = gtk_widget_get_next_sibling (child))
    if (window_says (child, text))
      return TRUE;
  return FALSE;
}

/* A button whose label, or the first label inside it, is @label. */
static GtkWidget *
find_act (GtkWidget *widget, const char *label)
{
  if (!gtk_widget_get_visible (widget))
    return NULL;
  if (GTK_IS_BUTTON (widget) && window_says (widget, label))
    return widget;
  for (GtkWidget *child = gtk_widget_get_first_child (widget); child != NULL;
       child = gtk_widget_get_next_sibling (child))
    {
      GtkWidget *found = find_act (child, label);

      if (found != NULL)
        return found;
    }
  return NULL;
}

gboolean
window_has_act (gpointer window, const char *label)
{
  return find_act (GTK_WIDGET (window), label) != NULL;
}

void
window_press (gpointer window, const char *label)
{
  GtkWidget *button = find_act (GTK_WIDGET (window), label);

  if (button == NULL)
    g_error ("no button “%s”", label);
  g_signal_emit_by_name (button, "clicked");
}

static GtkWidget *
find_tick (GtkWidget *widget, const char *label)
{
  if (GTK_IS_CHECK_BUTTON (widget) && gtk_check_button_get_label (GTK_CHECK_BUTTON (widget)) != NULL
      && strstr (gtk_check_button_get_label (GTK_CHECK_BUTTON (widget)), label) != NULL)
    return widget;
  for (GtkWidget *child = gtk_widget_get_first_child (widget); child != NULL;
       child = gtk_widget_get_next_sibling (child))
    {
      GtkWidget *found = find_tick (child, label);

      if (found != NULL)
        return found;
    }
  return NULL;
}

GtkCheckButton *
window_tick (gpointer window, const char *label)
{
  GtkWidget *found = find_tick (GTK_WIDGET (window), label);

  return found != NULL && gtk_widget_get_visible (found) ? GTK_CHECK_BUTTON (found) : NULL;
}

void
window_rework (WindowFixture *fixture, const char *tick, const char *card)
{
  GtkWindow *dialog;

  window_keys (fixture, "w");
  dialog = window_newest_dialog ();
  g_assert_nonnull (dialog);
  gtk_check_button_set_active (window_tick (dialog, tick), TRUE);
  window_fill (dialog, 1, card);
  window_press (dialog, "Record Rework, 1 Step");
  window_wait_written (fixture);
  g_assert_null (window_newest_dialog ());
}

void
window_open_joint (WindowFixture *fixture, const char *card)
{
  GtkWindow *dialog;

  window_keys (fixture, "j");
  dialog = window_newest_dialog ();
  g_assert_nonnull (dialog);
  gtk_check_button_set_active (window_tick (dialog, "Opened for access"), TRUE);
  window_fill (dialog, 0, card);
  window_press (dialog, "Record");
  window_wait_written (fixture);
  g_assert_null (window_newest_dialog ());
}
