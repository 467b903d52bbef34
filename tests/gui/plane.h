/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * A survey of the shipped twin jet for the tests of the window: its template points,
 * the limits they name, one meter and one person, all in memory.
 */
#pragma once

#include "core/survey.h"

G_BEGIN_DECLS

/** plane_survey_new: @airframe: file name in data/airframes without ".xml"; nothing measured yet. (transfer full) */
BondSurvey *plane_survey_new (const char *airframe);
/** plane_measure: records a single reading of @nohm, forward and reverse where the limit asks for a pair. */
void plane_measure (BondSurvey *survey, const char *number, BondOhm nohm);
/** plane_add_points: @n more points at random places of zones of @view, numbered from 001 up, class structure.
 *  Once for a survey. */
void plane_add_points (BondSurvey *survey, const char *view, guint n);

G_END_DECLS
