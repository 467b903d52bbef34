/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * What an inspector waits for: with 3,000 points in the window, from the Enter in the
 * reading field until the entry is durable and applied, and the first frame after it,
 * beside the disk alone and the frame of a window that draws one rectangle, in the
 * same run.  Walls are what a person sees, so a busy machine shows; the processor
 * time of the frames does not.
 *
 *   Enter → durable   budget: median < 20 ms, p99 < 50 ms
 */
#include "../gui/screen.h"
#include "../gui/window-fixture.h"
#include "gui/widgets/reading-entry.h"

#include <fcntl.h>
#include <time.h>
#include <unistd.h>

#define N_POINTS 3000
#define N_RECORDS 200
#define WIDTH 1280
#define HEIGHT 800

static double
now_ms (void)
{
  return (double)g_get_monotonic_time () / 1000.0;
}

static double
thread_ms (void)
{
  struct timespec now;

  clock_gettime (CLOCK_THREAD_CPUTIME_ID, &now);
  return (double)now.tv_sec * 1e3 + (double)now.tv_nsec / 1e6;
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
  return values->len > 0 ? g_array_index (values, double, (guint)(q * (values->len - 1))) : 0.0;
}

static void
say (const char *what, GArray *values)
{
  g_print ("%-34s median %7.2f ms, p90 %7.2f ms, p99 %7.2f ms, largest %7.2f ms (%u)\n", what, quantile (values, 0.5),
           quantile (values, 0.9), quantile (values, 0.99), quantile (values, 1.0), values->len);
}

static GArray *
new_times (void)
{
  return g_array_new (FALSE, FALSE, sizeof (double));
}

/* --- one Enter and the frame behind it --- */

typedef struct
{
  double entered, durable, frame_began, framed, snapshot_ms; /* 0 = not yet */
} Press;

static void
applied_cb (BondSurvey *survey, gpointer entry, Press *press)
{
  press->durable = now_ms ();
}

/* A frame is laid out (where anything asks for it), recorded and drawn between these two. */
static void
before_cb (GdkFrameClock *clock, Press *press)
{
  press->frame_began = thread_ms ();
}

static void
painted_cb (GdkFrameClock *clock, Press *press)
{
  if (press->durable <= 0.0 || press->framed > 0.0 || press->frame_began <= 0.0)
    return;
  press->snapshot_ms = thread_ms () - press->frame_began;
  press->framed = now_ms ();
}

static void
add_frame (const Press *press, GArray *framed, GArray *snapshots)
{
  double whole = press->framed - press->entered;

  g_array_append_val (framed, whole);
  g_array_append_val (snapshots, press->snapshot_ms);
}

static void
wait_for (const double *stamp)
{
  double patience = now_ms () + 5000.0;

  while (*stamp <= 0.0 && now_ms () < patience)
    g_main_context_iteration (NULL, FALSE);
}

/* --- bare references --- */

static GArray *
bare_disk (const char *folder)
{
  g_autofree char *path = g_build_filename (folder, "bare", NULL);
  GArray *times = new_times ();
  char line[400];
  int fd = open (path, O_WRONLY | O_CREAT | O_APPEND | O_CLOEXEC, 0600);

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
  return times;
}

static void
fill_cb (GtkDrawingArea *area, cairo_t *cr, int width, int height, gpointer data)
{
  guint *n = data;

  cairo_set_source_rgb (cr, (*n)++ % 2 ? 1.0 : 0.9, 1.0, 1.0);
  cairo_paint (cr);
}

/* Frames of a window that changes all its pixels and draws one rectangle. */
static void
bare_frames (GArray *framed, GArray *snapshots)
{
  GtkWidget *box = gtk_drawing_area_new ();
  guint n = 0;
  GtkWindow *window;
  GdkFrameClock *clock;
  Press press = { 0 };

  gtk_drawing_area_set_draw_func (GTK_DRAWING_AREA (box), fill_cb, &n, NULL);
  window = screen_show (box, WIDTH, HEIGHT);
  clock = gtk_widget_get_frame_clock (box);
  g_signal_connect (clock, "before-paint", G_CALLBACK (before_cb), &press);
  g_signal_connect (clock, "after-paint", G_CALLBACK (painted_cb), &press);
  for (int i = 0; i < N_RECORDS; i++)
    {
      press = (Press){ .entered = now_ms (), .durable = now_ms () };
      gtk_widget_queue_draw (box);
      wait_for (&press.framed);
      add_frame (&press, framed, snapshots);
    }
  g_signal_handlers_disconnect_by_data (clock, &press);
  gtk_window_destroy (window);
}

/* --- the walk --- */

static void
walk (WindowFixture *fixture, GArray *durable, GArray *framed, GArray *snapshots)
{
  BondReadingEntry *entry = BOND_READING_ENTRY (bond_reading_panel_get_entry (window_panel_of (fixture)));
  BondSurvey *survey = bond_walk_get_survey (bond_survey_window_get_walk (fixture->window));
  GdkFrameClock *clock = gtk_widget_get_frame_clock (GTK_WIDGET (fixture->window));
  Press press = { 0 };

  g_signal_connect (survey, "entry-applied", G_CALLBACK (applied_cb), &press);
  g_signal_connect (clock, "before-paint", G_CALLBACK (before_cb), &press);
  g_signal_connect (clock, "after-paint", G_CALLBACK (painted_cb), &press);
  for (int i = 0; i < N_RECORDS; i++)
    {
      double took;

      gtk_editable_set_text (GTK_EDITABLE (entry), "1.84");
      screen_spin (30);
      press = (Press){ .entered = now_ms () };
      bond_reading_entry_key (entry, GDK_KEY_Return, 0, 0);
      wait_for (&press.durable);
      g_assert_cmpfloat (press.durable, >, 0.0);
      wait_for (&press.framed);
      took = press.durable - press.entered;
      g_array_append_val (durable, took);
      add_frame (&press, framed, snapshots);
      window_wait_written (fixture);
    }
  g_signal_handlers_disconnect_by_data (clock, &press);
  g_signal_handlers_disconnect_by_data (survey, &press);
}

static void
measure (WindowFixture *fixture)
{
  g_autoptr (GArray) disk = bare_disk (fixture->folder);
  g_autoptr (GArray) bare_framed = new_times ();
  g_autoptr (GArray) bare_snapshots = new_times ();
  g_autoptr (GArray) durable = new_times ();
  g_autoptr (GArray) framed = new_times ();
  g_autoptr (GArray) snapshots = new_times ();

  bare_frames (bare_framed, bare_snapshots);
  walk (fixture, durable, framed, snapshots);
  say ("bare append and sync", disk);
  say ("Enter to durable (budget 20, p99 50)", durable);
  say ("bare window: asked to drawn", bare_framed);
  say ("Enter to drawn", framed);
  say ("bare frame, processor", bare_snapshots);
  say ("frame laid out and drawn, processor", snapshots);
  g_print ("ratios of medians: durable %.2f of the disk alone, frame %.2f of a bare frame\n",
           quantile (durable, 0.5) / quantile (disk, 0.5), quantile (snapshots, 0.5) / quantile (bare_snapshots, 0.5));
}

int
main (int argc, char **argv)
{
  WindowFixture fixture = { 0 };
  WindowPoint *points = g_new0 (WindowPoint, N_POINTS);
  WindowPoints all = { points, N_POINTS };

  g_setenv ("GTK_A11Y", "test", TRUE);
  g_setenv ("GSK_RENDERER", "cairo", TRUE);
  g_unsetenv ("DBUS_SESSION_BUS_ADDRESS");
  g_test_init (&argc, &argv, NULL);
  gtk_init ();
  for (int i = 0; i < N_POINTS; i++)
    {
      points[i].number = g_strdup_printf ("521-J%04d", i + 1);
      points[i].limit = "example/J2";
      points[i].condition = BOND_CONDITION_UNDISTURBED;
    }
  window_set_up (&fixture, &all);
  gtk_window_set_default_size (GTK_WINDOW (fixture.window), WIDTH, HEIGHT);
  window_begin (&fixture);
  screen_spin (1000);
  measure (&fixture);
  window_tear_down (&fixture, NULL);
  for (int i = 0; i < N_POINTS; i++)
    g_free ((char *)points[i].number);
  g_free (points);
  return 0;
}
