/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * Who measures, who types and who supervises: a button that always says it, and a
 * popover that changes it in one further key.
 */
#pragma once

#include "gui/walk.h"
#include "store/catalog.h"
#include <gtk/gtk.h>

G_BEGIN_DECLS

/** bond_people_chip_new: @catalog (nullable): register to choose more people from; must outlive the chip. */
GtkWidget *bond_people_chip_new (BondWalk *walk, BondCatalog *catalog);
/** bond_people_words: "R. Haddad, under A. Smith". (transfer full) */
char *bond_people_words (BondSurvey *survey);
/** bond_add_person: adopts a person called @name into the survey, as the one who measures. */
void bond_add_person (BondWalk *walk, const char *name);
/** bond_adopt_person: adopts a person called @name; the one who measures stays. (transfer full): the id */
char *bond_adopt_person (BondWalk *walk, const char *name);
/** bond_people_listed: people of the survey that can be chosen, not disabled; of @catalog (nullable) those not yet in
 * it after them. GPtrArray of BondPerson. (transfer container) */
GPtrArray *bond_people_listed (BondSurvey *survey, BondCatalog *catalog);

G_END_DECLS
