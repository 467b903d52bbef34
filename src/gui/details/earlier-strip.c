/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * Drawing of the strip.  What is shown in it is chosen in details-earlier.c; marks
 * are report's.
 */
#include "gui/details/earlier-strip.h"
#include "gui/style.h"
#include <glib/gi18n-lib.h>
#include <math.h>

#define HEIGHT_PX 190
#define TICK_PX 64 /* least width of one result */
#define MARK_PX 20
#define FOOT_LINES 2.4 /* lines of text below the ticks */
#define LIMIT_AT 0.45  /* where the limit stands */
#define DECADE 0.3     /* height of a factor of ten */
#define LEAST 0.06
#define MOST 0.94

struct _BondEarlierStrip
{
  GtkWidget parent_instance;
  GPtrArray *ticks; /* of BondStripTick */
  BondBounds bounds;
  char *limit; /* in words, NULL = no limit */
};

G_DEFINE_FINAL_TYPE (BondEarlierStrip, bond_earlier_strip, GTK_TYPE_WIDGET)

BondStripTick *
bond_strip_tick_new (BondOhm nohm, const char *value, const char *date, BondMark mark)
{
  BondStripTick *tick = g_new0 (BondStripTick, 1);

  tick->nohm = nohm;
  tick->value = g_strdup (value);
  tick->date = g_strdup (date);
  tick->mark = mark;
  return tick;
}

void
bond_strip_tick_free (gpointer data)
{
  BondStripTick *tick = data;

  g_free (tick->value);
  g_free (tick->date);
  g_free (tick->note);
  g_free (tick);
}

double
bond_earlier_strip_height (double nohm, double limit_nohm)
{
  g_return_val_if_fail (limit_nohm > 0, LIMIT_AT);
  if (nohm <= 0)
    return MOST;
  return CLAMP (LIMIT_AT - DECADE * log10 (nohm / limit_nohm), LEAST, MOST);
}

/* What stands at the height of the limit: the limit that a reading is nearest to be beyond; without one, the newest. */
static double
reference_of (BondEarlierStrip *self)
{
  if (self->bounds.upper.relation != BOND_RELATION_NONE)
    return (double)self->bounds.upper.nohm;
  if (self->bounds.lower.relation != BOND_RELATION_NONE)
    return (double)self->bounds.lower.nohm;
  for (guint i = self->ticks->len; i > 0; i--)
    if (((BondStripTick *)self->ticks->pdata[i - 1])->nohm > 0)
      return (double)((BondStripTick *)self->ticks->pdata[i - 1])->nohm;
  return 1;
}

/* --- drawing --- */

typedef struct
{
  BondEarlierStrip *self;
  cairo_t *cr;
  const BondInks *inks;
  double width, height, line; /* of all, of the ticks' part, of one line of text */
} Paint;

static void
set_ink (cairo_t *cr, const BondRgb *ink)
{
  cairo_set_source_rgb (cr, ink->r, ink->g, ink->b);
}

/* @align: 0 begins at @x, 0.5 is centred there, 1 ends there; @y is the top; @room: (0 = any) more is cut with dots. */
static void
draw_text (Paint *paint, const char *text, double x, double y, double align, double room, gboolean bold)
{
  g_autoptr (PangoLayout) layout = gtk_widget_create_pango_layout (GTK_WIDGET (paint->self), text);
  g_autoptr (PangoAttrList) attributes = pango_attr_list_new ();
  int width;

  if (bold)
    pango_attr_list_insert (attributes, pango_attr_weight_new (PANGO_WEIGHT_BOLD));
  pango_attr_list_insert (attributes, pango_attr_scale_new (0.86));
  pango_attr_list_insert (attributes, pango_attr_font_features_new ("tnum"));
  pango_layout_set_attributes (layout, attributes);
  pango_layout_get_pixel_size (layout, &width, NULL);
  if (room > 0 && width > room)
    {
      pango_layout_set_ellipsize (layout, PANGO_ELLIPSIZE_END);
      pango_layout_set_width (layout, (int)(room * PANGO_SCALE));
      width = (int)room;
    }
  cairo_move_to (paint->cr, CLAMP (x - align * width, 0, MAX (paint->width - width, 0)), y);
  pango_cairo_show_layout (paint->cr, layout);
}

static void
draw_rule (Paint *paint, double y, const BondRgb *ink, double width)
{
  set_ink (paint->cr, ink);
  cairo_set_line_width (paint->cr, width);
  cairo_move_to (paint->cr, 0, floor (y) + 0.5);
  cairo_line_to (paint->cr, paint->width, floor (y) + 0.5);
  cairo_stroke (paint->cr);
}

static void
draw_limits (Paint *paint)
{
  const BondBound *bounds[] = { &paint->self->bounds.upper, &paint->self->bounds.lower };
  double reference = reference_of (paint->self);

  for (gsize i = 0; i < G_N_ELEMENTS (bounds); i++)
    if (bounds[i]->relation != BOND_RELATION_NONE)
      draw_rule (paint, paint->height * bond_earlier_strip_height ((double)bounds[i]->nohm, reference),
                 &paint->inks->text, 1.5);
  set_ink (paint->cr, &paint->inks->text);
  if (paint->self->limit != NULL)
    draw_text (paint, paint->self->limit, paint->width, paint->height * LIMIT_AT - paint->line - 2, 1, 0, TRUE);
  draw_rule (paint, paint->height, &paint->inks->line, 1);
}

static void
draw_rework (Paint *paint, double x)
{
  static const double dots[] = { 2, 3 };

  set_ink (paint->cr, &paint->inks->history);
  cairo_set_line_width (paint->cr, 1.5);
  cairo_set_dash (paint->cr, dots, G_N_ELEMENTS (dots), 0);
  cairo_move_to (paint->cr, floor (x) + 0.5, 4);
  cairo_line_to (paint->cr, floor (x) + 0.5, paint->height);
  cairo_stroke (paint->cr);
  cairo_set_dash (paint->cr, NULL, 0, 0);
  draw_text (paint, _ ("rework"), x + 4, 0, 0, 0, FALSE);
}

/* The figure stands above its mark, below it where the limit's line would run through it. */
static double
figure_y (Paint *paint, double y)
{
  double above = y - MARK_PX * 0.6 - paint->line;
  double limit = paint->height * LIMIT_AT;
  gboolean crossed = paint->self->limit != NULL && above < limit + 2 && y > limit;

  return above < 0 || crossed ? y + MARK_PX * 0.5 : above;
}

static void
draw_tick (Paint *paint, const BondStripTick *tick, double x, double room)
{
  double y = paint->height * bond_earlier_strip_height ((double)tick->nohm, reference_of (paint->self));

  if (tick->reworked)
    draw_rework (paint, x - room / 2);
  bond_mark_draw (paint->cr, tick->mark, x, y, MARK_PX, paint->inks);
  set_ink (paint->cr, tick->mark == BOND_MARK_FAIL ? &paint->inks->fail : &paint->inks->text);
  draw_text (paint, tick->value, x, figure_y (paint, y), 0.5, room, TRUE);
  set_ink (paint->cr, &paint->inks->quiet);
  draw_text (paint, tick->date, x, paint->height + 4, 0.5, room - 4, FALSE);
  if (tick->note != NULL)
    draw_text (paint, tick->note, x, paint->height + 4 + paint->line, 0.5, room - 4, FALSE);
}

static void
bond_earlier_strip_snapshot (GtkWidget *widget, GtkSnapshot *snapshot)
{
  BondEarlierStrip *self = BOND_EARLIER_STRIP (widget);
  g_autoptr (PangoLayout) layout = gtk_widget_create_pango_layout (widget, "0");
  int width = gtk_widget_get_width (widget), height = gtk_widget_get_height (widget), line;
  guint shown = MIN (self->ticks->len, (guint)MAX (width / TICK_PX, 1));
  Paint paint = { .self = self, .inks = bond_style_inks (widget), .width = width };
  double room;

  if (shown == 0 || width <= 0)
    return;
  pango_layout_get_pixel_size (layout, NULL, &line);
  paint.line = line;
  paint.height = height - line * FOOT_LINES;
  paint.cr = gtk_snapshot_append_cairo (snapshot, &GRAPHENE_RECT_INIT (0, 0, (float)width, (float)height));
  draw_limits (&paint);
  room = (double)width / shown;
  for (guint i = 0; i < shown; i++)
    draw_tick (&paint, g_ptr_array_index (self->ticks, self->ticks->len - shown + i), room * (i + 0.5), room);
  cairo_destroy (paint.cr);
}

static void
bond_earlier_strip_measure (GtkWidget *widget, GtkOrientation orientation, int for_size, int *minimum, int *natural,
                            int *minimum_baseline, int *natural_baseline)
{
  *minimum = *natural = orientation == GTK_ORIENTATION_VERTICAL ? HEIGHT_PX : TICK_PX;
}

static void
bond_earlier_strip_finalize (GObject *object)
{
  BondEarlierStrip *self = BOND_EARLIER_STRIP (object);

  g_ptr_array_unref (self->ticks);
  g_free (self->limit);
  G_OBJECT_CLASS (bond_earlier_strip_parent_class)->finalize (object);
}

static void
bond_earlier_strip_class_init (BondEarlierStripClass *klass)
{
  GtkWidgetClass *widget_class = GTK_WIDGET_CLASS (klass);

  G_OBJECT_CLASS (klass)->finalize = bond_earlier_strip_finalize;
  widget_class->measure = bond_earlier_strip_measure;
  widget_class->snapshot = bond_earlier_strip_snapshot;
  gtk_widget_class_set_css_name (widget_class, "bond-earlier-strip");
  gtk_widget_class_set_accessible_role (widget_class, GTK_ACCESSIBLE_ROLE_IMG);
}

static void
bond_earlier_strip_init (BondEarlierStrip *self)
{
  self->ticks = g_ptr_array_new_with_free_func (bond_strip_tick_free);
  bond_style_watch (GTK_WIDGET (self));
}

GtkWidget *
bond_earlier_strip_new (void)
{
  return g_object_new (BOND_TYPE_EARLIER_STRIP, NULL);
}

void
bond_earlier_strip_set (BondEarlierStrip *self, GPtrArray *ticks, const BondBounds *bounds)
{
  g_return_if_fail (BOND_IS_EARLIER_STRIP (self) && ticks != NULL);
  g_ptr_array_unref (self->ticks);
  self->ticks = ticks;
  self->bounds = bounds != NULL ? *bounds : (BondBounds){ 0 };
  g_clear_pointer (&self->limit, g_free);
  if (bond_bounds_any (&self->bounds))
    self->limit = bond_bounds_format (&self->bounds, bond_locale_mark (), TRUE);
  gtk_widget_queue_draw (GTK_WIDGET (self));
}
