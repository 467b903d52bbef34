/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * Where each mark stands on the screen.  At whole-airframe zoom marks that would
 * cover one another become one, the worst, with a count; close up they are fanned
 * out round their place, and the places of a group stand round its mark.  What is
 * drawn, pointed at and picked is this one list.
 */
#include "gui/widgets/diagram-private.h"

#include <math.h>

#define N_RANKS 32
#define CLUSTER_WIDTH 0.72 /* plates: marks nearer than this … */
#define CLUSTER_HEIGHT 0.6 /* … and this to one another are one stand */
#define FAN_FROM 4.0       /* closeness from which on they are fanned out */
#define FAN_MOST 12        /* more than this stay one, until there is no zooming in any more */
#define FAN_IN_SIGHT 500   /* more marks than this in sight: fans would only cover their neighbours */
#define FAN_STEP 1.25      /* plates between the marks of a fan */

/* The part of the view that is in sight, with room for a mark that reaches into it. */
static BondBox
sight (BondDiagram *self)
{
  double room = bond_diagram_mark_size (self) / self->camera.scale;

  return (BondBox){ self->camera.x - room, self->camera.y - room, self->width / self->camera.scale + 2.0 * room,
                    self->height / self->camera.scale + 2.0 * room };
}

static int
rank_of (BondDiagram *self, guint index)
{
  return CLAMP (bond_mark_field_get (self->field, index)->rank, 0, N_RANKS - 1);
}

/* Sorts the marks in sight by rank, the worst first: of several at one place it is the one that is seen. */
static void
sort_by_rank (BondDiagram *self)
{
  g_autoptr (GArray) sorted = g_array_sized_new (FALSE, FALSE, sizeof (guint), self->visible->len);
  guint next[N_RANKS + 1] = { 0 };
  guint i;

  g_array_set_size (sorted, self->visible->len);
  for (i = 0; i < self->visible->len; i++)
    next[N_RANKS - rank_of (self, g_array_index (self->visible, guint, i))]++;
  for (i = 0; i < N_RANKS; i++)
    next[i + 1] += next[i];
  for (i = 0; i < self->visible->len; i++)
    {
      guint index = g_array_index (self->visible, guint, i);

      g_array_index (sorted, guint, next[N_RANKS - 1 - rank_of (self, index)]++) = index;
    }
  if (sorted->len > 0)
    memcpy (self->visible->data, sorted->data, sorted->len * sizeof (guint));
}

/* The point in hand comes before all others: it must be seen whatever stands there. */
static void
current_first (BondDiagram *self)
{
  const BondPlacedMark *current = bond_mark_field_find (self->field, self->current);
  guint i;

  for (i = 0; current != NULL && i < self->visible->len; i++)
    if (bond_mark_field_get (self->field, g_array_index (self->visible, guint, i)) == current)
      {
        guint index = g_array_index (self->visible, guint, i);

        g_array_remove_index (self->visible, i);
        g_array_prepend_val (self->visible, index);
        return;
      }
}

/* --- one stand for marks that would cover one another ------------------------------------------------------------- */

typedef struct
{
  BondDiagram *diagram;
  double width, height; /* of a cell, pixels: two stands never share one */
  guint columns, rows;
} Grid;

static void
grid_init (Grid *grid, BondDiagram *self)
{
  double size = bond_diagram_mark_size (self);

  *grid = (Grid){ .diagram = self, .width = size * CLUSTER_WIDTH, .height = size * CLUSTER_HEIGHT };
  /* A mark may reach in from a plate outside the window. */
  grid->columns = (guint)((self->width + 2.0 * size) / grid->width) + 3;
  grid->rows = (guint)((self->height + 2.0 * size) / grid->height) + 3;
  g_array_set_size (self->taken, grid->columns * grid->rows);
  memset (self->taken->data, 0, self->taken->len * sizeof (guint));
}

static guint
cell_of (const Grid *grid, double px, double py)
{
  double size = grid->width / CLUSTER_WIDTH;
  double column = CLAMP ((px + size) / grid->width + 1.0, 1.0, grid->columns - 2.0);
  double row = CLAMP ((py + size) / grid->height + 1.0, 1.0, grid->rows - 2.0);

  return (guint)row * grid->columns + (guint)column;
}

/* The stand that a mark at the pixel would cover, NULL = none; it can only be in one of the nine cells around. */
static BondStand *
stand_near (const Grid *grid, guint cell, double px, double py)
{
  BondDiagram *self = grid->diagram;
  int row, column;

  for (row = -1; row <= 1; row++)
    for (column = -1; column <= 1; column++)
      {
        guint taken = g_array_index (self->taken, guint, (int)cell + row * (int)grid->columns + column);
        BondStand *stand = taken > 0 ? &g_array_index (self->stands, BondStand, taken - 1) : NULL;

        if (stand != NULL && fabs (stand->px - px) < grid->width && fabs (stand->py - py) < grid->height)
          return stand;
      }
  return NULL;
}

/* Makes stands of the marks in sight; @hidden gets an index and the stand it is beneath, in turn. */
static void
cluster (BondDiagram *self, GArray *hidden)
{
  Grid grid;
  guint i;

  grid_init (&grid, self);
  for (i = 0; i < self->visible->len; i++)
    {
      guint index = g_array_index (self->visible, guint, i);
      const BondPlacedMark *mark = bond_mark_field_get (self->field, index);
      BondStand stand = { .index = index, .place = -1, .mark = mark->mark };
      BondStand *over;
      guint cell;

      bond_camera_to_pixel (&self->camera, mark->x, mark->y, &stand.true_px, &stand.true_py);
      stand.px = stand.true_px;
      stand.py = stand.true_py;
      cell = cell_of (&grid, stand.px, stand.py);
      over = stand_near (&grid, cell, stand.px, stand.py);
      if (over != NULL)
        {
          guint pair[2] = { index, (guint)(over - (BondStand *)(gpointer)self->stands->data) };

          over->n_more++;
          g_array_append_vals (hidden, pair, 2);
          continue;
        }
      g_array_append_val (self->stands, stand);
      g_array_index (self->taken, guint, cell) = self->stands->len;
    }
}

/* --- fans --------------------------------------------------------------------------------------------------------- */

/* Place @nth of @n in a fan: two side by side, more in a ring with the first on top. */
static BondXY
fan_place (guint nth, guint n, double size)
{
  double radius, angle;
  BondXY place;

  if (n == 2)
    return (BondXY){ (nth == 0 ? -0.5 : 0.5) * FAN_STEP * size, 0.0 };
  radius = MAX (0.9, n * FAN_STEP / (2.0 * G_PI)) * size;
  angle = 2.0 * G_PI * nth / n - G_PI_2;
  place.x = radius * cos (angle);
  place.y = radius * sin (angle);
  return place;
}

static gboolean
is_fanned (BondDiagram *self, const BondStand *stand)
{
  const BondPlacedMark *mark = bond_mark_field_get (self->field, stand->index);

  if (stand->n_more == 0)
    return FALSE;
  if (bond_diagram_at_most (self))
    return TRUE;
  return stand->n_more < FAN_MOST
         && (bond_diagram_closeness (self) >= FAN_FROM || bond_diagram_in_zone (self, mark->point));
}

static void
stand_in_fan (BondStand *stand, const BondStand *middle, guint nth, guint n, double size)
{
  BondXY offset = fan_place (nth, n, size);

  stand->px = middle->true_px + offset.x;
  stand->py = middle->true_py + offset.y;
}

/* Opens one stand: the marks beneath it get stands of their own at the end of the list. */
static void
open_fan (BondDiagram *self, guint at, const GArray *hidden)
{
  BondStand middle = g_array_index (self->stands, BondStand, at);
  double size = bond_diagram_mark_size (self);
  guint n = middle.n_more + 1, nth = 1, i;

  for (i = 0; i + 1 < hidden->len; i += 2)
    {
      BondStand stand = { .index = g_array_index (hidden, guint, i), .place = -1 };
      const BondPlacedMark *mark = bond_mark_field_get (self->field, stand.index);

      if (g_array_index (hidden, guint, i + 1) != at)
        continue;
      bond_camera_to_pixel (&self->camera, mark->x, mark->y, &stand.true_px, &stand.true_py);
      stand.mark = mark->mark;
      stand_in_fan (&stand, &middle, nth++, n, size);
      g_array_append_val (self->stands, stand);
    }
  stand_in_fan (&g_array_index (self->stands, BondStand, at), &middle, 0, n, size);
  g_array_index (self->stands, BondStand, at).n_more = 0;
}

/* --- groups ------------------------------------------------------------------------------------------------------- */

static void
add_places (BondDiagram *self, const BondStand *group)
{
  BondPoint *point = bond_mark_field_get (self->field, group->index)->point;
  GPtrArray *places = bond_point_get_places (point);
  g_autofree BondXY *offset = g_new (BondXY, places->len);
  guint i;

  bond_places_arrange (bond_point_get_spec (point)->arrangement, places->len, bond_diagram_mark_size (self), offset);
  for (i = 0; i < places->len; i++)
    {
      BondStand stand = { .index = group->index, .place = (int)i };

      stand.mark = bond_mark_for (g_ptr_array_index (places, i), bond_survey_get_rule (self->survey));
      stand.px = stand.true_px = group->px + offset[i].x;
      stand.py = stand.true_py = group->py + offset[i].y;
      g_array_append_val (self->stands, stand);
    }
}

static void
add_all_places (BondDiagram *self)
{
  guint i, n = self->stands->len;

  for (i = 0; i < n; i++)
    {
      BondStand group = g_array_index (self->stands, BondStand, i);

      if (bond_diagram_has_places (self, bond_mark_field_get (self->field, group.index)->point))
        add_places (self, &group);
    }
}

/* ------------------------------------------------------------------------------------------------------------------ */

static gboolean
is_laid_out (BondDiagram *self)
{
  return self->stands_valid && bond_camera_equal (&self->stands_camera, &self->camera)
         && self->stands_width == self->width && self->stands_height == self->height;
}

void
bond_diagram_lay_out (BondDiagram *self)
{
  g_autoptr (GArray) hidden = NULL;
  BondBox box;
  guint i, n;

  if (self->view == NULL || is_laid_out (self))
    return;
  hidden = g_array_new (FALSE, FALSE, sizeof (guint));
  box = sight (self);
  g_array_set_size (self->visible, 0);
  g_array_set_size (self->stands, 0);
  bond_mark_field_collect (self->field, &box, self->visible);
  sort_by_rank (self);
  current_first (self);
  cluster (self, hidden);
  n = self->stands->len;
  for (i = 0; hidden->len > 0 && self->visible->len <= FAN_IN_SIGHT && i < n; i++)
    if (is_fanned (self, &g_array_index (self->stands, BondStand, i)))
      open_fan (self, i, hidden);
  add_all_places (self);
  self->stands_camera = self->camera;
  self->stands_width = self->width;
  self->stands_height = self->height;
  self->stands_valid = TRUE;
}

const BondStand *
bond_diagram_find_stand (BondDiagram *self, BondPoint *point, int place)
{
  guint i;

  bond_diagram_lay_out (self);
  for (i = 0; point != NULL && i < self->stands->len; i++)
    {
      const BondStand *stand = &g_array_index (self->stands, BondStand, i);

      if (stand->place == place && bond_mark_field_get (self->field, stand->index)->point == point)
        return stand;
    }
  return NULL;
}

const BondStand *
bond_diagram_nearest_stand (BondDiagram *self, double px, double py, double radius, double *second)
{
  const BondStand *best = NULL;
  double best_distance = radius;
  guint i;

  bond_diagram_lay_out (self);
  for (i = 0; i < self->stands->len; i++)
    {
      const BondStand *stand = &g_array_index (self->stands, BondStand, i);
      double distance = hypot (stand->px - px, stand->py - py);

      /* The list begins with the worst: of two equally near it is that one. */
      if (distance < best_distance || (best == NULL && distance <= radius))
        {
          best = stand;
          best_distance = distance;
        }
    }
  for (i = 0; second != NULL && (*second = i == 0 ? INFINITY : *second, i < self->stands->len); i++)
    {
      const BondStand *stand = &g_array_index (self->stands, BondStand, i);

      if (best != NULL && stand != best)
        *second = MIN (*second, hypot (stand->px - best->px, stand->py - best->py));
    }
  return best;
}
