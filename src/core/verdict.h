/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * Value against bounds, exactly.  A value is a sum of readings and their count,
 * so that a mean is compared as  sum  against  count × limit  (128 bit) and never
 * rounded first.
 */
#pragma once

#include "core/limit.h"

G_BEGIN_DECLS

/** BondRule: decision rule, fixed when a survey is made (ISO/IEC 17025:2017 7.8.6). */
typedef enum
{
  BOND_RULE_SIMPLE,  /* simple acceptance */
  BOND_RULE_GUARDED, /* guarded acceptance, w = U (ILAC-G8:09/2019 4.2.3) */
} BondRule;
const char *bond_rule_file_name (BondRule rule); /* "simple-acceptance" "guarded-acceptance" */
gboolean bond_rule_parse (const char *text, BondRule *rule);
const char *bond_rule_name (BondRule rule); /* translated */

/** BondZoneWord: the four words of ILAC-G8:09/2019. */
typedef enum
{
  BOND_ZONE_WORD_PASS,
  BOND_ZONE_WORD_CONDITIONAL_PASS,
  BOND_ZONE_WORD_CONDITIONAL_FAIL,
  BOND_ZONE_WORD_FAIL,
} BondZoneWord;

/**
 * BondMean: Σ of readings and their number.
 * @rest: sign of what the quotients cut off; @rest_mixed: signs differ
 * @n_rest: how many of the readings are quotients that were cut off (≤ half a nano-ohm each)
 */
typedef struct
{
  __int128 sum;
  int count;
  gint8 rest;
  gboolean rest_mixed;
  int n_rest;
} BondMean;

void bond_mean_add (BondMean *mean, const BondQuantity *quantity, gboolean negate);
/** bond_mean_nohm: the mean rounded half-even to 1 nΩ, for showing and storing. */
BondOhm bond_mean_nohm (const BondMean *mean);
/**
 * bond_mean_compare: sign of (mean − nohm), exact; where the parts that several quotients cut off leave it open, 1
 * (as against an upper limit: not met).
 */
int bond_mean_compare (const BondMean *mean, BondOhm nohm);
/**
 * bond_mean_format: mean in @unit with at least @min_decimals; in full when that takes two more at most, else half-even
 * with as many as show on which side of each bound it is. U+2212 minus. (transfer full)
 */
char *bond_mean_format (const BondMean *mean, BondUnit unit, int min_decimals, const BondBounds *bounds, char mark);

/** bond_bounds_conform: mean meets every bound (absolute method, no guard band); TRUE where there is none, so ask
 * first. */
gboolean bond_bounds_conform (const BondBounds *bounds, const BondMean *mean);
/**
 * bond_bounds_zone: zone word with guard band w = @u_nohm (≥ 0).
 * The relation decides at the limit; exactly at (limit − w) counts as pass, exactly at (limit + w) as conditional fail.
 */
BondZoneWord bond_bounds_zone (const BondBounds *bounds, const BondMean *mean, BondOhm u_nohm);
/**
 * bond_bounds_used_permille: part of the limit used, in tenths of a percent, rounded half-even: value / upper bound,
 * lower bound / value, the greater of the two; −1 without a bound or a value above zero.
 */
gint64 bond_bounds_used_permille (const BondBounds *bounds, const BondMean *mean);

G_END_DECLS
