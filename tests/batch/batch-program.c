/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * Runs the program and looks at a folder, for the tests of batch-program.h.
 */
#include "batch-program.h"

#include <string.h>

void
outcome_clear (Outcome *outcome)
{
  g_free (outcome->out);
  g_free (outcome->err);
  g_strfreev (outcome->lines);
}

static char **
split_lines (const char *text)
{
  g_autofree char *whole = g_strdup (text);
  if (g_str_has_suffix (whole, "\n"))
    whole[strlen (whole) - 1] = '\0';
  return g_strsplit (whole, "\n", -1);
}

void
batch_run (Outcome *outcome, const char *first, ...)
{
  g_autoptr (GPtrArray) argv = g_ptr_array_new ();
  g_autoptr (GError) error = NULL;
  int wait_status;
  va_list rest;

  g_ptr_array_add (argv, (char *)g_getenv ("BOND_BATCH"));
  va_start (rest, first);
  for (const char *word = first; word != NULL; word = va_arg (rest, const char *))
    g_ptr_array_add (argv, (char *)word);
  va_end (rest);
  g_ptr_array_add (argv, NULL);
  g_spawn_sync (NULL, (char **)argv->pdata, NULL, G_SPAWN_DEFAULT, NULL, NULL, &outcome->out, &outcome->err,
                &wait_status, &error);
  g_assert_no_error (error);
  g_assert_true (WIFEXITED (wait_status));
  outcome->status = WEXITSTATUS (wait_status);
  outcome->lines = split_lines (outcome->out);
}

const char *
batch_last_line (const Outcome *outcome)
{
  return outcome->lines[g_strv_length (outcome->lines) - 1];
}

static int
compare_lines (gconstpointer a, gconstpointer b)
{
  return g_strcmp0 (*(const char *const *)a, *(const char *const *)b);
}

/* Name and content of all there is in the folder: what must be the same afterwards. */
char *
batch_folder_state (const char *folder)
{
  g_autoptr (GDir) dir = g_dir_open (folder, 0, NULL);
  g_autoptr (GPtrArray) lines = g_ptr_array_new_with_free_func (g_free);
  const char *name;

  while ((name = g_dir_read_name (dir)) != NULL)
    {
      g_autofree char *path = g_build_filename (folder, name, NULL);
      g_autofree char *bytes = NULL;
      g_autofree char *digest = NULL;
      gsize length = 0;
      if (g_file_get_contents (path, &bytes, &length, NULL))
        digest = g_compute_checksum_for_data (G_CHECKSUM_SHA256, (guchar *)bytes, length);
      g_ptr_array_add (lines, g_strdup_printf ("%s %s", name, digest != NULL ? digest : "-"));
    }
  g_ptr_array_sort (lines, compare_lines);
  g_ptr_array_add (lines, NULL);
  return g_strjoinv ("\n", (char **)lines->pdata);
}

char *
batch_make_survey (SmallSurvey *fixture, const char *name, const BondOhm nohm[3])
{
  static const char *const numbers[] = { "511-J01", "511-J02", "611-J01" };
  BondNewSurvey what = small_survey_plan (fixture);
  BondSurveyFile *file = small_survey_make (fixture, name, &what);
  for (int i = 0; i < 3; i++)
    if (nohm[i] != 0)
      small_survey_measure (bond_survey_file_get_survey (file), numbers[i], nohm[i]);
  small_survey_close (file);
  return small_survey_path (fixture, name);
}
