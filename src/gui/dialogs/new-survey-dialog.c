/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * The form of a new survey.  Public limit sets are switched off at first: choosing
 * one says that no maker's data applies.  Making the survey is library's work.
 */
#include "gui/dialogs/new-survey-dialog.h"
#include "gui/dialog.h"
#include "gui/words.h"
#include "library/library.h"
#include <glib/gi18n-lib.h>

typedef struct
{
  BondApplication *application; /* outlives the dialog */
  BondSource *source;
  GPtrArray *airframes, *sets, *people, *instruments; /* borrowed from the catalogue */
  GPtrArray *checks;                                  /* GtkCheckButton of each set */
  GPtrArray *found;                                   /* of BondSurveySummary: the library */
  GPtrArray *offered;                                 /* borrowed from found: same aircraft */
  GtkDropDown *airframe, *person, *instrument, *rule, *earlier;
  GtkEditable *registration, *serial, *title, *order, *name;
  GtkLabel *note;
  BondDialog *dialog;
  GCancellable *cancellable;
} Form;

static void
form_free (gpointer data)
{
  Form *form = data;

  g_cancellable_cancel (form->cancellable);
  g_clear_object (&form->cancellable);
  g_clear_pointer (&form->source, bond_source_unref);
  g_clear_pointer (&form->airframes, g_ptr_array_unref);
  g_clear_pointer (&form->sets, g_ptr_array_unref);
  g_clear_pointer (&form->people, g_ptr_array_unref);
  g_clear_pointer (&form->instruments, g_ptr_array_unref);
  g_clear_pointer (&form->checks, g_ptr_array_unref);
  g_clear_pointer (&form->offered, g_ptr_array_unref);
  g_clear_pointer (&form->found, g_ptr_array_unref);
  g_free (form);
}

static gpointer
chosen (GtkDropDown *drop, GPtrArray *from)
{
  guint selected = drop != NULL ? gtk_drop_down_get_selected (drop) : GTK_INVALID_LIST_POSITION;

  return selected < from->len ? g_ptr_array_index (from, selected) : NULL;
}

/* --- limit sets --- */

static GtkWidget *
check_of (Form *form, guint set)
{
  return g_ptr_array_index (form->checks, set);
}

static void
set_toggled_cb (Form *form)
{
  gboolean by_choice = FALSE, by_airframe = FALSE;

  for (guint i = 0; i < form->checks->len; i++)
    {
      GtkWidget *check = check_of (form, i);

      if (((BondLimitSet *)g_ptr_array_index (form->sets, i))->enabled
          || !gtk_check_button_get_active (GTK_CHECK_BUTTON (check)))
        continue;
      if (gtk_widget_get_sensitive (check))
        by_choice = TRUE;
      else
        by_airframe = TRUE;
    }
  gtk_label_set_text (
      form->note,
      by_airframe ? _ ("Points of this airframe are judged by a published set, so it is always taken along. By making "
                       "the survey you state that no maker’s data applies to the points that use it.")
      : by_choice ? _ ("By choosing a published set you state that no maker’s data applies to the points that use it.")
                  : _ ("Sets named by the airframe’s points are always taken along."));
}

/* Sets the points of the airframe name are ticked and cannot be left out. */
static void
airframe_changed_cb (Form *form)
{
  const BondAirframe *airframe = chosen (form->airframe, form->airframes);
  g_autoptr (GPtrArray) named = airframe != NULL
                                    ? bond_library_sets_for (airframe, bond_application_get_catalog (form->application))
                                    : g_ptr_array_new ();

  for (guint i = 0; i < form->checks->len; i++)
    {
      BondLimitSet *set = g_ptr_array_index (form->sets, i);
      GtkWidget *check = check_of (form, i);
      gboolean is_named = g_ptr_array_find (named, set, NULL);

      if (is_named)
        gtk_check_button_set_active (GTK_CHECK_BUTTON (check), TRUE);
      else if (!gtk_widget_get_sensitive (check))
        gtk_check_button_set_active (GTK_CHECK_BUTTON (check), set->enabled);
      gtk_widget_set_sensitive (check, !is_named);
    }
  set_toggled_cb (form);
}

/* A published set is shipped switched off; the survey gets a copy that is on. */
static BondLimitSet *
switched_on (BondLimitSet *set)
{
  BondLimitSet *copy;

  if (set->enabled)
    return bond_limit_set_ref (set);
  copy = bond_limit_set_new (set->id, set->revision, set->name);
  copy->note = g_strdup (set->note);
  copy->invented = set->invented;
  copy->enabled = TRUE;
  for (guint i = 0; i < set->rows->len; i++)
    bond_limit_set_add (copy, bond_limit_row_ref (g_ptr_array_index (set->rows, i)), NULL);
  return copy;
}

static GPtrArray *
chosen_sets (Form *form)
{
  GPtrArray *sets = g_ptr_array_new_with_free_func ((GDestroyNotify)bond_limit_set_unref);

  for (guint i = 0; i < form->sets->len; i++)
    if (gtk_check_button_get_active (GTK_CHECK_BUTTON (check_of (form, i))))
      g_ptr_array_add (sets, switched_on (g_ptr_array_index (form->sets, i)));
  return sets;
}

/* --- the earlier survey --- */

static void
offer_earlier (Form *form)
{
  g_autofree char *registration = bond_dialog_text (form->registration);
  g_autofree char *serial = bond_dialog_text (form->serial);
  g_autoptr (GtkStringList) names = gtk_string_list_new (NULL);

  g_ptr_array_set_size (form->offered, 0);
  gtk_string_list_append (names, _ ("none"));
  for (guint i = 0; form->found != NULL && i < form->found->len; i++)
    {
      BondSurveySummary *summary = g_ptr_array_index (form->found, i);
      gboolean same = (registration != NULL && g_strcmp0 (registration, summary->registration) == 0)
                      || (serial != NULL && g_strcmp0 (serial, summary->serial) == 0);
      g_autofree char *date = NULL;
      g_autofree char *name = NULL;

      if (!same || summary->problem != NULL)
        continue;
      date = bond_words_date (summary->changed_at);
      name = g_strdup_printf ("%s, %s", summary->title != NULL ? summary->title : summary->registration, date);
      gtk_string_list_append (names, name);
      g_ptr_array_add (form->offered, summary);
    }
  gtk_drop_down_set_model (form->earlier, G_LIST_MODEL (names));
  gtk_drop_down_set_selected (form->earlier, form->offered->len > 0 ? 1 : 0);
}

static void
summaries_free (gpointer data)
{
  g_ptr_array_unref (data);
}

static void
scan_thread (GTask *task, gpointer source, gpointer folder, GCancellable *cancellable)
{
  GError *error = NULL;
  GPtrArray *found = bond_library_scan (folder, cancellable, &error);

  if (found != NULL)
    g_task_return_pointer (task, found, summaries_free);
  else
    g_task_return_error (task, error);
}

static void
scanned_cb (GObject *object, GAsyncResult *result, gpointer data)
{
  g_autoptr (GError) error = NULL;
  GPtrArray *found = g_task_propagate_pointer (G_TASK (result), &error);
  Form *form = data;

  if (g_error_matches (error, G_IO_ERROR, G_IO_ERROR_CANCELLED))
    return; /* the form is gone */
  form->found = found;
  offer_earlier (form);
}

static void
scan (Form *form)
{
  g_autoptr (GTask) task = NULL;

  form->cancellable = g_cancellable_new ();
  task = g_task_new (NULL, form->cancellable, scanned_cb, form);
  g_task_set_task_data (task, g_strdup (bond_application_get_folder (form->application)), g_free);
  g_task_run_in_thread (task, scan_thread);
}

/* What the earlier survey found, and what it had been told itself. */
static gboolean
collect_earlier (Form *form, GPtrArray *earlier, GError **error)
{
  guint selected = gtk_drop_down_get_selected (form->earlier);
  g_autoptr (GPtrArray) problems = g_ptr_array_new_with_free_func ((GDestroyNotify)bond_problem_free);
  g_autoptr (BondSurveyFile) file = NULL;
  BondSurveySummary *summary;
  GPtrArray *before;

  if (selected == 0 || selected > form->offered->len)
    return TRUE;
  summary = g_ptr_array_index (form->offered, selected - 1);
  file = bond_survey_file_open (summary->path, BOND_OPEN_READ, form->source, bond_application_station (), problems,
                                error);
  if (file == NULL)
    return FALSE;
  if (bond_survey_file_is_broken (file))
    {
      g_set_error_literal (error, BOND_STORE_ERROR, BOND_STORE_ERROR_CHAIN,
                           _ ("The earlier survey was altered, and nothing of it is taken over. No survey was made; "
                              "choose another one, or none."));
      return FALSE;
    }
  before = bond_survey_get_earlier (bond_survey_file_get_survey (file));
  for (guint i = 0; before != NULL && i < before->len; i++)
    g_ptr_array_add (earlier, bond_earlier_ref (g_ptr_array_index (before, i)));
  g_ptr_array_add (earlier, bond_library_earlier (bond_survey_file_get_survey (file)));
  return TRUE;
}

/* --- making it --- */

static char *
free_path (Form *form, const char *registration)
{
  const char *folder = bond_application_get_folder (form->application);
  g_autofree char *now = bond_source_now (form->source);
  g_autofree char *stem = g_strdup_printf ("%s %.10s", registration, now);

  g_strdelimit (stem, "/\\:", '-');
  for (int i = 1;; i++)
    {
      g_autofree char *name
          = i == 1 ? g_strdup_printf ("%s.bondsurvey", stem) : g_strdup_printf ("%s %d.bondsurvey", stem, i);
      char *path = g_build_filename (folder, name, NULL);

      if (!g_file_test (path, G_FILE_TEST_EXISTS))
        return path;
      g_free (path);
    }
}

static BondPerson *
chosen_person (Form *form)
{
  g_autofree char *name = bond_dialog_text (form->name);
  g_autofree char *id = NULL;
  BondPerson *listed = chosen (form->person, form->people);

  if (name == NULL)
    return listed != NULL ? bond_person_ref (listed) : NULL;
  id = bond_source_id (form->source, "p-");
  return bond_person_new (id, 1, name, NULL, NULL);
}

static BondSurveyFile *
make_survey (Form *form, BondNewSurvey *what, BondPerson *person, GError **error)
{
  g_autoptr (GPtrArray) sets = chosen_sets (form);
  g_autoptr (GPtrArray) people = g_ptr_array_new ();
  g_autoptr (GPtrArray) instruments = g_ptr_array_new ();
  g_autoptr (GPtrArray) earlier = g_ptr_array_new_with_free_func ((GDestroyNotify)bond_earlier_unref);
  g_autofree char *path = free_path (form, what->registration);
  gpointer instrument = chosen (form->instrument, form->instruments);

  if (!collect_earlier (form, earlier, error))
    return NULL;
  g_ptr_array_add (people, person);
  if (instrument != NULL)
    g_ptr_array_add (instruments, instrument);
  what->limit_sets = sets;
  what->people = people;
  what->instruments = instruments;
  what->earlier = earlier;
  what->person_id = person->id;
  g_mkdir_with_parents (bond_application_get_folder (form->application), 0755);
  return bond_library_new_survey (path, what, form->source, bond_application_station (), error);
}

static const char *
find_problem (Form *form, const char *registration, const char *serial, const BondPerson *person)
{
  if (chosen (form->airframe, form->airframes) == NULL)
    return _ ("There is no airframe to choose.");
  if (registration == NULL || serial == NULL)
    return _ ("The survey needs the registration and the serial number of the aircraft.");
  if (person == NULL)
    return _ ("Say who measures; every reading carries a name.");
  return NULL;
}

static gboolean
new_survey_act (BondDialog *dialog, gpointer data)
{
  Form *form = data;
  g_autofree char *registration = bond_dialog_text (form->registration);
  g_autofree char *serial = bond_dialog_text (form->serial);
  g_autofree char *title = bond_dialog_text (form->title);
  g_autofree char *order = bond_dialog_text (form->order);
  g_autoptr (BondPerson) person = chosen_person (form);
  const char *problem = find_problem (form, registration, serial, person);
  g_autoptr (BondSurveyFile) file = NULL;
  g_autoptr (GError) error = NULL;
  BondNewSurvey what = { .registration = registration, .serial = serial, .title = title, .order = order };

  if (problem == NULL)
    {
      what.airframe = chosen (form->airframe, form->airframes);
      what.rule = gtk_drop_down_get_selected (form->rule) == 0 ? BOND_RULE_SIMPLE : BOND_RULE_GUARDED;
      file = make_survey (form, &what, person, &error);
      problem = file == NULL ? error->message : NULL;
    }
  if (problem != NULL)
    {
      bond_dialog_set_problem (dialog, problem);
      return FALSE;
    }
  bond_application_show (form->application, file, NULL);
  return TRUE;
}

/* --- the form --- */

static GtkDropDown *
add_objects (BondDialog *dialog, const char *label, GPtrArray *objects, const char *(*name_of) (gconstpointer))
{
  g_autoptr (GPtrArray) names = g_ptr_array_new ();

  for (guint i = 0; i < objects->len; i++)
    g_ptr_array_add (names, (gpointer)name_of (g_ptr_array_index (objects, i)));
  g_ptr_array_add (names, NULL);
  return bond_dialog_add_choice (dialog, label, (const char *const *)names->pdata, 0);
}

static const char *
airframe_name (gconstpointer airframe)
{
  return ((const BondAirframe *)airframe)->name;
}

static const char *
person_name (gconstpointer person)
{
  return ((const BondPerson *)person)->name;
}

static const char *
instrument_name (gconstpointer instrument)
{
  return ((const BondInstrument *)instrument)->name;
}

/* A list with nobody in it is no choice: only the name is asked then. */
static void
add_person (BondDialog *dialog, Form *form)
{
  if (form->people->len > 0)
    form->person = add_objects (dialog, _ ("_Inspector"), form->people, person_name);
  form->name = bond_dialog_add_entry (dialog, form->people->len > 0 ? _ ("or another _name") : _ ("_Inspector"), NULL);
}

/* What was missing is being typed: the complaint goes. */
static void
typed_cb (Form *form)
{
  bond_dialog_set_problem (form->dialog, NULL);
}

static void
connect_entries (Form *form)
{
  GtkEditable *entries[] = { form->registration, form->serial, form->title, form->order, form->name };

  for (gsize i = 0; i < G_N_ELEMENTS (entries); i++)
    g_signal_connect_swapped (entries[i], "changed", G_CALLBACK (typed_cb), form);
  g_signal_connect_swapped (form->registration, "changed", G_CALLBACK (offer_earlier), form);
  g_signal_connect_swapped (form->serial, "changed", G_CALLBACK (offer_earlier), form);
}

static void
add_sets (BondDialog *dialog, Form *form)
{
  bond_dialog_add_heading (dialog, _ ("Limit Sets"));
  for (guint i = 0; i < form->sets->len; i++)
    {
      BondLimitSet *set = g_ptr_array_index (form->sets, i);
      GtkCheckButton *check = bond_dialog_add_check (dialog, set->name, set->enabled);

      gtk_widget_set_tooltip_text (GTK_WIDGET (check), set->note);
      g_signal_connect_swapped (check, "toggled", G_CALLBACK (set_toggled_cb), form);
      g_ptr_array_add (form->checks, check);
    }
  form->note = bond_dialog_add_text (dialog, "");
  g_signal_connect_swapped (form->airframe, "notify::selected", G_CALLBACK (airframe_changed_cb), form);
  airframe_changed_cb (form);
}

static void
keep_meters (GPtrArray *instruments)
{
  for (guint i = instruments->len; i-- > 0;)
    {
      const BondInstrument *instrument = g_ptr_array_index (instruments, i);

      if (instrument->kind != BOND_INSTRUMENT_MILLIOHMMETER && instrument->kind != BOND_INSTRUMENT_MEGOHMMETER)
        g_ptr_array_remove_index (instruments, i);
    }
}

/* Most walks are made with a milliohmmeter: offer the first one. */
static void
select_milliohmmeter (Form *form)
{
  for (guint i = 0; i < form->instruments->len; i++)
    if (((BondInstrument *)g_ptr_array_index (form->instruments, i))->kind == BOND_INSTRUMENT_MILLIOHMMETER)
      {
        gtk_drop_down_set_selected (form->instrument, i);
        return;
      }
}

static Form *
form_new (BondApplication *application, BondSource *source)
{
  BondCatalog *catalog = bond_application_get_catalog (application);
  Form *form = g_new0 (Form, 1);

  form->application = application;
  form->source = bond_source_ref (source);
  form->airframes = bond_catalog_list (catalog, BOND_ADOPT_AIRFRAME);
  form->sets = bond_catalog_list (catalog, BOND_ADOPT_LIMIT_SET);
  form->people = bond_catalog_list (catalog, BOND_ADOPT_PERSON);
  form->instruments = bond_catalog_list (catalog, BOND_ADOPT_INSTRUMENT);
  form->checks = g_ptr_array_new ();
  form->offered = g_ptr_array_new ();
  keep_meters (form->instruments);
  return form;
}

void
bond_new_survey_dialog (GtkWindow *parent, BondApplication *application, BondSource *source)
{
  Form *form = form_new (application, source);
  const char *rules[] = { bond_rule_name (BOND_RULE_SIMPLE), bond_rule_name (BOND_RULE_GUARDED), NULL };
  BondDialog *dialog = bond_dialog_new (parent, _ ("New Survey"), _ ("Make Survey"), new_survey_act, form, form_free);

  form->dialog = dialog;
  form->airframe = add_objects (dialog, _ ("_Airframe"), form->airframes, airframe_name);
  form->registration = bond_dialog_add_entry (dialog, _ ("_Registration"), NULL);
  form->serial = bond_dialog_add_entry (dialog, _ ("_Serial number"), NULL);
  form->title = bond_dialog_add_entry (dialog, _ ("_Title"), NULL);
  form->order = bond_dialog_add_entry (dialog, _ ("_Work order"), NULL);
  form->earlier = bond_dialog_add_choice (dialog, _ ("_Earlier survey"), (const char *[]){ _ ("none"), NULL }, 0);
  add_person (dialog, form);
  form->instrument = add_objects (dialog, _ ("Instr_ument"), form->instruments, instrument_name);
  select_milliohmmeter (form);
  form->rule = bond_dialog_add_choice (dialog, _ ("_Decision rule"), rules, 0);
  add_sets (dialog, form);
  connect_entries (form);
  gtk_widget_set_sensitive (GTK_WIDGET (form->instrument), form->instruments->len > 0);
  scan (form);
  gtk_window_present (GTK_WINDOW (dialog));
  gtk_widget_grab_focus (GTK_WIDGET (form->registration));
}
