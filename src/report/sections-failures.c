/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * Failures and rework: one story for each point to which anything but a plain
 * reading has happened, every act in order of time with its name and instrument, and
 * at the end one line with all its values against the limit.
 */
#include "report/act-words.h"
#include "report/report-private.h"

#include <glib/gi18n-lib.h>
#include <math.h>

#define LINE 12.6
#define X_MARK 26.0
#define X_TIME 37.0
#define X_WORD 94.0
#define X_VALUE 176.0 /* right edge 214 */
#define VALUE_WIDTH 40.0
#define X_DETAIL 226.0
#define BY_WIDTH 112.0
#define MOST_LINES 40

typedef struct
{
  BondPoint *point;
  const BondPlaceResult *place;
  const BondHistoryItem *item;
  int lines;
} Line;

/* --- what a measurement says in words --- */

static char *
reading_details (BondReport *report, const BondMeasurement *measurement, BondUnit unit)
{
  GString *text = g_string_new (NULL);
  guint i;

  for (i = 0; measurement->readings->len > 1 && i < measurement->readings->len; i++)
    {
      const BondReading *reading = bond_entry_get_reading (g_ptr_array_index (measurement->readings, i));
      g_autofree char *value = reading != NULL ? bond_figure_reading (report, reading, unit) : NULL;

      if (value != NULL)
        bond_act_append_titled (text, bond_direction_name (reading->direction), value);
    }
  if (measurement->outcome == BOND_OUTCOME_JUDGED && measurement->within_u)
    bond_act_append (text, _ ("within U of the limit"));
  if (measurement->reason != BOND_REASON_NONE)
    bond_act_append (text, bond_reason_name (measurement->reason));
  if (measurement->caution != BOND_REASON_NONE)
    bond_act_append (text, bond_reason_name (measurement->caution));
  return g_string_free (text, FALSE);
}

static char *
line_details (BondReport *report, const Line *line)
{
  const BondHistoryItem *item = line->item;
  g_autofree char *details = NULL;

  if (item->measurement == NULL)
    return bond_act_details (report->survey, item->entry, report->mark);
  details
      = reading_details (report, item->measurement, bond_figure_unit (report->survey, line->place, line->place->row));
  if (!item->taken_back)
    return g_steal_pointer (&details);
  return *details != '\0' ? g_strdup_printf (_ ("%s, undone"), details) : g_strdup (_ ("undone"));
}

/* Acts stand where readings have their value: they have none and their words are longer. */
static double
details_x (const Line *line)
{
  return line->item->measurement != NULL ? X_DETAIL : X_VALUE;
}

static double
details_width (BondReport *report, const Line *line)
{
  return report->sheet.right - report->sheet.left - details_x (line) - BY_WIDTH - 8;
}

/* --- drawing --- */

static const char *
line_word (BondReport *report, const Line *line)
{
  if (line->item->measurement != NULL)
    return bond_figure_verdict (line->item->measurement, bond_survey_get_rule (report->survey));
  return bond_act_word (line->item->entry->kind);
}

static char *
who (BondReport *report, const Line *line)
{
  const BondEntry *entry = line->item->entry;
  const BondReading *reading = bond_entry_get_reading (entry);
  const BondInstrument *instrument = reading != NULL && reading->instrument != NULL
                                         ? bond_survey_find_instrument_at (report->survey, reading->instrument, entry)
                                         : NULL;
  const char *name = bond_survey_person_name (report->survey, entry->by);

  return instrument != NULL ? g_strdup_printf ("%s, %s", name, instrument->name) : g_strdup (name);
}

static gboolean
is_struck (const BondHistoryItem *item)
{
  return item->voided || item->taken_back || item->moved_away;
}

static void
draw_line_value (BondReport *report, cairo_t *cr, const Line *line, double x, double base)
{
  BondUnit unit = bond_figure_unit (report->survey, line->place, line->place->row);
  g_autofree char *value = bond_figure_value (report, line->item->measurement, unit);
  double width;

  if (value == NULL)
    return;
  bond_text_line (report->text, cr, BOND_FACE_STRONG, &report->inks->text, x, base, VALUE_WIDTH, 1, value);
  if (!is_struck (line->item))
    return;
  width = bond_text_width (report->text, BOND_FACE_STRONG, value);
  bond_rule (cr, x + VALUE_WIDTH - width - 2, x + VALUE_WIDTH + 2, base - 2.7, 0.7, 0);
}

static void
draw_line (BondReport *report, cairo_t *cr, const BondBlock *block, double y)
{
  const Line *line = block->data;
  const BondHistoryItem *item = line->item;
  double left = report->sheet.left, base = y + 9;
  g_autofree char *time = bond_figure_time (item->entry->at, FALSE);
  g_autofree char *details = line_details (report, line);
  g_autofree char *by = who (report, line);

  if (item->measurement != NULL)
    {
      BondMark mark = is_struck (item) ? BOND_MARK_NOT_FITTED
                                       : bond_figure_mark (item->measurement, bond_survey_get_rule (report->survey));

      bond_mark_draw (cr, mark, left + X_MARK, base - 2.7, 6.5, report->inks);
      draw_line_value (report, cr, line, left + X_VALUE, base);
    }
  bond_text_line (report->text, cr, BOND_FACE_TABLE, &report->inks->quiet, left + X_TIME, base, X_WORD - X_TIME - 4, 0,
                  time);
  bond_text_line (report->text, cr, BOND_FACE_STRONG, &report->inks->text, left + X_WORD, base, X_VALUE - X_WORD - 4, 0,
                  line_word (report, line));
  bond_text_wrapped (report->text, cr, BOND_FACE_TABLE,
                     item->measurement != NULL ? &report->inks->quiet : &report->inks->text, left + details_x (line),
                     base, details_width (report, line), MOST_LINES, details);
  bond_text_line (report->text, cr, BOND_FACE_TABLE, &report->inks->quiet, report->sheet.right - BY_WIDTH, base,
                  BY_WIDTH, 1, by);
  bond_rule (cr, left + X_TIME, report->sheet.right, y + block->height, 0.25, 0.7);
}

/* --- the line of values --- */

static void
draw_value_tick (BondReport *report, cairo_t *cr, const Line *line, double x1, double x2, double base, double *last_x)
{
  const BondMeasurement *measurement = line->item->measurement;
  const BondBounds *bounds = bond_limit_row_bounds (measurement->row, measurement->condition);
  gint64 used = bond_bounds_used_permille (bounds, &measurement->mean);
  double x = x1 + (x2 - x1) * MIN (used, 1500) / 1500.0, width;
  BondUnit unit = bond_figure_unit (report->survey, line->place, line->place->row);
  g_autofree char *value = bond_figure_value (report, measurement, unit);
  g_autofree char *label = used > 1500 ? g_strdup_printf (_ ("%s \u203a"), value) : g_strdup (value);

  if (used < 0)
    return;
  cairo_set_source_rgb (cr, 0, 0, 0);
  cairo_rectangle (cr, x - 0.9, base - 5, 1.8, 5);
  cairo_fill (cr);
  width = bond_text_width (report->text, BOND_FACE_CAPTION, label);
  x = CLAMP (x - width / 2, x1, x2 - width);
  if (x < last_x[1] && x + width > last_x[0])
    return; /* its place is taken: the figure stands in the lines above */
  last_x[0] = MIN (last_x[0], x - 3);
  last_x[1] = MAX (last_x[1], x + width + 3);
  bond_text_line (report->text, cr, BOND_FACE_CAPTION, &report->inks->text, x, base - 7.5, width + 1, 0, label);
}

static void
draw_scale (BondReport *report, cairo_t *cr, const BondBlock *block, double y)
{
  const Line *line = block->data;
  const BondLimitRow *row = line->place->row;
  double x1 = report->sheet.left + X_TIME, x2 = report->sheet.right, limit = x1 + (x2 - x1) / 1.5, base = y + 17;
  double taken[2] = { G_MAXDOUBLE, -G_MAXDOUBLE };
  g_autofree char *label = bond_figure_limit (report, row, line->place->tier);
  guint i;

  bond_rule (cr, x1, x2, base, 0.5, 0.3);
  bond_text_line (report->text, cr, BOND_FACE_CAPTION, &report->inks->quiet, x1, base + 8.5, 20, 0, "0");
  cairo_set_source_rgb (cr, 0, 0, 0);
  cairo_rectangle (cr, limit - 0.4, base - 7, 0.8, 9);
  cairo_fill (cr);
  bond_text_line (report->text, cr, BOND_FACE_CAPTION, &report->inks->text, limit - 60, base + 9.5, 120, 0.5, label);
  for (i = 0; i < line->place->history->len; i++)
    {
      Line other = *line;

      other.item = g_ptr_array_index (line->place->history, i);
      if (other.item->measurement != NULL && other.item->measurement->outcome == BOND_OUTCOME_JUDGED
          && !is_struck (other.item) && other.item->measurement->row != NULL && other.item->measurement->mean.count > 0)
        draw_value_tick (report, cr, &other, x1, x2, base, taken);
    }
}

/* --- laying out --- */

typedef struct
{
  BondPoint *point;
  const BondPlaceResult *place;
} Story;

static void
draw_story_head (BondReport *report, cairo_t *cr, const BondBlock *block, double y)
{
  const Story *story = block->data;
  const BondSheet *sheet = &report->sheet;
  const BondPointSpec *spec = bond_point_get_spec (story->point);
  BondRule rule = bond_survey_get_rule (report->survey);
  g_autofree char *limit = bond_figure_limit (report, story->place->row, story->place->tier);
  g_autofree char *where = g_strdup_printf (_ ("zone %s, limit %s"), spec->zone, limit);
  g_autofree char *number = story->place->label != NULL ? g_strdup_printf ("%s %s", spec->number, story->place->label)
                                                        : g_strdup (spec->number);
  g_autofree char *what = g_strdup_printf ("%s \u2013 %s", spec->from, spec->to);
  g_autofree char *state = bond_figure_state (story->place, rule);
  double x = sheet->left + 22, width = bond_text_width (report->text, BOND_FACE_HEADING, number);

  bond_rule (cr, sheet->left, sheet->right, y + 4, 0.8, 0);
  bond_mark_draw (cr, bond_mark_for (story->place, rule), sheet->left + 8, y + 15.5, 12, report->inks);
  bond_text_line (report->text, cr, BOND_FACE_HEADING, &report->inks->text, x, y + 19, 180, 0, number);
  width = MIN (width, 180);
  bond_text_line (report->text, cr, BOND_FACE_TEXT, &report->inks->text, x + width + 12, y + 19,
                  sheet->right - 160 - x - width - 24, 0, what);
  bond_text_line (report->text, cr, BOND_FACE_TABLE, &report->inks->quiet, sheet->right - 156, y + 19, 156, 1, where);
  bond_text_line (report->text, cr, BOND_FACE_TABLE, &report->inks->quiet, x, y + 30, 300, 0, state);
}

#define STORY_HEAD 36
#define SCALE_HEIGHT 34

static Line *
make_line (BondReport *report, BondPoint *point, const BondPlaceResult *place, const BondHistoryItem *item)
{
  Line *line = bond_report_own (report, g_new0 (Line, 1), g_free);
  g_autofree char *details = NULL;

  line->point = point;
  line->place = place;
  line->item = item;
  if (item == NULL)
    return line;
  details = line_details (report, line);
  line->lines
      = MAX (bond_text_lines (report->text, BOND_FACE_TABLE, details_width (report, line), MOST_LINES, details), 1);
  return line;
}

static gboolean
has_scale (const BondPlaceResult *place)
{
  guint i;

  for (i = 0; i < place->history->len; i++)
    {
      const BondHistoryItem *item = g_ptr_array_index (place->history, i);

      if (item->measurement != NULL && item->measurement->outcome == BOND_OUTCOME_JUDGED && place->row != NULL)
        return TRUE;
    }
  return FALSE;
}

/* A correction is placed with what it replaces; on paper every act stands at its own time. */
static int
compare_times (gconstpointer a, gconstpointer b)
{
  const BondEntry *p = (*(const Line *const *)a)->item->entry, *q = (*(const Line *const *)b)->item->entry;

  return p->t != q->t ? (p->t < q->t ? -1 : 1) : g_strcmp0 (p->sitting, q->sitting);
}

/* A story stays on one page when it fits one. */
static void
add_story (BondReport *report, BondPoint *point, const BondPlaceResult *place, gboolean first)
{
  Story *story = bond_report_own (report, g_new0 (Story, 1), g_free);
  gboolean scale = has_scale (place);
  double height = STORY_HEAD + (scale ? SCALE_HEIGHT : 0) + 8;
  g_autoptr (GPtrArray) lines = g_ptr_array_new ();
  BondBlock *block;
  guint i;

  story->point = point;
  story->place = place;
  for (i = 0; i < place->history->len; i++)
    {
      Line *line = make_line (report, point, place, g_ptr_array_index (place->history, i));

      g_ptr_array_add (lines, line);
      height += LINE + (line->lines - 1) * 9.6;
    }
  g_ptr_array_sort (lines, compare_times);
  bond_flow_need (report, MIN (height, 600));
  block = bond_flow_add (report, STORY_HEAD, "H3", draw_story_head, story);
  if (first)
    block->target = g_strdup_printf ("story-%s", bond_point_get_id (point));
  for (i = 0; i < lines->len; i++)
    {
      Line *line = g_ptr_array_index (lines, i);

      bond_flow_add (report, LINE + (line->lines - 1) * 9.6, "TR", draw_line, line);
    }
  if (scale)
    bond_flow_add (report, SCALE_HEIGHT, "Figure", draw_scale, make_line (report, point, place, NULL));
  bond_flow_space (report, 8);
}

static gboolean
place_has_story (const BondPlaceResult *place)
{
  guint i, measurements = 0;

  for (i = 0; i < place->history->len; i++)
    {
      const BondHistoryItem *item = g_ptr_array_index (place->history, i);

      if (item->measurement == NULL || ++measurements > 1 || is_struck (item))
        return TRUE;
    }
  return place->last != NULL && place->state != BOND_STATE_PASS && place->state != BOND_STATE_RECORDED
         && place->state != BOND_STATE_TO_MEASURE;
}

gboolean
bond_report_has_story (BondPoint *point)
{
  GPtrArray *places = bond_point_get_places (point);
  guint i;

  for (i = 0; i < places->len; i++)
    if (place_has_story (g_ptr_array_index (places, i)))
      return TRUE;
  return FALSE;
}

static void
add_stories (BondReport *report, BondPoint *point)
{
  GPtrArray *places = bond_point_get_places (point);
  gboolean first = TRUE;
  guint i;

  for (i = 0; i < places->len; i++)
    if (place_has_story (g_ptr_array_index (places, i)))
      {
        add_story (report, point, g_ptr_array_index (places, i), first);
        first = FALSE;
      }
}

void
bond_section_failures (BondReport *report)
{
  guint i, n = g_list_model_get_n_items (G_LIST_MODEL (report->survey)), stories = 0;
  g_autofree char *note = NULL;

  for (i = 0; i < n; i++)
    {
      g_autoptr (BondPoint) point = g_list_model_get_item (G_LIST_MODEL (report->survey), i);

      stories += bond_report_has_story (point);
    }
  if (stories == 0)
    return;
  note = g_strdup_printf (
      ngettext ("%u point; every act in order of time", "%u points; every act in order of time", stories), stories);
  bond_section_begin (report, _ ("Failures and rework"), note);
  for (i = 0; i < n; i++)
    {
      g_autoptr (BondPoint) point = g_list_model_get_item (G_LIST_MODEL (report->survey), i);

      add_stories (report, point);
    }
}
