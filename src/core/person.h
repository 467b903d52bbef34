/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * People and house rules, as far as a record needs them.  Immutable, shared by
 * reference count; edited in the registers, copied into a survey by an entry.
 */
#pragma once

#include "core/uncertainty.h"
#include "core/verdict.h"

G_BEGIN_DECLS

/** BondPerson: @id "p-okafor"; @name as printed; @stamp and @role may be NULL. */
typedef struct
{
  int ref_count;
  char *id;
  int revision;
  char *name;
  char *stamp;
  char *role;
  gboolean disabled; /* no longer chosen; never deleted */
} BondPerson;

BondPerson *bond_person_new (const char *id, int revision, const char *name, const char *stamp, const char *role);
BondPerson *bond_person_ref (BondPerson *person);
void bond_person_unref (BondPerson *person);

/**
 * BondHouse: house settings (values of design: common practice, no source).
 * @changed_by, @changed_on: who set this revision, on which day ("2026-11-24"); NULL = not stated
 * @pair_percent: pairs agree within this share of their mean (10)
 * @pair_steps: or within this many display steps (4)
 * @emf_microvolt: largest believable thermal EMF (50)
 * @reseat_max: re-seated measurements after a reading beyond the limit (3)
 * @bare_hours: within which a stripped joint is protected again (24; AC 43.13-1B (8 Sep 1998) ¶11-189)
 * @vapour_permille_max: largest share of the lower explosive limit, in thousandths (100; from memory)
 * @oxygen_permille_min, @oxygen_permille_max: of the air (195, 235; from memory)
 * @strands_percent: broken strands above which a braid is rejected (25; common practice, no source)
 * @placing: per class, n = 0 when no study was made
 */
typedef struct
{
  int ref_count;
  char *id;
  int revision;
  char *organisation;
  char *changed_by, *changed_on;
  int pair_percent;
  int pair_steps;
  int emf_microvolt;
  int reseat_max;
  int bare_hours;
  int vapour_permille_max, oxygen_permille_min, oxygen_permille_max;
  int strands_percent;
  BondPlacingStudy placing[BOND_N_CLASSES];
} BondHouse;

BondHouse *bond_house_new (const char *id, int revision, const char *organisation);
BondHouse *bond_house_ref (BondHouse *house);
void bond_house_unref (BondHouse *house);

/** BondEarlierItem: the result of one point in an earlier survey; strings owned, @limit and @note may be NULL. */
typedef struct
{
  char *point;
  BondQuantity result;
  char *state; /* file name of the state then */
  char *limit; /* as bond_bounds_to_file() */
  char *note;  /* e.g. "reworked 2026-03-02" */
} BondEarlierItem;

/** BondEarlier: results of one earlier survey of the same aircraft, carried along, never as readings. */
typedef struct
{
  int ref_count;
  char *survey;     /* id */
  char *date;       /* ISO date */
  GPtrArray *items; /* of BondEarlierItem */
} BondEarlier;

BondEarlier *bond_earlier_new (const char *survey, const char *date);
BondEarlier *bond_earlier_ref (BondEarlier *earlier);
void bond_earlier_unref (BondEarlier *earlier);
/** bond_earlier_add: strings are copied. */
void bond_earlier_add (BondEarlier *earlier, const BondEarlierItem *item);
const BondEarlierItem *bond_earlier_find (const BondEarlier *earlier, const char *point);

G_DEFINE_AUTOPTR_CLEANUP_FUNC (BondPerson, bond_person_unref)
G_DEFINE_AUTOPTR_CLEANUP_FUNC (BondHouse, bond_house_unref)
G_DEFINE_AUTOPTR_CLEANUP_FUNC (BondEarlier, bond_earlier_unref)

G_END_DECLS
