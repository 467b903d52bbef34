/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * The state of a survey rests on its entries alone: one at a time or all at once, in
 * whatever order they are read, it comes out the same; points in walking order; and
 * what it costs.
 */
#include "hangar.h"

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
  hangar_record (h, hangar_point_entry ("541-J01", "J1", TRUE));
  hangar_record (h, hangar_point_entry ("131-E01", "E1", TRUE));
  hangar_record (h, hangar_point_entry ("541-J09", "J1", FALSE)); /* by hand: after the zone's others */
  expect_walk (h, "541-J01 541-J09 131-E01");
  g_assert_cmpuint (change.position, ==, 1);
  g_assert_cmpuint (change.removed, ==, 0);
  g_assert_cmpuint (change.added, ==, 1);
  hangar_record (h, hangar_point_entry ("541-J02", "J1", TRUE));
  expect_walk (h, "541-J01 541-J02 541-J09 131-E01");
  g_assert_null (bond_survey_find_number (h->survey, "541-J03"));
  hangar_undo (h, BOND_VOID_NONE, NULL);
  expect_walk (h, "541-J01 541-J09 131-E01");
  g_assert_cmpuint (change.removed, ==, 1);
  hangar_redo (h);
  expect_walk (h, "541-J01 541-J02 541-J09 131-E01");

  /* A second entry of the same point is its spec from then on: dragged, renumbered, moved to another zone. */
  entry = hangar_point_entry ("541-J02", "J1", TRUE);
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

/* --- one at a time against all at once --- */

/* The point whose limit row asks a measuring state. */
#define DIFFICULT "541-J07"

static BondEntry *
newest_reading (Hangar *h, const char *number, BondEntry *otherwise)
{
  GPtrArray *entries = bond_survey_get_entries (h->survey);
  const char *id = bond_point_get_id (hangar_find (h, number));
  guint i;

  for (i = entries->len; i > 0; i--)
    {
      BondEntry *entry = g_ptr_array_index (entries, i - 1);
      if (bond_entry_is_reading (entry) && g_strcmp0 (entry->point, id) == 0)
        return entry;
    }
  return otherwise;
}

/* The acts beside the readings; those that do not fit are refused. */
static BondEntry *
other_act (Hangar *h, GRand *rand, const char *number, BondEntry *any)
{
  static const BondEntryKind kinds[]
      = { BOND_ENTRY_NOTE,   BOND_ENTRY_DEFECT,       BOND_ENTRY_REFINISH, BOND_ENTRY_DEVIATION,
          BOND_ENTRY_PERMIT, BOND_ENTRY_CLOSE_PERMIT, BOND_ENTRY_CAUTION };
  BondEntry *act = hangar_entry (h, kinds[g_rand_int_range (rand, 0, G_N_ELEMENTS (kinds))], number);

  act->reason = g_strdup ("because");
  if (act->kind == BOND_ENTRY_NOTE)
    act->note.text = g_strdup ("heat-tinted");
  else if (act->kind == BOND_ENTRY_DEFECT)
    act->defect.card = g_strdup_printf ("D-%u", g_rand_int (rand) % 100);
  else if (act->kind == BOND_ENTRY_DEVIATION)
    {
      act->ref = g_strdup (newest_reading (h, DIFFICULT, any)->id);
      act->point = (g_free (act->point), g_strdup (bond_point_get_id (hangar_find (h, DIFFICULT))));
      act->deviation.holder = g_strdup ("E. Lind");
    }
  else if (act->kind == BOND_ENTRY_PERMIT)
    act->permit = (BondPermit){ BOND_HAZARD_EXPLOSIVE,
                                NULL,
                                g_strdup ("541"),
                                NULL,
                                g_strdup ("Armourer 12"),
                                NULL,
                                NULL,
                                .vapour_permille = -1,
                                .oxygen_permille = -1,
                                .counted_in = 2 };
  else if (act->kind == BOND_ENTRY_CLOSE_PERMIT)
    {
      GPtrArray *open = bond_survey_get_permits (h->survey);
      act->ref = g_strdup (open->len > 0 ? ((BondEntry *)open->pdata[0])->id : any->id);
      act->close_permit.counted_out = 2;
    }
  else if (act->kind == BOND_ENTRY_CAUTION)
    act->caution.shown = g_strdup ("static power");
  return act;
}

/* A few hundred acts of all kinds, chosen at random but the same every time; what is refused is left out. */
static void
live_a_busy_day (Hangar *h, GRand *rand)
{
  static const char *const texts[] = { "1.00", "1.02", "2.49", "2.60", "3.12", "0", ">30", "2.40 2.41", "1.10 3.90" };
  static const char *const persons[] = { "p-okafor", "p-lind" };
  static const char *const places[] = { "a", "b" };
  int i;

  for (i = 0; i < 1200; i++)
    {
      g_autofree char *number = g_strdup_printf ("541-J%02d", g_rand_int_range (rand, 1, 9));
      GPtrArray *entries = bond_survey_get_entries (h->survey);
      BondEntry *any = g_ptr_array_index (entries, g_rand_int_range (rand, 0, (int)entries->len));
      BondEntry *act = NULL;

      bond_survey_set_person (h->survey, persons[g_rand_int_range (rand, 0, 2)]);
      h->place = g_str_has_suffix (number, "08") ? places[g_rand_int_range (rand, 0, 2)] : NULL;
      h->connectors = g_rand_boolean (rand) ? BOND_CONNECTORS_MATED : BOND_CONNECTORS_UNMATED;
      switch (g_rand_int_range (rand, 0, 15))
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
        case 7:
        case 8:
        case 9:
          act = other_act (h, rand, number, any);
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

/* The day would prove little if most of its acts had been refused. */
static void
expect_variety (Hangar *h)
{
  static const BondEntryKind kinds[]
      = { BOND_ENTRY_TAKE_BACK, BOND_ENTRY_MOVE,   BOND_ENTRY_VOID,        BOND_ENTRY_CORRECT,
          BOND_ENTRY_REWORK,    BOND_ENTRY_NOTE,   BOND_ENTRY_DEFECT,      BOND_ENTRY_REFINISH,
          BOND_ENTRY_DEVIATION, BOND_ENTRY_PERMIT, BOND_ENTRY_CLOSE_PERMIT };
  GPtrArray *entries = bond_survey_get_entries (h->survey);
  gsize k;
  guint i, n;

  for (k = 0; k < G_N_ELEMENTS (kinds); k++)
    {
      for (i = n = 0; i < entries->len; i++)
        n += ((BondEntry *)entries->pdata[i])->kind == kinds[k];
      g_test_message ("%s %u", bond_entry_kind_info (kinds[k])->name, n);
      g_assert_cmpuint (n, >=, 2);
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
          hangar_point (h, number, i == 7 ? "E1" : i % 2 == 0 ? "J2P" : "J1");
        }
      hangar_add_place (h, "541-J08", "a", TRUE);
      hangar_add_place (h, "541-J08", "b", FALSE);
      bond_survey_begin_sitting (h->survey, "s-1b"); /* the points and places stay */
      live_a_busy_day (h, rand);
      expect_variety (h);
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

static void
load (BondSurvey *survey, GPtrArray *entries, guint from)
{
  guint i;

  for (i = from; i < entries->len; i++)
    g_assert_true (bond_survey_load_entry (survey, g_ptr_array_index (entries, i), NULL));
}

/* A copy of @h's survey at another station. */
static Hangar *
branch (Hangar *h, const char *sitting, const char *person)
{
  Hangar *other = hangar_new_bare ();

  load (other->survey, bond_survey_get_entries (h->survey), 0);
  bond_survey_loaded (other->survey);
  bond_survey_begin_sitting (other->survey, sitting);
  bond_survey_set_person (other->survey, person);
  return other;
}

/* Two stations at once: the union is the same whichever is read first, ties in time go by sitting, nothing is lost. */
static void
test_merged (void)
{
  g_autoptr (Hangar) h = hangar_new (BOND_RULE_SIMPLE);
  g_autoptr (Hangar) one = NULL, two = NULL;
  g_autoptr (BondSurvey) ab = bond_survey_new ("6f0c", h->source), ba = bond_survey_new ("6f0c", h->source);
  g_autofree char *first = NULL, *second = NULL;
  guint common, i;

  hangar_point (h, "541-J01", "J2");
  hangar_point (h, "541-J02", "J2");
  hangar_point (h, "541-J03", "J2");
  hangar_read (h, "541-J01", "1.00");
  common = bond_survey_get_entries (h->survey)->len;
  one = branch (h, "s-a", "p-lind");
  two = branch (h, "s-b", "p-sato");
  hangar_read (one, "541-J02", "3.12");
  hangar_read (one, "541-J01", "1.20");
  hangar_read (two, "541-J02", "1.90");
  hangar_undo (two, BOND_VOID_NONE, NULL);
  hangar_read (two, "541-J02", "1.80");
  /* One station finds a fail, the other, not knowing, marks the point: a mark never hides a fail. */
  hangar_read (one, "541-J03", "3.12");
  hangar_mark (two, "541-J03", BOND_POINT_MARK_NOT_FITTED, "option not bought");

  load (ab, bond_survey_get_entries (one->survey), 0);
  load (ab, bond_survey_get_entries (two->survey), common);
  load (ba, bond_survey_get_entries (two->survey), 0);
  load (ba, bond_survey_get_entries (one->survey), common);
  g_assert_true (bond_survey_check_loaded (ab, NULL));
  bond_survey_loaded (ab);
  bond_survey_loaded (ba);
  first = hangar_dump (ab);
  second = hangar_dump (ba);
  g_assert_cmpstr (first, ==, second);
  g_assert_cmpint (bond_point_get_state (bond_survey_find_number (ab, "541-J02")), ==, BOND_STATE_FAIL);
  g_assert_cmpint (bond_point_get_state (bond_survey_find_number (ab, "541-J03")), ==, BOND_STATE_FAIL);
  for (i = 1; i < bond_survey_get_entries (ab)->len; i++)
    {
      const BondEntry *a = bond_survey_get_entries (ab)->pdata[i - 1], *b = bond_survey_get_entries (ab)->pdata[i];
      g_assert_true (a->t < b->t || (a->t == b->t && strcmp (a->sitting, b->sitting) < 0));
    }
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
      hangar_record (h, hangar_point_entry (number, "J2P", TRUE));
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
  g_test_add_func ("/core/replay/walking-order", test_walking_order);
  g_test_add_func ("/core/replay/replay", test_replay);
  g_test_add_func ("/core/replay/load-bad", test_load_bad);
  g_test_add_func ("/core/replay/merged", test_merged);
  g_test_add_func ("/core/replay/speed", test_speed);
  return g_test_run ();
}
