/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * The counts of a survey: what the summary, the batch table and the control total
 * print.  Each count says in core/survey.h what it counts.
 */
#include "core/survey-private.h"

/* Value of record as a figure: qualifiers are counted apart, insulation does not belong in a sum of joints. */
static void
add_to_control_total (BondTotals *totals, const BondPlaceResult *place)
{
  const BondMeasurement *m = place->decides;

  if (m == NULL || m->qualifier != BOND_QUALIFIER_NONE
      || (place->row != NULL && place->row->method != BOND_METHOD_FOUR_TERMINAL))
    return;
  totals->control_total_nohm += bond_mean_nohm (&m->mean);
}

static void
add_place (BondTotals *totals, const BondPlaceResult *place)
{
  totals->places++;
  totals->rejects_as_found += place->rejects_as_found;
  totals->rejects_installation += place->rejects_installation;
  totals->rejects_opened += place->rejects_opened;
  totals->rejects_rework += place->rejects_rework;
  totals->rejects_visual += place->rejects_visual;
  totals->over_limit_taken_back += place->over_limit_taken_back;
  totals->seen_not_recorded += place->seen_not_recorded;
  if (bond_state_in_scope (place->state))
    add_to_control_total (totals, place);
}

static gboolean
any_place (const BondPoint *point, gboolean (*is) (const BondPlaceResult *))
{
  guint i, j;

  for (i = 0; i < point->places->len; i++)
    {
      const BondPlaceResult *place = g_ptr_array_index (point->places, i);
      for (j = 0; j < bond_place_result_n_rows (place); j++)
        if (is (bond_place_result_nth_row (place, j)))
          return TRUE;
    }
  return FALSE;
}

static gboolean
was_found_undisturbed (const BondPlaceResult *place)
{
  return place->found != NULL && place->found_undisturbed;
}

static gboolean
is_below_resolution (const BondPlaceResult *place)
{
  return place->decides != NULL && place->decides->below_resolution;
}

static gboolean
is_nonconforming (BondState state)
{
  return state == BOND_STATE_FAIL || state == BOND_STATE_ACCEPTED || state == BOND_STATE_CARRIED_FORWARD
         || state == BOND_STATE_DEFERRED;
}

static void
add_point (BondTotals *totals, BondPoint *point)
{
  const BondPlaceResult *worst = bond_point_get_worst (point);
  BondState state = worst->state;

  totals->points++;
  totals->by_state[state]++;
  totals->as_found_measured += any_place (point, was_found_undisturbed);
  if (!bond_state_in_scope (state))
    return;
  totals->scope++;
  totals->conform += bond_state_conforms (state);
  totals->fail += is_nonconforming (state);
  totals->measured += bond_state_conforms (state) || is_nonconforming (state) || state == BOND_STATE_RECORDED;
  totals->suspect += state == BOND_STATE_SUSPECT;
  totals->open += bond_state_is_open (state);
  totals->done += !bond_state_is_open (state);
  totals->within_u += worst->within_u;
  totals->below_resolution += any_place (point, is_below_resolution);
}

void
bond_survey_totals (BondSurvey *survey, BondTotals *totals)
{
  guint i, j;

  g_return_if_fail (BOND_IS_SURVEY (survey) && totals != NULL);
  *totals = (BondTotals){ 0 };
  for (i = 0; i < survey->walk->len; i++)
    {
      BondPoint *point = g_ptr_array_index (survey->walk, i);
      add_point (totals, point);
      for (j = 0; j < point->places->len; j++)
        add_place (totals, g_ptr_array_index (point->places, j));
    }
}
