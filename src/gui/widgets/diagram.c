/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * The diagram's state: survey, view, camera, points in hand.  It follows the
 * survey's signals and asks for a new picture; it changes nothing in the survey.
 */
#include "gui/widgets/diagram-private.h"

#include "gui/style.h"

#include <glib/gi18n-lib.h>

#define INSET 24

G_DEFINE_FINAL_TYPE (BondDiagram, bond_diagram, GTK_TYPE_WIDGET)

enum
{
  PROP_0,
  PROP_ZONE,
  PROP_VIEW,
  N_PROPERTIES,
};

static GParamSpec *properties[N_PROPERTIES];
static guint signals[BOND_DIAGRAM_N_SIGNALS];

void
bond_diagram_emit_point (BondDiagram *self, BondPoint *point)
{
  g_signal_emit (self, signals[BOND_DIAGRAM_POINT_ACTIVATED], 0, point);
}

void
bond_diagram_emit_place (BondDiagram *self, BondPoint *point, const char *place)
{
  g_signal_emit (self, signals[BOND_DIAGRAM_PLACE_ACTIVATED], 0, point, place);
}

void
bond_diagram_emit_zone (BondDiagram *self, const char *zone, double x, double y)
{
  g_signal_emit (self, signals[BOND_DIAGRAM_ZONE_CLICKED], 0, zone, self->view->id, bond_diagram_true_x (self, x), y);
}

void
bond_diagram_emit_moved (BondDiagram *self, BondPoint *point, double x, double y)
{
  g_signal_emit (self, signals[BOND_DIAGRAM_POINT_MOVED], 0, point, bond_diagram_true_x (self, x), y);
}

void
bond_diagram_emit_released (BondDiagram *self)
{
  g_signal_emit (self, signals[BOND_DIAGRAM_RELEASED], 0);
}

void
bond_diagram_queue_all (BondDiagram *self)
{
  gtk_widget_queue_draw (GTK_WIDGET (self));
  gtk_widget_queue_draw (self->layer);
}

void
bond_diagram_set_cursor_point (BondDiagram *self, BondPoint *point)
{
  if (!g_set_object (&self->cursor, point))
    return;
  bond_diagram_update_cursor_label (self);
  bond_diagram_speak_later (self);
  gtk_widget_queue_allocate (GTK_WIDGET (self));
}

/* Keeps what the pointer and the keyboard hold only as long as the view shows it. */
static void
refill (BondDiagram *self)
{
  bond_diagram_let_go (self);
  self->hover = NULL;
  self->hover_shape = NULL;
  bond_mark_field_fill (self->field, self->survey, self->view);
  self->stands_valid = FALSE;
  bond_diagram_speak_later (self);
  if (self->cursor != NULL && bond_mark_field_find (self->field, self->cursor) == NULL)
    bond_diagram_set_cursor_point (self, NULL);
  if (self->cursor == NULL && bond_mark_field_find (self->field, self->current) != NULL)
    bond_diagram_set_cursor_point (self, self->current);
  bond_diagram_update_label (self);
  gtk_widget_queue_allocate (GTK_WIDGET (self));
  bond_diagram_queue_all (self);
}

static const BondView *
first_main_view (const BondAirframe *airframe)
{
  guint i;

  for (i = 0; i < airframe->views->len; i++)
    if (bond_view_is_main (g_ptr_array_index (airframe->views, i)))
      return g_ptr_array_index (airframe->views, i);
  return airframe->views->len > 0 ? g_ptr_array_index (airframe->views, 0) : NULL;
}

static void
show_view (BondDiagram *self, const BondView *view)
{
  bond_diagram_set_seen (self, view);
  self->stands_valid = FALSE;
  self->fitted = TRUE;
  bond_outline_cache_drop (self->outline);
  bond_diagram_set_zone (self, NULL);
  bond_diagram_settle_camera (self);
  refill (self);
  g_object_notify_by_pspec (G_OBJECT (self), properties[PROP_VIEW]);
}

/* A survey may get its airframe, or a newer one, after the diagram got the survey. */
static void
take_airframe (BondDiagram *self)
{
  const BondAirframe *airframe = self->survey != NULL ? bond_survey_get_airframe (self->survey) : NULL;
  const BondView *view = NULL;
  g_autofree char *view_id = self->view != NULL ? g_strdup (self->view->id) : NULL;

  if (airframe == self->airframe)
    return;
  g_clear_pointer (&self->airframe, bond_airframe_unref);
  if (airframe != NULL)
    {
      self->airframe = bond_airframe_ref ((BondAirframe *)airframe);
      view = view_id != NULL ? bond_airframe_find_view (airframe, view_id) : NULL;
      view = view != NULL ? view : first_main_view (airframe);
    }
  show_view (self, view);
}

static void
items_changed_cb (GListModel *model, guint position, guint removed, guint added, gpointer data)
{
  BondDiagram *self = data;

  take_airframe (self);
  refill (self);
}

static void
header_changed_cb (BondSurvey *survey, gpointer data)
{
  take_airframe (data);
}

static void
point_changed_cb (BondSurvey *survey, BondPoint *point, gpointer data)
{
  BondDiagram *self = data;

  if (self->view == NULL)
    return;
  if (!bond_mark_field_update (self->field, survey, self->view, point))
    refill (self);
  if (point == self->cursor)
    bond_diagram_update_cursor_label (self);
  self->stands_valid = FALSE;
  bond_diagram_speak_later (self);
  bond_diagram_queue_all (self);
}

static gboolean
query_tooltip_cb (GtkWidget *widget, int x, int y, gboolean by_keyboard, GtkTooltip *tooltip, gpointer data)
{
  return bond_diagram_query_tooltip (BOND_DIAGRAM (widget), by_keyboard, tooltip);
}

static void
bond_diagram_measure (GtkWidget *widget, GtkOrientation orientation, int for_size, int *minimum, int *natural,
                      int *minimum_baseline, int *natural_baseline)
{
  *minimum = 160;
  *natural = orientation == GTK_ORIENTATION_HORIZONTAL ? 640 : 560;
}

static void
allocate_cursor (BondDiagram *self)
{
  const BondPlacedMark *mark = bond_mark_field_find (self->field, self->cursor);
  int side = (int)(bond_diagram_mark_size (self) * 1.6);
  double px = self->width / 2.0, py = self->height / 2.0;

  if (mark != NULL)
    bond_camera_to_pixel (&self->camera, mark->x, mark->y, &px, &py);
  gtk_widget_size_allocate (self->cursor_widget,
                            &(GtkAllocation){ (int)(px - side / 2.0), (int)(py - side / 2.0), side, side }, -1);
}

static void
bond_diagram_size_allocate (GtkWidget *widget, int width, int height, int baseline)
{
  BondDiagram *self = BOND_DIAGRAM (widget);

  if (width != self->width || height != self->height)
    {
      /* What was in the middle stays in the middle. */
      self->camera.x += (self->width - width) / 2.0 / self->camera.scale;
      self->camera.y += (self->height - height) / 2.0 / self->camera.scale;
      self->width = width;
      self->height = height;
      bond_diagram_settle_camera (self);
    }
  gtk_widget_size_allocate (self->layer, &(GtkAllocation){ 0, 0, width, height }, -1);
  allocate_cursor (self);
  bond_diagram_allocate_spoken (self);
}

static void
bond_diagram_snapshot (GtkWidget *widget, GtkSnapshot *snapshot)
{
  BondDiagram *self = BOND_DIAGRAM (widget);
  cairo_t *cr;

  if (self->view != NULL && self->width > 0 && self->height > 0)
    {
      cr = gtk_snapshot_append_cairo (snapshot, &GRAPHENE_RECT_INIT (0, 0, self->width, self->height));
      bond_diagram_paint_base (self, cr);
      cairo_destroy (cr);
    }
  gtk_widget_snapshot_child (widget, self->layer, snapshot);
  gtk_widget_snapshot_child (widget, self->cursor_widget, snapshot);
}

static void
bond_diagram_get_property (GObject *object, guint id, GValue *value, GParamSpec *pspec)
{
  BondDiagram *self = BOND_DIAGRAM (object);

  switch (id)
    {
    case PROP_ZONE:
      g_value_set_string (value, self->zone);
      break;
    case PROP_VIEW:
      g_value_set_string (value, self->view != NULL ? self->view->id : NULL);
      break;
    default:
      G_OBJECT_WARN_INVALID_PROPERTY_ID (object, id, pspec);
    }
}

static void
clear_walk (BondDiagram *self)
{
  while (self->n_walk > 0)
    g_clear_object (&self->walk[--self->n_walk]);
}

static void
bond_diagram_dispose (GObject *object)
{
  BondDiagram *self = BOND_DIAGRAM (object);

  g_clear_handle_id (&self->click_source, g_source_remove);
  bond_diagram_let_go (self);
  if (self->survey != NULL)
    g_signal_handlers_disconnect_by_data (self->survey, self);
  g_clear_object (&self->survey);
  bond_diagram_set_seen (self, NULL);
  g_clear_pointer (&self->airframe, bond_airframe_unref);
  bond_diagram_clear_spoken (self);
  clear_walk (self);
  g_clear_object (&self->current);
  g_clear_object (&self->cursor);
  g_clear_pointer (&self->layer, gtk_widget_unparent);
  g_clear_pointer (&self->cursor_widget, gtk_widget_unparent);
  G_OBJECT_CLASS (bond_diagram_parent_class)->dispose (object);
}

static void
bond_diagram_finalize (GObject *object)
{
  BondDiagram *self = BOND_DIAGRAM (object);

  bond_mark_field_free (self->field);
  bond_outline_cache_free (self->outline);
  bond_mark_stamps_free (self->stamps);
  bond_mark_stamps_free (self->place_stamps);
  bond_labeller_free (self->labeller);
  bond_labeller_free (self->layer_labeller);
  g_clear_pointer (&self->canvas[0], cairo_surface_destroy);
  g_clear_pointer (&self->canvas[1], cairo_surface_destroy);
  g_array_unref (self->visible);
  g_array_unref (self->stands);
  g_array_unref (self->taken);
  g_ptr_array_unref (self->spoken);
  g_free (self->current_place);
  g_free (self->zone);
  G_OBJECT_CLASS (bond_diagram_parent_class)->finalize (object);
}

static void
add_signals (BondDiagramClass *klass)
{
  GType type = G_TYPE_FROM_CLASS (klass);

  signals[BOND_DIAGRAM_POINT_ACTIVATED]
      = g_signal_new ("point-activated", type, G_SIGNAL_RUN_LAST, 0, NULL, NULL, NULL, G_TYPE_NONE, 1, BOND_TYPE_POINT);
  signals[BOND_DIAGRAM_PLACE_ACTIVATED] = g_signal_new ("place-activated", type, G_SIGNAL_RUN_LAST, 0, NULL, NULL, NULL,
                                                        G_TYPE_NONE, 2, BOND_TYPE_POINT, G_TYPE_STRING);
  signals[BOND_DIAGRAM_ZONE_CLICKED]
      = g_signal_new ("zone-clicked", type, G_SIGNAL_RUN_LAST, 0, NULL, NULL, NULL, G_TYPE_NONE, 4, G_TYPE_STRING,
                      G_TYPE_STRING, G_TYPE_DOUBLE, G_TYPE_DOUBLE);
  signals[BOND_DIAGRAM_POINT_MOVED] = g_signal_new ("point-moved", type, G_SIGNAL_RUN_LAST, 0, NULL, NULL, NULL,
                                                    G_TYPE_NONE, 3, BOND_TYPE_POINT, G_TYPE_DOUBLE, G_TYPE_DOUBLE);
  signals[BOND_DIAGRAM_RELEASED]
      = g_signal_new ("released", type, G_SIGNAL_RUN_LAST, 0, NULL, NULL, NULL, G_TYPE_NONE, 0);
}

static void
bond_diagram_class_init (BondDiagramClass *klass)
{
  GObjectClass *object_class = G_OBJECT_CLASS (klass);
  GtkWidgetClass *widget_class = GTK_WIDGET_CLASS (klass);
  GParamFlags flags = G_PARAM_READABLE | G_PARAM_STATIC_STRINGS | G_PARAM_EXPLICIT_NOTIFY;

  object_class->dispose = bond_diagram_dispose;
  object_class->finalize = bond_diagram_finalize;
  object_class->get_property = bond_diagram_get_property;
  widget_class->measure = bond_diagram_measure;
  widget_class->size_allocate = bond_diagram_size_allocate;
  widget_class->snapshot = bond_diagram_snapshot;
  properties[PROP_ZONE] = g_param_spec_string ("zone", NULL, NULL, NULL, flags);
  properties[PROP_VIEW] = g_param_spec_string ("view", NULL, NULL, NULL, flags);
  g_object_class_install_properties (object_class, N_PROPERTIES, properties);
  add_signals (klass);
  bond_diagram_add_bindings (widget_class);
  gtk_widget_class_set_css_name (widget_class, "bond-diagram");
  gtk_widget_class_set_accessible_role (widget_class, GTK_ACCESSIBLE_ROLE_GROUP);
}

static void
bond_diagram_init (BondDiagram *self)
{
  GtkWidget *widget = GTK_WIDGET (self);

  self->field = bond_mark_field_new ();
  self->outline = bond_outline_cache_new ();
  self->stamps = bond_mark_stamps_new ();
  self->place_stamps = bond_mark_stamps_new ();
  self->labeller = bond_labeller_new ();
  self->layer_labeller = bond_labeller_new ();
  self->visible = g_array_new (FALSE, FALSE, sizeof (guint));
  self->stands = g_array_new (FALSE, FALSE, sizeof (BondStand));
  self->taken = g_array_new (FALSE, TRUE, sizeof (guint));
  self->spoken = g_ptr_array_new_with_free_func ((GDestroyNotify)gtk_widget_unparent);
  self->camera.scale = 1.0;
  self->fitted = TRUE;
  self->insets = (BondInsets){ INSET + 24, INSET, INSET, INSET };

  self->layer = bond_diagram_layer_new (self);
  gtk_widget_set_parent (self->layer, widget);
  /* No box: a box hands the focus on to its children, and takes none itself. */
  self->cursor_widget = g_object_new (GTK_TYPE_DRAWING_AREA, "css-name", "bond-cursor", "focusable", TRUE, "can-target",
                                      FALSE, "accessible-role", GTK_ACCESSIBLE_ROLE_LIST_ITEM, NULL);
  gtk_widget_set_parent (self->cursor_widget, widget);
  gtk_widget_set_overflow (widget, GTK_OVERFLOW_HIDDEN);
  gtk_widget_set_hexpand (widget, TRUE);
  gtk_widget_set_vexpand (widget, TRUE);
  gtk_widget_set_has_tooltip (widget, TRUE);
  g_signal_connect (self, "query-tooltip", G_CALLBACK (query_tooltip_cb), NULL);
  bond_diagram_add_input (self);
  bond_style_watch (widget);
  bond_style_watch (self->layer);
  bond_diagram_update_label (self);
  bond_diagram_update_cursor_label (self);
}

GtkWidget *
bond_diagram_new (void)
{
  return g_object_new (BOND_TYPE_DIAGRAM, NULL);
}

void
bond_diagram_set_survey (BondDiagram *self, BondSurvey *survey)
{
  g_return_if_fail (BOND_IS_DIAGRAM (self));
  g_return_if_fail (survey == NULL || BOND_IS_SURVEY (survey));

  if (survey == self->survey)
    return;
  if (self->survey != NULL)
    g_signal_handlers_disconnect_by_data (self->survey, self);
  g_clear_object (&self->current);
  bond_diagram_set_cursor_point (self, NULL);
  clear_walk (self);
  g_set_object (&self->survey, survey);
  if (survey != NULL)
    {
      g_signal_connect (survey, "items-changed", G_CALLBACK (items_changed_cb), self);
      g_signal_connect (survey, "header-changed", G_CALLBACK (header_changed_cb), self);
      g_signal_connect (survey, "point-changed", G_CALLBACK (point_changed_cb), self);
    }
  take_airframe (self);
  refill (self);
}

void
bond_diagram_set_view (BondDiagram *self, const char *id)
{
  const BondView *view;

  g_return_if_fail (BOND_IS_DIAGRAM (self));
  g_return_if_fail (id != NULL);

  view = self->airframe != NULL ? bond_airframe_find_view (self->airframe, id) : NULL;
  if (view != NULL && (self->view == NULL || strcmp (self->view->id, id) != 0))
    show_view (self, view);
}

const char *
bond_diagram_get_view (BondDiagram *self)
{
  g_return_val_if_fail (BOND_IS_DIAGRAM (self), NULL);
  return self->view != NULL ? self->view->id : NULL;
}

void
bond_diagram_set_current (BondDiagram *self, BondPoint *point)
{
  const BondPlacedMark *mark;

  g_return_if_fail (BOND_IS_DIAGRAM (self));
  g_return_if_fail (point == NULL || BOND_IS_POINT (point));

  if (!g_set_object (&self->current, point))
    return;
  self->stands_valid = FALSE; /* it comes before all others */
  g_clear_pointer (&self->current_place, g_free);
  bond_diagram_speak_later (self);
  mark = bond_mark_field_find (self->field, point);
  bond_diagram_set_cursor_point (self, mark != NULL ? point : NULL);
  if (mark != NULL && self->width > 0
      && bond_camera_reveal (&self->camera, mark->x, mark->y, self->width, self->height, &self->insets,
                             2.0 * bond_diagram_mark_size (self)))
    bond_diagram_camera_changed (self, TRUE);
  bond_diagram_queue_all (self);
}

BondPoint *
bond_diagram_get_current (BondDiagram *self)
{
  g_return_val_if_fail (BOND_IS_DIAGRAM (self), NULL);
  return self->current;
}

const char *
bond_diagram_view_for (BondDiagram *self, BondPoint *point)
{
  const BondPlacement *home;
  double x, y;

  g_return_val_if_fail (BOND_IS_DIAGRAM (self), NULL);
  g_return_val_if_fail (BOND_IS_POINT (point), NULL);

  if (self->view != NULL && bond_diagram_shows (self->view, bond_point_get_spec (point), &x, &y))
    return self->view->id;
  home = bond_point_spec_home (bond_point_get_spec (point));
  return home != NULL ? home->view : NULL;
}

void
bond_diagram_set_walk (BondDiagram *self, BondPoint *const *points, guint n_points)
{
  guint i;

  g_return_if_fail (BOND_IS_DIAGRAM (self));
  g_return_if_fail (points != NULL || n_points == 0);

  clear_walk (self);
  for (i = 0; i < n_points && i < BOND_DIAGRAM_MAX_WALK; i++)
    self->walk[self->n_walk++] = g_object_ref (points[i]);
  bond_diagram_queue_all (self); /* labels make room for the digits */
}

void
bond_diagram_set_current_place (BondDiagram *self, const char *place)
{
  g_return_if_fail (BOND_IS_DIAGRAM (self));

  g_free (self->current_place);
  self->current_place = g_strdup (place);
  gtk_widget_queue_draw (self->layer);
}

void
bond_diagram_set_pick_radius (BondDiagram *self, double pixels)
{
  g_return_if_fail (BOND_IS_DIAGRAM (self) && pixels >= 0.0);
  self->pick_radius = pixels;
}

void
bond_diagram_set_pick_apart (BondDiagram *self, double pixels)
{
  g_return_if_fail (BOND_IS_DIAGRAM (self) && pixels >= 0.0);
  self->pick_apart = pixels;
}

void
bond_diagram_set_lower_seen_through (BondDiagram *self, gboolean seen_through)
{
  const BondView *view;

  g_return_if_fail (BOND_IS_DIAGRAM (self));

  if (self->seen_through == seen_through)
    return;
  self->seen_through = seen_through;
  view = self->view != NULL ? bond_airframe_find_view (self->airframe, self->view->id) : NULL;
  if (view != NULL)
    show_view (self, view);
}

void
bond_diagram_set_inks_dark (BondDiagram *self, gboolean dark)
{
  g_return_if_fail (BOND_IS_DIAGRAM (self));
  self->forced = dark ? 2 : 1;
  bond_diagram_queue_all (self);
}
