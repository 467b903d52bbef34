/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * Bytes to base64 elements and back.  The base64 must be the one way those bytes
 * are written: a text that differs and still decodes to the same bytes is a change
 * too, and is found.
 */
#include "store/attachments.h"

#include <glib/gi18n-lib.h>
#include <string.h>

/* 48 KiB give 64 KiB of base64, with no padding before the last piece. */
#define PIECE (48 * 1024)

static void
add_piece (xmlNode *file, const guchar *bytes, gsize length)
{
  g_autofree char *text = g_base64_encode (bytes, length);

  bond_xml_set_text (file, "b64", text);
}

static GBytes *
encode (const BondAttachment *attachment, const guchar *bytes, gsize length)
{
  xmlDoc *doc = xmlNewDoc (BAD_CAST "1.0");
  xmlNode *file = xmlNewDocNode (doc, NULL, BAD_CAST "file", NULL);
  char *text;

  xmlDocSetRootElement (doc, file);
  bond_xml_set (file, "sha256", attachment->sha256);
  bond_xml_set (file, "name", attachment->name);
  bond_xml_set (file, "type", attachment->type);
  bond_xml_set_int64 (file, "size", attachment->size);
  for (gsize at = 0; at < length; at += PIECE)
    add_piece (file, bytes + at, MIN (PIECE, length - at));
  text = bond_xml_dump (file);
  xmlFreeDoc (doc);
  return g_bytes_new_take (text, strlen (text));
}

/* One piece onto @bytes; FALSE when its text is not the base64 of what it decodes to. */
static gboolean
take_piece (xmlNode *piece, GByteArray *bytes)
{
  xmlChar *text = xmlNodeGetContent (piece);
  gsize length = 0;
  g_autofree guchar *decoded = g_base64_decode ((const char *)text, &length);
  g_autofree char *again = g_base64_encode (decoded, length);
  gboolean same = strcmp (again, (const char *)text) == 0;

  xmlFree (text);
  if (same)
    g_byte_array_append (bytes, decoded, (guint)length);
  return same;
}

/* The decoded bytes, NULL when they are not those of @sha256 and @size. */
static GBytes *
decode (xmlNode *file, const char *sha256, gint64 size)
{
  g_autoptr (GByteArray) bytes = g_byte_array_new ();
  g_autofree char *sum = NULL;

  for (xmlNode *piece = bond_xml_child (file, "b64"); piece != NULL; piece = bond_xml_next (piece, "b64"))
    if (!take_piece (piece, bytes) || bytes->len > BOND_ATTACHMENT_MAX)
      return NULL;
  sum = g_compute_checksum_for_data (G_CHECKSUM_SHA256, bytes->data, bytes->len);
  if ((gint64)bytes->len != size || g_strcmp0 (sum, sha256) != 0)
    return NULL;
  return g_byte_array_free_to_bytes (g_steal_pointer (&bytes));
}

BondAttachment *
bond_attachment_new (GBytes *bytes, const char *name, const char *type, GError **error)
{
  BondAttachment *attachment;
  gsize length;
  const guchar *data;

  g_return_val_if_fail (bytes != NULL && name != NULL && type != NULL, NULL);

  data = g_bytes_get_data (bytes, &length);
  if (length == 0 || length > BOND_ATTACHMENT_MAX)
    {
      g_set_error (error, BOND_STORE_ERROR, BOND_STORE_ERROR_WRITE,
                   length == 0 ? _ ("“%s” is empty and was not attached. Choose another file.")
                               : _ ("“%s” is larger than 12 MB and was not attached. Make it smaller first."),
                   name);
      return NULL;
    }
  attachment = g_new0 (BondAttachment, 1);
  attachment->sha256 = g_compute_checksum_for_bytes (G_CHECKSUM_SHA256, bytes);
  attachment->name = g_strdup (name);
  attachment->type = g_strdup (type);
  attachment->size = (gint64)length;
  attachment->element = encode (attachment, data, length);
  return attachment;
}

BondAttachment *
bond_attachment_read (xmlNode *node, GBytes *element)
{
  g_autoptr (BondAttachment) attachment = g_new0 (BondAttachment, 1);
  g_autoptr (GBytes) bytes = NULL;

  attachment->sha256 = bond_xml_get (node, "sha256");
  attachment->name = bond_xml_get (node, "name");
  attachment->type = bond_xml_get (node, "type");
  bond_xml_get_int64 (node, "size", &attachment->size);
  attachment->element = g_bytes_ref (element);
  bytes = decode (node, attachment->sha256, attachment->size);
  return bytes == NULL ? NULL : g_steal_pointer (&attachment);
}

GBytes *
bond_attachment_decode (const BondAttachment *attachment, GError **error)
{
  gsize length;
  const char *text = g_bytes_get_data (attachment->element, &length);
  xmlDoc *doc = bond_xml_parse_bytes (attachment->name, text, length, NULL, error);
  GBytes *bytes = NULL;

  if (doc == NULL)
    return NULL;
  bytes = decode (xmlDocGetRootElement (doc), attachment->sha256, attachment->size);
  xmlFreeDoc (doc);
  if (bytes == NULL)
    g_set_error (error, BOND_STORE_ERROR, BOND_STORE_ERROR_CHAIN,
                 _ ("The attachment “%s” is not the one that was recorded. Use a backup or the original file."),
                 attachment->name);
  return bytes;
}

char *
bond_attachment_side_path (const char *path, const char *sha256)
{
  g_autofree char *folder = g_path_get_dirname (path);
  g_autofree char *name = g_path_get_basename (path);
  g_autofree char *hidden = g_strdup_printf (".%s.%s.attachment", name, sha256);

  return g_build_filename (folder, hidden, NULL);
}

BondAttachment *
bond_attachment_read_side (const char *path, const BondAttach *attach)
{
  g_autofree char *side = bond_attachment_side_path (path, attach->sha256);
  g_autofree char *bytes = NULL;
  g_autoptr (GBytes) whole = NULL;
  g_autoptr (BondAttachment) attachment = NULL;
  gsize length = 0;

  if (g_file_test (side, G_FILE_TEST_EXISTS))
    bytes = bond_xml_load (side, BOND_ATTACHMENT_MAX, &length, NULL, NULL);
  if (bytes == NULL)
    return NULL;
  whole = g_bytes_new_take (g_steal_pointer (&bytes), length);
  attachment = bond_attachment_new (whole, attach->name, attach->type, NULL);
  if (attachment == NULL || strcmp (attachment->sha256, attach->sha256) != 0)
    return NULL;
  return g_steal_pointer (&attachment);
}

BondAttachment *
bond_attachment_copy (const BondAttachment *attachment)
{
  BondAttachment *copy = g_new0 (BondAttachment, 1);

  copy->sha256 = g_strdup (attachment->sha256);
  copy->name = g_strdup (attachment->name);
  copy->type = g_strdup (attachment->type);
  copy->size = attachment->size;
  copy->element = g_bytes_ref (attachment->element);
  return copy;
}

void
bond_attachment_free (BondAttachment *attachment)
{
  if (attachment == NULL)
    return;
  g_free (attachment->sha256);
  g_free (attachment->name);
  g_free (attachment->type);
  g_clear_pointer (&attachment->element, g_bytes_unref);
  g_free (attachment);
}

BondAttachment *
bond_attachment_find (GPtrArray *attachments, const char *sha256)
{
  for (guint i = 0; i < attachments->len; i++)
    {
      BondAttachment *attachment = g_ptr_array_index (attachments, i);

      if (g_strcmp0 (attachment->sha256, sha256) == 0)
        return attachment;
    }
  return NULL;
}
