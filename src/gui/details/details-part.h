/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * A part of the page that only tells: it can have the focus, so that keys bring it
 * into sight and it is read aloud whole.  GtkBox hands the focus on and never has it.
 */
#pragma once

#include <gtk/gtk.h>

G_BEGIN_DECLS

#define BOND_TYPE_DETAILS_PART (bond_details_part_get_type ())
G_DECLARE_FINAL_TYPE (BondDetailsPart, bond_details_part, BOND, DETAILS_PART, GtkWidget)

GtkWidget *bond_details_part_new (void);
/** bond_details_part_get_box: what stands in it goes in here. */
GtkBox *bond_details_part_get_box (BondDetailsPart *part);
/** bond_details_part_speak: @text is read aloud; NULL = it only holds other things, and never has the focus. */
void bond_details_part_speak (BondDetailsPart *part, const char *text);

G_END_DECLS
