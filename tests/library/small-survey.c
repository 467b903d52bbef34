/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * Builds the small survey of small-survey.h in memory and in a folder of its own.
 * All aircraft, limits and figures here are invented.
 */
#include "small-survey.h"

#include <glib/gstdio.h>

#define START "2026-05-04T09:00:00+02:00"

static void
add_zone (BondAirframe *airframe, const char *number, BondZoneLevel level, const char *parent)
{
  BondZone *zone = bond_zone_new (number, number, level, BOND_SIDE_LEFT);
  g_autoptr (GError) error = NULL;
  zone->parent = g_strdup (parent);
  bond_airframe_add_zone (airframe, zone, &error);
  g_assert_no_error (error);
}

void
small_airframe_add_point (BondAirframe *airframe, const char *id, const char *number, const char *zone,
                          const char *limit)
{
  BondPointSpec *spec = bond_point_spec_new (id, number, BOND_CLASS_STRUCTURE, zone);
  g_autoptr (GError) error = NULL;
  g_free (spec->from);
  g_free (spec->to);
  spec->from = g_strdup ("Flap track 2");
  spec->to = g_strdup ("Rear spar");
  spec->limit = g_strdup (limit);
  spec->from_template = TRUE;
  bond_airframe_add_point (airframe, spec, &error);
  g_assert_no_error (error);
}

static BondAirframe *
small_airframe (void)
{
  BondAirframe *airframe = bond_airframe_new ("test-plane", 1, "Test plane");
  add_zone (airframe, "500", BOND_ZONE_MAJOR, NULL);
  add_zone (airframe, "510", BOND_ZONE_SUBZONE, "500");
  add_zone (airframe, "511", BOND_ZONE_ZONE, "510");
  add_zone (airframe, "600", BOND_ZONE_MAJOR, NULL);
  add_zone (airframe, "611", BOND_ZONE_ZONE, "600");
  small_airframe_add_point (airframe, "q-1", "511-J01", "511", "shop/J1");
  small_airframe_add_point (airframe, "q-2", "511-J02", "511", "shop/J1");
  small_airframe_add_point (airframe, "q-3", "611-J01", "611", "shop/J2");
  return airframe;
}

static void
add_row (BondLimitSet *set, const char *code, BondOhm nohm)
{
  BondLimitRow *row = bond_limit_row_new ();
  g_autoptr (GError) error = NULL;
  row->code = g_strdup (code);
  row->klass = BOND_CLASS_STRUCTURE;
  row->covers = g_strdup ("hinge joint");
  row->in_service.upper = (BondBound){ BOND_RELATION_LE, nohm, BOND_UNIT_MILLIOHM };
  row->document = g_strdup ("Invented manual");
  bond_limit_set_add (set, row, &error);
  g_assert_no_error (error);
}

static BondLimitSet *
shop_limits (void)
{
  BondLimitSet *set = bond_limit_set_new ("shop", 1, "Shop limits");
  set->enabled = TRUE;
  add_row (set, "J1", 5000000);
  add_row (set, "J2", 2500000);
  return set;
}

void
small_survey_set_up (SmallSurvey *fixture, gconstpointer data)
{
  BondInstrument *meter = bond_instrument_new ("i-1", 1, BOND_INSTRUMENT_MILLIOHMMETER, "MO-1");
  g_autofree char *range_id = g_strdup ("30mOhm");
  BondRange range = { .id = range_id,
                      .end = 30000000,
                      .step = 10000,
                      .accuracy_known = TRUE,
                      .accuracy_reading_ppm = 2500,
                      .accuracy_nohm = 10000 };

  bond_instrument_add_range (meter, &range);
  fixture->folder = g_dir_make_tmp ("bond-library-XXXXXX", NULL);
  fixture->source = bond_source_new_fixed (START, 30, 7);
  fixture->airframe = small_airframe ();
  fixture->sets = g_ptr_array_new_with_free_func ((GDestroyNotify)bond_limit_set_unref);
  g_ptr_array_add (fixture->sets, shop_limits ());
  fixture->people = g_ptr_array_new_with_free_func ((GDestroyNotify)bond_person_unref);
  g_ptr_array_add (fixture->people, bond_person_new ("p-1", 1, "Ines Invented", NULL, "inspector"));
  fixture->instruments = g_ptr_array_new_with_free_func ((GDestroyNotify)bond_instrument_unref);
  g_ptr_array_add (fixture->instruments, meter);
}

static void
remove_folder (const char *folder)
{
  g_autoptr (GDir) dir = g_dir_open (folder, 0, NULL);
  const char *name;
  while (dir != NULL && (name = g_dir_read_name (dir)) != NULL)
    {
      g_autofree char *path = g_build_filename (folder, name, NULL);
      if (g_file_test (path, G_FILE_TEST_IS_DIR) && !g_file_test (path, G_FILE_TEST_IS_SYMLINK))
        remove_folder (path);
      else
        g_unlink (path);
    }
  g_rmdir (folder);
}

void
small_survey_tear_down (SmallSurvey *fixture, gconstpointer data)
{
  remove_folder (fixture->folder);
  g_free (fixture->folder);
  bond_source_unref (fixture->source);
  bond_airframe_unref (fixture->airframe);
  g_ptr_array_unref (fixture->sets);
  g_ptr_array_unref (fixture->people);
  g_ptr_array_unref (fixture->instruments);
}

BondNewSurvey
small_survey_plan (SmallSurvey *fixture)
{
  BondNewSurvey what = { .registration = "ZZ-TST",
                         .serial = "0007",
                         .title = "Test survey",
                         .order = "W-1",
                         .person_id = "p-1",
                         .airframe = fixture->airframe,
                         .limit_sets = fixture->sets,
                         .instruments = fixture->instruments,
                         .people = fixture->people,
                         .rule = BOND_RULE_SIMPLE };
  return what;
}

char *
small_survey_path (SmallSurvey *fixture, const char *name)
{
  return g_build_filename (fixture->folder, name, NULL);
}

BondSurveyFile *
small_survey_make (SmallSurvey *fixture, const char *name, const BondNewSurvey *what)
{
  g_autofree char *path = small_survey_path (fixture, name);
  g_autoptr (GError) error = NULL;
  BondSurveyFile *file = bond_library_new_survey (path, what, fixture->source, "Hangar 2", &error);
  g_assert_no_error (error);
  g_assert_nonnull (file);
  bond_survey_file_set_synchronous (file, TRUE);
  return file;
}

void
small_survey_measure (BondSurvey *survey, const char *number, BondOhm nohm)
{
  BondPoint *point = bond_survey_find_number (survey, number);
  BondEntry *entry = bond_entry_new (BOND_ENTRY_READING);
  g_autoptr (GError) error = NULL;

  entry->point = g_strdup (bond_point_get_id (point));
  entry->reading.text = bond_ohm_format (nohm, BOND_UNIT_MILLIOHM, 2, '.');
  entry->reading.unit = BOND_UNIT_MILLIOHM;
  entry->reading.quantity.nohm = nohm;
  entry->reading.instrument = g_strdup ("i-1");
  entry->reading.range = g_strdup ("30mOhm");
  entry->reading.via = g_strdup ("typed");
  bond_survey_record_now (survey, entry, &error);
  g_assert_no_error (error);
}

void
small_survey_close (BondSurveyFile *file)
{
  g_autoptr (GError) error = NULL;
  bond_survey_file_close (file, &error);
  g_assert_no_error (error);
  g_object_unref (file);
}

int
small_survey_run (int argc, char **argv, const SmallSurveyTest *tests, guint n)
{
  g_test_init (&argc, &argv, NULL);
  bond_xml_init ();
  for (guint i = 0; i < n; i++)
    g_test_add (tests[i].path, SmallSurvey, NULL, small_survey_set_up, tests[i].test, small_survey_tear_down);
  return g_test_run ();
}
