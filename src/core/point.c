/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * One point as the screen and the report see it: its spec in force, its places and
 * their results, derived from the entries the survey handed to it.  Judging itself
 * is left to judge.c.
 */
#include "core/survey-check.h"

G_DEFINE_FINAL_TYPE (BondPoint, bond_point, G_TYPE_OBJECT)

static void
point_finalize (GObject *object)
{
  BondPoint *point = BOND_POINT (object);

  g_ptr_array_unref (point->places);
  g_ptr_array_unref (point->attachments);
  g_ptr_array_unref (point->notes);
  g_ptr_array_unref (point->entries);
  g_ptr_array_unref (point->rows);
  g_clear_pointer (&point->spec, bond_point_spec_unref);
  g_free (point->id);
  G_OBJECT_CLASS (bond_point_parent_class)->finalize (object);
}

static void
bond_point_class_init (BondPointClass *klass)
{
  G_OBJECT_CLASS (klass)->finalize = point_finalize;
  g_signal_new ("changed", G_TYPE_FROM_CLASS (klass), G_SIGNAL_RUN_LAST, 0, NULL, NULL, NULL, G_TYPE_NONE, 0);
}

static void
bond_point_init (BondPoint *point)
{
  point->entries = g_ptr_array_new ();
  point->attachments = g_ptr_array_new ();
  point->notes = g_ptr_array_new ();
  point->places = g_ptr_array_new_with_free_func ((GDestroyNotify)bond_place_result_free);
  point->rows = g_ptr_array_new ();
  point->position = G_MAXUINT;
}

BondPoint *
bond_point_new (BondSurvey *survey, const char *id)
{
  BondPoint *point = g_object_new (BOND_TYPE_POINT, NULL);

  point->survey = survey;
  point->id = g_strdup (id);
  return point;
}

static const BondInstrument *
find_instrument (gconstpointer data, const char *id, const BondEntry *entry)
{
  return bond_survey_find_instrument_at ((BondSurvey *)data, id, entry);
}

BondJudgeContext
bond_point_context (BondPoint *point, const BondLimitRow *row)
{
  return (BondJudgeContext){
    .row = row,
    .rule = bond_survey_get_rule (point->survey),
    .house = point->survey->house,
    .klass = point->spec->klass,
    .find_instrument = find_instrument,
    .data = point->survey,
    .point = point->id,
    .pair = bond_point_get_asked (point).pair,
    .limit_missing = row == NULL && point->spec->limit != NULL,
    .metal = bond_conductor_is_known (&point->spec->conductor) ? &point->spec->conductor : NULL,
  };
}

static BondPointSpec *
find_spec (BondPoint *point)
{
  guint i;

  for (i = point->entries->len; i > 0; i--)
    {
      BondEntry *entry = g_ptr_array_index (point->entries, i - 1);
      if (entry->kind == BOND_ENTRY_POINT && entry->spec != NULL
          && !g_hash_table_contains (point->survey->removed, entry))
        return entry->spec;
    }
  return NULL;
}

/* The newest spec, the attachments and the newest spec of each place, in the order the places came. */
static GPtrArray *
read_specs (BondPoint *point)
{
  GPtrArray *places = g_ptr_array_new ();
  BondPointSpec *spec = find_spec (point);
  guint i, j;

  g_clear_pointer (&point->spec, bond_point_spec_unref);
  point->spec = spec != NULL ? bond_point_spec_ref (spec) : NULL;
  g_ptr_array_set_size (point->attachments, 0);
  for (i = 0; i < point->entries->len; i++)
    {
      BondEntry *entry = g_ptr_array_index (point->entries, i);
      if (g_hash_table_contains (point->survey->removed, entry))
        continue;
      if (entry->kind == BOND_ENTRY_ATTACH)
        g_ptr_array_add (point->attachments, entry);
      else if (entry->kind == BOND_ENTRY_PLACE && entry->place != NULL)
        {
          for (j = 0; j < places->len; j++)
            if (strcmp (((BondEntry *)places->pdata[j])->place, entry->place) == 0)
              break;
          if (j == places->len)
            g_ptr_array_add (places, entry);
          else
            places->pdata[j] = entry;
        }
    }
  return places;
}

static BondPlaceResult *
judge_row (BondPoint *point, const BondPlaceResult *like, GPtrArray *entries, const BondNamedRow *named)
{
  BondJudgeContext context = bond_point_context (point, named->row);
  BondPlaceResult *result = bond_place_result_new ();

  result->place = g_strdup (like->place);
  result->label = g_strdup (like->label);
  result->in_sample = like->in_sample;
  result->row_name = g_strdup (named->name);
  result->set = named->set;
  bond_place_judge (result, entries, point->survey->removed, &context, point->spec->condition);
  return result;
}

static BondPlaceResult *
judge (BondPoint *point, const BondPlaceResult *like, GPtrArray *entries)
{
  g_autoptr (GPtrArray) results = g_ptr_array_new ();
  guint i;

  for (i = 0; i < point->rows->len; i++)
    g_ptr_array_add (results, judge_row (point, like, entries, g_ptr_array_index (point->rows, i)));
  return bond_place_result_join (results);
}

static gboolean
has_failed (const BondPlaceResult *result)
{
  return result->state == BOND_STATE_FAIL
         || result->rejects_as_found + result->rejects_installation + result->rejects_opened + result->rejects_rework
                    + result->rejects_visual
                > 0;
}

/*
 * Sampling: one place of the sample that failed widens the sample to every place, and it stays wide after rework.
 * (Which share is asked first may be the spec's sample_every or anybody's choice: common practice, no source.)
 */
static void
widen_sample (BondPoint *point)
{
  gboolean failed = FALSE;
  guint i;

  for (i = 0; i < point->places->len; i++)
    failed |= has_failed (g_ptr_array_index (point->places, i));
  if (!failed)
    return;
  for (i = 0; i < point->places->len; i++)
    {
      BondPlaceResult *result = g_ptr_array_index (point->places, i);
      if (result->in_sample)
        continue;
      result->in_sample = TRUE;
      point->places->pdata[i] = judge (point, result, point->entries);
      bond_place_result_free (result);
    }
}

static void
judge_places (BondPoint *point, GPtrArray *specs)
{
  BondPlaceResult whole = { .in_sample = TRUE };
  BondPlaceResult *result = judge (point, &whole, point->entries);
  guint i;

  /* Readings taken before the point was divided are never lost: the whole point stays as a place of its own. */
  if (specs->len == 0 || bond_place_was_measured (result))
    g_ptr_array_add (point->places, result);
  else
    bond_place_result_free (result);
  for (i = 0; i < specs->len; i++)
    {
      const BondEntry *entry = g_ptr_array_index (specs, i);
      BondPlaceResult like
          = { .place = entry->place, .label = entry->place_spec.label, .in_sample = entry->place_spec.in_sample };
      g_ptr_array_add (point->places, judge (point, &like, point->entries));
    }
  widen_sample (point);
}

void
bond_point_derive (BondPoint *point)
{
  g_autoptr (GPtrArray) specs = read_specs (point);

  bond_point_derive_notes (point);
  g_ptr_array_set_size (point->places, 0);
  point->row = NULL;
  point->set = NULL;
  g_ptr_array_set_size (point->rows, 0);
  if (point->spec == NULL)
    return;
  g_ptr_array_unref (point->rows);
  point->rows = bond_limit_lookup_all (point->survey->limit_sets, point->spec->own_limit, point->spec->limit,
                                       point->spec->klass);
  judge_places (point, specs);
  point->row = bond_point_get_worst (point)->row;
  point->set = bond_point_get_worst (point)->set;
}

BondPlaceResult *
bond_point_judge_place (BondPoint *point, const char *place, BondEntry *extra)
{
  g_autoptr (GPtrArray) entries = g_ptr_array_new ();
  BondPlaceResult *result;
  guint i;

  for (i = 0; i < point->entries->len; i++)
    g_ptr_array_add (entries, g_ptr_array_index (point->entries, i));
  if (extra != NULL)
    g_ptr_array_add (entries, extra);
  result = judge (point, bond_point_get_place (point, place), entries);
  if (extra != NULL)
    g_ptr_array_add (result->kept, bond_entry_ref (extra));
  return result;
}

GPtrArray *
bond_point_rejudge (BondPoint *point, BondPointSpec *spec)
{
  GPtrArray *places = g_ptr_array_new_with_free_func ((GDestroyNotify)bond_place_result_free);
  BondPointSpec *old_spec = point->spec, *newest = find_spec (point);
  GPtrArray *old_rows = point->rows;
  guint i;

  point->spec = spec != NULL ? spec : newest != NULL ? newest : old_spec;
  point->rows = bond_limit_lookup_all (point->survey->limit_sets, point->spec->own_limit, point->spec->limit,
                                       point->spec->klass);
  for (i = 0; i < point->places->len; i++)
    g_ptr_array_add (places, judge (point, g_ptr_array_index (point->places, i), point->entries));
  g_ptr_array_unref (point->rows);
  point->rows = old_rows;
  point->spec = old_spec;
  return places;
}

gboolean
bond_point_has_place (BondPoint *point, const char *place)
{
  guint i;

  for (i = 0; i < point->places->len; i++)
    if (g_strcmp0 (((BondPlaceResult *)point->places->pdata[i])->place, place) == 0)
      return TRUE;
  return FALSE;
}

gboolean
bond_point_has_places (BondPoint *point)
{
  return point->places->len > 1 || (point->places->len == 1 && bond_point_get_place (point, NULL)->place != NULL);
}

void
bond_point_emit_changed (BondPoint *point)
{
  g_signal_emit_by_name (point, "changed");
  if (point->survey != NULL)
    g_signal_emit_by_name (point->survey, "point-changed", point);
}

gboolean
bond_place_needs_reading (const BondPlaceResult *result)
{
  return result->state == BOND_STATE_TO_MEASURE || result->state == BOND_STATE_REMEASURE
         || result->state == BOND_STATE_SUSPECT || result->held;
}

const char *
bond_point_get_id (BondPoint *point)
{
  g_return_val_if_fail (BOND_IS_POINT (point), NULL);
  return point->id;
}

const BondPointSpec *
bond_point_get_spec (BondPoint *point)
{
  g_return_val_if_fail (BOND_IS_POINT (point), NULL);
  return point->spec;
}

const char *
bond_point_get_number (BondPoint *point)
{
  g_return_val_if_fail (BOND_IS_POINT (point), NULL);
  return point->spec != NULL ? point->spec->number : NULL;
}

const BondLimitRow *
bond_point_get_row (BondPoint *point)
{
  g_return_val_if_fail (BOND_IS_POINT (point), NULL);
  return point->row;
}

const BondLimitSet *
bond_point_get_limit_set (BondPoint *point)
{
  g_return_val_if_fail (BOND_IS_POINT (point), NULL);
  return point->set;
}

GPtrArray *
bond_point_get_rows (BondPoint *point)
{
  g_return_val_if_fail (BOND_IS_POINT (point), NULL);
  return point->rows;
}

BondAsked
bond_point_get_asked (BondPoint *point)
{
  BondAsked asked = { BOND_CONNECTORS_ANY, BOND_MOUNTING_ANY, FALSE };
  guint i;

  g_return_val_if_fail (BOND_IS_POINT (point), asked);
  for (i = 0; i < point->rows->len; i++)
    {
      const BondLimitRow *row = ((const BondNamedRow *)point->rows->pdata[i])->row;

      if (row == NULL)
        continue;
      if (asked.connectors == BOND_CONNECTORS_ANY)
        asked.connectors = row->connectors;
      if (asked.mounting == BOND_MOUNTING_ANY)
        asked.mounting = row->mounting;
      asked.pair |= row->pair;
    }
  return asked;
}

GPtrArray *
bond_point_get_places (BondPoint *point)
{
  g_return_val_if_fail (BOND_IS_POINT (point), NULL);
  return point->places;
}

const BondPlaceResult *
bond_point_get_worst (BondPoint *point)
{
  const BondPlaceResult *worst = NULL;
  guint i;

  g_return_val_if_fail (BOND_IS_POINT (point), NULL);
  for (i = 0; i < point->places->len; i++)
    {
      const BondPlaceResult *result = g_ptr_array_index (point->places, i);
      if (worst == NULL || bond_state_rank (result->state) > bond_state_rank (worst->state))
        worst = result;
    }
  return worst;
}

const BondPlaceResult *
bond_point_get_place (BondPoint *point, const char *place)
{
  guint i;

  g_return_val_if_fail (BOND_IS_POINT (point), NULL);
  for (i = 0; i < point->places->len; i++)
    {
      const BondPlaceResult *result = g_ptr_array_index (point->places, i);
      if (place == NULL || g_strcmp0 (result->place, place) == 0)
        return result;
    }
  return NULL;
}

const char *
bond_point_next_place (BondPoint *point)
{
  guint i;

  g_return_val_if_fail (BOND_IS_POINT (point), NULL);
  for (i = 0; i < point->places->len; i++)
    {
      const BondPlaceResult *result = g_ptr_array_index (point->places, i);
      if (bond_place_needs_reading (result))
        return result->place;
    }
  return NULL;
}

BondState
bond_point_get_state (BondPoint *point)
{
  const BondPlaceResult *worst = bond_point_get_worst (point);

  return worst != NULL ? worst->state : BOND_STATE_TO_MEASURE;
}

/* Anything beyond the one measurement a quiet point has. */
static gboolean
place_has_history (const BondPlaceResult *result)
{
  guint i, measurements = 0;

  for (i = 0; i < result->history->len; i++)
    {
      const BondHistoryItem *item = g_ptr_array_index (result->history, i);
      if (item->measurement != NULL)
        measurements++;
      if (item->taken_back || item->voided || item->moved_away || item->entry->kind == BOND_ENTRY_REWORK
          || item->entry->kind == BOND_ENTRY_CONDITION || item->entry->kind == BOND_ENTRY_DISPOSITION)
        return TRUE;
    }
  return measurements > 1;
}

gboolean
bond_point_has_history (BondPoint *point)
{
  guint i;

  g_return_val_if_fail (BOND_IS_POINT (point), FALSE);
  for (i = 0; i < point->places->len; i++)
    if (place_has_history (g_ptr_array_index (point->places, i)))
      return TRUE;
  return FALSE;
}

GPtrArray *
bond_point_get_attachments (BondPoint *point)
{
  g_return_val_if_fail (BOND_IS_POINT (point), NULL);
  return point->attachments;
}

const char *
bond_measurement_said (const BondMeasurement *measurement)
{
  const BondMeasurement *m = measurement;

  switch (m != NULL ? m->outcome : BOND_OUTCOME_NONE)
    {
    case BOND_OUTCOME_JUDGED:
      if (m->conforms)
        return m->within_u ? "pass within-u" : "pass";
      return m->within_u ? "fail within-u" : "fail";
    case BOND_OUTCOME_SUSPECT:
      return "suspect";
    case BOND_OUTCOME_INCOMPLETE:
      return "incomplete";
    case BOND_OUTCOME_RECORDED:
      return "recorded";
    case BOND_OUTCOME_NONE:
    case BOND_OUTCOME_NO_VERDICT:
    default:
      return "no-verdict";
    }
}

const char *
bond_place_result_said (const BondPlaceResult *result)
{
  const BondMeasurement *last, *worst = NULL;

  g_return_val_if_fail (result != NULL, "no-verdict");
  last = result->last;
  if (last != NULL && last->readings->len > 0)
    worst = bond_place_result_measurement_of (result, g_ptr_array_index (last->readings, last->readings->len - 1));
  return bond_measurement_said (worst != NULL ? worst : last);
}
