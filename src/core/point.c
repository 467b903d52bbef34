/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * One point as the screen and the report see it: what it is and what it has come
 * to.  Deriving that from the entries the survey handed to it is left to
 * point-judge.c.
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
         || result->state == BOND_STATE_SUSPECT || result->held || result->freed;
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
