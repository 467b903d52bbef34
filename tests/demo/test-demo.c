/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * The demo survey in data/demo is what its generator makes, to the byte, whatever
 * the locale; and it holds what a reader of the demo should get to see.
 */
#include "demo.h"

#include <glib/gstdio.h>

#define DEMO_FILE "zz-lmq-invented.bondsurvey"
#define TEMPLATE_POINTS 96

static char *
shipped_path (void)
{
  return g_test_build_filename (G_TEST_DIST, "..", "data", "demo", DEMO_FILE, NULL);
}

static BondSurveyFile *
open_shipped (void)
{
  g_autofree char *path = shipped_path ();
  g_autoptr (GError) error = NULL;
  g_autoptr (BondSource) source = bond_source_new_system ();
  g_autoptr (GPtrArray) problems = g_ptr_array_new_with_free_func ((GDestroyNotify)bond_problem_free);
  BondSurveyFile *file = bond_survey_file_open (path, BOND_OPEN_READ, source, "test", problems, &error);
  g_assert_no_error (error);
  g_assert_cmpuint (problems->len, ==, 0);
  return file;
}

static void
test_same_bytes (void)
{
  g_autofree char *folder = g_dir_make_tmp ("bond-demo-XXXXXX", NULL);
  g_autofree char *made = g_build_filename (folder, DEMO_FILE, NULL);
  g_autofree char *shipped = shipped_path ();
  g_autofree char *made_bytes = NULL;
  g_autofree char *shipped_bytes = NULL;
  g_autoptr (GError) error = NULL;
  gsize made_length, shipped_length;

  g_assert_true (demo_write (made, &error));
  g_assert_no_error (error);
  g_assert_true (g_file_get_contents (made, &made_bytes, &made_length, NULL));
  g_assert_true (g_file_get_contents (shipped, &shipped_bytes, &shipped_length, NULL));
  g_assert_cmpmem (made_bytes, made_length, shipped_bytes, shipped_length);
}

static void
test_points (void)
{
  g_autoptr (BondSurveyFile) file = open_shipped ();
  BondSurvey *survey = bond_survey_file_get_survey (file);
  int from_template = 0, by_hand = 0, by_class[BOND_N_CLASSES] = { 0 };
  BondTotals totals;

  for (guint i = 0; i < g_list_model_get_n_items (G_LIST_MODEL (survey)); i++)
    {
      g_autoptr (BondPoint) point = g_list_model_get_item (G_LIST_MODEL (survey), i);
      const BondPointSpec *spec = bond_point_get_spec (point);
      if (spec->from_template)
        from_template++;
      else
        by_hand++;
      by_class[spec->klass]++;
    }
  g_assert_cmpint (from_template, ==, TEMPLATE_POINTS);
  g_assert_cmpint (by_hand, >=, 24);
  for (int i = 0; i < BOND_N_CLASSES; i++)
    g_assert_cmpint (by_class[i], >, 0);
  bond_survey_totals (survey, &totals);
  g_assert_cmpint (totals.points, ==, from_template + by_hand);
  g_assert_cmpint (totals.places, >=, totals.points + 23);
  g_assert_true (bond_survey_get_header (survey)->invented);
}

static void
test_states (void)
{
  static const BondState shown[] = { BOND_STATE_TO_MEASURE,     BOND_STATE_REMEASURE, BOND_STATE_SUSPECT,
                                     BOND_STATE_PASS,           BOND_STATE_FAIL,      BOND_STATE_PASS_AFTER_REWORK,
                                     BOND_STATE_NOT_CONFIRMED,  BOND_STATE_ACCEPTED,  BOND_STATE_CARRIED_FORWARD,
                                     BOND_STATE_NOT_ACCESSIBLE, BOND_STATE_NOT_FITTED };
  g_autoptr (BondSurveyFile) file = open_shipped ();
  BondTotals totals;

  bond_survey_totals (bond_survey_file_get_survey (file), &totals);
  for (guint i = 0; i < G_N_ELEMENTS (shown); i++)
    {
      g_test_message ("%s: %d", bond_state_name (shown[i]), totals.by_state[shown[i]]);
      g_assert_cmpint (totals.by_state[shown[i]], >, 0);
    }
  g_assert_cmpint (totals.within_u, >=, 2);
  g_assert_cmpint (totals.below_resolution, ==, 1);
  g_assert_cmpint (totals.rejects_visual, ==, 1);
  g_assert_cmpint (totals.rejects_rework, ==, 1);
  g_assert_cmpint (totals.over_limit_taken_back, >=, 2);
}

static void
test_entries (void)
{
  static const BondEntryKind used[]
      = { BOND_ENTRY_CREATE, BOND_ENTRY_ADOPT,     BOND_ENTRY_POINT,  BOND_ENTRY_PLACE,      BOND_ENTRY_READING,
          BOND_ENTRY_VOID,   BOND_ENTRY_CORRECT,   BOND_ENTRY_MOVE,   BOND_ENTRY_TAKE_BACK,  BOND_ENTRY_REWORK,
          BOND_ENTRY_STATE,  BOND_ENTRY_CONDITION, BOND_ENTRY_VISUAL, BOND_ENTRY_DISPOSITION };
  g_autoptr (BondSurveyFile) file = open_shipped ();
  BondSurvey *survey = bond_survey_file_get_survey (file);
  GPtrArray *entries = bond_survey_get_entries (survey);
  int count[BOND_N_ENTRY_KINDS] = { 0 }, reverse = 0, over = 0;

  for (guint i = 0; i < entries->len; i++)
    {
      const BondEntry *entry = entries->pdata[i];
      count[entry->kind]++;
      if (entry->kind != BOND_ENTRY_READING)
        continue;
      reverse += entry->reading.direction == BOND_DIRECTION_REVERSE;
      over += entry->reading.quantity.qualifier == BOND_QUALIFIER_OVER;
    }
  for (guint i = 0; i < G_N_ELEMENTS (used); i++)
    g_assert_cmpint (count[used[i]], >, 0);
  g_assert_cmpint (reverse, >, 0);
  g_assert_cmpint (over, ==, 2);
  g_assert_cmpuint (bond_survey_get_earlier (survey)->len, ==, 1);
}

static void
test_twins_inside_their_zone (void)
{
  g_autoptr (BondSurveyFile) file = open_shipped ();
  BondSurvey *survey = bond_survey_file_get_survey (file);
  const BondAirframe *airframe = bond_survey_get_airframe (survey);

  for (guint i = 0; i < g_list_model_get_n_items (G_LIST_MODEL (survey)); i++)
    {
      g_autoptr (BondPoint) point = g_list_model_get_item (G_LIST_MODEL (survey), i);
      const BondPointSpec *spec = bond_point_get_spec (point);
      const BondPlacement *home = bond_point_spec_home (spec);
      const BondZoneShape *hit;
      if (spec->from_template)
        continue;
      g_assert_nonnull (home);
      hit = bond_view_hit (bond_airframe_find_view (airframe, home->view), home->x, home->y);
      g_test_message ("%s", spec->number);
      g_assert_nonnull (hit);
      g_assert_cmpstr (hit->zone, ==, spec->zone);
    }
}

int
main (int argc, char **argv)
{
  g_test_init (&argc, &argv, NULL);
  bond_xml_init ();
  g_test_add_func ("/demo/same-bytes", test_same_bytes);
  g_test_add_func ("/demo/points", test_points);
  g_test_add_func ("/demo/states", test_states);
  g_test_add_func ("/demo/entries", test_entries);
  g_test_add_func ("/demo/placed-inside-their-zone", test_twins_inside_their_zone);
  return g_test_run ();
}
