/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * The limit bar: ticks at the places the numbers say, arrows where they do not fit,
 * and the same in words.  Places are worked out here from the design: 0 to 1.4 times
 * the limit, two pixels clear at each side, the line 32 pixels down.
 */
#include "gui/style.h"
#include "gui/widgets/limit-bar.h"
#include "screen.h"

#define WIDTH 352
#define LINE 32

typedef struct
{
  BondLimitBar *bar;
  GtkWindow *window;
  const BondInks *inks;
} Bar;

static const BondBounds at_most_2m5 = { .upper = { BOND_RELATION_LE, 2500000, BOND_UNIT_MILLIOHM } };
static const BondBounds band
    = { .lower = { BOND_RELATION_GE, 100 * 1000 * BOND_NOHM_PER_OHM, BOND_UNIT_KILOOHM },
        .upper = { BOND_RELATION_LE, 100 * 1000 * 1000 * BOND_NOHM_PER_OHM, BOND_UNIT_MEGOHM } };

static void
set_up (Bar *bar, gconstpointer data)
{
  bar->bar = BOND_LIMIT_BAR (bond_limit_bar_new ());
  gtk_widget_set_valign (GTK_WIDGET (bar->bar), GTK_ALIGN_START);
  bar->window = screen_show (GTK_WIDGET (bar->bar), WIDTH, 80);
  bar->inks = bond_style_inks (GTK_WIDGET (bar->bar));
  g_assert_cmpint (gtk_widget_get_width (GTK_WIDGET (bar->bar)), ==, WIDTH);
}

static void
tear_down (Bar *bar, gconstpointer data)
{
  gtk_window_destroy (bar->window);
}

static int
x_of (double nohm, double end_nohm)
{
  return (int)(2.0 + nohm / end_nohm * (WIDTH - 4.0) + 0.5);
}

static cairo_surface_t *
picture (Bar *bar)
{
  return screen_picture (GTK_WIDGET (bar->bar), &bar->inks->paper);
}

/* Pixels of text ink in a column of the ticks' band. */
static guint
column (Bar *bar, cairo_surface_t *image, int x)
{
  return screen_count_ink (image, x, LINE - 24, 1, 24, &bar->inks->text);
}

static void
set (Bar *bar, const BondBounds *bounds, BondOhm nohm, BondQualifier qualifier, BondOhm u_nohm)
{
  BondQuantity quantity = { nohm, 0, qualifier };

  bond_limit_bar_set_bounds (bar->bar, bounds);
  bond_limit_bar_set_reading (bar->bar, &quantity, u_nohm);
}

static void
test_ticks_stand_where_the_numbers_say (Bar *bar, gconstpointer data)
{
  cairo_surface_t *image;

  set (bar, &at_most_2m5, 1830000, BOND_QUALIFIER_NONE, 0);
  image = picture (bar);
  g_assert_cmpuint (column (bar, image, x_of (2500000, 3500000)), >=, 20);
  g_assert_cmpuint (column (bar, image, x_of (1830000, 3500000)), >=, 18);
  g_assert_cmpuint (column (bar, image, x_of (1000000, 3500000)), ==, 0);
  cairo_surface_destroy (image);
}

static void
test_a_whisker_shows_u (Bar *bar, gconstpointer data)
{
  cairo_surface_t *image;

  set (bar, &at_most_2m5, 1000000, BOND_QUALIFIER_NONE, 300000);
  image = picture (bar);
  g_assert_cmpuint (column (bar, image, x_of (1200000, 3500000)), >=, 1);
  g_assert_cmpuint (column (bar, image, x_of (800000, 3500000)), >=, 1);
  g_assert_cmpuint (column (bar, image, x_of (1400000, 3500000)), ==, 0);
  /* Within U of the limit is hatched in amber, and only there. */
  g_assert_cmpuint (screen_count_ink (image, x_of (2250000, 3500000), LINE - 20, 20, 18, &bar->inks->guard), >, 4);
  g_assert_cmpuint (screen_count_ink (image, x_of (1500000, 3500000), LINE - 20, 20, 18, &bar->inks->guard), ==, 0);
  cairo_surface_destroy (image);
}

static void
test_over_range_is_an_arrow (Bar *bar, gconstpointer data)
{
  cairo_surface_t *image;

  set (bar, &at_most_2m5, 30000000, BOND_QUALIFIER_OVER, 0);
  image = picture (bar);
  g_assert_cmpuint (screen_count_ink (image, WIDTH - 12, LINE - 16, 10, 12, &bar->inks->text), >, 20);
  cairo_surface_destroy (image);

  /* "> 2 mΩ" is not known to be at 2 mΩ: no tick there. */
  set (bar, &at_most_2m5, 2000000, BOND_QUALIFIER_OVER, 0);
  image = picture (bar);
  g_assert_cmpuint (column (bar, image, x_of (2000000, 3500000)), ==, 0);
  cairo_surface_destroy (image);
}

static void
test_a_negative_value_is_an_arrow_at_the_left (Bar *bar, gconstpointer data)
{
  cairo_surface_t *image;

  set (bar, &at_most_2m5, -200000, BOND_QUALIFIER_NONE, 0);
  image = picture (bar);
  g_assert_cmpuint (screen_count_ink (image, 2, LINE - 16, 10, 12, &bar->inks->text), >, 20);
  cairo_surface_destroy (image);
}

static void
test_a_band_is_in_decades (Bar *bar, gconstpointer data)
{
  /* 10 kΩ to 1 GΩ: five decades; 100 kΩ is one from the left, 100 MΩ four, 1 MΩ two. */
  double decade = (WIDTH - 4.0) / 5.0;
  cairo_surface_t *image;

  set (bar, &band, 1000 * 1000 * BOND_NOHM_PER_OHM, BOND_QUALIFIER_NONE, 0);
  image = picture (bar);
  g_assert_cmpuint (column (bar, image, (int)(2.0 + decade + 0.5)), >=, 20);
  g_assert_cmpuint (column (bar, image, (int)(2.0 + 4.0 * decade + 0.5)), >=, 20);
  g_assert_cmpuint (column (bar, image, (int)(2.0 + 2.0 * decade + 0.5)), >=, 18);
  cairo_surface_destroy (image);
}

static void
test_earlier_values_are_short_ticks (Bar *bar, gconstpointer data)
{
  const BondOhm earlier[] = { 500000, 9000000 };
  cairo_surface_t *image;

  bond_limit_bar_set_bounds (bar->bar, &at_most_2m5);
  bond_limit_bar_set_earlier (bar->bar, earlier, G_N_ELEMENTS (earlier));
  image = picture (bar);
  g_assert_cmpuint (screen_count_ink (image, x_of (500000, 3500000), LINE - 24, 1, 24, &bar->inks->quiet), ==, 10);
  cairo_surface_destroy (image);
}

static void
test_it_says_the_same_aloud (Bar *bar, gconstpointer data)
{
  GtkAccessible *accessible = GTK_ACCESSIBLE (bar->bar);
  gboolean comma = bond_locale_mark () == ',';

  gtk_test_accessible_assert_role (accessible, GTK_ACCESSIBLE_ROLE_METER);
  set (bar, &at_most_2m5, 1830000, BOND_QUALIFIER_NONE, 0);
  gtk_test_accessible_assert_property (accessible, GTK_ACCESSIBLE_PROPERTY_VALUE_NOW, 1830000.0);
  gtk_test_accessible_assert_property (accessible, GTK_ACCESSIBLE_PROPERTY_VALUE_MAX, 3500000.0);
  gtk_test_accessible_assert_property (accessible, GTK_ACCESSIBLE_PROPERTY_VALUE_TEXT,
                                       comma ? "1,83 of 2,5 milliohm" : "1.83 of 2.5 milliohm");
  set (bar, &at_most_2m5, 30000000, BOND_QUALIFIER_OVER, 0);
  gtk_test_accessible_assert_property (accessible, GTK_ACCESSIBLE_PROPERTY_VALUE_TEXT,
                                       comma ? "above 30, limit 2,5 milliohm" : "above 30, limit 2.5 milliohm");
  bond_limit_bar_set_bounds (bar->bar, NULL);
  gtk_test_accessible_assert_property (accessible, GTK_ACCESSIBLE_PROPERTY_VALUE_TEXT, "no limit");
}

#define ADD(path, test) g_test_add (path, Bar, NULL, set_up, test, tear_down)

int
main (int argc, char **argv)
{
  gtk_test_init (&argc, &argv, NULL);
  ADD ("/limit-bar/ticks", test_ticks_stand_where_the_numbers_say);
  ADD ("/limit-bar/whisker", test_a_whisker_shows_u);
  ADD ("/limit-bar/over", test_over_range_is_an_arrow);
  ADD ("/limit-bar/negative", test_a_negative_value_is_an_arrow_at_the_left);
  ADD ("/limit-bar/band", test_a_band_is_in_decades);
  ADD ("/limit-bar/earlier", test_earlier_values_are_short_ticks);
  ADD ("/limit-bar/aloud", test_it_says_the_same_aloud);
  return g_test_run ();
}
