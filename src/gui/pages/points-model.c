/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * Zone headers and points in one list.  Items are kept while the survey lives and
 * only changed, so that a new reading never makes the list jump; the list itself
 * is spliced anew only when points come or a filter changes.
 */
#include "gui/pages/points-model.h"
#include <glib/gi18n-lib.h>

struct _BondPointsItem
{
  GObject parent_instance;
  BondPoint *point;
  char *zone, *name;
  guint done, of;
  gboolean folded;
};

struct _BondPointsModel
{
  GObject parent_instance;
  BondSurvey *survey;
  GListStore *list;
  GHashTable *items; /* BondPoint → BondPointsItem */
  GHashTable *zones; /* zone number → BondPointsItem */
  char *search;
  BondPointsFilter filter;
  guint shown;
};

static guint item_changed, counts_changed;

G_DEFINE_FINAL_TYPE (BondPointsItem, bond_points_item, G_TYPE_OBJECT)
G_DEFINE_FINAL_TYPE (BondPointsModel, bond_points_model, G_TYPE_OBJECT)

static void
bond_points_item_finalize (GObject *object)
{
  BondPointsItem *self = BOND_POINTS_ITEM (object);

  g_clear_object (&self->point);
  g_free (self->zone);
  g_free (self->name);
  G_OBJECT_CLASS (bond_points_item_parent_class)->finalize (object);
}

static void
bond_points_item_class_init (BondPointsItemClass *klass)
{
  G_OBJECT_CLASS (klass)->finalize = bond_points_item_finalize;
  item_changed
      = g_signal_new ("changed", BOND_TYPE_POINTS_ITEM, G_SIGNAL_RUN_LAST, 0, NULL, NULL, NULL, G_TYPE_NONE, 0);
}

static void
bond_points_item_init (BondPointsItem *self)
{
}

BondPoint *
bond_points_item_get_point (BondPointsItem *self)
{
  g_return_val_if_fail (BOND_IS_POINTS_ITEM (self), NULL);
  return self->point;
}

const char *
bond_points_item_get_zone (BondPointsItem *self)
{
  g_return_val_if_fail (BOND_IS_POINTS_ITEM (self), NULL);
  return self->zone;
}

const char *
bond_points_item_get_name (BondPointsItem *self)
{
  g_return_val_if_fail (BOND_IS_POINTS_ITEM (self), NULL);
  return self->name;
}

void
bond_points_item_get_progress (BondPointsItem *self, guint *done, guint *of)
{
  g_return_if_fail (BOND_IS_POINTS_ITEM (self));
  *done = self->done;
  *of = self->of;
}

gboolean
bond_points_item_get_folded (BondPointsItem *self)
{
  g_return_val_if_fail (BOND_IS_POINTS_ITEM (self), FALSE);
  return self->folded;
}

static BondPointsFilter
filter_of (BondPoint *point)
{
  BondState state = bond_point_get_state (point);
  const BondPlaceResult *worst = bond_point_get_worst (point);

  if (state == BOND_STATE_TO_MEASURE)
    return BOND_POINTS_TO_MEASURE;
  if (state == BOND_STATE_REMEASURE)
    return BOND_POINTS_REMEASURE;
  if (state == BOND_STATE_FAIL)
    return BOND_POINTS_FAIL;
  if (bond_state_is_open (state))
    return BOND_POINTS_OTHER;
  return worst != NULL && worst->within_u ? BOND_POINTS_WITHIN_U : BOND_POINTS_ALL;
}

static gboolean
has_word (const char *text, const char *folded_word)
{
  g_autofree char *folded = text != NULL ? g_utf8_casefold (text, -1) : NULL;

  return folded != NULL && strstr (folded, folded_word) != NULL;
}

static const char *
zone_name (BondPointsModel *self, const char *number)
{
  const BondAirframe *airframe = bond_survey_get_airframe (self->survey);
  const BondZone *zone = airframe != NULL ? bond_airframe_find_zone (airframe, number) : NULL;

  return zone != NULL ? zone->name : "";
}

static gboolean
matches (BondPointsModel *self, BondPoint *point)
{
  const BondPointSpec *spec = bond_point_get_spec (point);

  if (self->filter != BOND_POINTS_ALL && filter_of (point) != self->filter)
    return FALSE;
  if (self->search == NULL)
    return TRUE;
  return has_word (spec->number, self->search) || has_word (spec->from, self->search)
         || has_word (spec->to, self->search) || has_word (spec->zone, self->search)
         || has_word (zone_name (self, spec->zone), self->search);
}

static BondPointsItem *
header_for (BondPointsModel *self, const char *zone)
{
  BondPointsItem *item = g_hash_table_lookup (self->zones, zone);

  if (item == NULL)
    {
      item = g_object_new (BOND_TYPE_POINTS_ITEM, NULL);
      item->zone = g_strdup (zone);
      item->name = g_strdup (zone_name (self, zone));
      g_hash_table_insert (self->zones, item->zone, item);
    }
  return item;
}

static BondPointsItem *
item_for (BondPointsModel *self, BondPoint *point)
{
  BondPointsItem *item = g_hash_table_lookup (self->items, point);

  if (item == NULL)
    {
      item = g_object_new (BOND_TYPE_POINTS_ITEM, NULL);
      item->point = g_object_ref (point);
      item->zone = g_strdup (bond_point_get_spec (point)->zone);
      g_hash_table_insert (self->items, point, item);
    }
  return item;
}

static void
count_zones (BondPointsModel *self)
{
  GListModel *points = G_LIST_MODEL (self->survey);
  GHashTableIter iter;
  gpointer value;

  g_hash_table_iter_init (&iter, self->zones);
  while (g_hash_table_iter_next (&iter, NULL, &value))
    ((BondPointsItem *)value)->done = ((BondPointsItem *)value)->of = 0;
  for (guint i = 0; i < g_list_model_get_n_items (points); i++)
    {
      g_autoptr (BondPoint) point = g_list_model_get_item (points, i);
      BondPointsItem *header = header_for (self, bond_point_get_spec (point)->zone);

      header->of++;
      header->done += !bond_state_is_open (bond_point_get_state (point));
    }
}

static void
rebuild (BondPointsModel *self)
{
  GListModel *points = G_LIST_MODEL (self->survey);
  g_autoptr (GPtrArray) rows = g_ptr_array_new ();
  BondPointsItem *header = NULL;

  count_zones (self);
  self->shown = 0;
  for (guint i = 0; i < g_list_model_get_n_items (points); i++)
    {
      g_autoptr (BondPoint) point = g_list_model_get_item (points, i);
      const char *zone = bond_point_get_spec (point)->zone;

      if (!matches (self, point))
        continue;
      if (header == NULL || g_strcmp0 (header->zone, zone) != 0)
        g_ptr_array_add (rows, header = header_for (self, zone));
      self->shown++;
      if (!header->folded)
        g_ptr_array_add (rows, item_for (self, point));
    }
  g_list_store_splice (self->list, 0, g_list_model_get_n_items (G_LIST_MODEL (self->list)), rows->pdata, rows->len);
  g_signal_emit (self, counts_changed, 0);
}

static void
point_changed_cb (BondSurvey *survey, BondPoint *point, BondPointsModel *self)
{
  BondPointsItem *item = g_hash_table_lookup (self->items, point);
  GHashTableIter iter;
  gpointer header;

  if (item != NULL && g_strcmp0 (item->zone, bond_point_get_spec (point)->zone) != 0)
    {
      g_free (item->zone); /* moved to another zone */
      item->zone = g_strdup (bond_point_get_spec (point)->zone);
      rebuild (self);
    }
  count_zones (self);
  if (item != NULL)
    g_signal_emit (item, item_changed, 0);
  g_hash_table_iter_init (&iter, self->zones);
  while (g_hash_table_iter_next (&iter, NULL, &header))
    g_signal_emit (header, item_changed, 0);
  g_signal_emit (self, counts_changed, 0);
}

static void
bond_points_model_dispose (GObject *object)
{
  BondPointsModel *self = BOND_POINTS_MODEL (object);

  if (self->survey != NULL)
    g_signal_handlers_disconnect_by_data (self->survey, self);
  g_clear_object (&self->survey);
  g_clear_object (&self->list);
  g_clear_pointer (&self->items, g_hash_table_unref);
  g_clear_pointer (&self->zones, g_hash_table_unref);
  g_clear_pointer (&self->search, g_free);
  G_OBJECT_CLASS (bond_points_model_parent_class)->dispose (object);
}

static void
bond_points_model_class_init (BondPointsModelClass *klass)
{
  G_OBJECT_CLASS (klass)->dispose = bond_points_model_dispose;
  counts_changed
      = g_signal_new ("counts-changed", BOND_TYPE_POINTS_MODEL, G_SIGNAL_RUN_LAST, 0, NULL, NULL, NULL, G_TYPE_NONE, 0);
}

static void
bond_points_model_init (BondPointsModel *self)
{
  self->list = g_list_store_new (BOND_TYPE_POINTS_ITEM);
  self->items = g_hash_table_new_full (NULL, NULL, NULL, g_object_unref);
  self->zones = g_hash_table_new_full (g_str_hash, g_str_equal, NULL, g_object_unref);
}

BondPointsModel *
bond_points_model_new (BondSurvey *survey)
{
  BondPointsModel *self;

  g_return_val_if_fail (BOND_IS_SURVEY (survey), NULL);
  self = g_object_new (BOND_TYPE_POINTS_MODEL, NULL);
  self->survey = g_object_ref (survey);
  g_signal_connect_swapped (survey, "items-changed", G_CALLBACK (rebuild), self);
  g_signal_connect (survey, "point-changed", G_CALLBACK (point_changed_cb), self);
  rebuild (self);
  return self;
}

GListModel *
bond_points_model_get_list (BondPointsModel *self)
{
  g_return_val_if_fail (BOND_IS_POINTS_MODEL (self), NULL);
  return G_LIST_MODEL (self->list);
}

void
bond_points_model_set_search (BondPointsModel *self, const char *text)
{
  g_autofree char *stripped = NULL;

  g_return_if_fail (BOND_IS_POINTS_MODEL (self));
  stripped = g_strstrip (g_strdup (text != NULL ? text : ""));
  g_free (self->search);
  self->search = *stripped != '\0' ? g_utf8_casefold (stripped, -1) : NULL;
  rebuild (self);
}

void
bond_points_model_set_filter (BondPointsModel *self, BondPointsFilter filter)
{
  g_return_if_fail (BOND_IS_POINTS_MODEL (self));
  self->filter = filter;
  rebuild (self);
}

void
bond_points_model_toggle_zone (BondPointsModel *self, const char *zone)
{
  BondPointsItem *header;

  g_return_if_fail (BOND_IS_POINTS_MODEL (self) && zone != NULL);
  header = g_hash_table_lookup (self->zones, zone);
  if (header == NULL)
    return;
  header->folded = !header->folded;
  rebuild (self);
  g_signal_emit (header, item_changed, 0);
}

guint
bond_points_model_find (BondPointsModel *self, BondPoint *point)
{
  BondPointsItem *item;
  guint position;

  g_return_val_if_fail (BOND_IS_POINTS_MODEL (self), G_MAXUINT);
  item = point != NULL ? g_hash_table_lookup (self->items, point) : NULL;
  if (item == NULL || !g_list_store_find (self->list, item, &position))
    return G_MAXUINT;
  return position;
}

void
bond_points_model_counts (BondPointsModel *self, guint counts[BOND_N_POINTS_FILTERS], guint *shown)
{
  GListModel *points;

  g_return_if_fail (BOND_IS_POINTS_MODEL (self));
  points = G_LIST_MODEL (self->survey);
  for (int i = 0; i < BOND_N_POINTS_FILTERS; i++)
    counts[i] = 0;
  for (guint i = 0; i < g_list_model_get_n_items (points); i++)
    {
      g_autoptr (BondPoint) point = g_list_model_get_item (points, i);
      BondPointsFilter filter = filter_of (point);

      counts[BOND_POINTS_ALL]++;
      if (filter != BOND_POINTS_ALL)
        counts[filter]++;
    }
  *shown = self->shown;
}
