/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * Opening a survey without holding the window up.
 */
#pragma once

#include "store/survey-file.h"
#include <gtk/gtk.h>

G_BEGIN_DECLS

/** BondOpened: @file (nullable, borrowed); NULL: @error says why. @problems: of BondProblem, what did not stop it. */
typedef void (*BondOpened) (BondSurveyFile *file, GPtrArray *problems, const GError *error, gpointer data);

/**
 * bond_open_in_thread: reads @path in a thread.
 * @cancellable: when it is cancelled @opened is not called any more
 */
void bond_open_in_thread (const char *path, BondOpenMode mode, const char *station, GCancellable *cancellable,
                          BondOpened opened, gpointer data);

G_END_DECLS
