/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * What is read aloud: verdict and next point as sentences, units spelled out, each
 * beginning with the number of its point so that no two are alike (a screen reader
 * drops a text equal to the last).
 */
#pragma once

#include "core/survey.h"

G_BEGIN_DECLS

/** bond_spoken_quantity: "1.83 milliohm", "above 30 milliohm"; @decimals as bond_words_quantity(). (transfer full) */
char *bond_spoken_quantity (const BondQuantity *quantity, BondUnit unit, int decimals);
/** bond_spoken_result: "541-J04 pass, 1.83 milliohm, 73 percent of the limit." of the newest measurement. (transfer
 * full) */
char *bond_spoken_result (BondSurvey *survey, BondPoint *point, const BondPlaceResult *result);
/** bond_spoken_next: "Next 541-J05, flap hinge 2, limit 1 ohm." (transfer full) */
char *bond_spoken_next (BondPoint *point, const char *place);

G_END_DECLS
