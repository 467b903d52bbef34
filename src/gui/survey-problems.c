/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * What a window says of a file it can only show: why nothing can be added, and that
 * the figures of an altered file are not to be relied on.  Finding out is the
 * store's work.
 */
#include "gui/survey-problems.h"
#include "gui/identity-strip.h"
#include "gui/lock-band.h"
#include <glib/gi18n-lib.h>

/* What cannot be done to a survey that is only read is not offered. */
static void
switch_off_recording (BondSurveyWindow *self)
{
  static const char *const records[] = {
    "win.record",      "win.read-again", "win.rework",       "win.condition",    "win.not-accessible",
    "win.visual",      "win.note",       "win.void-reading", "win.undo",         "win.redo",
    "win.place-point", "win.person",     "win.permit",       "win.close-permit", "win.hand-over",
  };

  for (gsize i = 0; i < G_N_ELEMENTS (records); i++)
    gtk_widget_action_set_enabled (GTK_WIDGET (self), records[i], FALSE);
}

/* One band is read; a wall of them is not. */
static char *
more_words (GPtrArray *problems)
{
  guint n = problems != NULL && problems->len > 1 ? problems->len - 1 : 0;

  if (n == 0)
    return g_strdup ("");
  return g_strdup_printf (ngettext (" %u further difference was found; “bondwright-batch validate” lists it.",
                                    " %u further differences were found; “bondwright-batch validate” lists them.", n),
                          n);
}

/* The words stay as long as the window does: nobody may take the figures for those that were recorded. */
static void
tell_altered (BondSurveyWindow *self, GtkBox *bands, GtkWidget *strip, GPtrArray *problems)
{
  g_autofree char *more = more_words (problems);
  g_autofree char *text = g_strdup_printf (
      _ ("ALTERED FILE. It is not as it was recorded: its figures are for looking at only.\n%s%s"),
      bond_survey_get_read_only (bond_survey_file_get_survey (bond_survey_window_get_file (self))), more);
  GtkWidget *band = g_object_new (GTK_TYPE_LABEL, "accessible-role", GTK_ACCESSIBLE_ROLE_ALERT, "label", text, "wrap",
                                  TRUE, "xalign", 0.0, NULL);

  gtk_widget_add_css_class (band, "band");
  gtk_widget_add_css_class (band, "fail");
  gtk_box_append (bands, band);
  bond_identity_strip_distrust (strip);
}

/* The first sentence of @message is part of @text: not to be said twice. */
static gboolean
stands_in (const char *text, const char *message)
{
  const char *end = strstr (message, ". ");
  g_autofree char *sentence = end != NULL ? g_strndup (message, end - message) : g_strdup (message);

  return text != NULL && strstr (text, sentence) != NULL;
}

void
bond_survey_window_tell_problems (BondSurveyWindow *self, GtkBox *bands, GtkWidget *strip, GPtrArray *problems)
{
  BondSurveyFile *file = bond_survey_window_get_file (self);
  const char *read_only = bond_survey_get_read_only (bond_survey_file_get_survey (file));

  if (read_only != NULL)
    switch_off_recording (self);
  if (bond_survey_file_is_broken (file))
    {
      tell_altered (self, bands, strip, problems);
      return;
    }
  if (bond_lock_hold_of (file) != BOND_LOCK_NONE)
    gtk_box_append (bands, bond_lock_band_new (file));
  else if (read_only != NULL)
    bond_survey_window_tell (self, "guard", read_only);
  for (guint i = 0; problems != NULL && i < problems->len; i++)
    {
      const char *message = ((const BondProblem *)g_ptr_array_index (problems, i))->message;

      if (!stands_in (read_only, message))
        bond_survey_window_tell (self, "guard", message);
    }
}
