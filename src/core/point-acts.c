/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * What was said and done at a point beside measuring it: notes, defect cards, since
 * when its joint is bare, what can hurt there.  Read off the point's entries when
 * asked; the verdict is left to judge.c.
 */
#include "core/survey-private.h"

gboolean
bond_point_is_struck (BondPoint *point, const BondEntry *entry)
{
  GPtrArray *list = bond_survey_get_referrers (point->survey, entry->id);
  guint i;

  if (g_hash_table_contains (point->survey->removed, entry))
    return TRUE;
  for (i = 0; list != NULL && i < list->len; i++)
    {
      const BondEntry *other = g_ptr_array_index (list, i);
      if (other->kind == BOND_ENTRY_VOID && !g_hash_table_contains (point->survey->removed, other))
        return TRUE;
    }
  return FALSE;
}

void
bond_point_derive_notes (BondPoint *point)
{
  guint i;

  g_ptr_array_set_size (point->notes, 0);
  for (i = 0; i < point->entries->len; i++)
    {
      BondEntry *entry = g_ptr_array_index (point->entries, i);
      if ((entry->kind == BOND_ENTRY_NOTE || entry->kind == BOND_ENTRY_DEFECT) && !bond_point_is_struck (point, entry))
        g_ptr_array_add (point->notes, entry);
    }
}

GPtrArray *
bond_point_get_notes (BondPoint *point)
{
  g_return_val_if_fail (BOND_IS_POINT (point), NULL);
  return point->notes;
}

/* When the reject that stands at @result came: its newest work on the joint is before it. */
static const BondEntry *
find_last_work (const BondPlaceResult *result)
{
  guint i;

  for (i = result->history->len; i > 0; i--)
    {
      const BondHistoryItem *item = g_ptr_array_index (result->history, i - 1);
      if (!item->taken_back && !item->voided
          && (item->entry->kind == BOND_ENTRY_REWORK || item->entry->kind == BOND_ENTRY_CONDITION))
        return item->entry;
    }
  return NULL;
}

/* @defect was raised for what stands at @result now, not for something that was put right since. */
static gboolean
is_for_this_reject (const BondPlaceResult *result, const BondEntry *defect)
{
  const BondEntry *work = find_last_work (result);

  return (defect->place == NULL || g_strcmp0 (defect->place, result->place) == 0)
         && (work == NULL || bond_entry_compare (work, defect) < 0);
}

const char *
bond_point_get_defect (BondPoint *point)
{
  guint i, j;

  g_return_val_if_fail (BOND_IS_POINT (point), NULL);
  for (i = point->notes->len; i > 0; i--)
    {
      const BondEntry *entry = g_ptr_array_index (point->notes, i - 1);

      for (j = 0; entry->kind == BOND_ENTRY_DEFECT && j < point->places->len; j++)
        if (bond_place_stands_as_fail (point->places->pdata[j]) && is_for_this_reject (point->places->pdata[j], entry))
          return entry->defect.card;
    }
  return NULL;
}

/* One stretch of bare metal: of a place, or of the whole point (NULL). */
typedef struct
{
  const char *place, *since;
} Bare;

static void
protect (GArray *bare, const char *place)
{
  guint i;

  for (i = bare->len; i > 0; i--)
    if (place == NULL || g_strcmp0 (g_array_index (bare, Bare, i - 1).place, place) == 0)
      g_array_remove_index (bare, i - 1);
}

static gboolean
is_bare (GArray *bare, const char *place)
{
  guint i;

  for (i = 0; i < bare->len; i++)
    if (g_strcmp0 (g_array_index (bare, Bare, i).place, place) == 0)
      return TRUE;
  return FALSE;
}

/* Oldest first: what is bare and was not protected since. (transfer full) */
static GArray *
find_bare (BondPoint *point)
{
  GArray *bare = g_array_new (FALSE, FALSE, sizeof (Bare));
  guint i;

  for (i = 0; point->survey != NULL && i < point->entries->len; i++)
    {
      const BondEntry *entry = g_ptr_array_index (point->entries, i);
      Bare one = { entry->place, entry->at };
      guint done = entry->kind == BOND_ENTRY_REWORK ? entry->rework.done : 0;

      if ((entry->kind != BOND_ENTRY_REWORK && entry->kind != BOND_ENTRY_REFINISH)
          || bond_point_is_struck (point, entry))
        continue;
      if (entry->kind == BOND_ENTRY_REFINISH || (done & BOND_REWORK_FINISH_REAPPLIED))
        protect (bare, entry->place);
      else if ((done & BOND_REWORK_SURFACES_CLEANED) && !is_bare (bare, entry->place))
        g_array_append_val (bare, one);
    }
  return bare;
}

const char *
bond_point_bare_since (BondPoint *point)
{
  g_autoptr (GArray) bare = NULL;

  g_return_val_if_fail (BOND_IS_POINT (point), NULL);
  bare = find_bare (point);
  return bare->len > 0 ? g_array_index (bare, Bare, 0).since : NULL;
}

gboolean
bond_point_is_bare (BondPoint *point, const char *place)
{
  g_autoptr (GArray) bare = find_bare (point);

  return place == NULL ? bare->len > 0 : is_bare (bare, place);
}

guint
bond_point_get_hazards (BondPoint *point)
{
  g_return_val_if_fail (BOND_IS_POINT (point), 0);
  if (point->spec == NULL)
    return 0;
  return point->spec->hazards
         | (point->survey != NULL && point->survey->airframe != NULL
                ? bond_airframe_zone_hazards (point->survey->airframe, point->spec->zone)
                : 0);
}
