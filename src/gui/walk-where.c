/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * Where the walk is and where it goes next: points, places, zones, jumps, and the
 * filter of the points pane, which the walk keeps to.  A jump goes anywhere: who
 * types a number has seen it on the aircraft.
 */
#include "gui/walk-private.h"
#include <string.h>

static BondPoint *
point_at (BondWalk *self, guint position)
{
  g_autoptr (BondPoint) point = g_list_model_get_item (G_LIST_MODEL (self->survey), position);

  return point; /* the survey holds it */
}

static const char *
zone_at (BondWalk *self, guint position)
{
  return bond_point_get_spec (point_at (self, position))->zone;
}

static guint
n_points (BondWalk *self)
{
  return g_list_model_get_n_items (G_LIST_MODEL (self->survey));
}

static const char *
first_place (BondPoint *point)
{
  GPtrArray *places = bond_point_get_places (point);
  const char *open = bond_point_next_place (point);

  if (open != NULL || places->len < 2)
    return open;
  return bond_point_get_worst (point)->place; /* the one that decides */
}

void
bond_walk_go (BondWalk *self, BondPoint *point, const char *place)
{
  g_autofree char *next = NULL;

  g_return_if_fail (BOND_IS_WALK (self));
  g_return_if_fail (BOND_IS_POINT (point));
  next = g_strdup (place != NULL ? place : first_place (point));
  if (point == self->point && g_strcmp0 (next, self->place) == 0)
    return;
  g_set_object (&self->point, point);
  g_free (self->place);
  self->place = g_steal_pointer (&next);
  self->fresh = FALSE;
  self->stopped = FALSE;
  g_signal_emit (self, bond_walk_signal (BOND_WALK_CURRENT_CHANGED), 0);
}

static gboolean
is_walked (BondWalk *self, BondPoint *point)
{
  return self->filter == NULL || self->filter (point, self->filter_data);
}

/* Position of the next point the walk keeps to, before (@by −1) or after @at; G_MAXUINT = none. */
static guint
next_walked (BondWalk *self, guint at, int by)
{
  for (gint64 i = (gint64)at + by; i >= 0 && i < n_points (self); i += by)
    if (is_walked (self, point_at (self, (guint)i)))
      return (guint)i;
  return G_MAXUINT;
}

static guint
position (BondWalk *self)
{
  return self->point != NULL ? bond_survey_position (self->survey, self->point) : G_MAXUINT;
}

void
bond_walk_step (BondWalk *self, int by)
{
  guint at, next;

  g_return_if_fail (BOND_IS_WALK (self));
  at = position (self);
  next = at != G_MAXUINT ? next_walked (self, at, by > 0 ? 1 : -1) : G_MAXUINT;
  if (next != G_MAXUINT)
    bond_walk_go (self, point_at (self, next), NULL);
}

/* The furthest walked point from @at in the direction of @by that is reached without leaving @zone, or the first
 * outside it when @leave. */
static guint
run_through (BondWalk *self, guint at, int by, const char *zone, gboolean leave)
{
  guint next;

  while ((next = next_walked (self, at, by)) != G_MAXUINT)
    {
      if (g_strcmp0 (zone_at (self, next), zone) != 0)
        return leave ? next : at;
      at = next;
    }
  return at;
}

void
bond_walk_step_zone (BondWalk *self, int by)
{
  guint at, to;

  g_return_if_fail (BOND_IS_WALK (self));
  at = position (self);
  if (at == G_MAXUINT)
    return;
  to = run_through (self, at, by > 0 ? 1 : -1, zone_at (self, at), TRUE);
  /* Going back lands on the first point of the zone before, as going on does. */
  if (by < 0)
    to = run_through (self, to, -1, zone_at (self, to), FALSE);
  if (to != at)
    bond_walk_go (self, point_at (self, to), NULL);
}

/* As bond_survey_next_open(), keeping to the filter. */
static BondPoint *
next_open_walked (BondWalk *self, BondPoint *from)
{
  BondPoint *first = bond_survey_next_open (self->survey, from);
  BondPoint *next = first;

  while (next != NULL && !is_walked (self, next))
    {
      next = bond_survey_next_open (self->survey, next);
      if (next == first)
        return NULL;
    }
  return next;
}

gboolean
bond_walk_next_open (BondWalk *self)
{
  BondPoint *next;
  const char *place;

  g_return_val_if_fail (BOND_IS_WALK (self), FALSE);
  place = self->point != NULL ? bond_point_next_place (self->point) : NULL;
  if (place != NULL && g_strcmp0 (place, self->place) != 0)
    {
      bond_walk_go (self, self->point, place);
      return TRUE;
    }
  next = next_open_walked (self, self->point);
  if (next == NULL || (next == self->point && place == NULL && !bond_state_is_open (bond_point_get_state (next))))
    return FALSE;
  bond_walk_go (self, next, NULL);
  return TRUE;
}

gboolean
bond_walk_first_open (BondWalk *self)
{
  BondPoint *first;

  g_return_val_if_fail (BOND_IS_WALK (self), FALSE);
  first = next_open_walked (self, NULL);
  if (first != NULL)
    bond_walk_go (self, first, NULL);
  return first != NULL;
}

void
bond_walk_start (BondWalk *self)
{
  if (!bond_walk_next_open (self) && n_points (self) > 0)
    bond_walk_go (self, point_at (self, 0), NULL);
}

void
bond_walk_set_filter (BondWalk *self, BondWalkFilter filter, gpointer data, GDestroyNotify destroy)
{
  g_return_if_fail (BOND_IS_WALK (self));
  if (filter == NULL && self->filter == NULL)
    return;
  if (self->filter_destroy != NULL)
    self->filter_destroy (self->filter_data);
  self->filter = filter;
  self->filter_data = data;
  self->filter_destroy = destroy;
  g_signal_emit (self, bond_walk_signal (BOND_WALK_FILTER_CHANGED), 0);
}

gboolean
bond_walk_is_filtered (BondWalk *self)
{
  g_return_val_if_fail (BOND_IS_WALK (self), FALSE);
  return self->filter != NULL;
}

guint
bond_walk_n_hidden_open (BondWalk *self)
{
  guint n = 0;

  g_return_val_if_fail (BOND_IS_WALK (self), 0);
  for (guint i = 0; self->filter != NULL && i < n_points (self); i++)
    {
      BondPoint *point = point_at (self, i);

      n += bond_state_is_open (bond_point_get_state (point)) && !is_walked (self, point);
    }
  return n;
}

gboolean
bond_walk_is_jump (const char *text)
{
  return g_regex_match_simple ("^\\s*(#.*|[0-9A-Za-z]+-[A-Za-z]*[0-9]+[A-Za-z]*)\\s*$", text, 0, 0);
}

/* "541-07" names the one point of zone 541 whose digits are 07, whatever its class letter. */
static BondPoint *
find_without_letter (BondWalk *self, const char *number)
{
  const char *dash = strchr (number, '-');
  BondPoint *found = NULL;

  for (guint i = 0; dash != NULL && g_ascii_isdigit (dash[1]) && i < n_points (self); i++)
    {
      BondPoint *point = point_at (self, i);
      const char *other = bond_point_get_number (point);

      if (strncmp (other, number, dash - number + 1) != 0 || !g_ascii_isalpha (other[dash - number + 1]))
        continue;
      if (strcmp (other + (dash - number) + 2, dash + 1) != 0)
        continue;
      if (found != NULL)
        return NULL; /* 541-J07 and 541-F07: say which */
      found = point;
    }
  return found;
}

gboolean
bond_walk_jump (BondWalk *self, const char *text)
{
  g_autofree char *number = NULL;
  BondPoint *point;

  g_return_val_if_fail (BOND_IS_WALK (self) && text != NULL, FALSE);
  number = g_strstrip (g_ascii_strup (text, -1));
  if (*number == '#')
    memmove (number, number + 1, strlen (number));
  point = bond_survey_find_number (self->survey, number);
  if (point == NULL)
    point = find_without_letter (self, number);
  if (point == NULL)
    return FALSE;
  bond_walk_go (self, point, NULL);
  return TRUE;
}

GPtrArray *
bond_walk_upcoming (BondWalk *self, guint max)
{
  GPtrArray *points;
  BondPoint *next;

  g_return_val_if_fail (BOND_IS_WALK (self), NULL);
  points = g_ptr_array_new ();
  next = self->point != NULL ? next_open_walked (self, self->point) : NULL;
  while (next != NULL && next != self->point && points->len < max && !g_ptr_array_find (points, next, NULL))
    {
      g_ptr_array_add (points, next);
      next = next_open_walked (self, next);
    }
  return points;
}

void
bond_walk_place_in_zone (BondWalk *self, guint *index, guint *of)
{
  const char *zone;

  g_return_if_fail (BOND_IS_WALK (self));
  *index = 0;
  *of = 0;
  if (self->point == NULL)
    return;
  zone = bond_point_get_spec (self->point)->zone;
  for (guint i = 0; i < n_points (self); i++)
    if (g_strcmp0 (zone_at (self, i), zone) == 0)
      {
        (*of)++;
        if (point_at (self, i) == self->point)
          *index = *of;
      }
}
