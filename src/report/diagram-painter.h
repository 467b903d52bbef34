/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * Draws one view of an airframe, with or without its points, on any cairo
 * context: the window's surface or a page.
 */
#pragma once

#include "report/marks.h"
#include <pango/pangocairo.h>

G_BEGIN_DECLS

/**
 * BondLabelPlace: asked before a zone number of @width x @height is drawn with its middle at (*@x, *@y).
 * It may move the place. All in view units. Returns: FALSE to leave the number out
 */
typedef gboolean (*BondLabelPlace) (const BondZoneShape *shape, double width, double height, double *x, double *y,
                                    gpointer data);

/**
 * BondDiagramStyle:
 * @inks: colours; @font: family list; @scale: device units per view unit (pens and text sizes are in device units)
 */
typedef struct
{
  const BondInks *inks;
  const char *font;
  double scale;
  double label_size; /* device units; 0 = no zone numbers */
  gboolean rulers;
  const char *lit_zone;       /* (nullable): zone drawn lit (hover, current) */
  BondLabelPlace place_label; /* (nullable): numbers stand where the airframe says */
  gpointer place_data;
  gboolean no_sides; /* TRUE leaves FWD, LEFT and RIGHT to the caller: a window keeps them in sight at every zoom */
} BondDiagramStyle;

/** bond_diagram_paint: the airframe of @view in view units; the caller has set the matrix (origin, scale). */
void bond_diagram_paint (cairo_t *cr, const BondAirframe *airframe, const BondView *view,
                         const BondDiagramStyle *style);
/** bond_view_bounds: extents of the outline in view units (what "fit" shows). */
void bond_view_bounds (const BondView *view, double *x, double *y, double *width, double *height);
void bond_path_append (cairo_t *cr, const BondPath *path);

/** bond_diagram_shows: whether @view shows a mark for @point (placement there and not only on a higher-level zone). */
gboolean bond_diagram_shows (const BondView *view, const BondPointSpec *spec, double *x, double *y);

G_END_DECLS
