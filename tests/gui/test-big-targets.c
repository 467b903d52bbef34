/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * Sizes for gloved fingers: millimetres become pixels by the monitor's word, every
 * button of the Walk page has them, and switched off all is as it was.
 */
#include "gui/big-targets.h"
#include "gui/pages/keypad.h"
#include "gui/taste.h"
#include "gui/widgets/diagram-private.h"
#include "reach.h"
#include "screen.h"
#include "window-fixture.h"

#define SHRUNK_KEY 44 /* a key of the pad where the window is low */

static void
test_px (void)
{
  static const struct
  {
    double mm;
    int width_mm, width_px;
    gboolean least;
    int px;
  } rows[] = {
    { 15, 217, 1280, TRUE, 88 },                             /* 10.1 inch, 1280 × 800: 149.8 dpi */
    { 19, 217, 1280, TRUE, 112 }, { 15, 0, 1920, TRUE, 57 }, /* says nothing: 96 dpi */
    { 15, 16, 1920, TRUE, 57 },                              /* 3048 dpi: no screen is */
    { 15, 1600, 1280, TRUE, 57 },                            /* 20 dpi */
    { 12, 508, 1280, TRUE, 44 },                             /* 64 dpi: 30 pixels are less than a finger needs */
    { 12, 508, 1280, FALSE, 30 }, { 4, 0, 0, FALSE, 15 },
  };

  for (gsize i = 0; i < G_N_ELEMENTS (rows); i++)
    g_assert_cmpint (bond_big_targets_px (rows[i].mm, rows[i].width_mm, rows[i].width_px, rows[i].least), ==,
                     rows[i].px);
}

/* Not meant for gloves: what closes the window, what lies inside an entry, and what opens rarely. */
static gboolean
is_exempt (GtkWidget *widget)
{
  return GTK_IS_WINDOW_CONTROLS (widget) || GTK_IS_ENTRY (widget) || gtk_widget_has_css_class (widget, "pinned")
         || GTK_IS_POPOVER (widget);
}

static guint
check_sizes (GtkWidget *widget, int px, gboolean in_keypad)
{
  guint n = 0;

  if (!gtk_widget_get_mapped (widget) || is_exempt (widget))
    return 0;
  in_keypad = in_keypad || BOND_IS_KEYPAD (widget);
  if (GTK_IS_BUTTON (widget))
    {
      int least = in_keypad ? SHRUNK_KEY : px;

      g_test_message ("%s: %d × %d, least %d", gtk_button_get_label (GTK_BUTTON (widget)),
                      gtk_widget_get_allocated_width (widget), gtk_widget_get_allocated_height (widget), least);
      g_assert_cmpint (gtk_widget_get_allocated_height (widget), >=, least);
      g_assert_cmpint (gtk_widget_get_allocated_width (widget), >=, least);
      return 1;
    }
  for (GtkWidget *child = gtk_widget_get_first_child (widget); child != NULL;
       child = gtk_widget_get_next_sibling (child))
    n += check_sizes (child, px, in_keypad);
  return n;
}

static void
set_big (gboolean big, int mm)
{
  g_object_set (bond_taste_get (), "big-target-mm", mm, "big-targets", big, NULL);
  screen_spin (400);
}

static BondDiagram *
diagram_of (WindowFixture *fixture)
{
  return bond_walk_page_get_diagram (bond_survey_window_get_page (fixture->window));
}

static void
test_sizes (WindowFixture *fixture, gconstpointer data)
{
  static const int sizes_mm[] = { 15, 12 };

  window_begin (fixture);
  for (gsize i = 0; i < G_N_ELEMENTS (sizes_mm); i++)
    {
      int px;

      set_big (TRUE, sizes_mm[i]);
      px = bond_big_targets_of (GTK_WIDGET (fixture->window), sizes_mm[i], TRUE);
      g_assert_cmpuint (check_sizes (GTK_WIDGET (bond_survey_window_get_page (fixture->window)), px, FALSE), >, 20);
    }
  reach_assert (GTK_WINDOW (fixture->window));
}

/* What lies over the diagram never covers the airframe, and a press is a finger's. */
static void
test_diagram (WindowFixture *fixture, gconstpointer data)
{
  BondDiagram *diagram = diagram_of (fixture);
  GtkWidget *views = window_find_of_type (GTK_WIDGET (bond_survey_window_get_page (fixture->window)),
                                          GTK_TYPE_TOGGLE_BUTTON, "Upper");
  double x, y, width, height, bottom_x, bottom_y;
  graphene_rect_t at;

  window_begin (fixture);
  set_big (TRUE, 15);
  bond_diagram_fit (diagram);
  screen_spin (100);
  bond_view_bounds (diagram->view, &x, &y, &width, &height);
  g_assert_true (bond_diagram_to_widget (diagram, x, y + height, &bottom_x, &bottom_y));
  g_assert_true (gtk_widget_compute_bounds (views, GTK_WIDGET (diagram), &at));
  g_assert_cmpfloat (bottom_y, <=, at.origin.y);
  g_assert_cmpfloat (diagram->pick_radius, ==, bond_big_targets_of (GTK_WIDGET (diagram), 12, FALSE));
  g_assert_cmpfloat (diagram->pick_apart, ==, bond_big_targets_of (GTK_WIDGET (diagram), 4, FALSE));
  set_big (FALSE, 15);
  g_assert_cmpfloat (diagram->pick_radius, ==, 0.0);
  g_assert_cmpfloat (diagram->pick_apart, ==, 0.0);
}

/* Sizes of all that shows, one after the other. */
static void
list_sizes (GtkWidget *widget, GString *into)
{
  if (!gtk_widget_get_mapped (widget) || GTK_IS_POPOVER (widget))
    return;
  g_string_append_printf (into, "%s %d %d\n", G_OBJECT_TYPE_NAME (widget), gtk_widget_get_width (widget),
                          gtk_widget_get_height (widget));
  for (GtkWidget *child = gtk_widget_get_first_child (widget); child != NULL;
       child = gtk_widget_get_next_sibling (child))
    list_sizes (child, into);
}

/* The sizes once they no longer change: GTK lays out frame by frame. (transfer full) */
static char *
settled_sizes (GtkWidget *page)
{
  GString *last = g_string_new (NULL);

  for (int i = 0, same = 0; i < 100 && same < 3; i++)
    {
      GString *now = g_string_new (NULL);

      screen_spin (100);
      list_sizes (page, now);
      same = g_string_equal (now, last) ? same + 1 : 0;
      g_string_free (last, TRUE);
      last = now;
    }
  return g_string_free (last, FALSE);
}

static void
test_restores (WindowFixture *fixture, gconstpointer data)
{
  GtkEditable *field = bond_reading_panel_get_entry (window_panel_of (fixture));
  GtkWidget *page = GTK_WIDGET (bond_survey_window_get_page (fixture->window));
  g_autofree char *before = NULL;
  g_autofree char *big = NULL;
  g_autofree char *after = NULL;

  window_begin (fixture);
  /* High enough for both: without a window manager a window grows to what it needs, and stays so. */
  gtk_window_set_default_size (GTK_WINDOW (fixture->window), 1280, 900);
  gtk_editable_set_text (field, "1.8");
  before = settled_sizes (page);
  set_big (TRUE, 15);
  big = settled_sizes (page);
  g_assert_cmpstr (gtk_editable_get_text (field), ==, "1.8");
  set_big (FALSE, 15);
  after = settled_sizes (page);
  g_assert_cmpstr (before, !=, big);
  g_assert_cmpstr (before, ==, after);
  g_assert_cmpstr (gtk_editable_get_text (field), ==, "1.8");
  g_assert_false (gtk_widget_has_css_class (GTK_WIDGET (fixture->window), "big-targets"));
}

static void
tear_down (WindowFixture *fixture, gconstpointer data)
{
  g_object_set (bond_taste_get (), "big-target-mm", BOND_TARGET_MM_USUAL, "big-targets", FALSE, NULL);
  window_tear_down (fixture, data);
}

int
main (int argc, char **argv)
{
  g_setenv ("GTK_A11Y", "test", TRUE);
  g_setenv ("GSK_RENDERER", "cairo", TRUE);
  g_setenv ("GSETTINGS_BACKEND", "memory", TRUE);
  g_unsetenv ("DBUS_SESSION_BUS_ADDRESS");
  g_test_init (&argc, &argv, NULL);
  gtk_init ();
  g_test_add_func ("/big-targets/px", test_px);
#define ADD(name, test) g_test_add ("/big-targets/" name, WindowFixture, NULL, window_set_up, test, tear_down)
  ADD ("sizes", test_sizes);
  ADD ("diagram", test_diagram);
  ADD ("restores", test_restores);
  return g_test_run ();
}
