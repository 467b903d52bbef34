/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * The order of the table of the Readings page.  GTK 4.8 cannot say by which column
 * its view sorts, nor end sorting by a third click; both are found out by asking its
 * sorter about two rows that do not exist.  A row that says nothing in the column
 * stands last in either direction: who looks for the worst, or for the best, does
 * not look for blanks.
 */
#include "gui/pages/readings-table-private.h"

static int
blank_last (BondReadingsTable *self, int column, BondReadingsRow *a, BondReadingsRow *b)
{
  const BondReadingsColumn *info = &bond_readings_columns ()[column];
  int order = info->blank != NULL ? (int)info->blank (a) - (int)info->blank (b) : 0;

  /* The view turns the answer round when it falls. */
  return column == self->sort && self->sort_type == GTK_SORT_DESCENDING ? -order : order;
}

/* Equal rows stay in walking order whichever way they are sorted. */
int
bond_readings_order_compare (gconstpointer a, gconstpointer b, gpointer data)
{
  const BondReadingsColumnData *column = data;
  BondReadingsTable *self = column->table;
  BondReadingsRow *first = BOND_READINGS_ROW ((gpointer)a), *second = BOND_READINGS_ROW ((gpointer)b);
  int order;

  if (first == self->probe[0] || first == self->probe[1])
    return (first == self->probe[0]) == (column->index == self->probed) ? -1 : 1;
  /* Headers are on their way out of the list; until then they stand together, or the order would be none. */
  if (bond_readings_row_get_point (first) == NULL || bond_readings_row_get_point (second) == NULL)
    return (bond_readings_row_get_point (first) != NULL) - (bond_readings_row_get_point (second) != NULL);
  order = blank_last (self, column->index, first, second);
  return order != 0 ? order : bond_readings_columns ()[column->index].compare (first, second);
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

void
bond_readings_order_first (BondReadingsTable *self)
{
  GtkSortType type = GTK_SORT_ASCENDING;
  int now = find_sort (self, &type);

  self->had_focus = bond_readings_has_focus (self); /* a row that moves loses it */
  /* GTK goes on for ever between the two directions: the third click means the walk. */
  if (now >= 0 && now == self->sort && self->sort_type == GTK_SORT_DESCENDING && type == GTK_SORT_ASCENDING)
    {
      self->sort = -1;
      gtk_column_view_sort_by_column (self->view, NULL, GTK_SORT_ASCENDING);
      return;
    }
  self->sort = now;
  self->sort_type = type;
}

/* Sorted anew: what comes first is looked for. In walking order again: the row in hand. */
void
bond_readings_order_last (BondReadingsTable *self)
{
  g_autoptr (BondReadingsRow) row = NULL;

  if (self->resorting)
    return;
  bond_readings_model_set_grouped (self->model, self->sort < 0);
  row = self->sort < 0 ? bond_readings_table_get_chosen (self)
                       : g_list_model_get_item (G_LIST_MODEL (self->selection), 0);
  bond_readings_reveal (self, row, row != NULL && self->had_focus);
}

void
bond_readings_order_again (BondReadingsTable *self)
{
  gboolean focus = bond_readings_has_focus (self);
  g_autoptr (BondReadingsRow) row = NULL;

  if (self->sort < 0)
    return;
  self->resorting = TRUE;
  gtk_sorter_changed (gtk_column_view_column_get_sorter (self->column[self->sort]), GTK_SORTER_CHANGE_DIFFERENT);
  self->resorting = FALSE;
  row = bond_readings_table_get_chosen (self);
  if (row != NULL)
    bond_readings_reveal (self, row, focus);
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
