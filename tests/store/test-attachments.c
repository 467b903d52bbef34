/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * Photos and scans: durable before their entry is, carried over by every save, and
 * any change to them found.
 */
#include "sample.h"

#include "store/attachments.h"
#include "store/journal.h"

#include <glib/gstdio.h>
#include <string.h>

/* Bytes of all values, longer than one piece of base64. */
static GBytes *
make_photo (gsize length, guint8 seed)
{
  guint8 *bytes = g_malloc (length);

  for (gsize i = 0; i < length; i++)
    bytes[i] = (guint8)(i * 7 + i / 251 + seed);
  return g_bytes_new_take (bytes, length);
}

static char *
attach (BondSurveyFile *file, GBytes *photo, const char *name)
{
  g_autoptr (GError) error = NULL;
  char *sha256 = bond_survey_file_add_attachment (file, photo, name, "image/jpeg", &error);
  BondEntry *entry = bond_entry_new (BOND_ENTRY_ATTACH);

  g_assert_no_error (error);
  entry->attach
      = (BondAttach){ g_strdup (sha256), g_strdup (name), g_strdup ("image/jpeg"), (gint64)g_bytes_get_size (photo) };
  sample_record (file, entry);
  return sha256;
}

static void
assert_attached (BondSurveyFile *file, const char *sha256, GBytes *photo)
{
  g_autoptr (GError) error = NULL;
  g_autoptr (GBytes) bytes = bond_survey_file_get_attachment (file, sha256, &error);

  g_assert_no_error (error);
  g_assert_true (g_bytes_equal (bytes, photo));
}

static char *
side_file (const Sample *sample, const char *sha256)
{
  g_autofree char *name = g_strdup_printf (".sample.bondsurvey.%s.attachment", sha256);

  return g_build_filename (sample->folder, name, NULL);
}

static void
test_round_trip (Sample *sample, gconstpointer data)
{
  g_autoptr (BondSurveyFile) file = sample_create (sample, 1);
  g_autoptr (GBytes) one = make_photo (200000, 1);
  g_autoptr (GBytes) two = make_photo (48 * 1024, 2);
  g_autoptr (GBytes) three = make_photo (1, 3);
  g_autofree char *sha1 = attach (file, one, "überholt \"1\".jpg");
  g_autofree char *sha2 = attach (file, two, "two.jpg");
  g_autofree char *sha3 = attach (file, three, "three.jpg");

  assert_attached (file, sha1, one);
  g_assert_true (bond_survey_file_close (file, NULL));
  g_clear_object (&file);
  sample_assert_valid (sample->path);
  /* Through a second sitting they are copied. */
  file = sample_open (sample);
  sample_measure (file, 1, 1);
  g_assert_true (bond_survey_file_close (file, NULL));
  g_clear_object (&file);
  sample_assert_valid (sample->path);
  file = sample_open (sample);
  assert_attached (file, sha1, one);
  assert_attached (file, sha2, two);
  assert_attached (file, sha3, three);
}

static void
test_pieces_are_small (Sample *sample, gconstpointer data)
{
  g_autoptr (BondSurveyFile) file = sample_create (sample, 1);
  g_autoptr (GBytes) photo = make_photo (300000, 1);
  g_autofree char *sha256 = attach (file, photo, "p.jpg");
  g_autofree char *bytes = NULL;
  gsize length;

  g_assert_nonnull (sha256);
  g_assert_true (bond_survey_file_close (file, NULL));
  bytes = sample_read (sample->path, &length);
  for (char *at = bytes; (at = strstr (at, "<b64>")) != NULL; at++)
    g_assert_cmpuint (strstr (at, "</b64>") - at - 5, <=, 65536);
}

/* Its entry is confirmed, the program stops, the file was not saved: the photo is not lost. */
static void
test_crash_before_the_save (Sample *sample, gconstpointer data)
{
  g_autoptr (BondSurveyFile) file = sample_create (sample, 1);
  g_autoptr (GBytes) photo = make_photo (5000, 1);
  g_autofree char *sha256 = attach (file, photo, "p.jpg");
  g_autofree char *side = side_file (sample, sha256);
  g_autofree char *journal_path = bond_journal_path (sample->path);
  g_autofree char *journal = NULL;
  g_autofree char *bytes = NULL;
  Sample crashed;
  gsize length;

  g_assert_true (sample_exists (side));
  sample_set_up (&crashed, NULL);
  bytes = sample_read (sample->path, &length);
  sample_write (crashed.path, bytes, length);
  journal = sample_read (journal_path, &length);
  g_free (journal_path);
  journal_path = bond_journal_path (crashed.path);
  sample_write (journal_path, journal, length);
  g_free (side);
  side = side_file (&crashed, sha256);
  sample_write (side, g_bytes_get_data (photo, NULL), g_bytes_get_size (photo));

  g_clear_object (&file);
  file = sample_open (&crashed);
  assert_attached (file, sha256, photo);
  g_assert_true (bond_survey_file_close (file, NULL));
  g_assert_false (sample_exists (side));
  sample_assert_valid (crashed.path);
  g_clear_object (&file);
  sample_tear_down (&crashed, NULL);
}

static void
test_limits (Sample *sample, gconstpointer data)
{
  g_autoptr (BondSurveyFile) file = sample_create (sample, 1);
  g_autoptr (GBytes) large = make_photo (BOND_ATTACHMENT_MAX + 1, 1);
  g_autoptr (GBytes) nothing = g_bytes_new_static ("", 0);
  g_autoptr (GError) error = NULL;

  g_assert_null (bond_survey_file_add_attachment (file, large, "large.jpg", "image/jpeg", &error));
  g_assert_error (error, BOND_STORE_ERROR, BOND_STORE_ERROR_WRITE);
  g_assert_nonnull (strstr (error->message, "12 MB"));
  g_clear_error (&error);
  g_assert_null (bond_survey_file_add_attachment (file, nothing, "nothing.jpg", "image/jpeg", &error));
  g_assert_error (error, BOND_STORE_ERROR, BOND_STORE_ERROR_WRITE);
}

static void
assert_change_is_found (Sample *sample, const char *from, const char *to)
{
  g_autoptr (GPtrArray) problems = g_ptr_array_new_with_free_func ((GDestroyNotify)bond_problem_free);
  g_autofree char *before = NULL;
  gsize length;

  before = sample_read (sample->path, &length);
  sample_replace (sample->path, from, to);
  g_assert_false (bond_survey_file_validate (sample->path, problems));
  for (guint i = 0; i < problems->len; i++)
    {
      g_autofree char *text = bond_problem_to_string (g_ptr_array_index (problems, i));

      g_test_message ("%s", text);
    }
  g_assert_cmpuint (problems->len, >, 0);
  sample_write (sample->path, before, length);
}

/* "AQ==" and "AR==" are the same byte: the text is not the one that was written, so it is a change. */
static void
test_changes_are_found (Sample *sample, gconstpointer data)
{
  g_autoptr (BondSurveyFile) file = sample_create (sample, 1);
  g_autoptr (GBytes) photo = g_bytes_new_static ("\x01", 1);
  g_autofree char *sha256 = attach (file, photo, "p.jpg");
  g_autofree char *name = NULL;

  g_assert_true (bond_survey_file_close (file, NULL));
  assert_change_is_found (sample, "<b64>AQ==</b64>", "<b64>AR==</b64>");
  assert_change_is_found (sample, "<b64>AQ==</b64>", "<b64>Ag==</b64>");
  assert_change_is_found (sample, "<b64>AQ==</b64>", "<b64>A Q==</b64>");
  assert_change_is_found (sample, "<b64>AQ==</b64>", "<b64></b64>");
  name = g_strdup_printf ("<file sha256=\"%s\" name=\"p.jpg\"", sha256);
  assert_change_is_found (
      sample, name, "<file sha256=\"0000000000000000000000000000000000000000000000000000000000000000\" name=\"p.jpg\"");
  assert_change_is_found (sample, "size=\"1\"><b64>", "size=\"2\"><b64>");
  assert_change_is_found (sample, "type=\"image/jpeg\" size=\"1\"><b64>", "type=\"image/png\" size=\"1\"><b64>");
}

/* Taken out of the file: its entry says that it was there. */
static void
test_removed_is_found (Sample *sample, gconstpointer data)
{
  g_autoptr (BondSurveyFile) file = sample_create (sample, 1);
  g_autoptr (GBytes) photo = g_bytes_new_static ("\x01", 1);
  g_autofree char *sha256 = attach (file, photo, "p.jpg");
  g_autoptr (GPtrArray) problems = g_ptr_array_new_with_free_func ((GDestroyNotify)bond_problem_free);
  g_autofree char *bytes = NULL;
  g_autofree char *element = NULL;
  const char *start;
  gsize length;

  g_assert_nonnull (sha256);
  g_assert_true (bond_survey_file_close (file, NULL));
  g_clear_object (&file);
  bytes = sample_read (sample->path, &length);
  start = strstr (bytes, "<attachments>");
  element = g_strndup (start, strstr (start, "</attachments>") + strlen ("</attachments>") - start);
  sample_replace (sample->path, element, "");
  file = bond_survey_file_open (sample->path, BOND_OPEN_WRITE, sample->source, "", problems, NULL);
  g_assert_nonnull (file);
  g_assert_true (bond_survey_file_is_broken (file));
  g_assert_nonnull (strstr (bond_survey_get_read_only (bond_survey_file_get_survey (file)), "p.jpg"));
  g_assert_cmpuint (problems->len, ==, 1);
  g_assert_cmpint (((BondProblem *)problems->pdata[0])->line, >, 0);
}

/* The save that failed took the photo over already; the one that succeeds clears the copy beside the file. */
static void
test_side_file_goes_after_a_failed_save (Sample *sample, gconstpointer data)
{
  g_autoptr (BondSurveyFile) file = sample_create (sample, 1);
  g_autoptr (GBytes) photo = make_photo (5000, 1);
  g_autofree char *sha256 = attach (file, photo, "p.jpg");
  g_autofree char *side = side_file (sample, sha256);
  g_autofree char *blocked = g_build_filename (sample->folder, ".sample.bondsurvey.saving", NULL);

  g_assert_cmpint (g_mkdir (blocked, 0700), ==, 0);
  g_assert_false (bond_survey_file_save (file, NULL));
  g_assert_true (sample_exists (side));
  g_assert_cmpint (g_rmdir (blocked), ==, 0);
  g_assert_true (bond_survey_file_save (file, NULL));
  g_assert_false (sample_exists (side));
}

#define CASE(name, function)                                                                                           \
  g_test_add ("/store/attachments/" name, Sample, NULL, sample_set_up, function, sample_tear_down)

int
main (int argc, char **argv)
{
  g_test_init (&argc, &argv, NULL);
  bond_xml_init ();
  CASE ("round-trip", test_round_trip);
  CASE ("pieces-are-small", test_pieces_are_small);
  CASE ("crash-before-the-save", test_crash_before_the_save);
  CASE ("limits", test_limits);
  CASE ("removed-is-found", test_removed_is_found);
  CASE ("side-file-goes", test_side_file_goes_after_a_failed_save);
  CASE ("changes-are-found", test_changes_are_found);
  return g_test_run ();
}
