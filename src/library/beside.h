/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * Other copies of a survey in its own folder: what a sync program, a save that found
 * the file changed, or a hand left there.  Told by what they hold, not by their name.
 */
#pragma once

#include "store/xml.h"

G_BEGIN_DECLS

/**
 * bond_copies_beside: a problem for every copy in the folder of @path with entries that the file has not: what to do,
 * with both names.  A copy that is merely older is no problem.
 *
 * Looked at are files whose names share the stem: "ZZ-LMQ (conflicted copy 2026-11-24).bondsurvey", "ZZ-LMQ.kept-…",
 * "ZZ-LMQ.sync-conflict-…", "ZZ-LMQ-HANGAR2.bondsurvey".
 *
 * Returns: (transfer full): GPtrArray of BondProblem
 */
GPtrArray *bond_copies_beside (const char *path);

G_END_DECLS
