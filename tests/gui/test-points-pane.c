/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * The points pane as an eye and a hand meet it: what stands in which row, what a
 * chip, a word, a fold or a key does, and that the row in hand is in sight.
 */
#include "gui/pages/points-chips.h"
#include "gui/pages/points-pane.h"
#include "gui/pages/points-row.h"
#include "plane.h"
#include "reach.h"
#include "screen.h"
#include "window-fixture.h"

#include <string.h>
#include <time.h>

#define TOO_LONG_MS 5000.0 /* it stands still; how fast it is belongs to figures, and sanitizers are slow */

typedef struct
{
  BondSurvey *survey;
  BondWalk *walk;
  GtkWidget *pane, *list;
  GtkWindow *window;
  guint chosen;
  guint typed;
} Fixture;

static void
chosen_cb (Fixture *fixture)
{
  fixture->chosen++;
}

static void
typed_cb (Fixture *fixture, guint character)
{
  fixture->typed = character;
}

static void
set_up (Fixture *fixture, gconstpointer data)
{
  fixture->survey = plane_survey_new ("generic-jet-transport");
  fixture->walk = bond_walk_new (fixture->survey);
  fixture->pane = bond_points_pane_new (fixture->walk);
  g_signal_connect_swapped (fixture->pane, "chosen", G_CALLBACK (chosen_cb), fixture);
  g_signal_connect_swapped (fixture->pane, "typed", G_CALLBACK (typed_cb), fixture);
  fixture->window = screen_show (fixture->pane, 320, 700);
  fixture->list = window_find_of_type (fixture->pane, GTK_TYPE_LIST_VIEW, NULL);
  g_assert_nonnull (fixture->list);
}

static void
tear_down (Fixture *fixture, gconstpointer data)
{
  gtk_window_destroy (fixture->window);
  g_clear_object (&fixture->walk);
  g_clear_object (&fixture->survey);
  screen_spin (20);
}

static GListModel *
items_of (Fixture *fixture)
{
  return G_LIST_MODEL (gtk_list_view_get_model (GTK_LIST_VIEW (fixture->list)));
}

static BondPointsItem *
nth_item (Fixture *fixture, guint i)
{
  g_autoptr (BondPointsItem) item = g_list_model_get_item (items_of (fixture), i);

  return item; /* the model holds it */
}

static guint
n_points (Fixture *fixture)
{
  return g_list_model_get_n_items (G_LIST_MODEL (fixture->survey));
}

static BondPoint *
nth_point (Fixture *fixture, guint i)
{
  g_autoptr (BondPoint) point = g_list_model_get_item (G_LIST_MODEL (fixture->survey), i);

  return point;
}

/* Points among the rows. */
static guint
n_listed (Fixture *fixture)
{
  guint n = 0;

  for (guint i = 0; i < g_list_model_get_n_items (items_of (fixture)); i++)
    n += bond_points_item_get_point (nth_item (fixture, i)) != NULL;
  return n;
}

/* The row on the screen that shows @point. */
static GtkWidget *
row_of (GtkWidget *widget, BondPoint *point)
{
  if (BOND_IS_POINTS_ROW (widget))
    {
      BondPointsItem *item = bond_points_row_get_item (BOND_POINTS_ROW (widget));

      return item != NULL && bond_points_item_get_point (item) == point ? widget : NULL;
    }
  for (GtkWidget *child = gtk_widget_get_first_child (widget); child != NULL;
       child = gtk_widget_get_next_sibling (child))
    {
      GtkWidget *found = row_of (child, point);

      if (found != NULL)
        return found;
    }
  return NULL;
}

static gboolean
in_sight (Fixture *fixture, BondPoint *point)
{
  GtkWidget *row = row_of (fixture->list, point);
  graphene_rect_t at;

  if (row == NULL || !gtk_widget_get_mapped (row) || !gtk_widget_compute_bounds (row, fixture->list, &at))
    return FALSE;
  return at.origin.y >= 0 && at.origin.y + at.size.height <= gtk_widget_get_height (fixture->list);
}

static void
press_key (GtkWidget *widget, guint keyval)
{
  g_autoptr (GListModel) controllers = gtk_widget_observe_controllers (widget);
  gboolean taken = FALSE;

  for (guint i = 0; i < g_list_model_get_n_items (controllers) && !taken; i++)
    {
      g_autoptr (GtkEventController) controller = g_list_model_get_item (controllers, i);

      if (GTK_IS_EVENT_CONTROLLER_KEY (controller))
        g_signal_emit_by_name (controller, "key-pressed", keyval, 0, 0, &taken);
    }
}

static void
search (Fixture *fixture, const char *words)
{
  GtkWidget *entry = window_find_of_type (fixture->pane, GTK_TYPE_SEARCH_ENTRY, NULL);

  gtk_editable_set_text (GTK_EDITABLE (entry), words);
  g_signal_emit_by_name (entry, "search-changed"); /* without its delay */
  screen_spin (30);
}

/* Points in walking order, each under the header of its zone, which counts them. */
static void
test_order (Fixture *fixture, gconstpointer data)
{
  const char *zone = NULL;
  guint at = 0, counted = 0;

  for (guint i = 0; i < g_list_model_get_n_items (items_of (fixture)); i++)
    {
      BondPointsItem *item = nth_item (fixture, i);
      BondPoint *point = bond_points_item_get_point (item);
      guint done, of;

      if (point == NULL)
        {
          bond_points_item_get_progress (item, &done, &of);
          g_assert_cmpuint (done, ==, 0);
          g_assert_cmpuint (of, >, 0);
          counted += of;
          zone = bond_points_item_get_zone (item);
          continue;
        }
      g_assert_true (point == nth_point (fixture, at++));
      g_assert_cmpstr (bond_point_get_spec (point)->zone, ==, zone);
    }
  g_assert_cmpuint (at, ==, n_points (fixture));
  g_assert_cmpuint (counted, ==, at);
}

static void
test_progress (Fixture *fixture, gconstpointer data)
{
  BondPoint *point = nth_point (fixture, 0);
  g_autofree char *before = NULL;
  g_autofree char *after = NULL;
  guint done, of;

  bond_points_item_get_progress (nth_item (fixture, 0), &done, &of);
  before = g_strdup_printf ("0 of %u", of);
  after = g_strdup_printf ("1 of %u", of);
  g_assert_true (window_says (fixture->pane, before));
  plane_measure (fixture->survey, bond_point_get_number (point), BOND_NOHM_PER_MILLIOHM / 2);
  screen_spin (50);
  g_assert_true (window_says (fixture->pane, after));
  g_assert_true (window_says (row_of (fixture->list, point), bond_point_get_number (point)));
}

static void
test_search (Fixture *fixture, gconstpointer data)
{
  g_autofree char *one = g_strdup_printf ("1 of %u shown", n_points (fixture));
  g_autofree char *none = g_strdup_printf ("No point matches. Clear the filter to see all %u.", n_points (fixture));

  search (fixture, bond_point_get_number (nth_point (fixture, 4)));
  g_assert_cmpuint (n_listed (fixture), ==, 1);
  g_assert_true (window_says (fixture->pane, one));
  search (fixture, "nowhere-at-all");
  g_assert_cmpuint (n_listed (fixture), ==, 0);
  g_assert_true (window_says (fixture->pane, none));
  window_press (fixture->pane, "Clear");
  screen_spin (30);
  g_assert_cmpuint (n_listed (fixture), ==, n_points (fixture));
  g_assert_false (window_says (fixture->pane, none));
  g_assert_cmpuint (fixture->chosen, >, 0); /* the field has the focus again */
}

static void
test_chips (Fixture *fixture, gconstpointer data)
{
  BondPointsChips *chips = BOND_POINTS_CHIPS (window_find_of_type (fixture->pane, BOND_TYPE_POINTS_CHIPS, NULL));
  g_autofree char *all = g_strdup_printf ("All %u", n_points (fixture));

  g_assert_true (window_says (GTK_WIDGET (chips), all));
  plane_measure (fixture->survey, bond_point_get_number (nth_point (fixture, 0)), BOND_NOHM_PER_MILLIOHM / 2);
  bond_points_chips_choose (chips, BOND_POINTS_TO_MEASURE);
  screen_spin (30);
  g_assert_cmpuint (n_listed (fixture), ==, n_points (fixture) - 1);
  g_assert_true (bond_points_item_get_point (nth_item (fixture, 1)) != nth_point (fixture, 0));
  /* What was shown stays when it is measured: the row in hand never goes from under the hand. */
  plane_measure (fixture->survey, bond_point_get_number (nth_point (fixture, 1)), BOND_NOHM_PER_MILLIOHM / 2);
  screen_spin (30);
  g_assert_cmpuint (n_listed (fixture), ==, n_points (fixture) - 1);
  bond_points_chips_choose (chips, BOND_POINTS_ALL);
  g_assert_cmpuint (n_listed (fixture), ==, n_points (fixture));
}

static void
test_folds (Fixture *fixture, gconstpointer data)
{
  guint done, of, all = n_points (fixture);

  bond_points_item_get_progress (nth_item (fixture, 0), &done, &of);
  g_signal_emit_by_name (fixture->list, "activate", 0);
  g_assert_cmpuint (n_listed (fixture), ==, all - of);
  g_assert_true (bond_points_item_get_folded (nth_item (fixture, 0)));
  bond_walk_go (fixture->walk, nth_point (fixture, 0), NULL); /* the header stands for the row in hand */
  g_assert_cmpuint (gtk_single_selection_get_selected (
                        GTK_SINGLE_SELECTION (gtk_list_view_get_model (GTK_LIST_VIEW (fixture->list)))),
                    ==, 0);
  g_signal_emit_by_name (fixture->list, "activate", 0);
  g_assert_cmpuint (n_listed (fixture), ==, all);
}

static void
test_keys (Fixture *fixture, gconstpointer data)
{
  press_key (fixture->list, GDK_KEY_7);
  g_assert_cmpuint (fixture->typed, ==, '7');
  fixture->typed = 0;
  press_key (fixture->list, GDK_KEY_KP_3);
  g_assert_cmpuint (fixture->typed, ==, '3');
  g_signal_emit_by_name (fixture->list, "activate", 2);
  g_assert_true (bond_walk_get_point (fixture->walk) == nth_point (fixture, 1));
  g_assert_cmpuint (fixture->chosen, ==, 1);
}

/* The row with the focus; NULL = the focus is elsewhere. */
static BondPointsItem *
focused_item (Fixture *fixture)
{
  GtkWidget *focus = gtk_window_get_focus (fixture->window);
  GtkWidget *row = focus != NULL ? gtk_widget_get_first_child (focus) : NULL;

  return BOND_IS_POINTS_ROW (row) ? bond_points_row_get_item (BOND_POINTS_ROW (row)) : NULL;
}

/* Headers and points have the focus and are read aloud; Tab goes to the row in hand, and out of the list at once. */
static void
test_focus (Fixture *fixture, gconstpointer data)
{
  BondPoint *third = nth_point (fixture, 2);
  int tabs = 0;

  reach_assert (fixture->window);
  bond_walk_go (fixture->walk, third, NULL);
  screen_spin (50);
  gtk_window_set_focus (fixture->window, NULL);
  while (focused_item (fixture) == NULL && tabs++ < 10)
    g_assert_true (gtk_widget_child_focus (GTK_WIDGET (fixture->window), GTK_DIR_TAB_FORWARD));
  g_assert_true (bond_points_item_get_point (focused_item (fixture)) == third);
  gtk_widget_child_focus (GTK_WIDGET (fixture->window), GTK_DIR_TAB_FORWARD);
  g_assert_null (focused_item (fixture));
  bond_points_pane_grab_list (BOND_POINTS_PANE (fixture->pane));
  g_assert_true (bond_points_item_get_point (focused_item (fixture)) == third);
  g_assert_true (gtk_widget_child_focus (GTK_WIDGET (fixture->window), GTK_DIR_TAB_BACKWARD));
  g_assert_null (focused_item (fixture));
}

/* A header has the focus, and Left and Right fold it; what is in hand stays so. */
static void
test_header (Fixture *fixture, gconstpointer data)
{
  GtkSingleSelection *selection = GTK_SINGLE_SELECTION (items_of (fixture));
  guint of, done, all = n_points (fixture);

  bond_points_item_get_progress (nth_item (fixture, 0), &done, &of);
  g_assert_true (gtk_widget_grab_focus (gtk_widget_get_first_child (fixture->list)));
  gtk_single_selection_set_selected (selection, 0);
  g_assert_true (bond_walk_get_point (fixture->walk) == nth_point (fixture, 0));
  g_assert_cmpuint (gtk_single_selection_get_selected (selection), ==, 1);
  press_key (fixture->list, GDK_KEY_Left);
  g_assert_cmpuint (n_listed (fixture), ==, all - of);
  screen_spin (50);
  press_key (fixture->list, GDK_KEY_Right);
  g_assert_cmpuint (n_listed (fixture), ==, all);
}

static void
test_jump (Fixture *fixture, gconstpointer data)
{
  BondPoint *last = nth_point (fixture, n_points (fixture) - 1);

  g_assert_true (in_sight (fixture, bond_walk_get_point (fixture->walk)));
  g_assert_false (in_sight (fixture, last));
  bond_walk_go (fixture->walk, last, NULL);
  screen_spin (150);
  g_assert_true (in_sight (fixture, last));
  bond_walk_go (fixture->walk, nth_point (fixture, 0), NULL);
  screen_spin (150);
  g_assert_true (in_sight (fixture, nth_point (fixture, 0)));
}

/* Milliseconds of work, which what else the machine does makes no longer. */
static double
work_ms (void)
{
  return (double)clock () * 1000.0 / CLOCKS_PER_SEC;
}

/* Lets the pane settle and says what it took since @start. */
static double
settle (const char *what, double start)
{
  double took;

  while (g_main_context_iteration (NULL, FALSE))
    ;
  took = work_ms () - start;
  g_test_message ("%s: %.1f ms", what, took);
  return took;
}

/* As a hand types it: the list anew after every letter. */
static void
type_search (GtkWidget *pane, const char *word)
{
  GtkWidget *entry = window_find_of_type (pane, GTK_TYPE_SEARCH_ENTRY, NULL);

  for (gsize n = 1; n <= strlen (word); n++)
    {
      g_autofree char *part = g_strndup (word, n);
      double start = work_ms ();

      gtk_editable_set_text (GTK_EDITABLE (entry), part);
      g_signal_emit_by_name (entry, "search-changed");
      g_assert_cmpfloat (settle (part, start), <, TOO_LONG_MS);
    }
}

/* The figures are for who reads the log; what fails is only what a hand would have to wait for. */
static void
test_three_thousand (Fixture *fixture, gconstpointer data)
{
  g_autoptr (BondSurvey) survey = plane_survey_new ("generic-jet-transport");
  g_autoptr (BondPoint) last = NULL;
  g_autoptr (BondWalk) walk = NULL;
  GtkWindow *window;
  GtkWidget *pane;
  double start;

  plane_add_points (survey, "plan-upper", 3000 - g_list_model_get_n_items (G_LIST_MODEL (survey)));
  last = g_list_model_get_item (G_LIST_MODEL (survey), 2999);
  walk = bond_walk_new (survey);
  start = work_ms ();
  pane = bond_points_pane_new (walk);
  g_assert_cmpfloat (settle ("build", start), <, TOO_LONG_MS);
  window = screen_show (pane, 320, 700);
  start = work_ms ();
  bond_points_chips_choose (BOND_POINTS_CHIPS (window_find_of_type (pane, BOND_TYPE_POINTS_CHIPS, NULL)),
                            BOND_POINTS_TO_MEASURE);
  g_assert_cmpfloat (settle ("filter", start), <, TOO_LONG_MS);
  type_search (pane, "flap");
  start = work_ms ();
  window_press (pane, "Clear");
  g_assert_cmpfloat (settle ("clear", start), <, TOO_LONG_MS);
  start = work_ms ();
  bond_walk_go (walk, last, NULL);
  g_assert_cmpfloat (settle ("jump to the last row", start), <, TOO_LONG_MS);
  gtk_window_destroy (window);
}

int
main (int argc, char **argv)
{
  static const struct
  {
    const char *path;
    void (*test) (Fixture *, gconstpointer);
  } tests[] = { { "/points-pane/order", test_order },   { "/points-pane/progress", test_progress },
                { "/points-pane/search", test_search }, { "/points-pane/chips", test_chips },
                { "/points-pane/folds", test_folds },   { "/points-pane/keys", test_keys },
                { "/points-pane/focus", test_focus },   { "/points-pane/header", test_header },
                { "/points-pane/jump", test_jump },     { "/points-pane/three-thousand", test_three_thousand } };

  g_setenv ("GTK_A11Y", "test", TRUE);
  g_setenv ("GSK_RENDERER", "cairo", TRUE);
  g_test_init (&argc, &argv, NULL);
  gtk_init ();
  for (gsize i = 0; i < G_N_ELEMENTS (tests); i++)
    g_test_add (tests[i].path, Fixture, NULL, set_up, tests[i].test, tear_down);
  return g_test_run ();
}
