/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * What is fixed about a bonding point before anybody measures it: number, class,
 * zone, the two ends, where it sits, which limit row it names.  Template points of
 * an airframe and `point` entries of a survey are the same thing.
 */
#pragma once

#include "core/limit.h"

G_BEGIN_DECLS

/** BondCoordinate: inches (or the airframe's unit). Empty is not 0: @known FALSE = not known. */
typedef struct
{
  gboolean known;
  double value;
} BondCoordinate;

/** BondPlacement: where a view shows the point, in view units. @drawn_zone: set when the view draws only a higher-level
 * zone. */
typedef struct
{
  char *view;
  double x, y;
  gboolean home;
  char *drawn_zone; /* may be NULL */
} BondPlacement;

typedef enum
{
  BOND_ARRANGEMENT_ROW,
  BOND_ARRANGEMENT_RING,
  BOND_ARRANGEMENT_LEGS, /* of one strap, side by side */
} BondArrangement;
const char *bond_arrangement_file_name (BondArrangement arrangement); /* "row" "ring" "legs" */
gboolean bond_arrangement_parse (const char *text, BondArrangement *arrangement);

/**
 * BondConductor: the metal of a jumper or braid, for telling a reading lower than the metal alone.
 * @area_um2: cross-section in square micrometres (8.4 mm² = 8,400,000); 0 = not known
 * @length_um: length in micrometres
 * @resistivity_fohm_m: resistivity in femto-ohm metres (copper 1.7241e-8 Ω·m = 17,241,000)
 */
typedef struct
{
  gint64 area_um2, length_um, resistivity_fohm_m;
} BondConductor;

/**
 * BondPointSpec: strings owned; NULL where not stated, except id, number, zone, from, to.
 * @id: stable random id ("q-…"), never printed
 * @number: printed number ("541-J04"), always with a hyphen
 * @limit: "SET/CODE" or "CODE", or several with one space between (all must be met), or NULL
 * @own_limit: a row of the point's own, or NULL
 * @condition: as planned (UNDISTURBED, or NEW for new or replaced)
 * @from_template: TRUE when it came with the airframe
 */
typedef struct
{
  int ref_count;
  char *id;
  char *number;
  BondClass klass;
  char *zone;
  char *from;
  char *to;
  char *limit;
  BondLimitRow *own_limit;
  BondCondition condition;
  BondCoordinate sta, bl, wl;
  GPtrArray *placements; /* of BondPlacement */
  gboolean from_template;
  char *why;                   /* purpose in words: "lightning static" */
  char *watch;                 /* what usually goes wrong */
  char *panel;                 /* access panels */
  char *basis;                 /* where the template's limit comes from, in words */
  int sample_every;            /* sampling rule of a group: every n-th place is asked; 0 or 1 = all */
  gboolean widen;              /* a reject at one place asks for all places; TRUE unless the point says no */
  BondArrangement arrangement; /* how the places of a group are drawn */
  guint hazards;               /* set of BondHazard, besides those of its zone */
  gboolean needs_independent;  /* an independent inspection is asked */
  BondConductor conductor;     /* the metal between the ends; area 0 = not known */
} BondPointSpec;

BondPointSpec *bond_point_spec_new (const char *id, const char *number, BondClass klass, const char *zone);
BondPointSpec *bond_point_spec_ref (BondPointSpec *spec);
void bond_point_spec_unref (BondPointSpec *spec);
/** bond_point_spec_copy: a deep copy that may be changed before it is shared. */
BondPointSpec *bond_point_spec_copy (const BondPointSpec *spec);
/** bond_point_spec_add_placement: strings copied. */
void bond_point_spec_add_placement (BondPointSpec *spec, const char *view, double x, double y, gboolean home,
                                    const char *drawn_zone);
/** bond_point_spec_home: the home placement, else the first, else NULL. */
const BondPlacement *bond_point_spec_home (const BondPointSpec *spec);
/** bond_point_spec_in_view: placement in @view or NULL. */
const BondPlacement *bond_point_spec_in_view (const BondPointSpec *spec, const char *view);
#define BOND_POINT_SPEC_ERROR (bond_point_spec_error_quark ())
typedef enum
{
  BOND_POINT_SPEC_ERROR_UNSOUND,
} BondPointSpecError;
GQuark bond_point_spec_error_quark (void);

/** bond_point_spec_check: number with hyphen, zone, ends not empty, finite coordinates. */
gboolean bond_point_spec_check (const BondPointSpec *spec, GError **error);

G_DEFINE_AUTOPTR_CLEANUP_FUNC (BondPointSpec, bond_point_spec_unref)

G_END_DECLS
