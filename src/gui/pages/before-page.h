/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * What stands before the first reading of a window: the cautions of this survey, who
 * measures, with which instrument.  Shown once a window; Enter goes on.
 */
#pragma once

#include "gui/walk.h"
#include <gtk/gtk.h>

G_BEGIN_DECLS

#define BOND_TYPE_BEFORE_PAGE (bond_before_page_get_type ())
G_DECLARE_FINAL_TYPE (BondBeforePage, bond_before_page, BOND, BEFORE_PAGE, GtkWidget)
/* Signal: "begin" (). */

GtkWidget *bond_before_page_new (BondWalk *walk);
/** bond_before_page_begin: what its button does; FALSE when somebody must be named first. */
gboolean bond_before_page_begin (BondBeforePage *page);
void bond_before_page_grab_focus (BondBeforePage *page);

/** bond_caution_grid_new: @cautions (of BondCaution) in two columns, each a heading and its words. */
GtkWidget *bond_caution_grid_new (GPtrArray *cautions);

G_END_DECLS
