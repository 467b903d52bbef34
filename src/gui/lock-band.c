/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * The second opener is asked before anything of the survey is on the screen, so that
 * nobody begins a walk and finds at the first reading that it cannot be recorded.
 * Taking over opens the file anew, so that it shows what the first one wrote meanwhile.
 */
#include "gui/lock-band.h"
#include "store/lock.h"
#include <glib/gi18n-lib.h>

#define HOLD_KEY "bond-lock-hold"
#define LOOK_SECONDS 3

typedef struct
{
  BondSurveyFile *file;
  GtkWidget *band;
  GtkLabel *label;
  GtkWidget *button;
  guint timer;
} LockBand;

BondLockHold
bond_lock_hold_of (BondSurveyFile *file)
{
  g_return_val_if_fail (BOND_IS_SURVEY_FILE (file), BOND_LOCK_NONE);
  return GPOINTER_TO_UINT (g_object_get_data (G_OBJECT (file), HOLD_KEY));
}

void
bond_lock_mark (BondSurveyFile *file, BondLockHold hold)
{
  g_return_if_fail (BOND_IS_SURVEY_FILE (file));
  g_object_set_data (G_OBJECT (file), HOLD_KEY, GUINT_TO_POINTER (hold));
}

static void
lock_band_free (gpointer data)
{
  LockBand *self = data;

  if (self->timer != 0)
    g_source_remove (self->timer);
  g_object_unref (self->file);
  g_free (self);
}

static gboolean
look_cb (gpointer data)
{
  LockBand *self = data;
  g_autofree char *who = bond_lock_peek (bond_survey_file_get_path (self->file));
  BondSurvey *survey = bond_survey_file_get_survey (self->file);

  if (who != NULL)
    return G_SOURCE_CONTINUE;
  bond_survey_set_read_only (survey, _ ("It was closed there. Take over (Alt+T) to record here; what is typed in the "
                                        "field comes along."));
  gtk_label_set_text (self->label, bond_survey_get_read_only (survey));
  gtk_widget_remove_css_class (self->band, "guard");
  gtk_widget_set_visible (self->button, TRUE);
  self->timer = 0;
  return G_SOURCE_REMOVE;
}

GtkWidget *
bond_lock_band_new (BondSurveyFile *file)
{
  LockBand *self;
  BondLockHold hold;

  g_return_val_if_fail (BOND_IS_SURVEY_FILE (file), NULL);
  self = g_new0 (LockBand, 1);
  hold = bond_lock_hold_of (file);
  self->file = g_object_ref (file);
  self->band = gtk_box_new (GTK_ORIENTATION_HORIZONTAL, 12);
  self->label = g_object_new (GTK_TYPE_LABEL, "accessible-role", GTK_ACCESSIBLE_ROLE_ALERT, "label",
                              bond_survey_get_read_only (bond_survey_file_get_survey (file)), "wrap", TRUE, "xalign",
                              0.0, "hexpand", TRUE, NULL);
  self->button = gtk_button_new_with_mnemonic (hold == BOND_LOCK_LEFT ? _ ("_Take Over…") : _ ("_Take Over"));
  gtk_actionable_set_action_name (GTK_ACTIONABLE (self->button), "win.take-over");
  gtk_widget_set_valign (self->button, GTK_ALIGN_CENTER);
  gtk_widget_set_visible (self->button, hold == BOND_LOCK_LEFT);
  bond_name_widget (self->button, _ ("Take Over"));
  gtk_widget_add_css_class (self->band, "band");
  gtk_widget_add_css_class (self->band, "guard");
  gtk_box_append (GTK_BOX (self->band), GTK_WIDGET (self->label));
  gtk_box_append (GTK_BOX (self->band), self->button);
  if (hold == BOND_LOCK_HELD)
    self->timer = g_timeout_add_seconds (LOOK_SECONDS, look_cb, self);
  g_object_set_data_full (G_OBJECT (self->band), "bond-lock-band", self, lock_band_free);
  return self->band;
}

void
bond_lock_ask (GtkWindow *parent, const GError *lock, BondDialogAct read_only, gpointer data, GDestroyNotify destroy)
{
  gboolean left = g_error_matches (lock, BOND_STORE_ERROR, BOND_STORE_ERROR_LEFT);
  BondDialog *dialog;
  GtkLabel *label;

  g_return_if_fail (lock != NULL);
  dialog = bond_dialog_new (parent, left ? _ ("Left Open Elsewhere") : _ ("Open Elsewhere"), _ ("Open Read-Only"),
                            read_only, data, destroy);
  label = bond_dialog_add_text (dialog, lock->message);
  gtk_widget_remove_css_class (GTK_WIDGET (label), "quiet");
  /* A path has no spaces to break at. */
  gtk_label_set_wrap_mode (label, PANGO_WRAP_WORD_CHAR);
  bond_dialog_add_text (dialog, left
                                    ? _ ("Opened read-only, it shows what was recorded so far and offers to take over.")
                                    : _ ("Opened read-only, it shows what was recorded there until now. Once it is "
                                         "closed there, this window offers to take over."));
  gtk_window_present (GTK_WINDOW (dialog));
}
