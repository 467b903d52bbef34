/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * Personal taste that is kept between runs.
 */
#pragma once

#include <gio/gio.h>

G_BEGIN_DECLS

/** bond_settings_open: NULL where the schema is not installed; then nothing is remembered. (transfer full) */
GSettings *bond_settings_open (void);

G_END_DECLS
