/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * Time and ids: repeatable when fixed, never repeating when not; people, house
 * rules and earlier results as plain shared values.
 */
#include "core/person.h"
#include "core/source.h"

static void
test_fixed (void)
{
  g_autoptr (BondSource) source = bond_source_new_fixed ("2026-11-24T23:59:30+01:00", 40, 0x41);
  g_autofree char *first = bond_source_now (source);
  g_autofree char *second = bond_source_now (source);
  g_autofree char *id = bond_source_id (source, "s-");
  g_autofree char *next = bond_source_id (source, "q-");
  g_autofree char *third = NULL;
  BondSource *shared = bond_source_ref (source);

  bond_source_unref (shared);
  g_assert_cmpstr (first, ==, "2026-11-24T23:59:30+01:00");
  g_assert_cmpstr (second, ==, "2026-11-25T00:00:10+01:00");
  g_assert_cmpstr (id, ==, "s-00000000000000000000000000000041");
  g_assert_cmpstr (next, ==, "q-00000000000000000000000000000042");
  bond_source_set_now (source, "2027-03-31T08:00:00-05:00");
  third = bond_source_now (source);
  g_assert_cmpstr (third, ==, "2027-03-31T08:00:00-05:00");
}

static void
test_large_seed (void)
{
  g_autoptr (BondSource) source = bond_source_new_fixed ("2026-11-24T10:00:00Z", 0, G_MAXUINT64);
  g_autofree char *id = bond_source_id (source, "");
  g_autofree char *now = bond_source_now (source);

  g_assert_cmpstr (id, ==, "0000000000000000ffffffffffffffff");
  g_assert_cmpstr (now, ==, "2026-11-24T10:00:00+00:00");
}

static void
test_system (void)
{
  g_autoptr (BondSource) source = bond_source_new_system ();
  g_autoptr (GHashTable) seen = g_hash_table_new_full (g_str_hash, g_str_equal, g_free, NULL);
  g_autofree char *now = bond_source_now (source);
  g_autoptr (GDateTime) time = g_date_time_new_from_iso8601 (now, NULL);
  g_autoptr (GDateTime) clock = g_date_time_new_now_utc ();
  int i;

  g_assert_nonnull (time);
  g_assert_cmpint (ABS (g_date_time_difference (clock, time)), <, 5 * G_TIME_SPAN_SECOND);
  g_assert_cmpuint (strlen (now), ==, strlen ("2026-11-24T09:58:00+01:00"));
  for (i = 0; i < 1000; i++)
    {
      char *id = bond_source_id (source, "s-");

      g_assert_cmpuint (strlen (id), ==, 34);
      g_assert_cmpuint (strspn (id + 2, "0123456789abcdef"), ==, 32);
      g_assert_true (g_hash_table_add (seen, id));
    }
}

static void
test_person (void)
{
  g_autoptr (BondPerson) person = bond_person_new ("p-okafor", 2, "A. Okafor", "OK-7", NULL);
  g_autoptr (BondPerson) shared = bond_person_ref (person);

  g_assert_true (shared == person);
  g_assert_cmpstr (person->stamp, ==, "OK-7");
  g_assert_null (person->role);
  g_assert_cmpint (person->revision, ==, 2);
}

/* The values a house starts with: common practice, no source. */
static void
test_house (void)
{
  g_autoptr (BondHouse) house = bond_house_new ("house", 1, "Example hangar");
  g_autoptr (BondHouse) shared = bond_house_ref (house);
  int i;

  g_assert_true (shared == house);
  g_assert_cmpint (house->pair_percent, ==, 10);
  g_assert_cmpint (house->pair_steps, ==, 4);
  g_assert_cmpint (house->emf_microvolt, ==, 50);
  g_assert_cmpint (house->reseat_max, ==, 3);
  for (i = 0; i < BOND_N_CLASSES; i++)
    g_assert_cmpint (house->placing[i].n, ==, 0);
}

static void
test_earlier (void)
{
  g_autoptr (BondEarlier) earlier = bond_earlier_new ("6f0c", "2026-03-02");
  char point[] = "q-7d";
  BondEarlierItem item = { .point = point, .result = { .nohm = 1840000 }, .state = (char *)"pass" };
  g_autoptr (BondEarlier) shared = bond_earlier_ref (earlier);
  const BondEarlierItem *found;

  bond_earlier_add (earlier, &item);
  point[0] = 'x';
  found = bond_earlier_find (shared, "q-7d");
  g_assert_nonnull (found);
  g_assert_cmpint (found->result.nohm, ==, 1840000);
  g_assert_null (found->limit);
  g_assert_null (bond_earlier_find (earlier, "q-8d"));
}

int
main (int argc, char **argv)
{
  g_test_init (&argc, &argv, NULL);
  g_test_add_func ("/core/source/fixed", test_fixed);
  g_test_add_func ("/core/source/large-seed", test_large_seed);
  g_test_add_func ("/core/source/system", test_system);
  g_test_add_func ("/core/person/person", test_person);
  g_test_add_func ("/core/person/house", test_house);
  g_test_add_func ("/core/person/earlier", test_earlier);
  return g_test_run ();
}
