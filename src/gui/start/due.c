/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * Says of the register of instruments what cannot wait.  Which it is the library
 * knows.
 */
#include "gui/start/due.h"
#include "gui/words.h"
#include "library/library.h"
#include <glib/gi18n-lib.h>

void
bond_due_today (BondSource *source, GDate *today)
{
  g_autofree char *now = bond_source_now (source);
  g_autoptr (GDateTime) time = g_date_time_new_from_iso8601 (now, NULL);

  g_date_clear (today, 1);
  g_date_set_dmy (today, (GDateDay)g_date_time_get_day_of_month (time), (GDateMonth)g_date_time_get_month (time),
                  (GDateYear)g_date_time_get_year (time));
}

char *
bond_due_words (BondCatalog *catalog, BondSource *source, guint *n)
{
  g_autoptr (GPtrArray) instruments = NULL;
  g_autofree char *date = NULL;
  const BondInstrument *nearest;
  GDate today;
  int days;

  g_return_val_if_fail (catalog != NULL && source != NULL && n != NULL, NULL);
  instruments = bond_catalog_list (catalog, BOND_ADOPT_INSTRUMENT);
  bond_due_today (source, &today);
  nearest = bond_library_nearest_due (instruments, &today, &days, n);
  if (nearest == NULL)
    return NULL;
  date = bond_words_date (nearest->due);
  if (days < 0)
    return g_strdup_printf (ngettext ("%s was due for calibration on %s, %d day ago.",
                                      "%s was due for calibration on %s, %d days ago.", (gulong)-days),
                            nearest->name, date, -days);
  if (days == 0)
    return g_strdup_printf (_ ("%s is due for calibration today, %s."), nearest->name, date);
  return g_strdup_printf (ngettext ("%s is due for calibration on %s, in %d day.",
                                    "%s is due for calibration on %s, in %d days.", (gulong)days),
                          nearest->name, date, days);
}
