/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * The list beside the diagram, and its full equal for anyone who cannot use a
 * picture.  It never holds the focus for long: a chosen row or a typed digit gives
 * it back to the reading field.
 */
#include "gui/pages/points-pane.h"
#include "gui/compat.h"
#include "gui/dialog.h"
#include "gui/focus-order.h"
#include "gui/pages/points-chips.h"
#include "gui/pages/points-filter-popover.h"
#include "gui/pages/points-row.h"
#include <glib/gi18n-lib.h>

#define FRAMES_TO_SETTLE 3
#define CLICK_MS 120 /* until the list has done its own part of a click */

struct _BondPointsPane
{
  GtkWidget parent_instance;
  BondWalk *walk;
  BondPointsModel *model;
  GtkSingleSelection *selection;
  GtkSearchEntry *search;
  GtkWidget *box, *filter_bar;
  BondPointsChips *chips;
  GtkLabel *shown_label;
  GtkListView *list;
  GtkMenuButton *filter_button;
  GtkLabel *filter_label;
  int frames; /* since the list came into sight */
};

static guint chosen, typed;

G_DEFINE_FINAL_TYPE (BondPointsPane, bond_points_pane, GTK_TYPE_WIDGET)

static gboolean
walked_cb (BondPoint *point, gpointer data)
{
  return bond_points_model_shows (data, point);
}

static void show_current (BondPointsPane *self);

/* The filter changed: the list shows, and the walk keeps to, the points it lets through. */
static void
refilter (BondPointsPane *self)
{
  bond_points_model_refilter (self->model);
  if (bond_points_filter_is_empty (bond_points_model_get_filter (self->model)))
    bond_walk_set_filter (self->walk, NULL, NULL, NULL);
  else
    bond_walk_set_filter (self->walk, walked_cb, g_object_ref (self->model), g_object_unref);
  show_current (self);
}

static void
set_words (BondPointsPane *self, const char *text)
{
  BondPointsFilter *filter = bond_points_model_get_filter (self->model);
  g_autofree char *words = g_strstrip (g_strdup (text));

  if (g_strcmp0 (filter->words, *words != '\0' ? words : NULL) == 0)
    return;
  g_free (filter->words);
  filter->words = *words != '\0' ? g_steal_pointer (&words) : NULL;
  refilter (self);
}

static void
search_changed_cb (BondPointsPane *self)
{
  set_words (self, gtk_editable_get_text (GTK_EDITABLE (self->search)));
}

static void
clear_search (BondPointsPane *self)
{
  gtk_editable_set_text (GTK_EDITABLE (self->search), "");
  set_words (self, "");
}

static void
toggle_zone (BondPointsPane *self, const char *zone)
{
  bond_points_model_toggle_zone (self->model, zone);
  show_current (self);
}

static void
choose_item (BondPointsPane *self, BondPointsItem *item)
{
  BondPoint *point = bond_points_item_get_point (item);

  if (point == NULL)
    {
      toggle_zone (self, bond_points_item_get_zone (item));
      return;
    }
  bond_walk_go (self->walk, point, NULL);
  g_signal_emit (self, chosen, 0);
}

static void
row_activated_cb (BondPointsPane *self, guint position)
{
  g_autoptr (BondPointsItem) item = g_list_model_get_item (G_LIST_MODEL (self->selection), position);

  if (item != NULL)
    choose_item (self, item);
}

/* The first point that is shown, folded or not; NULL = none. */
static BondPoint *
first_shown (BondPointsPane *self)
{
  GListModel *points = G_LIST_MODEL (bond_walk_get_survey (self->walk));

  for (guint i = 0; i < g_list_model_get_n_items (points); i++)
    {
      g_autoptr (BondPoint) point = g_list_model_get_item (points, i);

      if (bond_points_model_shows (self->model, point))
        return point; /* the survey holds it */
    }
  return NULL;
}

/* Enter in the search goes to the first point found.  Words that name one point were a jump, and are done with: else
 * the walk would end behind it. */
static void
search_activate_cb (BondPointsPane *self)
{
  guint counts[BOND_N_POINTS_CHIPS], shown;
  BondPoint *point;

  search_changed_cb (self);
  point = first_shown (self);
  if (point == NULL)
    return;
  bond_points_model_counts (self->model, counts, &shown);
  if (shown == 1)
    clear_search (self);
  bond_walk_go (self->walk, point, NULL);
  g_signal_emit (self, chosen, 0);
}

static void
clear_cb (BondPointsPane *self)
{
  bond_points_filter_clear (bond_points_model_get_filter (self->model));
  gtk_editable_set_text (GTK_EDITABLE (self->search), "");
  bond_points_chips_choose (self->chips, BOND_POINTS_ALL);
  refilter (self);
  g_signal_emit (self, chosen, 0);
}

static void
search_stop_cb (BondPointsPane *self)
{
  clear_search (self);
  g_signal_emit (self, chosen, 0);
}

static void
chip_chosen_cb (BondPointsPane *self, int chip)
{
  bond_points_model_get_filter (self->model)->chip = chip;
  refilter (self);
}

/* Selects the row of the point in hand, and says which it is; where its zone is folded, the header stands for it. */
static guint
select_current (BondPointsPane *self)
{
  BondPoint *point = bond_walk_get_point (self->walk);
  guint position = bond_points_model_find (self->model, point);

  if (position == G_MAXUINT && point != NULL && bond_points_model_shows (self->model, point))
    position = bond_points_model_find_zone (self->model, bond_point_get_spec (point)->zone);
  gtk_single_selection_set_selected (self->selection, position == G_MAXUINT ? GTK_INVALID_LIST_POSITION : position);
  return position;
}

static void
show_current (BondPointsPane *self)
{
  guint position = select_current (self);

  if (position != G_MAXUINT)
    bond_list_scroll_to (GTK_WIDGET (self->list), position);
}

/* A list can be scrolled only once it has a size, which takes it a frame or two. */
static gboolean
tick_cb (GtkWidget *list, GdkFrameClock *clock, gpointer data)
{
  BondPointsPane *self = BOND_POINTS_PANE (data);

  if (++self->frames < FRAMES_TO_SETTLE)
    return G_SOURCE_CONTINUE;
  show_current (self);
  return G_SOURCE_REMOVE;
}

static void
mapped_cb (GtkWidget *list, BondPointsPane *self)
{
  self->frames = 0;
  gtk_widget_add_tick_callback (list, tick_cb, self, NULL);
}

static void
show_filter_button (BondPointsPane *self)
{
  guint n = bond_points_filter_n_choices (bond_points_model_get_filter (self->model));
  g_autofree char *text = n > 0 ? g_strdup_printf (_ ("Filter %u"), n) : g_strdup (_ ("Filter"));
  g_autofree char *name
      = n > 0 ? g_strdup_printf (ngettext ("Filter, %u choice in force", "Filter, %u choices in force", n), n)
              : g_strdup (_ ("Filter"));

  gtk_label_set_text (self->filter_label, text);
  bond_name_widget (self->filter_button, name);
}

static void
counts_changed_cb (BondPointsPane *self)
{
  guint counts[BOND_N_POINTS_CHIPS], shown;
  g_autofree char *text = NULL;

  bond_points_model_counts (self->model, counts, &shown);
  bond_points_chips_show (self->chips, counts);
  show_filter_button (self);
  text = shown == 0 && counts[BOND_POINTS_ALL] > 0
             ? g_strdup_printf (_ ("No point matches. Clear the filter to see all %u."), counts[BOND_POINTS_ALL])
             : g_strdup_printf (_ ("%u of %u shown"), shown, counts[BOND_POINTS_ALL]);
  gtk_label_set_text (self->shown_label, text);
  gtk_widget_set_visible (self->filter_bar, !bond_points_filter_is_empty (bond_points_model_get_filter (self->model)));
}

/* What a row of the list shows; NULL for anything else that may have the focus. */
static BondPointsItem *
item_of (GtkWidget *holder)
{
  GtkWidget *row = holder != NULL ? gtk_widget_get_first_child (holder) : NULL;

  return BOND_IS_POINTS_ROW (row) ? bond_points_row_get_item (BOND_POINTS_ROW (row)) : NULL;
}

static BondPointsItem *
focused_item (BondPointsPane *self)
{
  GtkRoot *root = gtk_widget_get_root (GTK_WIDGET (self));

  return root != NULL ? item_of (gtk_root_get_focus (root)) : NULL;
}

/* The list itself would take up where it last had the focus, which may be far from the point in hand. */
static void
focus_current (BondPointsPane *self)
{
  gpointer current = gtk_single_selection_get_selected_item (self->selection);

  for (GtkWidget *holder = gtk_widget_get_first_child (GTK_WIDGET (self->list)); holder != NULL;
       holder = gtk_widget_get_next_sibling (holder))
    if (current != NULL && item_of (holder) == current && gtk_widget_grab_focus (holder))
      return;
}

/* Left folds the zone and goes to its header, Right unfolds it; towards the text's end in right-to-left. */
static gboolean
fold_by_key (BondPointsPane *self, guint keyval)
{
  gboolean rtl = gtk_widget_get_direction (GTK_WIDGET (self)) == GTK_TEXT_DIR_RTL;
  gboolean fold = keyval == (rtl ? GDK_KEY_Right : GDK_KEY_Left);
  BondPointsItem *item = focused_item (self);
  g_autofree char *zone = NULL;
  guint header;

  if (item == NULL || (keyval != GDK_KEY_Left && keyval != GDK_KEY_Right))
    return FALSE;
  if (bond_points_item_get_point (item) == NULL && bond_points_item_get_folded (item) == fold)
    return TRUE;
  if (bond_points_item_get_point (item) != NULL && !fold)
    return TRUE;
  zone = g_strdup (bond_points_item_get_zone (item));
  toggle_zone (self, zone);
  header = bond_points_model_find_zone (self->model, zone);
  if (header != G_MAXUINT)
    bond_list_scroll_to (GTK_WIDGET (self->list), header);
  gtk_widget_grab_focus (GTK_WIDGET (self->list));
  return TRUE;
}

static gboolean
list_key_cb (GtkEventControllerKey *controller, guint keyval, guint keycode, GdkModifierType state,
             BondPointsPane *self)
{
  gunichar character = gdk_keyval_to_unicode (keyval);

  if ((state & (GDK_CONTROL_MASK | GDK_ALT_MASK)) != 0)
    return GDK_EVENT_PROPAGATE;
  if (fold_by_key (self, keyval))
    return GDK_EVENT_STOP;
  if (character >= 128 || !g_ascii_isdigit (character))
    return GDK_EVENT_PROPAGATE;
  g_signal_emit (self, typed, 0, (guint)character);
  return GDK_EVENT_STOP;
}

/* A header folds at one press, before the list makes a choice of it: the focus stays where it is. */
static void
row_pressed_cb (GtkGestureClick *gesture, int n_press, double x, double y, BondPointsPane *self)
{
  GtkWidget *row = gtk_event_controller_get_widget (GTK_EVENT_CONTROLLER (gesture));
  BondPointsItem *item = bond_points_row_get_item (BOND_POINTS_ROW (row));

  if (item == NULL || bond_points_item_get_point (item) != NULL)
    return;
  gtk_gesture_set_state (GTK_GESTURE (gesture), GTK_EVENT_SEQUENCE_CLAIMED);
  toggle_zone (self, bond_points_item_get_zone (item));
}

static void
setup_cb (GtkSignalListItemFactory *factory, GtkListItem *list_item, BondPointsPane *self)
{
  GtkWidget *row = bond_points_row_new (bond_walk_get_survey (self->walk));
  GtkGesture *press = gtk_gesture_click_new ();

  g_signal_connect (press, "pressed", G_CALLBACK (row_pressed_cb), self);
  gtk_widget_add_controller (row, GTK_EVENT_CONTROLLER (press));
  gtk_list_item_set_child (list_item, row);
}

/* The list takes the focus with a click; when it has, the field gets it back.  Its arrow keys go on in the field. */
static gboolean
give_focus_back_cb (gpointer data)
{
  g_autoptr (BondPointsPane) self = BOND_POINTS_PANE (data);

  if (self->walk != NULL)
    g_signal_emit (self, chosen, 0);
  return G_SOURCE_REMOVE;
}

static void
selected_cb (BondPointsPane *self)
{
  BondPointsItem *item = gtk_single_selection_get_selected_item (self->selection);
  BondPoint *point = item != NULL ? bond_points_item_get_point (item) : NULL;

  if (point == bond_walk_get_point (self->walk))
    return;
  /* A header can be selected, or GTK would not let it have the focus; but what is in hand stays so. */
  if (point == NULL)
    {
      select_current (self);
      return;
    }
  bond_walk_go (self->walk, point, NULL);
  g_timeout_add (CLICK_MS, give_focus_back_cb, g_object_ref (self));
}

static void
bind_cb (GtkSignalListItemFactory *factory, GtkListItem *list_item, BondPointsPane *self)
{
  BondPointsItem *item = gtk_list_item_get_item (list_item);

  bond_points_row_set_item (BOND_POINTS_ROW (gtk_list_item_get_child (list_item)), item);
}

static void
unbind_cb (GtkSignalListItemFactory *factory, GtkListItem *list_item, BondPointsPane *self)
{
  bond_points_row_set_item (BOND_POINTS_ROW (gtk_list_item_get_child (list_item)), NULL);
}

/* Tab leaves the list at once, as it does everywhere; GTK 4.8 would go through every row of it. */
static gboolean
bond_points_pane_focus (GtkWidget *widget, GtkDirectionType direction)
{
  BondPointsPane *self = BOND_POINTS_PANE (widget);
  GtkWidget *before[]
      = { GTK_WIDGET (self->search), GTK_WIDGET (self->filter_button), GTK_WIDGET (self->chips), self->filter_bar };
  gboolean inside = focused_item (self) != NULL;

  if (inside && direction == GTK_DIR_TAB_FORWARD)
    return FALSE;
  if (inside && direction == GTK_DIR_TAB_BACKWARD)
    return bond_focus_in_order (widget, before, G_N_ELEMENTS (before), direction);
  if (!GTK_WIDGET_CLASS (bond_points_pane_parent_class)->focus (widget, direction))
    return FALSE;
  if (!inside && focused_item (self) != NULL)
    focus_current (self);
  return TRUE;
}

static void
bond_points_pane_dispose (GObject *object)
{
  BondPointsPane *self = BOND_POINTS_PANE (object);

  if (self->walk != NULL)
    {
      g_signal_handlers_disconnect_by_data (self->walk, self);
      bond_walk_set_filter (self->walk, NULL, NULL, NULL);
    }
  if (self->model != NULL)
    g_signal_handlers_disconnect_by_data (self->model, self);
  if (self->selection != NULL)
    g_signal_handlers_disconnect_by_data (self->selection, self);
  g_clear_pointer (&self->box, gtk_widget_unparent);
  g_clear_object (&self->selection);
  g_clear_object (&self->model);
  g_clear_object (&self->walk);
  G_OBJECT_CLASS (bond_points_pane_parent_class)->dispose (object);
}

static void
bond_points_pane_class_init (BondPointsPaneClass *klass)
{
  GtkWidgetClass *widget_class = GTK_WIDGET_CLASS (klass);

  G_OBJECT_CLASS (klass)->dispose = bond_points_pane_dispose;
  widget_class->focus = bond_points_pane_focus;
  g_type_ensure (BOND_TYPE_POINTS_CHIPS); /* named in the template */
  gtk_widget_class_set_template_from_resource (widget_class, BOND_UI "points-pane.ui");
  gtk_widget_class_bind_template_child (widget_class, BondPointsPane, box);
  gtk_widget_class_bind_template_child (widget_class, BondPointsPane, search);
  gtk_widget_class_bind_template_child (widget_class, BondPointsPane, chips);
  gtk_widget_class_bind_template_child (widget_class, BondPointsPane, filter_bar);
  gtk_widget_class_bind_template_child (widget_class, BondPointsPane, shown_label);
  gtk_widget_class_bind_template_child (widget_class, BondPointsPane, list);
  gtk_widget_class_bind_template_child (widget_class, BondPointsPane, filter_button);
  gtk_widget_class_bind_template_child (widget_class, BondPointsPane, filter_label);
  gtk_widget_class_bind_template_callback (widget_class, search_changed_cb);
  gtk_widget_class_bind_template_callback (widget_class, search_activate_cb);
  gtk_widget_class_bind_template_callback (widget_class, search_stop_cb);
  gtk_widget_class_bind_template_callback (widget_class, clear_cb);
  gtk_widget_class_bind_template_callback (widget_class, row_activated_cb);
  chosen = g_signal_new ("chosen", BOND_TYPE_POINTS_PANE, G_SIGNAL_RUN_LAST, 0, NULL, NULL, NULL, G_TYPE_NONE, 0);
  typed = g_signal_new ("typed", BOND_TYPE_POINTS_PANE, G_SIGNAL_RUN_LAST, 0, NULL, NULL, NULL, G_TYPE_NONE, 1,
                        G_TYPE_UINT);
}

static void
bond_points_pane_init (BondPointsPane *self)
{
  GtkEventController *keys = gtk_event_controller_key_new ();

  gtk_widget_init_template (GTK_WIDGET (self));
  gtk_widget_add_css_class (GTK_WIDGET (self), "panel");
  gtk_widget_add_css_class (GTK_WIDGET (self), "points-pane");
  /* Before the list: it takes Left and Right for itself. */
  gtk_event_controller_set_propagation_phase (keys, GTK_PHASE_CAPTURE);
  g_signal_connect (keys, "key-pressed", G_CALLBACK (list_key_cb), self);
  gtk_widget_add_controller (GTK_WIDGET (self->list), keys);
}

static GtkListItemFactory *
new_factory (BondPointsPane *self)
{
  GtkListItemFactory *factory = gtk_signal_list_item_factory_new ();

  g_signal_connect (factory, "setup", G_CALLBACK (setup_cb), self);
  g_signal_connect (factory, "bind", G_CALLBACK (bind_cb), self);
  g_signal_connect (factory, "unbind", G_CALLBACK (unbind_cb), self);
  return factory;
}

GtkWidget *
bond_points_pane_new (BondWalk *walk)
{
  BondPointsPane *self;
  g_autoptr (GtkListItemFactory) factory = NULL;

  g_return_val_if_fail (BOND_IS_WALK (walk), NULL);
  self = g_object_new (BOND_TYPE_POINTS_PANE, NULL);
  self->walk = g_object_ref (walk);
  self->model = bond_points_model_new (bond_walk_get_survey (walk));
  self->selection = gtk_single_selection_new (NULL);
  gtk_single_selection_set_autoselect (self->selection, FALSE);
  gtk_single_selection_set_can_unselect (self->selection, TRUE);
  gtk_single_selection_set_model (self->selection, bond_points_model_get_list (self->model));
  gtk_menu_button_set_popover (
      self->filter_button,
      bond_points_filter_popover_new (bond_walk_get_survey (walk), self->model, G_CALLBACK (refilter), self));
  factory = new_factory (self);
  gtk_list_view_set_factory (self->list, factory);
  gtk_list_view_set_model (self->list, GTK_SELECTION_MODEL (self->selection));
  g_signal_connect_swapped (self->chips, "chosen", G_CALLBACK (chip_chosen_cb), self);
  g_signal_connect_swapped (self->selection, "notify::selected", G_CALLBACK (selected_cb), self);
  g_signal_connect_swapped (self->model, "counts-changed", G_CALLBACK (counts_changed_cb), self);
  g_signal_connect_swapped (walk, "current-changed", G_CALLBACK (show_current), self);
  g_signal_connect_after (self->list, "map", G_CALLBACK (mapped_cb), self);
  counts_changed_cb (self);
  show_current (self);
  return GTK_WIDGET (self);
}

void
bond_points_pane_find (BondPointsPane *self)
{
  g_return_if_fail (BOND_IS_POINTS_PANE (self));
  gtk_widget_grab_focus (GTK_WIDGET (self->search));
  gtk_editable_select_region (GTK_EDITABLE (self->search), 0, -1);
}

void
bond_points_pane_grab_list (BondPointsPane *self)
{
  g_return_if_fail (BOND_IS_POINTS_PANE (self));
  show_current (self);
  gtk_widget_grab_focus (GTK_WIDGET (self->list));
  focus_current (self);
}
