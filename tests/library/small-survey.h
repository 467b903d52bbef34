/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * A survey small enough to reason about: three points in two wings, two limit rows
 * (shop/J1 ≤ 5 mΩ for 511-J01 and 511-J02, shop/J2 ≤ 2.5 mΩ for 611-J01), one meter, one person,
 * a clock that starts on 4 May 2026.  For the tests of the library and of the batch program.
 */
#pragma once

#include "library/library.h"

typedef struct
{
  char *folder;
  BondSource *source;
  BondAirframe *airframe;
  GPtrArray *sets;
  GPtrArray *people;
  GPtrArray *instruments;
} SmallSurvey;

void small_survey_set_up (SmallSurvey *fixture, gconstpointer data);
void small_survey_tear_down (SmallSurvey *fixture, gconstpointer data);
/** SmallSurveyTest: a test with a small survey of its own, in a folder of its own. */
typedef struct
{
  const char *path;
  void (*test) (SmallSurvey *, gconstpointer);
} SmallSurveyTest;
/** small_survey_run: what main() of such tests comes down to; its value is that of main(). */
int small_survey_run (int argc, char **argv, const SmallSurveyTest *tests, guint n);

void small_airframe_add_point (BondAirframe *airframe, const char *id, const char *number, const char *zone,
                               const char *limit);
/** small_survey_plan: all of the fixture; pointers borrowed. */
BondNewSurvey small_survey_plan (SmallSurvey *fixture);
char *small_survey_path (SmallSurvey *fixture, const char *name);
/** small_survey_make: a survey file in the fixture's folder, open for writing. */
BondSurveyFile *small_survey_make (SmallSurvey *fixture, const char *name, const BondNewSurvey *what);
void small_survey_measure (BondSurvey *survey, const char *number, BondOhm nohm);
/** small_survey_close: saves, closes and unrefs. */
void small_survey_close (BondSurveyFile *file);
