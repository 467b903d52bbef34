/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * What the files of checks share.  survey-check.c has the table of kinds, the header,
 * points and states; survey-check-reading.c everything about readings;
 * survey-check-acts.c what is beside them;
 * survey-check-evidence.c what an act would do to the fails there are.
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

/* A measurement stands in its history, be it struck; one moved away is in the history of another place. */
gboolean bond_place_was_measured (const BondPlaceResult *result);
/* After a fail and work on the joint nothing was measured yet, at @place or (NULL) anywhere at @point. */
gboolean bond_point_waits_after_fail (BondPoint *point, const char *place);
/* No fail is gone with @spec in place of the one in force; else FALSE with @error. */
gboolean bond_check_spec_keeps_fails (BondPoint *point, BondPointSpec *spec, GError **error);
/* The same for adopting the register @id, under which no measured point may be left without a limit either. */
gboolean bond_check_adopt_keeps_fails (BondSurvey *survey, const BondAdopt *adopted, const char *id, GError **error);
/* The same for voiding or taking back @target, an entry that is no reading. */
gboolean bond_check_struck_keeps_fails (BondSurvey *survey, BondEntry *target, GError **error);
/* Taking @target back (be it a take-back) leaves no standing reading without the permit it was taken under, and brings
 * none back without one (survey-permit.c). */
gboolean bond_check_struck_keeps_leave (BondSurvey *survey, BondEntry *target, GError **error);

/* The first place an act on @place (NULL = the whole point) concerns that does not conform; NULL = none. */
const BondPlaceResult *bond_check_find_failed (BondPoint *point, const char *place);
/* Person @id is among those adopted; else FALSE with @error. */
gboolean bond_check_person (BondSurvey *survey, const char *id, GError **error);
/* What @entry acts on, which must count at its point now. (nullable) with @error */
BondPoint *bond_check_acted_on (BondSurvey *survey, const BondEntry *entry, BondEntry **target, GError **error);

gboolean bond_check_reading (BondSurvey *survey, const BondEntry *entry, GError **error);
gboolean bond_check_seen (BondSurvey *survey, const BondEntry *entry, GError **error);
gboolean bond_check_void (BondSurvey *survey, const BondEntry *entry, GError **error);
gboolean bond_check_correct (BondSurvey *survey, const BondEntry *entry, GError **error);
gboolean bond_check_move (BondSurvey *survey, const BondEntry *entry, GError **error);
gboolean bond_check_take_back (BondSurvey *survey, const BondEntry *entry, GError **error);

gboolean bond_check_note (BondSurvey *survey, const BondEntry *entry, GError **error);
gboolean bond_check_defect (BondSurvey *survey, const BondEntry *entry, GError **error);
gboolean bond_check_deviation (BondSurvey *survey, const BondEntry *entry, GError **error);
gboolean bond_check_refinish (BondSurvey *survey, const BondEntry *entry, GError **error);
gboolean bond_check_permit (BondSurvey *survey, const BondEntry *entry, GError **error);
gboolean bond_check_close_permit (BondSurvey *survey, const BondEntry *entry, GError **error);
gboolean bond_check_reference (BondSurvey *survey, const BondEntry *entry, GError **error);
gboolean bond_check_caution (BondSurvey *survey, const BondEntry *entry, GError **error);
gboolean bond_check_handover (BondSurvey *survey, const BondEntry *entry, GError **error);

G_END_DECLS
