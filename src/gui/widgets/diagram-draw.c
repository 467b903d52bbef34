/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * Draws the diagram in two pictures.  The large one holds the airframe, the lit
 * zone, the marks and their labels, and changes with survey and camera.  The small
 * layer above it holds what follows the hand: hovered zone, point in hand, walk
 * line, a mark being moved; a hover redraws that alone.
 */
#include "gui/widgets/diagram-private.h"

#include "gui/style.h"
#include "gui/words.h"

#include <glib/gi18n-lib.h>
#include <math.h>

#define PLACE_LABEL 11.0 /* zone numbers, pixels */
#define BUCKET 3         /* pixels: of marks nearer than this to one another only the worst is drawn */
#define LETTER_SCALE 1.2 /* pixels per view unit from which on a class letter stands at the marks of the lit zone … */
#define NUMBER_SCALE 2.4 /* … numbers at all marks … */
#define SIGN_SCALE 4.0   /* … and class signs */
#define LABEL_MARKS 500  /* more marks than this in sight get no labels: there is no room */
#define N_RANKS 32
#define TICKS_REACH 1.2 /* plates from the middle of the mark in hand to the end of its ticks */
#define MANY_MARKS 1000
#define SIDE_MARGIN 12.0
#define LIT 0.09 /* part of text ink in a lit zone */

/* --- values ------------------------------------------------------------------------------------------------------- */

char *
bond_diagram_value_text (BondDiagram *self, BondPoint *point)
{
  const BondPlaceResult *worst = bond_point_get_worst (point);

  if (worst == NULL || worst->decides == NULL)
    return NULL;
  return bond_words_result (self->survey, worst->decides, bond_words_unit (worst, BOND_UNIT_MILLIOHM), TRUE);
}

const BondInks *
bond_diagram_inks (BondDiagram *self)
{
  if (self->forced != 0)
    return self->forced == 2 ? bond_inks_dark () : bond_inks_light ();
  return bond_style_inks (GTK_WIDGET (self));
}

static void
set_ink (cairo_t *cr, const BondRgb *ink, double alpha)
{
  cairo_set_source_rgba (cr, ink->r, ink->g, ink->b, alpha);
}

static gboolean
is_close_up (BondDiagram *self)
{
  return self->camera.scale > 1.5 * bond_diagram_fit_scale (self);
}

/* --- zones -------------------------------------------------------------------------------------------------------- */

static void
append_shape (cairo_t *cr, const BondCamera *camera, const BondZoneShape *shape)
{
  guint i, j;

  for (i = 0; i < shape->rings->len; i++)
    {
      const GArray *ring = g_ptr_array_index (shape->rings, i);

      for (j = 0; j < ring->len; j++)
        {
          const BondXY *corner = &g_array_index (ring, BondXY, j);
          double px, py;

          bond_camera_to_pixel (camera, corner->x, corner->y, &px, &py);
          cairo_line_to (cr, px, py);
        }
      cairo_close_path (cr);
    }
}

void
bond_diagram_draw_shape (BondDiagram *self, cairo_t *cr, const BondZoneShape *shape, double fill, double line)
{
  const BondRgb *ink = &bond_diagram_inks (self)->text;

  append_shape (cr, &self->camera, shape);
  set_ink (cr, ink, fill);
  cairo_fill_preserve (cr);
  set_ink (cr, ink, line);
  cairo_set_line_width (cr, 1.25);
  cairo_set_line_join (cr, CAIRO_LINE_JOIN_ROUND);
  cairo_stroke (cr);
}

/* The zone the work is in: that of the point in hand, else the one zoomed to. */
static const BondZoneShape *
lit_shape (BondDiagram *self)
{
  if (self->current != NULL)
    return bond_diagram_shape_of (self, bond_point_get_spec (self->current)->zone);
  return self->zone != NULL ? bond_diagram_shape_of (self, self->zone) : NULL;
}

/* The label of the point in hand stands in the layer and is never left out: keep its place. */
static BondBox
current_label_box (BondDiagram *self, BondLabeller *labeller, const BondPlacedMark *mark)
{
  double size = bond_diagram_mark_size (self);
  BondBox box;
  double px, py;

  bond_labeller_measure (labeller, BOND_LABEL_STRONG, bond_point_get_number (mark->point), &box.width, &box.height);
  bond_camera_to_pixel (&self->camera, mark->x, mark->y, &px, &py);
  box.x = px - box.width / 2.0;
  box.y = py + size * 0.75;
  return box;
}

/* Zone numbers placed in one drawing; boxes in view units. */
typedef struct
{
  BondDiagram *diagram;
  GArray *placed; /* of BondBox */
} Numbers;

static gboolean
meets (const BondBox *a, const BondBox *b)
{
  return a->x < b->x + b->width && b->x < a->x + a->width && a->y < b->y + b->height && b->y < a->y + a->height;
}

static gboolean
covers_number (const Numbers *numbers, const BondBox *box)
{
  guint i;

  for (i = 0; i < numbers->placed->len; i++)
    if (meets (box, &g_array_index (numbers->placed, BondBox, i)))
      return TRUE;
  return FALSE;
}

/* The place of the point in hand, of its ticks and its label counts as one that is taken. */
static void
take_current_label (Numbers *numbers)
{
  BondDiagram *self = numbers->diagram;
  const BondPlacedMark *current = bond_mark_field_find (self->field, self->current);
  double size = bond_diagram_mark_size (self);
  BondBox box;

  if (current == NULL)
    return;
  box = current_label_box (self, self->labeller, current);
  box.x -= MAX (0.0, size * TICKS_REACH - box.width / 2.0);
  box.width = MAX (box.width, 2.0 * size * TICKS_REACH);
  box.y -= size * 1.25; /* from the upper end of the ticks */
  box.height += size * 1.25;
  bond_camera_to_view (&self->camera, box.x, box.y, &box.x, &box.y);
  box.width /= self->camera.scale;
  box.height /= self->camera.scale;
  g_array_append_val (numbers->placed, box);
}

static gboolean
covers_mark (BondDiagram *self, double width, double height, double x, double y)
{
  double room = bond_diagram_mark_size (self) / self->camera.scale;
  BondBox box = { x - width / 2.0 - room * 0.5, y - height / 2.0 - room * 0.3, width + room, height + room * 0.6 };

  g_array_set_size (self->visible, 0);
  bond_mark_field_collect (self->field, &box, self->visible);
  return self->visible->len > 0;
}

static gboolean
holds_box (const BondZoneShape *shape, double width, double height, double x, double y)
{
  return bond_zone_shape_contains (shape, x - width / 2.0, y - height / 2.0)
         && bond_zone_shape_contains (shape, x + width / 2.0, y - height / 2.0)
         && bond_zone_shape_contains (shape, x - width / 2.0, y + height / 2.0)
         && bond_zone_shape_contains (shape, x + width / 2.0, y + height / 2.0);
}

/* A zone number stands where no mark and no other number covers it: at its own place, else near it inside the zone,
 * else nowhere. */
static gboolean
place_number_cb (const BondZoneShape *shape, double width, double height, double *x, double *y, gpointer data)
{
  static const BondXY steps[] = { { 0, 0 },   { 0, 1.2 },  { 0, -1.2 },  { 0.9, 0 },    { -0.9, 0 },
                                  { 0, 2.4 }, { 0, -2.4 }, { 0.9, 1.2 }, { -0.9, -1.2 } };
  Numbers *numbers = data;
  guint i;

  for (i = 0; i < G_N_ELEMENTS (steps); i++)
    {
      double at_x = *x + steps[i].x * width;
      double at_y = *y + steps[i].y * height;
      BondBox box = { at_x - width / 2.0, at_y - height / 2.0, width, height };

      if ((i > 0 && !holds_box (shape, width, height, at_x, at_y))
          || covers_mark (numbers->diagram, width, height, at_x, at_y) || covers_number (numbers, &box))
        continue;
      g_array_append_val (numbers->placed, box);
      *x = at_x;
      *y = at_y;
      return TRUE;
    }
  return FALSE;
}

static void
draw_airframe (BondDiagram *self, cairo_t *cr)
{
  const PangoFontDescription *font
      = pango_context_get_font_description (gtk_widget_get_pango_context (GTK_WIDGET (self)));
  g_autoptr (GArray) placed = g_array_new (FALSE, FALSE, sizeof (BondBox));
  Numbers numbers = { self, placed };
  BondPicture picture = { .airframe = self->airframe,
                          .view = self->view,
                          .inks = bond_diagram_inks (self),
                          .font = pango_font_description_get_family (font),
                          .label_size = PLACE_LABEL,
                          .scale_factor = gtk_widget_get_scale_factor (GTK_WIDGET (self)),
                          .place = place_number_cb,
                          .place_data = &numbers };
  const BondZoneShape *lit = lit_shape (self);

  take_current_label (&numbers);
  bond_outline_cache_paint (self->outline, cr, &picture, &self->camera, self->width, self->height);
  if (lit != NULL)
    bond_diagram_draw_shape (self, cr, lit, LIT, 1.0);
}

/* --- marks -------------------------------------------------------------------------------------------------------- */

/* The part of the view that is in sight, with room for a mark that reaches into it. */
static BondBox
sight (BondDiagram *self)
{
  double room = bond_diagram_mark_size (self) / self->camera.scale;

  return (BondBox){ self->camera.x - room, self->camera.y - room, self->width / self->camera.scale + 2.0 * room,
                    self->height / self->camera.scale + 2.0 * room };
}

/* Sorts the marks in sight by rank, best first, so that the worst is drawn last and lies on top. */
static void
sort_by_rank (BondDiagram *self)
{
  g_autoptr (GArray) sorted = g_array_sized_new (FALSE, FALSE, sizeof (guint), self->visible->len);
  guint next[N_RANKS + 1] = { 0 };
  guint i;

  g_array_set_size (sorted, self->visible->len);
  for (i = 0; i < self->visible->len; i++)
    next[CLAMP (bond_mark_field_get (self->field, g_array_index (self->visible, guint, i))->rank, 0, N_RANKS - 1)
         + 1]++;
  for (i = 0; i < N_RANKS; i++)
    next[i + 1] += next[i];
  for (i = 0; i < self->visible->len; i++)
    {
      guint index = g_array_index (self->visible, guint, i);
      int rank = CLAMP (bond_mark_field_get (self->field, index)->rank, 0, N_RANKS - 1);

      g_array_index (sorted, guint, next[rank]++) = index;
    }
  if (sorted->len > 0)
    memcpy (self->visible->data, sorted->data, sorted->len * sizeof (guint));
}

/* Leaves of every few pixels only the worst mark: the rest would be hidden beneath it anyway. */
static void
thin_out (BondDiagram *self)
{
  guint columns = (guint)self->width / BUCKET + 2;
  guint rows = (guint)self->height / BUCKET + 2;
  guint kept = self->visible->len;
  guint i;

  g_byte_array_set_size (self->taken, columns * rows);
  memset (self->taken->data, 0, columns * rows);
  for (i = self->visible->len; i-- > 0;)
    {
      guint index = g_array_index (self->visible, guint, i);
      const BondPlacedMark *mark = bond_mark_field_get (self->field, index);
      double px, py;
      guint cell;

      bond_camera_to_pixel (&self->camera, mark->x, mark->y, &px, &py);
      cell = (guint)CLAMP (py / BUCKET + 1, 0, rows - 1) * columns + (guint)CLAMP (px / BUCKET + 1, 0, columns - 1);
      if (self->taken->data[cell])
        continue;
      self->taken->data[cell] = 1;
      g_array_index (self->visible, guint, --kept) = index;
    }
  g_array_remove_range (self->visible, 0, kept);
}

static void
draw_marks (BondDiagram *self, cairo_t *cr)
{
  BondBox box = sight (self);
  double size = bond_diagram_mark_size (self);
  guint i;

  g_array_set_size (self->visible, 0);
  bond_mark_field_collect (self->field, &box, self->visible);
  sort_by_rank (self);
  thin_out (self);
  bond_mark_stamps_set (self->stamps, bond_diagram_inks (self), size, gtk_widget_get_scale_factor (GTK_WIDGET (self)),
                        !is_close_up (self));
  for (i = 0; i < self->visible->len; i++)
    {
      const BondPlacedMark *mark = bond_mark_field_get (self->field, g_array_index (self->visible, guint, i));
      double px, py;

      if (self->grip.kind == BOND_GRIP_MOVE && mark->point == self->grip.point)
        continue;
      bond_camera_to_pixel (&self->camera, mark->x, mark->y, &px, &py);
      bond_mark_stamps_paint (self->stamps, cr, mark->mark, px, py);
    }
}

/* --- labels ------------------------------------------------------------------------------------------------------- */

/* "J04" of "541-J04": the zone is on the diagram already. */
static const char *
short_number (BondPoint *point)
{
  const char *number = bond_point_get_number (point);
  const char *hyphen = strchr (number, '-');

  return hyphen != NULL && hyphen[1] != '\0' ? hyphen + 1 : number;
}

static gboolean
is_in_lit_zone (BondDiagram *self, const BondZoneShape *lit, BondPoint *point)
{
  return lit != NULL && self->airframe != NULL
         && bond_airframe_is_within (self->airframe, bond_point_get_spec (point)->zone, lit->zone);
}

static void
take_marks (BondDiagram *self)
{
  double size = bond_diagram_mark_size (self);
  guint i;

  for (i = 0; i < self->visible->len; i++)
    {
      const BondPlacedMark *mark = bond_mark_field_get (self->field, g_array_index (self->visible, guint, i));
      gboolean current = mark->point == self->current;
      double half = size * (current ? 1.1 : 0.55);
      BondBox box = { .width = 2.0 * half, .height = size * 0.6 };
      double px, py;

      bond_camera_to_pixel (&self->camera, mark->x, mark->y, &px, &py);
      box.x = px - half;
      box.y = py - size * 0.3;
      bond_labeller_take (self->labeller, &box);
    }
}

/* Class letters first, or whole numbers where there is room for them; the class sign left of the number. */
static void
offer_number (BondDiagram *self, cairo_t *cr, const BondPlacedMark *mark, double px, double py, double size)
{
  const BondInks *inks = bond_diagram_inks (self);
  BondClass klass = bond_point_get_spec (mark->point)->klass;
  char letter[2] = { bond_class_letter (klass), '\0' };
  double top = py + size * 0.45;
  double width, height;

  if (self->camera.scale >= NUMBER_SCALE)
    {
      const char *number = short_number (mark->point);

      bond_labeller_measure (self->labeller, BOND_LABEL_PLAIN, number, &width, &height);
      if (bond_labeller_offer (self->labeller, cr, BOND_LABEL_PLAIN, number, px, top, &inks->text))
        {
          if (self->camera.scale >= SIGN_SCALE)
            bond_class_sign_draw (cr, klass, px - width / 2.0 - 9.0, top + height / 2.0, 8.0, &inks->quiet);
          return;
        }
    }
  bond_labeller_offer (self->labeller, cr, BOND_LABEL_PLAIN, letter, px, top, &inks->quiet);
}

static void
offer_value (BondDiagram *self, cairo_t *cr, const BondPlacedMark *mark, double px, double py, double size)
{
  g_autofree char *value = bond_diagram_value_text (self, mark->point);
  double width, height;

  if (value == NULL)
    return;
  bond_labeller_measure (self->labeller, BOND_LABEL_PLAIN, value, &width, &height);
  bond_labeller_offer (self->labeller, cr, BOND_LABEL_PLAIN, value, px, py - size * 0.5 - height,
                       &bond_diagram_inks (self)->text);
}

typedef void (*OfferLabel) (BondDiagram *self, cairo_t *cr, const BondPlacedMark *mark, double px, double py,
                            double size);

/* Offers one kind of label at all marks in sight, worst first; passes alone or all but passes where @passes says so. */
static void
offer_all (BondDiagram *self, cairo_t *cr, OfferLabel offer, gboolean values, gboolean passes)
{
  const BondZoneShape *lit = lit_shape (self);
  double size = bond_diagram_mark_size (self);
  guint i;

  for (i = self->visible->len; i-- > 0;)
    {
      const BondPlacedMark *mark = bond_mark_field_get (self->field, g_array_index (self->visible, guint, i));
      double px, py;

      if (values && (mark->mark == BOND_MARK_PASS) != passes)
        continue;
      if (!values
          && (mark->point == self->current
              || (self->camera.scale < NUMBER_SCALE && !is_in_lit_zone (self, lit, mark->point))))
        continue;
      bond_camera_to_pixel (&self->camera, mark->x, mark->y, &px, &py);
      offer (self, cr, mark, px, py, size);
    }
}

static void
draw_labels (BondDiagram *self, cairo_t *cr)
{
  const BondPlacedMark *current = bond_mark_field_find (self->field, self->current);

  if (!is_close_up (self) || self->camera.scale < LETTER_SCALE || self->visible->len > LABEL_MARKS)
    return;
  take_marks (self);
  if (current != NULL)
    {
      BondBox box = current_label_box (self, self->labeller, current);

      bond_labeller_take (self->labeller, &box);
    }
  offer_all (self, cr, offer_number, FALSE, FALSE);
  if (self->camera.scale < NUMBER_SCALE)
    return;
  offer_all (self, cr, offer_value, TRUE, FALSE);
  offer_all (self, cr, offer_value, TRUE, TRUE);
}

/* How many points a zone holds that this view draws only as a part of it. */
static void
draw_counts (BondDiagram *self, cairo_t *cr)
{
  guint i;

  for (i = 0; i < self->view->shapes->len; i++)
    {
      const BondZoneShape *shape = g_ptr_array_index (self->view->shapes, i);
      guint count = bond_mark_field_count (self->field, shape->zone);
      const BondLabel *place;
      g_autofree char *text = NULL;
      double px, py;

      if (count == 0 || shape->labels->len == 0)
        continue;
      place = &g_array_index (shape->labels, BondLabel, 0);
      text = g_strdup_printf (ngettext ("%u point", "%u points", count), count);
      bond_camera_to_pixel (&self->camera, place->x, place->y, &px, &py);
      bond_labeller_offer (self->labeller, cr, BOND_LABEL_PLAIN, text, px, py + PLACE_LABEL * 0.7,
                           &bond_diagram_inks (self)->quiet);
    }
}

/* --- words at the edge -------------------------------------------------------------------------------------------- */

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
 * top. */
static void
draw_side_word (BondDiagram *self, cairo_t *cr, const char *text, double x, double y, gboolean to_middle)
{
  const BondInks *inks = bond_diagram_inks (self);
  double px, py, width, height, right;

  bond_camera_to_pixel (&self->camera, x, y, &px, &py);
  bond_labeller_measure (self->labeller, BOND_LABEL_SIDE, text, &width, &height);
  right = MAX (SIDE_MARGIN, self->width - SIDE_MARGIN - width);
  px -= width / 2.0;
  if (to_middle && (px < SIDE_MARGIN + 2.0 * width || px > right - 2.0 * width))
    px = (self->width - width) / 2.0;
  px = CLAMP (px, SIDE_MARGIN, right);
  /* FWD may stand beside the breadcrumb, which is never as wide as half the diagram; the others keep below it. */
  py = CLAMP (py - height / 2.0, to_middle ? self->insets.top - height - 4.0 : self->insets.top,
              MAX (self->insets.top, self->height - self->insets.bottom - height));
  bond_labeller_draw (self->labeller, cr, BOND_LABEL_SIDE, text, px, py, &inks->quiet, &inks->paper);
}

static void
draw_side_words (BondDiagram *self, cairo_t *cr)
{
  BondXY right = direction_of (self->view, BOND_AXIS_BL);
  BondXY aft = direction_of (self->view, BOND_AXIS_STA);
  BondBox box;
  double near_x, far_x, word_y;

  bond_diagram_view_box (self, &box);
  near_x = box.x + box.width * 0.13;
  far_x = box.x + box.width * 0.87;
  word_y = box.y + box.height * (aft.y != 0.0 ? 0.30 : 0.08);
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

void
bond_diagram_draw_base (BondDiagram *self, cairo_t *cr)
{
  bond_labeller_begin (self->labeller, gtk_widget_get_pango_context (GTK_WIDGET (self)));
  draw_airframe (self, cr);
  draw_marks (self, cr);
  draw_labels (self, cr);
  draw_counts (self, cr);
  draw_side_words (self, cr);
}

/* The canvas whose turn it is: the other one is still in the frame on the screen (see diagram-cache.c). */
static cairo_surface_t *
take_canvas (BondDiagram *self)
{
  int scale = gtk_widget_get_scale_factor (GTK_WIDGET (self));
  cairo_surface_t **canvas = &self->canvas[self->canvas_turn = 1 - self->canvas_turn];

  if (*canvas != NULL && cairo_image_surface_get_width (*canvas) == self->width * scale
      && cairo_image_surface_get_height (*canvas) == self->height * scale)
    return *canvas;
  g_clear_pointer (canvas, cairo_surface_destroy);
  *canvas = cairo_image_surface_create (CAIRO_FORMAT_ARGB32, self->width * scale, self->height * scale);
  cairo_surface_set_device_scale (*canvas, scale, scale);
  return *canvas;
}

void
bond_diagram_paint_base (BondDiagram *self, cairo_t *cr)
{
  cairo_surface_t *canvas;
  cairo_t *on_canvas;

  if (bond_mark_field_get_length (self->field) < MANY_MARKS)
    {
      bond_diagram_draw_base (self, cr);
      return;
    }
  canvas = take_canvas (self);
  on_canvas = cairo_create (canvas);
  bond_diagram_draw_base (self, on_canvas);
  cairo_destroy (on_canvas);
  cairo_set_source_surface (cr, canvas, 0, 0);
  cairo_pattern_set_filter (cairo_get_source (cr), CAIRO_FILTER_NEAREST);
  cairo_paint (cr);
}
