/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * People are never deleted and their ids never used again: signatures and readings
 * refer to them for as long as the aircraft flies.  A correction is a new revision;
 * surveys keep the one they were made with.
 */
#include "gui/start/person-dialog.h"
#include "gui/dialog.h"
#include <glib/gi18n-lib.h>

typedef struct
{
  BondRegisterPage *page; /* outlives the dialog: it is in the window the dialog belongs to */
  BondPerson *person;     /* NULL = new */
  GtkEditable *name, *stamp, *role;
  BondDialog *dialog;
} Form;

static void
form_free (gpointer data)
{
  Form *form = data;

  g_clear_pointer (&form->person, bond_person_unref);
  g_free (form);
}

static BondPerson *
next_revision (const BondPerson *from, BondSource *source, const char *name, const char *stamp, const char *role)
{
  g_autofree char *id = from != NULL ? g_strdup (from->id) : bond_source_id (source, "p-");
  BondPerson *person = bond_person_new (id, from != NULL ? from->revision + 1 : 1, name, stamp, role);

  person->disabled = from != NULL && from->disabled;
  return person;
}

/* Two people of one name are told apart by their stamps, so one of the two must differ. */
static const BondPerson *
find_same (BondCatalog *catalog, const BondPerson *person)
{
  g_autoptr (GPtrArray) people = bond_catalog_list (catalog, BOND_ADOPT_PERSON);

  for (guint i = 0; i < people->len; i++)
    {
      const BondPerson *other = people->pdata[i];

      if (g_strcmp0 (other->id, person->id) != 0 && g_strcmp0 (other->name, person->name) == 0
          && g_strcmp0 (other->stamp, person->stamp) == 0)
        return other;
    }
  return NULL;
}

static gboolean
save (BondRegisterPage *page, BondPerson *person, GError **error)
{
  BondCatalog *catalog = bond_application_get_catalog (bond_register_page_get_application (page));

  if (!bond_catalog_save (catalog, BOND_ADOPT_PERSON, person, error))
    return FALSE;
  bond_register_page_refill (page, person->id);
  return TRUE;
}

static gboolean
person_act (BondDialog *dialog, gpointer data)
{
  Form *form = data;
  BondApplication *application = bond_register_page_get_application (form->page);
  g_autofree char *name = bond_dialog_text (form->name);
  g_autofree char *stamp = bond_dialog_text (form->stamp);
  g_autofree char *role = bond_dialog_text (form->role);
  g_autoptr (BondPerson) person = NULL;
  g_autoptr (GError) error = NULL;

  if (name == NULL)
    {
      bond_dialog_set_problem (dialog, _ ("A name is needed: it is printed beside every reading."));
      gtk_widget_grab_focus (GTK_WIDGET (form->name));
      return FALSE;
    }
  person = next_revision (form->person, bond_application_get_source (application), name, stamp, role);
  if (find_same (bond_application_get_catalog (application), person) != NULL)
    {
      bond_dialog_set_problem (dialog, _ ("There is somebody of this name and stamp already. Give the stamp that tells "
                                          "the two apart, or choose the one there is."));
      gtk_widget_grab_focus (GTK_WIDGET (form->stamp));
      return FALSE;
    }
  if (save (form->page, person, &error))
    return TRUE;
  bond_dialog_set_problem (dialog, error->message);
  return FALSE;
}

static void
typed_cb (Form *form)
{
  bond_dialog_set_problem (form->dialog, NULL);
}

void
bond_person_dialog (BondRegisterPage *page, const BondPerson *person)
{
  Form *form;
  GtkWindow *parent;
  GtkEditable *entries[3];

  g_return_if_fail (BOND_IS_REGISTER_PAGE (page));
  form = g_new0 (Form, 1);
  form->page = page;
  form->person = person != NULL ? bond_person_ref ((BondPerson *)person) : NULL;
  parent = GTK_WINDOW (gtk_widget_get_root (GTK_WIDGET (page)));
  form->dialog = bond_dialog_new (parent, person != NULL ? _ ("Correct Person") : _ ("Add Person"),
                                  person != NULL ? _ ("Save") : _ ("Add"), person_act, form, form_free);
  form->name = entries[0] = bond_dialog_add_entry (form->dialog, _ ("_Name"), person != NULL ? person->name : NULL);
  form->stamp = entries[1] = bond_dialog_add_entry (form->dialog, _ ("S_tamp"), person != NULL ? person->stamp : NULL);
  form->role = entries[2] = bond_dialog_add_entry (form->dialog, _ ("_Role"), person != NULL ? person->role : NULL);
  if (person != NULL)
    bond_dialog_add_text (form->dialog, _ ("Surveys made before keep the entry as it was."));
  for (gsize i = 0; i < G_N_ELEMENTS (entries); i++)
    g_signal_connect_swapped (entries[i], "changed", G_CALLBACK (typed_cb), form);
  gtk_window_present (GTK_WINDOW (form->dialog));
  gtk_widget_grab_focus (GTK_WIDGET (form->name));
}

void
bond_person_set_disabled (BondRegisterPage *page, const BondPerson *person, gboolean disabled)
{
  g_autoptr (BondPerson) next = NULL;
  g_autoptr (GError) error = NULL;

  g_return_if_fail (BOND_IS_REGISTER_PAGE (page) && person != NULL);
  next = next_revision (person, NULL, person->name, person->stamp, person->role);
  next->disabled = disabled;
  if (!save (page, next, &error))
    bond_message (GTK_WINDOW (gtk_widget_get_root (GTK_WIDGET (page))), _ ("Not Saved"), error->message);
}
