/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * What the files of the walk share: the object and its pins (walk.c), position
 * (walk-where.c), what a text would give (walk-attempt.c), recording (walk-record.c).
 * Nobody else includes it.
 */
#pragma once

#include "gui/walk.h"

G_BEGIN_DECLS

struct _BondWalk
{
  GObject parent_instance;
  BondSurvey *survey;
  BondPoint *point;
  char *place;
  BondPinned pinned;
  BondNumberFormat format;
  gboolean fresh;   /* the next reading begins a new seating whatever went before */
  gboolean stopped; /* the newest result keeps the walk here */
  /* under way: readings of one typed text, recorded one after the other */
  GPtrArray *queue; /* of BondEntry */
  guint queue_at;
  BondPoint *queue_point; /* the point they belong to, wherever the inspector looks meanwhile */
  char *first_id;         /* first reading of the seating being written */
  char *typed;
  gboolean busy, write_failed;
  BondEntry *last;       /* newest reading recorded here */
  BondWalkFilter filter; /* NULL = every point is walked */
  gpointer filter_data;
  GDestroyNotify filter_destroy;
};

typedef enum
{
  BOND_WALK_CURRENT_CHANGED,
  BOND_WALK_PINNED_CHANGED,
  BOND_WALK_RECORDED,
  BOND_WALK_STOPPED,
  BOND_WALK_DONE,
  BOND_WALK_NOT_RECORDED,
  BOND_WALK_FILTER_CHANGED,
  BOND_WALK_N_SIGNALS,
} BondWalkSignal;
/** bond_walk_signal: id of a signal. */
guint bond_walk_signal (BondWalkSignal signal);

/** bond_walk_start: on the first open point, else the first. */
void bond_walk_start (BondWalk *walk);
/** bond_walk_expect: direction and first entry (NULL = begins a seating) of the reading that comes next. */
BondDirection bond_walk_expect (BondWalk *walk, const char **of);
/** bond_walk_fill_reading: pinned state and @value into @reading. */
void bond_walk_fill_reading (BondWalk *walk, const BondTypedValue *value, BondAnswer answers, BondReading *reading);

G_END_DECLS
