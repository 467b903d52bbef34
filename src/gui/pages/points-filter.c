/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * One question a choice, all of which must be met.  It is asked of every point on
 * each letter typed, so words are compared as they are folded, without an index:
 * 3,000 points take a few milliseconds.
 */
#include "gui/pages/points-filter.h"
#include <string.h>

void
bond_points_filter_clear (BondPointsFilter *filter)
{
  g_return_if_fail (filter != NULL);
  g_free (filter->words);
  g_free (filter->zone);
  g_free (filter->purpose);
  g_free (filter->instrument);
  *filter = (BondPointsFilter){ 0 };
}

guint
bond_points_filter_n_choices (const BondPointsFilter *filter)
{
  guint n = 0;

  g_return_val_if_fail (filter != NULL, 0);
  n += filter->klass != 0;
  n += filter->state != 0;
  n += filter->zone != NULL;
  n += filter->purpose != NULL;
  n += filter->instrument != NULL;
  for (guint bits = filter->marks; bits != 0; bits >>= 1)
    n += bits & 1;
  return n;
}

gboolean
bond_points_filter_is_empty (const BondPointsFilter *filter)
{
  g_return_val_if_fail (filter != NULL, TRUE);
  return filter->chip == BOND_POINTS_ALL && filter->words == NULL && bond_points_filter_n_choices (filter) == 0;
}

BondPointsChip
bond_points_chip_of (BondPoint *point)
{
  BondState state;
  const BondPlaceResult *worst;

  g_return_val_if_fail (BOND_IS_POINT (point), BOND_POINTS_ALL);
  state = bond_point_get_state (point);
  worst = bond_point_get_worst (point);
  if (state == BOND_STATE_TO_MEASURE)
    return BOND_POINTS_TO_MEASURE;
  if (state == BOND_STATE_REMEASURE)
    return BOND_POINTS_REMEASURE;
  if (state == BOND_STATE_FAIL)
    return BOND_POINTS_FAIL;
  if (bond_state_is_open (state))
    return BOND_POINTS_OTHER;
  return worst != NULL && worst->within_u ? BOND_POINTS_WITHIN_U : BOND_POINTS_ALL;
}

const char *
bond_points_zone_name (BondSurvey *survey, const char *number)
{
  const BondAirframe *airframe;
  const BondZone *zone;

  g_return_val_if_fail (BOND_IS_SURVEY (survey), "");
  airframe = bond_survey_get_airframe (survey);
  zone = airframe != NULL && number != NULL ? bond_airframe_find_zone (airframe, number) : NULL;
  return zone != NULL && zone->name != NULL ? zone->name : "";
}

static gboolean
has_word (const char *text, const char *folded_word)
{
  g_autofree char *folded = text != NULL ? g_utf8_casefold (text, -1) : NULL;

  return folded != NULL && strstr (folded, folded_word) != NULL;
}

static gboolean
notes_have (BondPoint *point, const char *folded_word)
{
  GPtrArray *notes = bond_point_get_notes (point);

  for (guint i = 0; notes != NULL && i < notes->len; i++)
    {
      const BondEntry *entry = g_ptr_array_index (notes, i);
      gboolean defect = entry->kind == BOND_ENTRY_DEFECT;

      if (has_word (defect ? entry->defect.words : entry->note.text, folded_word)
          || (defect && has_word (entry->defect.card, folded_word)))
        return TRUE;
    }
  return FALSE;
}

static gboolean
words_match (const char *words, BondSurvey *survey, BondPoint *point)
{
  const BondPointSpec *spec = bond_point_get_spec (point);
  g_autofree char *folded = g_utf8_casefold (words, -1);
  g_auto (GStrv) each = g_strsplit_set (folded, " \t\n", -1);

  for (char **word = each; *word != NULL; word++)
    if (**word != '\0' && !has_word (spec->number, *word) && !has_word (spec->from, *word)
        && !has_word (spec->to, *word) && !has_word (spec->zone, *word) && !has_word (spec->why, *word)
        && !has_word (bond_points_zone_name (survey, spec->zone), *word) && !notes_have (point, *word))
      return FALSE;
  return TRUE;
}

static gboolean
zone_matches (const char *zone, BondSurvey *survey, const char *of_point)
{
  const BondAirframe *airframe = bond_survey_get_airframe (survey);

  return g_strcmp0 (zone, of_point) == 0
         || (airframe != NULL && of_point != NULL && bond_airframe_is_within (airframe, of_point, zone));
}

static gboolean
purpose_matches (const char *purpose, const char *why)
{
  g_auto (GStrv) words = g_strsplit (why != NULL ? why : "", " ", -1);

  return g_strv_contains ((const char *const *)words, purpose);
}

static gboolean
item_is_by (const BondHistoryItem *item, const char *instrument)
{
  const BondMeasurement *measurement = item->measurement;

  for (guint i = 0; measurement != NULL && measurement->readings != NULL && i < measurement->readings->len; i++)
    {
      const BondReading *reading = bond_entry_get_reading (g_ptr_array_index (measurement->readings, i));

      if (reading != NULL && g_strcmp0 (reading->instrument, instrument) == 0)
        return TRUE;
    }
  return FALSE;
}

static gboolean
instrument_matches (const char *instrument, BondPoint *point)
{
  GPtrArray *places = bond_point_get_places (point);

  for (guint i = 0; i < places->len; i++)
    {
      const BondPlaceResult *place = g_ptr_array_index (places, i);

      for (guint k = 0; k < place->history->len; k++)
        if (item_is_by (g_ptr_array_index (place->history, k), instrument))
          return TRUE;
    }
  return FALSE;
}

static guint
marks_of (BondPoint *point)
{
  GPtrArray *notes = bond_point_get_notes (point);
  guint marks = 0;

  for (guint i = 0; notes != NULL && i < notes->len; i++)
    if (((BondEntry *)g_ptr_array_index (notes, i))->kind == BOND_ENTRY_NOTE)
      marks |= BOND_POINTS_HAS_NOTE;
  if (bond_point_get_spec (point)->needs_independent)
    marks |= BOND_POINTS_NEEDS_INDEPENDENT;
  if (bond_point_get_defect (point) != NULL)
    marks |= BOND_POINTS_HAS_DEFECT;
  if (bond_point_bare_since (point) != NULL)
    marks |= BOND_POINTS_BARE_NOW;
  return marks;
}

gboolean
bond_points_filter_match (const BondPointsFilter *filter, BondSurvey *survey, BondPoint *point)
{
  const BondPointSpec *spec;

  g_return_val_if_fail (filter != NULL && BOND_IS_SURVEY (survey) && BOND_IS_POINT (point), FALSE);
  spec = bond_point_get_spec (point);
  return (filter->chip == BOND_POINTS_ALL || bond_points_chip_of (point) == filter->chip)
         && (filter->klass == 0 || (int)spec->klass == filter->klass - 1)
         && (filter->state == 0 || (int)bond_point_get_state (point) == filter->state - 1)
         && (filter->zone == NULL || zone_matches (filter->zone, survey, spec->zone))
         && (filter->purpose == NULL || purpose_matches (filter->purpose, spec->why))
         && (filter->instrument == NULL || instrument_matches (filter->instrument, point))
         && (filter->marks == 0 || (marks_of (point) & filter->marks) == filter->marks)
         && (filter->words == NULL || words_match (filter->words, survey, point));
}

static int
compare_text (gconstpointer a, gconstpointer b)
{
  return g_utf8_collate (*(const char *const *)a, *(const char *const *)b);
}

char **
bond_points_purposes (BondSurvey *survey)
{
  g_autoptr (GHashTable) seen = g_hash_table_new_full (g_str_hash, g_str_equal, g_free, NULL);
  GPtrArray *list = g_ptr_array_new ();
  GHashTableIter iter;
  gpointer word;

  g_return_val_if_fail (BOND_IS_SURVEY (survey), NULL);
  for (guint i = 0; i < g_list_model_get_n_items (G_LIST_MODEL (survey)); i++)
    {
      g_autoptr (BondPoint) point = g_list_model_get_item (G_LIST_MODEL (survey), i);
      const char *why = bond_point_get_spec (point)->why;
      g_auto (GStrv) words = g_strsplit (why != NULL ? why : "", " ", -1);

      for (char **each = words; *each != NULL; each++)
        if (**each != '\0')
          g_hash_table_add (seen, g_strdup (*each));
    }
  g_hash_table_iter_init (&iter, seen);
  while (g_hash_table_iter_next (&iter, &word, NULL))
    g_ptr_array_add (list, g_strdup (word));
  g_ptr_array_sort (list, compare_text);
  g_ptr_array_add (list, NULL);
  return (char **)g_ptr_array_free (list, FALSE);
}
