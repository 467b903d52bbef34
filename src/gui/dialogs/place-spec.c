/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * The rules of the form about a new point.  Text that does not parse whole is no
 * number.
 */
#include "gui/dialogs/place-spec.h"
#include "core/number.h"
#include <math.h>

#define N_LETTERS 26

char *
bond_place_label (BondPlaceLabels labels, guint nth)
{
  if (labels == BOND_PLACE_LABELS_NUMBERS)
    return g_strdup_printf ("%u", nth + 1);
  if (nth < N_LETTERS)
    return g_strdup_printf ("%c", (char)('a' + nth));
  return g_strdup_printf ("%c%c", (char)('a' + nth / N_LETTERS - 1), (char)('a' + nth % N_LETTERS));
}

static int
read_whole (const char *text, guint64 most)
{
  guint64 n;

  if (text == NULL || *text == '\0')
    return 1;
  return g_ascii_string_to_unsigned (text, 10, 1, most, &n, NULL) ? (int)n : 0;
}

int
bond_place_read_count (const char *text)
{
  return read_whole (text, BOND_PLACES_MOST);
}

int
bond_place_read_every (const char *text, int n_places)
{
  return read_whole (text, (guint64)MAX (n_places, 1));
}

gboolean
bond_place_is_asked (guint nth, int every)
{
  return every <= 1 || nth % (guint)every == 0;
}

gboolean
bond_place_read_coordinate (const char *given, BondAxisName axis, BondCoordinate *coordinate)
{
  g_autofree char *text = g_strdup (given);
  char side = axis == BOND_AXIS_BL && text != NULL ? g_ascii_toupper (text[0]) : '\0';
  const char *digits = text;

  *coordinate = (BondCoordinate){ FALSE, 0 };
  if (text == NULL)
    return TRUE;
  g_strdelimit (text, ",", '.');
  if (side == 'L' || side == 'R')
    digits = g_strchug (text + 1);
  coordinate->known = bond_number_parse (digits, &coordinate->value) && (digits == text || coordinate->value >= 0.0);
  if (side == 'L')
    coordinate->value = -coordinate->value;
  return coordinate->known;
}

/* As the panel shows it: "L 679.3"; station and water line are plain numbers here, for their label names them. */
char *
bond_place_coordinate_text (BondAxisName axis, const BondCoordinate *coordinate, char mark)
{
  char digits[G_ASCII_DTOSTR_BUF_SIZE];

  if (!coordinate->known)
    return NULL;
  if (axis == BOND_AXIS_BL && fabs (coordinate->value) >= 0.05)
    return bond_coordinate_format (axis, coordinate, mark);
  return g_strdelimit (g_strdup (g_ascii_formatd (digits, sizeof digits, "%.1f", coordinate->value)), ".", mark);
}
