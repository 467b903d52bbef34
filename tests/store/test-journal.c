/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * What a crash can leave behind, at every byte, and what a failing disk may do to an
 * append: nothing confirmed is lost, nothing unconfirmed is shown as recorded.
 */
#include "sample.h"

#include "store/journal.h"
#include "store/survey-file-private.h"

#include <errno.h>
#include <fcntl.h>
#include <glib/gstdio.h>
#include <string.h>

static GPtrArray *
new_problems (void)
{
  return g_ptr_array_new_with_free_func ((GDestroyNotify)bond_problem_free);
}

static guint
count_entries (BondSurveyFile *file)
{
  return bond_survey_get_entries (bond_survey_file_get_survey (file))->len;
}

/* A program that stopped without closing: file and journal as they stand on the disk, taken to a second folder. */
static void
take_after_crash (const Sample *from, Sample *to, gsize *journal_length)
{
  g_autofree char *journal_from = bond_journal_path (from->path);
  g_autofree char *journal_to = NULL;
  g_autofree char *bytes = NULL;
  g_autofree char *journal = NULL;
  gsize length;

  sample_set_up (to, NULL);
  journal_to = bond_journal_path (to->path);
  bytes = sample_read (from->path, &length);
  sample_write (to->path, bytes, length);
  journal = sample_read (journal_from, journal_length);
  sample_write (journal_to, journal, *journal_length);
}

static void
test_crash_loses_nothing (Sample *sample, gconstpointer data)
{
  g_autoptr (BondSurveyFile) file = sample_create (sample, 2);
  g_autoptr (BondSurveyFile) again = NULL;
  g_autofree char *journal = NULL;
  Sample crashed;
  gsize length;

  sample_measure (file, 5, 2);
  take_after_crash (sample, &crashed, &length);
  journal = bond_journal_path (crashed.path);
  again = sample_open (&crashed);
  g_assert_cmpuint (count_entries (again), ==, count_entries (file));
  /* Absorbed at once; a sitting is never continued. */
  g_assert_false (sample_exists (journal));
  sample_measure (again, 1, 2);
  g_assert_cmpstr (bond_survey_get_sitting (bond_survey_file_get_survey (again)), !=,
                   bond_survey_get_sitting (bond_survey_file_get_survey (file)));
  g_assert_true (bond_survey_file_close (again, NULL));
  sample_assert_valid (crashed.path);
  g_clear_object (&again);
  sample_tear_down (&crashed, NULL);
}

/* The kill came between the rename and the removal: entries in both are taken once. */
static void
test_journal_already_absorbed (Sample *sample, gconstpointer data)
{
  g_autoptr (BondSurveyFile) file = sample_create (sample, 2);
  g_autoptr (BondSurveyFile) again = NULL;
  g_autofree char *journal = bond_journal_path (sample->path);
  g_autofree char *bytes = NULL;
  guint n;
  gsize length;

  sample_measure (file, 5, 2);
  n = count_entries (file);
  bytes = sample_read (journal, &length);
  g_assert_true (bond_survey_file_close (file, NULL));
  sample_write (journal, bytes, length);
  again = sample_open (sample);
  g_assert_cmpuint (count_entries (again), ==, n);
  g_assert_false (sample_exists (journal));
  sample_assert_valid (sample->path);
}

/* After a save the journal begins anew in the same sitting. */
static void
test_journal_goes_on_after_a_save (Sample *sample, gconstpointer data)
{
  g_autoptr (BondSurveyFile) file = sample_create (sample, 2);
  g_autoptr (BondSurveyFile) again = NULL;
  Sample crashed;
  gsize length;

  sample_measure (file, 3, 2);
  g_assert_true (bond_survey_file_save (file, NULL));
  sample_measure (file, 4, 2);
  take_after_crash (sample, &crashed, &length);
  again = sample_open (&crashed);
  g_assert_cmpuint (count_entries (again), ==, count_entries (file));
  g_assert_true (bond_survey_file_close (again, NULL));
  sample_assert_valid (crashed.path);
  g_clear_object (&again);
  sample_tear_down (&crashed, NULL);
}

static guint
complete_entries (const char *journal, gsize length)
{
  guint lines = 0;

  for (gsize i = 0; i < length; i++)
    lines += journal[i] == '\n';
  return lines < 2 ? 0 : lines - 2;
}

/* Cut off at any byte: every entry whose line is whole is there, the torn one is dropped with a word. */
static void
test_cut_off_at_every_byte (Sample *sample, gconstpointer data)
{
  g_autoptr (BondSurveyFile) file = sample_create (sample, 2);
  g_autofree char *journal_path = bond_journal_path (sample->path);
  g_autofree char *journal = NULL;
  gsize length;

  g_assert_true (bond_survey_file_save (file, NULL));
  sample_measure (file, 2, 2);
  journal = sample_read (journal_path, &length);
  for (gsize cut = 0; cut < length; cut += 1 + cut % 3)
    {
      g_autoptr (GPtrArray) problems = new_problems ();
      g_autoptr (BondSurveyFile) reader = NULL;
      g_autoptr (GError) error = NULL;
      gboolean torn = cut > 0 && journal[cut - 1] != '\n';

      sample_write (journal_path, journal, cut);
      reader = bond_survey_file_open (sample->path, BOND_OPEN_READ, sample->source, NULL, problems, &error);
      g_assert_no_error (error);
      g_assert_cmpuint (count_entries (reader), ==, 6 + complete_entries (journal, cut));
      g_assert_cmpuint (problems->len, ==, torn ? 1 : 0);
      if (torn)
        g_assert_nonnull (strstr (((BondProblem *)g_ptr_array_index (problems, 0))->message, "cut off"));
    }
  sample_write (journal_path, journal, length);
}

/* The same, opened for writing: what is left is a survey that verifies and can be written to. */
static void
test_cut_off_and_written_to (Sample *sample, gconstpointer data)
{
  g_autoptr (BondSurveyFile) file = sample_create (sample, 1);
  g_autofree char *path = bond_journal_path (sample->path);
  g_autofree char *journal = sample_read (path, &(gsize){ 0 });
  gsize length = strlen (journal);

  g_assert_nonnull (file);
  for (gsize cut = 0; cut < length; cut += 1 + length / 37)
    {
      g_autoptr (GPtrArray) problems = new_problems ();
      g_autoptr (BondSurveyFile) again = NULL;
      Sample crashed;
      gsize n;
      g_autofree char *crashed_journal = NULL;

      take_after_crash (sample, &crashed, &n);
      crashed_journal = bond_journal_path (crashed.path);
      sample_write (crashed_journal, journal, cut);
      again = bond_survey_file_open (crashed.path, BOND_OPEN_WRITE, crashed.source, "", problems, NULL);
      g_assert_nonnull (again);
      g_assert_cmpstr (bond_survey_get_read_only (bond_survey_file_get_survey (again)), ==, NULL);
      g_assert_cmpuint (count_entries (again), ==, complete_entries (journal, cut));
      g_assert_false (sample_exists (crashed_journal));
      g_assert_true (bond_survey_file_close (again, NULL));
      g_ptr_array_set_size (problems, 0);
      g_assert_true (bond_survey_file_validate (crashed.path, problems));
      g_clear_object (&again);
      sample_tear_down (&crashed, NULL);
    }
}

/* Some file systems leave zero bytes at the end after a power cut. */
static void
test_zero_bytes_at_the_end (Sample *sample, gconstpointer data)
{
  g_autoptr (BondSurveyFile) file = sample_create (sample, 2);
  g_autoptr (GPtrArray) problems = new_problems ();
  g_autoptr (BondSurveyFile) again = NULL;
  g_autofree char *path = NULL;
  g_autofree char *journal = NULL;
  g_autofree char *bytes = NULL;
  Sample crashed;
  gsize length;

  sample_measure (file, 2, 2);
  take_after_crash (sample, &crashed, &length);
  path = bond_journal_path (crashed.path);
  bytes = sample_read (path, &length);
  journal = g_malloc0 (length + 4096);
  memcpy (journal, bytes, length);
  sample_write (path, journal, length + 4096);
  again = bond_survey_file_open (crashed.path, BOND_OPEN_WRITE, sample->source, "", problems, NULL);
  g_assert_nonnull (again);
  g_assert_cmpuint (count_entries (again), ==, count_entries (file));
  g_assert_cmpuint (problems->len, ==, 1);
  g_clear_object (&again);
  sample_tear_down (&crashed, NULL);
}

/* Damage before the last line is a difference in the record: read-only, nothing taken away. */
static void
test_damage_in_the_middle (Sample *sample, gconstpointer data)
{
  g_autoptr (BondSurveyFile) file = sample_create (sample, 2);
  g_autoptr (GPtrArray) problems = new_problems ();
  g_autoptr (BondSurveyFile) again = NULL;
  g_autofree char *path = NULL;
  Sample crashed;
  gsize length;

  sample_measure (file, 4, 2);
  take_after_crash (sample, &crashed, &length);
  path = bond_journal_path (crashed.path);
  sample_replace (path, "nohm=\"1010000\"", "nohm=\"1010001\"");
  again = bond_survey_file_open (crashed.path, BOND_OPEN_WRITE, sample->source, "", problems, NULL);
  g_assert_nonnull (again);
  g_assert_nonnull (strstr (bond_survey_get_read_only (bond_survey_file_get_survey (again)), "541-J02"));
  g_assert_true (bond_survey_file_close (again, NULL));
  g_assert_true (sample_exists (path));
  g_clear_object (&again);
  sample_tear_down (&crashed, NULL);
}

/* The last line whole but wrong: dropped with a word, and the journal is kept for whoever wants to look. */
static void
test_damaged_last_line (Sample *sample, gconstpointer data)
{
  g_autoptr (BondSurveyFile) file = sample_create (sample, 2);
  g_autoptr (GPtrArray) problems = new_problems ();
  g_autoptr (BondSurveyFile) again = NULL;
  g_autofree char *path = NULL;
  g_autofree char *damaged = NULL;
  Sample crashed;
  gsize length;

  sample_measure (file, 2, 2);
  take_after_crash (sample, &crashed, &length);
  path = bond_journal_path (crashed.path);
  damaged = g_strconcat (path, ".damaged", NULL);
  sample_replace (path, "nohm=\"1010000\"", "nohm=\"1010001\"");
  again = bond_survey_file_open (crashed.path, BOND_OPEN_WRITE, sample->source, "", problems, NULL);
  g_assert_nonnull (again);
  g_assert_cmpstr (bond_survey_get_read_only (bond_survey_file_get_survey (again)), ==, NULL);
  g_assert_cmpuint (count_entries (again), ==, count_entries (file) - 1);
  g_assert_cmpuint (problems->len, ==, 1);
  g_assert_true (sample_exists (damaged));
  g_clear_object (&again);
  sample_tear_down (&crashed, NULL);
}

static void
assert_refused (Sample *sample, const char *from, const char *to, BondStoreError code)
{
  g_autoptr (BondSurveyFile) file = NULL;
  g_autoptr (GError) error = NULL;
  g_autofree char *path = bond_journal_path (sample->path);

  sample_replace (path, from, to);
  file = bond_survey_file_open (sample->path, BOND_OPEN_WRITE, sample->source, "", NULL, &error);
  g_assert_null (file);
  g_assert_error (error, BOND_STORE_ERROR, (int)code);
  g_test_message ("%s", error->message);
  g_assert_nonnull (strstr (error->message, path));
  g_assert_true (sample_exists (path));
}

static void
test_foreign_and_newer_journal (Sample *sample, gconstpointer data)
{
  g_autoptr (BondSurveyFile) file = sample_create (sample, 2);
  Sample crashed;
  gsize length;

  sample_measure (file, 2, 2);
  take_after_crash (sample, &crashed, &length);
  assert_refused (&crashed, "survey=\"000", "survey=\"fff", BOND_STORE_ERROR_CHAIN);
  sample_tear_down (&crashed, NULL);
  take_after_crash (sample, &crashed, &length);
  assert_refused (&crashed, "format=\"1\"", "format=\"7\"", BOND_STORE_ERROR_NEWER);
  sample_tear_down (&crashed, NULL);
}

/* ---- a disk that fails ---- */

typedef struct
{
  int open_error, write_error, sync_error;
  gsize room; /* bytes that still fit before write_error */
} BadDisk;

static int
bad_open_cb (const char *path, int flags, mode_t mode, gpointer data)
{
  const BadDisk *bad = data;

  if (bad->open_error == 0 || (flags & (O_WRONLY | O_RDWR)) == 0)
    return bond_disk_system.open (path, flags, mode, NULL);
  errno = bad->open_error;
  return -1;
}

static gssize
bad_write_cb (int fd, const void *bytes, gsize length, gpointer data)
{
  BadDisk *bad = data;

  if (bad->write_error == 0)
    return bond_disk_system.write (fd, bytes, length, NULL);
  if (bad->room == 0)
    {
      errno = bad->write_error;
      return -1;
    }
  length = MIN (length, bad->room);
  bad->room -= length;
  return bond_disk_system.write (fd, bytes, length, NULL);
}

static int
bad_sync_cb (int fd, gpointer data)
{
  const BadDisk *bad = data;

  if (bad->sync_error == 0)
    return bond_disk_system.sync (fd, NULL);
  errno = bad->sync_error;
  return -1;
}

static void
assert_not_recorded (BondSurveyFile *file, const char *word)
{
  BondSurvey *survey = bond_survey_file_get_survey (file);
  g_autoptr (GError) error = NULL;
  guint before = count_entries (file);

  g_assert_false (bond_survey_record_now (survey, sample_reading (1, "1.99", 1990000), &error));
  g_test_message ("%s", error->message);
  g_assert_nonnull (strstr (error->message, "Not recorded"));
  g_assert_nonnull (strstr (error->message, word));
  g_assert_cmpuint (count_entries (file), ==, before);
}

/* Nothing is applied while the disk is bad; when it is good again all goes on, and no half line is left. */
static void
check_bad_disk (Sample *sample, BadDisk bad, const char *word)
{
  g_autoptr (BondSurveyFile) file = sample_create (sample, 2);
  BadDisk state = bad;
  const BondDisk disk = { bad_open_cb, bad_write_cb, bad_sync_cb, &state };
  g_autoptr (GPtrArray) problems = new_problems ();

  sample_measure (file, 3, 2);
  if (bad.open_error != 0)
    g_assert_true (bond_survey_file_save (file, NULL)); /* so that the next entry has to make a journal */
  bond_survey_file_set_disk (file, &disk);
  assert_not_recorded (file, word);
  assert_not_recorded (file, word);
  g_assert_true (bond_survey_file_validate (sample->path, problems));
  bond_survey_file_set_disk (file, &bond_disk_system);
  sample_measure (file, 2, 2);
  g_assert_true (bond_survey_file_close (file, NULL));
  g_assert_true (bond_survey_file_validate (sample->path, problems));
  g_clear_object (&file);
  file = sample_open (sample);
  g_assert_cmpuint (count_entries (file), ==, 6 + 5);
}

static void
test_full_disk (Sample *sample, gconstpointer data)
{
  check_bad_disk (sample, (BadDisk){ .write_error = ENOSPC }, "full");
}

static void
test_disk_full_in_the_line (Sample *sample, gconstpointer data)
{
  check_bad_disk (sample, (BadDisk){ .write_error = ENOSPC, .room = 100 }, "full");
}

static void
test_sync_fails (Sample *sample, gconstpointer data)
{
  check_bad_disk (sample, (BadDisk){ .sync_error = EIO }, "disk");
}

static void
test_read_only_place (Sample *sample, gconstpointer data)
{
  check_bad_disk (sample, (BadDisk){ .open_error = EROFS }, "read-only");
}

/* The second damaged journal does not take the place of the first, which may be the only copy. */
static void
test_damaged_are_all_kept (Sample *sample, gconstpointer data)
{
  g_autofree char *path = bond_journal_path (sample->path);
  g_autofree char *first = g_strconcat (path, ".damaged", NULL);
  g_autofree char *second = g_strconcat (path, ".damaged-2", NULL);
  BondJournal *journal = bond_journal_new (sample->path, "0", &bond_disk_system);
  g_autofree char *kept = NULL;
  gsize length;

  sample_write (path, "one", 3);
  bond_journal_absorbed (journal, TRUE);
  sample_write (path, "two", 3);
  bond_journal_absorbed (journal, TRUE);
  bond_journal_free (journal);
  kept = sample_read (first, &length);
  g_assert_cmpstr (kept, ==, "one");
  g_assert_true (sample_exists (second));
  g_assert_false (sample_exists (path));
}

#define CASE(name, function)                                                                                           \
  g_test_add ("/store/journal/" name, Sample, NULL, sample_set_up, function, sample_tear_down)

int
main (int argc, char **argv)
{
  g_test_init (&argc, &argv, NULL);
  bond_xml_init ();
  CASE ("crash-loses-nothing", test_crash_loses_nothing);
  CASE ("already-absorbed", test_journal_already_absorbed);
  CASE ("goes-on-after-a-save", test_journal_goes_on_after_a_save);
  CASE ("cut-off-at-every-byte", test_cut_off_at_every_byte);
  CASE ("cut-off-and-written-to", test_cut_off_and_written_to);
  CASE ("zero-bytes-at-the-end", test_zero_bytes_at_the_end);
  CASE ("damage-in-the-middle", test_damage_in_the_middle);
  CASE ("damaged-last-line", test_damaged_last_line);
  CASE ("damaged-are-all-kept", test_damaged_are_all_kept);
  CASE ("foreign-and-newer", test_foreign_and_newer_journal);
  CASE ("full-disk", test_full_disk);
  CASE ("disk-full-in-the-line", test_disk_full_in_the_line);
  CASE ("sync-fails", test_sync_fails);
  CASE ("read-only-place", test_read_only_place);
  return g_test_run ();
}
