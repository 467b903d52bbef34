/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * Light, dark, or as the system says: a matter of taste, so it is kept in GSettings
 * where its schema is installed, and only for this run where it is not.
 */
#pragma once

#include <gtk/gtk.h>

G_BEGIN_DECLS

/** bond_look_start: applies the look that was chosen last; returns "system", "light" or "dark" (static). */
const char *bond_look_start (void);
/** bond_look_choose: applies and keeps @look. */
void bond_look_choose (const char *look);

G_END_DECLS
