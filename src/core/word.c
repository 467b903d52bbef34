/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * Look-up in the word tables of enumerations.  What a word means is left to the
 * file that holds the table.
 */
#include "core/word.h"

#include <glib/gi18n-lib.h>

const char *
bond_word_file (const BondWord *words, gsize n_words, guint value)
{
  g_return_val_if_fail (value < n_words, NULL);
  return words[value].file;
}

const char *
bond_word_name (const BondWord *words, gsize n_words, guint value)
{
  g_return_val_if_fail (value < n_words, NULL);
  return words[value].name != NULL ? _ (words[value].name) : words[value].file;
}

/* Files hold nothing but these words, so a near miss is an error and never a guess. */
int
bond_word_find (const BondWord *words, gsize n_words, const char *text)
{
  gsize i;

  g_return_val_if_fail (text != NULL, -1);
  for (i = 0; i < n_words; i++)
    if (strcmp (words[i].file, text) == 0)
      return (int)i;
  return -1;
}

gboolean
bond_word_parse (const BondWord *words, gsize n_words, const char *text, guint *value)
{
  int i = bond_word_find (words, n_words, text);

  g_return_val_if_fail (value != NULL, FALSE);
  if (i >= 0)
    *value = (guint)i;
  return i >= 0;
}
