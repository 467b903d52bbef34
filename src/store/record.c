/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * Reading a survey: the file through the gate, its sittings against the chain, then
 * the journal line by line.  Whatever can be read is read; the first difference is
 * kept as the reason why the survey may only be looked at.
 */
#include "store/record.h"

#include "store/attachments.h"
#include "store/entry-xml.h"
#include "store/journal.h"
#include "store/scan.h"
#include "store/schema.h"
#include "store/verify.h"

#include <glib/gi18n-lib.h>
#include <string.h>

/* The reading under way. @file is the name messages carry: the survey's or the journal's path. */
typedef struct
{
  BondRecord *record;
  BondVerifier *verifier;
  GHashTable *schemas; /* dialect → BondSchema */
  GHashTable *numbers; /* point id → printed number */
  GPtrArray *problems;
  const char *file;
  char *program;
  char *holds;
} Reading;

static void
record_entry_free (BondRecordEntry *one)
{
  bond_entry_unref (one->entry);
  g_free (one);
}

static gboolean
check_against_schema (Reading *reading, xmlNode *node, const char *root, int line, GError **error)
{
  const BondDialect *dialect = bond_dialect_find (root);
  BondSchema *schema = g_hash_table_lookup (reading->schemas, dialect);
  g_autoptr (GPtrArray) found = g_ptr_array_new_with_free_func ((GDestroyNotify)bond_problem_free);
  BondProblem *first;

  if (schema == NULL)
    {
      schema = bond_schema_new (dialect, error);
      if (schema == NULL)
        return FALSE;
      g_hash_table_insert (reading->schemas, (gpointer)dialect, schema);
    }
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
check_adopted (Reading *reading, xmlNode *entry, int line, GError **error)
{
  xmlNode *child = bond_xml_child (entry, NULL);
  const BondDialect *dialect = bond_dialect_of (child);

  if (child == NULL || strcmp ((const char *)child->ns->href, BOND_NS_SURVEY) == 0)
    return TRUE;
  if (dialect != NULL)
    return check_against_schema (reading, child, dialect->root, line, error);
  g_set_error (error, BOND_STORE_ERROR, BOND_STORE_ERROR_SCHEMA,
               _ ("%s:%d: <%s> is not known to this version. Nothing was changed; use a newer version."), reading->file,
               line > 0 ? line : (int)xmlGetLineNo (child), (const char *)child->name);
  return FALSE;
}

static void
learn_numbers (Reading *reading, const BondEntry *entry)
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
static gboolean
take_entry (Reading *reading, xmlNode *node, int line, GError **error)
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

static BondSitting *
find_sitting (BondRecord *record, const char *id)
{
  for (guint i = 0; i < record->sittings->len; i++)
    {
      BondSitting *sitting = g_ptr_array_index (record->sittings, i);

      if (g_strcmp0 (sitting->id, id) == 0)
        return sitting;
    }
  return NULL;
}

static BondSitting *
add_sitting (BondRecord *record, BondLink *link, GBytes *text)
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
take_sitting (Reading *reading, xmlNode *node, GBytes *text, GError **error)
{
  BondLink link = { 0 };
  g_autofree char *id = bond_xml_get (node, "id");
  gboolean good = TRUE;

  bond_verifier_open_sitting (reading->verifier, node, &link);
  for (xmlNode *entry = bond_xml_child (node, "entry"); entry != NULL && good; entry = bond_xml_next (entry, "entry"))
    {
      bond_verifier_entry (reading->verifier, &link, entry, reading->file, (int)xmlGetLineNo (entry));
      good = take_entry (reading, entry, 0, error);
    }
  if (good && find_sitting (reading->record, id) != NULL)
    {
      g_set_error (error, BOND_STORE_ERROR, BOND_STORE_ERROR_SENSE,
                   _ ("%s:%ld: there are two sittings %s. Use a backup or another copy."), reading->file,
                   xmlGetLineNo (node), id);
      good = FALSE;
    }
  if (good)
    add_sitting (reading->record, &link, g_bytes_ref (text));
  bond_link_clear (&link);
  return good;
}

/* Each file must be one that an entry names, with the same words. */
static void
check_named (Reading *reading, const BondAttachment *attachment, int line)
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
take_attachments (Reading *reading, xmlNode *node, GBytes *text)
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
take_children (Reading *reading, xmlNode *root, GArray *spans, GError **error)
{
  const char *bytes = g_bytes_get_data (reading->record->bytes, NULL);
  xmlNode *node = bond_xml_child (root, NULL);

  for (guint i = 0; i < spans->len && node != NULL; i++, node = bond_xml_next (node, NULL))
    {
      const BondSpan *span = &g_array_index (spans, BondSpan, i);
      g_autoptr (GBytes) text = g_bytes_new_from_bytes (reading->record->bytes, span->start, span->end - span->start);

      if (bond_span_is (span, bytes, "sitting") && !take_sitting (reading, node, text, error))
        return FALSE;
      if (bond_span_is (span, bytes, "signatures"))
        reading->record->signatures = g_bytes_ref (text);
      if (bond_span_is (span, bytes, "attachments"))
        take_attachments (reading, node, text);
    }
  return TRUE;
}

/* A sitting says in `after` what it had seen; the root says in `holds` what the file must have, and who wrote it. */
static void
check_heads (Reading *reading, xmlNode *root)
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
read_file (Reading *reading, GError **error)
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

/* ---- the journal ---- */

/* Where the journal is. @known: the sitting as the file holds it, NULL when the file has none of it. */
typedef struct
{
  Reading *reading;
  BondLink link;
  BondSitting *known;
  GString *text; /* lines that the file does not hold yet */
} JournalReading;

typedef enum
{
  LINE_GOOD,
  LINE_BAD,   /* not what was written, or not all of it */
  LINE_FATAL, /* the file cannot be used; the error says why */
} LineResult;

static xmlDoc *
parse_line (Reading *reading, const char *before, const BondJournalLine *line, const char *after)
{
  g_autofree char *text = g_strconcat (before, line->text, after, NULL);

  return bond_xml_parse_bytes (reading->file, text, strlen (text), NULL, NULL);
}

static LineResult
take_header (Reading *reading, const BondJournalLine *line, GError **error)
{
  xmlDoc *doc = parse_line (reading, "", line, "</journal>");
  xmlNode *root = doc == NULL ? NULL : xmlDocGetRootElement (doc);
  g_autofree char *survey = root == NULL ? NULL : bond_xml_get (root, "survey");
  g_autofree char *program = root == NULL ? NULL : bond_xml_get (root, "program");
  gint64 format = 0;

  if (root != NULL)
    bond_xml_get_int64 (root, "format", &format);
  xmlFreeDoc (doc);
  if (survey == NULL || program == NULL || format < 1)
    return LINE_BAD;
  if (format > bond_dialect_find ("survey")->format)
    {
      g_set_error (
          error, BOND_STORE_ERROR, BOND_STORE_ERROR_NEWER,
          _ ("%s:1: written by Bondwright %s in a newer format. Nothing was changed. Open the survey with that "
             "version or a newer one."),
          reading->file, program);
      return LINE_FATAL;
    }
  if (strcmp (survey, reading->record->survey_id) == 0)
    return LINE_GOOD;
  g_set_error (
      error, BOND_STORE_ERROR, BOND_STORE_ERROR_CHAIN,
      _ ("%s:1: this journal belongs to another survey. Nothing was changed. Move it to another folder, or put the "
         "survey file back that it belongs to."),
      reading->file);
  return LINE_FATAL;
}

/* The lines read so far become part of their sitting. */
static void
finish_sitting (JournalReading *journal)
{
  BondRecord *record = journal->reading->record;

  if (journal->link.sitting != NULL && journal->text->len > 0)
    {
      BondSitting *sitting = journal->known;
      gsize length;

      if (sitting == NULL)
        sitting = add_sitting (record, &journal->link, NULL);
      else
        {
          const char *bytes = g_bytes_get_data (sitting->text, &length);

          g_string_prepend_len (journal->text, bytes, g_strrstr_len (bytes, (gssize)length, "</") - bytes);
        }
      g_string_append (journal->text, "</sitting>");
      g_clear_pointer (&sitting->text, g_bytes_unref);
      sitting->text = g_bytes_new (journal->text->str, journal->text->len);
      sitting->last = journal->link.last;
      g_free (sitting->digest);
      sitting->digest = g_strdup (journal->link.digest);
    }
  g_string_truncate (journal->text, 0);
  bond_link_clear (&journal->link);
  journal->known = NULL;
}

static LineResult
take_sitting_line (JournalReading *journal, const BondJournalLine *line)
{
  Reading *reading = journal->reading;
  xmlDoc *doc = parse_line (reading, "<survey xmlns=\"" BOND_NS_SURVEY "\">", line, "</sitting></survey>");
  xmlNode *node = doc == NULL ? NULL : bond_xml_child (xmlDocGetRootElement (doc), "sitting");
  g_autofree char *id = node == NULL ? NULL : bond_xml_get (node, "id");
  g_autofree char *after = node == NULL ? NULL : bond_xml_get (node, "after");

  finish_sitting (journal);
  if (id == NULL || after == NULL)
    {
      xmlFreeDoc (doc);
      return LINE_BAD;
    }
  bond_verifier_open_sitting (reading->verifier, node, &journal->link);
  bond_verifier_known (reading->verifier, after, id, reading->file, line->number);
  journal->known = find_sitting (reading->record, id);
  if (journal->known == NULL)
    g_string_append_printf (journal->text, "%s\n", line->text);
  else
    {
      g_free (journal->link.digest);
      journal->link.last = journal->known->last;
      journal->link.digest = g_strdup (journal->known->digest);
    }
  xmlFreeDoc (doc);
  return LINE_GOOD;
}

/* An entry the file holds already is skipped; any other must follow what was read. */
static LineResult
take_entry_node (JournalReading *journal, xmlNode *node, const BondJournalLine *line, GError **error)
{
  Reading *reading = journal->reading;
  g_autofree char *id = bond_xml_get (node, "id");
  g_autofree char *stored = bond_xml_get (node, "d");
  g_autofree char *sitting = NULL;
  g_autofree char *head = g_strconcat (id, ":", stored, NULL);
  int n = 0;

  if (!bond_entry_id_split (id, &sitting, &n) || g_strcmp0 (sitting, journal->link.sitting) != 0)
    return LINE_BAD;
  if (journal->known != NULL && n <= journal->known->last)
    {
      bond_verifier_known (reading->verifier, head, sitting, reading->file, line->number);
      return LINE_GOOD;
    }
  if (!bond_verifier_follows (&journal->link, node) && line->is_last)
    return LINE_BAD;
  if (!bond_verifier_entry (reading->verifier, &journal->link, node, reading->file, line->number))
    g_debug ("%s:%d: does not follow", reading->file, line->number);
  if (!take_entry (reading, node, line->number, error))
    return LINE_FATAL;
  g_string_append_printf (journal->text, "%s\n", line->text);
  return LINE_GOOD;
}

static LineResult
take_entry_line (JournalReading *journal, const BondJournalLine *line, GError **error)
{
  xmlDoc *doc = parse_line (journal->reading, "<sitting xmlns=\"" BOND_NS_SURVEY "\">", line, "</sitting>");
  xmlNode *node = doc == NULL ? NULL : bond_xml_child (xmlDocGetRootElement (doc), "entry");
  LineResult result = LINE_BAD;

  if (node != NULL && journal->link.sitting != NULL && bond_xml_next (node, NULL) == NULL
      && check_against_schema (journal->reading, node, "survey", line->number, NULL))
    result = take_entry_node (journal, node, line, error);
  xmlFreeDoc (doc);
  return result;
}

static LineResult
take_line (JournalReading *journal, const BondJournalLine *line, GError **error)
{
  if (line->is_cut_off)
    return LINE_BAD;
  if (line->number == 1)
    return take_header (journal->reading, line, error);
  if (g_str_has_prefix (line->text, "<sitting "))
    return take_sitting_line (journal, line);
  return take_entry_line (journal, line, error);
}

/* The last line may be half of one: nobody was told that it is recorded.  Any other bad line is a difference. */
static void
drop_line (JournalReading *journal, const BondJournalLine *line)
{
  Reading *reading = journal->reading;

  if (!line->is_last)
    {
      bond_verifier_note (reading->verifier, _ ("the journal cannot be read from this line on"), reading->file,
                          line->number);
      return;
    }
  reading->record->journal_damaged = !line->is_cut_off;
  g_ptr_array_add (
      reading->problems,
      bond_problem_new (reading->file, line->number,
                        line->is_cut_off
                            ? _ ("the last line is cut off: it was being written when the program stopped, and "
                                 "nobody was told that it is recorded. It was left out; all before it is kept.")
                            : _ ("the last line is damaged and was left out; all before it is kept. Look whether "
                                 "the last reading is there, and take it again if not.")));
}

static gboolean
read_journal (Reading *reading, const char *path, GArray *lines, GError **error)
{
  g_autofree char *journal_path = bond_journal_path (path);
  JournalReading journal = { .reading = reading };
  LineResult result = LINE_GOOD;

  reading->file = journal_path;
  journal.text = g_string_new (NULL);
  for (guint i = 0; i < lines->len && result == LINE_GOOD; i++)
    {
      const BondJournalLine *line = &g_array_index (lines, BondJournalLine, i);

      result = take_line (&journal, line, error);
      if (result == LINE_BAD)
        drop_line (&journal, line);
    }
  finish_sitting (&journal);
  g_string_free (journal.text, TRUE);
  reading->file = path;
  return result != LINE_FATAL;
}

/*
 * The journal is taken before the file: should a writer absorb it between the two,
 * the file then holds more than the journal, which is skipped, and never less.
 */
static gboolean
read_all (Reading *reading, const char *path, GError **error)
{
  g_autoptr (GArray) lines = bond_journal_load (path, &reading->record->journal_exists, reading->problems, error);
  gsize length = 0;
  char *bytes;

  if (lines == NULL)
    return FALSE;
  bytes = bond_xml_load (path, bond_dialect_cap ("survey"), &length, reading->problems, error);
  if (bytes == NULL)
    return FALSE;
  reading->record->bytes = g_bytes_new_take (bytes, length);
  return read_file (reading, error) && read_journal (reading, path, lines, error);
}

BondRecord *
bond_record_read (const char *path, GPtrArray *problems, GError **error)
{
  g_autoptr (BondRecord) record = NULL;
  g_autoptr (GPtrArray) unwanted = g_ptr_array_new_with_free_func ((GDestroyNotify)bond_problem_free);
  Reading reading = { .problems = problems != NULL ? problems : unwanted, .file = path };
  gboolean good;

  g_return_val_if_fail (path != NULL, NULL);

  record = g_new0 (BondRecord, 1);
  record->sittings = g_ptr_array_new_with_free_func ((GDestroyNotify)bond_sitting_free);
  record->attachments = g_ptr_array_new_with_free_func ((GDestroyNotify)bond_attachment_free);
  record->entries = g_ptr_array_new_with_free_func ((GDestroyNotify)record_entry_free);
  reading.record = record;
  reading.schemas = g_hash_table_new_full (NULL, NULL, NULL, (GDestroyNotify)bond_schema_free);
  reading.numbers = g_hash_table_new (g_str_hash, g_str_equal);
  good = read_all (&reading, path, error);
  if (good)
    {
      record->broken = bond_verifier_close (reading.verifier, reading.numbers, problems);
      record->heads = bond_heads (record->sittings);
    }
  bond_verifier_free (reading.verifier);
  g_hash_table_unref (reading.schemas);
  g_hash_table_unref (reading.numbers);
  g_free (reading.program);
  g_free (reading.holds);
  return good ? g_steal_pointer (&record) : NULL;
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
  g_clear_pointer (&record->signatures, g_bytes_unref);
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
