/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * With what was measured, against what it was judged, how well it is known, and by
 * which rule: instruments, limit rows with their sources, one uncertainty worked out
 * for each range and class in use, and the decision rule in words.
 */
#include "report/report-private.h"

#include <glib/gi18n-lib.h>

/* --- instruments --- */

static const BondColumn instrument_columns[] = {
  { N_ ("Instrument"), 56, 0, BOND_FACE_STRONG, FALSE }, { N_ ("Kind, make"), 0, 0, BOND_FACE_TABLE, FALSE },
  { N_ ("Serial"), 62, 0, BOND_FACE_TABLE, FALSE },      { N_ ("Valid until"), 58, 0, BOND_FACE_TABLE, FALSE },
  { N_ ("Certificate"), 80, 0, BOND_FACE_TABLE, FALSE }, { N_ ("Readings"), 44, 1, BOND_FACE_TABLE, FALSE },
};

static const char *
kind_name (BondInstrumentKind kind)
{
  static const char *const names[] = {
    [BOND_INSTRUMENT_MILLIOHMMETER] = N_ ("four-terminal milliohm meter"),
    [BOND_INSTRUMENT_MEGOHMMETER] = N_ ("megohmmeter"),
    [BOND_INSTRUMENT_CHECK_RESISTOR] = N_ ("check resistor"),
    [BOND_INSTRUMENT_LEADS] = N_ ("leads"),
  };

  return _ (names[kind]);
}

static guint
count_readings (BondReport *report, const char *instrument)
{
  GPtrArray *entries = bond_survey_get_entries (report->survey);
  guint i, n = 0;

  for (i = 0; i < entries->len; i++)
    {
      const BondEntry *entry = g_ptr_array_index (entries, i);
      const BondReading *reading = bond_entry_is_reading (entry) ? bond_entry_get_reading (entry) : NULL;

      n += reading != NULL
           && (g_strcmp0 (reading->instrument, instrument) == 0 || g_strcmp0 (reading->leads, instrument) == 0);
    }
  return n;
}

static void
add_instruments (BondReport *report)
{
  GPtrArray *instruments = bond_survey_get_instruments (report->survey);
  BondTable *table;
  guint i;

  bond_heading (report, _ ("Instruments"), NULL);
  if (instruments->len == 0)
    {
      bond_paragraph (report, BOND_FACE_TEXT, _ ("No instrument is registered in this survey."));
      return;
    }
  table = bond_table_begin (report, instrument_columns, G_N_ELEMENTS (instrument_columns));
  for (i = 0; i < instruments->len; i++)
    {
      const BondInstrument *instrument = g_ptr_array_index (instruments, i);
      guint n = count_readings (report, instrument->id);
      g_autofree char *count = n > 0 ? g_strdup_printf ("%u", n) : g_strdup ("\u2013");
      g_autofree char *kind = instrument->make != NULL
                                  ? g_strdup_printf ("%s, %s", kind_name (instrument->kind), instrument->make)
                                  : g_strdup (kind_name (instrument->kind));
      const char *cells[] = { instrument->name,
                              kind,
                              instrument->serial,
                              instrument->due != NULL ? instrument->due : _ ("not stated"),
                              instrument->certificate != NULL ? instrument->certificate : _ ("none stated"),
                              count };

      bond_table_row (table, -1, cells);
    }
  bond_table_end (table);
}

/* --- limits --- */

static const BondColumn limit_columns[] = {
  { N_ ("Row"), 42, 0, BOND_FACE_STRONG, FALSE },       { N_ ("Covers"), 0, 0, BOND_FACE_TABLE, FALSE },
  { N_ ("In service"), 62, 0, BOND_FACE_TABLE, FALSE }, { N_ ("New, opened, reworked"), 84, 0, BOND_FACE_TABLE, FALSE },
  { N_ ("Source"), 162, 0, BOND_FACE_TABLE, FALSE },    { N_ ("Points"), 30, 1, BOND_FACE_TABLE, FALSE },
};

static char *
row_source (const BondLimitRow *row)
{
  GString *text = g_string_new (row->document != NULL ? row->document : _ ("no source stated"));

  if (row->revision != NULL)
    g_string_append_printf (text, ", %s", row->revision);
  if (row->paragraph != NULL)
    g_string_append_printf (text, ", %s", row->paragraph);
  if (row->checked_by != NULL)
    g_string_append_printf (text, _ (", checked by %s"), row->checked_by);
  if (!row->verified)
    g_string_append_printf (text, "; %s", _ ("unverified"));
  return g_string_free (text, FALSE);
}

static void
add_limit_row (BondReport *report, BondTable *table, const BondLimitRow *row, guint n)
{
  g_autofree char *in_service = bond_figure_limit (report, row, BOND_CONDITION_UNDISTURBED);
  g_autofree char *strict
      = row->has_strict ? bond_figure_limit (report, row, BOND_CONDITION_REWORKED) : g_strdup (_ ("the same"));
  g_autofree char *source = row_source (row), *count = g_strdup_printf ("%u", n);
  const char *cells[] = { row->code, row->covers, in_service, strict, source, count };

  bond_table_row (table, -1, cells);
}

static int
compare_codes (gconstpointer a, gconstpointer b)
{
  return g_strcmp0 ((*(BondLimitRow *const *)a)->code, (*(BondLimitRow *const *)b)->code);
}

static void
add_rows_of (BondPoint *point, GPtrArray *rows, GHashTable *counts, GHashTable *sets)
{
  GPtrArray *named = bond_point_get_rows (point);
  guint i;

  for (i = 0; i < named->len; i++)
    {
      const BondNamedRow *one = g_ptr_array_index (named, i);
      guint count = GPOINTER_TO_UINT (g_hash_table_lookup (counts, one->row));

      if (one->row == NULL)
        continue;
      if (count == 0)
        g_ptr_array_add (rows, one->row);
      g_hash_table_insert (counts, one->row, GUINT_TO_POINTER (count + 1));
      g_hash_table_insert (sets, one->row, one->set);
    }
}

/* Limit rows in use by code; @counts: row → number of points, @sets: row → set. */
static GPtrArray *
rows_in_use (BondReport *report, GHashTable *counts, GHashTable *sets)
{
  GPtrArray *rows = g_ptr_array_new ();
  guint i, n = g_list_model_get_n_items (G_LIST_MODEL (report->survey));

  for (i = 0; i < n; i++)
    {
      g_autoptr (BondPoint) point = g_list_model_get_item (G_LIST_MODEL (report->survey), i);

      add_rows_of (point, rows, counts, sets);
    }
  g_ptr_array_sort (rows, compare_codes);
  return rows;
}

static void
add_set (BondReport *report, const BondLimitSet *set, GPtrArray *rows, GHashTable *counts, GHashTable *sets)
{
  BondTable *table = NULL;
  g_autofree char *title = set != NULL ? g_strdup_printf (_ ("Limits: %s, revision %d"), set->name, set->revision)
                                       : g_strdup (_ ("Limits of single points"));
  guint i;

  for (i = 0; i < rows->len; i++)
    {
      BondLimitRow *row = g_ptr_array_index (rows, i);

      if (g_hash_table_lookup (sets, row) != (gpointer)set)
        continue;
      if (table == NULL)
        {
          bond_heading (report, title, set != NULL && set->invented ? _ ("invented example data") : NULL);
          table = bond_table_begin (report, limit_columns, G_N_ELEMENTS (limit_columns));
        }
      add_limit_row (report, table, row, GPOINTER_TO_UINT (g_hash_table_lookup (counts, row)));
    }
  if (table == NULL)
    return;
  bond_table_end (table);
  if (set != NULL && set->note != NULL)
    {
      bond_flow_space (report, 4);
      bond_paragraph (report, BOND_FACE_CAPTION, set->note);
    }
}

static void
add_limits (BondReport *report)
{
  g_autoptr (GHashTable) counts = g_hash_table_new (NULL, NULL), sets = g_hash_table_new (NULL, NULL);
  g_autoptr (GPtrArray) rows = rows_in_use (report, counts, sets);
  GPtrArray *all = bond_survey_get_limit_sets (report->survey);
  guint i;

  for (i = 0; i < all->len; i++)
    add_set (report, g_ptr_array_index (all, i), rows, counts, sets);
  add_set (report, NULL, rows, counts, sets);
}

/* --- uncertainty --- */

static const BondColumn budget_columns[] = {
  { N_ ("Part"), 0, 0, BOND_FACE_TABLE, FALSE },
  { N_ ("As stated"), 76, 1, BOND_FACE_TABLE, FALSE },
  { N_ ("Divisor"), 50, 1, BOND_FACE_TABLE, TRUE },
  { N_ ("u"), 76, 1, BOND_FACE_TABLE, FALSE },
  { N_ ("Degrees of freedom"), 76, 1, BOND_FACE_TABLE, TRUE },
};

static void
add_budget_lines (BondReport *report, BondTable *table, const BondBudget *budget, BondUnit unit)
{
  int i;

  for (i = 0; i < budget->n_lines; i++)
    {
      const BondBudgetLine *line = &budget->line[i];
      g_autofree char *stated = bond_budget_format_part (line->half_width, unit, report->mark, TRUE),
                      *u = bond_budget_format_part (line->u, unit, report->mark, TRUE);
      g_autofree char *divisor = bond_budget_format_divisor (line->divisor, report->mark),
                      *dof = bond_budget_format_dof (line->dof, report->mark);
      const char *cells[] = { bond_budget_source_name (line->source), stated, divisor, u, dof };

      bond_table_row (table, -1, cells);
    }
}

static void
add_budget_result (BondReport *report, BondTable *table, const BondMeasurement *measurement, BondUnit unit)
{
  const BondBudget *budget = &measurement->budget;
  g_autofree char *combined = bond_budget_format_part (budget->u_c, unit, report->mark, TRUE);
  g_autofree char *dof = bond_budget_format_dof (budget->dof_eff, report->mark);
  g_autofree char *k = bond_figure_number (report, budget->k, 2);
  g_autofree char *digits = bond_figure_uncertainty (report, measurement, unit);
  g_autofree char *expanded = g_strdup_printf ("%s\u00a0%s", digits, bond_unit_symbol (unit));
  g_autofree char *title = g_strdup_printf (_ ("Expanded uncertainty U, k = %s, rounded up"), k);
  const char *sum[] = { _ ("Combined, root sum of squares"), NULL, NULL, combined, dof };
  const char *result[] = { title, NULL, NULL, expanded, NULL };

  bond_table_row (table, -1, sum);
  bond_table_total (table, result);
  if (!budget->placing_included)
    {
      bond_flow_space (report, 3);
      bond_paragraph (report, BOND_FACE_CAPTION, _ ("Probe placing not included."));
    }
}

static const BondReading *
measurement_reading (const BondMeasurement *measurement)
{
  return measurement->readings->len > 0 ? bond_entry_get_reading (g_ptr_array_index (measurement->readings, 0)) : NULL;
}

static char *
budget_note (BondReport *report, BondPoint *point, const BondMeasurement *measurement, BondUnit unit)
{
  const BondReading *reading = measurement_reading (measurement);
  const BondInstrument *instrument
      = bond_survey_find_instrument_at (report->survey, reading->instrument, measurement->readings->pdata[0]);
  const BondRange *range = instrument != NULL ? bond_instrument_find_range (instrument, reading->range) : NULL;
  g_autofree char *value = bond_figure_value (report, measurement, unit);
  g_autofree char *end = NULL;

  if (range == NULL)
    return g_strdup_printf (_ ("worked for %s: %s\u00a0%s"), bond_point_get_number (point), value,
                            bond_unit_symbol (unit));
  {
    BondUnit range_unit = bond_ohm_best_unit (range->end);

    end = bond_ohm_format_exact (range->end, range_unit, 0, report->mark);
    return g_strdup_printf (_ ("worked for %s: %s\u00a0%s on the %s\u00a0%s range of %s"),
                            bond_point_get_number (point), value, bond_unit_symbol (unit), end,
                            bond_unit_symbol (range_unit), instrument->name);
  }
}

static void
add_budget (BondReport *report, BondPoint *point, const BondMeasurement *measurement)
{
  BondUnit unit = bond_figure_unit (report->survey, bond_point_get_worst (point), bond_point_get_row (point));
  g_autofree char *note = budget_note (report, point, measurement, unit);
  g_autofree char *title
      = g_strdup_printf (_ ("Uncertainty, class %c"), bond_class_letter (bond_point_get_spec (point)->klass));

  bond_heading (report, title, note);
  if (!measurement->budget.known)
    {
      bond_paragraph (report, BOND_FACE_TEXT, _ ("No accuracy is known for this range: U is not known."));
      return;
    }
  {
    BondTable *table = bond_table_begin (report, budget_columns, G_N_ELEMENTS (budget_columns));

    bond_flow_need (report, 0);
    add_budget_lines (report, table, &measurement->budget, unit);
    add_budget_result (report, table, measurement, unit);
    bond_table_end (table);
  }
}

/* One worked budget for each instrument, range and class in use. */
static void
add_budgets (BondReport *report)
{
  g_autoptr (GHashTable) done = g_hash_table_new_full (g_str_hash, g_str_equal, g_free, NULL);
  guint i, n = g_list_model_get_n_items (G_LIST_MODEL (report->survey));

  for (i = 0; i < n; i++)
    {
      g_autoptr (BondPoint) point = g_list_model_get_item (G_LIST_MODEL (report->survey), i);
      const BondMeasurement *measurement = bond_point_get_worst (point)->decides;
      const BondReading *reading = measurement != NULL ? measurement_reading (measurement) : NULL;
      char *key;

      if (reading == NULL || reading->instrument == NULL || reading->range == NULL || measurement->mean.count == 0
          || measurement->qualifier != BOND_QUALIFIER_NONE)
        continue;
      key = g_strdup_printf ("%s/%s/%d", reading->instrument, reading->range, bond_point_get_spec (point)->klass);
      if (g_hash_table_add (done, key))
        add_budget (report, point, measurement);
    }
}

/* --- decision rule --- */

static const char *const rule_text[] = {
  [BOND_RULE_SIMPLE] = N_ (
      "Simple acceptance: a result conforms when it meets its limit in the relation printed beside the limit. The "
      "uncertainty is not taken off the limit. Where a result lies within its expanded uncertainty U of the limit the "
      "report says so: at the limit itself a verdict may be wrong in one case of two. The risk shrinks with the "
      "distance from the limit."),
  [BOND_RULE_GUARDED]
  = N_ ("Guarded acceptance: the guard band is as wide as the expanded uncertainty, w = U, and only a result that is "
        "better than its limit by w conforms (pass). Conditional pass, conditional fail and fail do not conform (words "
        "of ILAC-G8:09/2019). The risk of a wrong pass is at most about 2.5 %."),
};

static void
draw_rule_figure (BondReport *report, cairo_t *cr, const BondBlock *block, double y)
{
  static const BondMark marks[] = { BOND_MARK_PASS, BOND_MARK_WITHIN_PASS, BOND_MARK_WITHIN_FAIL, BOND_MARK_FAIL };
  static const double at[] = { 0.23, 0.48, 0.64, 0.85 };
  gboolean guarded = bond_survey_get_rule (report->survey) == BOND_RULE_GUARDED;
  double x = report->sheet.left + 20, width = report->sheet.right - report->sheet.left - 40, limit = x + 0.56 * width;
  double conform = guarded ? x + 0.46 * width : limit;
  int i;

  cairo_set_source_rgb (cr, 0.86, 0.86, 0.86);
  cairo_rectangle (cr, x, y + 22, conform - x, 14);
  cairo_fill (cr);
  cairo_set_source_rgb (cr, 0, 0, 0);
  cairo_set_line_width (cr, 0.6);
  cairo_rectangle (cr, x, y + 22, width, 14);
  cairo_rectangle (cr, x + 0.46 * width, y + 22, 0.2 * width, 14);
  cairo_stroke (cr);
  cairo_rectangle (cr, limit - 0.5, y + 16, 1, 26);
  cairo_fill (cr);
  bond_text_line (report->text, cr, BOND_FACE_STRONG, &report->inks->text, limit - 40, y + 12, 80, 0.5, _ ("limit"));
  bond_text_line (report->text, cr, BOND_FACE_CAPTION, &report->inks->quiet, x + 0.46 * width - 30, y + 19, 60, 0.5,
                  "\u2212\u00a0U");
  bond_text_line (report->text, cr, BOND_FACE_CAPTION, &report->inks->quiet, x + 0.66 * width - 30, y + 19, 60, 0.5,
                  "+\u00a0U");
  bond_text_line (report->text, cr, BOND_FACE_CAPTION, &report->inks->text, x + 4, y + 31.5, conform - x - 8, 0,
                  _ ("conforms"));
  for (i = 0; i < 4; i++)
    {
      bond_mark_draw (cr, marks[i], x + at[i] * width, y + 49, 8, report->inks);
      bond_text_line (report->text, cr, BOND_FACE_CAPTION, &report->inks->text, x + at[i] * width - 60, y + 64, 120,
                      0.5, i == 0 || i == 3 ? bond_mark_name (marks[i]) : _ ("within U"));
    }
  (void)block;
}

static void
add_rule (BondReport *report)
{
  BondRule rule = bond_survey_get_rule (report->survey);

  bond_flow_need (report, 190);
  bond_heading (report, _ ("Decision rule"), _ ("fixed when the survey was made"));
  bond_paragraph (report, BOND_FACE_TEXT, _ (rule_text[rule]));
  bond_flow_add (report, 74, "Figure", draw_rule_figure, NULL);
  bond_paragraph (
      report, BOND_FACE_TEXT,
      _ ("A statement that a point conforms, or does not, holds for the result and the limit printed in its "
         "row under Readings, and for the rule above; ISO/IEC 17025:2017, 7.8.6, asks a report to name all "
         "three. U is the expanded uncertainty: the combined standard uncertainty times k, with k = 2 from "
         "50 effective degrees of freedom on and otherwise Student's t for 95.45 %."));
}

void
bond_section_instruments (BondReport *report)
{
  bond_section_begin (report, _ ("Instruments, limits and decision rule"), NULL);
  add_instruments (report);
  add_limits (report);
  add_rule (report);
  add_budgets (report);
}
