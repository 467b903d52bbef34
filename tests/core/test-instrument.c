/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * Ranges, their accuracy, and until which day a meter is in date.
 */
#include "core/instrument.h"

/* The invented meter MO-1 of scenarios.md B. */
static BondInstrument *
make_meter (void)
{
  static const BondRange ranges[] = {
    { (char *)"300m", 300000000, 100000, TRUE, 2500, 0, 0, 100000, 1000000 },
    { (char *)"3m", 3000000, 1000, TRUE, 2500, 0, 0, 3000, 10000000 },
    { (char *)"30m", 30000000, 10000, TRUE, 2500, 0, 1, 0, 10000000 },
  };
  BondInstrument *meter = bond_instrument_new ("i-014", 1, BOND_INSTRUMENT_MILLIOHMMETER, "MO-1");
  gsize i;

  for (i = 0; i < G_N_ELEMENTS (ranges); i++)
    bond_instrument_add_range (meter, &ranges[i]);
  return meter;
}

static void
test_ranges (void)
{
  g_autoptr (BondInstrument) meter = make_meter ();
  const BondRange *range;

  range = g_ptr_array_index (meter->ranges, 0);
  g_assert_cmpstr (range->id, ==, "3m");
  range = g_ptr_array_index (meter->ranges, 2);
  g_assert_cmpstr (range->id, ==, "300m");
  g_assert_cmpint (bond_instrument_find_range (meter, "30m")->end, ==, 30000000);
  g_assert_null (bond_instrument_find_range (meter, "30"));

  g_assert_cmpstr (bond_instrument_range_for (meter, 3000000)->id, ==, "3m");
  g_assert_cmpstr (bond_instrument_range_for (meter, 3000001)->id, ==, "30m");
  g_assert_cmpstr (bond_instrument_range_for (meter, -3000001)->id, ==, "30m");
  g_assert_cmpstr (bond_instrument_range_for (meter, 0)->id, ==, "3m");
  g_assert_null (bond_instrument_range_for (meter, 300000001));
}

/* metrology.md 11, row 81: reading 10, 0.02 % of reading, range 20 at 0.005 %, 2 digits of 0.001 → 0.005. */
static void
test_half_width (void)
{
  const BondRange range = { (char *)"20", 20000000, 1000, TRUE, 200, 50, 2, 0, 0 };
  const BondRange fixed = { (char *)"30m", 30000000, 10000, TRUE, 2500, 0, 0, 10000, 0 };

  g_assert_cmpfloat_with_epsilon (bond_range_half_width (&range, 10000000), 5000, 5000e-12);
  g_assert_cmpfloat_with_epsilon (bond_range_half_width (&range, -10000000), 5000, 5000e-12);
  g_assert_cmpfloat_with_epsilon (bond_range_half_width (&fixed, 2400000), 16000, 16000e-12);
}

static void
test_decimals (void)
{
  static const struct
  {
    BondOhm step;
    BondUnit unit;
    int decimals;
  } rows[] = {
    { 10000, BOND_UNIT_MILLIOHM, 2 },   { 1000, BOND_UNIT_MILLIOHM, 3 },    { 1000, BOND_UNIT_MICROOHM, 0 },
    { 10000, BOND_UNIT_OHM, 5 },        { 1000000, BOND_UNIT_MILLIOHM, 0 }, { 5000, BOND_UNIT_MILLIOHM, 3 },
    { 2000000, BOND_UNIT_MILLIOHM, 0 }, { 0, BOND_UNIT_MILLIOHM, 0 },       { 1, BOND_UNIT_MEGOHM, 15 },
  };
  gsize i;

  for (i = 0; i < G_N_ELEMENTS (rows); i++)
    {
      const BondRange range = { .step = rows[i].step };

      g_assert_cmpint (bond_range_decimals (&range, rows[i].unit), ==, rows[i].decimals);
    }
}

/*
 * The due day is the last valid day; a month-only label holds to the month's end (scenarios.md R10: seen only as
 * practice in forum posts).  A label that cannot be read vouches for nothing.
 */
static void
test_due (void)
{
  static const struct
  {
    const char *due;
    int day, month, year;
    gboolean in_date;
  } rows[] = {
    { NULL, 1, 1, 2030, TRUE },           { "2027-03-31", 31, 3, 2027, TRUE },
    { "2027-03-31", 1, 4, 2027, FALSE },  { "2027-03-15", 15, 3, 2027, TRUE },
    { "2027-03-15", 16, 3, 2027, FALSE }, { "2027-03", 1, 3, 2027, TRUE },
    { "2027-03", 31, 3, 2027, TRUE },     { "2027-03", 1, 4, 2027, FALSE },
    { "2028-02", 29, 2, 2028, TRUE },     { "2027-02", 28, 2, 2027, TRUE },
    { "2027-02", 1, 3, 2027, FALSE },     { "2027-12", 31, 12, 2027, TRUE },
    { "2027-12", 1, 1, 2028, FALSE },     { "2027-13", 1, 1, 2027, FALSE },
    { "2027-00", 1, 1, 2027, FALSE },     { "2027-02-29", 1, 1, 2027, FALSE },
    { "2027-2", 1, 1, 2027, FALSE },      { "03/2027", 1, 1, 2027, FALSE },
    { "2027-03-3x", 1, 1, 2027, FALSE },  { "", 1, 1, 2027, FALSE },
    { "2027-03-311", 1, 1, 2027, FALSE }, { "0000-03", 1, 1, 2027, FALSE },
    { "2027/03/31", 1, 1, 2027, FALSE },  { "2027-03 31", 1, 1, 2027, FALSE },
  };
  gsize i;

  for (i = 0; i < G_N_ELEMENTS (rows); i++)
    {
      g_autoptr (BondInstrument) meter = make_meter ();
      GDate date;

      g_test_message ("%s", rows[i].due);
      meter->due = g_strdup (rows[i].due);
      g_date_clear (&date, 1);
      g_date_set_dmy (&date, rows[i].day, rows[i].month, rows[i].year);
      g_assert_cmpint (bond_instrument_in_date (meter, &date), ==, rows[i].in_date);
    }
  g_assert_true (bond_due_is_sound ("2028-02-29"));
  g_assert_true (bond_due_is_sound ("2027-03"));
  g_assert_false (bond_due_is_sound ("2027-02-29"));
}

/* A survey and a register share one instrument; it lives as long as either. */
static void
test_shared (void)
{
  BondInstrument *meter = make_meter ();
  g_autoptr (BondInstrument) shared = bond_instrument_ref (meter);

  bond_instrument_unref (meter);
  g_assert_cmpstr (shared->name, ==, "MO-1");
}

static void
test_words (void)
{
  BondInstrumentKind kind;
  BondReversal reversal;

  g_assert_true (bond_instrument_kind_parse ("check-resistor", &kind));
  g_assert_cmpint (kind, ==, BOND_INSTRUMENT_CHECK_RESISTOR);
  g_assert_cmpstr (bond_instrument_kind_file_name (BOND_INSTRUMENT_LEADS), ==, "leads");
  g_assert_false (bond_instrument_kind_parse ("Milliohmmeter", &kind));
  g_assert_true (bond_reversal_parse ("shows-minus", &reversal));
  g_assert_cmpint (reversal, ==, BOND_REVERSAL_SHOWS_MINUS);
  g_assert_cmpstr (bond_reversal_file_name (reversal), ==, "shows-minus");
  g_assert_false (bond_reversal_parse ("", &reversal));
  g_assert_cmpint (reversal, ==, BOND_REVERSAL_SHOWS_MINUS);
}

int
main (int argc, char **argv)
{
  g_test_init (&argc, &argv, NULL);
  g_test_add_func ("/core/instrument/ranges", test_ranges);
  g_test_add_func ("/core/instrument/half-width", test_half_width);
  g_test_add_func ("/core/instrument/decimals", test_decimals);
  g_test_add_func ("/core/instrument/due", test_due);
  g_test_add_func ("/core/instrument/shared", test_shared);
  g_test_add_func ("/core/instrument/words", test_words);
  return g_test_run ();
}
