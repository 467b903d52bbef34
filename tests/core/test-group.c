/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * A panel of bolts as one point: which places the sampling rule asks, what widens
 * it, what turns a place in or out, and that the worst place decides.
 */
#include "hangar.h"

#define PANEL "541-F01"

static BondPoint *
panel_new (Hangar *h, int every, gboolean widen, int n)
{
  BondEntry *entry = bond_entry_new (BOND_ENTRY_POINT);

  entry->spec = hangar_spec (PANEL, "F1");
  g_assert_true (entry->spec->widen); /* unless the point says no */
  entry->spec->sample_every = every;
  entry->spec->widen = widen;
  entry->point = g_strdup (entry->spec->id);
  hangar_record (h, entry);
  for (int i = 1; i <= n; i++)
    {
      g_autofree char *place = g_strdup_printf ("%d", i);
      hangar_add_place (h, PANEL, place, TRUE);
    }
  return hangar_find (h, PANEL);
}

/* "+" asked, "-" not, in the order of the places. */
static void
expect_asked (BondPoint *point, const char *pattern)
{
  GPtrArray *places = bond_point_get_places (point);
  g_autoptr (GString) asked = g_string_new (NULL);

  for (guint i = 0; i < places->len; i++)
    g_string_append_c (asked, ((BondPlaceResult *)places->pdata[i])->in_sample ? '+' : '-');
  g_assert_cmpstr (asked->str, ==, pattern);
}

static void
measure (Hangar *h, const char *place, const char *text)
{
  h->place = place;
  hangar_read (h, PANEL, text);
  h->place = NULL;
}

static void
test_every (void)
{
  static const struct
  {
    int every;
    const char *asked;
  } rows[] = { { 0, "+++++++" }, { 1, "+++++++" }, { 2, "+-+-+-+" }, { 3, "+--+--+" }, { 10, "+------" } };

  for (gsize i = 0; i < G_N_ELEMENTS (rows); i++)
    {
      g_autoptr (Hangar) h = hangar_new (BOND_RULE_SIMPLE);
      expect_asked (panel_new (h, rows[i].every, TRUE, 7), rows[i].asked);
    }
}

/* Of the sample one fails: all are asked, unless the point does not widen. The point fails either way. */
static void
test_widen (void)
{
  for (int widen = 0; widen <= 1; widen++)
    {
      g_autoptr (Hangar) h = hangar_new (BOND_RULE_SIMPLE);
      BondPoint *point = panel_new (h, 3, widen, 7);

      measure (h, "1", "1.00");
      measure (h, "7", "1.10");
      expect_asked (point, "+--+--+");
      measure (h, "4", "3.20");
      expect_asked (point, widen ? "+++++++" : "+--+--+");
      g_assert_cmpint (bond_point_get_state (point), ==, BOND_STATE_FAIL);
      g_assert_cmpstr (bond_point_get_worst (point)->place, ==, "4");
      h->place = "4";
      hangar_rework (h, PANEL, BOND_REWORK_TORQUE_RESTORED);
      measure (h, "4", "1.20");
      g_assert_cmpint (bond_point_get_state (point), ==, widen ? BOND_STATE_TO_MEASURE : BOND_STATE_PASS_AFTER_REWORK);
      g_assert_cmpstr (bond_point_next_place (point), ==, widen ? "2" : NULL);
    }
}

/* A visual reject of one bolt widens as a reading does. */
static void
test_visual_widens (void)
{
  g_autoptr (Hangar) h = hangar_new (BOND_RULE_SIMPLE);
  BondPoint *point = panel_new (h, 2, TRUE, 4);

  h->place = "3";
  hangar_visual (h, PANEL, BOND_VISUAL_CORROSION, TRUE);
  expect_asked (point, "++++");
}

static BondEntry *
turn (const char *place, gboolean in, const char *reason, BondPoint *point)
{
  BondEntry *entry = bond_entry_new (BOND_ENTRY_PLACE);

  entry->point = g_strdup (bond_point_get_id (point));
  entry->place = g_strdup (place);
  entry->place_spec.label = g_strdup (place);
  entry->place_spec.in_sample = in;
  entry->reason = g_strdup (reason);
  return entry;
}

static void
test_turn_in_and_out (void)
{
  g_autoptr (Hangar) h = hangar_new (BOND_RULE_SIMPLE);
  BondPoint *point = panel_new (h, 3, TRUE, 6);

  expect_asked (point, "+--+--");
  hangar_record (h, turn ("2", TRUE, NULL, point));
  expect_asked (point, "++-+--");
  hangar_refused (h, turn ("4", FALSE, NULL, point), BOND_SURVEY_ERROR_REASON);
  hangar_record (h, turn ("4", FALSE, "bolt 5 measured in its place", point));
  expect_asked (point, "++----");
  hangar_undo (h, BOND_VOID_NONE, NULL);
  expect_asked (point, "++-+--");
  hangar_undo (h, BOND_VOID_NONE, NULL);
  expect_asked (point, "+--+--");
}

/* The panel comes off: every bolt is a joint opened, asked, and judged by the stricter value. */
static void
test_panel_removed (void)
{
  g_autoptr (Hangar) h = hangar_new (BOND_RULE_SIMPLE);
  BondPoint *point = panel_new (h, 3, TRUE, 5);

  measure (h, "1", "2.80");
  measure (h, "4", "1.10");
  g_assert_cmpint (bond_point_get_state (point), ==, BOND_STATE_PASS);
  hangar_condition (h, PANEL, BOND_CONDITION_OPENED);
  expect_asked (point, "+++++");
  g_assert_cmpint (bond_point_get_state (point), ==, BOND_STATE_REMEASURE);
  for (int i = 1; i <= 5; i++)
    {
      g_autofree char *place = g_strdup_printf ("%d", i);
      h->place = place;
      hangar_expect_tier (h, PANEL, BOND_CONDITION_OPENED, UOHM (2500));
      measure (h, place, i == 2 ? "2.80" : "1.00");
    }
  g_assert_cmpint (bond_point_get_state (point), ==, BOND_STATE_FAIL);
  g_assert_cmpstr (bond_point_get_worst (point)->place, ==, "2");
  hangar_record (h, turn ("5", FALSE, "plugged hole", point));
}

/* One bolt opened asks for that bolt alone. */
static void
test_one_opened (void)
{
  g_autoptr (Hangar) h = hangar_new (BOND_RULE_SIMPLE);
  BondPoint *point = panel_new (h, 3, TRUE, 5);

  h->place = "4";
  hangar_condition (h, PANEL, BOND_CONDITION_OPENED);
  expect_asked (point, "+--+-");
  hangar_expect_tier (h, PANEL, BOND_CONDITION_OPENED, UOHM (2500));
  h->place = "1";
  hangar_expect_tier (h, PANEL, BOND_CONDITION_UNDISTURBED, UOHM (3000));
}

int
main (int argc, char *argv[])
{
  g_test_init (&argc, &argv, NULL);
  g_test_add_func ("/core/group/every", test_every);
  g_test_add_func ("/core/group/widen", test_widen);
  g_test_add_func ("/core/group/visual-widens", test_visual_widens);
  g_test_add_func ("/core/group/turn-in-and-out", test_turn_in_and_out);
  g_test_add_func ("/core/group/panel-removed", test_panel_removed);
  g_test_add_func ("/core/group/one-opened", test_one_opened);
  return g_test_run ();
}
