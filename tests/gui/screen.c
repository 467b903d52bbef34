/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * Shows widgets and reads pixels back, for the tests of the window.
 */
#include "screen.h"

#define PATIENCE_US (5 * G_USEC_PER_SEC)
#define CLOSE_ENOUGH 24

GtkWindow *
screen_show (GtkWidget *widget, int width, int height)
{
  GtkWindow *window = GTK_WINDOW (gtk_window_new ());
  gint64 end = g_get_monotonic_time () + PATIENCE_US;

  gtk_window_set_decorated (window, FALSE);
  gtk_window_set_default_size (window, width, height);
  gtk_window_set_child (window, widget);
  gtk_window_present (window);
  while ((gtk_widget_get_width (widget) == 0 || !gtk_widget_get_mapped (widget)) && g_get_monotonic_time () < end)
    g_main_context_iteration (NULL, FALSE);
  g_assert_cmpint (gtk_widget_get_width (widget), >, 0);
  screen_spin (50);
  return window;
}

static void
painted_cb (GdkFrameClock *clock, gpointer data)
{
  *(gboolean *)data = TRUE;
}

/* GTK hands out the picture of the last frame: wait for one that knows all that was asked for. */
static void
wait_for_frame (GtkWidget *widget)
{
  GdkFrameClock *clock = gtk_widget_get_frame_clock (widget);
  gint64 end = g_get_monotonic_time () + PATIENCE_US;
  gboolean painted = FALSE;
  gulong handler = g_signal_connect (clock, "after-paint", G_CALLBACK (painted_cb), &painted);

  gtk_widget_queue_draw (widget);
  while (!painted && g_get_monotonic_time () < end)
    g_main_context_iteration (NULL, FALSE);
  g_signal_handler_disconnect (clock, handler);
  g_assert_true (painted);
}

cairo_surface_t *
screen_picture (GtkWidget *widget, const BondRgb *ground)
{
  int width, height;
  GtkSnapshot *snapshot = gtk_snapshot_new ();
  cairo_surface_t *surface;
  cairo_t *cr;
  g_autoptr (GdkPaintable) paintable = NULL;
  GskRenderNode *node;

  wait_for_frame (widget);
  width = gtk_widget_get_width (widget); /* not before: the frame may have laid it out anew */
  height = gtk_widget_get_height (widget);
  surface = cairo_image_surface_create (CAIRO_FORMAT_ARGB32, width, height);
  cr = cairo_create (surface);
  paintable = gtk_widget_paintable_new (widget);
  cairo_set_source_rgb (cr, ground->r, ground->g, ground->b);
  cairo_paint (cr);
  gdk_paintable_snapshot (paintable, snapshot, width, height);
  node = gtk_snapshot_free_to_node (snapshot);
  if (node != NULL)
    {
      gsk_render_node_draw (node, cr);
      gsk_render_node_unref (node);
    }
  cairo_destroy (cr);
  cairo_surface_flush (surface);
  return surface;
}

static gboolean
is_near (guint32 channel, double ink)
{
  return ABS ((int)channel - (int)(ink * 255.0 + 0.5)) <= CLOSE_ENOUGH;
}

gboolean
screen_is_ink (cairo_surface_t *picture, int x, int y, const BondRgb *ink)
{
  const guchar *row;
  guint32 pixel;

  if (x < 0 || y < 0 || x >= cairo_image_surface_get_width (picture) || y >= cairo_image_surface_get_height (picture))
    return FALSE;
  row = cairo_image_surface_get_data (picture) + y * cairo_image_surface_get_stride (picture);
  pixel = ((const guint32 *)(gconstpointer)row)[x];
  return is_near (pixel >> 16 & 0xff, ink->r) && is_near (pixel >> 8 & 0xff, ink->g) && is_near (pixel & 0xff, ink->b);
}

guint
screen_count_ink (cairo_surface_t *picture, int x, int y, int width, int height, const BondRgb *ink)
{
  guint count = 0;
  int i, j;

  for (j = y; j < y + height; j++)
    for (i = x; i < x + width; i++)
      count += screen_is_ink (picture, i, j, ink);
  return count;
}

void
screen_spin (guint ms)
{
  gint64 end = g_get_monotonic_time () + (gint64)ms * 1000;

  do
    while (g_main_context_iteration (NULL, FALSE))
      ;
  while (g_get_monotonic_time () < end);
}
