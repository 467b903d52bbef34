/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * Instruments: ranges, their accuracy and their due date.  The uncertainty that
 * follows from them is left to uncertainty.c, what a minus sign means to
 * measurement.c.
 */
#include "core/instrument.h"

#include "core/word.h"
#include <math.h>

static const BondWord kinds[] = {
  [BOND_INSTRUMENT_MILLIOHMMETER] = { "milliohmmeter", NULL },
  [BOND_INSTRUMENT_MEGOHMMETER] = { "megohmmeter", NULL },
  [BOND_INSTRUMENT_CHECK_RESISTOR] = { "check-resistor", NULL },
  [BOND_INSTRUMENT_LEADS] = { "leads", NULL },
};

static const BondWord reversals[] = {
  [BOND_REVERSAL_BY_HAND] = { "by-hand", NULL },
  [BOND_REVERSAL_SHOWS_MINUS] = { "shows-minus", NULL },
  [BOND_REVERSAL_BY_ITSELF] = { "by-itself", NULL },
};

/* More decimals than any display has. */
#define MAX_DECIMALS 15
#define PPM 1e6

static void
range_free (gpointer data)
{
  BondRange *range = data;

  g_free (range->id);
  g_free (range);
}

/* A run of exactly @n digits at @text as a number; -1 when it is none. */
static int
fixed_digits (const char *text, int n)
{
  int value = 0;

  for (; n > 0; n--, text++)
    {
      if (!g_ascii_isdigit (*text))
        return -1;
      value = value * 10 + (*text - '0');
    }
  return value;
}

/* "2027-03-31" or "2027-03", which is the last day of that month; FALSE for anything else. */
static gboolean
parse_due (const char *due, GDate *last_day)
{
  gsize length = strlen (due);
  int year = length >= 7 ? fixed_digits (due, 4) : -1;
  int month = year > 0 && due[4] == '-' ? fixed_digits (due + 5, 2) : -1;
  int day;

  if (month < 1 || month > 12 || (length != 7 && (length != 10 || due[7] != '-')))
    return FALSE;
  day = length == 10 ? fixed_digits (due + 8, 2) : g_date_get_days_in_month (month, year);
  if (day < 1 || !g_date_valid_dmy (day, month, year))
    return FALSE;
  g_date_set_dmy (last_day, day, month, year);
  return TRUE;
}

gboolean
bond_due_is_sound (const char *due)
{
  GDate last_day;

  g_return_val_if_fail (due != NULL, FALSE);
  return parse_due (due, &last_day);
}

const char *
bond_instrument_kind_file_name (BondInstrumentKind kind)
{
  return bond_word_file (kinds, G_N_ELEMENTS (kinds), kind);
}

gboolean
bond_instrument_kind_parse (const char *text, BondInstrumentKind *kind)
{
  return bond_word_parse (kinds, G_N_ELEMENTS (kinds), text, (guint *)kind);
}

const char *
bond_reversal_file_name (BondReversal reversal)
{
  return bond_word_file (reversals, G_N_ELEMENTS (reversals), reversal);
}

gboolean
bond_reversal_parse (const char *text, BondReversal *reversal)
{
  return bond_word_parse (reversals, G_N_ELEMENTS (reversals), text, (guint *)reversal);
}

BondInstrument *
bond_instrument_new (const char *id, int revision, BondInstrumentKind kind, const char *name)
{
  BondInstrument *instrument;

  g_return_val_if_fail (id != NULL && name != NULL, NULL);
  instrument = g_new0 (BondInstrument, 1);
  instrument->ref_count = 1;
  instrument->id = g_strdup (id);
  instrument->revision = revision;
  instrument->kind = kind;
  instrument->name = g_strdup (name);
  instrument->ranges = g_ptr_array_new_with_free_func (range_free);
  return instrument;
}

BondInstrument *
bond_instrument_ref (BondInstrument *instrument)
{
  g_return_val_if_fail (instrument != NULL, NULL);
  g_atomic_int_inc (&instrument->ref_count);
  return instrument;
}

void
bond_instrument_unref (BondInstrument *instrument)
{
  g_return_if_fail (instrument != NULL);
  if (!g_atomic_int_dec_and_test (&instrument->ref_count))
    return;
  g_free (instrument->id);
  g_free (instrument->name);
  g_free (instrument->make);
  g_free (instrument->serial);
  g_free (instrument->due);
  g_free (instrument->certificate);
  g_ptr_array_unref (instrument->ranges);
  g_free (instrument);
}

BondRange *
bond_instrument_add_range (BondInstrument *instrument, const BondRange *range)
{
  BondRange *copy;
  guint i = 0;

  g_return_val_if_fail (instrument != NULL && range != NULL && range->id != NULL, NULL);
  copy = g_memdup2 (range, sizeof *range);
  copy->id = g_strdup (range->id);
  while (i < instrument->ranges->len && ((BondRange *)g_ptr_array_index (instrument->ranges, i))->end <= range->end)
    i++;
  g_ptr_array_insert (instrument->ranges, i, copy);
  return copy;
}

const BondRange *
bond_instrument_find_range (const BondInstrument *instrument, const char *id)
{
  guint i;

  g_return_val_if_fail (instrument != NULL && id != NULL, NULL);
  for (i = 0; i < instrument->ranges->len; i++)
    {
      const BondRange *range = g_ptr_array_index (instrument->ranges, i);

      if (strcmp (range->id, id) == 0)
        return range;
    }
  return NULL;
}

const BondRange *
bond_instrument_range_for (const BondInstrument *instrument, BondOhm nohm)
{
  guint i;

  g_return_val_if_fail (instrument != NULL, NULL);
  for (i = 0; i < instrument->ranges->len; i++)
    {
      const BondRange *range = g_ptr_array_index (instrument->ranges, i);

      /* A meter that shows minus in reverse reads just as far down. */
      if (nohm <= range->end && nohm >= -range->end)
        return range;
    }
  return NULL;
}

double
bond_range_half_width (const BondRange *range, BondOhm nohm)
{
  g_return_val_if_fail (range != NULL, NAN);
  return fabs ((double)nohm) * (double)range->accuracy_reading_ppm / PPM
         + (double)range->end * (double)range->accuracy_range_ppm / PPM
         + (double)range->accuracy_counts * (double)range->step + (double)range->accuracy_nohm;
}

int
bond_range_decimals (const BondRange *range, BondUnit unit)
{
  __int128 step, unit_nohm;
  int decimals = 0;

  g_return_val_if_fail (range != NULL, 0);
  unit_nohm = bond_unit_nohm (unit);
  for (step = range->step; step % unit_nohm != 0 && decimals < MAX_DECIMALS; step *= 10)
    decimals++;
  return decimals;
}

gboolean
bond_instrument_in_date (const BondInstrument *instrument, const GDate *date)
{
  GDate last_day;

  g_return_val_if_fail (instrument != NULL && date != NULL && g_date_valid (date), FALSE);
  if (instrument->due == NULL)
    return TRUE;
  g_date_clear (&last_day, 1);
  /* A label that cannot be read vouches for nothing. */
  return parse_due (instrument->due, &last_day) && g_date_compare (date, &last_day) <= 0;
}
