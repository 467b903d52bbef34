/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * Who and what the demo survey is made with: people, meters, rules of the house and
 * the results of the survey before.  All of it is invented and says so.
 */
#include "demo.h"

#include <gsl/gsl_randist.h>
#include <math.h>

#define EARLIER_SEED 2020

GPtrArray *
demo_people (void)
{
  static const struct
  {
    const char *id, *name, *stamp, *role;
  } people[] = {
    { DEMO_PERSON_FIRST, "Ingrid Tveit (invented)", "LM 207", "inspector" },
    { DEMO_PERSON_SECOND, "Paolo Marchetti (invented)", "LM 114", "inspector" },
    { "p-adeyemi", "Folake Adeyemi (invented)", "LM 331", "mechanic" },
    { "p-hollis", "Bram Hollis (invented)", "LM C12", "certifying staff" },
  };
  GPtrArray *list = g_ptr_array_new_with_free_func ((GDestroyNotify)bond_person_unref);
  for (guint i = 0; i < G_N_ELEMENTS (people); i++)
    g_ptr_array_add (list, bond_person_new (people[i].id, 1, people[i].name, people[i].stamp, people[i].role));
  return list;
}

typedef struct
{
  const char *id;
  BondOhm end_nohm, step_nohm, fixed_nohm;
  gint64 reading_ppm, microampere;
} RangeRow;

static void
add_ranges (BondInstrument *meter, const RangeRow *rows, guint n_rows)
{
  for (guint i = 0; i < n_rows; i++)
    {
      g_autofree char *id = g_strdup (rows[i].id);
      BondRange range = { .id = id, .end = rows[i].end_nohm, .step = rows[i].step_nohm };
      range.accuracy_known = TRUE;
      range.accuracy_reading_ppm = rows[i].reading_ppm;
      range.accuracy_nohm = rows[i].fixed_nohm;
      range.microampere = rows[i].microampere;
      bond_instrument_add_range (meter, &range);
    }
}

static BondInstrument *
milliohmmeter (void)
{
  /* 3 mΩ, 30 mΩ, 300 mΩ, 3 Ω; 0.25 % of reading and one to three display steps. */
  static const RangeRow rows[] = {
    { "3mOhm", 3000000, 1000, 3000, 2500, 10000000 },
    { "30mOhm", 30000000, 10000, 10000, 2500, 10000000 },
    { "300mOhm", 300000000, 100000, 100000, 2500, 1000000 },
    { "3Ohm", 3000000000, 1000000, 1000000, 2500, 100000 },
  };
  BondInstrument *meter
      = bond_instrument_new (DEMO_MILLIOHMMETER, 2, BOND_INSTRUMENT_MILLIOHMMETER, "LM-11 (invented)");
  meter->make = g_strdup ("Example four-terminal milliohm meter");
  meter->serial = g_strdup ("0411");
  meter->reversal = BOND_REVERSAL_BY_HAND;
  meter->vapour_approved = TRUE;
  meter->due = g_strdup ("2027-03-31");
  meter->certificate = g_strdup ("LM-CAL-2026-118 (invented)");
  meter->certificate_ppm = 1000;
  meter->certificate_k = 2;
  add_ranges (meter, rows, G_N_ELEMENTS (rows));
  return meter;
}

static BondInstrument *
megohmmeter (void)
{
  static const RangeRow row = { "1GOhm", 1000000000 * BOND_NOHM_PER_OHM, 10000 * BOND_NOHM_PER_OHM, 0, 50000, 0 };
  BondInstrument *meter = bond_instrument_new (DEMO_MEGOHMMETER, 1, BOND_INSTRUMENT_MEGOHMMETER, "LM-40 (invented)");
  meter->make = g_strdup ("Example insulation tester");
  meter->serial = g_strdup ("0077");
  meter->test_volts = 500;
  meter->due = g_strdup ("2027-01");
  add_ranges (meter, &row, 1);
  return meter;
}

GPtrArray *
demo_instruments (void)
{
  GPtrArray *list = g_ptr_array_new_with_free_func ((GDestroyNotify)bond_instrument_unref);
  BondInstrument *leads = bond_instrument_new (DEMO_LEADS, 1, BOND_INSTRUMENT_LEADS, "LM-L3 spring probes (invented)");
  leads->due = g_strdup ("2027-03-31");
  g_ptr_array_add (list, milliohmmeter ());
  g_ptr_array_add (list, megohmmeter ());
  g_ptr_array_add (list, leads);
  return list;
}

BondHouse *
demo_house (void)
{
  return bond_house_new ("h-larkmoor", 1, "Larkmoor Aircraft Care (invented)");
}

BondOhm
demo_typical (const BondBounds *bounds, double z)
{
  /* Most joints of an aircraft in good order sit around a third of their limit, few come near it. */
  double share = CLAMP (0.33 * exp (0.42 * z), 0.06, 0.88);
  if (bounds->lower.relation != BOND_RELATION_NONE && bounds->upper.relation != BOND_RELATION_NONE)
    return (BondOhm)(sqrt ((double)bounds->lower.nohm) * sqrt ((double)bounds->upper.nohm) * exp (0.3 * z));
  if (bounds->lower.relation != BOND_RELATION_NONE)
    return (BondOhm)((double)bounds->lower.nohm * 40 * exp (0.3 * z));
  return (BondOhm)(share * (double)bounds->upper.nohm);
}

/* Steps of 10 µΩ, as a meter would have shown. */
static BondOhm
rounded (BondOhm nohm)
{
  return MAX (nohm / 10000, 1) * 10000;
}

BondEarlier *
demo_earlier (const BondAirframe *airframe, GPtrArray *limit_sets)
{
  BondEarlier *earlier = bond_earlier_new ("5e1f0c4a7b92d36810fa24c7e9b05d13", "2020-11-17");
  gsl_rng *random = gsl_rng_alloc (gsl_rng_mt19937);

  gsl_rng_set (random, EARLIER_SEED);
  for (guint i = 0; i < airframe->points->len; i++)
    {
      const BondPointSpec *spec = airframe->points->pdata[i];
      const BondLimitRow *row = bond_limit_lookup (limit_sets, spec->own_limit, spec->limit, spec->klass, NULL);
      double z = gsl_ran_ugaussian (random);
      gboolean reworked = gsl_rng_uniform_int (random, 30) == 0;
      g_autofree char *limit = NULL;
      BondEarlierItem item = { .point = spec->id };
      if (row == NULL || row->method == BOND_METHOD_VISUAL || row->method == BOND_METHOD_ABSENT)
        continue;
      limit = bond_bounds_to_file (&row->in_service);
      item.result.nohm = rounded (demo_typical (&row->in_service, z - 0.4));
      item.state = (char *)bond_state_file_name (reworked ? BOND_STATE_PASS_AFTER_REWORK : BOND_STATE_PASS);
      item.note = reworked ? (char *)"reworked 2020-11-17" : NULL;
      item.limit = limit;
      bond_earlier_add (earlier, &item);
    }
  gsl_rng_free (random);
  return earlier;
}
