/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * The shipped airframes against an independent geometry library (GEOS): zones are
 * simple, do not overlap, leave no gap, fill the outline; points lie in their
 * zones; and 10,000 clicks on each view give the zone GEOS gives.
 */
#include "store/catalog.h"
#include "store/register-file.h"

#include <geos_c.h>
#include <math.h>

#define N_CLICKS 10000
/* Steps of one cubic: fine enough that the outline's own error is far below the tolerance. */
#define FLATTEN_STEPS 24
/* Nearer to an edge than this, two ways of counting may differ. */
#define EDGE_BAND 1e-6
#define MAX_OUTLINE_SHARE 0.005
#define MAX_PLACE_ERROR 0.15
#define MAX_COORDINATE_ERROR 0.1

/* One view as GEOS sees it: one geometry a zone shape, in the view's order. */
typedef struct
{
  const BondView *view;
  GPtrArray *zones; /* of GEOSGeometry: a multipolygon each */
  GEOSGeometry *outline;
} Picture;

typedef void (*PictureCheck) (const Picture *picture);

static GEOSGeometry *
polygon_of (const GArray *corners)
{
  GEOSCoordSequence *sequence = GEOSCoordSeq_create (corners->len + 1, 2);
  guint i;

  for (i = 0; i <= corners->len; i++)
    {
      const BondXY *p = &g_array_index (corners, BondXY, i % corners->len);

      g_assert_true (GEOSCoordSeq_setXY (sequence, i, p->x, p->y));
    }
  return GEOSGeom_createPolygon (GEOSGeom_createLinearRing (sequence), NULL, 0);
}

static GEOSGeometry *
zone_of (const BondZoneShape *shape)
{
  g_autofree GEOSGeometry **polygons = g_new0 (GEOSGeometry *, shape->rings->len);
  guint i;

  for (i = 0; i < shape->rings->len; i++)
    polygons[i] = polygon_of (g_ptr_array_index (shape->rings, i));
  return GEOSGeom_createCollection (GEOS_MULTIPOLYGON, polygons, shape->rings->len);
}

static void
flatten (GArray *corners, const BondPathOp *op)
{
  const BondXY from = g_array_index (corners, BondXY, corners->len - 1);
  int k;

  for (k = 1; k <= FLATTEN_STEPS; k++)
    {
      double u = (double)k / FLATTEN_STEPS, v = 1 - u;
      double b0 = v * v * v, b1 = 3 * v * v * u, b2 = 3 * v * u * u, b3 = u * u * u;
      BondXY p = { b0 * from.x + b1 * op->p[0].x + b2 * op->p[1].x + b3 * op->p[2].x,
                   b0 * from.y + b1 * op->p[0].y + b2 * op->p[1].y + b3 * op->p[2].y };

      g_array_append_val (corners, p);
    }
}

/* Adds one closed part of the outline, even-odd: a part inside another is a hole. */
static GEOSGeometry *
add_part (GEOSGeometry *sum, GArray *corners)
{
  GEOSGeometry *raw, *part, *joined;

  if (corners->len < 3)
    return sum;
  raw = polygon_of (corners);
  part = GEOSBuffer (raw, 0, 8); /* mends a flattened curve that touches itself */
  joined = GEOSSymDifference (sum, part);
  GEOSGeom_destroy (raw);
  GEOSGeom_destroy (part);
  GEOSGeom_destroy (sum);
  g_array_set_size (corners, 0);
  return joined;
}

static GEOSGeometry *
outline_of (const BondPath *path)
{
  g_autoptr (GArray) corners = g_array_new (FALSE, FALSE, sizeof (BondXY));
  GEOSGeometry *sum = GEOSGeom_createEmptyPolygon ();
  guint i;

  for (i = 0; i < path->ops->len; i++)
    {
      const BondPathOp *op = &g_array_index (path->ops, BondPathOp, i);

      if (op->op == 'M' || op->op == 'Z')
        sum = add_part (sum, corners);
      if (op->op == 'M' || op->op == 'L')
        g_array_append_val (corners, op->p[0]);
      else if (op->op == 'C')
        flatten (corners, op);
    }
  return add_part (sum, corners);
}

static double
area_of (const GEOSGeometry *geometry)
{
  double area = 0;

  g_assert_true (GEOSArea (geometry, &area));
  return area;
}

/* The whole drawn aircraft: the sum of its zones. */
static GEOSGeometry *
union_of (const Picture *picture)
{
  g_autofree GEOSGeometry **copies = g_new0 (GEOSGeometry *, picture->zones->len);
  GEOSGeometry *all, *sum;
  guint i;

  for (i = 0; i < picture->zones->len; i++)
    copies[i] = GEOSGeom_clone (g_ptr_array_index (picture->zones, i));
  all = GEOSGeom_createCollection (GEOS_GEOMETRYCOLLECTION, copies, picture->zones->len);
  sum = GEOSUnaryUnion (all);
  GEOSGeom_destroy (all);
  return sum;
}

static void
check_simple (const Picture *picture)
{
  guint i, j;

  for (i = 0; i < picture->zones->len; i++)
    {
      const GEOSGeometry *zone = g_ptr_array_index (picture->zones, i);

      for (j = 0; j < (guint)GEOSGetNumGeometries (zone); j++)
        {
          const GEOSGeometry *polygon = GEOSGetGeometryN (zone, j);

          g_assert_cmpint (GEOSisValid (polygon), ==, 1);
          g_assert_cmpint (GEOSisSimple (GEOSGetExteriorRing (polygon)), ==, 1);
          g_assert_cmpfloat (area_of (polygon), >, 0);
        }
    }
}

/* Every polygon of the view, those of one zone among themselves too: a cut part may touch the other, never cover it. */
static GPtrArray *
polygons_of (const Picture *picture)
{
  GPtrArray *polygons = g_ptr_array_new ();
  guint i;
  int j;

  for (i = 0; i < picture->zones->len; i++)
    {
      const GEOSGeometry *zone = g_ptr_array_index (picture->zones, i);

      for (j = 0; j < GEOSGetNumGeometries (zone); j++)
        g_ptr_array_add (polygons, (gpointer)GEOSGetGeometryN (zone, j));
    }
  return polygons;
}

static void
check_no_overlap (const Picture *picture)
{
  g_autoptr (GPtrArray) polygons = polygons_of (picture);
  guint i, j;

  for (i = 0; i < polygons->len; i++)
    for (j = 0; j < i; j++)
      {
        GEOSGeometry *both = GEOSIntersection (g_ptr_array_index (polygons, i), g_ptr_array_index (polygons, j));

        g_assert_nonnull (both);
        g_assert_cmpfloat (area_of (both), <, 1e-6);
        GEOSGeom_destroy (both);
      }
}

static gboolean
contains_inside_of (const GEOSGeometry *outline, const GEOSGeometry *ring)
{
  GEOSGeometry *hole = GEOSGeom_createPolygon (GEOSGeom_clone (ring), NULL, 0);
  GEOSGeometry *within = GEOSPointOnSurface (hole);
  gboolean inside = GEOSContains (outline, within) == 1;

  GEOSGeom_destroy (hole);
  GEOSGeom_destroy (within);
  return inside;
}

/* A hole of the union is a gap unless the outline has a hole there too. */
static void
check_no_gap (const Picture *picture)
{
  GEOSGeometry *sum = union_of (picture);
  int i, j;

  for (i = 0; i < GEOSGetNumGeometries (sum); i++)
    {
      const GEOSGeometry *part = GEOSGetGeometryN (sum, i);

      for (j = 0; j < GEOSGetNumInteriorRings (part); j++)
        g_assert_false (contains_inside_of (picture->outline, GEOSGetInteriorRingN (part, j)));
    }
  GEOSGeom_destroy (sum);
}

static void
check_fills_outline (const Picture *picture)
{
  GEOSGeometry *sum = union_of (picture), *off = GEOSSymDifference (sum, picture->outline);

  g_test_message ("%s: %.3f %% off its outline", picture->view->id, 100 * area_of (off) / area_of (picture->outline));
  g_assert_cmpfloat (area_of (off), <, MAX_OUTLINE_SHARE * area_of (picture->outline));
  g_assert_cmpfloat (fabs (area_of (sum) - area_of (picture->outline)), <,
                     MAX_OUTLINE_SHARE * area_of (picture->outline));
  GEOSGeom_destroy (off);
  GEOSGeom_destroy (sum);
}

static void
check_in_box (const Picture *picture)
{
  GEOSGeometry *sum = union_of (picture);
  double left, top, right, bottom;

  g_assert_true (GEOSGeom_getXMin (sum, &left) && GEOSGeom_getYMin (sum, &top));
  g_assert_true (GEOSGeom_getXMax (sum, &right) && GEOSGeom_getYMax (sum, &bottom));
  g_assert_cmpfloat (left, >=, 0);
  g_assert_cmpfloat (top, >=, 0);
  g_assert_cmpfloat (right, <=, picture->view->width);
  g_assert_cmpfloat (bottom, <=, picture->view->height);
  GEOSGeom_destroy (sum);
}

static gboolean
is_at_an_edge (const Picture *picture, const GEOSGeometry *point)
{
  guint i;

  for (i = 0; i < picture->zones->len; i++)
    {
      GEOSGeometry *boundary = GEOSBoundary (g_ptr_array_index (picture->zones, i));
      double distance = 0;

      g_assert_true (GEOSDistance (boundary, point, &distance));
      GEOSGeom_destroy (boundary);
      if (distance <= EDGE_BAND)
        return TRUE;
    }
  return FALSE;
}

static const BondZoneShape *
geos_hit (const Picture *picture, const GPtrArray *prepared, const GEOSGeometry *point)
{
  guint i;

  for (i = 0; i < prepared->len; i++)
    if (GEOSPreparedIntersects (g_ptr_array_index (prepared, i), point) == 1)
      return g_ptr_array_index (picture->view->shapes, i);
  return NULL;
}

static void
check_there_and_back (const BondView *view, double x, double y)
{
  BondCoordinate sta, bl, wl;
  double back_x, back_y;

  bond_view_coordinates (view, x, y, &sta, &bl, &wl);
  g_assert_cmpint (sta.known + bl.known + wl.known, ==, 2);
  g_assert_true (bond_view_place (view, &sta, &bl, &wl, &back_x, &back_y));
  g_assert_cmpfloat (fabs (back_x - x), <, MAX_COORDINATE_ERROR);
  g_assert_cmpfloat (fabs (back_y - y), <, MAX_COORDINATE_ERROR);
}

static void
check_clicks (const Picture *picture)
{
  g_autoptr (GPtrArray) prepared = g_ptr_array_new_with_free_func ((GDestroyNotify)GEOSPreparedGeom_destroy);
  guint i, hits = 0;

  for (i = 0; i < picture->zones->len; i++)
    g_ptr_array_add (prepared, (gpointer)GEOSPrepare (g_ptr_array_index (picture->zones, i)));
  for (i = 0; i < N_CLICKS; i++)
    {
      double x = g_test_rand_double_range (0, picture->view->width);
      double y = g_test_rand_double_range (0, picture->view->height);
      GEOSGeometry *point = GEOSGeom_createPointFromXY (x, y);
      const BondZoneShape *ours = bond_view_hit (picture->view, x, y), *theirs = geos_hit (picture, prepared, point);

      if (ours != theirs)
        g_assert_true (is_at_an_edge (picture, point));
      hits += ours != NULL;
      check_there_and_back (picture->view, x, y);
      GEOSGeom_destroy (point);
    }
  g_assert_cmpint (hits, >, N_CLICKS / 50); /* the clicks did meet the aircraft */
}

static const GEOSGeometry *
zone_in (const Picture *picture, const char *number)
{
  guint i;

  for (i = 0; i < picture->view->shapes->len; i++)
    if (strcmp (((BondZoneShape *)g_ptr_array_index (picture->view->shapes, i))->zone, number) == 0)
      return g_ptr_array_index (picture->zones, i);
  return NULL;
}

static void
check_coordinates (const BondPointSpec *spec, const BondPlacement *at, const BondView *view)
{
  const BondCoordinate *known[] = { &spec->sta, &spec->bl, &spec->wl };
  BondCoordinate seen[3];
  int i;

  bond_view_coordinates (view, at->x, at->y, &seen[0], &seen[1], &seen[2]);
  for (i = 0; i < 3; i++)
    if (seen[i].known)
      g_assert_cmpfloat (fabs (seen[i].value - known[i]->value), <, MAX_COORDINATE_ERROR);
}

static void
check_placements (const BondAirframe *airframe, const Picture *picture, guint *n)
{
  guint i;

  for (i = 0; i < airframe->points->len; i++)
    {
      const BondPointSpec *spec = g_ptr_array_index (airframe->points, i);
      const BondPlacement *at = bond_point_spec_in_view (spec, picture->view->id);
      const GEOSGeometry *zone;
      GEOSGeometry *point;
      double distance = 0;

      if (at == NULL)
        continue;
      zone = zone_in (picture, at->drawn_zone != NULL ? at->drawn_zone : spec->zone);
      g_assert_nonnull (zone);
      point = GEOSGeom_createPointFromXY (at->x, at->y);
      g_assert_true (GEOSDistance (zone, point, &distance));
      GEOSGeom_destroy (point);
      g_assert_cmpfloat (distance, <=, MAX_PLACE_ERROR);
      check_coordinates (spec, at, picture->view);
      (*n)++;
    }
}

static void
picture_fill (Picture *picture, const BondView *view)
{
  guint i;

  picture->view = view;
  picture->zones = g_ptr_array_new_with_free_func ((GDestroyNotify)GEOSGeom_destroy);
  for (i = 0; i < view->shapes->len; i++)
    g_ptr_array_add (picture->zones, zone_of (g_ptr_array_index (view->shapes, i)));
  picture->outline = outline_of (view->outline);
}

static void
picture_clear (Picture *picture)
{
  g_ptr_array_unref (picture->zones);
  GEOSGeom_destroy (picture->outline);
}

static void
each_view (gconstpointer data)
{
  PictureCheck check = (PictureCheck)data;
  g_autoptr (BondCatalog) catalog = bond_catalog_new (NULL, NULL);
  g_autoptr (GPtrArray) airframes = bond_catalog_list (catalog, BOND_ADOPT_AIRFRAME);
  guint i, j, views = 0;

  for (i = 0; i < airframes->len; i++)
    {
      const BondAirframe *airframe = g_ptr_array_index (airframes, i);

      for (j = 0; j < airframe->views->len; j++, views++)
        {
          Picture picture;

          picture_fill (&picture, g_ptr_array_index (airframe->views, j));
          g_test_message ("%s %s", airframe->id, picture.view->id);
          check (&picture);
          picture_clear (&picture);
        }
    }
  g_assert_cmpint (views, ==, 22); /* five main views each, two details of the twin jet */
}

static void
test_points (void)
{
  g_autoptr (BondCatalog) catalog = bond_catalog_new (NULL, NULL);
  g_autoptr (GPtrArray) airframes = bond_catalog_list (catalog, BOND_ADOPT_AIRFRAME);
  guint i, j, placements = 0, listed = 0;

  for (i = 0; i < airframes->len; i++)
    {
      const BondAirframe *airframe = g_ptr_array_index (airframes, i);

      for (j = 0; j < airframe->views->len; j++)
        {
          Picture picture;

          picture_fill (&picture, g_ptr_array_index (airframe->views, j));
          check_placements (airframe, &picture, &placements);
          picture_clear (&picture);
        }
      for (j = 0; j < airframe->points->len; j++)
        listed += ((BondPointSpec *)g_ptr_array_index (airframe->points, j))->placements->len;
    }
  g_assert_cmpint (placements, ==, listed);
  g_assert_cmpint (placements, ==, 146 + 195 + 129 + 113);
}

static void
notice_cb (const char *format, ...)
{
}

int
main (int argc, char **argv)
{
  static const struct
  {
    const char *path;
    PictureCheck check;
  } checks[] = {
    { "/airframe-data/simple", check_simple }, { "/airframe-data/no-overlap", check_no_overlap },
    { "/airframe-data/no-gap", check_no_gap }, { "/airframe-data/fills-outline", check_fills_outline },
    { "/airframe-data/in-box", check_in_box }, { "/airframe-data/clicks", check_clicks },
  };
  gsize i;
  int status;

  g_test_init (&argc, &argv, NULL);
  bond_xml_init ();
  initGEOS (notice_cb, notice_cb);
  for (i = 0; i < G_N_ELEMENTS (checks); i++)
    g_test_add_data_func (checks[i].path, (gconstpointer)checks[i].check, each_view);
  g_test_add_func ("/airframe-data/points", test_points);
  status = g_test_run ();
  finishGEOS ();
  return status;
}
