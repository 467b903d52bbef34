/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * The survey window as the tests of window and panel meet it: a fresh survey of
 * three points of one row (J2: ≤ 2.5 mΩ, no pair) and one meter of two ranges
 * (30 mΩ in steps of 0.01, 300 mΩ in steps of 0.1), typed into and read back.
 */
#pragma once

#include "gui/application.h"
#include "gui/dialog.h"

typedef struct
{
  char *folder, *path;
  BondApplication *application;
  BondSurveyWindow *window;
} WindowFixture;

/** WindowPoint: a point of a survey made for one test; in zone 521 of the airframe, whatever its number says. */
typedef struct
{
  const char *number, *limit;
  BondCondition condition;
} WindowPoint;
/** WindowPoints: given as data of a test, its survey has these points. */
typedef struct
{
  const WindowPoint *points;
  gsize n;
} WindowPoints;
/** window_make_survey_of: writes a survey of @points to @path. */
void window_make_survey_of (const char *path, const WindowPoints *points);
/** window_make_survey: writes the survey of three points to @path. */
void window_make_survey (const char *path);
void window_set_up (WindowFixture *fixture, gconstpointer data);
void window_tear_down (WindowFixture *fixture, gconstpointer data);
/** window_begin: acknowledges and leaves the cautions, as the person of the survey. */
void window_begin (WindowFixture *fixture);
BondReadingPanel *window_panel_of (WindowFixture *fixture);
/** window_type_reading: @text into the field, Enter, and the record awaited. */
void window_type_reading (WindowFixture *fixture, const char *text);
void window_wait_written (WindowFixture *fixture);
/** window_keys: keys into the field as a hand presses them, each record awaited: "\n" Enter, "\e" Esc. */
void window_keys (WindowFixture *fixture, const char *keys);
/** window_says: some visible label inside @widget holds @text (no-break spaces count as spaces). */
gboolean window_says (GtkWidget *widget, const char *text);
/** window_press: clicks the button of @dialog that is called @label. */
void window_press (gpointer window, const char *label);
/** window_tick: the tick or radio of @dialog that is called @label. */
GtkCheckButton *window_tick (gpointer window, const char *label);
/** window_has_act: the button of @label is there to be pressed. */
gboolean window_has_act (gpointer window, const char *label);
/** window_rework: records rework on the point in hand: the ticks of @tick, @card. */
void window_rework (WindowFixture *fixture, const char *tick, const char *card);
/** window_open_joint: records that the point in hand was opened for access. */
void window_open_joint (WindowFixture *fixture, const char *card);
const char *window_number_in_hand (WindowFixture *fixture);
/** window_read_again: the file as anybody else reads it, after the window has let go of it. (transfer full) */
BondSurveyFile *window_read_again (WindowFixture *fixture);
/** window_find_of_type: the first inside @widget; @label (nullable): of buttons. */
GtkWidget *window_find_of_type (GtkWidget *widget, GType type, const char *label);
GtkWindow *window_newest_dialog (void);
/** window_fill: @text into entry @n of @dialog, in the order they stand in. */
void window_fill (GtkWindow *dialog, int n, const char *text);
