/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * Preferences: personal taste, in force at once.  Nothing here bears on a result.
 */
#pragma once

#include <gtk/gtk.h>

G_BEGIN_DECLS

/**
 * bond_preferences_install: puts the taste into force, adds the acts "preferences" and "big-targets" (a toggle), and
 * lets every window of @application follow it.  @application has the act "look".
 */
void bond_preferences_install (GtkApplication *application);
void bond_preferences_dialog (GtkWindow *parent, GApplication *application);

G_END_DECLS
