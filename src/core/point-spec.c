/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * The fixed part of a bonding point as plain data, and the checks that keep a
 * nonsense point out of a survey whether it was drawn, typed or read from a file.
 * Zones and limits are looked up elsewhere; here a zone is only a name.
 */
#include "core/point-spec.h"

#include "core/entry.h"
#include "core/word.h"

#include <glib/gi18n-lib.h>
#include <math.h>

G_DEFINE_QUARK (bond_point_spec_error, bond_point_spec_error)

static const BondWord arrangements[] = { { "row", NULL }, { "ring", NULL }, { "legs", NULL } };

BOND_DEFINE_WORDS (bond_arrangement, BondArrangement, arrangements)

static void
placement_free (gpointer data)
{
  BondPlacement *placement = data;

  g_free (placement->view);
  g_free (placement->drawn_zone);
  g_free (placement);
}

static gboolean
coordinates_are_finite (const BondPointSpec *spec)
{
  const BondCoordinate *all[] = { &spec->sta, &spec->bl, &spec->wl };
  gsize i;

  for (i = 0; i < G_N_ELEMENTS (all); i++)
    if (all[i]->known && !isfinite (all[i]->value))
      return FALSE;
  for (i = 0; i < spec->placements->len; i++)
    {
      const BondPlacement *placement = g_ptr_array_index (spec->placements, i);
      if (!isfinite (placement->x) || !isfinite (placement->y) || bond_text_is_blank (placement->view))
        return FALSE;
    }
  return TRUE;
}

/* All known or nothing: half a conductor would give a wrong resistance of the metal. */
static gboolean
conductor_is_sound (const BondConductor *conductor)
{
  if (conductor->area_um2 == 0)
    return conductor->length_um == 0 && conductor->resistivity_fohm_m == 0;
  return conductor->area_um2 > 0 && conductor->length_um > 0 && conductor->resistivity_fohm_m > 0;
}

BondPointSpec *
bond_point_spec_new (const char *id, const char *number, BondClass klass, const char *zone)
{
  BondPointSpec *spec;

  g_return_val_if_fail (id != NULL && number != NULL && zone != NULL, NULL);
  spec = g_new0 (BondPointSpec, 1);
  spec->ref_count = 1;
  spec->id = g_strdup (id);
  spec->number = g_strdup (number);
  spec->klass = klass;
  spec->zone = g_strdup (zone);
  spec->from = g_strdup ("");
  spec->to = g_strdup ("");
  spec->widen = TRUE;
  spec->placements = g_ptr_array_new_with_free_func (placement_free);
  return spec;
}

BondPointSpec *
bond_point_spec_ref (BondPointSpec *spec)
{
  g_return_val_if_fail (spec != NULL, NULL);
  g_atomic_int_inc (&spec->ref_count);
  return spec;
}

void
bond_point_spec_unref (BondPointSpec *spec)
{
  g_return_if_fail (spec != NULL);
  if (!g_atomic_int_dec_and_test (&spec->ref_count))
    return;
  g_free (spec->id);
  g_free (spec->number);
  g_free (spec->zone);
  g_free (spec->from);
  g_free (spec->to);
  g_free (spec->limit);
  g_clear_pointer (&spec->own_limit, bond_limit_row_unref);
  g_free (spec->why);
  g_free (spec->watch);
  g_free (spec->panel);
  g_free (spec->basis);
  g_ptr_array_unref (spec->placements);
  g_free (spec);
}

BondPointSpec *
bond_point_spec_copy (const BondPointSpec *spec)
{
  BondPointSpec *copy;
  guint i;

  g_return_val_if_fail (spec != NULL, NULL);
  copy = g_memdup2 (spec, sizeof *spec);
  copy->ref_count = 1;
  copy->id = g_strdup (spec->id);
  copy->number = g_strdup (spec->number);
  copy->zone = g_strdup (spec->zone);
  copy->from = g_strdup (spec->from);
  copy->to = g_strdup (spec->to);
  copy->limit = g_strdup (spec->limit);
  copy->own_limit = spec->own_limit != NULL ? bond_limit_row_ref (spec->own_limit) : NULL;
  copy->why = g_strdup (spec->why);
  copy->watch = g_strdup (spec->watch);
  copy->panel = g_strdup (spec->panel);
  copy->basis = g_strdup (spec->basis);
  copy->placements = g_ptr_array_new_with_free_func (placement_free);
  for (i = 0; i < spec->placements->len; i++)
    {
      const BondPlacement *p = g_ptr_array_index (spec->placements, i);
      bond_point_spec_add_placement (copy, p->view, p->x, p->y, p->home, p->drawn_zone);
    }
  return copy;
}

void
bond_point_spec_add_placement (BondPointSpec *spec, const char *view, double x, double y, gboolean home,
                               const char *drawn_zone)
{
  BondPlacement *placement;

  g_return_if_fail (spec != NULL && view != NULL);
  placement = g_new0 (BondPlacement, 1);
  placement->view = g_strdup (view);
  placement->x = x;
  placement->y = y;
  placement->home = home;
  placement->drawn_zone = g_strdup (drawn_zone);
  g_ptr_array_add (spec->placements, placement);
}

const BondPlacement *
bond_point_spec_home (const BondPointSpec *spec)
{
  guint i;

  g_return_val_if_fail (spec != NULL, NULL);
  for (i = 0; i < spec->placements->len; i++)
    {
      const BondPlacement *placement = g_ptr_array_index (spec->placements, i);
      if (placement->home)
        return placement;
    }
  return spec->placements->len > 0 ? g_ptr_array_index (spec->placements, 0) : NULL;
}

const BondPlacement *
bond_point_spec_in_view (const BondPointSpec *spec, const char *view)
{
  guint i;

  g_return_val_if_fail (spec != NULL && view != NULL, NULL);
  for (i = 0; i < spec->placements->len; i++)
    {
      const BondPlacement *placement = g_ptr_array_index (spec->placements, i);
      if (strcmp (placement->view, view) == 0)
        return placement;
    }
  return NULL;
}

gboolean
bond_point_spec_check (const BondPointSpec *spec, GError **error)
{
  const char *wrong = NULL;
  g_autofree char *unsound = NULL, *unsound_text = NULL;

  g_return_val_if_fail (spec != NULL, FALSE);
  unsound = spec->limit != NULL ? bond_limit_find_unsound (spec->limit) : NULL;
  if (bond_text_is_blank (spec->id))
    wrong = _ ("it has no id");
  else if (bond_text_is_blank (spec->number) || strchr (spec->number, '-') == NULL)
    wrong = _ ("its number must hold a hyphen, like 541-J04");
  else if (bond_text_is_blank (spec->zone))
    wrong = _ ("it names no zone");
  else if (bond_text_is_blank (spec->from) || bond_text_is_blank (spec->to))
    wrong = _ ("both ends must be named: from and to");
  else if ((guint)spec->klass >= BOND_N_CLASSES)
    wrong = _ ("its class is not known");
  else if (spec->sample_every < 0)
    wrong = _ ("its sampling rule is negative");
  else if ((guint)spec->arrangement > BOND_ARRANGEMENT_LEGS || spec->hazards >= 1u << BOND_N_HAZARDS)
    wrong = _ ("its arrangement or a hazard is not known");
  else if (!conductor_is_sound (&spec->conductor))
    wrong = _ ("its conductor needs cross-section, length and resistivity, each above zero, or none of them");
  else if (!coordinates_are_finite (spec))
    wrong = _ ("a coordinate is not a finite number");
  else if (unsound != NULL)
    wrong = unsound_text = g_strdup_printf (_ ("“%s” is not the name of a limit row, or stands there twice"), unsound);
  if (wrong == NULL)
    return spec->own_limit == NULL || bond_limit_row_check (spec->own_limit, error);
  g_set_error (error, BOND_POINT_SPEC_ERROR, BOND_POINT_SPEC_ERROR_UNSOUND,
               _ ("Point %s cannot be used: %s. Nothing was recorded; put it right and try again."),
               bond_text_is_blank (spec->number) ? "?" : spec->number, wrong);
  return FALSE;
}
