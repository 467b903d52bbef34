/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * The wording of results, so that no two places on the screen call one thing by
 * two names.  Judging is core's; this file only picks words and decimals.
 */
#include "gui/words.h"
#include "core/parallel.h"
#include <glib/gi18n-lib.h>

#define NBSP "\302\240"

static const char *const zone_words[] = { N_ ("pass"), N_ ("conditional pass"), N_ ("conditional fail"), N_ ("fail") };

/* One row a condition: what the limit is called while it is in force. */
static const char *const tier_words[]
    = { N_ ("in service"), N_ ("after opening"), N_ ("new or replaced"), N_ ("after rework") };

char *
bond_words_ohm (BondOhm nohm, BondUnit unit, int decimals)
{
  g_autofree char *digits = bond_ohm_format (nohm, unit, decimals, bond_locale_mark ());

  return g_strconcat (digits, NBSP, bond_unit_symbol (unit), NULL);
}

char *
bond_words_quantity (const BondQuantity *quantity, BondUnit unit, int decimals)
{
  static const char *const prefix[] = { "", ">" NBSP, "<" NBSP };
  g_autofree char *text = NULL;

  g_return_val_if_fail (quantity != NULL, NULL);
  text = bond_ohm_format_exact (quantity->nohm, unit, quantity->qualifier == BOND_QUALIFIER_NONE ? decimals : 0,
                                bond_locale_mark ());
  return g_strconcat (prefix[quantity->qualifier], text, NBSP, bond_unit_symbol (unit), NULL);
}

int
bond_words_decimals (BondSurvey *survey, const BondMeasurement *measurement, BondUnit unit)
{
  const BondReading *reading = NULL;
  const BondInstrument *instrument = NULL;
  const BondRange *range = NULL;

  if (measurement->readings->len > 0)
    reading = bond_entry_get_reading (g_ptr_array_index (measurement->readings, 0));
  if (reading != NULL && reading->instrument != NULL)
    instrument = bond_survey_find_instrument_at (survey, reading->instrument, measurement->readings->pdata[0]);
  if (instrument != NULL && reading->range != NULL)
    range = bond_instrument_find_range (instrument, reading->range);
  return range != NULL ? bond_range_decimals (range, unit) : 2;
}

char *
bond_words_result (BondSurvey *survey, const BondMeasurement *measurement, BondUnit unit, gboolean with_unit)
{
  static const char *const prefix[] = { "", ">" NBSP, "<" NBSP };
  const BondBounds *bounds;
  g_autofree char *digits = NULL;
  int decimals;

  g_return_val_if_fail (measurement != NULL, NULL);
  bounds = measurement->row != NULL ? bond_limit_row_bounds (measurement->row, measurement->condition) : NULL;
  decimals = measurement->qualifier == BOND_QUALIFIER_NONE ? bond_words_decimals (survey, measurement, unit) : 0;
  if (measurement->mean.count == 0)
    return g_strdup ("–"); /* no value: no unit either */
  if (measurement->qualifier != BOND_QUALIFIER_NONE)
    digits = bond_ohm_format_exact (bond_mean_nohm (&measurement->mean), unit, 0, bond_locale_mark ());
  else
    digits = bond_mean_format (&measurement->mean, unit, decimals, bounds, bond_locale_mark ());
  return g_strconcat (prefix[measurement->qualifier], digits, with_unit ? NBSP : NULL, bond_unit_symbol (unit), NULL);
}

BondUnit
bond_words_unit (const BondPlaceResult *place, BondUnit fallback)
{
  return place != NULL && place->bounds != NULL ? bond_bounds_unit (place->bounds) : fallback;
}

static const char *
judged_word (const BondPlaceResult *place, const BondMeasurement *last, BondRule rule)
{
  if (place->state == BOND_STATE_PASS_AFTER_REWORK || place->state == BOND_STATE_NOT_CONFIRMED)
    return bond_state_name (place->state);
  if (place->state == BOND_STATE_FAIL && last->conforms)
    return _ ("fail stands");
  if (rule == BOND_RULE_GUARDED)
    return _ (zone_words[last->zone]);
  return last->conforms ? _ ("pass") : _ ("fail");
}

char *
bond_words_verdict (const BondPlaceResult *place, BondRule rule)
{
  const BondMeasurement *last = place->last;

  if (last == NULL)
    return g_strdup (bond_state_name (place->state));
  switch (last->outcome)
    {
    case BOND_OUTCOME_NONE:
      return g_strdup (bond_state_name (place->state));
    case BOND_OUTCOME_INCOMPLETE:
      return g_strdup (last->reason == BOND_REASON_REVERSE_MISSING ? _ ("forward") : _ ("one of several"));
    case BOND_OUTCOME_NO_VERDICT:
      return g_strdup (_ ("no verdict"));
    case BOND_OUTCOME_SUSPECT:
      return g_strdup (_ ("suspect"));
    case BOND_OUTCOME_RECORDED:
      return g_strdup (_ ("no limit"));
    case BOND_OUTCOME_JUDGED:
    default:
      if (last->qualifier == BOND_QUALIFIER_OVER && !last->conforms)
        return g_strdup (_ ("fail, over range"));
      return g_strdup (judged_word (place, last, rule));
    }
}

char *
bond_words_second_line (const BondPlaceResult *place)
{
  const BondMeasurement *last = place->last;

  if (last == NULL || last->outcome == BOND_OUTCOME_NONE)
    return NULL;
  if (last->reason != BOND_REASON_NONE && last->reason != BOND_REASON_REVERSE_MISSING)
    return bond_words_sentence (bond_reason_name (last->reason));
  if (last->caution != BOND_REASON_NONE)
    return bond_words_sentence (bond_reason_name (last->caution));
  if (last->outcome == BOND_OUTCOME_JUDGED && last->within_u)
    return g_strdup (_ ("within U of the limit"));
  return NULL;
}

const char *
bond_words_tier (BondCondition tier)
{
  g_return_val_if_fail ((gsize)tier < G_N_ELEMENTS (tier_words), "");
  return _ (tier_words[tier]);
}

/* Re-seating is what follows a fail; after a pass it was only measured again. */
const char *
bond_words_phase (BondPhase phase, gboolean failed)
{
  static const char *const words[] = { N_ ("as found"), N_ ("re-seated"), N_ ("as left") };

  g_return_val_if_fail ((gsize)phase < G_N_ELEMENTS (words), "");
  return phase == BOND_PHASE_RESEATED && !failed ? _ ("again") : _ (words[phase]);
}

const char *
bond_words_state (BondPoint *point)
{
  BondState state = bond_point_get_state (point);
  const BondPlaceResult *worst = bond_point_get_worst (point);

  if (state == BOND_STATE_TO_MEASURE)
    return "";
  if (worst != NULL && worst->freed && bond_state_conforms (state))
    return _ ("end freed, opening not recorded");
  if (state == BOND_STATE_PASS)
    return worst != NULL && worst->within_u ? _ ("within U") : "";
  if (worst != NULL && worst->visual_reject && state == BOND_STATE_FAIL)
    return bond_visual_name (worst->visual);
  if (state == BOND_STATE_FAIL && worst != NULL && worst->held)
    return _ ("fail, re-seat not finished");
  if (state == BOND_STATE_FAIL && worst != NULL && worst->intermittent)
    return _ ("fail, intermittent");
  return bond_state_name (state);
}

static void
join (GString *text, const char *more)
{
  if (more == NULL || *more == '\0')
    return;
  if (text->len > 0)
    g_string_append (text, ", ");
  g_string_append (text, more);
}

char *
bond_words_source (const BondLimitRow *row, const BondLimitSet *set)
{
  GString *text = g_string_new (NULL);

  if (row != NULL)
    {
      join (text, row->document != NULL ? row->document : (set != NULL ? set->name : NULL));
      join (text, row->revision);
      join (text, row->paragraph);
      if (!row->verified)
        join (text, _ ("unverified"));
    }
  return g_string_free (text, FALSE);
}

char *
bond_words_where (BondSurvey *survey, const BondPointSpec *spec)
{
  const BondAirframe *airframe = bond_survey_get_airframe (survey);
  const BondZone *zone = airframe != NULL ? bond_airframe_find_zone (airframe, spec->zone) : NULL;
  const BondCoordinate *coordinate[] = { &spec->sta, &spec->bl, &spec->wl };
  GString *text = g_string_new (zone != NULL ? zone->name : spec->zone);

  for (int axis = BOND_AXIS_STA; axis <= BOND_AXIS_WL; axis++)
    {
      g_autofree char *word = bond_coordinate_format (axis, coordinate[axis], bond_locale_mark ());

      join (text, word);
    }
  return g_string_free (text, FALSE);
}

char *
bond_words_sentence (const char *text)
{
  g_autofree char *first = NULL;

  g_return_val_if_fail (text != NULL, NULL);
  if (*text == '\0')
    return g_strdup ("");
  first = g_utf8_strup (text, g_utf8_next_char (text) - text);
  return g_strconcat (first, g_utf8_next_char (text), NULL);
}

char *
bond_words_clock (const char *iso)
{
  g_autoptr (GDateTime) time = iso != NULL ? g_date_time_new_from_iso8601 (iso, NULL) : NULL;

  return time != NULL ? g_date_time_format (time, "%H:%M") : g_strdup ("");
}

char *
bond_words_when (BondSurvey *survey, const char *iso)
{
  g_autofree char *now = bond_source_now (bond_survey_get_source (survey));
  g_autoptr (GDateTime) time = iso != NULL ? g_date_time_new_from_iso8601 (iso, NULL) : NULL;
  gsize day = strlen ("2026-11-24");

  if (time == NULL)
    return g_strdup ("");
  if (strncmp (iso, now, day) == 0)
    return bond_words_clock (iso);
  return g_date_time_format (time, strncmp (iso, now, 4) == 0 ? "%-d %b %H:%M" : "%-d %b %Y %H:%M");
}

char *
bond_words_offset (const char *iso)
{
  g_autoptr (GDateTime) time = iso != NULL ? g_date_time_new_from_iso8601 (iso, NULL) : NULL;
  gint64 minutes = time != NULL ? g_date_time_get_utc_offset (time) / G_TIME_SPAN_MINUTE : 0;
  gint64 hours = ABS (minutes) / 60, rest = ABS (minutes) % 60;
  const char *sign = minutes < 0 ? "−" : "+";

  if (time == NULL)
    return NULL;
  if (minutes == 0)
    return g_strdup ("UTC");
  if (rest == 0)
    return g_strdup_printf ("UTC%s%" G_GINT64_FORMAT, sign, hours);
  return g_strdup_printf ("UTC%s%" G_GINT64_FORMAT ":%02" G_GINT64_FORMAT, sign, hours, rest);
}

char *
bond_words_date (const char *iso)
{
  g_autofree char *midnight = NULL;
  g_autoptr (GDateTime) time = NULL;

  if (iso == NULL)
    return g_strdup ("");
  midnight = strchr (iso, 'T') != NULL ? g_strdup (iso) : g_strconcat (iso, "T00:00:00Z", NULL);
  time = g_date_time_new_from_iso8601 (midnight, NULL);
  return time != NULL ? g_date_time_format (time, "%-d %b %Y") : g_strdup (iso);
}

/* How many legs there are is nowhere recorded: said for the fewest a strap of legs has. */
#define FEWEST_LEGS 2

char *
bond_words_strap (BondSurvey *survey, const BondPlaceResult *place)
{
  BondUnit unit;

  g_return_val_if_fail (place != NULL, NULL);
  if (place->visual != BOND_VISUAL_LEG_BROKEN || place->decides == NULL)
    return NULL;
  unit = bond_words_unit (place, BOND_UNIT_MILLIOHM);
  return bond_strap_note (place, FEWEST_LEGS, unit, bond_words_decimals (survey, place->decides, unit),
                          bond_locale_mark ());
}
