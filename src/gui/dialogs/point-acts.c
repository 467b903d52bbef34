/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * The five small forms.  Words that the record needs are asked for here, so that
 * core's refusal is never the first the inspector hears of it.
 */
#include "gui/dialogs/point-acts.h"
#include "gui/dialog.h"
#include "gui/words.h"
#include <glib/gi18n-lib.h>

/* One form under way; the widgets belong to the dialog. */
typedef struct
{
  BondWalk *walk;
  BondPoint *point;
  char *place;
  BondSurveyFile *file;
  GtkCheckButton *check[BOND_N_REWORK_DONE];
  GtkEditable *note, *reference, *done_by, *percent;
  GtkDropDown *choice;
} Form;

static Form *
form_new (BondWalk *walk)
{
  Form *form;

  if (bond_walk_get_point (walk) == NULL)
    return NULL;
  form = g_new0 (Form, 1);
  form->walk = g_object_ref (walk);
  form->point = g_object_ref (bond_walk_get_point (walk));
  form->place = g_strdup (bond_walk_get_place (walk));
  return form;
}

static void
form_free (gpointer data)
{
  Form *form = data;

  g_clear_object (&form->walk);
  g_clear_object (&form->point);
  g_clear_object (&form->file);
  g_free (form->place);
  g_free (form);
}

static BondEntry *
new_entry (const Form *form, BondEntryKind kind)
{
  BondEntry *entry = bond_entry_new (kind);

  entry->point = g_strdup (bond_point_get_id (form->point));
  entry->place = g_strdup (form->place);
  return entry;
}

static BondDialog *
open_form (GtkWindow *parent, Form *form, const char *what, const char *act_label, BondDialogAct act)
{
  g_autofree char *title = g_strdup_printf ("%s, %s", what, bond_point_get_number (form->point));

  return bond_dialog_new (parent, title, act_label, act, form, form_free);
}

/* --- rework --- */

static gboolean
rework_act (BondDialog *dialog, gpointer data)
{
  Form *form = data;
  g_autofree char *note = bond_dialog_text (form->note);
  guint done = 0;
  BondEntry *entry;

  for (int i = 0; i < BOND_N_REWORK_DONE; i++)
    if (gtk_check_button_get_active (form->check[i]))
      done |= 1u << i;
  if (done == 0)
    {
      bond_dialog_set_problem (dialog, _ ("Rework needs at least one tick."));
      return FALSE;
    }
  if ((done & BOND_REWORK_OTHER) != 0 && note == NULL)
    {
      bond_dialog_set_problem (dialog, _ ("“Other” needs a note."));
      return FALSE;
    }
  entry = new_entry (form, BOND_ENTRY_REWORK);
  entry->rework.done = done;
  entry->rework.note = g_steal_pointer (&note);
  entry->rework.reference = bond_dialog_text (form->reference);
  entry->rework.done_by = bond_dialog_text (form->done_by);
  bond_walk_record_entry (form->walk, entry);
  return TRUE;
}

/* Keys 1 to 5 tick, while no text is being typed. */
static gboolean
rework_key_cb (GtkEventControllerKey *controller, guint keyval, guint keycode, GdkModifierType state, Form *form)
{
  GtkWindow *window = GTK_WINDOW (gtk_event_controller_get_widget (GTK_EVENT_CONTROLLER (controller)));
  int i = (int)keyval - GDK_KEY_1;

  if (i < 0 || i >= BOND_N_REWORK_DONE || GTK_IS_TEXT (gtk_window_get_focus (window)))
    return GDK_EVENT_PROPAGATE;
  gtk_check_button_set_active (form->check[i], !gtk_check_button_get_active (form->check[i]));
  return GDK_EVENT_STOP;
}

void
bond_rework_dialog (GtkWindow *parent, BondWalk *walk)
{
  Form *form = form_new (walk);
  GtkEventController *keys = gtk_event_controller_key_new ();
  BondDialog *dialog;

  g_return_if_fail (form != NULL);
  dialog = open_form (parent, form, _ ("Rework"), _ ("Record Rework"), rework_act);
  for (int i = 0; i < BOND_N_REWORK_DONE; i++)
    {
      g_autofree char *name = bond_words_sentence (bond_rework_done_name (1 << i));
      g_autofree char *label = g_strdup_printf ("%d  %s", i + 1, name);

      form->check[i] = bond_dialog_add_check (dialog, label, FALSE);
    }
  form->note = bond_dialog_add_entry (dialog, _ ("_Note"), NULL);
  form->done_by = bond_dialog_add_entry (dialog, _ ("_Done by"), NULL);
  form->reference = bond_dialog_add_entry (dialog, _ ("_Card or reference"), NULL);
  bond_dialog_add_text (dialog,
                        _ ("The limit after rework applies until the survey ends. The reading before it stays."));
  gtk_event_controller_set_propagation_phase (keys, GTK_PHASE_CAPTURE);
  g_signal_connect (keys, "key-pressed", G_CALLBACK (rework_key_cb), form);
  gtk_widget_add_controller (GTK_WIDGET (dialog), keys);
  gtk_window_present (GTK_WINDOW (dialog));
}

/* --- joint opened or replaced --- */

static gboolean
condition_act (BondDialog *dialog, gpointer data)
{
  Form *form = data;
  BondEntry *entry = new_entry (form, BOND_ENTRY_CONDITION);

  entry->condition.condition
      = gtk_check_button_get_active (form->check[0]) ? BOND_CONDITION_OPENED : BOND_CONDITION_NEW;
  entry->condition.reference = bond_dialog_text (form->reference);
  bond_walk_record_entry (form->walk, entry);
  return TRUE;
}

void
bond_condition_dialog (GtkWindow *parent, BondWalk *walk)
{
  Form *form = form_new (walk);
  BondDialog *dialog;

  g_return_if_fail (form != NULL);
  dialog = open_form (parent, form, _ ("Opened or Replaced"), _ ("Record"), condition_act);
  form->check[0] = bond_dialog_add_radio (dialog, _ ("Opened for access"), NULL);
  form->check[1] = bond_dialog_add_radio (dialog, _ ("New or replaced"), form->check[0]);
  form->reference = bond_dialog_add_entry (dialog, _ ("_Card or reference"), NULL);
  bond_dialog_add_text (dialog, _ ("The stricter limit applies until the survey ends. A reading already taken stays as "
                                   "found, and the point has to be measured again."));
  gtk_window_present (GTK_WINDOW (dialog));
}

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

static gboolean
state_act (BondDialog *dialog, gpointer data)
{
  Form *form = data;
  g_autofree char *words = bond_dialog_text (form->note);
  BondPointMark mark = BOND_POINT_MARK_NONE;
  BondEntry *entry;

  for (gsize i = 0; i < G_N_ELEMENTS (marks); i++)
    if (gtk_check_button_get_active (form->check[i]))
      mark = marks[i].mark;
  if (words == NULL && mark != BOND_POINT_MARK_NONE)
    {
      bond_dialog_set_problem (dialog, _ ("Say why; it is printed in the report."));
      gtk_widget_grab_focus (GTK_WIDGET (form->note));
      return FALSE;
    }
  entry = new_entry (form, BOND_ENTRY_STATE);
  entry->state.mark = mark;
  entry->reason = g_steal_pointer (&words);
  bond_walk_record_entry (form->walk, entry);
  return TRUE;
}

void
bond_state_dialog (GtkWindow *parent, BondWalk *walk)
{
  Form *form = form_new (walk);
  BondDialog *dialog;

  g_return_if_fail (form != NULL);
  G_STATIC_ASSERT (G_N_ELEMENTS (marks) <= G_N_ELEMENTS (form->check));
  dialog = open_form (parent, form, _ ("Not Accessible"), _ ("Record"), state_act);
  for (gsize i = 0; i < G_N_ELEMENTS (marks); i++)
    form->check[i] = bond_dialog_add_radio (dialog, _ (marks[i].label), i > 0 ? form->check[0] : NULL);
  form->note = bond_dialog_add_entry (dialog, _ ("_Why"), NULL);
  bond_dialog_add_text (dialog,
                        _ ("A point that is not accessible stays open: the survey can only be signed as incomplete. "
                           "Not fitted and not applicable leave the count."));
  gtk_window_present (GTK_WINDOW (dialog));
  gtk_widget_grab_focus (GTK_WIDGET (form->note));
}

/* --- visual condition --- */

static const BondVisualFinding findings[] = {
  BOND_VISUAL_GOOD,       BOND_VISUAL_CORROSION, BOND_VISUAL_PAINT,   BOND_VISUAL_LOOSE, BOND_VISUAL_STRANDS,
  BOND_VISUAL_LEG_BROKEN, BOND_VISUAL_MISSING,   BOND_VISUAL_PRESENT, BOND_VISUAL_OTHER,
};

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
  Form *form = data;
  BondVisualFinding finding = findings[gtk_drop_down_get_selected (form->choice)];
  int percent = percent_of (form->percent);
  g_autofree char *words = bond_dialog_text (form->note);
  BondEntry *entry;

  if (percent == -2)
    {
      bond_dialog_set_problem (dialog, _ ("The share is a whole number from 0 to 100."));
      return FALSE;
    }
  if (finding == BOND_VISUAL_OTHER && words == NULL)
    {
      bond_dialog_set_problem (dialog, _ ("“Other” needs words."));
      return FALSE;
    }
  entry = new_entry (form, BOND_ENTRY_VISUAL);
  entry->visual.finding = finding;
  entry->visual.percent = percent;
  entry->visual.reject = gtk_check_button_get_active (form->check[0]);
  entry->reason = g_steal_pointer (&words);
  bond_walk_record_entry (form->walk, entry);
  return TRUE;
}

static void
finding_changed_cb (Form *form)
{
  gtk_check_button_set_active (form->check[0], gtk_drop_down_get_selected (form->choice) != 0);
}

void
bond_visual_dialog (GtkWindow *parent, BondWalk *walk)
{
  Form *form = form_new (walk);
  const char *names[G_N_ELEMENTS (findings) + 1] = { NULL };
  BondDialog *dialog;

  g_return_if_fail (form != NULL);
  for (gsize i = 0; i < G_N_ELEMENTS (findings); i++)
    names[i] = bond_visual_name (findings[i]);
  dialog = open_form (parent, form, _ ("Visual Condition"), _ ("Record"), visual_act);
  form->choice = bond_dialog_add_choice (dialog, _ ("_Finding"), names, 0);
  form->percent = bond_dialog_add_entry (dialog, _ ("_Share in per cent, if any"), NULL);
  form->note = bond_dialog_add_entry (dialog, _ ("_Words"), NULL);
  form->check[0] = bond_dialog_add_check (dialog, _ ("Rejects the point, whatever it measures"), FALSE);
  g_signal_connect_swapped (form->choice, "notify::selected", G_CALLBACK (finding_changed_cb), form);
  gtk_window_present (GTK_WINDOW (dialog));
}

/* --- note --- */

static gboolean
note_act (BondDialog *dialog, gpointer data)
{
  Form *form = data;
  g_autofree char *words = bond_dialog_text (form->note);
  g_autofree char *sha256 = NULL;
  g_autoptr (GBytes) bytes = NULL;
  g_autoptr (GError) error = NULL;
  BondEntry *entry;

  if (words == NULL)
    {
      bond_dialog_set_problem (dialog, _ ("The note is empty."));
      return FALSE;
    }
  bytes = g_bytes_new (words, strlen (words));
  sha256 = bond_survey_file_add_attachment (form->file, bytes, "note.txt", "text/plain", &error);
  if (sha256 == NULL)
    {
      bond_dialog_set_problem (dialog, error->message);
      return FALSE;
    }
  entry = new_entry (form, BOND_ENTRY_ATTACH);
  entry->attach.sha256 = g_steal_pointer (&sha256);
  entry->attach.name = g_strdup ("note.txt");
  entry->attach.type = g_strdup ("text/plain");
  entry->attach.size = (gint64)g_bytes_get_size (bytes);
  entry->reason = g_steal_pointer (&words);
  bond_walk_record_entry (form->walk, entry);
  return TRUE;
}

void
bond_note_dialog (GtkWindow *parent, BondWalk *walk, BondSurveyFile *file)
{
  Form *form = form_new (walk);
  BondDialog *dialog;

  g_return_if_fail (form != NULL && BOND_IS_SURVEY_FILE (file));
  form->file = g_object_ref (file);
  dialog = open_form (parent, form, _ ("Note"), _ ("Record"), note_act);
  form->note = bond_dialog_add_entry (dialog, _ ("_Note"), NULL);
  gtk_window_present (GTK_WINDOW (dialog));
  gtk_widget_grab_focus (GTK_WIDGET (form->note));
}
