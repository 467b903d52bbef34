/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * The point in hand: its mark once more above all others, the ticks of the four
 * probe contacts, and its number, which is never left out: it stands beneath the
 * mark, or on the side where it covers no other mark.
 */
#include "gui/widgets/diagram-private.h"

#include <math.h>

#define ROOM 4.0 /* pixels between the number and what is round it */
#define TICKS_REACH 1.15
#define FAR_PLATES 4.0 /* plates: no count reaches farther from its mark */

static gboolean
meets (const BondBox *a, const BondBox *b)
{
  return a->x < b->x + b->width && b->x < a->x + a->width && a->y < b->y + b->height && b->y < a->y + a->height;
}

/* How many marks, their counts and digits of the walk a label would cover; leaving the window is worse than all of
 * them. */
static guint
count_covered (BondDiagram *self, BondLabeller *labeller, const BondBox *box)
{
  double size = bond_diagram_mark_size (self);
  guint i, n = 0;
  BondBox other;

  for (i = 0; i < self->stands->len; i++)
    {
      const BondStand *stand = &g_array_index (self->stands, BondStand, i);
      double plate = stand->place >= 0 ? bond_places_size (size) : size;

      if (fabs (stand->py - box->y) > box->height + size || fabs (stand->px - box->x) > box->width + FAR_PLATES * size)
        continue; /* of ten thousand marks all but a few */
      other = (BondBox){ stand->px - plate * 0.5, stand->py - plate * 0.3, plate, plate * 0.6 };
      n += meets (box, &other);
      n += bond_diagram_count_box (self, labeller, stand, &other) && meets (box, &other);
    }
  for (i = 1; i <= self->n_walk; i++)
    n += bond_diagram_digit_box (self, labeller, i, &other) && meets (box, &other);
  if (box->x < 0.0 || box->x + box->width > self->width || box->y < self->insets.top
      || box->y + box->height > self->height - self->insets.bottom)
    n += 1000;
  return n;
}

gboolean
bond_diagram_current_label (BondDiagram *self, BondLabeller *labeller, BondBox *box)
{
  const BondStand *stand = bond_diagram_find_stand (self, self->current, -1);
  double size = bond_diagram_mark_size (self), reach = size * TICKS_REACH + ROOM, drop, width, height;
  guint i, covered, least = G_MAXUINT;

  if (stand == NULL)
    return FALSE;
  drop = bond_diagram_label_drop (self, self->current);
  bond_labeller_measure (labeller, BOND_LABEL_STRONG, bond_point_get_number (self->current), &width, &height);
  {
    const BondXY tries[] = { { -width / 2.0, drop },   { -width / 2.0, -size * 0.5 - ROOM - height },
                             { reach, -height / 2.0 }, { -reach - width, -height / 2.0 },
                             { reach * 0.5, drop },    { -reach * 0.5 - width, drop },
                             { -size * 0.5, drop },    { size * 0.5 - width, drop } };

    for (i = 0; i < G_N_ELEMENTS (tries) && least > 0; i++)
      {
        BondBox here = { stand->px + tries[i].x, stand->py + tries[i].y, width, height };

        covered = count_covered (self, labeller, &here);
        if (covered >= least)
          continue;
        least = covered;
        *box = here;
      }
  }
  return TRUE;
}

/* Of a group the place in hand has the ticks where places are drawn. */
static const BondStand *
stand_in_hand (BondDiagram *self)
{
  int place = self->current_place != NULL ? bond_diagram_find_place (self->current, self->current_place) : -1;
  const BondStand *stand = place >= 0 ? bond_diagram_find_stand (self, self->current, place) : NULL;

  return stand != NULL ? stand : bond_diagram_find_stand (self, self->current, -1);
}

static void
draw_mark (BondDiagram *self, cairo_t *cr, const BondStand *stand, double px, double py)
{
  double size = bond_diagram_mark_size (self);

  bond_mark_stamps_paint (stand->place >= 0 ? self->place_stamps : self->stamps, cr, stand->mark, px, py);
  bond_probe_ticks_draw (cr, round (px), round (py), stand->place >= 0 ? bond_places_size (size) : size,
                         &bond_diagram_inks (self)->accent);
}

void
bond_diagram_draw_current (BondDiagram *self, cairo_t *cr)
{
  const BondInks *inks = bond_diagram_inks (self);
  const BondStand *mark = bond_diagram_find_stand (self, self->current, -1);
  const BondStand *stand;
  BondBox box;

  if (mark == NULL)
    return;
  if (self->grip.kind == BOND_GRIP_MOVE && self->grip.point == self->current)
    {
      double px, py;

      bond_camera_to_pixel (&self->camera, self->grip.x, self->grip.y, &px, &py);
      draw_mark (self, cr, mark, px, py);
      return;
    }
  stand = stand_in_hand (self);
  if (stand != mark)
    bond_mark_stamps_paint (self->stamps, cr, mark->mark, mark->px, mark->py);
  draw_mark (self, cr, stand, stand->px, stand->py);
  if (bond_diagram_current_label (self, self->layer_labeller, &box))
    bond_labeller_draw (self->layer_labeller, cr, BOND_LABEL_STRONG, bond_point_get_number (self->current), box.x,
                        box.y, &inks->text, &inks->paper);
}
