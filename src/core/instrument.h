/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * Instruments as far as a reading needs them: ranges with accuracy, display step
 * and test current, how the meter shows a reversed current, and until when it is
 * in date.  Immutable once built, shared by reference count.
 */
#pragma once

#include "core/ohm.h"

G_BEGIN_DECLS

typedef enum
{
  BOND_INSTRUMENT_MILLIOHMMETER,
  BOND_INSTRUMENT_MEGOHMMETER,
  BOND_INSTRUMENT_CHECK_RESISTOR,
  BOND_INSTRUMENT_LEADS,
} BondInstrumentKind;
const char *
bond_instrument_kind_file_name (BondInstrumentKind kind); /* "milliohmmeter" "megohmmeter" "check-resistor" "leads" */
gboolean bond_instrument_kind_parse (const char *text, BondInstrumentKind *kind);

typedef enum
{
  BOND_REVERSAL_BY_HAND,     /* shows no sign: reverse is read as a positive figure */
  BOND_REVERSAL_SHOWS_MINUS, /* shows minus in reverse */
  BOND_REVERSAL_BY_ITSELF,   /* reverses by itself and shows the mean */
} BondReversal;
const char *bond_reversal_file_name (BondReversal reversal); /* "by-hand" "shows-minus" "by-itself" */
gboolean bond_reversal_parse (const char *text, BondReversal *reversal);

/**
 * BondRange: one measuring range.
 * @accuracy_reading_ppm: share of the reading, parts per million (0.25 % = 2500)
 * @accuracy_range_ppm: share of @end
 * @accuracy_counts: whole display steps
 * @accuracy_nohm: a fixed part in nano-ohms
 * @accuracy_known: FALSE = no accuracy figure; U is then unknown, and said
 * @microampere: test current in µA
 */
typedef struct
{
  char *id;
  BondOhm end;
  BondOhm step;
  gboolean accuracy_known;
  gint64 accuracy_reading_ppm;
  gint64 accuracy_range_ppm;
  int accuracy_counts;
  BondOhm accuracy_nohm;
  gint64 microampere;
} BondRange;

typedef struct
{
  int ref_count;
  char *id;
  int revision;
  BondInstrumentKind kind;
  char *name;   /* short name used on screen: "MO-1" */
  char *make;   /* free text, may be NULL */
  char *serial; /* may be NULL */
  BondReversal reversal;
  gboolean vapour_approved;
  int test_volts;    /* megohmmeter, else 0 */
  char *due;         /* "2027-03-31" last valid day, or "2027-03" month only; NULL = not stated */
  char *certificate; /* may be NULL */
  /* certificate uncertainty: a share of reading and a fixed part, both expanded with certificate_k */
  gint64 certificate_ppm;
  BondOhm certificate_nohm;
  double certificate_k;   /* 0 = no certificate figure; U is unknown when there is one without k */
  double certificate_dof; /* 0 = infinite */
  BondOhm nominal;        /* check resistor: certified value, else 0 */
  GPtrArray *ranges;      /* of BondRange */
} BondInstrument;

BondInstrument *bond_instrument_new (const char *id, int revision, BondInstrumentKind kind, const char *name);
BondInstrument *bond_instrument_ref (BondInstrument *instrument);
void bond_instrument_unref (BondInstrument *instrument);
/** bond_instrument_add_range: (transfer none): strings copied; ranges stay in ascending order of @end. */
BondRange *bond_instrument_add_range (BondInstrument *instrument, const BondRange *range);
const BondRange *bond_instrument_find_range (const BondInstrument *instrument, const char *id);
/** bond_instrument_range_for: the lowest range that holds @nohm, NULL if none. */
const BondRange *bond_instrument_range_for (const BondInstrument *instrument, BondOhm nohm);
/** bond_range_half_width: accuracy half-width a at @nohm, in nano-ohms (double: uncertainty may round, outward at the
 * end). */
double bond_range_half_width (const BondRange *range, BondOhm nohm);
/** bond_range_decimals: decimals the display shows in @unit (step 0.01 mΩ → 2 in mΩ). */
int bond_range_decimals (const BondRange *range, BondUnit unit);
/** bond_due_is_sound: @due is a day ("2027-03-31") or a month ("2027-03") of the calendar. */
gboolean bond_due_is_sound (const char *due);
/** bond_instrument_in_date: on local date @date (NULL due = TRUE). A month-only label is valid to the month's end. */
gboolean bond_instrument_in_date (const BondInstrument *instrument, const GDate *date);

G_DEFINE_AUTOPTR_CLEANUP_FUNC (BondInstrument, bond_instrument_unref)

G_END_DECLS
