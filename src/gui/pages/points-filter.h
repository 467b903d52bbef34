/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * Which points of a survey are asked for: words, verdict chip and the choices of the
 * Filter popover, all of which must be met.  Data and one question; what is shown
 * and walked by it is left to the points model.
 */
#pragma once

#include "core/survey.h"

G_BEGIN_DECLS

/** BondPointsChip: the verdict chips. */
typedef enum
{
  BOND_POINTS_ALL,
  BOND_POINTS_TO_MEASURE,
  BOND_POINTS_REMEASURE,
  BOND_POINTS_WITHIN_U,
  BOND_POINTS_FAIL,
  BOND_POINTS_OTHER, /* suspect, not accessible, in doubt: open for another reason */
} BondPointsChip;
#define BOND_N_POINTS_CHIPS 6

/** BondPointsMark: what a point may carry besides its verdict; a set. */
typedef enum
{
  BOND_POINTS_HAS_NOTE = 1 << 0,
  BOND_POINTS_NEEDS_INDEPENDENT = 1 << 1,
  BOND_POINTS_HAS_DEFECT = 1 << 2,
  BOND_POINTS_BARE_NOW = 1 << 3,
} BondPointsMark;
#define BOND_N_POINTS_MARKS 4

/**
 * BondPointsFilter: 0 or NULL of a member asks nothing. Strings owned.
 * @words: every word, in any case, in number, ends, zone, zone's name, purpose or notes
 * @klass, @state: one more than the value, 0 = any
 * @zone: number of a zone that the point lies within
 * @purpose: one word of the point's purpose
 * @instrument: id of an instrument that gave a reading of the point
 * @marks: set of BondPointsMark, all of which the point carries
 */
typedef struct
{
  BondPointsChip chip;
  char *words;
  int klass, state;
  char *zone, *purpose, *instrument;
  guint marks;
} BondPointsFilter;

void bond_points_filter_clear (BondPointsFilter *filter);
/** bond_points_filter_is_empty: every point passes. */
gboolean bond_points_filter_is_empty (const BondPointsFilter *filter);
/** bond_points_filter_n_choices: choices of the popover in force; words and chip are seen where they stand. */
guint bond_points_filter_n_choices (const BondPointsFilter *filter);
gboolean bond_points_filter_match (const BondPointsFilter *filter, BondSurvey *survey, BondPoint *point);
/** bond_points_chip_of: the chip that counts @point; BOND_POINTS_ALL = none but that of all. */
BondPointsChip bond_points_chip_of (BondPoint *point);
/** bond_points_purposes: the purpose words of the survey's points, sorted. (transfer full) */
char **bond_points_purposes (BondSurvey *survey);
/** bond_points_zone_name: name of a zone of the survey's airframe, "" when it is not known. (transfer none) */
const char *bond_points_zone_name (BondSurvey *survey, const char *number);

G_END_DECLS
