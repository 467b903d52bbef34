/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * An airframe: its zones, its views with their outlines and zone polygons, the
 * axes that turn a place in a view into stations, and its template points.
 * Drawing lives in report; this file knows geometry only.  Built by store, then
 * read-only and shared by reference count.
 */
#pragma once

#include "core/point-spec.h"

G_BEGIN_DECLS

typedef enum
{
  BOND_ZONE_MAJOR,
  BOND_ZONE_SUBZONE,
  BOND_ZONE_ZONE
} BondZoneLevel;
typedef enum
{
  BOND_SIDE_CENTRE,
  BOND_SIDE_LEFT,
  BOND_SIDE_RIGHT,
  BOND_SIDE_BOTH
} BondSide;
typedef enum
{
  BOND_AXIS_STA,
  BOND_AXIS_BL,
  BOND_AXIS_WL
} BondAxisName;

const char *bond_zone_level_file_name (BondZoneLevel level); /* "major" "subzone" "zone" */
const char *bond_side_file_name (BondSide side);             /* "centre" "left" "right" "both" */
const char *bond_side_name (BondSide side);                  /* translated */
const char *bond_axis_symbol (BondAxisName axis);            /* "STA" "BL" "WL" */

/** BondZone: one zone of the register. @parent, @within, @mirror may be NULL. */
typedef struct
{
  char *number, *name, *parent, *within, *mirror;
  BondZoneLevel level;
  BondSide side;
  int tint;      /* 0…2: neighbours differ */
  guint hazards; /* set of BondHazard */
} BondZone;

typedef struct
{
  double x, y;
} BondXY;

/** BondPathOp: M and L take one point, C three, Z none. */
typedef struct
{
  char op; /* 'M' 'L' 'C' 'Z' */
  BondXY p[3];
} BondPathOp;
/** BondPath: absolute M L C Z only. @text: as read, for writing back unchanged. */
typedef struct
{
  char *text;
  GArray *ops; /* of BondPathOp */
} BondPath;

/** BondZoneShape: what one view draws of one zone. @rings: GArray of BondXY each, simple, no holes. */
typedef struct
{
  char *zone;
  GPtrArray *rings;
  GArray *labels; /* of BondLabel */
} BondZoneShape;
/** BondLabel: place of a zone number. @rotate in degrees; @has_leader: a thin line to (leader_x, leader_y). */
typedef struct
{
  double x, y, size, rotate;
  gboolean has_leader;
  double leader_x, leader_y;
} BondLabel;

/** BondAxis: coordinate = (screen − zero) × sign. @vertical: screen y, else x. */
typedef struct
{
  BondAxisName of;
  gboolean vertical;
  double zero;
  int sign;
} BondAxis;

/** BondDetailPath: windows, hinges …; @layer "under" "low" "over" "top"; @klass picks the pen. */
typedef struct
{
  char *klass, *layer;
  BondPath *path;
} BondDetailPath;

typedef struct
{
  char *id, *title;
  double width, height;
  char *toward; /* "+WL": from the aircraft to the viewer */
  BondAxis axis[2];
  double ruler_major, ruler_minor;
  BondPath *outline, *boundaries, *edges; /* boundaries and edges may be NULL */
  GPtrArray *details;                     /* of BondDetailPath */
  GPtrArray *shapes;                      /* of BondZoneShape */
} BondView;

typedef struct
{
  int ref_count;
  char *id, *name, *units, *note;
  int revision;
  char *datum_sta, *datum_bl, *datum_wl;
  GPtrArray *zones;          /* of BondZone */
  GPtrArray *views;          /* of BondView */
  GPtrArray *points;         /* of BondPointSpec */
  GHashTable *zone_index;    /* number → BondZone (private) */
  GHashTable *point_index;   /* id → BondPointSpec (private) */
  GHashTable *point_numbers; /* printed numbers in use */
} BondAirframe;

#define BOND_AIRFRAME_ERROR (bond_airframe_error_quark ())
typedef enum
{
  BOND_AIRFRAME_ERROR_SYNTAX,    /* not a path, not a ring, not a number */
  BOND_AIRFRAME_ERROR_DUPLICATE, /* id or number there already */
  BOND_AIRFRAME_ERROR_MISSING,   /* names a zone or view that is not there */
  BOND_AIRFRAME_ERROR_UNSOUND,   /* sizes, axes, loops of zones */
} BondAirframeError;
GQuark bond_airframe_error_quark (void);

gboolean bond_zone_level_parse (const char *text, BondZoneLevel *level);
gboolean bond_side_parse (const char *text, BondSide *side);
gboolean bond_axis_parse (const char *text, BondAxisName *axis);

/** bond_path_parse: absolute M, L, C, Z; each subpath starts with M; a letter may stand once for several of its kind.
 */
BondPath *bond_path_parse (const char *d, GError **error);
void bond_path_free (BondPath *path);

BondAirframe *bond_airframe_new (const char *id, int revision, const char *name);
BondAirframe *bond_airframe_ref (BondAirframe *airframe);
void bond_airframe_unref (BondAirframe *airframe);
/** bond_airframe_add_zone / _add_view / _add_point: take ownership; FALSE on a duplicate or a missing reference. */
gboolean bond_airframe_add_zone (BondAirframe *airframe, BondZone *zone, GError **error);
gboolean bond_airframe_add_view (BondAirframe *airframe, BondView *view, GError **error);
gboolean bond_airframe_add_point (BondAirframe *airframe, BondPointSpec *spec, GError **error);
/**
 * bond_airframe_check_zone: what can only be seen when all zones are there: parent, within and mirror exist, parents do
 * not run in a circle, a mirror is mutual.
 */
gboolean bond_airframe_check_zone (const BondAirframe *airframe, const BondZone *zone, GError **error);
void bond_zone_free (BondZone *zone);
void bond_view_free (BondView *view);
BondZone *bond_zone_new (const char *number, const char *name, BondZoneLevel level, BondSide side);
BondView *bond_view_new (const char *id, const char *title, double width, double height);
BondZoneShape *bond_view_add_shape (BondView *view, const char *zone);
/** bond_zone_shape_add_ring: "x,y x,y …"; FALSE when fewer than three corners or not numbers. */
gboolean bond_zone_shape_add_ring (BondZoneShape *shape, const char *points, GError **error);

const BondZone *bond_airframe_find_zone (const BondAirframe *airframe, const char *number);
const BondView *bond_airframe_find_view (const BondAirframe *airframe, const char *id);
const BondPointSpec *bond_airframe_find_point (const BondAirframe *airframe, const char *id);
/** bond_airframe_is_within: @zone is @ancestor or below it by parent. */
gboolean bond_airframe_is_within (const BondAirframe *airframe, const char *zone, const char *ancestor);
/** bond_airframe_lies_in: @zone is @outer or lies in it, by parent or by within. */
gboolean bond_airframe_lies_in (const BondAirframe *airframe, const char *zone, const char *outer);
/** bond_airframe_zone_hazards: set of BondHazard of @zone and of every zone it lies in; 0 for an unknown zone. */
guint bond_airframe_zone_hazards (const BondAirframe *airframe, const char *zone);
/** bond_airframe_children: zones of which @number is the parent, recursively, lowest level only. (transfer container)
 */
GPtrArray *bond_airframe_children (const BondAirframe *airframe, const char *number);
/** bond_airframe_next_number: the next free printed number in @zone for @klass ("541-J05"); @used: numbers in use.
 * (transfer full) */
char *bond_airframe_next_number (const char *zone, BondClass klass, GHashTable *used);

/** bond_view_hit: the zone drawn at (x, y), NULL outside every zone. On a shared edge: the first drawn. */
const BondZoneShape *bond_view_hit (const BondView *view, double x, double y);
/** bond_ring_is_simple: no two sides cross or touch except neighbours in their corner; no side of length 0. */
gboolean bond_ring_is_simple (const GArray *ring);
gboolean bond_zone_shape_contains (const BondZoneShape *shape, double x, double y);
/** bond_view_coordinates: fills the two coordinates the view shows, leaves the third not known. */
void bond_view_coordinates (const BondView *view, double x, double y, BondCoordinate *sta, BondCoordinate *bl,
                            BondCoordinate *wl);
/** bond_view_place: view place of the given coordinates; FALSE when one the view needs is not known. */
gboolean bond_view_place (const BondView *view, const BondCoordinate *sta, const BondCoordinate *bl,
                          const BondCoordinate *wl, double *x, double *y);
/** bond_view_is_main: one of the five main views (plan-upper, plan-lower, side-left, side-right, front). */
gboolean bond_view_is_main (const BondView *view);
/** bond_coordinate_format: "STA 801", "BL −170" / "L 170"; (transfer full), NULL if not known. */
char *bond_coordinate_format (BondAxisName axis, const BondCoordinate *coordinate, char mark);

G_DEFINE_AUTOPTR_CLEANUP_FUNC (BondAirframe, bond_airframe_unref)
G_DEFINE_AUTOPTR_CLEANUP_FUNC (BondPath, bond_path_free)
G_DEFINE_AUTOPTR_CLEANUP_FUNC (BondView, bond_view_free)

G_END_DECLS
