/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * Rows of the history.  What stands in them is worded by details-line.c; nothing is
 * left out, and what no longer counts is struck through.
 */
#include "gui/details/details-history.h"
#include "gui/details/details-line.h"
#include "gui/dialog.h"
#include "gui/start/detail.h"
#include "gui/widgets/mark-image.h"
#include <glib/gi18n-lib.h>

#define MARK_PX 20

GtkWidget *
bond_details_history_new (void)
{
  GtkWidget *list = gtk_list_box_new ();

  gtk_list_box_set_selection_mode (GTK_LIST_BOX (list), GTK_SELECTION_NONE);
  gtk_widget_add_css_class (list, "details-history");
  bond_name_widget (list, _ ("History, oldest first"));
  return list;
}

static GtkWidget *
new_title (const BondDetailsLine *line)
{
  GtkWidget *label = bond_detail_label (line->title, "strong");

  gtk_label_set_wrap (GTK_LABEL (label), FALSE);
  gtk_widget_add_css_class (label, "number");
  if (line->struck)
    {
      g_autoptr (PangoAttrList) attributes = pango_attr_list_new ();

      pango_attr_list_insert (attributes, pango_attr_strikethrough_new (TRUE));
      gtk_label_set_attributes (GTK_LABEL (label), attributes);
      gtk_widget_add_css_class (label, "quiet");
    }
  return label;
}

static GtkWidget *
new_mark (const BondDetailsLine *line)
{
  GtkWidget *mark = bond_mark_image_new ();

  bond_mark_image_set_size (BOND_MARK_IMAGE (mark), MARK_PX);
  if (line->mark >= 0)
    bond_mark_image_set_mark (BOND_MARK_IMAGE (mark), line->mark);
  else
    bond_mark_image_clear (BOND_MARK_IMAGE (mark));
  gtk_widget_set_valign (mark, GTK_ALIGN_START);
  return mark;
}

static GtkWidget *
new_row (const BondDetailsLine *line)
{
  GtkWidget *row = gtk_list_box_row_new ();
  GtkWidget *grid = gtk_grid_new ();
  GtkWidget *head = gtk_box_new (GTK_ORIENTATION_HORIZONTAL, 8);
  GtkWidget *word = bond_detail_label (line->word, line->css != NULL ? line->css : "quiet");
  GtkWidget *when = gtk_label_new (line->when);
  g_autofree char *spoken = bond_details_line_spoken (line);

  gtk_list_box_row_set_activatable (GTK_LIST_BOX_ROW (row), FALSE);
  gtk_grid_set_column_spacing (GTK_GRID (grid), 12);
  gtk_box_append (GTK_BOX (head), new_title (line));
  gtk_box_append (GTK_BOX (head), word);
  gtk_widget_set_hexpand (word, TRUE);
  gtk_widget_set_valign (when, GTK_ALIGN_START);
  gtk_widget_add_css_class (when, "note");
  gtk_widget_add_css_class (when, "number");
  gtk_grid_attach (GTK_GRID (grid), new_mark (line), 0, 0, 1, 2);
  gtk_grid_attach (GTK_GRID (grid), head, 1, 0, 1, 1);
  gtk_grid_attach (GTK_GRID (grid), when, 2, 0, 1, 1);
  if (*line->note != '\0')
    gtk_grid_attach (GTK_GRID (grid), bond_detail_label (line->note, "note"), 1, 1, 2, 1);
  gtk_list_box_row_set_child (GTK_LIST_BOX_ROW (row), grid);
  bond_name_widget (row, spoken);
  return row;
}

static GtkWidget *
new_empty (void)
{
  GtkWidget *row = gtk_list_box_row_new ();

  gtk_list_box_row_set_activatable (GTK_LIST_BOX_ROW (row), FALSE);
  gtk_list_box_row_set_child (GTK_LIST_BOX_ROW (row), bond_detail_label (_ ("No reading yet."), "quiet"));
  bond_name_widget (row, _ ("No reading yet."));
  return row;
}

/* Index of the row that has the focus, −1 = none. */
static int
focused_row (GtkListBox *list)
{
  GtkWidget *focus = gtk_widget_get_focus_child (GTK_WIDGET (list));

  return GTK_IS_LIST_BOX_ROW (focus) ? gtk_list_box_row_get_index (GTK_LIST_BOX_ROW (focus)) : -1;
}

static gboolean
has_reading (GPtrArray *story)
{
  for (guint i = 0; i < story->len; i++)
    {
      const BondStoryLine *line = g_ptr_array_index (story, i);

      if (line->item != NULL && line->item->measurement != NULL)
        return TRUE;
    }
  return FALSE;
}

void
bond_details_history_show (GtkListBox *list, BondSurvey *survey, BondPoint *point)
{
  g_autoptr (GPtrArray) story = bond_point_story (point);
  g_autoptr (GPtrArray) lines = bond_details_lines (survey, point, story);
  int focused = focused_row (list);
  GtkListBoxRow *row;

  while ((row = gtk_list_box_get_row_at_index (list, 0)) != NULL)
    gtk_list_box_remove (list, GTK_WIDGET (row));
  for (guint i = 0; i < lines->len; i++)
    gtk_list_box_append (list, new_row (g_ptr_array_index (lines, i)));
  if (!has_reading (story))
    gtk_list_box_append (list, new_empty ());
  if (focused >= 0)
    {
      row = gtk_list_box_get_row_at_index (list, focused);
      gtk_widget_grab_focus (row != NULL ? GTK_WIDGET (row) : GTK_WIDGET (list));
    }
}
