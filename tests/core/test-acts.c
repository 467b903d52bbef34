/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * What is said and done beside measuring: notes, defect cards, deviations, stripped
 * joints, who did it, handing over.  None of it may make a result better than it is.
 */
#include "hangar.h"

static BondEntry *
note (Hangar *h, const char *number, const char *text)
{
  BondEntry *entry = number != NULL ? hangar_entry (h, BOND_ENTRY_NOTE, number) : bond_entry_new (BOND_ENTRY_NOTE);

  entry->note.text = g_strdup (text);
  return entry;
}

static BondEntry *
defect (Hangar *h, const char *number, const char *card)
{
  BondEntry *entry = hangar_entry (h, BOND_ENTRY_DEFECT, number);

  entry->defect.card = g_strdup (card);
  return entry;
}

static void
test_notes (void)
{
  g_autoptr (Hangar) h = hangar_new (BOND_RULE_SIMPLE);
  BondPoint *point = hangar_point (h, "541-J01", "J2");
  BondEntry *kept, *struck;

  hangar_refused (h, note (h, "541-J01", " \n"), BOND_SURVEY_ERROR_INVALID);
  hangar_record (h, note (h, NULL, "rain on the apron"));
  g_assert_cmpuint (bond_point_get_notes (point)->len, ==, 0);
  kept = hangar_record (h, note (h, "541-J01", "heat-tinted"));
  struck = hangar_record (h, note (h, "541-J01", "wrong joint"));
  g_assert_cmpuint (bond_point_get_notes (point)->len, ==, 2);
  g_assert_true (bond_survey_undo_target (h->survey) == struck);
  hangar_record (h, hangar_void (h, struck, BOND_VOID_OTHER, "of another joint"));
  g_assert_cmpuint (bond_point_get_notes (point)->len, ==, 1);
  g_assert_true (bond_point_get_notes (point)->pdata[0] == kept);
  hangar_expect_state (h, "541-J01", BOND_STATE_TO_MEASURE);
}

/* A card is raised for a reject that stands, leaves it standing, and does not go over to the next reject. */
static void
test_defects (void)
{
  g_autoptr (Hangar) h = hangar_new (BOND_RULE_SIMPLE);
  BondPoint *point = hangar_point (h, "541-J01", "J2");

  hangar_refused (h, defect (h, "541-J01", "D-7"), BOND_SURVEY_ERROR_INVALID);
  hangar_read (h, "541-J01", "1.20");
  hangar_refused (h, defect (h, "541-J01", "D-7"), BOND_SURVEY_ERROR_INVALID);
  hangar_visual (h, "541-J01", BOND_VISUAL_STRANDS, TRUE);
  g_assert_null (bond_point_get_defect (point));
  hangar_refused (h, defect (h, "541-J01", " "), BOND_SURVEY_ERROR_INVALID);
  hangar_record (h, defect (h, "541-J01", "D-7"));
  hangar_record (h, defect (h, "541-J01", "D-8"));
  g_assert_cmpstr (bond_point_get_defect (point), ==, "D-8");
  hangar_undo (h, BOND_VOID_NONE, NULL);
  g_assert_cmpstr (bond_point_get_defect (point), ==, "D-7");
  hangar_expect_state (h, "541-J01", BOND_STATE_FAIL);
  hangar_rework (h, "541-J01", BOND_REWORK_JUMPER_REPLACED);
  g_assert_null (bond_point_get_defect (point));
  hangar_read (h, "541-J01", "3.20");
  hangar_expect_state (h, "541-J01", BOND_STATE_FAIL);
  g_assert_null (bond_point_get_defect (point)); /* the old card is for the old reject */
  hangar_record (h, defect (h, "541-J01", "D-9"));
  g_assert_cmpstr (bond_point_get_defect (point), ==, "D-9");
}

static BondEntry *
deviation (Hangar *h, const char *number, const BondEntry *reading, const char *holder, const char *reason)
{
  BondEntry *entry = hangar_entry (h, BOND_ENTRY_DEVIATION, number);

  entry->ref = g_strdup (reading->id);
  entry->deviation.holder = g_strdup (holder);
  entry->reason = g_strdup (reason);
  return entry;
}

/* E1 asks unmated connectors; design.md: no verdict until a named person accepts the deviation. */
static void
test_deviation (void)
{
  g_autoptr (Hangar) h = hangar_new (BOND_RULE_SIMPLE);
  BondEntry *reading, *accepted;

  hangar_point (h, "131-E01", "E1");
  hangar_point (h, "131-E02", "E1");
  h->connectors = BOND_CONNECTORS_UNMATED;
  reading = hangar_read (h, "131-E02", "1.20");
  hangar_refused (h, deviation (h, "131-E02", reading, "E. Lind", "harness sealed"), BOND_SURVEY_ERROR_INVALID);
  h->connectors = BOND_CONNECTORS_MATED;
  reading = hangar_read (h, "131-E01", "1.20");
  hangar_expect_last (h, "131-E01", BOND_OUTCOME_NO_VERDICT, BOND_REASON_WRONG_STATE);
  hangar_refused (h, deviation (h, "131-E02", reading, "E. Lind", "harness sealed"), BOND_SURVEY_ERROR_INVALID);
  hangar_refused (h, deviation (h, "131-E01", reading, "", "harness sealed"), BOND_SURVEY_ERROR_REASON);
  hangar_refused (h, deviation (h, "131-E01", reading, "E. Lind", NULL), BOND_SURVEY_ERROR_REASON);
  accepted = hangar_record (h, deviation (h, "131-E01", reading, "E. Lind", "harness sealed"));
  hangar_expect_state (h, "131-E01", BOND_STATE_PASS);
  g_assert_true (bond_survey_undo_target (h->survey) == accepted);
  hangar_undo (h, BOND_VOID_NONE, NULL);
  hangar_expect_state (h, "131-E01", BOND_STATE_REMEASURE);
  hangar_redo (h);
  hangar_expect_state (h, "131-E01", BOND_STATE_PASS);
  hangar_record (h, hangar_correct (h, reading, "1.02", BOND_VOID_TYPING_SLIP)); /* the state is the same */
  hangar_expect_state (h, "131-E01", BOND_STATE_PASS);
  hangar_read (h, "131-E01", "1.10"); /* the next reading is not accepted by it */
  hangar_expect_last (h, "131-E01", BOND_OUTCOME_NO_VERDICT, BOND_REASON_WRONG_STATE);
}

/* What is beyond the limit under a deviation is evidence, and striking the deviation does not take it out. */
static void
test_deviation_of_a_fail (void)
{
  g_autoptr (Hangar) h = hangar_new (BOND_RULE_SIMPLE);
  BondEntry *reading, *accepted;

  hangar_point (h, "131-E01", "E1");
  h->connectors = BOND_CONNECTORS_MATED;
  reading = hangar_read (h, "131-E01", "3.20");
  hangar_expect_state (h, "131-E01", BOND_STATE_REMEASURE);
  accepted = hangar_record (h, deviation (h, "131-E01", reading, "E. Lind", "harness sealed"));
  hangar_expect_state (h, "131-E01", BOND_STATE_FAIL);
  hangar_refused (h, hangar_void (h, accepted, BOND_VOID_OTHER, "not meant"), BOND_SURVEY_ERROR_INVALID);
  hangar_refused (h, hangar_undo_entry (h, accepted, BOND_VOID_NONE, NULL), BOND_SURVEY_ERROR_INVALID);
  hangar_refused (h, hangar_void (h, reading, BOND_VOID_OTHER, "poor contact"), BOND_SURVEY_ERROR_REASON);
  hangar_expect_state (h, "131-E01", BOND_STATE_FAIL);
}

/* Given for the first reading of a seating it holds for its other half. */
static void
test_deviation_of_a_pair (void)
{
  g_autoptr (Hangar) h = hangar_new (BOND_RULE_SIMPLE);
  BondEntry *last;

  hangar_point (h, "131-E01", "E1");
  h->connectors = BOND_CONNECTORS_MATED;
  last = hangar_read (h, "131-E01", "1.20 1.22");
  hangar_record (h,
                 deviation (h, "131-E01", bond_survey_find_entry (h->survey, last->reading.of), "E. Lind", "sealed"));
  hangar_expect_state (h, "131-E01", BOND_STATE_PASS);
  hangar_expect_value (h, "131-E01", UOHM (1210));
}

static void
test_bare (void)
{
  g_autoptr (Hangar) h = hangar_new (BOND_RULE_SIMPLE);
  BondPoint *point = hangar_point (h, "541-J01", "J2");
  g_autofree char *since = NULL;
  BondEntry *rework;

  hangar_refused (h, hangar_entry (h, BOND_ENTRY_REFINISH, "541-J01"), BOND_SURVEY_ERROR_INVALID);
  hangar_rework (h, "541-J01", BOND_REWORK_TORQUE_RESTORED);
  g_assert_null (bond_point_bare_since (point));
  /* AC 43.13-1B ¶11-189 counts from the removal of the finish: opened alone, a joint has kept it. */
  hangar_condition (h, "541-J01", BOND_CONDITION_OPENED);
  g_assert_null (bond_point_bare_since (point));
  hangar_rework (h, "541-J01", BOND_REWORK_SURFACES_CLEANED);
  since = g_strdup (bond_point_bare_since (point));
  g_assert_nonnull (since);
  hangar_read (h, "541-J01", "1.20");
  hangar_rework (h, "541-J01", BOND_REWORK_SURFACES_CLEANED);
  g_assert_cmpstr (bond_point_bare_since (point), ==, since); /* the first time is what counts */
  hangar_record (h, hangar_entry (h, BOND_ENTRY_REFINISH, "541-J01"));
  g_assert_null (bond_point_bare_since (point));
  hangar_refused (h, hangar_entry (h, BOND_ENTRY_REFINISH, "541-J01"), BOND_SURVEY_ERROR_INVALID);
  hangar_undo (h, BOND_VOID_NONE, NULL);
  g_assert_cmpstr (bond_point_bare_since (point), ==, since);
  hangar_rework (h, "541-J01", BOND_REWORK_FINISH_REAPPLIED);
  g_assert_null (bond_point_bare_since (point));
  hangar_rework (h, "541-J01", BOND_REWORK_SURFACES_CLEANED | BOND_REWORK_FINISH_REAPPLIED);
  g_assert_null (bond_point_bare_since (point));
  rework = hangar_entry (h, BOND_ENTRY_REWORK, "541-J01");
  rework->rework.done = BOND_REWORK_SURFACES_CLEANED;
  rework->rework.found = BOND_N_VISUAL_FINDINGS;
  hangar_refused (h, rework, BOND_SURVEY_ERROR_INVALID);
}

/* Bolts of one panel: each is bare by itself. */
static void
test_bare_places (void)
{
  g_autoptr (Hangar) h = hangar_new (BOND_RULE_SIMPLE);
  BondPoint *point = hangar_point (h, "541-F01", "F1");

  hangar_add_place (h, "541-F01", "1", TRUE);
  hangar_add_place (h, "541-F01", "2", TRUE);
  h->place = "1";
  hangar_rework (h, "541-F01", BOND_REWORK_SURFACES_CLEANED);
  h->place = "2";
  hangar_refused (h, hangar_entry (h, BOND_ENTRY_REFINISH, "541-F01"), BOND_SURVEY_ERROR_INVALID);
  hangar_rework (h, "541-F01", BOND_REWORK_SURFACES_CLEANED);
  hangar_record (h, hangar_entry (h, BOND_ENTRY_REFINISH, "541-F01"));
  g_assert_nonnull (bond_point_bare_since (point));
  h->place = NULL;
  hangar_record (h, hangar_entry (h, BOND_ENTRY_REFINISH, "541-F01"));
  g_assert_null (bond_point_bare_since (point));
}

static void
test_people (void)
{
  g_autoptr (Hangar) h = hangar_new (BOND_RULE_SIMPLE);
  BondEntry *entry, *check;

  hangar_point (h, "541-J01", "J2");
  bond_survey_set_person (h->survey, "p-nobody");
  hangar_refused (h, hangar_reading (h, "541-J01", "1.20", BOND_DIRECTION_FORWARD, NULL), BOND_SURVEY_ERROR_INVALID);
  bond_survey_set_person (h->survey, "p-okafor");
  bond_survey_set_attribution (h->survey, "p-nobody", NULL);
  hangar_refused (h, note (h, NULL, "rain"), BOND_SURVEY_ERROR_INVALID);
  bond_survey_set_attribution (h->survey, NULL, "p-nobody");
  hangar_refused (h, note (h, NULL, "rain"), BOND_SURVEY_ERROR_INVALID);
  bond_survey_set_attribution (h->survey, "p-lind", "p-sato");
  g_assert_cmpstr (bond_survey_get_entered_by (h->survey), ==, "p-lind");
  g_assert_cmpstr (bond_survey_get_under (h->survey), ==, "p-sato");
  entry = hangar_read (h, "541-J01", "1.20");
  g_assert_cmpstr (entry->by, ==, "p-okafor");
  g_assert_cmpstr (entry->entered_by, ==, "p-lind");
  g_assert_cmpstr (entry->under, ==, "p-sato");
  g_assert_true (bond_survey_undo_target (h->survey) == entry); /* who typed it takes it back */
  hangar_undo (h, BOND_VOID_NONE, NULL);
  g_assert_true (bond_survey_is_taken_back (h->survey, entry));
  bond_survey_set_attribution (h->survey, "p-okafor", NULL); /* the person of the entry: not named twice */
  entry = hangar_read (h, "541-J01", "1.20");
  g_assert_null (entry->entered_by);
  g_assert_null (entry->under);
  check = hangar_reading (h, "541-J01", "1.21", BOND_DIRECTION_FORWARD, NULL);
  check->reading.check = g_strdup ("s-9-1");
  hangar_refused (h, check, BOND_SURVEY_ERROR_INVALID);
  check = hangar_reading (h, "541-J01", "1.21", BOND_DIRECTION_FORWARD, NULL);
  check->reading.check = g_strdup (entry->id);
  hangar_record (h, check);
}

static void
test_handover (void)
{
  g_autoptr (Hangar) h = hangar_new (BOND_RULE_SIMPLE);
  static const struct
  {
    const char *to;
    int done;
    gboolean good;
  } rows[] = { { NULL, 3, FALSE },      { "p-nobody", 3, FALSE }, { "p-okafor", 3, FALSE },
               { "p-lind", -2, FALSE }, { "p-lind", -1, TRUE },   { "p-lind", 3, TRUE } };
  BondTotals before, after;

  hangar_point (h, "541-J01", "J2");
  hangar_read (h, "541-J01", "3.20");
  bond_survey_totals (h->survey, &before);
  for (gsize i = 0; i < G_N_ELEMENTS (rows); i++)
    {
      BondEntry *entry = bond_entry_new (BOND_ENTRY_HANDOVER);

      entry->handover.to = g_strdup (rows[i].to);
      entry->handover.points_done = rows[i].done;
      if (rows[i].good)
        hangar_record (h, entry);
      else
        hangar_refused (h, entry, BOND_SURVEY_ERROR_INVALID);
    }
  bond_survey_totals (h->survey, &after);
  g_assert_cmpmem (&before, sizeof before, &after, sizeof after);
  g_assert_cmpint (bond_survey_undo_target (h->survey)->kind, ==, BOND_ENTRY_READING); /* a notice is not undone */
}

static void
test_reference (void)
{
  g_autoptr (Hangar) h = hangar_new (BOND_RULE_SIMPLE);
  BondEntry *entry = bond_entry_new (BOND_ENTRY_REFERENCE);

  hangar_refused (h, entry, BOND_SURVEY_ERROR_INVALID);
  entry = bond_entry_new (BOND_ENTRY_REFERENCE);
  entry->reference_move.to = g_strdup ("stud G2");
  hangar_record (h, entry);
}

int
main (int argc, char *argv[])
{
  g_test_init (&argc, &argv, NULL);
  g_test_add_func ("/core/acts/notes", test_notes);
  g_test_add_func ("/core/acts/defects", test_defects);
  g_test_add_func ("/core/acts/deviation", test_deviation);
  g_test_add_func ("/core/acts/deviation-of-a-fail", test_deviation_of_a_fail);
  g_test_add_func ("/core/acts/deviation-of-a-pair", test_deviation_of_a_pair);
  g_test_add_func ("/core/acts/bare", test_bare);
  g_test_add_func ("/core/acts/bare-places", test_bare_places);
  g_test_add_func ("/core/acts/people", test_people);
  g_test_add_func ("/core/acts/handover", test_handover);
  g_test_add_func ("/core/acts/reference", test_reference);
  return g_test_run ();
}
