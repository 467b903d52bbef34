/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * What leaves the Readings page (clipboard and file, byte for byte, in any locale),
 * its keys, and what it says when there is nothing to show or nowhere to write.
 */
#include "gui/dialog.h"
#include "gui/pages/readings-text.h"
#include "gui/style.h"
#include "plane.h"
#include "reach.h"
#include "readings-fixture.h"
#include "screen.h"
#include <glib/gstdio.h>
#include <string.h>

#define HEAD(c)                                                                                                        \
  "verdict" c "point" c "what" c "class" c "zone" c "limit_ohm" c "found_ohm" c "result_ohm" c "U_ohm" c               \
  "used_percent" c "meter" c "measured_by" c "when"

/*
 * U of 1.42 mΩ on the range of 3 mΩ of MO-1: 2 √(((0.25 % + 3 µΩ)/√3)² + (0.5 µΩ/√3)² + (0.1 %/2)²) = 7.717… µΩ,
 * rounded up; used: 1.42/3 and 14.18/5.
 */
#define TSV_WANTED                                                                                                     \
  HEAD ("\t")                                                                                                          \
  "\n"                                                                                                                 \
  "pass\t713-J01\tNose gear door, left to Door hinge bracket on frame\tstructure\t713\t<=0.003\t0.00142\t0.00142\t"    \
  "0.000007718\t47.3\tMO-1\tInes Invented\t2026-05-04T09:52:00+02:00\n"                                                \
  "fail\t562-J01\tOutboard flap, left to Flap carriage on track 3\tstructure\t562\t<=0.005\t0.01418\t0.01418\t"        \
  "0.000054669\t283.6\tMO-1\tInes Invented\t2026-05-04T09:54:00+02:00\n"                                               \
  "to-measure\t111-J01\tRadome lightning diverter strip, upper to Forward pressure bulkhead ring\tstructure\t111\t"    \
  "<=0.01\t\t\t\t\t\t\t\n"
#define CSV_WANTED                                                                                                     \
  HEAD (",")                                                                                                           \
  "\r\n"                                                                                                               \
  "fail,562-J01,\"Outboard flap, left to Flap carriage on track "                                                      \
  "3\",structure,562,<=0.005,0.01418,0.01418,0.000054669,"                                                             \
  "283.6,MO-1,Ines Invented,2026-05-04T09:54:00+02:00\r\n"

/* --- as text --- */

static char *
tsv_of (ReadingsFixture *fixture, const char *const *numbers, const char *const *ids)
{
  g_autoptr (GPtrArray) rows = g_ptr_array_new_with_free_func (g_object_unref);
  int order[BOND_N_READINGS_COLUMNS], n = 0;

  for (; *numbers != NULL; numbers++)
    g_ptr_array_add (
        rows, bond_readings_row_new (fixture->survey, bond_survey_find_number (fixture->survey, *numbers), 0, 0));
  for (; ids != NULL && *ids != NULL; ids++)
    order[n++] = readings_column (*ids);
  return bond_readings_tsv (rows, ids != NULL ? order : NULL, n);
}

static void
test_tsv (ReadingsFixture *fixture, gconstpointer data)
{
  static const char *const numbers[] = { "713-J01", "562-J01", "111-J01", NULL };
  g_autofree char *text = NULL;

  readings_measure (fixture);
  text = tsv_of (fixture, numbers, NULL);
  g_assert_cmpstr (text, ==, TSV_WANTED);
}

static void
test_tsv_order (ReadingsFixture *fixture, gconstpointer data)
{
  static const char *const numbers[] = { "562-J01", NULL };
  static const char *const ids[] = { "result", "point", "limit", NULL };
  g_autofree char *text = NULL;

  readings_measure (fixture);
  text = tsv_of (fixture, numbers, ids);
  g_assert_cmpstr (text, ==, "result_ohm\tpoint\tlimit_ohm\n0.01418\t562-J01\t<=0.005\n");
}

/* RFC 4180: quotes doubled inside quotes; the guard against formulas is for words, never for figures. */
static void
test_csv_cells (void)
{
  static const struct
  {
    const char *text, *wanted;
    gboolean number;
  } cells[] = {
    { "plain", "plain", FALSE },
    { "a,b", "\"a,b\"", FALSE },
    { "the \"lug\"", "\"the \"\"lug\"\"\"", FALSE },
    { "two\r\nlines", "\"two\r\nlines\"", FALSE },
    { "=1+2", "'=1+2", FALSE },
    { "+cmd", "'+cmd", FALSE },
    { "-cmd", "'-cmd", FALSE },
    { "@SUM(A1)", "'@SUM(A1)", FALSE },
    { "=HYPERLINK(\"x\",\"y\")", "\"'=HYPERLINK(\"\"x\"\",\"\"y\"\")\"", FALSE },
    { "-0.00184", "-0.00184", TRUE },
    { "+0.5", "+0.5", TRUE },
    { ">0.03", ">0.03", TRUE },
    { "µΩ", "µΩ", FALSE },
    { NULL, "", FALSE },
  };

  for (gsize i = 0; i < G_N_ELEMENTS (cells); i++)
    {
      g_autoptr (GString) csv = g_string_new (NULL);

      bond_csv_add_cell (csv, cells[i].text, TRUE, cells[i].number);
      g_assert_cmpstr (csv->str, ==, cells[i].wanted);
    }
}

/* --- to a file --- */

static char *
export_to (ReadingsFixture *fixture, const char *path)
{
  g_autoptr (GFile) file = g_file_new_for_path (path);
  char *contents = NULL;

  g_clear_pointer (&fixture->said, g_free);
  bond_readings_page_export_to (fixture->page, file);
  for (int i = 0; i < 300 && fixture->said == NULL; i++)
    screen_spin (10);
  g_assert_nonnull (fixture->said);
  g_file_get_contents (path, &contents, NULL, NULL);
  return contents;
}

static void
test_csv (ReadingsFixture *fixture, gconstpointer data)
{
  g_autofree char *folder = g_dir_make_tmp ("bond-readings-XXXXXX", NULL);
  g_autofree char *path = g_build_filename (folder, "t.csv", NULL);
  g_autofree char *csv = NULL;
  const char *head, *line;

  readings_measure (fixture);
  readings_show (fixture, 1280);
  bond_readings_model_set_mark (bond_readings_page_get_model (fixture->page), BOND_MARK_FAIL);
  csv = export_to (fixture, path);
  g_assert_false (fixture->failed);
  g_assert_nonnull (strstr (fixture->said, "1 row is in"));
  g_assert_nonnull (strstr (fixture->said, "UTF-8"));
  g_assert_true (g_str_has_prefix (csv, "# survey ZZ-TQA test-plane; filter: fail; "));
  head = strstr (csv, "; UTF-8; Bondwright " BOND_VERSION "\r\n");
  g_assert_nonnull (head);
  line = strstr (head, "\r\n") + 2;
  g_assert_cmpstr (line, ==, CSV_WANTED);
  g_assert_true (g_utf8_validate (csv, -1, NULL));
  g_unlink (path);
  g_rmdir (folder);
}

/* What was there before is still there, and the person is told what to do. */
static void
test_csv_refused (ReadingsFixture *fixture, gconstpointer data)
{
  g_autofree char *folder = g_dir_make_tmp ("bond-readings-XXXXXX", NULL);
  g_autofree char *path = g_build_filename (folder, "t.csv", NULL);
  g_autofree char *inside = g_build_filename (path, "u.csv", NULL);
  g_autofree char *kept = NULL;
  g_autofree char *none = NULL;

  readings_measure (fixture);
  readings_show (fixture, 1280);
  g_assert_true (g_file_set_contents (path, "older", -1, NULL));
  none = export_to (fixture, inside); /* a folder that is a file */
  g_assert_null (none);
  g_assert_true (fixture->failed);
  g_assert_nonnull (strstr (fixture->said, "could not be saved"));
  g_assert_nonnull (strstr (fixture->said, "choose another place"));
  g_assert_true (g_file_get_contents (path, &kept, NULL, NULL));
  g_assert_cmpstr (kept, ==, "older");
  g_unlink (path);
  g_rmdir (folder);
}

static void
test_csv_never_a_survey (ReadingsFixture *fixture, gconstpointer data)
{
  static const char *const names[] = { "t.bondsurvey", "t.bondsurvey.journal", ".t.bondsurvey.backup" };
  g_autofree char *folder = g_dir_make_tmp ("bond-readings-XXXXXX", NULL);

  readings_measure (fixture);
  readings_show (fixture, 1280);
  for (gsize i = 0; i < G_N_ELEMENTS (names); i++)
    {
      g_autofree char *path = g_build_filename (folder, names[i], NULL);
      g_autofree char *kept = NULL;

      g_assert_true (g_file_set_contents (path, "survey", -1, NULL));
      kept = export_to (fixture, path);
      g_assert_cmpstr (kept, ==, "survey");
      g_assert_true (fixture->failed);
      g_unlink (path);
    }
  g_rmdir (folder);
}

/* --- keys --- */

static void
clipboard_cb (GObject *source, GAsyncResult *result, gpointer data)
{
  *(char **)data = gdk_clipboard_read_text_finish (GDK_CLIPBOARD (source), result, NULL);
}

static void
test_keys (ReadingsFixture *fixture, gconstpointer data)
{
  GtkWidget *focus;
  g_autofree char *copied = NULL;

  readings_measure (fixture);
  bond_walk_go (fixture->walk, bond_survey_find_number (fixture->survey, "562-J01"), NULL);
  readings_show (fixture, 1280);
  g_assert_true (readings_key (fixture, GDK_KEY_c, GDK_CONTROL_MASK));
  gdk_clipboard_read_text_async (gtk_widget_get_clipboard (GTK_WIDGET (fixture->page)), NULL, clipboard_cb, &copied);
  for (int i = 0; i < 100 && copied == NULL; i++)
    screen_spin (10);
  g_assert_true (g_str_has_prefix (copied, "verdict\tpoint\twhat\tclass\tlimit_ohm\tfound_ohm\tresult_ohm\tU_ohm"));
  g_assert_nonnull (strstr (copied, "\nfail\t562-J01\t"));
  g_assert_true (readings_key (fixture, GDK_KEY_Return, GDK_SHIFT_MASK));
  g_assert_cmpuint (fixture->go, ==, 1);
  g_assert_false (readings_key (fixture, GDK_KEY_Return, 0)); /* the list's own, which activates the row */
  g_signal_emit_by_name (bond_readings_table_get_view (bond_readings_page_get_table (fixture->page)), "activate", 1);
  g_assert_cmpuint (fixture->details, ==, 1);
  g_assert_cmpstr (readings_chosen (fixture), ==, "111-J01"); /* the row Enter was on */
  g_assert_true (readings_key (fixture, GDK_KEY_f, 0));
  focus = gtk_window_get_focus (fixture->window);
  g_assert_true (focus != NULL
                 && gtk_widget_is_ancestor (focus, GTK_WIDGET (bond_readings_page_get_bar (fixture->page))));
  g_assert_false (readings_key (fixture, GDK_KEY_r, 0)); /* reading again is for the walk */
}

/* Arrows pass over the names of zones. */
static void
test_arrows (ReadingsFixture *fixture, gconstpointer data)
{
  BondReadingsTable *table;

  readings_measure (fixture);
  readings_show (fixture, 1280);
  table = bond_readings_page_get_table (fixture->page);
  bond_readings_table_choose (table, bond_survey_find_number (fixture->survey, "713-J01"), NULL);
  screen_spin (50);
  g_assert_true (readings_key (fixture, GDK_KEY_Down, 0));
  screen_spin (50);
  g_assert_cmpstr (readings_chosen (fixture), ==, "711-J01");
  g_assert_true (readings_key (fixture, GDK_KEY_Up, 0));
  g_assert_cmpstr (readings_chosen (fixture), ==, "713-J01");
  bond_readings_table_choose (table, bond_survey_find_number (fixture->survey, "111-J01"), NULL);
  g_assert_true (readings_key (fixture, GDK_KEY_Up, 0));
  g_assert_cmpstr (readings_chosen (fixture), ==, "111-J01");
  g_assert_false (readings_key (fixture, GDK_KEY_Down, 0)); /* a row: the list's own step */
}

static void
test_reach (ReadingsFixture *fixture, gconstpointer data)
{
  readings_measure (fixture);
  readings_show (fixture, 1280);
  reach_assert (fixture->window);
}

/* --- nothing to show --- */

static const char *
empty_words (GtkWidget *widget)
{
  if (!gtk_widget_get_mapped (widget))
    return NULL;
  if (GTK_IS_LABEL (widget) && strchr (gtk_label_get_text (GTK_LABEL (widget)), '.') != NULL)
    return gtk_label_get_text (GTK_LABEL (widget));
  for (GtkWidget *child = gtk_widget_get_first_child (widget); child != NULL;
       child = gtk_widget_get_next_sibling (child))
    {
      const char *found = empty_words (child);

      if (found != NULL)
        return found;
    }
  return NULL;
}

static void
test_nothing_measured (ReadingsFixture *fixture, gconstpointer data)
{
  GtkWidget *focus;

  readings_show (fixture, 1280);
  g_assert_cmpstr (empty_words (GTK_WIDGET (fixture->page)), ==, "Nothing measured yet.");
  focus = gtk_window_get_focus (fixture->window);
  g_assert_true (GTK_IS_BUTTON (focus));
  g_assert_cmpstr (gtk_button_get_label (GTK_BUTTON (focus)), ==, "Go to Walk");
  g_signal_emit_by_name (focus, "clicked");
  g_assert_cmpuint (fixture->walk_asked, ==, 1);
  reach_assert (fixture->window);
}

static void
test_nothing_matches (ReadingsFixture *fixture, gconstpointer data)
{
  BondReadingsModel *model;
  g_autofree char *wanted = NULL;

  readings_measure (fixture);
  readings_show (fixture, 1280);
  model = bond_readings_page_get_model (fixture->page);
  wanted = g_strdup_printf ("No point matches. Clear the filter to see all %u.",
                            bond_readings_model_count (model, BOND_READINGS_ALL));
  bond_readings_model_set_search (model, "no such thing");
  screen_spin (50);
  g_assert_cmpstr (empty_words (GTK_WIDGET (fixture->page)), ==, wanted);
  bond_readings_bar_clear (bond_readings_page_get_bar (fixture->page));
  screen_spin (50);
  g_assert_cmpuint (bond_readings_model_get_shown (model), ==, bond_readings_model_count (model, BOND_READINGS_ALL));
  g_assert_null (empty_words (GTK_WIDGET (fixture->page)));
}

int
main (int argc, char **argv)
{
  static const struct
  {
    const char *path;
    void (*test) (ReadingsFixture *fixture, gconstpointer data);
  } tests[] = {
    { "/gui/readings-page/tsv", test_tsv },
    { "/gui/readings-page/tsv-order", test_tsv_order },
    { "/gui/readings-page/csv", test_csv },
    { "/gui/readings-page/csv-refused", test_csv_refused },
    { "/gui/readings-page/csv-never-a-survey", test_csv_never_a_survey },
    { "/gui/readings-page/keys", test_keys },
    { "/gui/readings-page/arrows", test_arrows },
    { "/gui/readings-page/reach", test_reach },
    { "/gui/readings-page/nothing-measured", test_nothing_measured },
    { "/gui/readings-page/nothing-matches", test_nothing_matches },
  };

  gtk_test_init (&argc, &argv, NULL);
  bond_style_attach (gdk_display_get_default ());
  g_test_add_func ("/gui/readings-page/csv-cells", test_csv_cells);
  for (gsize i = 0; i < G_N_ELEMENTS (tests); i++)
    g_test_add (tests[i].path, ReadingsFixture, NULL, readings_set_up, tests[i].test, readings_tear_down);
  return g_test_run ();
}
