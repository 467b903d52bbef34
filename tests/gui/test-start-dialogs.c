/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * New Survey and Survey Again through their form, and the pages of the registers:
 * what is refused and why, what is kept, and what stands in the files afterwards.
 */
#include "find.h"
#include "gui/dialogs/new-survey-dialog.h"
#include "gui/dialogs/zone-tree.h"
#include "reach.h"
#include "screen.h"
#include "start-fixture.h"

#include <string.h>

/* --- the form --- */

static void
fill (GtkWindow *dialog, const char *label, const char *text)
{
  GtkWidget *entry = find_beside (GTK_WIDGET (dialog), label);

  g_test_message ("%s", label);
  g_assert_nonnull (entry);
  gtk_editable_set_text (GTK_EDITABLE (entry), text);
}

static void
choose (GtkWindow *dialog, const char *label, guint which)
{
  g_test_message ("%s", label);
  gtk_drop_down_set_selected (GTK_DROP_DOWN (find_beside (GTK_WIDGET (dialog), label)), which);
}

static void
press (GtkWindow *dialog, const char *label)
{
  g_signal_emit_by_name (window_find_of_type (GTK_WIDGET (dialog), GTK_TYPE_BUTTON, label), "clicked");
  screen_spin (100);
}

/* The act is refused with @text, and the field called @label has the focus. */
static void
assert_refused (GtkWindow *dialog, const char *text, const char *label)
{
  GtkWidget *focus;

  press (dialog, "Make Survey");
  g_assert_true (window_newest_dialog () == dialog);
  g_assert_nonnull (start_says (GTK_WIDGET (dialog), text));
  focus = gtk_window_get_focus (dialog);
  g_assert_nonnull (focus);
  if (label != NULL)
    g_assert_true (gtk_widget_is_ancestor (focus, find_beside (GTK_WIDGET (dialog), label)));
}

static void
untick_all_zones (GtkWidget *tree)
{
  for (GtkWidget *row = gtk_widget_get_first_child (tree); row != NULL; row = gtk_widget_get_next_sibling (row))
    {
      GtkWidget *tick = window_find_of_type (row, GTK_TYPE_CHECK_BUTTON, NULL);

      if (tick != NULL && gtk_widget_get_visible (row))
        gtk_check_button_set_active (GTK_CHECK_BUTTON (tick), FALSE);
    }
}

/* Every field wrong in its turn; what was right before stays as it was typed. */
static void
fill_with_mistakes (GtkWindow *dialog)
{
  GtkWidget *tree = window_find_of_type (GTK_WIDGET (dialog), BOND_TYPE_ZONE_TREE, NULL);

  assert_refused (dialog, "Say the registration of the aircraft.", "Registration");
  fill (dialog, "Registration", "ZZ-NEW");
  assert_refused (dialog, "Say the serial number", "Serial number");
  fill (dialog, "Serial number", "77");
  fill (dialog, "Hours", "about 31204");
  assert_refused (dialog, "Write the hours in digits", "Hours");
  fill (dialog, "Hours", "31 204:35");
  fill (dialog, "Cycles", "18.877 or so");
  assert_refused (dialog, "Write the cycles in digits", "Cycles");
  fill (dialog, "Cycles", "18 877");
  fill (dialog, "checked on (year-month-day)", "24.11.2026");
  assert_refused (dialog, "year-month-day, for example", "checked on (year-month-day)");
  fill (dialog, "checked on (year-month-day)", "2999-01-01");
  assert_refused (dialog, "lies in the future", "checked on (year-month-day)");
  fill (dialog, "checked on (year-month-day)", "2026-01-31");
  assert_refused (dialog, "Say who checked", "Data checked by");
  fill (dialog, "Data checked by", "I. Invented");
  untick_all_zones (tree);
  assert_refused (dialog, "Tick at least one zone", NULL);
  gtk_check_button_set_active (GTK_CHECK_BUTTON (window_find_of_type (tree, GTK_TYPE_CHECK_BUTTON, NULL)), TRUE);
  assert_refused (dialog, "Say who measures", "Inspector");
  fill (dialog, "Inspector", "N. Newcomer");
  g_assert_cmpstr (gtk_editable_get_text (GTK_EDITABLE (find_beside (GTK_WIDGET (dialog), "Registration"))), ==,
                   "ZZ-NEW");
}

static void
assert_made (BondSurvey *survey)
{
  const BondCreate *header = bond_survey_get_header (survey);

  g_assert_cmpstr (header->registration, ==, "ZZ-NEW");
  g_assert_cmpstr (header->card, ==, "AMM 20-22-00");
  g_assert_cmpstr (header->card_revision, ==, "4");
  g_assert_cmpstr (header->hours, ==, "31 204:35");
  g_assert_cmpstr (header->cycles, ==, "18 877");
  g_assert_cmpstr (header->serial, ==, "77");
  g_assert_cmpstr (header->title, ==, "Strike check");
  g_assert_cmpstr (header->order, ==, "W-9");
  g_assert_cmpstr (header->customer, ==, "Example Air (invented)");
  g_assert_cmpstr (header->location, ==, "Hangar 2, bay 4");
  g_assert_cmpstr (header->trigger, ==, "lightning strike, proven or suspected");
  g_assert_cmpstr (header->power, ==, "off, batteries disconnected");
  g_assert_cmpstr (header->fuel, ==, "tanks drained");
  g_assert_cmpstr (header->data_checked_by, ==, "I. Invented");
  g_assert_cmpint (header->rule, ==, BOND_RULE_GUARDED);
  g_assert_false (header->invented);
  g_assert_cmpstr (header->data_checked_on, ==, "2026-01-31");
  g_assert_nonnull (header->scope);
  g_assert_null (strchr (header->scope, ' ')); /* one major zone, and its points only */
  for (guint i = 0; i < g_list_model_get_n_items (G_LIST_MODEL (survey)); i++)
    {
      g_autoptr (BondPoint) point = g_list_model_get_item (G_LIST_MODEL (survey), i);

      g_assert_true (bond_airframe_is_within (bond_survey_get_airframe (survey), bond_point_get_spec (point)->zone,
                                              header->scope));
    }
  g_assert_cmpint (bond_survey_get_house (survey)->revision, ==, 1);
  g_assert_cmpuint (bond_survey_get_instruments (survey)->len, ==, 1);
}

static void
test_new_survey (StartFixture *fixture, gconstpointer data)
{
  g_autoptr (GPtrArray) people = NULL;
  BondSurveyWindow *opened;
  GtkWindow *dialog;

  start_open (fixture);
  bond_new_survey_dialog (GTK_WINDOW (fixture->window), fixture->application,
                          bond_application_get_source (fixture->application));
  screen_spin (300);
  dialog = window_newest_dialog ();
  choose (dialog, "What started it", 12); /* other: then it has to be said */
  fill (dialog, "Registration", "ZZ-OLD");
  fill (dialog, "Serial number", "1");
  assert_refused (dialog, "Say what started the survey", "Other");
  fill (dialog, "Registration", "");
  fill (dialog, "Serial number", "");
  choose (dialog, "What started it", 0);
  fill_with_mistakes (dialog);
  fill (dialog, "Title", "Strike check");
  fill (dialog, "Card", "AMM 20-22-00");
  fill (dialog, "Card revision", "4");
  fill (dialog, "Customer", "Example Air (invented)");
  fill (dialog, "Work order", "W-9");
  fill (dialog, "Place", "Hangar 2, bay 4");
  choose (dialog, "What started it", 1);
  choose (dialog, "Power", 1);
  choose (dialog, "Fuel", 2);
  choose (dialog, "Decision rule", 1);
  reach_assert (dialog);
  press (dialog, "Make Survey");
  opened = start_survey_window (fixture);
  g_assert_nonnull (opened);
  assert_made (bond_survey_file_get_survey (bond_survey_window_get_file (opened)));
  /* Typed once, picked after. */
  people = bond_catalog_list (bond_application_get_catalog (fixture->application), BOND_ADOPT_PERSON);
  g_assert_cmpuint (people->len, ==, 1);
  g_assert_cmpstr (((BondPerson *)people->pdata[0])->name, ==, "N. Newcomer");
}

static void
test_survey_again (StartFixture *fixture, gconstpointer data)
{
  g_autofree char *path = start_path (fixture, "a.bondsurvey");
  BondSurveyWindow *opened;
  BondSurvey *survey;
  const BondEarlierItem *item;
  BondPoint *point;
  GtkWindow *dialog;

  start_make (fixture, "a.bondsurvey", "ZZ-AAA", "1", 3120000);
  start_open (fixture);
  gtk_widget_activate_action (GTK_WIDGET (start_surveys (fixture)), "surveys.again", "s", path);
  screen_spin (300);
  dialog = window_newest_dialog ();
  g_assert_nonnull (dialog);
  g_assert_nonnull (start_says (GTK_WIDGET (dialog), "2 points placed by hand, 1 open item as notes"));
  g_assert_null (find_beside (GTK_WIDGET (dialog), "Registration")); /* the aircraft is known */
  g_assert_cmpstr (gtk_editable_get_text (GTK_EDITABLE (find_beside (GTK_WIDGET (dialog), "Place"))), ==, "Hangar 2");
  fill (dialog, "Work order", "W-8");
  fill (dialog, "Inspector", "T. Tester");
  reach_assert (dialog);
  press (dialog, "Make Survey");
  opened = start_survey_window (fixture);
  g_assert_nonnull (opened);
  survey = bond_survey_file_get_survey (bond_survey_window_get_file (opened));
  g_assert_cmpstr (bond_survey_get_header (survey)->registration, ==, "ZZ-AAA");
  g_assert_cmpstr (bond_survey_get_header (survey)->order, ==, "W-8");
  g_assert_true (bond_survey_get_header (survey)->invented);
  point = bond_survey_find_number (survey, "571-J31");
  g_assert_nonnull (point);
  g_assert_cmpint (bond_point_get_state (point), ==, BOND_STATE_TO_MEASURE);
  g_assert_null (bond_point_get_worst (point)->last);
  g_assert_cmpstr (bond_point_get_spec (point)->limit, ==, "example/J2");
  g_assert_cmpuint (bond_point_get_notes (point)->len, ==, 1);
  g_assert_nonnull (strstr (((BondEntry *)bond_point_get_notes (point)->pdata[0])->note.text, "fail 3.12\u00a0mΩ")
                            != NULL
                        ? ""
                        : strstr (((BondEntry *)bond_point_get_notes (point)->pdata[0])->note.text, "fail 3.12 mΩ"));
  g_assert_cmpuint (bond_survey_get_earlier (survey)->len, ==, 1);
  item = bond_earlier_find (bond_survey_get_earlier (survey)->pdata[0], bond_point_get_id (point));
  g_assert_nonnull (item);
  g_assert_cmpint (item->result.nohm, ==, 3120000);
  g_assert_cmpstr (item->state, ==, "fail");
  for (guint i = 0; i < bond_survey_get_entries (survey)->len; i++)
    g_assert_cmpint (((BondEntry *)bond_survey_get_entries (survey)->pdata[i])->kind, !=, BOND_ENTRY_READING);
}

/* --- the registers --- */

static const char *const pages[] = { "surveys", "instruments", "airframes", "limits", "people", "house" };

static GtkWidget *
shown_page (StartFixture *fixture)
{
  GtkWidget *stack = window_find_of_type (GTK_WIDGET (fixture->window), GTK_TYPE_STACK, NULL);

  return gtk_stack_get_visible_child (GTK_STACK (stack));
}

static void
test_reach (StartFixture *fixture, gconstpointer data)
{
  start_make (fixture, "a.bondsurvey", "ZZ-AAA", "1", 3120000);
  start_open (fixture);
  for (gsize i = 0; i < G_N_ELEMENTS (pages); i++)
    {
      GtkWidget *before;

      g_test_message ("%s", pages[i]);
      bond_start_window_show_page (fixture->window, pages[i]);
      screen_spin (300);
      before = shown_page (fixture);
      reach_assert (GTK_WINDOW (fixture->window));
      g_assert_true (shown_page (fixture) == before); /* Tab goes on, it does not turn pages */
    }
}

static char *
put (StartFixture *fixture, const char *folder, const char *name, const char *text)
{
  g_autofree char *path = g_build_filename (fixture->folder, folder, NULL);
  char *file = g_build_filename (path, name, NULL);

  g_assert_cmpint (g_mkdir_with_parents (path, 0700), ==, 0);
  g_assert_true (g_file_set_contents (file, text, -1, NULL));
  return file;
}

/* A bad file takes nothing else away, and is never passed over without a word. */
static void
test_broken_registers (StartFixture *fixture, gconstpointer data)
{
  static const struct
  {
    const char *page, *folder, *others;
  } registers[] = {
    { "instruments", "instruments", "MO-1" },
    { "airframes", "airframes", "Generic twin-jet transport" },
    { "limits", "limits", "Example maintenance manual" },
    { "house", "house", "Pairs agree within" },
  };

  for (gsize i = 0; i < G_N_ELEMENTS (registers); i++)
    g_free (put (fixture, registers[i].folder, "broken.xml", "<?xml version=\"1.0\"?>\n\n<broken attribute/>\n"));
  g_free (put (fixture, "", "people", "no folder"));
  start_open (fixture);
  for (gsize i = 0; i < G_N_ELEMENTS (registers); i++)
    {
      g_autofree char *place = g_strdup_printf ("/%s/broken.xml:3: ", registers[i].folder);

      bond_start_window_show_page (fixture->window, registers[i].page);
      screen_spin (100);
      g_test_message ("%s", place);
      g_assert_nonnull (start_says (shown_page (fixture), "1 thing in this register could not be read."));
      g_assert_nonnull (start_says (shown_page (fixture), place));
      g_assert_nonnull (start_says (shown_page (fixture), registers[i].others));
      reach_assert (GTK_WINDOW (fixture->window));
    }
  bond_start_window_show_page (fixture->window, "people");
  screen_spin (100);
  g_assert_nonnull (start_says (shown_page (fixture), "/people: The folder cannot be read: "));
}

/* Keys of the table of acts reach every page, wherever the focus is. */
static void
test_page_keys (StartFixture *fixture, gconstpointer data)
{
  start_open (fixture);
  for (gsize i = 0; i < G_N_ELEMENTS (pages); i++)
    {
      g_autofree char *action = g_strdup_printf ("start.page::%s", pages[i]);
      g_autofree char *key = g_strdup_printf ("<Alt>%" G_GSIZE_FORMAT, i + 1);
      g_auto (GStrv) accels = gtk_application_get_accels_for_action (GTK_APPLICATION (fixture->application), action);

      g_assert_cmpstr (accels[0], ==, key);
      g_assert_true (gtk_widget_activate_action (gtk_window_get_focus (GTK_WINDOW (fixture->window)) != NULL
                                                     ? gtk_window_get_focus (GTK_WINDOW (fixture->window))
                                                     : GTK_WIDGET (fixture->window),
                                                 "start.page", "s", pages[i]));
      g_assert_cmpstr (gtk_stack_get_visible_child_name (GTK_STACK (gtk_widget_get_parent (shown_page (fixture)))), ==,
                       pages[i]);
      g_assert_true (
          gtk_widget_is_ancestor (gtk_window_get_focus (GTK_WINDOW (fixture->window)), shown_page (fixture)));
    }
  g_assert_true (gtk_widget_activate_action (GTK_WIDGET (fixture->window), "start.find", NULL));
  g_assert_true (gtk_widget_is_ancestor (gtk_window_get_focus (GTK_WINDOW (fixture->window)),
                                         GTK_WIDGET (bond_surveys_page_get_search (start_surveys (fixture)))));
  g_assert_true (gtk_widget_activate_action (GTK_WIDGET (fixture->window), "win.shortcuts", NULL));
  screen_spin (100);
  g_assert_nonnull (start_says (GTK_WIDGET (window_newest_dialog ()), "Start Window"));
  reach_assert (window_newest_dialog ());
}

/* The least size of the table of windows (ui.md section 2) is enough for every page. */
static void
test_least_size (StartFixture *fixture, gconstpointer data)
{
  start_make (fixture, "a.bondsurvey", "ZZ-AAA", "1", 3120000);
  start_open (fixture);
  for (gsize i = 0; i < G_N_ELEMENTS (pages); i++)
    {
      int width = 0, height = 0;

      bond_start_window_show_page (fixture->window, pages[i]);
      screen_spin (100);
      gtk_widget_measure (GTK_WIDGET (fixture->window), GTK_ORIENTATION_HORIZONTAL, -1, &width, NULL, NULL, NULL);
      gtk_widget_measure (GTK_WIDGET (fixture->window), GTK_ORIENTATION_VERTICAL, 900, &height, NULL, NULL, NULL);
      g_test_message ("%s: %d x %d", pages[i], width, height);
      g_assert_cmpint (width, <=, 900);
      g_assert_cmpint (height, <=, 560);
    }
}

static void
add_person (StartFixture *fixture, const char *name, const char *stamp)
{
  GtkWindow *dialog;

  press (GTK_WINDOW (fixture->window), "_Add Person…");
  dialog = window_newest_dialog ();
  g_assert_nonnull (dialog);
  fill (dialog, "Name", name);
  fill (dialog, "Stamp", stamp);
  press (dialog, "Add");
}

static GPtrArray *
people_on_disk (StartFixture *fixture)
{
  static BondCatalog *catalog;

  g_clear_pointer (&catalog, bond_catalog_free);
  if (fixture == NULL)
    return NULL;
  catalog = bond_catalog_new (fixture->folder, NULL);
  return bond_catalog_list (catalog, BOND_ADOPT_PERSON);
}

static void
test_people (StartFixture *fixture, gconstpointer data)
{
  g_autoptr (GPtrArray) people = NULL;
  g_autofree char *first_id = NULL;
  GtkWindow *dialog;

  start_open (fixture);
  bond_start_window_show_page (fixture->window, "people");
  screen_spin (100);
  g_assert_nonnull (start_says (shown_page (fixture), "Nobody here yet."));
  add_person (fixture, "A. Able", "QA 1");
  add_person (fixture, "B. Baker", "");
  people = people_on_disk (fixture);
  g_assert_cmpuint (people->len, ==, 2);
  first_id = g_strdup (((BondPerson *)people->pdata[0])->id);
  g_assert_cmpstr (first_id, !=, ((BondPerson *)people->pdata[1])->id);
  /* The same name and stamp again is refused, and so is none. */
  press (GTK_WINDOW (fixture->window), "_Add Person…");
  dialog = window_newest_dialog ();
  press (dialog, "Add");
  g_assert_nonnull (start_says (GTK_WIDGET (dialog), "A name is needed"));
  fill (dialog, "Name", "B. Baker");
  press (dialog, "Add");
  g_assert_nonnull (start_says (GTK_WIDGET (dialog), "somebody of this name and stamp already"));
  reach_assert (dialog);
  gtk_window_destroy (dialog);
  /* B. Baker was added last and is chosen: disabled, never deleted. */
  press (GTK_WINDOW (fixture->window), "Disable");
  g_assert_nonnull (start_says (shown_page (fixture), "Disabled: cannot be chosen for new work."));
  g_clear_pointer (&people, g_ptr_array_unref);
  people = people_on_disk (fixture);
  g_assert_cmpuint (people->len, ==, 2);
  g_assert_true (((BondPerson *)people->pdata[1])->disabled);
  g_assert_cmpint (((BondPerson *)people->pdata[1])->revision, ==, 2);
  press (GTK_WINDOW (fixture->window), "Correct…");
  dialog = window_newest_dialog ();
  fill (dialog, "Role", "inspector");
  press (dialog, "Save");
  g_clear_pointer (&people, g_ptr_array_unref);
  people = people_on_disk (fixture);
  g_assert_cmpstr (((BondPerson *)people->pdata[1])->role, ==, "inspector");
  g_assert_true (((BondPerson *)people->pdata[1])->disabled); /* a correction does not enable */
  /* Nor does the name typed again. */
  bond_new_survey_dialog (GTK_WINDOW (fixture->window), fixture->application,
                          bond_application_get_source (fixture->application));
  dialog = window_newest_dialog ();
  fill (dialog, "Registration", "ZZ-OLD");
  fill (dialog, "Serial number", "1");
  fill (dialog, "or another name", "B. Baker");
  assert_refused (dialog, "This person is disabled on the page People", "or another name");
  fill (dialog, "or another name", "");
  reach_assert (dialog);
  people_on_disk (NULL);
}

static void
test_house (StartFixture *fixture, gconstpointer data)
{
  g_autoptr (BondCatalog) catalog = NULL;
  GtkWidget *entry, *study;
  const BondHouse *house;

  start_open (fixture);
  bond_start_window_show_page (fixture->window, "house");
  screen_spin (100);
  entry = find_beside (shown_page (fixture), "Pairs agree within");
  gtk_editable_set_text (GTK_EDITABLE (entry), "ten");
  press (GTK_WINDOW (fixture->window), "_Save as New Revision");
  g_assert_nonnull (start_says (shown_page (fixture), "This figure has to be between 1 and 50."));
  g_assert_cmpstr (gtk_editable_get_text (GTK_EDITABLE (entry)), ==, "ten"); /* what was typed is kept */
  gtk_editable_set_text (GTK_EDITABLE (entry), "8");
  gtk_editable_set_text (GTK_EDITABLE (find_beside (shown_page (fixture), "Oxygen from")), "19,6");
  /* A study is of two figures. */
  study = find_named (shown_page (fixture), "Standard deviation in micro-ohm, structure");
  gtk_editable_set_text (GTK_EDITABLE (study), "-3");
  press (GTK_WINDOW (fixture->window), "_Save as New Revision");
  g_assert_nonnull (start_says (shown_page (fixture), "has to be above 0"));
  gtk_editable_set_text (GTK_EDITABLE (study), "12,5");
  press (GTK_WINDOW (fixture->window), "_Save as New Revision");
  g_assert_nonnull (start_says (shown_page (fixture), "has to be of 2 to 100000 placings"));
  gtk_editable_set_text (GTK_EDITABLE (find_named (shown_page (fixture), "Placings, structure")), "10");
  press (GTK_WINDOW (fixture->window), "_Save as New Revision");
  g_assert_nonnull (start_says (shown_page (fixture), "Say who sets these rules"));
  gtk_editable_set_text (GTK_EDITABLE (find_beside (shown_page (fixture), "Set by")), "Q. Quality");
  press (GTK_WINDOW (fixture->window), "_Save as New Revision");
  g_assert_nonnull (start_says (shown_page (fixture), "Saved as revision 2."));
  g_assert_nonnull (start_says (shown_page (fixture), "revision 2, set by Q. Quality on "));
  catalog = bond_catalog_new (fixture->folder, NULL);
  house = bond_catalog_find (catalog, BOND_ADOPT_HOUSE, "house");
  g_assert_cmpint (house->revision, ==, 2);
  g_assert_cmpint (house->pair_percent, ==, 8);
  g_assert_cmpint (house->oxygen_permille_min, ==, 196);
  g_assert_cmpint (house->reseat_max, ==, 3);
  g_assert_cmpstr (house->changed_by, ==, "Q. Quality");
  g_assert_cmpint (house->placing[BOND_CLASS_STRUCTURE].n, ==, 10);
  g_assert_cmpfloat (house->placing[BOND_CLASS_STRUCTURE].s, ==, 12500);
  g_assert_cmpint (house->placing[BOND_CLASS_FASTENER].n, ==, 0);
}

static void
test_details (StartFixture *fixture, gconstpointer data)
{
  start_open (fixture);
  bond_start_window_show_page (fixture->window, "limits");
  screen_spin (100);
  g_assert_nonnull (start_says (shown_page (fixture), "no maker’s data applies"));
  bond_start_window_show_page (fixture->window, "airframes");
  screen_spin (100);
  g_assert_nonnull (start_says (shown_page (fixture), "Points in walking order"));
  bond_start_window_show_page (fixture->window, "instruments");
  screen_spin (100);
  g_assert_nonnull (start_says (shown_page (fixture), "U at half range"));
}

int
main (int argc, char **argv)
{
  static const StartTest tests[] = {
    { "/start/new-survey", test_new_survey }, { "/start/survey-again", test_survey_again },
    { "/start/reach", test_reach },           { "/start/least-size", test_least_size },
    { "/start/people", test_people },         { "/start/house", test_house },
    { "/start/details", test_details },       { "/start/broken-registers", test_broken_registers },
    { "/start/page-keys", test_page_keys },
  };

  return start_run (argc, argv, tests, G_N_ELEMENTS (tests));
}
