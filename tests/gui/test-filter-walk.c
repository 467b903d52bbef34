/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * With a filter on, the walk keeps to the points it lets through, and says what it
 * left out; a jump goes anywhere.
 */
#include "gui/pages/points-model.h"
#include "gui/walk.h"
#include "plane.h"

#include <string.h>

typedef struct
{
  BondSurvey *survey;
  BondWalk *walk;
  guint freed;
} Fixture;

static void
set_up (Fixture *fixture, gconstpointer data)
{
  fixture->survey = plane_survey_new ("generic-jet-transport");
  fixture->walk = bond_walk_new (fixture->survey);
}

static void
tear_down (Fixture *fixture, gconstpointer data)
{
  g_clear_object (&fixture->walk);
  g_clear_object (&fixture->survey);
}

static BondPoint *
nth (Fixture *fixture, guint i)
{
  g_autoptr (BondPoint) point = g_list_model_get_item (G_LIST_MODEL (fixture->survey), i);

  return point;
}

static guint
at (Fixture *fixture)
{
  return bond_survey_position (fixture->survey, bond_walk_get_point (fixture->walk));
}

static gboolean
every_fifth (BondPoint *point, gpointer data)
{
  return bond_survey_position (((Fixture *)data)->survey, point) % 5 == 0;
}

static void
freed_cb (gpointer data)
{
  ((Fixture *)data)->freed++;
}

static void
test_steps (Fixture *fixture, gconstpointer data)
{
  bond_walk_go (fixture->walk, nth (fixture, 5), NULL);
  bond_walk_set_filter (fixture->walk, every_fifth, fixture, freed_cb);
  bond_walk_step (fixture->walk, 1);
  g_assert_cmpuint (at (fixture), ==, 10);
  bond_walk_step (fixture->walk, -1);
  bond_walk_step (fixture->walk, -1);
  g_assert_cmpuint (at (fixture), ==, 0);
  bond_walk_step (fixture->walk, -1);
  g_assert_cmpuint (at (fixture), ==, 0);               /* the first one shown: no wrapping */
  bond_walk_go (fixture->walk, nth (fixture, 7), NULL); /* a hidden one is left towards the next shown */
  bond_walk_step (fixture->walk, 1);
  g_assert_cmpuint (at (fixture), ==, 10);
  bond_walk_set_filter (fixture->walk, NULL, NULL, NULL);
  g_assert_cmpuint (fixture->freed, ==, 1);
  bond_walk_step (fixture->walk, 1);
  g_assert_cmpuint (at (fixture), ==, 11);
}

static const char *
zone_of (BondPoint *point)
{
  return bond_point_get_spec (point)->zone;
}

static void
test_zones (Fixture *fixture, gconstpointer data)
{
  const char *zone;
  guint before;

  bond_walk_go (fixture->walk, nth (fixture, 0), NULL);
  bond_walk_set_filter (fixture->walk, every_fifth, fixture, NULL);
  zone = zone_of (nth (fixture, 0));
  bond_walk_step_zone (fixture->walk, 1);
  before = at (fixture);
  g_assert_cmpuint (before % 5, ==, 0);
  g_assert_cmpstr (zone_of (nth (fixture, before)), !=, zone);
  for (guint i = 1; i < before; i++) /* nothing shown of another zone was passed over */
    g_assert_true (i % 5 != 0 || strcmp (zone_of (nth (fixture, i)), zone) == 0);
  bond_walk_step_zone (fixture->walk, -1);
  g_assert_cmpuint (at (fixture), ==, 0); /* back on the first shown point of the zone before */
}

static void
test_next_open (Fixture *fixture, gconstpointer data)
{
  g_autoptr (GPtrArray) upcoming = NULL;
  guint n = g_list_model_get_n_items (G_LIST_MODEL (fixture->survey));
  guint shown = (n + 4) / 5;

  bond_walk_go (fixture->walk, nth (fixture, 0), NULL);
  g_assert_cmpuint (bond_walk_n_hidden_open (fixture->walk), ==, 0); /* no filter hides nothing */
  bond_walk_set_filter (fixture->walk, every_fifth, fixture, NULL);
  g_assert_cmpuint (bond_walk_n_hidden_open (fixture->walk), ==, n - shown);
  upcoming = bond_walk_upcoming (fixture->walk, 4);
  g_assert_cmpuint (upcoming->len, ==, 4);
  for (guint i = 0; i < 4; i++)
    g_assert_true (g_ptr_array_index (upcoming, i) == nth (fixture, 5 * (i + 1)));
  for (guint i = 1; i < shown; i++)
    {
      g_assert_true (bond_walk_next_open (fixture->walk));
      g_assert_cmpuint (at (fixture), ==, 5 * i);
    }
  g_assert_true (bond_walk_next_open (fixture->walk)); /* wraps once */
  g_assert_cmpuint (at (fixture), ==, 0);
  bond_walk_go (fixture->walk, nth (fixture, 3), NULL);
  g_assert_true (bond_walk_first_open (fixture->walk));
  g_assert_cmpuint (at (fixture), ==, 0);
}

static gboolean
nothing (BondPoint *point, gpointer data)
{
  return FALSE;
}

static void
test_nothing_shown (Fixture *fixture, gconstpointer data)
{
  g_autoptr (GPtrArray) upcoming = NULL;

  bond_walk_go (fixture->walk, nth (fixture, 2), NULL);
  bond_walk_set_filter (fixture->walk, nothing, NULL, NULL);
  g_assert_false (bond_walk_next_open (fixture->walk));
  g_assert_false (bond_walk_first_open (fixture->walk));
  bond_walk_step (fixture->walk, 1);
  bond_walk_step_zone (fixture->walk, 1);
  g_assert_cmpuint (at (fixture), ==, 2);
  upcoming = bond_walk_upcoming (fixture->walk, 4);
  g_assert_cmpuint (upcoming->len, ==, 0);
  g_assert_true (bond_walk_jump (fixture->walk, bond_point_get_number (nth (fixture, 9))));
  g_assert_cmpuint (at (fixture), ==, 9);
}

int
main (int argc, char **argv)
{
  g_test_init (&argc, &argv, NULL);
#define ADD(name, test) g_test_add ("/gui/filter-walk/" name, Fixture, NULL, set_up, test, tear_down)
  ADD ("steps", test_steps);
  ADD ("zones", test_zones);
  ADD ("next-open", test_next_open);
  ADD ("nothing-shown", test_nothing_shown);
  return g_test_run ();
}
