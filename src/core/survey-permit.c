/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * Leave to measure where something can catch fire or go off: which permits are open,
 * which covers a place and a time, whether a reading may be taken there, and whether
 * readings rest on a permit.  Also
 * which cautions a person has read today.  What a permit must hold when it is
 * recorded is left to survey-check-acts.c.
 */
#include "core/survey-permit.h"

#include "core/judge-private.h"
#include "core/survey-check.h"
#include <glib/gi18n-lib.h>

gboolean
bond_moment_compare (const char *a, const char *b, int *order)
{
  g_autoptr (GDateTime) x = a != NULL ? g_date_time_new_from_iso8601 (a, NULL) : NULL;
  g_autoptr (GDateTime) y = b != NULL ? g_date_time_new_from_iso8601 (b, NULL) : NULL;

  if (x == NULL || y == NULL)
    return FALSE;
  *order = g_date_time_compare (x, y);
  return TRUE;
}

/* @a is known to be no later than @b. */
static gboolean
is_not_after (const char *a, const char *b)
{
  int order;

  return bond_moment_compare (a, b, &order) && order <= 0;
}

gboolean
bond_words_hold (const char *words, const char *word)
{
  g_auto (GStrv) list = g_strsplit (words != NULL ? words : "", " ", -1);

  return g_strv_contains ((const char *const *)list, word);
}

const BondEntry *
bond_survey_find_close (BondSurvey *survey, const BondEntry *permit)
{
  GPtrArray *list = bond_survey_get_referrers (survey, permit->id);
  guint i;

  for (i = 0; list != NULL && i < list->len; i++)
    {
      const BondEntry *other = g_ptr_array_index (list, i);
      if (other->kind == BOND_ENTRY_CLOSE_PERMIT && !g_hash_table_contains (survey->removed, other))
        return other;
    }
  return NULL;
}

void
bond_survey_derive_permits (BondSurvey *survey)
{
  guint i;

  g_ptr_array_set_size (survey->permits, 0);
  for (i = 0; i < survey->entries->len; i++)
    {
      BondEntry *entry = g_ptr_array_index (survey->entries, i);
      if (entry->kind == BOND_ENTRY_PERMIT && !g_hash_table_contains (survey->removed, entry)
          && bond_survey_find_close (survey, entry) == NULL)
        g_ptr_array_add (survey->permits, entry);
    }
}

GPtrArray *
bond_survey_get_permits (BondSurvey *survey)
{
  g_return_val_if_fail (BOND_IS_SURVEY (survey), NULL);
  return survey->permits;
}

char *
bond_permit_end_words (const BondPermit *permit, const char *at)
{
  const char *until;

  g_return_val_if_fail (permit != NULL && at != NULL, NULL);
  until = permit->valid_until;
  if (until == NULL || strlen (until) < 16)
    return g_strdup (until);
  if (strncmp (until, at, 10) == 0)
    return g_strndup (until + 11, 5);
  return g_strdup_printf ("%.10s %.5s", until, until + 11);
}

/* A zone of the permit stands for those in it. */
static gboolean
covers_zone (BondSurvey *survey, const BondPermit *permit, const char *zone)
{
  g_auto (GStrv) zones = g_strsplit (permit->zones != NULL ? permit->zones : "", " ", -1);
  guint i;

  for (i = 0; zones[i] != NULL; i++)
    if (strcmp (zones[i], zone) == 0
        || (survey->airframe != NULL && bond_airframe_lies_in (survey->airframe, zone, zones[i])))
      return TRUE;
  return FALSE;
}

/* Between the gas test and the end; where nothing was tested or no end is set, from then on and for good. */
static gboolean
covers_time (const BondPermit *permit, const char *at)
{
  return (permit->gas_at == NULL || is_not_after (permit->gas_at, at))
         && (permit->valid_until == NULL || is_not_after (at, permit->valid_until));
}

static gboolean
is_for (BondSurvey *survey, const BondEntry *entry, BondHazard hazard, const char *zone)
{
  return entry->kind == BOND_ENTRY_PERMIT && entry->permit.hazard == hazard
         && covers_zone (survey, &entry->permit, zone);
}

BondEntry *
bond_survey_permit_for (BondSurvey *survey, BondHazard hazard, const char *zone, const char *at)
{
  guint i;

  g_return_val_if_fail (BOND_IS_SURVEY (survey) && zone != NULL && at != NULL, NULL);
  for (i = survey->permits->len; i > 0; i--)
    {
      BondEntry *entry = g_ptr_array_index (survey->permits, i - 1);
      if (is_for (survey, entry, hazard, zone) && covers_time (&entry->permit, at))
        return entry;
    }
  return NULL;
}

BondEntry *
bond_survey_permit_then (BondSurvey *survey, BondHazard hazard, const char *zone, const char *at)
{
  guint i;

  g_return_val_if_fail (BOND_IS_SURVEY (survey) && zone != NULL && at != NULL, NULL);
  for (i = survey->entries->len; i > 0; i--)
    {
      BondEntry *entry = g_ptr_array_index (survey->entries, i - 1);
      const BondEntry *close;

      if (!is_for (survey, entry, hazard, zone) || g_hash_table_contains (survey->removed, entry)
          || !covers_time (&entry->permit, at))
        continue;
      close = bond_survey_find_close (survey, entry);
      if (close == NULL || is_not_after (at, close->at))
        return entry;
    }
  return NULL;
}

/* The newest open permit of the zone that has come to its end. */
static const BondPermit *
find_ended (BondSurvey *survey, BondHazard hazard, const char *zone, const char *at)
{
  guint i;

  for (i = survey->permits->len; i > 0; i--)
    {
      const BondEntry *entry = g_ptr_array_index (survey->permits, i - 1);
      const BondPermit *permit = &entry->permit;

      if (is_for (survey, entry, hazard, zone) && permit->valid_until != NULL
          && !is_not_after (at, permit->valid_until))
        return permit;
    }
  return NULL;
}

static gboolean
refuse_without_permit (BondSurvey *survey, BondPoint *point, BondHazard hazard, const char *at, GError **error)
{
  const BondPointSpec *spec = point->spec;
  const BondPermit *ended = find_ended (survey, hazard, spec->zone, at);
  g_autofree char *end = ended != NULL ? bond_permit_end_words (ended, at) : NULL;

  if (hazard == BOND_HAZARD_EXPLOSIVE)
    g_set_error (error, BOND_SURVEY_ERROR, BOND_SURVEY_ERROR_PERMIT,
                 _ ("Waits: electro-explosive devices are near %s and no authority to measure is recorded for zone %s. "
                    "What you typed is kept; record who has made them safe, then record the reading."),
                 spec->number, spec->zone);
  else if (ended != NULL)
    g_set_error (
        error, BOND_SURVEY_ERROR, BOND_SURVEY_ERROR_PERMIT,
        _ ("Waits: permit %s for zone %s ended at %s. What you typed is kept; have the gas test done again and "
           "record the new permit, then record the reading."),
        ended->number, spec->zone, end);
  else
    g_set_error (error, BOND_SURVEY_ERROR, BOND_SURVEY_ERROR_PERMIT,
                 _ ("Waits: fuel vapour may be at %s and no permit in force covers zone %s. What you typed is kept; "
                    "record the permit with its gas test, then record the reading."),
                 spec->number, spec->zone);
  return FALSE;
}

static gboolean
check_approved (BondSurvey *survey, BondPoint *point, const char *id, GError **error)
{
  const BondInstrument *instrument = bond_survey_find_instrument (survey, id);

  if (instrument != NULL && instrument->vapour_approved)
    return TRUE;
  g_set_error (
      error, BOND_SURVEY_ERROR, BOND_SURVEY_ERROR_PERMIT,
      _ ("Waits: %s is not approved for use where fuel vapour may be, as at %s. What you typed is kept; take an "
         "instrument approved for it and measure again."),
      instrument != NULL ? instrument->name : id, point->spec->number);
  return FALSE;
}

gboolean
bond_survey_check_permit_at (BondSurvey *survey, BondPoint *point, const char *instrument, const char *at,
                             GError **error)
{
  static const BondHazard asked[] = { BOND_HAZARD_FUEL_VAPOUR, BOND_HAZARD_EXPLOSIVE };
  guint hazards = bond_point_get_hazards (point), i;
  g_autofree char *now = bond_source_peek (survey->source);

  for (i = 0; i < G_N_ELEMENTS (asked); i++)
    {
      const char *zone = point->spec->zone;

      if (!(hazards & asked[i]))
        continue;
      if ((at != NULL ? bond_survey_permit_then (survey, asked[i], zone, at)
                      : bond_survey_permit_for (survey, asked[i], zone, now))
          == NULL)
        return refuse_without_permit (survey, point, asked[i], at != NULL ? at : now, error);
    }
  return !(hazards & BOND_HAZARD_FUEL_VAPOUR) || instrument == NULL
         || check_approved (survey, point, instrument, error);
}

gboolean
bond_survey_check_permit (BondSurvey *survey, BondPoint *point, const char *instrument, GError **error)
{
  g_return_val_if_fail (BOND_IS_SURVEY (survey) && BOND_IS_POINT (point), FALSE);
  g_return_val_if_fail (point->survey == survey && point->spec != NULL, FALSE);
  return bond_survey_check_permit_at (survey, point, instrument, NULL, error);
}

static gboolean
has_leave (BondSurvey *survey, BondPoint *point, const BondEntry *reading)
{
  const BondEntry *origin = bond_survey_reading_origin (survey, reading);

  return bond_survey_check_permit_at (survey, point, NULL, origin != NULL ? origin->at : reading->at, NULL);
}

static guint
count_with_leave (BondSurvey *survey, BondPoint *point, const BondPlaceResult *row)
{
  guint i, j, n = 0;

  for (i = 0; i < row->history->len; i++)
    {
      const BondHistoryItem *item = g_ptr_array_index (row->history, i);

      if (item->measurement == NULL || item->taken_back || item->voided || item->moved_away)
        continue;
      for (j = 0; j < item->measurement->readings->len; j++)
        n += has_leave (survey, point, g_ptr_array_index (item->measurement->readings, j));
    }
  return n;
}

/* Standing readings of @point that were taken with leave, as the permits are for the moment. */
static guint
count_of_point (BondSurvey *survey, BondPoint *point)
{
  guint i, j, n = 0;

  for (i = 0; i < point->places->len; i++)
    for (j = 0; j < bond_place_result_n_rows (point->places->pdata[i]); j++)
      n += count_with_leave (survey, point, bond_place_result_nth_row (point->places->pdata[i], j));
  return n;
}

/* The reading that counts again at @point once @target is taken back; NULL = none. */
static const BondEntry *
find_restored (BondSurvey *survey, const BondEntry *target, BondPoint **point)
{
  gboolean again = target->kind == BOND_ENTRY_TAKE_BACK;
  const BondEntry *act = again ? bond_survey_find_entry (survey, target->ref) : target;
  const char *id = act == NULL ? NULL : again && act->kind == BOND_ENTRY_MOVE ? act->move.to_point : act->point;
  const BondEntry *reading = NULL;

  if (act != NULL && again && act->kind == BOND_ENTRY_READING)
    reading = act;
  else if (act != NULL && (act->kind == BOND_ENTRY_MOVE || (act->kind == BOND_ENTRY_VOID && !again)))
    reading = bond_survey_find_entry (survey, act->ref);
  *point = id != NULL ? bond_survey_find_point (survey, id) : NULL;
  return *point != NULL && reading != NULL && bond_entry_is_reading (reading) ? reading : NULL;
}

static void
toggle (GHashTable *set, gpointer entry)
{
  if (!g_hash_table_remove (set, entry))
    g_hash_table_add (set, entry);
}

/* Whether standing readings of @point lose their leave when the permit or close @act is struck, or counts again. */
static gboolean
rests_on (BondSurvey *survey, BondPoint *point, BondEntry *act)
{
  guint now = count_of_point (survey, point), then;

  toggle (survey->removed, act);
  then = count_of_point (survey, point);
  toggle (survey->removed, act);
  return then < now;
}

gboolean
bond_check_struck_keeps_leave (BondSurvey *survey, BondEntry *target, GError **error)
{
  gboolean again = target->kind == BOND_ENTRY_TAKE_BACK;
  BondEntry *act = again ? bond_survey_find_entry (survey, target->ref) : target;
  BondPoint *home;
  const BondEntry *restored = find_restored (survey, target, &home);
  guint i;

  if (restored != NULL && !has_leave (survey, home, restored))
    return bond_check_refuse (error, BOND_SURVEY_ERROR_INVALID,
                              _ ("Not restored: no permit that stands covers %s when this reading was taken. It stays "
                                 "in the history and does not count; record the permit that was in force, or measure "
                                 "again under one."),
                              home->spec->number);
  if (act == NULL || (act->kind != BOND_ENTRY_PERMIT && act->kind != BOND_ENTRY_CLOSE_PERMIT))
    return TRUE;
  for (i = 0; i < survey->walk->len; i++)
    {
      BondPoint *point = g_ptr_array_index (survey->walk, i);

      if (bond_point_get_hazards (point) != 0 && rests_on (survey, point, act))
        return again ? bond_check_refuse (error, BOND_SURVEY_ERROR_INVALID,
                                          _ ("Not done again: readings of %s were taken after this permit was closed "
                                             "and rest on it. It stays open; close it anew."),
                                          point->spec->number)
                     : bond_check_refuse (error, BOND_SURVEY_ERROR_INVALID,
                                          _ ("Not taken back: readings of %s were taken under this permit and rest on "
                                             "it. Both stand; close the permit to end it, or void those readings first "
                                             "if they were wrong."),
                                          point->spec->number);
    }
  return TRUE;
}

gboolean
bond_survey_caution_read (BondSurvey *survey, const char *person, const char *code, const char *at)
{
  guint i;

  g_return_val_if_fail (BOND_IS_SURVEY (survey) && person != NULL && code != NULL && at != NULL, FALSE);
  for (i = survey->entries->len; i > 0; i--)
    {
      const BondEntry *entry = g_ptr_array_index (survey->entries, i - 1);

      /* The local day is what stands before the T. */
      if (entry->kind == BOND_ENTRY_CAUTION && strcmp (entry->by, person) == 0 && strncmp (entry->at, at, 10) == 0
          && bond_words_hold (entry->caution.shown, code))
        return TRUE;
    }
  return FALSE;
}
