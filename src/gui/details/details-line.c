/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * A line of history in words.  Acts are worded by report/act-words.c, verdicts by
 * report/figures.c; this file only puts them together with who, when and with what.
 */
#include "gui/details/details-line.h"
#include "gui/pages/pinned-popover.h"
#include "gui/words.h"
#include "report/act-words.h"
#include "report/figures.h"
#include <glib/gi18n-lib.h>

typedef struct
{
  BondSurvey *survey;
  BondPoint *point;
  const BondStoryLine *story;
  gboolean failed;           /* a fail came before this line, at its place */
  gboolean with_offset;      /* times do not all have one offset */
  BondStoryLine *const *run; /* the lines it stands for, @n_run of them; the first is @story */
  guint n_run;
} Context;

static void
line_free (gpointer data)
{
  BondDetailsLine *line = data;

  g_free (line->title);
  g_free (line->word);
  g_free (line->note);
  g_free (line->when);
  g_free (line);
}

static BondUnit
unit_of (const BondStoryLine *story)
{
  const BondReading *reading = bond_entry_get_reading (story->entry);

  return bond_words_unit (story->place, reading != NULL ? reading->unit : BOND_UNIT_MILLIOHM);
}

/* --- a seating of the probes --- */

static void
add_figures (const Context *context, const BondMeasurement *m, GString *text)
{
  for (guint i = 0; i < m->readings->len; i++)
    {
      const BondReading *reading = bond_entry_get_reading (g_ptr_array_index (m->readings, i));
      g_autofree char *figure
          = bond_reading_figure (context->survey, reading, unit_of (context->story), bond_locale_mark ());

      if (m->readings->len > 1 || m->mean.count == 0 || m->outcome == BOND_OUTCOME_INCOMPLETE)
        bond_act_append_titled (text, bond_direction_name (reading->direction), figure);
      /* What was typed in another way than it is shown is kept to be seen. */
      if (reading->nanovolt != 0)
        bond_act_append_titled (text, _ ("typed"), reading->text);
    }
}

static void
add_state (const BondReading *reading, GString *text)
{
  if (reading->connectors != BOND_CONNECTORS_ANY)
    bond_act_append (text, bond_connectors_words (reading->connectors));
  if (reading->mounting != BOND_MOUNTING_ANY)
    bond_act_append (text, bond_mounting_words (reading->mounting));
  bond_act_append_titled (text, _ ("reference clip at"), reading->reference_end);
  bond_act_append_titled (text, _ ("leads"), reading->leads);
}

static void
add_instrument (const Context *context, const BondReading *reading, GString *text)
{
  const BondInstrument *instrument
      = reading->instrument != NULL
            ? bond_survey_find_instrument_at (context->survey, reading->instrument, context->story->entry)
            : NULL;
  const BondRange *range
      = instrument != NULL && reading->range != NULL ? bond_instrument_find_range (instrument, reading->range) : NULL;
  g_autofree char *end
      = range != NULL ? bond_words_quantity (&(BondQuantity){ .nohm = range->end }, bond_ohm_best_unit (range->end), 0)
                      : NULL;

  bond_act_append (text, instrument != NULL ? instrument->name : reading->instrument);
  bond_act_append_titled (text, _ ("range"), end);
}

static void
add_person (const Context *context, const BondEntry *entry, GString *text)
{
  bond_act_append (text, entry->by != NULL ? bond_survey_person_name (context->survey, entry->by) : NULL);
  if (entry->entered_by != NULL)
    bond_act_append_titled (text, _ ("entered by"), bond_survey_person_name (context->survey, entry->entered_by));
  if (entry->under != NULL)
    bond_act_append_titled (text, _ ("under supervision of"), bond_survey_person_name (context->survey, entry->under));
}

/* Everybody who took a reading of it, once. */
static void
add_people (const Context *context, const BondMeasurement *m, GString *text)
{
  for (guint i = 0; i < m->readings->len; i++)
    {
      const BondEntry *entry = g_ptr_array_index (m->readings, i);
      gboolean known = FALSE;

      for (guint j = 0; j < i; j++)
        known |= g_strcmp0 (((BondEntry *)m->readings->pdata[j])->by, entry->by) == 0;
      if (!known)
        add_person (context, entry, text);
    }
}

/* What the limit rows that do not govern make of the same readings. */
static void
add_other_rows (const Context *context, GString *text)
{
  const BondPlaceResult *place = context->story->place;
  BondRule rule = bond_survey_get_rule (context->survey);

  for (guint i = 0; i < bond_place_result_n_rows (place); i++)
    {
      const BondPlaceResult *row = bond_place_result_nth_row (place, i);
      const BondHistoryItem *item = bond_place_result_find (row, context->story->entry);
      const char *name = row->row != NULL ? row->row->code : row->row_name;

      if (bond_place_result_n_rows (place) > 1 && item != NULL && item->measurement != NULL && name != NULL)
        bond_act_append_titled (text, name, bond_figure_verdict (item->measurement, rule));
    }
}

static void
add_worth (const Context *context, const BondMeasurement *m, GString *text)
{
  const BondEntry *last = g_ptr_array_index (m->readings, m->readings->len - 1);
  const BondEntry *permit = context->story->permit;

  if (m->outcome == BOND_OUTCOME_JUDGED && m->within_u)
    bond_act_append (text, _ ("within U of the limit"));
  if (m->reason != BOND_REASON_NONE)
    bond_act_append (text, bond_reason_name (m->reason));
  if (m->caution != BOND_REASON_NONE)
    bond_act_append (text, bond_reason_name (m->caution));
  add_other_rows (context, text);
  bond_act_append_titled (text, _ ("said then:"), bond_said_name (bond_entry_get_reading (last)->said));
  if (permit != NULL)
    bond_act_append_titled (text, _ ("permit"),
                            permit->permit.number != NULL ? permit->permit.number : permit->permit.authority);
}

static char *
value_words (const Context *context, const BondMeasurement *m)
{
  BondUnit unit = unit_of (context->story);
  const BondReading *reading = bond_entry_get_reading (context->story->entry);

  if (m->mean.count > 0)
    return bond_words_result (context->survey, m, unit, TRUE);
  return bond_words_quantity (&reading->quantity, unit, bond_words_decimals (context->survey, m, unit));
}

static char *
verdict_words (const Context *context, const BondMeasurement *m)
{
  GString *text = g_string_new (bond_figure_verdict (m, bond_survey_get_rule (context->survey)));

  if (m->outcome == BOND_OUTCOME_JUDGED || m->outcome == BOND_OUTCOME_RECORDED)
    bond_act_append (text, bond_words_phase (context->story->item->phase, context->failed));
  if (context->story->place != NULL && m == context->story->place->decides)
    bond_act_append (text, _ ("counts"));
  return g_string_free (text, FALSE);
}

static void
fill_measurement (const Context *context, BondDetailsLine *line)
{
  const BondMeasurement *m = context->story->item->measurement;
  GString *note = g_string_new (NULL);

  line->title = value_words (context, m);
  if (!line->struck)
    {
      line->word = verdict_words (context, m);
      line->mark = bond_figure_mark (m, bond_survey_get_rule (context->survey));
      line->css = m->outcome == BOND_OUTCOME_JUDGED && !m->conforms ? "fail" : NULL;
    }
  add_figures (context, m, note);
  add_instrument (context, bond_entry_get_reading (context->story->entry), note);
  add_people (context, m, note);
  add_state (bond_entry_get_reading (context->story->entry), note);
  add_worth (context, m, note);
  line->note = g_string_free (note, FALSE);
}

/* --- any other act --- */

static void
fill_act (const Context *context, BondDetailsLine *line)
{
  GString *note = g_string_new (NULL);

  line->title = g_strdup (context->n_run > 1 ? _ ("Places planned") : bond_act_word (context->story->entry->kind));
  for (guint i = 0; i < context->n_run; i++)
    {
      g_autofree char *details = bond_act_details (context->survey, context->run[i]->entry, bond_locale_mark ());

      g_string_append_printf (note, "%s%s", i > 0 ? "; " : "", details);
    }
  add_person (context, context->story->entry, note);
  line->note = g_string_free (note, FALSE);
}

/* "void, wrong point, probes were on 562-J03" */
static char *
strike_words (const Context *context)
{
  const BondEntry *by = context->story->struck_by;
  const BondHistoryItem *item = context->story->item;
  g_autofree char *details = by != NULL ? bond_act_details (context->survey, by, bond_locale_mark ()) : NULL;
  GString *text = g_string_new (NULL);

  if (by != NULL)
    bond_act_append (text, by->kind == BOND_ENTRY_VOID        ? _ ("void")
                           : by->kind == BOND_ENTRY_CORRECT   ? _ ("corrected")
                           : by->kind == BOND_ENTRY_TAKE_BACK ? _ ("undone")
                                                              : _ ("moved"));
  else if (item != NULL)
    bond_act_append (text, item->taken_back ? _ ("undone") : item->moved_away ? _ ("moved") : _ ("void"));
  bond_act_append (text, details);
  return g_string_free (text, FALSE);
}

static char *
when_words (const Context *context)
{
  const char *at = context->story->entry->at;
  g_autofree char *when = bond_words_when (context->survey, at);
  g_autofree char *offset = context->with_offset ? bond_words_offset (at) : NULL;

  return offset != NULL ? g_strdup_printf ("%s %s", when, offset) : g_steal_pointer (&when);
}

static const char *
place_label (const Context *context)
{
  const BondPlaceResult *place = context->story->place;

  if (place == NULL || place->place == NULL || bond_point_get_places (context->point)->len < 2)
    return NULL;
  return place->label != NULL ? place->label : place->place;
}

static BondDetailsLine *
line_new (const Context *context)
{
  BondDetailsLine *line = g_new0 (BondDetailsLine, 1);
  const BondHistoryItem *item = context->story->item;

  line->mark = -1;
  line->struck = bond_story_line_is_struck (context->story);
  if (item != NULL && item->measurement != NULL)
    fill_measurement (context, line);
  else
    fill_act (context, line);
  if (place_label (context) != NULL)
    {
      g_autofree char *title = g_steal_pointer (&line->title);

      line->title = g_strdup_printf ("%s: %s", place_label (context), title);
    }
  if (line->struck)
    line->word = strike_words (context);
  line->when = when_words (context);
  return line;
}

static gboolean
is_fail (const BondStoryLine *story)
{
  return story->item != NULL && story->item->measurement != NULL && !bond_story_line_is_struck (story)
         && story->item->measurement->outcome == BOND_OUTCOME_JUDGED && !story->item->measurement->conforms;
}

/* Places of a group are entered many at a time: those entered in one go make one line. */
static gboolean
is_planned_with (const BondStoryLine *line, const BondStoryLine *before)
{
  return line->entry->kind == BOND_ENTRY_PLACE && before->entry->kind == BOND_ENTRY_PLACE
         && !bond_story_line_is_struck (line) && !bond_story_line_is_struck (before)
         && g_strcmp0 (line->entry->sitting, before->entry->sitting) == 0
         && g_strcmp0 (line->entry->by, before->entry->by) == 0;
}

static guint
run_from (GPtrArray *story, guint at)
{
  guint n = 1;

  while (at + n < story->len
         && is_planned_with (g_ptr_array_index (story, at + n), g_ptr_array_index (story, at + n - 1)))
    n++;
  return n;
}

GPtrArray *
bond_details_lines (BondSurvey *survey, BondPoint *point, GPtrArray *story)
{
  GPtrArray *lines = g_ptr_array_new_with_free_func (line_free);
  g_autoptr (GHashTable) failed = g_hash_table_new (NULL, NULL);
  g_autofree char *offset = bond_details_offset (story);

  g_return_val_if_fail (BOND_IS_SURVEY (survey) && BOND_IS_POINT (point), lines);
  for (guint i = 0, n; i < story->len; i += n)
    {
      const BondStoryLine *line = g_ptr_array_index (story, i);
      Context context = { survey, point, line, g_hash_table_contains (failed, line->place), offset == NULL };

      n = run_from (story, i);
      context.run = (BondStoryLine *const *)&story->pdata[i];
      context.n_run = n;
      g_ptr_array_add (lines, line_new (&context));
      if (is_fail (line))
        g_hash_table_add (failed, (gpointer)line->place);
    }
  return lines;
}

char *
bond_details_line_spoken (const BondDetailsLine *line)
{
  GString *text = g_string_new (line->struck ? _ ("Struck out") : NULL);

  bond_act_append (text, line->title);
  bond_act_append (text, line->word);
  bond_act_append (text, line->note);
  bond_act_append (text, line->when);
  return g_string_free (text, FALSE);
}

char *
bond_details_offset (GPtrArray *story)
{
  g_autofree char *all = NULL;

  for (guint i = 0; i < story->len; i++)
    {
      g_autofree char *one = bond_words_offset (((BondStoryLine *)story->pdata[i])->entry->at);

      if (all != NULL && g_strcmp0 (one, all) != 0)
        return NULL;
      if (all == NULL)
        all = g_steal_pointer (&one);
    }
  return g_steal_pointer (&all);
}
