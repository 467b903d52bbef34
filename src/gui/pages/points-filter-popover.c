/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * Five choices and four ticks, filled each time the popover opens: it offers only
 * what there is in the survey, so that no choice leads to an empty list by itself.
 */
#include "gui/pages/points-filter-popover.h"
#include "gui/dialog.h"
#include <glib/gi18n-lib.h>

#define SEARCH_FROM 12 /* names in a choice from which it has a search of its own */

typedef struct _Popover Popover;

/* One row a choice: what it offers, and where it goes in the filter. */
typedef struct
{
  const char *label, *any;
  void (*offer) (Popover *self, int choice);
  void (*take) (BondPointsFilter *filter, const char *key);
  gboolean (*is_now) (const BondPointsFilter *filter, const char *key);
} ChoiceInfo;
#define N_CHOICES 5

struct _Popover
{
  BondSurvey *survey;
  BondPointsModel *model;
  GtkWidget *popover;
  GtkDropDown *drop[N_CHOICES];
  GtkStringList *names;       /* while a choice is being filled */
  GPtrArray *keys[N_CHOICES]; /* of char*, NULL = any */
  GtkCheckButton *mark[BOND_N_POINTS_MARKS];
  GCallback changed;
  gpointer data;
  gboolean filling;
};

static const char *const mark_labels[BOND_N_POINTS_MARKS] = {
  N_ ("Has a note"),
  N_ ("Needs an independent inspection"),
  N_ ("Has a defect card"),
  N_ ("Joint is bare now"),
};

static void
popover_free (gpointer data)
{
  Popover *self = data;

  for (int i = 0; i < N_CHOICES; i++)
    g_clear_pointer (&self->keys[i], g_ptr_array_unref);
  g_clear_object (&self->survey);
  g_clear_object (&self->model);
  g_free (self);
}

static void
offer (Popover *self, int choice, const char *key, const char *name)
{
  gtk_string_list_append (self->names, name);
  g_ptr_array_add (self->keys[choice], g_strdup (key));
}

static void
offer_number (Popover *self, int choice, int number, const char *name)
{
  g_autofree char *key = g_strdup_printf ("%d", number);

  offer (self, choice, key, name);
}

static void
offer_classes (Popover *self, int choice)
{
  for (int i = 0; i < BOND_N_CLASSES; i++)
    {
      g_autofree char *name = g_strdup_printf ("%c  %s", bond_class_letter (i), bond_class_name (i));

      offer_number (self, choice, i + 1, name);
    }
}

static void
offer_zones (Popover *self, int choice)
{
  g_autoptr (GHashTable) seen = g_hash_table_new (g_str_hash, g_str_equal);
  GListModel *points = G_LIST_MODEL (self->survey);

  for (guint i = 0; i < g_list_model_get_n_items (points); i++)
    {
      g_autoptr (BondPoint) point = g_list_model_get_item (points, i);
      const char *zone = bond_point_get_spec (point)->zone;
      g_autofree char *name = g_strdup_printf ("%s  %s", zone, bond_points_zone_name (self->survey, zone));

      if (g_hash_table_add (seen, (gpointer)zone))
        offer (self, choice, zone, name);
    }
}

static void
offer_purposes (Popover *self, int choice)
{
  g_auto (GStrv) words = bond_points_purposes (self->survey);

  for (char **word = words; *word != NULL; word++)
    offer (self, choice, *word, *word);
}

static void
offer_states (Popover *self, int choice)
{
  GListModel *points = G_LIST_MODEL (self->survey);
  int now = bond_points_model_get_filter (self->model)->state - 1;
  gboolean there[BOND_N_STATES] = { FALSE };

  for (guint i = 0; i < g_list_model_get_n_items (points); i++)
    {
      g_autoptr (BondPoint) point = g_list_model_get_item (points, i);

      there[bond_point_get_state (point)] = TRUE;
    }
  for (int i = 0; i < BOND_N_STATES; i++)
    if (there[i] || i == now)
      offer_number (self, choice, i + 1, bond_state_name (i));
}

static void
offer_instruments (Popover *self, int choice)
{
  GPtrArray *instruments = bond_survey_get_instruments (self->survey);

  for (guint i = 0; i < instruments->len; i++)
    {
      const BondInstrument *instrument = g_ptr_array_index (instruments, i);

      if (instrument->kind == BOND_INSTRUMENT_MILLIOHMMETER || instrument->kind == BOND_INSTRUMENT_MEGOHMMETER)
        offer (self, choice, instrument->id, instrument->name);
    }
}

static int
number_of (const char *key)
{
  return key != NULL ? (int)g_ascii_strtoll (key, NULL, 10) : 0;
}

static void
take_text (char **member, const char *key)
{
  g_free (*member);
  *member = g_strdup (key);
}

static void
take_class (BondPointsFilter *filter, const char *key)
{
  filter->klass = number_of (key);
}

static gboolean
is_class (const BondPointsFilter *filter, const char *key)
{
  return filter->klass == number_of (key);
}

static void
take_state (BondPointsFilter *filter, const char *key)
{
  filter->state = number_of (key);
}

static gboolean
is_state (const BondPointsFilter *filter, const char *key)
{
  return filter->state == number_of (key);
}

static void
take_zone (BondPointsFilter *filter, const char *key)
{
  take_text (&filter->zone, key);
}

static gboolean
is_zone (const BondPointsFilter *filter, const char *key)
{
  return g_strcmp0 (filter->zone, key) == 0;
}

static void
take_purpose (BondPointsFilter *filter, const char *key)
{
  take_text (&filter->purpose, key);
}

static gboolean
is_purpose (const BondPointsFilter *filter, const char *key)
{
  return g_strcmp0 (filter->purpose, key) == 0;
}

static void
take_instrument (BondPointsFilter *filter, const char *key)
{
  take_text (&filter->instrument, key);
}

static gboolean
is_instrument (const BondPointsFilter *filter, const char *key)
{
  return g_strcmp0 (filter->instrument, key) == 0;
}

static const ChoiceInfo choices[N_CHOICES] = {
  { N_ ("Class"), N_ ("any class"), offer_classes, take_class, is_class },
  { N_ ("Zone"), N_ ("any zone"), offer_zones, take_zone, is_zone },
  { N_ ("Purpose"), N_ ("any purpose"), offer_purposes, take_purpose, is_purpose },
  { N_ ("State"), N_ ("any state"), offer_states, take_state, is_state },
  { N_ ("Measured with"), N_ ("any instrument"), offer_instruments, take_instrument, is_instrument },
};

static void
changed_cb (Popover *self)
{
  BondPointsFilter *filter = bond_points_model_get_filter (self->model);

  if (self->filling)
    return;
  for (int i = 0; i < N_CHOICES; i++)
    {
      guint selected = gtk_drop_down_get_selected (self->drop[i]);

      choices[i].take (filter, selected < self->keys[i]->len ? g_ptr_array_index (self->keys[i], selected) : NULL);
    }
  filter->marks = 0;
  for (int i = 0; i < BOND_N_POINTS_MARKS; i++)
    if (gtk_check_button_get_active (self->mark[i]))
      filter->marks |= 1u << i;
  ((void (*) (gpointer))self->changed) (self->data);
}

static void
add_choice (Popover *self, GtkGrid *grid, int choice)
{
  const BondPointsFilter *filter = bond_points_model_get_filter (self->model);
  GtkWidget *label = gtk_label_new (_ (choices[choice].label));
  GtkWidget *drop;
  guint selected = 0;

  self->names = gtk_string_list_new (NULL);
  g_clear_pointer (&self->keys[choice], g_ptr_array_unref);
  self->keys[choice] = g_ptr_array_new_with_free_func (g_free);
  offer (self, choice, NULL, _ (choices[choice].any));
  choices[choice].offer (self, choice);
  for (guint i = 1; i < self->keys[choice]->len; i++)
    if (choices[choice].is_now (filter, g_ptr_array_index (self->keys[choice], i)))
      selected = i;
  drop = gtk_drop_down_new (G_LIST_MODEL (self->names), NULL);
  self->names = NULL; /* the drop-down has it */
  if (self->keys[choice]->len > SEARCH_FROM)
    {
      g_autoptr (GtkExpression) string = gtk_property_expression_new (GTK_TYPE_STRING_OBJECT, NULL, "string");

      gtk_drop_down_set_expression (GTK_DROP_DOWN (drop), string);
      gtk_drop_down_set_enable_search (GTK_DROP_DOWN (drop), TRUE);
    }
  gtk_drop_down_set_selected (GTK_DROP_DOWN (drop), selected);
  gtk_widget_set_hexpand (drop, TRUE);
  gtk_label_set_xalign (GTK_LABEL (label), 0);
  bond_name_widget (drop, _ (choices[choice].label));
  self->drop[choice] = GTK_DROP_DOWN (drop);
  g_signal_connect_swapped (drop, "notify::selected", G_CALLBACK (changed_cb), self);
  gtk_grid_attach (grid, label, 0, choice, 1, 1);
  gtk_grid_attach (grid, drop, 1, choice, 1, 1);
}

static void
add_mark (Popover *self, GtkGrid *grid, int mark)
{
  GtkWidget *button = gtk_check_button_new_with_label (_ (mark_labels[mark]));

  self->mark[mark] = GTK_CHECK_BUTTON (button);
  gtk_check_button_set_active (self->mark[mark],
                               (bond_points_model_get_filter (self->model)->marks & (1u << mark)) != 0);
  bond_name_widget (button, _ (mark_labels[mark]));
  g_signal_connect_swapped (button, "toggled", G_CALLBACK (changed_cb), self);
  gtk_grid_attach (grid, button, 0, N_CHOICES + mark, 2, 1);
}

static void
fill_cb (Popover *self)
{
  GtkGrid *grid = GTK_GRID (gtk_grid_new ());

  self->filling = TRUE;
  gtk_grid_set_row_spacing (grid, 8);
  gtk_grid_set_column_spacing (grid, 12);
  for (int i = 0; i < N_CHOICES; i++)
    add_choice (self, grid, i);
  for (int i = 0; i < BOND_N_POINTS_MARKS; i++)
    add_mark (self, grid, i);
  gtk_popover_set_child (GTK_POPOVER (self->popover), GTK_WIDGET (grid));
  self->filling = FALSE;
}

GtkWidget *
bond_points_filter_popover_new (BondSurvey *survey, BondPointsModel *model, GCallback changed, gpointer data)
{
  Popover *self;

  g_return_val_if_fail (BOND_IS_SURVEY (survey) && BOND_IS_POINTS_MODEL (model), NULL);
  self = g_new0 (Popover, 1);
  self->survey = g_object_ref (survey);
  self->model = g_object_ref (model);
  self->changed = changed;
  self->data = data;
  self->popover = gtk_popover_new ();
  g_object_set_data_full (G_OBJECT (self->popover), "bond-popover", self, popover_free);
  g_signal_connect_swapped (self->popover, "show", G_CALLBACK (fill_cb), self);
  bond_name_widget (self->popover, _ ("Filter"));
  return self->popover;
}
