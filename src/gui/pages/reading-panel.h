/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * The reading panel: the point in hand, the limit in force with its tier, the
 * field with its live verdict, Record, and every other act on the point.
 */
#pragma once

#include "gui/walk.h"
#include <gtk/gtk.h>

G_BEGIN_DECLS

#define BOND_TYPE_READING_PANEL (bond_reading_panel_get_type ())
G_DECLARE_FINAL_TYPE (BondReadingPanel, bond_reading_panel, BOND, READING_PANEL, GtkWidget)

GtkWidget *bond_reading_panel_new (BondWalk *walk);
void bond_reading_panel_grab_field (BondReadingPanel *panel);
/** bond_reading_panel_type: a digit typed elsewhere. */
void bond_reading_panel_type (BondReadingPanel *panel, guint character);
/** bond_reading_panel_record: what Enter does. */
void bond_reading_panel_record (BondReadingPanel *panel);
/** bond_reading_panel_leave: goes on and leaves a fail, if one stands here, held in the list. */
void bond_reading_panel_leave (BondReadingPanel *panel);
/** bond_reading_panel_get_entry: the field (tests, keypads). */
GtkEditable *bond_reading_panel_get_entry (BondReadingPanel *panel);
/** bond_reading_panel_say: one sentence below the field; @css: "fail" "guard" or NULL. */
void bond_reading_panel_say (BondReadingPanel *panel, const char *css, const char *text);
/** bond_reading_panel_may_write: FALSE when the survey is only read; says why, and says it anew when that changes. */
gboolean bond_reading_panel_may_write (BondReadingPanel *panel);
/** bond_reading_panel_get_said: the sentence below the field now. */
const char *bond_reading_panel_get_said (BondReadingPanel *panel);
/** bond_reading_panel_get_record_text: what the Record button says. */
const char *bond_reading_panel_get_record_text (BondReadingPanel *panel);
/** bond_reading_panel_set_room: @low leaves second lines out; @foot FALSE: Last and Next stand elsewhere. */
void bond_reading_panel_set_room (BondReadingPanel *panel, gboolean low, gboolean foot);
/** bond_reading_panel_set_big: a keypad and a few large buttons instead of second lines and small verbs. */
void bond_reading_panel_set_big (BondReadingPanel *panel, gboolean big);
/** bond_reading_panel_pop_unit: opens the popover of unit, range and measuring state. */
void bond_reading_panel_pop_unit (BondReadingPanel *panel);

G_END_DECLS
