/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * The table of acts, and the window that lists their keys.  GtkShortcutsWindow is
 * on its way out of GTK, so the list is plain widgets.  What an act does is left to
 * the window that owns it.
 */
#include "gui/actions.h"
#include "gui/dialog.h"
#include <glib/gi18n-lib.h>

#define KEYS_WIDTH 640

static const BondActionInfo actions[] = {
  { "win.record", NULL, 0, BOND_ACTION_GROUP_WALK, N_ ("Record what is in the field (Enter)") },
  { "win.read-again", NULL, 'R', BOND_ACTION_GROUP_WALK, N_ ("Read again: a new seating of the probes") },
  { "win.skip", NULL, 'S', BOND_ACTION_GROUP_WALK, N_ ("Skip to the next point to measure") },
  { "win.back", NULL, 'B', BOND_ACTION_GROUP_WALK, N_ ("Back to the previous point") },
  { "win.rework", NULL, 'W', BOND_ACTION_GROUP_WALK, N_ ("Rework") },
  { "win.leave-failed", NULL, 'L', BOND_ACTION_GROUP_WALK,
    N_ ("Leave the fail as it is and go on (Esc in an empty field)") },
  { "win.raise-defect", NULL, 'C', BOND_ACTION_GROUP_WALK, N_ ("Raise a defect card") },
  { "win.disposition", NULL, 'D', BOND_ACTION_GROUP_WALK, N_ ("Disposition of a fail") },
  { "win.condition", NULL, 'J', BOND_ACTION_GROUP_WALK, N_ ("Joint opened or replaced") },
  { "win.refinish", NULL, 'Q', BOND_ACTION_GROUP_WALK, N_ ("Finish applied to the joint") },
  { "win.accept-deviation", NULL, 'T', BOND_ACTION_GROUP_WALK, N_ ("Accept a deviation of the measuring state") },
  { "win.not-accessible", NULL, 'X', BOND_ACTION_GROUP_WALK, N_ ("Not accessible, not fitted, not applicable") },
  { "win.visual", NULL, 'E', BOND_ACTION_GROUP_WALK, N_ ("Visual condition") },
  { "win.void-reading", NULL, 'V', BOND_ACTION_GROUP_WALK, N_ ("Void, correct or move a reading") },
  { "win.note", NULL, 'N', BOND_ACTION_GROUP_WALK, N_ ("Note") },
  { "win.photo", NULL, 'P', BOND_ACTION_GROUP_WALK, N_ ("Photo") },
  { "win.undo", "<Control>z", 'U', BOND_ACTION_GROUP_WALK, N_ ("Undo the last act of this sitting") },
  { "win.redo", "<Control><Shift>z", 0, BOND_ACTION_GROUP_WALK, N_ ("Redo") },
  { "win.next-to-measure", "<Control>j", 0, BOND_ACTION_GROUP_WALK, N_ ("First point still to measure") },
  { "win.unit-popover", "<Alt>u", 0, BOND_ACTION_GROUP_WALK, N_ ("Unit, range and measuring state") },
  { "win.instrument", "F7", 0, BOND_ACTION_GROUP_WALK, N_ ("Instrument") },
  { "win.person", "<Alt>p", 'M', BOND_ACTION_GROUP_WALK, N_ ("Who measures; then a digit, or a name and Enter") },
  { "win.cautions", "<Control>k", 0, BOND_ACTION_GROUP_WALK, N_ ("Cautions of this survey") },
  { "win.permit", "<Control>m", 0, BOND_ACTION_GROUP_WALK, N_ ("Record a permit or an authority to measure") },
  { "win.close-permit", NULL, 0, BOND_ACTION_GROUP_WALK, N_ ("Close a permit: clips and leads counted out") },
  { "win.hand-over", "<Control>h", 0, BOND_ACTION_GROUP_WALK, N_ ("Hand over to the next person") },
  { "win.page::walk", "<Alt>1", 0, BOND_ACTION_GROUP_LOOK, N_ ("Walk page") },
  { "win.page::readings", "<Alt>2", 0, BOND_ACTION_GROUP_LOOK, N_ ("Readings page: the whole survey as a table") },
  { "win.point-details", "F4", 0, BOND_ACTION_GROUP_LOOK, N_ ("Point details, also Alt+Enter") },
  { "win.find", "<Control>f", 'F', BOND_ACTION_GROUP_LOOK, N_ ("Find a point") },
  { "win.next-pane", "F6", 0, BOND_ACTION_GROUP_LOOK, N_ ("Next pane: reading, points, diagram") },
  { "win.previous-pane", "<Shift>F6", 0, BOND_ACTION_GROUP_LOOK, N_ ("Previous pane") },
  { "app.big-targets", "<Control>b", 0, BOND_ACTION_GROUP_LOOK, N_ ("Big targets for gloved hands") },
  { "win.points-pane", "F9", 0, BOND_ACTION_GROUP_LOOK, N_ ("Points pane") },
  { "win.zoom-zone", NULL, 'Z', BOND_ACTION_GROUP_LOOK, N_ ("Zoom to the zone, or back") },
  { "win.zoom-in", "<Control>plus", 0, BOND_ACTION_GROUP_LOOK, N_ ("Zoom in") },
  { "win.zoom-out", "<Control>minus", 0, BOND_ACTION_GROUP_LOOK, N_ ("Zoom out") },
  { "win.zoom-whole", "<Control>0", 0, BOND_ACTION_GROUP_LOOK, N_ ("Whole airframe") },
  { "win.view::plan-upper", "<Control>1", 0, BOND_ACTION_GROUP_LOOK, N_ ("Upper view") },
  { "win.view::plan-lower", "<Control>2", 0, BOND_ACTION_GROUP_LOOK, N_ ("Lower view") },
  { "win.view::side-left", "<Control>3", 0, BOND_ACTION_GROUP_LOOK, N_ ("Left view") },
  { "win.view::side-right", "<Control>4", 0, BOND_ACTION_GROUP_LOOK, N_ ("Right view") },
  { "win.view::front", "<Control>5", 0, BOND_ACTION_GROUP_LOOK, N_ ("Front view") },
  { "win.place-point", "<Control>Insert", 0, BOND_ACTION_GROUP_LOOK, N_ ("Place a new point in the current zone") },
  { "win.export", "<Control>e", 0, BOND_ACTION_GROUP_EVERYWHERE,
    N_ ("Export: on the Readings page the table as CSV, else the report as PDF") },
  { "start.page::surveys", "<Alt>1", 0, BOND_ACTION_GROUP_START, N_ ("Surveys, by aircraft") },
  { "start.page::instruments", "<Alt>2", 0, BOND_ACTION_GROUP_START, N_ ("Instruments") },
  { "start.page::airframes", "<Alt>3", 0, BOND_ACTION_GROUP_START, N_ ("Airframes") },
  { "start.page::limits", "<Alt>4", 0, BOND_ACTION_GROUP_START, N_ ("Limit sets") },
  { "start.page::people", "<Alt>5", 0, BOND_ACTION_GROUP_START, N_ ("People") },
  { "start.page::house", "<Alt>6", 0, BOND_ACTION_GROUP_START, N_ ("House rules") },
  { "start.find", "<Control>f", 0, BOND_ACTION_GROUP_START, N_ ("Search the surveys; typing does the same") },
  { "app.new-survey", "<Control>n", 0, BOND_ACTION_GROUP_EVERYWHERE, N_ ("New survey") },
  { "app.open", "<Control>o", 0, BOND_ACTION_GROUP_EVERYWHERE, N_ ("Open a survey") },
  { "app.preferences", "<Control>comma", 0, BOND_ACTION_GROUP_EVERYWHERE, N_ ("Preferences") },
  { "app.start", NULL, 0, BOND_ACTION_GROUP_EVERYWHERE, N_ ("All surveys") },
  { "win.fullscreen", "F11", 0, BOND_ACTION_GROUP_EVERYWHERE, N_ ("Full screen") },
  { "win.menu", "F10", 0, BOND_ACTION_GROUP_EVERYWHERE, N_ ("Menu") },
  { "win.shortcuts", "<Control>question", 'H', BOND_ACTION_GROUP_EVERYWHERE, N_ ("Keys and letters") },
  { "win.close", "<Control>w", 0, BOND_ACTION_GROUP_EVERYWHERE,
    N_ ("Close the window; everything recorded is on disk") },
  { "app.quit", "<Control>q", 0, BOND_ACTION_GROUP_EVERYWHERE, N_ ("Quit; everything recorded is on disk") },
};

static const char *const group_names[BOND_N_ACTION_GROUPS]
    = { N_ ("Walking"), N_ ("Looking"), N_ ("Start Window"), N_ ("Everywhere") };

/* Keys of the reading field that are no acts of their own. */
static const struct
{
  const char *keys, *help;
} field_keys[] = {
  { N_ ("digits, Enter"), N_ ("One reading: 1.84 or 1,84") },
  { N_ ("u, m, o after the digits"), N_ ("Unit of this reading only: µΩ, mΩ, Ω") },
  { N_ ("two readings"), N_ ("Forward and reverse: 1.84 1.82") },
  { N_ ("> or <"), N_ ("Above the range, below the display step") },
  { N_ ("3.0mV 1.2A"), N_ ("Voltage at a current") },
  { N_ ("541-J07"), N_ ("Go to a point; # may stand before it") },
  { N_ ("Up, Down"), N_ ("Previous, next point in walking order") },
  { N_ ("Page Up, Page Down"), N_ ("Previous, next zone") },
  { N_ ("Esc"), N_ ("Clear the field; again: leave a fail as it is") },
};

const BondActionInfo *
bond_actions (gsize *n)
{
  *n = G_N_ELEMENTS (actions);
  return actions;
}

const char *
bond_action_for_letter (gunichar letter)
{
  gunichar upper = g_unichar_toupper (letter);

  for (gsize i = 0; i < G_N_ELEMENTS (actions); i++)
    if (actions[i].letter != 0 && upper == (gunichar)actions[i].letter)
      return actions[i].name;
  return NULL;
}

void
bond_actions_install (GtkApplication *application)
{
  for (gsize i = 0; i < G_N_ELEMENTS (actions); i++)
    if (actions[i].accel != NULL)
      {
        const char *accels[] = { actions[i].accel, NULL };

        gtk_application_set_accels_for_action (application, actions[i].name, accels);
      }
}

static char *
keys_of (const BondActionInfo *info)
{
  g_autoptr (GString) text = g_string_new (NULL);
  guint key = 0;
  GdkModifierType modifiers = 0;

  if (info->letter != 0)
    g_string_append_c (text, info->letter);
  if (info->accel != NULL && gtk_accelerator_parse (info->accel, &key, &modifiers))
    {
      g_autofree char *label = gtk_accelerator_get_label (key, modifiers);

      g_string_append_printf (text, "%s%s", text->len > 0 ? ", " : "", label);
    }
  return g_string_free (g_steal_pointer (&text), FALSE);
}

static void
add_line (BondDialog *dialog, const char *keys, const char *help)
{
  GtkWidget *box = gtk_box_new (GTK_ORIENTATION_HORIZONTAL, 12);
  GtkWidget *left = gtk_label_new (keys);
  GtkWidget *right = gtk_label_new (help);

  gtk_label_set_xalign (GTK_LABEL (left), 0);
  gtk_label_set_width_chars (GTK_LABEL (left), 22);
  gtk_widget_add_css_class (left, "strong");
  gtk_label_set_xalign (GTK_LABEL (right), 0);
  gtk_label_set_wrap (GTK_LABEL (right), TRUE);
  gtk_widget_set_hexpand (right, TRUE);
  gtk_box_append (GTK_BOX (box), left);
  gtk_box_append (GTK_BOX (box), right);
  bond_dialog_add_row (dialog, box);
}

void
bond_shortcuts_window (GtkWindow *parent)
{
  BondDialog *dialog = bond_dialog_new (parent, _ ("Keys and Letters"), NULL, NULL, NULL, NULL);

  gtk_window_set_default_size (GTK_WINDOW (dialog), KEYS_WIDTH, -1);
  bond_dialog_add_text (dialog, _ ("A single letter acts only while the reading field is empty."));
  bond_dialog_add_heading (dialog, _ ("The Reading Field"));
  for (gsize i = 0; i < G_N_ELEMENTS (field_keys); i++)
    add_line (dialog, _ (field_keys[i].keys), _ (field_keys[i].help));
  for (int group = 0; group < BOND_N_ACTION_GROUPS; group++)
    {
      bond_dialog_add_heading (dialog, _ (group_names[group]));
      for (gsize i = 0; i < G_N_ELEMENTS (actions); i++)
        if ((int)actions[i].group == group && (actions[i].accel != NULL || actions[i].letter != 0))
          {
            g_autofree char *keys = keys_of (&actions[i]);

            add_line (dialog, keys, _ (actions[i].help));
          }
    }
  gtk_window_present (GTK_WINDOW (dialog));
}
