/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * Between a survey and its bytes: opens and replays, is the sink that makes entries
 * durable before they are applied, and saves when there is rest.  How bytes are
 * written is the ledger's, what entries mean the survey's.
 */
#include "store/survey-file-private.h"

#include "store/ledger.h"
#include "store/lock.h"
#include "store/replay.h"

#include <glib/gi18n-lib.h>
#include <stdlib.h>
#include <string.h>

/* House values of the design: common practice, no source. */
#define REST_MS 2000
#define ENTRIES_PER_SAVE 200
/* A save of many photos takes seconds; the journal has everything meanwhile. */
#define LARGE_BYTES ((gsize)32 * 1024 * 1024)
#define LARGE_REST_MS 30000

#define BROKEN_KEY "bond-broken"

struct _BondSurveyFile
{
  GObject parent_instance;
  char *path;   /* as it was given */
  char *target; /* symbolic links resolved */
  char *station;
  char *saved_at;
  BondSource *source;
  BondSurvey *survey;
  BondLedger *ledger;
  BondLock *lock;
  BondDisk disk;
  gboolean writable;
  gboolean synchronous;
  guint rest_id;
  gboolean saving;

  GMutex mutex; /* for @under_way */
  GCond done;
  guint under_way;    /* entries handed to a thread and not yet written */
  gboolean is_broken; /* the chain does not verify, or the entries contradict each other */
  gboolean zone_missing;
};

G_DEFINE_TYPE (BondSurveyFile, bond_survey_file, G_TYPE_OBJECT)

enum
{
  SIGNAL_SAVED,
  SIGNAL_SAVE_FAILED,
  N_SIGNALS,
};
static guint signals[N_SIGNALS];

/* ---- whole saves ---- */

static void
tell_saved (BondSurveyFile *file, const GError *error)
{
  if (error == NULL)
    g_signal_emit (file, signals[SIGNAL_SAVED], 0);
  else
    g_signal_emit (file, signals[SIGNAL_SAVE_FAILED], 0, error);
}

static void
save_thread (GTask *task, gpointer source, gpointer data, GCancellable *cancellable)
{
  GError *error = NULL;

  if (bond_ledger_save (BOND_SURVEY_FILE (source)->ledger, &error))
    g_task_return_boolean (task, TRUE);
  else
    g_task_return_error (task, error);
}

static void
saved_cb (GObject *object, GAsyncResult *result, gpointer data)
{
  BondSurveyFile *file = BOND_SURVEY_FILE (object);
  g_autoptr (GError) error = NULL;

  g_task_propagate_boolean (G_TASK (result), &error);
  file->saving = FALSE;
  tell_saved (file, error);
}

static void
start_save (BondSurveyFile *file)
{
  g_autoptr (GTask) task = NULL;

  if (file->saving)
    return;
  file->saving = TRUE;
  task = g_task_new (file, NULL, saved_cb, NULL);
  g_task_run_in_thread (task, save_thread);
}

static gboolean
rested_cb (gpointer data)
{
  BondSurveyFile *file = data;

  file->rest_id = 0;
  start_save (file);
  return G_SOURCE_REMOVE;
}

static void
stop_rest (BondSurveyFile *file)
{
  if (file->rest_id != 0)
    g_source_remove (file->rest_id);
  file->rest_id = 0;
}

/* After an entry: save at once when there are many, else when nothing comes for a while. */
static void
plan_save (BondSurveyFile *file)
{
  gboolean many = bond_ledger_unsaved (file->ledger) >= ENTRIES_PER_SAVE;

  stop_rest (file);
  if (many && file->synchronous)
    {
      g_autoptr (GError) error = NULL;

      bond_ledger_save (file->ledger, &error);
      tell_saved (file, error);
    }
  else if (many)
    start_save (file);
  else if (!file->synchronous)
    file->rest_id
        = g_timeout_add (bond_ledger_size (file->ledger) > LARGE_BYTES ? LARGE_REST_MS : REST_MS, rested_cb, file);
}

/* ---- the sink ---- */

typedef struct
{
  char *line;
  BondEntry *entry;
} Writing;

static void
writing_free (Writing *writing)
{
  g_free (writing->line);
  bond_entry_unref (writing->entry);
  g_free (writing);
}

static void
written (BondSurveyFile *file, BondEntry *entry, const GError *error)
{
  if (error != NULL)
    g_clear_pointer (&entry->digest, g_free);
  else
    {
      g_free (file->saved_at);
      file->saved_at = g_strdup (entry->at);
    }
  bond_survey_written (file->survey, entry, error);
  if (error == NULL && file->writable)
    plan_save (file);
}

static void
write_thread (GTask *task, gpointer source, gpointer data, GCancellable *cancellable)
{
  BondSurveyFile *file = BOND_SURVEY_FILE (source);
  Writing *writing = data;
  GError *error = NULL;
  gboolean good = bond_ledger_append (file->ledger, writing->line, writing->entry, &error);

  g_mutex_lock (&file->mutex);
  file->under_way--;
  g_cond_broadcast (&file->done);
  g_mutex_unlock (&file->mutex);
  if (good)
    g_task_return_boolean (task, TRUE);
  else
    g_task_return_error (task, error);
}

static void
written_cb (GObject *object, GAsyncResult *result, gpointer data)
{
  Writing *writing = g_task_get_task_data (G_TASK (result));
  g_autoptr (GError) error = NULL;

  g_task_propagate_boolean (G_TASK (result), &error);
  written (BOND_SURVEY_FILE (object), writing->entry, error);
}

static void
write_in_thread (BondSurveyFile *file, BondEntry *entry, char *line)
{
  g_autoptr (GTask) task = g_task_new (file, NULL, written_cb, NULL);
  Writing *writing = g_new0 (Writing, 1);

  writing->line = line;
  writing->entry = bond_entry_ref (entry);
  g_task_set_task_data (task, writing, (GDestroyNotify)writing_free);
  g_mutex_lock (&file->mutex);
  file->under_way++;
  g_mutex_unlock (&file->mutex);
  g_task_run_in_thread (task, write_thread);
}

static void
sink_write_cb (gpointer sink, BondEntry *entry)
{
  BondSurveyFile *file = sink;
  g_autofree char *line = NULL;
  g_autoptr (GError) error = NULL;

  if (!file->writable)
    g_set_error (&error, BOND_STORE_ERROR, BOND_STORE_ERROR_WRITE, _ ("%s is closed. Open it again"), file->path);
  else
    line = bond_ledger_seal (file->ledger, entry, &error);
  if (line != NULL && !file->synchronous)
    {
      write_in_thread (file, entry, g_steal_pointer (&line));
      return;
    }
  if (line != NULL)
    bond_ledger_append (file->ledger, line, entry, &error);
  written (file, entry, error);
}

/* ---- opening ---- */

static void
set_read_only (BondSurveyFile *file, const char *why)
{
  g_clear_pointer (&file->lock, bond_lock_drop);
  file->writable = FALSE;
  bond_survey_set_read_only (file->survey, why);
}

static void
begin_sitting (BondSurveyFile *file)
{
  const BondSink sink = { sink_write_cb, file };
  g_autofree char *id = bond_source_id (file->source, "s-");
  g_autofree char *opened = bond_source_now (file->source);

  bond_ledger_begin (file->ledger, id, file->station, opened);
  bond_survey_begin_sitting (file->survey, id);
  bond_survey_set_sink (file->survey, &sink);
  file->writable = TRUE;
}

/* What a crash left in the journal goes into the file before a new sitting begins: no sitting is ever continued. */
static void
start_writing (BondSurveyFile *file, GPtrArray *problems)
{
  g_autoptr (GError) error = NULL;

  if (bond_ledger_save (file->ledger, &error))
    {
      begin_sitting (file);
      return;
    }
  if (problems != NULL)
    g_ptr_array_add (problems, bond_problem_new (file->path, 0, "%s", error->message));
  set_read_only (file, error->message);
}

static void
settle_mode (BondSurveyFile *file, const BondRecord *record, BondOpenMode mode, const char *no_lock,
             GPtrArray *problems)
{
  g_autofree char *why = NULL;

  file->is_broken = record->broken != NULL;
  file->zone_missing = record->zone_missing;
  if (file->is_broken)
    {
      g_object_set_data (G_OBJECT (file->survey), BROKEN_KEY, file->survey);
      why = g_strdup_printf (_ ("The record does not verify: %s. Nothing can be added; compare it with a backup."),
                             record->broken);
      set_read_only (file, why);
    }
  else if (mode == BOND_OPEN_READ)
    set_read_only (file, _ ("The survey was opened for reading only."));
  else if (no_lock != NULL)
    set_read_only (file, no_lock);
  else
    start_writing (file, problems);
}

static BondSurveyFile *
file_new (const char *path, BondSource *source, const char *station)
{
  BondSurveyFile *file = g_object_new (BOND_TYPE_SURVEY_FILE, NULL);
  char *resolved = realpath (path, NULL);

  file->path = g_strdup (path);
  file->target = g_strdup (resolved != NULL ? resolved : path);
  file->station = g_strdup (station);
  file->source = bond_source_ref (source);
  free (resolved);
  return file;
}

BondSurveyFile *
bond_survey_file_open (const char *path, BondOpenMode mode, BondSource *source, const char *station,
                       GPtrArray *problems, GError **error)
{
  g_autoptr (BondSurveyFile) file = NULL;
  g_autoptr (BondRecord) record = NULL;
  g_autoptr (GError) no_lock = NULL;

  g_return_val_if_fail (path != NULL && source != NULL, NULL);

  file = file_new (path, source, station);
  /* A place where no lock can be made can still be read. */
  if (mode != BOND_OPEN_READ && g_file_test (file->target, G_FILE_TEST_IS_REGULAR))
    file->lock = bond_lock_take (file->target, station, mode == BOND_OPEN_TAKE_OVER, &no_lock);
  if (no_lock != NULL && (no_lock->code == BOND_STORE_ERROR_LOCKED || no_lock->code == BOND_STORE_ERROR_LEFT))
    {
      g_propagate_error (error, g_steal_pointer (&no_lock));
      return NULL;
    }
  record = bond_record_read (file->target, problems, error);
  if (record == NULL)
    return NULL;
  file->survey = bond_survey_new (record->survey_id, source);
  if (!bond_record_replay (record, file->survey, file->target, problems, error))
    return NULL;
  file->ledger = bond_ledger_new (file->target, record, &file->disk);
  settle_mode (file, record, mode, no_lock == NULL ? NULL : no_lock->message, problems);
  return g_steal_pointer (&file);
}

BondSurveyFile *
bond_survey_file_create (const char *path, BondSource *source, const char *station, GError **error)
{
  g_autofree char *id = NULL;

  g_return_val_if_fail (path != NULL && source != NULL, NULL);

  id = bond_source_id (source, "");
  if (!bond_ledger_create (path, id, &bond_disk_system, error))
    return NULL;
  return bond_survey_file_open (path, BOND_OPEN_WRITE, source, station, NULL, error);
}

/* ---- the rest ---- */

BondSurvey *
bond_survey_file_get_survey (BondSurveyFile *file)
{
  g_return_val_if_fail (BOND_IS_SURVEY_FILE (file), NULL);
  return file->survey;
}

gboolean
bond_survey_file_is_broken (BondSurveyFile *file)
{
  g_return_val_if_fail (BOND_IS_SURVEY_FILE (file), TRUE);
  return file->is_broken;
}

gboolean
bond_survey_is_broken (BondSurvey *survey)
{
  g_return_val_if_fail (BOND_IS_SURVEY (survey), TRUE);
  return g_object_get_data (G_OBJECT (survey), BROKEN_KEY) != NULL;
}

gboolean
bond_survey_file_is_sound (BondSurveyFile *file)
{
  g_return_val_if_fail (BOND_IS_SURVEY_FILE (file), FALSE);
  return !file->is_broken && !file->zone_missing;
}

const char *
bond_survey_file_get_path (BondSurveyFile *file)
{
  g_return_val_if_fail (BOND_IS_SURVEY_FILE (file), NULL);
  return file->path;
}

const char *
bond_survey_file_get_saved_at (BondSurveyFile *file)
{
  g_return_val_if_fail (BOND_IS_SURVEY_FILE (file), NULL);
  return file->saved_at;
}

/* Until every entry handed to a thread is on the disk, or is known not to be. */
static void
wait_for_writing (BondSurveyFile *file)
{
  g_mutex_lock (&file->mutex);
  while (file->under_way > 0)
    g_cond_wait (&file->done, &file->mutex);
  g_mutex_unlock (&file->mutex);
}

gboolean
bond_survey_file_save (BondSurveyFile *file, GError **error)
{
  g_autoptr (GError) local = NULL;

  g_return_val_if_fail (BOND_IS_SURVEY_FILE (file), FALSE);

  if (!file->writable)
    return TRUE;
  stop_rest (file);
  wait_for_writing (file);
  if (bond_ledger_unsaved (file->ledger) == 0)
    return TRUE;
  bond_ledger_save (file->ledger, &local);
  tell_saved (file, local);
  if (local == NULL)
    return TRUE;
  g_propagate_error (error, g_steal_pointer (&local));
  return FALSE;
}

gboolean
bond_survey_file_close (BondSurveyFile *file, GError **error)
{
  gboolean good;

  g_return_val_if_fail (BOND_IS_SURVEY_FILE (file), FALSE);

  good = bond_survey_file_save (file, error);
  file->writable = FALSE;
  g_clear_pointer (&file->lock, bond_lock_drop);
  return good;
}

void
bond_survey_file_set_synchronous (BondSurveyFile *file, gboolean synchronous)
{
  g_return_if_fail (BOND_IS_SURVEY_FILE (file));
  file->synchronous = synchronous;
}

void
bond_survey_file_set_disk (BondSurveyFile *file, const BondDisk *disk)
{
  g_return_if_fail (BOND_IS_SURVEY_FILE (file) && disk != NULL);
  file->disk = *disk;
}

char *
bond_survey_file_add_attachment (BondSurveyFile *file, GBytes *bytes, const char *name, const char *type,
                                 GError **error)
{
  g_return_val_if_fail (BOND_IS_SURVEY_FILE (file) && bytes != NULL && name != NULL && type != NULL, NULL);

  if (file->writable)
    return bond_ledger_attach (file->ledger, bytes, name, type, error);
  g_set_error (error, BOND_STORE_ERROR, BOND_STORE_ERROR_WRITE, _ ("“%s” was not attached: %s is open read-only."),
               name, file->path);
  return NULL;
}

GBytes *
bond_survey_file_get_attachment (BondSurveyFile *file, const char *sha256, GError **error)
{
  g_return_val_if_fail (BOND_IS_SURVEY_FILE (file) && sha256 != NULL, NULL);
  return bond_ledger_get_attachment (file->ledger, sha256, error);
}

/* An error that carries "FILE:LINE: " becomes a problem of that line. */
static void
add_problem (GPtrArray *problems, const char *path, const GError *error)
{
  const char *rest = g_str_has_prefix (error->message, path) ? error->message + strlen (path) : NULL;
  char *end = NULL;
  guint64 line = rest != NULL && *rest == ':' ? g_ascii_strtoull (rest + 1, &end, 10) : 0;

  if (line > 0 && g_str_has_prefix (end, ": "))
    g_ptr_array_add (problems, bond_problem_new (path, (int)line, "%s", end + 2));
  else
    g_ptr_array_add (problems, bond_problem_new (path, 0, "%s", error->message));
}

static void
check_attachments (BondSurveyFile *file, GPtrArray *problems)
{
  GPtrArray *entries = bond_survey_get_entries (file->survey);

  for (guint i = 0; i < entries->len; i++)
    {
      const BondEntry *entry = g_ptr_array_index (entries, i);
      g_autoptr (GBytes) bytes = NULL;
      g_autoptr (GError) error = NULL;

      if (entry->kind != BOND_ENTRY_ATTACH)
        continue;
      bytes = bond_ledger_get_attachment (file->ledger, entry->attach.sha256, &error);
      if (bytes == NULL)
        g_ptr_array_add (problems, bond_problem_new (file->path, 0, _ ("entry %s names “%s”: %s"), entry->id,
                                                     entry->attach.name, error->message));
    }
}

gboolean
bond_survey_file_validate (const char *path, GPtrArray *problems)
{
  g_autoptr (BondSource) source = bond_source_new_system ();
  g_autoptr (BondSurveyFile) file = NULL;
  g_autoptr (GError) error = NULL;
  guint before;

  g_return_val_if_fail (path != NULL && problems != NULL, FALSE);

  before = problems->len;
  file = bond_survey_file_open (path, BOND_OPEN_READ, source, NULL, problems, &error);
  if (file == NULL && problems->len == before)
    add_problem (problems, path, error);
  if (file != NULL)
    check_attachments (file, problems);
  return problems->len == before;
}

static void
bond_survey_file_dispose (GObject *object)
{
  BondSurveyFile *file = BOND_SURVEY_FILE (object);

  if (file->writable)
    bond_survey_file_close (file, NULL);
  stop_rest (file);
  if (file->survey != NULL)
    bond_survey_set_sink (file->survey, NULL);
  g_clear_pointer (&file->lock, bond_lock_drop);
  g_clear_object (&file->survey);
  G_OBJECT_CLASS (bond_survey_file_parent_class)->dispose (object);
}

static void
bond_survey_file_finalize (GObject *object)
{
  BondSurveyFile *file = BOND_SURVEY_FILE (object);

  bond_ledger_free (file->ledger);
  g_clear_pointer (&file->source, bond_source_unref);
  g_free (file->path);
  g_free (file->target);
  g_free (file->station);
  g_free (file->saved_at);
  g_mutex_clear (&file->mutex);
  g_cond_clear (&file->done);
  G_OBJECT_CLASS (bond_survey_file_parent_class)->finalize (object);
}

static void
bond_survey_file_class_init (BondSurveyFileClass *klass)
{
  GObjectClass *object_class = G_OBJECT_CLASS (klass);

  object_class->dispose = bond_survey_file_dispose;
  object_class->finalize = bond_survey_file_finalize;
  signals[SIGNAL_SAVED]
      = g_signal_new ("saved", BOND_TYPE_SURVEY_FILE, G_SIGNAL_RUN_LAST, 0, NULL, NULL, NULL, G_TYPE_NONE, 0);
  signals[SIGNAL_SAVE_FAILED] = g_signal_new ("save-failed", BOND_TYPE_SURVEY_FILE, G_SIGNAL_RUN_LAST, 0, NULL, NULL,
                                              NULL, G_TYPE_NONE, 1, G_TYPE_ERROR);
}

static void
bond_survey_file_init (BondSurveyFile *file)
{
  file->disk = bond_disk_system;
  g_mutex_init (&file->mutex);
  g_cond_init (&file->done);
}
