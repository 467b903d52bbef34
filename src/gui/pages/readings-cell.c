/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * Draws what its column says of its row.  The header of a zone is drawn by the
 * first and the last column that are shown, over the cells between them, because
 * GTK 4.8 has no rows that span columns.
 */
#include "gui/pages/readings-cell.h"
#include "gui/dialog.h"
#include "gui/style.h"
#include "gui/words.h"
#include "report/marks.h"
#include <glib/gi18n-lib.h>

#define PAD 6
#define MARK_ROOM 26
#define MARK_SIZE 16.0
#define ROW_HEIGHT 34
#define SCALE_MOST 1500 /* per mille of the limit at the end of the line */
#define SCALE_WIDTH 62.0

struct _BondReadingsCell
{
  GtkWidget parent_instance;
  BondReadingsTable *table; /* borrowed: it holds the cell */
  int index;
  const BondReadingsColumn *info;
  BondReadingsRow *row;
  char *text;
  gboolean cut; /* drawn with an ellipsis */
};

G_DEFINE_FINAL_TYPE (BondReadingsCell, bond_readings_cell, GTK_TYPE_WIDGET)

static gboolean
is_header (BondReadingsCell *self)
{
  return self->row != NULL && bond_readings_row_get_point (self->row) == NULL;
}

static BondMark
mark_of (BondReadingsCell *self)
{
  return bond_mark_for (bond_readings_row_get_result (self->row),
                        bond_survey_get_rule (bond_readings_row_get_survey (self->row)));
}

/* Ink of a figure: a plain pass has none. */
static const BondRgb *
verdict_ink (BondReadingsCell *self, const BondMeasurement *value, const BondInks *inks)
{
  const BondPlaceResult *result = bond_readings_row_get_result (self->row);

  if (value == NULL || value->outcome != BOND_OUTCOME_JUDGED)
    return result->state == BOND_STATE_SUSPECT ? &inks->guard : &inks->text;
  if (!value->conforms)
    return &inks->fail;
  return value->within_u ? &inks->guard : &inks->text;
}

static const BondRgb *
figure_ink (BondReadingsCell *self, const BondInks *inks)
{
  switch (self->info->look)
    {
    case BOND_READINGS_LOOK_RESULT:
    case BOND_READINGS_LOOK_USED:
      return verdict_ink (self, bond_readings_row_get_value (self->row), inks);
    case BOND_READINGS_LOOK_FOUND:
      return verdict_ink (self, bond_readings_row_get_result (self->row)->found, inks);
    case BOND_READINGS_LOOK_TEXT:
    case BOND_READINGS_LOOK_STRONG:
    case BOND_READINGS_LOOK_QUIET:
    case BOND_READINGS_LOOK_MARK:
    case BOND_READINGS_LOOK_CLASS:
    case BOND_READINGS_LOOK_LIMIT:
    case BOND_READINGS_LOOK_NUMBER:
    default:
      return &inks->text;
    }
}

static PangoLayout *
new_layout (BondReadingsCell *self, const char *text, gboolean strong, double scale)
{
  PangoLayout *layout = gtk_widget_create_pango_layout (GTK_WIDGET (self), text);
  g_autoptr (PangoAttrList) attributes = pango_attr_list_new ();

  pango_attr_list_insert (attributes, pango_attr_font_features_new ("tnum"));
  if (strong)
    pango_attr_list_insert (attributes, pango_attr_weight_new (PANGO_WEIGHT_BOLD));
  if (scale < 1)
    pango_attr_list_insert (attributes, pango_attr_scale_new (scale));
  pango_layout_set_attributes (layout, attributes);
  return layout;
}

static void
append_layout (GtkSnapshot *snapshot, PangoLayout *layout, double x, double y, const BondRgb *ink)
{
  gtk_snapshot_save (snapshot);
  gtk_snapshot_translate (snapshot, &GRAPHENE_POINT_INIT ((float)x, (float)y));
  gtk_snapshot_append_layout (snapshot, layout, &(GdkRGBA){ (float)ink->r, (float)ink->g, (float)ink->b, 1 });
  gtk_snapshot_restore (snapshot);
}

/* One line from @x on, cut with an ellipsis where the cell ends. Returns: its width */
static double
draw_line (BondReadingsCell *self, GtkSnapshot *snapshot, const char *text, double x, double width, gboolean strong,
           const BondRgb *ink)
{
  g_autoptr (PangoLayout) layout = new_layout (self, text, strong, 1);
  int w, h;

  pango_layout_set_ellipsize (layout, PANGO_ELLIPSIZE_END);
  pango_layout_set_width (layout, (int)(MAX (width, 1) * PANGO_SCALE));
  pango_layout_get_pixel_size (layout, &w, &h);
  append_layout (snapshot, layout, x, (gtk_widget_get_height (GTK_WIDGET (self)) - h) / 2.0, ink);
  self->cut = self->cut || pango_layout_is_ellipsized (layout);
  return w;
}

static double
width_of (BondReadingsCell *self, const char *text, gboolean strong)
{
  g_autoptr (PangoLayout) layout = new_layout (self, text, strong, 1);
  int w;

  pango_layout_get_pixel_size (layout, &w, NULL);
  return w;
}

static gboolean
has_head_unit (BondReadingsCell *self)
{
  return bond_readings_row_get_unit (self->row) == bond_readings_table_get_unit (self->table);
}

/* The decimal marks of a column stand below each other; behind the longest fraction a unit that the head does not name.
 */
static void
draw_number (BondReadingsCell *self, GtkSnapshot *snapshot, const BondInks *inks)
{
  gboolean strong = self->info->look == BOND_READINGS_LOOK_RESULT;
  const char *unit = bond_unit_symbol (bond_readings_row_get_unit (self->row));
  const char *fraction = strchr (self->text, bond_locale_mark ());
  double unit_room = bond_readings_table_is_mixed (self->table) ? width_of (self, "MΩ", FALSE) + 4 : 0;
  double room = width_of (self, ".000", strong);
  double own = fraction != NULL ? width_of (self, fraction, strong) : 0;
  double right = gtk_widget_get_width (GTK_WIDGET (self)) - PAD - unit_room;
  double w = width_of (self, self->text, strong);
  gboolean figure = g_ascii_isdigit (self->text[strlen (self->text) - 1]);
  double x = figure ? right - room + own - w : right - w;

  x = MAX (MIN (x, right - w), 0);
  draw_line (self, snapshot, self->text, x, right - x + 2, strong, figure_ink (self, inks));
  if (figure && !has_head_unit (self))
    draw_line (self, snapshot, unit, right + 4, unit_room + PAD, FALSE, &inks->text);
}

static void
draw_limit (BondReadingsCell *self, GtkSnapshot *snapshot, const BondInks *inks)
{
  g_autofree char *text = bond_readings_limit (self->row, !has_head_unit (self));

  draw_line (self, snapshot, text, PAD, gtk_widget_get_width (GTK_WIDGET (self)) - 2 * PAD, FALSE, &inks->text);
}

static void
draw_mark (BondReadingsCell *self, GtkSnapshot *snapshot, const BondInks *inks)
{
  int width = gtk_widget_get_width (GTK_WIDGET (self)), height = gtk_widget_get_height (GTK_WIDGET (self));
  cairo_t *cr = gtk_snapshot_append_cairo (snapshot, &GRAPHENE_RECT_INIT (0, 0, MARK_ROOM + PAD, (float)height));

  bond_mark_draw (cr, mark_of (self), PAD + MARK_ROOM / 2.0, height / 2.0, MARK_SIZE, inks);
  cairo_destroy (cr);
  draw_line (self, snapshot, self->text, PAD + MARK_ROOM + 6, width - PAD - MARK_ROOM - 6, FALSE, &inks->text);
}

static void
draw_class (BondReadingsCell *self, GtkSnapshot *snapshot, const BondInks *inks)
{
  BondClass klass = bond_point_get_spec (bond_readings_row_get_point (self->row))->klass;
  const char letter[] = { bond_class_letter (klass), '\0' };
  int width = gtk_widget_get_width (GTK_WIDGET (self)), height = gtk_widget_get_height (GTK_WIDGET (self));
  cairo_t *cr = gtk_snapshot_append_cairo (snapshot, &GRAPHENE_RECT_INIT (PAD + 14, 0, 20, (float)height));

  bond_class_sign_draw (cr, klass, PAD + 24, height / 2.0, 11, &inks->text);
  cairo_destroy (cr);
  draw_line (self, snapshot, letter, PAD, 14, TRUE, &inks->text);
  /* The word whole or not at all: half of it says no more than the letter. */
  if (width_of (self, self->text, FALSE) <= width - PAD - 38)
    draw_line (self, snapshot, self->text, PAD + 38, width - PAD - 36, FALSE, &inks->quiet);
  else
    self->cut = TRUE;
}

static void
draw_box (GtkSnapshot *snapshot, double x, double y, double width, double height, const BondRgb *ink)
{
  gtk_snapshot_append_color (snapshot, &(GdkRGBA){ (float)ink->r, (float)ink->g, (float)ink->b, 1 },
                             &GRAPHENE_RECT_INIT ((float)x, (float)y, (float)width, (float)height));
}

/* 0 to 150 % of the limit on one line: the limit as a fine tick, the value as a broad one; beyond it stands at the end.
 */
static void
draw_used (BondReadingsCell *self, GtkSnapshot *snapshot, const BondInks *inks)
{
  gint64 permille = bond_readings_used (self->row);
  double right = gtk_widget_get_width (GTK_WIDGET (self)) - PAD;
  double left = right - SCALE_WIDTH, base = gtk_widget_get_height (GTK_WIDGET (self)) / 2.0;
  double text_width = width_of (self, self->text, FALSE);

  draw_line (self, snapshot, self->text, MAX (left - 8 - text_width, 0), text_width + 2, FALSE, &inks->text);
  draw_box (snapshot, left, base + 5, SCALE_WIDTH, 1, &inks->line);
  draw_box (snapshot, left + SCALE_WIDTH * 1000 / SCALE_MOST, base - 7, 1, 13, &inks->text);
  draw_box (snapshot, left + (SCALE_WIDTH - 4) * (double)MIN (permille, SCALE_MOST) / SCALE_MOST, base - 5, 4, 10,
            figure_ink (self, inks));
}

static void
draw_header (BondReadingsCell *self, GtkSnapshot *snapshot, const BondInks *inks)
{
  const char *zone = bond_readings_row_get_zone (self->row);
  const char *name = bond_readings_row_get_zone_name (self->row);
  guint count = bond_readings_row_get_count (self->row);

  if (bond_readings_table_is_end (self->table, self->index, FALSE))
    {
      double x = PAD + draw_line (self, snapshot, zone, PAD, 400, TRUE, &inks->text) + 10;

      draw_line (self, snapshot, name, x, 600, FALSE, &inks->text);
    }
  if (bond_readings_table_is_end (self->table, self->index, TRUE))
    {
      g_autofree char *words = g_strdup_printf (ngettext ("%u shown", "%u shown", count), count);
      double width = width_of (self, words, FALSE);

      draw_line (self, snapshot, words, gtk_widget_get_width (GTK_WIDGET (self)) - PAD - width, width + 2, FALSE,
                 &inks->quiet);
    }
}

static void
bond_readings_cell_snapshot (GtkWidget *widget, GtkSnapshot *snapshot)
{
  BondReadingsCell *self = BOND_READINGS_CELL (widget);
  const BondInks *inks = bond_style_inks (widget);
  double width = gtk_widget_get_width (widget) - 2 * PAD;

  self->cut = FALSE;
  if (is_header (self))
    {
      draw_header (self, snapshot, inks);
      return;
    }
  if (self->row == NULL || self->text == NULL)
    return;
  switch (self->info->look)
    {
    case BOND_READINGS_LOOK_MARK:
      draw_mark (self, snapshot, inks);
      break;
    case BOND_READINGS_LOOK_CLASS:
      draw_class (self, snapshot, inks);
      break;
    case BOND_READINGS_LOOK_NUMBER:
    case BOND_READINGS_LOOK_RESULT:
    case BOND_READINGS_LOOK_FOUND:
      draw_number (self, snapshot, inks);
      break;
    case BOND_READINGS_LOOK_LIMIT:
      draw_limit (self, snapshot, inks);
      break;
    case BOND_READINGS_LOOK_USED:
      draw_used (self, snapshot, inks);
      break;
    case BOND_READINGS_LOOK_TEXT:
    case BOND_READINGS_LOOK_STRONG:
    case BOND_READINGS_LOOK_QUIET:
    default:
      draw_line (self, snapshot, self->text, PAD, width, self->info->look == BOND_READINGS_LOOK_STRONG,
                 self->info->look == BOND_READINGS_LOOK_QUIET ? &inks->quiet : &inks->text);
    }
}

static void
bond_readings_cell_measure (GtkWidget *widget, GtkOrientation orientation, int for_size, int *minimum, int *natural,
                            int *minimum_baseline, int *natural_baseline)
{
  g_autoptr (PangoLayout) layout = NULL;
  int h;

  if (orientation == GTK_ORIENTATION_HORIZONTAL)
    {
      *minimum = *natural = 24;
      return;
    }
  layout = gtk_widget_create_pango_layout (widget, "Ωg");
  pango_layout_get_pixel_size (layout, NULL, &h);
  *minimum = *natural = MAX (ROW_HEIGHT, h + 12);
}

/* What is cut off can be read with the pointer. */
static gboolean
bond_readings_cell_query_tooltip (GtkWidget *widget, int x, int y, gboolean keyboard, GtkTooltip *tooltip)
{
  BondReadingsCell *self = BOND_READINGS_CELL (widget);

  if (self->text == NULL || is_header (self) || !self->cut)
    return FALSE;
  gtk_tooltip_set_text (tooltip, self->text);
  return TRUE;
}

static char *
header_name (BondReadingsCell *self)
{
  return g_strdup_printf (_ ("Zone %s, %s, %u shown"), bond_readings_row_get_zone (self->row),
                          bond_readings_row_get_zone_name (self->row), bond_readings_row_get_count (self->row));
}

/* GTK's own row widget has the focus, so it is what is read aloud; the column of the point names it, always shown. */
static void
name_row (BondReadingsCell *self)
{
  GtkWidget *holder = gtk_widget_get_parent (GTK_WIDGET (self));
  GtkWidget *row = holder != NULL ? gtk_widget_get_parent (holder) : NULL;
  g_autofree char *mark = NULL;
  g_autofree char *value = NULL;
  g_autofree char *name = NULL;

  if (row == NULL || self->row == NULL || self->info->look != BOND_READINGS_LOOK_STRONG)
    return;
  if (is_header (self))
    name = header_name (self);
  else
    {
      mark = bond_readings_spoken_verdict (self->row);
      value = bond_readings_spoken_result (self->row);
      name = value != NULL ? g_strdup_printf ("%s, %s, %s", self->text, mark, value)
                           : g_strdup_printf ("%s, %s", self->text, mark);
    }
  bond_name_widget (row, name);
}

static void
refresh (BondReadingsCell *self)
{
  gboolean number = self->info->look >= BOND_READINGS_LOOK_NUMBER && self->info->look <= BOND_READINGS_LOOK_FOUND;
  g_autofree char *name = NULL;

  g_clear_pointer (&self->text, g_free);
  if (self->row != NULL && !is_header (self))
    self->text = self->info->text (self->row);
  if (is_header (self))
    name = header_name (self);
  else if (self->text != NULL && number)
    name = g_strdup_printf ("%s %s %s", _ (self->info->title), self->text,
                            bond_unit_spoken (bond_readings_row_get_unit (self->row)));
  else
    name = g_strdup_printf ("%s %s", _ (self->info->title), self->text != NULL ? self->text : "–");
  bond_name_widget (self, name);
  name_row (self);
  gtk_widget_queue_draw (GTK_WIDGET (self));
}

static void
bond_readings_cell_dispose (GObject *object)
{
  BondReadingsCell *self = BOND_READINGS_CELL (object);

  if (self->row != NULL)
    g_signal_handlers_disconnect_by_data (self->row, self);
  g_clear_object (&self->row);
  g_clear_pointer (&self->text, g_free);
  G_OBJECT_CLASS (bond_readings_cell_parent_class)->dispose (object);
}

static void
bond_readings_cell_class_init (BondReadingsCellClass *klass)
{
  GtkWidgetClass *widget_class = GTK_WIDGET_CLASS (klass);

  G_OBJECT_CLASS (klass)->dispose = bond_readings_cell_dispose;
  widget_class->snapshot = bond_readings_cell_snapshot;
  widget_class->measure = bond_readings_cell_measure;
  widget_class->query_tooltip = bond_readings_cell_query_tooltip;
  gtk_widget_class_set_css_name (widget_class, "bond-readings-cell");
  gtk_widget_class_set_accessible_role (widget_class, GTK_ACCESSIBLE_ROLE_LABEL);
}

static void
bond_readings_cell_init (BondReadingsCell *self)
{
  gtk_widget_set_has_tooltip (GTK_WIDGET (self), TRUE);
  gtk_widget_set_hexpand (GTK_WIDGET (self), TRUE);
}

GtkWidget *
bond_readings_cell_new (BondReadingsTable *table, int column)
{
  BondReadingsCell *self = g_object_new (BOND_TYPE_READINGS_CELL, NULL);

  self->table = table;
  self->index = column;
  self->info = &bond_readings_columns ()[column];
  return GTK_WIDGET (self);
}

void
bond_readings_cell_set_row (BondReadingsCell *self, BondReadingsRow *row)
{
  g_return_if_fail (BOND_IS_READINGS_CELL (self));
  if (self->row != NULL)
    g_signal_handlers_disconnect_by_data (self->row, self);
  g_set_object (&self->row, row);
  if (row != NULL)
    g_signal_connect_swapped (row, "changed", G_CALLBACK (refresh), self);
  refresh (self);
}

BondReadingsRow *
bond_readings_cell_get_row (BondReadingsCell *self)
{
  g_return_val_if_fail (BOND_IS_READINGS_CELL (self), NULL);
  return self->row;
}
