/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * Core knows ids and no lines; here the two meet.
 */
#include "store/replay.h"

#include "store/sense.h"

#include <glib/gi18n-lib.h>
#include <string.h>

/* The entry a message from core begins with. */
static const BondRecordEntry *
find_named (const BondRecord *record, const char *message)
{
  const BondRecordEntry *found = NULL;
  const char *first = NULL;

  for (guint i = 0; i < record->entries->len; i++)
    {
      const BondRecordEntry *one = g_ptr_array_index (record->entries, i);
      const char *at = strstr (message, one->entry->id);

      if (at == NULL || g_ascii_isdigit (at[strlen (one->entry->id)]) || (first != NULL && at > first))
        continue;
      first = at;
      found = one;
    }
  return found;
}

static char *
file_of (const BondRecordEntry *where, const char *path)
{
  return g_strconcat (path, where != NULL && where->in_journal ? ".journal" : "", NULL);
}

static void
set_sense_error (const BondRecordEntry *where, const char *path, const GError *what, GError **error)
{
  g_autofree char *file = file_of (where, path);

  if (where == NULL)
    g_set_error (error, BOND_STORE_ERROR, BOND_STORE_ERROR_SENSE, "%s: %s", file, what->message);
  else
    g_set_error (error, BOND_STORE_ERROR, BOND_STORE_ERROR_SENSE, "%s:%d: %s", file, where->line, what->message);
}

static gboolean
load (const BondRecord *record, BondSurvey *survey, const char *path, GError **error)
{
  g_autoptr (GError) unsound = NULL;

  for (guint i = 0; i < record->entries->len; i++)
    {
      const BondRecordEntry *one = g_ptr_array_index (record->entries, i);

      if (bond_survey_load_entry (survey, one->entry, &unsound))
        continue;
      set_sense_error (one, path, unsound, error);
      return FALSE;
    }
  if (bond_survey_check_loaded (survey, &unsound))
    return TRUE;
  set_sense_error (find_named (record, unsound->message), path, unsound, error);
  return FALSE;
}

gboolean
bond_record_replay (BondRecord *record, BondSurvey *survey, const char *path, GPtrArray *problems, GError **error)
{
  BondSense sense;

  g_return_val_if_fail (record != NULL && BOND_IS_SURVEY (survey) && path != NULL, FALSE);

  if (!load (record, survey, path, error))
    return FALSE;
  bond_survey_loaded (survey);
  sense = bond_record_check_sense (record, survey, path, problems);
  record->zone_missing = sense.zone_missing;
  if (record->broken == NULL)
    record->broken = g_steal_pointer (&sense.broken);
  g_free (sense.broken);
  return TRUE;
}
