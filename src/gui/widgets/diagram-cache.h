/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * Pictures the diagram draws again and again: the airframe at the present zoom,
 * somewhat larger than the window so that a pan costs nothing, and one small
 * picture of each mark, because a stamp is many times quicker than a path.
 */
#pragma once

#include "gui/widgets/camera.h"
#include "report/diagram-painter.h"

G_BEGIN_DECLS

/**
 * BondPicture: what a cached picture was made for; any difference makes it anew.  Zone numbers are not part of it:
 * where they may stand changes with the marks.
 */
typedef struct
{
  const BondAirframe *airframe;
  const BondView *view;
  const BondInks *inks;
  const char *font; /* family list, borrowed */
  int scale_factor; /* device pixels per pixel */
} BondPicture;

typedef struct _BondOutlineCache BondOutlineCache;
BondOutlineCache *bond_outline_cache_new (void);
void bond_outline_cache_free (BondOutlineCache *cache);
/** bond_outline_cache_drop: forgets the picture (another airframe, another font). */
void bond_outline_cache_drop (BondOutlineCache *cache);
/** bond_outline_cache_paint: the airframe as @camera sees it, over all of @width × @height pixels. */
void bond_outline_cache_paint (BondOutlineCache *cache, cairo_t *cr, const BondPicture *picture,
                               const BondCamera *camera, int width, int height);

typedef struct _BondMarkStamps BondMarkStamps;
BondMarkStamps *bond_mark_stamps_new (void);
void bond_mark_stamps_free (BondMarkStamps *stamps);
/** bond_mark_stamps_set: @size: width of the single plate in pixels; @quiet: passes step back (whole airframe). */
void bond_mark_stamps_set (BondMarkStamps *stamps, const BondInks *inks, double size, int scale_factor, gboolean quiet);
/** bond_mark_stamps_paint: @mark centred at (@x, @y), moved to whole device pixels. */
void bond_mark_stamps_paint (BondMarkStamps *stamps, cairo_t *cr, BondMark mark, double x, double y);

G_DEFINE_AUTOPTR_CLEANUP_FUNC (BondOutlineCache, bond_outline_cache_free)
G_DEFINE_AUTOPTR_CLEANUP_FUNC (BondMarkStamps, bond_mark_stamps_free)

G_END_DECLS
