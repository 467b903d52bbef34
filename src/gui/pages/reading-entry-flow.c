/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * From the first digit to the record: the verdict while typing, the questions that
 * Enter may raise, and what is said afterwards.  Nothing is stored until Enter; a
 * text that could not be written comes back into the field.
 */
#include "gui/actions.h"
#include "gui/gate.h"
#include "gui/pages/reading-panel-private.h"
#include "gui/spoken.h"
#include "gui/taste.h"
#include "gui/undo-words.h"
#include "gui/words.h"
#include <glib/gi18n-lib.h>

static void
show_say (BondReadingPanel *self, const char *css, const char *text)
{
  GtkWidget *label = GTK_WIDGET (self->say_label);

  self->refused = FALSE;
  gtk_widget_remove_css_class (label, "band");
  bond_reading_panel_set_ink (label, css);
  if (css != NULL)
    gtk_widget_add_css_class (label, "band");
  (css != NULL ? gtk_widget_remove_css_class : gtk_widget_add_css_class) (label, "note");
  gtk_label_set_text (self->say_label, text != NULL ? text : "");
  gtk_widget_set_visible (label, text != NULL && *text != '\0');
  bond_reading_panel_reveal (self);
}

void
bond_reading_panel_whisper (BondReadingPanel *self, const char *text)
{
  show_say (self, NULL, text);
}

void
bond_reading_panel_say (BondReadingPanel *self, const char *css, const char *text)
{
  g_return_if_fail (BOND_IS_READING_PANEL (self));
  show_say (self, css, text);
  if (text != NULL && *text != '\0')
    {
      g_autofree char *spoken = bond_reading_panel_spoken (self, text);

      bond_reading_entry_say (self->entry, spoken);
    }
}

char *
bond_reading_panel_spoken (BondReadingPanel *self, const char *text)
{
  return bond_spoken_sentence (bond_walk_get_survey (self->walk), bond_walk_get_point (self->walk), text);
}

void
bond_reading_panel_say_and_go (BondReadingPanel *self, const char *text)
{
  g_free (self->spoken);
  self->spoken = bond_reading_panel_spoken (self, text);
  if (!bond_walk_next_open (self->walk))
    bond_walk_step (self->walk, 1);
  show_say (self, NULL, text);
  bond_reading_panel_speak (self, NULL);
}

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

gboolean
bond_reading_panel_may_write (BondReadingPanel *self)
{
  const char *read_only;

  g_return_val_if_fail (BOND_IS_READING_PANEL (self), FALSE);
  read_only = bond_survey_get_read_only (bond_walk_get_survey (self->walk));
  if (read_only != NULL)
    bond_reading_panel_say (self, "guard", read_only);
  self->refused = read_only != NULL;
  return read_only == NULL;
}

/* The other program has closed the survey, say: a sentence that names it must not stand. */
static void
header_changed_cb (BondReadingPanel *self)
{
  if (self->refused && gtk_widget_get_visible (GTK_WIDGET (self->say_label)))
    bond_reading_panel_may_write (self);
}

static gboolean
may_measure (BondReadingPanel *self)
{
  g_autofree char *problem = NULL;

  if (!bond_reading_panel_may_write (self))
    return FALSE;
  problem = bond_walk_instrument_problem (self->walk);
  if (problem == NULL)
    problem = bond_gate_problem (self->walk);
  if (problem != NULL)
    bond_reading_panel_say (self, "guard", problem);
  return problem == NULL;
}

void
bond_reading_panel_record_with (BondReadingPanel *self, BondAnswer answers)
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
      bond_reading_panel_ask (self, &attempt);
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
    bond_reading_panel_record_with (self, BOND_ANSWER_NONE);
}

/* --- what came of it --- */

/* Said last, so that it is what a screen reader speaks. */
void
bond_reading_panel_speak (BondReadingPanel *self, const char *more)
{
  g_autofree char *text = NULL;

  if (self->spoken == NULL)
    return;
  text = more != NULL ? g_strconcat (self->spoken, " ", more, NULL) : g_strdup (self->spoken);
  g_clear_pointer (&self->spoken, g_free);
  bond_reading_entry_say (self->entry, text);
}

static void
stopped_cb (BondReadingPanel *self)
{
  const BondPlaceResult *result = bond_walk_get_result (self->walk);
  g_autofree char *words = result != NULL ? bond_reading_panel_stopped_words (self, result) : NULL;
  g_autofree char *more = NULL;
  BondSurvey *survey = bond_walk_get_survey (self->walk);
  gboolean fails = result != NULL && result->state == BOND_STATE_FAIL;
  const char *ink = fails ? "fail" : "guard";

  self->enter_waits = FALSE; /* digits typed for the next point must not become a re-seat of this one */
  bond_reading_panel_refresh_entry (self);
  bond_reading_panel_say (self, ink, words);
  if (result != NULL && result->last != NULL && result->last->reason == BOND_REASON_WRONG_STATE)
    {
      bond_reading_panel_offer (self, _ ("Read Again"), "win.read-again");
      bond_reading_panel_offer (self, _ ("Accept Deviation…"), "win.accept-deviation");
    }
  if (result != NULL && result->freed && !fails)
    bond_reading_panel_offer (self, _ ("Joint Opened…"), "win.condition");
  more = words != NULL ? bond_spoken_sentence (survey, NULL, words) : NULL;
  bond_reading_panel_speak (self, fails ? _ ("Type again to re-seat, or W rework, L leave, V void.") : more);
}

/* A take-back of a take-back: what was undone stands again. */
static char *
done_again_words (BondSurvey *survey, const BondEntry *take_back)
{
  const BondEntry *target = bond_survey_find_entry (survey, take_back->ref);
  g_autofree char *what = target != NULL ? bond_undo_what (survey, target) : g_strdup ("");

  return g_strdup_printf (_ ("Done again: %s."), what);
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
      g_autofree char *shown = bond_walk_shown (&target->reading);
      g_autofree char *again = bond_walk_text_again (self->walk, &target->reading);

      words = g_strdup_printf (_ ("Undone: %s on %s."), shown, point != NULL ? bond_point_get_number (point) : "");
      gtk_editable_set_text (GTK_EDITABLE (self->entry), again);
      gtk_editable_select_region (GTK_EDITABLE (self->entry), 0, -1);
    }
  else if (target->kind == BOND_ENTRY_TAKE_BACK)
    words = done_again_words (survey, target);
  else
    {
      g_autofree char *what = bond_undo_what (survey, target);

      words = g_strdup_printf (_ ("Undone: %s."), what);
    }
  bond_reading_panel_say (self, NULL, words);
  self->keep_words = FALSE;
}

static gboolean
is_here (BondReadingPanel *self, const BondEntry *entry)
{
  BondPoint *point = bond_walk_get_point (self->walk);

  return point != NULL && g_strcmp0 (entry->point, bond_point_get_id (point)) == 0;
}

/* A point that was given its reason or its disposition is settled: on to the next. */
static gboolean
settles (const BondEntry *entry)
{
  return entry->kind == BOND_ENTRY_DISPOSITION
         || (entry->kind == BOND_ENTRY_STATE && entry->state.mark != BOND_POINT_MARK_NONE);
}

/* What made a reading wait is done, and its sentence must go. */
static char *
no_longer_waits (BondReadingPanel *self)
{
  g_autofree char *problem = bond_gate_problem (self->walk);

  if (problem != NULL)
    return g_steal_pointer (&problem);
  return *gtk_editable_get_text (GTK_EDITABLE (self->entry)) != '\0'
             ? g_strdup (_ ("Nothing waits any more. Enter records what you typed."))
             : NULL;
}

/* A strap that measures well with a leg broken asks for an explanation. */
static char *
visual_words (BondReadingPanel *self, const BondEntry *entry, const char *what)
{
  BondSurvey *survey = bond_walk_get_survey (self->walk);
  BondPoint *point = bond_survey_find_point (survey, entry->point);
  const BondPlaceResult *place = point != NULL ? bond_point_get_place (point, entry->place) : NULL;
  g_autofree char *strap = place != NULL ? bond_words_strap (survey, place) : NULL;

  return strap != NULL ? g_strdup_printf (_ ("Recorded: %s. %s"), what, strap)
                       : g_strdup_printf (_ ("Recorded: %s."), what);
}

static void
say_act (BondReadingPanel *self, const BondEntry *entry)
{
  g_autofree char *what = bond_undo_what (bond_walk_get_survey (self->walk), entry);
  g_autofree char *words = NULL;

  if (entry->kind == BOND_ENTRY_REFERENCE)
    words = g_strdup_printf (_ ("Reference clip at %s from the next reading on."), entry->reference_move.to);
  else if (entry->kind == BOND_ENTRY_VISUAL)
    words = visual_words (self, entry, what);
  else if (bond_entry_kind_info (entry->kind)->content)
    words = g_strdup_printf (_ ("Recorded: %s."), what);
  else if (entry->kind == BOND_ENTRY_CAUTION)
    words = no_longer_waits (self);
  else
    return;
  if (settles (entry) && is_here (self, entry))
    bond_reading_panel_say_and_go (self, words);
  else
    bond_reading_panel_say (self, NULL, words);
}

static void
recorded_cb (BondReadingPanel *self, BondEntry *entry)
{
  BondSurvey *survey = bond_walk_get_survey (self->walk);
  BondPoint *point = entry->point != NULL ? bond_survey_find_point (survey, entry->point) : NULL;
  const BondPlaceResult *result = point != NULL ? bond_point_get_place (point, entry->place) : NULL;

  if (entry->kind == BOND_ENTRY_TAKE_BACK)
    say_undone (self, entry);
  else if (entry->kind == BOND_ENTRY_REWORK || entry->kind == BOND_ENTRY_CONDITION)
    bond_reading_panel_say (self, NULL, _ ("Recorded. Measure again; the limit above is the one that now applies."));
  else if (entry->kind != BOND_ENTRY_READING)
    say_act (self, entry);
  else
    {
      bond_reading_panel_refresh_entry (self);
      g_free (self->spoken);
      self->spoken = result != NULL ? bond_spoken_result (survey, point, result) : NULL;
      if (result != NULL && result->last != NULL && result->last->outcome == BOND_OUTCOME_INCOMPLETE)
        bond_reading_panel_speak (self, NULL); /* the walk stays without a word */
    }
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
  bond_reading_panel_clear_ask (self);
  bond_reading_panel_say (self, "fail", words != NULL ? words : message);
  if (text == NULL || !bond_walk_write_failed (self->walk))
    return;
  bond_reading_panel_offer (self, _ ("Try Again"), "win.record");
  bond_reading_panel_offer (self, _ ("Save Copy…"), "win.save-copy");
}

static void
walk_done_cb (BondReadingPanel *self)
{
  guint hidden = bond_walk_n_hidden_open (self->walk);
  g_autofree char *words
      = hidden == 0
            ? g_strdup (_ ("Every point has a reading or a reason."))
            : g_strdup_printf (ngettext ("Every point shown has a reading or a reason; %u open point is not shown.",
                                         "Every point shown has a reading or a reason; %u open points are not "
                                         "shown.",
                                         hidden),
                               hidden);

  bond_reading_panel_say (self, NULL, words);
  bond_reading_panel_speak (self, words);
}

static void
entry_changed_cb (BondReadingPanel *self)
{
  if (!self->keep_words)
    {
      bond_reading_panel_clear_ask (self);
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

/* Esc on an empty field: a question goes; without one a fail is left as it is. */
static void
cancel_cb (BondReadingPanel *self)
{
  const BondPlaceResult *result = bond_walk_get_result (self->walk);

  if (!self->asked && result != NULL && result->state == BOND_STATE_FAIL)
    {
      bond_reading_panel_leave (self);
      return;
    }
  bond_reading_panel_clear_ask (self);
  bond_reading_panel_say (self, NULL, NULL);
  bond_reading_panel_refresh_entry (self);
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

/* Single letters are a matter of taste. */
static void
letters_changed_cb (BondReadingPanel *self)
{
  g_autofree char *letters = all_letters ();

  bond_reading_entry_set_verbs (self->entry, bond_taste_is (bond_taste_get (), "letters") ? letters : NULL);
}

void
bond_reading_panel_connect_entry (BondReadingPanel *self)
{
  g_signal_connect_object (bond_taste_get (), "notify::letters", G_CALLBACK (letters_changed_cb), self,
                           G_CONNECT_SWAPPED);
  letters_changed_cb (self);
  g_signal_connect_swapped (self->entry, "changed", G_CALLBACK (entry_changed_cb), self);
  g_signal_connect_swapped (self->entry, "record", G_CALLBACK (bond_reading_panel_record), self);
  g_signal_connect_swapped (self->entry, "jump", G_CALLBACK (jump_to), self);
  g_signal_connect_swapped (self->entry, "verb", G_CALLBACK (verb_cb), self);
  g_signal_connect_swapped (self->entry, "step", G_CALLBACK (step_cb), self);
  g_signal_connect_swapped (self->entry, "step-zone", G_CALLBACK (step_zone_cb), self);
  g_signal_connect_swapped (self->entry, "cancel", G_CALLBACK (cancel_cb), self);
  g_signal_connect_swapped (bond_walk_get_survey (self->walk), "header-changed", G_CALLBACK (header_changed_cb), self);
  g_signal_connect_swapped (self->walk, "recorded", G_CALLBACK (recorded_cb), self);
  g_signal_connect_object (self->walk, "recorded", G_CALLBACK (after_record_cb), self,
                           G_CONNECT_SWAPPED | G_CONNECT_AFTER);
  g_signal_connect_swapped (self->walk, "stopped", G_CALLBACK (stopped_cb), self);
  g_signal_connect_swapped (self->walk, "walk-done", G_CALLBACK (walk_done_cb), self);
  g_signal_connect_swapped (self->walk, "not-recorded", G_CALLBACK (not_recorded_cb), self);
}
