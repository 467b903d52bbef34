/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * Entries and point specs as data: words of the files go there and back, copies own
 * what they hold (the address sanitizer watches), nonsense points are refused.
 */
#include "core/entry.h"
#include <math.h>

/* Each enumeration's words: there and back, all different, and nothing near them accepted. */
#define CHECK_WORDS(Type, n, file_name, parse)                                                                         \
  G_STMT_START                                                                                                         \
  {                                                                                                                    \
    g_autoptr (GHashTable) seen = g_hash_table_new (g_str_hash, g_str_equal);                                          \
    Type value;                                                                                                        \
    for (int w = 0; w < (n); w++)                                                                                      \
      {                                                                                                                \
        const char *word = file_name ((Type)w);                                                                        \
        g_assert_nonnull (word);                                                                                       \
        g_assert_true (g_hash_table_add (seen, (gpointer)word));                                                       \
        g_assert_true (parse (word, &value));                                                                          \
        g_assert_cmpint ((int)value, ==, w);                                                                           \
      }                                                                                                                \
    g_assert_false (parse ("", &value));                                                                               \
    g_assert_false (parse ("Forward", &value));                                                                        \
    g_assert_false (parse ("other ", &value));                                                                         \
  }                                                                                                                    \
  G_STMT_END

static const char *
kind_name (BondEntryKind kind)
{
  g_assert_cmpint ((int)bond_entry_kind_info (kind)->kind, ==, (int)kind);
  return bond_entry_kind_info (kind)->name;
}

static void
test_words (void)
{
  int i;

  CHECK_WORDS (BondEntryKind, BOND_N_ENTRY_KINDS, kind_name, bond_entry_kind_parse);
  CHECK_WORDS (BondDirection, 3, bond_direction_file_name, bond_direction_parse);
  CHECK_WORDS (BondVoidReason, 6, bond_void_reason_file_name, bond_void_reason_parse);
  CHECK_WORDS (BondPointMark, 5, bond_point_mark_file_name, bond_point_mark_parse);
  CHECK_WORDS (BondDispositionKind, 3, bond_disposition_file_name, bond_disposition_parse);
  CHECK_WORDS (BondVisualFinding, BOND_N_VISUAL_FINDINGS, bond_visual_file_name, bond_visual_parse);
  for (i = 0; i < BOND_N_REWORK_DONE; i++)
    {
      BondReworkDone one;
      g_assert_true (bond_rework_done_parse (bond_rework_done_file_name (1 << i), &one));
      g_assert_cmpint ((int)one, ==, 1 << i);
      g_assert_nonnull (bond_rework_done_name (1 << i));
    }
  CHECK_WORDS (BondArrangement, 3, bond_arrangement_file_name, bond_arrangement_parse);
  g_assert_cmpstr (bond_entry_kind_info (BOND_ENTRY_TAKE_BACK)->name, ==, "take-back");
  g_assert_false (bond_entry_kind_info (BOND_ENTRY_SEEN)->content);
}

static void
test_hazards (void)
{
  static const struct
  {
    const char *text;
    gboolean good;
    guint set;
  } rows[] = {
    { NULL, TRUE, 0 },
    { "", TRUE, 0 },
    { "fuel-vapour", TRUE, BOND_HAZARD_FUEL_VAPOUR },
    { "composite fuel-vapour", TRUE, BOND_HAZARD_COMPOSITE | BOND_HAZARD_FUEL_VAPOUR },
    { "explosive-devices", TRUE, BOND_HAZARD_EXPLOSIVE },
    { "fuel-vapour fuel-vapour", FALSE, 0 },
    { "fuel-vapour  composite", FALSE, 0 },
    { "Fuel-vapour", FALSE, 0 },
    { "asbestos", FALSE, 0 },
  };
  guint i, set;

  for (i = 0; i < G_N_ELEMENTS (rows); i++)
    {
      set = 99;
      g_assert_cmpint (bond_hazards_parse (rows[i].text, &set), ==, rows[i].good);
      g_assert_cmpuint (set, ==, rows[i].good ? rows[i].set : 99);
    }
  for (set = 0; set < 1u << BOND_N_HAZARDS; set++)
    {
      g_autofree char *text = bond_hazards_to_file (set);
      guint again = 99;

      g_assert_true ((text == NULL) == (set == 0));
      g_assert_true (bond_hazards_parse (text, &again));
      g_assert_cmpuint (again, ==, set);
    }
}

/* The design's four reasons and nothing that could mean poor contact. */
static void
test_void_reasons (void)
{
  BondVoidReason why;

  g_assert_true (bond_void_reason_parse ("wrong-point", &why));
  g_assert_true (bond_void_reason_parse ("typing-slip", &why));
  g_assert_true (bond_void_reason_parse ("wrong-unit", &why));
  g_assert_true (bond_void_reason_parse ("instrument-fault", &why));
  g_assert_false (bond_void_reason_parse ("probe-contact", &why));
}

static void
test_reading (void)
{
  BondReading a = { .instrument = g_strdup ("MO-1"), .range = g_strdup ("30m"), .said = g_strdup ("pass") }, b = { 0 };
  BondTypedValue value = { .text = (char *)"1.84",
                           .unit = BOND_UNIT_MILLIOHM,
                           .quantity = { .nohm = 1840000, .rest = 1 },
                           .nanovolt = 5,
                           .microampere = 7 };

  bond_reading_set_typed (&a, &value);
  bond_reading_copy (&b, &a);
  bond_reading_clear (&a);
  g_assert_null (a.text);
  g_assert_cmpstr (b.text, ==, "1.84");
  g_assert_cmpstr (b.instrument, ==, "MO-1");
  g_assert_cmpint (b.quantity.nohm, ==, 1840000);
  g_assert_cmpint (b.quantity.rest, ==, 1);
  g_assert_cmpint (b.nanovolt, ==, 5);
  g_assert_cmpint (b.microampere, ==, 7);
  bond_reading_clear (&b);
}

static void
test_adopt (void)
{
  g_autoptr (BondPerson) person = bond_person_new ("p-lind", 1, "E. Lind", NULL, NULL);
  BondEntry *entry = bond_entry_adopt_new (BOND_ADOPT_PERSON, person);

  g_assert_cmpint (person->ref_count, ==, 2);
  bond_entry_unref (bond_entry_ref (entry));
  g_assert_cmpint (person->ref_count, ==, 2);
  bond_entry_unref (entry);
  g_assert_cmpint (person->ref_count, ==, 1);
}

static BondPointSpec *
make_spec (void)
{
  BondPointSpec *spec = bond_point_spec_new ("q-1", "541-J04", BOND_CLASS_STRUCTURE, "541");

  g_free (spec->from);
  g_free (spec->to);
  spec->from = g_strdup ("flap track 2");
  spec->to = g_strdup ("rear spar");
  bond_point_spec_add_placement (spec, "plan-lower", 1, 2, FALSE, NULL);
  bond_point_spec_add_placement (spec, "front", 3, 4, TRUE, "500");
  return spec;
}

static void
test_spec_copy (void)
{
  BondPointSpec *spec = make_spec ();
  g_autoptr (BondPointSpec) copy = NULL;

  spec->own_limit = bond_limit_row_new ();
  spec->why = g_strdup ("lightning static");
  copy = bond_point_spec_copy (spec);
  bond_point_spec_unref (spec);
  g_assert_cmpint (copy->ref_count, ==, 1);
  g_assert_cmpstr (copy->why, ==, "lightning static");
  g_assert_cmpuint (copy->placements->len, ==, 2);
  g_assert_cmpstr (bond_point_spec_home (copy)->view, ==, "front");
  g_assert_cmpstr (bond_point_spec_home (copy)->drawn_zone, ==, "500");
  g_assert_cmpfloat (bond_point_spec_in_view (copy, "plan-lower")->y, ==, 2);
  g_assert_null (bond_point_spec_in_view (copy, "side-left"));
}

static void
spoil_number (BondPointSpec *spec)
{
  strchr (spec->number, '-')[0] = 'x';
}

static void
spoil_from (BondPointSpec *spec)
{
  spec->from[0] = '\0';
}

static void
spoil_sta (BondPointSpec *spec)
{
  spec->sta = (BondCoordinate){ .known = TRUE, .value = NAN };
}

static void
spoil_placement (BondPointSpec *spec)
{
  bond_point_spec_add_placement (spec, "front", INFINITY, 0, FALSE, NULL);
}

static void
spoil_class (BondPointSpec *spec)
{
  spec->klass = BOND_N_CLASSES;
}

static void
spoil_zone (BondPointSpec *spec)
{
  spec->zone[0] = '\0';
}

static void
test_spec_check (void)
{
  static void (*const spoil[]) (BondPointSpec *)
      = { spoil_number, spoil_from, spoil_sta, spoil_placement, spoil_class, spoil_zone };
  gsize i;

  for (i = 0; i <= G_N_ELEMENTS (spoil); i++)
    {
      g_autoptr (BondPointSpec) spec = make_spec ();
      g_autoptr (GError) error = NULL;
      if (i < G_N_ELEMENTS (spoil))
        {
          spoil[i](spec);
          g_assert_false (bond_point_spec_check (spec, &error));
          g_assert_error (error, BOND_POINT_SPEC_ERROR, BOND_POINT_SPEC_ERROR_UNSOUND);
        }
      else
        g_assert_true (bond_point_spec_check (spec, &error));
    }
}

int
main (int argc, char *argv[])
{
  g_test_init (&argc, &argv, NULL);
  g_test_add_func ("/core/entry/words", test_words);
  g_test_add_func ("/core/entry/hazards", test_hazards);
  g_test_add_func ("/core/entry/void-reasons", test_void_reasons);
  g_test_add_func ("/core/entry/reading", test_reading);
  g_test_add_func ("/core/entry/adopt", test_adopt);
  g_test_add_func ("/core/point-spec/copy", test_spec_copy);
  g_test_add_func ("/core/point-spec/check", test_spec_check);
  return g_test_run ();
}
