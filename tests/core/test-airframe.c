/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * An airframe by hand: a box in a plan from above, a plan from below and a side
 * view, small enough to check by eye.
 */
#include "core/airframe.h"

#include <math.h>

/* Two squares side by side, a ring with a bay, and a free part. */
static const struct
{
  const char *zone, *points;
} drawn[] = {
  { "511", "0,0 10,0 10,10 0,10" },
  { "512", "10,0 20,0 20,10 10,10" },
  { "512", "30,0 35,0 35,5" },
  { "521", "0,20 20,20 20,40 15,40 15,25 5,25 5,40 0,40" },
};

static BondZone *
zone_new (const char *number, BondZoneLevel level, const char *parent)
{
  BondZone *zone = bond_zone_new (number, number, level, BOND_SIDE_LEFT);

  zone->parent = g_strdup (parent);
  return zone;
}

static void
add_zones (BondAirframe *airframe)
{
  static const struct
  {
    const char *number, *parent;
    BondZoneLevel level;
  } zones[] = {
    { "500", NULL, BOND_ZONE_MAJOR },    { "510", "500", BOND_ZONE_SUBZONE }, { "511", "510", BOND_ZONE_ZONE },
    { "512", "510", BOND_ZONE_ZONE },    { "520", "500", BOND_ZONE_SUBZONE }, { "521", "520", BOND_ZONE_ZONE },
    { "530", "500", BOND_ZONE_SUBZONE },
  };
  gsize i;

  for (i = 0; i < G_N_ELEMENTS (zones); i++)
    g_assert_true (
        bond_airframe_add_zone (airframe, zone_new (zones[i].number, zones[i].level, zones[i].parent), NULL));
}

/* From above, nose up, BL 0 at x 50; from below the same with left and right changed over. */
static BondView *
plan_new (const char *id, int sign)
{
  BondView *view = bond_view_new (id, id, 100, 100);
  BondZoneShape *shape = NULL;
  gsize i;

  view->toward = g_strdup (sign > 0 ? "+WL" : "-WL");
  view->axis[0] = (BondAxis){ BOND_AXIS_BL, FALSE, 50, sign };
  view->axis[1] = (BondAxis){ BOND_AXIS_STA, TRUE, -10, 1 };
  for (i = 0; i < G_N_ELEMENTS (drawn); i++)
    {
      if (i == 0 || strcmp (drawn[i].zone, drawn[i - 1].zone) != 0)
        shape = bond_view_add_shape (view, drawn[i].zone);
      g_assert_true (bond_zone_shape_add_ring (shape, drawn[i].points, NULL));
    }
  return view;
}

static BondAirframe *
airframe_new (void)
{
  BondAirframe *airframe = bond_airframe_new ("box", 1, "Box");

  add_zones (airframe);
  g_assert_true (bond_airframe_add_view (airframe, plan_new ("plan-upper", 1), NULL));
  g_assert_true (bond_airframe_add_view (airframe, plan_new ("plan-lower", -1), NULL));
  return airframe;
}

static BondPointSpec *
point_new (const char *id, const char *number, const char *zone)
{
  BondPointSpec *spec = bond_point_spec_new (id, number, BOND_CLASS_STRUCTURE, zone);

  g_free (spec->from);
  g_free (spec->to);
  spec->from = g_strdup ("a");
  spec->to = g_strdup ("b");
  return spec;
}

static void
test_hit (void)
{
  static const struct
  {
    double x, y;
    const char *zone;
  } table[] = {
    { 5, 5, "511" },     { 15, 5, "512" },    { 34, 1, "512" },
    { 31, 4, NULL },     { 10, 5, "511" }, /* shared edge: first */
    { 0, 0, "511" },     { 10, 10, "511" },   { 20, 10, "512" },
    { 20.001, 5, NULL }, { -0.001, 5, NULL }, { 10, 30, NULL }, /* in the bay of the U */
    { 10, 22, "521" },   { 2, 39, "521" },    { 18, 39, "521" },
    { 10, 25, "521" },   { 5, 25, "521" },    { 10, 15, NULL },
    { 1e9, 1e9, NULL },  { NAN, 5, NULL },    { 5, INFINITY, NULL },
  };
  g_autoptr (BondAirframe) airframe = airframe_new ();
  const BondView *view = bond_airframe_find_view (airframe, "plan-upper");
  gsize i;

  for (i = 0; i < G_N_ELEMENTS (table); i++)
    {
      const BondZoneShape *hit = bond_view_hit (view, table[i].x, table[i].y);

      g_test_message ("%g,%g", table[i].x, table[i].y);
      g_assert_cmpstr (hit != NULL ? hit->zone : NULL, ==, table[i].zone);
    }
}

/* Along a slanted shared side, where no place lies on it exactly, each belongs to one of the two and never to none. */
static void
test_no_place_between (void)
{
  g_autoptr (BondView) view = bond_view_new ("v", "v", 100, 100);
  const BondZoneShape *left, *right;
  int i;

  g_assert_true (bond_zone_shape_add_ring (bond_view_add_shape (view, "1"), "0,0 10.1,0 33.3,97.7 0,97.7", NULL));
  g_assert_true (bond_zone_shape_add_ring (bond_view_add_shape (view, "2"), "10.1,0 90,0 90,97.7 33.3,97.7", NULL));
  left = g_ptr_array_index (view->shapes, 0);
  right = g_ptr_array_index (view->shapes, 1);
  for (i = 1; i < 20000; i++)
    {
      double y = 97.7 * i / 20000, x = 10.1 + (33.3 - 10.1) * y / 97.7;

      g_assert_nonnull (bond_view_hit (view, x, y));
      g_assert_nonnull (bond_view_hit (view, nextafter (x, 0), y));
      g_assert_true (bond_zone_shape_contains (left, x - 1e-9, y) && !bond_zone_shape_contains (left, x + 1e-9, y));
      g_assert_true (!bond_zone_shape_contains (right, x - 1e-9, y) && bond_zone_shape_contains (right, x + 1e-9, y));
    }
}

static void
test_axes_both_ways (void)
{
  static const struct
  {
    const char *view;
    double x, y, bl;
  } table[] = { { "plan-upper", 20, 30, -30 }, { "plan-lower", 20, 30, 30 }, { "plan-upper", 50, -10, 0 } };
  g_autoptr (BondAirframe) airframe = airframe_new ();
  gsize i;

  for (i = 0; i < G_N_ELEMENTS (table); i++)
    {
      const BondView *view = bond_airframe_find_view (airframe, table[i].view);
      BondCoordinate sta, bl, wl = { TRUE, 99 };
      double x, y;

      bond_view_coordinates (view, table[i].x, table[i].y, &sta, &bl, &wl);
      g_assert_true (sta.known && bl.known);
      g_assert_cmpfloat (sta.value, ==, table[i].y + 10);
      g_assert_cmpfloat (bl.value, ==, table[i].bl);
      g_assert_false (wl.known); /* not known, and what stood there before is gone */
      g_assert_true (bond_view_place (view, &sta, &bl, &wl, &x, &y));
      g_assert_cmpfloat (x, ==, table[i].x);
      g_assert_cmpfloat (y, ==, table[i].y);
    }
}

static void
test_unknown_is_not_zero (void)
{
  g_autoptr (BondAirframe) airframe = airframe_new ();
  const BondView *view = bond_airframe_find_view (airframe, "plan-upper");
  BondCoordinate known = { TRUE, 5 }, unknown = { FALSE, 5 };
  double x = -1, y = -1;

  g_assert_true (bond_view_place (view, &known, &known, &unknown, &x, &y));
  g_assert_false (bond_view_place (view, &unknown, &known, &known, &x, &y));
  g_assert_false (bond_view_place (view, &known, &unknown, &known, &x, &y));
}

static void
test_family (void)
{
  g_autoptr (BondAirframe) airframe = airframe_new ();
  g_autoptr (GPtrArray) all = bond_airframe_children (airframe, "500");
  g_autoptr (GPtrArray) some = bond_airframe_children (airframe, "510");
  g_autoptr (GPtrArray) none = bond_airframe_children (airframe, "511");

  g_assert_cmpint (all->len, ==, 4); /* 511 512 521, and 530, which has nothing below it */
  g_assert_cmpstr (((BondZone *)g_ptr_array_index (all, 3))->number, ==, "530");
  g_assert_cmpint (some->len, ==, 2);
  g_assert_cmpint (none->len, ==, 0);
  g_assert_true (bond_airframe_is_within (airframe, "511", "500"));
  g_assert_true (bond_airframe_is_within (airframe, "511", "511"));
  g_assert_false (bond_airframe_is_within (airframe, "510", "511"));
  g_assert_false (bond_airframe_is_within (airframe, "511", "520"));
  g_assert_false (bond_airframe_is_within (airframe, "999", "500"));
}

static void
test_circle_ends (void)
{
  g_autoptr (BondAirframe) airframe = bond_airframe_new ("ring", 1, "Ring");
  g_autoptr (GError) error = NULL;
  g_autoptr (GPtrArray) children = NULL;

  g_assert_true (bond_airframe_add_zone (airframe, zone_new ("1", BOND_ZONE_ZONE, "2"), NULL));
  g_assert_true (bond_airframe_add_zone (airframe, zone_new ("2", BOND_ZONE_ZONE, "1"), NULL));
  g_assert_false (bond_airframe_is_within (airframe, "1", "3"));
  children = bond_airframe_children (airframe, "1");
  g_assert_cmpint (children->len, ==, 0);
  g_assert_false (bond_airframe_check_zone (airframe, g_ptr_array_index (airframe->zones, 0), &error));
  g_assert_error (error, BOND_AIRFRAME_ERROR, BOND_AIRFRAME_ERROR_UNSOUND);
}

static void
test_zone_links (void)
{
  static const struct
  {
    const char *parent, *within, *mirror;
    int code; /* 0: fine */
  } table[] = {
    { "500", NULL, NULL, 0 },
    { "500", "511", NULL, 0 },
    { "9", NULL, NULL, BOND_AIRFRAME_ERROR_MISSING },
    { NULL, "9", NULL, BOND_AIRFRAME_ERROR_MISSING },
    { NULL, NULL, "9", BOND_AIRFRAME_ERROR_MISSING },
    { "561", NULL, NULL, BOND_AIRFRAME_ERROR_UNSOUND },  /* itself */
    { "500", NULL, "511", BOND_AIRFRAME_ERROR_UNSOUND }, /* 511 does not name it */
  };
  gsize i;

  for (i = 0; i < G_N_ELEMENTS (table); i++)
    {
      g_autoptr (BondAirframe) airframe = airframe_new ();
      g_autoptr (GError) error = NULL;
      BondZone *zone = zone_new ("561", BOND_ZONE_ZONE, table[i].parent);

      zone->within = g_strdup (table[i].within);
      zone->mirror = g_strdup (table[i].mirror);
      g_assert_true (bond_airframe_add_zone (airframe, zone, NULL));
      g_assert_cmpint (bond_airframe_check_zone (airframe, zone, &error), ==, table[i].code == 0);
      if (table[i].code != 0)
        g_assert_error (error, BOND_AIRFRAME_ERROR, table[i].code);
    }
}

static void
test_next_number (void)
{
  g_autoptr (GHashTable) used = g_hash_table_new (g_str_hash, g_str_equal);
  static const struct
  {
    const char *add, *zone;
    BondClass klass;
    const char *next;
  } table[] = {
    { NULL, "541", BOND_CLASS_STRUCTURE, "541-J01" },
    { "541-J01", "541", BOND_CLASS_STRUCTURE, "541-J02" },
    { "541-J04", "541", BOND_CLASS_STRUCTURE, "541-J05" }, /* a gap stays one: its number may be on paper */
    { "541-F01", "541", BOND_CLASS_FLUID_LINE, "541-T01" },
    { "541-Jx", "541", BOND_CLASS_STRUCTURE, "541-J05" },
    { "1541-J77", "541", BOND_CLASS_STRUCTURE, "541-J05" },
    { "541-J99", "541", BOND_CLASS_STRUCTURE, "541-J100" },
    { "541-E007", "541", BOND_CLASS_EQUIPMENT, "541-E08" },
    { "541-F-9", "541", BOND_CLASS_FASTENER, "541-F02" },
    { "541-F99999999999999999999", "541", BOND_CLASS_FASTENER, "541-F02" },
  };
  gsize i;

  for (i = 0; i < G_N_ELEMENTS (table); i++)
    {
      g_autofree char *next = NULL;

      if (table[i].add != NULL)
        g_hash_table_add (used, (char *)table[i].add);
      next = bond_airframe_next_number (table[i].zone, table[i].klass, used);
      g_assert_cmpstr (next, ==, table[i].next);
      g_assert_false (g_hash_table_contains (used, next));
    }
}

static void
test_rings (void)
{
  static const struct
  {
    const char *points;
    gboolean fine;
  } table[] = {
    { "0,0 10,0 5,8", TRUE },
    { "0,0 10,0 10,10 0,10", TRUE },
    { "0,0 0,10 10,10 10,0", TRUE },      /* either turn */
    { "0,0 10,10 10,0 0,10", FALSE },     /* bow tie */
    { "0,0 10,0 10,0 0,10", FALSE },      /* a corner twice */
    { "0,0 10,0 10,10 0,10 0,0", FALSE }, /* closed by hand */
    { "5,0 0,0 10,0", FALSE },            /* doubles back at its second corner */
    { "0,0 10,0 5,0", FALSE },            /* doubles back */
    { "0,0 10,0 10,10 5,0 0,10", FALSE }, /* touches a side */
    { "0,0 10,0", FALSE },
    { "", FALSE },
    { "0,0 10,0 5,x", FALSE },
    { "0,0 10 0 5,8", FALSE },
    { "0,0 10,0 5,nan", FALSE },
    { "0,0 10,0 5,8;", FALSE },
    { "0,010,0 5,8", FALSE },
  };
  g_autoptr (BondView) view = bond_view_new ("v", "v", 10, 10);
  BondZoneShape *shape = bond_view_add_shape (view, "1");
  gsize i;

  for (i = 0; i < G_N_ELEMENTS (table); i++)
    {
      g_autoptr (GError) error = NULL;

      g_test_message ("%s", table[i].points);
      g_assert_cmpint (bond_zone_shape_add_ring (shape, table[i].points, &error), ==, table[i].fine);
      g_assert_cmpint (error == NULL, ==, table[i].fine);
    }
  g_assert_cmpint (shape->rings->len, ==, 3);
}

static void
test_too_many_corners (void)
{
  g_autoptr (GString) points = g_string_new (NULL);
  g_autoptr (BondView) view = bond_view_new ("v", "v", 10, 10);
  g_autoptr (GError) error = NULL;
  int i;

  for (i = 0; i < 5000; i++)
    g_string_append_printf (points, "%d,0 ", i);
  g_assert_false (bond_zone_shape_add_ring (bond_view_add_shape (view, "1"), points->str, &error));
  g_assert_nonnull (strstr (error->message, "2000"));
}

static void
test_refused_views (void)
{
  static const struct
  {
    const char *id, *toward;
    double width;
    BondAxis a, b;
  } table[] = {
    { "plan-upper", NULL, 10, { BOND_AXIS_BL, FALSE, 0, 1 }, { BOND_AXIS_STA, TRUE, 0, 1 } }, /* twice */
    { "a", NULL, 0, { BOND_AXIS_BL, FALSE, 0, 1 }, { BOND_AXIS_STA, TRUE, 0, 1 } },
    { "b", NULL, NAN, { BOND_AXIS_BL, FALSE, 0, 1 }, { BOND_AXIS_STA, TRUE, 0, 1 } },
    { "c", NULL, 10, { BOND_AXIS_BL, FALSE, 0, 1 }, { BOND_AXIS_BL, TRUE, 0, 1 } },
    { "d", NULL, 10, { BOND_AXIS_BL, TRUE, 0, 1 }, { BOND_AXIS_STA, TRUE, 0, 1 } },
    { "e", NULL, 10, { BOND_AXIS_BL, FALSE, 0, 2 }, { BOND_AXIS_STA, TRUE, 0, 1 } },
    { "f", NULL, 10, { BOND_AXIS_BL, FALSE, INFINITY, 1 }, { BOND_AXIS_STA, TRUE, 0, 1 } },
    { "g", "+BL", 10, { BOND_AXIS_BL, FALSE, 0, 1 }, { BOND_AXIS_STA, TRUE, 0, 1 } },
    { "h", "WL", 10, { BOND_AXIS_BL, FALSE, 0, 1 }, { BOND_AXIS_STA, TRUE, 0, 1 } },
  };
  g_autoptr (BondAirframe) airframe = airframe_new ();
  gsize i;

  for (i = 0; i < G_N_ELEMENTS (table); i++)
    {
      g_autoptr (GError) error = NULL;
      BondView *view = bond_view_new (table[i].id, "t", table[i].width, 10);

      view->toward = g_strdup (table[i].toward);
      view->axis[0] = table[i].a;
      view->axis[1] = table[i].b;
      g_test_message ("%s", table[i].id);
      g_assert_false (bond_airframe_add_view (airframe, view, &error));
      g_assert_nonnull (error);
    }
  g_assert_cmpint (airframe->views->len, ==, 2);
}

static void
test_refused_shapes (void)
{
  static const char *const zones[][2] = { { "511", "999" }, { "511", "511" } };
  g_autoptr (BondAirframe) airframe = airframe_new ();
  gsize i;

  for (i = 0; i < G_N_ELEMENTS (zones); i++)
    {
      g_autoptr (GError) error = NULL;
      BondView *view = bond_view_new ("front", "t", 10, 10);

      bond_view_add_shape (view, zones[i][0]);
      bond_view_add_shape (view, zones[i][1]);
      g_assert_false (bond_airframe_add_view (airframe, view, &error));
      g_assert_nonnull (strstr (error->message, zones[i][1]));
    }
}

static void
test_points (void)
{
  static const struct
  {
    const char *id, *number, *zone, *view, *drawn;
    gboolean fine;
  } table[] = {
    { "q-1", "511-J01", "511", "plan-upper", NULL, TRUE },   { "q-2", "511-J02", "511", "plan-upper", "500", TRUE },
    { "q-1", "511-J03", "511", "plan-upper", NULL, FALSE },  /* id twice */
    { "q-4", "511-J02", "511", "plan-upper", NULL, FALSE },  /* number twice */
    { "q-5", "511J05", "511", "plan-upper", NULL, FALSE },   /* no hyphen */
    { "q-6", "999-J01", "999", "plan-upper", NULL, FALSE },  /* no such zone */
    { "q-7", "511-J07", "511", "nowhere", NULL, FALSE },     /* no such view */
    { "q-8", "511-J08", "511", "plan-upper", "520", FALSE }, /* drawn elsewhere */
    { "q-9", "511-J09", "511", "plan-upper", "999", FALSE },
  };
  g_autoptr (BondAirframe) airframe = airframe_new ();
  gsize i;

  for (i = 0; i < G_N_ELEMENTS (table); i++)
    {
      g_autoptr (GError) error = NULL;
      BondPointSpec *spec = point_new (table[i].id, table[i].number, table[i].zone);

      bond_point_spec_add_placement (spec, table[i].view, 1, 2, TRUE, table[i].drawn);
      g_test_message ("%s", table[i].id);
      g_assert_cmpint (bond_airframe_add_point (airframe, spec, &error), ==, table[i].fine);
      g_assert_cmpint (error == NULL, ==, table[i].fine);
    }
  g_assert_cmpint (airframe->points->len, ==, 2);
  g_assert_cmpstr (bond_airframe_find_point (airframe, "q-2")->number, ==, "511-J02");
  g_assert_null (bond_airframe_find_point (airframe, "q-4"));
}

static void
test_placed_twice (void)
{
  g_autoptr (BondAirframe) airframe = airframe_new ();
  g_autoptr (GError) error = NULL;
  BondPointSpec *spec = point_new ("q-1", "511-J01", "511");

  bond_point_spec_add_placement (spec, "plan-upper", 1, 2, TRUE, NULL);
  bond_point_spec_add_placement (spec, "plan-upper", 3, 4, FALSE, NULL);
  g_assert_false (bond_airframe_add_point (airframe, spec, &error));
  g_assert_error (error, BOND_AIRFRAME_ERROR, BOND_AIRFRAME_ERROR_DUPLICATE);
}

static void
test_coordinate_format (void)
{
  static const struct
  {
    BondAxisName axis;
    gboolean known;
    double value;
    const char *text;
  } table[] = {
    { BOND_AXIS_STA, TRUE, 801, "STA 801" }, { BOND_AXIS_STA, TRUE, 759.14, "STA 759,1" },
    { BOND_AXIS_BL, TRUE, -170, "L 170" },   { BOND_AXIS_BL, TRUE, 104.5, "R 104,5" },
    { BOND_AXIS_BL, TRUE, -0.04, "BL 0" },   { BOND_AXIS_WL, TRUE, -3, "WL −3" },
    { BOND_AXIS_WL, TRUE, 0, "WL 0" },       { BOND_AXIS_WL, TRUE, 9.96, "WL 10" },
    { BOND_AXIS_STA, FALSE, 801, NULL },
  };
  gsize i;

  for (i = 0; i < G_N_ELEMENTS (table); i++)
    {
      BondCoordinate coordinate = { table[i].known, table[i].value };
      g_autofree char *text = bond_coordinate_format (table[i].axis, &coordinate, ',');

      g_assert_cmpstr (text, ==, table[i].text);
    }
}

static void
test_main_views (void)
{
  g_autoptr (BondView) main_view = bond_view_new ("side-left", "t", 1, 1);
  g_autoptr (BondView) detail = bond_view_new ("nacelle-left", "t", 1, 1);

  g_assert_true (bond_view_is_main (main_view));
  g_assert_false (bond_view_is_main (detail));
}

int
main (int argc, char **argv)
{
  g_test_init (&argc, &argv, NULL);
  g_test_add_func ("/airframe/hit", test_hit);
  g_test_add_func ("/airframe/no-place-between", test_no_place_between);
  g_test_add_func ("/airframe/axes-both-ways", test_axes_both_ways);
  g_test_add_func ("/airframe/unknown-is-not-zero", test_unknown_is_not_zero);
  g_test_add_func ("/airframe/family", test_family);
  g_test_add_func ("/airframe/circle-ends", test_circle_ends);
  g_test_add_func ("/airframe/zone-links", test_zone_links);
  g_test_add_func ("/airframe/next-number", test_next_number);
  g_test_add_func ("/airframe/rings", test_rings);
  g_test_add_func ("/airframe/too-many-corners", test_too_many_corners);
  g_test_add_func ("/airframe/refused-views", test_refused_views);
  g_test_add_func ("/airframe/refused-shapes", test_refused_shapes);
  g_test_add_func ("/airframe/points", test_points);
  g_test_add_func ("/airframe/placed-twice", test_placed_twice);
  g_test_add_func ("/airframe/coordinate-format", test_coordinate_format);
  g_test_add_func ("/airframe/main-views", test_main_views);
  return g_test_run ();
}
