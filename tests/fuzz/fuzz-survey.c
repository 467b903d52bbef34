/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * Anything at all as a survey file, and a sound survey with anything spliced in: no
 * crash, no hang; a refusal is located; what is read can be replayed.
 */
#include "sound-survey.h"
#include "splice.h"

#include "store/entry-xml.h"

#include <libxml/parser.h>

int LLVMFuzzerTestOneInput (const guint8 *data, gsize size);

static void
try_file (const char *text, gsize length)
{
  g_autoptr (GPtrArray) problems = g_ptr_array_new_with_free_func ((GDestroyNotify)bond_problem_free);
  g_autoptr (GArray) no_journal = g_array_new (FALSE, FALSE, 1);
  g_autoptr (GBytes) bytes = g_bytes_new (text, length);
  g_autoptr (GError) error = NULL;
  BondRecord *record = bond_record_read_bytes ("fuzz", bytes, no_journal, problems, &error);

  fuzz_check_record (record, problems, error);
}

/* Entries that no schema saw: the readers must not trust that it was asked. */
static void
try_entries (const char *text, gsize length)
{
  xmlDoc *doc
      = xmlReadMemory (text, (int)length, "fuzz", "UTF-8", XML_PARSE_NONET | XML_PARSE_NOERROR | XML_PARSE_NOWARNING);
  xmlNode *sitting = doc == NULL ? NULL : bond_xml_child (xmlDocGetRootElement (doc), NULL);

  for (xmlNode *node = bond_xml_child (sitting, NULL); node != NULL; node = bond_xml_next (node, NULL))
    {
      g_autoptr (GError) error = NULL;
      BondEntry *entry = bond_entry_read (node, "fuzz", &error);

      g_assert_true ((entry == NULL) == (error != NULL));
      g_clear_pointer (&entry, bond_entry_unref);
    }
  xmlFreeDoc (doc);
}

int
LLVMFuzzerTestOneInput (const guint8 *data, gsize size)
{
  g_autofree char *spliced = NULL;
  const char *sound = fuzz_sound_survey ();
  gsize length;

  if (size < 1)
    return 0;
  if (data[0] == 0)
    {
      try_file ((const char *)data + 1, size - 1);
      return 0;
    }
  spliced = fuzz_splice (sound, data + 1, size - 1, &length);
  if (data[0] < 64)
    try_entries (spliced, length);
  else
    try_file (spliced, length);
  return 0;
}
