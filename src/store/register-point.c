/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * A bonding point as XML, both ways: a template point of an airframe and the
 * payload of a survey's `point` entry have one form.
 */
#include "store/register-parts.h"

#include "core/entry.h"

#include <glib/gi18n-lib.h>

#define MAX_SAMPLE 1000

/* Members of a conductor; written only when it is known. */
static const struct
{
  const char *name;
  gsize offset;
} conductor_parts[] = {
  { "area-um2", G_STRUCT_OFFSET (BondConductor, area_um2) },
  { "length-um", G_STRUCT_OFFSET (BondConductor, length_um) },
  { "resistivity-fohm-m", G_STRUCT_OFFSET (BondConductor, resistivity_fohm_m) },
};

static void
write_coordinate (xmlNode *node, const char *name, const BondCoordinate *coordinate)
{
  if (coordinate->known)
    bond_xml_set_double (node, name, coordinate->value);
}

static void
write_placement (xmlNode *parent, const BondPlacement *placement)
{
  xmlNode *at = bond_xml_add (parent, "at");

  bond_xml_set (at, "view", placement->view);
  bond_xml_set_double (at, "x", placement->x);
  bond_xml_set_double (at, "y", placement->y);
  bond_xml_set (at, "home", placement->home ? "yes" : NULL);
  bond_xml_set (at, "drawn-zone", placement->drawn_zone);
}

static void
write_conductor (xmlNode *parent, const BondConductor *conductor)
{
  xmlNode *node;
  guint i;

  if (conductor->area_um2 == 0)
    return;
  node = bond_xml_add (parent, "conductor");
  for (i = 0; i < G_N_ELEMENTS (conductor_parts); i++)
    bond_xml_set_int64 (node, conductor_parts[i].name, G_STRUCT_MEMBER (gint64, conductor, conductor_parts[i].offset));
}

static void
write_attributes (xmlNode *node, const BondPointSpec *spec, gboolean with_id)
{
  g_autofree char *hazards = bond_hazards_to_file (spec->hazards);

  bond_xml_set (node, "id", with_id ? spec->id : NULL);
  bond_xml_set (node, "number", spec->number);
  bond_xml_set (node, "class", bond_class_file_name (spec->klass));
  bond_xml_set (node, "zone", spec->zone);
  bond_xml_set (node, "limit", spec->limit);
  write_coordinate (node, "sta", &spec->sta);
  write_coordinate (node, "bl", &spec->bl);
  write_coordinate (node, "wl", &spec->wl);
  if (spec->condition != BOND_CONDITION_UNDISTURBED)
    bond_xml_set (node, "condition", bond_condition_file_name (spec->condition));
  if (spec->sample_every > 1)
    bond_xml_set_int64 (node, "sample-every", spec->sample_every);
  bond_xml_set (node, "widen", spec->widen ? NULL : "no");
  if (spec->arrangement != BOND_ARRANGEMENT_ROW)
    bond_xml_set (node, "arrangement", bond_arrangement_file_name (spec->arrangement));
  bond_xml_set (node, "hazards", hazards);
  bond_xml_set (node, "independent", spec->needs_independent ? "yes" : NULL);
  bond_xml_set (node, "panel", spec->panel);
  bond_xml_set (node, "template", spec->from_template && !with_id ? "yes" : NULL);
}

xmlNode *
bond_point_spec_write (xmlNode *parent, const BondPointSpec *spec, gboolean with_id)
{
  xmlNode *node;
  guint i;

  g_return_val_if_fail (parent != NULL && spec != NULL, NULL);
  node = bond_xml_add (parent, "point");
  write_attributes (node, spec, with_id);
  bond_xml_set_text (node, "from", spec->from);
  bond_xml_set_text (node, "to", spec->to);
  bond_xml_set_text (node, "why", spec->why);
  bond_xml_set_text (node, "watch", spec->watch);
  bond_xml_set_text (node, "basis", spec->basis);
  write_conductor (node, &spec->conductor);
  if (spec->own_limit != NULL)
    bond_limit_row_write (node, "own-limit", spec->own_limit);
  for (i = 0; i < spec->placements->len; i++)
    write_placement (node, g_ptr_array_index (spec->placements, i));
  return node;
}

static gboolean
read_placements (xmlNode *node, const char *file, BondPointSpec *spec, GError **error)
{
  xmlNode *at;

  for (at = bond_xml_child (node, "at"); at != NULL; at = bond_xml_next (at, "at"))
    {
      g_autofree char *view = bond_read_needed (at, "view", file, error);
      g_autofree char *drawn_zone = bond_xml_get (at, "drawn-zone");
      double x = 0, y = 0;
      gboolean has_x = FALSE, has_y = FALSE;

      if (view == NULL || !bond_read_number (at, "x", file, &x, &has_x, error)
          || !bond_read_number (at, "y", file, &y, &has_y, error))
        return FALSE;
      if (!has_x || !has_y)
        {
          bond_sense_error (error, file, at, _ ("A place in view %s needs both x and y. Give both."), view);
          return FALSE;
        }
      bond_point_spec_add_placement (spec, view, x, y, bond_xml_get_bool (at, "home", FALSE), drawn_zone);
    }
  return TRUE;
}

static gboolean
read_limit (xmlNode *node, const char *file, BondPointSpec *spec, GError **error)
{
  xmlNode *own = bond_xml_child (node, "own-limit");
  g_autofree char *unsound = NULL;

  spec->limit = bond_xml_get (node, "limit");
  unsound = spec->limit != NULL ? bond_limit_find_unsound (spec->limit) : NULL;
  if (unsound != NULL)
    {
      bond_sense_error (error, file, node,
                        _ ("“%s” is not the name of a limit row, or stands there twice. Write SET/CODE, like "
                           "example/J1, or CODE alone; several with one space between, %d at most."),
                        unsound, BOND_MAX_LIMIT_NAMES);
      return FALSE;
    }
  if (own == NULL)
    return TRUE;
  spec->own_limit = bond_limit_row_read (own, file, error);
  return spec->own_limit != NULL;
}

static gboolean
read_attributes (xmlNode *node, const char *file, BondPointSpec *spec, GError **error)
{
  return bond_read_number (node, "sta", file, &spec->sta.value, &spec->sta.known, error)
         && bond_read_number (node, "bl", file, &spec->bl.value, &spec->bl.known, error)
         && bond_read_number (node, "wl", file, &spec->wl.value, &spec->wl.known, error)
         && bond_read_word (node, "condition", file, (BondWordParser)bond_condition_parse, &spec->condition, error)
         && bond_read_word (node, "arrangement", file, (BondWordParser)bond_arrangement_parse, &spec->arrangement,
                            error)
         && bond_read_word (node, "hazards", file, (BondWordParser)bond_hazards_parse, &spec->hazards, error)
         && bond_read_whole (node, "sample-every", file, MAX_SAMPLE, &spec->sample_every, error);
}

/* What a conductor lacks is left 0, which the check of the whole point refuses. */
static void
read_conductor (xmlNode *node, BondConductor *conductor)
{
  guint i;

  for (i = 0; node != NULL && i < G_N_ELEMENTS (conductor_parts); i++)
    bond_xml_get_int64 (node, conductor_parts[i].name, &G_STRUCT_MEMBER (gint64, conductor, conductor_parts[i].offset));
}

static void
read_texts (xmlNode *node, BondPointSpec *spec)
{
  char *from = bond_xml_get_text (node, "from"), *to = bond_xml_get_text (node, "to");

  g_free (spec->from);
  g_free (spec->to);
  spec->from = from != NULL ? from : g_strdup ("");
  spec->to = to != NULL ? to : g_strdup ("");
  spec->why = bond_xml_get_text (node, "why");
  spec->watch = bond_xml_get_text (node, "watch");
  spec->basis = bond_xml_get_text (node, "basis");
  spec->panel = bond_xml_get (node, "panel");
}

/* The part of a point that makes it one: id, number, class and zone. */
static BondPointSpec *
read_identity (xmlNode *node, const char *given_id, const char *file, GError **error)
{
  g_autofree char *id = given_id != NULL ? g_strdup (given_id) : bond_read_needed (node, "id", file, error);
  g_autofree char *number = NULL, *zone = NULL, *klass_text = NULL;
  BondClass klass = BOND_CLASS_STRUCTURE;

  if (id == NULL)
    return NULL;
  number = bond_read_needed (node, "number", file, error);
  if (number == NULL)
    return NULL;
  zone = bond_read_needed (node, "zone", file, error);
  if (zone == NULL)
    return NULL;
  klass_text = bond_read_needed (node, "class", file, error);
  if (klass_text == NULL || !bond_read_word (node, "class", file, (BondWordParser)bond_class_parse, &klass, error))
    return NULL;
  return bond_point_spec_new (id, number, klass, zone);
}

BondPointSpec *
bond_point_spec_read (xmlNode *node, const char *id, const char *file, GError **error)
{
  g_autoptr (BondPointSpec) spec = NULL;
  g_autoptr (GError) unsound = NULL;

  g_return_val_if_fail (node != NULL && file != NULL, NULL);
  spec = read_identity (node, id, file, error);
  if (spec == NULL)
    return NULL;
  spec->from_template = id == NULL || bond_xml_get_bool (node, "template", FALSE);
  spec->widen = bond_xml_get_bool (node, "widen", TRUE);
  spec->needs_independent = bond_xml_get_bool (node, "independent", FALSE);
  read_conductor (bond_xml_child (node, "conductor"), &spec->conductor);
  read_texts (node, spec);
  if (!read_attributes (node, file, spec, error) || !read_limit (node, file, spec, error)
      || !read_placements (node, file, spec, error))
    return NULL;
  if (bond_point_spec_check (spec, &unsound))
    return g_steal_pointer (&spec);
  bond_sense_error (error, file, node, "%s", unsound->message);
  return NULL;
}
