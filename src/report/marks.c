/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * Draws the marks, so that screen and paper say the same thing with the same
 * shape.  A mark is one row of a table: a body, what stands beneath it, what is
 * added, and the inks of each.  Shape alone tells every mark; ink comes second.
 * Where a mark stands and what lies around it is left to the caller.
 *
 * All measures below are in units of the width of the single plate.
 */
#include "report/marks.h"

#include <glib/gi18n-lib.h>
#include <math.h>

typedef enum
{
  BODY_PLATE,   /* one piece: at or under the limit */
  BODY_HOLLOW,  /* no reading that counts */
  BODY_NOTCH,   /* one piece, within U */
  BODY_CUT,     /* two pieces side by side: above, within U */
  BODY_STEPPED, /* two pieces apart: above */
  BODY_STEPPED_OPEN,
  BODY_TRAILING, /* a piece and three dots: nothing to judge it against */
  BODY_DASH,
  BODY_DOT,
} Body;

typedef enum
{
  BENEATH_NOTHING,
  BENEATH_LINE,
  BENEATH_DASHES
} Beneath;
typedef enum
{
  EXTRA_NOTHING,
  EXTRA_SLASH,
  EXTRA_QUERY,
  EXTRA_FRAME,
  EXTRA_EYE
} Extra;

#define INK(field) G_STRUCT_OFFSET (BondInks, field)

typedef struct
{
  const char *name;
  Body body;
  gsize ink;
  Beneath beneath;
  Extra extra;
  gsize extra_ink; /* of the extra and of the line beneath */
} Shape;

static const Shape shapes[BOND_N_MARKS] = {
  [BOND_MARK_TO_MEASURE] = { N_ ("to measure"), BODY_HOLLOW, INK (todo) },
  [BOND_MARK_PASS] = { N_ ("pass"), BODY_PLATE, INK (pass) },
  [BOND_MARK_WITHIN_PASS] = { N_ ("pass, within U of the limit"), BODY_NOTCH, INK (guard) },
  /* Beyond its limit: never in the milder ink, whatever U is. */
  [BOND_MARK_WITHIN_FAIL] = { N_ ("fail, within U of the limit"), BODY_CUT, INK (fail) },
  [BOND_MARK_FAIL] = { N_ ("fail"), BODY_STEPPED, INK (fail) },
  [BOND_MARK_REMEASURE] = { N_ ("re-measure"), BODY_STEPPED_OPEN, INK (history) },
  [BOND_MARK_PASS_AFTER_REWORK]
  = { N_ ("pass after rework"), BODY_PLATE, INK (pass), BENEATH_LINE, EXTRA_NOTHING, INK (history) },
  [BOND_MARK_ACCEPTED] = { N_ ("accepted by engineering disposition"), BODY_STEPPED, INK (fail), BENEATH_LINE,
                           EXTRA_NOTHING, INK (history) },
  [BOND_MARK_NOT_ACCESSIBLE]
  = { N_ ("not accessible"), BODY_HOLLOW, INK (todo), BENEATH_NOTHING, EXTRA_SLASH, INK (todo) },
  [BOND_MARK_NOT_FITTED] = { N_ ("not fitted or not applicable"), BODY_DASH, INK (todo) },
  [BOND_MARK_RECORDED] = { N_ ("recorded without limit"), BODY_TRAILING, INK (pass) },
  [BOND_MARK_SUSPECT] = { N_ ("suspect"), BODY_HOLLOW, INK (guard), BENEATH_NOTHING, EXTRA_QUERY, INK (guard) },
  [BOND_MARK_IN_DOUBT] = { N_ ("in doubt"), BODY_PLATE, INK (pass), BENEATH_NOTHING, EXTRA_FRAME, INK (guard) },
  [BOND_MARK_NOT_CONFIRMED]
  = { N_ ("not confirmed"), BODY_PLATE, INK (pass), BENEATH_DASHES, EXTRA_NOTHING, INK (history) },
  [BOND_MARK_CARRIED]
  = { N_ ("carried forward or deferred"), BODY_STEPPED, INK (fail), BENEATH_DASHES, EXTRA_NOTHING, INK (history) },
  [BOND_MARK_NOT_IN_SAMPLE] = { N_ ("not in sample"), BODY_DOT, INK (todo) },
  [BOND_MARK_VISUAL_REJECT]
  = { N_ ("visual reject"), BODY_STEPPED, INK (fail), BENEATH_NOTHING, EXTRA_EYE, INK (fail) },
};

/* Marks that follow from the state alone. */
static const BondMark mark_of_state[BOND_N_STATES] = {
  [BOND_STATE_TO_MEASURE] = BOND_MARK_TO_MEASURE,
  [BOND_STATE_REMEASURE] = BOND_MARK_REMEASURE,
  [BOND_STATE_PASS] = BOND_MARK_PASS,
  [BOND_STATE_FAIL] = BOND_MARK_FAIL,
  [BOND_STATE_PASS_AFTER_REWORK] = BOND_MARK_PASS_AFTER_REWORK,
  [BOND_STATE_NOT_CONFIRMED] = BOND_MARK_NOT_CONFIRMED,
  [BOND_STATE_ACCEPTED] = BOND_MARK_ACCEPTED,
  [BOND_STATE_CARRIED_FORWARD] = BOND_MARK_CARRIED,
  [BOND_STATE_DEFERRED] = BOND_MARK_CARRIED,
  [BOND_STATE_NOT_ACCESSIBLE] = BOND_MARK_NOT_ACCESSIBLE,
  [BOND_STATE_NOT_FITTED] = BOND_MARK_NOT_FITTED,
  [BOND_STATE_NOT_APPLICABLE] = BOND_MARK_NOT_FITTED,
  [BOND_STATE_NOT_IN_SAMPLE] = BOND_MARK_NOT_IN_SAMPLE,
  [BOND_STATE_RECORDED] = BOND_MARK_RECORDED,
  [BOND_STATE_SUSPECT] = BOND_MARK_SUSPECT,
  [BOND_STATE_IN_DOUBT] = BOND_MARK_IN_DOUBT,
};

#define HALF_HEIGHT 0.245
#define PEN 0.09
#define BENEATH_PEN 0.1
#define DASH 0.2          /* of the dashes beneath, and the gaps between them: both must be seen on a grey copy */
#define STEP_TOP (-0.415) /* stepped pieces: left one up, right one down */
#define PIECE_WIDTH 0.46
#define PIECE_HEIGHT 0.49
#define BENEATH_PLATE 0.455
#define BENEATH_STEPPED 0.64
#define ROUNDED_FROM 20.0 /* below this width a corner of 0.06 is less than a pixel and only costs time */

static void
set_ink (cairo_t *cr, const BondInks *inks, gsize offset)
{
  const BondRgb *rgb = G_STRUCT_MEMBER_P (inks, offset);

  cairo_set_source_rgb (cr, rgb->r, rgb->g, rgb->b);
}

/* A rectangle, its corners rounded where that can be seen. Measures in user units but for the factor @s. */
static void
piece (cairo_t *cr, double s, double x, double y, double width, double height)
{
  double r = 0.06 * s;

  if (s < ROUNDED_FROM)
    {
      cairo_rectangle (cr, x * s, y * s, width * s, height * s);
      return;
    }
  x *= s, y *= s, width *= s, height *= s;
  cairo_new_sub_path (cr);
  cairo_arc (cr, x + width - r, y + r, r, -G_PI_2, 0);
  cairo_arc (cr, x + width - r, y + height - r, r, 0, G_PI_2);
  cairo_arc (cr, x + r, y + height - r, r, G_PI_2, G_PI);
  cairo_arc (cr, x + r, y + r, r, G_PI, 3 * G_PI_2);
  cairo_close_path (cr);
}

/* The same as a frame whose outer edge is the rectangle. */
static void
open_piece (cairo_t *cr, double s, double x, double y, double width, double height)
{
  piece (cr, s, x + PEN / 2, y + PEN / 2, width - PEN, height - PEN);
  cairo_set_line_width (cr, PEN * s);
  cairo_stroke (cr);
}

static void
draw_plate (cairo_t *cr, double s)
{
  piece (cr, s, -0.5, -HALF_HEIGHT, 1, 2 * HALF_HEIGHT);
  cairo_fill (cr);
}

static void
draw_hollow (cairo_t *cr, double s)
{
  open_piece (cr, s, -0.5, -HALF_HEIGHT, 1, 2 * HALF_HEIGHT);
}

static void
draw_notch (cairo_t *cr, double s)
{
  static const double corner[][2] = {
    { -0.5, -HALF_HEIGHT }, { -0.09, -HALF_HEIGHT }, { -0.09, 0.04 },      { 0.09, 0.04 },
    { 0.09, -HALF_HEIGHT }, { 0.5, -HALF_HEIGHT },   { 0.5, HALF_HEIGHT }, { -0.5, HALF_HEIGHT },
  };
  guint i;

  for (i = 0; i < G_N_ELEMENTS (corner); i++)
    cairo_line_to (cr, corner[i][0] * s, corner[i][1] * s);
  cairo_close_path (cr);
  cairo_fill (cr);
}

static void
draw_cut (cairo_t *cr, double s)
{
  piece (cr, s, -0.51, -HALF_HEIGHT, 0.43, 2 * HALF_HEIGHT);
  piece (cr, s, 0.08, -HALF_HEIGHT, 0.43, 2 * HALF_HEIGHT);
  cairo_fill (cr);
}

static void
draw_stepped (cairo_t *cr, double s)
{
  piece (cr, s, -0.52, STEP_TOP, PIECE_WIDTH, PIECE_HEIGHT);
  piece (cr, s, 0.06, -STEP_TOP - PIECE_HEIGHT, PIECE_WIDTH, PIECE_HEIGHT);
  cairo_fill (cr);
}

static void
draw_stepped_open (cairo_t *cr, double s)
{
  open_piece (cr, s, -0.56, STEP_TOP, 0.5, PIECE_HEIGHT);
  open_piece (cr, s, 0.06, -STEP_TOP - PIECE_HEIGHT, 0.5, PIECE_HEIGHT);
}

static void
dot (cairo_t *cr, double s, double x, double radius)
{
  cairo_new_sub_path (cr);
  cairo_arc (cr, x * s, 0, radius * s, 0, 2 * G_PI);
}

static void
draw_trailing (cairo_t *cr, double s)
{
  piece (cr, s, -0.53, -HALF_HEIGHT, 0.56, 2 * HALF_HEIGHT);
  dot (cr, s, 0.18, 0.06);
  dot (cr, s, 0.33, 0.06);
  dot (cr, s, 0.48, 0.06);
  cairo_fill (cr);
}

static void
draw_dash (cairo_t *cr, double s)
{
  cairo_rectangle (cr, -0.4 * s, -0.04 * s, 0.8 * s, 0.08 * s);
  cairo_fill (cr);
}

static void
draw_dot (cairo_t *cr, double s)
{
  dot (cr, s, 0, 0.12);
  cairo_fill (cr);
}

static void (*const draw_body[]) (cairo_t *cr, double s) = {
  [BODY_PLATE] = draw_plate,       [BODY_HOLLOW] = draw_hollow,   [BODY_NOTCH] = draw_notch,
  [BODY_CUT] = draw_cut,           [BODY_STEPPED] = draw_stepped, [BODY_STEPPED_OPEN] = draw_stepped_open,
  [BODY_TRAILING] = draw_trailing, [BODY_DASH] = draw_dash,       [BODY_DOT] = draw_dot,
};

/* The line beneath: whole = put right or accepted, three dashes = not settled for good. */
static void
draw_beneath (cairo_t *cr, double s, const Shape *shape)
{
  double y = shape->body == BODY_STEPPED ? BENEATH_STEPPED : BENEATH_PLATE;
  double top = (y - BENEATH_PEN / 2) * s, x;

  if (shape->beneath == BENEATH_LINE)
    cairo_rectangle (cr, -0.5 * s, top, s, BENEATH_PEN * s);
  else
    for (x = -0.5; x < 0.5; x += 2 * DASH)
      cairo_rectangle (cr, x * s, top, DASH * s, BENEATH_PEN * s);
  cairo_fill (cr);
}

static void
draw_slash (cairo_t *cr, double s)
{
  cairo_move_to (cr, -0.22 * s, 0.42 * s);
  cairo_line_to (cr, 0.22 * s, -0.42 * s);
  cairo_set_line_width (cr, PEN * s);
  cairo_stroke (cr);
}

/* A question mark above the plate, drawn, so that it does not hang on a font. */
static void
draw_query (cairo_t *cr, double s)
{
  cairo_new_sub_path (cr);
  cairo_arc (cr, 0, -0.68 * s, 0.12 * s, -0.95 * G_PI, 0.28 * G_PI);
  cairo_line_to (cr, 0, -0.47 * s);
  cairo_set_line_width (cr, PEN * s);
  cairo_stroke (cr);
  cairo_arc (cr, 0, -0.37 * s, 0.055 * s, 0, 2 * G_PI);
  cairo_fill (cr);
}

static void
draw_frame (cairo_t *cr, double s)
{
  double dash = 0.12 * s;

  cairo_save (cr);
  cairo_set_dash (cr, &dash, 1, 0);
  cairo_rectangle (cr, -0.7 * s, -0.43 * s, 1.4 * s, 0.86 * s);
  cairo_set_line_width (cr, PEN * s);
  cairo_stroke (cr);
  cairo_restore (cr);
}

/* A small eye in the free upper corner of the stepped pieces. */
static void
draw_eye (cairo_t *cr, double s)
{
  double y = -0.42 * s;

  cairo_move_to (cr, 0.04 * s, y);
  cairo_curve_to (cr, 0.16 * s, y - 0.26 * s, 0.44 * s, y - 0.26 * s, 0.56 * s, y);
  cairo_curve_to (cr, 0.44 * s, y + 0.26 * s, 0.16 * s, y + 0.26 * s, 0.04 * s, y);
  cairo_close_path (cr);
  cairo_set_line_width (cr, 0.06 * s);
  cairo_stroke (cr);
  cairo_arc (cr, 0.3 * s, y, 0.08 * s, 0, 2 * G_PI);
  cairo_fill (cr);
}

static void (*const draw_extra[]) (cairo_t *cr, double s) = {
  [EXTRA_SLASH] = draw_slash,
  [EXTRA_QUERY] = draw_query,
  [EXTRA_FRAME] = draw_frame,
  [EXTRA_EYE] = draw_eye,
};

static void
sign_plate (cairo_t *cr, double s)
{
  cairo_rectangle (cr, -0.5 * s, -0.19 * s, s, 0.38 * s);
  cairo_fill (cr);
}

static void
sign_bolt (cairo_t *cr, double s)
{
  cairo_rectangle (cr, -0.45 * s, -0.47 * s, 0.9 * s, 0.28 * s);
  cairo_rectangle (cr, -0.14 * s, -0.19 * s, 0.28 * s, 0.66 * s);
  cairo_fill (cr);
}

static void
sign_tube (cairo_t *cr, double s)
{
  cairo_new_sub_path (cr);
  cairo_arc (cr, 0, 0, 0.36 * s, 0, 2 * G_PI);
  cairo_set_line_width (cr, 0.19 * s);
  cairo_stroke (cr);
}

static void
sign_box (cairo_t *cr, double s)
{
  cairo_rectangle (cr, -0.43 * s, -0.36 * s, 0.86 * s, 0.72 * s);
  cairo_set_line_width (cr, 0.14 * s);
  cairo_stroke (cr);
}

static void (*const draw_sign[BOND_N_CLASSES]) (cairo_t *cr, double s) = {
  [BOND_CLASS_STRUCTURE] = sign_plate,
  [BOND_CLASS_FASTENER] = sign_bolt,
  [BOND_CLASS_FLUID_LINE] = sign_tube,
  [BOND_CLASS_EQUIPMENT] = sign_box,
};

/* Opens a drawing around (x, y) with an empty path and plain pens. */
static void
begin (cairo_t *cr, double x, double y)
{
  cairo_save (cr);
  cairo_translate (cr, x, y);
  cairo_new_path (cr);
  cairo_set_line_cap (cr, CAIRO_LINE_CAP_BUTT);
  cairo_set_line_join (cr, CAIRO_LINE_JOIN_MITER);
  cairo_set_dash (cr, NULL, 0, 0);
}

/* Under the simple rule within U is the second line of pass and fail; under the guarded one the zone word decides. */
static BondMark
judged_mark (const BondPlaceResult *result, BondRule rule)
{
  static const BondMark of_word[] = {
    [BOND_ZONE_WORD_PASS] = BOND_MARK_PASS,
    [BOND_ZONE_WORD_CONDITIONAL_PASS] = BOND_MARK_WITHIN_PASS,
    [BOND_ZONE_WORD_CONDITIONAL_FAIL] = BOND_MARK_WITHIN_FAIL,
    [BOND_ZONE_WORD_FAIL] = BOND_MARK_FAIL,
  };
  const BondMeasurement *decides = result->decides;

  if (result->visual_reject && (decides == NULL || decides->outcome != BOND_OUTCOME_JUDGED || decides->conforms))
    return BOND_MARK_VISUAL_REJECT;
  if (rule == BOND_RULE_GUARDED && decides != NULL && decides->outcome == BOND_OUTCOME_JUDGED)
    return of_word[decides->zone];
  if (!result->within_u)
    return mark_of_state[result->state];
  return result->state == BOND_STATE_PASS ? BOND_MARK_WITHIN_PASS : BOND_MARK_WITHIN_FAIL;
}

BondMark
bond_mark_for (const BondPlaceResult *result, BondRule rule)
{
  g_return_val_if_fail (result != NULL, BOND_MARK_TO_MEASURE);
  g_return_val_if_fail ((guint)result->state < BOND_N_STATES, BOND_MARK_TO_MEASURE);

  if (result->state == BOND_STATE_PASS || result->state == BOND_STATE_FAIL)
    return judged_mark (result, rule);
  return mark_of_state[result->state];
}

const char *
bond_mark_name (BondMark mark)
{
  g_return_val_if_fail ((guint)mark < BOND_N_MARKS, "");
  return _ (shapes[mark].name);
}

void
bond_mark_draw (cairo_t *cr, BondMark mark, double x, double y, double size, const BondInks *inks)
{
  const Shape *shape;

  g_return_if_fail (cr != NULL && inks != NULL);
  g_return_if_fail ((guint)mark < BOND_N_MARKS);
  shape = &shapes[mark];

  begin (cr, x, y);
  set_ink (cr, inks, shape->ink);
  draw_body[shape->body](cr, size);
  if (shape->beneath != BENEATH_NOTHING || shape->extra != EXTRA_NOTHING)
    set_ink (cr, inks, shape->extra_ink);
  if (shape->beneath != BENEATH_NOTHING)
    draw_beneath (cr, size, shape);
  if (shape->extra != EXTRA_NOTHING)
    draw_extra[shape->extra](cr, size);
  cairo_restore (cr);
}

void
bond_probe_ticks_draw (cairo_t *cr, double x, double y, double size, const BondRgb *ink)
{
  /* Current outside, voltage inside, on both sides: middles of the upright ticks. */
  static const double middles[] = { -1.02, -0.78, 0.78, 1.02 };
  guint i;

  g_return_if_fail (cr != NULL && ink != NULL);
  begin (cr, x, y);
  cairo_set_source_rgb (cr, ink->r, ink->g, ink->b);
  for (i = 0; i < G_N_ELEMENTS (middles); i++)
    cairo_rectangle (cr, (middles[i] - 0.055) * size, -0.39 * size, 0.11 * size, 0.78 * size);
  cairo_fill (cr);
  cairo_restore (cr);
}

void
bond_class_sign_draw (cairo_t *cr, BondClass klass, double x, double y, double size, const BondRgb *ink)
{
  g_return_if_fail (cr != NULL && ink != NULL);
  g_return_if_fail ((guint)klass < BOND_N_CLASSES);

  begin (cr, x, y);
  cairo_set_source_rgb (cr, ink->r, ink->g, ink->b);
  draw_sign[klass](cr, size);
  cairo_restore (cr);
}
