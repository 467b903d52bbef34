/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * The common part of the forms.  Which rows a form has and what they mean is left
 * to the forms; whether an entry fits the record is left to core, whose words are
 * shown here.
 */
#include "gui/dialogs/act-form.h"
#include <glib/gi18n-lib.h>

gpointer
bond_act_form_new (BondWalk *walk, gsize size)
{
  BondActForm *form;

  g_return_val_if_fail (BOND_IS_WALK (walk) && size >= sizeof (BondActForm), NULL);
  if (bond_walk_get_point (walk) == NULL)
    return NULL;
  form = g_malloc0 (size);
  form->walk = g_object_ref (walk);
  form->point = g_object_ref (bond_walk_get_point (walk));
  form->place = g_strdup (bond_walk_get_place (walk));
  return form;
}

void
bond_act_form_clear (BondActForm *form)
{
  g_clear_object (&form->walk);
  g_clear_object (&form->point);
  g_clear_pointer (&form->place, g_free);
}

void
bond_act_form_free (gpointer form)
{
  bond_act_form_clear (form);
  g_free (form);
}

BondDialog *
bond_act_form_open (GtkWindow *parent, gpointer form, const char *what, const char *act_label, BondDialogAct act,
                    GDestroyNotify destroy)
{
  const BondActForm *base = form;
  g_autofree char *title = g_strdup_printf ("%s, %s", what, bond_point_get_number (base->point));

  return bond_dialog_new (parent, title, act_label, act, form, destroy);
}

BondEntry *
bond_act_form_entry (const BondActForm *form, BondEntryKind kind)
{
  BondEntry *entry = bond_entry_new (kind);

  entry->point = g_strdup (bond_point_get_id (form->point));
  entry->place = g_strdup (form->place);
  return entry;
}

gboolean
bond_act_form_record (BondDialog *dialog, const BondActForm *form, BondEntry *entry)
{
  g_autoptr (GError) error = NULL;

  if (!bond_survey_check_entry (bond_walk_get_survey (form->walk), entry, &error))
    {
      bond_dialog_set_problem (dialog, error->message);
      bond_entry_unref (entry);
      return FALSE;
    }
  bond_walk_record_entry (form->walk, entry);
  return TRUE;
}

gboolean
bond_act_form_need (BondDialog *dialog, gpointer widget, const char *problem)
{
  bond_dialog_set_problem (dialog, problem);
  if (widget != NULL)
    gtk_widget_grab_focus (GTK_WIDGET (widget));
  return FALSE;
}

void
bond_act_form_show_row (gpointer widget, gboolean visible, const char *name)
{
  GList *labels;

  g_return_if_fail (GTK_IS_WIDGET (widget));
  labels = gtk_widget_list_mnemonic_labels (GTK_WIDGET (widget));
  gtk_widget_set_visible (GTK_WIDGET (widget), visible);
  for (GList *at = labels; at != NULL; at = at->next)
    {
      gtk_widget_set_visible (at->data, visible);
      if (name != NULL)
        gtk_label_set_text_with_mnemonic (at->data, name);
    }
  g_list_free (labels);
}

/* --- people --- */

static void
person_selected_cb (GtkDropDown *drop, GParamSpec *pspec, GtkWidget *other)
{
  GListModel *model = gtk_drop_down_get_model (drop);
  gboolean last = gtk_drop_down_get_selected (drop) + 1 == g_list_model_get_n_items (model);

  bond_act_form_show_row (other, last, NULL);
  if (last)
    gtk_widget_grab_focus (other);
}

void
bond_person_choice_add (BondPersonChoice *choice, BondDialog *dialog, BondSurvey *survey, const char *label,
                        const char *selected)
{
  GPtrArray *people = bond_survey_get_people (survey);
  g_autoptr (GPtrArray) names = g_ptr_array_new ();
  guint at = 0;

  choice->ids = g_ptr_array_new_with_free_func (g_free);
  g_ptr_array_add (names, _ ("Not stated"));
  g_ptr_array_add (choice->ids, NULL);
  for (guint i = 0; i < people->len; i++)
    {
      const BondPerson *person = g_ptr_array_index (people, i);

      if (g_strcmp0 (person->id, selected) == 0)
        at = names->len;
      g_ptr_array_add (names, person->name);
      g_ptr_array_add (choice->ids, g_strdup (person->id));
    }
  g_ptr_array_add (names, _ ("Somebody else"));
  g_ptr_array_add (names, NULL);
  choice->drop = bond_dialog_add_choice (dialog, label, (const char *const *)names->pdata, at);
  choice->other = bond_dialog_add_entry (dialog, _ ("Name"), NULL);
  bond_act_form_show_row (choice->other, FALSE, NULL);
  g_signal_connect (choice->drop, "notify::selected", G_CALLBACK (person_selected_cb), choice->other);
}

char *
bond_person_choice_get (const BondPersonChoice *choice)
{
  guint selected = gtk_drop_down_get_selected (choice->drop);

  if (selected < choice->ids->len)
    return g_strdup (g_ptr_array_index (choice->ids, selected));
  return bond_dialog_text (choice->other);
}

char *
bond_person_choice_name (const BondPersonChoice *choice, BondSurvey *survey)
{
  g_autofree char *id = bond_person_choice_get (choice);

  return id != NULL ? g_strdup (bond_survey_person_name (survey, id)) : NULL;
}

void
bond_person_choice_clear (BondPersonChoice *choice)
{
  g_clear_pointer (&choice->ids, g_ptr_array_unref);
}
