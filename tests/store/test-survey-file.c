/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * A survey through its life on disk: created, recorded, saved, opened again, and
 * the same bytes each time it is done the same way.
 */
#include "sample.h"

#include "store/entry-xml.h"

#include <glib/gstdio.h>
#include <locale.h>
#include <string.h>

static char *
journal_of (const char *path)
{
  return g_strconcat (path, ".journal", NULL);
}

static guint
count_entries (BondSurveyFile *file)
{
  return bond_survey_get_entries (bond_survey_file_get_survey (file))->len;
}

static void
test_create (Sample *sample, gconstpointer data)
{
  g_autoptr (BondSurveyFile) file = sample_create (sample, 3);
  g_autoptr (BondSurveyFile) again = NULL;
  g_autofree char *journal = journal_of (sample->path);
  g_autoptr (GError) error = NULL;

  g_assert_true (sample_exists (sample->path));
  g_assert_true (sample_exists (journal));
  g_assert_cmpuint (count_entries (file), ==, 7);
  g_assert_true (bond_survey_file_close (file, &error));
  g_assert_no_error (error);
  g_assert_false (sample_exists (journal));

  again = sample_open (sample);
  g_assert_cmpuint (count_entries (again), ==, 7);
  g_assert_cmpstr (bond_survey_get_header (bond_survey_file_get_survey (again))->title, ==,
                   "Sample, invented: µΩ & <quotes> \"here\"");
}

static void
test_create_leaves_existing (Sample *sample, gconstpointer data)
{
  g_autoptr (GError) error = NULL;
  g_autofree char *bytes = NULL;
  gsize length;

  sample_write (sample->path, "mine", 4);
  g_assert_null (bond_survey_file_create (sample->path, sample->source, "Hangar 2", &error));
  g_assert_error (error, BOND_STORE_ERROR, BOND_STORE_ERROR_WRITE);
  bytes = sample_read (sample->path, &length);
  g_assert_cmpstr (bytes, ==, "mine");
}

static BondSurveyFile *
open_for_reading (Sample *sample, GPtrArray *problems)
{
  g_autoptr (GError) error = NULL;
  BondSurveyFile *file = bond_survey_file_open (sample->path, BOND_OPEN_READ, sample->source, NULL, problems, &error);

  g_assert_no_error (error);
  return file;
}

/* Readers read file and journal, take no lock and change nothing. */
static void
test_readers_see_the_journal (Sample *sample, gconstpointer data)
{
  g_autoptr (BondSurveyFile) writer = sample_create (sample, 2);
  g_autoptr (BondSurveyFile) reader = NULL;
  g_autofree char *before = NULL;
  g_autofree char *after = NULL;
  gsize n_before, n_after;

  sample_measure (writer, 5, 2);
  before = sample_read (sample->path, &n_before);
  reader = open_for_reading (sample, NULL);
  g_assert_cmpuint (count_entries (reader), ==, count_entries (writer));
  g_assert_nonnull (bond_survey_get_read_only (bond_survey_file_get_survey (reader)));
  g_assert_true (bond_survey_file_close (reader, NULL));
  after = sample_read (sample->path, &n_after);
  g_assert_cmpmem (before, n_before, after, n_after);
}

/* What is written of an entry is read as the same entry: its XML comes out the same again. */
static void
test_every_kind_comes_back (Sample *sample, gconstpointer data)
{
  g_autoptr (BondSurveyFile) file = sample_create (sample, 3);
  g_autoptr (BondSurveyFile) again = NULL;
  GPtrArray *before, *after;
  guint seen[BOND_N_ENTRY_KINDS] = { 0 };

  sample_entry_of_every_kind (file);
  g_assert_true (bond_survey_file_save (file, NULL));
  again = open_for_reading (sample, NULL);
  before = bond_survey_get_entries (bond_survey_file_get_survey (file));
  after = bond_survey_get_entries (bond_survey_file_get_survey (again));
  g_assert_cmpuint (before->len, ==, after->len);
  for (guint i = 0; i < before->len; i++)
    {
      xmlDoc *doc = xmlNewDoc (BAD_CAST "1.0");
      xmlNode *root = xmlNewDocNode (doc, NULL, BAD_CAST "survey", NULL);
      BondEntry *one = g_ptr_array_index (before, i);
      g_autofree char *a = NULL;
      g_autofree char *b = NULL;

      xmlDocSetRootElement (doc, root);
      xmlSetNs (root, xmlNewNs (root, BAD_CAST BOND_NS_SURVEY, NULL));
      a = bond_xml_dump (bond_entry_write (root, one));
      b = bond_xml_dump (bond_entry_write (root, g_ptr_array_index (after, i)));
      g_assert_cmpstr (a, ==, b);
      seen[one->kind]++;
      xmlFreeDoc (doc);
    }
  for (guint kind = 0; kind < BOND_N_ENTRY_KINDS; kind++)
    if (kind != BOND_ENTRY_ATTACH) /* see test-attachments.c */
      g_assert_cmpuint (seen[kind], >, 0);
}

/* A sitting that was closed is copied, not written anew: white space and quotes stay as they were. */
static void
test_closed_sittings_keep_their_bytes (Sample *sample, gconstpointer data)
{
  g_autoptr (BondSurveyFile) file = sample_create (sample, 1);
  g_autofree char *bytes = NULL;
  gsize length;

  sample_measure (file, 1, 1);
  g_assert_true (bond_survey_file_close (file, NULL));
  g_clear_object (&file);
  /* The same content for XML, other bytes. */
  sample_replace (sample->path, "<sitting id=\"", "<sitting   id = \"");
  sample_replace (sample->path, "direction=\"forward\"", "direction='forward'");

  file = sample_open (sample);
  sample_measure (file, 1, 1);
  g_assert_true (bond_survey_file_close (file, NULL));
  bytes = sample_read (sample->path, &length);
  g_assert_nonnull (strstr (bytes, "<sitting   id = \""));
  g_assert_nonnull (strstr (bytes, "direction='forward'"));
  sample_assert_valid (sample->path);
}

/* The open sitting in the file is the lines of the journal. */
static void
test_journal_lines_are_file_lines (Sample *sample, gconstpointer data)
{
  g_autoptr (BondSurveyFile) file = sample_create (sample, 2);
  g_autofree char *journal_path = journal_of (sample->path);
  g_autofree char *journal = NULL;
  g_autofree char *bytes = NULL;
  g_auto (GStrv) lines = NULL;
  gsize length;

  sample_measure (file, 6, 2);
  journal = sample_read (journal_path, &length);
  g_assert_true (bond_survey_file_close (file, NULL));
  bytes = sample_read (sample->path, &length);
  lines = g_strsplit (journal, "\n", -1);
  g_assert_cmpuint (g_strv_length (lines), ==, 2 + 6 + 6 + 1);
  for (guint i = 1; lines[i] != NULL; i++)
    g_assert_nonnull (strstr (bytes, lines[i]));
}

static char *
make_whole (gsize *length)
{
  Sample sample;
  g_autoptr (BondSurveyFile) file = NULL;
  char *bytes;

  sample_set_up (&sample, NULL);
  file = sample_create (&sample, 5);
  sample_entry_of_every_kind (file);
  sample_measure (file, 40, 5);
  g_assert_true (bond_survey_file_close (file, NULL));
  g_clear_object (&file);
  file = sample_open (&sample);
  sample_measure (file, 10, 5);
  g_assert_true (bond_survey_file_close (file, NULL));
  bytes = sample_read (sample.path, length);
  g_clear_object (&file);
  sample_tear_down (&sample, NULL);
  return bytes;
}

/* The same acts at the same times give the same bytes, whatever the locale. */
static void
test_same_acts_same_bytes (void)
{
  g_autofree char *locale = g_strdup (setlocale (LC_ALL, NULL));
  gsize n1, n2;
  g_autofree char *one = make_whole (&n1);
  g_autofree char *two = NULL;

  setlocale (LC_ALL, "C");
  two = make_whole (&n2);
  g_assert_cmpmem (one, n1, two, n2);
  if (setlocale (LC_ALL, "de_DE.UTF-8") != NULL)
    {
      g_autofree char *three = make_whole (&n2);

      g_assert_cmpstr (localeconv ()->decimal_point, ==, ",");
      g_assert_cmpmem (one, n1, three, n2);
    }
  else
    g_test_message ("no comma locale here: compared under C alone");
  setlocale (LC_ALL, locale);
  g_assert_nonnull (strstr (one, "759.225"));
}

static void
test_second_sitting_knows_the_first (Sample *sample, gconstpointer data)
{
  g_autoptr (BondSurveyFile) file = sample_create (sample, 1);
  g_autofree char *last = NULL;
  g_autofree char *bytes = NULL;
  GPtrArray *entries;
  gsize length;

  entries = bond_survey_get_entries (bond_survey_file_get_survey (file));
  last = g_strdup_printf ("after=\"%s:%s\"", ((BondEntry *)g_ptr_array_index (entries, entries->len - 1))->id,
                          ((BondEntry *)g_ptr_array_index (entries, entries->len - 1))->digest);
  g_assert_true (bond_survey_file_close (file, NULL));
  g_clear_object (&file);
  file = sample_open (sample);
  sample_measure (file, 1, 1);
  g_assert_true (bond_survey_file_close (file, NULL));
  bytes = sample_read (sample->path, &length);
  g_assert_nonnull (strstr (bytes, last));
}

/* An opening in which nothing is recorded leaves nothing behind, not even a new time of the file. */
static void
test_opening_alone_changes_nothing (Sample *sample, gconstpointer data)
{
  g_autoptr (BondSurveyFile) file = sample_create (sample, 1);
  GStatBuf before, after;
  gsize n_before, n_after;
  g_autofree char *bytes_before = NULL;
  g_autofree char *bytes_after = NULL;

  g_assert_true (bond_survey_file_close (file, NULL));
  g_clear_object (&file);
  bytes_before = sample_read (sample->path, &n_before);
  g_stat (sample->path, &before);
  file = sample_open (sample);
  g_assert_true (bond_survey_file_close (file, NULL));
  g_stat (sample->path, &after);
  bytes_after = sample_read (sample->path, &n_after);
  g_assert_cmpmem (bytes_before, n_before, bytes_after, n_after);
  g_assert_cmpint (before.st_ino, ==, after.st_ino);
}

/* ---- recording in a thread ---- */

typedef struct
{
  GMainLoop *loop;
  int confirmed;
  int wanted;
  gboolean saved;
} Async;

static void
recorded_cb (BondSurvey *survey, BondEntry *entry, const GError *error, gpointer data)
{
  Async *async = data;

  g_assert_no_error (error);
  g_assert_nonnull (entry->digest);
  if (++async->confirmed == async->wanted)
    g_main_loop_quit (async->loop);
}

static void
saved_cb (BondSurveyFile *file, gpointer data)
{
  Async *async = data;

  async->saved = TRUE;
  g_main_loop_quit (async->loop);
}

static gboolean
too_late_cb (gpointer data)
{
  g_assert_not_reached ();
}

/* Entries go through a thread, one at a time and in order; two seconds of rest bring the whole save. */
static void
test_recording_in_a_thread (Sample *sample, gconstpointer data)
{
  g_autoptr (BondSurveyFile) file = sample_create (sample, 3);
  g_autofree char *journal = journal_of (sample->path);
  BondSurvey *survey = bond_survey_file_get_survey (file);
  Async async = { g_main_loop_new (NULL, FALSE), 0, 20, FALSE };
  guint late = g_timeout_add_seconds (60, too_late_cb, NULL);

  bond_survey_file_set_synchronous (file, FALSE);
  g_signal_connect (file, "saved", G_CALLBACK (saved_cb), &async);
  for (int i = 0; i < 20; i++)
    bond_survey_record (survey, sample_reading (1 + i % 3, "1.00", 1000000), recorded_cb, &async);
  g_assert_true (bond_survey_is_busy (survey));
  g_assert_cmpint (async.confirmed, ==, 0);
  g_main_loop_run (async.loop);
  g_assert_cmpint (async.confirmed, ==, 20);
  g_assert_cmpstr (bond_survey_file_get_saved_at (file), !=, NULL);
  g_assert_true (sample_exists (journal));
  g_main_loop_run (async.loop);
  g_assert_true (async.saved);
  g_assert_false (sample_exists (journal));
  g_source_remove (late);
  g_main_loop_unref (async.loop);
}

/* Closing while an entry is under way waits for it: it is in the file, and still confirmed afterwards. */
static void
test_close_waits_for_the_thread (Sample *sample, gconstpointer data)
{
  g_autoptr (BondSurveyFile) file = sample_create (sample, 1);
  g_autofree char *bytes = NULL;
  Async async = { g_main_loop_new (NULL, FALSE), 0, 1, FALSE };
  gsize length;

  bond_survey_file_set_synchronous (file, FALSE);
  bond_survey_record (bond_survey_file_get_survey (file), sample_reading (1, "1.77", 1770000), recorded_cb, &async);
  g_assert_true (bond_survey_file_close (file, NULL));
  bytes = sample_read (sample->path, &length);
  g_assert_nonnull (strstr (bytes, "text=\"1.77\""));
  g_main_loop_run (async.loop);
  g_assert_cmpint (async.confirmed, ==, 1);
  g_main_loop_unref (async.loop);
}

static void
test_closed_file_records_nothing (Sample *sample, gconstpointer data)
{
  g_autoptr (BondSurveyFile) file = sample_create (sample, 1);
  g_autoptr (GError) error = NULL;
  guint before = count_entries (file);

  g_assert_true (bond_survey_file_close (file, NULL));
  g_assert_true (bond_survey_file_close (file, NULL));
  g_assert_false (
      bond_survey_record_now (bond_survey_file_get_survey (file), sample_reading (1, "1.00", 1000000), &error));
  g_assert_nonnull (error);
  g_assert_cmpuint (count_entries (file), ==, before);
}

/* A control character cannot stand in XML: the entry is refused, not a file written that nobody can read. */
static void
test_control_character_is_refused (Sample *sample, gconstpointer data)
{
  g_autoptr (BondSurveyFile) file = sample_create (sample, 1);
  g_autoptr (GError) error = NULL;
  guint before = count_entries (file);

  g_assert_false (
      bond_survey_record_now (bond_survey_file_get_survey (file), sample_reading (1, "1.0\x01", 1000000), &error));
  g_assert_nonnull (error);
  g_assert_cmpuint (count_entries (file), ==, before);
  sample_record (file, sample_reading (1, "1.0", 1000000));
  g_assert_true (bond_survey_file_close (file, NULL));
  sample_assert_valid (sample->path);
}

#define CASE(name, function)                                                                                           \
  g_test_add ("/store/survey-file/" name, Sample, NULL, sample_set_up, function, sample_tear_down)

int
main (int argc, char **argv)
{
  g_test_init (&argc, &argv, NULL);
  bond_xml_init ();
  CASE ("create", test_create);
  CASE ("create-leaves-existing", test_create_leaves_existing);
  CASE ("readers-see-the-journal", test_readers_see_the_journal);
  CASE ("every-kind-comes-back", test_every_kind_comes_back);
  CASE ("closed-sittings-keep-their-bytes", test_closed_sittings_keep_their_bytes);
  CASE ("journal-lines-are-file-lines", test_journal_lines_are_file_lines);
  CASE ("second-sitting-knows-the-first", test_second_sitting_knows_the_first);
  CASE ("opening-alone-changes-nothing", test_opening_alone_changes_nothing);
  CASE ("recording-in-a-thread", test_recording_in_a_thread);
  CASE ("close-waits-for-the-thread", test_close_waits_for_the_thread);
  CASE ("closed-file-records-nothing", test_closed_file_records_nothing);
  CASE ("control-character-is-refused", test_control_character_is_refused);
  g_test_add_func ("/store/survey-file/same-acts-same-bytes", test_same_acts_same_bytes);
  return g_test_run ();
}
