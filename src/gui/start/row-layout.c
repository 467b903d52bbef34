/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * The columns of the page Surveys.  They have to stand under each other although the
 * texts in them break into lines, and a text that breaks asks for another width in
 * every row; so the width of a column hangs on the width of the row and on nothing
 * else.  What is in a column is aircraft-row.c's.
 */
#include "gui/start/row-layout.h"

#define GAP 16
#define N_COLUMNS 4
enum
{
  WHO,
  TIME,
  WORDS,
  ACT
};

/* Least and most pixels of a column at the usual size of text, and its share of what is there between. */
static const struct
{
  int least, most;
  double share;
} columns[N_COLUMNS] = {
  [WHO] = { 130, 330, 0.30 },
  [TIME] = { 96, 0, 0 }, /* what the others leave */
  [WORDS] = { 180, 480, 0.46 },
};

struct _BondRowLayout
{
  GtkLayoutManager parent_instance;
};

G_DEFINE_FINAL_TYPE (BondRowLayout, bond_row_layout, GTK_TYPE_LAYOUT_MANAGER)

/* The columns of @row: its visible children, in order. */
static void
find_columns (GtkWidget *row, GtkWidget *found[N_COLUMNS])
{
  int i = 0;

  for (GtkWidget *child = gtk_widget_get_first_child (row); child != NULL && i < N_COLUMNS;
       child = gtk_widget_get_next_sibling (child))
    if (gtk_widget_should_layout (child))
      found[i++] = child;
}

static void
share_out (GtkWidget *found[N_COLUMNS], int width, int widths[N_COLUMNS])
{
  int act = 0, rest;

  /* The buttons never break, and a size group gives them one width in all rows. */
  if (found[ACT] != NULL)
    gtk_widget_measure (found[ACT], GTK_ORIENTATION_HORIZONTAL, -1, NULL, &act, NULL, NULL);
  widths[ACT] = act;
  rest = MAX (width - act - (N_COLUMNS - 1) * GAP, 0);
  widths[WHO] = CLAMP ((int)(rest * columns[WHO].share), columns[WHO].least, columns[WHO].most);
  widths[WORDS] = CLAMP ((int)(rest * columns[WORDS].share), columns[WORDS].least, columns[WORDS].most);
  widths[TIME] = MAX (rest - widths[WHO] - widths[WORDS], columns[TIME].least);
}

static GtkSizeRequestMode
bond_row_layout_get_request_mode (GtkLayoutManager *layout, GtkWidget *row)
{
  return GTK_SIZE_REQUEST_HEIGHT_FOR_WIDTH;
}

static void
bond_row_layout_measure (GtkLayoutManager *layout, GtkWidget *row, GtkOrientation orientation, int for_size,
                         int *minimum, int *natural, int *minimum_baseline, int *natural_baseline)
{
  GtkWidget *found[N_COLUMNS] = { NULL };
  int widths[N_COLUMNS] = { 0 }, total = (N_COLUMNS - 1) * GAP, height = 0;

  find_columns (row, found);
  share_out (found, orientation == GTK_ORIENTATION_VERTICAL ? for_size : 0, widths);
  for (int i = 0; i < N_COLUMNS; i++)
    {
      int least = 0, own = 0;

      if (found[i] != NULL)
        gtk_widget_measure (found[i], GTK_ORIENTATION_HORIZONTAL, -1, &least, NULL, NULL, NULL);
      total += MAX (widths[i], least);
      if (found[i] != NULL && orientation == GTK_ORIENTATION_VERTICAL)
        gtk_widget_measure (found[i], GTK_ORIENTATION_VERTICAL, MAX (widths[i], least), &own, NULL, NULL, NULL);
      height = MAX (height, own);
    }
  *minimum = *natural = orientation == GTK_ORIENTATION_VERTICAL ? height : total;
}

static void
bond_row_layout_allocate (GtkLayoutManager *layout, GtkWidget *row, int width, int height, int baseline)
{
  GtkWidget *found[N_COLUMNS] = { NULL };
  int widths[N_COLUMNS] = { 0 }, x = 0;
  gboolean mirrored = gtk_widget_get_direction (row) == GTK_TEXT_DIR_RTL;

  find_columns (row, found);
  share_out (found, width, widths);
  for (int i = 0; i < N_COLUMNS; i++)
    {
      int least = 0, own;

      if (found[i] == NULL)
        continue;
      gtk_widget_measure (found[i], GTK_ORIENTATION_HORIZONTAL, -1, &least, NULL, NULL, NULL);
      own = MAX (widths[i], least);
      gtk_widget_size_allocate (found[i], &(GtkAllocation){ mirrored ? width - x - own : x, 0, own, height }, -1);
      x += own + GAP;
    }
}

static void
bond_row_layout_class_init (BondRowLayoutClass *klass)
{
  GtkLayoutManagerClass *layout_class = GTK_LAYOUT_MANAGER_CLASS (klass);

  layout_class->get_request_mode = bond_row_layout_get_request_mode;
  layout_class->measure = bond_row_layout_measure;
  layout_class->allocate = bond_row_layout_allocate;
}

static void
bond_row_layout_init (BondRowLayout *self)
{
}

GtkWidget *
bond_row_columns_new (void)
{
  GtkWidget *row = gtk_box_new (GTK_ORIENTATION_HORIZONTAL, 0);

  gtk_widget_set_layout_manager (row, g_object_new (BOND_TYPE_ROW_LAYOUT, NULL));
  return row;
}
