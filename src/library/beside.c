/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * Only names that grew out of each other are read: opening one survey must not read
 * a library.  Which of two copies holds what is copies.c's to say.
 */
#include "library/beside.h"
#include "library/library-private.h"
#include <glib/gi18n-lib.h>
#include <string.h>

#define SURVEY_SUFFIX ".bondsurvey"

static gboolean
shares_stem (const char *name, const char *other)
{
  g_autofree char *stem = g_strndup (name, strlen (name) - strlen (SURVEY_SUFFIX));
  g_autofree char *other_stem = g_strndup (other, strlen (other) - strlen (SURVEY_SUFFIX));

  return *stem != '\0' && *other_stem != '\0'
         && (strstr (stem, other_stem) != NULL || strstr (other_stem, stem) != NULL);
}

static GPtrArray *
candidates (const char *path)
{
  g_autofree char *folder = g_path_get_dirname (path);
  g_autofree char *name = g_path_get_basename (path);
  GPtrArray *found = g_ptr_array_new_with_free_func (g_free);
  GDir *dir = g_dir_open (folder, 0, NULL);
  const char *other;

  while (dir != NULL && g_str_has_suffix (name, SURVEY_SUFFIX) && (other = g_dir_read_name (dir)) != NULL)
    if (*other != '.' && g_str_has_suffix (other, SURVEY_SUFFIX) && strcmp (other, name) != 0
        && shares_stem (name, other))
      g_ptr_array_add (found, g_build_filename (folder, other, NULL));
  if (dir != NULL)
    g_dir_close (dir);
  return found;
}

static BondRecord *
read_record (const char *path)
{
  g_autoptr (GPtrArray) unwanted = g_ptr_array_new_with_free_func ((GDestroyNotify)bond_problem_free);

  return bond_record_read (path, unwanted, NULL);
}

static void
add_problem (GPtrArray *problems, const char *path, const char *other, BondCopy copy)
{
  g_autofree char *name = g_path_get_basename (path);
  g_autofree char *other_name = g_path_get_basename (other);

  if (copy == BOND_COPY_APART)
    g_ptr_array_add (
        problems, bond_problem_new (path, 0,
                                    _ ("Merge first: %s and %s are copies of one survey, and each has entries that the "
                                       "other has not. Nothing is lost; go on in neither before they are merged."),
                                    name, other_name));
  else if (copy == BOND_COPY_INSIDE)
    g_ptr_array_add (
        problems, bond_problem_new (path, 0, _ ("%s holds all of %s and more. Close this one and go on in that one."),
                                    other_name, name));
}

GPtrArray *
bond_copies_beside (const char *path)
{
  GPtrArray *problems = g_ptr_array_new_with_free_func ((GDestroyNotify)bond_problem_free);
  g_autoptr (GPtrArray) others = NULL;
  g_autoptr (BondRecord) record = NULL;

  g_return_val_if_fail (path != NULL, problems);
  others = candidates (path);
  if (others->len > 0)
    record = read_record (path);
  for (guint i = 0; record != NULL && i < others->len; i++)
    {
      const char *other_path = g_ptr_array_index (others, i);
      g_autoptr (BondRecord) other = read_record (other_path);

      if (other != NULL && g_strcmp0 (other->survey_id, record->survey_id) == 0)
        add_problem (problems, path, other_path, bond_record_compare (record, other));
    }
  return problems;
}
