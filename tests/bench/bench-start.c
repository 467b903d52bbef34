/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * From starting the program to its first frame, beside an empty GTK window started
 * in the same run: the start window, and the demo survey given as a file.
 * usage: bench-start PROGRAM EMPTY-WINDOW DEMO-SURVEY, on a screen
 */
#include <gio/gio.h>
#include <glib/gstdio.h>
#include <math.h>

#define RUNS 7
#define PATIENCE_US (20 * G_USEC_PER_SEC)

/* Milliseconds until @trace appears; NAN when it does not. The program is ended afterwards. */
static double
time_start (const char *const *argv, const char *trace)
{
  g_autoptr (GSubprocess) program = NULL;
  gint64 begun = g_get_monotonic_time ();
  double ms = NAN;

  g_unlink (trace);
  program = g_subprocess_newv (argv, G_SUBPROCESS_FLAGS_STDOUT_SILENCE | G_SUBPROCESS_FLAGS_STDERR_SILENCE, NULL);
  if (program == NULL)
    return NAN;
  while (isnan (ms) && g_get_monotonic_time () - begun < PATIENCE_US)
    {
      if (g_file_test (trace, G_FILE_TEST_EXISTS))
        ms = (double)(g_get_monotonic_time () - begun) / 1000;
      else
        g_usleep (500);
    }
  g_subprocess_force_exit (program);
  g_subprocess_wait (program, NULL, NULL);
  return ms;
}

static int
compare (gconstpointer a, gconstpointer b)
{
  double x = *(const double *)a, y = *(const double *)b;

  return (x > y) - (x < y);
}

/* The median of RUNS starts after one that warms the caches of the disk. */
static double
median_start (const char *const *argv, const char *trace)
{
  double ms[RUNS];

  time_start (argv, trace);
  for (int i = 0; i < RUNS; i++)
    ms[i] = time_start (argv, trace);
  qsort (ms, RUNS, sizeof ms[0], compare);
  return ms[RUNS / 2];
}

int
main (int argc, char **argv)
{
  g_autofree char *folder = g_dir_make_tmp ("bond-start-XXXXXX", NULL);
  g_autofree char *trace = NULL, *survey = NULL;
  g_autoptr (GFile) from = NULL, to = NULL;
  double empty, start, open;

  if (argc != 4 || folder == NULL)
    return 2;
  trace = g_build_filename (folder, "frame", NULL);
  survey = g_build_filename (folder, "demo.bondsurvey", NULL);
  from = g_file_new_for_path (argv[3]);
  to = g_file_new_for_path (survey);
  if (!g_file_copy (from, to, G_FILE_COPY_TARGET_DEFAULT_PERMS, NULL, NULL, NULL, NULL))
    return 1;
  g_setenv ("BONDWRIGHT_FRAME_TRACE", trace, TRUE);
  g_setenv ("HOME", folder, TRUE);
  g_setenv ("XDG_DATA_HOME", folder, TRUE);
  empty = median_start ((const char *[]){ argv[2], NULL }, trace);
  start = median_start ((const char *[]){ argv[1], NULL }, trace);
  open = median_start ((const char *[]){ argv[1], survey, NULL }, trace);
  g_print ("first frame: empty GTK window %.0f ms; start window %.0f ms (%.2f x); demo survey %.0f ms (%.2f x)\n",
           empty, start, start / empty, open, open / empty);
  return 0;
}
