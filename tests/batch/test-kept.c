/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * What bondwright-batch must never replace, and surveys from which no figure leaves:
 * journal, backup, a zone the airframe lost, figures against their text.
 */
#include "batch-program.h"

#include <glib/gstdio.h>
#include <string.h>
#include <unistd.h>

static const BondOhm all_good[3] = { 1870000, 3100000, 1200000 };

/* Readings that are in the journal only are durable, and a report is no reason to lose them. */
static void
test_journal_is_kept (SmallSurvey *fixture, gconstpointer data)
{
  BondNewSurvey what = small_survey_plan (fixture);
  BondSurveyFile *file = small_survey_make (fixture, "open.bondsurvey", &what);
  g_autofree char *path = small_survey_path (fixture, "open.bondsurvey");
  static const char *const outputs[] = { "open.bondsurvey",  "open.bondsurvey.journal",  ".open.bondsurvey.backup",
                                         "other.bondsurvey", "other.bondsurvey.journal", "link.pdf" };
  g_autofree char *link_path = small_survey_path (fixture, "link.pdf");
  g_autofree char *before = NULL;
  g_autofree char *after = NULL;

  small_survey_measure (bond_survey_file_get_survey (file), "511-J01", 1870000);
  g_assert_cmpint (symlink ("open.bondsurvey.journal", link_path), ==, 0);
  before = batch_folder_state (fixture->folder);
  g_assert_nonnull (strstr (before, "open.bondsurvey.journal"));
  for (guint i = 0; i < G_N_ELEMENTS (outputs); i++)
    {
      g_autofree char *out = small_survey_path (fixture, outputs[i]);
      g_auto (Outcome) outcome = { 0 };

      batch_run (&outcome, "report", path, "-o", out, NULL);
      g_test_message ("%s: %s", outputs[i], outcome.err);
      g_assert_cmpint (outcome.status, ==, 2);
    }
  after = batch_folder_state (fixture->folder);
  g_assert_cmpstr (after, ==, before);
  small_survey_close (file);
}

/* The name that was asked for, and what to do; no temporary name. */
static void
test_unwritable_output (SmallSurvey *fixture, gconstpointer data)
{
  g_autofree char *path = batch_make_survey (fixture, "good.bondsurvey", all_good);
  g_autofree char *nowhere = small_survey_path (fixture, "nowhere/out.pdf");
  g_autofree char *before = batch_folder_state (fixture->folder);
  g_autofree char *after = NULL;
  g_auto (Outcome) outcome = { 0 };

  batch_run (&outcome, "report", path, "-o", nowhere, NULL);
  g_test_message ("%s", outcome.err);
  g_assert_cmpint (outcome.status, ==, 3);
  g_assert_nonnull (strstr (outcome.err, "nowhere/out.pdf."));
  g_assert_nonnull (strstr (outcome.err, "make it, or choose another name"));
  g_assert_null (strstr (outcome.err, "out.pdf.X"));
  after = batch_folder_state (fixture->folder);
  g_assert_cmpstr (after, ==, before);
}

static void
assert_nothing_leaves (SmallSurvey *fixture, const char *path, const char *word)
{
  g_autofree char *out = small_survey_path (fixture, "out.pdf");
  g_autofree char *before = batch_folder_state (fixture->folder);
  g_autofree char *after = NULL;
  g_auto (Outcome) judge = { 0 };
  g_auto (Outcome) report = { 0 };
  g_auto (Outcome) validate = { 0 };

  batch_run (&judge, "judge", path, NULL);
  batch_run (&report, "report", path, "-o", out, NULL);
  batch_run (&validate, "validate", path, NULL);
  g_test_message ("%s", judge.err);
  g_assert_cmpint (judge.status, ==, 3);
  g_assert_cmpint (report.status, ==, 3);
  g_assert_cmpint (validate.status, ==, 3);
  g_assert_cmpuint (g_strv_length (judge.lines), ==, 2);
  g_assert_nonnull (strstr (judge.err, word));
  g_assert_nonnull (strstr (report.err, word));
  g_assert_nonnull (strstr (validate.out, word));
  after = batch_folder_state (fixture->folder);
  g_assert_cmpstr (after, ==, before);
}

/* The newer revision of the airframe has lost zone 611, where a point is. */
static void
test_missing_zone (SmallSurvey *fixture, gconstpointer data)
{
  g_autofree char *path = small_survey_path (fixture, "zone.bondsurvey");
  BondNewSurvey what = small_survey_plan (fixture);
  BondSurveyFile *file = small_survey_make (fixture, "zone.bondsurvey", &what);
  g_autoptr (BondAirframe) newer = bond_airframe_new ("test-plane", 2, "Test plane");
  g_autoptr (GError) error = NULL;

  g_assert_true (bond_airframe_add_zone (newer, bond_zone_new ("511", "511", BOND_ZONE_MAJOR, BOND_SIDE_LEFT), NULL));
  bond_survey_record_now (bond_survey_file_get_survey (file), bond_entry_adopt_new (BOND_ADOPT_AIRFRAME, newer),
                          &error);
  g_assert_no_error (error);
  small_survey_close (file);
  assert_nothing_leaves (fixture, path, "611");
}

/* Told by validate; judged as open, so that it is looked for and mended. */
static void
test_limit_name (SmallSurvey *fixture, gconstpointer data)
{
  g_autofree char *path = small_survey_path (fixture, "limit.bondsurvey");
  BondNewSurvey what = small_survey_plan (fixture);
  BondSurveyFile *file = small_survey_make (fixture, "limit.bondsurvey", &what);
  const BondLimitSet *old = fixture->sets->pdata[0];
  g_autoptr (BondLimitSet) newer = bond_limit_set_new (old->id, old->revision + 1, old->name);
  BondLimitRow *row = bond_limit_row_new ();
  g_autoptr (GError) error = NULL;
  g_auto (Outcome) judge = { 0 };
  g_auto (Outcome) validate = { 0 };

  row->code = g_strdup ("J1");
  row->klass = BOND_CLASS_STRUCTURE;
  row->in_service.upper = (BondBound){ BOND_RELATION_LE, 5000000, BOND_UNIT_MILLIOHM };
  newer->enabled = TRUE;
  g_assert_true (bond_limit_set_add (newer, row, NULL));
  bond_survey_record_now (bond_survey_file_get_survey (file), bond_entry_adopt_new (BOND_ADOPT_LIMIT_SET, newer),
                          &error);
  g_assert_no_error (error);
  small_survey_close (file);
  batch_run (&judge, "judge", path, NULL);
  batch_run (&validate, "validate", path, NULL);
  g_test_message ("%s", validate.out);
  g_assert_cmpint (judge.status, ==, 1);
  g_assert_nonnull (strstr (judge.err, "shop/J2"));
  g_assert_cmpint (validate.status, ==, 3);
  g_assert_nonnull (strstr (validate.out, "shop/J2"));
}

static void
test_figure_against_text (SmallSurvey *fixture, gconstpointer data)
{
  g_autofree char *path = small_survey_path (fixture, "text.bondsurvey");
  BondNewSurvey what = small_survey_plan (fixture);
  BondSurveyFile *file = small_survey_make (fixture, "text.bondsurvey", &what);
  BondEntry *entry = bond_entry_new (BOND_ENTRY_READING);
  g_autoptr (GError) error = NULL;

  entry->point = g_strdup ("q-1");
  entry->reading.text = g_strdup ("9.99");
  entry->reading.unit = BOND_UNIT_MILLIOHM;
  entry->reading.quantity.nohm = 1000000;
  bond_survey_record_now (bond_survey_file_get_survey (file), entry, &error);
  g_assert_no_error (error);
  small_survey_close (file);
  assert_nothing_leaves (fixture, path, "9.99");
}

int
main (int argc, char **argv)
{
  static const SmallSurveyTest tests[] = {
    { "/batch/kept/journal", test_journal_is_kept },
    { "/batch/kept/unwritable-output", test_unwritable_output },
    { "/batch/kept/missing-zone", test_missing_zone },
    { "/batch/kept/limit-name", test_limit_name },
    { "/batch/kept/figure-against-text", test_figure_against_text },
  };

  return small_survey_run (argc, argv, tests, G_N_ELEMENTS (tests));
}
