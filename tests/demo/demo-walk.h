/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * Doing to a survey what a person at the window does: take a reading as typed, look,
 * rework, put right.  Each act is one entry at the next moment of the demo's clock.
 */
#pragma once

#include "demo.h"

#include <gsl/gsl_rng.h>

/** DemoWalk: @failed is set at the first refusal; every act after it does nothing. */
typedef struct
{
  BondSurveyFile *file;
  BondSurvey *survey;
  BondSource *source;
  gsl_rng *random;
  GDateTime *clock;
  GError *error;
} DemoWalk;

/** demo_walk_wait: the clock moves on by @seconds. */
void demo_walk_wait (DemoWalk *walk, int seconds);
/** demo_walk_set_clock: @iso8601: when a new sitting begins. */
void demo_walk_set_clock (DemoWalk *walk, const char *iso8601);
BondPoint *demo_walk_point (DemoWalk *walk, const char *number);
/** demo_walk_record: takes @entry; a refusal is remembered with the point's number. */
void demo_walk_record (DemoWalk *walk, BondEntry *entry);
/** demo_walk_entry: an entry of @kind on @point (may be NULL) and @place (may be NULL). */
BondEntry *demo_walk_entry (BondEntryKind kind, BondPoint *point, const char *place);
/**
 * demo_walk_type: what was typed into the reading field ("1.84", "1.84 1.82", ">", "2.4mV 1.2A"), in mΩ or, with a
 * megohmmeter, in MΩ.  The range follows from the figure unless @range is given.
 */
void demo_walk_type (DemoWalk *walk, BondPoint *point, const char *place, const char *text, const char *range);
/** demo_walk_measure: a healthy joint of this point, pair and all, as the limit row asks. */
void demo_walk_measure (DemoWalk *walk, BondPoint *point, const char *place);
/** demo_permit_open: leave to measure in the fuel tanks for the rest of the day. */
void demo_permit_open (DemoWalk *walk, const char *number);
/** demo_permit_close: every clip and lead is out again. */
void demo_permit_close (DemoWalk *walk);
/** demo_walk_newest: the newest entry of @kind on @point, NULL if none. */
BondEntry *demo_walk_newest (DemoWalk *walk, BondPoint *point, BondEntryKind kind);
