/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * What an airframe is made of, and that it hangs together: no number twice, no zone
 * named that is not there, no family of zones running in a circle.  Where things
 * lie is airframe-geometry.c; the file form is the store's.
 */
#include "core/airframe.h"
#include "core/number.h"
#include "core/word.h"

#include <glib/gi18n-lib.h>
#include <math.h>

/* A ring of more corners than this is a mistake or an attack: checking it for crossings takes the square. */
#define MAX_CORNERS 2000

static const BondWord levels[] = {
  [BOND_ZONE_MAJOR] = { "major", NULL },
  [BOND_ZONE_SUBZONE] = { "subzone", NULL },
  [BOND_ZONE_ZONE] = { "zone", NULL },
};

static const BondWord sides[] = {
  [BOND_SIDE_CENTRE] = { "centre", N_ ("centre") },
  [BOND_SIDE_LEFT] = { "left", N_ ("left") },
  [BOND_SIDE_RIGHT] = { "right", N_ ("right") },
  [BOND_SIDE_BOTH] = { "both", N_ ("both sides") },
};

static const BondWord axes[] = {
  [BOND_AXIS_STA] = { "STA", NULL },
  [BOND_AXIS_BL] = { "BL", NULL },
  [BOND_AXIS_WL] = { "WL", NULL },
};

const char *
bond_zone_level_file_name (BondZoneLevel level)
{
  return bond_word_file (levels, G_N_ELEMENTS (levels), level);
}

gboolean
bond_zone_level_parse (const char *text, BondZoneLevel *level)
{
  return bond_word_parse (levels, G_N_ELEMENTS (levels), text, (guint *)level);
}

const char *
bond_side_file_name (BondSide side)
{
  return bond_word_file (sides, G_N_ELEMENTS (sides), side);
}

const char *
bond_side_name (BondSide side)
{
  return bond_word_name (sides, G_N_ELEMENTS (sides), side);
}

gboolean
bond_side_parse (const char *text, BondSide *side)
{
  return bond_word_parse (sides, G_N_ELEMENTS (sides), text, (guint *)side);
}

const char *
bond_axis_symbol (BondAxisName axis)
{
  return bond_word_file (axes, G_N_ELEMENTS (axes), axis);
}

gboolean
bond_axis_parse (const char *text, BondAxisName *axis)
{
  return bond_word_parse (axes, G_N_ELEMENTS (axes), text, (guint *)axis);
}

BondZone *
bond_zone_new (const char *number, const char *name, BondZoneLevel level, BondSide side)
{
  BondZone *zone;

  g_return_val_if_fail (number != NULL && name != NULL, NULL);
  zone = g_new0 (BondZone, 1);
  zone->number = g_strdup (number);
  zone->name = g_strdup (name);
  zone->level = level;
  zone->side = side;
  return zone;
}

void
bond_zone_free (BondZone *zone)
{
  if (zone == NULL)
    return;
  g_free (zone->number);
  g_free (zone->name);
  g_free (zone->parent);
  g_free (zone->within);
  g_free (zone->mirror);
  g_free (zone);
}

static void
shape_free (gpointer data)
{
  BondZoneShape *shape = data;

  g_free (shape->zone);
  g_ptr_array_unref (shape->rings);
  g_array_unref (shape->labels);
  g_free (shape);
}

static void
detail_free (gpointer data)
{
  BondDetailPath *detail = data;

  g_free (detail->klass);
  g_free (detail->layer);
  bond_path_free (detail->path);
  g_free (detail);
}

BondView *
bond_view_new (const char *id, const char *title, double width, double height)
{
  BondView *view;

  g_return_val_if_fail (id != NULL && title != NULL, NULL);
  view = g_new0 (BondView, 1);
  view->id = g_strdup (id);
  view->title = g_strdup (title);
  view->width = width;
  view->height = height;
  view->axis[0] = (BondAxis){ .of = BOND_AXIS_STA, .vertical = FALSE, .sign = 1 };
  view->axis[1] = (BondAxis){ .of = BOND_AXIS_WL, .vertical = TRUE, .sign = -1 };
  view->details = g_ptr_array_new_with_free_func (detail_free);
  view->shapes = g_ptr_array_new_with_free_func (shape_free);
  return view;
}

void
bond_view_free (BondView *view)
{
  if (view == NULL)
    return;
  g_free (view->id);
  g_free (view->title);
  g_free (view->toward);
  bond_path_free (view->outline);
  bond_path_free (view->boundaries);
  bond_path_free (view->edges);
  g_ptr_array_unref (view->details);
  g_ptr_array_unref (view->shapes);
  g_free (view);
}

BondZoneShape *
bond_view_add_shape (BondView *view, const char *zone)
{
  BondZoneShape *shape;

  g_return_val_if_fail (view != NULL && zone != NULL, NULL);
  shape = g_new0 (BondZoneShape, 1);
  shape->zone = g_strdup (zone);
  shape->rings = g_ptr_array_new_with_free_func ((GDestroyNotify)g_array_unref);
  shape->labels = g_array_new (FALSE, FALSE, sizeof (BondLabel));
  g_ptr_array_add (view->shapes, shape);
  return shape;
}

/* "x,y x,y …" into @ring; FALSE when anything is left over. */
static gboolean
scan_ring (const char *p, GArray *ring)
{
  while (g_ascii_isspace (*p))
    p++;
  while (*p != '\0')
    {
      BondXY xy;

      if (!bond_number_scan (&p, &xy.x) || *p++ != ',' || !bond_number_scan (&p, &xy.y))
        return FALSE;
      if (*p != '\0' && !g_ascii_isspace (*p))
        return FALSE;
      while (g_ascii_isspace (*p))
        p++;
      g_array_append_val (ring, xy);
    }
  return TRUE;
}

gboolean
bond_zone_shape_add_ring (BondZoneShape *shape, const char *points, GError **error)
{
  g_autoptr (GArray) ring = NULL;
  const char *wrong = NULL;

  g_return_val_if_fail (shape != NULL && points != NULL, FALSE);
  ring = g_array_new (FALSE, FALSE, sizeof (BondXY));
  if (!scan_ring (points, ring))
    wrong = _ ("its corners must be plain numbers, like “10,20 30.5,20 30,40”");
  else if (ring->len < 3)
    wrong = _ ("it has fewer than three corners");
  else if (ring->len > MAX_CORNERS)
    wrong = _ ("it has more than 2000 corners; cut the zone into several polygons");
  else if (!bond_ring_is_simple (ring))
    wrong = _ ("its sides cross or touch each other; draw it so that they do not");
  if (wrong != NULL)
    {
      g_set_error (error, BOND_AIRFRAME_ERROR, BOND_AIRFRAME_ERROR_SYNTAX,
                   _ ("A polygon of zone %s cannot be used: %s."), shape->zone, wrong);
      return FALSE;
    }
  g_ptr_array_add (shape->rings, g_steal_pointer (&ring));
  return TRUE;
}

BondAirframe *
bond_airframe_new (const char *id, int revision, const char *name)
{
  BondAirframe *airframe;

  g_return_val_if_fail (id != NULL && name != NULL, NULL);
  airframe = g_new0 (BondAirframe, 1);
  airframe->ref_count = 1;
  airframe->id = g_strdup (id);
  airframe->revision = revision;
  airframe->name = g_strdup (name);
  airframe->units = g_strdup ("in");
  airframe->zones = g_ptr_array_new_with_free_func ((GDestroyNotify)bond_zone_free);
  airframe->views = g_ptr_array_new_with_free_func ((GDestroyNotify)bond_view_free);
  airframe->points = g_ptr_array_new_with_free_func ((GDestroyNotify)bond_point_spec_unref);
  airframe->zone_index = g_hash_table_new (g_str_hash, g_str_equal);
  airframe->point_index = g_hash_table_new (g_str_hash, g_str_equal);
  airframe->point_numbers = g_hash_table_new (g_str_hash, g_str_equal);
  return airframe;
}

BondAirframe *
bond_airframe_ref (BondAirframe *airframe)
{
  g_return_val_if_fail (airframe != NULL, NULL);
  g_atomic_int_inc (&airframe->ref_count);
  return airframe;
}

void
bond_airframe_unref (BondAirframe *airframe)
{
  g_return_if_fail (airframe != NULL);
  if (!g_atomic_int_dec_and_test (&airframe->ref_count))
    return;
  g_free (airframe->id);
  g_free (airframe->name);
  g_free (airframe->units);
  g_free (airframe->note);
  g_free (airframe->datum_sta);
  g_free (airframe->datum_bl);
  g_free (airframe->datum_wl);
  g_hash_table_unref (airframe->zone_index);
  g_hash_table_unref (airframe->point_index);
  g_hash_table_unref (airframe->point_numbers);
  g_ptr_array_unref (airframe->zones);
  g_ptr_array_unref (airframe->views);
  g_ptr_array_unref (airframe->points);
  g_free (airframe);
}

const BondZone *
bond_airframe_find_zone (const BondAirframe *airframe, const char *number)
{
  g_return_val_if_fail (airframe != NULL && number != NULL, NULL);
  return g_hash_table_lookup (airframe->zone_index, number);
}

const BondView *
bond_airframe_find_view (const BondAirframe *airframe, const char *id)
{
  guint i;

  g_return_val_if_fail (airframe != NULL && id != NULL, NULL);
  for (i = 0; i < airframe->views->len; i++)
    {
      const BondView *view = g_ptr_array_index (airframe->views, i);

      if (strcmp (view->id, id) == 0)
        return view;
    }
  return NULL;
}

const BondPointSpec *
bond_airframe_find_point (const BondAirframe *airframe, const char *id)
{
  g_return_val_if_fail (airframe != NULL && id != NULL, NULL);
  return g_hash_table_lookup (airframe->point_index, id);
}

gboolean
bond_airframe_is_within (const BondAirframe *airframe, const char *zone, const char *ancestor)
{
  guint steps;

  g_return_val_if_fail (airframe != NULL && zone != NULL && ancestor != NULL, FALSE);
  /* The count guards against parents that run in a circle, should nobody have checked. */
  for (steps = 0; zone != NULL && steps <= airframe->zones->len; steps++)
    {
      const BondZone *found;

      if (strcmp (zone, ancestor) == 0)
        return TRUE;
      found = bond_airframe_find_zone (airframe, zone);
      zone = found != NULL ? found->parent : NULL;
    }
  return FALSE;
}

/* @number and all zones it lies in; the set also ends circles, should nobody have checked. */
static void
add_around (const BondAirframe *airframe, const char *number, GHashTable *around)
{
  const BondZone *zone = number != NULL ? bond_airframe_find_zone (airframe, number) : NULL;

  if (zone == NULL || !g_hash_table_add (around, (gpointer)zone))
    return;
  add_around (airframe, zone->parent, around);
  add_around (airframe, zone->within, around);
}

gboolean
bond_airframe_lies_in (const BondAirframe *airframe, const char *zone, const char *outer)
{
  g_autoptr (GHashTable) around = g_hash_table_new (NULL, NULL);
  const BondZone *wanted;

  g_return_val_if_fail (airframe != NULL && zone != NULL && outer != NULL, FALSE);
  wanted = bond_airframe_find_zone (airframe, outer);
  add_around (airframe, zone, around);
  return strcmp (zone, outer) == 0 || (wanted != NULL && g_hash_table_contains (around, wanted));
}

guint
bond_airframe_zone_hazards (const BondAirframe *airframe, const char *zone)
{
  g_autoptr (GHashTable) around = g_hash_table_new (NULL, NULL);
  GHashTableIter iter;
  gpointer one;
  guint hazards = 0;

  g_return_val_if_fail (airframe != NULL && zone != NULL, 0);
  add_around (airframe, zone, around);
  g_hash_table_iter_init (&iter, around);
  while (g_hash_table_iter_next (&iter, &one, NULL))
    hazards |= ((const BondZone *)one)->hazards;
  return hazards;
}

static gboolean
has_children (const BondAirframe *airframe, const char *number)
{
  guint i;

  for (i = 0; i < airframe->zones->len; i++)
    {
      const BondZone *zone = g_ptr_array_index (airframe->zones, i);

      if (g_strcmp0 (zone->parent, number) == 0)
        return TRUE;
    }
  return FALSE;
}

GPtrArray *
bond_airframe_children (const BondAirframe *airframe, const char *number)
{
  GPtrArray *children;
  guint i;

  g_return_val_if_fail (airframe != NULL && number != NULL, NULL);
  children = g_ptr_array_new ();
  for (i = 0; i < airframe->zones->len; i++)
    {
      BondZone *zone = g_ptr_array_index (airframe->zones, i);

      if (strcmp (zone->number, number) != 0 && bond_airframe_is_within (airframe, zone->number, number)
          && !has_children (airframe, zone->number))
        g_ptr_array_add (children, zone);
    }
  return children;
}

/* The serial of @number when it reads PREFIX + digits, else 0. */
static guint64
serial_after (const char *number, const char *prefix)
{
  guint64 serial = 0;

  if (!g_str_has_prefix (number, prefix)
      || !g_ascii_string_to_unsigned (number + strlen (prefix), 10, 1, G_MAXINT32, &serial, NULL))
    return 0;
  return serial;
}

char *
bond_airframe_next_number (const char *zone, BondClass klass, GHashTable *used)
{
  g_autofree char *prefix = NULL;
  GHashTableIter iter;
  gpointer number;
  guint64 last = 0;

  g_return_val_if_fail (zone != NULL && used != NULL, NULL);
  prefix = g_strdup_printf ("%s-%c", zone, bond_class_letter (klass));
  g_hash_table_iter_init (&iter, used);
  while (g_hash_table_iter_next (&iter, &number, NULL))
    last = MAX (last, serial_after (number, prefix));
  return g_strdup_printf ("%s%02" G_GUINT64_FORMAT, prefix, last + 1);
}
