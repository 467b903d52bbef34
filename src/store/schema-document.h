/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * A bundled schema as one document.  Types used by several schemas stand in
 * common.xsd; libxml2 would fetch that through the entity loader, which is shut for
 * good reason, so the include is put in place here.
 */
#pragma once

#include "store/xml.h"

G_BEGIN_DECLS

/**
 * bond_schema_document: schema @name of the bundled ones, its includes replaced by what they include.
 *
 * Returns: (transfer full): free with xmlFreeDoc() after everything compiled from it; NULL with @error
 */
xmlDoc *bond_schema_document (const char *name, GError **error);

G_END_DECLS
