/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * Parallel resistances: both ways, nonsense refused, and the note on a strap with a
 * broken leg.
 */
#include "core/parallel.h"
#include "hangar.h"

typedef struct
{
  BondOhm alone, beside, together; /* µΩ; together to the nearest */
  const char *source;
} Pair;

static const Pair pairs[] = {
  { 2000, 3000, 1200, "2 ‖ 3 = 1.200: arithmetic" },     { 5000, 3000, 1875, "5 ‖ 3 = 1.875: arithmetic" },
  { 10000, 3000, 2308, "10 ‖ 3 = 2.308: arithmetic" },   { 50000, 3000, 2830, "50 ‖ 3 = 2.8301887: arithmetic" },
  { 500000, 3000, 2982, "500 ‖ 3 = 2.982: arithmetic" },
};

static void
test_together (void)
{
  BondOhm nohm = 0;
  gsize i;

  for (i = 0; i < G_N_ELEMENTS (pairs); i++)
    {
      BondOhm back = 0;

      g_test_message ("%s", pairs[i].source);
      g_assert_true (bond_parallel_together (UOHM (pairs[i].alone), UOHM (pairs[i].beside), &nohm, NULL));
      g_assert_cmpint ((nohm + 500) / 1000, ==, pairs[i].together);
      g_assert_true (bond_parallel_alone (nohm, UOHM (pairs[i].beside), &back, NULL));
      /* Half a nano-ohm of the reading is worth (alone/reading)² of it. */
      g_assert_cmpint (ABS (back - UOHM (pairs[i].alone)), <=, bond_parallel_alone_u (nohm, back, 1));
    }
  g_assert_true (bond_parallel_together (G_MAXINT64, G_MAXINT64, &nohm, NULL));
  g_assert_cmpint (nohm, ==, G_MAXINT64 / 2 + 1); /* half to even */
}

/* The worked day's figure: 1.87 in place beside 3.00 mΩ is a jumper of 4.96 mΩ. */
static void
test_alone (void)
{
  BondOhm nohm = 0;

  g_assert_true (bond_parallel_alone (UOHM (1870), UOHM (3000), &nohm, NULL));
  g_assert_cmpint (nohm, ==, 4964602); /* 5.61/1.13 mΩ */
  /* U of 0.018 mΩ becomes (4.9646/1.87)² = 7.05 times as much. */
  g_assert_cmpint (bond_parallel_alone_u (UOHM (1870), nohm, 18000), ==, 126870);
  g_assert_cmpint (bond_parallel_alone_u (UOHM (1), UOHM (1000000), G_MAXINT64 / 2), ==, -1);
}

static void
test_refused (void)
{
  static const struct
  {
    BondOhm in_place, beside;
    BondParallelError code;
  } cases[] = {
    { 0, UOHM (3000), BOND_PARALLEL_ERROR_NOT_POSITIVE },
    { UOHM (1870), 0, BOND_PARALLEL_ERROR_NOT_POSITIVE },
    { UOHM (-1870), UOHM (3000), BOND_PARALLEL_ERROR_NOT_POSITIVE },
    { UOHM (1870), G_MININT64, BOND_PARALLEL_ERROR_NOT_POSITIVE },
    { UOHM (3000), UOHM (3000), BOND_PARALLEL_ERROR_NOT_ABOVE },
    { UOHM (3001), UOHM (3000), BOND_PARALLEL_ERROR_NOT_ABOVE },
    { G_MAXINT64 - 1, G_MAXINT64, BOND_PARALLEL_ERROR_TOO_LARGE },
  };
  gsize i;

  for (i = 0; i < G_N_ELEMENTS (cases); i++)
    {
      g_autoptr (GError) error = NULL;
      BondOhm nohm = 7;

      g_assert_false (bond_parallel_alone (cases[i].in_place, cases[i].beside, &nohm, &error));
      g_assert_error (error, BOND_PARALLEL_ERROR, (int)cases[i].code);
      g_assert_cmpuint (strlen (error->message), >, 20);
      g_assert_cmpint (nohm, ==, 7);
    }
  {
    g_autoptr (GError) error = NULL;
    BondOhm nohm = 7;

    g_assert_false (bond_parallel_together (UOHM (1), UOHM (-1), &nohm, &error));
    g_assert_error (error, BOND_PARALLEL_ERROR, BOND_PARALLEL_ERROR_NOT_POSITIVE);
  }
}

static char *
note_of (Hangar *h, const char *number, int legs)
{
  return bond_strap_note (hangar_result (h, number), legs, BOND_UNIT_MILLIOHM, 2, '.');
}

static void
test_strap_note (void)
{
  g_autoptr (Hangar) h = hangar_new (BOND_RULE_SIMPLE);
  g_autofree char *two = NULL;
  g_autofree char *three = NULL;

  hangar_point (h, "713-J02", "J1");
  g_assert_null (note_of (h, "713-J02", 2)); /* nothing read */
  hangar_read (h, "713-J02", "2.00 2.01");
  g_assert_null (note_of (h, "713-J02", 2)); /* nothing seen */
  hangar_visual (h, "713-J02", BOND_VISUAL_LEG_BROKEN, TRUE);
  two = note_of (h, "713-J02", 2);
  g_assert_nonnull (strstr (two, "2.005\u00a0mΩ alone reads the same"));
  g_assert_nonnull (strstr (two, "2 good legs would read 1.0025\u00a0mΩ"));
  three = note_of (h, "713-J02", 3);
  g_assert_nonnull (strstr (three, "3 good legs would read 0.67\u00a0mΩ"));

  hangar_point (h, "713-J04", "J1");
  hangar_read (h, "713-J04", ">30");
  hangar_visual (h, "713-J04", BOND_VISUAL_LEG_BROKEN, TRUE);
  g_assert_null (note_of (h, "713-J04", 2)); /* no figure to speak of */
}

int
main (int argc, char *argv[])
{
  g_test_init (&argc, &argv, NULL);
  g_test_add_func ("/core/parallel/together", test_together);
  g_test_add_func ("/core/parallel/alone", test_alone);
  g_test_add_func ("/core/parallel/refused", test_refused);
  g_test_add_func ("/core/parallel/strap-note", test_strap_note);
  return g_test_run ();
}
