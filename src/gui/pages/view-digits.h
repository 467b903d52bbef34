/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * The digits of the walk that lie in another view: they stand on the button of that
 * view, so that the walk line never has to run out of the drawing.
 */
#pragma once

#include "gui/widgets/diagram.h"

G_BEGIN_DECLS

/** bond_view_digits_prepare: @button (a button with a label) goes to @view; @name as on it. */
void bond_view_digits_prepare (GtkWidget *button, const char *view, const char *name);
/**
 * bond_view_digits_show: on every prepared button in @box the number of the first next point that @diagram does not
 * show now and that view does.
 */
void bond_view_digits_show (GtkWidget *box, BondDiagram *diagram, BondPoint *const *points, guint n_points);
/** bond_view_digits_show_on_menu: the same on @button, whose menu has the views that are not main ones; @name as on it.
 */
void bond_view_digits_show_on_menu (GtkMenuButton *button, const char *name, BondDiagram *diagram,
                                    const BondAirframe *airframe, BondPoint *const *points, guint n_points);

G_END_DECLS
