/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * Append, sync, and only then say so.  After a failed append the file is cut back
 * to the last good line before anything else is written.
 */
#include "store/journal.h"

#include <errno.h>
#include <fcntl.h>
#include <glib/gi18n-lib.h>
#include <glib/gstdio.h>
#include <string.h>
#include <unistd.h>

/* Autosave comes every 200 entries; an adopted airframe is a quarter of a megabyte. */
#define JOURNAL_MAX ((gsize)64 * 1024 * 1024)

struct _BondJournal
{
  char *path;
  char *survey_id;
  const BondDisk *disk;
  int fd;            /* -1 while there is none */
  goffset good;      /* bytes known to be on the disk */
  gboolean in_doubt; /* bytes behind @good may be there */
};

char *
bond_journal_path (const char *survey_path)
{
  g_return_val_if_fail (survey_path != NULL, NULL);
  return g_strconcat (survey_path, ".journal", NULL);
}

BondJournal *
bond_journal_new (const char *survey_path, const char *survey_id, const BondDisk *disk)
{
  BondJournal *journal = g_new0 (BondJournal, 1);

  journal->path = bond_journal_path (survey_path);
  journal->survey_id = g_strdup (survey_id);
  journal->disk = disk;
  journal->fd = -1;
  return journal;
}

static void
close_file (BondJournal *journal)
{
  if (journal->fd >= 0)
    close (journal->fd);
  journal->fd = -1;
  journal->good = 0;
  journal->in_doubt = FALSE;
}

void
bond_journal_free (BondJournal *journal)
{
  if (journal == NULL)
    return;
  close_file (journal);
  g_free (journal->path);
  g_free (journal->survey_id);
  g_free (journal);
}

static char *
header_line (const char *survey_id)
{
  xmlDoc *doc = xmlNewDoc (BAD_CAST "1.0");
  xmlNode *node = xmlNewDocNode (doc, NULL, BAD_CAST "journal", NULL);
  char *line;

  xmlDocSetRootElement (doc, node);
  xmlSetNs (node, xmlNewNs (node, BAD_CAST BOND_NS_SURVEY, NULL));
  bond_xml_set_int64 (node, "format", 1);
  bond_xml_set (node, "survey", survey_id);
  bond_xml_set (node, "program", BOND_VERSION);
  line = bond_xml_start_tag (node);
  xmlFreeDoc (doc);
  return line;
}

/* A journal that is there already belongs to entries not yet absorbed: it is never written over. */
static int
begin (BondJournal *journal)
{
  journal->fd = journal->disk->open (journal->path, O_WRONLY | O_CREAT | O_EXCL | O_APPEND | O_CLOEXEC | O_NOFOLLOW,
                                     0666, journal->disk->data);
  if (journal->fd < 0)
    return errno;
  journal->good = 0;
  journal->in_doubt = FALSE;
  return bond_disk_sync_folder (journal->disk, journal->path);
}

/* Everything behind the last good line goes, or nothing more is written here. */
static int
cut_back (BondJournal *journal)
{
  if (!journal->in_doubt)
    return 0;
  if (ftruncate (journal->fd, journal->good) != 0 || journal->disk->sync (journal->fd, journal->disk->data) != 0)
    return errno;
  journal->in_doubt = FALSE;
  return 0;
}

static int
append (BondJournal *journal, const char *sitting_line, const char *line)
{
  g_autoptr (GString) text = g_string_new (NULL);
  int code = journal->fd >= 0 ? cut_back (journal) : begin (journal);

  if (code != 0)
    return code;
  if (journal->good == 0)
    {
      g_autofree char *header = header_line (journal->survey_id);

      g_string_append_printf (text, "%s\n%s\n", header, sitting_line);
    }
  g_string_append (text, line);
  g_string_append_c (text, '\n');
  journal->in_doubt = TRUE;
  code = bond_disk_write_all (journal->disk, journal->fd, text->str, text->len);
  if (code == 0 && journal->disk->sync (journal->fd, journal->disk->data) != 0)
    code = errno;
  if (code != 0)
    {
      cut_back (journal);
      return code;
    }
  journal->in_doubt = FALSE;
  journal->good += (goffset)text->len;
  return 0;
}

gboolean
bond_journal_append (BondJournal *journal, const char *sitting_line, const char *line, GError **error)
{
  g_autofree char *why = NULL;
  int code;

  g_return_val_if_fail (journal != NULL && sitting_line != NULL && line != NULL, FALSE);

  code = append (journal, sitting_line, line);
  if (code == 0)
    return TRUE;
  if (journal->fd >= 0 && journal->good == 0)
    {
      g_unlink (journal->path);
      close_file (journal);
    }
  why = code == EEXIST ? g_strdup (_ ("another program left a journal here. Close the survey and open it again"))
                       : bond_disk_explain (code);
  g_set_error (error, BOND_STORE_ERROR,
               code == ENOSPC || code == EDQUOT ? BOND_STORE_ERROR_FULL : BOND_STORE_ERROR_WRITE,
               _ ("%s cannot be written: %s"), journal->path, why);
  return FALSE;
}

static int
open_again (const BondJournal *journal)
{
  return journal->disk->open (journal->path, O_WRONLY | O_APPEND | O_CLOEXEC | O_NOFOLLOW, 0666, journal->disk->data);
}

gboolean
bond_journal_fill (BondJournal *journal, const char *sitting_line, const GString *lines)
{
  g_autoptr (GPtrArray) pieces = g_ptr_array_new_with_free_func ((GDestroyNotify)g_bytes_unref);
  g_autofree char *header = NULL;
  g_autofree char *head = NULL;
  g_autoptr (GError) error = NULL;

  g_return_val_if_fail (journal != NULL && sitting_line != NULL && lines != NULL, FALSE);
  if (journal->fd < 0 || journal->in_doubt)
    return FALSE;
  header = header_line (journal->survey_id);
  head = g_strdup_printf ("%s\n%s\n", header, sitting_line);
  g_ptr_array_add (pieces, g_bytes_new (head, strlen (head)));
  g_ptr_array_add (pieces, g_bytes_new (lines->str, lines->len));
  if (!bond_disk_replace (journal->disk, journal->path, pieces, NULL, &error)
      && !g_error_matches (error, BOND_STORE_ERROR, BOND_STORE_ERROR_UNSURE))
    return FALSE;
  close_file (journal);
  journal->fd = open_again (journal);
  journal->good = (goffset)(strlen (head) + lines->len);
  return TRUE;
}

/* ".damaged", ".damaged-2" …: one that was kept before is somebody's only copy. */
static char *
free_damaged_name (const BondJournal *journal)
{
  char *name = g_strconcat (journal->path, ".damaged", NULL);

  for (int i = 2; g_file_test (name, G_FILE_TEST_EXISTS | G_FILE_TEST_IS_SYMLINK); i++)
    {
      g_free (name);
      name = g_strdup_printf ("%s.damaged-%d", journal->path, i);
    }
  return name;
}

void
bond_journal_absorbed (BondJournal *journal, gboolean keep_as_damaged)
{
  g_autofree char *damaged = NULL;

  g_return_if_fail (journal != NULL);

  close_file (journal);
  damaged = free_damaged_name (journal);
  /* Not being able to is no harm: entries already in the file are skipped. */
  if (keep_as_damaged ? g_rename (journal->path, damaged) != 0 : g_unlink (journal->path) != 0)
    g_debug ("%s stays: %s", journal->path, g_strerror (errno));
}

static void
line_clear (gpointer line)
{
  g_free (((BondJournalLine *)line)->text);
}

GArray *
bond_journal_split (const char *bytes, gsize length)
{
  GArray *lines = g_array_new (FALSE, FALSE, sizeof (BondJournalLine));
  gsize at = 0;

  g_return_val_if_fail (bytes != NULL || length == 0, lines);

  g_array_set_clear_func (lines, line_clear);
  while (at < length)
    {
      const char *end = memchr (bytes + at, '\n', length - at);
      gsize n = end == NULL ? length - at : (gsize)(end - (bytes + at));
      BondJournalLine line = { g_strndup (bytes + at, n), (int)lines->len + 1, at + n + 1 >= length, end == NULL };

      g_array_append_val (lines, line);
      at += n + 1;
    }
  return lines;
}

GArray *
bond_journal_load (const char *survey_path, gboolean *exists, GPtrArray *problems, GError **error)
{
  g_autofree char *path = bond_journal_path (survey_path);
  g_autofree char *bytes = NULL;
  gsize length = 0;

  *exists = g_file_test (path, G_FILE_TEST_EXISTS);
  if (!*exists)
    return bond_journal_split (NULL, 0);
  bytes = bond_xml_load (path, JOURNAL_MAX, &length, problems, error);
  return bytes == NULL ? NULL : bond_journal_split (bytes, length);
}
