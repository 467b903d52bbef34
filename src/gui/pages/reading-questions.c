/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * The questions Enter may raise, inline below the field, each with its buttons.
 * While one stands Enter does nothing, so that a slip cannot be confirmed by habit.
 */
#include "gui/dialog.h"
#include "gui/pages/pinned-popover.h"
#include "gui/pages/reading-panel-private.h"
#include "gui/words.h"
#include <glib/gi18n-lib.h>

#define NBSP "\302\240"

void
bond_reading_panel_clear_ask (BondReadingPanel *self)
{
  GtkWidget *child;

  while ((child = gtk_widget_get_first_child (GTK_WIDGET (self->ask_box))) != NULL)
    gtk_flow_box_remove (self->ask_box, child);
  gtk_widget_set_visible (GTK_WIDGET (self->ask_box), FALSE);
  self->asked = FALSE;
  self->answered = BOND_ANSWER_NONE;
}

/* What the limit asks for is pinned; what it leaves open stays as it was. */
static void
pin_asked_state (BondReadingPanel *self)
{
  BondAsked asked = bond_point_get_asked (bond_walk_get_point (self->walk));
  const BondPinned *pinned = bond_walk_get_pinned (self->walk);

  bond_walk_pin_state (self->walk, asked.connectors != BOND_CONNECTORS_ANY ? asked.connectors : pinned->connectors,
                       asked.mounting != BOND_MOUNTING_ANY ? asked.mounting : pinned->mounting, pinned->reference_end,
                       pinned->planned);
}

static void
answer_cb (GtkButton *button, BondReadingPanel *self)
{
  BondAnswer answers = self->answered | GPOINTER_TO_INT (g_object_get_data (G_OBJECT (button), "answers"));
  const char *text = g_object_get_data (G_OBJECT (button), "text");
  const char *range = g_object_get_data (G_OBJECT (button), "range");

  if (g_object_get_data (G_OBJECT (button), "mark") != NULL)
    bond_walk_accept_mark (self->walk);
  if (g_object_get_data (G_OBJECT (button), "state") != NULL)
    pin_asked_state (self);
  if (range != NULL)
    bond_walk_pin_range (self->walk, range);
  if (text != NULL)
    {
      g_autofree char *kept = g_strdup (text);

      gtk_editable_set_text (GTK_EDITABLE (self->entry), kept); /* this ends the question and its buttons */
    }
  bond_reading_panel_clear_ask (self);
  bond_reading_panel_say (self, NULL, NULL);
  bond_reading_panel_refresh_entry (self);
  bond_reading_panel_record_with (self, answers);
  bond_reading_panel_grab_field (self);
}

static void
again_cb (BondReadingPanel *self)
{
  bond_reading_panel_clear_ask (self);
  bond_reading_panel_say (self, NULL, NULL);
  bond_reading_panel_refresh_entry (self);
  bond_reading_panel_grab_field (self);
  gtk_editable_select_region (GTK_EDITABLE (self->entry), 0, -1);
}

static GtkWidget *
add_answer (BondReadingPanel *self, const char *label, BondAnswer answers)
{
  GtkWidget *button = gtk_button_new_with_label (label);

  g_object_set_data (G_OBJECT (button), "answers", GINT_TO_POINTER (answers));
  bond_name_widget (button, label);
  g_signal_connect (button, "clicked", G_CALLBACK (answer_cb), self);
  gtk_flow_box_insert (self->ask_box, button, -1);
  gtk_widget_set_focusable (gtk_widget_get_parent (button), FALSE);
  return button;
}

/* The answer goes into the field with its unit; a value that was not asked about keeps the one it has. */
static void
add_unit_answer (BondReadingPanel *self, const BondAttempt *attempt, BondUnit unit)
{
  const char *asked = attempt->text.value[attempt->asked_value].text;
  g_autofree char *label = g_strconcat (asked, NBSP, bond_unit_symbol (unit), NULL);
  GString *text = g_string_new (NULL);

  for (int i = 0; i < attempt->text.n_values; i++)
    {
      const BondTypedValue *value = &attempt->text.value[i];

      g_string_append_printf (text, "%s%s%s", i > 0 ? " " : "", value->text,
                              bond_unit_symbol (attempt->slipped[i] ? unit : value->unit));
    }
  g_object_set_data_full (G_OBJECT (add_answer (self, label, BOND_ANSWER_UNIT)), "text", g_string_free (text, FALSE),
                          g_free);
}

static void
add_range_answer (BondReadingPanel *self, const BondAttempt *attempt)
{
  const BondInstrument *instrument
      = bond_survey_find_instrument (bond_walk_get_survey (self->walk), bond_walk_get_pinned (self->walk)->instrument);
  const BondRange *range = attempt->range != NULL ? bond_instrument_find_range (instrument, attempt->range) : NULL;
  g_autofree char *end = NULL;
  g_autofree char *label = NULL;

  if (range == NULL)
    return;
  end = bond_words_quantity (&(BondQuantity){ .nohm = range->end }, bond_ohm_best_unit (range->end), 0);
  label = g_strdup_printf (_ ("%s Range"), end);
  g_object_set_data_full (G_OBJECT (add_answer (self, label, BOND_ANSWER_NONE)), "range", g_strdup (range->id), g_free);
}

/* "As the limit asks" is pinned; the other answer records a reading that has no verdict, and says so. */
static void
add_state_answers (BondReadingPanel *self)
{
  BondAsked asked = bond_point_get_asked (bond_walk_get_point (self->walk));
  const char *connectors = bond_connectors_words (asked.connectors);
  const char *mounting = bond_mounting_words (asked.mounting);
  gboolean both = asked.connectors != BOND_CONNECTORS_ANY && asked.mounting != BOND_MOUNTING_ANY;
  g_autofree char *label = both ? g_strdup_printf ("%s, %s", connectors, mounting)
                                : g_strdup (asked.connectors != BOND_CONNECTORS_ANY ? connectors : mounting);

  g_object_set_data (G_OBJECT (add_answer (self, label, BOND_ANSWER_STATE)), "state", self);
  add_answer (self, _ ("Otherwise"), BOND_ANSWER_STATE);
}

void
bond_reading_panel_ask (BondReadingPanel *self, const BondAttempt *attempt)
{
  GtkWidget *again;

  bond_reading_panel_clear_ask (self);
  self->answered = attempt->answers;
  bond_reading_panel_say (self, "guard", attempt->words); /* red is for what does not conform */
  if (attempt->ask == BOND_ASK_ERROR)
    {
      g_autofree char *spoken = bond_reading_panel_spoken (self, attempt->words);

      bond_reading_entry_set_problem (self->entry, spoken);
      return;
    }
  if (attempt->ask == BOND_ASK_ZERO || attempt->ask == BOND_ASK_BELOW)
    {
      add_answer (self, _ ("Probes on Two Parts"), BOND_ANSWER_TWO_PARTS);
      add_answer (self, _ ("Not Sure"), BOND_ANSWER_NOT_SURE);
    }
  if (attempt->ask == BOND_ASK_METAL)
    {
      add_answer (self, _ ("Probes on Two Parts"), BOND_ANSWER_METAL);
      add_answer (self, _ ("Not Sure"), BOND_ANSWER_NOT_SURE);
    }
  if (attempt->ask == BOND_ASK_MARK)
    g_object_set_data (G_OBJECT (add_answer (self, _ ("Decimal Mark"), BOND_ANSWER_NONE)), "mark", self);
  if (attempt->ask == BOND_ASK_UNIT)
    {
      add_unit_answer (self, attempt, attempt->other);
      add_unit_answer (self, attempt, attempt->text.value[attempt->asked_value].unit);
    }
  if (attempt->ask == BOND_ASK_STATE)
    add_state_answers (self);
  if (attempt->ask == BOND_ASK_RANGE)
    add_range_answer (self, attempt);
  again = gtk_button_new_with_label (_ ("Type Again"));
  g_signal_connect_swapped (again, "clicked", G_CALLBACK (again_cb), self);
  gtk_flow_box_insert (self->ask_box, again, -1);
  gtk_widget_set_focusable (gtk_widget_get_parent (again), FALSE);
  gtk_widget_set_visible (GTK_WIDGET (self->ask_box), TRUE);
  self->asked = TRUE;
  bond_reading_panel_refresh_entry (self);
}
