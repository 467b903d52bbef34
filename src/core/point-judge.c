/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * From the entries of one point to its spec in force, its places, which of them are
 * asked, and their results.  What one place comes to under one row is left to
 * judge.c, how the point is asked about to point.c.
 */
#include "core/survey-check.h"

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

/* Whether @entry is the first that names its place; what a later one says is said on purpose. */
static gboolean
is_first_of_place (BondPoint *point, const BondEntry *entry)
{
  guint i;

  for (i = 0; i < point->entries->len && point->entries->pdata[i] != entry; i++)
    {
      const BondEntry *other = g_ptr_array_index (point->entries, i);
      if (other->kind == BOND_ENTRY_PLACE && g_strcmp0 (other->place, entry->place) == 0
          && !bond_point_is_struck (point, other))
        return FALSE;
    }
  return TRUE;
}

/* The newest entry by which all places were disturbed at once, as when a panel is taken off. (nullable) */
static const BondEntry *
find_opened (BondPoint *point)
{
  guint i;

  for (i = point->entries->len; i > 0; i--)
    {
      const BondEntry *entry = g_ptr_array_index (point->entries, i - 1);
      if (entry->kind == BOND_ENTRY_CONDITION && entry->place == NULL
          && entry->condition.condition != BOND_CONDITION_UNDISTURBED && !bond_point_is_struck (point, entry))
        return entry;
    }
  return NULL;
}

/*
 * The @nth place of the point is asked by the sampling rule, unless somebody turned it in or out since; a panel that
 * was taken off asks for every bolt again.
 */
static gboolean
is_in_sample (BondPoint *point, const BondEntry *place, guint nth, const BondEntry *opened)
{
  int every = MAX (point->spec->sample_every, 1);

  if (opened != NULL && bond_entry_compare (place, opened) < 0)
    return TRUE;
  return place->place_spec.in_sample && (nth % (guint)every == 0 || !is_first_of_place (point, place));
}

/*
 * Sampling: one place of the sample that failed widens the sample to every place, and it stays wide after rework,
 * unless the point says that it does not widen.
 * (Which share is asked first may be the spec's sample_every or anybody's choice: common practice, no source.)
 */
static void
widen_sample (BondPoint *point)
{
  gboolean failed = FALSE;
  guint i;

  for (i = 0; i < point->places->len && point->spec->widen; i++)
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
  const BondEntry *opened = find_opened (point);
  guint i;

  /* Readings taken before the point was divided are never lost: the whole point stays as a place of its own. */
  if (specs->len == 0 || bond_place_was_measured (result))
    g_ptr_array_add (point->places, result);
  else
    bond_place_result_free (result);
  for (i = 0; i < specs->len; i++)
    {
      const BondEntry *entry = g_ptr_array_index (specs, i);
      BondPlaceResult like = { .place = entry->place,
                               .label = entry->place_spec.label,
                               .in_sample = is_in_sample (point, entry, i, opened) };
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
