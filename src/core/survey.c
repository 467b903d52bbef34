/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * The survey as an object and as a list of points in walking order: what it holds
 * and how it is asked.  How entries become results is left to survey-replay.c, how
 * they come in to survey-record.c and survey-check.c, counting to survey-totals.c.
 */
#include "core/survey-private.h"

#include <glib/gi18n-lib.h>

static void survey_list_model_init (GListModelInterface *iface);

G_DEFINE_FINAL_TYPE_WITH_CODE (BondSurvey, bond_survey, G_TYPE_OBJECT,
                               G_IMPLEMENT_INTERFACE (G_TYPE_LIST_MODEL, survey_list_model_init))

G_DEFINE_QUARK (bond_survey_error, bond_survey_error)

static GType
survey_get_item_type (GListModel *model)
{
  return BOND_TYPE_POINT;
}

static guint
survey_get_n_items (GListModel *model)
{
  return BOND_SURVEY (model)->walk->len;
}

static gpointer
survey_get_item (GListModel *model, guint position)
{
  BondSurvey *survey = BOND_SURVEY (model);

  return position < survey->walk->len ? g_object_ref (g_ptr_array_index (survey->walk, position)) : NULL;
}

static void
survey_list_model_init (GListModelInterface *iface)
{
  iface->get_item_type = survey_get_item_type;
  iface->get_n_items = survey_get_n_items;
  iface->get_item = survey_get_item;
}

/* Points may outlive the survey in somebody's hands; they must not reach back into it. */
static void
forget_survey (gpointer key, gpointer value, gpointer data)
{
  BOND_POINT (value)->survey = NULL;
}

static void
survey_finalize (GObject *object)
{
  BondSurvey *survey = BOND_SURVEY (object);

  bond_survey_record_clear (survey);
  g_hash_table_foreach (survey->points, forget_survey, NULL);
  g_ptr_array_unref (survey->walk);
  g_ptr_array_unref (survey->arrivals);
  g_hash_table_unref (survey->points);
  g_ptr_array_unref (survey->limit_sets);
  g_ptr_array_unref (survey->instruments);
  g_ptr_array_unref (survey->people);
  g_ptr_array_unref (survey->earlier);
  g_ptr_array_unref (survey->permits);
  g_clear_pointer (&survey->house, bond_house_unref);
  g_clear_pointer (&survey->revisions, g_hash_table_unref);
  g_hash_table_unref (survey->referrers);
  g_hash_table_unref (survey->also_in);
  g_hash_table_unref (survey->removed);
  g_hash_table_unref (survey->by_id);
  g_ptr_array_unref (survey->entries);
  bond_source_unref (survey->source);
  g_free (survey->id);
  g_free (survey->read_only);
  g_free (survey->person);
  g_free (survey->entered_by);
  g_free (survey->under);
  g_free (survey->sitting);
  G_OBJECT_CLASS (bond_survey_parent_class)->finalize (object);
}

static void
bond_survey_class_init (BondSurveyClass *klass)
{
  GType type = G_TYPE_FROM_CLASS (klass);

  G_OBJECT_CLASS (klass)->finalize = survey_finalize;
  g_signal_new ("entry-applied", type, G_SIGNAL_RUN_LAST, 0, NULL, NULL, NULL, G_TYPE_NONE, 1, G_TYPE_POINTER);
  g_signal_new ("point-changed", type, G_SIGNAL_RUN_LAST, 0, NULL, NULL, NULL, G_TYPE_NONE, 1, BOND_TYPE_POINT);
  g_signal_new ("header-changed", type, G_SIGNAL_RUN_LAST, 0, NULL, NULL, NULL, G_TYPE_NONE, 0);
}

static void
bond_survey_init (BondSurvey *survey)
{
  survey->entries = g_ptr_array_new_with_free_func ((GDestroyNotify)bond_entry_unref);
  survey->by_id = g_hash_table_new (g_str_hash, g_str_equal);
  survey->referrers = g_hash_table_new_full (g_str_hash, g_str_equal, NULL, (GDestroyNotify)g_ptr_array_unref);
  survey->also_in = g_hash_table_new_full (NULL, NULL, NULL, (GDestroyNotify)g_ptr_array_unref);
  survey->removed = g_hash_table_new (NULL, NULL);
  survey->points = g_hash_table_new_full (g_str_hash, g_str_equal, NULL, g_object_unref);
  survey->arrivals = g_ptr_array_new ();
  survey->walk = g_ptr_array_new ();
  survey->limit_sets = g_ptr_array_new ();
  survey->instruments = g_ptr_array_new ();
  survey->people = g_ptr_array_new ();
  survey->earlier = g_ptr_array_new ();
  survey->permits = g_ptr_array_new ();
  survey->house = bond_house_new ("house", 0, NULL);
  g_queue_init (&survey->waiting);
}

BondSurvey *
bond_survey_new (const char *id, BondSource *source)
{
  BondSurvey *survey;

  g_return_val_if_fail (id != NULL && source != NULL, NULL);
  survey = g_object_new (BOND_TYPE_SURVEY, NULL);
  survey->id = g_strdup (id);
  survey->source = bond_source_ref (source);
  return survey;
}

const char *
bond_survey_get_id (BondSurvey *survey)
{
  g_return_val_if_fail (BOND_IS_SURVEY (survey), NULL);
  return survey->id;
}

BondSource *
bond_survey_get_source (BondSurvey *survey)
{
  g_return_val_if_fail (BOND_IS_SURVEY (survey), NULL);
  return survey->source;
}

gboolean
bond_survey_load_entry (BondSurvey *survey, BondEntry *entry, GError **error)
{
  g_return_val_if_fail (BOND_IS_SURVEY (survey) && entry != NULL, FALSE);
  g_return_val_if_fail (entry->id != NULL && entry->sitting != NULL, FALSE);
  if (g_hash_table_contains (survey->by_id, entry->id))
    {
      g_set_error (error, BOND_SURVEY_ERROR, BOND_SURVEY_ERROR_INVALID,
                   _ ("Entry %s stands in the survey twice. The file was left as it is; "
                      "open its backup or ask for an unaltered copy."),
                   entry->id);
      return FALSE;
    }
  g_ptr_array_add (survey->entries, bond_entry_ref (entry));
  g_hash_table_insert (survey->by_id, entry->id, entry);
  return TRUE;
}

static gboolean
check_reference (BondSurvey *survey, const BondEntry *entry, const char *to, GError **error)
{
  const BondEntry *target = to != NULL ? g_hash_table_lookup (survey->by_id, to) : NULL;

  if (to == NULL || (target != NULL && bond_entry_compare (target, entry) < 0))
    return TRUE;
  g_set_error (error, BOND_SURVEY_ERROR, BOND_SURVEY_ERROR_INVALID,
               target == NULL ? _ ("Entry %s refers to entry %s, which is not in the survey. The file was left as it "
                                   "is; open its backup or ask for an unaltered copy.")
                              : _ ("Entry %s refers to entry %s, which comes after it. The file was left as it is; "
                                   "open its backup or ask for an unaltered copy."),
               entry->id, to);
  return FALSE;
}

gboolean
bond_survey_check_loaded (BondSurvey *survey, GError **error)
{
  guint i;

  g_return_val_if_fail (BOND_IS_SURVEY (survey), FALSE);
  for (i = 0; i < survey->entries->len; i++)
    {
      const BondEntry *entry = g_ptr_array_index (survey->entries, i);
      const BondReading *reading = bond_entry_get_reading (entry);

      if (!check_reference (survey, entry, entry->ref, error)
          || (reading != NULL && !check_reference (survey, entry, reading->of, error)))
        return FALSE;
    }
  return TRUE;
}

void
bond_survey_loaded (BondSurvey *survey)
{
  g_return_if_fail (BOND_IS_SURVEY (survey));
  bond_survey_replay_all (survey);
}

void
bond_survey_set_read_only (BondSurvey *survey, const char *why)
{
  g_return_if_fail (BOND_IS_SURVEY (survey));
  g_free (survey->read_only);
  survey->read_only = g_strdup (why);
  g_signal_emit_by_name (survey, "header-changed");
}

const char *
bond_survey_get_read_only (BondSurvey *survey)
{
  g_return_val_if_fail (BOND_IS_SURVEY (survey), NULL);
  return survey->read_only;
}

void
bond_survey_set_person (BondSurvey *survey, const char *person_id)
{
  g_return_if_fail (BOND_IS_SURVEY (survey));
  g_free (survey->person);
  survey->person = g_strdup (person_id);
}

const char *
bond_survey_get_person (BondSurvey *survey)
{
  g_return_val_if_fail (BOND_IS_SURVEY (survey), NULL);
  return survey->person;
}

void
bond_survey_set_attribution (BondSurvey *survey, const char *entered_by, const char *under)
{
  g_return_if_fail (BOND_IS_SURVEY (survey));
  g_free (survey->entered_by);
  g_free (survey->under);
  survey->entered_by = g_strdup (entered_by);
  survey->under = g_strdup (under);
}

const char *
bond_survey_get_entered_by (BondSurvey *survey)
{
  g_return_val_if_fail (BOND_IS_SURVEY (survey), NULL);
  return survey->entered_by;
}

const char *
bond_survey_get_under (BondSurvey *survey)
{
  g_return_val_if_fail (BOND_IS_SURVEY (survey), NULL);
  return survey->under;
}

const BondCreate *
bond_survey_get_header (BondSurvey *survey)
{
  g_return_val_if_fail (BOND_IS_SURVEY (survey), NULL);
  return survey->header;
}

const BondAirframe *
bond_survey_get_airframe (BondSurvey *survey)
{
  g_return_val_if_fail (BOND_IS_SURVEY (survey), NULL);
  return survey->airframe;
}

GPtrArray *
bond_survey_get_limit_sets (BondSurvey *survey)
{
  g_return_val_if_fail (BOND_IS_SURVEY (survey), NULL);
  return survey->limit_sets;
}

GPtrArray *
bond_survey_get_instruments (BondSurvey *survey)
{
  g_return_val_if_fail (BOND_IS_SURVEY (survey), NULL);
  return survey->instruments;
}

GPtrArray *
bond_survey_get_people (BondSurvey *survey)
{
  g_return_val_if_fail (BOND_IS_SURVEY (survey), NULL);
  return survey->people;
}

GPtrArray *
bond_survey_get_earlier (BondSurvey *survey)
{
  g_return_val_if_fail (BOND_IS_SURVEY (survey), NULL);
  return survey->earlier;
}

const BondHouse *
bond_survey_get_house (BondSurvey *survey)
{
  g_return_val_if_fail (BOND_IS_SURVEY (survey), NULL);
  return survey->house;
}

BondRule
bond_survey_get_rule (BondSurvey *survey)
{
  g_return_val_if_fail (BOND_IS_SURVEY (survey), BOND_RULE_SIMPLE);
  return survey->header != NULL ? survey->header->rule : BOND_RULE_SIMPLE;
}

const BondInstrument *
bond_survey_find_instrument (BondSurvey *survey, const char *id)
{
  guint i;

  g_return_val_if_fail (BOND_IS_SURVEY (survey) && id != NULL, NULL);
  /* A survey holds a handful; a table would cost more than it saves. */
  for (i = 0; i < survey->instruments->len; i++)
    if (strcmp (((BondInstrument *)survey->instruments->pdata[i])->id, id) == 0)
      return survey->instruments->pdata[i];
  return NULL;
}

const BondPerson *
bond_survey_find_person (BondSurvey *survey, const char *id)
{
  guint i;

  g_return_val_if_fail (BOND_IS_SURVEY (survey) && id != NULL, NULL);
  for (i = 0; i < survey->people->len; i++)
    if (strcmp (((BondPerson *)survey->people->pdata[i])->id, id) == 0)
      return survey->people->pdata[i];
  return NULL;
}

const char *
bond_survey_person_name (BondSurvey *survey, const char *id)
{
  const BondPerson *person;

  g_return_val_if_fail (BOND_IS_SURVEY (survey) && id != NULL, id);
  person = bond_survey_find_person (survey, id);
  return person != NULL ? person->name : id;
}

GPtrArray *
bond_survey_get_entries (BondSurvey *survey)
{
  g_return_val_if_fail (BOND_IS_SURVEY (survey), NULL);
  return survey->entries;
}

BondEntry *
bond_survey_find_entry (BondSurvey *survey, const char *id)
{
  g_return_val_if_fail (BOND_IS_SURVEY (survey) && id != NULL, NULL);
  return g_hash_table_lookup (survey->by_id, id);
}

gboolean
bond_survey_is_taken_back (BondSurvey *survey, const BondEntry *entry)
{
  g_return_val_if_fail (BOND_IS_SURVEY (survey) && entry != NULL, FALSE);
  return g_hash_table_contains (survey->removed, entry);
}

BondPoint *
bond_survey_find_point (BondSurvey *survey, const char *id)
{
  BondPoint *point;

  g_return_val_if_fail (BOND_IS_SURVEY (survey) && id != NULL, NULL);
  point = g_hash_table_lookup (survey->points, id);
  return point != NULL && point->spec != NULL ? point : NULL;
}

BondPoint *
bond_survey_find_number (BondSurvey *survey, const char *number)
{
  guint i;

  g_return_val_if_fail (BOND_IS_SURVEY (survey) && number != NULL, NULL);
  for (i = 0; i < survey->walk->len; i++)
    {
      BondPoint *point = g_ptr_array_index (survey->walk, i);
      if (strcmp (point->spec->number, number) == 0)
        return point;
    }
  return NULL;
}

guint
bond_survey_position (BondSurvey *survey, BondPoint *point)
{
  g_return_val_if_fail (BOND_IS_SURVEY (survey) && BOND_IS_POINT (point), G_MAXUINT);
  return point->survey == survey ? point->position : G_MAXUINT;
}

static gboolean
point_needs_reading (BondPoint *point)
{
  guint i;

  for (i = 0; i < point->places->len; i++)
    if (bond_place_needs_reading (g_ptr_array_index (point->places, i)))
      return TRUE;
  return FALSE;
}

BondPoint *
bond_survey_next_open (BondSurvey *survey, BondPoint *from)
{
  guint n, start, i;

  g_return_val_if_fail (BOND_IS_SURVEY (survey) && (from == NULL || BOND_IS_POINT (from)), NULL);
  n = survey->walk->len;
  start = from != NULL && from->position < n ? from->position + 1 : 0;
  for (i = 0; i < n; i++)
    {
      BondPoint *point = g_ptr_array_index (survey->walk, (start + i) % n);
      if (point_needs_reading (point))
        return point;
    }
  return NULL;
}

BondPlaceResult *
bond_survey_preview (BondSurvey *survey, BondPoint *point, const char *place, const BondReading *reading)
{
  g_autoptr (BondEntry) entry = NULL;

  g_return_val_if_fail (BOND_IS_SURVEY (survey) && BOND_IS_POINT (point) && reading != NULL, NULL);
  g_return_val_if_fail (point->survey == survey && point->spec != NULL, NULL);
  entry = bond_entry_new (BOND_ENTRY_READING);
  entry->id = g_strdup ("preview");
  entry->sitting = g_strdup ("");
  entry->at = g_strdup ("");
  entry->by = g_strdup (survey->person != NULL ? survey->person : "");
  entry->t = survey->last_t + 1;
  entry->point = g_strdup (point->id);
  entry->place = g_strdup (place);
  bond_reading_copy (&entry->reading, reading);
  return bond_point_judge_place (point, place, entry);
}
