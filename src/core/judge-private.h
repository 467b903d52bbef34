/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * The seam between judge-timeline.c, which orders what happened, judge.c, which says
 * what follows from it under one row, and judge-rows.c, which puts several together.  Nobody else includes this.
 */
#pragma once

#include "core/judge.h"

G_BEGIN_DECLS

/* Fills @result->history and @result->tier; measurements are judged, phases left open. */
void bond_timeline_build (BondPlaceResult *result, GPtrArray *entries, GHashTable *removed,
                          const BondJudgeContext *context, BondCondition planned);

/* What opened an epoch; it says how a reject in it is counted. */
typedef enum
{
  BOND_EPOCH_AS_FOUND,
  BOND_EPOCH_INSTALLATION,
  BOND_EPOCH_OPENED,
  BOND_EPOCH_REWORK,
} BondEpochKind;

/* One epoch of a place as far as rejects go; it is the same stretch of time under every row. */
typedef struct
{
  BondEpochKind kind;
  gboolean beyond;
  gboolean visual;
  gboolean failed; /* a fail or a visual reject stood at its end */
} BondEpoch;

/* The rejects of @result anew from its epochs. */
void bond_place_result_count (BondPlaceResult *result);
/* A reading beyond the limit that was undone or voided, not moved away. */
gboolean bond_history_item_is_struck_beyond (const BondHistoryItem *item);

G_END_DECLS
