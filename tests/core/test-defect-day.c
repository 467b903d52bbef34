/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * Which day a defect was first found: one row a history, one word an act, each act on
 * a day of its own (all invented; J2: ≤ 2.5 mΩ).
 */
#include "core/defect-day.h"
#include "hangar.h"

static const struct
{
  const char *acts, *day;
} rows[] = {
  { "", NULL },
  { "2.40", NULL },
  { "3.12", "2026-11-01" },
  { "2.40 3.12", "2026-11-02" },
  { "3.12 1.90", "2026-11-01" },        /* one re-seat clears nothing */
  { "3.12 rework 2.80", "2026-11-01" }, /* the reading that decides is of the third */
  { "3.12 opened 2.80", "2026-11-01" },
  { "3.12 rework 1.90", NULL },                  /* put right */
  { "3.12 rework 1.90 2.80", "2026-11-04" },     /* another defect */
  { "3.12 slip 3.30", "2026-11-03" },            /* what was void is no evidence */
  { "3.12 deferred rework 2.80", "2026-10-14" }, /* the first date is kept */
  { "3.12 deferred rework 1.90 2.80", "2026-11-05" },
  { "broken rework 2.80", "2026-11-01" }, /* seen, not measured */
};

static void
defer (Hangar *h)
{
  BondEntry *entry = hangar_entry (h, BOND_ENTRY_DISPOSITION, "541-J01");

  entry->disposition.kind = BOND_DISPOSITION_DEFERRED;
  entry->disposition.reference = g_strdup ("DD 14");
  entry->disposition.holder = g_strdup ("certifying staff");
  entry->disposition.until = g_strdup ("2026-12-31");
  entry->disposition.first_date = g_strdup ("2026-10-14");
  hangar_record (h, entry);
}

static BondEntry *
act (Hangar *h, const char *word, BondEntry *last)
{
  if (g_str_equal (word, "rework"))
    hangar_rework (h, "541-J01", BOND_REWORK_SURFACES_CLEANED);
  else if (g_str_equal (word, "opened"))
    hangar_condition (h, "541-J01", BOND_CONDITION_OPENED);
  else if (g_str_equal (word, "broken"))
    hangar_visual (h, "541-J01", BOND_VISUAL_LEG_BROKEN, TRUE);
  else if (g_str_equal (word, "slip"))
    hangar_record (h, hangar_void (h, last, BOND_VOID_TYPING_SLIP, "read 1.32"));
  else if (g_str_equal (word, "deferred"))
    defer (h);
  else
    return hangar_read (h, "541-J01", word);
  return last;
}

static void
test_rows (void)
{
  for (gsize i = 0; i < G_N_ELEMENTS (rows); i++)
    {
      g_autoptr (Hangar) h = hangar_new (BOND_RULE_SIMPLE);
      g_auto (GStrv) words = g_strsplit (rows[i].acts, " ", 0);
      g_autofree char *day = NULL;
      BondEntry *last = NULL;

      g_test_message ("%s", rows[i].acts);
      hangar_point (h, "541-J01", "J2");
      for (int j = 0; words[j] != NULL; j++)
        {
          g_autofree char *at = g_strdup_printf ("2026-11-%02dT10:00:00+01:00", j + 1);

          bond_source_set_now (h->source, at);
          last = act (h, words[j], last);
        }
      day = bond_place_result_first_found (hangar_result (h, "541-J01"));
      g_assert_cmpstr (day, ==, rows[i].day);
    }
}

int
main (int argc, char *argv[])
{
  g_test_init (&argc, &argv, NULL);
  g_test_add_func ("/core/defect-day/rows", test_rows);
  return g_test_run ();
}
