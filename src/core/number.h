/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * Plain decimal numbers of files ("-104.5"), for places in a drawing.  The C
 * library's readers accept hexadecimal, infinity, leading blanks and, some of them,
 * the locale's comma; here the whole grammar is digits with one point.
 * Resistances are not read here: they are exact, see core/ohm.h.
 */
#pragma once

#include <glib.h>

G_BEGIN_DECLS

/**
 * bond_number_scan: reads [-]digits[.digits] at *@at and moves *@at behind it.
 *
 * Returns: FALSE, with *@at unmoved, when no such number stands there, an exponent or second point follows, or it is
 *   longer than 32 characters
 */
gboolean bond_number_scan (const char **at, double *value);
/** bond_number_parse: the whole text is one number. */
gboolean bond_number_parse (const char *text, double *value);

#define BOND_NUMBER_SIZE 352
/**
 * bond_number_to_text: shortest decimal text without exponent that reads back as @value; '.' in any locale; -0 is "0";
 * exact from 1e-8 upwards, below that to 25 decimals.
 * @text: BOND_NUMBER_SIZE characters
 *
 * Returns: @text
 */
char *bond_number_to_text (double value, char *text);

G_END_DECLS
