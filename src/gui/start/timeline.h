/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * The surveys of one aircraft as ticks on a line of time that all rows share, or
 * the years that stand above it.
 */
#pragma once

#include "library/library.h"
#include <gtk/gtk.h>

G_BEGIN_DECLS

#define BOND_TYPE_TIMELINE (bond_timeline_get_type ())
G_DECLARE_FINAL_TYPE (BondTimeline, bond_timeline, BOND, TIMELINE, GtkWidget)

/** BondTickKind: open = still to do; done = nothing asked for any more. */
typedef enum
{
  BOND_TICK_DONE,
  BOND_TICK_OPEN,
} BondTickKind;

/** BondTimeSpan: days (proleptic Gregorian, fractions of a day), @from < @to. */
typedef struct
{
  double from, to;
} BondTimeSpan;

/** bond_time_span_of: what holds all surveys of @aircraft (GPtrArray of BondAircraft) and @now, a year at least. */
BondTimeSpan bond_time_span_of (GPtrArray *aircraft, const char *now);
/** bond_time_day: day of an ISO 8601 time; -1 when there is none. */
double bond_time_day (const char *iso);

/** bond_timeline_new: ticks of @surveys (of BondSurveySummary, read now, not kept). */
GtkWidget *bond_timeline_new (GPtrArray *surveys, const BondTimeSpan *span);
/** bond_timeline_new_axis: the years of @span. */
GtkWidget *bond_timeline_new_axis (const BondTimeSpan *span);
/** bond_timeline_new_sample: one tick, for a legend. */
GtkWidget *bond_timeline_new_sample (BondTickKind kind);

G_END_DECLS
