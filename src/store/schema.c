/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * The table of file kinds and the one way to hold an element against its schema.
 * libxml2's messages are turned into located problems here; what to do about them
 * is left to the caller.
 */
#include "store/schema.h"

#include "store/schema-document.h"

#include <glib/gi18n-lib.h>
#include <string.h>

#define MB (1024 * 1024)
/* A broken file can give a message for every line; nobody reads more than this. */
#define MAX_PROBLEMS 50
/* A value can be a megabyte, and it is quoted in what libxml2 says of it. */
#define MAX_MESSAGE 400

static const BondDialect dialects[] = {
  /* Attachments of 200 MB are 270 MB in base64; the rest is record. */
  { "survey", BOND_NS_SURVEY, "survey.xsd", 1, (gsize)400 * MB },
  { "airframe", BOND_NS_AIRFRAME, "airframe.xsd", 1, 16 * MB },
  { "limit-set", BOND_NS_LIMIT_SET, "limit-set.xsd", 1, 16 * MB },
  { "instrument", BOND_NS_INSTRUMENT, "instrument.xsd", 1, 16 * MB },
  { "person", BOND_NS_PERSON, "person.xsd", 1, 16 * MB },
  { "house", BOND_NS_HOUSE, "house.xsd", 1, 16 * MB },
};

struct _BondSchema
{
  xmlDoc *doc; /* the schema refers to it */
  xmlSchema *schema;
  xmlSchemaValidCtxt *context;
  const char *file; /* of the check under way */
  GPtrArray *problems;
  guint found;
};

char *
bond_schema_plain_message (const char *message)
{
  g_autofree char *first = g_strndup (message, strcspn (message, "\n"));
  g_autofree char *valid = g_utf8_make_valid (first, -1);
  g_autoptr (GString) text = g_string_new (valid);

  for (guint i = 0; i < G_N_ELEMENTS (dialects); i++)
    {
      g_autofree char *braces = g_strdup_printf ("{%s}", dialects[i].ns);

      g_string_replace (text, braces, "", 0);
    }
  while (text->len > 0 && strchr (" .", text->str[text->len - 1]) != NULL)
    g_string_truncate (text, text->len - 1);
  if (g_utf8_strlen (text->str, -1) > MAX_MESSAGE)
    {
      g_string_truncate (text, g_utf8_offset_to_pointer (text->str, MAX_MESSAGE) - text->str);
      g_string_append (text, "…");
    }
  return g_string_free (g_steal_pointer (&text), FALSE);
}

static int
line_of (const xmlError *error)
{
  return error->node != NULL ? (int)xmlGetLineNo (error->node) : error->line;
}

#if LIBXML_VERSION >= 21200
typedef const xmlError *BondXmlErrorArg;
#else
typedef xmlError *BondXmlErrorArg;
#endif

static void
schema_error_cb (void *data, BondXmlErrorArg error)
{
  BondSchema *schema = data;
  g_autofree char *message = NULL;

  schema->found++;
  if (schema->problems == NULL || schema->found > MAX_PROBLEMS || error->message == NULL)
    return;
  message = bond_schema_plain_message (error->message);
  g_ptr_array_add (schema->problems, bond_problem_new (schema->file, line_of (error), "%s", message));
}

const BondDialect *
bond_dialect_of (const xmlNode *node)
{
  for (guint i = 0; node != NULL && node->ns != NULL && i < G_N_ELEMENTS (dialects); i++)
    if (strcmp ((const char *)node->name, dialects[i].root) == 0
        && strcmp ((const char *)node->ns->href, dialects[i].ns) == 0)
      return &dialects[i];
  return NULL;
}

const BondDialect *
bond_dialect_find (const char *root)
{
  for (guint i = 0; root != NULL && i < G_N_ELEMENTS (dialects); i++)
    if (strcmp (root, dialects[i].root) == 0)
      return &dialects[i];
  return NULL;
}

gsize
bond_dialect_cap (const char *root)
{
  const BondDialect *dialect = bond_dialect_find (root);

  return dialect != NULL ? dialect->size_cap : dialects[0].size_cap;
}

BondSchema *
bond_schema_new (const BondDialect *dialect, GError **error)
{
  g_autoptr (BondSchema) schema = g_new0 (BondSchema, 1);
  xmlSchemaParserCtxt *parser;

  schema->doc = bond_schema_document (dialect->schema, error);
  if (schema->doc == NULL)
    return NULL;
  parser = xmlSchemaNewDocParserCtxt (schema->doc);
  schema->file = dialect->schema;
  xmlSchemaSetParserStructuredErrors (parser, (xmlStructuredErrorFunc)schema_error_cb, schema);
  schema->schema = xmlSchemaParse (parser);
  xmlSchemaFreeParserCtxt (parser);
  if (schema->schema == NULL)
    {
      g_set_error (error, BOND_STORE_ERROR, BOND_STORE_ERROR_READ,
                   _ ("The program's own schema %s cannot be used. Install the program again."), dialect->schema);
      return NULL;
    }
  schema->context = xmlSchemaNewValidCtxt (schema->schema);
  xmlSchemaSetValidStructuredErrors (schema->context, (xmlStructuredErrorFunc)schema_error_cb, schema);
  return g_steal_pointer (&schema);
}

void
bond_schema_free (BondSchema *schema)
{
  if (schema == NULL)
    return;
  g_clear_pointer (&schema->context, xmlSchemaFreeValidCtxt);
  g_clear_pointer (&schema->schema, xmlSchemaFree);
  g_clear_pointer (&schema->doc, xmlFreeDoc);
  g_free (schema);
}

static void
cache_free (gpointer cache)
{
  g_hash_table_unref (cache);
}

/* A compiled schema is the same for everybody; a check under way is not, so each thread has its own. */
static GHashTable *
thread_cache (void)
{
  static GPrivate cache = G_PRIVATE_INIT (cache_free);
  GHashTable *table = g_private_get (&cache);

  if (table == NULL)
    {
      table = g_hash_table_new_full (NULL, NULL, NULL, (GDestroyNotify)bond_schema_free);
      g_private_set (&cache, table);
    }
  return table;
}

BondSchema *
bond_schema_get (const BondDialect *dialect, GError **error)
{
  GHashTable *cache = thread_cache ();
  BondSchema *schema = g_hash_table_lookup (cache, dialect);

  if (schema != NULL)
    return schema;
  schema = bond_schema_new (dialect, error);
  if (schema != NULL)
    g_hash_table_insert (cache, (gpointer)dialect, schema);
  return schema;
}

guint
bond_schema_check (BondSchema *schema, xmlNode *node, const char *file, GPtrArray *problems)
{
  int result;

  schema->file = file;
  schema->problems = problems;
  schema->found = 0;
  result = xmlSchemaValidateOneElement (schema->context, node);
  if (result != 0 && schema->found == 0)
    {
      schema->found = 1;
      g_ptr_array_add (problems, bond_problem_new (file, (int)xmlGetLineNo (node),
                                                   _ ("could not be checked against its schema (code %d)"), result));
    }
  schema->problems = NULL;
  return schema->found;
}
