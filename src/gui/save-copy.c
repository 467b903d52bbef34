/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * Copies byte for byte what is on disk, file and journal: a copy made by writing the
 * survey anew would have to trust the very save that failed.  What makes file and
 * journal one survey is store's.
 */
#include "gui/save-copy.h"
#include "gui/dialog.h"
#include <glib/gi18n-lib.h>

static GFile *
journal_of (GFile *survey)
{
  g_autofree char *path = g_file_get_path (survey);
  g_autofree char *journal = g_strconcat (path, ".journal", NULL);

  return g_file_new_for_path (journal);
}

/* The journal first: a copy whose file is there without its journal would look whole and lack the last readings. */
gboolean
bond_save_copy (BondSurveyFile *file, GFile *target, GError **error)
{
  g_autoptr (GFile) from = NULL;
  g_autoptr (GFile) from_journal = NULL;
  g_autoptr (GFile) to_journal = NULL;

  g_return_val_if_fail (BOND_IS_SURVEY_FILE (file) && G_IS_FILE (target), FALSE);
  from = g_file_new_for_path (bond_survey_file_get_path (file));
  if (g_file_equal (from, target))
    {
      g_set_error_literal (error, G_IO_ERROR, G_IO_ERROR_EXISTS,
                           _ ("That is the survey itself. Choose another name or another place."));
      return FALSE;
    }
  from_journal = journal_of (from);
  to_journal = journal_of (target);
  if (g_file_query_exists (from_journal, NULL)
      && !g_file_copy (from_journal, to_journal, G_FILE_COPY_OVERWRITE, NULL, NULL, NULL, error))
    return FALSE;
  return g_file_copy (from, target, G_FILE_COPY_OVERWRITE, NULL, NULL, NULL, error);
}

typedef struct
{
  BondSurveyFile *file;
  GtkWindow *parent;
} Asked;

static void
response_cb (GtkNativeDialog *chooser, int response, Asked *asked)
{
  g_autoptr (GFile) target = NULL;
  g_autoptr (GError) error = NULL;
  g_autofree char *text = NULL;

  if (response == GTK_RESPONSE_ACCEPT)
    target = gtk_file_chooser_get_file (GTK_FILE_CHOOSER (chooser));
  if (target != NULL)
    {
      if (bond_save_copy (asked->file, target, &error))
        text = g_strdup (_ ("The copy holds everything recorded so far. What is still in the field is not in it; open "
                            "the copy and record it there."));
      else
        text = g_strdup_printf (_ ("The copy was not written: %s The survey is where it was."), error->message);
      bond_message (asked->parent, _ ("Save Copy"), text);
    }
  g_object_unref (asked->file);
  g_clear_weak_pointer (&asked->parent);
  g_free (asked);
  g_object_unref (chooser);
}

void
bond_save_copy_dialog (GtkWindow *parent, BondSurveyFile *file)
{
  g_autofree char *name = g_path_get_basename (bond_survey_file_get_path (file));
  GtkFileChooserNative *chooser;
  Asked *asked;

  g_return_if_fail (BOND_IS_SURVEY_FILE (file));
  chooser
      = gtk_file_chooser_native_new (_ ("Save Copy"), parent, GTK_FILE_CHOOSER_ACTION_SAVE, _ ("_Save"), _ ("_Cancel"));
  asked = g_new0 (Asked, 1);
  asked->file = g_object_ref (file);
  g_set_weak_pointer (&asked->parent, parent);
  gtk_file_chooser_set_current_name (GTK_FILE_CHOOSER (chooser), name);
  gtk_native_dialog_set_modal (GTK_NATIVE_DIALOG (chooser), TRUE);
  g_signal_connect (chooser, "response", G_CALLBACK (response_cb), asked);
  gtk_native_dialog_show (GTK_NATIVE_DIALOG (chooser));
}
