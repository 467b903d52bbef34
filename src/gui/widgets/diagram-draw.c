/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * The large picture of the diagram: the marks where diagram-layout.c put them, the
 * words at them, and under both what diagram-zones.c draws.  It changes with survey
 * and camera; what follows the hand is the layer's.
 */
#include "gui/widgets/diagram-private.h"

#include "gui/style.h"
#include "gui/words.h"

#include <math.h>

#define LETTER_FROM 1.5 /* closeness from which on a class letter stands at the marks of the lit zone … */
#define NUMBER_FROM 2.5 /* … numbers and values at all marks … */
#define SIGN_FROM 3.5   /* … and class signs */
#define LABEL_MARKS 500 /* more marks than this in sight get no counts … */
#define WORD_MARKS 200  /* … and more than this no numbers and values: there is no room */
#define MANY_MARKS 1000
#define SIGN_SIZE 8.0
#define SIGN_ROOM 13.0  /* pixels left of a number for its class sign */
#define TICKS_REACH 1.2 /* plates from the middle of the mark in hand to the end of its ticks */

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

gboolean
bond_diagram_has_labels (BondDiagram *self)
{
  bond_diagram_lay_out (self);
  return self->stands->len <= LABEL_MARKS;
}

static const BondStand *
stand_at (BondDiagram *self, guint i)
{
  return &g_array_index (self->stands, BondStand, i);
}

static BondPoint *
point_of (BondDiagram *self, const BondStand *stand)
{
  return bond_mark_field_get (self->field, stand->index)->point;
}

/* --- marks -------------------------------------------------------------------------------------------------------- */

/* From a mark that was moved aside to where its point is. */
static void
draw_threads (BondDiagram *self, cairo_t *cr)
{
  const BondInks *inks = bond_diagram_inks (self);
  guint i;

  cairo_new_path (cr);
  cairo_set_source_rgb (cr, inks->quiet.r, inks->quiet.g, inks->quiet.b);
  cairo_set_line_width (cr, 0.75);
  for (i = 0; i < self->stands->len; i++)
    {
      const BondStand *stand = stand_at (self, i);

      if (hypot (stand->px - stand->true_px, stand->py - stand->true_py) < 1.0)
        continue;
      cairo_move_to (cr, stand->px, stand->py);
      cairo_line_to (cr, stand->true_px, stand->true_py);
      cairo_stroke (cr); /* each by itself: one path of many that cross takes far longer */
    }
}

static gboolean
is_held (BondDiagram *self, const BondStand *stand)
{
  return self->grip.kind == BOND_GRIP_MOVE && point_of (self, stand) == self->grip.point;
}

/* The list begins with the worst, which is drawn last and lies on top. */
static void
draw_marks (BondDiagram *self, cairo_t *cr)
{
  const BondInks *inks = bond_diagram_inks (self);
  int scale_factor = gtk_widget_get_scale_factor (GTK_WIDGET (self));
  double size = bond_diagram_mark_size (self);
  gboolean quiet = bond_diagram_closeness (self) <= LETTER_FROM;
  guint i;

  bond_mark_stamps_set (self->stamps, inks, size, scale_factor, quiet);
  bond_mark_stamps_set (self->place_stamps, inks, bond_places_size (size), scale_factor, FALSE);
  draw_threads (self, cr);
  for (i = self->stands->len; i-- > 0;)
    {
      const BondStand *stand = stand_at (self, i);

      if (is_held (self, stand))
        continue;
      if (stand->place < 0 && bond_diagram_has_places (self, point_of (self, stand)))
        bond_diagram_draw_group (self, cr, stand);
    }
  for (i = self->stands->len; i-- > 0;)
    {
      const BondStand *stand = stand_at (self, i);

      if (!is_held (self, stand))
        bond_mark_stamps_paint (stand->place >= 0 ? self->place_stamps : self->stamps, cr, stand->mark, stand->px,
                                stand->py);
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

#define COUNT_TEXT 16

/* With a sign before it, never taken for a digit of the walk. */
static void
count_text (const BondStand *stand, char text[COUNT_TEXT])
{
  g_snprintf (text, COUNT_TEXT, "×%u", stand->n_more + 1);
}

static void
take_stand (BondDiagram *self, const BondStand *stand, double size)
{
  double half = size * 0.55;
  BondBox box;

  if (stand->place < 0 && point_of (self, stand) == self->current)
    half = size * TICKS_REACH;
  box = (BondBox){ stand->px - half, stand->py - size * 0.3, 2.0 * half, size * 0.6 };
  bond_labeller_take (self->labeller, &box);
}

/* No word is cut at the window's edge: "1.183 m" of 1.183 mΩ would be another value. */
static void
take_outside (BondDiagram *self)
{
  const double strip = 400.0; /* pixels: wider than any label */
  const BondBox outside[] = { { -strip, -strip, self->width + 2.0 * strip, strip },
                              { -strip, self->height, self->width + 2.0 * strip, strip },
                              { -strip, -strip, strip, self->height + 2.0 * strip },
                              { self->width, -strip, strip, self->height + 2.0 * strip } };
  guint i;

  for (i = 0; i < G_N_ELEMENTS (outside); i++)
    bond_labeller_take (self->labeller, &outside[i]);
}

/* What must stay free: all marks, the words of the sides, the label in hand and the digits of the walk. */
static void
take_places (BondDiagram *self)
{
  double size = bond_diagram_mark_size (self);
  BondBox box;
  guint i;

  for (i = 0; i < self->stands->len && bond_diagram_has_labels (self); i++)
    take_stand (self, stand_at (self, i), stand_at (self, i)->place < 0 ? size : bond_places_size (size));
  take_outside (self);
  bond_diagram_draw_sides (self, NULL);
  if (bond_diagram_current_label (self, self->labeller, &box))
    bond_labeller_take (self->labeller, &box);
  for (i = 1; i <= self->n_walk; i++)
    if (bond_diagram_digit_box (self, self->labeller, i, &box))
      bond_labeller_take (self->labeller, &box);
}

gboolean
bond_diagram_count_box (BondDiagram *self, BondLabeller *labeller, const BondStand *stand, BondBox *box)
{
  char text[COUNT_TEXT];

  if (stand->n_more == 0)
    return FALSE;
  count_text (stand, text);
  bond_labeller_measure (labeller, BOND_LABEL_COUNT, text, &box->width, &box->height);
  box->x = stand->px - bond_diagram_mark_size (self) * 0.5 - box->width - 1.0;
  box->y = stand->py - box->height * 0.5;
  return TRUE;
}

/* How many marks stand beneath this one; never left out, for without it they would be hidden. */
static void
draw_counts (BondDiagram *self, cairo_t *cr)
{
  const BondInks *inks = bond_diagram_inks (self);
  guint i;

  for (i = 0; i < self->stands->len; i++)
    {
      const BondStand *stand = stand_at (self, i);
      char text[COUNT_TEXT];
      BondBox box;

      if (is_held (self, stand) || !bond_diagram_count_box (self, self->labeller, stand, &box))
        continue;
      count_text (stand, text);
      bond_labeller_take (self->labeller, &box);
      bond_labeller_draw (self->labeller, cr, BOND_LABEL_COUNT, text, box.x, box.y, &inks->quiet, &inks->paper);
    }
}

typedef enum
{
  LEVEL_NONE,
  LEVEL_LETTER,
  LEVEL_NUMBER, /* and the value */
  LEVEL_SIGN,
} Level;

/* The zone that was zoomed to shows all of its marks at every closeness. */
static Level
level_of (BondDiagram *self, BondPoint *point)
{
  double closeness = bond_diagram_closeness (self);
  const BondZoneShape *lit;

  if (closeness >= SIGN_FROM || bond_diagram_in_zone (self, point))
    return LEVEL_SIGN;
  if (closeness >= NUMBER_FROM)
    return LEVEL_NUMBER;
  lit = closeness >= LETTER_FROM ? bond_diagram_lit_shape (self) : NULL;
  if (lit != NULL && bond_airframe_is_within (self->airframe, bond_point_get_spec (point)->zone, lit->zone))
    return LEVEL_LETTER;
  return LEVEL_NONE;
}

/* A number with the class sign left of it where there is room, else the number alone, else the class letter. */
static void
offer_number (BondDiagram *self, cairo_t *cr, const BondStand *stand, Level level)
{
  const BondInks *inks = bond_diagram_inks (self);
  BondPoint *point = point_of (self, stand);
  BondClass klass = bond_point_get_spec (point)->klass;
  char letter[2] = { bond_class_letter (klass), '\0' };
  const char *number = short_number (point);
  double size = bond_diagram_mark_size (self), top = stand->py + size * 0.45;
  BondBox box;

  if (bond_diagram_has_places (self, point))
    top = stand->py + bond_diagram_label_drop (self, point);
  bond_labeller_measure (self->labeller, BOND_LABEL_PLAIN, number, &box.width, &box.height);
  box = (BondBox){ stand->px - box.width / 2.0 - SIGN_ROOM, top, box.width + SIGN_ROOM, box.height };
  if (level >= LEVEL_SIGN && bond_labeller_is_free (self->labeller, &box))
    {
      bond_labeller_take (self->labeller, &box);
      bond_class_sign_draw (cr, klass, box.x + SIGN_SIZE * 0.6, top + box.height / 2.0, SIGN_SIZE, &inks->quiet);
      bond_labeller_draw (self->labeller, cr, BOND_LABEL_PLAIN, number, box.x + SIGN_ROOM, top, &inks->text, NULL);
      return;
    }
  if (level < LEVEL_NUMBER
      || !bond_labeller_offer (self->labeller, cr, BOND_LABEL_PLAIN, number, stand->px, top, &inks->text))
    bond_labeller_offer (self->labeller, cr, BOND_LABEL_PLAIN, letter, stand->px, top, &inks->quiet);
}

static void
offer_value (BondDiagram *self, cairo_t *cr, const BondStand *stand, Level level)
{
  g_autofree char *value = NULL;
  double width, height, top = bond_diagram_mark_size (self) * 0.5;

  if (level < LEVEL_NUMBER)
    return;
  value = bond_diagram_value_text (self, point_of (self, stand));
  if (value == NULL)
    return;
  bond_labeller_measure (self->labeller, BOND_LABEL_PLAIN, value, &width, &height);
  if (bond_diagram_has_places (self, point_of (self, stand))
      && bond_point_get_spec (point_of (self, stand))->arrangement == BOND_ARRANGEMENT_RING)
    top = bond_diagram_label_drop (self, point_of (self, stand));
  bond_labeller_offer (self->labeller, cr, BOND_LABEL_PLAIN, value, stand->px, stand->py - top - height,
                       &bond_diagram_inks (self)->text);
}

typedef enum
{
  WORDS_NUMBERS,
  WORDS_VALUES,        /* of all but passes */
  WORDS_VALUES_PASSED, /* last, so that they are the first to be left out */
  N_WORDS,
} Words;

static void
offer_words (BondDiagram *self, cairo_t *cr, const BondStand *stand, Words words)
{
  Level level = level_of (self, point_of (self, stand));

  if (level == LEVEL_NONE || stand->place >= 0 || is_held (self, stand))
    return;
  if (words != WORDS_NUMBERS)
    {
      if ((stand->mark == BOND_MARK_PASS) == (words == WORDS_VALUES_PASSED))
        offer_value (self, cr, stand, level);
    }
  else if (point_of (self, stand) != self->current) /* its label is the layer's */
    offer_number (self, cr, stand, level);
}

static void
draw_labels (BondDiagram *self, cairo_t *cr)
{
  Words words;
  guint i;

  take_places (self);
  if (!bond_diagram_has_labels (self))
    return;
  draw_counts (self, cr);
  if (self->stands->len > WORD_MARKS)
    return;
  for (words = WORDS_NUMBERS; words < N_WORDS; words++)
    for (i = 0; i < self->stands->len; i++)
      offer_words (self, cr, stand_at (self, i), words);
}

/* --- the picture -------------------------------------------------------------------------------------------------- */

void
bond_diagram_draw_base (BondDiagram *self, cairo_t *cr)
{
  bond_labeller_begin (self->labeller, gtk_widget_get_pango_context (GTK_WIDGET (self)));
  bond_diagram_lay_out (self);
  bond_diagram_draw_airframe (self, cr);
  draw_marks (self, cr);
  draw_labels (self, cr);
  bond_diagram_draw_numbers (self, cr);
  bond_diagram_draw_sides (self, cr);
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
