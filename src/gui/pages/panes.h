/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * The three panes of the Walk page: points, diagram, reading panel.  The width it
 * is given decides how they stand; children are hidden, never rebuilt, so that
 * focus, caret and typed digits stay.
 */
#pragma once

#include <gtk/gtk.h>

G_BEGIN_DECLS

typedef enum
{
  BOND_WIDTH_COMPACT, /* below 1200: the points pane slides over the diagram */
  BOND_WIDTH_REGULAR,
  BOND_WIDTH_WIDE, /* from 1680 */
} BondWidthClass;

#define BOND_TYPE_PANES (bond_panes_get_type ())
G_DECLARE_FINAL_TYPE (BondPanes, bond_panes, BOND, PANES, GtkWidget)
/* Signal: "class-changed" (): width class or height class changed; emitted when idle, never while allocating. */

GtkWidget *bond_panes_new (GtkWidget *points, GtkWidget *canvas, GtkWidget *panel);
/** bond_panes_show_points: compact: slides over the diagram; else gives its room to the diagram when FALSE. */
void bond_panes_show_points (BondPanes *panes, gboolean show);
gboolean bond_panes_points_shown (BondPanes *panes);
BondWidthClass bond_panes_get_width_class (BondPanes *panes);
/** bond_panes_is_low: under 640 pixels of window height, where second lines go first. */
gboolean bond_panes_is_low (BondPanes *panes);

G_END_DECLS
