/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * Survey Again: what an earlier survey leaves to the next, and that none of it is a
 * reading.  And what the start window is told: surveys by aircraft, copies of one
 * survey, files that cannot be used, instruments due.  All data is invented.
 */
#include "library/library.h"
#include "small-survey.h"

#include <glib/gstdio.h>
#include <string.h>
#include <unistd.h>

/* --- survey again --- */

static void
record (BondSurvey *survey, BondEntry *entry)
{
  g_autoptr (GError) error = NULL;

  bond_survey_record_now (survey, entry, &error);
  g_assert_no_error (error);
}

static void
place_by_hand (BondSurvey *survey)
{
  BondPointSpec *spec = bond_point_spec_new ("q-hand", "511-J09", BOND_CLASS_STRUCTURE, "511");
  BondEntry *entry = bond_entry_new (BOND_ENTRY_POINT);

  g_free (spec->from);
  g_free (spec->to);
  spec->from = g_strdup ("Access panel");
  spec->to = g_strdup ("Lower skin");
  spec->limit = g_strdup ("shop/J2");
  entry->point = g_strdup (spec->id);
  entry->spec = spec;
  record (survey, entry);
  for (int i = 1; i <= 2; i++)
    {
      BondEntry *place = bond_entry_new (BOND_ENTRY_PLACE);

      place->point = g_strdup ("q-hand");
      place->place = g_strdup_printf ("b-%d", i);
      place->place_spec.label = g_strdup_printf ("bolt %d", i);
      place->place_spec.in_sample = TRUE;
      record (survey, place);
    }
}

static void
raise_defect (BondSurvey *survey, const char *point, const char *card)
{
  BondEntry *entry = bond_entry_new (BOND_ENTRY_DEFECT);

  entry->point = g_strdup (point);
  entry->defect.card = g_strdup (card);
  record (survey, entry);
}

static BondSurveyFile *
first_survey (SmallSurvey *fixture)
{
  BondNewSurvey what = small_survey_plan (fixture);
  BondSurveyFile *file = small_survey_make (fixture, "first.bondsurvey", &what);
  BondSurvey *survey = bond_survey_file_get_survey (file);

  place_by_hand (survey);
  small_survey_measure (survey, "511-J01", 1870000);
  small_survey_measure (survey, "611-J01", 3120000);
  raise_defect (survey, "q-3", "N-101");
  return file;
}

static void
test_carry (SmallSurvey *fixture, gconstpointer data)
{
  BondSurveyFile *file = first_survey (fixture);
  g_autoptr (BondCarry) carry = bond_library_carry (bond_survey_file_get_survey (file));
  const BondEntry *note;

  g_assert_cmpuint (carry->points->len, ==, 1);
  g_assert_cmpuint (carry->places->len, ==, 2);
  g_assert_cmpuint (carry->earlier->len, ==, 1);
  g_assert_cmpuint (carry->notes->len, ==, 1);
  note = carry->notes->pdata[0];
  g_assert_cmpstr (note->point, ==, "q-3");
  g_assert_cmpstr (note->note.text, ==, "Open last time (2026-05-04): fail 3.12 mΩ, card N-101");
  g_assert_true (bond_carry_fits (carry, fixture->airframe));
  small_airframe_add_point (fixture->airframe, "q-5", "511-J09", "511", "shop/J1");
  g_assert_false (bond_carry_fits (carry, fixture->airframe)); /* its number has been given away */
  small_survey_close (file);
}

/* Nothing carried along may look as if it had been done in this survey. */
static void
assert_untouched (BondSurvey *survey)
{
  GPtrArray *entries = bond_survey_get_entries (survey);
  guint n = g_list_model_get_n_items (G_LIST_MODEL (survey));

  for (guint i = 0; i < entries->len; i++)
    {
      BondEntryKind kind = ((BondEntry *)entries->pdata[i])->kind;

      g_assert_cmpint (kind, !=, BOND_ENTRY_READING);
      g_assert_cmpint (kind, !=, BOND_ENTRY_REWORK);
      g_assert_cmpint (kind, !=, BOND_ENTRY_DEFECT);
    }
  for (guint i = 0; i < n; i++)
    {
      g_autoptr (BondPoint) point = g_list_model_get_item (G_LIST_MODEL (survey), i);
      const BondPlaceResult *worst = bond_point_get_worst (point);

      g_assert_cmpint (bond_point_get_state (point), ==, BOND_STATE_TO_MEASURE);
      g_assert_cmpint (worst->tier, ==, BOND_CONDITION_UNDISTURBED);
      g_assert_null (worst->last);
      g_assert_null (worst->found);
    }
}

static void
test_again (SmallSurvey *fixture, gconstpointer data)
{
  BondSurveyFile *file = first_survey (fixture);
  g_autoptr (BondCarry) carry = bond_library_carry (bond_survey_file_get_survey (file));
  BondNewSurvey what = small_survey_plan (fixture);
  const BondEarlierItem *item;
  BondSurvey *survey;
  BondPoint *hand;

  small_survey_close (file);
  what.carry = carry;
  what.card = "AMM 20-22-00";
  what.card_revision = "4";
  what.hours = "31 204";
  what.cycles = "18 877";
  what.power = "off, batteries disconnected";
  what.fuel = "tanks drained";
  what.data_checked_by = "Ines Invented";
  what.data_checked_on = "2026-05-04";
  small_survey_close (small_survey_make (fixture, "second.bondsurvey", &what));

  /* Read again, as anybody else does. */
  {
    g_autofree char *path = small_survey_path (fixture, "second.bondsurvey");
    g_autoptr (GPtrArray) problems = g_ptr_array_new_with_free_func ((GDestroyNotify)bond_problem_free);
    g_autoptr (GError) error = NULL;
    g_autoptr (BondSurveyFile) again
        = bond_survey_file_open (path, BOND_OPEN_READ, fixture->source, "test", problems, &error);

    g_assert_no_error (error);
    g_assert_cmpuint (problems->len, ==, 0);
    survey = bond_survey_file_get_survey (again);
    assert_untouched (survey);
    hand = bond_survey_find_number (survey, "511-J09");
    g_assert_nonnull (hand);
    g_assert_cmpuint (bond_point_get_places (hand)->len, ==, 2);
    g_assert_cmpstr (bond_point_get_spec (hand)->limit, ==, "shop/J2");
    g_assert_cmpuint (bond_point_get_notes (bond_survey_find_point (survey, "q-3"))->len, ==, 1);
    g_assert_cmpuint (bond_point_get_notes (bond_survey_find_point (survey, "q-1"))->len, ==, 0);
    g_assert_cmpuint (bond_survey_get_earlier (survey)->len, ==, 1);
    item = bond_earlier_find (bond_survey_get_earlier (survey)->pdata[0], "q-1");
    g_assert_cmpint (item->result.nohm, ==, 1870000);
    g_assert_cmpstr (bond_survey_get_header (survey)->card, ==, "AMM 20-22-00");
    g_assert_cmpstr (bond_survey_get_header (survey)->card_revision, ==, "4");
    g_assert_cmpstr (bond_survey_get_header (survey)->hours, ==, "31 204");
    g_assert_cmpstr (bond_survey_get_header (survey)->cycles, ==, "18 877");
    g_assert_cmpstr (bond_survey_get_header (survey)->power, ==, "off, batteries disconnected");
    g_assert_cmpstr (bond_survey_get_header (survey)->fuel, ==, "tanks drained");
    g_assert_cmpstr (bond_survey_get_header (survey)->data_checked_by, ==, "Ines Invented");
    g_assert_cmpstr (bond_survey_get_header (survey)->data_checked_on, ==, "2026-05-04");
    g_assert_null (bond_survey_get_header (survey)->scope);
  }
}

/* What is out of scope this time does not come along, neither its point nor its note. */
static void
test_again_scope (SmallSurvey *fixture, gconstpointer data)
{
  BondSurveyFile *file = first_survey (fixture);
  g_autoptr (BondCarry) carry = bond_library_carry (bond_survey_file_get_survey (file));
  g_autoptr (GPtrArray) zones = g_ptr_array_new ();
  BondNewSurvey what = small_survey_plan (fixture);
  BondSurvey *survey;

  small_survey_close (file);
  g_ptr_array_add (zones, (char *)"510");
  what.zones = zones;
  what.carry = carry;
  file = small_survey_make (fixture, "part.bondsurvey", &what);
  survey = bond_survey_file_get_survey (file);
  g_assert_cmpuint (g_list_model_get_n_items (G_LIST_MODEL (survey)), ==, 3);
  g_assert_nonnull (bond_survey_find_number (survey, "511-J09"));
  g_assert_null (bond_survey_find_number (survey, "611-J01"));
  g_assert_cmpstr (bond_survey_get_header (survey)->scope, ==, "510");
  assert_untouched (survey);
  small_survey_close (file);
}

/* --- what the start window is told --- */

static BondSurveySummary *
find (GPtrArray *found, const char *name)
{
  for (guint i = 0; i < found->len; i++)
    if (g_str_has_suffix (((BondSurveySummary *)found->pdata[i])->path, name))
      return found->pdata[i];
  return NULL;
}

static GPtrArray *
look (SmallSurvey *fixture, const char *const *recent, GPtrArray *known)
{
  g_autoptr (GError) error = NULL;
  BondScanProgress progress = { 0 };
  GPtrArray *found = bond_library_scan_again (fixture->folder, recent, known, &progress, NULL, &error);

  g_assert_no_error (error);
  g_assert_cmpint (progress.done, ==, progress.total);
  g_assert_cmpint (progress.total, ==, (int)found->len);
  return found;
}

static void
test_aircraft (SmallSurvey *fixture, gconstpointer data)
{
  g_autoptr (GPtrArray) found = NULL;
  g_autoptr (GPtrArray) aircraft = NULL;
  BondNewSurvey other = small_survey_plan (fixture);
  const BondAircraft *first;
  const BondSurveySummary *summary;

  small_survey_close (first_survey (fixture));
  other.serial = "0008";
  other.registration = "ZZ-OTH";
  small_survey_close (small_survey_make (fixture, "other.bondsurvey", &other));
  other.serial = "0007";
  other.registration = "ZZ-NEW"; /* the same aircraft under a new registration */
  small_survey_close (small_survey_make (fixture, "later.bondsurvey", &other));
  found = look (fixture, NULL, NULL);
  aircraft = bond_library_aircraft (found);
  g_assert_cmpuint (aircraft->len, ==, 2);
  first = aircraft->pdata[0];
  g_assert_cmpstr (first->registration, ==, "ZZ-NEW");
  g_assert_cmpuint (first->surveys->len, ==, 2);
  g_assert_true (g_str_has_suffix (((BondSurveySummary *)first->surveys->pdata[0])->path, "first.bondsurvey"));
  g_assert_true (first->open == first->surveys->pdata[1]);
  summary = find (found, "first.bondsurvey");
  g_assert_cmpint (summary->readings, ==, 2);
  g_assert_cmpstr (summary->last_point, ==, "611-J01");
  g_assert_cmpint (summary->by_state[BOND_STATE_FAIL], ==, 1);
}

static void
copy (SmallSurvey *fixture, const char *from, const char *to)
{
  g_autofree char *source = small_survey_path (fixture, from);
  g_autofree char *target = small_survey_path (fixture, to);
  g_autoptr (GError) error = NULL;

  g_assert_true (bond_library_copy (source, target, &error));
  g_assert_no_error (error);
}

/* By its own name, and by another that leads to it. */
static void
test_copy_onto_itself (SmallSurvey *fixture, gconstpointer data)
{
  static const char *const names[] = { "first.bondsurvey", "link.bondsurvey" };
  g_autofree char *source = small_survey_path (fixture, "first.bondsurvey");
  g_autofree char *link = small_survey_path (fixture, "link.bondsurvey");
  g_autofree char *before = NULL;
  gsize length;

  small_survey_close (first_survey (fixture));
  g_assert_true (g_file_get_contents (source, &before, &length, NULL));
  g_assert_cmpint (symlink (source, link), ==, 0);
  for (gsize i = 0; i < G_N_ELEMENTS (names); i++)
    {
      g_autofree char *target = small_survey_path (fixture, names[i]);
      g_autofree char *after = NULL;
      g_autoptr (GError) error = NULL;
      gsize length_after;

      g_assert_false (bond_library_copy (source, target, &error));
      g_assert_error (error, BOND_STORE_ERROR, BOND_STORE_ERROR_WRITE);
      g_assert_true (g_file_get_contents (source, &after, &length_after, NULL));
      g_assert_cmpmem (after, length_after, before, length);
    }
}

static void
go_on (SmallSurvey *fixture, const char *name, const char *number)
{
  g_autofree char *path = small_survey_path (fixture, name);
  g_autoptr (GError) error = NULL;
  BondSurveyFile *file = bond_survey_file_open (path, BOND_OPEN_WRITE, fixture->source, "test", NULL, &error);

  g_assert_no_error (error);
  bond_survey_file_set_synchronous (file, TRUE);
  bond_survey_set_person (bond_survey_file_get_survey (file), "p-1");
  small_survey_measure (bond_survey_file_get_survey (file), number, 1900000);
  small_survey_close (file);
}

/* A copy that is behind does not count; two that went on apart are merged first, and neither counts till then. */
static void
test_copies (SmallSurvey *fixture, gconstpointer data)
{
  g_autoptr (GPtrArray) found = NULL;
  g_autoptr (GPtrArray) again = NULL;
  g_autoptr (GPtrArray) aircraft = NULL;

  small_survey_close (first_survey (fixture));
  copy (fixture, "first.bondsurvey", "copy.bondsurvey");
  go_on (fixture, "first.bondsurvey", "511-J02");
  found = look (fixture, NULL, NULL);
  g_assert_cmpint (find (found, "first.bondsurvey")->trouble, ==, BOND_TROUBLE_NONE);
  g_assert_cmpint (find (found, "copy.bondsurvey")->trouble, ==, BOND_TROUBLE_COPY);
  g_assert_true (g_str_has_suffix (find (found, "copy.bondsurvey")->detail, "first.bondsurvey"));

  go_on (fixture, "copy.bondsurvey", "511-J02");
  again = look (fixture, NULL, found);
  g_assert_cmpint (find (again, "first.bondsurvey")->trouble, ==, BOND_TROUBLE_APART);
  g_assert_cmpint (find (again, "copy.bondsurvey")->trouble, ==, BOND_TROUBLE_APART);
  g_assert_nonnull (strstr (find (again, "copy.bondsurvey")->problem, "Merge first"));
  aircraft = bond_library_aircraft (again);
  g_assert_cmpuint (aircraft->len, ==, 0);
}

static void
test_troubles (SmallSurvey *fixture, gconstpointer data)
{
  g_autofree char *letter = small_survey_path (fixture, "letter.bondsurvey");
  g_autofree char *newer = small_survey_path (fixture, "newer.bondsurvey");
  g_autofree char *half = small_survey_path (fixture, "half.bondsurvey");
  g_autofree char *whole = small_survey_path (fixture, "first.bondsurvey");
  g_autofree char *gone = small_survey_path (fixture, "gone.bondsurvey");
  const char *recent[] = { gone, whole, NULL };
  g_autofree char *text = NULL;
  g_autoptr (GPtrArray) found = NULL;
  g_autoptr (GString) changed = NULL;

  small_survey_close (first_survey (fixture));
  g_file_get_contents (whole, &text, NULL, NULL);
  g_file_set_contents (letter, "Dear Ines", -1, NULL);
  g_file_set_contents (half, text, (gssize)strlen (text) / 2, NULL);
  changed = g_string_new (text);
  g_assert_cmpuint (g_string_replace (changed, "format=\"1\"", "format=\"99\"", 1), ==, 1);
  g_file_set_contents (newer, changed->str, -1, NULL);
  found = look (fixture, recent, NULL);
  g_assert_cmpuint (found->len, ==, 5); /* the survey that is recent and in the folder is listed once */
  g_assert_cmpint (find (found, "letter.bondsurvey")->trouble, ==, BOND_TROUBLE_NOT_OURS);
  g_assert_cmpint (find (found, "newer.bondsurvey")->trouble, ==, BOND_TROUBLE_NEWER);
  g_assert_cmpint (find (found, "half.bondsurvey")->trouble, ==, BOND_TROUBLE_UNREADABLE);
  g_assert_cmpint (find (found, "gone.bondsurvey")->trouble, ==, BOND_TROUBLE_MISSING);
  g_assert_true (find (found, "gone.bondsurvey")->recent);
  g_assert_false (find (found, "first.bondsurvey")->recent);
}

/* Somebody has it open: who, where and since when; and half a line in the journal is theirs, not damage. */
static void
test_locked_and_tail (SmallSurvey *fixture, gconstpointer data)
{
  BondSurveyFile *file = first_survey (fixture);
  g_autofree char *path = small_survey_path (fixture, "first.bondsurvey");
  g_autofree char *journal = g_strconcat (path, ".journal", NULL);
  g_autofree char *other = small_survey_path (fixture, "tail.bondsurvey");
  g_autofree char *other_journal = g_strconcat (other, ".journal", NULL);
  g_autofree char *text = NULL;
  g_autoptr (GPtrArray) locked = look (fixture, NULL, NULL);
  g_autoptr (GPtrArray) found = NULL;
  gsize length = 0;

  g_assert_cmpint (find (locked, "first.bondsurvey")->trouble, ==, BOND_TROUBLE_LOCKED);
  g_assert_nonnull (strstr (find (locked, "first.bondsurvey")->detail, "Hangar 2"));
  g_assert_null (find (locked, "first.bondsurvey")->problem);
  /* As a program killed in the middle of writing leaves it. */
  g_assert_true (g_file_get_contents (journal, &text, &length, NULL));
  copy (fixture, "first.bondsurvey", "tail.bondsurvey");
  g_assert_true (g_file_set_contents (other_journal, text, (gssize)length - 20, NULL));
  small_survey_close (file);
  g_unlink (path);
  found = look (fixture, NULL, locked);
  g_assert_cmpint (find (found, "tail.bondsurvey")->trouble, ==, BOND_TROUBLE_TAIL);
  g_assert_null (find (found, "tail.bondsurvey")->problem);
  g_assert_cmpint (find (found, "tail.bondsurvey")->readings, ==, 2);
}

/* Files that look the same are not read again, and a stop gives what was found. */
/* Three of which each holds the one before: the last one counts, and both others say so. */
static void
test_copy_of_copy (SmallSurvey *fixture, gconstpointer data)
{
  g_autoptr (GPtrArray) found = NULL;

  small_survey_close (first_survey (fixture));
  copy (fixture, "first.bondsurvey", "second.bondsurvey");
  go_on (fixture, "second.bondsurvey", "511-J02");
  copy (fixture, "second.bondsurvey", "third.bondsurvey");
  go_on (fixture, "third.bondsurvey", "511-J02");
  found = look (fixture, NULL, NULL);
  g_assert_cmpint (find (found, "third.bondsurvey")->trouble, ==, BOND_TROUBLE_NONE);
  g_assert_cmpint (find (found, "first.bondsurvey")->trouble, ==, BOND_TROUBLE_COPY);
  g_assert_cmpint (find (found, "second.bondsurvey")->trouble, ==, BOND_TROUBLE_COPY);
  g_assert_true (g_str_has_suffix (find (found, "first.bondsurvey")->detail, "third.bondsurvey"));
  g_assert_true (g_str_has_suffix (find (found, "second.bondsurvey")->detail, "third.bondsurvey"));
}

static void
test_known_and_stop (SmallSurvey *fixture, gconstpointer data)
{
  g_autoptr (GPtrArray) found = NULL, again = NULL, stopped = NULL;
  BondScanProgress progress = { .stop = 1 };
  BondSurveySummary *summary;

  small_survey_close (first_survey (fixture));
  found = look (fixture, NULL, NULL);
  summary = find (found, "first.bondsurvey");
  summary->points = 77;
  again = look (fixture, NULL, found);
  g_assert_cmpint (find (again, "first.bondsurvey")->points, ==, 77);
  go_on (fixture, "first.bondsurvey", "511-J02");
  g_ptr_array_unref (g_steal_pointer (&again));
  again = look (fixture, NULL, found);
  g_assert_cmpint (find (again, "first.bondsurvey")->points, ==, 4);
  copy (fixture, "first.bondsurvey", "second.bondsurvey");
  stopped = bond_library_scan_again (fixture->folder, NULL, NULL, &progress, NULL, NULL);
  g_assert_cmpuint (stopped->len, ==, 0);
}

static void
test_forget (SmallSurvey *fixture, gconstpointer data)
{
  g_autofree char *path = small_survey_path (fixture, "here.bondsurvey");

  g_assert_true (g_file_set_contents (path, "kept", -1, NULL));
  g_assert_true (bond_library_note_recent (path, NULL));
  g_assert_true (bond_library_forget_recent (path));
  g_assert_false (bond_library_forget_recent (path));
  g_assert_true (g_file_test (path, G_FILE_TEST_EXISTS)); /* the list only, never the file */
}

static void
add_instrument (GPtrArray *instruments, const char *name, const char *due)
{
  BondInstrument *instrument = bond_instrument_new (name, 1, BOND_INSTRUMENT_MILLIOHMMETER, name);

  instrument->due = g_strdup (due);
  g_ptr_array_add (instruments, instrument);
}

static void
test_due (SmallSurvey *fixture, gconstpointer data)
{
  g_autoptr (GPtrArray) instruments = g_ptr_array_new_with_free_func ((GDestroyNotify)bond_instrument_unref);
  GDate today;
  int days;
  guint n;

  g_date_clear (&today, 1);
  g_date_set_dmy (&today, 1, G_DATE_FEBRUARY, 2028);
  add_instrument (instruments, "far", "2028-03-03"); /* 31 days: not yet */
  add_instrument (instruments, "never", NULL);
  g_assert_null (bond_library_nearest_due (instruments, &today, &days, &n));
  g_assert_cmpuint (n, ==, 0);
  add_instrument (instruments, "month", "2028-02"); /* to the end of the month: the 29th, a leap year */
  g_assert_cmpstr (bond_library_nearest_due (instruments, &today, &days, &n)->name, ==, "month");
  g_assert_cmpint (days, ==, 28);
  add_instrument (instruments, "past", "2028-01-30");
  g_assert_cmpstr (bond_library_nearest_due (instruments, &today, &days, &n)->name, ==, "past");
  g_assert_cmpint (days, ==, -2);
  g_assert_cmpuint (n, ==, 2);
}

int
main (int argc, char **argv)
{
  g_autofree char *state = g_dir_make_tmp ("bond-state-XXXXXX", NULL);
  static const struct
  {
    const char *path;
    void (*test) (SmallSurvey *, gconstpointer);
  } tests[] = {
    { "/library/again/carry", test_carry },
    { "/library/again/never-as-readings", test_again },
    { "/library/again/scope", test_again_scope },
    { "/library/start/aircraft", test_aircraft },
    { "/library/start/copies", test_copies },
    { "/library/start/copy-onto-itself", test_copy_onto_itself },
    { "/library/start/copy-of-copy", test_copy_of_copy },
    { "/library/start/troubles", test_troubles },
    { "/library/start/locked-and-tail", test_locked_and_tail },
    { "/library/start/known-and-stop", test_known_and_stop },
    { "/library/start/forget", test_forget },
    { "/library/start/due", test_due },
  };

  g_setenv ("XDG_STATE_HOME", state, TRUE);
  g_test_init (&argc, &argv, NULL);
  bond_xml_init ();
  for (guint i = 0; i < G_N_ELEMENTS (tests); i++)
    g_test_add (tests[i].path, SmallSurvey, NULL, small_survey_set_up, tests[i].test, small_survey_tear_down);
  return g_test_run ();
}
