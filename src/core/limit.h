/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * Limit rows and limit sets: which value a joint is judged against, and where
 * that value comes from.  A row, not a class, carries a limit.  Rows and sets are
 * immutable once built and shared by reference count.
 */
#pragma once

#include "core/ohm.h"

G_BEGIN_DECLS

#define BOND_LIMIT_ERROR (bond_limit_error_quark ())
typedef enum
{
  BOND_LIMIT_ERROR_UNSOUND, /* a row that cannot judge anything, or a code used twice */
} BondLimitError;
GQuark bond_limit_error_quark (void);

typedef enum
{
  BOND_CLASS_STRUCTURE,
  BOND_CLASS_FASTENER,
  BOND_CLASS_FLUID_LINE,
  BOND_CLASS_EQUIPMENT,
} BondClass;
#define BOND_N_CLASSES 4
#define BOND_CLASS_ANY (-1)

char bond_class_letter (BondClass klass);           /* J F T E */
const char *bond_class_name (BondClass klass);      /* translated: "structure" … */
const char *bond_class_file_name (BondClass klass); /* "structure" "fastener" "fluid-line" "equipment" */
gboolean bond_class_parse (const char *text, BondClass *klass);

typedef enum
{
  BOND_RELATION_NONE, /* no bound on this side */
  BOND_RELATION_LT,
  BOND_RELATION_LE,
  BOND_RELATION_GT,
  BOND_RELATION_GE,
} BondRelation;
const char *bond_relation_symbol (BondRelation relation);    /* "<" "≤" ">" "≥" */
const char *bond_relation_file_name (BondRelation relation); /* "lt" "le" "gt" "ge" */
gboolean bond_relation_parse (const char *text, BondRelation *relation);

/** BondBound: one side of a limit; @nohm > 0 when @relation is not NONE. @unit is the unit it is published in. */
typedef struct
{
  BondRelation relation;
  BondOhm nohm;
  BondUnit unit;
} BondBound;

/** BondBounds: upper and/or lower bound of one tier. */
typedef struct
{
  BondBound upper;
  BondBound lower;
} BondBounds;

/** BondCondition: what happened to the joint; everything but UNDISTURBED asks for the stricter tier. */
typedef enum
{
  BOND_CONDITION_UNDISTURBED,
  BOND_CONDITION_OPENED,
  BOND_CONDITION_NEW, /* new or replaced */
  BOND_CONDITION_REWORKED,
} BondCondition;
/** bond_condition_name: translated: "in service" "opened" "new or replaced" "reworked". */
const char *bond_condition_name (BondCondition condition);
const char *bond_condition_file_name (BondCondition condition); /* "undisturbed" "opened" "new" "reworked" */
gboolean bond_condition_parse (const char *text, BondCondition *condition);

typedef enum
{
  BOND_METHOD_FOUR_TERMINAL,
  BOND_METHOD_MEGOHMMETER,
  BOND_METHOD_VISUAL,
  BOND_METHOD_ABSENT, /* the jumper must not be there */
} BondMethod;
const char *bond_method_name (BondMethod method);      /* translated */
const char *bond_method_file_name (BondMethod method); /* "four-terminal" "megohmmeter" "visual" "absent" */
gboolean bond_method_parse (const char *text, BondMethod *method);

typedef enum
{
  BOND_SCOPE_JOINT,
  BOND_SCOPE_PATH,
} BondScope;

typedef enum
{
  BOND_CONNECTORS_ANY,
  BOND_CONNECTORS_MATED,
  BOND_CONNECTORS_UNMATED,
} BondConnectors;
const char *bond_connectors_file_name (BondConnectors connectors); /* "any" "mated" "unmated" */
gboolean bond_connectors_parse (const char *text, BondConnectors *connectors);

typedef enum
{
  BOND_MOUNTING_ANY,
  BOND_MOUNTING_IN_PLACE,
  BOND_MOUNTING_ISOLATED,
} BondMounting;
const char *bond_mounting_file_name (BondMounting mounting); /* "any" "in-place" "isolated" */
gboolean bond_mounting_parse (const char *text, BondMounting *mounting);

/**
 * BondLimitRow: one row of a limit table. Plain, read-only once in a set; all strings owned, may be NULL where noted.
 * @klass: a #BondClass or BOND_CLASS_ANY
 * @strict: bounds for new, opened or reworked joints; used only when @has_strict
 * @is_default: the row its set gives to points of its class that name no row
 * @verified: FALSE = from memory, shown as "unverified"
 */
typedef struct
{
  int ref_count;
  char *code;
  int klass;
  char *covers;
  BondBounds in_service;
  gboolean has_strict;
  BondBounds strict;
  BondScope scope;
  BondMethod method;
  int method_volts; /* megohmmeter test voltage in V, 0 = not stated */
  BondConnectors connectors;
  BondMounting mounting;
  gboolean pair;
  gboolean is_default;
  gboolean verified;
  char *document;   /* source: document */
  char *revision;   /* source: revision or edition, may be NULL */
  char *paragraph;  /* may be NULL */
  char *checked_by; /* may be NULL */
  char *note;       /* may be NULL */
} BondLimitRow;

BondLimitRow *bond_limit_row_new (void);
BondLimitRow *bond_limit_row_ref (BondLimitRow *row);
void bond_limit_row_unref (BondLimitRow *row);
/** bond_limit_row_check: TRUE when values are sane (> 0, lower < upper, code present, four-terminal has a bound …). */
gboolean bond_limit_row_check (const BondLimitRow *row, GError **error);
/** bond_bounds_any: there is a bound on at least one side. */
gboolean bond_bounds_any (const BondBounds *bounds);
/** bond_limit_row_bounds: the bounds that apply under @condition. */
const BondBounds *bond_limit_row_bounds (const BondLimitRow *row, BondCondition condition);
/**
 * bond_bounds_format: "≤ 2.5 mΩ", "100 kΩ ≤ R ≤ 100 MΩ"; no-break spaces. @with_unit FALSE leaves the unit out.
 * (transfer full)
 */
char *bond_bounds_format (const BondBounds *bounds, char mark, gboolean with_unit);
/** bond_bounds_to_file: "<=0.0025", ">=100000 <=100000000", "" (design of the batch table). (transfer full) */
char *bond_bounds_to_file (const BondBounds *bounds);
/** bond_bounds_unit: the unit result, U and limit of a row share. */
BondUnit bond_bounds_unit (const BondBounds *bounds);

/** BondLimitSet: a table of rows. @enabled: FALSE = shipped switched off (public sets). @invented: example data. */
typedef struct
{
  int ref_count;
  char *id;
  int revision;
  char *name;
  char *note; /* e.g. that no maker's data applies; may be NULL */
  gboolean invented;
  gboolean enabled;
  GPtrArray *rows; /* of BondLimitRow */
} BondLimitSet;

BondLimitSet *bond_limit_set_new (const char *id, int revision, const char *name);
BondLimitSet *bond_limit_set_ref (BondLimitSet *set);
void bond_limit_set_unref (BondLimitSet *set);
/** bond_limit_set_add: takes @row. FALSE on a duplicate code or an unsound row (row is freed). */
gboolean bond_limit_set_add (BondLimitSet *set, BondLimitRow *row, GError **error);
BondLimitRow *bond_limit_set_find (const BondLimitSet *set, const char *code); /* (transfer none) (nullable) */

/**
 * bond_limit_lookup: the look-up order of a point's limit.
 * @sets: ordered sets of the survey (GPtrArray of BondLimitSet)
 * @own: (nullable): a row of the point's own
 * @name: (nullable): "SET/CODE" or "CODE"
 * @set: (out) (optional) (transfer none): set the row came from, NULL for the own row
 *
 * Own row; else the row named ("CODE" in the enabled sets, "SET/CODE" in any); else the default row of @klass in the
 * first enabled set that has one; else NULL.
 * A name that no set holds gives NULL too (never a silent other limit).
 */
BondLimitRow *bond_limit_lookup (GPtrArray *sets, BondLimitRow *own, const char *name, BondClass klass,
                                 BondLimitSet **set);

/** BOND_MAX_LIMIT_NAMES: most rows one point may name. */
#define BOND_MAX_LIMIT_NAMES 8

/**
 * BondNamedRow: one of the rows a point is judged against.
 * @name: (nullable): as the point names it, NULL for its own row and the default of its class
 * @row: (nullable): borrowed; NULL where no set holds @name, or there is no default
 * @set: (nullable): borrowed
 */
typedef struct
{
  char *name;
  BondLimitRow *row;
  BondLimitSet *set;
} BondNamedRow;

/**
 * bond_limit_lookup_all: every row of a point, in the order named, a row named twice once; the order of the look-up is
 * that of bond_limit_lookup(). A name that no set holds has an item of its own, without a row.
 * @names: (nullable): names with one space between them
 * Returns: (transfer full): GPtrArray of BondNamedRow, never empty
 */
GPtrArray *bond_limit_lookup_all (GPtrArray *sets, BondLimitRow *own, const char *names, BondClass klass);
/**
 * bond_limit_find_unsound: the first of @names that is not SET/CODE or CODE or stands there twice; what follows one
 * space too many is the empty name.
 * Returns: (transfer full) (nullable): NULL when all are sound
 */
char *bond_limit_find_unsound (const char *names);

G_DEFINE_AUTOPTR_CLEANUP_FUNC (BondLimitRow, bond_limit_row_unref)
G_DEFINE_AUTOPTR_CLEANUP_FUNC (BondLimitSet, bond_limit_set_unref)

G_END_DECLS
