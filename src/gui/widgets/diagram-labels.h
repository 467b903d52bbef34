/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * Words on the diagram: keeps made-up text ready, and keeps words off one another.
 * A label that would cover a mark or a label already there is left out; the caller
 * offers labels in the order in which they matter.
 */
#pragma once

#include "gui/widgets/camera.h"
#include "report/marks.h"
#include <pango/pangocairo.h>

G_BEGIN_DECLS

typedef enum
{
  BOND_LABEL_PLAIN,      /* numbers, values: 0.86 em, medium */
  BOND_LABEL_STRONG,     /* the point in hand: 1.1 em, bold */
  BOND_LABEL_DIGIT,      /* walking order: 0.9 em, bold */
  BOND_LABEL_SIDE,       /* LEFT, RIGHT, FWD: 0.86 em, bold, spaced */
  BOND_LABEL_ZONE,       /* zone numbers: 0.82 em … */
  BOND_LABEL_ZONE_SMALL, /* … and those of small zones */
  BOND_LABEL_COUNT,      /* marks that stand at one place: 0.72 em, bold */
} BondLabelKind;
#define BOND_N_LABEL_KINDS 7

typedef struct _BondLabeller BondLabeller;

BondLabeller *bond_labeller_new (void);
void bond_labeller_free (BondLabeller *labeller);
/** bond_labeller_begin: a new frame: nothing is taken yet.  @context: of the widget; made-up text is kept while it is
 * the same font. */
void bond_labeller_begin (BondLabeller *labeller, PangoContext *context);
/** bond_labeller_take: nothing may cover @box from now on in this frame. */
void bond_labeller_take (BondLabeller *labeller, const BondBox *box);
gboolean bond_labeller_is_free (const BondLabeller *labeller, const BondBox *box);
/** bond_labeller_measure: size of @text in pixels. */
void bond_labeller_measure (BondLabeller *labeller, BondLabelKind kind, const char *text, double *width,
                            double *height);
/** bond_labeller_draw: always; @halo (nullable): paper ink drawn round the letters.  (@x, @y): left top corner. */
void bond_labeller_draw (BondLabeller *labeller, cairo_t *cr, BondLabelKind kind, const char *text, double x, double y,
                         const BondRgb *ink, const BondRgb *halo);
/** bond_labeller_draw_turned: with its middle at (@x, @y), turned clockwise by @angle (radians).
 * @halo: (nullable) */
void bond_labeller_draw_turned (BondLabeller *labeller, cairo_t *cr, BondLabelKind kind, const char *text, double x,
                                double y, double angle, const BondRgb *ink, const BondRgb *halo);
/** bond_labeller_offer: centred at @x, top at @y, if nothing is in the way; FALSE = left out. */
gboolean bond_labeller_offer (BondLabeller *labeller, cairo_t *cr, BondLabelKind kind, const char *text, double x,
                              double y, const BondRgb *ink);

G_DEFINE_AUTOPTR_CLEANUP_FUNC (BondLabeller, bond_labeller_free)

G_END_DECLS
