/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * Called only after the entry is durable and applied, so that a line here is a
 * promise the file has to keep.  A trace that cannot be written is no reason to
 * disturb anybody.
 */
#include "gui/trace.h"
#include <fcntl.h>
#include <unistd.h>

static void
append (const char *path, const char *text)
{
  g_autofree char *line = g_strdup_printf ("%s\n", text);
  int fd = open (path, O_WRONLY | O_CREAT | O_APPEND | O_CLOEXEC, 0644);

  if (fd < 0)
    return;
  if (write (fd, line, strlen (line)) < 0)
    g_debug ("trace %s: not written", path);
  close (fd);
}

void
bond_trace_entry (const BondEntry *entry)
{
  const char *path = g_getenv ("BONDWRIGHT_TRACE");

  if (path != NULL && entry != NULL)
    append (path, entry->id);
}

static void
painted_cb (GdkFrameClock *clock, gpointer data)
{
  g_signal_handlers_disconnect_by_func (clock, painted_cb, data);
  append (g_getenv ("BONDWRIGHT_FRAME_TRACE"), "first-frame");
}

static void
mapped_cb (GtkWidget *window)
{
  g_signal_handlers_disconnect_by_func (window, mapped_cb, NULL);
  g_signal_connect (gtk_widget_get_frame_clock (window), "after-paint", G_CALLBACK (painted_cb), NULL);
}

void
bond_trace_first_frame (GtkWindow *window)
{
  g_return_if_fail (GTK_IS_WINDOW (window));
  if (g_getenv ("BONDWRIGHT_FRAME_TRACE") != NULL)
    g_signal_connect (window, "map", G_CALLBACK (mapped_cb), NULL);
}

static void
focus_cb (GtkWindow *window)
{
  GtkWidget *focus = gtk_window_get_focus (window);
  GtkWidget *parent = focus != NULL ? gtk_widget_get_parent (focus) : NULL;
  g_autofree char *line = g_strdup_printf ("%s %s", focus != NULL ? G_OBJECT_TYPE_NAME (focus) : "none",
                                           parent != NULL ? G_OBJECT_TYPE_NAME (parent) : "none");

  append (g_getenv ("BONDWRIGHT_FOCUS_TRACE"), line);
}

void
bond_trace_focus (GtkWindow *window)
{
  g_return_if_fail (GTK_IS_WINDOW (window));
  if (g_getenv ("BONDWRIGHT_FOCUS_TRACE") != NULL)
    g_signal_connect (window, "notify::focus-widget", G_CALLBACK (focus_cb), NULL);
}
