/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * What the files of the diagram share: diagram.c holds the state and follows the
 * survey, diagram-view.c says which part is shown, diagram-draw.c and
 * diagram-layer.c draw it, diagram-input.c turns hands into acts.
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
 * @point: mark under the press, NULL = empty place
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

typedef enum
{
  BOND_DIAGRAM_POINT_ACTIVATED,
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
  const BondView *view;
  BondMarkField *field;

  BondCamera camera;
  BondInsets insets;
  gboolean fitted;   /* the whole view shows, and shall after a resize too */
  char *zone;        /* zone zoomed to, kept in sight on resize; NULL */
  int width, height; /* as last allocated */

  BondPoint *current; /* the point in hand */
  BondPoint *cursor;  /* under the keyboard's cursor; NULL = none yet */
  BondPoint *walk[BOND_DIAGRAM_MAX_WALK];
  guint n_walk;
  BondPoint *hover;
  const BondZoneShape *hover_shape;

  BondGrip grip;
  gboolean by_touch; /* the last press was a finger: picks from farther */
  double pointer_x, pointer_y;
  double pinch; /* scale at the start of a pinch */
  GtkGesture *drag;
  guint click_source; /* a click on an empty place that waits whether a second follows */
  double click_x, click_y;

  int forced; /* 0 follows the theme, 1 light, 2 dark */
  BondOutlineCache *outline;
  BondMarkStamps *stamps;
  BondLabeller *labeller;
  BondLabeller *layer_labeller;
  GArray *visible;            /* of guint, kept between frames */
  cairo_surface_t *canvas[2]; /* pixels of the large picture, in turn; only where there are many marks */
  guint canvas_turn;
  GByteArray *taken;

  GtkWidget *layer;         /* what changes with the pointer: a small picture over the large one */
  GtkWidget *cursor_widget; /* the one focusable thing: stands on the point under the cursor */
};

/* diagram.c */
void bond_diagram_emit_point (BondDiagram *self, BondPoint *point);
void bond_diagram_emit_zone (BondDiagram *self, const char *zone, double x, double y);
void bond_diagram_emit_moved (BondDiagram *self, BondPoint *point, double x, double y);
void bond_diagram_emit_released (BondDiagram *self);
void bond_diagram_set_cursor_point (BondDiagram *self, BondPoint *point);
/** bond_diagram_describe: "541-J04, flap track 2, structure, to measure". (transfer full) */
char *bond_diagram_describe (BondDiagram *self, BondPoint *point);

/** bond_diagram_update_label: what the whole is called aloud. */
void bond_diagram_update_label (BondDiagram *self);
void bond_diagram_queue_all (BondDiagram *self);

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
/** bond_diagram_mark_size: width of the plate in pixels at the present zoom. */
double bond_diagram_mark_size (BondDiagram *self);

/* diagram-draw.c */
const BondInks *bond_diagram_inks (BondDiagram *self);
void bond_diagram_draw_base (BondDiagram *self, cairo_t *cr);
/** bond_diagram_paint_base: the same for a frame, by way of an image where recording all marks would cost more. */
void bond_diagram_paint_base (BondDiagram *self, cairo_t *cr);
/** bond_diagram_draw_shape: a zone, filled with @fill and outlined with @line parts of the text ink. */
void bond_diagram_draw_shape (BondDiagram *self, cairo_t *cr, const BondZoneShape *shape, double fill, double line);

/* diagram-layer.c */
GtkWidget *bond_diagram_layer_new (BondDiagram *self);
/** bond_diagram_value_text: "1.83 mΩ" of the value that decides, NULL when there is none. (transfer full) */
char *bond_diagram_value_text (BondDiagram *self, BondPoint *point);

/* diagram-input.c */
void bond_diagram_add_input (BondDiagram *self);
void bond_diagram_add_bindings (GtkWidgetClass *widget_class);
void bond_diagram_let_go (BondDiagram *self);
/** bond_diagram_click: what a click at a pixel does, at once; @n_press 2 = second of a double click. */
void bond_diagram_click (BondDiagram *self, double px, double py, int n_press);
/** bond_diagram_grip_*: press, drag and release as the gesture calls them. */
void bond_diagram_grip_begin (BondDiagram *self, double px, double py);
void bond_diagram_grip_update (BondDiagram *self, double px, double py);
/** Returns: TRUE when it was a pan or a move, FALSE when it is a click. */
gboolean bond_diagram_grip_end (BondDiagram *self);
void bond_diagram_point_at (BondDiagram *self, double px, double py);

G_END_DECLS
