/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * The small forms about the point.  Words that the record needs are asked for here,
 * so that core's refusal is never the first the inspector hears of it.
 */
#include "gui/dialogs/point-acts.h"
#include "gui/dialogs/act-form.h"
#include "gui/words.h"
#include <glib/gi18n-lib.h>

/* --- not accessible and its sisters --- */

static const struct
{
  BondPointMark mark;
  const char *label;
} marks[] = {
  { BOND_POINT_MARK_NOT_ACCESSIBLE, N_ ("Not accessible: stays open") },
  { BOND_POINT_MARK_NOT_FITTED, N_ ("Not fitted on this aircraft") },
  { BOND_POINT_MARK_NOT_APPLICABLE, N_ ("Not applicable to this survey") },
  { BOND_POINT_MARK_NOT_IN_SAMPLE, N_ ("Not in the sample") },
  { BOND_POINT_MARK_NONE, N_ ("None of these: measure it") },
};

typedef struct
{
  BondActForm base;
  GtkCheckButton *check[G_N_ELEMENTS (marks)];
  GtkEditable *why;
} StateForm;

static gboolean
state_act (BondDialog *dialog, gpointer data)
{
  StateForm *form = data;
  g_autofree char *words = bond_dialog_text (form->why);
  BondPointMark mark = BOND_POINT_MARK_NONE;
  BondEntry *entry;

  for (gsize i = 0; i < G_N_ELEMENTS (marks); i++)
    if (gtk_check_button_get_active (form->check[i]))
      mark = marks[i].mark;
  if (words == NULL && mark != BOND_POINT_MARK_NONE)
    return bond_act_form_need (dialog, form->why, _ ("Say why; it is printed in the report."));
  entry = bond_act_form_entry (&form->base, BOND_ENTRY_STATE);
  entry->state.mark = mark;
  entry->reason = g_steal_pointer (&words);
  return bond_act_form_record (dialog, &form->base, entry);
}

void
bond_state_dialog (GtkWindow *parent, BondWalk *walk)
{
  StateForm *form = bond_act_form_new (walk, sizeof (StateForm));
  BondDialog *dialog;

  g_return_if_fail (form != NULL);
  dialog = bond_act_form_open (parent, form, _ ("Not Measured"), _ ("Record"), state_act, bond_act_form_free);
  for (gsize i = 0; i < G_N_ELEMENTS (marks); i++)
    form->check[i] = bond_dialog_add_radio (dialog, _ (marks[i].label), i > 0 ? form->check[0] : NULL);
  form->why = bond_dialog_add_entry (dialog, _ ("_Why"), NULL);
  bond_dialog_add_text (dialog,
                        _ ("A point that is not accessible stays open: the survey can only be signed as incomplete. "
                           "Not fitted and not applicable leave the count."));
  gtk_window_present (GTK_WINDOW (dialog));
  gtk_widget_grab_focus (GTK_WIDGET (form->why));
}

/* --- visual condition --- */

static const BondVisualFinding findings[] = {
  BOND_VISUAL_GOOD,    BOND_VISUAL_CORROSION, BOND_VISUAL_PAINT, BOND_VISUAL_SEALANT,
  BOND_VISUAL_LOOSE,   BOND_VISUAL_STRANDS,   BOND_VISUAL_FILM,  BOND_VISUAL_LEG_BROKEN,
  BOND_VISUAL_MISSING, BOND_VISUAL_PRESENT,   BOND_VISUAL_OTHER,
};

typedef struct
{
  BondActForm base;
  GtkDropDown *finding;
  GtkEditable *percent, *words;
  GtkCheckButton *reject;
  GtkLabel *strands;
} VisualForm;

/* A whole number from 0 to 100, −1 when nothing was typed, −2 when it is neither. */
static int
percent_of (GtkEditable *editable)
{
  g_autofree char *text = bond_dialog_text (editable);
  guint64 value;

  if (text == NULL)
    return -1;
  return g_ascii_string_to_unsigned (text, 10, 0, 100, &value, NULL) ? (int)value : -2;
}

static gboolean
visual_act (BondDialog *dialog, gpointer data)
{
  VisualForm *form = data;
  BondVisualFinding finding = findings[gtk_drop_down_get_selected (form->finding)];
  int percent = percent_of (form->percent);
  g_autofree char *words = bond_dialog_text (form->words);
  BondEntry *entry;

  if (percent == -2)
    return bond_act_form_need (dialog, form->percent, _ ("The share is a whole number from 0 to 100."));
  if (finding == BOND_VISUAL_STRANDS && percent < 0)
    return bond_act_form_need (dialog, form->percent, _ ("Say how many of the strands are broken, in per cent."));
  if (finding == BOND_VISUAL_OTHER && words == NULL)
    return bond_act_form_need (dialog, form->words, _ ("“Other” needs words."));
  entry = bond_act_form_entry (&form->base, BOND_ENTRY_VISUAL);
  entry->visual.finding = finding;
  entry->visual.percent = percent;
  entry->visual.reject = gtk_check_button_get_active (form->reject);
  entry->reason = g_steal_pointer (&words);
  return bond_act_form_record (dialog, &form->base, entry);
}

/* Broken strands are held against the house limit; every other defect proposes to reject, and the person decides. */
static void
finding_changed_cb (VisualForm *form)
{
  BondVisualFinding finding = findings[gtk_drop_down_get_selected (form->finding)];
  int limit = bond_survey_get_house (bond_walk_get_survey (form->base.walk))->strands_percent;
  int percent = percent_of (form->percent);
  g_autofree char *words = NULL;

  if (finding != BOND_VISUAL_STRANDS)
    {
      gtk_check_button_set_active (form->reject, finding != BOND_VISUAL_GOOD);
      gtk_label_set_text (form->strands, "");
    }
  else
    {
      gtk_check_button_set_active (form->reject, percent > limit);
      if (percent < 0)
        words = g_strdup_printf (_ ("The house limit is %d\302\240%% of the strands broken."), limit);
      else
        words = g_strdup_printf (percent > limit ? _ ("%d\302\240%% of the strands: above the house limit of "
                                                      "%d\302\240%%.")
                                                 : _ ("%d\302\240%% of the strands: within the house limit of "
                                                      "%d\302\240%%."),
                                 percent, limit);
      gtk_label_set_text (form->strands, words);
    }
  gtk_widget_set_visible (GTK_WIDGET (form->strands), finding == BOND_VISUAL_STRANDS);
}

void
bond_visual_dialog (GtkWindow *parent, BondWalk *walk)
{
  VisualForm *form = bond_act_form_new (walk, sizeof (VisualForm));
  g_autoptr (GPtrArray) names = g_ptr_array_new_with_free_func (g_free);
  BondDialog *dialog;

  g_return_if_fail (form != NULL);
  for (gsize i = 0; i < G_N_ELEMENTS (findings); i++)
    g_ptr_array_add (names, bond_words_sentence (bond_visual_name (findings[i])));
  g_ptr_array_add (names, NULL);
  dialog = bond_act_form_open (parent, form, _ ("Visual Condition"), _ ("Record"), visual_act, bond_act_form_free);
  form->finding = bond_dialog_add_choice (dialog, _ ("_Finding"), (const char *const *)names->pdata, 0);
  form->percent = bond_dialog_add_entry (dialog, _ ("_Share in per cent, if any"), NULL);
  form->strands = bond_dialog_add_text (dialog, "");
  form->words = bond_dialog_add_entry (dialog, _ ("_Words"), NULL);
  form->reject = bond_dialog_add_check (dialog, _ ("Rejects the point, whatever it measures"), FALSE);
  g_signal_connect_swapped (form->finding, "notify::selected", G_CALLBACK (finding_changed_cb), form);
  g_signal_connect_swapped (form->percent, "changed", G_CALLBACK (finding_changed_cb), form);
  finding_changed_cb (form);
  gtk_window_present (GTK_WINDOW (dialog));
}

/* --- note --- */

typedef struct
{
  BondActForm base;
  GtkTextView *note;
} NoteForm;

static gboolean
note_act (BondDialog *dialog, gpointer data)
{
  NoteForm *form = data;
  g_autofree char *words = bond_dialog_note_text (form->note);
  BondEntry *entry;

  if (words == NULL)
    return bond_act_form_need (dialog, form->note, _ ("The note is empty."));
  entry = bond_act_form_entry (&form->base, BOND_ENTRY_NOTE);
  entry->note.text = g_steal_pointer (&words);
  return bond_act_form_record (dialog, &form->base, entry);
}

void
bond_note_dialog (GtkWindow *parent, BondWalk *walk)
{
  NoteForm *form = bond_act_form_new (walk, sizeof (NoteForm));
  BondDialog *dialog;

  g_return_if_fail (form != NULL);
  dialog = bond_act_form_open (parent, form, _ ("Note"), _ ("Record"), note_act, bond_act_form_free);
  form->note = bond_dialog_add_note (dialog, _ ("_Note"), NULL);
  bond_dialog_add_text (dialog, _ ("Enter records the note, Shift+Enter begins a new line. It is printed with the "
                                   "point."));
  gtk_window_present (GTK_WINDOW (dialog));
  gtk_widget_grab_focus (GTK_WIDGET (form->note));
}
