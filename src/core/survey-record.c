/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * How an act becomes an entry: validated, numbered, handed to the sink, and applied
 * only when the sink says it is durable.  One at a time; what comes meanwhile waits
 * and is validated in its turn, against the state it then meets.
 */
#include "core/survey-private.h"

#include <glib/gi18n-lib.h>

void
bond_survey_begin_sitting (BondSurvey *survey, const char *sitting_id)
{
  g_return_if_fail (BOND_IS_SURVEY (survey) && sitting_id != NULL);
  g_return_if_fail (survey->under_way.entry == NULL);
  g_free (survey->sitting);
  survey->sitting = g_strdup (sitting_id);
  survey->sitting_n = 0;
}

const char *
bond_survey_get_sitting (BondSurvey *survey)
{
  g_return_val_if_fail (BOND_IS_SURVEY (survey), NULL);
  return survey->sitting;
}

void
bond_survey_set_sink (BondSurvey *survey, const BondSink *sink)
{
  g_return_if_fail (BOND_IS_SURVEY (survey));
  survey->has_sink = sink != NULL;
  survey->sink = sink != NULL ? *sink : (BondSink){ 0 };
}

static void
finish_act (BondSurvey *survey, const BondAct *act, const GError *error)
{
  if (act->done != NULL)
    act->done (survey, act->entry, error, act->data);
  bond_entry_unref (act->entry);
}

static gboolean
may_write (BondSurvey *survey, GError **error)
{
  if (survey->read_only != NULL)
    g_set_error (error, BOND_SURVEY_ERROR, BOND_SURVEY_ERROR_READ_ONLY,
                 _ ("Not recorded: this survey is open for reading only (%s). What you typed is still in the field."),
                 survey->read_only);
  else if (survey->sitting == NULL)
    g_set_error_literal (error, BOND_SURVEY_ERROR, BOND_SURVEY_ERROR_READ_ONLY,
                         _ ("Not recorded: the survey is not open for writing. What you typed is still in the field; "
                            "open the survey again."));
  else
    return TRUE;
  return FALSE;
}

static void
fill_in (BondSurvey *survey, BondEntry *entry)
{
  entry->sitting = (g_free (entry->sitting), g_strdup (survey->sitting));
  entry->n = survey->sitting_n + 1;
  entry->id = (g_free (entry->id), g_strdup_printf ("%s-%d", survey->sitting, entry->n));
  entry->t = survey->last_t + 1;
  entry->at = (g_free (entry->at), bond_source_now (survey->source));
}

/* The verdict shown at this moment stays with the reading, whatever a later program thinks. */
static void
fill_in_said (BondSurvey *survey, BondEntry *entry)
{
  BondReading *reading = (BondReading *)bond_entry_get_reading (entry);
  BondPoint *point;
  guint i;

  if (!bond_entry_is_reading (entry) || reading->said != NULL)
    return;
  point = bond_survey_find_point (survey, entry->point);
  for (i = 0; i < point->places->len && reading->said == NULL; i++)
    {
      BondPlaceResult *result
          = bond_point_judge_place (point, ((BondPlaceResult *)point->places->pdata[i])->place, entry);
      const BondMeasurement *m = bond_place_result_measurement_of (result, entry);
      if (m != NULL)
        reading->said = g_strdup (bond_measurement_said (m));
      bond_place_result_free (result);
    }
}

/* Whoever is the person of the entry anyway is not named once more. */
static void
fill_in_people (BondSurvey *survey, BondEntry *entry)
{
  if (entry->by == NULL)
    entry->by = g_strdup (survey->person);
  if (entry->entered_by == NULL && g_strcmp0 (survey->entered_by, entry->by) != 0)
    entry->entered_by = g_strdup (survey->entered_by);
  if (entry->under == NULL && g_strcmp0 (survey->under, entry->by) != 0)
    entry->under = g_strdup (survey->under);
}

static gboolean
prepare (BondSurvey *survey, BondEntry *entry, GError **error)
{
  if (!may_write (survey, error))
    return FALSE;
  fill_in_people (survey, entry);
  if (!bond_survey_check_entry (survey, entry, error))
    return FALSE;
  fill_in (survey, entry);
  fill_in_said (survey, entry);
  return TRUE;
}

/* Takes over the act's entry. */
static gboolean
start_act (BondSurvey *survey, BondAct act)
{
  g_autoptr (GError) error = NULL;

  if (!prepare (survey, act.entry, &error))
    {
      finish_act (survey, &act, error);
      return FALSE;
    }
  survey->under_way = act;
  if (survey->has_sink)
    survey->sink.write (survey->sink.sink, act.entry);
  else
    bond_survey_written (survey, act.entry, NULL);
  return TRUE;
}

gboolean
bond_survey_record (BondSurvey *survey, BondEntry *entry, BondRecorded done, gpointer data)
{
  BondAct act = { .entry = entry, .done = done, .data = data };

  g_return_val_if_fail (BOND_IS_SURVEY (survey) && entry != NULL, FALSE);
  if (!bond_survey_is_busy (survey))
    return start_act (survey, act);
  g_queue_push_tail (&survey->waiting, g_memdup2 (&act, sizeof act));
  return TRUE;
}

/* Starts what waits; an act that fails at once makes room for the next. */
static void
start_next (BondSurvey *survey)
{
  while (survey->under_way.entry == NULL && !g_queue_is_empty (&survey->waiting))
    {
      g_autofree BondAct *act = g_queue_pop_head (&survey->waiting);
      start_act (survey, *act);
    }
}

void
bond_survey_written (BondSurvey *survey, BondEntry *entry, const GError *error)
{
  BondAct act;
  g_autoptr (GError) told = NULL;

  g_return_if_fail (BOND_IS_SURVEY (survey) && entry != NULL);
  g_return_if_fail (survey->under_way.entry == entry);
  g_object_ref (survey);
  act = survey->under_way;
  survey->under_way = (BondAct){ 0 };
  g_clear_error (&survey->write_error);
  if (error == NULL)
    {
      survey->sitting_n = entry->n;
      bond_survey_apply (survey, entry);
    }
  else
    {
      survey->write_error = g_error_copy (error);
      told = g_error_new (BOND_SURVEY_ERROR, BOND_SURVEY_ERROR_NOT_WRITTEN,
                          _ ("Not recorded: %s. What you typed is still in the field; then record it again."),
                          error->message);
    }
  finish_act (survey, &act, told);
  start_next (survey);
  g_object_unref (survey);
}

const GError *
bond_survey_get_write_error (BondSurvey *survey)
{
  g_return_val_if_fail (BOND_IS_SURVEY (survey), NULL);
  return survey->write_error;
}

gboolean
bond_survey_is_busy (BondSurvey *survey)
{
  g_return_val_if_fail (BOND_IS_SURVEY (survey), FALSE);
  return survey->under_way.entry != NULL || !g_queue_is_empty (&survey->waiting);
}

typedef struct
{
  gboolean answered;
  GError *error;
} Answer;

static void
answer_clear (gpointer data)
{
  g_clear_error (&((Answer *)data)->error);
}

static void
recorded_now_cb (BondSurvey *survey, BondEntry *entry, const GError *error, gpointer data)
{
  Answer *answer = data;

  answer->answered = TRUE;
  answer->error = error != NULL ? g_error_copy (error) : NULL;
  g_rc_box_release_full (answer, answer_clear);
}

gboolean
bond_survey_record_now (BondSurvey *survey, BondEntry *entry, GError **error)
{
  Answer *answer;
  gboolean ok;

  g_return_val_if_fail (BOND_IS_SURVEY (survey) && entry != NULL, FALSE);
  answer = g_rc_box_new0 (Answer);
  bond_survey_record (survey, entry, recorded_now_cb, g_rc_box_acquire (answer));
  ok = answer->answered && answer->error == NULL;
  if (!answer->answered)
    g_set_error_literal (error, BOND_SURVEY_ERROR, BOND_SURVEY_ERROR_NOT_WRITTEN,
                         _ ("The entry is still being written. Wait for it, then look whether it stands in the "
                            "survey before it is recorded again."));
  else if (answer->error != NULL)
    g_propagate_error (error, g_steal_pointer (&answer->error));
  g_rc_box_release_full (answer, answer_clear);
  return ok;
}

void
bond_survey_record_clear (BondSurvey *survey)
{
  BondAct *act;

  g_clear_pointer (&survey->under_way.entry, bond_entry_unref);
  g_clear_error (&survey->write_error);
  while ((act = g_queue_pop_head (&survey->waiting)) != NULL)
    {
      bond_entry_unref (act->entry);
      g_free (act);
    }
}

const char *
bond_entry_author (const BondEntry *entry)
{
  return entry->entered_by != NULL ? entry->entered_by : entry->by;
}

const char *
bond_survey_typist (BondSurvey *survey)
{
  return survey->entered_by != NULL ? survey->entered_by : survey->person;
}

static gboolean
is_own_content (BondSurvey *survey, const BondEntry *entry, const char *person)
{
  /* The header and the registers are no acts at a point: they are renewed, never undone. */
  if (entry->kind == BOND_ENTRY_CREATE || entry->kind == BOND_ENTRY_ADOPT)
    return FALSE;
  return g_strcmp0 (entry->sitting, survey->sitting) == 0 && g_strcmp0 (bond_entry_author (entry), person) == 0
         && bond_entry_kind_info (entry->kind)->content;
}

BondEntry *
bond_survey_undo_target_of (BondSurvey *survey, const char *person)
{
  guint i;

  for (i = survey->entries->len; i > 0; i--)
    {
      BondEntry *entry = g_ptr_array_index (survey->entries, i - 1);
      if (is_own_content (survey, entry, person) && entry->kind != BOND_ENTRY_TAKE_BACK
          && !g_hash_table_contains (survey->removed, entry))
        return entry;
    }
  return NULL;
}

static gboolean
takes_back_an_act (BondSurvey *survey, const BondEntry *take_back)
{
  const BondEntry *target = g_hash_table_lookup (survey->by_id, take_back->ref);

  return target != NULL && target->kind != BOND_ENTRY_TAKE_BACK;
}

/* The newest take-back in force, unless something new was done since. */
BondEntry *
bond_survey_redo_target_of (BondSurvey *survey, const char *person)
{
  guint i;

  for (i = survey->entries->len; i > 0; i--)
    {
      BondEntry *entry = g_ptr_array_index (survey->entries, i - 1);
      if (!is_own_content (survey, entry, person))
        continue;
      if (entry->kind != BOND_ENTRY_TAKE_BACK)
        return NULL;
      if (takes_back_an_act (survey, entry) && !g_hash_table_contains (survey->removed, entry))
        return entry;
    }
  return NULL;
}

BondEntry *
bond_survey_undo_target (BondSurvey *survey)
{
  g_return_val_if_fail (BOND_IS_SURVEY (survey), NULL);
  return survey->sitting != NULL ? bond_survey_undo_target_of (survey, bond_survey_typist (survey)) : NULL;
}

BondEntry *
bond_survey_redo_target (BondSurvey *survey)
{
  g_return_val_if_fail (BOND_IS_SURVEY (survey), NULL);
  return survey->sitting != NULL ? bond_survey_redo_target_of (survey, bond_survey_typist (survey)) : NULL;
}
