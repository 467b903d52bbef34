/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * The grammar of the reading field.  A line is cut into items (sign of a range end,
 * figure, unit); their number and units decide what it is.  Figures themselves are
 * left to ohm.c, and whether a pair or a minus makes sense to measurement.c.
 */
#include "core/reading-text.h"

#include <glib/gi18n-lib.h>

/* One item of the line: strings owned. */
typedef struct
{
  char qualifier; /* '>', '<' or 0 */
  char *figure;
  char *unit;
} Item;

/* Suffixes of one letter, for this field only; @least_pinned keeps a slip of the Shift key from making megohms of
 * milliohms. */
static const struct
{
  const char *text;
  BondUnit unit;
  BondUnit least_pinned;
} letters[] = {
  { "u", BOND_UNIT_MICROOHM, BOND_UNIT_MICROOHM }, { "m", BOND_UNIT_MILLIOHM, BOND_UNIT_MICROOHM },
  { "o", BOND_UNIT_OHM, BOND_UNIT_MICROOHM },      { "k", BOND_UNIT_KILOOHM, BOND_UNIT_OHM },
  { "M", BOND_UNIT_MEGOHM, BOND_UNIT_OHM },
};

/* @parts: nanovolt or microampere in one of the unit. */
typedef struct
{
  const char *text;
  gint64 parts;
} ElectricUnit;

static const ElectricUnit volts[] = {
  { "nV", 1 },           { "uV", 1000 },      { "\302\265V", 1000 }, /* U+00B5 */
  { "\316\274V", 1000 },                                             /* U+03BC */
  { "mV", 1000000 },     { "V", 1000000000 },
};

static const ElectricUnit amperes[] = {
  { "uA", 1 }, { "\302\265A", 1 }, { "\316\274A", 1 }, { "mA", 1000 }, { "A", 1000000 },
};

static void
item_clear (Item *item)
{
  g_clear_pointer (&item->figure, g_free);
  g_clear_pointer (&item->unit, g_free);
}

G_DEFINE_AUTO_CLEANUP_CLEAR_FUNC (Item, item_clear)

/* "“1.8.4”: two decimal marks. … Nothing was recorded." */
static gboolean
refuse (GError **error, BondOhmError code, const char *text, const char *reason)
{
  g_autofree char *quoted = bond_text_quote (text);

  g_set_error (error, BOND_OHM_ERROR, code, "“%s”: %s %s", quoted,
               reason != NULL ? reason : bond_ohm_error_reason (code), _ ("Nothing was recorded."));
  return FALSE;
}

static int
sign_length (const char *text)
{
  if (*text == '-' || *text == '+')
    return 1;
  return g_str_has_prefix (text, "\342\210\222") ? 3 : 0;
}

/* Bytes of the unit at @text: up to a space, a digit, '@' or the end. */
static gsize
unit_length (const char *text)
{
  const char *p = text;

  while (*p != '\0' && *p != '@' && !g_ascii_isdigit (*p) && bond_text_skip_spaces (p) == p)
    p++;
  return (gsize)(p - text);
}

/* Cuts the item at the start of @text; returns what follows it, or NULL when that is stuck to it. */
static const char *
scan_item (const char *text, Item *item)
{
  const char *start, *unit;

  item->qualifier = *text == '>' || *text == '<' ? *text++ : '\0';
  start = text = bond_text_skip_spaces (text);
  text += sign_length (text);
  text += strspn (text, "0123456789.,");
  item->figure = g_strndup (start, text - start);

  unit = bond_text_skip_spaces (text);
  /* After a space a sign opens the second reading of a pair. */
  if (unit != text && (sign_length (unit) > 0 || *unit == '>' || *unit == '<'))
    return unit;
  item->unit = g_strndup (unit, unit_length (unit));
  if (*item->unit == '\0')
    return unit;
  unit += strlen (item->unit);
  return *unit == '\0' || *unit == '@' || bond_text_skip_spaces (unit) != unit ? bond_text_skip_spaces (unit) : NULL;
}

/* Skips "@" or the word "at" between a voltage and its current. */
static const char *
skip_at (const char *text)
{
  const char *after;

  if (*text == '@')
    return bond_text_skip_spaces (text + 1);
  after = g_str_has_prefix (text, "at") ? bond_text_skip_spaces (text + 2) : NULL;
  return after != NULL && after != text + 2 ? after : text;
}

static const ElectricUnit *
find_electric (const ElectricUnit *table, gsize n_rows, const char *unit)
{
  gsize i;

  for (i = 0; unit != NULL && i < n_rows; i++)
    if (strcmp (table[i].text, unit) == 0)
      return &table[i];
  return NULL;
}

static gboolean
parse_unit (const char *text, BondUnit pinned, BondUnit *unit)
{
  gsize i;

  *unit = pinned;
  if (text == NULL || *text == '\0')
    return TRUE;
  for (i = 0; i < G_N_ELEMENTS (letters); i++)
    if (strcmp (letters[i].text, text) == 0 && pinned >= letters[i].least_pinned)
      {
        *unit = letters[i].unit;
        return TRUE;
      }
  return bond_unit_parse (text, unit);
}

/* ">", "OL" and "<" without a figure take what the pinned range says. */
static gboolean
bare_qualifier (char qualifier, BondOhm range_end, BondOhm step, const char *text, BondTypedValue *value,
                GError **error)
{
  BondOhm nohm = qualifier == '>' ? range_end : step;

  if (nohm <= 0)
    return refuse (error, BOND_OHM_ERROR_EMPTY, text,
                   _ ("the range is not known. Type its end or step after the sign."));
  value->quantity.nohm = nohm;
  value->quantity.qualifier = qualifier == '>' ? BOND_QUALIFIER_OVER : BOND_QUALIFIER_BELOW;
  value->text = g_strdup (text);
  return TRUE;
}

static gboolean
parse_value (const Item *item, BondUnit pinned, const BondNumberFormat *format, const char *text, BondTypedValue *value,
             GError **error)
{
  g_autoptr (GError) cause = NULL;
  char qualifier[2] = { item->qualifier, '\0' };

  if (item->figure == NULL || *item->figure == '\0')
    return refuse (error, BOND_OHM_ERROR_NOT_NUMBER, text, NULL);
  if (!parse_unit (item->unit, pinned, &value->unit))
    return refuse (error, BOND_OHM_ERROR_UNIT, text, NULL);
  if (!bond_ohm_parse (item->figure, value->unit, format, &value->quantity.nohm, NULL, &cause))
    return refuse (error, cause->code, text, NULL);
  if (item->qualifier != '\0' && value->quantity.nohm <= 0)
    return refuse (error, BOND_OHM_ERROR_NOT_NUMBER, text, _ ("the end of a range is above zero."));
  if (item->qualifier != '\0')
    value->quantity.qualifier = item->qualifier == '>' ? BOND_QUALIFIER_OVER : BOND_QUALIFIER_BELOW;
  value->text = g_strconcat (qualifier, item->figure, NULL);
  return TRUE;
}

static gboolean
parse_quotient (const Item *voltage, const Item *current, const BondNumberFormat *format, const char *text,
                BondTypedValue *value, GError **error)
{
  const ElectricUnit *volt = find_electric (volts, G_N_ELEMENTS (volts), voltage->unit);
  const ElectricUnit *ampere = find_electric (amperes, G_N_ELEMENTS (amperes), current->unit);
  g_autoptr (GError) cause = NULL;

  if (volt == NULL || ampere == NULL || voltage->qualifier != '\0' || current->qualifier != '\0')
    return refuse (error, BOND_OHM_ERROR_NOT_NUMBER, text, _ ("a voltage needs its current, as in 3.0 mV at 1.2 A."));
  if (!bond_decimal_parse (voltage->figure, format, volt->parts, &value->nanovolt, &cause)
      || !bond_decimal_parse (current->figure, format, ampere->parts, &value->microampere, &cause))
    return refuse (error, cause->code, text, NULL);
  if (value->microampere == 0)
    return refuse (error, BOND_OHM_ERROR_NOT_NUMBER, text, _ ("no resistance follows from a current of zero."));
  if (!bond_ohm_from_quotient (value->nanovolt, value->microampere, &value->quantity, &cause))
    return refuse (error, cause->code, text, NULL);
  /* Both numbers are kept, or none: a voltage of zero is no more than a reading of zero. */
  if (value->nanovolt == 0)
    value->microampere = 0;
  value->text = g_strdup (text);
  return TRUE;
}

static gboolean
is_electric (const Item *item)
{
  return find_electric (volts, G_N_ELEMENTS (volts), item->unit) != NULL
         || find_electric (amperes, G_N_ELEMENTS (amperes), item->unit) != NULL;
}

/* "OL", or the figure instruments send in its place (SCPI, from memory: 9.9E37 stands for infinity). */
static gboolean
is_over_range (const char *line)
{
  if (g_ascii_strcasecmp (line, "OL") == 0)
    return TRUE;
  line += *line == '+';
  if (!g_str_has_prefix (line, "9.9"))
    return FALSE;
  line += 3 + strspn (line + 3, "0");
  if (*line != 'E' && *line != 'e')
    return FALSE;
  line += line[1] == '+' ? 2 : 1;
  return strcmp (line, "37") == 0;
}

/* @text is trimmed and not empty. */
static gboolean
parse_line (const char *text, BondUnit pinned, const BondNumberFormat *format, BondReadingText *out, GError **error)
{
  g_auto (Item) first = { 0 };
  g_auto (Item) second = { 0 };
  const char *rest = scan_item (text, &first);
  gboolean electric = is_electric (&first);

  if (rest != NULL && *rest != '\0')
    {
      rest = scan_item (electric ? skip_at (rest) : rest, &second);
      out->n_values = electric ? 1 : 2;
    }
  else
    {
      out->n_values = 1;
    }
  if (rest == NULL || *rest != '\0' || (out->n_values == 2 && (first.qualifier != '\0' || second.qualifier != '\0')))
    return refuse (error, BOND_OHM_ERROR_NOT_NUMBER, text, NULL);

  if (electric && find_electric (volts, G_N_ELEMENTS (volts), first.unit) != NULL)
    return parse_quotient (&first, &second, format, text, &out->value[0], error);
  if (electric)
    return parse_quotient (&second, &first, format, text, &out->value[0], error);
  return parse_value (&first, pinned, format, text, &out->value[0], error)
         && (out->n_values == 1 || parse_value (&second, pinned, format, text, &out->value[1], error));
}

gboolean
bond_reading_text_parse (const char *text, BondUnit pinned, const BondNumberFormat *format, BondOhm range_end,
                         BondOhm step, BondReadingText *out, GError **error)
{
  g_autofree char *line = NULL;
  gboolean done;

  g_return_val_if_fail (text != NULL && format != NULL && out != NULL && (guint)pinned < BOND_N_UNITS, FALSE);
  *out = (BondReadingText){ .n_values = 1, .value = { { .unit = pinned }, { .unit = pinned } } };
  line = bond_text_trim (text);
  if (*line == '\0')
    done = refuse (error, BOND_OHM_ERROR_EMPTY, line, NULL);
  else if (strcmp (line, ">") == 0 || strcmp (line, "<") == 0)
    done = bare_qualifier (*line, range_end, step, line, &out->value[0], error);
  else if (is_over_range (line))
    done = bare_qualifier ('>', range_end, step, line, &out->value[0], error);
  else
    done = parse_line (line, pinned, format, out, error);
  if (!done)
    bond_reading_text_clear (out);
  return done;
}

void
bond_reading_text_clear (BondReadingText *text)
{
  int i;

  g_return_if_fail (text != NULL);
  for (i = 0; i < 2; i++)
    g_clear_pointer (&text->value[i].text, g_free);
  *text = (BondReadingText){ 0 };
}
