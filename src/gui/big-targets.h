/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * Sizes for gloved fingers, in millimetres of the monitor a window is on.
 */
#pragma once

#include <gtk/gtk.h>

G_BEGIN_DECLS

#define BOND_TARGET_GAP_MM 2
#define BOND_TOUCH_PICK_MM 12 /* a finger means the nearest mark within this … */
#define BOND_TOUCH_APART_MM 4 /* … unless two marks are nearer to each other */

/**
 * bond_big_targets_px: logical pixels of @mm millimetres on a monitor that says it is @width_px wide and @width_mm.
 *
 * A monitor that says nothing, or something no screen is (below 50 or above 400 pixels an inch), counts as 96.
 * Never less than 44 pixels for a target: what WCAG 2.2, 2.5.5 asks of any finger; @least FALSE for gaps and radii.
 */
int bond_big_targets_px (double mm, int width_mm, int width_px, gboolean least);
/** bond_big_targets_of: the same on the monitor that @widget is shown on. */
int bond_big_targets_of (GtkWidget *widget, double mm, gboolean least);
/** bond_big_targets_follow: @window gets the style class "big-targets" and its sizes while the taste asks for them. */
void bond_big_targets_follow (GtkWindow *window);

G_END_DECLS
