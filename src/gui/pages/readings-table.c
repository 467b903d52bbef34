/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * A GtkColumnView over sorted, filtered rows.  GTK 4.8 cannot say by which column
 * it sorts, nor end sorting by a third click; both are found out by asking its
 * sorter about two rows that do not exist.
 */
#include "gui/pages/readings-table.h"
#include "gui/compat.h"
#include "gui/dialog.h"
#include "gui/pages/readings-cell.h"
#include "gui/settings.h"
#include <glib/gi18n-lib.h>

#define KEY_COLUMNS "readings-columns"

struct _BondReadingsTable
{
  GtkWidget parent_instance;
  BondReadingsModel *model;
  GtkWidget *scroller;
  GtkColumnView *view;
  GtkSortListModel *sorted;
  GtkMultiSelection *selection;
  GtkColumnViewColumn *column[BOND_N_READINGS_COLUMNS]; /* borrowed: the view holds them */
  BondReadingsRow *probe[2];                            /* two rows no survey has */
  int probed;                                           /* column that tells them apart the other way round */
  int sort;                                             /* column, −1 = walking order */
  GtkSortType sort_type;
  GSettings *settings;
  gboolean loading;
};

typedef struct
{
  BondReadingsTable *table;
  int index;
} ColumnData;

static guint chosen, activated, menu;

G_DEFINE_FINAL_TYPE (BondReadingsTable, bond_readings_table, GTK_TYPE_WIDGET)

/* Equal rows stay in walking order whichever way they are sorted. */
static int
compare_cb (gconstpointer a, gconstpointer b, gpointer data)
{
  const ColumnData *column = data;
  BondReadingsTable *self = column->table;
  BondReadingsRow *first = BOND_READINGS_ROW ((gpointer)a), *second = BOND_READINGS_ROW ((gpointer)b);

  if (first == self->probe[0] || first == self->probe[1])
    return (first == self->probe[0]) == (column->index == self->probed) ? -1 : 1;
  /* Headers are on their way out of the list; until then they stand together, or the order would be none. */
  if (bond_readings_row_get_point (first) == NULL || bond_readings_row_get_point (second) == NULL)
    return (bond_readings_row_get_point (first) != NULL) - (bond_readings_row_get_point (second) != NULL);
  return bond_readings_columns ()[column->index].compare (first, second);
}

/*
 * The first column of the view's sorter decides about the probes.  Every column but the one asked about puts them the
 * one way, that one the other way: the only answer that differs from the rest is of the column that is sorted by.
 */
static int
find_sort (BondReadingsTable *self, GtkSortType *type)
{
  GtkSorter *sorter = gtk_column_view_get_sorter (self->view);
  int answer[BOND_N_READINGS_COLUMNS], sum = 0;

  if (gtk_sorter_get_order (sorter) == GTK_SORTER_ORDER_NONE)
    return -1;
  for (int i = 0; i < BOND_N_READINGS_COLUMNS; i++)
    {
      self->probed = i;
      answer[i] = gtk_sorter_compare (sorter, self->probe[0], self->probe[1]);
      sum += answer[i];
    }
  self->probed = -1;
  for (int i = 0; i < BOND_N_READINGS_COLUMNS; i++)
    if (answer[i] != 0 && (sum > 0) != (answer[i] > 0))
      {
        *type = answer[i] < 0 ? GTK_SORT_ASCENDING : GTK_SORT_DESCENDING;
        return i;
      }
  return -1;
}

static void
sorter_changed_cb (BondReadingsTable *self)
{
  GtkSortType type = GTK_SORT_ASCENDING;
  int now = find_sort (self, &type);

  /* GTK goes on for ever between the two directions: the third click means the walk. */
  if (now >= 0 && now == self->sort && self->sort_type == GTK_SORT_DESCENDING && type == GTK_SORT_ASCENDING)
    {
      self->sort = -1;
      gtk_column_view_sort_by_column (self->view, NULL, GTK_SORT_ASCENDING);
      return;
    }
  self->sort = now;
  self->sort_type = type;
  bond_readings_model_set_grouped (self->model, now < 0);
}

static void
cell_menu_cb (BondReadingsCell *cell, double x, double y, BondReadingsTable *self)
{
  g_signal_emit (self, menu, 0, cell, x, y);
}

static void
setup_cb (GtkSignalListItemFactory *factory, GtkListItem *list_item, ColumnData *column)
{
  BondReadingsTable *self = column->table;
  GtkWidget *cell
      = bond_readings_cell_new (self->view, self->column[column->index], &bond_readings_columns ()[column->index]);

  g_signal_connect (cell, "menu", G_CALLBACK (cell_menu_cb), self);
  gtk_list_item_set_child (list_item, cell);
}

/* The name of a zone is drawn over the cells beside it; its row looks like none that can be chosen. */
static void
dress_row (GtkWidget *cell, gboolean header)
{
  GtkWidget *holder = gtk_widget_get_parent (cell);
  GtkWidget *row = holder != NULL ? gtk_widget_get_parent (holder) : NULL;

  if (row == NULL)
    return;
  gtk_widget_set_overflow (holder, header ? GTK_OVERFLOW_VISIBLE : GTK_OVERFLOW_HIDDEN);
  (header ? gtk_widget_add_css_class : gtk_widget_remove_css_class) (row, "zone");
}

static void
bind_cb (GtkSignalListItemFactory *factory, GtkListItem *list_item, ColumnData *column)
{
  GtkWidget *cell = gtk_list_item_get_child (list_item);
  BondReadingsRow *row = gtk_list_item_get_item (list_item);

  bond_readings_cell_set_row (BOND_READINGS_CELL (cell), row);
  dress_row (cell, bond_readings_row_get_point (row) == NULL);
}

static void
unbind_cb (GtkSignalListItemFactory *factory, GtkListItem *list_item, ColumnData *column)
{
  bond_readings_cell_set_row (BOND_READINGS_CELL (gtk_list_item_get_child (list_item)), NULL);
}

static void
selection_changed_cb (BondReadingsTable *self)
{
  g_signal_emit (self, chosen, 0);
}

static void
activate_cb (BondReadingsTable *self, guint position)
{
  g_autoptr (BondReadingsRow) row = g_list_model_get_item (G_LIST_MODEL (self->selection), position);

  if (row != NULL && bond_readings_row_get_point (row) != NULL)
    g_signal_emit (self, activated, 0, row);
}

/* --- remembered columns: ids in order, "-" before those that are hidden --- */

static void
save_columns (BondReadingsTable *self)
{
  g_autoptr (GPtrArray) words = NULL;

  if (self->loading || self->settings == NULL)
    return;
  words = g_ptr_array_new_with_free_func (g_free);
  for (guint i = 0; i < BOND_N_READINGS_COLUMNS; i++)
    {
      gboolean shown = TRUE;
      int index = bond_readings_table_nth_column (self, i, &shown);

      g_ptr_array_add (words, g_strconcat (shown ? "" : "-", bond_readings_columns ()[index].id, NULL));
    }
  g_ptr_array_add (words, NULL);
  g_settings_set_strv (self->settings, KEY_COLUMNS, (const char *const *)words->pdata);
}

static int
find_column (const char *id)
{
  for (int i = 0; i < BOND_N_READINGS_COLUMNS; i++)
    if (g_str_equal (bond_readings_columns ()[i].id, id))
      return i;
  return -1;
}

static void
load_columns (BondReadingsTable *self)
{
  g_auto (GStrv) words = self->settings != NULL ? g_settings_get_strv (self->settings, KEY_COLUMNS) : NULL;
  guint position = 0;

  self->loading = TRUE;
  for (guint i = 0; words != NULL && words[i] != NULL; i++)
    {
      gboolean hidden = words[i][0] == '-';
      int index = find_column (words[i] + hidden);

      if (index < 0)
        continue;
      gtk_column_view_column_set_visible (self->column[index], !hidden);
      gtk_column_view_insert_column (self->view, position++, self->column[index]);
    }
  self->loading = FALSE;
}

static void
add_column (BondReadingsTable *self, int index)
{
  const BondReadingsColumn *info = &bond_readings_columns ()[index];
  ColumnData *data = g_new0 (ColumnData, 1);
  GtkListItemFactory *factory = gtk_signal_list_item_factory_new ();
  g_autoptr (GtkSorter) sorter = NULL;

  *data = (ColumnData){ self, index };
  self->column[index] = gtk_column_view_column_new (_ (info->title), factory);
  g_object_set_data_full (G_OBJECT (self->column[index]), "bond-column", data, g_free);
  g_signal_connect (factory, "setup", G_CALLBACK (setup_cb), data);
  g_signal_connect (factory, "bind", G_CALLBACK (bind_cb), data);
  g_signal_connect (factory, "unbind", G_CALLBACK (unbind_cb), data);
  sorter = GTK_SORTER (gtk_custom_sorter_new (compare_cb, data, NULL));
  gtk_column_view_column_set_sorter (self->column[index], sorter);
  gtk_column_view_column_set_resizable (self->column[index], TRUE);
  gtk_column_view_column_set_expand (self->column[index], info->expand);
  gtk_column_view_column_set_fixed_width (self->column[index], info->width);
  gtk_column_view_append_column (self->view, self->column[index]);
  g_object_unref (self->column[index]);
  g_signal_connect_swapped (self->column[index], "notify::visible", G_CALLBACK (save_columns), self);
}

static void
bond_readings_table_dispose (GObject *object)
{
  BondReadingsTable *self = BOND_READINGS_TABLE (object);

  self->loading = TRUE; /* nothing is saved of what falls apart now */
  if (self->selection != NULL)
    g_signal_handlers_disconnect_by_data (self->selection, self);
  if (self->view != NULL)
    {
      g_signal_handlers_disconnect_by_data (gtk_column_view_get_sorter (self->view), self);
      g_signal_handlers_disconnect_by_data (gtk_column_view_get_columns (self->view), self);
      for (int i = 0; i < BOND_N_READINGS_COLUMNS; i++)
        g_signal_handlers_disconnect_by_data (self->column[i], self);
      self->view = NULL;
    }
  g_clear_pointer (&self->scroller, gtk_widget_unparent);
  g_clear_object (&self->selection);
  g_clear_object (&self->sorted);
  g_clear_object (&self->probe[0]);
  g_clear_object (&self->probe[1]);
  g_clear_object (&self->settings);
  g_clear_object (&self->model);
  G_OBJECT_CLASS (bond_readings_table_parent_class)->dispose (object);
}

static void
bond_readings_table_class_init (BondReadingsTableClass *klass)
{
  GType type = BOND_TYPE_READINGS_TABLE;

  G_OBJECT_CLASS (klass)->dispose = bond_readings_table_dispose;
  gtk_widget_class_set_layout_manager_type (GTK_WIDGET_CLASS (klass), GTK_TYPE_BIN_LAYOUT);
  chosen = g_signal_new ("chosen", type, G_SIGNAL_RUN_LAST, 0, NULL, NULL, NULL, G_TYPE_NONE, 0);
  activated
      = g_signal_new ("activate", type, G_SIGNAL_RUN_LAST, 0, NULL, NULL, NULL, G_TYPE_NONE, 1, BOND_TYPE_READINGS_ROW);
  menu = g_signal_new ("menu", type, G_SIGNAL_RUN_LAST, 0, NULL, NULL, NULL, G_TYPE_NONE, 3, GTK_TYPE_WIDGET,
                       G_TYPE_DOUBLE, G_TYPE_DOUBLE);
}

static void
bond_readings_table_init (BondReadingsTable *self)
{
  self->sort = self->probed = -1;
  self->settings = bond_settings_open ();
  self->scroller = gtk_scrolled_window_new ();
  gtk_widget_set_focusable (self->scroller, FALSE);
  gtk_widget_set_parent (self->scroller, GTK_WIDGET (self));
}

static void
build_view (BondReadingsTable *self)
{
  GtkSorter *sorter;

  self->view = GTK_COLUMN_VIEW (gtk_column_view_new (NULL));
  gtk_widget_add_css_class (GTK_WIDGET (self->view), "readings");
  bond_name_widget (self->view, _ ("Readings"));
  gtk_scrolled_window_set_child (GTK_SCROLLED_WINDOW (self->scroller), GTK_WIDGET (self->view));
  for (int i = 0; i < BOND_N_READINGS_COLUMNS; i++)
    add_column (self, i);
  load_columns (self);
  sorter = gtk_column_view_get_sorter (self->view);
  self->sorted
      = gtk_sort_list_model_new (g_object_ref (bond_readings_model_get_list (self->model)), g_object_ref (sorter));
  self->selection = gtk_multi_selection_new (g_object_ref (G_LIST_MODEL (self->sorted)));
  gtk_column_view_set_model (self->view, GTK_SELECTION_MODEL (self->selection));
  g_signal_connect_swapped (sorter, "changed", G_CALLBACK (sorter_changed_cb), self);
  g_signal_connect_swapped (self->selection, "selection-changed", G_CALLBACK (selection_changed_cb), self);
  g_signal_connect_swapped (self->selection, "items-changed", G_CALLBACK (selection_changed_cb), self);
  g_signal_connect_swapped (self->view, "activate", G_CALLBACK (activate_cb), self);
  g_signal_connect_swapped (gtk_column_view_get_columns (self->view), "items-changed", G_CALLBACK (save_columns), self);
}

GtkWidget *
bond_readings_table_new (BondReadingsModel *model)
{
  BondReadingsTable *self;

  g_return_val_if_fail (BOND_IS_READINGS_MODEL (model), NULL);
  self = g_object_new (BOND_TYPE_READINGS_TABLE, NULL);
  self->model = g_object_ref (model);
  for (int i = 0; i < 2; i++)
    self->probe[i] = bond_readings_row_new_zone (bond_readings_model_get_survey (model), "", 0);
  build_view (self);
  return GTK_WIDGET (self);
}

BondReadingsRow *
bond_readings_table_get_chosen (BondReadingsTable *self)
{
  g_autoptr (GPtrArray) rows = bond_readings_table_get_rows (self, FALSE);

  return rows != NULL && rows->len > 0 ? g_object_ref (g_ptr_array_index (rows, 0)) : NULL;
}

GPtrArray *
bond_readings_table_get_rows (BondReadingsTable *self, gboolean all)
{
  GPtrArray *rows = g_ptr_array_new_with_free_func (g_object_unref);
  g_autoptr (GtkBitset) set = NULL;
  GtkBitsetIter iter;
  guint position;

  g_return_val_if_fail (BOND_IS_READINGS_TABLE (self), rows);
  set = all ? gtk_bitset_new_range (0, g_list_model_get_n_items (G_LIST_MODEL (self->selection)))
            : gtk_selection_model_get_selection (GTK_SELECTION_MODEL (self->selection));
  for (gboolean any = gtk_bitset_iter_init_first (&iter, set, &position); any;
       any = gtk_bitset_iter_next (&iter, &position))
    {
      g_autoptr (BondReadingsRow) row = g_list_model_get_item (G_LIST_MODEL (self->selection), position);

      if (row != NULL && bond_readings_row_get_point (row) != NULL)
        g_ptr_array_add (rows, g_steal_pointer (&row));
    }
  return rows;
}

gboolean
bond_readings_table_choose (BondReadingsTable *self, BondPoint *point, const char *place)
{
  GListModel *list;

  g_return_val_if_fail (BOND_IS_READINGS_TABLE (self), FALSE);
  list = G_LIST_MODEL (self->selection);
  for (guint i = 0; point != NULL && i < g_list_model_get_n_items (list); i++)
    {
      g_autoptr (BondReadingsRow) row = g_list_model_get_item (list, i);

      if (bond_readings_row_get_point (row) != point
          || (place != NULL && g_strcmp0 (bond_readings_row_get_place (row), place) != 0))
        continue;
      gtk_selection_model_select_item (GTK_SELECTION_MODEL (self->selection), i, TRUE);
      bond_list_scroll_to (GTK_WIDGET (self->view), i);
      return TRUE;
    }
  return FALSE;
}

int
bond_readings_table_get_order (BondReadingsTable *self, int order[BOND_N_READINGS_COLUMNS])
{
  int n = 0;

  g_return_val_if_fail (BOND_IS_READINGS_TABLE (self), 0);
  for (guint i = 0; i < BOND_N_READINGS_COLUMNS; i++)
    {
      gboolean shown = TRUE;
      int index = bond_readings_table_nth_column (self, i, &shown);

      if (shown)
        order[n++] = index;
    }
  return n;
}

GtkColumnView *
bond_readings_table_get_view (BondReadingsTable *self)
{
  g_return_val_if_fail (BOND_IS_READINGS_TABLE (self), NULL);
  return self->view;
}

void
bond_readings_table_sort_by (BondReadingsTable *self, int column, GtkSortType type)
{
  g_return_if_fail (BOND_IS_READINGS_TABLE (self) && column < BOND_N_READINGS_COLUMNS);
  gtk_column_view_sort_by_column (self->view, column >= 0 ? self->column[column] : NULL, type);
}

int
bond_readings_table_get_sort (BondReadingsTable *self, GtkSortType *type)
{
  g_return_val_if_fail (BOND_IS_READINGS_TABLE (self), -1);
  *type = self->sort_type;
  return self->sort;
}

void
bond_readings_table_show_column (BondReadingsTable *self, int column, gboolean show)
{
  g_return_if_fail (BOND_IS_READINGS_TABLE (self) && column >= 0 && column < BOND_N_READINGS_COLUMNS);
  gtk_column_view_column_set_visible (self->column[column], show);
}

int
bond_readings_table_nth_column (BondReadingsTable *self, guint position, gboolean *shown)
{
  g_autoptr (GtkColumnViewColumn) column = NULL;
  const ColumnData *data;

  g_return_val_if_fail (BOND_IS_READINGS_TABLE (self), 0);
  column = g_list_model_get_item (gtk_column_view_get_columns (self->view), position);
  g_return_val_if_fail (column != NULL, 0);
  data = g_object_get_data (G_OBJECT (column), "bond-column");
  *shown = gtk_column_view_column_get_visible (column);
  return data->index;
}

void
bond_readings_table_move_column (BondReadingsTable *self, int column, int by)
{
  g_return_if_fail (BOND_IS_READINGS_TABLE (self) && column >= 0 && column < BOND_N_READINGS_COLUMNS);
  for (int i = 0; i < BOND_N_READINGS_COLUMNS; i++)
    {
      gboolean shown;

      if (bond_readings_table_nth_column (self, (guint)i, &shown) == column)
        {
          gtk_column_view_insert_column (self->view, (guint)CLAMP (i + by, 0, BOND_N_READINGS_COLUMNS - 1),
                                         self->column[column]);
          return;
        }
    }
}

void
bond_readings_table_reset (BondReadingsTable *self)
{
  g_return_if_fail (BOND_IS_READINGS_TABLE (self));
  for (guint i = 0; i < BOND_N_READINGS_COLUMNS; i++)
    {
      gtk_column_view_column_set_visible (self->column[i], TRUE);
      gtk_column_view_insert_column (self->view, i, self->column[i]);
    }
  bond_readings_table_sort_by (self, -1, GTK_SORT_ASCENDING);
}

void
bond_readings_table_grab (BondReadingsTable *self)
{
  GtkWidget *list;

  g_return_if_fail (BOND_IS_READINGS_TABLE (self));
  list = gtk_widget_get_last_child (GTK_WIDGET (self->view));
  if (list == NULL || !gtk_widget_grab_focus (list))
    gtk_widget_grab_focus (GTK_WIDGET (self->view));
}
