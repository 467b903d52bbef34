/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * Ways in which a defect could leave the record without one of the reasons of the
 * design, and what happens instead: the act is refused, or the fail stands.  All
 * limits are invented (hangar-registers.c): J1 5 mΩ in service and 2.5 mΩ after
 * opening or rework, J2 2.5 mΩ, P1 10 mΩ, E1 < 2.5 mΩ unmated, T2 100 kΩ to 100 MΩ
 * at 500 V.
 */
#include "hangar.h"

#define NUMBER "541-J01"

static BondEntry *
revised_limits (int revision, const char *code, BondOhm nohm)
{
  g_autoptr (BondLimitSet) set = hangar_make_limits ();
  guint i;

  set->revision = revision;
  for (i = set->rows->len; i > 0; i--)
    {
      BondLimitRow *row = set->rows->pdata[i - 1];
      if (strcmp (row->code, code) == 0 && nohm > 0)
        row->in_service.upper.nohm = nohm;
      else if (strcmp (row->code, code) == 0)
        g_ptr_array_remove_index (set->rows, i - 1);
    }
  return bond_entry_adopt_new (BOND_ADOPT_LIMIT_SET, set);
}

/* A1: a newer revision neither clears a fail nor takes the limit from a measured point. */
static void
test_adopt (void)
{
  g_autoptr (Hangar) h = hangar_new (BOND_RULE_SIMPLE);
  g_autoptr (BondHouse) house = bond_house_new ("h", 1, "House");

  hangar_point (h, NUMBER, "J2");
  hangar_record (h, revised_limits (8, "J2", UOHM (2400))); /* nothing measured yet */
  hangar_read (h, NUMBER, "3.12");
  hangar_refused (h, revised_limits (9, "J2", UOHM (5000)), BOND_SURVEY_ERROR_INVALID);
  hangar_expect_tier (h, NUMBER, BOND_CONDITION_UNDISTURBED, UOHM (2400));
  hangar_expect_state (h, NUMBER, BOND_STATE_FAIL);
  g_assert_cmpint (hangar_result (h, NUMBER)->rejects_as_found, ==, 1);
  hangar_record (h, revised_limits (9, "J2", UOHM (3000))); /* still beyond */
  hangar_record (h, bond_entry_adopt_new (BOND_ADOPT_HOUSE, house));

  hangar_point (h, "541-J02", "P1");
  hangar_read (h, "541-J02", "1.00");
  hangar_refused (h, revised_limits (10, "P1", 0), BOND_SURVEY_ERROR_INVALID);
  hangar_expect_state (h, "541-J02", BOND_STATE_PASS);
  hangar_refused (h, revised_limits (10, "J2", 0), BOND_SURVEY_ERROR_INVALID);
}

/* A2: a name that no set holds is refused; one that lost its row later is open. */
static void
test_unresolved (void)
{
  g_autoptr (Hangar) h = hangar_new (BOND_RULE_SIMPLE);
  BondTotals totals;

  hangar_refused (h, hangar_point_entry (NUMBER, "Z9", TRUE), BOND_SURVEY_ERROR_INVALID);
  hangar_refused (h, hangar_point_entry (NUMBER, "J1 example/Z9", TRUE), BOND_SURVEY_ERROR_INVALID);
  hangar_point (h, NUMBER, "P1");
  hangar_record (h, revised_limits (8, "P1", 0));
  hangar_read (h, NUMBER, "50.00");
  hangar_expect_state (h, NUMBER, BOND_STATE_REMEASURE);
  hangar_expect_last (h, NUMBER, BOND_OUTCOME_NO_VERDICT, BOND_REASON_LIMIT_MISSING);
  bond_survey_totals (h->survey, &totals);
  g_assert_cmpint (totals.open, ==, 1);
  hangar_point (h, "541-J02", NULL); /* names none: recorded without limit */
  hangar_read (h, "541-J02", "50.00");
  hangar_expect_state (h, "541-J02", BOND_STATE_RECORDED);
}

static BondEntry *
newest (Hangar *h)
{
  GPtrArray *entries = bond_survey_get_entries (h->survey);

  return g_ptr_array_index (entries, entries->len - 1);
}

/* A3: what brought the stricter limit stays while a fail rests on it, whoever wants it struck. */
static void
test_struck_condition (void)
{
  g_autoptr (Hangar) h = hangar_new (BOND_RULE_SIMPLE);
  const BondEntry *opened, *reworked;

  hangar_point (h, NUMBER, "J1");
  hangar_condition (h, NUMBER, BOND_CONDITION_OPENED);
  opened = newest (h);
  bond_survey_set_person (h->survey, "p-lind");
  hangar_read (h, NUMBER, "4.00");
  hangar_expect_state (h, NUMBER, BOND_STATE_FAIL);
  hangar_refused (h, hangar_void (h, opened, BOND_VOID_TYPING_SLIP, "never opened"), BOND_SURVEY_ERROR_INVALID);
  bond_survey_set_person (h->survey, "p-okafor");
  g_assert_true (bond_survey_undo_target (h->survey) == opened);
  hangar_refused (h, hangar_undo_entry (h, opened, BOND_VOID_TYPING_SLIP, NULL), BOND_SURVEY_ERROR_INVALID);
  hangar_expect_state (h, NUMBER, BOND_STATE_FAIL);

  hangar_point (h, "541-J02", "J1");
  hangar_rework (h, "541-J02", BOND_REWORK_SURFACES_CLEANED);
  reworked = newest (h);
  hangar_record (h, hangar_void (h, reworked, BOND_VOID_TYPING_SLIP, "other point")); /* nothing rests on it */
  hangar_expect_tier (h, "541-J02", BOND_CONDITION_UNDISTURBED, UOHM (5000));
  hangar_rework (h, "541-J02", BOND_REWORK_SURFACES_CLEANED);
  reworked = newest (h);
  hangar_read (h, "541-J02", "4.00");
  hangar_refused (h, hangar_void (h, reworked, BOND_VOID_TYPING_SLIP, "other point"), BOND_SURVEY_ERROR_INVALID);
}

/* A4: no word puts another limit, class or condition in the place of one that was failed. */
static void
test_respecify (void)
{
  g_autoptr (Hangar) h = hangar_new (BOND_RULE_SIMPLE);
  static const char *const looser[] = { "J1", "P1", NULL };
  BondEntry *entry;
  guint i;

  hangar_point (h, NUMBER, "J2");
  hangar_read (h, NUMBER, "3.12");
  for (i = 0; i < G_N_ELEMENTS (looser); i++)
    {
      entry = hangar_point_entry (NUMBER, looser[i], TRUE);
      entry->reason = g_strdup ("wrong limit named");
      hangar_refused (h, entry, BOND_SURVEY_ERROR_INVALID);
    }
  hangar_expect_state (h, NUMBER, BOND_STATE_FAIL);
  entry = hangar_point_entry (NUMBER, "J2", FALSE); /* the marker was dragged */
  hangar_record (h, entry);

  hangar_point_as (h, "541-J02", "J1", BOND_CONDITION_NEW);
  hangar_read (h, "541-J02", "4.00");
  entry = hangar_point_entry ("541-J02", "J1", TRUE); /* planned as in service */
  entry->reason = g_strdup ("was not new");
  hangar_refused (h, entry, BOND_SURVEY_ERROR_INVALID);
  g_assert_cmpint (hangar_result (h, "541-J02")->rejects_installation, ==, 1);
}

static BondEntry *
disposition (Hangar *h, BondDispositionKind kind, BondOhm upper)
{
  BondEntry *entry = hangar_entry (h, BOND_ENTRY_DISPOSITION, NUMBER);

  entry->disposition.kind = kind;
  entry->disposition.reference = g_strdup ("D-1");
  entry->disposition.holder = g_strdup ("C-12");
  entry->disposition.until = g_strdup ("2027-01-01");
  entry->disposition.first_date = g_strdup ("2026-11-24");
  if (upper > 0)
    entry->disposition.bounds.upper = (BondBound){ BOND_RELATION_LE, upper, BOND_UNIT_MILLIOHM };
  return entry;
}

/* A5: a disposition is of what stood when it was given. */
static void
test_disposition (void)
{
  g_autoptr (Hangar) h = hangar_new (BOND_RULE_SIMPLE);
  g_autoptr (Hangar) other = hangar_new (BOND_RULE_SIMPLE);
  BondEntry *reading;

  hangar_point (h, NUMBER, "J2");
  hangar_read (h, NUMBER, "3.12");
  hangar_record (h, disposition (h, BOND_DISPOSITION_ACCEPTED, UOHM (5000)));
  hangar_expect_state (h, NUMBER, BOND_STATE_ACCEPTED);
  hangar_visual (h, NUMBER, BOND_VISUAL_LEG_BROKEN, TRUE);
  hangar_expect_state (h, NUMBER, BOND_STATE_FAIL);
  hangar_record (h, disposition (h, BOND_DISPOSITION_DEFERRED, 0)); /* of both */
  hangar_expect_state (h, NUMBER, BOND_STATE_DEFERRED);

  hangar_point (other, NUMBER, "J2");
  reading = hangar_read (other, NUMBER, "3.12");
  hangar_record (other, disposition (other, BOND_DISPOSITION_DEFERRED, 0));
  hangar_expect_state (other, NUMBER, BOND_STATE_DEFERRED);
  hangar_record (other, hangar_void (other, reading, BOND_VOID_TYPING_SLIP, NULL));
  hangar_read (other, NUMBER, "29.00");
  hangar_expect_state (other, NUMBER, BOND_STATE_FAIL);
}

/* The figure a disposition was given for is not the one that was put in its place later. */
static void
test_disposition_corrected (void)
{
  g_autoptr (Hangar) h = hangar_new (BOND_RULE_SIMPLE);
  BondEntry *reading;

  hangar_point (h, NUMBER, "J2");
  reading = hangar_read (h, NUMBER, "3.12");
  hangar_record (h, disposition (h, BOND_DISPOSITION_DEFERRED, 0));
  hangar_record (h, hangar_correct (h, reading, "29.00", BOND_VOID_TYPING_SLIP));
  hangar_expect_state (h, NUMBER, BOND_STATE_FAIL);
}

/* A6: a struck reading keeps its point, and the point its shape. */
static void
test_struck_reading_stays (void)
{
  g_autoptr (Hangar) h = hangar_new (BOND_RULE_SIMPLE);
  BondEntry *entry, *reading;
  BondTotals totals;

  hangar_point (h, NUMBER, "J2");
  hangar_read (h, NUMBER, "3.12");
  hangar_undo (h, BOND_VOID_TYPING_SLIP, "slip");
  hangar_refused (h, hangar_undo_entry (h, bond_survey_undo_target (h->survey), BOND_VOID_NONE, NULL),
                  BOND_SURVEY_ERROR_INVALID);
  bond_survey_totals (h->survey, &totals);
  g_assert_cmpint (totals.over_limit_taken_back, ==, 1);

  hangar_point (h, "541-J02", "J2");
  reading = hangar_read (h, "541-J02", "3.12");
  hangar_record (h, hangar_void (h, reading, BOND_VOID_TYPING_SLIP, NULL));
  entry = hangar_entry (h, BOND_ENTRY_PLACE, "541-J02");
  entry->place = g_strdup ("a");
  entry->place_spec.label = g_strdup ("bolt a");
  entry->place_spec.in_sample = TRUE;
  hangar_refused (h, entry, BOND_SURVEY_ERROR_INVALID);
  entry = hangar_point_entry ("541-J02", "P1", TRUE);
  hangar_refused (h, entry, BOND_SURVEY_ERROR_REASON);
}

/* A7: a correction changes the figure alone. */
static void
test_correct (void)
{
  g_autoptr (Hangar) h = hangar_new (BOND_RULE_SIMPLE);
  BondEntry *reading, *entry;
  guint i;

  hangar_point (h, NUMBER, "E1");
  h->connectors = BOND_CONNECTORS_MATED;
  reading = hangar_read (h, NUMBER, "1.20");
  hangar_expect_last (h, NUMBER, BOND_OUTCOME_NO_VERDICT, BOND_REASON_WRONG_STATE);
  for (i = 0; i < 4; i++)
    {
      entry = hangar_correct (h, reading, "1.21", BOND_VOID_TYPING_SLIP);
      if (i == 0)
        entry->correct.reading.connectors = BOND_CONNECTORS_UNMATED;
      else if (i == 1)
        entry->correct.reading.mounting = BOND_MOUNTING_ISOLATED;
      else if (i == 2)
        entry->correct.reading.confirmed = TRUE;
      else
        {
          g_free (entry->correct.reading.instrument);
          entry->correct.reading.instrument = g_strdup ("MO-5");
        }
      hangar_refused (h, entry, BOND_SURVEY_ERROR_INVALID);
    }
  hangar_record (h, hangar_correct (h, reading, "1.21", BOND_VOID_TYPING_SLIP));
  hangar_expect_last (h, NUMBER, BOND_OUTCOME_NO_VERDICT, BOND_REASON_WRONG_STATE);
}

/* A13: what failed, was not confirmed and failed again is not re-seated away. */
static void
test_reseats_run_out (void)
{
  g_autoptr (Hangar) h = hangar_new (BOND_RULE_SIMPLE);
  static const char *const values[] = { "3.12", "1.90", "1.92", "3.20", "3.30", "1.90", "1.90", "1.90" };
  guint i;

  hangar_point (h, NUMBER, "J2");
  for (i = 0; i < G_N_ELEMENTS (values); i++)
    hangar_read (h, NUMBER, values[i]);
  hangar_expect_state (h, NUMBER, BOND_STATE_FAIL);
  g_assert_true (hangar_result (h, NUMBER)->intermittent);
  g_assert_false (hangar_result (h, NUMBER)->held);
  g_assert_cmpint (hangar_result (h, NUMBER)->rejects_as_found, ==, 1);
}

/* A re-seat that came to no verdict is one of the tries, and parts the two that agree. */
static void
test_reseat_without_verdict (void)
{
  g_autoptr (Hangar) h = hangar_new (BOND_RULE_SIMPLE);

  hangar_point (h, NUMBER, "E1");
  h->connectors = BOND_CONNECTORS_UNMATED;
  hangar_read (h, NUMBER, "3.12");
  hangar_read (h, NUMBER, "1.90");
  h->connectors = BOND_CONNECTORS_MATED;
  hangar_read (h, NUMBER, "2.90");
  h->connectors = BOND_CONNECTORS_UNMATED;
  hangar_read (h, NUMBER, "1.92");
  hangar_expect_state (h, NUMBER, BOND_STATE_FAIL);
  g_assert_cmpint (hangar_result (h, NUMBER)->reseats, ==, 3);
}

/* A15: a place leaves the sample for a reason, and a fail brings every place back. */
static void
test_sample (void)
{
  g_autoptr (Hangar) h = hangar_new (BOND_RULE_SIMPLE);
  BondEntry *entry;
  int given;

  hangar_point (h, NUMBER, "J2");
  hangar_add_place (h, NUMBER, "a", TRUE);
  hangar_add_place (h, NUMBER, "b", TRUE);
  h->place = "b";
  for (given = 0; given <= 1; given++)
    {
      entry = hangar_entry (h, BOND_ENTRY_PLACE, NUMBER);
      entry->place_spec.label = g_strdup ("b");
      entry->reason = given ? g_strdup ("behind the tank") : NULL;
      if (given)
        hangar_record (h, entry);
      else
        hangar_refused (h, entry, BOND_SURVEY_ERROR_REASON);
    }
  hangar_expect_state (h, NUMBER, BOND_STATE_NOT_IN_SAMPLE);
  h->place = "a";
  hangar_read (h, NUMBER, "3.12");
  h->place = "b";
  hangar_expect_state (h, NUMBER, BOND_STATE_TO_MEASURE);
}

/* A16: the halves of a pair are of one point, one place and one instrument. */
static void
test_seating (void)
{
  g_autoptr (Hangar) h = hangar_new (BOND_RULE_SIMPLE);
  BondEntry *first;

  hangar_point (h, NUMBER, "J2P");
  hangar_point (h, "541-J02", "J2P");
  first = hangar_read (h, NUMBER, "1.90");
  hangar_refused (h, hangar_reading (h, "541-J02", "1.92", BOND_DIRECTION_REVERSE, first), BOND_SURVEY_ERROR_INVALID);
  hangar_take (h, "MO-3", "30m");
  hangar_refused (h, hangar_reading (h, NUMBER, "1.92", BOND_DIRECTION_REVERSE, first), BOND_SURVEY_ERROR_INVALID);
  hangar_take (h, "MO-1", "30m");
  hangar_record (h, hangar_move (h, first, "541-J02"));
  hangar_record (h, hangar_reading (h, "541-J02", "1.92", BOND_DIRECTION_REVERSE, first));
  hangar_expect_state (h, "541-J02", BOND_STATE_PASS);
}

/* A17: after a fail and rework only "not accessible", which stays open, may stand for the reading that is due. */
static void
test_mark_after_rework (void)
{
  g_autoptr (Hangar) h = hangar_new (BOND_RULE_SIMPLE);
  static const BondPointMark refused[]
      = { BOND_POINT_MARK_NOT_FITTED, BOND_POINT_MARK_NOT_APPLICABLE, BOND_POINT_MARK_NOT_IN_SAMPLE };
  guint i;

  hangar_point (h, NUMBER, "J2");
  hangar_read (h, NUMBER, "3.12");
  hangar_rework (h, NUMBER, BOND_REWORK_SURFACES_CLEANED);
  for (i = 0; i < G_N_ELEMENTS (refused); i++)
    {
      BondEntry *entry = hangar_entry (h, BOND_ENTRY_STATE, NUMBER);
      entry->state.mark = refused[i];
      entry->reason = g_strdup ("not needed");
      hangar_refused (h, entry, BOND_SURVEY_ERROR_INVALID);
    }
  hangar_mark (h, NUMBER, BOND_POINT_MARK_NOT_ACCESSIBLE, "panel shut");
  hangar_expect_state (h, NUMBER, BOND_STATE_NOT_ACCESSIBLE);
}

/* A12: "< X" needs room for U under guarded acceptance. U of MO-1 at 2.495 mΩ on 30 mΩ is above 5 µΩ. */
static void
test_guarded_below (void)
{
  static const struct
  {
    const char *text, *instrument, *range;
    BondOutcome outcome;
    BondReason reason;
  } rows[] = {
    { "<2.00", "MO-1", "30m", BOND_OUTCOME_JUDGED, BOND_REASON_NONE },
    { "<2.495", "MO-1", "30m", BOND_OUTCOME_NO_VERDICT, BOND_REASON_U_TOO_LARGE },
    { "<2.00", NULL, NULL, BOND_OUTCOME_NO_VERDICT, BOND_REASON_U_UNKNOWN },
  };
  guint i;

  for (i = 0; i < G_N_ELEMENTS (rows); i++)
    {
      g_autoptr (Hangar) h = hangar_new (BOND_RULE_GUARDED);

      h->confirmed = TRUE;
      hangar_take (h, rows[i].instrument, rows[i].range);
      hangar_point (h, NUMBER, "J2");
      hangar_read (h, NUMBER, rows[i].text);
      hangar_expect_last (h, NUMBER, rows[i].outcome, rows[i].reason);
    }
}

/* C28: insulation without an instrument is nobody's reading. */
static void
test_insulation (void)
{
  g_autoptr (Hangar) h = hangar_new (BOND_RULE_SIMPLE);

  hangar_point (h, "541-T01", "T2");
  h->unit = BOND_UNIT_MEGOHM;
  hangar_take (h, NULL, NULL);
  hangar_read (h, "541-T01", "20");
  hangar_expect_last (h, "541-T01", BOND_OUTCOME_NO_VERDICT, BOND_REASON_WRONG_METHOD);
  hangar_take (h, "MG-1", "1G");
  hangar_read (h, "541-T01", "20");
  hangar_expect_state (h, "541-T01", BOND_STATE_PASS);
}

/* Done again, rework ends a fail as it did at first; a fail that came in between is not lost by it. */
static void
test_rework_again (void)
{
  g_autoptr (Hangar) h = hangar_new (BOND_RULE_SIMPLE);

  hangar_point (h, "541-J01", "J2");
  hangar_read (h, "541-J01", "3.12");
  hangar_rework (h, "541-J01", BOND_REWORK_SURFACES_CLEANED);
  hangar_undo (h, BOND_VOID_NONE, NULL);
  hangar_expect_state (h, "541-J01", BOND_STATE_FAIL);
  hangar_redo (h);
  hangar_expect_state (h, "541-J01", BOND_STATE_REMEASURE);
  g_assert_cmpint (hangar_result (h, "541-J01")->rejects_as_found, ==, 1);
}

int
main (int argc, char **argv)
{
  g_test_init (&argc, &argv, NULL);
  g_test_add_func ("/evidence/adopt", test_adopt);
  g_test_add_func ("/evidence/unresolved", test_unresolved);
  g_test_add_func ("/evidence/struck-condition", test_struck_condition);
  g_test_add_func ("/evidence/respecify", test_respecify);
  g_test_add_func ("/evidence/disposition", test_disposition);
  g_test_add_func ("/evidence/disposition-corrected", test_disposition_corrected);
  g_test_add_func ("/evidence/struck-reading-stays", test_struck_reading_stays);
  g_test_add_func ("/evidence/correct", test_correct);
  g_test_add_func ("/evidence/rework-again", test_rework_again);
  g_test_add_func ("/evidence/reseats-run-out", test_reseats_run_out);
  g_test_add_func ("/evidence/reseat-without-verdict", test_reseat_without_verdict);
  g_test_add_func ("/evidence/sample", test_sample);
  g_test_add_func ("/evidence/seating", test_seating);
  g_test_add_func ("/evidence/mark-after-rework", test_mark_after_rework);
  g_test_add_func ("/evidence/guarded-below", test_guarded_below);
  g_test_add_func ("/evidence/insulation", test_insulation);
  return g_test_run ();
}
