/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * The third worked day: forward, reverse, zero.  Everything in it is invented; the
 * pair rules (10 %, 4 display steps, 50 µV) are house values: common practice, no
 * source.
 */
#include "hangar.h"

/* Rows 1 and 2: a meter that shows minus in reverse, 0.1 A on 30 mΩ. */
static void
test_thermal (void)
{
  g_autoptr (Hangar) h = hangar_new (BOND_RULE_SIMPLE);
  const BondMeasurement *m;
  BondEntry *first;

  hangar_take (h, "MO-2", "30m");
  hangar_point (h, "541-J01", "J2");
  hangar_read (h, "541-J01", "2.60 -2.20");
  hangar_expect_last (h, "541-J01", BOND_OUTCOME_NO_VERDICT, BOND_REASON_PAIR_DISAGREES);
  hangar_expect_state (h, "541-J01", BOND_STATE_REMEASURE);
  m = hangar_result (h, "541-J01")->last;
  g_assert_cmpint (m->emf_nanovolt, ==, 20000);
  g_assert_null (hangar_result (h, "541-J01")->decides);

  first = g_ptr_array_index (m->readings, 0);
  hangar_read_pair_of (h, "541-J01", "2.61 -2.21", first);
  hangar_expect_state (h, "541-J01", BOND_STATE_PASS);
  hangar_expect_value (h, "541-J01", UOHM (2405));
  m = hangar_result (h, "541-J01")->decides;
  g_assert_cmpuint (m->readings->len, ==, 4);
  g_assert_cmpint (m->mean.count, ==, 4);
  g_assert_cmpint (m->emf_nanovolt, ==, 20000);
  g_assert_true (m->paired);
}

/* Row 3: a meter that shows no sign cannot have shown a minus. */
static void
test_minus (void)
{
  g_autoptr (Hangar) h = hangar_new (BOND_RULE_SIMPLE);

  hangar_point (h, "541-J01", "J2");
  hangar_read (h, "541-J01", "1.84 -1.82");
  hangar_expect_last (h, "541-J01", BOND_OUTCOME_SUSPECT, BOND_REASON_NEGATIVE);
  hangar_expect_state (h, "541-J01", BOND_STATE_SUSPECT);
  g_assert_null (hangar_result (h, "541-J01")->decides);
  g_assert_cmpint (hangar_result (h, "541-J01")->last->mean.count, ==, 0);
}

/* Rows 4 to 6: a contact moved; no mean of it is ever kept. */
static void
test_moved_contact (void)
{
  g_autoptr (Hangar) h = hangar_new (BOND_RULE_SIMPLE);
  const BondPlaceResult *result;
  BondEntry *first;
  guint i, readings = 0;

  hangar_point (h, "541-J01", "J2");
  hangar_read (h, "541-J01", "1.10 3.90");
  hangar_expect_last (h, "541-J01", BOND_OUTCOME_NO_VERDICT, BOND_REASON_PAIR_DISAGREES);
  g_assert_cmpint (hangar_result (h, "541-J01")->last->emf_nanovolt, ==, 14000000);
  first = g_ptr_array_index (hangar_result (h, "541-J01")->last->readings, 0);
  hangar_read_pair_of (h, "541-J01", "1.12 3.88", first);
  hangar_expect_last (h, "541-J01", BOND_OUTCOME_SUSPECT, BOND_REASON_EMF_TOO_LARGE);
  hangar_expect_state (h, "541-J01", BOND_STATE_SUSPECT);
  g_assert_null (hangar_result (h, "541-J01")->decides);
  g_assert_cmpint (hangar_result (h, "541-J01")->last->mean.count, ==, 0);

  /* A third pair begins a measurement of its own, even when it claims to belong to the first. */
  hangar_read_pair_of (h, "541-J01", "2.31 2.33", first);
  hangar_expect_state (h, "541-J01", BOND_STATE_PASS);
  hangar_expect_value (h, "541-J01", UOHM (2320));
  result = hangar_result (h, "541-J01");
  for (i = 0; i < result->history->len; i++)
    readings += ((const BondHistoryItem *)result->history->pdata[i])->measurement->readings->len;
  g_assert_cmpuint (readings, ==, 6);
  g_assert_cmpint (result->decides->mean.count, ==, 2);
}

/* Row 7. */
static void
test_one_step (void)
{
  g_autoptr (Hangar) h = hangar_new (BOND_RULE_SIMPLE);

  hangar_point (h, "541-J01", "J2");
  hangar_read (h, "541-J01", "0.03 0.04");
  hangar_expect_state (h, "541-J01", BOND_STATE_PASS);
  hangar_expect_value (h, "541-J01", UOHM (35));
}

/* Row 8, and the edges: exactly 10 % of the mean, exactly 4 steps, one nano-ohm more. */
static void
test_agreement (void)
{
  static const struct
  {
    BondOhm a, b, step;
    gboolean agree;
  } pairs[] = {
    { UOHM (1840), UOHM (2010), UOHM (10), TRUE },
    { UOHM (1840), UOHM (2030), UOHM (10), TRUE },
    { UOHM (1840), UOHM (2310), UOHM (10), FALSE },
    { 1900000, 2100000, 0, TRUE },
    { 1900000, 2100001, 0, FALSE },
    { UOHM (30), UOHM (70), UOHM (10), TRUE },
    { UOHM (30), UOHM (70) + 1, UOHM (10), FALSE },
    { -UOHM (1840), UOHM (1840), UOHM (10), FALSE },
    { G_MAXINT64, G_MAXINT64, 0, TRUE },
    { 1, G_MAXINT64, G_MAXINT64, TRUE },
  };
  g_autoptr (BondHouse) house = bond_house_new ("house", 1, NULL);
  gsize i;

  for (i = 0; i < G_N_ELEMENTS (pairs); i++)
    {
      g_assert_cmpint (bond_readings_agree (pairs[i].a, pairs[i].b, pairs[i].step, house), ==, pairs[i].agree);
      g_assert_cmpint (bond_readings_agree (pairs[i].b, pairs[i].a, pairs[i].step, house), ==, pairs[i].agree);
    }
}

/* Row 9. */
static void
test_self_reversing (void)
{
  g_autoptr (Hangar) h = hangar_new (BOND_RULE_SIMPLE);

  hangar_point (h, "541-J01", "J2P");
  hangar_point (h, "541-J02", "J2P");
  hangar_read (h, "541-J02", "1.83");
  hangar_expect_last (h, "541-J02", BOND_OUTCOME_INCOMPLETE, BOND_REASON_REVERSE_MISSING);
  hangar_expect_state (h, "541-J02", BOND_STATE_TO_MEASURE);
  hangar_take (h, "MO-5", "30m");
  hangar_read (h, "541-J01", "1.83");
  hangar_expect_state (h, "541-J01", BOND_STATE_PASS);
  g_assert_true (hangar_result (h, "541-J01")->decides->self_reversed);
}

/* Rows 10 and 11. */
static void
test_zero (void)
{
  g_autoptr (Hangar) h = hangar_new (BOND_RULE_SIMPLE);
  const BondMeasurement *m;
  BondTotals totals;

  hangar_point (h, "541-J01", "J2");
  hangar_point (h, "541-J02", "J2");
  hangar_point (h, "541-J03", "J2");
  hangar_read (h, "541-J01", "0");
  hangar_expect_last (h, "541-J01", BOND_OUTCOME_SUSPECT, BOND_REASON_ZERO);
  hangar_expect_state (h, "541-J01", BOND_STATE_SUSPECT);
  g_assert_true (bond_survey_next_open (h->survey, NULL) == hangar_find (h, "541-J01"));

  h->confirmed = TRUE;
  hangar_read (h, "541-J02", "0");
  h->confirmed = FALSE;
  hangar_expect_state (h, "541-J02", BOND_STATE_PASS);
  m = hangar_result (h, "541-J02")->decides;
  g_assert_cmpint (m->qualifier, ==, BOND_QUALIFIER_BELOW);
  g_assert_true (m->below_resolution);
  g_assert_cmpint (bond_mean_nohm (&m->mean), ==, UOHM (10));

  hangar_read (h, "541-J03", "-0.02");
  hangar_expect_last (h, "541-J03", BOND_OUTCOME_SUSPECT, BOND_REASON_NEGATIVE);
  bond_survey_totals (h->survey, &totals);
  g_assert_cmpint (totals.below_resolution, ==, 1);
  g_assert_cmpint (totals.suspect, ==, 2);
  g_assert_true (totals.control_total_nohm == 0);
}

/* Row 12: what is no reading never becomes an entry. */
static void
test_no_reading (void)
{
  static const char *const texts[] = { "1.8.4", "abc", "", "1,250", "1.250,5" };
  g_autoptr (Hangar) h = hangar_new (BOND_RULE_SIMPLE);
  BondNumberFormat format = { .mark = '.' };
  BondEntry *empty;
  gsize i;

  for (i = 0; i < G_N_ELEMENTS (texts); i++)
    {
      BondReadingText parsed = { 0 };
      g_autoptr (GError) error = NULL;
      g_assert_false (
          bond_reading_text_parse (texts[i], BOND_UNIT_MILLIOHM, &format, UOHM (30000), UOHM (10), &parsed, &error));
      g_assert_nonnull (error);
    }
  hangar_point (h, "541-J01", "J2");
  empty = hangar_reading (h, "541-J01", "1", BOND_DIRECTION_FORWARD, NULL);
  g_free (empty->reading.text);
  empty->reading.text = g_strdup ("");
  hangar_refused (h, empty, BOND_SURVEY_ERROR_INVALID);
  hangar_expect_state (h, "541-J01", BOND_STATE_TO_MEASURE);
}

int
main (int argc, char *argv[])
{
  g_test_init (&argc, &argv, NULL);
  g_test_add_func ("/core/scenario-3/thermal", test_thermal);
  g_test_add_func ("/core/scenario-3/minus", test_minus);
  g_test_add_func ("/core/scenario-3/moved-contact", test_moved_contact);
  g_test_add_func ("/core/scenario-3/one-step", test_one_step);
  g_test_add_func ("/core/scenario-3/agreement", test_agreement);
  g_test_add_func ("/core/scenario-3/self-reversing", test_self_reversing);
  g_test_add_func ("/core/scenario-3/zero", test_zero);
  g_test_add_func ("/core/scenario-3/no-reading", test_no_reading);
  return g_test_run ();
}
