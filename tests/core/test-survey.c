/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * The survey as a record: nothing is applied before it is durable, acts wait their
 * turn, undo and redo are entries too, and what does not fit is refused with a word
 * on what to do.
 */
#include "hangar.h"

/* A sink that answers when told to. */
typedef struct
{
  Hangar *h;
  BondEntry *entry; /* under way */
  int written;
} SlowSink;

static void
slow_write_cb (gpointer data, BondEntry *entry)
{
  SlowSink *sink = data;

  g_assert_null (sink->entry);
  sink->entry = entry;
  sink->written++;
}

static void
slow_answer (SlowSink *sink, const GError *error)
{
  BondEntry *entry = g_steal_pointer (&sink->entry);

  g_assert_nonnull (entry);
  bond_survey_written (sink->h->survey, entry, error);
}

typedef struct
{
  int ok, failed;
  GQuark domain;
  int code;
} Outcome;

static void
done_cb (BondSurvey *survey, BondEntry *entry, const GError *error, gpointer data)
{
  Outcome *outcome = data;

  if (error == NULL)
    outcome->ok++;
  else
    {
      outcome->failed++;
      outcome->domain = error->domain;
      outcome->code = error->code;
    }
}

static gboolean
record_reading (Hangar *h, const char *number, const char *text, Outcome *outcome)
{
  return bond_survey_record (h->survey, hangar_reading (h, number, text, BOND_DIRECTION_FORWARD, NULL), done_cb,
                             outcome);
}

static SlowSink *
use_slow_sink (Hangar *h)
{
  SlowSink *slow = g_new0 (SlowSink, 1);
  BondSink sink = { .write = slow_write_cb, .sink = slow };

  slow->h = h;
  bond_survey_set_sink (h->survey, &sink);
  return slow;
}

static void
test_sink (void)
{
  g_autoptr (Hangar) h = hangar_new (BOND_RULE_SIMPLE);
  g_autofree SlowSink *sink = NULL;
  Outcome first = { 0 }, second = { 0 };
  guint entries;
  g_autofree char *id = NULL;

  hangar_point (h, "541-J01", "J2");
  entries = bond_survey_get_entries (h->survey)->len;
  sink = use_slow_sink (h);
  g_assert_true (record_reading (h, "541-J01", "3.12", &first));
  g_assert_true (bond_survey_is_busy (h->survey));
  hangar_expect_state (h, "541-J01", BOND_STATE_TO_MEASURE); /* not before it is durable */
  g_assert_cmpint (first.ok, ==, 0);
  g_assert_cmpstr (sink->entry->reading.said, ==, "fail");
  id = g_strdup (sink->entry->id);

  g_assert_true (record_reading (h, "541-J01", "1.00", &second)); /* waits */
  g_assert_cmpint (sink->written, ==, 1);
  slow_answer (sink, NULL);
  hangar_expect_state (h, "541-J01", BOND_STATE_FAIL);
  g_assert_cmpint (first.ok, ==, 1);
  g_assert_nonnull (bond_survey_find_entry (h->survey, id));
  g_assert_cmpint (sink->written, ==, 2);
  slow_answer (sink, NULL);
  g_assert_cmpint (second.ok, ==, 1);
  g_assert_false (bond_survey_is_busy (h->survey));
  g_assert_cmpuint (bond_survey_get_entries (h->survey)->len, ==, entries + 2);
}

static void
record_third_cb (BondSurvey *survey, BondEntry *entry, const GError *error, gpointer data)
{
  SlowSink *sink = data;

  g_assert_no_error (error);
  bond_survey_record (survey, hangar_reading (sink->h, "541-J01", "1.30", BOND_DIRECTION_FORWARD, NULL), NULL, NULL);
}

/* An act that follows from an answer queues behind what waited before it. */
static void
test_sink_order (void)
{
  g_autoptr (Hangar) h = hangar_new (BOND_RULE_SIMPLE);
  g_autofree SlowSink *sink = NULL;
  Outcome outcome = { 0 };

  hangar_point (h, "541-J01", "J2");
  sink = use_slow_sink (h);
  bond_survey_record (h->survey, hangar_reading (h, "541-J01", "1.10", BOND_DIRECTION_FORWARD, NULL), record_third_cb,
                      sink);
  record_reading (h, "541-J01", "1.20", &outcome);
  slow_answer (sink, NULL);
  g_assert_cmpstr (sink->entry->reading.text, ==, "1.20");
  slow_answer (sink, NULL);
  g_assert_cmpstr (sink->entry->reading.text, ==, "1.30");
  slow_answer (sink, NULL);
  hangar_expect_value (h, "541-J01", UOHM (1300));
}

/* A full disk: nothing is applied, the number is used again, what waits meets the state as it is. */
static void
test_sink_fails (void)
{
  g_autoptr (Hangar) h = hangar_new (BOND_RULE_SIMPLE);
  g_autoptr (GError) full = g_error_new_literal (G_FILE_ERROR, G_FILE_ERROR_NOSPC, "no space left");
  g_autofree SlowSink *sink = NULL;
  g_autofree char *id = NULL, *before = NULL, *after = NULL;
  Outcome point = { 0 }, reading = { 0 }, other = { 0 };
  BondEntry *entry = bond_entry_new (BOND_ENTRY_POINT);

  hangar_point (h, "541-J01", "J2");
  sink = use_slow_sink (h);
  before = hangar_dump (h->survey);
  entry->spec = hangar_spec ("541-J02", "J2");
  entry->point = g_strdup (entry->spec->id);
  bond_survey_record (h->survey, entry, done_cb, &point);
  id = g_strdup (sink->entry->id);
  entry = hangar_reading (h, "541-J01", "1.00", BOND_DIRECTION_FORWARD, NULL);
  g_free (entry->point);
  entry->point = g_strdup ("q-541-J02"); /* rests on the point under way */
  bond_survey_record (h->survey, entry, done_cb, &reading);
  record_reading (h, "541-J01", "1.10", &other);

  slow_answer (sink, full);
  g_assert_cmpint (point.failed, ==, 1);
  g_assert_cmpuint (point.domain, ==, BOND_SURVEY_ERROR);
  g_assert_cmpint (point.code, ==, BOND_SURVEY_ERROR_NOT_WRITTEN);
  after = hangar_dump (h->survey);
  g_assert_cmpstr (before, ==, after);
  g_assert_cmpint (reading.failed, ==, 1); /* validated in its turn */
  g_assert_cmpint (reading.code, ==, BOND_SURVEY_ERROR_INVALID);
  g_assert_cmpstr (sink->entry->id, ==, id); /* the next one is under way already */
  slow_answer (sink, NULL);
  g_assert_cmpint (other.ok, ==, 1);
  hangar_expect_state (h, "541-J01", BOND_STATE_PASS);
}

/* A survey that goes away with acts under way and waiting calls nobody and leaks nothing. */
static void
test_sink_dropped (void)
{
  Hangar *h = hangar_new (BOND_RULE_SIMPLE);
  g_autofree SlowSink *sink = NULL;
  Outcome outcome = { 0 };

  hangar_point (h, "541-J01", "J2");
  sink = use_slow_sink (h);
  record_reading (h, "541-J01", "1.00", &outcome);
  record_reading (h, "541-J01", "1.10", &outcome);
  hangar_free (h);
  g_assert_cmpint (outcome.ok + outcome.failed, ==, 0);
}

static void
test_read_only (void)
{
  g_autoptr (Hangar) h = hangar_new (BOND_RULE_SIMPLE);

  hangar_point (h, "541-J01", "J2");
  bond_survey_set_read_only (h->survey, "the chain is broken at entry s-1-4");
  hangar_refused (h, hangar_reading (h, "541-J01", "1.00", BOND_DIRECTION_FORWARD, NULL), BOND_SURVEY_ERROR_READ_ONLY);
  bond_survey_set_read_only (h->survey, NULL);
  hangar_read (h, "541-J01", "1.00");
}

/* Ids, order and time of what is recorded. */
static void
test_numbering (void)
{
  g_autoptr (Hangar) h = hangar_new (BOND_RULE_SIMPLE);
  GPtrArray *entries = bond_survey_get_entries (h->survey);
  guint i;

  hangar_point (h, "541-J01", "J2");
  hangar_read (h, "541-J01", "1.00 1.01");
  for (i = 0; i < entries->len; i++)
    {
      const BondEntry *entry = g_ptr_array_index (entries, i);
      g_autofree char *id = g_strdup_printf ("s-1-%u", i + 1);
      g_assert_cmpstr (entry->id, ==, id);
      g_assert_cmpint (entry->t, ==, i + 1);
      g_assert_cmpstr (entry->by, ==, "p-okafor");
      g_assert_true (g_str_has_suffix (entry->at, "+01:00"));
    }
}

static void
test_undo_redo (void)
{
  g_autoptr (Hangar) h = hangar_new (BOND_RULE_SIMPLE);
  BondEntry *first, *second;

  g_assert_null (bond_survey_undo_target (h->survey)); /* the header and the registers are not undone */
  hangar_point (h, "541-J01", "J2");
  first = hangar_read (h, "541-J01", "1.00");
  second = hangar_read (h, "541-J01", "1.10");
  g_assert_true (bond_survey_undo_target (h->survey) == second);
  g_assert_null (bond_survey_redo_target (h->survey));
  hangar_undo (h, BOND_VOID_NONE, NULL);
  g_assert_true (bond_survey_is_taken_back (h->survey, second));
  hangar_expect_value (h, "541-J01", UOHM (1000));
  hangar_undo (h, BOND_VOID_NONE, NULL);
  hangar_expect_state (h, "541-J01", BOND_STATE_TO_MEASURE);
  g_assert_true (bond_survey_is_taken_back (h->survey, first));

  hangar_redo (h);
  hangar_expect_value (h, "541-J01", UOHM (1000));
  hangar_redo (h);
  hangar_expect_value (h, "541-J01", UOHM (1100));
  g_assert_null (bond_survey_redo_target (h->survey));
  hangar_undo (h, BOND_VOID_NONE, NULL); /* what was redone can be undone again */
  hangar_expect_value (h, "541-J01", UOHM (1000));
  hangar_read (h, "541-J01", "1.20");
  g_assert_null (bond_survey_redo_target (h->survey)); /* something new was done */
  hangar_expect_value (h, "541-J01", UOHM (1200));
}

/* Undo is the person's own, and ends with the sitting. */
static void
test_undo_is_own (void)
{
  g_autoptr (Hangar) h = hangar_new (BOND_RULE_SIMPLE);
  BondEntry *own, *other;

  hangar_point (h, "541-J01", "J2");
  own = hangar_read (h, "541-J01", "1.00");
  bond_survey_set_person (h->survey, "p-lind");
  other = hangar_read (h, "541-J01", "1.10");
  g_assert_true (bond_survey_undo_target (h->survey) == other);
  hangar_refused (h, hangar_undo_entry (h, own, BOND_VOID_NONE, NULL), BOND_SURVEY_ERROR_INVALID);
  bond_survey_set_person (h->survey, "p-okafor");
  g_assert_true (bond_survey_undo_target (h->survey) == own);
  bond_survey_begin_sitting (h->survey, "s-2");
  g_assert_null (bond_survey_undo_target (h->survey));
  hangar_refused (h, hangar_undo_entry (h, own, BOND_VOID_NONE, NULL), BOND_SURVEY_ERROR_INVALID);
  /* After that: void, with words. */
  hangar_refused (h, hangar_void (h, own, BOND_VOID_OTHER, NULL), BOND_SURVEY_ERROR_REASON);
  hangar_record (h, hangar_void (h, own, BOND_VOID_OTHER, "leads crossed"));
  hangar_refused (h, hangar_void (h, own, BOND_VOID_OTHER, "again"), BOND_SURVEY_ERROR_INVALID);
  hangar_expect_value (h, "541-J01", UOHM (1100));
}

static void
test_correct (void)
{
  g_autoptr (Hangar) h = hangar_new (BOND_RULE_SIMPLE);
  BondEntry *reading, *first, *correction;
  BondTotals totals;

  hangar_point (h, "541-J01", "J2");
  reading = hangar_read (h, "541-J01", "3.12");
  hangar_refused (h, hangar_correct (h, reading, "1.32", BOND_VOID_INSTRUMENT_FAULT), BOND_SURVEY_ERROR_REASON);
  correction = hangar_record (h, hangar_correct (h, reading, "1.32", BOND_VOID_TYPING_SLIP));
  g_assert_cmpstr (correction->correct.reading.said, ==, "pass");
  hangar_expect_state (h, "541-J01", BOND_STATE_PASS);
  hangar_expect_value (h, "541-J01", UOHM (1320));
  hangar_refused (h, hangar_correct (h, reading, "1.33", BOND_VOID_TYPING_SLIP), BOND_SURVEY_ERROR_INVALID);
  hangar_record (h, hangar_correct (h, correction, "1.33", BOND_VOID_TYPING_SLIP));
  hangar_expect_value (h, "541-J01", UOHM (1330));
  bond_survey_totals (h->survey, &totals);
  g_assert_cmpint (totals.over_limit_taken_back, ==, 1);
  hangar_undo (h, BOND_VOID_NONE, NULL);
  hangar_expect_value (h, "541-J01", UOHM (1320));
  hangar_undo (h, BOND_VOID_NONE, NULL);
  hangar_expect_state (h, "541-J01", BOND_STATE_FAIL);

  /* A corrected half keeps its seat in the pair. */
  hangar_point (h, "541-J02", "J2P");
  hangar_read (h, "541-J02", "1.84 1.28");
  first = g_ptr_array_index (hangar_result (h, "541-J02")->last->readings, 0);
  reading = g_ptr_array_index (hangar_result (h, "541-J02")->last->readings, 1);
  hangar_expect_last (h, "541-J02", BOND_OUTCOME_NO_VERDICT, BOND_REASON_PAIR_DISAGREES);
  hangar_record (h, hangar_correct (h, reading, "1.82", BOND_VOID_TYPING_SLIP));
  hangar_expect_value (h, "541-J02", UOHM (1830));
  hangar_record (h, hangar_correct (h, first, "1.86", BOND_VOID_TYPING_SLIP));
  hangar_expect_value (h, "541-J02", UOHM (1840));
}

/* A seating moves whole, with its corrections; what is done to it later is done where it is; undo brings it back. */
static void
test_move (void)
{
  g_autoptr (Hangar) h = hangar_new (BOND_RULE_SIMPLE);
  BondEntry *first, *reverse, *moved;

  hangar_point (h, "541-J01", "J2P");
  hangar_point (h, "541-J02", "J2P");
  reverse = hangar_read (h, "541-J01", "2.60 2.62");
  first = g_ptr_array_index (hangar_result (h, "541-J01")->last->readings, 0);
  hangar_refused (h, hangar_move (h, first, "541-J01"), BOND_SURVEY_ERROR_INVALID);
  hangar_record (h, hangar_move (h, first, "541-J02"));
  hangar_expect_value (h, "541-J02", UOHM (2610));
  hangar_expect_state (h, "541-J01", BOND_STATE_TO_MEASURE);
  g_assert_true (bond_point_has_history (hangar_find (h, "541-J01")));
  hangar_refused (h, hangar_void (h, reverse, BOND_VOID_WRONG_UNIT, NULL),
                  BOND_SURVEY_ERROR_INVALID); /* not there now */
  moved = hangar_void (h, reverse, BOND_VOID_WRONG_UNIT, NULL);
  g_free (moved->point);
  moved->point = g_strdup ("q-541-J02");
  hangar_record (h, moved);
  hangar_expect_last (h, "541-J02", BOND_OUTCOME_INCOMPLETE, BOND_REASON_REVERSE_MISSING);
  hangar_undo (h, BOND_VOID_NONE, NULL);
  hangar_expect_value (h, "541-J02", UOHM (2610));
  hangar_undo (h, BOND_VOID_NONE, NULL); /* the move */
  hangar_expect_value (h, "541-J01", UOHM (2610));
  hangar_expect_state (h, "541-J02", BOND_STATE_TO_MEASURE);
  hangar_redo (h);
  hangar_expect_value (h, "541-J02", UOHM (2610));
  /* And on to a third, and back to the first. */
  hangar_point (h, "541-J03", "J2P");
  moved = hangar_move (h, first, "541-J03");
  g_free (moved->point);
  moved->point = g_strdup ("q-541-J02");
  hangar_record (h, moved);
  hangar_expect_value (h, "541-J03", UOHM (2610));
  moved = hangar_move (h, first, "541-J01");
  g_free (moved->point);
  moved->point = g_strdup ("q-541-J03");
  hangar_record (h, moved);
  hangar_expect_value (h, "541-J01", UOHM (2610));
  hangar_expect_state (h, "541-J02", BOND_STATE_TO_MEASURE);
  hangar_expect_state (h, "541-J03", BOND_STATE_TO_MEASURE);
}

static void
count_cb (gpointer data)
{
  ++*(int *)data;
}

/* What is moved keeps its time: it may become the first measurement of its point, and the newest still decides. */
static void
test_move_in_time (void)
{
  g_autoptr (Hangar) h = hangar_new (BOND_RULE_SIMPLE);
  const BondPlaceResult *result;
  BondEntry *early;

  hangar_point (h, "541-J01", "J2");
  hangar_point (h, "541-J02", "J2");
  early = hangar_read (h, "541-J01", "1.20");
  hangar_read (h, "541-J02", "1.00");
  hangar_record (h, hangar_move (h, early, "541-J02"));
  result = hangar_result (h, "541-J02");
  g_assert_cmpint (bond_mean_nohm (&result->found->mean), ==, UOHM (1200));
  hangar_expect_value (h, "541-J02", UOHM (1000));
}

static void
test_signals (void)
{
  g_autoptr (Hangar) h = hangar_new (BOND_RULE_SIMPLE);
  int on_first = 0, on_second = 0, on_survey = 0, applied = 0, header = 0;

  g_signal_connect_swapped (hangar_point (h, "541-J01", "J1"), "changed", G_CALLBACK (count_cb), &on_first);
  g_signal_connect_swapped (hangar_point (h, "541-J02", "J1"), "changed", G_CALLBACK (count_cb), &on_second);
  g_signal_connect_swapped (h->survey, "point-changed", G_CALLBACK (count_cb), &on_survey);
  g_signal_connect_swapped (h->survey, "entry-applied", G_CALLBACK (count_cb), &applied);
  g_signal_connect_swapped (h->survey, "header-changed", G_CALLBACK (count_cb), &header);
  hangar_record (h, hangar_move (h, hangar_read (h, "541-J01", "1.00"), "541-J02"));
  g_assert_cmpint (on_first, ==, 2);
  g_assert_cmpint (on_second, ==, 1);
  g_assert_cmpint (on_survey, ==, 3);
  g_assert_cmpint (applied, ==, 2);
  g_assert_cmpint (header, ==, 0);
}

static void
test_points_refused (void)
{
  g_autoptr (Hangar) h = hangar_new (BOND_RULE_SIMPLE);
  BondEntry *entry = hangar_point_entry ("541-J01", "J2", TRUE);

  hangar_record (h, entry);
  entry = hangar_point_entry ("541-J02", "J2", TRUE);
  g_free (entry->spec->number);
  entry->spec->number = g_strdup ("541-J01"); /* in use */
  hangar_refused (h, entry, BOND_SURVEY_ERROR_INVALID);
  hangar_read (h, "541-J01", "3.12");
  /* A fail does not vanish by giving its point another limit without a word. */
  hangar_refused (h, hangar_point_entry ("541-J01", "J1", TRUE), BOND_SURVEY_ERROR_REASON);
  hangar_expect_state (h, "541-J01", BOND_STATE_FAIL);
  entry = hangar_point_entry ("541-J01", "J2", TRUE);
  g_free (entry->spec->to);
  entry->spec->to = g_strdup ("front spar");
  hangar_record (h, entry);
  g_assert_cmpstr (bond_point_get_spec (hangar_find (h, "541-J01"))->to, ==, "front spar");
  hangar_expect_state (h, "541-J01", BOND_STATE_FAIL);
}

static void
test_preview (void)
{
  g_autoptr (Hangar) h = hangar_new (BOND_RULE_SIMPLE);
  BondPoint *point = hangar_point (h, "541-J01", "J2");
  g_autofree char *before = hangar_dump (h->survey), *after = NULL;
  BondEntry *reading = hangar_reading (h, "541-J01", "2.51", BOND_DIRECTION_FORWARD, NULL);
  BondPlaceResult *result = bond_survey_preview (h->survey, point, NULL, &reading->reading);

  g_assert_cmpstr (bond_place_result_said (result), ==, "fail within-u");
  g_assert_cmpint (result->state, ==, BOND_STATE_FAIL);
  g_assert_cmpuint (result->history->len, ==, 1);
  bond_place_result_free (result);
  bond_entry_unref (reading);
  after = hangar_dump (h->survey);
  g_assert_cmpstr (before, ==, after);
}

/* Who an entry says it is by; a survey without a person records nothing. */
static void
test_people (void)
{
  g_autoptr (Hangar) h = hangar_new (BOND_RULE_SIMPLE);
  BondEntry *entry;

  hangar_point (h, "541-J01", "J2");
  g_assert_cmpstr (bond_survey_person_name (h->survey, "p-lind"), ==, "lind");
  g_assert_cmpstr (bond_survey_person_name (h->survey, "p-nobody"), ==, "p-nobody");
  entry = hangar_reading (h, "541-J01", "1.00", BOND_DIRECTION_FORWARD, NULL);
  entry->by = g_strdup ("p-sato"); /* measured by one, entered by another */
  entry->entered_by = g_strdup ("p-okafor");
  entry = hangar_record (h, entry);
  g_assert_cmpstr (entry->by, ==, "p-sato");
  g_assert_true (bond_survey_undo_target (h->survey) == entry);
  bond_survey_set_person (h->survey, NULL);
  hangar_refused (h, hangar_reading (h, "541-J01", "1.00", BOND_DIRECTION_FORWARD, NULL), BOND_SURVEY_ERROR_INVALID);
}

static void
test_registers (void)
{
  g_autoptr (Hangar) h = hangar_new (BOND_RULE_SIMPLE);
  g_autoptr (BondInstrument) newer = bond_instrument_new ("MO-1", 2, BOND_INSTRUMENT_MILLIOHMMETER, "MO-1");
  g_autoptr (BondInstrument) older = bond_instrument_new ("MO-1", 1, BOND_INSTRUMENT_MILLIOHMMETER, "MO-1");
  g_autoptr (BondEarlier) late = bond_earlier_new ("b", "2026-03-02");
  g_autoptr (BondEarlier) early = bond_earlier_new ("a", "2025-01-01");
  guint n = bond_survey_get_instruments (h->survey)->len;
  BondEntry *entry;

  hangar_record (h, bond_entry_adopt_new (BOND_ADOPT_INSTRUMENT, newer));
  g_assert_cmpuint (bond_survey_get_instruments (h->survey)->len, ==, n);
  g_assert_true (bond_survey_find_instrument (h->survey, "MO-1") == newer);
  hangar_refused (h, bond_entry_adopt_new (BOND_ADOPT_INSTRUMENT, older), BOND_SURVEY_ERROR_INVALID);
  hangar_record (h, bond_entry_adopt_new (BOND_ADOPT_EARLIER, late));
  hangar_record (h, bond_entry_adopt_new (BOND_ADOPT_EARLIER, early));
  g_assert_true (g_ptr_array_index (bond_survey_get_earlier (h->survey), 0) == early); /* oldest first */
  entry = bond_entry_new (BOND_ENTRY_CREATE);
  entry->create.aircraft_type = g_strdup ("x");
  entry->create.serial = g_strdup ("y");
  hangar_refused (h, entry, BOND_SURVEY_ERROR_INVALID);
}

static void
test_attach (void)
{
  g_autoptr (Hangar) h = hangar_new (BOND_RULE_SIMPLE);
  BondEntry *entry;

  hangar_point (h, "541-J01", "J2");
  entry = hangar_entry (h, BOND_ENTRY_ATTACH, "541-J01");
  entry->attach.sha256 = g_strnfill (64, 'a');
  entry->attach.name = g_strdup ("photo.jpg");
  entry->attach.size = 12000001;
  hangar_refused (h, entry, BOND_SURVEY_ERROR_INVALID);
  entry = hangar_entry (h, BOND_ENTRY_ATTACH, "541-J01");
  entry->attach.sha256 = g_strnfill (64, 'a');
  entry->attach.name = g_strdup ("photo.jpg");
  entry->attach.size = 12000000;
  hangar_record (h, entry);
  g_assert_cmpuint (bond_point_get_attachments (hangar_find (h, "541-J01"))->len, ==, 1);
}

int
main (int argc, char *argv[])
{
  g_test_init (&argc, &argv, NULL);
  g_test_add_func ("/core/survey/sink", test_sink);
  g_test_add_func ("/core/survey/sink-order", test_sink_order);
  g_test_add_func ("/core/survey/sink-fails", test_sink_fails);
  g_test_add_func ("/core/survey/sink-dropped", test_sink_dropped);
  g_test_add_func ("/core/survey/read-only", test_read_only);
  g_test_add_func ("/core/survey/numbering", test_numbering);
  g_test_add_func ("/core/survey/undo-redo", test_undo_redo);
  g_test_add_func ("/core/survey/undo-is-own", test_undo_is_own);
  g_test_add_func ("/core/survey/correct", test_correct);
  g_test_add_func ("/core/survey/move", test_move);
  g_test_add_func ("/core/survey/move-in-time", test_move_in_time);
  g_test_add_func ("/core/survey/signals", test_signals);
  g_test_add_func ("/core/survey/points-refused", test_points_refused);
  g_test_add_func ("/core/survey/preview", test_preview);
  g_test_add_func ("/core/survey/people", test_people);
  g_test_add_func ("/core/survey/registers", test_registers);
  g_test_add_func ("/core/survey/attach", test_attach);
  return g_test_run ();
}
