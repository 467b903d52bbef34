/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * A photo of the joint, kept in the survey file itself.  What it shows is nobody's
 * business here; that it is a picture is told by its first bytes, not by its name.
 */
#include "gui/dialogs/act-form.h"
#include "gui/dialogs/point-acts.h"
#include "gui/files.h"
#include <glib/gi18n-lib.h>
#include <string.h>

/* First bytes of the two kinds of picture that are kept: RFC 2083 12.11 (PNG), ITU-T T.81 B.1.1.3 (JPEG). */
static const struct
{
  const char *bytes;
  gsize length;
  const char *type;
} kinds[] = {
  { "\x89PNG\r\n\x1a\n", 8, "image/png" },
  { "\xff\xd8\xff", 3, "image/jpeg" },
};

static const char *
type_of (GBytes *bytes)
{
  gsize size;
  const char *data = g_bytes_get_data (bytes, &size);

  for (gsize i = 0; i < G_N_ELEMENTS (kinds); i++)
    if (size > kinds[i].length && memcmp (data, kinds[i].bytes, kinds[i].length) == 0)
      return kinds[i].type;
  return NULL;
}

/* Asked before a byte is read: a file of many gigabytes is not loaded to find out that it is too large. */
static gboolean
check_size (GFile *photo, GError **error)
{
  g_autoptr (GFileInfo) info
      = g_file_query_info (photo, G_FILE_ATTRIBUTE_STANDARD_SIZE, G_FILE_QUERY_INFO_NONE, NULL, error);
  g_autofree char *size = NULL;

  if (info == NULL)
    return FALSE;
  if (g_file_info_get_size (info) <= BOND_PHOTO_MAX_BYTES)
    return TRUE;
  size = g_format_size ((guint64)g_file_info_get_size (info));
  g_set_error (error, G_IO_ERROR, G_IO_ERROR_NO_SPACE,
               _ ("The photo is %s; photos are kept up to 12\302\240MB. It was not added."), size);
  return FALSE;
}

gboolean
bond_photo_add (BondWalk *walk, BondSurveyFile *file, GFile *photo, GError **error)
{
  g_autofree BondActForm *form = NULL;
  g_autofree char *name = g_file_get_basename (photo);
  g_autofree char *sha256 = NULL;
  g_autoptr (GBytes) bytes = NULL;
  const char *type;
  BondEntry *entry;

  g_return_val_if_fail (BOND_IS_WALK (walk) && BOND_IS_SURVEY_FILE (file) && G_IS_FILE (photo), FALSE);
  if (!check_size (photo, error) || (bytes = g_file_load_bytes (photo, NULL, NULL, error)) == NULL)
    return FALSE;
  type = type_of (bytes);
  if (type == NULL)
    {
      g_set_error (error, G_IO_ERROR, G_IO_ERROR_INVALID_DATA,
                   _ ("%s is neither a JPEG nor a PNG picture. It was not added."), name);
      return FALSE;
    }
  sha256 = bond_survey_file_add_attachment (file, bytes, name, type, error);
  if (sha256 == NULL)
    return FALSE;
  form = bond_act_form_new (walk, sizeof (BondActForm));
  entry = bond_act_form_entry (form, BOND_ENTRY_ATTACH);
  entry->attach.sha256 = g_steal_pointer (&sha256);
  entry->attach.name = g_steal_pointer (&name);
  entry->attach.type = g_strdup (type);
  entry->attach.size = (gint64)g_bytes_get_size (bytes);
  bond_walk_record_entry (walk, entry);
  bond_act_form_clear (form);
  return TRUE;
}

typedef struct
{
  BondWalk *walk;
  BondSurveyFile *file;
  GtkWindow *parent;
} Asked;

static void
chosen_cb (GFile *photo, gpointer data)
{
  Asked *asked = data;
  g_autoptr (GError) error = NULL;

  if (photo != NULL && !bond_photo_add (asked->walk, asked->file, photo, &error))
    bond_message (asked->parent, _ ("Photo"), error->message);
  g_object_unref (asked->walk);
  g_object_unref (asked->file);
  g_clear_weak_pointer (&asked->parent);
  g_free (asked);
}

void
bond_photo_dialog (GtkWindow *parent, BondWalk *walk, BondSurveyFile *file)
{
  Asked *asked;

  g_return_if_fail (BOND_IS_WALK (walk) && BOND_IS_SURVEY_FILE (file));
  asked = g_new0 (Asked, 1);
  asked->walk = g_object_ref (walk);
  asked->file = g_object_ref (file);
  g_set_weak_pointer (&asked->parent, parent);
  bond_file_open (parent, _ ("Add a Photo"), _ ("Photos (JPEG, PNG)"), "image/png image/jpeg", chosen_cb, asked);
}
