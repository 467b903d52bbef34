/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * A bond path: joints one after the other, from equipment to frame.  Its value is the
 * exact sum of their values of record; without one of them there is no path and no
 * sum of the rest.  Pure: what a path is of is given each time, nothing is stored.
 */
#pragma once

#include "core/survey.h"

G_BEGIN_DECLS

/** BondPathJoint: one joint of a path. @place: NULL only where the point has one place. */
typedef struct
{
  BondPoint *point;
  const char *place;
} BondPathJoint;

/** BondPathFault: why joints make no path. */
typedef enum
{
  BOND_PATH_FAULT_NONE,
  BOND_PATH_FAULT_EMPTY,        /* no joint */
  BOND_PATH_FAULT_TWICE,        /* one joint stands in it twice */
  BOND_PATH_FAULT_PLACE,        /* the point has several places, or not this one */
  BOND_PATH_FAULT_NOT_MEASURED, /* a joint has no value of record */
  BOND_PATH_FAULT_SCOPE,        /* the limit is of one joint, not of a whole path */
  BOND_PATH_FAULT_SUM,          /* too many different counts of repeats to sum exactly */
} BondPathFault;

/**
 * BondPathResult:
 * @sum: the path as one measurement: @sum->mean is its value, exact; @sum->budget its uncertainty, see
 *   bond_budget_sum_rule(); outcome NONE with a fault. Readings are borrowed from the points, as long as they stand.
 * @at: the joint at fault, counted from 0
 */
typedef struct
{
  BondMeasurement *sum;
  BondPathFault fault;
  guint at;
} BondPathResult;

/**
 * bond_path_judge:
 * @row: (nullable): of scope whole path; NULL = recorded without limit
 * The stricter tier applies when any joint was opened, replaced or reworked. A joint that reads "> X" makes the path
 * "> sum"; one that reads "< X" makes it "< sum", or counts as nothing beside "> X".
 * Returns: (transfer full): free with bond_path_result_free()
 */
BondPathResult *bond_path_judge (const BondPathJoint *joints, guint n, const BondLimitRow *row, BondRule rule);
void bond_path_result_free (BondPathResult *result);
/** bond_path_fault_words: what is wrong and what to do about it, naming the joint; NULL without a fault. (transfer
 * full) */
char *bond_path_fault_words (const BondPathResult *result, const BondPathJoint *joints);

G_DEFINE_AUTOPTR_CLEANUP_FUNC (BondPathResult, bond_path_result_free)

G_END_DECLS
