/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * Whether an entry fits the state it meets.  Every message says what happened, what
 * was kept and what to do next.  Files are not judged by these rules (what was once
 * recorded is replayed), only acts that are about to be recorded.
 */
#include "core/survey-check.h"

#include <glib/gi18n-lib.h>

/* Attachment limits of the design: 12 MB each. */
#define MAX_ATTACHMENT_BYTES (12 * 1000 * 1000)

/* Always FALSE, so that a check can end with it. */
gboolean
bond_check_refuse (GError **error, BondSurveyError code, const char *format, ...)
{
  va_list args;

  if (error == NULL)
    return FALSE;
  va_start (args, format);
  *error = g_error_new_valist (BOND_SURVEY_ERROR, code, format, args);
  va_end (args);
  return FALSE;
}

BondPoint *
bond_check_point (BondSurvey *survey, const char *id, GError **error)
{
  BondPoint *point = id != NULL ? bond_survey_find_point (survey, id) : NULL;

  if (point == NULL)
    bond_check_refuse (
        error, BOND_SURVEY_ERROR_INVALID,
        _ ("Not recorded: the point is no longer in this survey. What you typed is kept; choose a point."));
  return point;
}

/* A reading must name its place on a divided point; other acts may mean the whole point. */
gboolean
bond_check_place (BondPoint *point, const char *place, gboolean needed, GError **error)
{
  if (place == NULL && (!needed || !bond_point_has_places (point)))
    return TRUE;
  if (place == NULL)
    return bond_check_refuse (
        error, BOND_SURVEY_ERROR_INVALID,
        _ ("Not recorded: %s has several places. What you typed is kept; choose the place measured."),
        point->spec->number);
  if (bond_point_has_place (point, place))
    return TRUE;
  return bond_check_refuse (error, BOND_SURVEY_ERROR_INVALID,
                            _ ("Not recorded: %s has no such place. What you typed is kept; choose one of its places."),
                            point->spec->number);
}

static gboolean
check_create (BondSurvey *survey, const BondEntry *entry, GError **error)
{
  if (survey->header != NULL)
    return bond_check_refuse (error, BOND_SURVEY_ERROR_INVALID,
                              _ ("Not recorded: this survey already has its header and decision rule. "
                                 "Start a new survey for another aircraft or rule."));
  if (bond_text_is_blank (entry->create.aircraft_type) || bond_text_is_blank (entry->create.serial))
    return bond_check_refuse (error, BOND_SURVEY_ERROR_INVALID,
                              _ ("Not recorded: a survey needs the aircraft type and serial number. Fill in both."));
  return TRUE;
}

static int
revision_of (const BondAdopt *adopt, const char **id)
{
  switch (adopt->what)
    {
    case BOND_ADOPT_LIMIT_SET:
      *id = ((BondLimitSet *)adopt->object)->id;
      return ((BondLimitSet *)adopt->object)->revision;
    case BOND_ADOPT_INSTRUMENT:
      *id = ((BondInstrument *)adopt->object)->id;
      return ((BondInstrument *)adopt->object)->revision;
    case BOND_ADOPT_PERSON:
      *id = ((BondPerson *)adopt->object)->id;
      return ((BondPerson *)adopt->object)->revision;
    case BOND_ADOPT_AIRFRAME:
      *id = ((BondAirframe *)adopt->object)->id;
      return ((BondAirframe *)adopt->object)->revision;
    case BOND_ADOPT_HOUSE:
      *id = ((BondHouse *)adopt->object)->id;
      return ((BondHouse *)adopt->object)->revision;
    case BOND_ADOPT_EARLIER:
    default:
      *id = NULL;
      return 0;
    }
}

/* An older revision would turn the record back without anybody noticing. */
static gboolean
check_adopt (BondSurvey *survey, const BondEntry *entry, GError **error)
{
  const char *id, *other_id;
  int revision;
  guint i;

  if (entry->adopt.object == NULL)
    return bond_check_refuse (error, BOND_SURVEY_ERROR_INVALID, _ ("Not recorded: there is nothing to adopt."));
  revision = revision_of (&entry->adopt, &id);
  for (i = 0; id != NULL && i < survey->entries->len; i++)
    {
      const BondEntry *other = g_ptr_array_index (survey->entries, i);
      if (other->kind == BOND_ENTRY_ADOPT && other->adopt.what == entry->adopt.what
          && revision_of (&other->adopt, &other_id) > revision && strcmp (id, other_id) == 0)
        return bond_check_refuse (error, BOND_SURVEY_ERROR_INVALID,
                                  _ ("Not recorded: the survey already holds a newer revision of %s than %d. "
                                     "The newer one stays in force."),
                                  id, revision);
    }
  return bond_check_adopt_keeps_fails (survey, &entry->adopt, id, error);
}

static gboolean
same_limit (const BondPointSpec *a, const BondPointSpec *b)
{
  return g_strcmp0 (a->limit, b->limit) == 0 && a->own_limit == b->own_limit && a->klass == b->klass
         && a->condition == b->condition;
}

gboolean
bond_point_has_readings (const BondPoint *point)
{
  guint i;

  for (i = 0; i < point->places->len; i++)
    if (bond_place_was_measured (point->places->pdata[i]))
      return TRUE;
  return FALSE;
}

/* A limit that is not there would let everything through. */
static gboolean
check_limit_names (BondSurvey *survey, const BondPointSpec *spec, GError **error)
{
  g_autoptr (GPtrArray) rows = bond_limit_lookup_all (survey->limit_sets, spec->own_limit, spec->limit, spec->klass);
  guint i;

  for (i = 0; i < rows->len; i++)
    {
      const BondNamedRow *named = g_ptr_array_index (rows, i);
      if (named->name != NULL && named->row == NULL)
        return bond_check_refuse (error, BOND_SURVEY_ERROR_INVALID,
                                  _ ("Not recorded: no limit set of this survey holds %s. Point %s was not changed; "
                                     "adopt its set or choose another limit."),
                                  named->name, spec->number);
    }
  return TRUE;
}

static gboolean
check_point (BondSurvey *survey, const BondEntry *entry, GError **error)
{
  const BondPointSpec *spec = entry->spec;
  BondPoint *twin, *old;

  if (spec == NULL || g_strcmp0 (spec->id, entry->point) != 0)
    return bond_check_refuse (error, BOND_SURVEY_ERROR_INVALID,
                              _ ("Not recorded: the entry does not describe its own point."));
  if (!bond_point_spec_check (spec, error))
    return FALSE;
  if (survey->airframe != NULL && bond_airframe_find_zone (survey->airframe, spec->zone) == NULL)
    return bond_check_refuse (
        error, BOND_SURVEY_ERROR_INVALID,
        _ ("Not recorded: the airframe has no zone %s. Point %s was not placed; choose a zone of the "
           "airframe."),
        spec->zone, spec->number);
  twin = bond_survey_find_number (survey, spec->number);
  if (twin != NULL && strcmp (twin->id, spec->id) != 0)
    return bond_check_refuse (
        error, BOND_SURVEY_ERROR_INVALID,
        _ ("Not recorded: number %s is already in use. The point was not changed; choose another number."),
        spec->number);
  old = bond_survey_find_point (survey, spec->id);
  if (!(old != NULL && same_limit (old->spec, spec)) && !check_limit_names (survey, spec, error))
    return FALSE;
  if (old != NULL && bond_point_has_readings (old) && !same_limit (old->spec, spec)
      && bond_text_is_blank (entry->reason))
    return bond_check_refuse (error, BOND_SURVEY_ERROR_REASON,
                              _ ("Not recorded: %s has been measured, and its limit, class or condition would change. "
                                 "The point was not changed; give the reason."),
                              spec->number);
  return old == NULL || bond_check_spec_keeps_fails (old, (BondPointSpec *)spec, error);
}

static gboolean
check_place_entry (BondSurvey *survey, const BondEntry *entry, GError **error)
{
  BondPoint *point = bond_check_point (survey, entry->point, error);
  const BondPlaceResult *whole, *place;

  if (point == NULL)
    return FALSE;
  if (bond_text_is_blank (entry->place) || bond_text_is_blank (entry->place_spec.label))
    return bond_check_refuse (error, BOND_SURVEY_ERROR_INVALID,
                              _ ("Not recorded: a place of %s needs an id and a label. Name the bolt or leg."),
                              point->spec->number);
  whole = bond_point_get_place (point, NULL);
  if (whole->place == NULL && bond_place_was_measured (whole))
    return bond_check_refuse (
        error, BOND_SURVEY_ERROR_INVALID,
        _ ("Not recorded: %s has readings of the whole point and cannot be divided now. They are kept; "
           "put another point beside it for the places."),
        point->spec->number);
  place = bond_point_get_place (point, entry->place);
  if (place != NULL && place->in_sample && !entry->place_spec.in_sample && bond_text_is_blank (entry->reason))
    return bond_check_refuse (error, BOND_SURVEY_ERROR_REASON,
                              _ ("Not recorded: leaving %s of %s out of the sample needs a reason. It is still asked; "
                                 "give the reason."),
                              entry->place_spec.label, point->spec->number);
  return TRUE;
}

static gboolean
check_rework (BondSurvey *survey, const BondEntry *entry, GError **error)
{
  BondPoint *point = bond_check_point (survey, entry->point, error);

  if (point == NULL || !bond_check_place (point, entry->place, FALSE, error))
    return FALSE;
  if (entry->rework.done == 0 || entry->rework.done >= 1u << BOND_N_REWORK_DONE
      || (guint)entry->rework.found >= BOND_N_VISUAL_FINDINGS)
    return bond_check_refuse (error, BOND_SURVEY_ERROR_INVALID,
                              _ ("Not recorded: say what was done at %s. The limit stays as it was until then."),
                              point->spec->number);
  return TRUE;
}

static gboolean
check_condition (BondSurvey *survey, const BondEntry *entry, GError **error)
{
  BondPoint *point = bond_check_point (survey, entry->point, error);

  if (point == NULL || !bond_check_place (point, entry->place, FALSE, error))
    return FALSE;
  if (entry->condition.condition == BOND_CONDITION_UNDISTURBED
      || (guint)entry->condition.condition > BOND_CONDITION_REWORKED)
    return bond_check_refuse (
        error, BOND_SURVEY_ERROR_INVALID,
        _ ("Not recorded: a joint that was disturbed keeps the stricter limit until the survey ends. If %s was "
           "never touched, undo or void that entry."),
        point->spec->number);
  return TRUE;
}

const BondPlaceResult *
bond_check_find_failed (BondPoint *point, const char *place)
{
  guint i;

  for (i = 0; i < point->places->len; i++)
    {
      const BondPlaceResult *result = g_ptr_array_index (point->places, i);
      if ((place == NULL || g_strcmp0 (result->place, place) == 0) && bond_place_stands_as_fail (result))
        return result;
    }
  return NULL;
}

static gboolean
check_state (BondSurvey *survey, const BondEntry *entry, GError **error)
{
  BondPoint *point = bond_check_point (survey, entry->point, error);

  if (point == NULL || !bond_check_place (point, entry->place, FALSE, error))
    return FALSE;
  if (entry->state.mark == BOND_POINT_MARK_NONE)
    return TRUE;
  if ((guint)entry->state.mark > BOND_POINT_MARK_NOT_IN_SAMPLE || bond_text_is_blank (entry->reason))
    return bond_check_refuse (
        error, BOND_SURVEY_ERROR_REASON,
        _ ("Not recorded: a point that is not measured needs a reason. %s stays as it was; give the reason."),
        point->spec->number);
  if (bond_check_find_failed (point, entry->place) != NULL)
    return bond_check_refuse (
        error, BOND_SURVEY_ERROR_INVALID,
        _ ("Not recorded: %s does not conform, and a mark would hide it. The fail stands; record rework or a "
           "disposition."),
        point->spec->number);
  if (entry->state.mark != BOND_POINT_MARK_NOT_ACCESSIBLE && bond_point_waits_after_fail (point, entry->place))
    return bond_check_refuse (
        error, BOND_SURVEY_ERROR_INVALID,
        _ ("Not recorded: %s did not conform and was not measured after the work on it. It stays open; measure it, or "
           "mark it not accessible."),
        point->spec->number);
  return TRUE;
}

static gboolean
check_visual (BondSurvey *survey, const BondEntry *entry, GError **error)
{
  BondPoint *point = bond_check_point (survey, entry->point, error);

  if (point == NULL || !bond_check_place (point, entry->place, FALSE, error))
    return FALSE;
  if ((guint)entry->visual.finding >= BOND_N_VISUAL_FINDINGS || entry->visual.percent < -1
      || entry->visual.percent > 100)
    return bond_check_refuse (error, BOND_SURVEY_ERROR_INVALID,
                              _ ("Not recorded: the share must lie between 0 and 100 percent. Type it again."));
  if (entry->visual.finding == BOND_VISUAL_OTHER && bond_text_is_blank (entry->reason))
    return bond_check_refuse (error, BOND_SURVEY_ERROR_REASON, _ ("Not recorded: say in words what was seen at %s."),
                              point->spec->number);
  return TRUE;
}

static gboolean
bounds_are_sound (const BondBounds *bounds)
{
  return (bounds->upper.relation == BOND_RELATION_NONE || bounds->upper.nohm > 0)
         && (bounds->lower.relation == BOND_RELATION_NONE || bounds->lower.nohm > 0);
}

static gboolean
check_disposition (BondSurvey *survey, const BondEntry *entry, GError **error)
{
  const BondDisposition *given = &entry->disposition;
  BondPoint *point = bond_check_point (survey, entry->point, error);
  const BondPlaceResult *failed;

  if (point == NULL || !bond_check_place (point, entry->place, FALSE, error))
    return FALSE;
  failed = bond_check_find_failed (point, entry->place);
  if (failed == NULL)
    return bond_check_refuse (
        error, BOND_SURVEY_ERROR_INVALID,
        _ ("Not recorded: only a point that does not conform can be accepted, carried forward or deferred. "
           "%s stays as it is."),
        point->spec->number);
  if (bond_text_is_blank (given->reference) || bond_text_is_blank (given->holder) || bond_text_is_blank (given->until)
      || (given->kind != BOND_DISPOSITION_ACCEPTED && bond_text_is_blank (given->first_date)))
    return bond_check_refuse (
        error, BOND_SURVEY_ERROR_REASON,
        _ ("Not recorded: a disposition needs its reference, who gave it and until when, and for a defect "
           "carried forward or deferred its first date. The fail at %s stands; fill these in."),
        point->spec->number);
  if (!bounds_are_sound (&given->bounds) || !bond_disposition_covers (given, failed->decides))
    return bond_check_refuse (
        error, BOND_SURVEY_ERROR_INVALID,
        _ ("Not recorded: the value at %s does not meet the new limit either. The fail stands; check the "
           "limit given."),
        point->spec->number);
  return TRUE;
}

static gboolean
is_digest (const char *text)
{
  return text != NULL && strlen (text) == 64 && strspn (text, "0123456789abcdef") == 64;
}

static gboolean
check_attach (BondSurvey *survey, const BondEntry *entry, GError **error)
{
  const BondAttach *attach = &entry->attach;

  if (entry->point != NULL && bond_check_point (survey, entry->point, error) == NULL)
    return FALSE;
  if (!is_digest (attach->sha256) || bond_text_is_blank (attach->name) || attach->size <= 0)
    return bond_check_refuse (error, BOND_SURVEY_ERROR_INVALID,
                              _ ("Not attached: the file is empty or has no name. Choose another file."));
  if (attach->size > MAX_ATTACHMENT_BYTES)
    return bond_check_refuse (error, BOND_SURVEY_ERROR_INVALID,
                              _ ("Not attached: %s is larger than 12 MB. Make it smaller and attach it again."),
                              attach->name);
  return TRUE;
}

/* One row a kind. */
static gboolean (*const checks[BOND_N_ENTRY_KINDS]) (BondSurvey *, const BondEntry *, GError **) = {
  [BOND_ENTRY_CREATE] = check_create,
  [BOND_ENTRY_ADOPT] = check_adopt,
  [BOND_ENTRY_POINT] = check_point,
  [BOND_ENTRY_PLACE] = check_place_entry,
  [BOND_ENTRY_READING] = bond_check_reading,
  [BOND_ENTRY_VOID] = bond_check_void,
  [BOND_ENTRY_CORRECT] = bond_check_correct,
  [BOND_ENTRY_MOVE] = bond_check_move,
  [BOND_ENTRY_TAKE_BACK] = bond_check_take_back,
  [BOND_ENTRY_REWORK] = check_rework,
  [BOND_ENTRY_CONDITION] = check_condition,
  [BOND_ENTRY_STATE] = check_state,
  [BOND_ENTRY_VISUAL] = check_visual,
  [BOND_ENTRY_DISPOSITION] = check_disposition,
  [BOND_ENTRY_ATTACH] = check_attach,
  [BOND_ENTRY_SEEN] = bond_check_seen,
  [BOND_ENTRY_NOTE] = bond_check_note,
  [BOND_ENTRY_DEFECT] = bond_check_defect,
  [BOND_ENTRY_DEVIATION] = bond_check_deviation,
  [BOND_ENTRY_REFINISH] = bond_check_refinish,
  [BOND_ENTRY_PERMIT] = bond_check_permit,
  [BOND_ENTRY_CLOSE_PERMIT] = bond_check_close_permit,
  [BOND_ENTRY_REFERENCE] = bond_check_reference,
  [BOND_ENTRY_CAUTION] = bond_check_caution,
  [BOND_ENTRY_HANDOVER] = bond_check_handover,
};

gboolean
bond_check_person (BondSurvey *survey, const char *id, GError **error)
{
  return bond_survey_find_person (survey, id) != NULL
         || bond_check_refuse (error, BOND_SURVEY_ERROR_INVALID,
                               _ ("Not recorded: %s is not among the people of this survey. What you typed is kept; "
                                  "choose the person again."),
                               id);
}

/* The header and the registers come first, and the people are among them. */
static gboolean
check_people (BondSurvey *survey, const BondEntry *entry, GError **error)
{
  const char *const named[] = { entry->by != NULL ? entry->by : survey->person, entry->entered_by, entry->under };
  guint i;

  if (entry->kind == BOND_ENTRY_CREATE || entry->kind == BOND_ENTRY_ADOPT)
    return TRUE;
  for (i = 0; i < G_N_ELEMENTS (named); i++)
    if (named[i] != NULL && !bond_check_person (survey, named[i], error))
      return FALSE;
  return TRUE;
}

gboolean
bond_survey_check_entry (BondSurvey *survey, const BondEntry *entry, GError **error)
{
  const BondEntryKindInfo *info;

  g_return_val_if_fail (BOND_IS_SURVEY (survey) && entry != NULL, FALSE);
  info = bond_entry_kind_info (entry->kind);
  if ((info->needs_point && bond_text_is_blank (entry->point)) || (info->needs_ref && bond_text_is_blank (entry->ref)))
    return bond_check_refuse (
        error, BOND_SURVEY_ERROR_INVALID,
        _ ("Not recorded: the entry does not say what it is about. Choose a point and try again."));
  if (bond_text_is_blank (entry->by) && bond_text_is_blank (survey->person))
    return bond_check_refuse (
        error, BOND_SURVEY_ERROR_INVALID,
        _ ("Not recorded: nobody is named as the person measuring. What you typed is kept; choose the person."));
  return check_people (survey, entry, error) && checks[entry->kind](survey, entry, error);
}
