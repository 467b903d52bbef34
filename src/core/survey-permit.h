/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * What the checks of entries ask of permits, beyond core/survey.h.  Nobody else
 * includes this.
 */
#pragma once

#include "core/survey-private.h"

G_BEGIN_DECLS

/* Order of two moments (ISO 8601 with offset) as of strcmp(); FALSE when one of them is none. */
gboolean bond_moment_compare (const char *a, const char *b, int *order);
/* @word is one of @words (nullable), which single spaces part. */
gboolean bond_words_hold (const char *words, const char *word);
/* The entry that closed @permit; NULL = it is open. */
const BondEntry *bond_survey_find_close (BondSurvey *survey, const BondEntry *permit);
/*
 * As bond_survey_check_permit() for a reading that was taken at @at; a permit closed since counts. NULL = now.
 * @instrument: (nullable): nothing is asked of it
 */
gboolean bond_survey_check_permit_at (BondSurvey *survey, BondPoint *point, const char *instrument, const char *at,
                                      GError **error);

G_END_DECLS
