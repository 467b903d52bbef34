/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * Core knows ids and no lines; here the two meet.
 */
#include "store/replay.h"

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

/* A newer revision of an airframe may have lost a zone: the point is still judged, and somebody should look. */
static void
check_zones (const BondRecord *record, BondSurvey *survey, const char *path, GPtrArray *problems)
{
  const BondAirframe *airframe = bond_survey_get_airframe (survey);

  for (guint i = 0; airframe != NULL && i < record->entries->len; i++)
    {
      const BondRecordEntry *one = g_ptr_array_index (record->entries, i);
      const BondEntry *entry = one->entry;
      g_autofree char *file = NULL;

      if (entry->kind != BOND_ENTRY_POINT || bond_airframe_find_zone (airframe, entry->spec->zone) != NULL)
        continue;
      file = file_of (one, path);
      g_ptr_array_add (problems,
                       bond_problem_new (file, one->line,
                                         _ ("point %s names zone %s, which airframe %s does not have. It is kept; "
                                            "give the point a zone of the airframe."),
                                         entry->spec->number, entry->spec->zone, airframe->id));
    }
}

gboolean
bond_record_replay (const BondRecord *record, BondSurvey *survey, const char *path, GPtrArray *problems, GError **error)
{
  g_return_val_if_fail (record != NULL && BOND_IS_SURVEY (survey) && path != NULL, FALSE);

  if (!load (record, survey, path, error))
    return FALSE;
  bond_survey_loaded (survey);
  if (problems != NULL)
    check_zones (record, survey, path, problems);
  return TRUE;
}
