/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * One survey file as a line of a list: whose it is, how far it got, and what is
 * wrong with it, told apart by what can be done about it.  Which files there are is
 * library.c's, copies of one survey are copies.c's.
 */
#include "library/library-private.h"

#include "store/lock.h"
#include "store/replay.h"

#include <glib/gi18n-lib.h>
#include <string.h>
#include <unistd.h>

#define HEAD_BYTES 4096

/* Owned texts, in one place for freeing and copying. */
static const goffset texts[] = {
  G_STRUCT_OFFSET (BondSurveySummary, path),          G_STRUCT_OFFSET (BondSurveySummary, id),
  G_STRUCT_OFFSET (BondSurveySummary, registration),  G_STRUCT_OFFSET (BondSurveySummary, aircraft_type),
  G_STRUCT_OFFSET (BondSurveySummary, airframe_name), G_STRUCT_OFFSET (BondSurveySummary, serial),
  G_STRUCT_OFFSET (BondSurveySummary, title),         G_STRUCT_OFFSET (BondSurveySummary, order),
  G_STRUCT_OFFSET (BondSurveySummary, changed_at),    G_STRUCT_OFFSET (BondSurveySummary, made_at),
  G_STRUCT_OFFSET (BondSurveySummary, last_at),       G_STRUCT_OFFSET (BondSurveySummary, last_point),
  G_STRUCT_OFFSET (BondSurveySummary, detail),        G_STRUCT_OFFSET (BondSurveySummary, problem),
  G_STRUCT_OFFSET (BondSurveySummary, stamp),
};

void
bond_survey_summary_free (BondSurveySummary *summary)
{
  if (summary == NULL)
    return;
  for (gsize i = 0; i < G_N_ELEMENTS (texts); i++)
    g_free (G_STRUCT_MEMBER (char *, summary, texts[i]));
  g_free (summary);
}

BondSurveySummary *
bond_survey_summary_copy (const BondSurveySummary *summary)
{
  BondSurveySummary *copy;

  g_return_val_if_fail (summary != NULL, NULL);
  copy = g_new (BondSurveySummary, 1);
  *copy = *summary;
  for (gsize i = 0; i < G_N_ELEMENTS (texts); i++)
    G_STRUCT_MEMBER (char *, copy, texts[i]) = g_strdup (G_STRUCT_MEMBER (char *, summary, texts[i]));
  return copy;
}

/* --- what the files look like from outside --- */

static char *
journal_of (const char *path)
{
  return g_strconcat (path, ".journal", NULL);
}

static GFileInfo *
look_at (const char *path)
{
  g_autoptr (GFile) file = g_file_new_for_path (path);

  return g_file_query_info (file,
                            G_FILE_ATTRIBUTE_TIME_MODIFIED "," G_FILE_ATTRIBUTE_TIME_MODIFIED_USEC
                                                           "," G_FILE_ATTRIBUTE_STANDARD_SIZE
                                                           "," G_FILE_ATTRIBUTE_UNIX_INODE,
                            G_FILE_QUERY_INFO_NONE, NULL, NULL);
}

static char *
modified_at (const char *path)
{
  g_autoptr (GFileInfo) info = look_at (path);
  g_autoptr (GDateTime) when = info != NULL ? g_file_info_get_modification_date_time (info) : NULL;

  return when != NULL ? g_date_time_format_iso8601 (when) : NULL;
}

/* The journal is where the newest readings are, so it counts as a change of the survey. */
static char *
changed_at (const char *path)
{
  g_autofree char *journal = journal_of (path);
  g_autofree char *file_at = modified_at (path);
  g_autofree char *journal_at = modified_at (journal);

  return g_strdup (g_strcmp0 (file_at, journal_at) < 0 ? journal_at : file_at);
}

static void
append_stamp (GString *stamp, const char *path)
{
  g_autoptr (GFileInfo) info = look_at (path);

  if (info == NULL)
    g_string_append (stamp, "-/");
  else
    g_string_append_printf (stamp, "%" G_GUINT64_FORMAT ".%u %" G_GINT64_FORMAT " %" G_GUINT64_FORMAT "/",
                            g_file_info_get_attribute_uint64 (info, G_FILE_ATTRIBUTE_TIME_MODIFIED),
                            g_file_info_get_attribute_uint32 (info, G_FILE_ATTRIBUTE_TIME_MODIFIED_USEC),
                            g_file_info_get_size (info),
                            g_file_info_get_attribute_uint64 (info, G_FILE_ATTRIBUTE_UNIX_INODE));
}

static gboolean
can_be_written (const char *path)
{
  g_autofree char *folder = g_path_get_dirname (path);

  /* A save puts a new file in the folder; the old one need not be writable for that, but then it is kept from change.
   */
  return access (folder, W_OK) == 0 && access (path, W_OK) == 0;
}

char *
bond_summary_stamp (const char *path)
{
  g_autofree char *journal = journal_of (path);
  g_autofree char *who = bond_lock_peek (path);
  GString *stamp = g_string_new (NULL);

  append_stamp (stamp, path);
  append_stamp (stamp, journal);
  g_string_append_printf (stamp, "%d %s", can_be_written (path), who != NULL ? who : "");
  return g_string_free (stamp, FALSE);
}

/* --- what is in them --- */

/* When something was last recorded: a copy of the file is no newer for having been copied. */
static char *
in_utc (const char *at)
{
  g_autoptr (GDateTime) when = g_date_time_new_from_iso8601 (at, NULL);
  g_autoptr (GDateTime) utc = when != NULL ? g_date_time_to_utc (when) : NULL;

  return utc != NULL ? g_date_time_format_iso8601 (utc) : NULL;
}

static void
fill_times (BondSurveySummary *summary, BondSurvey *survey)
{
  GPtrArray *entries = bond_survey_get_entries (survey);

  if (entries->len == 0)
    return;
  g_free (summary->changed_at);
  summary->changed_at = in_utc (((BondEntry *)entries->pdata[entries->len - 1])->at);
  summary->made_at = g_strdup (((BondEntry *)entries->pdata[0])->at);
  for (guint i = entries->len; i-- > 0;)
    {
      const BondEntry *entry = entries->pdata[i];
      BondPoint *point;

      if (entry->kind != BOND_ENTRY_READING)
        continue;
      summary->readings++;
      if (summary->last_at != NULL)
        continue;
      point = bond_survey_find_point (survey, entry->point);
      summary->last_at = g_strdup (entry->at);
      summary->last_point = g_strdup (point != NULL ? bond_point_get_number (point) : NULL);
    }
}

static void
fill_header (BondSurveySummary *summary, BondSurvey *survey)
{
  const BondCreate *header = bond_survey_get_header (survey);
  const BondAirframe *airframe = bond_survey_get_airframe (survey);

  if (header == NULL)
    return;
  summary->registration = g_strdup (header->registration);
  summary->aircraft_type = g_strdup (header->aircraft_type);
  summary->airframe_name = g_strdup (airframe != NULL ? airframe->name : header->aircraft_type);
  summary->serial = g_strdup (header->serial);
  summary->title = g_strdup (header->title);
  summary->order = g_strdup (header->order);
  summary->invented = header->invented;
}

static void
fill_counts (BondSurveySummary *summary, BondSurvey *survey)
{
  guint n = g_list_model_get_n_items (G_LIST_MODEL (survey));
  BondTotals totals;

  bond_survey_totals (survey, &totals);
  summary->points = totals.points;
  summary->scope = totals.scope;
  summary->done = totals.done;
  summary->fail = totals.fail;
  summary->open = totals.open;
  memcpy (summary->by_state, totals.by_state, sizeof summary->by_state);
  for (guint i = 0; i < n; i++)
    {
      g_autoptr (BondPoint) point = g_list_model_get_item (G_LIST_MODEL (survey), i);
      const BondPlaceResult *worst = bond_point_get_worst (point);

      summary->visual += worst->visual_reject;
      summary->within_fail += worst->within_u && worst->state == BOND_STATE_FAIL;
      summary->within_pass += worst->within_u && worst->state == BOND_STATE_PASS;
    }
}

/* --- what is wrong --- */

static void
set_trouble (BondSurveySummary *summary, BondTrouble trouble, const char *problem)
{
  summary->trouble = trouble;
  g_free (summary->problem);
  summary->problem = g_strdup (problem);
}

/* A damaged survey still begins like one; anything else never was one. */
static gboolean
looks_like_ours (const char *path)
{
  g_autoptr (GFile) file = g_file_new_for_path (path);
  g_autoptr (GFileInputStream) stream = g_file_read (file, NULL, NULL);
  char head[HEAD_BYTES + 1] = "";
  gsize n = 0;

  return stream != NULL && g_input_stream_read_all (G_INPUT_STREAM (stream), head, HEAD_BYTES, &n, NULL, NULL)
         && strstr (head, BOND_NS_SURVEY) != NULL;
}

static BondTrouble
trouble_of (const char *path, const GError *error)
{
  if (!g_file_test (path, G_FILE_TEST_EXISTS))
    return BOND_TROUBLE_MISSING;
  if (g_error_matches (error, BOND_STORE_ERROR, BOND_STORE_ERROR_NEWER))
    return BOND_TROUBLE_NEWER;
  if (!g_error_matches (error, BOND_STORE_ERROR, BOND_STORE_ERROR_READ) && !looks_like_ours (path))
    return BOND_TROUBLE_NOT_OURS;
  return BOND_TROUBLE_UNREADABLE;
}

/* What does not keep the survey from being counted. */
static void
find_lesser_trouble (BondSurveySummary *summary, const BondRecord *record)
{
  g_autofree char *who = bond_lock_peek (summary->path);

  if (who != NULL)
    {
      summary->trouble = BOND_TROUBLE_LOCKED;
      summary->detail = g_steal_pointer (&who);
    }
  else if (record->journal_cut || record->journal_damaged)
    summary->trouble = BOND_TROUBLE_TAIL;
  else if (!can_be_written (summary->path))
    summary->trouble = BOND_TROUBLE_NO_WRITE;
}

BondSurveySummary *
bond_library_summarise (const char *path)
{
  BondSurveySummary *summary;
  g_autoptr (GPtrArray) problems = g_ptr_array_new_with_free_func ((GDestroyNotify)bond_problem_free);
  g_autoptr (BondSource) source = bond_source_new_system ();
  g_autoptr (BondRecord) record = NULL;
  g_autoptr (BondSurvey) survey = NULL;
  g_autoptr (GError) error = NULL;

  g_return_val_if_fail (path != NULL, NULL);
  summary = g_new0 (BondSurveySummary, 1);
  summary->path = g_strdup (path);
  summary->changed_at = changed_at (path);
  summary->stamp = bond_summary_stamp (path);
  record = bond_record_read (path, problems, &error);
  survey = record != NULL ? bond_survey_new (record->survey_id, source) : NULL;
  if (survey == NULL || !bond_record_replay (record, survey, path, problems, &error))
    {
      set_trouble (summary, trouble_of (path, error), error->message);
      return summary;
    }
  if (record->broken != NULL)
    {
      /* Opens for looking at; no count of it stands beside those that can be trusted. */
      g_autofree char *why = g_strdup_printf (_ ("The record does not verify: %s."), record->broken);

      set_trouble (summary, BOND_TROUBLE_ALTERED, why);
      return summary;
    }
  summary->id = g_strdup (record->survey_id);
  fill_header (summary, survey);
  fill_times (summary, survey);
  fill_counts (summary, survey);
  find_lesser_trouble (summary, record);
  return summary;
}
