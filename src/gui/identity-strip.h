/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * Which aircraft and which job: the line below the header bar, with how far the
 * walk has come.
 */
#pragma once

#include "gui/walk.h"
#include "store/catalog.h"
#include <gtk/gtk.h>

G_BEGIN_DECLS

GtkWidget *bond_identity_strip_new (BondWalk *walk, BondCatalog *catalog);
/** bond_identity_strip_get_people: its button that says who measures. */
GtkWidget *bond_identity_strip_get_people (GtkWidget *strip);
/** bond_identity_short: "ZZ-TQA" of a survey, for titles. (transfer full) */
char *bond_identity_short (BondSurvey *survey);
/** bond_identity_progress: "101 of 186 done". (transfer full) */
char *bond_identity_progress (BondSurvey *survey, double *fraction);

/** bond_identity_strip_distrust: the file was altered: says so where the progress stood, for good. */
void bond_identity_strip_distrust (GtkWidget *strip);

G_END_DECLS
