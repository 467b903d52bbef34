/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * Two programs on one survey: the second is told who has it and reads, nothing of
 * either is lost, and what sync programs and crashes leave behind is told in plain
 * words.  The other program is this one, started again with --child.
 */
#include "../store/sample.h"

#include "library/beside.h"
#include "store/lock.h"

#include <glib/gstdio.h>
#include <signal.h>
#include <stdio.h>
#include <string.h>

static const char *program;

/* --- the other program: opens, records one reading, says so, and waits --- */

static int
run_child (const char *path)
{
  g_autoptr (BondSource) source = bond_source_new_system ();
  g_autoptr (GError) error = NULL;
  g_autoptr (BondSurveyFile) file = bond_survey_file_open (path, BOND_OPEN_WRITE, source, "Hangar 2", NULL, &error);
  char line[16];

  if (file == NULL)
    return 1;
  bond_survey_set_person (bond_survey_file_get_survey (file), "p-okafor");
  bond_survey_file_set_synchronous (file, TRUE);
  sample_record (file, sample_reading (1, "1.11", 1110000));
  puts ("recorded");
  fflush (stdout);
  return fgets (line, sizeof line, stdin) != NULL && bond_survey_file_close (file, NULL) ? 0 : 1;
}

static GSubprocess *
start_child (const char *path)
{
  g_autoptr (GError) error = NULL;
  GSubprocess *child = g_subprocess_new (G_SUBPROCESS_FLAGS_STDIN_PIPE | G_SUBPROCESS_FLAGS_STDOUT_PIPE, &error,
                                         program, "--child", path, NULL);
  g_autoptr (GDataInputStream) said = NULL;
  g_autofree char *line = NULL;

  g_assert_no_error (error);
  said = g_data_input_stream_new (g_subprocess_get_stdout_pipe (child));
  line = g_data_input_stream_read_line (said, NULL, NULL, &error);
  g_assert_no_error (error);
  g_assert_cmpstr (line, ==, "recorded");
  return child;
}

static void
end_child (GSubprocess *child)
{
  g_autoptr (GError) error = NULL;

  g_output_stream_write_all (g_subprocess_get_stdin_pipe (child), "end\n", 4, NULL, NULL, &error);
  g_assert_no_error (error);
  g_subprocess_wait_check (child, NULL, &error);
  g_assert_no_error (error);
}

static void
make_survey (Sample *sample, int n_readings)
{
  g_autoptr (BondSurveyFile) file = sample_create (sample, 3);

  if (n_readings > 0)
    sample_measure (file, n_readings, 3);
  g_assert_true (bond_survey_file_close (file, NULL));
}

static guint
readings_in (const char *path)
{
  g_autoptr (BondSource) source = bond_source_new_system ();
  g_autoptr (GPtrArray) problems = g_ptr_array_new_with_free_func ((GDestroyNotify)bond_problem_free);
  g_autoptr (GError) error = NULL;
  g_autoptr (BondSurveyFile) file = bond_survey_file_open (path, BOND_OPEN_READ, source, NULL, problems, &error);
  GPtrArray *entries;
  guint n = 0;

  g_assert_no_error (error);
  entries = bond_survey_get_entries (bond_survey_file_get_survey (file));
  for (guint i = 0; i < entries->len; i++)
    n += ((BondEntry *)g_ptr_array_index (entries, i))->kind == BOND_ENTRY_READING;
  return n;
}

static void
test_nothing_lost (Sample *sample, gconstpointer data)
{
  g_autoptr (GSubprocess) child = NULL;
  g_autoptr (BondSurveyFile) file = NULL;
  g_autoptr (GError) error = NULL;
  g_autofree char *who = NULL;

  make_survey (sample, 2);
  child = start_child (sample->path);
  file = bond_survey_file_open (sample->path, BOND_OPEN_WRITE, sample->source, "Office", NULL, &error);
  g_assert_null (file);
  g_assert_error (error, BOND_STORE_ERROR, BOND_STORE_ERROR_LOCKED);
  g_test_message ("%s", error->message);
  g_assert_nonnull (strstr (error->message, "is open on this computer already"));
  g_assert_nonnull (strstr (error->message, "Hangar 2"));
  g_assert_nonnull (strstr (error->message, "since "));
  who = bond_lock_peek (sample->path);
  g_assert_nonnull (strstr (who, "Hangar 2"));
  g_assert_null (strchr (who, '\n'));
  g_assert_cmpuint (readings_in (sample->path), ==, 3); /* the reader sees what was recorded a moment ago */
  end_child (child);
  file = sample_open (sample);
  sample_record (file, sample_reading (2, "1.22", 1220000));
  g_assert_true (bond_survey_file_close (file, NULL));
  g_assert_cmpuint (readings_in (sample->path), ==, 4);
  sample_assert_valid (sample->path);
}

/* A crash on this computer: the kernel dropped the lock, the next opener goes on, the reading is there. */
static void
test_crash_here (Sample *sample, gconstpointer data)
{
  g_autoptr (GSubprocess) child = NULL;
  g_autoptr (BondSurveyFile) file = NULL;
  g_autofree char *lock = g_build_filename (sample->folder, ".sample.bondsurvey.lock", NULL);

  make_survey (sample, 2);
  child = start_child (sample->path);
  g_subprocess_send_signal (child, SIGKILL);
  g_subprocess_wait (child, NULL, NULL);
  g_assert_true (sample_exists (lock)); /* left behind */
  g_assert_null (bond_lock_peek (sample->path));
  file = sample_open (sample);
  g_assert_true (bond_survey_file_close (file, NULL));
  g_assert_cmpuint (readings_in (sample->path), ==, 3);
  g_assert_false (sample_exists (lock));
}

/* A lock another computer left: told, not taken; taken over when a person says so. */
static void
test_left_elsewhere (Sample *sample, gconstpointer data)
{
  const char *text = "R. Haddad on hangar-pc-2, since 2026-11-24 09:58\nhangar-pc-2\n";
  g_autofree char *lock = g_build_filename (sample->folder, ".sample.bondsurvey.lock", NULL);
  g_autoptr (BondSurveyFile) file = NULL;
  g_autoptr (GError) error = NULL;

  make_survey (sample, 1);
  sample_write (lock, text, strlen (text));
  file = bond_survey_file_open (sample->path, BOND_OPEN_WRITE, sample->source, "Office", NULL, &error);
  g_assert_null (file);
  g_assert_error (error, BOND_STORE_ERROR, BOND_STORE_ERROR_LEFT);
  g_test_message ("%s", error->message);
  g_assert_nonnull (strstr (error->message, "R. Haddad on hangar-pc-2, since 2026-11-24 09:58"));
  g_assert_true (sample_exists (lock));
  file = bond_survey_file_open (sample->path, BOND_OPEN_TAKE_OVER, sample->source, "Office", NULL, NULL);
  g_assert_nonnull (file);
  g_assert_null (bond_survey_get_read_only (bond_survey_file_get_survey (file)));
  g_assert_true (bond_survey_file_close (file, NULL));
  g_assert_false (sample_exists (lock));
}

/* --- copies --- */

static char *
copy_as (Sample *sample, const char *name)
{
  char *path = g_build_filename (sample->folder, name, NULL);
  gsize length;
  g_autofree char *bytes = sample_read (sample->path, &length);

  sample_write (path, bytes, length);
  return path;
}

static void
measure_more (Sample *sample, const char *path, const char *text, BondOhm nohm)
{
  g_autoptr (BondSurveyFile) file = bond_survey_file_open (path, BOND_OPEN_WRITE, sample->source, "x", NULL, NULL);

  g_assert_nonnull (file);
  bond_survey_file_set_synchronous (file, TRUE);
  bond_survey_set_person (bond_survey_file_get_survey (file), "p-okafor");
  sample_record (file, sample_reading (3, text, nohm));
  g_assert_true (bond_survey_file_close (file, NULL));
}

static void
test_conflicted_copy (Sample *sample, gconstpointer data)
{
  g_autofree char *other = NULL;
  g_autofree char *foreign = NULL;
  g_autoptr (GPtrArray) told = NULL;
  g_autoptr (BondSurveyFile) strange = NULL;
  const char *words;

  make_survey (sample, 2);
  other = copy_as (sample, "sample (conflicted copy 2026-11-24).bondsurvey");
  told = bond_copies_beside (sample->path);
  g_assert_cmpuint (told->len, ==, 0); /* the same is no conflict */
  measure_more (sample, sample->path, "1.31", 1310000);
  g_ptr_array_unref (told);
  told = bond_copies_beside (sample->path);
  g_assert_cmpuint (told->len, ==, 0); /* nor is one that is only older */
  g_ptr_array_unref (told);
  told = bond_copies_beside (other);
  g_assert_cmpuint (told->len, ==, 1); /* but its reader is sent to the newer one */
  g_assert_nonnull (strstr (((BondProblem *)told->pdata[0])->message, "sample.bondsurvey holds all of"));
  measure_more (sample, other, "1.32", 1320000);
  g_ptr_array_unref (told);
  told = bond_copies_beside (sample->path);
  g_assert_cmpuint (told->len, ==, 1);
  words = ((BondProblem *)told->pdata[0])->message;
  g_test_message ("%s", words);
  g_assert_true (g_str_has_prefix (words, "Merge first: sample.bondsurvey and "));
  g_assert_nonnull (strstr (words, "sample (conflicted copy 2026-11-24).bondsurvey"));
  /* A name that looks like it, with another survey in it, is nobody's conflict. */
  foreign = g_build_filename (sample->folder, "sample-2.bondsurvey", NULL);
  strange = bond_survey_file_create (foreign, sample->source, "x", NULL);
  g_assert_nonnull (strange);
  g_ptr_array_unref (told);
  told = bond_copies_beside (sample->path);
  g_assert_cmpuint (told->len, ==, 1);
}

/*
 * The file is replaced while it is open: theirs stays, ours is kept under a name of
 * its own, and both are named.  The journal stays too, so that opening again shows
 * what both recorded; without it the copy kept is one to merge first.
 */
static void
test_changed_on_disk (Sample *sample, gconstpointer data)
{
  g_autoptr (BondSurveyFile) file = NULL;
  g_autoptr (GError) error = NULL;
  g_autoptr (GPtrArray) told = NULL;
  g_autofree char *other = NULL;
  g_autofree char *theirs = NULL;
  g_autofree char *journal = g_strconcat (sample->path, ".journal", NULL);
  gsize length;

  make_survey (sample, 2);
  other = copy_as (sample, "theirs.bondsurvey");
  measure_more (sample, other, "1.41", 1410000);
  theirs = sample_read (other, &length);
  file = sample_open (sample);
  sample_record (file, sample_reading (1, "1.51", 1510000));
  sample_write (sample->path, theirs, length);
  g_assert_false (bond_survey_file_save (file, &error));
  g_assert_error (error, BOND_STORE_ERROR, BOND_STORE_ERROR_CHANGED);
  g_test_message ("%s", error->message);
  g_assert_nonnull (strstr (error->message, sample->path));
  g_assert_nonnull (strstr (error->message, ".kept-"));
  g_assert_nonnull (strstr (error->message, "Close this survey and open it again"));
  bond_survey_file_close (file, NULL);
  g_clear_object (&file);
  told = bond_copies_beside (sample->path);
  g_assert_cmpuint (told->len, ==, 0); /* all of the copy is in the file and its journal */
  g_assert_cmpuint (readings_in (sample->path), ==, 4);
  g_assert_cmpint (g_unlink (journal), ==, 0);
  g_assert_cmpuint (readings_in (sample->path), ==, 3);
  g_ptr_array_unref (told);
  told = bond_copies_beside (sample->path);
  g_assert_cmpuint (told->len, ==, 1);
  g_assert_nonnull (strstr (((BondProblem *)told->pdata[0])->message, ".kept-"));
}

#define CASE(name, function) g_test_add ("/library/two/" name, Sample, NULL, sample_set_up, function, sample_tear_down)

int
main (int argc, char **argv)
{
  if (argc == 3 && strcmp (argv[1], "--child") == 0)
    return run_child (argv[2]);
  program = argv[0];
  g_test_init (&argc, &argv, NULL);
  CASE ("nothing-lost", test_nothing_lost);
  CASE ("crash-here", test_crash_here);
  CASE ("left-elsewhere", test_left_elsewhere);
  CASE ("conflicted-copy", test_conflicted_copy);
  CASE ("changed-on-disk", test_changed_on_disk);
  return g_test_run ();
}
