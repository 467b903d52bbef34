/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * Units of resistance: their size, how they are shown and spoken, and every way
 * they may be spelled.  Figures are left to ohm.c.
 */
#include "core/ohm.h"

#include <glib/gi18n-lib.h>

typedef struct
{
  BondOhm nohm;
  const char *symbol;
  const char *file_name;
  const char *spoken;
} UnitRow;

static const UnitRow units[BOND_N_UNITS] = {
  [BOND_UNIT_MICROOHM] = { BOND_NOHM_PER_MICROOHM, "µΩ", "uOhm", N_ ("micro-ohm") },
  [BOND_UNIT_MILLIOHM] = { BOND_NOHM_PER_MILLIOHM, "mΩ", "mOhm", N_ ("milliohm") },
  [BOND_UNIT_OHM] = { BOND_NOHM_PER_OHM, "Ω", "Ohm", N_ ("ohm") },
  [BOND_UNIT_KILOOHM] = { 1000 * BOND_NOHM_PER_OHM, "kΩ", "kOhm", N_ ("kilohm") },
  [BOND_UNIT_MEGOHM] = { 1000000 * BOND_NOHM_PER_OHM, "MΩ", "MOhm", N_ ("megohm") },
};

/* Spellings of the factor; a word goes only with "ohm" in letters.  'm' is milli, 'M' is mega, 'K' is nothing. */
static const struct
{
  const char *text;
  BondUnit unit;
  gboolean word;
} prefixes[] = {
  { "\302\265", BOND_UNIT_MICROOHM, FALSE }, /* U+00B5, micro sign */
  { "\316\274", BOND_UNIT_MICROOHM, FALSE }, /* U+03BC, small letter mu */
  { "u", BOND_UNIT_MICROOHM, FALSE },        { "micro", BOND_UNIT_MICROOHM, TRUE },
  { "micro-", BOND_UNIT_MICROOHM, TRUE },    { "m", BOND_UNIT_MILLIOHM, FALSE },
  { "milli", BOND_UNIT_MILLIOHM, TRUE },     { "", BOND_UNIT_OHM, FALSE },
  { "k", BOND_UNIT_KILOOHM, FALSE },         { "kil", BOND_UNIT_KILOOHM, TRUE },
  { "kilo", BOND_UNIT_KILOOHM, TRUE },       { "M", BOND_UNIT_MEGOHM, FALSE },
  { "meg", BOND_UNIT_MEGOHM, TRUE },         { "mega", BOND_UNIT_MEGOHM, TRUE },
};

static const struct
{
  const char *text;
  gboolean word;
} ohm_spellings[] = {
  { "\316\251", FALSE },     /* U+03A9, capital letter omega */
  { "\342\204\246", FALSE }, /* U+2126, ohm sign */
  { "ohm", TRUE },           { "Ohm", TRUE }, { "ohms", TRUE }, { "Ohms", TRUE },
};

BondOhm
bond_unit_nohm (BondUnit unit)
{
  g_return_val_if_fail ((guint)unit < BOND_N_UNITS, BOND_NOHM_PER_OHM);
  return units[unit].nohm;
}

const char *
bond_unit_symbol (BondUnit unit)
{
  g_return_val_if_fail ((guint)unit < BOND_N_UNITS, NULL);
  return units[unit].symbol;
}

const char *
bond_unit_file_name (BondUnit unit)
{
  g_return_val_if_fail ((guint)unit < BOND_N_UNITS, NULL);
  return units[unit].file_name;
}

const char *
bond_unit_spoken (BondUnit unit)
{
  g_return_val_if_fail ((guint)unit < BOND_N_UNITS, NULL);
  return _ (units[unit].spoken);
}

gboolean
bond_unit_parse (const char *text, BondUnit *unit)
{
  gsize i, j;

  g_return_val_if_fail (text != NULL && unit != NULL, FALSE);
  for (i = 0; i < G_N_ELEMENTS (prefixes); i++)
    for (j = 0; j < G_N_ELEMENTS (ohm_spellings); j++)
      if (g_str_has_prefix (text, prefixes[i].text) && (ohm_spellings[j].word || !prefixes[i].word)
          && strcmp (text + strlen (prefixes[i].text), ohm_spellings[j].text) == 0)
        {
          *unit = prefixes[i].unit;
          return TRUE;
        }
  return FALSE;
}

BondUnit
bond_ohm_best_unit (BondOhm nohm)
{
  __int128 size = ABS ((__int128)nohm);

  /* Milliohms reach down to a tenth: bonding limits are spoken in them. */
  if (size == 0)
    return BOND_UNIT_MILLIOHM;
  if (size < BOND_NOHM_PER_MILLIOHM / 10)
    return BOND_UNIT_MICROOHM;
  if (size < BOND_NOHM_PER_OHM)
    return BOND_UNIT_MILLIOHM;
  if (size < units[BOND_UNIT_KILOOHM].nohm)
    return BOND_UNIT_OHM;
  return size < units[BOND_UNIT_MEGOHM].nohm ? BOND_UNIT_KILOOHM : BOND_UNIT_MEGOHM;
}
