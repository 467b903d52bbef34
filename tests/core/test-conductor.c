/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * The metal alone: its resistance against handbook figures, exactness at the edge,
 * and what a reading lower than it is worth, in place and isolated.
 */
#include "hangar.h"

#define BRAID                                                                                                          \
  {                                                                                                                    \
    8400000, 150000, BOND_RESISTIVITY_COPPER                                                                           \
  }

typedef struct
{
  BondConductor conductor;
  BondOhm nohm;
  gint64 permille; /* how far the source's figure may be off, in thousandths; 0 = to the nano-ohm */
  const char *source;
} Metal;

static const Metal metals[] = {
  { BRAID, 307875, 0, "1.7241e-8 Ω·m × 150 mm ÷ 8.4 mm²: arithmetic" },
  { { 5261160, 304800000, BOND_RESISTIVITY_COPPER },
    998900000,
    2,
    "NBS Handbook 100: AWG 10, solid annealed copper, 20 °C, 0.9989 Ω per 1000 ft (printed tables round the "
    "diameter)" },
  { { 3308770, 304800000, BOND_RESISTIVITY_COPPER }, 1588000000, 2, "NBS Handbook 100: AWG 12, 1.588 Ω per 1000 ft" },
  { { 2080910, 304800000, BOND_RESISTIVITY_COPPER }, 2525000000, 2, "NBS Handbook 100: AWG 14, 2.525 Ω per 1000 ft" },
  { { 32986700, 1000000, 40000000 }, 1212610, 1, "tube 12.7 × 0.889 mm, 1 m, 4.0e-8 Ω·m: computed with SciPy" },
  { { 3, 1, 10 }, 3, 0, "10/3 nΩ, cut off downwards" },
  { { 2, 1, 5 }, 2, 0, "5/2 nΩ, half to even (ISO 80000-1:2009 B.3)" },
  { { 2, 1, 7 }, 4, 0, "7/2 nΩ, half to even" },
};

static void
test_resistance (void)
{
  gsize i;

  for (i = 0; i < G_N_ELEMENTS (metals); i++)
    {
      const Metal *metal = &metals[i];
      BondQuantity r;

      g_test_message ("%s", metal->source);
      g_assert_true (bond_conductor_resistance (&metal->conductor, &r));
      g_assert_cmpint (ABS (r.nohm - metal->nohm) * 1000, <=, metal->permille * metal->nohm);
      g_assert_cmpint (r.qualifier, ==, BOND_QUALIFIER_NONE);
    }
}

static void
test_unknown (void)
{
  static const BondConductor unknown[] = {
    { 0, 0, 0 },
    { 8400000, 0, BOND_RESISTIVITY_COPPER },
    { 8400000, 150000, 0 },
    { 0, 150000, BOND_RESISTIVITY_COPPER },
    { -8400000, 150000, BOND_RESISTIVITY_COPPER },
    { G_MAXINT64, 150000, BOND_RESISTIVITY_COPPER },
    { 8400000, G_MAXINT64, BOND_RESISTIVITY_COPPER },
    { 8400000, 150000, G_MAXINT64 },
  };
  BondQuantity r = { .nohm = 7 };
  gsize i;

  for (i = 0; i < G_N_ELEMENTS (unknown); i++)
    {
      g_assert_false (bond_conductor_is_known (&unknown[i]));
      g_assert_false (bond_conductor_resistance (&unknown[i], &r));
    }
  g_assert_cmpint (r.nohm, ==, 7);
  /* Known, and beyond what a resistance can be: ±9.2 GΩ. */
  g_assert_false (bond_conductor_resistance (&(BondConductor){ 1, 10000000000, 1000000000000 }, &r));
}

static void
test_compare (void)
{
  const BondConductor braid = BRAID, third = { 3, 1, 10 };
  BondMean mean = { .sum = 307875, .count = 1 };

  g_assert_cmpint (bond_conductor_compare (&braid, &mean, 0), ==, 0);
  mean.sum--;
  g_assert_cmpint (bond_conductor_compare (&braid, &mean, 0), ==, -1);
  g_assert_cmpint (bond_conductor_compare (&braid, &mean, 1), ==, 0);
  g_assert_cmpint (bond_conductor_compare (&braid, &mean, 2), ==, 1);
  mean = (BondMean){ .sum = 615751, .count = 2 }; /* half a nano-ohm above */
  g_assert_cmpint (bond_conductor_compare (&braid, &mean, 0), ==, 1);
  mean = (BondMean){ .sum = 10, .count = 3 };
  g_assert_cmpint (bond_conductor_compare (&third, &mean, 0), ==, 0);
  mean = (BondMean){ .sum = (__int128)G_MAXINT64 * 200, .count = 200 };
  g_assert_cmpint (bond_conductor_compare (&(BondConductor){ 10000000000000, 1, 1 }, &mean, G_MAXINT64), ==, 1);
}

/* A braid with its metal known, ZONE-J…, under @row. */
static void
place_braid (Hangar *h, const char *number, const char *row)
{
  BondEntry *entry = hangar_point_entry (number, row, TRUE);

  entry->spec->conductor = (BondConductor)BRAID;
  hangar_record (h, entry);
}

/* The answers are: state, measuring state, "on two parts", outcome, reason, caution. */
typedef struct
{
  const char *row, *text;
  BondMounting mounting;
  gboolean confirmed;
  BondOutcome outcome;
  BondReason reason, caution;
} Case;

#define CAUTION BOND_OUTCOME_JUDGED, BOND_REASON_NONE, BOND_REASON_BELOW_METAL
#define QUIET BOND_OUTCOME_JUDGED, BOND_REASON_NONE, BOND_REASON_NONE
#define UNSURE BOND_OUTCOME_SUSPECT, BOND_REASON_METAL_UNSURE, BOND_REASON_NONE
#define SUSPECT BOND_OUTCOME_SUSPECT, BOND_REASON_BELOW_METAL, BOND_REASON_NONE

/* The metal has 0.307875 mΩ; U(0.30) of MO-1 on 30 mΩ is 0.0137 mΩ. */
static const Case cases[] = {
  { "J1", "0.31", BOND_MOUNTING_IN_PLACE, FALSE, QUIET },
  { "J1", "0.31", BOND_MOUNTING_ISOLATED, FALSE, QUIET },
  { "J1", "0.21", BOND_MOUNTING_IN_PLACE, FALSE, UNSURE },
  { "J1", "0.21", BOND_MOUNTING_IN_PLACE, TRUE, CAUTION },
  { "J1", "0.21", BOND_MOUNTING_ANY, TRUE, CAUTION }, /* not stated is not isolated */
  { "J1", "0.21", BOND_MOUNTING_ISOLATED, FALSE, SUSPECT },
  { "J1", "0.21", BOND_MOUNTING_ISOLATED, TRUE, SUSPECT },
  { "J1", "0.30", BOND_MOUNTING_ISOLATED, FALSE, UNSURE }, /* lower, yet within U: asked, not refused */
  { "J1", "0.30", BOND_MOUNTING_ISOLATED, TRUE, CAUTION },
  { "J1", "0.21 0.22", BOND_MOUNTING_IN_PLACE, FALSE, UNSURE },
  { "J1", "0.21 0.22", BOND_MOUNTING_IN_PLACE, TRUE, CAUTION },
  { "J1", "<0.01", BOND_MOUNTING_IN_PLACE, TRUE, CAUTION },
  { "J1", "<0.01", BOND_MOUNTING_ISOLATED, TRUE, SUSPECT },
  { "J1", "<0.40", BOND_MOUNTING_ISOLATED, TRUE, QUIET }, /* may be 0.39 */
  { "J1", ">30", BOND_MOUNTING_ISOLATED, FALSE, QUIET },
  { "J1", "6.00", BOND_MOUNTING_ISOLATED, FALSE, QUIET },
  { NULL, "0.21", BOND_MOUNTING_IN_PLACE, TRUE, BOND_OUTCOME_RECORDED, BOND_REASON_NONE, BOND_REASON_BELOW_METAL },
  { NULL, "0.21", BOND_MOUNTING_ISOLATED, TRUE, SUSPECT },
};

static void
test_cases (void)
{
  gsize i;

  for (i = 0; i < G_N_ELEMENTS (cases); i++)
    {
      g_autoptr (Hangar) h = hangar_new (BOND_RULE_SIMPLE);
      const Case *c = &cases[i];
      const BondMeasurement *m;

      g_test_message ("%s %s %d", c->text, bond_mounting_file_name (c->mounting), c->confirmed);
      place_braid (h, "551-J02", c->row);
      h->mounting = c->mounting;
      h->confirmed = c->confirmed;
      hangar_read (h, "551-J02", c->text);
      hangar_expect_last (h, "551-J02", c->outcome, c->reason);
      m = hangar_result (h, "551-J02")->last;
      g_assert_cmpint (m->caution, ==, c->caution);
      g_assert_cmpint (m->conforms, ==, c->outcome == BOND_OUTCOME_JUDGED && strpbrk (c->text, ">6") == NULL);
    }
}

/* A reading beyond its limit is evidence; no thought about the metal takes it out of the result. */
static void
test_fail_stands (void)
{
  g_autoptr (Hangar) h = hangar_new (BOND_RULE_SIMPLE);
  BondEntry *entry = hangar_point_entry ("551-J02", "J2", TRUE);

  entry->spec->conductor = (BondConductor){ 840000, 150000, BOND_RESISTIVITY_COPPER }; /* 3.08 mΩ, limit 2.5 */
  hangar_record (h, entry);
  h->mounting = BOND_MOUNTING_ISOLATED;
  hangar_read (h, "551-J02", "2.80");
  hangar_expect_state (h, "551-J02", BOND_STATE_FAIL);
  g_assert_cmpint (hangar_result (h, "551-J02")->last->caution, ==, BOND_REASON_BELOW_METAL);
}

int
main (int argc, char *argv[])
{
  g_test_init (&argc, &argv, NULL);
  g_test_add_func ("/core/conductor/resistance", test_resistance);
  g_test_add_func ("/core/conductor/unknown", test_unknown);
  g_test_add_func ("/core/conductor/compare", test_compare);
  g_test_add_func ("/core/conductor/cases", test_cases);
  g_test_add_func ("/core/conductor/fail-stands", test_fail_stands);
  return g_test_run ();
}
