/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * A reading beside its limit on one line from 0 to 1.4 times the limit: how far it
 * is, how sure that is, and where earlier readings lay.  Says nothing about the
 * verdict; that is words and marks elsewhere.
 */
#pragma once

#include "core/verdict.h"
#include <gtk/gtk.h>

G_BEGIN_DECLS

#define BOND_TYPE_LIMIT_BAR (bond_limit_bar_get_type ())
G_DECLARE_FINAL_TYPE (BondLimitBar, bond_limit_bar, BOND, LIMIT_BAR, GtkWidget)

GtkWidget *bond_limit_bar_new (void);
/** bond_limit_bar_set_bounds: copied; NULL = no limit, then only readings show. */
void bond_limit_bar_set_bounds (BondLimitBar *bar, const BondBounds *bounds);
/**
 * bond_limit_bar_set_reading:
 * @quantity: (nullable): value shown; OVER draws an arrow at the end, BELOW a tick at the step
 * @u_nohm: expanded uncertainty in nano-ohms, 0 when not known
 */
void bond_limit_bar_set_reading (BondLimitBar *bar, const BondQuantity *quantity, BondOhm u_nohm);
/** bond_limit_bar_set_earlier: @n_nohm earlier values, copied. */
void bond_limit_bar_set_earlier (BondLimitBar *bar, const BondOhm *nohm, guint n_nohm);
/**
 * bond_limit_bar_set_before: what was read at this place before, in this survey.
 * @found: as found, nano-ohms, 0 = none; @reseats: @n_reseats re-seated values, copied
 */
void bond_limit_bar_set_before (BondLimitBar *bar, BondOhm found, const BondOhm *reseats, guint n_reseats);
/** bond_limit_bar_set_numbers: FALSE leaves the figures under the line out (low windows). */
void bond_limit_bar_set_numbers (BondLimitBar *bar, gboolean numbers);

G_END_DECLS
