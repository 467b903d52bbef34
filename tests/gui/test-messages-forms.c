/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * The forms about a point: what each refuses in place and in which words, what it
 * records once it has all it needs, and what undo calls it.
 */
#include "gui/dialogs/point-acts.h"
#include "library/library.h"
#include "reach.h"
#include "screen.h"
#include "window-fixture.h"

static BondSurvey *
survey_of (WindowFixture *fixture)
{
  return bond_walk_get_survey (bond_survey_window_get_walk (fixture->window));
}

static BondEntry *
newest (WindowFixture *fixture)
{
  GPtrArray *entries = bond_survey_get_entries (survey_of (fixture));

  return g_ptr_array_index (entries, entries->len - 1);
}

static guint
n_entries (WindowFixture *fixture)
{
  return bond_survey_get_entries (survey_of (fixture))->len;
}

static GtkWindow *
open_form (WindowFixture *fixture, const char *keys)
{
  window_keys (fixture, keys);
  screen_spin (30);
  g_assert_nonnull (window_newest_dialog ());
  reach_assert (window_newest_dialog ());
  return window_newest_dialog ();
}

/* The form stays, says why, and nothing is on record. */
static void
assert_refused (WindowFixture *fixture, GtkWindow *form, const char *act, const char *words)
{
  guint before = n_entries (fixture);

  window_press (form, act);
  window_wait_written (fixture);
  g_assert_true (window_newest_dialog () == form);
  if (!window_says (GTK_WIDGET (form), words))
    g_error ("“%s” is not said", words);
  g_assert_cmpint (n_entries (fixture), ==, before);
}

static void
assert_recorded (WindowFixture *fixture, GtkWindow *form, const char *act, BondEntryKind kind, const char *undo)
{
  g_autofree char *tooltip = NULL;

  window_press (form, act);
  window_wait_written (fixture);
  g_assert_null (window_newest_dialog ());
  g_assert_cmpint (newest (fixture)->kind, ==, kind);
  if (undo == NULL)
    return;
  gtk_widget_activate_action (GTK_WIDGET (fixture->window), "win.undo", NULL);
  window_wait_written (fixture);
  tooltip = g_strdup_printf ("Undone: %s.", undo);
  g_assert_cmpstr (bond_reading_panel_get_said (window_panel_of (fixture)), ==, tooltip);
  g_assert_cmpstr (window_number_in_hand (fixture), ==, "521-J01"); /* its point is current again */
}

static GtkTextView *
note_of (GtkWindow *form)
{
  return GTK_TEXT_VIEW (window_find_of_type (GTK_WIDGET (form), GTK_TYPE_TEXT_VIEW, NULL));
}

static void
write_note (GtkWindow *form, const char *text)
{
  gtk_text_buffer_set_text (gtk_text_view_get_buffer (note_of (form)), text, -1);
}

static void
test_rework (WindowFixture *fixture, gconstpointer data)
{
  GtkWindow *form;

  window_begin (fixture);
  window_keys (fixture, "3.12\n");
  form = open_form (fixture, "w");
  assert_refused (fixture, form, "Record Rework", "Rework needs at least one tick.");
  gtk_check_button_set_active (window_tick (form, "5  "), TRUE);
  assert_refused (fixture, form, "Record Rework, 1 Step", "“Other” needs a note.");
  gtk_check_button_set_active (window_tick (form, "1  "), TRUE);
  write_note (form, "Anodic film found under washer,\nboth faces abraded.");
  gtk_drop_down_set_selected (GTK_DROP_DOWN (window_find_of_type (GTK_WIDGET (form), GTK_TYPE_DROP_DOWN, NULL)), 7);
  window_press (form, "Record Rework, 2 Steps");
  window_wait_written (fixture);
  g_assert_cmpint (newest (fixture)->kind, ==, BOND_ENTRY_REWORK);
  g_assert_cmpint (newest (fixture)->rework.done, ==, BOND_REWORK_SURFACES_CLEANED | BOND_REWORK_OTHER);
  g_assert_cmpint (newest (fixture)->rework.found, ==, BOND_VISUAL_FILM);
  g_assert_cmpstr (newest (fixture)->rework.done_by, ==, "p-test");
  g_assert_cmpstr (newest (fixture)->rework.note, ==, "Anodic film found under washer,\nboth faces abraded.");
  g_assert_nonnull (bond_point_bare_since (bond_survey_find_number (survey_of (fixture), "521-J01")));
}

static void
test_small_forms (WindowFixture *fixture, gconstpointer data)
{
  GtkWindow *form;

  window_begin (fixture);
  form = open_form (fixture, "n");
  assert_refused (fixture, form, "Record", "The note is empty.");
  write_note (form, "Two lines\nof words");
  assert_recorded (fixture, form, "Record", BOND_ENTRY_NOTE, "Note on 521-J01");
  form = open_form (fixture, "j");
  assert_recorded (fixture, form, "Record", BOND_ENTRY_CONDITION, "Opened or Replaced on 521-J01");
  form = open_form (fixture, "x");
  assert_refused (fixture, form, "Record", "Say why; it is printed in the report.");
  window_fill (form, 0, "panel bonded");
  assert_recorded (fixture, form, "Record", BOND_ENTRY_STATE, "Not Accessible on 521-J01");
  form = open_form (fixture, "e");
  window_fill (form, 0, "101");
  assert_refused (fixture, form, "Record", "The share is a whole number from 0 to 100.");
  window_fill (form, 0, "");
  assert_recorded (fixture, form, "Record", BOND_ENTRY_VISUAL, "Visual Condition on 521-J01");
  form = open_form (fixture, "q");
  g_assert_true (window_says (GTK_WIDGET (form), "No bare metal is recorded at this joint."));
  window_fill (form, 0, "conversion coating");
  assert_refused (fixture, form, "Record", "Not recorded:"); /* there is nothing to protect */
  gtk_window_destroy (form);
  form = open_form (fixture, "w");
  gtk_check_button_set_active (window_tick (form, "1  "), TRUE);
  window_press (form, "Record Rework, 1 Step");
  window_wait_written (fixture);
  form = open_form (fixture, "q");
  g_assert_true (window_says (GTK_WIDGET (form), "Bare since"));
  assert_refused (fixture, form, "Record", "Say what was applied.");
  window_fill (form, 0, "conversion coating");
  assert_recorded (fixture, form, "Record", BOND_ENTRY_REFINISH, "Finish Applied on 521-J01");
}

/* Only what the reason needs. */
static void
assert_asks (GtkWindow *form, const char *line)
{
  static const char *const lines[] = { "Right point", "What the meter showed", "Words" };

  for (gsize i = 0; i < G_N_ELEMENTS (lines); i++)
    g_assert_cmpint (window_says (GTK_WIDGET (form), lines[i]), ==, g_strcmp0 (lines[i], line) == 0);
}

static void
test_void (WindowFixture *fixture, gconstpointer data)
{
  GtkWindow *form;

  window_begin (fixture);
  form = open_form (fixture, "v");
  g_assert_true (window_says (GTK_WIDGET (form), "There is no reading of this point to void."));
  gtk_window_destroy (form);
  window_keys (fixture, "3.12\n");
  form = open_form (fixture, "v");
  assert_refused (fixture, form, "Record", "Say why this reading is void; it stays in the record.");
  assert_asks (form, NULL);
  gtk_check_button_set_active (window_tick (form, "Wrong point"), TRUE);
  assert_asks (form, "Right point");
  assert_refused (fixture, form, "Record", "Say which point it was; the reading moves there.");
  gtk_check_button_set_active (window_tick (form, "Instrument fault"), TRUE);
  assert_asks (form, "Words");
  gtk_check_button_set_active (window_tick (form, "Wrong unit"), TRUE);
  assert_asks (form, "What the meter showed");
  window_fill (form, 1, "1.3.2");
  assert_refused (fixture, form, "Record", "two decimal marks");
  window_fill (form, 1, "1.32");
  gtk_check_button_set_active (window_tick (form, "Wrong point"), TRUE);
  gtk_check_button_set_active (window_tick (form, "Typing slip"), TRUE); /* what was typed is still there */
  assert_asks (form, "What the meter showed");
  assert_recorded (fixture, form, "Record", BOND_ENTRY_CORRECT, "Correction on 521-J01");
  window_keys (fixture, "521-J02\n1.84\n521-J02\n");
  form = open_form (fixture, "v"); /* no evidence of a defect: other reasons too, in words */
  gtk_check_button_set_active (window_tick (form, "Other"), TRUE);
  assert_refused (fixture, form, "Record", "“Other” needs words.");
  gtk_window_destroy (form);
}

static void
test_defect (WindowFixture *fixture, gconstpointer data)
{
  GtkWindow *form;

  window_begin (fixture);
  window_keys (fixture, "3.12\n");
  form = open_form (fixture, "c");
  assert_refused (fixture, form, "Record Card", "A defect needs the number of its card.");
  window_fill (form, 0, "NRC 0231");
  window_press (form, "Record Card");
  window_wait_written (fixture);
  g_assert_cmpstr (bond_point_get_defect (bond_survey_find_number (survey_of (fixture), "521-J01")), ==, "NRC 0231");
  g_assert_cmpint (bond_point_get_state (bond_survey_find_number (survey_of (fixture), "521-J01")), ==,
                   BOND_STATE_FAIL); /* a card lets nothing go */
  g_assert_cmpstr (window_number_in_hand (fixture), ==, "521-J01");
}

static GtkDropDown *
end_of (GtkWindow *form)
{
  GtkDropDown *found = NULL;
  GtkWidget *grid = gtk_widget_get_ancestor (GTK_WIDGET (window_tick (form, "Carried forward")), GTK_TYPE_GRID);

  for (GtkWidget *child = gtk_widget_get_first_child (grid); child != NULL; child = gtk_widget_get_next_sibling (child))
    if (GTK_IS_DROP_DOWN (child))
      found = GTK_DROP_DOWN (child); /* the last one */
  return found;
}

/* Lines of the form, in the order they stand in. */
enum
{
  REFERENCE,
  HOLDER,
  FIRST_DATE,
  NEW_LIMIT,
  END_WORDS
};

static void
test_deferred (WindowFixture *fixture, gconstpointer data)
{
  GtkWindow *form;

  window_begin (fixture);
  window_keys (fixture, "d");
  g_assert_true (window_says (GTK_WIDGET (window_newest_dialog ()), "Use a disposition only on a point that fails."));
  gtk_window_destroy (window_newest_dialog ());
  window_keys (fixture, "3.12\n");
  form = open_form (fixture, "d");
  gtk_check_button_set_active (window_tick (form, "Deferred"), TRUE);
  assert_refused (fixture, form, "Record", "A disposition needs its reference.");
  window_fill (form, REFERENCE, "DD 14");
  assert_refused (fixture, form, "Record", "Say which certifying staff decided it, by name.");
  window_fill (form, HOLDER, "A. Adeyemi");
  window_fill (form, FIRST_DATE, "14.10.2025");
  assert_refused (fixture, form, "Record", "Say when the defect was first found, as year-month-day.");
  window_fill (form, FIRST_DATE, "2025-10-14");
  assert_refused (fixture, form, "Record", "A disposition needs an end: a date, a check, or “no end”.");
  gtk_drop_down_set_selected (end_of (form), 3);
  assert_refused (fixture, form, "Record", "A defect carried forward or deferred ends on a date or at a check.");
  gtk_drop_down_set_selected (end_of (form), 1);
  window_fill (form, END_WORDS, "31.12.2026");
  assert_refused (fixture, form, "Record", "Write the date as year-month-day, 2026-12-31.");
  window_fill (form, END_WORDS, "2026-12-31");
  assert_recorded (fixture, form, "Record", BOND_ENTRY_DISPOSITION, NULL);
  g_assert_cmpstr (newest (fixture)->disposition.first_date, ==, "2025-10-14");
  g_assert_cmpint (bond_point_get_state (bond_survey_find_number (survey_of (fixture), "521-J01")), ==,
                   BOND_STATE_DEFERRED);
  g_assert_cmpstr (window_number_in_hand (fixture), ==, "521-J02"); /* settled: on */
}

static void
test_accepted (WindowFixture *fixture, gconstpointer data)
{
  GtkWindow *form;

  window_begin (fixture);
  window_keys (fixture, "3.12\n");
  form = open_form (fixture, "d");
  gtk_check_button_set_active (window_tick (form, "engineering"), TRUE);
  window_fill (form, REFERENCE, "EO 77");
  assert_refused (fixture, form, "Record", "Say who holds the approval the data was accepted under.");
  window_fill (form, HOLDER, "Design office");
  assert_refused (fixture, form, "Record", "An acceptance needs its new limit.");
  window_fill (form, NEW_LIMIT, "3.0");
  gtk_drop_down_set_selected (end_of (form), 3);
  assert_refused (fixture, form, "Record", "does not meet the new limit either");
  window_fill (form, NEW_LIMIT, "3.5");
  assert_recorded (fixture, form, "Record", BOND_ENTRY_DISPOSITION, NULL);
  g_assert_cmpint (newest (fixture)->disposition.bounds.upper.nohm, ==, 3500000);
  g_assert_cmpint (newest (fixture)->disposition.bounds.upper.relation, ==, BOND_RELATION_LE);
  g_assert_cmpstr (newest (fixture)->disposition.until, ==, "no end");
  g_assert_cmpint (bond_point_get_state (bond_survey_find_number (survey_of (fixture), "521-J01")), ==,
                   BOND_STATE_ACCEPTED);
}

static void
test_photo (WindowFixture *fixture, gconstpointer data)
{
  static const char png[] = "\x89PNG\r\n\x1a\n rest";
  BondWalk *walk = bond_survey_window_get_walk (fixture->window);
  BondSurveyFile *file = bond_survey_window_get_file (fixture->window);
  g_autofree char *path = g_build_filename (fixture->folder, "joint.png", NULL);
  g_autoptr (GFile) photo = g_file_new_for_path (path);
  g_autoptr (GError) error = NULL;
  g_autofree char *large = NULL;

  window_begin (fixture);
  g_file_set_contents (path, "no picture", -1, NULL);
  g_assert_false (bond_photo_add (walk, file, photo, &error));
  g_assert_cmpstr (error->message, ==, "joint.png is neither a JPEG nor a PNG picture. It was not added.");
  g_clear_error (&error);
  large = g_malloc0 (13 * 1000 * 1000);
  memcpy (large, png, sizeof png);
  g_file_set_contents (path, large, 13 * 1000 * 1000, NULL);
  g_assert_false (bond_photo_add (walk, file, photo, &error));
  g_assert_nonnull (strstr (error->message, "photos are kept up to 12\302\240MB. It was not added."));
  g_assert_nonnull (strstr (error->message, "The photo is 13"));
  g_clear_error (&error);
  g_file_set_contents (path, png, sizeof png, NULL);
  g_assert_true (bond_photo_add (walk, file, photo, &error));
  g_assert_no_error (error);
  window_wait_written (fixture);
  g_assert_cmpint (newest (fixture)->kind, ==, BOND_ENTRY_ATTACH);
  g_assert_cmpstr (newest (fixture)->attach.type, ==, "image/png");
  gtk_widget_activate_action (GTK_WIDGET (fixture->window), "win.undo", NULL);
  window_wait_written (fixture);
  g_assert_cmpstr (bond_reading_panel_get_said (window_panel_of (fixture)), ==, "Undone: Photo on 521-J01.");
}

/* Wrong measuring state (E1 asks for unmated connectors): no verdict until somebody accepts it by name. */
static const WindowPoint equipment[] = { { "131-E01", "example/E1", BOND_CONDITION_UNDISTURBED } };
static const WindowPoints equipment_points = { equipment, G_N_ELEMENTS (equipment) };

static void
test_deviation (WindowFixture *fixture, gconstpointer data)
{
  BondWalk *walk = bond_survey_window_get_walk (fixture->window);
  GtkWindow *form;

  window_begin (fixture);
  bond_walk_pin_state (walk, BOND_CONNECTORS_MATED, BOND_MOUNTING_ANY, NULL, 1);
  window_keys (fixture, "1.20\n");
  g_assert_true (window_has_act (window_panel_of (fixture), "Accept Deviation…"));
  form = open_form (fixture, "t");
  assert_refused (fixture, form, "Accept", "Say who accepts the deviation, by name.");
  gtk_drop_down_set_selected (GTK_DROP_DOWN (window_find_of_type (GTK_WIDGET (form), GTK_TYPE_DROP_DOWN, NULL)), 1);
  assert_refused (fixture, form, "Accept", "Say why; it is printed in the report.");
  write_note (form, "Plug cannot be parted on this rack.");
  window_press (form, "Accept");
  window_wait_written (fixture);
  g_assert_cmpint (newest (fixture)->kind, ==, BOND_ENTRY_DEVIATION);
  g_assert_cmpstr (newest (fixture)->deviation.holder, ==, "T. Tester");
  g_assert_cmpint (bond_point_get_state (bond_walk_get_point (walk)), ==, BOND_STATE_PASS);
}

static void
test_clip_moved (WindowFixture *fixture, gconstpointer data)
{
  BondWalk *walk = bond_survey_window_get_walk (fixture->window);

  window_begin (fixture);
  bond_walk_pin_state (walk, BOND_CONNECTORS_ANY, BOND_MOUNTING_ANY, "stud G1", 1);
  window_wait_written (fixture);
  bond_walk_pin_state (walk, BOND_CONNECTORS_ANY, BOND_MOUNTING_ANY, "stud G2", 1);
  window_wait_written (fixture);
  g_assert_cmpint (newest (fixture)->kind, ==, BOND_ENTRY_REFERENCE);
  g_assert_cmpstr (newest (fixture)->reference_move.from, ==, "stud G1");
  g_assert_cmpstr (newest (fixture)->reference_move.to, ==, "stud G2");
  g_assert_cmpstr (bond_reading_panel_get_said (window_panel_of (fixture)), ==,
                   "Reference clip at stud G2 from the next reading on.");
  g_assert_true (window_says (GTK_WIDGET (window_panel_of (fixture)), "clip at stud G2"));
  window_keys (fixture, "1.84\n");
  g_assert_cmpstr (newest (fixture)->reading.reference_end, ==, "stud G2");
}

/* The copy holds what was recorded, the journal's last entries too. */
static void
test_save_copy (WindowFixture *fixture, gconstpointer data)
{
  g_autofree char *path = g_build_filename (fixture->folder, "copy.bondsurvey", NULL);
  g_autoptr (BondSource) source = bond_source_new_system ();
  g_autoptr (BondSurveyFile) copy = NULL;
  g_autoptr (GError) error = NULL;
  BondPoint *point;

  window_begin (fixture);
  window_keys (fixture, "1.84\n");
  g_assert_true (bond_library_copy (fixture->path, path, &error));
  g_assert_no_error (error);
  copy = bond_survey_file_open (path, BOND_OPEN_READ, source, "test", NULL, &error);
  g_assert_no_error (error);
  point = bond_survey_find_number (bond_survey_file_get_survey (copy), "521-J01");
  g_assert_cmpint (bond_point_get_state (point), ==, BOND_STATE_PASS);
}

int
main (int argc, char **argv)
{
  g_setenv ("GTK_A11Y", "test", TRUE);
  g_setenv ("GSK_RENDERER", "cairo", TRUE);
  g_unsetenv ("DBUS_SESSION_BUS_ADDRESS");
  g_test_init (&argc, &argv, NULL);
  gtk_init ();
#define ADD(name, test) g_test_add ("/gui/forms/" name, WindowFixture, NULL, window_set_up, test, window_tear_down)
  ADD ("rework", test_rework);
  ADD ("small", test_small_forms);
  ADD ("void", test_void);
  ADD ("defect", test_defect);
  ADD ("deferred", test_deferred);
  ADD ("accepted", test_accepted);
  ADD ("photo", test_photo);
  ADD ("clip-moved", test_clip_moved);
  ADD ("save-copy", test_save_copy);
  g_test_add ("/gui/forms/deviation", WindowFixture, &equipment_points, window_set_up, test_deviation,
              window_tear_down);
  return g_test_run ();
}
