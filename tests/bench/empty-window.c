/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * The bare reference for the time to the first frame: a GTK application with an
 * empty window of the same size, which says in the same way when it stands.
 */
#include <gtk/gtk.h>

static void
painted_cb (GdkFrameClock *clock, gpointer data)
{
  g_signal_handlers_disconnect_by_func (clock, painted_cb, data);
  g_file_set_contents (g_getenv ("BONDWRIGHT_FRAME_TRACE"), "first-frame\n", -1, NULL);
}

static void
mapped_cb (GtkWidget *window)
{
  g_signal_connect (gtk_widget_get_frame_clock (window), "after-paint", G_CALLBACK (painted_cb), NULL);
}

static void
activate_cb (GtkApplication *application)
{
  GtkWidget *window = gtk_application_window_new (application);

  gtk_window_set_default_size (GTK_WINDOW (window), 1280, 800);
  g_signal_connect (window, "map", G_CALLBACK (mapped_cb), NULL);
  gtk_window_present (GTK_WINDOW (window));
}

int
main (int argc, char **argv)
{
  g_autoptr (GtkApplication) application = gtk_application_new ("io.github.bondwright.Empty", G_APPLICATION_NON_UNIQUE);

  g_signal_connect (application, "activate", G_CALLBACK (activate_cb), NULL);
  return g_application_run (G_APPLICATION (application), argc, argv);
}
