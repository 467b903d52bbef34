/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * Whether an act that is about no reading would all the same take a defect out of
 * the record: another limit, a newer register, a rework struck.  The act is tried,
 * every place is judged anew, and the act is refused when a fail would be gone.
 * Acts on readings themselves are left to survey-check-reading.c.
 */
#include "core/survey-check.h"

#include "core/judge-private.h"
#include <glib/gi18n-lib.h>

typedef gboolean (*ResultTest) (const BondPlaceResult *);

gboolean
bond_place_stands_as_fail (const BondPlaceResult *result)
{
  return result->state == BOND_STATE_FAIL || result->state == BOND_STATE_CARRIED_FORWARD
         || result->state == BOND_STATE_DEFERRED || result->state == BOND_STATE_ACCEPTED;
}

static gboolean
is_against (const BondHistoryItem *item, const BondLimitRow *row)
{
  if (item->taken_back || item->voided || item->moved_away)
    return FALSE;
  if (item->measurement != NULL)
    return item->measurement->outcome == BOND_OUTCOME_JUDGED && !item->measurement->conforms;
  return item->entry->kind == BOND_ENTRY_VISUAL && bond_visual_rejects (item->entry, row);
}

static void
collect_row (const BondPlaceResult *result, GHashTable *against)
{
  guint i, j;

  for (i = 0; i < result->history->len; i++)
    {
      const BondHistoryItem *item = g_ptr_array_index (result->history, i);

      if (!is_against (item, result->row))
        continue;
      g_hash_table_add (against, item->entry);
      for (j = 0; item->measurement != NULL && j < item->measurement->readings->len; j++)
        g_hash_table_add (against, g_ptr_array_index (item->measurement->readings, j));
    }
}

/* Every reading that does not conform and every visual reject, under any row of any place. (transfer full) */
static GHashTable *
collect (GPtrArray *places)
{
  GHashTable *against = g_hash_table_new (NULL, NULL);
  guint i, j;

  for (i = 0; i < places->len; i++)
    for (j = 0; j < bond_place_result_n_rows (places->pdata[i]); j++)
      collect_row (bond_place_result_nth_row (places->pdata[i], j), against);
  return against;
}

/* A defect that was found among @before is none among @after; both of the same places. */
static gboolean
loses_defect (GPtrArray *before, GPtrArray *after)
{
  g_autoptr (GHashTable) had = collect (before), has = collect (after);
  GHashTableIter iter;
  gpointer entry;

  g_hash_table_iter_init (&iter, had);
  while (g_hash_table_iter_next (&iter, &entry, NULL))
    if (!g_hash_table_contains (has, entry))
      return TRUE;
  return FALSE;
}

/* The same, or a fail that stands would no longer. */
static gboolean
loses_fail (GPtrArray *before, GPtrArray *after)
{
  guint i;

  for (i = 0; i < before->len && i < after->len; i++)
    if (bond_place_stands_as_fail (before->pdata[i]) && !bond_place_stands_as_fail (after->pdata[i]))
      return TRUE;
  return loses_defect (before, after);
}

static gboolean
is_judged_by_row (const BondPlaceResult *result)
{
  return result->row != NULL && result->last != NULL;
}

static gboolean
has_no_row (const BondPlaceResult *result)
{
  return result->row == NULL;
}

static guint
count_rows (GPtrArray *places, ResultTest test)
{
  guint i, j, n = 0;

  for (i = 0; i < places->len; i++)
    for (j = 0; j < bond_place_result_n_rows (places->pdata[i]); j++)
      n += test (bond_place_result_nth_row (places->pdata[i], j));
  return n;
}

/* A point that was measured against a limit would have none. */
static gboolean
loses_limit (GPtrArray *before, GPtrArray *after)
{
  return count_rows (before, is_judged_by_row) > 0 && count_rows (after, has_no_row) > count_rows (before, has_no_row);
}

gboolean
bond_check_spec_keeps_fails (BondPoint *point, BondPointSpec *spec, GError **error)
{
  g_autoptr (GPtrArray) after = bond_point_rejudge (point, spec);

  if (!loses_fail (point->places, after))
    return TRUE;
  return bond_check_refuse (
      error, BOND_SURVEY_ERROR_INVALID,
      _ ("Not recorded: %s does not conform, and with this limit, class or condition it would. The fail and the point "
         "stay as they were; record rework or a disposition, or void the reading first if it was wrong."),
      point->spec->number);
}

/* The first point for which @loses is true with the registers as they are for the moment. (nullable) */
static BondPoint *
find_losing (BondSurvey *survey, gboolean (*loses) (GPtrArray *, GPtrArray *))
{
  guint i;

  for (i = 0; i < survey->walk->len; i++)
    {
      BondPoint *point = g_ptr_array_index (survey->walk, i);
      g_autoptr (GPtrArray) after = bond_point_rejudge (point, NULL);

      if (loses (point->places, after))
        return point;
    }
  return NULL;
}

gboolean
bond_check_adopt_keeps_fails (BondSurvey *survey, const BondAdopt *adopted, const char *id, GError **error)
{
  BondPoint *failed, *bare;

  if (adopted->what != BOND_ADOPT_LIMIT_SET && adopted->what != BOND_ADOPT_INSTRUMENT
      && adopted->what != BOND_ADOPT_HOUSE)
    return TRUE;
  bond_survey_try_adopt (survey, adopted);
  failed = find_losing (survey, loses_fail);
  bare = failed == NULL ? find_losing (survey, loses_limit) : NULL;
  bond_survey_derive_registers (survey);
  if (failed != NULL)
    return bond_check_refuse (
        error, BOND_SURVEY_ERROR_INVALID,
        _ ("Not recorded: under this revision of %s the fail at %s would be none. The revision adopted before stays "
           "in force; record rework or a disposition there, or use the new revision in a new survey."),
        id, failed->spec->number);
  if (bare != NULL)
    return bond_check_refuse (
        error, BOND_SURVEY_ERROR_INVALID,
        _ ("Not recorded: this revision of %s has no limit for %s, which has been measured. The revision adopted "
           "before stays in force; use the new revision in a new survey."),
        id, bare->spec->number);
  return TRUE;
}

/* What taking @target back comes down to: the entry at the end of a chain of take-backs. */
static BondEntry *
find_end (BondSurvey *survey, BondEntry *target)
{
  while (target != NULL && target->kind == BOND_ENTRY_TAKE_BACK)
    target = bond_survey_find_entry (survey, target->ref);
  return target;
}

static gboolean
shapes_judging (BondEntryKind kind)
{
  return kind == BOND_ENTRY_REWORK || kind == BOND_ENTRY_CONDITION || kind == BOND_ENTRY_POINT
         || kind == BOND_ENTRY_DEVIATION || kind == BOND_ENTRY_ADOPT;
}

/* Rework put back ends a fail as it did when it was recorded; what was found stays found. */
static gboolean
puts_back_change (BondSurvey *survey, BondEntry *end)
{
  return (end->kind == BOND_ENTRY_REWORK || end->kind == BOND_ENTRY_CONDITION)
         && g_hash_table_contains (survey->removed, end);
}

static void
toggle (BondSurvey *survey, BondEntry *entry)
{
  if (!g_hash_table_remove (survey->removed, entry))
    g_hash_table_add (survey->removed, entry);
  if (entry->kind == BOND_ENTRY_ADOPT)
    bond_survey_derive_registers (survey);
}

gboolean
bond_check_struck_keeps_fails (BondSurvey *survey, BondEntry *target, GError **error)
{
  BondEntry *end = find_end (survey, target);
  BondPoint *losing;
  gboolean back;

  if (end == NULL || !shapes_judging (end->kind))
    return TRUE;
  back = puts_back_change (survey, end);
  toggle (survey, end);
  losing = find_losing (survey, back ? loses_defect : loses_fail);
  toggle (survey, end);
  if (losing == NULL)
    return TRUE;
  return bond_check_refuse (error, BOND_SURVEY_ERROR_INVALID,
                            _ ("Not recorded: a reading of %s taken since then does not conform, and without this "
                               "entry it would. Both stand; "
                               "void or move that reading first if it was wrong."),
                            losing->spec->number);
}

gboolean
bond_place_was_measured (const BondPlaceResult *result)
{
  guint i;

  for (i = 0; i < result->history->len; i++)
    {
      const BondHistoryItem *item = g_ptr_array_index (result->history, i);

      if (item->measurement != NULL && !item->moved_away)
        return TRUE;
    }
  return FALSE;
}

static gboolean
waits_after_fail (const BondPlaceResult *result)
{
  guint i;

  for (i = 0; bond_state_is_open (result->state) && i + 1 < result->epochs->len; i++)
    if (g_array_index (result->epochs, BondEpoch, i).failed)
      return TRUE;
  return FALSE;
}

gboolean
bond_point_waits_after_fail (BondPoint *point, const char *place)
{
  guint i;

  for (i = 0; i < point->places->len; i++)
    {
      const BondPlaceResult *result = g_ptr_array_index (point->places, i);

      if ((place == NULL || g_strcmp0 (result->place, place) == 0) && waits_after_fail (result))
        return TRUE;
    }
  return FALSE;
}
