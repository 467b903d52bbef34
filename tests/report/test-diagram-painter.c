/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * The diagram painter on a view built by hand, where every pixel is known, and on
 * every view that is shipped.
 */
#include "report/diagram-painter.h"
#include "store/catalog.h"

#define SIDE 240

/* A square aircraft, nose up, of two zones side by side. */
static BondAirframe *
make_airframe (void)
{
  BondAirframe *airframe = bond_airframe_new ("square", 1, "Square");
  BondView *view = bond_view_new ("plan-upper", "Plan, upper", SIDE, SIDE);
  static const char *const rings[2] = { "60,60 120,60 120,180 60,180", "120,60 180,60 180,180 120,180" };
  static const char *const numbers[2] = { "511", "611" };
  g_autoptr (GError) error = NULL;
  int i;

  view->axis[0] = (BondAxis){ BOND_AXIS_BL, FALSE, 120, 1 };
  view->axis[1] = (BondAxis){ BOND_AXIS_STA, TRUE, 60, 1 };
  view->ruler_major = 50;
  view->ruler_minor = 10;
  view->outline = bond_path_parse ("M60,60 L180,60 L180,180 L60,180 Z", &error);
  g_assert_no_error (error);
  for (i = 0; i < 2; i++)
    {
      BondZone *zone = bond_zone_new (numbers[i], "half", BOND_ZONE_ZONE, i == 0 ? BOND_SIDE_LEFT : BOND_SIDE_RIGHT);
      BondZoneShape *shape = bond_view_add_shape (view, numbers[i]);
      BondLabel label = { .x = 90 + 60 * i, .y = 120, .size = 2.76 };

      zone->tint = i;
      g_assert_true (bond_airframe_add_zone (airframe, zone, &error));
      g_assert_true (bond_zone_shape_add_ring (shape, rings[i], &error));
      g_array_append_val (shape->labels, label);
    }
  g_assert_true (bond_airframe_add_view (airframe, view, &error));
  g_assert_no_error (error);
  return airframe;
}

static BondDiagramStyle
plain_style (void)
{
  return (BondDiagramStyle){ .inks = bond_inks_one (), .font = "DejaVu Sans", .scale = 1 };
}

static cairo_surface_t *
paint (const BondAirframe *airframe, const BondView *view, const BondDiagramStyle *style, int width, int height)
{
  cairo_surface_t *surface = cairo_image_surface_create (CAIRO_FORMAT_ARGB32, width, height);
  cairo_t *cr = cairo_create (surface);

  cairo_set_source_rgb (cr, 1, 1, 1);
  cairo_paint (cr);
  cairo_scale (cr, style->scale, style->scale);
  bond_diagram_paint (cr, airframe, view, style);
  g_assert_cmpint (cairo_status (cr), ==, CAIRO_STATUS_SUCCESS);
  cairo_destroy (cr);
  cairo_surface_flush (surface);
  return surface;
}

static int
green_at (cairo_surface_t *surface, int x, int y)
{
  return cairo_image_surface_get_data (surface)[y * cairo_image_surface_get_stride (surface) + 4 * x + 1];
}

static void
test_zones_have_two_tints (void)
{
  g_autoptr (BondAirframe) airframe = make_airframe ();
  BondDiagramStyle style = plain_style ();
  cairo_surface_t *surface = paint (airframe, bond_airframe_find_view (airframe, "plan-upper"), &style, SIDE, SIDE);

  g_assert_cmpint (green_at (surface, 75, 100), ==, 255);
  g_assert_cmpint (green_at (surface, 165, 100), ==, 0xf1);
  g_assert_cmpint (green_at (surface, 60, 100), <, 240);  /* the outline */
  g_assert_cmpint (green_at (surface, 20, 100), ==, 255); /* nothing outside */
  cairo_surface_destroy (surface);
}

static void
test_lit_zone (void)
{
  g_autoptr (BondAirframe) airframe = make_airframe ();
  BondDiagramStyle style = plain_style ();
  cairo_surface_t *surface;

  style.lit_zone = "511";
  surface = paint (airframe, bond_airframe_find_view (airframe, "plan-upper"), &style, SIDE, SIDE);
  g_assert_cmpint (green_at (surface, 75, 100), <, 230);
  g_assert_cmpint (green_at (surface, 165, 100), ==, 0xf1);
  cairo_surface_destroy (surface);
}

/* Ink in a strip: how the words are found without reading them. */
static int
ink_in (cairo_surface_t *surface, int x1, int y1, int x2, int y2)
{
  int x, y, n = 0;

  for (y = y1; y < y2; y++)
    for (x = x1; x < x2; x++)
      n += green_at (surface, x, y) < 215;
  return n;
}

static void
test_words (void)
{
  g_autoptr (BondAirframe) airframe = make_airframe ();
  const BondView *view = bond_airframe_find_view (airframe, "plan-upper");
  BondDiagramStyle style = plain_style ();
  cairo_surface_t *surface;

  style.label_size = 7;
  surface = paint (airframe, view, &style, SIDE, SIDE);
  g_assert_cmpint (ink_in (surface, 112, 38, 150, 57), >, 20); /* arrow and FWD above the nose */
  g_assert_cmpint (ink_in (surface, 75, 60, 110, 76), >, 20);  /* LEFT */
  g_assert_cmpint (ink_in (surface, 82, 112, 98, 128), >, 8);  /* 511 */
  cairo_surface_destroy (surface);

  style.no_sides = TRUE;
  surface = paint (airframe, view, &style, SIDE, SIDE);
  g_assert_cmpint (ink_in (surface, 112, 38, 150, 57), ==, 0);
  cairo_surface_destroy (surface);
}

static void
test_rulers (void)
{
  g_autoptr (BondAirframe) airframe = make_airframe ();
  BondDiagramStyle style = plain_style ();
  cairo_surface_t *surface;

  style.rulers = TRUE;
  style.no_sides = TRUE;
  surface = paint (airframe, bond_airframe_find_view (airframe, "plan-upper"), &style, SIDE, SIDE);
  g_assert_cmpint (ink_in (surface, 0, 60, 40, 180), >, 10);
  g_assert_cmpint (ink_in (surface, 60, 215, 180, 240), >, 10);
  cairo_surface_destroy (surface);
}

static gboolean
refuse_first_cb (const BondZoneShape *shape, double width, double height, double *x, double *y, gpointer data)
{
  int *asked = data;

  g_assert_cmpfloat (width, >, 0);
  g_assert_cmpfloat (height, >, 0);
  *y += 30;
  return (*asked)++ > 0;
}

static void
test_numbers_make_way (void)
{
  g_autoptr (BondAirframe) airframe = make_airframe ();
  BondDiagramStyle style = plain_style ();
  cairo_surface_t *surface;
  int asked = 0;

  style.label_size = 7;
  style.place_label = refuse_first_cb;
  style.place_data = &asked;
  surface = paint (airframe, bond_airframe_find_view (airframe, "plan-upper"), &style, SIDE, SIDE);
  g_assert_cmpint (asked, ==, 2);
  g_assert_cmpint (ink_in (surface, 82, 112, 98, 158), ==, 0);   /* 511 was left out */
  g_assert_cmpint (ink_in (surface, 142, 112, 158, 128), ==, 0); /* 611 moved … */
  g_assert_cmpint (ink_in (surface, 142, 142, 158, 158), >, 8);  /* … down */
  cairo_surface_destroy (surface);
}

static void
test_bounds (void)
{
  g_autoptr (BondAirframe) airframe = make_airframe ();
  double x, y, width, height;

  bond_view_bounds (bond_airframe_find_view (airframe, "plan-upper"), &x, &y, &width, &height);
  g_assert_cmpfloat (x, ==, 60);
  g_assert_cmpfloat (y, ==, 60);
  g_assert_cmpfloat (width, ==, 120);
  g_assert_cmpfloat (height, ==, 120);
}

/* A view that draws only "500" does not show the points of 541 one by one. */
static void
test_shows (void)
{
  g_autoptr (BondAirframe) airframe = make_airframe ();
  const BondView *view = bond_airframe_find_view (airframe, "plan-upper");
  g_autoptr (BondPointSpec) spec = bond_point_spec_new ("q-1", "511-J01", BOND_CLASS_STRUCTURE, "511");
  g_autoptr (BondPointSpec) other = bond_point_spec_new ("q-2", "511-J02", BOND_CLASS_STRUCTURE, "511");
  double x = 0, y = 0;

  g_assert_false (bond_diagram_shows (view, spec, &x, &y));
  bond_point_spec_add_placement (spec, "plan-upper", 70, 80, TRUE, NULL);
  g_assert_true (bond_diagram_shows (view, spec, &x, &y));
  g_assert_cmpfloat (x, ==, 70);
  g_assert_cmpfloat (y, ==, 80);
  bond_point_spec_add_placement (other, "plan-upper", 70, 80, FALSE, "500");
  g_assert_false (bond_diagram_shows (view, other, &x, &y));
}

/* Every shipped view comes out, in every look and at two zooms. */
static void
test_shipped (void)
{
  g_autoptr (GPtrArray) problems = g_ptr_array_new_with_free_func (g_free);
  g_autoptr (BondCatalog) catalog = bond_catalog_new (NULL, problems);
  g_autoptr (GPtrArray) airframes = bond_catalog_list (catalog, BOND_ADOPT_AIRFRAME);
  const BondInks *looks[] = { bond_inks_light (), bond_inks_dark (), bond_inks_one () };
  guint i, j;

  g_assert_cmpuint (airframes->len, >=, 4);
  for (i = 0; i < airframes->len; i++)
    {
      const BondAirframe *airframe = g_ptr_array_index (airframes, i);

      for (j = 0; j < airframe->views->len; j++)
        {
          const BondView *view = g_ptr_array_index (airframe->views, j);
          BondDiagramStyle style = { .inks = looks[j % 3],
                                     .font = "Sans",
                                     .scale = (j % 2 ? 300 : 900) / MAX (view->width, view->height),
                                     .label_size = 8,
                                     .rulers = TRUE };
          cairo_surface_t *surface = paint (airframe, view, &style, 900, 900);

          g_assert_cmpint (ink_in (surface, 0, 0, 900, 900), >, 300);
          cairo_surface_destroy (surface);
        }
    }
}

int
main (int argc, char **argv)
{
  g_test_init (&argc, &argv, NULL);
  g_test_add_func ("/report/diagram/tints", test_zones_have_two_tints);
  g_test_add_func ("/report/diagram/lit", test_lit_zone);
  g_test_add_func ("/report/diagram/words", test_words);
  g_test_add_func ("/report/diagram/rulers", test_rulers);
  g_test_add_func ("/report/diagram/numbers-make-way", test_numbers_make_way);
  g_test_add_func ("/report/diagram/bounds", test_bounds);
  g_test_add_func ("/report/diagram/shows", test_shows);
  g_test_add_func ("/report/diagram/shipped", test_shipped);
  return g_test_run ();
}
