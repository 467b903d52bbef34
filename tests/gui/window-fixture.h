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

/** window_make_survey: writes that survey to @path. */
void window_make_survey (const char *path);
void window_set_up (WindowFixture *fixture, gconstpointer data);
void window_tear_down (WindowFixture *fixture, gconstpointer data);
/** window_begin: leaves the cautions, as the person of the survey. */
void window_begin (WindowFixture *fixture);
BondReadingPanel *window_panel_of (WindowFixture *fixture);
/** window_type_reading: @text into the field, Enter, and the record awaited. */
void window_type_reading (WindowFixture *fixture, const char *text);
void window_wait_written (WindowFixture *fixture);
const char *window_number_in_hand (WindowFixture *fixture);
/** window_read_again: the file as anybody else reads it, after the window has let go of it. (transfer full) */
BondSurveyFile *window_read_again (WindowFixture *fixture);
/** window_find_of_type: the first inside @widget; @label (nullable): of buttons. */
GtkWidget *window_find_of_type (GtkWidget *widget, GType type, const char *label);
GtkWindow *window_newest_dialog (void);
/** window_fill: @text into entry @n of @dialog, in the order they stand in. */
void window_fill (GtkWindow *dialog, int n, const char *text);
