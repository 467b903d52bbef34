/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * Reading and writing plain decimals; see number.h for why not the C library alone.
 */
#include "core/number.h"

#include <math.h>
#include <string.h>

#define MAX_LENGTH 32
/* Enough for every digit of a number down to 1e-8. */
#define MAX_DECIMALS 25

static const char *
skip_digits (const char *p)
{
  while (g_ascii_isdigit (*p))
    p++;
  return p;
}

/* The end of the number that starts at @p, or NULL. */
static const char *
number_end (const char *p)
{
  const char *digits;

  if (*p == '-')
    p++;
  digits = p;
  p = skip_digits (p);
  if (p == digits)
    return NULL;
  if (*p == '.')
    {
      digits = ++p;
      p = skip_digits (p);
      if (p == digits)
        return NULL;
    }
  return *p == '.' || *p == 'e' || *p == 'E' ? NULL : p;
}

gboolean
bond_number_scan (const char **at, double *value)
{
  const char *end;
  char token[MAX_LENGTH + 1];
  gsize length;

  g_return_val_if_fail (at != NULL && *at != NULL && value != NULL, FALSE);
  end = number_end (*at);
  if (end == NULL || end - *at > MAX_LENGTH)
    return FALSE;
  length = end - *at;
  memcpy (token, *at, length);
  token[length] = '\0';
  *value = g_ascii_strtod (token, NULL);
  *at = end;
  return TRUE;
}

gboolean
bond_number_parse (const char *text, double *value)
{
  double number;

  g_return_val_if_fail (text != NULL && value != NULL, FALSE);
  if (!bond_number_scan (&text, &number) || *text != '\0')
    return FALSE;
  *value = number;
  return TRUE;
}

char *
bond_number_to_text (double value, char *text)
{
  int decimals;

  g_return_val_if_fail (isfinite (value) && text != NULL, NULL);
  if (value == 0)
    value = 0; /* no "-0" */
  for (decimals = 0; decimals <= MAX_DECIMALS; decimals++)
    {
      char format[8];

      g_snprintf (format, sizeof format, "%%.%df", decimals);
      g_ascii_formatd (text, BOND_NUMBER_SIZE, format, value);
      if (g_ascii_strtod (text, NULL) == value)
        break;
    }
  return text;
}
