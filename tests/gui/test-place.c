/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * A new point by hand: what the form takes and refuses, and what then stands in the
 * file.  Expected labels, samples and coordinates are written out here.
 */
#include "gui/dialogs/place-spec.h"
#include "screen.h"
#include "window-fixture.h"

/* --- the rules ---------------------------------------------------------------------------------------------------- */

static void
test_labels (void)
{
  static const struct
  {
    BondPlaceLabels labels;
    guint nth;
    const char *text;
  } rows[] = {
    { BOND_PLACE_LABELS_NUMBERS, 0, "1" },   { BOND_PLACE_LABELS_NUMBERS, 59, "60" },
    { BOND_PLACE_LABELS_LETTERS, 0, "a" },   { BOND_PLACE_LABELS_LETTERS, 25, "z" },
    { BOND_PLACE_LABELS_LETTERS, 26, "aa" }, { BOND_PLACE_LABELS_LETTERS, 59, "bh" },
  };

  for (gsize i = 0; i < G_N_ELEMENTS (rows); i++)
    {
      g_autofree char *text = bond_place_label (rows[i].labels, rows[i].nth);

      g_assert_cmpstr (text, ==, rows[i].text);
    }
}

static void
test_counts (void)
{
  static const struct
  {
    const char *text;
    int n;
  } rows[] = { { NULL, 1 }, { "", 1 },   { "1", 1 },   { "24", 24 }, { "60", 60 }, { "61", 0 },
               { "0", 0 },  { "-3", 0 }, { "2.5", 0 }, { "2x", 0 },  { "two", 0 } };

  for (gsize i = 0; i < G_N_ELEMENTS (rows); i++)
    g_assert_cmpint (bond_place_read_count (rows[i].text), ==, rows[i].n);
  g_assert_cmpint (bond_place_read_every ("3", 24), ==, 3);
  g_assert_cmpint (bond_place_read_every ("25", 24), ==, 0);
  g_assert_cmpint (bond_place_read_every (NULL, 24), ==, 1);
}

static void
test_coordinates (void)
{
  static const struct
  {
    const char *text;
    BondAxisName axis;
    gboolean good;
    double value;
  } rows[] = {
    { "850", BOND_AXIS_STA, TRUE, 850 },     { "850.5", BOND_AXIS_STA, TRUE, 850.5 },
    { "850,5", BOND_AXIS_STA, TRUE, 850.5 }, { "L 170", BOND_AXIS_BL, TRUE, -170 },
    { "r392,5", BOND_AXIS_BL, TRUE, 392.5 }, { "-170", BOND_AXIS_BL, TRUE, -170 },
    { "L -170", BOND_AXIS_BL, FALSE, 0 },    { "L 170", BOND_AXIS_WL, FALSE, 0 },
    { "85o", BOND_AXIS_STA, FALSE, 0 },      { "8.5.0", BOND_AXIS_STA, FALSE, 0 },
  };
  BondCoordinate coordinate;

  for (gsize i = 0; i < G_N_ELEMENTS (rows); i++)
    {
      g_assert_true (bond_place_read_coordinate (rows[i].text, rows[i].axis, &coordinate) == rows[i].good);
      if (rows[i].good)
        g_assert_cmpfloat_with_epsilon (coordinate.value, rows[i].value, 1e-9);
    }
  g_assert_true (bond_place_read_coordinate (NULL, BOND_AXIS_WL, &coordinate));
  g_assert_false (coordinate.known); /* empty is not 0 */
}

/* --- the form ----------------------------------------------------------------------------------------------------- */

static GtkWidget *
nth_of_type (GtkWidget *widget, GType type, int *n)
{
  if (G_TYPE_CHECK_INSTANCE_TYPE (widget, type) && (*n)-- == 0)
    return widget;
  for (GtkWidget *child = gtk_widget_get_first_child (widget); child != NULL;
       child = gtk_widget_get_next_sibling (child))
    {
      GtkWidget *found = nth_of_type (child, type, n);

      if (found != NULL)
        return found;
    }
  return NULL;
}

static void
choose (GtkWindow *dialog, int n, guint selected)
{
  gtk_drop_down_set_selected (GTK_DROP_DOWN (nth_of_type (GTK_WIDGET (dialog), GTK_TYPE_DROP_DOWN, &n)), selected);
}

static void
tick (GtkWindow *dialog, int n, gboolean active)
{
  gtk_check_button_set_active (GTK_CHECK_BUTTON (nth_of_type (GTK_WIDGET (dialog), GTK_TYPE_CHECK_BUTTON, &n)), active);
}

static void
press_place (GtkWindow *dialog)
{
  g_signal_emit_by_name (window_find_of_type (GTK_WIDGET (dialog), GTK_TYPE_BUTTON, "Place Point"), "clicked");
}

static GtkWindow *
open_form (WindowFixture *fixture)
{
  BondWalkPage *page = bond_survey_window_get_page (fixture->window);
  GtkWindow *dialog;

  window_begin (fixture);
  g_signal_emit_by_name (bond_walk_page_get_diagram (page), "zone-clicked", "521", "plan-upper", 592.86, 716.77);
  dialog = window_newest_dialog ();
  g_assert_nonnull (dialog);
  return dialog;
}

/* Entries in the order they stand in: from, to, number, STA, BL, WL, places, every n-th, purpose, panel. */
enum
{
  FROM,
  TO,
  NUMBER,
  STA,
  BL,
  WL,
  PLACES,
  EVERY,
  PURPOSE,
  PANEL,
};

static void
check_places (BondPoint *point)
{
  GPtrArray *places = bond_point_get_places (point);

  g_assert_cmpuint (places->len, ==, 12);
  for (guint i = 0; i < places->len; i++)
    {
      const BondPlaceResult *place = g_ptr_array_index (places, i);
      const char label[] = { (char)('a' + i), '\0' };

      g_assert_cmpstr (place->label, ==, label);
      g_assert_true (place->in_sample == (i % 4 == 0)); /* a, e, i */
    }
}

static void
test_a_group_is_placed (WindowFixture *fixture, gconstpointer data)
{
  GtkWindow *dialog = open_form (fixture);
  g_autoptr (BondSurveyFile) file = NULL;
  const BondPointSpec *spec;
  BondPoint *point;

  window_fill (dialog, FROM, "Access panel 521AB");
  window_fill (dialog, TO, "Lower skin");
  window_fill (dialog, PLACES, "12");
  window_fill (dialog, EVERY, "4");
  window_fill (dialog, PURPOSE, "lightning");
  window_fill (dialog, PANEL, "521AB");
  choose (dialog, 3, BOND_PLACE_LABELS_LETTERS);
  choose (dialog, 4, BOND_ARRANGEMENT_RING);
  tick (dialog, 0, FALSE); /* a reject asks for all places */
  tick (dialog, 1, TRUE);  /* independent inspection */
  press_place (dialog);
  window_wait_written (fixture);
  screen_spin (200);
  window_wait_written (fixture);

  file = window_read_again (fixture);
  point = bond_survey_find_number (bond_survey_file_get_survey (file), "521-J04");
  g_assert_nonnull (point);
  spec = bond_point_get_spec (point);
  g_assert_cmpint (spec->arrangement, ==, BOND_ARRANGEMENT_RING);
  g_assert_cmpint (spec->sample_every, ==, 4);
  g_assert_false (spec->widen);
  g_assert_true (spec->needs_independent);
  g_assert_cmpuint (spec->hazards, ==, 0);
  g_assert_cmpstr (spec->why, ==, "lightning");
  g_assert_cmpstr (spec->panel, ==, "521AB");
  check_places (point);
}

/* What is wrong is said while it is typed, and nothing is recorded by the act. */
static void
test_wrong_counts_are_refused (WindowFixture *fixture, gconstpointer data)
{
  static const char *const wrong[] = { "0", "61", "x" };
  BondSurvey *survey = bond_walk_get_survey (bond_survey_window_get_walk (fixture->window));
  GtkWindow *dialog = open_form (fixture);
  guint before = g_list_model_get_n_items (G_LIST_MODEL (survey));

  window_fill (dialog, FROM, "Panel");
  window_fill (dialog, TO, "Skin");
  for (gsize i = 0; i < G_N_ELEMENTS (wrong); i++)
    {
      window_fill (dialog, PLACES, wrong[i]);
      press_place (dialog);
      screen_spin (20);
      g_assert_true (window_newest_dialog () == dialog);
    }
  window_fill (dialog, PLACES, "6");
  window_fill (dialog, EVERY, "7");
  press_place (dialog);
  screen_spin (20);
  g_assert_true (window_newest_dialog () == dialog);
  g_assert_cmpuint (g_list_model_get_n_items (G_LIST_MODEL (survey)), ==, before);
}

/* Of one point neither labels nor arrangement nor sample are asked. */
static void
test_one_place_asks_less (WindowFixture *fixture, gconstpointer data)
{
  GtkWindow *dialog = open_form (fixture);
  int n = 4;
  GtkWidget *arrangement = nth_of_type (GTK_WIDGET (dialog), GTK_TYPE_DROP_DOWN, &n);

  g_assert_false (gtk_widget_get_sensitive (arrangement));
  window_fill (dialog, PLACES, "2");
  g_assert_true (gtk_widget_get_sensitive (arrangement));
}

#define ADD(name, func) g_test_add ("/place/" name, WindowFixture, NULL, window_set_up, func, window_tear_down)

int
main (int argc, char **argv)
{
  gtk_test_init (&argc, &argv, NULL);
  g_test_add_func ("/place/labels", test_labels);
  g_test_add_func ("/place/counts", test_counts);
  g_test_add_func ("/place/coordinates", test_coordinates);
  ADD ("group", test_a_group_is_placed);
  ADD ("refused", test_wrong_counts_are_refused);
  ADD ("single", test_one_place_asks_less);
  return g_test_run ();
}
