/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * Enumerations as words: the word a file uses and the word a person reads, in one
 * table each, so that writing, reading and showing cannot drift apart.  The tables
 * stand beside their enumerations.
 */
#pragma once

#include <glib-object.h>

G_BEGIN_DECLS

/** BondWord: @file as written in files; @name marked for translation, NULL when never shown. */
typedef struct
{
  const char *file;
  const char *name;
} BondWord;

/** bond_word_file: the file word of @value, the index into @words; NULL outside the table. Static. */
const char *bond_word_file (const BondWord *words, gsize n_words, guint value);
/** bond_word_name: the translated word of @value; NULL outside the table. Static. */
const char *bond_word_name (const BondWord *words, gsize n_words, guint value);
/** bond_word_find: index of the file word @text (case-sensitive, whole), or -1. */
int bond_word_find (const BondWord *words, gsize n_words, const char *text);
/** bond_word_parse: the same into an enumeration; FALSE, @value untouched, for an unknown word. */
gboolean bond_word_parse (const BondWord *words, gsize n_words, const char *text, guint *value);

/* The public functions of one table, @words an array of BondWord in the order of the enumeration @Type. */
#define BOND_DEFINE_WORDS(prefix, Type, words)                                                                         \
  const char *prefix##_file_name (Type value) { return bond_word_file (words, G_N_ELEMENTS (words), (guint)value); }   \
  gboolean prefix##_parse (const char *text, Type *value)                                                              \
  {                                                                                                                    \
    return bond_word_parse (words, G_N_ELEMENTS (words), text, (guint *)value);                                        \
  }
#define BOND_DEFINE_WORD_NAMES(prefix, Type, words)                                                                    \
  const char *prefix##_name (Type value) { return bond_word_name (words, G_N_ELEMENTS (words), (guint)value); }
/* The same where @Type is a set, with one bit a word. */
#define BOND_DEFINE_BIT_WORDS(prefix, Type, words)                                                                     \
  const char *prefix##_file_name (Type one)                                                                            \
  {                                                                                                                    \
    return bond_word_file (words, G_N_ELEMENTS (words), (guint)g_bit_nth_lsf (one, -1));                               \
  }                                                                                                                    \
  const char *prefix##_name (Type one)                                                                                 \
  {                                                                                                                    \
    return bond_word_name (words, G_N_ELEMENTS (words), (guint)g_bit_nth_lsf (one, -1));                               \
  }                                                                                                                    \
  gboolean prefix##_parse (const char *text, Type *one)                                                                \
  {                                                                                                                    \
    int i = bond_word_find (words, G_N_ELEMENTS (words), text);                                                        \
    if (i >= 0)                                                                                                        \
      *one = (Type)(1 << i);                                                                                           \
    return i >= 0;                                                                                                     \
  }

G_END_DECLS
