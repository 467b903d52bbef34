/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * The one source of time and of random ids.  Injected, so that a test, the demo
 * and a replayed crash give the same bytes every time.
 */
#pragma once

#include <glib-object.h>

G_BEGIN_DECLS

typedef struct _BondSource BondSource;

/** bond_source_new_system: the computer's clock and the kernel's random numbers. */
BondSource *bond_source_new_system (void);
/**
 * bond_source_new_fixed: starts at @start (ISO 8601 with offset), adds @step_seconds at each question,
 * ids counted up from @seed.
 */
BondSource *bond_source_new_fixed (const char *start, int step_seconds, guint64 seed);
BondSource *bond_source_ref (BondSource *source);
void bond_source_unref (BondSource *source);
/** bond_source_now: "2026-11-24T09:58:00+01:00", local time with offset. (transfer full) */
char *bond_source_now (BondSource *source);
/** bond_source_peek: the same without moving a fixed clock on: for asking whether something holds now. (transfer full)
 */
char *bond_source_peek (BondSource *source);
/** bond_source_set_now: fixed sources only: the time of the next question. */
void bond_source_set_now (BondSource *source, const char *iso8601);
/** bond_source_id: @prefix + 32 hexadecimal digits ("s-41…", "q-7d…"). (transfer full) */
char *bond_source_id (BondSource *source, const char *prefix);

G_DEFINE_AUTOPTR_CLEANUP_FUNC (BondSource, bond_source_unref)

G_END_DECLS
