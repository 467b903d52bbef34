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

/* Counted by the aircraft's own log, which parts thousands and minutes in its own way: kept as written. */
static gboolean
is_count (const char *text)
{
  if (!g_ascii_isdigit (*text))
    return FALSE;
  for (const char *at = text; *at != '\0'; at = g_utf8_next_char (at))
    {
      gunichar c = g_utf8_get_char (at);

      if (c >= 0x80 ? !g_unichar_isspace (c) : !g_ascii_isdigit (c) && strchr (" .,:'", (int)c) == NULL)
        return FALSE;
    }
  return TRUE;
}

static const char *
check_hours (BondForm *form, GtkWidget **widget)
{
  g_autofree char *text = bond_form_text (form, BOND_FORM_HOURS);

  *widget = field (form, BOND_FORM_HOURS);
  return text != NULL && !is_count (text) ? _ ("Write the hours in digits, for example 31204 or 31204:35.") : NULL;
}

static const char *
check_cycles (BondForm *form, GtkWidget **widget)
{
  g_autofree char *text = bond_form_text (form, BOND_FORM_CYCLES);

  *widget = field (form, BOND_FORM_CYCLES);
  return text != NULL && !is_count (text) ? _ ("Write the cycles in digits, for example 18877.") : NULL;
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

static const char *
check_disabled (BondForm *form, GtkWidget **widget)
{
  g_autoptr (GPtrArray) people
      = bond_catalog_list (bond_application_get_catalog (form->application), BOND_ADOPT_PERSON);
  g_autofree char *name = bond_form_text (form, BOND_FORM_NAME);
  gboolean disabled = FALSE;

  *widget = field (form, BOND_FORM_NAME);
  for (guint i = 0; name != NULL && i < people->len; i++)
    {
      const BondPerson *person = people->pdata[i];

      if (g_strcmp0 (person->name, name) != 0)
        continue;
      if (!person->disabled)
        return NULL;
      disabled = TRUE;
    }
  return disabled ? _ ("This person is disabled on the page People and cannot be chosen for new work.") : NULL;
}

const char *
bond_form_find_problem (BondForm *form, GtkWidget **widget)
{
  static const char *(*const checks[]) (BondForm *, GtkWidget **)
      = { check_airframe, check_registration, check_serial, check_trigger, check_hours,
          check_cycles,   check_day,          check_scope,  check_person,  check_disabled };

  for (gsize i = 0; i < G_N_ELEMENTS (checks); i++)
    {
      const char *problem = checks[i](form, widget);

      if (problem != NULL)
        return problem;
    }
  *widget = NULL;
  return NULL;
}
