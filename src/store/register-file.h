/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * Airframes, limit sets, instruments, people and house rules as XML: the same
 * elements stand in files of their own and inside adopt entries of a survey.
 */
#pragma once

#include "core/entry.h"
#include "store/xml.h"

G_BEGIN_DECLS

/** bond_register_read: object of an element (airframe, limit-set, instrument, person, house, earlier). NULL + error. */
gpointer bond_register_read (xmlNode *node, BondAdoptKind *what, const char *file, GError **error);
/** bond_register_write: appends the element to @parent (its namespace is its own). */
void bond_register_write (xmlNode *parent, BondAdoptKind what, gconstpointer object);

/** bond_register_load: reads a register file of any kind; object is (transfer full): release with
 * bond_register_unref(). */
gpointer bond_register_load (const char *path, BondAdoptKind *what, GPtrArray *problems, GError **error);
gpointer bond_register_load_bytes (const char *name, const char *bytes, gsize length, BondAdoptKind *what,
                                   GPtrArray *problems, GError **error);
/** bond_register_to_text: the whole file, indented: the same object always gives the same bytes. Not for `earlier`.
 * (transfer full) */
char *bond_register_to_text (BondAdoptKind what, gconstpointer object, gsize *length);
gboolean bond_register_save (const char *path, BondAdoptKind what, gconstpointer object, GError **error);
/** bond_register_id_is_sound: may be a file name everywhere: letters, digits, '.', '-', '_', no '.' or '-' first. */
gboolean bond_register_id_is_sound (const char *id);
/** bond_house_figure_range: what the whole-number figure at offset @at of BondHouse may be; FALSE: there is none. */
gboolean bond_house_figure_range (goffset at, int *least, int *most);
gpointer bond_register_ref (BondAdoptKind what, gpointer object);
void bond_register_unref (BondAdoptKind what, gpointer object);

G_END_DECLS
