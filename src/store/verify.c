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
  char *sitting; /* MISSING: where the gap is; entries @first to @last of it */
  int first, last;
  char *act, *at, *point; /* what kind of act, when it was recorded, on which point (nullable) */
  char *sentence;         /* OTHER: all of it */
  char *file;
  int line;
} Break;

struct _BondVerifier
{
  char *survey_id;
  GHashTable *digests;  /* entry id → stored digest */
  GHashTable *sittings; /* sitting id → when and where it was opened, in words */
  GPtrArray *breaks;
};

static void
break_free (Break *one)
{
  g_free (one->sitting);
  g_free (one->act);
  g_free (one->at);
  g_free (one->point);
  g_free (one->sentence);
  g_free (one->file);
  g_free (one);
}

/* One row a kind; what is not here is called an entry. */
static const struct
{
  BondEntryKind kind;
  const char *words;
} act_words[] = {
  { BOND_ENTRY_CREATE, N_ ("the beginning of the survey") },
  { BOND_ENTRY_ADOPT, N_ ("the copy of a register") },
  { BOND_ENTRY_POINT, N_ ("the entry that places the point") },
  { BOND_ENTRY_PLACE, N_ ("the entry that names a place") },
  { BOND_ENTRY_READING, N_ ("the reading") },
  { BOND_ENTRY_VOID, N_ ("the voiding") },
  { BOND_ENTRY_CORRECT, N_ ("the correction") },
  { BOND_ENTRY_MOVE, N_ ("the move of a reading") },
  { BOND_ENTRY_TAKE_BACK, N_ ("the undo") },
  { BOND_ENTRY_REWORK, N_ ("the rework") },
  { BOND_ENTRY_CONDITION, N_ ("the change of condition") },
  { BOND_ENTRY_STATE, N_ ("the state") },
  { BOND_ENTRY_VISUAL, N_ ("the visual finding") },
  { BOND_ENTRY_DISPOSITION, N_ ("the disposition") },
  { BOND_ENTRY_ATTACH, N_ ("the attachment") },
  { BOND_ENTRY_NOTE, N_ ("the note") },
  { BOND_ENTRY_DEFECT, N_ ("the defect card") },
  { BOND_ENTRY_DEVIATION, N_ ("the accepted deviation") },
  { BOND_ENTRY_REFINISH, N_ ("the new finish") },
  { BOND_ENTRY_PERMIT, N_ ("the permit") },
  { BOND_ENTRY_CLOSE_PERMIT, N_ ("the closing of a permit") },
  { BOND_ENTRY_CAUTION, N_ ("the acknowledgement of cautions") },
  { BOND_ENTRY_HANDOVER, N_ ("the hand-over") },
};

static char *
act_of (xmlNode *node)
{
  g_autofree char *name = bond_xml_get (node, "kind");
  BondEntryKind kind;

  if (name != NULL && bond_entry_kind_parse (name, &kind))
    for (gsize i = 0; i < G_N_ELEMENTS (act_words); i++)
      if (act_words[i].kind == kind)
        return g_strdup (_ (act_words[i].words));
  return g_strdup (_ ("an entry"));
}

/* "24 Nov 2026, 10:42"; a text that is no time as it stands: it may be what was altered. */
static char *
when_words (const char *iso)
{
  g_autoptr (GDateTime) time = iso != NULL ? g_date_time_new_from_iso8601 (iso, NULL) : NULL;

  return time != NULL ? g_date_time_format (time, _ ("%-d %b %Y, %H:%M")) : g_strdup (iso != NULL ? iso : "–");
}

/* @node: (nullable): the entry it is about */
static Break *
note (BondVerifier *verifier, BreakKind kind, xmlNode *node, const char *file, int line)
{
  Break *one = g_new0 (Break, 1);

  one->kind = kind;
  if (node != NULL)
    {
      g_autofree char *at = bond_xml_get (node, "at");

      one->act = act_of (node);
      one->at = when_words (at);
      one->point = bond_xml_get (node, "point");
    }
  one->file = g_strdup (file);
  one->line = line;
  g_ptr_array_add (verifier->breaks, one);
  return one;
}

/* Does the number in the id follow?  Otherwise something was taken out, put in or moved. */
static gboolean
check_order (BondVerifier *verifier, const BondLink *link, xmlNode *node, const char *id, const char *file, int line)
{
  g_autofree char *sitting = NULL;
  int n = 0;
  BreakKind kind = BREAK_MISSING;
  Break *gap;

  if (!bond_entry_id_split (id, &sitting, &n) || strcmp (sitting, link->sitting) != 0 || n <= link->last)
    kind = BREAK_MOVED;
  else if (n == link->last + 1)
    return TRUE;
  gap = note (verifier, kind, node, file, line);
  gap->sitting = g_strdup (link->sitting);
  gap->first = link->last + 1;
  gap->last = n - 1;
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
  verifier->sittings = g_hash_table_new_full (g_str_hash, g_str_equal, g_free, g_free);
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
  g_hash_table_unref (verifier->sittings);
  g_ptr_array_unref (verifier->breaks);
  g_free (verifier);
}

void
bond_verifier_open_sitting (BondVerifier *verifier, xmlNode *sitting, BondLink *link)
{
  g_autofree char *station = bond_xml_get (sitting, "station");
  g_autofree char *opened = bond_xml_get (sitting, "opened");
  g_autofree char *when = when_words (opened);

  link->sitting = bond_xml_get (sitting, "id");
  g_hash_table_insert (verifier->sittings, g_strdup (link->sitting),
                       g_strdup_printf (_ ("the sitting of %s at “%s”"), when, station != NULL ? station : ""));
  link->last = 0;
  link->digest = bond_chain_start (verifier->survey_id, sitting);
  link->computed = NULL;
}

gboolean
bond_verifier_entry (BondVerifier *verifier, BondLink *link, xmlNode *node, const char *file, int line)
{
  g_autofree char *id = bond_xml_get (node, "id");
  g_autofree char *stored = bond_xml_get (node, "d");
  g_autofree char *sitting = NULL;
  g_autofree char *expected = NULL;
  gboolean good = check_order (verifier, link, node, id, file, line);

  if (!check_digest (verifier, link, node, stored, &expected) && good)
    {
      note (verifier, link->last == 0 ? BREAK_FIRST : BREAK_CHANGED, node, file, line);
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

/* "act 6 of the sitting of 24 Nov 2026, 09:58 at “Hangar 2”"; of a sitting that is gone as a whole that is said. */
static char *
act_in_sitting (BondVerifier *verifier, const char *entry)
{
  g_autofree char *sitting = NULL;
  const char *words;
  int n = 0;

  if (!bond_entry_id_split (entry, &sitting, &n))
    return g_strdup (entry);
  words = g_hash_table_lookup (verifier->sittings, sitting);
  if (words == NULL)
    return g_strdup_printf (ngettext ("a whole sitting of %d act", "a whole sitting of %d acts", (gulong)n), n);
  return g_strdup_printf (_ ("act %d of %s"), n, words);
}

static char *
known_sentence (BondVerifier *verifier, const char *entry, gboolean is_there, const char *who)
{
  g_autofree char *act = act_in_sitting (verifier, entry);
  const char *seer = who != NULL ? g_hash_table_lookup (verifier->sittings, who) : NULL;

  if (seer == NULL)
    return g_strdup_printf (is_there ? _ ("%s is not the one that the first line of the file names")
                                     : _ ("%s, which the first line of the file names, is not there"),
                            act);
  return g_strdup_printf (
      is_there ? _ ("%s is not the one that %s had seen") : _ ("%s, which %s had seen, is not there"), act, seer);
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
      sentence = known_sentence (verifier, parts[i], digest != NULL, who);
      bond_verifier_note (verifier, sentence, file, line);
    }
}

void
bond_verifier_note (BondVerifier *verifier, const char *sentence, const char *file, int line)
{
  note (verifier, BREAK_OTHER, NULL, file, line)->sentence = g_strdup (sentence);
}

/* "the reading on 541-J02, recorded 24 Nov 2026, 10:42" */
static char *
what_and_when (const Break *one, GHashTable *numbers)
{
  const char *number = one->point == NULL ? NULL : g_hash_table_lookup (numbers, one->point);

  if (one->point == NULL)
    return g_strdup_printf (_ ("%s, recorded %s"), one->act, one->at);
  return g_strdup_printf (_ ("%s on %s, recorded %s"), one->act, number != NULL ? number : one->point, one->at);
}

/* All that a gap should hold stands elsewhere in the file: nothing is gone, something was moved. */
static gboolean
is_all_there (BondVerifier *verifier, const Break *gap)
{
  for (int n = gap->first; n <= gap->last; n++)
    {
      g_autofree char *id = g_strdup_printf ("%s-%d", gap->sitting, n);

      if (!g_hash_table_contains (verifier->digests, id))
        return FALSE;
    }
  return TRUE;
}

static char *
describe (BondVerifier *verifier, const Break *one, GHashTable *numbers)
{
  g_autofree char *what = one->kind != BREAK_OTHER ? what_and_when (one, numbers) : NULL;

  switch (one->kind == BREAK_MISSING && is_all_there (verifier, one) ? BREAK_MOVED : one->kind)
    {
    case BREAK_CHANGED:
      return g_strdup_printf (_ ("%s, is not as it was recorded: its digest does not match"), what);
    case BREAK_FIRST:
      return g_strdup_printf (
          _ ("%s, or the head of its sitting, is not as it was recorded: its digest does not match"), what);
    case BREAK_MISSING:
      return g_strdup_printf (_ ("what was recorded before %s, is missing"), what);
    case BREAK_MOVED:
      return g_strdup_printf (_ ("%s, does not stand where it was recorded"), what);
    case BREAK_OTHER:
    default:
      return g_strdup (one->sentence);
    }
}

char *
bond_verifier_close (BondVerifier *verifier, GHashTable *point_numbers, GPtrArray *problems)
{
  char *first = NULL;

  for (guint i = 0; i < verifier->breaks->len; i++)
    {
      const Break *one = g_ptr_array_index (verifier->breaks, i);
      g_autofree char *sentence = describe (verifier, one, point_numbers);

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
