/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * What the sections of Point Details are made of and filled from.
 */
#pragma once

#include "core/survey.h"
#include <gtk/gtk.h>

G_BEGIN_DECLS

/** BondDetailsAbout: what is shown. All borrowed. @place: the place in hand, of one place the point itself */
typedef struct
{
  BondSurvey *survey;
  BondPoint *point;
  const BondPlaceResult *place;
} BondDetailsAbout;

/**
 * bond_details_section: a heading with a rule under it and room for what follows.
 * @note: (out) (optional): a label at the right of the heading
 * Returns: the box below, in @column
 */
GtkBox *bond_details_section (GtkBox *column, const char *title, GtkLabel **note);
void bond_details_clear (GtkBox *box);
/** bond_details_speak: what stands in the section @box is read aloud as a whole, @title first. */
void bond_details_speak (GtkBox *box, const char *title);

/**
 * bond_details_head_fill: number, description, where, class, and the verdict with its reasons.
 * @narrow: description and where stand below the number
 */
void bond_details_head_fill (GtkBox *box, const BondDetailsAbout *about, gboolean narrow);
/** bond_details_verdict_words: what stands now and why, in sentences. (transfer full) */
char *bond_details_verdict_words (const BondDetailsAbout *about);
/** bond_details_limits_fill: every limit row that holds, as published, with tiers and source; the one that governs. */
void bond_details_limits_fill (GtkBox *box, const BondDetailsAbout *about);
/** bond_details_budget_fill: uncertainty of the value of record line by line, or why there is none. */
void bond_details_budget_fill (GtkBox *box, GtkLabel *title, const BondDetailsAbout *about);
/** bond_details_earlier_fill: what earlier surveys found here and this one did, over time. */
void bond_details_earlier_fill (GtkBox *box, const BondDetailsAbout *about);
/** bond_details_places_fill: the places of a group with their state; FALSE = it is none. */
gboolean bond_details_places_fill (GtkBox *box, const BondDetailsAbout *about);
/** bond_details_where_fill: zone and the zones above it, stations, access panel. */
void bond_details_where_fill (GtkBox *box, const BondDetailsAbout *about);

G_END_DECLS
