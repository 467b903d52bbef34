/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * Columns by key and by name: the header of a GtkColumnView can only be clicked and
 * dragged.  One line a column: shown or not, a place up, a place down, sort by it.
 */
#include "gui/dialog.h"
#include "gui/pages/readings-bar.h"
#include <glib/gi18n-lib.h>

typedef struct
{
  BondReadingsTable *table;
  GtkWidget *lines;
} Menu;

static void fill (Menu *menu);

static int
column_of (GtkWidget *widget)
{
  return GPOINTER_TO_INT (g_object_get_data (G_OBJECT (widget), "bond-index"));
}

static void
shown_cb (GtkCheckButton *check, Menu *menu)
{
  bond_readings_table_show_column (menu->table, column_of (GTK_WIDGET (check)), gtk_check_button_get_active (check));
}

/* The focus stays on the button of the column that was moved. */
static void
move (GtkWidget *button, Menu *menu, int by)
{
  int column = column_of (button);

  bond_readings_table_move_column (menu->table, column, by);
  fill (menu);
  for (GtkWidget *line = gtk_widget_get_first_child (menu->lines); line != NULL;
       line = gtk_widget_get_next_sibling (line))
    for (GtkWidget *child = gtk_widget_get_first_child (line); child != NULL;
         child = gtk_widget_get_next_sibling (child))
      if (column_of (child) == column && g_strcmp0 (gtk_widget_get_name (child), by < 0 ? "up" : "down") == 0)
        gtk_widget_grab_focus (child);
}

static void
up_cb (GtkWidget *button, Menu *menu)
{
  move (button, menu, -1);
}

static void
down_cb (GtkWidget *button, Menu *menu)
{
  move (button, menu, 1);
}

/* As a click on the header: rising, falling, then the walk again. */
static void
sort_cb (GtkWidget *button, Menu *menu)
{
  GtkSortType type;
  int column = column_of (button), now = bond_readings_table_get_sort (menu->table, &type);

  if (now != column)
    bond_readings_table_sort_by (menu->table, column, GTK_SORT_ASCENDING);
  else if (type == GTK_SORT_ASCENDING)
    bond_readings_table_sort_by (menu->table, column, GTK_SORT_DESCENDING);
  else
    bond_readings_table_sort_by (menu->table, -1, GTK_SORT_ASCENDING);
}

static void
reset_cb (GtkWidget *button, Menu *menu)
{
  bond_readings_table_reset (menu->table);
  fill (menu);
}

static void
add_button (Menu *menu, GtkWidget *line, int column, const char *icon, const char *id, const char *what,
            GCallback callback)
{
  GtkWidget *button = gtk_button_new_from_icon_name (icon);
  g_autofree char *name = g_strdup_printf ("%s, %s", _ (bond_readings_columns ()[column].title), what);

  gtk_button_set_has_frame (GTK_BUTTON (button), FALSE);
  gtk_widget_set_name (button, id);
  gtk_widget_set_tooltip_text (button, name);
  bond_name_widget (button, name);
  g_object_set_data (G_OBJECT (button), "bond-index", GINT_TO_POINTER (column));
  g_signal_connect (button, "clicked", callback, menu);
  gtk_box_append (GTK_BOX (line), button);
}

static void
add_line (Menu *menu, int column, gboolean shown)
{
  GtkWidget *line = gtk_box_new (GTK_ORIENTATION_HORIZONTAL, 4);
  GtkWidget *check = gtk_check_button_new_with_label (_ (bond_readings_columns ()[column].title));

  gtk_check_button_set_active (GTK_CHECK_BUTTON (check), shown);
  if (!bond_readings_table_has_room (menu->table, column))
    gtk_widget_set_tooltip_text (check, _ ("Hidden for want of room in a window of this width."));
  gtk_widget_set_hexpand (check, TRUE);
  g_object_set_data (G_OBJECT (check), "bond-index", GINT_TO_POINTER (column));
  g_signal_connect (check, "toggled", G_CALLBACK (shown_cb), menu);
  gtk_box_append (GTK_BOX (line), check);
  add_button (menu, line, column, "go-up-symbolic", "up", _ ("further to the front"), G_CALLBACK (up_cb));
  add_button (menu, line, column, "go-down-symbolic", "down", _ ("further to the back"), G_CALLBACK (down_cb));
  add_button (menu, line, column, "view-sort-ascending-symbolic", "sort", _ ("sort by it"), G_CALLBACK (sort_cb));
  gtk_box_append (GTK_BOX (menu->lines), line);
}

static void
fill (Menu *menu)
{
  GtkWidget *reset = gtk_button_new_with_label (_ ("Usual Columns, Walking Order"));
  GtkWidget *child;

  while ((child = gtk_widget_get_first_child (menu->lines)) != NULL)
    gtk_box_remove (GTK_BOX (menu->lines), child);
  for (guint i = 0; i < BOND_N_READINGS_COLUMNS; i++)
    {
      gboolean shown = TRUE;
      int column = bond_readings_table_nth_column (menu->table, i, &shown);

      add_line (menu, column, shown);
    }
  g_signal_connect (reset, "clicked", G_CALLBACK (reset_cb), menu);
  gtk_box_append (GTK_BOX (menu->lines), reset);
}

static void
show_cb (GtkWidget *popover, Menu *menu)
{
  fill (menu);
}

GtkWidget *
bond_readings_columns_button (BondReadingsTable *table)
{
  GtkWidget *button = gtk_menu_button_new ();
  GtkWidget *popover = gtk_popover_new ();
  Menu *menu = g_new0 (Menu, 1);

  g_return_val_if_fail (BOND_IS_READINGS_TABLE (table), NULL);
  *menu = (Menu){ table, gtk_box_new (GTK_ORIENTATION_VERTICAL, 0) };
  gtk_popover_set_child (GTK_POPOVER (popover), menu->lines);
  g_object_set_data_full (G_OBJECT (popover), "bond-menu", menu, g_free);
  g_signal_connect (popover, "show", G_CALLBACK (show_cb), menu);
  gtk_menu_button_set_popover (GTK_MENU_BUTTON (button), popover);
  gtk_menu_button_set_icon_name (GTK_MENU_BUTTON (button), "view-list-symbolic");
  gtk_widget_set_tooltip_text (button, _ ("Columns"));
  bond_name_widget (button, _ ("Columns"));
  return button;
}
