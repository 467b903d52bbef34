/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * The acts of the survey window: one function and one row of the table each.  Keys,
 * letters and help lines are in actions.c; what an act asks and records is in
 * dialogs/ and the walk.
 */
#include "gui/actions.h"
#include "gui/dialog.h"
#include "gui/dialogs/point-acts.h"
#include "gui/dialogs/void-dialog.h"
#include "gui/export.h"
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

/* An act that records needs a survey that can be written; else it says why, in place. */
static gboolean
may_record (BondSurveyWindow *self)
{
  const char *read_only = bond_survey_get_read_only (survey_of (self));

  if (read_only != NULL)
    bond_reading_panel_say (panel_of (self), "guard", read_only);
  return read_only == NULL && bond_walk_get_point (self->walk) != NULL;
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

ACT (back) { bond_walk_step (window_of (widget)->walk, -1); }

ACT (rework)
{
  if (may_record (window_of (widget)))
    bond_rework_dialog (GTK_WINDOW (widget), window_of (widget)->walk);
}

ACT (condition)
{
  if (may_record (window_of (widget)))
    bond_condition_dialog (GTK_WINDOW (widget), window_of (widget)->walk);
}

ACT (not_accessible)
{
  if (may_record (window_of (widget)))
    bond_state_dialog (GTK_WINDOW (widget), window_of (widget)->walk);
}

ACT (visual)
{
  if (may_record (window_of (widget)))
    bond_visual_dialog (GTK_WINDOW (widget), window_of (widget)->walk);
}

ACT (void_reading)
{
  if (may_record (window_of (widget)))
    bond_void_dialog (GTK_WINDOW (widget), window_of (widget)->walk);
}

ACT (note)
{
  BondSurveyWindow *self = window_of (widget);

  if (may_record (self))
    bond_note_dialog (GTK_WINDOW (self), self->walk, self->file);
}

ACT (undo)
{
  if (may_record (window_of (widget)))
    bond_undo (GTK_WINDOW (widget), window_of (widget)->walk);
}

ACT (redo)
{
  if (may_record (window_of (widget)))
    bond_walk_redo (window_of (widget)->walk);
}

ACT (next_to_measure)
{
  BondSurveyWindow *self = window_of (widget);
  BondPoint *point = bond_survey_next_open (survey_of (self), NULL);

  if (point != NULL)
    bond_walk_go (self->walk, point, NULL);
}

ACT (unit_popover) { bond_reading_panel_pop_unit (panel_of (window_of (widget))); }

ACT (instrument)
{
  BondSurveyWindow *self = window_of (widget);
  int shown = gtk_widget_get_mapped (self->chip[0]) ? 0 : 1;

  gtk_menu_button_popup (GTK_MENU_BUTTON (self->chip[shown]));
}

ACT (find) { bond_walk_page_find (window_of (widget)->page); }

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

static void
view_act (GSimpleAction *action, GVariant *parameter, gpointer data)
{
  BondSurveyWindow *self = BOND_SURVEY_WINDOW (data);

  bond_walk_page_set_view (self->page, g_variant_get_string (parameter, NULL));
  bond_survey_window_show_view (self);
  bond_reading_panel_grab_field (panel_of (self));
}

static void
points_pane_act (GSimpleAction *action, GVariant *parameter, gpointer data)
{
  BondSurveyWindow *self = BOND_SURVEY_WINDOW (data);
  BondPanes *panes = bond_walk_page_get_panes (self->page);

  bond_panes_show_points (panes, !bond_panes_points_shown (panes));
  bond_reading_panel_grab_field (panel_of (self));
}

/* One row an act of the table that this window does. */
static const struct
{
  const char *name;
  GtkWidgetActionActivateFunc act;
} window_acts[] = {
  { "win.record", record_act },
  { "win.read-again", read_again_act },
  { "win.skip", skip_act },
  { "win.back", back_act },
  { "win.rework", rework_act },
  { "win.condition", condition_act },
  { "win.not-accessible", not_accessible_act },
  { "win.visual", visual_act },
  { "win.void-reading", void_reading_act },
  { "win.note", note_act },
  { "win.undo", undo_act },
  { "win.redo", redo_act },
  { "win.next-to-measure", next_to_measure_act },
  { "win.unit-popover", unit_popover_act },
  { "win.instrument", instrument_act },
  { "win.find", find_act },
  { "win.zoom-zone", zoom_zone_act },
  { "win.zoom-in", zoom_in_act },
  { "win.zoom-out", zoom_out_act },
  { "win.zoom-whole", zoom_whole_act },
  { "win.place-point", place_point_act },
  { "win.fullscreen", fullscreen_act },
  { "win.menu", menu_act },
  { "win.shortcuts", shortcuts_act },
  { "win.close", close_act },
  { "win.export-pdf", export_pdf_act },
};

void
bond_survey_acts_install (GtkWidgetClass *klass)
{
  for (gsize i = 0; i < G_N_ELEMENTS (window_acts); i++)
    gtk_widget_class_install_action (klass, window_acts[i].name, NULL, window_acts[i].act);
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
