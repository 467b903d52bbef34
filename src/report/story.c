/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * What several sections ask about a point or the survey: whether there is anything
 * to say beyond a plain pass, its first and last value, who measured and when, and
 * the little scale on which the limit always stands at one place.
 */
#include "report/report-private.h"

#define SCALE_END 1500.0 /* permille of the limit */

gboolean
bond_report_is_plain (BondReport *report, BondPoint *point)
{
  switch (bond_mark_for (bond_point_get_worst (point), bond_survey_get_rule (report->survey)))
    {
    case BOND_MARK_PASS:
    case BOND_MARK_TO_MEASURE:
    case BOND_MARK_NOT_FITTED:
    case BOND_MARK_NOT_IN_SAMPLE:
      return TRUE;
    default:
      return FALSE;
    }
}

char *
bond_report_first_last (BondReport *report, BondPoint *point)
{
  const BondPlaceResult *worst = bond_point_get_worst (point);
  BondUnit unit = bond_figure_unit (report->survey, worst, worst->row);
  const BondMeasurement *result = worst->decides != NULL ? worst->decides : worst->last;
  g_autofree char *first = worst->found != result ? bond_figure_value (report, worst->found, unit) : NULL;
  g_autofree char *last = bond_figure_value (report, result, unit);

  if (last == NULL)
    return NULL;
  if (first == NULL)
    return g_strdup_printf ("%s\u00a0%s", last, bond_unit_symbol (unit));
  return g_strdup_printf ("%s \u2192 %s\u00a0%s", first, last, bond_unit_symbol (unit));
}

char *
bond_report_days (BondReport *report)
{
  GPtrArray *entries = bond_survey_get_entries (report->survey);
  const char *first = NULL, *last = NULL;
  guint i;

  for (i = 0; i < entries->len; i++)
    {
      const BondEntry *entry = g_ptr_array_index (entries, i);

      if (!bond_entry_is_reading (entry))
        continue;
      first = first != NULL ? first : entry->at;
      last = entry->at;
    }
  return first != NULL ? bond_figure_days (first, last) : g_strdup ("");
}

char *
bond_report_measurers (BondReport *report)
{
  GPtrArray *entries = bond_survey_get_entries (report->survey);
  g_autoptr (GHashTable) known = g_hash_table_new (g_str_hash, g_str_equal);
  GString *text = g_string_new (NULL);
  guint i;

  for (i = 0; i < entries->len; i++)
    {
      const BondEntry *entry = g_ptr_array_index (entries, i);

      if (!bond_entry_is_reading (entry) || entry->by == NULL || !g_hash_table_add (known, entry->by))
        continue;
      g_string_append_printf (text, "%s%s", text->len > 0 ? ", " : "",
                              bond_survey_person_name (report->survey, entry->by));
    }
  if (text->len == 0)
    g_string_append (text, "\u2013");
  return g_string_free (text, FALSE);
}

/* A chevron beyond the end: the value does not fit on the scale. */
static void
draw_beyond (cairo_t *cr, double x, double y)
{
  cairo_move_to (cr, x - 2.2, y - 4.6);
  cairo_line_to (cr, x, y - 2.6);
  cairo_line_to (cr, x - 2.2, y - 0.6);
  cairo_set_line_width (cr, 0.8);
  cairo_stroke (cr);
}

void
bond_limit_scale_draw (cairo_t *cr, double x, double y, double width, const gint64 *permille, int n)
{
  int i;

  if (permille[0] < 0)
    return;
  bond_rule (cr, x, x + width, y, 0.3, 0.6);
  bond_rule (cr, x + width / 1.5 - 0.4, x + width / 1.5 + 0.4, y - 3.4, 8.4, 0);
  for (i = n - 1; i >= 0; i--)
    {
      double grey = i == 0 ? 0 : 0.6, at = x + width * MIN ((double)permille[i], SCALE_END) / SCALE_END;

      if (permille[i] < 0)
        continue;
      cairo_set_source_rgb (cr, grey, grey, grey);
      if ((double)permille[i] > SCALE_END)
        draw_beyond (cr, at, y);
      else
        {
          cairo_rectangle (cr, at - 0.9, y - 5, 1.8, 5);
          cairo_fill (cr);
        }
    }
}
