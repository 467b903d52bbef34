/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * What the panel says of a point that keeps the walk here: which reading stands, how
 * many re-seats are left, and what would let it go.  The rule is core's
 * (a fail stands until rework, void, disposition, or two agreeing re-seats).
 */
#include "gui/pages/reading-panel-private.h"
#include "gui/words.h"
#include <glib/gi18n-lib.h>

static char *
found_words (BondReadingPanel *self, const BondPlaceResult *result)
{
  if (result->decides == NULL)
    return g_strdup (bond_state_name (BOND_STATE_FAIL));
  return bond_words_result (bond_walk_get_survey (self->walk), result->decides,
                            bond_words_unit (result, BOND_UNIT_MILLIOHM), TRUE);
}

/* A fail stands: where the re-seats are, and what they can still do. */
static char *
standing_words (BondReadingPanel *self, const BondPlaceResult *result)
{
  int most = bond_survey_get_house (bond_walk_get_survey (self->walk))->reseat_max;
  g_autofree char *found = found_words (self, result);
  gboolean passed = result->last->conforms && result->last != result->decides;

  if (result->intermittent)
    return g_strdup_printf (_ ("Intermittent: the re-seated readings do not agree. %s stands until it is reworked, "
                               "voided or given a disposition."),
                            found);
  if (result->reseats >= most)
    return g_strdup_printf (
        _ ("%s stands until it is reworked, voided or given a disposition. A further reading stands "
           "beside it and does not clear it."),
        found);
  if (result->reseats == 0)
    return g_strdup_printf (_ ("Re-seat 1 of %d: type it again with the joint not touched, or choose Rework. Two "
                               "re-seated passes that agree make it not confirmed; one does not clear it."),
                            most);
  if (passed)
    return g_strdup_printf (_ ("%s still stands until it is reworked or voided. Re-seat %d of %d: a second one that "
                               "agrees makes it not confirmed."),
                            found, result->reseats + 1, most);
  return g_strdup_printf (_ ("%s stands. Re-seat %d of %d, with the joint not touched."), found, result->reseats + 1,
                          most);
}

/* The bound a value lies nearest to. */
static const BondBound *
nearest_bound (const BondBounds *bounds, BondOhm nohm)
{
  const BondBound *upper = &bounds->upper, *lower = &bounds->lower;

  if (lower->relation == BOND_RELATION_NONE)
    return upper;
  if (upper->relation == BOND_RELATION_NONE)
    return lower;
  return ABS (nohm - lower->nohm) < ABS (upper->nohm - nohm) ? lower : upper;
}

/* "0.02 below the limit, U is 0.03" */
static char *
within_words (BondReadingPanel *self, const BondPlaceResult *result)
{
  const BondMeasurement *last = result->last;
  const BondBounds *bounds = last->row != NULL ? bond_limit_row_bounds (last->row, last->condition) : NULL;
  BondUnit unit = bond_words_unit (result, BOND_UNIT_MILLIOHM);
  g_autofree char *u = bond_reading_panel_u_digits (last, unit);
  g_autofree char *apart = NULL;
  BondOhm off;

  if (bounds == NULL || u == NULL)
    return bond_words_second_line (result);
  off = bond_mean_nohm (&last->mean) - nearest_bound (bounds, bond_mean_nohm (&last->mean))->nohm;
  if (off == 0)
    return g_strdup_printf (_ ("at the limit, within U of it; U is %s"), u);
  apart = bond_ohm_format_exact (ABS (off), unit, bond_words_decimals (bond_walk_get_survey (self->walk), last, unit),
                                 bond_locale_mark ());
  return g_strdup_printf (off < 0 ? _ ("%s below the limit, within U of it; U is %s")
                                  : _ ("%s above the limit, within U of it; U is %s"),
                          apart, u);
}

/* "Forward 1.84 and reverse 2.31 differ by 23 %; 10 % is allowed. Take the pair again." */
static char *
pair_words (BondReadingPanel *self, const BondPlaceResult *result)
{
  GPtrArray *readings = result->last->readings;
  const BondReading *reverse = bond_entry_get_reading (readings->pdata[readings->len - 1]);
  const BondReading *forward = bond_entry_get_reading (readings->pdata[readings->len - 2]);
  BondOhm a = ABS (forward->quantity.nohm), b = ABS (reverse->quantity.nohm);
  int allowed = bond_survey_get_house (bond_walk_get_survey (self->walk))->pair_percent;

  if (a + b == 0)
    return bond_words_second_line (result);
  return g_strdup_printf (_ ("Forward %s and reverse %s differ by %d\302\240%%; %d\302\240%% is allowed. Take the pair "
                             "again."),
                          forward->text, reverse->text, (int)((double)ABS (a - b) * 200.0 / (double)(a + b) + 0.5),
                          allowed);
}

/* Our own, no source: a range whose U is above this part of the limit cannot tell one side from the other. */
#define COARSE_PART 4

/* "MO-014 cannot tell 2.5 mΩ on this range: U would be 0.9 mΩ. Choose a lower range." */
static char *
coarse_words (BondReadingPanel *self, const BondPlaceResult *result)
{
  const BondMeasurement *last = result->last;
  const BondBounds *bounds = last->row != NULL ? bond_limit_row_bounds (last->row, last->condition) : NULL;
  BondSurvey *survey = bond_walk_get_survey (self->walk);
  const char *id = bond_walk_get_pinned (self->walk)->instrument;
  const BondInstrument *meter = id != NULL ? bond_survey_find_instrument (survey, id) : NULL;
  BondUnit unit = bond_words_unit (result, BOND_UNIT_MILLIOHM);
  g_autofree char *u = bond_reading_panel_u_digits (last, unit);
  g_autofree char *limit = NULL;

  if (meter == NULL || bounds == NULL || u == NULL || bounds->upper.relation == BOND_RELATION_NONE
      || last->budget.u_nohm <= bounds->upper.nohm / COARSE_PART)
    return NULL;
  limit = bond_words_quantity (&(BondQuantity){ .nohm = bounds->upper.nohm }, unit, 0);
  return g_strdup_printf (_ ("%s cannot tell %s on this range: U is %s\302\240%s. Choose a lower range."), meter->name,
                          limit, u, bond_unit_symbol (unit));
}

char *
bond_reading_panel_second_line (BondReadingPanel *self, const BondPlaceResult *result)
{
  const BondMeasurement *last = result->last;
  g_autofree char *coarse = NULL;
  g_autofree char *end = NULL;

  if (last == NULL || last->outcome == BOND_OUTCOME_NONE || last->outcome == BOND_OUTCOME_INCOMPLETE)
    return bond_words_second_line (result);
  if (last->reason == BOND_REASON_PAIR_DISAGREES && last->readings->len >= 2)
    return pair_words (self, result);
  if (last->outcome != BOND_OUTCOME_JUDGED)
    return bond_words_second_line (result);
  coarse = coarse_words (self, result);
  if (coarse != NULL)
    return g_steal_pointer (&coarse);
  if (last->qualifier == BOND_QUALIFIER_OVER)
    {
      end = bond_words_quantity (&(BondQuantity){ .nohm = bond_mean_nohm (&last->mean) },
                                 bond_words_unit (result, BOND_UNIT_MILLIOHM), 0);
      return g_strdup_printf (_ ("above %s, the end of the range"), end);
    }
  return last->within_u && last->qualifier == BOND_QUALIFIER_NONE ? within_words (self, result)
                                                                  : bond_words_second_line (result);
}

/* It conforms, and yet the walk stays: to measure it an end was freed, and what is refitted is measured anew. */
static char *
freed_words (const BondPlaceResult *result)
{
  const BondBounds *bounds = result->row != NULL ? bond_limit_row_bounds (result->row, BOND_CONDITION_OPENED) : NULL;
  g_autofree char *limit
      = bounds != NULL && bond_bounds_any (bounds) ? bond_bounds_format (bounds, bond_locale_mark (), TRUE) : NULL;

  if (limit == NULL)
    return g_strdup (_ ("Measured isolated, so an end was freed. Record the joint as opened (J); after refitting it is "
                        "measured again."));
  return g_strdup_printf (_ ("Measured isolated, so an end was freed. Record the joint as opened (J); after refitting "
                             "the limit is %s."),
                          limit);
}

char *
bond_reading_panel_stopped_words (BondReadingPanel *self, const BondPlaceResult *result)
{
  if (result->last == NULL || result->last->outcome != BOND_OUTCOME_JUDGED)
    return bond_reading_panel_second_line (self, result);
  if (result->visual_reject && result->last->conforms)
    return g_strdup_printf (_ ("The resistance conforms; the point is rejected on its visual condition (%s)."),
                            bond_visual_name (result->visual));
  return result->state == BOND_STATE_FAIL ? standing_words (self, result) : freed_words (result);
}

void
bond_reading_panel_offer (BondReadingPanel *self, const char *label, const char *action)
{
  GtkWidget *button = gtk_button_new_with_label (label);

  gtk_actionable_set_action_name (GTK_ACTIONABLE (button), action);
  gtk_widget_set_focus_on_click (button, FALSE);
  gtk_flow_box_insert (self->ask_box, button, -1);
  gtk_widget_set_focusable (gtk_widget_get_parent (button), FALSE);
  gtk_widget_set_visible (GTK_WIDGET (self->ask_box), TRUE);
}

void
bond_reading_panel_leave (BondReadingPanel *self)
{
  BondPoint *before;
  g_autofree char *words = NULL;

  g_return_if_fail (BOND_IS_READING_PANEL (self));
  before = bond_walk_get_point (self->walk);
  if (before == NULL)
    return;
  if (bond_point_get_state (before) == BOND_STATE_FAIL)
    words = g_strdup_printf (_ ("%s is left as it is; it stays in the list and needs rework or a disposition."),
                             bond_point_get_number (before));
  if (words != NULL)
    bond_reading_panel_say_and_go (self, words);
  else if (!bond_walk_next_open (self->walk))
    bond_walk_step (self->walk, 1);
  bond_reading_panel_grab_field (self);
}
