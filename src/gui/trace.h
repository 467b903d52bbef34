/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * Aids for tests that watch the program from outside: with BONDWRIGHT_TRACE naming a
 * file, the id of every entry that was confirmed is appended to it, one a line; with
 * BONDWRIGHT_FRAME_TRACE naming one, a line when the first frame of a window stands; with
 * BONDWRIGHT_FOCUS_TRACE naming one, a line each time another widget gets the keys.
 */
#pragma once

#include "core/entry.h"
#include <gtk/gtk.h>

G_BEGIN_DECLS

/** bond_trace_entry: nothing without the environment variable. */
void bond_trace_entry (const BondEntry *entry);
/** bond_trace_first_frame: before @window is presented; nothing without the environment variable. */
void bond_trace_first_frame (GtkWindow *window);
/** bond_trace_focus: types of the widget that has the keys in @window and of its parent; nothing without the
 * environment variable. */
void bond_trace_focus (GtkWindow *window);

G_END_DECLS
