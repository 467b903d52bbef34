/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * What the files of the report share.  A section lays out blocks, one below the
 * other, and the flow gives each its page; a page is then drawn from its blocks as
 * often as asked, so that preview, printer and PDF cannot differ.
 *
 * All measures are points (1/72 inch); y grows downwards.
 */
#pragma once

#include "report/diagram-painter.h"
#include "report/figures.h"
#include "report/report.h"

G_BEGIN_DECLS

#define BOND_REPORT_FONT "Inter, Cantarell, DejaVu Sans, Sans"

/** BondFace: the type sizes of the report; one row of a table in text.c each. */
typedef enum
{
  BOND_FACE_TITLE,
  BOND_FACE_PAGE_TITLE,
  BOND_FACE_SUBTITLE,
  BOND_FACE_HEADING,
  BOND_FACE_LEAD,
  BOND_FACE_TEXT,
  BOND_FACE_STRONG_TEXT,
  BOND_FACE_TABLE,
  BOND_FACE_STRONG,
  BOND_FACE_ITALIC,
  BOND_FACE_CAPTION,
  BOND_FACE_SMALL,
  BOND_FACE_SMALL_ITALIC,
  BOND_FACE_NAME,
  BOND_FACE_TINY,
} BondFace;
#define BOND_N_FACES 15

typedef struct _BondText BondText;

/** BondSheet: paper and margins. @left is wider, for binding. */
typedef struct
{
  double width, height;
  double left, right; /* x of both edges of the text */
  double top, bottom; /* y between which blocks stand */
  double head_rule, foot_rule;
} BondSheet;

typedef struct _BondBlock BondBlock;
/** BondDraw: draws @block with its top at @y. */
typedef void (*BondDraw) (BondReport *report, cairo_t *cr, const BondBlock *block, double y);

/**
 * BondBlock: what never parts over two pages.
 * @tag: structure element ("TR", "H1", "P", "Figure"), NULL for none; neighbouring TR are one table
 * @target, @link: name of the place this is, and of the place it leads to; owned, may be NULL
 */
struct _BondBlock
{
  BondDraw draw;
  gpointer data; /* borrowed; owned by the report through bond_report_own() */
  int index;
  int page;
  double y, height;
  const char *tag;
  char *target, *link;
};

/** BondHead: a block that returns on every page the table goes on over. */
typedef struct
{
  BondDraw draw;
  gpointer data;
  double height;
} BondHead;

/** BondOutlineItem of the outline: @level 0 section, 1 zone, 2 page. */
typedef struct
{
  char *title;
  int level;
  int page;
} BondOutlineItem;

struct _BondReport
{
  BondSurvey *survey;
  BondSheet sheet;
  char *font;
  char *printed;
  char mark; /* decimal mark */
  const BondInks *inks;
  BondText *text;
  BondTotals totals;

  GPtrArray *blocks;   /* of BondBlock */
  GArray *pages;       /* of guint: index of the first block of each page */
  GPtrArray *owned;    /* of Owned (private to report.c) */
  GPtrArray *outline;  /* of BondOutlineItem */
  GHashTable *targets; /* place name → page + 1 */
  int missing_glyphs;

  /* while laying out */
  double y;
  BondHead head;
  char *title; /* of the section, for the pages it goes on over */
};

/* --- report.c --- */
/** bond_report_own: frees @data with @destroy when the report is freed. Returns: @data */
gpointer bond_report_own (BondReport *report, gpointer data, GDestroyNotify destroy);
/** bond_report_outline: notes the current page. @title is copied. */
void bond_report_outline (BondReport *report, int level, const char *title);

/* --- text.c --- */
BondText *bond_text_new (const char *font);
void bond_text_free (BondText *text);
double bond_text_leading (BondFace face);
/** bond_text_width: of one line. */
double bond_text_width (BondText *text, BondFace face, const char *string);
/** bond_text_line: one line on @baseline, cut with an ellipsis at @width; @align 0 left, 0.5, 1 right within @width. */
void bond_text_line (BondText *text, cairo_t *cr, BondFace face, const BondRgb *ink, double x, double baseline,
                     double width, double align, const char *string);
/** bond_text_lines: number of lines when wrapped at @width, @most at most (then cut with an ellipsis). */
int bond_text_lines (BondText *text, BondFace face, double width, int most, const char *string);
/** bond_text_wrapped: the same drawn, first line on @baseline. Returns: number of lines */
int bond_text_wrapped (BondText *text, cairo_t *cr, BondFace face, const BondRgb *ink, double x, double baseline,
                       double width, int most, const char *string);
/** bond_text_missing: characters of @string for which no font here has a glyph. */
int bond_text_missing (BondText *text, const char *string);

/* --- page.c --- */
void bond_sheet_init (BondSheet *sheet, BondPaper paper);
/** bond_flow_break: begins a page, with the section's title and the running head on it where there are any. */
void bond_flow_break (BondReport *report);
/** bond_flow_need: begins a page unless @height is left. */
void bond_flow_need (BondReport *report, double height);
double bond_flow_left (BondReport *report);
void bond_flow_space (BondReport *report, double height);
BondBlock *bond_flow_add (BondReport *report, double height, const char *tag, BondDraw draw, gpointer data);
/** bond_flow_head: adds @head here and again at the top of each page from now on; NULL ends that. */
void bond_flow_head (BondReport *report, const BondHead *head);
/** bond_section_begin: a page of its own with its title, an outline entry. @note (nullable) stands at the right. */
void bond_section_begin (BondReport *report, const char *title, const char *note);
void bond_heading (BondReport *report, const char *title, const char *note);
/** bond_paragraph: a wrapped paragraph that may go on over pages line by line. */
void bond_paragraph (BondReport *report, BondFace face, const char *string);
void bond_rule (cairo_t *cr, double x1, double x2, double y, double width, double grey);
void bond_page_furniture (BondReport *report, cairo_t *cr, int page);

/* --- qr.c --- */
/** bond_qr_draw: @string as a square code of @size, one fill of rectangles; the caller leaves white around it. */
void bond_qr_draw (cairo_t *cr, const char *string, double x, double y, double size);

/* --- figures.c --- */
BondUnit bond_figure_unit (BondSurvey *survey, const BondPlaceResult *place, const BondLimitRow *row);
/** bond_figure_value: value of @measurement in @unit without it, with as many decimals as shown, "> 30" too; NULL if
 * none. */
char *bond_figure_value (BondReport *report, const BondMeasurement *measurement, BondUnit unit);
/** bond_figure_reading: one reading in @unit, without it. */
char *bond_figure_reading (BondReport *report, const BondReading *reading, BondUnit unit);
/** bond_figure_uncertainty: U in @unit, rounded up; a dash when it is not known; NULL where no value counts. */
char *bond_figure_uncertainty (BondReport *report, const BondMeasurement *measurement, BondUnit unit);
/** bond_figure_limit: bounds of @row under @tier as published; "no limit". */
char *bond_figure_limit (BondReport *report, const BondLimitRow *row, BondCondition tier);
/** bond_figure_time: "24 Nov 10:42" in the time it was recorded in; @with_year "24 Nov 2026, 10:42". (transfer full) */
char *bond_figure_time (const char *iso, gboolean with_year);
/** bond_figure_days: "24 November 2026", "23 to 24 November 2026" … of two times. (transfer full) */
char *bond_figure_days (const char *first, const char *last);
char *bond_figure_number (BondReport *report, double value, int decimals);
char *bond_upper_first (const char *string);

/* --- table.c --- */
typedef struct
{
  const char *title; /* marked for translation; may be NULL */
  double width;      /* points; 0 = what is left, once per table */
  double align;
  BondFace face;
  gboolean quiet;
} BondColumn;
#define BOND_MAX_COLUMNS 10

typedef struct _BondTable BondTable;
/** bond_table_begin: head line here and on every page it goes on over. @columns must outlive the report (static). */
BondTable *bond_table_begin (BondReport *report, const BondColumn *columns, int n_columns);
/** bond_table_row: one row, cells wrapped; a NULL cell is empty; strings are copied. @mark < 0: none (column 0
 * otherwise) */
BondBlock *bond_table_row (BondTable *table, int mark, const char *const *cells);
void bond_table_end (BondTable *table);
/** bond_table_total: a row set in bold above a heavier rule. */
void bond_table_total (BondTable *table, const char *const *cells);

/* --- callouts.c --- */
typedef struct
{
  double x, y;    /* the mark */
  gboolean right; /* which side its words stand at */
  double width;   /* of its words, from left_x or right_x on */
  double label_y; /* (out): baseline of the first of three lines */
} BondCallout;
#define BOND_CALLOUT_ASCENT 9.0 /* what the words take above and below their first baseline */
#define BOND_CALLOUT_DESCENT 23.0
/** BondSlots: heights at which words may stand on one side, ascending. */
#define BOND_MAX_SLOTS 40
typedef struct
{
  double y[BOND_MAX_SLOTS];
  int n;
} BondSlots;
/**
 * bond_callouts_place: gives each call-out one of the slots of its side so that no two leaders cross.
 * Returns: FALSE when that cannot be done: too few slots, or still crossing
 */
gboolean bond_callouts_place (BondCallout *callouts, int n, double left_x, double right_x, const BondSlots *left,
                              const BondSlots *right);
gboolean bond_callouts_cross (const BondCallout *a, const BondCallout *b, double left_x, double right_x);

/* --- sections --- */
void bond_section_summary (BondReport *report);
void bond_section_diagrams (BondReport *report);
void bond_section_readings (BondReport *report);
void bond_section_failures (BondReport *report);
void bond_section_instruments (BondReport *report);
void bond_section_sign_off (BondReport *report);

/** bond_report_is_plain: a plain pass (or nothing to say): no call-out, no block of its own. */
gboolean bond_report_is_plain (BondReport *report, BondPoint *point);
/** bond_report_has_story: what the failures section tells has happened to @point. */
gboolean bond_report_has_story (BondPoint *point);
/** bond_report_first_last: "3.12 → 1.41 mΩ", "2.48 mΩ" or NULL. (transfer full) */
char *bond_report_first_last (BondReport *report, BondPoint *point);
/** bond_report_days: days of the readings in words, "" without any. (transfer full)
 */
char *bond_report_days (BondReport *report);
/** bond_report_measurers: names of all who took readings, "–" when none. (transfer full) */
char *bond_report_measurers (BondReport *report);
/** bond_limit_scale_draw: part of the limit used, 0 to 150 %; @permille[0] the result, the rest grey; < 0 = none. */
void bond_limit_scale_draw (cairo_t *cr, double x, double y, double width, const gint64 *permille, int n);

G_END_DECLS
