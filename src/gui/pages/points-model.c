/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * Zone headers and points in one list.  Items are kept while the survey lives and
 * only changed, so that a new reading never makes the list jump: it costs one row,
 * one header and the counts they hold.  Rows come and go only with points, folds and
 * filters, and then only those that differ.
 */
#include "gui/pages/points-model.h"

struct _BondPointsItem
{
  GObject parent_instance;
  BondPoint *point;
  char *zone, *name;
  guint done, of; /* of a header */
  guint at;       /* place in the list, G_MAXUINT = not there */
  gboolean folded;
  gboolean known, open; /* of a point, as it is counted */
  gboolean shown;
  BondPointsChip chip;
};

struct _BondPointsModel
{
  GObject parent_instance;
  BondSurvey *survey;
  GListStore *list;
  GHashTable *items; /* BondPoint → BondPointsItem */
  GHashTable *zones; /* zone number → BondPointsItem */
  BondPointsFilter filter;
  guint counts[BOND_N_POINTS_CHIPS], shown;
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

static BondPointsItem *
header_for (BondPointsModel *self, const char *zone)
{
  BondPointsItem *item = g_hash_table_lookup (self->zones, zone);

  if (item == NULL)
    {
      item = g_object_new (BOND_TYPE_POINTS_ITEM, NULL);
      item->at = G_MAXUINT;
      item->zone = g_strdup (zone);
      item->name = g_strdup (bond_points_zone_name (self->survey, zone));
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

/* Takes @item into the counts, or out of them. */
static void
count (BondPointsModel *self, BondPointsItem *item, int by)
{
  BondPointsItem *header = header_for (self, item->zone);

  header->of += by;
  header->done += item->open ? 0 : by;
  self->counts[BOND_POINTS_ALL] += by;
  if (item->chip != BOND_POINTS_ALL)
    self->counts[item->chip] += by;
}

/* What @item adds to the counts may have changed with its point. */
static void
recount (BondPointsModel *self, BondPointsItem *item)
{
  if (item->known)
    count (self, item, -1);
  if (g_strcmp0 (item->zone, bond_point_get_spec (item->point)->zone) != 0)
    {
      g_free (item->zone);
      item->zone = g_strdup (bond_point_get_spec (item->point)->zone);
    }
  item->known = TRUE;
  item->open = bond_state_is_open (bond_point_get_state (item->point));
  item->chip = bond_points_chip_of (item->point);
  count (self, item, 1);
}

/* The items of the points in walking order; those that left the survey are forgotten. */
static GPtrArray *
walk_items (BondPointsModel *self)
{
  GListModel *points = G_LIST_MODEL (self->survey);
  GPtrArray *items = g_ptr_array_new ();
  GHashTableIter iter;
  gpointer value;

  for (guint i = 0; i < g_list_model_get_n_items (points); i++)
    {
      g_autoptr (BondPoint) point = g_list_model_get_item (points, i);

      g_ptr_array_add (items, item_for (self, point));
    }
  if (items->len == g_hash_table_size (self->items))
    return items;
  g_hash_table_iter_init (&iter, self->items);
  while (g_hash_table_iter_next (&iter, NULL, &value))
    if (bond_survey_position (self->survey, ((BondPointsItem *)value)->point) == G_MAXUINT)
      {
        if (((BondPointsItem *)value)->known)
          count (self, value, -1);
        g_hash_table_iter_remove (&iter);
      }
  return items;
}

/* Only the rows that differ are taken out and put in: the list view keeps its place. */
static void
replace_rows (BondPointsModel *self, GPtrArray *rows)
{
  GListModel *list = G_LIST_MODEL (self->list);
  guint old = g_list_model_get_n_items (list);
  guint same = 0, tail = 0;

  while (same < old && same < rows->len)
    {
      g_autoptr (GObject) item = g_list_model_get_item (list, same);

      if (item != g_ptr_array_index (rows, same))
        break;
      same++;
    }
  while (tail < old - same && tail < rows->len - same)
    {
      g_autoptr (GObject) item = g_list_model_get_item (list, old - 1 - tail);

      if (item != g_ptr_array_index (rows, rows->len - 1 - tail))
        break;
      tail++;
    }
  if (same == old && same == rows->len)
    return;
  g_list_store_splice (self->list, same, old - same - tail, rows->pdata + same, rows->len - same - tail);
}

static void
forget_places (GHashTable *items)
{
  GHashTableIter iter;
  gpointer value;

  g_hash_table_iter_init (&iter, items);
  while (g_hash_table_iter_next (&iter, NULL, &value))
    ((BondPointsItem *)value)->at = G_MAXUINT;
}

static void
add_row (GPtrArray *rows, BondPointsItem *item)
{
  if (item->at == G_MAXUINT) /* a zone the walk comes back to has two headers: the first is found */
    item->at = rows->len;
  g_ptr_array_add (rows, item);
}

static void
rebuild (BondPointsModel *self)
{
  g_autoptr (GPtrArray) items = walk_items (self);
  g_autoptr (GPtrArray) rows = g_ptr_array_new ();
  BondPointsItem *header = NULL;

  forget_places (self->items);
  forget_places (self->zones);
  self->shown = 0;
  for (guint i = 0; i < items->len; i++)
    {
      BondPointsItem *item = g_ptr_array_index (items, i);

      if (!item->shown)
        continue;
      if (header == NULL || g_strcmp0 (header->zone, item->zone) != 0)
        add_row (rows, header = header_for (self, item->zone));
      self->shown++;
      if (!header->folded)
        add_row (rows, item);
    }
  replace_rows (self, rows);
  g_signal_emit (self, counts_changed, 0);
}

/* The points of the survey changed; what was hidden stays hidden, what is new is shown. */
static void
points_changed_cb (BondPointsModel *self)
{
  g_autoptr (GPtrArray) items = walk_items (self);
  GHashTableIter iter;
  gpointer header;

  for (guint i = 0; i < items->len; i++)
    {
      BondPointsItem *item = g_ptr_array_index (items, i);

      if (!item->known)
        item->shown = TRUE;
      recount (self, item);
    }
  rebuild (self);
  g_hash_table_iter_init (&iter, self->zones);
  while (g_hash_table_iter_next (&iter, NULL, &header))
    g_signal_emit (header, item_changed, 0);
}

static void
tell_header (BondPointsModel *self, const char *zone)
{
  g_signal_emit (header_for (self, zone), item_changed, 0);
}

static void
point_changed_cb (BondSurvey *survey, BondPoint *point, BondPointsModel *self)
{
  BondPointsItem *item = g_hash_table_lookup (self->items, point);
  g_autofree char *before = item != NULL ? g_strdup (item->zone) : NULL;

  if (item == NULL || !item->known)
    return; /* items-changed brings it */
  recount (self, item);
  g_signal_emit (item, item_changed, 0);
  tell_header (self, item->zone);
  if (g_strcmp0 (before, item->zone) != 0)
    {
      tell_header (self, before); /* moved to another zone */
      rebuild (self);
    }
  else
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
  bond_points_filter_clear (&self->filter);
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
  g_signal_connect_swapped (survey, "items-changed", G_CALLBACK (points_changed_cb), self);
  g_signal_connect (survey, "point-changed", G_CALLBACK (point_changed_cb), self);
  points_changed_cb (self);
  return self;
}

GListModel *
bond_points_model_get_list (BondPointsModel *self)
{
  g_return_val_if_fail (BOND_IS_POINTS_MODEL (self), NULL);
  return G_LIST_MODEL (self->list);
}

BondPointsFilter *
bond_points_model_get_filter (BondPointsModel *self)
{
  g_return_val_if_fail (BOND_IS_POINTS_MODEL (self), NULL);
  return &self->filter;
}

void
bond_points_model_refilter (BondPointsModel *self)
{
  GHashTableIter iter;
  gpointer value;

  g_return_if_fail (BOND_IS_POINTS_MODEL (self));
  g_hash_table_iter_init (&iter, self->items);
  while (g_hash_table_iter_next (&iter, NULL, &value))
    {
      BondPointsItem *item = value;

      item->shown = bond_points_filter_match (&self->filter, self->survey, item->point);
    }
  rebuild (self);
}

gboolean
bond_points_model_shows (BondPointsModel *self, BondPoint *point)
{
  const BondPointsItem *item;

  g_return_val_if_fail (BOND_IS_POINTS_MODEL (self), FALSE);
  item = g_hash_table_lookup (self->items, point);
  return item == NULL || item->shown;
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
  const BondPointsItem *item;

  g_return_val_if_fail (BOND_IS_POINTS_MODEL (self), G_MAXUINT);
  item = point != NULL ? g_hash_table_lookup (self->items, point) : NULL;
  return item != NULL ? item->at : G_MAXUINT;
}

guint
bond_points_model_find_zone (BondPointsModel *self, const char *zone)
{
  const BondPointsItem *header;

  g_return_val_if_fail (BOND_IS_POINTS_MODEL (self), G_MAXUINT);
  header = zone != NULL ? g_hash_table_lookup (self->zones, zone) : NULL;
  return header != NULL ? header->at : G_MAXUINT;
}

void
bond_points_model_counts (BondPointsModel *self, guint counts[BOND_N_POINTS_CHIPS], guint *shown)
{
  g_return_if_fail (BOND_IS_POINTS_MODEL (self));
  for (int i = 0; i < BOND_N_POINTS_CHIPS; i++)
    counts[i] = self->counts[i];
  *shown = self->shown;
}
