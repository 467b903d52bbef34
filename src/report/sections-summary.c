/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * The first page: which aircraft and order, what came out in one sentence made of
 * counts, the counts themselves, where the exceptions are, and who stands for it.
 * Everything said here is said again, with its evidence, on a later page.
 */
#include "report/report-private.h"

#include <glib/gi18n-lib.h>

#define COUNT_ROW 15.0
#define COUNT_WIDTH 212
#define DIAGRAM_HEIGHT 200
#define MOST_NOTES 12
#define SIGNED_HEIGHT 56
#define ID_LINES 4
#define ID_ROW 15.5
#define NOTHING "\u2013"

/* --- identity --- */

typedef struct
{
  const char *label[2];
  char *value[2];
} Identity;

static void
identity_free (gpointer data)
{
  Identity *identity = data;

  g_free (identity->value[0]);
  g_free (identity->value[1]);
  g_free (identity);
}

static void
draw_identity (BondReport *report, cairo_t *cr, const BondBlock *block, double y)
{
  const Identity *identity = block->data;
  const BondSheet *sheet = &report->sheet;
  double half = (sheet->right - sheet->left) / 2;
  int i;

  for (i = 0; i < 2; i++)
    {
      double x = sheet->left + i * (half + 6);

      bond_text_line (report->text, cr, BOND_FACE_TABLE, &report->inks->quiet, x, y + 10.5, 62, 0, identity->label[i]);
      bond_text_wrapped (report->text, cr, BOND_FACE_TEXT, &report->inks->text, x + 66, y + 10.5, half - 72, ID_LINES,
                         identity->value[i]);
    }
  bond_rule (cr, sheet->left, sheet->right, y + block->height, 0.3, 0.6);
}

static void
add_identity (BondReport *report, const char *label_1, char *value_1, const char *label_2, char *value_2)
{
  Identity *identity = bond_report_own (report, g_new0 (Identity, 1), identity_free);
  double width = (report->sheet.right - report->sheet.left) / 2 - 72;
  int lines = 1, i;

  identity->label[0] = label_1;
  identity->label[1] = label_2;
  identity->value[0] = value_1;
  identity->value[1] = value_2;
  for (i = 0; i < 2; i++)
    lines = MAX (lines, bond_text_lines (report->text, BOND_FACE_TEXT, width, ID_LINES, identity->value[i]));
  bond_flow_add (report, ID_ROW + (lines - 1) * bond_text_leading (BOND_FACE_TEXT), "P", draw_identity, identity);
}

static char *
join_list (const char *separator, const char *const *words)
{
  GString *text = g_string_new (NULL);

  for (; *words != NULL; words++)
    if (**words != '\0')
      g_string_append_printf (text, "%s%s", text->len > 0 ? separator : "", *words);
  if (text->len == 0)
    g_string_append (text, NOTHING);
  return g_string_free (text, FALSE);
}

#define WORD(string) ((string) != NULL ? (string) : "")

static char *
list_limits (BondReport *report)
{
  GPtrArray *sets = bond_survey_get_limit_sets (report->survey);
  g_autoptr (GPtrArray) words = g_ptr_array_new_with_free_func (g_free);
  guint i;

  for (i = 0; i < sets->len; i++)
    {
      const BondLimitSet *set = g_ptr_array_index (sets, i);

      g_ptr_array_add (words, g_strdup_printf (_ ("%s (revision %d)"), set->name, set->revision));
    }
  g_ptr_array_add (words, NULL);
  return join_list ("; ", (const char *const *)words->pdata);
}

static char *
list_instruments (BondReport *report)
{
  GPtrArray *instruments = bond_survey_get_instruments (report->survey);
  g_autoptr (GPtrArray) words = g_ptr_array_new ();
  guint i;

  for (i = 0; i < instruments->len; i++)
    {
      const BondInstrument *instrument = g_ptr_array_index (instruments, i);

      if (instrument->kind == BOND_INSTRUMENT_MILLIOHMMETER || instrument->kind == BOND_INSTRUMENT_MEGOHMMETER)
        g_ptr_array_add (words, instrument->name);
    }
  g_ptr_array_add (words, NULL);
  return join_list (", ", (const char *const *)words->pdata);
}

static char *
describe_aircraft (BondReport *report, const BondCreate *create)
{
  const BondAirframe *airframe = bond_survey_get_airframe (report->survey);
  g_autofree char *serial = create->serial != NULL ? g_strdup_printf (_ ("serial %s"), create->serial) : g_strdup ("");
  const char *words[]
      = { WORD (create->registration), airframe != NULL ? airframe->name : WORD (create->aircraft_type), serial, NULL };

  return join_list (", ", words);
}

/* Only what was stated: a survey of before these were asked has no empty lines for them. */
static void
add_stated (BondReport *report, const char *label_1, const char *const *words_1, const char *label_2,
            const char *const *words_2)
{
  g_autofree char *value_1 = join_list (", ", words_1);
  g_autofree char *value_2 = join_list (", ", words_2);

  if (g_str_equal (value_1, NOTHING) && g_str_equal (value_2, NOTHING))
    return;
  add_identity (report, label_1, g_steal_pointer (&value_1), label_2,
                *label_2 != '\0' ? g_steal_pointer (&value_2) : g_strdup (""));
}

static char *
with_word (const char *format, const char *value)
{
  g_auto (GStrv) parts = g_strsplit (format, "%s", 2);

  return value != NULL ? g_strconcat (parts[0], value, parts[1], NULL) : g_strdup ("");
}

static void
add_circumstances (BondReport *report, const BondCreate *create)
{
  g_autofree char *revision = with_word (_ ("revision %s"), create->card_revision);
  g_autofree char *hours = with_word (_ ("%s hours"), create->hours);
  g_autofree char *cycles = with_word (_ ("%s cycles"), create->cycles);
  g_autofree char *power = with_word (_ ("power: %s"), create->power);
  g_autofree char *fuel = with_word (_ ("fuel: %s"), create->fuel);
  const char *card[] = { WORD (create->card), revision, NULL };
  const char *flown[] = { hours, cycles, NULL };
  const char *state[] = { power, fuel, NULL };
  const char *checked[] = { WORD (create->data_checked_by), WORD (create->data_checked_on), NULL };
  const char *scope[] = { WORD (create->scope), NULL };
  const char *none[] = { NULL };

  add_stated (report, _ ("Card"), card, _ ("Data checked"), checked);
  add_stated (report, _ ("Flown"), flown, _ ("State"), state);
  if (create->scope != NULL)
    add_stated (report, _ ("Zones"), scope, "", none);
}

static void
add_identities (BondReport *report, const BondCreate *create)
{
  const BondAirframe *airframe = bond_survey_get_airframe (report->survey);
  const char *order[] = { WORD (create->order), WORD (create->customer), NULL };
  const char *trigger[] = { WORD (create->trigger), NULL };
  const char *place[] = { WORD (create->location), NULL };

  add_identity (report, _ ("Aircraft"), describe_aircraft (report, create), _ ("Order"), join_list (", ", order));
  add_identity (report, _ ("Occasion"), join_list ("", trigger), _ ("Place"), join_list ("", place));
  add_identity (report, _ ("Limits"), list_limits (report), _ ("Instruments"), list_instruments (report));
  add_identity (report, _ ("Airframe data"),
                airframe != NULL ? g_strdup_printf (_ ("%s, revision %d"), airframe->name, airframe->revision)
                                 : g_strdup ("\u2013"),
                _ ("Decision rule"), g_strdup (bond_rule_name (bond_survey_get_rule (report->survey))));
  add_circumstances (report, create);
}

/* --- the sentence --- */

typedef struct
{
  BondState state;
  const char *one, *many;
} Sentence;

static const Sentence sentences[] = {
  { BOND_STATE_FAIL, N_ ("%d point does not conform."), N_ ("%d points do not conform.") },
  { BOND_STATE_ACCEPTED, N_ ("%d point exceeds its limit and is accepted by engineering disposition."),
    N_ ("%d points exceed their limit and are accepted by engineering disposition.") },
  { BOND_STATE_CARRIED_FORWARD, N_ ("%d point does not conform and is carried forward."),
    N_ ("%d points do not conform and are carried forward.") },
  { BOND_STATE_DEFERRED, N_ ("%d point does not conform and is deferred."),
    N_ ("%d points do not conform and are deferred.") },
  { BOND_STATE_NOT_CONFIRMED, N_ ("%d reading beyond its limit was not confirmed by two re-seated readings."),
    N_ ("%d readings beyond their limit were not confirmed by two re-seated readings.") },
  { BOND_STATE_REMEASURE, N_ ("%d point is still to be measured again."),
    N_ ("%d points are still to be measured again.") },
  { BOND_STATE_TO_MEASURE, N_ ("%d point is still to be measured."), N_ ("%d points are still to be measured.") },
  { BOND_STATE_NOT_ACCESSIBLE, N_ ("%d point was not accessible and stays open."),
    N_ ("%d points were not accessible and stay open.") },
  { BOND_STATE_SUSPECT, N_ ("%d result is suspect and has no verdict."),
    N_ ("%d results are suspect and have no verdict.") },
  { BOND_STATE_IN_DOUBT, N_ ("%d result is in doubt."), N_ ("%d results are in doubt.") },
  { BOND_STATE_RECORDED, N_ ("%d result is recorded without limit."), N_ ("%d results are recorded without limit.") },
  { BOND_STATE_NOT_IN_SAMPLE, N_ ("%d point is not in the sample."), N_ ("%d points are not in the sample.") },
};

static void
append_sentence (GString *text, const char *one, const char *many, int n)
{
  if (n == 0)
    return;
  g_string_append_c (text, ' ');
#pragma GCC diagnostic push
#pragma GCC diagnostic ignored "-Wformat-nonliteral"
  g_string_append_printf (text, ngettext (one, many, (gulong)n), n);
#pragma GCC diagnostic pop
}

static char *
result_sentence (const BondTotals *totals)
{
  GString *text = g_string_new (NULL);
  int reworked = totals->by_state[BOND_STATE_PASS_AFTER_REWORK];
  int outside = totals->points - totals->scope;
  guint i;

  if (totals->points == 0)
    return g_string_free (g_string_append (text, _ ("This survey has no points.")), FALSE);
  g_string_printf (text,
                   ngettext ("%d of %d point conforms to its limit", "%d of %d points conform to their limits",
                             (gulong)totals->scope),
                   totals->conform, totals->scope);
  if (reworked > 0)
    g_string_append_printf (text, _ (", %d of them after rework"), reworked);
  g_string_append_c (text, '.');
  for (i = 0; i < G_N_ELEMENTS (sentences); i++)
    append_sentence (text, sentences[i].one, sentences[i].many, totals->by_state[sentences[i].state]);
  append_sentence (text, N_ ("%d result lies within U of its limit."), N_ ("%d results lie within U of their limit."),
                   totals->within_u);
  append_sentence (text, N_ ("%d reading beyond its limit was taken back."),
                   N_ ("%d readings beyond their limit were taken back."), totals->over_limit_taken_back);
  append_sentence (text, N_ ("%d steady reading was seen and not recorded."),
                   N_ ("%d steady readings were seen and not recorded."), totals->seen_not_recorded);
  append_sentence (text, N_ ("%d point is not fitted or not applicable and outside the scope."),
                   N_ ("%d points are not fitted or not applicable and outside the scope."), outside);
  return g_string_free (text, FALSE);
}

/* --- counts and the small diagram --- */

static const BondMark counted[] = {
  BOND_MARK_PASS,        BOND_MARK_WITHIN_PASS,    BOND_MARK_PASS_AFTER_REWORK, BOND_MARK_NOT_CONFIRMED,
  BOND_MARK_RECORDED,    BOND_MARK_ACCEPTED,       BOND_MARK_CARRIED,           BOND_MARK_FAIL,
  BOND_MARK_WITHIN_FAIL, BOND_MARK_VISUAL_REJECT,  BOND_MARK_REMEASURE,         BOND_MARK_SUSPECT,
  BOND_MARK_IN_DOUBT,    BOND_MARK_NOT_ACCESSIBLE, BOND_MARK_NOT_IN_SAMPLE,     BOND_MARK_NOT_FITTED,
  BOND_MARK_TO_MEASURE,
};

/* Said even when there are none: their absence is what the reader looks for. */
static gboolean
always_counted (BondMark mark)
{
  return mark == BOND_MARK_PASS || mark == BOND_MARK_FAIL || mark == BOND_MARK_TO_MEASURE;
}

typedef struct
{
  int n[BOND_N_MARKS];
  int rows;
} Counts;

static Counts *
count_marks (BondReport *report)
{
  Counts *counts = bond_report_own (report, g_new0 (Counts, 1), g_free);
  guint i, n = g_list_model_get_n_items (G_LIST_MODEL (report->survey));

  for (i = 0; i < n; i++)
    {
      g_autoptr (BondPoint) point = g_list_model_get_item (G_LIST_MODEL (report->survey), i);

      counts->n[bond_mark_for (bond_point_get_worst (point), bond_survey_get_rule (report->survey))]++;
    }
  for (i = 0; i < G_N_ELEMENTS (counted); i++)
    counts->rows += counts->n[counted[i]] > 0 || always_counted (counted[i]);
  return counts;
}

static void
draw_count (BondReport *report, cairo_t *cr, double y, int mark, const char *name, int n)
{
  const BondRgb *ink = n > 0 || mark < 0 ? &report->inks->text : &report->inks->quiet;
  double x = report->sheet.left;
  g_autofree char *figure = n > 0 || mark < 0 ? g_strdup_printf ("%d", n) : g_strdup ("\u2013");

  if (mark >= 0)
    bond_mark_draw (cr, (BondMark)mark, x + 8, y + COUNT_ROW / 2, 9, report->inks);
  bond_text_line (report->text, cr, mark < 0 ? BOND_FACE_STRONG_TEXT : BOND_FACE_TEXT, ink, x + 22, y + 10.7,
                  COUNT_WIDTH - 60, 0, name);
  bond_text_line (report->text, cr, BOND_FACE_STRONG_TEXT, ink, x + COUNT_WIDTH - 38, y + 10.7, 36, 1, figure);
}

static void
draw_counts (BondReport *report, cairo_t *cr, const Counts *counts, double y)
{
  double x1 = report->sheet.left, x2 = x1 + COUNT_WIDTH;
  guint i;

  bond_rule (cr, x1, x2, y, 0.8, 0);
  for (i = 0; i < G_N_ELEMENTS (counted); i++)
    {
      BondMark mark = counted[i];
      g_autofree char *name = bond_upper_first (bond_mark_name (mark));

      if (counts->n[mark] == 0 && !always_counted (mark))
        continue;
      draw_count (report, cr, y, mark, name, counts->n[mark]);
      y += COUNT_ROW;
      bond_rule (cr, x1, x2, y, 0.3, 0.65);
    }
  draw_count (report, cr, y, -1, _ ("Points"), report->totals.points);
  bond_rule (cr, x1, x2, y, 0.8, 0);
  bond_rule (cr, x1, x2, y + COUNT_ROW, 0.8, 0);
}

static const BondView *
summary_view (const BondAirframe *airframe)
{
  const BondView *view = airframe != NULL ? bond_airframe_find_view (airframe, "plan-upper") : NULL;

  return view != NULL || airframe == NULL || airframe->views->len == 0 ? view : g_ptr_array_index (airframe->views, 0);
}

/* Where @view has the point: as placed, else by its stations. */
static gboolean
place_in_view (const BondView *view, const BondPointSpec *spec, double *x, double *y)
{
  return bond_diagram_shows (view, spec, x, y) || bond_view_place (view, &spec->sta, &spec->bl, &spec->wl, x, y);
}

static void
draw_exceptions (BondReport *report, cairo_t *cr, const BondView *view, double scale)
{
  guint i, n = g_list_model_get_n_items (G_LIST_MODEL (report->survey));

  for (i = 0; i < n; i++)
    {
      g_autoptr (BondPoint) point = g_list_model_get_item (G_LIST_MODEL (report->survey), i);
      double x, y;

      if (!bond_report_is_plain (report, point) && place_in_view (view, bond_point_get_spec (point), &x, &y))
        bond_mark_draw (cr, bond_mark_for (bond_point_get_worst (point), bond_survey_get_rule (report->survey)), x, y,
                        6.2 / scale, report->inks);
    }
}

static void
draw_small_diagram (BondReport *report, cairo_t *cr, double top, double height)
{
  const BondAirframe *airframe = bond_survey_get_airframe (report->survey);
  const BondView *view = summary_view (airframe);
  double left = report->sheet.left + COUNT_WIDTH + 40, width = report->sheet.right - left;
  double x, y, w, h, scale;

  if (view == NULL)
    return;
  bond_view_bounds (view, &x, &y, &w, &h);
  top += 26;
  height -= 30;
  scale = MIN (width / w, height / h);
  {
    BondDiagramStyle style = { .inks = report->inks, .font = report->font, .scale = scale };

    cairo_save (cr);
    cairo_translate (cr, left + (width - w * scale) / 2, top);
    cairo_scale (cr, scale, scale);
    cairo_translate (cr, -x, -y);
    bond_diagram_paint (cr, airframe, view, &style);
    draw_exceptions (report, cr, view, scale);
    cairo_restore (cr);
  }
}

static void
draw_overview (BondReport *report, cairo_t *cr, const BondBlock *block, double y)
{
  draw_counts (report, cr, block->data, y);
  draw_small_diagram (report, cr, y, MAX (block->height - 6, DIAGRAM_HEIGHT));
}

/* --- points of note --- */

static const BondColumn note_columns[] = {
  { NULL, 14, 0, BOND_FACE_TABLE, FALSE },
  { N_ ("Point"), 48, 0, BOND_FACE_STRONG, FALSE },
  { N_ ("What it is"), 0, 0, BOND_FACE_TABLE, FALSE },
  { N_ ("First \u2192 last"), 92, 0, BOND_FACE_STRONG, FALSE },
  { N_ ("Limit"), 66, 0, BOND_FACE_TABLE, FALSE },
  { N_ ("State"), 112, 0, BOND_FACE_TABLE, FALSE },
};

static void
add_note (BondReport *report, BondTable *table, BondPoint *point)
{
  const BondPlaceResult *worst = bond_point_get_worst (point);
  const BondPointSpec *spec = bond_point_get_spec (point);
  g_autofree char *values = bond_report_first_last (report, point);
  g_autofree char *limit = bond_figure_limit (report, worst->row, worst->tier);
  g_autofree char *word = bond_figure_state (worst, bond_survey_get_rule (report->survey));
  g_autofree char *state = worst->within_u && worst->state == BOND_STATE_PASS
                               ? g_strdup_printf (_ ("%s, within U of the limit"), word)
                               : g_strdup (word);
  const char *cells[] = { NULL, spec->number, spec->from, values, limit, state };
  BondBlock *block = bond_table_row (table, (int)bond_mark_for (worst, bond_survey_get_rule (report->survey)), cells);

  if (bond_report_has_story (point))
    block->link = g_strdup_printf ("story-%s", bond_point_get_id (point));
}

static int
compare_badness (gconstpointer a, gconstpointer b, gpointer survey)
{
  BondPoint *p = *(BondPoint *const *)a, *q = *(BondPoint *const *)b;
  int p_rank = bond_state_rank (bond_point_get_state (p)), q_rank = bond_state_rank (bond_point_get_state (q));
  guint p_place = bond_survey_position (survey, p), q_place = bond_survey_position (survey, q);

  return p_rank != q_rank ? q_rank - p_rank : (p_place > q_place) - (p_place < q_place);
}

/* Everything but plain passes, the worst first. */
static GPtrArray *
collect_notes (BondReport *report)
{
  GPtrArray *notes = g_ptr_array_new_with_free_func (g_object_unref);
  guint i, n = g_list_model_get_n_items (G_LIST_MODEL (report->survey));

  for (i = 0; i < n; i++)
    {
      BondPoint *point = g_list_model_get_item (G_LIST_MODEL (report->survey), i);

      if (bond_report_is_plain (report, point))
        g_object_unref (point);
      else
        g_ptr_array_add (notes, point);
    }
  g_ptr_array_sort_with_data (notes, compare_badness, report->survey);
  return notes;
}

/* As many as the page holds above the names; the rest is on later pages anyway. */
static void
add_notes (BondReport *report)
{
  g_autoptr (GPtrArray) notes = collect_notes (report);
  g_autofree char *more = NULL;
  BondTable *table;
  guint i;

  if (notes->len == 0 || bond_flow_left (report) < 110 + SIGNED_HEIGHT)
    return;
  bond_heading (report, _ ("Points of note"), NULL);
  table = bond_table_begin (report, note_columns, G_N_ELEMENTS (note_columns));
  for (i = 0; i < notes->len && i < MOST_NOTES && bond_flow_left (report) > 56 + SIGNED_HEIGHT; i++)
    add_note (report, table, g_ptr_array_index (notes, i));
  bond_table_end (table);
  if (i == notes->len)
    return;
  more = g_strdup_printf (ngettext ("%u more point of note is on the following pages.",
                                    "%u more points of note are on the following pages.", notes->len - i),
                          notes->len - i);
  bond_flow_space (report, 4);
  bond_paragraph (report, BOND_FACE_CAPTION, more);
}

/* --- who signs --- */

static void
draw_signed (BondReport *report, cairo_t *cr, const BondBlock *block, double y)
{
  static const char *const roles[] = { N_ ("Inspector"), N_ ("Independent inspector"), N_ ("Quality") };
  const BondSheet *sheet = &report->sheet;
  double width = (sheet->right - sheet->left) / 3;
  int i, lines;

  bond_rule (cr, sheet->left, sheet->right, y, 0.8, 0);
  for (i = 0; i < 3; i++)
    {
      double x = sheet->left + i * width;

      bond_text_line (report->text, cr, BOND_FACE_CAPTION, &report->inks->quiet, x, y + 12, width - 10, 0,
                      _ (roles[i]));
      lines = bond_text_wrapped (report->text, cr, BOND_FACE_STRONG_TEXT, &report->inks->text, x, y + 25, width - 14, 2,
                                 i == 0 ? block->data : "\u2013");
      bond_text_line (report->text, cr, BOND_FACE_CAPTION, &report->inks->quiet, x, y + 23 + lines * 12.6, width - 10,
                      0, _ ("not signed"));
    }
}

static void
draw_big_title (BondReport *report, cairo_t *cr, const BondBlock *block, double y)
{
  const BondSheet *sheet = &report->sheet;
  double width = sheet->right - sheet->left;

  bond_text_line (report->text, cr, BOND_FACE_TITLE, &report->inks->text, sheet->left, y + 30, width, 0,
                  _ ("Electrical bonding survey"));
  bond_text_line (report->text, cr, BOND_FACE_SUBTITLE, &report->inks->quiet, sheet->left, y + 48, width, 0,
                  block->data);
}

static char *
subtitle (BondReport *report, const BondCreate *create)
{
  g_autofree char *days = bond_report_days (report);
  const char *words[] = { WORD (create->title), WORD (create->registration), days, NULL };

  return join_list (", ", words);
}

void
bond_section_summary (BondReport *report)
{
  static const BondCreate none;
  const BondCreate *create = bond_survey_get_header (report->survey);
  Counts *counts = count_marks (report);
  g_autofree char *result = result_sentence (&report->totals);

  create = create != NULL ? create : &none;
  bond_flow_break (report);
  bond_report_outline (report, 0, _ ("Summary"));
  bond_flow_add (report, 68, "H1", draw_big_title, bond_report_own (report, subtitle (report, create), g_free));
  add_identities (report, create);
  bond_heading (report, _ ("Result"), NULL);
  bond_paragraph (report, BOND_FACE_LEAD, result);
  bond_flow_space (report, 12);
  bond_flow_add (report, MAX ((counts->rows + 1) * COUNT_ROW + 8, DIAGRAM_HEIGHT + 8), "P", draw_overview, counts);
  add_notes (report);
  bond_flow_need (report, SIGNED_HEIGHT);
  bond_flow_space (report, bond_flow_left (report) - SIGNED_HEIGHT);
  bond_flow_add (report, SIGNED_HEIGHT, "P", draw_signed,
                 bond_report_own (report, bond_report_measurers (report), g_free));
}
