/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * What is asked stands first, the sheet below it: the fields are few and the same
 * each time, the sheet may be long.  What the sheet says is the library's work.
 */
#include "gui/dialogs/handover-dialog.h"
#include "gui/dialog.h"
#include "gui/dialogs/people-popover.h"
#include "library/handover.h"
#include <glib/gi18n-lib.h>

typedef struct
{
  BondWalk *walk;
  BondHandoverSheet *sheet;
  GPtrArray *people; /* of BondPerson: all but who hands over */
  GtkDropDown *to;
  GtkEditable *other, *panels;
  GtkTextView *notes;
} HandoverForm;

static void
form_free (gpointer data)
{
  HandoverForm *form = data;

  g_clear_object (&form->walk);
  bond_handover_sheet_free (form->sheet);
  g_ptr_array_unref (form->people);
  g_free (form);
}

static BondSurvey *
survey_of (HandoverForm *form)
{
  return bond_walk_get_survey (form->walk);
}

static const BondPerson *
chosen_person (HandoverForm *form)
{
  guint chosen = gtk_drop_down_get_selected (form->to);

  return chosen > 0 && chosen <= form->people->len ? g_ptr_array_index (form->people, chosen - 1) : NULL;
}

static gboolean
hand_over_act (BondDialog *dialog, gpointer data)
{
  HandoverForm *form = data;
  const BondPerson *person = chosen_person (form);
  g_autofree char *other = bond_dialog_text (form->other);
  g_autofree char *panels = bond_dialog_text (form->panels);
  g_autofree char *notes = bond_dialog_note_text (form->notes);
  g_autofree char *to = NULL;
  BondEntry *entry;

  if (other == NULL && person == NULL)
    {
      bond_dialog_set_problem (dialog, _ ("Say who accepts: the next person is named in the record."));
      gtk_widget_grab_focus (GTK_WIDGET (form->people->len > 0 ? GTK_WIDGET (form->to) : GTK_WIDGET (form->other)));
      return FALSE;
    }
  to = other != NULL ? bond_adopt_person (form->walk, other) : g_strdup (person->id);
  entry = bond_handover_entry (form->sheet, to, panels, notes);
  entry->by = g_strdup (bond_survey_get_person (survey_of (form))); /* it may wait until the next person measures */
  bond_walk_record_entry (form->walk, entry);
  bond_survey_set_attribution (survey_of (form), NULL, NULL);
  bond_walk_set_person (form->walk, to);
  return TRUE;
}

static char *
sheet_text (HandoverForm *form)
{
  const BondPerson *person = chosen_person (form);
  const char *from = bond_survey_get_person (survey_of (form));
  g_autofree char *other = bond_dialog_text (form->other);
  g_autofree char *panels = bond_dialog_text (form->panels);
  g_autofree char *notes = bond_dialog_note_text (form->notes);

  return bond_handover_text (form->sheet, from != NULL ? bond_survey_person_name (survey_of (form), from) : NULL,
                             other != NULL    ? other
                             : person != NULL ? person->name
                                              : NULL,
                             panels, notes);
}

static void
copy_cb (GtkButton *button, HandoverForm *form)
{
  g_autofree char *text = sheet_text (form);

  gdk_clipboard_set_text (gtk_widget_get_clipboard (GTK_WIDGET (button)), text);
  gtk_button_set_label (button, _ ("Copied"));
}

/* Ctrl+C copies what is selected in a field; where nothing can be selected, the sheet. */
static gboolean
copy_key_cb (GtkEventControllerKey *keys, guint keyval, guint keycode, GdkModifierType state, GtkButton *button)
{
  GtkWidget *window = gtk_event_controller_get_widget (GTK_EVENT_CONTROLLER (keys));
  GtkWidget *focus = gtk_window_get_focus (GTK_WINDOW (window));

  if ((state & GDK_CONTROL_MASK) == 0 || gdk_keyval_to_lower (keyval) != GDK_KEY_c || GTK_IS_TEXT_VIEW (focus)
      || (GTK_IS_TEXT (focus) && gtk_editable_get_selection_bounds (GTK_EDITABLE (focus), NULL, NULL)))
    return GDK_EVENT_PROPAGATE;
  g_signal_emit_by_name (button, "clicked");
  return GDK_EVENT_STOP;
}

static void
add_section (BondDialog *dialog, const char *heading, const char *lines, const char *none, const char *css)
{
  GtkWidget *label;

  bond_dialog_add_heading (dialog, heading);
  label = gtk_label_new (*lines != '\0' ? lines : none);
  gtk_label_set_xalign (GTK_LABEL (label), 0);
  gtk_label_set_wrap (GTK_LABEL (label), TRUE);
  gtk_widget_add_css_class (label, *lines != '\0' ? "number" : "quiet");
  if (css != NULL && *lines != '\0')
    gtk_widget_add_css_class (label, css);
  bond_dialog_add_row (dialog, label);
}

/* One line a joint, so that one that is overdue can stand out among others that are not. */
static void
add_joints (HandoverForm *form, BondDialog *dialog)
{
  static const char *const inks[] = { "number", "guard", "fail" };

  if (form->sheet->joints->len == 0)
    {
      add_section (dialog, _ ("Joints open and bare"), "", _ ("None."), NULL);
      return;
    }
  bond_dialog_add_heading (dialog, _ ("Joints open and bare"));
  for (guint i = 0; i < form->sheet->joints->len; i++)
    {
      const BondBareJoint *joint = g_ptr_array_index (form->sheet->joints, i);
      g_autofree char *line = bond_bare_words (joint, form->sheet->at);
      GtkWidget *label = gtk_label_new (line);

      gtk_label_set_xalign (GTK_LABEL (label), 0);
      gtk_label_set_wrap (GTK_LABEL (label), TRUE);
      gtk_widget_add_css_class (label, inks[joint->state]);
      if (joint->state == BOND_BARE_OVERDUE)
        gtk_widget_add_css_class (label, "strong");
      bond_dialog_add_row (dialog, label);
    }
}

static void
add_sheet (HandoverForm *form, BondDialog *dialog)
{
  const BondHandoverSheet *sheet = form->sheet;
  g_autofree char *done = g_strdup_printf (_ ("Done: %d points"), sheet->points_done);
  g_autofree char *to_do = g_strdup_printf (_ ("To do: %d points"), sheet->points_to_do);

  add_joints (form, dialog);
  add_section (dialog, _ ("Permits not closed"), sheet->permits, _ ("None."), "guard");
  if (*sheet->counts != '\0')
    add_section (dialog, _ ("Counts that differ"), sheet->counts, "", "fail");
  add_section (dialog, _ ("Needs a decision"), sheet->stopped, _ ("Nothing."), NULL);
  add_section (dialog, done, sheet->done, _ ("Nothing yet."), NULL);
  add_section (dialog, to_do, sheet->to_do, _ ("Nothing: every point has a reading or a reason."), NULL);
  add_section (dialog, _ ("Meters"), sheet->meter, _ ("None was used."), NULL);
}

static void
add_fields (HandoverForm *form, BondDialog *dialog)
{
  g_autoptr (GPtrArray) names = g_ptr_array_new ();
  const char *from = bond_survey_get_person (survey_of (form));

  for (guint i = form->people->len; i-- > 0;)
    if (g_strcmp0 (((BondPerson *)g_ptr_array_index (form->people, i))->id, from) == 0)
      g_ptr_array_remove_index (form->people, i);
  g_ptr_array_add (names, (gpointer)_ ("nobody chosen"));
  for (guint i = 0; i < form->people->len; i++)
    g_ptr_array_add (names, ((BondPerson *)g_ptr_array_index (form->people, i))->name);
  g_ptr_array_add (names, NULL);
  form->to = bond_dialog_add_choice (dialog, _ ("_Accepted by"), (const char *const *)names->pdata, 0);
  form->other = bond_dialog_add_entry (dialog, _ ("or an_other name"), NULL);
  form->panels = bond_dialog_add_entry (dialog, _ ("_Panels open"), form->sheet->panels);
  form->notes = bond_dialog_add_note (dialog, _ ("_Notes"), NULL);
  gtk_widget_set_sensitive (GTK_WIDGET (form->to), form->people->len > 0);
}

static void
add_copy (HandoverForm *form, BondDialog *dialog)
{
  GtkWidget *button = gtk_button_new_with_mnemonic (_ ("_Copy as Text"));
  GtkEventController *keys = gtk_event_controller_key_new ();

  gtk_widget_set_halign (button, GTK_ALIGN_START);
  gtk_widget_set_margin_top (button, 12);
  gtk_widget_set_tooltip_text (button, _ ("Copy as Text (Ctrl+C)"));
  bond_name_widget (button, _ ("Copy as Text"));
  g_signal_connect (button, "clicked", G_CALLBACK (copy_cb), form);
  gtk_event_controller_set_propagation_phase (keys, GTK_PHASE_CAPTURE);
  g_signal_connect (keys, "key-pressed", G_CALLBACK (copy_key_cb), button);
  gtk_widget_add_controller (GTK_WIDGET (dialog), keys);
  bond_dialog_add_row (dialog, button);
}

void
bond_handover_dialog (GtkWindow *parent, BondWalk *walk)
{
  HandoverForm *form = g_new0 (HandoverForm, 1);
  BondSurvey *survey = bond_walk_get_survey (walk);
  g_autofree char *now = bond_source_peek (bond_survey_get_source (survey));
  const char *from = bond_survey_get_person (survey);
  g_autofree char *title = NULL;
  BondDialog *dialog;

  form->walk = g_object_ref (walk);
  form->sheet = bond_handover_sheet_new (survey, now);
  form->people = bond_people_listed (survey, NULL);
  title = from != NULL ? g_strdup_printf (_ ("Hand Over, from %s"), bond_survey_person_name (survey, from))
                       : g_strdup (_ ("Hand Over"));
  dialog = bond_dialog_new (parent, title, _ ("Hand Over"), hand_over_act, form, form_free);
  add_fields (form, dialog);
  add_sheet (form, dialog);
  add_copy (form, dialog);
  gtk_window_set_default_size (GTK_WINDOW (dialog), 620, -1);
  gtk_window_present (GTK_WINDOW (dialog));
  gtk_widget_grab_focus (form->people->len > 0 ? GTK_WIDGET (form->to) : GTK_WIDGET (form->other));
}
