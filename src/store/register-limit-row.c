/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * One row of a limit table as XML, both ways: in a limit set, and as a point's own.
 */
#include "store/register-parts.h"

#include <glib/gi18n-lib.h>

#define MAX_VOLTS 10000

static gboolean
parse_row_class (const char *text, int *klass)
{
  BondClass one;

  if (strcmp (text, "any") == 0)
    {
      *klass = BOND_CLASS_ANY;
      return TRUE;
    }
  if (!bond_class_parse (text, &one))
    return FALSE;
  *klass = one;
  return TRUE;
}

static gboolean
parse_scope (const char *text, BondScope *scope)
{
  *scope = strcmp (text, "path") == 0 ? BOND_SCOPE_PATH : BOND_SCOPE_JOINT;
  return *scope == BOND_SCOPE_PATH || strcmp (text, "joint") == 0;
}

/* An empty text is left out of the file, and one left out is read as empty: these two are never NULL in a row. */
static const char *
unless_empty (const char *text)
{
  return text != NULL && *text != '\0' ? text : NULL;
}

static char *
or_empty (char *text)
{
  return text != NULL ? text : g_strdup ("");
}

static void
write_tier (xmlNode *row, const char *name, const BondBounds *bounds)
{
  if (bounds->upper.relation != BOND_RELATION_NONE || bounds->lower.relation != BOND_RELATION_NONE)
    bond_bounds_write (bond_xml_add (row, name), bounds);
}

static void
write_source (xmlNode *row, const BondLimitRow *from)
{
  xmlNode *source = bond_xml_add (row, "source");

  bond_xml_set (source, "document", unless_empty (from->document));
  bond_xml_set (source, "revision", from->revision);
  bond_xml_set (source, "paragraph", from->paragraph);
  bond_xml_set (source, "checked-by", from->checked_by);
}

/* What is as usual is left out: a table of rows stays readable. */
static void
write_row_attributes (xmlNode *node, const BondLimitRow *row)
{
  bond_xml_set (node, "code", row->code);
  bond_xml_set (node, "class", row->klass == BOND_CLASS_ANY ? "any" : bond_class_file_name ((BondClass)row->klass));
  bond_xml_set (node, "method", bond_method_file_name (row->method));
  if (row->method_volts != 0)
    bond_xml_set_int64 (node, "volts", row->method_volts);
  if (row->scope == BOND_SCOPE_PATH)
    bond_xml_set (node, "scope", "path");
  if (row->connectors != BOND_CONNECTORS_ANY)
    bond_xml_set (node, "connectors", bond_connectors_file_name (row->connectors));
  if (row->mounting != BOND_MOUNTING_ANY)
    bond_xml_set (node, "mounting", bond_mounting_file_name (row->mounting));
  bond_xml_set (node, "pair", row->pair ? "yes" : NULL);
  bond_xml_set (node, "default", row->is_default ? "yes" : NULL);
  bond_xml_set (node, "verified", row->verified ? NULL : "no");
}

xmlNode *
bond_limit_row_write (xmlNode *parent, const char *name, const BondLimitRow *row)
{
  xmlNode *node;

  g_return_val_if_fail (parent != NULL && name != NULL && row != NULL, NULL);
  node = bond_xml_add (parent, name);
  write_row_attributes (node, row);
  bond_xml_set_text (node, "covers", unless_empty (row->covers));
  write_tier (node, "in-service", &row->in_service);
  if (row->has_strict)
    write_tier (node, "stricter", &row->strict);
  write_source (node, row);
  bond_xml_set_text (node, "note", row->note);
  return node;
}

static gboolean
read_row_attributes (xmlNode *node, const char *file, BondLimitRow *row, GError **error)
{
  const struct
  {
    const char *name;
    BondWordParser parse;
    gpointer value;
  } words[] = {
    { "class", (BondWordParser)parse_row_class, &row->klass },
    { "method", (BondWordParser)bond_method_parse, &row->method },
    { "scope", (BondWordParser)parse_scope, &row->scope },
    { "connectors", (BondWordParser)bond_connectors_parse, &row->connectors },
    { "mounting", (BondWordParser)bond_mounting_parse, &row->mounting },
  };
  gsize i;

  for (i = 0; i < G_N_ELEMENTS (words); i++)
    if (!bond_read_word (node, words[i].name, file, words[i].parse, words[i].value, error))
      return FALSE;
  row->pair = bond_xml_get_bool (node, "pair", FALSE);
  row->is_default = bond_xml_get_bool (node, "default", FALSE);
  row->verified = bond_xml_get_bool (node, "verified", TRUE);
  return bond_read_whole (node, "volts", file, MAX_VOLTS, &row->method_volts, error);
}

static gboolean
read_tiers (xmlNode *node, const char *file, BondLimitRow *row, GError **error)
{
  xmlNode *in_service = bond_xml_child (node, "in-service"), *stricter = bond_xml_child (node, "stricter");

  if (in_service != NULL && !bond_bounds_read (in_service, file, &row->in_service, error))
    return FALSE;
  row->has_strict = stricter != NULL;
  return stricter == NULL || bond_bounds_read (stricter, file, &row->strict, error);
}

static void
read_source (xmlNode *node, BondLimitRow *row)
{
  xmlNode *source = bond_xml_child (node, "source");

  row->document = or_empty (source != NULL ? bond_xml_get (source, "document") : NULL);
  if (source == NULL)
    return;
  row->revision = bond_xml_get (source, "revision");
  row->paragraph = bond_xml_get (source, "paragraph");
  row->checked_by = bond_xml_get (source, "checked-by");
}

BondLimitRow *
bond_limit_row_read (xmlNode *node, const char *file, GError **error)
{
  g_autoptr (BondLimitRow) row = NULL;
  g_autoptr (GError) unsound = NULL;

  g_return_val_if_fail (node != NULL && file != NULL, NULL);
  row = bond_limit_row_new ();
  row->code = bond_read_needed (node, "code", file, error);
  if (row->code == NULL || !read_row_attributes (node, file, row, error) || !read_tiers (node, file, row, error))
    return NULL;
  row->covers = or_empty (bond_xml_get_text (node, "covers"));
  row->note = bond_xml_get_text (node, "note");
  read_source (node, row);
  if (bond_limit_row_check (row, &unsound))
    return g_steal_pointer (&row);
  bond_sense_error (error, file, node, "%s", unsound->message);
  return NULL;
}
