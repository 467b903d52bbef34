/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * Tab in an order of our own: GTK takes the order on the screen, and the hand wants
 * the field first wherever it stands.
 */
#pragma once

#include <gtk/gtk.h>

G_BEGIN_DECLS

/**
 * bond_focus_in_order: for the focus vfunc of @widget: the focus goes through @order (widgets inside it, nullable ones
 * are passed over) and then out.
 *
 * Returns: whether a widget took it; FALSE for the arrow keys too, which are left to the parent class
 */
gboolean bond_focus_in_order (GtkWidget *widget, GtkWidget *const *order, guint n, GtkDirectionType direction);

G_END_DECLS
