/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * What every form about the point in hand has in common: it remembers the point it
 * was opened for, makes one entry of it, and says in place what the record refuses.
 */
#pragma once

#include "gui/dialog.h"
#include "gui/walk.h"

G_BEGIN_DECLS

/** BondActForm: first member of the struct of each form. The point stays the same wherever the walk goes meanwhile. */
typedef struct
{
  BondWalk *walk;
  BondPoint *point;
  char *place;
} BondActForm;

/** bond_act_form_new: @size bytes of zeros that begin with a BondActForm, for the point in hand; NULL without one. */
gpointer bond_act_form_new (BondWalk *walk, gsize size);
/** bond_act_form_free: for forms that own nothing else. */
void bond_act_form_free (gpointer form);
/** bond_act_form_clear: what a BondActForm owns; the struct itself stays. */
void bond_act_form_clear (BondActForm *form);
/** bond_act_form_open: a dialog "WHAT, 541-J02"; it owns @form and frees it with @destroy. */
BondDialog *bond_act_form_open (GtkWindow *parent, gpointer form, const char *what, const char *act_label,
                                BondDialogAct act, GDestroyNotify destroy);
/** bond_act_form_entry: an entry of @kind for point and place of @form. (transfer full) */
BondEntry *bond_act_form_entry (const BondActForm *form, BondEntryKind kind);
/** bond_act_form_record: takes @entry. FALSE: refused, and the dialog says why; it stays open with what was filled in.
 */
gboolean bond_act_form_record (BondDialog *dialog, const BondActForm *form, BondEntry *entry);
/** bond_act_form_need: says @problem, puts the focus on @widget; always FALSE, so that an act can end with it. */
gboolean bond_act_form_need (BondDialog *dialog, gpointer widget, const char *problem);
/**
 * bond_act_form_show_row: a row of a dialog comes or goes with its label; what was typed in it is kept.
 * @name: (nullable): what the row is called now, with its mnemonic
 */
void bond_act_form_show_row (gpointer widget, gboolean visible, const char *name);

/** BondPersonChoice: one of the people of the survey, or a name that is typed. */
typedef struct
{
  GPtrArray *ids; /* of char*, as in the drop-down; its last line is "Somebody else" */
  GtkDropDown *drop;
  GtkEditable *other;
} BondPersonChoice;

/**
 * bond_person_choice_add: a drop-down of the people of the survey and a line for anybody else.
 * @selected: (nullable): id of who is proposed; NULL proposes nobody
 */
void bond_person_choice_add (BondPersonChoice *choice, BondDialog *dialog, BondSurvey *survey, const char *label,
                             const char *selected);
/** bond_person_choice_get: id of a person of the survey, or the name typed; NULL = nobody. (transfer full) */
char *bond_person_choice_get (const BondPersonChoice *choice);
/** bond_person_choice_name: the same as a name. (transfer full) */
char *bond_person_choice_name (const BondPersonChoice *choice, BondSurvey *survey);
void bond_person_choice_clear (BondPersonChoice *choice);

G_END_DECLS
