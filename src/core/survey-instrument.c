/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * Which revision of an instrument a reading was taken with.  An adopted revision
 * holds from its entry on; what was read before it keeps the accuracy, steps and
 * currents of its own day.  The newest revisions are registers as any other and are
 * left to survey-replay.c.
 */
#include "core/survey-private.h"

void
bond_survey_forget_revisions (BondSurvey *survey)
{
  if (survey->revisions == NULL)
    survey->revisions = g_hash_table_new_full (g_str_hash, g_str_equal, NULL, (GDestroyNotify)g_ptr_array_unref);
  g_hash_table_remove_all (survey->revisions);
}

void
bond_survey_add_revision (BondSurvey *survey, BondEntry *adopted)
{
  const BondInstrument *instrument = adopted->adopt.object;
  GPtrArray *list = g_hash_table_lookup (survey->revisions, instrument->id);

  if (list == NULL)
    {
      list = g_ptr_array_new ();
      g_hash_table_insert (survey->revisions, instrument->id, list);
    }
  g_ptr_array_add (list, adopted);
}

const BondInstrument *
bond_survey_find_instrument_at (BondSurvey *survey, const char *id, const BondEntry *entry)
{
  const BondInstrument *found = NULL;
  const BondEntry *read;
  GPtrArray *list;
  guint i;

  g_return_val_if_fail (BOND_IS_SURVEY (survey) && id != NULL && entry != NULL, NULL);
  list = survey->revisions != NULL ? g_hash_table_lookup (survey->revisions, id) : NULL;
  if (entry->sitting == NULL || list == NULL || list->len < 2)
    return bond_survey_find_instrument (survey, id);
  /* A correction says what the meter showed when the reading was taken. */
  read = bond_survey_reading_origin (survey, entry);
  if (read == NULL)
    read = entry;
  for (i = 0; i < list->len; i++)
    {
      const BondEntry *adopted = g_ptr_array_index (list, i);

      if (found != NULL && bond_entry_compare (adopted, read) > 0)
        break;
      found = adopted->adopt.object;
    }
  return found;
}
