/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * The forms about the joint itself.  What they record decides which limit applies
 * from then on and how long the metal may stay bare; both follow in core, here is
 * only asked.
 */
#include "gui/dialogs/joint-acts.h"
#include "gui/dialogs/act-form.h"
#include "gui/words.h"
#include <glib/gi18n-lib.h>

/* What may be found under a joint that is taken apart; the first stands for "not stated". */
static const BondVisualFinding found[] = {
  BOND_VISUAL_GOOD,    BOND_VISUAL_CORROSION, BOND_VISUAL_PAINT, BOND_VISUAL_LOOSE,   BOND_VISUAL_STRANDS,
  BOND_VISUAL_MISSING, BOND_VISUAL_SEALANT,   BOND_VISUAL_FILM,  BOND_VISUAL_NOTHING,
};

typedef struct
{
  BondActForm base;
  BondDialog *dialog;
  GtkCheckButton *check[BOND_N_REWORK_DONE];
  GtkDropDown *found;
  GtkEditable *how, *reference;
  GtkTextView *note;
  BondPersonChoice who;
} Form;

static void
form_free (gpointer data)
{
  Form *form = data;

  bond_person_choice_clear (&form->who);
  bond_act_form_free (form);
}

static BondSurvey *
survey_of (const Form *form)
{
  return bond_walk_get_survey (form->base.walk);
}

/* --- rework --- */

static guint
ticked (const Form *form)
{
  guint done = 0;

  for (int i = 0; i < BOND_N_REWORK_DONE; i++)
    if (gtk_check_button_get_active (form->check[i]))
      done |= 1u << i;
  return done;
}

static gboolean
rework_act (BondDialog *dialog, gpointer data)
{
  Form *form = data;
  g_autofree char *note = bond_dialog_note_text (form->note);
  guint done = ticked (form);
  BondEntry *entry;

  if (done == 0)
    return bond_act_form_need (dialog, form->check[0], _ ("Rework needs at least one tick."));
  if ((done & BOND_REWORK_OTHER) != 0 && note == NULL)
    return bond_act_form_need (dialog, form->note, _ ("“Other” needs a note."));
  entry = bond_act_form_entry (&form->base, BOND_ENTRY_REWORK);
  entry->rework.done = done;
  entry->rework.note = g_steal_pointer (&note);
  entry->rework.reference = bond_dialog_text (form->reference);
  entry->rework.done_by = bond_person_choice_get (&form->who);
  entry->rework.found = found[gtk_drop_down_get_selected (form->found)];
  return bond_act_form_record (dialog, &form->base, entry);
}

/* Keys 1 to 5 tick, while no text is being typed. */
static gboolean
rework_key_cb (GtkEventControllerKey *controller, guint keyval, guint keycode, GdkModifierType state, Form *form)
{
  GtkWindow *window = GTK_WINDOW (gtk_event_controller_get_widget (GTK_EVENT_CONTROLLER (controller)));
  GtkWidget *focus = gtk_window_get_focus (window);
  guint digit = gdk_keyval_to_unicode (keyval);
  int i = (int)digit - '1';

  if (i < 0 || i >= BOND_N_REWORK_DONE || GTK_IS_TEXT (focus) || GTK_IS_TEXT_VIEW (focus))
    return GDK_EVENT_PROPAGATE;
  gtk_check_button_set_active (form->check[i], !gtk_check_button_get_active (form->check[i]));
  return GDK_EVENT_STOP;
}

/* The button says what it will record. */
static void
ticks_changed_cb (Form *form)
{
  guint done = ticked (form);
  int n = __builtin_popcount (done);
  g_autofree char *label
      = g_strdup_printf (ngettext ("Record Rework, %d Step", "Record Rework, %d Steps", (gulong)n), n);

  bond_dialog_set_act_label (form->dialog, n > 0 ? label : _ ("Record Rework"));
  if (n > 0)
    bond_dialog_set_problem (form->dialog, NULL);
}

static void
add_found (Form *form)
{
  g_autoptr (GPtrArray) names = g_ptr_array_new_with_free_func (g_free);

  g_ptr_array_add (names, g_strdup (_ ("Not stated")));
  for (gsize i = 1; i < G_N_ELEMENTS (found); i++)
    g_ptr_array_add (names, bond_words_sentence (bond_visual_name (found[i])));
  g_ptr_array_add (names, NULL);
  form->found = bond_dialog_add_choice (form->dialog, _ ("Condition _found"), (const char *const *)names->pdata, 0);
}

static void
watch_digits (Form *form)
{
  GtkEventController *keys = gtk_event_controller_key_new ();

  gtk_event_controller_set_propagation_phase (keys, GTK_PHASE_CAPTURE);
  g_signal_connect (keys, "key-pressed", G_CALLBACK (rework_key_cb), form);
  gtk_widget_add_controller (GTK_WIDGET (form->dialog), keys);
}

void
bond_rework_dialog (GtkWindow *parent, BondWalk *walk)
{
  Form *form = bond_act_form_new (walk, sizeof (Form));

  g_return_if_fail (form != NULL);
  form->dialog = bond_act_form_open (parent, form, _ ("Rework"), _ ("Record Rework"), rework_act, form_free);
  for (int i = 0; i < BOND_N_REWORK_DONE; i++)
    {
      g_autofree char *name = bond_words_sentence (bond_rework_done_name (1 << i));
      g_autofree char *label = g_strdup_printf ("%d  %s", i + 1, name);

      form->check[i] = bond_dialog_add_check (form->dialog, label, FALSE);
      g_signal_connect_swapped (form->check[i], "toggled", G_CALLBACK (ticks_changed_cb), form);
    }
  add_found (form);
  form->note = bond_dialog_add_note (form->dialog, _ ("_Note"), NULL);
  bond_person_choice_add (&form->who, form->dialog, survey_of (form), _ ("_Done by"),
                          bond_survey_get_person (survey_of (form)));
  form->reference = bond_dialog_add_entry (form->dialog, _ ("_Card or reference"), NULL);
  bond_dialog_add_text (form->dialog,
                        _ ("The limit after rework applies until the survey ends. The reading before it stays."));
  watch_digits (form);
  gtk_window_present (GTK_WINDOW (form->dialog));
}

/* --- joint opened or replaced --- */

static gboolean
condition_act (BondDialog *dialog, gpointer data)
{
  Form *form = data;
  BondEntry *entry = bond_act_form_entry (&form->base, BOND_ENTRY_CONDITION);

  entry->condition.condition
      = gtk_check_button_get_active (form->check[0]) ? BOND_CONDITION_OPENED : BOND_CONDITION_NEW;
  entry->condition.reference = bond_dialog_text (form->reference);
  return bond_act_form_record (dialog, &form->base, entry);
}

void
bond_condition_dialog (GtkWindow *parent, BondWalk *walk)
{
  Form *form = bond_act_form_new (walk, sizeof (Form));

  g_return_if_fail (form != NULL);
  form->dialog = bond_act_form_open (parent, form, _ ("Opened or Replaced"), _ ("Record"), condition_act, form_free);
  form->check[0] = bond_dialog_add_radio (form->dialog, _ ("Opened for access"), NULL);
  form->check[1] = bond_dialog_add_radio (form->dialog, _ ("New or replaced"), form->check[0]);
  form->reference = bond_dialog_add_entry (form->dialog, _ ("_Card or reference"), NULL);
  bond_dialog_add_text (form->dialog,
                        _ ("The stricter limit applies until the survey ends. A reading already taken stays as "
                           "found, and the point has to be measured again."));
  gtk_window_present (GTK_WINDOW (form->dialog));
}

/* --- refinish --- */

static gboolean
refinish_act (BondDialog *dialog, gpointer data)
{
  Form *form = data;
  g_autofree char *how = bond_dialog_text (form->how);
  BondEntry *entry;

  if (how == NULL)
    return bond_act_form_need (dialog, form->how, _ ("Say what was applied."));
  entry = bond_act_form_entry (&form->base, BOND_ENTRY_REFINISH);
  entry->refinish.how = g_steal_pointer (&how);
  entry->refinish.reference = bond_dialog_text (form->reference);
  entry->refinish.done_by = bond_person_choice_get (&form->who);
  return bond_act_form_record (dialog, &form->base, entry);
}

static char *
bare_words (const Form *form)
{
  const char *since = bond_point_bare_since (form->base.point);
  int hours = bond_survey_get_house (survey_of (form))->bare_hours;
  g_autofree char *when = since != NULL ? bond_words_when (survey_of (form), since) : NULL;

  if (when == NULL)
    return g_strdup (_ ("No bare metal is recorded at this joint."));
  /* TRANSLATORS: a time of day, perhaps with its date; a number of hours */
  return g_strdup_printf (ngettext ("Bare since %s. Bare metal is protected within %d hour.",
                                    "Bare since %s. Bare metal is protected within %d hours.", (gulong)hours),
                          when, hours);
}

void
bond_refinish_dialog (GtkWindow *parent, BondWalk *walk)
{
  Form *form = bond_act_form_new (walk, sizeof (Form));
  g_autofree char *bare = NULL;

  g_return_if_fail (form != NULL);
  bare = bare_words (form);
  form->dialog = bond_act_form_open (parent, form, _ ("Finish Applied"), _ ("Record"), refinish_act, form_free);
  bond_dialog_add_text (form->dialog, bare);
  form->how = bond_dialog_add_entry (form->dialog, _ ("_What was applied"), NULL);
  bond_person_choice_add (&form->who, form->dialog, survey_of (form), _ ("_Done by"),
                          bond_survey_get_person (survey_of (form)));
  form->reference = bond_dialog_add_entry (form->dialog, _ ("_Card or reference"), NULL);
  gtk_window_present (GTK_WINDOW (form->dialog));
  gtk_widget_grab_focus (GTK_WIDGET (form->how));
}
