/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * The one place that knows how GTK versions differ.  Everything else is written
 * for GTK 4.8; what came later is looked up at run time here.
 */
#pragma once

#include <gtk/gtk.h>

G_BEGIN_DECLS

/** bond_list_scroll_to: brings row @position of a GtkListView or GtkColumnView into sight; the focus stays where it is.
 */
void bond_list_scroll_to (GtkWidget *list, guint position);
/** bond_announce: speaks @text: announce where GTK has it (4.14), else the description of @widget, which is read when
 * focused. */
void bond_announce (GtkWidget *widget, const char *text);

G_END_DECLS
