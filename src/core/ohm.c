/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * Text to whole nano-ohms and back, exactly.  Every step is integer arithmetic
 * (128 bit where a product needs it); the one binary fraction is an instrument's
 * reply.  Units are left to ohm-unit.c, what a typed line means to reading-text.c.
 */
#include "core/ohm.h"

#include <glib/gi18n-lib.h>
#include <locale.h>
#include <math.h>

/* Said after the quoted text. */
static const char *const reasons[] = {
  [BOND_OHM_ERROR_EMPTY] = N_ ("there is no figure. Type what the display shows."),
  [BOND_OHM_ERROR_NOT_NUMBER]
  = N_ ("not a figure as a whole. Use the digits 0 to 9, one decimal mark and no exponent."),
  [BOND_OHM_ERROR_TWO_MARKS] = N_ ("two decimal marks. Type the figure with one."),
  [BOND_OHM_ERROR_AMBIGUOUS] = N_ ("the mark may be a decimal mark or part thousands. Say which, or type it without."),
  [BOND_OHM_ERROR_UNIT] = N_ ("unknown unit. Use µΩ, mΩ, Ω, kΩ or MΩ; small m is milli, capital M is mega."),
  [BOND_OHM_ERROR_TOO_FINE] = N_ ("finer than a nano-ohm or the smallest step kept. Type fewer decimals."),
  [BOND_OHM_ERROR_TOO_LARGE] = N_ ("too large to keep (9.2 GΩ at most). Check the unit."),
};

/* Decimals that hold every digit of a nano-ohm in every unit: 1 nΩ is 15 decimals of 1 MΩ. */
#define MAX_DECIMALS 15
/* Most digits that a 64-bit number can need on one side of the mark. */
#define MAX_DIGITS 18
#define MAX_QUOTED_CHARS 40

/* A scanned number: runs of digits inside the caller's text. */
typedef struct
{
  gboolean negative;
  const char *whole;
  int n_whole;
  char mark;
  const char *fraction;
  int n_fraction;
} Number;

const BondNumberFormat bond_number_format_file = { '.', FALSE, TRUE };

G_DEFINE_QUARK (bond_ohm_error, bond_ohm_error)

static gboolean
fail (GError **error, BondOhmError code, const char *text)
{
  g_autofree char *quoted = bond_text_quote (text);

  g_set_error (error, BOND_OHM_ERROR, code, "“%s”: %s", quoted, _ (reasons[code]));
  return FALSE;
}

/* Length in bytes of the space character at @text: those a keyboard or a table may put before a unit; 0 for none. */
static int
space_length (const char *text)
{
  static const char *const spaces[] = { " ", "\t", "\302\240", "\342\200\257", "\342\200\211" };
  gsize i;

  for (i = 0; i < G_N_ELEMENTS (spaces); i++)
    if (g_str_has_prefix (text, spaces[i]))
      return (int)strlen (spaces[i]);
  return 0;
}

static gboolean
is_mark (char c)
{
  return c == '.' || c == ',';
}

static int
digit_run (const char *text)
{
  return (int)strspn (text, "0123456789");
}

static const char *
scan_sign (const char *text, gboolean *negative)
{
  const char *minus = "\342\210\222"; /* U+2212 */

  *negative = *text == '-' || g_str_has_prefix (text, minus);
  if (*text == '-' || *text == '+')
    return text + 1;
  return *negative ? text + strlen (minus) : text;
}

/* Finds the number at the start of @text; returns what follows it, or NULL with @code set. */
static const char *
scan_number (const char *text, Number *number, BondOhmError *code)
{
  const char *p = scan_sign (text, &number->negative);

  number->whole = p;
  number->n_whole = digit_run (p);
  p += number->n_whole;
  number->mark = is_mark (*p) ? *p++ : '\0';
  number->fraction = p;
  number->n_fraction = number->mark != '\0' ? digit_run (p) : 0;
  p += number->n_fraction;

  if (number->mark != '\0' && is_mark (*p))
    *code = BOND_OHM_ERROR_TWO_MARKS;
  else if (*text == '\0')
    *code = BOND_OHM_ERROR_EMPTY;
  else if (number->n_whole + number->n_fraction == 0 || (number->mark != '\0' && number->n_fraction == 0))
    *code = BOND_OHM_ERROR_NOT_NUMBER; /* "1." and "." are unfinished, not 1 and 0 */
  else
    return p;
  return NULL;
}

/* Whether the mark may be read as a decimal mark; else sets @code. */
static gboolean
mark_is_decimal (const Number *number, const BondNumberFormat *format, BondOhmError *code)
{
  if (number->mark == '\0' || number->mark == format->mark)
    return TRUE;
  *code = format->own_mark_only ? BOND_OHM_ERROR_NOT_NUMBER : BOND_OHM_ERROR_AMBIGUOUS;
  return !format->own_mark_only && (number->n_fraction != 3 || format->other_is_decimal);
}

/* The value of at most MAX_DIGITS digits plus one; FALSE when there are more that count. */
static gboolean
digits_value (const char *digits, int n_digits, __int128 *value)
{
  *value = 0;
  for (; n_digits > 0 && *digits == '0'; digits++)
    n_digits--;
  if (n_digits > MAX_DIGITS + 1)
    return FALSE;
  for (; n_digits > 0; n_digits--)
    *value = *value * 10 + (*digits++ - '0');
  return TRUE;
}

static __int128
power_of_ten (int exponent)
{
  __int128 power = 1;

  while (exponent-- > 0)
    power *= 10;
  return power;
}

/* @number × @scale when that is a whole number of 64 bits. */
static gboolean
number_value (const Number *number, gint64 scale, gint64 *value, BondOhmError *code)
{
  int n_fraction = number->n_fraction;
  __int128 whole, fraction, divisor, total;

  while (n_fraction > 0 && number->fraction[n_fraction - 1] == '0')
    n_fraction--;
  *code = BOND_OHM_ERROR_TOO_FINE;
  if (n_fraction > MAX_DIGITS || !digits_value (number->fraction, n_fraction, &fraction))
    return FALSE;
  divisor = power_of_ten (n_fraction);
  if (fraction * scale % divisor != 0)
    return FALSE;

  *code = BOND_OHM_ERROR_TOO_LARGE;
  if (!digits_value (number->whole, number->n_whole, &whole) || whole > G_MAXINT64)
    return FALSE;
  total = whole * scale + fraction * scale / divisor;
  if (total > G_MAXINT64)
    return FALSE;
  *value = (gint64)(number->negative ? -total : total);
  return TRUE;
}

/* Decimal digits of @scaled, the last @decimals of them behind the mark. (transfer full) */
static char *
format_scaled (__int128 scaled, int decimals, char mark, const char *minus)
{
  char buffer[64]; /* 39 digits, a mark and a minus fit */
  char *p = buffer + sizeof buffer - 1;
  unsigned __int128 rest = scaled < 0 ? -(unsigned __int128)scaled : (unsigned __int128)scaled;
  int n_digits = 0;

  *p = '\0';
  do
    {
      *--p = (char)('0' + (int)(rest % 10));
      rest /= 10;
      if (++n_digits == decimals)
        *--p = mark;
    }
  while (rest > 0 || n_digits <= decimals);
  return g_strconcat (scaled < 0 ? minus : "", p, NULL);
}

static int
exact_decimals (BondOhm nohm, BondOhm unit_nohm, int min_decimals)
{
  int decimals = CLAMP (min_decimals, 0, MAX_DECIMALS);

  while (decimals < MAX_DECIMALS && nohm * power_of_ten (decimals) % unit_nohm != 0)
    decimals++;
  return decimals;
}

const char *
bond_ohm_error_reason (BondOhmError code)
{
  g_return_val_if_fail ((guint)code < G_N_ELEMENTS (reasons), NULL);
  return _ (reasons[code]);
}

char *
bond_text_quote (const char *text)
{
  g_autofree char *valid = NULL;
  g_autofree char *start = NULL;

  g_return_val_if_fail (text != NULL, NULL);
  valid = g_utf8_make_valid (text, -1);
  if (g_utf8_strlen (valid, -1) <= MAX_QUOTED_CHARS)
    return g_steal_pointer (&valid);
  start = g_utf8_substring (valid, 0, MAX_QUOTED_CHARS);
  return g_strconcat (start, "…", NULL);
}

const char *
bond_text_skip_spaces (const char *text)
{
  int length;

  g_return_val_if_fail (text != NULL, NULL);
  while ((length = space_length (text)) > 0)
    text += length;
  return text;
}

gboolean
bond_text_is_blank (const char *text)
{
  for (; text != NULL && *text != '\0'; text = g_utf8_next_char (text))
    if (!g_unichar_isspace (g_utf8_get_char (text)))
      return FALSE;
  return TRUE;
}

char *
bond_text_trim (const char *text)
{
  const char *start, *end, *p;

  g_return_val_if_fail (text != NULL, NULL);
  start = end = bond_text_skip_spaces (text);
  for (p = start; *p != '\0'; p += MAX (space_length (p), 1))
    if (space_length (p) == 0)
      end = p + 1;
  return g_strndup (start, end - start);
}

gboolean
bond_decimal_parse (const char *text, const BondNumberFormat *format, gint64 scale, gint64 *value, GError **error)
{
  Number number;
  BondOhmError code = BOND_OHM_ERROR_NOT_NUMBER;
  const char *rest;

  g_return_val_if_fail (text != NULL && format != NULL && scale > 0 && value != NULL, FALSE);
  rest = scan_number (text, &number, &code);
  if (rest != NULL && *rest != '\0')
    return fail (error, BOND_OHM_ERROR_NOT_NUMBER, text);
  if (rest == NULL || !mark_is_decimal (&number, format, &code) || !number_value (&number, scale, value, &code))
    return fail (error, code, text);
  return TRUE;
}

gboolean
bond_ohm_parse (const char *text, BondUnit pinned, const BondNumberFormat *format, BondOhm *nohm, BondUnit *unit,
                GError **error)
{
  g_autofree char *figure = NULL;
  Number number;
  BondUnit named = pinned;
  BondOhmError code = BOND_OHM_ERROR_NOT_NUMBER;
  const char *rest;

  g_return_val_if_fail (text != NULL && format != NULL && nohm != NULL && (guint)pinned < BOND_N_UNITS, FALSE);
  figure = bond_text_trim (text);
  rest = scan_number (figure, &number, &code);
  if (rest == NULL)
    return fail (error, code, text);
  rest = bond_text_skip_spaces (rest);
  if (*rest != '\0' && !bond_unit_parse (rest, &named))
    return fail (error, strpbrk (rest, "0123456789") != NULL ? BOND_OHM_ERROR_NOT_NUMBER : BOND_OHM_ERROR_UNIT, text);
  if (!mark_is_decimal (&number, format, &code) || !number_value (&number, bond_unit_nohm (named), nohm, &code))
    return fail (error, code, text);
  if (unit != NULL)
    *unit = named;
  return TRUE;
}

__int128
bond_ratio_round (__int128 numerator, __int128 denominator, int *rest)
{
  __int128 quotient, remainder, twice;
  int sign = numerator < 0 ? -1 : 1;
  gboolean away;

  g_return_val_if_fail (denominator > 0, 0);
  quotient = numerator / denominator;
  remainder = numerator % denominator;
  twice = 2 * remainder * sign;
  away = twice > denominator || (twice == denominator && quotient % 2 != 0);
  if (rest != NULL)
    *rest = remainder == 0 ? 0 : (away ? -sign : sign);
  return away ? quotient + sign : quotient;
}

char *
bond_ratio_format (__int128 numerator, __int128 denominator, int decimals, char mark)
{
  g_return_val_if_fail (denominator > 0 && decimals >= 0 && decimals <= MAX_DECIMALS, NULL);
  return format_scaled (bond_ratio_round (numerator * power_of_ten (decimals), denominator, NULL), decimals, mark,
                        "\342\210\222");
}

gboolean
bond_ohm_from_quotient (gint64 nanovolt, gint64 microampere, BondQuantity *quantity, GError **error)
{
  /* nV / µA is mΩ. */
  __int128 numerator = (__int128)nanovolt * BOND_NOHM_PER_MILLIOHM;
  __int128 nohm;
  int rest;

  g_return_val_if_fail (microampere != 0 && quantity != NULL, FALSE);
  nohm = bond_ratio_round (microampere < 0 ? -numerator : numerator, ABS ((__int128)microampere), &rest);
  if (nohm > G_MAXINT64 || nohm < -G_MAXINT64)
    {
      g_autofree char *text
          = g_strdup_printf ("%" G_GINT64_FORMAT " nV / %" G_GINT64_FORMAT " µA", nanovolt, microampere);

      return fail (error, BOND_OHM_ERROR_TOO_LARGE, text);
    }
  *quantity = (BondQuantity){ .nohm = (BondOhm)nohm, .rest = (gint8)rest, .qualifier = BOND_QUALIFIER_NONE };
  return TRUE;
}

gboolean
bond_ohm_from_double (double ohm, BondOhm *nohm)
{
  double scaled = ohm * (double)BOND_NOHM_PER_OHM;

  g_return_val_if_fail (nohm != NULL, FALSE);
  /* Written so that a NaN fails. */
  if (!(scaled > -9.2e18 && scaled < 9.2e18))
    return FALSE;
  *nohm = (BondOhm)rint (scaled);
  return TRUE;
}

char *
bond_ohm_to_file (BondOhm nohm)
{
  int decimals = exact_decimals (nohm, BOND_NOHM_PER_OHM, 0);

  return format_scaled (nohm * power_of_ten (decimals) / BOND_NOHM_PER_OHM, decimals, '.', "-");
}

char *
bond_ohm_format (BondOhm nohm, BondUnit unit, int decimals, char mark)
{
  g_return_val_if_fail ((guint)unit < BOND_N_UNITS, NULL);
  return bond_ratio_format (nohm, bond_unit_nohm (unit), CLAMP (decimals, 0, MAX_DECIMALS), mark);
}

char *
bond_ohm_format_exact (BondOhm nohm, BondUnit unit, int min_decimals, char mark)
{
  g_return_val_if_fail ((guint)unit < BOND_N_UNITS, NULL);
  return bond_ohm_format (nohm, unit, exact_decimals (nohm, bond_unit_nohm (unit), min_decimals), mark);
}

char
bond_locale_mark (void)
{
  return strcmp (localeconv ()->decimal_point, ",") == 0 ? ',' : '.';
}
