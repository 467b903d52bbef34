/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * An aid for tests that kill the program: with BONDWRIGHT_TRACE naming a file, the
 * id of every entry that was confirmed is appended to it, one a line.
 */
#pragma once

#include "core/entry.h"

G_BEGIN_DECLS

/** bond_trace_entry: nothing without the environment variable. */
void bond_trace_entry (const BondEntry *entry);

G_END_DECLS
