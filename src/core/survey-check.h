/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * What the two files of checks share.  survey-check.c has the table of kinds, the
 * header, points and states; survey-check-reading.c everything about readings.
 * Nobody else includes this.
 */
#pragma once

#include "core/survey-private.h"

G_BEGIN_DECLS

/* Sets @error; always FALSE, so that a check can end with it. */
gboolean bond_check_refuse (GError **error, BondSurveyError code, const char *format, ...) G_GNUC_PRINTF (3, 4);
/* The point in force with @id, or NULL with @error. */
BondPoint *bond_check_point (BondSurvey *survey, const char *id, GError **error);
/* @needed: a divided point must name its place (readings); other acts may mean the whole point. */
gboolean bond_check_place (BondPoint *point, const char *place, gboolean needed, GError **error);
gboolean bond_point_has_readings (const BondPoint *point);

gboolean bond_check_reading (BondSurvey *survey, const BondEntry *entry, GError **error);
gboolean bond_check_seen (BondSurvey *survey, const BondEntry *entry, GError **error);
gboolean bond_check_void (BondSurvey *survey, const BondEntry *entry, GError **error);
gboolean bond_check_correct (BondSurvey *survey, const BondEntry *entry, GError **error);
gboolean bond_check_move (BondSurvey *survey, const BondEntry *entry, GError **error);
gboolean bond_check_take_back (BondSurvey *survey, const BondEntry *entry, GError **error);

G_END_DECLS
