/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * Sets the filter of the model and shows what it counts.  A verdict that no row has
 * gets no chip.
 */
#include "gui/pages/readings-bar.h"
#include "gui/dialog.h"
#include "gui/widgets/mark-image.h"
#include <glib/gi18n-lib.h>

struct _BondReadingsBar
{
  GtkWidget parent_instance;
  BondReadingsModel *model;
  GtkWidget *box, *chips;
  GtkWidget *search;
  GtkDropDown *choice[BOND_N_READINGS_CHOICES];
  char **keys[BOND_N_READINGS_CHOICES];
  GtkWidget *all, *chip[BOND_N_MARKS];
  GtkLabel *all_label, *chip_label[BOND_N_MARKS], *shown_label;
  GtkWidget *clear_button;
  gboolean filling;
};

static guint leave;

/* One row a choice: the line that stands for no choice, and what the drop-down is called. */
static const struct
{
  const char *all, *name;
} choice_words[BOND_N_READINGS_CHOICES] = {
  [BOND_READINGS_CLASS] = { N_ ("All classes"), N_ ("Class") },
  [BOND_READINGS_ZONE] = { N_ ("All zones"), N_ ("Zone") },
  [BOND_READINGS_METER] = { N_ ("All meters"), N_ ("Meter") },
};

G_DEFINE_FINAL_TYPE (BondReadingsBar, bond_readings_bar, GTK_TYPE_WIDGET)

static void
counts_changed_cb (BondReadingsBar *self)
{
  guint total = bond_readings_model_count (self->model, BOND_READINGS_ALL);
  guint shown = bond_readings_model_get_shown (self->model);
  g_autofree char *all = g_strdup_printf (_ ("All %u"), total);
  g_autofree char *words
      = shown < total ? g_strdup_printf (_ ("%u of %u shown"), shown, total) : g_strdup_printf (_ ("%u shown"), total);

  gtk_label_set_text (self->all_label, all);
  gtk_label_set_text (self->shown_label, words);
  gtk_widget_set_visible (self->clear_button, shown < total);
  for (int i = 0; i < BOND_N_MARKS; i++)
    {
      guint count = bond_readings_model_count (self->model, i);
      g_autofree char *text = g_strdup_printf ("%u", count);
      g_autofree char *name
          = g_strdup_printf (ngettext ("Show %s, %u row", "Show %s, %u rows", count), bond_mark_name (i), count);

      gtk_label_set_text (self->chip_label[i], text);
      bond_name_widget (self->chip[i], name);
      gtk_widget_set_visible (self->chip[i],
                              count > 0 || gtk_toggle_button_get_active (GTK_TOGGLE_BUTTON (self->chip[i])));
    }
}

static const char *
chosen_key (BondReadingsBar *self, int choice)
{
  guint selected = gtk_drop_down_get_selected (self->choice[choice]);

  return self->keys[choice] == NULL || selected == 0 || selected == GTK_INVALID_LIST_POSITION
             ? NULL
             : self->keys[choice][selected - 1];
}

/* What was chosen stays chosen, if it is still there. */
static void
fill_choice (BondReadingsBar *self, int choice)
{
  g_autoptr (GtkStringList) names = gtk_string_list_new (NULL);
  g_autofree char *before = g_strdup (chosen_key (self, choice));
  guint selected = 0;

  self->filling = TRUE;
  g_strfreev (self->keys[choice]);
  self->keys[choice] = bond_readings_model_get_keys (self->model, choice);
  gtk_string_list_append (names, _ (choice_words[choice].all));
  for (guint i = 0; self->keys[choice][i] != NULL; i++)
    {
      g_autofree char *name = bond_readings_model_key_name (self->model, choice, self->keys[choice][i]);

      gtk_string_list_append (names, name);
      if (g_strcmp0 (before, self->keys[choice][i]) == 0)
        selected = i + 1;
    }
  gtk_drop_down_set_model (self->choice[choice], G_LIST_MODEL (names));
  gtk_drop_down_set_selected (self->choice[choice], selected);
  self->filling = FALSE;
  if (before != NULL && selected == 0)
    bond_readings_model_set_choice (self->model, choice, NULL);
}

/* A choice among one thing is none. */
static void
choices_changed_cb (BondReadingsBar *self)
{
  for (int i = 0; i < BOND_N_READINGS_CHOICES; i++)
    {
      fill_choice (self, i);
      gtk_widget_set_visible (GTK_WIDGET (self->choice[i]), g_strv_length (self->keys[i]) > 1);
    }
}

/* Meters come with readings: what can be chosen is asked anew when the page comes into sight. */
static void
map_cb (BondReadingsBar *self)
{
  choices_changed_cb (self);
}

static void
choice_selected_cb (GtkDropDown *drop, GParamSpec *pspec, BondReadingsBar *self)
{
  if (self->filling)
    return;
  for (int i = 0; i < BOND_N_READINGS_CHOICES; i++)
    if (self->choice[i] == drop)
      bond_readings_model_set_choice (self->model, i, chosen_key (self, i));
}

static void
chip_toggled_cb (GtkToggleButton *button, BondReadingsBar *self)
{
  int mark = BOND_READINGS_ALL;

  if (!gtk_toggle_button_get_active (button) || self->filling)
    return;
  for (int i = 0; i < BOND_N_MARKS; i++)
    if (self->chip[i] == GTK_WIDGET (button))
      mark = i;
  bond_readings_model_set_mark (self->model, mark);
}

static void
search_changed_cb (BondReadingsBar *self)
{
  bond_readings_model_set_search (self->model, gtk_editable_get_text (GTK_EDITABLE (self->search)));
}

static void
search_done_cb (BondReadingsBar *self)
{
  search_changed_cb (self);
  g_signal_emit (self, leave, 0);
}

static void
search_stop_cb (BondReadingsBar *self)
{
  gtk_editable_set_text (GTK_EDITABLE (self->search), "");
  search_done_cb (self);
}

static GtkWidget *
new_chip (BondReadingsBar *self, int mark, GtkLabel **label)
{
  GtkWidget *button = gtk_toggle_button_new ();
  GtkWidget *box = gtk_box_new (GTK_ORIENTATION_HORIZONTAL, 4);
  GtkWidget *words = gtk_label_new (NULL);

  if (mark >= 0)
    {
      GtkWidget *image = bond_mark_image_new ();

      bond_mark_image_set_mark (BOND_MARK_IMAGE (image), mark);
      gtk_box_append (GTK_BOX (box), image);
      gtk_widget_set_tooltip_text (button, bond_mark_name (mark));
      gtk_toggle_button_set_group (GTK_TOGGLE_BUTTON (button), GTK_TOGGLE_BUTTON (self->all));
    }
  gtk_widget_add_css_class (words, "number");
  gtk_box_append (GTK_BOX (box), words);
  gtk_button_set_child (GTK_BUTTON (button), box);
  gtk_widget_add_css_class (button, "chip");
  gtk_box_append (GTK_BOX (self->chips), button);
  *label = GTK_LABEL (words);
  return button;
}

static void
add_chips (BondReadingsBar *self)
{
  self->chips = gtk_box_new (GTK_ORIENTATION_HORIZONTAL, 2);
  self->all = new_chip (self, BOND_READINGS_ALL, &self->all_label);
  bond_name_widget (self->all, _ ("Show all rows"));
  gtk_toggle_button_set_active (GTK_TOGGLE_BUTTON (self->all), TRUE);
  for (int i = 0; i < BOND_N_MARKS; i++)
    self->chip[i] = new_chip (self, i, &self->chip_label[i]);
  g_signal_connect (self->all, "toggled", G_CALLBACK (chip_toggled_cb), self);
  for (int i = 0; i < BOND_N_MARKS; i++)
    g_signal_connect (self->chip[i], "toggled", G_CALLBACK (chip_toggled_cb), self);
}

static void
add_search (BondReadingsBar *self, GtkBox *row)
{
  self->search = gtk_search_entry_new ();
  g_object_set (self->search, "placeholder-text", _ ("Find point, name or zone"), NULL);
  bond_name_widget (self->search, _ ("Find point, name or zone"));
  gtk_widget_set_hexpand (self->search, TRUE);
  g_signal_connect_swapped (self->search, "search-changed", G_CALLBACK (search_changed_cb), self);
  g_signal_connect_swapped (self->search, "activate", G_CALLBACK (search_done_cb), self);
  g_signal_connect_swapped (self->search, "stop-search", G_CALLBACK (search_stop_cb), self);
  gtk_box_append (row, self->search);
}

static void
add_choices (BondReadingsBar *self, GtkBox *row)
{
  for (int i = 0; i < BOND_N_READINGS_CHOICES; i++)
    {
      self->choice[i] = GTK_DROP_DOWN (gtk_drop_down_new (NULL, NULL));
      bond_name_widget (self->choice[i], _ (choice_words[i].name));
      g_signal_connect (self->choice[i], "notify::selected", G_CALLBACK (choice_selected_cb), self);
      gtk_box_append (row, GTK_WIDGET (self->choice[i]));
    }
}

static void
bond_readings_bar_dispose (GObject *object)
{
  BondReadingsBar *self = BOND_READINGS_BAR (object);

  if (self->model != NULL)
    g_signal_handlers_disconnect_by_data (self->model, self);
  g_clear_pointer (&self->box, gtk_widget_unparent);
  for (int i = 0; i < BOND_N_READINGS_CHOICES; i++)
    g_clear_pointer (&self->keys[i], g_strfreev);
  g_clear_object (&self->model);
  G_OBJECT_CLASS (bond_readings_bar_parent_class)->dispose (object);
}

static void
bond_readings_bar_class_init (BondReadingsBarClass *klass)
{
  G_OBJECT_CLASS (klass)->dispose = bond_readings_bar_dispose;
  gtk_widget_class_set_layout_manager_type (GTK_WIDGET_CLASS (klass), GTK_TYPE_BIN_LAYOUT);
  leave = g_signal_new ("leave", BOND_TYPE_READINGS_BAR, G_SIGNAL_RUN_LAST, 0, NULL, NULL, NULL, G_TYPE_NONE, 0);
}

static void
bond_readings_bar_init (BondReadingsBar *self)
{
  self->box = gtk_box_new (GTK_ORIENTATION_VERTICAL, 4);
  gtk_widget_set_parent (self->box, GTK_WIDGET (self));
  gtk_widget_add_css_class (GTK_WIDGET (self), "readings-bar");
}

GtkWidget *
bond_readings_bar_new (BondReadingsModel *model, BondReadingsTable *table)
{
  BondReadingsBar *self;
  GtkWidget *top = gtk_box_new (GTK_ORIENTATION_HORIZONTAL, 8);
  GtkWidget *below = gtk_box_new (GTK_ORIENTATION_HORIZONTAL, 8);

  g_return_val_if_fail (BOND_IS_READINGS_MODEL (model) && BOND_IS_READINGS_TABLE (table), NULL);
  self = g_object_new (BOND_TYPE_READINGS_BAR, NULL);
  self->model = g_object_ref (model);
  add_search (self, GTK_BOX (top));
  add_choices (self, GTK_BOX (top));
  gtk_box_append (GTK_BOX (top), bond_readings_columns_button (table));
  add_chips (self);
  gtk_widget_set_hexpand (self->chips, TRUE);
  self->shown_label = GTK_LABEL (gtk_label_new (NULL));
  gtk_widget_add_css_class (GTK_WIDGET (self->shown_label), "note");
  self->clear_button = gtk_button_new_with_label (_ ("Clear"));
  gtk_button_set_has_frame (GTK_BUTTON (self->clear_button), FALSE);
  bond_name_widget (self->clear_button, _ ("Clear the filter"));
  g_signal_connect_swapped (self->clear_button, "clicked", G_CALLBACK (bond_readings_bar_clear), self);
  gtk_box_append (GTK_BOX (below), self->chips);
  gtk_box_append (GTK_BOX (below), GTK_WIDGET (self->shown_label));
  gtk_box_append (GTK_BOX (below), self->clear_button);
  gtk_box_append (GTK_BOX (self->box), top);
  gtk_box_append (GTK_BOX (self->box), below);
  g_signal_connect_swapped (model, "counts-changed", G_CALLBACK (counts_changed_cb), self);
  g_signal_connect_swapped (model, "choices-changed", G_CALLBACK (choices_changed_cb), self);
  g_signal_connect (self, "map", G_CALLBACK (map_cb), NULL);
  choices_changed_cb (self);
  counts_changed_cb (self);
  return GTK_WIDGET (self);
}

void
bond_readings_bar_find (BondReadingsBar *self)
{
  g_return_if_fail (BOND_IS_READINGS_BAR (self));
  gtk_widget_grab_focus (self->search);
  gtk_editable_select_region (GTK_EDITABLE (self->search), 0, -1);
}

void
bond_readings_bar_clear (BondReadingsBar *self)
{
  g_return_if_fail (BOND_IS_READINGS_BAR (self));
  self->filling = TRUE;
  gtk_editable_set_text (GTK_EDITABLE (self->search), "");
  gtk_toggle_button_set_active (GTK_TOGGLE_BUTTON (self->all), TRUE);
  for (int i = 0; i < BOND_N_READINGS_CHOICES; i++)
    gtk_drop_down_set_selected (self->choice[i], 0);
  self->filling = FALSE;
  bond_readings_model_clear (self->model);
}
