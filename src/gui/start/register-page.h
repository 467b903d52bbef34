/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * The pages of the registers: a list at the left, what is known of the one chosen at
 * the right.
 */
#pragma once

#include "gui/application.h"

G_BEGIN_DECLS

GtkWidget *bond_instruments_page_new (BondApplication *application);
GtkWidget *bond_airframes_page_new (BondApplication *application);
GtkWidget *bond_limits_page_new (BondApplication *application);
GtkWidget *bond_people_page_new (BondApplication *application);
GtkWidget *bond_house_page_new (BondApplication *application);

G_END_DECLS
