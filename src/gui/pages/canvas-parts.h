/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * What lies over and under the diagram of the Walk page: the buttons of its views,
 * the steps for fingers, and the room they leave to it.
 */
#pragma once

#include "gui/widgets/diagram.h"

G_BEGIN_DECLS

/** bond_canvas_fill_views: a button a main view of @airframe (nullable) into @box, the others into @details's menu. */
void bond_canvas_fill_views (GtkWidget *box, GtkMenuButton *details, const BondAirframe *airframe);
/** bond_canvas_view_name: of a main view its button's word, else its title. (transfer none) */
const char *bond_canvas_view_name (const BondView *view);
/** bond_canvas_may_shrink: the text of @button is cut, and then whole in its tooltip, where large text or long words
 * leave no room. */
void bond_canvas_may_shrink (GtkButton *button);
/** bond_canvas_steps_new: Previous, Skip and Next for fingers, hidden; the keys are Up, S and Down. */
GtkWidget *bond_canvas_steps_new (void);
/**
 * bond_canvas_keep_clear: the insets of @diagram follow the heights of what @overlay lays over its top and bottom,
 * whatever text size or target size they have.  @side: its left and right inset, pixels.
 */
void bond_canvas_keep_clear (GtkOverlay *overlay, BondDiagram *diagram, int side);
/** bond_canvas_set_big: with big targets any press on @diagram is a finger's, measured in millimetres. */
void bond_canvas_set_big (BondDiagram *diagram, gboolean big);

G_END_DECLS
