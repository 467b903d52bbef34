/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * One mark, or one class sign, as a small picture in a row or beside a number.
 * The drawing is report's; this only gives it a place in a window, the colours of
 * the theme, and a name that can be read aloud.
 */
#pragma once

#include "core/survey.h"
#include "report/marks.h"
#include <gtk/gtk.h>

G_BEGIN_DECLS

#define BOND_TYPE_MARK_IMAGE (bond_mark_image_get_type ())
G_DECLARE_FINAL_TYPE (BondMarkImage, bond_mark_image, BOND, MARK_IMAGE, GtkWidget)

GtkWidget *bond_mark_image_new (void);
/** bond_mark_image_set_point: (nullable) shows the mark of @point and follows its "changed"; @rule as the survey's. */
void bond_mark_image_set_point (BondMarkImage *image, BondPoint *point, BondRule rule);
/** bond_mark_image_set_mark: a fixed mark (legend, chips, live verdict); stops following a point. */
void bond_mark_image_set_mark (BondMarkImage *image, BondMark mark);
/** bond_mark_image_set_class: a class sign instead of a mark; stops following a point. */
void bond_mark_image_set_class (BondMarkImage *image, BondClass klass);
/** bond_mark_image_clear: shows nothing, keeps its place. */
void bond_mark_image_clear (BondMarkImage *image);
/** bond_mark_image_set_size: width of the single plate in pixels; 16 by default. */
void bond_mark_image_set_size (BondMarkImage *image, double size);

G_END_DECLS
