/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * GtkFileChooserNative is there from GTK 4.0 on and uses the portal where there is
 * one.  GTK does not keep it alive, so it is held until the answer.
 */
#include "gui/files.h"
#include <glib/gi18n-lib.h>
#include <string.h>

typedef struct
{
  BondFileChosen chosen;
  gpointer data;
} Question;

static void
response_cb (GtkNativeDialog *native, int response, Question *question)
{
  g_autoptr (GFile) file = NULL;

  if (response == GTK_RESPONSE_ACCEPT)
    file = gtk_file_chooser_get_file (GTK_FILE_CHOOSER (native));
  question->chosen (file, question->data);
  g_free (question);
  g_object_unref (native);
}

static GtkFileChooserNative *
ask (GtkWindow *parent, const char *title, GtkFileChooserAction action, const char *accept, BondFileChosen chosen,
     gpointer data)
{
  GtkFileChooserNative *native = gtk_file_chooser_native_new (title, parent, action, accept, NULL);
  Question *question = g_new0 (Question, 1);

  question->chosen = chosen;
  question->data = data;
  gtk_native_dialog_set_modal (GTK_NATIVE_DIALOG (native), TRUE);
  g_signal_connect (native, "response", G_CALLBACK (response_cb), question);
  return native;
}

void
bond_file_open (GtkWindow *parent, const char *title, const char *kind, const char *pattern, BondFileChosen chosen,
                gpointer data)
{
  GtkFileChooserNative *native = ask (parent, title, GTK_FILE_CHOOSER_ACTION_OPEN, _ ("_Open"), chosen, data);
  g_autoptr (GtkFileFilter) filter = gtk_file_filter_new ();
  g_autoptr (GtkFileFilter) all = gtk_file_filter_new ();
  g_auto (GStrv) patterns = g_strsplit (pattern, " ", -1);

  gtk_file_filter_set_name (filter, kind);
  for (guint i = 0; patterns[i] != NULL; i++)
    if (strchr (patterns[i], '/') != NULL)
      gtk_file_filter_add_mime_type (filter, patterns[i]);
    else
      gtk_file_filter_add_pattern (filter, patterns[i]);
  gtk_file_filter_set_name (all, _ ("All files"));
  gtk_file_filter_add_pattern (all, "*");
  gtk_file_chooser_add_filter (GTK_FILE_CHOOSER (native), filter);
  gtk_file_chooser_add_filter (GTK_FILE_CHOOSER (native), all);
  gtk_native_dialog_show (GTK_NATIVE_DIALOG (native));
}

void
bond_file_save (GtkWindow *parent, const char *title, const char *folder, const char *name, BondFileChosen chosen,
                gpointer data)
{
  GtkFileChooserNative *native = ask (parent, title, GTK_FILE_CHOOSER_ACTION_SAVE, _ ("_Save"), chosen, data);

  if (folder != NULL)
    {
      g_autoptr (GFile) start = g_file_new_for_path (folder);

      gtk_file_chooser_set_current_folder (GTK_FILE_CHOOSER (native), start, NULL);
    }
  gtk_file_chooser_set_current_name (GTK_FILE_CHOOSER (native), name);
  gtk_native_dialog_show (GTK_NATIVE_DIALOG (native));
}
