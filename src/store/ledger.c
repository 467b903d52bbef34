/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * The pieces a survey file is made of.  Closed sittings and attachments are
 * bytes that were read and are written back as they were; the open sitting is
 * its start tag and one line for each entry, the very lines of the journal.
 */
#include "store/ledger.h"

#include "store/attachments.h"
#include "store/chain.h"
#include "store/entry-xml.h"
#include "store/image.h"
#include "store/journal.h"
#include "store/schema.h"

#include <glib/gi18n-lib.h>
#include <glib/gstdio.h>
#include <string.h>

struct _BondLedger
{
  GMutex lock; /* for everything below but what the main thread alone uses */
  const BondDisk *disk;
  char *path;
  char *backup_path;
  char *survey_id;
  BondJournal *journal;
  BondImage *image; /* the file as it is known to be on disk */
  gboolean backed_up;
  gboolean keep_damaged; /* the journal found at opening holds something that was dropped */
  gboolean absorbed;     /* what the sitting began with is in the file alone, not in the journal */
  guint unsaved;

  GPtrArray *closed;      /* of BondSitting */
  GPtrArray *attachments; /* in the file, from @n_beside on with a copy beside it */
  guint n_beside;
  GPtrArray *waiting;   /* of BondAttachment: beside the file, not in it yet */
  GHashTable *attached; /* SHA-256 named by durable entries: what a save takes over */

  /* the open sitting */
  char *sitting_id, *start_tag;
  GString *lines;
  int last;
  char *digest;

  /* main thread only */
  xmlDoc *scratch;
};

static char *
hidden_name (const char *path, const char *suffix)
{
  g_autofree char *folder = g_path_get_dirname (path);
  g_autofree char *name = g_path_get_basename (path);
  g_autofree char *hidden = g_strdup_printf (".%s.%s", name, suffix);

  return g_build_filename (folder, hidden, NULL);
}

static char *
root_tag (const char *survey_id, const char *heads)
{
  xmlDoc *doc = xmlNewDoc (BAD_CAST "1.0");
  xmlNode *node = xmlNewDocNode (doc, NULL, BAD_CAST "survey", NULL);
  char *tag;

  xmlDocSetRootElement (doc, node);
  xmlSetNs (node, xmlNewNs (node, BAD_CAST BOND_NS_SURVEY, NULL));
  bond_xml_set_int64 (node, "format", bond_dialect_find ("survey")->format);
  bond_xml_set (node, "id", survey_id);
  bond_xml_set (node, "program", BOND_VERSION);
  bond_xml_set (node, "holds", heads);
  tag = bond_xml_start_tag (node);
  xmlFreeDoc (doc);
  return tag;
}

static void
add_text (GPtrArray *pieces, const char *text)
{
  g_ptr_array_add (pieces, g_bytes_new (text, strlen (text)));
}

static void
add_piece (GPtrArray *pieces, GBytes *bytes)
{
  g_ptr_array_add (pieces, g_bytes_ref (bytes));
  add_text (pieces, "\n");
}

static void
add_attachments (GPtrArray *pieces, GPtrArray *attachments)
{
  if (attachments->len == 0)
    return;
  add_text (pieces, "<attachments>\n");
  for (guint i = 0; i < attachments->len; i++)
    add_piece (pieces, ((BondAttachment *)g_ptr_array_index (attachments, i))->element);
  add_text (pieces, "</attachments>\n");
}

static char *
current_heads (BondLedger *ledger)
{
  g_autofree char *closed = bond_heads (ledger->closed);

  if (ledger->last == 0)
    return g_steal_pointer (&closed);
  return g_strdup_printf ("%s%s%s-%d:%s", closed, *closed != 0 ? " " : "", ledger->sitting_id, ledger->last,
                          ledger->digest);
}

/* The whole file, in order. */
static GPtrArray *
compose (BondLedger *ledger)
{
  GPtrArray *pieces = g_ptr_array_new_with_free_func ((GDestroyNotify)g_bytes_unref);
  g_autofree char *heads = current_heads (ledger);
  g_autofree char *root = root_tag (ledger->survey_id, heads);

  add_text (pieces, "<?xml version=\"1.0\" encoding=\"UTF-8\"?>\n");
  add_text (pieces, root);
  add_text (pieces, "\n");
  for (guint i = 0; i < ledger->closed->len; i++)
    add_piece (pieces, ((BondSitting *)g_ptr_array_index (ledger->closed, i))->text);
  if (ledger->last > 0)
    {
      add_text (pieces, ledger->start_tag);
      add_text (pieces, "\n");
      g_ptr_array_add (pieces, g_bytes_new (ledger->lines->str, ledger->lines->len));
      add_text (pieces, "</sitting>\n");
    }
  add_attachments (pieces, ledger->attachments);
  add_text (pieces, "</survey>\n");
  return pieces;
}

gboolean
bond_ledger_create (const char *path, const char *survey_id, const BondDisk *disk, GError **error)
{
  g_autoptr (GPtrArray) pieces = g_ptr_array_new_with_free_func ((GDestroyNotify)g_bytes_unref);
  g_autofree char *root = root_tag (survey_id, "");

  add_text (pieces, "<?xml version=\"1.0\" encoding=\"UTF-8\"?>\n");
  add_text (pieces, root);
  add_text (pieces, "\n</survey>\n");
  return bond_disk_create (disk, path, pieces, error);
}

static void
note_attached (BondLedger *ledger, const BondEntry *entry)
{
  if (entry->kind == BOND_ENTRY_ATTACH)
    g_hash_table_add (ledger->attached, g_strdup (entry->attach.sha256));
}

static gpointer
copy_attachment (gconstpointer source, gpointer data)
{
  return bond_attachment_copy (source);
}

static gpointer
copy_sitting (gconstpointer source, gpointer data)
{
  const BondSitting *from = source;
  BondSitting *to = g_new0 (BondSitting, 1);

  to->id = g_strdup (from->id);
  to->last = from->last;
  to->digest = g_strdup (from->digest);
  to->text = g_bytes_ref (from->text);
  return to;
}

BondLedger *
bond_ledger_new (const char *path, const BondRecord *record, const BondDisk *disk)
{
  BondLedger *ledger;

  g_return_val_if_fail (path != NULL && record != NULL && disk != NULL, NULL);

  ledger = g_new0 (BondLedger, 1);
  g_mutex_init (&ledger->lock);
  ledger->disk = disk;
  ledger->path = g_strdup (path);
  ledger->backup_path = hidden_name (path, "backup");
  ledger->survey_id = g_strdup (record->survey_id);
  ledger->journal = bond_journal_new (path, record->survey_id, disk);
  ledger->image = bond_image_new (path, record->bytes);
  ledger->keep_damaged = record->journal_damaged;
  ledger->unsaved = record->journal_exists ? 1 : 0;
  ledger->closed = g_ptr_array_copy (record->sittings, copy_sitting, NULL);
  g_ptr_array_set_free_func (ledger->closed, (GDestroyNotify)bond_sitting_free);
  ledger->attachments = g_ptr_array_copy (record->attachments, copy_attachment, NULL);
  g_ptr_array_set_free_func (ledger->attachments, (GDestroyNotify)bond_attachment_free);
  ledger->n_beside = ledger->attachments->len;
  ledger->waiting = g_ptr_array_copy (record->waiting, copy_attachment, NULL);
  g_ptr_array_set_free_func (ledger->waiting, (GDestroyNotify)bond_attachment_free);
  ledger->attached = g_hash_table_new_full (g_str_hash, g_str_equal, g_free, NULL);
  ledger->lines = g_string_new (NULL);
  for (guint i = 0; i < record->entries->len; i++)
    note_attached (ledger, ((BondRecordEntry *)g_ptr_array_index (record->entries, i))->entry);
  return ledger;
}

void
bond_ledger_free (BondLedger *ledger)
{
  if (ledger == NULL)
    return;
  g_mutex_clear (&ledger->lock);
  g_free (ledger->path);
  g_free (ledger->backup_path);
  g_free (ledger->survey_id);
  bond_journal_free (ledger->journal);
  bond_image_free (ledger->image);
  g_ptr_array_unref (ledger->closed);
  g_ptr_array_unref (ledger->attachments);
  g_ptr_array_unref (ledger->waiting);
  g_hash_table_unref (ledger->attached);
  g_free (ledger->sitting_id);
  g_free (ledger->start_tag);
  g_string_free (ledger->lines, TRUE);
  g_free (ledger->digest);
  g_clear_pointer (&ledger->scratch, xmlFreeDoc);
  g_free (ledger);
}

/* A fresh root for one element of the survey namespace; the one before goes. */
static xmlNode *
scratch_root (BondLedger *ledger)
{
  xmlNode *root;

  g_clear_pointer (&ledger->scratch, xmlFreeDoc);
  ledger->scratch = xmlNewDoc (BAD_CAST "1.0");
  root = xmlNewDocNode (ledger->scratch, NULL, BAD_CAST "survey", NULL);
  xmlDocSetRootElement (ledger->scratch, root);
  xmlSetNs (root, xmlNewNs (root, BAD_CAST BOND_NS_SURVEY, NULL));
  return root;
}

void
bond_ledger_begin (BondLedger *ledger, const char *sitting_id, const char *station, const char *opened)
{
  g_autofree char *after = NULL;
  xmlNode *node;

  g_return_if_fail (ledger != NULL && sitting_id != NULL && opened != NULL && ledger->sitting_id == NULL);

  after = bond_heads (ledger->closed);
  node = bond_xml_add (scratch_root (ledger), "sitting");
  bond_xml_set (node, "id", sitting_id);
  bond_xml_set (node, "station", station != NULL ? station : "");
  bond_xml_set (node, "opened", opened);
  bond_xml_set (node, "program", BOND_VERSION);
  bond_xml_set (node, "after", after);
  ledger->sitting_id = g_strdup (sitting_id);
  ledger->start_tag = bond_xml_start_tag (node);
  ledger->digest = bond_chain_start (ledger->survey_id, node);
}

/* Characters XML has no place for (control codes of a keyboard wedge, say) would make the file unreadable. */
static gboolean
is_storable (const char *line)
{
  if (!g_utf8_validate (line, -1, NULL))
    return FALSE;
  for (const char *p = line; *p != 0; p = g_utf8_next_char (p))
    {
      gunichar c = g_utf8_get_char (p);

      if ((c < 0x20 && c != '\t' && c != '\n' && c != '\r') || c == 0xFFFE || c == 0xFFFF)
        return FALSE;
    }
  return TRUE;
}

/* What is written must be readable: a line that does not fit the schema is a mistake of the caller, caught here. */
static gboolean
check_schema (BondLedger *ledger, xmlNode *node, GError **error)
{
  BondSchema *schema = bond_schema_get (bond_dialect_find ("survey"), error);
  g_autoptr (GPtrArray) problems = g_ptr_array_new_with_free_func ((GDestroyNotify)bond_problem_free);

  if (schema == NULL)
    return FALSE;
  if (bond_schema_check (schema, node, ledger->path, problems) == 0)
    return TRUE;
  g_set_error (error, BOND_STORE_ERROR, BOND_STORE_ERROR_SENSE, _ ("it does not fit the form of the file: %s"),
               ((BondProblem *)g_ptr_array_index (problems, 0))->message);
  return FALSE;
}

char *
bond_ledger_seal (BondLedger *ledger, BondEntry *entry, GError **error)
{
  xmlNode *node;
  g_autofree char *line = NULL;
  g_autofree char *digest = NULL;

  g_return_val_if_fail (ledger != NULL && entry != NULL && ledger->sitting_id != NULL, NULL);

  node = bond_entry_write (scratch_root (ledger), entry);
  line = bond_xml_dump (node);
  if (!is_storable (line))
    {
      g_set_error_literal (error, BOND_STORE_ERROR, BOND_STORE_ERROR_SENSE,
                           _ ("it contains a control character. Take that out"));
      return NULL;
    }
  digest = bond_chain_next (ledger->digest, node);
  bond_xml_set (node, "d", digest);
  if (!check_schema (ledger, node, error))
    return NULL;
  g_free (entry->digest);
  entry->digest = g_steal_pointer (&digest);
  return bond_xml_dump (node);
}

gboolean
bond_ledger_append (BondLedger *ledger, const char *line, const BondEntry *entry, GError **error)
{
  gboolean good;

  g_return_val_if_fail (ledger != NULL && line != NULL && entry != NULL && entry->digest != NULL, FALSE);

  g_mutex_lock (&ledger->lock);
  good = bond_journal_append (ledger->journal, ledger->start_tag, line, error);
  if (good)
    {
      g_string_append (ledger->lines, line);
      g_string_append_c (ledger->lines, '\n');
      ledger->last = entry->n;
      g_free (ledger->digest);
      ledger->digest = g_strdup (entry->digest);
      note_attached (ledger, entry);
      ledger->unsaved++;
    }
  g_mutex_unlock (&ledger->lock);
  return good;
}

/* Attachments an entry names go into the file; others wait for theirs. */
static void
take_over_waiting (BondLedger *ledger)
{
  for (guint i = 0; i < ledger->waiting->len;)
    {
      BondAttachment *attachment = g_ptr_array_index (ledger->waiting, i);

      if (!g_hash_table_contains (ledger->attached, attachment->sha256))
        i++;
      else
        g_ptr_array_add (ledger->attachments, g_ptr_array_steal_index (ledger->waiting, i));
    }
}

/* Their bytes are in the file: the copies beside it go. */
static void
remove_side_files (BondLedger *ledger)
{
  for (; ledger->n_beside < ledger->attachments->len; ledger->n_beside++)
    {
      const BondAttachment *attachment = g_ptr_array_index (ledger->attachments, ledger->n_beside);
      g_autofree char *path = bond_attachment_side_path (ledger->path, attachment->sha256);

      g_unlink (path);
    }
}

/* What the file on disk now may lack; without it the rest of the sitting could not be joined to that file. */
static void
fill_journal (BondLedger *ledger)
{
  if (ledger->absorbed && ledger->last > 0 && bond_journal_fill (ledger->journal, ledger->start_tag, ledger->lines))
    ledger->absorbed = FALSE;
}

/* Somebody else wrote the file: theirs stays, ours goes beside it under a name of its own. */
static void
keep_beside (BondLedger *ledger, GPtrArray *pieces, GError **error)
{
  g_autofree char *folder = g_path_get_dirname (ledger->path);
  g_autofree char *name = g_path_get_basename (ledger->path);
  g_autofree char *stem = g_str_has_suffix (name, ".bondsurvey")
                              ? g_strndup (name, strlen (name) - strlen (".bondsurvey"))
                              : g_strdup (name);
  g_autofree char *kept_name
      = g_strdup_printf ("%s.kept-%.8s.bondsurvey", stem, ledger->sitting_id != NULL ? ledger->sitting_id + 2 : "read");
  g_autofree char *kept = g_build_filename (folder, kept_name, NULL);
  gboolean written = bond_disk_replace (ledger->disk, kept, pieces, NULL, NULL);

  if (written)
    g_set_error (
        error, BOND_STORE_ERROR, BOND_STORE_ERROR_CHANGED,
        _ ("%s was changed on disk by somebody else and was left alone. Everything recorded here is kept in %s, and in "
           "the journal beside the file. Close this survey and open it again: what both recorded is joined then. Look "
           "it through before you go on."),
        ledger->path, kept);
  else
    g_set_error (
        error, BOND_STORE_ERROR, BOND_STORE_ERROR_CHANGED,
        _ ("%s was changed on disk by somebody else and was left alone. What is recorded here is kept in %s.journal. "
           "Copy both before you go on."),
        ledger->path, ledger->path);
}

/* What is on disk now is ours, even when a power cut could still undo it. */
static void
take_image (BondLedger *ledger, GPtrArray *pieces)
{
  bond_image_free (ledger->image);
  ledger->image = bond_image_new_pieces (ledger->path, pieces);
  ledger->backed_up = TRUE;
}

static gboolean
save (BondLedger *ledger, GError **error)
{
  g_autoptr (GPtrArray) pieces = NULL;
  g_autoptr (GError) trouble = NULL;

  take_over_waiting (ledger);
  pieces = compose (ledger);
  if (!bond_image_is_on_disk (ledger->image, ledger->path))
    {
      fill_journal (ledger);
      keep_beside (ledger, pieces, error);
      return FALSE;
    }
  bond_disk_replace (ledger->disk, ledger->path, pieces, ledger->backed_up ? NULL : ledger->backup_path, &trouble);
  if (trouble == NULL || trouble->code == BOND_STORE_ERROR_UNSURE)
    take_image (ledger, pieces);
  if (trouble != NULL)
    {
      g_propagate_error (error, g_steal_pointer (&trouble));
      return FALSE;
    }
  ledger->unsaved = 0;
  ledger->absorbed = TRUE;
  bond_journal_absorbed (ledger->journal, ledger->keep_damaged);
  ledger->keep_damaged = FALSE;
  remove_side_files (ledger);
  return TRUE;
}

gboolean
bond_ledger_save (BondLedger *ledger, GError **error)
{
  gboolean good;

  g_return_val_if_fail (ledger != NULL, FALSE);

  g_mutex_lock (&ledger->lock);
  good = ledger->unsaved == 0 || save (ledger, error);
  g_mutex_unlock (&ledger->lock);
  return good;
}

guint
bond_ledger_unsaved (BondLedger *ledger)
{
  guint unsaved;

  g_return_val_if_fail (ledger != NULL, 0);

  g_mutex_lock (&ledger->lock);
  unsaved = ledger->unsaved;
  g_mutex_unlock (&ledger->lock);
  return unsaved;
}

static gsize
attachments_size (GPtrArray *attachments)
{
  gsize size = 0;

  for (guint i = 0; i < attachments->len; i++)
    size += (gsize)((BondAttachment *)g_ptr_array_index (attachments, i))->size;
  return size;
}

gsize
bond_ledger_size (BondLedger *ledger)
{
  gsize size;

  g_return_val_if_fail (ledger != NULL, 0);

  g_mutex_lock (&ledger->lock);
  size = ledger->lines->len + attachments_size (ledger->attachments) / 3 * 4;
  for (guint i = 0; i < ledger->closed->len; i++)
    size += g_bytes_get_size (((BondSitting *)g_ptr_array_index (ledger->closed, i))->text);
  g_mutex_unlock (&ledger->lock);
  return size;
}

static BondAttachment *
find_attachment (BondLedger *ledger, const char *sha256)
{
  BondAttachment *attachment = bond_attachment_find (ledger->attachments, sha256);

  return attachment != NULL ? attachment : bond_attachment_find (ledger->waiting, sha256);
}

static gboolean
write_side_file (BondLedger *ledger, const char *sha256, GBytes *bytes, GError **error)
{
  g_autofree char *path = bond_attachment_side_path (ledger->path, sha256);
  g_autoptr (GPtrArray) pieces = g_ptr_array_new ();

  g_ptr_array_add (pieces, bytes);
  return bond_disk_replace (ledger->disk, path, pieces, NULL, error);
}

static char *
attach (BondLedger *ledger, BondAttachment *attachment, GBytes *bytes, GError **error)
{
  gsize total = attachments_size (ledger->attachments) + attachments_size (ledger->waiting);

  if (find_attachment (ledger, attachment->sha256) != NULL)
    return g_strdup (attachment->sha256);
  if (total + (gsize)attachment->size > BOND_ATTACHMENTS_MAX)
    {
      g_set_error (
          error, BOND_STORE_ERROR, BOND_STORE_ERROR_WRITE,
          _ ("“%s” was not attached: the attachments of a survey may have 200 MB in all. Make it smaller first."),
          attachment->name);
      return NULL;
    }
  if (!write_side_file (ledger, attachment->sha256, bytes, error))
    return NULL;
  g_ptr_array_add (ledger->waiting, copy_attachment (attachment, NULL));
  return g_strdup (attachment->sha256);
}

char *
bond_ledger_attach (BondLedger *ledger, GBytes *bytes, const char *name, const char *type, GError **error)
{
  g_autoptr (BondAttachment) attachment = bond_attachment_new (bytes, name, type, error);
  char *sha256;

  if (attachment == NULL)
    return NULL;
  g_mutex_lock (&ledger->lock);
  sha256 = attach (ledger, attachment, bytes, error);
  g_mutex_unlock (&ledger->lock);
  return sha256;
}

GBytes *
bond_ledger_get_attachment (BondLedger *ledger, const char *sha256, GError **error)
{
  BondAttachment *attachment;
  GBytes *bytes = NULL;

  g_mutex_lock (&ledger->lock);
  attachment = find_attachment (ledger, sha256);
  if (attachment != NULL)
    bytes = bond_attachment_decode (attachment, error);
  else
    g_set_error (error, BOND_STORE_ERROR, BOND_STORE_ERROR_READ, _ ("The survey has no attachment %s."), sha256);
  g_mutex_unlock (&ledger->lock);
  return bytes;
}
