/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * Hands on the diagram.  One drag gesture tells a click, a pan and a move apart by
 * what lies under the press and how far it goes; a pinch ends whatever was begun.
 * A move is shown at once and reported at its end only; Esc gives it up.
 */
#include "gui/big-targets.h"
#include "gui/widgets/diagram-private.h"

#include <math.h>

#define DRAG_THRESHOLD 8.0 /* pixels before a press becomes a drag, mouse … */
#define TOUCH_THRESHOLD 16.0
#define PICK_RADIUS 12.0 /* pixels from a mark's middle by mouse; a finger's are millimetres */
#define COME_CLOSER 2.5
#define DOUBLE_CLICK_MS 250
#define WHEEL_STEP 1.2

/* Pixels of @set, if it is; else of @mm by finger and of @mouse by mouse. */
static double
reach_of (BondDiagram *self, double set, double mm, double mouse)
{
  if (set > 0.0)
    return set;
  return self->by_touch ? bond_big_targets_of (GTK_WIDGET (self), mm, FALSE) : mouse;
}

/* The mark, or the place of a group, that a press at the pixel means. @second: how far from it the next one stands. */
static const BondStand *
stand_at (BondDiagram *self, double px, double py, double *second)
{
  double radius = reach_of (self, self->pick_radius, BOND_TOUCH_PICK_MM, PICK_RADIUS);

  if (self->view == NULL)
    return NULL;
  return bond_diagram_nearest_stand (self, px, py, MAX (radius, bond_diagram_mark_size (self) * 0.6), second);
}

static const BondPlacedMark *
mark_of (BondDiagram *self, const BondStand *stand)
{
  return stand != NULL ? bond_mark_field_get (self->field, stand->index) : NULL;
}

/* Several marks are meant at once: those drawn as one, and by finger those too near to one another. */
static gboolean
is_ambiguous (BondDiagram *self, const BondStand *stand, double second)
{
  double apart = reach_of (self, self->pick_apart, BOND_TOUCH_APART_MM, 0.0);

  return !bond_diagram_at_most (self) && (stand->n_more > 0 || second < apart);
}

static double
drag_threshold (BondDiagram *self)
{
  return self->by_touch ? TOUCH_THRESHOLD : DRAG_THRESHOLD;
}

static const BondZoneShape *
shape_at (BondDiagram *self, double px, double py)
{
  double x, y;

  if (self->view == NULL)
    return NULL;
  bond_camera_to_view (&self->camera, px, py, &x, &y);
  return bond_view_hit (self->view, x, y);
}

/* --- pointing ----------------------------------------------------------------------------------------------------- */

void
bond_diagram_point_at (BondDiagram *self, double px, double py)
{
  const BondStand *stand = stand_at (self, px, py, NULL);
  BondPoint *hover = stand != NULL ? mark_of (self, stand)->point : NULL;
  int place = stand != NULL ? stand->place : -1;
  const BondZoneShape *shape = stand == NULL ? shape_at (self, px, py) : NULL;

  self->pointer_x = px;
  self->pointer_y = py;
  if (hover == self->hover && place == self->hover_place && shape == self->hover_shape)
    return;
  self->hover = hover;
  self->hover_place = place;
  self->hover_shape = shape;
  gtk_widget_set_cursor_from_name (GTK_WIDGET (self), hover != NULL ? "pointer" : NULL);
  gtk_widget_trigger_tooltip_query (GTK_WIDGET (self));
  gtk_widget_queue_draw (self->layer);
}

static void
motion_cb (GtkEventControllerMotion *controller, double x, double y, gpointer data)
{
  BondDiagram *self = data;

  if (self->grip.kind == BOND_GRIP_NONE)
    bond_diagram_point_at (self, x, y);
}

static void
leave_cb (GtkEventControllerMotion *controller, gpointer data)
{
  BondDiagram *self = data;

  self->hover = NULL;
  self->hover_shape = NULL;
  gtk_widget_queue_draw (self->layer);
}

/* --- clicks ------------------------------------------------------------------------------------------------------- */

static void
click_zone (BondDiagram *self, double px, double py)
{
  const BondZoneShape *shape = shape_at (self, px, py);
  double x, y;

  if (shape == NULL)
    return;
  bond_camera_to_view (&self->camera, px, py, &x, &y);
  bond_diagram_emit_zone (self, shape->zone, x, y);
}

static void
click_stand (BondDiagram *self, const BondStand *stand)
{
  g_autoptr (BondPoint) point = g_object_ref (mark_of (self, stand)->point);
  const BondPlaceResult *place
      = stand->place >= 0 ? g_ptr_array_index (bond_point_get_places (point), (guint)stand->place) : NULL;

  bond_diagram_set_cursor_point (self, point);
  if (place != NULL && place->place != NULL)
    bond_diagram_emit_place (self, point, place->place);
  else
    bond_diagram_emit_point (self, point);
}

void
bond_diagram_click (BondDiagram *self, double px, double py, int n_press)
{
  double second = INFINITY;
  const BondStand *stand = stand_at (self, px, py, &second);
  const BondZoneShape *shape = shape_at (self, px, py);

  if (stand != NULL && is_ambiguous (self, stand, second))
    bond_diagram_zoom_at (self, COME_CLOSER, stand->px, stand->py);
  else if (stand != NULL)
    click_stand (self, stand);
  else if (n_press == 2 && shape != NULL)
    bond_diagram_zoom_to_zone (self, shape->zone);
  else if (n_press == 1)
    click_zone (self, px, py);
}

/* No second click followed: an empty place was meant. */
static gboolean
single_click_cb (gpointer data)
{
  BondDiagram *self = data;

  self->click_source = 0;
  bond_diagram_click (self, self->click_x, self->click_y, 1);
  return G_SOURCE_REMOVE;
}

/* A click on a mark acts at once; on an empty place it waits, for a double click zooms and must not place a point. */
static void
clicked (BondDiagram *self, double px, double py)
{
  gboolean second = self->click_source != 0 && hypot (px - self->click_x, py - self->click_y) < drag_threshold (self);

  g_clear_handle_id (&self->click_source, g_source_remove);
  self->click_x = px;
  self->click_y = py;
  if (second || stand_at (self, px, py, NULL) != NULL)
    bond_diagram_click (self, px, py, second ? 2 : 1);
  else
    self->click_source = g_timeout_add (DOUBLE_CLICK_MS, single_click_cb, self);
}

/* --- pan and move ------------------------------------------------------------------------------------------------- */

/* Moves the held mark to the pixel, or as far towards it as there is a zone under it. */
static void
move_held (BondDiagram *self, double px, double py)
{
  double x, y, good = 0.0, bad = 1.0;
  double from_x = self->grip.x, from_y = self->grip.y;
  int i;

  bond_camera_to_view (&self->camera, px, py, &x, &y);
  if (bond_view_hit (self->view, x, y) != NULL)
    good = 1.0;
  for (i = 0; good < 1.0 && i < 20; i++)
    {
      double middle = (good + bad) / 2.0;

      if (bond_view_hit (self->view, from_x + (x - from_x) * middle, from_y + (y - from_y) * middle) != NULL)
        good = middle;
      else
        bad = middle;
    }
  self->grip.x = from_x + (x - from_x) * good;
  self->grip.y = from_y + (y - from_y) * good;
  gtk_widget_queue_draw (self->layer);
}

void
bond_diagram_grip_begin (BondDiagram *self, double px, double py)
{
  const BondStand *stand = stand_at (self, px, py, NULL);
  const BondPlacedMark *mark = stand != NULL && stand->place < 0 ? mark_of (self, stand) : NULL;

  bond_diagram_let_go (self);
  self->grip = (BondGrip){ .kind = BOND_GRIP_PRESSED, .press_x = px, .press_y = py, .camera = self->camera };
  if (mark != NULL && mark->point == self->current)
    {
      self->grip.point = g_object_ref (mark->point);
      self->grip.x = mark->x;
      self->grip.y = mark->y;
    }
}

static void
start_drag (BondDiagram *self)
{
  self->grip.kind = self->grip.point != NULL ? BOND_GRIP_MOVE : BOND_GRIP_PAN;
  self->hover = NULL;
  self->hover_shape = NULL;
  gtk_widget_set_cursor_from_name (GTK_WIDGET (self), "grabbing");
  gtk_widget_queue_draw (GTK_WIDGET (self)); /* without the mark at its old place */
}

void
bond_diagram_grip_update (BondDiagram *self, double px, double py)
{
  double dx = px - self->grip.press_x;
  double dy = py - self->grip.press_y;

  if (self->view == NULL)
    return;
  if (self->grip.kind == BOND_GRIP_PRESSED && hypot (dx, dy) >= drag_threshold (self))
    start_drag (self);
  if (self->grip.kind == BOND_GRIP_MOVE)
    move_held (self, px, py);
  else if (self->grip.kind == BOND_GRIP_PAN)
    {
      self->camera = self->grip.camera;
      self->camera.x -= dx / self->camera.scale;
      self->camera.y -= dy / self->camera.scale;
      bond_diagram_camera_changed (self, TRUE);
    }
}

void
bond_diagram_let_go (BondDiagram *self)
{
  gboolean moved = self->grip.kind == BOND_GRIP_MOVE;

  g_clear_object (&self->grip.point);
  self->grip.kind = BOND_GRIP_NONE;
  if (!moved)
    return;
  gtk_widget_set_cursor_from_name (GTK_WIDGET (self), NULL);
  gtk_widget_queue_draw (GTK_WIDGET (self));
  gtk_widget_queue_draw (self->layer);
}

gboolean
bond_diagram_grip_end (BondDiagram *self)
{
  BondGripKind kind = self->grip.kind;
  g_autoptr (BondPoint) point = self->grip.point != NULL ? g_object_ref (self->grip.point) : NULL;
  double x = self->grip.x, y = self->grip.y;

  bond_diagram_let_go (self);
  gtk_widget_set_cursor_from_name (GTK_WIDGET (self), NULL);
  if (kind == BOND_GRIP_MOVE)
    bond_diagram_emit_moved (self, point, x, y);
  return kind != BOND_GRIP_PRESSED;
}

static void
drag_begin_cb (GtkGestureDrag *gesture, double x, double y, gpointer data)
{
  BondDiagram *self = data;
  GdkDevice *device = gtk_event_controller_get_current_event_device (GTK_EVENT_CONTROLLER (gesture));

  self->by_touch = device != NULL && gdk_device_get_source (device) == GDK_SOURCE_TOUCHSCREEN;
  gtk_widget_grab_focus (self->cursor_widget);
  bond_diagram_grip_begin (self, x, y);
}

static void
drag_update_cb (GtkGestureDrag *gesture, double dx, double dy, gpointer data)
{
  BondDiagram *self = data;

  if (self->grip.kind == BOND_GRIP_NONE)
    return;
  bond_diagram_grip_update (self, self->grip.press_x + dx, self->grip.press_y + dy);
  if (self->grip.kind >= BOND_GRIP_PAN)
    gtk_gesture_set_state (GTK_GESTURE (gesture), GTK_EVENT_SEQUENCE_CLAIMED);
}

static void
drag_end_cb (GtkGestureDrag *gesture, double dx, double dy, gpointer data)
{
  BondDiagram *self = data;
  double px = self->grip.press_x, py = self->grip.press_y;

  if (self->grip.kind == BOND_GRIP_NONE)
    {
      bond_diagram_emit_released (self); /* a pinch or Esc ended it */
      return;
    }
  if (!bond_diagram_grip_end (self))
    clicked (self, px, py);
  bond_diagram_emit_released (self);
}

static void
drag_cancel_cb (GtkGesture *gesture, GdkEventSequence *sequence, gpointer data)
{
  bond_diagram_let_go (data);
  bond_diagram_emit_released (data);
}

/* --- zoom --------------------------------------------------------------------------------------------------------- */

static gboolean
scroll_cb (GtkEventControllerScroll *controller, double dx, double dy, gpointer data)
{
  BondDiagram *self = data;

  bond_diagram_zoom_at (self, pow (WHEEL_STEP, -dy), self->pointer_x, self->pointer_y);
  return GDK_EVENT_STOP;
}

static void
pinch_begin_cb (GtkGesture *gesture, GdkEventSequence *sequence, gpointer data)
{
  BondDiagram *self = data;

  bond_diagram_let_go (self); /* the first finger's drag is no drag any more */
  self->pinch = self->camera.scale;
  gtk_gesture_set_state (gesture, GTK_EVENT_SEQUENCE_CLAIMED);
}

static void
pinch_cb (GtkGestureZoom *gesture, double scale, gpointer data)
{
  BondDiagram *self = data;
  double px, py;

  if (gtk_gesture_get_bounding_box_center (GTK_GESTURE (gesture), &px, &py))
    bond_diagram_zoom_at (self, self->pinch * scale / self->camera.scale, px, py);
}

void
bond_diagram_add_input (BondDiagram *self)
{
  GtkWidget *widget = GTK_WIDGET (self);
  GtkEventController *motion = gtk_event_controller_motion_new ();
  GtkEventController *scroll = gtk_event_controller_scroll_new (GTK_EVENT_CONTROLLER_SCROLL_VERTICAL);
  GtkGesture *pinch = gtk_gesture_zoom_new ();

  self->drag = gtk_gesture_drag_new ();
  gtk_gesture_single_set_button (GTK_GESTURE_SINGLE (self->drag), GDK_BUTTON_PRIMARY);
  g_signal_connect (self->drag, "drag-begin", G_CALLBACK (drag_begin_cb), self);
  g_signal_connect (self->drag, "drag-update", G_CALLBACK (drag_update_cb), self);
  g_signal_connect (self->drag, "drag-end", G_CALLBACK (drag_end_cb), self);
  g_signal_connect (self->drag, "cancel", G_CALLBACK (drag_cancel_cb), self);
  gtk_widget_add_controller (widget, GTK_EVENT_CONTROLLER (self->drag));
  g_signal_connect (pinch, "begin", G_CALLBACK (pinch_begin_cb), self);
  g_signal_connect (pinch, "scale-changed", G_CALLBACK (pinch_cb), self);
  gtk_widget_add_controller (widget, GTK_EVENT_CONTROLLER (pinch));
  gtk_gesture_group (self->drag, pinch);
  g_signal_connect (motion, "motion", G_CALLBACK (motion_cb), self);
  g_signal_connect (motion, "leave", G_CALLBACK (leave_cb), self);
  gtk_widget_add_controller (widget, motion);
  g_signal_connect (scroll, "scroll", G_CALLBACK (scroll_cb), self);
  gtk_widget_add_controller (widget, scroll);
}
