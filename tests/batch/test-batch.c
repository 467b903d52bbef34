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

typedef enum
{
  POINT = 1,
  PLACE,
  CLASS,
  ZONE,
  ROW,
  TIER,
  STATE,
  VERDICT,
  CONFORMS,
  FOUND,
  RESULT,
  LIMIT = 13,
  USED,
  N_COLUMNS,
} Column;

typedef struct
{
  Column column;
  const char *text;
} Cell;

#define EXPECT_CELLS(outcome, line, ...)                                                                               \
  expect_cells (outcome, line, (const Cell[]){ __VA_ARGS__ }, G_N_ELEMENTS (((const Cell[]){ __VA_ARGS__ })))

static void
expect_cells (const Outcome *outcome, guint line, const Cell *cells, gsize n)
{
  g_auto (GStrv) is = g_strsplit (outcome->lines[line], "\t", -1);

  g_assert_cmpuint (g_strv_length (is), ==, N_COLUMNS);
  for (gsize i = 0; i < n; i++)
    g_assert_cmpstr (is[cells[i].column], ==, cells[i].text);
}

/* Judges a survey of these three readings: @status and the last line. */
static void
judge (SmallSurvey *fixture, const BondOhm nohm[3], Outcome *outcome, int status, const char *last)
{
  g_autofree char *path = batch_make_survey (fixture, "judged.bondsurvey", nohm);

  batch_run (outcome, "judge", path, NULL);
  g_assert_cmpstr (outcome->err, ==, "");
  g_assert_cmpint (outcome->status, ==, status);
  g_assert_cmpuint (g_strv_length (outcome->lines), ==, 5);
  g_assert_cmpstr (outcome->lines[0], ==, HEADER);
  g_assert_cmpstr (batch_last_line (outcome), ==, last);
}

static void
test_judge_all_conform (SmallSurvey *fixture, gconstpointer data)
{
  g_auto (Outcome) outcome = { 0 };

  judge (fixture, all_good, &outcome, 0, "# points=3 scope=3 measured=3 conform=3 fail=0 suspect=0 open=0");
  EXPECT_CELLS (&outcome, 1, { POINT, "511-J01" }, { PLACE, "" }, { CLASS, "structure" }, { ZONE, "511" },
                { ROW, "shop/J1" }, { TIER, "undisturbed" }, { STATE, "pass" }, { VERDICT, "pass" },
                { CONFORMS, "yes" }, { FOUND, "0.00187" }, { RESULT, "0.00187" }, { LIMIT, "<=0.005" },
                { USED, "37.4" });
}

static void
test_judge_fail (SmallSurvey *fixture, gconstpointer data)
{
  g_auto (Outcome) outcome = { 0 };

  judge (fixture, one_bad, &outcome, 1, "# points=3 scope=3 measured=3 conform=2 fail=1 suspect=0 open=1");
  EXPECT_CELLS (&outcome, 2, { STATE, "fail" }, { CONFORMS, "no" }, { USED, "124.0" });
}

static void
test_judge_open (SmallSurvey *fixture, gconstpointer data)
{
  g_auto (Outcome) outcome = { 0 };

  judge (fixture, one_open, &outcome, 1, "# points=3 scope=3 measured=2 conform=2 fail=0 suspect=0 open=1");
  EXPECT_CELLS (&outcome, 2, { STATE, "to-measure" }, { CONFORMS, "" }, { RESULT, "" });
}

/* Two limits on one point, kept in the file: a line each, the one not met first; the counts are of points. */
static void
test_judge_rows (SmallSurvey *fixture, gconstpointer data)
{
  g_autofree char *path = small_survey_path (fixture, "rows.bondsurvey");
  g_auto (Outcome) outcome = { 0 };
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
  EXPECT_CELLS (&outcome, 4, { POINT, "611-J02" }, { ROW, "shop/J2" }, { STATE, "fail" }, { CONFORMS, "no" },
                { LIMIT, "<=0.0025" }, { USED, "120.0" });
  EXPECT_CELLS (&outcome, 5, { POINT, "611-J02" }, { ROW, "shop/J1" }, { STATE, "pass" }, { CONFORMS, "yes" },
                { RESULT, "0.003" }, { LIMIT, "<=0.005" }, { USED, "60.0" });
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

/* Whether both files hold the same bytes; the first is a PDF. */
static gboolean
are_same (const char *first, const char *second)
{
  g_autofree char *a = NULL, *b = NULL;
  gsize a_length, b_length;
  g_autoptr (GError) error = NULL;

  g_file_get_contents (first, &a, &a_length, &error);
  g_assert_no_error (error);
  g_file_get_contents (second, &b, &b_length, &error);
  g_assert_no_error (error);
  g_assert_cmpmem (a, MIN (a_length, 5), "%PDF-", 5);
  return a_length == b_length && memcmp (a, b, a_length) == 0;
}

/* A survey and where two reports of it go. */
typedef struct
{
  char *path, *first, *second;
  Outcome one, two;
} Reports;

static void
reports_init (Reports *reports, SmallSurvey *fixture, const BondOhm nohm[3])
{
  *reports = (Reports){ .path = batch_make_survey (fixture, "reported.bondsurvey", nohm),
                        .first = small_survey_path (fixture, "first.pdf"),
                        .second = small_survey_path (fixture, "second.pdf") };
}

static void
reports_clear (Reports *reports)
{
  g_free (reports->path);
  g_free (reports->first);
  g_free (reports->second);
  outcome_clear (&reports->one);
  outcome_clear (&reports->two);
}
G_DEFINE_AUTO_CLEANUP_CLEAR_FUNC (Reports, reports_clear)

static void
test_report_same_bytes (SmallSurvey *fixture, gconstpointer data)
{
  g_auto (Reports) r = { 0 };

  reports_init (&r, fixture, all_good);
  batch_run (&r.one, "report", r.path, "-o", r.first, "--printed", PRINTED, NULL);
  batch_run (&r.two, "report", r.path, "--printed", PRINTED, "--paper", "a4", "--output", r.second, NULL);
  g_assert_cmpstr (r.one.err, ==, "");
  g_assert_cmpint (r.one.status, ==, 0);
  g_assert_cmpint (r.two.status, ==, 0);
  g_assert_cmpstr (r.one.out, ==, "");
  g_assert_true (are_same (r.first, r.second));
}

static void
test_report_epoch (SmallSurvey *fixture, gconstpointer data)
{
  g_auto (Reports) r = { 0 };
  g_auto (Outcome) wrong = { 0 };

  reports_init (&r, fixture, one_bad);
  g_setenv ("SOURCE_DATE_EPOCH", "1777968000", TRUE); /* 2026-05-05T08:00:00Z */
  batch_run (&r.one, "report", r.path, "-o", r.first, NULL);
  batch_run (&r.two, "report", r.path, "-o", r.second, "--printed", "2026-05-05T08:00:00+00:00", NULL);
  g_setenv ("SOURCE_DATE_EPOCH", "yesterday", TRUE);
  batch_run (&wrong, "report", r.path, "-o", r.second, NULL);
  g_unsetenv ("SOURCE_DATE_EPOCH");
  g_assert_cmpint (r.one.status, ==, 1);
  g_assert_cmpint (wrong.status, ==, 2);
  g_assert_true (are_same (r.first, r.second));
}

static void
test_report_letter (SmallSurvey *fixture, gconstpointer data)
{
  g_auto (Reports) r = { 0 };

  reports_init (&r, fixture, all_good);
  batch_run (&r.one, "report", r.path, "-o", r.first, "--printed", PRINTED, NULL);
  batch_run (&r.two, "report", r.path, "-o", r.second, "--printed", PRINTED, "--paper", "letter", NULL);
  g_assert_cmpint (r.two.status, ==, 0);
  g_assert_false (are_same (r.first, r.second));
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
  static const SmallSurveyTest tests[] = {
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

  return small_survey_run (argc, argv, tests, G_N_ELEMENTS (tests));
}
