/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * A new survey is not a blank page: it takes over the airframe with its points in
 * walking order, the limits those points name, the meters, the people, the rules of
 * the house, and what the last survey of the same aircraft found.  All of it goes
 * in as entries, so that the file stands on its own.
 */
#include "library/library.h"

#include <glib/gi18n-lib.h>
#include <glib/gstdio.h>

/* --- what an earlier survey leaves behind --- */

static gboolean
is_live (BondSurvey *survey, const BondEntry *entry, BondEntryKind kind)
{
  return entry->kind == kind && !bond_survey_is_taken_back (survey, entry);
}

static gboolean
is_voided (BondSurvey *survey, const BondEntry *entry)
{
  GPtrArray *entries = bond_survey_get_entries (survey);
  for (guint i = entries->len; i > 0; i--)
    {
      const BondEntry *other = entries->pdata[i - 1];
      if (other == entry)
        break;
      if (is_live (survey, other, BOND_ENTRY_VOID) && g_strcmp0 (other->ref, entry->id) == 0)
        return TRUE;
    }
  return FALSE;
}

/* "reworked 2026-03-02": the newest rework of the point that was neither undone nor voided. */
static char *
rework_note (BondSurvey *survey, const char *point)
{
  GPtrArray *entries = bond_survey_get_entries (survey);
  for (guint i = entries->len; i > 0; i--)
    {
      const BondEntry *entry = entries->pdata[i - 1];
      if (is_live (survey, entry, BOND_ENTRY_REWORK) && g_strcmp0 (entry->point, point) == 0
          && !is_voided (survey, entry))
        return g_strdup_printf (_ ("reworked %.10s"), entry->at);
    }
  return NULL;
}

/* The day the aircraft was last looked at; a survey may stay open for weeks after it was made. */
static char *
survey_date (BondSurvey *survey)
{
  GPtrArray *entries = bond_survey_get_entries (survey);
  for (guint i = entries->len; i > 0; i--)
    {
      const BondEntry *entry = entries->pdata[i - 1];
      if (is_live (survey, entry, BOND_ENTRY_READING))
        return g_strndup (entry->at, 10);
    }
  return entries->len > 0 ? g_strndup (((BondEntry *)entries->pdata[0])->at, 10) : g_strdup ("");
}

static void
add_earlier_item (BondEarlier *earlier, BondSurvey *survey, BondPoint *point)
{
  const BondPlaceResult *worst = bond_point_get_worst (point);
  const BondLimitRow *row = bond_point_get_row (point);
  /* Without one that decides, the last one: a suspect or struggling joint is what the next survey should know of. */
  const BondMeasurement *decides = worst->decides != NULL ? worst->decides : worst->last;
  g_autofree char *limit = NULL;
  g_autofree char *note = NULL;
  BondEarlierItem item = { 0 };

  if (decides == NULL || decides->mean.count == 0)
    return;
  limit = row != NULL ? bond_bounds_to_file (bond_limit_row_bounds (row, decides->condition)) : NULL;
  note = rework_note (survey, bond_point_get_id (point));
  item.point = (char *)bond_point_get_id (point);
  item.result.nohm = bond_mean_nohm (&decides->mean);
  item.result.qualifier = decides->qualifier;
  item.state = (char *)bond_state_file_name (bond_point_get_state (point));
  item.limit = limit;
  item.note = note;
  bond_earlier_add (earlier, &item);
}

BondEarlier *
bond_library_earlier (BondSurvey *survey)
{
  g_autoptr (BondEarlier) earlier = NULL;
  g_autofree char *date = NULL;
  guint n_points;

  g_return_val_if_fail (BOND_IS_SURVEY (survey), NULL);
  date = survey_date (survey);
  earlier = bond_earlier_new (bond_survey_get_id (survey), date);
  n_points = g_list_model_get_n_items (G_LIST_MODEL (survey));
  for (guint i = 0; i < n_points; i++)
    {
      g_autoptr (BondPoint) point = g_list_model_get_item (G_LIST_MODEL (survey), i);
      add_earlier_item (earlier, survey, point);
    }
  return g_steal_pointer (&earlier);
}

/* --- the limits an airframe's points name --- */

/* One point may name several rows; a code without a set is looked for in all of them and names none. */
static GStrv
limit_names (const BondPointSpec *spec)
{
  return g_strsplit (spec->limit != NULL ? spec->limit : "", " ", -1);
}

static char *
set_of_name (const char *limit)
{
  const char *slash = strchr (limit, '/');
  return slash != NULL ? g_strndup (limit, slash - limit) : NULL;
}

static BondLimitSet *
find_set (GPtrArray *sets, const char *id)
{
  for (guint i = 0; i < sets->len; i++)
    if (g_str_equal (((BondLimitSet *)sets->pdata[i])->id, id))
      return sets->pdata[i];
  return NULL;
}

static void
add_sets_of (GPtrArray *sets, const BondPointSpec *spec, BondCatalog *catalog)
{
  g_auto (GStrv) names = limit_names (spec);

  for (char **name = names; *name != NULL; name++)
    {
      g_autofree char *id = set_of_name (*name);
      BondLimitSet *set
          = id != NULL && find_set (sets, id) == NULL ? bond_catalog_find (catalog, BOND_ADOPT_LIMIT_SET, id) : NULL;
      if (set != NULL)
        g_ptr_array_add (sets, set);
    }
}

GPtrArray *
bond_library_sets_for (const BondAirframe *airframe, BondCatalog *catalog)
{
  GPtrArray *sets = g_ptr_array_new ();

  g_return_val_if_fail (airframe != NULL && catalog != NULL, sets);
  for (guint i = 0; i < airframe->points->len; i++)
    add_sets_of (sets, airframe->points->pdata[i], catalog);
  return sets;
}

/* --- making the file --- */

static gboolean
in_scope (const BondNewSurvey *what, const BondPointSpec *spec)
{
  if (what->zones == NULL)
    return TRUE;
  for (guint i = 0; i < what->zones->len; i++)
    if (bond_airframe_is_within (what->airframe, spec->zone, what->zones->pdata[i]))
      return TRUE;
  return FALSE;
}

/* Walks over what would become points: those of the template in scope, then those placed by hand last time. */
static const BondPointSpec *
nth_point (const BondNewSurvey *what, guint i)
{
  guint n_template = what->no_points ? 0 : what->airframe->points->len;

  if (i < n_template)
    return what->airframe->points->pdata[i];
  return what->carry != NULL && i - n_template < what->carry->points->len ? what->carry->points->pdata[i - n_template]
                                                                          : NULL;
}

/* The first limit of the point that none of the chosen sets holds, or NULL. */
static char *
find_missing_limit (const BondNewSurvey *what, const BondPointSpec *spec)
{
  g_auto (GStrv) names = limit_names (spec);

  for (char **name = names; *name != NULL; name++)
    {
      g_autofree char *id = set_of_name (*name);
      BondLimitSet *set = id != NULL && what->limit_sets != NULL ? find_set (what->limit_sets, id) : NULL;
      if (id != NULL && (set == NULL || bond_limit_set_find (set, strchr (*name, '/') + 1) == NULL))
        return g_strdup (*name);
    }
  return NULL;
}

/* A point whose set is left out would be judged against nothing, and nobody would see it. */
static gboolean
check_limits (const BondNewSurvey *what, GError **error)
{
  const BondPointSpec *spec;

  for (guint i = 0; (spec = nth_point (what, i)) != NULL; i++)
    {
      g_autofree char *missing = in_scope (what, spec) ? find_missing_limit (what, spec) : NULL;
      if (missing != NULL)
        {
          g_set_error (
              error, BOND_SURVEY_ERROR, BOND_SURVEY_ERROR_INVALID,
              _ ("Point %s names the limit “%s”, which none of the chosen limit sets holds. No survey was made. "
                 "Choose the set too, or correct the airframe."),
              spec->number, missing);
          return FALSE;
        }
    }
  return TRUE;
}

static char *
scope_text (const BondNewSurvey *what)
{
  g_autoptr (GStrvBuilder) zones = g_strv_builder_new ();
  g_auto (GStrv) list = NULL;

  if (what->zones == NULL)
    return NULL;
  for (guint i = 0; i < what->zones->len; i++)
    g_strv_builder_add (zones, what->zones->pdata[i]);
  list = g_strv_builder_end (zones);
  return g_strjoinv (" ", list);
}

static gboolean
record_create (BondSurvey *survey, const BondNewSurvey *what, GError **error)
{
  BondEntry *entry = bond_entry_new (BOND_ENTRY_CREATE);
  BondCreate *create = &entry->create;

  create->aircraft_type = g_strdup (what->airframe->id);
  create->serial = g_strdup (what->serial);
  create->registration = g_strdup (what->registration);
  create->title = g_strdup (what->title);
  create->order = g_strdup (what->order);
  create->trigger = g_strdup (what->trigger);
  create->customer = g_strdup (what->customer);
  create->location = g_strdup (what->location);
  create->card = g_strdup (what->card);
  create->card_revision = g_strdup (what->card_revision);
  create->hours = g_strdup (what->hours);
  create->cycles = g_strdup (what->cycles);
  create->power = g_strdup (what->power);
  create->fuel = g_strdup (what->fuel);
  create->data_checked_by = g_strdup (what->data_checked_by);
  create->data_checked_on = g_strdup (what->data_checked_on);
  create->scope = scope_text (what);
  create->rule = what->rule;
  create->invented = what->invented;
  return bond_survey_record_now (survey, entry, error);
}

static gboolean
record_adopt (BondSurvey *survey, BondAdoptKind kind, gpointer object, GError **error)
{
  return object == NULL || bond_survey_record_now (survey, bond_entry_adopt_new (kind, object), error);
}

static gboolean
record_adopt_all (BondSurvey *survey, BondAdoptKind kind, GPtrArray *objects, GError **error)
{
  for (guint i = 0; objects != NULL && i < objects->len; i++)
    if (!record_adopt (survey, kind, objects->pdata[i], error))
      return FALSE;
  return TRUE;
}

static gboolean
record_points (BondSurvey *survey, const BondNewSurvey *what, GError **error)
{
  const BondPointSpec *spec;

  for (guint i = 0; (spec = nth_point (what, i)) != NULL; i++)
    {
      BondEntry *entry;

      if (!in_scope (what, spec))
        continue;
      entry = bond_entry_new (BOND_ENTRY_POINT);
      entry->point = g_strdup (spec->id);
      entry->spec = bond_point_spec_ref ((BondPointSpec *)spec);
      if (!bond_survey_record_now (survey, entry, error))
        return FALSE;
    }
  return TRUE;
}

/* What an earlier survey said of points that are in scope now: made anew, for an entry belongs to one survey. */
static gboolean
record_carried (BondSurvey *survey, GPtrArray *entries, GError **error)
{
  for (guint i = 0; i < entries->len; i++)
    {
      const BondEntry *from = entries->pdata[i];
      BondEntry *entry;

      if (bond_survey_find_point (survey, from->point) == NULL)
        continue;
      entry = bond_entry_new (from->kind);
      entry->point = g_strdup (from->point);
      entry->place = g_strdup (from->place);
      if (from->kind == BOND_ENTRY_NOTE)
        entry->note.text = g_strdup (from->note.text);
      else
        {
          entry->place_spec.label = g_strdup (from->place_spec.label);
          entry->place_spec.in_sample = from->place_spec.in_sample;
        }
      if (!bond_survey_record_now (survey, entry, error))
        return FALSE;
    }
  return TRUE;
}

static gboolean
record_carry (BondSurvey *survey, const BondCarry *carry, GError **error)
{
  return carry == NULL
         || (record_carried (survey, carry->places, error) && record_carried (survey, carry->notes, error));
}

static gboolean
record_all (BondSurvey *survey, const BondNewSurvey *what, GError **error)
{
  return record_create (survey, what, error) && record_adopt_all (survey, BOND_ADOPT_PERSON, what->people, error)
         && record_adopt (survey, BOND_ADOPT_HOUSE, what->house, error)
         && record_adopt (survey, BOND_ADOPT_AIRFRAME, what->airframe, error)
         && record_adopt_all (survey, BOND_ADOPT_LIMIT_SET, what->limit_sets, error)
         && record_adopt_all (survey, BOND_ADOPT_INSTRUMENT, what->instruments, error)
         && record_adopt_all (survey, BOND_ADOPT_EARLIER, what->earlier, error)
         && (what->carry == NULL || record_adopt_all (survey, BOND_ADOPT_EARLIER, what->carry->earlier, error))
         && record_points (survey, what, error) && record_carry (survey, what->carry, error);
}

char *
bond_library_free_path (const char *folder, const char *registration, BondSource *source)
{
  g_autofree char *now = NULL;
  g_autofree char *stem = NULL;

  g_return_val_if_fail (folder != NULL && registration != NULL && source != NULL, NULL);
  now = bond_source_now (source);
  stem = g_strdup_printf ("%s %.10s", registration, now);
  g_strdelimit (stem, "/\\:", '-');
  for (int i = 1;; i++)
    {
      g_autofree char *name
          = i == 1 ? g_strdup_printf ("%s.bondsurvey", stem) : g_strdup_printf ("%s %d.bondsurvey", stem, i);
      char *path = g_build_filename (folder, name, NULL);

      if (!g_file_test (path, G_FILE_TEST_EXISTS))
        return path;
      g_free (path);
    }
}

static char *
backup_path (const char *path)
{
  g_autofree char *folder = g_path_get_dirname (path);
  g_autofree char *name = g_path_get_basename (path);
  g_autofree char *hidden = g_strdup_printf (".%s.backup", name);
  return g_build_filename (folder, hidden, NULL);
}

/* Half a survey helps nobody, and nothing was measured in it yet. */
static void
remove_half_made (BondSurveyFile *file, const char *path, gboolean had_backup)
{
  g_autofree char *journal = g_strconcat (path, ".journal", NULL);
  g_autofree char *backup = backup_path (path);
  bond_survey_file_close (file, NULL);
  g_unlink (journal);
  g_unlink (path);
  if (!had_backup)
    g_unlink (backup);
}

BondSurveyFile *
bond_library_new_survey (const char *path, const BondNewSurvey *what, BondSource *source, const char *station,
                         GError **error)
{
  g_autoptr (BondSurveyFile) file = NULL;
  g_autofree char *backup = NULL;
  gboolean had_backup;
  BondSurvey *survey;

  g_return_val_if_fail (path != NULL && what != NULL && source != NULL, NULL);
  g_return_val_if_fail (what->airframe != NULL && what->person_id != NULL, NULL);
  if (!check_limits (what, error))
    return NULL;
  backup = backup_path (path);
  had_backup = g_file_test (backup, G_FILE_TEST_EXISTS);
  file = bond_survey_file_create (path, source, station, error);
  if (file == NULL)
    return NULL;
  survey = bond_survey_file_get_survey (file);
  bond_survey_set_person (survey, what->person_id);
  bond_survey_file_set_synchronous (file, TRUE);
  if (!record_all (survey, what, error) || !bond_survey_file_save (file, error))
    {
      remove_half_made (file, path, had_backup);
      return NULL;
    }
  bond_survey_file_set_synchronous (file, FALSE);
  return g_steal_pointer (&file);
}
