/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * The survey window as a hand meets it: readings typed into the field, a point placed
 * by the diagram's signal, undo, questions, a file that cannot be used.  What was
 * recorded is looked for in the file, read again by itself.
 */
#include "gui/dialog.h"
#include "gui/widgets/diagram-private.h"
#include "reach.h"
#include "screen.h"
#include "window-fixture.h"

#include <glib/gstdio.h>

static void
test_readings (WindowFixture *fixture, gconstpointer data)
{
  g_autoptr (BondSurveyFile) file = NULL;
  BondPoint *point;

  window_begin (fixture);
  g_assert_cmpstr (window_number_in_hand (fixture), ==, "521-J01");
  gtk_editable_set_text (bond_reading_panel_get_entry (window_panel_of (fixture)), "1.84");
  g_assert_nonnull (strstr (bond_reading_panel_get_record_text (window_panel_of (fixture)), "pass"));
  bond_reading_panel_record (window_panel_of (fixture));
  window_wait_written (fixture);
  g_assert_cmpstr (window_number_in_hand (fixture), ==, "521-J02"); /* a pass goes on by itself */
  g_assert_cmpstr (gtk_editable_get_text (bond_reading_panel_get_entry (window_panel_of (fixture))), ==, "");
  window_type_reading (fixture, "3.12");
  g_assert_cmpstr (window_number_in_hand (fixture), ==, "521-J02"); /* a fail stays */
  g_assert_true (bond_walk_is_stopped (bond_survey_window_get_walk (fixture->window)));
  g_assert_cmpstr (bond_reading_panel_get_said (window_panel_of (fixture)), !=, "");
  window_type_reading (fixture, "521-03");
  g_assert_cmpstr (window_number_in_hand (fixture), ==, "521-J03"); /* a number of a point only jumps */
  window_type_reading (fixture, "1.8.4");
  g_assert_cmpstr (gtk_editable_get_text (bond_reading_panel_get_entry (window_panel_of (fixture))), ==, "1.8.4");

  file = window_read_again (fixture);
  point = bond_survey_find_number (bond_survey_file_get_survey (file), "521-J01");
  g_assert_cmpint (bond_point_get_state (point), ==, BOND_STATE_PASS);
  g_assert_cmpint (bond_mean_nohm (&bond_point_get_worst (point)->decides->mean), ==, 1840000);
  point = bond_survey_find_number (bond_survey_file_get_survey (file), "521-J02");
  g_assert_cmpint (bond_point_get_state (point), ==, BOND_STATE_FAIL);
  point = bond_survey_find_number (bond_survey_file_get_survey (file), "521-J03");
  g_assert_cmpint (bond_point_get_state (point), ==, BOND_STATE_TO_MEASURE);
}

static void
test_undo (WindowFixture *fixture, gconstpointer data)
{
  g_autoptr (BondSurveyFile) file = NULL;
  BondWalk *walk = bond_survey_window_get_walk (fixture->window);

  window_begin (fixture);
  window_type_reading (fixture, "1.90");
  gtk_widget_activate_action (GTK_WIDGET (fixture->window), "win.undo", NULL);
  window_wait_written (fixture);
  screen_spin (50);
  g_assert_cmpstr (window_number_in_hand (fixture), ==, "521-J01");
  g_assert_cmpstr (gtk_editable_get_text (bond_reading_panel_get_entry (window_panel_of (fixture))), ==, "1.90");
  g_assert_cmpint (bond_point_get_state (bond_walk_get_point (walk)), ==, BOND_STATE_TO_MEASURE);
  file = window_read_again (fixture);
  g_assert_cmpint (bond_point_get_state (bond_survey_find_number (bond_survey_file_get_survey (file), "521-J01")), ==,
                   BOND_STATE_TO_MEASURE);
}

/* Nothing is recorded before the question is answered, and Enter alone does not answer it. */
static void
test_questions (WindowFixture *fixture, gconstpointer data)
{
  BondSurvey *survey = bond_walk_get_survey (bond_survey_window_get_walk (fixture->window));
  guint before;
  const char *const asked[] = { "0", "1840", "42", "<" };

  window_begin (fixture);
  before = bond_survey_get_entries (survey)->len;
  for (gsize i = 0; i < G_N_ELEMENTS (asked); i++)
    {
      window_type_reading (fixture, asked[i]);
      bond_reading_panel_record (window_panel_of (fixture));
      window_wait_written (fixture);
      g_assert_cmpint (bond_survey_get_entries (survey)->len, ==, before);
      g_assert_cmpstr (gtk_editable_get_text (bond_reading_panel_get_entry (window_panel_of (fixture))), ==, asked[i]);
      g_assert_cmpstr (bond_reading_panel_get_said (window_panel_of (fixture)), !=, "");
    }
}

static void
test_place (WindowFixture *fixture, gconstpointer data)
{
  BondWalkPage *page = bond_survey_window_get_page (fixture->window);
  g_autoptr (BondSurveyFile) file = NULL;
  const BondPlacement *home;
  const BondPointSpec *spec;
  BondPoint *point;
  GtkWindow *dialog;

  window_begin (fixture);
  g_signal_emit_by_name (bond_walk_page_get_diagram (page), "zone-clicked", "521", "plan-upper", 592.86, 716.77);
  dialog = window_newest_dialog ();
  g_assert_nonnull (dialog);
  gtk_window_set_default_size (dialog, 400, 300);
  g_signal_emit_by_name (window_find_of_type (GTK_WIDGET (dialog), GTK_TYPE_BUTTON, "Place Point"), "clicked");
  g_assert_true (window_newest_dialog () == dialog); /* both ends have to be named first */
  window_fill (dialog, 0, "Rib 4 cleat");
  window_fill (dialog, 1, "Front spar web");
  g_signal_emit_by_name (window_find_of_type (GTK_WIDGET (dialog), GTK_TYPE_BUTTON, "Place Point"), "clicked");
  window_wait_written (fixture);
  screen_spin (100);
  g_assert_cmpstr (window_number_in_hand (fixture), ==, "521-J04");

  file = window_read_again (fixture);
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
test_write_error (WindowFixture *fixture, gconstpointer data)
{
  BondSurvey *survey = bond_walk_get_survey (bond_survey_window_get_walk (fixture->window));
  BondSink sink = { .write = refuse, .sink = survey };
  guint before;

  window_begin (fixture);
  before = bond_survey_get_entries (survey)->len;
  bond_survey_begin_sitting (survey, "s-00000000000000000000000000000001");
  bond_survey_set_sink (survey, &sink);
  window_type_reading (fixture, "1.84");
  g_assert_cmpint (bond_survey_get_entries (survey)->len, ==, before);
  g_assert_cmpstr (gtk_editable_get_text (bond_reading_panel_get_entry (window_panel_of (fixture))), ==, "1.84");
  g_assert_nonnull (strstr (bond_reading_panel_get_said (window_panel_of (fixture)), "NOT recorded"));
  g_assert_cmpstr (window_number_in_hand (fixture), ==, "521-J01");
}

static void
test_bad_file (WindowFixture *fixture, gconstpointer data)
{
  g_autofree char *bad = g_build_filename (fixture->folder, "bad.bondsurvey", NULL);
  g_autoptr (GError) error = NULL;

  g_file_set_contents (bad, "<survey xmlns=\"urn:bondwright:survey\"", -1, &error);
  g_assert_no_error (error);
  g_assert_null (bond_application_open_survey (fixture->application, bad));
  screen_spin (50);
  g_assert_nonnull (window_newest_dialog ());
  g_assert_true (gtk_widget_get_mapped (GTK_WIDGET (fixture->window))); /* the open survey is not disturbed */
  gtk_window_destroy (window_newest_dialog ());
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
test_names (WindowFixture *fixture, gconstpointer data)
{
  window_begin (fixture);
  screen_spin (100);
  check_named (gtk_window_get_child (GTK_WINDOW (fixture->window)));
  check_named (gtk_window_get_titlebar (GTK_WINDOW (fixture->window)));
}

static gboolean
field_has_focus (WindowFixture *fixture)
{
  GtkWidget *focus = gtk_root_get_focus (GTK_ROOT (fixture->window));

  return focus != NULL
         && gtk_widget_is_ancestor (focus, GTK_WIDGET (bond_reading_panel_get_entry (window_panel_of (fixture))));
}

/* After a pan, a move or a click on the diagram the next key is for the field again. */
static void
test_focus_back (WindowFixture *fixture, gconstpointer data)
{
  BondDiagram *diagram = bond_walk_page_get_diagram (bond_survey_window_get_page (fixture->window));

  window_begin (fixture);
  screen_spin (100);
  gtk_widget_grab_focus (diagram->cursor_widget);
  g_assert_false (field_has_focus (fixture));
  bond_diagram_grip_begin (diagram, 5.0, 5.0);
  bond_diagram_grip_update (diagram, 60.0, 60.0);
  g_signal_emit_by_name (diagram->drag, "drag-end", 55.0, 55.0);
  g_assert_true (field_has_focus (fixture));
}

static void
press_on (GtkWidget *widget, guint keyval)
{
  g_autoptr (GListModel) controllers = gtk_widget_observe_controllers (widget);

  for (guint i = 0; i < g_list_model_get_n_items (controllers); i++)
    {
      g_autoptr (GtkEventController) controller = g_list_model_get_item (controllers, i);
      gboolean stop = FALSE;

      if (GTK_IS_EVENT_CONTROLLER_KEY (controller))
        g_signal_emit_by_name (controller, "key-pressed", keyval, 0, 0, &stop);
      /* No key of the diagram's own may take a digit before. */
      for (guint k = 0;
           GTK_IS_SHORTCUT_CONTROLLER (controller) && k < g_list_model_get_n_items (G_LIST_MODEL (controller)); k++)
        {
          g_autoptr (GtkShortcut) shortcut = g_list_model_get_item (G_LIST_MODEL (controller), k);
          GtkShortcutTrigger *trigger = gtk_shortcut_get_trigger (shortcut);

          if (GTK_IS_KEYVAL_TRIGGER (trigger))
            g_assert_cmpuint (gtk_keyval_trigger_get_keyval (GTK_KEYVAL_TRIGGER (trigger)), !=, keyval);
        }
    }
}

static void
test_digits_on_diagram (WindowFixture *fixture, gconstpointer data)
{
  GtkWidget *diagram = GTK_WIDGET (bond_walk_page_get_diagram (bond_survey_window_get_page (fixture->window)));

  window_begin (fixture);
  screen_spin (100);
  gtk_widget_grab_focus (BOND_DIAGRAM (diagram)->cursor_widget);
  press_on (diagram, GDK_KEY_0);
  press_on (diagram, GDK_KEY_KP_7);
  g_assert_cmpstr (gtk_editable_get_text (bond_reading_panel_get_entry (window_panel_of (fixture))), ==, "07");
  g_assert_true (field_has_focus (fixture));
}

static GtkWidget *
find_of_action (GtkWidget *widget, const char *action)
{
  GtkWidget *found = NULL;

  if (GTK_IS_ACTIONABLE (widget) && g_strcmp0 (gtk_actionable_get_action_name (GTK_ACTIONABLE (widget)), action) == 0)
    return widget;
  for (GtkWidget *child = gtk_widget_get_first_child (widget); child != NULL && found == NULL;
       child = gtk_widget_get_next_sibling (child))
    found = find_of_action (child, action);
  return found;
}

/* Held for writing by another: it opens, says who has it, and offers nothing that would record. */
/* Who, where and since when. */
static void
assert_asked (const char *station)
{
  GtkWindow *dialog = window_newest_dialog ();

  g_assert_nonnull (dialog);
  g_assert_cmpstr (gtk_window_get_title (dialog), ==, "Open Elsewhere");
  g_assert_true (window_says (GTK_WIDGET (dialog), "is open on this computer already: "));
  g_assert_true (window_says (GTK_WIDGET (dialog), station));
  g_assert_true (window_says (GTK_WIDGET (dialog), ", since 20"));
  reach_assert (dialog);
}

static BondSurveyWindow *
window_of (WindowFixture *fixture, const char *path)
{
  for (GList *l = gtk_application_get_windows (GTK_APPLICATION (fixture->application)); l != NULL; l = l->next)
    if (BOND_IS_SURVEY_WINDOW (l->data)
        && g_strcmp0 (bond_survey_file_get_path (bond_survey_window_get_file (l->data)), path) == 0)
      return l->data;
  return NULL;
}

/* The label in sight that says @text. */
static GtkWidget *
find_text (GtkWidget *widget, const char *text)
{
  GtkWidget *found = GTK_IS_LABEL (widget) && gtk_widget_get_mapped (widget)
                             && g_str_equal (gtk_label_get_text (GTK_LABEL (widget)), text)
                         ? widget
                         : NULL;

  for (GtkWidget *child = gtk_widget_get_first_child (widget); found == NULL && child != NULL;
       child = gtk_widget_get_next_sibling (child))
    found = find_text (child, text);
  return found;
}

/* An act refused on the Readings page is refused there, also when the first message was dismissed. */
static void
assert_refused_in_sight (BondSurveyWindow *window)
{
  const char *why = bond_survey_get_read_only (bond_survey_file_get_survey (bond_survey_window_get_file (window)));
  GtkWidget *told;

  bond_survey_window_show_page (window, "readings");
  screen_spin (100);
  while ((told = find_text (GTK_WIDGET (window), why)) != NULL)
    gtk_widget_unparent (gtk_widget_get_parent (told));
  g_assert_true (gtk_widget_activate_action (GTK_WIDGET (window), "win.disposition", NULL));
  screen_spin (100);
  g_assert_nonnull (find_text (GTK_WIDGET (window), why));
}

static void
test_read_only (WindowFixture *fixture, gconstpointer data)
{
  g_autofree char *path = g_build_filename (fixture->folder, "held.bondsurvey", NULL);
  g_autoptr (BondSource) source = bond_source_new_system ();
  g_autoptr (BondSurveyFile) holder = NULL;
  g_autoptr (GError) error = NULL;
  BondSurveyWindow *window;

  g_assert_true (gtk_widget_is_sensitive (find_of_action (GTK_WIDGET (fixture->window), "win.record")));
  window_make_survey (path);
  holder = bond_survey_file_open (path, BOND_OPEN_WRITE, source, "bench 2", NULL, &error);
  g_assert_no_error (error);
  g_assert_null (bond_application_open_survey (fixture->application, path));
  screen_spin (100);
  assert_asked ("bench 2");
  gtk_window_close (window_newest_dialog ()); /* Cancel: nothing is opened */
  screen_spin (50);
  g_assert_null (window_newest_dialog ());
  g_assert_null (window_of (fixture, path));
  g_assert_null (bond_application_open_survey (fixture->application, path));
  screen_spin (100);
  window_press (window_newest_dialog (), "Open Read-Only");
  screen_spin (100);
  window = window_of (fixture, path);
  g_assert_nonnull (window);
  g_assert_false (gtk_widget_is_sensitive (find_of_action (GTK_WIDGET (window), "win.record")));
  g_assert_nonnull (strstr (
      bond_survey_get_read_only (bond_survey_file_get_survey (bond_survey_window_get_file (window))), "bench 2"));
  assert_refused_in_sight (window);
  bond_survey_file_close (holder, NULL);
}

int
main (int argc, char **argv)
{
  g_setenv ("GTK_A11Y", "test", TRUE);
  g_setenv ("GSK_RENDERER", "cairo", TRUE);
  g_unsetenv ("DBUS_SESSION_BUS_ADDRESS");
  g_test_init (&argc, &argv, NULL);
  gtk_init ();
#define ADD(name, test) g_test_add ("/gui/window/" name, WindowFixture, NULL, window_set_up, test, window_tear_down)
  ADD ("readings", test_readings);
  ADD ("undo", test_undo);
  ADD ("questions", test_questions);
  ADD ("place", test_place);
  ADD ("write-error", test_write_error);
  ADD ("bad-file", test_bad_file);
  ADD ("focus-back", test_focus_back);
  ADD ("digits-on-diagram", test_digits_on_diagram);
  ADD ("read-only", test_read_only);
  ADD ("names", test_names);
  return g_test_run ();
}
