/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * Two surfaces take turns as the outline's picture: GTK still holds the last frame
 * while the next is drawn, and drawing on a surface that a recorded frame refers
 * to would make cairo copy all of it first.
 */
#include "gui/widgets/diagram-cache.h"

#include <math.h>

#define MARGIN 128 /* pixels round the window that are drawn in advance */
#define HALO 1.5   /* pixels of paper round each mark, so that marks that overlap stay readable */
#define HALO_STEPS 8
#define ROOM 2.0   /* width and height of a stamp in plates: the dashed frame and the question mark fit */
#define QUIET 0.62 /* how much of the text ink a pass keeps at whole-airframe zoom */

struct _BondOutlineCache
{
  cairo_surface_t *surface[2];
  guint turn;
  BondPicture made_for;
  char *font;
  BondCamera camera; /* of the picture: its corner is MARGIN pixels out */
  int width, height; /* of the picture in pixels */
  gboolean valid;
};

struct _BondMarkStamps
{
  cairo_surface_t *stamp[BOND_N_MARKS];
  BondInks inks, quiet_inks, paper_inks;
  const BondInks *made_for;
  double size;
  int scale_factor;
  gboolean quiet;
};

static cairo_surface_t *
new_surface (int width, int height, int scale_factor)
{
  cairo_surface_t *surface
      = cairo_image_surface_create (CAIRO_FORMAT_ARGB32, width * scale_factor, height * scale_factor);

  cairo_surface_set_device_scale (surface, scale_factor, scale_factor);
  return surface;
}

static gboolean
fits_surface (cairo_surface_t *surface, int width, int height, int scale_factor)
{
  return surface != NULL && cairo_image_surface_get_width (surface) == width * scale_factor
         && cairo_image_surface_get_height (surface) == height * scale_factor;
}

BondOutlineCache *
bond_outline_cache_new (void)
{
  return g_new0 (BondOutlineCache, 1);
}

void
bond_outline_cache_free (BondOutlineCache *cache)
{
  if (cache == NULL)
    return;
  g_clear_pointer (&cache->surface[0], cairo_surface_destroy);
  g_clear_pointer (&cache->surface[1], cairo_surface_destroy);
  g_free (cache->font);
  g_free (cache);
}

void
bond_outline_cache_drop (BondOutlineCache *cache)
{
  g_return_if_fail (cache != NULL);
  cache->valid = FALSE;
}

/* Pixels from the picture's corner to the window's. */
static void
offset_of (const BondOutlineCache *cache, const BondCamera *camera, double *dx, double *dy)
{
  bond_camera_to_pixel (&cache->camera, camera->x, camera->y, dx, dy);
}

static gboolean
is_valid (const BondOutlineCache *cache, const BondPicture *picture, const BondCamera *camera, int width, int height)
{
  const BondPicture *made = &cache->made_for;
  double dx, dy;

  if (!cache->valid || made->airframe != picture->airframe || made->view != picture->view || made->inks != picture->inks
      || made->scale_factor != picture->scale_factor || g_strcmp0 (cache->font, picture->font) != 0
      || cache->camera.scale != camera->scale)
    return FALSE;
  offset_of (cache, camera, &dx, &dy);
  return dx >= 0.0 && dy >= 0.0 && dx + width <= cache->width && dy + height <= cache->height;
}

static void
render (BondOutlineCache *cache, const BondPicture *picture, const BondCamera *camera, int width, int height)
{
  const BondRgb *paper = &picture->inks->paper;
  BondDiagramStyle style = {
    .inks = picture->inks,
    .font = picture->font,
    .scale = camera->scale,
    .no_sides = TRUE,
  };
  cairo_surface_t **surface;
  cairo_t *cr;

  cache->turn = 1 - cache->turn;
  surface = &cache->surface[cache->turn];
  cache->width = width + 2 * MARGIN;
  cache->height = height + 2 * MARGIN;
  if (!fits_surface (*surface, cache->width, cache->height, picture->scale_factor))
    {
      g_clear_pointer (surface, cairo_surface_destroy);
      *surface = new_surface (cache->width, cache->height, picture->scale_factor);
    }
  cache->camera = *camera;
  cache->camera.x -= MARGIN / camera->scale;
  cache->camera.y -= MARGIN / camera->scale;
  cache->made_for = *picture;
  if (g_strcmp0 (cache->font, picture->font) != 0)
    {
      g_free (cache->font);
      cache->font = g_strdup (picture->font);
    }
  cr = cairo_create (*surface);
  cairo_set_source_rgb (cr, paper->r, paper->g, paper->b);
  cairo_paint (cr);
  cairo_scale (cr, camera->scale, camera->scale);
  cairo_translate (cr, -cache->camera.x, -cache->camera.y);
  bond_diagram_paint (cr, picture->airframe, picture->view, &style);
  cairo_destroy (cr);
  cache->valid = TRUE;
}

void
bond_outline_cache_paint (BondOutlineCache *cache, cairo_t *cr, const BondPicture *picture, const BondCamera *camera,
                          int width, int height)
{
  double dx, dy;

  g_return_if_fail (cache != NULL && picture->view != NULL);

  if (!is_valid (cache, picture, camera, width, height))
    render (cache, picture, camera, width, height);
  offset_of (cache, camera, &dx, &dy);
  dx = round (dx * picture->scale_factor) / picture->scale_factor;
  dy = round (dy * picture->scale_factor) / picture->scale_factor;
  cairo_save (cr);
  cairo_set_source_surface (cr, cache->surface[cache->turn], -dx, -dy);
  cairo_pattern_set_filter (cairo_get_source (cr), CAIRO_FILTER_NEAREST);
  cairo_rectangle (cr, 0, 0, width, height);
  cairo_fill (cr);
  cairo_restore (cr);
}

BondMarkStamps *
bond_mark_stamps_new (void)
{
  return g_new0 (BondMarkStamps, 1);
}

static void
drop_stamps (BondMarkStamps *stamps)
{
  guint i;

  for (i = 0; i < BOND_N_MARKS; i++)
    g_clear_pointer (&stamps->stamp[i], cairo_surface_destroy);
}

void
bond_mark_stamps_free (BondMarkStamps *stamps)
{
  if (stamps == NULL)
    return;
  drop_stamps (stamps);
  g_free (stamps);
}

static BondRgb
mix (const BondRgb *ink, const BondRgb *paper, double part)
{
  return (BondRgb){ paper->r + (ink->r - paper->r) * part, paper->g + (ink->g - paper->g) * part,
                    paper->b + (ink->b - paper->b) * part };
}

/* All inks the colour of the paper: what a mark's halo is drawn with. */
static BondInks
all_paper (const BondInks *inks)
{
  BondInks paper = *inks;

  paper.text = paper.quiet = paper.todo = paper.pass = paper.guard = paper.fail = inks->paper;
  paper.history = paper.accent = paper.line = paper.outline = inks->paper;
  return paper;
}

void
bond_mark_stamps_set (BondMarkStamps *stamps, const BondInks *inks, double size, int scale_factor, gboolean quiet)
{
  g_return_if_fail (stamps != NULL && size > 0.0 && scale_factor > 0);

  if (stamps->made_for == inks && stamps->size == size && stamps->scale_factor == scale_factor
      && stamps->quiet == quiet)
    return;
  drop_stamps (stamps);
  stamps->made_for = inks;
  stamps->inks = stamps->quiet_inks = *inks;
  stamps->quiet_inks.text = stamps->quiet_inks.pass = mix (&inks->text, &inks->paper, QUIET);
  stamps->paper_inks = all_paper (inks);
  stamps->size = size;
  stamps->scale_factor = scale_factor;
  stamps->quiet = quiet;
}

/* The solid mark with the same outer shape, for filling a hollow one with paper. */
static BondMark
solid_like (BondMark mark)
{
  switch (mark)
    {
    case BOND_MARK_TO_MEASURE:
    case BOND_MARK_NOT_ACCESSIBLE:
    case BOND_MARK_SUSPECT:
    case BOND_MARK_IN_DOUBT:
      return BOND_MARK_PASS;
    case BOND_MARK_REMEASURE:
      return BOND_MARK_FAIL;
    default:
      return mark;
    }
}

/* Half the width and height, in device pixels from the middle, that hold all of the picture's ink. */
static void
measure_ink (cairo_surface_t *surface, int *half_width, int *half_height)
{
  int side = cairo_image_surface_get_width (surface);
  int stride = cairo_image_surface_get_stride (surface);
  const guchar *data;
  int x, y;

  cairo_surface_flush (surface);
  data = cairo_image_surface_get_data (surface);
  *half_width = *half_height = 1;
  for (y = 0; y < side; y++)
    for (x = 0; x < side; x++)
      if (((const guint32 *)(gconstpointer)(data + y * stride))[x] >> 24 != 0)
        {
          *half_width = MAX (*half_width, MAX (side / 2 - x, x + 1 - side / 2));
          *half_height = MAX (*half_height, MAX (side / 2 - y, y + 1 - side / 2));
        }
}

/* Most marks fill a small part of the room kept for the largest; what is not there need not be stamped. */
static cairo_surface_t *
crop (cairo_surface_t *surface, int scale_factor)
{
  int side = cairo_image_surface_get_width (surface);
  int half_width, half_height;
  cairo_surface_t *cropped;
  cairo_t *cr;

  measure_ink (surface, &half_width, &half_height);
  cropped = cairo_image_surface_create (CAIRO_FORMAT_ARGB32, 2 * half_width, 2 * half_height);
  cairo_surface_set_device_scale (surface, 1.0, 1.0);
  cr = cairo_create (cropped);
  cairo_set_source_surface (cr, surface, half_width - side / 2, half_height - side / 2);
  cairo_paint (cr);
  cairo_destroy (cr);
  cairo_surface_set_device_scale (cropped, scale_factor, scale_factor);
  cairo_surface_destroy (surface);
  return cropped;
}

static cairo_surface_t *
make_stamp (const BondMarkStamps *stamps, BondMark mark)
{
  int side = 2 * (int)ceil (stamps->size * ROOM / 2.0 + HALO);
  cairo_surface_t *surface = new_surface (side, side, stamps->scale_factor);
  gboolean is_plain = mark == BOND_MARK_PASS;
  cairo_t *cr = cairo_create (surface);
  guint i;

  for (i = 0; i < HALO_STEPS; i++)
    {
      double angle = 2.0 * G_PI * i / HALO_STEPS;
      double x = side / 2.0 + HALO * cos (angle);
      double y = side / 2.0 + HALO * sin (angle);

      bond_mark_draw (cr, solid_like (mark), x, y, stamps->size, &stamps->paper_inks);
      if (solid_like (mark) != mark)
        bond_mark_draw (cr, mark, x, y, stamps->size, &stamps->paper_inks);
    }
  bond_mark_draw (cr, mark, side / 2.0, side / 2.0, stamps->size,
                  stamps->quiet && is_plain ? &stamps->quiet_inks : &stamps->inks);
  cairo_destroy (cr);
  return crop (surface, stamps->scale_factor);
}

void
bond_mark_stamps_paint (BondMarkStamps *stamps, cairo_t *cr, BondMark mark, double x, double y)
{
  double half_width, half_height, scale = stamps->scale_factor;

  g_return_if_fail ((guint)mark < BOND_N_MARKS && stamps->size > 0.0);

  if (stamps->stamp[mark] == NULL)
    stamps->stamp[mark] = make_stamp (stamps, mark);
  half_width = cairo_image_surface_get_width (stamps->stamp[mark]) / scale / 2.0;
  half_height = cairo_image_surface_get_height (stamps->stamp[mark]) / scale / 2.0;
  cairo_set_source_surface (cr, stamps->stamp[mark], round ((x - half_width) * scale) / scale,
                            round ((y - half_height) * scale) / scale);
  cairo_paint (cr);
}
