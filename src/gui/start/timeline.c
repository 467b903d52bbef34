/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * Ticks, told apart by shape first: an open survey is a solid block in the accent,
 * one with nothing left to do a thin upright in the ink of the text.  The line says
 * when, not what; the words beside it do.
 */
#include "gui/start/timeline.h"
#include "gui/dialog.h"
#include "gui/style.h"
#include "gui/words.h"
#include <glib/gi18n-lib.h>

#define DAY_SECONDS 86400.0
#define YEAR_DAYS 365.25
#define HEIGHT 30
#define LEAST_WIDTH 96
#define TICK_HEIGHT 15
#define EDGE 8

typedef struct
{
  double day;
  BondTickKind kind;
} Tick;

struct _BondTimeline
{
  GtkWidget parent_instance;
  BondTimeSpan span;
  GArray *ticks; /* of Tick; NULL = an axis */
  gboolean is_sample;
};

G_DEFINE_FINAL_TYPE (BondTimeline, bond_timeline, GTK_TYPE_WIDGET)

/* --- time --- */

double
bond_time_day (const char *iso)
{
  g_autoptr (GDateTime) time = iso != NULL ? g_date_time_new_from_iso8601 (iso, NULL) : NULL;

  return time != NULL ? (double)g_date_time_to_unix (time) / DAY_SECONDS : -1;
}

static double
year_start (int year)
{
  g_autoptr (GDateTime) time = g_date_time_new_utc (year, 1, 1, 0, 0, 0);

  return (double)g_date_time_to_unix (time) / DAY_SECONDS;
}

static int
year_of (double day)
{
  g_autoptr (GDateTime) time = g_date_time_new_from_unix_utc ((gint64)(day * DAY_SECONDS));

  return g_date_time_get_year (time);
}

BondTimeSpan
bond_time_span_of (GPtrArray *aircraft, const char *now)
{
  double today = bond_time_day (now);
  BondTimeSpan span = { today, today };

  g_return_val_if_fail (aircraft != NULL, span);
  for (guint i = 0; i < aircraft->len; i++)
    {
      GPtrArray *surveys = ((BondAircraft *)aircraft->pdata[i])->surveys;

      for (guint j = 0; j < surveys->len; j++)
        {
          double day = bond_time_day (((BondSurveySummary *)surveys->pdata[j])->made_at);

          if (day < 0)
            continue;
          span.from = MIN (span.from, day);
          span.to = MAX (span.to, day);
        }
    }
  span.from = year_start (year_of (span.from));
  span.to = MAX (span.to, span.from + YEAR_DAYS);
  return span;
}

/* --- drawing --- */

static double
x_of (BondTimeline *self, double day, double width)
{
  return EDGE + (day - self->span.from) / (self->span.to - self->span.from) * (width - 2 * EDGE);
}

static void
draw_tick (cairo_t *cr, double x, double base, BondTickKind kind, const BondInks *inks)
{
  double half = kind == BOND_TICK_OPEN ? 4 : 1.5;
  const BondRgb *ink = kind == BOND_TICK_OPEN ? &inks->accent : &inks->text;

  cairo_set_source_rgb (cr, ink->r, ink->g, ink->b);
  cairo_rectangle (cr, x - half, base - TICK_HEIGHT, 2 * half, TICK_HEIGHT);
  cairo_fill (cr);
}

static void
draw_line (BondTimeline *self, cairo_t *cr, double width, double base, const BondInks *inks)
{
  cairo_set_source_rgb (cr, inks->line.r, inks->line.g, inks->line.b);
  cairo_set_line_width (cr, 1);
  cairo_move_to (cr, 0, base + 0.5);
  cairo_line_to (cr, width, base + 0.5);
  cairo_stroke (cr);
}

static PangoLayout *
year_layout (GtkWidget *widget, int year)
{
  g_autofree char *text = g_strdup_printf ("%d", year);

  return gtk_widget_create_pango_layout (widget, text);
}

/* Every year, or every second, fifth …: as many as have room. */
static int
year_step (BondTimeline *self, double width)
{
  static const int steps[] = { 1, 2, 5, 10, 20, 50 };
  double per_year = (width - 2 * EDGE) * YEAR_DAYS / (self->span.to - self->span.from);
  g_autoptr (PangoLayout) layout = year_layout (GTK_WIDGET (self), 2000);
  int text_width = 0;

  pango_layout_get_pixel_size (layout, &text_width, NULL);
  for (gsize i = 0; i < G_N_ELEMENTS (steps); i++)
    if (per_year * steps[i] >= text_width * 1.3)
      return steps[i];
  return 100;
}

static void
snapshot_axis (BondTimeline *self, GtkSnapshot *snapshot, double width, double height)
{
  int step = year_step (self, width);
  GdkRGBA colour;

  gtk_style_context_get_color (gtk_widget_get_style_context (GTK_WIDGET (self)), &colour);
  for (int year = year_of (self->span.from + 1); year <= year_of (self->span.to); year += step)
    {
      g_autoptr (PangoLayout) layout = year_layout (GTK_WIDGET (self), year);
      int text_width = 0, text_height = 0;
      double x;

      /* A year that has hardly begun has no room for its number. */
      if (year > year_of (self->span.from + 1) && year_start (year) > self->span.to - 45)
        break;
      pango_layout_get_pixel_size (layout, &text_width, &text_height);
      x = MIN (x_of (self, year_start (year), width), width - text_width);
      gtk_snapshot_save (snapshot);
      gtk_snapshot_translate (snapshot, &GRAPHENE_POINT_INIT ((float)x, (float)((height - text_height) / 2)));
      gtk_snapshot_append_layout (snapshot, layout, &colour);
      gtk_snapshot_restore (snapshot);
    }
}

static void
bond_timeline_snapshot (GtkWidget *widget, GtkSnapshot *snapshot)
{
  BondTimeline *self = BOND_TIMELINE (widget);
  double width = gtk_widget_get_width (widget), height = gtk_widget_get_height (widget);
  double base = (height + TICK_HEIGHT) / 2;
  const BondInks *inks = bond_style_inks (widget);
  cairo_t *cr;

  if (self->ticks == NULL)
    {
      snapshot_axis (self, snapshot, width, height);
      return;
    }
  cr = gtk_snapshot_append_cairo (snapshot, &GRAPHENE_RECT_INIT (0, 0, (float)width, (float)height));
  if (!self->is_sample)
    draw_line (self, cr, width, base, inks);
  for (guint i = 0; i < self->ticks->len; i++)
    {
      const Tick *tick = &g_array_index (self->ticks, Tick, i);

      draw_tick (cr, self->is_sample ? width / 2 : x_of (self, tick->day, width), base, tick->kind, inks);
    }
  cairo_destroy (cr);
}

static void
bond_timeline_measure (GtkWidget *widget, GtkOrientation orientation, int for_size, int *minimum, int *natural,
                       int *minimum_baseline, int *natural_baseline)
{
  BondTimeline *self = BOND_TIMELINE (widget);

  if (orientation == GTK_ORIENTATION_VERTICAL)
    *minimum = *natural = self->is_sample ? TICK_HEIGHT + 4 : HEIGHT;
  else
    *minimum = *natural = self->is_sample ? 12 : LEAST_WIDTH;
}

static void
bond_timeline_finalize (GObject *object)
{
  g_clear_pointer (&BOND_TIMELINE (object)->ticks, g_array_unref);
  G_OBJECT_CLASS (bond_timeline_parent_class)->finalize (object);
}

static void
bond_timeline_class_init (BondTimelineClass *klass)
{
  G_OBJECT_CLASS (klass)->finalize = bond_timeline_finalize;
  GTK_WIDGET_CLASS (klass)->snapshot = bond_timeline_snapshot;
  GTK_WIDGET_CLASS (klass)->measure = bond_timeline_measure;
  gtk_widget_class_set_css_name (GTK_WIDGET_CLASS (klass), "bond-timeline");
  gtk_widget_class_set_accessible_role (GTK_WIDGET_CLASS (klass), GTK_ACCESSIBLE_ROLE_IMG);
}

static void
bond_timeline_init (BondTimeline *self)
{
  bond_style_watch (GTK_WIDGET (self));
}

/* --- making one --- */

static char *
spoken (GPtrArray *surveys)
{
  GString *text = g_string_new (NULL);

  g_string_append_printf (text, ngettext ("%u survey: ", "%u surveys: ", surveys->len), surveys->len);
  for (guint i = 0; i < surveys->len; i++)
    {
      const BondSurveySummary *summary = surveys->pdata[i];
      g_autofree char *date = bond_words_date (summary->made_at);

      g_string_append_printf (text, "%s%s%s", i > 0 ? "; " : "", date,
                              bond_survey_summary_is_open (summary) ? _ (", open") : "");
    }
  return g_string_free (text, FALSE);
}

GtkWidget *
bond_timeline_new (GPtrArray *surveys, const BondTimeSpan *span)
{
  BondTimeline *self = g_object_new (BOND_TYPE_TIMELINE, NULL);
  g_autofree char *name = NULL;

  g_return_val_if_fail (surveys != NULL && span != NULL && span->to > span->from, GTK_WIDGET (self));
  self->span = *span;
  self->ticks = g_array_new (FALSE, FALSE, sizeof (Tick));
  for (guint i = 0; i < surveys->len; i++)
    {
      const BondSurveySummary *summary = surveys->pdata[i];
      Tick tick = { bond_time_day (summary->made_at),
                    bond_survey_summary_is_open (summary) ? BOND_TICK_OPEN : BOND_TICK_DONE };

      if (tick.day >= 0)
        g_array_append_val (self->ticks, tick);
    }
  name = spoken (surveys);
  bond_name_widget (self, name);
  gtk_widget_set_tooltip_text (GTK_WIDGET (self), name);
  return GTK_WIDGET (self);
}

GtkWidget *
bond_timeline_new_axis (const BondTimeSpan *span)
{
  BondTimeline *self = g_object_new (BOND_TYPE_TIMELINE, NULL);

  g_return_val_if_fail (span != NULL && span->to > span->from, GTK_WIDGET (self));
  self->span = *span;
  gtk_widget_add_css_class (GTK_WIDGET (self), "note");
  return GTK_WIDGET (self);
}

GtkWidget *
bond_timeline_new_sample (BondTickKind kind)
{
  BondTimeline *self = g_object_new (BOND_TYPE_TIMELINE, NULL);
  const Tick tick = { 0, kind };

  self->span = (BondTimeSpan){ 0, 1 };
  self->is_sample = TRUE;
  self->ticks = g_array_new (FALSE, FALSE, sizeof (Tick));
  g_array_append_val (self->ticks, tick);
  return GTK_WIDGET (self);
}
