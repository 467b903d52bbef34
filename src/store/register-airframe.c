/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * An airframe as XML, both ways.  What contradicts itself is refused by core's own
 * checks; this file adds the line it stands in.
 */
#include "store/register-private.h"

#include "core/airframe.h"
#include "core/entry.h"
#include "core/number.h"

#include <glib/gi18n-lib.h>
#include <string.h>

static void
write_zone (xmlNode *parent, const BondZone *zone)
{
  g_autofree char *hazards = bond_hazards_to_file (zone->hazards);
  xmlNode *node = bond_xml_add (parent, "zone");

  bond_xml_set (node, "number", zone->number);
  bond_xml_set (node, "name", zone->name);
  bond_xml_set (node, "level", bond_zone_level_file_name (zone->level));
  bond_xml_set (node, "side", bond_side_file_name (zone->side));
  bond_xml_set (node, "parent", zone->parent);
  bond_xml_set (node, "within", zone->within);
  bond_xml_set (node, "mirror", zone->mirror);
  if (zone->tint != 0)
    bond_xml_set_int64 (node, "tint", zone->tint);
  bond_xml_set (node, "hazards", hazards);
}

static void
append_xy (GString *text, const BondXY *xy)
{
  char number[BOND_NUMBER_SIZE];

  if (text->len > 0)
    g_string_append_c (text, ' ');
  g_string_append (text, bond_number_to_text (xy->x, number));
  g_string_append_c (text, ',');
  g_string_append (text, bond_number_to_text (xy->y, number));
}

static void
write_ring (xmlNode *parent, const GArray *ring)
{
  g_autoptr (GString) text = g_string_new (NULL);
  guint i;

  for (i = 0; i < ring->len; i++)
    append_xy (text, &g_array_index (ring, BondXY, i));
  bond_xml_set (bond_xml_add (parent, "polygon"), "points", text->str);
}

static void
write_label (xmlNode *parent, const BondLabel *label)
{
  xmlNode *node = bond_xml_add (parent, "label");

  bond_xml_set_double (node, "x", label->x);
  bond_xml_set_double (node, "y", label->y);
  bond_xml_set_double (node, "size", label->size);
  if (label->rotate != 0)
    bond_xml_set_double (node, "rotate", label->rotate);
  if (label->has_leader)
    {
      bond_xml_set_double (node, "leader-x", label->leader_x);
      bond_xml_set_double (node, "leader-y", label->leader_y);
    }
}

static void
write_shape (xmlNode *parent, const BondZoneShape *shape)
{
  xmlNode *node = bond_xml_add (parent, "zone");
  guint i;

  bond_xml_set (node, "number", shape->zone);
  for (i = 0; i < shape->rings->len; i++)
    write_ring (node, g_ptr_array_index (shape->rings, i));
  for (i = 0; i < shape->labels->len; i++)
    write_label (node, &g_array_index (shape->labels, BondLabel, i));
}

static void
write_axis (xmlNode *parent, const BondAxis *axis)
{
  xmlNode *node = bond_xml_add (parent, "axis");

  bond_xml_set (node, "screen", axis->vertical ? "y" : "x");
  bond_xml_set (node, "of", bond_axis_symbol (axis->of));
  bond_xml_set_double (node, "zero", axis->zero);
  bond_xml_set_int64 (node, "sign", axis->sign);
}

static void
write_path (xmlNode *parent, const char *name, const BondPath *path)
{
  if (path != NULL)
    bond_xml_set (bond_xml_add (parent, name), "d", path->text);
}

static void
write_detail (xmlNode *parent, const BondDetailPath *detail)
{
  xmlNode *node = bond_xml_add (parent, "detail");

  bond_xml_set (node, "class", detail->klass);
  bond_xml_set (node, "layer", detail->layer);
  bond_xml_set (node, "d", detail->path->text);
}

static void
write_ruler (xmlNode *parent, const BondView *view)
{
  xmlNode *node;

  if (view->ruler_major <= 0)
    return;
  node = bond_xml_add (parent, "ruler");
  bond_xml_set_double (node, "major", view->ruler_major);
  bond_xml_set_double (node, "minor", view->ruler_minor);
}

static void
write_view (xmlNode *parent, const BondView *view)
{
  xmlNode *node = bond_xml_add (parent, "view");
  guint i;

  bond_xml_set (node, "id", view->id);
  bond_xml_set (node, "title", view->title);
  bond_xml_set_double (node, "width", view->width);
  bond_xml_set_double (node, "height", view->height);
  bond_xml_set (node, "toward", view->toward);
  write_axis (node, &view->axis[0]);
  write_axis (node, &view->axis[1]);
  write_ruler (node, view);
  write_path (node, "outline", view->outline);
  write_path (node, "boundaries", view->boundaries);
  write_path (node, "edges", view->edges);
  for (i = 0; i < view->details->len; i++)
    write_detail (node, g_ptr_array_index (view->details, i));
  for (i = 0; i < view->shapes->len; i++)
    write_shape (node, g_ptr_array_index (view->shapes, i));
}

static void
write_datum (xmlNode *parent, const BondAirframe *airframe)
{
  xmlNode *node;

  if (airframe->datum_sta == NULL && airframe->datum_bl == NULL && airframe->datum_wl == NULL)
    return;
  node = bond_xml_add (parent, "datum");
  bond_xml_set (node, "sta", airframe->datum_sta);
  bond_xml_set (node, "bl", airframe->datum_bl);
  bond_xml_set (node, "wl", airframe->datum_wl);
}

void
bond_airframe_write (xmlNode *node, gconstpointer object)
{
  const BondAirframe *airframe = object;
  xmlNode *list;
  guint i;

  bond_head_write (node, airframe->id, airframe->revision);
  bond_xml_set (node, "name", airframe->name);
  bond_xml_set (node, "units", airframe->units);
  bond_xml_set_text (node, "note", airframe->note);
  write_datum (node, airframe);
  list = bond_xml_add (node, "zones");
  for (i = 0; i < airframe->zones->len; i++)
    write_zone (list, g_ptr_array_index (airframe->zones, i));
  for (i = 0; i < airframe->views->len; i++)
    write_view (node, g_ptr_array_index (airframe->views, i));
  list = bond_xml_add (node, "points");
  for (i = 0; i < airframe->points->len; i++)
    bond_point_spec_write (list, g_ptr_array_index (airframe->points, i), TRUE);
}
