/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * The acts of the survey window that record something about the point in hand: one
 * row each.  What they ask is in dialogs/; a survey that cannot be written says so
 * before anything is asked.
 */
#include "gui/dialogs/joint-acts.h"
#include "gui/dialogs/point-acts.h"
#include "gui/dialogs/reject-acts.h"
#include "gui/dialogs/void-dialog.h"
#include "gui/save-copy.h"
#include "gui/survey-window-private.h"

static void
note_act (BondSurveyWindow *self)
{
  bond_note_dialog (GTK_WINDOW (self), bond_survey_window_get_hand (self));
}

static void
photo_act (BondSurveyWindow *self)
{
  bond_photo_dialog (GTK_WINDOW (self), bond_survey_window_get_hand (self), self->file);
}

/* The fail stays held in the list; the walk goes on. */
static void
leave_act (BondSurveyWindow *self)
{
  bond_reading_panel_leave (bond_walk_page_get_panel (self->page));
}

static void
redo_act (BondSurveyWindow *self)
{
  bond_walk_redo (self->walk);
}

/* One row an act: a form that asks for window and walk alone, or a function of this file. */
static const struct
{
  const char *name;
  void (*form) (GtkWindow *parent, BondWalk *walk);
  void (*act) (BondSurveyWindow *self);
} point_acts[] = {
  { "win.rework", bond_rework_dialog, NULL },
  { "win.condition", bond_condition_dialog, NULL },
  { "win.refinish", bond_refinish_dialog, NULL },
  { "win.raise-defect", bond_defect_dialog, NULL },
  { "win.disposition", bond_disposition_dialog, NULL },
  { "win.accept-deviation", bond_deviation_dialog, NULL },
  { "win.not-accessible", bond_state_dialog, NULL },
  { "win.visual", bond_visual_dialog, NULL },
  { "win.void-reading", bond_void_dialog, NULL },
  { "win.undo", bond_undo, NULL },
  { "win.redo", NULL, redo_act },
  { "win.note", NULL, note_act },
  { "win.photo", NULL, photo_act },
  { "win.leave-failed", NULL, leave_act },
};

/* A refusal is told where the person is: the panel's own line is out of sight on every page but the walk. */
static gboolean
may_write (BondSurveyWindow *self)
{
  gboolean may = bond_reading_panel_may_write (bond_walk_page_get_panel (self->page));

  if (!may && g_strcmp0 (gtk_stack_get_visible_child_name (self->stack), BOND_PAGE_WALK) != 0)
    bond_survey_window_tell (self, "guard", bond_survey_get_read_only (bond_walk_get_survey (self->walk)));
  return may;
}

static void
point_act (GtkWidget *widget, const char *name, GVariant *parameter)
{
  BondSurveyWindow *self = BOND_SURVEY_WINDOW (widget);
  BondWalk *hand = bond_survey_window_get_hand (self);

  if (!may_write (self) || hand == NULL || bond_walk_get_point (hand) == NULL)
    return;
  for (gsize i = 0; i < G_N_ELEMENTS (point_acts); i++)
    if (g_str_equal (point_acts[i].name, name))
      {
        if (point_acts[i].form != NULL)
          point_acts[i].form (GTK_WINDOW (self), hand);
        else
          point_acts[i].act (self);
      }
}

static void
save_copy_act (GtkWidget *widget, const char *name, GVariant *parameter)
{
  BondSurveyWindow *self = BOND_SURVEY_WINDOW (widget);

  bond_save_copy_dialog (GTK_WINDOW (self), self->file);
}

void
bond_survey_point_acts_install (GtkWidgetClass *klass)
{
  for (gsize i = 0; i < G_N_ELEMENTS (point_acts); i++)
    gtk_widget_class_install_action (klass, point_acts[i].name, NULL, point_act);
  gtk_widget_class_install_action (klass, "win.save-copy", NULL, save_copy_act);
}
