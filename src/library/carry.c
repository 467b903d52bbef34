/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * What an earlier survey of an aircraft leaves to the next: the points somebody
 * placed by hand, the bolts and legs that were named, what was found, and what was
 * open.  Values come along as earlier results and words, never as readings: every
 * point of the new survey starts undisturbed and to measure.
 */
#include "library/library.h"

#include <glib/gi18n-lib.h>

static gboolean
is_live (BondSurvey *survey, const BondEntry *entry, BondEntryKind kind)
{
  return entry->kind == kind && !bond_survey_is_taken_back (survey, entry);
}

/* --- open items --- */

/* Nothing done about it, or done on paper only: whoever measures next should know.  What was never measured says
 * nothing of the joint. */
static gboolean
is_worth_telling (BondState state)
{
  return state == BOND_STATE_ACCEPTED || state == BOND_STATE_CARRIED_FORWARD || state == BOND_STATE_DEFERRED
         || (bond_state_is_open (state) && state != BOND_STATE_TO_MEASURE);
}

static const char *
card_of (const BondEntry *entry)
{
  switch (entry->kind)
    {
    case BOND_ENTRY_DEFECT:
      return entry->defect.card;
    case BOND_ENTRY_DISPOSITION:
      return entry->disposition.reference;
    case BOND_ENTRY_REWORK:
      return entry->rework.reference;
    default:
      return NULL;
    }
}

/* The newest card that was raised, referred to or worked by at the point. */
static const char *
find_card (BondSurvey *survey, const char *point)
{
  GPtrArray *entries = bond_survey_get_entries (survey);

  for (guint i = entries->len; i-- > 0;)
    {
      const BondEntry *entry = entries->pdata[i];

      if (g_strcmp0 (entry->point, point) == 0 && card_of (entry) != NULL && !bond_survey_is_taken_back (survey, entry))
        return card_of (entry);
    }
  return NULL;
}

/* " 3.12 mΩ" in the unit of the limit, with the decimals its instrument shows. */
static void
append_value (GString *text, BondSurvey *survey, const BondPlaceResult *worst)
{
  const BondMeasurement *said = worst->decides != NULL ? worst->decides : worst->last;
  const BondReading *reading;
  const BondInstrument *instrument;
  const BondRange *range;
  BondUnit unit = worst->bounds != NULL ? bond_bounds_unit (worst->bounds) : BOND_UNIT_MILLIOHM;
  g_autofree char *figure = NULL;

  if (said == NULL || said->mean.count == 0 || said->readings->len == 0)
    return;
  reading = bond_entry_get_reading (said->readings->pdata[0]);
  instrument = reading->instrument != NULL ? bond_survey_find_instrument (survey, reading->instrument) : NULL;
  range = instrument != NULL && reading->range != NULL ? bond_instrument_find_range (instrument, reading->range) : NULL;
  figure = bond_ohm_format (bond_mean_nohm (&said->mean), unit, range != NULL ? bond_range_decimals (range, unit) : 2,
                            '.');
  g_string_append_printf (text, " %s%s %s",
                          said->qualifier == BOND_QUALIFIER_OVER    ? "> "
                          : said->qualifier == BOND_QUALIFIER_BELOW ? "< "
                                                                    : "",
                          figure, bond_unit_symbol (unit));
}

static char *
open_words (BondSurvey *survey, BondPoint *point, const char *date)
{
  const BondPlaceResult *worst = bond_point_get_worst (point);
  const char *card = find_card (survey, bond_point_get_id (point));
  GString *text = g_string_new (NULL);

  g_string_append_printf (text, _ ("Open last time (%s): "), date);
  g_string_append (text, bond_state_name (bond_point_get_state (point)));
  append_value (text, survey, worst);
  if (worst->visual_reject)
    g_string_append_printf (text, ", %s", bond_visual_name (worst->visual));
  if (card != NULL)
    g_string_append_printf (text, _ (", card %s"), card);
  return g_string_free (text, FALSE);
}

static void
carry_open_item (BondCarry *carry, BondSurvey *survey, BondPoint *point, const char *date)
{
  BondEntry *note;

  if (!is_worth_telling (bond_point_get_state (point)) && !bond_point_get_worst (point)->visual_reject)
    return;
  note = bond_entry_new (BOND_ENTRY_NOTE);
  note->point = g_strdup (bond_point_get_id (point));
  note->note.text = open_words (survey, point, date);
  g_ptr_array_add (carry->notes, note);
}

/* --- points and places --- */

static void
carry_places (BondCarry *carry, BondSurvey *survey)
{
  GPtrArray *entries = bond_survey_get_entries (survey);

  for (guint i = 0; i < entries->len; i++)
    {
      const BondEntry *entry = entries->pdata[i];
      BondEntry *place;

      if (!is_live (survey, entry, BOND_ENTRY_PLACE))
        continue;
      place = bond_entry_new (BOND_ENTRY_PLACE);
      place->point = g_strdup (entry->point);
      place->place = g_strdup (entry->place);
      place->place_spec.label = g_strdup (entry->place_spec.label);
      place->place_spec.in_sample = entry->place_spec.in_sample;
      g_ptr_array_add (carry->places, place);
    }
}

static GPtrArray *
refs_of (GPtrArray *objects, gpointer (*ref) (gpointer), GDestroyNotify unref)
{
  GPtrArray *copy = g_ptr_array_new_with_free_func (unref);

  for (guint i = 0; objects != NULL && i < objects->len; i++)
    g_ptr_array_add (copy, ref (objects->pdata[i]));
  return copy;
}

BondCarry *
bond_library_carry (BondSurvey *survey)
{
  BondCarry *carry;
  BondEarlier *own;
  guint n;

  g_return_val_if_fail (BOND_IS_SURVEY (survey), NULL);
  carry = g_new0 (BondCarry, 1);
  carry->earlier = refs_of (bond_survey_get_earlier (survey), (gpointer (*) (gpointer))bond_earlier_ref,
                            (GDestroyNotify)bond_earlier_unref);
  carry->limit_sets = refs_of (bond_survey_get_limit_sets (survey), (gpointer (*) (gpointer))bond_limit_set_ref,
                               (GDestroyNotify)bond_limit_set_unref);
  carry->points = g_ptr_array_new_with_free_func ((GDestroyNotify)bond_point_spec_unref);
  carry->places = g_ptr_array_new_with_free_func ((GDestroyNotify)bond_entry_unref);
  carry->notes = g_ptr_array_new_with_free_func ((GDestroyNotify)bond_entry_unref);
  if (bond_survey_get_airframe (survey) != NULL)
    carry->airframe = bond_airframe_ref ((BondAirframe *)bond_survey_get_airframe (survey));
  own = bond_library_earlier (survey);
  g_ptr_array_add (carry->earlier, own);
  n = g_list_model_get_n_items (G_LIST_MODEL (survey));
  for (guint i = 0; i < n; i++)
    {
      g_autoptr (BondPoint) point = g_list_model_get_item (G_LIST_MODEL (survey), i);
      const BondPointSpec *spec = bond_point_get_spec (point);

      if (!spec->from_template)
        g_ptr_array_add (carry->points, bond_point_spec_ref ((BondPointSpec *)spec));
      carry_open_item (carry, survey, point, own->date);
    }
  carry_places (carry, survey);
  return carry;
}

void
bond_carry_free (BondCarry *carry)
{
  if (carry == NULL)
    return;
  g_ptr_array_unref (carry->earlier);
  g_ptr_array_unref (carry->points);
  g_ptr_array_unref (carry->places);
  g_ptr_array_unref (carry->notes);
  g_ptr_array_unref (carry->limit_sets);
  g_clear_pointer (&carry->airframe, bond_airframe_unref);
  g_free (carry);
}

gboolean
bond_carry_fits (const BondCarry *carry, const BondAirframe *airframe)
{
  g_return_val_if_fail (carry != NULL && airframe != NULL, FALSE);
  for (guint i = 0; i < carry->points->len; i++)
    {
      const BondPointSpec *spec = carry->points->pdata[i];

      if (bond_airframe_find_zone (airframe, spec->zone) == NULL
          || g_hash_table_contains (airframe->point_numbers, spec->number))
        return FALSE;
    }
  return TRUE;
}
