/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * Turns millimetres into a small style sheet.  The sheet holds for the display; a
 * window on a second monitor writes it anew when it is the one in use, which is the
 * one the fingers are on.
 */
#include "gui/big-targets.h"
#include "gui/taste.h"

#define MM_PER_INCH 25.4
#define USUAL_DPI 96.0
#define LEAST_DPI 50.0
#define MOST_DPI 400.0
#define LEAST_PX 44
#define SHEET_KEY "bond-big-targets"

int
bond_big_targets_px (double mm, int width_mm, int width_px, gboolean least)
{
  double dpi = width_mm > 0 ? width_px * MM_PER_INCH / width_mm : USUAL_DPI;
  int px;

  if (dpi < LEAST_DPI || dpi > MOST_DPI)
    dpi = USUAL_DPI;
  px = (int)(mm * dpi / MM_PER_INCH + 0.5);
  return least ? MAX (px, LEAST_PX) : MAX (px, 1);
}

int
bond_big_targets_of (GtkWidget *widget, double mm, gboolean least)
{
  GtkNative *native = gtk_widget_get_native (widget);
  GdkSurface *surface = native != NULL ? gtk_native_get_surface (native) : NULL;
  GdkMonitor *monitor
      = surface != NULL ? gdk_display_get_monitor_at_surface (gtk_widget_get_display (widget), surface) : NULL;
  GdkRectangle geometry = { 0 };

  if (monitor == NULL)
    return bond_big_targets_px (mm, 0, 0, least);
  gdk_monitor_get_geometry (monitor, &geometry);
  return bond_big_targets_px (mm, gdk_monitor_get_width_mm (monitor), geometry.width, least);
}

static GtkCssProvider *
sheet_of (GdkDisplay *display)
{
  GtkCssProvider *sheet = g_object_get_data (G_OBJECT (display), SHEET_KEY);

  if (sheet != NULL)
    return sheet;
  sheet = gtk_css_provider_new ();
  g_object_set_data_full (G_OBJECT (display), SHEET_KEY, sheet, g_object_unref);
  gtk_style_context_add_provider_for_display (display, GTK_STYLE_PROVIDER (sheet),
                                              GTK_STYLE_PROVIDER_PRIORITY_APPLICATION + 1);
  return sheet;
}

/* What is pressed is @px high and wide; borders and paddings are inside that. */
static void
write_sheet (GtkWidget *window)
{
  int px = bond_big_targets_of (window, bond_taste_target_mm (bond_taste_get ()), TRUE);
  g_autofree char *text
      = g_strdup_printf (".big-targets button, .big-targets modelbutton, .big-targets checkbutton,"
                         ".big-targets searchentry, .big-targets .points row, .big-targets .start-side row { "
                         "min-height: %dpx; padding-top: 0; padding-bottom: 0; }"
                         ".big-targets button { min-width: %dpx; }"
                         ".big-targets windowcontrols button, .big-targets .pinned button, .big-targets entry button"
                         " { min-height: 24px; min-width: 24px; }",
                         px - 2, px - 26);

  gtk_css_provider_load_from_data (sheet_of (gtk_widget_get_display (window)), text, -1);
}

static void
follow_cb (GtkWidget *window)
{
  gboolean big = bond_taste_is (bond_taste_get (), "big-targets");

  (big ? gtk_widget_add_css_class : gtk_widget_remove_css_class) (window, "big-targets");
  if (big)
    write_sheet (window);
}

static void
realized_cb (GtkWidget *window)
{
  follow_cb (window);
  g_signal_connect_object (gtk_native_get_surface (GTK_NATIVE (window)), "enter-monitor", G_CALLBACK (follow_cb),
                           window, G_CONNECT_SWAPPED);
}

void
bond_big_targets_follow (GtkWindow *window)
{
  BondTaste *taste = bond_taste_get ();

  g_return_if_fail (GTK_IS_WINDOW (window));
  g_signal_connect_object (taste, "notify::big-targets", G_CALLBACK (follow_cb), window, G_CONNECT_SWAPPED);
  g_signal_connect_object (taste, "notify::big-target-mm", G_CALLBACK (follow_cb), window, G_CONNECT_SWAPPED);
  g_signal_connect_after (window, "realize", G_CALLBACK (realized_cb), NULL);
  g_signal_connect (window, "notify::is-active", G_CALLBACK (follow_cb), NULL);
  follow_cb (GTK_WIDGET (window));
}
