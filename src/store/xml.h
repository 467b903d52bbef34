/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * The only way XML from outside gets in: size caps, no DTD, no entities, no
 * network, validated against the bundled schema, every problem located.
 */
#pragma once

#include <gio/gio.h>
#include <libxml/tree.h>

G_BEGIN_DECLS

#define BOND_STORE_ERROR (bond_store_error_quark ())
typedef enum
{
  BOND_STORE_ERROR_READ,    /* cannot be read: directory, permission, not there */
  BOND_STORE_ERROR_SYNTAX,  /* not well formed, not XML, empty, DOCTYPE, too large */
  BOND_STORE_ERROR_SCHEMA,  /* does not fit the schema */
  BOND_STORE_ERROR_NEWER,   /* written by a newer format */
  BOND_STORE_ERROR_SENSE,   /* fits the schema but makes no sense */
  BOND_STORE_ERROR_CHAIN,   /* chain digest does not match */
  BOND_STORE_ERROR_WRITE,   /* could not be written */
  BOND_STORE_ERROR_LOCKED,  /* open elsewhere */
  BOND_STORE_ERROR_CHANGED, /* changed on disk by somebody else */
  BOND_STORE_ERROR_UNSURE,  /* written and in place; a power cut could still bring the old file back */
  BOND_STORE_ERROR_LEFT,    /* another computer left its lock behind, or holds one that is not seen here */
  BOND_STORE_ERROR_FULL,    /* an entry could not be written: the disk is full */
} BondStoreError;
GQuark bond_store_error_quark (void);

/** BondProblem: one located problem; printed "FILE:LINE: message". @line 0 = the file as a whole. */
typedef struct
{
  char *file;
  int line;
  char *message;
} BondProblem;
BondProblem *bond_problem_new (const char *file, int line, const char *format, ...) G_GNUC_PRINTF (3, 4);
void bond_problem_free (BondProblem *problem);
char *bond_problem_to_string (const BondProblem *problem); /* (transfer full) */

#define BOND_NS_SURVEY "urn:bondwright:survey"
#define BOND_NS_AIRFRAME "urn:bondwright:airframe"
#define BOND_NS_LIMIT_SET "urn:bondwright:limit-set"
#define BOND_NS_INSTRUMENT "urn:bondwright:instrument"
#define BOND_NS_PERSON "urn:bondwright:person"
#define BOND_NS_HOUSE "urn:bondwright:house"

/** bond_xml_init: once, in the main thread, before any thread reads XML. */
void bond_xml_init (void);

/**
 * bond_xml_read_file / _bytes: parse and validate.
 * @root: expected root element name or NULL for any known one
 * @problems: GPtrArray of BondProblem, appended to
 *
 * Returns: (transfer full): document, free with xmlFreeDoc(), or NULL with @error naming file, line, cause, next step
 */
xmlDoc *bond_xml_read_file (const char *path, const char *root, GPtrArray *problems, GError **error);
xmlDoc *bond_xml_read_bytes (const char *name, const char *bytes, gsize length, const char *root, GPtrArray *problems,
                             GError **error);

/** bond_xml_parse_bytes: as above without asking for a root element or a schema: for pieces of files. */
xmlDoc *bond_xml_parse_bytes (const char *name, const char *bytes, gsize length, GPtrArray *problems, GError **error);
/** bond_xml_dump: @node as it stands in a file: UTF-8 on one line, line ends inside it as character references.
 * (transfer full) */
char *bond_xml_dump (xmlNode *node);

/** bond_xml_start_tag: the start tag of @node, which has no children. (transfer full) */
char *bond_xml_start_tag (xmlNode *node);

/** bond_xml_load: the bytes of a regular file of at most @cap bytes, a NUL behind them. (transfer full) */
char *bond_xml_load (const char *path, gsize cap, gsize *length, GPtrArray *problems, GError **error);

/** bond_xml_canonical: exclusive canonical XML (no comments) of @node as if without attribute @omit. */
GBytes *bond_xml_canonical (xmlNode *node, const char *omit);

/* Attribute helpers: NULL when absent; (transfer full) strings. */
char *bond_xml_get (xmlNode *node, const char *name);
gboolean bond_xml_get_int64 (xmlNode *node, const char *name, gint64 *value);
gboolean bond_xml_get_double (xmlNode *node, const char *name, double *value); /* refuses NaN, Inf */
gboolean bond_xml_get_bool (xmlNode *node, const char *name, gboolean fallback);
xmlNode *bond_xml_child (xmlNode *node, const char *name); /* first element child of that name, NULL name = any */
xmlNode *bond_xml_next (xmlNode *node, const char *name);  /* next sibling element of that name */
xmlNode *bond_xml_add (xmlNode *parent, const char *name); /* new child element in the parent's namespace */
void bond_xml_set (xmlNode *node, const char *name, const char *value); /* NULL value: nothing */
void bond_xml_set_int64 (xmlNode *node, const char *name, gint64 value);
void bond_xml_set_double (xmlNode *node, const char *name,
                          double value); /* shortest text that reads back the same, '.' */
void bond_xml_set_text (xmlNode *parent, const char *name, const char *text); /* child with text; NULL: nothing */
char *bond_xml_get_text (xmlNode *parent, const char *name);                  /* text of that child, NULL when absent */

G_END_DECLS
