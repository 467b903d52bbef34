/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * The probe-placing studies of the house rules: one line a class, both figures or none.
 */
#pragma once

#include "core/person.h"
#include <gtk/gtk.h>

G_BEGIN_DECLS

/** BondHouseStudies: the entries; borrowed from the page they stand in. */
typedef struct
{
  GtkEditable *spread[BOND_N_CLASSES], *count[BOND_N_CLASSES];
} BondHouseStudies;

/** bond_house_studies_build: puts them into @box; @typed (@data) is called, swapped, when one is changed. */
void bond_house_studies_build (BondHouseStudies *studies, GtkBox *box, GCallback typed, gpointer data);
void bond_house_studies_show (BondHouseStudies *studies, const BondHouse *house);
/**
 * bond_house_studies_read: what stands in the entries, into @house; a line left empty is no study.
 * @wrong: (out): the entry that cannot be used
 *
 * Returns: (transfer full) (nullable): what is wrong with it, NULL = all is read
 */
char *bond_house_studies_read (BondHouseStudies *studies, BondHouse *house, GtkWidget **wrong);

G_END_DECLS
