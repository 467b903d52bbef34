/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * One line of a point's history in words, for the list, for reading aloud and for
 * copying, so that the three say the same.
 */
#pragma once

#include "core/story.h"
#include "report/marks.h"

G_BEGIN_DECLS

/**
 * BondDetailsLine: strings owned.
 * @title: "1.38 mΩ" or "Rework"; @word: "Pass, as left, counts" or what struck it out; @note: the rest, "" when none
 * @when: time as recorded, with its offset where the lines of the story differ in it
 * @mark: −1 = none
 * @css: (nullable): style class of @word
 */
typedef struct
{
  char *title, *word, *note, *when;
  int mark;
  gboolean struck;
  const char *css;
} BondDetailsLine;

/**
 * bond_details_lines: @story in words.
 * Returns: (transfer full): GPtrArray of BondDetailsLine, one for each line of @story, but for places of a group that
 *   were entered in one go: they make one
 */
GPtrArray *bond_details_lines (BondSurvey *survey, BondPoint *point, GPtrArray *story);
/** bond_details_line_spoken: everything in one sentence, struck lines beginning so. (transfer full) */
char *bond_details_line_spoken (const BondDetailsLine *line);
/** bond_details_offset: "UTC+1" when every line of @story has the same, else NULL. (transfer full) */
char *bond_details_offset (GPtrArray *story);

G_END_DECLS
