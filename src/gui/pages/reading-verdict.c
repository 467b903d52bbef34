/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * What the panel shows while digits are typed: verdict, mean, U, share of the
 * limit, what Enter will do.  Nothing is asked or stored here.
 */
#include "gui/dialog.h"
#include "gui/pages/reading-panel-private.h"
#include "gui/words.h"
#include "report/act-words.h"
#include <glib/gi18n-lib.h>

#define NBSP "\302\240"
#define FULL_SIZE 6    /* characters shown at the full size of the field */
#define LONG_RECORD 24 /* characters; above, the words need the room of the key */

static BondRule
rule_of (BondReadingPanel *self)
{
  return bond_survey_get_rule (bond_walk_get_survey (self->walk));
}

/* What the share is of: "limit" is the one on the screen; one of another tier has its name and value. */
static char *
share_of (const BondPlaceResult *result, const BondMeasurement *measurement, const BondBounds *bounds)
{
  g_autofree char *value = NULL;

  if (measurement->row == result->row && (result->bounds == bounds || measurement->condition == result->tier))
    return g_strdup (_ ("limit"));
  value = bounds->upper.relation != BOND_RELATION_NONE && bounds->lower.relation == BOND_RELATION_NONE
              ? bond_words_quantity (&(BondQuantity){ .nohm = bounds->upper.nohm }, bond_bounds_unit (bounds), 0)
              : bond_bounds_format (bounds, bond_locale_mark (), TRUE);
  return g_strdup_printf ("%s %s", bond_words_tier (measurement->condition), value);
}

static char *
percent (const BondPlaceResult *result, const BondMeasurement *measurement)
{
  const BondBounds *bounds
      = measurement->row != NULL ? bond_limit_row_bounds (measurement->row, measurement->condition) : NULL;
  gint64 permille
      = bounds != NULL && measurement->mean.count > 0 ? bond_bounds_used_permille (bounds, &measurement->mean) : -1;
  g_autofree char *of = NULL;

  if (permille < 0 || measurement->qualifier != BOND_QUALIFIER_NONE)
    return NULL;
  of = share_of (result, measurement, bounds);
  /* Close to the limit a whole per cent would hide the side. */
  if (permille > 980 && permille < 1020 && permille % 10 != 0)
    return g_strdup_printf (_ ("%d%c%d\302\240%% of %s"), (int)(permille / 10), bond_locale_mark (),
                            (int)(permille % 10), of);
  return g_strdup_printf (_ ("%d\302\240%% of %s"), (int)((permille + 5) / 10), of);
}

/* U leaves rounded up to two significant digits; a result that is no figure has none. */
char *
bond_reading_panel_u_digits (const BondMeasurement *measurement, BondUnit unit)
{
  BondOhm digit = 1;
  BondOhm u = measurement->budget.u_nohm;
  int decimals = 0;

  if (measurement->qualifier != BOND_QUALIFIER_NONE || !measurement->budget.known)
    return NULL;
  while ((u + digit - 1) / digit >= 100)
    digit *= 10;
  for (BondOhm part = bond_unit_nohm (unit); part > digit; part /= 10)
    decimals++;
  return bond_ohm_format ((u + digit - 1) / digit * digit, unit, decimals, bond_locale_mark ());
}

static char *
uncertainty (const BondMeasurement *measurement, BondUnit unit)
{
  g_autofree char *digits = bond_reading_panel_u_digits (measurement, unit);

  if (measurement->qualifier != BOND_QUALIFIER_NONE)
    return NULL;
  return digits != NULL ? g_strdup_printf (_ ("U %s"), digits) : g_strdup (_ ("U unknown"));
}

static char *
detail_of (const BondPlaceResult *result, const BondMeasurement *shown, BondUnit unit)
{
  g_autofree char *u = uncertainty (shown, unit);
  g_autofree char *used = percent (result, shown);
  GString *detail = g_string_new (u);

  bond_act_append (detail, used);
  if (shown->row != NULL && shown->row->pair && shown->self_reversed)
    bond_act_append (detail, _ ("reversed by the meter")); /* why one entry is both directions */
  return g_string_free (detail, FALSE);
}

static void
show_mean (BondReadingPanel *self, const BondPlaceResult *result, gboolean recorded)
{
  const BondMeasurement *shown = result != NULL ? result->last : NULL;
  BondUnit unit = bond_words_unit (result, bond_walk_get_pinned (self->walk)->unit);
  gboolean any = shown != NULL && shown->outcome != BOND_OUTCOME_NONE && shown->outcome != BOND_OUTCOME_INCOMPLETE
                 && shown->mean.count > 0; /* a pair that disagrees has no value */
  gboolean before = recorded && result != NULL && result->state == BOND_STATE_REMEASURE;

  gtk_widget_set_visible (self->mean_box, any);
  gtk_widget_set_visible (self->mean_rule, any);
  if (any)
    {
      g_autofree char *value = bond_words_result (bond_walk_get_survey (self->walk), shown, unit, TRUE);
      g_autofree char *detail = detail_of (result, shown, unit);

      gtk_label_set_text (self->mean_name, before                     ? _ ("Before")
                                           : recorded                 ? _ ("Recorded")
                                           : shown->readings->len > 1 ? _ ("Mean")
                                                                      : _ ("Result"));
      gtk_label_set_text (self->mean_detail, detail);
      gtk_widget_set_tooltip_text (GTK_WIDGET (self->mean_detail), detail);
      gtk_label_set_text (self->mean_value, value);
    }
  if (any && !before)
    bond_limit_bar_set_reading (
        self->limit_bar, &(BondQuantity){ .nohm = bond_mean_nohm (&shown->mean), .qualifier = shown->qualifier },
        shown->budget.known && shown->qualifier == BOND_QUALIFIER_NONE ? shown->budget.u_nohm : 0);
  else
    bond_limit_bar_set_reading (self->limit_bar, NULL, 0);
}

static void
show_forward (BondReadingPanel *self, const BondPlaceResult *result)
{
  const BondMeasurement *last = result != NULL ? result->last : NULL;
  gboolean under_way
      = last != NULL && last->outcome == BOND_OUTCOME_INCOMPLETE && last->readings != NULL && last->readings->len > 0;

  gtk_widget_set_visible (self->forward_box, under_way);
  gtk_widget_set_visible (self->forward_rule, under_way);
  if (under_way)
    {
      const BondEntry *entry = g_ptr_array_index (last->readings, last->readings->len - 1);
      const BondReading *reading = bond_entry_get_reading (entry);
      BondUnit unit = bond_words_unit (result, reading->unit);
      g_autofree char *value = bond_words_quantity (
          &reading->quantity, unit, bond_words_decimals (bond_walk_get_survey (self->walk), last, unit));

      gtk_label_set_text (self->forward_name,
                          last->reason == BOND_REASON_REPEATS_MISSING ? _ ("So far") : _ ("Forward"));
      gtk_label_set_text (self->forward_value, value);
    }
}

/* The pinned meter turns its current round by itself: one entry is both directions. */
static gboolean
reverses_itself (BondReadingPanel *self)
{
  const char *id = bond_walk_get_pinned (self->walk)->instrument;
  const BondInstrument *meter = id != NULL ? bond_survey_find_instrument (bond_walk_get_survey (self->walk), id) : NULL;

  return meter != NULL && meter->reversal == BOND_REVERSAL_BY_ITSELF;
}

static void
show_direction (BondReadingPanel *self, const BondPlaceResult *result, BondPoint *point)
{
  const BondMeasurement *last = result->last;
  gboolean under_way = last != NULL && last->outcome == BOND_OUTCOME_INCOMPLETE;
  const char *direction = "";
  g_autofree char *name = NULL;

  if (under_way)
    direction = last->reason == BOND_REASON_REPEATS_MISSING ? _ ("Repeat") : _ ("Reverse");
  else if (bond_point_get_asked (point).pair && !reverses_itself (self))
    direction = _ ("Forward");
  gtk_label_set_text (self->direction_label, direction);
  gtk_widget_set_visible (GTK_WIDGET (self->direction_label), *direction != '\0');
  name = g_strdup_printf (_ ("Reading for %s, %s, in %s"), bond_point_get_number (point),
                          *direction != '\0' ? direction : _ ("single"),
                          bond_unit_spoken (bond_walk_get_pinned (self->walk)->unit));
  bond_reading_entry_set_label (self->entry, name);
}

/* What Enter does. */
static void
set_record_text (BondReadingPanel *self, const char *text)
{
  BondSurvey *survey = bond_walk_get_survey (self->walk);

  gtk_label_set_text (self->record_label, text);
  gtk_widget_set_sensitive (self->record_button, !self->asked && bond_survey_get_read_only (survey) == NULL);
  gtk_widget_set_visible (self->record_key, g_utf8_strlen (text, -1) <= LONG_RECORD);
  bond_name_widget (self->record_button, text);
}

static const char *
ink_of (const BondPlaceResult *preview)
{
  const BondMeasurement *last = preview->last;

  if (last == NULL || last->outcome == BOND_OUTCOME_INCOMPLETE)
    return NULL;
  if (last->outcome != BOND_OUTCOME_JUDGED)
    return last->outcome == BOND_OUTCOME_RECORDED ? NULL : "guard";
  if (preview->state == BOND_STATE_FAIL)
    return "fail";
  return last->within_u ? "guard" : NULL;
}

static void
clear_verdict (BondReadingPanel *self)
{
  bond_mark_image_clear (self->verdict_mark);
  gtk_widget_set_visible (GTK_WIDGET (self->verdict_mark), FALSE);
  gtk_label_set_text (self->verdict_label, "");
}

/* What the point in hand has now, until the next digit: a rejected joint says why even where its reading conforms. */
static void
show_recorded_verdict (BondReadingPanel *self, const BondPlaceResult *result)
{
  gboolean under_way = result->last != NULL && result->last->outcome == BOND_OUTCOME_INCOMPLETE;
  g_autofree char *word = NULL;

  clear_verdict (self);
  if (under_way || (result->state == BOND_STATE_TO_MEASURE && result->last == NULL))
    return;
  if (result->state == BOND_STATE_FAIL && result->visual_reject)
    word = g_strdup (bond_visual_name (result->visual));
  else if (result->state == BOND_STATE_REMEASURE || result->last == NULL)
    word = g_strdup (bond_state_name (result->state));
  else
    word = bond_words_verdict (result, rule_of (self));
  bond_mark_image_set_mark (self->verdict_mark, bond_mark_for (result, rule_of (self)));
  gtk_widget_set_visible (GTK_WIDGET (self->verdict_mark), TRUE);
  gtk_label_set_text (self->verdict_label, word);
  bond_reading_panel_set_ink (GTK_WIDGET (self->verdict_label), result->state == BOND_STATE_FAIL ? "fail"
                                                                : result->state == BOND_STATE_REMEASURE
                                                                    ? "history"
                                                                    : ink_of (result));
}

static void
show_nothing_typed (BondReadingPanel *self, const BondPlaceResult *result)
{
  gboolean fresh = result->last == NULL;

  show_recorded_verdict (self, result);
  set_record_text (self, _ ("Record"));
  show_mean (self, result, TRUE);
  if (*gtk_label_get_text (self->say_label) == '\0' && fresh && !self->low)
    {
      gtk_label_set_text (self->say_label, _ ("Digits, then Enter. u, m or o after the digits sets µΩ, mΩ or Ω once. "
                                              "H lists the letters."));
      gtk_widget_set_visible (GTK_WIDGET (self->say_label), TRUE);
    }
}

static void
show_preview (BondReadingPanel *self, const BondAttempt *attempt)
{
  const BondPlaceResult *preview = attempt->preview;
  g_autofree char *verdict = bond_words_verdict (preview, rule_of (self));
  g_autofree char *second = bond_reading_panel_second_line (self, preview);
  g_autofree char *value = NULL;
  g_autofree char *record = NULL;
  BondUnit unit = bond_words_unit (preview, attempt->text.value[0].unit);

  bond_mark_image_set_mark (self->verdict_mark, bond_mark_for (preview, rule_of (self)));
  gtk_widget_set_visible (GTK_WIDGET (self->verdict_mark), TRUE);
  gtk_label_set_text (self->verdict_label, verdict);
  bond_reading_panel_set_ink (GTK_WIDGET (self->verdict_label), ink_of (preview));
  show_mean (self, preview, FALSE);
  if (preview->last != NULL && preview->last->outcome != BOND_OUTCOME_INCOMPLETE && preview->last->mean.count == 0)
    value = g_strdup (_ ("pair"));
  else if (preview->last != NULL && preview->last->outcome != BOND_OUTCOME_INCOMPLETE)
    value = bond_words_result (bond_walk_get_survey (self->walk), preview->last, unit, TRUE);
  else
    value = g_strconcat (attempt->text.value[0].text, NBSP, bond_unit_symbol (attempt->text.value[0].unit), NULL);
  record = g_strdup_printf (_ ("Record %s, %s"), value, verdict);
  set_record_text (self, record);
  if (!self->asked && second != NULL)
    bond_reading_panel_whisper (self, second);
}

/* What is asked first may change value, unit and range: nothing is promised before the answer. */
static void
show_asked (BondReadingPanel *self, const char *text)
{
  g_autofree char *record = g_strdup_printf (_ ("Record %s…"), text);

  clear_verdict (self);
  set_record_text (self, self->asked ? _ ("Answer the Question First") : record);
  show_mean (self, NULL, FALSE);
}

/* A pair or a voltage at a current would not fit at full size. */
static void
shrink_long_text (BondReadingPanel *self, const char *text)
{
  g_autoptr (PangoAttrList) attributes = NULL;

  if (g_utf8_strlen (text, -1) > FULL_SIZE)
    {
      attributes = pango_attr_list_new ();
      pango_attr_list_insert (attributes, pango_attr_scale_new (0.55));
    }
  gtk_entry_set_attributes (GTK_ENTRY (self->entry), attributes);
}

void
bond_reading_panel_refresh_entry (BondReadingPanel *self)
{
  BondPoint *point = bond_walk_get_point (self->walk);
  const BondPlaceResult *result = bond_walk_get_result (self->walk);
  const char *text = gtk_editable_get_text (GTK_EDITABLE (self->entry));
  g_auto (BondAttempt) attempt = { 0 };

  if (point == NULL || result == NULL)
    return;
  shrink_long_text (self, text);
  show_forward (self, result);
  show_direction (self, result, point);
  bond_reading_panel_show_verbs (self, result, *text != '\0');
  if (*text == '\0')
    {
      show_nothing_typed (self, result);
      return;
    }
  if (!bond_walk_is_jump (text))
    bond_walk_try (self->walk, text, BOND_ANSWER_NONE, &attempt);
  if (self->asked || (attempt.ask != BOND_ASK_NONE && attempt.ask != BOND_ASK_ERROR))
    {
      show_asked (self, text);
      return;
    }
  if (attempt.preview != NULL)
    {
      show_preview (self, &attempt);
      return;
    }
  clear_verdict (self);
  set_record_text (self, bond_walk_is_jump (text) ? _ ("Go to This Point") : _ ("Record"));
  show_mean (self, NULL, FALSE);
}
