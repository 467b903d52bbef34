/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * Reading an airframe out of XML: register-airframe.c backwards, with a line for
 * everything that does not fit together.
 */
#include "store/register-private.h"

#include "core/airframe.h"
#include "core/entry.h"

#include <glib/gi18n-lib.h>
#include <string.h>

/* A number that must be there. */
static gboolean
read_needed_number (xmlNode *node, const char *name, const char *file, double *value, GError **error)
{
  gboolean known = FALSE;

  if (!bond_read_number (node, name, file, value, &known, error))
    return FALSE;
  if (!known)
    bond_sense_error (error, file, node, _ ("<%s> has no %s. Give it one."), (const char *)node->name, name);
  return known;
}

static gboolean
read_zone (BondAirframe *airframe, xmlNode *node, const char *file, GError **error)
{
  g_autofree char *number = bond_read_needed (node, "number", file, error), *name = bond_xml_get (node, "name");
  GError *cause = NULL;
  BondZone *zone;

  if (number == NULL)
    return FALSE;
  zone = bond_zone_new (number, name != NULL ? name : "", BOND_ZONE_ZONE, BOND_SIDE_CENTRE);
  zone->parent = bond_xml_get (node, "parent");
  zone->within = bond_xml_get (node, "within");
  zone->mirror = bond_xml_get (node, "mirror");
  if (!bond_read_word (node, "level", file, (BondWordParser)bond_zone_level_parse, &zone->level, error)
      || !bond_read_word (node, "side", file, (BondWordParser)bond_side_parse, &zone->side, error)
      || !bond_read_word (node, "hazards", file, (BondWordParser)bond_hazards_parse, &zone->hazards, error)
      || !bond_read_whole (node, "tint", file, 2, &zone->tint, error))
    {
      bond_zone_free (zone);
      return FALSE;
    }
  return bond_airframe_add_zone (airframe, zone, &cause) || bond_sense_take (error, file, node, cause);
}

static gboolean
read_zones (BondAirframe *airframe, xmlNode *list, const char *file, GError **error)
{
  xmlNode *node;
  guint i = 0;

  for (node = bond_xml_child (list, "zone"); node != NULL; node = bond_xml_next (node, "zone"))
    if (!read_zone (airframe, node, file, error))
      return FALSE;
  /* Once more, now that every zone a zone may name is known. */
  for (node = bond_xml_child (list, "zone"); node != NULL; node = bond_xml_next (node, "zone"))
    {
      GError *cause = NULL;

      if (!bond_airframe_check_zone (airframe, g_ptr_array_index (airframe->zones, i++), &cause))
        return bond_sense_take (error, file, node, cause);
    }
  return TRUE;
}

static gboolean
read_path (xmlNode *view, const char *name, const char *file, BondPath **path, GError **error)
{
  xmlNode *node = bond_xml_child (view, name);
  g_autofree char *d = node != NULL ? bond_xml_get (node, "d") : NULL;
  GError *cause = NULL;

  if (d == NULL)
    return TRUE;
  *path = bond_path_parse (d, &cause);
  return *path != NULL || bond_sense_take (error, file, node, cause);
}

static gboolean
read_details (BondView *view, xmlNode *parent, const char *file, GError **error)
{
  xmlNode *node;

  for (node = bond_xml_child (parent, "detail"); node != NULL; node = bond_xml_next (node, "detail"))
    {
      g_autofree char *d = bond_read_needed (node, "d", file, error), *klass = NULL, *layer = NULL;
      GError *cause = NULL;
      BondPath *path;
      BondDetailPath *detail;

      if (d == NULL || (klass = bond_read_needed (node, "class", file, error)) == NULL
          || (layer = bond_read_needed (node, "layer", file, error)) == NULL)
        return FALSE;
      path = bond_path_parse (d, &cause);
      if (path == NULL)
        return bond_sense_take (error, file, node, cause);
      detail = g_new0 (BondDetailPath, 1);
      detail->klass = g_steal_pointer (&klass);
      detail->layer = g_steal_pointer (&layer);
      detail->path = path;
      g_ptr_array_add (view->details, detail);
    }
  return TRUE;
}

static gboolean
read_label (BondZoneShape *shape, xmlNode *node, const char *file, GError **error)
{
  BondLabel label = { 0 };
  gboolean has_rotate = FALSE, has_x = FALSE, has_y = FALSE;

  if (!read_needed_number (node, "x", file, &label.x, error) || !read_needed_number (node, "y", file, &label.y, error)
      || !read_needed_number (node, "size", file, &label.size, error)
      || !bond_read_number (node, "rotate", file, &label.rotate, &has_rotate, error)
      || !bond_read_number (node, "leader-x", file, &label.leader_x, &has_x, error)
      || !bond_read_number (node, "leader-y", file, &label.leader_y, &has_y, error))
    return FALSE;
  if (has_x != has_y || label.size <= 0)
    {
      bond_sense_error (error, file, node,
                        _ ("A label needs a size above 0, and both ends of its leader or none. Correct the label."));
      return FALSE;
    }
  label.has_leader = has_x;
  g_array_append_val (shape->labels, label);
  return TRUE;
}

static gboolean
read_shape (BondView *view, xmlNode *node, const char *file, GError **error)
{
  g_autofree char *number = bond_read_needed (node, "number", file, error);
  BondZoneShape *shape;
  xmlNode *child;

  if (number == NULL)
    return FALSE;
  shape = bond_view_add_shape (view, number);
  for (child = bond_xml_child (node, "polygon"); child != NULL; child = bond_xml_next (child, "polygon"))
    {
      g_autofree char *points = bond_read_needed (child, "points", file, error);
      GError *cause = NULL;

      if (points == NULL)
        return FALSE;
      if (!bond_zone_shape_add_ring (shape, points, &cause))
        return bond_sense_take (error, file, child, cause);
    }
  for (child = bond_xml_child (node, "label"); child != NULL; child = bond_xml_next (child, "label"))
    if (!read_label (shape, child, file, error))
      return FALSE;
  return TRUE;
}

static gboolean
read_axis (BondAxis *axis, xmlNode *node, const char *file, GError **error)
{
  g_autofree char *screen = bond_read_needed (node, "screen", file, error);
  g_autofree char *sign = NULL;

  if (screen == NULL || !read_needed_number (node, "zero", file, &axis->zero, error)
      || !bond_read_word (node, "of", file, (BondWordParser)bond_axis_parse, &axis->of, error))
    return FALSE;
  sign = bond_xml_get (node, "sign");
  axis->vertical = strcmp (screen, "y") == 0;
  /* Anything else becomes 0, which no view is accepted with. */
  axis->sign = g_strcmp0 (sign, "1") == 0 ? 1 : g_strcmp0 (sign, "-1") == 0 ? -1 : 0;
  return TRUE;
}

static gboolean
read_axes (BondView *view, xmlNode *parent, const char *file, GError **error)
{
  xmlNode *first = bond_xml_child (parent, "axis"), *second = bond_xml_next (first, "axis");

  if (second != NULL && bond_xml_next (second, "axis") == NULL)
    return read_axis (&view->axis[0], first, file, error) && read_axis (&view->axis[1], second, file, error);
  bond_sense_error (error, file, parent, _ ("View %s needs two axes, one across and one down. Give it both."),
                    view->id);
  return FALSE;
}

static gboolean
read_ruler (BondView *view, xmlNode *parent, const char *file, GError **error)
{
  xmlNode *node = bond_xml_child (parent, "ruler");

  if (node == NULL)
    return TRUE;
  if (!read_needed_number (node, "major", file, &view->ruler_major, error)
      || !read_needed_number (node, "minor", file, &view->ruler_minor, error))
    return FALSE;
  if (view->ruler_minor > 0 && view->ruler_major >= view->ruler_minor)
    return TRUE;
  bond_sense_error (error, file, node,
                    _ ("The steps of a ruler are above 0 and major is not below minor. "
                       "Correct the ruler."));
  return FALSE;
}

static gboolean
read_paths (BondView *view, xmlNode *node, const char *file, GError **error)
{
  if (!read_path (node, "outline", file, &view->outline, error)
      || !read_path (node, "boundaries", file, &view->boundaries, error)
      || !read_path (node, "edges", file, &view->edges, error))
    return FALSE;
  if (view->outline == NULL)
    bond_sense_error (error, file, node, _ ("View %s has no outline. Draw one."), view->id);
  return view->outline != NULL;
}

static gboolean
read_view_parts (BondView *view, xmlNode *node, const char *file, GError **error)
{
  xmlNode *child;

  view->toward = bond_xml_get (node, "toward");
  if (!read_needed_number (node, "width", file, &view->width, error)
      || !read_needed_number (node, "height", file, &view->height, error) || !read_axes (view, node, file, error)
      || !read_ruler (view, node, file, error) || !read_paths (view, node, file, error)
      || !read_details (view, node, file, error))
    return FALSE;
  for (child = bond_xml_child (node, "zone"); child != NULL; child = bond_xml_next (child, "zone"))
    if (!read_shape (view, child, file, error))
      return FALSE;
  return TRUE;
}

static gboolean
read_view (BondAirframe *airframe, xmlNode *node, const char *file, GError **error)
{
  g_autofree char *id = bond_read_needed (node, "id", file, error), *title = bond_xml_get (node, "title");
  GError *cause = NULL;
  BondView *view;

  if (id == NULL)
    return FALSE;
  view = bond_view_new (id, title != NULL ? title : id, 0, 0);
  if (!read_view_parts (view, node, file, error))
    {
      bond_view_free (view);
      return FALSE;
    }
  return bond_airframe_add_view (airframe, view, &cause) || bond_sense_take (error, file, node, cause);
}

static gboolean
read_points (BondAirframe *airframe, xmlNode *list, const char *file, GError **error)
{
  xmlNode *node;

  for (node = bond_xml_child (list, "point"); node != NULL; node = bond_xml_next (node, "point"))
    {
      BondPointSpec *spec = bond_point_spec_read (node, NULL, file, error);
      GError *cause = NULL;

      if (spec == NULL)
        return FALSE;
      if (!bond_airframe_add_point (airframe, spec, &cause))
        return bond_sense_take (error, file, node, cause);
    }
  return TRUE;
}

static void
read_texts (BondAirframe *airframe, xmlNode *node)
{
  xmlNode *datum = bond_xml_child (node, "datum");
  char *units = bond_xml_get (node, "units");

  if (units != NULL)
    {
      g_free (airframe->units);
      airframe->units = units;
    }
  airframe->note = bond_xml_get_text (node, "note");
  if (datum == NULL)
    return;
  airframe->datum_sta = bond_xml_get (datum, "sta");
  airframe->datum_bl = bond_xml_get (datum, "bl");
  airframe->datum_wl = bond_xml_get (datum, "wl");
}

gpointer
bond_airframe_read (xmlNode *node, const char *file, GError **error)
{
  g_autoptr (BondAirframe) airframe = NULL;
  g_autofree char *id = NULL, *name = NULL;
  xmlNode *view;
  int revision = 0;

  if (!bond_head_read (node, file, &id, &revision, error))
    return NULL;
  name = bond_xml_get (node, "name");
  airframe = bond_airframe_new (id, revision, name != NULL ? name : id);
  read_texts (airframe, node);
  if (!read_zones (airframe, bond_xml_child (node, "zones"), file, error))
    return NULL;
  for (view = bond_xml_child (node, "view"); view != NULL; view = bond_xml_next (view, "view"))
    if (!read_view (airframe, view, file, error))
      return NULL;
  if (!read_points (airframe, bond_xml_child (node, "points"), file, error))
    return NULL;
  return g_steal_pointer (&airframe);
}
