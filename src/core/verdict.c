/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * An exact mean against bounds.  Comparisons are of sums in 128 bits, so a verdict
 * rests on no rounding; which bounds apply and what a verdict leads to is left to
 * judge.c.
 *
 * A reading that is a quotient of voltage and current is no whole number of
 * nano-ohms; of it only the sign of what was cut off (at most half a nano-ohm) is
 * kept.  For one such reading that decides every comparison exactly.  For several,
 * the exact sum is known to lie within a span of half a nano-ohm each; when a limit
 * falls inside that span the bound counts as not met.
 */
#include "core/verdict.h"

#include "core/word.h"
#include <glib/gi18n-lib.h>

static const BondWord rules[] = {
  [BOND_RULE_SIMPLE] = { "simple-acceptance", N_ ("simple acceptance") },
  [BOND_RULE_GUARDED] = { "guarded-acceptance", N_ ("guarded acceptance") },
};

/* Decimals after which a mean is no longer written out but cut off with an ellipsis. */
#define MAX_DECIMALS 12
/* An exact mean is written in full when that needs no more than these decimals more than the display has. */
#define EXTRA_DECIMALS 2

static int
sign (__int128 value)
{
  return (value > 0) - (value < 0);
}

/*
 * Sign of (exact mean − nohm); @doubtful where the cut-off parts leave it open.
 * In half nano-ohms the exact sum lies between sum and sum + n_rest in the direction of the rest.
 */
static int
compare (const BondMean *mean, __int128 nohm, int doubtful)
{
  __int128 twice = 2 * (mean->sum - mean->count * nohm);
  __int128 span = mean->n_rest;

  if (span == 0)
    return sign (twice);
  if (mean->rest_mixed)
    return twice >= span ? 1 : (twice <= -span ? -1 : doubtful);
  if (mean->rest > 0)
    return twice >= 0 ? 1 : (twice + span < 0 ? -1 : doubtful);
  return twice <= 0 ? -1 : (twice - span > 0 ? 1 : doubtful);
}

/* Doubt never lets a value through: it counts as above an upper limit and below a lower one. */
static gboolean
bound_met (const BondBound *bound, const BondMean *mean)
{
  switch (bound->relation)
    {
    case BOND_RELATION_LT:
      return compare (mean, bound->nohm, 1) < 0;
    case BOND_RELATION_LE:
      return compare (mean, bound->nohm, 1) <= 0;
    case BOND_RELATION_GT:
      return compare (mean, bound->nohm, -1) > 0;
    case BOND_RELATION_GE:
      return compare (mean, bound->nohm, -1) >= 0;
    case BOND_RELATION_NONE:
    default:
      return TRUE;
    }
}

/* ILAC-G8:09/2019, 4.2.3, with the edges closed as the header says. */
static BondZoneWord
bound_zone (const BondBound *bound, const BondMean *mean, BondOhm u_nohm)
{
  int inward = bound->relation == BOND_RELATION_LT || bound->relation == BOND_RELATION_LE ? -1 : 1;
  __int128 limit = bound->nohm;
  __int128 guard = (__int128)u_nohm * inward;

  if (bound->relation == BOND_RELATION_NONE)
    return BOND_ZONE_WORD_PASS;
  if (bound_met (bound, mean))
    return compare (mean, limit + guard, -inward) * inward >= 0 ? BOND_ZONE_WORD_PASS : BOND_ZONE_WORD_CONDITIONAL_PASS;
  return compare (mean, limit - guard, -inward) * inward >= 0 ? BOND_ZONE_WORD_CONDITIONAL_FAIL : BOND_ZONE_WORD_FAIL;
}

static __int128
times_power_of_ten (__int128 value, int exponent)
{
  for (; exponent > 0; exponent--)
    value *= 10;
  return value;
}

/* Whether @decimals show @mean on the side of @bound where it is. */
static gboolean
shows_side (const BondMean *mean, __int128 unit_nohm, int decimals, const BondBound *bound)
{
  __int128 shown, limit;

  if (bound->relation == BOND_RELATION_NONE)
    return TRUE;
  shown = bond_ratio_round (times_power_of_ten (mean->sum, decimals), mean->count * unit_nohm, NULL) * unit_nohm;
  limit = times_power_of_ten (bound->nohm, decimals);
  return sign (shown - limit) == compare (mean, bound->nohm, bound->relation <= BOND_RELATION_LE ? 1 : -1);
}

/*
 * A mean so close to a limit that no decimals show its side is cut off after the last whole nano-ohm, with an ellipsis
 * for what the quotients cut off.
 */
static char *
format_cut_off (const BondMean *mean, __int128 unit_nohm, char mark)
{
  __int128 divisor = 2 * (__int128)mean->count;
  /* Half a nano-ohm of the sum stands for the part that is missing. */
  __int128 twice = 2 * mean->sum + mean->rest;
  __int128 floor_nohm = twice / divisor - (twice < 0 && twice % divisor != 0 ? 1 : 0);
  g_autofree char *digits = NULL;
  int decimals = 0;

  while (times_power_of_ten (1, decimals) < unit_nohm)
    decimals++;
  digits = bond_ratio_format (floor_nohm, unit_nohm, decimals, mark);
  return g_strconcat (digits, "…", NULL);
}

/* Fewest decimals, from @min_decimals on, that write the mean exactly; −1 when more than a few are needed. */
static int
exact_decimals (const BondMean *mean, __int128 unit_nohm, int min_decimals)
{
  __int128 scaled = mean->sum;
  int i;

  if (mean->n_rest > 0)
    return -1;
  for (i = 0; i <= MIN (min_decimals + EXTRA_DECIMALS, MAX_DECIMALS); i++, scaled *= 10)
    if (i >= min_decimals && scaled % (mean->count * unit_nohm) == 0)
      return i;
  return -1;
}

/* Used of one bound in tenths of a percent: value / upper, lower / value. */
static gint64
bound_used (const BondBound *bound, const BondMean *mean)
{
  __int128 used;

  if (bound->relation == BOND_RELATION_NONE || mean->sum <= 0)
    return -1;
  if (bound->relation == BOND_RELATION_LT || bound->relation == BOND_RELATION_LE)
    used = bond_ratio_round (mean->sum * 1000, (__int128)mean->count * bound->nohm, NULL);
  else
    used = bond_ratio_round ((__int128)mean->count * bound->nohm * 1000, mean->sum, NULL);
  return (gint64)MIN (used, G_MAXINT64);
}

const char *
bond_rule_file_name (BondRule rule)
{
  return bond_word_file (rules, G_N_ELEMENTS (rules), rule);
}

gboolean
bond_rule_parse (const char *text, BondRule *rule)
{
  return bond_word_parse (rules, G_N_ELEMENTS (rules), text, (guint *)rule);
}

const char *
bond_rule_name (BondRule rule)
{
  return bond_word_name (rules, G_N_ELEMENTS (rules), rule);
}

void
bond_mean_add (BondMean *mean, const BondQuantity *quantity, gboolean negate)
{
  gint8 rest;

  g_return_if_fail (mean != NULL && quantity != NULL);
  rest = negate ? -quantity->rest : quantity->rest;
  mean->sum += negate ? -(__int128)quantity->nohm : (__int128)quantity->nohm;
  mean->count++;
  if (rest == 0)
    return;
  mean->rest_mixed = mean->rest_mixed || mean->rest == -rest;
  mean->rest = rest;
  mean->n_rest++;
}

BondOhm
bond_mean_nohm (const BondMean *mean)
{
  g_return_val_if_fail (mean != NULL && mean->count > 0, 0);
  /* What was cut off tips a sum that stands half-way. */
  return (BondOhm)bond_ratio_round (4 * mean->sum + (mean->rest_mixed ? 0 : mean->rest), 4 * (__int128)mean->count,
                                    NULL);
}

int
bond_mean_compare (const BondMean *mean, BondOhm nohm)
{
  g_return_val_if_fail (mean != NULL && mean->count > 0, 1);
  return compare (mean, nohm, 1);
}

char *
bond_mean_format (const BondMean *mean, BondUnit unit, int min_decimals, const BondBounds *bounds, char mark)
{
  __int128 unit_nohm;
  int decimals;

  g_return_val_if_fail (mean != NULL && mean->count > 0 && (guint)unit < BOND_N_UNITS, NULL);
  unit_nohm = bond_unit_nohm (unit);
  min_decimals = CLAMP (min_decimals, 0, MAX_DECIMALS);
  decimals = exact_decimals (mean, unit_nohm, min_decimals);
  if (decimals < 0 && bounds != NULL)
    for (decimals = min_decimals; !shows_side (mean, unit_nohm, decimals, &bounds->upper)
                                  || !shows_side (mean, unit_nohm, decimals, &bounds->lower);
         decimals++)
      if (decimals == MAX_DECIMALS)
        return format_cut_off (mean, unit_nohm, mark);
  return bond_ratio_format (mean->sum, mean->count * unit_nohm, decimals < 0 ? min_decimals : decimals, mark);
}

gboolean
bond_bounds_conform (const BondBounds *bounds, const BondMean *mean)
{
  g_return_val_if_fail (bounds != NULL && mean != NULL && mean->count > 0, FALSE);
  return bound_met (&bounds->upper, mean) && bound_met (&bounds->lower, mean);
}

BondZoneWord
bond_bounds_zone (const BondBounds *bounds, const BondMean *mean, BondOhm u_nohm)
{
  g_return_val_if_fail (bounds != NULL && mean != NULL && mean->count > 0 && u_nohm >= 0, BOND_ZONE_WORD_FAIL);
  return MAX (bound_zone (&bounds->upper, mean, u_nohm), bound_zone (&bounds->lower, mean, u_nohm));
}

gint64
bond_bounds_used_permille (const BondBounds *bounds, const BondMean *mean)
{
  g_return_val_if_fail (bounds != NULL && mean != NULL && mean->count > 0, -1);
  return MAX (bound_used (&bounds->upper, mean), bound_used (&bounds->lower, mean));
}
