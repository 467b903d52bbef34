/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * Builds what readings-fixture.h tells of.  All figures are invented.
 */
#include "readings-fixture.h"
#include "plane.h"
#include "screen.h"

void
readings_set_up (ReadingsFixture *fixture, gconstpointer data)
{
  fixture->survey = plane_survey_new ("generic-jet-transport");
  fixture->walk = bond_walk_new (fixture->survey);
}

void
readings_tear_down (ReadingsFixture *fixture, gconstpointer data)
{
  if (fixture->window != NULL)
    gtk_window_destroy (fixture->window);
  screen_spin (20);
  g_clear_object (&fixture->walk);
  g_clear_object (&fixture->survey);
  g_clear_pointer (&fixture->said, g_free);
}

/* Limits: 713-J01 3 mΩ, 711-J01 10 mΩ, 562-J01 5 mΩ, 571-J01 3 mΩ, 191-J01 100 mΩ, 521-J01 1 mΩ. */
void
readings_measure (ReadingsFixture *fixture)
{
  plane_measure (fixture->survey, "713-J01", 1420000);
  plane_measure (fixture->survey, "711-J01", 2530000);
  plane_measure (fixture->survey, "562-J01", 14180000);
  plane_measure (fixture->survey, "571-J01", 2995000);
  plane_measure (fixture->survey, "191-J01", 20700000);
  plane_measure (fixture->survey, "521-J01", 985000);
}

static void
count_cb (guint *count)
{
  (*count)++;
}

static void
say_cb (ReadingsFixture *fixture, const char *css, const char *text)
{
  g_free (fixture->said);
  fixture->said = g_strdup (text);
  fixture->failed = g_strcmp0 (css, "fail") == 0;
}

static gboolean
has_focus (ReadingsFixture *fixture)
{
  GtkWidget *focus = gtk_window_get_focus (fixture->window);

  return focus != NULL && gtk_widget_is_ancestor (focus, GTK_WIDGET (fixture->page))
         && !gtk_widget_is_ancestor (focus, GTK_WIDGET (bond_readings_page_get_bar (fixture->page)));
}

/* The focus comes when the list has been laid out, on a busy machine some frames late. */
void
readings_show (ReadingsFixture *fixture, int width)
{
  fixture->page = BOND_READINGS_PAGE (bond_readings_page_new (fixture->walk));
  g_signal_connect_swapped (fixture->page, "details", G_CALLBACK (count_cb), &fixture->details);
  g_signal_connect_swapped (fixture->page, "go", G_CALLBACK (count_cb), &fixture->go);
  g_signal_connect_swapped (fixture->page, "walk", G_CALLBACK (count_cb), &fixture->walk_asked);
  g_signal_connect_swapped (fixture->page, "say", G_CALLBACK (say_cb), fixture);
  fixture->window = screen_show (GTK_WIDGET (fixture->page), width, 600);
  bond_readings_page_enter (fixture->page);
  for (int i = 0; i < 100 && !has_focus (fixture); i++)
    screen_spin (20);
  screen_spin (50);
}

char *
readings_numbers (ReadingsFixture *fixture, guint most)
{
  GtkColumnView *view = bond_readings_table_get_view (bond_readings_page_get_table (fixture->page));
  GListModel *list = G_LIST_MODEL (gtk_column_view_get_model (view));
  GString *text = g_string_new (NULL);

  for (guint i = 0; i < MIN (most, g_list_model_get_n_items (list)); i++)
    {
      g_autoptr (BondReadingsRow) row = g_list_model_get_item (list, i);
      BondPoint *point = bond_readings_row_get_point (row);

      g_string_append_printf (text, point != NULL ? "%s%s" : "%s[%s]", i > 0 ? " " : "",
                              point != NULL ? bond_point_get_number (point) : bond_readings_row_get_zone (row));
    }
  return g_string_free (text, FALSE);
}

const char *
readings_chosen (ReadingsFixture *fixture)
{
  BondWalk *hand = bond_readings_page_get_hand (fixture->page);

  return hand != NULL ? bond_point_get_number (bond_walk_get_point (hand)) : NULL;
}

gboolean
readings_key (ReadingsFixture *fixture, guint keyval, GdkModifierType state)
{
  GtkWidget *view = GTK_WIDGET (bond_readings_table_get_view (bond_readings_page_get_table (fixture->page)));
  g_autoptr (GListModel) controllers = gtk_widget_observe_controllers (view);
  gboolean taken = FALSE;

  for (guint i = 0; i < g_list_model_get_n_items (controllers) && !taken; i++)
    {
      g_autoptr (GtkEventController) controller = g_list_model_get_item (controllers, i);

      if (GTK_IS_EVENT_CONTROLLER_KEY (controller)
          && gtk_event_controller_get_propagation_phase (controller) == GTK_PHASE_CAPTURE)
        g_signal_emit_by_name (controller, "key-pressed", keyval, 0, state, &taken);
    }
  return taken;
}

int
readings_column (const char *id)
{
  for (int i = 0; i < BOND_N_READINGS_COLUMNS; i++)
    if (g_str_equal (bond_readings_columns ()[i].id, id))
      return i;
  g_error ("no column %s", id);
}
