/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * What Undo and Redo are about to do, by name: on the button, in the menu and in the
 * sentence afterwards the same words.
 */
#pragma once

#include "core/survey.h"

G_BEGIN_DECLS

/** bond_undo_what: "Rework on 541-J02", "Reading 1.84 on 541-J01"; of an entry of any kind. (transfer full) */
char *bond_undo_what (BondSurvey *survey, const BondEntry *entry);
/** bond_undo_words: "Undo Rework on 541-J02"; "Undo" when there is nothing to undo. (transfer full) */
char *bond_undo_words (BondSurvey *survey);
/** bond_redo_words: "Redo Rework on 541-J02"; "Redo" when there is nothing to redo. (transfer full) */
char *bond_redo_words (BondSurvey *survey);

G_END_DECLS
