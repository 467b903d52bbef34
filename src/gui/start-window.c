/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * The frame of the start window: a list of pages at the side, one row of one table
 * each, and the page chosen.  What a page holds is left to start/.
 */
#include "gui/start-window.h"
#include "gui/actions.h"
#include "gui/dialog.h"
#include "gui/start/due.h"
#include "gui/start/register-page.h"
#include "gui/start/rows.h"
#include "gui/start/surveys-page.h"
#include "gui/trace.h"
#include <glib/gi18n-lib.h>

typedef struct
{
  const char *name, *title, *icon;
  GtkWidget *(*make) (BondApplication *application);
  gboolean begins_group; /* a line stands before it */
} PageInfo;

static const PageInfo pages[] = {
  { "surveys", N_ ("Surveys"), "airplane-mode-symbolic", bond_surveys_page_new, FALSE },
  { "instruments", N_ ("Instruments"), "power-profile-performance-symbolic", bond_instruments_page_new, TRUE },
  { "airframes", N_ ("Airframes"), "view-paged-symbolic", bond_airframes_page_new, FALSE },
  { "limits", N_ ("Limit Sets"), "view-list-symbolic", bond_limits_page_new, FALSE },
  { "people", N_ ("People"), "avatar-default-symbolic", bond_people_page_new, FALSE },
  { "house", N_ ("House Rules"), "document-properties-symbolic", bond_house_page_new, FALSE },
};

struct _BondStartWindow
{
  GtkApplicationWindow parent_instance;
  GtkListBox *sidebar;
  GtkStack *stack;
  GtkWidget *surveys;
};

G_DEFINE_FINAL_TYPE (BondStartWindow, bond_start_window, GTK_TYPE_APPLICATION_WINDOW)

/* --- the side --- */

static GtkWidget *
due_label (BondApplication *application)
{
  guint n;
  g_autofree char *words
      = bond_due_words (bond_application_get_catalog (application), bond_application_get_source (application), &n);
  g_autofree char *count = g_strdup_printf (_ ("%u due"), n);
  GtkWidget *label = bond_start_label (count, "caption");

  gtk_widget_add_css_class (label, "guard");
  gtk_widget_add_css_class (label, "strong");
  gtk_widget_set_tooltip_text (label, words);
  gtk_widget_set_visible (label, words != NULL);
  return label;
}

static void
add_side_row (BondStartWindow *self, const PageInfo *info, BondApplication *application)
{
  GtkWidget *row = gtk_list_box_row_new ();
  GtkWidget *box = gtk_box_new (GTK_ORIENTATION_HORIZONTAL, 12);
  GtkWidget *label = bond_start_label (_ (info->title), NULL);

  gtk_widget_set_hexpand (label, TRUE);
  gtk_label_set_ellipsize (GTK_LABEL (label), PANGO_ELLIPSIZE_NONE);
  gtk_box_append (GTK_BOX (box), gtk_image_new_from_icon_name (info->icon));
  gtk_box_append (GTK_BOX (box), label);
  if (g_str_equal (info->name, "instruments"))
    gtk_box_append (GTK_BOX (box), due_label (application));
  gtk_list_box_row_set_child (GTK_LIST_BOX_ROW (row), box);
  bond_name_widget (row, _ (info->title));
  gtk_list_box_append (self->sidebar, row);
}

static void
side_header_cb (GtkListBoxRow *row, GtkListBoxRow *before, gpointer data)
{
  if (pages[gtk_list_box_row_get_index (row)].begins_group)
    gtk_list_box_row_set_header (row, gtk_separator_new (GTK_ORIENTATION_HORIZONTAL));
}

static void
page_selected_cb (BondStartWindow *self, GtkListBoxRow *row)
{
  if (row != NULL)
    gtk_stack_set_visible_child_name (self->stack, pages[gtk_list_box_row_get_index (row)].name);
}

static void
fill (BondStartWindow *self, BondApplication *application)
{
  for (gsize i = 0; i < G_N_ELEMENTS (pages); i++)
    {
      GtkWidget *page = pages[i].make (application);

      if (i == 0)
        self->surveys = page;
      gtk_stack_add_named (self->stack, page, pages[i].name);
      add_side_row (self, &pages[i], application);
    }
  gtk_list_box_select_row (self->sidebar, gtk_list_box_get_row_at_index (self->sidebar, 0));
}

/* --- the window --- */

static void
active_cb (BondStartWindow *self)
{
  if (gtk_window_is_active (GTK_WINDOW (self)))
    bond_surveys_page_look (BOND_SURVEYS_PAGE (self->surveys));
}

/* --- the acts; their keys are in actions.c --- */

static void
page_act (GSimpleAction *action, GVariant *parameter, gpointer data)
{
  BondStartWindow *self = data;

  bond_start_window_show_page (self, g_variant_get_string (parameter, NULL));
  /* Asked for by its key, a page has the keys; chosen at the side, the side keeps them. */
  gtk_widget_child_focus (gtk_stack_get_visible_child (self->stack), GTK_DIR_TAB_FORWARD);
}

static void
find_act (GSimpleAction *action, GVariant *parameter, gpointer data)
{
  BondStartWindow *self = data;

  bond_start_window_show_page (self, "surveys");
  gtk_widget_grab_focus (GTK_WIDGET (bond_surveys_page_get_search (BOND_SURVEYS_PAGE (self->surveys))));
}

static void
close_act (GSimpleAction *action, GVariant *parameter, gpointer data)
{
  gtk_window_close (data);
}

static void
shortcuts_act (GSimpleAction *action, GVariant *parameter, gpointer data)
{
  bond_shortcuts_window (data);
}

static void
fullscreen_act (GSimpleAction *action, GVariant *parameter, gpointer data)
{
  if (gtk_window_is_fullscreen (data))
    gtk_window_unfullscreen (data);
  else
    gtk_window_fullscreen (data);
}

static void
install_acts (BondStartWindow *self)
{
  static const GActionEntry everywhere[] = {
    { .name = "close", .activate = close_act },
    { .name = "shortcuts", .activate = shortcuts_act },
    { .name = "fullscreen", .activate = fullscreen_act },
  };
  static const GActionEntry here[] = {
    { .name = "page", .activate = page_act, .parameter_type = "s" },
    { .name = "find", .activate = find_act },
  };
  g_autoptr (GSimpleActionGroup) group = g_simple_action_group_new ();

  g_action_map_add_action_entries (G_ACTION_MAP (self), everywhere, G_N_ELEMENTS (everywhere), self);
  g_action_map_add_action_entries (G_ACTION_MAP (group), here, G_N_ELEMENTS (here), self);
  gtk_widget_insert_action_group (GTK_WIDGET (self), "start", G_ACTION_GROUP (group));
}

static void
bond_start_window_class_init (BondStartWindowClass *klass)
{
  GtkWidgetClass *widget_class = GTK_WIDGET_CLASS (klass);

  g_type_ensure (BOND_TYPE_SURVEYS_PAGE);
  gtk_widget_class_set_template_from_resource (widget_class, BOND_UI "start-window.ui");
  gtk_widget_class_bind_template_child (widget_class, BondStartWindow, sidebar);
  gtk_widget_class_bind_template_child (widget_class, BondStartWindow, stack);
  gtk_widget_class_bind_template_callback (widget_class, page_selected_cb);
}

static void
bond_start_window_init (BondStartWindow *self)
{
  gtk_widget_init_template (GTK_WIDGET (self));
  install_acts (self);
  bond_list_rove (self->sidebar);
  gtk_list_box_set_header_func (self->sidebar, side_header_cb, NULL, NULL);
}

void
bond_start_window_show_page (BondStartWindow *self, const char *name)
{
  g_return_if_fail (BOND_IS_START_WINDOW (self) && name != NULL);
  for (gsize i = 0; i < G_N_ELEMENTS (pages); i++)
    if (g_str_equal (pages[i].name, name))
      gtk_list_box_select_row (self->sidebar, gtk_list_box_get_row_at_index (self->sidebar, (int)i));
}

BondStartWindow *
bond_start_window_show (BondApplication *application)
{
  BondStartWindow *self = NULL;

  g_return_val_if_fail (BOND_IS_APPLICATION (application), NULL);
  for (GList *l = gtk_application_get_windows (GTK_APPLICATION (application)); l != NULL; l = l->next)
    if (BOND_IS_START_WINDOW (l->data))
      self = l->data;
  if (self == NULL)
    {
      self = g_object_new (BOND_TYPE_START_WINDOW, "application", application, NULL);
      fill (self, application);
      bond_surveys_page_look (BOND_SURVEYS_PAGE (self->surveys));
      g_signal_connect (self, "notify::is-active", G_CALLBACK (active_cb), NULL);
      bond_trace_first_frame (GTK_WINDOW (self));
    }
  gtk_window_present (GTK_WINDOW (self));
  return self;
}
