/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * The seam between judge-timeline.c, which orders what happened, and judge.c, which
 * says what follows from it.  Nobody else includes this.
 */
#pragma once

#include "core/judge.h"

G_BEGIN_DECLS

/* Fills @result->history and @result->tier; measurements are judged, phases left open. */
void bond_timeline_build (BondPlaceResult *result, GPtrArray *entries, GHashTable *removed,
                          const BondJudgeContext *context, BondCondition planned);

G_END_DECLS
