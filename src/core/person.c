/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * People, house rules and the results of an earlier survey: how they are made,
 * shared and freed.  What a house value does is left to measurement.c and judge.c.
 */
#include "core/person.h"

/* House values before a house sets its own: common practice, no source. */
#define DEFAULT_PAIR_PERCENT 10
#define DEFAULT_PAIR_STEPS 4
#define DEFAULT_EMF_MICROVOLT 50
#define DEFAULT_RESEAT_MAX 3
#define DEFAULT_STRANDS_PERCENT 25
/* AC 43.13-1B (8 Sep 1998) ¶11-189. */
#define DEFAULT_BARE_HOURS 24
/* From memory: 10 % of the lower explosive limit; oxygen 19.5 … 23.5 % of the air. */
#define DEFAULT_VAPOUR_PERMILLE_MAX 100
#define DEFAULT_OXYGEN_PERMILLE_MIN 195
#define DEFAULT_OXYGEN_PERMILLE_MAX 235

static void
earlier_item_free (gpointer data)
{
  BondEarlierItem *item = data;

  g_free (item->point);
  g_free (item->state);
  g_free (item->limit);
  g_free (item->note);
  g_free (item);
}

BondPerson *
bond_person_new (const char *id, int revision, const char *name, const char *stamp, const char *role)
{
  BondPerson *person;

  g_return_val_if_fail (id != NULL && name != NULL, NULL);
  person = g_new0 (BondPerson, 1);
  person->ref_count = 1;
  person->id = g_strdup (id);
  person->revision = revision;
  person->name = g_strdup (name);
  person->stamp = g_strdup (stamp);
  person->role = g_strdup (role);
  return person;
}

BondPerson *
bond_person_ref (BondPerson *person)
{
  g_return_val_if_fail (person != NULL, NULL);
  g_atomic_int_inc (&person->ref_count);
  return person;
}

void
bond_person_unref (BondPerson *person)
{
  g_return_if_fail (person != NULL);
  if (!g_atomic_int_dec_and_test (&person->ref_count))
    return;
  g_free (person->id);
  g_free (person->name);
  g_free (person->stamp);
  g_free (person->role);
  g_free (person);
}

BondHouse *
bond_house_new (const char *id, int revision, const char *organisation)
{
  BondHouse *house;

  g_return_val_if_fail (id != NULL, NULL);
  house = g_new0 (BondHouse, 1);
  house->ref_count = 1;
  house->id = g_strdup (id);
  house->revision = revision;
  house->organisation = g_strdup (organisation);
  house->pair_percent = DEFAULT_PAIR_PERCENT;
  house->pair_steps = DEFAULT_PAIR_STEPS;
  house->emf_microvolt = DEFAULT_EMF_MICROVOLT;
  house->reseat_max = DEFAULT_RESEAT_MAX;
  house->bare_hours = DEFAULT_BARE_HOURS;
  house->vapour_permille_max = DEFAULT_VAPOUR_PERMILLE_MAX;
  house->oxygen_permille_min = DEFAULT_OXYGEN_PERMILLE_MIN;
  house->oxygen_permille_max = DEFAULT_OXYGEN_PERMILLE_MAX;
  house->strands_percent = DEFAULT_STRANDS_PERCENT;
  return house;
}

BondHouse *
bond_house_ref (BondHouse *house)
{
  g_return_val_if_fail (house != NULL, NULL);
  g_atomic_int_inc (&house->ref_count);
  return house;
}

void
bond_house_unref (BondHouse *house)
{
  g_return_if_fail (house != NULL);
  if (!g_atomic_int_dec_and_test (&house->ref_count))
    return;
  g_free (house->id);
  g_free (house->organisation);
  g_free (house->changed_by);
  g_free (house->changed_on);
  g_free (house);
}

BondEarlier *
bond_earlier_new (const char *survey, const char *date)
{
  BondEarlier *earlier;

  g_return_val_if_fail (survey != NULL, NULL);
  earlier = g_new0 (BondEarlier, 1);
  earlier->ref_count = 1;
  earlier->survey = g_strdup (survey);
  earlier->date = g_strdup (date);
  earlier->items = g_ptr_array_new_with_free_func (earlier_item_free);
  return earlier;
}

BondEarlier *
bond_earlier_ref (BondEarlier *earlier)
{
  g_return_val_if_fail (earlier != NULL, NULL);
  g_atomic_int_inc (&earlier->ref_count);
  return earlier;
}

void
bond_earlier_unref (BondEarlier *earlier)
{
  g_return_if_fail (earlier != NULL);
  if (!g_atomic_int_dec_and_test (&earlier->ref_count))
    return;
  g_free (earlier->survey);
  g_free (earlier->date);
  g_ptr_array_unref (earlier->items);
  g_free (earlier);
}

void
bond_earlier_add (BondEarlier *earlier, const BondEarlierItem *item)
{
  BondEarlierItem *copy;

  g_return_if_fail (earlier != NULL && item != NULL && item->point != NULL);
  copy = g_new0 (BondEarlierItem, 1);
  copy->point = g_strdup (item->point);
  copy->result = item->result;
  copy->state = g_strdup (item->state);
  copy->limit = g_strdup (item->limit);
  copy->note = g_strdup (item->note);
  g_ptr_array_add (earlier->items, copy);
}

const BondEarlierItem *
bond_earlier_find (const BondEarlier *earlier, const char *point)
{
  guint i;

  g_return_val_if_fail (earlier != NULL && point != NULL, NULL);
  for (i = 0; i < earlier->items->len; i++)
    {
      const BondEarlierItem *item = g_ptr_array_index (earlier->items, i);

      if (strcmp (item->point, point) == 0)
        return item;
    }
  return NULL;
}
