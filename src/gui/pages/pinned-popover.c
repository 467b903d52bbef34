/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * The popover of the pinned state.  Where the limit row of the point in hand asks
 * for another measuring state, the summary says so: a reading taken in the wrong
 * state has no verdict.
 */
#include "gui/pages/pinned-popover.h"
#include "gui/dialog.h"
#include "gui/words.h"
#include <glib/gi18n-lib.h>

static const char *const connector_words[]
    = { N_ ("connectors not stated"), N_ ("connectors mated"), N_ ("connectors unmated") };
static const char *const mounting_words[] = { N_ ("place not stated"), N_ ("in place"), N_ ("isolated") };
static const int planned_counts[] = { 1, 2, 3, 4, 5 };

const char *
bond_connectors_words (BondConnectors connectors)
{
  g_return_val_if_fail ((guint)connectors < G_N_ELEMENTS (connector_words), "");
  return _ (connector_words[connectors]);
}

const char *
bond_mounting_words (BondMounting mounting)
{
  g_return_val_if_fail ((guint)mounting < G_N_ELEMENTS (mounting_words), "");
  return _ (mounting_words[mounting]);
}

static char *
range_name (const BondRange *range)
{
  g_autofree char *end
      = bond_words_quantity (&(BondQuantity){ .nohm = range->end }, bond_ohm_best_unit (range->end), 0);

  return g_strdup_printf (_ ("%s range"), end);
}

char *
bond_pinned_summary (BondWalk *walk)
{
  const BondPinned *pinned = bond_walk_get_pinned (walk);
  const BondRange *range = bond_walk_range (walk);
  BondPoint *point = bond_walk_get_point (walk);
  BondAsked asked = { BOND_CONNECTORS_ANY, BOND_MOUNTING_ANY, FALSE };
  g_autofree char *range_text = range != NULL ? range_name (range) : g_strdup (_ ("no range"));
  GString *text = g_string_new (range_text);

  if (point != NULL)
    asked = bond_point_get_asked (point);
  if (pinned->connectors != BOND_CONNECTORS_ANY)
    g_string_append_printf (text, ", %s", _ (connector_words[pinned->connectors]));
  if (pinned->mounting != BOND_MOUNTING_ANY)
    g_string_append_printf (text, ", %s", _ (mounting_words[pinned->mounting]));
  if (pinned->reference_end != NULL)
    g_string_append_printf (text, _ (", clip at %s"), pinned->reference_end);
  if (pinned->planned > 1)
    g_string_append_printf (text, _ (", mean of %d"), pinned->planned);
  if (point != NULL && bond_point_bare_since (point) != NULL)
    {
      g_autofree char *since = bond_words_when (bond_walk_get_survey (walk), bond_point_bare_since (point));

      g_string_append_printf (text, _ (", bare since %s"), since);
    }
  if (asked.connectors != BOND_CONNECTORS_ANY && asked.connectors != pinned->connectors)
    g_string_append_printf (text, _ ("; limit asks %s"), _ (connector_words[asked.connectors]));
  if (asked.mounting != BOND_MOUNTING_ANY && asked.mounting != pinned->mounting)
    g_string_append_printf (text, _ ("; limit asks %s"), _ (mounting_words[asked.mounting]));
  return g_string_free (text, FALSE);
}

typedef struct
{
  BondWalk *walk;
  GtkWidget *popover;
  GtkDropDown *range, *connectors, *mounting, *planned;
  GtkEditable *reference;
  gboolean filling;
} Popover;

static void
popover_free (gpointer data)
{
  Popover *self = data;

  g_clear_object (&self->walk);
  g_free (self);
}

static const BondInstrument *
instrument_of (Popover *self)
{
  const char *id = bond_walk_get_pinned (self->walk)->instrument;

  return id != NULL ? bond_survey_find_instrument (bond_walk_get_survey (self->walk), id) : NULL;
}

static void
unit_toggled_cb (GtkCheckButton *button, Popover *self)
{
  if (self->filling || !gtk_check_button_get_active (button))
    return;
  bond_walk_pin_unit (self->walk, GPOINTER_TO_INT (g_object_get_data (G_OBJECT (button), "unit")));
  gtk_popover_popdown (GTK_POPOVER (self->popover));
}

static void
changed_cb (Popover *self)
{
  const BondInstrument *instrument = instrument_of (self);
  guint range = self->range != NULL ? gtk_drop_down_get_selected (self->range) : GTK_INVALID_LIST_POSITION;
  g_autofree char *reference = NULL;

  if (self->filling)
    return;
  if (instrument != NULL && range < instrument->ranges->len)
    bond_walk_pin_range (self->walk, ((BondRange *)g_ptr_array_index (instrument->ranges, range))->id);
  reference = bond_dialog_text (self->reference);
  bond_walk_pin_state (self->walk, gtk_drop_down_get_selected (self->connectors),
                       gtk_drop_down_get_selected (self->mounting), reference,
                       planned_counts[gtk_drop_down_get_selected (self->planned)]);
}

static void
attach (GtkGrid *grid, int row, const char *name, GtkWidget *widget)
{
  GtkWidget *label = gtk_label_new (name);

  gtk_label_set_xalign (GTK_LABEL (label), 0);
  gtk_widget_add_css_class (label, "note");
  bond_name_widget (widget, name);
  gtk_grid_attach (grid, label, 0, row, 1, 1);
  gtk_grid_attach (grid, widget, 1, row, 1, 1);
}

static GtkDropDown *
add_choice (Popover *self, GtkGrid *grid, int row, const char *name, const char *const *words, guint n, guint selected)
{
  g_autoptr (GtkStringList) list = gtk_string_list_new (NULL);
  GtkWidget *drop;

  for (guint i = 0; i < n; i++)
    gtk_string_list_append (list, _ (words[i]));
  drop = gtk_drop_down_new (G_LIST_MODEL (g_object_ref (list)), NULL);
  gtk_drop_down_set_selected (GTK_DROP_DOWN (drop), selected);
  g_signal_connect_swapped (drop, "notify::selected", G_CALLBACK (changed_cb), self);
  attach (grid, row, name, drop);
  return GTK_DROP_DOWN (drop);
}

static void
add_units (Popover *self, GtkGrid *grid)
{
  GtkWidget *box = gtk_box_new (GTK_ORIENTATION_HORIZONTAL, 12);
  GtkCheckButton *group = NULL;

  for (int unit = 0; unit < BOND_N_UNITS; unit++)
    {
      GtkWidget *button = gtk_check_button_new_with_label (bond_unit_symbol (unit));

      g_object_set_data (G_OBJECT (button), "unit", GINT_TO_POINTER (unit));
      gtk_check_button_set_group (GTK_CHECK_BUTTON (button), group);
      gtk_check_button_set_active (GTK_CHECK_BUTTON (button), (int)bond_walk_get_pinned (self->walk)->unit == unit);
      bond_name_widget (button, bond_unit_spoken (unit));
      g_signal_connect (button, "toggled", G_CALLBACK (unit_toggled_cb), self);
      gtk_box_append (GTK_BOX (box), button);
      group = group != NULL ? group : GTK_CHECK_BUTTON (button);
    }
  attach (grid, 0, _ ("Unit"), box);
}

static void
add_ranges (Popover *self, GtkGrid *grid)
{
  const BondInstrument *instrument = instrument_of (self);
  const char *pinned = bond_walk_get_pinned (self->walk)->range;
  g_autoptr (GPtrArray) names = g_ptr_array_new_with_free_func (g_free);
  guint selected = GTK_INVALID_LIST_POSITION;

  self->range = NULL;
  if (instrument == NULL || instrument->ranges->len == 0)
    return;
  for (guint i = 0; i < instrument->ranges->len; i++)
    {
      const BondRange *range = g_ptr_array_index (instrument->ranges, i);

      g_ptr_array_add (names, range_name (range));
      if (g_strcmp0 (range->id, pinned) == 0)
        selected = i;
    }
  self->range = add_choice (self, grid, 1, _ ("Range"), (const char *const *)names->pdata, names->len, selected);
}

static void
fill_cb (Popover *self)
{
  static const char *const planned_words[] = { N_ ("single"), "2", "3", "4", "5" };
  const BondPinned *pinned = bond_walk_get_pinned (self->walk);
  GtkGrid *grid = GTK_GRID (gtk_grid_new ());

  self->filling = TRUE;
  gtk_grid_set_row_spacing (grid, 8);
  gtk_grid_set_column_spacing (grid, 12);
  add_units (self, grid);
  add_ranges (self, grid);
  self->connectors = add_choice (self, grid, 2, _ ("Connectors"), connector_words, G_N_ELEMENTS (connector_words),
                                 pinned->connectors);
  self->mounting
      = add_choice (self, grid, 3, _ ("Mounting"), mounting_words, G_N_ELEMENTS (mounting_words), pinned->mounting);
  self->planned = add_choice (self, grid, 4, _ ("Planned readings"), planned_words, G_N_ELEMENTS (planned_words),
                              CLAMP (pinned->planned, 1, 5) - 1);
  self->reference = GTK_EDITABLE (gtk_entry_new ());
  if (pinned->reference_end != NULL)
    gtk_editable_set_text (self->reference, pinned->reference_end);
  /* Moving the clip is an entry: it is recorded when the words are whole, with Enter or as the popover closes. */
  g_signal_connect_swapped (self->reference, "activate", G_CALLBACK (gtk_popover_popdown), self->popover);
  attach (grid, 5, _ ("Reference clip at"), GTK_WIDGET (self->reference));
  gtk_popover_set_child (GTK_POPOVER (self->popover), GTK_WIDGET (grid));
  self->filling = FALSE;
}

GtkWidget *
bond_pinned_popover_new (BondWalk *walk)
{
  Popover *self;

  g_return_val_if_fail (BOND_IS_WALK (walk), NULL);
  self = g_new0 (Popover, 1);
  self->walk = g_object_ref (walk);
  self->popover = gtk_popover_new ();
  g_object_set_data_full (G_OBJECT (self->popover), "bond-popover", self, popover_free);
  g_signal_connect_swapped (self->popover, "show", G_CALLBACK (fill_cb), self);
  g_signal_connect_swapped (self->popover, "closed", G_CALLBACK (changed_cb), self);
  bond_name_widget (self->popover, _ ("Unit, range and measuring state"));
  return self->popover;
}
