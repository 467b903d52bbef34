/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * Limit rows: making them, checking them and writing their bounds.  Sets of rows are
 * left to limit-set.c, whether a value meets a limit to verdict.c, which tier applies
 * to judge.c.
 */
#include "core/limit.h"

#include "core/word.h"
#include <glib/gi18n-lib.h>

static const BondWord classes[BOND_N_CLASSES] = {
  [BOND_CLASS_STRUCTURE] = { "structure", N_ ("structure") },
  [BOND_CLASS_FASTENER] = { "fastener", N_ ("fastener") },
  [BOND_CLASS_FLUID_LINE] = { "fluid-line", N_ ("fluid line") },
  [BOND_CLASS_EQUIPMENT] = { "equipment", N_ ("equipment") },
};
static const char class_letters[] = "JFTE";

/* The symbol of a relation needs no translation; @file of NONE is never written. */
static const BondWord relations[] = {
  [BOND_RELATION_NONE] = { "none", NULL }, [BOND_RELATION_LT] = { "lt", NULL }, [BOND_RELATION_LE] = { "le", NULL },
  [BOND_RELATION_GT] = { "gt", NULL },     [BOND_RELATION_GE] = { "ge", NULL },
};
static const char *const relation_symbols[] = { "", "<", "≤", ">", "≥" };
static const char *const relation_ascii[] = { "", "<", "<=", ">", ">=" };

static const BondWord conditions[] = {
  [BOND_CONDITION_UNDISTURBED] = { "undisturbed", N_ ("in service") },
  [BOND_CONDITION_OPENED] = { "opened", N_ ("opened") },
  [BOND_CONDITION_NEW] = { "new", N_ ("new or replaced") },
  [BOND_CONDITION_REWORKED] = { "reworked", N_ ("reworked") },
};

static const BondWord methods[] = {
  [BOND_METHOD_FOUR_TERMINAL] = { "four-terminal", N_ ("four-terminal DC") },
  [BOND_METHOD_MEGOHMMETER] = { "megohmmeter", N_ ("megohmmeter") },
  [BOND_METHOD_VISUAL] = { "visual", N_ ("visual") },
  [BOND_METHOD_ABSENT] = { "absent", N_ ("must be absent") },
};

static const BondWord connector_states[] = {
  [BOND_CONNECTORS_ANY] = { "any", NULL },
  [BOND_CONNECTORS_MATED] = { "mated", NULL },
  [BOND_CONNECTORS_UNMATED] = { "unmated", NULL },
};

static const BondWord mountings[] = {
  [BOND_MOUNTING_ANY] = { "any", NULL },
  [BOND_MOUNTING_IN_PLACE] = { "in-place", NULL },
  [BOND_MOUNTING_ISOLATED] = { "isolated", NULL },
};

#define NBSP "\302\240"

G_DEFINE_QUARK (bond_limit_error, bond_limit_error)

static gboolean
unsound (GError **error, const BondLimitRow *row, const char *reason)
{
  g_set_error (error, BOND_LIMIT_ERROR, BOND_LIMIT_ERROR_UNSOUND, _ ("Limit row “%s” cannot be used: %s"),
               row->code != NULL ? row->code : "", reason);
  return FALSE;
}

static gboolean
bound_is_sane (const BondBound *bound, BondRelation open, BondRelation closed)
{
  if (bound->relation == BOND_RELATION_NONE)
    return TRUE;
  return (bound->relation == open || bound->relation == closed) && bound->nohm > 0 && (guint)bound->unit < BOND_N_UNITS;
}

/* What is wrong with @bounds, or NULL. */
static const char *
bounds_fault (const BondBounds *bounds)
{
  if (!bound_is_sane (&bounds->upper, BOND_RELATION_LT, BOND_RELATION_LE))
    return _ ("its upper limit must be a resistance above zero with < or ≤.");
  if (!bound_is_sane (&bounds->lower, BOND_RELATION_GT, BOND_RELATION_GE))
    return _ ("its lower limit must be a resistance above zero with > or ≥.");
  if (bounds->upper.relation != BOND_RELATION_NONE && bounds->lower.relation != BOND_RELATION_NONE
      && bounds->lower.nohm >= bounds->upper.nohm)
    return _ ("its lower limit is not below its upper limit.");
  return NULL;
}

/* At one value < and > are narrower than ≤ and ≥. */
static gboolean
is_wider_at (const BondBound *strict, const BondBound *in_service, BondRelation open)
{
  return strict->nohm == in_service->nohm && in_service->relation == open && strict->relation != open;
}

/* The second tier may only narrow the first: a joint just reworked has no excuse that an old one lacks. */
static gboolean
is_stricter (const BondBounds *strict, const BondBounds *in_service)
{
  if (in_service->upper.relation != BOND_RELATION_NONE
      && (strict->upper.relation == BOND_RELATION_NONE || strict->upper.nohm > in_service->upper.nohm
          || is_wider_at (&strict->upper, &in_service->upper, BOND_RELATION_LT)))
    return FALSE;
  return in_service->lower.relation == BOND_RELATION_NONE
         || (strict->lower.relation != BOND_RELATION_NONE && strict->lower.nohm >= in_service->lower.nohm
             && !is_wider_at (&strict->lower, &in_service->lower, BOND_RELATION_GT));
}

static gboolean
is_electrical (BondMethod method)
{
  return method == BOND_METHOD_FOUR_TERMINAL || method == BOND_METHOD_MEGOHMMETER;
}

/* "2.5 mΩ" in the unit it was published in, or in @unit without naming it. */
static char *
format_value (const BondBound *bound, BondUnit unit, char mark, gboolean with_unit)
{
  g_autofree char *digits = bond_ohm_format_exact (bound->nohm, with_unit ? bound->unit : unit, 0, mark);

  return with_unit ? g_strconcat (digits, NBSP, bond_unit_symbol (bound->unit), NULL) : g_steal_pointer (&digits);
}

static void
append_bound_to_file (GString *text, const BondBound *bound)
{
  g_autofree char *ohms = NULL;

  if (bound->relation == BOND_RELATION_NONE)
    return;
  ohms = bond_ohm_to_file (bound->nohm);
  g_string_append_printf (text, "%s%s%s", text->len > 0 ? " " : "", relation_ascii[bound->relation], ohms);
}

char
bond_class_letter (BondClass klass)
{
  g_return_val_if_fail ((guint)klass < BOND_N_CLASSES, '?');
  return class_letters[klass];
}

const char *
bond_class_name (BondClass klass)
{
  return bond_word_name (classes, G_N_ELEMENTS (classes), klass);
}

const char *
bond_class_file_name (BondClass klass)
{
  return bond_word_file (classes, G_N_ELEMENTS (classes), klass);
}

gboolean
bond_class_parse (const char *text, BondClass *klass)
{
  return bond_word_parse (classes, G_N_ELEMENTS (classes), text, (guint *)klass);
}

const char *
bond_relation_symbol (BondRelation relation)
{
  g_return_val_if_fail ((guint)relation < G_N_ELEMENTS (relation_symbols), NULL);
  return relation_symbols[relation];
}

const char *
bond_relation_file_name (BondRelation relation)
{
  return bond_word_file (relations, G_N_ELEMENTS (relations), relation);
}

gboolean
bond_relation_parse (const char *text, BondRelation *relation)
{
  return bond_word_parse (relations, G_N_ELEMENTS (relations), text, (guint *)relation);
}

const char *
bond_condition_name (BondCondition condition)
{
  return bond_word_name (conditions, G_N_ELEMENTS (conditions), condition);
}

const char *
bond_condition_file_name (BondCondition condition)
{
  return bond_word_file (conditions, G_N_ELEMENTS (conditions), condition);
}

gboolean
bond_condition_parse (const char *text, BondCondition *condition)
{
  return bond_word_parse (conditions, G_N_ELEMENTS (conditions), text, (guint *)condition);
}

const char *
bond_method_name (BondMethod method)
{
  return bond_word_name (methods, G_N_ELEMENTS (methods), method);
}

const char *
bond_method_file_name (BondMethod method)
{
  return bond_word_file (methods, G_N_ELEMENTS (methods), method);
}

gboolean
bond_method_parse (const char *text, BondMethod *method)
{
  return bond_word_parse (methods, G_N_ELEMENTS (methods), text, (guint *)method);
}

const char *
bond_connectors_file_name (BondConnectors connectors)
{
  return bond_word_file (connector_states, G_N_ELEMENTS (connector_states), connectors);
}

gboolean
bond_connectors_parse (const char *text, BondConnectors *connectors)
{
  return bond_word_parse (connector_states, G_N_ELEMENTS (connector_states), text, (guint *)connectors);
}

const char *
bond_mounting_file_name (BondMounting mounting)
{
  return bond_word_file (mountings, G_N_ELEMENTS (mountings), mounting);
}

gboolean
bond_mounting_parse (const char *text, BondMounting *mounting)
{
  return bond_word_parse (mountings, G_N_ELEMENTS (mountings), text, (guint *)mounting);
}

BondLimitRow *
bond_limit_row_new (void)
{
  BondLimitRow *row = g_new0 (BondLimitRow, 1);

  row->ref_count = 1;
  row->klass = BOND_CLASS_ANY;
  row->verified = TRUE;
  return row;
}

BondLimitRow *
bond_limit_row_ref (BondLimitRow *row)
{
  g_return_val_if_fail (row != NULL, NULL);
  g_atomic_int_inc (&row->ref_count);
  return row;
}

void
bond_limit_row_unref (BondLimitRow *row)
{
  g_return_if_fail (row != NULL);
  if (!g_atomic_int_dec_and_test (&row->ref_count))
    return;
  g_free (row->code);
  g_free (row->covers);
  g_free (row->document);
  g_free (row->revision);
  g_free (row->paragraph);
  g_free (row->checked_by);
  g_free (row->note);
  g_free (row);
}

gboolean
bond_limit_row_check (const BondLimitRow *row, GError **error)
{
  const char *fault;

  g_return_val_if_fail (row != NULL, FALSE);
  if (row->code == NULL || *row->code == '\0' || strchr (row->code, '/') != NULL)
    return unsound (error, row, _ ("it needs a code without a slash."));
  if (row->klass != BOND_CLASS_ANY && (guint)row->klass >= BOND_N_CLASSES)
    return unsound (error, row, _ ("its class is unknown."));
  if (row->method_volts < 0)
    return unsound (error, row, _ ("its test voltage is negative."));
  if ((fault = bounds_fault (&row->in_service)) != NULL)
    return unsound (error, row, fault);
  if (is_electrical (row->method) != bond_bounds_any (&row->in_service))
    return unsound (error, row, _ ("a measured row needs a limit, and a visual or absent row has none."));
  if (!row->has_strict)
    return TRUE;
  if ((fault = bounds_fault (&row->strict)) != NULL)
    return unsound (error, row, fault);
  if (!bond_bounds_any (&row->strict) || !is_stricter (&row->strict, &row->in_service))
    return unsound (error, row, _ ("its value for new, opened or reworked joints is not the stricter one."));
  return TRUE;
}

gboolean
bond_bounds_any (const BondBounds *bounds)
{
  g_return_val_if_fail (bounds != NULL, FALSE);
  return bounds->upper.relation != BOND_RELATION_NONE || bounds->lower.relation != BOND_RELATION_NONE;
}

const BondBounds *
bond_limit_row_bounds (const BondLimitRow *row, BondCondition condition)
{
  g_return_val_if_fail (row != NULL, NULL);
  return row->has_strict && condition != BOND_CONDITION_UNDISTURBED ? &row->strict : &row->in_service;
}

BondUnit
bond_bounds_unit (const BondBounds *bounds)
{
  g_return_val_if_fail (bounds != NULL, BOND_UNIT_MILLIOHM);
  if (bounds->upper.relation != BOND_RELATION_NONE)
    return bounds->upper.unit;
  return bounds->lower.relation != BOND_RELATION_NONE ? bounds->lower.unit : BOND_UNIT_MILLIOHM;
}

char *
bond_bounds_format (const BondBounds *bounds, char mark, gboolean with_unit)
{
  g_autofree char *upper = NULL;
  g_autofree char *lower = NULL;
  BondUnit unit;

  g_return_val_if_fail (bounds != NULL, NULL);
  unit = bond_bounds_unit (bounds);
  if (bounds->upper.relation != BOND_RELATION_NONE)
    upper = format_value (&bounds->upper, unit, mark, with_unit);
  if (bounds->lower.relation != BOND_RELATION_NONE)
    lower = format_value (&bounds->lower, unit, mark, with_unit);

  if (upper != NULL && lower != NULL)
    return g_strconcat (lower, NBSP, bounds->lower.relation == BOND_RELATION_GT ? "<" : "≤", NBSP "R" NBSP,
                        relation_symbols[bounds->upper.relation], NBSP, upper, NULL);
  if (upper != NULL)
    return g_strconcat (relation_symbols[bounds->upper.relation], NBSP, upper, NULL);
  return lower != NULL ? g_strconcat (relation_symbols[bounds->lower.relation], NBSP, lower, NULL) : g_strdup ("");
}

char *
bond_bounds_to_file (const BondBounds *bounds)
{
  GString *text;

  g_return_val_if_fail (bounds != NULL, NULL);
  text = g_string_new (NULL);
  append_bound_to_file (text, &bounds->lower);
  append_bound_to_file (text, &bounds->upper);
  return g_string_free (text, FALSE);
}
