/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * Brings rows into sight.  GTK 4.8 makes widgets for the rows below an anchor only,
 * and when a list is filled, grouped or sorted its anchor may stand lower than its
 * scroll position: the first rows are then blank.  So after every change of size the
 * list is told its position once more.  All rows have one height; where a row stands
 * is its number times that, which needs no widget for it.
 */
#include "gui/pages/readings-cell.h"
#include "gui/pages/readings-table-private.h"

#define MOST_TRIES 3 /* for the focus: layouts waited for */

static GtkAdjustment *
adjustment_of (BondReadingsTable *self)
{
  return gtk_scrolled_window_get_vadjustment (GTK_SCROLLED_WINDOW (self->scroller));
}

int
bond_readings_position (BondReadingsTable *self, BondReadingsRow *row)
{
  GListModel *list = G_LIST_MODEL (self->selection);
  guint n = g_list_model_get_n_items (list);

  for (guint i = 0; row != NULL && i < n; i++)
    {
      g_autoptr (BondReadingsRow) other = g_list_model_get_item (list, i);

      if (other == row)
        return (int)i;
    }
  return -1;
}

/* In the middle, unless it is in sight as it is. Returns: it was moved */
static gboolean
scroll_to (BondReadingsTable *self, int position)
{
  GtkAdjustment *adjustment = adjustment_of (self);
  double page = gtk_adjustment_get_page_size (adjustment), value = gtk_adjustment_get_value (adjustment);
  double height
      = gtk_adjustment_get_upper (adjustment) / MAX (g_list_model_get_n_items (G_LIST_MODEL (self->sorted)), 1);
  double top = position * height;

  if (top >= value && top + height <= value + page)
    return FALSE;
  gtk_adjustment_set_value (adjustment, top + height / 2 - page / 2);
  return TRUE;
}

static GtkWidget *
find_cell (GtkWidget *row)
{
  GtkWidget *holder = gtk_widget_get_first_child (row);
  GtkWidget *cell = holder != NULL ? gtk_widget_get_first_child (holder) : NULL;

  return cell != NULL && BOND_IS_READINGS_CELL (cell) ? cell : NULL;
}

static gboolean
grab_row (BondReadingsTable *self, BondReadingsRow *row)
{
  GtkWidget *list = gtk_widget_get_last_child (GTK_WIDGET (self->view));

  for (GtkWidget *child = gtk_widget_get_first_child (list); child != NULL; child = gtk_widget_get_next_sibling (child))
    {
      GtkWidget *cell = find_cell (child);

      if (cell != NULL && bond_readings_cell_get_row (BOND_READINGS_CELL (cell)) == row)
        return gtk_widget_grab_focus (child);
    }
  return FALSE;
}

gboolean
bond_readings_has_focus (BondReadingsTable *self)
{
  GtkRoot *root = gtk_widget_get_root (GTK_WIDGET (self));
  GtkWidget *focus = root != NULL ? gtk_root_get_focus (root) : NULL;

  return focus != NULL && (focus == GTK_WIDGET (self->view) || gtk_widget_is_ancestor (focus, GTK_WIDGET (self->view)));
}

static void
let_go (BondReadingsTable *self)
{
  g_clear_object (&self->reveal);
  self->grab = FALSE;
  self->tries = 0;
}

/* A row that had to be scrolled to gets its widget in the layout to come, and its focus after that. */
static gboolean
steady_cb (gpointer data)
{
  BondReadingsTable *self = data;
  GtkAdjustment *adjustment = adjustment_of (self);
  gboolean moved;
  int position;

  self->steady_source = 0;
  if (!gtk_widget_get_mapped (GTK_WIDGET (self)) || gtk_adjustment_get_page_size (adjustment) <= 0)
    return G_SOURCE_REMOVE;
  if (self->to_top)
    gtk_adjustment_set_value (adjustment, 0);
  self->to_top = FALSE;
  g_signal_emit_by_name (adjustment, "value-changed");
  position = bond_readings_position (self, self->reveal);
  moved = position >= 0 && scroll_to (self, position);
  if (position >= 0 && self->grab && bond_readings_has_focus (self) && (moved || !grab_row (self, self->reveal))
      && self->tries++ < MOST_TRIES)
    self->steady_source = g_idle_add (steady_cb, self);
  else
    let_go (self);
  return G_SOURCE_REMOVE;
}

static void
steady (BondReadingsTable *self)
{
  if (self->steady_source == 0)
    self->steady_source = g_idle_add (steady_cb, self);
}

void
bond_readings_reveal_begin (BondReadingsTable *self)
{
  g_signal_connect_swapped (adjustment_of (self), "changed", G_CALLBACK (steady), self);
  g_signal_connect_swapped (self->selection, "items-changed", G_CALLBACK (steady), self);
  g_signal_connect (self, "map", G_CALLBACK (steady), NULL);
}

void
bond_readings_reveal (BondReadingsTable *self, BondReadingsRow *row, gboolean grab)
{
  g_set_object (&self->reveal, row);
  self->to_top = row == NULL;
  self->grab = grab && row != NULL;
  self->tries = 0;
  steady (self);
}

void
bond_readings_reveal_end (BondReadingsTable *self)
{
  g_signal_handlers_disconnect_by_data (adjustment_of (self), self);
  g_clear_handle_id (&self->steady_source, g_source_remove);
  let_go (self);
}
