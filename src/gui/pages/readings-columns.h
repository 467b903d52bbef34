/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * The columns of the Readings page, one row of one table each: what a cell says on
 * the screen, what it says in a file, and how rows are put in order by it.
 */
#pragma once

#include "gui/pages/readings-row.h"

G_BEGIN_DECLS

/** BondReadingsLook: how a cell is drawn. */
typedef enum
{
  BOND_READINGS_LOOK_TEXT,
  BOND_READINGS_LOOK_STRONG,
  BOND_READINGS_LOOK_QUIET,
  BOND_READINGS_LOOK_MARK,   /* the mark, then the word */
  BOND_READINGS_LOOK_CLASS,  /* letter, sign, word */
  BOND_READINGS_LOOK_LIMIT,  /* the bound, then the tier */
  BOND_READINGS_LOOK_NUMBER, /* aligned at the decimal mark, a unit behind it that is not that of the head */
  BOND_READINGS_LOOK_RESULT, /* the same, strong and in the ink of the verdict */
  BOND_READINGS_LOOK_FOUND,  /* the same, in the ink of the first verdict */
  BOND_READINGS_LOOK_USED,   /* per cent and a line with a tick */
} BondReadingsLook;

/**
 * BondReadingsColumn:
 * @id: name in the settings; @title: header, untranslated; @file: header in files
 * @width, @best: least and wished for, in pixels of the default type; @expand: takes what is left
 * @rank: 0 = always shown, else the greater the sooner it gives way; @unusual: shown only when asked for
 * @number: a figure: never guarded against being taken for a formula
 * @text: what it says on the screen, of numbers without the unit; NULL = nothing (transfer full)
 * @cell: what it says in a file; NULL = nothing (transfer full)
 * @compare: order of two rows, neither a header
 * @blank: (nullable): it says nothing of that row, which therefore stands last
 */
typedef struct
{
  const char *id, *title, *file;
  BondReadingsLook look;
  int width, best, rank;
  gboolean expand, unusual, number;
  char *(*text) (BondReadingsRow *row);
  char *(*cell) (BondReadingsRow *row);
  int (*compare) (BondReadingsRow *a, BondReadingsRow *b);
  gboolean (*blank) (BondReadingsRow *row);
} BondReadingsColumn;

#define BOND_N_READINGS_COLUMNS 13
const BondReadingsColumn *bond_readings_columns (void);

/** bond_readings_limit: "≤ 2.5 mΩ, in service" as published, of what the value was judged against; @with_unit FALSE
 * where the unit stands in a head. (transfer full) */
char *bond_readings_limit (BondReadingsRow *row, gboolean with_unit);
/** bond_readings_bounds: what the value was, or will be, judged against; NULL = no row. */
const BondBounds *bond_readings_bounds (BondReadingsRow *row);
/** bond_readings_used: part of the limit in tenths of a per cent, −1 = none. */
gint64 bond_readings_used (BondReadingsRow *row);

/** bond_readings_spoken_verdict: the verdict, or the state, in words. (transfer full) */
char *bond_readings_spoken_verdict (BondReadingsRow *row);
/** bond_readings_spoken_result: the result with its unit in words; NULL = none. (transfer full) */
char *bond_readings_spoken_result (BondReadingsRow *row);

G_END_DECLS
