/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * A GtkColumnView over sorted, filtered rows, and what is chosen in it.  The row
 * chosen stays chosen when it moves, and is chosen again when it comes back from
 * behind a filter or with a new list of rows.  Order, columns and scrolling have
 * files of their own.
 */
#include "gui/dialog.h"
#include "gui/pages/readings-cell.h"
#include "gui/pages/readings-table-private.h"
#include "gui/settings.h"
#include <glib/gi18n-lib.h>

static guint chosen, activated, menu;

G_DEFINE_FINAL_TYPE (BondReadingsTable, bond_readings_table, GTK_TYPE_WIDGET)

static void
setup_cb (GtkSignalListItemFactory *factory, GtkListItem *list_item, BondReadingsColumnData *column)
{
  gtk_list_item_set_child (list_item, bond_readings_cell_new (column->table, column->index));
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
bind_cb (GtkSignalListItemFactory *factory, GtkListItem *list_item, BondReadingsColumnData *column)
{
  GtkWidget *cell = gtk_list_item_get_child (list_item);
  BondReadingsRow *row = gtk_list_item_get_item (list_item);

  bond_readings_cell_set_row (BOND_READINGS_CELL (cell), row);
  dress_row (cell, bond_readings_row_get_point (row) == NULL);
}

static void
unbind_cb (GtkSignalListItemFactory *factory, GtkListItem *list_item, BondReadingsColumnData *column)
{
  bond_readings_cell_set_row (BOND_READINGS_CELL (gtk_list_item_get_child (list_item)), NULL);
}

static void
keep (BondReadingsTable *self, BondReadingsRow *row)
{
  BondPoint *point = row != NULL ? bond_readings_row_get_point (row) : NULL;

  g_set_object (&self->kept_point, point);
  g_free (self->kept_place);
  self->kept_place = row != NULL ? g_strdup (bond_readings_row_get_place (row)) : NULL;
}

static void
selection_changed_cb (BondReadingsTable *self)
{
  g_autoptr (BondReadingsRow) row = bond_readings_table_get_chosen (self);

  keep (self, row);
  g_signal_emit (self, chosen, 0);
}

/* Rows came, went or moved: the one chosen before is chosen still, if it is there. */
static void
items_changed_cb (BondReadingsTable *self)
{
  g_autoptr (BondReadingsRow) row = bond_readings_table_get_chosen (self);

  if (row == NULL && self->kept_point != NULL && bond_readings_table_choose (self, self->kept_point, self->kept_place))
    return;
  g_signal_emit (self, chosen, 0);
}

static void
recorded_cb (BondReadingsTable *self)
{
  bond_readings_order_again (self);
}

/* --- the row under the pointer, or under a finger held down --- */

static void
ask_menu (BondReadingsTable *self, double x, double y)
{
  GtkWidget *at = gtk_widget_pick (GTK_WIDGET (self->view), x, y, GTK_PICK_DEFAULT);
  GtkWidget *cell = at != NULL ? gtk_widget_get_ancestor (at, BOND_TYPE_READINGS_CELL) : NULL;
  BondReadingsRow *row = cell != NULL ? bond_readings_cell_get_row (BOND_READINGS_CELL (cell)) : NULL;

  if (row != NULL && bond_readings_row_get_point (row) != NULL)
    g_signal_emit (self, menu, 0, row, x, y);
}

static void
pressed_cb (GtkGestureClick *gesture, int n_press, double x, double y, BondReadingsTable *self)
{
  ask_menu (self, x, y);
}

static void
held_cb (GtkGestureLongPress *gesture, double x, double y, BondReadingsTable *self)
{
  ask_menu (self, x, y);
}

static void
add_gestures (BondReadingsTable *self)
{
  GtkGesture *click = gtk_gesture_click_new ();
  GtkGesture *hold = gtk_gesture_long_press_new ();

  gtk_gesture_single_set_button (GTK_GESTURE_SINGLE (click), GDK_BUTTON_SECONDARY);
  gtk_gesture_single_set_touch_only (GTK_GESTURE_SINGLE (hold), TRUE);
  g_signal_connect (click, "pressed", G_CALLBACK (pressed_cb), self);
  g_signal_connect (hold, "pressed", G_CALLBACK (held_cb), self);
  gtk_widget_add_controller (GTK_WIDGET (self->view), GTK_EVENT_CONTROLLER (click));
  gtk_widget_add_controller (GTK_WIDGET (self->view), GTK_EVENT_CONTROLLER (hold));
}

static void
activate_cb (BondReadingsTable *self, guint position)
{
  g_autoptr (BondReadingsRow) row = g_list_model_get_item (G_LIST_MODEL (self->selection), position);

  if (row != NULL && bond_readings_row_get_point (row) != NULL)
    g_signal_emit (self, activated, 0, row);
}

static void
add_column (BondReadingsTable *self, int index)
{
  const BondReadingsColumn *info = &bond_readings_columns ()[index];
  BondReadingsColumnData *data = g_new0 (BondReadingsColumnData, 1);
  GtkListItemFactory *factory = gtk_signal_list_item_factory_new ();
  g_autoptr (GtkSorter) sorter = NULL;

  *data = (BondReadingsColumnData){ self, index };
  self->column[index] = gtk_column_view_column_new (_ (info->title), factory);
  g_object_set_data_full (G_OBJECT (self->column[index]), "bond-column", data, g_free);
  g_signal_connect (factory, "setup", G_CALLBACK (setup_cb), data);
  g_signal_connect (factory, "bind", G_CALLBACK (bind_cb), data);
  g_signal_connect (factory, "unbind", G_CALLBACK (unbind_cb), data);
  sorter = GTK_SORTER (gtk_custom_sorter_new (bond_readings_order_compare, data, NULL));
  gtk_column_view_column_set_sorter (self->column[index], sorter);
  gtk_column_view_column_set_resizable (self->column[index], TRUE);
  gtk_column_view_column_set_expand (self->column[index], info->expand);
  gtk_column_view_column_set_fixed_width (self->column[index], self->given[index] = info->width);
  gtk_column_view_append_column (self->view, self->column[index]);
  g_object_unref (self->column[index]);
}

static void
bond_readings_table_dispose (GObject *object)
{
  BondReadingsTable *self = BOND_READINGS_TABLE (object);

  self->loading = TRUE; /* nothing is saved of what falls apart now */
  g_clear_handle_id (&self->fit_source, g_source_remove);
  if (self->model != NULL)
    g_signal_handlers_disconnect_by_data (self->model, self);
  if (self->selection != NULL)
    g_signal_handlers_disconnect_by_data (self->selection, self);
  if (self->view != NULL)
    {
      bond_readings_reveal_end (self);
      g_signal_handlers_disconnect_by_data (gtk_column_view_get_sorter (self->view), self);
      g_signal_handlers_disconnect_by_data (gtk_column_view_get_columns (self->view), self);
      self->view = NULL;
    }
  g_clear_pointer (&self->scroller, gtk_widget_unparent);
  g_clear_object (&self->selection);
  g_clear_object (&self->sorted);
  g_clear_object (&self->probe[0]);
  g_clear_object (&self->probe[1]);
  g_clear_object (&self->kept_point);
  g_clear_pointer (&self->kept_place, g_free);
  g_clear_object (&self->settings);
  g_clear_object (&self->model);
  G_OBJECT_CLASS (bond_readings_table_parent_class)->dispose (object);
}

static void
bond_readings_table_measure (GtkWidget *widget, GtkOrientation orientation, int for_size, int *minimum, int *natural,
                             int *minimum_baseline, int *natural_baseline)
{
  gtk_widget_measure (BOND_READINGS_TABLE (widget)->scroller, orientation, for_size, minimum, natural, NULL, NULL);
}

/* No layout manager: with one, nobody would be told of another width. */
static void
bond_readings_table_size_allocate (GtkWidget *widget, int width, int height, int baseline)
{
  BondReadingsTable *self = BOND_READINGS_TABLE (widget);

  gtk_widget_allocate (self->scroller, width, height, baseline, NULL);
  if (width != self->fitted_width)
    bond_readings_fit_later (self);
}

/* Other type: other widths. */
static void
bond_readings_table_css_changed (GtkWidget *widget, GtkCssStyleChange *change)
{
  GTK_WIDGET_CLASS (bond_readings_table_parent_class)->css_changed (widget, change);
  bond_readings_fit_later (BOND_READINGS_TABLE (widget));
}

static void
bond_readings_table_class_init (BondReadingsTableClass *klass)
{
  GType type = BOND_TYPE_READINGS_TABLE;

  G_OBJECT_CLASS (klass)->dispose = bond_readings_table_dispose;
  GTK_WIDGET_CLASS (klass)->css_changed = bond_readings_table_css_changed;
  GTK_WIDGET_CLASS (klass)->size_allocate = bond_readings_table_size_allocate;
  GTK_WIDGET_CLASS (klass)->measure = bond_readings_table_measure;
  chosen = g_signal_new ("chosen", type, G_SIGNAL_RUN_LAST, 0, NULL, NULL, NULL, G_TYPE_NONE, 0);
  activated
      = g_signal_new ("activate", type, G_SIGNAL_RUN_LAST, 0, NULL, NULL, NULL, G_TYPE_NONE, 1, BOND_TYPE_READINGS_ROW);
  menu = g_signal_new ("menu", type, G_SIGNAL_RUN_LAST, 0, NULL, NULL, NULL, G_TYPE_NONE, 3, BOND_TYPE_READINGS_ROW,
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

/* The new order is known before the rows move, and the headers come after that: handlers run as they were connected. */
static void
build_rows (BondReadingsTable *self)
{
  GtkSorter *sorter = gtk_column_view_get_sorter (self->view);

  g_signal_connect_swapped (sorter, "changed", G_CALLBACK (bond_readings_order_first), self);
  self->sorted
      = gtk_sort_list_model_new (g_object_ref (bond_readings_model_get_list (self->model)), g_object_ref (sorter));
  g_signal_connect_swapped (sorter, "changed", G_CALLBACK (bond_readings_order_last), self);
  self->selection = gtk_multi_selection_new (g_object_ref (G_LIST_MODEL (self->sorted)));
  gtk_column_view_set_model (self->view, GTK_SELECTION_MODEL (self->selection));
  g_signal_connect_swapped (self->selection, "selection-changed", G_CALLBACK (selection_changed_cb), self);
  g_signal_connect_swapped (self->selection, "items-changed", G_CALLBACK (items_changed_cb), self);
  bond_readings_reveal_begin (self);
}

static void
build_view (BondReadingsTable *self)
{
  self->view = GTK_COLUMN_VIEW (gtk_column_view_new (NULL));
  gtk_column_view_set_reorderable (self->view, TRUE);
  gtk_widget_add_css_class (GTK_WIDGET (self->view), "readings");
  bond_name_widget (self->view, _ ("Readings"));
  bond_name_widget (gtk_widget_get_last_child (GTK_WIDGET (self->view)), _ ("Readings"));
  gtk_scrolled_window_set_child (GTK_SCROLLED_WINDOW (self->scroller), GTK_WIDGET (self->view));
  for (int i = 0; i < BOND_N_READINGS_COLUMNS; i++)
    add_column (self, i);
  bond_readings_fit_load (self);
  build_rows (self);
  add_gestures (self);
  bond_readings_units_changed (self);
  g_signal_connect_swapped (self->view, "activate", G_CALLBACK (activate_cb), self);
  g_signal_connect_swapped (self->model, "units-changed", G_CALLBACK (bond_readings_units_changed), self);
  g_signal_connect_swapped (self->model, "recorded", G_CALLBACK (recorded_cb), self);
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
      bond_readings_reveal (self, row, bond_readings_has_focus (self));
      return TRUE;
    }
  return FALSE;
}

GtkColumnView *
bond_readings_table_get_view (BondReadingsTable *self)
{
  g_return_val_if_fail (BOND_IS_READINGS_TABLE (self), NULL);
  return self->view;
}

BondUnit
bond_readings_table_get_unit (BondReadingsTable *self)
{
  g_return_val_if_fail (BOND_IS_READINGS_TABLE (self), BOND_UNIT_MILLIOHM);
  return self->unit;
}

gboolean
bond_readings_table_is_mixed (BondReadingsTable *self)
{
  g_return_val_if_fail (BOND_IS_READINGS_TABLE (self), FALSE);
  return self->mixed;
}

void
bond_readings_table_grab (BondReadingsTable *self)
{
  g_autoptr (BondReadingsRow) row = NULL;

  g_return_if_fail (BOND_IS_READINGS_TABLE (self));
  row = bond_readings_table_get_chosen (self);
  bond_readings_reveal (self, row, TRUE);
}
