/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * The buttons under the field.  There are two sets in one place: the usual verbs, and
 * those that are offered while a fail stands and nothing is typed.  Each carries its
 * letter from the table of acts.
 */
#include "gui/actions.h"
#include "gui/dialog.h"
#include "gui/pages/reading-panel-private.h"
#include "gui/words.h"
#include <glib/gi18n-lib.h>

/* @hint stands in the button where there is room for it, @more is its tooltip. */
typedef struct
{
  const char *action, *label, *hint, *more;
} Verb;

/* The usual ones, two beside each other; the last cell is More. */
static const Verb usual[] = {
  { "win.read-again", N_ ("Read Again"), NULL, NULL },
  { "win.skip", N_ ("Skip"), NULL, NULL },
  { "win.rework", N_ ("Rework…"), NULL, NULL },
  { "win.not-accessible", N_ ("Not Measured…"), NULL, NULL },
  { "win.visual", N_ ("Visual…"), NULL, NULL },
  { "win.void-reading", N_ ("Void…"), NULL, NULL },
  { "win.note", N_ ("Note…"), NULL, NULL },
};

static const Verb more[] = {
  { "win.condition", N_ ("Opened or Replaced…"), NULL, NULL },
  { "win.photo", N_ ("Photo…"), NULL, NULL },
  { "win.refinish", N_ ("Finish Applied…"), NULL, NULL },
  { "win.raise-defect", N_ ("Raise Defect…"), NULL, NULL },
  { "win.disposition", N_ ("Disposition…"), NULL, NULL },
  { "win.accept-deviation", N_ ("Accept Deviation…"), NULL, NULL },
};

/* While a fail stands: the first is what usually follows. */
static const Verb while_stopped[] = {
  { "win.rework", N_ ("Rework…"), N_ ("then measure again"), N_ ("Work done now; then it is measured again") },
  { "win.read-again", N_ ("Read Again"), N_ ("joint not touched"), N_ ("Re-seat the probes, the joint not touched") },
  { "win.leave-failed", N_ ("Leave Failed"), NULL, N_ ("Settle it later and go on") },
  { "win.void-reading", N_ ("Void…"), N_ ("only for a slip"),
    N_ ("Other point, typing slip, wrong unit, meter at fault") },
  { "win.raise-defect", N_ ("Raise Defect…"), N_ ("number of its card"), N_ ("Record the number of the defect card") },
  { "win.disposition", N_ ("Disposition…"), N_ ("defer or accept"),
    N_ ("Carried forward, deferred, or accepted by engineering disposition") },
};

static char
letter_of (const char *action)
{
  gsize n;
  const BondActionInfo *info = bond_actions (&n);

  for (gsize i = 0; i < n; i++)
    if (g_str_equal (info[i].name, action))
      return info[i].letter;
  return 0;
}

static GtkWidget *
new_key (const char *action)
{
  char letter[] = { letter_of (action), '\0' };
  GtkWidget *key = gtk_label_new (letter);

  gtk_widget_add_css_class (key, "key");
  gtk_widget_set_valign (key, GTK_ALIGN_CENTER);
  gtk_widget_set_visible (key, *letter != '\0');
  return key;
}

static GtkWidget *
new_button (const Verb *verb, GtkWidget *child)
{
  GtkWidget *button = gtk_button_new ();

  gtk_button_set_child (GTK_BUTTON (button), child);
  gtk_actionable_set_action_name (GTK_ACTIONABLE (button), verb->action);
  gtk_widget_set_focus_on_click (button, FALSE);
  bond_name_widget (button, _ (verb->label));
  return button;
}

static void
add_usual (BondReadingPanel *self, int place, const Verb *verb)
{
  GtkWidget *box = gtk_box_new (GTK_ORIENTATION_HORIZONTAL, 6);
  GtkWidget *button;

  gtk_box_append (GTK_BOX (box), gtk_label_new (_ (verb->label)));
  gtk_box_append (GTK_BOX (box), new_key (verb->action));
  button = new_button (verb, box);
  gtk_widget_add_css_class (button, "verb");
  gtk_widget_set_halign (button, GTK_ALIGN_START);
  gtk_grid_attach (self->verbs, button, place % 2, place / 2, 1, 1);
}

static void
add_more (BondReadingPanel *self, int place)
{
  g_autoptr (GMenu) menu = g_menu_new ();
  GtkWidget *button = gtk_menu_button_new ();

  for (gsize i = 0; i < G_N_ELEMENTS (more); i++)
    {
      char letter = letter_of (more[i].action);
      g_autofree char *label
          = letter != 0 ? g_strdup_printf ("%s  (%c)", _ (more[i].label), letter) : g_strdup (_ (more[i].label));

      g_menu_append (menu, label, more[i].action);
    }
  gtk_menu_button_set_label (GTK_MENU_BUTTON (button), _ ("More"));
  gtk_menu_button_set_menu_model (GTK_MENU_BUTTON (button), G_MENU_MODEL (menu));
  gtk_menu_button_set_has_frame (GTK_MENU_BUTTON (button), FALSE);
  gtk_menu_button_set_direction (GTK_MENU_BUTTON (button), GTK_ARROW_UP);
  gtk_widget_set_halign (button, GTK_ALIGN_START);
  gtk_widget_add_css_class (button, "verbs-more");
  bond_name_widget (button, _ ("More acts on this point"));
  gtk_grid_attach (self->verbs, button, place % 2, place / 2, 1, 1);
}

static GtkLabel *
add_while_stopped (BondReadingPanel *self, const Verb *verb, int row)
{
  gboolean first = row == 0;
  GtkWidget *box = gtk_box_new (GTK_ORIENTATION_HORIZONTAL, 10);
  GtkWidget *label = gtk_label_new (_ (verb->label));
  GtkWidget *hint = gtk_label_new (verb->hint != NULL ? _ (verb->hint) : "");
  GtkWidget *button;

  gtk_widget_add_css_class (label, "strong");
  gtk_widget_add_css_class (hint, first ? "caption" : "note");
  gtk_label_set_ellipsize (GTK_LABEL (label), PANGO_ELLIPSIZE_END);
  gtk_label_set_xalign (GTK_LABEL (label), 0);
  gtk_label_set_ellipsize (GTK_LABEL (hint), PANGO_ELLIPSIZE_END);
  gtk_label_set_xalign (GTK_LABEL (hint), 0);
  gtk_widget_set_hexpand (hint, TRUE);
  gtk_box_append (GTK_BOX (box), label);
  gtk_box_append (GTK_BOX (box), hint);
  gtk_box_append (GTK_BOX (box), new_key (verb->action));
  button = new_button (verb, box);
  gtk_widget_add_css_class (button, first ? "suggested-action" : "verb");
  if (first)
    gtk_widget_add_css_class (button, "record");
  gtk_widget_set_tooltip_text (button, _ (verb->more));
  gtk_widget_set_hexpand (button, TRUE);
  if (g_str_equal (verb->action, "win.void-reading"))
    self->void_button = button;
  gtk_grid_attach (self->stopped, button, 0, row, 2, 1);
  return GTK_LABEL (hint);
}

/* Where there is little height: two beside each other below the first, without hints, so that the sentence that says
 * what happened stays in sight. */
static void
lay_stopped (BondReadingPanel *self)
{
  GtkLayoutManager *layout = gtk_widget_get_layout_manager (GTK_WIDGET (self->stopped));
  int place = 0;

  for (GtkWidget *button = gtk_widget_get_first_child (GTK_WIDGET (self->stopped)); button != NULL;
       button = gtk_widget_get_next_sibling (button), place++)
    {
      GtkGridLayoutChild *cell = GTK_GRID_LAYOUT_CHILD (gtk_layout_manager_get_layout_child (layout, button));
      GtkWidget *hint
          = gtk_widget_get_next_sibling (gtk_widget_get_first_child (gtk_button_get_child (GTK_BUTTON (button))));
      gboolean alone = !self->low || place == 0;

      gtk_grid_layout_child_set_column (cell, alone ? 0 : (place - 1) % 2);
      gtk_grid_layout_child_set_row (cell, self->low ? (place + 1) / 2 : place);
      gtk_grid_layout_child_set_column_span (cell, alone ? 2 : 1);
      gtk_widget_set_visible (hint, alone);
    }
}

void
bond_reading_panel_add_verbs (BondReadingPanel *self)
{
  for (gsize i = 0; i < G_N_ELEMENTS (usual); i++)
    add_usual (self, (int)i, &usual[i]);
  add_more (self, G_N_ELEMENTS (usual));
  self->stopped = GTK_GRID (gtk_grid_new ());
  gtk_grid_set_row_spacing (self->stopped, 2);
  gtk_grid_set_column_spacing (self->stopped, 4);
  gtk_widget_set_visible (GTK_WIDGET (self->stopped), FALSE);
  gtk_widget_insert_after (GTK_WIDGET (self->stopped), gtk_widget_get_parent (self->record_button),
                           self->record_button);
  for (gsize i = 0; i < G_N_ELEMENTS (while_stopped); i++)
    {
      GtkLabel *hint = add_while_stopped (self, &while_stopped[i], (int)i);

      if (g_str_equal (while_stopped[i].action, "win.leave-failed"))
        self->leave_hint = hint;
    }
}

/* "Void 3.12…": which reading it is about stands on the button. */
static void
name_void (BondReadingPanel *self, const BondPlaceResult *result)
{
  GtkLabel *label = GTK_LABEL (gtk_widget_get_first_child (gtk_button_get_child (GTK_BUTTON (self->void_button))));
  g_autofree char *value = NULL;
  g_autofree char *name = NULL;

  if (result->decides != NULL && result->decides->mean.count > 0)
    value = bond_words_result (bond_walk_get_survey (self->walk), result->decides,
                               bond_words_unit (result, BOND_UNIT_MILLIOHM), TRUE);
  name = value != NULL ? g_strdup_printf (_ ("Void %s…"), value) : g_strdup (_ ("Void…"));
  gtk_label_set_text (label, self->low ? _ ("Void…") : name);
  bond_name_widget (self->void_button, name);
}

static void
name_leave (BondReadingPanel *self)
{
  g_autoptr (GPtrArray) upcoming = bond_walk_upcoming (self->walk, 1);
  BondPoint *next = upcoming->len > 0 ? g_ptr_array_index (upcoming, 0) : NULL;
  g_autofree char *hint = next != NULL ? g_strdup_printf (_ ("go on to %s"), bond_point_get_number (next)) : NULL;

  gtk_label_set_text (self->leave_hint, hint != NULL ? hint : _ ("settle it later"));
}

void
bond_reading_panel_show_verbs (BondReadingPanel *self, const BondPlaceResult *result, gboolean typed)
{
  gboolean stopped = result->state == BOND_STATE_FAIL && !typed
                     && (result->last == NULL || result->last->outcome != BOND_OUTCOME_INCOMPLETE);

  if (stopped)
    {
      lay_stopped (self);
      name_void (self, result);
      name_leave (self);
    }
  gtk_widget_set_visible (GTK_WIDGET (self->stopped), stopped);
  gtk_widget_set_visible (self->record_button, !stopped);
  gtk_widget_set_visible (GTK_WIDGET (self->verbs), !stopped && !self->big);
  if (self->big_verbs != NULL)
    gtk_widget_set_visible (self->big_verbs, !stopped && self->big);
  gtk_widget_set_visible (self->foot, self->has_foot && !stopped);
}
