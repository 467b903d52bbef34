/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * The resistance of the metal of a jumper, braid or wire alone.  No joint with such
 * a part in it can measure less, so a lower reading tells of another path or of
 * probes on one part; what a reading is then worth is left to measurement.c.
 */
#pragma once

#include "core/point-spec.h"
#include "core/verdict.h"

G_BEGIN_DECLS

/** BOND_RESISTIVITY_COPPER: annealed copper at 20 °C, 17,241,000 fΩ·m = 1.7241e-8 Ω·m (IEC 60028:1925). */
#define BOND_RESISTIVITY_COPPER G_GINT64_CONSTANT (17241000)

/** bond_conductor_is_known: all three figures are stated and are those of a conductor that can be. */
gboolean bond_conductor_is_known (const BondConductor *conductor);
/**
 * bond_conductor_resistance: resistivity × length ÷ cross-section, half-even to 1 nΩ with the sign of what was cut off.
 * FALSE when @conductor is not known.
 */
gboolean bond_conductor_resistance (const BondConductor *conductor, BondQuantity *resistance);
/**
 * bond_conductor_compare: sign of (@mean + @u_nohm − the metal alone), exact but for what quotients cut off of @mean.
 * @conductor: known
 * @u_nohm: ≥ 0
 */
int bond_conductor_compare (const BondConductor *conductor, const BondMean *mean, BondOhm u_nohm);

G_END_DECLS
