/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * What a frame of the diagram costs: drawing alone on an image, and whole frames of
 * a window while it is panned, with no marks, 3,000 and 10,000, beside the frame of
 * a window that draws one rectangle.  Processor time of this thread, so that other
 * work on the machine does not show.
 */
#include "../gui/plane.h"
#include "../gui/screen.h"
#include "gui/widgets/diagram-private.h"

#include <time.h>

#define WIDTH 1500
#define HEIGHT 900
#define VIEW "plan-upper"
#define FRAMES 25

static double
thread_ms (void)
{
  struct timespec now;

  clock_gettime (CLOCK_THREAD_CPUTIME_ID, &now);
  return (double)now.tv_sec * 1e3 + (double)now.tv_nsec / 1e6;
}

typedef struct
{
  double start, total;
  guint n_frames;
} FrameTimer;

static void
before_cb (GdkFrameClock *clock, gpointer data)
{
  ((FrameTimer *)data)->start = thread_ms ();
}

static void
after_cb (GdkFrameClock *clock, gpointer data)
{
  FrameTimer *timer = data;

  timer->total += thread_ms () - timer->start;
  timer->n_frames++;
}

static void
pan (GtkWidget *widget, guint step)
{
  if (!BOND_IS_DIAGRAM (widget))
    {
      gtk_widget_queue_draw (widget);
      return;
    }
  bond_diagram_grip_begin (BOND_DIAGRAM (widget), 2, 2);
  bond_diagram_grip_update (BOND_DIAGRAM (widget), 2 + (step % 2 ? 12 : -12), 2);
  bond_diagram_grip_end (BOND_DIAGRAM (widget));
}

/* Milliseconds a frame of @widget while it is panned. */
static double
frame_ms (GtkWidget *widget)
{
  GdkFrameClock *clock = gtk_widget_get_frame_clock (widget);
  FrameTimer timer = { 0 };
  gulong before, after;
  guint i;

  for (i = 0; i < 5; i++)
    {
      pan (widget, i);
      screen_spin (20);
    }
  before = g_signal_connect (clock, "before-paint", G_CALLBACK (before_cb), &timer);
  after = g_signal_connect (clock, "after-paint", G_CALLBACK (after_cb), &timer);
  for (i = 0; timer.n_frames < FRAMES && i < 20 * FRAMES; i++)
    {
      pan (widget, i);
      screen_spin (20);
    }
  g_signal_handler_disconnect (clock, before);
  g_signal_handler_disconnect (clock, after);
  return timer.n_frames > 0 ? timer.total / timer.n_frames : 0.0;
}

/* Milliseconds of drawing alone, without GTK; @anew: the outline is drawn too, as after a zoom. */
static double
draw_ms (BondDiagram *diagram, gboolean anew)
{
  cairo_surface_t *surface = cairo_image_surface_create (CAIRO_FORMAT_ARGB32, WIDTH, HEIGHT);
  cairo_t *cr = cairo_create (surface);
  double start;
  guint i;

  bond_diagram_draw_base (diagram, cr);
  bond_diagram_draw_base (diagram, cr);
  start = thread_ms ();
  for (i = 0; i < FRAMES; i++)
    {
      if (anew)
        bond_outline_cache_drop (diagram->outline);
      bond_diagram_draw_base (diagram, cr);
    }
  cairo_destroy (cr);
  cairo_surface_destroy (surface);
  return (thread_ms () - start) / FRAMES;
}

static void
fill_cb (GtkDrawingArea *area, cairo_t *cr, int width, int height, gpointer data)
{
  guint *n = data;

  cairo_set_source_rgb (cr, (*n)++ % 2 ? 1.0 : 0.9, 1.0, 1.0);
  cairo_paint (cr);
}

/* A window that changes all its pixels and draws nothing. */
static double
bare_frame (void)
{
  GtkWidget *box = gtk_drawing_area_new ();
  guint n = 0;
  GtkWindow *window;
  double ms;

  gtk_drawing_area_set_draw_func (GTK_DRAWING_AREA (box), fill_cb, &n, NULL);
  window = screen_show (box, WIDTH, HEIGHT);
  ms = frame_ms (box);
  gtk_window_destroy (window);
  return ms;
}

static void
measure (guint n_marks, double bare, double *without)
{
  g_autoptr (BondSurvey) survey = plane_survey_new ("generic-jet-transport");
  GtkWidget *diagram = bond_diagram_new ();
  GtkWindow *window;
  double frame;

  if (n_marks > 0)
    plane_add_points (survey, VIEW, n_marks);
  bond_diagram_set_survey (BOND_DIAGRAM (diagram), survey);
  window = screen_show (diagram, WIDTH, HEIGHT);
  g_print ("%6u marks: drawing %6.2f ms, with the outline anew %6.2f ms\n", n_marks,
           draw_ms (BOND_DIAGRAM (diagram), FALSE), draw_ms (BOND_DIAGRAM (diagram), TRUE));
  frame = frame_ms (diagram);
  if (n_marks == 0)
    *without = frame;
  g_print ("%6u marks: frame %6.2f ms, %.2f of the frame without, %.2f of a bare frame\n", n_marks, frame,
           frame / *without, frame / bare);
  bond_diagram_zoom (BOND_DIAGRAM (diagram), 4.0);
  screen_spin (50);
  g_print ("%6u marks: close-up frame %6.2f ms\n", n_marks, frame_ms (diagram));
  gtk_window_destroy (window);
}

int
main (int argc, char **argv)
{
  double bare, without = 1.0;

  gtk_init ();
  bare = bare_frame ();
  g_print ("bare frame of %d x %d: %.2f ms\n", WIDTH, HEIGHT, bare);
  measure (0, bare, &without);
  measure (3000, bare, &without);
  measure (10000, bare, &without);
  return 0;
}
