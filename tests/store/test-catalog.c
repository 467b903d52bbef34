/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * The catalogue: what is shipped is whole and every name in it leads somewhere, and
 * a library folder adds to it and replaces it.
 */
#include "store/catalog.h"
#include "store/register-file.h"

#include <glib/gstdio.h>

typedef struct
{
  GPtrArray *problems;
  BondCatalog *catalog;
  char *folder;
} Fixture;

static void
set_up (Fixture *fixture, gconstpointer data)
{
  fixture->folder = g_dir_make_tmp ("bond-catalog-XXXXXX", NULL);
  fixture->problems = g_ptr_array_new_with_free_func ((GDestroyNotify)bond_problem_free);
  fixture->catalog = bond_catalog_new (fixture->folder, fixture->problems);
}

static void
remove_all (const char *path)
{
  g_autoptr (GDir) dir = g_dir_open (path, 0, NULL);
  const char *name;

  while (dir != NULL && (name = g_dir_read_name (dir)) != NULL)
    {
      g_autofree char *child = g_build_filename (path, name, NULL);

      remove_all (child);
    }
  g_remove (path);
}

static void
tear_down (Fixture *fixture, gconstpointer data)
{
  bond_catalog_free (fixture->catalog);
  g_ptr_array_unref (fixture->problems);
  remove_all (fixture->folder);
  g_free (fixture->folder);
}

static void
reopen (Fixture *fixture)
{
  bond_catalog_free (fixture->catalog);
  g_ptr_array_set_size (fixture->problems, 0);
  fixture->catalog = bond_catalog_new (fixture->folder, fixture->problems);
}

static void
test_shipped_counts (Fixture *fixture, gconstpointer data)
{
  static const struct
  {
    BondAdoptKind what;
    guint n;
  } counts[] = { { BOND_ADOPT_AIRFRAME, 4 },
                 { BOND_ADOPT_LIMIT_SET, 8 },
                 { BOND_ADOPT_INSTRUMENT, 7 },
                 { BOND_ADOPT_PERSON, 0 },
                 { BOND_ADOPT_HOUSE, 1 } };
  gsize i;

  g_assert_cmpint (fixture->problems->len, ==, 0);
  for (i = 0; i < G_N_ELEMENTS (counts); i++)
    {
      g_autoptr (GPtrArray) list = bond_catalog_list (fixture->catalog, counts[i].what);

      g_assert_cmpint (list->len, ==, counts[i].n);
    }
}

static void
test_points (Fixture *fixture, gconstpointer data)
{
  static const struct
  {
    const char *id;
    guint n, per_class[BOND_N_CLASSES];
  } table[] = {
    { "generic-jet-transport", 96, { 29, 22, 21, 24 } },
    { "generic-turboprop", 81, { 26, 18, 18, 19 } },
    { "generic-light-piston", 68, { 18, 16, 16, 18 } },
    { "generic-helicopter", 73, { 22, 16, 16, 19 } },
  };
  g_autoptr (GHashTable) ids = g_hash_table_new (g_str_hash, g_str_equal);
  gsize i;
  guint j;

  for (i = 0; i < G_N_ELEMENTS (table); i++)
    {
      const BondAirframe *airframe = bond_catalog_find (fixture->catalog, BOND_ADOPT_AIRFRAME, table[i].id);
      guint per_class[BOND_N_CLASSES] = { 0 };

      g_assert_cmpint (airframe->points->len, ==, table[i].n);
      for (j = 0; j < airframe->points->len; j++)
        {
          const BondPointSpec *spec = g_ptr_array_index (airframe->points, j);

          per_class[spec->klass]++;
          g_assert_true (g_hash_table_add (ids, spec->id)); /* unique over all airframes */
          g_assert_true (g_regex_match_simple ("^q-[0-9a-f]{32}$", spec->id, 0, 0));
          g_assert_true (spec->from_template && spec->why != NULL && spec->watch != NULL && spec->basis != NULL);
          g_assert_nonnull (bond_point_spec_home (spec));
        }
      g_assert_cmpmem (per_class, sizeof per_class, table[i].per_class, sizeof per_class);
    }
  g_assert_cmpint (g_hash_table_size (ids), ==, 318);
}

/* A public row stands only where its document is cited, and the other way round. */
static void
check_basis (const BondPointSpec *spec)
{
  static const struct
  {
    const char *cited, *limit;
  } rows[] = {
    { "AC 43.13-1B par. 11-188f", "ac-43-13-1b/FAA-FRAME" },
    { "AC 43.13-1B par. 11-189", "ac-43-13-1b/FAA-JUMPER" },
    { "AC 43.13-1B par. 11-187c", "ac-43-13-1b/FAA-STATIC" },
    { "MIL-HDBK-274A par. 5.10", "mil-hdbk-274a/HDBK-GND" },
  };
  gsize i;

  for (i = 0; i < G_N_ELEMENTS (rows); i++)
    if (g_str_has_prefix (spec->basis, rows[i].cited))
      {
        g_assert_cmpstr (spec->limit, ==, rows[i].limit);
        return;
      }
  g_assert_true (g_str_has_prefix (spec->limit, "example/"));
}

static void
test_references (Fixture *fixture, gconstpointer data)
{
  g_autoptr (GPtrArray) sets = bond_catalog_list (fixture->catalog, BOND_ADOPT_LIMIT_SET);
  g_autoptr (GPtrArray) airframes = bond_catalog_list (fixture->catalog, BOND_ADOPT_AIRFRAME);
  guint i, j, pairs = 0;

  for (i = 0; i < airframes->len; i++)
    {
      const BondAirframe *airframe = g_ptr_array_index (airframes, i);

      for (j = 0; j < airframe->points->len; j++)
        {
          const BondPointSpec *spec = g_ptr_array_index (airframe->points, j);
          const BondLimitRow *row = bond_limit_lookup (sets, NULL, spec->limit, spec->klass, NULL);

          g_assert_nonnull (row);
          g_assert_true (row->klass == BOND_CLASS_ANY || row->klass == (int)spec->klass);
          g_assert_true (bond_airframe_is_within (airframe, spec->zone, spec->zone));
          check_basis (spec);
          pairs += row->pair;
        }
    }
  g_assert_cmpint (pairs, ==, 37); /* structure in lightning paths */
}

/* Public values of standards.md section 11, each as its document writes it. */
static void
test_public_rows (Fixture *fixture, gconstpointer data)
{
  static const struct
  {
    const char *set, *code, *bounds;
    gboolean verified;
  } table[] = {
    { "ac-43-13-1b", "FAA-FRAME", "<0.0025", TRUE },             /* AC 43.13-1B, 11-188f */
    { "ac-43-13-1b", "FAA-JUMPER", "<=0.003", TRUE },            /* AC 43.13-1B, 11-189 */
    { "ac-43-13-1b", "FAA-STATIC", "<1", TRUE },                 /* AC 43.13-1B, 11-187c */
    { "tm-1-1500-204-23-4", "TM-FRAME", "<0.1", TRUE },          /* "Bonds", item k */
    { "mil-hdbk-274a", "HDBK-GND", "<0.1", TRUE },               /* 5.10 */
    { "to-00-25-172", "TO-GND", "<=1", TRUE },                   /* receptacle check */
    { "mil-hdbk-419a", "GE-CONN", "<=0.001", TRUE },             /* volume II, 3.7.2 */
    { "airworthiness-directives", "AD-PUMP", "<=0.0025", TRUE }, /* AD 2007-19-02 (f) */
    { "airworthiness-directives", "AD-VENT", "<=0.0025", TRUE }, /* AD/B717/20 note 1 */
    { "airworthiness-directives", "AD-PANEL", "<=0.1", TRUE },   /* AD 2020-17-08 (g)(1) */
    { "airworthiness-directives", "ABSENT", "", TRUE },          /* AD 2023-01-09 */
    { "unverified", "M464-ENC", "<=0.01", FALSE },               /* the rest from memory */
    { "unverified", "M464-SHLD", "<=0.015", FALSE },
    { "unverified", "M464-FAY", "<=0.0025", FALSE },
    { "unverified", "M464-JACK", "<=1", FALSE },
    { "unverified", "M5087-H", "<0.1", FALSE },
    { "unverified", "M5087-R", "<=0.0025", FALSE },
    { "unverified", "M5087-S", "<1", FALSE },
    { "unverified", "N4003-H", "<=0.1", FALSE },
    { "unverified", "N4003-R", "<=0.0025", FALSE },
    { "unverified", "N4003-S", "<=1", FALSE },
    { "unverified", "UK-P1", "<=0.05", FALSE },
    { "unverified", "UK-S1", "<=1", FALSE },
  };
  g_autoptr (GPtrArray) sets = bond_catalog_list (fixture->catalog, BOND_ADOPT_LIMIT_SET);
  gsize i, rows = 0;

  for (i = 0; i < G_N_ELEMENTS (table); i++)
    {
      const BondLimitSet *set = bond_catalog_find (fixture->catalog, BOND_ADOPT_LIMIT_SET, table[i].set);
      const BondLimitRow *row = bond_limit_set_find (set, table[i].code);
      g_autofree char *bounds = bond_bounds_to_file (&row->in_service);

      g_assert_cmpstr (bounds, ==, table[i].bounds);
      g_assert_cmpint (row->verified, ==, table[i].verified);
      g_assert_false (row->has_strict || row->is_default);
      g_assert_nonnull (row->document);
    }
  for (i = 0; i < sets->len; i++)
    {
      const BondLimitSet *set = g_ptr_array_index (sets, i);

      g_assert_cmpint (set->invented, ==, g_str_equal (set->id, "example"));
      g_assert_cmpint (set->enabled, ==, set->invented); /* public rows are switched off at first */
      g_assert_nonnull (strstr (set->note, "maker's data"));
      rows += set->invented ? 0 : set->rows->len;
    }
  g_assert_cmpint (rows, ==, G_N_ELEMENTS (table)); /* and no other row is shipped */
}

/* Invented: "Example manual 20-51, revision 7". */
static void
test_example_rows (Fixture *fixture, gconstpointer data)
{
  static const struct
  {
    const char *code, *in_service, *strict;
  } table[] = {
    { "J1", "<=0.005", "<=0.0025" },
    { "J2", "<=0.0025", NULL },
    { "F1", "<=0.003", "<=0.0025" },
    { "T1", "<=0.1", "<=0.05" },
    { "T2", ">=100000 <=100000000", NULL },
    { "T3", "", NULL },
    { "E1", "<0.0025", NULL },
    { "P1", "<=0.01", NULL },
  };
  const BondLimitSet *set = bond_catalog_find (fixture->catalog, BOND_ADOPT_LIMIT_SET, "example");
  guint i, defaults = 0;

  for (i = 0; i < G_N_ELEMENTS (table); i++)
    {
      const BondLimitRow *row = bond_limit_set_find (set, table[i].code);
      g_autofree char *in_service = bond_bounds_to_file (&row->in_service);
      g_autofree char *strict = row->has_strict ? bond_bounds_to_file (&row->strict) : NULL;

      g_assert_cmpstr (in_service, ==, table[i].in_service);
      g_assert_cmpstr (strict, ==, table[i].strict);
      g_assert_cmpstr (row->revision, ==, "revision 7");
    }
  for (i = 0; i < set->rows->len; i++)
    {
      const BondLimitRow *row = g_ptr_array_index (set->rows, i);

      defaults += row->is_default;
      g_assert_true (row->pair == FALSE || row->klass == BOND_CLASS_STRUCTURE);
    }
  g_assert_cmpint (defaults, ==, BOND_N_CLASSES);
}

/* Invented: the ranges and figures of the example instruments. */
static void
test_instruments (Fixture *fixture, gconstpointer data)
{
  static const struct
  {
    const char *id;
    BondReversal reversal;
    gboolean vapour;
    gint64 microampere_30m;
  } meters[] = {
    { "i-mo-1", BOND_REVERSAL_BY_HAND, FALSE, 10000000 },
    { "i-mo-2", BOND_REVERSAL_SHOWS_MINUS, FALSE, 100000 },
    { "i-mo-3", BOND_REVERSAL_BY_HAND, TRUE, 1000000 },
    { "i-mo-5", BOND_REVERSAL_BY_ITSELF, FALSE, 10000000 },
  };
  const BondInstrument *check;
  gsize i;

  for (i = 0; i < G_N_ELEMENTS (meters); i++)
    {
      const BondInstrument *meter = bond_catalog_find (fixture->catalog, BOND_ADOPT_INSTRUMENT, meters[i].id);
      const BondRange *range = bond_instrument_range_for (meter, 2500000 * 2);

      g_assert_cmpint (meter->reversal, ==, meters[i].reversal);
      g_assert_cmpint (meter->vapour_approved, ==, meters[i].vapour);
      g_assert_cmpint (meter->ranges->len, ==, 4);
      g_assert_cmpstr (range->id, ==, "30m");
      g_assert_cmpint (range->microampere, ==, meters[i].microampere_30m);
      g_assert_cmpint (range->step, ==, 10000);
      g_assert_cmpfloat (bond_range_half_width (range, 2400000), ==, 6000 + 10000); /* 0.25 % + 0.010 mΩ */
      g_assert_cmpfloat (meter->certificate_k, ==, 2);
      g_assert_cmpint (meter->certificate_ppm, ==, 1000);
    }
  check = bond_catalog_find (fixture->catalog, BOND_ADOPT_INSTRUMENT, "i-rs-1");
  g_assert_cmpint (check->nominal, ==, 1000200);
  g_assert_cmpint (check->certificate_nohm, ==, 1500);
}

static void
test_save_and_find (Fixture *fixture, gconstpointer data)
{
  g_autoptr (BondPerson) first = bond_person_new ("p-a", 1, "Zoe", NULL, NULL);
  g_autoptr (BondPerson) second = bond_person_new ("p-b", 1, "Adam", NULL, NULL);
  g_autoptr (GError) error = NULL;
  g_autoptr (GPtrArray) list = NULL;

  g_assert_true (bond_catalog_save (fixture->catalog, BOND_ADOPT_PERSON, first, &error));
  g_assert_true (bond_catalog_save (fixture->catalog, BOND_ADOPT_PERSON, second, &error));
  g_assert_no_error (error);
  reopen (fixture);
  g_assert_cmpint (fixture->problems->len, ==, 0);
  list = bond_catalog_list (fixture->catalog, BOND_ADOPT_PERSON);
  g_assert_cmpint (list->len, ==, 2);
  g_assert_cmpstr (((BondPerson *)g_ptr_array_index (list, 0))->name, ==, "Adam");
  g_assert_null (bond_catalog_find (fixture->catalog, BOND_ADOPT_PERSON, "p-c"));
}

static void
test_revisions (Fixture *fixture, gconstpointer data)
{
  static const struct
  {
    int revision;
    gboolean fine;
  } steps[] = { { 1, FALSE }, { 2, TRUE }, { 2, FALSE }, { 1, FALSE }, { 5, TRUE } };
  gsize i;

  /* revision 1 of the example set is shipped */
  for (i = 0; i < G_N_ELEMENTS (steps); i++)
    {
      g_autoptr (BondLimitSet) set = bond_limit_set_new ("example", steps[i].revision, "Ours");
      g_autoptr (GError) error = NULL;

      g_assert_cmpint (bond_catalog_save (fixture->catalog, BOND_ADOPT_LIMIT_SET, set, &error), ==, steps[i].fine);
      if (!steps[i].fine)
        g_assert_error (error, BOND_STORE_ERROR, BOND_STORE_ERROR_CHANGED);
    }
  reopen (fixture);
  g_assert_cmpint (((BondLimitSet *)bond_catalog_find (fixture->catalog, BOND_ADOPT_LIMIT_SET, "example"))->revision,
                   ==, 5);
}

/* Another window saved in between: the file decides, not what this one had read. */
static void
test_somebody_else (Fixture *fixture, gconstpointer data)
{
  g_autoptr (BondCatalog) other = bond_catalog_new (fixture->folder, NULL);
  g_autoptr (BondPerson) theirs = bond_person_new ("p", 1, "Theirs", NULL, NULL);
  g_autoptr (BondPerson) ours = bond_person_new ("p", 1, "Ours", NULL, NULL);
  g_autoptr (GError) error = NULL;

  g_assert_true (bond_catalog_save (other, BOND_ADOPT_PERSON, theirs, NULL));
  g_assert_false (bond_catalog_save (fixture->catalog, BOND_ADOPT_PERSON, ours, &error));
  g_assert_error (error, BOND_STORE_ERROR, BOND_STORE_ERROR_CHANGED);
  reopen (fixture);
  g_assert_cmpstr (((BondPerson *)bond_catalog_find (fixture->catalog, BOND_ADOPT_PERSON, "p"))->name, ==, "Theirs");
}

static void
test_bad_files (Fixture *fixture, gconstpointer data)
{
  g_autofree char *people = g_build_filename (fixture->folder, "people", NULL);
  g_autofree char *broken = g_build_filename (people, "broken.xml", NULL);
  g_autofree char *wrong = g_build_filename (people, "wrong.xml", NULL);
  g_autofree char *other = g_build_filename (people, "notes.txt", NULL);
  g_autoptr (BondHouse) house = bond_house_new ("h", 1, "H");
  g_autoptr (BondPerson) person = bond_person_new ("p", 1, "P", NULL, NULL);

  g_assert_true (bond_catalog_save (fixture->catalog, BOND_ADOPT_PERSON, person, NULL));
  g_assert_true (g_file_set_contents (broken, "<person", -1, NULL));
  g_assert_true (g_file_set_contents (other, "<person", -1, NULL));
  g_assert_true (bond_register_save (wrong, BOND_ADOPT_HOUSE, house, NULL));
  reopen (fixture);
  g_assert_cmpint (fixture->problems->len, ==, 2);
  g_assert_nonnull (bond_catalog_find (fixture->catalog, BOND_ADOPT_PERSON, "p"));
  g_assert_null (bond_catalog_find (fixture->catalog, BOND_ADOPT_HOUSE, "h"));
}

static void
test_refused_saves (Fixture *fixture, gconstpointer data)
{
  g_autoptr (BondCatalog) no_folder = bond_catalog_new (NULL, NULL);
  g_autoptr (BondPerson) person = bond_person_new ("p", 1, "P", NULL, NULL);
  g_autoptr (BondPerson) climber = bond_person_new ("../../p", 1, "P", NULL, NULL);
  g_autoptr (GError) error = NULL;

  g_assert_false (bond_catalog_save (no_folder, BOND_ADOPT_PERSON, person, &error));
  g_assert_error (error, BOND_STORE_ERROR, BOND_STORE_ERROR_WRITE);
  g_clear_error (&error);
  g_assert_false (bond_catalog_save (fixture->catalog, BOND_ADOPT_PERSON, climber, &error));
  g_assert_error (error, BOND_STORE_ERROR, BOND_STORE_ERROR_SENSE);
}

int
main (int argc, char **argv)
{
  static const struct
  {
    const char *path;
    void (*run) (Fixture *fixture, gconstpointer data);
  } tests[] = {
    { "/catalog/shipped-counts", test_shipped_counts }, { "/catalog/points", test_points },
    { "/catalog/references", test_references },         { "/catalog/public-rows", test_public_rows },
    { "/catalog/example-rows", test_example_rows },     { "/catalog/instruments", test_instruments },
    { "/catalog/save-and-find", test_save_and_find },   { "/catalog/revisions", test_revisions },
    { "/catalog/somebody-else", test_somebody_else },   { "/catalog/bad-files", test_bad_files },
    { "/catalog/refused-saves", test_refused_saves },
  };
  gsize i;

  g_test_init (&argc, &argv, NULL);
  bond_xml_init ();
  for (i = 0; i < G_N_ELEMENTS (tests); i++)
    g_test_add (tests[i].path, Fixture, NULL, set_up, tests[i].run, tear_down);
  return g_test_run ();
}
