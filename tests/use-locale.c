/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * Linked into every test program, so that it runs under the user's locale before
 * main(), as the window does (GTK asks for it there).  Without this, the run
 * under a comma locale would prove nothing.
 */
#include <locale.h>

static void __attribute__ ((constructor)) use_locale (void) { setlocale (LC_ALL, ""); }
