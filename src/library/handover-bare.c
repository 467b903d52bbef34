/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * The clock of joints that were stripped for rework.  Since when a joint is bare is
 * core's to say; here it is held against the time the house allows.
 */
#include "library/handover.h"
#include "library/permits.h"
#include <glib/gi18n-lib.h>

/* Warned of from this share of the time allowed on: 20 h of 24; our own figure, no source. */
#define SOON_NUMERATOR 5
#define SOON_DENOMINATOR 6

static void
joint_free (gpointer data)
{
  BondBareJoint *joint = data;

  g_clear_object (&joint->point);
  g_free (joint->since);
  g_free (joint->due);
  g_free (joint);
}

static char *
hours_later (const char *iso, int hours)
{
  g_autoptr (GDateTime) time = g_date_time_new_from_iso8601 (iso, NULL);
  g_autoptr (GDateTime) later = time != NULL ? g_date_time_add_hours (time, hours) : NULL;

  return later != NULL ? g_date_time_format (later, "%Y-%m-%dT%H:%M:%S%:z") : NULL;
}

static void
add_joint (GPtrArray *joints, BondPoint *point, const char *since, int hours, const char *now)
{
  g_autofree char *due = hours_later (since, hours);
  BondBareJoint *joint;

  if (due == NULL)
    return;
  joint = g_new0 (BondBareJoint, 1);
  joint->point = g_object_ref (point);
  joint->since = g_strdup (since);
  joint->minutes_bare = MAX (bond_minutes_between (since, now), 0);
  joint->minutes_left = bond_minutes_between (now, due);
  joint->due = g_steal_pointer (&due);
  if (joint->minutes_left < 0)
    joint->state = BOND_BARE_OVERDUE;
  else if (joint->minutes_bare * SOON_DENOMINATOR >= hours * 60 * SOON_NUMERATOR)
    joint->state = BOND_BARE_SOON;
  g_ptr_array_add (joints, joint);
}

static int
compare_urgent_first (gconstpointer a, gconstpointer b)
{
  const BondBareJoint *first = *(BondBareJoint *const *)a;
  const BondBareJoint *second = *(BondBareJoint *const *)b;

  if (first->minutes_left != second->minutes_left)
    return first->minutes_left < second->minutes_left ? -1 : 1;
  return g_strcmp0 (bond_point_get_number (first->point), bond_point_get_number (second->point));
}

GPtrArray *
bond_bare_joints (BondSurvey *survey, const char *now)
{
  GPtrArray *joints;
  guint n;

  g_return_val_if_fail (BOND_IS_SURVEY (survey) && now != NULL, NULL);
  joints = g_ptr_array_new_with_free_func (joint_free);
  n = g_list_model_get_n_items (G_LIST_MODEL (survey));
  for (guint i = 0; i < n; i++)
    {
      g_autoptr (BondPoint) point = g_list_model_get_item (G_LIST_MODEL (survey), i);
      const char *since = bond_point_bare_since (point);

      if (since != NULL)
        add_joint (joints, point, since, bond_survey_get_house (survey)->bare_hours, now);
    }
  g_ptr_array_sort (joints, compare_urgent_first);
  return joints;
}

/* "10:15", "10:15 tomorrow", "10:15 yesterday", else with the day: a clock alone would be read as today's. */
static char *
clock_and_day (const char *iso, const char *now)
{
  g_autoptr (GDateTime) time = g_date_time_new_from_iso8601 (iso, NULL);
  g_autoptr (GDateTime) base = g_date_time_new_from_iso8601 (now, NULL);
  GDate day, today;
  int year, month, dom;

  if (time == NULL || base == NULL)
    return g_strdup (iso);
  g_date_time_get_ymd (time, &year, &month, &dom);
  g_date_clear (&day, 1);
  g_date_set_dmy (&day, dom, month, year);
  g_date_time_get_ymd (base, &year, &month, &dom);
  g_date_clear (&today, 1);
  g_date_set_dmy (&today, dom, month, year);
  switch (g_date_days_between (&today, &day))
    {
    case 0:
      return g_date_time_format (time, "%H:%M");
    case 1:
      return g_date_time_format (time, _ ("%H:%M tomorrow"));
    case -1:
      return g_date_time_format (time, _ ("%H:%M yesterday"));
    default:
      return g_date_time_format (time, _ ("%H:%M on %-d %b"));
    }
}

char *
bond_bare_words (const BondBareJoint *joint, const char *now)
{
  g_autofree char *bare = NULL;
  g_autofree char *due = NULL;

  g_return_val_if_fail (joint != NULL && now != NULL, NULL);
  bare = bond_words_minutes (joint->minutes_bare);
  due = clock_and_day (joint->due, now);
  return g_strdup_printf (joint->state == BOND_BARE_OVERDUE ? _ ("%s bare for %s, OVERDUE since %s")
                                                            : _ ("%s bare for %s, protect by %s"),
                          bond_point_get_number (joint->point), bare, due);
}

char *
bond_bare_warning (BondSurvey *survey, const char *now, BondBareState *state)
{
  g_autoptr (GPtrArray) joints = bond_bare_joints (survey, now);
  g_autofree char *first = NULL;
  guint n = 0;

  g_return_val_if_fail (joints != NULL && state != NULL, NULL);
  *state = BOND_BARE_OPEN;
  for (guint i = 0; i < joints->len; i++)
    n += ((BondBareJoint *)g_ptr_array_index (joints, i))->state != BOND_BARE_OPEN;
  if (n == 0)
    return NULL;
  *state = ((BondBareJoint *)g_ptr_array_index (joints, 0))->state;
  first = bond_bare_words (g_ptr_array_index (joints, 0), now);
  if (n == 1)
    return g_steal_pointer (&first);
  return g_strdup_printf (ngettext ("%s; %u more joint is due", "%s; %u more joints are due", n - 1), first, n - 1);
}
