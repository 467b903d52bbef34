/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * Personal taste: what a person likes about the window and no result hangs on.
 * Kept in GSettings where its schema is installed, else for this run only.
 *
 * Properties (all readable and writable, followed by "notify"):
 *   "high-contrast" boolean      "reduce-motion" boolean
 *   "big-targets" boolean        "big-target-mm" int, 12 to 20
 *   "panel-left" boolean         "letters" boolean (letters act in the empty field)
 *   "lower-seen-through" boolean (lower view as seen through from above, left wing at left)
 */
#pragma once

#include <gtk/gtk.h>

G_BEGIN_DECLS

#define BOND_TARGET_MM_LEAST 12
#define BOND_TARGET_MM_USUAL 15
#define BOND_TARGET_MM_MOST 20

#define BOND_TYPE_TASTE (bond_taste_get_type ())
G_DECLARE_FINAL_TYPE (BondTaste, bond_taste, BOND, TASTE, GObject)

/** bond_taste_get: that of the default display; made on first use. (transfer none) */
BondTaste *bond_taste_get (void);
gboolean bond_taste_is (BondTaste *taste, const char *property);
int bond_taste_target_mm (BondTaste *taste);
/** bond_taste_apply: puts contrast and motion into force; they are followed from then on. */
void bond_taste_apply (BondTaste *taste);

G_END_DECLS
