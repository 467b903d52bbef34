/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * A reading beyond its limit leaves the result for four reasons only (wrong point,
 * typing slip, wrong unit, instrument fault); poor contact is none of them.  "Other"
 * is there for readings that conform or have no verdict, and needs words.
 */
#include "gui/dialogs/void-dialog.h"
#include "gui/dialogs/act-form.h"
#include "gui/undo-words.h"
#include "gui/words.h"
#include <glib/gi18n-lib.h>

/* Lines a reason needs. */
enum
{
  NEEDS_POINT = 1 << 0, /* where the reading belongs */
  NEEDS_SHOWN = 1 << 1, /* what the meter showed; both are printed */
  NEEDS_WORDS = 1 << 2,
};

static const struct
{
  BondVoidReason why;
  guint needs;
} reasons[] = {
  { BOND_VOID_WRONG_POINT, NEEDS_POINT }, { BOND_VOID_TYPING_SLIP, NEEDS_SHOWN },
  { BOND_VOID_WRONG_UNIT, NEEDS_SHOWN },  { BOND_VOID_INSTRUMENT_FAULT, NEEDS_WORDS },
  { BOND_VOID_OTHER, NEEDS_WORDS },
};

typedef struct
{
  BondActForm base;
  GPtrArray *readings; /* of BondEntry: what can be voided, newest first */
  GtkDropDown *which;
  GtkCheckButton *why[G_N_ELEMENTS (reasons)];
  GtkEditable *to_point, *shown, *words; /* the first two are not asked of an undo */
} Form;

static void
form_free (gpointer data)
{
  Form *form = data;

  g_clear_pointer (&form->readings, g_ptr_array_unref);
  bond_act_form_free (form);
}

/* Row of the reason that is ticked, G_N_ELEMENTS (reasons) = none. */
static gsize
chosen_row (const Form *form)
{
  gsize i = 0;

  while (i < G_N_ELEMENTS (reasons) && (form->why[i] == NULL || !gtk_check_button_get_active (form->why[i])))
    i++;
  return i;
}

static BondVoidReason
chosen_reason (const Form *form)
{
  gsize i = chosen_row (form);

  return i < G_N_ELEMENTS (reasons) ? reasons[i].why : BOND_VOID_NONE;
}

/* A line that is not asked for counts for nothing, whatever was typed into it before. */
static char *
asked_text (const Form *form, guint line, GtkEditable *editable)
{
  gsize i = chosen_row (form);

  return i < G_N_ELEMENTS (reasons) && (reasons[i].needs & line) != 0 ? bond_dialog_text (editable) : NULL;
}

static void
chosen_reason_cb (Form *form)
{
  gsize i = chosen_row (form);
  guint needs = i < G_N_ELEMENTS (reasons) ? reasons[i].needs : 0;

  bond_act_form_show_row (form->to_point, (needs & NEEDS_POINT) != 0, NULL);
  bond_act_form_show_row (form->shown, (needs & NEEDS_SHOWN) != 0, NULL);
  bond_act_form_show_row (form->words, (needs & NEEDS_WORDS) != 0, NULL);
}

static void
add_reasons (BondDialog *dialog, Form *form, gboolean with_other)
{
  for (gsize i = 0; i < G_N_ELEMENTS (reasons); i++)
    {
      g_autofree char *name = bond_words_sentence (bond_void_reason_name (reasons[i].why));

      if (with_other || reasons[i].why != BOND_VOID_OTHER)
        form->why[i] = bond_dialog_add_radio (dialog, name, i > 0 ? form->why[0] : NULL);
    }
  gtk_check_button_set_active (form->why[0], FALSE);
}

/* --- void, correct, move --- */

static const BondReading *
reading_of (gpointer entry)
{
  return bond_entry_get_reading (entry);
}

static BondEntry *
new_act (Form *form, const BondEntry *target, BondEntryKind kind)
{
  BondEntry *entry = bond_act_form_entry (&form->base, kind);

  entry->ref = g_strdup (target->id);
  entry->reason = asked_text (form, NEEDS_WORDS, form->words);
  return entry;
}

static gboolean
move_act (BondDialog *dialog, Form *form, const BondEntry *target)
{
  BondSurvey *survey = bond_walk_get_survey (form->base.walk);
  g_autofree char *number = bond_dialog_text (form->to_point);
  g_autofree char *upper = number != NULL ? g_ascii_strup (number, -1) : NULL;
  BondPoint *to = upper != NULL ? bond_survey_find_number (survey, upper) : NULL;
  BondEntry *entry;

  if (to == NULL || to == form->base.point)
    return bond_act_form_need (dialog, form->to_point, _ ("Say which point it was; the reading moves there."));
  entry = new_act (form, target, BOND_ENTRY_MOVE);
  entry->move.why = BOND_VOID_WRONG_POINT;
  entry->move.to_point = g_strdup (bond_point_get_id (to));
  entry->move.to_place = g_strdup (bond_point_next_place (to));
  return bond_act_form_record (dialog, &form->base, entry);
}

/* What the meter showed, in place of what was typed. */
static gboolean
correct_act (BondDialog *dialog, Form *form, const BondEntry *target, BondVoidReason why, const char *text)
{
  const BondReading *old = reading_of ((gpointer)target);
  BondNumberFormat format = { .mark = bond_locale_mark (), .other_is_decimal = FALSE };
  BondReadingText parsed;
  g_autoptr (GError) error = NULL;
  BondEntry *entry;

  if (!bond_reading_text_parse (text, old->unit, &format, 0, 0, &parsed, &error))
    return bond_act_form_need (dialog, form->shown, error->message);
  entry = new_act (form, target, BOND_ENTRY_CORRECT);
  entry->correct.why = why;
  bond_reading_copy (&entry->correct.reading, old);
  g_clear_pointer (&entry->correct.reading.said, g_free);
  bond_reading_set_typed (&entry->correct.reading, &parsed.value[0]);
  bond_reading_text_clear (&parsed);
  return bond_act_form_record (dialog, &form->base, entry);
}

static gboolean
void_act (BondDialog *dialog, gpointer data)
{
  Form *form = data;
  BondEntry *target = g_ptr_array_index (form->readings, gtk_drop_down_get_selected (form->which));
  BondVoidReason why = chosen_reason (form);
  g_autofree char *shown = asked_text (form, NEEDS_SHOWN, form->shown);
  g_autofree char *words = asked_text (form, NEEDS_WORDS, form->words);
  BondEntry *entry;

  if (why == BOND_VOID_NONE)
    {
      bond_dialog_set_problem (dialog, _ ("Say why this reading is void; it stays in the record."));
      return FALSE;
    }
  if (why == BOND_VOID_OTHER && words == NULL)
    return bond_act_form_need (dialog, form->words, _ ("“Other” needs words."));
  if (why == BOND_VOID_WRONG_POINT)
    return move_act (dialog, form, target);
  if (shown != NULL)
    return correct_act (dialog, form, target, why, shown);
  entry = new_act (form, target, BOND_ENTRY_VOID);
  entry->voided.why = why;
  return bond_act_form_record (dialog, &form->base, entry);
}

static void
collect_readings (Form *form, const BondPlaceResult *result)
{
  for (guint i = result->history->len; i-- > 0;)
    {
      const BondHistoryItem *item = g_ptr_array_index (result->history, i);

      if (item->measurement == NULL || item->voided || item->taken_back || item->moved_away)
        continue;
      for (guint j = item->measurement->readings->len; j-- > 0;)
        g_ptr_array_add (form->readings, bond_entry_ref (g_ptr_array_index (item->measurement->readings, j)));
    }
}

static void
add_which (BondDialog *dialog, Form *form)
{
  static const char *const directions[] = { N_ ("forward"), N_ ("reverse"), N_ ("repeat") };
  g_autoptr (GPtrArray) names = g_ptr_array_new_with_free_func (g_free);

  for (guint i = 0; i < form->readings->len; i++)
    {
      BondEntry *entry = g_ptr_array_index (form->readings, i);
      const BondReading *reading = reading_of (entry);
      g_autofree char *clock = bond_words_clock (entry->at);

      g_ptr_array_add (names, g_strdup_printf ("%s %s, %s, %s", reading->text, bond_unit_symbol (reading->unit),
                                               _ (directions[reading->direction]), clock));
    }
  g_ptr_array_add (names, NULL);
  form->which = bond_dialog_add_choice (dialog, _ ("_Reading"), (const char *const *)names->pdata, 0);
}

/* "Other" is for a reading that is no evidence of a defect: it comes and goes with the reading chosen. */
static void
chosen_reading_cb (Form *form)
{
  BondEntry *target = g_ptr_array_index (form->readings, gtk_drop_down_get_selected (form->which));
  GtkCheckButton *other = form->why[G_N_ELEMENTS (reasons) - 1];
  gboolean evidence = bond_survey_undo_needs_reason (bond_walk_get_survey (form->base.walk), target);

  if (evidence)
    gtk_check_button_set_active (other, FALSE);
  gtk_widget_set_visible (GTK_WIDGET (other), !evidence);
}

void
bond_void_dialog (GtkWindow *parent, BondWalk *walk)
{
  const BondPlaceResult *result = bond_walk_get_result (walk);
  BondDialog *dialog;
  Form *form;

  if (result == NULL)
    return;
  form = bond_act_form_new (walk, sizeof (Form));
  form->readings = g_ptr_array_new_with_free_func ((GDestroyNotify)bond_entry_unref);
  collect_readings (form, result);
  if (form->readings->len == 0)
    {
      bond_message (parent, _ ("Void Reading"), _ ("There is no reading of this point to void."));
      form_free (form);
      return;
    }
  dialog = bond_act_form_open (parent, form, _ ("Void Reading"), _ ("Record"), void_act, form_free);
  add_which (dialog, form);
  add_reasons (dialog, form, TRUE);
  chosen_reading_cb (form);
  g_signal_connect_swapped (form->which, "notify::selected", G_CALLBACK (chosen_reading_cb), form);
  form->to_point = bond_dialog_add_entry (dialog, _ ("Right _point"), NULL);
  form->shown = bond_dialog_add_entry (dialog, _ ("What the _meter showed"), NULL);
  form->words = bond_dialog_add_entry (dialog, _ ("_Words"), NULL);
  for (gsize i = 0; i < G_N_ELEMENTS (reasons); i++)
    g_signal_connect_swapped (form->why[i], "toggled", G_CALLBACK (chosen_reason_cb), form);
  chosen_reason_cb (form);
  bond_dialog_add_text (dialog, _ ("The reading stays in the record, struck through, and is printed with the reason."));
  gtk_window_present (GTK_WINDOW (dialog));
}

/* --- undo --- */

static gboolean
undo_act (BondDialog *dialog, gpointer data)
{
  Form *form = data;
  BondVoidReason why = chosen_reason (form);
  g_autofree char *words = bond_dialog_text (form->words);

  if (why == BOND_VOID_NONE)
    {
      bond_dialog_set_problem (dialog, _ ("A reading that does not conform is evidence. Say why it is taken back."));
      return FALSE;
    }
  bond_walk_undo (form->base.walk, why, words);
  return TRUE;
}

void
bond_undo (GtkWindow *parent, BondWalk *walk)
{
  BondSurvey *survey = bond_walk_get_survey (walk);
  BondEntry *target = bond_survey_undo_target (survey);
  g_autofree char *what = NULL;
  BondDialog *dialog;
  Form *form;

  /* What is on its way to the disk is not the newest entry yet: another one would be undone. */
  if (bond_survey_is_busy (survey))
    {
      gtk_widget_error_bell (GTK_WIDGET (parent));
      return;
    }
  if (target == NULL)
    {
      bond_message (
          parent, _ ("Undo"),
          _ ("There is nothing of yours to undo in this sitting. Earlier readings can be voided or corrected."));
      return;
    }
  if (!bond_survey_undo_needs_reason (survey, target))
    {
      bond_walk_undo (walk, BOND_VOID_NONE, NULL);
      return;
    }
  form = bond_act_form_new (walk, sizeof (Form));
  what = bond_undo_words (survey);
  dialog = bond_dialog_new (parent, what, _ ("Undo"), undo_act, form, form_free);
  bond_dialog_add_text (dialog, _ ("This does not conform. It stays in the record and is printed, with the reason."));
  add_reasons (dialog, form, FALSE);
  form->words = bond_dialog_add_entry (dialog, _ ("_Words"), NULL);
  gtk_window_present (GTK_WINDOW (dialog));
}
