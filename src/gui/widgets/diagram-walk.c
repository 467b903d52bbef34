/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * The walk line: digits 1 to 4 at the next points, and a thin line from mark to
 * mark where the way is short.  A long way is an arrow at its beginning only, and
 * a point outside the window an arrow at the edge; what lies in another view is
 * left to the buttons of the views.
 */
#include "gui/widgets/diagram-private.h"

#include <math.h>

#define LINE_WIDTH 1.1
#define LONG_SHARE 0.30 /* of the window's shorter side: a longer leg is not drawn whole */
#define STUB 2.6        /* plates: length of the arrow that stands for a long leg */
#define HEAD 5.0        /* pixels: length of an arrow's head */
#define EDGE 14.0       /* pixels from the window's edge to an arrow that points out */

typedef struct
{
  gboolean shown;  /* this view shows it */
  gboolean inside; /* and the window does */
  BondXY at;
  const BondZoneShape *shape;
} Stop;

/* Where the point stands: at its mark, at the mark it is beneath, at the pointer while it is moved. */
static void
find_stop (BondDiagram *self, BondPoint *point, Stop *stop)
{
  const BondPlacedMark *mark = bond_mark_field_find (self->field, point);
  const BondStand *stand;

  *stop = (Stop){ .shown = mark != NULL };
  if (mark == NULL)
    return;
  stop->shape = bond_diagram_shape_of (self, bond_point_get_spec (point)->zone);
  bond_camera_to_pixel (&self->camera, mark->x, mark->y, &stop->at.x, &stop->at.y);
  stop->inside = stop->at.x >= 0.0 && stop->at.y >= 0.0 && stop->at.x <= self->width && stop->at.y <= self->height;
  stand = stop->inside ? bond_diagram_find_stand (self, point, -1) : NULL;
  if (stand != NULL)
    stop->at = (BondXY){ stand->px, stand->py };
  if (self->grip.kind == BOND_GRIP_MOVE && self->grip.point == point)
    bond_camera_to_pixel (&self->camera, self->grip.x, self->grip.y, &stop->at.x, &stop->at.y);
}

static void
draw_arrow (cairo_t *cr, const BondXY *from, const BondXY *to)
{
  double angle = atan2 (to->y - from->y, to->x - from->x);

  cairo_move_to (cr, from->x, from->y);
  cairo_line_to (cr, to->x, to->y);
  cairo_move_to (cr, to->x - HEAD * cos (angle - 0.5), to->y - HEAD * sin (angle - 0.5));
  cairo_line_to (cr, to->x, to->y);
  cairo_line_to (cr, to->x - HEAD * cos (angle + 0.5), to->y - HEAD * sin (angle + 0.5));
}

static BondXY
toward (const BondXY *from, const BondXY *to, double distance)
{
  double length = MAX (1e-6, hypot (to->x - from->x, to->y - from->y));

  return (BondXY){ from->x + (to->x - from->x) * distance / length, from->y + (to->y - from->y) * distance / length };
}

/* From the edge of a mark to the edge of the next, or an arrow that sets out towards it. */
static void
draw_leg (BondDiagram *self, cairo_t *cr, const Stop *from, const Stop *to, double size)
{
  double length = hypot (to->at.x - from->at.x, to->at.y - from->at.y);
  double gap = size * 0.8;
  BondXY start = toward (&from->at, &to->at, gap), end;

  if (length <= 2.5 * gap)
    return;
  if (to->inside && (from->shape == to->shape || length <= LONG_SHARE * MIN (self->width, self->height)))
    {
      end = toward (&to->at, &from->at, gap);
      cairo_move_to (cr, start.x, start.y);
      cairo_line_to (cr, end.x, end.y);
      return;
    }
  end = toward (&from->at, &to->at, gap + MIN (STUB * size, length - 2.0 * gap));
  draw_arrow (cr, &start, &end);
}

static void
digit_text (guint number, char digit[2])
{
  digit[0] = (char)('0' + number);
  digit[1] = '\0';
}

/* How many marks a digit would cover; leaving the window is worse than all of them. */
static guint
count_covered (BondDiagram *self, const BondBox *box)
{
  double size = bond_diagram_mark_size (self);
  double top = box->y + box->height * 0.2, bottom = box->y + box->height * 0.8; /* of the figure itself */
  guint i, n = 0;

  for (i = 0; i < self->stands->len; i++)
    {
      const BondStand *stand = &g_array_index (self->stands, BondStand, i);
      double half = (stand->place >= 0 ? bond_places_size (size) : size) * 0.5;

      n += box->x < stand->px + half && stand->px - half < box->x + box->width && top < stand->py + half * 0.6
           && stand->py - half * 0.6 < bottom;
    }
  if (box->x < 0.0 || box->y < 0.0 || box->x + box->width > self->width || box->y + box->height > self->height)
    n += 1000;
  return n;
}

/* Beside its mark, on the right unless that covers another one; outside the window at the edge nearest to it. */
static BondXY
digit_place (BondDiagram *self, const Stop *stop, double width, double height)
{
  double size = bond_diagram_mark_size (self), right = size * 0.68, up = size * 0.3 + height;
  const BondXY tries[] = { { right, -height * 0.5 },      { right * 0.6, -up }, { -right - width, -height * 0.5 },
                           { -right * 0.6 - width, -up }, { right, 0.0 },       { -width * 0.5, -up } };
  double top = self->insets.top + 2.0 * height;         /* below the words of the sides */
  gboolean has_choice = bond_diagram_has_labels (self); /* among thousands of marks no side is free */
  guint i, covered, least = G_MAXUINT;
  BondXY at = { stop->at.x + right, stop->at.y - height * 0.5 };

  for (i = 0; stop->inside && has_choice && i < G_N_ELEMENTS (tries) && least > 0; i++)
    {
      BondBox here = { stop->at.x + tries[i].x, stop->at.y + tries[i].y, width, height };

      covered = count_covered (self, &here);
      if (covered >= least)
        continue;
      least = covered;
      at = (BondXY){ here.x, here.y };
    }
  if (stop->inside)
    return at;
  return (BondXY){ CLAMP (stop->at.x, EDGE, self->width - EDGE - width),
                   CLAMP (stop->at.y, top, MAX (top, self->height - self->insets.bottom - height)) };
}

static gboolean
place_digit (BondDiagram *self, BondLabeller *labeller, guint number, BondBox *box)
{
  char digit[2];
  Stop stop;
  BondXY at;

  find_stop (self, self->walk[number - 1], &stop);
  if (!stop.shown)
    return FALSE;
  digit_text (number, digit);
  bond_labeller_measure (labeller, BOND_LABEL_DIGIT, digit, &box->width, &box->height);
  at = digit_place (self, &stop, box->width, box->height);
  box->x = at.x;
  box->y = at.y;
  return TRUE;
}

/* Points that stand at one place have their digits one beside the other. */
gboolean
bond_diagram_digit_box (BondDiagram *self, BondLabeller *labeller, guint number, BondBox *box)
{
  BondBox earlier;
  guint i;

  if (number < 1 || number > self->n_walk || !place_digit (self, labeller, number, box))
    return FALSE;
  for (i = 1; i < number; i++)
    if (bond_diagram_digit_box (self, labeller, i, &earlier) && fabs (earlier.x - box->x) < box->width
        && fabs (earlier.y - box->y) < box->height * 0.7)
      box->x = earlier.x + (box->x + 2.0 * box->width < self->width ? 1.0 : -1.0) * (earlier.width + 3.0);
  return TRUE;
}

/* A small arrow at the window's edge, beside the digit, that points to where the point is. */
static void
draw_way_out (BondDiagram *self, cairo_t *cr, const Stop *stop, const BondBox *box)
{
  BondXY middle = { box->x + box->width / 2.0, box->y + box->height / 2.0 };
  BondXY tip = toward (&middle, &stop->at, box->height * 0.5 + 9.0);
  BondXY tail = toward (&middle, &stop->at, box->height * 0.5);

  draw_arrow (cr, &tail, &tip);
}

static void
stroke (BondDiagram *self, cairo_t *cr)
{
  const BondRgb *ink = &bond_diagram_inks (self)->text;

  cairo_set_source_rgb (cr, ink->r, ink->g, ink->b);
  cairo_set_line_width (cr, LINE_WIDTH);
  cairo_stroke (cr);
}

static void
draw_digits (BondDiagram *self, cairo_t *cr, const Stop *stops)
{
  const BondInks *inks = bond_diagram_inks (self);
  guint i;

  for (i = 1; i <= self->n_walk; i++)
    {
      char digit[2];
      BondBox box;

      if (!bond_diagram_digit_box (self, self->layer_labeller, i, &box))
        continue;
      digit_text (i, digit);
      if (!stops[i].inside)
        draw_way_out (self, cr, &stops[i], &box);
      stroke (self, cr);
      bond_labeller_draw (self->layer_labeller, cr, BOND_LABEL_DIGIT, digit, box.x, box.y, &inks->text, &inks->paper);
    }
}

/* No leg strikes through the number of the point in hand. */
static void
clip_label_out (BondDiagram *self, cairo_t *cr)
{
  BondBox box;

  if (!bond_diagram_current_label (self, self->layer_labeller, &box))
    return;
  cairo_new_path (cr);
  cairo_rectangle (cr, 0, 0, self->width, self->height);
  cairo_rectangle (cr, box.x, box.y, box.width, box.height);
  cairo_set_fill_rule (cr, CAIRO_FILL_RULE_EVEN_ODD);
  cairo_clip (cr);
}

void
bond_diagram_draw_walk (BondDiagram *self, cairo_t *cr)
{
  double size = bond_diagram_mark_size (self);
  Stop stops[BOND_DIAGRAM_MAX_WALK + 1];
  guint i;

  if (self->current == NULL)
    return;
  find_stop (self, self->current, &stops[0]);
  for (i = 1; i <= self->n_walk; i++)
    find_stop (self, self->walk[i - 1], &stops[i]);
  cairo_save (cr);
  clip_label_out (self, cr);
  cairo_new_path (cr);
  for (i = 0; i < self->n_walk; i++)
    if (stops[i].inside && stops[i + 1].shown)
      draw_leg (self, cr, &stops[i], &stops[i + 1], size);
  stroke (self, cr);
  cairo_restore (cr);
  draw_digits (self, cr, stops);
}
