/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * The chain as a reader sees it.  After a difference the reading goes on from the
 * stored digest, so that one changed entry is reported as one and not as the end of
 * everything behind it.
 */
#include "store/verify.h"

#include "store/chain.h"
#include "store/entry-xml.h"

#include <glib/gi18n-lib.h>
#include <string.h>

typedef enum
{
  BREAK_CHANGED,
  BREAK_FIRST, /* the first entry of a sitting: it or the sitting's own attributes */
  BREAK_MISSING,
  BREAK_MOVED,
  BREAK_OTHER,
} BreakKind;

/* One difference; put into words at the end, when the points' numbers are known. */
typedef struct
{
  BreakKind kind;
  char *entry, *point;
  char *missing; /* MISSING, MOVED: the entry that should have come; OTHER: the sentence */
  char *file;
  int line;
} Break;

struct _BondVerifier
{
  char *survey_id;
  GHashTable *digests; /* entry id → stored digest */
  GPtrArray *breaks;
};

static void
break_free (Break *one)
{
  g_free (one->entry);
  g_free (one->point);
  g_free (one->missing);
  g_free (one->file);
  g_free (one);
}

static Break *
note (BondVerifier *verifier, BreakKind kind, const char *entry, const char *file, int line)
{
  Break *one = g_new0 (Break, 1);

  one->kind = kind;
  one->entry = g_strdup (entry);
  one->file = g_strdup (file);
  one->line = line;
  g_ptr_array_add (verifier->breaks, one);
  return one;
}

/* Does the number in the id follow?  Otherwise something was taken out, put in or moved. */
static gboolean
check_order (BondVerifier *verifier, const BondLink *link, const char *id, const char *point, const char *file,
             int line)
{
  g_autofree char *sitting = NULL;
  int n = 0;
  BreakKind kind = BREAK_MISSING;
  Break *one;

  if (!bond_entry_id_split (id, &sitting, &n) || strcmp (sitting, link->sitting) != 0 || n <= link->last)
    kind = BREAK_MOVED;
  else if (n == link->last + 1)
    return TRUE;
  one = note (verifier, kind, id, file, line);
  one->missing = g_strdup_printf ("%s-%d", link->sitting, link->last + 1);
  one->point = g_strdup (point);
  return FALSE;
}

static gboolean
check_digest (BondVerifier *verifier, BondLink *link, xmlNode *node, const char *stored, char **expected)
{
  g_autofree char *other = NULL;

  *expected = bond_chain_next (link->digest, node);
  if (strcmp (*expected, stored) == 0)
    return TRUE;
  /* Only the digest itself of the entry before was changed, and that has been said. */
  other = link->computed == NULL ? NULL : bond_chain_next (link->computed, node);
  return other != NULL && strcmp (other, stored) == 0;
}

BondVerifier *
bond_verifier_new (const char *survey_id)
{
  BondVerifier *verifier = g_new0 (BondVerifier, 1);

  verifier->survey_id = g_strdup (survey_id);
  verifier->digests = g_hash_table_new_full (g_str_hash, g_str_equal, g_free, g_free);
  verifier->breaks = g_ptr_array_new_with_free_func ((GDestroyNotify)break_free);
  return verifier;
}

void
bond_verifier_free (BondVerifier *verifier)
{
  if (verifier == NULL)
    return;
  g_free (verifier->survey_id);
  g_hash_table_unref (verifier->digests);
  g_ptr_array_unref (verifier->breaks);
  g_free (verifier);
}

void
bond_verifier_open_sitting (BondVerifier *verifier, xmlNode *sitting, BondLink *link)
{
  link->sitting = bond_xml_get (sitting, "id");
  link->last = 0;
  link->digest = bond_chain_start (verifier->survey_id, sitting);
  link->computed = NULL;
}

gboolean
bond_verifier_entry (BondVerifier *verifier, BondLink *link, xmlNode *node, const char *file, int line)
{
  g_autofree char *id = bond_xml_get (node, "id");
  g_autofree char *point = bond_xml_get (node, "point");
  g_autofree char *stored = bond_xml_get (node, "d");
  g_autofree char *sitting = NULL;
  g_autofree char *expected = NULL;
  gboolean good = check_order (verifier, link, id, point, file, line);

  if (!check_digest (verifier, link, node, stored, &expected) && good)
    {
      Break *one = note (verifier, link->last == 0 ? BREAK_FIRST : BREAK_CHANGED, id, file, line);

      one->point = g_strdup (point);
      good = FALSE;
    }
  bond_entry_id_split (id, &sitting, &link->last);
  g_free (link->digest);
  g_free (link->computed);
  link->digest = g_strdup (stored);
  link->computed = good ? NULL : g_steal_pointer (&expected);
  g_hash_table_insert (verifier->digests, g_steal_pointer (&id), g_steal_pointer (&stored));
  return good;
}

gboolean
bond_verifier_follows (const BondLink *link, xmlNode *entry)
{
  g_autofree char *stored = bond_xml_get (entry, "d");
  g_autofree char *expected = bond_chain_next (link->digest, entry);

  return g_strcmp0 (stored, expected) == 0;
}

void
bond_verifier_known (BondVerifier *verifier, const char *heads, const char *who, const char *file, int line)
{
  g_auto (GStrv) parts = g_strsplit (heads, " ", -1);

  for (guint i = 0; parts[i] != NULL; i++)
    {
      char *colon = strchr (parts[i], ':');
      const char *digest;
      g_autofree char *sentence = NULL;

      if (colon == NULL)
        continue;
      *colon = 0;
      digest = g_hash_table_lookup (verifier->digests, parts[i]);
      if (digest != NULL && strcmp (digest, colon + 1) == 0)
        continue;
      if (who == NULL)
        sentence = g_strdup_printf (digest == NULL ? _ ("the file says that it holds entry %s, which is not there")
                                                   : _ ("the file says that entry %s ends with another digest"),
                                    parts[i]);
      else
        sentence = g_strdup_printf (digest == NULL ? _ ("entry %s, which sitting %s had seen, is not there")
                                                   : _ ("entry %s is not the one that sitting %s had seen"),
                                    parts[i], who);
      bond_verifier_note (verifier, sentence, file, line);
    }
}

void
bond_verifier_note (BondVerifier *verifier, const char *sentence, const char *file, int line)
{
  note (verifier, BREAK_OTHER, NULL, file, line)->missing = g_strdup (sentence);
}

static char *
describe (const Break *one, GHashTable *numbers)
{
  const char *number = one->point == NULL ? NULL : g_hash_table_lookup (numbers, one->point);
  g_autofree char *where
      = one->point == NULL ? g_strdup (one->entry)
                           : g_strdup_printf (_ ("%s (point %s)"), one->entry, number != NULL ? number : one->point);

  switch (one->kind)
    {
    case BREAK_CHANGED:
      return g_strdup_printf (_ ("entry %s is not as it was recorded: its digest does not match"), where);
    case BREAK_FIRST:
      return g_strdup_printf (
          _ ("entry %s, or the head of its sitting, is not as it was recorded: its digest does not match"), where);
    case BREAK_MISSING:
      return g_strdup_printf (_ ("entry %s is missing; the next one is %s"), one->missing, where);
    case BREAK_MOVED:
      return g_strdup_printf (_ ("entry %s stands where entry %s was recorded"), where, one->missing);
    case BREAK_OTHER:
    default:
      return g_strdup (one->missing);
    }
}

char *
bond_verifier_close (BondVerifier *verifier, GHashTable *point_numbers, GPtrArray *problems)
{
  char *first = NULL;

  for (guint i = 0; i < verifier->breaks->len; i++)
    {
      const Break *one = g_ptr_array_index (verifier->breaks, i);
      g_autofree char *sentence = describe (one, point_numbers);

      if (problems != NULL)
        g_ptr_array_add (problems,
                         bond_problem_new (one->file, one->line,
                                           _ ("%s. The survey opens read-only; compare it with a backup."), sentence));
      if (first == NULL)
        first = g_steal_pointer (&sentence);
    }
  return first;
}

void
bond_link_clear (BondLink *link)
{
  g_clear_pointer (&link->sitting, g_free);
  g_clear_pointer (&link->digest, g_free);
  g_clear_pointer (&link->computed, g_free);
}
