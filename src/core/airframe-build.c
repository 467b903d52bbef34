/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * Putting an airframe together, one zone, view and point at a time, each refused
 * when it contradicts what is there.  airframe.c holds what is asked of it
 * afterwards.
 */
#include "core/airframe.h"

#include <glib/gi18n-lib.h>
#include <math.h>

static gboolean G_GNUC_PRINTF (3, 4) refuse (GError **error, BondAirframeError code, const char *format, ...)
{
  g_autofree char *message = NULL;
  va_list args;

  va_start (args, format);
  message = g_strdup_vprintf (format, args);
  va_end (args);
  g_set_error_literal (error, BOND_AIRFRAME_ERROR, code, message);
  return FALSE;
}

gboolean
bond_airframe_add_zone (BondAirframe *airframe, BondZone *zone, GError **error)
{
  gboolean fine = TRUE;

  g_return_val_if_fail (airframe != NULL && zone != NULL, FALSE);
  if (bond_text_is_blank (zone->number))
    fine = refuse (error, BOND_AIRFRAME_ERROR_UNSOUND, _ ("A zone has no number. Give it one."));
  else if (zone->tint < 0 || zone->tint > 2)
    fine = refuse (error, BOND_AIRFRAME_ERROR_UNSOUND, _ ("The tint of zone %s must be 0, 1 or 2."), zone->number);
  else if (g_hash_table_contains (airframe->zone_index, zone->number))
    fine = refuse (error, BOND_AIRFRAME_ERROR_DUPLICATE, _ ("Zone %s is there twice. Keep one of the two."),
                   zone->number);
  if (!fine)
    {
      bond_zone_free (zone);
      return FALSE;
    }
  g_ptr_array_add (airframe->zones, zone);
  g_hash_table_insert (airframe->zone_index, zone->number, zone);
  return TRUE;
}

/* Climbs from @zone along @parent; a circle never ends, so it takes more steps than there are zones. */
static gboolean
runs_in_a_circle (const BondAirframe *airframe, const BondZone *zone)
{
  guint steps;

  for (steps = 0; zone != NULL && zone->parent != NULL; steps++)
    {
      if (steps > airframe->zones->len)
        return TRUE;
      zone = bond_airframe_find_zone (airframe, zone->parent);
    }
  return FALSE;
}

gboolean
bond_airframe_check_zone (const BondAirframe *airframe, const BondZone *zone, GError **error)
{
  const struct
  {
    const char *number, *what;
  } links[] = { { zone->parent, "parent" }, { zone->within, "within" }, { zone->mirror, "mirror" } };
  const BondZone *mirror;
  gsize i;

  g_return_val_if_fail (airframe != NULL && zone != NULL, FALSE);
  for (i = 0; i < G_N_ELEMENTS (links); i++)
    {
      if (links[i].number == NULL)
        continue;
      if (bond_airframe_find_zone (airframe, links[i].number) == NULL)
        return refuse (error, BOND_AIRFRAME_ERROR_MISSING,
                       _ ("Zone %s names zone %s as “%s”, which is not in this airframe. Add it or name another."),
                       zone->number, links[i].number, links[i].what);
      if (strcmp (links[i].number, zone->number) == 0)
        return refuse (error, BOND_AIRFRAME_ERROR_UNSOUND,
                       _ ("Zone %s names itself as “%s”. Name another zone or none."), zone->number, links[i].what);
    }
  if (runs_in_a_circle (airframe, zone))
    return refuse (error, BOND_AIRFRAME_ERROR_UNSOUND,
                   _ ("The parents of zone %s run in a circle. Give one of them no parent."), zone->number);
  mirror = zone->mirror != NULL ? bond_airframe_find_zone (airframe, zone->mirror) : NULL;
  if (mirror != NULL && g_strcmp0 (mirror->mirror, zone->number) != 0)
    return refuse (error, BOND_AIRFRAME_ERROR_UNSOUND,
                   _ ("Zone %s names zone %s as its mirror, but not the other way round. Make them name each other."),
                   zone->number, zone->mirror);
  return TRUE;
}

/* A view looks along the axis that it does not show. */
static gboolean
axes_are_sound (const BondView *view)
{
  const BondAxis *a = &view->axis[0], *b = &view->axis[1];
  BondAxisName along;

  if (a->of == b->of || a->vertical == b->vertical || ABS (a->sign) != 1 || ABS (b->sign) != 1)
    return FALSE;
  if (!isfinite (a->zero) || !isfinite (b->zero))
    return FALSE;
  return view->toward == NULL
         || ((view->toward[0] == '+' || view->toward[0] == '-') && bond_axis_parse (view->toward + 1, &along)
             && along != a->of && along != b->of);
}

static gboolean
is_length (double value)
{
  return isfinite (value) && value > 0;
}

static gboolean
check_shapes (const BondAirframe *airframe, const BondView *view, GError **error)
{
  g_autoptr (GHashTable) seen = g_hash_table_new (g_str_hash, g_str_equal);
  guint i;

  for (i = 0; i < view->shapes->len; i++)
    {
      const BondZoneShape *shape = g_ptr_array_index (view->shapes, i);

      if (bond_airframe_find_zone (airframe, shape->zone) == NULL)
        return refuse (
            error, BOND_AIRFRAME_ERROR_MISSING,
            _ ("View %s draws zone %s, which is not in this airframe. Add the zone or take the drawing out."), view->id,
            shape->zone);
      if (!g_hash_table_add (seen, shape->zone))
        return refuse (error, BOND_AIRFRAME_ERROR_DUPLICATE,
                       _ ("View %s draws zone %s twice. Put all its polygons under one zone element."), view->id,
                       shape->zone);
    }
  return TRUE;
}

static gboolean
check_view (const BondAirframe *airframe, const BondView *view, GError **error)
{
  if (bond_text_is_blank (view->id))
    return refuse (error, BOND_AIRFRAME_ERROR_UNSOUND, _ ("A view has no id. Give it one."));
  if (bond_airframe_find_view (airframe, view->id) != NULL)
    return refuse (error, BOND_AIRFRAME_ERROR_DUPLICATE, _ ("View %s is there twice. Give one another id."), view->id);
  if (!is_length (view->width) || !is_length (view->height))
    return refuse (error, BOND_AIRFRAME_ERROR_UNSOUND, _ ("View %s needs a width and a height above 0."), view->id);
  if (!axes_are_sound (view))
    return refuse (error, BOND_AIRFRAME_ERROR_UNSOUND,
                   _ ("The axes of view %s do not fit: it needs one across and one down, of two different "
                      "directions, with sign 1 or -1, and looks along the third. Correct its axes."),
                   view->id);
  return check_shapes (airframe, view, error);
}

gboolean
bond_airframe_add_view (BondAirframe *airframe, BondView *view, GError **error)
{
  g_return_val_if_fail (airframe != NULL && view != NULL, FALSE);
  if (!check_view (airframe, view, error))
    {
      bond_view_free (view);
      return FALSE;
    }
  g_ptr_array_add (airframe->views, view);
  return TRUE;
}

static gboolean
check_placement (const BondAirframe *airframe, const BondPointSpec *spec, const BondPlacement *at, GError **error)
{
  if (bond_airframe_find_view (airframe, at->view) == NULL)
    return refuse (error, BOND_AIRFRAME_ERROR_MISSING,
                   _ ("Point %s is placed in view %s, which is not in this airframe. Name one of its views."),
                   spec->number, at->view);
  if (at->drawn_zone != NULL && !bond_airframe_is_within (airframe, spec->zone, at->drawn_zone))
    return refuse (error, BOND_AIRFRAME_ERROR_MISSING,
                   _ ("Point %s is drawn in zone %s in view %s, but its zone %s does not belong to that. "
                      "Name a zone above it."),
                   spec->number, at->drawn_zone, at->view, spec->zone);
  if (bond_point_spec_in_view (spec, at->view) != at)
    return refuse (error, BOND_AIRFRAME_ERROR_DUPLICATE,
                   _ ("Point %s is placed twice in view %s. Keep one of the two."), spec->number, at->view);
  return TRUE;
}

static gboolean
check_point (const BondAirframe *airframe, const BondPointSpec *spec, GError **error)
{
  guint i;

  if (!bond_point_spec_check (spec, error))
    return FALSE;
  if (bond_airframe_find_zone (airframe, spec->zone) == NULL)
    return refuse (error, BOND_AIRFRAME_ERROR_MISSING,
                   _ ("Point %s is in zone %s, which is not in this airframe. Add the zone or name another."),
                   spec->number, spec->zone);
  if (g_hash_table_contains (airframe->point_index, spec->id))
    return refuse (error, BOND_AIRFRAME_ERROR_DUPLICATE,
                   _ ("The id of point %s is there twice. Give the newer point an id of its own."), spec->number);
  if (g_hash_table_contains (airframe->point_numbers, spec->number))
    return refuse (error, BOND_AIRFRAME_ERROR_DUPLICATE, _ ("Point number %s is there twice. Number one anew."),
                   spec->number);
  for (i = 0; i < spec->placements->len; i++)
    if (!check_placement (airframe, spec, g_ptr_array_index (spec->placements, i), error))
      return FALSE;
  return TRUE;
}

gboolean
bond_airframe_add_point (BondAirframe *airframe, BondPointSpec *spec, GError **error)
{
  g_return_val_if_fail (airframe != NULL && spec != NULL, FALSE);
  if (!check_point (airframe, spec, error))
    {
      bond_point_spec_unref (spec);
      return FALSE;
    }
  g_ptr_array_add (airframe->points, spec);
  g_hash_table_insert (airframe->point_index, spec->id, spec);
  g_hash_table_add (airframe->point_numbers, spec->number);
  return TRUE;
}
