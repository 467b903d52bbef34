/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * Two ways for the current.  A meter on a part in place reads it together with
 * everything beside it, always less than the part alone; this is the arithmetic for
 * looking behind such a reading.  It judges nothing: what was measured stays.
 */
#pragma once

#include "core/judge.h"

G_BEGIN_DECLS

#define BOND_PARALLEL_ERROR (bond_parallel_error_quark ())
typedef enum
{
  BOND_PARALLEL_ERROR_NOT_POSITIVE, /* a resistance of zero or less */
  BOND_PARALLEL_ERROR_NOT_ABOVE,    /* the path beside is no more than what was read with it */
  BOND_PARALLEL_ERROR_TOO_LARGE,    /* so near to it that the result does not fit */
} BondParallelError;
GQuark bond_parallel_error_quark (void);

/**
 * bond_parallel_together: a × b ÷ (a + b), what a meter reads on both, half-even to 1 nΩ.
 * @a, @b: > 0
 */
gboolean bond_parallel_together (BondOhm a, BondOhm b, BondOhm *together, GError **error);
/**
 * bond_parallel_alone: the part alone from its reading in place: R·P ÷ (P − R), half-even to 1 nΩ.
 * @in_place: R, read on the part and the path beside it; @beside: P, the path beside alone, > R
 * @error: BOND_PARALLEL_ERROR, words for the person who typed them; nothing is set then
 */
gboolean bond_parallel_alone (BondOhm in_place, BondOhm beside, BondOhm *alone, GError **error);
/**
 * bond_parallel_alone_u: expanded uncertainty of the part alone from that of the reading, P taken as exact:
 * (alone ÷ R)² × @u_nohm, rounded up to 1 nΩ. −1 when it does not fit.
 */
BondOhm bond_parallel_alone_u (BondOhm in_place, BondOhm alone, BondOhm u_nohm);

/**
 * bond_strap_note: a strap of several legs with one broken still measures: what the reading is worth then, in words.
 * @result: with the visual finding "leg broken" and a figure of record; else NULL
 * @legs: legs it should have, ≥ 2
 * Returns: (transfer full) (nullable)
 */
char *bond_strap_note (const BondPlaceResult *result, int legs, BondUnit unit, int min_decimals, char mark);

G_END_DECLS
