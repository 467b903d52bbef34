/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * Choosing files.  GTK's way of asking has changed twice; only this pair knows it.
 */
#pragma once

#include <gtk/gtk.h>

G_BEGIN_DECLS

/** BondFileChosen: @file is NULL when nothing was chosen. */
typedef void (*BondFileChosen) (GFile *file, gpointer data);

/** bond_file_open: asks for one existing file; @pattern like "*.bondsurvey" or, by what they hold, "image/png
 * image/jpeg"; @kind is what such files are called. */
void bond_file_open (GtkWindow *parent, const char *title, const char *kind, const char *pattern, BondFileChosen chosen,
                     gpointer data);
/** bond_file_save: asks where to write; @name in @folder (nullable) is proposed. GTK asks before an existing
 * file is replaced. */
void bond_file_save (GtkWindow *parent, const char *title, const char *folder, const char *name, BondFileChosen chosen,
                     gpointer data);

G_END_DECLS
