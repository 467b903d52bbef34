/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * Reading a survey: the file through the gate, its sittings against the chain, then
 * the journal line by line.  Whatever can be read is read; the first difference is
 * kept as the reason why the survey may only be looked at.
 */
#include "store/record-private.h"

#include "store/attachments.h"
#include "store/entry-xml.h"
#include "store/journal.h"
#include "store/scan.h"
#include "store/schema.h"
#include "store/verify.h"

#include <glib/gi18n-lib.h>
#include <string.h>

static void
record_entry_free (BondRecordEntry *one)
{
  bond_entry_unref (one->entry);
  g_free (one);
}

gboolean
bond_record_check_schema (BondRecordReading *reading, xmlNode *node, const char *root, int line, GError **error)
{
  const BondDialect *dialect = bond_dialect_find (root);
  BondSchema *schema = bond_schema_get (dialect, error);
  g_autoptr (GPtrArray) found = g_ptr_array_new_with_free_func ((GDestroyNotify)bond_problem_free);
  BondProblem *first;

  if (schema == NULL)
    return FALSE;
  if (bond_schema_check (schema, node, reading->file, found) == 0)
    return TRUE;
  first = g_ptr_array_index (found, 0);
  /* A journal line is parsed by itself and does not know its own number. */
  g_set_error (error, BOND_STORE_ERROR, BOND_STORE_ERROR_SCHEMA,
               _ ("%s:%d: %s. The file does not fit its form; nothing was changed. Correct that line or use a backup."),
               first->file, line > 0 ? line : first->line, first->message);
  return FALSE;
}

/* What an adopt entry carries stands in a namespace, and under a schema, of its own. */
static gboolean
check_adopted (BondRecordReading *reading, xmlNode *entry, int line, GError **error)
{
  xmlNode *child = bond_xml_child (entry, NULL);
  const BondDialect *dialect = bond_dialect_of (child);

  if (child == NULL || strcmp ((const char *)child->ns->href, BOND_NS_SURVEY) == 0)
    return TRUE;
  if (dialect != NULL)
    return bond_record_check_schema (reading, child, dialect->root, line, error);
  g_set_error (error, BOND_STORE_ERROR, BOND_STORE_ERROR_SCHEMA,
               _ ("%s:%d: <%s> is not known to this version. Nothing was changed; use a newer version."), reading->file,
               line > 0 ? line : (int)xmlGetLineNo (child), (const char *)child->name);
  return FALSE;
}

static void
learn_numbers (BondRecordReading *reading, const BondEntry *entry)
{
  const BondAirframe *airframe;

  if (entry->kind == BOND_ENTRY_POINT)
    g_hash_table_insert (reading->numbers, entry->spec->id, entry->spec->number);
  if (entry->kind != BOND_ENTRY_ADOPT || entry->adopt.what != BOND_ADOPT_AIRFRAME)
    return;
  airframe = entry->adopt.object;
  for (guint i = 0; i < airframe->points->len; i++)
    {
      BondPointSpec *spec = g_ptr_array_index (airframe->points, i);

      g_hash_table_insert (reading->numbers, spec->id, spec->number);
    }
}

/* @line: 0 in the file, where the node knows it. */
gboolean
bond_record_take_entry (BondRecordReading *reading, xmlNode *node, int line, GError **error)
{
  BondRecordEntry one = { NULL, line > 0 ? line : (int)xmlGetLineNo (node), line > 0 };

  if (!check_adopted (reading, node, line, error))
    return FALSE;
  one.entry = bond_entry_read (node, reading->file, error);
  if (one.entry == NULL)
    return FALSE;
  learn_numbers (reading, one.entry);
  g_ptr_array_add (reading->record->entries, g_memdup2 (&one, sizeof one));
  return TRUE;
}

BondSitting *
bond_record_find_sitting (BondRecord *record, const char *id)
{
  for (guint i = 0; i < record->sittings->len; i++)
    {
      BondSitting *sitting = g_ptr_array_index (record->sittings, i);

      if (g_strcmp0 (sitting->id, id) == 0)
        return sitting;
    }
  return NULL;
}

BondSitting *
bond_record_add_sitting (BondRecord *record, BondLink *link, GBytes *text)
{
  BondSitting *sitting = g_new0 (BondSitting, 1);

  sitting->id = g_strdup (link->sitting);
  sitting->last = link->last;
  sitting->digest = g_strdup (link->digest);
  sitting->text = text;
  g_ptr_array_add (record->sittings, sitting);
  return sitting;
}

static gboolean
take_sitting (BondRecordReading *reading, xmlNode *node, GBytes *text, GError **error)
{
  BondLink link = { 0 };
  g_autofree char *id = bond_xml_get (node, "id");
  gboolean good = TRUE;

  bond_verifier_open_sitting (reading->verifier, node, &link);
  for (xmlNode *entry = bond_xml_child (node, "entry"); entry != NULL && good; entry = bond_xml_next (entry, "entry"))
    {
      bond_verifier_entry (reading->verifier, &link, entry, reading->file, (int)xmlGetLineNo (entry));
      good = bond_record_take_entry (reading, entry, 0, error);
    }
  if (good && bond_record_find_sitting (reading->record, id) != NULL)
    {
      g_set_error (error, BOND_STORE_ERROR, BOND_STORE_ERROR_SENSE,
                   _ ("%s:%ld: there are two sittings %s. Use a backup or another copy."), reading->file,
                   xmlGetLineNo (node), id);
      good = FALSE;
    }
  if (good)
    bond_record_add_sitting (reading->record, &link, g_bytes_ref (text));
  bond_link_clear (&link);
  return good;
}

/* Each file must be one that an entry names, with the same words. */
static void
check_named (BondRecordReading *reading, const BondAttachment *attachment, int line)
{
  g_autofree char *sentence = NULL;

  for (guint i = 0; i < reading->record->entries->len; i++)
    {
      const BondEntry *entry = ((BondRecordEntry *)g_ptr_array_index (reading->record->entries, i))->entry;

      if (entry->kind == BOND_ENTRY_ATTACH && g_strcmp0 (entry->attach.sha256, attachment->sha256) == 0
          && g_strcmp0 (entry->attach.name, attachment->name) == 0
          && g_strcmp0 (entry->attach.type, attachment->type) == 0)
        return;
    }
  sentence = g_strdup_printf (_ ("the attachment “%s” is not named by any entry as it stands"), attachment->name);
  bond_verifier_note (reading->verifier, sentence, reading->file, line);
}

static void
take_attachments (BondRecordReading *reading, xmlNode *node, GBytes *text)
{
  gsize length;
  const char *bytes = g_bytes_get_data (text, &length);
  BondScan scan = { 0 };
  int line;
  g_autofree char *trouble = bond_scan_xml (bytes, length, &scan, &line);
  xmlNode *file = bond_xml_child (node, "file");

  for (guint i = 0; trouble == NULL && file != NULL && i < scan.children->len; i++, file = bond_xml_next (file, "file"))
    {
      const BondSpan *span = &g_array_index (scan.children, BondSpan, i);
      g_autoptr (GBytes) element = g_bytes_new_from_bytes (text, span->start, span->end - span->start);
      BondAttachment *attachment = bond_attachment_read (file, element);
      g_autofree char *name = bond_xml_get (file, "name");

      if (attachment != NULL)
        {
          check_named (reading, attachment, (int)xmlGetLineNo (file));
          g_ptr_array_add (reading->record->attachments, attachment);
          continue;
        }
      g_free (trouble);
      trouble = g_strdup_printf (_ ("the attachment “%s” is not the one that was recorded"), name);
      bond_verifier_note (reading->verifier, trouble, reading->file, (int)xmlGetLineNo (file));
      g_clear_pointer (&trouble, g_free);
    }
  bond_scan_clear (&scan);
}

/* The children of the root, each with its own bytes. */
static gboolean
take_children (BondRecordReading *reading, xmlNode *root, GArray *spans, GError **error)
{
  const char *bytes = g_bytes_get_data (reading->record->bytes, NULL);
  xmlNode *node = bond_xml_child (root, NULL);

  for (guint i = 0; i < spans->len && node != NULL; i++, node = bond_xml_next (node, NULL))
    {
      const BondSpan *span = &g_array_index (spans, BondSpan, i);
      g_autoptr (GBytes) text = g_bytes_new_from_bytes (reading->record->bytes, span->start, span->end - span->start);

      if (bond_span_is (span, bytes, "sitting") && !take_sitting (reading, node, text, error))
        return FALSE;
      if (bond_span_is (span, bytes, "attachments"))
        take_attachments (reading, node, text);
    }
  return TRUE;
}

/* A sitting says in `after` what it had seen; the root says in `holds` what the file must have, and who wrote it. */
static void
check_heads (BondRecordReading *reading, xmlNode *root)
{
  g_autofree char *heads = bond_heads (reading->record->sittings);
  gboolean program_known = reading->record->sittings->len == 0;

  for (xmlNode *node = bond_xml_child (root, "sitting"); node != NULL; node = bond_xml_next (node, "sitting"))
    {
      g_autofree char *id = bond_xml_get (node, "id");
      g_autofree char *after = bond_xml_get (node, "after");
      g_autofree char *program = bond_xml_get (node, "program");

      bond_verifier_known (reading->verifier, after, id, reading->file, (int)xmlGetLineNo (node));
      program_known = program_known || g_strcmp0 (program, reading->program) == 0;
    }
  bond_verifier_known (reading->verifier, reading->holds, NULL, reading->file, (int)xmlGetLineNo (root));
  if (strcmp (heads, reading->holds) != 0)
    bond_verifier_note (reading->verifier, _ ("the file does not hold the entries that its first line names"),
                        reading->file, (int)xmlGetLineNo (root));
  if (!program_known)
    bond_verifier_note (reading->verifier, _ ("the file names a program version that none of its sittings names"),
                        reading->file, (int)xmlGetLineNo (root));
}

static gboolean
read_file (BondRecordReading *reading, GError **error)
{
  gsize length;
  const char *bytes = g_bytes_get_data (reading->record->bytes, &length);
  xmlDoc *doc = bond_xml_read_bytes (reading->file, bytes, length, "survey", reading->problems, error);
  xmlNode *root;
  BondScan scan = { 0 };
  int line;
  g_autofree char *trouble = NULL;
  gboolean good;

  if (doc == NULL)
    return FALSE;
  root = xmlDocGetRootElement (doc);
  reading->record->survey_id = bond_xml_get (root, "id");
  reading->program = bond_xml_get (root, "program");
  reading->holds = bond_xml_get (root, "holds");
  reading->verifier = bond_verifier_new (reading->record->survey_id);
  trouble = bond_scan_xml (bytes, length, &scan, &line);
  good = take_children (reading, root, scan.children, error);
  if (good)
    check_heads (reading, root);
  bond_scan_clear (&scan);
  xmlFreeDoc (doc);
  return good;
}

/* The bytes of every attach entry are in the file or wait beside it; an entry alone is no photo. */
static void
find_attached (BondRecordReading *reading, const char *path)
{
  BondRecord *record = reading->record;

  for (guint i = 0; i < record->entries->len; i++)
    {
      const BondRecordEntry *one = g_ptr_array_index (record->entries, i);
      const BondAttach *attach = &one->entry->attach;
      g_autoptr (BondAttachment) side = NULL;
      g_autofree char *sentence = NULL;

      if (one->entry->kind != BOND_ENTRY_ATTACH || bond_attachment_find (record->attachments, attach->sha256) != NULL
          || bond_attachment_find (record->waiting, attach->sha256) != NULL)
        continue;
      side = bond_attachment_read_side (path, attach);
      if (side != NULL)
        {
          g_ptr_array_add (record->waiting, g_steal_pointer (&side));
          continue;
        }
      sentence = g_strdup_printf (_ ("entry %s attached “%s”, which is not there"), one->entry->id, attach->name);
      bond_verifier_note (reading->verifier, sentence, path, one->line);
    }
}

static gboolean
read_all (BondRecordReading *reading, const char *name, GArray *lines, GError **error)
{
  if (!read_file (reading, error) || !bond_record_read_journal (reading, name, lines, error))
    return FALSE;
  find_attached (reading, name);
  return TRUE;
}

BondRecord *
bond_record_read_bytes (const char *name, GBytes *bytes, GArray *journal, GPtrArray *problems, GError **error)
{
  g_autoptr (BondRecord) record = NULL;
  g_autoptr (GPtrArray) unwanted = g_ptr_array_new_with_free_func ((GDestroyNotify)bond_problem_free);
  BondRecordReading reading = { .problems = problems != NULL ? problems : unwanted, .file = name };
  gboolean good;

  g_return_val_if_fail (name != NULL && bytes != NULL && journal != NULL, NULL);

  record = g_new0 (BondRecord, 1);
  record->bytes = g_bytes_ref (bytes);
  record->sittings = g_ptr_array_new_with_free_func ((GDestroyNotify)bond_sitting_free);
  record->attachments = g_ptr_array_new_with_free_func ((GDestroyNotify)bond_attachment_free);
  record->waiting = g_ptr_array_new_with_free_func ((GDestroyNotify)bond_attachment_free);
  record->entries = g_ptr_array_new_with_free_func ((GDestroyNotify)record_entry_free);
  reading.record = record;
  reading.numbers = g_hash_table_new (g_str_hash, g_str_equal);
  good = read_all (&reading, name, journal, error);
  if (good)
    {
      record->broken = bond_verifier_close (reading.verifier, reading.numbers, problems);
      record->heads = bond_heads (record->sittings);
    }
  bond_verifier_free (reading.verifier);
  g_hash_table_unref (reading.numbers);
  g_free (reading.program);
  g_free (reading.holds);
  return good ? g_steal_pointer (&record) : NULL;
}

/*
 * The journal is taken before the file: should a writer absorb it between the two,
 * the file then holds more than the journal, which is skipped, and never less.
 */
BondRecord *
bond_record_read (const char *path, GPtrArray *problems, GError **error)
{
  gboolean journal_exists = FALSE;
  g_autoptr (GArray) journal = NULL;
  g_autoptr (GBytes) bytes = NULL;
  gsize length = 0;
  char *text;
  BondRecord *record;

  g_return_val_if_fail (path != NULL, NULL);

  journal = bond_journal_load (path, &journal_exists, problems, error);
  if (journal == NULL)
    return NULL;
  text = bond_xml_load (path, bond_dialect_cap ("survey"), &length, problems, error);
  if (text == NULL)
    return NULL;
  bytes = g_bytes_new_take (text, length);
  record = bond_record_read_bytes (path, bytes, journal, problems, error);
  if (record != NULL)
    record->journal_exists = journal_exists;
  return record;
}

void
bond_record_free (BondRecord *record)
{
  if (record == NULL)
    return;
  g_free (record->survey_id);
  g_free (record->heads);
  g_free (record->broken);
  g_ptr_array_unref (record->sittings);
  g_ptr_array_unref (record->entries);
  g_ptr_array_unref (record->attachments);
  g_ptr_array_unref (record->waiting);
  g_clear_pointer (&record->bytes, g_bytes_unref);
  g_free (record);
}

void
bond_sitting_free (BondSitting *sitting)
{
  if (sitting == NULL)
    return;
  g_free (sitting->id);
  g_free (sitting->digest);
  g_clear_pointer (&sitting->text, g_bytes_unref);
  g_free (sitting);
}

char *
bond_heads (GPtrArray *sittings)
{
  g_autoptr (GString) heads = g_string_new (NULL);

  for (guint i = 0; i < sittings->len; i++)
    {
      const BondSitting *sitting = g_ptr_array_index (sittings, i);

      g_string_append_printf (heads, "%s%s-%d:%s", i > 0 ? " " : "", sitting->id, sitting->last, sitting->digest);
    }
  return g_string_free (g_steal_pointer (&heads), FALSE);
}
