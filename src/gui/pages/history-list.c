/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * The history below the field.  Voided and undone readings stay in it, struck
 * through, as they do in the record.
 */
#include "gui/pages/history-list.h"
#include "gui/widgets/mark-image.h"
#include "gui/words.h"
#include <glib/gi18n-lib.h>

struct _BondHistoryList
{
  GtkWidget parent_instance;
  GtkWidget *box;
};

G_DEFINE_FINAL_TYPE (BondHistoryList, bond_history_list, GTK_TYPE_WIDGET)

static void
bond_history_list_dispose (GObject *object)
{
  g_clear_pointer (&BOND_HISTORY_LIST (object)->box, gtk_widget_unparent);
  G_OBJECT_CLASS (bond_history_list_parent_class)->dispose (object);
}

static void
bond_history_list_class_init (BondHistoryListClass *klass)
{
  G_OBJECT_CLASS (klass)->dispose = bond_history_list_dispose;
  gtk_widget_class_set_layout_manager_type (GTK_WIDGET_CLASS (klass), GTK_TYPE_BIN_LAYOUT);
  gtk_widget_class_set_accessible_role (GTK_WIDGET_CLASS (klass), GTK_ACCESSIBLE_ROLE_LIST);
}

static void
bond_history_list_init (BondHistoryList *self)
{
  self->box = gtk_box_new (GTK_ORIENTATION_VERTICAL, 2);
  gtk_widget_set_parent (self->box, GTK_WIDGET (self));
}

GtkWidget *
bond_history_list_new (void)
{
  return g_object_new (BOND_TYPE_HISTORY_LIST, NULL);
}

static void
add_line (BondHistoryList *self, const char *what, const char *more, const char *clock, gboolean struck)
{
  GtkWidget *row = gtk_box_new (GTK_ORIENTATION_HORIZONTAL, 8);
  GtkWidget *left = gtk_label_new (what);
  GtkWidget *middle = gtk_label_new (more);
  GtkWidget *right = gtk_label_new (clock);

  gtk_widget_add_css_class (left, "strong");
  gtk_widget_add_css_class (left, "number");
  if (struck)
    {
      g_autoptr (PangoAttrList) attributes = pango_attr_list_new ();

      pango_attr_list_insert (attributes, pango_attr_strikethrough_new (TRUE));
      gtk_label_set_attributes (GTK_LABEL (left), attributes);
    }
  gtk_widget_add_css_class (middle, "note");
  gtk_label_set_xalign (GTK_LABEL (middle), 0);
  gtk_label_set_ellipsize (GTK_LABEL (middle), PANGO_ELLIPSIZE_END);
  gtk_widget_set_tooltip_text (middle, more);
  gtk_widget_set_hexpand (middle, TRUE);
  gtk_widget_add_css_class (right, "caption");
  gtk_widget_add_css_class (right, "number");
  gtk_box_append (GTK_BOX (row), left);
  gtk_box_append (GTK_BOX (row), middle);
  gtk_box_append (GTK_BOX (row), right);
  gtk_box_append (GTK_BOX (self->box), row);
}

static char *
rework_words (const BondRework *rework)
{
  GString *text = g_string_new (NULL);

  for (int bit = 0; bit < BOND_N_REWORK_DONE; bit++)
    if (rework->done & (1u << bit))
      g_string_append_printf (text, "%s%s", text->len > 0 ? ", " : "", bond_rework_done_name (1 << bit));
  if (rework->reference != NULL)
    g_string_append_printf (text, ", %s", rework->reference);
  return g_string_free (text, FALSE);
}

static void
add_measurement (BondHistoryList *self, BondSurvey *survey, const BondHistoryItem *item, const BondPlaceResult *result,
                 gboolean failed)
{
  const BondMeasurement *m = item->measurement;
  BondUnit unit = bond_words_unit (result, BOND_UNIT_MILLIOHM);
  gboolean struck = item->voided || item->taken_back || item->moved_away;
  g_autofree char *clock = bond_words_when (survey, item->entry->at);
  g_autofree char *value = NULL;
  g_autofree char *more = NULL;

  if (m->mean.count > 0)
    value = bond_words_result (survey, m, unit, TRUE);
  else
    value = bond_words_quantity (&bond_entry_get_reading (item->entry)->quantity, unit,
                                 bond_words_decimals (survey, m, unit));
  if (struck)
    more = g_strdup (item->taken_back ? _ ("undone") : item->moved_away ? _ ("moved to another point") : _ ("void"));
  else if (m->outcome == BOND_OUTCOME_JUDGED)
    more = g_strdup_printf ("%s, %s", bond_words_phase (item->phase, failed),
                            m->conforms ? _ ("conforms") : _ ("does not conform"));
  else
    more = g_strdup_printf ("%s, %s", bond_words_phase (item->phase, failed),
                            m->reason != BOND_REASON_NONE ? bond_reason_name (m->reason) : _ ("no limit"));
  add_line (self, value, more, clock, struck);
}

static void
add_entry (BondHistoryList *self, BondSurvey *survey, const BondHistoryItem *item)
{
  const BondEntry *entry = item->entry;
  g_autofree char *clock = bond_words_when (survey, entry->at);
  g_autofree char *more = NULL;
  const char *what = NULL;

  switch (entry->kind)
    {
    case BOND_ENTRY_REWORK:
      what = _ ("Rework");
      more = rework_words (&entry->rework);
      break;
    case BOND_ENTRY_CONDITION:
      what = _ ("Joint");
      more = g_strdup (bond_condition_name (entry->condition.condition));
      break;
    case BOND_ENTRY_VISUAL:
      what = entry->visual.reject ? _ ("Visual reject") : _ ("Visual");
      more = g_strdup (bond_visual_name (entry->visual.finding));
      break;
    case BOND_ENTRY_STATE:
      what = _ ("Marked");
      more = g_strdup (entry->reason);
      break;
    case BOND_ENTRY_DISPOSITION:
      what = _ ("Disposition");
      more = g_strdup (entry->disposition.reference);
      break;
    case BOND_ENTRY_NOTE:
      what = _ ("Note");
      more = g_strdup (entry->note.text);
      break;
    case BOND_ENTRY_DEFECT:
      what = _ ("Defect card");
      more = g_strdup (entry->defect.card);
      break;
    case BOND_ENTRY_DEVIATION:
      what = _ ("Deviation");
      more = g_strdup (entry->deviation.holder);
      break;
    case BOND_ENTRY_REFINISH:
      what = _ ("Finish applied");
      more = g_strdup (entry->refinish.how != NULL ? entry->refinish.how : entry->refinish.reference);
      break;
    case BOND_ENTRY_SEEN:
      what = _ ("Seen, not recorded");
      more = bond_words_quantity (&entry->reading.quantity, entry->reading.unit, 2);
      break;
    case BOND_ENTRY_ATTACH:
      what = _ ("Note");
      more = g_strdup (entry->reason);
      break;
    default:
      return;
    }
  add_line (self, what, more != NULL ? more : "", clock, item->taken_back);
}

static void
add_heading (BondHistoryList *self, const char *text)
{
  GtkWidget *label = gtk_label_new (text);

  gtk_label_set_xalign (GTK_LABEL (label), 0);
  gtk_widget_add_css_class (label, "note");
  gtk_box_append (GTK_BOX (self->box), label);
}

static gboolean
is_fail (const BondHistoryItem *item)
{
  return item->measurement != NULL && !item->voided && !item->taken_back && !item->moved_away
         && item->measurement->outcome == BOND_OUTCOME_JUDGED && !item->measurement->conforms;
}

static void
clear (BondHistoryList *self)
{
  GtkWidget *child;

  while ((child = gtk_widget_get_first_child (self->box)) != NULL)
    gtk_box_remove (GTK_BOX (self->box), child);
}

void
bond_history_list_show (BondHistoryList *self, BondSurvey *survey, BondPoint *point, const BondPlaceResult *result)
{
  GPtrArray *notes = bond_point_get_attachments (point);
  g_autofree char *earlier = NULL;
  gboolean failed = FALSE;

  g_return_if_fail (BOND_IS_HISTORY_LIST (self));
  clear (self);
  if (result->history->len > 0)
    add_heading (self, _ ("So far"));
  for (guint i = 0; i < result->history->len; i++)
    {
      const BondHistoryItem *item = g_ptr_array_index (result->history, i);

      if (item->measurement != NULL)
        add_measurement (self, survey, item, result, failed);
      else
        add_entry (self, survey, item);
      failed = failed || is_fail (item);
    }
  for (guint i = 0; notes != NULL && i < notes->len; i++)
    add_entry (self, survey, &(BondHistoryItem){ .entry = g_ptr_array_index (notes, i) });
  /* Earlier values come after the entry: a number seen before must not lead the eye. */
  earlier = result->last != NULL ? bond_history_earlier_words (survey, point) : NULL;
  if (earlier == NULL)
    return;
  add_heading (self, _ ("Earlier"));
  add_heading (self, earlier);
}

void
bond_history_list_show_whole (BondHistoryList *self, GtkWidget *widget, double bottom_px)
{
  g_return_if_fail (BOND_IS_HISTORY_LIST (self));
  for (GtkWidget *line = gtk_widget_get_first_child (self->box); line != NULL;
       line = gtk_widget_get_next_sibling (line))
    {
      graphene_rect_t at;
      gboolean cut = gtk_widget_compute_bounds (line, widget, &at) && at.origin.y < bottom_px
                     && at.origin.y + at.size.height > bottom_px + 2;

      gtk_widget_set_opacity (line, cut ? 0 : 1);
    }
}

char *
bond_history_earlier_words (BondSurvey *survey, BondPoint *point)
{
  GPtrArray *earlier = bond_survey_get_earlier (survey);
  g_autoptr (GString) text = g_string_new (NULL);

  for (guint i = 0; earlier != NULL && point != NULL && i < earlier->len; i++)
    {
      const BondEarlier *survey_then = g_ptr_array_index (earlier, i);
      const BondEarlierItem *item = bond_earlier_find (survey_then, bond_point_get_id (point));
      g_autofree char *date = NULL;
      g_autofree char *value = NULL;

      if (item == NULL)
        continue;
      date = bond_words_date (survey_then->date);
      value
          = bond_words_quantity (&item->result, bond_words_unit (bond_point_get_worst (point), BOND_UNIT_MILLIOHM), 2);
      g_string_append_printf (text, _ ("%s%s on %s"), text->len > 0 ? "; " : "", value, date);
      if (item->note != NULL)
        g_string_append_printf (text, " (%s)", item->note);
    }
  return text->len > 0 ? g_string_free (g_steal_pointer (&text), FALSE) : NULL;
}
