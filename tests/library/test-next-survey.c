/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * The last row of the first worked day: the next survey of the same aircraft.  What
 * was found, reworked and opened then comes along as earlier results and notes; every
 * joint starts undisturbed again, on the in-service tier.  All of it is invented.
 */
#include "../core/hangar.h"
#include "small-survey.h"

static const char *const numbers[] = { "541-J01", "541-J02", "541-J03", "541-J04", "541-J05", "541-J06" };

/* The first day in short; what each act came to is checked in tests/core/test-scenario-1.c. */
static Hangar *
play_first_day (void)
{
  Hangar *h = hangar_new (BOND_RULE_SIMPLE);
  gsize i;

  for (i = 0; i < G_N_ELEMENTS (numbers); i++)
    hangar_point_as (h, numbers[i], "J1", i == 4 ? BOND_CONDITION_NEW : BOND_CONDITION_UNDISTURBED);
  hangar_read (h, "541-J01", "4.00");
  hangar_read (h, "541-J02", "6.20");
  hangar_rework (h, "541-J02", BOND_REWORK_SURFACES_CLEANED);
  hangar_read (h, "541-J02", "3.10");
  hangar_rework (h, "541-J02", BOND_REWORK_JUMPER_REPLACED);
  hangar_read (h, "541-J02", "1.95");
  hangar_read (h, "541-J03", "4.00");
  hangar_condition (h, "541-J03", BOND_CONDITION_OPENED);
  hangar_read (h, "541-J03", "2.40");
  hangar_read (h, "541-J04", "3.00");
  hangar_visual (h, "541-J04", BOND_VISUAL_STRANDS, TRUE);
  hangar_rework (h, "541-J04", BOND_REWORK_JUMPER_REPLACED);
  hangar_read (h, "541-J04", "1.10");
  hangar_read (h, "541-J05", "2.40");
  hangar_rework (h, "541-J06", BOND_REWORK_SURFACES_CLEANED);
  hangar_undo (h, BOND_VOID_WRONG_POINT, "wrong point");
  hangar_read (h, "541-J06", "3.00");
  return h;
}

static void
add_zone (BondAirframe *airframe, const char *number, BondZoneLevel level, const char *parent)
{
  BondZone *zone = bond_zone_new (number, number, level, BOND_SIDE_LEFT);
  g_autoptr (GError) error = NULL;

  zone->parent = g_strdup (parent);
  bond_airframe_add_zone (airframe, zone, &error);
  g_assert_no_error (error);
}

/* The same joints as on the day, as the aircraft's template has them. */
static BondAirframe *
make_airframe (void)
{
  BondAirframe *airframe = bond_airframe_new ("generic-twin-jet", 1, "Generic twin jet");
  gsize i;

  add_zone (airframe, "500", BOND_ZONE_MAJOR, NULL);
  add_zone (airframe, "540", BOND_ZONE_SUBZONE, "500");
  add_zone (airframe, "541", BOND_ZONE_ZONE, "540");
  for (i = 0; i < G_N_ELEMENTS (numbers); i++)
    {
      g_autofree char *id = g_strconcat ("q-", numbers[i], NULL);

      small_airframe_add_point (airframe, id, numbers[i], "541", "example/J1");
    }
  return airframe;
}

typedef struct
{
  const char *number, *state, *note;
  BondOhm nohm;
} Left;

static const Left left[] = {
  { "541-J01", "pass", NULL, UOHM (4000) }, { "541-J02", "pass-after-rework", "reworked 2026-11-24", UOHM (1950) },
  { "541-J03", "pass", NULL, UOHM (2400) }, { "541-J04", "pass-after-rework", "reworked 2026-11-24", UOHM (1100) },
  { "541-J05", "pass", NULL, UOHM (2400) }, { "541-J06", "pass", NULL, UOHM (3000) }, /* its rework was undone */
};

static void
check_point (BondSurvey *survey, const Left *last_time)
{
  BondPoint *point = bond_survey_find_number (survey, last_time->number);
  const BondPlaceResult *place = bond_point_get_place (point, NULL);
  const BondEarlierItem *item
      = bond_earlier_find (bond_survey_get_earlier (survey)->pdata[0], bond_point_get_id (point));

  g_assert_cmpint (place->state, ==, BOND_STATE_TO_MEASURE);
  g_assert_cmpint (place->tier, ==, BOND_CONDITION_UNDISTURBED);
  g_assert_cmpint (place->bounds->upper.nohm, ==, UOHM (5000));
  g_assert_cmpuint (place->history->len, ==, 0); /* never as readings */
  g_assert_false (bond_point_has_history (point));
  g_assert_nonnull (item);
  g_assert_cmpstr (item->state, ==, last_time->state);
  g_assert_cmpstr (item->note, ==, last_time->note);
  g_assert_cmpint (item->result.nohm, ==, last_time->nohm);
}

/* Row 16. */
static void
test_next_survey (SmallSurvey *fixture, gconstpointer data)
{
  g_autoptr (Hangar) h = play_first_day ();
  g_autoptr (GPtrArray) earlier = g_ptr_array_new_with_free_func ((GDestroyNotify)bond_earlier_unref);
  g_autoptr (GPtrArray) sets = g_ptr_array_new_with_free_func ((GDestroyNotify)bond_limit_set_unref);
  g_autoptr (BondAirframe) airframe = make_airframe ();
  g_autoptr (BondSurveyFile) again = NULL;
  g_autofree char *path = small_survey_path (fixture, "next.bondsurvey");
  g_autoptr (GPtrArray) problems = g_ptr_array_new ();
  g_autoptr (GError) error = NULL;
  BondNewSurvey what = small_survey_plan (fixture);
  BondSurveyFile *file;
  BondSurvey *survey;
  gsize i;

  g_ptr_array_add (earlier, bond_library_earlier (h->survey));
  g_ptr_array_add (sets, hangar_make_limits ());
  what.airframe = airframe;
  what.limit_sets = sets;
  what.earlier = earlier;
  file = small_survey_make (fixture, "next.bondsurvey", &what);
  survey = bond_survey_file_get_survey (file);
  g_assert_cmpuint (bond_survey_get_earlier (survey)->len, ==, 1);
  for (i = 0; i < G_N_ELEMENTS (left); i++)
    check_point (survey, &left[i]);
  /* The stricter tier ended with that survey: 4.00 on the reworked joint is a pass in service, 80 %. */
  small_survey_measure (survey, "541-J02", UOHM (4000));
  g_assert_cmpint (bond_point_get_state (bond_survey_find_number (survey, "541-J02")), ==, BOND_STATE_PASS);
  small_survey_close (file);

  /* And all of it stands in the file. */
  again = bond_survey_file_open (path, BOND_OPEN_READ, fixture->source, "Office", problems, &error);
  g_assert_no_error (error);
  g_assert_cmpuint (problems->len, ==, 0);
  survey = bond_survey_file_get_survey (again);
  for (i = 0; i < G_N_ELEMENTS (left); i++)
    if (i != 1)
      check_point (survey, &left[i]);
  g_assert_cmpstr (bond_earlier_find (bond_survey_get_earlier (survey)->pdata[0], "q-541-J02")->note, ==,
                   "reworked 2026-11-24");
  bond_survey_file_close (again, NULL);
}

int
main (int argc, char *argv[])
{
  static const SmallSurveyTest tests[] = { { "/library/next-survey", test_next_survey } };

  return small_survey_run (argc, argv, tests, G_N_ELEMENTS (tests));
}
