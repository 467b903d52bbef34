/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * Everything that was ever recorded about one point, in order of time, with what
 * later took it out again.  Where a place has its history for judging, this is for
 * reading: by the person who asks why a point stands as it does.
 */
#pragma once

#include "core/survey.h"

G_BEGIN_DECLS

/**
 * BondStoryLine: one act, or one seating of the probes. All borrowed, until the survey gets its next entry.
 * @entry: the act; of a seating its first reading
 * @item: (nullable): the line of the history it is; NULL for what is no part of one: a point or place that was entered,
 *   an attachment
 * @place: (nullable): the place it is of; NULL = the whole point
 * @struck_by: (nullable): the void, correction, move or undo that took it out
 * @permit: (nullable): the permit that was in force for the place of @item's readings when the first was taken
 */
typedef struct
{
  const BondEntry *entry;
  const BondHistoryItem *item;
  const BondPlaceResult *place;
  const BondEntry *struck_by;
  const BondEntry *permit;
} BondStoryLine;

/** bond_point_story: oldest first; nothing is left out. (transfer full): GPtrArray of BondStoryLine */
GPtrArray *bond_point_story (BondPoint *point);
/** bond_story_line_is_struck: it stands in the record and counts nowhere. */
gboolean bond_story_line_is_struck (const BondStoryLine *line);
/**
 * bond_said_name: what a reading was said to be when it was recorded, in words; @said as kept with it.
 * Returns: translated; NULL when @said is NULL; an unknown word as it is
 */
const char *bond_said_name (const char *said);

/** BondPointEarlier: what an earlier survey found at one point. Borrowed from the survey. */
typedef struct
{
  const BondEarlier *survey;
  const BondEarlierItem *item;
} BondPointEarlier;
/** bond_point_get_earlier: (transfer full): GArray of BondPointEarlier, oldest first; surveys without it left out. */
GArray *bond_point_get_earlier (BondPoint *point);

G_END_DECLS
