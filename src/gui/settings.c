/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * GSettings ends the process when its schema is missing, and a program that was
 * copied and not installed has none: so it is looked up first.
 */
#include "gui/settings.h"

#define SCHEMA "io.github.bondwright.Bondwright"

GSettings *
bond_settings_open (void)
{
  GSettingsSchemaSource *source = g_settings_schema_source_get_default ();
  g_autoptr (GSettingsSchema) schema = source != NULL ? g_settings_schema_source_lookup (source, SCHEMA, TRUE) : NULL;

  return schema != NULL ? g_settings_new (SCHEMA) : NULL;
}
