/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * A plain table that goes on over pages: a row of static columns, a head that
 * comes back on every page, cells that wrap and rows that grow with them.  Rules lie
 * between rows and never between columns.  The readings have their own rows.
 */
#include "report/report-private.h"

#include <glib/gi18n-lib.h>

#define GAP 7 /* between columns */
#define PAD 3.2
#define HEAD_HEIGHT 16
#define MOST_LINES 30
#define MARK_WIDTH 16

struct _BondTable
{
  BondReport *report;
  const BondColumn *columns;
  int n_columns;
  double x[BOND_MAX_COLUMNS], width[BOND_MAX_COLUMNS];
  guint n_rows;
};

typedef struct
{
  const BondTable *table;
  int mark;
  gboolean total;
  char *cell[BOND_MAX_COLUMNS];
} Row;

static void
row_free (gpointer data)
{
  Row *row = data;
  int i;

  for (i = 0; i < BOND_MAX_COLUMNS; i++)
    g_free (row->cell[i]);
  g_free (row);
}

static void
place_columns (BondTable *table)
{
  const BondSheet *sheet = &table->report->sheet;
  double x = sheet->left, fixed = 0;
  int i;

  for (i = 0; i < table->n_columns; i++)
    fixed += table->columns[i].width + (i > 0 ? GAP : 0);
  for (i = 0; i < table->n_columns; i++)
    {
      double width = table->columns[i].width;

      table->x[i] = x;
      table->width[i] = width > 0 ? width : sheet->right - sheet->left - fixed;
      x += table->width[i] + GAP;
    }
}

static void
draw_head (BondReport *report, cairo_t *cr, const BondBlock *block, double y)
{
  const BondTable *table = block->data;
  const BondSheet *sheet = &report->sheet;
  int i;

  bond_rule (cr, sheet->left, sheet->right, y, 0.8, 0);
  for (i = 0; i < table->n_columns; i++)
    if (table->columns[i].title != NULL)
      bond_text_line (report->text, cr, BOND_FACE_CAPTION, &report->inks->quiet, table->x[i], y + 11, table->width[i],
                      table->columns[i].align, _ (table->columns[i].title));
  bond_rule (cr, sheet->left, sheet->right, y + HEAD_HEIGHT, 0.4, 0);
}

static BondFace
cell_face (const Row *row, int i)
{
  BondFace face = row->table->columns[i].face;

  return row->total && face == BOND_FACE_TABLE ? BOND_FACE_STRONG : face;
}

static void
draw_cell (BondReport *report, cairo_t *cr, const Row *row, int i, double y)
{
  const BondColumn *column = &row->table->columns[i];
  const BondRgb *ink = column->quiet && !row->total ? &report->inks->quiet : &report->inks->text;
  BondFace face = cell_face (row, i);
  double x = row->table->x[i], width = row->table->width[i], baseline = y + PAD + bond_text_leading (face) * 0.76;

  if (row->cell[i] == NULL)
    return;
  if (column->align > 0)
    bond_text_line (report->text, cr, face, ink, x, baseline, width, column->align, row->cell[i]);
  else
    bond_text_wrapped (report->text, cr, face, ink, x, baseline, width, MOST_LINES, row->cell[i]);
}

static void
draw_row (BondReport *report, cairo_t *cr, const BondBlock *block, double y)
{
  const Row *row = block->data;
  const BondSheet *sheet = &report->sheet;
  int i;

  if (row->mark >= 0)
    bond_mark_draw (cr, (BondMark)row->mark, sheet->left + MARK_WIDTH / 2.0 - 1, y + PAD + 5, 8, report->inks);
  for (i = 0; i < row->table->n_columns; i++)
    draw_cell (report, cr, row, i, y);
  bond_rule (cr, sheet->left, sheet->right, y + block->height, row->total ? 0.8 : 0.3, row->total ? 0 : 0.65);
}

static double
row_height (const Row *row)
{
  double height = bond_text_leading (BOND_FACE_TABLE);
  int i;

  for (i = 0; i < row->table->n_columns; i++)
    {
      BondFace face = cell_face (row, i);
      int lines = row->table->columns[i].align > 0 ? 1
                                                   : bond_text_lines (row->table->report->text, face,
                                                                      row->table->width[i], MOST_LINES, row->cell[i]);

      height = MAX (height, lines * bond_text_leading (face));
    }
  return height + 2 * PAD;
}

static BondBlock *
add_row (BondTable *table, int mark, gboolean total, const char *const *cells)
{
  Row *row = bond_report_own (table->report, g_new0 (Row, 1), row_free);
  int i;

  row->table = table;
  row->mark = mark;
  row->total = total;
  for (i = 0; i < table->n_columns; i++)
    row->cell[i] = g_strdup (cells[i]);
  table->n_rows++;
  return bond_flow_add (table->report, row_height (row), "TR", draw_row, row);
}

BondTable *
bond_table_begin (BondReport *report, const BondColumn *columns, int n_columns)
{
  BondTable *table = bond_report_own (report, g_new0 (BondTable, 1), g_free);
  BondHead head = { draw_head, table, HEAD_HEIGHT };

  table->report = report;
  table->columns = columns;
  table->n_columns = n_columns;
  place_columns (table);
  bond_flow_head (report, &head);
  return table;
}

BondBlock *
bond_table_row (BondTable *table, int mark, const char *const *cells)
{
  return add_row (table, mark, FALSE, cells);
}

void
bond_table_total (BondTable *table, const char *const *cells)
{
  add_row (table, -1, TRUE, cells);
}

void
bond_table_end (BondTable *table)
{
  table->report->head = (BondHead){ 0 };
}
