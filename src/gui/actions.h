/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * All acts of the program in one table: name, accelerator, letter in the empty
 * reading field, help line.  The accelerators, the letters and the shortcuts
 * window all come from it.
 */
#pragma once

#include <gtk/gtk.h>

G_BEGIN_DECLS

typedef enum
{
  BOND_ACTION_GROUP_WALK,
  BOND_ACTION_GROUP_LOOK,
  BOND_ACTION_GROUP_START,
  BOND_ACTION_GROUP_EVERYWHERE,
} BondActionGroup;
#define BOND_N_ACTION_GROUPS 4

/**
 * BondActionInfo: one row an act.
 * @name: detailed action name ("win.view::front")
 * @accel: accelerator, NULL = none
 * @letter: upper-case letter that does it in the empty reading field, 0 = none
 * @help: help line, untranslated
 */
typedef struct
{
  const char *name;
  const char *accel;
  char letter;
  BondActionGroup group;
  const char *help;
} BondActionInfo;

const BondActionInfo *bond_actions (gsize *n);
/** bond_action_for_letter: detailed name of the act of @letter (any case), NULL when it has none. */
const char *bond_action_for_letter (gunichar letter);
/** bond_actions_install: sets the accelerators. */
void bond_actions_install (GtkApplication *application);
/** bond_shortcuts_window: a window that lists them, made from the table. */
void bond_shortcuts_window (GtkWindow *parent);

G_END_DECLS
