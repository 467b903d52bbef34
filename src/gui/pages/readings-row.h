/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * One row of the Readings page: one place of a point, or the header of a zone.
 */
#pragma once

#include "core/survey.h"

G_BEGIN_DECLS

#define BOND_TYPE_READINGS_ROW (bond_readings_row_get_type ())
G_DECLARE_FINAL_TYPE (BondReadingsRow, bond_readings_row, BOND, READINGS_ROW, GObject)
/* Signal: "changed" (): what it shows changed. */

BondReadingsRow *bond_readings_row_new (BondSurvey *survey, BondPoint *point, guint place, guint position);
/** bond_readings_row_new_zone: the header of @zone. */
BondReadingsRow *bond_readings_row_new_zone (BondSurvey *survey, const char *zone, guint position);

BondSurvey *bond_readings_row_get_survey (BondReadingsRow *row);
BondPoint *bond_readings_row_get_point (BondReadingsRow *row);              /* NULL for a header */
const BondPlaceResult *bond_readings_row_get_result (BondReadingsRow *row); /* NULL for a header */
const char *bond_readings_row_get_place (BondReadingsRow *row);             /* NULL = the only one */
/** bond_readings_row_get_value: the measurement that stands for it: what decides, else the newest; NULL = none. */
const BondMeasurement *bond_readings_row_get_value (BondReadingsRow *row);
const char *bond_readings_row_get_zone (BondReadingsRow *row);
/** bond_readings_row_get_zone_name: name of the zone, its number where it has none. (transfer none) */
const char *bond_readings_row_get_zone_name (BondReadingsRow *row);
/** bond_readings_row_get_position: place in walking order, headers counted. */
guint bond_readings_row_get_position (BondReadingsRow *row);
/** bond_readings_row_get_instrument: short name of the meter of the value; NULL = none. */
const char *bond_readings_row_get_instrument (BondReadingsRow *row);
/** bond_readings_row_get_unit: the unit that result, U and limit of the row share. */
BondUnit bond_readings_row_get_unit (BondReadingsRow *row);
/** bond_readings_row_get_count: rows shown below a header. */
guint bond_readings_row_get_count (BondReadingsRow *row);
void bond_readings_row_set_count (BondReadingsRow *row, guint count);
gboolean bond_readings_row_get_shown (BondReadingsRow *row);
/** bond_readings_row_set_shown: passes the filter. Returns: it was otherwise before */
gboolean bond_readings_row_set_shown (BondReadingsRow *row, gboolean shown);
/** bond_readings_row_changed: emits "changed". */
void bond_readings_row_changed (BondReadingsRow *row);

G_END_DECLS
