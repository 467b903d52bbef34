/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * One form window for every question, so that Cancel, the act, the problem line
 * and the keys are the same everywhere.  What is asked, and what the answer does,
 * is left to the callers in dialogs/.
 */
#include "gui/dialog.h"
#include "gui/big-targets.h"
#include <glib/gi18n-lib.h>

/* Height of the form, pixels: what the window it belongs to has, less a header and its own edges. */
#define EDGES_PX 120
#define LEAST_PX 320
#define MOST_PX 720
#define USUAL_PX 480

struct _BondDialog
{
  GtkWindow parent_instance;
  GtkGrid *grid;
  GtkWidget *scroll;
  GtkLabel *problem;
  GtkWidget *act_button;
  int n_rows;
  int width_px; /* asked for, of the body */
  BondDialogAct act;
  gpointer data;
  GDestroyNotify destroy;
};

G_DEFINE_FINAL_TYPE (BondDialog, bond_dialog, GTK_TYPE_WINDOW)

void
bond_name_widget (gpointer widget, const char *name)
{
  gtk_accessible_update_property (GTK_ACCESSIBLE (widget), GTK_ACCESSIBLE_PROPERTY_LABEL, name, -1);
}

static void
act_cb (BondDialog *self)
{
  if (self->act == NULL || self->act (self, self->data))
    gtk_window_destroy (GTK_WINDOW (self));
}

static gboolean
close_key_cb (GtkWidget *widget, GVariant *args, gpointer data)
{
  gtk_window_close (GTK_WINDOW (widget));
  return TRUE;
}

static gboolean
act_key_cb (GtkWidget *widget, GVariant *args, gpointer data)
{
  act_cb (BOND_DIALOG (widget));
  return TRUE;
}

/* Enter does what the dialog is for; a tick, which would take it first, is changed by Space. */
static gboolean
enter_key_cb (BondDialog *self, guint keyval, guint keycode, GdkModifierType state)
{
  GtkWidget *focus = gtk_window_get_focus (GTK_WINDOW (self));

  if ((keyval != GDK_KEY_Return && keyval != GDK_KEY_KP_Enter && keyval != GDK_KEY_ISO_Enter)
      || (state & gtk_accelerator_get_default_mod_mask ()) != 0 || focus == NULL || !GTK_IS_CHECK_BUTTON (focus))
    return GDK_EVENT_PROPAGATE;
  act_cb (self);
  return GDK_EVENT_STOP;
}

static void
bond_dialog_dispose (GObject *object)
{
  BondDialog *self = BOND_DIALOG (object);

  if (self->destroy != NULL)
    g_clear_pointer (&self->data, self->destroy);
  self->act = NULL;
  G_OBJECT_CLASS (bond_dialog_parent_class)->dispose (object);
}

static void
bond_dialog_class_init (BondDialogClass *klass)
{
  G_OBJECT_CLASS (klass)->dispose = bond_dialog_dispose;
  gtk_widget_class_add_binding (GTK_WIDGET_CLASS (klass), GDK_KEY_Escape, 0, close_key_cb, NULL);
  gtk_widget_class_add_binding (GTK_WIDGET_CLASS (klass), GDK_KEY_Return, GDK_CONTROL_MASK, act_key_cb, NULL);
}

static int
room_px (BondDialog *self)
{
  GtkWindow *parent = gtk_window_get_transient_for (GTK_WINDOW (self));
  int height = parent != NULL ? gtk_widget_get_height (GTK_WIDGET (parent)) : 0;

  return height > 0 ? CLAMP (height - EDGES_PX, LEAST_PX, MOST_PX) : USUAL_PX;
}

static int
height_of (GtkWidget *widget, int width)
{
  int height = 0;

  if (gtk_widget_should_layout (widget))
    gtk_widget_measure (widget, GTK_ORIENTATION_VERTICAL, width, &height, NULL, NULL, NULL);
  return height;
}

/* As high as the form is at this width, so that nothing is cut and nothing is empty. A scrolled window asks its child
 * without a width, and does not ask again when a line appears. */
static void
measure_body (GtkWidget *box, GtkOrientation orientation, int for_size, int *least, int *natural, int *base,
              int *natural_base)
{
  BondDialog *self = BOND_DIALOG (gtk_widget_get_root (box));
  int height; /* GTK 4.8 writes both, asked or not */

  if (!gtk_widget_get_mapped (GTK_WIDGET (self)))
    gtk_window_get_default_size (GTK_WINDOW (self), &self->width_px, &height);
  if (orientation == GTK_ORIENTATION_HORIZONTAL)
    {
      /* The window takes the height for the least width. */
      gtk_widget_measure (self->scroll, orientation, -1, least, natural, NULL, NULL);
      *least = *natural = MAX (*least, self->width_px);
    }
  else
    *least = *natural = height_of (GTK_WIDGET (self->problem), for_size)
                        + MIN (height_of (GTK_WIDGET (self->grid), for_size), room_px (self));
}

static void
place_body (GtkWidget *box, int width, int height, int baseline)
{
  BondDialog *self = BOND_DIALOG (gtk_widget_get_root (box));
  int top = MIN (height_of (GTK_WIDGET (self->problem), width), height);

  if (top > 0)
    gtk_widget_size_allocate (GTK_WIDGET (self->problem), &(GtkAllocation){ 0, 0, width, top }, -1);
  gtk_widget_size_allocate (self->scroll, &(GtkAllocation){ 0, top, width, height - top }, -1);
}

static GtkSizeRequestMode
body_mode (GtkWidget *box)
{
  return GTK_SIZE_REQUEST_HEIGHT_FOR_WIDTH;
}

static void
bond_dialog_init (BondDialog *self)
{
  GtkWidget *scroll = gtk_scrolled_window_new ();
  GtkWidget *box = gtk_box_new (GTK_ORIENTATION_VERTICAL, 0);
  GtkEventController *keys = gtk_event_controller_key_new ();

  gtk_event_controller_set_propagation_phase (keys, GTK_PHASE_CAPTURE);
  g_signal_connect_swapped (keys, "key-pressed", G_CALLBACK (enter_key_cb), self);
  gtk_widget_add_controller (GTK_WIDGET (self), keys);
  self->grid = GTK_GRID (gtk_grid_new ());
  gtk_grid_set_row_spacing (self->grid, 8);
  gtk_grid_set_column_spacing (self->grid, 12);
  gtk_widget_set_margin_start (GTK_WIDGET (self->grid), 24);
  gtk_widget_set_margin_end (GTK_WIDGET (self->grid), 24);
  gtk_widget_set_margin_top (GTK_WIDGET (self->grid), 16);
  gtk_widget_set_margin_bottom (GTK_WIDGET (self->grid), 24);

  self->problem = GTK_LABEL (g_object_new (GTK_TYPE_LABEL, "accessible-role", GTK_ACCESSIBLE_ROLE_ALERT, NULL));
  gtk_label_set_wrap (self->problem, TRUE);
  gtk_label_set_xalign (self->problem, 0);
  gtk_widget_add_css_class (GTK_WIDGET (self->problem), "band");
  gtk_widget_add_css_class (GTK_WIDGET (self->problem), "fail");
  gtk_widget_set_visible (GTK_WIDGET (self->problem), FALSE);

  gtk_scrolled_window_set_policy (GTK_SCROLLED_WINDOW (scroll), GTK_POLICY_NEVER, GTK_POLICY_AUTOMATIC);
  gtk_scrolled_window_set_child (GTK_SCROLLED_WINDOW (scroll), GTK_WIDGET (self->grid));
  self->scroll = scroll;
  gtk_widget_set_layout_manager (box, gtk_custom_layout_new (body_mode, measure_body, place_body));
  gtk_box_append (GTK_BOX (box), GTK_WIDGET (self->problem));
  gtk_box_append (GTK_BOX (box), scroll);
  gtk_window_set_child (GTK_WINDOW (self), box);
  gtk_window_set_default_size (GTK_WINDOW (self), 480, -1);
}

static void
add_header (BondDialog *self, const char *act_label)
{
  GtkWidget *header = gtk_header_bar_new ();
  GtkWidget *cancel;

  gtk_header_bar_set_show_title_buttons (GTK_HEADER_BAR (header), FALSE);
  self->act_button = gtk_button_new_with_label (act_label != NULL ? act_label : _ ("Close"));
  gtk_widget_add_css_class (self->act_button, "suggested-action");
  g_signal_connect_swapped (self->act_button, "clicked", G_CALLBACK (act_cb), self);
  gtk_header_bar_pack_end (GTK_HEADER_BAR (header), self->act_button);
  if (act_label != NULL)
    {
      cancel = gtk_button_new_with_label (_ ("Cancel"));
      g_signal_connect_swapped (cancel, "clicked", G_CALLBACK (gtk_window_close), self);
      gtk_header_bar_pack_start (GTK_HEADER_BAR (header), cancel);
    }
  gtk_window_set_titlebar (GTK_WINDOW (self), header);
  gtk_window_set_default_widget (GTK_WINDOW (self), self->act_button);
}

BondDialog *
bond_dialog_new (GtkWindow *parent, const char *title, const char *act_label, BondDialogAct act, gpointer data,
                 GDestroyNotify destroy)
{
  BondDialog *self;

  g_return_val_if_fail (parent == NULL || GTK_IS_WINDOW (parent), NULL);
  g_return_val_if_fail (title != NULL, NULL);
  self = g_object_new (BOND_TYPE_DIALOG, "title", title, "transient-for", parent, "modal", parent != NULL,
                       "destroy-with-parent", TRUE, NULL);
  self->act = act;
  self->data = data;
  self->destroy = destroy;
  add_header (self, act_label);
  bond_name_widget (self, title);
  bond_big_targets_follow (GTK_WINDOW (self));
  /* Has the keys where there is only text to scroll; one that refuses them would hold Tab up. */
  bond_name_widget (self->scroll, title);
  return self;
}

/* @row stands in the form; @widget, which may be inside it, has the focus. Its name is the label, by the mnemonic: one
 * that were given it as well would be read out a second time. */
void
bond_dialog_add_labelled (BondDialog *self, const char *text, GtkWidget *row, GtkWidget *widget)
{
  GtkWidget *label;

  g_return_if_fail (BOND_IS_DIALOG (self));
  label = gtk_label_new_with_mnemonic (text);
  gtk_label_set_xalign (GTK_LABEL (label), 0);
  gtk_label_set_mnemonic_widget (GTK_LABEL (label), widget);
  gtk_widget_add_css_class (label, "quiet");
  gtk_widget_set_hexpand (row, TRUE);
  gtk_grid_attach (self->grid, label, 0, self->n_rows, 1, 1);
  gtk_grid_attach (self->grid, row, 1, self->n_rows++, 1, 1);
}

GtkEditable *
bond_dialog_add_entry (BondDialog *self, const char *label, const char *text)
{
  GtkWidget *entry = gtk_entry_new ();

  g_return_val_if_fail (BOND_IS_DIALOG (self), NULL);
  if (text != NULL)
    gtk_editable_set_text (GTK_EDITABLE (entry), text);
  gtk_entry_set_activates_default (GTK_ENTRY (entry), TRUE);
  bond_dialog_add_labelled (self, label, entry, entry);
  return GTK_EDITABLE (entry);
}

static gboolean
note_key_cb (BondDialog *self, guint keyval, guint keycode, GdkModifierType state)
{
  if ((keyval != GDK_KEY_Return && keyval != GDK_KEY_KP_Enter && keyval != GDK_KEY_ISO_Enter)
      || (state & GDK_SHIFT_MASK) != 0)
    return GDK_EVENT_PROPAGATE;
  act_cb (self);
  return GDK_EVENT_STOP;
}

GtkTextView *
bond_dialog_add_note (BondDialog *self, const char *label, const char *text)
{
  GtkWidget *view = gtk_text_view_new ();
  GtkWidget *scroll = gtk_scrolled_window_new ();
  GtkEventController *keys = gtk_event_controller_key_new ();

  g_return_val_if_fail (BOND_IS_DIALOG (self), NULL);
  gtk_text_view_set_wrap_mode (GTK_TEXT_VIEW (view), GTK_WRAP_WORD_CHAR);
  gtk_text_view_set_accepts_tab (GTK_TEXT_VIEW (view), FALSE);
  gtk_text_view_set_left_margin (GTK_TEXT_VIEW (view), 8);
  gtk_text_view_set_right_margin (GTK_TEXT_VIEW (view), 8);
  gtk_text_view_set_top_margin (GTK_TEXT_VIEW (view), 6);
  gtk_text_view_set_bottom_margin (GTK_TEXT_VIEW (view), 6);
  gtk_text_buffer_set_text (gtk_text_view_get_buffer (GTK_TEXT_VIEW (view)), text != NULL ? text : "", -1);
  gtk_event_controller_set_propagation_phase (keys, GTK_PHASE_CAPTURE);
  g_signal_connect_swapped (keys, "key-pressed", G_CALLBACK (note_key_cb), self);
  gtk_widget_add_controller (view, keys);
  gtk_scrolled_window_set_policy (GTK_SCROLLED_WINDOW (scroll), GTK_POLICY_NEVER, GTK_POLICY_AUTOMATIC);
  gtk_widget_add_css_class (scroll, "text-box");
  gtk_scrolled_window_set_min_content_height (GTK_SCROLLED_WINDOW (scroll), 64);
  gtk_scrolled_window_set_child (GTK_SCROLLED_WINDOW (scroll), view);
  gtk_widget_set_focusable (scroll, FALSE);
  gtk_widget_set_tooltip_text (view, _ ("Enter records, Shift+Enter begins a new line"));
  bond_dialog_add_labelled (self, label, scroll, view);
  return GTK_TEXT_VIEW (view);
}

char *
bond_dialog_note_text (GtkTextView *note)
{
  GtkTextBuffer *buffer = gtk_text_view_get_buffer (note);
  GtkTextIter start, end;
  g_autofree char *text = NULL;

  gtk_text_buffer_get_bounds (buffer, &start, &end);
  text = g_strstrip (gtk_text_buffer_get_text (buffer, &start, &end, FALSE));
  return *text != '\0' ? g_steal_pointer (&text) : NULL;
}

void
bond_dialog_set_act_label (BondDialog *self, const char *label)
{
  g_return_if_fail (BOND_IS_DIALOG (self) && label != NULL);
  gtk_button_set_label (GTK_BUTTON (self->act_button), label);
}

GtkDropDown *
bond_dialog_add_choice (BondDialog *self, const char *label, const char *const *names, guint selected)
{
  GtkWidget *drop = gtk_drop_down_new_from_strings (names);

  g_return_val_if_fail (BOND_IS_DIALOG (self), NULL);
  gtk_drop_down_set_selected (GTK_DROP_DOWN (drop), selected);
  bond_dialog_add_labelled (self, label, drop, drop);
  return GTK_DROP_DOWN (drop);
}

void
bond_dialog_add_row (BondDialog *self, GtkWidget *widget)
{
  g_return_if_fail (BOND_IS_DIALOG (self));
  gtk_grid_attach (self->grid, widget, 0, self->n_rows++, 2, 1);
}

GtkCheckButton *
bond_dialog_add_check (BondDialog *self, const char *label, gboolean active)
{
  GtkWidget *check = gtk_check_button_new_with_label (label);

  g_return_val_if_fail (BOND_IS_DIALOG (self), NULL);
  gtk_check_button_set_active (GTK_CHECK_BUTTON (check), active);
  bond_name_widget (check, label);
  bond_dialog_add_row (self, check);
  return GTK_CHECK_BUTTON (check);
}

GtkCheckButton *
bond_dialog_add_mnemonic_check (BondDialog *self, const char *label, gboolean active)
{
  g_auto (GStrv) parts = g_strsplit (label, "_", -1);
  g_autofree char *spoken = g_strjoinv ("", parts);
  GtkCheckButton *check = bond_dialog_add_check (self, label, active);

  gtk_check_button_set_use_underline (check, TRUE);
  bond_name_widget (check, spoken);
  return check;
}

GtkCheckButton *
bond_dialog_add_radio (BondDialog *self, const char *label, GtkCheckButton *group)
{
  GtkCheckButton *radio = bond_dialog_add_check (self, label, FALSE);

  if (group != NULL)
    gtk_check_button_set_group (radio, group);
  else
    gtk_check_button_set_active (radio, TRUE);
  return radio;
}

void
bond_dialog_add_heading (BondDialog *self, const char *text)
{
  GtkWidget *label = gtk_label_new (text);

  gtk_label_set_xalign (GTK_LABEL (label), 0);
  gtk_widget_add_css_class (label, "section");
  gtk_widget_set_margin_top (label, self->n_rows > 0 ? 12 : 0);
  bond_dialog_add_row (self, label);
}

GtkLabel *
bond_dialog_add_text (BondDialog *self, const char *text)
{
  GtkWidget *label = gtk_label_new (text);

  gtk_label_set_xalign (GTK_LABEL (label), 0);
  gtk_label_set_wrap (GTK_LABEL (label), TRUE);
  gtk_label_set_max_width_chars (GTK_LABEL (label), 52);
  gtk_widget_add_css_class (label, "quiet");
  bond_dialog_add_row (self, label);
  return GTK_LABEL (label);
}

void
bond_dialog_set_problem (BondDialog *self, const char *text)
{
  g_return_if_fail (BOND_IS_DIALOG (self));
  gtk_label_set_text (self->problem, text != NULL ? text : "");
  gtk_widget_set_visible (GTK_WIDGET (self->problem), text != NULL);
}

char *
bond_dialog_text (GtkEditable *editable)
{
  g_autofree char *text = g_strstrip (g_strdup (gtk_editable_get_text (editable)));

  return *text != '\0' ? g_steal_pointer (&text) : NULL;
}

void
bond_message (GtkWindow *parent, const char *title, const char *text)
{
  BondDialog *dialog = bond_dialog_new (parent, title, NULL, NULL, NULL, NULL);
  GtkLabel *label = bond_dialog_add_text (dialog, text);

  gtk_widget_remove_css_class (GTK_WIDGET (label), "quiet");
  gtk_label_set_selectable (label, TRUE);
  bond_name_widget (label, text);
  gtk_window_present (GTK_WINDOW (dialog));
  /* A label that can be selected would take the focus and select all of itself. */
  gtk_window_set_focus (GTK_WINDOW (dialog), dialog->act_button);
  gtk_label_select_region (label, 0, 0);
}
