/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * The digests that tie each entry to everything its writer had seen.  This file
 * defines them and nothing else; who compares them, and what a difference means,
 * is left to record.c.
 *
 * Definition (all digests are SHA-256, written as 64 lower-case hexadecimal digits):
 *
 *   d(0) = SHA-256 ( survey id, one LF, C (sitting element without its children) )
 *   d(n) = SHA-256 ( d(n−1) as its 64 digits, C (entry n without its attribute `d`) )
 *
 * C is Exclusive XML Canonicalization 1.0 without comments, in UTF-8.  The survey
 * id stands in d(0) so that a sitting cannot be carried into another survey; the
 * attributes of the sitting bring `after` with them: last entry and digest of every
 * sitting known when it was opened.
 */
#pragma once

#include "store/xml.h"

G_BEGIN_DECLS

/** bond_chain_start: d(0) of @sitting; its children play no part. (transfer full) */
char *bond_chain_start (const char *survey_id, xmlNode *sitting);
/** bond_chain_next: d(n) of @entry, whether or not it carries a `d` already. (transfer full) */
char *bond_chain_next (const char *previous, xmlNode *entry);

G_END_DECLS
