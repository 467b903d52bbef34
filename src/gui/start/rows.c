/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * What a row of the page Surveys is, whatever it shows: its parts, what it opens,
 * what it is found by, and the bar that shows while its survey is being opened.
 */
#include "gui/dialog.h"
#include "gui/start/row-layout.h"
#include "gui/start/rows-private.h"

#define INFO_KEY "bond-row-info"
#define PULSE_MS 120

typedef struct
{
  char *path, *search;
  gboolean opens, is_open, needs_look, is_problem;
  GtkWidget *words, *busy, *bar;
  guint pulse_id;
} Row;

static void
row_free (gpointer data)
{
  Row *row = data;

  if (row->pulse_id != 0)
    g_source_remove (row->pulse_id);
  g_free (row->path);
  g_free (row->search);
  g_free (row);
}

static Row *
row_of (GtkWidget *row)
{
  return g_object_get_data (G_OBJECT (row), INFO_KEY);
}

GtkWidget *
bond_start_label (const char *text, const char *css)
{
  GtkWidget *label = gtk_label_new (text);

  gtk_label_set_xalign (GTK_LABEL (label), 0);
  gtk_label_set_ellipsize (GTK_LABEL (label), PANGO_ELLIPSIZE_END);
  gtk_widget_set_tooltip_text (label, text);
  if (css != NULL)
    gtk_widget_add_css_class (label, css);
  return label;
}

static void
rove_cb (GtkListBox *list, GtkListBoxRow *chosen)
{
  GtkRoot *root = gtk_widget_get_root (GTK_WIDGET (list));
  GtkWidget *focus = root != NULL ? gtk_root_get_focus (root) : NULL;

  if (chosen != NULL)
    gtk_widget_set_can_focus (GTK_WIDGET (chosen), TRUE);
  if (chosen != NULL && focus != NULL && gtk_widget_is_ancestor (focus, GTK_WIDGET (list)))
    gtk_widget_grab_focus (GTK_WIDGET (chosen));
  for (int i = 0; gtk_list_box_get_row_at_index (list, i) != NULL; i++)
    {
      GtkListBoxRow *row = gtk_list_box_get_row_at_index (list, i);

      gtk_widget_set_can_focus (GTK_WIDGET (row), row == chosen);
    }
}

void
bond_list_rove (GtkListBox *list)
{
  g_return_if_fail (GTK_IS_LIST_BOX (list));
  g_signal_connect (list, "row-selected", G_CALLBACK (rove_cb), NULL);
}

GtkWidget *
bond_rows_button (const char *label, const char *action, const char *path, const char *of)
{
  GtkWidget *button = gtk_button_new_with_label (label);
  g_autofree char *name = g_strdup_printf ("%s, %s", label, of);

  gtk_actionable_set_action_name (GTK_ACTIONABLE (button), action);
  gtk_actionable_set_action_target (GTK_ACTIONABLE (button), "s", path);
  gtk_widget_set_valign (button, GTK_ALIGN_CENTER);
  bond_name_widget (button, name);
  return button;
}

void
bond_rows_menu_act (GMenu *menu, const char *label, const char *action, const char *path)
{
  g_autoptr (GMenuItem) item = g_menu_item_new (label, NULL);

  g_menu_item_set_action_and_target (item, action, "s", path);
  g_menu_append_item (menu, item);
}

GtkWidget *
bond_rows_row (GtkWidget *const *parts, gsize n_parts, const char *name, const BondRowInfo *info)
{
  GtkWidget *row = gtk_list_box_row_new ();
  GtkWidget *box = info->in_columns ? bond_row_columns_new () : gtk_box_new (GTK_ORIENTATION_HORIZONTAL, BOND_ROWS_GAP);
  Row *kept = g_new0 (Row, 1);

  kept->path = g_strdup (info->path);
  kept->search = g_utf8_casefold (info->search, -1);
  kept->opens = info->opens;
  kept->is_open = info->is_open;
  kept->is_problem = info->is_problem;
  kept->needs_look = info->needs_look;
  kept->words = info->words;
  kept->busy = gtk_box_new (GTK_ORIENTATION_VERTICAL, 6);
  kept->bar = gtk_progress_bar_new ();
  gtk_widget_set_visible (kept->busy, FALSE);
  gtk_widget_set_valign (kept->busy, GTK_ALIGN_CENTER);
  gtk_box_append (GTK_BOX (kept->busy), bond_start_label (NULL, "strong"));
  gtk_box_append (GTK_BOX (kept->busy), kept->bar);
  g_object_set_data_full (G_OBJECT (row), INFO_KEY, kept, row_free);
  for (gsize i = 0; i < n_parts; i++)
    {
      gtk_box_append (GTK_BOX (box), parts[i]);
      if (parts[i] == info->words)
        gtk_box_append (GTK_BOX (box), kept->busy);
    }
  gtk_widget_add_css_class (row, "start-row");
  gtk_list_box_row_set_child (GTK_LIST_BOX_ROW (row), box);
  bond_name_widget (row, name);
  return row;
}

const char *
bond_start_row_path (GtkWidget *row)
{
  g_return_val_if_fail (GTK_IS_LIST_BOX_ROW (row), NULL);
  return row_of (row)->path;
}

gboolean
bond_start_row_opens (GtkWidget *row)
{
  g_return_val_if_fail (GTK_IS_LIST_BOX_ROW (row), FALSE);
  return row_of (row)->opens;
}

gboolean
bond_start_row_is_problem (GtkWidget *row)
{
  g_return_val_if_fail (GTK_IS_LIST_BOX_ROW (row), FALSE);
  return row_of (row)->is_problem;
}

gboolean
bond_start_row_matches (GtkWidget *row, const char *words, gboolean only_open, gboolean only_look)
{
  const Row *kept = row_of (row);
  g_autofree char *folded = words != NULL ? g_utf8_casefold (words, -1) : NULL;
  g_auto (GStrv) each = g_strsplit (folded != NULL ? folded : "", " ", -1);

  if ((only_open && !kept->is_open) || (only_look && !kept->needs_look))
    return FALSE;
  for (char **word = each; *word != NULL; word++)
    if (strstr (kept->search, *word) == NULL)
      return FALSE;
  return TRUE;
}

static gboolean
pulse_cb (gpointer data)
{
  gtk_progress_bar_pulse (data);
  return G_SOURCE_CONTINUE;
}

void
bond_start_row_busy (GtkWidget *row, const char *text)
{
  Row *kept = row_of (row);
  GtkWidget *label = gtk_widget_get_first_child (kept->busy);

  gtk_widget_set_visible (kept->words, text == NULL);
  gtk_widget_set_visible (kept->busy, text != NULL);
  gtk_label_set_text (GTK_LABEL (label), text != NULL ? text : "");
  gtk_widget_set_tooltip_text (label, text);
  gtk_widget_set_size_request (kept->busy, gtk_widget_get_width (kept->words), -1);
  if (text != NULL)
    bond_name_widget (kept->bar, text);
  if (text != NULL && kept->pulse_id == 0)
    kept->pulse_id = g_timeout_add (PULSE_MS, pulse_cb, kept->bar);
  else if (text == NULL && kept->pulse_id != 0)
    {
      g_source_remove (kept->pulse_id);
      kept->pulse_id = 0;
    }
}
