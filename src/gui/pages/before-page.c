/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * The cautions name what has hurt people and aircraft in this work, and say who
 * decides: the maker's manual and the local rules, never this program.
 */
#include "gui/pages/before-page.h"
#include "gui/dialog.h"
#include "gui/instrument-chip.h"
#include "gui/words.h"
#include <glib/gi18n-lib.h>

struct _BondBeforePage
{
  GtkWidget parent_instance;
  BondWalk *walk;
  GtkWidget *scroll, *begin;
  GtkDropDown *person, *instrument;
  GtkEditable *name;
  GtkLabel *problem;
  GPtrArray *instruments; /* of const BondInstrument */
};

static guint begin_signal;

G_DEFINE_FINAL_TYPE (BondBeforePage, bond_before_page, GTK_TYPE_WIDGET)

/* Common practice of the trade, no source; local rules go further. */
static const char *const cautions[] = {
  N_ ("Fuel vapour: near tanks, vents and spills use only an instrument approved for it, after the space was cleared."),
  N_ ("Electro-explosive devices: made safe and disconnected before current is put through the structure near them."),
  N_ ("High test current: can heat a poor joint and harm equipment. Use the current the manual allows, and unplug what "
      "it names."),
  N_ ("The maker’s maintenance manual and your local rules govern. A limit shown here is only as good as its source."),
  N_ ("This program keeps and judges readings. It does not decide whether the aircraft may fly."),
  NULL,
};

const char *const *
bond_cautions (void)
{
  return cautions;
}

static void
take_person (BondBeforePage *self)
{
  GPtrArray *people = bond_survey_get_people (bond_walk_get_survey (self->walk));
  g_autofree char *name = bond_dialog_text (self->name);

  if (name != NULL)
    bond_add_person (self->walk, name);
  else if (people->len > 0)
    {
      const BondPerson *person = g_ptr_array_index (people, gtk_drop_down_get_selected (self->person));

      bond_walk_set_person (self->walk, person->id);
    }
}

gboolean
bond_before_page_begin (BondBeforePage *self)
{
  guint chosen;

  g_return_val_if_fail (BOND_IS_BEFORE_PAGE (self), FALSE);
  take_person (self);
  if (bond_survey_get_person (bond_walk_get_survey (self->walk)) == NULL)
    {
      gtk_label_set_text (self->problem, _ ("Say who measures; every reading carries a name."));
      gtk_widget_set_visible (GTK_WIDGET (self->problem), TRUE);
      gtk_widget_grab_focus (GTK_WIDGET (self->name));
      return FALSE;
    }
  chosen = gtk_drop_down_get_selected (self->instrument);
  if (chosen < self->instruments->len)
    bond_walk_pin_instrument (self->walk, ((BondInstrument *)g_ptr_array_index (self->instruments, chosen))->id);
  g_signal_emit (self, begin_signal, 0);
  return TRUE;
}

static void
begin_cb (BondBeforePage *self)
{
  bond_before_page_begin (self);
}

static void
bond_before_page_dispose (GObject *object)
{
  BondBeforePage *self = BOND_BEFORE_PAGE (object);

  g_clear_pointer (&self->scroll, gtk_widget_unparent);
  g_clear_pointer (&self->instruments, g_ptr_array_unref);
  g_clear_object (&self->walk);
  G_OBJECT_CLASS (bond_before_page_parent_class)->dispose (object);
}

static void
bond_before_page_class_init (BondBeforePageClass *klass)
{
  G_OBJECT_CLASS (klass)->dispose = bond_before_page_dispose;
  gtk_widget_class_set_layout_manager_type (GTK_WIDGET_CLASS (klass), GTK_TYPE_BIN_LAYOUT);
  begin_signal = g_signal_new ("begin", BOND_TYPE_BEFORE_PAGE, G_SIGNAL_RUN_LAST, 0, NULL, NULL, NULL, G_TYPE_NONE, 0);
}

static void
bond_before_page_init (BondBeforePage *self)
{
  self->instruments = g_ptr_array_new ();
}

static GtkWidget *
add_text (GtkWidget *box, const char *text, const char *css)
{
  GtkWidget *label = gtk_label_new (text);

  gtk_label_set_wrap (GTK_LABEL (label), TRUE);
  gtk_label_set_xalign (GTK_LABEL (label), 0);
  gtk_label_set_max_width_chars (GTK_LABEL (label), 70);
  if (css != NULL)
    gtk_widget_add_css_class (label, css);
  gtk_box_append (GTK_BOX (box), label);
  return label;
}

static void
attach (GtkGrid *grid, int row, const char *text, GtkWidget *widget)
{
  GtkWidget *label = gtk_label_new_with_mnemonic (text);
  g_autofree char *plain = g_strdup (gtk_label_get_text (GTK_LABEL (label)));

  gtk_label_set_xalign (GTK_LABEL (label), 0);
  gtk_label_set_mnemonic_widget (GTK_LABEL (label), widget);
  gtk_widget_add_css_class (label, "quiet");
  gtk_widget_set_hexpand (widget, TRUE);
  bond_name_widget (widget, plain);
  gtk_grid_attach (grid, label, 0, row, 1, 1);
  gtk_grid_attach (grid, widget, 1, row, 1, 1);
}

/* The person of the newest entry is offered first: mostly the same hand goes on. */
static guint
likely_person (BondSurvey *survey)
{
  GPtrArray *entries = bond_survey_get_entries (survey);
  GPtrArray *people = bond_survey_get_people (survey);
  const char *by = entries->len > 0 ? ((BondEntry *)g_ptr_array_index (entries, entries->len - 1))->by : NULL;

  for (guint i = 0; i < people->len; i++)
    if (g_strcmp0 (((BondPerson *)g_ptr_array_index (people, i))->id, by) == 0)
      return i;
  return 0;
}

static void
fill_choices (BondBeforePage *self, GtkGrid *grid)
{
  BondSurvey *survey = bond_walk_get_survey (self->walk);
  GPtrArray *people = bond_survey_get_people (survey);
  GPtrArray *instruments = bond_survey_get_instruments (survey);
  const char *pinned = bond_walk_get_pinned (self->walk)->instrument;
  GtkStringList *names = gtk_string_list_new (NULL);
  GtkStringList *meters = gtk_string_list_new (NULL);
  guint selected = 0;

  for (guint i = 0; i < people->len; i++)
    gtk_string_list_append (names, ((BondPerson *)g_ptr_array_index (people, i))->name);
  for (guint i = 0; i < instruments->len; i++)
    {
      BondInstrument *instrument = g_ptr_array_index (instruments, i);

      if (instrument->kind != BOND_INSTRUMENT_MILLIOHMMETER && instrument->kind != BOND_INSTRUMENT_MEGOHMMETER)
        continue;
      if (g_strcmp0 (instrument->id, pinned) == 0)
        selected = self->instruments->len;
      gtk_string_list_append (meters, instrument->name);
      g_ptr_array_add (self->instruments, instrument);
    }
  self->person = GTK_DROP_DOWN (gtk_drop_down_new (G_LIST_MODEL (names), NULL));
  self->instrument = GTK_DROP_DOWN (gtk_drop_down_new (G_LIST_MODEL (meters), NULL));
  self->name = GTK_EDITABLE (gtk_entry_new ());
  if (people->len > 0)
    gtk_drop_down_set_selected (self->person, likely_person (survey));
  if (self->instruments->len > 0)
    gtk_drop_down_set_selected (self->instrument, selected);
  attach (grid, 0, _ ("_Measured by"), GTK_WIDGET (self->person));
  attach (grid, 1, _ ("or _another name"), GTK_WIDGET (self->name));
  attach (grid, 2, _ ("_Instrument"), GTK_WIDGET (self->instrument));
  gtk_widget_set_sensitive (GTK_WIDGET (self->person), people->len > 0);
  gtk_widget_set_sensitive (GTK_WIDGET (self->instrument), self->instruments->len > 0);
  g_signal_connect_swapped (self->name, "activate", G_CALLBACK (begin_cb), self);
}

GtkWidget *
bond_before_page_new (BondWalk *walk)
{
  BondBeforePage *self = g_object_new (BOND_TYPE_BEFORE_PAGE, NULL);
  GtkWidget *box = gtk_box_new (GTK_ORIENTATION_VERTICAL, 12);
  GtkWidget *grid = gtk_grid_new ();

  self->walk = g_object_ref (walk);
  gtk_widget_set_halign (box, GTK_ALIGN_CENTER);
  gtk_widget_set_valign (box, GTK_ALIGN_CENTER);
  gtk_widget_set_margin_top (box, 24);
  gtk_widget_set_margin_bottom (box, 24);
  gtk_widget_set_margin_start (box, 24);
  gtk_widget_set_margin_end (box, 24);
  add_text (box, _ ("Before the Walk"), "page");
  for (int i = 0; cautions[i] != NULL; i++)
    add_text (box, _ (cautions[i]), NULL);
  gtk_box_append (GTK_BOX (box), gtk_separator_new (GTK_ORIENTATION_HORIZONTAL));
  gtk_grid_set_row_spacing (GTK_GRID (grid), 8);
  gtk_grid_set_column_spacing (GTK_GRID (grid), 12);
  fill_choices (self, GTK_GRID (grid));
  gtk_box_append (GTK_BOX (box), grid);
  self->problem = GTK_LABEL (add_text (box, "", "band"));
  gtk_widget_set_visible (GTK_WIDGET (self->problem), FALSE);
  self->begin = gtk_button_new_with_label (_ ("Begin the Walk"));
  gtk_widget_add_css_class (self->begin, "suggested-action");
  gtk_widget_add_css_class (self->begin, "record");
  bond_name_widget (self->begin, _ ("Begin the Walk"));
  g_signal_connect_swapped (self->begin, "clicked", G_CALLBACK (begin_cb), self);
  gtk_box_append (GTK_BOX (box), self->begin);
  self->scroll = gtk_scrolled_window_new ();
  gtk_scrolled_window_set_policy (GTK_SCROLLED_WINDOW (self->scroll), GTK_POLICY_NEVER, GTK_POLICY_AUTOMATIC);
  gtk_scrolled_window_set_child (GTK_SCROLLED_WINDOW (self->scroll), box);
  gtk_widget_set_parent (self->scroll, GTK_WIDGET (self));
  return GTK_WIDGET (self);
}

void
bond_before_page_grab_focus (BondBeforePage *self)
{
  g_return_if_fail (BOND_IS_BEFORE_PAGE (self));
  gtk_widget_grab_focus (self->begin);
}
