/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * People, cautions, permits and handing over as the window does them: what waits, what
 * is kept while it waits, and what the file holds afterwards.
 */
#include "gui/dialogs/people-popover.h"
#include "gui/gate.h"
#include "library/cautions.h"
#include "reach.h"
#include "screen.h"
#include "window-fixture.h"

static BondWalk *
walk_of (WindowFixture *fixture)
{
  return bond_survey_window_get_walk (fixture->window);
}

static BondSurvey *
survey_of (WindowFixture *fixture)
{
  return bond_walk_get_survey (walk_of (fixture));
}

static void
wait_idle (WindowFixture *fixture)
{
  for (int i = 0; i < 200 && bond_survey_is_busy (survey_of (fixture)); i++)
    screen_spin (10);
  screen_spin (30);
}

static void
record (WindowFixture *fixture, BondEntry *entry)
{
  bond_walk_record_entry (walk_of (fixture), entry);
  wait_idle (fixture);
}

static guint
count_kind (WindowFixture *fixture, BondEntryKind kind)
{
  GPtrArray *entries = bond_survey_get_entries (survey_of (fixture));
  guint n = 0;

  for (guint i = 0; i < entries->len; i++)
    n += ((BondEntry *)g_ptr_array_index (entries, i))->kind == kind;
  return n;
}

static BondEntry *
newest (WindowFixture *fixture, BondEntryKind kind)
{
  GPtrArray *entries = bond_survey_get_entries (survey_of (fixture));

  for (guint i = entries->len; i-- > 0;)
    if (((BondEntry *)g_ptr_array_index (entries, i))->kind == kind)
      return g_ptr_array_index (entries, i);
  return NULL;
}

/* A band or another label with @part in it that is on the screen. */
static gboolean
shows (GtkWidget *widget, const char *part)
{
  if (!gtk_widget_get_mapped (widget))
    return FALSE;
  if (GTK_IS_LABEL (widget) && strstr (gtk_label_get_text (GTK_LABEL (widget)), part) != NULL)
    return TRUE;
  for (GtkWidget *child = gtk_widget_get_first_child (widget); child != NULL;
       child = gtk_widget_get_next_sibling (child))
    if (shows (child, part))
      return TRUE;
  return FALSE;
}

static void
press (GtkWindow *dialog, const char *label)
{
  GtkWidget *button = window_find_of_type (GTK_WIDGET (dialog), GTK_TYPE_BUTTON, label);

  g_assert_nonnull (button);
  g_signal_emit_by_name (button, "clicked");
  screen_spin (50);
}

static GtkWindow *
open_dialog (WindowFixture *fixture, const char *action)
{
  GtkWindow *dialog;

  gtk_widget_activate_action (GTK_WIDGET (fixture->window), action, NULL);
  screen_spin (80);
  dialog = window_newest_dialog ();
  g_assert_nonnull (dialog);
  reach_assert (dialog);
  return dialog;
}

/* --- cautions --- */

/* The page shows them, Enter on its button acknowledges them: the entry is in the file, and the next opening is short.
 */
static void
test_cautions_once (WindowFixture *fixture, gconstpointer data)
{
  GtkWidget *button = gtk_window_get_focus (GTK_WINDOW (fixture->window));
  g_autoptr (BondSurveyFile) file = NULL;
  g_autoptr (GPtrArray) left = NULL;

  g_assert_true (shows (GTK_WIDGET (fixture->window), "General reminders."));
  g_assert_true (shows (GTK_WIDGET (fixture->window), "I Have Read This"));
  g_assert_true (shows (GTK_WIDGET (fixture->window), "Fuel vapour: zone 521"));
  g_assert_false (shows (GTK_WIDGET (fixture->window), "Composite"));
  reach_assert (GTK_WINDOW (fixture->window));
  g_signal_emit_by_name (button, "clicked");
  wait_idle (fixture);
  g_assert_cmpuint (count_kind (fixture, BOND_ENTRY_CAUTION), ==, 1);
  g_assert_cmpstr (newest (fixture, BOND_ENTRY_CAUTION)->by, ==, "p-test");
  left = bond_cautions_unread (survey_of (fixture), "p-test");
  g_assert_cmpuint (left->len, ==, 0);
  window_type_reading (fixture, "1.84");
  g_assert_cmpuint (count_kind (fixture, BOND_ENTRY_READING), ==, 1);
  file = window_read_again (fixture);
  gtk_window_destroy (GTK_WINDOW (fixture->window));
  g_clear_object (&file);
  fixture->window = bond_application_open_survey (fixture->application, fixture->path);
  screen_spin (100);
  g_assert_true (shows (GTK_WIDGET (fixture->window), "has acknowledged today"));
  g_assert_false (shows (GTK_WIDGET (fixture->window), "I Have Read This"));
}

/* A new person types on; the first reading waits in the field until the cautions are read. */
static void
test_new_person_waits (WindowFixture *fixture, gconstpointer data)
{
  GtkWindow *dialog;

  window_begin (fixture);
  bond_add_person (walk_of (fixture), "N. Newcomer");
  wait_idle (fixture);
  g_assert_true (shows (GTK_WIDGET (fixture->window), "N. Newcomer has not read today’s cautions"));
  g_assert_true (shows (GTK_WIDGET (fixture->window), "Recorded: New Name."));
  window_type_reading (fixture, "1.84");
  g_assert_cmpuint (count_kind (fixture, BOND_ENTRY_READING), ==, 0);
  g_assert_cmpstr (gtk_editable_get_text (bond_reading_panel_get_entry (window_panel_of (fixture))), ==, "1.84");
  dialog = open_dialog (fixture, "win.cautions");
  press (dialog, "I Have Read This");
  wait_idle (fixture);
  g_assert_false (shows (GTK_WIDGET (fixture->window), "has not read today"));
  g_assert_cmpstr (gtk_editable_get_text (bond_reading_panel_get_entry (window_panel_of (fixture))), ==, "1.84");
  bond_reading_panel_record (window_panel_of (fixture));
  window_wait_written (fixture);
  g_assert_cmpstr (bond_survey_person_name (survey_of (fixture), newest (fixture, BOND_ENTRY_READING)->by), ==,
                   "N. Newcomer");
}

/* --- people --- */

static gboolean
send_key (GtkWidget *popover, guint keyval)
{
  g_autoptr (GListModel) controllers = gtk_widget_observe_controllers (popover);
  gboolean handled = FALSE;

  for (guint i = 0; i < g_list_model_get_n_items (controllers); i++)
    {
      g_autoptr (GtkEventController) controller = g_list_model_get_item (controllers, i);

      if (GTK_IS_EVENT_CONTROLLER_KEY (controller)
          && gtk_event_controller_get_propagation_phase (controller) == GTK_PHASE_CAPTURE && !handled)
        g_signal_emit_by_name (controller, "key-pressed", keyval, 0u, (GdkModifierType)0, &handled);
    }
  return handled;
}

static GtkWidget *
open_people (WindowFixture *fixture)
{
  GtkWidget *strip_button = NULL;

  gtk_widget_activate_action (GTK_WIDGET (fixture->window), "win.person", NULL);
  screen_spin (100);
  for (GtkWidget *w = gtk_window_get_focus (GTK_WINDOW (fixture->window)); w != NULL && strip_button == NULL;
       w = gtk_widget_get_parent (w))
    if (GTK_IS_POPOVER (w))
      strip_button = w;
  g_assert_nonnull (strip_button);
  return strip_button;
}

/* Alt+P and a digit: two keys. */
static void
test_two_keys (WindowFixture *fixture, gconstpointer data)
{
  GtkWidget *popover;

  window_begin (fixture);
  bond_add_person (walk_of (fixture), "N. Newcomer");
  wait_idle (fixture);
  g_assert_cmpstr (bond_survey_get_person (survey_of (fixture)), !=, "p-test");
  popover = open_people (fixture);
  g_assert_true (send_key (popover, GDK_KEY_1));
  screen_spin (50);
  g_assert_cmpstr (bond_survey_get_person (survey_of (fixture)), ==, "p-test");
  g_assert_true (shows (GTK_WIDGET (fixture->window), "T. Tester"));
}

/* Part of a known name picks that person; another name is adopted. */
static void
test_typed_name (WindowFixture *fixture, gconstpointer data)
{
  GPtrArray *people = bond_survey_get_people (survey_of (fixture));
  GtkWidget *entry;
  guint before;

  window_begin (fixture);
  bond_add_person (walk_of (fixture), "N. Newcomer");
  wait_idle (fixture);
  before = people->len;
  entry = window_find_of_type (open_people (fixture), GTK_TYPE_ENTRY, NULL);
  gtk_editable_set_text (GTK_EDITABLE (entry), "tester");
  g_signal_emit_by_name (entry, "activate");
  wait_idle (fixture);
  g_assert_cmpstr (bond_survey_get_person (survey_of (fixture)), ==, "p-test");
  g_assert_cmpuint (people->len, ==, before);
  entry = window_find_of_type (open_people (fixture), GTK_TYPE_ENTRY, NULL);
  gtk_editable_set_text (GTK_EDITABLE (entry), "A. Another");
  g_signal_emit_by_name (entry, "activate");
  wait_idle (fixture);
  g_assert_cmpuint (people->len, ==, before + 1);
  g_assert_cmpstr (bond_survey_person_name (survey_of (fixture), bond_survey_get_person (survey_of (fixture))), ==,
                   "A. Another");
}

/* Entered by and under supervision go into every entry, and stand beside the name. */
static void
test_attribution (WindowFixture *fixture, gconstpointer data)
{
  g_autoptr (BondSurveyFile) file = NULL;
  g_autofree char *id = NULL;
  BondEntry *entry;

  window_begin (fixture);
  id = bond_adopt_person (walk_of (fixture), "S. Supervisor");
  wait_idle (fixture);
  bond_survey_set_attribution (survey_of (fixture), id, id);
  bond_walk_set_person (walk_of (fixture), "p-test");
  screen_spin (30);
  g_assert_true (shows (GTK_WIDGET (fixture->window), "T. Tester, under S. Supervisor"));
  window_type_reading (fixture, "1.84");
  file = window_read_again (fixture);
  entry = g_ptr_array_index (bond_survey_get_entries (bond_survey_file_get_survey (file)),
                             bond_survey_get_entries (bond_survey_file_get_survey (file))->len - 1);
  g_assert_cmpint (entry->kind, ==, BOND_ENTRY_READING);
  g_assert_cmpstr (entry->by, ==, "p-test");
  g_assert_cmpstr (entry->entered_by, ==, id);
  g_assert_cmpstr (entry->under, ==, id);
}

/* --- permits --- */

static void
add_point (WindowFixture *fixture, const char *number, const char *zone, guint hazards)
{
  BondEntry *entry = bond_entry_new (BOND_ENTRY_POINT);
  BondPointSpec *spec = bond_point_spec_new ("q-hazard", number, BOND_CLASS_STRUCTURE, zone);

  g_free (spec->from);
  g_free (spec->to);
  spec->from = g_strdup ("Tube");
  spec->to = g_strdup ("Rib");
  spec->limit = g_strdup ("example/J2");
  spec->hazards = hazards;
  entry->point = g_strdup (spec->id);
  entry->spec = spec;
  record (fixture, entry);
}

static void
pin_unapproved (WindowFixture *fixture)
{
  g_autoptr (BondInstrument) meter = bond_instrument_new ("i-plain", 1, BOND_INSTRUMENT_MILLIOHMMETER, "TM-P");
  BondRange range = { .id = (char *)"30m",
                      .end = 30 * BOND_NOHM_PER_MILLIOHM,
                      .step = BOND_NOHM_PER_MILLIOHM / 100,
                      .accuracy_known = TRUE,
                      .accuracy_reading_ppm = 2500,
                      .microampere = 1000000 };

  bond_instrument_add_range (meter, &range);
  record (fixture, bond_entry_adopt_new (BOND_ADOPT_INSTRUMENT, meter));
  bond_walk_pin_instrument (walk_of (fixture), "i-plain");
}

static char *
clock_in (WindowFixture *fixture, int minutes)
{
  g_autofree char *now = bond_source_peek (bond_survey_get_source (survey_of (fixture)));
  g_autoptr (GDateTime) time = g_date_time_new_from_iso8601 (now, NULL);
  g_autoptr (GDateTime) later = g_date_time_add_minutes (time, minutes);

  return g_date_time_format (later, "%H:%M");
}

static void
fill_permit (WindowFixture *fixture, GtkWindow *dialog, const char *vapour)
{
  g_autofree char *tested = clock_in (fixture, -2);
  g_autofree char *until = clock_in (fixture, 90);

  window_fill (dialog, 0, "P-17");
  window_fill (dialog, 3, tested);
  window_fill (dialog, 4, vapour);
  window_fill (dialog, 5, "20,9");
  window_fill (dialog, 6, "G. Tester");
  window_fill (dialog, 7, until);
  window_fill (dialog, 8, "6");
}

/* Band, refusal with the digits kept, meter not approved, permit recorded, reading, closing with a count that differs.
 */
static void
test_permit_flow (WindowFixture *fixture, gconstpointer data)
{
  GtkWindow *dialog;
  BondEntry *permit;

  window_begin (fixture);
  pin_unapproved (fixture);
  add_point (fixture, "522-J01", "522", 0); /* the zone is a tank */
  window_begin (fixture);                   /* a new hazard is a new caution */
  wait_idle (fixture);
  window_type_reading (fixture, "522-01");
  screen_spin (50);
  g_assert_true (shows (GTK_WIDGET (fixture->window), "522 may hold fuel vapour. Readings there need a permit."));
  window_type_reading (fixture, "1.84");
  g_assert_cmpuint (count_kind (fixture, BOND_ENTRY_READING), ==, 0);
  g_assert_cmpstr (gtk_editable_get_text (bond_reading_panel_get_entry (window_panel_of (fixture))), ==, "1.84");
  dialog = open_dialog (fixture, "win.permit");
  fill_permit (fixture, dialog, "12");
  press (dialog, "Record Permit");
  g_assert_true (window_newest_dialog () == dialog); /* above the house limit: refused with the reason */
  g_assert_true (shows (GTK_WIDGET (dialog), "12.0"));
  fill_permit (fixture, dialog, "2,5");
  press (dialog, "Record Permit");
  wait_idle (fixture);
  permit = newest (fixture, BOND_ENTRY_PERMIT);
  g_assert_nonnull (permit);
  g_assert_cmpint (permit->permit.vapour_permille, ==, 25);
  g_assert_cmpint (permit->permit.oxygen_permille, ==, 209);
  g_assert_cmpint (permit->permit.counted_in, ==, 6);
  g_assert_cmpstr (permit->permit.zones, ==, "522");
  g_assert_true (shows (GTK_WIDGET (fixture->window), "TM-P is not approved for fuel vapour. Approved: TM-1."));
  gtk_widget_activate_action (GTK_WIDGET (fixture->window), "win.use-instrument", "s", "i-test");
  screen_spin (50);
  g_assert_true (shows (GTK_WIDGET (fixture->window), "Permit P-17 until "));
  g_assert_true (shows (GTK_WIDGET (fixture->window), "min left"));
  window_type_reading (fixture, "1.84");
  g_assert_cmpuint (count_kind (fixture, BOND_ENTRY_READING), ==, 1);

  window_type_reading (fixture, "522-01"); /* the permit of the point in hand is offered first */
  screen_spin (50);
  dialog = open_dialog (fixture, "win.close-permit");
  window_fill (dialog, 0, "5");
  g_assert_true (shows (GTK_WIDGET (dialog), "6 went in, 5 came out: 1 MISSING"));
  press (dialog, "Close Permit");
  g_assert_true (window_newest_dialog () == dialog); /* it needs a reason */
  window_fill (dialog, 1, "clip found in tool bag");
  press (dialog, "Close Permit");
  wait_idle (fixture);
  g_assert_cmpuint (count_kind (fixture, BOND_ENTRY_CLOSE_PERMIT), ==, 1);
  g_assert_cmpstr (newest (fixture, BOND_ENTRY_CLOSE_PERMIT)->reason, ==, "clip found in tool bag");
}

static void
test_explosive (WindowFixture *fixture, gconstpointer data)
{
  GtkWindow *dialog;

  window_begin (fixture);
  add_point (fixture, "551-J01", "551", BOND_HAZARD_EXPLOSIVE);
  window_begin (fixture);
  wait_idle (fixture);
  window_type_reading (fixture, "551-01");
  screen_spin (50);
  g_assert_true (shows (GTK_WIDGET (fixture->window), "The pinned range puts 10 A through the joint."));
  window_type_reading (fixture, "1.84");
  g_assert_cmpuint (count_kind (fixture, BOND_ENTRY_READING), ==, 0);
  dialog = open_dialog (fixture, "win.permit");
  g_assert_true (shows (GTK_WIDGET (dialog), "The pinned range puts 10 A through the joint."));
  window_fill (dialog, 2, "A. Armourer");
  window_fill (dialog, 8, "4");
  press (dialog, "Record Permit");
  wait_idle (fixture);
  g_assert_cmpstr (newest (fixture, BOND_ENTRY_PERMIT)->permit.authority, ==, "A. Armourer");
  bond_reading_panel_record (window_panel_of (fixture));
  window_wait_written (fixture);
  g_assert_cmpuint (count_kind (fixture, BOND_ENTRY_READING), ==, 1);
}

/* --- handing over --- */

static void
test_hand_over (WindowFixture *fixture, gconstpointer data)
{
  g_autoptr (BondSurveyFile) file = NULL;
  GtkWindow *dialog;
  BondEntry *entry;

  window_begin (fixture);
  window_type_reading (fixture, "1.84");
  dialog = open_dialog (fixture, "win.hand-over");
  g_assert_true (shows (GTK_WIDGET (dialog), "Done: 1 points"));
  press (dialog, "Hand Over");
  g_assert_true (window_newest_dialog () == dialog); /* somebody must accept */
  window_fill (dialog, 0, "B. Second");
  window_fill (dialog, 1, "521AB");
  press (dialog, "Hand Over");
  wait_idle (fixture);
  entry = newest (fixture, BOND_ENTRY_HANDOVER);
  g_assert_nonnull (entry);
  g_assert_cmpstr (entry->by, ==, "p-test");
  g_assert_cmpstr (bond_survey_person_name (survey_of (fixture), entry->handover.to), ==, "B. Second");
  g_assert_cmpstr (entry->handover.panels, ==, "521AB");
  g_assert_cmpint (entry->handover.points_done, ==, 1);
  g_assert_cmpint (entry->handover.points_to_do, ==, 2);
  g_assert_cmpstr (bond_survey_get_person (survey_of (fixture)), ==, entry->handover.to);
  g_assert_true (shows (GTK_WIDGET (fixture->window), "B. Second has not read today’s cautions"));
  file = window_read_again (fixture);
}

#define CASE(name, function)                                                                                           \
  g_test_add ("/gui/shift/" name, WindowFixture, NULL, window_set_up, function, window_tear_down)

int
main (int argc, char **argv)
{
  g_setenv ("GTK_A11Y", "test", TRUE);
  g_setenv ("GSK_RENDERER", "cairo", TRUE);
  g_unsetenv ("DBUS_SESSION_BUS_ADDRESS");
  g_test_init (&argc, &argv, NULL);
  gtk_init ();
  CASE ("cautions-once", test_cautions_once);
  CASE ("new-person-waits", test_new_person_waits);
  CASE ("two-keys", test_two_keys);
  CASE ("typed-name", test_typed_name);
  CASE ("attribution", test_attribution);
  CASE ("permit-flow", test_permit_flow);
  CASE ("explosive", test_explosive);
  CASE ("hand-over", test_hand_over);
  return g_test_run ();
}
