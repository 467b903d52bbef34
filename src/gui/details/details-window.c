/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * Window, keys and acts of Point Details.  It has a walk of its own, so that point
 * and typed digits of the survey window stay; what an act asks is in dialogs/.
 */
#include "gui/details/details-window.h"
#include "gui/dialog.h"
#include "gui/dialogs/point-acts.h"
#include "gui/dialogs/void-dialog.h"
#include <glib/gi18n-lib.h>

#define WIDTH_PX 1080
#define HEIGHT_PX 786
#define LEAST_WIDTH_PX 720
#define LEAST_HEIGHT_PX 480

struct _BondDetailsWindow
{
  GtkWindow parent_instance;
  BondSurveyFile *file;
  BondWalk *walk;
  BondDetailsView *view;
  GtkLabel *subtitle;
};

static guint go;

G_DEFINE_FINAL_TYPE (BondDetailsWindow, bond_details_window, GTK_TYPE_WINDOW)

#define ACT(name) static void name##_act (BondDetailsWindow *self)

ACT (previous) { bond_walk_step (self->walk, -1); }

ACT (next) { bond_walk_step (self->walk, 1); }

ACT (void) { bond_void_dialog (GTK_WINDOW (self), self->walk); }

ACT (note) { bond_note_dialog (GTK_WINDOW (self), self->walk); }

ACT (photo) { bond_photo_dialog (GTK_WINDOW (self), self->walk, self->file); }

ACT (go) { g_signal_emit (self, go, 0); }

ACT (close) { gtk_window_close (GTK_WINDOW (self)); }

ACT (copy)
{
  g_autofree char *text = bond_details_view_text (self->view);

  gdk_clipboard_set_text (gtk_widget_get_clipboard (GTK_WIDGET (self)), text);
}

/* One row an act: @key with @modifiers does it; @label of those with a button: below the history when it @records,
 * which needs a survey that can be written, else in the header bar. */
typedef struct
{
  const char *name;
  void (*act) (BondDetailsWindow *self);
  guint key;
  GdkModifierType modifiers;
  const char *label;
  gboolean records;
} WindowAct;

static const WindowAct acts[] = {
  { "details.previous", previous_act, GDK_KEY_Left, GDK_ALT_MASK, NULL, FALSE },
  { "details.next", next_act, GDK_KEY_Right, GDK_ALT_MASK, NULL, FALSE },
  { "details.void", void_act, GDK_KEY_v, 0, N_ ("_Void Reading…"), TRUE },
  { "details.note", note_act, GDK_KEY_n, 0, N_ ("Add _Note…"), TRUE },
  { "details.photo", photo_act, GDK_KEY_p, 0, N_ ("Add _Photo…"), TRUE },
  { "details.go", go_act, GDK_KEY_Return, GDK_SHIFT_MASK, N_ ("_Go to Point"), FALSE },
  { "details.copy", copy_act, GDK_KEY_c, GDK_CONTROL_MASK, N_ ("_Copy"), FALSE },
  { "details.close", close_act, GDK_KEY_Escape, 0, NULL, FALSE },
};

static void
act_cb (GtkWidget *widget, const char *name, GVariant *parameter)
{
  for (gsize i = 0; i < G_N_ELEMENTS (acts); i++)
    if (g_str_equal (acts[i].name, name))
      acts[i].act (BOND_DETAILS_WINDOW (widget));
}

static void
show_acts (BondDetailsWindow *self)
{
  guint at = bond_walk_get_point (self->walk) != NULL
                 ? bond_survey_position (bond_walk_get_survey (self->walk), bond_walk_get_point (self->walk))
                 : G_MAXUINT;
  guint n = g_list_model_get_n_items (G_LIST_MODEL (bond_walk_get_survey (self->walk)));
  gboolean writable = bond_survey_get_read_only (bond_walk_get_survey (self->walk)) == NULL;

  gtk_widget_action_set_enabled (GTK_WIDGET (self), "details.previous", at != G_MAXUINT && at > 0);
  gtk_widget_action_set_enabled (GTK_WIDGET (self), "details.next", at != G_MAXUINT && at + 1 < n);
  for (gsize i = 0; i < G_N_ELEMENTS (acts); i++)
    if (acts[i].records)
      gtk_widget_action_set_enabled (GTK_WIDGET (self), acts[i].name, writable);
}

static void
current_changed_cb (BondDetailsWindow *self)
{
  BondPoint *point = bond_walk_get_point (self->walk);
  g_autofree char *title
      = g_strdup_printf (_ ("Point Details, %s"), point != NULL ? bond_point_get_number (point) : "–");

  gtk_window_set_title (GTK_WINDOW (self), title);
  bond_name_widget (self, title);
  show_acts (self);
}

static void
bond_details_window_dispose (GObject *object)
{
  BondDetailsWindow *self = BOND_DETAILS_WINDOW (object);

  if (self->walk != NULL)
    g_signal_handlers_disconnect_by_data (self->walk, self);
  G_OBJECT_CLASS (bond_details_window_parent_class)->dispose (object);
  g_clear_object (&self->walk);
  g_clear_object (&self->file);
}

static void
bond_details_window_class_init (BondDetailsWindowClass *klass)
{
  GtkWidgetClass *widget_class = GTK_WIDGET_CLASS (klass);

  G_OBJECT_CLASS (klass)->dispose = bond_details_window_dispose;
  go = g_signal_new ("go", BOND_TYPE_DETAILS_WINDOW, G_SIGNAL_RUN_LAST, 0, NULL, NULL, NULL, G_TYPE_NONE, 0);
  for (gsize i = 0; i < G_N_ELEMENTS (acts); i++)
    {
      gtk_widget_class_install_action (widget_class, acts[i].name, NULL, act_cb);
      gtk_widget_class_add_binding_action (widget_class, acts[i].key, acts[i].modifiers, acts[i].name, NULL);
    }
}

static GtkWidget *
new_step (const char *icon, const char *name, const char *action)
{
  GtkWidget *button = gtk_button_new_from_icon_name (icon);

  gtk_actionable_set_action_name (GTK_ACTIONABLE (button), action);
  gtk_widget_set_tooltip_text (button, name);
  bond_name_widget (button, name);
  return button;
}

static GtkWidget *
new_acts (gboolean records)
{
  GtkWidget *box = gtk_box_new (GTK_ORIENTATION_HORIZONTAL, 8);

  for (gsize i = 0; i < G_N_ELEMENTS (acts); i++)
    if (acts[i].label != NULL && acts[i].records == records)
      {
        GtkWidget *button = gtk_button_new_with_mnemonic (_ (acts[i].label));
        g_autofree char *key = gtk_accelerator_get_label (acts[i].key, acts[i].modifiers);

        gtk_actionable_set_action_name (GTK_ACTIONABLE (button), acts[i].name);
        gtk_widget_set_tooltip_text (button, key);
        gtk_box_append (GTK_BOX (box), button);
      }
  return box;
}

static void
add_title (BondDetailsWindow *self)
{
  GtkWidget *header = gtk_header_bar_new ();
  GtkWidget *box = gtk_box_new (GTK_ORIENTATION_VERTICAL, 0);
  GtkWidget *steps = gtk_box_new (GTK_ORIENTATION_HORIZONTAL, 0);
  GtkWidget *title = gtk_label_new (_ ("Point Details"));

  self->subtitle = GTK_LABEL (gtk_label_new (NULL));
  gtk_label_set_ellipsize (self->subtitle, PANGO_ELLIPSIZE_END);
  gtk_widget_add_css_class (title, "title");
  gtk_widget_add_css_class (GTK_WIDGET (self->subtitle), "subtitle");
  gtk_widget_set_valign (box, GTK_ALIGN_CENTER);
  gtk_box_append (GTK_BOX (box), title);
  gtk_box_append (GTK_BOX (box), GTK_WIDGET (self->subtitle));
  gtk_widget_add_css_class (steps, "linked");
  gtk_box_append (GTK_BOX (steps),
                  new_step ("go-previous-symbolic", _ ("Previous point (Alt+Left)"), "details.previous"));
  gtk_box_append (GTK_BOX (steps), new_step ("go-next-symbolic", _ ("Next point (Alt+Right)"), "details.next"));
  gtk_header_bar_pack_start (GTK_HEADER_BAR (header), steps);
  gtk_header_bar_pack_end (GTK_HEADER_BAR (header), new_acts (FALSE));
  gtk_header_bar_set_title_widget (GTK_HEADER_BAR (header), box);
  gtk_window_set_titlebar (GTK_WINDOW (self), header);
}

static void
bond_details_window_init (BondDetailsWindow *self)
{
  gtk_window_set_default_size (GTK_WINDOW (self), WIDTH_PX, HEIGHT_PX);
  add_title (self);
}

static void
show_subtitle (BondDetailsWindow *self)
{
  const BondCreate *header = bond_survey_get_header (bond_walk_get_survey (self->walk));
  g_autofree char *words = header != NULL ? g_strjoin (", ", header->registration != NULL ? header->registration : "–",
                                                       header->title, NULL)
                                          : NULL;

  gtk_label_set_text (self->subtitle, words != NULL ? words : "");
  gtk_widget_set_tooltip_text (GTK_WIDGET (self->subtitle), words);
}

GtkWidget *
bond_details_window_new (GtkWindow *parent, BondSurveyFile *file)
{
  BondDetailsWindow *self;

  g_return_val_if_fail (BOND_IS_SURVEY_FILE (file), NULL);
  self = g_object_new (BOND_TYPE_DETAILS_WINDOW, "transient-for", parent, "destroy-with-parent", TRUE, NULL);
  self->file = g_object_ref (file);
  self->walk = bond_walk_new (bond_survey_file_get_survey (file));
  self->view = BOND_DETAILS_VIEW (bond_details_view_new (self->walk));
  bond_details_view_add_acts (self->view, new_acts (TRUE));
  gtk_widget_set_size_request (GTK_WIDGET (self->view), LEAST_WIDTH_PX, LEAST_HEIGHT_PX);
  gtk_window_set_child (GTK_WINDOW (self), GTK_WIDGET (self->view));
  show_subtitle (self);
  g_signal_connect_swapped (self->walk, "current-changed", G_CALLBACK (current_changed_cb), self);
  current_changed_cb (self);
  return GTK_WIDGET (self);
}

void
bond_details_window_show (BondDetailsWindow *self, BondPoint *point, const char *place)
{
  g_return_if_fail (BOND_IS_DETAILS_WINDOW (self) && BOND_IS_POINT (point));
  bond_walk_go (self->walk, point, place);
  gtk_window_present (GTK_WINDOW (self));
  bond_details_view_enter (self->view);
}

BondDetailsView *
bond_details_window_get_view (BondDetailsWindow *self)
{
  g_return_val_if_fail (BOND_IS_DETAILS_WINDOW (self), NULL);
  return self->view;
}
