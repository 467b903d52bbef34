/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * The report as a whole: its sections in order, one table row each, laid out once
 * and drawn page by page, on any cairo context or into a PDF that is built in
 * memory.  What a page holds is left to the sections; saving is the caller's.
 */
#include "report/report-private.h"

#include <cairo-pdf.h>
#include <glib/gi18n-lib.h>
#include <string.h>

G_DEFINE_QUARK (bond - report - error - quark, bond_report_error)

static void (*const sections[]) (BondReport *report) = {
  bond_section_summary,  bond_section_diagrams,    bond_section_readings,
  bond_section_failures, bond_section_instruments, bond_section_sign_off,
};

typedef struct
{
  gpointer data;
  GDestroyNotify destroy;
} Owned;

static void
owned_free (gpointer data)
{
  Owned *owned = data;

  owned->destroy (owned->data);
  g_free (owned);
}

static void
outline_item_free (gpointer data)
{
  BondOutlineItem *item = data;

  g_free (item->title);
  g_free (item);
}

gpointer
bond_report_own (BondReport *report, gpointer data, GDestroyNotify destroy)
{
  Owned *owned = g_new (Owned, 1);

  owned->data = data;
  owned->destroy = destroy;
  g_ptr_array_add (report->owned, owned);
  return data;
}

void
bond_report_outline (BondReport *report, int level, const char *title)
{
  BondOutlineItem *item = g_new (BondOutlineItem, 1);

  item->title = g_strdup (title);
  item->level = level;
  item->page = (int)report->pages->len - 1;
  g_ptr_array_add (report->outline, item);
}

/* Characters for which this computer has no glyph: counted before anything is drawn. */
static void
count_missing (BondReport *report)
{
  guint i, n = g_list_model_get_n_items (G_LIST_MODEL (report->survey));
  GPtrArray *people = bond_survey_get_people (report->survey), *entries = bond_survey_get_entries (report->survey);

  for (i = 0; i < n; i++)
    {
      g_autoptr (BondPoint) point = g_list_model_get_item (G_LIST_MODEL (report->survey), i);
      const BondPointSpec *spec = bond_point_get_spec (point);

      report->missing_glyphs
          += bond_text_missing (report->text, spec->from) + bond_text_missing (report->text, spec->to);
    }
  for (i = 0; i < people->len; i++)
    report->missing_glyphs
        += bond_text_missing (report->text, ((const BondPerson *)g_ptr_array_index (people, i))->name);
  for (i = 0; i < entries->len; i++)
    report->missing_glyphs
        += bond_text_missing (report->text, ((const BondEntry *)g_ptr_array_index (entries, i))->reason);
}

/* Links may only lead to places that are there. */
static void
index_targets (BondReport *report)
{
  guint i;

  for (i = 0; i < report->blocks->len; i++)
    {
      const BondBlock *block = g_ptr_array_index (report->blocks, i);

      if (block->target != NULL)
        g_hash_table_insert (report->targets, block->target, GINT_TO_POINTER (block->page + 1));
    }
}

/* --- drawing --- */

static guint
first_block (BondReport *report, int page)
{
  return page < (int)report->pages->len ? g_array_index (report->pages, guint, page) : report->blocks->len;
}

static void
draw_linked (BondReport *report, cairo_t *cr, const BondBlock *block)
{
  g_autofree char *attributes = NULL;

  if (block->link == NULL || !g_hash_table_contains (report->targets, block->link))
    {
      block->draw (report, cr, block, block->y);
      return;
    }
  attributes = g_strdup_printf ("dest='%s'", block->link);
  cairo_tag_begin (cr, CAIRO_TAG_LINK, attributes);
  block->draw (report, cr, block, block->y);
  cairo_tag_end (cr, CAIRO_TAG_LINK);
}

static void
draw_block (BondReport *report, cairo_t *cr, const BondBlock *block)
{
  if (block->target != NULL)
    {
      g_autofree char *attributes = g_strdup_printf ("name='%s'", block->target);

      cairo_tag_begin (cr, CAIRO_TAG_DEST, attributes);
      cairo_move_to (cr, report->sheet.left, block->y);
      cairo_tag_end (cr, CAIRO_TAG_DEST);
    }
  if (block->tag != NULL)
    cairo_tag_begin (cr, block->tag, NULL);
  draw_linked (report, cr, block);
  if (block->tag != NULL)
    cairo_tag_end (cr, block->tag);
}

/* Neighbouring rows of a page are one table of the document's structure. */
static void
draw_blocks (BondReport *report, cairo_t *cr, int page)
{
  guint i, end = first_block (report, page + 1);
  gboolean in_table = FALSE;

  for (i = first_block (report, page); i < end; i++)
    {
      const BondBlock *block = g_ptr_array_index (report->blocks, i);
      gboolean row = g_strcmp0 (block->tag, "TR") == 0;

      if (row && !in_table)
        cairo_tag_begin (cr, "Table", NULL);
      if (!row && in_table)
        cairo_tag_end (cr, "Table");
      in_table = row;
      draw_block (report, cr, block);
    }
  if (in_table)
    cairo_tag_end (cr, "Table");
}

/* --- PDF --- */

static cairo_status_t
append_bytes (gpointer bytes, const unsigned char *data, unsigned int length)
{
  g_byte_array_append (bytes, data, length);
  return CAIRO_STATUS_SUCCESS;
}

static void
set_metadata (BondReport *report, cairo_surface_t *surface)
{
  const BondCreate *create = bond_survey_get_header (report->survey);
  const char *organisation = bond_survey_get_house (report->survey)->organisation;
  g_autofree char *title = g_strdup_printf (_ ("Electrical bonding survey %s"),
                                            create != NULL && create->registration != NULL ? create->registration : "");
  g_autofree char *subject = g_strdup_printf (_ ("Order %s, survey %s, draft, not signed"),
                                              create != NULL && create->order != NULL ? create->order : "\u2013",
                                              bond_survey_get_id (report->survey));

  cairo_pdf_surface_set_metadata (surface, CAIRO_PDF_METADATA_TITLE, g_strstrip (title));
  cairo_pdf_surface_set_metadata (surface, CAIRO_PDF_METADATA_SUBJECT, subject);
  if (organisation != NULL)
    cairo_pdf_surface_set_metadata (surface, CAIRO_PDF_METADATA_AUTHOR, organisation);
  cairo_pdf_surface_set_metadata (surface, CAIRO_PDF_METADATA_CREATOR, "Bondwright " BOND_VERSION);
  cairo_pdf_surface_set_metadata (surface, CAIRO_PDF_METADATA_CREATE_DATE, report->printed);
  cairo_pdf_surface_set_metadata (surface, CAIRO_PDF_METADATA_MOD_DATE, report->printed);
}

static int
add_outline_item (cairo_surface_t *surface, int parent, const char *title, int page)
{
  g_autofree char *attributes = g_strdup_printf ("page=%d", page + 1);

  return cairo_pdf_surface_add_outline (surface, parent, title, attributes, (cairo_pdf_outline_flags_t)0);
}

/* The page on which item @i of the outline ends. */
static int
last_page (BondReport *report, guint i)
{
  const BondOutlineItem *item = g_ptr_array_index (report->outline, i);

  if (i + 1 == report->outline->len)
    return (int)report->pages->len - 1;
  item = g_ptr_array_index (report->outline, i + 1);
  return item->level == 0 ? item->page - 1 : item->page;
}

/* Section, zone, page. */
static void
add_outline (BondReport *report, cairo_surface_t *surface)
{
  int section = CAIRO_PDF_OUTLINE_ROOT;
  guint i;

  for (i = 0; i < report->outline->len; i++)
    {
      const BondOutlineItem *item = g_ptr_array_index (report->outline, i);
      int id = add_outline_item (surface, item->level == 0 ? CAIRO_PDF_OUTLINE_ROOT : section, item->title, item->page);
      int page;

      if (item->level == 0)
        section = id;
      for (page = item->page; item->level > 0 && page <= last_page (report, i); page++)
        {
          g_autofree char *title = g_strdup_printf (_ ("Page %d"), page + 1);

          add_outline_item (surface, id, title, page);
        }
    }
}

static void
draw_document (BondReport *report, cairo_surface_t *surface)
{
  cairo_t *cr = cairo_create (surface);
  int page;

  /* Without a structure element around them links damage the file (cairo 1.16). */
  cairo_tag_begin (cr, "Document", NULL);
  for (page = 0; page < (int)report->pages->len; page++)
    {
      bond_report_draw_page (report, page, cr);
      cairo_show_page (cr);
    }
  cairo_tag_end (cr, "Document");
  cairo_destroy (cr);
}

/* --- public --- */

gboolean
bond_paper_parse (const char *text, BondPaper *paper)
{
  static const char *const names[] = { [BOND_PAPER_A4] = "a4", [BOND_PAPER_LETTER] = "letter" };
  guint i;

  g_return_val_if_fail (text != NULL && paper != NULL, FALSE);
  for (i = 0; i < G_N_ELEMENTS (names); i++)
    if (strcmp (text, names[i]) == 0)
      {
        *paper = (BondPaper)i;
        return TRUE;
      }
  return FALSE;
}

BondReport *
bond_report_new (BondSurvey *survey, const BondReportOptions *options)
{
  BondReport *report;
  guint i;

  g_return_val_if_fail (BOND_IS_SURVEY (survey) && options != NULL && options->printed != NULL, NULL);
  report = g_new0 (BondReport, 1);
  report->survey = g_object_ref (survey);
  report->font = g_strdup (options->font != NULL ? options->font : BOND_REPORT_FONT);
  report->printed = g_strdup (options->printed);
  report->mark = bond_locale_mark ();
  report->inks = bond_inks_one ();
  report->text = bond_text_new (report->font);
  report->blocks = g_ptr_array_new ();
  report->pages = g_array_new (FALSE, FALSE, sizeof (guint));
  report->owned = g_ptr_array_new_with_free_func (owned_free);
  report->outline = g_ptr_array_new_with_free_func (outline_item_free);
  report->targets = g_hash_table_new (g_str_hash, g_str_equal);
  bond_sheet_init (&report->sheet, options->paper);
  bond_survey_totals (survey, &report->totals);
  count_missing (report);
  for (i = 0; i < G_N_ELEMENTS (sections); i++)
    sections[i](report);
  index_targets (report);
  return report;
}

void
bond_report_free (BondReport *report)
{
  if (report == NULL)
    return;
  g_hash_table_unref (report->targets);
  g_ptr_array_unref (report->blocks);
  g_array_unref (report->pages);
  g_ptr_array_unref (report->outline);
  g_ptr_array_unref (report->owned);
  bond_text_free (report->text);
  g_free (report->font);
  g_free (report->printed);
  g_object_unref (report->survey);
  g_free (report);
}

int
bond_report_n_pages (BondReport *report)
{
  g_return_val_if_fail (report != NULL, 0);
  return (int)report->pages->len;
}

void
bond_report_page_size (BondReport *report, double *width_pt, double *height_pt)
{
  g_return_if_fail (report != NULL && width_pt != NULL && height_pt != NULL);
  *width_pt = report->sheet.width;
  *height_pt = report->sheet.height;
}

void
bond_report_draw_page (BondReport *report, int page, gpointer cr)
{
  g_return_if_fail (report != NULL && cr != NULL);
  g_return_if_fail (page >= 0 && page < (int)report->pages->len);

  draw_blocks (report, cr, page);
  bond_page_furniture (report, cr, page);
}

GBytes *
bond_report_pdf (BondSurvey *survey, const BondReportOptions *options, GError **error)
{
  g_autoptr (BondReport) report = NULL;
  g_autoptr (GByteArray) bytes = g_byte_array_new ();
  cairo_surface_t *surface;
  cairo_status_t status;

  g_return_val_if_fail (BOND_IS_SURVEY (survey) && options != NULL && options->printed != NULL, NULL);
  if (bond_survey_get_header (survey) == NULL)
    {
      g_set_error_literal (
          error, BOND_REPORT_ERROR, BOND_REPORT_ERROR_EMPTY,
          _ ("The survey says nothing about its aircraft yet, so there is nothing to report. Nothing was "
             "written."));
      return NULL;
    }
  report = bond_report_new (survey, options);
  surface = cairo_pdf_surface_create_for_stream (append_bytes, bytes, report->sheet.width, report->sheet.height);
  set_metadata (report, surface);
  draw_document (report, surface);
  add_outline (report, surface);
  /* Only now has everything been written, and only now does the status say so. */
  cairo_surface_finish (surface);
  status = cairo_surface_status (surface);
  cairo_surface_destroy (surface);
  if (status != CAIRO_STATUS_SUCCESS)
    {
      g_set_error (error, BOND_REPORT_ERROR, BOND_REPORT_ERROR_CAIRO,
                   _ ("The report could not be drawn (%s). Nothing was written; the survey is unchanged."),
                   cairo_status_to_string (status));
      return NULL;
    }
  return g_byte_array_free_to_bytes (g_steal_pointer (&bytes));
}
