/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * Digest over canonical form, in the two places the chain has: its start and each
 * further link.
 */
#include "store/chain.h"

#include <string.h>

static char *
digest (const char *before, xmlNode *node)
{
  g_autoptr (GBytes) canonical = bond_xml_canonical (node, "d");
  g_autoptr (GChecksum) sum = g_checksum_new (G_CHECKSUM_SHA256);
  gsize length;
  const guchar *bytes = g_bytes_get_data (canonical, &length);

  g_checksum_update (sum, (const guchar *)before, (gssize)strlen (before));
  if (length > 0)
    g_checksum_update (sum, bytes, (gssize)length);
  return g_strdup (g_checksum_get_string (sum));
}

char *
bond_chain_start (const char *survey_id, xmlNode *sitting)
{
  g_autofree char *before = NULL;
  xmlNode *children;
  char *result;

  g_return_val_if_fail (survey_id != NULL && sitting != NULL, NULL);

  before = g_strconcat (survey_id, "\n", NULL);
  children = sitting->children;
  sitting->children = NULL;
  result = digest (before, sitting);
  sitting->children = children;
  return result;
}

char *
bond_chain_next (const char *previous, xmlNode *entry)
{
  g_return_val_if_fail (previous != NULL && entry != NULL, NULL);
  return digest (previous, entry);
}
