/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * The journal behind a file, line by line: entries the file does not hold yet join
 * their sitting.  A torn last line is dropped with a word; anything else that is not
 * as it was written is a difference in the record.
 */
#include "store/record-private.h"

#include "store/entry-xml.h"
#include "store/journal.h"
#include "store/schema.h"

#include <glib/gi18n-lib.h>
#include <string.h>

/* Where the journal is. @known: the sitting as the file holds it, NULL when the file has none of it. */
typedef struct
{
  BondRecordReading *reading;
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
parse_line (BondRecordReading *reading, const char *before, const BondJournalLine *line, const char *after)
{
  g_autofree char *text = g_strconcat (before, line->text, after, NULL);

  return bond_xml_parse_bytes (reading->file, text, strlen (text), NULL, NULL);
}

static LineResult
take_header (BondRecordReading *reading, const BondJournalLine *line, GError **error)
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

  /* A sitting of which no entry was ever confirmed does not exist. */
  if (journal->text->len > 0 && journal->link.last > 0)
    {
      BondSitting *sitting = journal->known;
      gsize length;

      if (sitting == NULL)
        sitting = bond_record_add_sitting (record, &journal->link, NULL);
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

/* Those the schema asks for: what is read here goes into the file. */
static gboolean
has_attributes (xmlNode *node)
{
  static const char *const names[] = { "station", "opened", "program" };

  for (guint i = 0; i < G_N_ELEMENTS (names); i++)
    if (xmlHasProp (node, BAD_CAST names[i]) == NULL)
      return FALSE;
  return TRUE;
}

static LineResult
take_sitting_line (JournalReading *journal, const BondJournalLine *line)
{
  BondRecordReading *reading = journal->reading;
  xmlDoc *doc = parse_line (reading, "<survey xmlns=\"" BOND_NS_SURVEY "\">", line, "</sitting></survey>");
  xmlNode *node = doc == NULL ? NULL : bond_xml_child (xmlDocGetRootElement (doc), "sitting");
  g_autofree char *id = node == NULL ? NULL : bond_xml_get (node, "id");
  g_autofree char *after = node == NULL ? NULL : bond_xml_get (node, "after");
  gboolean whole = id != NULL && after != NULL && node->children == NULL && has_attributes (node);

  finish_sitting (journal);
  if (!whole)
    {
      xmlFreeDoc (doc);
      return LINE_BAD;
    }
  bond_verifier_open_sitting (reading->verifier, node, &journal->link);
  bond_verifier_known (reading->verifier, after, id, reading->file, line->number);
  journal->known = bond_record_find_sitting (reading->record, id);
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
  BondRecordReading *reading = journal->reading;
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
  if (!bond_record_take_entry (reading, node, line->number, error))
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
      && bond_record_check_schema (journal->reading, node, "survey", line->number, NULL))
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
  BondRecordReading *reading = journal->reading;

  if (!line->is_last)
    {
      bond_verifier_note (reading->verifier, _ ("the journal cannot be read from this line on"), reading->file,
                          line->number);
      return;
    }
  reading->record->journal_damaged = !line->is_cut_off;
  reading->record->journal_cut = line->is_cut_off;
  g_ptr_array_add (
      reading->problems,
      bond_problem_new (reading->file, line->number,
                        line->is_cut_off
                            ? _ ("the last line is cut off: it was being written when the program stopped, and "
                                 "nobody was told that it is recorded. It was left out; all before it is kept.")
                            : _ ("the last line is damaged and was left out; all before it is kept. Look whether "
                                 "the last reading is there, and take it again if not.")));
}

gboolean
bond_record_read_journal (BondRecordReading *reading, const char *path, GArray *lines, GError **error)
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
