/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * The gate: bytes to a validated document, or an error a person can act on.  The
 * order matters: size, look over the bytes, parse, format, schema, so that a newer
 * file is named as newer and not as wrong.  What the elements mean is left to the
 * readers; attributes and canonical form are in xml-node.c.
 */
#include "store/xml.h"

#include "store/scan.h"
#include "store/schema.h"

#include <errno.h>
#include <fcntl.h>
#include <glib/gi18n-lib.h>
#include <libxml/parser.h>
#include <libxml/xmlIO.h>
#include <libxml/xmlerror.h>
#include <string.h>
#include <sys/stat.h>
#include <unistd.h>

/* No NOENT, DTDLOAD, HUGE, XINCLUDE, ever.  BIG_LINES: lines beyond 65,535 keep their number. */
#define PARSE_OPTIONS                                                                                                  \
  (XML_PARSE_NONET | XML_PARSE_COMPACT | XML_PARSE_BIG_LINES | XML_PARSE_NOERROR | XML_PARSE_NOWARNING)

G_DEFINE_QUARK (bond_store_error, bond_store_error)

BondProblem *
bond_problem_new (const char *file, int line, const char *format, ...)
{
  BondProblem *problem = g_new0 (BondProblem, 1);
  va_list args;

  problem->file = g_strdup (file);
  problem->line = line;
  va_start (args, format);
  problem->message = g_strdup_vprintf (format, args);
  va_end (args);
  return problem;
}

void
bond_problem_free (BondProblem *problem)
{
  if (problem == NULL)
    return;
  g_free (problem->file);
  g_free (problem->message);
  g_free (problem);
}

char *
bond_problem_to_string (const BondProblem *problem)
{
  if (problem->line <= 0)
    return g_strdup_printf ("%s: %s", problem->file, problem->message);
  return g_strdup_printf ("%s:%d: %s", problem->file, problem->line, problem->message);
}

/* Sets @error to the problem and lists it too. */
static void G_GNUC_PRINTF (6, 7)
    fail (GError **error, GPtrArray *problems, BondStoreError code, const char *file, int line, const char *format, ...)
{
  g_autofree char *message = NULL;
  g_autofree char *text = NULL;
  BondProblem *problem;
  va_list args;

  va_start (args, format);
  message = g_strdup_vprintf (format, args);
  va_end (args);
  problem = bond_problem_new (file, line, "%s", message);
  text = bond_problem_to_string (problem);
  g_set_error_literal (error, BOND_STORE_ERROR, code, text);
  if (problems != NULL)
    g_ptr_array_add (problems, problem);
  else
    bond_problem_free (problem);
}

/* Nothing outside the bytes in hand is ever opened. */
static xmlParserInput *
refuse_entity_cb (const char *url, const char *id, xmlParserCtxt *context)
{
  return NULL;
}

/* libxml2 prints what nobody asked for; every error here is fetched from its context instead. */
static void G_GNUC_PRINTF (2, 3) quiet_cb (void *data, const char *format, ...) {}

void
bond_xml_init (void)
{
  xmlInitParser ();
  xmlSetExternalEntityLoader (refuse_entity_cb);
  xmlSetGenericErrorFunc (NULL, quiet_cb);
}

static xmlDoc *
parse (const char *name, const char *bytes, gsize length, GPtrArray *problems, GError **error)
{
  xmlParserCtxt *context = xmlNewParserCtxt ();
  /* The encoding is stated, so that none the file names can hide a tag from the look before. */
  xmlDoc *doc = xmlCtxtReadMemory (context, bytes, (int)length, NULL, "UTF-8", PARSE_OPTIONS);

  if (doc == NULL || xmlDocGetRootElement (doc) == NULL)
    {
      const xmlError *last = xmlCtxtGetLastError (context);
      g_autofree char *why = last == NULL || last->message == NULL ? g_strdup (_ ("not well-formed XML"))
                                                                   : bond_schema_plain_message (last->message);

      fail (error, problems, BOND_STORE_ERROR_SYNTAX, name, last == NULL ? 0 : last->line,
            _ ("%s. The file is damaged or cut off; nothing was changed. Use a backup or another copy."), why);
      g_clear_pointer (&doc, xmlFreeDoc);
    }
  xmlFreeParserCtxt (context);
  return doc;
}

/* The kind of file, unless it is none of ours, not the one asked for, or newer than this program. */
static const BondDialect *
check_root (const char *name, xmlNode *root, const char *wanted, GPtrArray *problems, GError **error)
{
  const BondDialect *dialect = bond_dialect_of (root);
  int line = (int)xmlGetLineNo (root);
  gint64 format = 0;

  if (dialect == NULL || (wanted != NULL && strcmp (wanted, dialect->root) != 0))
    {
      fail (error, problems, BOND_STORE_ERROR_SCHEMA, name, line,
            _ ("the file holds <%s>, which is not what is asked for here. Choose another file."), root->name);
      return NULL;
    }
  if (bond_xml_get_int64 (root, "format", &format) && format > dialect->format)
    {
      g_autofree char *program = bond_xml_get (root, "program");

      fail (error, problems, BOND_STORE_ERROR_NEWER, name, line,
            _ ("written by Bondwright %s in format %" G_GINT64_FORMAT
               "; this is version %s, which reads up to format %d. "
               "Nothing was changed. Open it with that version or a newer one."),
            program != NULL ? program : _ ("(version not stated)"), format, BOND_VERSION, dialect->format);
      return NULL;
    }
  return dialect;
}

static gboolean
check_schema (const char *name, xmlNode *root, const BondDialect *dialect, GPtrArray *problems, GError **error)
{
  BondSchema *schema = bond_schema_get (dialect, error);
  g_autoptr (GPtrArray) found = g_ptr_array_new_with_free_func ((GDestroyNotify)bond_problem_free);
  g_autofree char *first = NULL;
  guint n;

  if (schema == NULL)
    return FALSE;
  n = bond_schema_check (schema, root, name, found);
  if (n == 0)
    return TRUE;
  first = bond_problem_to_string (found->pdata[0]);
  g_set_error (
      error, BOND_STORE_ERROR, BOND_STORE_ERROR_SCHEMA,
      ngettext ("%s. The file does not fit its form; nothing was changed. Correct that line or use a backup.",
                "%s (and %u more). The file does not fit its form; nothing was changed. Correct those lines or "
                "use a backup.",
                n),
      first, n - 1);
  if (problems != NULL)
    g_ptr_array_extend_and_steal (problems, g_steal_pointer (&found));
  return FALSE;
}

xmlDoc *
bond_xml_parse_bytes (const char *name, const char *bytes, gsize length, GPtrArray *problems, GError **error)
{
  BondScan scan = { 0 };
  g_autofree char *trouble = NULL;
  int line = 0;

  g_return_val_if_fail (name != NULL && (bytes != NULL || length == 0), NULL);

  trouble = bond_scan_xml (bytes, length, &scan, &line);
  bond_scan_clear (&scan);
  if (trouble == NULL)
    return parse (name, bytes, length, problems, error);
  fail (error, problems, BOND_STORE_ERROR_SYNTAX, name, line, "%s", trouble);
  return NULL;
}

xmlDoc *
bond_xml_read_bytes (const char *name, const char *bytes, gsize length, const char *root, GPtrArray *problems,
                     GError **error)
{
  gsize cap = bond_dialect_cap (root);
  const BondDialect *dialect;
  xmlDoc *doc;

  g_return_val_if_fail (name != NULL && (bytes != NULL || length == 0), NULL);

  if (length > cap)
    {
      fail (error, problems, BOND_STORE_ERROR_SYNTAX, name, 0,
            _ ("larger than such a file can be (%" G_GSIZE_FORMAT " MB). It is not read."), cap >> 20);
      return NULL;
    }
  doc = bond_xml_parse_bytes (name, bytes, length, problems, error);
  if (doc == NULL)
    return NULL;
  dialect = check_root (name, xmlDocGetRootElement (doc), root, problems, error);
  if (dialect == NULL || !check_schema (name, xmlDocGetRootElement (doc), dialect, problems, error))
    g_clear_pointer (&doc, xmlFreeDoc);
  return doc;
}

/* What the system said, in our words where a person can do something about it. */
static char *
cannot_read (int code)
{
  switch (code)
    {
    case ENOENT:
      return g_strdup (_ ("there is no such file. Check the name and the folder."));
    case EACCES:
      return g_strdup (_ ("you may not read this file. Ask its owner for permission."));
    case EISDIR:
      return g_strdup (_ ("this is a folder, not a file. Choose a file in it."));
    default:
      return g_strdup_printf (_ ("cannot be read: %s. Check the disk or the network share and try again."),
                              g_strerror (code));
    }
}

/* Returns 0 or the errno; EFBIG when larger than @cap. */
static int
read_whole (int fd, gsize cap, char **bytes, gsize *length)
{
  struct stat info;
  gsize size, got = 0;

  if (fstat (fd, &info) != 0)
    return errno;
  if (S_ISDIR (info.st_mode))
    return EISDIR;
  if (!S_ISREG (info.st_mode))
    return EINVAL;
  if ((guint64)info.st_size > cap)
    return EFBIG;
  size = info.st_size;
  *bytes = g_malloc (size + 1);
  while (got < size)
    {
      gssize n = read (fd, *bytes + got, size - got);

      if (n < 0 && errno == EINTR)
        continue;
      if (n < 0)
        return errno;
      if (n == 0)
        break;
      got += n;
    }
  (*bytes)[got] = 0;
  *length = got;
  return 0;
}

char *
bond_xml_load (const char *path, gsize cap, gsize *length, GPtrArray *problems, GError **error)
{
  g_autofree char *bytes = NULL;
  g_autofree char *why = NULL;
  /* NONBLOCK: a named pipe must not hold the program. */
  int fd = open (path, O_RDONLY | O_CLOEXEC | O_NONBLOCK | O_NOCTTY);
  int code = fd < 0 ? errno : read_whole (fd, cap, &bytes, length);

  if (fd >= 0)
    close (fd);
  if (code == 0)
    return g_steal_pointer (&bytes);
  if (code == EFBIG)
    {
      fail (error, problems, BOND_STORE_ERROR_SYNTAX, path, 0,
            _ ("larger than such a file can be (%" G_GSIZE_FORMAT " MB). It is not read."), cap >> 20);
      return NULL;
    }
  why = cannot_read (code);
  fail (error, problems, BOND_STORE_ERROR_READ, path, 0, "%s", why);
  return NULL;
}

xmlDoc *
bond_xml_read_file (const char *path, const char *root, GPtrArray *problems, GError **error)
{
  g_autofree char *bytes = NULL;
  gsize length = 0;

  g_return_val_if_fail (path != NULL, NULL);

  bytes = bond_xml_load (path, bond_dialect_cap (root), &length, problems, error);
  return bytes == NULL ? NULL : bond_xml_read_bytes (path, bytes, length, root, problems, error);
}
