/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * Headings, pairs and tables of the register pages: rules and white space, figures
 * in line, long texts wrapped.
 */
#include "gui/start/detail.h"

#include <string.h>

#define LABEL_CHARS 18
#define HEADING_CHARS 12
#define TEXT_CHARS 12
#define KINDS_KEY "bond-column-kinds"
#define ROWS_KEY "bond-rows"

GtkWidget *
bond_detail_label (const char *text, const char *css)
{
  GtkWidget *label = gtk_label_new (text);

  gtk_label_set_xalign (GTK_LABEL (label), 0);
  gtk_label_set_yalign (GTK_LABEL (label), 0);
  gtk_label_set_wrap (GTK_LABEL (label), TRUE);
  gtk_label_set_wrap_mode (GTK_LABEL (label), PANGO_WRAP_WORD_CHAR);
  if (css != NULL)
    gtk_widget_add_css_class (label, css);
  return label;
}

void
bond_detail_heading (GtkBox *box, const char *text)
{
  GtkWidget *label = bond_detail_label (text, "section");

  gtk_widget_set_margin_top (label, gtk_widget_get_first_child (GTK_WIDGET (box)) != NULL ? 16 : 0);
  gtk_box_append (box, label);
}

void
bond_detail_text (GtkBox *box, const char *text, const char *css)
{
  if (text != NULL)
    gtk_box_append (box, bond_detail_label (text, css));
}

void
bond_detail_pair (GtkBox *box, const char *label, const char *value)
{
  GtkWidget *line, *left, *right;

  if (value == NULL || *value == '\0')
    return;
  line = gtk_box_new (GTK_ORIENTATION_HORIZONTAL, 12);
  left = bond_detail_label (label, "quiet");
  right = bond_detail_label (value, NULL);
  gtk_label_set_width_chars (GTK_LABEL (left), LABEL_CHARS);
  gtk_label_set_max_width_chars (GTK_LABEL (left), LABEL_CHARS);
  gtk_widget_set_hexpand (right, TRUE);
  gtk_box_append (GTK_BOX (line), left);
  gtk_box_append (GTK_BOX (line), right);
  gtk_box_append (box, line);
}

static void
attach (GtkWidget *table, const char *kinds, int column, int row, GtkWidget *label)
{
  gboolean figures = kinds[column] == '#';

  if (figures)
    {
      gtk_label_set_xalign (GTK_LABEL (label), 1);
      gtk_label_set_justify (GTK_LABEL (label), GTK_JUSTIFY_RIGHT);
      /* A figure is never broken; the heading above it may be. */
      gtk_label_set_wrap (GTK_LABEL (label), row == 0);
      gtk_label_set_max_width_chars (GTK_LABEL (label), row == 0 ? HEADING_CHARS : -1);
      gtk_label_set_wrap_mode (GTK_LABEL (label), PANGO_WRAP_WORD);
      gtk_widget_add_css_class (label, "number");
    }
  if (kinds[column] == ' ') /* a code breaks after a hyphen, never in a word */
    gtk_label_set_wrap_mode (GTK_LABEL (label), PANGO_WRAP_WORD);
  if (kinds[column] == '+')
    {
      gtk_widget_set_hexpand (label, TRUE);
      gtk_label_set_width_chars (GTK_LABEL (label), TEXT_CHARS);
    }
  gtk_label_set_yalign (GTK_LABEL (label), row == 0 ? 1 : 0);
  gtk_grid_attach (GTK_GRID (table), label, column, row, 1, 1);
}

GtkWidget *
bond_detail_table (GtkBox *box, const char *const *columns)
{
  GtkWidget *table = gtk_grid_new ();
  GString *kinds = g_string_new (NULL);

  gtk_grid_set_column_spacing (GTK_GRID (table), 16);
  gtk_grid_set_row_spacing (GTK_GRID (table), 6);
  for (int i = 0; columns[i] != NULL; i++)
    {
      gboolean marked = columns[i][0] == '#' || columns[i][0] == '+';

      g_string_append_c (kinds, marked ? columns[i][0] : ' ');
      attach (table, kinds->str, i, 0, bond_detail_label (columns[i] + marked, "note"));
      gtk_widget_add_css_class (gtk_grid_get_child_at (GTK_GRID (table), i, 0), "table-head");
    }
  g_object_set_data_full (G_OBJECT (table), KINDS_KEY, g_string_free (kinds, FALSE), g_free);
  g_object_set_data (G_OBJECT (table), ROWS_KEY, GINT_TO_POINTER (1));
  gtk_box_append (box, table);
  return table;
}

void
bond_detail_row (GtkWidget *table, const char *const *cells)
{
  const char *kinds = g_object_get_data (G_OBJECT (table), KINDS_KEY);
  int row = GPOINTER_TO_INT (g_object_get_data (G_OBJECT (table), ROWS_KEY));

  g_return_if_fail (kinds != NULL);
  for (int i = 0; i < (int)strlen (kinds); i++)
    attach (table, kinds, i, row, bond_detail_label (cells[i] != NULL ? cells[i] : "", i == 0 ? "strong" : NULL));
  g_object_set_data (G_OBJECT (table), ROWS_KEY, GINT_TO_POINTER (row + 1));
}
