/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * What the panel says of a point that keeps the walk here: which reading stands, how
 * many re-seats are left, and what would let it go.  The rule is core's
 * (a fail stands until rework, void, disposition, or two agreeing re-seats).
 */
#include "gui/pages/reading-panel-private.h"
#include "gui/words.h"
#include <glib/gi18n-lib.h>

static char *
found_words (BondReadingPanel *self, const BondPlaceResult *result)
{
  if (result->decides == NULL)
    return g_strdup (bond_state_name (BOND_STATE_FAIL));
  return bond_words_result (bond_walk_get_survey (self->walk), result->decides,
                            bond_words_unit (result, BOND_UNIT_MILLIOHM), TRUE);
}

/* A fail stands: where the re-seats are, and what they can still do. */
static char *
standing_words (BondReadingPanel *self, const BondPlaceResult *result)
{
  int most = bond_survey_get_house (bond_walk_get_survey (self->walk))->reseat_max;
  g_autofree char *found = found_words (self, result);
  gboolean passed = result->last->conforms && result->last != result->decides;

  if (result->intermittent)
    return g_strdup_printf (_ ("Intermittent: the re-seated readings do not agree. %s stands until it is reworked, "
                               "voided or given a disposition."),
                            found);
  if (result->reseats >= most)
    return g_strdup_printf (
        _ ("%s stands until it is reworked, voided or given a disposition. A further reading stands "
           "beside it and does not clear it."),
        found);
  if (result->reseats == 0)
    return g_strdup_printf (_ ("Re-seat 1 of %d: type it again with the joint not touched, or choose Rework. Two "
                               "re-seated passes that agree make it not confirmed; one does not clear it."),
                            most);
  if (passed)
    return g_strdup_printf (_ ("%s still stands until it is reworked or voided. Re-seat %d of %d: a second one that "
                               "agrees makes it not confirmed."),
                            found, result->reseats + 1, most);
  return g_strdup_printf (_ ("%s stands. Re-seat %d of %d, with the joint not touched."), found, result->reseats + 1,
                          most);
}

char *
bond_reading_panel_stopped_words (BondReadingPanel *self, const BondPlaceResult *result)
{
  if (result->last == NULL || result->last->outcome != BOND_OUTCOME_JUDGED)
    return bond_words_second_line (result);
  if (result->visual_reject && result->last->conforms)
    return g_strdup_printf (_ ("The resistance conforms; the point is rejected on its visual condition (%s)."),
                            bond_visual_name (result->visual));
  return standing_words (self, result);
}

void
bond_reading_panel_offer (BondReadingPanel *self, const char *label, const char *action)
{
  GtkWidget *button = gtk_button_new_with_label (label);

  gtk_actionable_set_action_name (GTK_ACTIONABLE (button), action);
  gtk_widget_set_focus_on_click (button, FALSE);
  gtk_flow_box_insert (self->ask_box, button, -1);
  gtk_widget_set_focusable (gtk_widget_get_parent (button), FALSE);
  gtk_widget_set_visible (GTK_WIDGET (self->ask_box), TRUE);
}

void
bond_reading_panel_leave (BondReadingPanel *self)
{
  BondPoint *before;
  g_autofree char *words = NULL;

  g_return_if_fail (BOND_IS_READING_PANEL (self));
  before = bond_walk_get_point (self->walk);
  if (before == NULL)
    return;
  if (bond_point_get_state (before) == BOND_STATE_FAIL)
    words = g_strdup_printf (_ ("%s is left as it is; it stays in the list and needs rework or a disposition."),
                             bond_point_get_number (before));
  if (!bond_walk_next_open (self->walk))
    bond_walk_step (self->walk, 1);
  if (words != NULL)
    bond_reading_panel_say (self, NULL, words);
  bond_reading_panel_grab_field (self);
}
