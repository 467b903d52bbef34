/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * Somebody new among the people, or somebody's entry put right.
 */
#pragma once

#include "gui/start/register-private.h"

G_BEGIN_DECLS

/** bond_person_dialog: @person NULL = somebody new, with an id nobody had before; else a new revision of @person. */
void bond_person_dialog (BondRegisterPage *page, const BondPerson *person);
/** bond_person_set_disabled: a new revision that is chosen no more, or is again. Says what went wrong. */
void bond_person_set_disabled (BondRegisterPage *page, const BondPerson *person, gboolean disabled);

G_END_DECLS
