/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * What nobody meant, or somebody did: every such file is refused with its name, the
 * line where there is one, the cause and the next step, in bounded time, and is left
 * as it was.
 */
#include "sample.h"

#include "store/register-file.h"

#include <glib/gstdio.h>
#include <string.h>
#include <sys/stat.h>
#include <unistd.h>

#define MAX_SECONDS 5.0

#define SURVEY_HEAD                                                                                                    \
  "<survey xmlns=\"urn:bondwright:survey\" format=\"1\" id=\"00000000000000000000000000000001\" program=\"0.1.0\" "    \
  "holds=\"\">"

/* Refused by both kinds of reader, in time, with name and words; the file is unchanged. */
static void
assert_refused (Sample *sample, const char *bytes, gsize length, BondStoreError code, const char *word)
{
  g_autoptr (GTimer) timer = g_timer_new ();
  g_autoptr (GPtrArray) problems = g_ptr_array_new_with_free_func ((GDestroyNotify)bond_problem_free);
  g_autoptr (BondSurveyFile) file = NULL;
  g_autoptr (GError) error = NULL;
  g_autofree char *after = NULL;
  gsize n_after;

  sample_write (sample->path, bytes, length);
  g_timer_start (timer);
  file = bond_survey_file_open (sample->path, BOND_OPEN_WRITE, sample->source, "", problems, &error);
  g_assert_cmpfloat (g_timer_elapsed (timer, NULL), <, MAX_SECONDS);
  g_assert_null (file);
  g_assert_nonnull (error);
  g_test_message ("%.3f s: %.300s", g_timer_elapsed (timer, NULL), error->message);
  g_assert_error (error, BOND_STORE_ERROR, (int)code);
  g_assert_nonnull (strstr (error->message, sample->path));
  g_assert_nonnull (strstr (error->message, word));
  g_assert_true (g_utf8_validate (error->message, -1, NULL));
  g_assert_false (bond_survey_file_validate (sample->path, problems));
  after = sample_read (sample->path, &n_after);
  g_assert_cmpmem (after, n_after, bytes, length);
}

static void
assert_text_refused (Sample *sample, const char *text, BondStoreError code, const char *word)
{
  assert_refused (sample, text, strlen (text), code, word);
}

static void
test_not_xml (Sample *sample, gconstpointer data)
{
  guint8 junk[5000];

  for (guint i = 0; i < sizeof junk; i++)
    junk[i] = (guint8)g_test_rand_int ();
  junk[0] = 0x89;
  assert_refused (sample, (const char *)junk, sizeof junk, BOND_STORE_ERROR_SYNTAX, "not XML");
  assert_text_refused (sample, "", BOND_STORE_ERROR_SYNTAX, "empty");
  assert_refused (sample, "<survey>\0</survey>", 18, BOND_STORE_ERROR_SYNTAX, "NUL");
  assert_text_refused (sample, "<html/>", BOND_STORE_ERROR_SCHEMA, "<html>");
  assert_text_refused (sample, "<survey xmlns=\"urn:elsewhere\"/>", BOND_STORE_ERROR_SCHEMA, "<survey>");
  assert_text_refused (sample, "<person xmlns=\"urn:bondwright:person\"/>", BOND_STORE_ERROR_SCHEMA, "<person>");
}

static void
test_malformed (Sample *sample, gconstpointer data)
{
  assert_text_refused (sample, SURVEY_HEAD "\n<sitting>\n</survey>", BOND_STORE_ERROR_SYNTAX, ":3: ");
  assert_text_refused (sample, SURVEY_HEAD "\n&nothing;</survey>", BOND_STORE_ERROR_SYNTAX, ":2: ");
  assert_text_refused (sample, SURVEY_HEAD "\n<a>\n</\xff\xff>", BOND_STORE_ERROR_SYNTAX, ":3: ");
  assert_text_refused (sample, SURVEY_HEAD "\n\xff\xfe</survey>", BOND_STORE_ERROR_SYNTAX, ":2: ");
  assert_text_refused (sample, SURVEY_HEAD "\n<a x='1' x='2'/></survey>", BOND_STORE_ERROR_SYNTAX, ":2: ");
  assert_text_refused (sample, SURVEY_HEAD "</survey><survey/>", BOND_STORE_ERROR_SYNTAX, ":1: ");
}

static void
test_schema (Sample *sample, gconstpointer data)
{
  assert_text_refused (sample, SURVEY_HEAD "\n<surprise/></survey>", BOND_STORE_ERROR_SCHEMA, ":2: ");
  assert_text_refused (sample, "<survey xmlns=\"urn:bondwright:survey\"/>", BOND_STORE_ERROR_SCHEMA, "format");
  assert_text_refused (sample, SURVEY_HEAD "\n<sitting/></survey>", BOND_STORE_ERROR_SCHEMA, "id");
}

/* Newer before wrong: what a newer version adds is no mistake. */
static void
test_newer_format (Sample *sample, gconstpointer data)
{
  assert_text_refused (sample,
                       "<survey xmlns=\"urn:bondwright:survey\" format=\"2\" program=\"9.8.7\"><news/></survey>",
                       BOND_STORE_ERROR_NEWER, "9.8.7");
}

static void
test_document_types (Sample *sample, gconstpointer data)
{
  g_autoptr (GString) bomb = g_string_new ("<?xml version=\"1.0\"?>\n<!DOCTYPE b [<!ENTITY a0 \"ha\">");
  g_autoptr (GString) blow_up = g_string_new ("<!DOCTYPE b [<!ENTITY a \"");

  for (int i = 1; i < 30; i++)
    g_string_append_printf (bomb, "<!ENTITY a%d \"&a%d;&a%d;&a%d;&a%d;\">", i, i - 1, i - 1, i - 1, i - 1);
  g_string_append (bomb, "]>\n<b>&a29;</b>");
  assert_text_refused (sample, bomb->str, BOND_STORE_ERROR_SYNTAX, ":2: ");
  for (int i = 0; i < 100000; i++)
    g_string_append_c (blow_up, 'x');
  g_string_append (blow_up, "\">]><b>");
  for (int i = 0; i < 30000; i++)
    g_string_append (blow_up, "&a;");
  g_string_append (blow_up, "</b>");
  assert_text_refused (sample, blow_up->str, BOND_STORE_ERROR_SYNTAX, "DOCTYPE");
  assert_text_refused (sample, "<!DOCTYPE b SYSTEM \"file:///etc/passwd\"><b/>", BOND_STORE_ERROR_SYNTAX, "DOCTYPE");
  assert_text_refused (sample, "<!DOCTYPE b [<!ENTITY p SYSTEM \"file:///etc/passwd\">]><b>&p;</b>",
                       BOND_STORE_ERROR_SYNTAX, "DOCTYPE");
}

static void
test_large_and_deep (Sample *sample, gconstpointer data)
{
  g_autoptr (GString) text = g_string_new ("<survey x='");
  gsize at;

  at = text->len;
  g_string_set_size (text, at + 60 * 1024 * 1024);
  memset (text->str + at, 'x', 60 * 1024 * 1024);
  g_string_append (text, "'/>");
  assert_refused (sample, text->str, text->len, BOND_STORE_ERROR_SYNTAX, "1 MB");

  g_string_assign (text, SURVEY_HEAD);
  for (int i = 0; i < 200000; i++)
    g_string_append (text, "<a>");
  for (int i = 0; i < 200000; i++)
    g_string_append (text, "</a>");
  g_string_append (text, "</survey>");
  assert_refused (sample, text->str, text->len, BOND_STORE_ERROR_SYNTAX, ":1: ");

  g_string_assign (text, "<survey");
  for (int i = 0; i < 50000; i++)
    g_string_append_printf (text, " a%d='%d'", i, i);
  g_string_append (text, "/>");
  assert_refused (sample, text->str, text->len, BOND_STORE_ERROR_SYNTAX, "too many attributes");

  g_string_assign (text, SURVEY_HEAD);
  at = text->len;
  g_string_set_size (text, at + 11 * 1024 * 1024);
  memset (text->str + at, 'x', 11 * 1024 * 1024);
  g_string_append (text, "</survey>");
  assert_refused (sample, text->str, text->len, BOND_STORE_ERROR_SYNTAX, ":1: ");
}

/* Other encodings could hide a tag from the look before the parser; only UTF-8 is read. */
static void
test_encodings (Sample *sample, gconstpointer data)
{
  const char utf16[] = "\xff\xfe<\0s\0/\0>\0";

  assert_refused (sample, utf16, sizeof utf16 - 1, BOND_STORE_ERROR_SYNTAX, "not XML");
  assert_refused (sample, "<\0s\0/\0>\0", 8, BOND_STORE_ERROR_SYNTAX, "NUL");
  assert_text_refused (sample, "<?xml version=\"1.0\" encoding=\"ISO-8859-1\"?>\n<survey x=\"\xe9\"/>",
                       BOND_STORE_ERROR_SYNTAX, ":2: ");
}

static void
assert_path_refused (const char *path, BondSource *source, const char *word)
{
  g_autoptr (GError) error = NULL;
  g_autoptr (BondSurveyFile) file = bond_survey_file_open (path, BOND_OPEN_WRITE, source, "", NULL, &error);

  g_assert_null (file);
  g_assert_error (error, BOND_STORE_ERROR, BOND_STORE_ERROR_READ);
  g_test_message ("%s", error->message);
  g_assert_nonnull (strstr (error->message, path));
  g_assert_nonnull (strstr (error->message, word));
}

static void
test_no_file (Sample *sample, gconstpointer data)
{
  g_autofree char *pipe_path = g_build_filename (sample->folder, "pipe", NULL);

  assert_path_refused (sample->path, sample->source, "no such file");
  assert_path_refused (sample->folder, sample->source, "folder");
  /* A pipe nobody writes to must not hold the program. */
  g_assert_cmpint (mkfifo (pipe_path, 0600), ==, 0);
  assert_path_refused (pipe_path, sample->source, "cannot be read");
  assert_path_refused ("/dev/zero", sample->source, "cannot be read");
}

/* Root may read everything, so root becomes nobody for a moment. */
static void
test_unreadable (Sample *sample, gconstpointer data)
{
  const uid_t me = geteuid ();

  sample_write (sample->path, "<a/>", 4);
  g_assert_cmpint (g_chmod (sample->path, 0), ==, 0);
  g_assert_cmpint (g_chmod (sample->folder, 0755), ==, 0);
  if (me == 0)
    g_assert_cmpint (seteuid (65534), ==, 0);
  assert_path_refused (sample->path, sample->source, "may not read");
  g_assert_cmpint (seteuid (me), ==, 0);
}

/* ---- well formed, fits the schema, makes no sense ---- */

static void
make_survey (Sample *sample)
{
  g_autoptr (BondSurveyFile) file = sample_create (sample, 3);

  sample_measure (file, 3, 3);
  sample_entry_of_every_kind (file);
  g_assert_true (bond_survey_file_close (file, NULL));
}

/* @from → @to in a good survey: refused with a line. */
static void
assert_no_sense (Sample *sample, const char *from, const char *to, const char *word)
{
  g_autofree char *good = NULL;
  g_autoptr (GError) error = NULL;
  g_autoptr (BondSurveyFile) file = NULL;
  g_autofree char *place = g_strconcat (sample->path, ":", NULL);
  gsize length;

  good = sample_read (sample->path, &length);
  sample_replace (sample->path, from, to);
  file = bond_survey_file_open (sample->path, BOND_OPEN_READ, sample->source, NULL, NULL, &error);
  g_assert_null (file);
  g_assert_nonnull (error);
  g_test_message ("%s", error->message);
  g_assert_true (g_str_has_prefix (error->message, place));
  g_assert_true (g_ascii_isdigit (error->message[strlen (place)]));
  g_assert_nonnull (strstr (error->message, word));
  sample_write (sample->path, good, length);
}

static void
test_no_sense (Sample *sample, gconstpointer data)
{
  make_survey (sample);
  assert_no_sense (sample, "nohm=\"1000000\"", "nohm=\"NaN\"", "NaN");
  assert_no_sense (sample, "nohm=\"1000000\"", "nohm=\"INF\"", "INF");
  assert_no_sense (sample, "nohm=\"1000000\"", "nohm=\"1e6\"", "1e6");
  assert_no_sense (sample, "nohm=\"1000000\"", "nohm=\"9223372036854775808\"", "nohm");
  assert_no_sense (sample, "value=\"2.5\"", "value=\"-2.5\"", "-2.5");
  assert_no_sense (sample, "value=\"2.5\"", "value=\"0\"", "0");
  assert_no_sense (sample, "value=\"2.5\"", "value=\"NaN\"", "NaN");
  assert_no_sense (sample, "value=\"2.5\"", "value=\"INF\"", "INF");
  assert_no_sense (sample, "sta=\"759.225\"", "sta=\"NaN\"", "NaN");
  assert_no_sense (sample, "kind=\"reading\"", "kind=\"guess\"", "guess");
  assert_no_sense (sample, "kind=\"reading\"", "kind=\"void\"", "void");
  assert_no_sense (sample, "kind=\"void\"", "kind=\"rework\"", "rework");
  assert_no_sense (sample, "kind=\"void\"", "kind=\"correct\"", "correct");
  assert_no_sense (sample, "kind=\"void\"", "kind=\"create\"", "create");
  assert_no_sense (sample, "zone=\"541\"", "zone=\"\"", "zone");
  assert_no_sense (sample, " zone=\"541\"", "", "zone");
  assert_no_sense (sample, "-1\" t=\"1\"", "-1\" t=\"0\"", "0");
  assert_no_sense (sample, "-1\" t=\"1\"", "-1\" t=\"9223372036854775807\"", "9223372036854775807");
  assert_no_sense (sample, "</survey>", "<signatures><a xmlns=\"urn:a\"/></signatures></survey>", "signatures");
  assert_no_sense (sample, "direction=\"forward\"", "direction=\"sideways\"", "sideways");
}

static void
test_ids_that_do_not_hold (Sample *sample, gconstpointer data)
{
  g_autofree char *bytes = NULL;
  g_autofree char *sitting = NULL;
  g_autofree char *twice = NULL;
  gsize length;

  make_survey (sample);
  assert_no_sense (sample, "-2\" t=\"2\"", "-1\" t=\"2\"", "twice");
  assert_no_sense (sample, "why=\"other\"", "why=\"\"", "why");
  assert_no_sense (sample, " ref=\"s-00000000000000000000000000000002-",
                   " ref=\"s-00000000000000000000000000000002-9999", "not in the survey");
  bytes = sample_read (sample->path, &length);
  sitting = g_strndup (strstr (bytes, "<sitting "), strstr (bytes, "</sitting>\n") + 11 - strstr (bytes, "<sitting "));
  twice = g_strconcat (sitting, sitting, NULL);
  assert_no_sense (sample, sitting, twice, "000000000000000000000000000002");
}

/* A zone the airframe does not have is told, with its line. */
static void
test_missing_zone (Sample *sample, gconstpointer data)
{
  g_autoptr (BondSurveyFile) file = sample_create (sample, 1);
  g_autoptr (BondAirframe) airframe = bond_airframe_new ("generic-jet-transport", 1, "Generic twin jet");
  g_autoptr (GPtrArray) problems = g_ptr_array_new_with_free_func ((GDestroyNotify)bond_problem_free);
  g_autofree char *text = NULL;

  g_assert_true (
      bond_airframe_add_zone (airframe, bond_zone_new ("500", "Left wing", BOND_ZONE_MAJOR, BOND_SIDE_LEFT), NULL));
  sample_record (file, bond_entry_adopt_new (BOND_ADOPT_AIRFRAME, airframe));
  g_assert_true (bond_survey_file_close (file, NULL));
  g_assert_false (bond_survey_file_validate (sample->path, problems));
  g_assert_cmpuint (problems->len, ==, 1);
  text = bond_problem_to_string (problems->pdata[0]);
  g_test_message ("%s", text);
  g_assert_nonnull (strstr (text, ":8: point 541-J01 names zone 541"));
}

/* The same care for the registers: a limit set, as a file of its own. */
static void
test_registers (Sample *sample, gconstpointer data)
{
  static const char *const files[] = {
    "<limit-set xmlns=\"urn:bondwright:limit-set\" format=\"9\" program=\"3.0\"/>",
    "<limit-set xmlns=\"urn:bondwright:limit-set\" format=\"1\"/>",
    "<!DOCTYPE a><limit-set xmlns=\"urn:bondwright:limit-set\"/>",
    "",
    "<survey/>",
  };

  for (guint i = 0; i < G_N_ELEMENTS (files); i++)
    {
      g_autoptr (GPtrArray) problems = g_ptr_array_new_with_free_func ((GDestroyNotify)bond_problem_free);
      g_autoptr (GError) error = NULL;
      BondAdoptKind what;

      sample_write (sample->path, files[i], strlen (files[i]));
      g_assert_null (bond_register_load (sample->path, &what, problems, &error));
      g_assert_nonnull (error);
      g_assert_nonnull (strstr (error->message, sample->path));
    }
}

static void
test_register_size_cap (Sample *sample, gconstpointer data)
{
  g_autoptr (GString) text = g_string_new ("<person xmlns=\"urn:bondwright:person\">");
  g_autoptr (GError) error = NULL;
  gsize at = text->len;

  g_string_set_size (text, at + 17 * 1024 * 1024);
  memset (text->str + at, '\n', 17 * 1024 * 1024);
  g_string_append (text, "</person>");
  sample_write (sample->path, text->str, text->len);
  g_assert_null (bond_xml_read_file (sample->path, "person", NULL, &error));
  g_assert_error (error, BOND_STORE_ERROR, BOND_STORE_ERROR_SYNTAX);
  g_assert_nonnull (strstr (error->message, "16 MB"));
}

/* Random bytes in the place of others: whatever comes of it, it is an error or a survey, never a crash. */
static void
test_noise (Sample *sample, gconstpointer data)
{
  g_autofree char *good = NULL;
  gsize length;

  make_survey (sample);
  good = sample_read (sample->path, &length);
  for (int round = 0; round < 200; round++)
    {
      g_autofree char *bad = g_memdup2 (good, length);
      g_autoptr (GPtrArray) problems = g_ptr_array_new_with_free_func ((GDestroyNotify)bond_problem_free);
      int n = g_test_rand_int_range (1, 50);

      for (int i = 0; i < n; i++)
        bad[g_test_rand_int_range (0, (gint32)length)] = (char)g_test_rand_int_range (1, 256);
      sample_write (sample->path, bad, (gsize)g_test_rand_int_range (1, (gint32)length));
      bond_survey_file_validate (sample->path, problems);
    }
}

#define CASE(name, function)                                                                                           \
  g_test_add ("/store/bad-input/" name, Sample, NULL, sample_set_up, function, sample_tear_down)

int
main (int argc, char **argv)
{
  g_test_init (&argc, &argv, NULL);
  bond_xml_init ();
  CASE ("not-xml", test_not_xml);
  CASE ("malformed", test_malformed);
  CASE ("schema", test_schema);
  CASE ("newer-format", test_newer_format);
  CASE ("document-types", test_document_types);
  CASE ("large-and-deep", test_large_and_deep);
  CASE ("encodings", test_encodings);
  CASE ("no-file", test_no_file);
  CASE ("unreadable", test_unreadable);
  CASE ("no-sense", test_no_sense);
  CASE ("ids-that-do-not-hold", test_ids_that_do_not_hold);
  CASE ("missing-zone", test_missing_zone);
  CASE ("registers", test_registers);
  CASE ("register-size-cap", test_register_size_cap);
  CASE ("noise", test_noise);
  return g_test_run ();
}
