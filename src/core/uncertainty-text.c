/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * U and its budget as people read them.  U is rounded up, never down, and screen and
 * paper must not round it differently.  What U is, is left to uncertainty.c.
 */
#include "core/uncertainty.h"

#include <glib/gi18n-lib.h>
#include <math.h>
#include <string.h>

#define SIGNIFICANT 3
#define SAME 1e-9 /* two divisors that differ by less are one */

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

/* JCGM 100:2008, 4.3.7 and F.2.2.1 (half-widths), 4.3.3 and 4.2.3 (certificates and standard deviations). */
const char *
bond_budget_source_shape (BondBudgetSource source)
{
  return source == BOND_BUDGET_ACCURACY || source == BOND_BUDGET_RESOLUTION ? _ ("rectangular") : _ ("normal");
}

static char *
format_plain (double value, int decimals, char mark)
{
  char text[G_ASCII_DTOSTR_BUF_SIZE], format[8];
  char *point;

  g_snprintf (format, sizeof format, "%%.%df", CLAMP (decimals, 0, 9));
  g_ascii_formatd (text, sizeof text, format, value);
  point = strchr (text, '.');
  if (point != NULL)
    *point = mark;
  return g_strdup (text);
}

char *
bond_budget_format_part (double nohm, BondUnit unit, char mark, gboolean with_unit)
{
  double value = nohm / (double)bond_unit_nohm (unit);
  int decimals = value > 0 ? (int)CLAMP (SIGNIFICANT - 1 - floor (log10 (value)), 0, 9) : SIGNIFICANT;
  g_autofree char *digits = format_plain (value, decimals, mark);

  return with_unit ? g_strdup_printf ("%s\u00a0%s", digits, bond_unit_symbol (unit)) : g_steal_pointer (&digits);
}

char *
bond_budget_format_divisor (double divisor, char mark)
{
  if (fabs (divisor - sqrt (3)) < SAME)
    return g_strdup ("\u221a3");
  if (fabs (divisor - 2 * sqrt (3)) < SAME)
    return g_strdup ("2\u221a3");
  return format_plain (divisor, divisor == floor (divisor) ? 0 : 3, mark);
}

char *
bond_budget_format_dof (double dof, char mark)
{
  return isfinite (dof) ? format_plain (dof, dof == floor (dof) ? 0 : 1, mark) : g_strdup ("\u221e");
}
