/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * Points, limit rows and bounds as XML, both ways, and the located error.  The
 * schema has been asked before any of this runs; what is checked here is sense, and
 * nothing is trusted because a schema is there: the same readers serve nodes that
 * no schema saw.
 */
#include "store/register-parts.h"

#include "core/number.h"

#include <glib/gi18n-lib.h>

/* Larger than any aircraft in any unit, and small enough to count tenths in 64 bits. */
#define MAX_COORDINATE 1e6

void
bond_sense_error (GError **error, const char *file, xmlNode *node, const char *format, ...)
{
  g_autofree char *message = NULL;
  va_list args;

  g_return_if_fail (file != NULL && node != NULL && format != NULL);
  va_start (args, format);
  message = g_strdup_vprintf (format, args);
  va_end (args);
  g_set_error (error, BOND_STORE_ERROR, BOND_STORE_ERROR_SENSE, "%s:%ld: %s", file, xmlGetLineNo (node), message);
}

gboolean
bond_read_word (xmlNode *node, const char *name, const char *file, BondWordParser parse, gpointer value, GError **error)
{
  g_autofree char *text = bond_xml_get (node, name);

  if (text == NULL || parse (text, value))
    return TRUE;
  bond_sense_error (error, file, node, _ ("“%s” is not a known value of %s. Use one that the format names."), text,
                    name);
  return FALSE;
}

gboolean
bond_read_number (xmlNode *node, const char *name, const char *file, double *value, gboolean *known, GError **error)
{
  g_autofree char *text = bond_xml_get (node, name);

  *known = text != NULL;
  if (text == NULL)
    return TRUE;
  if (bond_number_parse (text, value) && ABS (*value) <= MAX_COORDINATE)
    return TRUE;
  bond_sense_error (error, file, node,
                    _ ("“%s” is not a usable number for %s. Write digits with a point, like -104.5, at most 1000000."),
                    text, name);
  return FALSE;
}

gboolean
bond_read_whole (xmlNode *node, const char *name, const char *file, int most, int *value, GError **error)
{
  g_autofree char *text = bond_xml_get (node, name);
  guint64 number = 0;

  if (text == NULL)
    return TRUE;
  if (g_ascii_string_to_unsigned (text, 10, 0, most, &number, NULL))
    {
      *value = (int)number;
      return TRUE;
    }
  bond_sense_error (error, file, node, _ ("“%s” is not a usable whole number for %s. Write digits, at most %d."), text,
                    name, most);
  return FALSE;
}

char *
bond_read_needed (xmlNode *node, const char *name, const char *file, GError **error)
{
  g_autofree char *text = bond_xml_get (node, name);

  if (text != NULL && *text != '\0')
    return g_steal_pointer (&text);
  bond_sense_error (error, file, node, _ ("<%s> has no %s. Give it one."), (const char *)node->name, name);
  return NULL;
}

static void
write_bound (xmlNode *parent, const char *name, const BondBound *bound)
{
  g_autofree char *value = NULL;
  xmlNode *node;

  if (bound->relation == BOND_RELATION_NONE)
    return;
  node = bond_xml_add (parent, name);
  value = bond_ohm_format_exact (bound->nohm, bound->unit, 0, '.');
  bond_xml_set (node, "relation", bond_relation_file_name (bound->relation));
  bond_xml_set (node, "value", value);
  bond_xml_set (node, "unit", bond_unit_file_name (bound->unit));
}

void
bond_bounds_write (xmlNode *node, const BondBounds *bounds)
{
  g_return_if_fail (node != NULL && bounds != NULL);
  write_bound (node, "upper", &bounds->upper);
  write_bound (node, "lower", &bounds->lower);
}

/* Upper bounds are < or ≤, lower ones > or ≥: the wrong way round would turn a verdict over. */
static gboolean
relation_fits (BondRelation relation, gboolean is_upper)
{
  if (is_upper)
    return relation == BOND_RELATION_LT || relation == BOND_RELATION_LE;
  return relation == BOND_RELATION_GT || relation == BOND_RELATION_GE;
}

static gboolean
read_value (xmlNode *node, const char *file, BondBound *bound, GError **error)
{
  g_autofree char *value = bond_read_needed (node, "value", file, error);

  if (value == NULL)
    return FALSE;
  if (!bond_decimal_parse (value, &bond_number_format_file, bond_unit_nohm (bound->unit), &bound->nohm, NULL))
    bond_sense_error (
        error, file, node,
        _ ("The limit “%s” is not a plain decimal number that is whole in nano-ohms. Write one like 2.5."), value);
  else if (bound->nohm <= 0)
    bond_sense_error (error, file, node, _ ("The limit “%s” is not above zero. A limit must be above zero."), value);
  else
    return TRUE;
  return FALSE;
}

static gboolean
read_bound (xmlNode *parent, const char *name, gboolean is_upper, const char *file, BondBound *bound, GError **error)
{
  xmlNode *node = bond_xml_child (parent, name);

  *bound = (BondBound){ .relation = BOND_RELATION_NONE, .unit = BOND_UNIT_MILLIOHM };
  if (node == NULL)
    return TRUE;
  if (!bond_read_word (node, "relation", file, (BondWordParser)bond_relation_parse, &bound->relation, error)
      || !bond_read_word (node, "unit", file, (BondWordParser)bond_unit_parse, &bound->unit, error))
    return FALSE;
  if (!relation_fits (bound->relation, is_upper))
    {
      bond_sense_error (error, file, node,
                        is_upper ? _ ("An upper limit needs the relation lt or le. Correct the relation.")
                                 : _ ("A lower limit needs the relation gt or ge. Correct the relation."));
      return FALSE;
    }
  return read_value (node, file, bound, error);
}

gboolean
bond_bounds_read (xmlNode *node, const char *file, BondBounds *bounds, GError **error)
{
  g_return_val_if_fail (node != NULL && file != NULL && bounds != NULL, FALSE);
  if (!read_bound (node, "upper", TRUE, file, &bounds->upper, error)
      || !read_bound (node, "lower", FALSE, file, &bounds->lower, error))
    return FALSE;
  if (bounds->upper.relation == BOND_RELATION_NONE || bounds->lower.relation == BOND_RELATION_NONE
      || bounds->lower.nohm < bounds->upper.nohm)
    return TRUE;
  bond_sense_error (error, file, node,
                    _ ("The lower limit is not below the upper one, so nothing could pass. Correct one of the two."));
  return FALSE;
}
