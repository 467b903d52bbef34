/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * Every sentence the field can say (ui.md 7.2 under its opening note), produced by
 * typing, one row each: what is typed, what stands below the field, what Record
 * promises, which answers are offered.  Limit J2 (≤ 2.5 mΩ), meter TM-1 on its 30 mΩ
 * range: U(2.49) = 0.02 mΩ.
 */
#include "gui/widgets/reading-entry.h"
#include "screen.h"
#include "store/xml.h"
#include "window-fixture.h"

static BondReadingPanel *
panel (WindowFixture *fixture)
{
  return window_panel_of (fixture);
}

static BondWalk *
walk (WindowFixture *fixture)
{
  return bond_survey_window_get_walk (fixture->window);
}

static void
assert_says (WindowFixture *fixture, const char *text)
{
  if (!window_says (GTK_WIDGET (panel (fixture)), text))
    g_error ("“%s” is not said; below the field stands “%s”", text, bond_reading_panel_get_said (panel (fixture)));
}

static void
assert_record (WindowFixture *fixture, const char *text)
{
  g_auto (GStrv) parts = g_strsplit (bond_reading_panel_get_record_text (panel (fixture)), "\302\240", -1);
  g_autofree char *plain = g_strjoinv (" ", parts);

  g_assert_cmpstr (plain, ==, text);
}

/* While typing: nothing is stored. */
static const struct
{
  const char *typed, *says, *record;
} previews[] = {
  { "", "Digits, then Enter. u, m or o after the digits sets µΩ, mΩ or Ω once. H lists the letters.", "Record" },
  { "1.84", "74 % of limit", "Record 1.84 mΩ, pass" },
  { "2.49", "0.01 below the limit, within U of it; U is 0.020", "Record 2.49 mΩ, pass" },
  { "2.50", "at the limit, within U of it; U is 0.020", "Record 2.50 mΩ, pass" },
  { "2.51", "0.01 above the limit, within U of it; U is 0.020", "Record 2.51 mΩ, fail" },
  { "3.12", "125 % of limit", "Record 3.12 mΩ, fail" },
  { ">30", "above 30 mΩ, the end of the range", "Record > 30 mΩ, fail, over range" },
  { "-1.84", "Negative reading: check the leads", NULL },
  { "521-J02", "", "Go to This Point" },
};

static void
test_previews (WindowFixture *fixture, gconstpointer data)
{
  guint before;

  window_begin (fixture);
  before = bond_survey_get_entries (bond_walk_get_survey (walk (fixture)))->len;
  for (gsize i = 0; i < G_N_ELEMENTS (previews); i++)
    {
      g_test_message ("%s", previews[i].typed);
      gtk_editable_set_text (bond_reading_panel_get_entry (panel (fixture)), previews[i].typed);
      assert_says (fixture, previews[i].says);
      if (previews[i].record != NULL)
        assert_record (fixture, previews[i].record);
    }
  g_assert_cmpint (bond_survey_get_entries (bond_walk_get_survey (walk (fixture)))->len, ==, before);
}

/* Enter that records nothing. */
static const struct
{
  const char *typed, *says;
  const char *offers[3];
} refusals[] = {
  { "1.8.4", "“1.8.4”: two decimal marks.", { NULL } },
  { "1.8.4", "Nothing was recorded.", { NULL } },
  { "1.8x", "“1.8x”: ", { NULL } },
  { "1.8x", "Nothing was recorded.", { NULL } },
  { "541-77", "There is no point 541-77 in this survey.", { NULL } },
  { "0",
    "Zero: below the display step, or are the probes touching each other?",
    { "Probes on Two Parts", "Not Sure", "Type Again" } },
  { "<0.01",
    "Below the display step. Are the probes on two parts?",
    { "Probes on Two Parts", "Not Sure", "Type Again" } },
  { "1840",
    "1840 mΩ is 736 times the limit of 2.5 mΩ. Which unit did the meter show?",
    { "1840 µΩ", "1840 mΩ", "Type Again" } },
  { "42.0",
    "42.0 mΩ: the pinned range ends at 30 mΩ. Which range was TM-1 on?",
    { "300 mΩ Range", "Type Again", NULL } },
};

static gboolean
offers (WindowFixture *fixture, const char *label)
{
  return window_has_act (panel (fixture), label);
}

static void
test_refusals (WindowFixture *fixture, gconstpointer data)
{
  guint before;

  window_begin (fixture);
  before = bond_survey_get_entries (bond_walk_get_survey (walk (fixture)))->len;
  for (gsize i = 0; i < G_N_ELEMENTS (refusals); i++)
    {
      g_test_message ("%s", refusals[i].typed);
      window_type_reading (fixture, refusals[i].typed);
      assert_says (fixture, refusals[i].says);
      for (gsize j = 0; j < G_N_ELEMENTS (refusals[i].offers) && refusals[i].offers[j] != NULL; j++)
        g_assert_true (offers (fixture, refusals[i].offers[j]));
      window_keys (fixture, "\n\n"); /* habit chooses nothing */
      g_assert_cmpint (bond_survey_get_entries (bond_walk_get_survey (walk (fixture)))->len, ==, before);
      g_assert_cmpstr (gtk_editable_get_text (bond_reading_panel_get_entry (panel (fixture))), ==, refusals[i].typed);
    }
}

/* The last counting value of the point, else that of an earlier survey, else the limit. */
static void
test_unit_slip (WindowFixture *fixture, gconstpointer data)
{
  window_begin (fixture);
  window_keys (fixture, "1.62\n521-J01\n1840\n");
  assert_says (fixture, "1840 mΩ is 1136 times the last reading here, 1.62 mΩ. Which unit did the meter show?");
  window_press (panel (fixture), "1840 µΩ");
  window_wait_written (fixture);
  g_assert_cmpint (
      bond_mean_nohm (&bond_point_get_worst (bond_survey_find_number (bond_walk_get_survey (walk (fixture)), "521-J01"))
                           ->last->mean),
      ==, 1840000);
}

/* A fail, step by step. */
static void
test_fail (WindowFixture *fixture, gconstpointer data)
{
  static const char *const verbs[]
      = { "Rework…", "Read Again", "Leave Failed", "Void 3.12 mΩ…", "Raise Defect…", "Disposition…" };

  window_begin (fixture);
  window_keys (fixture, "3.12\n");
  assert_says (fixture, "Re-seat 1 of 3: type it again with the joint not touched, or choose Rework.");
  for (gsize i = 0; i < G_N_ELEMENTS (verbs); i++)
    g_assert_true (offers (fixture, verbs[i]));
  g_assert_false (offers (fixture, "Record")); /* nothing is typed: nothing to record */
  assert_says (fixture, "go on to 521-J02");
  window_keys (fixture, "1");
  g_assert_true (offers (fixture, "Record"));
  window_keys (fixture, ".90\n");
  assert_says (fixture, "3.12 mΩ still stands until it is reworked or voided.");
  assert_says (fixture, "fail stands");
  window_keys (fixture, "\033");
  g_assert_cmpstr (bond_reading_panel_get_said (panel (fixture)), ==,
                   "521-J01 is left as it is; it stays in the list and needs rework or a disposition.");
  window_keys (fixture, "3.12\n1.90\n3.05\n");
  assert_says (fixture, "Intermittent: the re-seated readings do not agree.");
  window_keys (fixture, "l3.12\n3.10\n");
  assert_says (fixture, "3.12 mΩ stands. Re-seat 2 of 3, with the joint not touched.");
  window_keys (fixture, "3.11\n3.13\n");
  assert_says (fixture, "3.12 mΩ stands until it is reworked, voided or given a disposition.");
}

static void
test_pair (WindowFixture *fixture, gconstpointer data)
{
  window_begin (fixture);
  window_keys (fixture, "1.84 2.31\n");
  assert_says (fixture, "Forward 1.84 and reverse 2.31 differ by 23 %; 10 % is allowed. Take the pair again.");
}

static void
test_undone (WindowFixture *fixture, gconstpointer data)
{
  window_begin (fixture);
  window_keys (fixture, "1840u\n");
  gtk_widget_activate_action (GTK_WIDGET (fixture->window), "win.undo", NULL);
  window_wait_written (fixture);
  g_assert_cmpstr (bond_reading_panel_get_said (panel (fixture)), ==, "Undone: 1840\302\240µΩ on 521-J01.");
  /* The same reading again, not 1840 milliohm. */
  g_assert_cmpstr (gtk_editable_get_text (bond_reading_panel_get_entry (panel (fixture))), ==, "1840µΩ");
  g_assert_true (gtk_editable_get_selection_bounds (bond_reading_panel_get_entry (panel (fixture)), NULL, NULL));
  gtk_widget_activate_action (GTK_WIDGET (fixture->window), "win.redo", NULL);
  window_wait_written (fixture);
  g_assert_cmpstr (bond_reading_panel_get_said (panel (fixture)), ==, "Done again: Reading 1840\302\240µΩ on 521-J01.");
}

static void
test_walk_done (WindowFixture *fixture, gconstpointer data)
{
  window_begin (fixture);
  window_keys (fixture, "1.84\n1.84\n1.84\n");
  g_assert_cmpstr (bond_reading_panel_get_said (panel (fixture)), ==, "Every point has a reading or a reason.");
}

static void
test_instruments (WindowFixture *fixture, gconstpointer data)
{
  BondSurvey *survey = bond_walk_get_survey (walk (fixture));
  g_autoptr (BondInstrument) old = bond_instrument_new ("i-old", 1, BOND_INSTRUMENT_MILLIOHMMETER, "MO-014");
  g_autoptr (GError) error = NULL;

  window_begin (fixture);
  bond_walk_pin_instrument (walk (fixture), NULL);
  window_keys (fixture, "1.84\n");
  assert_says (fixture, "Choose the instrument you are using. Readings need one.");
  old->due = g_strdup ("2020-10-14");
  bond_walk_record_entry (walk (fixture), bond_entry_adopt_new (BOND_ADOPT_INSTRUMENT, old));
  for (int i = 0; i < 100 && bond_survey_is_busy (survey); i++)
    screen_spin (10);
  bond_walk_pin_instrument (walk (fixture), "i-old");
  window_keys (fixture, "\n");
  assert_says (fixture, "MO-014 was due for calibration on 14 Oct 2020. Choose another instrument to go on.");
  g_assert_cmpstr (gtk_editable_get_text (bond_reading_panel_get_entry (panel (fixture))), ==, "1.84");
}

/* --- a disk that cannot be written, or is slow --- */

typedef struct
{
  BondSurvey *survey;
  BondEntry *waiting;
  GQuark domain;
  int code;
  const char *message;
} Disk;

static void
refuse (gpointer data, BondEntry *entry)
{
  Disk *disk = data;
  g_autoptr (GError) error = g_error_new_literal (disk->domain, disk->code, disk->message);

  bond_survey_written (disk->survey, entry, error);
}

static void
hold (gpointer data, BondEntry *entry)
{
  ((Disk *)data)->waiting = entry;
}

static void
set_disk (WindowFixture *fixture, Disk *disk, void (*write) (gpointer, BondEntry *))
{
  BondSink sink = { .write = write, .sink = disk };

  disk->survey = bond_walk_get_survey (walk (fixture));
  bond_survey_begin_sitting (disk->survey, "s-00000000000000000000000000000001");
  bond_survey_set_sink (disk->survey, &sink);
}

static void
test_disk (WindowFixture *fixture, gconstpointer data)
{
  Disk disk = { .domain = BOND_STORE_ERROR, .code = BOND_STORE_ERROR_FULL, .message = "the disk is full" };

  window_begin (fixture);
  set_disk (fixture, &disk, refuse);
  window_keys (fixture, "1.84\n");
  g_assert_cmpstr (bond_reading_panel_get_said (panel (fixture)), ==,
                   "The disk is full. 1.84\302\240mΩ on 521-J01 is NOT recorded; it stays in the field.");
  g_assert_cmpstr (gtk_editable_get_text (bond_reading_panel_get_entry (panel (fixture))), ==, "1.84");
  g_assert_true (offers (fixture, "Try Again"));
  disk.code = BOND_STORE_ERROR_WRITE;
  disk.message = "the network share is gone";
  window_press (panel (fixture), "Try Again");
  window_wait_written (fixture);
  g_assert_cmpstr (bond_reading_panel_get_said (panel (fixture)), ==,
                   "521-J01 could not be written (the network share is gone). 1.84\302\240mΩ stays in the field and is "
                   "not recorded.");
  g_assert_cmpstr (gtk_editable_get_text (bond_reading_panel_get_entry (panel (fixture))), ==, "1.84");
  g_assert_true (offers (fixture, "Try Again"));
  g_assert_true (offers (fixture, "Save Copy…"));
}

/* Typing goes on while an entry is being written; the next Enter waits for it and is lost never. */
static void
test_slow_disk (WindowFixture *fixture, gconstpointer data)
{
  GtkEditable *field = bond_reading_panel_get_entry (panel (fixture));
  Disk disk = { 0 };
  BondEntry *first;

  window_begin (fixture);
  set_disk (fixture, &disk, hold);
  gtk_editable_set_text (field, "1.84");
  bond_reading_panel_record (panel (fixture));
  g_assert_true (bond_walk_is_busy (walk (fixture)));
  gtk_editable_set_text (field, "1.95"); /* meanwhile */
  bond_reading_panel_record (panel (fixture));
  screen_spin (30);
  g_assert_cmpstr (gtk_editable_get_text (field), ==, "1.95"); /* waits, is there */
  first = disk.waiting;
  disk.waiting = NULL;
  bond_survey_written (disk.survey, first, NULL);
  screen_spin (60);
  g_assert_nonnull (disk.waiting); /* the Enter that waited */
  g_assert_cmpstr (disk.waiting->reading.text, ==, "1.95");
  g_assert_cmpstr (disk.waiting->point, !=, first->point); /* on the next point */
  bond_survey_written (disk.survey, disk.waiting, NULL);
  screen_spin (60);
  g_assert_cmpstr (window_number_in_hand (fixture), ==, "521-J03");
}

/* --- what is spoken --- */

static void
assert_spoken (WindowFixture *fixture, const char *text)
{
  g_autofree char *wrong = gtk_test_accessible_check_property (
      GTK_ACCESSIBLE (bond_reading_panel_get_entry (panel (fixture))), GTK_ACCESSIBLE_PROPERTY_DESCRIPTION, text);

  if (wrong != NULL)
    g_error ("spoken: %s, not “%s”", wrong, text);
}

static void
test_spoken (WindowFixture *fixture, gconstpointer data)
{
  window_begin (fixture);
  window_keys (fixture, "1.83\n");
  assert_spoken (fixture, "521-J01 pass, 1.83 milliohm, 73 percent of the limit. Next 521-J02, End 2, limit 2.5 "
                          "milliohm.");
  window_keys (fixture, "3.12\n");
  assert_spoken (fixture, "521-J02 fail, 3.12 milliohm, 125 percent of the limit. Type again to re-seat, or W rework, "
                          "L leave, V void.");
  window_keys (fixture, "521-J03\n>30\n");
  assert_spoken (fixture, "521-J03 fail, over range, above 30 milliohm. Type again to re-seat, or W rework, L leave, V "
                          "void.");
}

int
main (int argc, char **argv)
{
  g_setenv ("GTK_A11Y", "test", TRUE);
  g_setenv ("GSK_RENDERER", "cairo", TRUE);
  g_unsetenv ("DBUS_SESSION_BUS_ADDRESS");
  g_test_init (&argc, &argv, NULL);
  gtk_init ();
  if (bond_locale_mark () == ',')
    return g_test_run (); /* the sentences below are written with a point; the grammar is asked in every locale */
#define ADD(name, test) g_test_add ("/gui/messages/" name, WindowFixture, NULL, window_set_up, test, window_tear_down)
  ADD ("previews", test_previews);
  ADD ("refusals", test_refusals);
  ADD ("unit-slip", test_unit_slip);
  ADD ("fail", test_fail);
  ADD ("pair", test_pair);
  ADD ("undone", test_undone);
  ADD ("walk-done", test_walk_done);
  ADD ("instruments", test_instruments);
  ADD ("disk", test_disk);
  ADD ("slow-disk", test_slow_disk);
  ADD ("spoken", test_spoken);
  return g_test_run ();
}
