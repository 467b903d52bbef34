/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * One table: kind of entry, the element its payload stands in, and how what is more
 * than a plain member is written and read; plain members are left to field-xml.c.
 * The form has passed the schema; what is refused here is what a schema cannot say,
 * such as a payload of another kind than the entry.  Whether an entry fits the
 * survey is left to core.
 */
#include "store/entry-xml.h"

#include "core/measurement.h"
#include "store/field-xml.h"
#include "store/reading-xml.h"
#include "store/register-file.h"
#include "store/register-parts.h"

#include <glib/gi18n-lib.h>
#include <string.h>

/* As in survey.xsd: `t` + 1 must fit for as long as anybody records. */
#define MAX_ORDER G_GINT64_CONSTANT (1000000000000)

/* What a payload holds besides its plain members. */
typedef void (*Writer) (xmlNode *node, const BondEntry *entry);
typedef gboolean (*Reader) (xmlNode *node, BondEntry *entry, const char *file, GError **error);

/*
 * @element: the payload element; NULL: the entry itself holds the members; "": the first child, whatever it is
 * @child: must be in it; NULL: nothing need be
 * @before, @after: (nullable): written before and after the plain members; @read: (nullable)
 */
typedef struct
{
  const char *element;
  const char *child;
  Writer before, after;
  Reader read;
} Row;

static gboolean
refuse_word (xmlNode *node, const char *word, const char *file, GError **error)
{
  bond_sense_error (error, file, node, _ ("“%s” in <%s> is not known to this version. Correct it or use a backup."),
                    word != NULL ? word : "", (const char *)node->name);
  return FALSE;
}

/* Both elements are there whatever they hold. */
static void
write_create (xmlNode *node, const BondEntry *entry)
{
  bond_xml_add (node, "aircraft");
  bond_xml_add (node, "order");
}

static void
write_create_end (xmlNode *node, const BondEntry *entry)
{
  if (entry->create.invented)
    bond_xml_add (node, "invented");
}

static gboolean
read_create (xmlNode *node, BondEntry *entry, const char *file, GError **error)
{
  entry->create.invented = bond_xml_child (node, "invented") != NULL;
  return TRUE;
}

static void
write_adopt (xmlNode *node, const BondEntry *entry)
{
  bond_register_write (node, entry->adopt.what, entry->adopt.object);
}

static gboolean
read_adopt (xmlNode *node, BondEntry *entry, const char *file, GError **error)
{
  entry->adopt.object = bond_register_read (node, &entry->adopt.what, file, error);
  return entry->adopt.object != NULL;
}

static void
write_point (xmlNode *node, const BondEntry *entry)
{
  bond_point_spec_write (node, entry->spec, FALSE);
}

static gboolean
read_point (xmlNode *node, BondEntry *entry, const char *file, GError **error)
{
  entry->spec = bond_point_spec_read (bond_xml_child (node, "point"), entry->point, file, error);
  return entry->spec != NULL;
}

/* Of a reading, of one seen and of a correction, inside whatever holds it. */
static void
write_reading (xmlNode *node, const BondEntry *entry)
{
  bond_reading_write (node, bond_entry_get_reading (entry));
}

static gboolean
read_reading (xmlNode *node, BondEntry *entry, const char *file, GError **error)
{
  return bond_reading_read (bond_xml_child (node, "reading"), (BondReading *)bond_entry_get_reading (entry), file,
                            error);
}

static void
write_rework (xmlNode *node, const BondEntry *entry)
{
  for (guint i = 0; i < BOND_N_REWORK_DONE; i++)
    if (entry->rework.done & (1u << i))
      bond_xml_set_text (node, "done", bond_rework_done_file_name ((BondReworkDone)(1u << i)));
}

static void
write_rework_end (xmlNode *node, const BondEntry *entry)
{
  bond_xml_set_text (node, "found", bond_visual_file_name (entry->rework.found));
}

static gboolean
read_rework (xmlNode *node, BondEntry *entry, const char *file, GError **error)
{
  BondRework *rework = &entry->rework;
  g_autofree char *found = bond_xml_get_text (node, "found");

  for (xmlNode *done = bond_xml_child (node, "done"); done != NULL; done = bond_xml_next (done, "done"))
    {
      xmlChar *word = xmlNodeGetContent (done);
      BondReworkDone one;
      gboolean known = bond_rework_done_parse ((const char *)word, &one);

      if (!known)
        refuse_word (done, (const char *)word, file, error);
      xmlFree (word);
      if (!known)
        return FALSE;
      rework->done |= one;
    }
  return found == NULL || bond_visual_parse (found, &rework->found) || refuse_word (node, found, file, error);
}

static void
write_disposition (xmlNode *node, const BondEntry *entry)
{
  bond_bounds_write (node, &entry->disposition.bounds);
}

static gboolean
read_disposition (xmlNode *node, BondEntry *entry, const char *file, GError **error)
{
  return bond_bounds_read (node, file, &entry->disposition.bounds, error);
}

static const Row rows[BOND_N_ENTRY_KINDS] = {
  [BOND_ENTRY_CREATE] = { NULL, "aircraft", write_create, write_create_end, read_create },
  [BOND_ENTRY_ADOPT] = { "", NULL, NULL, write_adopt, read_adopt },
  [BOND_ENTRY_POINT] = { NULL, "point", NULL, write_point, read_point },
  [BOND_ENTRY_PLACE] = { "place" },
  [BOND_ENTRY_READING] = { NULL, "reading", NULL, write_reading, read_reading },
  [BOND_ENTRY_VOID] = { "void" },
  [BOND_ENTRY_CORRECT] = { "correct", "reading", NULL, write_reading, read_reading },
  [BOND_ENTRY_MOVE] = { "move" },
  [BOND_ENTRY_TAKE_BACK] = { "take-back" },
  [BOND_ENTRY_REWORK] = { NULL, "done", write_rework, write_rework_end, read_rework },
  [BOND_ENTRY_CONDITION] = { "condition" },
  [BOND_ENTRY_STATE] = { "state" },
  [BOND_ENTRY_VISUAL] = { "visual" },
  [BOND_ENTRY_DISPOSITION] = { "disposition", NULL, NULL, write_disposition, read_disposition },
  [BOND_ENTRY_ATTACH] = { "attach" },
  [BOND_ENTRY_SEEN] = { NULL, "reading", NULL, write_reading, read_reading },
  [BOND_ENTRY_NOTE] = { NULL, "note" },
  [BOND_ENTRY_DEFECT] = { "defect" },
  [BOND_ENTRY_DEVIATION] = { "deviation" },
  [BOND_ENTRY_REFINISH] = { "refinish" },
  [BOND_ENTRY_PERMIT] = { "permit" },
  [BOND_ENTRY_CLOSE_PERMIT] = { "close-permit" },
  [BOND_ENTRY_REFERENCE] = { "clip" },
  [BOND_ENTRY_CAUTION] = { "caution" },
  [BOND_ENTRY_HANDOVER] = { "handover" },
};

gboolean
bond_entry_id_split (const char *id, char **sitting, int *n)
{
  const char *hyphen = id == NULL ? NULL : strrchr (id, '-');
  gint64 number;

  if (hyphen == NULL || hyphen == id || !g_ascii_string_to_signed (hyphen + 1, 10, 1, G_MAXINT, &number, NULL))
    return FALSE;
  *n = (int)number;
  *sitting = g_strndup (id, hyphen - id);
  return TRUE;
}

static void
write_payload (xmlNode *node, const BondEntry *entry)
{
  const Row *row = &rows[entry->kind];
  xmlNode *in = row->element != NULL && *row->element != 0 ? bond_xml_add (node, row->element) : node;

  if (row->before != NULL)
    row->before (in, entry);
  bond_fields_write (in, entry);
  if (row->after != NULL)
    row->after (in, entry);
}

xmlNode *
bond_entry_write (xmlNode *parent, const BondEntry *entry)
{
  xmlNode *node;

  g_return_val_if_fail (parent != NULL && entry != NULL, NULL);

  node = bond_xml_add (parent, "entry");
  bond_xml_set (node, "id", entry->id);
  bond_xml_set_int64 (node, "t", entry->t);
  bond_xml_set (node, "at", entry->at);
  bond_xml_set (node, "by", entry->by);
  bond_xml_set (node, "entered-by", entry->entered_by);
  bond_xml_set (node, "under", entry->under);
  bond_xml_set (node, "kind", bond_entry_kind_info (entry->kind)->name);
  bond_xml_set (node, "point", entry->point);
  bond_xml_set (node, "place", entry->place);
  bond_xml_set (node, "ref", entry->ref);
  bond_xml_set (node, "reason", entry->reason);
  write_payload (node, entry);
  return node;
}

/* The element the reader of this kind wants; NULL when it is missing. */
static xmlNode *
payload (xmlNode *node, const Row *row)
{
  if (row->element == NULL)
    return node;
  return bond_xml_child (node, *row->element == 0 ? NULL : row->element);
}

static gboolean
read_head (xmlNode *node, BondEntry *entry, const char *file, GError **error)
{
  entry->id = bond_xml_get (node, "id");
  entry->at = bond_xml_get (node, "at");
  entry->by = bond_xml_get (node, "by");
  entry->entered_by = bond_xml_get (node, "entered-by");
  entry->under = bond_xml_get (node, "under");
  entry->point = bond_xml_get (node, "point");
  entry->place = bond_xml_get (node, "place");
  entry->ref = bond_xml_get (node, "ref");
  entry->reason = bond_xml_get (node, "reason");
  entry->digest = bond_xml_get (node, "d");
  if (!bond_xml_get_int64 (node, "t", &entry->t) || entry->t < 1 || entry->t > MAX_ORDER
      || !bond_entry_id_split (entry->id, &entry->sitting, &entry->n))
    {
      bond_sense_error (error, file, node,
                        _ ("the entry has no usable id or order number. Use a backup or another copy."));
      return FALSE;
    }
  return TRUE;
}

BondEntry *
bond_entry_read (xmlNode *node, const char *file, GError **error)
{
  g_autoptr (BondEntry) entry = NULL;
  g_autofree char *word = NULL;
  BondEntryKind kind;
  xmlNode *element;

  g_return_val_if_fail (node != NULL && file != NULL, NULL);

  word = bond_xml_get (node, "kind");
  if (word == NULL || !bond_entry_kind_parse (word, &kind))
    {
      refuse_word (node, word, file, error);
      return NULL;
    }
  element = payload (node, &rows[kind]);
  if (element == NULL || (rows[kind].child != NULL && bond_xml_child (element, rows[kind].child) == NULL))
    {
      bond_sense_error (error, file, node,
                        _ ("an entry of kind \"%s\" does not hold what it must. Use a backup or another copy."), word);
      return NULL;
    }
  entry = bond_entry_new (kind);
  if (!read_head (node, entry, file, error) || !bond_fields_read (element, entry, file, error)
      || (rows[kind].read != NULL && !rows[kind].read (element, entry, file, error)))
    return NULL;
  return g_steal_pointer (&entry);
}
