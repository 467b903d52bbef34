/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * One page for each view that shows points: the airframe in one ink, a mark for
 * every point, and words for everything that is not a plain pass.  Up to fourteen
 * have their words beside the drawing, at the end of leaders that do not cross; more
 * become numbers and a list.
 */
#include "report/report-private.h"

#include <glib/gi18n-lib.h>
#include <math.h>

#define MOST_CALLOUTS 14
#define PITCH 37.0      /* three lines and a space */
#define SIDE_MOST 124.0 /* widest words on one side */
#define LEGEND_ROW 16.0
#define LEGEND_COLUMNS 3
#define CROWDED 300 /* marks are smaller from here */
#define ZONE_SIZE 6.2

typedef struct
{
  BondPoint *point; /* borrowed from the survey */
  double x, y;      /* view units */
  BondMark mark;
  gboolean plain;
  int number; /* in the list, 0 = none */
} Shown;

/* Middle and half sizes, view units. */
typedef struct
{
  double x, y, half_width, half_height;
} Box;

typedef struct
{
  BondReport *report;
  const BondView *view;
  GArray *shown; /* of Shown */
  int n_noted;
  BondCallout callout[MOST_CALLOUTS];
  guint called[MOST_CALLOUTS]; /* index into shown */
  int n_callouts;
  gboolean listed; /* numbers and a list instead */
  gboolean mark_used[BOND_N_MARKS];
  /* placing, in points on the page, y from the top of the block */
  double scale, origin_x, origin_y, mark_size;
  double side;    /* width of the words on one side */
  GArray *labels; /* of Box: zone numbers drawn so far */
} Diagram;

static void
diagram_free (gpointer data)
{
  Diagram *diagram = data;

  g_array_unref (diagram->shown);
  g_array_unref (diagram->labels);
  g_free (diagram);
}

static Diagram *
collect (BondReport *report, const BondView *view)
{
  Diagram *diagram = bond_report_own (report, g_new0 (Diagram, 1), diagram_free);
  guint i, n = g_list_model_get_n_items (G_LIST_MODEL (report->survey));

  diagram->report = report;
  diagram->view = view;
  diagram->shown = g_array_new (FALSE, FALSE, sizeof (Shown));
  diagram->labels = g_array_new (FALSE, FALSE, sizeof (Box));
  for (i = 0; i < n; i++)
    {
      g_autoptr (BondPoint) point = g_list_model_get_item (G_LIST_MODEL (report->survey), i);
      Shown shown = { .point = point };

      if (!bond_diagram_shows (view, bond_point_get_spec (point), &shown.x, &shown.y))
        continue;
      shown.mark = bond_mark_for (bond_point_get_worst (point), bond_survey_get_rule (report->survey));
      shown.plain = bond_report_is_plain (report, point);
      diagram->mark_used[shown.mark] = TRUE;
      diagram->n_noted += !shown.plain;
      g_array_append_val (diagram->shown, shown);
    }
  diagram->mark_size = diagram->shown->len > CROWDED ? 4.2 : 6;
  return diagram;
}

/* --- placing --- */

/* Fits the outline into the box and puts it in its middle. */
static void
fit (Diagram *diagram, double left, double right, double top, double height)
{
  double x, y, w, h;

  bond_view_bounds (diagram->view, &x, &y, &w, &h);
  diagram->scale = MIN ((right - left) / w, height / h);
  diagram->origin_x = left + (right - left - w * diagram->scale) / 2 - x * diagram->scale;
  diagram->origin_y = top - y * diagram->scale;
}

static double
drawn_height (const Diagram *diagram)
{
  double x, y, w, h;

  bond_view_bounds (diagram->view, &x, &y, &w, &h);
  return h * diagram->scale;
}

/* The words of one call-out; what there is to say decides how wide they are. */
typedef struct
{
  const char *number; /* borrowed */
  char *values, *state;
  double number_width, width;
} Words;

static void
words_init (Words *words, BondReport *report, BondPoint *point)
{
  const BondPlaceResult *worst = bond_point_get_worst (point);

  words->number = bond_point_get_number (point);
  words->values = bond_report_first_last (report, point);
  words->state = worst->within_u && worst->state == BOND_STATE_PASS
                     ? g_strdup (_ ("within U of the limit"))
                     : bond_figure_state (worst, bond_survey_get_rule (report->survey));
  words->number_width = MIN (bond_text_width (report->text, BOND_FACE_STRONG, words->number), SIDE_MOST);
  words->width = MAX (words->number_width, bond_text_width (report->text, BOND_FACE_CAPTION, words->state));
  if (words->values != NULL)
    words->width = MAX (words->width, bond_text_width (report->text, BOND_FACE_TABLE, words->values));
  words->width = MIN (words->width, SIDE_MOST);
}

static void
words_clear (Words *words)
{
  g_free (words->values);
  g_free (words->state);
}

static void
fill_callouts (Diagram *diagram)
{
  const BondSheet *sheet = &diagram->report->sheet;
  guint i;

  diagram->n_callouts = 0;
  diagram->side = 40;
  for (i = 0; i < diagram->shown->len; i++)
    {
      const Shown *shown = &g_array_index (diagram->shown, Shown, i);
      BondCallout *callout;
      Words words;

      if (shown->plain)
        continue;
      diagram->called[diagram->n_callouts] = i;
      callout = &diagram->callout[diagram->n_callouts++];
      callout->x = diagram->origin_x + shown->x * diagram->scale;
      callout->y = diagram->origin_y + shown->y * diagram->scale;
      callout->right = callout->x > (sheet->left + sheet->right) / 2;
      words_init (&words, diagram->report, shown->point);
      callout->width = words.width;
      diagram->side = MAX (diagram->side, words.width);
      words_clear (&words);
    }
}

/* Whether the airframe is drawn anywhere in the box (page units, y from the top of the block). */
static gboolean
is_drawn_on (const Diagram *diagram, double x, double y, double width, double height)
{
  int i, j;

  for (i = 0; i <= 6; i++)
    for (j = 0; j <= 3; j++)
      if (bond_view_hit (diagram->view, (x + i * width / 6 - diagram->origin_x) / diagram->scale,
                         (y + j * height / 3 - diagram->origin_y) / diagram->scale)
          != NULL)
        return TRUE;
  return FALSE;
}

/* Heights at which words stand on blank paper. */
static void
find_slots (const Diagram *diagram, double x, double top, double bottom, BondSlots *slots)
{
  double y;

  slots->n = 0;
  for (y = top; y <= bottom && slots->n < BOND_MAX_SLOTS;)
    if (is_drawn_on (diagram, x - 3, y - 10, diagram->side, PITCH - 2))
      y += 5;
    else
      {
        slots->y[slots->n++] = y;
        y += PITCH;
      }
}

/* Words on both sides; FALSE when they would not fit or their leaders would cross. */
static gboolean
place_callouts (Diagram *diagram, double height)
{
  const BondSheet *sheet = &diagram->report->sheet;
  BondSlots left, right;

  if (diagram->n_noted > MOST_CALLOUTS)
    return FALSE;
  fit (diagram, sheet->left + 24, sheet->right - 24, 52, height - 84);
  fill_callouts (diagram);
  find_slots (diagram, sheet->left, 60, height - 26, &left);
  find_slots (diagram, sheet->right - diagram->side, 60, height - 26, &right);
  return bond_callouts_place (diagram->callout, diagram->n_callouts, sheet->left, sheet->right - diagram->side, &left,
                              &right);
}

static void
number_noted (Diagram *diagram)
{
  int number = 0;
  guint i;

  diagram->listed = TRUE;
  diagram->n_callouts = 0;
  for (i = 0; i < diagram->shown->len; i++)
    {
      Shown *shown = &g_array_index (diagram->shown, Shown, i);

      shown->number = shown->plain ? 0 : ++number;
    }
}

/* --- zone numbers that no mark hides --- */

static gboolean
hits_mark (const Diagram *diagram, const Box *box)
{
  double reach_x = box->half_width + 0.72 * diagram->mark_size / diagram->scale;
  double reach_y = box->half_height + 0.6 * diagram->mark_size / diagram->scale;
  guint i;

  for (i = 0; i < diagram->shown->len; i++)
    {
      const Shown *shown = &g_array_index (diagram->shown, Shown, i);

      if (fabs (shown->x - box->x) < reach_x && fabs (shown->y - box->y) < reach_y)
        return TRUE;
    }
  return FALSE;
}

static gboolean
hits_label (const Diagram *diagram, const Box *box)
{
  guint i;

  for (i = 0; i < diagram->labels->len; i++)
    {
      const Box *other = &g_array_index (diagram->labels, Box, i);

      if (fabs (other->x - box->x) < other->half_width + box->half_width
          && fabs (other->y - box->y) < other->half_height + box->half_height)
        return TRUE;
    }
  return FALSE;
}

static gboolean
lies_in (const BondZoneShape *shape, const Box *box)
{
  double left = box->x - box->half_width, right = box->x + box->half_width;
  double top = box->y - box->half_height, bottom = box->y + box->half_height;

  return bond_zone_shape_contains (shape, left, top) && bond_zone_shape_contains (shape, right, top)
         && bond_zone_shape_contains (shape, left, bottom) && bond_zone_shape_contains (shape, right, bottom);
}

/* The nearest place on a grid inside the zone where neither mark nor number stands. */
static gboolean
move_number (const Diagram *diagram, const BondZoneShape *shape, Box *box)
{
  double best = G_MAXDOUBLE;
  Box from = *box, try = *box;
  int i, j;

  for (i = -6; i <= 6; i++)
    for (j = -8; j <= 8; j++)
      {
        double distance = hypot (i * 0.8 * box->half_width, j * 1.2 * box->half_height);

        try.x = from.x + i * 0.8 * box->half_width;
        try.y = from.y + j * 1.2 * box->half_height;
        if (distance < best && lies_in (shape, &try) && !hits_mark (diagram, &try) && !hits_label (diagram, &try))
          {
            best = distance;
            *box = try;
          }
      }
  return best < G_MAXDOUBLE;
}

/* The place the airframe gives, else a free one near it, else none. */
static gboolean
place_zone_number (const BondZoneShape *shape, double width, double height, double *x, double *y, gpointer data)
{
  Diagram *diagram = data;
  Box box = { *x, *y, width / 2, height / 2 };

  if ((hits_mark (diagram, &box) || hits_label (diagram, &box)) && !move_number (diagram, shape, &box))
    return FALSE;
  g_array_append_val (diagram->labels, box);
  *x = box.x;
  *y = box.y;
  return TRUE;
}

/* --- drawing --- */

static void
draw_mark (const Diagram *diagram, cairo_t *cr, const Shown *shown, double top)
{
  const BondInks *inks = diagram->report->inks;
  double size = shown->plain ? diagram->mark_size : diagram->mark_size * 1.25;
  double x = diagram->origin_x + shown->x * diagram->scale, y = top + diagram->origin_y + shown->y * diagram->scale;
  double half_height = shown->plain ? 0.26 : 0.45;

  /* A little paper around it, so that neighbours stay apart. */
  cairo_set_source_rgb (cr, inks->paper.r, inks->paper.g, inks->paper.b);
  cairo_rectangle (cr, x - size * 0.5 - 0.6, y - size * half_height - 0.6, size + 1.2, 2 * size * half_height + 1.2);
  cairo_fill (cr);
  bond_mark_draw (cr, shown->mark, x, y, size, inks);
}

static void
draw_marks (const Diagram *diagram, cairo_t *cr, double top)
{
  guint pass, i;

  for (pass = 0; pass < 2; pass++)
    for (i = 0; i < diagram->shown->len; i++)
      {
        const Shown *shown = &g_array_index (diagram->shown, Shown, i);

        if (shown->plain == (pass == 0))
          draw_mark (diagram, cr, shown, top);
      }
}

static void
draw_number (const Diagram *diagram, cairo_t *cr, const Shown *shown, double top)
{
  BondReport *report = diagram->report;
  double x = diagram->origin_x + shown->x * diagram->scale + diagram->mark_size * 0.75;
  double y = top + diagram->origin_y + shown->y * diagram->scale - diagram->mark_size * 0.4;
  char text[16];
  double width;

  g_snprintf (text, sizeof text, "%d", shown->number);
  width = bond_text_width (report->text, BOND_FACE_TINY, text);
  cairo_set_source_rgb (cr, report->inks->paper.r, report->inks->paper.g, report->inks->paper.b);
  cairo_rectangle (cr, x - 0.3, y - 4.1, width + 0.6, 4.5);
  cairo_fill (cr);
  bond_text_line (report->text, cr, BOND_FACE_TINY, &report->inks->text, x, y, width + 1, 0, text);
}

static void
draw_airframe (const Diagram *diagram, cairo_t *cr, double top)
{
  BondReport *report = diagram->report;
  BondDiagramStyle style = { .inks = report->inks,
                             .font = report->font,
                             .scale = diagram->scale,
                             .label_size = ZONE_SIZE,
                             .place_label = place_zone_number,
                             .place_data = (gpointer)diagram };

  g_array_set_size (diagram->labels, 0);
  cairo_save (cr);
  cairo_translate (cr, diagram->origin_x, top + diagram->origin_y);
  cairo_scale (cr, diagram->scale, diagram->scale);
  bond_diagram_paint (cr, bond_survey_get_airframe (report->survey), diagram->view, &style);
  cairo_restore (cr);
}

/* Level from the number to the mark's x, then straight to the mark; from above or below where the mark is over the
 * number. */
static void
draw_leader (const Diagram *diagram, cairo_t *cr, const BondCallout *callout, double x, double number_width, double top)
{
  gboolean up = callout->label_y > callout->y;
  double level = top + callout->label_y - 2.6, end = top + callout->y + (up ? 0.62 : -0.62) * diagram->mark_size;

  cairo_set_source_rgb (cr, 0, 0, 0);
  cairo_set_line_width (cr, 0.5);
  if (callout->x > x - 5 && callout->x < x + number_width + 7)
    cairo_move_to (cr, callout->x, top + callout->label_y + (up ? -BOND_CALLOUT_ASCENT : BOND_CALLOUT_DESCENT - 2));
  else
    cairo_move_to (cr, callout->x < x ? x - 4 : x + number_width + 5, level);
  if (fabs (level - top - callout->y) < diagram->mark_size)
    cairo_line_to (cr, callout->x + (callout->x < x ? 0.85 : -0.85) * diagram->mark_size, level);
  else
    {
      if (!(callout->x > x - 5 && callout->x < x + number_width + 7))
        cairo_line_to (cr, callout->x, level);
      cairo_line_to (cr, callout->x, end);
    }
  cairo_stroke (cr);
}

static void
draw_callout (const Diagram *diagram, cairo_t *cr, int i, double top)
{
  BondReport *report = diagram->report;
  const BondCallout *callout = &diagram->callout[i];
  double x = callout->right ? report->sheet.right - diagram->side : report->sheet.left, y = top + callout->label_y;
  Words words;

  words_init (&words, report, g_array_index (diagram->shown, Shown, diagram->called[i]).point);
  bond_text_line (report->text, cr, BOND_FACE_STRONG, &report->inks->text, x, y, diagram->side, 0, words.number);
  bond_text_line (report->text, cr, BOND_FACE_TABLE, &report->inks->text, x, y + 10, diagram->side, 0, words.values);
  bond_text_line (report->text, cr, BOND_FACE_CAPTION, &report->inks->quiet, x, y + (words.values != NULL ? 19 : 10),
                  diagram->side, 0, words.state);
  draw_leader (diagram, cr, callout, x, words.number_width, top);
  words_clear (&words);
}

static void
draw_diagram (BondReport *report, cairo_t *cr, const BondBlock *block, double y)
{
  const Diagram *diagram = block->data;
  int i;

  (void)report;
  draw_airframe (diagram, cr, y);
  draw_marks (diagram, cr, y);
  for (i = 0; i < diagram->n_callouts; i++)
    draw_callout (diagram, cr, i, y);
  if (!diagram->listed)
    return;
  for (i = 0; i < (int)diagram->shown->len; i++)
    {
      const Shown *shown = &g_array_index (diagram->shown, Shown, i);

      if (shown->number > 0)
        draw_number (diagram, cr, shown, y);
    }
}

/* --- legend --- */

static int
legend_rows (const Diagram *diagram)
{
  int used = 0, i;

  for (i = 0; i < BOND_N_MARKS; i++)
    used += diagram->mark_used[i];
  return (used + LEGEND_COLUMNS - 1) / LEGEND_COLUMNS;
}

static void
draw_legend (BondReport *report, cairo_t *cr, const BondBlock *block, double y)
{
  const Diagram *diagram = block->data;
  const BondSheet *sheet = &report->sheet;
  double width = (sheet->right - sheet->left) / LEGEND_COLUMNS;
  int i, place = 0;

  bond_rule (cr, sheet->left, sheet->right, y, 0.8, 0);
  for (i = 0; i < BOND_N_MARKS; i++)
    {
      double x = sheet->left + place % LEGEND_COLUMNS * width, row = y + 5 + place / LEGEND_COLUMNS * LEGEND_ROW;

      if (!diagram->mark_used[i])
        continue;
      bond_mark_draw (cr, (BondMark)i, x + 7, row + 6.5, 8, report->inks);
      bond_text_line (report->text, cr, BOND_FACE_TABLE, &report->inks->text, x + 19, row + 9.2, width - 24, 0,
                      bond_mark_name ((BondMark)i));
      place++;
    }
}

/* --- the list --- */

static const BondColumn list_columns[] = {
  { NULL, 14, 0, BOND_FACE_TABLE, FALSE },
  { N_ ("No."), 20, 0, BOND_FACE_TABLE, TRUE },
  { N_ ("Point"), 50, 0, BOND_FACE_STRONG, FALSE },
  { N_ ("What it is"), 0, 0, BOND_FACE_TABLE, FALSE },
  { N_ ("First \u2192 last"), 92, 0, BOND_FACE_STRONG, FALSE },
  { N_ ("State"), 110, 0, BOND_FACE_TABLE, FALSE },
};

static void
add_list (const Diagram *diagram)
{
  BondReport *report = diagram->report;
  BondTable *table = bond_table_begin (report, list_columns, G_N_ELEMENTS (list_columns));
  BondRule rule = bond_survey_get_rule (report->survey);
  guint i;

  for (i = 0; i < diagram->shown->len; i++)
    {
      const Shown *shown = &g_array_index (diagram->shown, Shown, i);
      const BondPointSpec *spec = bond_point_get_spec (shown->point);
      char number[16];

      if (shown->number == 0)
        continue;
      g_snprintf (number, sizeof number, "%d", shown->number);
      {
        g_autofree char *values = bond_report_first_last (report, shown->point);
        g_autofree char *state = bond_figure_state (bond_point_get_worst (shown->point), rule);
        const char *cells[] = { NULL, number, spec->number, spec->from, values, state };

        bond_table_row (table, (int)shown->mark, cells);
      }
    }
  bond_table_end (table);
}

static void
lay_view (BondReport *report, const BondView *view)
{
  Diagram *diagram = collect (report, view);
  guint shown = diagram->shown->len;
  double legend, height;
  g_autofree char *note = g_strdup_printf (
      ngettext ("%u of %d point", "%u of %d points", (gulong)report->totals.points), shown, report->totals.points);

  if (shown == 0)
    return;
  bond_section_begin (report, view->title, note);
  legend = 8 + legend_rows (diagram) * LEGEND_ROW;
  height = bond_flow_left (report) - legend;
  if (!place_callouts (diagram, height))
    {
      number_noted (diagram);
      fit (diagram, report->sheet.left, report->sheet.right, 40, height - 60);
      height = drawn_height (diagram) + 64;
    }
  bond_flow_add (report, height, "Figure", draw_diagram, diagram);
  bond_flow_add (report, legend, "P", draw_legend, diagram);
  if (diagram->listed)
    {
      bond_flow_space (report, 10);
      add_list (diagram);
    }
}

void
bond_section_diagrams (BondReport *report)
{
  const BondAirframe *airframe = bond_survey_get_airframe (report->survey);
  guint i;

  for (i = 0; airframe != NULL && i < airframe->views->len; i++)
    lay_view (report, g_ptr_array_index (airframe->views, i));
}
