/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * Two files with one survey id: either one is a copy that is behind, and then only
 * the other counts, or both went on apart, and then neither counts until they are
 * merged.  A file's time or name says nothing of this; its sittings do.
 */
#include "library/library-private.h"

#include <glib/gi18n-lib.h>
#include <glib/gstdio.h>
#include <string.h>

/* --- two records --- */

static GHashTable *
digests_of (const BondRecord *record)
{
  GHashTable *digests = g_hash_table_new (g_str_hash, g_str_equal);

  for (guint i = 0; i < record->entries->len; i++)
    {
      const BondRecordEntry *read = g_ptr_array_index (record->entries, i);

      g_hash_table_insert (digests, read->entry->id, read->entry->digest);
    }
  return digests;
}

/* An entry's digest covers all of its sitting before it: where the last one is there, the whole sitting is. */
static gboolean
holds (const BondRecord *whole, const BondRecord *part)
{
  g_autoptr (GHashTable) digests = digests_of (whole);

  for (guint i = 0; i < part->sittings->len; i++)
    {
      const BondSitting *sitting = g_ptr_array_index (part->sittings, i);
      g_autofree char *last = g_strdup_printf ("%s-%d", sitting->id, sitting->last);

      if (sitting->last > 0 && g_strcmp0 (g_hash_table_lookup (digests, last), sitting->digest) != 0)
        return FALSE;
    }
  return TRUE;
}

BondCopy
bond_record_compare (const BondRecord *a, const BondRecord *b)
{
  gboolean a_in_b, b_in_a;

  g_return_val_if_fail (a != NULL && b != NULL, BOND_COPY_APART);
  a_in_b = holds (b, a);
  b_in_a = holds (a, b);
  if (a_in_b && b_in_a)
    return BOND_COPY_SAME;
  return a_in_b ? BOND_COPY_INSIDE : b_in_a ? BOND_COPY_HOLDS : BOND_COPY_APART;
}

/* --- all files of one survey --- */

static BondRecord *
read_record (const BondSurveySummary *summary)
{
  g_autoptr (GPtrArray) problems = g_ptr_array_new_with_free_func ((GDestroyNotify)bond_problem_free);

  return bond_record_read (summary->path, problems, NULL);
}

static void
set_copy (BondSurveySummary *summary, const BondSurveySummary *other, BondTrouble trouble)
{
  g_autofree char *name = g_path_get_basename (other->path);

  summary->trouble = trouble;
  g_free (summary->detail);
  g_free (summary->problem);
  summary->detail = g_strdup (other->path);
  summary->problem
      = trouble == BOND_TROUBLE_COPY
            ? g_strdup_printf (_ ("A copy: all of it is in %s, which counts instead."), name)
            : g_strdup_printf (_ ("Merge first: this file and %s are copies of one survey, and each has entries the "
                                  "other has not. Neither counts until they are merged."),
                               name);
}

/* Of two that are the same, the one found first stays. */
static gboolean
is_behind (BondCopy copy, gboolean comes_later)
{
  return copy == BOND_COPY_INSIDE || (copy == BOND_COPY_SAME && comes_later);
}

static void
settle_group (GPtrArray *group)
{
  g_autoptr (GPtrArray) records = g_ptr_array_new ();

  for (guint i = 0; i < group->len; i++)
    g_ptr_array_add (records, read_record (group->pdata[i]));
  for (guint i = 0; i < group->len; i++)
    {
      const BondSurveySummary *apart = NULL, *whole = NULL;

      for (guint j = 0; j < group->len && records->pdata[i] != NULL; j++)
        if (i != j && records->pdata[j] != NULL)
          {
            BondCopy copy = bond_record_compare (records->pdata[i], records->pdata[j]);

            if (is_behind (copy, i > j))
              whole = group->pdata[j];
            else if (copy == BOND_COPY_APART)
              apart = group->pdata[j];
          }
      if (whole != NULL)
        set_copy (group->pdata[i], whole, BOND_TROUBLE_COPY);
      else if (apart != NULL)
        set_copy (group->pdata[i], apart, BOND_TROUBLE_APART);
    }
  for (guint i = 0; i < records->len; i++)
    bond_record_free (records->pdata[i]);
}

void
bond_library_find_copies (GPtrArray *summaries)
{
  g_autoptr (GHashTable) groups
      = g_hash_table_new_full (g_str_hash, g_str_equal, NULL, (GDestroyNotify)g_ptr_array_unref);
  GHashTableIter iter;
  gpointer group;

  for (guint i = 0; i < summaries->len; i++)
    {
      BondSurveySummary *summary = summaries->pdata[i];

      if (summary->problem != NULL || summary->id == NULL)
        continue;
      group = g_hash_table_lookup (groups, summary->id);
      if (group == NULL)
        g_hash_table_insert (groups, summary->id, group = g_ptr_array_new ());
      g_ptr_array_add (group, summary);
    }
  g_hash_table_iter_init (&iter, groups);
  while (g_hash_table_iter_next (&iter, NULL, &group))
    if (((GPtrArray *)group)->len > 1)
      settle_group (group);
}

/* --- a copy on purpose --- */

static gboolean
copy_file (const char *from, const char *to, GError **error)
{
  g_autoptr (GFile) source = g_file_new_for_path (from);
  g_autoptr (GFile) target = g_file_new_for_path (to);

  return g_file_copy (source, target, G_FILE_COPY_OVERWRITE | G_FILE_COPY_TARGET_DEFAULT_PERMS, NULL, NULL, NULL,
                      error);
}

gboolean
bond_library_copy (const char *from, const char *to, GError **error)
{
  g_autofree char *journal_from = NULL;
  g_autofree char *journal_to = NULL;

  g_return_val_if_fail (from != NULL && to != NULL, FALSE);
  journal_from = g_strconcat (from, ".journal", NULL);
  journal_to = g_strconcat (to, ".journal", NULL);
  if (g_file_test (journal_to, G_FILE_TEST_EXISTS))
    {
      g_set_error (error, BOND_STORE_ERROR, BOND_STORE_ERROR_WRITE,
                   _ ("There is a journal with readings beside %s already. Nothing was copied. Choose another name."),
                   to);
      return FALSE;
    }
  /* The journal first: a copy without the newest readings must not look like a whole one. */
  if (g_file_test (journal_from, G_FILE_TEST_EXISTS) && !copy_file (journal_from, journal_to, error))
    return FALSE;
  if (copy_file (from, to, error))
    return TRUE;
  g_unlink (journal_to);
  return FALSE;
}
/* Also by another way, as through a link: a file copied onto itself is a file emptied. */
static gboolean
is_same_file (const char *a, const char *b)
{
  GStatBuf one, other;

  return strcmp (a, b) == 0
         || (g_stat (a, &one) == 0 && g_stat (b, &other) == 0 && one.st_ino == other.st_ino
             && one.st_dev == other.st_dev);
}

  if (is_same_file (from, to))
    {
      g_set_error_literal (error, BOND_STORE_ERROR, BOND_STORE_ERROR_WRITE,
                           _ ("That is the survey itself. Choose another name or another place."));
      return FALSE;
    }
