/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * The acts of the survey window that are about people and their leave to work, not
 * about a point: who measures, cautions, permits, handing over.  What each asks is in
 * dialogs/ and the gate; here they are tied to the window.
 */
#include "gui/application.h"
#include "gui/dialog.h"
#include "gui/dialogs/handover-dialog.h"
#include "gui/dialogs/people-popover.h"
#include "gui/dialogs/permit-dialog.h"
#include "gui/gate.h"
#include "gui/identity-strip.h"
#include "gui/lock-band.h"
#include "gui/survey-window-private.h"
#include <glib/gi18n-lib.h>

#define ACT(name) static void name##_act (GtkWidget *widget, const char *action, GVariant *parameter)

static BondSurveyWindow *
window_of (GtkWidget *widget)
{
  return BOND_SURVEY_WINDOW (widget);
}

static gboolean
may_record (BondSurveyWindow *self)
{
  return bond_reading_panel_may_write (bond_walk_page_get_panel (self->page));
}

ACT (person)
{
  BondSurveyWindow *self = window_of (widget);

  if (!may_record (self))
    return;
  if (!gtk_widget_get_mapped (self->people[0]))
    bond_survey_window_need_page (self, BOND_PAGE_WALK); /* its foot holds the one of a narrow window */
  gtk_menu_button_popup (GTK_MENU_BUTTON (self->people[gtk_widget_get_mapped (self->people[0]) ? 0 : 1]));
}

ACT (cautions) { bond_cautions_dialog (GTK_WINDOW (widget), window_of (widget)->walk); }

ACT (permit)
{
  if (may_record (window_of (widget)))
    bond_permit_dialog (GTK_WINDOW (widget), window_of (widget)->walk);
}

ACT (close_permit)
{
  if (may_record (window_of (widget)))
    bond_close_permit_dialog (GTK_WINDOW (widget), window_of (widget)->walk);
}

ACT (hand_over)
{
  if (may_record (window_of (widget)))
    bond_handover_dialog (GTK_WINDOW (widget), window_of (widget)->walk);
}

ACT (use_instrument)
{
  BondSurveyWindow *self = window_of (widget);

  bond_walk_pin_instrument (self->walk, g_variant_get_string (parameter, NULL));
  bond_reading_panel_grab_field (bond_walk_page_get_panel (self->page));
}

static void
take_over (BondSurveyWindow *self)
{
  bond_application_take_over (BOND_APPLICATION (gtk_window_get_application (GTK_WINDOW (self))), self);
}

static gboolean
take_over_cb (gpointer data)
{
  take_over (data);
  return G_SOURCE_REMOVE;
}

/* After the dialog is gone: it belongs to the window that goes too. */
static gboolean
take_over_confirmed (BondDialog *dialog, gpointer data)
{
  g_idle_add_full (G_PRIORITY_DEFAULT, take_over_cb, g_object_ref (data), g_object_unref);
  return TRUE;
}

ACT (take_over)
{
  BondSurveyWindow *self = window_of (widget);
  const char *why = bond_survey_get_read_only (bond_walk_get_survey (self->walk));
  BondDialog *dialog;

  if (bond_lock_hold_of (self->file) == BOND_LOCK_HELD)
    {
      take_over (self);
      return;
    }
  dialog = bond_dialog_new (GTK_WINDOW (self), _ ("Take Over"), _ ("It Has Ended There: Take Over"),
                            take_over_confirmed, g_object_ref (self), g_object_unref);
  bond_dialog_add_text (dialog, why);
  bond_dialog_add_text (dialog, _ ("If it is still open there, both would write, and the two copies must be merged."));
  gtk_window_present (GTK_WINDOW (dialog));
}

static const struct
{
  const char *name, *parameter;
  GtkWidgetActionActivateFunc act;
} shift_acts[] = {
  { "win.person", NULL, person_act },       { "win.cautions", NULL, cautions_act },
  { "win.permit", NULL, permit_act },       { "win.close-permit", NULL, close_permit_act },
  { "win.hand-over", NULL, hand_over_act }, { "win.use-instrument", "s", use_instrument_act },
  { "win.take-over", NULL, take_over_act },
};

void
bond_survey_shift_acts_install (GtkWidgetClass *klass)
{
  for (gsize i = 0; i < G_N_ELEMENTS (shift_acts); i++)
    gtk_widget_class_install_action (klass, shift_acts[i].name, shift_acts[i].parameter, shift_acts[i].act);
}

/* A popover that goes leaves the hand where it was: on the digits. */
static void
popover_closed_cb (BondSurveyWindow *self)
{
  if (gtk_stack_get_visible_child (self->stack) == GTK_WIDGET (self->page))
    bond_reading_panel_grab_field (bond_walk_page_get_panel (self->page));
}

static void
watch_popover (BondSurveyWindow *self, GtkWidget *chip)
{
  g_signal_connect_object (gtk_menu_button_get_popover (GTK_MENU_BUTTON (chip)), "closed",
                           G_CALLBACK (popover_closed_cb), self, G_CONNECT_SWAPPED);
}

void
bond_survey_window_add_shift (BondSurveyWindow *self, BondCatalog *catalog)
{
  self->people[0] = bond_identity_strip_get_people (self->strip);
  self->people[1] = bond_people_chip_new (self->walk, catalog);
  bond_walk_page_add_foot (self->page, self->people[1]);
  self->gate = bond_gate_bands_new (self->walk);
  gtk_widget_set_visible (self->gate, FALSE);
  gtk_box_prepend (GTK_BOX (self->bands), self->gate);
  for (int i = 0; i < 2; i++)
    {
      watch_popover (self, self->people[i]);
      watch_popover (self, self->chip[i]);
    }
}

void
bond_survey_window_open_gate (BondSurveyWindow *self)
{
  gtk_widget_set_visible (self->gate, TRUE);
  bond_gate_bands_refresh (self->gate);
}
