/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * The grid of marks against a search over all of them, and the camera's arithmetic.
 * Needs no screen, but lives with the window it serves.
 */
#include "gui/widgets/mark-field.h"
#include "plane.h"

#include <math.h>

#define VIEW "plan-upper"

typedef struct
{
  BondSurvey *survey;
  const BondView *view;
  BondMarkField *field;
} Field;

static void
set_up (Field *field, gconstpointer data)
{
  field->survey = plane_survey_new ("generic-jet-transport");
  plane_add_points (field->survey, VIEW, 700);
  field->view = bond_airframe_find_view (bond_survey_get_airframe (field->survey), VIEW);
  field->field = bond_mark_field_new ();
  bond_mark_field_fill (field->field, field->survey, field->view);
}

static void
tear_down (Field *field, gconstpointer data)
{
  bond_mark_field_free (field->field);
  g_object_unref (field->survey);
}

static gboolean
box_holds (const BondBox *box, const BondPlacedMark *mark)
{
  return mark->x >= box->x && mark->x <= box->x + box->width && mark->y >= box->y && mark->y <= box->y + box->height;
}

static guint
count_by_search (Field *field, const BondBox *box)
{
  guint i, count = 0;

  for (i = 0; i < bond_mark_field_get_length (field->field); i++)
    count += box_holds (box, bond_mark_field_get (field->field, i));
  return count;
}

static void
test_collect_finds_all_in_a_box (Field *field, gconstpointer data)
{
  g_autoptr (GArray) found = g_array_new (FALSE, FALSE, sizeof (guint));
  guint i, j;

  for (i = 0; i < 500; i++)
    {
      BondBox box = { g_test_rand_double_range (-300, field->view->width + 300),
                      g_test_rand_double_range (-300, field->view->height + 300), g_test_rand_double_range (0, 600),
                      g_test_rand_double_range (0, 600) };

      g_array_set_size (found, 0);
      bond_mark_field_collect (field->field, &box, found);
      g_assert_cmpuint (found->len, ==, count_by_search (field, &box));
      for (j = 0; j < found->len; j++)
        g_assert_true (box_holds (&box, bond_mark_field_get (field->field, g_array_index (found, guint, j))));
    }
}

static void
test_nearest_is_the_nearest (Field *field, gconstpointer data)
{
  guint i, j;

  for (i = 0; i < 500; i++)
    {
      double x = g_test_rand_double_range (0, field->view->width);
      double y = g_test_rand_double_range (0, field->view->height);
      const BondPlacedMark *mark = bond_mark_field_nearest (field->field, x, y, 40.0);
      double best = INFINITY;

      for (j = 0; j < bond_mark_field_get_length (field->field); j++)
        {
          const BondPlacedMark *other = bond_mark_field_get (field->field, j);

          best = MIN (best, hypot (other->x - x, other->y - y));
        }
      if (best < 40.0)
        {
          g_assert_nonnull (mark);
          g_assert_cmpfloat_with_epsilon (hypot (mark->x - x, mark->y - y), best, 1e-9);
        }
      else
        g_assert_null (mark);
    }
}

static void
test_arrows_go_the_way_they_point (Field *field, gconstpointer data)
{
  static const BondXY ways[] = { { 1, 0 }, { -1, 0 }, { 0, 1 }, { 0, -1 } };
  guint i, w;

  for (i = 0; i < bond_mark_field_get_length (field->field); i++)
    for (w = 0; w < G_N_ELEMENTS (ways); w++)
      {
        const BondPlacedMark *from = bond_mark_field_get (field->field, i);
        const BondPlacedMark *to
            = bond_mark_field_toward (field->field, from->point, from->x, from->y, ways[w].x, ways[w].y);

        if (to == NULL)
          continue;
        g_assert_cmpfloat ((to->x - from->x) * ways[w].x + (to->y - from->y) * ways[w].y, >, 0.0);
        g_assert_true (to->point != from->point);
      }
}

static void
test_every_mark_can_be_reached_by_arrows (Field *field, gconstpointer data)
{
  static const BondXY ways[] = { { 1, 0 }, { -1, 0 }, { 0, 1 }, { 0, -1 } };
  g_autoptr (GHashTable) seen = g_hash_table_new (NULL, NULL);
  g_autoptr (GQueue) queue = g_queue_new ();
  guint n = bond_mark_field_get_length (field->field), w;

  g_queue_push_tail (queue, bond_mark_field_get (field->field, 0)->point);
  g_hash_table_add (seen, bond_mark_field_get (field->field, 0)->point);
  while (!g_queue_is_empty (queue))
    {
      const BondPlacedMark *from = bond_mark_field_find (field->field, g_queue_pop_head (queue));

      for (w = 0; w < G_N_ELEMENTS (ways); w++)
        {
          const BondPlacedMark *to
              = bond_mark_field_toward (field->field, from->point, from->x, from->y, ways[w].x, ways[w].y);

          if (to != NULL && g_hash_table_add (seen, to->point))
            g_queue_push_tail (queue, to->point);
        }
    }
  g_test_message ("%u of %u marks reached", g_hash_table_size (seen), n);
  g_assert_cmpuint (g_hash_table_size (seen), >=, n * 95 / 100);
}

static void
test_an_empty_field_answers (void)
{
  g_autoptr (BondMarkField) field = bond_mark_field_new ();
  g_autoptr (GArray) found = g_array_new (FALSE, FALSE, sizeof (guint));

  bond_mark_field_fill (field, NULL, NULL);
  bond_mark_field_collect (field, &(BondBox){ -1e6, -1e6, 2e6, 2e6 }, found);
  g_assert_cmpuint (found->len, ==, 0);
  g_assert_null (bond_mark_field_nearest (field, 0, 0, 1e9));
  g_assert_null (bond_mark_field_toward (field, NULL, 0, 0, 1, 0));
  g_assert_null (bond_mark_field_find (field, NULL));
  g_assert_cmpuint (bond_mark_field_count (field, "500"), ==, 0);
}

/* --- camera ------------------------------------------------------------------------------------------------------- */

static const BondInsets insets = { 50, 10, 30, 20 };

static void
test_fit_shows_all_of_the_box (void)
{
  BondBox box = { 100, -40, 1600, 900 };
  BondCamera camera = bond_camera_fit (&box, 800, 600, &insets);
  double left, top, right, bottom;

  bond_camera_to_pixel (&camera, 100, -40, &left, &top);
  bond_camera_to_pixel (&camera, 1700, 860, &right, &bottom);
  g_assert_cmpfloat_with_epsilon (left, 20, 1e-9);
  g_assert_cmpfloat_with_epsilon (right, 790, 1e-9);
  g_assert_cmpfloat (top, >=, 50);
  g_assert_cmpfloat (bottom, <=, 570);
  g_assert_cmpfloat_with_epsilon (top - 50, 570 - bottom, 1e-9); /* in the middle of what is left */
}

static void
test_zoom_keeps_the_place_under_the_pointer (void)
{
  BondCamera camera = { 12, 34, 0.5 };
  double x, y, px, py;

  bond_camera_to_view (&camera, 333, 222, &x, &y);
  bond_camera_zoom (&camera, 3.0, 333, 222, 0.1, 10);
  g_assert_cmpfloat_with_epsilon (camera.scale, 1.5, 1e-12);
  bond_camera_to_pixel (&camera, x, y, &px, &py);
  g_assert_cmpfloat_with_epsilon (px, 333, 1e-9);
  g_assert_cmpfloat_with_epsilon (py, 222, 1e-9);
  bond_camera_zoom (&camera, 1e6, 0, 0, 0.1, 10);
  g_assert_cmpfloat (camera.scale, ==, 10);
  bond_camera_zoom (&camera, 1e-9, 0, 0, 0.1, 10);
  g_assert_cmpfloat (camera.scale, ==, 0.1);
}

static void
test_the_camera_cannot_be_lost (void)
{
  BondBox box = { 0, 0, 100, 100 };
  BondCamera camera = { 1e7, -1e7, 2 };
  double x, y;

  bond_camera_keep (&camera, &box, 400, 300);
  bond_camera_to_view (&camera, 200, 150, &x, &y);
  g_assert_cmpfloat_with_epsilon (x, 100, 1e-6);
  g_assert_cmpfloat_with_epsilon (y, 0, 1e-6);
}

static void
test_reveal_moves_no_more_than_it_must (void)
{
  BondCamera camera = { 0, 0, 1 };
  double px, py;

  g_assert_false (bond_camera_reveal (&camera, 400, 300, 800, 600, &insets, 10));
  g_assert_true (bond_camera_reveal (&camera, 900, 300, 800, 600, &insets, 10));
  bond_camera_to_pixel (&camera, 900, 300, &px, &py);
  g_assert_cmpfloat_with_epsilon (px, 780, 1e-9);
  g_assert_cmpfloat_with_epsilon (py, 300, 1e-9);
}

#define ADD(path, test) g_test_add (path, Field, NULL, set_up, test, tear_down)

int
main (int argc, char **argv)
{
  g_test_init (&argc, &argv, NULL);
  ADD ("/mark-field/collect", test_collect_finds_all_in_a_box);
  ADD ("/mark-field/nearest", test_nearest_is_the_nearest);
  ADD ("/mark-field/toward", test_arrows_go_the_way_they_point);
  ADD ("/mark-field/reach", test_every_mark_can_be_reached_by_arrows);
  g_test_add_func ("/mark-field/empty", test_an_empty_field_answers);
  g_test_add_func ("/camera/fit", test_fit_shows_all_of_the_box);
  g_test_add_func ("/camera/zoom", test_zoom_keeps_the_place_under_the_pointer);
  g_test_add_func ("/camera/keep", test_the_camera_cannot_be_lost);
  g_test_add_func ("/camera/reveal", test_reveal_moves_no_more_than_it_must);
  return g_test_run ();
}
