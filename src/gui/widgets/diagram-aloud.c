/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * The diagram in words: its own name, the mark under the keyboard's cursor, what a
 * pointer rests on, and one child without a picture for each mark of the zone in
 * hand.  GTK offers no other way to make drawn things known to a screen reader, and
 * a child for every mark of a survey would cost more than the drawing.
 */
#include "gui/widgets/diagram-private.h"

#include <glib/gi18n-lib.h>

#define SPOKEN_MOST 200

static const struct
{
  const char *id, *name;
} view_names[] = {
  { "plan-upper", N_ ("Upper view") }, { "plan-lower", N_ ("Lower view") }, { "side-left", N_ ("Left view") },
  { "side-right", N_ ("Right view") }, { "front", N_ ("Front view") },
};

static const char *
name_of_view (const BondView *view)
{
  guint i;

  for (i = 0; i < G_N_ELEMENTS (view_names); i++)
    if (strcmp (view_names[i].id, view->id) == 0)
      return _ (view_names[i].name);
  return view->title;
}

char *
bond_diagram_describe (BondDiagram *self, BondPoint *point)
{
  const BondPointSpec *spec = bond_point_get_spec (point);
  BondMark mark = bond_mark_for (bond_point_get_worst (point), bond_survey_get_rule (self->survey));
  guint n_places = bond_point_get_places (point)->len;
  g_autofree char *places = NULL;

  if (n_places > 1)
    places = g_strdup_printf (ngettext (", %u place", ", %u places", n_places), n_places);
  return g_strdup_printf ("%s, %s, %s%s, %s", bond_point_get_number (point), spec->from, bond_class_name (spec->klass),
                          places != NULL ? places : "", bond_mark_name (mark));
}

static char *
describe_place (BondDiagram *self, BondPoint *point, int place)
{
  const BondPlaceResult *result = g_ptr_array_index (bond_point_get_places (point), (guint)place);
  BondMark mark = bond_mark_for (result, bond_survey_get_rule (self->survey));

  return g_strdup_printf ("%s, %s, %s", bond_point_get_number (point), result->label, bond_mark_name (mark));
}

void
bond_diagram_update_label (BondDiagram *self)
{
  const BondZone *zone = self->zone != NULL ? bond_airframe_find_zone (self->airframe, self->zone) : NULL;
  guint n_points = bond_mark_field_get_length (self->field);
  g_autofree char *count = NULL;
  g_autofree char *label = NULL;

  if (self->view == NULL)
    label = g_strdup (_ ("Airframe, nothing to show"));
  else
    {
      count = g_strdup_printf (ngettext ("%u point", "%u points", n_points), n_points);
      if (zone != NULL)
        label = g_strdup_printf (_ ("%s, %s, zoomed to %s"), name_of_view (self->view), count, zone->name);
      else
        label = g_strdup_printf ("%s, %s", name_of_view (self->view), count);
    }
  gtk_accessible_update_property (GTK_ACCESSIBLE (self), GTK_ACCESSIBLE_PROPERTY_LABEL, label, -1);
}

void
bond_diagram_update_cursor_label (BondDiagram *self)
{
  g_autofree char *label = NULL;

  if (self->cursor != NULL)
    label = bond_diagram_describe (self, self->cursor);
  else
    label = g_strdup (_ ("No point; the arrow keys go to one"));
  gtk_accessible_update_property (GTK_ACCESSIBLE (self->cursor_widget), GTK_ACCESSIBLE_PROPERTY_LABEL, label, -1);
}

/* --- what the pointer rests on ------------------------------------------------------------------------------------ */

static char *
tooltip_of_point (BondDiagram *self, BondPoint *point, int place)
{
  const BondStand *stand = bond_diagram_find_stand (self, point, -1);
  g_autofree char *what = place >= 0 ? describe_place (self, point, place) : bond_diagram_describe (self, point);
  g_autofree char *value = place >= 0 ? NULL : bond_diagram_value_text (self, point);
  guint n_more = stand != NULL && place < 0 ? stand->n_more : 0;
  g_autofree char *more = NULL;

  if (n_more > 0)
    more = g_strdup_printf (
        ngettext ("\n%u more point here: click to come closer", "\n%u more points here: click to come closer", n_more),
        n_more);
  return g_strdup_printf ("%s%s%s%s", what, value != NULL ? ", " : "", value != NULL ? value : "",
                          more != NULL ? more : "");
}

/* A view that draws only the larger zone cannot show its points one by one. */
static char *
tooltip_of_zone (BondDiagram *self, const BondZoneShape *shape)
{
  const BondZone *zone = bond_airframe_find_zone (self->airframe, shape->zone);
  guint count = bond_mark_field_count (self->field, shape->zone);

  if (zone == NULL || count == 0)
    return NULL;
  return g_strdup_printf (
      ngettext ("%s %s: %u point, drawn in another view", "%s %s: %u points, drawn in other views", count),
      zone->number, zone->name, count);
}

gboolean
bond_diagram_query_tooltip (BondDiagram *self, gboolean by_keyboard, GtkTooltip *tooltip)
{
  BondPoint *point = by_keyboard ? self->cursor : self->hover;
  g_autofree char *text = NULL;

  if (self->grip.kind >= BOND_GRIP_PAN || self->view == NULL)
    return FALSE;
  if (point != NULL)
    text = tooltip_of_point (self, point, by_keyboard ? -1 : self->hover_place);
  else if (!by_keyboard && self->hover_shape != NULL)
    text = tooltip_of_zone (self, self->hover_shape);
  if (text == NULL)
    return FALSE;
  gtk_tooltip_set_text (tooltip, text);
  return TRUE;
}

/* --- children for screen readers ---------------------------------------------------------------------------------- */

void
bond_diagram_clear_spoken (BondDiagram *self)
{
  g_clear_handle_id (&self->speak_source, g_source_remove);
  g_ptr_array_set_size (self->spoken, 0);
}

static const char *
spoken_zone (BondDiagram *self)
{
  if (self->zone != NULL)
    return self->zone;
  return self->current != NULL ? bond_point_get_spec (self->current)->zone : NULL;
}

static GtkWidget *
new_spoken (BondDiagram *self, const BondPlacedMark *mark)
{
  GtkWidget *child = g_object_new (GTK_TYPE_BOX, "css-name", "bond-mark", "can-target", FALSE, "accessible-role",
                                   GTK_ACCESSIBLE_ROLE_LIST_ITEM, NULL);
  g_autofree char *label = bond_diagram_describe (self, mark->point);

  gtk_accessible_update_property (GTK_ACCESSIBLE (child), GTK_ACCESSIBLE_PROPERTY_LABEL, label, -1);
  g_object_set_data (G_OBJECT (child), "bond-point", mark->point);
  gtk_widget_set_parent (child, GTK_WIDGET (self));
  return child;
}

/* The mark under the cursor has a widget of its own already. */
static gboolean
is_spoken (BondDiagram *self, const BondPlacedMark *mark, const char *zone)
{
  return mark->point != self->cursor
         && bond_airframe_is_within (self->airframe, bond_point_get_spec (mark->point)->zone, zone);
}

static gboolean
speak_cb (gpointer data)
{
  BondDiagram *self = data;
  const char *zone;
  guint i;

  self->speak_source = 0;
  bond_diagram_clear_spoken (self);
  zone = spoken_zone (self);
  if (self->view == NULL || zone == NULL)
    return G_SOURCE_REMOVE;
  for (i = 0; i < bond_mark_field_get_length (self->field) && self->spoken->len < SPOKEN_MOST; i++)
    {
      const BondPlacedMark *mark = bond_mark_field_get (self->field, i);

      if (is_spoken (self, mark, zone))
        g_ptr_array_add (self->spoken, new_spoken (self, mark));
    }
  return G_SOURCE_REMOVE;
}

void
bond_diagram_speak_later (BondDiagram *self)
{
  if (self->speak_source == 0)
    self->speak_source = g_idle_add_full (G_PRIORITY_LOW, speak_cb, self, NULL);
}

void
bond_diagram_allocate_spoken (BondDiagram *self)
{
  int side = (int)bond_diagram_mark_size (self);
  guint i;

  for (i = 0; i < self->spoken->len; i++)
    {
      GtkWidget *child = g_ptr_array_index (self->spoken, i);
      const BondPlacedMark *mark
          = bond_mark_field_find (self->field, g_object_get_data (G_OBJECT (child), "bond-point"));
      double px = 0.0, py = 0.0;

      if (mark != NULL)
        bond_camera_to_pixel (&self->camera, mark->x, mark->y, &px, &py);
      gtk_widget_size_allocate (child, &(GtkAllocation){ (int)px - side / 2, (int)py - side / 2, side, side }, -1);
    }
}
