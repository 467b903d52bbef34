/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * A permit that has ended and one that was never given ask for different words, so
 * open permits are looked through by hand where core only answers yes or no.
 */
#include "library/permits.h"
#include <glib/gi18n-lib.h>
#include <math.h>
#include <string.h>

#define HALF_DAY (12 * G_TIME_SPAN_HOUR)

void
bond_leave_status_clear (BondLeaveStatus *status)
{
  g_free (status->words);
  memset (status, 0, sizeof *status);
}

gboolean
bond_leave_bars (BondLeave leave)
{
  return leave == BOND_LEAVE_MISSING || leave == BOND_LEAVE_OVER || leave == BOND_LEAVE_METER;
}

int
bond_minutes_between (const char *from, const char *to)
{
  g_autoptr (GDateTime) start = from != NULL ? g_date_time_new_from_iso8601 (from, NULL) : NULL;
  g_autoptr (GDateTime) end = to != NULL ? g_date_time_new_from_iso8601 (to, NULL) : NULL;

  if (start == NULL || end == NULL)
    return 0;
  return (int)floor ((double)g_date_time_difference (end, start) / G_TIME_SPAN_MINUTE);
}

char *
bond_words_minutes (int minutes)
{
  if (minutes < 60)
    return g_strdup_printf (_ ("%d min"), minutes);
  if (minutes % 60 == 0)
    return g_strdup_printf (_ ("%d h"), minutes / 60);
  return g_strdup_printf (_ ("%d h %d min"), minutes / 60, minutes % 60);
}

/* "14:30", "1430" and "9.05" are all typed at a bench. */
static gboolean
parse_clock (const char *text, int *hour, int *minute)
{
  g_autoptr (GRegex) regex = g_regex_new ("^\\s*(\\d{1,2})[:.h]?(\\d{2})\\s*$", 0, 0, NULL);
  g_autoptr (GMatchInfo) match = NULL;
  g_autofree char *hours = NULL;
  g_autofree char *minutes = NULL;

  if (!g_regex_match (regex, text, 0, &match))
    return FALSE;
  hours = g_match_info_fetch (match, 1);
  minutes = g_match_info_fetch (match, 2);
  *hour = (int)g_ascii_strtoll (hours, NULL, 10);
  *minute = (int)g_ascii_strtoll (minutes, NULL, 10);
  return *hour < 24 && *minute < 60;
}

/* A clock means the day on which it lies within half a day of now: a shift may run past midnight. */
static int
day_shift (GDateTime *time, GDateTime *now, gboolean is_end)
{
  GTimeSpan ahead = g_date_time_difference (time, now);

  if (is_end && ahead < -HALF_DAY)
    return 1;
  return !is_end && ahead > HALF_DAY ? -1 : 0;
}

char *
bond_time_of_day (const char *text, const char *now, gboolean is_end)
{
  g_autoptr (GDateTime) base = NULL;
  g_autoptr (GDateTime) time = NULL;
  g_autoptr (GDateTime) shifted = NULL;
  int hour, minute, year, month, day;

  g_return_val_if_fail (text != NULL && now != NULL, NULL);
  base = g_date_time_new_from_iso8601 (now, NULL);
  if (base == NULL || !parse_clock (text, &hour, &minute))
    return NULL;
  g_date_time_get_ymd (base, &year, &month, &day);
  time = g_date_time_new (g_date_time_get_timezone (base), year, month, day, hour, minute, 0);
  shifted = time != NULL ? g_date_time_add_days (time, day_shift (time, base, is_end)) : NULL;
  return shifted != NULL ? g_date_time_format (shifted, "%Y-%m-%dT%H:%M:%S%:z") : NULL;
}

GPtrArray *
bond_permit_approved (BondSurvey *survey)
{
  GPtrArray *approved = g_ptr_array_new ();
  GPtrArray *all = bond_survey_get_instruments (survey);

  for (guint i = 0; i < all->len; i++)
    {
      BondInstrument *instrument = g_ptr_array_index (all, i);
      gboolean measures
          = instrument->kind == BOND_INSTRUMENT_MILLIOHMMETER || instrument->kind == BOND_INSTRUMENT_MEGOHMMETER;

      if (measures && instrument->vapour_approved)
        g_ptr_array_add (approved, instrument);
    }
  return approved;
}

char *
bond_permit_name (const BondPermit *permit)
{
  if (permit->number != NULL)
    return g_strdup_printf (_ ("Permit %s"), permit->number);
  return g_strdup_printf (_ ("Authority of %s"), permit->authority != NULL ? permit->authority : _ ("nobody named"));
}

/* The newest open permit for the zone, whether or not its time is over: each is asked about at a time of its own. */
static BondEntry *
newest_permit (BondSurvey *survey, BondHazard hazard, const char *zone, const char *now)
{
  GPtrArray *permits = bond_survey_get_permits (survey);

  for (guint i = permits->len; i-- > 0;)
    {
      const BondPermit *permit = &((BondEntry *)g_ptr_array_index (permits, i))->permit;
      const char *then = permit->gas_at != NULL ? permit->gas_at : permit->valid_until;
      BondEntry *found
          = permit->hazard == hazard ? bond_survey_permit_for (survey, hazard, zone, then != NULL ? then : now) : NULL;

      if (found != NULL)
        return found;
    }
  return NULL;
}

BondEntry *
bond_permit_open_in (BondSurvey *survey, const char *zone, const char *now)
{
  BondEntry *found = NULL;

  g_return_val_if_fail (BOND_IS_SURVEY (survey) && zone != NULL && now != NULL, NULL);
  for (int i = 0; i < BOND_N_HAZARDS && found == NULL; i++)
    found = newest_permit (survey, 1 << i, zone, now);
  return found;
}

/* "10 A on range 30m" of the pinned range; NULL where it is not known. */
static char *
current_words (BondSurvey *survey, const char *instrument, const char *range)
{
  const BondInstrument *meter = instrument != NULL ? bond_survey_find_instrument (survey, instrument) : NULL;
  const BondRange *pinned = meter != NULL && range != NULL ? bond_instrument_find_range (meter, range) : NULL;

  if (pinned == NULL || pinned->microampere <= 0)
    return NULL;
  if (pinned->microampere % 1000000 == 0)
    return g_strdup_printf (_ ("%d A"), (int)(pinned->microampere / 1000000));
  return g_strdup_printf (_ ("%d mA"), (int)(pinned->microampere / 1000));
}

static char *
missing_words (BondSurvey *survey, BondPoint *point, BondHazard hazard, const char *instrument, const char *range)
{
  g_autofree char *current = NULL;

  if (hazard == BOND_HAZARD_FUEL_VAPOUR)
    return g_strdup_printf (_ ("%s may hold fuel vapour. Readings there need a permit."),
                            bond_point_get_spec (point)->zone);
  current = current_words (survey, instrument, range);
  if (current == NULL)
    return g_strdup_printf (
        _ ("Electro-explosive devices are near %s, and the test current of the meter in hand is not "
           "known. Readings there need a named authority."),
        bond_point_get_number (point));
  return g_strdup_printf (_ ("Electro-explosive devices are near %s. The pinned range puts %s through the joint. "
                             "Readings there need a named authority."),
                          bond_point_get_number (point), current);
}

static char *
valid_words (BondSurvey *survey, const BondLeaveStatus *status, const char *instrument, const char *range,
             const char *now)
{
  const BondPermit *permit = &status->permit->permit;
  g_autofree char *name = bond_permit_name (permit);
  g_autofree char *until = bond_permit_end_words (permit, now);
  g_autofree char *left = bond_words_minutes (MAX (status->minutes_left, 0));
  g_autofree char *current = current_words (survey, instrument, range);
  g_autofree char *term
      = until != NULL ? g_strdup_printf (_ ("%s until %s, %s left"), name, until, left) : g_strdup (name);

  if (status->hazard != BOND_HAZARD_EXPLOSIVE || current == NULL)
    return g_steal_pointer (&term);
  return g_strdup_printf (_ ("%s. Test current %s near electro-explosive devices."), term, current);
}

static char *
meter_words (BondSurvey *survey, const char *instrument)
{
  const BondInstrument *meter = bond_survey_find_instrument (survey, instrument);
  g_autoptr (GPtrArray) approved = bond_permit_approved (survey);
  GString *text = g_string_new (NULL);

  g_string_append_printf (text, _ ("%s is not approved for fuel vapour."),
                          meter != NULL ? meter->name : _ ("The meter in hand"));
  for (guint i = 0; i < approved->len; i++)
    g_string_append_printf (text, "%s%s", i == 0 ? _ (" Approved: ") : ", ",
                            ((BondInstrument *)g_ptr_array_index (approved, i))->name);
  g_string_append (text, approved->len > 0 ? "." : _ (" No meter of this survey is; choose one under Instrument."));
  return g_string_free (text, FALSE);
}

static gboolean
is_approved (BondSurvey *survey, const char *instrument)
{
  const BondInstrument *meter = instrument != NULL ? bond_survey_find_instrument (survey, instrument) : NULL;

  return meter == NULL || meter->vapour_approved; /* without a meter something else is asked first */
}

static void
settle_leave (BondSurvey *survey, BondPoint *point, const char *instrument, const char *now, BondLeaveStatus *status)
{
  const char *zone = bond_point_get_spec (point)->zone;
  BondEntry *valid = bond_survey_permit_for (survey, status->hazard, zone, now);

  status->permit = valid != NULL ? valid : newest_permit (survey, status->hazard, zone, now);
  status->minutes_left = status->permit != NULL ? bond_minutes_between (now, status->permit->permit.valid_until) : 0;
  if (valid == NULL)
    status->leave = status->permit != NULL ? BOND_LEAVE_OVER : BOND_LEAVE_MISSING;
  else if (status->hazard == BOND_HAZARD_FUEL_VAPOUR && !is_approved (survey, instrument))
    status->leave = BOND_LEAVE_METER;
  else if (valid->permit.valid_until != NULL && status->minutes_left < BOND_PERMIT_WARN_MINUTES)
    status->leave = BOND_LEAVE_ENDING;
  else
    status->leave = BOND_LEAVE_VALID;
}

static char *
over_words (BondPoint *point, const BondEntry *permit, const char *now)
{
  g_autofree char *name = bond_permit_name (&permit->permit);
  g_autofree char *until = bond_permit_end_words (&permit->permit, now);

  return g_strdup_printf (_ ("%s ended at %s. Readings in %s wait for a new one; what is typed stays in the field."),
                          name, until, bond_point_get_spec (point)->zone);
}

static char *
status_words (BondSurvey *survey, BondPoint *point, const char *instrument, const char *range, const char *now,
              const BondLeaveStatus *status)
{
  switch (status->leave)
    {
    case BOND_LEAVE_MISSING:
      return missing_words (survey, point, status->hazard, instrument, range);
    case BOND_LEAVE_OVER:
      return over_words (point, status->permit, now);
    case BOND_LEAVE_METER:
      return meter_words (survey, instrument);
    case BOND_LEAVE_VALID:
    case BOND_LEAVE_ENDING:
      return valid_words (survey, status, instrument, range, now);
    case BOND_LEAVE_NOT_NEEDED:
    default:
      return NULL;
    }
}

/* What bars a reading goes before what warns, and that before what is well. */
static int
weight (BondLeave leave)
{
  static const int weights[] = { 0, 5, 1, 2, 4, 3 };

  return weights[leave];
}

void
bond_leave_status (BondSurvey *survey, BondPoint *point, const char *instrument, const char *range, const char *now,
                   BondLeaveStatus *status)
{
  static const BondHazard asked[] = { BOND_HAZARD_FUEL_VAPOUR, BOND_HAZARD_EXPLOSIVE };
  guint hazards;

  g_return_if_fail (BOND_IS_SURVEY (survey) && BOND_IS_POINT (point) && now != NULL && status != NULL);
  memset (status, 0, sizeof *status);
  hazards = bond_point_get_hazards (point);
  for (gsize i = 0; i < G_N_ELEMENTS (asked); i++)
    {
      BondLeaveStatus one = { .hazard = asked[i] };

      if ((hazards & asked[i]) == 0)
        continue;
      settle_leave (survey, point, instrument, now, &one);
      if (weight (one.leave) > weight (status->leave))
        *status = one;
    }
  status->words = status_words (survey, point, instrument, range, now, status);
}
