/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * Where marks stand on the diagram: crowds at whole-airframe zoom, places of groups,
 * the lower view both ways, keys, and what is read aloud.
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
  double x, y;
  guint n_released;
} Eye;

static void
activated_cb (BondDiagram *diagram, BondPoint *point, gpointer data)
{
  ((Eye *)data)->activated = point;
}

static void
place_activated_cb (BondDiagram *diagram, BondPoint *point, const char *place, gpointer data)
{
  Eye *eye = data;

  eye->activated = point;
  g_free (eye->place);
  eye->place = g_strdup (place);
}

static void
zone_clicked_cb (BondDiagram *diagram, const char *zone, const char *view, double x, double y, gpointer data)
{
  ((Eye *)data)->x = x;
  ((Eye *)data)->y = y;
}

static void
released_cb (BondDiagram *diagram, gpointer data)
{
  ((Eye *)data)->n_released++;
}

static void
set_up (Eye *eye, gconstpointer data)
{
  eye->survey = plane_survey_new ("generic-jet-transport");
  eye->diagram = BOND_DIAGRAM (bond_diagram_new ());
  bond_diagram_set_survey (eye->diagram, eye->survey);
  g_signal_connect (eye->diagram, "point-activated", G_CALLBACK (activated_cb), eye);
  g_signal_connect (eye->diagram, "place-activated", G_CALLBACK (place_activated_cb), eye);
  g_signal_connect (eye->diagram, "zone-clicked", G_CALLBACK (zone_clicked_cb), eye);
  g_signal_connect (eye->diagram, "released", G_CALLBACK (released_cb), eye);
  eye->window = screen_show (GTK_WIDGET (eye->diagram), WIDTH, HEIGHT);
}

static void
tear_down (Eye *eye, gconstpointer data)
{
  g_free (eye->place);
  gtk_window_destroy (eye->window);
  g_object_unref (eye->survey);
}

/* A point of @n_places bolts at (@x, @y) of the upper view, zone 521; the ids of its places are "p1", "p2" … */
static BondPoint *
add_point (Eye *eye, const char *number, double x, double y, BondArrangement arrangement, guint n_places)
{
  g_autofree char *id = g_strconcat ("q-", number, NULL);
  BondPointSpec *spec = bond_point_spec_new (id, number, BOND_CLASS_FASTENER, "521");
  BondEntry *entry = bond_entry_new (BOND_ENTRY_POINT);
  g_autoptr (GError) error = NULL;
  guint i;

  g_free (spec->from);
  g_free (spec->to);
  spec->from = g_strdup ("Panel");
  spec->to = g_strdup ("Structure");
  spec->arrangement = arrangement;
  bond_point_spec_add_placement (spec, "plan-upper", x, y, TRUE, NULL);
  entry->point = g_strdup (id);
  entry->spec = spec;
  bond_survey_record_now (eye->survey, entry, &error);
  g_assert_no_error (error);
  for (i = 1; n_places > 1 && i <= n_places; i++)
    {
      BondEntry *place = bond_entry_new (BOND_ENTRY_PLACE);

      place->point = g_strdup (id);
      place->place = g_strdup_printf ("p%u", i);
      place->place_spec.label = g_strdup_printf ("%u", i);
      place->place_spec.in_sample = i % 2 == 1;
      bond_survey_record_now (eye->survey, place, &error);
      g_assert_no_error (error);
    }
  return bond_survey_find_point (eye->survey, id);
}

static const BondLabel *
middle_of (Eye *eye, const char *zone)
{
  const BondZoneShape *shape = bond_diagram_shape_of (eye->diagram, zone);

  g_assert_nonnull (shape);
  return &g_array_index (shape->labels, BondLabel, 0);
}

static double
stand_distance (const BondStand *a, const BondStand *b)
{
  return hypot (a->px - b->px, a->py - b->py);
}

/* --- crowds ------------------------------------------------------------------------------------------------------- */

/* No two marks on the screen cover more than a corner of each other, and none is lost: stands and counts add up. */
static void
test_no_mark_covers_another (Eye *eye, gconstpointer data)
{
  guint i, j, total = 0;
  double size;

  plane_add_points (eye->survey, "plan-upper", 400);
  bond_diagram_lay_out (eye->diagram);
  size = bond_diagram_mark_size (eye->diagram);
  for (i = 0; i < eye->diagram->stands->len; i++)
    {
      const BondStand *a = &g_array_index (eye->diagram->stands, BondStand, i);

      total += 1 + a->n_more;
      for (j = 0; j < i; j++)
        {
          const BondStand *b = &g_array_index (eye->diagram->stands, BondStand, j);

          g_assert_true (fabs (a->px - b->px) >= 0.7 * size || fabs (a->py - b->py) >= 0.55 * size);
        }
    }
  g_assert_cmpuint (total, ==, bond_mark_field_get_length (eye->diagram->field));
}

static void
test_a_crowd_is_one_mark (Eye *eye, gconstpointer data)
{
  const BondLabel *at = middle_of (eye, "521");
  BondPoint *near = add_point (eye, "521-F91", at->x, at->y, BOND_ARRANGEMENT_ROW, 1);
  BondPoint *next = add_point (eye, "521-F92", at->x + 2.0, at->y, BOND_ARRANGEMENT_ROW, 1);
  double before = bond_diagram_closeness (eye->diagram);
  const BondStand *one;
  double px, py;

  one = bond_diagram_find_stand (eye->diagram, near, -1);
  one = one != NULL ? one : bond_diagram_find_stand (eye->diagram, next, -1);
  g_assert_nonnull (one);
  g_assert_cmpuint (one->n_more, >=, 1);
  px = one->px;
  py = one->py;
  bond_diagram_click (eye->diagram, px, py, 1);
  g_assert_null (eye->activated); /* it comes closer instead of guessing */
  g_assert_cmpfloat (bond_diagram_closeness (eye->diagram), >, 2.0 * before);
  bond_diagram_zoom_to_zone (eye->diagram, "521");
  g_assert_nonnull (bond_diagram_find_stand (eye->diagram, near, -1));
  g_assert_nonnull (bond_diagram_find_stand (eye->diagram, next, -1));
  g_assert_cmpfloat (stand_distance (bond_diagram_find_stand (eye->diagram, near, -1),
                                     bond_diagram_find_stand (eye->diagram, next, -1)),
                     >, bond_diagram_mark_size (eye->diagram));
  bond_diagram_click (eye->diagram, bond_diagram_find_stand (eye->diagram, next, -1)->px,
                      bond_diagram_find_stand (eye->diagram, next, -1)->py, 1);
  g_assert_true (eye->activated == next);
}

/* Points at the very same place can be told apart, too. */
static void
test_one_place_is_fanned_out (Eye *eye, gconstpointer data)
{
  const BondLabel *at = middle_of (eye, "521");
  BondPoint *points[20];
  guint i, j;

  for (i = 0; i < G_N_ELEMENTS (points); i++)
    {
      g_autofree char *number = g_strdup_printf ("521-F%02u", 60 + i);

      points[i] = add_point (eye, number, at->x, at->y, BOND_ARRANGEMENT_ROW, 1);
    }
  bond_diagram_set_current (eye->diagram, points[0]);
  bond_diagram_zoom (eye->diagram, 30.0);
  bond_diagram_set_current (eye->diagram, points[1]);
  for (i = 0; i < G_N_ELEMENTS (points); i++)
    for (j = 0; j < i; j++)
      {
        const BondStand *a = bond_diagram_find_stand (eye->diagram, points[i], -1);
        const BondStand *b = bond_diagram_find_stand (eye->diagram, points[j], -1);

        g_assert_true (a != NULL && b != NULL);
        g_assert_cmpfloat (stand_distance (a, b), >, bond_diagram_mark_size (eye->diagram));
      }
}

static void
test_the_worst_is_seen (Eye *eye, gconstpointer data)
{
  const BondLabel *at = middle_of (eye, "521");
  BondPoint *good = add_point (eye, "521-F91", at->x, at->y, BOND_ARRANGEMENT_ROW, 1);
  BondPoint *bad = add_point (eye, "521-F92", at->x, at->y, BOND_ARRANGEMENT_ROW, 1);

  plane_measure (eye->survey, "521-F91", 10000);
  plane_measure (eye->survey, "521-F92", 20 * BOND_NOHM_PER_MILLIOHM);
  g_assert_null (bond_diagram_find_stand (eye->diagram, good, -1));
  g_assert_nonnull (bond_diagram_find_stand (eye->diagram, bad, -1));
  bond_diagram_set_current (eye->diagram, good); /* but the point in hand always is */
  g_assert_nonnull (bond_diagram_find_stand (eye->diagram, good, -1));
}

/* By finger, or where it is set, two marks near to each other are not guessed between. */
static void
test_too_near_comes_closer (Eye *eye, gconstpointer data)
{
  const BondLabel *at = middle_of (eye, "521");
  double size = bond_diagram_mark_size (eye->diagram), step = 1.2 * size / eye->diagram->camera.scale;
  BondPoint *point = add_point (eye, "521-F91", at->x, at->y, BOND_ARRANGEMENT_ROW, 1);
  const BondStand *stand;
  double px, py;

  add_point (eye, "521-F92", at->x + step, at->y, BOND_ARRANGEMENT_ROW, 1);
  stand = bond_diagram_find_stand (eye->diagram, point, -1);
  g_assert_nonnull (stand);
  px = stand->px;
  py = stand->py;
  bond_diagram_click (eye->diagram, px, py, 1);
  g_assert_true (eye->activated == point);
  eye->activated = NULL;
  bond_diagram_set_pick_apart (eye->diagram, 2.0 * size);
  bond_diagram_click (eye->diagram, px, py, 1);
  g_assert_null (eye->activated);
  g_assert_cmpfloat (bond_diagram_closeness (eye->diagram), >, 2.0);
}

static void
test_the_pick_radius_can_be_set (Eye *eye, gconstpointer data)
{
  const BondPlacedMark *mark
      = bond_mark_field_find (eye->diagram->field, bond_survey_find_number (eye->survey, "251-E01"));
  double px, py;

  mark = mark != NULL ? mark : bond_mark_field_get (eye->diagram->field, 0);
  bond_diagram_zoom_to_zone (eye->diagram, bond_point_get_spec (mark->point)->zone);
  bond_diagram_to_widget (eye->diagram, mark->x, mark->y, &px, &py);
  bond_diagram_click (eye->diagram, px + 40.0, py, 1);
  g_assert_true (eye->activated != mark->point);
  bond_diagram_set_pick_radius (eye->diagram, 45.0); /* 12 mm at 96 dpi */
  bond_diagram_click (eye->diagram, px + 40.0, py, 1);
  g_assert_nonnull (eye->activated);
}

/* --- groups ------------------------------------------------------------------------------------------------------- */

static void
test_places_keep_apart (void)
{
  static const BondArrangement all[] = { BOND_ARRANGEMENT_ROW, BOND_ARRANGEMENT_RING, BOND_ARRANGEMENT_LEGS };
  BondXY offset[60];
  guint a, n, i, j;

  for (a = 0; a < G_N_ELEMENTS (all); a++)
    for (n = 2; n <= G_N_ELEMENTS (offset); n++)
      {
        double drop = bond_places_arrange (all[a], n, 24.0, offset);

        for (i = 0; i < n; i++)
          {
            g_assert_cmpfloat (hypot (offset[i].x, offset[i].y), >, 18.0); /* clear of the group's own mark */
            g_assert_cmpfloat (offset[i].y, <, drop);
            for (j = 0; j < i; j++)
              g_assert_cmpfloat (hypot (offset[i].x - offset[j].x, offset[i].y - offset[j].y), >,
                                 bond_places_size (24.0));
          }
      }
}

static void
test_a_group_opens_close_up (Eye *eye, gconstpointer data)
{
  const BondLabel *at = middle_of (eye, "521");
  BondPoint *panel = add_point (eye, "521-F91", at->x, at->y, BOND_ARRANGEMENT_RING, 8);
  const BondStand *third;
  double px, py;

  g_assert_false (bond_diagram_has_places (eye->diagram, panel));
  g_assert_null (bond_diagram_find_stand (eye->diagram, panel, 2));
  bond_diagram_zoom_to_zone (eye->diagram, "521");
  g_assert_true (bond_diagram_has_places (eye->diagram, panel));
  third = bond_diagram_find_stand (eye->diagram, panel, 2);
  g_assert_nonnull (third);
  g_assert_cmpint (third->mark, ==, BOND_MARK_TO_MEASURE);
  g_assert_cmpint (bond_diagram_find_stand (eye->diagram, panel, 3)->mark, ==, BOND_MARK_NOT_IN_SAMPLE);
  px = third->px;
  py = third->py;
  bond_diagram_click (eye->diagram, px, py, 1);
  g_assert_true (eye->activated == panel);
  g_assert_cmpstr (eye->place, ==, "p3");
}

/* --- the lower view ----------------------------------------------------------------------------------------------- */

/* From below the left wing is at right, seen through it is at left; coordinates are the airframe's in both. */
static void
test_the_lower_view_both_ways (Eye *eye, gconstpointer data)
{
  const BondView *view = bond_airframe_find_view (bond_survey_get_airframe (eye->survey), "plan-lower");
  const BondPlacedMark *mark;
  BondPoint *left = NULL;
  double px, py, mirrored_px, mirrored_py, x, y;
  guint i;

  bond_diagram_set_view (eye->diagram, "plan-lower");
  for (i = 0; left == NULL; i++)
    {
      mark = bond_mark_field_get (eye->diagram->field, i);
      if (g_str_has_prefix (bond_point_get_number (mark->point), "521"))
        left = mark->point;
    }
  x = bond_point_spec_in_view (bond_point_get_spec (left), "plan-lower")->x;
  y = bond_point_spec_in_view (bond_point_get_spec (left), "plan-lower")->y;
  bond_diagram_to_widget (eye->diagram, x, y, &px, &py);
  g_assert_cmpfloat (px, >, WIDTH / 2.0);
  bond_diagram_set_lower_seen_through (eye->diagram, TRUE);
  g_assert_cmpstr (bond_diagram_get_view (eye->diagram), ==, "plan-lower");
  bond_diagram_to_widget (eye->diagram, x, y, &mirrored_px, &mirrored_py);
  g_assert_cmpfloat (mirrored_px, <, WIDTH / 2.0);
  g_assert_cmpfloat_with_epsilon (mirrored_px, WIDTH - px, 2.0);
  g_assert_cmpfloat_with_epsilon (mirrored_py, py, 0.01);
  mark = bond_mark_field_find (eye->diagram->field, left);
  g_assert_cmpfloat_with_epsilon (mark->x, view->width - x, 1e-9);
  g_assert_cmpstr (bond_view_hit (eye->diagram->view, mark->x, mark->y)->zone, ==, bond_view_hit (view, x, y)->zone);
  bond_diagram_set_lower_seen_through (eye->diagram, FALSE);
  bond_diagram_to_widget (eye->diagram, x, y, &mirrored_px, &mirrored_py);
  g_assert_cmpfloat_with_epsilon (mirrored_px, px, 1e-6);
}

static void
test_a_click_seen_through_gives_true_coordinates (Eye *eye, gconstpointer data)
{
  double px, py, x, y;

  bond_diagram_set_view (eye->diagram, "plan-lower");
  bond_diagram_set_lower_seen_through (eye->diagram, TRUE);
  for (px = 200.0; px < 700.0; px += 7.0)
    {
      py = 360.0;
      eye->x = eye->y = -1.0;
      bond_diagram_click (eye->diagram, px, py, 1);
      if (eye->x < 0.0)
        continue;
      bond_diagram_to_widget (eye->diagram, eye->x, eye->y, &x, &y);
      g_assert_cmpfloat_with_epsilon (x, px, 1e-6);
      g_assert_cmpfloat_with_epsilon (y, py, 1e-6);
    }
}

/* The front view looks at the nose: the aircraft's left is at the viewer's right. */
static void
test_the_front_view_looks_at_the_nose (Eye *eye, gconstpointer data)
{
  const BondView *front = bond_airframe_find_view (bond_survey_get_airframe (eye->survey), "front");
  BondCoordinate sta, bl, wl;

  bond_view_coordinates (front, front->width * 0.9, front->height / 2.0, &sta, &bl, &wl);
  g_assert_true (bl.known);
  g_assert_cmpfloat (bl.value, <, 0.0); /* butt lines are negative to the left */
}

/* --- keys --------------------------------------------------------------------------------------------------------- */

static gboolean
press (Eye *eye, guint keyval)
{
  g_autoptr (GListModel) controllers = gtk_widget_observe_controllers (GTK_WIDGET (eye->diagram));
  guint i, j;

  for (i = 0; i < g_list_model_get_n_items (controllers); i++)
    {
      g_autoptr (GtkEventController) controller = g_list_model_get_item (controllers, i);

      if (!GTK_IS_SHORTCUT_CONTROLLER (controller))
        continue;
      for (j = 0; j < g_list_model_get_n_items (G_LIST_MODEL (controller)); j++)
        {
          g_autoptr (GtkShortcut) shortcut = g_list_model_get_item (G_LIST_MODEL (controller), j);
          g_autofree char *text = gtk_shortcut_trigger_to_string (gtk_shortcut_get_trigger (shortcut));

          if (g_strcmp0 (text, gdk_keyval_name (keyval)) == 0)
            return gtk_shortcut_action_activate (gtk_shortcut_get_action (shortcut), GTK_SHORTCUT_ACTION_EXCLUSIVE,
                                                 GTK_WIDGET (eye->diagram), gtk_shortcut_get_arguments (shortcut));
        }
    }
  return FALSE;
}

static void
test_keys_reach_every_mark (Eye *eye, gconstpointer data)
{
  const BondMarkField *field = eye->diagram->field;
  guint n = bond_mark_field_get_length (field);
  const BondPlacedMark *from;

  g_assert_true (press (eye, GDK_KEY_Home));
  g_assert_true (eye->diagram->cursor == bond_mark_field_get (field, 0)->point);
  g_assert_true (press (eye, GDK_KEY_End));
  g_assert_true (eye->diagram->cursor == bond_mark_field_get (field, n - 1)->point);
  from = bond_mark_field_find (field, eye->diagram->cursor);
  g_assert_true (press (eye, GDK_KEY_Up));
  g_assert_cmpfloat (bond_mark_field_find (field, eye->diagram->cursor)->y, <, from->y);
  g_assert_true (press (eye, GDK_KEY_Return));
  g_assert_true (eye->activated == eye->diagram->cursor);
  g_assert_true (press (eye, GDK_KEY_plus));
  g_assert_cmpfloat (bond_diagram_closeness (eye->diagram), >, 1.2);
  g_assert_true (press (eye, GDK_KEY_minus));
  g_assert_true (press (eye, GDK_KEY_Escape));
  g_assert_cmpuint (eye->n_released, ==, 1);
  g_assert_false (press (eye, GDK_KEY_5)); /* digits and letters belong to the reading field */
}

/* --- aloud -------------------------------------------------------------------------------------------------------- */

static void
test_marks_of_the_zone_are_spoken (Eye *eye, gconstpointer data)
{
  BondPoint *point = NULL;
  guint i, in_zone = 0;

  for (i = 0; i < bond_mark_field_get_length (eye->diagram->field); i++)
    {
      BondPoint *other = bond_mark_field_get (eye->diagram->field, i)->point;

      if (g_strcmp0 (bond_point_get_spec (other)->zone, "521") != 0)
        continue;
      point = other;
      in_zone++;
    }
  g_assert_nonnull (point);
  bond_diagram_set_current (eye->diagram, point);
  screen_spin (50);
  g_assert_cmpuint (eye->diagram->spoken->len, ==, in_zone - 1); /* the cursor stands on the other one */
  for (i = 0; i < eye->diagram->spoken->len; i++)
    {
      GtkWidget *child = g_ptr_array_index (eye->diagram->spoken, i);
      g_autofree char *label = bond_diagram_describe (eye->diagram, g_object_get_data (G_OBJECT (child), "bond-point"));

      gtk_test_accessible_assert_role (GTK_ACCESSIBLE (child), GTK_ACCESSIBLE_ROLE_LIST_ITEM);
      gtk_test_accessible_assert_property (GTK_ACCESSIBLE (child), GTK_ACCESSIBLE_PROPERTY_LABEL, label);
    }
  bond_diagram_zoom_to_zone (eye->diagram, "521");
  g_assert_true (gtk_test_accessible_has_property (GTK_ACCESSIBLE (eye->diagram), GTK_ACCESSIBLE_PROPERTY_LABEL));
}

/* Ten thousand marks do not become ten thousand widgets. */
static void
test_few_are_spoken (Eye *eye, gconstpointer data)
{
  plane_add_points (eye->survey, "plan-upper", 3000);
  bond_diagram_set_current (eye->diagram, bond_mark_field_get (eye->diagram->field, 200)->point);
  screen_spin (50);
  g_assert_cmpuint (eye->diagram->spoken->len, <=, 200);
}

#define ADD(path, test) g_test_add (path, Eye, NULL, set_up, test, tear_down)

int
main (int argc, char **argv)
{
  gtk_test_init (&argc, &argv, NULL);
  ADD ("/diagram-marks/apart", test_no_mark_covers_another);
  ADD ("/diagram-marks/crowd", test_a_crowd_is_one_mark);
  ADD ("/diagram-marks/fan", test_one_place_is_fanned_out);
  ADD ("/diagram-marks/worst", test_the_worst_is_seen);
  ADD ("/diagram-marks/too-near", test_too_near_comes_closer);
  ADD ("/diagram-marks/radius", test_the_pick_radius_can_be_set);
  g_test_add_func ("/diagram-marks/places", test_places_keep_apart);
  ADD ("/diagram-marks/group", test_a_group_opens_close_up);
  ADD ("/diagram-marks/lower", test_the_lower_view_both_ways);
  ADD ("/diagram-marks/lower-click", test_a_click_seen_through_gives_true_coordinates);
  ADD ("/diagram-marks/front", test_the_front_view_looks_at_the_nose);
  ADD ("/diagram-marks/keys", test_keys_reach_every_mark);
  ADD ("/diagram-marks/spoken", test_marks_of_the_zone_are_spoken);
  ADD ("/diagram-marks/spoken-few", test_few_are_spoken);
  return g_test_run ();
}
