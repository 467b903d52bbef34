/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * Acts in words, for the stories of the report and for the screen.
 */
#pragma once

#include "core/survey.h"

G_BEGIN_DECLS

/** bond_act_append: @words (nullable) behind what stands in @text, with a comma between. */
void bond_act_append (GString *text, const char *words);
/** bond_act_append_titled: the same with @title before @words; nothing when there are no words. */
void bond_act_append_titled (GString *text, const char *title, const char *words);
/** bond_act_word: "Rework" … translated; the file word of a kind without one. */
const char *bond_act_word (BondEntryKind kind);
/** bond_act_details: what it says, its reason last, "" when nothing. @mark: decimal mark. (transfer full) */
char *bond_act_details (BondSurvey *survey, const BondEntry *entry, char mark);

G_END_DECLS
