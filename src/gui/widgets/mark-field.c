/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * A grid of some 48 × 48 cells over the marks' own extent.  The grid holds indices
 * sorted by cell, so that filling it is one pass and looking needs no allocation.
 */
#include "gui/widgets/mark-field.h"

#include <math.h>

#define CELLS 48

struct _BondMarkField
{
  GArray *marks;      /* of BondPlacedMark */
  GHashTable *index;  /* BondPoint → position + 1 */
  GHashTable *counts; /* zone number → count */
  BondBox box;        /* extent of the marks */
  double mirror;      /* width within which x is turned over, 0 = not */
  guint start[CELLS * CELLS + 1];
  GArray *items; /* of guint, sorted by cell */
};

static void
clear_mark (gpointer data)
{
  BondPlacedMark *mark = data;

  g_object_unref (mark->point);
}

static guint
cell_along (double at, double from, double size)
{
  double part = size > 0.0 ? (at - from) / size * CELLS : 0.0;

  return (guint)CLAMP (part, 0.0, (double)CELLS - 1.0);
}

static guint
cell_of (const BondMarkField *field, double x, double y)
{
  return cell_along (y, field->box.y, field->box.height) * CELLS + cell_along (x, field->box.x, field->box.width);
}

static void
measure_extent (BondMarkField *field)
{
  double left = INFINITY, top = INFINITY, right = -INFINITY, bottom = -INFINITY;
  guint i;

  for (i = 0; i < field->marks->len; i++)
    {
      const BondPlacedMark *mark = &g_array_index (field->marks, BondPlacedMark, i);

      left = MIN (left, mark->x);
      right = MAX (right, mark->x);
      top = MIN (top, mark->y);
      bottom = MAX (bottom, mark->y);
    }
  field->box = field->marks->len > 0 ? (BondBox){ left, top, right - left, bottom - top } : (BondBox){ 0 };
}

/* Counting sort of the indices by cell. */
static void
build_grid (BondMarkField *field)
{
  guint next[CELLS * CELLS];
  guint i;

  measure_extent (field);
  memset (field->start, 0, sizeof field->start);
  for (i = 0; i < field->marks->len; i++)
    {
      const BondPlacedMark *mark = &g_array_index (field->marks, BondPlacedMark, i);

      field->start[cell_of (field, mark->x, mark->y) + 1]++;
    }
  for (i = 0; i < CELLS * CELLS; i++)
    field->start[i + 1] += field->start[i];
  memcpy (next, field->start, sizeof next);
  g_array_set_size (field->items, field->marks->len);
  for (i = 0; i < field->marks->len; i++)
    {
      const BondPlacedMark *mark = &g_array_index (field->marks, BondPlacedMark, i);

      g_array_index (field->items, guint, next[cell_of (field, mark->x, mark->y)]++) = i;
    }
}

static void
set_state (BondPlacedMark *mark, BondSurvey *survey)
{
  mark->mark = bond_mark_for (bond_point_get_worst (mark->point), bond_survey_get_rule (survey));
  mark->rank = bond_state_rank (bond_point_get_state (mark->point));
}

/* A point that the view shows only through a zone of a higher level is counted there. */
static void
count_point (BondMarkField *field, const BondView *view, const BondPointSpec *spec)
{
  const BondPlacement *placement = bond_point_spec_in_view (spec, view->id);
  gpointer count;

  if (placement == NULL || placement->drawn_zone == NULL)
    return;
  count = g_hash_table_lookup (field->counts, placement->drawn_zone);
  g_hash_table_insert (field->counts, g_strdup (placement->drawn_zone),
                       GUINT_TO_POINTER (GPOINTER_TO_UINT (count) + 1));
}

static gboolean
find_place (const BondMarkField *field, const BondView *view, const BondPointSpec *spec, double *x, double *y)
{
  if (!bond_diagram_shows (view, spec, x, y))
    return FALSE;
  if (field->mirror > 0.0)
    *x = field->mirror - *x;
  return TRUE;
}

static void
add_point (BondMarkField *field, BondSurvey *survey, const BondView *view, BondPoint *point)
{
  const BondPointSpec *spec = bond_point_get_spec (point);
  BondPlacedMark mark = { .point = point };

  if (!find_place (field, view, spec, &mark.x, &mark.y))
    {
      count_point (field, view, spec);
      return;
    }
  g_object_ref (point);
  set_state (&mark, survey);
  g_array_append_val (field->marks, mark);
  g_hash_table_insert (field->index, point, GUINT_TO_POINTER (field->marks->len));
}

BondMarkField *
bond_mark_field_new (void)
{
  BondMarkField *field = g_new0 (BondMarkField, 1);

  field->marks = g_array_new (FALSE, FALSE, sizeof (BondPlacedMark));
  g_array_set_clear_func (field->marks, clear_mark);
  field->items = g_array_new (FALSE, FALSE, sizeof (guint));
  field->index = g_hash_table_new (NULL, NULL);
  field->counts = g_hash_table_new_full (g_str_hash, g_str_equal, g_free, NULL);
  return field;
}

void
bond_mark_field_free (BondMarkField *field)
{
  if (field == NULL)
    return;
  g_array_unref (field->marks);
  g_array_unref (field->items);
  g_hash_table_unref (field->index);
  g_hash_table_unref (field->counts);
  g_free (field);
}

void
bond_mark_field_set_mirror (BondMarkField *field, double width)
{
  g_return_if_fail (field != NULL);
  field->mirror = width;
}

void
bond_mark_field_fill (BondMarkField *field, BondSurvey *survey, const BondView *view)
{
  guint n_points, i;

  g_return_if_fail (field != NULL);

  g_array_set_size (field->marks, 0);
  g_hash_table_remove_all (field->index);
  g_hash_table_remove_all (field->counts);
  n_points = survey != NULL && view != NULL ? g_list_model_get_n_items (G_LIST_MODEL (survey)) : 0;
  for (i = 0; i < n_points; i++)
    {
      g_autoptr (BondPoint) point = g_list_model_get_item (G_LIST_MODEL (survey), i);

      add_point (field, survey, view, point);
    }
  build_grid (field);
}

gboolean
bond_mark_field_update (BondMarkField *field, BondSurvey *survey, const BondView *view, BondPoint *point)
{
  guint position;
  BondPlacedMark *mark;
  double x, y;

  g_return_val_if_fail (field != NULL && survey != NULL && view != NULL, FALSE);

  position = GPOINTER_TO_UINT (g_hash_table_lookup (field->index, point));
  if (!find_place (field, view, bond_point_get_spec (point), &x, &y))
    return position == 0;
  if (position == 0)
    return FALSE;
  mark = &g_array_index (field->marks, BondPlacedMark, position - 1);
  if (mark->x != x || mark->y != y)
    return FALSE;
  set_state (mark, survey);
  return TRUE;
}

guint
bond_mark_field_get_length (const BondMarkField *field)
{
  return field->marks->len;
}

const BondPlacedMark *
bond_mark_field_get (const BondMarkField *field, guint index)
{
  g_return_val_if_fail (index < field->marks->len, NULL);
  return &g_array_index (field->marks, BondPlacedMark, index);
}

const BondPlacedMark *
bond_mark_field_find (const BondMarkField *field, BondPoint *point)
{
  guint position = point != NULL ? GPOINTER_TO_UINT (g_hash_table_lookup (field->index, point)) : 0;

  return position > 0 ? bond_mark_field_get (field, position - 1) : NULL;
}

static gboolean
is_in (const BondBox *box, const BondPlacedMark *mark)
{
  return mark->x >= box->x && mark->x <= box->x + box->width && mark->y >= box->y && mark->y <= box->y + box->height;
}

void
bond_mark_field_collect (const BondMarkField *field, const BondBox *box, GArray *indices)
{
  guint first_column = cell_along (box->x, field->box.x, field->box.width);
  guint last_column = cell_along (box->x + box->width, field->box.x, field->box.width);
  guint first_row = cell_along (box->y, field->box.y, field->box.height);
  guint last_row = cell_along (box->y + box->height, field->box.y, field->box.height);
  guint row, i;

  for (row = first_row; row <= last_row; row++)
    for (i = field->start[row * CELLS + first_column]; i < field->start[row * CELLS + last_column + 1]; i++)
      {
        guint index = g_array_index (field->items, guint, i);

        if (is_in (box, bond_mark_field_get (field, index)))
          g_array_append_val (indices, index);
      }
}

const BondPlacedMark *
bond_mark_field_nearest (const BondMarkField *field, double x, double y, double radius)
{
  g_autoptr (GArray) near = g_array_new (FALSE, FALSE, sizeof (guint));
  BondBox box = { x - radius, y - radius, 2.0 * radius, 2.0 * radius };
  const BondPlacedMark *best = NULL;
  double best_distance = radius;
  guint i;

  bond_mark_field_collect (field, &box, near);
  for (i = 0; i < near->len; i++)
    {
      const BondPlacedMark *mark = bond_mark_field_get (field, g_array_index (near, guint, i));
      double distance = hypot (mark->x - x, mark->y - y);

      if (distance < best_distance || (distance == best_distance && (best == NULL || mark->rank > best->rank)))
        {
          best = mark;
          best_distance = distance;
        }
    }
  return best;
}

const BondPlacedMark *
bond_mark_field_toward (const BondMarkField *field, BondPoint *from, double x, double y, double dx, double dy)
{
  const BondPlacedMark *best = NULL;
  double best_cost = INFINITY;
  guint i;

  for (i = 0; i < field->marks->len; i++)
    {
      const BondPlacedMark *mark = bond_mark_field_get (field, i);
      double ahead = (mark->x - x) * dx + (mark->y - y) * dy;
      double aside = fabs ((mark->y - y) * dx - (mark->x - x) * dy);
      double cost = ahead + 2.0 * aside;

      if (mark->point != from && ahead > 0.0 && cost < best_cost)
        {
          best = mark;
          best_cost = cost;
        }
    }
  return best;
}

guint
bond_mark_field_count (const BondMarkField *field, const char *zone)
{
  return GPOINTER_TO_UINT (g_hash_table_lookup (field->counts, zone));
}
