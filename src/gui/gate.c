/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * Three bands, each shown only while it has something to say: cautions, leave to
 * measure, bare joints.  The words come from the library, the refusal from core; the
 * bands only stand there in time and offer the act that settles it.
 */
#include "gui/gate.h"
#include "gui/dialog.h"
#include "gui/pages/before-page.h"
#include "library/cautions.h"
#include "library/handover.h"
#include "library/permits.h"
#include <glib/gi18n-lib.h>

/* A permit counts minutes: looked at this often. */
#define REFRESH_SECONDS 20

typedef struct
{
  GtkWidget *box, *label, *acts;
} Band;

typedef struct
{
  BondWalk *walk;
  GtkWidget *box;
  Band cautions, leave, bare;
  guint timer;
} Gate;

static BondSurvey *
survey_of (Gate *gate)
{
  return bond_walk_get_survey (gate->walk);
}

char *
bond_gate_problem (BondWalk *walk)
{
  BondSurvey *survey;
  BondPoint *point;
  const char *person;
  g_autoptr (GPtrArray) unread = NULL;
  g_autoptr (GError) error = NULL;

  g_return_val_if_fail (BOND_IS_WALK (walk), NULL);
  survey = bond_walk_get_survey (walk);
  person = bond_survey_get_person (survey);
  point = bond_walk_get_point (walk);
  if (person == NULL)
    return g_strdup (_ ("Say who measures (Alt+P); every reading carries a name."));
  if (!bond_cautions_all_read (survey, person))
    return g_strdup_printf (_ ("Waits: %s has not read today’s cautions. What you typed is kept; press Ctrl+K, read "
                               "them, then record the reading."),
                            bond_survey_person_name (survey, person));
  if (point == NULL || bond_survey_check_permit (survey, point, bond_walk_get_pinned (walk)->instrument, &error))
    return NULL;
  return g_strdup (error->message);
}

/* --- bands --- */

static void
clear_acts (Band *band)
{
  GtkWidget *child;

  while ((child = gtk_widget_get_first_child (band->acts)) != NULL)
    gtk_box_remove (GTK_BOX (band->acts), child);
}

static void
add_act (Band *band, const char *label, const char *action, const char *target)
{
  GtkWidget *button = gtk_button_new_with_label (label);

  gtk_actionable_set_action_name (GTK_ACTIONABLE (button), action);
  if (target != NULL)
    gtk_actionable_set_action_target (GTK_ACTIONABLE (button), "s", target);
  gtk_widget_set_focus_on_click (button, FALSE);
  bond_name_widget (button, label);
  gtk_box_append (GTK_BOX (band->acts), button);
}

/* Nothing is built anew while it says the same: a reader would speak it again each time. */
static gboolean
set_band (Band *band, const char *css, const char *words)
{
  gboolean same = g_strcmp0 (words, gtk_label_get_text (GTK_LABEL (band->label))) == 0;

  gtk_widget_set_visible (band->box, words != NULL);
  if (words == NULL || same)
    return FALSE;
  for (const char *const *ink = (const char *const[]){ "guard", "fail", NULL }; *ink != NULL; ink++)
    gtk_widget_remove_css_class (band->box, *ink);
  if (css != NULL)
    gtk_widget_add_css_class (band->box, css);
  gtk_label_set_text (GTK_LABEL (band->label), words);
  clear_acts (band);
  return TRUE;
}

static void
show_cautions (Gate *gate)
{
  const char *person = bond_survey_get_person (survey_of (gate));
  g_autofree char *words = person != NULL && !bond_cautions_all_read (survey_of (gate), person)
                               ? g_strdup_printf (_ ("%s has not read today’s cautions. Readings wait until then."),
                                                  bond_survey_person_name (survey_of (gate), person))
                               : NULL;

  if (set_band (&gate->cautions, "guard", words))
    add_act (&gate->cautions, _ ("Read Cautions…"), "win.cautions", NULL);
}

static void
add_leave_acts (Gate *gate, const BondLeaveStatus *status)
{
  g_autoptr (GPtrArray) approved = NULL;

  if (status->leave == BOND_LEAVE_METER)
    {
      approved = bond_permit_approved (survey_of (gate));
      for (guint i = 0; i < approved->len && i < 3; i++)
        {
          const BondInstrument *meter = g_ptr_array_index (approved, i);
          g_autofree char *label = g_strdup_printf (_ ("Use %s"), meter->name);

          add_act (&gate->leave, label, "win.use-instrument", meter->id);
        }
      return;
    }
  if (status->leave != BOND_LEAVE_VALID)
    add_act (&gate->leave, status->hazard == BOND_HAZARD_EXPLOSIVE ? _ ("Record Authority…") : _ ("Record Permit…"),
             "win.permit", NULL);
  if (status->permit != NULL)
    add_act (&gate->leave, _ ("Close Permit…"), "win.close-permit", NULL);
}

static void
show_leave (Gate *gate)
{
  BondPoint *point = bond_walk_get_point (gate->walk);
  const BondPinned *pinned = bond_walk_get_pinned (gate->walk);
  g_autofree char *now = bond_source_peek (bond_survey_get_source (survey_of (gate)));
  g_auto (BondLeaveStatus) status = { 0 };

  if (point != NULL)
    bond_leave_status (survey_of (gate), point, pinned->instrument, pinned->range, now, &status);
  if (set_band (&gate->leave, status.leave == BOND_LEAVE_VALID ? NULL : "guard", status.words))
    add_leave_acts (gate, &status);
}

static void
show_bare (Gate *gate)
{
  g_autofree char *now = bond_source_peek (bond_survey_get_source (survey_of (gate)));
  BondBareState state;
  g_autofree char *words = bond_bare_warning (survey_of (gate), now, &state);

  set_band (&gate->bare, state == BOND_BARE_OVERDUE ? "fail" : "guard", words);
}

static void
refresh (Gate *gate)
{
  if (bond_survey_get_read_only (survey_of (gate)) == NULL)
    {
      show_cautions (gate);
      show_leave (gate);
    }
  show_bare (gate);
}

static void
current_changed_cb (Gate *gate)
{
  if (bond_survey_get_read_only (survey_of (gate)) == NULL)
    show_leave (gate);
}

static gboolean
timer_cb (gpointer data)
{
  refresh (data);
  return G_SOURCE_CONTINUE;
}

static void
gate_free (gpointer data)
{
  Gate *gate = data;

  g_source_remove (gate->timer);
  g_signal_handlers_disconnect_by_data (gate->walk, gate);
  g_clear_object (&gate->walk);
  g_free (gate);
}

static void
add_band (Gate *gate, Band *band)
{
  band->box = gtk_box_new (GTK_ORIENTATION_HORIZONTAL, 12);
  band->label = g_object_new (GTK_TYPE_LABEL, "accessible-role", GTK_ACCESSIBLE_ROLE_ALERT, "wrap", TRUE, "xalign", 0.0,
                              "hexpand", TRUE, NULL);
  band->acts = gtk_box_new (GTK_ORIENTATION_HORIZONTAL, 8);
  gtk_widget_set_valign (band->acts, GTK_ALIGN_CENTER);
  gtk_widget_add_css_class (band->box, "band");
  gtk_widget_add_css_class (band->box, "gate");
  gtk_box_append (GTK_BOX (band->box), band->label);
  gtk_box_append (GTK_BOX (band->box), band->acts);
  gtk_widget_set_visible (band->box, FALSE);
  gtk_box_append (GTK_BOX (gate->box), band->box);
}

GtkWidget *
bond_gate_bands_new (BondWalk *walk)
{
  Gate *gate;

  g_return_val_if_fail (BOND_IS_WALK (walk), NULL);
  gate = g_new0 (Gate, 1);
  gate->walk = g_object_ref (walk);
  gate->box = gtk_box_new (GTK_ORIENTATION_VERTICAL, 4);
  add_band (gate, &gate->cautions);
  add_band (gate, &gate->leave);
  add_band (gate, &gate->bare);
  gate->timer = g_timeout_add_seconds (REFRESH_SECONDS, timer_cb, gate);
  g_signal_connect_swapped (walk, "current-changed", G_CALLBACK (current_changed_cb), gate);
  g_signal_connect_swapped (walk, "pinned-changed", G_CALLBACK (refresh), gate);
  g_signal_connect_swapped (walk, "recorded", G_CALLBACK (refresh), gate);
  g_object_set_data_full (G_OBJECT (gate->box), "bond-gate", gate, gate_free);
  return gate->box;
}

void
bond_gate_bands_refresh (GtkWidget *bands)
{
  Gate *gate = g_object_get_data (G_OBJECT (bands), "bond-gate");

  g_return_if_fail (gate != NULL);
  refresh (gate);
}

/* --- cautions in place --- */

typedef struct
{
  BondWalk *walk;
  GPtrArray *cautions;
  gboolean unread;
} Reading;

static void
reading_free (gpointer data)
{
  Reading *reading = data;

  g_clear_object (&reading->walk);
  g_ptr_array_unref (reading->cautions);
  g_free (reading);
}

static gboolean
acknowledge_act (BondDialog *dialog, gpointer data)
{
  Reading *reading = data;
  const char *person = bond_survey_get_person (bond_walk_get_survey (reading->walk));

  if (reading->unread && person != NULL)
    bond_walk_record_entry (reading->walk, bond_cautions_entry (reading->cautions, person));
  return TRUE;
}

void
bond_cautions_dialog (GtkWindow *parent, BondWalk *walk)
{
  BondSurvey *survey = bond_walk_get_survey (walk);
  const char *person = bond_survey_get_person (survey);
  Reading *reading = g_new0 (Reading, 1);
  g_autofree char *title = NULL;
  BondDialog *dialog;

  reading->walk = g_object_ref (walk);
  reading->cautions = person != NULL ? bond_cautions_unread (survey, person) : bond_cautions_for (survey);
  reading->unread = person != NULL && reading->cautions->len > 0 && bond_survey_get_read_only (survey) == NULL;
  if (reading->cautions->len == 0)
    {
      g_ptr_array_unref (reading->cautions);
      reading->cautions = bond_cautions_for (survey);
    }
  title = reading->unread ? g_strdup_printf (_ ("Cautions, %s"), bond_survey_person_name (survey, person))
                          : g_strdup (_ ("Cautions"));
  dialog = bond_dialog_new (parent, title, reading->unread ? _ ("I Have Read This") : NULL, acknowledge_act, reading,
                            reading_free);
  bond_dialog_add_text (dialog, bond_cautions_preface ());
  bond_dialog_add_row (dialog, bond_caution_grid_new (reading->cautions));
  gtk_window_set_default_size (GTK_WINDOW (dialog), 760, -1);
  gtk_window_present (GTK_WINDOW (dialog));
}
