/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * A mark that was dragged: the point at its new place, as an entry.  A point keeps
 * its zone, for its number says it.
 */
#include "gui/dialogs/place-dialog.h"
#include <glib/gi18n-lib.h>
#include <math.h>

/* A tenth of a view unit is finer than any hand; more digits would only look exact. */
static double
tenth (double value)
{
  return round (value * 10) / 10;
}

/* Placements of other views show where the point was; only the coordinates that this view gives are changed. */
static void
move_spec (BondPointSpec *spec, const BondView *view, const char *drawn_zone, double x, double y)
{
  BondCoordinate sta = { FALSE, 0 }, bl = { FALSE, 0 }, wl = { FALSE, 0 };

  for (guint i = spec->placements->len; i-- > 0;)
    if (g_strcmp0 (((BondPlacement *)g_ptr_array_index (spec->placements, i))->view, view->id) == 0)
      g_ptr_array_remove_index (spec->placements, i);
  for (guint i = 0; i < spec->placements->len; i++)
    ((BondPlacement *)g_ptr_array_index (spec->placements, i))->home = FALSE;
  bond_point_spec_add_placement (spec, view->id, x, y, TRUE, drawn_zone);
  bond_view_coordinates (view, x, y, &sta, &bl, &wl);
  if (sta.known)
    spec->sta = sta;
  if (bl.known)
    spec->bl = bl;
  if (wl.known)
    spec->wl = wl;
}

gboolean
bond_place_move (BondWalk *walk, BondPoint *point, const char *view_id, double x, double y, char **problem)
{
  const BondAirframe *airframe = bond_survey_get_airframe (bond_walk_get_survey (walk));
  const BondView *view = airframe != NULL ? bond_airframe_find_view (airframe, view_id) : NULL;
  const BondZoneShape *shape = view != NULL ? bond_view_hit (view, x, y) : NULL;
  const BondPointSpec *old = bond_point_get_spec (point);
  g_autoptr (BondPointSpec) spec = NULL;
  BondEntry *entry;

  *problem = NULL;
  x = tenth (x);
  y = tenth (y);
  if (shape == NULL)
    {
      *problem = g_strdup (_ ("There is no zone at that place. The point stays where it was."));
      return FALSE;
    }
  if (!bond_airframe_is_within (airframe, old->zone, shape->zone)
      && !bond_airframe_is_within (airframe, shape->zone, old->zone))
    {
      *problem
          = g_strdup_printf (_ ("%s belongs to zone %s; its number says so. Place a new point in zone %s instead."),
                             old->number, old->zone, shape->zone);
      return FALSE;
    }
  spec = bond_point_spec_copy (old);
  move_spec (spec, view, g_strcmp0 (shape->zone, old->zone) != 0 ? shape->zone : NULL, x, y);
  entry = bond_entry_new (BOND_ENTRY_POINT);
  entry->point = g_strdup (old->id);
  entry->spec = g_steal_pointer (&spec);
  bond_walk_record_entry (walk, entry);
  return TRUE;
}
