/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * One table: kind of entry, how its payload is written, how it is read.  The form
 * has passed the schema; what is refused here is what a schema cannot say, such as
 * a payload of another kind than the entry.  Whether an entry fits the survey is
 * left to core.
 */
#include "store/entry-xml.h"

#include "store/reading-xml.h"
#include "store/register-file.h"
#include "store/register-parts.h"

#include <glib/gi18n-lib.h>
#include <string.h>

/* As in survey.xsd: `t` + 1 must fit for as long as anybody records. */
#define MAX_ORDER G_GINT64_CONSTANT (1000000000000)

typedef void (*Writer) (xmlNode *node, const BondEntry *entry);
typedef gboolean (*Reader) (xmlNode *node, BondEntry *entry, const char *file, GError **error);

/* @element: the payload element handed to @read; NULL: the entry itself. @child: must be in it; NULL: nothing need be.
 */
typedef struct
{
  const char *element;
  const char *child;
  Writer write;
  Reader read;
} Row;

static gboolean
refuse_word (xmlNode *node, const char *word, const char *file, GError **error)
{
  bond_sense_error (error, file, node, _ ("“%s” in <%s> is not known to this version. Correct it or use a backup."),
                    word != NULL ? word : "", (const char *)node->name);
  return FALSE;
}

static void
set_yes (xmlNode *node, const char *attribute, gboolean yes)
{
  if (yes)
    bond_xml_set (node, attribute, "yes");
}

static void
write_create (xmlNode *node, const BondEntry *entry)
{
  const BondCreate *create = &entry->create;
  xmlNode *aircraft = bond_xml_add (node, "aircraft");
  xmlNode *order = bond_xml_add (node, "order");

  bond_xml_set (aircraft, "type", create->aircraft_type);
  bond_xml_set (aircraft, "serial", create->serial);
  bond_xml_set (aircraft, "registration", create->registration);
  bond_xml_set (order, "number", create->order);
  bond_xml_set (order, "trigger", create->trigger);
  bond_xml_set (order, "customer", create->customer);
  bond_xml_set (order, "location", create->location);
  bond_xml_set (bond_xml_add (node, "rule"), "name", bond_rule_file_name (create->rule));
  bond_xml_set_text (node, "title", create->title);
  if (create->invented)
    bond_xml_add (node, "invented");
}

static gboolean
read_create (xmlNode *node, BondEntry *entry, const char *file, GError **error)
{
  BondCreate *create = &entry->create;
  xmlNode *aircraft = bond_xml_child (node, "aircraft");
  xmlNode *order = bond_xml_child (node, "order");
  xmlNode *rule = bond_xml_child (node, "rule");

  create->aircraft_type = bond_xml_get (aircraft, "type");
  create->serial = bond_xml_get (aircraft, "serial");
  create->registration = bond_xml_get (aircraft, "registration");
  create->order = bond_xml_get (order, "number");
  create->trigger = bond_xml_get (order, "trigger");
  create->customer = bond_xml_get (order, "customer");
  create->location = bond_xml_get (order, "location");
  create->title = bond_xml_get_text (node, "title");
  create->invented = bond_xml_child (node, "invented") != NULL;
  return bond_read_word (rule, "name", file, (BondWordParser)bond_rule_parse, &create->rule, error);
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
  entry->spec = bond_point_spec_read (node, entry->point, file, error);
  return entry->spec != NULL;
}

static void
write_place (xmlNode *node, const BondEntry *entry)
{
  xmlNode *place = bond_xml_add (node, "place");

  bond_xml_set (place, "label", entry->place_spec.label);
  bond_xml_set (place, "in-sample", entry->place_spec.in_sample ? "yes" : "no");
}

static gboolean
read_place (xmlNode *node, BondEntry *entry, const char *file, GError **error)
{
  entry->place_spec.label = bond_xml_get (node, "label");
  entry->place_spec.in_sample = bond_xml_get_bool (node, "in-sample", TRUE);
  return TRUE;
}

static void
write_reading (xmlNode *node, const BondEntry *entry)
{
  bond_reading_write (node, &entry->reading);
}

static gboolean
read_reading (xmlNode *node, BondEntry *entry, const char *file, GError **error)
{
  return bond_reading_read (node, &entry->reading, file, error);
}

static void
write_void (xmlNode *node, const BondEntry *entry)
{
  bond_xml_set (bond_xml_add (node, "void"), "why", bond_void_reason_file_name (entry->voided.why));
}

static gboolean
read_void (xmlNode *node, BondEntry *entry, const char *file, GError **error)
{
  return bond_read_word (node, "why", file, (BondWordParser)bond_void_reason_parse, &entry->voided.why, error);
}

static void
write_correct (xmlNode *node, const BondEntry *entry)
{
  xmlNode *correct = bond_xml_add (node, "correct");

  bond_xml_set (correct, "why", bond_void_reason_file_name (entry->correct.why));
  bond_reading_write (correct, &entry->correct.reading);
}

static gboolean
read_correct (xmlNode *node, BondEntry *entry, const char *file, GError **error)
{
  return bond_read_word (node, "why", file, (BondWordParser)bond_void_reason_parse, &entry->correct.why, error)
         && bond_reading_read (bond_xml_child (node, "reading"), &entry->correct.reading, file, error);
}

static void
write_move (xmlNode *node, const BondEntry *entry)
{
  xmlNode *move = bond_xml_add (node, "move");

  bond_xml_set (move, "to-point", entry->move.to_point);
  bond_xml_set (move, "to-place", entry->move.to_place);
  bond_xml_set (move, "why", bond_void_reason_file_name (entry->move.why));
}

static gboolean
read_move (xmlNode *node, BondEntry *entry, const char *file, GError **error)
{
  entry->move.to_point = bond_xml_get (node, "to-point");
  entry->move.to_place = bond_xml_get (node, "to-place");
  return bond_read_word (node, "why", file, (BondWordParser)bond_void_reason_parse, &entry->move.why, error);
}

static void
write_take_back (xmlNode *node, const BondEntry *entry)
{
  bond_xml_set (bond_xml_add (node, "take-back"), "why", bond_void_reason_file_name (entry->take_back.why));
}

static gboolean
read_take_back (xmlNode *node, BondEntry *entry, const char *file, GError **error)
{
  return bond_read_word (node, "why", file, (BondWordParser)bond_void_reason_parse, &entry->take_back.why, error);
}

static void
write_rework (xmlNode *node, const BondEntry *entry)
{
  const BondRework *rework = &entry->rework;

  for (guint i = 0; i < BOND_N_REWORK_DONE; i++)
    if (rework->done & (1u << i))
      bond_xml_set_text (node, "done", bond_rework_done_file_name ((BondReworkDone)(1u << i)));
  bond_xml_set_text (node, "reference", rework->reference);
  bond_xml_set_text (node, "note", rework->note);
  bond_xml_set_text (node, "done-by", rework->done_by);
  bond_xml_set_text (node, "found", bond_visual_file_name (rework->found));
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
  rework->reference = bond_xml_get_text (node, "reference");
  rework->note = bond_xml_get_text (node, "note");
  rework->done_by = bond_xml_get_text (node, "done-by");
  return found == NULL || bond_visual_parse (found, &rework->found) || refuse_word (node, found, file, error);
}

static void
write_condition (xmlNode *node, const BondEntry *entry)
{
  xmlNode *condition = bond_xml_add (node, "condition");

  bond_xml_set (condition, "name", bond_condition_file_name (entry->condition.condition));
  bond_xml_set (condition, "reference", entry->condition.reference);
}

static gboolean
read_condition (xmlNode *node, BondEntry *entry, const char *file, GError **error)
{
  entry->condition.reference = bond_xml_get (node, "reference");
  return bond_read_word (node, "name", file, (BondWordParser)bond_condition_parse, &entry->condition.condition, error);
}

static void
write_state (xmlNode *node, const BondEntry *entry)
{
  bond_xml_set (bond_xml_add (node, "state"), "mark", bond_point_mark_file_name (entry->state.mark));
}

static gboolean
read_state (xmlNode *node, BondEntry *entry, const char *file, GError **error)
{
  return bond_read_word (node, "mark", file, (BondWordParser)bond_point_mark_parse, &entry->state.mark, error);
}

static void
write_visual (xmlNode *node, const BondEntry *entry)
{
  xmlNode *visual = bond_xml_add (node, "visual");

  bond_xml_set (visual, "finding", bond_visual_file_name (entry->visual.finding));
  set_yes (visual, "reject", entry->visual.reject);
  if (entry->visual.percent >= 0)
    bond_xml_set_int64 (visual, "percent", entry->visual.percent);
}

static gboolean
read_visual (xmlNode *node, BondEntry *entry, const char *file, GError **error)
{
  gint64 percent = -1;

  bond_xml_get_int64 (node, "percent", &percent);
  entry->visual.percent = (int)percent;
  entry->visual.reject = bond_xml_get_bool (node, "reject", FALSE);
  return bond_read_word (node, "finding", file, (BondWordParser)bond_visual_parse, &entry->visual.finding, error);
}

static void
write_disposition (xmlNode *node, const BondEntry *entry)
{
  const BondDisposition *disposition = &entry->disposition;
  xmlNode *element = bond_xml_add (node, "disposition");

  bond_xml_set (element, "kind", bond_disposition_file_name (disposition->kind));
  bond_xml_set (element, "reference", disposition->reference);
  bond_xml_set (element, "holder", disposition->holder);
  bond_xml_set (element, "until", disposition->until);
  bond_xml_set (element, "first-date", disposition->first_date);
  bond_bounds_write (element, &disposition->bounds);
}

static gboolean
read_disposition (xmlNode *node, BondEntry *entry, const char *file, GError **error)
{
  BondDisposition *disposition = &entry->disposition;

  disposition->reference = bond_xml_get (node, "reference");
  disposition->holder = bond_xml_get (node, "holder");
  disposition->until = bond_xml_get (node, "until");
  disposition->first_date = bond_xml_get (node, "first-date");
  return bond_read_word (node, "kind", file, (BondWordParser)bond_disposition_parse, &disposition->kind, error)
         && bond_bounds_read (node, file, &disposition->bounds, error);
}

static void
write_attach (xmlNode *node, const BondEntry *entry)
{
  xmlNode *attach = bond_xml_add (node, "attach");

  bond_xml_set (attach, "sha256", entry->attach.sha256);
  bond_xml_set (attach, "name", entry->attach.name);
  bond_xml_set (attach, "type", entry->attach.type);
  bond_xml_set_int64 (attach, "size", entry->attach.size);
}

static gboolean
read_attach (xmlNode *node, BondEntry *entry, const char *file, GError **error)
{
  entry->attach.sha256 = bond_xml_get (node, "sha256");
  entry->attach.name = bond_xml_get (node, "name");
  entry->attach.type = bond_xml_get (node, "type");
  bond_xml_get_int64 (node, "size", &entry->attach.size);
  return TRUE;
}

static const Row rows[BOND_N_ENTRY_KINDS] = {
  [BOND_ENTRY_CREATE] = { NULL, "aircraft", write_create, read_create },
  [BOND_ENTRY_ADOPT] = { "", NULL, write_adopt, read_adopt },
  [BOND_ENTRY_POINT] = { "point", NULL, write_point, read_point },
  [BOND_ENTRY_PLACE] = { "place", NULL, write_place, read_place },
  [BOND_ENTRY_READING] = { "reading", NULL, write_reading, read_reading },
  [BOND_ENTRY_VOID] = { "void", NULL, write_void, read_void },
  [BOND_ENTRY_CORRECT] = { "correct", "reading", write_correct, read_correct },
  [BOND_ENTRY_MOVE] = { "move", NULL, write_move, read_move },
  [BOND_ENTRY_TAKE_BACK] = { "take-back", NULL, write_take_back, read_take_back },
  [BOND_ENTRY_REWORK] = { NULL, "done", write_rework, read_rework },
  [BOND_ENTRY_CONDITION] = { "condition", NULL, write_condition, read_condition },
  [BOND_ENTRY_STATE] = { "state", NULL, write_state, read_state },
  [BOND_ENTRY_VISUAL] = { "visual", NULL, write_visual, read_visual },
  [BOND_ENTRY_DISPOSITION] = { "disposition", NULL, write_disposition, read_disposition },
  [BOND_ENTRY_ATTACH] = { "attach", NULL, write_attach, read_attach },
  [BOND_ENTRY_SEEN] = { "reading", NULL, write_reading, read_reading },
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
  rows[entry->kind].write (node, entry);
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
  if (!read_head (node, entry, file, error) || !rows[kind].read (element, entry, file, error))
    return NULL;
  return g_steal_pointer (&entry);
}
