/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * The marks: two plates that touch (at or under the limit) or stand apart (above
 * it), and the four class signs.  One drawing code for screen and paper.
 */
#pragma once

#include "core/survey.h"
#include <cairo.h>

G_BEGIN_DECLS

/** BondRgb: 0…1. */
typedef struct
{
  double r, g, b;
} BondRgb;
BondRgb bond_rgb (guint32 rrggbb);

/** BondInks: all colours a drawing uses; one for light, dark, high contrast and one ink (paper). */
typedef struct
{
  BondRgb text, quiet, todo, pass, guard, fail, history, accent, paper, zone_tint[2], line, outline;
} BondInks;
const BondInks *bond_inks_light (void);
const BondInks *bond_inks_dark (void);
const BondInks *bond_inks_one (void); /* paper: black and greys */

typedef enum
{
  BOND_MARK_TO_MEASURE,
  BOND_MARK_PASS,
  BOND_MARK_WITHIN_PASS,
  BOND_MARK_WITHIN_FAIL,
  BOND_MARK_FAIL,
  BOND_MARK_REMEASURE,
  BOND_MARK_PASS_AFTER_REWORK,
  BOND_MARK_ACCEPTED,
  BOND_MARK_NOT_ACCESSIBLE,
  BOND_MARK_NOT_FITTED,
  BOND_MARK_RECORDED,
  BOND_MARK_SUSPECT,
  BOND_MARK_IN_DOUBT,
  BOND_MARK_NOT_CONFIRMED,
  BOND_MARK_CARRIED,
  BOND_MARK_NOT_IN_SAMPLE,
  BOND_MARK_VISUAL_REJECT,
} BondMark;
#define BOND_N_MARKS 17
BondMark bond_mark_for (const BondPlaceResult *result, BondRule rule);
const char *bond_mark_name (BondMark mark); /* translated, for legends and accessible names */
/** bond_mark_draw: centred at (x, y); @size = width of the single plate (screen list row 16 px, paper 6 pt). */
void bond_mark_draw (cairo_t *cr, BondMark mark, double x, double y, double size, const BondInks *inks);
/** bond_probe_ticks_draw: the point in hand: two short ticks on each side. */
void bond_probe_ticks_draw (cairo_t *cr, double x, double y, double size, const BondRgb *ink);
/** bond_class_sign_draw: plate J, bolt F, tube T, box E. */
void bond_class_sign_draw (cairo_t *cr, BondClass klass, double x, double y, double size, const BondRgb *ink);

G_END_DECLS
