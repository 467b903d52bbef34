/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * The half of the reading panel that shows the point in hand: where it is, which
 * limit applies in which tier, what was recorded last.  The field and its verdict
 * are in reading-entry-flow.c.
 */
#include "gui/dialog.h"
#include "gui/pages/pinned-popover.h"
#include "gui/pages/reading-panel-private.h"
#include "gui/spoken.h"
#include "gui/words.h"
#include <glib/gi18n-lib.h>

G_DEFINE_FINAL_TYPE (BondReadingPanel, bond_reading_panel, GTK_TYPE_WIDGET)

void
bond_reading_panel_set_ink (GtkWidget *label, const char *ink)
{
  static const char *const inks[] = { "fail", "guard", "history", "pass" };

  for (gsize i = 0; i < G_N_ELEMENTS (inks); i++)
    gtk_widget_remove_css_class (label, inks[i]);
  if (ink != NULL)
    gtk_widget_add_css_class (label, ink);
}

static void
show_places (BondReadingPanel *self, BondPoint *point)
{
  GPtrArray *places = bond_point_get_places (point);
  g_autoptr (GtkStringList) names = gtk_string_list_new (NULL);
  guint selected = 0;

  gtk_widget_set_visible (GTK_WIDGET (self->place_drop), places->len > 1);
  if (places->len < 2)
    return;
  for (guint i = 0; i < places->len; i++)
    {
      const BondPlaceResult *place = g_ptr_array_index (places, i);
      g_autofree char *name
          = g_strdup_printf (_ ("%s, %u of %u: %s"), place->label != NULL ? place->label : place->place, i + 1,
                             places->len, bond_state_name (place->state));

      gtk_string_list_append (names, name);
      if (g_strcmp0 (place->place, bond_walk_get_place (self->walk)) == 0)
        selected = i;
    }
  self->filling = TRUE;
  gtk_drop_down_set_model (self->place_drop, G_LIST_MODEL (names));
  gtk_drop_down_set_selected (self->place_drop, selected);
  self->filling = FALSE;
}

static void
place_selected_cb (BondReadingPanel *self)
{
  BondPoint *point = bond_walk_get_point (self->walk);
  guint selected = gtk_drop_down_get_selected (self->place_drop);
  GPtrArray *places;

  if (self->filling || point == NULL)
    return;
  places = bond_point_get_places (point);
  if (selected < places->len)
    bond_walk_go (self->walk, point, ((BondPlaceResult *)g_ptr_array_index (places, selected))->place);
  bond_reading_panel_grab_field (self);
}

/* What the limit row says beside its value: the tier always; the other tier when the row has one. */
static char *
other_tier (const BondLimitRow *row, BondCondition tier)
{
  g_autofree char *text = NULL;
  gboolean strict_now = tier != BOND_CONDITION_UNDISTURBED;

  if (row == NULL || !row->has_strict)
    return NULL;
  text = bond_bounds_format (strict_now ? &row->in_service : &row->strict, bond_locale_mark (), TRUE);
  return g_strdup_printf (strict_now ? _ ("in service %s") : _ ("after opening or rework %s"), text);
}

/* "also P1: ≤ 10 mΩ, in service": the limit of a further row, in the tier that holds now. */
static char *
further_limit (const BondPlaceResult *result)
{
  const BondLimitRow *row = result->row;
  const char *name = row != NULL ? row->code : result->row_name != NULL ? result->row_name : "";
  g_autofree char *limit = NULL;

  if (result->bounds != NULL)
    {
      limit = bond_bounds_format (result->bounds, bond_locale_mark (), TRUE);
      return g_strdup_printf (_ ("also %s: %s, %s"), name, limit, bond_words_tier (result->tier));
    }
  if (row != NULL && (row->method == BOND_METHOD_VISUAL || row->method == BOND_METHOD_ABSENT))
    return g_strdup_printf (_ ("also %s: %s"), name, bond_method_name (row->method));
  return g_strdup_printf (_ ("also %s: %s"), name, _ ("recorded without limit"));
}

/* One line a row beyond the one that governs; all must be met. */
static void
show_further_limits (BondReadingPanel *self, const BondPlaceResult *result)
{
  g_autoptr (GString) text = g_string_new (gtk_label_get_text (self->source_label));

  if (bond_place_result_n_rows (result) == 1)
    return;
  if (!gtk_widget_get_visible (GTK_WIDGET (self->source_label)))
    g_string_truncate (text, 0);
  for (guint i = 1; i < bond_place_result_n_rows (result); i++)
    {
      g_autofree char *line = further_limit (bond_place_result_nth_row (result, i));

      g_string_append_printf (text, "%s%s", text->len > 0 ? "\n" : "", line);
    }
  gtk_label_set_text (self->source_label, text->str);
  gtk_widget_set_visible (GTK_WIDGET (self->source_label), TRUE);
}

static void
show_limit (BondReadingPanel *self, const BondPlaceResult *result)
{
  const BondLimitRow *row = result->row;
  g_autofree char *limit = NULL;
  g_autofree char *source = bond_words_source (row, result->set);
  g_autofree char *other = other_tier (row, result->tier);
  g_autofree char *caption = NULL;

  limit = result->bounds != NULL ? bond_bounds_format (result->bounds, bond_locale_mark (), TRUE) : NULL;
  gtk_label_set_text (self->limit_detail, result->bounds != NULL ? bond_words_tier (result->tier) : "");
  gtk_label_set_text (self->limit_value, limit != NULL ? limit : _ ("recorded without limit"));
  if (row != NULL && (row->method == BOND_METHOD_VISUAL || row->method == BOND_METHOD_ABSENT))
    gtk_label_set_text (self->limit_value, bond_method_name (row->method));
  caption = g_strdup_printf ("%s%s%s%s%s", row != NULL ? row->code : "", *source != '\0' ? ", " : "", source,
                             other != NULL ? "; " : "", other != NULL ? other : "");
  gtk_label_set_text (self->source_label, other != NULL ? other : caption);
  gtk_widget_set_visible (GTK_WIDGET (self->source_label), *caption != '\0' && (other != NULL || !self->low));
  gtk_widget_set_tooltip_text (self->limit_box, caption);
  gtk_widget_set_tooltip_text (GTK_WIDGET (self->source_label), caption);
  show_further_limits (self, result);
}

static void
show_point (BondReadingPanel *self, BondPoint *point)
{
  const BondPointSpec *spec = bond_point_get_spec (point);
  BondSurvey *survey = bond_walk_get_survey (self->walk);
  char letter[] = { bond_class_letter (spec->klass), '\0' };
  g_autofree char *ends = g_strdup_printf (_ ("%s to %s"), spec->from, spec->to);
  g_autofree char *where = bond_words_where (survey, spec);
  g_autofree char *in_zone = NULL;
  guint index, of;

  bond_walk_place_in_zone (self->walk, &index, &of);
  in_zone = g_strdup_printf (_ ("%u of %u in zone"), index, of);
  gtk_label_set_text (self->number_label, spec->number);
  gtk_label_set_text (self->in_zone_label, in_zone);
  gtk_label_set_text (self->class_label, letter);
  gtk_widget_set_tooltip_text (GTK_WIDGET (self->class_label), bond_class_name (spec->klass));
  gtk_label_set_text (self->ends_label, ends);
  gtk_widget_set_tooltip_text (GTK_WIDGET (self->ends_label), ends);
  gtk_label_set_text (self->where_label, where);
  gtk_widget_set_tooltip_text (GTK_WIDGET (self->where_label), where);
  bond_mark_image_set_class (self->class_sign, spec->klass);
  bond_mark_image_set_point (self->point_mark, point, bond_survey_get_rule (survey));
  show_places (self, point);
}

static void
show_earlier (BondReadingPanel *self)
{
  GPtrArray *earlier = bond_survey_get_earlier (bond_walk_get_survey (self->walk));
  g_autoptr (GArray) values = g_array_new (FALSE, FALSE, sizeof (BondOhm));

  for (guint i = 0; earlier != NULL && i < earlier->len; i++)
    {
      const BondEarlierItem *item
          = bond_earlier_find (g_ptr_array_index (earlier, i), bond_point_get_id (bond_walk_get_point (self->walk)));

      if (item != NULL && item->result.qualifier == BOND_QUALIFIER_NONE)
        g_array_append_val (values, item->result.nohm);
    }
  bond_limit_bar_set_earlier (self->limit_bar, (BondOhm *)values->data, values->len);
}

/* As found and re-seated, where they are not the reading that is shown anyway. */
static void
show_before (BondReadingPanel *self, const BondPlaceResult *result)
{
  g_autoptr (GArray) reseats = g_array_new (FALSE, FALSE, sizeof (BondOhm));
  BondOhm found = 0;

  for (guint i = 0; i < result->history->len; i++)
    {
      const BondHistoryItem *item = g_ptr_array_index (result->history, i);
      const BondMeasurement *m = item->measurement;
      BondOhm nohm;

      if (m == NULL || item->voided || item->taken_back || item->moved_away || m->mean.count == 0
          || m->qualifier == BOND_QUALIFIER_BELOW)
        continue;
      nohm = bond_mean_nohm (&m->mean);
      if (m == result->found)
        found = nohm;
      else if (item->phase == BOND_PHASE_RESEATED)
        g_array_append_val (reseats, nohm);
    }
  bond_limit_bar_set_before (self->limit_bar, found, (BondOhm *)reseats->data, reseats->len);
}

static void
show_pinned (BondReadingPanel *self)
{
  BondUnit unit = bond_walk_get_pinned (self->walk)->unit;
  g_autofree char *text = bond_pinned_summary (self->walk);
  g_autofree char *name = g_strdup_printf (_ ("Unit %s, pinned"), bond_unit_spoken (unit));

  gtk_label_set_text (self->state_label, text);
  gtk_label_set_text (self->unit_label, bond_unit_symbol (unit));
  bond_name_widget (self->unit_button, name);
}

static void
refresh (BondReadingPanel *self)
{
  BondPoint *point = bond_walk_get_point (self->walk);
  const BondPlaceResult *result = bond_walk_get_result (self->walk);

  gtk_widget_set_visible (self->content, TRUE);
  show_pinned (self);
  if (point == NULL || result == NULL)
    {
      gtk_label_set_text (self->number_label, "");
      gtk_label_set_text (self->ends_label, _ ("This survey has no points. Click a place on the diagram to make one."));
      gtk_widget_set_sensitive (GTK_WIDGET (self->entry), FALSE);
      return;
    }
  show_point (self, point);
  show_limit (self, result);
  bond_limit_bar_set_bounds (self->limit_bar, result->bounds);
  show_earlier (self);
  show_before (self, result);
  bond_history_list_show (self->history, bond_walk_get_survey (self->walk), point, result);
  bond_reading_panel_refresh_entry (self);
}

/* What was recorded before and what comes next; after a jump only where the walk is now. */
static void
speak_point (BondReadingPanel *self)
{
  BondPoint *point = bond_walk_get_point (self->walk);
  const char *place = bond_walk_get_place (self->walk);
  g_autofree char *words = NULL;

  if (point == NULL || (self->keep_words && self->spoken == NULL))
    return;
  words = self->spoken != NULL ? bond_spoken_next (point, place) : bond_spoken_point (point, place);
  if (self->spoken != NULL)
    bond_reading_panel_speak (self, words);
  else
    bond_reading_entry_say (self->entry, words);
}

static void
current_changed_cb (BondReadingPanel *self)
{
  if (!self->keep_words)
    bond_reading_panel_say (self, NULL, NULL);
  refresh (self);
  speak_point (self);
}

static void
point_changed_cb (BondReadingPanel *self, BondPoint *point)
{
  if (point == bond_walk_get_point (self->walk))
    refresh (self);
}

static void
bond_reading_panel_dispose (GObject *object)
{
  BondReadingPanel *self = BOND_READING_PANEL (object);

  if (self->walk != NULL)
    {
      g_signal_handlers_disconnect_by_data (bond_walk_get_survey (self->walk), self);
      g_signal_handlers_disconnect_by_data (self->walk, self);
    }
  g_clear_pointer (&self->box, gtk_widget_unparent);
  g_clear_object (&self->walk);
  g_clear_pointer (&self->spoken, g_free);
  G_OBJECT_CLASS (bond_reading_panel_parent_class)->dispose (object);
}

#define BIND(name) gtk_widget_class_bind_template_child (widget_class, BondReadingPanel, name)

static void
bind_rows (GtkWidgetClass *widget_class)
{
  BIND (limit_box);
  BIND (limit_rule);
  BIND (limit_name);
  BIND (limit_detail);
  BIND (limit_value);
  BIND (source_label);
  BIND (forward_box);
  BIND (forward_rule);
  BIND (forward_name);
  BIND (forward_detail);
  BIND (forward_value);
  BIND (mean_box);
  BIND (mean_rule);
  BIND (mean_name);
  BIND (mean_detail);
  BIND (mean_value);
}

static void
bind_parts (GtkWidgetClass *widget_class)
{
  BIND (box);
  BIND (content);
  BIND (field);
  BIND (foot);
  BIND (history_box);
  BIND (number_label);
  BIND (in_zone_label);
  BIND (class_label);
  BIND (ends_label);
  BIND (where_label);
  BIND (point_mark);
  BIND (class_sign);
  BIND (verdict_mark);
  BIND (place_drop);
  BIND (direction_label);
  BIND (verdict_label);
  BIND (unit_label);
  BIND (say_label);
  BIND (record_label);
  BIND (state_label);
  BIND (entry);
  BIND (unit_button);
  BIND (state_button);
  BIND (ask_box);
  BIND (verbs);
  BIND (limit_bar);
  BIND (record_button);
  BIND (record_key);
}

static void
bond_reading_panel_class_init (BondReadingPanelClass *klass)
{
  GtkWidgetClass *widget_class = GTK_WIDGET_CLASS (klass);

  g_type_ensure (BOND_TYPE_MARK_IMAGE);
  g_type_ensure (BOND_TYPE_READING_ENTRY);
  g_type_ensure (BOND_TYPE_LIMIT_BAR);
  G_OBJECT_CLASS (klass)->dispose = bond_reading_panel_dispose;
  widget_class->focus = bond_reading_panel_focus;
  gtk_widget_class_set_template_from_resource (widget_class, BOND_UI "reading-panel.ui");
  bind_rows (widget_class);
  bind_parts (widget_class);
}

/* In an empty field with the focus the caret is the prompt; beside a placeholder it would stand behind the words. */
static void
focus_cb (BondReadingPanel *self)
{
  gboolean focused = gtk_event_controller_focus_contains_focus (self->field_focus);

  gtk_entry_set_placeholder_text (GTK_ENTRY (self->entry), focused ? NULL : _ ("Type a reading"));
}

static void
watch_focus (BondReadingPanel *self)
{
  GtkEventController *focus = gtk_event_controller_focus_new ();

  self->field_focus = GTK_EVENT_CONTROLLER_FOCUS (focus);
  g_signal_connect_swapped (focus, "notify::contains-focus", G_CALLBACK (focus_cb), self);
  gtk_widget_add_controller (GTK_WIDGET (self->entry), focus);
  focus_cb (self);
}

static void
bond_reading_panel_init (BondReadingPanel *self)
{
  gtk_widget_init_template (GTK_WIDGET (self));
  gtk_widget_add_css_class (GTK_WIDGET (self), "panel");
  bond_reading_panel_add_verbs (self);
  self->history = BOND_HISTORY_LIST (bond_history_list_new ());
  gtk_box_append (GTK_BOX (self->history_box), GTK_WIDGET (self->history));
  g_signal_connect_swapped (self->place_drop, "notify::selected", G_CALLBACK (place_selected_cb), self);
  watch_focus (self);
  bond_reading_panel_watch_room (self);
}

GtkWidget *
bond_reading_panel_new (BondWalk *walk)
{
  BondReadingPanel *self;

  g_return_val_if_fail (BOND_IS_WALK (walk), NULL);
  self = g_object_new (BOND_TYPE_READING_PANEL, NULL);
  self->walk = g_object_ref (walk);
  gtk_box_append (GTK_BOX (self->foot), bond_last_next_new (walk, GTK_ORIENTATION_VERTICAL));
  gtk_menu_button_set_popover (self->unit_button, bond_pinned_popover_new (walk));
  gtk_menu_button_set_popover (self->state_button, bond_pinned_popover_new (walk));
  bond_name_widget (self->state_button, _ ("Range and measuring state, pinned"));
  g_signal_connect_swapped (walk, "current-changed", G_CALLBACK (current_changed_cb), self);
  g_signal_connect_swapped (walk, "pinned-changed", G_CALLBACK (refresh), self);
  g_signal_connect_swapped (bond_walk_get_survey (walk), "point-changed", G_CALLBACK (point_changed_cb), self);
  bond_reading_panel_connect_entry (self);
  refresh (self);
  return GTK_WIDGET (self);
}

void
bond_reading_panel_grab_field (BondReadingPanel *self)
{
  g_return_if_fail (BOND_IS_READING_PANEL (self));
  gtk_entry_grab_focus_without_selecting (GTK_ENTRY (self->entry));
}

void
bond_reading_panel_type (BondReadingPanel *self, guint character)
{
  g_return_if_fail (BOND_IS_READING_PANEL (self));
  bond_reading_entry_inject (self->entry, character);
}

GtkEditable *
bond_reading_panel_get_entry (BondReadingPanel *self)
{
  g_return_val_if_fail (BOND_IS_READING_PANEL (self), NULL);
  return GTK_EDITABLE (self->entry);
}

const char *
bond_reading_panel_get_said (BondReadingPanel *self)
{
  g_return_val_if_fail (BOND_IS_READING_PANEL (self), NULL);
  return gtk_label_get_text (self->say_label);
}

const char *
bond_reading_panel_get_record_text (BondReadingPanel *self)
{
  g_return_val_if_fail (BOND_IS_READING_PANEL (self), NULL);
  return gtk_label_get_text (self->record_label);
}

void
bond_reading_panel_set_room (BondReadingPanel *self, gboolean low, gboolean foot)
{
  g_return_if_fail (BOND_IS_READING_PANEL (self));
  self->low = low;
  self->has_foot = foot;
  bond_limit_bar_set_numbers (self->limit_bar, !low);
  refresh (self);
}

void
bond_reading_panel_pop_unit (BondReadingPanel *self)
{
  g_return_if_fail (BOND_IS_READING_PANEL (self));
  gtk_menu_button_popup (self->unit_button);
}
