/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * A box that can have the focus.  What is told in it, and how it is read, is left to
 * who fills it.
 */
#include "gui/details/details-part.h"
#include "gui/dialog.h"

struct _BondDetailsPart
{
  GtkWidget parent_instance;
  GtkWidget *box;
};

G_DEFINE_FINAL_TYPE (BondDetailsPart, bond_details_part, GTK_TYPE_WIDGET)

static void
bond_details_part_dispose (GObject *object)
{
  g_clear_pointer (&BOND_DETAILS_PART (object)->box, gtk_widget_unparent);
  G_OBJECT_CLASS (bond_details_part_parent_class)->dispose (object);
}

static void
bond_details_part_class_init (BondDetailsPartClass *klass)
{
  GtkWidgetClass *widget_class = GTK_WIDGET_CLASS (klass);

  G_OBJECT_CLASS (klass)->dispose = bond_details_part_dispose;
  gtk_widget_class_set_layout_manager_type (widget_class, GTK_TYPE_BIN_LAYOUT);
  gtk_widget_class_set_css_name (widget_class, "bond-details-part");
  gtk_widget_class_set_accessible_role (widget_class, GTK_ACCESSIBLE_ROLE_GROUP);
}

static void
bond_details_part_init (BondDetailsPart *self)
{
  self->box = gtk_box_new (GTK_ORIENTATION_VERTICAL, 6);
  gtk_widget_set_parent (self->box, GTK_WIDGET (self));
}

GtkWidget *
bond_details_part_new (void)
{
  return g_object_new (BOND_TYPE_DETAILS_PART, NULL);
}

GtkBox *
bond_details_part_get_box (BondDetailsPart *self)
{
  g_return_val_if_fail (BOND_IS_DETAILS_PART (self), NULL);
  return GTK_BOX (self->box);
}

void
bond_details_part_speak (BondDetailsPart *self, const char *text)
{
  g_return_if_fail (BOND_IS_DETAILS_PART (self));
  gtk_widget_set_focusable (GTK_WIDGET (self), text != NULL);
  if (text != NULL)
    bond_name_widget (self, text);
}
