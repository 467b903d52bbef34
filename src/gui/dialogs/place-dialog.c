/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * From a click on the diagram to a `point` entry.  Where the view draws only a zone
 * of a higher level its children are offered; coordinates come from the axes of the
 * view, and the one it does not show may be typed.
 */
#include "gui/dialogs/place-dialog.h"
#include "gui/dialog.h"
#include "gui/dialogs/place-spec.h"
#include <glib/gi18n-lib.h>
#include <math.h>

#define N_COORDINATES 3

typedef struct
{
  BondWalk *walk;
  BondDialog *dialog;
  char *drawn_zone, *view;
  double x, y;
  GPtrArray *zones;  /* of BondZone, borrowed from the airframe */
  GPtrArray *limits; /* of char* "SET/CODE"; the first is NULL: default row of the class */
  GtkDropDown *zone, *klass, *limit;
  GtkEditable *number, *from, *to, *coordinate[N_COORDINATES], *why, *panel;
  GtkEditable *places, *every;
  GtkDropDown *labels, *arrangement;
  GtkCheckButton *widen, *independent, *explosive;
  GtkLabel *side;
  gboolean number_typed, filling;
} Form;

static void
form_free (gpointer data)
{
  Form *form = data;

  g_clear_object (&form->walk);
  g_clear_pointer (&form->zones, g_ptr_array_unref);
  g_clear_pointer (&form->limits, g_ptr_array_unref);
  g_free (form->drawn_zone);
  g_free (form->view);
  g_free (form);
}

/* A tenth of a view unit is finer than any hand; more digits would only look exact. */
static double
tenth (double value)
{
  return round (value * 10) / 10;
}

static BondSurvey *
survey_of (const Form *form)
{
  return bond_walk_get_survey (form->walk);
}

static const BondZone *
chosen_zone (const Form *form)
{
  return g_ptr_array_index (form->zones, gtk_drop_down_get_selected (form->zone));
}

static GHashTable *
numbers_in_use (BondSurvey *survey)
{
  GHashTable *used = g_hash_table_new_full (g_str_hash, g_str_equal, g_free, NULL);

  for (guint i = 0; i < g_list_model_get_n_items (G_LIST_MODEL (survey)); i++)
    {
      g_autoptr (BondPoint) point = g_list_model_get_item (G_LIST_MODEL (survey), i);

      g_hash_table_add (used, g_strdup (bond_point_get_number (point)));
    }
  return used;
}

static void
propose_number (Form *form)
{
  g_autoptr (GHashTable) used = numbers_in_use (survey_of (form));
  g_autofree char *number = NULL;

  if (form->number_typed)
    return;
  number = bond_airframe_next_number (chosen_zone (form)->number, gtk_drop_down_get_selected (form->klass), used);
  form->filling = TRUE;
  gtk_editable_set_text (form->number, number);
  form->filling = FALSE;
}

static void
number_changed_cb (Form *form)
{
  form->number_typed |= !form->filling;
}

static void
zone_changed_cb (Form *form)
{
  g_autofree char *words = g_strdup_printf (_ ("Side: %s"), bond_side_name (chosen_zone (form)->side));

  gtk_label_set_text (form->side, words);
  propose_number (form);
}

static void
add_limits (Form *form, const BondLimitSet *set, BondClass klass, GtkStringList *names)
{
  for (guint i = 0; i < set->rows->len; i++)
    {
      const BondLimitRow *row = g_ptr_array_index (set->rows, i);
      g_autofree char *bounds = NULL;
      g_autofree char *name = NULL;

      if (row->klass != BOND_CLASS_ANY && row->klass != (int)klass)
        continue;
      bounds = bond_bounds_format (&row->in_service, bond_locale_mark (), TRUE);
      name = g_strdup_printf ("%s/%s  %s  %s", set->id, row->code, bounds, row->covers != NULL ? row->covers : "");
      gtk_string_list_append (names, name);
      g_ptr_array_add (form->limits, g_strdup_printf ("%s/%s", set->id, row->code));
    }
}

static void
class_changed_cb (Form *form)
{
  g_autoptr (GtkStringList) names = gtk_string_list_new (NULL);
  GPtrArray *sets = bond_survey_get_limit_sets (survey_of (form));
  BondClass klass = gtk_drop_down_get_selected (form->klass);

  g_ptr_array_set_size (form->limits, 0);
  g_ptr_array_add (form->limits, NULL);
  gtk_string_list_append (names, _ ("Default row of the class"));
  for (guint i = 0; i < sets->len; i++)
    add_limits (form, g_ptr_array_index (sets, i), klass, names);
  gtk_drop_down_set_model (form->limit, G_LIST_MODEL (names));
  propose_number (form);
}

static char *
upper_number (const Form *form)
{
  g_autofree char *typed = bond_dialog_text (form->number);

  return typed != NULL ? g_ascii_strup (typed, -1) : NULL;
}

static int
count_of (const Form *form)
{
  g_autofree char *text = bond_dialog_text (form->places);

  return bond_place_read_count (text);
}

static int
every_of (const Form *form)
{
  g_autofree char *text = bond_dialog_text (form->every);

  return count_of (form) > 1 ? bond_place_read_every (text, count_of (form)) : 1;
}

static gboolean
read_coordinates (const Form *form, BondPointSpec *spec)
{
  BondCoordinate *coordinate[N_COORDINATES] = { &spec->sta, &spec->bl, &spec->wl };

  for (int axis = 0; axis < N_COORDINATES; axis++)
    {
      g_autofree char *text = bond_dialog_text (form->coordinate[axis]);

      if (!bond_place_read_coordinate (text, (BondAxisName)axis, coordinate[axis]))
        return FALSE;
    }
  return TRUE;
}

/* @must_be_whole FALSE while the form is being filled in: what is still empty is no mistake yet. */
static const char *
find_problem (Form *form, BondPointSpec *spec, gboolean must_be_whole)
{
  g_autofree char *number = upper_number (form);

  if (must_be_whole && (spec->from == NULL || spec->to == NULL))
    return _ ("Name both ends of the bond.");
  if (number == NULL ? must_be_whole : strchr (number, '-') == NULL)
    return _ ("The number needs a hyphen, such as 541-J04.");
  if (number != NULL && bond_survey_find_number (survey_of (form), number) != NULL)
    return _ ("There is a point of that number already.");
  if (!read_coordinates (form, spec))
    return _ ("A coordinate is not a number. Leave it empty when it is not known.");
  if (count_of (form) == 0)
    return _ ("A point has 1 to 60 places.");
  if (every_of (form) == 0)
    return _ ("Ask every place (1), or every n-th of as many as there are.");
  return NULL;
}

static BondPointSpec *
new_spec (Form *form, const char *id)
{
  g_autofree char *number = upper_number (form);
  const BondZone *zone = chosen_zone (form);
  const char *limit = g_ptr_array_index (form->limits, gtk_drop_down_get_selected (form->limit));
  BondPointSpec *spec
      = bond_point_spec_new (id, number != NULL ? number : "", gtk_drop_down_get_selected (form->klass), zone->number);

  g_free (spec->from);
  g_free (spec->to);
  spec->from = bond_dialog_text (form->from);
  spec->to = bond_dialog_text (form->to);
  spec->limit = g_strdup (limit);
  spec->why = bond_dialog_text (form->why);
  spec->panel = bond_dialog_text (form->panel);
  spec->needs_independent = gtk_check_button_get_active (form->independent);
  spec->hazards = gtk_check_button_get_active (form->explosive) ? BOND_HAZARD_EXPLOSIVE : 0;
  if (count_of (form) > 1)
    {
      spec->arrangement = (BondArrangement)gtk_drop_down_get_selected (form->arrangement);
      spec->sample_every = every_of (form) > 1 ? every_of (form) : 0;
      spec->widen = gtk_check_button_get_active (form->widen);
    }
  bond_point_spec_add_placement (spec, form->view, form->x, form->y, TRUE,
                                 g_strcmp0 (zone->number, form->drawn_zone) != 0 ? form->drawn_zone : NULL);
  return spec;
}

static void
record_places (Form *form, const char *point)
{
  BondSource *source = bond_survey_get_source (survey_of (form));
  BondPlaceLabels labels = (BondPlaceLabels)gtk_drop_down_get_selected (form->labels);
  guint n = (guint)count_of (form);

  for (guint i = 0; n > 1 && i < n; i++)
    {
      BondEntry *entry = bond_entry_new (BOND_ENTRY_PLACE);

      entry->point = g_strdup (point);
      entry->place = bond_source_id (source, "b-");
      entry->place_spec.label = bond_place_label (labels, i);
      entry->place_spec.in_sample = bond_place_is_asked (i, every_of (form));
      bond_walk_record_entry (form->walk, entry);
    }
}

/* Of a single place none of that can be said. */
static void
show_group (Form *form)
{
  GtkWidget *parts[] = { GTK_WIDGET (form->labels), GTK_WIDGET (form->arrangement), GTK_WIDGET (form->every),
                         GTK_WIDGET (form->widen) };

  for (gsize i = 0; i < G_N_ELEMENTS (parts); i++)
    gtk_widget_set_sensitive (parts[i], count_of (form) > 1);
}

/* Said as soon as it is typed, not only when the act is chosen. */
static void
check_cb (Form *form)
{
  g_autoptr (BondPointSpec) spec = new_spec (form, "q-unsaid");

  show_group (form);
  bond_dialog_set_problem (form->dialog, find_problem (form, spec, FALSE));
}

static gboolean
place_act (BondDialog *dialog, gpointer data)
{
  Form *form = data;
  g_autofree char *id = bond_source_id (bond_survey_get_source (survey_of (form)), "q-");
  g_autoptr (BondPointSpec) spec = new_spec (form, id);
  const char *problem = find_problem (form, spec, TRUE);
  BondEntry *entry;

  if (problem != NULL)
    {
      bond_dialog_set_problem (dialog, problem);
      return FALSE;
    }
  entry = bond_entry_new (BOND_ENTRY_POINT);
  entry->point = g_strdup (spec->id);
  entry->spec = bond_point_spec_ref (spec);
  bond_walk_record_entry (form->walk, entry);
  record_places (form, spec->id);
  return TRUE;
}

static void
collect_zones (Form *form)
{
  const BondAirframe *airframe = bond_survey_get_airframe (survey_of (form));
  const BondZone *drawn = bond_airframe_find_zone (airframe, form->drawn_zone);

  form->zones = bond_airframe_children (airframe, form->drawn_zone);
  if (form->zones->len == 0 && drawn != NULL)
    g_ptr_array_add (form->zones, (gpointer)drawn);
}

static void
add_zones (BondDialog *dialog, Form *form)
{
  g_autoptr (GPtrArray) names = g_ptr_array_new_with_free_func (g_free);

  for (guint i = 0; i < form->zones->len; i++)
    {
      const BondZone *zone = g_ptr_array_index (form->zones, i);

      g_ptr_array_add (names, g_strdup_printf ("%s  %s", zone->number, zone->name));
    }
  g_ptr_array_add (names, NULL);
  form->zone = bond_dialog_add_choice (dialog, _ ("_Zone"), (const char *const *)names->pdata, 0);
  form->side = bond_dialog_add_text (dialog, "");
}

static void
add_coordinates (BondDialog *dialog, Form *form)
{
  const BondView *view = bond_airframe_find_view (bond_survey_get_airframe (survey_of (form)), form->view);
  BondCoordinate coordinate[N_COORDINATES] = { { FALSE, 0 } };

  if (view != NULL)
    bond_view_coordinates (view, form->x, form->y, &coordinate[0], &coordinate[1], &coordinate[2]);
  for (int axis = 0; axis < N_COORDINATES; axis++)
    {
      g_autofree char *text = bond_place_coordinate_text ((BondAxisName)axis, &coordinate[axis], bond_locale_mark ());

      form->coordinate[axis] = bond_dialog_add_entry (dialog, bond_axis_symbol (axis), text);
    }
}

/* How many places, what they are called, how they lie, and which are asked. */
static void
add_group (BondDialog *dialog, Form *form)
{
  const char *const labels[] = { _ ("1, 2, 3 …"), _ ("a, b, c …"), NULL };
  const char *const arrangements[]
      = { _ ("In a row"), _ ("In a ring"), _ ("Legs of one strap"), NULL }; /* in the order of BondArrangement */

  bond_dialog_add_heading (dialog, _ ("Places"));
  form->places = bond_dialog_add_entry (dialog, _ ("_Places (bolts, legs)"), "1");
  form->labels = bond_dialog_add_choice (dialog, _ ("Place la_bels"), labels, 0);
  form->arrangement = bond_dialog_add_choice (dialog, _ ("_Arrangement"), arrangements, 0);
  form->every = bond_dialog_add_entry (dialog, _ ("Ask _every n-th"), "1");
  form->widen = bond_dialog_add_mnemonic_check (dialog, _ ("A reject asks for _all places"), TRUE);
}

static void
add_more (BondDialog *dialog, Form *form)
{
  bond_dialog_add_heading (dialog, _ ("More"));
  form->why = bond_dialog_add_entry (dialog, _ ("P_urpose"), NULL);
  form->panel = bond_dialog_add_entry (dialog, _ ("Access pa_nel"), NULL);
  form->independent = bond_dialog_add_mnemonic_check (dialog, _ ("_Independent inspection asked"), FALSE);
  form->explosive = bond_dialog_add_mnemonic_check (dialog, _ ("Electro-e_xplosive devices near"), FALSE);
}

static void
add_what (BondDialog *dialog, Form *form)
{
  const char *classes[BOND_N_CLASSES + 1] = { NULL };

  for (int klass = 0; klass < BOND_N_CLASSES; klass++)
    classes[klass] = bond_class_name (klass);
  form->from = bond_dialog_add_entry (dialog, _ ("_From"), NULL);
  form->to = bond_dialog_add_entry (dialog, _ ("_To"), NULL);
  form->klass = bond_dialog_add_choice (dialog, _ ("_Class"), classes, 0);
  form->limit = bond_dialog_add_choice (dialog, _ ("_Limit row"), (const char *[]){ NULL }, 0);
  add_zones (dialog, form);
  form->number = bond_dialog_add_entry (dialog, _ ("_Number"), NULL);
  add_coordinates (dialog, form);
}

static void
connect_form (Form *form)
{
  GtkEditable *checked[]
      = { form->number, form->coordinate[0], form->coordinate[1], form->coordinate[2], form->places, form->every };

  g_signal_connect_swapped (form->number, "changed", G_CALLBACK (number_changed_cb), form);
  g_signal_connect_swapped (form->klass, "notify::selected", G_CALLBACK (class_changed_cb), form);
  g_signal_connect_swapped (form->zone, "notify::selected", G_CALLBACK (zone_changed_cb), form);
  class_changed_cb (form);
  zone_changed_cb (form);
  for (gsize i = 0; i < G_N_ELEMENTS (checked); i++)
    g_signal_connect_swapped (checked[i], "changed", G_CALLBACK (check_cb), form);
  show_group (form);
}

BondDialog *
bond_place_dialog (GtkWindow *parent, BondWalk *walk, const char *zone, const char *view, double x, double y)
{
  BondDialog *dialog;
  Form *form;

  g_return_val_if_fail (BOND_IS_WALK (walk) && zone != NULL && view != NULL, NULL);
  form = g_new0 (Form, 1);
  *form = (Form){
    .walk = g_object_ref (walk), .drawn_zone = g_strdup (zone), .view = g_strdup (view), .x = tenth (x), .y = tenth (y)
  };
  form->limits = g_ptr_array_new_with_free_func (g_free);
  collect_zones (form);
  if (form->zones->len == 0)
    {
      form_free (form);
      return NULL;
    }
  dialog = form->dialog = bond_dialog_new (parent, _ ("New Point"), _ ("Place Point"), place_act, form, form_free);
  add_what (dialog, form);
  add_group (dialog, form);
  add_more (dialog, form);
  connect_form (form);
  gtk_window_present (GTK_WINDOW (dialog));
  gtk_widget_grab_focus (GTK_WIDGET (form->from));
  return dialog;
}
