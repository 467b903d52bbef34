/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * Uncertainty of one measured value after the GUM (JCGM 100:2008).  Statistics and
 * quantiles are GSL's.  A sum of joints has a budget of its own, for one meter's
 * readings are correlated; which joints make a path is left to bond-path.c.
 */
#include "core/uncertainty.h"

#include "core/word.h"
#include <glib/gi18n-lib.h>
#include <gsl/gsl_cdf.h>
#include <gsl/gsl_statistics_double.h>
#include <math.h>

static const BondWord sources[] = {
  [BOND_BUDGET_ACCURACY] = { "accuracy", N_ ("accuracy of the range") },
  [BOND_BUDGET_RESOLUTION] = { "resolution", N_ ("display step") },
  [BOND_BUDGET_CERTIFICATE] = { "certificate", N_ ("calibration certificate") },
  [BOND_BUDGET_REPEATS] = { "repeats", N_ ("repeated readings") },
  [BOND_BUDGET_PLACING] = { "placing", N_ ("placing of the probes") },
};

/* ν_eff from which k = 2 is used, and the probability of the k below it. */
#define DOF_FOR_TWO 50.0
#define COVERAGE 0.9545
/* ν that is whole but for rounding counts as whole; the next figure of any real case is far larger than this. */
#define DOF_ROUNDING 1e-9
#define PPM 1e6

static void
add_line (BondBudget *budget, BondBudgetSource source, double half_width, double divisor, double dof)
{
  budget->line[budget->n_lines++] = (BondBudgetLine){
    .source = source,
    .half_width = half_width,
    .divisor = divisor,
    .u = half_width / divisor,
    .dof = dof,
  };
}

/* JCGM 100:2008, 4.3.7 (rectangular: a/√3) and F.2.2.1 (resolution: q/(2√3)). */
static void
add_range_lines (BondBudget *budget, const BondRange *range, double mean)
{
  if (range->accuracy_known)
    add_line (budget, BOND_BUDGET_ACCURACY, bond_range_half_width (range, (BondOhm)rint (mean)), sqrt (3), INFINITY);
  add_line (budget, BOND_BUDGET_RESOLUTION, (double)range->step, 2 * sqrt (3), INFINITY);
}

/* JCGM 100:2008, 4.3.3: a certificate's expanded uncertainty over its k. */
static void
add_certificate_line (BondBudget *budget, const BondInstrument *instrument, double mean)
{
  double expanded = fabs (mean) * (double)instrument->certificate_ppm / PPM + (double)instrument->certificate_nohm;

  if (expanded > 0 && instrument->certificate_k > 0)
    add_line (budget, BOND_BUDGET_CERTIFICATE, expanded, instrument->certificate_k,
              instrument->certificate_dof > 0 ? instrument->certificate_dof : INFINITY);
}

/* A stated uncertainty without its k cannot be used, and U without it would look smaller than it is. */
static gboolean
certificate_is_unusable (const BondInstrument *instrument)
{
  return instrument != NULL && instrument->certificate_k <= 0
         && (instrument->certificate_ppm > 0 || instrument->certificate_nohm > 0);
}

static void
combine (BondBudget *budget)
{
  double u[BOND_BUDGET_MAX_LINES];
  double dof[BOND_BUDGET_MAX_LINES];
  double sum = 0;
  int i;

  for (i = 0; i < budget->n_lines; i++)
    {
      u[i] = budget->line[i].u;
      dof[i] = budget->line[i].dof;
      sum += u[i] * u[i];
    }
  budget->u_c = sqrt (sum);
  budget->dof_eff = bond_welch_satterthwaite (budget->u_c, u, dof, budget->n_lines);
  budget->k = bond_coverage_factor (budget->dof_eff);
  budget->expanded = budget->k * budget->u_c;
}

static void
finish (BondBudget *budget, gboolean known)
{
  combine (budget);
  budget->known = known && isfinite (budget->expanded) && budget->expanded < (double)G_MAXINT64;
  budget->u_nohm = budget->known ? (BondOhm)ceil (budget->expanded) : 0;
}

const char *
bond_budget_source_name (BondBudgetSource source)
{
  return bond_word_name (sources, G_N_ELEMENTS (sources), source);
}

void
bond_budget_compute (BondBudget *budget, const BondInstrument *instrument, const BondRange *range, double mean,
                     const double *readings, int n_readings, const BondPlacingStudy *study)
{
  g_return_if_fail (budget != NULL);
  g_return_if_fail (n_readings <= 1 || readings != NULL);

  *budget = (BondBudget){ .dof_eff = INFINITY, .k = 2 };
  if (!isfinite (mean) || fabs (mean) >= (double)G_MAXINT64)
    return;
  if (range != NULL)
    add_range_lines (budget, range, mean);
  if (instrument != NULL)
    add_certificate_line (budget, instrument, mean);
  /* JCGM 100:2008, 4.2.3: the mean of n readings has s/√n with n − 1 degrees of freedom. */
  if (n_readings > 1)
    add_line (budget, BOND_BUDGET_REPEATS, gsl_stats_sd (readings, 1, (size_t)n_readings), sqrt (n_readings),
              n_readings - 1);
  budget->placing_included = study != NULL && study->n > 1 && study->s >= 0;
  /* One seating stands for itself, so the study's s is not divided. */
  if (budget->placing_included)
    add_line (budget, BOND_BUDGET_PLACING, study->s, 1, study->n - 1);
  finish (budget, range != NULL && range->accuracy_known && !certificate_is_unusable (instrument));
}

static const BondBudgetLine *
find_line (const BondBudget *budget, BondBudgetSource source)
{
  int i;

  for (i = 0; i < budget->n_lines; i++)
    if (budget->line[i].source == source)
      return &budget->line[i];
  return NULL;
}

/* Whether an earlier joint was measured with the meter of joint @i. */
static gboolean
meter_is_counted (const char *const *meters, guint i)
{
  guint j;

  for (j = 0; j < i; j++)
    if (g_strcmp0 (meters[j], meters[i]) == 0)
      return TRUE;
  return FALSE;
}

/* JCGM 100:2008, 5.2.2 with r = 1 among the readings of one meter (NOTE 1): its u add up before they are squared. */
static double
correlated_variance (const BondBudget *const *joints, const char *const *meters, guint n, BondBudgetSource source)
{
  double variance = 0;
  guint i, j;

  for (i = 0; i < n; i++)
    {
      double u = 0;

      if (meter_is_counted (meters, i))
        continue;
      for (j = i; j < n; j++)
        {
          const BondBudgetLine *line = find_line (joints[j], source);

          u += line != NULL && g_strcmp0 (meters[j], meters[i]) == 0 ? line->u : 0;
        }
      variance += u * u;
    }
  return variance;
}

/* JCGM 100:2008, 5.1.2 and G.4.1: independent, so the squares add up; the line keeps their ν_eff. */
static double
independent_variance (const BondBudget *const *joints, guint n, BondBudgetSource source, double *dof)
{
  double variance = 0, fourth = 0;
  guint i;

  for (i = 0; i < n; i++)
    {
      const BondBudgetLine *line = find_line (joints[i], source);

      if (line == NULL)
        continue;
      variance += line->u * line->u;
      if (isfinite (line->dof) && line->dof > 0)
        fourth += pow (line->u, 4) / line->dof;
    }
  *dof = fourth > 0 ? variance * variance / fourth : INFINITY;
  return variance;
}

void
bond_budget_sum (BondBudget *sum, const BondBudget *const *joints, const char *const *meters, guint n)
{
  gboolean known = n > 0;
  guint i;
  int source;

  g_return_if_fail (sum != NULL);
  g_return_if_fail (n == 0 || (joints != NULL && meters != NULL));
  *sum = (BondBudget){ .dof_eff = INFINITY, .k = 2, .placing_included = n > 0 };
  for (i = 0; i < n; i++)
    {
      known &= joints[i]->known;
      sum->placing_included &= joints[i]->placing_included;
    }
  for (source = 0; source < BOND_BUDGET_MAX_LINES; source++)
    {
      double dof = INFINITY;
      double variance = source == BOND_BUDGET_ACCURACY ? correlated_variance (joints, meters, n, source)
                                                       : independent_variance (joints, n, source, &dof);

      if (variance > 0)
        add_line (sum, source, sqrt (variance), 1, dof);
    }
  finish (sum, known);
}

const char *
bond_budget_sum_rule (void)
{
  return _ ("In a sum the accuracy of one meter counts in full for every joint; everything else is independent.");
}

double
bond_welch_satterthwaite (double u_c, const double *u, const double *dof, int n)
{
  double sum = 0;
  int i;

  g_return_val_if_fail (n == 0 || (u != NULL && dof != NULL), NAN);
  for (i = 0; i < n; i++)
    if (isfinite (dof[i]) && dof[i] > 0)
      sum += pow (u[i], 4) / dof[i];
  return sum > 0 ? pow (u_c, 4) / sum : INFINITY;
}

double
bond_coverage_factor (double dof_eff)
{
  double whole;

  g_return_val_if_fail (!isnan (dof_eff), NAN);
  dof_eff *= 1 + DOF_ROUNDING;
  if (dof_eff >= DOF_FOR_TWO)
    return 2;
  whole = MAX (floor (dof_eff), 1);
  return gsl_cdf_tdist_Pinv ((1 + COVERAGE) / 2, whole);
}
