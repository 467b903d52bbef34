/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * The second worked day: values at the limit, under both decision rules, with the
 * uncertainties of section B.  Everything in it is invented.
 */
#include "hangar.h"

#define PASS BOND_ZONE_WORD_PASS
#define CONDITIONAL_PASS BOND_ZONE_WORD_CONDITIONAL_PASS
#define CONDITIONAL_FAIL BOND_ZONE_WORD_CONDITIONAL_FAIL
#define FAIL BOND_ZONE_WORD_FAIL

/* @planned: values of one direction planned together, separated by spaces; else a reading or a pair as typed. */
typedef struct
{
  const char *row;
  const char *range; /* NULL: voltage at current, no instrument */
  const char *text;
  const char *planned;
  gboolean conforms;
  BondZoneWord word;
  gboolean conforms_guarded;
} Row;

static const Row rows[] = {
  { "J2", "30m", "2.50", NULL, TRUE, CONDITIONAL_PASS, FALSE },
  { "E1", "30m", "2.50", NULL, FALSE, CONDITIONAL_FAIL, FALSE },
  { "J2", "3m", "2499u", NULL, TRUE, CONDITIONAL_PASS, FALSE },
  { "J2", "3m", "2501u", NULL, FALSE, CONDITIONAL_FAIL, FALSE },
  { "J2", "30m", "0.0025o", NULL, TRUE, CONDITIONAL_PASS, FALSE },
  { "J2", "30m", "2.50 2.51", NULL, FALSE, CONDITIONAL_FAIL, FALSE },
  { "J2", "30m", "2.49 2.51", NULL, TRUE, CONDITIONAL_PASS, FALSE },
  { "E1", "30m", "2.49 2.51", NULL, FALSE, CONDITIONAL_FAIL, FALSE },
  { "J2", "3m", "2.504", NULL, FALSE, CONDITIONAL_FAIL, FALSE },
  { "J2", "30m", "2.48", NULL, TRUE, PASS, TRUE },
  { "J2", "30m", "2.49", NULL, TRUE, CONDITIONAL_PASS, FALSE },
  { "J2", "30m", "2.51", NULL, FALSE, CONDITIONAL_FAIL, FALSE },
  { "J2", "30m", "2.52", NULL, FALSE, FAIL, FALSE },
  { "J2", NULL, "3.0mV 1.2A", NULL, TRUE, PASS, FALSE },
  { "J2", NULL, "2.5mV 0.9A", NULL, FALSE, PASS, FALSE },
  { "J2", "30m", NULL, "2.49 2.50 2.51", TRUE, CONDITIONAL_PASS, FALSE },
  { "J2", "30m", NULL, "2.49 2.50 2.52", FALSE, CONDITIONAL_FAIL, FALSE },
};

static void
measure (Hangar *h, const char *number, const Row *row)
{
  hangar_take (h, row->range != NULL ? "MO-1" : NULL, row->range);
  h->connectors = strcmp (row->row, "E1") == 0 ? BOND_CONNECTORS_UNMATED : BOND_CONNECTORS_ANY;
  if (row->planned != NULL)
    {
      g_auto (GStrv) values = g_strsplit (row->planned, " ", 0);
      hangar_read_planned (h, number, (const char *const *)values, (int)g_strv_length (values));
    }
  else
    hangar_read (h, number, row->text);
}

static void
play (BondRule rule)
{
  g_autoptr (Hangar) h = hangar_new (rule);
  gsize i;

  for (i = 0; i < G_N_ELEMENTS (rows); i++)
    {
      const Row *row = &rows[i];
      g_autofree char *number = g_strdup_printf ("600-%s%02u", strcmp (row->row, "E1") == 0 ? "E" : "J", (guint)i + 1);
      const BondMeasurement *m;
      gboolean conforms = rule == BOND_RULE_SIMPLE ? row->conforms : row->conforms_guarded;

      g_test_message ("row %u, %s", (guint)i + 1, bond_rule_file_name (rule));
      hangar_point (h, number, row->row);
      measure (h, number, row);
      m = hangar_result (h, number)->decides;
      if (rule == BOND_RULE_GUARDED && row->range == NULL)
        {
          /* Guarded acceptance has no verdict to give without U; in the table a dash. */
          hangar_expect_last (h, number, BOND_OUTCOME_NO_VERDICT, BOND_REASON_U_UNKNOWN);
          continue;
        }
      g_assert_nonnull (m);
      g_assert_cmpint (m->outcome, ==, BOND_OUTCOME_JUDGED);
      g_assert_cmpint (m->conforms, ==, conforms);
      hangar_expect_state (h, number, conforms ? BOND_STATE_PASS : BOND_STATE_FAIL);
      if (row->range == NULL)
        continue;
      g_assert_cmpint (m->zone, ==, row->word);
      g_assert_cmpint (m->within_u, ==, row->word == CONDITIONAL_PASS || row->word == CONDITIONAL_FAIL);
    }
}

static void
test_simple (void)
{
  play (BOND_RULE_SIMPLE);
}

static void
test_guarded (void)
{
  play (BOND_RULE_GUARDED);
}

/* What is kept with a reading: the verdict said at that moment, and both numbers of a quotient. */
static void
test_kept (void)
{
  g_autoptr (Hangar) h = hangar_new (BOND_RULE_SIMPLE);
  BondEntry *entry;
  const BondMeasurement *m;
  g_autofree char *shown = NULL;

  hangar_point (h, "600-J01", "J2");
  hangar_point (h, "600-J02", "J2");
  hangar_point (h, "600-J03", "J2");
  entry = hangar_read (h, "600-J01", "2.51");
  g_assert_cmpstr (entry->reading.said, ==, "fail within-u");
  entry = hangar_read (h, "600-J02", "3.0mV 1.2A");
  g_assert_cmpint (entry->reading.nanovolt, ==, 3000000);
  g_assert_cmpint (entry->reading.microampere, ==, 1200000);
  g_assert_cmpint (entry->reading.quantity.nohm, ==, UOHM (2500));
  hangar_read (h, "600-J03", "2.50 2.51");
  m = hangar_result (h, "600-J03")->decides;
  shown = bond_mean_format (&m->mean, BOND_UNIT_MILLIOHM, 2, &m->row->in_service, '.');
  g_assert_cmpstr (shown, ==, "2.505");
}

/* Forward 2 500 000 nΩ, reverse 2 500 001 nΩ against ≤ 2 500 000 nΩ: an odd sum, no. */
static void
test_odd_sum (void)
{
  g_autoptr (Hangar) h = hangar_new (BOND_RULE_SIMPLE);

  hangar_point (h, "600-J01", "J2");
  hangar_point (h, "600-J02", "J2");
  hangar_read (h, "600-J01", "2.500000 2.500001");
  hangar_expect_state (h, "600-J01", BOND_STATE_FAIL);
  hangar_read (h, "600-J02", "2.500000 2.500000");
  hangar_expect_state (h, "600-J02", BOND_STATE_PASS);
}

/* Section B's values of U, in units of 0.1 µΩ as printed there. */
static void
test_uncertainty (void)
{
  static const struct
  {
    const char *range, *row, *text;
    double u_mohm, half_unit;
  } values[] = {
    { "30m", "J1", "2.40", 0.0195, 0.00005 }, { "30m", "J1", "2.50", 0.0198, 0.00005 },
    { "30m", "J1", "4.00", 0.0241, 0.00005 }, { "3m", "J1", "2.50", 0.0110, 0.00005 },
    { "300m", "T1", "42.3", 0.248, 0.0005 },  { "30m", "J1", "2.48", 0.0197, 0.00005 },
    { "30m", "J1", "2.49", 0.0198, 0.00005 }, { "30m", "J1", "2.52", 0.0198, 0.00005 },
  };
  g_autoptr (Hangar) h = hangar_new (BOND_RULE_SIMPLE);
  gsize i;

  for (i = 0; i < G_N_ELEMENTS (values); i++)
    {
      g_autofree char *number = g_strdup_printf ("600-J%02u", (guint)i + 1);
      const BondBudget *budget;

      hangar_point (h, number, values[i].row);
      hangar_take (h, "MO-1", values[i].range);
      hangar_read (h, number, values[i].text);
      budget = &hangar_result (h, number)->decides->budget;
      g_assert_true (budget->known);
      g_assert_false (budget->placing_included);
      g_assert_cmpfloat_with_epsilon (budget->expanded / 1e6, values[i].u_mohm, values[i].half_unit);
    }
}

/*
 * A probe-placing study, s = 0.012 mΩ, n = 10, makes 2.47 a conditional pass and leaves 2.46 a pass.  The worked day
 * takes k = 2 (U(2.47) = 0.0311); with nine degrees of freedom ν_eff is 25, so the program takes Student's t and U is
 * larger.  Checked here: 2 u_c as the day has it, that k is not 2, and the words, which come out the same.
 */
static void
test_study (void)
{
  g_autoptr (Hangar) h = hangar_new_bare ();
  g_autoptr (BondHouse) house = bond_house_new ("house", 1, "invented");
  const BondMeasurement *m;

  house->placing[BOND_CLASS_STRUCTURE] = (BondPlacingStudy){ .s = 12000, .n = 10 };
  hangar_furnish (h, BOND_RULE_SIMPLE, house);
  hangar_point (h, "600-J01", "J2");
  hangar_point (h, "600-J02", "J2");
  hangar_read (h, "600-J01", "2.47");
  hangar_read (h, "600-J02", "2.46");
  m = hangar_result (h, "600-J01")->decides;
  g_assert_true (m->budget.placing_included);
  g_assert_cmpfloat_with_epsilon (2 * m->budget.u_c / 1e6, 0.0311, 0.00005);
  g_assert_cmpfloat (m->budget.k, >, 2.0);
  g_assert_cmpint (m->zone, ==, CONDITIONAL_PASS);
  m = hangar_result (h, "600-J02")->decides;
  g_assert_cmpint (m->zone, ==, PASS);
}

int
main (int argc, char *argv[])
{
  g_test_init (&argc, &argv, NULL);
  g_test_add_func ("/core/scenario-2/simple", test_simple);
  g_test_add_func ("/core/scenario-2/guarded", test_guarded);
  g_test_add_func ("/core/scenario-2/kept", test_kept);
  g_test_add_func ("/core/scenario-2/odd-sum", test_odd_sum);
  g_test_add_func ("/core/scenario-2/uncertainty", test_uncertainty);
  g_test_add_func ("/core/scenario-2/study", test_study);
  return g_test_run ();
}
