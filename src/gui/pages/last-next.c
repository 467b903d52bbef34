/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * "Last" proves that the reading arrived after the walk has moved on; "Next" says
 * where to walk.  Earlier values of the last point show here, after its entry.
 */
#include "gui/pages/last-next.h"
#include "gui/dialog.h"
#include "gui/pages/history-list.h"
#include "gui/widgets/mark-image.h"
#include "gui/words.h"
#include <glib/gi18n-lib.h>

/* One line: caption, mark, number, words. */
typedef struct
{
  GtkWidget *box;
  BondMarkImage *mark;
  GtkLabel *name, *number, *words;
} Line;

struct _BondLastNext
{
  GtkWidget parent_instance;
  BondWalk *walk;
  GtkWidget *box, *undo;
  Line last, next;
  GtkLabel *earlier;
};

G_DEFINE_FINAL_TYPE (BondLastNext, bond_last_next, GTK_TYPE_WIDGET)

static void
show_line (Line *line, BondSurvey *survey, BondPoint *point, const char *words)
{
  gtk_widget_set_visible (line->box, point != NULL);
  if (point == NULL)
    return;
  bond_mark_image_set_point (line->mark, point, bond_survey_get_rule (survey));
  gtk_label_set_text (line->number, bond_point_get_number (point));
  gtk_label_set_text (line->words, words);
}

static void
show_last (BondLastNext *self)
{
  BondSurvey *survey = bond_walk_get_survey (self->walk);
  BondEntry *entry = bond_walk_last_reading (self->walk);
  BondPoint *point = entry != NULL ? bond_survey_find_point (survey, entry->point) : NULL;
  const BondPlaceResult *result = point != NULL ? bond_point_get_place (point, entry->place) : NULL;
  g_autofree char *words = NULL;
  g_autofree char *earlier = NULL;

  if (result != NULL && result->last != NULL && result->last->mean.count > 0)
    words = bond_words_result (survey, result->last, bond_words_unit (result, entry->reading.unit), TRUE);
  else if (entry != NULL)
    words = bond_words_quantity (&entry->reading.quantity, entry->reading.unit, 2);
  show_line (&self->last, survey, point, words);
  earlier = self->undo != NULL && point != bond_walk_get_point (self->walk) ? bond_history_earlier_words (survey, point)
                                                                            : NULL;
  gtk_widget_set_visible (GTK_WIDGET (self->earlier), earlier != NULL);
  if (earlier != NULL)
    {
      g_autofree char *line = g_strdup_printf (_ ("%s earlier %s"), bond_point_get_number (point), earlier);

      gtk_label_set_text (self->earlier, line);
    }
}

/* With a filter on, Next is the next of the points shown, and says so. */
static void
show_next (BondLastNext *self)
{
  g_autoptr (GPtrArray) upcoming = bond_walk_upcoming (self->walk, 1);
  BondPoint *next = upcoming->len > 0 ? g_ptr_array_index (upcoming, 0) : NULL;
  gboolean filtered = bond_walk_is_filtered (self->walk);
  const char *words = next != NULL ? bond_point_get_spec (next)->from : "";

  show_line (&self->next, bond_walk_get_survey (self->walk), next, words);
  gtk_label_set_text (self->next.name, filtered ? _ ("Next shown") : _ ("Next"));
  gtk_widget_set_tooltip_text (self->next.box,
                               filtered ? _ ("A filter is on: only the points shown are walked.") : NULL);
  gtk_widget_set_tooltip_text (GTK_WIDGET (self->next.words), *words != '\0' ? words : NULL);
  if (next != NULL || !filtered)
    return;
  gtk_widget_set_visible (self->next.box, TRUE);
  bond_mark_image_clear (self->next.mark);
  gtk_label_set_text (self->next.number, "");
  gtk_label_set_text (self->next.words, _ ("no point shown is open"));
}

static void
refresh (BondLastNext *self)
{
  show_last (self);
  show_next (self);
}

static void
make_line (BondLastNext *self, Line *line, const char *caption, gboolean upright)
{
  GtkWidget *name = gtk_label_new (caption);

  line->name = GTK_LABEL (name);
  line->box = gtk_box_new (GTK_ORIENTATION_HORIZONTAL, 8);
  line->mark = BOND_MARK_IMAGE (bond_mark_image_new ());
  line->number = GTK_LABEL (gtk_label_new (NULL));
  line->words = GTK_LABEL (gtk_label_new (NULL));
  gtk_label_set_xalign (GTK_LABEL (name), 0);
  gtk_label_set_width_chars (GTK_LABEL (name), upright ? 8 : 4);
  gtk_widget_add_css_class (name, "note");
  gtk_widget_add_css_class (GTK_WIDGET (line->number), "strong");
  gtk_widget_add_css_class (GTK_WIDGET (line->words), "number");
  gtk_label_set_ellipsize (line->words, PANGO_ELLIPSIZE_END);
  gtk_label_set_xalign (line->words, 0);
  gtk_widget_set_hexpand (GTK_WIDGET (line->words), TRUE);
  gtk_widget_set_valign (GTK_WIDGET (line->mark), GTK_ALIGN_CENTER);
  gtk_box_append (GTK_BOX (line->box), name);
  gtk_box_append (GTK_BOX (line->box), GTK_WIDGET (line->mark));
  gtk_box_append (GTK_BOX (line->box), GTK_WIDGET (line->number));
  gtk_box_append (GTK_BOX (line->box), GTK_WIDGET (line->words));
  gtk_widget_set_hexpand (line->box, TRUE);
  gtk_box_append (GTK_BOX (self->box), line->box);
}

static void
add_undo (BondLastNext *self)
{
  GtkWidget *key = gtk_label_new ("U");
  GtkWidget *box = gtk_box_new (GTK_ORIENTATION_HORIZONTAL, 6);

  self->undo = gtk_button_new ();
  gtk_widget_add_css_class (key, "key");
  gtk_widget_set_valign (key, GTK_ALIGN_CENTER);
  gtk_box_append (GTK_BOX (box), gtk_label_new (_ ("Undo")));
  gtk_box_append (GTK_BOX (box), key);
  gtk_button_set_child (GTK_BUTTON (self->undo), box);
  gtk_actionable_set_action_name (GTK_ACTIONABLE (self->undo), "win.undo");
  gtk_widget_set_focus_on_click (self->undo, FALSE);
  gtk_widget_add_css_class (self->undo, "verb");
  bond_name_widget (self->undo, _ ("Undo"));
  gtk_box_append (GTK_BOX (self->last.box), self->undo);
}

static void
bond_last_next_dispose (GObject *object)
{
  BondLastNext *self = BOND_LAST_NEXT (object);

  if (self->walk != NULL)
    {
      g_signal_handlers_disconnect_by_data (bond_walk_get_survey (self->walk), self);
      g_signal_handlers_disconnect_by_data (self->walk, self);
    }
  g_clear_object (&self->walk);
  g_clear_pointer (&self->box, gtk_widget_unparent);
  G_OBJECT_CLASS (bond_last_next_parent_class)->dispose (object);
}

static void
bond_last_next_class_init (BondLastNextClass *klass)
{
  G_OBJECT_CLASS (klass)->dispose = bond_last_next_dispose;
  gtk_widget_class_set_layout_manager_type (GTK_WIDGET_CLASS (klass), GTK_TYPE_BIN_LAYOUT);
}

static void
bond_last_next_init (BondLastNext *self)
{
}

GtkWidget *
bond_last_next_new (BondWalk *walk, GtkOrientation orientation)
{
  BondLastNext *self;
  gboolean upright = orientation == GTK_ORIENTATION_VERTICAL;

  g_return_val_if_fail (BOND_IS_WALK (walk), NULL);
  self = g_object_new (BOND_TYPE_LAST_NEXT, NULL);
  self->walk = g_object_ref (walk);
  self->box = gtk_box_new (orientation, upright ? 4 : 24);
  gtk_widget_set_parent (self->box, GTK_WIDGET (self));
  make_line (self, &self->last, _ ("Last"), upright);
  if (upright)
    add_undo (self);
  self->earlier = GTK_LABEL (gtk_label_new (NULL));
  gtk_label_set_xalign (self->earlier, 0);
  gtk_label_set_ellipsize (self->earlier, PANGO_ELLIPSIZE_END);
  gtk_widget_add_css_class (GTK_WIDGET (self->earlier), "note");
  gtk_box_append (GTK_BOX (self->box), GTK_WIDGET (self->earlier));
  make_line (self, &self->next, _ ("Next"), upright);
  g_signal_connect_swapped (walk, "current-changed", G_CALLBACK (refresh), self);
  g_signal_connect_swapped (walk, "filter-changed", G_CALLBACK (show_next), self);
  g_signal_connect_swapped (walk, "recorded", G_CALLBACK (refresh), self);
  g_signal_connect_swapped (bond_walk_get_survey (walk), "point-changed", G_CALLBACK (refresh), self);
  refresh (self);
  return GTK_WIDGET (self);
}
