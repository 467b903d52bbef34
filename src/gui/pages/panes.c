/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * A layout of our own, because GtkPaned knows no width classes and takes keys the
 * reading field needs.  Only sizes are decided here; what the page does with the
 * class (foot line, second lines) is left to it.
 */
#include "gui/pages/panes.h"

#define REGULAR_FROM 1200
#define WIDE_FROM 1680
#define LOW_BELOW 600 /* without the header bar: 640 of window */

struct _BondPanes
{
  GtkWidget parent_instance;
  GtkWidget *points, *canvas, *panel;
  gboolean shown[2]; /* points pane: compact, wider */
  BondWidthClass width_class;
  gboolean low;
  guint idle;
};

static const struct
{
  int points, panel;
} widths[] = { { 316, 336 }, { 316, 352 }, { 340, 372 } };

static guint class_changed;

G_DEFINE_FINAL_TYPE (BondPanes, bond_panes, GTK_TYPE_WIDGET)

static gboolean *
shown (BondPanes *self)
{
  return &self->shown[self->width_class != BOND_WIDTH_COMPACT];
}

static gboolean
tell_cb (gpointer data)
{
  BondPanes *self = BOND_PANES (data);

  self->idle = 0;
  g_signal_emit (self, class_changed, 0);
  return G_SOURCE_REMOVE;
}

static void
bond_panes_measure (GtkWidget *widget, GtkOrientation orientation, int for_size, int *minimum, int *natural,
                    int *minimum_baseline, int *natural_baseline)
{
  BondPanes *self = BOND_PANES (widget);
  GtkWidget *child[] = { self->points, self->canvas, self->panel };
  int min[3], nat[3];

  *minimum_baseline = *natural_baseline = -1;
  for (int i = 0; i < 3; i++)
    gtk_widget_measure (child[i], orientation, -1, &min[i], &nat[i], NULL, NULL);
  if (orientation == GTK_ORIENTATION_HORIZONTAL)
    {
      *minimum = min[1] + MAX (widths[0].panel, min[2]);
      *natural = MAX (*minimum, widths[1].points + nat[1] + widths[1].panel);
      return;
    }
  *minimum = MAX (min[0], MAX (min[1], min[2]));
  *natural = MAX (*minimum, MAX (nat[0], MAX (nat[1], nat[2])));
}

static void
allocate_at (GtkWidget *child, int x, int width, int height)
{
  gtk_widget_size_allocate (child, &(GtkAllocation){ x, 0, MAX (width, 0), height }, -1);
}

static int
least_width (GtkWidget *child, int wanted)
{
  int min;

  gtk_widget_measure (child, GTK_ORIENTATION_HORIZONTAL, -1, &min, NULL, NULL, NULL);
  return MAX (min, wanted);
}

static void
decide_class (BondPanes *self, int width, int height)
{
  BondWidthClass now = width >= WIDE_FROM      ? BOND_WIDTH_WIDE
                       : width >= REGULAR_FROM ? BOND_WIDTH_REGULAR
                                               : BOND_WIDTH_COMPACT;
  gboolean low = height < LOW_BELOW;

  if (now == self->width_class && low == self->low)
    return;
  self->width_class = now;
  self->low = low;
  if (self->idle == 0)
    self->idle = g_idle_add (tell_cb, self);
}

static void
bond_panes_size_allocate (GtkWidget *widget, int width, int height, int baseline)
{
  BondPanes *self = BOND_PANES (widget);
  int points, panel, left;

  decide_class (self, width, height);
  points = least_width (self->points, widths[self->width_class].points);
  panel = least_width (self->panel, widths[self->width_class].panel);
  left = *shown (self) && self->width_class != BOND_WIDTH_COMPACT ? points : 0;
  gtk_widget_set_child_visible (self->points, *shown (self));
  if (*shown (self))
    allocate_at (self->points, 0, points, height);
  allocate_at (self->canvas, left, width - left - panel, height);
  allocate_at (self->panel, width - panel, panel, height);
}

/* The reading panel comes first whatever its side: the hand stays on the field. */
static gboolean
bond_panes_focus (GtkWidget *widget, GtkDirectionType direction)
{
  BondPanes *self = BOND_PANES (widget);
  GtkWidget *order[] = { self->panel, self->points, self->canvas };
  GtkWidget *focus = gtk_widget_get_focus_child (widget);
  gboolean back = direction == GTK_DIR_TAB_BACKWARD;
  int at = back ? 2 : 0;

  if (direction != GTK_DIR_TAB_FORWARD && !back)
    return GTK_WIDGET_CLASS (bond_panes_parent_class)->focus (widget, direction);
  for (int i = 0; i < 3; i++)
    if (focus == order[i])
      at = i;
  for (; at >= 0 && at < 3; at += back ? -1 : 1)
    if (gtk_widget_get_child_visible (order[at]) && gtk_widget_child_focus (order[at], direction))
      return TRUE;
  return FALSE;
}

static void
bond_panes_dispose (GObject *object)
{
  BondPanes *self = BOND_PANES (object);

  g_clear_handle_id (&self->idle, g_source_remove);
  g_clear_pointer (&self->points, gtk_widget_unparent);
  g_clear_pointer (&self->canvas, gtk_widget_unparent);
  g_clear_pointer (&self->panel, gtk_widget_unparent);
  G_OBJECT_CLASS (bond_panes_parent_class)->dispose (object);
}

static void
bond_panes_class_init (BondPanesClass *klass)
{
  GtkWidgetClass *widget_class = GTK_WIDGET_CLASS (klass);

  G_OBJECT_CLASS (klass)->dispose = bond_panes_dispose;
  widget_class->measure = bond_panes_measure;
  widget_class->size_allocate = bond_panes_size_allocate;
  widget_class->focus = bond_panes_focus;
  gtk_widget_class_set_css_name (widget_class, "bond-panes");
  gtk_widget_class_set_accessible_role (widget_class, GTK_ACCESSIBLE_ROLE_GROUP);
  class_changed
      = g_signal_new ("class-changed", BOND_TYPE_PANES, G_SIGNAL_RUN_LAST, 0, NULL, NULL, NULL, G_TYPE_NONE, 0);
}

static void
bond_panes_init (BondPanes *self)
{
  self->width_class = BOND_WIDTH_REGULAR;
  self->shown[1] = TRUE;
}

GtkWidget *
bond_panes_new (GtkWidget *points, GtkWidget *canvas, GtkWidget *panel)
{
  BondPanes *self = g_object_new (BOND_TYPE_PANES, NULL);

  self->points = points;
  self->canvas = canvas;
  self->panel = panel;
  gtk_widget_set_overflow (canvas, GTK_OVERFLOW_HIDDEN);
  /* The points pane is drawn last: in the compact class it lies over the diagram. */
  gtk_widget_set_parent (canvas, GTK_WIDGET (self));
  gtk_widget_set_parent (panel, GTK_WIDGET (self));
  gtk_widget_set_parent (points, GTK_WIDGET (self));
  return GTK_WIDGET (self);
}

void
bond_panes_show_points (BondPanes *self, gboolean show)
{
  g_return_if_fail (BOND_IS_PANES (self));
  *shown (self) = show;
  gtk_widget_queue_allocate (GTK_WIDGET (self));
}

gboolean
bond_panes_points_shown (BondPanes *self)
{
  g_return_val_if_fail (BOND_IS_PANES (self), FALSE);
  return *shown (self);
}

BondWidthClass
bond_panes_get_width_class (BondPanes *self)
{
  g_return_val_if_fail (BOND_IS_PANES (self), BOND_WIDTH_REGULAR);
  return self->width_class;
}

gboolean
bond_panes_is_low (BondPanes *self)
{
  g_return_val_if_fail (BOND_IS_PANES (self), FALSE);
  return self->low;
}
