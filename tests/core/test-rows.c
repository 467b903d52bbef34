/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * Several limit rows on one point: each is judged, all must be met, the worst speaks
 * for the place and no other verdict is lost.  All limits are invented: J1 5 mΩ in
 * service and 2.5 mΩ after opening or rework, J2 2.5 mΩ, P1 10 mΩ, E1 < 2.5 mΩ
 * unmated, J2P J2 with a pair; no set holds Z9.
 */
#include "hangar.h"

#define NUMBER "541-J01"

/* Outcome of a row as one letter: p pass, f fail, - no verdict, r recorded, i incomplete, . none. */
static char
letter_of (const BondMeasurement *m)
{
  if (m == NULL)
    return '.';
  switch (m->outcome)
    {
    case BOND_OUTCOME_JUDGED:
      return m->conforms ? 'p' : 'f';
    case BOND_OUTCOME_NO_VERDICT:
      return '-';
    case BOND_OUTCOME_RECORDED:
      return 'r';
    case BOND_OUTCOME_INCOMPLETE:
      return 'i';
    default:
      return '?';
    }
}

/* The result under the row that the point names @name. */
static const BondPlaceResult *
row_result (const BondPlaceResult *place, const char *name)
{
  const BondPlaceResult *found = NULL;
  guint i;

  for (i = 0; i < bond_place_result_n_rows (place); i++)
    if (g_strcmp0 (bond_place_result_nth_row (place, i)->row_name, name) == 0)
      {
        g_assert_null (found);
        found = bond_place_result_nth_row (place, i);
      }
  g_assert_nonnull (found);
  return found;
}

/* "pf": last verdicts in the order named. */
static void
expect_place (const BondPlaceResult *place, const char *names, const char *verdicts, const char *governs)
{
  g_autofree char *all = g_strconcat ("example/", names, NULL);
  g_auto (GStrv) name = g_strsplit (all, " ", -1);
  g_autofree char *governing = g_strconcat ("example/", governs, NULL);
  guint i;

  g_assert_cmpuint (g_strv_length (name), ==, bond_place_result_n_rows (place));
  for (i = 0; name[i] != NULL; i++)
    g_assert_cmpint (letter_of (row_result (place, name[i])->last), ==, verdicts[i]);
  g_assert_cmpstr (place->row_name, ==, governing);
}

static const struct
{
  const char *names, *text, *verdicts, *governs;
  BondState state;
  BondConnectors connectors;
} singles[] = {
  { "J1 example/P1", NULL, "..", "J1", BOND_STATE_TO_MEASURE },
  { "P1 example/J1", NULL, "..", "J1", BOND_STATE_TO_MEASURE },
  { "J1 example/P1", "1.20", "pp", "J1", BOND_STATE_PASS },
  { "P1 example/J1", "1.20", "pp", "J1", BOND_STATE_PASS },
  { "J1 example/P1", "7.00", "fp", "J1", BOND_STATE_FAIL },
  { "P1 example/J1", "7.00", "pf", "J1", BOND_STATE_FAIL },
  { "P1 example/J1", "12.00", "ff", "J1", BOND_STATE_FAIL },
  /* at each limit and one nano-ohm beside it */
  { "J1 example/P1", "4.999999", "pp", "J1", BOND_STATE_PASS },
  { "J1 example/P1", "5", "pp", "J1", BOND_STATE_PASS },
  { "J1 example/P1", "5.000001", "fp", "J1", BOND_STATE_FAIL },
  { "J1 example/P1", "9.999999", "fp", "J1", BOND_STATE_FAIL },
  { "J1 example/P1", "10", "fp", "J1", BOND_STATE_FAIL },
  { "J1 example/P1", "10.000001", "ff", "J1", BOND_STATE_FAIL },
  /* ≤ 2.5 and < 2.5: apart at the limit alone */
  { "J2 example/E1", "2.499999", "pp", "E1", BOND_STATE_PASS, BOND_CONNECTORS_UNMATED },
  { "J2 example/E1", "2.5", "pf", "E1", BOND_STATE_FAIL, BOND_CONNECTORS_UNMATED },
  { "J2 example/E1", "2.500001", "ff", "E1", BOND_STATE_FAIL, BOND_CONNECTORS_UNMATED },
  { "J2 example/E1", NULL, "..", "E1", BOND_STATE_TO_MEASURE, BOND_CONNECTORS_UNMATED },
  /* the wrong measuring state takes the verdict from one row only */
  { "J1 example/E1", "1.20", "p-", "E1", BOND_STATE_REMEASURE, BOND_CONNECTORS_MATED },
  { "J1 example/E1", "7.00", "f-", "J1", BOND_STATE_FAIL, BOND_CONNECTORS_MATED },
  /* a name that no set holds hides nothing and is answered for by nobody */
  { "J1 example/Z9", NULL, "..", "J1", BOND_STATE_TO_MEASURE },
  { "Z9 example/J1", NULL, "..", "J1", BOND_STATE_TO_MEASURE },
  { "J1 example/Z9", "1.20", "p-", "Z9", BOND_STATE_REMEASURE },
  { "Z9 example/J1", "7.00", "-f", "J1", BOND_STATE_FAIL },
  { "J1 example/Z9 example/E1", "1.20", "p--", "E1", BOND_STATE_REMEASURE, BOND_CONNECTORS_MATED },
  /* a row that is looked at stays open until somebody looked */
  { "J1 example/V1", "1.20", "p-", "V1", BOND_STATE_REMEASURE },
  { "J1 example/V1", "7.00", "f-", "J1", BOND_STATE_FAIL },
  { "J1 example/T2", "1.20", "p-", "T2", BOND_STATE_REMEASURE },
  /* a pair is asked of all rows when one asks it */
  { "P1 example/J2P", "2.00", "pp", "J2P", BOND_STATE_PASS },
};

static void
place (Hangar *h, const char *names)
{
  if (strstr (names, "Z9") != NULL)
    hangar_point_unresolved (h, NUMBER, names);
  else
    hangar_point (h, NUMBER, names);
}

static void
test_table (void)
{
  guint i;

  for (i = 0; i < G_N_ELEMENTS (singles); i++)
    {
      g_autoptr (Hangar) h = hangar_new (BOND_RULE_SIMPLE);
      gboolean pair = strstr (singles[i].names, "J2P") != NULL;
      g_autofree char *text
          = singles[i].text == NULL ? NULL : g_strconcat (singles[i].text, pair ? " " : "", pair ? "2.02" : "", NULL);

      g_test_message ("%s %s", singles[i].names, singles[i].text);
      place (h, singles[i].names);
      h->connectors = singles[i].connectors;
      if (text != NULL)
        hangar_read (h, NUMBER, text);
      hangar_expect_state (h, NUMBER, singles[i].state);
      expect_place (hangar_result (h, NUMBER), singles[i].names, singles[i].verdicts, singles[i].governs);
      g_assert_true (bond_point_get_row (hangar_find (h, NUMBER)) == hangar_result (h, NUMBER)->row);
      g_assert_true (bond_point_get_limit_set (hangar_find (h, NUMBER)) == hangar_result (h, NUMBER)->set);
      g_assert_cmpint (hangar_result (h, NUMBER)->rejects_as_found, ==, strchr (singles[i].verdicts, 'f') != NULL);
    }
}

/* One half of a pair leaves every row incomplete, also the one that asks none. */
static void
test_pair (void)
{
  g_autoptr (Hangar) h = hangar_new (BOND_RULE_SIMPLE);

  hangar_point (h, NUMBER, "P1 example/J2P");
  hangar_read (h, NUMBER, "2.00");
  expect_place (hangar_result (h, NUMBER), "P1 example/J2P", "ii", "J2P");
  hangar_point (h, "541-J02", "P1");
  hangar_read (h, "541-J02", "2.00");
  hangar_expect_state (h, "541-J02", BOND_STATE_PASS);
}

static void
expect_tiers (const BondPlaceResult *place, const char *first, BondOhm upper, const char *second, BondOhm other)
{
  g_assert_cmpint (row_result (place, first)->bounds->upper.nohm, ==, upper);
  g_assert_cmpint (row_result (place, second)->bounds->upper.nohm, ==, other);
}

/* Each row has its own tiers; the fail of the stricter stands under re-seats, and rework asks for both again. */
static void
test_tiers_and_rework (void)
{
  g_autoptr (Hangar) h = hangar_new (BOND_RULE_SIMPLE);
  const char *names = "P1 example/J1";

  hangar_point (h, NUMBER, names);
  expect_tiers (hangar_result (h, NUMBER), "example/J1", UOHM (5000), "example/P1", UOHM (10000));
  hangar_read (h, NUMBER, "7.00");
  hangar_read (h, NUMBER, "4.00");
  hangar_expect_state (h, NUMBER, BOND_STATE_FAIL); /* one good re-seat does not undo it */
  hangar_expect_value (h, NUMBER, UOHM (7000));
  g_assert_cmpint (row_result (hangar_result (h, NUMBER), "example/P1")->state, ==, BOND_STATE_PASS);

  hangar_rework (h, NUMBER, BOND_REWORK_SURFACES_CLEANED);
  hangar_expect_state (h, NUMBER, BOND_STATE_REMEASURE);
  expect_tiers (hangar_result (h, NUMBER), "example/J1", UOHM (2500), "example/P1", UOHM (10000));
  hangar_read (h, NUMBER, "4.00");
  expect_place (hangar_result (h, NUMBER), names, "pf", "J1");
  hangar_expect_state (h, NUMBER, BOND_STATE_FAIL);
  hangar_rework (h, NUMBER, BOND_REWORK_SURFACES_CLEANED);
  hangar_read (h, NUMBER, "1.00");
  hangar_expect_state (h, NUMBER, BOND_STATE_PASS_AFTER_REWORK);
  g_assert_true (hangar_result (h, NUMBER)->conforms);
  g_assert_cmpint (hangar_result (h, NUMBER)->rejects_as_found, ==, 1);
  g_assert_cmpint (hangar_result (h, NUMBER)->rejects_rework, ==, 1);
}

/* After rework, too, nobody answers for a row that is not known. */
static void
test_unknown_after_rework (void)
{
  g_autoptr (Hangar) h = hangar_new (BOND_RULE_SIMPLE);

  place (h, "J1 example/Z9");
  hangar_read (h, NUMBER, "7.00");
  hangar_rework (h, NUMBER, BOND_REWORK_SURFACES_CLEANED);
  hangar_read (h, NUMBER, "1.00");
  hangar_expect_state (h, NUMBER, BOND_STATE_REMEASURE);
  g_assert_cmpint (row_result (hangar_result (h, NUMBER), "example/J1")->state, ==, BOND_STATE_PASS_AFTER_REWORK);
  g_assert_cmpint (hangar_result (h, NUMBER)->rejects_as_found, ==, 1);
}

/* A point counts once whatever the number of its rows, and one event beyond two limits is one reject. */
static void
test_totals (void)
{
  g_autoptr (Hangar) h = hangar_new (BOND_RULE_SIMPLE);
  BondTotals t;

  hangar_point (h, NUMBER, "J1 example/P1");
  hangar_point (h, "541-J02", "P1 example/J1");
  hangar_point (h, "541-J03", "J1 example/E1");
  hangar_read (h, NUMBER, "1.00");
  hangar_read (h, "541-J02", "12.00");
  h->connectors = BOND_CONNECTORS_MATED;
  hangar_read (h, "541-J03", "7.00");
  bond_survey_totals (h->survey, &t);
  g_assert_cmpint (t.points, ==, 3);
  g_assert_cmpint (t.places, ==, 3);
  g_assert_cmpint (t.measured, ==, 3);
  g_assert_cmpint (t.conform, ==, 1);
  g_assert_cmpint (t.fail, ==, 2);
  g_assert_cmpint (t.as_found_measured, ==, 3);
  g_assert_cmpint (t.rejects_as_found, ==, 2);
  g_assert_cmpint ((gint64)t.control_total_nohm, ==, UOHM (20000));
}

/* Beyond any of the rows is evidence: it asks a reason, is counted once, and `said` is the worst verdict. */
static void
test_evidence (void)
{
  g_autoptr (Hangar) h = hangar_new (BOND_RULE_SIMPLE);
  const char *first;
  BondEntry *reading;
  BondTotals t;

  hangar_point (h, NUMBER, "E1 example/J1");
  h->connectors = BOND_CONNECTORS_UNMATED;
  first = hangar_read (h, NUMBER, "3.00")->reading.said; /* E1 fails, J1 passes */
  g_assert_cmpstr (first, ==, "fail");
  h->connectors = BOND_CONNECTORS_MATED;
  reading = hangar_read (h, NUMBER, "7.00"); /* E1's fail stands without a verdict here; J1 fails */
  g_assert_cmpstr (reading->reading.said, ==, "fail");
  g_assert_true (bond_survey_undo_needs_reason (h->survey, reading));
  hangar_undo (h, BOND_VOID_INSTRUMENT_FAULT, "lead broken");
  hangar_expect_state (h, NUMBER, BOND_STATE_FAIL);
  bond_survey_totals (h->survey, &t);
  g_assert_cmpint (t.over_limit_taken_back, ==, 1);
  g_assert_cmpint (t.rejects_as_found, ==, 1);

  hangar_point (h, "541-J02", "P1 example/J1");
  hangar_read (h, "541-J02", "12.00");
  hangar_undo (h, BOND_VOID_INSTRUMENT_FAULT, "lead broken");
  bond_survey_totals (h->survey, &t);
  g_assert_cmpint (t.over_limit_taken_back, ==, 2);
}

/* The preview is what recording then gives, under every row. */
static void
test_preview (void)
{
  static const char *const texts[] = { "1.20", "7.00", "12.00" };
  guint i, j;

  for (i = 0; i < G_N_ELEMENTS (texts); i++)
    {
      g_autoptr (Hangar) h = hangar_new (BOND_RULE_SIMPLE);
      BondPoint *point = hangar_point (h, NUMBER, "P1 example/J1");
      g_autoptr (BondEntry) reading = hangar_reading (h, NUMBER, texts[i], BOND_DIRECTION_FORWARD, NULL);
      BondPlaceResult *preview = bond_survey_preview (h->survey, point, NULL, &reading->reading);
      const BondPlaceResult *now;

      hangar_read (h, NUMBER, texts[i]);
      now = hangar_result (h, NUMBER);
      g_assert_cmpuint (bond_place_result_n_rows (preview), ==, 2);
      for (j = 0; j < 2; j++)
        {
          const BondPlaceResult *a = bond_place_result_nth_row (preview, j), *b = bond_place_result_nth_row (now, j);
          g_assert_cmpstr (a->row_name, ==, b->row_name);
          g_assert_cmpint (a->state, ==, b->state);
          g_assert_cmpint (letter_of (a->last), ==, letter_of (b->last));
        }
      g_assert_cmpstr (bond_place_result_said (preview), ==, i == 0 ? "pass" : "fail");
      bond_place_result_free (preview);
    }
}

/* Under guarded acceptance the row nearer its limit speaks: 4.99 of 5 is no pass, of 10 it is. */
static void
test_guarded (void)
{
  g_autoptr (Hangar) h = hangar_new (BOND_RULE_GUARDED);

  hangar_point (h, NUMBER, "P1 example/J1");
  hangar_read (h, NUMBER, "4.99");
  expect_place (hangar_result (h, NUMBER), "P1 example/J1", "pf", "J1");
  g_assert_cmpint (hangar_result (h, NUMBER)->last->zone, ==, BOND_ZONE_WORD_CONDITIONAL_PASS);
  hangar_expect_state (h, NUMBER, BOND_STATE_FAIL);
}

/* Each place has its own governing row; the worst place's is the point's. */
static void
test_places (void)
{
  g_autoptr (Hangar) h = hangar_new (BOND_RULE_SIMPLE);

  hangar_point (h, NUMBER, "J1 example/E1");
  hangar_add_place (h, NUMBER, "leg-1", TRUE);
  hangar_add_place (h, NUMBER, "leg-2", TRUE);
  h->connectors = BOND_CONNECTORS_UNMATED;
  h->place = "leg-1";
  hangar_read (h, NUMBER, "3.00");
  expect_place (hangar_result (h, NUMBER), "J1 example/E1", "pf", "E1");
  h->connectors = BOND_CONNECTORS_MATED;
  h->place = "leg-2";
  hangar_read (h, NUMBER, "7.00");
  expect_place (hangar_result (h, NUMBER), "J1 example/E1", "f-", "J1");
  g_assert_cmpstr (bond_point_get_row (hangar_find (h, NUMBER))->code, ==, "E1");
}

/* The point's own row is alone; one row has no others; a row named twice is one. */
static void
test_lookup (void)
{
  g_autoptr (GPtrArray) sets = g_ptr_array_new_with_free_func ((GDestroyNotify)bond_limit_set_unref);
  static const struct
  {
    const char *names;
    gboolean own;
    const char *codes; /* "-" without a row */
  } rows[] = {
    { NULL, FALSE, "-" },
    { NULL, TRUE, "own" },
    { "example/J1 example/P1", TRUE, "own" },
    { "example/J1", FALSE, "J1" },
    { "example/J1 P1", FALSE, "J1 P1" },
    { "example/J1 J1", FALSE, "J1" },
    { "example/Z9 example/J1 Z8", FALSE, "- J1 -" },
    { "example/Z9", FALSE, "-" },
    { "", FALSE, "-" },
  };
  guint i, j;

  g_ptr_array_add (sets, hangar_make_limits ());
  for (i = 0; i < G_N_ELEMENTS (rows); i++)
    {
      g_autoptr (BondLimitRow) own = bond_limit_row_new ();
      g_autoptr (GPtrArray) found = NULL;
      g_autoptr (GString) codes = g_string_new (NULL);

      own->code = g_strdup ("own");
      found = bond_limit_lookup_all (sets, rows[i].own ? own : NULL, rows[i].names, BOND_CLASS_STRUCTURE);
      for (j = 0; j < found->len; j++)
        {
          const BondNamedRow *named = g_ptr_array_index (found, j);
          g_string_append_printf (codes, "%s%s", j > 0 ? " " : "", named->row != NULL ? named->row->code : "-");
        }
      g_assert_cmpstr (codes->str, ==, rows[i].codes);
    }
}

static void
test_unsound_names (void)
{
  static const struct
  {
    const char *names, *unsound;
  } rows[] = {
    { "example/J1", NULL },
    { "J1", NULL },
    { "example/J1 example/P1", NULL },
    { "a b c d e f g h", NULL },
    { "a b c d e f g h i", "i" },
    { "", "" },
    { " J1", "" },
    { "J1 ", "" },
    { "J1  P1", "" },
    { "J1\tP1", "J1\tP1" },
    { "J1 example/", "example/" },
    { "J1 /P1", "/P1" },
    { "J1 a/b/c P1", "a/b/c" },
    { "J1 P1 J1", "J1" },
  };
  guint i;

  for (i = 0; i < G_N_ELEMENTS (rows); i++)
    {
      g_autofree char *unsound = bond_limit_find_unsound (rows[i].names);
      g_assert_cmpstr (unsound, ==, rows[i].unsound);
    }
}

/* A point with an unsound list is refused, and the name is told. */
static void
test_refused (void)
{
  g_autoptr (Hangar) h = hangar_new (BOND_RULE_SIMPLE);
  g_autoptr (BondPointSpec) spec = hangar_spec (NUMBER, "J1 a/b/c");
  g_autoptr (GError) error = NULL, again = NULL;

  g_assert_false (bond_point_spec_check (spec, &error));
  g_assert_error (error, BOND_POINT_SPEC_ERROR, BOND_POINT_SPEC_ERROR_UNSOUND);
  g_assert_nonnull (strstr (error->message, "a/b/c"));
  g_assert_false (bond_survey_record_now (h->survey, hangar_point_entry (NUMBER, "J1 a/b/c", TRUE), &again));
  g_assert_cmpstr (again->message, ==, error->message);
  g_assert_null (bond_survey_find_number (h->survey, NUMBER));
}

int
main (int argc, char **argv)
{
  g_test_init (&argc, &argv, NULL);
  g_test_add_func ("/rows/table", test_table);
  g_test_add_func ("/rows/pair", test_pair);
  g_test_add_func ("/rows/tiers-and-rework", test_tiers_and_rework);
  g_test_add_func ("/rows/unknown-after-rework", test_unknown_after_rework);
  g_test_add_func ("/rows/totals", test_totals);
  g_test_add_func ("/rows/evidence", test_evidence);
  g_test_add_func ("/rows/preview", test_preview);
  g_test_add_func ("/rows/guarded", test_guarded);
  g_test_add_func ("/rows/places", test_places);
  g_test_add_func ("/rows/lookup", test_lookup);
  g_test_add_func ("/rows/unsound-names", test_unsound_names);
  g_test_add_func ("/rows/refused", test_refused);
  return g_test_run ();
}
