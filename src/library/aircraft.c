/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * Surveys by the aircraft they are of, and which instrument falls due next: what the
 * start window shows besides single files.  Pure: it reads nothing.
 */
#include "library/library.h"

#include <string.h>

gboolean
bond_survey_summary_is_open (const BondSurveySummary *summary)
{
  g_return_val_if_fail (summary != NULL, FALSE);
  return summary->open > 0 || summary->points == 0;
}

/* --- aircraft --- */

static void
aircraft_free (gpointer data)
{
  BondAircraft *aircraft = data;

  g_ptr_array_unref (aircraft->surveys);
  g_free (aircraft);
}

/* A registration may change hands; type and serial stay. Without a serial there is only the registration. */
static gboolean
is_same (const BondAircraft *aircraft, const BondSurveySummary *summary)
{
  if (g_strcmp0 (aircraft->aircraft_type, summary->aircraft_type) != 0)
    return FALSE;
  if (aircraft->serial != NULL && summary->serial != NULL)
    return g_str_equal (aircraft->serial, summary->serial);
  return g_strcmp0 (aircraft->registration, summary->registration) == 0;
}

static BondAircraft *
find_or_add (GPtrArray *all, const BondSurveySummary *summary)
{
  BondAircraft *aircraft;

  for (guint i = 0; i < all->len; i++)
    if (is_same (all->pdata[i], summary))
      return all->pdata[i];
  aircraft = g_new0 (BondAircraft, 1);
  aircraft->registration = summary->registration != NULL ? summary->registration : summary->serial;
  aircraft->aircraft_type = summary->aircraft_type;
  aircraft->airframe_name = summary->airframe_name;
  aircraft->serial = summary->serial;
  aircraft->surveys = g_ptr_array_new ();
  g_ptr_array_add (all, aircraft);
  return aircraft;
}

static int
compare_oldest_first (gconstpointer a, gconstpointer b)
{
  const BondSurveySummary *first = *(BondSurveySummary *const *)a;
  const BondSurveySummary *second = *(BondSurveySummary *const *)b;
  int order = g_strcmp0 (first->made_at, second->made_at);

  return order != 0 ? order : strcmp (first->path, second->path);
}

static void
settle (BondAircraft *aircraft)
{
  g_ptr_array_sort (aircraft->surveys, compare_oldest_first);
  for (guint i = aircraft->surveys->len; i-- > 0;)
    {
      const BondSurveySummary *summary = aircraft->surveys->pdata[i];

      aircraft->invented = aircraft->invented || summary->invented;
      if (aircraft->open == NULL && bond_survey_summary_is_open (summary))
        aircraft->open = summary;
    }
}

GPtrArray *
bond_library_aircraft (GPtrArray *summaries)
{
  GPtrArray *all = g_ptr_array_new_with_free_func (aircraft_free);

  g_return_val_if_fail (summaries != NULL, all);
  for (guint i = 0; i < summaries->len; i++)
    {
      BondSurveySummary *summary = summaries->pdata[i];

      if (summary->problem == NULL)
        g_ptr_array_add (find_or_add (all, summary)->surveys, summary);
    }
  for (guint i = 0; i < all->len; i++)
    settle (all->pdata[i]);
  return all;
}

/* --- what falls due --- */

/* The last valid day; a label that names only a month holds to its end. */
static gboolean
last_day (const char *due, GDate *day)
{
  gboolean month_only = strlen (due) == strlen ("2027-03");
  g_autofree char *iso = g_strdup_printf ("%s%sT00:00:00Z", due, month_only ? "-01" : "");
  g_autoptr (GDateTime) time = g_date_time_new_from_iso8601 (iso, NULL);

  if (time == NULL)
    return FALSE;
  g_date_set_dmy (day, (GDateDay)g_date_time_get_day_of_month (time), (GDateMonth)g_date_time_get_month (time),
                  (GDateYear)g_date_time_get_year (time));
  if (month_only)
    g_date_set_day (day, g_date_get_days_in_month (g_date_get_month (day), g_date_get_year (day)));
  return TRUE;
}

const BondInstrument *
bond_library_nearest_due (GPtrArray *instruments, const GDate *today, int *days, guint *n)
{
  const BondInstrument *nearest = NULL;

  g_return_val_if_fail (instruments != NULL && today != NULL && days != NULL && n != NULL, NULL);
  *n = 0;
  *days = 0;
  for (guint i = 0; i < instruments->len; i++)
    {
      const BondInstrument *instrument = instruments->pdata[i];
      GDate day;
      int left;

      g_date_clear (&day, 1);
      if (instrument->due == NULL || !last_day (instrument->due, &day))
        continue;
      left = g_date_days_between (today, &day);
      if (left > BOND_DUE_SOON_DAYS)
        continue;
      (*n)++;
      if (nearest == NULL || left < *days)
        {
          nearest = instrument;
          *days = left;
        }
    }
  return nearest;
}
