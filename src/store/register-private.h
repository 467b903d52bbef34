/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * The readers and writers of the single kinds, for the table in register-file.c
 * and nobody else.  A writer fills an element that is there; a reader gives a new
 * object or a located error.
 */
#pragma once

#include "store/register-parts.h"

G_BEGIN_DECLS

#define BOND_REGISTER_MAX_REVISION 1000000

gpointer bond_airframe_read (xmlNode *node, const char *file, GError **error);
void bond_airframe_write (xmlNode *node, gconstpointer object);
gpointer bond_limit_set_read (xmlNode *node, const char *file, GError **error);
void bond_limit_set_write (xmlNode *node, gconstpointer object);
gpointer bond_instrument_read (xmlNode *node, const char *file, GError **error);
void bond_instrument_write (xmlNode *node, gconstpointer object);
gpointer bond_person_read (xmlNode *node, const char *file, GError **error);
void bond_person_write (xmlNode *node, gconstpointer object);
gpointer bond_house_read (xmlNode *node, const char *file, GError **error);
void bond_house_write (xmlNode *node, gconstpointer object);
gpointer bond_earlier_read (xmlNode *node, const char *file, GError **error);
void bond_earlier_write (xmlNode *node, gconstpointer object);

/** bond_head_write: id and revision, which every register object has. */
void bond_head_write (xmlNode *node, const char *id, int revision);
/** bond_head_read: @id: (transfer full). FALSE with a located error when one is missing or not usable. */
gboolean bond_head_read (xmlNode *node, const char *file, char **id, int *revision, GError **error);
/** bond_sense_take: makes @cause a located error and frees it. Always FALSE. */
gboolean bond_sense_take (GError **error, const char *file, xmlNode *node, GError *cause);

G_END_DECLS
