/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * Sheet, flow and furniture: where blocks stand, when a page ends, and what every
 * page carries so that a loose sheet can be placed: organisation, aircraft, order,
 * page n of m, time of printing, that it is not signed, and a square code with the
 * same.  What blocks say is left to the sections.
 */
#include "report/report-private.h"

#include <glib/gi18n-lib.h>

#define MARGIN_LEFT 52 /* binding */
#define MARGIN_RIGHT 46
#define HEAD_RULE 45
#define FOOT_RULE 50 /* above the lower edge */
#define TITLE_HEIGHT 42
#define QR_SIZE 27

void
bond_sheet_init (BondSheet *sheet, BondPaper paper)
{
  /* ISO 216 A4 is 210 x 297 mm; Letter is 8.5 x 11 in. */
  sheet->width = paper == BOND_PAPER_LETTER ? 612 : 595.276;
  sheet->height = paper == BOND_PAPER_LETTER ? 792 : 841.890;
  sheet->left = MARGIN_LEFT;
  sheet->right = sheet->width - MARGIN_RIGHT;
  sheet->head_rule = HEAD_RULE;
  sheet->foot_rule = sheet->height - FOOT_RULE;
  sheet->top = HEAD_RULE + 17;
  sheet->bottom = sheet->foot_rule - 12;
}

void
bond_rule (cairo_t *cr, double x1, double x2, double y, double width, double grey)
{
  cairo_set_source_rgb (cr, grey, grey, grey);
  cairo_set_line_width (cr, width);
  cairo_move_to (cr, x1, y);
  cairo_line_to (cr, x2, y);
  cairo_stroke (cr);
}

/* --- flow --- */

static void
block_free (gpointer data)
{
  BondBlock *block = data;

  g_free (block->target);
  g_free (block->link);
  g_free (block);
}

static BondBlock *
append_block (BondReport *report, double height, const char *tag, BondDraw draw, gpointer data)
{
  BondBlock *block = g_new0 (BondBlock, 1);

  block->draw = draw;
  block->data = data;
  block->height = height;
  block->tag = tag;
  block->page = (int)report->pages->len - 1;
  block->y = report->y;
  report->y += height;
  g_ptr_array_set_free_func (report->blocks, block_free);
  g_ptr_array_add (report->blocks, block);
  return block;
}

static void
draw_continued (BondReport *report, cairo_t *cr, const BondBlock *block, double y)
{
  const char *title = block->data;
  double width = bond_text_width (report->text, BOND_FACE_HEADING, title);
  double most = report->sheet.right - report->sheet.left - 70;

  width = MIN (width, most);
  bond_text_line (report->text, cr, BOND_FACE_HEADING, &report->inks->text, report->sheet.left, y + 14, most, 0, title);
  bond_text_line (report->text, cr, BOND_FACE_TABLE, &report->inks->quiet, report->sheet.left + width + 7, y + 14, 63,
                  0, _ ("continued"));
}

static void
begin_page (BondReport *report)
{
  guint first = report->blocks->len;

  g_array_append_val (report->pages, first);
  report->y = report->sheet.top;
}

void
bond_flow_break (BondReport *report)
{
  begin_page (report);
  if (report->title != NULL)
    append_block (report, 24, "H2", draw_continued, report->title);
  if (report->head.draw != NULL)
    append_block (report, report->head.height, "TR", report->head.draw, report->head.data);
}

double
bond_flow_left (BondReport *report)
{
  return report->sheet.bottom - report->y;
}

void
bond_flow_need (BondReport *report, double height)
{
  if (height > bond_flow_left (report))
    bond_flow_break (report);
}

void
bond_flow_space (BondReport *report, double height)
{
  report->y += height;
}

BondBlock *
bond_flow_add (BondReport *report, double height, const char *tag, BondDraw draw, gpointer data)
{
  bond_flow_need (report, height);
  return append_block (report, height, tag, draw, data);
}

void
bond_flow_head (BondReport *report, const BondHead *head)
{
  report->head = head != NULL ? *head : (BondHead){ 0 };
  if (head == NULL)
    return;
  if (head->height + 40 > bond_flow_left (report))
    bond_flow_break (report);
  else
    append_block (report, head->height, "TR", head->draw, head->data);
}

typedef struct
{
  char *title, *note;
} Title;

static void
title_free (gpointer data)
{
  Title *title = data;

  g_free (title->title);
  g_free (title->note);
  g_free (title);
}

static Title *
own_title (BondReport *report, const char *title, const char *note)
{
  Title *pair = g_new0 (Title, 1);

  pair->title = g_strdup (title);
  pair->note = g_strdup (note);
  return bond_report_own (report, pair, title_free);
}

/* The note takes what the title leaves. */
static void
draw_pair (BondReport *report, cairo_t *cr, const Title *title, BondFace face, double baseline)
{
  const BondSheet *sheet = &report->sheet;
  double all = sheet->right - sheet->left;
  double width = MIN (bond_text_width (report->text, face, title->title), all);

  bond_text_line (report->text, cr, face, &report->inks->text, sheet->left, baseline, all, 0, title->title);
  if (title->note != NULL && all - width > 40)
    bond_text_line (report->text, cr, BOND_FACE_TABLE, &report->inks->quiet, sheet->left + width + 16, baseline,
                    all - width - 16, 1, title->note);
}

static void
draw_title (BondReport *report, cairo_t *cr, const BondBlock *block, double y)
{
  draw_pair (report, cr, block->data, BOND_FACE_PAGE_TITLE, y + 19);
}

static void
draw_heading (BondReport *report, cairo_t *cr, const BondBlock *block, double y)
{
  draw_pair (report, cr, block->data, BOND_FACE_HEADING, y + 11);
}

void
bond_section_begin (BondReport *report, const char *title, const char *note)
{
  report->head = (BondHead){ 0 };
  report->title = NULL;
  begin_page (report);
  bond_report_outline (report, 0, title);
  append_block (report, TITLE_HEIGHT, "H1", draw_title, own_title (report, title, note));
  report->title = bond_report_own (report, g_strdup (title), g_free);
}

void
bond_heading (BondReport *report, const char *title, const char *note)
{
  bond_flow_need (report, 62);
  if (report->y > report->sheet.top + TITLE_HEIGHT + 2)
    bond_flow_space (report, 14);
  bond_flow_add (report, 17, "H2", draw_heading, own_title (report, title, note));
}

typedef struct
{
  BondFace face;
  char *string;
  int lines;
} Paragraph;

static void
paragraph_free (gpointer data)
{
  Paragraph *paragraph = data;

  g_free (paragraph->string);
  g_free (paragraph);
}

static void
draw_paragraph (BondReport *report, cairo_t *cr, const BondBlock *block, double y)
{
  const Paragraph *paragraph = block->data;

  bond_text_wrapped (report->text, cr, paragraph->face, &report->inks->text, report->sheet.left,
                     y + bond_text_leading (paragraph->face) * 0.76, report->sheet.right - report->sheet.left, 1000,
                     paragraph->string);
}

void
bond_paragraph (BondReport *report, BondFace face, const char *string)
{
  Paragraph *paragraph = g_new0 (Paragraph, 1);

  paragraph->face = face;
  paragraph->string = g_strdup (string);
  paragraph->lines
      = bond_text_lines (report->text, face, report->sheet.right - report->sheet.left, 1000, paragraph->string);
  bond_report_own (report, paragraph, paragraph_free);
  bond_flow_add (report, paragraph->lines * bond_text_leading (face) + 3, "P", draw_paragraph, paragraph);
}

/* --- furniture --- */

static const char *
or_dash (const char *string)
{
  return string != NULL && *string != '\0' ? string : "\u2013";
}

/* One piece of the head, right-aligned at *@end, which moves left past it; left out where there is no room for it. */
static void
draw_head_piece (BondReport *report, cairo_t *cr, BondFace face, const BondRgb *ink, double from, double *end,
                 const char *string)
{
  double width = string != NULL ? bond_text_width (report->text, face, string) : 0;

  width = MIN (width, *end - from);
  if (width < 16)
    return;
  bond_text_line (report->text, cr, face, ink, *end - width, report->sheet.head_rule - 6.5, width, 1, string);
  *end -= width + 9;
}

/* The registration and the order are never crowded out; the title takes what they leave. */
static void
draw_head (BondReport *report, cairo_t *cr, const BondCreate *create)
{
  const BondSheet *sheet = &report->sheet;
  const BondInks *inks = report->inks;
  const char *organisation = or_dash (bond_survey_get_house (report->survey)->organisation);
  const char *invented = create != NULL && create->invented ? _ ("INVENTED EXAMPLE DATA") : NULL;
  double most = (sheet->right - sheet->left) * 0.32, end = sheet->right, baseline = sheet->head_rule - 6.5;
  double left = MIN (bond_text_width (report->text, BOND_FACE_STRONG, organisation), most) + sheet->left;
  double room = invented != NULL ? bond_text_width (report->text, BOND_FACE_STRONG, invented) + 24 : 12;

  bond_text_line (report->text, cr, BOND_FACE_STRONG, &inks->text, sheet->left, baseline, left - sheet->left, 0,
                  organisation);
  if (create == NULL)
    return;
  draw_head_piece (report, cr, BOND_FACE_STRONG, &inks->text, end - 90, &end, or_dash (create->registration));
  draw_head_piece (report, cr, BOND_FACE_TABLE, &inks->text, end - 90, &end, create->order);
  draw_head_piece (report, cr, BOND_FACE_TABLE, &inks->quiet, left + room, &end, create->title);
  if (invented != NULL)
    bond_text_line (report->text, cr, BOND_FACE_STRONG, &inks->text, left, baseline, end + 9 - left, 0.5, invented);
}

static void
draw_foot (BondReport *report, cairo_t *cr, const BondCreate *create, int page)
{
  const BondSheet *sheet = &report->sheet;
  const BondInks *inks = report->inks;
  int n = (int)report->pages->len;
  double first = sheet->foot_rule + 14, second = first + 11, end = sheet->right - QR_SIZE - 11;
  g_autofree char *printed_at = bond_figure_time (report->printed, TRUE);
  g_autofree char *of = g_strdup_printf (_ ("Page %d of %d"), page + 1, n);
  g_autofree char *printed = g_strdup_printf (_ ("Printed %s"), printed_at);
  g_autofree char *name
      = g_strdup_printf (_ ("Bonding survey report %s"), create != NULL ? or_dash (create->order) : "");
  g_autofree char *id = g_strdup_printf (_ ("Survey %s"), bond_survey_get_id (report->survey));
  g_autofree char *code
      = g_strdup_printf ("bondwright:%s?page=%d&of=%d", bond_survey_get_id (report->survey), page + 1, n);
  double width = MIN (bond_text_width (report->text, BOND_FACE_TABLE, name), 220);

  bond_text_line (report->text, cr, BOND_FACE_TABLE, &inks->text, sheet->left, first, width, 0, name);
  bond_text_line (report->text, cr, BOND_FACE_STRONG, &inks->text, sheet->left + width + 10, first, 120, 0,
                  _ ("DRAFT, not signed"));
  bond_text_line (report->text, cr, BOND_FACE_CAPTION, &inks->quiet, sheet->left, second, 300, 0, id);
  bond_text_line (report->text, cr, BOND_FACE_STRONG, &inks->text, end - 100, first, 100, 1, of);
  bond_text_line (report->text, cr, BOND_FACE_CAPTION, &inks->quiet, end - 150, second, 150, 1, printed);
  bond_qr_draw (cr, code, sheet->right - QR_SIZE, sheet->foot_rule + 7, QR_SIZE);
}

void
bond_page_furniture (BondReport *report, cairo_t *cr, int page)
{
  const BondSheet *sheet = &report->sheet;
  const BondCreate *create = bond_survey_get_header (report->survey);

  draw_head (report, cr, create);
  bond_rule (cr, sheet->left, sheet->right, sheet->head_rule, 0.8, 0);
  bond_rule (cr, sheet->left, sheet->right, sheet->foot_rule, 0.8, 0);
  draw_foot (report, cr, create, page);
}
