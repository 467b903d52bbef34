/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * A mark must be told by its shape alone, also on a black and white copy: all of
 * them differ in one ink at the size of a list row, and none is empty.
 */
#include "report/marks.h"

#define SIDE 32
#define SIZE 16.0
#define LEAST_DIFFERENT 6 /* pixels that are ink in one mark and paper in the other */

static cairo_surface_t *
draw_on (const BondInks *inks, BondMark mark, double size)
{
  cairo_surface_t *surface = cairo_image_surface_create (CAIRO_FORMAT_ARGB32, SIDE, SIDE);
  cairo_t *cr = cairo_create (surface);

  cairo_set_source_rgb (cr, inks->paper.r, inks->paper.g, inks->paper.b);
  cairo_paint (cr);
  bond_mark_draw (cr, mark, SIDE / 2.0, SIDE / 2.0, size, inks);
  g_assert_cmpint (cairo_status (cr), ==, CAIRO_STATUS_SUCCESS);
  cairo_destroy (cr);
  cairo_surface_flush (surface);
  return surface;
}

static int
grey_at (cairo_surface_t *surface, int x, int y)
{
  return cairo_image_surface_get_data (surface)[y * cairo_image_surface_get_stride (surface) + 4 * x];
}

static int
count_ink (cairo_surface_t *surface)
{
  int x, y, n = 0;

  for (y = 0; y < SIDE; y++)
    for (x = 0; x < SIDE; x++)
      n += grey_at (surface, x, y) < 128;
  return n;
}

static int
furthest_channel (cairo_surface_t *a, cairo_surface_t *b, int x, int y)
{
  int offset = y * cairo_image_surface_get_stride (a) + 4 * x, i, most = 0;

  for (i = 0; i < 3; i++)
    most
        = MAX (most, ABS (cairo_image_surface_get_data (a)[offset + i] - cairo_image_surface_get_data (b)[offset + i]));
  return most;
}

static int
count_different (cairo_surface_t *a, cairo_surface_t *b)
{
  int x, y, n = 0;

  for (y = 0; y < SIDE; y++)
    for (x = 0; x < SIDE; x++)
      n += furthest_channel (a, b, x, y) > 80;
  return n;
}

static void
test_told_by_shape (void)
{
  cairo_surface_t *surface[BOND_N_MARKS];
  int i, j;

  for (i = 0; i < BOND_N_MARKS; i++)
    {
      surface[i] = draw_on (bond_inks_one (), (BondMark)i, SIZE);
      g_assert_cmpint (count_ink (surface[i]), >, 4);
    }
  for (i = 0; i < BOND_N_MARKS; i++)
    for (j = i + 1; j < BOND_N_MARKS; j++)
      {
        g_test_message ("%s / %s", bond_mark_name ((BondMark)i), bond_mark_name ((BondMark)j));
        g_assert_cmpint (count_different (surface[i], surface[j]), >=, LEAST_DIFFERENT);
      }
  for (i = 0; i < BOND_N_MARKS; i++)
    cairo_surface_destroy (surface[i]);
}

static void
test_seen_in_every_look (void)
{
  const BondInks *looks[] = { bond_inks_light (), bond_inks_dark (), bond_inks_one () };
  guint look;
  int i;

  for (look = 0; look < G_N_ELEMENTS (looks); look++)
    {
      cairo_surface_t *blank = draw_on (looks[look], BOND_MARK_PASS, 0);

      for (i = 0; i < BOND_N_MARKS; i++)
        {
          cairo_surface_t *surface = draw_on (looks[look], (BondMark)i, 22);

          g_assert_cmpint (count_different (surface, blank), >, 2);
          cairo_surface_destroy (surface);
        }
      cairo_surface_destroy (blank);
    }
}

static void
test_names (void)
{
  g_autoptr (GHashTable) names = g_hash_table_new (g_str_hash, g_str_equal);
  int i;

  for (i = 0; i < BOND_N_MARKS; i++)
    {
      g_assert_cmpstr (bond_mark_name ((BondMark)i), !=, "");
      g_assert_true (g_hash_table_add (names, (gpointer)bond_mark_name ((BondMark)i)));
    }
}

typedef struct
{
  BondState state;
  BondMark mark;
} StateMark;

static void
test_state_gives_mark (void)
{
  static const StateMark rows[] = {
    { BOND_STATE_TO_MEASURE, BOND_MARK_TO_MEASURE },
    { BOND_STATE_REMEASURE, BOND_MARK_REMEASURE },
    { BOND_STATE_PASS, BOND_MARK_PASS },
    { BOND_STATE_FAIL, BOND_MARK_FAIL },
    { BOND_STATE_PASS_AFTER_REWORK, BOND_MARK_PASS_AFTER_REWORK },
    { BOND_STATE_NOT_CONFIRMED, BOND_MARK_NOT_CONFIRMED },
    { BOND_STATE_ACCEPTED, BOND_MARK_ACCEPTED },
    { BOND_STATE_CARRIED_FORWARD, BOND_MARK_CARRIED },
    { BOND_STATE_DEFERRED, BOND_MARK_CARRIED },
    { BOND_STATE_NOT_ACCESSIBLE, BOND_MARK_NOT_ACCESSIBLE },
    { BOND_STATE_NOT_FITTED, BOND_MARK_NOT_FITTED },
    { BOND_STATE_NOT_APPLICABLE, BOND_MARK_NOT_FITTED },
    { BOND_STATE_NOT_IN_SAMPLE, BOND_MARK_NOT_IN_SAMPLE },
    { BOND_STATE_RECORDED, BOND_MARK_RECORDED },
    { BOND_STATE_SUSPECT, BOND_MARK_SUSPECT },
    { BOND_STATE_IN_DOUBT, BOND_MARK_IN_DOUBT },
  };
  guint i;

  G_STATIC_ASSERT (G_N_ELEMENTS (rows) == BOND_N_STATES);
  for (i = 0; i < G_N_ELEMENTS (rows); i++)
    {
      BondPlaceResult place = { .state = rows[i].state };

      g_assert_cmpint (bond_mark_for (&place, BOND_RULE_SIMPLE), ==, rows[i].mark);
      g_assert_cmpint (bond_mark_for (&place, BOND_RULE_GUARDED), ==, rows[i].mark);
    }
}

static void
test_within_u (void)
{
  BondPlaceResult place = { .state = BOND_STATE_PASS, .within_u = TRUE };

  g_assert_cmpint (bond_mark_for (&place, BOND_RULE_SIMPLE), ==, BOND_MARK_WITHIN_PASS);
  place.state = BOND_STATE_FAIL;
  g_assert_cmpint (bond_mark_for (&place, BOND_RULE_SIMPLE), ==, BOND_MARK_WITHIN_FAIL);
}

/* Under the guarded rule the zone word gives the mark, though only "pass" conforms. */
static void
test_guarded (void)
{
  static const StateMark rows[] = {
    { (BondState)BOND_ZONE_WORD_PASS, BOND_MARK_PASS },
    { (BondState)BOND_ZONE_WORD_CONDITIONAL_PASS, BOND_MARK_WITHIN_PASS },
    { (BondState)BOND_ZONE_WORD_CONDITIONAL_FAIL, BOND_MARK_WITHIN_FAIL },
    { (BondState)BOND_ZONE_WORD_FAIL, BOND_MARK_FAIL },
  };
  guint i;

  for (i = 0; i < G_N_ELEMENTS (rows); i++)
    {
      BondMeasurement measurement = { .outcome = BOND_OUTCOME_JUDGED, .zone = (BondZoneWord)rows[i].state };
      BondPlaceResult place = { .state = i == 0 ? BOND_STATE_PASS : BOND_STATE_FAIL, .decides = &measurement };

      measurement.conforms = i == 0;
      g_assert_cmpint (bond_mark_for (&place, BOND_RULE_GUARDED), ==, rows[i].mark);
    }
}

/* A visual reject shows as one only where the reading itself is good; a failing reading stays a fail. */
static void
test_visual_reject (void)
{
  BondMeasurement good = { .outcome = BOND_OUTCOME_JUDGED, .conforms = TRUE };
  BondMeasurement bad = { .outcome = BOND_OUTCOME_JUDGED, .zone = BOND_ZONE_WORD_FAIL };
  BondPlaceResult place = { .state = BOND_STATE_FAIL, .visual_reject = TRUE, .decides = &good };

  g_assert_cmpint (bond_mark_for (&place, BOND_RULE_SIMPLE), ==, BOND_MARK_VISUAL_REJECT);
  place.decides = NULL;
  g_assert_cmpint (bond_mark_for (&place, BOND_RULE_SIMPLE), ==, BOND_MARK_VISUAL_REJECT);
  place.decides = &bad;
  g_assert_cmpint (bond_mark_for (&place, BOND_RULE_SIMPLE), ==, BOND_MARK_FAIL);
}

/* Nothing beyond its limit is drawn in the milder ink. */
static void
test_amber_is_never_beyond (void)
{
  cairo_surface_t *fail = draw_on (bond_inks_light (), BOND_MARK_WITHIN_FAIL, 28);
  const BondRgb *ink = &bond_inks_light ()->fail;
  const guint8 *pixel
      = cairo_image_surface_get_data (fail) + SIDE / 2 * cairo_image_surface_get_stride (fail) + 4 * (SIDE / 2 - 7);

  g_assert_cmpint (pixel[2], ==, (int)(ink->r * 255 + 0.5));
  g_assert_cmpint (pixel[1], ==, (int)(ink->g * 255 + 0.5));
  cairo_surface_destroy (fail);
}

static void
test_class_signs_differ (void)
{
  cairo_surface_t *surface[BOND_N_CLASSES];
  int i, j;

  for (i = 0; i < BOND_N_CLASSES; i++)
    {
      cairo_t *cr;

      surface[i] = draw_on (bond_inks_one (), BOND_MARK_PASS, 0);
      cr = cairo_create (surface[i]);
      bond_class_sign_draw (cr, (BondClass)i, SIDE / 2.0, SIDE / 2.0, 12, &bond_inks_one ()->text);
      cairo_destroy (cr);
      g_assert_cmpint (count_ink (surface[i]), >, 8);
    }
  for (i = 0; i < BOND_N_CLASSES; i++)
    for (j = i + 1; j < BOND_N_CLASSES; j++)
      g_assert_cmpint (count_different (surface[i], surface[j]), >=, LEAST_DIFFERENT);
  for (i = 0; i < BOND_N_CLASSES; i++)
    cairo_surface_destroy (surface[i]);
}

int
main (int argc, char **argv)
{
  g_test_init (&argc, &argv, NULL);
  g_test_add_func ("/report/marks/told-by-shape", test_told_by_shape);
  g_test_add_func ("/report/marks/seen-in-every-look", test_seen_in_every_look);
  g_test_add_func ("/report/marks/names", test_names);
  g_test_add_func ("/report/marks/state", test_state_gives_mark);
  g_test_add_func ("/report/marks/within-u", test_within_u);
  g_test_add_func ("/report/marks/guarded", test_guarded);
  g_test_add_func ("/report/marks/visual-reject", test_visual_reject);
  g_test_add_func ("/report/marks/amber-is-never-beyond", test_amber_is_never_beyond);
  g_test_add_func ("/report/marks/class-signs", test_class_signs_differ);
  return g_test_run ();
}
