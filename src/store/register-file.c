/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * Register objects by kind: one row of the table says how each is read, written,
 * held and released.  Files of their own and adopt entries of a survey go the same
 * way; the single kinds are in register-*.c.
 */
#include "store/register-file.h"

#include "store/register-private.h"

#include <glib/gi18n-lib.h>
#include <string.h>

#define FORMAT 1
#define MAX_ID_LENGTH 100

typedef gpointer (*RefFunc) (gpointer object);

/* @has_file: may stand in a file of its own, and then says its format. */
typedef struct
{
  const char *root, *ns;
  gboolean has_file;
  gpointer (*read) (xmlNode *node, const char *file, GError **error);
  void (*write) (xmlNode *node, gconstpointer object);
  RefFunc ref;
  GDestroyNotify unref;
} Kind;

static const Kind kinds[] = {
  [BOND_ADOPT_AIRFRAME] = { "airframe", BOND_NS_AIRFRAME, TRUE, bond_airframe_read, bond_airframe_write,
                            (RefFunc)bond_airframe_ref, (GDestroyNotify)bond_airframe_unref },
  [BOND_ADOPT_LIMIT_SET] = { "limit-set", BOND_NS_LIMIT_SET, TRUE, bond_limit_set_read, bond_limit_set_write,
                             (RefFunc)bond_limit_set_ref, (GDestroyNotify)bond_limit_set_unref },
  [BOND_ADOPT_INSTRUMENT] = { "instrument", BOND_NS_INSTRUMENT, TRUE, bond_instrument_read, bond_instrument_write,
                              (RefFunc)bond_instrument_ref, (GDestroyNotify)bond_instrument_unref },
  [BOND_ADOPT_PERSON] = { "person", BOND_NS_PERSON, TRUE, bond_person_read, bond_person_write, (RefFunc)bond_person_ref,
                          (GDestroyNotify)bond_person_unref },
  [BOND_ADOPT_HOUSE] = { "house", BOND_NS_HOUSE, TRUE, bond_house_read, bond_house_write, (RefFunc)bond_house_ref,
                         (GDestroyNotify)bond_house_unref },
  [BOND_ADOPT_EARLIER] = { "earlier", BOND_NS_SURVEY, FALSE, bond_earlier_read, bond_earlier_write,
                           (RefFunc)bond_earlier_ref, (GDestroyNotify)bond_earlier_unref },
};

gboolean
bond_register_id_is_sound (const char *id)
{
  gsize i;

  g_return_val_if_fail (id != NULL, FALSE);
  for (i = 0; id[i] != '\0'; i++)
    if (!g_ascii_isalnum (id[i]) && (i == 0 || strchr ("._-", id[i]) == NULL))
      return FALSE;
  return i > 0 && i <= MAX_ID_LENGTH;
}

void
bond_head_write (xmlNode *node, const char *id, int revision)
{
  bond_xml_set (node, "id", id);
  bond_xml_set_int64 (node, "revision", revision);
}

gboolean
bond_head_read (xmlNode *node, const char *file, char **id, int *revision, GError **error)
{
  *revision = 1;
  if (!bond_read_whole (node, "revision", file, BOND_REGISTER_MAX_REVISION, revision, error))
    return FALSE;
  if (*revision < 1)
    {
      bond_sense_error (error, file, node, _ ("Revisions count from 1. Correct the revision."));
      return FALSE;
    }
  *id = bond_read_needed (node, "id", file, error);
  if (*id == NULL || bond_register_id_is_sound (*id))
    return *id != NULL;
  bond_sense_error (error, file, node,
                    _ ("“%s” cannot be an id: letters, digits, point, hyphen and underscore only. Choose another."),
                    *id);
  g_clear_pointer (id, g_free);
  return FALSE;
}

gboolean
bond_sense_take (GError **error, const char *file, xmlNode *node, GError *cause)
{
  bond_sense_error (error, file, node, "%s", cause->message);
  g_error_free (cause);
  return FALSE;
}

static const Kind *
kind_of (xmlNode *node, BondAdoptKind *what)
{
  gsize i;

  for (i = 0; i < G_N_ELEMENTS (kinds); i++)
    if (node->ns != NULL && strcmp ((const char *)node->name, kinds[i].root) == 0
        && strcmp ((const char *)node->ns->href, kinds[i].ns) == 0)
      {
        *what = (BondAdoptKind)i;
        return &kinds[i];
      }
  return NULL;
}

/* Inside a survey the gate saw only the survey's own format. */
static gboolean
format_is_known (xmlNode *node, const char *file, GError **error)
{
  gint64 format = 0;

  if (bond_xml_get_int64 (node, "format", &format) && format >= 1 && format <= FORMAT)
    return TRUE;
  g_set_error (error, BOND_STORE_ERROR, format > FORMAT ? BOND_STORE_ERROR_NEWER : BOND_STORE_ERROR_SENSE,
               _ ("%s:%ld: <%s> is written in format %lld, and this program reads format 1 to %d. Nothing "
                  "was changed. Open it with the program that wrote it or a newer one."),
               file, xmlGetLineNo (node), (const char *)node->name, (long long)format, FORMAT);
  return FALSE;
}

gpointer
bond_register_read (xmlNode *node, BondAdoptKind *what, const char *file, GError **error)
{
  const Kind *kind;
  BondAdoptKind found;

  g_return_val_if_fail (node != NULL && what != NULL && file != NULL, NULL);
  kind = kind_of (node, &found);
  if (kind == NULL)
    {
      bond_sense_error (error, file, node,
                        _ ("<%s> is none of the registers: airframe, limit set, instrument, person, house rules. "
                           "Choose another file."),
                        (const char *)node->name);
      return NULL;
    }
  if (kind->has_file && !format_is_known (node, file, error))
    return NULL;
  *what = found;
  return kind->read (node, file, error);
}

/* The element, without a parent, in its own namespace. */
static xmlNode *
element_new (const Kind *kind, gconstpointer object)
{
  xmlNode *node = xmlNewNode (NULL, BAD_CAST kind->root);

  xmlSetNs (node, xmlNewNs (node, BAD_CAST kind->ns, NULL));
  if (kind->has_file)
    bond_xml_set_int64 (node, "format", FORMAT);
  kind->write (node, object);
  return node;
}

void
bond_register_write (xmlNode *parent, BondAdoptKind what, gconstpointer object)
{
  g_return_if_fail (parent != NULL && (guint)what < G_N_ELEMENTS (kinds) && object != NULL);
  if (kinds[what].has_file)
    xmlAddChild (parent, element_new (&kinds[what], object));
  else
    kinds[what].write (bond_xml_add (parent, kinds[what].root), object);
}

/* What stops a reading is a problem too: "FILE:LINE: message" taken apart again. */
static BondProblem *
problem_of (const char *file, const char *message)
{
  const char *p = g_str_has_prefix (message, file) ? message + strlen (file) : "";
  char *end = NULL;
  guint64 line = *p == ':' ? g_ascii_strtoull (p + 1, &end, 10) : 0;

  if (end == NULL || !g_str_has_prefix (end, ": ") || line > G_MAXINT)
    return bond_problem_new (file, 0, "%s", message);
  return bond_problem_new (file, (int)line, "%s", end + strlen (": "));
}

static gpointer
take_document (xmlDoc *doc, const char *name, BondAdoptKind *what, GPtrArray *problems, GError **error)
{
  GError *unsound = NULL;
  gpointer object;

  if (doc == NULL)
    return NULL;
  object = bond_register_read (xmlDocGetRootElement (doc), what, name, &unsound);
  xmlFreeDoc (doc);
  if (object != NULL)
    return object;
  if (problems != NULL)
    g_ptr_array_add (problems, problem_of (name, unsound->message));
  g_propagate_error (error, unsound);
  return NULL;
}

gpointer
bond_register_load (const char *path, BondAdoptKind *what, GPtrArray *problems, GError **error)
{
  g_return_val_if_fail (path != NULL && what != NULL, NULL);
  return take_document (bond_xml_read_file (path, NULL, problems, error), path, what, problems, error);
}

gpointer
bond_register_load_bytes (const char *name, const char *bytes, gsize length, BondAdoptKind *what, GPtrArray *problems,
                          GError **error)
{
  g_return_val_if_fail (name != NULL && (bytes != NULL || length == 0) && what != NULL, NULL);
  return take_document (bond_xml_read_bytes (name, bytes, length, NULL, problems, error), name, what, problems, error);
}

char *
bond_register_to_text (BondAdoptKind what, gconstpointer object, gsize *length)
{
  xmlDoc *doc;
  xmlChar *bytes = NULL;
  char *text;
  int size = 0;

  g_return_val_if_fail ((guint)what < G_N_ELEMENTS (kinds) && kinds[what].has_file && object != NULL, NULL);
  doc = xmlNewDoc (BAD_CAST "1.0");
  xmlDocSetRootElement (doc, element_new (&kinds[what], object));
  xmlDocDumpFormatMemoryEnc (doc, &bytes, &size, "UTF-8", 1);
  text = g_strndup ((const char *)bytes, size);
  if (length != NULL)
    *length = size;
  xmlFree (bytes);
  xmlFreeDoc (doc);
  return text;
}

gboolean
bond_register_save (const char *path, BondAdoptKind what, gconstpointer object, GError **error)
{
  g_autofree char *text = NULL;
  g_autoptr (GError) cause = NULL;
  gsize length = 0;

  g_return_val_if_fail (path != NULL && object != NULL, FALSE);
  text = bond_register_to_text (what, object, &length);
  if (g_file_set_contents_full (path, text, length, G_FILE_SET_CONTENTS_CONSISTENT | G_FILE_SET_CONTENTS_DURABLE, 0666,
                                &cause))
    return TRUE;
  g_set_error (
      error, BOND_STORE_ERROR, BOND_STORE_ERROR_WRITE,
      _ ("%s could not be written: %s. What was there is unchanged. Check the disk and your permission, and save "
         "again."),
      path, cause->message);
  return FALSE;
}

gpointer
bond_register_ref (BondAdoptKind what, gpointer object)
{
  g_return_val_if_fail ((guint)what < G_N_ELEMENTS (kinds) && object != NULL, NULL);
  return kinds[what].ref (object);
}

void
bond_register_unref (BondAdoptKind what, gpointer object)
{
  g_return_if_fail ((guint)what < G_N_ELEMENTS (kinds) && object != NULL);
  kinds[what].unref (object);
}
