/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * Resistance text to whole nano-ohms and back, to the last digit.
 */
#include "core/ohm.h"

#include <math.h>

#define M BOND_UNIT_MILLIOHM
static const BondNumberFormat point = { '.', FALSE };
static const BondNumberFormat comma = { ',', FALSE };
static const BondNumberFormat told = { '.', TRUE };

static const struct
{
  const char *text;
  BondUnit pinned;
  const BondNumberFormat *format;
  BondOhm nohm;
  BondUnit unit;
} good[] = {
  { "1.84", M, &point, 1840000, M },
  { "1,84", M, &point, 1840000, M },
  { "1.84", M, &comma, 1840000, M },
  { "1,84", M, &comma, 1840000, M },
  { "1,250", M, &comma, 1250000, M },
  { "1.250", M, &point, 1250000, M },
  { "1,250", M, &told, 1250000, M },
  { "1,2500", M, &point, 1250000, M },
  { "  1.84\t", M, &point, 1840000, M },
  { "+1.84", M, &point, 1840000, M },
  { "-2.20", M, &point, -2200000, M },
  { "\342\210\2222.20", M, &point, -2200000, M }, /* U+2212 */
  { "0", M, &point, 0, M },
  { "-0.00", M, &point, 0, M },
  { "000000000000000000000000000001.5", M, &point, 1500000, M },
  { "1.8400000000000000000000000000000", M, &point, 1840000, M },
  { "0.000001", M, &point, 1, M },
  { ".5", M, &point, 500000, M },
  { "2499", BOND_UNIT_MICROOHM, &point, 2499000, BOND_UNIT_MICROOHM },
  { "0.001", BOND_UNIT_MICROOHM, &point, 1, BOND_UNIT_MICROOHM },
  { "9223.372036854775807", BOND_UNIT_MEGOHM, &point, G_MAXINT64, BOND_UNIT_MEGOHM },
  { "-9223.372036854775807", BOND_UNIT_MEGOHM, &point, -G_MAXINT64, BOND_UNIT_MEGOHM },
  /* standards.md 12, row 27: unit spellings in documents */
  { "2.5 mΩ", BOND_UNIT_OHM, &point, 2500000, M },
  { "2500 µΩ", M, &point, 2500000, BOND_UNIT_MICROOHM },
  { "0.0025 Ω", M, &point, 2500000, BOND_UNIT_OHM },
  { ".003 ohm", M, &point, 3000000, BOND_UNIT_OHM },
  { "100 milliohms", BOND_UNIT_OHM, &point, 100000000, M },
  { "2.5\302\240m\342\204\246", BOND_UNIT_OHM, &point, 2500000, M },              /* no-break space, U+2126 */
  { "2500\342\200\257\316\274\316\251", M, &point, 2500000, BOND_UNIT_MICROOHM }, /* U+202F, U+03BC */
  { "2500uOhm", M, &point, 2500000, BOND_UNIT_MICROOHM },
  { "100kOhm", M, &point, G_GINT64_CONSTANT (100000000000000), BOND_UNIT_KILOOHM },
  { "0.1 MΩ", M, &point, G_GINT64_CONSTANT (100000000000000), BOND_UNIT_MEGOHM },
  { "1 megohm", M, &point, G_GINT64_CONSTANT (1000000000000000), BOND_UNIT_MEGOHM },
};

static const struct
{
  const char *text;
  const BondNumberFormat *format;
  BondOhmError code;
} bad[] = {
  { "", &point, BOND_OHM_ERROR_EMPTY },
  { " \t", &point, BOND_OHM_ERROR_EMPTY },
  { "abc", &point, BOND_OHM_ERROR_NOT_NUMBER },
  { "mΩ", &point, BOND_OHM_ERROR_NOT_NUMBER },
  { "1.", &point, BOND_OHM_ERROR_NOT_NUMBER },
  { ".", &point, BOND_OHM_ERROR_NOT_NUMBER },
  { "-", &point, BOND_OHM_ERROR_NOT_NUMBER },
  { "--1", &point, BOND_OHM_ERROR_NOT_NUMBER },
  { "1e-3", &point, BOND_OHM_ERROR_NOT_NUMBER },
  { "0x10", &point, BOND_OHM_ERROR_NOT_NUMBER },
  { "1 2", &point, BOND_OHM_ERROR_NOT_NUMBER },
  { "1 250", &point, BOND_OHM_ERROR_NOT_NUMBER },
  { "nan", &point, BOND_OHM_ERROR_NOT_NUMBER },
  { "inf", &point, BOND_OHM_ERROR_NOT_NUMBER },
  { "\331\241\331\242", &point, BOND_OHM_ERROR_NOT_NUMBER }, /* Arabic-Indic digits */
  { "\357\274\221", &point, BOND_OHM_ERROR_NOT_NUMBER },     /* full-width digit */
  { "1.8.4", &point, BOND_OHM_ERROR_TWO_MARKS },
  { "1.250,5", &point, BOND_OHM_ERROR_TWO_MARKS },
  { "1..5", &point, BOND_OHM_ERROR_TWO_MARKS },
  { "1,250", &point, BOND_OHM_ERROR_AMBIGUOUS },
  { "1.250", &comma, BOND_OHM_ERROR_AMBIGUOUS },
  { "1,84", &bond_number_format_file, BOND_OHM_ERROR_NOT_NUMBER },
  { "1,250", &bond_number_format_file, BOND_OHM_ERROR_NOT_NUMBER },
  { "1.84 V", &point, BOND_OHM_ERROR_UNIT },
  { "1.84 MOHM", &point, BOND_OHM_ERROR_UNIT },
  { "1.84 KΩ", &point, BOND_OHM_ERROR_UNIT },
  { "1.84 mohmx", &point, BOND_OHM_ERROR_UNIT },
  { "1.84u", &point, BOND_OHM_ERROR_UNIT }, /* one letter only in the reading field */
  { "0.0000001", &point, BOND_OHM_ERROR_TOO_FINE },
  { "0.00000000000000000000000000000000001", &point, BOND_OHM_ERROR_TOO_FINE },
  { "9223.372036854775808 MΩ", &point, BOND_OHM_ERROR_TOO_LARGE },
  { "99999999999999999999999999999999", &point, BOND_OHM_ERROR_TOO_LARGE },
};

static void
test_good (void)
{
  gsize i;

  for (i = 0; i < G_N_ELEMENTS (good); i++)
    {
      g_autoptr (GError) error = NULL;
      BondOhm nohm = -1;
      BondUnit unit;
      gboolean ok = bond_ohm_parse (good[i].text, good[i].pinned, good[i].format, &nohm, &unit, &error);

      g_test_message ("%s", good[i].text);
      g_assert_no_error (error);
      g_assert_true (ok);
      g_assert_cmpint (nohm, ==, good[i].nohm);
      g_assert_cmpint (unit, ==, good[i].unit);
    }
}

static void
test_bad (void)
{
  gsize i;

  for (i = 0; i < G_N_ELEMENTS (bad); i++)
    {
      g_autoptr (GError) error = NULL;
      BondOhm nohm = 4711;

      g_test_message ("%s", bad[i].text);
      g_assert_false (bond_ohm_parse (bad[i].text, M, bad[i].format, &nohm, NULL, &error));
      g_assert_error (error, BOND_OHM_ERROR, (int)bad[i].code);
      g_assert_cmpint (nohm, ==, 4711);
      g_assert_nonnull (strstr (error->message, bad[i].text));
    }
}

/* Case decides, and a near miss is no unit. */
static void
test_units (void)
{
  const char *const refused[]
      = { "", "mohM", "MilliOhm", "µ", "u", "m", "K", "kohmΩ", "millohm", "milliΩ", "mΩ ", "S" };
  BondUnit unit;
  gsize i;

  for (i = 0; i < BOND_N_UNITS; i++)
    {
      g_assert_true (bond_unit_parse (bond_unit_symbol (i), &unit));
      g_assert_cmpint (unit, ==, i);
      g_assert_true (bond_unit_parse (bond_unit_file_name (i), &unit));
      g_assert_cmpint (unit, ==, i);
      g_assert_true (g_utf8_validate (bond_unit_spoken (i), -1, NULL));
    }
  for (i = 0; i < G_N_ELEMENTS (refused); i++)
    g_assert_false (bond_unit_parse (refused[i], &unit));
  g_assert_cmpint (bond_unit_nohm (BOND_UNIT_MILLIOHM), ==, 1000000);
}

static void
test_decimal (void)
{
  gint64 value = 0;
  g_autoptr (GError) error = NULL;

  g_assert_true (bond_decimal_parse ("-0.25", &bond_number_format_file, 4, &value, NULL));
  g_assert_cmpint (value, ==, -1);
  g_assert_true (bond_decimal_parse ("9223372036854775807", &bond_number_format_file, 1, &value, NULL));
  g_assert_cmpint (value, ==, G_MAXINT64);
  g_assert_false (bond_decimal_parse ("9223372036854775808", &bond_number_format_file, 1, &value, NULL));
  g_assert_false (bond_decimal_parse (" 1", &bond_number_format_file, 1, &value, NULL));
  g_assert_false (bond_decimal_parse ("1 ", &bond_number_format_file, 1, &value, NULL));
  g_assert_false (bond_decimal_parse ("0.5", &bond_number_format_file, 1, &value, &error));
  g_assert_error (error, BOND_OHM_ERROR, BOND_OHM_ERROR_TOO_FINE);
}

static void
test_quotient (void)
{
  /* nV, µA, nΩ, sign of the rest.  3.0 mV at 1.2 A: DA40 G1000 manual 190-00545-01 Rev G, 4.5, as in standards.md 9. */
  static const struct
  {
    gint64 nanovolt, microampere, nohm;
    int rest;
  } rows[] = {
    { 2500000, 1000000, 2500000, 0 },
    { 3000000, 1200000, 2500000, 0 },
    { 2500000, 900000, 2777778, -1 },
    { 2500000, 1100000, 2272727, 1 },
    { -3000000, -1200000, 2500000, 0 },
    { -3000000, 1200000, -2500000, 0 },
    { 1, 2000000, 0, 1 },
    { 3, 2000000, 2, -1 },
    { -1, 2000000, 0, -1 },
    { -3, 2000000, -2, 1 },
    { 0, 1, 0, 0 },
  };
  BondQuantity quantity;
  g_autoptr (GError) error = NULL;
  gsize i;

  for (i = 0; i < G_N_ELEMENTS (rows); i++)
    {
      g_assert_true (bond_ohm_from_quotient (rows[i].nanovolt, rows[i].microampere, &quantity, NULL));
      g_assert_cmpint (quantity.nohm, ==, rows[i].nohm);
      g_assert_cmpint (quantity.rest, ==, rows[i].rest);
      g_assert_cmpint (quantity.qualifier, ==, BOND_QUALIFIER_NONE);
    }
  g_assert_false (bond_ohm_from_quotient (G_MAXINT64, 1, &quantity, &error));
  g_assert_error (error, BOND_OHM_ERROR, BOND_OHM_ERROR_TOO_LARGE);
  g_assert_false (bond_ohm_from_quotient (G_MININT64, 1, &quantity, NULL));
  g_assert_true (bond_ohm_from_quotient (G_MININT64, G_MININT64, &quantity, NULL));
  g_assert_cmpint (quantity.nohm, ==, 1000000);
}

static void
test_double (void)
{
  BondOhm nohm = 7;

  g_assert_true (bond_ohm_from_double (0.0025, &nohm));
  g_assert_cmpint (nohm, ==, 2500000);
  g_assert_true (bond_ohm_from_double (2.5e-9, &nohm));
  g_assert_cmpint (nohm, ==, 2);
  g_assert_true (bond_ohm_from_double (-1e-3, &nohm));
  g_assert_cmpint (nohm, ==, -1000000);
  nohm = 7;
  g_assert_false (bond_ohm_from_double (NAN, &nohm));
  g_assert_false (bond_ohm_from_double (INFINITY, &nohm));
  g_assert_false (bond_ohm_from_double (-INFINITY, &nohm));
  g_assert_false (bond_ohm_from_double (9.9e37, &nohm)); /* what instruments send for over-range */
  g_assert_cmpint (nohm, ==, 7);
}

static void
test_format (void)
{
  static const struct
  {
    BondOhm nohm;
    BondUnit unit;
    int decimals;
    char mark;
    const char *rounded, *exact;
  } rows[] = {
    { 2505000, M, 2, '.', "2.50", "2.505" },
    { 2515000, M, 2, '.', "2.52", "2.515" },
    { 2505001, M, 2, ',', "2,51", "2,505001" },
    { -2205000, M, 2, '.', "\342\210\2222.20", "\342\210\2222.205" },
    { 0, M, 2, '.', "0.00", "0.00" },
    { -1, M, 2, '.', "0.00", "\342\210\2220.000001" },
    { 500000, M, 0, '.', "0", "0.5" },
    { 1500000, M, 0, '.', "2", "1.5" },
    { 100000000000000, BOND_UNIT_KILOOHM, 0, '.', "100", "100" },
    { 100000000000000, BOND_UNIT_MEGOHM, 0, '.', "0", "0.1" },
    { G_MAXINT64, BOND_UNIT_MEGOHM, 15, '.', "9223.372036854775807", "9223.372036854775807" },
    { G_MAXINT64, BOND_UNIT_MICROOHM, 3, '.', "9223372036854775.807", "9223372036854775.807" },
  };
  gsize i;

  for (i = 0; i < G_N_ELEMENTS (rows); i++)
    {
      g_autofree char *rounded = bond_ohm_format (rows[i].nohm, rows[i].unit, rows[i].decimals, rows[i].mark);
      g_autofree char *exact = bond_ohm_format_exact (rows[i].nohm, rows[i].unit, rows[i].decimals, rows[i].mark);

      g_assert_cmpstr (rounded, ==, rows[i].rounded);
      g_assert_cmpstr (exact, ==, rows[i].exact);
    }
}

static void
test_file (void)
{
  static const struct
  {
    BondOhm nohm;
    const char *text;
  } rows[] = {
    { 2500000, "0.0025" },         { 0, "0" },
    { 1, "0.000000001" },          { -1, "-0.000000001" },
    { 100000000000000, "100000" }, { G_MAXINT64, "9223372036.854775807" },
  };
  gsize i;

  for (i = 0; i < G_N_ELEMENTS (rows); i++)
    {
      g_autofree char *text = bond_ohm_to_file (rows[i].nohm);

      g_assert_cmpstr (text, ==, rows[i].text);
    }
}

/* Whatever is written exactly is read back as itself, in every unit and with either mark. */
static void
test_round_trip (void)
{
  const BondNumberFormat formats[] = { { '.', TRUE }, { ',', TRUE } };
  int i;

  for (i = 0; i < 20000; i++)
    {
      gint64 size = G_GINT64_CONSTANT (1) << g_test_rand_int_range (0, 62);
      BondOhm nohm = (gint64)(g_test_rand_double () * (double)size) * (g_test_rand_bit () ? 1 : -1);
      BondUnit unit = g_test_rand_int_range (0, BOND_N_UNITS);
      const BondNumberFormat *format = &formats[g_test_rand_bit () ? 1 : 0];
      g_autofree char *text = bond_ohm_format_exact (nohm, unit, g_test_rand_int_range (0, 4), format->mark);
      g_autofree char *file = bond_ohm_to_file (nohm);
      BondOhm back = 0;

      g_assert_true (bond_ohm_parse (text, unit, format, &back, NULL, NULL));
      g_assert_cmpint (back, ==, nohm);
      g_assert_true (bond_decimal_parse (file, &bond_number_format_file, BOND_NOHM_PER_OHM, &back, NULL));
      g_assert_cmpint (back, ==, nohm);
    }
}

/* Rounded text is never more than half a last digit away, and at exactly half the last digit is even. */
static void
test_half_even (void)
{
  BondOhm nohm;

  for (nohm = -3000; nohm <= 3000; nohm++)
    {
      g_autofree char *text = bond_ohm_format (nohm, BOND_UNIT_MICROOHM, 1, '.');
      gint64 shown = 0;

      g_assert_true (bond_decimal_parse (text, &point, 1000, &shown, NULL));
      g_assert_cmpint (ABS (shown - nohm), <=, 50);
      if (ABS (shown - nohm) == 50)
        g_assert_cmpint (shown / 100 % 2, ==, 0);
    }
}

static void
test_best_unit (void)
{
  static const struct
  {
    BondOhm nohm;
    BondUnit unit;
  } rows[] = {
    { 0, M },
    { 99999, BOND_UNIT_MICROOHM },
    { 100000, M },
    { 999999999, M },
    { 1000000000, BOND_UNIT_OHM },
    { -2500000, M },
    { 1000000000000, BOND_UNIT_KILOOHM },
    { 1000000000000000, BOND_UNIT_MEGOHM },
    { G_MININT64, BOND_UNIT_MEGOHM },
  };
  gsize i;

  for (i = 0; i < G_N_ELEMENTS (rows); i++)
    g_assert_cmpint (bond_ohm_best_unit (rows[i].nohm), ==, rows[i].unit);
}

/* A message may repeat anything that was typed or read, also bytes that are no text. */
static void
test_quote (void)
{
  g_autofree char *broken = bond_text_quote ("1.8\377\3764");
  g_autofree char *many = g_strnfill (100, '9');
  g_autofree char *cut = bond_text_quote (many);
  g_autofree char *trimmed = bond_text_trim ("\302\240 a b \342\200\211");

  g_assert_true (g_utf8_validate (broken, -1, NULL));
  g_assert_cmpint (g_utf8_strlen (cut, -1), ==, 41);
  g_assert_cmpstr (trimmed, ==, "a b");
}

static void
test_locale_mark (void)
{
  const char *locale = g_getenv ("LC_ALL");
  gboolean german = locale != NULL && g_str_has_prefix (locale, "de_DE");

  g_assert_cmpint (bond_locale_mark (), ==, german ? ',' : '.');
}

int
main (int argc, char **argv)
{
  g_test_init (&argc, &argv, NULL);
  g_test_add_func ("/core/ohm/good", test_good);
  g_test_add_func ("/core/ohm/bad", test_bad);
  g_test_add_func ("/core/ohm/units", test_units);
  g_test_add_func ("/core/ohm/decimal", test_decimal);
  g_test_add_func ("/core/ohm/quotient", test_quotient);
  g_test_add_func ("/core/ohm/double", test_double);
  g_test_add_func ("/core/ohm/format", test_format);
  g_test_add_func ("/core/ohm/file", test_file);
  g_test_add_func ("/core/ohm/round-trip", test_round_trip);
  g_test_add_func ("/core/ohm/half-even", test_half_even);
  g_test_add_func ("/core/ohm/best-unit", test_best_unit);
  g_test_add_func ("/core/ohm/quote", test_quote);
  g_test_add_func ("/core/ohm/locale-mark", test_locale_mark);
  return g_test_run ();
}
