/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * The limit sets of a new survey.  Sets the airframe's points name cannot be left
 * out; published sets are switched off at first: choosing one says that no maker's
 * data applies.
 */
#include "gui/dialogs/new-survey-private.h"
#include <glib/gi18n-lib.h>

static GtkWidget *
check_of (BondForm *form, guint set)
{
  return g_ptr_array_index (form->set_checks, set);
}

static void
set_toggled_cb (BondForm *form)
{
  gboolean by_choice = FALSE, by_airframe = FALSE;

  for (guint i = 0; i < form->set_checks->len; i++)
    {
      GtkWidget *check = check_of (form, i);

      if (((BondLimitSet *)g_ptr_array_index (form->sets, i))->enabled
          || !gtk_check_button_get_active (GTK_CHECK_BUTTON (check)))
        continue;
      if (gtk_widget_get_sensitive (check))
        by_choice = TRUE;
      else
        by_airframe = TRUE;
    }
  gtk_label_set_text (
      form->sets_note,
      by_airframe ? _ ("Points of this airframe are judged by a published set, so it is always taken along. By making "
                       "the survey you state that no maker’s data applies to the points that use it.")
      : by_choice ? _ ("By choosing a published set you state that no maker’s data applies to the points that use it.")
                  : _ ("Sets named by the airframe’s points are always taken along."));
}

/* The sets that must come along: those the template names, and those points placed by hand were judged by. */
static GPtrArray *
needed_sets (BondForm *form, const BondAirframe *airframe)
{
  GPtrArray *needed = airframe != NULL
                          ? bond_library_sets_for (airframe, bond_application_get_catalog (form->application))
                          : g_ptr_array_new ();

  for (guint i = 0; form->again != NULL && i < form->again->limit_sets->len; i++)
    for (guint j = 0; j < form->sets->len; j++)
      if (g_str_equal (((BondLimitSet *)form->sets->pdata[j])->id,
                       ((BondLimitSet *)form->again->limit_sets->pdata[i])->id))
        g_ptr_array_add (needed, form->sets->pdata[j]);
  return needed;
}

void
bond_form_airframe_changed (BondForm *form)
{
  BondAirframe *airframe = bond_form_airframe (form);
  g_autoptr (GPtrArray) named = needed_sets (form, airframe);

  for (guint i = 0; i < form->set_checks->len; i++)
    {
      BondLimitSet *set = g_ptr_array_index (form->sets, i);
      GtkWidget *check = check_of (form, i);
      gboolean is_named = g_ptr_array_find (named, set, NULL);

      if (is_named)
        gtk_check_button_set_active (GTK_CHECK_BUTTON (check), TRUE);
      else if (!gtk_widget_get_sensitive (check))
        gtk_check_button_set_active (GTK_CHECK_BUTTON (check), set->enabled);
      gtk_widget_set_sensitive (check, !is_named);
    }
  set_toggled_cb (form);
  bond_zone_tree_set_airframe (form->zones, airframe, form->again != NULL ? form->again->points : NULL);
}

/* A published set is shipped switched off; the survey gets a copy that is on. */
static BondLimitSet *
switched_on (BondLimitSet *set)
{
  BondLimitSet *copy;

  if (set->enabled)
    return bond_limit_set_ref (set);
  copy = bond_limit_set_new (set->id, set->revision, set->name);
  copy->note = g_strdup (set->note);
  copy->invented = set->invented;
  copy->enabled = TRUE;
  for (guint i = 0; i < set->rows->len; i++)
    bond_limit_set_add (copy, bond_limit_row_ref (g_ptr_array_index (set->rows, i)), NULL);
  return copy;
}

GPtrArray *
bond_form_sets (BondForm *form)
{
  GPtrArray *sets = g_ptr_array_new_with_free_func ((GDestroyNotify)bond_limit_set_unref);

  for (guint i = 0; i < form->sets->len; i++)
    if (gtk_check_button_get_active (GTK_CHECK_BUTTON (check_of (form, i))))
      g_ptr_array_add (sets, switched_on (g_ptr_array_index (form->sets, i)));
  return sets;
}

void
bond_form_add_sets (BondForm *form)
{
  for (guint i = 0; i < form->sets->len; i++)
    {
      BondLimitSet *set = g_ptr_array_index (form->sets, i);
      GtkCheckButton *check = bond_dialog_add_check (form->dialog, set->name, set->enabled);

      gtk_widget_set_tooltip_text (GTK_WIDGET (check), set->note);
      g_signal_connect_swapped (check, "toggled", G_CALLBACK (set_toggled_cb), form);
      g_ptr_array_add (form->set_checks, check);
    }
  form->sets_note = bond_dialog_add_text (form->dialog, "");
}
