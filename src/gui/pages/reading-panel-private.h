/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * What the parts of the reading panel share: the point (reading-panel.c), the live
 * verdict (reading-verdict.c), the questions (reading-questions.c), Enter and what
 * comes of it (reading-entry-flow.c), the buttons (reading-verbs.c), a fail that keeps
 * the walk here (reading-stopped.c).
 */
#pragma once

#include "gui/pages/history-list.h"
#include "gui/pages/last-next.h"
#include "gui/pages/reading-panel.h"
#include "gui/widgets/limit-bar.h"
#include "gui/widgets/mark-image.h"
#include "gui/widgets/reading-entry.h"

G_BEGIN_DECLS

struct _BondReadingPanel
{
  GtkWidget parent_instance;
  BondWalk *walk;
  GtkWidget *box, *content, *field, *foot, *history_box;
  GtkLabel *number_label, *in_zone_label, *class_label, *ends_label, *where_label, *source_label;
  BondMarkImage *point_mark, *class_sign, *verdict_mark;
  GtkDropDown *place_drop;
  GtkWidget *limit_box, *limit_rule, *forward_box, *forward_rule, *mean_box, *mean_rule;
  GtkLabel *limit_name, *limit_detail, *limit_value;
  GtkLabel *forward_name, *forward_detail, *forward_value;
  GtkLabel *mean_name, *mean_detail, *mean_value;
  GtkLabel *direction_label, *verdict_label, *unit_label, *say_label, *record_label, *state_label;
  BondReadingEntry *entry;
  GtkEventControllerFocus *field_focus;
  GtkMenuButton *unit_button, *state_button;
  GtkFlowBox *ask_box;
  GtkGrid *verbs;
  GtkGrid *stopped; /* what is offered while a fail stands, in place of Record and the other verbs */
  GtkWidget *void_button;
  GtkLabel *leave_hint;
  BondLimitBar *limit_bar;
  GtkWidget *record_button, *record_key;
  BondHistoryList *history;
  gboolean filling;     /* the drop-down of places is being filled */
  gboolean refused;     /* what stands below the field is why the survey is only read */
  gboolean enter_waits; /* Enter while the entry before is still being written */
  gboolean low, has_foot, big;
  GtkWidget *keypad, *big_verbs; /* of big targets; NULL until they are asked for */
  guint reveal;                  /* ticks until the sentence that was said last is scrolled into sight, 0 = it is */
  char *spoken;                  /* sentence about the reading just recorded, until the walk has moved on or stopped */
  gboolean asked;                /* a question stands; Enter does nothing until it is answered */
  BondAnswer answered;           /* what was answered before the question that stands */
  gboolean keep_words;           /* the sentence below the field outlives the next refresh */
};

/** bond_reading_panel_refresh_entry: field, verdict, bar and Record for the text as it is. */
void bond_reading_panel_refresh_entry (BondReadingPanel *self);
/** bond_reading_panel_ask: shows the question or error of @attempt. */
void bond_reading_panel_ask (BondReadingPanel *self, const BondAttempt *attempt);
void bond_reading_panel_clear_ask (BondReadingPanel *self);
/** bond_reading_panel_record_with: Enter, with what has been answered so far. */
void bond_reading_panel_record_with (BondReadingPanel *self, BondAnswer answers);
/** bond_reading_panel_add_verbs: the buttons under the field; once. */
void bond_reading_panel_add_verbs (BondReadingPanel *self);
/** bond_reading_panel_show_verbs: Record and the usual verbs, or what is offered while a fail stands. */
void bond_reading_panel_show_verbs (BondReadingPanel *self, const BondPlaceResult *result, gboolean typed);
/** bond_reading_panel_offer: a button below the field that does @action; no question, Enter still records. */
void bond_reading_panel_offer (BondReadingPanel *self, const char *label, const char *action);
/** bond_reading_panel_speak: says aloud what was recorded, with @more after it; nothing when nothing waits. */
void bond_reading_panel_speak (BondReadingPanel *self, const char *more);
/** bond_reading_panel_spoken: @text of the panel as it is read aloud, beginning with a point number. (transfer full) */
char *bond_reading_panel_spoken (BondReadingPanel *self, const char *text);
/** bond_reading_panel_say_and_go: the point in hand is settled: on to the next, with @text about the one left. */
void bond_reading_panel_say_and_go (BondReadingPanel *self, const char *text);
/** bond_reading_panel_u_digits: U in @unit, rounded up to two digits; NULL when there is none. (transfer full) */
char *bond_reading_panel_u_digits (const BondMeasurement *measurement, BondUnit unit);
/** bond_reading_panel_second_line: what stands under the field while a result shows, NULL = nothing. (transfer full) */
char *bond_reading_panel_second_line (BondReadingPanel *self, const BondPlaceResult *result);
/** bond_reading_panel_whisper: shows @text below the field and does not speak it: typing is not talked over. */
void bond_reading_panel_whisper (BondReadingPanel *self, const char *text);
/** bond_reading_panel_stopped_words: what a point that keeps the walk here says. (transfer full) */
char *bond_reading_panel_stopped_words (BondReadingPanel *self, const BondPlaceResult *result);
/** bond_reading_panel_reveal: scrolls what was said or asked last into sight once it has its place. */
void bond_reading_panel_reveal (BondReadingPanel *self);
/** bond_reading_panel_watch_room: keeps that so whatever room there is; once. */
void bond_reading_panel_watch_room (BondReadingPanel *self);
/** bond_reading_panel_focus: focus vfunc: the field first, then unit, Record, verbs, Undo. */
gboolean bond_reading_panel_focus (GtkWidget *widget, GtkDirectionType direction);
/** bond_reading_panel_connect_entry: signals of field and walk that concern the field. */
void bond_reading_panel_connect_entry (BondReadingPanel *self);
/** bond_reading_panel_set_ink: one of "fail" "guard" "history" "pass" on @label, NULL = none. */
void bond_reading_panel_set_ink (GtkWidget *label, const char *ink);

G_END_DECLS
