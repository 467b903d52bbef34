/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * Surveys for the report's tests: the hangar of the worked days with an aircraft
 * around it, and what other programs read out of a PDF.
 */
#pragma once

#include "../core/hangar.h"
#include "report/report.h"

#define PRINTED "2026-11-25T10:00:00+01:00"

/** report_hangar_new: header with order and title, house, limits, instruments, people; no point yet. */
Hangar *report_hangar_new (gboolean with_airframe);
/** report_hangar_fill: @n measured points "NNN-J0001" …, each reading its own figure (report_hangar_figure()). */
void report_hangar_fill (Hangar *h, int n);
/** report_hangar_figure: digits typed and printed for point @i. (transfer full) */
char *report_hangar_figure (int i);
/** report_hangar_all_states: one point in every state that the record can reach. */
void report_hangar_all_states (Hangar *h);
/** report_hangar_pdf: must work; written to a new file. @path: (out) (transfer full) */
GBytes *report_hangar_pdf (Hangar *h, BondPaper paper, char **path);
/** report_hangar_run: output of a program, NULL (and the test skipped) when it is not installed. (transfer full) */
char *report_hangar_run (const char *const *command);
