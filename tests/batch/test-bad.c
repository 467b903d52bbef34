/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * Files that cannot be used: damaged, foreign, or made to exhaust whoever reads
 * them.  Every command says which file, ends with 3 and leaves nothing behind.
 */
#include "batch-program.h"

#include <glib/gstdio.h>

/* --- files that cannot be used --- */

typedef struct
{
  const char *name;
  const char *content;
} BadFile;

static const BadFile bad_files[] = {
  { "empty", "" },
  { "junk", "\x7f\x45\x4c\x46\x01\x02\x03" },
  { "not-closed", "<survey xmlns=\"urn:bondwright:survey\" format=\"1\" id=\"x\">" },
  { "other-root", "<invoice/>" },
  { "other-namespace", "<survey format=\"1\" id=\"x\"/>" },
  { "newer", "<survey xmlns=\"urn:bondwright:survey\" format=\"99\" id=\"x\"/>" },
  { "doctype",
    "<!DOCTYPE survey [<!ENTITY a \"b\">]><survey xmlns=\"urn:bondwright:survey\" format=\"1\" id=\"&a;\"/>" },
  { "unknown-element", "<survey xmlns=\"urn:bondwright:survey\" format=\"1\" id=\"x\"><kettle/></survey>" },
};

static void
check_refused (const Outcome *outcome, const char *path)
{
  g_autofree char *said = g_strconcat (outcome->out, outcome->err, NULL);
  g_test_message ("%s", said);
  g_assert_cmpint (outcome->status, ==, 3);
  g_assert_nonnull (strstr (said, path));
}

static void
try_bad_file (SmallSurvey *fixture, const char *path)
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
  check_refused (&judge, path);
  check_refused (&report, path);
  check_refused (&validate, path);
  g_assert_cmpstr (batch_last_line (&judge), ==, "# points=0 scope=0 measured=0 conform=0 fail=0 suspect=0 open=0");
  after = batch_folder_state (fixture->folder);
  g_assert_cmpstr (after, ==, before);
}

static void
test_bad_files (SmallSurvey *fixture, gconstpointer data)
{
  for (guint i = 0; i < G_N_ELEMENTS (bad_files); i++)
    {
      g_autofree char *name = g_strconcat (bad_files[i].name, ".bondsurvey", NULL);
      g_autofree char *path = small_survey_path (fixture, name);
      g_assert_true (g_file_set_contents (path, bad_files[i].content, -1, NULL));
      try_bad_file (fixture, path);
    }
}

/* --- made to exhaust whoever reads them --- */

static char *
repeat (const char *head, const char *before, const char *after, int times, const char *tail)
{
  GString *text = g_string_new (head);
  for (int i = 0; i < times; i++)
    g_string_append_printf (text, "%s%d%s", before, i, after);
  g_string_append (text, tail);
  return g_string_free (text, FALSE);
}

#define OPEN_SURVEY "<survey xmlns=\"urn:bondwright:survey\" format=\"1\" id=\"x\""

static char *
entity_bomb (void)
{
  return g_strdup ("<!DOCTYPE s [<!ENTITY a \"aaaaaaaaaa\"><!ENTITY b \"&a;&a;&a;&a;&a;&a;&a;&a;\">"
                   "<!ENTITY c \"&b;&b;&b;&b;&b;&b;&b;&b;\"><!ENTITY d \"&c;&c;&c;&c;&c;&c;&c;&c;\">]>" OPEN_SURVEY
                   ">&d;</survey>");
}

static char *
huge_attribute (void)
{
  g_autofree char *value = g_strnfill (60 * 1024 * 1024, 'x');
  return g_strconcat (OPEN_SURVEY " title=\"", value, "\"/>", NULL);
}

static char *
deep_nesting (void)
{
  return repeat (OPEN_SURVEY ">", "<a", ">", 200000, "");
}

static char *
many_attributes (void)
{
  return repeat (OPEN_SURVEY, " a", "=\"\"", 50000, "/>");
}

static char *
local_entity (void)
{
  return g_strdup ("<!DOCTYPE s [<!ENTITY a SYSTEM \"file:///etc/hostname\">]>" OPEN_SURVEY ">&a;</survey>");
}

static void
test_hostile_files (SmallSurvey *fixture, gconstpointer data)
{
  static const struct
  {
    const char *name;
    char *(*make) (void);
  } hostile[] = { { "bomb", entity_bomb },
                  { "entity", local_entity },
                  { "huge", huge_attribute },
                  { "deep", deep_nesting },
                  { "attributes", many_attributes } };

  for (guint i = 0; i < G_N_ELEMENTS (hostile); i++)
    {
      g_autofree char *name = g_strconcat (hostile[i].name, ".bondsurvey", NULL);
      g_autofree char *path = small_survey_path (fixture, name);
      g_autofree char *content = hostile[i].make ();
      gint64 begun = g_get_monotonic_time ();
      g_assert_true (g_file_set_contents (path, content, -1, NULL));
      try_bad_file (fixture, path);
      g_assert_cmpint (g_get_monotonic_time () - begun, <, 60 * G_USEC_PER_SEC);
    }
}

static void
test_directory (SmallSurvey *fixture, gconstpointer data)
{
  g_autofree char *path = small_survey_path (fixture, "folder.bondsurvey");
  g_mkdir (path, 0700);
  try_bad_file (fixture, path);
}

/* One digit of one reading: the chain names entry and point, and no figure leaves the program. */
static void
test_broken_chain (SmallSurvey *fixture, gconstpointer data)
{
  g_autofree char *path
      = batch_make_survey (fixture, "good.bondsurvey", (const BondOhm[]){ 1870000, 3100000, 1200000 });
  g_autofree char *bytes = NULL;
  g_autoptr (GString) changed = NULL;

  g_assert_true (g_file_get_contents (path, &bytes, NULL, NULL));
  changed = g_string_new (bytes);
  g_assert_cmpuint (g_string_replace (changed, "nohm=\"1870000\"", "nohm=\"1870001\"", 1), ==, 1);
  g_assert_true (g_file_set_contents (path, changed->str, -1, NULL));
  try_bad_file (fixture, path);
}

int
main (int argc, char **argv)
{
  static const SmallSurveyTest tests[] = {
    { "/batch/bad/files", test_bad_files },
    { "/batch/bad/hostile", test_hostile_files },
    { "/batch/bad/directory", test_directory },
    { "/batch/bad/broken-chain", test_broken_chain },
  };

  return small_survey_run (argc, argv, tests, G_N_ELEMENTS (tests));
}
