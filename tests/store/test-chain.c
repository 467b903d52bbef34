/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * The chain: its definition computed once more by other means, and every kind of
 * change to a saved survey found and named.
 */
#include "sample.h"

#include "store/chain.h"
#include "store/scan.h"

#include <libxml/c14n.h>
#include <libxml/parser.h>
#include <string.h>

#define N_CHANGES 1000

static BondSurveyFile *
open_read (Sample *sample, GPtrArray *problems, GError **error)
{
  return bond_survey_file_open (sample->path, BOND_OPEN_READ, sample->source, NULL, problems, error);
}

static GPtrArray *
new_problems (void)
{
  return g_ptr_array_new_with_free_func ((GDestroyNotify)bond_problem_free);
}

/* Two sittings with something of everything. */
static void
make_survey (Sample *sample)
{
  g_autoptr (BondSurveyFile) file = sample_create (sample, 3);

  sample_measure (file, 6, 3);
  g_assert_true (bond_survey_file_close (file, NULL));
  g_clear_object (&file);
  file = sample_open (sample);
  sample_measure (file, 6, 3);
  g_assert_true (bond_survey_file_close (file, NULL));
}

/*
 * d(0) and d(1) of chain.h, from canonical text written down by hand here and the
 * SHA-256 of GLib over it: not through the code under test.
 */
static void
test_definition (void)
{
  const char *xml
      = "<survey xmlns=\"urn:bondwright:survey\"><sitting opened=\"o\" id='s-1'  after=\"\">"
        "<entry kind=\"void\" d=\"ff\" id=\"s-1-1\"><void why=\"other\"/> \xc2\xb5</entry></sitting></survey>";
  const char *head = "id\n<sitting xmlns=\"urn:bondwright:survey\" after=\"\" id=\"s-1\" opened=\"o\"></sitting>";
  const char *entry = "<entry xmlns=\"urn:bondwright:survey\" id=\"s-1-1\" kind=\"void\"><void why=\"other\"></void>"
                      " \xc2\xb5</entry>";
  xmlDoc *doc = xmlReadMemory (xml, (int)strlen (xml), NULL, NULL, 0);
  xmlNode *sitting = bond_xml_child (xmlDocGetRootElement (doc), "sitting");
  g_autofree char *d0 = bond_chain_start ("id", sitting);
  g_autofree char *d1 = bond_chain_next (d0, bond_xml_child (sitting, "entry"));
  g_autofree char *expected0 = g_compute_checksum_for_string (G_CHECKSUM_SHA256, head, -1);
  g_autofree char *text1 = g_strconcat (expected0, entry, NULL);
  g_autofree char *expected1 = g_compute_checksum_for_string (G_CHECKSUM_SHA256, text1, -1);

  g_assert_cmpstr (d0, ==, expected0);
  g_assert_cmpstr (d1, ==, expected1);
  g_assert_nonnull (sitting->children);
  xmlFreeDoc (doc);
}

static void
assert_broken (Sample *sample, const char *entry_part, const char *point)
{
  g_autoptr (GPtrArray) problems = new_problems ();
  g_autoptr (GError) error = NULL;
  g_autoptr (BondSurveyFile) file = open_read (sample, problems, &error);
  const char *why;

  g_assert_no_error (error);
  why = bond_survey_get_read_only (bond_survey_file_get_survey (file));
  g_test_message ("%s", why);
  g_assert_nonnull (strstr (why, entry_part));
  g_assert_nonnull (strstr (why, point));
  g_assert_cmpuint (problems->len, >, 0);
  g_assert_cmpint (((BondProblem *)g_ptr_array_index (problems, 0))->line, >, 0);
}

static void
test_whole_verifies (Sample *sample, gconstpointer data)
{
  g_autoptr (GPtrArray) problems = new_problems ();

  make_survey (sample);
  g_assert_true (bond_survey_file_validate (sample->path, problems));
  g_assert_cmpuint (problems->len, ==, 0);
}

static void
test_altered_entry_is_named (Sample *sample, gconstpointer data)
{
  make_survey (sample);
  sample_replace (sample->path, "nohm=\"1010000\"", "nohm=\"1010001\"");
  /* Readings are entries 8 to 13; 1.01 was taken at the second point. */
  assert_broken (sample, "the reading on 541-J02, recorded ", "541-J02");
}

/* One changed digest is one difference: the entries behind it are still good. */
static void
test_altered_digest_is_one_difference (Sample *sample, gconstpointer data)
{
  g_autoptr (GPtrArray) problems = new_problems ();
  g_autoptr (BondSurveyFile) file = NULL;
  g_autofree char *bytes = NULL;
  gsize length;
  char *at;

  make_survey (sample);
  bytes = sample_read (sample->path, &length);
  at = strstr (strstr (bytes, "nohm=\"1010000\"") - 600, " d=\"");
  while (strstr (at + 1, " d=\"") < strstr (bytes, "nohm=\"1010000\""))
    at = strstr (at + 1, " d=\"");
  at[4] = at[4] == '0' ? '1' : '0';
  sample_write (sample->path, bytes, length);
  file = open_read (sample, problems, NULL);
  g_assert_nonnull (file);
  g_assert_cmpuint (problems->len, ==, 1);
}

/* The line of the @n-th reading of the file. */
static char *
reading_line (const char *bytes, int n)
{
  g_auto (GStrv) lines = g_strsplit (bytes, "\n", -1);

  for (guint i = 0; lines[i] != NULL; i++)
    if (strstr (lines[i], "kind=\"reading\"") != NULL && --n == 0)
      return g_strconcat (lines[i], "\n", NULL);
  g_assert_not_reached ();
}

static void
test_removed_entry_is_named (Sample *sample, gconstpointer data)
{
  g_autofree char *bytes = NULL;
  g_autofree char *line = NULL;
  gsize length;

  make_survey (sample);
  bytes = sample_read (sample->path, &length);
  line = reading_line (bytes, 2);
  sample_replace (sample->path, line, "");
  assert_broken (sample, "is missing", "before the reading on 541-J03");
}

/* The very last entry has nothing behind it: the first line of the file says that it was there. */
static void
test_removed_last_entry_is_named (Sample *sample, gconstpointer data)
{
  g_autofree char *bytes = NULL;
  g_autofree char *line = NULL;
  gsize length;

  make_survey (sample);
  bytes = sample_read (sample->path, &length);
  line = reading_line (bytes, 12);
  sample_replace (sample->path, line, "");
  assert_broken (sample, "act 6 of the sitting of ", "is not there");
}

static void
test_removed_sitting_is_named (Sample *sample, gconstpointer data)
{
  g_autofree char *bytes = NULL;
  g_autofree char *sitting = NULL;
  gsize length;

  make_survey (sample);
  bytes = sample_read (sample->path, &length);
  sitting = g_strndup (strstr (bytes, "<sitting "), strstr (bytes, "</sitting>\n") + 11 - strstr (bytes, "<sitting "));
  sample_replace (sample->path, sitting, "");
  assert_broken (sample, "a whole sitting of 13 acts", "is not there");
}

static void
test_moved_entry_is_named (Sample *sample, gconstpointer data)
{
  g_autofree char *bytes = NULL;
  g_autofree char *one = NULL;
  g_autofree char *two = NULL;
  g_autofree char *before = NULL;
  g_autofree char *after = NULL;
  gsize length;

  make_survey (sample);
  bytes = sample_read (sample->path, &length);
  one = reading_line (bytes, 2);
  two = reading_line (bytes, 3);
  before = g_strconcat (one, two, NULL);
  after = g_strconcat (two, one, NULL);
  sample_replace (sample->path, before, after);
  assert_broken (sample, "does not stand where", "the reading on 541-J03");
}

/* A whole sitting of one survey does not verify in another. */
static void
test_foreign_sitting_is_found (Sample *sample, gconstpointer data)
{
  g_autofree char *bytes = NULL;
  g_autofree char *id = NULL;
  gsize length;

  make_survey (sample);
  bytes = sample_read (sample->path, &length);
  id = g_strndup (strstr (bytes, "id=\"") + 4, 32);
  sample_replace (sample->path, id, "ffffffffffffffffffffffffffffffff");
  assert_broken (sample, "the beginning of the survey", "head of its sitting");
}

/* A broken chain can be read and not be written to; the file is left as it is. */
static void
test_broken_opens_read_only (Sample *sample, gconstpointer data)
{
  g_autoptr (GPtrArray) problems = new_problems ();
  g_autoptr (BondSurveyFile) file = NULL;
  g_autoptr (GError) error = NULL;
  g_autofree char *before = NULL;
  g_autofree char *after = NULL;
  gsize n_before, n_after;

  make_survey (sample);
  sample_replace (sample->path, "nohm=\"1010000\"", "nohm=\"1010001\"");
  before = sample_read (sample->path, &n_before);
  file = bond_survey_file_open (sample->path, BOND_OPEN_WRITE, sample->source, "Office", problems, &error);
  g_assert_no_error (error);
  bond_survey_set_person (bond_survey_file_get_survey (file), "p-okafor");
  g_assert_false (
      bond_survey_record_now (bond_survey_file_get_survey (file), sample_reading (1, "1.00", 1000000), &error));
  g_assert_nonnull (error);
  g_assert_true (bond_survey_file_close (file, NULL));
  after = sample_read (sample->path, &n_after);
  g_assert_cmpmem (before, n_before, after, n_after);
}

/* ---- one changed byte ---- */

static char *
canonical (const char *bytes, gsize length)
{
  xmlDoc *doc = xmlReadMemory (bytes, (int)length, NULL, NULL, XML_PARSE_NOERROR | XML_PARSE_NOWARNING);
  xmlChar *text = NULL;
  char *copy;

  if (doc == NULL)
    return NULL;
  xmlC14NDocDumpMemory (doc, NULL, XML_C14N_EXCLUSIVE_1_0, NULL, 0, &text);
  copy = g_strdup ((const char *)text);
  xmlFree (text);
  xmlFreeDoc (doc);
  return copy;
}

/* White space between the children of root and sittings holds nothing: it belongs to no entry. */
static gboolean
is_between_entries (const char *bytes, gsize at)
{
  return strchr ("\n", bytes[at]) != NULL && bytes[at - 1] == '>' && (bytes[at + 1] == '<' || bytes[at + 1] == 0);
}

/* The number of the line an offset is in, when an entry stands on it; 0 = none does. */
static int
entry_line_at (const char *bytes, gsize at)
{
  gsize start = at;
  int line = 1;

  while (start > 0 && bytes[start - 1] != '\n')
    start--;
  if (strncmp (bytes + start, "<entry id=\"", 11) != 0)
    return 0;
  for (gsize i = 0; i < start; i++)
    line += bytes[i] == '\n';
  return line;
}

/* A line end put into a start tag moves the place libxml2 names by one. */
static gboolean
names_line (GPtrArray *problems, int line)
{
  for (guint i = 0; i < problems->len; i++)
    if (ABS (((BondProblem *)g_ptr_array_index (problems, i))->line - line) <= 1)
      return TRUE;
  return FALSE;
}

/* Found, and if the file still opens, the line of the entry that was changed is named. */
static void
assert_found (Sample *sample, int line, gsize at, char from, char to)
{
  g_autoptr (GPtrArray) problems = new_problems ();
  g_autoptr (GError) error = NULL;
  g_autoptr (BondSurveyFile) file = open_read (sample, problems, &error);
  const char *why;

  if (file == NULL)
    {
      g_assert_nonnull (error);
      g_assert_nonnull (strstr (error->message, sample->path));
      return;
    }
  why = bond_survey_get_read_only (bond_survey_file_get_survey (file));
  if (problems->len == 0 || (line > 0 && !names_line (problems, line)))
    g_error ("byte %" G_GSIZE_FORMAT " '%c' to '%c' in line %d: %s", at, from, to, line, why);
}

static char
other_byte (char old)
{
  const char *pool = "0123456789abcdefghijklmnopqrstuvwxyzABC -.\"<>&\n\x7f\xc3";
  char now;

  do
    now = pool[g_test_rand_int_range (0, (gint32)strlen (pool))];
  while (now == old);
  return now;
}

static void
test_thousand_changes (Sample *sample, gconstpointer data)
{
  g_autoptr (BondSurveyFile) file = sample_create (sample, 3);
  g_autoptr (GBytes) photo = g_bytes_new_static ("not really a photo, but bytes \x00\x01\x02", 33);
  g_autofree char *bytes = NULL;
  g_autofree char *before = NULL;
  g_autofree char *sha256 = bond_survey_file_add_attachment (file, photo, "p.jpg", "image/jpeg", NULL);
  BondEntry *attach = bond_entry_new (BOND_ENTRY_ATTACH);
  int changed = 0, without_effect = 0;
  gsize length;

  attach->attach = (BondAttach){ g_strdup (sha256), g_strdup ("p.jpg"), g_strdup ("image/jpeg"), 33 };
  sample_record (file, attach);
  sample_entry_of_every_kind (file);
  g_assert_true (bond_survey_file_close (file, NULL));
  g_clear_object (&file);
  file = sample_open (sample);
  sample_measure (file, 4, 3);
  g_assert_true (bond_survey_file_close (file, NULL));
  bytes = sample_read (sample->path, &length);
  before = canonical (bytes, length);
  while (changed < N_CHANGES)
    {
      gsize at = (gsize)g_test_rand_int_range (0, (gint32)length);
      g_autofree char *now = g_memdup2 (bytes, length + 1);
      g_autofree char *after = NULL;
      int line = entry_line_at (bytes, at);

      now[at] = other_byte (bytes[at]);
      after = canonical (now, length);
      if ((after != NULL && strcmp (after, before) == 0) || is_between_entries (bytes, at))
        {
          without_effect++;
          continue;
        }
      sample_write (sample->path, now, length);
      assert_found (sample, line, at, bytes[at], now[at]);
      changed++;
    }
  g_test_message ("%d changes found, %d without effect on the content", changed, without_effect);
}

#define CASE(name, function) g_test_add ("/store/chain/" name, Sample, NULL, sample_set_up, function, sample_tear_down)

int
main (int argc, char **argv)
{
  g_test_init (&argc, &argv, NULL);
  bond_xml_init ();
  g_test_add_func ("/store/chain/definition", test_definition);
  CASE ("whole-verifies", test_whole_verifies);
  CASE ("altered-entry-is-named", test_altered_entry_is_named);
  CASE ("altered-digest-is-one-difference", test_altered_digest_is_one_difference);
  CASE ("removed-entry-is-named", test_removed_entry_is_named);
  CASE ("removed-last-entry-is-named", test_removed_last_entry_is_named);
  CASE ("removed-sitting-is-named", test_removed_sitting_is_named);
  CASE ("moved-entry-is-named", test_moved_entry_is_named);
  CASE ("foreign-sitting-is-found", test_foreign_sitting_is_found);
  CASE ("broken-opens-read-only", test_broken_opens_read_only);
  CASE ("thousand-changes", test_thousand_changes);
  return g_test_run ();
}
