/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * What a file on disk is known to hold, so that a save can tell whether somebody
 * else has written it since.  By content: a touched file is not a changed one.
 */
#pragma once

#include <glib.h>

G_BEGIN_DECLS

typedef struct _BondImage BondImage;

/** bond_image_new: @path was just read and held @bytes. */
BondImage *bond_image_new (const char *path, GBytes *bytes);
/** bond_image_new_pieces: @path was just written from @pieces (of GBytes; references are taken). */
BondImage *bond_image_new_pieces (const char *path, GPtrArray *pieces);
void bond_image_free (BondImage *image);
/** bond_image_is_on_disk: @path still holds it, or is not there at all (then nothing of anybody's can be lost). */
gboolean bond_image_is_on_disk (BondImage *image, const char *path);

G_END_DECLS
