/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * Colours and type of the window: which of our style sheets is in force (light,
 * dark, high contrast) and which inks drawings use.  The sheets themselves are in
 * ui/style*.css.
 */
#pragma once

#include "report/marks.h"
#include <gtk/gtk.h>

G_BEGIN_DECLS

typedef enum
{
  BOND_LOOK_LIGHT,
  BOND_LOOK_DARK,
  BOND_LOOK_CONTRAST,      /* black on white, told by shape only */
  BOND_LOOK_CONTRAST_DARK, /* white on black */
} BondLook;
#define BOND_N_LOOKS 4

/** bond_style_attach: loads the sheets for @display and follows its theme from now on; harmless when called again. */
void bond_style_attach (GdkDisplay *display);
/** bond_look_of: what the theme of @settings asks for; GTK_THEME wins as it does in GTK. */
BondLook bond_look_of (GtkSettings *settings);
/** bond_look_from: the same from the words themselves (tests). @environment: value of GTK_THEME or NULL. */
BondLook bond_look_from (const char *theme, gboolean prefer_dark, const char *environment);
const BondInks *bond_look_inks (BondLook look);
/** bond_style_inks: inks for drawing in @widget now. */
const BondInks *bond_style_inks (GtkWidget *widget);
/** bond_style_watch: queues a redraw of @widget whenever the look changes, as long as it lives. */
void bond_style_watch (GtkWidget *widget);

G_END_DECLS
