/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * GtkFlowBox gives every child the same width and cannot be told from which width
 * on; this is the little that is needed instead.
 */
#include "gui/details/details-columns.h"

#define GAP_PX 36
#define TWO_FROM_EM 52.0 /* width from which there are two, in em of the font */
#define PX_PER_PT (96.0 / 72.0)
#define USUAL_PT 11.0

struct _BondDetailsColumns
{
  GtkWidget parent_instance;
  GtkWidget *column[2];
};

G_DEFINE_FINAL_TYPE (BondDetailsColumns, bond_details_columns, GTK_TYPE_WIDGET)

static int
two_from (GtkWidget *widget)
{
  const PangoFontDescription *font = pango_context_get_font_description (gtk_widget_get_pango_context (widget));
  double size = font != NULL ? pango_font_description_get_size (font) / (double)PANGO_SCALE : 0;

  if (size <= 0)
    size = USUAL_PT;
  if (font == NULL || !pango_font_description_get_size_is_absolute (font))
    size *= PX_PER_PT;
  return (int)(TWO_FROM_EM * size);
}

static int
column_width (GtkWidget *widget, int width)
{
  return width >= two_from (widget) ? (width - GAP_PX) / 2 : width;
}

static GtkSizeRequestMode
bond_details_columns_get_request_mode (GtkWidget *widget)
{
  return GTK_SIZE_REQUEST_HEIGHT_FOR_WIDTH;
}

static void
bond_details_columns_measure (GtkWidget *widget, GtkOrientation orientation, int for_size, int *minimum, int *natural,
                              int *minimum_baseline, int *natural_baseline)
{
  BondDetailsColumns *self = BOND_DETAILS_COLUMNS (widget);
  gboolean across = orientation == GTK_ORIENTATION_HORIZONTAL;
  int each = !across && for_size >= 0 ? column_width (widget, for_size) : -1;
  gboolean beside = each >= 0 && each < for_size;
  int min[2], nat[2];

  *minimum_baseline = *natural_baseline = -1;
  for (int i = 0; i < 2; i++)
    gtk_widget_measure (self->column[i], orientation, each, &min[i], &nat[i], NULL, NULL);
  if (across || beside)
    *minimum = MAX (min[0], min[1]);
  else
    *minimum = min[0] + GAP_PX + min[1];
  if (across)
    *natural = nat[0] + GAP_PX + nat[1];
  else
    *natural = beside ? MAX (nat[0], nat[1]) : nat[0] + GAP_PX + nat[1];
}

static void
bond_details_columns_size_allocate (GtkWidget *widget, int width, int height, int baseline)
{
  BondDetailsColumns *self = BOND_DETAILS_COLUMNS (widget);
  gboolean rtl = gtk_widget_get_direction (widget) == GTK_TEXT_DIR_RTL;
  int each = column_width (widget, width);
  GtkAllocation at = { 0, 0, each, height };

  for (int i = 0; i < 2; i++)
    {
      int natural;

      gtk_widget_measure (self->column[i], GTK_ORIENTATION_VERTICAL, each, NULL, &natural, NULL, NULL);
      at.height = natural;
      if (each < width)
        at.x = (i == 0) != rtl ? 0 : width - each;
      gtk_widget_size_allocate (self->column[i], &at, -1);
      if (each == width)
        at.y += natural + GAP_PX;
    }
}

static void
bond_details_columns_dispose (GObject *object)
{
  BondDetailsColumns *self = BOND_DETAILS_COLUMNS (object);

  for (int i = 0; i < 2; i++)
    g_clear_pointer (&self->column[i], gtk_widget_unparent);
  G_OBJECT_CLASS (bond_details_columns_parent_class)->dispose (object);
}

static void
bond_details_columns_class_init (BondDetailsColumnsClass *klass)
{
  GtkWidgetClass *widget_class = GTK_WIDGET_CLASS (klass);

  G_OBJECT_CLASS (klass)->dispose = bond_details_columns_dispose;
  widget_class->get_request_mode = bond_details_columns_get_request_mode;
  widget_class->measure = bond_details_columns_measure;
  widget_class->size_allocate = bond_details_columns_size_allocate;
}

static void
bond_details_columns_init (BondDetailsColumns *self)
{
}

GtkWidget *
bond_details_columns_new (GtkWidget *left, GtkWidget *right)
{
  BondDetailsColumns *self = g_object_new (BOND_TYPE_DETAILS_COLUMNS, NULL);

  self->column[0] = left;
  self->column[1] = right;
  for (int i = 0; i < 2; i++)
    gtk_widget_set_parent (self->column[i], GTK_WIDGET (self));
  return GTK_WIDGET (self);
}
