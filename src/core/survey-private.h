/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * What the files behind core/survey.h share: the inside of a survey and of a point.
 * survey.c holds the model and the look-ups, survey-replay.c computes, survey-record.c
 * records, survey-check.c validates, survey-totals.c counts, point.c is one point.
 * Nobody else includes this.
 */
#pragma once

#include "core/survey.h"

G_BEGIN_DECLS

/* An act that waits for its turn. */
typedef struct
{
  BondEntry *entry;
  BondRecorded done;
  gpointer data;
} BondAct;

struct _BondPoint
{
  GObject parent_instance;
  BondSurvey *survey; /* not owned: the survey owns the point */
  char *id;
  GPtrArray *entries;      /* of BondEntry*, borrowed, replay order: every entry that ever touched this point */
  BondPointSpec *spec;     /* NULL: no point entry in force, the point is not in the walk */
  GPtrArray *rows;         /* of BondNamedRow: every limit row that holds here; never empty with a spec */
  const BondLimitRow *row; /* borrowed from a set or the spec: what governs at the worst place */
  const BondLimitSet *set; /* borrowed */
  GPtrArray *places;       /* of BondPlaceResult */
  GPtrArray *attachments;  /* of BondEntry*, borrowed */
  GPtrArray *notes;        /* of BondEntry*, borrowed: notes and defect cards that stand */
  gboolean arrived;        /* stands in the survey's arrivals */
  guint position;          /* in the walk, G_MAXUINT when not in it */
};

struct _BondSurvey
{
  GObject parent_instance;
  char *id;
  BondSource *source;
  char *read_only;
  char *person, *entered_by, *under;

  char *sitting;
  int sitting_n; /* number of the last entry of the open sitting */
  gint64 last_t;
  BondSink sink;
  gboolean has_sink;
  BondAct under_way;   /* entry NULL when idle */
  GError *write_error; /* the sink's last answer, NULL = written */
  GQueue waiting;      /* of BondAct* */

  GPtrArray *entries;    /* of BondEntry, owned, replay order */
  GHashTable *by_id;     /* id → BondEntry */
  GHashTable *referrers; /* id → GPtrArray of the entries whose ref (or `of`) it is */
  GHashTable *also_in;   /* BondEntry* → GPtrArray of BondPoint* beyond entry->point whose lists hold it (moves) */
  GHashTable *removed;   /* set of BondEntry* taken back */

  GHashTable *points;  /* id → BondPoint, owned, also those without a spec */
  GPtrArray *arrivals; /* of BondPoint*, in the order of their first entry */
  GPtrArray *walk;     /* of BondPoint*, borrowed from points */

  /* registers, derived from the create and adopt entries in force */
  const BondCreate *header;
  const BondAirframe *airframe;
  GPtrArray *limit_sets, *instruments, *people, *earlier;
  BondHouse *house;      /* owned reference */
  GPtrArray *permits;    /* of BondEntry*, borrowed: open ones, oldest first */
  GHashTable *revisions; /* id of an instrument → GPtrArray of its adopt entries in force, replay order */
};

/* --- point.c --- */
BondPoint *bond_point_new (BondSurvey *survey, const char *id);
gboolean bond_point_has_place (BondPoint *point, const char *place);
gboolean bond_point_has_places (BondPoint *point);
void bond_point_emit_changed (BondPoint *point);
/* A place still asks for a reading. */
gboolean bond_place_needs_reading (const BondPlaceResult *result);

/* --- point-judge.c --- */
/* The spec, places and verdicts anew from the point's entries. */
void bond_point_derive (BondPoint *point);
/* As bond_point_derive() for one place with @extra (nullable) as the newest entry; result owns nothing of it. */
BondPlaceResult *bond_point_judge_place (BondPoint *point, const char *place, BondEntry *extra);
/*
 * All places anew under @spec, or under the newest in force when NULL, and under the registers of the moment; the point
 * itself stays as it is. (transfer full): of BondPlaceResult, places in the point's order
 */
GPtrArray *bond_point_rejudge (BondPoint *point, BondPointSpec *spec);
/* For judging against @row, one of the point's rows. (nullable) */
BondJudgeContext bond_point_context (BondPoint *point, const BondLimitRow *row);

/* A fail, with a disposition or without. */
gboolean bond_place_stands_as_fail (const BondPlaceResult *result);

/* --- point-acts.c --- */
/* @entry was taken back or voided. */
gboolean bond_point_is_struck (BondPoint *point, const BondEntry *entry);
void bond_point_derive_notes (BondPoint *point);
/* The joint was stripped, at @place or (NULL) anywhere at @point, and is not protected again. */
gboolean bond_point_is_bare (BondPoint *point, const char *place);

/* --- survey-permit.c --- */
void bond_survey_derive_permits (BondSurvey *survey);

/* --- survey-replay.c --- */
int bond_entry_compare (const BondEntry *a, const BondEntry *b);
void bond_survey_replay_all (BondSurvey *survey);
/* The registers in force from the entries in force; no point is judged anew by it. */
void bond_survey_derive_registers (BondSurvey *survey);
/* As if @adopted were in force, until bond_survey_derive_registers() ends the trial. */
void bond_survey_try_adopt (BondSurvey *survey, const BondAdopt *adopted);
/* Adds @entry (transfer none) as the newest and brings everything it touches up to date, with signals. */
void bond_survey_apply (BondSurvey *survey, BondEntry *entry);
/* The first reading of the chain of corrections @entry belongs to; NULL when @entry is no reading. */
const BondEntry *bond_survey_reading_origin (BondSurvey *survey, const BondEntry *entry);
GPtrArray *bond_survey_get_referrers (BondSurvey *survey, const char *id); /* nullable */

/* --- survey-instrument.c --- */
void bond_survey_forget_revisions (BondSurvey *survey);
/* @adopted: of an instrument, later than those added before. */
void bond_survey_add_revision (BondSurvey *survey, BondEntry *adopted);

/* --- survey-record.c --- */
void bond_survey_record_clear (BondSurvey *survey);
const char *bond_entry_author (const BondEntry *entry);
/* Who types now. (nullable) */
const char *bond_survey_typist (BondSurvey *survey);
BondEntry *bond_survey_undo_target_of (BondSurvey *survey, const char *person);
BondEntry *bond_survey_redo_target_of (BondSurvey *survey, const char *person);

G_END_DECLS
