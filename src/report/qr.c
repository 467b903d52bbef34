/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * A square code as vector rectangles, so that it stays sharp in print and no
 * picture gets into the PDF.  The quiet zone, four modules wide (ISO/IEC 18004, from
 * memory), is the caller's: it leaves the paper around the code white.
 */
#include "report/report-private.h"

#include <qrencode.h>

/* Dark modules of one row, neighbours joined. */
static void
append_row (cairo_t *cr, const QRcode *code, int row)
{
  const unsigned char *data = code->data + row * code->width;
  int from, to;

  for (from = 0; from < code->width; from = to + 1)
    {
      for (to = from; to < code->width && (data[to] & 1); to++)
        ;
      if (to > from)
        cairo_rectangle (cr, from, row, to - from, 1);
    }
}

void
bond_qr_draw (cairo_t *cr, const char *string, double x, double y, double size)
{
  QRcode *code = QRcode_encodeString (string, 0, QR_ECLEVEL_M, QR_MODE_8, 1);
  double module;
  int row;

  if (code == NULL)
    return; /* out of memory or far too long: the page says the same in words */
  module = size / code->width;
  cairo_save (cr);
  cairo_translate (cr, x, y);
  cairo_scale (cr, module, module);
  for (row = 0; row < code->width; row++)
    append_row (cr, code, row);
  cairo_set_source_rgb (cr, 0, 0, 0);
  cairo_fill (cr);
  cairo_restore (cr);
  QRcode_free (code);
}
