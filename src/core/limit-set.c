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

static void
named_row_free (gpointer data)
{
  BondNamedRow *named = data;

  g_free (named->name);
  g_free (named);
}

static gboolean
holds_row (GPtrArray *rows, const BondLimitRow *row)
{
  guint i;

  for (i = 0; row != NULL && i < rows->len; i++)
    if (((const BondNamedRow *)rows->pdata[i])->row == row)
      return TRUE;
  return FALSE;
}

static void
add_named_row (GPtrArray *rows, GPtrArray *sets, BondLimitRow *own, const char *name, BondClass klass)
{
  BondLimitSet *set = NULL;
  BondLimitRow *row = bond_limit_lookup (sets, own, name, klass, &set);
  BondNamedRow *named;

  if (holds_row (rows, row))
    return;
  named = g_new0 (BondNamedRow, 1);
  named->name = g_strdup (name);
  named->row = row;
  named->set = set;
  g_ptr_array_add (rows, named);
}

GPtrArray *
bond_limit_lookup_all (GPtrArray *sets, BondLimitRow *own, const char *names, BondClass klass)
{
  GPtrArray *rows = g_ptr_array_new_with_free_func (named_row_free);
  g_auto (GStrv) name = names != NULL && own == NULL ? g_strsplit (names, " ", BOND_MAX_LIMIT_NAMES) : NULL;
  guint i;

  for (i = 0; name != NULL && name[i] != NULL; i++)
    add_named_row (rows, sets, NULL, name[i], klass);
  if (rows->len == 0)
    add_named_row (rows, sets, own, own == NULL ? names : NULL, klass);
  return rows;
}

/* SET/CODE or CODE: one slash at most, neither part empty, no blanks. */
static gboolean
name_is_sound (const char *name)
{
  const char *slash = strchr (name, '/');

  if (*name == '\0' || strpbrk (name, " \t\r\n") != NULL)
    return FALSE;
  return slash == NULL || (slash != name && slash[1] != '\0' && strchr (slash + 1, '/') == NULL);
}

char *
bond_limit_find_unsound (const char *names)
{
  g_auto (GStrv) name = NULL;
  guint i, j;

  g_return_val_if_fail (names != NULL, NULL);
  name = g_strsplit (names, " ", -1);
  if (name[0] == NULL)
    return g_strdup ("");
  for (i = 0; name[i] != NULL; i++)
    {
      if (i >= BOND_MAX_LIMIT_NAMES || !name_is_sound (name[i]))
        return g_strdup (name[i]);
      for (j = 0; j < i; j++)
        if (strcmp (name[i], name[j]) == 0)
          return g_strdup (name[i]);
    }
  return NULL;
}
