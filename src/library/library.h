/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * The library folder: which surveys there are, of which aircraft, how far they
 * got, and the results an earlier survey leaves to a new one.
 */
#pragma once

#include "core/survey.h"
#include "store/catalog.h"
#include "store/survey-file.h"

G_BEGIN_DECLS

/** BondSurveySummary: one line of the start window. Strings owned. @problem: NULL, or why it cannot be used. */
typedef struct
{
  char *path, *id, *registration, *aircraft_type, *serial, *title, *order, *changed_at;
  int points, done, fail, open;
  gboolean invented;
  char *problem;
} BondSurveySummary;
void bond_survey_summary_free (BondSurveySummary *summary);

/** bond_library_default_folder: the user's data folder + "bondwright" (not made). (transfer full) */
char *bond_library_default_folder (void);
/** bond_library_scan: every .bondsurvey below @folder, newest change first; unreadable ones carry @problem. (transfer
 * full) */
GPtrArray *bond_library_scan (const char *folder, GCancellable *cancellable, GError **error);
/** bond_library_latest_of: the survey of that aircraft changed last, from a scan. (transfer none) (nullable) */
const BondSurveySummary *bond_library_latest_of (GPtrArray *summaries, const char *aircraft_type, const char *serial);
/** bond_library_recent / _note_recent: recently opened paths, newest first, kept in the user's state folder. (transfer
 * full) */
char **bond_library_recent (void);
gboolean bond_library_note_recent (const char *path, GError **error);
/** bond_library_earlier: the results of @survey as an adoptable object. (transfer full) */
BondEarlier *bond_library_earlier (BondSurvey *survey);

/** BondNewSurvey: what a new survey is made of; pointers borrowed. */
typedef struct
{
  const char *registration, *serial, *title, *order, *trigger, *customer, *location, *person_id;
  BondAirframe *airframe;
  GPtrArray *limit_sets;  /* of BondLimitSet, in order */
  GPtrArray *instruments; /* of BondInstrument */
  GPtrArray *people;      /* of BondPerson */
  BondHouse *house;       /* NULL = defaults */
  GPtrArray *earlier;     /* of BondEarlier; NULL = none */
  GPtrArray *zones;       /* of char*: scope; NULL = all */
  BondRule rule;
  gboolean invented;
  gboolean no_points; /* leave template points out */
} BondNewSurvey;
/** bond_library_sets_for: the limit sets @airframe's points name, in the order first named. (transfer container) */
GPtrArray *bond_library_sets_for (const BondAirframe *airframe, BondCatalog *catalog);
/** bond_library_new_survey: makes the file, records create, adopt and point entries, saves. */
BondSurveyFile *bond_library_new_survey (const char *path, const BondNewSurvey *what, BondSource *source,
                                         const char *station, GError **error);

G_END_DECLS
