/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * From entries to what holds: which are taken back, which touch which point, the
 * registers in force, the walking order.  Applying one entry and replaying all of
 * them go through the same steps, so that they cannot come out differently.
 */
#include "core/survey-private.h"

int
bond_entry_compare (const BondEntry *a, const BondEntry *b)
{
  int by_sitting;

  if (a->t != b->t)
    return a->t < b->t ? -1 : 1;
  by_sitting = strcmp (a->sitting, b->sitting);
  return by_sitting != 0 ? by_sitting : (a->n > b->n) - (a->n < b->n);
}

static int
compare_pointers (gconstpointer a, gconstpointer b)
{
  return bond_entry_compare (*(const BondEntry *const *)a, *(const BondEntry *const *)b);
}

GPtrArray *
bond_survey_get_referrers (BondSurvey *survey, const char *id)
{
  return g_hash_table_lookup (survey->referrers, id);
}

static BondEntry *
find_target (BondSurvey *survey, const BondEntry *entry)
{
  BondEntry *target = entry->ref != NULL ? g_hash_table_lookup (survey->by_id, entry->ref) : NULL;

  return target != NULL && bond_entry_compare (target, entry) < 0 ? target : NULL;
}

const BondEntry *
bond_survey_reading_origin (BondSurvey *survey, const BondEntry *entry)
{
  while (entry != NULL && entry->kind == BOND_ENTRY_CORRECT)
    entry = find_target (survey, entry);
  return entry != NULL && entry->kind == BOND_ENTRY_READING ? entry : NULL;
}

static void
add_referrer (BondSurvey *survey, const char *to, BondEntry *entry)
{
  BondEntry *target = to != NULL ? g_hash_table_lookup (survey->by_id, to) : NULL;
  GPtrArray *list;

  if (target == NULL || bond_entry_compare (target, entry) >= 0)
    return; /* a dangling reference changes nothing */
  list = g_hash_table_lookup (survey->referrers, target->id);
  if (list == NULL)
    {
      list = g_ptr_array_new ();
      g_hash_table_insert (survey->referrers, target->id, list);
    }
  g_ptr_array_add (list, entry);
}

static BondPoint *
ensure_point (BondSurvey *survey, const char *id)
{
  BondPoint *point = g_hash_table_lookup (survey->points, id);

  if (point == NULL)
    {
      point = bond_point_new (survey, id);
      g_hash_table_insert (survey->points, point->id, point);
    }
  if (!point->arrived)
    g_ptr_array_add (survey->arrivals, point);
  point->arrived = TRUE;
  return point;
}

/* Lists are in replay order; nearly always the new entry is the newest. */
static void
add_to_point (BondSurvey *survey, BondPoint *point, BondEntry *entry)
{
  guint i = point->entries->len;
  GPtrArray *also;

  while (i > 0 && bond_entry_compare (g_ptr_array_index (point->entries, i - 1), entry) > 0)
    i--;
  if (i > 0 && g_ptr_array_index (point->entries, i - 1) == entry)
    return;
  g_ptr_array_insert (point->entries, (int)i, entry);
  if (g_strcmp0 (entry->point, point->id) == 0)
    return;
  also = g_hash_table_lookup (survey->also_in, entry);
  if (also == NULL)
    {
      also = g_ptr_array_new ();
      g_hash_table_insert (survey->also_in, entry, also);
    }
  g_ptr_array_add (also, point);
}

/* @entry and everything said about it, and the other readings of its seating when it is the first. */
static void
add_with_referrers (BondSurvey *survey, BondPoint *point, BondEntry *entry)
{
  GPtrArray *list = bond_survey_get_referrers (survey, entry->id);
  guint i;

  add_to_point (survey, point, entry);
  for (i = 0; list != NULL && i < list->len; i++)
    add_with_referrers (survey, point, g_ptr_array_index (list, i));
}

static void
add_point_once (GPtrArray *points, BondPoint *point)
{
  if (!g_ptr_array_find (points, point, NULL))
    g_ptr_array_add (points, point);
}

static void
add_points_of (BondSurvey *survey, const BondEntry *entry, GPtrArray *points)
{
  GPtrArray *also = g_hash_table_lookup (survey->also_in, entry);
  guint i;

  if (entry->point != NULL)
    add_point_once (points, ensure_point (survey, entry->point));
  for (i = 0; also != NULL && i < also->len; i++)
    add_point_once (points, g_ptr_array_index (also, i));
}

/* Puts @entry into the lists of all points it touches, which are returned. (transfer full) */
static GPtrArray *
distribute (BondSurvey *survey, BondEntry *entry)
{
  GPtrArray *points = g_ptr_array_new ();
  BondEntry *target = find_target (survey, entry);
  const BondEntry *origin;
  guint i;

  add_points_of (survey, entry, points);
  if (target != NULL)
    add_points_of (survey, target, points);
  for (i = 0; i < points->len; i++)
    add_to_point (survey, g_ptr_array_index (points, i), entry);
  if (entry->kind == BOND_ENTRY_MOVE && target != NULL && entry->move.to_point != NULL)
    {
      BondPoint *to = ensure_point (survey, entry->move.to_point);
      add_point_once (points, to);
      add_to_point (survey, to, entry);
      origin = bond_survey_reading_origin (survey, target);
      if (origin != NULL)
        add_with_referrers (survey, to, (BondEntry *)origin);
    }
  return points;
}

static gboolean
has_take_back_in_force (BondSurvey *survey, const BondEntry *entry)
{
  GPtrArray *list = bond_survey_get_referrers (survey, entry->id);
  guint i;

  for (i = 0; list != NULL && i < list->len; i++)
    {
      const BondEntry *other = g_ptr_array_index (list, i);
      if (other->kind == BOND_ENTRY_TAKE_BACK && !g_hash_table_contains (survey->removed, other))
        return TRUE;
    }
  return FALSE;
}

/* Follows a chain of take-backs down to the entry that is taken back or restored by them. */
static BondEntry *
update_removed (BondSurvey *survey, BondEntry *take_back)
{
  BondEntry *target = take_back;

  while (target != NULL && target->kind == BOND_ENTRY_TAKE_BACK)
    {
      target = find_target (survey, target);
      if (target == NULL)
        return NULL;
      if (has_take_back_in_force (survey, target))
        g_hash_table_add (survey->removed, target);
      else
        g_hash_table_remove (survey->removed, target);
    }
  return target;
}

static gboolean
is_register_kind (BondEntryKind kind)
{
  return kind == BOND_ENTRY_CREATE || kind == BOND_ENTRY_ADOPT;
}

/* Files @entry away: reference lists, point lists, removed set.  Returns the points it touches. (transfer full) */
static GPtrArray *
file_entry (BondSurvey *survey, BondEntry *entry, gboolean *registers, gboolean *structure)
{
  const BondReading *reading = bond_entry_get_reading (entry);
  BondEntry *changed = entry;
  GPtrArray *points;

  add_referrer (survey, entry->ref, entry);
  if (reading != NULL && entry->kind == BOND_ENTRY_READING)
    add_referrer (survey, reading->of, entry);
  points = distribute (survey, entry);
  if (entry->kind == BOND_ENTRY_TAKE_BACK)
    changed = update_removed (survey, entry);
  if (changed != NULL && is_register_kind (changed->kind))
    *registers = TRUE;
  if (changed != NULL && changed->kind == BOND_ENTRY_POINT)
    *structure = TRUE;
  survey->last_t = MAX (survey->last_t, entry->t);
  return points;
}

static const char *
register_id (const BondAdopt *adopt)
{
  switch (adopt->what)
    {
    case BOND_ADOPT_LIMIT_SET:
      return ((BondLimitSet *)adopt->object)->id;
    case BOND_ADOPT_INSTRUMENT:
      return ((BondInstrument *)adopt->object)->id;
    case BOND_ADOPT_PERSON:
      return ((BondPerson *)adopt->object)->id;
    case BOND_ADOPT_EARLIER:
      return ((BondEarlier *)adopt->object)->survey;
    case BOND_ADOPT_AIRFRAME:
    case BOND_ADOPT_HOUSE:
    default:
      return NULL;
    }
}

/* The newest copy takes the place of the older, so that the order stays the order of adoption. */
static void
put_newest (GPtrArray *list, const BondAdopt *adopt)
{
  guint i;

  for (i = 0; i < list->len; i++)
    {
      BondAdopt other = { .what = adopt->what, .object = g_ptr_array_index (list, i) };
      if (strcmp (register_id (&other), register_id (adopt)) == 0)
        {
          list->pdata[i] = adopt->object;
          return;
        }
    }
  g_ptr_array_add (list, adopt->object);
}

static int
compare_earlier (gconstpointer a, gconstpointer b)
{
  return g_strcmp0 ((*(const BondEarlier *const *)a)->date, (*(const BondEarlier *const *)b)->date);
}

static void
adopt (BondSurvey *survey, const BondAdopt *adopted)
{
  switch (adopted->what)
    {
    case BOND_ADOPT_AIRFRAME:
      survey->airframe = adopted->object;
      break;
    case BOND_ADOPT_LIMIT_SET:
      put_newest (survey->limit_sets, adopted);
      break;
    case BOND_ADOPT_INSTRUMENT:
      put_newest (survey->instruments, adopted);
      break;
    case BOND_ADOPT_PERSON:
      put_newest (survey->people, adopted);
      break;
    case BOND_ADOPT_HOUSE:
      bond_house_unref (survey->house);
      survey->house = bond_house_ref (adopted->object);
      break;
    case BOND_ADOPT_EARLIER:
      put_newest (survey->earlier, adopted);
      break;
    default:
      break;
    }
}

void
bond_survey_try_adopt (BondSurvey *survey, const BondAdopt *adopted)
{
  adopt (survey, adopted);
}

void
bond_survey_derive_registers (BondSurvey *survey)
{
  guint i;

  survey->header = NULL;
  survey->airframe = NULL;
  g_ptr_array_set_size (survey->limit_sets, 0);
  g_ptr_array_set_size (survey->instruments, 0);
  g_ptr_array_set_size (survey->people, 0);
  g_ptr_array_set_size (survey->earlier, 0);
  bond_survey_forget_revisions (survey);
  bond_house_unref (survey->house);
  survey->house = bond_house_new ("house", 0, NULL);
  for (i = 0; i < survey->entries->len; i++)
    {
      BondEntry *entry = g_ptr_array_index (survey->entries, i);
      if (!is_register_kind (entry->kind) || g_hash_table_contains (survey->removed, entry))
        continue;
      if (entry->kind == BOND_ENTRY_ADOPT)
        {
          adopt (survey, &entry->adopt);
          if (entry->adopt.what == BOND_ADOPT_INSTRUMENT)
            bond_survey_add_revision (survey, entry);
        }
      else if (survey->header == NULL)
        survey->header = &entry->create;
    }
  g_ptr_array_sort (survey->earlier, compare_earlier);
}

/* Walking order: zones as they first appear; in a zone the template's points, then those placed by hand. */
static GPtrArray *
walking_order (BondSurvey *survey)
{
  g_autoptr (GPtrArray) zones = g_ptr_array_new_with_free_func ((GDestroyNotify)g_ptr_array_unref);
  g_autoptr (GHashTable) by_zone = g_hash_table_new (g_str_hash, g_str_equal);
  GPtrArray *walk = g_ptr_array_new ();
  guint i;
  int by_hand;

  for (i = 0; i < survey->arrivals->len; i++)
    {
      BondPoint *point = g_ptr_array_index (survey->arrivals, i);
      GPtrArray *zone = point->spec != NULL ? g_hash_table_lookup (by_zone, point->spec->zone) : NULL;
      if (point->spec == NULL)
        continue;
      if (zone == NULL)
        {
          zone = g_ptr_array_new ();
          g_ptr_array_add (zones, zone);
          g_hash_table_insert (by_zone, point->spec->zone, zone);
        }
      g_ptr_array_add (zone, point);
    }
  for (i = 0; i < zones->len; i++)
    for (by_hand = 0; by_hand <= 1; by_hand++)
      {
        GPtrArray *zone = g_ptr_array_index (zones, i);
        guint j;
        for (j = 0; j < zone->len; j++)
          if (BOND_POINT (g_ptr_array_index (zone, j))->spec->from_template == !by_hand)
            g_ptr_array_add (walk, g_ptr_array_index (zone, j));
      }
  return walk;
}

/* Takes the new order over and tells the list's users only about the stretch that changed. */
static void
derive_walk (BondSurvey *survey)
{
  GPtrArray *old = survey->walk, *new = walking_order (survey);
  guint first = 0, tail = 0, shorter = MIN (old->len, new->len), i;

  while (first < shorter && old->pdata[first] == new->pdata[first])
    first++;
  while (tail < shorter - first && old->pdata[old->len - 1 - tail] == new->pdata[new->len - 1 - tail])
    tail++;
  for (i = 0; i < old->len; i++)
    BOND_POINT (old->pdata[i])->position = G_MAXUINT;
  for (i = 0; i < new->len; i++)
    BOND_POINT (new->pdata[i])->position = i;
  survey->walk = new;
  if (old->len != new->len || first < new->len)
    g_list_model_items_changed (G_LIST_MODEL (survey), first, old->len - first - tail, new->len - first - tail);
  g_ptr_array_unref (old);
}

static void
derive_points (GPtrArray *points)
{
  guint i;

  for (i = 0; i < points->len; i++)
    bond_point_derive (g_ptr_array_index (points, i));
}

static void
add_all_points (BondSurvey *survey, GPtrArray *points)
{
  GHashTableIter iter;
  gpointer point;

  g_ptr_array_set_size (points, 0);
  g_hash_table_iter_init (&iter, survey->points);
  while (g_hash_table_iter_next (&iter, NULL, &point))
    g_ptr_array_add (points, point);
}

/* A take-back may be of a permit. */
static gboolean
concerns_permits (BondEntryKind kind)
{
  return kind == BOND_ENTRY_PERMIT || kind == BOND_ENTRY_CLOSE_PERMIT || kind == BOND_ENTRY_TAKE_BACK;
}

void
bond_survey_apply (BondSurvey *survey, BondEntry *entry)
{
  gboolean registers = FALSE, structure = FALSE;
  g_autoptr (GPtrArray) points = NULL;
  guint i;

  g_ptr_array_add (survey->entries, bond_entry_ref (entry));
  g_hash_table_insert (survey->by_id, entry->id, entry);
  points = file_entry (survey, entry, &registers, &structure);
  if (registers)
    {
      bond_survey_derive_registers (survey);
      add_all_points (survey, points);
    }
  if (concerns_permits (entry->kind))
    bond_survey_derive_permits (survey);
  derive_points (points);
  if (structure)
    derive_walk (survey);
  if (registers)
    g_signal_emit_by_name (survey, "header-changed");
  for (i = 0; i < points->len; i++)
    bond_point_emit_changed (g_ptr_array_index (points, i));
  g_signal_emit_by_name (survey, "entry-applied", entry);
}

void
bond_survey_replay_all (BondSurvey *survey)
{
  gboolean registers = FALSE, structure = FALSE;
  g_autoptr (GPtrArray) points = g_ptr_array_new ();
  GHashTableIter iter;
  gpointer point;
  guint i;

  g_hash_table_remove_all (survey->referrers);
  g_hash_table_remove_all (survey->also_in);
  g_hash_table_remove_all (survey->removed);
  g_hash_table_iter_init (&iter, survey->points);
  while (g_hash_table_iter_next (&iter, NULL, &point))
    {
      g_ptr_array_set_size (BOND_POINT (point)->entries, 0);
      BOND_POINT (point)->arrived = FALSE;
    }
  g_ptr_array_set_size (survey->arrivals, 0);
  g_ptr_array_sort (survey->entries, compare_pointers);
  for (i = 0; i < survey->entries->len; i++)
    g_ptr_array_unref (file_entry (survey, g_ptr_array_index (survey->entries, i), &registers, &structure));
  bond_survey_derive_registers (survey);
  bond_survey_derive_permits (survey);
  add_all_points (survey, points);
  derive_points (points);
  derive_walk (survey);
  g_signal_emit_by_name (survey, "header-changed");
}
