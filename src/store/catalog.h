/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * Where airframes, limit sets, instruments, people and house rules are found: the
 * ones shipped (a resource of this library) and those in the library folder.
 * Same id: the higher revision wins.
 */
#pragma once

#include "core/entry.h"

G_BEGIN_DECLS

typedef struct _BondCatalog BondCatalog;

/** bond_catalog_new: @folder: library folder or NULL for shipped data alone. Unusable files go to @problems, never stop
 * it. */
BondCatalog *bond_catalog_new (const char *folder, GPtrArray *problems);
void bond_catalog_free (BondCatalog *catalog);
/** bond_catalog_list: GPtrArray of borrowed objects of one kind, by name. (transfer container) */
GPtrArray *bond_catalog_list (BondCatalog *catalog, BondAdoptKind what);
gpointer bond_catalog_find (BondCatalog *catalog, BondAdoptKind what, const char *id); /* (transfer none) (nullable) */
/** bond_catalog_save: writes to the folder's register, revision checked to be newer. */
gboolean bond_catalog_save (BondCatalog *catalog, BondAdoptKind what, gpointer object, GError **error);
/** bond_catalog_list_shipped_names: resource paths of the shipped files of one kind (for tests). (transfer full) */
char **bond_catalog_shipped (BondAdoptKind what);

G_DEFINE_AUTOPTR_CLEANUP_FUNC (BondCatalog, bond_catalog_free)

G_END_DECLS
