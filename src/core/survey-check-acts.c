/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * Whether an act beside the readings fits: notes, defect cards, deviations, finishes,
 * permits, cautions, handing over.  Whether a permit lets a reading be taken is left
 * to survey-permit.c.
 */
#include "core/survey-check.h"

#include "core/entry-field.h"
#include "core/survey-permit.h"
#include <glib/gi18n-lib.h>

gboolean
bond_check_note (BondSurvey *survey, const BondEntry *entry, GError **error)
{
  BondPoint *point = entry->point != NULL ? bond_check_point (survey, entry->point, error) : NULL;

  if (entry->point != NULL && (point == NULL || !bond_check_place (point, entry->place, FALSE, error)))
    return FALSE;
  return !bond_text_is_blank (entry->note.text)
         || bond_check_refuse (error, BOND_SURVEY_ERROR_INVALID, _ ("Not recorded: the note is empty. Write it down."));
}

gboolean
bond_check_defect (BondSurvey *survey, const BondEntry *entry, GError **error)
{
  BondPoint *point = bond_check_point (survey, entry->point, error);

  if (point == NULL || !bond_check_place (point, entry->place, FALSE, error))
    return FALSE;
  if (bond_text_is_blank (entry->defect.card))
    return bond_check_refuse (error, BOND_SURVEY_ERROR_INVALID,
                              _ ("Not recorded: the defect at %s has no card number. Type the number of the card."),
                              point->spec->number);
  if (bond_check_find_failed (point, entry->place) == NULL)
    return bond_check_refuse (error, BOND_SURVEY_ERROR_INVALID,
                              _ ("Not recorded: no reject stands at %s, so there is no defect to raise. Nothing was "
                                 "changed; write a note instead."),
                              point->spec->number);
  return TRUE;
}

static gboolean
differs_from_asked (BondPoint *point, const BondReading *reading)
{
  guint i;

  for (i = 0; i < point->rows->len; i++)
    {
      const BondLimitRow *row = ((const BondNamedRow *)point->rows->pdata[i])->row;
      if (row != NULL && !bond_reading_is_as_asked (reading, row))
        return TRUE;
    }
  return FALSE;
}

gboolean
bond_check_deviation (BondSurvey *survey, const BondEntry *entry, GError **error)
{
  BondEntry *reading;
  BondPoint *point = bond_check_acted_on (survey, entry, &reading, error);

  if (point == NULL)
    return FALSE;
  if (!bond_entry_is_reading (reading))
    return bond_check_refuse (error, BOND_SURVEY_ERROR_INVALID,
                              _ ("Not recorded: only a reading can be accepted in another measuring state. Nothing was "
                                 "changed; choose a reading of %s."),
                              point->spec->number);
  if (!differs_from_asked (point, bond_entry_get_reading (reading)))
    return bond_check_refuse (error, BOND_SURVEY_ERROR_INVALID,
                              _ ("Not recorded: this reading of %s was taken in the state its limit asks. It has its "
                                 "verdict; nothing was changed."),
                              point->spec->number);
  if (bond_text_is_blank (entry->deviation.holder) || bond_text_is_blank (entry->reason))
    return bond_check_refuse (error, BOND_SURVEY_ERROR_REASON,
                              _ ("Not recorded: a deviation needs who accepts it, by name, and why. %s has no verdict "
                                 "until then; fill in both."),
                              point->spec->number);
  return TRUE;
}

gboolean
bond_check_refinish (BondSurvey *survey, const BondEntry *entry, GError **error)
{
  BondPoint *point = bond_check_point (survey, entry->point, error);

  if (point == NULL || !bond_check_place (point, entry->place, FALSE, error))
    return FALSE;
  return bond_point_is_bare (point, entry->place)
         || bond_check_refuse (error, BOND_SURVEY_ERROR_INVALID,
                               _ ("Not recorded: the joint at %s is not bare here: no cleaning of its surfaces is "
                                  "recorded since its finish was last applied. Record the rework first."),
                               point->spec->number);
}

static gboolean
refuse_permit (GError **error, const char *what)
{
  return bond_check_refuse (error, BOND_SURVEY_ERROR_INVALID, _ ("Permit not recorded: %s."), what);
}

/* NULL: fine. Otherwise what is wrong, with what to do. */
static const char *
find_missing (const BondPermit *permit)
{
  if (bond_text_is_blank (permit->zones))
    return _ ("it names no zone. Say for which zones it holds");
  if (permit->hazard == BOND_HAZARD_EXPLOSIVE)
    return bond_text_is_blank (permit->authority) ? _ ("name who has made the electro-explosive devices safe") : NULL;
  if (permit->hazard != BOND_HAZARD_FUEL_VAPOUR)
    return _ ("there is no permit for this hazard. Choose fuel vapour or electro-explosive devices");
  if (bond_text_is_blank (permit->number) || bond_text_is_blank (permit->tester))
    return _ ("it needs its number and who tested the gas. Fill in both");
  if (permit->vapour_permille < 0 || permit->oxygen_permille < 0)
    return _ ("both figures of the gas test are needed. Fill in vapour and oxygen");
  if (permit->gas_at == NULL || permit->valid_until == NULL)
    return _ ("it needs the time of the gas test and its end. Fill in both");
  return NULL;
}

static const char *
find_bad_zone (BondSurvey *survey, const char *const *zones)
{
  for (; survey->airframe != NULL && *zones != NULL; zones++)
    if (bond_airframe_find_zone (survey->airframe, *zones) == NULL)
      return *zones;
  return NULL;
}

static gboolean
check_permit_times (BondSurvey *survey, const BondPermit *permit, GError **error)
{
  g_autofree char *now = bond_source_peek (survey->source);
  int order = 0;

  if (permit->gas_at != NULL && !bond_moment_compare (permit->gas_at, now, &order))
    return refuse_permit (error, _ ("the time of the gas test is no time. Type it like 07:40"));
  if (order > 0)
    return refuse_permit (error, _ ("its gas test lies in the future. Correct the time"));
  order = 1;
  if (permit->valid_until != NULL && !bond_moment_compare (permit->valid_until, now, &order))
    return refuse_permit (error, _ ("its end is no time. Type it like 14:30"));
  if (order <= 0)
    return refuse_permit (error, _ ("it has ended already. Have the gas test done again and record the new permit"));
  return TRUE;
}

static gboolean
check_permit_figures (BondSurvey *survey, const BondPermit *permit, GError **error)
{
  const BondHouse *house = survey->house;

  if (permit->vapour_permille > house->vapour_permille_max)
    return bond_check_refuse (
        error, BOND_SURVEY_ERROR_INVALID,
        _ ("Permit not recorded: vapour at %d.%d %% of the lower explosive limit is above the house limit of %d.%d %%. "
           "Do not measure there; ventilate and test again."),
        permit->vapour_permille / 10, permit->vapour_permille % 10, house->vapour_permille_max / 10,
        house->vapour_permille_max % 10);
  if (permit->oxygen_permille >= 0
      && (permit->oxygen_permille < house->oxygen_permille_min || permit->oxygen_permille > house->oxygen_permille_max))
    return bond_check_refuse (
        error, BOND_SURVEY_ERROR_INVALID,
        _ ("Permit not recorded: oxygen at %d.%d %% is outside the house limits of %d.%d to %d.%d %%. Nobody goes in; "
           "ventilate and test again."),
        permit->oxygen_permille / 10, permit->oxygen_permille % 10, house->oxygen_permille_min / 10,
        house->oxygen_permille_min % 10, house->oxygen_permille_max / 10, house->oxygen_permille_max % 10);
  return TRUE;
}

gboolean
bond_check_permit (BondSurvey *survey, const BondEntry *entry, GError **error)
{
  const BondPermit *permit = &entry->permit;
  g_auto (GStrv) zones = g_strsplit (permit->zones != NULL ? permit->zones : "", " ", -1);
  const char *missing = find_missing (permit);
  const char *unknown = missing == NULL ? find_bad_zone (survey, (const char *const *)zones) : NULL;

  if (missing != NULL)
    return refuse_permit (error, missing);
  if (unknown != NULL)
    return bond_check_refuse (error, BOND_SURVEY_ERROR_INVALID,
                              _ ("Permit not recorded: the airframe has no zone %s. Correct the zones."), unknown);
  if (permit->counted_in < BOND_COUNT_NOT_STATED)
    return refuse_permit (error, _ ("a count cannot be below zero. Count clips and leads again"));
  return check_permit_times (survey, permit, error) && check_permit_figures (survey, permit, error);
}

gboolean
bond_check_close_permit (BondSurvey *survey, const BondEntry *entry, GError **error)
{
  const BondEntry *permit = bond_survey_find_entry (survey, entry->ref);
  int in, out = entry->close_permit.counted_out;

  if (permit == NULL || !g_ptr_array_find (survey->permits, permit, NULL))
    return bond_check_refuse (error, BOND_SURVEY_ERROR_INVALID,
                              _ ("Not recorded: this permit is not open. Nothing was changed; choose an open one."));
  if (out < 0)
    return bond_check_refuse (error, BOND_SURVEY_ERROR_INVALID,
                              _ ("Not recorded: count the clips and leads that came out. The permit stays open."));
  in = permit->permit.counted_in;
  if (in == out || !bond_text_is_blank (entry->reason))
    return TRUE;
  if (in < 0)
    return bond_check_refuse (
        error, BOND_SURVEY_ERROR_REASON,
        _ ("Not recorded: %d clips and leads came out, and none were counted in. The permit stays "
           "open; say how it was made sure that nothing is left inside."),
        out);
  return bond_check_refuse (error, BOND_SURVEY_ERROR_REASON,
                            _ ("Not recorded: %d clips and leads went in and %d came out. The permit stays open; find "
                               "what is missing, or say what became of it."),
                            in, out);
}

gboolean
bond_check_reference (BondSurvey *survey, const BondEntry *entry, GError **error)
{
  return !bond_text_is_blank (entry->reference_move.to)
         || bond_check_refuse (error, BOND_SURVEY_ERROR_INVALID,
                               _ ("Not recorded: say where the reference clip is now."));
}

gboolean
bond_check_caution (BondSurvey *survey, const BondEntry *entry, GError **error)
{
  return !bond_text_is_blank (entry->caution.shown)
         || bond_check_refuse (error, BOND_SURVEY_ERROR_INVALID,
                               _ ("Not recorded: no caution was shown, so none was read."));
}

gboolean
bond_check_handover (BondSurvey *survey, const BondEntry *entry, GError **error)
{
  const BondHandover *handover = &entry->handover;
  const char *by = entry->by != NULL ? entry->by : survey->person;

  if (bond_text_is_blank (handover->to))
    return bond_check_refuse (error, BOND_SURVEY_ERROR_INVALID,
                              _ ("Not handed over: nobody is named who takes over. Choose the person."));
  if (!bond_check_person (survey, handover->to, error))
    return FALSE;
  if (g_strcmp0 (handover->to, by) == 0)
    return bond_check_refuse (error, BOND_SURVEY_ERROR_INVALID,
                              _ ("Not handed over: %s cannot hand over to the same person. Choose who takes over."),
                              bond_survey_person_name (survey, by));
  if (handover->points_done < BOND_COUNT_NOT_STATED || handover->points_to_do < BOND_COUNT_NOT_STATED)
    return bond_check_refuse (error, BOND_SURVEY_ERROR_INVALID,
                              _ ("Not handed over: a count of points is below zero. Count again."));
  return TRUE;
}
