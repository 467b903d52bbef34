/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * The strings of a reading after the table of core/entry-field.h, and the few
 * attributes that are more than strings.  Whether figures and text agree is left to core.
 */
#include "store/reading-xml.h"

#include "core/entry-field.h"
#include "store/register-parts.h"

#include <glib/gi18n-lib.h>
#include <string.h>

#define MAX_PLANNED 1000

static const char *const qualifiers[] = { NULL, "over", "below" };

static void
write_quantity (xmlNode *node, const BondReading *reading)
{
  bond_xml_set (node, "unit", bond_unit_file_name (reading->unit));
  bond_xml_set_int64 (node, "nohm", reading->quantity.nohm);
  bond_xml_set (node, "qualifier", qualifiers[reading->quantity.qualifier]);
  if (reading->quantity.rest != 0)
    bond_xml_set_int64 (node, "rest", reading->quantity.rest);
  if (reading->nanovolt != 0 && reading->microampere != 0)
    {
      bond_xml_set_int64 (node, "nanovolt", reading->nanovolt);
      bond_xml_set_int64 (node, "microampere", reading->microampere);
    }
}

void
bond_reading_write (xmlNode *parent, const BondReading *reading)
{
  xmlNode *node = bond_xml_add (parent, "reading");
  guint n;
  const BondField *texts = bond_reading_texts (&n);

  bond_xml_set (node, "direction", bond_direction_file_name (reading->direction));
  for (guint i = 0; i < n; i++)
    bond_xml_set (node, texts[i].name, G_STRUCT_MEMBER (char *, reading, texts[i].offset));
  write_quantity (node, reading);
  if (reading->planned > 1)
    bond_xml_set_int64 (node, "planned", reading->planned);
  if (reading->confirmed)
    bond_xml_set (node, "confirmed", "yes");
  if (reading->connectors != BOND_CONNECTORS_ANY)
    bond_xml_set (node, "connectors", bond_connectors_file_name (reading->connectors));
  if (reading->mounting != BOND_MOUNTING_ANY)
    bond_xml_set (node, "mounting", bond_mounting_file_name (reading->mounting));
}

static gboolean
parse_qualifier (const char *text, BondQualifier *qualifier)
{
  for (guint i = 1; i < G_N_ELEMENTS (qualifiers); i++)
    if (strcmp (text, qualifiers[i]) == 0)
      {
        *qualifier = (BondQualifier)i;
        return TRUE;
      }
  return FALSE;
}

static gboolean
read_words (xmlNode *node, BondReading *reading, const char *file, GError **error)
{
  const struct
  {
    const char *name;
    BondWordParser parse;
    gpointer value;
  } words[] = {
    { "direction", (BondWordParser)bond_direction_parse, &reading->direction },
    { "unit", (BondWordParser)bond_unit_parse, &reading->unit },
    { "qualifier", (BondWordParser)parse_qualifier, &reading->quantity.qualifier },
    { "connectors", (BondWordParser)bond_connectors_parse, &reading->connectors },
    { "mounting", (BondWordParser)bond_mounting_parse, &reading->mounting },
  };

  for (guint i = 0; i < G_N_ELEMENTS (words); i++)
    if (!bond_read_word (node, words[i].name, file, words[i].parse, words[i].value, error))
      return FALSE;
  return TRUE;
}

gboolean
bond_reading_read (xmlNode *node, BondReading *reading, const char *file, GError **error)
{
  gint64 rest = 0;
  guint n;
  const BondField *texts = bond_reading_texts (&n);

  for (guint i = 0; i < n; i++)
    G_STRUCT_MEMBER (char *, reading, texts[i].offset) = bond_xml_get (node, texts[i].name);
  if (!bond_xml_get_int64 (node, "nohm", &reading->quantity.nohm))
    {
      bond_sense_error (error, file, node,
                        _ ("The resistance is not a whole number of nano-ohms that fits. Use a backup."));
      return FALSE;
    }
  bond_xml_get_int64 (node, "rest", &rest);
  bond_xml_get_int64 (node, "nanovolt", &reading->nanovolt);
  bond_xml_get_int64 (node, "microampere", &reading->microampere);
  reading->quantity.rest = (gint8)CLAMP (rest, -1, 1);
  reading->confirmed = bond_xml_get_bool (node, "confirmed", FALSE);
  return bond_read_whole (node, "planned", file, MAX_PLANNED, &reading->planned, error)
         && read_words (node, reading, file, error);
}
