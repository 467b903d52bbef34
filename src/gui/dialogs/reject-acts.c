/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * Defect card and deviation.  Both are a few words with a name to them; the
 * disposition, which has conditions of its own, is in disposition-dialog.c.
 */
#include "gui/dialogs/reject-acts.h"
#include "gui/dialogs/act-form.h"
#include "gui/words.h"
#include <glib/gi18n-lib.h>

typedef struct
{
  BondActForm base;
  GtkEditable *card;
  GtkTextView *words;
  BondPersonChoice who;
  char *target; /* id of the reading a deviation is for */
} Form;

static void
form_free (gpointer data)
{
  Form *form = data;

  bond_person_choice_clear (&form->who);
  g_free (form->target);
  bond_act_form_free (form);
}

/* --- defect card --- */

static gboolean
defect_act (BondDialog *dialog, gpointer data)
{
  Form *form = data;
  g_autofree char *card = bond_dialog_text (form->card);
  BondEntry *entry;

  if (card == NULL)
    return bond_act_form_need (dialog, form->card, _ ("A defect needs the number of its card."));
  entry = bond_act_form_entry (&form->base, BOND_ENTRY_DEFECT);
  entry->defect.card = g_steal_pointer (&card);
  entry->defect.words = bond_dialog_note_text (form->words);
  return bond_act_form_record (dialog, &form->base, entry);
}

void
bond_defect_dialog (GtkWindow *parent, BondWalk *walk)
{
  Form *form = bond_act_form_new (walk, sizeof (Form));
  BondDialog *dialog;
  const char *raised;

  g_return_if_fail (form != NULL);
  raised = bond_point_get_defect (form->base.point);
  dialog = bond_act_form_open (parent, form, _ ("Raise Defect"), _ ("Record Card"), defect_act, form_free);
  if (raised != NULL)
    {
      g_autofree char *text = g_strdup_printf (_ ("Card %s was raised for this reject already."), raised);

      bond_dialog_add_text (dialog, text);
    }
  form->card = bond_dialog_add_entry (dialog, _ ("_Number of the card"), NULL);
  form->words = bond_dialog_add_note (dialog, _ ("_Words"), NULL);
  bond_dialog_add_text (dialog, _ ("The fail stands until rework, void or a disposition; the card is printed beside "
                                   "it."));
  gtk_window_present (GTK_WINDOW (dialog));
  gtk_widget_grab_focus (GTK_WIDGET (form->card));
}

/* --- deviation --- */

BondEntry *
bond_deviation_target (const BondPlaceResult *result)
{
  for (guint i = 0; result != NULL && i < bond_place_result_n_rows (result); i++)
    {
      const BondMeasurement *last = bond_place_result_nth_row (result, i)->last;

      if (last != NULL && last->reason == BOND_REASON_WRONG_STATE && last->readings->len > 0)
        return g_ptr_array_index (last->readings, 0);
    }
  return NULL;
}

static gboolean
deviation_act (BondDialog *dialog, gpointer data)
{
  Form *form = data;
  g_autofree char *words = bond_dialog_note_text (form->words);
  g_autofree char *holder = bond_person_choice_name (&form->who, bond_walk_get_survey (form->base.walk));
  BondEntry *entry;

  if (holder == NULL)
    return bond_act_form_need (dialog, form->who.drop, _ ("Say who accepts the deviation, by name."));
  if (words == NULL)
    return bond_act_form_need (dialog, form->words, _ ("Say why; it is printed in the report."));
  entry = bond_act_form_entry (&form->base, BOND_ENTRY_DEVIATION);
  entry->ref = g_strdup (form->target);
  entry->deviation.holder = g_steal_pointer (&holder);
  entry->reason = g_steal_pointer (&words);
  return bond_act_form_record (dialog, &form->base, entry);
}

void
bond_deviation_dialog (GtkWindow *parent, BondWalk *walk)
{
  BondEntry *target = bond_deviation_target (bond_walk_get_result (walk));
  BondDialog *dialog;
  Form *form;

  if (target == NULL)
    {
      bond_message (parent, _ ("Accept Deviation"),
                    _ ("No reading of this point was taken in another measuring state than its limit asks. Nothing "
                       "was recorded."));
      return;
    }
  form = bond_act_form_new (walk, sizeof (Form));
  form->target = g_strdup (target->id);
  dialog = bond_act_form_open (parent, form, _ ("Accept Deviation"), _ ("Accept"), deviation_act, form_free);
  bond_dialog_add_text (dialog, _ ("The reading was taken in another measuring state than its limit asks. It gets a "
                                   "verdict once a named person accepts that, with the reason."));
  bond_person_choice_add (&form->who, dialog, bond_walk_get_survey (walk), _ ("_Accepted by"), NULL);
  form->words = bond_dialog_add_note (dialog, _ ("_Why"), NULL);
  gtk_window_present (GTK_WINDOW (dialog));
  gtk_widget_grab_focus (GTK_WIDGET (form->who.drop));
}
