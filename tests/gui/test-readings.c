/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * The table of the Readings page: order by each column, filters, what is followed
 * when the survey changes, and how it stands in its room.
 */
#include "gui/style.h"
#include "plane.h"
#include "readings-fixture.h"
#include "screen.h"

static BondReadingsTable *
table_of (ReadingsFixture *fixture)
{
  return bond_readings_page_get_table (fixture->page);
}

static void
assert_begins (ReadingsFixture *fixture, guint most, const char *numbers)
{
  g_autofree char *shown = readings_numbers (fixture, most);

  g_assert_cmpstr (shown, ==, numbers);
}

static void
sort_by (ReadingsFixture *fixture, const char *id, GtkSortType type)
{
  bond_readings_table_sort_by (table_of (fixture), readings_column (id), type);
  screen_spin (20);
}

/* One row a column: what stands first when it rises, and when it falls. Blanks stand last either way. */
static const struct
{
  const char *id, *rising, *falling;
} orders[] = {
  { "found", NULL, NULL },
  { "result", "521-J01 713-J01 711-J01 571-J01 562-J01 191-J01", "191-J01 562-J01 571-J01 711-J01 713-J01 521-J01" },
  { "used", "191-J01 711-J01 713-J01 521-J01 571-J01 562-J01", "562-J01 571-J01 521-J01 713-J01 711-J01 191-J01" },
  { "u", "521-J01 713-J01 711-J01 571-J01 562-J01 191-J01", "191-J01 562-J01 571-J01 711-J01 713-J01 521-J01" },
  { "when", "713-J01 711-J01 562-J01 571-J01 191-J01 521-J01", "521-J01 191-J01 571-J01 562-J01 711-J01 713-J01" },
  { "meter", "713-J01 711-J01", NULL },
  { "by", "713-J01 711-J01", NULL },
  { "point", "111-E01 111-F01 111-J01", NULL },
  { "verdict", "562-J01", NULL },
};

static void
test_orders (ReadingsFixture *fixture, gconstpointer data)
{
  readings_measure (fixture);
  readings_show (fixture, 1280);
  assert_begins (fixture, 2, "[111] 111-J01");
  for (gsize i = 0; i < G_N_ELEMENTS (orders); i++)
    for (int falling = 0; falling < 2; falling++)
      {
        const char *wanted = falling ? orders[i].falling : orders[i].rising;
        g_autofree char *shown = NULL;

        if (wanted == NULL)
          continue;
        sort_by (fixture, orders[i].id, falling ? GTK_SORT_DESCENDING : GTK_SORT_ASCENDING);
        shown = readings_numbers (fixture, 6);
        if (!g_str_has_prefix (shown, wanted))
          g_error ("by %s, %s: %s", orders[i].id, falling ? "falling" : "rising", shown);
      }
  bond_readings_table_sort_by (table_of (fixture), -1, GTK_SORT_ASCENDING);
  assert_begins (fixture, 2, "[111] 111-J01");
}

/* Every column orders all rows one way or the other; none loses a row. */
static void
test_all_columns (ReadingsFixture *fixture, gconstpointer data)
{
  guint total;

  readings_measure (fixture);
  readings_show (fixture, 1280);
  total = bond_readings_model_count (bond_readings_page_get_model (fixture->page), BOND_READINGS_ALL);
  for (int i = 0; i < BOND_N_READINGS_COLUMNS; i++)
    {
      const BondReadingsColumn *column = &bond_readings_columns ()[i];
      g_autoptr (GPtrArray) rows = NULL;

      sort_by (fixture, column->id, GTK_SORT_ASCENDING);
      rows = bond_readings_table_get_rows (table_of (fixture), TRUE);
      g_assert_cmpuint (rows->len, ==, total);
      for (guint j = 1; j < rows->len; j++)
        {
          BondReadingsRow *before = rows->pdata[j - 1], *after = rows->pdata[j];
          gboolean blank[2] = { FALSE, FALSE };

          if (column->blank != NULL)
            {
              blank[0] = column->blank (before);
              blank[1] = column->blank (after);
            }
          g_assert_true (blank[0] <= blank[1]);
          if (blank[0] == blank[1])
            g_assert_cmpint (column->compare (before, after), <=, 0);
        }
    }
}

/* Rising, falling, and a third click is the walk again, with its headers. */
static void
test_third_click (ReadingsFixture *fixture, gconstpointer data)
{
  GtkSortType type;
  GtkColumnView *view;
  g_autoptr (GtkColumnViewColumn) column = NULL;

  readings_measure (fixture);
  readings_show (fixture, 1280);
  view = bond_readings_table_get_view (table_of (fixture));
  column = g_list_model_get_item (gtk_column_view_get_columns (view), (guint)readings_column ("result"));
  gtk_column_view_sort_by_column (view, column, GTK_SORT_ASCENDING);
  g_assert_cmpint (bond_readings_table_get_sort (table_of (fixture), &type), ==, readings_column ("result"));
  gtk_column_view_sort_by_column (view, column, GTK_SORT_DESCENDING);
  g_assert_cmpint (bond_readings_table_get_sort (table_of (fixture), &type), ==, readings_column ("result"));
  g_assert_cmpint (type, ==, GTK_SORT_DESCENDING);
  assert_begins (fixture, 1, "191-J01");
  gtk_column_view_sort_by_column (view, column, GTK_SORT_ASCENDING);
  g_assert_cmpint (bond_readings_table_get_sort (table_of (fixture), &type), ==, -1);
  assert_begins (fixture, 2, "[111] 111-J01");
}

/* A reading moves its row; the row chosen stays the one chosen. */
static void
test_sorted_again (ReadingsFixture *fixture, gconstpointer data)
{
  readings_measure (fixture);
  readings_show (fixture, 1280);
  sort_by (fixture, "result", GTK_SORT_DESCENDING);
  assert_begins (fixture, 2, "191-J01 562-J01");
  bond_readings_table_choose (table_of (fixture), bond_survey_find_number (fixture->survey, "571-J01"), NULL);
  g_assert_cmpstr (readings_chosen (fixture), ==, "571-J01");
  plane_measure (fixture->survey, "111-J01", 25000000);
  screen_spin (50);
  assert_begins (fixture, 3, "111-J01 191-J01 562-J01");
  g_assert_cmpstr (readings_chosen (fixture), ==, "571-J01");
}

/* A row that no longer passes the filter goes, one that does comes; the counts follow. */
static void
test_filtered_again (ReadingsFixture *fixture, gconstpointer data)
{
  BondReadingsModel *model;

  readings_measure (fixture);
  readings_show (fixture, 1280);
  model = bond_readings_page_get_model (fixture->page);
  bond_readings_model_set_mark (model, BOND_MARK_FAIL);
  assert_begins (fixture, 9, "[562] 562-J01");
  plane_measure (fixture->survey, "111-J01", 25000000);
  screen_spin (50);
  assert_begins (fixture, 9, "[111] 111-J01 [562] 562-J01");
  g_assert_cmpuint (bond_readings_model_count (model, BOND_MARK_FAIL), ==, 2);
}

static void
test_search (ReadingsFixture *fixture, gconstpointer data)
{
  BondReadingsModel *model;
  g_autofree char *words = NULL;

  readings_measure (fixture);
  readings_show (fixture, 1280);
  model = bond_readings_page_get_model (fixture->page);
  bond_readings_model_set_search (model, " NOSE gear DOOR ");
  assert_begins (fixture, 9, "[713] 713-J01");
  bond_readings_model_set_choice (model, BOND_READINGS_CLASS, "fastener");
  g_assert_cmpuint (bond_readings_model_get_shown (model), ==, 0);
  words = bond_readings_model_filter_words (model);
  g_assert_cmpstr (words, ==, "F  fastener; “nose gear door”");
  bond_readings_model_clear (model);
  assert_begins (fixture, 2, "[111] 111-J01");
}

/* The row in hand is chosen, in sight, and again when it comes back from behind a filter. */
static void
test_in_hand (ReadingsFixture *fixture, gconstpointer data)
{
  BondReadingsModel *model;
  GtkAdjustment *adjustment;
  GtkWidget *focus;

  readings_measure (fixture);
  bond_walk_go (fixture->walk, bond_survey_find_number (fixture->survey, "191-J01"), NULL);
  readings_show (fixture, 1280);
  g_assert_cmpstr (readings_chosen (fixture), ==, "191-J01");
  adjustment = gtk_scrollable_get_vadjustment (
      GTK_SCROLLABLE (gtk_widget_get_last_child (GTK_WIDGET (bond_readings_table_get_view (table_of (fixture))))));
  g_assert_cmpfloat (gtk_adjustment_get_value (adjustment), >, 0);
  focus = gtk_window_get_focus (fixture->window);
  g_assert_true (focus != NULL && gtk_widget_is_ancestor (focus, GTK_WIDGET (table_of (fixture))));
  model = bond_readings_page_get_model (fixture->page);
  bond_readings_model_set_mark (model, BOND_MARK_FAIL);
  g_assert_null (readings_chosen (fixture)); /* acts must not mean a row nobody sees */
  bond_readings_model_clear (model);
  g_assert_cmpstr (readings_chosen (fixture), ==, "191-J01");
  /* One chosen here stays when the page is left and entered, until the walk goes on. */
  bond_readings_table_choose (table_of (fixture), bond_survey_find_number (fixture->survey, "713-J01"), NULL);
  bond_readings_page_enter (fixture->page);
  g_assert_cmpstr (readings_chosen (fixture), ==, "713-J01");
  bond_walk_go (fixture->walk, bond_survey_find_number (fixture->survey, "562-J01"), NULL);
  bond_readings_page_enter (fixture->page);
  g_assert_cmpstr (readings_chosen (fixture), ==, "562-J01");
}

static int
shown_width (ReadingsFixture *fixture, gboolean *when, gboolean *point)
{
  GtkColumnView *view = bond_readings_table_get_view (table_of (fixture));
  int sum = 0;

  for (guint i = 0; i < BOND_N_READINGS_COLUMNS; i++)
    {
      g_autoptr (GtkColumnViewColumn) column = g_list_model_get_item (gtk_column_view_get_columns (view), i);

      if (!gtk_column_view_column_get_visible (column))
        continue;
      sum += gtk_column_view_column_get_fixed_width (column);
      *when = *when || (int)i == readings_column ("when");
      *point = *point || (int)i == readings_column ("point");
    }
  return sum;
}

/* Nothing has to be pushed sideways; what matters least gives way, the point never. */
static void
test_room (ReadingsFixture *fixture, gconstpointer data)
{
  int width = GPOINTER_TO_INT (data);
  gboolean when = FALSE, point = FALSE;

  readings_measure (fixture);
  readings_show (fixture, width);
  for (int i = 0; i < 100 && shown_width (fixture, &when, &point) > width; i++)
    screen_spin (20);
  when = point = FALSE;
  g_assert_cmpint (gtk_widget_get_width (GTK_WIDGET (table_of (fixture))), <=, width);
  g_assert_cmpint (shown_width (fixture, &when, &point), <=, gtk_widget_get_width (GTK_WIDGET (table_of (fixture))));
  g_assert_true (point);
  g_assert_true (when == (width >= 1260));
  g_assert_true (bond_readings_table_has_room (table_of (fixture), readings_column ("result")));
}

/* A point more, as one that is placed while the page stands open. */
static void
test_point_added (ReadingsFixture *fixture, gconstpointer data)
{
  guint before;

  readings_measure (fixture);
  readings_show (fixture, 1280);
  bond_readings_table_choose (table_of (fixture), bond_survey_find_number (fixture->survey, "713-J01"), NULL);
  before = bond_readings_model_get_shown (bond_readings_page_get_model (fixture->page));
  plane_add_points (fixture->survey, "plan-upper", 3);
  screen_spin (50);
  g_assert_cmpuint (bond_readings_model_get_shown (bond_readings_page_get_model (fixture->page)), ==, before + 3);
  g_assert_cmpstr (readings_chosen (fixture), ==, "713-J01");
}

int
main (int argc, char **argv)
{
  static const struct
  {
    const char *path;
    void (*test) (ReadingsFixture *fixture, gconstpointer data);
    int data;
  } tests[] = {
    { "/gui/readings/orders", test_orders, 0 },
    { "/gui/readings/all-columns", test_all_columns, 0 },
    { "/gui/readings/third-click", test_third_click, 0 },
    { "/gui/readings/sorted-again", test_sorted_again, 0 },
    { "/gui/readings/filtered-again", test_filtered_again, 0 },
    { "/gui/readings/search", test_search, 0 },
    { "/gui/readings/in-hand", test_in_hand, 0 },
    { "/gui/readings/room-1260", test_room, 1260 },
    { "/gui/readings/room-1014", test_room, 1014 },
    { "/gui/readings/room-800", test_room, 800 },
    { "/gui/readings/point-added", test_point_added, 0 },
  };

  gtk_test_init (&argc, &argv, NULL);
  bond_style_attach (gdk_display_get_default ());
  for (gsize i = 0; i < G_N_ELEMENTS (tests); i++)
    g_test_add (tests[i].path, ReadingsFixture, GINT_TO_POINTER (tests[i].data), readings_set_up, tests[i].test,
                readings_tear_down);
  return g_test_run ();
}
