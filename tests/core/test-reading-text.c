/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * Every line an inspector may type into the reading field, and those he may not.
 */
#include "core/reading-text.h"

#define RANGE_END G_GINT64_CONSTANT (30000000)
#define STEP G_GINT64_CONSTANT (10000)
#define NONE BOND_QUALIFIER_NONE
#define OVER BOND_QUALIFIER_OVER
#define BELOW BOND_QUALIFIER_BELOW
#define MILLI BOND_UNIT_MILLIOHM

static const BondNumberFormat point = { '.', FALSE };
static const BondNumberFormat comma = { ',', FALSE };

static const struct
{
  const char *line;
  BondUnit pinned;
  BondQualifier qualifier;
  BondOhm nohm;
  BondUnit unit;
  const char *text;
} singles[] = {
  { "1.84", MILLI, NONE, 1840000, MILLI, "1.84" },
  { "1,84", MILLI, NONE, 1840000, MILLI, "1,84" },
  { " 1.84 ", MILLI, NONE, 1840000, MILLI, "1.84" },
  { "840u", MILLI, NONE, 840000, BOND_UNIT_MICROOHM, "840" },
  { "840 u", MILLI, NONE, 840000, BOND_UNIT_MICROOHM, "840" },
  { "0.02o", MILLI, NONE, 20000000, BOND_UNIT_OHM, "0.02" },
  { "0.0025o", MILLI, NONE, 2500000, BOND_UNIT_OHM, "0.0025" },
  { "1.84m", BOND_UNIT_OHM, NONE, 1840000, MILLI, "1.84" },
  { "1.84 mΩ", BOND_UNIT_OHM, NONE, 1840000, MILLI, "1.84" },
  { "2 micro-ohm", BOND_UNIT_OHM, NONE, 2000, BOND_UNIT_MICROOHM, "2" },
  { "20M", BOND_UNIT_MEGOHM, NONE, 20000000000000000, BOND_UNIT_MEGOHM, "20" },
  { "150k", BOND_UNIT_MEGOHM, NONE, 150000000000000, BOND_UNIT_KILOOHM, "150" },
  { "0", MILLI, NONE, 0, MILLI, "0" },
  { "-0.02", MILLI, NONE, -20000, MILLI, "-0.02" },
  { ">", MILLI, OVER, RANGE_END, MILLI, ">" },
  { "OL", MILLI, OVER, RANGE_END, MILLI, "OL" },
  { "9.9E37", MILLI, OVER, RANGE_END, MILLI, "9.9E37" },
  { "+9.90000E+37", MILLI, OVER, RANGE_END, MILLI, "+9.90000E+37" },
  { "ol", MILLI, OVER, RANGE_END, MILLI, "ol" },
  { ">30", MILLI, OVER, 30000000, MILLI, ">30" },
  { "> 30", MILLI, OVER, 30000000, MILLI, ">30" },
  { ">30 mΩ", BOND_UNIT_OHM, OVER, 30000000, MILLI, ">30" },
  { ">3o", MILLI, OVER, 3000000000, BOND_UNIT_OHM, ">3" },
  { "<", MILLI, BELOW, STEP, MILLI, "<" },
  { "<0.01", MILLI, BELOW, 10000, MILLI, "<0.01" },
  { "< 0,01", MILLI, BELOW, 10000, MILLI, "<0,01" },
};

static const struct
{
  const char *line;
  BondOhm forward, reverse;
} pairs[] = {
  { "1.84 1.82", 1840000, 1820000 },
  { "2.60 -2.20", 2600000, -2200000 },
  { "2.60   \342\210\2222,20", 2600000, -2200000 },
  { "840u 860u", 840000, 860000 },
  { "1.84 mΩ 1.82 mΩ", 1840000, 1820000 },
  { "1.84m 860 µΩ", 1840000, 860000 },
};

/* 3.0 mV at 1.2 A is 2.5 mΩ: DA40 G1000 manual 190-00545-01 Rev G, 4.5, as in standards.md 9. */
static const struct
{
  const char *line;
  gint64 nanovolt, microampere;
  BondOhm nohm;
  int rest;
} quotients[] = {
  { "3.0mV 1.2A", 3000000, 1200000, 2500000, 0 },
  { "3.0 mV at 1.2 A", 3000000, 1200000, 2500000, 0 },
  { "3.0mV@1.2A", 3000000, 1200000, 2500000, 0 },
  { "3.0mV @ 1.2 A", 3000000, 1200000, 2500000, 0 },
  { "1.2A 3.0mV", 3000000, 1200000, 2500000, 0 },
  { "3,0 mV 1200 mA", 3000000, 1200000, 2500000, 0 },
  { "3000 µV at 1.2 A", 3000000, 1200000, 2500000, 0 },
  { "2.5mV 0.9A", 2500000, 900000, 2777778, -1 },
  { "2.5mV 1.1A", 2500000, 1100000, 2272727, 1 },
  { "-3.0mV -1.2A", -3000000, -1200000, 2500000, 0 },
  { "0mV 1.2A", 0, 0, 0, 0 },
};

static const struct
{
  const char *line;
  const BondNumberFormat *format;
  BondOhmError code;
} refused[] = {
  { "", &point, BOND_OHM_ERROR_EMPTY },
  { "   ", &point, BOND_OHM_ERROR_EMPTY },
  { "abc", &point, BOND_OHM_ERROR_NOT_NUMBER },
  { "1.8.4", &point, BOND_OHM_ERROR_TWO_MARKS },
  { "1.250,5", &point, BOND_OHM_ERROR_TWO_MARKS },
  { "1,250", &point, BOND_OHM_ERROR_AMBIGUOUS },
  { "1.250", &comma, BOND_OHM_ERROR_AMBIGUOUS },
  { ">1,250", &point, BOND_OHM_ERROR_AMBIGUOUS },
  { "1.84 1,250", &point, BOND_OHM_ERROR_AMBIGUOUS },
  { "1e-3", &point, BOND_OHM_ERROR_NOT_NUMBER },
  { "1.84e0", &point, BOND_OHM_ERROR_NOT_NUMBER },
  { "1.", &point, BOND_OHM_ERROR_NOT_NUMBER },
  { "-", &point, BOND_OHM_ERROR_NOT_NUMBER },
  { "1.84-1.82", &point, BOND_OHM_ERROR_NOT_NUMBER },
  { "1.84 1.82 1.83", &point, BOND_OHM_ERROR_NOT_NUMBER },
  { "1.84 x", &point, BOND_OHM_ERROR_UNIT },
  { "1.84U", &point, BOND_OHM_ERROR_UNIT },
  { "1.84M", &point, BOND_OHM_ERROR_UNIT }, /* Shift slipped: the meter in hand shows milliohms */
  { "1.84k", &point, BOND_OHM_ERROR_UNIT },
  { ">30 >30", &point, BOND_OHM_ERROR_NOT_NUMBER },
  { "1.84 >30", &point, BOND_OHM_ERROR_NOT_NUMBER },
  { ">-30", &point, BOND_OHM_ERROR_NOT_NUMBER },
  { ">0", &point, BOND_OHM_ERROR_NOT_NUMBER },
  { "<0", &point, BOND_OHM_ERROR_NOT_NUMBER },
  { ">>30", &point, BOND_OHM_ERROR_NOT_NUMBER },
  { "> x", &point, BOND_OHM_ERROR_NOT_NUMBER },
  { "3.0mV", &point, BOND_OHM_ERROR_NOT_NUMBER },
  { "3.0mV 1.2", &point, BOND_OHM_ERROR_NOT_NUMBER },
  { "3.0mV 1.2V", &point, BOND_OHM_ERROR_NOT_NUMBER },
  { "3.0 1.2A", &point, BOND_OHM_ERROR_UNIT },
  { "3.0mV 0A", &point, BOND_OHM_ERROR_NOT_NUMBER },
  { "3.0mV at1.2A", &point, BOND_OHM_ERROR_NOT_NUMBER },
  { "3.0mV 1.2A 1", &point, BOND_OHM_ERROR_NOT_NUMBER },
  { ">3.0mV 1.2A", &point, BOND_OHM_ERROR_NOT_NUMBER },
  { "0.0000001mV 1A", &point, BOND_OHM_ERROR_TOO_FINE },
  { "9000000000V 1uA", &point, BOND_OHM_ERROR_TOO_LARGE },
  { "0.0000001", &point, BOND_OHM_ERROR_TOO_FINE },
  { "99999999999999999999", &point, BOND_OHM_ERROR_TOO_LARGE },
  { "\331\241\331\242\331\243", &point, BOND_OHM_ERROR_NOT_NUMBER }, /* Arabic-Indic digits */
};

static void
test_singles (void)
{
  gsize i;

  for (i = 0; i < G_N_ELEMENTS (singles); i++)
    {
      g_autoptr (GError) error = NULL;
      BondReadingText out;

      g_test_message ("%s", singles[i].line);
      bond_reading_text_parse (singles[i].line, singles[i].pinned, &point, RANGE_END, STEP, &out, &error);
      g_assert_no_error (error);
      g_assert_cmpint (out.n_values, ==, 1);
      g_assert_cmpint (out.value[0].quantity.nohm, ==, singles[i].nohm);
      g_assert_cmpint (out.value[0].quantity.qualifier, ==, singles[i].qualifier);
      g_assert_cmpint (out.value[0].unit, ==, singles[i].unit);
      g_assert_cmpstr (out.value[0].text, ==, singles[i].text);
      g_assert_cmpint (out.value[0].microampere, ==, 0);
      bond_reading_text_clear (&out);
    }
}

static void
test_pairs (void)
{
  gsize i;

  for (i = 0; i < G_N_ELEMENTS (pairs); i++)
    {
      g_autoptr (GError) error = NULL;
      BondReadingText out;

      g_test_message ("%s", pairs[i].line);
      bond_reading_text_parse (pairs[i].line, MILLI, &point, 0, 0, &out, &error);
      g_assert_no_error (error);
      g_assert_cmpint (out.n_values, ==, 2);
      g_assert_cmpint (out.value[0].quantity.nohm, ==, pairs[i].forward);
      g_assert_cmpint (out.value[1].quantity.nohm, ==, pairs[i].reverse);
      g_assert_nonnull (out.value[1].text);
      bond_reading_text_clear (&out);
    }
}

static void
test_quotients (void)
{
  gsize i;

  for (i = 0; i < G_N_ELEMENTS (quotients); i++)
    {
      g_autoptr (GError) error = NULL;
      BondReadingText out;

      g_test_message ("%s", quotients[i].line);
      bond_reading_text_parse (quotients[i].line, MILLI, &point, 0, 0, &out, &error);
      g_assert_no_error (error);
      g_assert_cmpint (out.n_values, ==, 1);
      g_assert_cmpint (out.value[0].nanovolt, ==, quotients[i].nanovolt);
      g_assert_cmpint (out.value[0].microampere, ==, quotients[i].microampere);
      g_assert_cmpint (out.value[0].quantity.nohm, ==, quotients[i].nohm);
      g_assert_cmpint (out.value[0].quantity.rest, ==, quotients[i].rest);
      g_assert_cmpstr (out.value[0].text, ==, quotients[i].line);
      bond_reading_text_clear (&out);
    }
}

static void
test_refused (void)
{
  gsize i;

  for (i = 0; i < G_N_ELEMENTS (refused); i++)
    {
      g_autoptr (GError) error = NULL;
      g_autofree char *shown = g_strstrip (g_strdup (refused[i].line));
      g_autofree char *quoted = g_strdup_printf ("“%s”", shown);
      BondReadingText out;

      g_test_message ("%s", refused[i].line);
      g_assert_false (
          bond_reading_text_parse (refused[i].line, MILLI, refused[i].format, RANGE_END, STEP, &out, &error));
      g_assert_error (error, BOND_OHM_ERROR, (int)refused[i].code);
      g_assert_true (g_str_has_prefix (error->message, quoted));
      g_assert_true (g_str_has_suffix (error->message, " Nothing was recorded."));
      g_assert_cmpint (out.n_values, ==, 0);
      g_assert_null (out.value[0].text);
    }
}

/* Without a pinned range nobody knows what ">" is beyond. */
static void
test_unknown_range (void)
{
  const char *const lines[] = { ">", "OL", "<" };
  gsize i;

  for (i = 0; i < G_N_ELEMENTS (lines); i++)
    {
      g_autoptr (GError) error = NULL;
      BondReadingText out;

      g_assert_false (bond_reading_text_parse (lines[i], MILLI, &point, 0, 0, &out, &error));
      g_assert_nonnull (strstr (error->message, "range is not known"));
      g_assert_true (g_str_has_suffix (error->message, " Nothing was recorded."));
    }
}

/* Once the person has said that the other mark is a decimal mark too, it is. */
static void
test_answered (void)
{
  const BondNumberFormat answered = { '.', TRUE };
  BondReadingText out;

  g_assert_true (bond_reading_text_parse ("1,250", MILLI, &answered, 0, 0, &out, NULL));
  g_assert_cmpint (out.value[0].quantity.nohm, ==, 1250000);
  bond_reading_text_clear (&out);
}

int
main (int argc, char **argv)
{
  g_test_init (&argc, &argv, NULL);
  g_test_add_func ("/core/reading-text/singles", test_singles);
  g_test_add_func ("/core/reading-text/pairs", test_pairs);
  g_test_add_func ("/core/reading-text/quotients", test_quotients);
  g_test_add_func ("/core/reading-text/refused", test_refused);
  g_test_add_func ("/core/reading-text/unknown-range", test_unknown_range);
  g_test_add_func ("/core/reading-text/answered", test_answered);
  return g_test_run ();
}
