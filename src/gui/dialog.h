/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * A small modal form: a window with Cancel and one act in its header bar, and
 * labelled rows.  Every act that needs a reason asks through one of these.
 */
#pragma once

#include <gtk/gtk.h>

G_BEGIN_DECLS

/** BOND_UI: where the templates are. */
#define BOND_UI "/io/github/bondwright/Bondwright/ui/"

#define BOND_TYPE_DIALOG (bond_dialog_get_type ())
G_DECLARE_FINAL_TYPE (BondDialog, bond_dialog, BOND, DIALOG, GtkWindow)

/**
 * BondDialogAct: called when the act is chosen.
 *
 * Returns: TRUE when it is done and the window may close; FALSE keeps it open
 *   (say why with bond_dialog_set_problem())
 */
typedef gboolean (*BondDialogAct) (BondDialog *dialog, gpointer data);

/**
 * bond_dialog_new:
 * @parent: (nullable): window it belongs to
 * @title: what it is about; @act_label: what its button does, or NULL for a plain "Close"
 * @act: (nullable): called on the act with @data; @destroy frees @data when the window goes
 */
BondDialog *bond_dialog_new (GtkWindow *parent, const char *title, const char *act_label, BondDialogAct act,
                             gpointer data, GDestroyNotify destroy);

/** bond_dialog_add_entry: a labelled line of text. @text may be NULL. */
GtkEditable *bond_dialog_add_entry (BondDialog *dialog, const char *label, const char *text);
/**
 * bond_dialog_add_note: a labelled text of a few lines. Enter does the dialog's act, Shift+Enter begins a new line, Tab
 * goes on. @text may be NULL.
 */
GtkTextView *bond_dialog_add_note (BondDialog *dialog, const char *label, const char *text);
/** bond_dialog_note_text: trimmed text of @note, NULL when nothing is left. (transfer full) */
char *bond_dialog_note_text (GtkTextView *note);
/** bond_dialog_set_act_label: what the act is called now. */
void bond_dialog_set_act_label (BondDialog *dialog, const char *label);
/** bond_dialog_add_choice: a labelled drop-down of @names (NULL-terminated; copied). */
GtkDropDown *bond_dialog_add_choice (BondDialog *dialog, const char *label, const char *const *names, guint selected);
/** bond_dialog_add_check: a check button. */
GtkCheckButton *bond_dialog_add_check (BondDialog *dialog, const char *label, gboolean active);
/** bond_dialog_add_mnemonic_check: one whose @label has an underscore before the letter of its key. */
GtkCheckButton *bond_dialog_add_mnemonic_check (BondDialog *dialog, const char *label, gboolean active);
/** bond_dialog_add_radio: a check button of the group of @group (NULL starts one). */
GtkCheckButton *bond_dialog_add_radio (BondDialog *dialog, const char *label, GtkCheckButton *group);
/** bond_dialog_add_heading: a section heading. */
void bond_dialog_add_heading (BondDialog *dialog, const char *text);
/** bond_dialog_add_text: wrapped text in the quiet ink; returned so that it can change. */
GtkLabel *bond_dialog_add_text (BondDialog *dialog, const char *text);
/** bond_dialog_add_labelled: @row, in which @widget has the focus, behind a label with a mnemonic. */
void bond_dialog_add_labelled (BondDialog *dialog, const char *label, GtkWidget *row, GtkWidget *widget);
/** bond_dialog_add_row: any widget across the whole width. */
void bond_dialog_add_row (BondDialog *dialog, GtkWidget *widget);
/** bond_dialog_set_problem: what keeps the act from being done; NULL clears it. */
void bond_dialog_set_problem (BondDialog *dialog, const char *text);
/** bond_dialog_text: trimmed text of @editable, NULL when nothing is left. (transfer full) */
char *bond_dialog_text (GtkEditable *editable);

/** bond_message: a window that says @text (what happened, what was kept, what to do next). */
void bond_message (GtkWindow *parent, const char *title, const char *text);

/** bond_name_widget: sets the accessible name of @widget. */
void bond_name_widget (gpointer widget, const char *name);

G_END_DECLS
