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
holds (GHashTable *digests, const BondRecord *part)
{
  for (guint i = 0; i < part->sittings->len; i++)
    {
      const BondSitting *sitting = g_ptr_array_index (part->sittings, i);
      g_autofree char *last = g_strdup_printf ("%s-%d", sitting->id, sitting->last);

      if (sitting->last > 0 && g_strcmp0 (g_hash_table_lookup (digests, last), sitting->digest) != 0)
        return FALSE;
    }
  return TRUE;
}

static BondCopy
compare (const BondRecord *a, GHashTable *digests_a, const BondRecord *b, GHashTable *digests_b)
{
  gboolean a_in_b = holds (digests_b, a);
  gboolean b_in_a = holds (digests_a, b);

  if (a_in_b && b_in_a)
    return BOND_COPY_SAME;
  return a_in_b ? BOND_COPY_INSIDE : b_in_a ? BOND_COPY_HOLDS : BOND_COPY_APART;
}

BondCopy
bond_record_compare (const BondRecord *a, const BondRecord *b)
{
  g_autoptr (GHashTable) digests_a = NULL;
  g_autoptr (GHashTable) digests_b = NULL;

  g_return_val_if_fail (a != NULL && b != NULL, BOND_COPY_APART);
  digests_a = digests_of (a);
  digests_b = digests_of (b);
  return compare (a, digests_a, b, digests_b);
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

/* One file of a survey that has several. */
typedef struct
{
  BondSurveySummary *summary;
  BondRecord *record;
  GHashTable *digests;
} Twin;

static void
twin_free (gpointer data)
{
  Twin *twin = data;

  bond_record_free (twin->record);
  g_clear_pointer (&twin->digests, g_hash_table_unref);
  g_free (twin);
}

static BondCopy
compare_twins (const Twin *a, const Twin *b)
{
  return compare (a->record, a->digests, b->record, b->digests);
}

/* @leading: those that no other one holds. Of two that are the same, the one found first stays. */
static void
take_in (GPtrArray *leading, Twin *twin)
{
  for (guint i = leading->len; i-- > 0;)
    {
      BondCopy copy = compare_twins (twin, leading->pdata[i]);

      if (copy == BOND_COPY_INSIDE || copy == BOND_COPY_SAME)
        return;
      if (copy == BOND_COPY_HOLDS)
        g_ptr_array_remove_index (leading, i);
    }
  g_ptr_array_add (leading, twin);
}

/* What counts in place of @twin, or what it has to be merged with. */
static void
settle_twin (GPtrArray *leading, const Twin *twin)
{
  gboolean leads = g_ptr_array_find (leading, twin, NULL);

  for (guint i = 0; i < leading->len; i++)
    {
      const Twin *other = leading->pdata[i];

      if (other == twin || (!leads && compare_twins (twin, other) == BOND_COPY_APART))
        continue;
      set_copy (twin->summary, other->summary, leads ? BOND_TROUBLE_APART : BOND_TROUBLE_COPY);
      return;
    }
}

static void
settle_group (GPtrArray *group)
{
  g_autoptr (GPtrArray) twins = g_ptr_array_new_with_free_func (twin_free);
  g_autoptr (GPtrArray) leading = g_ptr_array_new ();

  for (guint i = 0; i < group->len; i++)
    {
      BondRecord *record = read_record (group->pdata[i]);
      Twin *twin;

      if (record == NULL) /* gone since it was listed */
        continue;
      twin = g_new0 (Twin, 1);
      twin->summary = group->pdata[i];
      twin->record = record;
      twin->digests = digests_of (record);
      g_ptr_array_add (twins, twin);
      take_in (leading, twin);
    }
  for (guint i = 0; i < twins->len; i++)
    settle_twin (leading, twins->pdata[i]);
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

/* Also by another way, as through a link: a file copied onto itself is a file emptied. */
static gboolean
is_same_file (const char *a, const char *b)
{
  GStatBuf one, other;

  return strcmp (a, b) == 0
         || (g_stat (a, &one) == 0 && g_stat (b, &other) == 0 && one.st_ino == other.st_ino
             && one.st_dev == other.st_dev);
}

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
  if (is_same_file (from, to))
    {
      g_set_error_literal (error, BOND_STORE_ERROR, BOND_STORE_ERROR_WRITE,
                           _ ("That is the survey itself. Choose another name or another place."));
      return FALSE;
    }
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
