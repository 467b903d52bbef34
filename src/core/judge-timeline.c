/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * The history of one place: entries sorted into measurements and other lines, with
 * what was voided, corrected, moved or taken back struck through but never dropped.
 * What follows from it is left to judge.c.
 */
#include "core/judge-private.h"

/* A reading and everything that later replaced it: the seat it has in its measurement. */
typedef struct
{
  BondEntry *origin;
  BondEntry *live; /* the entry whose figures count now, NULL when none */
  const char *key; /* id of the first reading of its seating */
  gboolean here;
  gboolean was_here;
} Slot;

typedef struct
{
  BondPlaceResult *result;
  GPtrArray *entries;
  GHashTable *removed;
  BondJudgeContext own;            /* the caller's, with the deviations of this history */
  const BondJudgeContext *context; /* that one */
  GHashTable *slots;               /* id of a reading or correction → Slot, owned by seats */
  GPtrArray *seats;                /* of Slot */
  GHashTable *replaced;            /* set of ids: a correction in force stands for them */
  GHashTable *voided;              /* set of ids */
  BondCondition condition;
  BondHistoryItem *open; /* measurement that may still take readings, NULL when none */
  const char *open_key;
} Timeline;

static gboolean
is_removed (const Timeline *line, const BondEntry *entry)
{
  return line->removed != NULL && g_hash_table_contains (line->removed, entry);
}

static gboolean
is_void (const Timeline *line, const BondEntry *entry)
{
  return g_hash_table_contains (line->voided, entry->id);
}

static gboolean
is_this_point (const Timeline *line, const char *point)
{
  return line->context->point == NULL || point == NULL || strcmp (line->context->point, point) == 0;
}

static gboolean
is_this_place (const Timeline *line, const char *point, const char *place)
{
  return is_this_point (line, point) && g_strcmp0 (place, line->result->place) == 0;
}

static void
set_location (const Timeline *line, Slot *slot, const char *point, const char *place)
{
  slot->here = is_this_place (line, point, place);
  slot->was_here |= slot->here;
}

static void
add_slot (Timeline *line, BondEntry *entry)
{
  Slot *slot = g_new0 (Slot, 1);

  slot->origin = entry;
  slot->key = entry->reading.of != NULL ? entry->reading.of : entry->id;
  set_location (line, slot, entry->point, entry->place);
  g_ptr_array_add (line->seats, slot);
  g_hash_table_insert (line->slots, entry->id, slot);
}

/* The first reading of a seating takes the rest of it along; any other reading goes alone. */
static void
move_slots (Timeline *line, const BondEntry *move)
{
  Slot *moved = g_hash_table_lookup (line->slots, move->ref);
  gboolean whole = moved != NULL && moved->origin->reading.of == NULL;
  guint i;

  for (i = 0; moved != NULL && i < line->seats->len; i++)
    {
      Slot *slot = g_ptr_array_index (line->seats, i);
      if (slot == moved || (whole && strcmp (slot->key, moved->key) == 0))
        set_location (line, slot, move->move.to_point, move->move.to_place);
    }
}

/* First walk: who stands for whom, what is void, where each reading belongs. */
static void
resolve (Timeline *line)
{
  guint i;

  for (i = 0; i < line->entries->len; i++)
    {
      BondEntry *entry = g_ptr_array_index (line->entries, i);
      Slot *slot;

      if (entry->kind == BOND_ENTRY_READING)
        add_slot (line, entry);
      else if (entry->kind == BOND_ENTRY_CORRECT)
        {
          slot = g_hash_table_lookup (line->slots, entry->ref);
          if (slot != NULL)
            g_hash_table_insert (line->slots, entry->id, slot);
          if (slot != NULL && !is_removed (line, entry))
            g_hash_table_add (line->replaced, entry->ref);
        }
      else if (entry->kind == BOND_ENTRY_VOID && !is_removed (line, entry))
        g_hash_table_add (line->voided, entry->ref);
      else if (entry->kind == BOND_ENTRY_MOVE && !is_removed (line, entry))
        move_slots (line, entry);
    }
}

static gboolean
is_struck (const Timeline *line, const BondEntry *entry)
{
  return is_removed (line, entry) || is_void (line, entry) || g_hash_table_contains (line->replaced, entry->id);
}

static void
find_live (Timeline *line)
{
  guint i;

  for (i = 0; i < line->entries->len; i++)
    {
      BondEntry *entry = g_ptr_array_index (line->entries, i);
      Slot *slot = bond_entry_is_reading (entry) ? g_hash_table_lookup (line->slots, entry->id) : NULL;
      if (slot != NULL && !is_struck (line, entry))
        slot->live = entry;
    }
}

static gboolean
is_same_state (const BondReading *a, const BondReading *b)
{
  return a->connectors == b->connectors && a->mounting == b->mounting;
}

/* A deviation is of the state a reading was taken in: given for the first of a seating it holds for all taken so. */
static void
accept_slots (Timeline *line, const BondEntry *deviation)
{
  const Slot *accepted = g_hash_table_lookup (line->slots, deviation->ref);
  gboolean whole = accepted != NULL && accepted->origin->reading.of == NULL;
  guint i;

  for (i = 0; accepted != NULL && i < line->seats->len; i++)
    {
      const Slot *slot = g_ptr_array_index (line->seats, i);
      if ((slot == accepted || (whole && strcmp (slot->key, accepted->key) == 0)) && slot->live != NULL
          && is_same_state (&slot->origin->reading, &accepted->origin->reading))
        g_hash_table_add (line->own.accepted, (gpointer)bond_entry_get_reading (slot->live));
    }
}

static void
find_accepted (Timeline *line)
{
  guint i;

  for (i = 0; i < line->entries->len; i++)
    {
      const BondEntry *entry = g_ptr_array_index (line->entries, i);
      if (entry->kind == BOND_ENTRY_DEVIATION && entry->ref != NULL && !is_removed (line, entry)
          && !is_void (line, entry))
        accept_slots (line, entry);
    }
}

static BondHistoryItem *
add_item (Timeline *line, BondEntry *entry)
{
  BondHistoryItem *item = g_new0 (BondHistoryItem, 1);

  item->entry = entry;
  item->taken_back = is_removed (line, entry);
  item->voided = is_void (line, entry);
  g_ptr_array_add (line->result->history, item);
  return item;
}

static BondHistoryItem *
add_measurement (Timeline *line, BondEntry *entry, const char *key, gboolean alone)
{
  BondHistoryItem *item = add_item (line, entry);

  item->measurement = bond_measurement_new ();
  item->measurement->id = g_strdup (key);
  g_ptr_array_add (item->measurement->readings, entry);
  if (alone)
    bond_measurement_judge_alone (item->measurement, line->context, line->condition);
  else
    bond_measurement_judge (item->measurement, line->context, line->condition);
  return item;
}

/* A struck reading is a line of its own, judged alone, so that its worth is still to be seen. */
static void
add_struck (Timeline *line, BondEntry *entry)
{
  BondHistoryItem *item = add_measurement (line, entry, entry->id, TRUE);

  item->voided |= g_hash_table_contains (line->replaced, entry->id);
}

static gboolean
has_direction (const BondMeasurement *m, BondDirection direction)
{
  guint i;

  for (i = 0; i < m->readings->len; i++)
    if (bond_entry_get_reading (g_ptr_array_index (m->readings, i))->direction == direction)
      return TRUE;
  return FALSE;
}

/*
 * Whether a seating may still take @reading.  A finished one that does not conform never may: a mean is not formed
 * across a fail.  (A pair planned from the start is not finished after its first half.)
 */
static gboolean
takes (const BondMeasurement *m, const BondReading *reading)
{
  const BondReading *first = bond_entry_get_reading (g_ptr_array_index (m->readings, 0));

  if (g_strcmp0 (first->instrument, reading->instrument) != 0)
    return FALSE;
  if (m->outcome == BOND_OUTCOME_INCOMPLETE || m->reason == BOND_REASON_PAIR_DISAGREES)
    return TRUE;
  if (reading->direction == BOND_DIRECTION_REPEAT || m->paired || has_direction (m, reading->direction))
    return m->readings->len < (guint)MAX (first->planned, 0);
  return m->outcome != BOND_OUTCOME_JUDGED || m->conforms;
}

static void
join (Timeline *line, const Slot *slot)
{
  const BondReading *reading = bond_entry_get_reading (slot->live);
  BondMeasurement *m;

  if (line->open != NULL && strcmp (line->open_key, slot->key) == 0 && takes (line->open->measurement, reading))
    {
      m = line->open->measurement;
      g_ptr_array_add (m->readings, slot->live);
      bond_measurement_judge (m, line->context, line->condition);
      return;
    }
  line->open = add_measurement (line, slot->live, slot->key, FALSE);
  line->open_key = slot->key;
}

static void
add_reading (Timeline *line, BondEntry *entry)
{
  Slot *slot = g_hash_table_lookup (line->slots, entry->id);
  BondHistoryItem *item;

  if (slot == NULL || !slot->was_here)
    return;
  if (slot->here && slot->live != NULL && entry == slot->origin)
    join (line, slot);
  if (is_struck (line, entry))
    add_struck (line, entry);
  else if (!slot->here)
    {
      item = add_measurement (line, entry, slot->key, TRUE);
      item->moved_away = TRUE;
    }
  if (entry->kind == BOND_ENTRY_CORRECT && slot->here && !is_removed (line, entry))
    add_item (line, entry); /* the act itself, with its reason */
}

/* An act on another entry is shown where that entry is. */
static gboolean
target_was_here (const Timeline *line, const BondEntry *entry)
{
  const Slot *slot = entry->ref != NULL ? g_hash_table_lookup (line->slots, entry->ref) : NULL;
  guint i;

  if (slot != NULL)
    return slot->was_here;
  for (i = 0; i < line->result->history->len; i++)
    {
      const BondHistoryItem *item = g_ptr_array_index (line->result->history, i);
      if (g_strcmp0 (item->entry->id, entry->ref) == 0)
        return TRUE;
    }
  return FALSE;
}

static void
change_condition (Timeline *line, BondCondition condition)
{
  line->condition = condition;
  line->open = NULL;
}

/* A replaced jumper is a new joint; any other work leaves a reworked one.  Both ask for the stricter tier. */
static void
follow_condition (Timeline *line, const BondEntry *entry)
{
  if (entry->kind == BOND_ENTRY_REWORK)
    change_condition (line,
                      entry->rework.done & BOND_REWORK_JUMPER_REPLACED ? BOND_CONDITION_NEW : BOND_CONDITION_REWORKED);
  else if (entry->kind == BOND_ENTRY_CONDITION && entry->condition.condition != BOND_CONDITION_UNDISTURBED)
    change_condition (line, entry->condition.condition);
}

static void
add_other (Timeline *line, BondEntry *entry)
{
  gboolean for_this_place = is_this_point (line, entry->point)
                            && (entry->place == NULL || g_strcmp0 (entry->place, line->result->place) == 0);

  switch (entry->kind)
    {
    case BOND_ENTRY_VOID:
    case BOND_ENTRY_MOVE:
    case BOND_ENTRY_TAKE_BACK:
    case BOND_ENTRY_DEVIATION:
      if (target_was_here (line, entry))
        add_item (line, entry);
      break;
    case BOND_ENTRY_REWORK:
    case BOND_ENTRY_CONDITION:
    case BOND_ENTRY_STATE:
    case BOND_ENTRY_VISUAL:
    case BOND_ENTRY_DISPOSITION:
    case BOND_ENTRY_SEEN:
    case BOND_ENTRY_NOTE:
    case BOND_ENTRY_DEFECT:
    case BOND_ENTRY_REFINISH:
      if (!for_this_place)
        break;
      add_item (line, entry);
      if (!is_removed (line, entry) && !is_void (line, entry))
        follow_condition (line, entry);
      break;
    case BOND_ENTRY_CREATE:
    case BOND_ENTRY_ADOPT:
    case BOND_ENTRY_POINT:
    case BOND_ENTRY_PLACE:
    case BOND_ENTRY_ATTACH:
    case BOND_ENTRY_READING:
    case BOND_ENTRY_CORRECT:
    default:
      break; /* no lines of a place's history */
    }
}

void
bond_timeline_build (BondPlaceResult *result, GPtrArray *entries, GHashTable *removed, const BondJudgeContext *context,
                     BondCondition planned)
{
  Timeline line = { .result = result, .entries = entries, .removed = removed, .own = *context, .condition = planned };
  guint i;

  line.context = &line.own;
  line.own.accepted = g_hash_table_new (NULL, NULL);

  line.slots = g_hash_table_new (g_str_hash, g_str_equal);
  line.seats = g_ptr_array_new_with_free_func (g_free);
  line.replaced = g_hash_table_new (g_str_hash, g_str_equal);
  line.voided = g_hash_table_new (g_str_hash, g_str_equal);
  resolve (&line);
  find_live (&line);
  find_accepted (&line);
  for (i = 0; i < entries->len; i++)
    {
      BondEntry *entry = g_ptr_array_index (entries, i);
      if (bond_entry_is_reading (entry))
        add_reading (&line, entry);
      else
        add_other (&line, entry);
    }
  result->tier = line.condition;
  g_hash_table_unref (line.own.accepted);
  g_hash_table_unref (line.voided);
  g_hash_table_unref (line.replaced);
  g_ptr_array_unref (line.seats);
  g_hash_table_unref (line.slots);
}
