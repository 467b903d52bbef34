/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * What the next shift must be told: bare joints with their clock, permits and counts,
 * cautions of this survey and no others.  Everything goes through the record.
 *
 * 24 h: AC 43.13-1B (8 Sep 1998) ¶11-189.  The share at which a warning begins, and the
 * 15 minutes of a permit, are our own figures.
 */
#include "../core/hangar.h"

#include "library/cautions.h"
#include "library/handover.h"
#include "library/permits.h"

static BondPoint *
hazardous_point (Hangar *h, const char *number, guint hazards)
{
  BondEntry *entry = hangar_point_entry (number, "J1", FALSE);

  entry->spec->hazards = hazards;
  hangar_record (h, entry);
  return hangar_find (h, number);
}

static BondEntry *
new_permit (BondHazard hazard, const char *zones, const char *gas_at, const char *until)
{
  BondEntry *entry = bond_entry_new (BOND_ENTRY_PERMIT);

  entry->permit.hazard = hazard;
  entry->permit.zones = g_strdup (zones);
  entry->permit.number = g_strdup ("P-17");
  entry->permit.gas_at = g_strdup (gas_at);
  entry->permit.valid_until = g_strdup (until);
  entry->permit.tester = g_strdup ("G. Tester");
  entry->permit.authority = hazard == BOND_HAZARD_EXPLOSIVE ? g_strdup ("A. Armourer") : NULL;
  entry->permit.vapour_permille = hazard == BOND_HAZARD_EXPLOSIVE ? -1 : 20;
  entry->permit.oxygen_permille = hazard == BOND_HAZARD_EXPLOSIVE ? -1 : 209;
  entry->permit.counted_in = 6;
  return entry;
}

static gboolean
names (GPtrArray *cautions, const char *code)
{
  for (guint i = 0; i < cautions->len; i++)
    if (g_str_equal (((BondCaution *)g_ptr_array_index (cautions, i))->code, code))
      return TRUE;
  return FALSE;
}

/* --- bare joints --- */

static void
test_bare (void)
{
  g_autoptr (Hangar) h = hangar_new (BOND_RULE_SIMPLE);
  g_autoptr (GPtrArray) joints = NULL;
  g_autofree char *words = NULL;
  g_autofree char *warning = NULL;
  const BondBareJoint *joint;
  BondBareState state;

  hangar_point (h, "541-J01", "J1");
  hangar_read (h, "541-J01", "6.20");
  bond_source_set_now (h->source, "2026-11-24T10:15:00+01:00");
  hangar_rework (h, "541-J01", BOND_REWORK_SURFACES_CLEANED);
  joints = bond_bare_joints (h->survey, "2026-11-24T13:35:00+01:00");
  g_assert_cmpuint (joints->len, ==, 1);
  joint = g_ptr_array_index (joints, 0);
  g_assert_cmpint (joint->minutes_bare, ==, 200);
  g_assert_cmpint (joint->state, ==, BOND_BARE_OPEN);
  words = bond_bare_words (joint, "2026-11-24T13:35:00+01:00");
  g_assert_cmpstr (words, ==, "541-J01 bare for 3 h 20 min, protect by 10:15 tomorrow");
  warning = bond_bare_warning (h->survey, "2026-11-24T13:35:00+01:00", &state);
  g_assert_null (warning);
}

/* 20 h warns, a minute before does not; 24 h to the minute is in time, a minute later is not. */
static void
test_bare_thresholds (void)
{
  static const struct
  {
    const char *now;
    BondBareState state;
    const char *words;
  } rows[] = {
    { "2026-11-25T06:14:00+01:00", BOND_BARE_OPEN, NULL },
    { "2026-11-25T06:15:00+01:00", BOND_BARE_SOON, "541-J01 bare for 20 h, protect by 10:15" },
    { "2026-11-25T10:15:00+01:00", BOND_BARE_SOON, "541-J01 bare for 24 h, protect by 10:15" },
    { "2026-11-25T10:16:00+01:00", BOND_BARE_OVERDUE, "541-J01 bare for 24 h 1 min, OVERDUE since 10:15" },
    { "2026-11-26T08:00:00+01:00", BOND_BARE_OVERDUE, "541-J01 bare for 45 h 45 min, OVERDUE since 10:15 yesterday" },
  };
  g_autoptr (Hangar) h = hangar_new (BOND_RULE_SIMPLE);

  hangar_point (h, "541-J01", "J1");
  hangar_read (h, "541-J01", "6.20");
  bond_source_set_now (h->source, "2026-11-24T10:15:00+01:00");
  hangar_rework (h, "541-J01", BOND_REWORK_SURFACES_CLEANED);
  for (gsize i = 0; i < G_N_ELEMENTS (rows); i++)
    {
      BondBareState state;
      g_autofree char *words = bond_bare_warning (h->survey, rows[i].now, &state);

      g_assert_cmpint (state, ==, rows[i].state);
      g_assert_cmpstr (words, ==, rows[i].words);
    }
}

static void
test_protected (void)
{
  g_autoptr (Hangar) h = hangar_new (BOND_RULE_SIMPLE);
  g_autoptr (GPtrArray) joints = NULL;

  hangar_point (h, "541-J01", "J1");
  hangar_read (h, "541-J01", "6.20");
  hangar_rework (h, "541-J01", BOND_REWORK_SURFACES_CLEANED);
  hangar_read (h, "541-J01", "1.20");
  hangar_record (h, hangar_entry (h, BOND_ENTRY_REFINISH, "541-J01"));
  joints = bond_bare_joints (h->survey, "2026-11-25T10:15:00+01:00");
  g_assert_cmpuint (joints->len, ==, 0);
}

/* --- permits --- */

static void
expect_leave (Hangar *h, BondPoint *point, const char *meter, const char *now, BondLeave leave, const char *part)
{
  g_auto (BondLeaveStatus) status = { 0 };

  bond_leave_status (h->survey, point, meter, "30m", now, &status);
  g_test_message ("%s: %s", now, status.words);
  g_assert_cmpint (status.leave, ==, leave);
  if (part != NULL)
    g_assert_nonnull (strstr (status.words, part));
  else
    g_assert_null (status.words);
}

static const char *
adopt_approved (Hangar *h)
{
  g_autoptr (BondInstrument) meter = bond_instrument_new ("i-approved", 1, BOND_INSTRUMENT_MILLIOHMMETER, "MO-V");

  meter->vapour_approved = TRUE;
  hangar_record (h, bond_entry_adopt_new (BOND_ADOPT_INSTRUMENT, meter));
  return "i-approved";
}

static void
test_permit_runs (void)
{
  g_autoptr (Hangar) h = hangar_new (BOND_RULE_SIMPLE);
  BondPoint *point = hazardous_point (h, "521-J01", BOND_HAZARD_FUEL_VAPOUR);
  BondPoint *plain = hangar_point (h, "541-J01", "J1");
  const char *approved = adopt_approved (h);

  bond_source_set_now (h->source, "2026-11-24T10:00:00+01:00");
  expect_leave (h, plain, approved, "2026-11-24T10:00:00+01:00", BOND_LEAVE_NOT_NEEDED, NULL);
  expect_leave (h, point, approved, "2026-11-24T10:00:00+01:00", BOND_LEAVE_MISSING,
                "521 may hold fuel vapour. Readings there need a permit.");
  hangar_record (h,
                 new_permit (BOND_HAZARD_FUEL_VAPOUR, "521", "2026-11-24T09:40:00+01:00", "2026-11-24T14:00:00+01:00"));
  expect_leave (h, point, approved, "2026-11-24T13:25:00+01:00", BOND_LEAVE_VALID,
                "Permit P-17 until 14:00, 35 min left");
  expect_leave (h, point, approved, "2026-11-24T13:45:00+01:00", BOND_LEAVE_VALID, "15 min left");
  expect_leave (h, point, approved, "2026-11-24T13:46:00+01:00", BOND_LEAVE_ENDING, "14 min left");
  expect_leave (h, point, approved, "2026-11-24T14:01:00+01:00", BOND_LEAVE_OVER, "Permit P-17 ended at 14:00");
  expect_leave (h, point, approved, "2026-11-25T07:00:00+01:00", BOND_LEAVE_OVER, "P-17 ended at 2026-11-24 14:00");
  expect_leave (h, point, "MO-2", "2026-11-24T13:00:00+01:00", BOND_LEAVE_METER, "Approved: MO-1, MO-V.");
  bond_source_set_now (h->source, "2026-11-24T22:10:00+01:00"); /* a night shift */
  hangar_record (h,
                 new_permit (BOND_HAZARD_FUEL_VAPOUR, "521", "2026-11-24T22:00:00+01:00", "2026-11-25T02:00:00+01:00"));
  expect_leave (h, point, approved, "2026-11-24T23:00:00+01:00", BOND_LEAVE_VALID,
                "Permit P-17 until 2026-11-25 02:00, 3 h left");
  expect_leave (h, point, approved, "2026-11-25T01:00:00+01:00", BOND_LEAVE_VALID, "until 02:00, 1 h left");
}

/* The current of the pinned range is told before anybody gives leave. */
static void
test_explosive (void)
{
  g_autoptr (Hangar) h = hangar_new (BOND_RULE_SIMPLE);
  BondPoint *point = hazardous_point (h, "541-J02", BOND_HAZARD_EXPLOSIVE);
  g_auto (BondLeaveStatus) status = { 0 };

  bond_leave_status (h->survey, point, h->instrument, h->range, "2026-11-24T10:00:00+01:00", &status);
  g_assert_cmpint (status.leave, ==, BOND_LEAVE_MISSING);
  g_assert_nonnull (strstr (status.words, "10 A"));
  g_assert_nonnull (strstr (status.words, "named authority"));
  bond_leave_status_clear (&status);
  hangar_record (h, new_permit (BOND_HAZARD_EXPLOSIVE, "541", NULL, NULL));
  bond_leave_status (h->survey, point, h->instrument, h->range, "2026-11-24T10:00:00+01:00", &status);
  g_assert_cmpint (status.leave, ==, BOND_LEAVE_VALID);
}

static void
test_clock (void)
{
  static const struct
  {
    const char *text, *now;
    gboolean is_end;
    const char *time;
  } rows[] = {
    { "14:00", "2026-11-24T10:00:00+01:00", TRUE, "2026-11-24T14:00:00+01:00" },
    { "1400", "2026-11-24T10:00:00+01:00", TRUE, "2026-11-24T14:00:00+01:00" },
    { "9.05", "2026-11-24T10:00:00+01:00", FALSE, "2026-11-24T09:05:00+01:00" },
    { "02:00", "2026-11-24T22:30:00+01:00", TRUE, "2026-11-25T02:00:00+01:00" },
    { "12:00", "2026-11-24T14:00:00+01:00", TRUE, "2026-11-24T12:00:00+01:00" }, /* past: core says so */
    { "23:50", "2026-11-25T00:20:00+01:00", FALSE, "2026-11-24T23:50:00+01:00" },
    { "24:00", "2026-11-24T10:00:00+01:00", TRUE, NULL },
    { "14:0", "2026-11-24T10:00:00+01:00", TRUE, NULL },
    { "noon", "2026-11-24T10:00:00+01:00", TRUE, NULL },
  };

  for (gsize i = 0; i < G_N_ELEMENTS (rows); i++)
    {
      g_autofree char *time = bond_time_of_day (rows[i].text, rows[i].now, rows[i].is_end);

      g_assert_cmpstr (time, ==, rows[i].time);
    }
}

/* --- cautions --- */

static void
test_cautions_of_this_survey (void)
{
  g_autoptr (Hangar) h = hangar_new (BOND_RULE_SIMPLE);
  g_autoptr (GPtrArray) plain = NULL;
  g_autoptr (GPtrArray) all = NULL;

  hangar_point (h, "541-J01", "J1");
  plain = bond_cautions_for (h->survey);
  g_assert_false (names (plain, "fuel-vapour"));
  g_assert_false (names (plain, "explosive-devices"));
  g_assert_false (names (plain, "composite"));
  g_assert_false (names (plain, "equipment"));
  g_assert_true (names (plain, "high-current")); /* MO-1 drives 10 A */
  g_assert_true (names (plain, "power-off") && names (plain, "surface") && names (plain, "count")
                 && names (plain, "reading"));
  hazardous_point (h, "521-J01", BOND_HAZARD_FUEL_VAPOUR | BOND_HAZARD_EXPLOSIVE | BOND_HAZARD_COMPOSITE);
  hangar_point (h, "131-E01", "E1");
  hangar_point (h, "521-T01", "T2");
  all = bond_cautions_for (h->survey);
  g_assert_cmpuint (all->len, ==, 10);
  g_assert_cmpstr (((BondCaution *)g_ptr_array_index (all, 0))->where, ==, "521");
}

static void
acknowledge (Hangar *h, const char *person)
{
  g_autoptr (GPtrArray) unread = bond_cautions_unread (h->survey, person);

  hangar_record (h, bond_cautions_entry (unread, person));
}

/* Once a day and person: another person, another day and another hazard ask again, and the hazard for itself. */
static void
test_once_a_day (void)
{
  g_autoptr (Hangar) h = hangar_new (BOND_RULE_SIMPLE);
  const char *person = ((BondPerson *)g_ptr_array_index (bond_survey_get_people (h->survey), 0))->id;
  const char *other = ((BondPerson *)g_ptr_array_index (bond_survey_get_people (h->survey), 1))->id;
  g_autoptr (GPtrArray) left = NULL;

  hangar_point (h, "541-J01", "J1");
  bond_source_set_now (h->source, "2026-11-24T10:00:00+01:00");
  acknowledge (h, person);
  left = bond_cautions_unread (h->survey, person);
  g_assert_cmpuint (left->len, ==, 0);
  g_assert_true (bond_cautions_all_read (h->survey, person));
  g_assert_false (bond_cautions_all_read (h->survey, other));
  g_ptr_array_unref (left);
  left = bond_cautions_unread (h->survey, other);
  g_assert_cmpuint (left->len, ==, 5);
  hazardous_point (h, "521-J01", BOND_HAZARD_FUEL_VAPOUR);
  g_ptr_array_unref (left);
  left = bond_cautions_unread (h->survey, person);
  g_assert_cmpuint (left->len, ==, 1);
  g_assert_false (bond_cautions_all_read (h->survey, person));
  acknowledge (h, person);
  g_assert_true (bond_cautions_all_read (h->survey, person));
  bond_source_set_now (h->source, "2026-11-25T06:00:00+01:00");
  g_ptr_array_unref (left);
  left = bond_cautions_unread (h->survey, person);
  g_assert_cmpuint (left->len, ==, 6);
  g_assert_false (bond_cautions_all_read (h->survey, person));
}

/* --- the sheet --- */

static void
test_sheet (void)
{
  g_autoptr (Hangar) h = hangar_new (BOND_RULE_SIMPLE);
  const char *other = ((BondPerson *)g_ptr_array_index (bond_survey_get_people (h->survey), 1))->id;
  g_autoptr (BondHandoverSheet) sheet = NULL;
  g_autofree char *text = NULL;
  BondEntry *entry;

  hangar_point (h, "541-J01", "J1");
  hangar_point (h, "541-J02", "J1");
  hangar_point (h, "542-J01", "J1");
  hazardous_point (h, "521-J01", BOND_HAZARD_COMPOSITE);
  hangar_read (h, "541-J01", "6.20");
  hangar_read (h, "541-J02", "1.20");
  hangar_read (h, "521-J01", "1.20");
  bond_source_set_now (h->source, "2026-11-24T10:15:00+01:00");
  hangar_rework (h, "541-J01", BOND_REWORK_SURFACES_CLEANED);
  hangar_record (h,
                 new_permit (BOND_HAZARD_FUEL_VAPOUR, "521", "2026-11-24T10:00:00+01:00", "2026-11-24T14:00:00+01:00"));
  sheet = bond_handover_sheet_new (h->survey, "2026-11-24T13:35:00+01:00");
  g_assert_cmpint (sheet->points_done, ==, 2);
  g_assert_cmpint (sheet->points_to_do, ==, 2);
  g_assert_nonnull (strstr (sheet->done, "541: 1 of 2"));
  g_assert_nonnull (strstr (sheet->done, "521: all 1, but NOT CLOSED: Permit P-17 is open"));
  g_assert_nonnull (strstr (sheet->to_do, "541: J01"));
  g_assert_nonnull (strstr (sheet->to_do, "542: J01"));
  g_assert_nonnull (strstr (sheet->stopped, "541-J01: "));
  g_assert_nonnull (strstr (sheet->bare, "protect by 10:15 tomorrow"));
  g_assert_nonnull (strstr (sheet->permits, "6 clips and leads are inside"));
  g_assert_nonnull (strstr (sheet->meter, "no meter check recorded"));
  text = bond_handover_text (sheet, "A", "B", "541AB", "Lead 2 is worn");
  g_assert_nonnull (strstr (text, "From A to B"));
  g_assert_nonnull (strstr (text, "541AB"));
  g_assert_nonnull (strstr (text, "Lead 2 is worn"));
  entry = hangar_record (h, bond_handover_entry (sheet, other, "541AB", "Lead 2 is worn"));
  g_assert_cmpstr (entry->handover.to, ==, other);
  g_assert_true (g_str_has_prefix (entry->handover.bare, "541-J01 2026-11-24T10:15:"));
  g_assert_cmpint (entry->handover.points_done, ==, 2);
}

/* Six in, five out stays on the sheet with what was said of it; the zone is closed all the same. */
static void
test_counts (void)
{
  g_autoptr (Hangar) h = hangar_new (BOND_RULE_SIMPLE);
  g_autoptr (BondHandoverSheet) sheet = NULL;
  BondEntry *permit, *closed;

  hangar_point (h, "521-J01", "J1");
  hangar_read (h, "521-J01", "1.20");
  bond_source_set_now (h->source, "2026-11-24T10:15:00+01:00");
  permit = hangar_record (
      h, new_permit (BOND_HAZARD_FUEL_VAPOUR, "521", "2026-11-24T10:00:00+01:00", "2026-11-24T14:00:00+01:00"));
  closed = bond_entry_new (BOND_ENTRY_CLOSE_PERMIT);
  closed->ref = g_strdup (permit->id);
  closed->close_permit.counted_out = 5;
  hangar_refused (h, bond_entry_ref (closed), BOND_SURVEY_ERROR_REASON);
  closed->reason = g_strdup ("probe tip found broken, both halves out");
  hangar_record (h, closed);
  sheet = bond_handover_sheet_new (h->survey, "2026-11-24T13:35:00+01:00");
  g_assert_cmpstr (sheet->permits, ==, "");
  g_assert_cmpstr (sheet->counts, ==, "Permit P-17: 6 in, 5 out. probe tip found broken, both halves out");
  g_assert_cmpstr (sheet->done, ==, "521: all 1");
}

int
main (int argc, char **argv)
{
  g_test_init (&argc, &argv, NULL);
  g_test_add_func ("/library/shift/bare", test_bare);
  g_test_add_func ("/library/shift/bare-thresholds", test_bare_thresholds);
  g_test_add_func ("/library/shift/protected", test_protected);
  g_test_add_func ("/library/shift/permit-runs", test_permit_runs);
  g_test_add_func ("/library/shift/explosive", test_explosive);
  g_test_add_func ("/library/shift/clock", test_clock);
  g_test_add_func ("/library/shift/cautions-of-this-survey", test_cautions_of_this_survey);
  g_test_add_func ("/library/shift/once-a-day", test_once_a_day);
  g_test_add_func ("/library/shift/sheet", test_sheet);
  g_test_add_func ("/library/shift/counts", test_counts);
  return g_test_run ();
}
