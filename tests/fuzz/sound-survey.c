/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * Makes the survey and the journal of sound-survey.h in a folder that is gone again
 * before the first execution.
 */
#include "sound-survey.h"

#include "../store/sample.h"
#include "store/journal.h"
#include "store/replay.h"

#include <string.h>

typedef struct
{
  char *survey, *journal;
  GBytes *empty;
} Sound;

/* Single quotes mean the same, and splice.h looks for them. */
static char *
take_text (const char *path)
{
  gsize length;
  char *text = sample_read (path, &length);

  return g_strdelimit (text, "\"", '\'');
}

static gpointer
make_cb (gpointer data)
{
  Sound *sound = g_new0 (Sound, 1);
  Sample sample;
  BondSurveyFile *file;
  g_autofree char *journal = NULL;
  gsize length;
  char *empty;

  bond_xml_init ();
  sample_set_up (&sample, NULL);
  journal = bond_journal_path (sample.path);
  file = sample_create (&sample, 3);
  sample_entry_of_every_kind (file);
  empty = sample_read (sample.path, &length);
  sound->empty = g_bytes_new_take (empty, length);
  sound->journal = take_text (journal);
  bond_survey_file_close (file, NULL);
  g_object_unref (file);
  sound->survey = take_text (sample.path);
  sample_tear_down (&sample, NULL);
  return sound;
}

static const Sound *
sound_once (void)
{
  static GOnce once = G_ONCE_INIT;

  return g_once (&once, make_cb, NULL);
}

const char *
fuzz_sound_survey (void)
{
  return sound_once ()->survey;
}

const char *
fuzz_sound_journal (void)
{
  return sound_once ()->journal;
}

GBytes *
fuzz_empty_survey (void)
{
  return sound_once ()->empty;
}

void
fuzz_check_record (BondRecord *record, GPtrArray *problems, GError *error)
{
  g_assert_true ((record == NULL) == (error != NULL));
  for (guint i = 0; i < problems->len; i++)
    g_assert_true (g_utf8_validate (((BondProblem *)g_ptr_array_index (problems, i))->message, -1, NULL));
  if (record != NULL)
    {
      g_autoptr (BondSource) source = bond_source_new_fixed ("2026-11-24T09:58:00+01:00", 1, 1);
      g_autoptr (BondSurvey) survey = bond_survey_new (record->survey_id, source);
      g_autoptr (GError) unsound = NULL;

      if (!bond_record_replay (record, survey, "fuzz", problems, &unsound))
        g_assert_nonnull (unsound);
    }
  else
    g_assert_true (g_utf8_validate (error->message, -1, NULL));
  bond_record_free (record);
}
