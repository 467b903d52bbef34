/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * Cautions are shown to each person once a day; who has read them today finds three
 * short lines and goes on with Enter.  Which cautions a survey has is the library's
 * to say; that they were acknowledged is an entry.
 */
#include "gui/pages/before-page.h"
#include "gui/dialog.h"
#include "gui/dialogs/people-popover.h"
#include "library/cautions.h"
#include <glib/gi18n-lib.h>

#define LEAST_CHARS 24 /* a column of cautions: at large text two of them still fit a small screen */
#define MOST_CHARS 64

struct _BondBeforePage
{
  GtkWidget parent_instance;
  BondWalk *walk;
  GtkWidget *box, *begin, *slot;
  GtkDropDown *person, *instrument;
  GtkEditable *name;
  GtkLabel *problem, *begin_label;
  GPtrArray *instruments; /* of const BondInstrument */
  GPtrArray *people;      /* of BondPerson */
  GPtrArray *unread;      /* of BondCaution: what the person chosen has still to read today */
};

static guint begin_signal;

G_DEFINE_FINAL_TYPE (BondBeforePage, bond_before_page, GTK_TYPE_WIDGET)

static GtkWidget *
add_text (GtkWidget *box, const char *text, const char *css)
{
  GtkWidget *label = gtk_label_new (text);

  gtk_label_set_wrap (GTK_LABEL (label), TRUE);
  gtk_label_set_xalign (GTK_LABEL (label), 0);
  gtk_label_set_yalign (GTK_LABEL (label), 0);
  if (css != NULL)
    gtk_widget_add_css_class (label, css);
  gtk_box_append (GTK_BOX (box), label);
  return label;
}

static GtkWidget *
new_caution (const BondCaution *caution)
{
  GtkWidget *box = gtk_box_new (GTK_ORIENTATION_VERTICAL, 1);
  g_autofree char *heading
      = caution->where != NULL
            ? g_strdup_printf (strchr (caution->where, ' ') != NULL ? _ ("%s: zones %s") : _ ("%s: zone %s"),
                               caution->heading, caution->where)
            : g_strdup (caution->heading);
  GtkWidget *label = add_text (box, heading, "strong");

  /* Whole, however many zones: who cannot see theirs takes it that the caution is not for them. */
  gtk_label_set_width_chars (GTK_LABEL (label), LEAST_CHARS);
  gtk_label_set_max_width_chars (GTK_LABEL (label), MOST_CHARS);
  label = add_text (box, caution->text, NULL);
  gtk_label_set_width_chars (GTK_LABEL (label), LEAST_CHARS);
  gtk_label_set_max_width_chars (GTK_LABEL (label), MOST_CHARS);
  gtk_widget_set_hexpand (box, TRUE);
  return box;
}

GtkWidget *
bond_caution_grid_new (GPtrArray *cautions)
{
  GtkWidget *grid = gtk_grid_new ();

  g_return_val_if_fail (cautions != NULL, grid);
  gtk_grid_set_column_homogeneous (GTK_GRID (grid), TRUE);
  gtk_grid_set_column_spacing (GTK_GRID (grid), 32);
  gtk_grid_set_row_spacing (GTK_GRID (grid), 10);
  for (guint i = 0; i < cautions->len; i++)
    gtk_grid_attach (GTK_GRID (grid), new_caution (g_ptr_array_index (cautions, i)), (int)i % 2, (int)i / 2, 1, 1);
  return grid;
}

/* --- who, and what they have still to read --- */

static const BondPerson *
chosen_person (BondBeforePage *self)
{
  guint chosen = gtk_drop_down_get_selected (self->person);

  if (*gtk_editable_get_text (self->name) != '\0' || chosen >= self->people->len)
    return NULL;
  return g_ptr_array_index (self->people, chosen);
}

static void
clear_slot (BondBeforePage *self)
{
  GtkWidget *child;

  while ((child = gtk_widget_get_first_child (self->slot)) != NULL)
    gtk_box_remove (GTK_BOX (self->slot), child);
}

static void
show_cautions (BondBeforePage *self)
{
  const BondPerson *person = chosen_person (self);
  const char *act;

  g_clear_pointer (&self->unread, g_ptr_array_unref);
  self->unread = bond_cautions_unread (bond_walk_get_survey (self->walk), person != NULL ? person->id : NULL);
  clear_slot (self);
  if (person == NULL || self->unread->len > 0)
    {
      add_text (self->slot, bond_cautions_preface (), "quiet");
      gtk_box_append (GTK_BOX (self->slot), bond_caution_grid_new (self->unread));
    }
  else
    {
      g_autofree char *words = g_strdup_printf (_ ("%s has acknowledged today’s cautions."), person->name);

      add_text (self->slot, words, "quiet");
    }
  act = self->unread->len > 0 ? _ ("I Have Read This: Begin the Walk") : _ ("Begin the Walk");
  gtk_label_set_text (self->begin_label, act);
  bond_name_widget (self->begin, act);
}

static void
take_person (BondBeforePage *self)
{
  g_autofree char *name = bond_dialog_text (self->name);
  const BondPerson *person = chosen_person (self);

  if (name != NULL)
    bond_add_person (self->walk, name);
  else if (person != NULL)
    bond_walk_set_person (self->walk, person->id);
}

gboolean
bond_before_page_begin (BondBeforePage *self)
{
  BondSurvey *survey;
  guint chosen;

  g_return_val_if_fail (BOND_IS_BEFORE_PAGE (self), FALSE);
  survey = bond_walk_get_survey (self->walk);
  take_person (self);
  if (bond_survey_get_person (survey) == NULL)
    {
      gtk_label_set_text (self->problem, _ ("Say who measures; every reading carries a name."));
      gtk_widget_set_visible (GTK_WIDGET (self->problem), TRUE);
      gtk_widget_grab_focus (GTK_WIDGET (self->name));
      return FALSE;
    }
  if (self->unread->len > 0)
    bond_walk_record_entry (self->walk, bond_cautions_entry (self->unread, bond_survey_get_person (survey)));
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

  g_clear_pointer (&self->box, gtk_widget_unparent);
  g_clear_pointer (&self->instruments, g_ptr_array_unref);
  g_clear_pointer (&self->people, g_ptr_array_unref);
  g_clear_pointer (&self->unread, g_ptr_array_unref);
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

/* --- building --- */

static void
attach (GtkWidget *grid, int column, const char *text, GtkWidget *widget)
{
  GtkWidget *label = gtk_label_new_with_mnemonic (text);

  gtk_label_set_xalign (GTK_LABEL (label), 0);
  gtk_label_set_mnemonic_widget (GTK_LABEL (label), widget);
  gtk_widget_add_css_class (label, "quiet");
  gtk_widget_set_hexpand (widget, TRUE);
  gtk_grid_attach (GTK_GRID (grid), label, column, 0, 1, 1);
  gtk_grid_attach (GTK_GRID (grid), widget, column, 1, 1, 1);
}

/* The person of the newest entry is offered first: mostly the same hand goes on. */
static guint
likely_person (BondBeforePage *self)
{
  GPtrArray *entries = bond_survey_get_entries (bond_walk_get_survey (self->walk));
  const char *by = entries->len > 0 ? ((BondEntry *)g_ptr_array_index (entries, entries->len - 1))->by : NULL;

  for (guint i = 0; i < self->people->len; i++)
    if (g_strcmp0 (((BondPerson *)g_ptr_array_index (self->people, i))->id, by) == 0)
      return i;
  return 0;
}

static GtkDropDown *
new_people_drop (BondBeforePage *self)
{
  GtkStringList *names = gtk_string_list_new (NULL);
  GtkWidget *drop = gtk_drop_down_new (G_LIST_MODEL (names), NULL);

  for (guint i = 0; i < self->people->len; i++)
    gtk_string_list_append (names, ((BondPerson *)g_ptr_array_index (self->people, i))->name);
  if (self->people->len > 0)
    gtk_drop_down_set_selected (GTK_DROP_DOWN (drop), likely_person (self));
  gtk_widget_set_sensitive (drop, self->people->len > 0);
  return GTK_DROP_DOWN (drop);
}

static GtkDropDown *
new_instrument_drop (BondBeforePage *self)
{
  GPtrArray *instruments = bond_survey_get_instruments (bond_walk_get_survey (self->walk));
  const char *pinned = bond_walk_get_pinned (self->walk)->instrument;
  GtkStringList *meters = gtk_string_list_new (NULL);
  GtkWidget *drop = gtk_drop_down_new (G_LIST_MODEL (meters), NULL);
  guint selected = 0;

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
  if (self->instruments->len > 0)
    gtk_drop_down_set_selected (GTK_DROP_DOWN (drop), selected);
  gtk_widget_set_sensitive (drop, self->instruments->len > 0);
  return GTK_DROP_DOWN (drop);
}

static GtkWidget *
build_choices (BondBeforePage *self)
{
  GtkWidget *grid = gtk_grid_new ();

  gtk_grid_set_column_spacing (GTK_GRID (grid), 16);
  gtk_grid_set_row_spacing (GTK_GRID (grid), 2);
  self->people = bond_people_listed (bond_walk_get_survey (self->walk), NULL);
  self->person = new_people_drop (self);
  self->name = GTK_EDITABLE (gtk_entry_new ());
  self->instrument = new_instrument_drop (self);
  attach (grid, 0, _ ("_Measured by"), GTK_WIDGET (self->person));
  attach (grid, 1, _ ("or _another name"), GTK_WIDGET (self->name));
  attach (grid, 2, _ ("_Instrument"), GTK_WIDGET (self->instrument));
  g_signal_connect_swapped (self->name, "activate", G_CALLBACK (begin_cb), self);
  g_signal_connect_swapped (self->name, "changed", G_CALLBACK (show_cautions), self);
  g_signal_connect_swapped (self->person, "notify::selected", G_CALLBACK (show_cautions), self);
  return grid;
}

static GtkWidget *
build_begin (BondBeforePage *self)
{
  GtkWidget *line = gtk_box_new (GTK_ORIENTATION_HORIZONTAL, 8);
  GtkWidget *key = gtk_label_new (_ ("Enter"));

  self->begin = gtk_button_new ();
  self->begin_label = GTK_LABEL (gtk_label_new (NULL));
  gtk_widget_set_halign (line, GTK_ALIGN_CENTER);
  gtk_widget_add_css_class (key, "key");
  gtk_widget_set_valign (key, GTK_ALIGN_CENTER);
  gtk_box_append (GTK_BOX (line), GTK_WIDGET (self->begin_label));
  gtk_box_append (GTK_BOX (line), key);
  gtk_button_set_child (GTK_BUTTON (self->begin), line);
  gtk_widget_add_css_class (self->begin, "suggested-action");
  gtk_widget_add_css_class (self->begin, "record");
  g_signal_connect_swapped (self->begin, "clicked", G_CALLBACK (begin_cb), self);
  return self->begin;
}

/*
 * The cautions scroll where the window is very low; what goes on stands below them,
 * always in sight.  The focus stops there: text alone could not be scrolled by keys,
 * and a scroller without anything to focus that refuses it lets no Tab pass.
 */
static GtkWidget *
build_cautions (BondBeforePage *self)
{
  GtkWidget *scroll = gtk_scrolled_window_new ();

  self->slot = gtk_box_new (GTK_ORIENTATION_VERTICAL, 12);
  gtk_scrolled_window_set_policy (GTK_SCROLLED_WINDOW (scroll), GTK_POLICY_NEVER, GTK_POLICY_AUTOMATIC);
  gtk_scrolled_window_set_propagate_natural_height (GTK_SCROLLED_WINDOW (scroll), TRUE);
  /* Without it the columns get their least width, and fewer lines are reserved than the texts then have. */
  gtk_scrolled_window_set_propagate_natural_width (GTK_SCROLLED_WINDOW (scroll), TRUE);
  gtk_scrolled_window_set_overlay_scrolling (GTK_SCROLLED_WINDOW (scroll), FALSE); /* it would lie on the text */
  gtk_scrolled_window_set_child (GTK_SCROLLED_WINDOW (scroll), self->slot);
  bond_name_widget (scroll, _ ("Cautions"));
  return scroll;
}

GtkWidget *
bond_before_page_new (BondWalk *walk)
{
  BondBeforePage *self = g_object_new (BOND_TYPE_BEFORE_PAGE, NULL);

  self->walk = g_object_ref (walk);
  self->box = gtk_box_new (GTK_ORIENTATION_VERTICAL, 12);
  gtk_widget_set_halign (self->box, GTK_ALIGN_CENTER);
  gtk_widget_set_valign (self->box, GTK_ALIGN_CENTER);
  gtk_widget_set_margin_top (self->box, 16);
  gtk_widget_set_margin_bottom (self->box, 16);
  gtk_widget_set_margin_start (self->box, 24);
  gtk_widget_set_margin_end (self->box, 24);
  add_text (self->box, _ ("Before the Walk"), "page");
  gtk_box_append (GTK_BOX (self->box), build_cautions (self));
  gtk_box_append (GTK_BOX (self->box), gtk_separator_new (GTK_ORIENTATION_HORIZONTAL));
  gtk_box_append (GTK_BOX (self->box), build_choices (self));
  self->problem = GTK_LABEL (add_text (self->box, "", "band"));
  gtk_widget_set_visible (GTK_WIDGET (self->problem), FALSE);
  gtk_box_append (GTK_BOX (self->box), build_begin (self));
  gtk_widget_set_parent (self->box, GTK_WIDGET (self));
  show_cautions (self);
  return GTK_WIDGET (self);
}

void
bond_before_page_grab_focus (BondBeforePage *self)
{
  g_return_if_fail (BOND_IS_BEFORE_PAGE (self));
  gtk_widget_grab_focus (self->begin);
}
