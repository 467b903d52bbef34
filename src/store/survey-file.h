/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * One survey on disk: file + journal + lock, and the sink that makes entries
 * durable.  Opening replays both; recording appends to the journal in a thread;
 * a whole save absorbs the journal.  Closed sittings are copied byte for byte.
 */
#pragma once

#include "core/survey.h"
#include "store/xml.h"

G_BEGIN_DECLS

#define BOND_TYPE_SURVEY_FILE (bond_survey_file_get_type ())
G_DECLARE_FINAL_TYPE (BondSurveyFile, bond_survey_file, BOND, SURVEY_FILE, GObject)
/* Signals: "saved" (): a whole save ended well; "save-failed" (GError*): what could not be saved and why. */

typedef enum
{
  BOND_OPEN_READ,      /* no lock, no sitting: for readers such as the batch program */
  BOND_OPEN_WRITE,     /* lock, begin a sitting when the first entry is recorded */
  BOND_OPEN_TAKE_OVER, /* the same, past a lock that another computer left behind (BOND_STORE_ERROR_LEFT) */
} BondOpenMode;

/**
 * bond_survey_file_create: a new survey at @path (must not exist): writes the file with an empty sitting list at once.
 * bond_survey_file_open: reads file + journal, checks schema, chain, sense.
 * @problems: GPtrArray of BondProblem: what was found but did not stop it (cut-off journal line dropped, broken chain →
 * read-only)
 *
 * A broken chain, or entries that contradict themselves or the survey, open read-only; bond_survey_get_read_only() says
 * why, naming entry and point.
 */
BondSurveyFile *bond_survey_file_create (const char *path, BondSource *source, const char *station, GError **error);
BondSurveyFile *bond_survey_file_open (const char *path, BondOpenMode mode, BondSource *source, const char *station,
                                       GPtrArray *problems, GError **error);
BondSurvey *bond_survey_file_get_survey (BondSurveyFile *file); /* (transfer none) */
const char *bond_survey_file_get_path (BondSurveyFile *file);
/** bond_survey_file_is_broken: its chain does not verify: for looking at only, no figure may be passed on. */
gboolean bond_survey_file_is_broken (BondSurveyFile *file);
/** bond_survey_is_broken: the same, of the survey such a file gave, for who has only that. */
gboolean bond_survey_is_broken (BondSurvey *survey);
/** bond_survey_file_is_sound: not broken, and every point stands in a zone of the airframe: figures may be passed on.
 */
gboolean bond_survey_file_is_sound (BondSurveyFile *file);
/** bond_survey_file_get_saved_at: time of the last durable entry or save, NULL before. */
const char *bond_survey_file_get_saved_at (BondSurveyFile *file);
/** bond_survey_file_save: whole save now (temporary file, fsync, rename, directory fsync, one backup); absorbs the
 * journal. */
gboolean bond_survey_file_save (BondSurveyFile *file, GError **error);
/** bond_survey_file_close: save if needed, drop the lock; safe to call twice. */
gboolean bond_survey_file_close (BondSurveyFile *file, GError **error);
/** bond_survey_file_set_synchronous: the sink writes before it returns (batch, tests, demo). */
void bond_survey_file_set_synchronous (BondSurveyFile *file, gboolean synchronous);
/** bond_survey_file_add_attachment: stores bytes for the next save; returns SHA-256 hex. ≤ 12 MB each, 200 MB in all.
 * (transfer full) */
char *bond_survey_file_add_attachment (BondSurveyFile *file, GBytes *bytes, const char *name, const char *type,
                                       GError **error);
GBytes *bond_survey_file_get_attachment (BondSurveyFile *file, const char *sha256,
                                         GError **error); /* (transfer full) */

/** bond_survey_file_validate: schema, chain, attachments and sense, all problems; TRUE when there are none. */
gboolean bond_survey_file_validate (const char *path, GPtrArray *problems);

G_END_DECLS
