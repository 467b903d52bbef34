/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * What is in the library folder, and the list of surveys opened lately.  Reading one
 * is summary.c, making one new-survey.c.  An index that makes this quick for a
 * thousand surveys, and questions over many of them, come later; until then files
 * that look as they did are not read again.
 */
#include "library/library-private.h"

#include <errno.h>
#include <glib/gi18n-lib.h>
#include <stdlib.h>

#define SURVEY_SUFFIX ".bondsurvey"
#define RECENT_GROUP "recent"
#define RECENT_KEY "surveys"
#define RECENT_MAX 20

char *
bond_library_default_folder (void)
{
  return g_build_filename (g_get_user_data_dir (), "bondwright", NULL);
}

static gboolean
is_stopped (const BondScanProgress *progress)
{
  return progress != NULL && g_atomic_int_get (&progress->stop) != 0;
}

/* A pipe or a device would be waited for, perhaps for ever. A link may lead to one; one that leads nowhere is missed.
 */
static gboolean
can_be_survey (GFile *file, GFileInfo *info)
{
  GFileType type = g_file_info_get_file_type (info);

  if (!g_str_has_suffix (g_file_info_get_name (info), SURVEY_SUFFIX))
    return FALSE;
  if (type == G_FILE_TYPE_SYMBOLIC_LINK)
    type = g_file_query_file_type (file, G_FILE_QUERY_INFO_NONE, NULL);
  return type == G_FILE_TYPE_REGULAR || type == G_FILE_TYPE_UNKNOWN;
}

/* Links to folders are not followed: one that leads to a parent would be walked for ever. */
static gboolean
find_surveys (GFile *folder, GPtrArray *paths, BondScanProgress *progress, GCancellable *cancellable, GError **error)
{
  g_autoptr (GFileEnumerator) children
      = g_file_enumerate_children (folder, G_FILE_ATTRIBUTE_STANDARD_NAME "," G_FILE_ATTRIBUTE_STANDARD_TYPE,
                                   G_FILE_QUERY_INFO_NOFOLLOW_SYMLINKS, cancellable, error);
  if (children == NULL)
    return FALSE;
  while (!is_stopped (progress))
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
          if (!find_surveys (child, paths, progress, cancellable, NULL)
              && g_cancellable_set_error_if_cancelled (cancellable, error))
            return FALSE;
        }
      else if (can_be_survey (child, info))
        g_ptr_array_add (paths, g_file_get_path (child));
    }
  return TRUE;
}

static int
compare_newest_first (gconstpointer a, gconstpointer b)
{
  const BondSurveySummary *first = *(BondSurveySummary *const *)a;
  const BondSurveySummary *second = *(BondSurveySummary *const *)b;
  int order = g_strcmp0 (second->changed_at, first->changed_at);
  return order != 0 ? order : g_strcmp0 (first->path, second->path);
}

static const BondSurveySummary *
find_known (GPtrArray *known, const char *path)
{
  for (guint i = 0; known != NULL && i < known->len; i++)
    if (g_str_equal (((BondSurveySummary *)known->pdata[i])->path, path))
      return known->pdata[i];
  return NULL;
}

/* What is a copy of what depends on the other files too, so these are always looked at anew. */
static BondSurveySummary *
summarise (const char *path, GPtrArray *known)
{
  const BondSurveySummary *before = find_known (known, path);
  g_autofree char *stamp = NULL;

  if (before == NULL || before->stamp == NULL || before->trouble == BOND_TROUBLE_COPY
      || before->trouble == BOND_TROUBLE_APART)
    return bond_library_summarise (path);
  stamp = bond_summary_stamp (path);
  return g_str_equal (stamp, before->stamp) ? bond_survey_summary_copy (before) : bond_library_summarise (path);
}

/* The same file under another name (a link, a path with dots) is listed once. */
static gboolean
is_among (GPtrArray *paths, const char *path)
{
  g_autofree char *resolved = realpath (path, NULL);

  for (guint i = 0; i < paths->len; i++)
    {
      g_autofree char *other = realpath (paths->pdata[i], NULL);

      if (g_str_equal (paths->pdata[i], path) || (resolved != NULL && other != NULL && g_str_equal (resolved, other)))
        return TRUE;
    }
  return FALSE;
}

static gboolean
find_all (const char *folder, const char *const *recent, GPtrArray *paths, guint *n_inside, BondScanProgress *progress,
          GCancellable *cancellable, GError **error)
{
  g_autoptr (GFile) top = g_file_new_for_path (folder);

  if (!find_surveys (top, paths, progress, cancellable, error))
    {
      g_prefix_error (error, _ ("The library folder “%s” cannot be read: "), folder);
      return FALSE;
    }
  *n_inside = paths->len;
  for (; recent != NULL && *recent != NULL; recent++)
    if (!is_among (paths, *recent))
      g_ptr_array_add (paths, g_strdup (*recent));
  return TRUE;
}

static void
set_total (BondScanProgress *progress, guint total)
{
  if (progress != NULL)
    g_atomic_int_set (&progress->total, (int)total);
}

/* One more was read. Returns: FALSE when no more are wanted. */
static gboolean
go_on (BondScanProgress *progress)
{
  if (progress == NULL)
    return TRUE;
  g_atomic_int_inc (&progress->done);
  return !is_stopped (progress);
}

static GPtrArray *
summarise_all (GPtrArray *paths, guint n_inside, GPtrArray *known, BondScanProgress *progress,
               GCancellable *cancellable, GError **error)
{
  g_autoptr (GPtrArray) found = g_ptr_array_new_with_free_func ((GDestroyNotify)bond_survey_summary_free);
  gboolean wanted = !is_stopped (progress);

  set_total (progress, paths->len);
  for (guint i = 0; i < paths->len && wanted; i++)
    {
      BondSurveySummary *summary;

      if (g_cancellable_set_error_if_cancelled (cancellable, error))
        return NULL;
      summary = summarise (paths->pdata[i], known);
      summary->recent = i >= n_inside;
      g_ptr_array_add (found, summary);
      wanted = go_on (progress);
    }
  bond_library_find_copies (found);
  g_ptr_array_sort (found, compare_newest_first);
  return g_steal_pointer (&found);
}

GPtrArray *
bond_library_scan (const char *folder, GCancellable *cancellable, GError **error)
{
  g_autoptr (GPtrArray) paths = g_ptr_array_new_with_free_func (g_free);
  guint n_inside = 0;

  g_return_val_if_fail (folder != NULL, NULL);
  if (!find_all (folder, NULL, paths, &n_inside, NULL, cancellable, error))
    return NULL;
  return summarise_all (paths, n_inside, NULL, NULL, cancellable, error);
}

GPtrArray *
bond_library_scan_again (const char *folder, const char *const *recent, GPtrArray *known, BondScanProgress *progress,
                         GCancellable *cancellable, GError **error)
{
  g_autoptr (GPtrArray) paths = g_ptr_array_new_with_free_func (g_free);
  g_autoptr (GError) local = NULL;
  guint n_inside = 0;

  g_return_val_if_fail (folder != NULL, NULL);
  if (!g_file_test (folder, G_FILE_TEST_EXISTS) && g_mkdir_with_parents (folder, 0755) != 0)
    g_debug ("no library folder yet: %s", g_strerror (errno));
  if (!find_all (folder, recent, paths, &n_inside, progress, cancellable, &local)
      && !g_error_matches (local, G_IO_ERROR, G_IO_ERROR_NOT_FOUND))
    {
      g_propagate_error (error, g_steal_pointer (&local));
      return NULL;
    }
  return summarise_all (paths, n_inside, known, progress, cancellable, error);
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

static gboolean
keep_recent (const char *const *paths, GError **error)
{
  g_autoptr (GKeyFile) keys = g_key_file_new ();
  g_autofree char *file = recent_file ();
  g_autofree char *folder = g_path_get_dirname (file);

  g_key_file_set_string_list (keys, RECENT_GROUP, RECENT_KEY, paths, g_strv_length ((char **)paths));
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

gboolean
bond_library_note_recent (const char *path, GError **error)
{
  g_autofree char *whole = NULL;
  g_auto (GStrv) before = NULL;
  g_auto (GStrv) after = NULL;

  g_return_val_if_fail (path != NULL, FALSE);
  whole = g_canonicalize_filename (path, NULL);
  before = bond_library_recent ();
  after = with_first (whole, before);
  return keep_recent ((const char *const *)after, error);
}

gboolean
bond_library_forget_recent (const char *path)
{
  g_autoptr (GStrvBuilder) builder = g_strv_builder_new ();
  g_auto (GStrv) before = NULL;
  g_auto (GStrv) after = NULL;

  g_return_val_if_fail (path != NULL, FALSE);
  before = bond_library_recent ();
  for (int i = 0; before[i] != NULL; i++)
    if (!g_str_equal (before[i], path))
      g_strv_builder_add (builder, before[i]);
  after = g_strv_builder_end (builder);
  return g_strv_length (after) < g_strv_length (before) && keep_recent ((const char *const *)after, NULL);
}
