/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * The states of a point as words and what each means for the counts: worse or
 * better, in scope, open, conforming.  How a point comes to its state is left to
 * judge.c.
 */
#include "core/judge.h"
#include "core/word.h"

#include <glib/gi18n-lib.h>

static const BondWord states[BOND_N_STATES] = {
  [BOND_STATE_TO_MEASURE] = { "to-measure", N_ ("to measure") },
  [BOND_STATE_REMEASURE] = { "re-measure", N_ ("re-measure") },
  [BOND_STATE_PASS] = { "pass", N_ ("pass") },
  [BOND_STATE_FAIL] = { "fail", N_ ("fail") },
  [BOND_STATE_PASS_AFTER_REWORK] = { "pass-after-rework", N_ ("pass after rework") },
  [BOND_STATE_NOT_CONFIRMED] = { "not-confirmed", N_ ("not confirmed") },
  [BOND_STATE_ACCEPTED] = { "accepted", N_ ("accepted by engineering disposition") },
  [BOND_STATE_CARRIED_FORWARD] = { "carried-forward", N_ ("carried forward") },
  [BOND_STATE_DEFERRED] = { "deferred", N_ ("deferred") },
  [BOND_STATE_NOT_ACCESSIBLE] = { "not-accessible", N_ ("not accessible") },
  [BOND_STATE_NOT_FITTED] = { "not-fitted", N_ ("not fitted") },
  [BOND_STATE_NOT_APPLICABLE] = { "not-applicable", N_ ("not applicable") },
  [BOND_STATE_NOT_IN_SAMPLE] = { "not-in-sample", N_ ("not in sample") },
  [BOND_STATE_RECORDED] = { "recorded", N_ ("recorded without limit") },
  [BOND_STATE_SUSPECT] = { "suspect", N_ ("suspect") },
  [BOND_STATE_IN_DOUBT] = { "in-doubt", N_ ("in doubt") },
};

/* From best to worst; the rank is the place in this list. */
static const BondState by_badness[BOND_N_STATES] = {
  BOND_STATE_NOT_APPLICABLE,  BOND_STATE_NOT_FITTED,        BOND_STATE_NOT_IN_SAMPLE,  BOND_STATE_PASS,
  BOND_STATE_RECORDED,        BOND_STATE_PASS_AFTER_REWORK, BOND_STATE_NOT_CONFIRMED,  BOND_STATE_ACCEPTED,
  BOND_STATE_CARRIED_FORWARD, BOND_STATE_DEFERRED,          BOND_STATE_NOT_ACCESSIBLE, BOND_STATE_TO_MEASURE,
  BOND_STATE_REMEASURE,       BOND_STATE_SUSPECT,           BOND_STATE_IN_DOUBT,       BOND_STATE_FAIL,
};

const char *
bond_state_file_name (BondState state)
{
  return bond_word_file (states, G_N_ELEMENTS (states), state);
}

const char *
bond_state_name (BondState state)
{
  return bond_word_name (states, G_N_ELEMENTS (states), state);
}

int
bond_state_rank (BondState state)
{
  int i;

  for (i = 0; i < BOND_N_STATES; i++)
    if (by_badness[i] == state)
      return i;
  g_return_val_if_reached (0);
}

gboolean
bond_state_in_scope (BondState state)
{
  return state != BOND_STATE_NOT_FITTED && state != BOND_STATE_NOT_APPLICABLE;
}

gboolean
bond_state_is_open (BondState state)
{
  switch (state)
    {
    case BOND_STATE_TO_MEASURE:
    case BOND_STATE_REMEASURE:
    case BOND_STATE_FAIL:
    case BOND_STATE_NOT_ACCESSIBLE:
    case BOND_STATE_SUSPECT:
    case BOND_STATE_IN_DOUBT:
      return TRUE;
    default:
      return FALSE;
    }
}

gboolean
bond_state_conforms (BondState state)
{
  return state == BOND_STATE_PASS || state == BOND_STATE_PASS_AFTER_REWORK || state == BOND_STATE_NOT_CONFIRMED;
}
