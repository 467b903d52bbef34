/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * A limit set as XML, both ways.  The rows have a file of their own, for a point
 * may carry one too.
 */
#include "store/register-private.h"

#include <glib/gi18n-lib.h>

void
bond_limit_set_write (xmlNode *node, gconstpointer object)
{
  const BondLimitSet *set = object;
  guint i;

  bond_head_write (node, set->id, set->revision);
  bond_xml_set (node, "name", set->name);
  bond_xml_set (node, "invented", set->invented ? "yes" : NULL);
  bond_xml_set (node, "enabled", set->enabled ? NULL : "no");
  bond_xml_set_text (node, "note", set->note);
  for (i = 0; i < set->rows->len; i++)
    bond_limit_row_write (node, "row", g_ptr_array_index (set->rows, i));
}

/* Two default rows of one class would leave the choice to the order of the file. */
static gboolean
check_default (const BondLimitRow *row, gboolean *has_default, const char *file, xmlNode *node, GError **error)
{
  if (!row->is_default)
    return TRUE;
  if (row->klass != BOND_CLASS_ANY && !has_default[row->klass])
    {
      has_default[row->klass] = TRUE;
      return TRUE;
    }
  bond_sense_error (error, file, node,
                    row->klass == BOND_CLASS_ANY
                        ? _ ("Row %s is the default of no class. Name its class or take default away.")
                        : _ ("Row %s is a second default of its class. Keep one default row a class."),
                    row->code);
  return FALSE;
}

static gboolean
read_row (BondLimitSet *set, xmlNode *node, const char *file, gboolean *has_default, GError **error)
{
  g_autoptr (BondLimitRow) row = bond_limit_row_read (node, file, error);
  GError *cause = NULL;

  if (row == NULL || !check_default (row, has_default, file, node, error))
    return FALSE;
  return bond_limit_set_add (set, g_steal_pointer (&row), &cause) || bond_sense_take (error, file, node, cause);
}

gpointer
bond_limit_set_read (xmlNode *node, const char *file, GError **error)
{
  g_autoptr (BondLimitSet) set = NULL;
  g_autofree char *id = NULL, *name = NULL;
  gboolean has_default[BOND_N_CLASSES] = { FALSE };
  xmlNode *row;
  int revision = 0;

  if (!bond_head_read (node, file, &id, &revision, error))
    return NULL;
  name = bond_xml_get (node, "name");
  set = bond_limit_set_new (id, revision, name != NULL ? name : id);
  set->invented = bond_xml_get_bool (node, "invented", FALSE);
  set->enabled = bond_xml_get_bool (node, "enabled", TRUE);
  set->note = bond_xml_get_text (node, "note");
  for (row = bond_xml_child (node, "row"); row != NULL; row = bond_xml_next (row, "row"))
    if (!read_row (set, row, file, has_default, error))
      return NULL;
  return g_steal_pointer (&set);
}
