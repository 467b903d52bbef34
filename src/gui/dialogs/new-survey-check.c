/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * What keeps a new survey from being made: one sentence each, in the order of the
 * form, with the field it is about.
 */
#include "gui/dialogs/new-survey-private.h"
#include <glib/gi18n-lib.h>

static GtkWidget *
field (BondForm *form, BondFormText which)
{
  return form->text[which] != NULL ? GTK_WIDGET (form->text[which]) : NULL;
}

static gboolean
is_empty (BondForm *form, BondFormText which)
{
  g_autofree char *text = bond_form_text (form, which);

  return text == NULL;
}

/* --- one check each --- */

static const char *
check_airframe (BondForm *form, GtkWidget **widget)
{
  *widget = GTK_WIDGET (form->airframe);
  return bond_form_airframe (form) == NULL
             ? _ ("There is no airframe in the library. Put its file into the folder “airframes” first.")
             : NULL;
}

static const char *
check_registration (BondForm *form, GtkWidget **widget)
{
  *widget = field (form, BOND_FORM_REGISTRATION);
  return *widget != NULL && is_empty (form, BOND_FORM_REGISTRATION) ? _ ("Say the registration of the aircraft.")
                                                                    : NULL;
}

static const char *
check_serial (BondForm *form, GtkWidget **widget)
{
  *widget = field (form, BOND_FORM_SERIAL);
  return *widget != NULL && is_empty (form, BOND_FORM_SERIAL)
             ? _ ("Say the serial number of the aircraft: it stays when the registration changes.")
             : NULL;
}

static const char *
check_trigger (BondForm *form, GtkWidget **widget)
{
  g_autofree char *trigger = bond_form_trigger (form);

  *widget = field (form, BOND_FORM_OTHER_TRIGGER);
  if (trigger != NULL || !gtk_widget_get_sensitive (*widget))
    return NULL;
  return _ ("Say what started the survey, since you chose “other”.");
}

static const char *
check_day (BondForm *form, GtkWidget **widget)
{
  g_autofree char *day = bond_form_text (form, BOND_FORM_CHECKED_ON);
  g_autofree char *by = bond_form_text (form, BOND_FORM_CHECKED_BY);
  g_autofree char *now = bond_source_now (form->source);

  *widget = field (form, BOND_FORM_CHECKED_ON);
  if (day != NULL && (strlen (day) != strlen ("2026-11-24") || !bond_due_is_sound (day)))
    return _ ("Write the day the data was checked as year-month-day, for example 2026-11-24.");
  if (day != NULL && strncmp (day, now, strlen (day)) > 0)
    return _ ("The day the data was checked lies in the future.");
  if (day == NULL && by != NULL)
    return _ ("Say on which day the data was checked.");
  *widget = field (form, BOND_FORM_CHECKED_BY);
  return day != NULL && by == NULL ? _ ("Say who checked that the data is current.") : NULL;
}

static const char *
check_scope (BondForm *form, GtkWidget **widget)
{
  guint all = 0;

  *widget = GTK_WIDGET (form->zones);
  return bond_zone_tree_count (form->zones, &all) == 0 && all > 0
             ? _ ("Tick at least one zone: there is no point in scope.")
             : NULL;
}

static const char *
check_person (BondForm *form, GtkWidget **widget)
{
  *widget = form->person != NULL ? GTK_WIDGET (form->person) : field (form, BOND_FORM_NAME);
  return is_empty (form, BOND_FORM_NAME) && bond_form_chosen (form->person, form->people) == NULL
             ? _ ("Say who measures; every reading carries a name.")
             : NULL;
}

const char *
bond_form_find_problem (BondForm *form, GtkWidget **widget)
{
  static const char *(*const checks[]) (BondForm *, GtkWidget **)
      = { check_airframe, check_registration, check_serial, check_trigger, check_day, check_scope, check_person };

  for (gsize i = 0; i < G_N_ELEMENTS (checks); i++)
    {
      const char *problem = checks[i](form, widget);

      if (problem != NULL)
        return problem;
    }
  *widget = NULL;
  return NULL;
}
