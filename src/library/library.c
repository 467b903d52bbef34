/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * What is in the library folder, by reading it: one summary a survey, and the list
 * of surveys opened lately.  An index that makes this quick for a thousand surveys,
 * and questions over many of them, come later; making a survey is new-survey.c.
 */
#include "library/library.h"

#include <errno.h>
#include <glib/gi18n-lib.h>

#define SURVEY_SUFFIX ".bondsurvey"
#define RECENT_GROUP "recent"
#define RECENT_KEY "surveys"
#define RECENT_MAX 20

void
bond_survey_summary_free (BondSurveySummary *summary)
{
  if (summary == NULL)
    return;
  g_free (summary->path);
  g_free (summary->id);
  g_free (summary->registration);
  g_free (summary->aircraft_type);
  g_free (summary->serial);
  g_free (summary->title);
  g_free (summary->order);
  g_free (summary->changed_at);
  g_free (summary->problem);
  g_free (summary);
}

char *
bond_library_default_folder (void)
{
  return g_build_filename (g_get_user_data_dir (), "bondwright", NULL);
}

/* When something was last recorded: a copy of the file is no newer for having been copied. */
static char *
recorded_at (BondSurvey *survey)
{
  GPtrArray *entries = bond_survey_get_entries (survey);
  const BondEntry *last = entries->len > 0 ? entries->pdata[entries->len - 1] : NULL;
  g_autoptr (GDateTime) when = last != NULL ? g_date_time_new_from_iso8601 (last->at, NULL) : NULL;
  g_autoptr (GDateTime) utc = when != NULL ? g_date_time_to_utc (when) : NULL;

  return utc != NULL ? g_date_time_format_iso8601 (utc) : NULL;
}

static char *
later_text (const char *a, const char *b)
{
  return g_strdup (g_strcmp0 (a, b) < 0 ? b : a);
}

/* The journal is where the newest readings are, so it counts as a change of the survey. */
static char *
modified_at (const char *path)
{
  g_autoptr (GFile) file = g_file_new_for_path (path);
  g_autoptr (GFileInfo) info
      = g_file_query_info (file, G_FILE_ATTRIBUTE_TIME_MODIFIED, G_FILE_QUERY_INFO_NONE, NULL, NULL);
  g_autoptr (GDateTime) when = info != NULL ? g_file_info_get_modification_date_time (info) : NULL;
  return when != NULL ? g_date_time_format_iso8601 (when) : NULL;
}

static char *
changed_at (const char *path)
{
  g_autofree char *journal = g_strconcat (path, ".journal", NULL);
  g_autofree char *file_at = modified_at (path);
  g_autofree char *journal_at = modified_at (journal);
  return later_text (file_at, journal_at);
}

static void
fill_from_survey (BondSurveySummary *summary, BondSurvey *survey)
{
  const BondCreate *header = bond_survey_get_header (survey);
  char *at = recorded_at (survey);
  BondTotals totals;

  if (at != NULL)
    summary->changed_at = (g_free (summary->changed_at), at);

  summary->id = g_strdup (bond_survey_get_id (survey));
  if (header != NULL)
    {
      summary->registration = g_strdup (header->registration);
      summary->aircraft_type = g_strdup (header->aircraft_type);
      summary->serial = g_strdup (header->serial);
      summary->title = g_strdup (header->title);
      summary->order = g_strdup (header->order);
      summary->invented = header->invented;
    }
  bond_survey_totals (survey, &totals);
  summary->points = totals.points;
  summary->done = totals.done;
  summary->fail = totals.fail;
  summary->open = totals.open;
}

static BondSurveySummary *
summarise (const char *path, BondSource *source)
{
  BondSurveySummary *summary = g_new0 (BondSurveySummary, 1);
  g_autoptr (GPtrArray) problems = g_ptr_array_new_with_free_func ((GDestroyNotify)bond_problem_free);
  g_autoptr (GError) error = NULL;
  g_autoptr (BondSurveyFile) file = NULL;

  summary->path = g_strdup (path);
  summary->changed_at = changed_at (path);
  file = bond_survey_file_open (path, BOND_OPEN_READ, source, "library", problems, &error);
  if (file == NULL)
    summary->problem = g_strdup (error->message);
  else if (bond_survey_file_is_broken (file))
    /* Opens for looking at; no count of it stands beside those that can be trusted. */
    summary->problem = g_strdup (bond_survey_get_read_only (bond_survey_file_get_survey (file)));
  else
    fill_from_survey (summary, bond_survey_file_get_survey (file));
  return summary;
}

/* Links to folders are not followed: one that leads to a parent would be walked for ever. */
static gboolean
find_surveys (GFile *folder, GPtrArray *paths, GCancellable *cancellable, GError **error)
{
  g_autoptr (GFileEnumerator) children
      = g_file_enumerate_children (folder, G_FILE_ATTRIBUTE_STANDARD_NAME "," G_FILE_ATTRIBUTE_STANDARD_TYPE,
                                   G_FILE_QUERY_INFO_NOFOLLOW_SYMLINKS, cancellable, error);
  if (children == NULL)
    return FALSE;
  while (TRUE)
    {
      GFileInfo *info;
      GFile *child;
      if (!g_file_enumerator_iterate (children, &info, &child, cancellable, error))
        return FALSE;
      if (info == NULL)
        return TRUE;
      if (g_file_info_get_file_type (info) == G_FILE_TYPE_DIRECTORY)
        {
          /* One folder that may not be read must not hide the others. */
          if (!find_surveys (child, paths, cancellable, NULL)
              && g_cancellable_set_error_if_cancelled (cancellable, error))
            return FALSE;
        }
      else if (g_str_has_suffix (g_file_info_get_name (info), SURVEY_SUFFIX))
        g_ptr_array_add (paths, g_file_get_path (child));
    }
}

static int
compare_newest_first (gconstpointer a, gconstpointer b)
{
  const BondSurveySummary *first = *(BondSurveySummary *const *)a;
  const BondSurveySummary *second = *(BondSurveySummary *const *)b;
  int order = g_strcmp0 (second->changed_at, first->changed_at);
  return order != 0 ? order : g_strcmp0 (first->path, second->path);
}

GPtrArray *
bond_library_scan (const char *folder, GCancellable *cancellable, GError **error)
{
  g_autoptr (GPtrArray) found = g_ptr_array_new_with_free_func ((GDestroyNotify)bond_survey_summary_free);
  g_autoptr (GPtrArray) paths = g_ptr_array_new_with_free_func (g_free);
  g_autoptr (BondSource) source = bond_source_new_system ();
  g_autoptr (GFile) top = NULL;

  g_return_val_if_fail (folder != NULL, NULL);
  top = g_file_new_for_path (folder);
  if (!find_surveys (top, paths, cancellable, error))
    {
      g_prefix_error (error, _ ("The library folder “%s” cannot be read: "), folder);
      return NULL;
    }
  for (guint i = 0; i < paths->len; i++)
    {
      if (g_cancellable_set_error_if_cancelled (cancellable, error))
        return NULL;
      g_ptr_array_add (found, summarise (paths->pdata[i], source));
    }
  g_ptr_array_sort (found, compare_newest_first);
  return g_steal_pointer (&found);
}

const BondSurveySummary *
bond_library_latest_of (GPtrArray *summaries, const char *aircraft_type, const char *serial)
{
  g_return_val_if_fail (summaries != NULL, NULL);
  for (guint i = 0; i < summaries->len; i++)
    {
      const BondSurveySummary *summary = summaries->pdata[i];
      if (summary->problem == NULL && g_strcmp0 (summary->aircraft_type, aircraft_type) == 0
          && g_strcmp0 (summary->serial, serial) == 0)
        return summary;
    }
  return NULL;
}

/* --- surveys opened lately: one person's convenience, so it lives in the user's state folder --- */

static char *
recent_file (void)
{
  return g_build_filename (g_get_user_state_dir (), "bondwright", "recent.ini", NULL);
}

char **
bond_library_recent (void)
{
  g_autoptr (GKeyFile) keys = g_key_file_new ();
  g_autofree char *file = recent_file ();
  char **paths = NULL;

  if (g_key_file_load_from_file (keys, file, G_KEY_FILE_NONE, NULL))
    paths = g_key_file_get_string_list (keys, RECENT_GROUP, RECENT_KEY, NULL, NULL);
  return paths != NULL ? paths : g_new0 (char *, 1);
}

static char **
with_first (const char *path, char **others)
{
  g_autoptr (GStrvBuilder) builder = g_strv_builder_new ();
  int kept = 1;

  g_strv_builder_add (builder, path);
  for (int i = 0; others[i] != NULL && kept < RECENT_MAX; i++)
    if (!g_str_equal (others[i], path))
      {
        g_strv_builder_add (builder, others[i]);
        kept++;
      }
  return g_strv_builder_end (builder);
}

gboolean
bond_library_note_recent (const char *path, GError **error)
{
  g_autoptr (GKeyFile) keys = g_key_file_new ();
  g_autofree char *file = recent_file ();
  g_autofree char *folder = g_path_get_dirname (file);
  g_autofree char *whole = NULL;
  g_auto (GStrv) before = NULL;
  g_auto (GStrv) after = NULL;

  g_return_val_if_fail (path != NULL, FALSE);
  whole = g_canonicalize_filename (path, NULL);
  before = bond_library_recent ();
  after = with_first (whole, before);
  g_key_file_set_string_list (keys, RECENT_GROUP, RECENT_KEY, (const char *const *)after, g_strv_length (after));
  if (g_mkdir_with_parents (folder, 0700) != 0)
    {
      g_set_error (
          error, G_IO_ERROR, g_io_error_from_errno (errno),
          _ ("The list of recent surveys was not kept: the folder “%s” cannot be made. The survey itself is safe."),
          folder);
      return FALSE;
    }
  return g_key_file_save_to_file (keys, file, error);
}
