/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * Looks at the library folder in a thread, lists what it found, and looks again when
 * something changed on disk or the window gets the focus back.  What a row is made of
 * is rows.c's, what is done to a file surveys-acts.c's.
 */
#include "gui/dialog.h"
#include "gui/start/surveys-private.h"
#include "gui/words.h"
#include <glib/gi18n-lib.h>

#define TELL_MS 100
#define REST_MS 700

G_DEFINE_FINAL_TYPE (BondSurveysPage, bond_surveys_page, GTK_TYPE_BOX)

/* --- the rows --- */

static GtkWidget *
row_of_path (BondSurveysPage *self, const char *path)
{
  for (GtkWidget *row = gtk_widget_get_first_child (GTK_WIDGET (self->list)); row != NULL;
       row = gtk_widget_get_next_sibling (row))
    if (GTK_IS_LIST_BOX_ROW (row) && g_strcmp0 (bond_start_row_path (row), path) == 0)
      return row;
  return NULL;
}

static GtkWidget *
focused_row (BondSurveysPage *self)
{
  GtkRoot *root = gtk_widget_get_root (GTK_WIDGET (self));
  GtkWidget *focus = root != NULL ? gtk_root_get_focus (root) : NULL;

  while (focus != NULL && !GTK_IS_LIST_BOX_ROW (focus))
    focus = gtk_widget_get_parent (focus);
  return focus != NULL && gtk_widget_is_ancestor (focus, GTK_WIDGET (self->list)) ? focus : NULL;
}

static gboolean
filter_cb (GtkListBoxRow *row, gpointer data)
{
  BondSurveysPage *self = data;

  return bond_start_row_matches (GTK_WIDGET (row), gtk_editable_get_text (GTK_EDITABLE (self->search)),
                                 gtk_toggle_button_get_active (self->filters[BOND_FILTER_OPEN]),
                                 gtk_toggle_button_get_active (self->filters[BOND_FILTER_LOOK]));
}

/* A heading where the files that need a look begin. */
static void
header_cb (GtkListBoxRow *row, GtkListBoxRow *before, gpointer data)
{
  gboolean begins = bond_start_row_is_problem (GTK_WIDGET (row))
                    && (before == NULL || !bond_start_row_is_problem (GTK_WIDGET (before)));
  GtkWidget *heading = begins ? bond_start_label (_ ("Files that need a look"), "section") : NULL;

  if (heading != NULL)
    {
      gtk_widget_set_margin_top (heading, before != NULL ? 20 : 8);
      gtk_widget_set_margin_bottom (heading, 4);
    }
  gtk_list_box_row_set_header (row, heading);
}

static void
renew_header (BondSurveysPage *self, const BondStartColumns *columns, gboolean any)
{
  GtkWidget *old = gtk_widget_get_first_child (GTK_WIDGET (self->header));

  if (old != NULL)
    gtk_box_remove (self->header, old);
  if (any)
    gtk_box_append (self->header, bond_aircraft_row_header (columns));
}

static void
fill (BondSurveysPage *self)
{
  g_autoptr (GPtrArray) aircraft = bond_library_aircraft (self->found);
  g_autoptr (GtkSizeGroup) act = gtk_size_group_new (GTK_SIZE_GROUP_HORIZONTAL);
  g_autofree char *now = bond_source_now (self->source);
  BondStartColumns columns = { act, bond_time_span_of (aircraft, now) };
  GtkWidget *child;

  while ((child = gtk_widget_get_first_child (GTK_WIDGET (self->list))) != NULL && GTK_IS_LIST_BOX_ROW (child))
    gtk_list_box_remove (self->list, child);
  renew_header (self, &columns, aircraft->len > 0);
  for (guint i = 0; i < aircraft->len; i++)
    gtk_list_box_append (self->list, bond_aircraft_row_new (aircraft->pdata[i], &columns));
  for (guint i = 0; i < self->found->len; i++)
    if (((BondSurveySummary *)self->found->pdata[i])->trouble != BOND_TROUBLE_NONE
        && !bond_surveys_is_own (self, self->found->pdata[i]))
      gtk_list_box_append (self->list, bond_problem_row_new (self->found->pdata[i]));
  gtk_stack_set_visible_child_name (self->stack, self->found->len > 0 ? "list" : "empty");
}

/* --- what is said when nothing is listed --- */

static void
say_nothing_matches (BondSurveysPage *self)
{
  const char *text = gtk_editable_get_text (GTK_EDITABLE (self->search));
  g_autofree char *words = *text != '\0' ? g_strdup_printf (_ ("No survey matches “%s”."), text)
                                         : g_strdup (_ ("No survey is of that kind."));

  gtk_label_set_text (self->nothing, words);
}

static void
filter_changed_cb (BondSurveysPage *self)
{
  say_nothing_matches (self);
  gtk_list_box_invalidate_filter (self->list);
  gtk_list_box_invalidate_headers (self->list);
}

/* --- the look --- */

typedef struct
{
  char *folder;
  GStrv recent;
  GPtrArray *known;
  BondScanProgress *progress;
} Look;

static void
look_free (gpointer data)
{
  Look *look = data;

  g_free (look->folder);
  g_strfreev (look->recent);
  g_clear_pointer (&look->known, g_ptr_array_unref);
  g_atomic_rc_box_release (look->progress);
  g_free (look);
}

static void
summaries_free (gpointer data)
{
  g_ptr_array_unref (data);
}

static void
look_thread (GTask *task, gpointer source, gpointer data, GCancellable *cancellable)
{
  Look *look = data;
  GError *error = NULL;
  GPtrArray *found = bond_library_scan_again (look->folder, (const char *const *)look->recent, look->known,
                                              look->progress, cancellable, &error);

  if (found != NULL)
    g_task_return_pointer (task, found, summaries_free);
  else
    g_task_return_error (task, error);
}

/* Rows are made anew only when there is something new: whoever reads them must not lose the place. */
static gboolean
is_the_same (GPtrArray *a, GPtrArray *b)
{
  if (a == NULL || a->len != b->len)
    return FALSE;
  for (guint i = 0; i < a->len; i++)
    {
      const BondSurveySummary *first = a->pdata[i], *second = b->pdata[i];

      if (g_strcmp0 (first->path, second->path) != 0 || g_strcmp0 (first->stamp, second->stamp) != 0
          || first->trouble != second->trouble || first->recent != second->recent)
        return FALSE;
    }
  return TRUE;
}

/* A window that opens gives the keys to its side; the first row is what they are for. */
static gboolean
wants_focus (BondSurveysPage *self, gboolean first)
{
  GtkRoot *root = gtk_widget_get_root (GTK_WIDGET (self));
  GtkWidget *focus = root != NULL ? gtk_root_get_focus (root) : NULL;

  return gtk_widget_get_mapped (GTK_WIDGET (self))
         && (focus == NULL || (first && !gtk_widget_is_ancestor (focus, GTK_WIDGET (self))));
}

static void
show_found (BondSurveysPage *self, GPtrArray *found)
{
  gboolean first = self->found == NULL;
  GtkWidget *row = focused_row (self);
  g_autofree char *path = row != NULL ? g_strdup (bond_start_row_path (row)) : NULL;
  gboolean same = is_the_same (self->found, found);

  g_clear_pointer (&self->found, g_ptr_array_unref);
  self->found = g_ptr_array_ref (found);
  if (same)
    return;
  fill (self);
  row = path != NULL ? row_of_path (self, path) : NULL;
  if (row == NULL)
    row = GTK_WIDGET (gtk_list_box_get_row_at_index (self->list, 0));
  if (row != NULL && (path != NULL || wants_focus (self, first)))
    gtk_widget_grab_focus (row);
}

static void
stop_telling (BondSurveysPage *self)
{
  if (self->tell_id != 0)
    g_source_remove (self->tell_id);
  self->tell_id = 0;
  gtk_widget_set_visible (self->progress_box, FALSE);
}

static void
looked_cb (GObject *object, GAsyncResult *result, gpointer data)
{
  BondSurveysPage *self = BOND_SURVEYS_PAGE (object);
  g_autoptr (GError) error = NULL;
  g_autoptr (GPtrArray) found = g_task_propagate_pointer (G_TASK (result), &error);
  gboolean stopped;

  if (g_error_matches (error, G_IO_ERROR, G_IO_ERROR_CANCELLED))
    return;
  stopped = g_atomic_int_get (&self->progress->stop) != 0;
  stop_telling (self);
  g_clear_pointer (&self->progress, g_atomic_rc_box_release);
  if (found != NULL)
    show_found (self, found);
  else
    {
      bond_surveys_tell (self, error->message);
      gtk_stack_set_visible_child_name (self->stack, self->found != NULL && self->found->len > 0 ? "list" : "empty");
    }
  if (stopped)
    bond_surveys_tell (self, _ ("The look through the folder was stopped; some surveys may be missing from this list. "
                                "It goes on when the window gets the focus again."));
  if (self->look_again && !stopped)
    bond_surveys_page_look (self);
}

/* Under a second nothing is said; then how many, and a way to stop it. */
static gboolean
tell_cb (gpointer data)
{
  BondSurveysPage *self = data;
  int done = g_atomic_int_get (&self->progress->done), total = g_atomic_int_get (&self->progress->total);
  g_autofree char *text = total > 0 ? g_strdup_printf (_ ("Looking for surveys, %d of %d read"), done, total)
                                    : g_strdup (_ ("Looking for surveys"));

  if (g_get_monotonic_time () - self->look_began < self->patience_ms * 1000)
    return G_SOURCE_CONTINUE;
  gtk_label_set_text (self->progress_label, text);
  gtk_progress_bar_set_fraction (self->progress_bar, total > 0 ? (double)done / total : 0);
  bond_name_widget (self->progress_bar, text);
  gtk_widget_set_visible (self->progress_box, TRUE);
  return G_SOURCE_CONTINUE;
}

static void
stop_clicked_cb (BondSurveysPage *self)
{
  if (self->progress != NULL)
    g_atomic_int_set (&self->progress->stop, 1);
}

void
bond_surveys_page_look (BondSurveysPage *self)
{
  g_autoptr (GTask) task = NULL;
  Look *look;

  g_return_if_fail (BOND_IS_SURVEYS_PAGE (self));
  self->look_again = self->progress != NULL;
  if (self->progress != NULL)
    return;
  self->progress = g_atomic_rc_box_new0 (BondScanProgress);
  self->look_began = g_get_monotonic_time ();
  look = g_new0 (Look, 1);
  look->folder = g_strdup (bond_application_get_folder (self->application));
  look->recent = bond_library_recent ();
  look->known = self->found != NULL ? g_ptr_array_ref (self->found) : NULL;
  look->progress = g_atomic_rc_box_acquire (self->progress);
  self->tell_id = g_timeout_add (TELL_MS, tell_cb, self);
  task = g_task_new (self, self->cancellable, looked_cb, NULL);
  g_task_set_task_data (task, look, look_free);
  g_task_run_in_thread (task, look_thread);
}

gboolean
bond_surveys_page_is_looking (BondSurveysPage *self)
{
  g_return_val_if_fail (BOND_IS_SURVEYS_PAGE (self), FALSE);
  return self->progress != NULL;
}

/* --- what changes on disk --- */

static gboolean
rested_cb (gpointer data)
{
  BondSurveysPage *self = data;

  self->rest_id = 0;
  bond_surveys_page_look (self);
  return G_SOURCE_REMOVE;
}

/* A save makes several changes one after another: look when they are over. */
static void
disk_changed_cb (BondSurveysPage *self)
{
  if (self->rest_id == 0)
    self->rest_id = g_timeout_add (REST_MS, rested_cb, self);
}

static void
watch_folder (BondSurveysPage *self)
{
  g_autoptr (GFile) folder = g_file_new_for_path (bond_application_get_folder (self->application));

  /* Where a folder cannot be watched (some shares), the look at each focus has to do. */
  self->monitor = g_file_monitor_directory (folder, G_FILE_MONITOR_WATCH_MOVES, NULL, NULL);
  if (self->monitor != NULL)
    g_signal_connect_swapped (self->monitor, "changed", G_CALLBACK (disk_changed_cb), self);
}

/* --- the page --- */

static void
row_activated_cb (BondSurveysPage *self, GtkListBoxRow *row)
{
  if (bond_start_row_opens (GTK_WIDGET (row)))
    gtk_widget_activate_action (GTK_WIDGET (self), "surveys.open", "s", bond_start_row_path (GTK_WIDGET (row)));
}

/* Typing searches wherever the focus is in the window, while this is the page that is shown. */
static void
mapped_cb (BondSurveysPage *self)
{
  gtk_search_entry_set_key_capture_widget (self->search, GTK_WIDGET (gtk_widget_get_root (GTK_WIDGET (self))));
}

static void
unmapped_cb (BondSurveysPage *self)
{
  gtk_search_entry_set_key_capture_widget (self->search, NULL);
}

static gboolean
delete_cb (GtkWidget *widget, GVariant *args, gpointer data)
{
  BondSurveysPage *self = BOND_SURVEYS_PAGE (data);
  GtkWidget *row = focused_row (self);

  if (row != NULL)
    gtk_widget_activate_action (GTK_WIDGET (self), "surveys.forget", "s", bond_start_row_path (row));
  return row != NULL;
}

static void
bond_surveys_page_dispose (GObject *object)
{
  BondSurveysPage *self = BOND_SURVEYS_PAGE (object);

  g_cancellable_cancel (self->cancellable);
  g_clear_object (&self->cancellable);
  g_clear_object (&self->monitor);
  if (self->progress != NULL)
    {
      g_atomic_int_set (&self->progress->stop, 1);
      stop_telling (self);
    }
  g_clear_handle_id (&self->rest_id, g_source_remove);
  g_clear_handle_id (&self->busy_id, g_source_remove);
  g_clear_pointer (&self->progress, g_atomic_rc_box_release);
  g_clear_pointer (&self->found, g_ptr_array_unref);
  g_clear_pointer (&self->source, bond_source_unref);
  g_clear_pointer (&self->opening, g_free);
  G_OBJECT_CLASS (bond_surveys_page_parent_class)->dispose (object);
}

static void
bond_surveys_page_class_init (BondSurveysPageClass *klass)
{
  GtkWidgetClass *widget_class = GTK_WIDGET_CLASS (klass);

  G_OBJECT_CLASS (klass)->dispose = bond_surveys_page_dispose;
  gtk_widget_class_set_template_from_resource (widget_class, BOND_UI "surveys-page.ui");
  gtk_widget_class_bind_template_child (widget_class, BondSurveysPage, list);
  gtk_widget_class_bind_template_child (widget_class, BondSurveysPage, stack);
  gtk_widget_class_bind_template_child (widget_class, BondSurveysPage, search);
  gtk_widget_class_bind_template_child (widget_class, BondSurveysPage, header);
  gtk_widget_class_bind_template_child (widget_class, BondSurveysPage, nothing);
  gtk_widget_class_bind_template_child (widget_class, BondSurveysPage, legend);
  gtk_widget_class_bind_template_child (widget_class, BondSurveysPage, due);
  gtk_widget_class_bind_template_child (widget_class, BondSurveysPage, told);
  gtk_widget_class_bind_template_child (widget_class, BondSurveysPage, folder);
  gtk_widget_class_bind_template_child (widget_class, BondSurveysPage, progress_box);
  gtk_widget_class_bind_template_child (widget_class, BondSurveysPage, progress_label);
  gtk_widget_class_bind_template_child (widget_class, BondSurveysPage, progress_bar);
  gtk_widget_class_bind_template_child_full (widget_class, "filter_all", FALSE,
                                             G_STRUCT_OFFSET (BondSurveysPage, filters[BOND_FILTER_ALL]));
  gtk_widget_class_bind_template_child_full (widget_class, "filter_open", FALSE,
                                             G_STRUCT_OFFSET (BondSurveysPage, filters[BOND_FILTER_OPEN]));
  gtk_widget_class_bind_template_child_full (widget_class, "filter_look", FALSE,
                                             G_STRUCT_OFFSET (BondSurveysPage, filters[BOND_FILTER_LOOK]));
  gtk_widget_class_bind_template_callback (widget_class, row_activated_cb);
  gtk_widget_class_bind_template_callback (widget_class, filter_changed_cb);
  gtk_widget_class_bind_template_callback (widget_class, stop_clicked_cb);
}

static void
bond_surveys_page_init (BondSurveysPage *self)
{
  GtkEventController *keys = gtk_shortcut_controller_new ();

  gtk_widget_init_template (GTK_WIDGET (self));
  self->patience_ms = BOND_PATIENCE_MS;
  self->cancellable = g_cancellable_new ();
  gtk_list_box_set_filter_func (self->list, filter_cb, self, NULL);
  gtk_list_box_set_header_func (self->list, header_cb, self, NULL);
  gtk_list_box_set_placeholder (self->list, GTK_WIDGET (self->nothing));
  g_signal_connect (self, "map", G_CALLBACK (mapped_cb), NULL);
  g_signal_connect (self, "unmap", G_CALLBACK (unmapped_cb), NULL);
  gtk_shortcut_controller_add_shortcut (
      GTK_SHORTCUT_CONTROLLER (keys),
      gtk_shortcut_new (gtk_keyval_trigger_new (GDK_KEY_Delete, 0), gtk_callback_action_new (delete_cb, self, NULL)));
  gtk_widget_add_controller (GTK_WIDGET (self->list), keys);
  bond_surveys_add_legend (self, BOND_TICK_OPEN, _ ("open"));
  bond_surveys_add_legend (self, BOND_TICK_DONE, _ ("nothing open"));
}

GtkWidget *
bond_surveys_page_new (BondApplication *application)
{
  BondSurveysPage *self;

  g_return_val_if_fail (BOND_IS_APPLICATION (application), NULL);
  self = g_object_new (BOND_TYPE_SURVEYS_PAGE, NULL);
  self->application = application;
  self->source = bond_source_ref (bond_application_get_source (application));
  gtk_label_set_text (self->folder, bond_application_get_folder (application));
  gtk_widget_set_tooltip_text (GTK_WIDGET (self->folder), bond_application_get_folder (application));
  bond_surveys_install_acts (self);
  bond_surveys_show_due (self);
  watch_folder (self);
  return GTK_WIDGET (self);
}

GtkListBox *
bond_surveys_page_get_list (BondSurveysPage *self)
{
  g_return_val_if_fail (BOND_IS_SURVEYS_PAGE (self), NULL);
  return self->list;
}

GtkEditable *
bond_surveys_page_get_search (BondSurveysPage *self)
{
  g_return_val_if_fail (BOND_IS_SURVEYS_PAGE (self), NULL);
  return GTK_EDITABLE (self->search);
}
