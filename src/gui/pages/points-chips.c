/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * A mark and a figure a chip; the words are for the tooltip and for who listens.
 * What a chosen chip hides is the pane's business.
 */
#include "gui/pages/points-chips.h"
#include "gui/dialog.h"
#include "gui/widgets/mark-image.h"
#include <glib/gi18n-lib.h>

struct _BondPointsChips
{
  GtkWidget parent_instance;
  GtkWidget *chip[BOND_N_POINTS_CHIPS];
  GtkLabel *label[BOND_N_POINTS_CHIPS];
};

/* One row a chip; no mark = the word "All". */
static const struct
{
  int mark;
  const char *name;
} chips[BOND_N_POINTS_CHIPS] = {
  { -1, N_ ("Show all points") },
  { BOND_MARK_TO_MEASURE, N_ ("Show points to measure") },
  { BOND_MARK_REMEASURE, N_ ("Show points to re-measure") },
  { BOND_MARK_WITHIN_PASS, N_ ("Show points within U of the limit") },
  { BOND_MARK_FAIL, N_ ("Show failed points") },
  { BOND_MARK_SUSPECT, N_ ("Show suspect and not accessible points") },
};

static guint chosen;

G_DEFINE_FINAL_TYPE (BondPointsChips, bond_points_chips, GTK_TYPE_WIDGET)

static void
toggled_cb (GtkToggleButton *button, BondPointsChips *self)
{
  if (!gtk_toggle_button_get_active (button))
    return;
  for (int i = 0; i < BOND_N_POINTS_CHIPS; i++)
    if (self->chip[i] == GTK_WIDGET (button))
      g_signal_emit (self, chosen, 0, i);
}

static void
add_chip (BondPointsChips *self, int chip)
{
  GtkWidget *button = gtk_toggle_button_new ();
  GtkWidget *box = gtk_box_new (GTK_ORIENTATION_HORIZONTAL, 4);
  GtkWidget *label = gtk_label_new (NULL);

  if (chips[chip].mark >= 0)
    {
      GtkWidget *mark = bond_mark_image_new ();

      bond_mark_image_set_mark (BOND_MARK_IMAGE (mark), chips[chip].mark);
      gtk_box_append (GTK_BOX (box), mark);
    }
  gtk_widget_add_css_class (label, "number");
  gtk_box_append (GTK_BOX (box), label);
  gtk_button_set_child (GTK_BUTTON (button), box);
  gtk_widget_add_css_class (button, "chip");
  gtk_widget_set_tooltip_text (button, _ (chips[chip].name));
  bond_name_widget (button, _ (chips[chip].name));
  if (chip > 0)
    gtk_toggle_button_set_group (GTK_TOGGLE_BUTTON (button), GTK_TOGGLE_BUTTON (self->chip[0]));
  else
    gtk_toggle_button_set_active (GTK_TOGGLE_BUTTON (button), TRUE);
  self->chip[chip] = button;
  self->label[chip] = GTK_LABEL (label);
  gtk_widget_set_parent (button, GTK_WIDGET (self));
  g_signal_connect (button, "toggled", G_CALLBACK (toggled_cb), self);
}

static void
bond_points_chips_dispose (GObject *object)
{
  BondPointsChips *self = BOND_POINTS_CHIPS (object);

  for (int i = 0; i < BOND_N_POINTS_CHIPS; i++)
    g_clear_pointer (&self->chip[i], gtk_widget_unparent);
  G_OBJECT_CLASS (bond_points_chips_parent_class)->dispose (object);
}

static void
bond_points_chips_class_init (BondPointsChipsClass *klass)
{
  G_OBJECT_CLASS (klass)->dispose = bond_points_chips_dispose;
  gtk_widget_class_set_layout_manager_type (GTK_WIDGET_CLASS (klass), GTK_TYPE_BOX_LAYOUT);
  gtk_widget_class_set_css_name (GTK_WIDGET_CLASS (klass), "bond-points-chips");
  gtk_widget_class_set_accessible_role (GTK_WIDGET_CLASS (klass), GTK_ACCESSIBLE_ROLE_GROUP);
  chosen = g_signal_new ("chosen", BOND_TYPE_POINTS_CHIPS, G_SIGNAL_RUN_LAST, 0, NULL, NULL, NULL, G_TYPE_NONE, 1,
                         G_TYPE_INT);
}

static void
bond_points_chips_init (BondPointsChips *self)
{
  for (int i = 0; i < BOND_N_POINTS_CHIPS; i++)
    add_chip (self, i);
}

void
bond_points_chips_show (BondPointsChips *self, const guint counts[BOND_N_POINTS_CHIPS])
{
  g_return_if_fail (BOND_IS_POINTS_CHIPS (self) && counts != NULL);
  for (int i = 0; i < BOND_N_POINTS_CHIPS; i++)
    {
      g_autofree char *count = g_strdup_printf (i == BOND_POINTS_ALL ? _ ("All %u") : "%u", counts[i]);
      g_autofree char *name
          = g_strdup_printf (ngettext ("%s, %u point", "%s, %u points", counts[i]), _ (chips[i].name), counts[i]);

      gtk_label_set_text (self->label[i], count);
      bond_name_widget (self->chip[i], name);
      gtk_widget_set_visible (self->chip[i], i == BOND_POINTS_ALL || counts[i] > 0
                                                 || gtk_toggle_button_get_active (GTK_TOGGLE_BUTTON (self->chip[i])));
    }
}

void
bond_points_chips_choose (BondPointsChips *self, int chip)
{
  g_return_if_fail (BOND_IS_POINTS_CHIPS (self) && chip >= 0 && chip < BOND_N_POINTS_CHIPS);
  gtk_toggle_button_set_active (GTK_TOGGLE_BUTTON (self->chip[chip]), TRUE);
}
