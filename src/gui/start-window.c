/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * A list, filled by a thread: a slow share must not hold the window up.  Files that
 * cannot be used stay in the list and say why.
 */
#include "gui/start-window.h"
#include "gui/dialog.h"
#include "gui/words.h"
#include "library/library.h"
#include <glib/gi18n-lib.h>

struct _BondStartWindow
{
  GtkApplicationWindow parent_instance;
  GtkListBox *list;
  GtkStack *stack;
  GtkLabel *folder_label;
  GCancellable *cancellable;
};

G_DEFINE_FINAL_TYPE (BondStartWindow, bond_start_window, GTK_TYPE_APPLICATION_WINDOW)

static char *
state_words (const BondSurveySummary *summary)
{
  if (summary->problem != NULL)
    return g_strdup (summary->problem);
  if (summary->fail > 0)
    return g_strdup_printf (_ ("%d to measure or settle, %d fail"), summary->open, summary->fail);
  if (summary->open > 0)
    return g_strdup_printf (_ ("%d of %d done"), summary->done, summary->points);
  return g_strdup_printf (_ ("all %d done"), summary->points);
}

static GtkWidget *
new_label (const char *text, const char *css, gboolean expand)
{
  GtkWidget *label = gtk_label_new (text);

  gtk_label_set_xalign (GTK_LABEL (label), 0);
  gtk_label_set_ellipsize (GTK_LABEL (label), PANGO_ELLIPSIZE_END);
  gtk_widget_set_hexpand (label, expand);
  if (css != NULL)
    gtk_widget_add_css_class (label, css);
  return label;
}

static GtkWidget *
two_lines (const char *first, const char *first_css, const char *second)
{
  GtkWidget *box = gtk_box_new (GTK_ORIENTATION_VERTICAL, 2);

  gtk_box_append (GTK_BOX (box), new_label (first, first_css, TRUE));
  gtk_box_append (GTK_BOX (box), new_label (second, "note", TRUE));
  gtk_widget_set_hexpand (box, TRUE);
  return box;
}

static void
add_row (BondStartWindow *self, const BondSurveySummary *summary)
{
  GtkWidget *box = gtk_box_new (GTK_ORIENTATION_HORIZONTAL, 24);
  GtkWidget *row = gtk_list_box_row_new ();
  g_autofree char *base = g_path_get_basename (summary->path);
  g_autofree char *what
      = g_strdup_printf (_ ("%s, MSN %s"), summary->aircraft_type != NULL ? summary->aircraft_type : "",
                         summary->serial != NULL ? summary->serial : "–");
  g_autofree char *state = state_words (summary);
  g_autofree char *date = bond_words_date (summary->changed_at);
  g_autofree char *title
      = g_strdup_printf ("%s%s%s%s%s", summary->title != NULL ? summary->title : "", summary->title != NULL ? ", " : "",
                         date, summary->invented ? ", " : "", summary->invented ? _ ("invented example data") : "");
  const char *registration = summary->registration != NULL ? summary->registration : base;
  g_autofree char *name = g_strdup_printf ("%s, %s, %s", registration, title, state);

  gtk_box_set_homogeneous (GTK_BOX (box), TRUE);
  gtk_widget_set_margin_start (box, 16);
  gtk_widget_set_margin_end (box, 16);
  gtk_widget_set_margin_top (box, 10);
  gtk_widget_set_margin_bottom (box, 10);
  gtk_box_append (GTK_BOX (box), two_lines (registration, "section", summary->problem != NULL ? base : what));
  gtk_box_append (GTK_BOX (box), two_lines (state, "strong", title));
  gtk_list_box_row_set_child (GTK_LIST_BOX_ROW (row), box);
  g_object_set_data_full (G_OBJECT (row), "path", g_strdup (summary->path), g_free);
  gtk_widget_set_tooltip_text (row, summary->path);
  bond_name_widget (row, name);
  gtk_list_box_append (self->list, row);
}

/* --- the scan --- */

static void
summaries_free (gpointer data)
{
  g_ptr_array_unref (data);
}

static void
scan_thread (GTask *task, gpointer source, gpointer folder, GCancellable *cancellable)
{
  GError *error = NULL;
  GPtrArray *found = bond_library_scan (folder, cancellable, &error);

  if (found != NULL)
    g_task_return_pointer (task, found, summaries_free);
  else
    g_task_return_error (task, error);
}

static gboolean
is_listed (GPtrArray *found, const char *path)
{
  for (guint i = 0; i < found->len; i++)
    if (g_strcmp0 (((BondSurveySummary *)g_ptr_array_index (found, i))->path, path) == 0)
      return TRUE;
  return FALSE;
}

static void
add_recent (BondStartWindow *self, GPtrArray *found)
{
  g_auto (GStrv) recent = bond_library_recent ();

  for (int i = 0; recent != NULL && recent[i] != NULL; i++)
    {
      g_autofree char *base = g_path_get_basename (recent[i]);
      gboolean there = g_file_test (recent[i], G_FILE_TEST_EXISTS);
      BondSurveySummary summary
          = { .path = recent[i], .registration = base, .aircraft_type = (char *)_ ("recent file") };

      if (is_listed (found, recent[i]))
        continue;
      summary.problem = there ? (char *)_ ("outside the library folder") : (char *)_ ("not where it was");
      add_row (self, &summary);
    }
}

static void
scanned_cb (GObject *object, GAsyncResult *result, gpointer data)
{
  BondStartWindow *self = BOND_START_WINDOW (object);
  g_autoptr (GError) error = NULL;
  g_autoptr (GPtrArray) found = g_task_propagate_pointer (G_TASK (result), &error);
  GtkWidget *child;

  if (g_error_matches (error, G_IO_ERROR, G_IO_ERROR_CANCELLED))
    return;
  if (found == NULL)
    found = g_ptr_array_new (); /* no folder yet: that is an empty library */
  while ((child = gtk_widget_get_first_child (GTK_WIDGET (self->list))) != NULL)
    gtk_list_box_remove (self->list, child);
  for (guint i = 0; i < found->len; i++)
    add_row (self, g_ptr_array_index (found, i));
  add_recent (self, found);
  gtk_stack_set_visible_child_name (self->stack,
                                    gtk_widget_get_first_child (GTK_WIDGET (self->list)) != NULL ? "list" : "empty");
}

static void
scan (BondStartWindow *self)
{
  BondApplication *application = BOND_APPLICATION (gtk_window_get_application (GTK_WINDOW (self)));
  g_autoptr (GTask) task = NULL;

  if (application == NULL)
    return;
  g_cancellable_cancel (self->cancellable);
  g_set_object (&self->cancellable, NULL);
  self->cancellable = g_cancellable_new ();
  task = g_task_new (self, self->cancellable, scanned_cb, NULL);
  g_task_set_task_data (task, g_strdup (bond_application_get_folder (application)), g_free);
  g_task_run_in_thread (task, scan_thread);
}

static void
row_activated_cb (BondStartWindow *self, GtkListBoxRow *row)
{
  BondApplication *application = BOND_APPLICATION (gtk_window_get_application (GTK_WINDOW (self)));

  if (bond_application_open_survey (application, g_object_get_data (G_OBJECT (row), "path")) != NULL)
    gtk_window_close (GTK_WINDOW (self));
}

static void
active_cb (BondStartWindow *self)
{
  if (gtk_window_is_active (GTK_WINDOW (self)))
    scan (self);
}

static void
bond_start_window_dispose (GObject *object)
{
  BondStartWindow *self = BOND_START_WINDOW (object);

  g_cancellable_cancel (self->cancellable);
  g_clear_object (&self->cancellable);
  G_OBJECT_CLASS (bond_start_window_parent_class)->dispose (object);
}

static void
bond_start_window_class_init (BondStartWindowClass *klass)
{
  GtkWidgetClass *widget_class = GTK_WIDGET_CLASS (klass);

  G_OBJECT_CLASS (klass)->dispose = bond_start_window_dispose;
  gtk_widget_class_set_template_from_resource (widget_class, BOND_UI "start-window.ui");
  gtk_widget_class_bind_template_child (widget_class, BondStartWindow, list);
  gtk_widget_class_bind_template_child (widget_class, BondStartWindow, stack);
  gtk_widget_class_bind_template_child (widget_class, BondStartWindow, folder_label);
  gtk_widget_class_bind_template_callback (widget_class, row_activated_cb);
}

static void
bond_start_window_init (BondStartWindow *self)
{
  gtk_widget_init_template (GTK_WIDGET (self));
  self->cancellable = g_cancellable_new ();
  g_signal_connect (self, "notify::is-active", G_CALLBACK (active_cb), NULL);
}

BondStartWindow *
bond_start_window_show (BondApplication *application)
{
  BondStartWindow *self = NULL;

  g_return_val_if_fail (BOND_IS_APPLICATION (application), NULL);
  for (GList *l = gtk_application_get_windows (GTK_APPLICATION (application)); l != NULL; l = l->next)
    if (BOND_IS_START_WINDOW (l->data))
      self = l->data;
  if (self == NULL)
    {
      self = g_object_new (BOND_TYPE_START_WINDOW, "application", application, NULL);
      gtk_label_set_text (self->folder_label, bond_application_get_folder (application));
      scan (self);
    }
  gtk_window_present (GTK_WINDOW (self));
  return self;
}
