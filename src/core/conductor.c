/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * Resistivity × length ÷ cross-section in whole numbers.  The units of BondConductor
 * are chosen so that the powers of ten cancel: fΩ·m × µm ÷ µm² = nΩ.
 */
#include "core/conductor.h"

/* 10 m², 10 km and 1e-3 Ω·m: beyond any part of an aircraft, and small enough for every product below. */
#define AREA_MAX_UM2 G_GINT64_CONSTANT (10000000000000)
#define LENGTH_MAX_UM G_GINT64_CONSTANT (10000000000)
#define RESISTIVITY_MAX_FOHM_M G_GINT64_CONSTANT (1000000000000)

static gboolean
is_within (gint64 value, gint64 most)
{
  return value > 0 && value <= most;
}

gboolean
bond_conductor_is_known (const BondConductor *conductor)
{
  g_return_val_if_fail (conductor != NULL, FALSE);
  return is_within (conductor->area_um2, AREA_MAX_UM2) && is_within (conductor->length_um, LENGTH_MAX_UM)
         && is_within (conductor->resistivity_fohm_m, RESISTIVITY_MAX_FOHM_M);
}

gboolean
bond_conductor_resistance (const BondConductor *conductor, BondQuantity *resistance)
{
  __int128 nohm;
  int rest;

  g_return_val_if_fail (conductor != NULL && resistance != NULL, FALSE);
  if (!bond_conductor_is_known (conductor))
    return FALSE;
  nohm = bond_ratio_round ((__int128)conductor->resistivity_fohm_m * conductor->length_um, conductor->area_um2, &rest);
  if (nohm > G_MAXINT64)
    return FALSE;
  *resistance = (BondQuantity){ .nohm = (BondOhm)nohm, .rest = (gint8)rest };
  return TRUE;
}

int
bond_conductor_compare (const BondConductor *conductor, const BondMean *mean, BondOhm u_nohm)
{
  __int128 metal, value;

  g_return_val_if_fail (conductor != NULL && bond_conductor_is_known (conductor), 0);
  g_return_val_if_fail (mean != NULL && mean->count > 0 && u_nohm >= 0, 0);
  /* Both times the cross-section and the count, so that nothing is divided. */
  metal = (__int128)conductor->resistivity_fohm_m * conductor->length_um * mean->count;
  value = (mean->sum + (__int128)u_nohm * mean->count) * conductor->area_um2;
  return (value > metal) - (value < metal);
}
