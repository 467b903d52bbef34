/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * The panes of the Walk page: points, diagram, reading panel, and where there is
 * room the details of the point.  The width it is given decides how they stand;
 * children are hidden, never rebuilt, so that focus, caret and typed digits stay.
 *
 * Widths are pixels at the usual text size (11 points) and grow with the user's.
 */
#pragma once

#include <gtk/gtk.h>

G_BEGIN_DECLS

typedef enum
{
  BOND_WIDTH_COMPACT, /* below 1200: the points pane slides over the diagram */
  BOND_WIDTH_REGULAR,
  BOND_WIDTH_WIDE, /* from 1680: the diagram twice, the details docked */
} BondWidthClass;

/** BondHeightClass: what goes when there is little height; Record and the verdict never go. */
typedef enum
{
  BOND_HEIGHT_FULL,
  BOND_HEIGHT_LOW,    /* under 640 of window: figures of the limit bar and earlier values go */
  BOND_HEIGHT_LOWEST, /* under 580: Last and Next go too; what is left scrolls over Record */
} BondHeightClass;

#define BOND_TYPE_PANES (bond_panes_get_type ())
G_DECLARE_FINAL_TYPE (BondPanes, bond_panes, BOND, PANES, GtkWidget)
/* Signal: "class-changed" (): width class or height class changed; emitted when idle, never while allocating. */

GtkWidget *bond_panes_new (GtkWidget *points, GtkWidget *canvas, GtkWidget *panel);
/** bond_panes_show_points: compact: slides over the diagram; else gives its room to the diagram when FALSE. */
void bond_panes_show_points (BondPanes *panes, gboolean show);
gboolean bond_panes_points_shown (BondPanes *panes);
/** bond_panes_set_details: (nullable) @widget stands beside the reading panel in the wide class, and only there. */
void bond_panes_set_details (BondPanes *panes, GtkWidget *widget);
/** bond_panes_set_panel_left: the reading panel stands left, and the rest as in a mirror. */
void bond_panes_set_panel_left (BondPanes *panes, gboolean left);
/** bond_panes_set_big: big targets: the reading panel takes near half of the window, the wide class begins later. */
void bond_panes_set_big (BondPanes *panes, gboolean big);
/** bond_panes_set_canvas_order: Tab goes through @widgets of the canvas in this order; at most 6, not owned. */
void bond_panes_set_canvas_order (BondPanes *panes, GtkWidget *const *widgets, guint n);
BondWidthClass bond_panes_get_width_class (BondPanes *panes);
BondHeightClass bond_panes_get_height_class (BondPanes *panes);
/** bond_panes_is_low: less height than all lines need. */
gboolean bond_panes_is_low (BondPanes *panes);
/** bond_panes_step: the pane (points, canvas, panel or details) after (@by 1) or before the one with the focus. */
GtkWidget *bond_panes_step (BondPanes *panes, int by);
/** bond_panes_class_of: width class of @width pixels where one em is @em_px pixels; pure. */
BondWidthClass bond_panes_class_of (double width, double em_px, gboolean big);

G_END_DECLS
