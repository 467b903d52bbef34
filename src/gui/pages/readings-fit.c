/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * Which columns are shown, how wide, and under which heads.  A table that has to be
 * pushed sideways hides what belongs to a figure, so what matters least gives way
 * until the rest has room; room that is left goes to what would be cut off.  Widths
 * follow the size of the type.  A unit that most rows have stands in the heads, once.
 */
#include "gui/dialog.h"
#include "gui/pages/readings-table-private.h"
#include "gui/settings.h"
#include <glib/gi18n-lib.h>

#define KEY_COLUMNS "readings-columns"
#define PLAIN_DIGIT 8.0 /* pixels of a digit of the type that the widths in the table of columns are meant for */
#define UNIT_ROOM 28    /* behind a figure whose unit is not that of the head */

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
      gboolean wanted = TRUE;
      int index = bond_readings_table_nth_column (self, i, &wanted);

      g_ptr_array_add (words, g_strconcat (wanted ? "" : "-", bond_readings_columns ()[index].id, NULL));
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
want_usual (BondReadingsTable *self)
{
  for (int i = 0; i < BOND_N_READINGS_COLUMNS; i++)
    self->wanted[i] = !bond_readings_columns ()[i].unusual;
}

void
bond_readings_fit_load (BondReadingsTable *self)
{
  g_auto (GStrv) words = self->settings != NULL ? g_settings_get_strv (self->settings, KEY_COLUMNS) : NULL;
  guint position = 0;

  self->loading = TRUE;
  want_usual (self);
  for (guint i = 0; words != NULL && words[i] != NULL; i++)
    {
      gboolean hidden = words[i][0] == '-';
      int index = find_column (words[i] + hidden);

      if (index < 0)
        continue;
      self->wanted[index] = !hidden;
      gtk_column_view_insert_column (self->view, position++, self->column[index]);
    }
  for (int i = 0; i < BOND_N_READINGS_COLUMNS; i++)
    gtk_column_view_column_set_visible (self->column[i], self->wanted[i]);
  self->loading = FALSE;
  g_signal_connect_swapped (gtk_column_view_get_columns (self->view), "items-changed", G_CALLBACK (save_columns), self);
}

/* --- room --- */

static gboolean
has_unit (int column)
{
  BondReadingsLook look = bond_readings_columns ()[column].look;

  return look == BOND_READINGS_LOOK_NUMBER || look == BOND_READINGS_LOOK_RESULT || look == BOND_READINGS_LOOK_FOUND;
}

static double
scale_of (BondReadingsTable *self)
{
  PangoContext *context = gtk_widget_get_pango_context (GTK_WIDGET (self));
  PangoFontMetrics *metrics = pango_context_get_metrics (context, NULL, NULL);
  double digit = (double)pango_font_metrics_get_approximate_digit_width (metrics) / PANGO_SCALE;

  pango_font_metrics_unref (metrics);
  return MAX (digit / PLAIN_DIGIT, 0.7);
}

static int
scaled (BondReadingsTable *self, int column, int width)
{
  return (int)((width + (self->mixed && has_unit (column) ? UNIT_ROOM : 0)) * self->fitted_scale + 0.5);
}

/* The least that is needed; a width dragged by hand stays. */
static int
need (BondReadingsTable *self, int column)
{
  int now = gtk_column_view_column_get_fixed_width (self->column[column]);

  return now != self->given[column] ? now : scaled (self, column, bond_readings_columns ()[column].width);
}

/* The one that matters least of those still there; −1 = only those that never give way. */
static int
least (const gboolean shown[BOND_N_READINGS_COLUMNS])
{
  int found = -1;

  for (int i = 0; i < BOND_N_READINGS_COLUMNS; i++)
    if (shown[i] && bond_readings_columns ()[i].rank > 0
        && (found < 0 || bond_readings_columns ()[i].rank > bond_readings_columns ()[found].rank))
      found = i;
  return found;
}

/* What is left goes round by rank, each up to what it would like. */
static void
give_rest (BondReadingsTable *self, const gboolean shown[BOND_N_READINGS_COLUMNS], int width[BOND_N_READINGS_COLUMNS],
           int rest)
{
  for (int rank = 0; rank <= BOND_N_READINGS_COLUMNS && rest > 0; rank++)
    for (int i = 0; i < BOND_N_READINGS_COLUMNS && rest > 0; i++)
      if (shown[i] && bond_readings_columns ()[i].rank == rank
          && gtk_column_view_column_get_fixed_width (self->column[i]) == self->given[i])
        {
          int more = CLAMP (scaled (self, i, bond_readings_columns ()[i].best) - width[i], 0, rest);

          width[i] += more;
          rest -= more;
        }
  /* A wide window has more than all would like: no empty strip at its edge. */
  for (int i = 0; i < BOND_N_READINGS_COLUMNS && rest > 0; i++)
    if (shown[i] && bond_readings_columns ()[i].expand
        && gtk_column_view_column_get_fixed_width (self->column[i]) == self->given[i])
      {
        width[i] += rest;
        return;
      }
}

/* --- heads --- */

static GtkWidget *
find_label (GtkWidget *widget)
{
  if (GTK_IS_LABEL (widget))
    return widget;
  for (GtkWidget *child = gtk_widget_get_first_child (widget); child != NULL;
       child = gtk_widget_get_next_sibling (child))
    {
      GtkWidget *found = find_label (child);

      if (found != NULL)
        return found;
    }
  return NULL;
}

/* A head stands over its figures.  GTK has no word for that; its label is found by what it says. */
static void
dress_heads (BondReadingsTable *self)
{
  GtkWidget *header = gtk_widget_get_first_child (GTK_WIDGET (self->view));

  for (GtkWidget *head = gtk_widget_get_first_child (header); head != NULL; head = gtk_widget_get_next_sibling (head))
    {
      GtkWidget *label = find_label (head);

      for (int i = 0; label != NULL && i < BOND_N_READINGS_COLUMNS; i++)
        if (g_strcmp0 (gtk_column_view_column_get_title (self->column[i]), gtk_label_get_text (GTK_LABEL (label))) == 0)
          {
            gtk_label_set_ellipsize (GTK_LABEL (label), PANGO_ELLIPSIZE_END);
            gtk_widget_set_halign (gtk_widget_get_parent (label), has_unit (i) ? GTK_ALIGN_END : GTK_ALIGN_FILL);
            gtk_widget_set_margin_end (gtk_widget_get_parent (label), has_unit (i) && self->mixed ? UNIT_ROOM : 0);
            gtk_widget_set_tooltip_text (head, gtk_label_get_text (GTK_LABEL (label)));
            bond_name_widget (head, gtk_label_get_text (GTK_LABEL (label)));
          }
    }
}

void
bond_readings_fit (BondReadingsTable *self)
{
  gboolean shown[BOND_N_READINGS_COLUMNS];
  int width[BOND_N_READINGS_COLUMNS], sum = 0, room = gtk_widget_get_width (GTK_WIDGET (self)), out;

  if (room <= 0)
    return;
  self->fitted_width = room;
  self->fitted_scale = scale_of (self);
  for (int i = 0; i < BOND_N_READINGS_COLUMNS; i++)
    {
      shown[i] = self->wanted[i];
      width[i] = need (self, i);
      sum += shown[i] ? width[i] : 0;
    }
  while (sum > room && (out = least (shown)) >= 0)
    {
      shown[out] = FALSE;
      sum -= width[out];
    }
  give_rest (self, shown, width, room - sum);
  for (int i = 0; i < BOND_N_READINGS_COLUMNS; i++)
    {
      if (gtk_column_view_column_get_fixed_width (self->column[i]) == self->given[i])
        gtk_column_view_column_set_fixed_width (self->column[i], self->given[i] = width[i]);
      gtk_column_view_column_set_visible (self->column[i], shown[i]);
    }
  dress_heads (self); /* a column that comes back has a new one */
}

static gboolean
fit_cb (gpointer data)
{
  BondReadingsTable *self = data;

  self->fit_source = 0;
  bond_readings_fit (self);
  return G_SOURCE_REMOVE;
}

void
bond_readings_fit_later (BondReadingsTable *self)
{
  if (self->fit_source == 0)
    self->fit_source = g_idle_add_full (G_PRIORITY_HIGH_IDLE, fit_cb, self, NULL);
}

void
bond_readings_units_changed (BondReadingsTable *self)
{
  gboolean mixed = self->mixed;

  self->unit = bond_readings_model_get_unit (self->model, &self->mixed);
  for (int i = 0; i < BOND_N_READINGS_COLUMNS; i++)
    if (has_unit (i) || bond_readings_columns ()[i].look == BOND_READINGS_LOOK_LIMIT)
      {
        g_autofree char *title
            = g_strdup_printf (_ ("%s, %s"), _ (bond_readings_columns ()[i].title), bond_unit_symbol (self->unit));

        gtk_column_view_column_set_title (self->column[i], title);
      }
  dress_heads (self);
  if (mixed != self->mixed)
    bond_readings_fit_later (self);
}

/* --- public --- */

int
bond_readings_table_nth_column (BondReadingsTable *self, guint position, gboolean *wanted)
{
  g_autoptr (GtkColumnViewColumn) column = NULL;
  const BondReadingsColumnData *data;

  g_return_val_if_fail (BOND_IS_READINGS_TABLE (self), 0);
  column = g_list_model_get_item (gtk_column_view_get_columns (self->view), position);
  g_return_val_if_fail (column != NULL, 0);
  data = g_object_get_data (G_OBJECT (column), "bond-column");
  *wanted = self->wanted[data->index];
  return data->index;
}

int
bond_readings_table_get_order (BondReadingsTable *self, int order[BOND_N_READINGS_COLUMNS])
{
  int n = 0;

  g_return_val_if_fail (BOND_IS_READINGS_TABLE (self), 0);
  for (guint i = 0; i < BOND_N_READINGS_COLUMNS; i++)
    {
      gboolean wanted = TRUE;
      int index = bond_readings_table_nth_column (self, i, &wanted);

      if (wanted)
        order[n++] = index;
    }
  return n;
}

gboolean
bond_readings_table_has_room (BondReadingsTable *self, int column)
{
  g_return_val_if_fail (BOND_IS_READINGS_TABLE (self) && column >= 0 && column < BOND_N_READINGS_COLUMNS, FALSE);
  return !self->wanted[column] || gtk_column_view_column_get_visible (self->column[column]);
}

gboolean
bond_readings_table_is_end (BondReadingsTable *self, int column, gboolean last)
{
  int found = -1;

  g_return_val_if_fail (BOND_IS_READINGS_TABLE (self), FALSE);
  for (guint i = 0; i < BOND_N_READINGS_COLUMNS && (last || found < 0); i++)
    {
      gboolean wanted;
      int index = bond_readings_table_nth_column (self, i, &wanted);

      if (gtk_column_view_column_get_visible (self->column[index]))
        found = index;
    }
  return found == column;
}

void
bond_readings_table_show_column (BondReadingsTable *self, int column, gboolean show)
{
  g_return_if_fail (BOND_IS_READINGS_TABLE (self) && column >= 0 && column < BOND_N_READINGS_COLUMNS);
  self->wanted[column] = show;
  gtk_column_view_column_set_visible (self->column[column], show);
  bond_readings_fit (self);
  save_columns (self);
}

void
bond_readings_table_move_column (BondReadingsTable *self, int column, int by)
{
  g_return_if_fail (BOND_IS_READINGS_TABLE (self) && column >= 0 && column < BOND_N_READINGS_COLUMNS);
  for (int i = 0; i < BOND_N_READINGS_COLUMNS; i++)
    {
      gboolean wanted;

      if (bond_readings_table_nth_column (self, (guint)i, &wanted) == column)
        {
          gtk_column_view_insert_column (self->view, (guint)CLAMP (i + by, 0, BOND_N_READINGS_COLUMNS - 1),
                                         self->column[column]);
          dress_heads (self);
          return;
        }
    }
}

void
bond_readings_table_reset (BondReadingsTable *self)
{
  g_return_if_fail (BOND_IS_READINGS_TABLE (self));
  want_usual (self);
  for (int i = 0; i < BOND_N_READINGS_COLUMNS; i++)
    {
      gtk_column_view_column_set_fixed_width (self->column[i], self->given[i]);
      gtk_column_view_insert_column (self->view, (guint)i, self->column[i]);
    }
  dress_heads (self);
  bond_readings_fit (self);
  save_columns (self);
  bond_readings_table_sort_by (self, -1, GTK_SORT_ASCENDING);
}
