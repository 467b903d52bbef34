/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * Limit rows: what is sound, how it is written, and which one is found.
 */
#include "core/limit.h"

#define NBSP "\302\240"
#define LE BOND_RELATION_LE
#define LT BOND_RELATION_LT
#define GE BOND_RELATION_GE
#define GT BOND_RELATION_GT
#define NO BOND_RELATION_NONE

static BondLimitRow *
make_row (const char *code, int klass, BondOhm upper_nohm)
{
  BondLimitRow *row = bond_limit_row_new ();

  row->code = g_strdup (code);
  row->klass = klass;
  row->in_service.upper = (BondBound){ LE, upper_nohm, BOND_UNIT_MILLIOHM };
  return row;
}

static void
test_words (void)
{
  BondClass klass;
  BondRelation relation;
  BondCondition condition;
  BondMethod method;
  BondConnectors connectors;
  BondMounting mounting;
  int i;

  for (i = 0; i < BOND_N_CLASSES; i++)
    {
      g_assert_true (bond_class_parse (bond_class_file_name (i), &klass));
      g_assert_cmpint (klass, ==, i);
      g_assert_cmpint (bond_class_letter (i), ==, "JFTE"[i]);
      g_assert_true (bond_condition_parse (bond_condition_file_name (i), &condition));
      g_assert_cmpint (condition, ==, i);
      g_assert_true (bond_method_parse (bond_method_file_name (i), &method));
      g_assert_cmpint (method, ==, i);
      g_assert_true (bond_relation_parse (bond_relation_file_name (i + 1), &relation));
      g_assert_cmpint (relation, ==, i + 1);
    }
  for (i = 0; i < 3; i++)
    {
      g_assert_true (bond_connectors_parse (bond_connectors_file_name (i), &connectors));
      g_assert_cmpint (connectors, ==, i);
      g_assert_true (bond_mounting_parse (bond_mounting_file_name (i), &mounting));
      g_assert_cmpint (mounting, ==, i);
    }
  g_assert_cmpstr (bond_class_name (BOND_CLASS_FLUID_LINE), ==, "fluid line");
  g_assert_cmpstr (bond_condition_name (BOND_CONDITION_UNDISTURBED), ==, "in service");
  g_assert_cmpstr (bond_method_name (BOND_METHOD_ABSENT), ==, "must be absent");
  g_assert_cmpstr (bond_relation_symbol (LE), ==, "≤");
  g_assert_false (bond_class_parse ("Structure", &klass));
  g_assert_false (bond_relation_parse ("<=", &relation));
}

static void
test_format (void)
{
  static const struct
  {
    BondBounds bounds;
    char mark;
    const char *with_unit, *without, *file;
  } rows[] = {
    { { { LE, 2500000, BOND_UNIT_MILLIOHM }, { NO } }, '.', "≤" NBSP "2.5" NBSP "mΩ", "≤" NBSP "2.5", "<=0.0025" },
    { { { LT, 2500000, BOND_UNIT_MILLIOHM }, { NO } }, ',', "<" NBSP "2,5" NBSP "mΩ", "<" NBSP "2,5", "<0.0025" },
    { { { LT, 100000000, BOND_UNIT_OHM }, { NO } }, '.', "<" NBSP "0.1" NBSP "Ω", "<" NBSP "0.1", "<0.1" },
    { { { NO }, { GT, 100000000000000, BOND_UNIT_KILOOHM } },
      '.',
      ">" NBSP "100" NBSP "kΩ",
      ">" NBSP "100",
      ">100000" },
    { { { LE, 100000000000000000, BOND_UNIT_MEGOHM }, { GE, 100000000000000, BOND_UNIT_KILOOHM } },
      '.',
      "100" NBSP "kΩ" NBSP "≤" NBSP "R" NBSP "≤" NBSP "100" NBSP "MΩ",
      "0.1" NBSP "≤" NBSP "R" NBSP "≤" NBSP "100",
      ">=100000 <=100000000" },
    { { { LT, 2000000000, BOND_UNIT_OHM }, { GT, 1000000000, BOND_UNIT_OHM } },
      '.',
      "1" NBSP "Ω" NBSP "<" NBSP "R" NBSP "<" NBSP "2" NBSP "Ω",
      "1" NBSP "<" NBSP "R" NBSP "<" NBSP "2",
      ">1 <2" },
    { { { NO }, { NO } }, '.', "", "", "" },
  };
  gsize i;

  for (i = 0; i < G_N_ELEMENTS (rows); i++)
    {
      g_autofree char *with_unit = bond_bounds_format (&rows[i].bounds, rows[i].mark, TRUE);
      g_autofree char *without = bond_bounds_format (&rows[i].bounds, rows[i].mark, FALSE);
      g_autofree char *file = bond_bounds_to_file (&rows[i].bounds);

      g_assert_cmpstr (with_unit, ==, rows[i].with_unit);
      g_assert_cmpstr (without, ==, rows[i].without);
      g_assert_cmpstr (file, ==, rows[i].file);
    }
}

static const struct
{
  const char *code;
  int klass;
  BondMethod method;
  BondBounds in_service;
  gboolean has_strict;
  BondBounds strict;
  gboolean sound;
} check_rows[] = {
  { "J1", BOND_CLASS_ANY, BOND_METHOD_FOUR_TERMINAL, { { LE, 5 }, { NO } }, TRUE, { { LE, 3 }, { NO } }, TRUE },
  { "J1", BOND_CLASS_ANY, BOND_METHOD_FOUR_TERMINAL, { { LE, 5 }, { NO } }, TRUE, { { LE, 5 }, { NO } }, TRUE },
  { "J1", BOND_CLASS_ANY, BOND_METHOD_FOUR_TERMINAL, { { LE, 5 }, { NO } }, TRUE, { { LE, 6 }, { NO } }, FALSE },
  /* at one value the stricter tier may not be the one that lets it pass */
  { "J1", BOND_CLASS_ANY, BOND_METHOD_FOUR_TERMINAL, { { LT, 5 }, { NO } }, TRUE, { { LE, 5 }, { NO } }, FALSE },
  { "J1", BOND_CLASS_ANY, BOND_METHOD_FOUR_TERMINAL, { { LT, 5 }, { NO } }, TRUE, { { LT, 5 }, { NO } }, TRUE },
  { "J1", BOND_CLASS_ANY, BOND_METHOD_FOUR_TERMINAL, { { LE, 5 }, { NO } }, TRUE, { { LT, 5 }, { NO } }, TRUE },
  { "J1", BOND_CLASS_ANY, BOND_METHOD_MEGOHMMETER, { { NO }, { GT, 5 } }, TRUE, { { NO }, { GE, 5 } }, FALSE },
  { "J1", BOND_CLASS_ANY, BOND_METHOD_MEGOHMMETER, { { NO }, { GE, 5 } }, TRUE, { { NO }, { GT, 5 } }, TRUE },
  { "J1", BOND_CLASS_ANY, BOND_METHOD_FOUR_TERMINAL, { { LE, 5 }, { NO } }, TRUE, { { NO }, { NO } }, FALSE },
  { "J1", BOND_CLASS_ANY, BOND_METHOD_FOUR_TERMINAL, { { LE, 5 }, { GE, 2 } }, TRUE, { { LE, 4 }, { NO } }, FALSE },
  { "J1", BOND_CLASS_ANY, BOND_METHOD_FOUR_TERMINAL, { { LE, 5 }, { GE, 2 } }, TRUE, { { LE, 4 }, { GE, 1 } }, FALSE },
  { "", BOND_CLASS_ANY, BOND_METHOD_FOUR_TERMINAL, { { LE, 5 }, { NO } }, FALSE, { { NO }, { NO } }, FALSE },
  { "a/b", BOND_CLASS_ANY, BOND_METHOD_FOUR_TERMINAL, { { LE, 5 }, { NO } }, FALSE, { { NO }, { NO } }, FALSE },
  { NULL, BOND_CLASS_ANY, BOND_METHOD_FOUR_TERMINAL, { { LE, 5 }, { NO } }, FALSE, { { NO }, { NO } }, FALSE },
  { "J1", 4, BOND_METHOD_FOUR_TERMINAL, { { LE, 5 }, { NO } }, FALSE, { { NO }, { NO } }, FALSE },
  { "J1", -2, BOND_METHOD_FOUR_TERMINAL, { { LE, 5 }, { NO } }, FALSE, { { NO }, { NO } }, FALSE },
  { "J1", BOND_CLASS_ANY, BOND_METHOD_FOUR_TERMINAL, { { NO }, { NO } }, FALSE, { { NO }, { NO } }, FALSE },
  { "J1", BOND_CLASS_ANY, BOND_METHOD_FOUR_TERMINAL, { { LE, 0 }, { NO } }, FALSE, { { NO }, { NO } }, FALSE },
  { "J1", BOND_CLASS_ANY, BOND_METHOD_FOUR_TERMINAL, { { LE, -5 }, { NO } }, FALSE, { { NO }, { NO } }, FALSE },
  { "J1", BOND_CLASS_ANY, BOND_METHOD_FOUR_TERMINAL, { { GE, 5 }, { NO } }, FALSE, { { NO }, { NO } }, FALSE },
  { "J1", BOND_CLASS_ANY, BOND_METHOD_MEGOHMMETER, { { NO }, { LE, 5 } }, FALSE, { { NO }, { NO } }, FALSE },
  { "J1", BOND_CLASS_ANY, BOND_METHOD_MEGOHMMETER, { { LE, 5 }, { GE, 5 } }, FALSE, { { NO }, { NO } }, FALSE },
  { "J1", BOND_CLASS_ANY, BOND_METHOD_MEGOHMMETER, { { LE, 5 }, { GE, 6 } }, FALSE, { { NO }, { NO } }, FALSE },
  { "T2", BOND_CLASS_FLUID_LINE, BOND_METHOD_MEGOHMMETER, { { LE, 6 }, { GE, 5 } }, FALSE, { { NO }, { NO } }, TRUE },
  { "T3", BOND_CLASS_FLUID_LINE, BOND_METHOD_ABSENT, { { NO }, { NO } }, FALSE, { { NO }, { NO } }, TRUE },
  { "V1", BOND_CLASS_STRUCTURE, BOND_METHOD_VISUAL, { { NO }, { NO } }, FALSE, { { NO }, { NO } }, TRUE },
  { "V1", BOND_CLASS_STRUCTURE, BOND_METHOD_VISUAL, { { LE, 5 }, { NO } }, FALSE, { { NO }, { NO } }, FALSE },
};

static void
test_check (void)
{
  gsize i;

  for (i = 0; i < G_N_ELEMENTS (check_rows); i++)
    {
      g_autoptr (BondLimitRow) row = bond_limit_row_new ();
      g_autoptr (GError) error = NULL;

      g_test_message ("row %" G_GSIZE_FORMAT, i);
      row->code = g_strdup (check_rows[i].code);
      row->klass = check_rows[i].klass;
      row->method = check_rows[i].method;
      row->in_service = check_rows[i].in_service;
      row->has_strict = check_rows[i].has_strict;
      row->strict = check_rows[i].strict;
      g_assert_cmpint (bond_limit_row_check (row, &error), ==, check_rows[i].sound);
      g_assert_cmpint (error == NULL, ==, check_rows[i].sound);
    }
}

/* scenarios.md 1: in service 5.0, opened, new or reworked 2.5 mΩ; a row without a second tier has one value. */
static void
test_tiers (void)
{
  g_autoptr (BondLimitRow) row = make_row ("J1", BOND_CLASS_STRUCTURE, 5000000);

  g_assert_cmpint (bond_limit_row_bounds (row, BOND_CONDITION_REWORKED)->upper.nohm, ==, 5000000);
  row->has_strict = TRUE;
  row->strict.upper = (BondBound){ LE, 2500000, BOND_UNIT_MILLIOHM };
  g_assert_cmpint (bond_limit_row_bounds (row, BOND_CONDITION_UNDISTURBED)->upper.nohm, ==, 5000000);
  g_assert_cmpint (bond_limit_row_bounds (row, BOND_CONDITION_OPENED)->upper.nohm, ==, 2500000);
  g_assert_cmpint (bond_limit_row_bounds (row, BOND_CONDITION_NEW)->upper.nohm, ==, 2500000);
  g_assert_cmpint (bond_limit_row_bounds (row, BOND_CONDITION_REWORKED)->upper.nohm, ==, 2500000);
}

static void
test_add (void)
{
  g_autoptr (BondLimitSet) set = bond_limit_set_new ("example", 7, "Example manual 20-51");
  g_autoptr (GError) error = NULL;

  g_assert_true (set->enabled);
  g_assert_true (bond_limit_set_add (set, make_row ("J1", BOND_CLASS_STRUCTURE, 5000000), NULL));
  g_assert_false (bond_limit_set_add (set, make_row ("J1", BOND_CLASS_FASTENER, 3000000), &error));
  g_assert_error (error, BOND_LIMIT_ERROR, BOND_LIMIT_ERROR_UNSOUND);
  g_assert_nonnull (strstr (error->message, "“J1”"));
  g_assert_false (bond_limit_set_add (set, make_row ("J2", BOND_CLASS_FASTENER, -3000000), NULL));
  g_assert_cmpuint (set->rows->len, ==, 1);
  g_assert_null (bond_limit_set_find (set, "j1"));
}

/* A point's own row outlives the set it was copied from, and a set the survey that adopted it. */
static void
test_shared (void)
{
  BondLimitSet *set = bond_limit_set_new ("example", 1, "Example");
  BondLimitRow *row = make_row ("J1", BOND_CLASS_STRUCTURE, 5000000);
  g_autoptr (BondLimitRow) kept_row = bond_limit_row_ref (row);
  g_autoptr (BondLimitSet) kept_set = bond_limit_set_ref (set);

  g_assert_true (bond_limit_set_add (set, row, NULL));
  bond_limit_set_unref (set);
  g_assert_true (bond_limit_set_find (kept_set, "J1") == kept_row);
  g_clear_pointer (&kept_set, bond_limit_set_unref);
  g_assert_cmpstr (kept_row->code, ==, "J1");
}

static void
test_lookup (void)
{
  g_autoptr (GPtrArray) sets = g_ptr_array_new_with_free_func ((GDestroyNotify)bond_limit_set_unref);
  g_autoptr (BondLimitRow) own = make_row ("own", BOND_CLASS_ANY, 1000000);
  BondLimitSet *off = bond_limit_set_new ("public", 1, "Switched off");
  BondLimitSet *example = bond_limit_set_new ("example", 1, "Example");
  BondLimitSet *other = bond_limit_set_new ("example-2", 1, "Other");
  BondLimitRow *faying = make_row ("J2", BOND_CLASS_STRUCTURE, 2500000);
  BondLimitRow *hidden = make_row ("J2", BOND_CLASS_STRUCTURE, 3000000);
  BondLimitRow *later = make_row ("J2", BOND_CLASS_STRUCTURE, 4000000);
  BondLimitSet *set = NULL;

  off->enabled = FALSE;
  hidden->is_default = faying->is_default = later->is_default = TRUE;
  g_assert_true (bond_limit_set_add (off, hidden, NULL));
  g_assert_true (bond_limit_set_add (example, make_row ("J1", BOND_CLASS_STRUCTURE, 5000000), NULL));
  g_assert_true (bond_limit_set_add (example, faying, NULL));
  g_assert_true (bond_limit_set_add (other, later, NULL));
  g_ptr_array_add (sets, off);
  g_ptr_array_add (sets, example);
  g_ptr_array_add (sets, other);

  g_assert_true (bond_limit_lookup (sets, own, "example/J2", BOND_CLASS_STRUCTURE, &set) == own);
  g_assert_null (set);
  g_assert_true (bond_limit_lookup (sets, NULL, "J2", BOND_CLASS_STRUCTURE, &set) == faying);
  g_assert_true (set == example);
  g_assert_true (bond_limit_lookup (sets, NULL, "public/J2", BOND_CLASS_STRUCTURE, &set) == hidden);
  g_assert_true (set == off);
  g_assert_true (bond_limit_lookup (sets, NULL, "example-2/J2", BOND_CLASS_STRUCTURE, NULL) == later);
  g_assert_true (bond_limit_lookup (sets, NULL, NULL, BOND_CLASS_STRUCTURE, &set) == faying);
  g_assert_true (set == example);
  /* A name that is not found never falls back to another limit. */
  g_assert_null (bond_limit_lookup (sets, NULL, "J9", BOND_CLASS_STRUCTURE, &set));
  g_assert_null (set);
  g_assert_null (bond_limit_lookup (sets, NULL, "example/J9", BOND_CLASS_STRUCTURE, &set));
  g_assert_null (bond_limit_lookup (sets, NULL, "exam/J2", BOND_CLASS_STRUCTURE, &set));
  g_assert_null (bond_limit_lookup (sets, NULL, "", BOND_CLASS_STRUCTURE, &set));
  g_assert_null (bond_limit_lookup (sets, NULL, NULL, BOND_CLASS_EQUIPMENT, &set));
  g_assert_null (bond_limit_lookup (NULL, NULL, "J2", BOND_CLASS_STRUCTURE, &set));
}

int
main (int argc, char **argv)
{
  g_test_init (&argc, &argv, NULL);
  g_test_add_func ("/core/limit/words", test_words);
  g_test_add_func ("/core/limit/format", test_format);
  g_test_add_func ("/core/limit/check", test_check);
  g_test_add_func ("/core/limit/tiers", test_tiers);
  g_test_add_func ("/core/limit/add", test_add);
  g_test_add_func ("/core/limit/shared", test_shared);
  g_test_add_func ("/core/limit/lookup", test_lookup);
  return g_test_run ();
}
