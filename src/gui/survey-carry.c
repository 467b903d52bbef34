/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * Taking over opens the file anew in a window of its own.  What was typed in the
 * window that goes and where it stood come along, so that a reading taken while the
 * survey was only read needs no second touch of the probes; recording it is left to
 * whoever typed it.
 */
#include "gui/survey-window-private.h"
#include <glib/gi18n-lib.h>

static void
carry_size (GtkWindow *from, GtkWindow *to)
{
  int width, height;

  gtk_window_get_default_size (from, &width, &height);
  gtk_window_set_default_size (to, width, height);
  if (gtk_window_is_maximized (from))
    gtk_window_maximize (to);
  if (gtk_window_is_fullscreen (from))
    gtk_window_fullscreen (to);
}

static guint
count_history (BondWalk *walk)
{
  const BondPlaceResult *result = bond_walk_get_result (walk);

  return result != NULL ? result->history->len : 0;
}

/* @more: the point has got something from the others since the text was typed. */
static void
carry_text (BondReadingPanel *panel, GtkEditable *from, gboolean more)
{
  const char *typed = gtk_editable_get_text (from);
  GtkEditable *field = bond_reading_panel_get_entry (panel);
  g_autofree char *words = g_strdup_printf (
      more ? _ ("“%s” was typed before taking over; it is not recorded yet. Others have recorded here since.")
           : _ ("“%s” was typed before taking over; it is not recorded yet."),
      typed);

  gtk_editable_set_text (field, typed);
  gtk_editable_set_position (field, gtk_editable_get_position (from));
  bond_reading_panel_say (panel, "guard", words);
}

/* The point of the same id; one given another number, or gone, is not the one the text was typed for. */
static BondPoint *
same_point (BondSurveyWindow *to, BondPoint *point)
{
  BondPoint *found = bond_survey_find_point (bond_walk_get_survey (to->walk), bond_point_get_id (point));

  return found != NULL && g_strcmp0 (bond_point_get_number (found), bond_point_get_number (point)) == 0 ? found : NULL;
}

void
bond_survey_window_carry (BondSurveyWindow *self, BondSurveyWindow *to)
{
  GtkEditable *typed;
  BondPoint *point, *found;

  g_return_if_fail (BOND_IS_SURVEY_WINDOW (self) && BOND_IS_SURVEY_WINDOW (to));
  carry_size (GTK_WINDOW (self), GTK_WINDOW (to));
  typed = bond_reading_panel_get_entry (bond_walk_page_get_panel (self->page));
  point = bond_walk_get_point (self->walk);
  if (point == NULL)
    return;
  found = same_point (to, point);
  if (found != NULL)
    bond_walk_go (to->walk, found, bond_walk_get_place (self->walk));
  if (*gtk_editable_get_text (typed) == '\0')
    return;
  if (found != NULL)
    carry_text (bond_walk_page_get_panel (to->page), typed, count_history (to->walk) > count_history (self->walk));
  else
    {
      g_autofree char *words
          = g_strdup_printf (_ ("“%s”, typed for %s before taking over, is not in the field: the survey as it is now "
                                "has no such point."),
                             gtk_editable_get_text (typed), bond_point_get_number (point));

      bond_survey_window_tell (to, "guard", words);
    }
}
