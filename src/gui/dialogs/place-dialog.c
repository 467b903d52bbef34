/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * From a click on the diagram to a `point` entry.  Where the view draws only a zone
 * of a higher level its children are offered; coordinates come from the axes of the
 * view, and the one it does not show may be typed.
 */
#include "gui/dialogs/place-dialog.h"
#include "core/number.h"
#include "gui/dialog.h"
#include <glib/gi18n-lib.h>
#include <math.h>

#define N_COORDINATES 3
#define MAX_PLACES 24

typedef struct
{
  BondWalk *walk;
  char *drawn_zone, *view;
  double x, y;
  GPtrArray *zones;  /* of BondZone, borrowed from the airframe */
  GPtrArray *limits; /* of char* "SET/CODE"; the first is NULL: default row of the class */
  GtkDropDown *zone, *klass, *limit;
  GtkEditable *number, *from, *to, *coordinate[N_COORDINATES], *places;
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

/* A coordinate may be left out; what is there must be a number with either mark.  A side is as good as a sign: "L 170"
 * is −170. */
static gboolean
read_coordinate (GtkEditable *editable, BondAxisName axis, BondCoordinate *coordinate)
{
  g_autofree char *text = bond_dialog_text (editable);
  char side = axis == BOND_AXIS_BL && text != NULL ? g_ascii_toupper (text[0]) : '\0';
  const char *digits = text;

  *coordinate = (BondCoordinate){ FALSE, 0 };
  if (text == NULL)
    return TRUE;
  g_strdelimit (text, ",", '.');
  if (side == 'L' || side == 'R')
    digits = g_strchug (text + 1);
  coordinate->known = bond_number_parse (digits, &coordinate->value) && (digits == text || coordinate->value >= 0.0);
  if (side == 'L')
    coordinate->value = -coordinate->value;
  return coordinate->known;
}

/* As the panel shows it: "L 679.3"; station and water line are plain numbers here, for their label names them. */
static char *
coordinate_text (BondAxisName axis, const BondCoordinate *coordinate)
{
  char digits[G_ASCII_DTOSTR_BUF_SIZE];

  if (!coordinate->known)
    return NULL;
  if (axis == BOND_AXIS_BL && fabs (coordinate->value) >= 0.05)
    return bond_coordinate_format (axis, coordinate, bond_locale_mark ());
  return g_strdelimit (g_strdup (g_ascii_formatd (digits, sizeof digits, "%.1f", coordinate->value)), ".",
                       bond_locale_mark ());
}

static int
read_places (const Form *form)
{
  g_autofree char *text = bond_dialog_text (form->places);
  guint64 n;

  if (text == NULL)
    return 1;
  return g_ascii_string_to_unsigned (text, 10, 1, MAX_PLACES, &n, NULL) ? (int)n : 0;
}

static char *
upper_number (const Form *form)
{
  g_autofree char *typed = bond_dialog_text (form->number);

  return typed != NULL ? g_ascii_strup (typed, -1) : NULL;
}

static const char *
find_problem (Form *form, BondPointSpec *spec)
{
  BondCoordinate *coordinate[N_COORDINATES] = { &spec->sta, &spec->bl, &spec->wl };
  g_autofree char *number = upper_number (form);

  if (spec->from == NULL || spec->to == NULL)
    return _ ("Name both ends of the bond.");
  if (number == NULL || strchr (number, '-') == NULL)
    return _ ("The number needs a hyphen, such as 541-J04.");
  if (bond_survey_find_number (survey_of (form), number) != NULL)
    return _ ("There is a point of that number already.");
  for (int axis = 0; axis < N_COORDINATES; axis++)
    if (!read_coordinate (form->coordinate[axis], (BondAxisName)axis, coordinate[axis]))
      return _ ("A coordinate is not a number. Leave it empty when it is not known.");
  if (read_places (form) == 0)
    return _ ("A point has 1 to 24 places.");
  return NULL;
}

static BondPointSpec *
new_spec (Form *form)
{
  BondSurvey *survey = survey_of (form);
  g_autofree char *id = bond_source_id (bond_survey_get_source (survey), "q-");
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
  bond_point_spec_add_placement (spec, form->view, form->x, form->y, TRUE,
                                 g_strcmp0 (zone->number, form->drawn_zone) != 0 ? form->drawn_zone : NULL);
  return spec;
}

static void
record_places (Form *form, const char *point, int n)
{
  for (int i = 1; n > 1 && i <= n; i++)
    {
      BondEntry *entry = bond_entry_new (BOND_ENTRY_PLACE);

      entry->point = g_strdup (point);
      entry->place = g_strdup_printf ("p%d", i);
      entry->place_spec.label = g_strdup_printf ("%d", i);
      entry->place_spec.in_sample = TRUE;
      bond_walk_record_entry (form->walk, entry);
    }
}

static gboolean
place_act (BondDialog *dialog, gpointer data)
{
  Form *form = data;
  g_autoptr (BondPointSpec) spec = new_spec (form);
  const char *problem = find_problem (form, spec);
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
  record_places (form, spec->id, read_places (form));
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
      g_autofree char *text = coordinate_text ((BondAxisName)axis, &coordinate[axis]);

      form->coordinate[axis] = bond_dialog_add_entry (dialog, bond_axis_symbol (axis), text);
    }
}

BondDialog *
bond_place_dialog (GtkWindow *parent, BondWalk *walk, const char *zone, const char *view, double x, double y)
{
  const char *classes[BOND_N_CLASSES + 1] = { NULL };
  BondDialog *dialog;
  Form *form;

  g_return_val_if_fail (BOND_IS_WALK (walk) && zone != NULL && view != NULL, NULL);
  form = g_new0 (Form, 1);
  x = tenth (x);
  y = tenth (y);
  *form = (Form){ .walk = g_object_ref (walk), .drawn_zone = g_strdup (zone), .view = g_strdup (view), .x = x, .y = y };
  form->limits = g_ptr_array_new_with_free_func (g_free);
  collect_zones (form);
  if (form->zones->len == 0)
    {
      form_free (form);
      return NULL;
    }
  dialog = bond_dialog_new (parent, _ ("New Point"), _ ("Place Point"), place_act, form, form_free);
  for (int klass = 0; klass < BOND_N_CLASSES; klass++)
    classes[klass] = bond_class_name (klass);
  form->from = bond_dialog_add_entry (dialog, _ ("_From"), NULL);
  form->to = bond_dialog_add_entry (dialog, _ ("_To"), NULL);
  form->klass = bond_dialog_add_choice (dialog, _ ("_Class"), classes, 0);
  form->limit = bond_dialog_add_choice (dialog, _ ("_Limit row"), (const char *[]){ NULL }, 0);
  add_zones (dialog, form);
  form->number = bond_dialog_add_entry (dialog, _ ("_Number"), NULL);
  add_coordinates (dialog, form);
  form->places = bond_dialog_add_entry (dialog, _ ("_Places (bolts, legs)"), "1");
  g_signal_connect_swapped (form->number, "changed", G_CALLBACK (number_changed_cb), form);
  g_signal_connect_swapped (form->klass, "notify::selected", G_CALLBACK (class_changed_cb), form);
  g_signal_connect_swapped (form->zone, "notify::selected", G_CALLBACK (zone_changed_cb), form);
  class_changed_cb (form);
  zone_changed_cb (form);
  gtk_window_present (GTK_WINDOW (dialog));
  gtk_widget_grab_focus (GTK_WIDGET (form->from));
  return dialog;
}

/* Placements of other views show where the point was; only the coordinates that this view gives are changed. */
static void
move_spec (BondPointSpec *spec, const BondView *view, const char *drawn_zone, double x, double y)
{
  BondCoordinate sta = { FALSE, 0 }, bl = { FALSE, 0 }, wl = { FALSE, 0 };

  for (guint i = spec->placements->len; i-- > 0;)
    if (g_strcmp0 (((BondPlacement *)g_ptr_array_index (spec->placements, i))->view, view->id) == 0)
      g_ptr_array_remove_index (spec->placements, i);
  for (guint i = 0; i < spec->placements->len; i++)
    ((BondPlacement *)g_ptr_array_index (spec->placements, i))->home = FALSE;
  bond_point_spec_add_placement (spec, view->id, x, y, TRUE, drawn_zone);
  bond_view_coordinates (view, x, y, &sta, &bl, &wl);
  if (sta.known)
    spec->sta = sta;
  if (bl.known)
    spec->bl = bl;
  if (wl.known)
    spec->wl = wl;
}

gboolean
bond_place_move (BondWalk *walk, BondPoint *point, const char *view_id, double x, double y, char **problem)
{
  const BondAirframe *airframe = bond_survey_get_airframe (bond_walk_get_survey (walk));
  const BondView *view = airframe != NULL ? bond_airframe_find_view (airframe, view_id) : NULL;
  const BondZoneShape *shape = view != NULL ? bond_view_hit (view, x, y) : NULL;
  const BondPointSpec *old = bond_point_get_spec (point);
  g_autoptr (BondPointSpec) spec = NULL;
  BondEntry *entry;

  *problem = NULL;
  x = tenth (x);
  y = tenth (y);
  if (shape == NULL)
    {
      *problem = g_strdup (_ ("There is no zone at that place. The point stays where it was."));
      return FALSE;
    }
  if (!bond_airframe_is_within (airframe, old->zone, shape->zone)
      && !bond_airframe_is_within (airframe, shape->zone, old->zone))
    {
      *problem
          = g_strdup_printf (_ ("%s belongs to zone %s; its number says so. Place a new point in zone %s instead."),
                             old->number, old->zone, shape->zone);
      return FALSE;
    }
  spec = bond_point_spec_copy (old);
  move_spec (spec, view, g_strcmp0 (shape->zone, old->zone) != 0 ? shape->zone : NULL, x, y);
  entry = bond_entry_new (BOND_ENTRY_POINT);
  entry->point = g_strdup (old->id);
  entry->spec = g_steal_pointer (&spec);
  bond_walk_record_entry (walk, entry);
  return TRUE;
}
