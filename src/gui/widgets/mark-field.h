/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * The points that one view shows, laid out in a grid, so that drawing, picking and
 * walking by arrow keys look at the near ones only.  Knows places and marks, no
 * pixels and no GTK.
 */
#pragma once

#include "gui/widgets/camera.h"
#include "report/diagram-painter.h"

G_BEGIN_DECLS

/** BondPlacedMark: @x, @y in view units; @rank: the higher, the worse; drawn on top. */
typedef struct
{
  BondPoint *point; /* a reference */
  double x, y;
  BondMark mark;
  int rank;
} BondPlacedMark;

typedef struct _BondMarkField BondMarkField;

BondMarkField *bond_mark_field_new (void);
void bond_mark_field_free (BondMarkField *field);
/** bond_mark_field_set_mirror: from the next filling on x is turned over within @width view units; 0 = as it is. */
void bond_mark_field_set_mirror (BondMarkField *field, double width);
/** bond_mark_field_fill: all points of @survey that @view shows; either may be NULL: then it is emptied. */
void bond_mark_field_fill (BondMarkField *field, BondSurvey *survey, const BondView *view);
/** bond_mark_field_update: @point changed; TRUE when its mark alone changed, FALSE when the field must be filled anew.
 */
gboolean bond_mark_field_update (BondMarkField *field, BondSurvey *survey, const BondView *view, BondPoint *point);
guint bond_mark_field_get_length (const BondMarkField *field);
const BondPlacedMark *bond_mark_field_get (const BondMarkField *field, guint index);
/** bond_mark_field_find: the mark of @point, NULL when the view does not show it. */
const BondPlacedMark *bond_mark_field_find (const BondMarkField *field, BondPoint *point);
/** bond_mark_field_collect: appends the indices (guint) of all marks in @box, in no order. */
void bond_mark_field_collect (const BondMarkField *field, const BondBox *box, GArray *indices);
/** bond_mark_field_nearest: the nearest mark within @radius view units of (@x, @y), NULL = none; on a tie the worse. */
const BondPlacedMark *bond_mark_field_nearest (const BondMarkField *field, double x, double y, double radius);
/**
 * bond_mark_field_toward: the next mark from (@x, @y) in direction (@dx, @dy), a unit vector; @from is left out.
 * Straight ahead counts before near: a step aside costs twice a step ahead.
 */
const BondPlacedMark *bond_mark_field_toward (const BondMarkField *field, BondPoint *from, double x, double y,
                                              double dx, double dy);
/** bond_mark_field_count: points that @view shows only as part of the higher-level zone @zone. */
guint bond_mark_field_count (const BondMarkField *field, const char *zone);

G_DEFINE_AUTOPTR_CLEANUP_FUNC (BondMarkField, bond_mark_field_free)

G_END_DECLS
