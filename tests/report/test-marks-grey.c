/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * A grey copy of the coloured screen or page: every mark must still be told from
 * every other one, at each size it is drawn in.  Colours are turned to grey here
 * with the weights of ITU-R BT.709 (0.2126, 0.7152, 0.0722; figures from memory).
 * With BOND_GREY_PICTURE set to a file name all of them are drawn there, to look at.
 */
#include "report/marks.h"

#include <math.h>

#define ROOM 2.2   /* plates: the side of the square that holds any mark */
#define CLEAR 60   /* of 255: a pixel that much lighter or darker is seen to differ */
#define SHARE 0.03 /* of the square of the plate's width: fewer pixels than this could be overlooked */

typedef struct
{
  const char *place;
  double size;    /* plate width in the unit of the medium */
  double density; /* device pixels for one unit: paper is looked at in 300 dpi */
} Size;

static const Size sizes[] = {
  { "list row", 16, 1 },         { "whole airframe", 12, 1 },        { "close-up", 24, 1 },
  { "place of a group", 14, 1 }, { "printed table", 6, 300 / 72.0 }, { "printed diagram", 4.2, 300 / 72.0 },
};

static int
grey_of (const guchar *pixel)
{
  return (int)lround (0.2126 * pixel[2] + 0.7152 * pixel[1] + 0.0722 * pixel[0]);
}

static int
side_of (const Size *size)
{
  return (int)ceil (size->size * size->density * ROOM);
}

/* One byte a pixel. (transfer full) */
static guchar *
draw_grey (const BondInks *inks, BondMark mark, const Size *size)
{
  int side = side_of (size), x, y;
  cairo_surface_t *surface = cairo_image_surface_create (CAIRO_FORMAT_ARGB32, side, side);
  cairo_t *cr = cairo_create (surface);
  guchar *grey = g_malloc ((gsize)side * (gsize)side);

  cairo_set_source_rgb (cr, inks->paper.r, inks->paper.g, inks->paper.b);
  cairo_paint (cr);
  bond_mark_draw (cr, mark, side / 2.0, side / 2.0, size->size * size->density, inks);
  cairo_destroy (cr);
  cairo_surface_flush (surface);
  for (y = 0; y < side; y++)
    for (x = 0; x < side; x++)
      grey[y * side + x] = (guchar)grey_of (cairo_image_surface_get_data (surface)
                                            + y * cairo_image_surface_get_stride (surface) + 4 * x);
  cairo_surface_destroy (surface);
  return grey;
}

/* Pixels that differ clearly when the second mark is moved by up to one pixel: a shift alone must not count. */
static int
least_different (const guchar *a, const guchar *b, int side)
{
  int least = G_MAXINT, dx, dy, x, y;

  for (dy = -1; dy <= 1; dy++)
    for (dx = -1; dx <= 1; dx++)
      {
        int n = 0;

        for (y = 1; y < side - 1; y++)
          for (x = 1; x < side - 1; x++)
            n += ABS (a[y * side + x] - b[(y + dy) * side + x + dx]) >= CLEAR;
        least = MIN (least, n);
      }
  return least;
}

static void
check_size (const BondInks *inks, const char *look, const Size *size)
{
  guchar *grey[BOND_N_MARKS];
  int needed = MAX (4, (int)(SHARE * pow (size->size * size->density, 2.0)));
  int least = G_MAXINT, least_i = 0, least_j = 0, i, j;

  for (i = 0; i < BOND_N_MARKS; i++)
    grey[i] = draw_grey (inks, (BondMark)i, size);
  for (i = 0; i < BOND_N_MARKS; i++)
    for (j = i + 1; j < BOND_N_MARKS; j++)
      {
        int n = least_different (grey[i], grey[j], side_of (size));

        if (n < least)
          least = n, least_i = i, least_j = j;
      }
  g_test_message ("%s, %s: the two most alike, “%s” and “%s”, differ in %d pixels; %d are needed", look, size->place,
                  bond_mark_name ((BondMark)least_i), bond_mark_name ((BondMark)least_j), least, needed);
  g_assert_cmpint (least, >=, needed);
  for (i = 0; i < BOND_N_MARKS; i++)
    g_free (grey[i]);
}

static void
test_grey (gconstpointer data)
{
  const Size *size = data;

  check_size (bond_inks_light (), "light", size);
  if (size->density == 1) /* nothing is printed in the inks of the dark look */
    check_size (bond_inks_dark (), "dark", size);
  check_size (bond_inks_one (), "one ink", size);
}

/* --- the picture -------------------------------------------------------------------------------------------------- */

static void
draw_row (cairo_t *cr, const BondInks *inks, const Size *size, double y)
{
  int i;

  cairo_set_source_rgb (cr, inks->paper.r, inks->paper.g, inks->paper.b);
  cairo_rectangle (cr, 0, y, BOND_N_MARKS * 60, 60);
  cairo_fill (cr);
  for (i = 0; i < BOND_N_MARKS; i++)
    bond_mark_draw (cr, (BondMark)i, 30 + i * 60, y + 30, size->size * size->density, inks);
}

static void
turn_grey (cairo_surface_t *surface)
{
  int x, y;

  cairo_surface_flush (surface);
  for (y = 0; y < cairo_image_surface_get_height (surface); y++)
    for (x = 0; x < cairo_image_surface_get_width (surface); x++)
      {
        guchar *pixel = cairo_image_surface_get_data (surface) + y * cairo_image_surface_get_stride (surface) + 4 * x;

        pixel[0] = pixel[1] = pixel[2] = (guchar)grey_of (pixel);
      }
  cairo_surface_mark_dirty (surface);
}

static void
test_picture (void)
{
  const BondInks *looks[] = { bond_inks_light (), bond_inks_dark (), bond_inks_one () };
  const char *file = g_getenv ("BOND_GREY_PICTURE");
  cairo_surface_t *surface;
  cairo_t *cr;
  guint look, i, row = 0;

  if (file == NULL)
    {
      g_test_skip ("BOND_GREY_PICTURE names no file");
      return;
    }
  surface = cairo_image_surface_create (CAIRO_FORMAT_RGB24, BOND_N_MARKS * 60,
                                        (int)(G_N_ELEMENTS (looks) * G_N_ELEMENTS (sizes)) * 60);
  cr = cairo_create (surface);
  for (look = 0; look < G_N_ELEMENTS (looks); look++)
    for (i = 0; i < G_N_ELEMENTS (sizes); i++)
      draw_row (cr, looks[look], &sizes[i], 60.0 * row++);
  cairo_destroy (cr);
  turn_grey (surface);
  g_assert_cmpint (cairo_surface_write_to_png (surface, file), ==, CAIRO_STATUS_SUCCESS);
  cairo_surface_destroy (surface);
}

int
main (int argc, char **argv)
{
  guint i;

  g_test_init (&argc, &argv, NULL);
  for (i = 0; i < G_N_ELEMENTS (sizes); i++)
    {
      g_autofree char *path = g_strdelimit (g_strconcat ("/report/marks-grey/", sizes[i].place, NULL), " ", '-');

      g_test_add_data_func (path, &sizes[i], test_grey);
    }
  g_test_add_func ("/report/marks-grey/picture", test_picture);
  return g_test_run ();
}
