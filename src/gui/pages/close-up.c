/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * A second diagram in the home view of the point in hand, zoomed to its zone.  It
 * zooms anew only when the zone changes: who looks closer is left alone within it.
 */
#include "gui/pages/close-up.h"
#include "gui/dialog.h"
#include "gui/pages/points-filter.h"
#include <glib/gi18n-lib.h>

#define TOP_PX 40 /* what the name of the zone covers */
#define SIDE_PX 12

struct _BondCloseUp
{
  GtkWidget parent_instance;
  BondWalk *walk;
  GtkWidget *overlay;
  GtkLabel *name;
  BondDiagram *diagram;
  char *zone; /* the zone that was zoomed to */
};

G_DEFINE_FINAL_TYPE (BondCloseUp, bond_close_up, GTK_TYPE_WIDGET)

static void
show_zone (BondCloseUp *self, const char *zone)
{
  g_autofree char *text
      = g_strdup_printf ("%s  %s", zone, bond_points_zone_name (bond_walk_get_survey (self->walk), zone));

  gtk_label_set_text (self->name, text);
  if (g_strcmp0 (zone, self->zone) == 0 && bond_diagram_get_zone (self->diagram) != NULL)
    return;
  g_free (self->zone);
  self->zone = g_strdup (zone);
  bond_diagram_zoom_to_zone (self->diagram, zone);
}

static void
follow (BondCloseUp *self)
{
  BondPoint *point = bond_walk_get_point (self->walk);
  g_autoptr (GPtrArray) upcoming = bond_walk_upcoming (self->walk, BOND_DIAGRAM_MAX_WALK);
  const char *view = point != NULL ? bond_diagram_view_for (self->diagram, point) : NULL;

  if (!gtk_widget_get_mapped (GTK_WIDGET (self)))
    return; /* not in sight: it follows when it comes */
  if (view != NULL && g_strcmp0 (view, bond_diagram_get_view (self->diagram)) != 0)
    {
      bond_diagram_set_view (self->diagram, view);
      g_clear_pointer (&self->zone, g_free);
    }
  bond_diagram_set_current (self->diagram, point);
  bond_diagram_set_current_place (self->diagram, bond_walk_get_place (self->walk));
  bond_diagram_set_walk (self->diagram, (BondPoint *const *)upcoming->pdata, upcoming->len);
  if (point != NULL)
    show_zone (self, bond_point_get_spec (point)->zone);
}

/* The first size it gets makes the zoom good. */
static gboolean
first_sight_cb (GtkWidget *widget, GdkFrameClock *clock, gpointer data)
{
  BondCloseUp *self = BOND_CLOSE_UP (widget);

  if (gtk_widget_get_width (GTK_WIDGET (self->diagram)) <= 1)
    return G_SOURCE_CONTINUE;
  g_clear_pointer (&self->zone, g_free);
  follow (self);
  return G_SOURCE_REMOVE;
}

static void
bond_close_up_map (GtkWidget *widget)
{
  GTK_WIDGET_CLASS (bond_close_up_parent_class)->map (widget);
  gtk_widget_add_tick_callback (widget, first_sight_cb, NULL, NULL);
}

static void
bond_close_up_dispose (GObject *object)
{
  BondCloseUp *self = BOND_CLOSE_UP (object);

  if (self->walk != NULL)
    {
      g_signal_handlers_disconnect_by_data (bond_walk_get_survey (self->walk), self);
      g_signal_handlers_disconnect_by_data (self->walk, self);
    }
  g_clear_object (&self->walk);
  g_clear_pointer (&self->overlay, gtk_widget_unparent);
  g_clear_pointer (&self->zone, g_free);
  G_OBJECT_CLASS (bond_close_up_parent_class)->dispose (object);
}

static void
bond_close_up_class_init (BondCloseUpClass *klass)
{
  GtkWidgetClass *widget_class = GTK_WIDGET_CLASS (klass);

  G_OBJECT_CLASS (klass)->dispose = bond_close_up_dispose;
  widget_class->map = bond_close_up_map;
  gtk_widget_class_set_layout_manager_type (widget_class, GTK_TYPE_BIN_LAYOUT);
  gtk_widget_class_set_css_name (widget_class, "bond-close-up");
}

static void
bond_close_up_init (BondCloseUp *self)
{
  self->overlay = gtk_overlay_new ();
  self->diagram = BOND_DIAGRAM (bond_diagram_new ());
  self->name = GTK_LABEL (gtk_label_new (NULL));
  gtk_widget_set_vexpand (GTK_WIDGET (self->diagram), TRUE);
  gtk_widget_set_hexpand (GTK_WIDGET (self->diagram), TRUE);
  gtk_label_set_ellipsize (self->name, PANGO_ELLIPSIZE_END);
  gtk_widget_set_halign (GTK_WIDGET (self->name), GTK_ALIGN_START);
  gtk_widget_set_valign (GTK_WIDGET (self->name), GTK_ALIGN_START);
  gtk_widget_set_margin_start (GTK_WIDGET (self->name), SIDE_PX);
  gtk_widget_set_margin_top (GTK_WIDGET (self->name), SIDE_PX);
  gtk_widget_add_css_class (GTK_WIDGET (self->name), "strong");
  gtk_widget_add_css_class (GTK_WIDGET (self->name), "breadcrumb");
  bond_diagram_set_side_words (self->diagram, FALSE); /* the whole airframe above says them */
  bond_diagram_set_insets (self->diagram, TOP_PX, SIDE_PX, SIDE_PX, SIDE_PX);
  gtk_overlay_set_child (GTK_OVERLAY (self->overlay), GTK_WIDGET (self->diagram));
  gtk_overlay_add_overlay (GTK_OVERLAY (self->overlay), GTK_WIDGET (self->name));
  gtk_widget_set_parent (self->overlay, GTK_WIDGET (self));
  gtk_widget_set_overflow (GTK_WIDGET (self), GTK_OVERFLOW_HIDDEN);
}

GtkWidget *
bond_close_up_new (BondWalk *walk)
{
  BondCloseUp *self;

  g_return_val_if_fail (BOND_IS_WALK (walk), NULL);
  self = g_object_new (BOND_TYPE_CLOSE_UP, NULL);
  self->walk = g_object_ref (walk);
  bond_diagram_set_survey (self->diagram, bond_walk_get_survey (walk));
  g_signal_connect_swapped (walk, "current-changed", G_CALLBACK (follow), self);
  g_signal_connect_swapped (walk, "filter-changed", G_CALLBACK (follow), self);
  g_signal_connect_swapped (walk, "recorded", G_CALLBACK (follow), self);
  g_signal_connect_swapped (bond_walk_get_survey (walk), "items-changed", G_CALLBACK (follow), self);
  return GTK_WIDGET (self);
}

BondDiagram *
bond_close_up_get_diagram (BondCloseUp *self)
{
  g_return_val_if_fail (BOND_IS_CLOSE_UP (self), NULL);
  return self->diagram;
}
