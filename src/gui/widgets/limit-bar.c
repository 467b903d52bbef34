/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * The limit bar.  With an upper limit alone the scale is even, from 0 to 1.4 times
 * the limit.  With a lower limit it is a scale of decades, for such limits are met
 * by values a hundred times as high, and an even scale would show nothing of them.
 * A value beyond either end is an arrow at that end, never a tick at a false place.
 */
#include "gui/widgets/limit-bar.h"

#include "gui/style.h"

#include <glib/gi18n-lib.h>
#include <math.h>

#define OVER_LIMIT 1.4    /* end of the even scale, in limits */
#define DECADES_BELOW 0.1 /* ends of the decade scale, in lower and upper limits */
#define DECADES_ABOVE 10.0
#define DECADES_OPEN 10000.0 /* with no upper limit, in lower limits */
#define PAD 2.0
#define LINE_Y 32.0 /* the line, from the top; ticks stand on it */
#define TICK_READING 20.0
#define TICK_LIMIT 23.0
#define TICK_EARLIER 10.0
#define TICK_FOUND 16.0
#define TICK_RESEAT 13.0
#define ARROW 6.0

struct _BondLimitBar
{
  GtkWidget parent;
  BondBounds bounds;
  gboolean has_quantity;
  BondQuantity quantity;
  BondOhm u_nohm;
  GArray *earlier; /* of BondOhm */
  BondOhm found;   /* as found in this survey, 0 = not shown */
  GArray *reseats; /* of BondOhm */
  gboolean numbers;
};

G_DEFINE_FINAL_TYPE (BondLimitBar, bond_limit_bar, GTK_TYPE_WIDGET)

/* The scale in force: @low and @high in nano-ohms at @left and @right pixels. */
typedef struct
{
  gboolean decades;
  double low, high;
  double left, right;
} Scale;

static gboolean
has_upper (BondLimitBar *bar)
{
  return bar->bounds.upper.relation != BOND_RELATION_NONE;
}

static gboolean
has_lower (BondLimitBar *bar)
{
  return bar->bounds.lower.relation != BOND_RELATION_NONE;
}

static Scale
scale_of (BondLimitBar *bar)
{
  Scale scale = { .left = PAD, .right = gtk_widget_get_width (GTK_WIDGET (bar)) - PAD };

  if (has_lower (bar))
    {
      scale.decades = TRUE;
      scale.low = (double)bar->bounds.lower.nohm * DECADES_BELOW;
      scale.high = has_upper (bar) ? (double)bar->bounds.upper.nohm * DECADES_ABOVE
                                   : (double)bar->bounds.lower.nohm * DECADES_OPEN;
    }
  else if (has_upper (bar))
    scale.high = (double)bar->bounds.upper.nohm * OVER_LIMIT;
  else
    scale.high = MAX ((double)bar->quantity.nohm, 1.0) * OVER_LIMIT;
  return scale;
}

/* Pixel of @nohm, clamped to the ends. */
static double
x_of (const Scale *scale, double nohm)
{
  double part;

  if (scale->decades)
    part = nohm > 0.0 ? log (nohm / scale->low) / log (scale->high / scale->low) : 0.0;
  else
    part = (nohm - scale->low) / (scale->high - scale->low);
  return scale->left + CLAMP (part, 0.0, 1.0) * (scale->right - scale->left);
}

static int
beyond (const Scale *scale, double nohm)
{
  return nohm > scale->high ? 1 : nohm < scale->low ? -1 : 0;
}

static void
set_ink (cairo_t *cr, const BondRgb *ink)
{
  cairo_set_source_rgb (cr, ink->r, ink->g, ink->b);
}

/* An upright tick of whole pixels standing on the line. */
static void
draw_tick (cairo_t *cr, double x, double width, double height)
{
  cairo_rectangle (cr, floor (x - width / 2.0 + 0.5), LINE_Y - height, width, height);
  cairo_fill (cr);
}

static void
draw_arrow (cairo_t *cr, const Scale *scale, int side)
{
  double tip = side > 0 ? scale->right : scale->left;
  double y = LINE_Y - TICK_READING / 2.0;

  cairo_move_to (cr, tip, y);
  cairo_line_to (cr, tip - side * ARROW * 1.6, y - ARROW);
  cairo_line_to (cr, tip - side * ARROW * 1.6, y + ARROW);
  cairo_close_path (cr);
  cairo_fill (cr);
}

/* The zone within U of a limit: a value in it is on one side only as far as the meter can tell. */
static void
draw_within_u (cairo_t *cr, const Scale *scale, const BondBound *bound, BondOhm u_nohm, const BondInks *inks)
{
  double from, to, x;

  if (bound->relation == BOND_RELATION_NONE || u_nohm <= 0)
    return;
  from = x_of (scale, (double)bound->nohm - (double)u_nohm);
  to = x_of (scale, (double)bound->nohm + (double)u_nohm);
  if (to - from < 4.0)
    return;
  cairo_save (cr);
  cairo_rectangle (cr, from, LINE_Y - TICK_LIMIT + 3.0, to - from, TICK_LIMIT - 3.0);
  cairo_clip (cr);
  set_ink (cr, &inks->guard);
  cairo_set_line_width (cr, 1.6);
  for (x = from - TICK_LIMIT; x < to; x += 5.0)
    {
      cairo_move_to (cr, x, LINE_Y);
      cairo_line_to (cr, x + TICK_LIMIT, LINE_Y - TICK_LIMIT);
    }
  cairo_stroke (cr);
  cairo_restore (cr);
}

static void
draw_decades (cairo_t *cr, const Scale *scale, const BondInks *inks)
{
  double nohm;

  set_ink (cr, &inks->line);
  for (nohm = pow (10.0, ceil (log10 (scale->low))); nohm < scale->high; nohm *= 10.0)
    {
      cairo_rectangle (cr, floor (x_of (scale, nohm)), LINE_Y + 1.0, 1.0, 4.0);
      cairo_fill (cr);
    }
}

static void
draw_reading (cairo_t *cr, BondLimitBar *bar, const Scale *scale, const BondInks *inks)
{
  double nohm = (double)bar->quantity.nohm;
  double x = x_of (scale, nohm);
  int side = bar->quantity.qualifier == BOND_QUALIFIER_OVER ? 1 : beyond (scale, nohm);

  set_ink (cr, &inks->text);
  if (side != 0)
    {
      draw_arrow (cr, scale, side);
      return;
    }
  draw_tick (cr, x, 4.0, TICK_READING);
  if (bar->u_nohm > 0)
    {
      double from = x_of (scale, nohm - (double)bar->u_nohm);
      double to = x_of (scale, nohm + (double)bar->u_nohm);
      double y = LINE_Y - TICK_READING / 2.0;

      cairo_rectangle (cr, from, y - 1.0, to - from, 2.0);
      cairo_rectangle (cr, from - 0.5, y - 3.0, 1.0, 6.0);
      cairo_rectangle (cr, to - 0.5, y - 3.0, 1.0, 6.0);
      cairo_fill (cr);
    }
}

/* What was read before in this survey: as found with a bar across its head, re-seats plain; lower than the reading. */
static void
draw_before (cairo_t *cr, BondLimitBar *bar, const Scale *scale, const BondInks *inks)
{
  double x;

  set_ink (cr, &inks->text);
  for (guint i = 0; i < bar->reseats->len; i++)
    {
      double nohm = (double)g_array_index (bar->reseats, BondOhm, i);

      if (beyond (scale, nohm) == 0)
        draw_tick (cr, x_of (scale, nohm), 2.0, TICK_RESEAT);
    }
  if (bar->found <= 0)
    return;
  if (beyond (scale, (double)bar->found) != 0)
    {
      draw_arrow (cr, scale, beyond (scale, (double)bar->found));
      return;
    }
  x = x_of (scale, (double)bar->found);
  draw_tick (cr, x, 2.0, TICK_FOUND);
  cairo_rectangle (cr, floor (x - 3.5), LINE_Y - TICK_FOUND, 7.0, 2.0);
  cairo_fill (cr);
}

static void
draw_bar (BondLimitBar *bar, cairo_t *cr, const Scale *scale, const BondInks *inks)
{
  guint i;

  if (scale->decades)
    draw_decades (cr, scale, inks);
  set_ink (cr, &inks->quiet);
  cairo_rectangle (cr, scale->left, LINE_Y, scale->right - scale->left, 1.0);
  cairo_fill (cr);
  draw_within_u (cr, scale, &bar->bounds.upper, bar->u_nohm, inks);
  draw_within_u (cr, scale, &bar->bounds.lower, bar->u_nohm, inks);
  set_ink (cr, &inks->quiet);
  for (i = 0; i < bar->earlier->len; i++)
    {
      double nohm = (double)g_array_index (bar->earlier, BondOhm, i);

      if (beyond (scale, nohm) == 0)
        draw_tick (cr, x_of (scale, nohm), 2.0, TICK_EARLIER);
    }
  set_ink (cr, &inks->text);
  if (has_upper (bar))
    draw_tick (cr, x_of (scale, (double)bar->bounds.upper.nohm), 2.0, TICK_LIMIT);
  if (has_lower (bar))
    draw_tick (cr, x_of (scale, (double)bar->bounds.lower.nohm), 2.0, TICK_LIMIT);
  draw_before (cr, bar, scale, inks);
  if (bar->has_quantity)
    draw_reading (cr, bar, scale, inks);
}

/* Draws @text under the line, centred at @x but inside the bar and right of @clear.  Returns its right end. */
static double
draw_text (BondLimitBar *bar, cairo_t *cr, const char *text, double x, double clear, gboolean strong)
{
  g_autoptr (PangoLayout) layout = gtk_widget_create_pango_layout (GTK_WIDGET (bar), text);
  g_autoptr (PangoAttrList) attributes = pango_attr_list_new ();
  int width;

  pango_attr_list_insert (attributes, pango_attr_scale_new (0.86));
  if (strong)
    pango_attr_list_insert (attributes, pango_attr_weight_new (PANGO_WEIGHT_BOLD));
  pango_layout_set_attributes (layout, attributes);
  pango_layout_get_pixel_size (layout, &width, NULL);
  x = CLAMP (x - width / 2.0, PAD, MAX (PAD, gtk_widget_get_width (GTK_WIDGET (bar)) - PAD - width));
  x = MAX (x, clear);
  cairo_move_to (cr, x, LINE_Y + 6.0);
  pango_cairo_show_layout (cr, layout);
  return x + width + 6.0;
}

static char *
bound_text (const BondBound *bound, gboolean with_unit)
{
  g_autofree char *digits = bond_ohm_format_exact (bound->nohm, bound->unit, 0, bond_locale_mark ());

  if (!with_unit)
    return g_strdup_printf ("%s\u00a0%s", bond_relation_symbol (bound->relation), digits);
  return g_strdup_printf ("%s\u00a0%s\u00a0%s", bond_relation_symbol (bound->relation), digits,
                          bond_unit_symbol (bound->unit));
}

static void
draw_numbers (BondLimitBar *bar, cairo_t *cr, const Scale *scale, const BondInks *inks)
{
  const BondBound *bounds[2] = { &bar->bounds.lower, &bar->bounds.upper };
  double clear = PAD;
  guint i;

  if (!scale->decades && has_upper (bar))
    {
      set_ink (cr, &inks->quiet);
      clear = draw_text (bar, cr, "0", scale->left, PAD, FALSE);
      draw_text (bar, cr, bond_unit_symbol (bar->bounds.upper.unit), scale->right, PAD, FALSE);
    }
  set_ink (cr, &inks->text);
  for (i = 0; i < G_N_ELEMENTS (bounds); i++)
    if (bounds[i]->relation != BOND_RELATION_NONE)
      {
        g_autofree char *text = bound_text (bounds[i], scale->decades);

        clear = draw_text (bar, cr, text, x_of (scale, (double)bounds[i]->nohm), clear, TRUE);
      }
}

/* What is read aloud: "1.83 of 2.5 milliohm". */
static char *
spoken (BondLimitBar *bar)
{
  const BondBound *bound = has_upper (bar) ? &bar->bounds.upper : &bar->bounds.lower;
  char mark = bond_locale_mark ();
  g_autofree char *limit = NULL;
  g_autofree char *value = NULL;

  if (bound->relation == BOND_RELATION_NONE)
    return g_strdup (_ ("no limit"));
  limit = bond_ohm_format_exact (bound->nohm, bound->unit, 0, mark);
  if (!bar->has_quantity)
    /* Translators: a limit without a reading, "limit 2.5 milliohm". */
    return g_strdup_printf (_ ("limit %s %s"), limit, bond_unit_spoken (bound->unit));
  value = bond_ohm_format_exact (bar->quantity.nohm, bound->unit, 0, mark);
  if (bar->quantity.qualifier == BOND_QUALIFIER_OVER)
    return g_strdup_printf (_ ("above %s, limit %s %s"), value, limit, bond_unit_spoken (bound->unit));
  if (bar->quantity.qualifier == BOND_QUALIFIER_BELOW)
    return g_strdup_printf (_ ("below %s, limit %s %s"), value, limit, bond_unit_spoken (bound->unit));
  return g_strdup_printf (_ ("%s of %s %s"), value, limit, bond_unit_spoken (bound->unit));
}

static void
refresh (BondLimitBar *bar)
{
  Scale scale = scale_of (bar);
  g_autofree char *text = spoken (bar);
  double now = bar->has_quantity ? (double)bar->quantity.nohm : scale.low;

  gtk_accessible_update_property (GTK_ACCESSIBLE (bar), GTK_ACCESSIBLE_PROPERTY_VALUE_MIN, scale.low,
                                  GTK_ACCESSIBLE_PROPERTY_VALUE_MAX, scale.high, GTK_ACCESSIBLE_PROPERTY_VALUE_NOW,
                                  CLAMP (now, scale.low, scale.high), GTK_ACCESSIBLE_PROPERTY_VALUE_TEXT, text, -1);
  gtk_widget_queue_draw (GTK_WIDGET (bar));
}

static void
bond_limit_bar_measure (GtkWidget *widget, GtkOrientation orientation, int for_size, int *minimum, int *natural,
                        int *minimum_baseline, int *natural_baseline)
{
  int text = 0;

  if (orientation == GTK_ORIENTATION_HORIZONTAL)
    {
      *minimum = 120;
      *natural = 320;
      return;
    }
  if (BOND_LIMIT_BAR (widget)->numbers)
    {
      g_autoptr (PangoLayout) layout = gtk_widget_create_pango_layout (widget, "0");

      pango_layout_get_pixel_size (layout, NULL, &text);
    }
  *minimum = *natural = (int)LINE_Y + 8 + text;
}

static void
bond_limit_bar_snapshot (GtkWidget *widget, GtkSnapshot *snapshot)
{
  BondLimitBar *bar = BOND_LIMIT_BAR (widget);
  int width = gtk_widget_get_width (widget);
  int height = gtk_widget_get_height (widget);
  Scale scale = scale_of (bar);
  const BondInks *inks = bond_style_inks (widget);
  cairo_t *cr;

  if (width < 4 * PAD)
    return;
  cr = gtk_snapshot_append_cairo (snapshot, &GRAPHENE_RECT_INIT (0, 0, width, height));
  draw_bar (bar, cr, &scale, inks);
  if (bar->numbers)
    draw_numbers (bar, cr, &scale, inks);
  cairo_destroy (cr);
}

static void
bond_limit_bar_finalize (GObject *object)
{
  g_array_unref (BOND_LIMIT_BAR (object)->earlier);
  g_array_unref (BOND_LIMIT_BAR (object)->reseats);
  G_OBJECT_CLASS (bond_limit_bar_parent_class)->finalize (object);
}

static void
bond_limit_bar_class_init (BondLimitBarClass *klass)
{
  GtkWidgetClass *widget_class = GTK_WIDGET_CLASS (klass);

  G_OBJECT_CLASS (klass)->finalize = bond_limit_bar_finalize;
  widget_class->measure = bond_limit_bar_measure;
  widget_class->snapshot = bond_limit_bar_snapshot;
  gtk_widget_class_set_css_name (widget_class, "bond-limit-bar");
  gtk_widget_class_set_accessible_role (widget_class, GTK_ACCESSIBLE_ROLE_METER);
}

static void
bond_limit_bar_init (BondLimitBar *bar)
{
  bar->earlier = g_array_new (FALSE, FALSE, sizeof (BondOhm));
  bar->reseats = g_array_new (FALSE, FALSE, sizeof (BondOhm));
  bar->numbers = TRUE;
  gtk_accessible_update_property (GTK_ACCESSIBLE (bar), GTK_ACCESSIBLE_PROPERTY_LABEL, _ ("Reading and limit"), -1);
  bond_style_watch (GTK_WIDGET (bar));
  refresh (bar);
}

GtkWidget *
bond_limit_bar_new (void)
{
  return g_object_new (BOND_TYPE_LIMIT_BAR, NULL);
}

void
bond_limit_bar_set_bounds (BondLimitBar *bar, const BondBounds *bounds)
{
  g_return_if_fail (BOND_IS_LIMIT_BAR (bar));

  bar->bounds = bounds != NULL ? *bounds : (BondBounds){ 0 };
  refresh (bar);
}

void
bond_limit_bar_set_reading (BondLimitBar *bar, const BondQuantity *quantity, BondOhm u_nohm)
{
  g_return_if_fail (BOND_IS_LIMIT_BAR (bar));
  g_return_if_fail (u_nohm >= 0);

  bar->has_quantity = quantity != NULL;
  bar->quantity = quantity != NULL ? *quantity : (BondQuantity){ 0 };
  bar->u_nohm = u_nohm;
  refresh (bar);
}

void
bond_limit_bar_set_earlier (BondLimitBar *bar, const BondOhm *nohm, guint n_nohm)
{
  g_return_if_fail (BOND_IS_LIMIT_BAR (bar));
  g_return_if_fail (nohm != NULL || n_nohm == 0);

  g_array_set_size (bar->earlier, 0);
  g_array_append_vals (bar->earlier, nohm, n_nohm);
  gtk_widget_queue_draw (GTK_WIDGET (bar));
}

void
bond_limit_bar_set_before (BondLimitBar *bar, BondOhm found, const BondOhm *reseats, guint n_reseats)
{
  g_return_if_fail (BOND_IS_LIMIT_BAR (bar));
  g_return_if_fail (reseats != NULL || n_reseats == 0);

  bar->found = found;
  g_array_set_size (bar->reseats, 0);
  g_array_append_vals (bar->reseats, reseats, n_reseats);
  gtk_widget_queue_draw (GTK_WIDGET (bar));
}

void
bond_limit_bar_set_numbers (BondLimitBar *bar, gboolean numbers)
{
  g_return_if_fail (BOND_IS_LIMIT_BAR (bar));

  bar->numbers = numbers;
  gtk_widget_queue_resize (GTK_WIDGET (bar));
}
