/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * Order by figures is exact: whole nano-ohms, never text.  Words are in the order of
 * the user's language, numbers of points in that of the digits in them.
 */
#include "gui/pages/readings-compare.h"
#include "gui/pages/readings-columns.h"
#include <string.h>

static const BondPointSpec *
spec_of (BondReadingsRow *row)
{
  return bond_point_get_spec (bond_readings_row_get_point (row));
}

static int
order (gint64 a, gint64 b)
{
  return (a > b) - (a < b);
}

/* --- words --- */

int
bond_readings_compare_verdict (BondReadingsRow *a, BondReadingsRow *b)
{
  return bond_state_rank (bond_readings_row_get_result (b)->state)
         - bond_state_rank (bond_readings_row_get_result (a)->state);
}

/* Digits as the number they make: of two without leading noughts the longer one is greater. */
static int
compare_digits (const char **a, const char **b)
{
  gsize n[2], zeros[2] = { strspn (*a, "0"), strspn (*b, "0") };
  const char *from[2] = { *a + zeros[0], *b + zeros[1] };
  int difference;

  n[0] = strspn (from[0], "0123456789");
  n[1] = strspn (from[1], "0123456789");
  *a = from[0] + n[0];
  *b = from[1] + n[1];
  difference = order ((gint64)n[0], (gint64)n[1]);
  return difference != 0 ? difference : strncmp (from[0], from[1], n[0]);
}

static int
compare_numbers (const char *a, const char *b)
{
  while (*a != '\0' && *b != '\0')
    {
      if (g_ascii_isdigit (*a) && g_ascii_isdigit (*b))
        {
          int difference = compare_digits (&a, &b);

          if (difference != 0)
            return difference;
        }
      else if (*a != *b)
        return (guchar)*a - (guchar)*b;
      else
        a++, b++;
    }
  return (*a != '\0') - (*b != '\0');
}

int
bond_readings_compare_point (BondReadingsRow *a, BondReadingsRow *b)
{
  return compare_numbers (spec_of (a)->number, spec_of (b)->number);
}

int
bond_readings_compare_what (BondReadingsRow *a, BondReadingsRow *b)
{
  return g_utf8_collate (spec_of (a)->from, spec_of (b)->from);
}

int
bond_readings_compare_class (BondReadingsRow *a, BondReadingsRow *b)
{
  return (int)spec_of (a)->klass - (int)spec_of (b)->klass;
}

int
bond_readings_compare_zone (BondReadingsRow *a, BondReadingsRow *b)
{
  return compare_numbers (spec_of (a)->zone, spec_of (b)->zone);
}

int
bond_readings_compare_meter (BondReadingsRow *a, BondReadingsRow *b)
{
  return g_strcmp0 (bond_readings_row_get_instrument (a), bond_readings_row_get_instrument (b));
}

static const char *
by_of (BondReadingsRow *row)
{
  const BondMeasurement *value = bond_readings_row_get_value (row);
  const char *name = value != NULL && value->by != NULL
                         ? bond_survey_person_name (bond_readings_row_get_survey (row), value->by)
                         : NULL;

  return name != NULL ? name : "";
}

int
bond_readings_compare_by (BondReadingsRow *a, BondReadingsRow *b)
{
  return g_utf8_collate (by_of (a), by_of (b));
}

/* --- times --- */

static gint64
moment_of (const char *iso)
{
  g_autoptr (GDateTime) time = g_date_time_new_from_iso8601 (iso, NULL);

  return time != NULL ? g_date_time_to_unix (time) : G_MININT64;
}

/* Two stations may keep different time; where the offsets are alike the text is in the order of time. */
int
bond_readings_compare_when (BondReadingsRow *a, BondReadingsRow *b)
{
  const BondMeasurement *first = bond_readings_row_get_value (a), *second = bond_readings_row_get_value (b);
  const char *at[2] = { first != NULL ? first->at : NULL, second != NULL ? second->at : NULL };
  gsize length;

  if (at[0] == NULL || at[1] == NULL)
    return (at[0] != NULL) - (at[1] != NULL);
  length = strlen (at[0]);
  if (length == strlen (at[1]) && length > 6 && strcmp (at[0] + length - 6, at[1] + length - 6) == 0)
    return strcmp (at[0], at[1]);
  return order (moment_of (at[0]), moment_of (at[1]));
}

/* --- figures --- */

static int
compare_values (const BondMeasurement *a, const BondMeasurement *b)
{
  static const int side[] = { [BOND_QUALIFIER_NONE] = 0, [BOND_QUALIFIER_OVER] = 1, [BOND_QUALIFIER_BELOW] = -1 };
  int difference;

  if (a == NULL || b == NULL || a->mean.count == 0 || b->mean.count == 0)
    return (a != NULL && a->mean.count > 0) - (b != NULL && b->mean.count > 0);
  difference = order (bond_mean_nohm (&a->mean), bond_mean_nohm (&b->mean));
  return difference != 0 ? difference : side[a->qualifier] - side[b->qualifier];
}

int
bond_readings_compare_found (BondReadingsRow *a, BondReadingsRow *b)
{
  return compare_values (bond_readings_row_get_result (a)->found, bond_readings_row_get_result (b)->found);
}

int
bond_readings_compare_result (BondReadingsRow *a, BondReadingsRow *b)
{
  return compare_values (bond_readings_row_get_value (a), bond_readings_row_get_value (b));
}

static gint64
u_of (BondReadingsRow *row)
{
  return bond_readings_blank_u (row) ? -1 : bond_readings_row_get_value (row)->budget.u_nohm;
}

int
bond_readings_compare_u (BondReadingsRow *a, BondReadingsRow *b)
{
  return order (u_of (a), u_of (b));
}

int
bond_readings_compare_used (BondReadingsRow *a, BondReadingsRow *b)
{
  return order (bond_readings_used (a), bond_readings_used (b));
}

/* By the bound above; a row that has none by the one below. */
static gint64
limit_of (BondReadingsRow *row)
{
  const BondBounds *bounds = bond_readings_bounds (row);

  if (bounds == NULL)
    return -1;
  return bounds->upper.relation != BOND_RELATION_NONE ? bounds->upper.nohm : bounds->lower.nohm;
}

int
bond_readings_compare_limit (BondReadingsRow *a, BondReadingsRow *b)
{
  return order (limit_of (a), limit_of (b));
}

/* --- blanks --- */

static gboolean
no_figure (const BondMeasurement *measurement)
{
  return measurement == NULL || measurement->mean.count == 0;
}

gboolean
bond_readings_blank_limit (BondReadingsRow *row)
{
  const BondBounds *bounds = bond_readings_bounds (row);

  return bounds == NULL || !bond_bounds_any (bounds);
}

gboolean
bond_readings_blank_found (BondReadingsRow *row)
{
  const BondMeasurement *found = bond_readings_row_get_result (row)->found;

  return no_figure (found) || found == bond_readings_row_get_value (row);
}

gboolean
bond_readings_blank_value (BondReadingsRow *row)
{
  return no_figure (bond_readings_row_get_value (row));
}

gboolean
bond_readings_blank_u (BondReadingsRow *row)
{
  const BondMeasurement *value = bond_readings_row_get_value (row);

  return no_figure (value) || value->qualifier != BOND_QUALIFIER_NONE || !value->budget.known;
}

gboolean
bond_readings_blank_used (BondReadingsRow *row)
{
  return bond_readings_used (row) < 0;
}
