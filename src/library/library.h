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

/** BondTrouble: what keeps a file from being gone on with as it is, gravest first. */
typedef enum
{
  BOND_TROUBLE_NONE,
  BOND_TROUBLE_MISSING,    /* opened lately, and not there now */
  BOND_TROUBLE_NOT_OURS,   /* no Bondwright survey */
  BOND_TROUBLE_NEWER,      /* written in a newer format */
  BOND_TROUBLE_UNREADABLE, /* damaged, or no permission */
  BOND_TROUBLE_ALTERED,    /* its chain does not verify */
  BOND_TROUBLE_COPY,       /* all of it is in another file; @detail: path of that */
  BOND_TROUBLE_APART,      /* two copies of one survey that went on apart; @detail: path of the other */
  BOND_TROUBLE_TAIL,       /* the last entry was cut off while being written */
  BOND_TROUBLE_LOCKED,     /* open for writing elsewhere; @detail: who, where, since when */
  BOND_TROUBLE_NO_WRITE,   /* cannot be written where it is */
} BondTrouble;

/**
 * BondSurveySummary: one survey as the start window shows it. Strings owned.
 * @problem: NULL, or why it cannot be used: then no count of it is told
 * @detail: (nullable): more of @trouble
 * @made_at: time of its first entry; @last_at, @last_point: time and point number of its newest reading (nullable)
 * @within_pass, @within_fail: points that pass or fail within U of the limit; @visual: rejected by eye
 * @recent: it stands in the list of recent surveys and not in the folder
 * @stamp: what its files looked like when it was read (private)
 */
typedef struct
{
  char *path, *id, *registration, *aircraft_type, *airframe_name, *serial, *title, *order, *changed_at;
  char *made_at, *last_at, *last_point;
  int points, scope, done, fail, open, readings;
  int by_state[BOND_N_STATES];
  int within_pass, within_fail, visual;
  gboolean invented, recent;
  BondTrouble trouble;
  char *detail, *problem, *stamp;
} BondSurveySummary;
void bond_survey_summary_free (BondSurveySummary *summary);
BondSurveySummary *bond_survey_summary_copy (const BondSurveySummary *summary);
/** bond_survey_summary_is_open: something is left to do, if only to place its points. */
gboolean bond_survey_summary_is_open (const BondSurveySummary *summary);
/** bond_library_summarise: reads one file, whatever state it is in. Any thread. (transfer full) */
BondSurveySummary *bond_library_summarise (const char *path);

/** bond_library_default_folder: the user's data folder + "bondwright" (not made). (transfer full) */
char *bond_library_default_folder (void);
/** bond_library_scan: every .bondsurvey below @folder, newest change first; unreadable ones carry @problem. (transfer
 * full) */
GPtrArray *bond_library_scan (const char *folder, GCancellable *cancellable, GError **error);
/** BondScanProgress: shared with the thread that scans; g_atomic_int only. @stop not 0 ends it with what was found. */
typedef struct
{
  int done, total, stop;
} BondScanProgress;
/**
 * bond_library_scan_again: as bond_library_scan(), and more.
 * @folder: one that is not there is empty
 * @recent: (nullable): paths to list besides; @known: (nullable): an earlier result: files that look the same are not
 *   read again; @progress: (nullable)
 *
 * Copies of one survey are told apart: BOND_TROUBLE_COPY, BOND_TROUBLE_APART.
 */
GPtrArray *bond_library_scan_again (const char *folder, const char *const *recent, GPtrArray *known,
                                    BondScanProgress *progress, GCancellable *cancellable, GError **error);
/** bond_library_latest_of: the survey of that aircraft changed last, from a scan. (transfer none) (nullable) */
const BondSurveySummary *bond_library_latest_of (GPtrArray *summaries, const char *aircraft_type, const char *serial);
/** bond_library_recent / _note_recent: recently opened paths, newest first, kept in the user's state folder. (transfer
 * full) */
char **bond_library_recent (void);
gboolean bond_library_note_recent (const char *path, GError **error);
/** bond_library_forget_recent: takes @path from that list; the file is left alone. FALSE when it did not stand there.
 */
gboolean bond_library_forget_recent (const char *path);
/**
 * bond_library_copy: the survey at @from with its journal as @to, both as they are, byte for byte; a reader reads both
 * as one. BOND_STORE_ERROR_WRITE where @to is @from itself or a journal stands beside it already.
 */
gboolean bond_library_copy (const char *from, const char *to, GError **error);
/** bond_library_earlier: the results of @survey as an adoptable object. (transfer full) */
BondEarlier *bond_library_earlier (BondSurvey *survey);

/**
 * BondAircraft: one aircraft and its surveys that can be counted. Strings borrowed from the newest survey.
 * @surveys: of BondSurveySummary, borrowed, by the day they were made, oldest first
 * @open: the newest that is not done; NULL = nothing open
 */
typedef struct
{
  const char *registration, *aircraft_type, *airframe_name, *serial;
  gboolean invented;
  GPtrArray *surveys;
  const BondSurveySummary *open;
} BondAircraft;
/** bond_library_aircraft: what @summaries are of, newest change first: type and serial tell aircraft apart.
 * (transfer full): borrows from @summaries */
GPtrArray *bond_library_aircraft (GPtrArray *summaries);

#define BOND_DUE_SOON_DAYS 30
/**
 * bond_library_nearest_due: of @instruments (BondInstrument) the one due first, if that is within BOND_DUE_SOON_DAYS or
 * past on the local day @today; @days until its last valid day, negative = past; @n: (out): how many are. NULL = none.
 */
const BondInstrument *bond_library_nearest_due (GPtrArray *instruments, const GDate *today, int *days, guint *n);

/**
 * BondCarry: what a survey of the same aircraft leaves to the next: never a reading.
 * @earlier: of BondEarlier, oldest first, its own results last
 * @points: of BondPointSpec: placed by hand, in walking order
 * @places: of BondEntry (place): bolts and legs named then
 * @notes: of BondEntry (note, with its point): items that were open: "Open last time (2026-11-24): fail 3.12 mΩ, card
 *   N-101"
 * @limit_sets: of BondLimitSet, @airframe: as adopted then
 */
typedef struct
{
  GPtrArray *earlier, *points, *places, *notes, *limit_sets;
  BondAirframe *airframe;
} BondCarry;
BondCarry *bond_library_carry (BondSurvey *survey);
void bond_carry_free (BondCarry *carry);
/** bond_carry_fits: the points placed by hand have their zones in @airframe, and none of its points has their number.
 */
gboolean bond_carry_fits (const BondCarry *carry, const BondAirframe *airframe);

/** BondNewSurvey: what a new survey is made of; pointers borrowed. */
typedef struct
{
  const char *registration, *serial, *title, *order, *trigger, *customer, *location, *person_id;
  const char *card, *card_revision, *hours, *cycles, *power, *fuel, *data_checked_by, *data_checked_on;
  BondAirframe *airframe;
  GPtrArray *limit_sets;  /* of BondLimitSet, in order */
  GPtrArray *instruments; /* of BondInstrument */
  GPtrArray *people;      /* of BondPerson */
  BondHouse *house;       /* NULL = defaults */
  GPtrArray *earlier;     /* of BondEarlier; NULL = none */
  const BondCarry *carry; /* from an earlier survey; its @earlier goes in besides @earlier; NULL = none */
  GPtrArray *zones;       /* of char*: scope; NULL = all */
  BondRule rule;
  gboolean invented;
  gboolean no_points; /* leave template points out */
} BondNewSurvey;
/** bond_library_sets_for: the limit sets @airframe's points name, in the order first named. (transfer container) */
GPtrArray *bond_library_sets_for (const BondAirframe *airframe, BondCatalog *catalog);
/** bond_library_free_path: a name in @folder that is not taken: "REGISTRATION DAY.bondsurvey". (transfer full) */
char *bond_library_free_path (const char *folder, const char *registration, BondSource *source);
/** bond_library_new_survey: makes the file, records create, adopt and point entries, saves. */
BondSurveyFile *bond_library_new_survey (const char *path, const BondNewSurvey *what, BondSource *source,
                                         const char *station, GError **error);

G_DEFINE_AUTOPTR_CLEANUP_FUNC (BondCarry, bond_carry_free)

G_END_DECLS
