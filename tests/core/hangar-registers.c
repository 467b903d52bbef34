/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * The worked days' limits (Example manual 20-51, revision 7) and instruments, all
 * invented: sections A and B of the days.  Built in code, so that a test of the core
 * needs no file.
 */
#include "hangar.h"

typedef struct
{
  const char *code;
  BondClass klass;
  BondRelation relation;
  BondOhm in_service;
  BondOhm strict; /* 0 = none */
  BondMethod method;
  BondConnectors connectors;
  gboolean pair;
  BondOhm lower;
  BondScope scope;
} LimitData;

/* J2P, J3 … are not of the manual: J2 with a pair asked, and rows for the method tests. */
static const LimitData limits[] = {
  { "J1", BOND_CLASS_STRUCTURE, BOND_RELATION_LE, UOHM (5000), UOHM (2500), .method = BOND_METHOD_FOUR_TERMINAL },
  { "J2", BOND_CLASS_STRUCTURE, BOND_RELATION_LE, UOHM (2500), .method = BOND_METHOD_FOUR_TERMINAL },
  { "J2P", BOND_CLASS_STRUCTURE, BOND_RELATION_LE, UOHM (2500), .method = BOND_METHOD_FOUR_TERMINAL, .pair = TRUE },
  { "F1", BOND_CLASS_FASTENER, BOND_RELATION_LE, UOHM (3000), UOHM (2500), .method = BOND_METHOD_FOUR_TERMINAL },
  { "T1", BOND_CLASS_FLUID_LINE, BOND_RELATION_LE, UOHM (100000), UOHM (50000), .method = BOND_METHOD_FOUR_TERMINAL },
  { "T2", BOND_CLASS_FLUID_LINE, BOND_RELATION_LE, 100000 * BOND_NOHM_PER_OHM * 1000, .method = BOND_METHOD_MEGOHMMETER,
    .lower = 100000 * BOND_NOHM_PER_OHM },
  { "T3", BOND_CLASS_FLUID_LINE, .method = BOND_METHOD_ABSENT },
  { "V1", BOND_CLASS_STRUCTURE, .method = BOND_METHOD_VISUAL },
  { "E1", BOND_CLASS_EQUIPMENT, BOND_RELATION_LT, UOHM (2500), .method = BOND_METHOD_FOUR_TERMINAL,
    .connectors = BOND_CONNECTORS_UNMATED },
  { "P1", BOND_CLASS_STRUCTURE, BOND_RELATION_LE, UOHM (10000), .method = BOND_METHOD_FOUR_TERMINAL,
    .scope = BOND_SCOPE_PATH },
};

typedef struct
{
  const char *id;
  BondInstrumentKind kind;
  BondReversal reversal;
  gint64 microampere[4]; /* of the four ranges */
  gboolean vapour_approved;
} InstrumentData;

static const InstrumentData meters[] = {
  { "MO-1", BOND_INSTRUMENT_MILLIOHMMETER, BOND_REVERSAL_BY_HAND, { 10000000, 10000000, 1000000, 100000 }, TRUE },
  { "MO-2", BOND_INSTRUMENT_MILLIOHMMETER, BOND_REVERSAL_SHOWS_MINUS, { 10000000, 100000, 1000000, 100000 } },
  { "MO-3", BOND_INSTRUMENT_MILLIOHMMETER, BOND_REVERSAL_BY_HAND, { 1000000, 1000000, 1000000, 1000000 } },
  { "MO-5", BOND_INSTRUMENT_MILLIOHMMETER, BOND_REVERSAL_BY_ITSELF, { 10000000, 10000000, 1000000, 100000 } },
};

/* End, step and fixed accuracy part of a milliohmmeter's ranges, µΩ. */
static const struct
{
  const char *id;
  BondOhm end, step, fixed;
} ranges[4] = {
  { "3m", UOHM (3000), UOHM (1), UOHM (3) },
  { "30m", UOHM (30000), UOHM (10), UOHM (10) },
  { "300m", UOHM (300000), UOHM (100), UOHM (100) },
  { "3", UOHM (3000000), UOHM (1000), UOHM (1000) },
};

static BondLimitRow *
make_row (const LimitData *data)
{
  BondLimitRow *row = bond_limit_row_new ();

  row->code = g_strdup (data->code);
  row->klass = data->klass;
  row->covers = g_strdup ("invented");
  row->document = g_strdup ("Example manual 20-51");
  row->revision = g_strdup ("7");
  row->method = data->method;
  row->connectors = data->connectors;
  row->pair = data->pair;
  row->scope = data->scope;
  row->verified = TRUE;
  if (data->relation != BOND_RELATION_NONE)
    row->in_service.upper = (BondBound){ data->relation, data->in_service, BOND_UNIT_MILLIOHM };
  if (data->lower > 0)
    row->in_service.lower = (BondBound){ BOND_RELATION_GE, data->lower, BOND_UNIT_MEGOHM };
  row->has_strict = data->strict > 0;
  if (row->has_strict)
    row->strict.upper = (BondBound){ data->relation, data->strict, BOND_UNIT_MILLIOHM };
  if (data->method == BOND_METHOD_MEGOHMMETER)
    row->method_volts = 500;
  return row;
}

BondLimitSet *
hangar_make_limits (void)
{
  BondLimitSet *set = bond_limit_set_new ("example", 7, "Example manual 20-51");
  gsize i;

  set->invented = set->enabled = TRUE;
  for (i = 0; i < G_N_ELEMENTS (limits); i++)
    {
      g_autoptr (GError) error = NULL;
      bond_limit_set_add (set, make_row (&limits[i]), &error);
      g_assert_no_error (error);
    }
  return set;
}

static BondInstrument *
make_meter (const InstrumentData *data)
{
  BondInstrument *instrument = bond_instrument_new (data->id, 1, data->kind, data->id);
  gsize i;

  instrument->reversal = data->reversal;
  instrument->vapour_approved = data->vapour_approved;
  instrument->certificate_ppm = 1000;
  instrument->certificate_k = 2;
  for (i = 0; i < G_N_ELEMENTS (ranges); i++)
    {
      BondRange range = { .id = (char *)ranges[i].id,
                          .end = ranges[i].end,
                          .step = ranges[i].step,
                          .accuracy_known = TRUE,
                          .accuracy_reading_ppm = 2500,
                          .accuracy_nohm = ranges[i].fixed,
                          .microampere = data->microampere[i] };
      bond_instrument_add_range (instrument, &range);
    }
  return instrument;
}

BondInstrument *
hangar_make_megohmmeter (void)
{
  BondInstrument *instrument = bond_instrument_new ("MG-1", 1, BOND_INSTRUMENT_MEGOHMMETER, "MG-1");
  BondRange range = { .id = (char *)"1G", .end = 1000 * BOND_NOHM_PER_OHM * 1000000, .step = BOND_NOHM_PER_OHM * 1000 };

  instrument->test_volts = 500;
  bond_instrument_add_range (instrument, &range);
  return instrument;
}

BondInstrument *
hangar_make_milliohmmeter (guint nth)
{
  return nth < G_N_ELEMENTS (meters) ? make_meter (&meters[nth]) : NULL;
}
