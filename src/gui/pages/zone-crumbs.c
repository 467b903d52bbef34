/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * The path from the whole airframe to the zone in sight.  It only asks the diagram
 * to zoom; which zone is in hand is the diagram's to say.
 */
#include "gui/pages/zone-crumbs.h"
#include "gui/dialog.h"

#define NAME_CHARS 24 /* a longer name of a zone ends in dots; the tooltip has it whole */
#define KEY "bond-zone"

struct _BondZoneCrumbs
{
  GtkWidget parent_instance;
  BondDiagram *diagram; /* borrowed: a neighbour in the same window */
  BondSurvey *survey;
  GtkWidget *box;
};

G_DEFINE_FINAL_TYPE (BondZoneCrumbs, bond_zone_crumbs, GTK_TYPE_WIDGET)

static void
clicked_cb (BondZoneCrumbs *self, GtkButton *button)
{
  g_autofree char *zone = g_strdup (g_object_get_data (G_OBJECT (button), KEY));

  bond_diagram_zoom_to_zone (self->diagram, zone);
}

/* The last one is where we are: its name in full strength; of the others the number is enough. */
static void
add_crumb (BondZoneCrumbs *self, const BondZone *zone, gboolean last)
{
  GtkWidget *button = gtk_button_new ();
  g_autofree char *full = g_strdup_printf ("%s %s", zone->number, zone->name);
  GtkWidget *label = gtk_label_new (last || zone->parent == NULL ? full : zone->number);
  GtkWidget *mark = gtk_label_new ("›");

  gtk_label_set_ellipsize (GTK_LABEL (label), PANGO_ELLIPSIZE_END);
  gtk_label_set_max_width_chars (GTK_LABEL (label), NAME_CHARS);
  gtk_label_set_width_chars (GTK_LABEL (label), (int)g_utf8_strlen (zone->number, -1) + 1);
  gtk_button_set_child (GTK_BUTTON (button), label);
  gtk_button_set_has_frame (GTK_BUTTON (button), FALSE);
  gtk_widget_set_focus_on_click (button, FALSE);
  gtk_widget_add_css_class (button, "verb");
  if (last)
    gtk_widget_add_css_class (label, "strong");
  gtk_widget_set_tooltip_text (button, full);
  bond_name_widget (button, full);
  g_object_set_data_full (G_OBJECT (button), KEY, g_strdup (zone->number), g_free);
  g_signal_connect_swapped (button, "clicked", G_CALLBACK (clicked_cb), self);
  gtk_widget_set_can_target (mark, FALSE);
  gtk_box_append (GTK_BOX (self->box), mark);
  gtk_box_append (GTK_BOX (self->box), button);
}

static void
add_path (BondZoneCrumbs *self, const BondAirframe *airframe, const char *number, gboolean last)
{
  const BondZone *zone = bond_airframe_find_zone (airframe, number);

  if (zone == NULL)
    return;
  if (zone->parent != NULL)
    add_path (self, airframe, zone->parent, FALSE);
  add_crumb (self, zone, last);
}

static void
follow (BondZoneCrumbs *self)
{
  const char *zone = bond_diagram_get_zone (self->diagram);
  const BondAirframe *airframe = bond_survey_get_airframe (self->survey);
  GtkWidget *child;

  while ((child = gtk_widget_get_first_child (self->box)) != NULL)
    gtk_box_remove (GTK_BOX (self->box), child);
  if (zone != NULL && airframe != NULL)
    add_path (self, airframe, zone, TRUE);
  gtk_widget_set_visible (GTK_WIDGET (self), gtk_widget_get_first_child (self->box) != NULL);
}

static void
bond_zone_crumbs_dispose (GObject *object)
{
  BondZoneCrumbs *self = BOND_ZONE_CRUMBS (object);

  g_clear_pointer (&self->box, gtk_widget_unparent);
  g_clear_object (&self->survey);
  G_OBJECT_CLASS (bond_zone_crumbs_parent_class)->dispose (object);
}

static void
bond_zone_crumbs_class_init (BondZoneCrumbsClass *klass)
{
  G_OBJECT_CLASS (klass)->dispose = bond_zone_crumbs_dispose;
  gtk_widget_class_set_layout_manager_type (GTK_WIDGET_CLASS (klass), GTK_TYPE_BIN_LAYOUT);
  gtk_widget_class_set_css_name (GTK_WIDGET_CLASS (klass), "bond-crumbs");
}

static void
bond_zone_crumbs_init (BondZoneCrumbs *self)
{
  self->box = gtk_box_new (GTK_ORIENTATION_HORIZONTAL, 0);
  gtk_widget_set_parent (self->box, GTK_WIDGET (self));
}

GtkWidget *
bond_zone_crumbs_new (BondDiagram *diagram, BondSurvey *survey)
{
  BondZoneCrumbs *self;

  g_return_val_if_fail (BOND_IS_DIAGRAM (diagram) && BOND_IS_SURVEY (survey), NULL);
  self = g_object_new (BOND_TYPE_ZONE_CRUMBS, NULL);
  self->diagram = diagram;
  self->survey = g_object_ref (survey);
  g_signal_connect_object (diagram, "notify::zone", G_CALLBACK (follow), self, G_CONNECT_SWAPPED);
  follow (self);
  return GTK_WIDGET (self);
}
