/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * The program: files to windows, the registers all windows share, the look.
 */
#pragma once

#include "gui/survey-window.h"

G_BEGIN_DECLS

#define BOND_TYPE_APPLICATION (bond_application_get_type ())
G_DECLARE_FINAL_TYPE (BondApplication, bond_application, BOND, APPLICATION, GtkApplication)

BondApplication *bond_application_new (void);
/**
 * bond_application_open_survey: a window for the survey at @path; NULL when a message window says why not, or asks
 * whether to read one that somebody else has open.
 */
BondSurveyWindow *bond_application_open_survey (BondApplication *application, const char *path);
/** bond_application_show: a window for @file, just made or opened; takes no reference. */
BondSurveyWindow *bond_application_show (BondApplication *application, BondSurveyFile *file, GPtrArray *problems);
/** bond_application_take_over: opens the survey that @window only reads anew, for writing, in a window of its own. */
void bond_application_take_over (BondApplication *application, BondSurveyWindow *window);
/** bond_application_get_catalog: shipped registers and those of the library folder. */
/**
 * bond_application_get_register_problems: of BondProblem: what of the registers could not be read. (transfer none)
 */
GPtrArray *bond_application_get_register_problems (BondApplication *application);
BondCatalog *bond_application_get_catalog (BondApplication *application);
const char *bond_application_get_folder (BondApplication *application);
/** bond_application_get_source: the one clock and source of ids. (transfer none) */
BondSource *bond_application_get_source (BondApplication *application);
/** bond_application_station: name of this computer, for sittings. */
const char *bond_application_station (void);

G_END_DECLS
