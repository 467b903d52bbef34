/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * One row a kind of entry; only readings and marks say more than their kind.  What
 * can be undone, and how far back, is left to core.
 */
#include "gui/undo-words.h"
#include "gui/walk.h"
#include <glib/gi18n-lib.h>

/* What an act is called after "Undo"; the point follows where there is one. */
static const char *const kind_words[BOND_N_ENTRY_KINDS] = {
  [BOND_ENTRY_POINT] = N_ ("Point"),
  [BOND_ENTRY_PLACE] = N_ ("Place"),
  [BOND_ENTRY_READING] = N_ ("Reading"),
  [BOND_ENTRY_VOID] = N_ ("Void"),
  [BOND_ENTRY_CORRECT] = N_ ("Correction"),
  [BOND_ENTRY_MOVE] = N_ ("Move"),
  [BOND_ENTRY_TAKE_BACK] = N_ ("Undo"),
  [BOND_ENTRY_REWORK] = N_ ("Rework"),
  [BOND_ENTRY_CONDITION] = N_ ("Opened or Replaced"),
  [BOND_ENTRY_STATE] = N_ ("Mark"),
  [BOND_ENTRY_VISUAL] = N_ ("Visual Condition"),
  [BOND_ENTRY_DISPOSITION] = N_ ("Disposition"),
  [BOND_ENTRY_ATTACH] = N_ ("Attachment"),
  [BOND_ENTRY_NOTE] = N_ ("Note"),
  [BOND_ENTRY_DEFECT] = N_ ("Defect Card"),
  [BOND_ENTRY_DEVIATION] = N_ ("Deviation"),
  [BOND_ENTRY_REFINISH] = N_ ("Finish Applied"),
  [BOND_ENTRY_PERMIT] = N_ ("Permit"),
  [BOND_ENTRY_CLOSE_PERMIT] = N_ ("Closing of the Permit"),
  [BOND_ENTRY_REFERENCE] = N_ ("Move of the Reference Clip"),
  [BOND_ENTRY_CAUTION] = N_ ("Cautions Read"),
  [BOND_ENTRY_HANDOVER] = N_ ("Handover"),
  [BOND_ENTRY_ADOPT] = N_ ("Addition to the Registers"),
};

static const char *const mark_words[] = {
  [BOND_POINT_MARK_NONE] = N_ ("Mark"),
  [BOND_POINT_MARK_NOT_ACCESSIBLE] = N_ ("Not Accessible"),
  [BOND_POINT_MARK_NOT_FITTED] = N_ ("Not Fitted"),
  [BOND_POINT_MARK_NOT_APPLICABLE] = N_ ("Not Applicable"),
  [BOND_POINT_MARK_NOT_IN_SAMPLE] = N_ ("Not in Sample"),
};

static char *
name_of (const BondEntry *entry)
{
  const char *kind = kind_words[entry->kind] != NULL ? _ (kind_words[entry->kind]) : _ ("Last Act");

  if (entry->kind == BOND_ENTRY_READING)
    {
      g_autofree char *shown = bond_walk_shown (&entry->reading);

      return g_strdup_printf (_ ("Reading %s"), shown);
    }
  if (entry->kind == BOND_ENTRY_STATE && (guint)entry->state.mark < G_N_ELEMENTS (mark_words))
    return g_strdup (_ (mark_words[entry->state.mark]));
  if (entry->kind == BOND_ENTRY_ADOPT && entry->adopt.what == BOND_ADOPT_PERSON)
    return g_strdup (_ ("New Name"));
  if (entry->kind == BOND_ENTRY_ATTACH && entry->attach.type != NULL && g_str_has_prefix (entry->attach.type, "image/"))
    return g_strdup (_ ("Photo"));
  return g_strdup (kind);
}

char *
bond_undo_what (BondSurvey *survey, const BondEntry *entry)
{
  BondPoint *point;
  g_autofree char *name = NULL;

  g_return_val_if_fail (BOND_IS_SURVEY (survey) && entry != NULL, NULL);
  point = entry->point != NULL ? bond_survey_find_point (survey, entry->point) : NULL;
  name = name_of (entry);
  if (point == NULL)
    return g_steal_pointer (&name);
  /* TRANSLATORS: what was recorded, and the number of its point: "Rework on 541-J02" */
  return g_strdup_printf (_ ("%s on %s"), name, bond_point_get_number (point));
}

char *
bond_undo_words (BondSurvey *survey)
{
  BondEntry *target = bond_survey_undo_target (survey);
  g_autofree char *what = target != NULL ? bond_undo_what (survey, target) : NULL;

  return what != NULL ? g_strdup_printf (_ ("Undo %s"), what) : g_strdup (_ ("Undo"));
}

char *
bond_redo_words (BondSurvey *survey)
{
  BondEntry *undone = bond_survey_redo_target (survey);
  BondEntry *target = undone != NULL ? bond_survey_find_entry (survey, undone->ref) : NULL;
  g_autofree char *what = target != NULL ? bond_undo_what (survey, target) : NULL;

  return what != NULL ? g_strdup_printf (_ ("Redo %s"), what) : g_strdup (_ ("Redo"));
}
