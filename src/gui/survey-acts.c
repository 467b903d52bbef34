/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * The acts of the survey window: one function and one row of the table each.  Keys,
 * letters and help lines are in actions.c; what an act asks and records is in
 * dialogs/ and the walk.
 */
#include "gui/actions.h"
#include "gui/dialog.h"
#include "gui/export.h"
#include "gui/pages/readings-page.h"
#include "gui/survey-window-private.h"
#include <glib/gi18n-lib.h>

#define ACT(name) static void name##_act (GtkWidget *widget, const char *action, GVariant *parameter)

static BondSurveyWindow *
window_of (GtkWidget *widget)
{
  return BOND_SURVEY_WINDOW (widget);
}

static BondSurvey *
survey_of (BondSurveyWindow *self)
{
  return bond_survey_file_get_survey (self->file);
}

static BondReadingPanel *
panel_of (BondSurveyWindow *self)
{
  return bond_walk_page_get_panel (self->page);
}

ACT (record) { bond_reading_panel_record (panel_of (window_of (widget))); }

ACT (read_again)
{
  BondSurveyWindow *self = window_of (widget);
  BondEntry *last = bond_walk_last_reading (self->walk);
  const BondPlaceResult *result = bond_walk_get_result (self->walk);
  BondPoint *point;

  /* On a point not yet touched it means the one just left. */
  if (result != NULL && result->history->len == 0 && last != NULL)
    {
      point = bond_survey_find_point (survey_of (self), last->point);
      if (point != NULL)
        bond_walk_go (self->walk, point, last->place);
    }
  bond_walk_read_again (self->walk);
  bond_reading_panel_grab_field (panel_of (self));
}

ACT (skip)
{
  BondSurveyWindow *self = window_of (widget);

  if (!bond_walk_next_open (self->walk))
    bond_walk_step (self->walk, 1);
}

ACT (next_point) { bond_walk_step (window_of (widget)->walk, 1); }

ACT (next_pane) { bond_walk_page_step_pane (window_of (widget)->page, 1); }

ACT (previous_pane) { bond_walk_page_step_pane (window_of (widget)->page, -1); }

ACT (back) { bond_walk_step (window_of (widget)->walk, -1); }

ACT (next_to_measure) { bond_walk_first_open (window_of (widget)->walk); }

ACT (unit_popover) { bond_reading_panel_pop_unit (panel_of (window_of (widget))); }

ACT (instrument)
{
  BondSurveyWindow *self = window_of (widget);
  int shown = gtk_widget_get_mapped (self->chip[0]) ? 0 : 1;

  if (shown == 1)
    bond_survey_window_need_page (self, BOND_PAGE_WALK); /* its foot holds the chip of a narrow window */

  gtk_menu_button_popup (GTK_MENU_BUTTON (self->chip[shown]));
}

ACT (find) { bond_survey_window_find (window_of (widget)); }

ACT (zoom_zone) { bond_walk_page_toggle_zone (window_of (widget)->page); }

ACT (zoom_in) { bond_diagram_zoom (bond_walk_page_get_diagram (window_of (widget)->page), 1.25); }

ACT (zoom_out) { bond_diagram_zoom (bond_walk_page_get_diagram (window_of (widget)->page), 0.8); }

ACT (zoom_whole) { bond_diagram_fit (bond_walk_page_get_diagram (window_of (widget)->page)); }

ACT (place_point) { bond_walk_page_place_point (window_of (widget)->page); }

ACT (fullscreen)
{
  if (gtk_window_is_fullscreen (GTK_WINDOW (widget)))
    gtk_window_unfullscreen (GTK_WINDOW (widget));
  else
    gtk_window_fullscreen (GTK_WINDOW (widget));
}

ACT (menu) { gtk_menu_button_popup (window_of (widget)->menu_button); }

ACT (shortcuts) { bond_shortcuts_window (GTK_WINDOW (widget)); }

ACT (close) { gtk_window_close (GTK_WINDOW (widget)); }

static void
exported_cb (const char *message, gboolean failed, gpointer data)
{
  g_autoptr (BondSurveyWindow) self = data;

  if (failed)
    bond_message (GTK_WINDOW (self), _ ("Export PDF"), message);
  else if (self->page != NULL)
    bond_survey_window_tell (self, NULL, message);
}

ACT (export_pdf)
{
  BondSurveyWindow *self = window_of (widget);

  bond_export_pdf (GTK_WINDOW (self), survey_of (self), bond_survey_file_get_path (self->file), exported_cb,
                   g_object_ref (self));
}

ACT (export_csv)
{
  BondSurveyWindow *self = window_of (widget);

  bond_survey_window_show_page (self, BOND_PAGE_READINGS);
  bond_readings_page_export (BOND_READINGS_PAGE (bond_survey_window_build_page (self, BOND_PAGE_READINGS)),
                             bond_survey_file_get_path (self->file));
}

ACT (export)
{
  BondSurveyWindow *self = window_of (widget);
  gboolean table = g_strcmp0 (gtk_stack_get_visible_child_name (self->stack), BOND_PAGE_READINGS) == 0;

  (table ? export_csv_act : export_pdf_act) (widget, action, parameter);
}

ACT (point_details) { bond_survey_window_show_details (window_of (widget)); }

/* One row an act of the table that this window does; @on_walk: it is seen on the Walk page only. */
typedef struct
{
  const char *name;
  GtkWidgetActionActivateFunc act;
  gboolean on_walk;
} WindowAct;

static void
view_act (GSimpleAction *action, GVariant *parameter, gpointer data)
{
  BondSurveyWindow *self = BOND_SURVEY_WINDOW (data);

  bond_survey_window_need_page (self, BOND_PAGE_WALK);
  bond_walk_page_set_view (self->page, g_variant_get_string (parameter, NULL));
  bond_survey_window_show_view (self);
  bond_reading_panel_grab_field (panel_of (self));
}

static void
points_pane_act (GSimpleAction *action, GVariant *parameter, gpointer data)
{
  BondSurveyWindow *self = BOND_SURVEY_WINDOW (data);
  BondPanes *panes = bond_walk_page_get_panes (self->page);

  bond_survey_window_need_page (self, BOND_PAGE_WALK);
  bond_panes_show_points (panes, !bond_panes_points_shown (panes));
  bond_reading_panel_grab_field (panel_of (self));
}

static const WindowAct window_acts[] = {
  { "win.record", record_act, TRUE },
  { "win.read-again", read_again_act, TRUE },
  { "win.skip", skip_act, TRUE },
  { "win.back", back_act, TRUE },
  { "win.next-point", next_point_act, TRUE },
  { "win.next-pane", next_pane_act, TRUE },
  { "win.previous-pane", previous_pane_act, TRUE },
  { "win.next-to-measure", next_to_measure_act, TRUE },
  { "win.unit-popover", unit_popover_act, TRUE },
  { "win.instrument", instrument_act, FALSE },
  { "win.find", find_act, FALSE },
  { "win.zoom-zone", zoom_zone_act, TRUE },
  { "win.zoom-in", zoom_in_act, TRUE },
  { "win.zoom-out", zoom_out_act, TRUE },
  { "win.zoom-whole", zoom_whole_act, TRUE },
  { "win.place-point", place_point_act, TRUE },
  { "win.fullscreen", fullscreen_act, FALSE },
  { "win.menu", menu_act, FALSE },
  { "win.shortcuts", shortcuts_act, FALSE },
  { "win.close", close_act, FALSE },
  { "win.export", export_act, FALSE },
  { "win.export-csv", export_csv_act, FALSE },
  { "win.export-pdf", export_pdf_act, FALSE },
  { "win.point-details", point_details_act, FALSE },
};

static void
act_cb (GtkWidget *widget, const char *name, GVariant *parameter)
{
  for (gsize i = 0; i < G_N_ELEMENTS (window_acts); i++)
    if (g_str_equal (window_acts[i].name, name))
      {
        if (window_acts[i].on_walk)
          bond_survey_window_need_page (window_of (widget), BOND_PAGE_WALK);
        window_acts[i].act (widget, name, parameter);
      }
}

void
bond_survey_acts_install (GtkWidgetClass *klass)
{
  for (gsize i = 0; i < G_N_ELEMENTS (window_acts); i++)
    gtk_widget_class_install_action (klass, window_acts[i].name, NULL, act_cb);
  gtk_widget_class_add_binding_action (klass, GDK_KEY_Return, GDK_ALT_MASK, "win.point-details", NULL);
  bond_survey_point_acts_install (klass);
}

void
bond_survey_acts_add_stateful (BondSurveyWindow *self)
{
  static const GActionEntry entries[] = {
    { .name = "view", .activate = view_act, .parameter_type = "s", .state = "'plan-upper'" },
    { .name = "points-pane", .activate = points_pane_act },
  };

  g_action_map_add_action_entries (G_ACTION_MAP (self), entries, G_N_ELEMENTS (entries), self);
}
