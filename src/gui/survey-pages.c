/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * The pages of the survey window, one row each, and the buttons that choose between
 * them.  GtkStackSwitcher does not shrink, so the buttons are plain ones with labels
 * that ellipsize.  A page is built when it is first asked for: the walk must not
 * wait for pages nobody opens.
 */
#include "gui/details/details-window.h"
#include "gui/dialog.h"
#include "gui/pages/readings-page.h"
#include "gui/survey-window-private.h"
#include <glib/gi18n-lib.h>

/**
 * BondPageInfo: one page.
 * @shown: puts the focus where the page is worked from
 * @hand: (nullable): the walk its acts mean; NULL = the walk itself
 * @find: (nullable): puts the focus into its search
 */
typedef struct
{
  const char *name, *title, *key;
  GtkWidget *(*build) (BondSurveyWindow *self);
  void (*shown) (BondSurveyWindow *self, GtkWidget *page);
  BondWalk *(*hand) (GtkWidget *page);
  void (*find) (GtkWidget *page);
} BondPageInfo;

static GtkWidget *
build_walk (BondSurveyWindow *self)
{
  return bond_walk_page_new (self->walk);
}

/* Without selecting: what was typed before stays, and the next digit goes behind it. */
static void
walk_shown (BondSurveyWindow *self, GtkWidget *page)
{
  BondReadingPanel *panel = bond_walk_page_get_panel (BOND_WALK_PAGE (page));

  bond_reading_panel_grab_field (panel);
  /* The stack gave the focus back first, and selected what is typed. */
  gtk_editable_set_position (bond_reading_panel_get_entry (panel), -1);
}

static void
find_in_walk (GtkWidget *page)
{
  bond_walk_page_find (BOND_WALK_PAGE (page));
}

static void
readings_go_cb (BondSurveyWindow *self, BondReadingsPage *page)
{
  BondWalk *hand = bond_readings_page_get_hand (page);

  if (hand != NULL)
    bond_walk_go (self->walk, bond_walk_get_point (hand), bond_walk_get_place (hand));
  bond_survey_window_show_page (self, BOND_PAGE_WALK);
}

static void
readings_walk_cb (BondSurveyWindow *self)
{
  bond_survey_window_show_page (self, BOND_PAGE_WALK);
}

static GtkWidget *
build_readings (BondSurveyWindow *self)
{
  GtkWidget *page = bond_readings_page_new (self->walk);

  g_signal_connect_swapped (page, "details", G_CALLBACK (bond_survey_window_show_details), self);
  g_signal_connect_swapped (page, "go", G_CALLBACK (readings_go_cb), self);
  g_signal_connect_swapped (page, "walk", G_CALLBACK (readings_walk_cb), self);
  g_signal_connect_swapped (page, "say", G_CALLBACK (bond_survey_window_tell), self);
  return page;
}

static void
readings_shown (BondSurveyWindow *self, GtkWidget *page)
{
  bond_readings_page_enter (BOND_READINGS_PAGE (page));
}

static BondWalk *
readings_hand (GtkWidget *page)
{
  return bond_readings_page_get_hand (BOND_READINGS_PAGE (page));
}

static void
find_in_readings (GtkWidget *page)
{
  bond_readings_page_find (BOND_READINGS_PAGE (page));
}

static const BondPageInfo pages[] = {
  { BOND_PAGE_WALK, N_ ("Walk"), "Alt+1", build_walk, walk_shown, NULL, find_in_walk },
  { BOND_PAGE_READINGS, N_ ("Readings"), "Alt+2", build_readings, readings_shown, readings_hand, find_in_readings },
};

static const BondPageInfo *
find_info (const char *name)
{
  for (gsize i = 0; i < G_N_ELEMENTS (pages); i++)
    if (g_strcmp0 (pages[i].name, name) == 0)
      return &pages[i];
  return NULL;
}

/* NULL while the cautions stand before all pages. */
static const BondPageInfo *
shown_info (BondSurveyWindow *self)
{
  return find_info (gtk_stack_get_visible_child_name (self->stack));
}

GtkWidget *
bond_survey_window_build_page (BondSurveyWindow *self, const char *name)
{
  GtkWidget *page = gtk_stack_get_child_by_name (self->stack, name);
  const BondPageInfo *info = find_info (name);

  g_return_val_if_fail (info != NULL, NULL);
  if (page == NULL)
    {
      page = info->build (self);
      gtk_stack_add_named (self->stack, page, name);
    }
  return page;
}

void
bond_survey_window_show_page (BondSurveyWindow *self, const char *name)
{
  const BondPageInfo *info = find_info (name);
  GtkWidget *page;
  GAction *action;

  g_return_if_fail (BOND_IS_SURVEY_WINDOW (self) && info != NULL);
  page = bond_survey_window_build_page (self, name);
  action = g_action_map_lookup_action (G_ACTION_MAP (self), "page");
  g_simple_action_set_enabled (G_SIMPLE_ACTION (action), TRUE);
  g_simple_action_set_state (G_SIMPLE_ACTION (action), g_variant_new_string (name));
  gtk_stack_set_visible_child (self->stack, page);
  info->shown (self, page);
  bond_survey_window_show_state (self);
}

void
bond_survey_window_need_page (BondSurveyWindow *self, const char *name)
{
  const BondPageInfo *info = shown_info (self);

  if (info != NULL && !g_str_equal (info->name, name))
    bond_survey_window_show_page (self, name);
}

const char *
bond_survey_window_page_title (BondSurveyWindow *self)
{
  const BondPageInfo *info = shown_info (self);

  return info != NULL ? _ (info->title) : _ (pages[0].title);
}

BondWalk *
bond_survey_window_get_hand (BondSurveyWindow *self)
{
  const BondPageInfo *info = shown_info (self);

  g_return_val_if_fail (BOND_IS_SURVEY_WINDOW (self), NULL);
  return info != NULL && info->hand != NULL ? info->hand (gtk_stack_get_visible_child (self->stack)) : self->walk;
}

void
bond_survey_window_find (BondSurveyWindow *self)
{
  const BondPageInfo *info = shown_info (self);

  if (info != NULL && info->find != NULL)
    info->find (gtk_stack_get_visible_child (self->stack));
}

static void
page_act (GSimpleAction *action, GVariant *parameter, gpointer data)
{
  const char *name = g_variant_get_string (parameter, NULL);

  if (find_info (name) != NULL)
    bond_survey_window_show_page (BOND_SURVEY_WINDOW (data), name);
}

static void
add_button (GtkBox *box, const BondPageInfo *info)
{
  GtkWidget *button = gtk_toggle_button_new ();
  GtkWidget *label = gtk_label_new (_ (info->title));
  g_autofree char *tip = g_strdup_printf ("%s (%s)", _ (info->title), info->key);

  gtk_label_set_ellipsize (GTK_LABEL (label), PANGO_ELLIPSIZE_END);
  gtk_widget_set_margin_start (label, 8);
  gtk_widget_set_margin_end (label, 8);
  gtk_button_set_child (GTK_BUTTON (button), label);
  gtk_widget_set_focus_on_click (button, FALSE);
  gtk_widget_set_tooltip_text (button, tip);
  gtk_actionable_set_action_name (GTK_ACTIONABLE (button), "win.page");
  gtk_actionable_set_action_target (GTK_ACTIONABLE (button), "s", info->name);
  bond_name_widget (button, _ (info->title));
  gtk_box_append (box, button);
}

void
bond_survey_window_add_switcher (BondSurveyWindow *self, GtkBox *box)
{
  static const GActionEntry entries[] = {
    { .name = "page", .activate = page_act, .parameter_type = "s", .state = "'" BOND_PAGE_WALK "'" },
  };
  GAction *action;

  g_action_map_add_action_entries (G_ACTION_MAP (self), entries, G_N_ELEMENTS (entries), self);
  /* The cautions are not passed by: the window begins, and then pages can be chosen. */
  action = g_action_map_lookup_action (G_ACTION_MAP (self), "page");
  g_simple_action_set_enabled (G_SIMPLE_ACTION (action), FALSE);
  gtk_widget_add_css_class (GTK_WIDGET (box), "linked");
  gtk_box_set_homogeneous (box, TRUE);
  for (gsize i = 0; i < G_N_ELEMENTS (pages); i++)
    add_button (box, &pages[i]);
}

/* The focus goes back to where the page is worked from: on the Walk page the reading field. */
static void
details_closed_cb (BondSurveyWindow *self)
{
  const BondPageInfo *info = shown_info (self);

  self->details = NULL;
  if (info != NULL)
    info->shown (self, gtk_stack_get_visible_child (self->stack));
}

static void
details_go_cb (BondSurveyWindow *self, BondDetailsWindow *details)
{
  BondWalk *shown = bond_details_view_get_walk (bond_details_window_get_view (details));

  if (bond_walk_get_point (shown) == NULL)
    return;
  bond_walk_go (self->walk, bond_walk_get_point (shown), bond_walk_get_place (shown));
  bond_survey_window_show_page (self, BOND_PAGE_WALK);
  gtk_window_close (GTK_WINDOW (details));
}

static gboolean
leave_docked_cb (GtkWidget *widget, GVariant *args, gpointer data)
{
  bond_survey_window_show_page (BOND_SURVEY_WINDOW (data), BOND_PAGE_WALK);
  return TRUE;
}

void
bond_survey_window_dock_details (BondSurveyWindow *self)
{
  BondPanes *panes = bond_walk_page_get_panes (self->page);
  GtkEventController *keys;

  if (self->docked != NULL || bond_panes_get_width_class (panes) != BOND_WIDTH_WIDE)
    return;
  self->docked = bond_details_view_new (self->walk);
  bond_details_view_set_docked (BOND_DETAILS_VIEW (self->docked));
  keys = gtk_shortcut_controller_new ();
  gtk_shortcut_controller_add_shortcut (GTK_SHORTCUT_CONTROLLER (keys),
                                        gtk_shortcut_new (gtk_keyval_trigger_new (GDK_KEY_Escape, 0),
                                                          gtk_callback_action_new (leave_docked_cb, self, NULL)));
  gtk_widget_add_controller (self->docked, keys);
  bond_panes_set_details (panes, self->docked);
}

/* Where the details are docked there is no second place for them: the focus goes there, and back. */
static gboolean
enter_docked (BondSurveyWindow *self)
{
  GtkWidget *focus = gtk_window_get_focus (GTK_WINDOW (self));

  if (self->docked == NULL || !gtk_widget_get_mapped (self->docked))
    return FALSE;
  if (focus != NULL && gtk_widget_is_ancestor (focus, self->docked))
    bond_survey_window_show_page (self, BOND_PAGE_WALK);
  else
    bond_details_view_enter (BOND_DETAILS_VIEW (self->docked));
  return TRUE;
}

void
bond_survey_window_show_details (BondSurveyWindow *self)
{
  BondWalk *hand = bond_survey_window_get_hand (self);

  if (hand == NULL || bond_walk_get_point (hand) == NULL || enter_docked (self))
    return;
  if (self->details == NULL)
    {
      self->details = bond_details_window_new (GTK_WINDOW (self), self->file);
      g_signal_connect_object (self->details, "destroy", G_CALLBACK (details_closed_cb), self, G_CONNECT_SWAPPED);
      g_signal_connect_object (self->details, "go", G_CALLBACK (details_go_cb), self, G_CONNECT_SWAPPED);
    }
  bond_details_window_show (BOND_DETAILS_WINDOW (self->details), bond_walk_get_point (hand),
                            bond_walk_get_place (hand));
}

void
bond_survey_window_drop_details (BondSurveyWindow *self)
{
  if (self->details == NULL)
    return;
  g_signal_handlers_disconnect_by_data (self->details, self);
  gtk_window_destroy (GTK_WINDOW (g_steal_pointer (&self->details)));
}
