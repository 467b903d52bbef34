/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * Figures and words as they stand on paper: value, U and limit of a row in one
 * unit, with as many decimals as the instrument showed and more only until the side
 * of the limit is seen.  Nothing is judged here.
 */
#include "report/report-private.h"

#include <glib/gi18n-lib.h>

#define NBSP "\u00a0"

static const char *const zone_words[] = {
  [BOND_ZONE_WORD_PASS] = N_ ("Pass"),
  [BOND_ZONE_WORD_CONDITIONAL_PASS] = N_ ("Conditional pass"),
  [BOND_ZONE_WORD_CONDITIONAL_FAIL] = N_ ("Conditional fail"),
  [BOND_ZONE_WORD_FAIL] = N_ ("Fail"),
};

static const char *const outcome_words[] = {
  [BOND_OUTCOME_NONE] = N_ ("No reading"),       [BOND_OUTCOME_INCOMPLETE] = N_ ("Not complete"),
  [BOND_OUTCOME_NO_VERDICT] = N_ ("No verdict"), [BOND_OUTCOME_SUSPECT] = N_ ("Suspect"),
  [BOND_OUTCOME_RECORDED] = N_ ("Recorded"),     [BOND_OUTCOME_JUDGED] = NULL,
};

static const BondReading *
first_reading (const BondMeasurement *measurement)
{
  return measurement->readings != NULL && measurement->readings->len > 0
             ? bond_entry_get_reading (g_ptr_array_index (measurement->readings, 0))
             : NULL;
}

BondUnit
bond_figure_unit (BondSurvey *survey, const BondPlaceResult *place, const BondLimitRow *row)
{
  const BondReading *reading = NULL;
  guint i;

  if (row != NULL
      && (row->in_service.upper.relation != BOND_RELATION_NONE || row->in_service.lower.relation != BOND_RELATION_NONE))
    return bond_bounds_unit (&row->in_service);
  for (i = 0; reading == NULL && i < place->history->len; i++)
    {
      const BondHistoryItem *item = g_ptr_array_index (place->history, i);

      if (item->measurement != NULL)
        reading = first_reading (item->measurement);
    }
  return reading != NULL ? reading->unit : BOND_UNIT_MILLIOHM;
}

/* Decimals the display showed, in @unit; what was typed where the range is not known. */
static int
shown_decimals (BondSurvey *survey, const BondReading *reading, BondUnit unit)
{
  const BondInstrument *instrument
      = reading->instrument != NULL ? bond_survey_find_instrument (survey, reading->instrument) : NULL;
  const BondRange *range
      = instrument != NULL && reading->range != NULL ? bond_instrument_find_range (instrument, reading->range) : NULL;

  return range != NULL ? bond_range_decimals (range, unit) : 0;
}

/* The same of a whole measurement, as its display was then. */
static int
measured_decimals (const BondMeasurement *measurement, BondUnit unit)
{
  BondRange shown = { .step = measurement->step };

  return measurement->step > 0 ? bond_range_decimals (&shown, unit) : 0;
}

static char *
qualified (const BondQuantity *quantity, BondUnit unit, int decimals, char mark)
{
  g_autofree char *digits
      = bond_ohm_format_exact (quantity->nohm, unit, quantity->qualifier == BOND_QUALIFIER_NONE ? decimals : 0, mark);
  const char *sign = quantity->qualifier == BOND_QUALIFIER_OVER    ? ">" NBSP
                     : quantity->qualifier == BOND_QUALIFIER_BELOW ? "<" NBSP
                                                                   : "";

  return g_strconcat (sign, digits, NULL);
}

char *
bond_figure_value (BondReport *report, const BondMeasurement *measurement, BondUnit unit)
{
  const BondBounds *bounds;
  int decimals;

  if (measurement == NULL || measurement->mean.count == 0)
    return NULL;
  decimals = measured_decimals (measurement, unit);
  if (measurement->qualifier != BOND_QUALIFIER_NONE)
    {
      BondQuantity quantity = { bond_mean_nohm (&measurement->mean), 0, measurement->qualifier };

      return qualified (&quantity, unit, decimals, report->mark);
    }
  bounds = measurement->row != NULL ? bond_limit_row_bounds (measurement->row, measurement->condition) : NULL;
  return bond_mean_format (&measurement->mean, unit, decimals, bounds, report->mark);
}

char *
bond_figure_reading (BondReport *report, const BondReading *reading, BondUnit unit)
{
  return bond_reading_figure (report->survey, reading, unit, report->mark);
}

char *
bond_reading_figure (BondSurvey *survey, const BondReading *reading, BondUnit unit, char mark)
{
  g_return_val_if_fail (reading != NULL, NULL);
  return qualified (&reading->quantity, unit, shown_decimals (survey, reading, unit), mark);
}

char *
bond_figure_uncertainty (BondReport *report, const BondMeasurement *measurement, BondUnit unit)
{
  if (measurement == NULL || measurement->mean.count == 0 || measurement->qualifier != BOND_QUALIFIER_NONE)
    return NULL;
  if (measurement->outcome != BOND_OUTCOME_JUDGED && measurement->outcome != BOND_OUTCOME_RECORDED)
    return NULL;
  if (!measurement->budget.known)
    return g_strdup ("\u2013");
  return bond_uncertainty_format (measurement->budget.u_nohm, unit, measured_decimals (measurement, unit),
                                  report->mark);
}

char *
bond_figure_limit (BondReport *report, const BondLimitRow *row, BondCondition tier)
{
  if (row == NULL)
    return g_strdup (_ ("no limit"));
  if (row->method == BOND_METHOD_VISUAL || row->method == BOND_METHOD_ABSENT)
    return g_strdup (bond_method_name (row->method));
  return bond_bounds_format (bond_limit_row_bounds (row, tier), report->mark, TRUE);
}

const char *
bond_figure_tier (const BondLimitRow *row, BondCondition tier)
{
  return row != NULL && row->has_strict ? bond_condition_name (tier) : NULL;
}

const char *
bond_figure_verdict (const BondMeasurement *measurement, BondRule rule)
{
  g_return_val_if_fail (measurement != NULL && measurement->outcome <= BOND_OUTCOME_JUDGED, "");

  if (measurement->outcome != BOND_OUTCOME_JUDGED)
    return _ (outcome_words[measurement->outcome]);
  if (rule == BOND_RULE_GUARDED)
    return _ (zone_words[measurement->zone]);
  return measurement->conforms ? _ ("Pass") : _ ("Fail");
}

BondMark
bond_figure_mark (const BondMeasurement *measurement, BondRule rule)
{
  BondPlaceResult alone = { .decides = measurement, .within_u = measurement->within_u };

  switch (measurement->outcome)
    {
    case BOND_OUTCOME_JUDGED:
      alone.state = measurement->conforms ? BOND_STATE_PASS : BOND_STATE_FAIL;
      return bond_mark_for (&alone, rule);
    case BOND_OUTCOME_RECORDED:
      return BOND_MARK_RECORDED;
    case BOND_OUTCOME_SUSPECT:
      return BOND_MARK_SUSPECT;
    default:
      return BOND_MARK_TO_MEASURE;
    }
}

char *
bond_upper_first (const char *string)
{
  gunichar first = g_utf8_get_char (string);
  char letter[8] = { 0 };

  if (*string == '\0')
    return g_strdup ("");
  g_unichar_to_utf8 (g_unichar_toupper (first), letter);
  return g_strconcat (letter, g_utf8_next_char (string), NULL);
}

char *
bond_figure_state (const BondPlaceResult *place, BondRule rule)
{
  gboolean judged = place->state == BOND_STATE_PASS || place->state == BOND_STATE_FAIL;
  const char *word = bond_state_name (place->state);

  if (bond_mark_for (place, rule) == BOND_MARK_VISUAL_REJECT)
    word = bond_mark_name (BOND_MARK_VISUAL_REJECT);
  else if (judged && rule == BOND_RULE_GUARDED && place->decides != NULL
           && place->decides->outcome == BOND_OUTCOME_JUDGED)
    word = bond_figure_verdict (place->decides, rule);
  return bond_upper_first (word);
}

static char *
format_time (const char *iso, const char *format)
{
  g_autoptr (GDateTime) time = iso != NULL ? g_date_time_new_from_iso8601 (iso, NULL) : NULL;

  return time != NULL ? g_date_time_format (time, format) : g_strdup (iso != NULL ? iso : "");
}

char *
bond_figure_time (const char *iso, gboolean with_year)
{
  /* Translators: time of an entry, see g_date_time_format() */
  return format_time (iso, with_year ? _ ("%-d %b %Y, %H:%M") : _ ("%-d %b %H:%M"));
}

char *
bond_figure_days (const char *first, const char *last)
{
  g_autofree char *to = format_time (last, _ ("%-d %B %Y"));
  g_autofree char *from = NULL;

  /* Year, month and day of ISO 8601 are its first 4, 7 and 10 characters. */
  if (strncmp (first, last, 10) == 0)
    return g_steal_pointer (&to);
  from = format_time (first, strncmp (first, last, 7) == 0   ? _ ("%-d")
                             : strncmp (first, last, 4) == 0 ? _ ("%-d %B")
                                                             : _ ("%-d %B %Y"));
  return g_strdup_printf (_ ("%s to %s"), from, to);
}

char *
bond_figure_number (BondReport *report, double value, int decimals)
{
  char text[G_ASCII_DTOSTR_BUF_SIZE], format[8];
  char *point;

  g_snprintf (format, sizeof format, "%%.%df", CLAMP (decimals, 0, 9));
  g_ascii_formatd (text, sizeof text, format, value);
  point = strchr (text, '.');
  if (point != NULL)
    *point = report->mark;
  return g_strdup (text);
}
