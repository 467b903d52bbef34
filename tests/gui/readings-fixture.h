/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * The Readings page on an invented aircraft of which a few points were measured.
 */
#pragma once

#include "gui/pages/readings-page.h"

typedef struct
{
  BondSurvey *survey;
  BondWalk *walk;
  GtkWindow *window; /* NULL until readings_show() */
  BondReadingsPage *page;
  guint details, go, walk_asked;
  char *said;
  gboolean failed;
} ReadingsFixture;

void readings_set_up (ReadingsFixture *fixture, gconstpointer data);
void readings_tear_down (ReadingsFixture *fixture, gconstpointer data);
/** readings_measure: the six points most tests look at. */
void readings_measure (ReadingsFixture *fixture);
/** readings_show: the page in a window of its own, @width pixels wide, entered. */
void readings_show (ReadingsFixture *fixture, int width);
/** readings_numbers: numbers of the points shown, headers as "[zone]", parted by spaces; @most rows. (transfer full) */
char *readings_numbers (ReadingsFixture *fixture, guint most);
/** readings_chosen: number of the point acts mean; NULL = none. */
const char *readings_chosen (ReadingsFixture *fixture);
/** readings_key: as pressed in the list. Returns: it was taken */
gboolean readings_key (ReadingsFixture *fixture, guint keyval, GdkModifierType state);
/** readings_column: index of the column called @id in the settings. */
int readings_column (const char *id);
