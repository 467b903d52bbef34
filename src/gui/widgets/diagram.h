/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * The airframe on the screen: one view with its zones and the survey's points as
 * marks.  It shows, points at and moves; it records nothing.  What a click or a
 * drag means for the survey is left to the window, which listens to the signals.
 *
 * Signals
 *   "point-activated" (BondPoint *point)
 *       a mark was clicked, or Enter was pressed on the point under the cursor
 *   "place-activated" (BondPoint *point, const char *place)
 *       one place of a group was clicked
 *   "zone-clicked" (const char *zone, const char *view, double x, double y)
 *       an empty place of a zone was clicked; x, y in view units.  Where the view
 *       draws only a zone of a higher level it is reported with that zone, and the
 *       window offers its children.
 *   "point-moved" (BondPoint *point, double x, double y)
 *       the mark in hand was dragged and let go at x, y (view units), inside a zone
 *       of the view.  It stands at its old place until the survey says otherwise.  A
 *       drag that begins at any other mark pans: nothing is moved that was not chosen.
 *   "released" ()
 *       a press came to its end (click, pan, move, or given up), or Esc was pressed: the focus may go back to where the
 *       hand types
 * Properties
 *   "zone" (string, read only): the zone that was zoomed to, NULL while the whole airframe or a free cut-out shows
 *   "view" (string, read only): id of the view that is shown
 */
#pragma once

#include "core/survey.h"
#include <gtk/gtk.h>

G_BEGIN_DECLS

#define BOND_DIAGRAM_MAX_WALK 4

#define BOND_TYPE_DIAGRAM (bond_diagram_get_type ())
G_DECLARE_FINAL_TYPE (BondDiagram, bond_diagram, BOND, DIAGRAM, GtkWidget)

GtkWidget *bond_diagram_new (void);

/** bond_diagram_set_survey: (nullable); keeps a reference and follows its signals.  The first main view is shown. */
void bond_diagram_set_survey (BondDiagram *diagram, BondSurvey *survey);
/** bond_diagram_set_view: by id ("plan-upper"); an id the airframe lacks leaves the view as it is.  Fits it. */
void bond_diagram_set_view (BondDiagram *diagram, const char *view);
/** bond_diagram_get_view: id, NULL before there is an airframe. */
const char *bond_diagram_get_view (BondDiagram *diagram);

/**
 * bond_diagram_set_current: the point in hand (nullable).
 *
 * Drawn with the two short ticks on each side.  Pans only if the point would else be outside; never changes the view:
 * ask bond_diagram_view_for() first.
 */
void bond_diagram_set_current (BondDiagram *diagram, BondPoint *point);
BondPoint *bond_diagram_get_current (BondDiagram *diagram);
/** bond_diagram_view_for: view in which @point is best shown: the present one if it shows it, else its home view, else
 * NULL. */
const char *bond_diagram_view_for (BondDiagram *diagram, BondPoint *point);

/** bond_diagram_set_walk: the next points after the current one, at most BOND_DIAGRAM_MAX_WALK are drawn; references
 * are kept. */
void bond_diagram_set_walk (BondDiagram *diagram, BondPoint *const *points, guint n_points);

/** bond_diagram_set_current_place: the place in hand of a group (id, nullable): it has the ticks where places show. */
void bond_diagram_set_current_place (BondDiagram *diagram, const char *place);

/**
 * bond_diagram_set_pick_radius: how far from a mark a press still takes it, pixels; 0 = by the device: 12 by mouse, 12
 * millimetres by finger.
 */
void bond_diagram_set_pick_radius (BondDiagram *diagram, double pixels);
/**
 * bond_diagram_set_pick_apart: where two marks are nearer to each other than this (pixels), a press zooms in instead of
 * guessing; 0 = by the device: 4 millimetres by finger, by mouse only marks that are drawn as one.
 */
void bond_diagram_set_pick_apart (BondDiagram *diagram, double pixels);

/**
 * bond_diagram_set_lower_seen_through: the lower view as seen through from above, left wing at left; FALSE (default) =
 * from below, nose up, left wing at right. Coordinates that go in and out are the airframe's in both.
 */
void bond_diagram_set_lower_seen_through (BondDiagram *diagram, gboolean seen_through);

/** bond_diagram_set_inks_dark: only for pictures and tests; by itself the diagram follows the theme. */
void bond_diagram_set_inks_dark (BondDiagram *diagram, gboolean dark);

/** bond_diagram_set_side_words: FALSE where a second diagram of the same view beside this one says LEFT, RIGHT and FWD.
 */
void bond_diagram_set_side_words (BondDiagram *diagram, gboolean say);

/** bond_diagram_set_insets: pixels that other things cover (breadcrumb, view buttons); fitting keeps clear of them. */
void bond_diagram_set_insets (BondDiagram *diagram, int top, int right, int bottom, int left);

void bond_diagram_fit (BondDiagram *diagram);
/** bond_diagram_zoom_to_zone: FALSE when the view draws neither @zone nor a part of it nor a zone it belongs to. */
gboolean bond_diagram_zoom_to_zone (BondDiagram *diagram, const char *zone);
/** bond_diagram_zoom: by @factor about the middle (1.25 = one step in). */
void bond_diagram_zoom (BondDiagram *diagram, double factor);
const char *bond_diagram_get_zone (BondDiagram *diagram);

/** bond_diagram_to_view: widget coordinates to view units; FALSE without a view. */
gboolean bond_diagram_to_view (BondDiagram *diagram, double widget_x, double widget_y, double *x, double *y);
/** bond_diagram_to_widget: view units to widget coordinates. */
gboolean bond_diagram_to_widget (BondDiagram *diagram, double x, double y, double *widget_x, double *widget_y);

G_END_DECLS
