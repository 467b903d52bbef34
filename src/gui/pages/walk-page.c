/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * Puts the three panes together and lets them speak to each other: a chosen row or
 * mark moves the walk, the diagram follows it, every act gives the focus back to
 * the reading field.
 */
#include "gui/pages/walk-page.h"
#include "gui/dialog.h"
#include "gui/dialogs/place-dialog.h"
#include "gui/pages/canvas-parts.h"
#include "gui/pages/close-up.h"
#include "gui/pages/last-next.h"
#include "gui/pages/view-digits.h"
#include "gui/pages/zone-crumbs.h"
#include "gui/taste.h"
#include <glib/gi18n-lib.h>

#define OVERLAY_SIDE 12 /* pixels the diagram keeps clear left and right */

struct _BondWalkPage
{
  GtkWidget parent_instance;
  BondWalk *walk;
  BondPanes *panes;
  BondPointsPane *points;
  BondDiagram *diagram;
  BondReadingPanel *panel;
  GtkWidget *canvas, *views, *foot, *steps, *zone_button;
  BondCloseUp *close_up; /* NULL until the window is wide */
  GtkMenuButton *details_button;
  GtkLabel *zone_label;
};

static guint class_changed;

G_DEFINE_FINAL_TYPE (BondWalkPage, bond_walk_page, GTK_TYPE_WIDGET)

static const BondAirframe *
airframe_of (BondWalkPage *self)
{
  return bond_survey_get_airframe (bond_walk_get_survey (self->walk));
}

static const char *
zone_in_hand (BondWalkPage *self)
{
  BondPoint *point = bond_walk_get_point (self->walk);

  return point != NULL ? bond_point_get_spec (point)->zone : NULL;
}

/* Zoomed in, the path of zones says where; the key goes back. */
static void
show_zone_button (BondWalkPage *self)
{
  const char *zone = zone_in_hand (self);
  g_autofree char *text = NULL;

  gtk_widget_set_visible (self->zone_button, zone != NULL && bond_diagram_get_zone (self->diagram) == NULL);
  text = g_strdup_printf (_ ("Zoom to %s"), zone != NULL ? zone : "");
  gtk_label_set_text (self->zone_label, text);
  gtk_widget_set_tooltip_text (self->zone_button, text); /* the label gives way where room is short */
  bond_name_widget (self->zone_button, text);
}

/* A view that does not show the point in hand says where it is. */
static void
say_where (BondWalkPage *self)
{
  BondPoint *point = bond_walk_get_point (self->walk);
  const char *home = point != NULL ? bond_diagram_view_for (self->diagram, point) : NULL;
  const BondView *view = home != NULL ? bond_airframe_find_view (airframe_of (self), home) : NULL;
  g_autofree char *text = NULL;

  if (view == NULL || g_strcmp0 (home, bond_diagram_get_view (self->diagram)) == 0)
    return;
  text = g_strdup_printf (_ ("%s is on %s."), bond_point_get_number (point), bond_canvas_view_name (view));
  bond_reading_panel_say (self->panel, NULL, text);
}

static void
show_digits (BondWalkPage *self)
{
  g_autoptr (GPtrArray) upcoming = bond_walk_upcoming (self->walk, BOND_DIAGRAM_MAX_WALK);

  bond_view_digits_show (self->views, self->diagram, (BondPoint *const *)upcoming->pdata, upcoming->len);
  bond_view_digits_show_on_menu (self->details_button, _ ("Details"), self->diagram, airframe_of (self),
                                 (BondPoint *const *)upcoming->pdata, upcoming->len);
}

static void
show_current (BondWalkPage *self)
{
  BondPoint *point = bond_walk_get_point (self->walk);
  g_autoptr (GPtrArray) upcoming = bond_walk_upcoming (self->walk, BOND_DIAGRAM_MAX_WALK);
  const char *view = point != NULL ? bond_diagram_view_for (self->diagram, point) : NULL;

  if (view != NULL && g_strcmp0 (view, bond_diagram_get_view (self->diagram)) != 0)
    bond_diagram_set_view (self->diagram, view);
  bond_diagram_set_current (self->diagram, point);
  bond_diagram_set_current_place (self->diagram, bond_walk_get_place (self->walk));
  bond_diagram_set_walk (self->diagram, (BondPoint *const *)upcoming->pdata, upcoming->len);
  show_digits (self);
  show_zone_button (self);
}

/* After an act the walk line may lead elsewhere, and a new point comes into the hand. */
static void
recorded_cb (BondWalkPage *self, BondEntry *entry)
{
  BondPoint *point = entry->kind == BOND_ENTRY_POINT
                         ? bond_survey_find_point (bond_walk_get_survey (self->walk), entry->point)
                         : NULL;

  if (point != NULL)
    bond_walk_go (self->walk, point, NULL);
  show_current (self);
  bond_reading_panel_grab_field (self->panel);
}

static void
chosen_cb (BondWalkPage *self)
{
  if (bond_panes_get_width_class (self->panes) == BOND_WIDTH_COMPACT)
    bond_panes_show_points (self->panes, FALSE);
  bond_reading_panel_grab_field (self->panel);
}

static void
typed_cb (BondWalkPage *self, guint character)
{
  bond_reading_panel_type (self->panel, character);
}

static gboolean
diagram_key_cb (GtkEventControllerKey *controller, guint keyval, guint keycode, GdkModifierType state,
                BondWalkPage *self)
{
  gunichar character = gdk_keyval_to_unicode (keyval);

  if ((state & (GDK_CONTROL_MASK | GDK_ALT_MASK)) != 0 || character >= 128 || !g_ascii_isdigit (character))
    return GDK_EVENT_PROPAGATE;
  bond_reading_panel_type (self->panel, character);
  return GDK_EVENT_STOP;
}

static void
point_activated_cb (BondWalkPage *self, BondPoint *point)
{
  bond_walk_go (self->walk, point, NULL);
  bond_reading_panel_grab_field (self->panel);
}

static void
place_activated_cb (BondWalkPage *self, BondPoint *point, const char *place)
{
  bond_walk_go (self->walk, point, place);
  bond_reading_panel_grab_field (self->panel);
}

static GtkWindow *
window_of (BondWalkPage *self)
{
  return GTK_WINDOW (gtk_widget_get_root (GTK_WIDGET (self)));
}

static void
zone_clicked_cb (BondWalkPage *self, const char *zone, const char *view, double x, double y)
{
  if (bond_reading_panel_may_write (self->panel))
    bond_place_dialog (window_of (self), self->walk, zone, view, x, y);
}

static void
point_moved_cb (BondWalkPage *self, BondPoint *point, double x, double y)
{
  g_autofree char *problem = NULL;

  if (!bond_reading_panel_may_write (self->panel))
    return;
  if (bond_place_move (self->walk, point, bond_diagram_get_view (self->diagram), x, y, &problem))
    problem = g_strdup_printf (_ ("%s was moved on the diagram. Undo puts it back."), bond_point_get_number (point));
  bond_reading_panel_say (self->panel, "guard", problem);
}

static void
connect_diagram (BondWalkPage *self, BondDiagram *diagram)
{
  GtkEventController *keys = gtk_event_controller_key_new ();

  g_signal_connect (keys, "key-pressed", G_CALLBACK (diagram_key_cb), self);
  gtk_widget_add_controller (GTK_WIDGET (diagram), keys);
  g_signal_connect_swapped (diagram, "point-activated", G_CALLBACK (point_activated_cb), self);
  g_signal_connect_swapped (diagram, "place-activated", G_CALLBACK (place_activated_cb), self);
  g_signal_connect_swapped (diagram, "zone-clicked", G_CALLBACK (zone_clicked_cb), self);
  g_signal_connect_swapped (diagram, "released", G_CALLBACK (bond_reading_panel_grab_field), self->panel);
}

/* Tab: where it is, the diagram, its views. */
static void
order_canvas (BondWalkPage *self)
{
  GtkWidget *order[] = {
    gtk_widget_get_parent (self->zone_button),
    GTK_WIDGET (self->diagram),
    gtk_widget_get_parent (self->views),
    GTK_WIDGET (self->close_up),
    self->foot,
    self->steps,
  };

  bond_panes_set_canvas_order (self->panes, order, G_N_ELEMENTS (order));
}

/* The zone from near, made when a window is wide enough for the first time. */
static void
show_close_up (BondWalkPage *self, gboolean wide)
{
  if (wide && self->close_up == NULL)
    {
      self->close_up = BOND_CLOSE_UP (bond_close_up_new (self->walk));
      gtk_box_insert_child_after (GTK_BOX (self->canvas), GTK_WIDGET (self->close_up),
                                  gtk_widget_get_first_child (self->canvas));
      connect_diagram (self, bond_close_up_get_diagram (self->close_up));
      bond_canvas_set_big (bond_close_up_get_diagram (self->close_up),
                           bond_taste_is (bond_taste_get (), "big-targets"));
      order_canvas (self);
    }
  if (self->close_up != NULL)
    gtk_widget_set_visible (GTK_WIDGET (self->close_up), wide);
}

static void
class_changed_cb (BondWalkPage *self)
{
  BondWidthClass width = bond_panes_get_width_class (self->panes);
  BondHeightClass height = bond_panes_get_height_class (self->panes);
  gboolean compact = width == BOND_WIDTH_COMPACT;
  gboolean big = bond_taste_is (bond_taste_get (), "big-targets");

  gtk_widget_set_visible (self->foot, compact || big);
  show_close_up (self, width == BOND_WIDTH_WIDE);
  if (bond_diagram_get_zone (self->diagram) == NULL)
    bond_diagram_fit (self->diagram);
  bond_reading_panel_set_room (self->panel, height != BOND_HEIGHT_FULL,
                               !compact && !big && height != BOND_HEIGHT_LOWEST);
  g_signal_emit (self, class_changed, 0);
}

/* The widgets stay: focus, caret and typed digits with them. */
static void
taste_cb (BondWalkPage *self)
{
  BondTaste *taste = bond_taste_get ();
  gboolean big = bond_taste_is (taste, "big-targets");

  bond_diagram_set_lower_seen_through (self->diagram, bond_taste_is (taste, "lower-seen-through"));
  bond_panes_set_panel_left (self->panes, bond_taste_is (taste, "panel-left"));
  bond_panes_set_big (self->panes, big);
  bond_reading_panel_set_big (self->panel, big);
  bond_canvas_set_big (self->diagram, big);
  if (self->close_up != NULL)
    bond_canvas_set_big (bond_close_up_get_diagram (self->close_up), big);
  gtk_widget_set_visible (self->steps, big);
  class_changed_cb (self);
}

static void
follow_taste (BondWalkPage *self)
{
  static const char *const followed[]
      = { "notify::big-targets", "notify::big-target-mm", "notify::panel-left", "notify::lower-seen-through" };

  for (gsize i = 0; i < G_N_ELEMENTS (followed); i++)
    g_signal_connect_object (bond_taste_get (), followed[i], G_CALLBACK (taste_cb), self, G_CONNECT_SWAPPED);
  g_signal_connect (self, "realize", G_CALLBACK (taste_cb), NULL); /* only now is its monitor known */
}

static void
bond_walk_page_dispose (GObject *object)
{
  BondWalkPage *self = BOND_WALK_PAGE (object);

  if (self->walk != NULL)
    {
      g_signal_handlers_disconnect_by_data (bond_walk_get_survey (self->walk), self);
      g_signal_handlers_disconnect_by_data (self->walk, self);
    }
  if (self->panes != NULL)
    gtk_widget_unparent (GTK_WIDGET (self->panes));
  self->panes = NULL;
  g_clear_object (&self->walk);
  G_OBJECT_CLASS (bond_walk_page_parent_class)->dispose (object);
}

static void
bond_walk_page_class_init (BondWalkPageClass *klass)
{
  G_OBJECT_CLASS (klass)->dispose = bond_walk_page_dispose;
  gtk_widget_class_set_layout_manager_type (GTK_WIDGET_CLASS (klass), GTK_TYPE_BIN_LAYOUT);
  class_changed
      = g_signal_new ("class-changed", BOND_TYPE_WALK_PAGE, G_SIGNAL_RUN_LAST, 0, NULL, NULL, NULL, G_TYPE_NONE, 0);
}

static void
bond_walk_page_init (BondWalkPage *self)
{
}

static void
connect_parts (BondWalkPage *self)
{
  BondSurvey *survey = bond_walk_get_survey (self->walk);

  connect_diagram (self, self->diagram);
  g_signal_connect_swapped (self->diagram, "point-moved", G_CALLBACK (point_moved_cb), self);
  g_signal_connect_swapped (self->diagram, "released", G_CALLBACK (bond_reading_panel_grab_field), self->panel);
  g_signal_connect_swapped (self->diagram, "notify::zone", G_CALLBACK (show_zone_button), self);
  g_signal_connect_swapped (self->points, "chosen", G_CALLBACK (chosen_cb), self);
  g_signal_connect_swapped (self->points, "typed", G_CALLBACK (typed_cb), self);
  g_signal_connect_swapped (self->panes, "class-changed", G_CALLBACK (class_changed_cb), self);
  g_signal_connect_swapped (self->walk, "current-changed", G_CALLBACK (show_current), self);
  g_signal_connect_swapped (self->walk, "filter-changed", G_CALLBACK (show_current), self);
  g_signal_connect_swapped (self->walk, "recorded", G_CALLBACK (recorded_cb), self);
  g_signal_connect_swapped (survey, "items-changed", G_CALLBACK (show_current), self);
}

static GtkWidget *
build_canvas (BondWalkPage *self)
{
  g_autoptr (GtkBuilder) builder = NULL;

  g_type_ensure (BOND_TYPE_DIAGRAM);
  builder = gtk_builder_new_from_resource (BOND_UI "walk-page.ui");
  self->diagram = BOND_DIAGRAM (gtk_builder_get_object (builder, "diagram"));
  self->views = GTK_WIDGET (gtk_builder_get_object (builder, "views"));
  self->foot = GTK_WIDGET (gtk_builder_get_object (builder, "foot"));
  self->zone_button = GTK_WIDGET (gtk_builder_get_object (builder, "zone_button"));
  self->zone_label = GTK_LABEL (gtk_builder_get_object (builder, "zone_label"));
  self->details_button = GTK_MENU_BUTTON (gtk_builder_get_object (builder, "details_button"));
  self->canvas = GTK_WIDGET (gtk_builder_get_object (builder, "canvas"));
  bond_canvas_may_shrink (GTK_BUTTON (gtk_builder_get_object (builder, "whole_button")));
  self->steps = bond_canvas_steps_new ();
  gtk_box_append (GTK_BOX (self->canvas), self->steps);
  bond_canvas_keep_clear (GTK_OVERLAY (gtk_builder_get_object (builder, "overlay")), self->diagram, OVERLAY_SIDE);
  return g_object_ref (self->canvas);
}

GtkWidget *
bond_walk_page_new (BondWalk *walk)
{
  BondWalkPage *self;
  g_autoptr (GtkWidget) canvas = NULL;

  g_return_val_if_fail (BOND_IS_WALK (walk), NULL);
  self = g_object_new (BOND_TYPE_WALK_PAGE, NULL);
  self->walk = g_object_ref (walk);
  canvas = build_canvas (self);
  self->points = BOND_POINTS_PANE (bond_points_pane_new (walk));
  self->panel = BOND_READING_PANEL (bond_reading_panel_new (walk));
  self->panes = BOND_PANES (bond_panes_new (GTK_WIDGET (self->points), canvas, GTK_WIDGET (self->panel)));
  gtk_widget_set_parent (GTK_WIDGET (self->panes), GTK_WIDGET (self));
  gtk_box_append (GTK_BOX (self->foot), bond_last_next_new (walk, GTK_ORIENTATION_HORIZONTAL));
  bond_diagram_set_survey (self->diagram, bond_walk_get_survey (walk));
  bond_canvas_fill_views (self->views, self->details_button, airframe_of (self));
  gtk_box_insert_child_after (GTK_BOX (gtk_widget_get_parent (self->zone_button)),
                              bond_zone_crumbs_new (self->diagram, bond_walk_get_survey (walk)),
                              gtk_widget_get_first_child (gtk_widget_get_parent (self->zone_button)));
  connect_parts (self);
  order_canvas (self);
  follow_taste (self);
  show_current (self);
  return GTK_WIDGET (self);
}

BondReadingPanel *
bond_walk_page_get_panel (BondWalkPage *self)
{
  g_return_val_if_fail (BOND_IS_WALK_PAGE (self), NULL);
  return self->panel;
}

BondDiagram *
bond_walk_page_get_diagram (BondWalkPage *self)
{
  g_return_val_if_fail (BOND_IS_WALK_PAGE (self), NULL);
  return self->diagram;
}

BondPanes *
bond_walk_page_get_panes (BondWalkPage *self)
{
  g_return_val_if_fail (BOND_IS_WALK_PAGE (self), NULL);
  return self->panes;
}

void
bond_walk_page_find (BondWalkPage *self)
{
  g_return_if_fail (BOND_IS_WALK_PAGE (self));
  bond_panes_show_points (self->panes, TRUE);
  bond_points_pane_find (self->points);
}

void
bond_walk_page_step_pane (BondWalkPage *self, int by)
{
  GtkWidget *pane;

  g_return_if_fail (BOND_IS_WALK_PAGE (self));
  pane = bond_panes_step (self->panes, by);
  if (pane == GTK_WIDGET (self->panel))
    bond_reading_panel_grab_field (self->panel);
  else if (pane == GTK_WIDGET (self->points))
    bond_points_pane_grab_list (self->points);
  else
    gtk_widget_child_focus (pane == self->canvas ? GTK_WIDGET (self->diagram) : pane, GTK_DIR_TAB_FORWARD);
}

void
bond_walk_page_set_view (BondWalkPage *self, const char *view)
{
  g_return_if_fail (BOND_IS_WALK_PAGE (self));
  bond_diagram_set_view (self->diagram, view);
  show_digits (self);
  say_where (self);
}

void
bond_walk_page_toggle_zone (BondWalkPage *self)
{
  const char *zone;

  g_return_if_fail (BOND_IS_WALK_PAGE (self));
  zone = zone_in_hand (self);
  if (bond_diagram_get_zone (self->diagram) != NULL)
    bond_diagram_fit (self->diagram);
  else if (zone != NULL && !bond_diagram_zoom_to_zone (self->diagram, zone))
    bond_reading_panel_say (self->panel, NULL, _ ("This view does not show the zone of the point in hand."));
  show_zone_button (self);
}

void
bond_walk_page_place_point (BondWalkPage *self)
{
  const BondAirframe *airframe = airframe_of (self);
  const BondView *view
      = airframe != NULL ? bond_airframe_find_view (airframe, bond_diagram_get_view (self->diagram)) : NULL;
  const char *zone = zone_in_hand (self);
  double x = 0, y = 0;

  g_return_if_fail (BOND_IS_WALK_PAGE (self));
  if (view == NULL || zone == NULL || !bond_reading_panel_may_write (self->panel))
    return;
  /* The middle of the zone's first label: a place inside it that can be dragged afterwards. */
  for (guint i = 0; i < view->shapes->len; i++)
    {
      const BondZoneShape *shape = g_ptr_array_index (view->shapes, i);

      if (!bond_airframe_is_within (airframe, zone, shape->zone) || shape->labels->len == 0)
        continue;
      x = g_array_index (shape->labels, BondLabel, 0).x;
      y = g_array_index (shape->labels, BondLabel, 0).y;
      bond_place_dialog (window_of (self), self->walk, shape->zone, view->id, x, y);
      return;
    }
}

void
bond_walk_page_add_foot (BondWalkPage *self, GtkWidget *widget)
{
  g_return_if_fail (BOND_IS_WALK_PAGE (self));
  gtk_box_append (GTK_BOX (self->foot), widget);
}
