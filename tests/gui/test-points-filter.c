/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * What the points pane asks of a point, and the flat list made of the answers:
 * folds outlive a reading, a row in hand stays, nothing is rebuilt for a verdict.
 */
#include "gui/pages/points-model.h"
#include "plane.h"

typedef struct
{
  BondSurvey *survey;
  BondPointsModel *model;
  guint changes; /* of the list */
} Fixture;

static void
changed_cb (GListModel *list, guint position, guint removed, guint added, Fixture *fixture)
{
  fixture->changes++;
}

static void
set_up (Fixture *fixture, gconstpointer data)
{
  fixture->survey = plane_survey_new ("generic-jet-transport");
  fixture->model = bond_points_model_new (fixture->survey);
  g_signal_connect (bond_points_model_get_list (fixture->model), "items-changed", G_CALLBACK (changed_cb), fixture);
}

static void
tear_down (Fixture *fixture, gconstpointer data)
{
  g_clear_object (&fixture->model);
  g_clear_object (&fixture->survey);
}

static guint
n_points (Fixture *fixture)
{
  return g_list_model_get_n_items (G_LIST_MODEL (fixture->survey));
}

static BondPoint *
nth (Fixture *fixture, guint i)
{
  g_autoptr (BondPoint) point = g_list_model_get_item (G_LIST_MODEL (fixture->survey), i);

  return point;
}

static guint
n_shown (Fixture *fixture)
{
  guint counts[BOND_N_POINTS_CHIPS], shown;

  bond_points_model_refilter (fixture->model);
  bond_points_model_counts (fixture->model, counts, &shown);
  return shown;
}

static void
say (Fixture *fixture, BondEntryKind kind, const char *number, const char *words)
{
  BondEntry *entry = bond_entry_new (kind);
  g_autoptr (GError) error = NULL;

  entry->point = g_strdup (bond_point_get_id (bond_survey_find_number (fixture->survey, number)));
  if (kind == BOND_ENTRY_NOTE)
    entry->note.text = g_strdup (words);
  else
    entry->defect.card = g_strdup (words);
  bond_survey_record_now (fixture->survey, entry, &error);
  g_assert_no_error (error);
}

static void
test_words (Fixture *fixture, gconstpointer data)
{
  BondPointsFilter *filter = bond_points_model_get_filter (fixture->model);
  const char *number = bond_point_get_number (nth (fixture, 4));

  filter->words = g_utf8_strdown (number, -1);
  g_assert_cmpuint (n_shown (fixture), ==, 1);
  g_assert_true (bond_points_model_shows (fixture->model, nth (fixture, 4)));

  g_free (filter->words);
  filter->words = g_strdup ("Kryolite"); /* a word that is nowhere but in the note */
  g_assert_cmpuint (n_shown (fixture), ==, 0);
  say (fixture, BOND_ENTRY_NOTE, number, "paint like kryolite, ask stores");
  g_assert_cmpuint (n_shown (fixture), ==, 1);

  g_free (filter->words);
  filter->words = g_strdup_printf ("%s kryolite", number); /* every word must be found, in any place */
  g_assert_cmpuint (n_shown (fixture), ==, 1);
  g_free (filter->words);
  filter->words = g_strdup ("kryolite nowhere-at-all");
  g_assert_cmpuint (n_shown (fixture), ==, 0);
}

static void
test_choices (Fixture *fixture, gconstpointer data)
{
  BondPointsFilter *filter = bond_points_model_get_filter (fixture->model);
  guint sum = 0, zone = 0, tubes = 0;

  for (int klass = 0; klass < BOND_N_CLASSES; klass++)
    {
      filter->klass = klass + 1;
      sum += n_shown (fixture);
    }
  g_assert_cmpuint (sum, ==, n_points (fixture)); /* every point has one class */
  filter->klass = 0;
  filter->zone = g_strdup (bond_point_get_spec (nth (fixture, 0))->zone);
  zone = n_shown (fixture);
  for (guint i = 0; i < n_points (fixture); i++)
    {
      const BondPointSpec *spec = bond_point_get_spec (nth (fixture, i));
      gboolean in = g_str_equal (spec->zone, filter->zone);

      tubes += in && spec->klass == BOND_CLASS_FLUID_LINE;
      g_assert_true (!in || bond_points_model_shows (fixture->model, nth (fixture, i)));
    }
  g_assert_cmpuint (zone, >, 0);
  g_assert_cmpuint (zone, <, n_points (fixture));
  filter->klass = BOND_CLASS_FLUID_LINE + 1; /* they combine */
  g_assert_cmpuint (n_shown (fixture), ==, tubes);
  g_assert_cmpuint (bond_points_filter_n_choices (filter), ==, 2);
  bond_points_filter_clear (filter);
  g_assert_true (bond_points_filter_is_empty (filter));
  g_assert_cmpuint (n_shown (fixture), ==, n_points (fixture));
}

static void
test_purpose (Fixture *fixture, gconstpointer data)
{
  BondPointsFilter *filter = bond_points_model_get_filter (fixture->model);
  g_auto (GStrv) purposes = bond_points_purposes (fixture->survey);
  guint expected = 0;

  g_assert_true (g_strv_contains ((const char *const *)purposes, "lightning"));
  g_assert_false (g_strv_contains ((const char *const *)purposes, "lightning static")); /* words, not phrases */
  filter->purpose = g_strdup ("lightning");
  for (guint i = 0; i < n_points (fixture); i++)
    {
      const char *why = bond_point_get_spec (nth (fixture, i))->why;

      expected += why != NULL && strstr (why, "lightning") != NULL;
    }
  g_assert_cmpuint (n_shown (fixture), ==, expected);
}

static void
test_marks (Fixture *fixture, gconstpointer data)
{
  BondPointsFilter *filter = bond_points_model_get_filter (fixture->model);
  const char *first = bond_point_get_number (nth (fixture, 1));

  filter->marks = BOND_POINTS_HAS_NOTE;
  g_assert_cmpuint (n_shown (fixture), ==, 0);
  say (fixture, BOND_ENTRY_NOTE, first, "as found");
  g_assert_cmpuint (n_shown (fixture), ==, 1);
  filter->marks = BOND_POINTS_HAS_NOTE | BOND_POINTS_NEEDS_INDEPENDENT; /* both are asked */
  g_assert_cmpuint (n_shown (fixture), ==, 0);
}

static void
test_instrument_and_state (Fixture *fixture, gconstpointer data)
{
  BondPointsFilter *filter = bond_points_model_get_filter (fixture->model);
  BondPoint *point = nth (fixture, 0);

  filter->instrument = g_strdup ("i-mo-1");
  g_assert_cmpuint (n_shown (fixture), ==, 0);
  plane_measure (fixture->survey, bond_point_get_number (point), 10000);
  g_assert_cmpuint (n_shown (fixture), ==, 1);
  filter->state = (int)bond_point_get_state (point) + 1;
  g_assert_cmpuint (n_shown (fixture), ==, 1);
  filter->state = BOND_STATE_DEFERRED + 1;
  g_assert_cmpuint (n_shown (fixture), ==, 0);
}

/* The chips count what they show. */
static void
test_counts (Fixture *fixture, gconstpointer data)
{
  BondPointsFilter *filter = bond_points_model_get_filter (fixture->model);
  guint counts[BOND_N_POINTS_CHIPS], shown;

  for (guint i = 0; i < 12; i++)
    plane_measure (fixture->survey, bond_point_get_number (nth (fixture, i)), i % 3 == 0 ? 900000000 : 10000);
  bond_points_model_counts (fixture->model, counts, &shown);
  g_assert_cmpuint (counts[BOND_POINTS_ALL], ==, n_points (fixture));
  g_assert_cmpuint (counts[BOND_POINTS_FAIL], >, 0);
  for (int chip = BOND_POINTS_TO_MEASURE; chip < BOND_N_POINTS_CHIPS; chip++)
    {
      filter->chip = chip;
      g_assert_cmpuint (n_shown (fixture), ==, counts[chip]);
    }
}

/* A reading changes one row; the fold stays, the row that no longer matches stays, the list is not touched. */
static void
test_reading (Fixture *fixture, gconstpointer data)
{
  BondPointsFilter *filter = bond_points_model_get_filter (fixture->model);
  BondPoint *point = nth (fixture, 0);
  const char *zone = bond_point_get_spec (nth (fixture, n_points (fixture) - 1))->zone;
  g_autoptr (GObject) before = NULL;
  g_autoptr (GObject) after = NULL;
  guint rows, row;

  filter->chip = BOND_POINTS_TO_MEASURE;
  bond_points_model_refilter (fixture->model);
  bond_points_model_toggle_zone (fixture->model, zone);
  rows = g_list_model_get_n_items (bond_points_model_get_list (fixture->model));
  row = bond_points_model_find (fixture->model, point);
  before = g_list_model_get_item (bond_points_model_get_list (fixture->model), row);
  fixture->changes = 0;
  plane_measure (fixture->survey, bond_point_get_number (point), 10000);
  g_assert_cmpint (bond_point_get_state (point), !=, BOND_STATE_TO_MEASURE);
  g_assert_cmpuint (fixture->changes, ==, 0);
  g_assert_cmpuint (g_list_model_get_n_items (bond_points_model_get_list (fixture->model)), ==, rows);
  after = g_list_model_get_item (bond_points_model_get_list (fixture->model), row);
  g_assert_true (before == after);
  g_assert_cmpuint (bond_points_model_find (fixture->model, nth (fixture, n_points (fixture) - 1)), ==, G_MAXUINT);
  g_assert_true (bond_points_model_shows (fixture->model, nth (fixture, n_points (fixture) - 1))); /* folded only */
  bond_points_model_refilter (fixture->model);
  g_assert_false (bond_points_model_shows (fixture->model, point));
}

static void
removed_cb (GListModel *list, guint position, guint removed, guint added, guint *sum)
{
  *sum += removed + added;
}

/* A fold takes out the rows of its zone and no others: the list view keeps its place. */
static void
test_fold_is_small (Fixture *fixture, gconstpointer data)
{
  const char *zone = bond_point_get_spec (nth (fixture, 0))->zone;
  guint sum = 0, in_zone = 0;

  for (guint i = 0; i < n_points (fixture); i++)
    in_zone += g_str_equal (bond_point_get_spec (nth (fixture, i))->zone, zone);
  g_signal_connect (bond_points_model_get_list (fixture->model), "items-changed", G_CALLBACK (removed_cb), &sum);
  bond_points_model_toggle_zone (fixture->model, zone);
  g_assert_cmpuint (sum, ==, in_zone);
  for (guint i = 0; i < n_points (fixture); i++)
    {
      guint row = bond_points_model_find (fixture->model, nth (fixture, i));
      g_autoptr (BondPointsItem) item = NULL;

      if (row == G_MAXUINT)
        continue;
      item = g_list_model_get_item (bond_points_model_get_list (fixture->model), row);
      g_assert_true (bond_points_item_get_point (item) == nth (fixture, i));
    }
}

int
main (int argc, char **argv)
{
  g_test_init (&argc, &argv, NULL);
#define ADD(name, test) g_test_add ("/gui/points-filter/" name, Fixture, NULL, set_up, test, tear_down)
  ADD ("words", test_words);
  ADD ("choices", test_choices);
  ADD ("purpose", test_purpose);
  ADD ("marks", test_marks);
  ADD ("instrument-and-state", test_instrument_and_state);
  ADD ("counts", test_counts);
  ADD ("reading", test_reading);
  ADD ("fold-is-small", test_fold_is_small);
  return g_test_run ();
}
