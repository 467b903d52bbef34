/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * Widgets on a test's screen: shows one at a given size and reads back what it drew.
 */
#pragma once

#include "report/marks.h"
#include <gtk/gtk.h>

G_BEGIN_DECLS

/** screen_show: @widget alone in a window, @width × @height pixels; returns when it has its size. Ends with
 * gtk_window_destroy(). */
GtkWindow *screen_show (GtkWidget *widget, int width, int height);
/** screen_picture: what @widget draws, as an image surface of its size over @ground. (transfer full) */
cairo_surface_t *screen_picture (GtkWidget *widget, const BondRgb *ground);
/** screen_is_ink: whether the pixel is @ink, give or take what antialiasing leaves (24 of 255). */
gboolean screen_is_ink (cairo_surface_t *picture, int x, int y, const BondRgb *ink);
/** screen_count_ink: pixels of @ink in the rectangle. */
guint screen_count_ink (cairo_surface_t *picture, int x, int y, int width, int height, const BondRgb *ink);
/** screen_spin: runs the main loop for @ms milliseconds. */
void screen_spin (guint ms);

G_END_DECLS
