/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * The printable survey report: A4 or Letter PDF.  Sections are rows of one table;
 * a first pass counts pages, a second draws.
 */
#pragma once

#include "core/survey.h"

G_BEGIN_DECLS

typedef enum
{
  BOND_PAPER_A4,
  BOND_PAPER_LETTER
} BondPaper;
gboolean bond_paper_parse (const char *text, BondPaper *paper); /* "a4" "letter" */

#define BOND_REPORT_ERROR (bond_report_error_quark ())
typedef enum
{
  BOND_REPORT_ERROR_EMPTY,
  BOND_REPORT_ERROR_CAIRO,
  BOND_REPORT_ERROR_CANCELLED
} BondReportError;
GQuark bond_report_error_quark (void);

/** BondReportOptions: @printed: ISO 8601 time printed on it and set as creation date. @font: NULL = default list. */
typedef struct
{
  BondPaper paper;
  const char *printed;
  const char *font;
} BondReportOptions;

/** bond_report_pdf: the whole document. Same survey, options and fonts: same bytes. (transfer full) */
GBytes *bond_report_pdf (BondSurvey *survey, const BondReportOptions *options, GError **error);
/** bond_report_n_pages / _draw_page: the same pages on any cairo context (preview), 1 unit = 1 pt. */
typedef struct _BondReport BondReport;
BondReport *bond_report_new (BondSurvey *survey, const BondReportOptions *options);
void bond_report_free (BondReport *report);
int bond_report_n_pages (BondReport *report);
void bond_report_page_size (BondReport *report, double *width_pt, double *height_pt);
void bond_report_draw_page (BondReport *report, int page, gpointer cr);

G_DEFINE_AUTOPTR_CLEANUP_FUNC (BondReport, bond_report_free)

G_END_DECLS
