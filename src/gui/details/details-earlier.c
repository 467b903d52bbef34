/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * What the strip of earlier surveys shows: the result of each, then what was
 * measured in this one and still stands, all in the unit of the limit.
 */
#include "core/story.h"
#include "gui/details/details-parts.h"
#include "gui/details/earlier-strip.h"
#include "gui/dialog.h"
#include "gui/start/detail.h"
#include "gui/words.h"
#include "report/figures.h"
#include <glib/gi18n-lib.h>
#include <string.h>

static BondMark
mark_of_state (const char *state, BondRule rule)
{
  BondPlaceResult then = { .state = BOND_STATE_RECORDED };

  for (int i = 0; i < BOND_N_STATES; i++)
    if (g_strcmp0 (bond_state_file_name (i), state) == 0)
      then.state = i;
  return bond_mark_for (&then, rule);
}

static const char *
name_of_state (const char *state)
{
  for (int i = 0; i < BOND_N_STATES; i++)
    if (g_strcmp0 (bond_state_file_name (i), state) == 0)
      return bond_state_name (i);
  return state;
}

/* The bounds the strip has as its line: those in force now. */
static const BondBounds *
bounds_of (const BondPlaceResult *place)
{
  return place->row != NULL ? bond_limit_row_bounds (place->row, place->tier) : NULL;
}

static gboolean
is_limit_of (const BondLimitRow *row, const char *then)
{
  g_autofree char *usual = row != NULL ? bond_bounds_to_file (&row->in_service) : NULL;
  g_autofree char *strict = row != NULL && row->has_strict ? bond_bounds_to_file (&row->strict) : NULL;

  return g_strcmp0 (then, usual) == 0 || g_strcmp0 (then, strict) == 0;
}

/* "limit then ≤ 0,01 Ω" out of "<=0.01"; NULL where it is one of those of today. (transfer full) */
static char *
then_words (const BondLimitRow *row, const char *then)
{
  g_autoptr (GString) text = NULL;
  const char mark[] = { bond_locale_mark (), '\0' };

  if (then == NULL || *then == '\0' || is_limit_of (row, then))
    return NULL;
  text = g_string_new (then);
  g_string_replace (text, "<=", "≤\u00a0", 0);
  g_string_replace (text, ">=", "≥\u00a0", 0);
  g_string_replace (text, ".", mark, 0);
  return g_strdup_printf (_ ("limit then %s\u00a0Ω"), text->str);
}

static char *
month_words (const char *iso)
{
  g_autofree char *midnight = strchr (iso, 'T') != NULL ? g_strdup (iso) : g_strconcat (iso, "T00:00:00Z", NULL);
  g_autoptr (GDateTime) time = g_date_time_new_from_iso8601 (midnight, NULL);

  return time != NULL ? g_date_time_format (time, "%b %Y") : g_strdup (iso);
}

static void
add_earlier (GPtrArray *ticks, GString *aloud, const BondDetailsAbout *about, const BondPointEarlier *earlier)
{
  BondUnit unit = bond_words_unit (about->place, BOND_UNIT_MILLIOHM);
  g_autofree char *value = bond_words_quantity (&earlier->item->result, unit, 2);
  g_autofree char *month = month_words (earlier->survey->date);
  g_autofree char *then = then_words (about->place->row, earlier->item->limit);
  BondStripTick *tick
      = bond_strip_tick_new (earlier->item->result.nohm, value, month,
                             mark_of_state (earlier->item->state, bond_survey_get_rule (about->survey)));

  tick->note = earlier->item->note != NULL ? g_strdup (earlier->item->note) : g_strdup (then);
  g_ptr_array_add (ticks, tick);
  g_string_append_printf (aloud, "%s %s %s", month, value, name_of_state (earlier->item->state));
  if (earlier->item->note != NULL)
    g_string_append_printf (aloud, ", %s", earlier->item->note);
  if (then != NULL)
    g_string_append_printf (aloud, ", %s", then);
  g_string_append (aloud, ". ");
}

static void
add_now (GPtrArray *ticks, GString *aloud, const BondDetailsAbout *about, const BondMeasurement *m, gboolean reworked)
{
  BondRule rule = bond_survey_get_rule (about->survey);
  BondUnit unit = bond_words_unit (about->place, BOND_UNIT_MILLIOHM);
  g_autofree char *value = bond_words_result (about->survey, m, unit, TRUE);
  g_autofree char *day = bond_words_when (about->survey, m->at);
  BondStripTick *tick = bond_strip_tick_new (bond_mean_nohm (&m->mean), value, day, bond_figure_mark (m, rule));

  tick->reworked = reworked;
  g_ptr_array_add (ticks, tick);
  g_string_append_printf (aloud, "%s%s %s %s. ", reworked ? _ ("After rework ") : "", day, value,
                          bond_figure_verdict (m, rule));
}

static void
add_this_survey (GPtrArray *ticks, GString *aloud, const BondDetailsAbout *about)
{
  gboolean reworked = FALSE;

  for (guint i = 0; i < about->place->history->len; i++)
    {
      const BondHistoryItem *item = g_ptr_array_index (about->place->history, i);

      if (item->taken_back || item->voided || item->moved_away)
        continue;
      reworked |= item->entry->kind == BOND_ENTRY_REWORK;
      if (item->measurement == NULL || item->measurement->mean.count == 0)
        continue;
      add_now (ticks, aloud, about, item->measurement, reworked);
      reworked = FALSE;
    }
}

/* The place is still to be read by somebody who could be led. */
static gboolean
is_still_blind (const BondDetailsAbout *about)
{
  return about->place->last == NULL && about->place->state == BOND_STATE_TO_MEASURE
         && bond_survey_get_read_only (about->survey) == NULL;
}

void
bond_details_earlier_fill (GtkBox *box, const BondDetailsAbout *about)
{
  g_autoptr (GArray) earlier = bond_point_get_earlier (about->point);
  g_autoptr (GPtrArray) ticks = g_ptr_array_new_with_free_func (bond_strip_tick_free);
  g_autoptr (GString) aloud = g_string_new (NULL);
  GtkWidget *strip;

  bond_details_clear (box);
  if (earlier->len == 0)
    {
      bond_detail_text (box, _ ("First survey of this point."), "quiet");
      return;
    }
  if (is_still_blind (about))
    {
      bond_detail_text (box, _ ("Earlier results show once there is a reading: a number seen before leads the eye."),
                        "quiet");
      return;
    }
  for (guint i = 0; i < earlier->len; i++)
    add_earlier (ticks, aloud, about, &g_array_index (earlier, BondPointEarlier, i));
  add_this_survey (ticks, aloud, about);
  strip = bond_earlier_strip_new ();
  bond_earlier_strip_set (BOND_EARLIER_STRIP (strip), g_steal_pointer (&ticks), bounds_of (about->place));
  bond_name_widget (strip, aloud->str);
  gtk_widget_set_tooltip_text (strip, aloud->str);
  gtk_box_append (box, strip);
}
