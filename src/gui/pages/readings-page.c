/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * Puts bar and table together and gives the table its keys.  The row chosen is the
 * point in hand of a walk of its own: the walk of the Walk page, and what is typed
 * there, are not touched by anything done here.
 */
#include "gui/pages/readings-page.h"
#include "gui/actions.h"
#include "gui/dialog.h"
#include "gui/files.h"
#include "gui/identity-strip.h"
#include "gui/pages/readings-text.h"
#include "store/survey-file.h"
#include <glib/gi18n-lib.h>

struct _BondReadingsPage
{
  GtkWidget parent_instance;
  BondWalk *walk, *hand;
  BondReadingsModel *model;
  BondReadingsTable *table;
  BondReadingsBar *bar;
  GtkWidget *box, *empty, *empty_button;
  GtkStack *stack;
  GtkLabel *empty_label;
  GtkProgressBar *progress;
  GtkWidget *menu;
  gboolean has_row, exporting;
  BondPoint *seen_point; /* where the walk was when the page was entered last */
  char *seen_place;
};

static guint details, go, to_walk, say;

G_DEFINE_FINAL_TYPE (BondReadingsPage, bond_readings_page, GTK_TYPE_WIDGET)

static void
tell (BondReadingsPage *self, const char *css, const char *text)
{
  g_signal_emit (self, say, 0, css, text);
}

static void
chosen_cb (BondReadingsPage *self)
{
  g_autoptr (BondReadingsRow) row = bond_readings_table_get_chosen (self->table);

  self->has_row = row != NULL;
  if (row != NULL)
    bond_walk_go (self->hand, bond_readings_row_get_point (row), bond_readings_row_get_place (row));
}

static void
show_empty (BondReadingsPage *self)
{
  guint total = bond_readings_model_count (self->model, BOND_READINGS_ALL);
  gboolean hidden = total > 0 && bond_readings_model_get_shown (self->model) == 0;
  gboolean unmeasured = !hidden && !bond_readings_model_get_measured (self->model);
  g_autofree char *words = NULL;

  if (hidden)
    words = g_strdup_printf (_ ("No point matches. Clear the filter to see all %u."), total);
  else if (total == 0)
    words = g_strdup (_ ("This survey has no points. Choose zones, or edit the airframe."));
  else
    words = g_strdup (_ ("Nothing measured yet."));
  gtk_label_set_text (self->empty_label, words);
  gtk_button_set_label (GTK_BUTTON (self->empty_button), hidden ? _ ("Clear") : _ ("Go to Walk"));
  bond_name_widget (self->empty_button, hidden ? _ ("Clear the filter") : _ ("Go to Walk"));
  gtk_stack_set_visible_child_name (self->stack, hidden || unmeasured ? "empty" : "table");
}

static void
empty_clicked_cb (BondReadingsPage *self)
{
  if (bond_readings_model_get_shown (self->model) == 0
      && bond_readings_model_count (self->model, BOND_READINGS_ALL) > 0)
    bond_readings_bar_clear (self->bar);
  else
    g_signal_emit (self, to_walk, 0);
}

/* The row Enter or the double click was on, which need not be the first of those chosen. */
static void
activated_cb (BondReadingsPage *self, BondReadingsRow *row)
{
  bond_walk_go (self->hand, bond_readings_row_get_point (row), bond_readings_row_get_place (row));
  self->has_row = TRUE;
  g_signal_emit (self, details, 0);
}

static gboolean
act_on_row (BondReadingsPage *self, guint signal)
{
  if (self->has_row)
    g_signal_emit (self, signal, 0);
  return GDK_EVENT_STOP;
}

/* Letters as in the reading field, of those acts that mean a row. */
static const char letters[] = "DEJNPQTVWX";

static gboolean
letter_key (BondReadingsPage *self, guint keyval)
{
  gunichar letter = g_unichar_toupper (gdk_keyval_to_unicode (keyval));
  const char *action
      = letter < 128 && letter > ' ' && strchr (letters, (int)letter) != NULL ? bond_action_for_letter (letter) : NULL;

  if (keyval == GDK_KEY_f || keyval == GDK_KEY_F || keyval == GDK_KEY_slash)
    bond_readings_bar_find (self->bar);
  else if (action == NULL)
    return GDK_EVENT_PROPAGATE;
  else if (self->has_row)
    gtk_widget_activate_action (GTK_WIDGET (self), action, NULL);
  return GDK_EVENT_STOP;
}

/* Before the list takes Shift+Enter for itself; Enter is the list's. */
static gboolean
key_cb (GtkEventControllerKey *controller, guint keyval, guint keycode, GdkModifierType state, BondReadingsPage *self)
{
  GdkModifierType held = state & (GDK_CONTROL_MASK | GDK_ALT_MASK | GDK_SHIFT_MASK);
  gboolean enter = keyval == GDK_KEY_Return || keyval == GDK_KEY_KP_Enter;

  if (enter && held == GDK_SHIFT_MASK)
    return act_on_row (self, go);
  if (held == GDK_CONTROL_MASK && (keyval == GDK_KEY_c || keyval == GDK_KEY_C))
    {
      bond_readings_page_copy (self);
      return GDK_EVENT_STOP;
    }
  if (held == 0 && (keyval == GDK_KEY_Down || keyval == GDK_KEY_Up))
    return bond_readings_table_skip_header (self->table, keyval == GDK_KEY_Down ? 1 : -1);
  return (held & ~GDK_SHIFT_MASK) != 0 ? GDK_EVENT_PROPAGATE : letter_key (self, keyval);
}

static void
details_act (GtkWidget *widget, const char *name, GVariant *parameter)
{
  act_on_row (BOND_READINGS_PAGE (widget), details);
}

static void
go_act (GtkWidget *widget, const char *name, GVariant *parameter)
{
  act_on_row (BOND_READINGS_PAGE (widget), go);
}

static void
copy_act (GtkWidget *widget, const char *name, GVariant *parameter)
{
  bond_readings_page_copy (BOND_READINGS_PAGE (widget));
}

static void
pop_menu (BondReadingsPage *self, GtkWidget *at, double x, double y)
{
  double page_x = 0, page_y = 0;

  gtk_widget_translate_coordinates (at, GTK_WIDGET (self), x, y, &page_x, &page_y);
  gtk_popover_set_pointing_to (GTK_POPOVER (self->menu), &(GdkRectangle){ (int)page_x, (int)page_y, 1, 1 });
  gtk_popover_popup (GTK_POPOVER (self->menu));
}

/* The row under the pointer is the one meant, unless it is one of those chosen. */
static void
menu_cb (BondReadingsPage *self, BondReadingsRow *row, double x, double y)
{
  g_autoptr (GPtrArray) rows = bond_readings_table_get_rows (self->table, FALSE);

  if (!g_ptr_array_find (rows, row, NULL))
    bond_readings_table_choose (self->table, bond_readings_row_get_point (row), bond_readings_row_get_place (row));
  pop_menu (self, GTK_WIDGET (bond_readings_table_get_view (self->table)), x, y);
}

static gboolean
menu_key_cb (GtkWidget *widget, GVariant *arguments, gpointer data)
{
  BondReadingsPage *self = BOND_READINGS_PAGE (widget);
  GtkWidget *focus = gtk_root_get_focus (gtk_widget_get_root (widget));

  if (!self->has_row || focus == NULL || !gtk_widget_is_ancestor (focus, GTK_WIDGET (self->table)))
    return FALSE;
  pop_menu (self, focus, 60, gtk_widget_get_height (focus));
  return TRUE;
}

static void
exported_cb (const char *message, gboolean failed, gpointer data)
{
  g_autoptr (BondReadingsPage) self = data;

  self->exporting = FALSE;
  if (self->model != NULL)
    tell (self, failed ? "fail" : NULL, message);
}

static void
file_chosen_cb (GFile *file, gpointer data)
{
  g_autoptr (BondReadingsPage) self = data;

  if (file != NULL && self->model != NULL)
    bond_readings_page_export_to (self, file);
}

static void
bond_readings_page_dispose (GObject *object)
{
  BondReadingsPage *self = BOND_READINGS_PAGE (object);

  if (self->model != NULL)
    g_signal_handlers_disconnect_by_data (self->model, self);
  if (self->table != NULL)
    g_signal_handlers_disconnect_by_data (self->table, self);
  if (self->hand != NULL)
    g_signal_handlers_disconnect_by_data (self->hand, self);
  self->table = NULL;
  g_clear_pointer (&self->menu, gtk_widget_unparent);
  g_clear_pointer (&self->box, gtk_widget_unparent);
  g_clear_object (&self->model);
  g_clear_object (&self->hand);
  g_clear_object (&self->seen_point);
  g_clear_pointer (&self->seen_place, g_free);
  g_clear_object (&self->walk);
  G_OBJECT_CLASS (bond_readings_page_parent_class)->dispose (object);
}

static void
bond_readings_page_size_allocate (GtkWidget *widget, int width, int height, int baseline)
{
  GTK_WIDGET_CLASS (bond_readings_page_parent_class)->size_allocate (widget, width, height, baseline);
  gtk_popover_present (GTK_POPOVER (BOND_READINGS_PAGE (widget)->menu));
}

static guint
plain_signal (const char *name)
{
  return g_signal_new (name, BOND_TYPE_READINGS_PAGE, G_SIGNAL_RUN_LAST, 0, NULL, NULL, NULL, G_TYPE_NONE, 0);
}

static void
bond_readings_page_class_init (BondReadingsPageClass *klass)
{
  GtkWidgetClass *widget_class = GTK_WIDGET_CLASS (klass);

  G_OBJECT_CLASS (klass)->dispose = bond_readings_page_dispose;
  gtk_widget_class_set_layout_manager_type (widget_class, GTK_TYPE_BIN_LAYOUT);
  widget_class->size_allocate = bond_readings_page_size_allocate;
  gtk_widget_class_install_action (widget_class, "readings.details", NULL, details_act);
  gtk_widget_class_install_action (widget_class, "readings.go", NULL, go_act);
  gtk_widget_class_install_action (widget_class, "readings.copy", NULL, copy_act);
  gtk_widget_class_add_binding (widget_class, GDK_KEY_Menu, 0, menu_key_cb, NULL);
  gtk_widget_class_add_binding (widget_class, GDK_KEY_F10, GDK_SHIFT_MASK, menu_key_cb, NULL);
  details = plain_signal ("details");
  go = plain_signal ("go");
  to_walk = plain_signal ("walk");
  say = g_signal_new ("say", BOND_TYPE_READINGS_PAGE, G_SIGNAL_RUN_LAST, 0, NULL, NULL, NULL, G_TYPE_NONE, 2,
                      G_TYPE_STRING, G_TYPE_STRING);
}

static void
add_menu (BondReadingsPage *self)
{
  static const struct
  {
    const char *name, *action;
  } items[] = {
    { N_ ("Point Details"), "readings.details" },
    { N_ ("Go to Point"), "readings.go" },
    { N_ ("Rework…"), "win.rework" },
    { N_ ("Disposition…"), "win.disposition" },
    { N_ ("Void Reading…"), "win.void-reading" },
    { N_ ("Copy"), "readings.copy" },
  };
  g_autoptr (GMenu) model = g_menu_new ();

  for (gsize i = 0; i < G_N_ELEMENTS (items); i++)
    g_menu_append (model, _ (items[i].name), items[i].action);
  self->menu = gtk_popover_menu_new_from_model (G_MENU_MODEL (model));
  gtk_popover_set_has_arrow (GTK_POPOVER (self->menu), FALSE);
  gtk_widget_set_halign (self->menu, GTK_ALIGN_START);
  bond_name_widget (self->menu, _ ("Row menu"));
  gtk_widget_set_parent (self->menu, GTK_WIDGET (self));
}

static void
add_empty (BondReadingsPage *self)
{
  self->empty = gtk_box_new (GTK_ORIENTATION_VERTICAL, 12);
  self->empty_label = GTK_LABEL (gtk_label_new (NULL));
  self->empty_button = gtk_button_new ();
  gtk_label_set_wrap (self->empty_label, TRUE);
  gtk_widget_set_valign (self->empty, GTK_ALIGN_CENTER);
  gtk_widget_set_halign (self->empty_button, GTK_ALIGN_CENTER);
  g_signal_connect_swapped (self->empty_button, "clicked", G_CALLBACK (empty_clicked_cb), self);
  gtk_box_append (GTK_BOX (self->empty), GTK_WIDGET (self->empty_label));
  gtk_box_append (GTK_BOX (self->empty), self->empty_button);
  gtk_stack_add_named (self->stack, self->empty, "empty");
}

static void
bond_readings_page_init (BondReadingsPage *self)
{
  GtkWidget *progress = gtk_progress_bar_new ();

  self->box = gtk_box_new (GTK_ORIENTATION_VERTICAL, 0);
  self->stack = GTK_STACK (gtk_stack_new ());
  self->progress = GTK_PROGRESS_BAR (progress);
  gtk_progress_bar_set_show_text (self->progress, TRUE);
  bond_name_widget (progress, _ ("Export"));
  gtk_widget_set_visible (progress, FALSE);
  gtk_widget_set_vexpand (GTK_WIDGET (self->stack), TRUE);
  gtk_widget_set_parent (self->box, GTK_WIDGET (self));
  gtk_widget_add_css_class (GTK_WIDGET (self), "readings-page");
  add_empty (self);
  add_menu (self);
}

static void
hand_not_recorded_cb (BondReadingsPage *self, const char *text, const char *message)
{
  tell (self, "fail", message);
}

GtkWidget *
bond_readings_page_new (BondWalk *walk)
{
  BondReadingsPage *self;
  GtkEventController *keys = gtk_event_controller_key_new ();

  g_return_val_if_fail (BOND_IS_WALK (walk), NULL);
  self = g_object_new (BOND_TYPE_READINGS_PAGE, NULL);
  self->walk = g_object_ref (walk);
  self->hand = bond_walk_new (bond_walk_get_survey (walk));
  self->model = bond_readings_model_new (bond_walk_get_survey (walk));
  self->table = BOND_READINGS_TABLE (bond_readings_table_new (self->model));
  self->bar = BOND_READINGS_BAR (bond_readings_bar_new (self->model, self->table));
  gtk_box_append (GTK_BOX (self->box), GTK_WIDGET (self->bar));
  gtk_box_append (GTK_BOX (self->box), GTK_WIDGET (self->progress));
  gtk_box_append (GTK_BOX (self->box), GTK_WIDGET (self->stack));
  gtk_stack_add_named (self->stack, GTK_WIDGET (self->table), "table");
  gtk_event_controller_set_propagation_phase (keys, GTK_PHASE_CAPTURE);
  g_signal_connect (keys, "key-pressed", G_CALLBACK (key_cb), self);
  gtk_widget_add_controller (GTK_WIDGET (bond_readings_table_get_view (self->table)), keys);
  g_signal_connect_swapped (self->table, "chosen", G_CALLBACK (chosen_cb), self);
  g_signal_connect_swapped (self->table, "activate", G_CALLBACK (activated_cb), self);
  g_signal_connect_swapped (self->table, "menu", G_CALLBACK (menu_cb), self);
  g_signal_connect_swapped (self->bar, "leave", G_CALLBACK (bond_readings_table_grab), self->table);
  g_signal_connect_swapped (self->model, "counts-changed", G_CALLBACK (show_empty), self);
  g_signal_connect_swapped (self->hand, "not-recorded", G_CALLBACK (hand_not_recorded_cb), self);
  show_empty (self);
  return GTK_WIDGET (self);
}

BondWalk *
bond_readings_page_get_hand (BondReadingsPage *self)
{
  g_return_val_if_fail (BOND_IS_READINGS_PAGE (self), NULL);
  return self->has_row ? self->hand : NULL;
}

BondReadingsTable *
bond_readings_page_get_table (BondReadingsPage *self)
{
  g_return_val_if_fail (BOND_IS_READINGS_PAGE (self), NULL);
  return self->table;
}

BondReadingsModel *
bond_readings_page_get_model (BondReadingsPage *self)
{
  g_return_val_if_fail (BOND_IS_READINGS_PAGE (self), NULL);
  return self->model;
}

BondReadingsBar *
bond_readings_page_get_bar (BondReadingsPage *self)
{
  g_return_val_if_fail (BOND_IS_READINGS_PAGE (self), NULL);
  return self->bar;
}

/* A row chosen here stays, until the walk has gone on. */
static void
follow_walk (BondReadingsPage *self)
{
  BondPoint *point = bond_walk_get_point (self->walk);
  const char *place = bond_walk_get_place (self->walk);

  if (self->has_row && point == self->seen_point && g_strcmp0 (place, self->seen_place) == 0)
    return;
  g_set_object (&self->seen_point, point);
  g_free (self->seen_place);
  self->seen_place = g_strdup (place);
  bond_readings_table_choose (self->table, point, place);
}

void
bond_readings_page_enter (BondReadingsPage *self)
{
  g_return_if_fail (BOND_IS_READINGS_PAGE (self));
  bond_readings_model_settle (self->model);
  follow_walk (self);
  if (g_strcmp0 (gtk_stack_get_visible_child_name (self->stack), "table") == 0)
    bond_readings_table_grab (self->table);
  else
    gtk_widget_grab_focus (self->empty_button);
}

void
bond_readings_page_find (BondReadingsPage *self)
{
  g_return_if_fail (BOND_IS_READINGS_PAGE (self));
  bond_readings_bar_find (self->bar);
}

void
bond_readings_page_copy (BondReadingsPage *self)
{
  int order[BOND_N_READINGS_COLUMNS], n;
  g_autoptr (GPtrArray) rows = NULL;
  g_autofree char *text = NULL;

  g_return_if_fail (BOND_IS_READINGS_PAGE (self));
  rows = bond_readings_table_get_rows (self->table, FALSE);
  if (rows->len == 0)
    return;
  n = bond_readings_table_get_order (self->table, order);
  text = bond_readings_tsv (rows, order, n);
  gdk_clipboard_set_text (gtk_widget_get_clipboard (GTK_WIDGET (self)), text);
}

void
bond_readings_page_export_to (BondReadingsPage *self, GFile *file)
{
  g_autoptr (GPtrArray) rows = NULL;
  g_autofree char *filter = NULL;

  g_return_if_fail (BOND_IS_READINGS_PAGE (self) && G_IS_FILE (file));
  if (self->exporting)
    return;
  if (bond_readings_export_would_destroy (file))
    {
      tell (self, "fail",
            _ ("The table would replace a survey, its journal or its backup. Nothing was written; choose "
               "another name."));
      return;
    }
  bond_readings_model_settle (self->model);
  self->exporting = TRUE;
  rows = bond_readings_table_get_rows (self->table, TRUE);
  filter = bond_readings_model_filter_words (self->model);
  bond_readings_export (bond_walk_get_survey (self->walk), rows, filter, file, self->progress, exported_cb,
                        g_object_ref (self));
}

void
bond_readings_page_export (BondReadingsPage *self, const char *beside)
{
  BondSurvey *survey;
  g_autofree char *name = NULL;
  g_autofree char *registration = NULL;
  g_autofree char *now = NULL;
  g_autofree char *folder = NULL;

  g_return_if_fail (BOND_IS_READINGS_PAGE (self));
  survey = bond_walk_get_survey (self->walk);
  if (bond_survey_is_broken (survey))
    {
      tell (self, "fail", _ ("No table was made: no figure of an altered survey is passed on."));
      return;
    }
  registration = bond_identity_short (survey);
  now = bond_source_now (bond_survey_get_source (survey));
  name = g_strdup_printf ("%s %.10s.csv", registration, now);
  folder = beside != NULL ? g_path_get_dirname (beside) : NULL;
  bond_file_save (GTK_WINDOW (gtk_widget_get_root (GTK_WIDGET (self))), _ ("Export CSV"), folder,
                  g_strdelimit (name, "/\\", '-'), file_chosen_cb, g_object_ref (self));
}
