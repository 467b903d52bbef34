/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * Asks where and says what is in the copy.  The copying is the library's: byte for
 * byte what is on disk, for a copy made by writing the survey anew would have to
 * trust the very save that failed.
 */
#include "gui/save-copy.h"
#include "gui/dialog.h"
#include "gui/files.h"
#include "library/library.h"
#include <glib/gi18n-lib.h>

typedef struct
{
  BondSurveyFile *file;
  GtkWindow *parent;
} Asked;

static void
chosen_cb (GFile *target, gpointer data)
{
  Asked *asked = data;
  g_autofree char *path = target != NULL ? g_file_get_path (target) : NULL;
  g_autoptr (GError) error = NULL;
  g_autofree char *text = NULL;

  if (path != NULL)
    {
      if (bond_library_copy (bond_survey_file_get_path (asked->file), path, &error))
        text = g_strdup (_ ("The copy holds everything recorded so far. What is still in the field is not in it; open "
                            "the copy and record it there."));
      else
        text = g_strdup_printf (_ ("The copy was not written: %s The survey is where it was."), error->message);
      bond_message (asked->parent, _ ("Save Copy"), text);
    }
  g_object_unref (asked->file);
  g_clear_weak_pointer (&asked->parent);
  g_free (asked);
}

void
bond_save_copy_dialog (GtkWindow *parent, BondSurveyFile *file)
{
  g_autofree char *name = NULL;
  Asked *asked;

  g_return_if_fail (BOND_IS_SURVEY_FILE (file));
  name = g_path_get_basename (bond_survey_file_get_path (file));
  asked = g_new0 (Asked, 1);
  asked->file = g_object_ref (file);
  g_set_weak_pointer (&asked->parent, parent);
  bond_file_save (parent, _ ("Save Copy"), NULL, name, chosen_cb, asked);
}
