/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * The register of people: who measures, inspects and signs.
 */
#include "gui/dialog.h"
#include "gui/start/person-dialog.h"
#include "gui/start/register-page.h"
#include <glib/gi18n-lib.h>

#define PERSON_KEY "bond-person"

static const BondPerson *
person_of (GtkWidget *button)
{
  return g_object_get_data (G_OBJECT (button), PERSON_KEY);
}

static void
correct_cb (GtkWidget *button, BondRegisterPage *page)
{
  bond_person_dialog (page, person_of (button));
}

/* The row the button stands in goes away with the change, so the button must not be needed after it. */
static void
disable_cb (GtkWidget *button, BondRegisterPage *page)
{
  g_autoptr (BondPerson) person = bond_person_ref ((BondPerson *)person_of (button));

  bond_person_set_disabled (page, person, !person->disabled);
}

static void
add_button (GtkWidget *box, BondRegisterPage *page, const BondPerson *person, const char *label, GCallback clicked)
{
  GtkWidget *button = gtk_button_new_with_label (label);
  g_autofree char *name = g_strdup_printf ("%s, %s", label, person->name);

  g_object_set_data_full (G_OBJECT (button), PERSON_KEY, bond_person_ref ((BondPerson *)person),
                          (GDestroyNotify)bond_person_unref);
  g_signal_connect (button, "clicked", clicked, page);
  bond_name_widget (button, name);
  gtk_box_append (GTK_BOX (box), button);
}

static void
person_fill (BondRegisterPage *page, GtkBox *box, gconstpointer object)
{
  const BondPerson *person = object;
  GtkWidget *acts = gtk_box_new (GTK_ORIENTATION_HORIZONTAL, 8);
  g_autofree char *revision = g_strdup_printf ("%d", person->revision);

  bond_detail_heading (box, person->name);
  bond_detail_pair (box, _ ("Stamp"), person->stamp != NULL ? person->stamp : _ ("none"));
  bond_detail_pair (box, _ ("Role"), person->role != NULL ? person->role : _ ("not stated"));
  bond_detail_pair (box, _ ("Id"), person->id);
  bond_detail_pair (box, _ ("Revision"), revision);
  if (person->disabled)
    bond_detail_text (
        box, _ ("Disabled: cannot be chosen for new work. Surveys that name this person stay as they are."), "guard");
  gtk_widget_set_margin_top (acts, 12);
  add_button (acts, page, person, _ ("Correct…"), G_CALLBACK (correct_cb));
  add_button (acts, page, person, person->disabled ? _ ("Enable") : _ ("Disable"), G_CALLBACK (disable_cb));
  gtk_box_append (box, acts);
}

static char *
person_first (gconstpointer object)
{
  return g_strdup (((const BondPerson *)object)->name);
}

static char *
person_second (gconstpointer object)
{
  const BondPerson *person = object;
  GString *text = g_string_new (person->stamp != NULL ? person->stamp : "");

  if (person->role != NULL)
    g_string_append_printf (text, "%s%s", text->len > 0 ? ", " : "", person->role);
  if (person->disabled)
    g_string_append_printf (text, "%s%s", text->len > 0 ? ", " : "", _ ("disabled"));
  return g_string_free (text, FALSE);
}

static void
add_act (BondRegisterPage *page)
{
  bond_person_dialog (page, NULL);
}

GtkWidget *
bond_people_page_new (BondApplication *application)
{
  static const BondRegisterInfo info = {
    .what = BOND_ADOPT_PERSON,
    .folder = "people",
    .title = N_ ("People"),
    .note = N_ ("People are never deleted: readings and signatures refer to them. Disable who no longer works here."),
    .empty = N_ ("Nobody here yet. Add who measures, inspects and signs."),
    .first = person_first,
    .second = person_second,
    .fill = person_fill,
    .act_label = N_ ("_Add Person…"),
    .act = add_act,
  };

  return bond_register_page_new (application, &info);
}
