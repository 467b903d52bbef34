/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * The diagram under a hand: what is clicked, moved and walked to.  Expected zones and
 * points come from a crossing-number test and a search over all points written here,
 * not from the geometry the diagram itself uses.
 */
#include "gui/widgets/diagram-private.h"
#include "plane.h"
#include "screen.h"

#include <math.h>

#define WIDTH 900
#define HEIGHT 700

typedef struct
{
  BondSurvey *survey;
  BondDiagram *diagram;
  GtkWindow *window;
  BondPoint *activated;
  char *place;
  BondPoint *moved;
  char *zone, *view;
  double x, y;
  guint n_signals;
} Hand;

static void
activated_cb (BondDiagram *diagram, BondPoint *point, gpointer data)
{
  Hand *hand = data;

  hand->activated = point;
  hand->n_signals++;
}

static void
place_activated_cb (BondDiagram *diagram, BondPoint *point, const char *place, gpointer data)
{
  Hand *hand = data;

  hand->activated = point;
  g_free (hand->place);
  hand->place = g_strdup (place);
  hand->n_signals++;
}

static void
zone_clicked_cb (BondDiagram *diagram, const char *zone, const char *view, double x, double y, gpointer data)
{
  Hand *hand = data;

  g_free (hand->zone);
  g_free (hand->view);
  hand->zone = g_strdup (zone);
  hand->view = g_strdup (view);
  hand->x = x;
  hand->y = y;
  hand->n_signals++;
}

static void
moved_cb (BondDiagram *diagram, BondPoint *point, double x, double y, gpointer data)
{
  Hand *hand = data;

  hand->moved = point;
  hand->x = x;
  hand->y = y;
  hand->n_signals++;
}

static void
forget (Hand *hand)
{
  g_clear_pointer (&hand->zone, g_free);
  g_clear_pointer (&hand->view, g_free);
  g_clear_pointer (&hand->place, g_free);
  hand->activated = hand->moved = NULL;
  hand->n_signals = 0;
}

static void
set_up (Hand *hand, gconstpointer data)
{
  hand->survey = plane_survey_new ("generic-jet-transport");
  hand->diagram = BOND_DIAGRAM (bond_diagram_new ());
  bond_diagram_set_survey (hand->diagram, hand->survey);
  g_signal_connect (hand->diagram, "point-activated", G_CALLBACK (activated_cb), hand);
  g_signal_connect (hand->diagram, "place-activated", G_CALLBACK (place_activated_cb), hand);
  g_signal_connect (hand->diagram, "zone-clicked", G_CALLBACK (zone_clicked_cb), hand);
  g_signal_connect (hand->diagram, "point-moved", G_CALLBACK (moved_cb), hand);
  hand->window = screen_show (GTK_WIDGET (hand->diagram), WIDTH, HEIGHT);
}

static void
tear_down (Hand *hand, gconstpointer data)
{
  forget (hand);
  gtk_window_destroy (hand->window);
  g_object_unref (hand->survey);
}

static const BondView *
view_of (Hand *hand)
{
  return bond_airframe_find_view (bond_survey_get_airframe (hand->survey), bond_diagram_get_view (hand->diagram));
}

/* --- oracles ------------------------------------------------------------------------------------------------------ */

/* Even-odd rule: how often a ray to the right crosses the ring. */
static gboolean
ring_holds (const GArray *ring, double x, double y)
{
  gboolean inside = FALSE;
  guint i, j;

  for (i = 0, j = ring->len - 1; i < ring->len; j = i++)
    {
      const BondXY *a = &g_array_index (ring, BondXY, i);
      const BondXY *b = &g_array_index (ring, BondXY, j);

      if ((a->y > y) != (b->y > y) && x < (b->x - a->x) * (y - a->y) / (b->y - a->y) + a->x)
        inside = !inside;
    }
  return inside;
}

static const char *
zone_by_polygons (const BondView *view, double x, double y)
{
  guint i, j;

  for (i = 0; i < view->shapes->len; i++)
    {
      const BondZoneShape *shape = g_ptr_array_index (view->shapes, i);

      for (j = 0; j < shape->rings->len; j++)
        if (ring_holds (g_ptr_array_index (shape->rings, j), x, y))
          return shape->zone;
    }
  return NULL;
}

/* @second: how far the next other point is from the nearest. */
static BondPoint *
nearest_by_search (Hand *hand, double px, double py, double *distance, double *second)
{
  BondPoint *best = NULL;
  double best_x = 0.0, best_y = 0.0;
  guint i, n = g_list_model_get_n_items (G_LIST_MODEL (hand->survey));

  *distance = *second = INFINITY;
  for (i = 0; i < 2 * n; i++) /* once for the nearest, once for its neighbour */
    {
      g_autoptr (BondPoint) point = g_list_model_get_item (G_LIST_MODEL (hand->survey), i % n);
      const BondPlacement *at
          = bond_point_spec_in_view (bond_point_get_spec (point), bond_diagram_get_view (hand->diagram));
      double qx, qy;

      if (at == NULL || at->drawn_zone != NULL)
        continue;
      bond_diagram_to_widget (hand->diagram, at->x, at->y, &qx, &qy);
      if (i >= n && point != best)
        *second = MIN (*second, hypot (qx - best_x, qy - best_y));
      else if (i < n && hypot (qx - px, qy - py) < *distance)
        {
          *distance = hypot (qx - px, qy - py);
          best = point;
          best_x = qx;
          best_y = qy;
        }
    }
  return best;
}

/* --- clicks ------------------------------------------------------------------------------------------------------- */

static void
check_click (Hand *hand, double px, double py)
{
  double x, y, distance, second, reach = MAX (12.0, 0.6 * bond_diagram_mark_size (hand->diagram));
  BondPoint *nearest = nearest_by_search (hand, px, py, &distance, &second);
  const char *zone;

  /* On the rim of the reach either answer will do; what marks that crowd do is test_a_crowd_is_one_mark(). */
  if (fabs (distance - reach) < 0.5 || (distance < reach && second < 30.0))
    return;
  bond_diagram_to_view (hand->diagram, px, py, &x, &y);
  zone = zone_by_polygons (view_of (hand), x, y);
  forget (hand);
  bond_diagram_click (hand->diagram, px, py, 1);
  if (distance < reach)
    {
      g_assert_true (hand->activated == nearest);
      g_assert_null (hand->zone);
      return;
    }
  g_assert_cmpstr (hand->zone, ==, zone);
  g_assert_null (hand->activated);
  if (zone == NULL)
    return;
  g_assert_cmpstr (hand->view, ==, bond_diagram_get_view (hand->diagram));
  g_assert_cmpfloat_with_epsilon (hand->x, x, 0.1); /* inches of the airframe */
  g_assert_cmpfloat_with_epsilon (hand->y, y, 0.1);
}

static void
test_clicks_find_zones_and_points (Hand *hand, gconstpointer data)
{
  const BondAirframe *airframe = bond_survey_get_airframe (hand->survey);
  guint i, j, n_views = airframe->views->len;

  g_assert_cmpuint (n_views, >=, 5);
  for (i = 0; i < n_views; i++)
    {
      const BondView *view = g_ptr_array_index (airframe->views, i);

      bond_diagram_set_view (hand->diagram, view->id);
      for (j = 0; j < 400; j++)
        {
          if (j == 200) /* half of them at another zoom */
            bond_diagram_zoom (hand->diagram, 2.5);
          check_click (hand, g_test_rand_double_range (0, WIDTH), g_test_rand_double_range (0, HEIGHT));
        }
    }
}

static void
test_a_view_may_draw_only_the_larger_zone (Hand *hand, gconstpointer data)
{
  const BondZoneShape *shape;
  double px, py;

  bond_diagram_set_view (hand->diagram, "side-left");
  shape = bond_diagram_shape_of (hand->diagram, "521");
  g_assert_nonnull (shape);
  g_assert_cmpstr (shape->zone, ==, "500"); /* the near wing is edge on */
  g_assert_cmpuint (shape->labels->len, >, 0);
  bond_diagram_to_widget (hand->diagram, g_array_index (shape->labels, BondLabel, 0).x,
                          g_array_index (shape->labels, BondLabel, 0).y, &px, &py);
  bond_diagram_click (hand->diagram, px, py, 1);
  g_assert_cmpstr (hand->zone, ==, "500");
  g_assert_cmpuint (bond_mark_field_count (hand->diagram->field, "500"), >, 0);
}

static void
test_a_double_click_zooms_and_places_nothing (Hand *hand, gconstpointer data)
{
  const BondZoneShape *shape = bond_diagram_shape_of (hand->diagram, "251");
  double px, py;

  bond_diagram_to_widget (hand->diagram, g_array_index (shape->labels, BondLabel, 0).x,
                          g_array_index (shape->labels, BondLabel, 0).y, &px, &py);
  bond_diagram_click (hand->diagram, px, py, 2);
  g_assert_cmpstr (bond_diagram_get_zone (hand->diagram), ==, "251");
  g_assert_cmpuint (hand->n_signals, ==, 0);
}

/* --- moves -------------------------------------------------------------------------------------------------------- */

static const BondPlacedMark *
some_mark (Hand *hand)
{
  g_assert_cmpuint (bond_mark_field_get_length (hand->diagram->field), >, 0);
  return bond_mark_field_get (hand->diagram->field, 0);
}

/* Only the point in hand can be moved. */
static void
grip_mark (Hand *hand, const BondPlacedMark *mark, double *px, double *py)
{
  bond_diagram_set_current (hand->diagram, mark->point);
  bond_diagram_to_widget (hand->diagram, mark->x, mark->y, px, py);
  bond_diagram_grip_begin (hand->diagram, *px, *py);
}

static void
test_a_small_tremble_is_a_click (Hand *hand, gconstpointer data)
{
  double px, py;

  grip_mark (hand, some_mark (hand), &px, &py);
  bond_diagram_grip_update (hand->diagram, px + 4.0, py + 3.0);
  g_assert_false (bond_diagram_grip_end (hand->diagram));
  g_assert_null (hand->moved);
}

/* A drag across marks that were not chosen is a pan: nothing may move by accident. */
static void
test_only_the_point_in_hand_moves (Hand *hand, gconstpointer data)
{
  const BondPlacedMark *mark = some_mark (hand);
  double px, py;

  bond_diagram_to_widget (hand->diagram, mark->x, mark->y, &px, &py);
  bond_diagram_grip_begin (hand->diagram, px, py);
  bond_diagram_grip_update (hand->diagram, px + 60.0, py + 40.0);
  g_assert_cmpint (hand->diagram->grip.kind, ==, BOND_GRIP_PAN);
  g_assert_true (bond_diagram_grip_end (hand->diagram));
  g_assert_null (hand->moved);
  g_assert_null (hand->activated);
}

static void
test_a_drag_moves_the_mark (Hand *hand, gconstpointer data)
{
  BondPoint *point = some_mark (hand)->point;
  const BondZoneShape *shape = bond_diagram_shape_of (hand->diagram, "251");
  const BondLabel *label = &g_array_index (shape->labels, BondLabel, 0);
  double px, py, to_x, to_y;

  grip_mark (hand, some_mark (hand), &px, &py);
  bond_diagram_to_widget (hand->diagram, label->x, label->y, &to_x, &to_y);
  bond_diagram_grip_update (hand->diagram, to_x, to_y);
  g_assert_true (bond_diagram_grip_end (hand->diagram));
  g_assert_true (hand->moved == point);
  g_assert_cmpuint (hand->n_signals, ==, 1);
  g_assert_cmpfloat_with_epsilon (hand->x, label->x, 0.1);
  g_assert_cmpfloat_with_epsilon (hand->y, label->y, 0.1);
}

static void
test_a_mark_never_leaves_the_airframe (Hand *hand, gconstpointer data)
{
  const double corners[][2] = { { 0, 0 }, { WIDTH, 0 }, { 0, HEIGHT }, { WIDTH, HEIGHT }, { -500, HEIGHT / 2.0 } };
  double px, py;
  guint i;

  for (i = 0; i < G_N_ELEMENTS (corners); i++)
    {
      forget (hand);
      grip_mark (hand, some_mark (hand), &px, &py);
      bond_diagram_grip_update (hand->diagram, corners[i][0], corners[i][1]);
      g_assert_true (bond_diagram_grip_end (hand->diagram));
      g_assert_nonnull (hand->moved);
      g_assert_nonnull (zone_by_polygons (view_of (hand), hand->x, hand->y));
    }
}

static void
test_a_move_can_be_given_up (Hand *hand, gconstpointer data)
{
  double px, py;

  grip_mark (hand, some_mark (hand), &px, &py);
  bond_diagram_grip_update (hand->diagram, px + 60.0, py + 60.0);
  g_assert_cmpint (hand->diagram->grip.kind, ==, BOND_GRIP_MOVE);
  bond_diagram_let_go (hand->diagram); /* what Esc does */
  g_assert_cmpint (hand->diagram->grip.kind, ==, BOND_GRIP_NONE);
  bond_diagram_grip_end (hand->diagram);
  g_assert_cmpuint (hand->n_signals, ==, 0);
}

static void
test_an_empty_place_pans (Hand *hand, gconstpointer data)
{
  double x, y, after_x, after_y;

  bond_diagram_zoom (hand->diagram, 3.0);
  bond_diagram_to_view (hand->diagram, 5.0, 5.0, &x, &y);
  bond_diagram_grip_begin (hand->diagram, 5.0, 5.0);
  g_assert_null (hand->diagram->grip.point);
  bond_diagram_grip_update (hand->diagram, 35.0, 25.0);
  g_assert_true (bond_diagram_grip_end (hand->diagram));
  bond_diagram_to_view (hand->diagram, 35.0, 25.0, &after_x, &after_y);
  g_assert_cmpfloat_with_epsilon (after_x, x, 1e-6);
  g_assert_cmpfloat_with_epsilon (after_y, y, 1e-6);
  g_assert_cmpuint (hand->n_signals, ==, 0);
}

/* --- views and zoom ----------------------------------------------------------------------------------------------- */

static void
notify_cb (GObject *object, GParamSpec *pspec, gpointer data)
{
  (*(guint *)data)++;
}

static void
test_a_zone_fills_the_window (Hand *hand, gconstpointer data)
{
  const BondZoneShape *shape = bond_diagram_shape_of (hand->diagram, "561");
  const GArray *ring = g_ptr_array_index (shape->rings, 0);
  guint i, notified = 0;

  g_signal_connect (hand->diagram, "notify::zone", G_CALLBACK (notify_cb), &notified);
  g_assert_true (bond_diagram_zoom_to_zone (hand->diagram, "561"));
  g_assert_cmpuint (notified, ==, 1);
  for (i = 0; i < ring->len; i++)
    {
      double px, py;

      bond_diagram_to_widget (hand->diagram, g_array_index (ring, BondXY, i).x, g_array_index (ring, BondXY, i).y, &px,
                              &py);
      g_assert_cmpfloat (px, >=, 0.0);
      g_assert_cmpfloat (px, <=, WIDTH);
      g_assert_cmpfloat (py, >=, 0.0);
      g_assert_cmpfloat (py, <=, HEIGHT);
    }
  g_assert_false (bond_diagram_zoom_to_zone (hand->diagram, "999"));
  bond_diagram_fit (hand->diagram);
  g_assert_null (bond_diagram_get_zone (hand->diagram));
  g_assert_cmpuint (notified, ==, 2);
}

static void
test_an_unknown_view_changes_nothing (Hand *hand, gconstpointer data)
{
  g_assert_cmpstr (bond_diagram_get_view (hand->diagram), ==, "plan-upper");
  bond_diagram_set_view (hand->diagram, "from-within");
  g_assert_cmpstr (bond_diagram_get_view (hand->diagram), ==, "plan-upper");
}

static void
test_the_current_point_is_brought_into_sight (Hand *hand, gconstpointer data)
{
  const BondPlacedMark *mark = some_mark (hand);
  double px, py;

  bond_diagram_zoom (hand->diagram, 20.0);
  bond_diagram_set_current (hand->diagram, mark->point);
  bond_diagram_to_widget (hand->diagram, mark->x, mark->y, &px, &py);
  g_assert_true (px > 0 && px < WIDTH && py > 0 && py < HEIGHT);
  g_assert_cmpstr (bond_diagram_view_for (hand->diagram, mark->point), ==, "plan-upper");
}

/* --- following the survey ----------------------------------------------------------------------------------------- */

static void
test_marks_follow_the_survey (Hand *hand, gconstpointer data)
{
  BondPoint *point = some_mark (hand)->point;
  guint before = bond_mark_field_get_length (hand->diagram->field);

  g_assert_cmpint (bond_mark_field_find (hand->diagram->field, point)->mark, ==, BOND_MARK_TO_MEASURE);
  plane_measure (hand->survey, bond_point_get_number (point), 100000);
  g_assert_cmpint (bond_mark_field_find (hand->diagram->field, point)->mark, !=, BOND_MARK_TO_MEASURE);
  plane_add_points (hand->survey, "plan-upper", 5);
  g_assert_cmpuint (bond_mark_field_get_length (hand->diagram->field), ==, before + 5);
}

static void
test_the_point_in_hand_has_its_ticks (Hand *hand, gconstpointer data)
{
  const BondPlacedMark *mark = some_mark (hand);
  const BondInks *inks = bond_inks_light ();
  cairo_surface_t *picture;
  double px, py;

  bond_diagram_set_inks_dark (hand->diagram, FALSE);
  bond_diagram_zoom_to_zone (hand->diagram, bond_point_get_spec (mark->point)->zone);
  bond_diagram_to_widget (hand->diagram, mark->x, mark->y, &px, &py);
  picture = screen_picture (GTK_WIDGET (hand->diagram), &inks->paper);
  g_assert_cmpuint (screen_count_ink (picture, (int)px - 40, (int)py - 20, 80, 40, &inks->accent), ==, 0);
  cairo_surface_destroy (picture);
  bond_diagram_set_current (hand->diagram, mark->point);
  bond_diagram_to_widget (hand->diagram, mark->x, mark->y, &px, &py);
  picture = screen_picture (GTK_WIDGET (hand->diagram), &inks->paper);
  g_assert_cmpuint (screen_count_ink (picture, (int)px - 40, (int)py - 20, 35, 40, &inks->accent), >, 15);
  g_assert_cmpuint (screen_count_ink (picture, (int)px + 5, (int)py - 20, 35, 40, &inks->accent), >, 15);
  cairo_surface_destroy (picture);
}

static void
test_a_survey_without_airframe_is_empty (void)
{
  g_autoptr (BondSource) source = bond_source_new_fixed ("2026-05-04T09:00:00+02:00", 30, 7);
  g_autoptr (BondSurvey) survey = bond_survey_new ("empty", source);
  GtkWidget *widget = bond_diagram_new ();
  GtkWindow *window = screen_show (widget, 300, 300);
  double x, y;

  bond_diagram_set_survey (BOND_DIAGRAM (widget), survey);
  g_assert_null (bond_diagram_get_view (BOND_DIAGRAM (widget)));
  g_assert_false (bond_diagram_to_view (BOND_DIAGRAM (widget), 1, 1, &x, &y));
  bond_diagram_click (BOND_DIAGRAM (widget), 100, 100, 1);
  bond_diagram_zoom (BOND_DIAGRAM (widget), 2.0);
  bond_diagram_fit (BOND_DIAGRAM (widget));
  bond_diagram_set_survey (BOND_DIAGRAM (widget), NULL);
  gtk_window_destroy (window);
}

/* --- aloud -------------------------------------------------------------------------------------------------------- */

static void
test_it_is_read_aloud (Hand *hand, gconstpointer data)
{
  BondPoint *point = some_mark (hand)->point;
  const BondPointSpec *spec = bond_point_get_spec (point);
  GtkAccessible *cursor = GTK_ACCESSIBLE (hand->diagram->cursor_widget);
  g_autofree char *label = NULL;
  g_autofree char *whole = NULL;

  gtk_test_accessible_assert_role (GTK_ACCESSIBLE (hand->diagram), GTK_ACCESSIBLE_ROLE_GROUP);
  whole = g_strdup_printf ("Upper view, %u points", bond_mark_field_get_length (hand->diagram->field));
  gtk_test_accessible_assert_property (GTK_ACCESSIBLE (hand->diagram), GTK_ACCESSIBLE_PROPERTY_LABEL, whole);
  gtk_test_accessible_assert_role (cursor, GTK_ACCESSIBLE_ROLE_LIST_ITEM);
  g_assert_true (gtk_test_accessible_has_property (cursor, GTK_ACCESSIBLE_PROPERTY_LABEL));
  bond_diagram_set_current (hand->diagram, point);
  label = g_strdup_printf ("%s, %s, %s, to measure", bond_point_get_number (point), spec->from,
                           bond_class_name (spec->klass));
  gtk_test_accessible_assert_property (cursor, GTK_ACCESSIBLE_PROPERTY_LABEL, label);
}

/* --- time --------------------------------------------------------------------------------------------------------- */

static void
test_ten_thousand_marks_are_drawn (Hand *hand, gconstpointer data)
{
  cairo_surface_t *surface = cairo_image_surface_create (CAIRO_FORMAT_ARGB32, WIDTH, HEIGHT);
  cairo_t *cr = cairo_create (surface);
  gint64 start;
  guint i;

  plane_add_points (hand->survey, "plan-upper", 10000);
  g_assert_cmpuint (bond_mark_field_get_length (hand->diagram->field), >=, 10000);
  bond_diagram_draw_base (hand->diagram, cr); /* fills the caches */
  start = g_get_monotonic_time ();
  for (i = 0; i < 10; i++)
    bond_diagram_draw_base (hand->diagram, cr);
  g_test_message ("10,000 marks: %.1f ms a drawing", (double)(g_get_monotonic_time () - start) / 10000.0);
  g_assert_cmpuint (hand->diagram->stands->len, >, 500);
  cairo_destroy (cr);
  cairo_surface_destroy (surface);
}

#define ADD(path, test) g_test_add (path, Hand, NULL, set_up, test, tear_down)

int
main (int argc, char **argv)
{
  gtk_test_init (&argc, &argv, NULL);
  ADD ("/diagram/clicks", test_clicks_find_zones_and_points);
  ADD ("/diagram/larger-zone", test_a_view_may_draw_only_the_larger_zone);
  ADD ("/diagram/double-click", test_a_double_click_zooms_and_places_nothing);
  ADD ("/diagram/tremble", test_a_small_tremble_is_a_click);
  ADD ("/diagram/move-only-in-hand", test_only_the_point_in_hand_moves);
  ADD ("/diagram/move", test_a_drag_moves_the_mark);
  ADD ("/diagram/move-clamped", test_a_mark_never_leaves_the_airframe);
  ADD ("/diagram/move-given-up", test_a_move_can_be_given_up);
  ADD ("/diagram/pan", test_an_empty_place_pans);
  ADD ("/diagram/zone", test_a_zone_fills_the_window);
  ADD ("/diagram/unknown-view", test_an_unknown_view_changes_nothing);
  ADD ("/diagram/current-in-sight", test_the_current_point_is_brought_into_sight);
  ADD ("/diagram/follows", test_marks_follow_the_survey);
  ADD ("/diagram/ticks", test_the_point_in_hand_has_its_ticks);
  g_test_add_func ("/diagram/empty", test_a_survey_without_airframe_is_empty);
  ADD ("/diagram/aloud", test_it_is_read_aloud);
  ADD ("/diagram/ten-thousand", test_ten_thousand_marks_are_drawn);
  return g_test_run ();
}
