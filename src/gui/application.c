/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * Opens what it is given and stays alive when that cannot be used: a message window
 * names file, line, cause and next step.  Safety of data never hangs on there being
 * one instance; the lock of the file sees to it.
 */
#include "gui/application.h"
#include "gui/actions.h"
#include "gui/dialog.h"
#include "gui/dialogs/new-survey-dialog.h"
#include "gui/dialogs/preferences-dialog.h"
#include "gui/files.h"
#include "gui/lock-band.h"
#include "gui/look.h"
#include "gui/pages/before-page.h"
#include "gui/start-window.h"
#include "gui/style.h"
#include "gui/trace.h"
#include "library/beside.h"
#include "library/cautions.h"
#include "library/library.h"
#include <glib/gi18n-lib.h>

struct _BondApplication
{
  GtkApplication parent_instance;
  char *folder;
  BondCatalog *catalog;
  GPtrArray *register_problems; /* of BondProblem */
  BondSource *source;
};

G_DEFINE_FINAL_TYPE (BondApplication, bond_application, GTK_TYPE_APPLICATION)

const char *
bond_application_station (void)
{
  return g_get_host_name ();
}

BondCatalog *
bond_application_get_catalog (BondApplication *self)
{
  g_return_val_if_fail (BOND_IS_APPLICATION (self), NULL);
  if (self->catalog == NULL)
    {
      self->register_problems = g_ptr_array_new_with_free_func ((GDestroyNotify)bond_problem_free);
      self->catalog = bond_catalog_new (self->folder, self->register_problems);
    }
  return self->catalog;
}

GPtrArray *
bond_application_get_register_problems (BondApplication *self)
{
  g_return_val_if_fail (BOND_IS_APPLICATION (self), NULL);
  bond_application_get_catalog (self);
  return self->register_problems;
}

const char *
bond_application_get_folder (BondApplication *self)
{
  g_return_val_if_fail (BOND_IS_APPLICATION (self), NULL);
  return self->folder;
}

BondSource *
bond_application_get_source (BondApplication *self)
{
  g_return_val_if_fail (BOND_IS_APPLICATION (self), NULL);
  return self->source;
}

BondSurveyWindow *
bond_application_show (BondApplication *self, BondSurveyFile *file, GPtrArray *problems)
{
  BondSurveyWindow *window;

  g_return_val_if_fail (BOND_IS_APPLICATION (self) && BOND_IS_SURVEY_FILE (file), NULL);
  window = bond_survey_window_new (GTK_APPLICATION (self), file, bond_application_get_catalog (self), problems);
  bond_trace_first_frame (GTK_WINDOW (window));
  bond_trace_focus (GTK_WINDOW (window));
  gtk_window_present (GTK_WINDOW (window));
  /* A list of recent files is a comfort; that it could not be written is no news for anybody. */
  bond_library_note_recent (bond_survey_file_get_path (file), NULL);
  return window;
}

static BondSurveyWindow *
find_window (BondApplication *self, const char *path)
{
  for (GList *l = gtk_application_get_windows (GTK_APPLICATION (self)); l != NULL; l = l->next)
    if (BOND_IS_SURVEY_WINDOW (l->data)
        && g_strcmp0 (bond_survey_file_get_path (bond_survey_window_get_file (l->data)), path) == 0)
      return l->data;
  return NULL;
}

/* Locked by somebody else: it can still be read. */
static BondSurveyFile *
open_to_read (BondApplication *self, const char *path, const GError *lock, GPtrArray *problems, GError **error)
{
  BondSurveyFile *file
      = bond_survey_file_open (path, BOND_OPEN_READ, self->source, bond_application_station (), problems, error);

  if (file == NULL)
    return NULL;
  bond_survey_set_read_only (bond_survey_file_get_survey (file), lock->message);
  bond_lock_mark (file, lock->code == BOND_STORE_ERROR_LEFT ? BOND_LOCK_LEFT : BOND_LOCK_HELD);
  return file;
}

static gboolean
is_lock (const GError *error)
{
  return g_error_matches (error, BOND_STORE_ERROR, BOND_STORE_ERROR_LOCKED)
         || g_error_matches (error, BOND_STORE_ERROR, BOND_STORE_ERROR_LEFT);
}

/* Shows @file with what is told of it and of its copies. */
static BondSurveyWindow *
show_file (BondApplication *self, BondSurveyFile *file, GPtrArray *problems)
{
  g_autoptr (GPtrArray) copies = bond_copies_beside (bond_survey_file_get_path (file));

  g_ptr_array_extend_and_steal (problems, g_steal_pointer (&copies));
  return bond_application_show (self, file, problems);
}

void
bond_application_take_over (BondApplication *self, BondSurveyWindow *window)
{
  g_autofree char *path = NULL;
  g_autoptr (GPtrArray) problems = g_ptr_array_new_with_free_func ((GDestroyNotify)bond_problem_free);
  g_autoptr (GError) error = NULL;
  g_autoptr (BondSurveyFile) file = NULL;

  g_return_if_fail (BOND_IS_APPLICATION (self) && BOND_IS_SURVEY_WINDOW (window));
  path = g_strdup (bond_survey_file_get_path (bond_survey_window_get_file (window)));
  file = bond_survey_file_open (path, BOND_OPEN_TAKE_OVER, self->source, bond_application_station (), problems, &error);
  if (is_lock (error)) /* somebody was faster: this window goes on reading and looking */
    {
      g_autoptr (GError) lock = g_steal_pointer (&error);

      file = open_to_read (self, path, lock, problems, &error);
    }
  if (file == NULL)
    {
      bond_survey_window_tell (window, "fail", error->message);
      return;
    }
  bond_survey_window_carry (window, show_file (self, file, problems));
  gtk_window_destroy (GTK_WINDOW (window));
}

/* What is left of a survey that cannot be read: the copy the last opening made. */
static void
add_backup (GString *text, const char *path)
{
  g_autofree char *folder = g_path_get_dirname (path);
  g_autofree char *name = g_path_get_basename (path);
  g_autofree char *hidden = g_strdup_printf (".%s.backup", name);
  g_autofree char *backup = g_build_filename (folder, hidden, NULL);

  if (g_file_test (backup, G_FILE_TEST_IS_REGULAR))
    g_string_append_printf (text,
                            _ ("\n\nThe survey as it was before it was last opened for writing is in %s. Copy it to a "
                               "name ending in “.bondsurvey” and open that."),
                            backup);
}

static char *
problem_lines (const GError *error, GPtrArray *problems, const char *path)
{
  GString *text = g_string_new (error->message);

  for (guint i = 0; i < problems->len && i < 12; i++)
    {
      g_autofree char *line = bond_problem_to_string (g_ptr_array_index (problems, i));

      if (strstr (error->message, ((BondProblem *)g_ptr_array_index (problems, i))->message) == NULL)
        g_string_append_printf (text, "\n%s", line);
    }
  add_backup (text, path);
  return g_string_free (text, FALSE);
}

/* What cannot be shown at once is told on the start window where there is no other. */
static GtkWindow *
some_window (BondApplication *self)
{
  GtkWindow *window = gtk_application_get_active_window (GTK_APPLICATION (self));

  return window != NULL ? window : GTK_WINDOW (bond_start_window_show (self));
}

static void
tell_not_opened (BondApplication *self, const char *path, const GError *error, GPtrArray *problems)
{
  g_autofree char *text = problem_lines (error, problems, path);

  bond_message (some_window (self), _ ("This File Could Not Be Opened"), text);
}

/* A survey that somebody else has, while it is asked whether to read it. */
typedef struct
{
  BondApplication *application;
  char *path;
  GError *lock;
} Held;

static void
held_free (gpointer data)
{
  Held *held = data;

  g_object_unref (held->application);
  g_free (held->path);
  g_error_free (held->lock);
  g_free (held);
}

static gboolean
read_only_cb (BondDialog *dialog, gpointer data)
{
  const Held *held = data;
  g_autoptr (GPtrArray) problems = g_ptr_array_new_with_free_func ((GDestroyNotify)bond_problem_free);
  g_autoptr (GError) error = NULL;
  g_autoptr (BondSurveyFile) file = open_to_read (held->application, held->path, held->lock, problems, &error);
  GtkWindow *parent = gtk_window_get_transient_for (GTK_WINDOW (dialog));

  if (file == NULL)
    {
      bond_dialog_set_problem (dialog, error->message);
      return FALSE;
    }
  show_file (held->application, file, problems);
  if (BOND_IS_START_WINDOW (parent))
    {
      /* It takes its dialogs with it. */
      gtk_window_set_transient_for (GTK_WINDOW (dialog), NULL);
      gtk_window_close (parent);
    }
  return TRUE;
}

static void
ask_to_read (BondApplication *self, const char *path, const GError *lock)
{
  Held *held = g_new0 (Held, 1);

  held->application = g_object_ref (self);
  held->path = g_strdup (path);
  held->lock = g_error_copy (lock);
  bond_lock_ask (some_window (self), lock, read_only_cb, held, held_free);
}

BondSurveyWindow *
bond_application_open_survey (BondApplication *self, const char *path)
{
  g_autoptr (GPtrArray) problems = g_ptr_array_new_with_free_func ((GDestroyNotify)bond_problem_free);
  g_autoptr (GError) error = NULL;
  g_autoptr (BondSurveyFile) file = NULL;
  BondSurveyWindow *window;

  g_return_val_if_fail (BOND_IS_APPLICATION (self) && path != NULL, NULL);
  window = find_window (self, path);
  if (window != NULL)
    {
      gtk_window_present (GTK_WINDOW (window));
      return window;
    }
  file = bond_survey_file_open (path, BOND_OPEN_WRITE, self->source, bond_application_station (), problems, &error);
  if (file != NULL)
    return show_file (self, file, problems);
  if (is_lock (error))
    ask_to_read (self, path, error);
  else
    tell_not_opened (self, path, error, problems);
  return NULL;
}

static void
bond_application_open (GApplication *application, GFile **files, int n_files, const char *hint)
{
  for (int i = 0; i < n_files; i++)
    {
      g_autofree char *path = g_file_get_path (files[i]);

      if (path != NULL)
        bond_application_open_survey (BOND_APPLICATION (application), path);
    }
}

static void
bond_application_activate (GApplication *application)
{
  bond_start_window_show (BOND_APPLICATION (application));
}

static void
open_chosen_cb (GFile *file, gpointer data)
{
  g_autofree char *path = file != NULL ? g_file_get_path (file) : NULL;

  if (path != NULL)
    bond_application_open_survey (BOND_APPLICATION (data), path);
}

static void
open_act (GSimpleAction *action, GVariant *parameter, gpointer data)
{
  bond_file_open (gtk_application_get_active_window (data), _ ("Open Survey"), _ ("Surveys"), "*.bondsurvey",
                  open_chosen_cb, data);
}

static void
new_survey_act (GSimpleAction *action, GVariant *parameter, gpointer data)
{
  BondApplication *self = BOND_APPLICATION (data);

  bond_new_survey_dialog (gtk_application_get_active_window (data), self, self->source);
}

static void
start_act (GSimpleAction *action, GVariant *parameter, gpointer data)
{
  bond_start_window_show (BOND_APPLICATION (data));
}

static void
look_act (GSimpleAction *action, GVariant *parameter, gpointer data)
{
  g_simple_action_set_state (action, parameter);
  bond_look_choose (g_variant_get_string (parameter, NULL));
}

static void
about_act (GSimpleAction *action, GVariant *parameter, gpointer data)
{
  BondDialog *dialog
      = bond_dialog_new (gtk_application_get_active_window (data), _ ("About Bondwright"), NULL, NULL, NULL, NULL);
  g_autofree char *version = g_strdup_printf (_ ("Bondwright %s"), BOND_VERSION);
  g_autoptr (GPtrArray) cautions = bond_cautions_all ();

  bond_dialog_add_heading (dialog, version);
  bond_dialog_add_text (dialog,
                        _ ("Surveys of the electrical bonding of aircraft: readings, limits, verdicts, reports."));
  bond_dialog_add_text (dialog,
                        _ ("Free software under the GNU General Public Licence, version 3 or later. No warranty."));
  bond_dialog_add_heading (dialog, _ ("Cautions"));
  bond_dialog_add_text (dialog, bond_cautions_preface ());
  bond_dialog_add_row (dialog, bond_caution_grid_new (cautions));
  gtk_window_set_default_size (GTK_WINDOW (dialog), 760, -1);
  gtk_window_present (GTK_WINDOW (dialog));
}

static void
quit_act (GSimpleAction *action, GVariant *parameter, gpointer data)
{
  g_autoptr (GList) windows = g_list_copy (gtk_application_get_windows (data));

  for (GList *l = windows; l != NULL; l = l->next)
    gtk_window_close (l->data);
}

static void
bond_application_startup (GApplication *application)
{
  static const GActionEntry entries[] = {
    { .name = "open", .activate = open_act },
    { .name = "new-survey", .activate = new_survey_act },
    { .name = "start", .activate = start_act },
    { .name = "about", .activate = about_act },
    { .name = "quit", .activate = quit_act },
    { .name = "look", .activate = look_act, .parameter_type = "s", .state = "'system'" },
  };
  GAction *look;

  G_APPLICATION_CLASS (bond_application_parent_class)->startup (application);
  bond_xml_init ();
  g_action_map_add_action_entries (G_ACTION_MAP (application), entries, G_N_ELEMENTS (entries), application);
  bond_actions_install (GTK_APPLICATION (application));
  bond_style_attach (gdk_display_get_default ());
  look = g_action_map_lookup_action (G_ACTION_MAP (application), "look");
  g_simple_action_set_state (G_SIMPLE_ACTION (look), g_variant_new_string (bond_look_start ()));
  bond_preferences_install (GTK_APPLICATION (application));
  gtk_window_set_default_icon_name (BOND_APP_ID);
}

static void
bond_application_finalize (GObject *object)
{
  BondApplication *self = BOND_APPLICATION (object);

  g_clear_pointer (&self->catalog, bond_catalog_free);
  g_clear_pointer (&self->register_problems, g_ptr_array_unref);
  g_clear_pointer (&self->source, bond_source_unref);
  g_free (self->folder);
  G_OBJECT_CLASS (bond_application_parent_class)->finalize (object);
}

static void
bond_application_class_init (BondApplicationClass *klass)
{
  GApplicationClass *application_class = G_APPLICATION_CLASS (klass);

  G_OBJECT_CLASS (klass)->finalize = bond_application_finalize;
  application_class->startup = bond_application_startup;
  application_class->activate = bond_application_activate;
  application_class->open = bond_application_open;
}

static void
bond_application_init (BondApplication *self)
{
  self->folder = bond_library_default_folder ();
  self->source = bond_source_new_system ();
}

BondApplication *
bond_application_new (void)
{
  return g_object_new (BOND_TYPE_APPLICATION, "application-id", BOND_APP_ID, "flags",
                       G_APPLICATION_HANDLES_OPEN | G_APPLICATION_NON_UNIQUE, NULL);
}
