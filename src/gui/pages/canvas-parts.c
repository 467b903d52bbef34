/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * Apart from the page because none of it knows of the walk: the buttons act through
 * the window's actions, and the diagram is only told what covers it.
 */
#include "gui/pages/canvas-parts.h"
#include "gui/big-targets.h"
#include "gui/dialog.h"
#include "gui/pages/view-digits.h"
#include <glib/gi18n-lib.h>

#include <string.h>

#define CLEAR_GAP 8 /* pixels between the airframe and what lies over the diagram */
#define ROOM_KEY "bond-canvas-room"

/* Main views in the order of their buttons and keys. */
static const struct
{
  const char *id, *name;
} main_views[] = {
  { "plan-upper", N_ ("Upper") }, { "plan-lower", N_ ("Lower") }, { "side-left", N_ ("Left") },
  { "side-right", N_ ("Right") }, { "front", N_ ("Front") },
};

typedef struct
{
  BondDiagram *diagram; /* not owned: both live in the same overlay */
  int side, top, bottom;
  guint idle;
} Room;

static void
room_free (gpointer data)
{
  Room *room = data;

  g_clear_handle_id (&room->idle, g_source_remove);
  g_free (room);
}

static void
add_view_button (GtkWidget *box, const char *id, const char *name)
{
  GtkWidget *button = gtk_toggle_button_new_with_label (name);

  gtk_actionable_set_action_name (GTK_ACTIONABLE (button), "win.view");
  gtk_actionable_set_action_target (GTK_ACTIONABLE (button), "s", id);
  gtk_widget_set_focus_on_click (button, FALSE);
  bond_canvas_may_shrink (GTK_BUTTON (button));
  bond_name_widget (button, name);
  bond_view_digits_prepare (button, id, name);
  gtk_box_append (GTK_BOX (box), button);
}

static gboolean
settle_cb (gpointer data)
{
  Room *room = data;

  room->idle = 0;
  bond_diagram_set_insets (room->diagram, room->top, room->side, room->bottom, room->side);
  return G_SOURCE_REMOVE;
}

/* Asked at every allocation; the overlay then places @child by itself. */
static gboolean
position_cb (GtkOverlay *overlay, GtkWidget *child, GdkRectangle *allocation, Room *room)
{
  gboolean at_end = gtk_widget_get_valign (child) == GTK_ALIGN_END;
  int *kept = at_end ? &room->bottom : &room->top;
  int height;

  gtk_widget_measure (child, GTK_ORIENTATION_VERTICAL, -1, NULL, &height, NULL, NULL); /* margins and all */
  if (*kept == height + CLEAR_GAP)
    return FALSE;
  *kept = height + CLEAR_GAP;
  if (room->idle == 0)
    room->idle = g_idle_add_full (GTK_PRIORITY_RESIZE, settle_cb, room, NULL); /* not while allocating */
  return FALSE;
}

/* In the middle: the walk's digit at the end of a view's name stays. */
void
bond_canvas_may_shrink (GtkButton *button)
{
  GtkWidget *label;

  g_return_if_fail (GTK_IS_BUTTON (button));
  label = gtk_button_get_child (button);
  g_return_if_fail (GTK_IS_LABEL (label));
  gtk_label_set_ellipsize (GTK_LABEL (label), PANGO_ELLIPSIZE_MIDDLE);
  gtk_widget_set_tooltip_text (GTK_WIDGET (button), gtk_button_get_label (button));
}

void
bond_canvas_fill_views (GtkWidget *box, GtkMenuButton *details, const BondAirframe *airframe)
{
  g_autoptr (GMenu) menu = g_menu_new ();

  g_return_if_fail (GTK_IS_BOX (box) && GTK_IS_MENU_BUTTON (details));
  for (gsize i = 0; airframe != NULL && i < G_N_ELEMENTS (main_views); i++)
    if (bond_airframe_find_view (airframe, main_views[i].id) != NULL)
      add_view_button (box, main_views[i].id, _ (main_views[i].name));
  for (guint i = 0; airframe != NULL && i < airframe->views->len; i++)
    {
      const BondView *view = g_ptr_array_index (airframe->views, i);
      g_autofree char *action = g_strconcat ("win.view::", view->id, NULL);

      if (!bond_view_is_main (view))
        g_menu_append (menu, view->title, action);
    }
  gtk_menu_button_set_menu_model (details, G_MENU_MODEL (menu));
  gtk_widget_set_visible (GTK_WIDGET (details), g_menu_model_get_n_items (G_MENU_MODEL (menu)) > 0);
}

const char *
bond_canvas_view_name (const BondView *view)
{
  g_return_val_if_fail (view != NULL, NULL);
  for (gsize i = 0; i < G_N_ELEMENTS (main_views); i++)
    if (strcmp (main_views[i].id, view->id) == 0)
      return _ (main_views[i].name);
  return view->title;
}

GtkWidget *
bond_canvas_steps_new (void)
{
  static const struct
  {
    const char *action, *label;
  } steps[] = { { "win.back", N_ ("Previous") }, { "win.skip", N_ ("Skip") }, { "win.next-point", N_ ("Next") } };
  GtkWidget *box = gtk_box_new (GTK_ORIENTATION_HORIZONTAL, 8);

  gtk_box_set_homogeneous (GTK_BOX (box), TRUE);
  gtk_widget_add_css_class (box, "steps");
  gtk_widget_set_visible (box, FALSE);
  for (gsize i = 0; i < G_N_ELEMENTS (steps); i++)
    {
      GtkWidget *button = gtk_button_new_with_label (_ (steps[i].label));

      gtk_actionable_set_action_name (GTK_ACTIONABLE (button), steps[i].action);
      gtk_widget_set_focus_on_click (button, FALSE);
      bond_canvas_may_shrink (GTK_BUTTON (button));
      bond_name_widget (button, _ (steps[i].label));
      gtk_box_append (GTK_BOX (box), button);
    }
  return box;
}

void
bond_canvas_keep_clear (GtkOverlay *overlay, BondDiagram *diagram, int side)
{
  Room *room;

  g_return_if_fail (GTK_IS_OVERLAY (overlay) && BOND_IS_DIAGRAM (diagram));
  room = g_new0 (Room, 1);
  room->diagram = diagram;
  room->side = side;
  g_object_set_data_full (G_OBJECT (overlay), ROOM_KEY, room, room_free);
  g_signal_connect (overlay, "get-child-position", G_CALLBACK (position_cb), room);
}

void
bond_canvas_set_big (BondDiagram *diagram, gboolean big)
{
  GtkWidget *widget = GTK_WIDGET (diagram);

  g_return_if_fail (BOND_IS_DIAGRAM (diagram));
  bond_diagram_set_pick_radius (diagram, big ? bond_big_targets_of (widget, BOND_TOUCH_PICK_MM, FALSE) : 0.0);
  bond_diagram_set_pick_apart (diagram, big ? bond_big_targets_of (widget, BOND_TOUCH_APART_MM, FALSE) : 0.0);
}
