/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * The report of a survey as a PDF file, from the window.
 */
#pragma once

#include "core/survey.h"
#include <gtk/gtk.h>

G_BEGIN_DECLS

/** BondExported: @message says what was written, or (with @failed) why nothing was. */
typedef void (*BondExported) (const char *message, gboolean failed, gpointer data);

/** bond_export_pdf: asks where to, then makes the report; @done is called once, not at all when nothing was chosen.
 * @beside: (nullable): path of the survey's file; its folder is proposed */
void bond_export_pdf (GtkWindow *parent, BondSurvey *survey, const char *beside, BondExported done, gpointer data);
/** bond_export_pdf_to: without asking (tests, and the second half of the above). */
gboolean bond_export_pdf_to (BondSurvey *survey, GFile *file, GError **error);

G_END_DECLS
