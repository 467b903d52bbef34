/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * Widgets of a window as a person finds them: by what they say, by the label beside
 * them, by the name they are read aloud with.
 */
#pragma once

#include <gtk/gtk.h>

G_BEGIN_DECLS

typedef gboolean (*FindIs) (GtkWidget *widget, const char *what);
/** find_widget: @root or the first inside it that @is @what. (nullable) */
GtkWidget *find_widget (GtkWidget *root, FindIs is, const char *what);
/** find_beside: what the label @label stands beside (its mnemonic widget). (nullable) */
GtkWidget *find_beside (GtkWidget *root, const char *label);
/** find_named: the entry that is read aloud as @name. (nullable) */
GtkWidget *find_named (GtkWidget *root, const char *name);

G_END_DECLS
