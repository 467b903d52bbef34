/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * How the reading panel fills the room it is given: second lines that go first, the
 * keypad and the few large buttons of big targets, and the order Tab takes.  The
 * point's number, field, verdict and Record never go.
 */
#include "gui/big-targets.h"
#include "gui/dialog.h"
#include "gui/focus-order.h"
#include "gui/pages/keypad.h"
#include "gui/pages/reading-panel-private.h"
#include "gui/taste.h"
#include <glib/gi18n-lib.h>

#define REVEAL_GAP 8
#define SLACK 2           /* pixels of a line that may be out of sight: its leading */
#define LEAST_CONTENT 150 /* limit and field stay in sight over the keypad */

/* Acts that have a large button, and those behind More. */
static const struct
{
  const char *action, *label;
} big_acts[] = {
  { "win.read-again", N_ ("Read Again") },
  { "win.not-accessible", N_ ("Not Accessible…") },
  { "win.note", N_ ("Note…") },
}, more_acts[] = {
  { "win.rework", N_ ("Rework…") },
  { "win.condition", N_ ("Opened or Replaced…") },
  { "win.refinish", N_ ("Finish Applied…") },
  { "win.visual", N_ ("Visual…") },
  { "win.photo", N_ ("Photo…") },
  { "win.void-reading", N_ ("Void…") },
  { "win.raise-defect", N_ ("Raise Defect…") },
  { "win.disposition", N_ ("Disposition…") },
  { "win.undo", N_ ("Undo") },
};

gboolean
bond_reading_panel_focus (GtkWidget *widget, GtkDirectionType direction)
{
  BondReadingPanel *self = BOND_READING_PANEL (widget);
  GtkWidget *order[] = {
    GTK_WIDGET (self->entry),
    GTK_WIDGET (self->ask_box),
    GTK_WIDGET (self->unit_button),
    self->record_button,
    GTK_WIDGET (self->stopped),
    GTK_WIDGET (self->verbs),
    self->big_verbs,
    self->foot,
    GTK_WIDGET (self->state_button),
    GTK_WIDGET (self->place_drop),
    self->history_box,
  };

  if (direction != GTK_DIR_TAB_FORWARD && direction != GTK_DIR_TAB_BACKWARD)
    return GTK_WIDGET_CLASS (g_type_class_peek (GTK_TYPE_WIDGET))->focus (widget, direction);
  return bond_focus_in_order (widget, order, G_N_ELEMENTS (order), direction);
}

static GtkScrolledWindow *
scroller_of (BondReadingPanel *self)
{
  return GTK_SCROLLED_WINDOW (gtk_widget_get_ancestor (self->content, GTK_TYPE_SCROLLED_WINDOW));
}

static GtkAdjustment *
adjustment_of (BondReadingPanel *self)
{
  return gtk_scrolled_window_get_vadjustment (scroller_of (self));
}

/* A line that is cut at @edge_px is not drawn; it keeps its place. */
static void
show_if_whole (BondReadingPanel *self, GtkWidget *line, double edge_px)
{
  graphene_rect_t at;

  if (gtk_widget_compute_bounds (line, self->content, &at))
    gtk_widget_set_opacity (line,
                            at.origin.y < edge_px - SLACK && at.origin.y + at.size.height > edge_px + SLACK ? 0 : 1);
}

/* From the upper edge of what is in sight to the lower, in the content, whose margin counts too. */
static void
show_whole_lines (BondReadingPanel *self)
{
  GtkAdjustment *adjustment = adjustment_of (self);
  double top_px = gtk_adjustment_get_value (adjustment) - gtk_widget_get_margin_top (self->content);
  double bottom_px = top_px + gtk_adjustment_get_page_size (adjustment);

  for (GtkWidget *line = gtk_widget_get_first_child (self->content); line != NULL && line != self->field;
       line = gtk_widget_get_next_sibling (line))
    show_if_whole (self, line, top_px);
  for (GtkWidget *line = gtk_widget_get_next_sibling (GTK_WIDGET (self->ask_box)); line != NULL;
       line = gtk_widget_get_next_sibling (line))
    if (line != self->history_box)
      show_if_whole (self, line, bottom_px);
  bond_history_list_show_whole (self->history, self->content, bottom_px);
}

/* The field stays in sight before anything below it; where all of it fits, nothing is scrolled. */
static void
scroll_to_words (BondReadingPanel *self)
{
  GtkAdjustment *adjustment = adjustment_of (self);
  GtkWidget *last = gtk_widget_get_visible (GTK_WIDGET (self->ask_box))     ? GTK_WIDGET (self->ask_box)
                    : gtk_widget_get_visible (GTK_WIDGET (self->say_label)) ? GTK_WIDGET (self->say_label)
                                                                            : self->field;
  double page = gtk_adjustment_get_page_size (adjustment);
  graphene_rect_t field, words;

  if (!gtk_widget_compute_bounds (self->field, self->content, &field)
      || !gtk_widget_compute_bounds (last, self->content, &words))
    return;
  /* Content has its own margins, and the adjustment counts from above them. */
  page -= gtk_widget_get_margin_top (self->content) + REVEAL_GAP;
  gtk_adjustment_set_value (adjustment, CLAMP (words.origin.y + words.size.height - page, 0, MAX (field.origin.y, 0)));
}

/* The first tick comes before the new sizes are known, the second after. */
static gboolean
reveal_cb (GtkWidget *widget, GdkFrameClock *clock, gpointer data)
{
  BondReadingPanel *self = data;

  if (--self->reveal > 0)
    return G_SOURCE_CONTINUE;
  scroll_to_words (self);
  show_whole_lines (self);
  return G_SOURCE_REMOVE;
}

void
bond_reading_panel_reveal (BondReadingPanel *self)
{
  if (self->reveal == 0)
    gtk_widget_add_tick_callback (self->content, reveal_cb, self, NULL);
  self->reveal = 2;
}

void
bond_reading_panel_watch_room (BondReadingPanel *self)
{
  g_signal_connect_object (adjustment_of (self), "changed", G_CALLBACK (bond_reading_panel_reveal), self,
                           G_CONNECT_SWAPPED);
  g_signal_connect_object (adjustment_of (self), "value-changed", G_CALLBACK (show_whole_lines), self,
                           G_CONNECT_SWAPPED);
}

static GtkWidget *
new_big_button (const char *action, const char *label)
{
  GtkWidget *button = gtk_button_new ();
  GtkWidget *text = gtk_label_new (label);

  gtk_label_set_ellipsize (GTK_LABEL (text), PANGO_ELLIPSIZE_END);
  gtk_button_set_child (GTK_BUTTON (button), text);
  gtk_actionable_set_action_name (GTK_ACTIONABLE (button), action);
  gtk_widget_set_focus_on_click (button, FALSE);
  gtk_widget_set_tooltip_text (button, label);
  bond_name_widget (button, label);
  return button;
}

static GtkWidget *
new_more_button (void)
{
  GtkWidget *button = gtk_menu_button_new ();
  GtkWidget *text = gtk_label_new (_ ("More"));
  g_autoptr (GMenu) menu = g_menu_new ();

  for (gsize i = 0; i < G_N_ELEMENTS (more_acts); i++)
    g_menu_append (menu, _ (more_acts[i].label), more_acts[i].action);
  gtk_label_set_ellipsize (GTK_LABEL (text), PANGO_ELLIPSIZE_END);
  gtk_menu_button_set_child (GTK_MENU_BUTTON (button), text);
  gtk_menu_button_set_menu_model (GTK_MENU_BUTTON (button), G_MENU_MODEL (menu));
  gtk_menu_button_set_direction (GTK_MENU_BUTTON (button), GTK_ARROW_UP);
  bond_name_widget (button, _ ("More acts on this point"));
  return button;
}

static void
build_big (BondReadingPanel *self)
{
  self->keypad = bond_keypad_new (self->entry);
  gtk_widget_set_margin_start (self->keypad, 20);
  gtk_widget_set_margin_end (self->keypad, 20);
  gtk_box_insert_child_after (GTK_BOX (self->box), self->keypad, gtk_widget_get_prev_sibling (self->foot));
  self->big_verbs = gtk_box_new (GTK_ORIENTATION_HORIZONTAL, 8);
  gtk_box_set_homogeneous (GTK_BOX (self->big_verbs), TRUE);
  for (gsize i = 0; i < G_N_ELEMENTS (big_acts); i++)
    gtk_box_append (GTK_BOX (self->big_verbs), new_big_button (big_acts[i].action, _ (big_acts[i].label)));
  gtk_box_append (GTK_BOX (self->big_verbs), new_more_button ());
  gtk_box_append (GTK_BOX (gtk_widget_get_parent (GTK_WIDGET (self->verbs))), self->big_verbs);
}

/* Lines that a finger does not need, and a keypad in their place. */
void
bond_reading_panel_set_big (BondReadingPanel *self, gboolean big)
{
  g_return_if_fail (BOND_IS_READING_PANEL (self));
  if (big && self->keypad == NULL)
    build_big (self);
  self->big = big;
  if (self->keypad == NULL)
    return;
  gtk_widget_set_visible (self->keypad, big);
  gtk_widget_set_visible (GTK_WIDGET (self->where_label), !big);
  gtk_widget_set_visible (GTK_WIDGET (self->limit_bar), !big);
  gtk_widget_set_visible (self->history_box, !big);
  gtk_scrolled_window_set_min_content_height (scroller_of (self), big ? LEAST_CONTENT : -1);
  gtk_widget_remove_css_class (GTK_WIDGET (self->entry), big ? "reading" : "reading-big");
  gtk_widget_add_css_class (GTK_WIDGET (self->entry), big ? "reading-big" : "reading");
  if (big)
    bond_keypad_set_size (BOND_KEYPAD (self->keypad),
                          bond_big_targets_of (GTK_WIDGET (self), bond_taste_target_mm (bond_taste_get ()), TRUE),
                          bond_big_targets_of (GTK_WIDGET (self), BOND_TARGET_GAP_MM, FALSE));
}
