/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * From the first digit to the record: the verdict while typing, the questions that
 * Enter may raise, and what is said afterwards.  Nothing is stored until Enter; a
 * text that could not be written comes back into the field.
 */
#include "gui/actions.h"
#include "gui/dialog.h"
#include "gui/pages/reading-panel-private.h"
#include "gui/words.h"
#include <glib/gi18n-lib.h>

#define NBSP "\302\240"

static void record_with (BondReadingPanel *self, BondAnswer answers);

static BondRule
rule_of (BondReadingPanel *self)
{
  return bond_survey_get_rule (bond_walk_get_survey (self->walk));
}

static void
clear_ask (BondReadingPanel *self)
{
  GtkWidget *child;

  while ((child = gtk_widget_get_first_child (GTK_WIDGET (self->ask_box))) != NULL)
    gtk_flow_box_remove (self->ask_box, child);
  gtk_widget_set_visible (GTK_WIDGET (self->ask_box), FALSE);
  self->asked = FALSE;
}

void
bond_reading_panel_say (BondReadingPanel *self, const char *css, const char *text)
{
  GtkWidget *label = GTK_WIDGET (self->say_label);

  g_return_if_fail (BOND_IS_READING_PANEL (self));
  gtk_widget_remove_css_class (label, "band");
  bond_reading_panel_set_ink (label, css);
  if (css != NULL)
    gtk_widget_add_css_class (label, "band");
  (css != NULL ? gtk_widget_remove_css_class : gtk_widget_add_css_class) (label, "note");
  gtk_label_set_text (self->say_label, text != NULL ? text : "");
  gtk_widget_set_visible (label, text != NULL && *text != '\0');
  if (text != NULL && *text != '\0')
    bond_reading_entry_say (self->entry, text);
}

static char *
percent (const BondMeasurement *measurement)
{
  const BondBounds *bounds
      = measurement->row != NULL ? bond_limit_row_bounds (measurement->row, measurement->condition) : NULL;
  gint64 permille
      = bounds != NULL && measurement->mean.count > 0 ? bond_bounds_used_permille (bounds, &measurement->mean) : -1;

  if (permille < 0 || measurement->qualifier != BOND_QUALIFIER_NONE)
    return NULL;
  /* Close to the limit a whole per cent would hide the side. */
  if (permille > 980 && permille < 1020 && permille % 10 != 0)
    return g_strdup_printf (_ ("%d%c%d\302\240%% of limit"), (int)(permille / 10), bond_locale_mark (),
                            (int)(permille % 10));
  return g_strdup_printf (_ ("%d\302\240%% of limit"), (int)((permille + 5) / 10));
}

/* U leaves rounded up, with the decimals of the value beside it. */
static char *
uncertainty (BondReadingPanel *self, const BondMeasurement *measurement, BondUnit unit)
{
  int decimals = bond_words_decimals (bond_walk_get_survey (self->walk), measurement, unit);
  BondOhm step = bond_unit_nohm (unit);
  g_autofree char *digits = NULL;

  if (!measurement->budget.known)
    return g_strdup (_ ("U unknown"));
  for (int i = 0; i < decimals && step % 10 == 0; i++)
    step /= 10;
  digits = bond_ohm_format ((measurement->budget.u_nohm + step - 1) / step * step, unit, decimals, bond_locale_mark ());
  return g_strdup_printf (_ ("U %s"), digits);
}

static void
show_mean (BondReadingPanel *self, const BondPlaceResult *result, gboolean recorded)
{
  const BondMeasurement *shown = result != NULL ? result->last : NULL;
  BondUnit unit = bond_words_unit (result, bond_walk_get_pinned (self->walk)->unit);
  gboolean any = shown != NULL && shown->outcome != BOND_OUTCOME_NONE && shown->outcome != BOND_OUTCOME_INCOMPLETE;

  gtk_widget_set_visible (self->mean_box, any);
  gtk_widget_set_visible (self->mean_rule, any);
  if (any)
    {
      g_autofree char *value = bond_words_result (bond_walk_get_survey (self->walk), shown, unit, TRUE);
      g_autofree char *u = uncertainty (self, shown, unit);
      g_autofree char *used = percent (shown);
      g_autofree char *detail = used != NULL ? g_strdup_printf ("%s, %s", u, used) : g_strdup (u);

      gtk_label_set_text (self->mean_name, recorded                   ? _ ("Recorded")
                                           : shown->readings->len > 1 ? _ ("Mean")
                                                                      : _ ("Result"));
      gtk_label_set_text (self->mean_detail, detail);
      gtk_label_set_text (self->mean_value, value);
    }
  if (any && shown->mean.count > 0)
    bond_limit_bar_set_reading (self->limit_bar,
                                &(BondQuantity){ .nohm = bond_mean_nohm (&shown->mean), .qualifier = shown->qualifier },
                                shown->budget.known ? shown->budget.u_nohm : 0);
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

static void
show_direction (BondReadingPanel *self, const BondPlaceResult *result, BondPoint *point)
{
  const BondMeasurement *last = result->last;
  const BondLimitRow *row = bond_point_get_row (point);
  gboolean under_way = last != NULL && last->outcome == BOND_OUTCOME_INCOMPLETE;
  const char *direction = "";
  g_autofree char *name = NULL;

  if (under_way)
    direction = last->reason == BOND_REASON_REPEATS_MISSING ? _ ("Repeat") : _ ("Reverse");
  else if (row != NULL && row->pair)
    direction = _ ("Forward");
  gtk_label_set_text (self->direction_label, direction);
  gtk_widget_set_visible (GTK_WIDGET (self->direction_label), *direction != '\0');
  name = g_strdup_printf (_ ("Reading for %s, %s, in %s"), bond_point_get_number (point),
                          *direction != '\0' ? direction : _ ("single"),
                          bond_unit_spoken (bond_walk_get_pinned (self->walk)->unit));
  bond_reading_entry_set_label (self->entry, name);
}

static void
show_nothing_typed (BondReadingPanel *self, const BondPlaceResult *result)
{
  gboolean fresh = result->last == NULL;

  bond_mark_image_clear (self->verdict_mark);
  gtk_widget_set_visible (GTK_WIDGET (self->verdict_mark), FALSE);
  gtk_label_set_text (self->verdict_label, "");
  gtk_label_set_text (self->record_label, _ ("Record"));
  gtk_widget_set_sensitive (self->record_button, FALSE);
  show_mean (self, result, TRUE);
  if (*gtk_label_get_text (self->say_label) == '\0' && fresh && !self->low)
    {
      gtk_label_set_text (self->say_label, _ ("Digits, then Enter. u, m or o after the digits sets µΩ, mΩ or Ω once. "
                                              "H lists the letters."));
      gtk_widget_set_visible (GTK_WIDGET (self->say_label), TRUE);
    }
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
show_preview (BondReadingPanel *self, const BondAttempt *attempt)
{
  const BondPlaceResult *preview = attempt->preview;
  g_autofree char *verdict = bond_words_verdict (preview, rule_of (self));
  g_autofree char *second = bond_words_second_line (preview);
  g_autofree char *value = NULL;
  g_autofree char *record = NULL;
  BondUnit unit = bond_words_unit (preview, attempt->text.value[0].unit);

  bond_mark_image_set_mark (self->verdict_mark, bond_mark_for (preview, rule_of (self)));
  gtk_widget_set_visible (GTK_WIDGET (self->verdict_mark), TRUE);
  gtk_label_set_text (self->verdict_label, verdict);
  bond_reading_panel_set_ink (GTK_WIDGET (self->verdict_label), ink_of (preview));
  show_mean (self, preview, FALSE);
  if (preview->last != NULL && preview->last->outcome != BOND_OUTCOME_INCOMPLETE)
    value = bond_words_result (bond_walk_get_survey (self->walk), preview->last, unit, TRUE);
  else
    value = g_strconcat (attempt->text.value[0].text, NBSP, bond_unit_symbol (attempt->text.value[0].unit), NULL);
  record = g_strdup_printf (_ ("Record %s, %s"), value, verdict);
  gtk_label_set_text (self->record_label, record);
  gtk_widget_set_sensitive (self->record_button, TRUE);
  if (!self->asked && second != NULL)
    bond_reading_panel_say (self, NULL, second);
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
  show_forward (self, result);
  show_direction (self, result, point);
  if (*text == '\0')
    {
      show_nothing_typed (self, result);
      return;
    }
  if (!bond_walk_is_jump (text))
    bond_walk_try (self->walk, text, BOND_ANSWER_NONE, &attempt);
  if (attempt.preview != NULL)
    {
      show_preview (self, &attempt);
      return;
    }
  bond_mark_image_clear (self->verdict_mark);
  gtk_label_set_text (self->verdict_label, "");
  gtk_label_set_text (self->record_label, bond_walk_is_jump (text) ? _ ("Go to This Point") : _ ("Record"));
  gtk_widget_set_sensitive (self->record_button, TRUE);
  show_mean (self, NULL, FALSE);
}

/* --- questions --- */

static void
answer_cb (GtkButton *button, BondReadingPanel *self)
{
  BondAnswer answers = GPOINTER_TO_INT (g_object_get_data (G_OBJECT (button), "answers"));
  const char *text = g_object_get_data (G_OBJECT (button), "text");
  const char *range = g_object_get_data (G_OBJECT (button), "range");

  if (g_object_get_data (G_OBJECT (button), "mark") != NULL)
    bond_walk_accept_mark (self->walk);
  if (range != NULL)
    bond_walk_pin_range (self->walk, range);
  if (text != NULL)
    {
      g_autofree char *kept = g_strdup (text);

      gtk_editable_set_text (GTK_EDITABLE (self->entry), kept); /* this ends the question and its buttons */
    }
  clear_ask (self);
  bond_reading_panel_say (self, NULL, NULL);
  record_with (self, answers);
  bond_reading_panel_grab_field (self);
}

static void
again_cb (BondReadingPanel *self)
{
  clear_ask (self);
  bond_reading_panel_say (self, NULL, NULL);
  bond_reading_panel_grab_field (self);
  gtk_editable_select_region (GTK_EDITABLE (self->entry), 0, -1);
}

static GtkWidget *
add_answer (BondReadingPanel *self, const char *label, BondAnswer answers)
{
  GtkWidget *button = gtk_button_new_with_label (label);

  g_object_set_data (G_OBJECT (button), "answers", GINT_TO_POINTER (answers));
  bond_name_widget (button, label);
  g_signal_connect (button, "clicked", G_CALLBACK (answer_cb), self);
  gtk_flow_box_insert (self->ask_box, button, -1);
  gtk_widget_set_focusable (gtk_widget_get_parent (button), FALSE);
  return button;
}

static void
add_unit_answer (BondReadingPanel *self, const BondAttempt *attempt, BondUnit unit)
{
  const char *symbol = bond_unit_symbol (unit);
  g_autofree char *label = g_strconcat (attempt->text.value[0].text, NBSP, symbol, NULL);
  g_autofree char *text = NULL;

  if (attempt->text.n_values == 2)
    text = g_strconcat (attempt->text.value[0].text, symbol, " ", attempt->text.value[1].text, symbol, NULL);
  else
    text = g_strconcat (attempt->text.value[0].text, symbol, NULL);
  g_object_set_data_full (G_OBJECT (add_answer (self, label, BOND_ANSWER_UNIT)), "text", g_steal_pointer (&text),
                          g_free);
}

static void
add_range_answer (BondReadingPanel *self, const BondAttempt *attempt)
{
  const BondInstrument *instrument
      = bond_survey_find_instrument (bond_walk_get_survey (self->walk), bond_walk_get_pinned (self->walk)->instrument);
  const BondRange *range = attempt->range != NULL ? bond_instrument_find_range (instrument, attempt->range) : NULL;
  g_autofree char *end = NULL;
  g_autofree char *label = NULL;

  if (range == NULL)
    return;
  end = bond_words_quantity (&(BondQuantity){ .nohm = range->end }, bond_ohm_best_unit (range->end), 0);
  label = g_strdup_printf (_ ("%s Range"), end);
  g_object_set_data_full (G_OBJECT (add_answer (self, label, BOND_ANSWER_NONE)), "range", g_strdup (range->id), g_free);
}

static void
show_ask (BondReadingPanel *self, const BondAttempt *attempt)
{
  GtkWidget *again;

  clear_ask (self);
  bond_reading_panel_say (self, attempt->ask == BOND_ASK_ERROR ? "fail" : "guard", attempt->words);
  if (attempt->ask == BOND_ASK_ERROR)
    {
      bond_reading_entry_set_problem (self->entry, attempt->words);
      return;
    }
  if (attempt->ask == BOND_ASK_ZERO || attempt->ask == BOND_ASK_BELOW)
    {
      add_answer (self, _ ("Probes on Two Parts"), BOND_ANSWER_TWO_PARTS);
      add_answer (self, _ ("Not Sure"), BOND_ANSWER_NOT_SURE);
    }
  if (attempt->ask == BOND_ASK_MARK)
    g_object_set_data (G_OBJECT (add_answer (self, _ ("Decimal Mark"), BOND_ANSWER_NONE)), "mark", self);
  if (attempt->ask == BOND_ASK_UNIT)
    {
      add_unit_answer (self, attempt, attempt->other);
      add_unit_answer (self, attempt, attempt->text.value[0].unit);
    }
  if (attempt->ask == BOND_ASK_RANGE)
    add_range_answer (self, attempt);
  again = gtk_button_new_with_label (_ ("Type Again"));
  g_signal_connect_swapped (again, "clicked", G_CALLBACK (again_cb), self);
  gtk_flow_box_insert (self->ask_box, again, -1);
  gtk_widget_set_focusable (gtk_widget_get_parent (again), FALSE);
  gtk_widget_set_visible (GTK_WIDGET (self->ask_box), TRUE);
  self->asked = TRUE;
}

/* --- Enter --- */

static void
jump_to (BondReadingPanel *self, const char *text)
{
  g_autofree char *kept = g_strdup (text);
  g_autofree char *message = NULL;

  if (bond_walk_jump (self->walk, kept))
    {
      gtk_editable_set_text (GTK_EDITABLE (self->entry), "");
      return;
    }
  message = g_strdup_printf (_ ("There is no point %s in this survey."), kept);
  bond_reading_panel_say (self, "guard", message);
}

static gboolean
may_measure (BondReadingPanel *self)
{
  const char *read_only = bond_survey_get_read_only (bond_walk_get_survey (self->walk));
  g_autofree char *problem = NULL;

  if (read_only != NULL)
    {
      bond_reading_panel_say (self, "guard", read_only);
      return FALSE;
    }
  problem = bond_walk_instrument_problem (self->walk);
  if (problem != NULL)
    bond_reading_panel_say (self, "guard", problem);
  return problem == NULL;
}

static void
record_with (BondReadingPanel *self, BondAnswer answers)
{
  g_autofree char *text = g_strstrip (g_strdup (gtk_editable_get_text (GTK_EDITABLE (self->entry))));
  g_auto (BondAttempt) attempt = { 0 };

  if (*text == '\0')
    return;
  if (bond_walk_is_busy (self->walk))
    {
      self->enter_waits = TRUE;
      return;
    }
  if (bond_walk_is_jump (text))
    {
      jump_to (self, text);
      return;
    }
  if (!may_measure (self))
    return;
  bond_walk_try (self->walk, text, answers, &attempt);
  if (attempt.ask != BOND_ASK_NONE)
    {
      show_ask (self, &attempt);
      return;
    }
  bond_reading_panel_say (self, NULL, NULL);
  /* Empty first: a record that is answered at once moves the walk on, and the digits must not be tried there. */
  gtk_editable_set_text (GTK_EDITABLE (self->entry), "");
  bond_walk_record (self->walk, text, &attempt, answers);
}

void
bond_reading_panel_record (BondReadingPanel *self)
{
  g_return_if_fail (BOND_IS_READING_PANEL (self));
  if (!self->asked)
    record_with (self, BOND_ANSWER_NONE);
}

/* --- what came of it --- */

static char *
stopped_words (BondReadingPanel *self, const BondPlaceResult *result)
{
  BondUnit unit = bond_words_unit (result, BOND_UNIT_MILLIOHM);
  g_autofree char *found = NULL;

  if (result->last == NULL || result->last->outcome != BOND_OUTCOME_JUDGED)
    return bond_words_second_line (result);
  if (result->visual_reject && result->last->conforms)
    return g_strdup_printf (_ ("The resistance conforms; the point is rejected on its visual condition (%s)."),
                            bond_visual_name (result->visual));
  if (result->decides != NULL)
    found = bond_words_result (bond_walk_get_survey (self->walk), result->decides, unit, TRUE);
  if (result->last->conforms && result->intermittent)
    return g_strdup_printf (_ ("%s stands: the re-seated readings do not agree. It needs rework or a disposition."),
                            found);
  if (result->last->conforms)
    return g_strdup_printf (_ ("%s stands. A second re-seated reading that agrees makes it not confirmed."), found);
  return g_strdup (
      _ ("Type again with the joint not touched, or choose Rework. A repeat stands beside the fail; it does "
         "not clear it."));
}

static void
stopped_cb (BondReadingPanel *self)
{
  const BondPlaceResult *result = bond_walk_get_result (self->walk);
  g_autofree char *words = result != NULL ? stopped_words (self, result) : NULL;
  const char *ink = result != NULL && result->state == BOND_STATE_FAIL ? "fail" : "guard";

  self->enter_waits = FALSE; /* digits typed for the next point must not become a re-seat of this one */
  bond_reading_panel_refresh_entry (self);
  bond_reading_panel_say (self, ink, words);
}

static void
say_undone (BondReadingPanel *self, const BondEntry *entry)
{
  BondSurvey *survey = bond_walk_get_survey (self->walk);
  const BondEntry *target = bond_survey_find_entry (survey, entry->ref);
  BondPoint *point = entry->point != NULL ? bond_survey_find_point (survey, entry->point) : NULL;
  g_autofree char *words = NULL;

  if (target == NULL)
    return;
  self->keep_words = TRUE;
  if (point != NULL)
    bond_walk_go (self->walk, point, entry->place);
  if (target->kind == BOND_ENTRY_READING)
    {
      words
          = g_strdup_printf (_ ("Undone: %s %s on %s."), target->reading.text, bond_unit_symbol (target->reading.unit),
                             point != NULL ? bond_point_get_number (point) : "");
      gtk_editable_set_text (GTK_EDITABLE (self->entry), target->reading.text);
      gtk_editable_select_region (GTK_EDITABLE (self->entry), 0, -1);
    }
  else
    words = g_strdup_printf (target->kind == BOND_ENTRY_TAKE_BACK ? _ ("Done again%s%s.") : _ ("Undone%s%s."),
                             point != NULL ? ": " : "", point != NULL ? bond_point_get_number (point) : "");
  bond_reading_panel_say (self, NULL, words);
  self->keep_words = FALSE;
}

static void
recorded_cb (BondReadingPanel *self, BondEntry *entry)
{
  if (entry->kind == BOND_ENTRY_TAKE_BACK)
    say_undone (self, entry);
  else if (entry->kind == BOND_ENTRY_REWORK || entry->kind == BOND_ENTRY_CONDITION)
    bond_reading_panel_say (self, NULL, _ ("Recorded. Measure again; the limit above is the one that now applies."));
  else if (entry->kind == BOND_ENTRY_READING)
    bond_reading_panel_refresh_entry (self);
}

static gboolean
waiting_enter_cb (gpointer data)
{
  g_autoptr (BondReadingPanel) self = BOND_READING_PANEL (data);

  if (self->walk != NULL && self->enter_waits && !bond_walk_is_busy (self->walk))
    {
      self->enter_waits = FALSE;
      bond_reading_panel_record (self);
    }
  return G_SOURCE_REMOVE;
}

/* The walk has moved on (or stays, and then stopped_cb has dropped the Enter): only now the Enter that waited is done.
 */
static void
after_record_cb (BondReadingPanel *self)
{
  if (self->enter_waits)
    g_idle_add (waiting_enter_cb, g_object_ref (self));
}

static void
not_recorded_cb (BondReadingPanel *self, const char *text, const char *message)
{
  const char *typed = gtk_editable_get_text (GTK_EDITABLE (self->entry));
  g_autofree char *words = NULL;

  self->enter_waits = FALSE;
  if (text != NULL && *typed != '\0' && g_strcmp0 (typed, text) != 0)
    words = g_strdup_printf (_ ("%s “%s”, typed meanwhile, was not used."), message, typed);
  self->keep_words = TRUE;
  if (text != NULL)
    gtk_editable_set_text (GTK_EDITABLE (self->entry), text);
  gtk_editable_set_position (GTK_EDITABLE (self->entry), -1);
  self->keep_words = FALSE;
  bond_reading_panel_say (self, "fail", words != NULL ? words : message);
}

static void
walk_done_cb (BondReadingPanel *self)
{
  bond_reading_panel_say (self, NULL, _ ("Every point has a reading or a reason."));
}

static void
entry_changed_cb (BondReadingPanel *self)
{
  if (!self->keep_words)
    {
      clear_ask (self);
      if (*gtk_editable_get_text (GTK_EDITABLE (self->entry)) != '\0')
        bond_reading_panel_say (self, NULL, NULL);
    }
  bond_reading_panel_refresh_entry (self);
}

static void
verb_cb (BondReadingPanel *self, int letter)
{
  const char *action = bond_action_for_letter (letter);

  if (action != NULL)
    gtk_widget_activate_action (GTK_WIDGET (self), action, NULL);
}

static void
step_cb (BondReadingPanel *self, int by)
{
  bond_walk_step (self->walk, by);
}

static void
step_zone_cb (BondReadingPanel *self, int by)
{
  bond_walk_step_zone (self->walk, by);
}

static void
cancel_cb (BondReadingPanel *self)
{
  clear_ask (self);
  bond_reading_panel_say (self, NULL, NULL);
}

static char *
all_letters (void)
{
  gsize n;
  const BondActionInfo *info = bond_actions (&n);
  GString *letters = g_string_new (NULL);

  for (gsize i = 0; i < n; i++)
    if (info[i].letter != 0)
      g_string_append_c (letters, info[i].letter);
  return g_string_free (letters, FALSE);
}

void
bond_reading_panel_connect_entry (BondReadingPanel *self)
{
  g_autofree char *letters = all_letters ();

  bond_reading_entry_set_verbs (self->entry, letters);
  g_signal_connect_swapped (self->entry, "changed", G_CALLBACK (entry_changed_cb), self);
  g_signal_connect_swapped (self->entry, "record", G_CALLBACK (bond_reading_panel_record), self);
  g_signal_connect_swapped (self->entry, "jump", G_CALLBACK (jump_to), self);
  g_signal_connect_swapped (self->entry, "verb", G_CALLBACK (verb_cb), self);
  g_signal_connect_swapped (self->entry, "step", G_CALLBACK (step_cb), self);
  g_signal_connect_swapped (self->entry, "step-zone", G_CALLBACK (step_zone_cb), self);
  g_signal_connect_swapped (self->entry, "cancel", G_CALLBACK (cancel_cb), self);
  g_signal_connect_swapped (self->walk, "recorded", G_CALLBACK (recorded_cb), self);
  g_signal_connect_object (self->walk, "recorded", G_CALLBACK (after_record_cb), self,
                           G_CONNECT_SWAPPED | G_CONNECT_AFTER);
  g_signal_connect_swapped (self->walk, "stopped", G_CALLBACK (stopped_cb), self);
  g_signal_connect_swapped (self->walk, "walk-done", G_CALLBACK (walk_done_cb), self);
  g_signal_connect_swapped (self->walk, "not-recorded", G_CALLBACK (not_recorded_cb), self);
}
