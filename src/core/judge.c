/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * What follows from the history of one place: a fail stands until rework, a change
 * of the joint, a disposition, or two re-seated measurements in a row that conform
 * and agree.  An epoch is the time between two changes of the joint; nothing but
 * counts crosses from one epoch to the next.
 */
#include "core/judge-private.h"

static const BondState state_of_mark[] = {
  [BOND_POINT_MARK_NOT_ACCESSIBLE] = BOND_STATE_NOT_ACCESSIBLE,
  [BOND_POINT_MARK_NOT_FITTED] = BOND_STATE_NOT_FITTED,
  [BOND_POINT_MARK_NOT_APPLICABLE] = BOND_STATE_NOT_APPLICABLE,
  [BOND_POINT_MARK_NOT_IN_SAMPLE] = BOND_STATE_NOT_IN_SAMPLE,
};

static const BondState state_of_disposition[] = {
  [BOND_DISPOSITION_CARRIED_FORWARD] = BOND_STATE_CARRIED_FORWARD,
  [BOND_DISPOSITION_DEFERRED] = BOND_STATE_DEFERRED,
  [BOND_DISPOSITION_ACCEPTED] = BOND_STATE_ACCEPTED,
};

typedef struct
{
  BondPlaceResult *result;
  const BondJudgeContext *context;
  /* this epoch */
  BondEpochKind kind;
  const BondMeasurement *fail;              /* the fail that stands */
  const BondMeasurement *decides;           /* value of record while no fail stands */
  const BondMeasurement *conforming_reseat; /* waits for a second one that agrees */
  const BondMeasurement *newest;
  gboolean not_confirmed;
  gboolean came_back; /* the fail that stands came after one that was not confirmed: no re-seat clears it */
  gboolean any_conforming_reseat;
  gboolean isolated; /* some reading was taken with an end freed */
  int tries;
  const BondEntry *visual;
  const BondEntry *rejecting_visual;
  const BondEntry *disposition; /* of what stood when it was recorded; any later defect ends it */
  const BondEntry *mark;
  /* the whole history */
  int n_epochs; /* closed ones */
  gboolean measured_before;
  gboolean repaired;
} Judge;

static void
history_item_free (gpointer data)
{
  BondHistoryItem *item = data;

  bond_measurement_free (item->measurement);
  g_free (item);
}

BondPlaceResult *
bond_place_result_new (void)
{
  BondPlaceResult *result = g_new0 (BondPlaceResult, 1);

  result->history = g_ptr_array_new_with_free_func (history_item_free);
  result->kept = g_ptr_array_new_with_free_func ((GDestroyNotify)bond_entry_unref);
  result->epochs = g_array_new (FALSE, FALSE, sizeof (BondEpoch));
  result->in_sample = TRUE;
  return result;
}

void
bond_place_result_free (BondPlaceResult *result)
{
  if (result == NULL)
    return;
  g_ptr_array_unref (result->history);
  g_ptr_array_unref (result->kept);
  g_array_unref (result->epochs);
  g_clear_pointer (&result->others, g_ptr_array_unref);
  g_free (result->row_name);
  g_free (result->place);
  g_free (result->label);
  g_free (result);
}

const BondHistoryItem *
bond_place_result_find (const BondPlaceResult *result, const BondEntry *entry)
{
  guint i;

  for (i = 0; i < result->history->len; i++)
    {
      const BondHistoryItem *item = g_ptr_array_index (result->history, i);
      if (item->taken_back || item->voided || item->moved_away)
        continue;
      if (item->measurement != NULL ? g_ptr_array_find (item->measurement->readings, entry, NULL)
                                    : item->entry == entry)
        return item;
    }
  return NULL;
}

static gboolean
is_visual_row (const BondLimitRow *row)
{
  return row != NULL && (row->method == BOND_METHOD_VISUAL || row->method == BOND_METHOD_ABSENT);
}

/* Beyond the limit itself, whatever the decision rule makes of it: what a reject is counted by. */
gboolean
bond_measurement_is_beyond (const BondMeasurement *m)
{
  if (m->outcome != BOND_OUTCOME_JUDGED)
    return FALSE;
  if (m->qualifier != BOND_QUALIFIER_NONE)
    return !m->conforms;
  return !bond_bounds_conform (bond_limit_row_bounds (m->row, m->condition), &m->mean);
}

static gboolean
counts (const BondMeasurement *m)
{
  return m->outcome == BOND_OUTCOME_JUDGED || m->outcome == BOND_OUTCOME_RECORDED;
}

/* Of two measurements the one nearer the limit: the higher, or the lower where there is only a lower limit. */
static const BondMeasurement *
worse_of (const BondMeasurement *a, const BondMeasurement *b)
{
  const BondBounds *bounds = bond_limit_row_bounds (a->row, a->condition);
  __int128 x = a->mean.sum * b->mean.count, y = b->mean.sum * a->mean.count;

  if (bounds->upper.relation == BOND_RELATION_NONE)
    return x < y ? a : b;
  return x > y ? a : b;
}

static gboolean
agree (const Judge *judge, const BondMeasurement *a, const BondMeasurement *b)
{
  return a->qualifier == b->qualifier
         && bond_means_agree (&a->mean, &b->mean, MAX (a->step, b->step), judge->context->house);
}

/* A measurement after a fail, with the joint not touched. */
static void
follow_reseat (Judge *judge, const BondMeasurement *m)
{
  judge->tries++;
  if (judge->came_back || judge->tries > judge->context->house->reseat_max)
    return;
  if (!counts (m) || !m->conforms)
    {
      judge->conforming_reseat = NULL;
      return;
    }
  judge->any_conforming_reseat = TRUE;
  if (judge->conforming_reseat == NULL || !agree (judge, judge->conforming_reseat, m))
    {
      judge->conforming_reseat = m;
      return;
    }
  judge->not_confirmed = TRUE;
  judge->decides = worse_of (judge->conforming_reseat, m);
  judge->fail = NULL;
}

static void
begin_fail (Judge *judge, const BondMeasurement *m)
{
  judge->fail = m;
  judge->came_back = judge->not_confirmed;
  judge->not_confirmed = FALSE;
  judge->conforming_reseat = NULL;
  judge->any_conforming_reseat = judge->came_back;
  judge->tries = 0;
  judge->disposition = NULL;
}

/* Another pair may still mend this seating. */
static gboolean
may_be_mended (const BondMeasurement *m)
{
  return m->outcome == BOND_OUTCOME_NO_VERDICT && m->reason == BOND_REASON_PAIR_DISAGREES;
}

/* A finished re-seat is a try whatever it came to, or the ones that suit could be picked out. */
static gboolean
is_finished_try (const BondMeasurement *m)
{
  return counts (m) || m->outcome == BOND_OUTCOME_SUSPECT
         || (m->outcome == BOND_OUTCOME_NO_VERDICT && !may_be_mended (m));
}

static gboolean
is_isolated (const BondMeasurement *m)
{
  guint i;

  for (i = 0; i < m->readings->len; i++)
    if (bond_entry_get_reading (m->readings->pdata[i])->mounting == BOND_MOUNTING_ISOLATED)
      return TRUE;
  return FALSE;
}

static void
follow_measurement (Judge *judge, BondHistoryItem *item)
{
  const BondMeasurement *m = item->measurement;
  BondPlaceResult *result = judge->result;

  if (judge->fail != NULL && judge->newest != NULL && may_be_mended (judge->newest))
    follow_reseat (judge, judge->newest); /* it was left as it was */
  judge->newest = m;
  judge->isolated |= is_isolated (m);
  judge->mark = NULL; /* what was measured is there and was reached */
  result->last = m;
  item->phase = judge->n_epochs > 0     ? BOND_PHASE_AS_LEFT
                : result->found != NULL ? BOND_PHASE_RESEATED
                                        : BOND_PHASE_AS_FOUND;
  if (counts (m) && result->found == NULL)
    {
      result->found = m;
      result->found_undisturbed = m->condition == BOND_CONDITION_UNDISTURBED;
    }
  if (judge->fail != NULL)
    {
      if (is_finished_try (m))
        follow_reseat (judge, m);
      return;
    }
  if (m->outcome == BOND_OUTCOME_JUDGED && !m->conforms)
    begin_fail (judge, m);
  else if (counts (m) && !judge->not_confirmed)
    judge->decides = m;
}

void
bond_place_result_count (BondPlaceResult *result)
{
  int *const counters[] = {
    [BOND_EPOCH_AS_FOUND] = &result->rejects_as_found,
    [BOND_EPOCH_INSTALLATION] = &result->rejects_installation,
    [BOND_EPOCH_OPENED] = &result->rejects_opened,
    [BOND_EPOCH_REWORK] = &result->rejects_rework,
  };
  guint i;

  for (i = 0; i < G_N_ELEMENTS (counters); i++)
    *counters[i] = 0;
  result->rejects_visual = 0;
  for (i = 0; i < result->epochs->len; i++)
    {
      const BondEpoch *epoch = &g_array_index (result->epochs, BondEpoch, i);

      *counters[epoch->kind] += epoch->beyond;
      result->rejects_visual += epoch->visual;
    }
}

static void
end_epoch (Judge *judge)
{
  BondEpoch epoch = { judge->kind, judge->fail != NULL && bond_measurement_is_beyond (judge->fail),
                      judge->rejecting_visual != NULL, judge->fail != NULL || judge->rejecting_visual != NULL };

  g_array_append_val (judge->result->epochs, epoch);
}

/* The joint changes: what stood is counted and no longer stands. */
static void
begin_epoch (Judge *judge, BondEpochKind kind, gboolean clears_visual)
{
  const BondEntry *rejecting = clears_visual ? NULL : judge->rejecting_visual;

  if (!clears_visual)
    judge->rejecting_visual = NULL; /* goes on standing, counted where it ends */
  judge->repaired |= kind == BOND_EPOCH_REWORK || judge->fail != NULL || judge->rejecting_visual != NULL;
  judge->measured_before |= judge->fail != NULL || judge->decides != NULL || judge->visual != NULL;
  end_epoch (judge);
  *judge = (Judge){
    .result = judge->result,
    .context = judge->context,
    .kind = kind,
    .rejecting_visual = rejecting,
    .visual = rejecting,
    .mark = judge->mark,
    .n_epochs = judge->n_epochs + 1,
    .measured_before = judge->measured_before,
    .repaired = judge->repaired,
  };
}

static void
follow_visual (Judge *judge, const BondEntry *entry)
{
  const BondLimitRow *row = judge->context->row;

  judge->visual = entry;
  if (is_visual_row (row))
    judge->mark = NULL;
  if (!bond_visual_rejects (entry, row))
    return;
  judge->rejecting_visual = entry;
  judge->disposition = NULL;
}

/* Figures typed after the disposition are not those it was given for. */
static gboolean
is_corrected_after (const BondMeasurement *m, const BondEntry *entry)
{
  guint i;

  for (i = 0; m != NULL && i < m->readings->len; i++)
    if (((const BondEntry *)m->readings->pdata[i])->t > entry->t)
      return TRUE;
  return FALSE;
}

static void
follow_disposition (Judge *judge, const BondEntry *entry)
{
  if ((judge->fail != NULL || judge->rejecting_visual != NULL) && !is_corrected_after (judge->fail, entry))
    judge->disposition = entry;
}

static void
follow_entry (Judge *judge, const BondEntry *entry)
{
  switch (entry->kind)
    {
    case BOND_ENTRY_REWORK:
      begin_epoch (judge, BOND_EPOCH_REWORK, TRUE);
      break;
    case BOND_ENTRY_CONDITION:
      if (entry->condition.condition == BOND_CONDITION_OPENED)
        begin_epoch (judge, BOND_EPOCH_OPENED, FALSE);
      else if (entry->condition.condition == BOND_CONDITION_NEW)
        begin_epoch (judge, BOND_EPOCH_INSTALLATION, TRUE);
      else if (entry->condition.condition == BOND_CONDITION_REWORKED)
        begin_epoch (judge, BOND_EPOCH_REWORK, TRUE);
      break;
    case BOND_ENTRY_STATE:
      judge->mark = entry->state.mark == BOND_POINT_MARK_NONE ? NULL : entry;
      break;
    case BOND_ENTRY_VISUAL:
      follow_visual (judge, entry);
      break;
    case BOND_ENTRY_DISPOSITION:
      follow_disposition (judge, entry);
      break;
    case BOND_ENTRY_SEEN:
      judge->result->seen_not_recorded++;
      break;
    default:
      break;
    }
}

gboolean
bond_history_item_is_struck_beyond (const BondHistoryItem *item)
{
  return (item->taken_back || item->voided) && !item->moved_away && item->measurement != NULL
         && bond_measurement_is_beyond (item->measurement);
}

static void
follow (Judge *judge, BondHistoryItem *item)
{
  gboolean struck = item->taken_back || item->voided;

  judge->result->over_limit_taken_back += bond_history_item_is_struck_beyond (item);
  if (struck || item->moved_away)
    return;
  if (item->measurement != NULL)
    follow_measurement (judge, item);
  else
    follow_entry (judge, item->entry);
}

gboolean
bond_visual_rejects (const BondEntry *entry, const BondLimitRow *row)
{
  return entry->visual.reject
         || (row != NULL && row->method == BOND_METHOD_ABSENT && entry->visual.finding == BOND_VISUAL_PRESENT);
}

gboolean
bond_disposition_covers (const BondDisposition *disposition, const BondMeasurement *fail)
{
  const BondBounds *bounds = &disposition->bounds;

  if (disposition->kind != BOND_DISPOSITION_ACCEPTED || fail == NULL || !bond_bounds_any (bounds))
    return TRUE;
  return fail->qualifier == BOND_QUALIFIER_NONE && bond_bounds_conform (bounds, &fail->mean);
}

/* Accepted up to a new limit: neither the fail nor anything measured after it may lie beyond that limit. */
static gboolean
disposition_holds (const Judge *judge)
{
  const BondMeasurement *newest = judge->newest != NULL && counts (judge->newest) ? judge->newest : NULL;

  return judge->disposition != NULL && bond_disposition_covers (&judge->disposition->disposition, judge->fail)
         && bond_disposition_covers (&judge->disposition->disposition, newest);
}

static BondState
open_state (const Judge *judge)
{
  const BondMeasurement *newest = judge->newest;

  if (newest != NULL && newest->outcome == BOND_OUTCOME_SUSPECT)
    return BOND_STATE_SUSPECT;
  if (newest != NULL && newest->outcome == BOND_OUTCOME_NO_VERDICT)
    return BOND_STATE_REMEASURE;
  if (judge->measured_before)
    return BOND_STATE_REMEASURE;
  return judge->result->in_sample ? BOND_STATE_TO_MEASURE : BOND_STATE_NOT_IN_SAMPLE;
}

static gboolean
visual_decides (const Judge *judge)
{
  BondVisualFinding finding;

  if (!is_visual_row (judge->context->row) || judge->visual == NULL)
    return FALSE;
  finding = judge->visual->visual.finding;
  return judge->context->row->method == BOND_METHOD_VISUAL || finding == BOND_VISUAL_MISSING
         || finding == BOND_VISUAL_GOOD;
}

static BondState
find_state (const Judge *judge)
{
  gboolean stands = judge->fail != NULL || judge->rejecting_visual != NULL;

  if (stands)
    return disposition_holds (judge) ? state_of_disposition[judge->disposition->disposition.kind] : BOND_STATE_FAIL;
  if (judge->mark != NULL)
    return state_of_mark[judge->mark->state.mark];
  if (judge->not_confirmed)
    return BOND_STATE_NOT_CONFIRMED;
  if (visual_decides (judge))
    return judge->repaired ? BOND_STATE_PASS_AFTER_REWORK : BOND_STATE_PASS;
  if (judge->decides == NULL)
    return open_state (judge);
  if (judge->decides->outcome == BOND_OUTCOME_RECORDED)
    return BOND_STATE_RECORDED;
  return judge->repaired ? BOND_STATE_PASS_AFTER_REWORK : BOND_STATE_PASS;
}

/* A re-seat that was begun and can still come to two in a row; a fail whose re-seats came to nothing. */
static void
find_reseat_state (const Judge *judge)
{
  BondPlaceResult *result = judge->result;
  gboolean unfinished = judge->newest != NULL && judge->newest != judge->fail
                        && (judge->newest->outcome == BOND_OUTCOME_INCOMPLETE || may_be_mended (judge->newest));

  result->reseats = judge->tries;
  if (judge->fail == NULL)
    return;
  result->held = !judge->came_back && judge->tries < judge->context->house->reseat_max
                 && (judge->conforming_reseat != NULL || unfinished);
  result->intermittent = judge->any_conforming_reseat && !result->held;
}

static void
conclude (Judge *judge)
{
  BondPlaceResult *result = judge->result;
  const BondLimitRow *row = judge->context->row;

  end_epoch (judge);
  bond_place_result_count (result);
  result->decides = judge->fail != NULL ? judge->fail : judge->decides;
  result->visual_reject = judge->rejecting_visual != NULL;
  if (judge->visual != NULL)
    result->visual = (judge->rejecting_visual != NULL ? judge->rejecting_visual : judge->visual)->visual.finding;
  result->state = find_state (judge);
  result->conforms = bond_state_conforms (result->state);
  result->within_u = result->decides != NULL && result->decides->within_u;
  result->freed = judge->isolated && result->tier == BOND_CONDITION_UNDISTURBED;
  find_reseat_state (judge);
  result->bounds = row != NULL && !is_visual_row (row) ? bond_limit_row_bounds (row, result->tier) : NULL;
}

void
bond_place_judge (BondPlaceResult *result, GPtrArray *entries, GHashTable *removed, const BondJudgeContext *context,
                  BondCondition planned)
{
  Judge judge = { .result = result, .context = context };
  guint i;

  g_return_if_fail (result != NULL && entries != NULL && context != NULL && context->house != NULL);
  result->row = context->row;
  bond_timeline_build (result, entries, removed, context, planned);
  judge.kind = planned == BOND_CONDITION_UNDISTURBED ? BOND_EPOCH_AS_FOUND
               : planned == BOND_CONDITION_OPENED    ? BOND_EPOCH_OPENED
               : planned == BOND_CONDITION_REWORKED  ? BOND_EPOCH_REWORK
                                                     : BOND_EPOCH_INSTALLATION;
  for (i = 0; i < result->history->len; i++)
    follow (&judge, g_ptr_array_index (result->history, i));
  conclude (&judge);
}
