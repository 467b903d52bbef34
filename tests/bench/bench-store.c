/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * What keeping a survey costs, beside the bare library in the same run.  Budgets are
 * the design's; figures are printed, nothing fails for being slow.
 *
 *   open, validate, verify, replay  3,000 points / 9,000 readings: < 0.5 s and
 *                                   ≤ 2 × libxml2 alone (parse, schema)
 *   Enter → durable                 < 20 ms, p99 < 50 ms
 */
#include "../store/sample.h"

#include "store/record.h"
#include "store/replay.h"
#include "store/schema.h"
#include "store/survey-file-private.h"

#include <fcntl.h>
#include <libxml/parser.h>
#include <string.h>
#include <time.h>
#include <unistd.h>

#define N_POINTS 3000
#define N_READINGS 9000
#define N_ROUNDS 5
#define N_RECORDS 500

static double
now_ms (void)
{
  return (double)g_get_monotonic_time () / 1000.0;
}

/* Time on the processor: says the same on a busy machine. */
static double
cpu_ms (void)
{
  struct timespec t;

  clock_gettime (CLOCK_PROCESS_CPUTIME_ID, &t);
  return (double)t.tv_sec * 1e3 + (double)t.tv_nsec / 1e6;
}

static int
compare_doubles (gconstpointer a, gconstpointer b)
{
  double x = *(const double *)a, y = *(const double *)b;

  return x < y ? -1 : x > y;
}

/* @q-th quantile by rank; sorts @values. */
static double
quantile (GArray *values, double q)
{
  g_array_sort (values, compare_doubles);
  return g_array_index (values, double, (guint)(q * (values->len - 1)));
}

static int
no_sync_cb (int fd, gpointer data)
{
  return 0;
}

/* Built without waiting for the disk: only reading it is measured. */
static void
build (Sample *sample)
{
  BondDisk disk = bond_disk_system;
  g_autoptr (BondSurveyFile) file = NULL;
  g_autoptr (GError) error = NULL;

  disk.sync = no_sync_cb;
  file = bond_survey_file_create (sample->path, sample->source, "Hangar 2", &error);
  g_assert_no_error (error);
  bond_survey_file_set_synchronous (file, TRUE);
  bond_survey_file_set_disk (file, &disk);
  sample_start (bond_survey_file_get_survey (file), N_POINTS);
  sample_measure (file, N_READINGS, N_POINTS);
  g_assert_true (bond_survey_file_close (file, NULL));
}

static double
bare_library (const char *path)
{
  double start = cpu_ms ();
  gsize length;
  g_autofree char *bytes = sample_read (path, &length);
  g_autoptr (BondSchema) schema = bond_schema_new (bond_dialect_find ("survey"), NULL);
  g_autoptr (GPtrArray) problems = g_ptr_array_new ();
  xmlDoc *doc = xmlReadMemory (bytes, (int)length, NULL, NULL, XML_PARSE_NONET | XML_PARSE_BIG_LINES);

  g_assert_cmpuint (bond_schema_check (schema, xmlDocGetRootElement (doc), path, problems), ==, 0);
  xmlFreeDoc (doc);
  return cpu_ms () - start;
}

static double
open_whole (Sample *sample)
{
  double start = cpu_ms (), end;
  g_autoptr (GError) error = NULL;
  g_autoptr (BondSurveyFile) file
      = bond_survey_file_open (sample->path, BOND_OPEN_READ, sample->source, NULL, NULL, &error);

  end = cpu_ms ();
  g_assert_no_error (error);
  g_assert_cmpuint (g_list_model_get_n_items (G_LIST_MODEL (bond_survey_file_get_survey (file))), ==, N_POINTS);
  return end - start;
}

static double
read_only (Sample *sample)
{
  double start = cpu_ms ();
  g_autoptr (BondRecord) record = bond_record_read (sample->path, NULL, NULL);

  g_assert_cmpstr (record->broken, ==, NULL);
  return cpu_ms () - start;
}

static void
bench_open (Sample *sample)
{
  g_autoptr (GArray) bare = g_array_new (FALSE, FALSE, sizeof (double));
  g_autoptr (GArray) whole = g_array_new (FALSE, FALSE, sizeof (double));
  g_autoptr (GArray) record = g_array_new (FALSE, FALSE, sizeof (double));

  for (int i = 0; i < N_ROUNDS; i++)
    {
      double a = bare_library (sample->path), b = open_whole (sample), c = read_only (sample);

      g_print ("# round %d: libxml2 %.0f ms, opened %.0f ms, of that read and verified %.0f ms%s\n", i + 1, a, b, c,
               i == 0 ? " (cold)" : "");
      g_array_append_val (bare, a);
      g_array_append_val (whole, b);
      g_array_append_val (record, c);
    }
  g_print ("open-3000-points, processor time: %.0f ms (budget 500), read and verify %.0f ms, libxml2 parse+schema %.0f "
           "ms, ratio %.2f "
           "(budget 2)\n",
           quantile (whole, 0.5), quantile (record, 0.5), quantile (bare, 0.5),
           quantile (whole, 0.5) / quantile (bare, 0.5));
}

/* ---- Enter → durable ---- */

typedef struct
{
  GMainLoop *loop;
  BondSurveyFile *file;
  GArray *times;
  double started;
} Enter;

static gboolean press_cb (gpointer data);

static void
recorded_cb (BondSurvey *survey, BondEntry *entry, const GError *error, gpointer data)
{
  Enter *enter = data;
  double took = now_ms () - enter->started;

  g_assert_no_error (error);
  g_array_append_val (enter->times, took);
  if (enter->times->len == N_RECORDS)
    g_main_loop_quit (enter->loop);
  else
    g_idle_add (press_cb, enter);
}

static gboolean
press_cb (gpointer data)
{
  Enter *enter = data;
  BondEntry *entry = sample_reading (1 + (int)enter->times->len * 7 % N_POINTS, "1.00", 1000000);

  enter->started = now_ms ();
  bond_survey_record (bond_survey_file_get_survey (enter->file), entry, recorded_cb, enter);
  return G_SOURCE_REMOVE;
}

/* What the disk alone takes for a line of that length. */
static void
bare_disk (const char *folder)
{
  g_autofree char *path = g_build_filename (folder, "bare", NULL);
  g_autoptr (GArray) times = g_array_new (FALSE, FALSE, sizeof (double));
  char line[400];
  int fd = open (path, O_WRONLY | O_CREAT | O_APPEND, 0600);

  memset (line, 'x', sizeof line);
  for (int i = 0; i < N_RECORDS; i++)
    {
      double start = now_ms (), took;

      g_assert_cmpint (write (fd, line, sizeof line), ==, sizeof line);
      g_assert_cmpint (fdatasync (fd), ==, 0);
      took = now_ms () - start;
      g_array_append_val (times, took);
    }
  close (fd);
  g_print ("bare-append-and-sync: median %.2f ms, p99 %.2f ms\n", quantile (times, 0.5), quantile (times, 0.99));
}

static void
bench_enter (Sample *sample)
{
  Enter enter = { g_main_loop_new (NULL, FALSE), sample_open (sample), g_array_new (FALSE, FALSE, sizeof (double)), 0 };

  bond_survey_file_set_synchronous (enter.file, FALSE);
  bare_disk (sample->folder);
  g_idle_add (press_cb, &enter);
  g_main_loop_run (enter.loop);
  g_print (
      "enter-to-durable: median %.2f ms (budget 20), p99 %.2f ms (budget 50), largest %.2f ms, %d records with 2 whole "
      "saves among them\n",
      quantile (enter.times, 0.5), quantile (enter.times, 0.99), quantile (enter.times, 1), N_RECORDS);
  g_object_unref (enter.file);
  g_array_unref (enter.times);
  g_main_loop_unref (enter.loop);
}

static void
bench_save (Sample *sample)
{
  g_autoptr (BondSurveyFile) file = sample_open (sample);
  double start;

  sample_measure (file, 1, 1);
  start = now_ms ();
  g_assert_true (bond_survey_file_save (file, NULL));
  g_print ("whole-save: %.0f ms\n", now_ms () - start);
}

int
main (void)
{
  Sample sample;
  gsize length;

  bond_xml_init ();
  sample_set_up (&sample, NULL);
  build (&sample);
  g_free (sample_read (sample.path, &length));
  g_print ("# %d points, %d readings, %.1f MB\n", N_POINTS, N_READINGS, (double)length / 1e6);
  bench_open (&sample);
  bench_enter (&sample);
  bench_save (&sample);
  sample_tear_down (&sample, NULL);
  return 0;
}
