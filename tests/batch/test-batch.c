/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * bondwright-batch as other programs meet it: exit status, the table's first and
 * last line, what is written and, above all, what is not.
 */
#include "batch-program.h"
#include "store/register-file.h"

#include <glib/gstdio.h>
#include <string.h>

#define HEADER                                                                                                         \
  "survey\tpoint\tplace\tclass\tzone\trow\ttier\tstate\tverdict\tconforms\tfound_ohm\tresult_ohm\tU_ohm\tlimit\t"      \
  "used_percent"
#define PRINTED "2026-05-05T10:00:00+02:00"

static const BondOhm all_good[3] = { 1870000, 3100000, 1200000 };
static const BondOhm one_bad[3] = { 1870000, 6200000, 1200000 };
static const BondOhm one_open[3] = { 1870000, 0, 1200000 };

/* --- judge --- */

static void
test_judge_all_conform (SmallSurvey *fixture, gconstpointer data)
{
  g_autofree char *path = batch_make_survey (fixture, "good.bondsurvey", all_good);
  g_auto (Outcome) outcome = { 0 };
  g_auto (GStrv) cells = NULL;

  batch_run (&outcome, "judge", path, NULL);
  g_assert_cmpstr (outcome.err, ==, "");
  g_assert_cmpint (outcome.status, ==, 0);
  g_assert_cmpuint (g_strv_length (outcome.lines), ==, 5);
  g_assert_cmpstr (outcome.lines[0], ==, HEADER);
  g_assert_cmpstr (batch_last_line (&outcome), ==, "# points=3 scope=3 measured=3 conform=3 fail=0 suspect=0 open=0");
  cells = g_strsplit (outcome.lines[1], "\t", -1);
  g_assert_cmpuint (g_strv_length (cells), ==, 15);
  g_assert_cmpstr (cells[1], ==, "511-J01");
  g_assert_cmpstr (cells[2], ==, "");
  g_assert_cmpstr (cells[3], ==, "structure");
  g_assert_cmpstr (cells[4], ==, "511");
  g_assert_cmpstr (cells[5], ==, "shop/J1");
  g_assert_cmpstr (cells[6], ==, "undisturbed");
  g_assert_cmpstr (cells[7], ==, "pass");
  g_assert_cmpstr (cells[8], ==, "pass");
  g_assert_cmpstr (cells[9], ==, "yes");
  g_assert_cmpstr (cells[10], ==, "0.00187");
  g_assert_cmpstr (cells[11], ==, "0.00187");
  g_assert_cmpstr (cells[13], ==, "<=0.005");
  g_assert_cmpstr (cells[14], ==, "37.4");
}

static void
test_judge_fail (SmallSurvey *fixture, gconstpointer data)
{
  g_autofree char *path = batch_make_survey (fixture, "bad.bondsurvey", one_bad);
  g_auto (Outcome) outcome = { 0 };
  g_auto (GStrv) cells = NULL;

  batch_run (&outcome, "judge", path, NULL);
  g_assert_cmpint (outcome.status, ==, 1);
  cells = g_strsplit (outcome.lines[2], "\t", -1);
  g_assert_cmpstr (cells[7], ==, "fail");
  g_assert_cmpstr (cells[9], ==, "no");
  g_assert_cmpstr (cells[14], ==, "124.0");
  g_assert_nonnull (strstr (batch_last_line (&outcome), "conform=2 fail=1"));
}

static void
test_judge_open (SmallSurvey *fixture, gconstpointer data)
{
  g_autofree char *path = batch_make_survey (fixture, "open.bondsurvey", one_open);
  g_auto (Outcome) outcome = { 0 };
  g_auto (GStrv) cells = NULL;

  batch_run (&outcome, "judge", path, NULL);
  g_assert_cmpint (outcome.status, ==, 1);
  cells = g_strsplit (outcome.lines[2], "\t", -1);
  g_assert_cmpstr (cells[7], ==, "to-measure");
  g_assert_cmpstr (cells[9], ==, "");
  g_assert_cmpstr (cells[11], ==, "");
  g_assert_cmpstr (batch_last_line (&outcome), ==, "# points=3 scope=3 measured=2 conform=2 fail=0 suspect=0 open=1");
}

/* Two limits on one point, kept in the file: a line each, the one not met first; the counts are of points. */
static void
test_judge_rows (SmallSurvey *fixture, gconstpointer data)
{
  g_autofree char *path = small_survey_path (fixture, "rows.bondsurvey");
  g_auto (Outcome) outcome = { 0 };
  g_auto (GStrv) first = NULL;
  g_auto (GStrv) second = NULL;
  BondNewSurvey what;
  BondSurveyFile *file;

  small_airframe_add_point (fixture->airframe, "q-4", "611-J02", "611", "shop/J1 shop/J2");
  what = small_survey_plan (fixture);
  file = small_survey_make (fixture, "rows.bondsurvey", &what);
  small_survey_measure (bond_survey_file_get_survey (file), "611-J02", 3000000);
  small_survey_close (file);
  batch_run (&outcome, "judge", path, NULL);
  g_assert_cmpint (outcome.status, ==, 1);
  g_assert_cmpuint (g_strv_length (outcome.lines), ==, 7);
  g_assert_cmpstr (batch_last_line (&outcome), ==, "# points=4 scope=4 measured=1 conform=0 fail=1 suspect=0 open=4");
  first = g_strsplit (outcome.lines[4], "\t", -1);
  second = g_strsplit (outcome.lines[5], "\t", -1);
  g_assert_cmpstr (first[1], ==, "611-J02");
  g_assert_cmpstr (first[5], ==, "shop/J2");
  g_assert_cmpstr (first[7], ==, "fail");
  g_assert_cmpstr (first[9], ==, "no");
  g_assert_cmpstr (first[13], ==, "<=0.0025");
  g_assert_cmpstr (first[14], ==, "120.0");
  g_assert_cmpstr (second[1], ==, "611-J02");
  g_assert_cmpstr (second[5], ==, "shop/J1");
  g_assert_cmpstr (second[7], ==, "pass");
  g_assert_cmpstr (second[9], ==, "yes");
  g_assert_cmpstr (second[11], ==, "0.003");
  g_assert_cmpstr (second[13], ==, "<=0.005");
  g_assert_cmpstr (second[14], ==, "60.0");
}

/* One bad file costs its own line, not the others'. */
static void
test_judge_several (SmallSurvey *fixture, gconstpointer data)
{
  g_autofree char *first = batch_make_survey (fixture, "one.bondsurvey", all_good);
  g_autofree char *second = batch_make_survey (fixture, "two.bondsurvey", all_good);
  g_autofree char *absent = small_survey_path (fixture, "absent.bondsurvey");
  g_auto (Outcome) outcome = { 0 };

  batch_run (&outcome, "judge", first, absent, second, NULL);
  g_assert_cmpint (outcome.status, ==, 3);
  g_assert_cmpuint (g_strv_length (outcome.lines), ==, 8);
  g_assert_cmpstr (batch_last_line (&outcome), ==, "# points=6 scope=6 measured=6 conform=6 fail=0 suspect=0 open=0");
  g_assert_nonnull (strstr (outcome.err, "absent.bondsurvey"));
}

/* Readings that are only in the journal yet count like any other. */
static void
test_judge_journal (SmallSurvey *fixture, gconstpointer data)
{
  BondNewSurvey what = small_survey_plan (fixture);
  BondSurveyFile *file = small_survey_make (fixture, "open.bondsurvey", &what);
  g_autofree char *path = small_survey_path (fixture, "open.bondsurvey");
  g_auto (Outcome) outcome = { 0 };

  small_survey_measure (bond_survey_file_get_survey (file), "511-J01", 1870000);
  batch_run (&outcome, "judge", path, NULL);
  g_test_message ("%s%s", outcome.out, outcome.err);
  g_assert_nonnull (strstr (batch_last_line (&outcome), "measured=1 conform=1"));
  small_survey_close (file);
}

/* --- report --- */

static void
read_file (const char *path, char **bytes, gsize *length)
{
  g_autoptr (GError) error = NULL;
  g_file_get_contents (path, bytes, length, &error);
  g_assert_no_error (error);
}

static void
test_report_same_bytes (SmallSurvey *fixture, gconstpointer data)
{
  g_autofree char *path = batch_make_survey (fixture, "good.bondsurvey", all_good);
  g_autofree char *first = small_survey_path (fixture, "first.pdf");
  g_autofree char *second = small_survey_path (fixture, "second.pdf");
  g_autofree char *a = NULL, *b = NULL;
  gsize a_length, b_length;
  g_auto (Outcome) one = { 0 };
  g_auto (Outcome) two = { 0 };

  batch_run (&one, "report", path, "-o", first, "--printed", PRINTED, NULL);
  batch_run (&two, "report", path, "--printed", PRINTED, "--paper", "a4", "--output", second, NULL);
  g_assert_cmpstr (one.err, ==, "");
  g_assert_cmpint (one.status, ==, 0);
  g_assert_cmpint (two.status, ==, 0);
  g_assert_cmpstr (one.out, ==, "");
  read_file (first, &a, &a_length);
  read_file (second, &b, &b_length);
  g_assert_cmpmem (a, 5, "%PDF-", 5);
  g_assert_cmpmem (a, a_length, b, b_length);
}

static void
test_report_epoch (SmallSurvey *fixture, gconstpointer data)
{
  g_autofree char *path = batch_make_survey (fixture, "bad.bondsurvey", one_bad);
  g_autofree char *first = small_survey_path (fixture, "first.pdf");
  g_autofree char *second = small_survey_path (fixture, "second.pdf");
  g_autofree char *a = NULL, *b = NULL;
  gsize a_length, b_length;
  g_auto (Outcome) one = { 0 };
  g_auto (Outcome) two = { 0 };
  g_auto (Outcome) wrong = { 0 };

  g_setenv ("SOURCE_DATE_EPOCH", "1777968000", TRUE); /* 2026-05-05T08:00:00Z */
  batch_run (&one, "report", path, "-o", first, NULL);
  batch_run (&two, "report", path, "-o", second, "--printed", "2026-05-05T08:00:00+00:00", NULL);
  g_setenv ("SOURCE_DATE_EPOCH", "yesterday", TRUE);
  batch_run (&wrong, "report", path, "-o", second, NULL);
  g_unsetenv ("SOURCE_DATE_EPOCH");
  g_assert_cmpint (one.status, ==, 1);
  g_assert_cmpint (wrong.status, ==, 2);
  read_file (first, &a, &a_length);
  read_file (second, &b, &b_length);
  g_assert_cmpmem (a, a_length, b, b_length);
}

static void
test_report_letter (SmallSurvey *fixture, gconstpointer data)
{
  g_autofree char *path = batch_make_survey (fixture, "good.bondsurvey", all_good);
  g_autofree char *a4 = small_survey_path (fixture, "a4.pdf");
  g_autofree char *letter = small_survey_path (fixture, "letter.pdf");
  g_autofree char *a = NULL, *b = NULL;
  gsize a_length, b_length;
  g_auto (Outcome) one = { 0 };
  g_auto (Outcome) two = { 0 };

  batch_run (&one, "report", path, "-o", a4, "--printed", PRINTED, NULL);
  batch_run (&two, "report", path, "-o", letter, "--printed", PRINTED, "--paper", "letter", NULL);
  g_assert_cmpint (two.status, ==, 0);
  read_file (a4, &a, &a_length);
  read_file (letter, &b, &b_length);
  g_assert_false (a_length == b_length && memcmp (a, b, a_length) == 0);
}

/* --- wrong usage --- */

static void
test_usage (SmallSurvey *fixture, gconstpointer data)
{
  g_autofree char *path = batch_make_survey (fixture, "good.bondsurvey", all_good);
  g_autofree char *out = small_survey_path (fixture, "out.pdf");
  g_autofree char *before = batch_folder_state (fixture->folder);
  g_autofree char *after = NULL;
  const char *const wrong[][7] = {
    { NULL },
    { "weigh", path, NULL },
    { "judge", NULL },
    { "judge", "--fast", path, NULL },
    { "judge", "-o", out, path, NULL },
    { "report", path, NULL },
    { "report", "-o", out, NULL },
    { "report", path, path, "-o", out, NULL },
    { "report", path, "-o", out, "--paper", "a5", NULL },
    { "report", path, "-o", out, "--printed", "now", NULL },
    { "report", path, "-o", path, NULL },
    { "validate", NULL },
  };

  for (guint i = 0; i < G_N_ELEMENTS (wrong); i++)
    {
      const char *const *w = wrong[i];
      g_auto (Outcome) outcome = { 0 };
      batch_run (&outcome, w[0], w[1], w[2], w[3], w[4], w[5], w[6], NULL);
      g_test_message ("case %u: %s", i, outcome.err);
      g_assert_cmpint (outcome.status, ==, 2);
      g_assert_cmpstr (outcome.err, !=, "");
    }
  after = batch_folder_state (fixture->folder);
  g_assert_cmpstr (after, ==, before);
}

static void
test_help (SmallSurvey *fixture, gconstpointer data)
{
  static const char *const later[] = { "import", "verify", "merge", "review", "simulate" };
  g_auto (Outcome) help = { 0 };
  g_auto (Outcome) version = { 0 };

  batch_run (&help, "--help", NULL);
  batch_run (&version, "--version", NULL);
  g_assert_cmpint (help.status, ==, 0);
  g_assert_cmpint (version.status, ==, 0);
  g_assert_nonnull (strstr (help.out, "judge"));
  g_assert_nonnull (strstr (help.out, "report"));
  g_assert_nonnull (strstr (help.out, "validate"));
  /* A command that is not built is not promised. */
  for (guint i = 0; i < G_N_ELEMENTS (later); i++)
    g_assert_null (strstr (help.out, later[i]));
}

static void
test_validate_good (SmallSurvey *fixture, gconstpointer data)
{
  g_autofree char *path = batch_make_survey (fixture, "good.bondsurvey", one_open);
  g_autofree char *limits = small_survey_path (fixture, "limits.xml");
  g_auto (Outcome) outcome = { 0 };
  g_autoptr (GError) error = NULL;

  bond_register_save (limits, BOND_ADOPT_LIMIT_SET, fixture->sets->pdata[0], &error);
  g_assert_no_error (error);
  batch_run (&outcome, "validate", path, limits, NULL);
  g_assert_cmpstr (outcome.out, ==, "");
  g_assert_cmpstr (outcome.err, ==, "");
  g_assert_cmpint (outcome.status, ==, 0);
}

/* FILE:LINE: message */
static void
test_validate_says_where (SmallSurvey *fixture, gconstpointer data)
{
  g_autofree char *path = small_survey_path (fixture, "set.xml");
  g_autofree char *expected = g_strconcat (path, ":3: ", NULL);
  g_auto (Outcome) outcome = { 0 };

  g_assert_true (
      g_file_set_contents (path,
                           "<?xml version=\"1.0\"?>\n<limit-set xmlns=\"urn:bondwright:limit-set\" format=\"1\" "
                           "id=\"x\" revision=\"1\" name=\"X\">\n<kettle/>\n</limit-set>\n",
                           -1, NULL));
  batch_run (&outcome, "validate", path, NULL);
  g_assert_cmpint (outcome.status, ==, 3);
  g_assert_true (g_str_has_prefix (outcome.out, expected));
}

static void
test_changes_nothing (SmallSurvey *fixture, gconstpointer data)
{
  g_autofree char *path = batch_make_survey (fixture, "good.bondsurvey", all_good);
  g_autofree char *before = batch_folder_state (fixture->folder);
  g_autofree char *after = NULL;
  g_auto (Outcome) judge = { 0 };
  g_auto (Outcome) validate = { 0 };

  batch_run (&judge, "judge", path, NULL);
  batch_run (&validate, "validate", path, NULL);
  after = batch_folder_state (fixture->folder);
  g_assert_cmpstr (after, ==, before);
}

int
main (int argc, char **argv)
{
  static const struct
  {
    const char *path;
    void (*test) (SmallSurvey *, gconstpointer);
  } tests[] = {
    { "/batch/judge/all-conform", test_judge_all_conform },
    { "/batch/judge/fail", test_judge_fail },
    { "/batch/judge/open", test_judge_open },
    { "/batch/judge/rows", test_judge_rows },
    { "/batch/judge/several-files", test_judge_several },
    { "/batch/judge/journal-counts", test_judge_journal },
    { "/batch/report/same-bytes", test_report_same_bytes },
    { "/batch/report/source-date-epoch", test_report_epoch },
    { "/batch/report/letter", test_report_letter },
    { "/batch/usage/wrong", test_usage },
    { "/batch/usage/help", test_help },
    { "/batch/validate/good", test_validate_good },
    { "/batch/validate/says-where", test_validate_says_where },
    { "/batch/changes-nothing", test_changes_nothing },
  };

  g_test_init (&argc, &argv, NULL);
  bond_xml_init ();
  for (guint i = 0; i < G_N_ELEMENTS (tests); i++)
    g_test_add (tests[i].path, SmallSurvey, NULL, small_survey_set_up, tests[i].test, small_survey_tear_down);
  return g_test_run ();
}
