/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * Limit sets, and the one order in which a point's limit is looked up.  What a row
 * says is left to limit.c.
 */
#include "core/limit.h"

#include <glib/gi18n-lib.h>

/* The set that holds @name, and in @code the code; a code without a set is looked for in sets that are switched on. */
static BondLimitRow *
find_named (GPtrArray *sets, const char *name, BondLimitSet **set)
{
  const char *slash = strchr (name, '/');
  guint i;

  for (i = 0; i < sets->len; i++)
    {
      BondLimitSet *candidate = g_ptr_array_index (sets, i);
      gboolean asked = slash == NULL
                           ? candidate->enabled
                           : strlen (candidate->id) == (gsize)(slash - name) && g_str_has_prefix (name, candidate->id);
      BondLimitRow *row = asked ? bond_limit_set_find (candidate, slash == NULL ? name : slash + 1) : NULL;

      if (row != NULL)
        {
          *set = candidate;
          return row;
        }
    }
  return NULL;
}

static BondLimitRow *
find_default (GPtrArray *sets, BondClass klass, BondLimitSet **set)
{
  guint i, j;

  for (i = 0; i < sets->len; i++)
    {
      *set = g_ptr_array_index (sets, i);
      for (j = 0; (*set)->enabled && j < (*set)->rows->len; j++)
        {
          BondLimitRow *row = g_ptr_array_index ((*set)->rows, j);

          if (row->is_default && row->klass == (int)klass)
            return row;
        }
    }
  *set = NULL;
  return NULL;
}

BondLimitSet *
bond_limit_set_new (const char *id, int revision, const char *name)
{
  BondLimitSet *set;

  g_return_val_if_fail (id != NULL && name != NULL, NULL);
  set = g_new0 (BondLimitSet, 1);
  set->ref_count = 1;
  set->id = g_strdup (id);
  set->revision = revision;
  set->name = g_strdup (name);
  set->enabled = TRUE;
  set->rows = g_ptr_array_new_with_free_func ((GDestroyNotify)bond_limit_row_unref);
  return set;
}

BondLimitSet *
bond_limit_set_ref (BondLimitSet *set)
{
  g_return_val_if_fail (set != NULL, NULL);
  g_atomic_int_inc (&set->ref_count);
  return set;
}

void
bond_limit_set_unref (BondLimitSet *set)
{
  g_return_if_fail (set != NULL);
  if (!g_atomic_int_dec_and_test (&set->ref_count))
    return;
  g_free (set->id);
  g_free (set->name);
  g_free (set->note);
  g_ptr_array_unref (set->rows);
  g_free (set);
}

gboolean
bond_limit_set_add (BondLimitSet *set, BondLimitRow *row, GError **error)
{
  g_autoptr (BondLimitRow) owned = row;

  g_return_val_if_fail (set != NULL && row != NULL, FALSE);
  if (!bond_limit_row_check (row, error))
    return FALSE;
  if (bond_limit_set_find (set, row->code) != NULL)
    {
      g_set_error (error, BOND_LIMIT_ERROR, BOND_LIMIT_ERROR_UNSOUND,
                   _ ("Limit row “%s” cannot be used: its code is already used in set “%s”."), row->code, set->id);
      return FALSE;
    }
  g_ptr_array_add (set->rows, g_steal_pointer (&owned));
  return TRUE;
}

BondLimitRow *
bond_limit_set_find (const BondLimitSet *set, const char *code)
{
  guint i;

  g_return_val_if_fail (set != NULL && code != NULL, NULL);
  for (i = 0; i < set->rows->len; i++)
    {
      BondLimitRow *row = g_ptr_array_index (set->rows, i);

      if (strcmp (row->code, code) == 0)
        return row;
    }
  return NULL;
}

BondLimitRow *
bond_limit_lookup (GPtrArray *sets, BondLimitRow *own, const char *name, BondClass klass, BondLimitSet **set)
{
  BondLimitSet *from = NULL;
  BondLimitRow *row = own;

  if (row == NULL && sets != NULL)
    row = name != NULL ? find_named (sets, name, &from) : find_default (sets, klass, &from);
  if (set != NULL)
    *set = from;
  return row;
}
