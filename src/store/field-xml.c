/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * One step a type of member.  Which members a payload has is left to core, which
 * element they stand in to entry-xml.c.
 */
#include "store/field-xml.h"

#include "store/register-parts.h"

static void
write_field (xmlNode *node, const BondField *field, const BondEntry *entry)
{
  gconstpointer value = G_STRUCT_MEMBER_P (entry, field->offset);
  int count;

  switch (field->type)
    {
    case BOND_FIELD_TEXT:
      bond_xml_set (node, field->name, *(char *const *)value);
      break;
    case BOND_FIELD_CHILD:
      bond_xml_set_text (node, field->name, *(char *const *)value);
      break;
    case BOND_FIELD_WORD:
      bond_xml_set (node, field->name, field->word (*(const guint *)value));
      break;
    case BOND_FIELD_COUNT:
      count = *(const int *)value;
      if (count != BOND_COUNT_NOT_STATED)
        bond_xml_set_int64 (node, field->name, count);
      break;
    case BOND_FIELD_SIZE:
      bond_xml_set_int64 (node, field->name, *(const gint64 *)value);
      break;
    case BOND_FIELD_ANSWER:
      bond_xml_set (node, field->name, *(const gboolean *)value ? "yes" : "no");
      break;
    case BOND_FIELD_FLAG:
      bond_xml_set (node, field->name, *(const gboolean *)value ? "yes" : NULL);
      break;
    }
}

static gboolean
read_field (xmlNode *node, const BondField *field, BondEntry *entry, const char *file, GError **error)
{
  gpointer value = G_STRUCT_MEMBER_P (entry, field->offset);

  switch (field->type)
    {
    case BOND_FIELD_TEXT:
      *(char **)value = bond_xml_get (node, field->name);
      return TRUE;
    case BOND_FIELD_CHILD:
      *(char **)value = bond_xml_get_text (node, field->name);
      return TRUE;
    case BOND_FIELD_WORD:
      return bond_read_word (node, field->name, file, field->parse, value, error);
    case BOND_FIELD_COUNT:
      return bond_read_whole (node, field->name, file, G_MAXINT, value, error);
    case BOND_FIELD_SIZE:
      bond_xml_get_int64 (node, field->name, value);
      return TRUE;
    case BOND_FIELD_ANSWER:
    case BOND_FIELD_FLAG:
    default:
      *(gboolean *)value = bond_xml_get_bool (node, field->name, field->type == BOND_FIELD_ANSWER);
      return TRUE;
    }
}

void
bond_fields_write (xmlNode *node, const BondEntry *entry)
{
  const BondField *fields;
  guint i, n;

  g_return_if_fail (node != NULL && entry != NULL);
  fields = bond_entry_fields (entry->kind, &n);
  for (i = 0; i < n; i++)
    {
      xmlNode *in = fields[i].element != NULL ? bond_xml_child (node, fields[i].element) : node;

      write_field (in != NULL ? in : bond_xml_add (node, fields[i].element), &fields[i], entry);
    }
}

gboolean
bond_fields_read (xmlNode *node, BondEntry *entry, const char *file, GError **error)
{
  const BondField *fields;
  guint i, n;

  g_return_val_if_fail (node != NULL && entry != NULL && file != NULL, FALSE);
  fields = bond_entry_fields (entry->kind, &n);
  for (i = 0; i < n; i++)
    {
      xmlNode *in = fields[i].element != NULL ? bond_xml_child (node, fields[i].element) : node;

      if (in != NULL && !read_field (in, &fields[i], entry, file, error))
        return FALSE;
    }
  return TRUE;
}
