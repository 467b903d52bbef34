/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * The start window: surveys of the library folder and recent files, the registers,
 * Open, New.
 */
#pragma once

#include "gui/application.h"

G_BEGIN_DECLS

#define BOND_TYPE_START_WINDOW (bond_start_window_get_type ())
G_DECLARE_FINAL_TYPE (BondStartWindow, bond_start_window, BOND, START_WINDOW, GtkApplicationWindow)

/** bond_start_window_show: the one start window of @application, made when there is none. */
BondStartWindow *bond_start_window_show (BondApplication *application);
/** bond_start_window_show_page: "surveys" "instruments" "airframes" "limits" "people" "house". */
void bond_start_window_show_page (BondStartWindow *window, const char *name);

G_END_DECLS
