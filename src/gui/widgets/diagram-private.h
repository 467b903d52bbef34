/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * What the files of the diagram share: diagram.c holds the state and follows the
 * survey, diagram-view.c says which part is shown, diagram-layout.c where each mark
 * stands on the screen, diagram-draw.c, -zones.c, -places.c, -sides.c, -walk.c,
 * -current.c and -layer.c draw it, diagram-input.c and -keys.c turn hands into acts, and
 * diagram-aloud.c says it in words.
 */
#pragma once

#include "gui/widgets/diagram-cache.h"
#include "gui/widgets/diagram-labels.h"
#include "gui/widgets/diagram.h"
#include "gui/widgets/mark-field.h"

G_BEGIN_DECLS

typedef enum
{
  BOND_GRIP_NONE,
  BOND_GRIP_PRESSED, /* the button is down, nothing moved far enough yet */
  BOND_GRIP_PAN,
  BOND_GRIP_MOVE, /* a mark is being moved */
} BondGripKind;

/**
 * BondGrip: what the pointer holds.
 * @point: the point in hand when its mark is under the press, else NULL: only that one can be moved
 * @x, @y: where the moved mark stands now, view units, always inside a zone
 * @press_x, @press_y: pixels; @camera: as it was at the press
 */
typedef struct
{
  BondGripKind kind;
  BondPoint *point;
  double x, y;
  double press_x, press_y;
  BondCamera camera;
} BondGrip;

/**
 * BondStand: one mark as it stands on the screen. Marks that would cover one another are one stand, or are fanned out.
 * @index: in the field; @place: of a group the place it is for (index), −1 = the point
 * @px, @py: where it is drawn; @true_px, @true_py: where the point is (pixels)
 * @n_more: marks that stand beneath this one
 */
typedef struct
{
  guint index;
  int place;
  double px, py, true_px, true_py;
  BondMark mark;
  guint n_more;
} BondStand;

/** BondFit: the scale at which a whole view shows, and what it was worked out for. */
typedef struct
{
  const BondView *view;
  int width, height;
  BondInsets insets;
  double scale;
} BondFit;

typedef enum
{
  BOND_DIAGRAM_POINT_ACTIVATED,
  BOND_DIAGRAM_PLACE_ACTIVATED,
  BOND_DIAGRAM_ZONE_CLICKED,
  BOND_DIAGRAM_POINT_MOVED,
  BOND_DIAGRAM_RELEASED,
  BOND_DIAGRAM_N_SIGNALS,
} BondDiagramSignal;

struct _BondDiagram
{
  GtkWidget parent;

  BondSurvey *survey;
  BondAirframe *airframe;
  const BondView *view; /* of the airframe, or @mirrored */
  BondView *mirrored;   /* the lower view seen through from above, NULL = not asked or another view */
  gboolean seen_through;
  BondMarkField *field;

  BondCamera camera;
  BondInsets insets;
  BondFit fit;
  gboolean fitted;      /* the whole view shows, and shall after a resize too */
  char *zone;           /* zone zoomed to; NULL */
  gboolean zone_fitted; /* nobody panned or zoomed since: kept in sight on resize */
  int width, height;    /* as last allocated */

  BondPoint *current;  /* the point in hand */
  char *current_place; /* its place in hand; NULL */
  BondPoint *cursor;   /* under the keyboard's cursor; NULL = none yet */
  BondPoint *walk[BOND_DIAGRAM_MAX_WALK];
  guint n_walk;
  BondPoint *hover;
  int hover_place; /* place of @hover under the pointer, −1 = the point */
  const BondZoneShape *hover_shape;

  BondGrip grip;
  gboolean by_touch; /* the last press was a finger: picks from farther */
  gboolean no_side_words;
  double pick_radius, pick_apart; /* pixels, 0 = by the device */
  double pointer_x, pointer_y;
  double pinch; /* scale at the start of a pinch */
  GtkGesture *drag;
  guint click_source; /* a click on an empty place that waits whether a second follows */
  double click_x, click_y;

  int forced; /* 0 follows the theme, 1 light, 2 dark */
  BondOutlineCache *outline;
  BondMarkStamps *stamps, *place_stamps;
  BondLabeller *labeller;
  BondLabeller *layer_labeller;
  GArray *visible; /* of guint, kept between frames */
  GArray *stands;  /* of BondStand, the worst first */
  gboolean stands_valid;
  BondCamera stands_camera; /* what @stands were laid out for */
  int stands_width, stands_height;
  cairo_surface_t *canvas[2]; /* pixels of the large picture, in turn; only where there are many marks */
  guint canvas_turn;
  GArray *taken; /* of guint: grid of the stands, kept between frames */

  GtkWidget *layer;         /* what changes with the pointer: a small picture over the large one */
  GtkWidget *cursor_widget; /* the one focusable thing: stands on the point under the cursor */
  GPtrArray *spoken;        /* of GtkWidget: one for each mark of the zone in hand, for screen readers alone */
  guint speak_source;
};

/* diagram.c */
void bond_diagram_emit_point (BondDiagram *self, BondPoint *point);
void bond_diagram_emit_place (BondDiagram *self, BondPoint *point, const char *place);
void bond_diagram_emit_zone (BondDiagram *self, const char *zone, double x, double y);
void bond_diagram_emit_moved (BondDiagram *self, BondPoint *point, double x, double y);
void bond_diagram_emit_released (BondDiagram *self);
void bond_diagram_set_cursor_point (BondDiagram *self, BondPoint *point);
void bond_diagram_queue_all (BondDiagram *self);

/* diagram-aloud.c */
/** bond_diagram_describe: "541-J04, flap track 2, structure, to measure". (transfer full) */
char *bond_diagram_describe (BondDiagram *self, BondPoint *point);
/** bond_diagram_update_label: what the whole is called aloud. */
void bond_diagram_update_label (BondDiagram *self);
void bond_diagram_update_cursor_label (BondDiagram *self);
/** bond_diagram_speak_later: the children for screen readers are made anew when nothing else is to be done. */
void bond_diagram_speak_later (BondDiagram *self);
void bond_diagram_allocate_spoken (BondDiagram *self);
void bond_diagram_clear_spoken (BondDiagram *self);
gboolean bond_diagram_query_tooltip (BondDiagram *self, gboolean by_keyboard, GtkTooltip *tooltip);

/* diagram-mirror.c */
/** bond_view_new_mirrored: @view with left and right exchanged about the middle of its width. (transfer full) */
BondView *bond_view_new_mirrored (const BondView *view);

/* diagram-layout.c */
/** bond_diagram_lay_out: brings @stands up to date. */
void bond_diagram_lay_out (BondDiagram *self);
/** bond_diagram_find_stand: of a point, or of one place of it (−1 = the point); NULL when it is out of sight or beneath
 * another. */
const BondStand *bond_diagram_find_stand (BondDiagram *self, BondPoint *point, int place);
/** bond_diagram_nearest_stand: within @radius pixels; @second (nullable): how far from it the next other one stands. */
const BondStand *bond_diagram_nearest_stand (BondDiagram *self, double px, double py, double radius, double *second);

/* diagram-places.c */
/** bond_places_size: width in pixels of the plate of one place, where the mark of the group is @size wide. */
double bond_places_size (double size);
/**
 * bond_places_arrange: where the places of a group stand round its mark.
 * @offset: (out): @n offsets in pixels from the middle of the mark
 * Returns: pixels from the middle of the mark down to where its label may stand
 */
double bond_places_arrange (BondArrangement arrangement, guint n, double size, BondXY *offset);
/** bond_diagram_has_places: the places of @point are drawn one by one at the present zoom. */
gboolean bond_diagram_has_places (BondDiagram *self, BondPoint *point);
/** bond_diagram_label_drop: pixels from the middle of a point's mark to the top of its label. */
double bond_diagram_label_drop (BondDiagram *self, BondPoint *point);
int bond_diagram_find_place (BondPoint *point, const char *place);
void bond_diagram_draw_group (BondDiagram *self, cairo_t *cr, const BondStand *stand);

/* diagram-view.c */
/** bond_diagram_camera_changed: keeps the camera in bounds and draws anew; @free: the user moved it, so it fits no
 * more. */
void bond_diagram_camera_changed (BondDiagram *self, gboolean free);
/** bond_diagram_settle_camera: puts the camera where it belongs after a change of size, view or zone. */
void bond_diagram_settle_camera (BondDiagram *self);
void bond_diagram_set_zone (BondDiagram *self, const char *zone);
/** bond_diagram_zoom_at: the place under the pixel stays where it is. */
void bond_diagram_zoom_at (BondDiagram *self, double factor, double px, double py);
void bond_diagram_view_box (BondDiagram *self, BondBox *box);
/** bond_diagram_shape_of: what the view draws of @zone: itself, or the zone it belongs to; NULL. */
const BondZoneShape *bond_diagram_shape_of (BondDiagram *self, const char *zone);
/** bond_diagram_fit_scale: scale at which the whole view shows. */
double bond_diagram_fit_scale (BondDiagram *self);
/** bond_diagram_closeness: how many times larger than the whole view it is shown. */
double bond_diagram_closeness (BondDiagram *self);
/** bond_diagram_mark_size: width of the plate in pixels at the present zoom. */
double bond_diagram_mark_size (BondDiagram *self);
/** bond_diagram_in_zone: @point belongs to the zone that was zoomed to. */
gboolean bond_diagram_in_zone (BondDiagram *self, BondPoint *point);
/** bond_diagram_at_most: it cannot be zoomed in further to any use. */
gboolean bond_diagram_at_most (BondDiagram *self);
/** bond_diagram_set_seen: takes the view of the airframe or its mirror image. */
void bond_diagram_set_seen (BondDiagram *self, const BondView *view);
/** bond_diagram_true_x: from the drawn to the airframe's own view units, and back. */
double bond_diagram_true_x (BondDiagram *self, double x);

/* diagram-draw.c */
const BondInks *bond_diagram_inks (BondDiagram *self);
void bond_diagram_draw_base (BondDiagram *self, cairo_t *cr);
/** bond_diagram_paint_base: the same for a frame, by way of an image where recording all marks would cost more. */
void bond_diagram_paint_base (BondDiagram *self, cairo_t *cr);
/** bond_diagram_has_labels: few enough marks are in sight for words at them. */
gboolean bond_diagram_has_labels (BondDiagram *self);
/** bond_diagram_count_box: where the count of marks beneath @stand is written; FALSE when there are none. */
gboolean bond_diagram_count_box (BondDiagram *self, BondLabeller *labeller, const BondStand *stand, BondBox *box);

/* diagram-current.c */
void bond_diagram_draw_current (BondDiagram *self, cairo_t *cr);
/** bond_diagram_current_label: where the number of the point in hand stands; FALSE when it is out of sight. */
gboolean bond_diagram_current_label (BondDiagram *self, BondLabeller *labeller, BondBox *box);

/* diagram-zones.c */
/** bond_diagram_draw_shape: a zone, filled with @fill and outlined with @line parts of the text ink. */
void bond_diagram_draw_shape (BondDiagram *self, cairo_t *cr, const BondZoneShape *shape, double fill, double line);
/** bond_diagram_lit_shape: the zone the work is in: that of the point in hand, else the one zoomed to; NULL. */
const BondZoneShape *bond_diagram_lit_shape (BondDiagram *self);
void bond_diagram_draw_airframe (BondDiagram *self, cairo_t *cr);
/** bond_diagram_draw_numbers: zone numbers, where marks, labels and other numbers leave room. */
void bond_diagram_draw_numbers (BondDiagram *self, cairo_t *cr);

/* diagram-sides.c */
/** bond_diagram_draw_sides: FWD, LEFT and RIGHT, at every zoom; @cr NULL: only keeps their places free of labels. */
void bond_diagram_draw_sides (BondDiagram *self, cairo_t *cr);

/* diagram-walk.c */
void bond_diagram_draw_walk (BondDiagram *self, cairo_t *cr);
/** bond_diagram_digit_box: where the digit of the @number-th next point stands; FALSE when it is not in sight. */
gboolean bond_diagram_digit_box (BondDiagram *self, BondLabeller *labeller, guint number, BondBox *box);

/* diagram-layer.c */
GtkWidget *bond_diagram_layer_new (BondDiagram *self);
/** bond_diagram_value_text: "1.83 mΩ" of the value that decides, NULL when there is none. (transfer full) */
char *bond_diagram_value_text (BondDiagram *self, BondPoint *point);

/* diagram-input.c */
void bond_diagram_add_input (BondDiagram *self);
void bond_diagram_let_go (BondDiagram *self);
/** bond_diagram_click: what a click at a pixel does, at once; @n_press 2 = second of a double click. */
void bond_diagram_click (BondDiagram *self, double px, double py, int n_press);
/** bond_diagram_grip_*: press, drag and release as the gesture calls them. */
void bond_diagram_grip_begin (BondDiagram *self, double px, double py);
void bond_diagram_grip_update (BondDiagram *self, double px, double py);
/** Returns: TRUE when it was a pan or a move, FALSE when it is a click. */
gboolean bond_diagram_grip_end (BondDiagram *self);
void bond_diagram_point_at (BondDiagram *self, double px, double py);

/* diagram-keys.c */
void bond_diagram_add_bindings (GtkWidgetClass *widget_class);

G_END_DECLS
