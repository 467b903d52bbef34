/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * Hands on the diagram.  One drag gesture tells a click, a pan and a move apart by
 * what lies under the press and how far it goes; a pinch ends whatever was begun.
 * A move is shown at once and reported at its end only; Esc gives it up.
 */
#include "gui/widgets/diagram-private.h"

#include <math.h>

#define DRAG_THRESHOLD 8.0 /* pixels before a press becomes a drag */
#define PICK_RADIUS 12.0   /* pixels from a mark's middle, mouse … */
#define TOUCH_RADIUS 24.0  /* … and finger */
#define DOUBLE_CLICK_MS 250
#define WHEEL_STEP 1.2
#define KEY_STEP 1.25

static const BondPlacedMark *
mark_at (BondDiagram *self, double px, double py)
{
  double radius = MAX (self->by_touch ? TOUCH_RADIUS : PICK_RADIUS, bond_diagram_mark_size (self) * 0.6);
  double x, y;

  if (self->view == NULL)
    return NULL;
  bond_camera_to_view (&self->camera, px, py, &x, &y);
  return bond_mark_field_nearest (self->field, x, y, radius / self->camera.scale);
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
  const BondPlacedMark *mark = mark_at (self, px, py);
  BondPoint *hover = mark != NULL ? mark->point : NULL;
  const BondZoneShape *shape = mark == NULL ? shape_at (self, px, py) : NULL;

  self->pointer_x = px;
  self->pointer_y = py;
  if (hover == self->hover && shape == self->hover_shape)
    return;
  self->hover = hover;
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

void
bond_diagram_click (BondDiagram *self, double px, double py, int n_press)
{
  const BondPlacedMark *mark = mark_at (self, px, py);
  const BondZoneShape *shape = shape_at (self, px, py);

  if (mark != NULL)
    {
      bond_diagram_set_cursor_point (self, mark->point);
      bond_diagram_emit_point (self, mark->point);
    }
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
  gboolean second = self->click_source != 0 && hypot (px - self->click_x, py - self->click_y) < DRAG_THRESHOLD;

  g_clear_handle_id (&self->click_source, g_source_remove);
  self->click_x = px;
  self->click_y = py;
  if (second || mark_at (self, px, py) != NULL)
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
  const BondPlacedMark *mark = mark_at (self, px, py);

  bond_diagram_let_go (self);
  self->grip = (BondGrip){ .kind = BOND_GRIP_PRESSED, .press_x = px, .press_y = py, .camera = self->camera };
  if (mark != NULL)
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
  if (self->grip.kind == BOND_GRIP_PRESSED && hypot (dx, dy) >= DRAG_THRESHOLD)
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

/* --- keys --------------------------------------------------------------------------------------------------------- */

static gboolean
step_cb (GtkWidget *widget, GVariant *args, gpointer data)
{
  BondDiagram *self = BOND_DIAGRAM (widget);
  const BondPlacedMark *from = bond_mark_field_find (self->field, self->cursor);
  const BondPlacedMark *to;
  double x, y, dx, dy;

  if (self->view == NULL)
    return FALSE;
  g_variant_get (args, "(dd)", &dx, &dy);
  bond_camera_to_view (&self->camera, self->width / 2.0, self->height / 2.0, &x, &y);
  if (from != NULL)
    to = bond_mark_field_toward (self->field, from->point, from->x, from->y, dx, dy);
  else
    to = bond_mark_field_nearest (self->field, x, y, G_MAXDOUBLE / 4.0);
  if (to == NULL)
    return TRUE; /* the end of the row; the focus stays */
  bond_diagram_set_cursor_point (self, to->point);
  if (bond_camera_reveal (&self->camera, to->x, to->y, self->width, self->height, &self->insets,
                          bond_diagram_mark_size (self)))
    bond_diagram_camera_changed (self, TRUE);
  return TRUE;
}

static gboolean
zoom_key_cb (GtkWidget *widget, GVariant *args, gpointer data)
{
  bond_diagram_zoom (BOND_DIAGRAM (widget), g_variant_get_double (args));
  return TRUE;
}

static gboolean
fit_key_cb (GtkWidget *widget, GVariant *args, gpointer data)
{
  bond_diagram_fit (BOND_DIAGRAM (widget));
  return TRUE;
}

static gboolean
activate_key_cb (GtkWidget *widget, GVariant *args, gpointer data)
{
  BondDiagram *self = BOND_DIAGRAM (widget);

  if (self->cursor == NULL)
    return FALSE;
  bond_diagram_emit_point (self, self->cursor);
  return TRUE;
}

static gboolean
escape_key_cb (GtkWidget *widget, GVariant *args, gpointer data)
{
  BondDiagram *self = BOND_DIAGRAM (widget);

  if (self->grip.kind != BOND_GRIP_MOVE)
    return FALSE;
  bond_diagram_let_go (self);
  return TRUE;
}

/* One row a key. */
typedef struct
{
  guint keyval;
  double dx, dy;
} StepKey;

static const StepKey step_keys[] = {
  { GDK_KEY_Left, -1, 0 },    { GDK_KEY_Right, 1, 0 },    { GDK_KEY_Up, 0, -1 },    { GDK_KEY_Down, 0, 1 },
  { GDK_KEY_KP_Left, -1, 0 }, { GDK_KEY_KP_Right, 1, 0 }, { GDK_KEY_KP_Up, 0, -1 }, { GDK_KEY_KP_Down, 0, 1 },
};

static const guint zoom_in_keys[] = { GDK_KEY_plus, GDK_KEY_equal, GDK_KEY_KP_Add };
static const guint zoom_out_keys[] = { GDK_KEY_minus, GDK_KEY_KP_Subtract };
/* No digit here: all of them belong to the reading field. */
static const guint fit_keys[] = { GDK_KEY_Home, GDK_KEY_KP_Home };
static const guint activate_keys[] = { GDK_KEY_Return, GDK_KEY_KP_Enter, GDK_KEY_ISO_Enter };

void
bond_diagram_add_bindings (GtkWidgetClass *widget_class)
{
  guint i;

  for (i = 0; i < G_N_ELEMENTS (step_keys); i++)
    gtk_widget_class_add_binding (widget_class, step_keys[i].keyval, 0, step_cb, "(dd)", step_keys[i].dx,
                                  step_keys[i].dy);
  for (i = 0; i < G_N_ELEMENTS (zoom_in_keys); i++)
    gtk_widget_class_add_binding (widget_class, zoom_in_keys[i], 0, zoom_key_cb, "d", KEY_STEP);
  gtk_widget_class_add_binding (widget_class, GDK_KEY_plus, GDK_SHIFT_MASK, zoom_key_cb, "d", KEY_STEP);
  for (i = 0; i < G_N_ELEMENTS (zoom_out_keys); i++)
    gtk_widget_class_add_binding (widget_class, zoom_out_keys[i], 0, zoom_key_cb, "d", 1.0 / KEY_STEP);
  for (i = 0; i < G_N_ELEMENTS (fit_keys); i++)
    gtk_widget_class_add_binding (widget_class, fit_keys[i], 0, fit_key_cb, NULL);
  for (i = 0; i < G_N_ELEMENTS (activate_keys); i++)
    gtk_widget_class_add_binding (widget_class, activate_keys[i], 0, activate_key_cb, NULL);
  gtk_widget_class_add_binding (widget_class, GDK_KEY_Escape, 0, escape_key_cb, NULL);
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
