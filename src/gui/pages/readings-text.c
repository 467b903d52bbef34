/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * CSV after RFC 4180: comma, CRLF, quotes doubled.  A cell that a spreadsheet would
 * take for a formula gets an apostrophe in front: words come from anybody's file.
 */
#include "gui/pages/readings-text.h"
#include "gui/identity-strip.h"
#include <string.h>

/* A cell never breaks the line: whatever would end it becomes a space. */
static void
add_tab_cell (GString *text, const char *cell, gboolean first)
{
  if (!first)
    g_string_append_c (text, '\t');
  for (const char *c = cell != NULL ? cell : ""; *c != '\0'; c++)
    g_string_append_c (text, g_ascii_iscntrl (*c) ? ' ' : *c);
}

char *
bond_readings_tsv (GPtrArray *rows, const int *order, int n_order)
{
  const BondReadingsColumn *columns = bond_readings_columns ();
  GString *text = g_string_new (NULL);
  int n = order != NULL ? n_order : BOND_N_READINGS_COLUMNS;

  g_return_val_if_fail (rows != NULL, NULL);
  for (int i = 0; i < n; i++)
    add_tab_cell (text, columns[order != NULL ? order[i] : i].file, i == 0);
  g_string_append_c (text, '\n');
  for (guint r = 0; r < rows->len; r++)
    {
      BondReadingsRow *row = g_ptr_array_index (rows, r);

      if (bond_readings_row_get_point (row) == NULL)
        continue;
      for (int i = 0; i < n; i++)
        {
          g_autofree char *cell = columns[order != NULL ? order[i] : i].cell (row);

          add_tab_cell (text, cell, i == 0);
        }
      g_string_append_c (text, '\n');
    }
  return g_string_free (text, FALSE);
}

void
bond_csv_add_cell (GString *csv, const char *text, gboolean first, gboolean number)
{
  const char *cell = text != NULL ? text : "";
  gboolean formula = !number && *cell != '\0' && strchr ("=+-@\t\r", *cell) != NULL;
  gboolean quoted = strpbrk (cell, ",\"\r\n") != NULL;

  g_return_if_fail (csv != NULL);
  if (!first)
    g_string_append_c (csv, ',');
  if (quoted)
    g_string_append_c (csv, '"');
  if (formula)
    g_string_append_c (csv, '\'');
  for (; *cell != '\0'; cell++)
    {
      if (*cell == '"')
        g_string_append_c (csv, '"');
      g_string_append_c (csv, *cell);
    }
  if (quoted)
    g_string_append_c (csv, '"');
}

GString *
bond_readings_csv_head (BondSurvey *survey, const char *filter, const char *now)
{
  const BondReadingsColumn *columns = bond_readings_columns ();
  GString *csv = g_string_new (NULL);
  g_autofree char *name = NULL;
  g_autofree char *comment = NULL;

  g_return_val_if_fail (BOND_IS_SURVEY (survey) && now != NULL, NULL);
  name = bond_identity_short (survey);
  comment = g_strdup_printf ("# survey %s %s; filter: %s; %s; UTF-8; Bondwright %s", name, bond_survey_get_id (survey),
                             filter != NULL ? filter : "none", now, BOND_VERSION);
  bond_csv_add_cell (csv, comment, TRUE, FALSE);
  g_string_append (csv, "\r\n");
  for (int i = 0; i < BOND_N_READINGS_COLUMNS; i++)
    bond_csv_add_cell (csv, columns[i].file, i == 0, FALSE);
  g_string_append (csv, "\r\n");
  return csv;
}

void
bond_readings_csv_add (GString *csv, BondReadingsRow *row)
{
  const BondReadingsColumn *columns = bond_readings_columns ();

  g_return_if_fail (csv != NULL && BOND_IS_READINGS_ROW (row));
  if (bond_readings_row_get_point (row) == NULL)
    return;
  for (int i = 0; i < BOND_N_READINGS_COLUMNS; i++)
    {
      g_autofree char *cell = columns[i].cell (row);

      bond_csv_add_cell (csv, cell, i == 0, columns[i].number);
    }
  g_string_append (csv, "\r\n");
}
