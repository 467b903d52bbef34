/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * What the two halves of the diagram painter share: geometry in
 * diagram-painter.c, words and numbers in diagram-words.c.
 */
#pragma once

#include "report/diagram-painter.h"

G_BEGIN_DECLS

#define BOND_INK(field) G_STRUCT_OFFSET (BondInks, field)

/** BondPaint: what one painting needs at every step; @side is the longer side of the view. All borrowed. */
typedef struct
{
  cairo_t *cr;
  const BondAirframe *airframe;
  const BondView *view;
  const BondDiagramStyle *style;
  PangoLayout *layout;
  double side;
} BondPaint;

/** bond_paint_ink: @offset as from BOND_INK(). */
void bond_paint_ink (BondPaint *paint, gsize offset);
/** bond_paint_layout: a layout in the style's font with figures of one width. (transfer full) */
PangoLayout *bond_paint_layout (cairo_t *cr, const BondDiagramStyle *style);
/** bond_paint_words: zone numbers, the way forward, the sides and the rulers around the outline's box. */
void bond_paint_words (BondPaint *paint, const BondXY *from, const BondXY *to);

G_END_DECLS
