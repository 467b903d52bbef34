/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * Puts the sections together and fills them anew, once per turn of the main loop,
 * when another point comes into hand or the survey gets an entry.
 */
#include "gui/details/details-view.h"
#include "gui/details/details-columns.h"
#include "gui/details/details-history.h"
#include "gui/details/details-line.h"
#include "gui/details/details-parts.h"
#include "gui/dialog.h"
#include "gui/pages/close-up.h"
#include "gui/start/detail.h"
#include <glib/gi18n-lib.h>

#define MARGIN_PX 24
#define DOCKED_MARGIN_PX 16
#define WHERE_PX 220

struct _BondDetailsView
{
  GtkWidget parent_instance;
  BondWalk *walk;
  GtkWidget *scroll, *page, *close_up;
  GtkBox *head, *acts, *limits, *budget, *places, *earlier, *where;
  GtkWidget *places_section;
  GtkListBox *history;
  GtkLabel *history_note, *budget_title;
  guint idle;
  gboolean stale;  /* not filled with what there is now, because nobody sees it */
  gboolean docked; /* there is little width */
};

G_DEFINE_FINAL_TYPE (BondDetailsView, bond_details_view, GTK_TYPE_WIDGET)

static gboolean
about_of (BondDetailsView *self, BondDetailsAbout *about)
{
  about->survey = bond_walk_get_survey (self->walk);
  about->point = bond_walk_get_point (self->walk);
  about->place = bond_walk_get_result (self->walk);
  return about->point != NULL && about->place != NULL && bond_point_get_spec (about->point) != NULL;
}

static void
show_offset (BondDetailsView *self, BondPoint *point)
{
  g_autoptr (GPtrArray) story = bond_point_story (point);
  g_autofree char *offset = bond_details_offset (story);
  g_autofree char *words = offset != NULL ? g_strdup_printf (_ ("times are local, %s"), offset) : NULL;

  gtk_label_set_text (self->history_note, words != NULL ? words : "");
}

static void
fill (BondDetailsView *self)
{
  BondDetailsAbout about;

  self->stale = FALSE;
  if (!about_of (self, &about))
    return;
  bond_details_head_fill (self->head, &about, self->docked);
  bond_details_history_show (self->history, about.survey, about.point);
  show_offset (self, about.point);
  bond_details_earlier_fill (self->earlier, &about);
  bond_details_limits_fill (self->limits, &about);
  bond_details_budget_fill (self->budget, self->budget_title, &about);
  gtk_widget_set_visible (self->places_section, bond_details_places_fill (self->places, &about));
  bond_details_where_fill (self->where, &about);
  bond_details_speak (self->limits, _ ("Limit"));
  bond_details_speak (self->where, _ ("Where"));
  if (gtk_widget_get_visible (self->places_section))
    bond_details_speak (self->places, _ ("Places"));
}

static gboolean
fill_cb (gpointer data)
{
  BondDetailsView *self = BOND_DETAILS_VIEW (data);

  self->idle = 0;
  if (gtk_widget_get_mapped (GTK_WIDGET (self)))
    fill (self);
  else
    self->stale = TRUE;
  return G_SOURCE_REMOVE;
}

static void
queue_fill (BondDetailsView *self)
{
  if (self->idle == 0)
    self->idle = g_idle_add (fill_cb, self);
}

static void
current_changed_cb (BondDetailsView *self)
{
  gtk_adjustment_set_value (gtk_scrolled_window_get_vadjustment (GTK_SCROLLED_WINDOW (self->scroll)), 0);
  queue_fill (self);
}

static void
bond_details_view_map (GtkWidget *widget)
{
  if (BOND_DETAILS_VIEW (widget)->stale)
    fill (BOND_DETAILS_VIEW (widget));
  GTK_WIDGET_CLASS (bond_details_view_parent_class)->map (widget);
}

static void
bond_details_view_dispose (GObject *object)
{
  BondDetailsView *self = BOND_DETAILS_VIEW (object);

  g_clear_handle_id (&self->idle, g_source_remove);
  if (self->walk != NULL)
    {
      g_signal_handlers_disconnect_by_data (bond_walk_get_survey (self->walk), self);
      g_signal_handlers_disconnect_by_data (self->walk, self);
    }
  g_clear_object (&self->walk);
  g_clear_pointer (&self->scroll, gtk_widget_unparent);
  G_OBJECT_CLASS (bond_details_view_parent_class)->dispose (object);
}

static void
bond_details_view_class_init (BondDetailsViewClass *klass)
{
  G_OBJECT_CLASS (klass)->dispose = bond_details_view_dispose;
  GTK_WIDGET_CLASS (klass)->map = bond_details_view_map;
  gtk_widget_class_set_layout_manager_type (GTK_WIDGET_CLASS (klass), GTK_TYPE_BIN_LAYOUT);
  gtk_widget_class_set_css_name (GTK_WIDGET_CLASS (klass), "bond-details");
}

static GtkWidget *
new_column (void)
{
  return gtk_box_new (GTK_ORIENTATION_VERTICAL, 24);
}

static GtkWidget *
new_left (BondDetailsView *self)
{
  GtkWidget *column = new_column ();
  GtkBox *section;
  GtkLabel *scale;

  self->places = bond_details_section (GTK_BOX (column), _ ("Places"), NULL);
  self->places_section = gtk_widget_get_parent (gtk_widget_get_parent (GTK_WIDGET (self->places)));
  section = bond_details_section (GTK_BOX (column), _ ("History"), &self->history_note);
  self->history = GTK_LIST_BOX (bond_details_history_new ());
  self->acts = section;
  gtk_box_append (section, GTK_WIDGET (self->history));
  self->earlier = bond_details_section (GTK_BOX (column), _ ("This Aircraft, Earlier Surveys"), &scale);
  gtk_label_set_text (scale, _ ("log scale"));
  return column;
}

static GtkWidget *
new_right (BondDetailsView *self)
{
  GtkWidget *column = new_column ();
  GtkBox *where;

  self->limits = bond_details_section (GTK_BOX (column), _ ("Limit"), NULL);
  self->budget = bond_details_section (GTK_BOX (column), _ ("Uncertainty"), &self->budget_title);
  where = bond_details_section (GTK_BOX (column), _ ("Where"), NULL);
  self->close_up = bond_close_up_new (self->walk);
  gtk_widget_set_size_request (self->close_up, -1, WHERE_PX);
  /* To look at only: what is done on the diagram is done on the Walk page. */
  gtk_widget_set_can_target (self->close_up, FALSE);
  gtk_widget_set_can_focus (self->close_up, FALSE);
  gtk_box_append (where, self->close_up);
  self->where = GTK_BOX (gtk_box_new (GTK_ORIENTATION_VERTICAL, 6));
  gtk_box_append (where, GTK_WIDGET (self->where));
  return column;
}

static void
set_margins (BondDetailsView *self, int pixels)
{
  gtk_widget_set_margin_start (self->page, pixels);
  gtk_widget_set_margin_end (self->page, pixels);
  gtk_widget_set_margin_top (self->page, pixels);
  gtk_widget_set_margin_bottom (self->page, pixels);
}

static void
build (BondDetailsView *self)
{
  self->page = gtk_box_new (GTK_ORIENTATION_VERTICAL, 24);
  self->head = GTK_BOX (gtk_box_new (GTK_ORIENTATION_VERTICAL, 8));
  self->scroll = gtk_scrolled_window_new ();
  gtk_scrolled_window_set_policy (GTK_SCROLLED_WINDOW (self->scroll), GTK_POLICY_NEVER, GTK_POLICY_AUTOMATIC);
  gtk_widget_set_focusable (self->scroll, FALSE);
  set_margins (self, MARGIN_PX);
  gtk_box_append (GTK_BOX (self->page), GTK_WIDGET (self->head));
  gtk_box_append (GTK_BOX (self->page), bond_details_columns_new (new_left (self), new_right (self)));
  gtk_scrolled_window_set_child (GTK_SCROLLED_WINDOW (self->scroll), self->page);
  gtk_widget_set_parent (self->scroll, GTK_WIDGET (self));
}

static void
bond_details_view_init (BondDetailsView *self)
{
}

GtkWidget *
bond_details_view_new (BondWalk *walk)
{
  BondDetailsView *self;

  g_return_val_if_fail (BOND_IS_WALK (walk), NULL);
  self = g_object_new (BOND_TYPE_DETAILS_VIEW, NULL);
  self->walk = g_object_ref (walk);
  build (self);
  g_signal_connect_swapped (walk, "current-changed", G_CALLBACK (current_changed_cb), self);
  g_signal_connect_swapped (bond_walk_get_survey (walk), "entry-applied", G_CALLBACK (queue_fill), self);
  g_signal_connect_swapped (bond_walk_get_survey (walk), "items-changed", G_CALLBACK (queue_fill), self);
  self->stale = TRUE;
  return GTK_WIDGET (self);
}

void
bond_details_view_set_docked (BondDetailsView *self)
{
  g_return_if_fail (BOND_IS_DETAILS_VIEW (self));
  self->docked = TRUE;
  set_margins (self, DOCKED_MARGIN_PX);
  gtk_widget_add_css_class (GTK_WIDGET (self), "docked");
  gtk_widget_set_visible (self->close_up, FALSE); /* the page beside it shows the place already */
}

BondWalk *
bond_details_view_get_walk (BondDetailsView *self)
{
  g_return_val_if_fail (BOND_IS_DETAILS_VIEW (self), NULL);
  return self->walk;
}

void
bond_details_view_add_acts (BondDetailsView *self, GtkWidget *acts)
{
  g_return_if_fail (BOND_IS_DETAILS_VIEW (self));
  gtk_box_append (self->acts, acts);
}

void
bond_details_view_enter (BondDetailsView *self)
{
  GtkListBoxRow *row;

  g_return_if_fail (BOND_IS_DETAILS_VIEW (self));
  row = gtk_list_box_get_row_at_index (self->history, 0);
  if (gtk_widget_get_visible (self->places_section))
    gtk_widget_grab_focus (gtk_widget_get_parent (GTK_WIDGET (self->places))); /* stands above the history */
  else if (row != NULL)
    gtk_widget_grab_focus (GTK_WIDGET (row));
}

char *
bond_details_view_text (BondDetailsView *self)
{
  BondDetailsAbout about;
  g_autoptr (GPtrArray) story = NULL;
  g_autoptr (GPtrArray) lines = NULL;
  g_autofree char *verdict = NULL;
  GString *text = g_string_new (NULL);

  g_return_val_if_fail (BOND_IS_DETAILS_VIEW (self), NULL);
  if (!about_of (self, &about))
    return g_string_free (text, FALSE);
  story = bond_point_story (about.point);
  lines = bond_details_lines (about.survey, about.point, story);
  verdict = bond_details_verdict_words (&about);
  g_string_append_printf (text, "%s\t%s – %s\n%s\n", bond_point_get_number (about.point),
                          bond_point_get_spec (about.point)->from, bond_point_get_spec (about.point)->to, verdict);
  for (guint i = 0; i < lines->len; i++)
    {
      const BondDetailsLine *line = g_ptr_array_index (lines, i);

      g_string_append_printf (text, "%s\t%s\t%s\t%s\n", line->when, line->title, line->word != NULL ? line->word : "",
                              line->note);
    }
  return g_string_free (text, FALSE);
}
