/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * Nobody measures where fuel vapour or electro-explosive devices may be without
 * leave: which zones ask for it, when a permit covers a reading, what refuses one.
 */
#include "hangar.h"

#define GAS_AT "2026-11-24T09:40:00+01:00"
#define ENDS "2026-11-24T12:00:00+01:00"

/* 520 holds vapour, so 521 in it does and 191, which lies within 521; 541 does not. */
static void
adopt_airframe (Hangar *h)
{
  static const struct
  {
    const char *number, *parent, *within;
    guint hazards;
  } zones[] = {
    { "500", NULL, NULL, 0 },
    { "520", "500", NULL, BOND_HAZARD_FUEL_VAPOUR },
    { "521", "520", NULL, BOND_HAZARD_COMPOSITE },
    { "541", "500", NULL, 0 },
    { "191", NULL, "521", 0 },
  };
  g_autoptr (BondAirframe) airframe = bond_airframe_new ("zones", 1, "Invented");

  for (gsize i = 0; i < G_N_ELEMENTS (zones); i++)
    {
      BondZone *zone = bond_zone_new (zones[i].number, "invented", BOND_ZONE_ZONE, BOND_SIDE_LEFT);
      zone->parent = g_strdup (zones[i].parent);
      zone->within = g_strdup (zones[i].within);
      zone->hazards = zones[i].hazards;
      g_assert_true (bond_airframe_add_zone (airframe, zone, NULL));
    }
  hangar_record (h, bond_entry_adopt_new (BOND_ADOPT_AIRFRAME, airframe));
}

static Hangar *
tank_new (void)
{
  Hangar *h = hangar_new (BOND_RULE_SIMPLE);

  adopt_airframe (h);
  hangar_point (h, "521-J01", "J2");
  hangar_point (h, "541-J01", "J2");
  return h;
}

static BondEntry *
vapour_permit (void)
{
  BondEntry *entry = bond_entry_new (BOND_ENTRY_PERMIT);

  g_assert_cmpint (entry->permit.vapour_permille, ==, -1);
  g_assert_cmpint (entry->permit.counted_in, ==, -1);
  entry->permit = (BondPermit){ .hazard = BOND_HAZARD_FUEL_VAPOUR,
                                .number = g_strdup ("FV-12"),
                                .zones = g_strdup ("520"),
                                .tester = g_strdup ("T. Sato"),
                                .gas_at = g_strdup (GAS_AT),
                                .valid_until = g_strdup (ENDS),
                                .vapour_permille = 40,
                                .oxygen_permille = 208,
                                .counted_in = 4 };
  return entry;
}

static void
set_text (char **member, const char *text)
{
  g_free (*member);
  *member = g_strdup (text);
}

/* What must be there and what the house allows; from memory: 10 % of the lower explosive limit, oxygen 19.5 … 23.5 %.
 */
static void
test_what_it_needs (void)
{
  g_autoptr (Hangar) h = tank_new ();
  const struct
  {
    gsize text; /* offset of a string that is set to @value */
    const char *value;
    int vapour, oxygen, counted;
    gboolean good;
  } rows[] = {
    { G_STRUCT_OFFSET (BondPermit, number), "FV-12", 40, 208, 4, TRUE },
    { G_STRUCT_OFFSET (BondPermit, number), " ", 40, 208, 4, FALSE },
    { G_STRUCT_OFFSET (BondPermit, zones), NULL, 40, 208, 4, FALSE },
    { G_STRUCT_OFFSET (BondPermit, zones), "520 999", 40, 208, 4, FALSE },
    { G_STRUCT_OFFSET (BondPermit, zones), "520 541", 40, 208, 4, TRUE },
    { G_STRUCT_OFFSET (BondPermit, tester), "", 40, 208, 4, FALSE },
    { G_STRUCT_OFFSET (BondPermit, gas_at), NULL, 40, 208, 4, FALSE },
    { G_STRUCT_OFFSET (BondPermit, gas_at), "yesterday", 40, 208, 4, FALSE },
    { G_STRUCT_OFFSET (BondPermit, gas_at), "2026-11-24T11:40:00+01:00", 40, 208, 4, FALSE }, /* to come */
    { G_STRUCT_OFFSET (BondPermit, valid_until), NULL, 40, 208, 4, FALSE },
    { G_STRUCT_OFFSET (BondPermit, valid_until), "noon", 40, 208, 4, FALSE },
    { G_STRUCT_OFFSET (BondPermit, valid_until), "2026-11-24T09:50:00+01:00", 40, 208, 4, FALSE }, /* ended */
    { G_STRUCT_OFFSET (BondPermit, valid_until), "2026-11-24T09:50:00+00:00", 40, 208, 4, TRUE },  /* 10:50 here */
    { G_STRUCT_OFFSET (BondPermit, number), "FV-12", -1, 208, 4, FALSE },
    { G_STRUCT_OFFSET (BondPermit, number), "FV-12", 40, -1, 4, FALSE },
    { G_STRUCT_OFFSET (BondPermit, number), "FV-12", 100, 195, 4, TRUE },
    { G_STRUCT_OFFSET (BondPermit, number), "FV-12", 101, 208, 4, FALSE },
    { G_STRUCT_OFFSET (BondPermit, number), "FV-12", 0, 194, 4, FALSE },
    { G_STRUCT_OFFSET (BondPermit, number), "FV-12", 0, 235, -1, TRUE },
    { G_STRUCT_OFFSET (BondPermit, number), "FV-12", 0, 236, 4, FALSE },
    { G_STRUCT_OFFSET (BondPermit, number), "FV-12", 0, 208, -2, FALSE },
  };

  for (gsize i = 0; i < G_N_ELEMENTS (rows); i++)
    {
      g_autoptr (BondEntry) entry = vapour_permit ();
      g_autoptr (GError) error = NULL;

      set_text (&G_STRUCT_MEMBER (char *, &entry->permit, rows[i].text), rows[i].value);
      entry->permit.vapour_permille = rows[i].vapour;
      entry->permit.oxygen_permille = rows[i].oxygen;
      entry->permit.counted_in = rows[i].counted;
      g_test_message ("row %u", (guint)i);
      g_assert_cmpint (bond_survey_check_entry (h->survey, entry, &error), ==, rows[i].good);
      g_assert_true (rows[i].good == (error == NULL));
    }
}

static void
expect_waits (Hangar *h, BondEntry *entry, const char *words)
{
  g_autoptr (GError) error = NULL;

  g_assert_false (bond_survey_record_now (h->survey, entry, &error));
  g_assert_error (error, BOND_SURVEY_ERROR, BOND_SURVEY_ERROR_PERMIT);
  g_assert_nonnull (strstr (error->message, words));
  g_assert_nonnull (strstr (error->message, "What you typed is kept"));
}

static BondEntry *
reading (Hangar *h, const char *number)
{
  return hangar_reading (h, number, "1.20", BOND_DIRECTION_FORWARD, NULL);
}

static void
test_readings_wait (void)
{
  g_autoptr (Hangar) h = tank_new ();
  BondPoint *tank = hangar_find (h, "521-J01");
  BondEntry *permit;

  g_assert_cmpuint (bond_point_get_hazards (tank), ==, BOND_HAZARD_FUEL_VAPOUR | BOND_HAZARD_COMPOSITE);
  g_assert_cmpuint (bond_point_get_hazards (hangar_point (h, "191-J01", "J2")), ==,
                    BOND_HAZARD_FUEL_VAPOUR | BOND_HAZARD_COMPOSITE);
  g_assert_cmpuint (bond_point_get_hazards (hangar_find (h, "541-J01")), ==, 0);
  hangar_read (h, "541-J01", "1.20");
  expect_waits (h, reading (h, "521-J01"), "no permit in force covers zone 521");
  g_assert_false (bond_survey_check_permit (h->survey, tank, "MO-1", NULL));
  permit = hangar_record (h, vapour_permit ());
  g_assert_true (bond_survey_check_permit (h->survey, tank, "MO-1", NULL));
  g_assert_true (bond_survey_check_permit (h->survey, tank, NULL, NULL));
  g_assert_true (bond_survey_permit_for (h->survey, BOND_HAZARD_FUEL_VAPOUR, "191", ENDS) == permit);
  g_assert_null (bond_survey_permit_for (h->survey, BOND_HAZARD_FUEL_VAPOUR, "541", ENDS));
  g_assert_null (bond_survey_permit_for (h->survey, BOND_HAZARD_EXPLOSIVE, "521", ENDS));
  g_assert_null (bond_survey_permit_for (h->survey, BOND_HAZARD_FUEL_VAPOUR, "521", "2026-11-24T12:00:01+01:00"));
  g_assert_null (bond_survey_permit_for (h->survey, BOND_HAZARD_FUEL_VAPOUR, "521", "2026-11-24T09:39:59+01:00"));
  hangar_take (h, "MO-2", "30m");
  expect_waits (h, reading (h, "521-J01"), "MO-2 is not approved");
  hangar_take (h, "MO-1", "30m");
  hangar_read (h, "521-J01", "1.20");
  bond_source_set_now (h->source, "2026-11-24T12:00:01+01:00");
  expect_waits (h, reading (h, "521-J01"), "permit FV-12 for zone 521 ended at 12:00");
  bond_source_set_now (h->source, "2026-11-25T08:00:00+01:00");
  expect_waits (h, reading (h, "521-J01"), "ended at 2026-11-24 12:00");
}

/* A meter nobody named is approved by nobody. */
static void
test_no_instrument (void)
{
  g_autoptr (Hangar) h = tank_new ();
  BondEntry *entry;

  hangar_record (h, vapour_permit ());
  entry = reading (h, "521-J01");
  set_text (&entry->reading.instrument, NULL);
  set_text (&entry->reading.range, NULL);
  expect_waits (h, entry, "not approved");
}

/* What was measured under a permit may be put right when it has ended; what was not may not be moved in. */
static void
test_moves_and_corrections (void)
{
  g_autoptr (Hangar) h = tank_new ();
  BondEntry *outside = hangar_read (h, "541-J01", "1.30"), *inside, *later;
  BondEntry *permit;

  expect_waits (h, hangar_move (h, outside, "521-J01"), "no permit in force");
  permit = hangar_record (h, vapour_permit ());
  inside = hangar_read (h, "521-J01", "1.20");
  later = hangar_read (h, "541-J01", "1.40");
  {
    BondEntry *close = bond_entry_new (BOND_ENTRY_CLOSE_PERMIT);
    close->ref = g_strdup (permit->id);
    close->close_permit.counted_out = 4;
    hangar_record (h, close);
  }
  expect_waits (h, reading (h, "521-J01"), "no permit in force");
  hangar_record (h, hangar_correct (h, inside, "1.02", BOND_VOID_TYPING_SLIP));
  hangar_record (h, hangar_move (h, later, "521-J01"));
  bond_source_set_now (h->source, "2026-11-24T12:30:00+01:00");
  later = hangar_read (h, "541-J01", "1.50");
  expect_waits (h, hangar_move (h, later, "521-J01"), "no permit in force");
}

static void
test_closing (void)
{
  g_autoptr (Hangar) h = tank_new ();
  BondEntry *permit = hangar_record (h, vapour_permit ()), *close;
  static const struct
  {
    int out;
    const char *reason;
    gboolean good;
  } rows[] = { { -1, NULL, FALSE },
               { 3, NULL, FALSE },
               { 3, " ", FALSE },
               { 5, NULL, FALSE },
               { 3, "one clip found in the tool box", TRUE },
               { 4, NULL, TRUE } };

  for (gsize i = 0; i < G_N_ELEMENTS (rows); i++)
    {
      g_autoptr (BondEntry) entry = bond_entry_new (BOND_ENTRY_CLOSE_PERMIT);

      entry->ref = g_strdup (permit->id);
      entry->reason = g_strdup (rows[i].reason);
      entry->close_permit.counted_out = rows[i].out;
      g_assert_cmpint (bond_survey_check_entry (h->survey, entry, NULL), ==, rows[i].good);
    }
  close = bond_entry_new (BOND_ENTRY_CLOSE_PERMIT);
  close->ref = g_strdup (permit->id);
  close->close_permit.counted_out = 4;
  close = hangar_record (h, close);
  g_assert_cmpuint (bond_survey_get_permits (h->survey)->len, ==, 0);
  g_assert_true (bond_survey_undo_target (h->survey) == close);
  hangar_undo (h, BOND_VOID_NONE, NULL);
  g_assert_cmpuint (bond_survey_get_permits (h->survey)->len, ==, 1);
  hangar_undo (h, BOND_VOID_NONE, NULL); /* the permit itself */
  g_assert_cmpuint (bond_survey_get_permits (h->survey)->len, ==, 0);
  expect_waits (h, reading (h, "521-J01"), "no permit in force");
}

/* B measured under the permit A recorded: A's undo is refused while the readings stand, and not after. */
static void
test_readings_rest_on_it (void)
{
  g_autoptr (Hangar) h = tank_new ();
  BondEntry *permit = hangar_record (h, vapour_permit ()), *reading_of_b;
  BondEntry *voided = hangar_entry (h, BOND_ENTRY_VOID, "521-J01");
  g_autoptr (BondEntry) undo = bond_entry_new (BOND_ENTRY_TAKE_BACK);
  g_autoptr (GError) error = NULL;

  undo->ref = g_strdup (permit->id);
  undo->by = g_strdup (permit->by);
  hangar_read (h, "541-J01", "1.20"); /* no hazard there: rests on nothing */
  hangar_undo (h, BOND_VOID_NONE, NULL);
  g_assert_true (bond_survey_check_entry (h->survey, undo, NULL));
  bond_survey_set_person (h->survey, "p-lind");
  reading_of_b = hangar_read (h, "521-J01", "1.20");
  g_assert_false (bond_survey_check_entry (h->survey, undo, &error));
  g_assert_error (error, BOND_SURVEY_ERROR, BOND_SURVEY_ERROR_INVALID);
  g_assert_nonnull (strstr (error->message, "readings of 521-J01 were taken under this permit"));
  voided->ref = g_strdup (permit->id);
  voided->voided.why = BOND_VOID_OTHER;
  voided->reason = g_strdup ("wrong number");
  hangar_refused (h, voided, BOND_SURVEY_ERROR_INVALID); /* voiding it is no way round */
  g_assert_cmpuint (bond_survey_get_permits (h->survey)->len, ==, 1);
  g_assert_true (bond_survey_undo_target (h->survey) == reading_of_b);
  hangar_undo (h, BOND_VOID_NONE, NULL);
  g_assert_true (bond_survey_check_entry (h->survey, undo, NULL));
}

static BondEntry *
strike (const BondEntry *target, const char *by)
{
  BondEntry *entry = bond_entry_new (BOND_ENTRY_TAKE_BACK);

  entry->ref = g_strdup (target->id);
  entry->by = g_strdup (by);
  return entry;
}

static void
expect_not_restored (Hangar *h, BondEntry *entry)
{
  g_autoptr (BondEntry) held = entry;
  g_autoptr (GError) error = NULL;

  g_assert_false (bond_survey_check_entry (h->survey, entry, &error));
  g_assert_error (error, BOND_SURVEY_ERROR, BOND_SURVEY_ERROR_INVALID);
  g_assert_nonnull (strstr (error->message, "Not restored: no permit that stands covers 521-J01"));
}

/* B undoes, A takes back the permit: nothing that B brings back by undo or redo may stand without it. */
static void
test_restored_without (void)
{
  enum
  {
    REDO_READING,
    UNDO_VOID,
    UNDO_MOVE,
    REDO_MOVE,
    N_WAYS
  };

  for (int way = REDO_READING; way < N_WAYS; way++)
    {
      g_autoptr (Hangar) h = tank_new ();
      BondEntry *permit = hangar_record (h, vapour_permit ()), *of_b;
      g_autofree char *a = g_strdup (permit->by);

      bond_survey_set_person (h->survey, "p-lind");
      of_b = hangar_read (h, way == REDO_MOVE ? "541-J01" : "521-J01", "1.20");
      if (way == UNDO_VOID)
        of_b = hangar_record (h, hangar_void (h, of_b, BOND_VOID_INSTRUMENT_FAULT, "lead broken"));
      else if (way != REDO_READING)
        of_b = hangar_record (h, hangar_move (h, of_b, way == REDO_MOVE ? "521-J01" : "541-J01"));
      if (way == REDO_READING || way == REDO_MOVE)
        of_b = hangar_undo (h, BOND_VOID_NONE, NULL);
      {
        g_autoptr (BondEntry) free_yet = strike (of_b, "p-lind");
        g_assert_true (bond_survey_check_entry (h->survey, free_yet, NULL));
      }
      hangar_record (h, strike (permit, a));
      g_assert_cmpuint (bond_survey_get_permits (h->survey)->len, ==, 0);
      expect_not_restored (h, strike (of_b, "p-lind"));
    }
}

/* A closes the permit and undoes that; B measures; A's redo of the close would leave B's reading without it. */
static void
test_closed_again (void)
{
  g_autoptr (Hangar) h = tank_new ();
  BondEntry *permit = hangar_record (h, vapour_permit ()), *close = bond_entry_new (BOND_ENTRY_CLOSE_PERMIT), *undo;
  g_autofree char *a = g_strdup (permit->by);
  g_autoptr (BondEntry) redo = NULL;
  g_autoptr (GError) error = NULL;

  close->ref = g_strdup (permit->id);
  close->close_permit.counted_out = 4;
  hangar_record (h, close);
  undo = hangar_undo (h, BOND_VOID_NONE, NULL);
  redo = strike (undo, a);
  g_assert_true (bond_survey_check_entry (h->survey, redo, NULL));
  bond_survey_set_person (h->survey, "p-lind");
  hangar_read (h, "521-J01", "1.20");
  g_assert_false (bond_survey_check_entry (h->survey, redo, &error));
  g_assert_nonnull (strstr (error->message, "readings of 521-J01 were taken after this permit was closed"));
}

/* The point's own hazard: the named authority is asked, and a permit for vapour is none for it. */
static void
test_explosive (void)
{
  g_autoptr (Hangar) h = tank_new ();
  BondEntry *entry = hangar_point_entry ("541-J07", "J2", FALSE);

  entry->spec->hazards = BOND_HAZARD_EXPLOSIVE;
  hangar_record (h, entry);
  hangar_record (h, vapour_permit ());
  expect_waits (h, reading (h, "541-J07"), "electro-explosive devices are near 541-J07");
  entry = bond_entry_new (BOND_ENTRY_PERMIT);
  entry->permit.hazard = BOND_HAZARD_EXPLOSIVE;
  entry->permit.zones = g_strdup ("541");
  hangar_refused (h, entry, BOND_SURVEY_ERROR_INVALID);
  entry = bond_entry_new (BOND_ENTRY_PERMIT);
  entry->permit.hazard = BOND_HAZARD_EXPLOSIVE;
  entry->permit.zones = g_strdup ("500");
  entry->permit.authority = g_strdup ("Armament officer");
  hangar_record (h, entry);
  hangar_take (h, "MO-2", "30m"); /* approval for vapour is not asked here */
  hangar_read (h, "541-J07", "1.20");
  entry = bond_entry_new (BOND_ENTRY_PERMIT);
  entry->permit.hazard = BOND_HAZARD_COMPOSITE;
  entry->permit.zones = g_strdup ("541");
  hangar_refused (h, entry, BOND_SURVEY_ERROR_INVALID);
}

static void
test_cautions (void)
{
  g_autoptr (Hangar) h = tank_new ();
  BondEntry *entry = bond_entry_new (BOND_ENTRY_CAUTION);
  BondTotals before, after;

  hangar_refused (h, entry, BOND_SURVEY_ERROR_INVALID);
  bond_survey_totals (h->survey, &before);
  entry = bond_entry_new (BOND_ENTRY_CAUTION);
  entry->caution.shown = g_strdup ("power vapour");
  entry->caution.zones = g_strdup ("521");
  hangar_record (h, entry);
  bond_survey_totals (h->survey, &after);
  g_assert_cmpmem (&before, sizeof before, &after, sizeof after);
  g_assert_true (bond_survey_caution_read (h->survey, "p-okafor", "vapour", "2026-11-24T23:59:59+01:00"));
  g_assert_false (bond_survey_caution_read (h->survey, "p-okafor", "vap", "2026-11-24T23:59:59+01:00"));
  g_assert_false (bond_survey_caution_read (h->survey, "p-lind", "vapour", "2026-11-24T23:59:59+01:00"));
  g_assert_false (bond_survey_caution_read (h->survey, "p-okafor", "vapour", "2026-11-25T00:00:00+01:00"));
}

int
main (int argc, char *argv[])
{
  g_test_init (&argc, &argv, NULL);
  g_test_add_func ("/core/permit/what-it-needs", test_what_it_needs);
  g_test_add_func ("/core/permit/readings-wait", test_readings_wait);
  g_test_add_func ("/core/permit/no-instrument", test_no_instrument);
  g_test_add_func ("/core/permit/moves-and-corrections", test_moves_and_corrections);
  g_test_add_func ("/core/permit/closing", test_closing);
  g_test_add_func ("/core/permit/readings-rest-on-it", test_readings_rest_on_it);
  g_test_add_func ("/core/permit/restored-without", test_restored_without);
  g_test_add_func ("/core/permit/closed-again", test_closed_again);
  g_test_add_func ("/core/permit/explosive", test_explosive);
  g_test_add_func ("/core/permit/cautions", test_cautions);
  return g_test_run ();
}
