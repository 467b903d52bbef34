/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * What an act that is no reading says, on paper and on the screen: one row a kind.
 * Readings and how a line is shown are left to who shows it.
 */
#include "report/act-words.h"
#include "report/figures.h"

#include <glib/gi18n-lib.h>

void
bond_act_append (GString *text, const char *words)
{
  if (words == NULL || *words == '\0')
    return;
  if (text->len > 0)
    g_string_append (text, ", ");
  g_string_append (text, words);
}

void
bond_act_append_titled (GString *text, const char *title, const char *words)
{
  g_autofree char *both = words != NULL && *words != '\0' ? g_strdup_printf ("%s %s", title, words) : NULL;

  bond_act_append (text, both);
}

static void
say_rework (BondSurvey *survey, char mark, const BondEntry *entry, GString *text)
{
  const BondRework *rework = &entry->rework;
  int i;

  for (i = 0; i < BOND_N_REWORK_DONE; i++)
    if (rework->done & (1u << i))
      bond_act_append (text, bond_rework_done_name ((BondReworkDone)(1 << i)));
  bond_act_append (text, rework->note);
  bond_act_append (text, rework->reference);
  bond_act_append_titled (text, _ ("done by"),
                          rework->done_by != NULL ? bond_survey_person_name (survey, rework->done_by) : NULL);
}

static void
say_condition (BondSurvey *survey, char mark, const BondEntry *entry, GString *text)
{
  bond_act_append (text, bond_condition_name (entry->condition.condition));
  bond_act_append (text, entry->condition.reference);
}

static void
say_visual (BondSurvey *survey, char mark, const BondEntry *entry, GString *text)
{
  bond_act_append (text, bond_visual_name (entry->visual.finding));
  if (entry->visual.percent >= 0)
    {
      g_autofree char *percent = g_strdup_printf ("%d\u00a0%%", entry->visual.percent);

      bond_act_append (text, percent);
    }
  bond_act_append (text, entry->visual.reject ? _ ("reject") : _ ("accepted"));
}

static void
say_disposition (BondSurvey *survey, char mark, const BondEntry *entry, GString *text)
{
  const BondDisposition *disposition = &entry->disposition;
  g_autofree char *bounds = NULL;

  bond_act_append (text, disposition->reference);
  bond_act_append_titled (text, _ ("by"), disposition->holder);
  if (disposition->bounds.upper.relation != BOND_RELATION_NONE
      || disposition->bounds.lower.relation != BOND_RELATION_NONE)
    {
      bounds = bond_bounds_format (&disposition->bounds, mark, TRUE);
      bond_act_append_titled (text, _ ("accepted to"), bounds);
    }
  bond_act_append_titled (text, _ ("until"), disposition->until);
  bond_act_append_titled (text, _ ("first found"), disposition->first_date);
}

static void
say_state (BondSurvey *survey, char mark, const BondEntry *entry, GString *text)
{
  static const BondState of_mark[] = {
    [BOND_POINT_MARK_NOT_ACCESSIBLE] = BOND_STATE_NOT_ACCESSIBLE,
    [BOND_POINT_MARK_NOT_FITTED] = BOND_STATE_NOT_FITTED,
    [BOND_POINT_MARK_NOT_APPLICABLE] = BOND_STATE_NOT_APPLICABLE,
    [BOND_POINT_MARK_NOT_IN_SAMPLE] = BOND_STATE_NOT_IN_SAMPLE,
  };

  if (entry->state.mark == BOND_POINT_MARK_NONE)
    bond_act_append (text, _ ("as the readings say"));
  else
    bond_act_append (text, bond_state_name (of_mark[entry->state.mark]));
}

/* "Other" is nothing to say: its words follow. */
static void
append_why (GString *text, BondVoidReason why)
{
  if (why != BOND_VOID_NONE && why != BOND_VOID_OTHER)
    bond_act_append (text, bond_void_reason_name (why));
}

static void
say_void (BondSurvey *survey, char mark, const BondEntry *entry, GString *text)
{
  append_why (text, entry->voided.why);
}

static void
say_correct (BondSurvey *survey, char mark, const BondEntry *entry, GString *text)
{
  append_why (text, entry->correct.why);
}

static void
say_take_back (BondSurvey *survey, char mark, const BondEntry *entry, GString *text)
{
  append_why (text, entry->take_back.why);
}

static void
say_move (BondSurvey *survey, char mark, const BondEntry *entry, GString *text)
{
  BondPoint *from = entry->point != NULL ? bond_survey_find_point (survey, entry->point) : NULL;
  BondPoint *to = entry->move.to_point != NULL ? bond_survey_find_point (survey, entry->move.to_point) : NULL;

  bond_act_append_titled (text, _ ("from"), from != NULL ? bond_point_get_number (from) : NULL);
  bond_act_append_titled (text, _ ("to"), to != NULL ? bond_point_get_number (to) : NULL);
  append_why (text, entry->move.why);
}

static void
say_attach (BondSurvey *survey, char mark, const BondEntry *entry, GString *text)
{
  bond_act_append (text, entry->attach.name);
}

/* What the display stood at; it counts nowhere. */
static void
say_seen (BondSurvey *survey, char mark, const BondEntry *entry, GString *text)
{
  g_autofree char *figure = bond_reading_figure (survey, &entry->reading, entry->reading.unit, mark);

  bond_act_append_titled (text, figure, bond_unit_symbol (entry->reading.unit));
}

static void
say_note (BondSurvey *survey, char mark, const BondEntry *entry, GString *text)
{
  bond_act_append (text, entry->note.text);
}

static void
say_defect (BondSurvey *survey, char mark, const BondEntry *entry, GString *text)
{
  bond_act_append_titled (text, _ ("card"), entry->defect.card);
  bond_act_append (text, entry->defect.words);
}

static void
say_deviation (BondSurvey *survey, char mark, const BondEntry *entry, GString *text)
{
  bond_act_append (text, _ ("other measuring state accepted"));
  bond_act_append_titled (text, _ ("by"), entry->deviation.holder);
}

static void
say_refinish (BondSurvey *survey, char mark, const BondEntry *entry, GString *text)
{
  bond_act_append (text, entry->refinish.how);
  bond_act_append (text, entry->refinish.reference);
  bond_act_append_titled (text, _ ("done by"),
                          entry->refinish.done_by != NULL ? bond_survey_person_name (survey, entry->refinish.done_by)
                                                          : NULL);
}

static void
say_point (BondSurvey *survey, char mark, const BondEntry *entry, GString *text)
{
  bond_act_append (text, entry->spec != NULL ? entry->spec->number : NULL);
  bond_act_append_titled (text, _ ("limit"), entry->spec != NULL ? entry->spec->limit : NULL);
}

static void
say_place (BondSurvey *survey, char mark, const BondEntry *entry, GString *text)
{
  bond_act_append (text, entry->place_spec.label != NULL ? entry->place_spec.label : entry->place);
  bond_act_append (text, entry->place_spec.in_sample ? _ ("in the sample") : _ ("not in the sample"));
}

typedef struct
{
  BondEntryKind kind;
  const char *word;
  void (*say) (BondSurvey *survey, char mark, const BondEntry *entry, GString *text);
} Act;

static const Act acts[] = {
  { BOND_ENTRY_POINT, N_ ("Point planned"), say_point },
  { BOND_ENTRY_PLACE, N_ ("Place planned"), say_place },
  { BOND_ENTRY_VOID, N_ ("Void"), say_void },
  { BOND_ENTRY_CORRECT, N_ ("Corrected"), say_correct },
  { BOND_ENTRY_MOVE, N_ ("Moved"), say_move },
  { BOND_ENTRY_TAKE_BACK, N_ ("Undone"), say_take_back },
  { BOND_ENTRY_REWORK, N_ ("Rework"), say_rework },
  { BOND_ENTRY_CONDITION, N_ ("Joint"), say_condition },
  { BOND_ENTRY_STATE, N_ ("State"), say_state },
  { BOND_ENTRY_VISUAL, N_ ("Visual"), say_visual },
  { BOND_ENTRY_DISPOSITION, N_ ("Disposition"), say_disposition },
  { BOND_ENTRY_ATTACH, N_ ("Attached"), say_attach },
  { BOND_ENTRY_SEEN, N_ ("Seen, not recorded"), say_seen },
  { BOND_ENTRY_NOTE, N_ ("Note"), say_note },
  { BOND_ENTRY_DEFECT, N_ ("Defect raised"), say_defect },
  { BOND_ENTRY_DEVIATION, N_ ("Deviation"), say_deviation },
  { BOND_ENTRY_REFINISH, N_ ("Finish applied"), say_refinish },
};

static const Act *
find_act (BondEntryKind kind)
{
  guint i;

  for (i = 0; i < G_N_ELEMENTS (acts); i++)
    if (acts[i].kind == kind)
      return &acts[i];
  return NULL;
}

const char *
bond_act_word (BondEntryKind kind)
{
  const Act *act = find_act (kind);

  return act != NULL ? _ (act->word) : bond_entry_kind_info (kind)->name;
}

char *
bond_act_details (BondSurvey *survey, const BondEntry *entry, char mark)
{
  const Act *act = find_act (entry->kind);
  GString *text = g_string_new (NULL);

  if (act != NULL && act->say != NULL)
    act->say (survey, mark, entry, text);
  bond_act_append (text, entry->reason);
  return g_string_free (text, FALSE);
}
