/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * Small steps on one element: attributes as numbers, children by name, canonical
 * form.  Numbers never pass through the locale.  Which attributes an element has
 * is the readers' business.
 */
#include "store/xml.h"

#include "core/number.h"

#include <libxml/c14n.h>
#include <math.h>
#include <string.h>

/* What the canonical form leaves out: one attribute of the element itself. */
typedef struct
{
  const xmlNode *element;
  const char *omit;
} Omission;

static int
is_visible_cb (void *data, xmlNode *node, xmlNode *parent)
{
  const Omission *omission = data;

  return omission->omit == NULL || parent != omission->element || node->type != XML_ATTRIBUTE_NODE
         || strcmp ((const char *)node->name, omission->omit) != 0;
}

/*
 * xmlC14NExecute() walks a whole document and asks of each node whether it is in.
 * For thousands of entries that would be quadratic, so the element stands, for the
 * length of the call, as the only child of an empty document.  Its namespace
 * pointers stay valid; with the exclusive form nothing else above it matters.
 */
GBytes *
bond_xml_canonical (xmlNode *node, const char *omit)
{
  Omission omission = { node, omit };
  xmlDoc *doc = xmlNewDoc (BAD_CAST "1.0");
  xmlOutputBuffer *out = xmlAllocOutputBuffer (NULL);
  xmlNode *next = node->next;
  GBytes *bytes = NULL;

  node->next = NULL;
  doc->children = node;
  if (xmlC14NExecute (doc, is_visible_cb, &omission, XML_C14N_EXCLUSIVE_1_0, NULL, 0, out) >= 0)
    bytes = g_bytes_new (xmlOutputBufferGetContent (out), xmlOutputBufferGetSize (out));
  doc->children = NULL;
  node->next = next;
  xmlOutputBufferClose (out);
  xmlFreeDoc (doc);
  return bytes != NULL ? bytes : g_bytes_new (NULL, 0);
}

char *
bond_xml_dump (xmlNode *node)
{
  xmlBuffer *buffer = xmlBufferCreate ();
  g_autoptr (GString) text = NULL;

  xmlNodeDump (buffer, node->doc, node, 0, 0);
  text = g_string_new ((const char *)xmlBufferContent (buffer));
  xmlBufferFree (buffer);
  /* Attributes come with their line ends escaped; in text the reference means the same. */
  g_string_replace (text, "\n", "&#10;", 0);
  return g_string_free (g_steal_pointer (&text), FALSE);
}

/* The start tag alone: what the XML library writes for an empty element, left open. */
char *
bond_xml_start_tag (xmlNode *node)
{
  g_autofree char *text = bond_xml_dump (node);
  gsize length = strlen (text);

  g_return_val_if_fail (length > 2 && text[length - 2] == '/', NULL);
  text[length - 2] = '>';
  text[length - 1] = 0;
  return g_steal_pointer (&text);
}

static char *
take (xmlChar *text)
{
  char *copy = g_strdup ((const char *)text);

  xmlFree (text);
  return copy;
}

char *
bond_xml_get (xmlNode *node, const char *name)
{
  return take (xmlGetNoNsProp (node, BAD_CAST name));
}

gboolean
bond_xml_get_int64 (xmlNode *node, const char *name, gint64 *value)
{
  g_autofree char *text = bond_xml_get (node, name);
  gint64 result;

  if (text == NULL || !g_ascii_string_to_signed (text, 10, G_MININT64, G_MAXINT64, &result, NULL))
    return FALSE;
  *value = result;
  return TRUE;
}

gboolean
bond_xml_get_double (xmlNode *node, const char *name, double *value)
{
  g_autofree char *text = bond_xml_get (node, name);
  double result;

  if (text == NULL || !bond_number_parse (text, &result))
    return FALSE;
  *value = result;
  return TRUE;
}

gboolean
bond_xml_get_bool (xmlNode *node, const char *name, gboolean fallback)
{
  g_autofree char *text = bond_xml_get (node, name);

  if (text == NULL)
    return fallback;
  return strcmp (text, "yes") == 0 || strcmp (text, "true") == 0 || strcmp (text, "1") == 0;
}

static xmlNode *
first_of (xmlNode *node, const char *name)
{
  for (; node != NULL; node = node->next)
    if (node->type == XML_ELEMENT_NODE && (name == NULL || strcmp ((const char *)node->name, name) == 0))
      return node;
  return NULL;
}

xmlNode *
bond_xml_child (xmlNode *node, const char *name)
{
  return node == NULL ? NULL : first_of (node->children, name);
}

xmlNode *
bond_xml_next (xmlNode *node, const char *name)
{
  return node == NULL ? NULL : first_of (node->next, name);
}

xmlNode *
bond_xml_add (xmlNode *parent, const char *name)
{
  return xmlNewChild (parent, NULL, BAD_CAST name, NULL);
}

void
bond_xml_set (xmlNode *node, const char *name, const char *value)
{
  if (value != NULL)
    xmlNewProp (node, BAD_CAST name, BAD_CAST value);
}

void
bond_xml_set_int64 (xmlNode *node, const char *name, gint64 value)
{
  char text[32];

  g_snprintf (text, sizeof text, "%" G_GINT64_FORMAT, value);
  bond_xml_set (node, name, text);
}

void
bond_xml_set_double (xmlNode *node, const char *name, double value)
{
  char text[BOND_NUMBER_SIZE];

  g_return_if_fail (isfinite (value));
  bond_xml_set (node, name, bond_number_to_text (value, text));
}

void
bond_xml_set_text (xmlNode *parent, const char *name, const char *text)
{
  if (text != NULL)
    xmlNewTextChild (parent, NULL, BAD_CAST name, BAD_CAST text);
}

char *
bond_xml_get_text (xmlNode *parent, const char *name)
{
  xmlNode *child = bond_xml_child (parent, name);

  return child == NULL ? NULL : take (xmlNodeGetContent (child));
}
