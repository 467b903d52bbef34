/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * kill −9, two hundred times, at random moments.  A child records as the window does
 * (through the thread, with saves in between) and writes the id of each entry to a
 * pipe once it was told that the entry is recorded.  Whatever came through the pipe
 * must be in file and journal afterwards, and the record must verify.
 */
#include "sample.h"

#include "store/journal.h"

#include <errno.h>
#include <glib/gstdio.h>
#include <signal.h>
#include <string.h>
#include <sys/wait.h>
#include <unistd.h>

#define N_KILLS 200
#define LIVES_OF_A_SURVEY 25
#define N_POINTS 5
/* A child that is not killed in time stops by itself. */
#define CHILD_SECONDS 20
/* One reading in this many is followed by a whole save. */
#define SAVE_EVERY 7

/* ---- the child ---- */

typedef struct
{
  BondSurveyFile *file;
  int pipe;
  int count;
} Child;

static void record_next (Child *child);

static void
recorded_cb (BondSurvey *survey, BondEntry *entry, const GError *error, gpointer data)
{
  Child *child = data;
  g_autofree char *line = NULL;

  if (error != NULL)
    _exit (3);
  line = g_strconcat (entry->id, "\n", NULL);
  if (write (child->pipe, line, strlen (line)) != (gssize)strlen (line))
    _exit (4);
  record_next (child);
}

static void
record_next (Child *child)
{
  BondSurvey *survey = bond_survey_file_get_survey (child->file);

  child->count++;
  if (child->count % SAVE_EVERY == 0 && !bond_survey_file_save (child->file, NULL))
    _exit (5);
  bond_survey_record (survey, sample_reading (1 + child->count % N_POINTS, "1.00", 1000000), recorded_cb, child);
}

static int
run_child (const char *path)
{
  g_autoptr (BondSource) source = bond_source_new_system ();
  g_autoptr (GError) error = NULL;
  Child child = { bond_survey_file_open (path, BOND_OPEN_WRITE, source, "Hangar 2", NULL, &error), STDOUT_FILENO, 0 };
  g_autoptr (GMainLoop) loop = g_main_loop_new (NULL, FALSE);

  if (child.file == NULL || bond_survey_get_read_only (bond_survey_file_get_survey (child.file)) != NULL)
    return 2;
  alarm (CHILD_SECONDS);
  bond_survey_set_person (bond_survey_file_get_survey (child.file), "p-okafor");
  record_next (&child);
  g_main_loop_run (loop);
  return 0;
}

/* ---- the parent ---- */

static GPid
start_child (const char *program, const char *path, int *out)
{
  const char *const argv[] = { program, "--child", path, NULL };
  g_autoptr (GError) error = NULL;
  GPid pid = 0;

  g_spawn_async_with_pipes (NULL, (char **)argv, NULL, G_SPAWN_DO_NOT_REAP_CHILD, NULL, NULL, &pid, NULL, out, NULL,
                            &error);
  g_assert_no_error (error);
  return pid;
}

/* All that came through the pipe: whole lines only, the rest was never told. */
static void
read_confirmed (int fd, GHashTable *confirmed)
{
  g_autoptr (GString) text = g_string_new (NULL);
  char buffer[4096];
  gssize n;
  char *end;

  while ((n = read (fd, buffer, sizeof buffer)) > 0 || (n < 0 && errno == EINTR))
    if (n > 0)
      g_string_append_len (text, buffer, n);
  for (char *at = text->str; (end = strchr (at, '\n')) != NULL; at = end + 1)
    g_hash_table_add (confirmed, g_strndup (at, end - at));
}

/* Until the child has told something; it may also be slow today. */
static void
wait_for_first_word (int fd)
{
  GPollFD poll = { fd, G_IO_IN, 0 };

  g_poll (&poll, 1, 5000);
}

static void
kill_once (const char *program, Sample *sample, gboolean early, GHashTable *confirmed)
{
  int fd, status;
  GPid pid = start_child (program, sample->path, &fd);

  /* Some kills hit the opening, most hit the recording and its saves. */
  if (!early)
    wait_for_first_word (fd);
  g_usleep ((gulong)g_test_rand_int_range (0, early ? 40000 : 20000));
  g_assert_cmpint (kill (pid, SIGKILL), ==, 0);
  g_assert_cmpint (waitpid (pid, &status, 0), ==, pid);
  g_assert_true (WIFSIGNALED (status));
  read_confirmed (fd, confirmed);
  close (fd);
}

static void
assert_all_there (Sample *sample, GHashTable *confirmed)
{
  g_autoptr (GError) error = NULL;
  g_autoptr (GPtrArray) problems = g_ptr_array_new_with_free_func ((GDestroyNotify)bond_problem_free);
  g_autoptr (BondSurveyFile) file
      = bond_survey_file_open (sample->path, BOND_OPEN_READ, sample->source, NULL, problems, &error);
  GHashTableIter iter;
  gpointer id;

  g_assert_no_error (error);
  for (guint i = 0; i < problems->len; i++)
    g_assert_nonnull (strstr (((BondProblem *)problems->pdata[i])->message, "cut off"));
  g_assert_nonnull (strstr (bond_survey_get_read_only (bond_survey_file_get_survey (file)), "for reading only"));
  g_hash_table_iter_init (&iter, confirmed);
  while (g_hash_table_iter_next (&iter, &id, NULL))
    if (bond_survey_find_entry (bond_survey_file_get_survey (file), id) == NULL)
      g_error ("%s was confirmed and is gone", (const char *)id);
}

/* One survey through some lives.  What is lost stays lost, so looking now and then is enough. */
static guint
live (const char *program, int lives, guint *journals)
{
  g_autoptr (GHashTable) confirmed = g_hash_table_new_full (g_str_hash, g_str_equal, g_free, NULL);
  g_autoptr (BondSurveyFile) file = NULL;
  g_autofree char *journal = NULL;
  Sample sample;

  sample_set_up (&sample, NULL);
  journal = bond_journal_path (sample.path);
  file = sample_create (&sample, N_POINTS);
  g_assert_true (bond_survey_file_close (file, NULL));
  for (int i = 1; i <= lives; i++)
    {
      kill_once (program, &sample, i % 8 == 0, confirmed);
      *journals += sample_exists (journal);
      if (i % 5 == 0 || i == lives)
        assert_all_there (&sample, confirmed);
    }
  g_clear_object (&file);
  sample_tear_down (&sample, NULL);
  return g_hash_table_size (confirmed);
}

static void
test_kill (gconstpointer program)
{
  guint confirmed = 0, journals = 0;

  /* In memory where there is such a place: a killed process loses nothing of it, and more entries fit in a life. */
  if (g_access ("/dev/shm", W_OK) == 0)
    g_setenv ("TMPDIR", "/dev/shm", TRUE);
  for (int lives = 0; lives < N_KILLS; lives += LIVES_OF_A_SURVEY)
    confirmed += live (program, LIVES_OF_A_SURVEY, &journals);
  g_test_message ("%u entries confirmed in %d lives, %u of them left a journal", confirmed, N_KILLS, journals);
  g_assert_cmpuint (confirmed, >, N_KILLS);
  g_assert_cmpuint (journals, >, N_KILLS / 8);
}

int
main (int argc, char **argv)
{
  bond_xml_init ();
  if (argc == 3 && strcmp (argv[1], "--child") == 0)
    return run_child (argv[2]);
  g_test_init (&argc, &argv, NULL);
  g_test_add_data_func ("/store/kill/two-hundred-lives", argv[0], test_kill);
  return g_test_run ();
}
