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

static void steady (BondReadingsTable *self);

static void
let_go (BondReadingsTable *self)
{
  g_clear_object (&self->reveal);
  self->grab = FALSE;
  self->tries = 0;
}

static GtkWidget *
focus_of (BondReadingsTable *self)
{
  GtkRoot *root = gtk_widget_get_root (GTK_WIDGET (self));

  return root != NULL ? gtk_root_get_focus (root) : NULL;
}

/* Nobody has moved the focus since it was asked for. */
static gboolean
may_grab (BondReadingsTable *self)
{
  GtkWidget *focus = focus_of (self);

  return self->grab && (focus == NULL || focus == self->focus_before || bond_readings_has_focus (self));
}

static gboolean
grab (BondReadingsTable *self)
{
  return self->reveal != NULL ? grab_row (self, self->reveal)
                              : gtk_widget_grab_focus (gtk_widget_get_last_child (GTK_WIDGET (self->view)));
}

static void
stand (BondReadingsTable *self)
{
  GtkAdjustment *adjustment = adjustment_of (self);
  int position = bond_readings_position (self, self->reveal);
  gboolean moved;

  if (self->to_top)
    gtk_adjustment_set_value (adjustment, 0);
  self->to_top = FALSE;
  g_signal_emit_by_name (adjustment, "value-changed");
  moved = position >= 0 && scroll_to (self, position);
  /* A row that had to be scrolled to gets its widget in the layout to come, and its focus after that. */
  if (may_grab (self) && (moved || !grab (self)) && self->tries++ < MOST_TRIES)
    steady (self);
  else
    let_go (self);
}

/* The list may be told its position only when all that changed has been laid out: a tick comes before the layout of
 * its frame. */
static gboolean
steady_cb (GtkWidget *widget, GdkFrameClock *clock, gpointer data)
{
  BondReadingsTable *self = data;

  if (self->ticks++ < 1)
    return G_SOURCE_CONTINUE;
  self->steady_source = 0;
  if (gtk_widget_get_mapped (GTK_WIDGET (self)) && gtk_adjustment_get_page_size (adjustment_of (self)) > 0
      && g_list_model_get_n_items (G_LIST_MODEL (self->selection)) > 0)
    stand (self);
  return G_SOURCE_REMOVE;
}

static void
steady (BondReadingsTable *self)
{
  self->ticks = 0;
  if (self->steady_source == 0)
    self->steady_source = gtk_widget_add_tick_callback (GTK_WIDGET (self->view), steady_cb, self, NULL);
}

void
bond_readings_reveal_begin (BondReadingsTable *self)
{
  g_signal_connect_swapped (adjustment_of (self), "changed", G_CALLBACK (steady), self);
  g_signal_connect_swapped (self->selection, "items-changed", G_CALLBACK (steady), self);
  g_signal_connect (self, "map", G_CALLBACK (steady), NULL);
}

void
bond_readings_reveal (BondReadingsTable *self, BondReadingsRow *row, gboolean focus)
{
  g_set_object (&self->reveal, row);
  self->to_top = row == NULL && !focus;
  self->grab = focus;
  self->focus_before = focus_of (self);
  self->tries = 0;
  steady (self);
}

static gboolean
is_header (BondReadingsTable *self, int position)
{
  g_autoptr (BondReadingsRow) row = g_list_model_get_item (G_LIST_MODEL (self->selection), (guint)position);

  return row != NULL && bond_readings_row_get_point (row) == NULL;
}

gboolean
bond_readings_table_skip_header (BondReadingsTable *self, int by)
{
  g_autoptr (BondReadingsRow) row = NULL;
  g_autoptr (BondReadingsRow) next = NULL;
  int at;

  g_return_val_if_fail (BOND_IS_READINGS_TABLE (self) && (by == 1 || by == -1), FALSE);
  row = bond_readings_table_get_chosen (self);
  at = bond_readings_position (self, row) + by;
  if (row == NULL || at < 0 || !is_header (self, at))
    return FALSE;
  if (at + by >= 0)
    next = g_list_model_get_item (G_LIST_MODEL (self->selection), (guint)(at + by));
  if (next == NULL)
    return TRUE; /* the first row stays where it is */
  gtk_selection_model_select_item (GTK_SELECTION_MODEL (self->selection), (guint)(at + by), TRUE);
  bond_readings_reveal (self, next, TRUE);
  return TRUE;
}

void
bond_readings_reveal_end (BondReadingsTable *self)
{
  g_signal_handlers_disconnect_by_data (adjustment_of (self), self);
  if (self->steady_source != 0)
    gtk_widget_remove_tick_callback (GTK_WIDGET (self->view), self->steady_source);
  self->steady_source = 0;
  let_go (self);
}
