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

G_END_DECLS
