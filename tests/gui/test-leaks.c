/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * A window that is open all day must not grow: twenty windows opened and closed leave
 * no object of ours alive, and neither that nor fifty scrolls of the points pane and
 * of the Readings table makes the heap larger than a stated slack.  What was
 * allocated once and stays (style sheets, glyphs, the pool of a list's rows) is
 * warmed up first.
 */
#include "gui/pages/points-pane.h"
#include "gui/pages/readings-page.h"
#include "screen.h"
#include "window-fixture.h"

#include <malloc.h>

#define N_POINTS 120
#define N_WINDOWS 20
#define N_SCROLLS 50
#define N_WARM 4

/*
 * Bytes a window, and bytes a scroll from end to end and back, that the heap may keep: twice and eight times the most
 * that was measured (12 to 20 kB, 14 to 260 bytes), which is in GTK's own caches; a window that is kept shows by its
 * objects.
 */
#define WINDOW_SLACK 40000
#define SCROLL_SLACK 2000

static WindowPoint points[N_POINTS];
static const WindowPoints all_points = { points, N_POINTS };

/* Bytes of the heap in use, small and large blocks; always 0 under AddressSanitizer, which looks for leaks itself. */
static gint64
heap_in_use (void)
{
  struct mallinfo2 info;

  malloc_trim (0);
  info = mallinfo2 ();
  return (gint64)info.uordblks + (gint64)info.hblkhd;
}

/* --- what stays alive --- */

typedef struct
{
  GObject *object; /* NULL once it is gone */
  const char *type;
} Watched;

static void
watched_free (gpointer data)
{
  Watched *watched = data;

  g_clear_weak_pointer (&watched->object);
  g_free (watched);
}

static void
watch (GPtrArray *watched, gpointer object)
{
  Watched *one = g_new0 (Watched, 1);

  one->type = G_OBJECT_TYPE_NAME (object);
  g_set_weak_pointer (&one->object, object);
  g_ptr_array_add (watched, one);
}

/* Every widget of @widget, itself among them, but the tooltip: GTK has one for all windows and keeps it. */
static void
watch_tree (GPtrArray *watched, GtkWidget *widget)
{
  if (g_strcmp0 (G_OBJECT_TYPE_NAME (widget), "GtkTooltipWindow") == 0)
    return;
  watch (watched, widget);
  for (GtkWidget *child = gtk_widget_get_first_child (widget); child != NULL;
       child = gtk_widget_get_next_sibling (child))
    watch_tree (watched, child);
}

static guint
count_alive (GPtrArray *watched)
{
  guint n = 0;

  for (guint i = 0; i < watched->len; i++)
    {
      const Watched *one = watched->pdata[i];

      if (one->object == NULL)
        continue;
      g_test_message ("still alive: %s, %u references", one->type, one->object->ref_count);
      n++;
    }
  return n;
}

/* --- windows --- */

/* Opens the survey a second time over, shows both pages and a dialog, and closes it again. */
static void
open_and_close (WindowFixture *fixture, GPtrArray *watched)
{
  fixture->window = bond_application_open_survey (fixture->application, fixture->path);
  g_assert_nonnull (fixture->window);
  screen_spin (50);
  window_begin (fixture);
  bond_survey_window_show_page (fixture->window, "readings");
  screen_spin (50);
  bond_survey_window_show_page (fixture->window, "walk");
  screen_spin (20);
  watch_tree (watched, GTK_WIDGET (fixture->window));
  watch (watched, bond_survey_window_get_walk (fixture->window));
  watch (watched, bond_survey_window_get_file (fixture->window));
  watch (watched, bond_walk_get_survey (bond_survey_window_get_walk (fixture->window)));
  gtk_window_close (GTK_WINDOW (fixture->window));
  fixture->window = NULL;
  screen_spin (50);
}

static void
test_windows (WindowFixture *fixture, gconstpointer data)
{
  g_autoptr (GPtrArray) watched = g_ptr_array_new_with_free_func (watched_free);
  gint64 before = 0, grown;

  gtk_window_close (GTK_WINDOW (fixture->window));
  screen_spin (50);
  g_application_hold (G_APPLICATION (fixture->application));
  for (int i = 0; i < N_WARM + N_WINDOWS; i++)
    {
      if (i == N_WARM)
        before = heap_in_use ();
      open_and_close (fixture, watched);
      g_assert_cmpuint (watched->len, >, 200);
      g_assert_cmpuint (count_alive (watched), ==, 0);
      g_ptr_array_set_size (watched, 0);
    }
  grown = (heap_in_use () - before) / N_WINDOWS;
  g_test_message ("%d windows: the heap grew by %" G_GINT64_FORMAT " bytes a window", N_WINDOWS, grown);
  g_assert_cmpint (grown, <, WINDOW_SLACK);
  g_application_release (G_APPLICATION (fixture->application));
}

/* --- scrolling --- */

static void
scroll_once (GtkAdjustment *adjustment)
{
  double end = gtk_adjustment_get_upper (adjustment) - gtk_adjustment_get_page_size (adjustment);

  for (int step = 0; step <= 8; step++)
    {
      gtk_adjustment_set_value (adjustment, end * (step <= 4 ? step : 8 - step) / 4.0);
      screen_spin (8);
    }
}

static guint
count_widgets (GtkWidget *widget)
{
  guint n = 1;

  for (GtkWidget *child = gtk_widget_get_first_child (widget); child != NULL;
       child = gtk_widget_get_next_sibling (child))
    n += count_widgets (child);
  return n;
}

static void
assert_scrolls (GtkWidget *inside, const char *what)
{
  GtkWidget *scrolled
      = GTK_IS_SCROLLED_WINDOW (inside) ? inside : gtk_widget_get_ancestor (inside, GTK_TYPE_SCROLLED_WINDOW);
  /* A column view keeps the one that moves in the list inside it. */
  GtkAdjustment *adjustment = gtk_scrollable_get_vadjustment (
      GTK_SCROLLABLE (GTK_IS_COLUMN_VIEW (inside) ? gtk_widget_get_last_child (inside) : inside));
  gint64 before = 0, grown;
  guint widgets = 0;

  for (int i = 0; i < 200 && gtk_adjustment_get_upper (adjustment) <= 0; i++)
    screen_spin (20); /* a page that was just shown */
  g_assert_cmpfloat (gtk_adjustment_get_upper (adjustment), >, 2 * gtk_adjustment_get_page_size (adjustment));
  for (int i = 0; i < N_WARM + N_SCROLLS; i++)
    {
      if (i == N_WARM)
        {
          before = heap_in_use ();
          widgets = count_widgets (scrolled);
        }
      scroll_once (adjustment);
    }
  grown = (heap_in_use () - before) / N_SCROLLS;
  g_test_message ("%s: %d scrolls, %u widgets before and %u after; the heap grew by %" G_GINT64_FORMAT
                  " bytes a scroll",
                  what, N_SCROLLS, widgets, count_widgets (scrolled), grown);
  g_assert_cmpint (grown, <, SCROLL_SLACK);
  g_assert_cmpuint (count_widgets (scrolled), <=, widgets + widgets / 10);
}

static void
test_scrolls (WindowFixture *fixture, gconstpointer data)
{
  GtkWidget *pane, *page;

  window_begin (fixture);
  window_type_reading (fixture, "1.84"); /* without a reading the table is not shown */
  screen_spin (100);
  pane = window_find_of_type (GTK_WIDGET (fixture->window), BOND_TYPE_POINTS_PANE, NULL);
  g_assert_nonnull (pane);
  assert_scrolls (window_find_of_type (pane, GTK_TYPE_LIST_VIEW, NULL), "points pane");
  bond_survey_window_show_page (fixture->window, "readings");
  screen_spin (200);
  page = window_find_of_type (GTK_WIDGET (fixture->window), BOND_TYPE_READINGS_PAGE, NULL);
  g_assert_nonnull (page);
  g_assert_true (gtk_widget_get_mapped (page));
  assert_scrolls (GTK_WIDGET (bond_readings_table_get_view (bond_readings_page_get_table (BOND_READINGS_PAGE (page)))),
                  "Readings table");
}

int
main (int argc, char **argv)
{
  static char numbers[N_POINTS][16];

  g_setenv ("GTK_A11Y", "test", TRUE);
  g_setenv ("GSK_RENDERER", "cairo", TRUE);
  g_unsetenv ("DBUS_SESSION_BUS_ADDRESS");
  g_test_init (&argc, &argv, NULL);
  gtk_init ();
  for (int i = 0; i < N_POINTS; i++)
    {
      g_snprintf (numbers[i], sizeof numbers[i], "521-J%03d", i + 1);
      points[i] = (WindowPoint){ numbers[i], "example/J2", BOND_CONDITION_UNDISTURBED };
    }
  g_test_add ("/gui/leaks/windows", WindowFixture, &all_points, window_set_up, test_windows, window_tear_down);
  g_test_add ("/gui/leaks/scrolls", WindowFixture, &all_points, window_set_up, test_scrolls, window_tear_down);
  return g_test_run ();
}
