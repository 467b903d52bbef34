/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * Walks the history of a place once, oldest first, and keeps the day of the first
 * evidence of the defect that stands.
 */
#include "core/defect-day.h"

#include <string.h>

#define DAY_LENGTH 10 /* 2026-11-24 */

typedef struct
{
  const BondPlaceResult *result;
  char *day;        /* of the defect that stands, NULL = none */
  gboolean changed; /* the joint was opened, replaced or reworked since the defect was found */
} Search;

static gboolean
is_day (const char *text)
{
  return text != NULL && strlen (text) >= DAY_LENGTH && text[4] == '-' && text[7] == '-' && g_ascii_isdigit (text[0]);
}

/* Earlier evidence goes before what is known; days compare as text. */
static void
keep_earlier (Search *search, const char *day)
{
  if (!is_day (day) || (search->day != NULL && strcmp (search->day, day) <= 0))
    return;
  g_free (search->day);
  search->day = g_strndup (day, DAY_LENGTH);
}

static void
put_right (Search *search)
{
  g_clear_pointer (&search->day, g_free);
  search->changed = FALSE;
}

static void
follow_measurement (Search *search, const BondMeasurement *m)
{
  if (m->outcome != BOND_OUTCOME_JUDGED)
    return;
  if (!m->conforms)
    keep_earlier (search, m->at);
  else if (search->changed)
    put_right (search);
}

static void
follow_entry (Search *search, const BondEntry *entry)
{
  switch (entry->kind)
    {
    case BOND_ENTRY_REWORK:
    case BOND_ENTRY_CONDITION:
      search->changed = search->day != NULL;
      break;
    case BOND_ENTRY_VISUAL:
      if (bond_visual_rejects (entry, search->result->row))
        keep_earlier (search, entry->at);
      break;
    case BOND_ENTRY_DISPOSITION:
      if (search->day != NULL)
        keep_earlier (search, entry->disposition.first_date);
      break;
    default:
      break;
    }
}

char *
bond_place_result_first_found (const BondPlaceResult *result)
{
  Search search = { .result = result };

  g_return_val_if_fail (result != NULL, NULL);
  for (guint i = 0; i < result->history->len; i++)
    {
      const BondHistoryItem *item = g_ptr_array_index (result->history, i);

      if (item->voided || item->taken_back || item->moved_away)
        continue;
      if (item->measurement != NULL)
        follow_measurement (&search, item->measurement);
      else
        follow_entry (&search, item->entry);
    }
  return search.day;
}
