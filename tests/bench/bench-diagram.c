/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * How long a diagram with 10,000 marks takes on an image surface: the airframe by
 * itself, the marks drawn as paths, the marks stamped from small pictures as a window
 * does, and bare rectangles for comparison.  Prints; never fails for being slow.
 */
#include "report/diagram-painter.h"
#include "store/catalog.h"

#define WIDTH 1500
#define HEIGHT 900
#define N_MARKS 10000
#define ROUNDS 7
#define STAMP 24

typedef struct
{
  cairo_t *cr;
  const BondAirframe *airframe;
  const BondView *view;
  cairo_surface_t *stamp[BOND_N_MARKS];
} Bench;

static double
place_x (int i)
{
  return 20 + i * 37 % (WIDTH - 40);
}

static double
place_y (int i)
{
  return 20 + i * 61 % (HEIGHT - 40);
}

static void
draw_airframe (Bench *bench)
{
  BondDiagramStyle style
      = { .inks = bond_inks_light (), .font = "Sans", .scale = HEIGHT / bench->view->height, .label_size = 9 };

  cairo_save (bench->cr);
  cairo_scale (bench->cr, style.scale, style.scale);
  bond_diagram_paint (bench->cr, bench->airframe, bench->view, &style);
  cairo_restore (bench->cr);
}

static void
draw_marks (Bench *bench)
{
  int i;

  for (i = 0; i < N_MARKS; i++)
    bond_mark_draw (bench->cr, (BondMark)(i % BOND_N_MARKS), place_x (i), place_y (i), 11, bond_inks_light ());
}

static void
draw_stamps (Bench *bench)
{
  int i;

  for (i = 0; i < N_MARKS; i++)
    {
      cairo_set_source_surface (bench->cr, bench->stamp[i % BOND_N_MARKS], (int)place_x (i) - STAMP / 2,
                                (int)place_y (i) - STAMP / 2);
      cairo_paint (bench->cr);
    }
}

static void
draw_rectangles (Bench *bench)
{
  int i;

  cairo_set_source_rgb (bench->cr, 0, 0, 0);
  for (i = 0; i < N_MARKS; i++)
    {
      cairo_rectangle (bench->cr, (int)place_x (i), (int)place_y (i), 11, 5);
      cairo_fill (bench->cr);
    }
}

static double
median_ms (Bench *bench, void (*draw) (Bench *bench))
{
  double ms[ROUNDS];
  int i, j;

  for (i = 0; i < ROUNDS; i++)
    {
      gint64 start = g_get_monotonic_time ();
      double took;

      draw (bench);
      cairo_surface_flush (cairo_get_target (bench->cr));
      took = (double)(g_get_monotonic_time () - start) / 1e3;
      for (j = i; j > 0 && ms[j - 1] > took; j--)
        ms[j] = ms[j - 1];
      ms[j] = took;
    }
  return ms[ROUNDS / 2];
}

static void
make_stamps (Bench *bench)
{
  int i;

  for (i = 0; i < BOND_N_MARKS; i++)
    {
      cairo_t *cr;

      bench->stamp[i] = cairo_image_surface_create (CAIRO_FORMAT_ARGB32, STAMP, STAMP);
      cr = cairo_create (bench->stamp[i]);
      bond_mark_draw (cr, (BondMark)i, STAMP / 2.0, STAMP / 2.0, 11, bond_inks_light ());
      cairo_destroy (cr);
    }
}

int
main (void)
{
  g_autoptr (BondCatalog) catalog = bond_catalog_new (NULL, NULL);
  Bench bench = { .airframe = bond_catalog_find (catalog, BOND_ADOPT_AIRFRAME, "generic-jet-transport") };
  cairo_surface_t *surface = cairo_image_surface_create (CAIRO_FORMAT_ARGB32, WIDTH, HEIGHT);
  double airframe, paths, stamps, bare;
  int i;

  bench.view = bond_airframe_find_view (bench.airframe, "plan-upper");
  bench.cr = cairo_create (surface);
  make_stamps (&bench);
  airframe = median_ms (&bench, draw_airframe);
  paths = median_ms (&bench, draw_marks);
  stamps = median_ms (&bench, draw_stamps);
  bare = median_ms (&bench, draw_rectangles);
  g_print ("diagram %dx%d: airframe %.1f ms; %d marks as paths %.1f ms, stamped %.1f ms; bare rectangles %.1f ms; "
           "stamped / bare %.2f (budget: airframe kept, marks 12 ms)\n",
           WIDTH, HEIGHT, airframe, N_MARKS, paths, stamps, bare, stamps / bare);
  for (i = 0; i < BOND_N_MARKS; i++)
    cairo_surface_destroy (bench.stamp[i]);
  cairo_destroy (bench.cr);
  cairo_surface_destroy (surface);
  return 0;
}
