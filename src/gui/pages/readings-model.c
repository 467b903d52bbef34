/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * Rows are made once and only changed; a filter sets their flag "shown" in one pass
 * and then tells the list once, because three thousand single changes would cost
 * seconds.  Order is the table's, figures are the point's.
 */
#include "gui/pages/readings-model.h"
#include "gui/words.h"
#include <glib/gi18n-lib.h>

struct _BondReadingsModel
{
  GObject parent_instance;
  BondSurvey *survey;
  GListStore *rows; /* all, headers among them */
  GtkFilterListModel *list;
  GtkFilter *filter;
  GHashTable *of_point; /* BondPoint → GPtrArray of BondReadingsRow, borrowed */
  char *search;
  char *chosen[BOND_N_READINGS_CHOICES];
  int mark;
  gboolean grouped;
  guint counts[BOND_N_MARKS], total, shown;
  BondUnit unit; /* the one most rows have */
  gboolean mixed;
  gboolean stale, stale_rows; /* counts; the rows themselves */
  guint settle_source;
};

static guint counts_changed, choices_changed, units_changed, recorded;

G_DEFINE_FINAL_TYPE (BondReadingsModel, bond_readings_model, G_TYPE_OBJECT)

/* One row a choice: the key a row has in it. */
static const char *
class_key (BondReadingsRow *row)
{
  return bond_class_file_name (bond_point_get_spec (bond_readings_row_get_point (row))->klass);
}

static const struct
{
  const char *(*key) (BondReadingsRow *row);
} choices[BOND_N_READINGS_CHOICES] = {
  [BOND_READINGS_CLASS] = { class_key },
  [BOND_READINGS_ZONE] = { bond_readings_row_get_zone },
  [BOND_READINGS_METER] = { bond_readings_row_get_instrument },
};

static int
mark_of (BondReadingsModel *self, BondReadingsRow *row)
{
  return (int)bond_mark_for (bond_readings_row_get_result (row), bond_survey_get_rule (self->survey));
}

static gboolean
holds (const char *text, const char *search)
{
  g_autofree char *folded = text != NULL ? g_utf8_casefold (text, -1) : NULL;

  return folded != NULL && strstr (folded, search) != NULL;
}

static gboolean
is_found (BondReadingsModel *self, BondReadingsRow *row)
{
  const BondPointSpec *spec = bond_point_get_spec (bond_readings_row_get_point (row));

  if (self->search == NULL)
    return TRUE;
  return holds (spec->number, self->search) || holds (spec->from, self->search) || holds (spec->to, self->search)
         || holds (spec->zone, self->search) || holds (bond_readings_row_get_zone_name (row), self->search);
}

static gboolean
passes (BondReadingsModel *self, BondReadingsRow *row, int mark)
{
  if (self->mark != BOND_READINGS_ALL && mark != self->mark)
    return FALSE;
  for (int i = 0; i < BOND_N_READINGS_CHOICES; i++)
    if (self->chosen[i] != NULL && g_strcmp0 (choices[i].key (row), self->chosen[i]) != 0)
      return FALSE;
  return is_found (self, row);
}

static void
count_units (BondReadingsModel *self, const guint of_unit[BOND_N_UNITS])
{
  BondUnit most = BOND_UNIT_MILLIOHM;
  guint units = 0;

  for (int i = 0; i < BOND_N_UNITS; i++)
    {
      units += of_unit[i] > 0;
      if (of_unit[i] > of_unit[most])
        most = i;
    }
  if (most == self->unit && (units > 1) == self->mixed)
    return;
  self->unit = most;
  self->mixed = units > 1;
  g_signal_emit (self, units_changed, 0);
}

/* One pass over all rows: flags, counts, how many stand under each header. */
static void
apply (BondReadingsModel *self)
{
  guint n = g_list_model_get_n_items (G_LIST_MODEL (self->rows));
  BondReadingsRow *header = NULL;
  guint under = 0, of_unit[BOND_N_UNITS] = { 0 };
  gboolean other = FALSE;

  memset (self->counts, 0, sizeof self->counts);
  self->total = self->shown = 0;
  for (guint i = 0; i <= n; i++)
    {
      g_autoptr (BondReadingsRow) row = i < n ? g_list_model_get_item (G_LIST_MODEL (self->rows), i) : NULL;
      gboolean shown;
      int mark;

      if (row == NULL || bond_readings_row_get_point (row) == NULL)
        {
          if (header != NULL)
            other = bond_readings_row_set_shown (header, self->grouped && under > 0) || other;
          if (header != NULL)
            bond_readings_row_set_count (header, under);
          header = row; /* the store holds it */
          under = 0;
          continue;
        }
      mark = mark_of (self, row);
      shown = passes (self, row, mark);
      self->counts[mark]++;
      of_unit[bond_readings_row_get_unit (row)]++;
      self->total++;
      self->shown += shown;
      under += shown;
      other = bond_readings_row_set_shown (row, shown) || other;
    }
  self->stale = FALSE;
  count_units (self, of_unit);
  if (other)
    gtk_filter_changed (self->filter, GTK_FILTER_CHANGE_DIFFERENT);
  g_signal_emit (self, counts_changed, 0);
}

static void
add_point (BondReadingsModel *self, GPtrArray *rows, BondPoint *point)
{
  guint n_places = bond_point_get_places (point)->len;
  GPtrArray *own = g_ptr_array_new ();

  for (guint i = 0; i < n_places; i++)
    {
      g_ptr_array_add (rows, bond_readings_row_new (self->survey, point, i, rows->len));
      g_ptr_array_add (own, g_ptr_array_index (rows, rows->len - 1));
    }
  g_hash_table_insert (self->of_point, point, own);
}

static void
rebuild (BondReadingsModel *self)
{
  GListModel *points = G_LIST_MODEL (self->survey);
  g_autoptr (GPtrArray) rows = g_ptr_array_new_with_free_func (g_object_unref);
  const char *zone = NULL;

  g_hash_table_remove_all (self->of_point);
  for (guint i = 0; i < g_list_model_get_n_items (points); i++)
    {
      g_autoptr (BondPoint) point = g_list_model_get_item (points, i);
      const char *own = bond_point_get_spec (point)->zone;

      if (g_strcmp0 (own, zone) != 0)
        g_ptr_array_add (rows, bond_readings_row_new_zone (self->survey, own, rows->len));
      zone = own;
      add_point (self, rows, point);
    }
  self->stale_rows = FALSE;
  g_list_store_splice (self->rows, 0, g_list_model_get_n_items (G_LIST_MODEL (self->rows)), rows->pdata, rows->len);
  apply (self);
  g_signal_emit (self, choices_changed, 0);
}

void
bond_readings_model_settle (BondReadingsModel *self)
{
  g_return_if_fail (BOND_IS_READINGS_MODEL (self));
  g_clear_handle_id (&self->settle_source, g_source_remove);
  if (!self->stale && !self->stale_rows)
    return;
  if (self->stale_rows)
    rebuild (self);
  else
    apply (self);
  g_signal_emit (self, recorded, 0);
}

static gboolean
settle_cb (gpointer data)
{
  BondReadingsModel *self = data;

  self->settle_source = 0;
  bond_readings_model_settle (self);
  return G_SOURCE_REMOVE;
}

/* An entry may change every point, each with a signal of its own: one pass does for all. */
static void
settle_later (BondReadingsModel *self)
{
  if (self->settle_source == 0)
    self->settle_source = g_idle_add (settle_cb, self);
}

static void
points_changed_cb (BondReadingsModel *self)
{
  self->stale_rows = TRUE;
  settle_later (self);
}

/* A place more or less changes which rows there are. */
static void
point_changed_cb (BondSurvey *survey, BondPoint *point, BondReadingsModel *self)
{
  GPtrArray *own = g_hash_table_lookup (self->of_point, point);

  self->stale = TRUE;
  if (own == NULL || own->len != bond_point_get_places (point)->len)
    self->stale_rows = TRUE;
  else
    for (guint i = 0; i < own->len; i++)
      bond_readings_row_changed (g_ptr_array_index (own, i));
  settle_later (self);
}

static gboolean
shown_cb (gpointer item, gpointer data)
{
  return bond_readings_row_get_shown (BOND_READINGS_ROW (item));
}

static void
bond_readings_model_dispose (GObject *object)
{
  BondReadingsModel *self = BOND_READINGS_MODEL (object);

  g_clear_handle_id (&self->settle_source, g_source_remove);
  if (self->survey != NULL)
    g_signal_handlers_disconnect_by_data (self->survey, self);
  g_clear_object (&self->list);
  g_clear_object (&self->filter);
  g_clear_object (&self->rows);
  g_clear_pointer (&self->of_point, g_hash_table_unref);
  g_clear_object (&self->survey);
  g_clear_pointer (&self->search, g_free);
  for (int i = 0; i < BOND_N_READINGS_CHOICES; i++)
    g_clear_pointer (&self->chosen[i], g_free);
  G_OBJECT_CLASS (bond_readings_model_parent_class)->dispose (object);
}

static guint
new_signal (const char *name)
{
  return g_signal_new (name, BOND_TYPE_READINGS_MODEL, G_SIGNAL_RUN_LAST, 0, NULL, NULL, NULL, G_TYPE_NONE, 0);
}

static void
bond_readings_model_class_init (BondReadingsModelClass *klass)
{
  G_OBJECT_CLASS (klass)->dispose = bond_readings_model_dispose;
  counts_changed = new_signal ("counts-changed");
  choices_changed = new_signal ("choices-changed");
  units_changed = new_signal ("units-changed");
  recorded = new_signal ("recorded");
}

static void
bond_readings_model_init (BondReadingsModel *self)
{
  self->mark = BOND_READINGS_ALL;
  self->grouped = TRUE;
  self->unit = BOND_UNIT_MILLIOHM;
  self->rows = g_list_store_new (BOND_TYPE_READINGS_ROW);
  self->of_point = g_hash_table_new_full (NULL, NULL, NULL, (GDestroyNotify)g_ptr_array_unref);
  self->filter = GTK_FILTER (gtk_custom_filter_new (shown_cb, NULL, NULL));
  self->list = gtk_filter_list_model_new (g_object_ref (G_LIST_MODEL (self->rows)), g_object_ref (self->filter));
}

BondReadingsModel *
bond_readings_model_new (BondSurvey *survey)
{
  BondReadingsModel *self;

  g_return_val_if_fail (BOND_IS_SURVEY (survey), NULL);
  self = g_object_new (BOND_TYPE_READINGS_MODEL, NULL);
  self->survey = g_object_ref (survey);
  g_signal_connect_swapped (survey, "items-changed", G_CALLBACK (points_changed_cb), self);
  g_signal_connect (survey, "point-changed", G_CALLBACK (point_changed_cb), self);
  rebuild (self);
  return self;
}

BondSurvey *
bond_readings_model_get_survey (BondReadingsModel *self)
{
  g_return_val_if_fail (BOND_IS_READINGS_MODEL (self), NULL);
  return self->survey;
}

GListModel *
bond_readings_model_get_list (BondReadingsModel *self)
{
  g_return_val_if_fail (BOND_IS_READINGS_MODEL (self), NULL);
  return G_LIST_MODEL (self->list);
}

BondUnit
bond_readings_model_get_unit (BondReadingsModel *self, gboolean *mixed)
{
  g_return_val_if_fail (BOND_IS_READINGS_MODEL (self), BOND_UNIT_MILLIOHM);
  *mixed = self->mixed;
  return self->unit;
}

void
bond_readings_model_set_grouped (BondReadingsModel *self, gboolean grouped)
{
  g_return_if_fail (BOND_IS_READINGS_MODEL (self));
  if (self->grouped == grouped)
    return;
  self->grouped = grouped;
  apply (self);
}

void
bond_readings_model_set_search (BondReadingsModel *self, const char *text)
{
  g_autofree char *stripped = NULL;

  g_return_if_fail (BOND_IS_READINGS_MODEL (self));
  stripped = g_strstrip (g_strdup (text != NULL ? text : ""));
  g_free (self->search);
  self->search = *stripped != '\0' ? g_utf8_casefold (stripped, -1) : NULL;
  apply (self);
}

void
bond_readings_model_set_mark (BondReadingsModel *self, int mark)
{
  g_return_if_fail (BOND_IS_READINGS_MODEL (self) && mark >= BOND_READINGS_ALL && mark < BOND_N_MARKS);
  self->mark = mark;
  apply (self);
}

void
bond_readings_model_set_choice (BondReadingsModel *self, BondReadingsChoice choice, const char *key)
{
  g_autofree char *copy = g_strdup (key);

  g_return_if_fail (BOND_IS_READINGS_MODEL (self) && (guint)choice < BOND_N_READINGS_CHOICES);
  g_free (self->chosen[choice]);
  self->chosen[choice] = g_steal_pointer (&copy);
  apply (self);
}

void
bond_readings_model_clear (BondReadingsModel *self)
{
  g_return_if_fail (BOND_IS_READINGS_MODEL (self));
  self->mark = BOND_READINGS_ALL;
  for (int i = 0; i < BOND_N_READINGS_CHOICES; i++)
    g_clear_pointer (&self->chosen[i], g_free);
  bond_readings_model_set_search (self, NULL);
}

static int
compare_keys (gconstpointer a, gconstpointer b)
{
  return g_strcmp0 (*(const char *const *)a, *(const char *const *)b);
}

char **
bond_readings_model_get_keys (BondReadingsModel *self, BondReadingsChoice choice)
{
  g_autoptr (GHashTable) seen = g_hash_table_new (g_str_hash, g_str_equal);
  GPtrArray *keys = g_ptr_array_new ();

  g_return_val_if_fail (BOND_IS_READINGS_MODEL (self) && (guint)choice < BOND_N_READINGS_CHOICES, NULL);
  for (guint i = 0; i < g_list_model_get_n_items (G_LIST_MODEL (self->rows)); i++)
    {
      g_autoptr (BondReadingsRow) row = g_list_model_get_item (G_LIST_MODEL (self->rows), i);
      const char *key = bond_readings_row_get_point (row) != NULL ? choices[choice].key (row) : NULL;

      if (key != NULL && g_hash_table_add (seen, (gpointer)key))
        g_ptr_array_add (keys, g_strdup (key));
    }
  g_ptr_array_sort (keys, compare_keys);
  g_ptr_array_add (keys, NULL);
  return (char **)g_ptr_array_free (keys, FALSE);
}

char *
bond_readings_model_key_name (BondReadingsModel *self, BondReadingsChoice choice, const char *key)
{
  const BondAirframe *airframe;
  const BondZone *zone;
  BondClass klass;

  g_return_val_if_fail (BOND_IS_READINGS_MODEL (self) && key != NULL, NULL);
  if (choice == BOND_READINGS_CLASS && bond_class_parse (key, &klass))
    return g_strdup_printf ("%c  %s", bond_class_letter (klass), bond_class_name (klass));
  airframe = choice == BOND_READINGS_ZONE ? bond_survey_get_airframe (self->survey) : NULL;
  zone = airframe != NULL ? bond_airframe_find_zone (airframe, key) : NULL;
  return zone != NULL ? g_strdup_printf ("%s  %s", key, zone->name) : g_strdup (key);
}

guint
bond_readings_model_count (BondReadingsModel *self, int mark)
{
  g_return_val_if_fail (BOND_IS_READINGS_MODEL (self), 0);
  return mark == BOND_READINGS_ALL ? self->total : self->counts[mark];
}

guint
bond_readings_model_get_shown (BondReadingsModel *self)
{
  g_return_val_if_fail (BOND_IS_READINGS_MODEL (self), 0);
  return self->shown;
}

gboolean
bond_readings_model_get_measured (BondReadingsModel *self)
{
  g_return_val_if_fail (BOND_IS_READINGS_MODEL (self), FALSE);
  for (guint i = 0; i < g_list_model_get_n_items (G_LIST_MODEL (self->rows)); i++)
    {
      g_autoptr (BondReadingsRow) row = g_list_model_get_item (G_LIST_MODEL (self->rows), i);
      const BondPlaceResult *result = bond_readings_row_get_result (row);

      if (result != NULL && result->history->len > 0)
        return TRUE;
    }
  return FALSE;
}

static void
add_words (GString *text, const char *words)
{
  g_string_append_printf (text, "%s%s", text->len > 0 ? "; " : "", words);
}

char *
bond_readings_model_filter_words (BondReadingsModel *self)
{
  g_autoptr (GString) text = g_string_new (NULL);

  g_return_val_if_fail (BOND_IS_READINGS_MODEL (self), NULL);
  if (self->mark != BOND_READINGS_ALL)
    add_words (text, bond_mark_name (self->mark));
  for (int i = 0; i < BOND_N_READINGS_CHOICES; i++)
    if (self->chosen[i] != NULL)
      {
        g_autofree char *name = bond_readings_model_key_name (self, i, self->chosen[i]);

        add_words (text, name);
      }
  if (self->search != NULL)
    {
      g_autofree char *quoted = g_strdup_printf (_ ("“%s”"), self->search);

      add_words (text, quoted);
    }
  return text->len > 0 ? g_string_free (g_steal_pointer (&text), FALSE) : NULL;
}
