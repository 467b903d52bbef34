/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * Zone header and point in one widget of one height: a list whose rows change
 * height with the verdict would shake.  Words come from gui/words.h.
 */
#include "gui/pages/points-row.h"
#include "gui/dialog.h"
#include "gui/widgets/mark-image.h"
#include "gui/words.h"
#include <glib/gi18n-lib.h>

struct _BondPointsRow
{
  GtkBox parent_instance;
  BondSurvey *survey;
  BondPointsItem *item;
  GtkWidget *header, *point_box, *arrow;
  GtkLabel *zone_label, *name_label, *progress_label;
  GtkLabel *number_label, *from_label, *value_label, *state_label;
  BondMarkImage *mark;
};

G_DEFINE_FINAL_TYPE (BondPointsRow, bond_points_row, GTK_TYPE_BOX)

/* Ink of the value: only what is not a plain pass has one. */
static const char *
ink_of (BondPoint *point)
{
  const BondPlaceResult *worst = bond_point_get_worst (point);

  switch (bond_point_get_state (point))
    {
    case BOND_STATE_FAIL:
      return "fail";
    case BOND_STATE_REMEASURE:
    case BOND_STATE_PASS_AFTER_REWORK:
    case BOND_STATE_ACCEPTED:
    case BOND_STATE_CARRIED_FORWARD:
    case BOND_STATE_DEFERRED:
      return "history";
    case BOND_STATE_SUSPECT:
    case BOND_STATE_IN_DOUBT:
      return "guard";
    case BOND_STATE_PASS:
      return worst != NULL && worst->within_u ? "guard" : NULL;
    default:
      return NULL;
    }
}

static void
set_ink (GtkLabel *label, const char *ink)
{
  static const char *const inks[] = { "fail", "history", "guard" };

  for (gsize i = 0; i < G_N_ELEMENTS (inks); i++)
    gtk_widget_remove_css_class (GTK_WIDGET (label), inks[i]);
  if (ink != NULL)
    gtk_widget_add_css_class (GTK_WIDGET (label), ink);
}

/* GTK's own row widget has the focus, so it is what is read aloud; the name of what lies in it alone is not. */
static void
name_row (BondPointsRow *self, const char *name)
{
  GtkWidget *row = gtk_widget_get_parent (GTK_WIDGET (self));

  bond_name_widget (self, name);
  if (row != NULL)
    bond_name_widget (row, name);
}

static void
show_header (BondPointsRow *self)
{
  guint done, of;
  g_autofree char *progress = NULL;
  g_autofree char *name = NULL;
  gboolean folded = bond_points_item_get_folded (self->item);

  bond_points_item_get_progress (self->item, &done, &of);
  progress = g_strdup_printf (_ ("%u of %u"), done, of);
  name = g_strdup_printf (folded ? _ ("Zone %s, %s, %u of %u done, folded") : _ ("Zone %s, %s, %u of %u done"),
                          bond_points_item_get_zone (self->item), bond_points_item_get_name (self->item), done, of);
  gtk_label_set_text (self->zone_label, bond_points_item_get_zone (self->item));
  gtk_label_set_text (self->name_label, bond_points_item_get_name (self->item));
  gtk_widget_set_tooltip_text (GTK_WIDGET (self), bond_points_item_get_name (self->item));
  gtk_label_set_text (self->progress_label, progress);
  gtk_image_set_from_icon_name (GTK_IMAGE (self->arrow), folded ? "pan-end-symbolic" : "pan-down-symbolic");
  name_row (self, name);
}

/* The value that stands for the point: what decides, else the newest, else the limit it waits for. */
static char *
value_of (BondPointsRow *self, BondPoint *point, gboolean *is_limit)
{
  const BondPlaceResult *worst = bond_point_get_worst (point);
  const BondMeasurement *shown = NULL;

  *is_limit = FALSE;
  if (worst == NULL)
    return g_strdup ("");
  shown = worst->decides != NULL ? worst->decides : worst->last;
  if (shown != NULL && shown->outcome == BOND_OUTCOME_NO_VERDICT && shown->mean.count == 0)
    return g_strdup (_ ("no verdict"));
  if (shown != NULL && shown->outcome != BOND_OUTCOME_NONE)
    return bond_words_result (self->survey, shown, bond_words_unit (worst, BOND_UNIT_MILLIOHM), TRUE);
  *is_limit = TRUE;
  return worst->bounds != NULL ? bond_bounds_format (worst->bounds, bond_locale_mark (), TRUE)
                               : g_strdup (_ ("no limit"));
}

static void
show_point (BondPointsRow *self, BondPoint *point)
{
  const BondPointSpec *spec = bond_point_get_spec (point);
  const char *state = bond_words_state (point);
  gboolean is_limit;
  g_autofree char *value = value_of (self, point, &is_limit);
  g_autofree char *ends = g_strdup_printf (_ ("%s to %s"), spec->from, spec->to);
  g_autofree char *name
      = g_strdup_printf ("%s, %s, %s, %s, %s", spec->number, spec->from, bond_class_name (spec->klass),
                         bond_state_name (bond_point_get_state (point)), value);

  gtk_label_set_text (self->number_label, spec->number);
  gtk_label_set_text (self->from_label, spec->from);
  gtk_widget_set_tooltip_text (GTK_WIDGET (self), ends);
  gtk_label_set_text (self->value_label, value);
  gtk_label_set_text (self->state_label, state);
  set_ink (self->value_label, is_limit ? NULL : ink_of (point));
  set_ink (self->state_label, ink_of (point));
  (is_limit ? gtk_widget_remove_css_class : gtk_widget_add_css_class) (GTK_WIDGET (self->value_label), "strong");
  (is_limit ? gtk_widget_add_css_class : gtk_widget_remove_css_class) (GTK_WIDGET (self->value_label), "quiet");
  bond_mark_image_set_point (self->mark, point, bond_survey_get_rule (self->survey));
  name_row (self, name);
}

static void
item_changed_cb (BondPointsRow *self)
{
  BondPoint *point = bond_points_item_get_point (self->item);

  gtk_widget_set_visible (self->header, point == NULL);
  gtk_widget_set_visible (self->point_box, point != NULL);
  if (point != NULL)
    show_point (self, point);
  else
    show_header (self);
}

static void
bond_points_row_dispose (GObject *object)
{
  BondPointsRow *self = BOND_POINTS_ROW (object);

  bond_points_row_set_item (self, NULL);
  g_clear_object (&self->survey);
  G_OBJECT_CLASS (bond_points_row_parent_class)->dispose (object);
}

static void
bond_points_row_class_init (BondPointsRowClass *klass)
{
  GtkWidgetClass *widget_class = GTK_WIDGET_CLASS (klass);

  g_type_ensure (BOND_TYPE_MARK_IMAGE);
  G_OBJECT_CLASS (klass)->dispose = bond_points_row_dispose;
  gtk_widget_class_set_template_from_resource (widget_class, BOND_UI "points-row.ui");
  gtk_widget_class_bind_template_child (widget_class, BondPointsRow, header);
  gtk_widget_class_bind_template_child (widget_class, BondPointsRow, point_box);
  gtk_widget_class_bind_template_child (widget_class, BondPointsRow, arrow);
  gtk_widget_class_bind_template_child (widget_class, BondPointsRow, zone_label);
  gtk_widget_class_bind_template_child (widget_class, BondPointsRow, name_label);
  gtk_widget_class_bind_template_child (widget_class, BondPointsRow, progress_label);
  gtk_widget_class_bind_template_child (widget_class, BondPointsRow, number_label);
  gtk_widget_class_bind_template_child (widget_class, BondPointsRow, from_label);
  gtk_widget_class_bind_template_child (widget_class, BondPointsRow, value_label);
  gtk_widget_class_bind_template_child (widget_class, BondPointsRow, state_label);
  gtk_widget_class_bind_template_child (widget_class, BondPointsRow, mark);
  gtk_widget_class_set_accessible_role (widget_class, GTK_ACCESSIBLE_ROLE_GROUP);
}

static void
bond_points_row_init (BondPointsRow *self)
{
  gtk_widget_init_template (GTK_WIDGET (self));
}

GtkWidget *
bond_points_row_new (BondSurvey *survey)
{
  BondPointsRow *self = g_object_new (BOND_TYPE_POINTS_ROW, NULL);

  self->survey = g_object_ref (survey);
  return GTK_WIDGET (self);
}

void
bond_points_row_set_item (BondPointsRow *self, BondPointsItem *item)
{
  g_return_if_fail (BOND_IS_POINTS_ROW (self));
  if (self->item != NULL)
    {
      g_signal_handlers_disconnect_by_data (self->item, self);
      if (item == NULL && self->mark != NULL)
        bond_mark_image_clear (self->mark);
    }
  g_set_object (&self->item, item);
  if (item == NULL)
    return;
  g_signal_connect_swapped (item, "changed", G_CALLBACK (item_changed_cb), self);
  item_changed_cb (self);
}

BondPointsItem *
bond_points_row_get_item (BondPointsRow *self)
{
  g_return_val_if_fail (BOND_IS_POINTS_ROW (self), NULL);
  return self->item;
}
