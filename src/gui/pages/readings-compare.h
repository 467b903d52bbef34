/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * How rows of the Readings page are put in order by each of its columns.  None of
 * the rows is a header of a zone.
 */
#pragma once

#include "gui/pages/readings-row.h"

G_BEGIN_DECLS

/** bond_readings_compare_*: below 0 = @a first. */
int bond_readings_compare_verdict (BondReadingsRow *a, BondReadingsRow *b); /* the worst first */
int bond_readings_compare_point (BondReadingsRow *a, BondReadingsRow *b);   /* J2 before J10 */
int bond_readings_compare_what (BondReadingsRow *a, BondReadingsRow *b);
int bond_readings_compare_class (BondReadingsRow *a, BondReadingsRow *b);
int bond_readings_compare_zone (BondReadingsRow *a, BondReadingsRow *b);
int bond_readings_compare_limit (BondReadingsRow *a, BondReadingsRow *b);
/* "< 0.01" just before 0.01, "> 30" just behind 30 */
int bond_readings_compare_found (BondReadingsRow *a, BondReadingsRow *b);
int bond_readings_compare_result (BondReadingsRow *a, BondReadingsRow *b);
int bond_readings_compare_u (BondReadingsRow *a, BondReadingsRow *b);
int bond_readings_compare_used (BondReadingsRow *a, BondReadingsRow *b);
int bond_readings_compare_meter (BondReadingsRow *a, BondReadingsRow *b);
int bond_readings_compare_by (BondReadingsRow *a, BondReadingsRow *b);
int bond_readings_compare_when (BondReadingsRow *a, BondReadingsRow *b); /* the moment, whatever its offset */

/** bond_readings_blank_*: the column says nothing of the row. */
gboolean bond_readings_blank_limit (BondReadingsRow *row);
/* nothing was found but the result itself */
gboolean bond_readings_blank_found (BondReadingsRow *row);
gboolean bond_readings_blank_value (BondReadingsRow *row);
gboolean bond_readings_blank_u (BondReadingsRow *row);
gboolean bond_readings_blank_used (BondReadingsRow *row);

G_END_DECLS
