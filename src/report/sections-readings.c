/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * The readings: every place of every point in walking order under the bars of its
 * zones, each once.  Readings that no longer count stand above, grey and slanted,
 * struck through when they were voided or undone.  Value, U and limit of a row are in
 * one unit, which the row names.
 */
#include "report/report-private.h"

#include <glib/gi18n-lib.h>

#define HEAD_HEIGHT 17
#define BAR_HEIGHT 20
#define LEADING 9.6
#define PAD 2.9
#define SMALL_BASE (PAD + 7.2)
#define MOST_LINES 8

/* Columns: x from the left edge and width. What the paper has more goes to the description. */
typedef enum
{
  COLUMN_MARK,
  COLUMN_POINT,
  COLUMN_WHAT,
  COLUMN_LIMIT,
  COLUMN_FOUND,
  COLUMN_RESULT,
  COLUMN_U,
  COLUMN_UNIT,
  COLUMN_VERDICT,
  COLUMN_SCALE,
  COLUMN_BY,
  N_COLUMNS,
} Column;

static const struct
{
  const char *title;
  double width, gap; /* width 0: what is left */
  double align;
} columns[N_COLUMNS] = {
  [COLUMN_MARK] = { NULL, 13, 2, 0 },
  [COLUMN_POINT] = { N_ ("Point, class"), 45, 4, 0 },
  [COLUMN_WHAT] = { N_ ("From, to"), 0, 5, 0 },
  [COLUMN_LIMIT] = { N_ ("Limit"), 52, 4, 0 },
  [COLUMN_FOUND] = { N_ ("As found"), 32, 4, 1 },
  [COLUMN_RESULT] = { N_ ("Result"), 32, 4, 1 },
  [COLUMN_U] = { N_ ("U"), 28, 2, 1 },
  [COLUMN_UNIT] = { NULL, 13, 5, 0 },
  [COLUMN_VERDICT] = { N_ ("Verdict"), 55, 4, 0 },
  [COLUMN_SCALE] = { N_ ("0 \u2013 limit"), 33, 6, 0 },
  [COLUMN_BY] = { N_ ("By, time"), 47, 0, 0 },
};

typedef struct
{
  double x[N_COLUMNS], width[N_COLUMNS];
  BondRule rule;
} Readings;

typedef struct
{
  const Readings *readings;
  BondPoint *point; /* borrowed */
  const BondPlaceResult *place;
  const BondMeasurement *measurement; /* the grey row's own; a further limit's: of the main row; else NULL */
  gboolean struck;
} Row;

static Readings *
make_columns (BondReport *report)
{
  Readings *readings = bond_report_own (report, g_new0 (Readings, 1), g_free);
  double x = report->sheet.left, left = report->sheet.right - report->sheet.left;
  int i;

  readings->rule = bond_survey_get_rule (report->survey);
  for (i = 0; i < N_COLUMNS; i++)
    left -= columns[i].width + columns[i].gap;
  for (i = 0; i < N_COLUMNS; i++)
    {
      readings->x[i] = x;
      readings->width[i] = columns[i].width > 0 ? columns[i].width : left;
      x += readings->width[i] + columns[i].gap;
    }
  return readings;
}

static void
draw_head (BondReport *report, cairo_t *cr, const BondBlock *block, double y)
{
  const Readings *readings = block->data;
  int i;

  bond_rule (cr, report->sheet.left, report->sheet.right, y, 0.8, 0);
  for (i = 0; i < N_COLUMNS; i++)
    if (columns[i].title != NULL)
      bond_text_line (report->text, cr, BOND_FACE_CAPTION, &report->inks->quiet, readings->x[i], y + 11,
                      readings->width[i], columns[i].align, _ (columns[i].title));
  bond_rule (cr, report->sheet.left, report->sheet.right, y + HEAD_HEIGHT, 0.4, 0);
}

/* --- cells --- */

static void
cell (BondReport *report, cairo_t *cr, const Row *row, Column column, BondFace face, const BondRgb *ink,
      double baseline, const char *string)
{
  bond_text_line (report->text, cr, face, ink, row->readings->x[column], baseline, row->readings->width[column],
                  columns[column].align, string);
}

/* A limit between two bounds is printed as two lines. */
static void
split_limit (BondReport *report, const BondLimitRow *limit, BondCondition tier, char **first, char **second)
{
  const BondBounds *bounds = limit != NULL ? bond_limit_row_bounds (limit, tier) : NULL;

  *second = NULL;
  if (bounds == NULL || bounds->upper.relation == BOND_RELATION_NONE || bounds->lower.relation == BOND_RELATION_NONE)
    *first = bond_figure_limit (report, limit, tier);
  else
    {
      BondBounds lower = { .lower = bounds->lower }, upper = { .upper = bounds->upper };

      *first = bond_bounds_format (&lower, report->mark, TRUE);
      *second = bond_bounds_format (&upper, report->mark, TRUE);
    }
}

static void
draw_limit (BondReport *report, cairo_t *cr, const Row *row, BondCondition tier, double y, const BondRgb *ink)
{
  const BondLimitRow *limit = row->place->row;
  const char *tier_name = bond_figure_tier (limit, tier);
  g_autofree char *first = NULL, *second = NULL;

  split_limit (report, limit, tier, &first, &second);
  cell (report, cr, row, COLUMN_LIMIT, BOND_FACE_TABLE, ink, y, first);
  if (second != NULL)
    cell (report, cr, row, COLUMN_LIMIT, BOND_FACE_TABLE, ink, y + LEADING, second);
  if (tier_name != NULL)
    cell (report, cr, row, COLUMN_LIMIT, BOND_FACE_SMALL, &report->inks->quiet, y + LEADING * (second != NULL ? 2 : 1),
          tier_name);
}

static gint64
used_permille (const BondMeasurement *measurement)
{
  const BondBounds *bounds;

  if (measurement == NULL || measurement->row == NULL || measurement->mean.count == 0)
    return -1;
  bounds = bond_limit_row_bounds (measurement->row, measurement->condition);
  if (bounds->upper.relation == BOND_RELATION_NONE && bounds->lower.relation == BOND_RELATION_NONE)
    return -1;
  return bond_bounds_used_permille (bounds, &measurement->mean);
}

static void
draw_by (BondReport *report, cairo_t *cr, const Row *row, const BondMeasurement *measurement, double y)
{
  g_autofree char *time = measurement->at != NULL ? bond_figure_time (measurement->at, FALSE) : NULL;

  cell (report, cr, row, COLUMN_BY, BOND_FACE_SMALL, &report->inks->quiet, y,
        bond_survey_person_name (report->survey, measurement->by));
  cell (report, cr, row, COLUMN_BY, BOND_FACE_SMALL, &report->inks->quiet, y + LEADING, time);
}

/* A figure stands once in its row: where the result is the reading as found, the sign says so. */
static char *
found_text (BondReport *report, const BondPlaceResult *place, const BondMeasurement *result, BondUnit unit)
{
  if (!place->found_undisturbed || place->found == NULL)
    return NULL;
  return place->found == result ? g_strdup ("=") : bond_figure_value (report, place->found, unit);
}

static void
draw_values (BondReport *report, cairo_t *cr, const Row *row, double y)
{
  const BondPlaceResult *place = row->place;
  BondUnit unit = bond_figure_unit (report->survey, place, row->place->row);
  const BondMeasurement *result = place->decides != NULL ? place->decides : place->last;
  g_autofree char *found = found_text (report, place, result, unit);
  g_autofree char *value = bond_figure_value (report, result, unit);
  g_autofree char *u = bond_figure_uncertainty (report, result, unit);

  cell (report, cr, row, COLUMN_FOUND, BOND_FACE_TABLE, &report->inks->quiet, y, found);
  cell (report, cr, row, COLUMN_RESULT, BOND_FACE_STRONG, &report->inks->text, y, value);
  cell (report, cr, row, COLUMN_U, BOND_FACE_TABLE, &report->inks->quiet, y, u);
  if (value != NULL || found != NULL)
    cell (report, cr, row, COLUMN_UNIT, BOND_FACE_CAPTION, &report->inks->quiet, y, bond_unit_symbol (unit));
  if (result != NULL)
    {
      gint64 used[2] = { used_permille (result), place->found_undisturbed ? used_permille (place->found) : -1 };

      bond_limit_scale_draw (cr, row->readings->x[COLUMN_SCALE], y + 1, row->readings->width[COLUMN_SCALE], used,
                             place->found != result ? 2 : 1);
      draw_by (report, cr, row, result, y);
    }
}

/* What stands under the state: nearness to the limit, what was seen, why there is no verdict. */
static char *
second_words (const BondPlaceResult *place)
{
  const BondMeasurement *result = place->decides != NULL ? place->decides : place->last;

  if (place->visual_reject)
    return g_strdup (bond_visual_name (place->visual));
  if (place->freed)
    return g_strdup (_ ("end freed, opening not recorded"));
  if (place->within_u)
    return g_strdup (_ ("within U of the limit"));
  if (result != NULL && result->reason != BOND_REASON_NONE)
    return g_strdup (bond_reason_name (result->reason));
  if (result != NULL && result->caution != BOND_REASON_NONE)
    return g_strdup (bond_reason_name (result->caution));
  if (place->held)
    return g_strdup (_ ("re-seating not finished"));
  if (result != NULL && result->outcome == BOND_OUTCOME_JUDGED && !result->budget.known)
    return g_strdup (_ ("U is not known"));
  return NULL;
}

static void
draw_verdict (BondReport *report, cairo_t *cr, const Row *row, double y)
{
  g_autofree char *state = bond_figure_state (row->place, row->readings->rule);
  g_autofree char *second = second_words (row->place);
  double x = row->readings->x[COLUMN_VERDICT], width = row->readings->width[COLUMN_VERDICT];
  int n = bond_text_wrapped (report->text, cr, BOND_FACE_TABLE, &report->inks->text, x, y, width, MOST_LINES, state);

  if (second != NULL)
    bond_text_wrapped (report->text, cr, BOND_FACE_SMALL, &report->inks->quiet, x, y + n * LEADING, width, MOST_LINES,
                       second);
}

static char *
row_number (const Row *row)
{
  const char *number = bond_point_get_number (row->point);

  return row->place->label != NULL   ? g_strdup_printf ("%s %s", number, row->place->label)
         : row->place->place != NULL ? g_strdup_printf ("%s %s", number, row->place->place)
                                     : g_strdup (number);
}

/* "also limit P1": the code, or the name as the point has it where no set holds it. */
static char *
other_words (const BondPlaceResult *other)
{
  return g_strdup_printf (_ ("also limit %s"), other->row != NULL        ? other->row->code
                                               : other->row_name != NULL ? other->row_name
                                                                         : "");
}

static gboolean
has_same_value (const BondMeasurement *a, const BondMeasurement *b)
{
  if (a == NULL || b == NULL)
    return a == b;
  return a->mean.sum == b->mean.sum && a->mean.count == b->mean.count && a->qualifier == b->qualifier;
}

static void
draw_row (BondReport *report, cairo_t *cr, const BondBlock *block, double y)
{
  const Row *row = block->data;
  const BondPointSpec *spec = bond_point_get_spec (row->point);
  const BondRgb *text = &report->inks->text;
  const double *x = row->readings->x, *width = row->readings->width;
  g_autofree char *number = row_number (row);
  char letter[2] = { bond_class_letter (spec->klass), 0 };
  double base = y + SMALL_BASE;
  int lines, numbers;

  bond_mark_draw (cr, bond_mark_for (row->place, row->readings->rule), x[COLUMN_MARK] + 6, base - 2.7, 7.6,
                  report->inks);
  numbers = bond_text_wrapped (report->text, cr, BOND_FACE_STRONG, text, x[COLUMN_POINT], base, width[COLUMN_POINT],
                               MOST_LINES, number);
  lines = bond_text_wrapped (report->text, cr, BOND_FACE_TABLE, text, x[COLUMN_WHAT], base, width[COLUMN_WHAT],
                             MOST_LINES, spec->from);
  bond_text_wrapped (report->text, cr, BOND_FACE_SMALL, &report->inks->quiet, x[COLUMN_WHAT], base + lines * LEADING,
                     width[COLUMN_WHAT], MOST_LINES, spec->to);
  cell (report, cr, row, COLUMN_POINT, BOND_FACE_SMALL, &report->inks->quiet, base + numbers * LEADING, letter);
  bond_class_sign_draw (cr, spec->klass, x[COLUMN_POINT] + 11, base + numbers * LEADING - 2.3, 5.4,
                        &report->inks->quiet);
  draw_limit (report, cr, row, row->place->tier, base, text);
  draw_values (report, cr, row, base);
  draw_verdict (report, cr, row, base);
  bond_rule (cr, x[COLUMN_POINT], report->sheet.right, y + block->height, 0.25, 0.7);
}

/* Grey and slanted: it was read, it is kept, it does not count. */
static void
draw_grey_row (BondReport *report, cairo_t *cr, const BondBlock *block, double y)
{
  const Row *row = block->data;
  const BondMeasurement *measurement = row->measurement;
  const BondRgb *quiet = &report->inks->quiet;
  BondUnit unit = bond_figure_unit (report->survey, row->place, row->place->row);
  g_autofree char *value = bond_figure_value (report, measurement, unit);
  g_autofree char *u = bond_figure_uncertainty (report, measurement, unit);
  const char *word = row->struck ? _ ("Not used") : bond_figure_verdict (measurement, row->readings->rule);
  double base = y + SMALL_BASE, right = row->readings->x[COLUMN_RESULT] + row->readings->width[COLUMN_RESULT];

  bond_mark_draw (cr, row->struck ? BOND_MARK_NOT_FITTED : bond_figure_mark (measurement, row->readings->rule),
                  row->readings->x[COLUMN_MARK] + 6, base - 2.7, 6.5, report->inks);
  cell (report, cr, row, COLUMN_POINT, BOND_FACE_ITALIC, quiet, base, bond_point_get_number (row->point));
  cell (report, cr, row, COLUMN_WHAT, BOND_FACE_ITALIC, quiet, base, _ ("earlier reading"));
  draw_limit (report, cr, row, measurement->condition, base, quiet);
  cell (report, cr, row, COLUMN_RESULT, BOND_FACE_ITALIC, quiet, base, value);
  if (row->struck && value != NULL)
    bond_rule (cr, right - bond_text_width (report->text, BOND_FACE_ITALIC, value) - 1.5, right + 1.5, base - 2.6, 0.6,
               0.2);
  cell (report, cr, row, COLUMN_U, BOND_FACE_ITALIC, quiet, base, u);
  cell (report, cr, row, COLUMN_UNIT, BOND_FACE_CAPTION, quiet, base, bond_unit_symbol (unit));
  cell (report, cr, row, COLUMN_VERDICT, BOND_FACE_ITALIC, quiet, base, word);
  draw_by (report, cr, row, measurement, base);
  bond_rule (cr, row->readings->x[COLUMN_POINT], report->sheet.right, y + block->height, 0.25, 0.7);
}

/* One more limit that holds here: its verdict, and its value of record where it is another one. */
static void
draw_other_row (BondReport *report, cairo_t *cr, const BondBlock *block, double y)
{
  const Row *row = block->data;
  const BondPlaceResult *other = row->place;
  const BondMeasurement *result = other->decides != NULL ? other->decides : other->last;
  g_autofree char *number = row_number (row), *what = other_words (other);
  double base = y + SMALL_BASE;

  bond_mark_draw (cr, bond_mark_for (other, row->readings->rule), row->readings->x[COLUMN_MARK] + 6, base - 2.7, 6.5,
                  report->inks);
  cell (report, cr, row, COLUMN_POINT, BOND_FACE_TABLE, &report->inks->quiet, base, number);
  cell (report, cr, row, COLUMN_WHAT, BOND_FACE_TABLE, &report->inks->quiet, base, what);
  draw_limit (report, cr, row, other->tier, base, &report->inks->text);
  if (!has_same_value (result, row->measurement))
    draw_values (report, cr, row, base);
  else if (result != NULL)
    {
      gint64 used = used_permille (result);

      bond_limit_scale_draw (cr, row->readings->x[COLUMN_SCALE], base + 1, row->readings->width[COLUMN_SCALE], &used,
                             1);
    }
  draw_verdict (report, cr, row, base);
  bond_rule (cr, row->readings->x[COLUMN_POINT], report->sheet.right, y + block->height, 0.25, 0.7);
}

/* --- laying out --- */

static int
limit_lines (BondReport *report, const BondLimitRow *limit, BondCondition tier)
{
  g_autofree char *first = NULL, *second = NULL;

  split_limit (report, limit, tier, &first, &second);
  return 1 + (second != NULL) + (bond_figure_tier (limit, tier) != NULL);
}

static double
row_height (BondReport *report, const Row *row)
{
  const BondPointSpec *spec = bond_point_get_spec (row->point);
  const double *width = row->readings->width;
  g_autofree char *number = row_number (row), *state = bond_figure_state (row->place, row->readings->rule);
  g_autofree char *second = second_words (row->place);
  int what = bond_text_lines (report->text, BOND_FACE_TABLE, width[COLUMN_WHAT], MOST_LINES, spec->from)
             + bond_text_lines (report->text, BOND_FACE_SMALL, width[COLUMN_WHAT], MOST_LINES, spec->to);
  int verdict = bond_text_lines (report->text, BOND_FACE_TABLE, width[COLUMN_VERDICT], MOST_LINES, state)
                + bond_text_lines (report->text, BOND_FACE_SMALL, width[COLUMN_VERDICT], MOST_LINES, second);
  int lines = MAX (what, verdict);

  lines = MAX (lines, 1 + bond_text_lines (report->text, BOND_FACE_STRONG, width[COLUMN_POINT], MOST_LINES, number));
  lines = MAX (lines, limit_lines (report, row->place->row, row->place->tier));
  return MAX (lines, 2) * LEADING + 2 * PAD - 0.6;
}

static void
add_grey_rows (BondReport *report, const Readings *readings, BondPoint *point, const BondPlaceResult *place)
{
  const BondMeasurement *result = place->decides != NULL ? place->decides : place->last;
  guint i;

  for (i = 0; i < place->history->len; i++)
    {
      const BondHistoryItem *item = g_ptr_array_index (place->history, i);
      Row *row;

      if (item->measurement == NULL || item->measurement == result || item->measurement->mean.count == 0)
        continue;
      row = bond_report_own (report, g_new0 (Row, 1), g_free);
      row->readings = readings;
      row->point = point;
      row->place = place;
      row->measurement = item->measurement;
      row->struck = item->voided || item->taken_back || item->moved_away;
      bond_flow_add (report, 2 * LEADING + 2 * PAD - 0.6, "TR", draw_grey_row, row);
    }
}

/* The limits that hold beside the governing one: one further line each. */
static void
add_other_rows (BondReport *report, const Readings *readings, BondPoint *point, const BondPlaceResult *place)
{
  guint i;

  for (i = 1; i < bond_place_result_n_rows (place); i++)
    {
      Row *row = bond_report_own (report, g_new0 (Row, 1), g_free);

      row->readings = readings;
      row->point = point;
      row->place = bond_place_result_nth_row (place, i);
      row->measurement = place->decides != NULL ? place->decides : place->last;
      bond_flow_add (report, row_height (report, row), "TR", draw_other_row, row);
    }
}

static void
add_point (BondReport *report, const Readings *readings, BondPoint *point)
{
  GPtrArray *places = bond_point_get_places (point);
  guint i;

  for (i = 0; i < places->len; i++)
    {
      const BondPlaceResult *place = g_ptr_array_index (places, i);
      Row *row = bond_report_own (report, g_new0 (Row, 1), g_free);

      add_grey_rows (report, readings, point, place);
      row->readings = readings;
      row->point = point;
      row->place = place;
      bond_flow_add (report, row_height (report, row), "TR", draw_row, row);
      add_other_rows (report, readings, point, place);
    }
}

typedef struct
{
  char *number, *name, *note;
} Bar;

static void
bar_free (gpointer data)
{
  Bar *bar = data;

  g_free (bar->number);
  g_free (bar->name);
  g_free (bar->note);
  g_free (bar);
}

static void
draw_bar (BondReport *report, cairo_t *cr, const BondBlock *block, double y)
{
  const Bar *bar = block->data;
  const BondSheet *sheet = &report->sheet;
  double x = sheet->left + 15, width = bond_text_width (report->text, BOND_FACE_STRONG_TEXT, bar->number);

  bond_text_line (report->text, cr, BOND_FACE_STRONG_TEXT, &report->inks->text, x, y + 14, 80, 0, bar->number);
  bond_text_line (report->text, cr, BOND_FACE_TEXT, &report->inks->text, x + MIN (width, 80) + 6, y + 14, 300, 0,
                  bar->name);
  bond_text_line (report->text, cr, BOND_FACE_CAPTION, &report->inks->quiet, sheet->right - 90, y + 14, 90, 1,
                  bar->note);
  bond_rule (cr, sheet->left, sheet->right, y + block->height, 0.45, 0.25);
}

/* How many points from @from on stand in one zone. */
static guint
same_zone (BondSurvey *survey, guint from, const char *zone)
{
  guint n = g_list_model_get_n_items (G_LIST_MODEL (survey)), i;

  for (i = from; i < n; i++)
    {
      g_autoptr (BondPoint) point = g_list_model_get_item (G_LIST_MODEL (survey), i);

      if (g_strcmp0 (bond_point_get_spec (point)->zone, zone) != 0)
        break;
    }
  return i - from;
}

/* A bar keeps room for two rows with it. */
static void
add_bar (BondReport *report, const char *zone, guint n)
{
  const BondAirframe *airframe = bond_survey_get_airframe (report->survey);
  const BondZone *found = airframe != NULL ? bond_airframe_find_zone (airframe, zone) : NULL;
  Bar *bar = bond_report_own (report, g_new0 (Bar, 1), bar_free);
  g_autofree char *entry = NULL;

  bar->number = g_strdup (zone);
  bar->name = g_strdup (found != NULL ? found->name : "");
  bar->note = g_strdup_printf (ngettext ("%u point", "%u points", n), n);
  entry = g_strdup_printf (_ ("Zone %s %s"), bar->number, bar->name);
  bond_flow_need (report, BAR_HEIGHT + 2 * (2 * LEADING + 2 * PAD));
  bond_report_outline (report, 1, g_strstrip (entry));
  bond_flow_add (report, BAR_HEIGHT, "TR", draw_bar, bar);
}

/* What the letters and signs under the point numbers mean. */
static void
draw_class_legend (BondReport *report, cairo_t *cr, const BondBlock *block, double y)
{
  double x = report->sheet.left;
  int i;

  (void)block;
  for (i = 0; i < BOND_N_CLASSES; i++)
    {
      char letter[2] = { bond_class_letter ((BondClass)i), 0 };
      const char *name = bond_class_name ((BondClass)i);

      bond_text_line (report->text, cr, BOND_FACE_STRONG, &report->inks->text, x, y + 8, 10, 0, letter);
      bond_class_sign_draw (cr, (BondClass)i, x + 15, y + 5.4, 6.4, &report->inks->text);
      bond_text_line (report->text, cr, BOND_FACE_TABLE, &report->inks->text, x + 23, y + 8, 80, 0, name);
      x += 23 + MIN (bond_text_width (report->text, BOND_FACE_TABLE, name), 80) + 18;
    }
}

static void
add_footnote (BondReport *report)
{
  bond_flow_space (report, 5);
  bond_flow_add (report, 15, "P", draw_class_legend, NULL);
  bond_paragraph (
      report, BOND_FACE_CAPTION,
      _ ("Result is the value of record; U is its expanded uncertainty. On the scale the limit stands at the "
         "upright line and the tick is the part of the limit used. Grey rows are readings that no longer "
         "count; struck through: not used. The sign = under As found: the result is the reading as found."));
}

void
bond_section_readings (BondReport *report)
{
  Readings *readings = make_columns (report);
  BondHead head = { draw_head, readings, HEAD_HEIGHT };
  guint n = g_list_model_get_n_items (G_LIST_MODEL (report->survey)), i, left = 0;

  bond_section_begin (report, _ ("Readings"), _ ("in walking order"));
  if (n == 0)
    {
      bond_paragraph (report, BOND_FACE_TEXT, _ ("This survey has no points."));
      return;
    }
  bond_flow_head (report, &head);
  for (i = 0; i < n; i++, left--)
    {
      g_autoptr (BondPoint) point = g_list_model_get_item (G_LIST_MODEL (report->survey), i);
      const char *zone = bond_point_get_spec (point)->zone;

      if (left == 0)
        {
          left = same_zone (report->survey, i, zone);
          add_bar (report, zone, left);
        }
      add_point (report, readings, point);
    }
  bond_flow_head (report, NULL);
  add_footnote (report);
}
