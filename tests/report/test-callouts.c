/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * Call-outs: when a placing is given, no two leaders cross, none runs through the
 * words of another and no two words share a height.
 */
#include "report/report-private.h"

#define LEFT 0.0
#define RIGHT 400.0
#define MOST 14

static void
make_slots (BondSlots *slots, int n)
{
  int i;

  slots->n = n;
  for (i = 0; i < n; i++)
    slots->y[i] = 60 + i * 37.0;
}

static void
random_callouts (GRand *random, BondCallout *callouts, int n)
{
  int i;

  for (i = 0; i < n; i++)
    {
      callouts[i] = (BondCallout){ .x = g_rand_double_range (random, 30, 470),
                                   .y = g_rand_double_range (random, 60, 600),
                                   .width = 80 };
      callouts[i].right = callouts[i].x > 250;
    }
}

static void
check (const BondCallout *callouts, int n)
{
  int i, j;

  for (i = 0; i < n; i++)
    for (j = i + 1; j < n; j++)
      {
        g_assert_false (bond_callouts_cross (&callouts[i], &callouts[j], LEFT, RIGHT));
        g_assert_true (callouts[i].right != callouts[j].right || callouts[i].label_y != callouts[j].label_y);
      }
}

static void
test_random (void)
{
  g_autoptr (GRand) random = g_rand_new_with_seed (20261124);
  BondSlots slots;
  int round, placed = 0;

  make_slots (&slots, 15);
  for (round = 0; round < 500; round++)
    {
      BondCallout callouts[MOST];
      int n = g_rand_int_range (random, 1, 9);

      random_callouts (random, callouts, n);
      if (!bond_callouts_place (callouts, n, LEFT, RIGHT, &slots, &slots))
        continue;
      placed++;
      check (callouts, n);
    }
  g_test_message ("%d of 500 placed", placed);
  g_assert_cmpint (placed, >, 400);
}

static void
test_too_few_slots (void)
{
  BondCallout callouts[3] = { { .x = 40, .y = 100 }, { .x = 60, .y = 200 }, { .x = 80, .y = 300 } };
  BondSlots slots;

  make_slots (&slots, 2);
  g_assert_false (bond_callouts_place (callouts, 3, LEFT, RIGHT, &slots, &slots));
}

/* One call-out gets the slot nearest to its mark. */
static void
test_nearest (void)
{
  BondCallout callout = { .x = 200, .y = 60 + 37 * 4 + 10 };
  BondSlots slots;

  make_slots (&slots, 12);
  g_assert_true (bond_callouts_place (&callout, 1, LEFT, RIGHT, &slots, &slots));
  g_assert_cmpfloat (callout.label_y, ==, 60 + 37 * 4);
}

static void
test_crossing_is_seen (void)
{
  BondCallout a = { .x = 100, .y = 300, .label_y = 100, .width = 50 };
  BondCallout b = { .x = 200, .y = 100, .label_y = 200, .width = 50 };

  /* The level part of b runs at 200 from the left side to x = 200, a's upright at x = 100 from 100 to 300. */
  g_assert_true (bond_callouts_cross (&a, &b, LEFT, RIGHT));
  b.label_y = 60;
  g_assert_false (bond_callouts_cross (&a, &b, LEFT, RIGHT));
}

int
main (int argc, char **argv)
{
  g_test_init (&argc, &argv, NULL);
  g_test_add_func ("/report/callouts/random", test_random);
  g_test_add_func ("/report/callouts/too-few-slots", test_too_few_slots);
  g_test_add_func ("/report/callouts/nearest", test_nearest);
  g_test_add_func ("/report/callouts/crossing", test_crossing_is_seen);
  return g_test_run ();
}
