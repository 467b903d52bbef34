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
/**
 * bond_spoken_result: "541-J04 pass, 1.83 milliohm, 73 percent of the limit." of the newest measurement; of half a pair
 * "662-J01 forward 1.84 milliohm. Reverse next." (transfer full)
 */
char *bond_spoken_result (BondSurvey *survey, BondPoint *point, const BondPlaceResult *result);
/** bond_spoken_next: "Next 541-J05, flap hinge 2, limit 1 ohm." (transfer full) */
char *bond_spoken_next (BondPoint *point, const char *place);
/** bond_spoken_point: "541-J05, flap hinge 2, limit 1 ohm." and its state once it has one. (transfer full) */
char *bond_spoken_point (BondPoint *point, const char *place);
/**
 * bond_spoken_sentence: @text of the screen for the ear: units and "%" spelled out, the number of @point before it
 * unless it begins with that of a point already.
 * @point: (nullable)
 * Returns: (transfer full)
 */
char *bond_spoken_sentence (BondSurvey *survey, BondPoint *point, const char *text);

G_END_DECLS
