/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * What both kinds of rows are made of.
 */
#pragma once

#include "gui/start/rows.h"

G_BEGIN_DECLS

#define BOND_ROWS_GAP 16

/**
 * BondRowInfo: what a row is asked later; texts are copied.
 * @opens: Enter opens @path; @words: the part that gives way to a progress bar
 * @in_columns: the parts stand under those of other rows
 */
typedef struct
{
  const char *path, *search;
  gboolean opens, is_open, needs_look, is_problem, in_columns;
  GtkWidget *words;
} BondRowInfo;

/** bond_rows_row: a list row with @parts beside each other, called @name. */
GtkWidget *bond_rows_row (GtkWidget *const *parts, gsize n_parts, const char *name, const BondRowInfo *info);
/** bond_rows_button: a button for @action on @path; read aloud as "LABEL, OF". */
GtkWidget *bond_rows_button (const char *label, const char *action, const char *path, const char *of);
void bond_rows_menu_act (GMenu *menu, const char *label, const char *action, const char *path);

G_END_DECLS
