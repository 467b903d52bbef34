/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * What a form about a new point says in text, read into numbers: coordinates, how
 * many places a group has, what each is called, which of them are asked.  No
 * widgets, so that every rule can be tested by itself.
 */
#pragma once

#include "core/airframe.h"

G_BEGIN_DECLS

#define BOND_PLACES_MOST 60

/** BondPlaceLabels: what the places of a group are called. */
typedef enum
{
  BOND_PLACE_LABELS_NUMBERS, /* 1 2 3 … */
  BOND_PLACE_LABELS_LETTERS, /* a b c … z aa ab … */
} BondPlaceLabels;

/** bond_place_label: of the place @nth, counted from 0. (transfer full) */
char *bond_place_label (BondPlaceLabels labels, guint nth);
/** bond_place_read_count: NULL or blank = 1; 0 when it is not a whole number from 1 to BOND_PLACES_MOST. */
int bond_place_read_count (const char *text);
/** bond_place_read_every: NULL or blank = 1 (all); 0 when it is not a whole number from 1 to @n_places. */
int bond_place_read_every (const char *text, int n_places);
/** bond_place_is_asked: place @nth, counted from 0, is in a sample of every @every-th; the first always is. */
gboolean bond_place_is_asked (guint nth, int every);
/**
 * bond_place_read_coordinate: may be NULL (not known); a number with either decimal mark; a side is as good as a sign:
 * "L 170" is BL −170. FALSE when it is neither.
 */
gboolean bond_place_read_coordinate (const char *text, BondAxisName axis, BondCoordinate *coordinate);
/** bond_place_coordinate_text: as a form shows it, with decimal mark @mark; NULL when not known. (transfer full) */
char *bond_place_coordinate_text (BondAxisName axis, const BondCoordinate *coordinate, char mark);

G_END_DECLS
