/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * What the page Surveys does to a file: opens it, in a thread and with a word when
 * that takes long, looks at it without writing, copies it, finds it again, or takes
 * it off the list.  No act here ever deletes or changes a survey.
 */
#include "gui/dialog.h"
#include "gui/dialogs/new-survey-dialog.h"
#include "gui/files.h"
#include "gui/lock-band.h"
#include "gui/start/due.h"
#include "gui/start/opening.h"
#include "gui/start/surveys-private.h"
#include "gui/words.h"
#include <glib/gi18n-lib.h>

static GtkWindow *
window_of (BondSurveysPage *self)
{
  return GTK_WINDOW (gtk_widget_get_root (GTK_WIDGET (self)));
}

static const BondSurveySummary *
summary_of (BondSurveysPage *self, const char *path)
{
  for (guint i = 0; self->found != NULL && i < self->found->len; i++)
    if (g_strcmp0 (((BondSurveySummary *)self->found->pdata[i])->path, path) == 0)
      return self->found->pdata[i];
  return NULL;
}

static GtkWindow *
own_window (BondSurveysPage *self, const char *path)
{
  for (GList *l = gtk_application_get_windows (GTK_APPLICATION (self->application)); l != NULL; l = l->next)
    if (BOND_IS_SURVEY_WINDOW (l->data)
        && g_strcmp0 (bond_survey_file_get_path (bond_survey_window_get_file (l->data)), path) == 0)
      return l->data;
  return NULL;
}

gboolean
bond_surveys_is_own (BondSurveysPage *self, const BondSurveySummary *summary)
{
  return summary->trouble == BOND_TROUBLE_LOCKED && own_window (self, summary->path) != NULL;
}

void
bond_surveys_tell (BondSurveysPage *self, const char *text)
{
  gtk_label_set_text (self->told, text != NULL ? text : "");
  gtk_widget_set_visible (GTK_WIDGET (self->told), text != NULL);
}

/* --- what stands at the foot --- */

void
bond_surveys_add_legend (BondSurveysPage *self, BondTickKind kind, const char *text)
{
  GtkWidget *label = bond_start_label (text, "note");

  gtk_widget_set_margin_end (label, 12);
  gtk_box_append (self->legend, bond_timeline_new_sample (kind));
  gtk_box_append (self->legend, label);
}

void
bond_surveys_show_due (BondSurveysPage *self)
{
  guint n;
  g_autofree char *words = bond_due_words (bond_application_get_catalog (self->application), self->source, &n);

  gtk_label_set_text (self->due, words != NULL ? words : "");
  gtk_widget_set_tooltip_text (GTK_WIDGET (self->due), words);
  gtk_widget_set_visible (GTK_WIDGET (self->due), words != NULL);
}

/* --- opening --- */

static GtkWidget *
row_being_opened (BondSurveysPage *self)
{
  for (int i = 0;; i++)
    {
      GtkListBoxRow *row = gtk_list_box_get_row_at_index (self->list, i);

      if (row == NULL)
        return NULL;
      if (g_strcmp0 (bond_start_row_path (GTK_WIDGET (row)), self->opening) == 0)
        return GTK_WIDGET (row);
    }
}

static void
show_busy (BondSurveysPage *self, gboolean busy)
{
  GtkWidget *row = row_being_opened (self);
  const BondSurveySummary *summary = summary_of (self, self->opening);
  g_autofree char *base = g_path_get_basename (self->opening);
  g_autofree char *text = summary != NULL && summary->readings > 0 ? g_strdup_printf (
                              ngettext ("Opening %s, %d reading", "Opening %s, %d readings", (gulong)summary->readings),
                              base, summary->readings)
                                                                   : g_strdup_printf (_ ("Opening %s"), base);

  if (row != NULL)
    bond_start_row_busy (row, busy ? text : NULL);
}

static gboolean
still_opening_cb (gpointer data)
{
  BondSurveysPage *self = data;

  self->busy_id = 0;
  show_busy (self, TRUE);
  return G_SOURCE_REMOVE;
}

static void
end_opening (BondSurveysPage *self)
{
  show_busy (self, FALSE);
  g_clear_handle_id (&self->busy_id, g_source_remove);
  g_clear_pointer (&self->opening, g_free);
}

static void
opened_cb (BondSurveyFile *file, GPtrArray *problems, const GError *error, gpointer data)
{
  BondSurveysPage *self = data;
  g_autofree char *path = g_strdup (self->opening);
  GtkWindow *window = window_of (self);

  end_opening (self);
  /* What cannot be opened is explained in one place, that of the program. */
  if (file != NULL ? bond_application_show (self->application, file, problems) != NULL
                   : bond_application_open_survey (self->application, path) != NULL)
    gtk_window_close (window);
  else
    bond_surveys_page_look (self);
}

/* Why it is only looked at, in words that outlast the row. */
static void
looked_at_cb (BondSurveyFile *file, GPtrArray *problems, const GError *error, gpointer data)
{
  BondSurveysPage *self = data;
  const BondSurveySummary *summary = summary_of (self, self->opening);
  GtkWindow *window = window_of (self);
  gboolean locked = summary != NULL && summary->trouble == BOND_TROUBLE_LOCKED;
  g_autofree char *why
      = summary != NULL && summary->trouble != BOND_TROUBLE_NONE && summary->trouble != BOND_TROUBLE_ALTERED
            ? bond_problem_words (summary)
            : NULL;

  end_opening (self);
  if (file == NULL)
    {
      bond_message (window, _ ("This File Could Not Be Opened"), error->message);
      return;
    }
  if (why != NULL)
    bond_survey_set_read_only (bond_survey_file_get_survey (file), why);
  if (locked)
    bond_lock_mark (file, BOND_LOCK_HELD);
  if (bond_application_show (self->application, file, problems) != NULL)
    gtk_window_close (window);
}

static void
begin_opening (BondSurveysPage *self, const char *path, BondOpenMode mode, BondOpened opened)
{
  GtkWindow *own = own_window (self, path);

  if (own != NULL)
    {
      GtkWindow *window = window_of (self);

      gtk_window_present (own);
      gtk_window_close (window);
      return;
    }
  if (self->opening != NULL)
    return;
  bond_surveys_tell (self, NULL);
  self->opening = g_strdup (path);
  self->busy_id = g_timeout_add (self->patience_ms, still_opening_cb, self);
  bond_open_in_thread (path, mode, bond_application_station (), self->cancellable, opened, self);
}

static void
open_act (GSimpleAction *action, GVariant *parameter, gpointer data)
{
  begin_opening (data, g_variant_get_string (parameter, NULL), BOND_OPEN_WRITE, opened_cb);
}

static void
look_act (GSimpleAction *action, GVariant *parameter, gpointer data)
{
  begin_opening (data, g_variant_get_string (parameter, NULL), BOND_OPEN_READ, looked_at_cb);
}

static void
again_act (GSimpleAction *action, GVariant *parameter, gpointer data)
{
  BondSurveysPage *self = data;

  bond_survey_again_dialog (window_of (self), self->application, self->source, g_variant_get_string (parameter, NULL));
}

/* --- the list --- */

/* All files of the row: an aircraft may have several that only the list knows. */
static guint
forget_all (BondSurveysPage *self, const BondSurveySummary *summary)
{
  guint n = 0;

  for (guint i = 0; self->found != NULL && i < self->found->len; i++)
    {
      const BondSurveySummary *other = self->found->pdata[i];
      gboolean same = other == summary
                      || (summary->problem == NULL && other->problem == NULL
                          && g_strcmp0 (other->registration, summary->registration) == 0
                          && g_strcmp0 (other->serial, summary->serial) == 0);

      if (same && other->recent && bond_library_forget_recent (other->path))
        n++;
    }
  return n;
}

static void
forget_act (GSimpleAction *action, GVariant *parameter, gpointer data)
{
  BondSurveysPage *self = data;
  const BondSurveySummary *summary = summary_of (self, g_variant_get_string (parameter, NULL));
  g_autofree char *base = summary != NULL ? g_path_get_basename (summary->path) : NULL;
  g_autofree char *words = NULL;
  guint n;

  if (summary == NULL)
    return;
  n = forget_all (self, summary);
  words = n > 0 ? g_strdup_printf (ngettext ("%u entry was taken off the list. The file itself was not touched.",
                                             "%u entries were taken off the list. The files themselves were not "
                                             "touched.",
                                             n),
                                   n)
                : g_strdup_printf (_ ("%s stands in the library folder, so it stays on the list. Nothing was removed."),
                                   base);
  bond_surveys_tell (self, words);
  if (n > 0)
    bond_surveys_page_look (self);
}

typedef struct
{
  BondSurveysPage *page;
  char *path;
} Wanted;

static Wanted *
wanted_new (BondSurveysPage *self, GVariant *parameter)
{
  Wanted *wanted = g_new0 (Wanted, 1);

  wanted->page = g_object_ref (self);
  wanted->path = g_variant_dup_string (parameter, NULL);
  return wanted;
}

static void
wanted_free (Wanted *wanted)
{
  g_object_unref (wanted->page);
  g_free (wanted->path);
  g_free (wanted);
}

static void
found_cb (GFile *file, gpointer data)
{
  Wanted *wanted = data;
  g_autofree char *path = file != NULL ? g_file_get_path (file) : NULL;

  if (path != NULL)
    {
      bond_library_forget_recent (wanted->path);
      bond_library_note_recent (path, NULL);
      bond_surveys_page_look (wanted->page);
    }
  wanted_free (wanted);
}

static void
find_act (GSimpleAction *action, GVariant *parameter, gpointer data)
{
  BondSurveysPage *self = data;

  bond_file_open (window_of (self), _ ("Find Survey"), _ ("Surveys"), "*.bondsurvey", found_cb,
                  wanted_new (self, parameter));
}

static void
copied_cb (GFile *file, gpointer data)
{
  Wanted *wanted = data;
  g_autofree char *path = file != NULL ? g_file_get_path (file) : NULL;
  g_autoptr (GError) error = NULL;

  if (path != NULL && !bond_library_copy (wanted->path, path, &error))
    bond_message (window_of (wanted->page), _ ("No Copy Was Made"), error->message);
  else if (path != NULL)
    begin_opening (wanted->page, path, BOND_OPEN_WRITE, opened_cb);
  wanted_free (wanted);
}

static void
copy_act (GSimpleAction *action, GVariant *parameter, gpointer data)
{
  BondSurveysPage *self = data;
  g_autofree char *base = g_path_get_basename (g_variant_get_string (parameter, NULL));

  bond_file_save (window_of (self), _ ("Save Copy"), bond_application_get_folder (self->application), base, copied_cb,
                  wanted_new (self, parameter));
}

void
bond_surveys_install_acts (BondSurveysPage *self)
{
  static const GActionEntry entries[] = {
    { .name = "open", .activate = open_act, .parameter_type = "s" },
    { .name = "look", .activate = look_act, .parameter_type = "s" },
    { .name = "again", .activate = again_act, .parameter_type = "s" },
    { .name = "forget", .activate = forget_act, .parameter_type = "s" },
    { .name = "find", .activate = find_act, .parameter_type = "s" },
    { .name = "copy", .activate = copy_act, .parameter_type = "s" },
  };
  g_autoptr (GSimpleActionGroup) group = g_simple_action_group_new ();

  g_action_map_add_action_entries (G_ACTION_MAP (group), entries, G_N_ELEMENTS (entries), self);
  gtk_widget_insert_action_group (GTK_WIDGET (self), "surveys", G_ACTION_GROUP (group));
}
