/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * Whether everything in a window that can have the keyboard can be got to by keys,
 * and can be read aloud.  Any test of a page or a dialog ends with one call.
 */
#pragma once

#include <gtk/gtk.h>

G_BEGIN_DECLS

/** reach_name: the accessible name of @widget, from its label or the widget that labels it; NULL = none.
 * (transfer full) */
char *reach_name (GtkWidget *widget);
/**
 * reach_faults: walks everything that is mapped, sensitive and focusable in @window, and goes round with Tab.
 * Rows of a list and buttons of one radio group count as reached when one of them is: arrows do the rest.
 * Moves the focus.
 *
 * Returns: (transfer full): GPtrArray of sentences, one for each widget without a name or out of reach
 */
GPtrArray *reach_faults (GtkWindow *window);
/** reach_assert: no faults; each one is printed. */
void reach_assert (GtkWindow *window);

G_END_DECLS
