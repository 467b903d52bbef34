/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * The survey: its entries, and everything computed from them.  BondSurvey is a
 * GListModel of BondPoint in walking order.  Nothing is ever set on it: an act is
 * an entry, recorded through a sink that first makes it durable.
 */
#pragma once

#include "core/judge.h"
#include "core/source.h"
#include <gio/gio.h> /* list-model types only */

G_BEGIN_DECLS

#define BOND_TYPE_POINT (bond_point_get_type ())
G_DECLARE_FINAL_TYPE (BondPoint, bond_point, BOND, POINT, GObject)

/* A point emits "changed" (no arguments) when its spec or state changed. All (transfer none). */
const char *bond_point_get_id (BondPoint *point);
const BondPointSpec *bond_point_get_spec (BondPoint *point);
const char *bond_point_get_number (BondPoint *point);
const BondLimitRow *bond_point_get_row (BondPoint *point);       /* (nullable): the row that governs */
const BondLimitSet *bond_point_get_limit_set (BondPoint *point); /* (nullable): set of the row */
/**
 * bond_point_get_rows: GPtrArray of BondNamedRow: all rows that hold here, in the order named, at least one; which of
 * them governs may differ between places (BondPlaceResult.row).
 */
GPtrArray *bond_point_get_rows (BondPoint *point);
/**
 * BondAsked: what the limit rows of a point ask of a reading: of each the first row that asks any. Two rows may ask
 * different states; then one of them gets no verdict from a reading, and the place stays open.
 */
typedef struct
{
  BondConnectors connectors;
  BondMounting mounting;
  gboolean pair;
} BondAsked;
BondAsked bond_point_get_asked (BondPoint *point);
/** bond_point_get_places: GPtrArray of BondPlaceResult, at least one. */
GPtrArray *bond_point_get_places (BondPoint *point);
/** bond_point_get_worst: the place that decides. */
const BondPlaceResult *bond_point_get_worst (BondPoint *point);
/** bond_point_get_place: by id, NULL = the only/first. */
const BondPlaceResult *bond_point_get_place (BondPoint *point, const char *place);
/** bond_point_next_place: id of the first in-sample place still to measure; NULL when one place or none open. */
const char *bond_point_next_place (BondPoint *point);
BondState bond_point_get_state (BondPoint *point);
gboolean bond_point_has_history (BondPoint *point); /* rework, void, condition change … */
/** bond_point_get_attachments: GPtrArray of BondEntry* (attach). */
GPtrArray *bond_point_get_attachments (BondPoint *point);

/**
 * BondSink: where an entry is made durable before it is applied.
 * @write: must end in exactly one call of bond_survey_written(), at once or later in the main thread
 */
typedef struct
{
  void (*write) (gpointer sink, BondEntry *entry);
  gpointer sink;
} BondSink;

/** bond_point_get_notes: GPtrArray of BondEntry* (note, defect), oldest first. */
GPtrArray *bond_point_get_notes (BondPoint *point);
/** bond_point_get_defect: newest defect card raised for the reject that stands, NULL = none. */
const char *bond_point_get_defect (BondPoint *point);
/**
 * bond_point_bare_since: time (ISO 8601 with offset, borrowed) since when the joint is bare: of the first rework that
 * cleaned the surfaces after the finish was last applied; NULL = it is not. A joint merely opened or replaced is not
 * bare: the times of AC 43.13-1B ¶11-189 run from removing the finish and from cleaning.
 */
const char *bond_point_bare_since (BondPoint *point);
/** bond_point_get_hazards: set of BondHazard of the point and of its zone and the zones it lies within. */
guint bond_point_get_hazards (BondPoint *point);

#define BOND_SURVEY_ERROR (bond_survey_error_quark ())
typedef enum
{
  BOND_SURVEY_ERROR_INVALID, /* the entry does not fit the state */
  BOND_SURVEY_ERROR_REASON,  /* a reason is needed */
  BOND_SURVEY_ERROR_READ_ONLY,
  BOND_SURVEY_ERROR_NOT_WRITTEN,
  BOND_SURVEY_ERROR_PERMIT, /* no permit covers a reading there and then */
} BondSurveyError;
GQuark bond_survey_error_quark (void);

#define BOND_TYPE_SURVEY (bond_survey_get_type ())
G_DECLARE_FINAL_TYPE (BondSurvey, bond_survey, BOND, SURVEY, GObject)
/* Signals: "entry-applied" (BondEntry boxed pointer as gpointer), "point-changed" (BondPoint*), "header-changed" (). */

/** bond_survey_new: an empty survey with @id; entries come by bond_survey_load_entry() or bond_survey_record(). */
BondSurvey *bond_survey_new (const char *id, BondSource *source);
const char *bond_survey_get_id (BondSurvey *survey);
BondSource *bond_survey_get_source (BondSurvey *survey);

/* --- reading back: store calls these, then bond_survey_loaded() once --- */
/** bond_survey_load_entry: adds an entry read from a file (takes a reference), no sink; in any order. FALSE on a
 * duplicate id. */
gboolean bond_survey_load_entry (BondSurvey *survey, BondEntry *entry, GError **error);
/**
 * bond_survey_check_loaded: every reference points to an earlier entry of the survey.  Call before
 * bond_survey_loaded(); an entry that refers to nothing is kept and changes nothing.
 */
gboolean bond_survey_check_loaded (BondSurvey *survey, GError **error);
/** bond_survey_loaded: sorts by (t, sitting), replays everything, emits items-changed. */
void bond_survey_loaded (BondSurvey *survey);

/* --- recording --- */
/** bond_survey_begin_sitting: ids of new entries are SITTING-1, -2 …; needed before recording. */
void bond_survey_begin_sitting (BondSurvey *survey, const char *sitting_id);
const char *bond_survey_get_sitting (BondSurvey *survey);
void bond_survey_set_sink (BondSurvey *survey, const BondSink *sink); /* NULL = apply at once (tests) */
void bond_survey_set_read_only (BondSurvey *survey, const char *why); /* NULL = writable */
const char *bond_survey_get_read_only (BondSurvey *survey);
void bond_survey_set_person (BondSurvey *survey, const char *person_id); /* who measures now */
const char *bond_survey_get_person (BondSurvey *survey);

/**
 * bond_survey_set_attribution: whom new entries name besides the person who measures.
 * @entered_by: (nullable): who types, when it is another person; @under: (nullable): who supervises
 */
void bond_survey_set_attribution (BondSurvey *survey, const char *entered_by, const char *under);
const char *bond_survey_get_entered_by (BondSurvey *survey);
const char *bond_survey_get_under (BondSurvey *survey);

/** BondRecorded: @error NULL when durable and applied; otherwise nothing was applied. */
typedef void (*BondRecorded) (BondSurvey *survey, BondEntry *entry, const GError *error, gpointer data);

/**
 * bond_survey_record:
 * @entry: (transfer full): filled but for id, t, at, by (by only when NULL)
 *
 * Validates against the state, gives it id, t, at, hands it to the sink; applied only once durable.
 * One at a time: while one is being written the next waits and is validated in its turn.
 * @done is called exactly once.  Returns FALSE at once (and @done is called with the error) when it is invalid.
 */
gboolean bond_survey_record (BondSurvey *survey, BondEntry *entry, BondRecorded done, gpointer data);
/** bond_survey_record_now: for batch and tests: spins no loop; the sink must answer at once. */
gboolean bond_survey_record_now (BondSurvey *survey, BondEntry *entry, GError **error);
gboolean bond_survey_is_busy (BondSurvey *survey);
/** bond_survey_written: the sink's answer for the entry under way. */
void bond_survey_written (BondSurvey *survey, BondEntry *entry, const GError *error);
/** bond_survey_get_write_error: why the sink could not write the entry before, NULL = it was written. (transfer none)
 */
const GError *bond_survey_get_write_error (BondSurvey *survey);
/** bond_survey_check_entry: the validation alone. */
gboolean bond_survey_check_entry (BondSurvey *survey, const BondEntry *entry, GError **error);
/**
 * bond_survey_undo_target: this person's newest content entry of the open sitting that is not taken back; NULL = none.
 * The header and adopted registers are never undone: they are renewed by a newer revision.
 */
BondEntry *bond_survey_undo_target (BondSurvey *survey);
BondEntry *bond_survey_redo_target (BondSurvey *survey);
/** bond_survey_undo_needs_reason: taking @entry back asks for a reason (reading that does not conform). */
gboolean bond_survey_undo_needs_reason (BondSurvey *survey, BondEntry *entry);

/* --- what there is --- */
const BondCreate *bond_survey_get_header (BondSurvey *survey); /* NULL before create */
const BondAirframe *bond_survey_get_airframe (BondSurvey *survey);
GPtrArray *bond_survey_get_limit_sets (BondSurvey *survey); /* newest revision of each, in order adopted */
GPtrArray *bond_survey_get_instruments (BondSurvey *survey);
GPtrArray *bond_survey_get_people (BondSurvey *survey);
GPtrArray *bond_survey_get_earlier (BondSurvey *survey);     /* of BondEarlier, oldest first */
const BondHouse *bond_survey_get_house (BondSurvey *survey); /* never NULL: defaults */
BondRule bond_survey_get_rule (BondSurvey *survey);
const BondInstrument *bond_survey_find_instrument (BondSurvey *survey, const char *id); /* newest revision */
/**
 * bond_survey_find_instrument_at: the revision that was in force when @entry, a reading or correction, was recorded;
 * the newest for one that is not yet.
 */
const BondInstrument *bond_survey_find_instrument_at (BondSurvey *survey, const char *id, const BondEntry *entry);
const BondPerson *bond_survey_find_person (BondSurvey *survey, const char *id);
/** bond_survey_person_name: name, else the id itself. */
const char *bond_survey_person_name (BondSurvey *survey, const char *id);
GPtrArray *bond_survey_get_entries (BondSurvey *survey); /* of BondEntry, replay order */
BondEntry *bond_survey_find_entry (BondSurvey *survey, const char *id);
gboolean bond_survey_is_taken_back (BondSurvey *survey, const BondEntry *entry);
BondPoint *bond_survey_find_point (BondSurvey *survey, const char *id);
BondPoint *bond_survey_find_number (BondSurvey *survey, const char *number);
/** bond_survey_position: index in walking order, G_MAXUINT if absent. */
guint bond_survey_position (BondSurvey *survey, BondPoint *point);
/** bond_survey_next_open: next point after @from (NULL = start), wrapping once, that still needs a reading; NULL when
 * done. */
BondPoint *bond_survey_next_open (BondSurvey *survey, BondPoint *from);
/** bond_place_result_said: the verdict text (of several rows the worst) stored as `said` for @point/@place now ("pass",
 * "fail", "suspect" …). */
const char *bond_place_result_said (const BondPlaceResult *result);

/**
 * bond_survey_preview: what recording @reading on @point/@place would give.
 * (transfer full): free with bond_place_result_free(); @reading needs instrument, range, quantity, direction, of.
 */
BondPlaceResult *bond_survey_preview (BondSurvey *survey, BondPoint *point, const char *place,
                                      const BondReading *reading);

/** bond_survey_get_permits: GPtrArray of BondEntry* (permit), not taken back and not closed, oldest first. */
GPtrArray *bond_survey_get_permits (BondSurvey *survey);
/** bond_permit_end_words: "14:30", with the day when it is another one than that of @at: "2026-11-25 02:00"; NULL where
 * no end is set. (transfer full) */
char *bond_permit_end_words (const BondPermit *permit, const char *at);
/** bond_survey_permit_for: newest open permit for @hazard that covers @zone at time @at (ISO 8601); NULL = none. */
BondEntry *bond_survey_permit_for (BondSurvey *survey, BondHazard hazard, const char *zone, const char *at);
/** bond_survey_permit_then: newest permit that was in force at @at, be it closed since; NULL = none. */
BondEntry *bond_survey_permit_then (BondSurvey *survey, BondHazard hazard, const char *zone, const char *at);
/**
 * bond_survey_check_permit: a reading on @point with @instrument (id, nullable) may be taken now: where fuel vapour may
 * be only under a valid permit and with an instrument approved for it; near explosive devices only under the named
 * authority. FALSE with BOND_SURVEY_ERROR_PERMIT, the words of which say what is missing.
 */
gboolean bond_survey_check_permit (BondSurvey *survey, BondPoint *point, const char *instrument, GError **error);
/** bond_survey_caution_read: @person acknowledged the cautions of @hazards on the local day of @at in this survey. */
gboolean bond_survey_caution_read (BondSurvey *survey, const char *person, const char *code, const char *at);

/**
 * BondTotals: @points = all; scope = points − not applicable − not fitted.  Counts are of points but for @places,
 * the rejects and @over_limit_taken_back, which count each event.
 * @measured: in scope, with a result: measured = conform + fail + recorded without limit
 * @conform: pass, pass after rework, not confirmed
 * @fail: does not conform, with a disposition or without (by_state tells them apart)
 * @open: asks for a reading, a reason or a disposition (bond_state_is_open()); @done = scope − open
 * @below_resolution: points whose value of record is "< step"; they are not in the control total
 */
typedef struct
{
  int points, scope, places;
  int by_state[BOND_N_STATES];
  int measured, conform, fail, suspect, open, done;
  int within_u, below_resolution;
  int as_found_measured, rejects_as_found, rejects_installation, rejects_opened, rejects_rework, rejects_visual;
  int over_limit_taken_back;
  int seen_not_recorded;       /* steady live readings, each */
  __int128 control_total_nohm; /* Σ values of record of four-terminal points */
} BondTotals;
void bond_survey_totals (BondSurvey *survey, BondTotals *totals);

G_END_DECLS
