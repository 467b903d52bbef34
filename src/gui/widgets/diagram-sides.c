/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * Which way is forward and which side is the left one, in words that stay in sight
 * at every zoom: a person under a wing must never have to guess.
 */
#include "gui/widgets/diagram-private.h"

#include <glib/gi18n-lib.h>
#include <math.h>

#define SIDE_MARGIN 12.0

/* The side of the drawing a positive step along @of goes to: (1, 0) right, (0, 1) down; (0, 0) when the view lacks it.
 */
static BondXY
direction_of (const BondView *view, BondAxisName of)
{
  BondXY none = { 0.0, 0.0 };
  guint i;

  for (i = 0; i < 2; i++)
    if (view->axis[i].of == of && view->axis[i].sign != 0)
      return view->axis[i].vertical ? (BondXY){ 0.0, view->axis[i].sign } : (BondXY){ view->axis[i].sign, 0.0 };
  return none;
}

/* Draws @text centred at a place of the view; outside the window at the edge nearest to it, or at the middle of its
 * top.  Without a cairo context it only keeps its place free. */
static void
draw_side_word (BondDiagram *self, cairo_t *cr, const char *text, double x, double y, gboolean to_middle)
{
  const BondInks *inks = bond_diagram_inks (self);
  double px, py, width, height, right;
  gboolean beside;

  bond_camera_to_pixel (&self->camera, x, y, &px, &py);
  bond_labeller_measure (self->labeller, BOND_LABEL_SIDE, text, &width, &height);
  right = MAX (SIDE_MARGIN, self->width - SIDE_MARGIN - width);
  px -= width / 2.0;
  if (to_middle && (px < SIDE_MARGIN + 2.0 * width || px > right - 2.0 * width))
    px = (self->width - width) / 2.0;
  px = CLAMP (px, SIDE_MARGIN, right);
  /* FWD may stand beside the breadcrumb while that is short, at the whole airframe; all others keep below it. */
  beside = to_middle && bond_diagram_get_zone (self) == NULL;
  py = CLAMP (py - height / 2.0, beside ? self->insets.top - height - 4.0 : self->insets.top,
              MAX (self->insets.top, self->height - self->insets.bottom - height));
  if (cr == NULL)
    bond_labeller_take (self->labeller, &(BondBox){ px, py, width, height });
  else
    bond_labeller_draw (self->labeller, cr, BOND_LABEL_SIDE, text, px, py, &inks->quiet, &inks->paper);
}

/* The height, as a share of the view's, at which both words stand beside the airframe, not on it. */
static double
word_height (const BondView *view, const BondBox *box, double near_x, double far_x)
{
  static const double tries[] = { 0.30, 0.16, 0.08, 0.75, 0.9 };
  guint i;

  for (i = 0; i < G_N_ELEMENTS (tries); i++)
    {
      double y = box->y + box->height * tries[i], room = box->height * 0.03;

      if (bond_view_hit (view, near_x, y - room) == NULL && bond_view_hit (view, near_x, y + room) == NULL
          && bond_view_hit (view, far_x, y - room) == NULL && bond_view_hit (view, far_x, y + room) == NULL)
        return y;
    }
  return box->y + box->height * tries[0];
}

void
bond_diagram_set_side_words (BondDiagram *self, gboolean say)
{
  g_return_if_fail (BOND_IS_DIAGRAM (self));
  self->no_side_words = !say;
  bond_diagram_queue_all (self);
}

void
bond_diagram_draw_sides (BondDiagram *self, cairo_t *cr)
{
  BondXY right = direction_of (self->view, BOND_AXIS_BL);
  BondXY aft = direction_of (self->view, BOND_AXIS_STA);
  BondBox box;
  double near_x, far_x, word_y;

  if (self->no_side_words)
    return;
  bond_diagram_view_box (self, &box);
  near_x = box.x + box.width * 0.13;
  far_x = box.x + box.width * 0.87;
  word_y = aft.y != 0.0 ? word_height (self->view, &box, near_x, far_x) : box.y + box.height * 0.08;
  if (right.x != 0.0)
    {
      draw_side_word (self, cr, _ ("LEFT"), right.x > 0.0 ? near_x : far_x, word_y, FALSE);
      draw_side_word (self, cr, _ ("RIGHT"), right.x > 0.0 ? far_x : near_x, word_y, FALSE);
    }
  if (aft.y != 0.0)
    draw_side_word (self, cr, aft.y > 0.0 ? _ ("↑ FWD") : _ ("↓ FWD"), box.x + box.width / 2.0,
                    aft.y > 0.0 ? box.y - 14.0 / self->camera.scale : box.y + box.height + 14.0 / self->camera.scale,
                    TRUE);
  else if (aft.x != 0.0)
    draw_side_word (self, cr, aft.x > 0.0 ? _ ("← FWD") : _ ("FWD →"), aft.x > 0.0 ? near_x : far_x, word_y, FALSE);
}
