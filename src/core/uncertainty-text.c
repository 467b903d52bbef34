/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * U as people read it.  It is rounded up, never down, and screen and paper must not
 * round it differently.  What U is, is left to uncertainty.c.
 */
#include "core/uncertainty.h"

/* Decimals so that rounding up costs less than a third of U: two digits where the first is 1 or 2. */
static int
uncertainty_decimals (BondOhm u_nohm, BondOhm unit_nohm, int decimals)
{
  BondOhm step = unit_nohm;

  for (int i = 0; i < decimals && step > 1; i++)
    step /= 10;
  while (step > 1 && u_nohm < 3 * step)
    {
      step /= 10;
      decimals++;
    }
  return decimals;
}

char *
bond_uncertainty_format (BondOhm u_nohm, BondUnit unit, int decimals, char mark)
{
  BondOhm step = bond_unit_nohm (unit);
  BondOhm u = u_nohm;

  g_return_val_if_fail (u_nohm >= 0 && decimals >= 0, NULL);
  decimals = uncertainty_decimals (u, step, decimals);
  for (int i = 0; i < decimals; i++)
    step = MAX (step / 10, 1);
  if (u % step != 0)
    u += step - u % step;
  return bond_ohm_format (u, unit, decimals, mark);
}
