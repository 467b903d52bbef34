/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * Whether an act on a reading fits: recording, voiding, correcting, moving and
 * undoing it.  A reading beyond its limit is evidence and leaves the result only for
 * the reasons of the design; poor contact is never one.
 */
#include "core/survey-check.h"

#include "core/entry-field.h"
#include "core/survey-permit.h"
#include <glib/gi18n-lib.h>

static const char *
number_of (BondSurvey *survey, const BondEntry *entry)
{
  BondPoint *point = entry->point != NULL ? bond_survey_find_point (survey, entry->point) : NULL;

  return point != NULL ? point->spec->number : "?";
}

static const BondHistoryItem *
find_live (BondPoint *point, const BondEntry *entry, const BondPlaceResult **place)
{
  guint i;

  for (i = 0; point != NULL && i < point->places->len; i++)
    {
      const BondPlaceResult *result = g_ptr_array_index (point->places, i);
      const BondHistoryItem *item = bond_place_result_find (result, entry);
      if (item != NULL && place != NULL)
        *place = result;
      if (item != NULL)
        return item;
    }
  return NULL;
}

/* Where the reading stands now: its own point or the one it was moved to. */
static BondPoint *
find_home (BondSurvey *survey, const BondEntry *entry)
{
  GPtrArray *also = g_hash_table_lookup (survey->also_in, entry);
  BondPoint *point = entry->point != NULL ? bond_survey_find_point (survey, entry->point) : NULL;
  guint i;

  if (find_live (point, entry, NULL) != NULL)
    return point;
  for (i = 0; also != NULL && i < also->len; i++)
    if (find_live (g_ptr_array_index (also, i), entry, NULL) != NULL)
      return g_ptr_array_index (also, i);
  return NULL;
}

/* The reading alone, so that half of a pair that is beyond the limit is told from its better half. */
static gboolean
reading_is_beyond (BondPoint *point, const BondEntry *entry, const BondMeasurement *in)
{
  g_autoptr (BondMeasurement) alone = NULL;
  g_autoptr (GHashTable) accepted = g_hash_table_new (NULL, NULL);
  BondJudgeContext context = bond_point_context (point, in->row);

  if (in->outcome == BOND_OUTCOME_JUDGED && !in->conforms)
    return TRUE;
  if (in->reason != BOND_REASON_WRONG_STATE) /* as asked, or accepted as it is */
    g_hash_table_add (accepted, (gpointer)bond_entry_get_reading (entry));
  context.accepted = accepted;
  alone = bond_measurement_new ();
  g_ptr_array_add (alone->readings, (gpointer)entry);
  bond_measurement_judge_alone (alone, &context, in->condition);
  return alone->outcome == BOND_OUTCOME_JUDGED && !alone->conforms;
}

/* Evidence of a defect: a reading beyond its limit, a visual reject. */
static gboolean
is_evidence (BondSurvey *survey, const BondEntry *entry)
{
  BondPoint *point = find_home (survey, entry);
  const BondPlaceResult *place = NULL;
  gboolean evidence = FALSE;
  guint i;

  find_live (point, entry, &place);
  for (i = 0; place != NULL && i < bond_place_result_n_rows (place) && !evidence; i++)
    {
      const BondPlaceResult *result = bond_place_result_nth_row (place, i);
      const BondHistoryItem *item = bond_place_result_find (result, entry);

      if (item != NULL && item->measurement != NULL)
        evidence = reading_is_beyond (point, entry, item->measurement);
      else
        evidence = item != NULL && entry->kind == BOND_ENTRY_VISUAL && bond_visual_rejects (entry, result->row);
    }
  return evidence;
}

static gboolean
check_figure (const BondReading *reading, GError **error)
{
  gboolean quotient = reading->nanovolt != 0 || reading->microampere != 0;

  if (bond_text_is_blank (reading->text))
    return bond_check_refuse (error, BOND_SURVEY_ERROR_INVALID,
                              _ ("No reading: the field is empty. Nothing was recorded."));
  if ((guint)reading->unit >= BOND_N_UNITS || (guint)reading->direction > BOND_DIRECTION_REPEAT || reading->planned < 0
      || reading->planned > BOND_MAX_PLANNED || (quotient && (reading->nanovolt == 0 || reading->microampere == 0))
      || (reading->quantity.qualifier != BOND_QUALIFIER_NONE && reading->quantity.nohm <= 0))
    return bond_check_refuse (
        error, BOND_SURVEY_ERROR_INVALID,
        _ ("No reading: \"%s\" does not make sense as it stands. Nothing was recorded; type it again."), reading->text);
  return TRUE;
}

static gboolean
check_instrument (BondSurvey *survey, const BondReading *reading, GError **error)
{
  const BondInstrument *instrument;

  if (reading->instrument == NULL)
    return TRUE;
  instrument = bond_survey_find_instrument (survey, reading->instrument);
  if (instrument == NULL)
    return bond_check_refuse (
        error, BOND_SURVEY_ERROR_INVALID,
        _ ("Not recorded: instrument %s is not in this survey. What you typed is kept; choose the "
           "instrument again."),
        reading->instrument);
  if (reading->range != NULL && bond_instrument_find_range (instrument, reading->range) == NULL)
    return bond_check_refuse (error, BOND_SURVEY_ERROR_INVALID,
                              _ ("Not recorded: %s has no range %s. What you typed is kept; choose the range again."),
                              instrument->name, reading->range);
  return TRUE;
}

/* The seating that began with @first may have been moved here as a whole. */
static gboolean
seating_is_here (BondPoint *point, const BondEntry *entry, const BondEntry *first)
{
  const BondPlaceResult *place = bond_point_get_place (point, entry->place);
  guint i;

  if (g_strcmp0 (first->point, entry->point) == 0 && g_strcmp0 (first->place, entry->place) == 0)
    return TRUE;
  for (i = 0; i < place->history->len; i++)
    {
      const BondHistoryItem *item = g_ptr_array_index (place->history, i);
      if (item->measurement != NULL && !item->moved_away && g_strcmp0 (item->measurement->id, first->id) == 0)
        return TRUE;
    }
  return FALSE;
}

static gboolean
check_seating (BondPoint *point, const BondEntry *entry, const BondEntry *first, GError **error)
{
  if (g_strcmp0 (first->reading.instrument, entry->reading.instrument) == 0 && seating_is_here (point, entry, first))
    return TRUE;
  return bond_check_refuse (
      error, BOND_SURVEY_ERROR_INVALID,
      _ ("Not recorded: the first reading of this pair was taken at another point or place, or with another "
         "instrument, than this one at %s. What you typed is kept; take the pair again."),
      point->spec->number);
}

static gboolean
check_meter_check (BondSurvey *survey, const BondReading *reading, GError **error)
{
  return reading->check == NULL || bond_survey_find_entry (survey, reading->check) != NULL
         || bond_check_refuse (error, BOND_SURVEY_ERROR_INVALID,
                               _ ("Not recorded: the meter check this reading rests on is not in the survey. What you "
                                  "typed is kept; check the meter and record the check first."));
}

gboolean
bond_check_reading (BondSurvey *survey, const BondEntry *entry, GError **error)
{
  const BondReading *reading = bond_entry_get_reading (entry);
  BondPoint *point = bond_check_point (survey, entry->point, error);
  const BondEntry *first;
  BondState state;

  if (point == NULL || !bond_check_place (point, entry->place, TRUE, error) || !check_figure (reading, error)
      || !check_instrument (survey, reading, error))
    return FALSE;
  state = bond_point_get_place (point, entry->place)->state;
  if (!bond_state_in_scope (state))
    return bond_check_refuse (error, BOND_SURVEY_ERROR_INVALID,
                              _ ("Not recorded: %s is marked \"%s\". What you typed is kept; take the mark off first."),
                              point->spec->number, bond_state_name (state));
  first = reading->of != NULL ? bond_survey_find_entry (survey, reading->of) : NULL;
  if (reading->of != NULL && (first == NULL || first->kind != BOND_ENTRY_READING))
    return bond_check_refuse (
        error, BOND_SURVEY_ERROR_INVALID,
        _ ("Not recorded: the first reading of this pair is not in the survey. What you typed is kept; "
           "take the pair again."));
  return (first == NULL || check_seating (point, entry, first, error))
         && bond_survey_check_permit_at (survey, point, reading->instrument != NULL ? reading->instrument : "", NULL,
                                         error)
         && check_meter_check (survey, reading, error);
}

gboolean
bond_check_seen (BondSurvey *survey, const BondEntry *entry, GError **error)
{
  BondPoint *point = bond_check_point (survey, entry->point, error);

  return point != NULL && bond_check_place (point, entry->place, FALSE, error) && check_figure (&entry->reading, error);
}

/* The entry acted on, where it stands now. */
BondPoint *
bond_check_acted_on (BondSurvey *survey, const BondEntry *entry, BondEntry **target, GError **error)
{
  BondPoint *point = bond_check_point (survey, entry->point, error);

  *target = entry->ref != NULL ? bond_survey_find_entry (survey, entry->ref) : NULL;
  if (point == NULL)
    return NULL;
  if (*target != NULL && find_home (survey, *target) == point)
    return point;
  bond_check_refuse (
      error, BOND_SURVEY_ERROR_INVALID,
      _ ("Not recorded: what this acts on does not count at %s any more. Nothing was changed; look at the point's "
         "history."),
      point->spec->number);
  return NULL;
}

/* Poor contact is no reason: the as-found value is evidence. */
static gboolean
check_evidence_reason (BondSurvey *survey, const BondEntry *target, BondVoidReason why, GError **error)
{
  if (why == BOND_VOID_TYPING_SLIP || why == BOND_VOID_WRONG_UNIT || why == BOND_VOID_INSTRUMENT_FAULT)
    return TRUE;
  if (why == BOND_VOID_WRONG_POINT)
    return bond_check_refuse (
        error, BOND_SURVEY_ERROR_REASON,
        _ ("Not recorded: a reading that does not conform is moved to the point where it was taken. It still "
           "counts at %s; choose the right point."),
        number_of (survey, target));
  return bond_check_refuse (
      error, BOND_SURVEY_ERROR_REASON,
      _ ("Not recorded: this does not conform and is evidence. It still counts at %s; give the reason: typing "
         "slip, wrong unit, instrument fault, or move it to the right point."),
      number_of (survey, target));
}

/* Undo and its kin have no history of their own to be struck from. */
static gboolean
can_be_void (BondEntryKind kind)
{
  return kind == BOND_ENTRY_READING || kind == BOND_ENTRY_CORRECT || kind == BOND_ENTRY_REWORK
         || kind == BOND_ENTRY_CONDITION || kind == BOND_ENTRY_STATE || kind == BOND_ENTRY_VISUAL
         || kind == BOND_ENTRY_DISPOSITION || kind == BOND_ENTRY_NOTE || kind == BOND_ENTRY_DEFECT
         || kind == BOND_ENTRY_DEVIATION || kind == BOND_ENTRY_REFINISH;
}

gboolean
bond_check_void (BondSurvey *survey, const BondEntry *entry, GError **error)
{
  BondVoidReason why = entry->voided.why;
  BondEntry *target;

  if (bond_check_acted_on (survey, entry, &target, error) == NULL)
    return FALSE;
  if (!can_be_void (target->kind))
    return bond_check_refuse (error, BOND_SURVEY_ERROR_INVALID,
                              _ ("Not recorded: this kind of entry cannot be voided. Nothing was changed; void the "
                                 "reading or act it is about."));
  if (is_evidence (survey, target))
    return check_evidence_reason (survey, target, why, error);
  if (why == BOND_VOID_NONE || (guint)why > BOND_VOID_OTHER
      || (why == BOND_VOID_OTHER && bond_text_is_blank (entry->reason)))
    return bond_check_refuse (
        error, BOND_SURVEY_ERROR_REASON,
        _ ("Not recorded: voiding needs a reason. Nothing was changed; give it, in words for \"other\"."));
  return bond_check_struck_keeps_fails (survey, target, error);
}

/* A slip changes the figure that was typed, never what was measured, nor with what. */
static gboolean
is_same_but_figure (const BondReading *a, const BondReading *b)
{
  static const gsize may_change[] = { G_STRUCT_OFFSET (BondReading, text), G_STRUCT_OFFSET (BondReading, range),
                                      G_STRUCT_OFFSET (BondReading, said) };
  const BondField *texts;
  guint i, j, n;

  texts = bond_reading_texts (&n);
  for (i = 0; i < n; i++)
    {
      gboolean free_to = FALSE;

      for (j = 0; j < G_N_ELEMENTS (may_change); j++)
        free_to |= texts[i].offset == may_change[j];
      if (!free_to
          && g_strcmp0 (G_STRUCT_MEMBER (char *, a, texts[i].offset), G_STRUCT_MEMBER (char *, b, texts[i].offset))
                 != 0)
        return FALSE;
    }
  return a->direction == b->direction && a->planned == b->planned && a->confirmed == b->confirmed
         && a->connectors == b->connectors && a->mounting == b->mounting;
}

/* What is moved or corrected was measured when it was: a permit of that time counts, be it closed since. */
static gboolean
check_permit_then (BondSurvey *survey, BondPoint *point, const BondEntry *reading, GError **error)
{
  const BondEntry *origin = bond_survey_reading_origin (survey, reading);

  return bond_survey_check_permit_at (survey, point, bond_entry_get_reading (reading)->instrument,
                                      origin != NULL ? origin->at : reading->at, error);
}

gboolean
bond_check_correct (BondSurvey *survey, const BondEntry *entry, GError **error)
{
  BondVoidReason why = entry->correct.why;
  BondEntry *target;
  BondPoint *point = bond_check_acted_on (survey, entry, &target, error);

  if (point == NULL)
    return FALSE;
  if (!bond_entry_is_reading (target))
    return bond_check_refuse (error, BOND_SURVEY_ERROR_INVALID,
                              _ ("Not recorded: only a reading can be corrected. Void the entry and record it anew."));
  if (!check_figure (&entry->correct.reading, error) || !check_instrument (survey, &entry->correct.reading, error))
    return FALSE;
  if (why != BOND_VOID_TYPING_SLIP && why != BOND_VOID_WRONG_UNIT)
    return bond_check_refuse (
        error, BOND_SURVEY_ERROR_REASON,
        _ ("Not recorded: a reading is corrected for a typing slip or a wrong unit only. It stays as it was; "
           "give one of these, or void or move it."));
  if (!is_same_but_figure (bond_entry_get_reading (target), &entry->correct.reading))
    return bond_check_refuse (
        error, BOND_SURVEY_ERROR_INVALID,
        _ ("Not recorded: a correction changes the figure, its unit and range only. The reading stays as it was; to "
           "change what was measured or with what, record a new reading."));
  return check_permit_then (survey, point, target, error);
}

gboolean
bond_check_move (BondSurvey *survey, const BondEntry *entry, GError **error)
{
  BondPoint *to = bond_check_point (survey, entry->move.to_point, error);
  const BondPlaceResult *from = NULL;
  BondEntry *target;
  BondPoint *point;

  if (to == NULL || !bond_check_place (to, entry->move.to_place, TRUE, error))
    return FALSE;
  point = bond_check_acted_on (survey, entry, &target, error);
  if (point == NULL)
    return FALSE;
  if (!bond_entry_is_reading (target))
    return bond_check_refuse (
        error, BOND_SURVEY_ERROR_INVALID,
        _ ("Not recorded: only readings can be moved. Void the entry and record it at the right point."));
  find_live (point, target, &from);
  if (point == to && g_strcmp0 (from->place, entry->move.to_place) == 0)
    return bond_check_refuse (error, BOND_SURVEY_ERROR_INVALID,
                              _ ("Not recorded: the reading is already at %s. Choose another point."),
                              to->spec->number);
  if (entry->move.why != BOND_VOID_NONE && entry->move.why != BOND_VOID_WRONG_POINT)
    return bond_check_refuse (error, BOND_SURVEY_ERROR_REASON,
                              _ ("Not recorded: readings are moved for one reason, wrong point. Nothing was moved."));
  return check_permit_then (survey, to, target, error);
}

gboolean
bond_survey_undo_needs_reason (BondSurvey *survey, BondEntry *entry)
{
  g_return_val_if_fail (BOND_IS_SURVEY (survey) && entry != NULL, FALSE);
  return is_evidence (survey, entry);
}

/* Taking back what carries readings would leave them nowhere. */
static gboolean
check_nothing_rests_on (BondSurvey *survey, const BondEntry *target, GError **error)
{
  BondPoint *point = target->point != NULL ? bond_survey_find_point (survey, target->point) : NULL;
  const BondPlaceResult *place;
  gboolean used = FALSE;
  guint i, specs = 0;

  if (point == NULL)
    return TRUE;
  for (i = 0; i < point->entries->len; i++)
    {
      const BondEntry *other = g_ptr_array_index (point->entries, i);
      specs += other->kind == target->kind && g_strcmp0 (other->place, target->place) == 0
               && !bond_survey_is_taken_back (survey, other);
    }
  if (target->kind == BOND_ENTRY_POINT)
    used = specs == 1 && (bond_point_has_readings (point) || bond_point_has_places (point));
  else if (target->kind == BOND_ENTRY_PLACE)
    {
      place = bond_point_get_place (point, target->place);
      used = specs == 1 && place != NULL && place->history->len > 0;
    }
  if (!used)
    return TRUE;
  return bond_check_refuse (
      error, BOND_SURVEY_ERROR_INVALID,
      _ ("Not taken back: %s has been measured or divided. It stays as it is; move or void its readings "
         "first."),
      point->spec->number);
}

gboolean
bond_check_take_back (BondSurvey *survey, const BondEntry *entry, GError **error)
{
  const char *author = bond_entry_author (entry);
  const char *person = author != NULL ? author : bond_survey_typist (survey);
  BondEntry *target = bond_survey_find_entry (survey, entry->ref);

  if (target == NULL
      || (target != bond_survey_undo_target_of (survey, person)
          && target != bond_survey_redo_target_of (survey, person)))
    return bond_check_refuse (
        error, BOND_SURVEY_ERROR_INVALID,
        _ ("Not taken back: only your own newest entry since this survey was opened can be undone. Nothing was "
           "changed; void or correct the reading instead."));
  if (is_evidence (survey, target))
    return check_evidence_reason (survey, target, entry->take_back.why, error);
  return check_nothing_rests_on (survey, target, error) && bond_check_struck_keeps_leave (survey, target, error)
         && bond_check_struck_keeps_fails (survey, target, error);
}
