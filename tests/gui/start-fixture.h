/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * The start window on a library folder of its own, for the tests of its pages and
 * dialogs.  All aircraft and figures are invented.
 */
#pragma once

#include "gui/start-window.h"
#include "gui/start/surveys-page.h"
#include "library/library.h"
#include "window-fixture.h"

typedef struct
{
  char *folder; /* the library folder */
  BondApplication *application;
  BondStartWindow *window; /* NULL until start_open() */
} StartFixture;

/** StartTest: a test with a library of its own. */
typedef struct
{
  const char *path;
  void (*test) (StartFixture *, gconstpointer);
} StartTest;
/** start_run: what main() of such tests comes down to: a data and a state folder of the process's own, and its value.
 */
int start_run (int argc, char **argv, const StartTest *tests, gsize n);
/** start_make: a survey with two points (571-J31, 571-J32: ≤ 2.5 mΩ), closed; @nohm: the first one's reading, 0 = none.
 */
void start_make (StartFixture *fixture, const char *name, const char *registration, const char *serial, BondOhm nohm);
/** start_go_on: one more reading (second point) in that file, in a sitting of its own. */
void start_go_on (StartFixture *fixture, const char *name);
char *start_path (StartFixture *fixture, const char *name); /* (transfer full) */
/** start_open: shows the window and waits until it has looked. */
void start_open (StartFixture *fixture);
/** start_wait: until nothing is being looked for. */
void start_wait (StartFixture *fixture);
BondSurveysPage *start_surveys (StartFixture *fixture);
/** start_n_rows: rows of the list that are shown; @row: (out) (nullable): the last of them. */
guint start_n_rows (StartFixture *fixture, GtkWidget **row);
/** start_says: a label inside @widget that is shown and holds @text. (nullable) */
GtkWidget *start_says (GtkWidget *widget, const char *text);
/** start_button: the button called @label in the row that says @text. */
GtkWidget *start_button (StartFixture *fixture, const char *text, const char *label);
BondSurveyWindow *start_survey_window (StartFixture *fixture);
