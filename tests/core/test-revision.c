/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * A newer revision of an instrument: what was read before it keeps its uncertainty
 * and its verdict, what is read after it has those of the new one.  The figures are
 * the invented ones of MO-1 and arithmetic.
 */
#include "hangar.h"

/* U of MO-1 at 2.40 mΩ on 30 mΩ: 2 √((0.016/√3)² + (0.01/(2√3))² + 0.0012²) mΩ, up to the next nano-ohm. */
#define U_OLD 19505
/* The same with 0.50 % of reading + 0.100 mΩ: a = 0.112 mΩ. */
#define U_NEW 129478

static BondInstrument *
make_revision (int revision, const char *range)
{
  BondInstrument *instrument
      = bond_instrument_new ("MO-1", revision, BOND_INSTRUMENT_MILLIOHMMETER, revision == 2 ? "MO-1" : "MO-1 bis");
  BondRange wide = { .id = (char *)range,
                     .end = UOHM (30000),
                     .step = UOHM (10),
                     .accuracy_known = TRUE,
                     .accuracy_reading_ppm = 5000,
                     .accuracy_nohm = UOHM (100),
                     .microampere = 10000000 };

  instrument->certificate_ppm = 1000;
  instrument->certificate_k = 2;
  bond_instrument_add_range (instrument, &wide);
  return instrument;
}

static void
adopt_revision (Hangar *h, int revision, const char *range)
{
  g_autoptr (BondInstrument) instrument = make_revision (revision, range);

  hangar_record (h, bond_entry_adopt_new (BOND_ADOPT_INSTRUMENT, instrument));
}

static void
expect_u (Hangar *h, const char *number, BondOhm u_nohm, gboolean within_u)
{
  const BondPlaceResult *result = hangar_result (h, number);

  g_assert_true (result->decides->budget.known);
  g_assert_cmpint (result->decides->budget.u_nohm, ==, u_nohm);
  g_assert_cmpint (result->within_u, ==, within_u);
}

static void
test_old_and_new (void)
{
  g_autoptr (Hangar) h = hangar_new (BOND_RULE_GUARDED);

  hangar_point (h, "541-J01", "J2");
  hangar_point (h, "541-J02", "J2");
  hangar_read (h, "541-J01", "2.40");
  expect_u (h, "541-J01", U_OLD, FALSE);
  hangar_expect_state (h, "541-J01", BOND_STATE_PASS);

  adopt_revision (h, 2, "30m");
  expect_u (h, "541-J01", U_OLD, FALSE);
  hangar_expect_state (h, "541-J01", BOND_STATE_PASS);
  hangar_read (h, "541-J02", "2.40");
  expect_u (h, "541-J02", U_NEW, TRUE); /* 2.40 + 0.13 is over 2.50: under guarded acceptance no pass */
  hangar_expect_state (h, "541-J02", BOND_STATE_FAIL);
}

/* What is on the screen before Enter is judged as it will be recorded. */
static void
test_preview (void)
{
  g_autoptr (Hangar) h = hangar_new (BOND_RULE_SIMPLE);
  BondEntry *reading;
  BondPlaceResult *preview;

  hangar_point (h, "541-J01", "J2");
  hangar_read (h, "541-J01", "2.40");
  adopt_revision (h, 2, "30m");
  reading = hangar_reading (h, "541-J01", "2.40", BOND_DIRECTION_FORWARD, NULL);
  preview = bond_survey_preview (h->survey, hangar_find (h, "541-J01"), NULL, &reading->reading);
  g_assert_cmpint (preview->last->budget.u_nohm, ==, U_NEW);
  g_assert_cmpint (preview->found->budget.u_nohm, ==, U_OLD);
  bond_place_result_free (preview);
  bond_entry_unref (reading);
}

/* A range the newer revision has no more is still the one that was read on. */
static void
test_range_gone (void)
{
  g_autoptr (Hangar) h = hangar_new (BOND_RULE_SIMPLE);

  hangar_point (h, "541-J01", "J2");
  hangar_read (h, "541-J01", "2.40");
  adopt_revision (h, 2, "30m-b");
  expect_u (h, "541-J01", U_OLD, FALSE);
  hangar_refused (h, hangar_reading (h, "541-J01", "2.40", BOND_DIRECTION_FORWARD, NULL), BOND_SURVEY_ERROR_INVALID);
}

/* A correction says what the meter showed then, so it is judged as that meter was then. */
static void
test_correction (void)
{
  g_autoptr (Hangar) h = hangar_new (BOND_RULE_SIMPLE);
  BondEntry *reading;

  hangar_point (h, "541-J01", "J2");
  reading = hangar_read (h, "541-J01", "2.04");
  adopt_revision (h, 2, "30m");
  hangar_record (h, hangar_correct (h, reading, "2.40", BOND_VOID_TYPING_SLIP));
  hangar_expect_value (h, "541-J01", UOHM (2400));
  expect_u (h, "541-J01", U_OLD, FALSE);
}

/* Replay comes to what recording came to; several revisions each hold for their stretch. */
static void
test_replay (void)
{
  g_autoptr (Hangar) h = hangar_new (BOND_RULE_SIMPLE);
  g_autoptr (BondSurvey) again = NULL;
  g_autofree char *before = NULL;
  g_autofree char *after = NULL;
  GPtrArray *entries = bond_survey_get_entries (h->survey);
  static const char *const numbers[] = { "541-J01", "541-J02", "541-J03" };
  guint i;

  for (i = 0; i < G_N_ELEMENTS (numbers); i++)
    {
      BondEntry *reading;

      hangar_point (h, numbers[i], "J2");
      reading = hangar_read (h, numbers[i], "2.40");
      g_assert_cmpint (bond_survey_find_instrument_at (h->survey, "MO-1", reading)->revision, ==, (int)i + 1);
      adopt_revision (h, (int)i + 2, "30m");
      g_assert_cmpint (bond_survey_find_instrument (h->survey, "MO-1")->revision, ==, (int)i + 2);
      g_assert_cmpint (bond_survey_find_instrument_at (h->survey, "MO-1", reading)->revision, ==, (int)i + 1);
    }
  again = bond_survey_new ("6f0c", h->source);
  for (i = entries->len; i > 0; i--)
    g_assert_true (bond_survey_load_entry (again, g_ptr_array_index (entries, i - 1), NULL));
  bond_survey_loaded (again);
  before = hangar_dump (h->survey);
  after = hangar_dump (again);
  g_assert_cmpstr (before, ==, after);
}

int
main (int argc, char *argv[])
{
  g_test_init (&argc, &argv, NULL);
  g_test_add_func ("/core/revision/old-and-new", test_old_and_new);
  g_test_add_func ("/core/revision/preview", test_preview);
  g_test_add_func ("/core/revision/range-gone", test_range_gone);
  g_test_add_func ("/core/revision/correction", test_correction);
  g_test_add_func ("/core/revision/replay", test_replay);
  return g_test_run ();
}
