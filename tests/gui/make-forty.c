/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * Writes the survey that xdotool-forty.sh walks through: 40 points in one zone, every fourth of a row
 * that asks a pair.  Invented.
 */
#include "window-fixture.h"

#define N_POINTS 40

int
main (int argc, char **argv)
{
  WindowPoint points[N_POINTS];
  WindowPoints all = { points, N_POINTS };

  g_assert_cmpint (argc, ==, 2);
  for (int i = 0; i < N_POINTS; i++)
    {
      points[i].number = g_strdup_printf ("521-J%02d", i + 1);
      points[i].limit = i % 4 == 3 ? "example/J-5L" : "example/J2";
      points[i].condition = BOND_CONDITION_UNDISTURBED;
    }
  window_make_survey_of (argv[1], &all);
  for (int i = 0; i < N_POINTS; i++)
    g_free ((char *)points[i].number);
  return 0;
}
