/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * The keys of a reading, for fingers: digits, the decimal mark of the locale, over
 * and below, minus, a unit for this reading only, and one step back.  It types into
 * the reading field, which keeps focus and caret; Record is the panel's own button.
 */
#pragma once

#include "gui/widgets/reading-entry.h"

G_BEGIN_DECLS

#define BOND_TYPE_KEYPAD (bond_keypad_get_type ())
G_DECLARE_FINAL_TYPE (BondKeypad, bond_keypad, BOND, KEYPAD, GtkWidget)

GtkWidget *bond_keypad_new (BondReadingEntry *entry);
/** bond_keypad_set_size: wanted height of a key and the gap between keys, in pixels. Where there is less height, the
 * keys shrink to 44 pixels rather than push the field off. */
void bond_keypad_set_size (BondKeypad *keypad, int key_px, int gap_px);

G_END_DECLS
