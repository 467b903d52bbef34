/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * Plain numbers and paths: what is read, what is refused, and that numbers are
 * written as short as they may be, with a point in any locale.
 */
#include "core/airframe.h"
#include "core/number.h"

#include <math.h>

static void
test_number_table (void)
{
  static const struct
  {
    const char *text;
    gboolean fine;
    double value;
  } table[] = {
    { "0", TRUE, 0 },
    { "-104.5", TRUE, -104.5 },
    { "007", TRUE, 7 },
    { "0.1", TRUE, 0.1 },
    { "12345678901234567890123456789012", TRUE, 12345678901234567890123456789012.0 }, /* 32 characters */
    { "123456789012345678901234567890123", FALSE, 0 },
    { "", FALSE, 0 },
    { "-", FALSE, 0 },
    { "+1", FALSE, 0 },
    { ".5", FALSE, 0 },
    { "5.", FALSE, 0 },
    { "1,5", FALSE, 0 },
    { "1.5.2", FALSE, 0 },
    { " 1", FALSE, 0 },
    { "1 ", FALSE, 0 },
    { "1e3", FALSE, 0 },
    { "1E3", FALSE, 0 },
    { "0x10", FALSE, 0 },
    { "nan", FALSE, 0 },
    { "inf", FALSE, 0 },
    { "-inf", FALSE, 0 },
    { "\xd9\xa1", FALSE, 0 }, /* ARABIC-INDIC DIGIT ONE */
    { "\xe2\x88\x92"
      "1",
      FALSE, 0 }, /* MINUS SIGN U+2212 */
  };
  gsize i;

  for (i = 0; i < G_N_ELEMENTS (table); i++)
    {
      double value = 77;

      g_test_message ("“%s”", table[i].text);
      g_assert_cmpint (bond_number_parse (table[i].text, &value), ==, table[i].fine);
      g_assert_cmpfloat (value, ==, table[i].fine ? table[i].value : 77);
    }
}

static void
test_number_scan_stops (void)
{
  const char *text = "10.5,-2 rest", *at = text;
  double value;

  g_assert_true (bond_number_scan (&at, &value));
  g_assert_cmpfloat (value, ==, 10.5);
  g_assert_cmpint (at - text, ==, 4);
  g_assert_false (bond_number_scan (&at, &value)); /* the comma */
  g_assert_cmpint (at - text, ==, 4);
  at = "1e3";
  g_assert_false (bond_number_scan (&at, &value)); /* not 1, with something behind it */
  at = "1.5.2";
  g_assert_false (bond_number_scan (&at, &value));
}

static void
test_number_text (void)
{
  static const struct
  {
    double value;
    const char *text;
  } table[] = {
    { 0, "0" },           { -0.0, "0" },    { 800, "800" },
    { -104.5, "-104.5" }, { 0.1, "0.1" },   { 1.0 / 3, "0.3333333333333333" },
    { 1e6, "1000000" },   { 0.05, "0.05" },
  };
  char text[BOND_NUMBER_SIZE];
  gsize i;

  for (i = 0; i < G_N_ELEMENTS (table); i++)
    g_assert_cmpstr (bond_number_to_text (table[i].value, text), ==, table[i].text);
}

static void
test_number_there_and_back (void)
{
  int i;

  for (i = 0; i < 20000; i++)
    {
      double value = g_test_rand_double_range (-2000, 2000), back;
      char text[BOND_NUMBER_SIZE];

      if (i % 2 == 0)
        value = round (value * 100) / 100;
      g_assert_true (bond_number_parse (bond_number_to_text (value, text), &back));
      g_assert_cmpfloat (back, ==, value);
      g_assert_cmpint (strlen (text), <=, i % 2 == 0 ? 8 : 28);
    }
}

static void
test_path_reads (void)
{
  g_autoptr (GError) error = NULL;
  g_autoptr (BondPath) path
      = bond_path_parse ("M235 305.5C214.69 304.17,194.35 303.5 174 303.5L1-2 Z M0,0 L 1 1", &error);
  static const char ops[] = "MCLZML";
  gsize i;

  g_assert_no_error (error);
  g_assert_cmpint (path->ops->len, ==, strlen (ops));
  for (i = 0; i < path->ops->len; i++)
    g_assert_cmpint (g_array_index (path->ops, BondPathOp, i).op, ==, ops[i]);
  g_assert_cmpfloat (g_array_index (path->ops, BondPathOp, 0).p[0].y, ==, 305.5);
  g_assert_cmpfloat (g_array_index (path->ops, BondPathOp, 1).p[1].x, ==, 194.35);
  g_assert_cmpfloat (g_array_index (path->ops, BondPathOp, 1).p[2].y, ==, 303.5);
  g_assert_cmpfloat (g_array_index (path->ops, BondPathOp, 2).p[0].y, ==, -2);
  g_assert_true (g_str_has_prefix (path->text, "M235"));
}

static void
test_path_refuses (void)
{
  static const char *const bad[] = {
    "L1 1",       /* no M before */
    "M1 1Z L2 2", /* the pen is up after Z */
    "M1 1 2 2",   /* a letter stands for one */
    "m1 1",       /* relative */
    "M1 1 H5",    /* not one of the four */
    "M1",         "M1 1 C1 1 2 2", "M1 1 L1e3 1", "M1 1 Lnan 1",         "M1 1 L1,,2",
    "M1 1 L1 2,", "M 1;1",         "Z",           "M1 1 A5 5 0 0 1 9 9",
  };
  gsize i;

  for (i = 0; i < G_N_ELEMENTS (bad); i++)
    {
      g_autoptr (GError) error = NULL;
      g_autoptr (BondPath) path = bond_path_parse (bad[i], &error);

      g_test_message ("%s", bad[i]);
      g_assert_null (path);
      g_assert_error (error, BOND_AIRFRAME_ERROR, BOND_AIRFRAME_ERROR_SYNTAX);
    }
}

static void
test_path_empty (void)
{
  g_autoptr (BondPath) path = bond_path_parse ("  ", NULL);

  g_assert_nonnull (path);
  g_assert_cmpint (path->ops->len, ==, 0);
}

int
main (int argc, char **argv)
{
  g_test_init (&argc, &argv, NULL);
  g_test_add_func ("/path/number/table", test_number_table);
  g_test_add_func ("/path/number/scan-stops", test_number_scan_stops);
  g_test_add_func ("/path/number/text", test_number_text);
  g_test_add_func ("/path/number/there-and-back", test_number_there_and_back);
  g_test_add_func ("/path/reads", test_path_reads);
  g_test_add_func ("/path/refuses", test_path_refuses);
  g_test_add_func ("/path/empty", test_path_empty);
  return g_test_run ();
}
