/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * Text on paper: one Pango layout, used over and over, and a table of the type
 * sizes of the report.  Lines stand on baselines with our own leading, so that a
 * substitute font changes the letters and not the rhythm of the page.  Where text
 * stands is left to the sections.
 */
#include "report/report-private.h"

typedef struct
{
  double size, leading;
  PangoWeight weight;
  PangoStyle style;
} Face;

static const Face faces[BOND_N_FACES] = {
  [BOND_FACE_TITLE] = { 24, 28, PANGO_WEIGHT_SEMIBOLD, PANGO_STYLE_NORMAL },
  [BOND_FACE_PAGE_TITLE] = { 17, 20, PANGO_WEIGHT_SEMIBOLD, PANGO_STYLE_NORMAL },
  [BOND_FACE_SUBTITLE] = { 11, 14, PANGO_WEIGHT_NORMAL, PANGO_STYLE_NORMAL },
  [BOND_FACE_HEADING] = { 11, 14, PANGO_WEIGHT_SEMIBOLD, PANGO_STYLE_NORMAL },
  [BOND_FACE_LEAD] = { 10, 14.5, PANGO_WEIGHT_NORMAL, PANGO_STYLE_NORMAL },
  [BOND_FACE_TEXT] = { 8.4, 12.6, PANGO_WEIGHT_NORMAL, PANGO_STYLE_NORMAL },
  [BOND_FACE_STRONG_TEXT] = { 8.4, 12.6, PANGO_WEIGHT_SEMIBOLD, PANGO_STYLE_NORMAL },
  [BOND_FACE_TABLE] = { 7.6, 9.6, PANGO_WEIGHT_NORMAL, PANGO_STYLE_NORMAL },
  [BOND_FACE_STRONG] = { 7.6, 9.6, PANGO_WEIGHT_SEMIBOLD, PANGO_STYLE_NORMAL },
  [BOND_FACE_ITALIC] = { 7.6, 9.6, PANGO_WEIGHT_NORMAL, PANGO_STYLE_ITALIC },
  [BOND_FACE_CAPTION] = { 6.9, 8.8, PANGO_WEIGHT_NORMAL, PANGO_STYLE_NORMAL },
  [BOND_FACE_SMALL] = { 6.5, 8.4, PANGO_WEIGHT_NORMAL, PANGO_STYLE_NORMAL },
  [BOND_FACE_SMALL_ITALIC] = { 6.5, 8.4, PANGO_WEIGHT_NORMAL, PANGO_STYLE_ITALIC },
  [BOND_FACE_NAME] = { 13, 16, PANGO_WEIGHT_SEMIBOLD, PANGO_STYLE_NORMAL },
  [BOND_FACE_TINY] = { 5.2, 6.5, PANGO_WEIGHT_SEMIBOLD, PANGO_STYLE_NORMAL },
};

struct _BondText
{
  PangoLayout *layout;
  PangoFontDescription *description[BOND_N_FACES];
};

/* No hinting: the same page must have the same lines on every device. */
static PangoContext *
make_context (void)
{
  PangoContext *context = pango_font_map_create_context (pango_cairo_font_map_get_default ());
  cairo_font_options_t *options = cairo_font_options_create ();

  cairo_font_options_set_hint_style (options, CAIRO_HINT_STYLE_NONE);
  cairo_font_options_set_hint_metrics (options, CAIRO_HINT_METRICS_OFF);
  pango_cairo_context_set_font_options (context, options);
  pango_cairo_context_set_resolution (context, 72);
  pango_context_set_round_glyph_positions (context, FALSE);
  cairo_font_options_destroy (options);
  return context;
}

BondText *
bond_text_new (const char *font)
{
  BondText *text = g_new0 (BondText, 1);
  PangoContext *context = make_context ();
  g_autoptr (PangoAttrList) attributes = pango_attr_list_new ();
  int i;

  text->layout = pango_layout_new (context);
  g_object_unref (context);
  pango_attr_list_insert (attributes, pango_attr_font_features_new ("tnum=1"));
  pango_layout_set_attributes (text->layout, attributes);
  pango_layout_set_wrap (text->layout, PANGO_WRAP_WORD_CHAR);
  for (i = 0; i < BOND_N_FACES; i++)
    {
      PangoFontDescription *description = pango_font_description_from_string (font);

      pango_font_description_set_absolute_size (description, faces[i].size * PANGO_SCALE);
      pango_font_description_set_weight (description, faces[i].weight);
      pango_font_description_set_style (description, faces[i].style);
      text->description[i] = description;
    }
  return text;
}

void
bond_text_free (BondText *text)
{
  int i;

  for (i = 0; i < BOND_N_FACES; i++)
    pango_font_description_free (text->description[i]);
  g_object_unref (text->layout);
  g_free (text);
}

double
bond_text_leading (BondFace face)
{
  return faces[face].leading;
}

/* @width < 0: as long as it is. @lines: how many before the ellipsis. */
static void
set_text (BondText *text, BondFace face, double width, int lines, const char *string)
{
  pango_layout_set_font_description (text->layout, text->description[face]);
  pango_layout_set_width (text->layout, width < 0 ? -1 : (int)(width * PANGO_SCALE));
  pango_layout_set_height (text->layout, -lines);
  pango_layout_set_ellipsize (text->layout, width < 0 ? PANGO_ELLIPSIZE_NONE : PANGO_ELLIPSIZE_END);
  pango_layout_set_single_paragraph_mode (text->layout, lines == 1);
  pango_layout_set_text (text->layout, string, -1);
}

static double
layout_width (BondText *text)
{
  PangoRectangle box;

  pango_layout_get_extents (text->layout, NULL, &box);
  return (double)box.width / PANGO_SCALE;
}

static void
show_line (cairo_t *cr, PangoLayoutLine *line, const BondRgb *ink, double x, double baseline)
{
  cairo_set_source_rgb (cr, ink->r, ink->g, ink->b);
  cairo_move_to (cr, x, baseline);
  pango_cairo_show_layout_line (cr, line);
}

double
bond_text_width (BondText *text, BondFace face, const char *string)
{
  set_text (text, face, -1, 1, string);
  return layout_width (text);
}

void
bond_text_line (BondText *text, cairo_t *cr, BondFace face, const BondRgb *ink, double x, double baseline, double width,
                double align, const char *string)
{
  double natural;

  if (string == NULL || *string == '\0')
    return;
  set_text (text, face, -1, 1, string);
  natural = layout_width (text);
  if (natural > width + 0.05)
    {
      set_text (text, face, width, 1, string);
      natural = width;
    }
  show_line (cr, pango_layout_get_line_readonly (text->layout, 0), ink, x + align * (width - natural), baseline);
}

int
bond_text_lines (BondText *text, BondFace face, double width, int most, const char *string)
{
  if (string == NULL || *string == '\0')
    return 0;
  set_text (text, face, width, most, string);
  return pango_layout_get_line_count (text->layout);
}

int
bond_text_wrapped (BondText *text, cairo_t *cr, BondFace face, const BondRgb *ink, double x, double baseline,
                   double width, int most, const char *string)
{
  int n = bond_text_lines (text, face, width, most, string), i;

  for (i = 0; i < n; i++)
    show_line (cr, pango_layout_get_line_readonly (text->layout, i), ink, x, baseline + i * faces[face].leading);
  return n;
}

int
bond_text_missing (BondText *text, const char *string)
{
  if (string == NULL || g_str_is_ascii (string))
    return 0;
  set_text (text, BOND_FACE_TABLE, -1, 1, string);
  return pango_layout_get_unknown_glyphs_count (text->layout);
}
