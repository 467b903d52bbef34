/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * How long the report of 3,000 points takes, beside bare Pango and Cairo drawing as
 * many texts as the finished document holds words.  Prints; never fails for being
 * slow.
 */
#include "../report/report-hangar.h"

#include <cairo-pdf.h>
#include <pango/pangocairo.h>
#include <string.h>

#define N_POINTS 3000
#define TEXTS_PER_PAGE 400

static cairo_status_t
append_bytes (gpointer bytes, const unsigned char *data, unsigned int length)
{
  g_byte_array_append (bytes, data, length);
  return CAIRO_STATUS_SUCCESS;
}

/* One layout, one font, short texts of changing figures: what a table cannot be cheaper than. */
static double
bare (int n_texts, gsize *size)
{
  g_autoptr (GByteArray) bytes = g_byte_array_new ();
  cairo_surface_t *surface = cairo_pdf_surface_create_for_stream (append_bytes, bytes, 595.276, 841.89);
  cairo_t *cr = cairo_create (surface);
  PangoLayout *layout = pango_cairo_create_layout (cr);
  PangoFontDescription *font = pango_font_description_from_string ("Inter, Cantarell, DejaVu Sans, Sans 7.6px");
  gint64 start = g_get_monotonic_time ();
  int i;

  pango_layout_set_font_description (layout, font);
  for (i = 0; i < n_texts; i++)
    {
      char text[32];

      g_snprintf (text, sizeof text, "541-J%04d", i % 10000);
      pango_layout_set_text (layout, text, -1);
      cairo_move_to (cr, 50 + i % 8 * 60, 60 + i / 8 % 50 * 14);
      pango_cairo_show_layout (cr, layout);
      if (i % TEXTS_PER_PAGE == TEXTS_PER_PAGE - 1)
        cairo_show_page (cr);
    }
  pango_font_description_free (font);
  g_object_unref (layout);
  cairo_destroy (cr);
  cairo_surface_finish (surface);
  cairo_surface_destroy (surface);
  *size = bytes->len;
  return (double)(g_get_monotonic_time () - start) / 1e6;
}

int
main (void)
{
  g_autoptr (Hangar) h = report_hangar_new (TRUE);
  BondReportOptions options = { .paper = BOND_PAPER_A4, .printed = PRINTED };
  int round, n_pages;
  gsize bare_size = 0;

  report_hangar_fill (h, N_POINTS);
  for (round = 0; round < 3; round++)
    {
      gint64 start = g_get_monotonic_time ();
      g_autoptr (BondReport) report = bond_report_new (h->survey, &options);
      double laid = (double)(g_get_monotonic_time () - start) / 1e6, all, plain;
      g_autoptr (GBytes) pdf = NULL;

      n_pages = bond_report_n_pages (report);
      start = g_get_monotonic_time ();
      pdf = bond_report_pdf (h->survey, &options, NULL);
      all = (double)(g_get_monotonic_time () - start) / 1e6;
      plain = bare (N_POINTS * 14, &bare_size);
      g_print ("report of %d points, round %d: %.2f s (layout %.2f s), %d pages, %.2f MB; bare texts %.2f s, %.2f MB; "
               "ratio %.2f (budget: 3 s, 3 MB)\n",
               N_POINTS, round, all, laid, n_pages, (double)g_bytes_get_size (pdf) / 1e6, plain,
               (double)bare_size / 1e6, all / plain);
    }
  return 0;
}
