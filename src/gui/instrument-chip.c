/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * The chip and its popover, filled anew each time it opens.  Whether the instrument
 * may be used today is the walk's to say; the chip only shows it.
 */
#include "gui/instrument-chip.h"
#include "gui/dialog.h"
#include "gui/words.h"
#include <glib/gi18n-lib.h>

typedef struct
{
  BondWalk *walk;
  BondCatalog *catalog;
  GtkWidget *button, *popover;
  GtkLabel *label;
} Chip;

static void
chip_free (gpointer data)
{
  Chip *chip = data;

  g_signal_handlers_disconnect_by_data (chip->walk, chip);
  g_clear_object (&chip->walk);
  g_free (chip);
}

static void
refresh (Chip *chip)
{
  BondSurvey *survey = bond_walk_get_survey (chip->walk);
  const BondPinned *pinned = bond_walk_get_pinned (chip->walk);
  const BondInstrument *instrument
      = pinned->instrument != NULL ? bond_survey_find_instrument (survey, pinned->instrument) : NULL;
  g_autofree char *problem = bond_walk_instrument_problem (chip->walk);
  const char *text = instrument != NULL ? instrument->name : _ ("no instrument");
  g_autofree char *name = g_strdup_printf (_ ("Instrument: %s"), text);

  gtk_label_set_text (chip->label, text);
  gtk_widget_set_tooltip_text (chip->button, problem != NULL ? problem : name);
  (problem != NULL ? gtk_widget_add_css_class : gtk_widget_remove_css_class) (GTK_WIDGET (chip->label), "guard");
  bond_name_widget (chip->button, name);
}

static void
instrument_chosen_cb (GtkCheckButton *button, Chip *chip)
{
  BondInstrument *adopt = g_object_get_data (G_OBJECT (button), "adopt");
  g_autofree char *id = g_strdup (g_object_get_data (G_OBJECT (button), "id"));

  if (!gtk_check_button_get_active (button))
    return;
  if (adopt != NULL)
    bond_walk_record_entry (chip->walk, bond_entry_adopt_new (BOND_ADOPT_INSTRUMENT, adopt));
  bond_walk_pin_instrument (chip->walk, id);
  gtk_popover_popdown (GTK_POPOVER (chip->popover));
}

static GtkCheckButton *
add_radio (GtkWidget *box, const char *label, const char *id, gboolean active, GtkCheckButton *group)
{
  GtkWidget *button = gtk_check_button_new_with_label (label);

  gtk_check_button_set_group (GTK_CHECK_BUTTON (button), group);
  gtk_check_button_set_active (GTK_CHECK_BUTTON (button), active);
  g_object_set_data_full (G_OBJECT (button), "id", g_strdup (id), g_free);
  bond_name_widget (button, label);
  gtk_box_append (GTK_BOX (box), button);
  return GTK_CHECK_BUTTON (button);
}

static void
add_heading (GtkWidget *box, const char *text)
{
  GtkWidget *label = gtk_label_new (text);

  gtk_label_set_xalign (GTK_LABEL (label), 0);
  gtk_widget_add_css_class (label, "section");
  gtk_box_append (GTK_BOX (box), label);
}

static char *
instrument_words (const BondInstrument *instrument)
{
  g_autofree char *due = instrument->due != NULL ? bond_words_date (instrument->due) : NULL;

  if (due == NULL)
    return g_strdup (instrument->name);
  return g_strdup_printf (_ ("%s, due %s"), instrument->name, due);
}

static gboolean
measures (const BondInstrument *instrument)
{
  return instrument->kind == BOND_INSTRUMENT_MILLIOHMMETER || instrument->kind == BOND_INSTRUMENT_MEGOHMMETER;
}

static GtkCheckButton *
add_instruments (Chip *chip, GtkWidget *box, GPtrArray *instruments, gboolean adopt, GtkCheckButton *group)
{
  BondSurvey *survey = bond_walk_get_survey (chip->walk);
  const char *pinned = bond_walk_get_pinned (chip->walk)->instrument;

  for (guint i = 0; instruments != NULL && i < instruments->len; i++)
    {
      BondInstrument *instrument = g_ptr_array_index (instruments, i);
      g_autofree char *words = instrument_words (instrument);
      GtkCheckButton *button;

      if (!measures (instrument) || (adopt && bond_survey_find_instrument (survey, instrument->id) != NULL))
        continue;
      button = add_radio (box, words, instrument->id, g_strcmp0 (instrument->id, pinned) == 0, group);
      group = group != NULL ? group : button;
      if (adopt)
        g_object_set_data_full (G_OBJECT (button), "adopt", bond_instrument_ref (instrument),
                                (GDestroyNotify)bond_instrument_unref);
      g_signal_connect (button, "toggled", G_CALLBACK (instrument_chosen_cb), chip);
    }
  return group;
}

static void
fill_cb (Chip *chip)
{
  GtkWidget *box = gtk_box_new (GTK_ORIENTATION_VERTICAL, 6);
  g_autoptr (GPtrArray) more = NULL;
  GtkCheckButton *group;

  add_heading (box, _ ("Instrument"));
  group = add_instruments (chip, box, bond_survey_get_instruments (bond_walk_get_survey (chip->walk)), FALSE, NULL);
  if (chip->catalog != NULL)
    {
      more = bond_catalog_list (chip->catalog, BOND_ADOPT_INSTRUMENT);
      add_instruments (chip, box, more, TRUE, group);
    }
  gtk_popover_set_child (GTK_POPOVER (chip->popover), box);
}

GtkWidget *
bond_instrument_chip_new (BondWalk *walk, BondCatalog *catalog)
{
  Chip *chip = g_new0 (Chip, 1);

  chip->walk = g_object_ref (walk);
  chip->catalog = catalog;
  chip->button = gtk_menu_button_new ();
  chip->label = GTK_LABEL (gtk_label_new (NULL));
  chip->popover = gtk_popover_new ();
  gtk_label_set_ellipsize (chip->label, PANGO_ELLIPSIZE_END);
  gtk_label_set_max_width_chars (chip->label, 16);
  gtk_widget_add_css_class (GTK_WIDGET (chip->label), "strong");
  gtk_menu_button_set_child (GTK_MENU_BUTTON (chip->button), GTK_WIDGET (chip->label));
  gtk_menu_button_set_always_show_arrow (GTK_MENU_BUTTON (chip->button), TRUE);
  gtk_menu_button_set_has_frame (GTK_MENU_BUTTON (chip->button), FALSE);
  gtk_menu_button_set_popover (GTK_MENU_BUTTON (chip->button), chip->popover);
  bond_name_widget (chip->popover, _ ("Instrument"));
  g_signal_connect_swapped (chip->popover, "show", G_CALLBACK (fill_cb), chip);
  g_signal_connect_swapped (walk, "pinned-changed", G_CALLBACK (refresh), chip);
  g_signal_connect_swapped (walk, "recorded", G_CALLBACK (refresh), chip);
  g_object_set_data_full (G_OBJECT (chip->button), "bond-chip", chip, chip_free);
  refresh (chip);
  return chip->button;
}
