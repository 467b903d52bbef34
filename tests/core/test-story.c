/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * Everything recorded at a point, in order of time: nothing is missing, nothing
 * stands there twice, and what was struck out says by what.
 */
#include "core/story.h"
#include "hangar.h"

#define POINT "541-J01"

/*
 * The story as words, one line each: kind; '=' a seating of the probes; '-' struck out, and by which kind.
 * "point =reading -reading/void void"
 */
static char *
words_of (BondPoint *point)
{
  g_autoptr (GPtrArray) story = bond_point_story (point);
  GString *text = g_string_new (NULL);

  for (guint i = 0; i < story->len; i++)
    {
      const BondStoryLine *line = g_ptr_array_index (story, i);

      g_string_append_printf (text, "%s%s%s%s", i > 0 ? " " : "", bond_story_line_is_struck (line) ? "-" : "",
                              line->item != NULL && line->item->measurement != NULL ? "=" : "",
                              bond_entry_kind_info (line->entry->kind)->name);
      if (line->struck_by != NULL)
        g_string_append_printf (text, "/%s", bond_entry_kind_info (line->struck_by->kind)->name);
    }
  return g_string_free (text, FALSE);
}

static void
expect_story (Hangar *h, const char *number, const char *expected)
{
  g_autofree char *words = words_of (hangar_find (h, number));

  g_assert_cmpstr (words, ==, expected);
}

static Hangar *
story_new (void)
{
  Hangar *h = hangar_new (BOND_RULE_SIMPLE);

  hangar_point (h, POINT, "J2");
  hangar_point (h, "541-J02", "J2");
  return h;
}

/* A fail, put right; a pair is one seating. */
static void
test_order (void)
{
  g_autoptr (Hangar) h = story_new ();
  g_autoptr (GPtrArray) story = NULL;

  expect_story (h, POINT, "point");
  hangar_read (h, POINT, "4.00");
  hangar_rework (h, POINT, BOND_REWORK_SURFACES_CLEANED);
  hangar_read (h, POINT, "1.39 1.37");
  expect_story (h, POINT, "point =reading rework =reading");
  story = bond_point_story (hangar_find (h, POINT));
  g_assert_cmpuint (((BondStoryLine *)story->pdata[3])->item->measurement->readings->len, ==, 2);
  for (guint i = 1; i < story->len; i++)
    g_assert_cmpint (((BondStoryLine *)story->pdata[i - 1])->entry->t, <, ((BondStoryLine *)story->pdata[i])->entry->t);
}

static void
test_void (void)
{
  g_autoptr (Hangar) h = story_new ();
  BondEntry *reading = hangar_read (h, POINT, "0.40");
  BondEntry *voided = hangar_record (h, hangar_void (h, reading, BOND_VOID_WRONG_POINT, "probes were on 541-J02"));
  g_autoptr (GPtrArray) story = NULL;

  hangar_read (h, POINT, "1.40");
  expect_story (h, POINT, "point -=reading/void void =reading");
  story = bond_point_story (hangar_find (h, POINT));
  g_assert_true (((BondStoryLine *)story->pdata[1])->struck_by == voided);
}

/* Undone, and done again: the undo itself is then what was undone. */
static void
test_undo (void)
{
  g_autoptr (Hangar) h = story_new ();

  hangar_read (h, POINT, "1.40");
  hangar_undo (h, BOND_VOID_NONE, NULL);
  expect_story (h, POINT, "point -=reading/take-back take-back");
  hangar_redo (h);
  expect_story (h, POINT, "point =reading -take-back/take-back take-back");
}

/* The figure that was corrected, the one that counts, and the act with its reason. */
static void
test_correct (void)
{
  g_autoptr (Hangar) h = story_new ();
  BondEntry *reading = hangar_read (h, POINT, "14.0");

  hangar_record (h, hangar_correct (h, reading, "1.40", BOND_VOID_TYPING_SLIP));
  expect_story (h, POINT, "point -=reading/correct =correct correct");
}

/* It is told at both points, and struck out at the one it left; a pair goes as a whole. */
static void
test_move (void)
{
  g_autoptr (Hangar) h = story_new ();
  BondEntry *reading = hangar_read (h, POINT, "1.40");

  hangar_record (h, hangar_move (h, reading, "541-J02"));
  expect_story (h, POINT, "point -=reading/move move");
  expect_story (h, "541-J02", "point =reading move");
}

static void
test_move_pair (void)
{
  g_autoptr (Hangar) h = story_new ();
  BondEntry *reverse = hangar_read (h, POINT, "1.40 1.42");
  BondEntry *forward = bond_survey_find_entry (h->survey, reverse->reading.of);

  g_assert_nonnull (forward);
  hangar_record (h, hangar_move (h, forward, "541-J02"));
  expect_story (h, POINT, "point -=reading/move -=reading/move move");
}

/* What is about all places of a group is told once. */
static void
test_group (void)
{
  g_autoptr (Hangar) h = story_new ();
  g_autoptr (GPtrArray) story = NULL;
  guint whole = 0;

  hangar_add_place (h, POINT, "1", TRUE);
  hangar_add_place (h, POINT, "2", TRUE);
  hangar_condition (h, POINT, BOND_CONDITION_OPENED);
  h->place = "2";
  hangar_read (h, POINT, "1.10");
  h->place = NULL;
  expect_story (h, POINT, "point place place condition =reading");
  story = bond_point_story (hangar_find (h, POINT));
  for (guint i = 0; i < story->len; i++)
    whole += ((BondStoryLine *)story->pdata[i])->place == NULL;
  g_assert_cmpuint (whole, ==, 4);
  g_assert_cmpstr (((BondStoryLine *)story->pdata[4])->place->place, ==, "2");
}

static void
test_others (void)
{
  g_autoptr (Hangar) h = story_new ();
  BondEntry *entry = hangar_entry (h, BOND_ENTRY_NOTE, POINT);

  entry->note.text = g_strdup ("sealant over the bolt");
  hangar_record (h, entry);
  entry = hangar_entry (h, BOND_ENTRY_ATTACH, POINT);
  entry->attach.sha256 = g_strnfill (64, 'a');
  entry->attach.name = g_strdup ("photo.jpg");
  entry->attach.size = 100;
  hangar_record (h, entry);
  hangar_visual (h, POINT, BOND_VISUAL_PAINT, FALSE);
  expect_story (h, POINT, "point note attach visual");
  hangar_undo (h, BOND_VOID_NONE, NULL);
  hangar_undo (h, BOND_VOID_NONE, NULL);
  expect_story (h, POINT, "point note -attach/take-back -visual/take-back take-back take-back");
}

/* The permit that was in force at the reading, though it was closed since. */
static void
test_permit (void)
{
  g_autoptr (Hangar) h = story_new ();
  g_autoptr (GPtrArray) story = NULL;
  BondEntry *entry, *permit;

  entry = bond_entry_new (BOND_ENTRY_POINT);
  entry->spec = hangar_spec ("541-J03", "J2");
  entry->spec->hazards = BOND_HAZARD_EXPLOSIVE;
  entry->point = g_strdup (entry->spec->id);
  hangar_record (h, entry);
  entry = bond_entry_new (BOND_ENTRY_PERMIT);
  entry->permit.hazard = BOND_HAZARD_EXPLOSIVE;
  entry->permit.zones = g_strdup ("541");
  entry->permit.authority = g_strdup ("Armament officer");
  entry->permit.counted_in = 4;
  permit = hangar_record (h, entry);
  hangar_read (h, "541-J03", "1.20");
  hangar_read (h, POINT, "1.20");
  entry = bond_entry_new (BOND_ENTRY_CLOSE_PERMIT);
  entry->ref = g_strdup (permit->id);
  entry->close_permit.counted_out = 4;
  hangar_record (h, entry);
  story = bond_point_story (hangar_find (h, "541-J03"));
  g_assert_true (((BondStoryLine *)story->pdata[story->len - 1])->permit == permit);
  g_assert_null (((BondStoryLine *)story->pdata[0])->permit);
  g_ptr_array_unref (story);
  story = bond_point_story (hangar_find (h, POINT));
  g_assert_null (((BondStoryLine *)story->pdata[1])->permit); /* nothing there that asks for one */
}

static void
test_earlier (void)
{
  g_autoptr (Hangar) h = story_new ();
  BondPoint *point = hangar_find (h, POINT);
  g_autoptr (BondEarlier) late = bond_earlier_new ("b", "2024-03-02");
  g_autoptr (BondEarlier) none = bond_earlier_new ("n", "2022-03-02");
  g_autoptr (BondEarlier) early = bond_earlier_new ("a", "2020-03-02");
  BondEarlierItem item = { .point = (char *)bond_point_get_id (point), .result = { UOHM (1470), 0, 0 } };
  g_autoptr (GArray) found = bond_point_get_earlier (point);

  g_assert_cmpuint (found->len, ==, 0);
  bond_earlier_add (early, &item);
  item.result.nohm = UOHM (1710);
  bond_earlier_add (late, &item);
  hangar_record (h, bond_entry_adopt_new (BOND_ADOPT_EARLIER, late));
  hangar_record (h, bond_entry_adopt_new (BOND_ADOPT_EARLIER, none));
  hangar_record (h, bond_entry_adopt_new (BOND_ADOPT_EARLIER, early));
  g_array_unref (found);
  found = bond_point_get_earlier (point);
  g_assert_cmpuint (found->len, ==, 2);
  g_assert_cmpint (g_array_index (found, BondPointEarlier, 0).item->result.nohm, ==, UOHM (1470));
  g_assert_cmpstr (g_array_index (found, BondPointEarlier, 1).survey->date, ==, "2024-03-02");
}

/* Every word that is kept with a reading has one to be read. */
static void
test_said (void)
{
  static const BondMeasurement said[] = {
    { .outcome = BOND_OUTCOME_JUDGED, .conforms = TRUE },
    { .outcome = BOND_OUTCOME_JUDGED, .conforms = TRUE, .within_u = TRUE },
    { .outcome = BOND_OUTCOME_JUDGED },
    { .outcome = BOND_OUTCOME_JUDGED, .within_u = TRUE },
    { .outcome = BOND_OUTCOME_SUSPECT },
    { .outcome = BOND_OUTCOME_INCOMPLETE },
    { .outcome = BOND_OUTCOME_RECORDED },
    { .outcome = BOND_OUTCOME_NO_VERDICT },
  };
  g_autoptr (GHashTable) names = g_hash_table_new (g_str_hash, g_str_equal);

  for (gsize i = 0; i < G_N_ELEMENTS (said); i++)
    g_assert_true (g_hash_table_add (names, (gpointer)bond_said_name (bond_measurement_said (&said[i]))));
  g_assert_cmpstr (bond_said_name ("pass within-u"), ==, "pass, within U of the limit");
  g_assert_cmpstr (bond_said_name ("excellent"), ==, "excellent");
  g_assert_null (bond_said_name (NULL));
}

int
main (int argc, char *argv[])
{
  g_test_init (&argc, &argv, NULL);
  g_test_add_func ("/core/story/order", test_order);
  g_test_add_func ("/core/story/void", test_void);
  g_test_add_func ("/core/story/undo", test_undo);
  g_test_add_func ("/core/story/correct", test_correct);
  g_test_add_func ("/core/story/move", test_move);
  g_test_add_func ("/core/story/move-pair", test_move_pair);
  g_test_add_func ("/core/story/group", test_group);
  g_test_add_func ("/core/story/others", test_others);
  g_test_add_func ("/core/story/permit", test_permit);
  g_test_add_func ("/core/story/earlier", test_earlier);
  g_test_add_func ("/core/story/said", test_said);
  return g_test_run ();
}
