/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * Holds a survey file, its walk and the pages that show it, and says what became of
 * the file.  The acts are in survey-acts.c.
 */
#include "gui/dialog.h"
#include "gui/identity-strip.h"
#include "gui/instrument-chip.h"
#include "gui/survey-problems.h"
#include "gui/survey-window-private.h"
#include "gui/trace.h"
#include "gui/undo-words.h"
#include "gui/words.h"
#include <glib/gi18n-lib.h>

G_DEFINE_FINAL_TYPE (BondSurveyWindow, bond_survey_window, GTK_TYPE_APPLICATION_WINDOW)

static BondSurvey *
survey_of (BondSurveyWindow *self)
{
  return bond_survey_file_get_survey (self->file);
}

/* What is told again stands there once: a save is tried every few seconds. */
static void
take_away_told (BondSurveyWindow *self, const char *text)
{
  GtkWidget *next;

  for (GtkWidget *row = gtk_widget_get_first_child (self->bands); row != NULL; row = next)
    {
      GtkWidget *label = gtk_widget_get_first_child (row);

      next = gtk_widget_get_next_sibling (row);
      if (GTK_IS_LABEL (label) && g_str_equal (gtk_label_get_text (GTK_LABEL (label)), text))
        gtk_box_remove (GTK_BOX (self->bands), row);
    }
}

void
bond_survey_window_tell (BondSurveyWindow *self, const char *css, const char *text)
{
  GtkWidget *row = gtk_box_new (GTK_ORIENTATION_HORIZONTAL, 8);
  GtkWidget *label = g_object_new (GTK_TYPE_LABEL, "accessible-role", GTK_ACCESSIBLE_ROLE_ALERT, "label", text, NULL);
  GtkWidget *button = gtk_button_new_from_icon_name ("window-close-symbolic");

  g_return_if_fail (BOND_IS_SURVEY_WINDOW (self) && text != NULL);
  take_away_told (self, text);
  gtk_label_set_wrap (GTK_LABEL (label), TRUE);
  gtk_label_set_xalign (GTK_LABEL (label), 0);
  gtk_widget_set_hexpand (label, TRUE);
  gtk_widget_add_css_class (row, "band");
  if (css != NULL)
    gtk_widget_add_css_class (row, css);
  gtk_button_set_has_frame (GTK_BUTTON (button), FALSE);
  bond_name_widget (button, _ ("Dismiss message"));
  g_signal_connect_swapped (button, "clicked", G_CALLBACK (gtk_widget_unparent), row);
  gtk_box_append (GTK_BOX (row), label);
  gtk_box_append (GTK_BOX (row), button);
  gtk_box_append (GTK_BOX (self->bands), row);
}

static void
show_instrument_band (BondSurveyWindow *self)
{
  g_autofree char *problem = bond_walk_instrument_problem (self->walk);

  if (self->instrument_band != NULL)
    gtk_box_remove (GTK_BOX (self->bands), self->instrument_band);
  self->instrument_band = NULL;
  if (problem == NULL || bond_survey_get_read_only (survey_of (self)) != NULL)
    return;
  self->instrument_band = gtk_label_new (problem);
  gtk_label_set_xalign (GTK_LABEL (self->instrument_band), 0);
  gtk_label_set_wrap (GTK_LABEL (self->instrument_band), TRUE);
  gtk_widget_add_css_class (self->instrument_band, "band");
  gtk_widget_add_css_class (self->instrument_band, "guard");
  gtk_box_append (GTK_BOX (self->bands), self->instrument_band);
}

void
bond_survey_window_show_state (BondSurveyWindow *self)
{
  g_autofree char *registration = bond_identity_short (survey_of (self));
  g_autofree char *progress = bond_identity_progress (survey_of (self), NULL);
  g_autofree char *title = g_strdup_printf ("%s – %s", registration, bond_survey_window_page_title (self));
  g_autofree char *undo = bond_undo_words (survey_of (self));
  g_autofree char *redo = bond_redo_words (survey_of (self));
  g_autofree char *clock = bond_words_clock (bond_survey_file_get_saved_at (self->file));
  g_autofree char *saved = g_strdup_printf (_ ("Last entry written %s"), *clock != '\0' ? clock : "–");

  gtk_label_set_text (self->short_label, bond_survey_file_is_broken (self->file) ? _ ("Altered file") : progress);
  gtk_window_set_title (GTK_WINDOW (self), title);
  gtk_widget_set_tooltip_text (GTK_WIDGET (self->undo_button), undo);
  bond_name_widget (self->undo_button, undo);
  g_menu_remove_all (self->saved_section);
  g_menu_append (self->saved_section, undo, "win.undo");
  g_menu_append (self->saved_section, redo, "win.redo");
  g_menu_append (self->saved_section, saved, "win.saved");
}

static void
class_changed_cb (BondSurveyWindow *self)
{
  gboolean compact = bond_panes_get_width_class (bond_walk_page_get_panes (self->page)) == BOND_WIDTH_COMPACT;

  gtk_widget_set_visible (self->strip_slot, !compact);
  gtk_widget_set_visible (GTK_WIDGET (self->short_label), compact);
  bond_survey_window_dock_details (self);
}

static void
save_failed_cb (BondSurveyWindow *self, const GError *error)
{
  g_autofree char *text
      = g_strdup_printf (_ ("NOT saved as a whole: %s Entries recorded so far are in the journal beside "
                            "the file."),
                         error->message);

  bond_survey_window_tell (self, "fail", text);
}

static void
entry_applied_cb (BondSurveyWindow *self, BondEntry *entry)
{
  bond_trace_entry (entry);
  bond_survey_window_show_state (self);
}

void
bond_survey_window_show_view (BondSurveyWindow *self)
{
  const char *view = bond_diagram_get_view (bond_walk_page_get_diagram (self->page));
  GAction *action = g_action_map_lookup_action (G_ACTION_MAP (self), "view");

  if (view != NULL)
    g_simple_action_set_state (G_SIMPLE_ACTION (action), g_variant_new_string (view));
}

void
bond_survey_window_begin (BondSurveyWindow *self)
{
  g_return_if_fail (BOND_IS_SURVEY_WINDOW (self));
  show_instrument_band (self);
  bond_survey_window_open_gate (self);
  bond_survey_window_show_page (self, BOND_PAGE_WALK);
}

static gboolean
bond_survey_window_close_request (GtkWindow *window)
{
  BondSurveyWindow *self = BOND_SURVEY_WINDOW (window);
  g_autoptr (GError) error = NULL;

  if (!self->close_failed && !bond_survey_file_close (self->file, &error))
    {
      g_autofree char *text
          = g_strdup_printf (_ ("The survey could not be saved as a whole: %s What was recorded is in the "
                                "journal beside it. Close again to leave it so."),
                             error->message);

      self->close_failed = TRUE;
      bond_survey_window_tell (self, "fail", text);
      return TRUE;
    }
  return GTK_WINDOW_CLASS (bond_survey_window_parent_class)->close_request (window);
}

static void
bond_survey_window_dispose (GObject *object)
{
  BondSurveyWindow *self = BOND_SURVEY_WINDOW (object);

  bond_survey_window_drop_details (self);
  if (self->file != NULL)
    {
      g_signal_handlers_disconnect_by_data (survey_of (self), self);
      g_signal_handlers_disconnect_by_data (self->file, self);
      g_signal_handlers_disconnect_by_data (self->walk, self);
      bond_survey_file_close (self->file, NULL);
    }
  G_OBJECT_CLASS (bond_survey_window_parent_class)->dispose (object);
  g_clear_object (&self->walk);
  g_clear_object (&self->file);
  g_clear_object (&self->saved_section);
}

static void
bond_survey_window_class_init (BondSurveyWindowClass *klass)
{
  GtkWidgetClass *widget_class = GTK_WIDGET_CLASS (klass);

  G_OBJECT_CLASS (klass)->dispose = bond_survey_window_dispose;
  GTK_WINDOW_CLASS (klass)->close_request = bond_survey_window_close_request;
  gtk_widget_class_set_template_from_resource (widget_class, BOND_UI "survey-window.ui");
  gtk_widget_class_bind_template_child (widget_class, BondSurveyWindow, strip_slot);
  gtk_widget_class_bind_template_child (widget_class, BondSurveyWindow, bands);
  gtk_widget_class_bind_template_child (widget_class, BondSurveyWindow, stack);
  gtk_widget_class_bind_template_child (widget_class, BondSurveyWindow, short_label);
  gtk_widget_class_bind_template_child (widget_class, BondSurveyWindow, title_box);
  gtk_widget_class_bind_template_child (widget_class, BondSurveyWindow, menu_button);
  gtk_widget_class_bind_template_child (widget_class, BondSurveyWindow, undo_button);
  bond_survey_acts_install (widget_class);
  bond_survey_shift_acts_install (widget_class);
}

static GMenuModel *
new_menu (BondSurveyWindow *self)
{
  GMenu *menu = g_menu_new ();
  g_autoptr (GMenu) act = g_menu_new ();
  g_autoptr (GMenu) look = g_menu_new ();
  g_autoptr (GMenu) other = g_menu_new ();

  g_menu_append (act, _ ("Hand Over…"), "win.hand-over");
  g_menu_append (act, _ ("Record Permit…"), "win.permit");
  g_menu_append (act, _ ("Close Permit…"), "win.close-permit");
  g_menu_append (act, _ ("Export PDF…"), "win.export-pdf");
  g_menu_append (act, _ ("Export Readings as CSV…"), "win.export-csv");
  g_menu_append (act, _ ("Point Details"), "win.point-details");
  g_menu_append (act, _ ("Place Point…"), "win.place-point");
  g_menu_append (look, _ ("Look: Follow System"), "app.look::system");
  g_menu_append (look, _ ("Look: Light"), "app.look::light");
  g_menu_append (look, _ ("Look: Dark"), "app.look::dark");
  g_menu_append (look, _ ("Big Targets"), "app.big-targets");
  g_menu_append (look, _ ("Preferences…"), "app.preferences");
  g_menu_append (other, _ ("All Surveys"), "app.start");
  g_menu_append (other, _ ("New Survey…"), "app.new-survey");
  g_menu_append (other, _ ("Open…"), "app.open");
  g_menu_append (other, _ ("Keys and Letters"), "win.shortcuts");
  g_menu_append (other, _ ("About and Cautions"), "app.about");
  g_menu_append_section (menu, NULL, G_MENU_MODEL (self->saved_section));
  g_menu_append_section (menu, NULL, G_MENU_MODEL (act));
  g_menu_append_section (menu, NULL, G_MENU_MODEL (look));
  g_menu_append_section (menu, NULL, G_MENU_MODEL (other));
  return G_MENU_MODEL (menu);
}

static void
bond_survey_window_init (BondSurveyWindow *self)
{
  g_autoptr (GMenuModel) menu = NULL;

  gtk_widget_init_template (GTK_WIDGET (self));
  bond_survey_acts_add_stateful (self);
  bond_survey_window_add_switcher (self, GTK_BOX (self->title_box));
  self->saved_section = g_menu_new ();
  menu = new_menu (self);
  gtk_menu_button_set_menu_model (self->menu_button, menu);
}

static void
add_pages (BondSurveyWindow *self)
{
  self->page = BOND_WALK_PAGE (bond_survey_window_build_page (self, BOND_PAGE_WALK));
  self->before = BOND_BEFORE_PAGE (bond_before_page_new (self->walk));
  gtk_stack_add_named (self->stack, GTK_WIDGET (self->before), "before");
  g_signal_connect_swapped (self->before, "begin", G_CALLBACK (bond_survey_window_begin), self);
  g_signal_connect_swapped (self->page, "class-changed", G_CALLBACK (class_changed_cb), self);
  g_signal_connect_swapped (bond_walk_page_get_diagram (self->page), "notify::view",
                            G_CALLBACK (bond_survey_window_show_view), self);
}

BondSurveyWindow *
bond_survey_window_new (GtkApplication *application, BondSurveyFile *file, BondCatalog *catalog, GPtrArray *problems)
{
  BondSurveyWindow *self;

  g_return_val_if_fail (BOND_IS_SURVEY_FILE (file), NULL);
  self = g_object_new (BOND_TYPE_SURVEY_WINDOW, "application", application, NULL);
  self->file = g_object_ref (file);
  self->walk = bond_walk_new (survey_of (self));
  self->strip = bond_identity_strip_new (self->walk, catalog);
  gtk_widget_set_hexpand (self->strip, TRUE);
  gtk_box_append (GTK_BOX (self->strip_slot), self->strip);
  self->chip[0] = gtk_widget_get_last_child (self->strip);
  add_pages (self);
  self->chip[1] = bond_instrument_chip_new (self->walk, catalog);
  bond_survey_window_add_shift (self, catalog);
  bond_walk_page_add_foot (self->page, self->chip[1]);
  g_signal_connect_swapped (survey_of (self), "entry-applied", G_CALLBACK (entry_applied_cb), self);
  g_signal_connect_swapped (file, "save-failed", G_CALLBACK (save_failed_cb), self);
  g_signal_connect_swapped (file, "saved", G_CALLBACK (bond_survey_window_show_state), self);
  g_signal_connect_swapped (self->walk, "pinned-changed", G_CALLBACK (show_instrument_band), self);
  bond_survey_window_tell_problems (self, GTK_BOX (self->bands), self->strip, problems);
  bond_survey_window_show_view (self);
  bond_survey_window_show_state (self);
  if (bond_survey_get_read_only (survey_of (self)) != NULL)
    bond_survey_window_begin (self);
  else
    {
      gtk_stack_set_visible_child (self->stack, GTK_WIDGET (self->before));
      bond_before_page_grab_focus (self->before);
    }
  return self;
}

BondSurveyFile *
bond_survey_window_get_file (BondSurveyWindow *self)
{
  g_return_val_if_fail (BOND_IS_SURVEY_WINDOW (self), NULL);
  return self->file;
}

BondWalk *
bond_survey_window_get_walk (BondSurveyWindow *self)
{
  g_return_val_if_fail (BOND_IS_SURVEY_WINDOW (self), NULL);
  return self->walk;
}

BondWalkPage *
bond_survey_window_get_page (BondSurveyWindow *self)
{
  g_return_val_if_fail (BOND_IS_SURVEY_WINDOW (self), NULL);
  return self->page;
}
