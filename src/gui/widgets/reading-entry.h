/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * The field a reading is typed into.  It takes the keys that act before the text
 * does, knows a person's typing from a scanner's burst, and never drops a
 * character by itself.  What the text means is left to core/reading-text.h, what
 * happens then to the window.
 *
 * Signals
 *   "record" ()                 Enter on a text that is not empty; the text stays until the window clears it
 *   "jump" (const char *text)   Enter on "#…", or on a burst faster than 50 ms a key (a scanner): it can only jump
 *   "verb" (int letter)         one letter in an empty field, always upper case ('R')
 *   "step" (int by)             Up −1, Down +1: previous, next point
 *   "step-zone" (int by)        Page Up −1, Page Down +1
 *   "cancel" ()                 Esc in an empty field (Esc in a text empties it, that is all)
 * It is a GtkEntry: text by gtk_editable_get_text() and _set_text(), "changed" by GtkEditable.
 */
#pragma once

#include <gtk/gtk.h>

G_BEGIN_DECLS

#define BOND_TYPE_READING_ENTRY (bond_reading_entry_get_type ())
G_DECLARE_FINAL_TYPE (BondReadingEntry, bond_reading_entry, BOND, READING_ENTRY, GtkEntry)

GtkWidget *bond_reading_entry_new (void);
/** bond_reading_entry_set_verbs: letters that act in an empty field, upper case ("RSXNZBWV"); "" or NULL turns them
 * off. */
void bond_reading_entry_set_verbs (BondReadingEntry *entry, const char *letters);
/**
 * bond_reading_entry_inject: a character typed elsewhere (list, diagram, keypad) goes in at the caret; takes the focus.
 *
 * Returns: FALSE for a character that cannot begin a reading ("0-9 . , > < -"); nothing was done.
 */
gboolean bond_reading_entry_inject (BondReadingEntry *entry, gunichar character);
/** bond_reading_entry_set_problem: (nullable) @problem shows the text as invalid and tells it aloud; NULL = all right.
 *  Any change of the text clears it. */
void bond_reading_entry_set_problem (BondReadingEntry *entry, const char *problem);
/** bond_reading_entry_set_label: name read aloud ("Reading for 541-J04, reverse, in milliohm"). */
void bond_reading_entry_set_label (BondReadingEntry *entry, const char *label);
/** bond_reading_entry_say: speaks @text (a verdict, a message) without moving the focus. */
void bond_reading_entry_say (BondReadingEntry *entry, const char *text);
/**
 * bond_reading_entry_key: what the field does with a key, for keypads and tests.
 * @time_ms: time of the key event; 0 = unknown, then never part of a burst
 *
 * Returns: TRUE when the key was taken and must not reach the text
 */
gboolean bond_reading_entry_key (BondReadingEntry *entry, guint keyval, GdkModifierType state, guint32 time_ms);

G_END_DECLS
