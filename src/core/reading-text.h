/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * What an inspector may type into the reading field.
 *
 * One line is one of: a reading (`1.84`, `1,84`, `840u`, `0.02o`), a pair
 * (`1.84 1.82`), over-range (`>`, `>30`, `OL`), below resolution (`<0.01`), or a
 * voltage at a current (`3.0mV 1.2A`).  Everything else is refused and nothing is
 * recorded.  Jumps and verbs belong to the window.
 */
#pragma once

#include "core/ohm.h"

G_BEGIN_DECLS

/**
 * BondTypedValue: one value as typed.
 * @text: the digits as typed, without the unit (owned)
 * @unit: unit in force for it
 * @quantity: its exact value
 * @nanovolt, @microampere: both not 0 when it was typed as voltage at current
 */
typedef struct
{
  char *text;
  BondUnit unit;
  BondQuantity quantity;
  gint64 nanovolt;
  gint64 microampere;
} BondTypedValue;

/** BondReadingText: 1 value, or 2 (forward, reverse). */
typedef struct
{
  int n_values;
  BondTypedValue value[2];
} BondReadingText;

/**
 * bond_reading_text_parse:
 * @range_end: nano-ohms at the end of the pinned range for a bare ">", "OL" or 9.9E37; 0 when unknown (then refused)
 * @step: display step of the pinned range for a bare "<"; 0 when unknown
 *
 * Returns: FALSE with a #BondOhmError whose message says what was typed and that nothing was recorded
 */
gboolean bond_reading_text_parse (const char *text, BondUnit pinned, const BondNumberFormat *format, BondOhm range_end,
                                  BondOhm step, BondReadingText *out, GError **error);
void bond_reading_text_clear (BondReadingText *text);

G_END_DECLS
