/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * Making a survey from an airframe, finding it again in a folder, and handing its
 * results to the next one.  All aircraft, limits and figures here are invented.
 */
#include "small-survey.h"

#include <glib/gstdio.h>
#include <unistd.h>

/* --- a new survey --- */

static void
test_new_survey (SmallSurvey *fixture, gconstpointer data)
{
  BondNewSurvey what = small_survey_plan (fixture);
  BondSurveyFile *file = small_survey_make (fixture, "new.bondsurvey", &what);
  BondSurvey *survey = bond_survey_file_get_survey (file);
  const BondCreate *header = bond_survey_get_header (survey);

  g_assert_cmpstr (header->registration, ==, "ZZ-TST");
  g_assert_cmpstr (header->aircraft_type, ==, "test-plane");
  g_assert_cmpstr (header->serial, ==, "0007");
  g_assert_cmpstr (bond_survey_get_airframe (survey)->id, ==, "test-plane");
  g_assert_cmpuint (bond_survey_get_limit_sets (survey)->len, ==, 1);
  g_assert_cmpuint (bond_survey_get_instruments (survey)->len, ==, 1);
  g_assert_cmpstr (bond_survey_person_name (survey, "p-1"), ==, "Ines Invented");
  g_assert_cmpuint (g_list_model_get_n_items (G_LIST_MODEL (survey)), ==, 3);
  g_assert_nonnull (bond_point_get_row (bond_survey_find_number (survey, "511-J01")));
  small_survey_close (file);
}

/* A copy on another computer has nothing but the file. */
static void
test_stands_alone (SmallSurvey *fixture, gconstpointer data)
{
  BondNewSurvey what = small_survey_plan (fixture);
  g_autofree char *path = small_survey_path (fixture, "alone.bondsurvey");
  g_autofree char *journal = g_strconcat (path, ".journal", NULL);
  g_autoptr (GPtrArray) problems = g_ptr_array_new_with_free_func ((GDestroyNotify)bond_problem_free);
  g_autoptr (GError) error = NULL;
  g_autoptr (BondSurveyFile) again = NULL;
  BondSurvey *survey;

  small_survey_close (small_survey_make (fixture, "alone.bondsurvey", &what));
  g_unlink (journal);
  again = bond_survey_file_open (path, BOND_OPEN_READ, fixture->source, "test", problems, &error);
  g_assert_no_error (error);
  g_assert_cmpuint (problems->len, ==, 0);
  survey = bond_survey_file_get_survey (again);
  g_assert_cmpuint (g_list_model_get_n_items (G_LIST_MODEL (survey)), ==, 3);
  g_assert_cmpint (bond_point_get_row (bond_survey_find_number (survey, "611-J01"))->in_service.upper.nohm, ==,
                   2500000);
}

static void
test_scope (SmallSurvey *fixture, gconstpointer data)
{
  BondNewSurvey what = small_survey_plan (fixture);
  g_autoptr (GPtrArray) zones = g_ptr_array_new ();
  BondSurveyFile *file;

  g_ptr_array_add (zones, (char *)"500");
  what.zones = zones;
  file = small_survey_make (fixture, "scope.bondsurvey", &what);
  g_assert_cmpuint (g_list_model_get_n_items (G_LIST_MODEL (bond_survey_file_get_survey (file))), ==, 2);
  g_assert_null (bond_survey_find_number (bond_survey_file_get_survey (file), "611-J01"));
  small_survey_close (file);
}

static void
test_no_points (SmallSurvey *fixture, gconstpointer data)
{
  BondNewSurvey what = small_survey_plan (fixture);
  BondSurveyFile *file;
  what.no_points = TRUE;
  file = small_survey_make (fixture, "empty.bondsurvey", &what);
  g_assert_cmpuint (g_list_model_get_n_items (G_LIST_MODEL (bond_survey_file_get_survey (file))), ==, 0);
  small_survey_close (file);
}

/* A point that names a limit nobody chose would be judged against nothing. */
static void
test_limit_missing (SmallSurvey *fixture, gconstpointer data)
{
  BondNewSurvey what = small_survey_plan (fixture);
  g_autofree char *path = small_survey_path (fixture, "missing.bondsurvey");
  g_autoptr (GError) error = NULL;

  small_airframe_add_point (fixture->airframe, "q-4", "611-J02", "611", "shop/J1 maker/J9");
  g_assert_null (bond_library_new_survey (path, &what, fixture->source, "Hangar 2", &error));
  g_assert_error (error, BOND_SURVEY_ERROR, BOND_SURVEY_ERROR_INVALID);
  g_assert_nonnull (strstr (error->message, "611-J02"));
  g_assert_nonnull (strstr (error->message, "“maker/J9”"));
  g_assert_false (g_file_test (path, G_FILE_TEST_EXISTS));
}

static void
test_never_over_another (SmallSurvey *fixture, gconstpointer data)
{
  BondNewSurvey what = small_survey_plan (fixture);
  g_autofree char *path = small_survey_path (fixture, "twice.bondsurvey");
  g_autofree char *before = NULL;
  g_autofree char *after = NULL;
  g_autoptr (GError) error = NULL;

  small_survey_close (small_survey_make (fixture, "twice.bondsurvey", &what));
  g_file_get_contents (path, &before, NULL, NULL);
  g_assert_null (bond_library_new_survey (path, &what, fixture->source, "Hangar 2", &error));
  g_assert_nonnull (error);
  g_file_get_contents (path, &after, NULL, NULL);
  g_assert_cmpstr (before, ==, after);
}

/* --- earlier results --- */

static void
test_earlier (SmallSurvey *fixture, gconstpointer data)
{
  BondNewSurvey what = small_survey_plan (fixture);
  BondSurveyFile *file = small_survey_make (fixture, "first.bondsurvey", &what);
  BondSurvey *survey = bond_survey_file_get_survey (file);
  g_autoptr (GPtrArray) list = g_ptr_array_new_with_free_func ((GDestroyNotify)bond_earlier_unref);
  BondEarlier *earlier;
  const BondEarlierItem *item;

  small_survey_measure (survey, "511-J01", 1870000);
  small_survey_measure (survey, "611-J01", 3120000);
  earlier = bond_library_earlier (survey);
  g_ptr_array_add (list, earlier);
  g_assert_cmpstr (earlier->survey, ==, bond_survey_get_id (survey));
  g_assert_cmpstr (earlier->date, ==, "2026-05-04");
  item = bond_earlier_find (earlier, "q-1");
  g_assert_cmpint (item->result.nohm, ==, 1870000);
  g_assert_cmpstr (item->state, ==, "pass");
  g_assert_cmpstr (item->limit, ==, "<=0.005");
  g_assert_null (bond_earlier_find (earlier, "q-2"));
  g_assert_cmpstr (bond_earlier_find (earlier, "q-3")->state, ==, "fail");
  small_survey_close (file);

  what.earlier = list;
  file = small_survey_make (fixture, "second.bondsurvey", &what);
  survey = bond_survey_file_get_survey (file);
  g_assert_cmpuint (bond_survey_get_earlier (survey)->len, ==, 1);
  item = bond_earlier_find (bond_survey_get_earlier (survey)->pdata[0], "q-1");
  g_assert_cmpint (item->result.nohm, ==, 1870000);
  /* Carried along, never a reading: every point starts undisturbed and to measure. */
  g_assert_cmpint (bond_point_get_state (bond_survey_find_number (survey, "511-J01")), ==, BOND_STATE_TO_MEASURE);
  g_assert_cmpint (bond_point_get_state (bond_survey_find_number (survey, "611-J01")), ==, BOND_STATE_TO_MEASURE);
  small_survey_close (file);
}

static void
test_earlier_rework (SmallSurvey *fixture, gconstpointer data)
{
  BondNewSurvey what = small_survey_plan (fixture);
  BondSurveyFile *file = small_survey_make (fixture, "rework.bondsurvey", &what);
  BondSurvey *survey = bond_survey_file_get_survey (file);
  BondEntry *rework = bond_entry_new (BOND_ENTRY_REWORK);
  g_autoptr (BondEarlier) earlier = NULL;
  g_autoptr (GError) error = NULL;

  small_survey_measure (survey, "511-J01", 6200000);
  rework->point = g_strdup ("q-1");
  rework->rework.done = BOND_REWORK_SURFACES_CLEANED;
  rework->rework.reference = g_strdup ("N-101");
  bond_survey_record_now (survey, rework, &error);
  g_assert_no_error (error);
  small_survey_measure (survey, "511-J01", 1950000);
  earlier = bond_library_earlier (survey);
  g_assert_cmpstr (bond_earlier_find (earlier, "q-1")->note, ==, "reworked 2026-05-04");
  g_assert_cmpstr (bond_earlier_find (earlier, "q-1")->state, ==, "pass-after-rework");
  g_assert_cmpint (bond_earlier_find (earlier, "q-1")->result.nohm, ==, 1950000);
  small_survey_close (file);
}

/* What was struck is not passed on; what decides nothing is still known. */
static void
test_earlier_struck (SmallSurvey *fixture, gconstpointer data)
{
  BondNewSurvey what = small_survey_plan (fixture);
  BondSurveyFile *file = small_survey_make (fixture, "struck.bondsurvey", &what);
  BondSurvey *survey = bond_survey_file_get_survey (file);
  GPtrArray *entries = bond_survey_get_entries (survey);
  BondEntry *rework = bond_entry_new (BOND_ENTRY_REWORK);
  BondEntry *strike = bond_entry_new (BOND_ENTRY_VOID);
  g_autoptr (BondEarlier) earlier = NULL;
  g_autoptr (GError) error = NULL;

  small_survey_measure (survey, "511-J01", 1870000);
  rework->point = g_strdup ("q-1");
  rework->rework.done = BOND_REWORK_SURFACES_CLEANED;
  rework->rework.reference = g_strdup ("N-101");
  bond_survey_record_now (survey, rework, &error);
  g_assert_no_error (error);
  strike->point = g_strdup ("q-1");
  strike->ref = g_strdup (((BondEntry *)entries->pdata[entries->len - 1])->id);
  strike->voided.why = BOND_VOID_OTHER;
  strike->reason = g_strdup ("another joint");
  bond_survey_record_now (survey, strike, &error);
  g_assert_no_error (error);
  earlier = bond_library_earlier (survey);
  g_assert_null (bond_earlier_find (earlier, "q-1")->note);
  small_survey_close (file);
}

/* No count of an altered survey stands in the list, and it is no earlier survey. */
static void
test_scan_altered (SmallSurvey *fixture, gconstpointer data)
{
  BondNewSurvey what = small_survey_plan (fixture);
  BondSurveyFile *file = small_survey_make (fixture, "altered.bondsurvey", &what);
  g_autofree char *path = small_survey_path (fixture, "altered.bondsurvey");
  g_autofree char *bytes = NULL;
  g_autoptr (GString) text = NULL;
  g_autoptr (GPtrArray) found = NULL;
  const BondSurveySummary *summary;

  small_survey_measure (bond_survey_file_get_survey (file), "511-J01", 1870000);
  small_survey_close (file);
  g_assert_true (g_file_get_contents (path, &bytes, NULL, NULL));
  text = g_string_new (bytes);
  g_assert_cmpuint (g_string_replace (text, "nohm=\"1870000\"", "nohm=\"1870001\"", 1), ==, 1);
  g_assert_true (g_file_set_contents (path, text->str, -1, NULL));
  found = bond_library_scan (fixture->folder, NULL, NULL);
  g_assert_cmpuint (found->len, ==, 1);
  summary = found->pdata[0];
  g_assert_nonnull (summary->problem);
  g_assert_cmpint (summary->points, ==, 0);
  g_assert_null (bond_library_latest_of (found, "test-plane", "0007"));
}

/* A file copied today is no newer survey: the time of its last entry counts. */
static void
test_changed_is_recorded (SmallSurvey *fixture, gconstpointer data)
{
  BondNewSurvey what = small_survey_plan (fixture);
  g_autoptr (GPtrArray) found = NULL;

  small_survey_close (small_survey_make (fixture, "old.bondsurvey", &what));
  found = bond_library_scan (fixture->folder, NULL, NULL);
  g_assert_true (g_str_has_prefix (((BondSurveySummary *)found->pdata[0])->changed_at, "2026-05-04T07:"));
}

/* --- the folder --- */

static const BondSurveySummary *
summary_of (GPtrArray *found, const char *name)
{
  for (guint i = 0; i < found->len; i++)
    if (g_str_has_suffix (((BondSurveySummary *)found->pdata[i])->path, name))
      return found->pdata[i];
  return NULL;
}

static void
test_scan (SmallSurvey *fixture, gconstpointer data)
{
  BondNewSurvey what = small_survey_plan (fixture);
  BondSurveyFile *file = small_survey_make (fixture, "good.bondsurvey", &what);
  g_autofree char *bad = small_survey_path (fixture, "bad.bondsurvey");
  g_autofree char *other = small_survey_path (fixture, "notes.txt");
  g_autofree char *deeper = small_survey_path (fixture, "2025");
  g_autofree char *loop = g_build_filename (deeper, "loop", NULL);
  g_autofree char *inner = g_build_filename (deeper, "inner.bondsurvey", NULL);
  g_autoptr (GPtrArray) found = NULL;
  g_autoptr (GError) error = NULL;
  const BondSurveySummary *good;

  small_survey_measure (bond_survey_file_get_survey (file), "511-J01", 1870000);
  small_survey_measure (bond_survey_file_get_survey (file), "511-J02", 6200000);
  small_survey_close (file);
  g_assert_true (g_file_set_contents (bad, "<survey", -1, NULL));
  g_assert_true (g_file_set_contents (other, "no survey", -1, NULL));
  g_mkdir (deeper, 0700);
  g_assert_true (g_file_set_contents (inner, "", -1, NULL));
  g_assert_cmpint (symlink (fixture->folder, loop), ==, 0);

  found = bond_library_scan (fixture->folder, NULL, &error);
  g_assert_no_error (error);
  g_assert_cmpuint (found->len, ==, 3);
  good = summary_of (found, "good.bondsurvey");
  g_assert_null (good->problem);
  g_assert_cmpstr (good->registration, ==, "ZZ-TST");
  g_assert_cmpstr (good->order, ==, "W-1");
  g_assert_cmpint (good->points, ==, 3);
  g_assert_cmpint (good->fail, ==, 1);
  g_assert_nonnull (summary_of (found, "bad.bondsurvey")->problem);
  g_assert_nonnull (summary_of (found, "inner.bondsurvey")->problem);
  g_assert_true (bond_library_latest_of (found, "test-plane", "0007") == good);
  g_assert_null (bond_library_latest_of (found, "test-plane", "0008"));
}

static void
test_scan_refused (SmallSurvey *fixture, gconstpointer data)
{
  g_autofree char *absent = small_survey_path (fixture, "not-there");
  g_autoptr (GCancellable) cancellable = g_cancellable_new ();
  g_autoptr (GError) error = NULL;

  g_assert_null (bond_library_scan (absent, NULL, &error));
  g_assert_error (error, G_IO_ERROR, G_IO_ERROR_NOT_FOUND);
  g_assert_nonnull (strstr (error->message, absent));
  g_clear_error (&error);
  g_cancellable_cancel (cancellable);
  g_assert_null (bond_library_scan (fixture->folder, cancellable, &error));
  g_assert_error (error, G_IO_ERROR, G_IO_ERROR_CANCELLED);
}

/* Each test of the recent list starts without one; the suite gives the state folder a place of its own. */
static void
forget_recent (void)
{
  g_autofree char *path = g_build_filename (g_get_user_state_dir (), "bondwright", "recent.ini", NULL);

  g_unlink (path);
}

static void
test_recent (SmallSurvey *fixture, gconstpointer data)
{
  g_auto (GStrv) none = (forget_recent (), bond_library_recent ());
  g_auto (GStrv) two = NULL;
  g_autoptr (GError) error = NULL;

  g_assert_cmpuint (g_strv_length (none), ==, 0);
  g_assert_true (bond_library_note_recent ("/hangar/a;b.bondsurvey", &error));
  g_assert_true (bond_library_note_recent ("/hangar/ä.bondsurvey", &error));
  g_assert_true (bond_library_note_recent ("/hangar/../hangar/a;b.bondsurvey", &error));
  g_assert_no_error (error);
  two = bond_library_recent ();
  g_assert_cmpuint (g_strv_length (two), ==, 2);
  g_assert_cmpstr (two[0], ==, "/hangar/a;b.bondsurvey");
  g_assert_cmpstr (two[1], ==, "/hangar/ä.bondsurvey");
}

static void
test_recent_is_short (SmallSurvey *fixture, gconstpointer data)
{
  g_auto (GStrv) kept = NULL;

  forget_recent ();
  for (int i = 0; i < 30; i++)
    {
      g_autofree char *path = g_strdup_printf ("/hangar/%d.bondsurvey", i);
      g_assert_true (bond_library_note_recent (path, NULL));
    }
  kept = bond_library_recent ();
  g_assert_cmpuint (g_strv_length (kept), ==, 20);
  g_assert_cmpstr (kept[0], ==, "/hangar/29.bondsurvey");
}

static void
test_sets_for (SmallSurvey *fixture, gconstpointer data)
{
  g_autoptr (BondCatalog) catalog = bond_catalog_new (NULL, NULL);
  GPtrArray *airframes = bond_catalog_list (catalog, BOND_ADOPT_AIRFRAME);

  g_assert_cmpuint (airframes->len, ==, 4);
  for (guint i = 0; i < airframes->len; i++)
    {
      const BondAirframe *airframe = airframes->pdata[i];
      g_autoptr (GPtrArray) sets = bond_library_sets_for (airframe, catalog);
      for (guint j = 0; j < airframe->points->len; j++)
        {
          const BondPointSpec *spec = airframe->points->pdata[j];
          g_test_message ("%s %s %s", airframe->id, spec->number, spec->limit);
          g_assert_nonnull (bond_limit_lookup (sets, spec->own_limit, spec->limit, spec->klass, NULL));
        }
    }
  g_ptr_array_unref (airframes);
}

int
main (int argc, char **argv)
{
  g_autofree char *state = NULL;
  static const SmallSurveyTest tests[] = {
    { "/library/earlier/struck", test_earlier_struck },
    { "/library/scan/altered", test_scan_altered },
    { "/library/scan/changed-is-recorded", test_changed_is_recorded },
    { "/library/new/adopts-and-points", test_new_survey },
    { "/library/new/stands-alone", test_stands_alone },
    { "/library/new/scope", test_scope },
    { "/library/new/no-points", test_no_points },
    { "/library/new/limit-missing", test_limit_missing },
    { "/library/new/never-over-another", test_never_over_another },
    { "/library/earlier/results", test_earlier },
    { "/library/earlier/rework", test_earlier_rework },
    { "/library/scan/folder", test_scan },
    { "/library/scan/refused", test_scan_refused },
    { "/library/recent/order", test_recent },
    { "/library/recent/short", test_recent_is_short },
    { "/library/sets-for-shipped-airframes", test_sets_for },
  };

  /* Not GLib's own isolation: in 2.74 it leaks what it sets, which the leak check would count as ours. */
  state = g_dir_make_tmp ("bond-state-XXXXXX", NULL);
  g_setenv ("XDG_STATE_HOME", state, TRUE);
  return small_survey_run (argc, argv, tests, G_N_ELEMENTS (tests));
}
