/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * Parallel resistances in whole nano-ohms, rounded once at the end.
 */
#include "core/parallel.h"

#include <glib/gi18n-lib.h>
#include <math.h>

G_DEFINE_QUARK (bond_parallel_error, bond_parallel_error)

static gboolean
are_positive (BondOhm a, BondOhm b, GError **error)
{
  if (a > 0 && b > 0)
    return TRUE;
  g_set_error_literal (error, BOND_PARALLEL_ERROR, BOND_PARALLEL_ERROR_NOT_POSITIVE,
                       _ ("Nothing to work out: both resistances must be above zero. Type them as measured."));
  return FALSE;
}

gboolean
bond_parallel_together (BondOhm a, BondOhm b, BondOhm *together, GError **error)
{
  g_return_val_if_fail (together != NULL, FALSE);
  if (!are_positive (a, b, error))
    return FALSE;
  *together = (BondOhm)bond_ratio_round ((__int128)a * b, (__int128)a + b, NULL);
  return TRUE;
}

gboolean
bond_parallel_alone (BondOhm in_place, BondOhm beside, BondOhm *alone, GError **error)
{
  __int128 nohm;

  g_return_val_if_fail (alone != NULL, FALSE);
  if (!are_positive (in_place, beside, error))
    return FALSE;
  if (beside <= in_place)
    {
      g_set_error_literal (error, BOND_PARALLEL_ERROR, BOND_PARALLEL_ERROR_NOT_ABOVE,
                           _ ("Nothing to work out: the path beside a part is always above what was read on both "
                              "together. Measure the path with the part taken off."));
      return FALSE;
    }
  nohm = bond_ratio_round ((__int128)in_place * beside, beside - in_place, NULL);
  if (nohm > G_MAXINT64)
    {
      g_set_error_literal (error, BOND_PARALLEL_ERROR, BOND_PARALLEL_ERROR_TOO_LARGE,
                           _ ("Nothing to work out: the path beside is so near to what was read that the reading says "
                              "nothing of the part. Free one end and measure it alone."));
      return FALSE;
    }
  *alone = (BondOhm)nohm;
  return TRUE;
}

BondOhm
bond_parallel_alone_u (BondOhm in_place, BondOhm alone, BondOhm u_nohm)
{
  double ratio, u;

  g_return_val_if_fail (in_place > 0 && alone > 0 && u_nohm >= 0, -1);
  /* JCGM 100:2008, 5.1.2: |∂(R·P/(P − R))/∂R| = (P/(P − R))² = (alone/R)². */
  ratio = (double)alone / (double)in_place;
  u = ratio * ratio * (double)u_nohm;
  return u < (double)G_MAXINT64 ? (BondOhm)ceil (u) : -1;
}

char *
bond_strap_note (const BondPlaceResult *result, int legs, BondUnit unit, int min_decimals, char mark)
{
  const BondMeasurement *m;
  BondMean good;
  g_autofree char *one = NULL;
  g_autofree char *all = NULL;

  g_return_val_if_fail (result != NULL && legs >= 2, NULL);
  m = result->decides;
  if (result->visual != BOND_VISUAL_LEG_BROKEN || m == NULL || m->qualifier != BOND_QUALIFIER_NONE || m->mean.count == 0
      || m->mean.count > G_MAXINT / legs)
    return NULL;
  good = m->mean;
  good.count *= legs;
  one = bond_mean_format (&m->mean, unit, min_decimals, NULL, mark);
  all = bond_mean_format (&good, unit, min_decimals, NULL, mark);
  /* TRANSLATORS: value, unit, number of legs, value, unit */
  return g_strdup_printf (ngettext ("One leg of %1$s\u00a0%2$s alone reads the same; %3$d good leg would read "
                                    "%4$s\u00a0%5$s.",
                                    "One leg of %1$s\u00a0%2$s alone reads the same; %3$d good legs would read "
                                    "%4$s\u00a0%5$s.",
                                    legs),
                          one, bond_unit_symbol (unit), legs, all, bond_unit_symbol (unit));
}
