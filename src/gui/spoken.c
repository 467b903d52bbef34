/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * Sentences for the ear.  They say what the panel shows and no more; the panel
 * decides when.
 */
#include "gui/spoken.h"
#include "gui/words.h"
#include <glib/gi18n-lib.h>

char *
bond_spoken_quantity (const BondQuantity *quantity, BondUnit unit, int decimals)
{
  g_autofree char *digits = NULL;
  const char *spoken = bond_unit_spoken (unit);

  g_return_val_if_fail (quantity != NULL, NULL);
  digits = bond_ohm_format_exact (quantity->nohm, unit, quantity->qualifier == BOND_QUALIFIER_NONE ? decimals : 0,
                                  bond_locale_mark ());
  if (quantity->qualifier == BOND_QUALIFIER_OVER)
    return g_strdup_printf (_ ("above %s %s"), digits, spoken);
  if (quantity->qualifier == BOND_QUALIFIER_BELOW)
    return g_strdup_printf (_ ("below %s %s"), digits, spoken);
  return g_strconcat (digits, " ", spoken, NULL);
}

static char *
value_of (BondSurvey *survey, const BondMeasurement *m, BondUnit unit)
{
  BondQuantity quantity = { .nohm = m->mean.count > 0 ? bond_mean_nohm (&m->mean) : 0, .qualifier = m->qualifier };
  const BondReading *newest
      = m->readings->len > 0 ? bond_entry_get_reading (m->readings->pdata[m->readings->len - 1]) : NULL;
  g_autofree char *shown = NULL;
  char *symbol;

  if (m->mean.count == 0 && newest != NULL)
    quantity = newest->quantity;
  if (m->mean.count == 0 || m->qualifier != BOND_QUALIFIER_NONE)
    return bond_spoken_quantity (&quantity, unit, bond_words_decimals (survey, m, unit));
  shown = bond_words_result (survey, m, unit, TRUE);
  symbol = g_strrstr (shown, "\302\240");
  if (symbol != NULL)
    *symbol = '\0'; /* as shown, its unit spelled out */
  return g_strconcat (shown, " ", bond_unit_spoken (unit), NULL);
}

static int
percent_of (const BondMeasurement *m)
{
  const BondBounds *bounds = m->row != NULL ? bond_limit_row_bounds (m->row, m->condition) : NULL;
  gint64 permille = bounds != NULL && m->mean.count > 0 && m->qualifier == BOND_QUALIFIER_NONE
                        ? bond_bounds_used_permille (bounds, &m->mean)
                        : -1;

  return permille >= 0 && permille < 1000000 ? (int)((permille + 5) / 10) : -1;
}

/* "662-J01 forward 1.84 milliohm. Reverse next." */
static char *
half_result (BondSurvey *survey, const char *number, const BondPlaceResult *result)
{
  const BondMeasurement *last = result->last;
  const BondReading *newest = bond_entry_get_reading (last->readings->pdata[last->readings->len - 1]);
  BondUnit unit = bond_words_unit (result, newest->unit);
  gboolean plain = newest->text != NULL && strspn (newest->text, "0123456789.,-") == strlen (newest->text);
  g_autofree char *value
      = plain ? g_strconcat (newest->text, " ", bond_unit_spoken (newest->unit), NULL) /* as it was typed */
              : bond_spoken_quantity (&newest->quantity, unit, bond_words_decimals (survey, last, unit));

  if (last->reason == BOND_REASON_REPEATS_MISSING)
    return g_strdup_printf (_ ("%s reading %u, %s. Repeat next."), number, last->readings->len, value);
  return g_strdup_printf (_ ("%s forward %s. Reverse next."), number, value);
}

char *
bond_spoken_result (BondSurvey *survey, BondPoint *point, const BondPlaceResult *result)
{
  const BondMeasurement *last = result->last;
  const char *number = bond_point_get_number (point);
  g_autofree char *verdict = bond_words_verdict (result, bond_survey_get_rule (survey));
  g_autofree char *value = NULL;
  int percent;

  if (last == NULL)
    return g_strdup_printf ("%s %s.", number, verdict);
  if (last->outcome == BOND_OUTCOME_INCOMPLETE && last->readings->len > 0)
    return half_result (survey, number, result);
  value = value_of (survey, last, bond_words_unit (result, BOND_UNIT_MILLIOHM));
  percent = last->outcome == BOND_OUTCOME_JUDGED ? percent_of (last) : -1;
  if (percent < 0)
    return g_strdup_printf ("%s %s, %s.", number, verdict, value);
  if (last->within_u)
    /* TRANSLATORS: point, verdict, value with its unit spelled out, per cent */
    return g_strdup_printf (_ ("%s %s, %s, %d percent of the limit, within U of it."), number, verdict, value, percent);
  return g_strdup_printf (_ ("%s %s, %s, %d percent of the limit."), number, verdict, value, percent);
}

static char *
spoken_bound (const BondBound *bound)
{
  return bond_spoken_quantity (&(BondQuantity){ .nohm = bound->nohm }, bound->unit, 0);
}

static char *
spoken_limit (const BondBounds *bounds)
{
  g_autofree char *upper = bounds->upper.relation != BOND_RELATION_NONE ? spoken_bound (&bounds->upper) : NULL;
  g_autofree char *lower = bounds->lower.relation != BOND_RELATION_NONE ? spoken_bound (&bounds->lower) : NULL;

  if (upper != NULL && lower != NULL)
    return g_strdup_printf (_ ("limit %s to %s"), lower, upper);
  if (lower != NULL)
    return g_strdup_printf (_ ("limit at least %s"), lower);
  return g_strdup_printf (_ ("limit %s"), upper != NULL ? upper : "");
}

/* "541-J05 bolt 3, flap hinge 2, limit 1 ohm" */
static char *
named_point (BondPoint *point, const BondPlaceResult *result)
{
  g_autofree char *limit
      = result != NULL && result->bounds != NULL ? spoken_limit (result->bounds) : g_strdup (_ ("no limit"));
  const char *label = result != NULL && result->place != NULL ? result->label : NULL;

  return g_strdup_printf ("%s%s%s, %s, %s", bond_point_get_number (point), label != NULL ? " " : "",
                          label != NULL ? label : "", bond_point_get_spec (point)->from, limit);
}

char *
bond_spoken_next (BondPoint *point, const char *place)
{
  g_autofree char *name = named_point (point, bond_point_get_place (point, place));

  return g_strdup_printf (_ ("Next %s."), name);
}

char *
bond_spoken_point (BondPoint *point, const char *place)
{
  const BondPlaceResult *result = bond_point_get_place (point, place);
  g_autofree char *name = named_point (point, result);

  if (result == NULL || result->state == BOND_STATE_TO_MEASURE)
    return g_strconcat (name, ".", NULL);
  return g_strdup_printf ("%s, %s.", name, bond_state_name (result->state));
}

/* "mΩ" → "milliohm"; the ohm alone last, as it ends the others. */
static void
spell_units (GString *text)
{
  static const BondUnit order[]
      = { BOND_UNIT_MICROOHM, BOND_UNIT_MILLIOHM, BOND_UNIT_KILOOHM, BOND_UNIT_MEGOHM, BOND_UNIT_OHM };

  g_string_replace (text, "\302\240", " ", 0);
  for (gsize i = 0; i < G_N_ELEMENTS (order); i++)
    g_string_replace (text, bond_unit_symbol (order[i]), bond_unit_spoken (order[i]), 0);
  g_string_replace (text, "%", _ ("percent"), 0);
}

char *
bond_spoken_sentence (BondSurvey *survey, BondPoint *point, const char *text)
{
  g_autoptr (GString) spoken = NULL;
  g_autofree char *first = NULL;

  g_return_val_if_fail (text != NULL, NULL);
  spoken = g_string_new (text);
  spell_units (spoken);
  first = g_strndup (text, strcspn (text, " .,:"));
  if (point != NULL && bond_survey_find_number (survey, first) == NULL)
    {
      g_string_prepend (spoken, ". ");
      g_string_prepend (spoken, bond_point_get_number (point));
    }
  return g_string_free (g_steal_pointer (&spoken), FALSE);
}
