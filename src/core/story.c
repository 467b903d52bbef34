/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * The story of a point out of the histories of its places and the entries that are
 * in none of them.  It judges nothing and counts nothing.
 */
#include "core/story.h"

#include "core/survey-private.h"
#include "core/word.h"
#include <glib/gi18n-lib.h>
#include <string.h>

static BondStoryLine *
add_line (GPtrArray *story, const BondEntry *entry)
{
  BondStoryLine *line = g_new0 (BondStoryLine, 1);

  line->entry = entry;
  g_ptr_array_add (story, line);
  return line;
}

static gboolean
strikes (BondEntryKind kind)
{
  return kind == BOND_ENTRY_VOID || kind == BOND_ENTRY_CORRECT || kind == BOND_ENTRY_MOVE
         || kind == BOND_ENTRY_TAKE_BACK;
}

/* The newest act in force upon @id that takes it out. (nullable) */
static const BondEntry *
find_strike (BondSurvey *survey, const char *id)
{
  GPtrArray *list = bond_survey_get_referrers (survey, id);
  guint i;

  for (i = list != NULL ? list->len : 0; i > 0; i--)
    {
      const BondEntry *other = g_ptr_array_index (list, i - 1);
      if (strikes (other->kind) && !g_hash_table_contains (survey->removed, other))
        return other;
    }
  return NULL;
}

gboolean
bond_story_line_is_struck (const BondStoryLine *line)
{
  g_return_val_if_fail (line != NULL, FALSE);
  return line->struck_by != NULL
         || (line->item != NULL && (line->item->voided || line->item->taken_back || line->item->moved_away));
}

/* A seating that went elsewhere as a whole was moved by its first reading. */
static const BondEntry *
find_strike_of (BondSurvey *survey, const BondHistoryItem *item)
{
  const BondEntry *strike = NULL;

  if (item->voided || item->taken_back || item->moved_away)
    strike = find_strike (survey, item->entry->id);
  if (strike == NULL && item->moved_away && item->measurement != NULL)
    strike = find_strike (survey, item->measurement->id);
  return strike;
}

static const BondEntry *
find_permit (BondPoint *point, const BondEntry *entry)
{
  static const BondHazard asked[] = { BOND_HAZARD_FUEL_VAPOUR, BOND_HAZARD_EXPLOSIVE };
  guint hazards = bond_point_get_hazards (point), i;

  for (i = 0; i < G_N_ELEMENTS (asked); i++)
    if (hazards & asked[i])
      {
        const BondEntry *permit = bond_survey_permit_then (point->survey, asked[i], point->spec->zone, entry->at);
        if (permit != NULL)
          return permit;
      }
  return NULL;
}

static void
add_item (GPtrArray *story, BondPoint *point, const BondPlaceResult *place, const BondHistoryItem *item)
{
  BondStoryLine *line = add_line (story, item->entry);

  line->item = item;
  line->place = item->measurement != NULL || item->entry->place != NULL ? place : NULL;
  line->struck_by = find_strike_of (point->survey, item);
  line->permit = item->measurement != NULL ? find_permit (point, item->entry) : NULL;
}

/* What is about the whole point stands in the history of every place, and once in the story. */
static void
add_history (GPtrArray *story, BondPoint *point, const BondPlaceResult *place, GHashTable *acts, GHashTable *read)
{
  guint i, j;

  for (i = 0; i < place->history->len; i++)
    {
      const BondHistoryItem *item = g_ptr_array_index (place->history, i);
      const BondMeasurement *m = item->measurement;

      for (j = 0; m != NULL && j < m->readings->len; j++)
        g_hash_table_add (read, g_ptr_array_index (m->readings, j));
      if (m != NULL || g_hash_table_add (acts, item->entry))
        add_item (story, point, place, item);
    }
}

/* What no history has: points and places that were entered, attachments, and what was done to these. */
static void
add_others (GPtrArray *story, BondPoint *point, GHashTable *acts, GHashTable *read)
{
  guint i;

  for (i = 0; i < point->entries->len; i++)
    {
      const BondEntry *entry = g_ptr_array_index (point->entries, i);
      if (!g_hash_table_contains (acts, entry) && !g_hash_table_contains (read, entry))
        add_line (story, entry)->struck_by = find_strike (point->survey, entry->id);
    }
}

/* Of one entry, as of a correction: first the figures, then the act. */
static int
compare_lines (gconstpointer a, gconstpointer b)
{
  const BondStoryLine *p = *(const BondStoryLine *const *)a, *q = *(const BondStoryLine *const *)b;
  int order = bond_entry_compare (p->entry, q->entry);

  if (order == 0 && p->item != NULL && q->item != NULL)
    order = (p->item->measurement == NULL) - (q->item->measurement == NULL);
  return order;
}

GPtrArray *
bond_point_story (BondPoint *point)
{
  GPtrArray *story = g_ptr_array_new_with_free_func (g_free);
  g_autoptr (GHashTable) acts = g_hash_table_new (NULL, NULL);
  g_autoptr (GHashTable) read = g_hash_table_new (NULL, NULL);
  guint i;

  g_return_val_if_fail (BOND_IS_POINT (point), story);
  if (point->survey == NULL || point->spec == NULL)
    return story;
  for (i = 0; i < point->places->len; i++)
    add_history (story, point, g_ptr_array_index (point->places, i), acts, read);
  add_others (story, point, acts, read);
  g_ptr_array_sort (story, compare_lines);
  return story;
}

const char *
bond_said_name (const char *said)
{
  static const BondWord words[] = {
    { "pass", N_ ("pass") },
    { "pass within-u", N_ ("pass, within U of the limit") },
    { "fail", N_ ("fail") },
    { "fail within-u", N_ ("fail, within U of the limit") },
    { "suspect", N_ ("suspect") },
    { "incomplete", N_ ("not complete") },
    { "recorded", N_ ("recorded without limit") },
    { "no-verdict", N_ ("no verdict") },
  };
  int index = said != NULL ? bond_word_find (words, G_N_ELEMENTS (words), said) : -1;

  return index >= 0 ? bond_word_name (words, G_N_ELEMENTS (words), (guint)index) : said;
}

GArray *
bond_point_get_earlier (BondPoint *point)
{
  GArray *found = g_array_new (FALSE, FALSE, sizeof (BondPointEarlier));
  guint i;

  g_return_val_if_fail (BOND_IS_POINT (point), found);
  for (i = 0; point->survey != NULL && i < point->survey->earlier->len; i++)
    {
      BondPointEarlier one = { .survey = g_ptr_array_index (point->survey->earlier, i) };

      one.item = bond_earlier_find (one.survey, point->id);
      if (one.item != NULL)
        g_array_append_val (found, one);
    }
  return found;
}
