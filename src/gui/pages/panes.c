/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * A layout of our own, because GtkPaned knows no width classes and takes keys the
 * reading field needs.  Only sizes are decided here; what the page does with the
 * class (foot line, second lines, second diagram) is left to it.
 */
#include "gui/pages/panes.h"
#include "gui/focus-order.h"

#define USUAL_EM_PX (11.0 * 96.0 / 72.0) /* 11 points at 96 dpi: what the widths below were drawn for */
#define LOW_BELOW 600                    /* without the header bar: 640 of window */
#define LOWEST_BELOW 540
#define BIG_PANEL_PERCENT 48
#define BIG_PANEL_MOST 640
#define MAX_CANVAS 6

typedef enum
{
  POINTS,
  CANVAS,
  PANEL,
  DETAILS,
  N_PANES,
} Pane;

struct _BondPanes
{
  GtkWidget parent_instance;
  GtkWidget *pane[N_PANES]; /* DETAILS may be NULL */
  GtkWidget *canvas_order[MAX_CANVAS];
  guint n_canvas;
  gboolean shown[2]; /* points pane: compact, wider */
  gboolean panel_left, big;
  BondWidthClass width_class;
  BondHeightClass height_class;
  guint idle;
};

/* One row a class: least width, and what the panes get; @big_from: least width with big targets. */
static const struct
{
  int from, big_from, points, panel, details;
} classes[] = {
  [BOND_WIDTH_COMPACT] = { 0, 0, 316, 336, 0 },
  [BOND_WIDTH_REGULAR] = { 1200, 1500, 316, 352, 0 },
  [BOND_WIDTH_WIDE] = { 1680, 2000, 340, 372, 420 },
};

static guint class_changed;

G_DEFINE_FINAL_TYPE (BondPanes, bond_panes, GTK_TYPE_WIDGET)

static gboolean *
shown (BondPanes *self)
{
  return &self->shown[self->width_class != BOND_WIDTH_COMPACT];
}

/* Larger text needs more room; smaller text gets no narrower panes than were drawn. */
static double
scale_of (double em_px)
{
  return MAX (1.0, em_px / USUAL_EM_PX);
}

static double
em_of (GtkWidget *widget)
{
  const PangoFontDescription *font = pango_context_get_font_description (gtk_widget_get_pango_context (widget));
  double size = font != NULL ? pango_font_description_get_size (font) / (double)PANGO_SCALE : 0.0;

  if (size <= 0.0)
    return USUAL_EM_PX;
  return pango_font_description_get_size_is_absolute (font) ? size : size * 96.0 / 72.0;
}

static int
scaled (BondPanes *self, int pixels)
{
  return (int)(pixels * scale_of (em_of (GTK_WIDGET (self))) + 0.5);
}

BondWidthClass
bond_panes_class_of (double width, double em_px, gboolean big)
{
  int now = G_N_ELEMENTS (classes) - 1;

  while (now > 0 && width < (big ? classes[now].big_from : classes[now].from) * scale_of (em_px))
    now--;
  return now;
}

static gboolean
tell_cb (gpointer data)
{
  BondPanes *self = BOND_PANES (data);

  self->idle = 0;
  g_signal_emit (self, class_changed, 0);
  return G_SOURCE_REMOVE;
}

static int
least_width (GtkWidget *child, int wanted)
{
  int min;

  gtk_widget_measure (child, GTK_ORIENTATION_HORIZONTAL, -1, &min, NULL, NULL, NULL);
  return MAX (min, wanted);
}

static void
bond_panes_measure (GtkWidget *widget, GtkOrientation orientation, int for_size, int *minimum, int *natural,
                    int *minimum_baseline, int *natural_baseline)
{
  BondPanes *self = BOND_PANES (widget);
  int min[N_PANES] = { 0 }, nat[N_PANES] = { 0 };

  *minimum_baseline = *natural_baseline = -1;
  for (int i = 0; i < N_PANES; i++)
    if (self->pane[i] != NULL)
      gtk_widget_measure (self->pane[i], orientation, -1, &min[i], &nat[i], NULL, NULL);
  if (orientation == GTK_ORIENTATION_HORIZONTAL)
    {
      *minimum = min[CANVAS] + MAX (scaled (self, classes[0].panel), min[PANEL]);
      *natural = MAX (*minimum, classes[1].points + nat[CANVAS] + classes[1].panel);
      return;
    }
  /* What is shown in some classes only must not keep the window high in the others. */
  *minimum = MAX (min[POINTS], MAX (min[CANVAS], min[PANEL]));
  *natural = MAX (*minimum, MAX (nat[POINTS], MAX (nat[CANVAS], nat[PANEL])));
}

static void
decide_class (BondPanes *self, int width, int height)
{
  BondWidthClass now = bond_panes_class_of (width, em_of (GTK_WIDGET (self)), self->big);
  BondHeightClass height_class = height < scaled (self, LOWEST_BELOW) ? BOND_HEIGHT_LOWEST
                                 : height < scaled (self, LOW_BELOW)  ? BOND_HEIGHT_LOW
                                                                      : BOND_HEIGHT_FULL;

  if (now == self->width_class && height_class == self->height_class)
    return;
  self->width_class = now;
  self->height_class = height_class;
  if (self->idle == 0)
    self->idle = g_idle_add (tell_cb, self);
}

static int
panel_width (BondPanes *self, int width)
{
  int usual = scaled (self, classes[self->width_class].panel);

  if (self->big)
    usual = MAX (usual, MIN (width * BIG_PANEL_PERCENT / 100, scaled (self, BIG_PANEL_MOST)));
  return least_width (self->pane[PANEL], usual);
}

/* @x counts from the side where the points pane stands. */
static void
place (BondPanes *self, Pane pane, int x, int width, int height)
{
  int total = gtk_widget_get_width (GTK_WIDGET (self));
  gboolean rtl = gtk_widget_get_direction (GTK_WIDGET (self)) == GTK_TEXT_DIR_RTL;
  GtkAllocation allocation = { .x = x, .y = 0, .width = MAX (width, 0), .height = height };

  if (rtl != self->panel_left)
    allocation.x = total - x - allocation.width;
  gtk_widget_size_allocate (self->pane[pane], &allocation, -1);
}

static void
bond_panes_size_allocate (GtkWidget *widget, int width, int height, int baseline)
{
  BondPanes *self = BOND_PANES (widget);
  gboolean docked;
  int points, panel, details, left;

  decide_class (self, width, height);
  docked = self->width_class == BOND_WIDTH_WIDE && self->pane[DETAILS] != NULL;
  points = least_width (self->pane[POINTS], scaled (self, classes[self->width_class].points));
  panel = panel_width (self, width);
  details = docked ? least_width (self->pane[DETAILS], scaled (self, classes[self->width_class].details)) : 0;
  left = *shown (self) && self->width_class != BOND_WIDTH_COMPACT ? points : 0;
  gtk_widget_set_child_visible (self->pane[POINTS], *shown (self));
  if (*shown (self))
    place (self, POINTS, 0, points, height);
  place (self, CANVAS, left, width - left - panel - details, height);
  place (self, PANEL, width - panel - details, panel, height);
  if (self->pane[DETAILS] != NULL)
    gtk_widget_set_child_visible (self->pane[DETAILS], docked);
  if (docked)
    place (self, DETAILS, width - details, details, height);
}

/* The reading panel comes first whatever its side: the hand stays on the field. */
static gboolean
bond_panes_focus (GtkWidget *widget, GtkDirectionType direction)
{
  BondPanes *self = BOND_PANES (widget);
  GtkWidget *order[N_PANES + MAX_CANVAS];
  guint n = 0;

  if (direction != GTK_DIR_TAB_FORWARD && direction != GTK_DIR_TAB_BACKWARD)
    return GTK_WIDGET_CLASS (bond_panes_parent_class)->focus (widget, direction);
  order[n++] = self->pane[PANEL];
  order[n++] = self->pane[POINTS];
  for (guint i = 0; i < self->n_canvas; i++)
    order[n++] = self->canvas_order[i];
  if (self->n_canvas == 0)
    order[n++] = self->pane[CANVAS];
  order[n++] = self->pane[DETAILS];
  return bond_focus_in_order (widget, order, n, direction);
}

static void
bond_panes_dispose (GObject *object)
{
  BondPanes *self = BOND_PANES (object);

  g_clear_handle_id (&self->idle, g_source_remove);
  for (int i = 0; i < N_PANES; i++)
    g_clear_pointer (&self->pane[i], gtk_widget_unparent);
  self->n_canvas = 0;
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

  self->pane[POINTS] = points;
  self->pane[CANVAS] = canvas;
  self->pane[PANEL] = panel;
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

void
bond_panes_set_details (BondPanes *self, GtkWidget *widget)
{
  g_return_if_fail (BOND_IS_PANES (self));
  if (widget == self->pane[DETAILS])
    return;
  g_clear_pointer (&self->pane[DETAILS], gtk_widget_unparent);
  self->pane[DETAILS] = widget;
  if (widget != NULL)
    {
      gtk_widget_set_child_visible (widget, FALSE);
      gtk_widget_set_parent (widget, GTK_WIDGET (self));
    }
  gtk_widget_queue_resize (GTK_WIDGET (self));
}

void
bond_panes_set_panel_left (BondPanes *self, gboolean left)
{
  g_return_if_fail (BOND_IS_PANES (self));
  self->panel_left = left;
  (left ? gtk_widget_add_css_class : gtk_widget_remove_css_class) (GTK_WIDGET (self), "panel-left");
  gtk_widget_queue_allocate (GTK_WIDGET (self));
}

void
bond_panes_set_big (BondPanes *self, gboolean big)
{
  g_return_if_fail (BOND_IS_PANES (self));
  self->big = big;
  gtk_widget_queue_resize (GTK_WIDGET (self));
}

void
bond_panes_set_canvas_order (BondPanes *self, GtkWidget *const *widgets, guint n)
{
  g_return_if_fail (BOND_IS_PANES (self) && n <= MAX_CANVAS);
  for (guint i = 0; i < n; i++)
    self->canvas_order[i] = widgets[i];
  self->n_canvas = n;
}

BondWidthClass
bond_panes_get_width_class (BondPanes *self)
{
  g_return_val_if_fail (BOND_IS_PANES (self), BOND_WIDTH_REGULAR);
  return self->width_class;
}

BondHeightClass
bond_panes_get_height_class (BondPanes *self)
{
  g_return_val_if_fail (BOND_IS_PANES (self), BOND_HEIGHT_FULL);
  return self->height_class;
}

gboolean
bond_panes_is_low (BondPanes *self)
{
  g_return_val_if_fail (BOND_IS_PANES (self), FALSE);
  return self->height_class != BOND_HEIGHT_FULL;
}

GtkWidget *
bond_panes_step (BondPanes *self, int by)
{
  static const Pane order[N_PANES] = { PANEL, POINTS, CANVAS, DETAILS };
  GtkWidget *focus;
  int at = 0;

  g_return_val_if_fail (BOND_IS_PANES (self), NULL);
  focus = gtk_widget_get_focus_child (GTK_WIDGET (self));
  for (int i = 0; i < N_PANES; i++)
    if (focus != NULL && self->pane[order[i]] == focus)
      at = i;
  for (int i = 1; i <= N_PANES; i++)
    {
      GtkWidget *pane = self->pane[order[(at + N_PANES + (by > 0 ? i : -i)) % N_PANES]];

      if (pane != NULL && gtk_widget_get_mapped (pane))
        return pane;
    }
  return self->pane[PANEL];
}
