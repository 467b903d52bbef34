/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * Which panes show at which width, measured in text size; and that the least window
 * cuts nothing off.  Widths are those of the page design (section 2).
 */
#include "gui/pages/panes.h"
#include "reach.h"
#include "screen.h"
#include "window-fixture.h"

#define EM (11.0 * 96.0 / 72.0) /* 11 points at 96 dpi */

typedef struct
{
  GtkWidget *points, *canvas, *panel, *details, *entry;
  BondPanes *panes;
  GtkWindow *window;
} Fixture;

static GtkWidget *
new_pane (void)
{
  return gtk_box_new (GTK_ORIENTATION_VERTICAL, 0);
}

static void
show_at (Fixture *fixture, int width, int height)
{
  GtkWidget *scroller;

  fixture->points = new_pane ();
  fixture->canvas = new_pane ();
  fixture->panel = new_pane ();
  fixture->details = new_pane ();
  fixture->entry = gtk_entry_new ();
  bond_name_widget (fixture->entry, "Reading");
  gtk_box_append (GTK_BOX (fixture->panel), fixture->entry);
  fixture->panes = BOND_PANES (bond_panes_new (fixture->points, fixture->canvas, fixture->panel));
  bond_panes_set_details (fixture->panes, fixture->details);
  /* Inside a scroller panes have the size that is asked for, whatever the screen of the test has. */
  scroller = gtk_scrolled_window_new ();
  gtk_scrolled_window_set_child (GTK_SCROLLED_WINDOW (scroller), GTK_WIDGET (fixture->panes));
  gtk_widget_set_size_request (GTK_WIDGET (fixture->panes), width, height);
  fixture->window = screen_show (scroller, 400, 300);
  g_assert_cmpint (gtk_widget_get_width (GTK_WIDGET (fixture->panes)), ==, width);
}

static void
resize (Fixture *fixture, int width, int height)
{
  gtk_widget_set_size_request (GTK_WIDGET (fixture->panes), width, height);
  for (int i = 0; i < 100 && gtk_widget_get_width (GTK_WIDGET (fixture->panes)) != width; i++)
    screen_spin (20);
  screen_spin (50);
  g_assert_cmpint (gtk_widget_get_width (GTK_WIDGET (fixture->panes)), ==, width);
}

static int
left_of (Fixture *fixture, GtkWidget *pane)
{
  graphene_rect_t at;

  g_assert_true (gtk_widget_compute_bounds (pane, GTK_WIDGET (fixture->panes), &at));
  return (int)at.origin.x;
}

static void
test_classes (void)
{
  static const struct
  {
    double width, em;
    gboolean big;
    BondWidthClass is;
  } rows[] = {
    { 1199, EM, FALSE, BOND_WIDTH_COMPACT },       { 1200, EM, FALSE, BOND_WIDTH_REGULAR },
    { 1679, EM, FALSE, BOND_WIDTH_REGULAR },       { 1680, EM, FALSE, BOND_WIDTH_WIDE },
    { 1799, EM * 1.5, FALSE, BOND_WIDTH_COMPACT }, { 1800, EM * 1.5, FALSE, BOND_WIDTH_REGULAR },
    { 2520, EM * 1.5, FALSE, BOND_WIDTH_WIDE },    { 1199, EM * 0.5, FALSE, BOND_WIDTH_COMPACT },
    { 1499, EM, TRUE, BOND_WIDTH_COMPACT },        { 1500, EM, TRUE, BOND_WIDTH_REGULAR },
    { 1999, EM, TRUE, BOND_WIDTH_REGULAR },        { 2000, EM, TRUE, BOND_WIDTH_WIDE },
  };

  for (gsize i = 0; i < G_N_ELEMENTS (rows); i++)
    g_assert_cmpint (bond_panes_class_of (rows[i].width, rows[i].em, rows[i].big), ==, rows[i].is);
}

static void
test_compact (Fixture *fixture, gconstpointer data)
{
  show_at (fixture, 1100, 700);
  g_assert_cmpint (bond_panes_get_width_class (fixture->panes), ==, BOND_WIDTH_COMPACT);
  g_assert_false (gtk_widget_get_child_visible (fixture->points));
  g_assert_false (gtk_widget_get_child_visible (fixture->details));
  g_assert_cmpint (gtk_widget_get_width (fixture->panel), ==, 336);
  g_assert_cmpint (gtk_widget_get_width (fixture->canvas), ==, 1100 - 336);
  bond_panes_show_points (fixture->panes, TRUE); /* slides over: the diagram keeps its room */
  screen_spin (50);
  g_assert_true (gtk_widget_get_child_visible (fixture->points));
  g_assert_cmpint (left_of (fixture, fixture->points), ==, 0);
  g_assert_cmpint (gtk_widget_get_width (fixture->canvas), ==, 1100 - 336);
}

static void
test_regular (Fixture *fixture, gconstpointer data)
{
  show_at (fixture, 1300, 700);
  g_assert_cmpint (bond_panes_get_width_class (fixture->panes), ==, BOND_WIDTH_REGULAR);
  g_assert_true (gtk_widget_get_child_visible (fixture->points));
  g_assert_cmpint (gtk_widget_get_width (fixture->points), ==, 316);
  g_assert_cmpint (gtk_widget_get_width (fixture->panel), ==, 352);
  g_assert_cmpint (left_of (fixture, fixture->canvas), ==, 316);
  g_assert_cmpint (left_of (fixture, fixture->panel), ==, 1300 - 352);
  bond_panes_set_panel_left (fixture->panes, TRUE); /* the same as in a mirror */
  screen_spin (50);
  g_assert_cmpint (left_of (fixture, fixture->panel), ==, 0);
  g_assert_cmpint (left_of (fixture, fixture->points), ==, 1300 - 316);
  bond_panes_show_points (fixture->panes, FALSE);
  screen_spin (50);
  g_assert_cmpint (gtk_widget_get_width (fixture->canvas), ==, 1300 - 352);
}

static void
test_wide (Fixture *fixture, gconstpointer data)
{
  show_at (fixture, 1680, 900);
  g_assert_cmpint (bond_panes_get_width_class (fixture->panes), ==, BOND_WIDTH_WIDE);
  g_assert_true (gtk_widget_get_child_visible (fixture->details));
  g_assert_cmpint (gtk_widget_get_width (fixture->points), ==, 340);
  g_assert_cmpint (gtk_widget_get_width (fixture->panel), ==, 372);
  g_assert_cmpint (gtk_widget_get_width (fixture->details), ==, 420);
  g_assert_cmpint (left_of (fixture, fixture->details), ==, 1680 - 420);
}

/* Neither focus nor caret nor digits go when the class changes. */
static void
test_switch (Fixture *fixture, gconstpointer data)
{
  GtkEditable *text;

  show_at (fixture, 1300, 700);
  text = GTK_EDITABLE (fixture->entry);
  gtk_widget_grab_focus (fixture->entry);
  gtk_editable_set_text (text, "1.84");
  gtk_editable_set_position (text, 2);
  for (int i = 0; i < 2; i++)
    {
      resize (fixture, i == 0 ? 1000 : 1700, 640);
      g_assert_cmpint (bond_panes_get_width_class (fixture->panes), ==, i == 0 ? BOND_WIDTH_COMPACT : BOND_WIDTH_WIDE);
      g_assert_cmpstr (gtk_editable_get_text (text), ==, "1.84");
      g_assert_cmpint (gtk_editable_get_position (text), ==, 2);
      g_assert_true (gtk_widget_is_ancestor (gtk_root_get_focus (GTK_ROOT (fixture->window)), fixture->entry));
    }
}

/* Whether the last change of the class has come to every button: GTK lays out frame by frame. */
static gboolean
is_laid_out (GtkWidget *widget)
{
  if (!gtk_widget_get_mapped (widget) || GTK_IS_POPOVER (widget))
    return TRUE;
  if (GTK_IS_BUTTON (widget) && gtk_widget_get_width (widget) == 0)
    return FALSE;
  for (GtkWidget *child = gtk_widget_get_first_child (widget); child != NULL;
       child = gtk_widget_get_next_sibling (child))
    if (!is_laid_out (child))
      return FALSE;
  return TRUE;
}

/* Everything that can be pressed, and is meant to be in sight, lies inside the window. */
static void
assert_inside (GtkWidget *widget, GtkWidget *window)
{
  graphene_rect_t at;

  if (!gtk_widget_get_mapped (widget) || GTK_IS_SCROLLED_WINDOW (widget) || GTK_IS_POPOVER (widget))
    return; /* what scrolls may lie outside */
  if (GTK_IS_BUTTON (widget) && gtk_widget_compute_bounds (widget, window, &at))
    {
      g_test_message ("%s: %.0f, %.0f, %.0f × %.0f", gtk_button_get_label (GTK_BUTTON (widget)), at.origin.x,
                      at.origin.y, at.size.width, at.size.height);
      g_assert_cmpfloat (at.origin.x, >=, 0);
      g_assert_cmpfloat (at.origin.y, >=, 0);
      g_assert_cmpfloat (at.origin.x + at.size.width, <=, gtk_widget_get_width (window));
      g_assert_cmpfloat (at.origin.y + at.size.height, <=, gtk_widget_get_height (window));
    }
  for (GtkWidget *child = gtk_widget_get_first_child (widget); child != NULL;
       child = gtk_widget_get_next_sibling (child))
    assert_inside (child, window);
}

static void
test_least (WindowFixture *fixture, gconstpointer data)
{
  GtkWidget *window = GTK_WIDGET (fixture->window);
  int width, height;

  window_begin (fixture);
  gtk_window_set_default_size (GTK_WINDOW (window), 1000, 540);
  screen_spin (300);
  for (int i = 0; i < 100 && !is_laid_out (window); i++)
    screen_spin (50);
  gtk_widget_measure (window, GTK_ORIENTATION_HORIZONTAL, -1, &width, NULL, NULL, NULL);
  gtk_widget_measure (window, GTK_ORIENTATION_VERTICAL, -1, &height, NULL, NULL, NULL);
  g_test_message ("least %d × %d", width, height);
  g_assert_cmpint (width, <=, 1000);
  g_assert_cmpint (height, <=, 540);
  g_assert_cmpint (
      bond_panes_get_width_class (bond_walk_page_get_panes (bond_survey_window_get_page (fixture->window))), ==,
      BOND_WIDTH_COMPACT);
  assert_inside (window, window);
  reach_assert (GTK_WINDOW (window));
}

static void
set_up (Fixture *fixture, gconstpointer data)
{
}

static void
tear_down (Fixture *fixture, gconstpointer data)
{
  gtk_window_destroy (fixture->window);
  screen_spin (20);
}

int
main (int argc, char **argv)
{
  g_setenv ("GTK_A11Y", "test", TRUE);
  g_setenv ("GSK_RENDERER", "cairo", TRUE);
  g_unsetenv ("DBUS_SESSION_BUS_ADDRESS");
  g_test_init (&argc, &argv, NULL);
  gtk_init ();
  g_test_add_func ("/panes/classes", test_classes);
#define ADD(name, test) g_test_add ("/panes/" name, Fixture, NULL, set_up, test, tear_down)
  ADD ("compact", test_compact);
  ADD ("regular", test_regular);
  ADD ("wide", test_wide);
  ADD ("switch", test_switch);
  g_test_add ("/panes/least", WindowFixture, NULL, window_set_up, test_least, window_tear_down);
  return g_test_run ();
}
