/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * Schemas out of the library's resource; see schema-document.h.
 */
#include "store/schema-document.h"

#include "bond-data-resource.h"

#include <glib/gi18n-lib.h>
#include <libxml/parser.h>
#include <string.h>

#define SCHEMA_FOLDER "/io/github/bondwright/Bondwright/data/schemas/"

static xmlDoc *
parse_bundled (const char *name, GError **error)
{
  g_autofree char *path = g_strconcat (SCHEMA_FOLDER, name, NULL);
  /* Asking for the resource by its own function keeps the linker from dropping it. */
  g_autoptr (GBytes) text
      = g_resource_lookup_data (bond_data_get_resource (), path, G_RESOURCE_LOOKUP_FLAGS_NONE, error);
  xmlDoc *doc;

  if (text == NULL)
    return NULL;
  doc = xmlReadMemory (g_bytes_get_data (text, NULL), (int)g_bytes_get_size (text), name, NULL,
                       XML_PARSE_NONET | XML_PARSE_NOERROR | XML_PARSE_NOWARNING);
  if (doc == NULL)
    g_set_error (error, BOND_STORE_ERROR, BOND_STORE_ERROR_READ,
                 _ ("The program's own schema %s cannot be used. Install the program again."), name);
  return doc;
}

/* What <include> stands for: the definitions take the including schema's namespace, as the standard has it. */
static gboolean
put_in_place (xmlNode *include, GError **error)
{
  g_autofree char *name = bond_xml_get (include, "schemaLocation");
  xmlDoc *doc = parse_bundled (name != NULL ? name : "", error);
  xmlNode *at = include, *child;

  if (doc == NULL)
    return FALSE;
  for (child = xmlDocGetRootElement (doc)->children; child != NULL; child = child->next)
    if (child->type == XML_ELEMENT_NODE)
      {
        xmlNode *copy = xmlDocCopyNode (child, include->doc, 1);

        xmlAddNextSibling (at, copy);
        at = copy;
      }
  xmlFreeDoc (doc);
  return TRUE;
}

xmlDoc *
bond_schema_document (const char *name, GError **error)
{
  xmlDoc *doc;
  xmlNode *include;

  g_return_val_if_fail (name != NULL, NULL);
  doc = parse_bundled (name, error);
  while (doc != NULL && (include = bond_xml_child (xmlDocGetRootElement (doc), "include")) != NULL)
    {
      if (!put_in_place (include, error))
        {
          xmlFreeDoc (doc);
          return NULL;
        }
      xmlUnlinkNode (include);
      xmlFreeNode (include);
    }
  return doc;
}
