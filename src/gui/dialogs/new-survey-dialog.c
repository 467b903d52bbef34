/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * Makes a new survey of what its form says, alone or after an earlier one of the
 * same aircraft.  The form is new-survey-form.c's, making the file is library's
 * work.  A wrong field keeps the dialog open with everything that was typed.
 */
#include "gui/dialogs/new-survey-private.h"
#include "gui/words.h"
#include "store/register-file.h"
#include <glib/gi18n-lib.h>

#define HOUSE_ID "house"
#define WIDTH 640

/* --- the earlier surveys of the same aircraft --- */

/* An aircraft that was surveyed before is known: its type, and its serial number where none was typed. */
static void
fill_known_aircraft (BondForm *form, const BondSurveySummary *summary, const char *registration, const char *serial)
{
  for (guint i = 0; i < form->airframes->len; i++)
    if (g_strcmp0 (((BondAirframe *)form->airframes->pdata[i])->id, summary->aircraft_type) == 0)
      gtk_drop_down_set_selected (form->airframe, i);
  if (serial == NULL && summary->serial != NULL && g_strcmp0 (registration, summary->registration) == 0)
    gtk_editable_set_text (form->text[BOND_FORM_SERIAL], summary->serial);
}

static void
offer_earlier (BondForm *form)
{
  g_autofree char *registration = bond_form_text (form, BOND_FORM_REGISTRATION);
  g_autofree char *serial = bond_form_text (form, BOND_FORM_SERIAL);
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
      date = bond_words_date (summary->made_at);
      name = g_strdup_printf ("%s, %s", summary->title != NULL ? summary->title : summary->registration, date);
      gtk_string_list_append (names, name);
      g_ptr_array_add (form->offered, summary);
    }
  gtk_drop_down_set_model (form->earlier, G_LIST_MODEL (names));
  gtk_drop_down_set_selected (form->earlier, form->offered->len > 0 ? 1 : 0);
  if (form->offered->len > 0)
    fill_known_aircraft (form, form->offered->pdata[0], registration, serial);
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
  BondForm *form = data;

  if (g_error_matches (error, G_IO_ERROR, G_IO_ERROR_CANCELLED))
    return; /* the form is gone */
  form->found = found;
  offer_earlier (form);
}

static void
scan (BondForm *form)
{
  g_autoptr (GTask) task = g_task_new (NULL, form->cancellable, scanned_cb, form);

  g_task_set_task_data (task, g_strdup (bond_application_get_folder (form->application)), g_free);
  g_task_run_in_thread (task, scan_thread);
}

/* --- what comes along --- */

static BondSurveyFile *
open_earlier (const char *path, BondSource *source, GError **error)
{
  g_autoptr (GPtrArray) problems = g_ptr_array_new_with_free_func ((GDestroyNotify)bond_problem_free);
  g_autoptr (BondSurveyFile) file
      = bond_survey_file_open (path, BOND_OPEN_READ, source, bond_application_station (), problems, error);

  if (file == NULL)
    return NULL;
  if (bond_survey_file_is_broken (file))
    {
      g_set_error_literal (error, BOND_STORE_ERROR, BOND_STORE_ERROR_CHAIN,
                           _ ("The earlier survey was altered, and nothing of it is taken over. No survey was made; "
                              "choose another one, or none."));
      return NULL;
    }
  return g_steal_pointer (&file);
}

/* What the chosen earlier survey leaves, where its hand-placed points have a place in the airframe chosen now. */
static gboolean
collect_earlier (BondForm *form, BondNewSurvey *what, BondCarry **carry, GError **error)
{
  guint selected = form->earlier != NULL ? gtk_drop_down_get_selected (form->earlier) : 0;
  g_autoptr (BondSurveyFile) file = NULL;

  what->carry = form->again;
  if (selected == 0 || selected > form->offered->len)
    return TRUE;
  file = open_earlier (((BondSurveySummary *)form->offered->pdata[selected - 1])->path, form->source, error);
  if (file == NULL)
    return FALSE;
  *carry = bond_library_carry (bond_survey_file_get_survey (file));
  if (bond_carry_fits (*carry, what->airframe))
    what->carry = *carry;
  else
    what->earlier = (*carry)->earlier;
  return TRUE;
}

/* Limit sets that hand-placed points were judged by come along too, in the newest revision there is. */
static void
add_sets_of_carry (BondForm *form, const BondCarry *carry, GPtrArray *sets)
{
  for (guint i = 0; carry != NULL && i < carry->limit_sets->len; i++)
    {
      BondLimitSet *set = carry->limit_sets->pdata[i];
      gboolean there = FALSE;

      for (guint j = 0; j < sets->len; j++)
        there = there || g_str_equal (((BondLimitSet *)sets->pdata[j])->id, set->id);
      if (!there)
        g_ptr_array_add (sets, bond_limit_set_ref (set));
    }
}

/* --- making it --- */

static BondPerson *
chosen_person (BondForm *form)
{
  g_autofree char *name = bond_form_text (form, BOND_FORM_NAME);
  g_autofree char *id = NULL;
  BondPerson *listed = bond_form_chosen (form->person, form->people);

  if (name == NULL)
    return listed != NULL ? bond_person_ref (listed) : NULL;
  for (guint i = 0; i < form->people->len; i++)
    if (g_strcmp0 (((BondPerson *)form->people->pdata[i])->name, name) == 0)
      return bond_person_ref (form->people->pdata[i]);
  id = bond_source_id (form->source, "p-");
  return bond_person_new (id, 1, name, NULL, NULL);
}

/* Typed once, picked after; that the register could not be written is no reason to have no survey. */
static void
keep_person (BondForm *form, BondPerson *person)
{
  BondCatalog *catalog = bond_application_get_catalog (form->application);
  g_autoptr (GError) error = NULL;

  if (bond_catalog_find (catalog, BOND_ADOPT_PERSON, person->id) == NULL
      && !bond_catalog_save (catalog, BOND_ADOPT_PERSON, person, &error))
    g_debug ("%s", error->message);
}

static BondSurveyFile *
make_survey (BondForm *form, BondNewSurvey *what, GError **error)
{
  const char *folder = bond_application_get_folder (form->application);
  g_autoptr (BondPerson) person = chosen_person (form);
  g_autoptr (GPtrArray) sets = bond_form_sets (form);
  g_autoptr (GPtrArray) people = g_ptr_array_new ();
  g_autoptr (GPtrArray) instruments = bond_form_instruments (form);
  g_autoptr (GPtrArray) zones = bond_zone_tree_get_zones (form->zones);
  g_autoptr (BondCarry) carry = NULL;
  g_autofree char *path = bond_library_free_path (folder, what->registration, form->source);
  BondSurveyFile *file;

  if (!collect_earlier (form, what, &carry, error))
    return NULL;
  add_sets_of_carry (form, what->carry, sets);
  g_ptr_array_add (people, person);
  what->house = bond_catalog_find (bond_application_get_catalog (form->application), BOND_ADOPT_HOUSE, HOUSE_ID);
  what->limit_sets = sets;
  what->people = people;
  what->instruments = instruments;
  what->zones = zones;
  what->person_id = person->id;
  g_mkdir_with_parents (folder, 0755);
  file = bond_library_new_survey (path, what, form->source, bond_application_station (), error);
  if (file != NULL)
    keep_person (form, person);
  return file;
}

static BondSurveyFile *
make_from_form (BondForm *form, GError **error)
{
  g_autofree char *trigger = bond_form_trigger (form);
  g_autofree char *power = bond_form_power (form);
  g_autofree char *fuel = bond_form_fuel (form);
  g_autoptr (GStrvBuilder) kept = g_strv_builder_new ();
  g_auto (GStrv) owned = NULL;
  BondNewSurvey what = { .trigger = trigger, .power = power, .fuel = fuel };

  for (int i = 0; i < BOND_N_FORM_TEXTS; i++)
    {
      g_autofree char *one = bond_form_text (form, i);

      g_strv_builder_add (kept, one != NULL ? one : "");
    }
  owned = g_strv_builder_end (kept);
#define TEXT(field) (*owned[field] != '\0' ? owned[field] : NULL)
  what.registration = form->header != NULL ? form->header->registration : TEXT (BOND_FORM_REGISTRATION);
  what.serial = form->header != NULL ? form->header->serial : TEXT (BOND_FORM_SERIAL);
  what.title = TEXT (BOND_FORM_TITLE);
  what.order = TEXT (BOND_FORM_ORDER);
  what.card = TEXT (BOND_FORM_CARD);
  what.card_revision = TEXT (BOND_FORM_CARD_REVISION);
  what.customer = TEXT (BOND_FORM_CUSTOMER);
  what.location = TEXT (BOND_FORM_PLACE);
  what.hours = TEXT (BOND_FORM_HOURS);
  what.cycles = TEXT (BOND_FORM_CYCLES);
  what.data_checked_by = TEXT (BOND_FORM_CHECKED_BY);
  what.data_checked_on = TEXT (BOND_FORM_CHECKED_ON);
#undef TEXT
  what.airframe = bond_form_airframe (form);
  what.invented = form->header != NULL && form->header->invented;
  what.rule = gtk_drop_down_get_selected (form->rule) == 0 ? BOND_RULE_SIMPLE : BOND_RULE_GUARDED;
  return make_survey (form, &what, error);
}

static gboolean
new_survey_act (BondDialog *dialog, gpointer data)
{
  BondForm *form = data;
  GtkWidget *wrong = NULL;
  const char *problem = bond_form_find_problem (form, &wrong);
  g_autoptr (BondSurveyFile) file = NULL;
  g_autoptr (GError) error = NULL;

  if (problem == NULL)
    {
      file = make_from_form (form, &error);
      problem = file == NULL ? error->message : NULL;
    }
  if (problem != NULL)
    {
      bond_dialog_set_problem (dialog, problem);
      /* A box cannot have the focus; what is in it can. */
      if (wrong != NULL && !gtk_widget_grab_focus (wrong))
        gtk_widget_child_focus (wrong, GTK_DIR_TAB_FORWARD);
      return FALSE;
    }
  bond_application_show (form->application, file, NULL);
  return TRUE;
}

/* --- the form --- */

static void
form_free (gpointer data)
{
  BondForm *form = data;

  g_cancellable_cancel (form->cancellable);
  g_clear_object (&form->cancellable);
  g_clear_object (&form->again_file);
  g_clear_pointer (&form->again, bond_carry_free);
  g_clear_pointer (&form->source, bond_source_unref);
  g_clear_pointer (&form->airframes, g_ptr_array_unref);
  g_clear_pointer (&form->sets, g_ptr_array_unref);
  g_clear_pointer (&form->people, g_ptr_array_unref);
  g_clear_pointer (&form->instruments, g_ptr_array_unref);
  g_clear_pointer (&form->set_checks, g_ptr_array_unref);
  g_clear_pointer (&form->instrument_checks, g_ptr_array_unref);
  g_clear_pointer (&form->offered, g_ptr_array_unref);
  g_clear_pointer (&form->found, g_ptr_array_unref);
  g_free (form);
}

/* Held, not borrowed: the register may get a newer revision while the form is open. */
static GPtrArray *
held_list (BondCatalog *catalog, BondAdoptKind what, GDestroyNotify unref)
{
  g_autoptr (GPtrArray) listed = bond_catalog_list (catalog, what);
  GPtrArray *held = g_ptr_array_new_with_free_func (unref);

  for (guint i = 0; i < listed->len; i++)
    g_ptr_array_add (held, bond_register_ref (what, listed->pdata[i]));
  return held;
}

static void
drop_not_offered (BondForm *form)
{
  for (guint i = form->instruments->len; i-- > 0;)
    {
      const BondInstrument *instrument = g_ptr_array_index (form->instruments, i);

      if (instrument->kind != BOND_INSTRUMENT_MILLIOHMMETER && instrument->kind != BOND_INSTRUMENT_MEGOHMMETER)
        g_ptr_array_remove_index (form->instruments, i);
    }
  for (guint i = form->people->len; i-- > 0;)
    if (((BondPerson *)g_ptr_array_index (form->people, i))->disabled)
      g_ptr_array_remove_index (form->people, i);
}

static BondForm *
form_new (BondApplication *application, BondSource *source)
{
  BondCatalog *catalog = bond_application_get_catalog (application);
  BondForm *form = g_new0 (BondForm, 1);

  form->application = application;
  form->source = bond_source_ref (source);
  form->airframes = held_list (catalog, BOND_ADOPT_AIRFRAME, (GDestroyNotify)bond_airframe_unref);
  form->sets = held_list (catalog, BOND_ADOPT_LIMIT_SET, (GDestroyNotify)bond_limit_set_unref);
  form->people = held_list (catalog, BOND_ADOPT_PERSON, (GDestroyNotify)bond_person_unref);
  form->instruments = held_list (catalog, BOND_ADOPT_INSTRUMENT, (GDestroyNotify)bond_instrument_unref);
  form->set_checks = g_ptr_array_new ();
  form->instrument_checks = g_ptr_array_new ();
  form->offered = g_ptr_array_new ();
  form->cancellable = g_cancellable_new ();
  drop_not_offered (form);
  return form;
}

static void
show_form (BondForm *form, GtkWindow *parent, const char *title)
{
  BondFormText first = form->again != NULL ? BOND_FORM_ORDER : BOND_FORM_REGISTRATION;

  form->dialog = bond_dialog_new (parent, title, _ ("Make Survey"), new_survey_act, form, form_free);
  gtk_window_set_default_size (GTK_WINDOW (form->dialog), WIDTH, -1);
  bond_form_build (form);
  /* Before it is shown: a window that opens gives the keys to its first field and selects what stands there. */
  gtk_widget_grab_focus (GTK_WIDGET (form->text[first]));
  gtk_window_present (GTK_WINDOW (form->dialog));
}

void
bond_new_survey_dialog (GtkWindow *parent, BondApplication *application, BondSource *source)
{
  BondForm *form;

  g_return_if_fail (BOND_IS_APPLICATION (application) && source != NULL);
  form = form_new (application, source);
  show_form (form, parent, _ ("New Survey"));
  g_signal_connect_swapped (form->text[BOND_FORM_REGISTRATION], "changed", G_CALLBACK (offer_earlier), form);
  g_signal_connect_swapped (form->text[BOND_FORM_SERIAL], "changed", G_CALLBACK (offer_earlier), form);
  scan (form);
}

/* The newest revision of the airframe, unless points placed by hand would lose their place in it. */
static void
renew_airframe (BondForm *form)
{
  BondAirframe *newest = form->again->airframe != NULL
                             ? bond_catalog_find (bond_application_get_catalog (form->application), BOND_ADOPT_AIRFRAME,
                                                  form->again->airframe->id)
                             : NULL;

  if (newest == NULL || newest->revision <= form->again->airframe->revision || !bond_carry_fits (form->again, newest))
    return;
  bond_airframe_unref (form->again->airframe);
  form->again->airframe = bond_airframe_ref (newest);
}

void
bond_survey_again_dialog (GtkWindow *parent, BondApplication *application, BondSource *source, const char *path)
{
  g_autoptr (GError) error = NULL;
  BondSurveyFile *file;
  BondForm *form;

  g_return_if_fail (BOND_IS_APPLICATION (application) && source != NULL && path != NULL);
  file = open_earlier (path, source, &error);
  if (file == NULL)
    {
      bond_message (parent, _ ("No Survey Again"), error->message);
      return;
    }
  form = form_new (application, source);
  form->again_file = file;
  form->again = bond_library_carry (bond_survey_file_get_survey (file));
  form->header = bond_survey_get_header (bond_survey_file_get_survey (file));
  if (form->header == NULL || form->again->airframe == NULL)
    {
      bond_message (parent, _ ("No Survey Again"),
                    _ ("The earlier survey does not say which aircraft it is of. Make a new survey instead."));
      form_free (form);
      return;
    }
  renew_airframe (form);
  show_form (form, parent, _ ("Survey Again"));
}
