/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * Uncertainty budgets after the GUM (JCGM 100:2008): lines with their standard
 * uncertainty and degrees of freedom, combined, effective degrees of freedom by
 * Welch–Satterthwaite, expanded with k = 2 when ν_eff ≥ 50, else Student's t at
 * 95.45 %.  All resistances here are doubles in nano-ohms; U leaves rounded up.
 */
#pragma once

#include "core/instrument.h"

G_BEGIN_DECLS

typedef enum
{
  BOND_BUDGET_ACCURACY,
  BOND_BUDGET_RESOLUTION,
  BOND_BUDGET_CERTIFICATE,
  BOND_BUDGET_REPEATS,
  BOND_BUDGET_PLACING, /* the class's probe-placing study */
} BondBudgetSource;
const char *bond_budget_source_name (BondBudgetSource source); /* translated */

typedef struct
{
  BondBudgetSource source;
  double half_width; /* as stated: half-width, expanded U or s, nΩ */
  double divisor;    /* √3, 2√3, k, √n … */
  double u;          /* standard uncertainty, nΩ */
  double dof;        /* INFINITY when known exactly */
} BondBudgetLine;

#define BOND_BUDGET_MAX_LINES 5
/**
 * BondBudget: @known FALSE = no accuracy figure, U unknown. @u_nohm: U rounded up to 1 nΩ.
 * @placing_included FALSE → the budget says "probe placing not included".
 */
typedef struct
{
  gboolean known;
  int n_lines;
  BondBudgetLine line[BOND_BUDGET_MAX_LINES];
  double u_c;
  double dof_eff;
  double k;
  double expanded;
  BondOhm u_nohm;
  gboolean placing_included;
} BondBudget;

/** BondPlacingStudy: s of re-seated probes for one class; n = 0 means no study. @s in nΩ. */
typedef struct
{
  double s;
  int n;
} BondPlacingStudy;

/**
 * bond_budget_compute:
 * @mean: value the budget is for, nΩ
 * @readings, @n_readings: planned repeats in one direction (nΩ); @n_readings ≤ 1 = no Type A line
 * @study: (nullable)
 */
void bond_budget_compute (BondBudget *budget, const BondInstrument *instrument, const BondRange *range, double mean,
                          const double *readings, int n_readings, const BondPlacingStudy *study);

/**
 * bond_budget_sum: budget of a sum of joints, all with the weight 1: what one meter's accuracy adds is correlated and
 * counts in full for each joint, meters among each other and every other source as independent.
 * @joints: the budgets; known only when all are
 * @meters: id of the instrument of each
 */
void bond_budget_sum (BondBudget *sum, const BondBudget *const *joints, const char *const *meters, guint n);
/** bond_budget_sum_rule: the same in words, to be printed beside such a sum; translated. */
const char *bond_budget_sum_rule (void);

/** bond_welch_satterthwaite: ν_eff = u_c⁴ / Σ(u_i⁴/ν_i) (JCGM 100 G.2b); INFINITY when every ν_i is. */
double bond_welch_satterthwaite (double u_c, const double *u, const double *dof, int n);
/** bond_coverage_factor: 2 when @dof_eff ≥ 50, else t at 95.45 % for the next lower whole ν (JCGM 100 G.4.1). */
double bond_coverage_factor (double dof_eff);
/**
 * bond_uncertainty_format: @u_nohm in @unit without it, rounded up, with at least @decimals and as many more as keep
 * the rounding below a third of it. (transfer full)
 */
char *bond_uncertainty_format (BondOhm u_nohm, BondUnit unit, int decimals, char mark);
/** bond_budget_source_shape: distribution a part of the budget is taken to have; translated: "rectangular", "normal".
 */
const char *bond_budget_source_shape (BondBudgetSource source);
/** bond_budget_format_part: @nohm in @unit, three significant digits; @with_unit FALSE leaves it out. (transfer full)
 */
char *bond_budget_format_part (double nohm, BondUnit unit, char mark, gboolean with_unit);
/** bond_budget_format_divisor: "√3", "2√3", "2". (transfer full) */
char *bond_budget_format_divisor (double divisor, char mark);
/** bond_budget_format_dof: "9", "12.4", "∞". (transfer full) */
char *bond_budget_format_dof (double dof, char mark);

G_END_DECLS
