/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * The page Surveys of the start window: aircraft with their surveys, files that need
 * a look, search and filters.
 */
#pragma once

#include "gui/application.h"

G_BEGIN_DECLS

#define BOND_TYPE_SURVEYS_PAGE (bond_surveys_page_get_type ())
G_DECLARE_FINAL_TYPE (BondSurveysPage, bond_surveys_page, BOND, SURVEYS_PAGE, GtkBox)

GtkWidget *bond_surveys_page_new (BondApplication *application);
/** bond_surveys_page_look: looks at the folder; files that look the same are not read again. */
void bond_surveys_page_look (BondSurveysPage *page);
/** bond_surveys_page_is_looking: a look is under way. */
gboolean bond_surveys_page_is_looking (BondSurveysPage *page);
GtkListBox *bond_surveys_page_get_list (BondSurveysPage *page);
GtkEditable *bond_surveys_page_get_search (BondSurveysPage *page);

G_END_DECLS
