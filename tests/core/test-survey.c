/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * The survey as a record: nothing is applied before it is durable, acts wait their
 * turn, undo and redo are entries too, and one entry at a time comes to the same
 * state as a replay of all of them.
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

typedef struct
{
  guint position, removed, added;
  int calls;
} Change;

static void
items_changed_cb (GListModel *model, guint position, guint removed, guint added, gpointer data)
{
  Change *change = data;

  *change = (Change){ position, removed, added, change->calls + 1 };
}

static void
count_cb (gpointer data)
{
  ++*(int *)data;
}

static BondEntry *
point_entry (const char *number, const char *row, gboolean from_template)
{
  BondEntry *entry = bond_entry_new (BOND_ENTRY_POINT);

  entry->spec = hangar_spec (number, row);
  entry->spec->from_template = from_template;
  entry->point = g_strdup (entry->spec->id);
  return entry;
}

static void
expect_walk (Hangar *h, const char *numbers)
{
  g_autoptr (GString) walk = g_string_new (NULL);
  guint i;

  for (i = 0; i < g_list_model_get_n_items (G_LIST_MODEL (h->survey)); i++)
    {
      g_autoptr (BondPoint) point = g_list_model_get_item (G_LIST_MODEL (h->survey), i);
      g_string_append_printf (walk, "%s%s", i > 0 ? " " : "", bond_point_get_number (point));
      g_assert_cmpuint (bond_survey_position (h->survey, point), ==, i);
    }
  g_assert_cmpstr (walk->str, ==, numbers);
}

static void
test_walking_order (void)
{
  g_autoptr (Hangar) h = hangar_new (BOND_RULE_SIMPLE);
  Change change = { 0 };
  BondEntry *entry;
  BondPoint *point;

  g_signal_connect (h->survey, "items-changed", G_CALLBACK (items_changed_cb), &change);
  hangar_record (h, point_entry ("541-J01", "J1", TRUE));
  hangar_record (h, point_entry ("131-E01", "E1", TRUE));
  hangar_record (h, point_entry ("541-J09", "J1", FALSE)); /* by hand: after the zone's others */
  expect_walk (h, "541-J01 541-J09 131-E01");
  g_assert_cmpuint (change.position, ==, 1);
  g_assert_cmpuint (change.removed, ==, 0);
  g_assert_cmpuint (change.added, ==, 1);
  hangar_record (h, point_entry ("541-J02", "J1", TRUE));
  expect_walk (h, "541-J01 541-J02 541-J09 131-E01");
  g_assert_null (bond_survey_find_number (h->survey, "541-J03"));
  hangar_undo (h, BOND_VOID_NONE, NULL);
  expect_walk (h, "541-J01 541-J09 131-E01");
  g_assert_cmpuint (change.removed, ==, 1);
  hangar_redo (h);
  expect_walk (h, "541-J01 541-J02 541-J09 131-E01");

  /* A second entry of the same point is its spec from then on: dragged, renumbered, moved to another zone. */
  entry = point_entry ("541-J02", "J1", TRUE);
  g_free (entry->spec->zone);
  g_free (entry->spec->number);
  entry->spec->zone = g_strdup ("131");
  entry->spec->number = g_strdup ("131-J01");
  hangar_record (h, entry);
  expect_walk (h, "541-J01 541-J09 131-E01 131-J01");

  change.calls = 0;
  hangar_read (h, "541-J01", "1.00");
  g_assert_cmpint (change.calls, ==, 0);
  point = bond_survey_next_open (h->survey, hangar_find (h, "541-J01"));
  g_assert_cmpstr (bond_point_get_number (point), ==, "541-J09");
  point = bond_survey_next_open (h->survey, hangar_find (h, "131-J01")); /* wraps */
  g_assert_cmpstr (bond_point_get_number (point), ==, "541-J09");
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
  BondEntry *entry = point_entry ("541-J01", "J2", TRUE);

  hangar_record (h, entry);
  entry = point_entry ("541-J02", "J2", TRUE);
  g_free (entry->spec->number);
  entry->spec->number = g_strdup ("541-J01"); /* in use */
  hangar_refused (h, entry, BOND_SURVEY_ERROR_INVALID);
  hangar_read (h, "541-J01", "3.12");
  /* A fail does not vanish by giving its point another limit without a word. */
  hangar_refused (h, point_entry ("541-J01", "J1", TRUE), BOND_SURVEY_ERROR_REASON);
  hangar_expect_state (h, "541-J01", BOND_STATE_FAIL);
  entry = point_entry ("541-J01", "J2", TRUE);
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

/* --- one at a time against all at once --- */

/* A few hundred acts of all kinds, chosen at random but the same every time; what is refused is left out. */
static void
live_a_busy_day (Hangar *h, GRand *rand)
{
  static const char *const texts[] = { "1.00", "1.02", "2.49", "2.60", "3.12", "0", ">30", "2.40 2.41", "1.10 3.90" };
  static const char *const persons[] = { "p-okafor", "p-lind" };
  int i;

  for (i = 0; i < 600; i++)
    {
      g_autofree char *number = g_strdup_printf ("541-J%02d", g_rand_int_range (rand, 1, 9));
      GPtrArray *entries = bond_survey_get_entries (h->survey);
      BondEntry *any = g_ptr_array_index (entries, g_rand_int_range (rand, 0, (int)entries->len));
      BondEntry *act = NULL;

      bond_survey_set_person (h->survey, persons[g_rand_int_range (rand, 0, 2)]);
      switch (g_rand_int_range (rand, 0, 12))
        {
        case 0:
          act = bond_survey_undo_target (h->survey);
          act = act != NULL ? hangar_undo_entry (h, act, BOND_VOID_TYPING_SLIP, "slip") : NULL;
          break;
        case 1:
          act = bond_survey_redo_target (h->survey);
          act = act != NULL ? hangar_undo_entry (h, act, BOND_VOID_NONE, NULL) : NULL;
          break;
        case 2:
          act = bond_entry_is_reading (any) ? hangar_move (h, any, number) : NULL;
          break;
        case 3:
          act = any->point != NULL ? hangar_void (h, any, BOND_VOID_TYPING_SLIP, "slip") : NULL;
          break;
        case 4:
          act = bond_entry_is_reading (any) ? hangar_correct (h, any, "1.32", BOND_VOID_TYPING_SLIP) : NULL;
          break;
        case 5:
          act = hangar_entry (h, BOND_ENTRY_REWORK, number);
          act->rework.done = 1u << g_rand_int_range (rand, 0, BOND_N_REWORK_DONE);
          break;
        case 6:
          act = hangar_entry (h, BOND_ENTRY_VISUAL, number);
          act->visual.finding = BOND_VISUAL_CORROSION;
          act->visual.reject = g_rand_boolean (rand);
          break;
        default:
          hangar_read (h, number, texts[g_rand_int_range (rand, 0, G_N_ELEMENTS (texts))]);
          break;
        }
      if (act != NULL)
        bond_survey_record_now (h->survey, act, NULL);
      if (i == 300)
        bond_survey_begin_sitting (h->survey, "s-2");
    }
}

static void
test_replay (void)
{
  guint32 seed;

  for (seed = 1; seed <= 8; seed++)
    {
      g_autoptr (Hangar) h = hangar_new (BOND_RULE_SIMPLE);
      g_autoptr (GRand) rand = g_rand_new_with_seed (seed);
      g_autoptr (BondSurvey) copy = bond_survey_new ("6f0c", h->source);
      g_autoptr (GPtrArray) shuffled = NULL;
      g_autoptr (GError) error = NULL;
      g_autofree char *live = NULL, *loaded = NULL;
      guint i;

      for (i = 1; i <= 8; i++)
        {
          g_autofree char *number = g_strdup_printf ("541-J%02u", i);
          hangar_point (h, number, i % 2 == 0 ? "J2P" : "J1");
        }
      live_a_busy_day (h, rand);
      shuffled = g_ptr_array_copy (bond_survey_get_entries (h->survey), NULL, NULL);
      g_ptr_array_set_free_func (shuffled, NULL);
      for (i = shuffled->len - 1; i > 0; i--)
        {
          guint j = (guint)g_rand_int_range (rand, 0, (int)i + 1);
          gpointer swap = shuffled->pdata[i];
          shuffled->pdata[i] = shuffled->pdata[j];
          shuffled->pdata[j] = swap;
        }
      for (i = 0; i < shuffled->len; i++)
        g_assert_true (bond_survey_load_entry (copy, shuffled->pdata[i], &error));
      g_assert_true (bond_survey_check_loaded (copy, &error));
      bond_survey_loaded (copy);
      live = hangar_dump (h->survey);
      loaded = hangar_dump (copy);
      g_assert_cmpstr (live, ==, loaded);
      g_assert_cmpuint (strlen (live), >, 5000);
      bond_survey_loaded (copy); /* pure: a second time gives the same */
      g_free (loaded);
      loaded = hangar_dump (copy);
      g_assert_cmpstr (live, ==, loaded);
    }
}

static void
test_load_bad (void)
{
  g_autoptr (Hangar) h = hangar_new (BOND_RULE_SIMPLE);
  g_autoptr (BondSurvey) copy = bond_survey_new ("6f0c", h->source);
  g_autoptr (GError) error = NULL;
  BondEntry *reading, *undo;

  hangar_point (h, "541-J01", "J2");
  reading = hangar_read (h, "541-J01", "1.00");
  undo = hangar_undo (h, BOND_VOID_NONE, NULL);
  g_assert_true (bond_survey_load_entry (copy, undo, &error));
  g_assert_false (bond_survey_load_entry (copy, undo, &error));
  g_assert_error (error, BOND_SURVEY_ERROR, BOND_SURVEY_ERROR_INVALID);
  g_clear_error (&error);
  g_assert_false (bond_survey_check_loaded (copy, &error)); /* refers to nothing */
  g_assert_error (error, BOND_SURVEY_ERROR, BOND_SURVEY_ERROR_INVALID);
  g_assert_nonnull (strstr (error->message, reading->id));
  bond_survey_loaded (copy); /* harmless all the same */
  g_assert_cmpuint (g_list_model_get_n_items (G_LIST_MODEL (copy)), ==, 0);
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

/* --- speed: figures are printed, never judged --- */

static void
test_speed (void)
{
  g_autoptr (Hangar) h = hangar_new (BOND_RULE_SIMPLE);
  g_autoptr (BondSurvey) copy = bond_survey_new ("6f0c", h->source);
  GPtrArray *entries;
  gint64 start;
  double seconds;
  guint i;

  start = g_get_monotonic_time ();
  for (i = 0; i < 3000; i++)
    {
      g_autofree char *number = g_strdup_printf ("%03u-J%02u", 100 + i / 30, i % 30);
      hangar_record (h, point_entry (number, "J2P", TRUE));
    }
  g_test_message ("3000 point entries: %.3f ms each", (double)(g_get_monotonic_time () - start) / 3000e3);
  start = g_get_monotonic_time ();
  for (i = 0; i < 3000; i++)
    {
      BondPoint *point = bond_survey_find_point (
          h->survey, ((BondEntry *)bond_survey_get_entries (h->survey)->pdata[10 + i])->point);
      const char *number = point != NULL ? bond_point_get_number (point) : NULL;
      if (number == NULL)
        continue;
      hangar_read (h, number, "1.84 1.82");
      hangar_read (h, number, "1.83");
    }
  entries = bond_survey_get_entries (h->survey);
  g_test_message ("9000 reading entries: %.3f ms each", (double)(g_get_monotonic_time () - start) / 9000e3);
  start = g_get_monotonic_time ();
  for (i = 0; i < entries->len; i++)
    bond_survey_load_entry (copy, g_ptr_array_index (entries, i), NULL);
  bond_survey_loaded (copy);
  seconds = (double)(g_get_monotonic_time () - start) / 1e6;
  g_test_message ("replay of %u entries: %.3f s", entries->len, seconds);
  g_assert_cmpuint (g_list_model_get_n_items (G_LIST_MODEL (copy)), ==, 3000);
}

int
main (int argc, char *argv[])
{
  g_test_init (&argc, &argv, NULL);
  g_test_add_func ("/core/survey/sink", test_sink);
  g_test_add_func ("/core/survey/sink-fails", test_sink_fails);
  g_test_add_func ("/core/survey/sink-dropped", test_sink_dropped);
  g_test_add_func ("/core/survey/read-only", test_read_only);
  g_test_add_func ("/core/survey/numbering", test_numbering);
  g_test_add_func ("/core/survey/undo-redo", test_undo_redo);
  g_test_add_func ("/core/survey/undo-is-own", test_undo_is_own);
  g_test_add_func ("/core/survey/correct", test_correct);
  g_test_add_func ("/core/survey/move", test_move);
  g_test_add_func ("/core/survey/walking-order", test_walking_order);
  g_test_add_func ("/core/survey/signals", test_signals);
  g_test_add_func ("/core/survey/points-refused", test_points_refused);
  g_test_add_func ("/core/survey/preview", test_preview);
  g_test_add_func ("/core/survey/replay", test_replay);
  g_test_add_func ("/core/survey/load-bad", test_load_bad);
  g_test_add_func ("/core/survey/people", test_people);
  g_test_add_func ("/core/survey/registers", test_registers);
  g_test_add_func ("/core/survey/attach", test_attach);
  g_test_add_func ("/core/survey/speed", test_speed);
  return g_test_run ();
}
