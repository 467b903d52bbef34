/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * Whole saves and locks: durable replacement, backup, permissions, links, somebody
 * else's changes, two writers, a full disk.
 */
#include "sample.h"

#include "store/journal.h"
#include "store/lock.h"
#include "store/survey-file-private.h"

#include <errno.h>
#include <fcntl.h>
#include <glib/gstdio.h>
#include <string.h>
#include <sys/resource.h>
#include <sys/stat.h>
#include <unistd.h>

static char *
backup_of (const Sample *sample)
{
  return g_build_filename (sample->folder, ".sample.bondsurvey.backup", NULL);
}

static GPtrArray *
pieces_of (const char *text)
{
  GPtrArray *pieces = g_ptr_array_new_with_free_func ((GDestroyNotify)g_bytes_unref);

  g_ptr_array_add (pieces, g_bytes_new (text, strlen (text)));
  return pieces;
}

static void
assert_content (const char *path, const char *text)
{
  gsize length;
  g_autofree char *bytes = sample_read (path, &length);

  g_assert_cmpmem (bytes, length, text, strlen (text));
}

static void
test_replace (Sample *sample, gconstpointer data)
{
  g_autofree char *backup = backup_of (sample);
  g_autoptr (GPtrArray) one = pieces_of ("one");
  g_autoptr (GPtrArray) two = pieces_of ("two");
  g_autoptr (GPtrArray) three = pieces_of ("three");

  g_assert_true (bond_disk_replace (&bond_disk_system, sample->path, one, backup, NULL));
  g_assert_false (sample_exists (backup));
  g_assert_true (bond_disk_replace (&bond_disk_system, sample->path, two, backup, NULL));
  assert_content (sample->path, "two");
  assert_content (backup, "one");
  g_assert_true (bond_disk_replace (&bond_disk_system, sample->path, three, backup, NULL));
  assert_content (backup, "two");
}

static void
test_permissions_are_kept (Sample *sample, gconstpointer data)
{
  g_autoptr (GPtrArray) two = pieces_of ("two");
  struct stat info;

  sample_write (sample->path, "one", 3);
  g_assert_cmpint (chmod (sample->path, 0640), ==, 0);
  g_assert_true (bond_disk_replace (&bond_disk_system, sample->path, two, NULL, NULL));
  g_assert_cmpint (stat (sample->path, &info), ==, 0);
  g_assert_cmpint (info.st_mode & 07777, ==, 0640);
}

/* Saving through a link changes the file it points to and leaves the link. */
static void
test_link_stays_a_link (Sample *sample, gconstpointer data)
{
  g_autoptr (BondSurveyFile) file = sample_create (sample, 1);
  g_autofree char *link_path = g_build_filename (sample->folder, "link.bondsurvey", NULL);
  g_autofree char *journal = bond_journal_path (sample->path);

  g_assert_true (bond_survey_file_close (file, NULL));
  g_clear_object (&file);
  g_assert_cmpint (symlink ("sample.bondsurvey", link_path), ==, 0);
  file = bond_survey_file_open (link_path, BOND_OPEN_WRITE, sample->source, "", NULL, NULL);
  g_assert_nonnull (file);
  bond_survey_file_set_synchronous (file, TRUE);
  bond_survey_set_person (bond_survey_file_get_survey (file), "p-okafor");
  sample_measure (file, 1, 1);
  g_assert_true (sample_exists (journal));
  g_assert_true (bond_survey_file_close (file, NULL));
  g_assert_true (g_file_test (link_path, G_FILE_TEST_IS_SYMLINK));
  sample_assert_valid (sample->path);
  g_clear_object (&file);
  file = sample_open (sample);
  g_assert_cmpuint (bond_survey_get_entries (bond_survey_file_get_survey (file))->len, ==, 6);
}

/* The backup is the file as it was when it was opened, not as it was two seconds ago. */
static void
test_backup_is_from_before (Sample *sample, gconstpointer data)
{
  g_autoptr (BondSurveyFile) file = sample_create (sample, 1);
  g_autofree char *backup = backup_of (sample);
  g_autofree char *before = NULL;
  gsize length;

  g_assert_true (bond_survey_file_close (file, NULL));
  g_clear_object (&file);
  before = sample_read (sample->path, &length);
  file = sample_open (sample);
  for (int i = 0; i < 3; i++)
    {
      sample_measure (file, 1, 1);
      g_assert_true (bond_survey_file_save (file, NULL));
    }
  assert_content (backup, before);
}

static void
test_two_hundred_entries_save (Sample *sample, gconstpointer data)
{
  g_autoptr (BondSurveyFile) file = sample_create (sample, 2);
  g_autofree char *journal_path = bond_journal_path (sample->path);
  g_autofree char *bytes = NULL;
  gsize length;

  sample_measure (file, 194, 2);
  g_assert_false (sample_exists (journal_path));
  bytes = sample_read (sample->path, &length);
  g_assert_nonnull (strstr (bytes, "-200\""));
  sample_measure (file, 1, 2);
  g_assert_true (sample_exists (journal_path));
}

/* ---- two writers ---- */

static void
test_second_writer_is_told_who (Sample *sample, gconstpointer data)
{
  g_autoptr (BondSurveyFile) file = sample_create (sample, 1);
  g_autoptr (BondSurveyFile) second = NULL;
  g_autoptr (GError) error = NULL;

  second = bond_survey_file_open (sample->path, BOND_OPEN_WRITE, sample->source, "Office", NULL, &error);
  g_assert_null (second);
  g_assert_error (error, BOND_STORE_ERROR, BOND_STORE_ERROR_LOCKED);
  g_test_message ("%s", error->message);
  g_assert_nonnull (strstr (error->message, "Hangar 2"));
  g_assert_nonnull (strstr (error->message, g_get_host_name ()));
  g_assert_nonnull (strstr (error->message, g_get_user_name ()));
  second = bond_survey_file_open (sample->path, BOND_OPEN_READ, sample->source, NULL, NULL, NULL);
  g_assert_nonnull (second);
  g_clear_object (&second);
  g_assert_true (bond_survey_file_close (file, NULL));
  second = sample_open (sample);
  g_assert_nonnull (second);
}

static void
test_lock_leaves_no_file (Sample *sample, gconstpointer data)
{
  g_autofree char *path = g_build_filename (sample->folder, ".sample.bondsurvey.lock", NULL);
  BondLock *lock = bond_lock_take (sample->path, "Hangar 2", FALSE, NULL);

  g_assert_nonnull (lock);
  g_assert_true (sample_exists (path));
  g_assert_null (bond_lock_take (sample->path, "Office", FALSE, NULL));
  bond_lock_drop (lock);
  g_assert_false (sample_exists (path));
  /* A file left by a program that died is no lock. */
  sample_write (path, "gone", 4);
  lock = bond_lock_take (sample->path, "Office", FALSE, NULL);
  g_assert_nonnull (lock);
  bond_lock_drop (lock);
}

/* ---- somebody else ---- */

static void
test_changed_on_disk (Sample *sample, gconstpointer data)
{
  g_autoptr (BondSurveyFile) file = sample_create (sample, 1);
  g_autoptr (GError) error = NULL;
  g_autofree char *theirs = NULL;
  g_autofree char *journal = bond_journal_path (sample->path);
  g_autofree char *kept = g_build_filename (sample->folder, "sample.kept-00000000.bondsurvey", NULL);
  gsize length;

  g_assert_true (bond_survey_file_save (file, NULL));
  sample_measure (file, 2, 1);
  sample_replace (sample->path, "station=\"Hangar 2\"", "station=\"Hangar 3\"");
  theirs = sample_read (sample->path, &length);
  g_assert_false (bond_survey_file_save (file, &error));
  g_assert_error (error, BOND_STORE_ERROR, BOND_STORE_ERROR_CHANGED);
  g_test_message ("%s", error->message);
  assert_content (sample->path, theirs);
  g_assert_true (sample_exists (journal));
  /* Ours is whole and beside it. */
  g_assert_true (sample_exists (kept));
  sample_assert_valid (kept);
  g_assert_false (bond_survey_file_close (file, NULL));
  assert_content (sample->path, theirs);
  g_assert_true (sample_exists (journal));
}

/*
 * The file is put back to what it was before this sitting, after a save had taken the first half of the sitting in:
 * opened again it has both halves.
 */
static void
test_put_back_is_joined (Sample *sample, gconstpointer data)
{
  g_autoptr (BondSurveyFile) file = sample_create (sample, 2);
  g_autoptr (GError) error = NULL;
  g_autofree char *before = NULL;
  gsize length;
  guint n;

  g_assert_true (bond_survey_file_close (file, NULL));
  g_clear_object (&file);
  before = sample_read (sample->path, &length);
  file = sample_open (sample);
  sample_measure (file, 2, 2);
  g_assert_true (bond_survey_file_save (file, NULL));
  sample_measure (file, 1, 2);
  sample_write (sample->path, before, length);
  for (int i = 0; i < 2; i++)
    {
      g_assert_false (bond_survey_file_save (file, &error));
      g_assert_error (error, BOND_STORE_ERROR, BOND_STORE_ERROR_CHANGED);
      g_clear_error (&error);
      sample_measure (file, 1, 2); /* recording goes on */
    }
  n = bond_survey_get_entries (bond_survey_file_get_survey (file))->len;
  g_assert_false (bond_survey_file_close (file, NULL));
  g_clear_object (&file);
  file = sample_open (sample);
  g_assert_false (bond_survey_file_is_broken (file));
  g_assert_cmpuint (bond_survey_get_entries (bond_survey_file_get_survey (file))->len, ==, n);
  g_assert_true (bond_survey_file_close (file, NULL));
  sample_assert_valid (sample->path);
}

/* Written again with the same content, by a copy or a sync program: not a change. */
static void
test_touched_is_not_changed (Sample *sample, gconstpointer data)
{
  g_autoptr (BondSurveyFile) file = sample_create (sample, 1);
  g_autofree char *bytes = NULL;
  gsize length;

  g_assert_true (bond_survey_file_save (file, NULL));
  sample_measure (file, 1, 1);
  bytes = sample_read (sample->path, &length);
  sample_write (sample->path, bytes, length);
  g_assert_true (bond_survey_file_close (file, NULL));
}

/* ---- a full disk, by the kernel's own word ---- */

typedef struct
{
  int failed;
} Told;

static void
save_failed_cb (BondSurveyFile *file, const GError *error, gpointer data)
{
  Told *told = data;

  g_assert_nonnull (error);
  told->failed++;
}

/*
 * RLIMIT_FSIZE makes write() fail beyond a size: the journal still fits, the whole
 * file does not.  The save fails and says so, everything stays in the journal, and
 * recording goes on.
 */
static void
test_save_without_room (Sample *sample, gconstpointer data)
{
  g_autoptr (BondSurveyFile) file = sample_create (sample, 20);
  g_autofree char *before = NULL;
  g_autofree char *journal = bond_journal_path (sample->path);
  g_autoptr (GError) error = NULL;
  const struct rlimit small = { 6000, RLIM_INFINITY }, all = { RLIM_INFINITY, RLIM_INFINITY };
  Told told = { 0 };
  gsize length;

  g_assert_true (bond_survey_file_save (file, NULL));
  before = sample_read (sample->path, &length);
  g_assert_cmpuint (length, >, 6000);
  g_signal_connect (file, "save-failed", G_CALLBACK (save_failed_cb), &told);
  signal (SIGXFSZ, SIG_IGN);
  g_assert_cmpint (setrlimit (RLIMIT_FSIZE, &small), ==, 0);
  sample_measure (file, 2, 2);
  g_assert_false (bond_survey_file_save (file, &error));
  g_assert_error (error, BOND_STORE_ERROR, BOND_STORE_ERROR_WRITE);
  g_assert_cmpint (told.failed, ==, 1);
  assert_content (sample->path, before);
  g_assert_true (sample_exists (journal));
  sample_measure (file, 1, 2);
  g_assert_cmpint (setrlimit (RLIMIT_FSIZE, &all), ==, 0);
  g_assert_true (bond_survey_file_close (file, NULL));
  g_clear_object (&file);
  file = sample_open (sample);
  g_assert_cmpuint (bond_survey_get_entries (bond_survey_file_get_survey (file))->len, ==, 4 + 20 + 3);
}

/* The folder cannot be synced while @data says so; everything else goes to the disk. */
static int
open_no_folder_cb (const char *path, int flags, mode_t mode, gpointer data)
{
  if ((flags & O_DIRECTORY) != 0 && *(gboolean *)data)
    {
      errno = EIO;
      return -1;
    }
  return bond_disk_system.open (path, flags, mode, NULL);
}

/* After the rename the file is ours: told as not yet certain, the journal stays, the next save is no stranger's. */
static void
test_folder_sync_fails (Sample *sample, gconstpointer data)
{
  g_autoptr (BondSurveyFile) file = sample_create (sample, 1);
  g_autofree char *journal = bond_journal_path (sample->path);
  g_autoptr (GDir) folder = NULL;
  g_autoptr (GError) error = NULL;
  gboolean fails = TRUE;
  BondDisk disk = bond_disk_system;
  const char *name;

  g_assert_true (bond_survey_file_save (file, NULL));
  sample_measure (file, 1, 1);
  disk.open = open_no_folder_cb;
  disk.data = &fails;
  bond_survey_file_set_disk (file, &disk);
  g_assert_false (bond_survey_file_save (file, &error));
  g_test_message ("%s", error->message);
  g_assert_error (error, BOND_STORE_ERROR, BOND_STORE_ERROR_UNSURE);
  g_assert_nonnull (strstr (error->message, "not yet certain"));
  g_assert_true (sample_exists (journal));
  sample_assert_valid (sample->path);
  fails = FALSE;
  sample_measure (file, 1, 1);
  g_clear_error (&error);
  g_assert_true (bond_survey_file_save (file, &error));
  g_assert_no_error (error);
  g_assert_false (sample_exists (journal));
  folder = g_dir_open (sample->folder, 0, NULL);
  while ((name = g_dir_read_name (folder)) != NULL)
    g_assert_null (strstr (name, ".kept-"));
  g_clear_object (&file);
  file = sample_open (sample);
  g_assert_cmpuint (bond_survey_get_entries (bond_survey_file_get_survey (file))->len, ==, 4 + 1 + 2);
}

/* What somebody left under the temporary name, even unwritable or a link, blocks no save. */
static void
test_stale_temporary (Sample *sample, gconstpointer data)
{
  g_autoptr (BondSurveyFile) file = sample_create (sample, 1);
  g_autofree char *stale = g_build_filename (sample->folder, ".sample.bondsurvey.saving", NULL);

  g_assert_cmpint (symlink ("nowhere", stale), ==, 0);
  g_assert_true (bond_survey_file_save (file, NULL));
  g_assert_false (g_file_test (stale, G_FILE_TEST_IS_SYMLINK));
  sample_assert_valid (sample->path);
}

/* No temporary file and no half-written backup stay behind. */
static void
test_nothing_else_is_left (Sample *sample, gconstpointer data)
{
  g_autoptr (BondSurveyFile) file = sample_create (sample, 2);
  g_autoptr (GDir) dir = NULL;
  const char *name;

  sample_measure (file, 2, 2);
  g_assert_true (bond_survey_file_close (file, NULL));
  dir = g_dir_open (sample->folder, 0, NULL);
  while ((name = g_dir_read_name (dir)) != NULL)
    g_assert_true (strcmp (name, "sample.bondsurvey") == 0 || strcmp (name, ".sample.bondsurvey.backup") == 0);
}

#define CASE(name, function) g_test_add ("/store/save/" name, Sample, NULL, sample_set_up, function, sample_tear_down)

int
main (int argc, char **argv)
{
  g_test_init (&argc, &argv, NULL);
  bond_xml_init ();
  CASE ("replace", test_replace);
  CASE ("permissions-are-kept", test_permissions_are_kept);
  CASE ("link-stays-a-link", test_link_stays_a_link);
  CASE ("backup-is-from-before", test_backup_is_from_before);
  CASE ("two-hundred-entries-save", test_two_hundred_entries_save);
  CASE ("second-writer-is-told-who", test_second_writer_is_told_who);
  CASE ("lock-leaves-no-file", test_lock_leaves_no_file);
  CASE ("changed-on-disk", test_changed_on_disk);
  CASE ("put-back-is-joined", test_put_back_is_joined);
  CASE ("touched-is-not-changed", test_touched_is_not_changed);
  CASE ("save-without-room", test_save_without_room);
  CASE ("folder-sync-fails", test_folder_sync_fails);
  CASE ("stale-temporary", test_stale_temporary);
  CASE ("nothing-else-is-left", test_nothing_else_is_left);
  return g_test_run ();
}
