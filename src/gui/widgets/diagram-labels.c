/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * Taken boxes are entered in a coarse grid of pixels, for a close-up holds a few
 * hundred marks and labels and each is asked against all.
 */
#include "gui/widgets/diagram-labels.h"

#include <math.h>

#define CELL 64.0       /* pixels of the grid that finds neighbours */
#define KEEP_TEXTS 3000 /* made-up texts kept before all are dropped */
#define HALO_WIDTH 3.0

typedef struct
{
  double scale;
  PangoWeight weight;
  int spacing; /* thousandths of a point */
} KindInfo;

static const KindInfo kinds[BOND_N_LABEL_KINDS] = {
  [BOND_LABEL_PLAIN] = { 0.86, PANGO_WEIGHT_MEDIUM, 0 }, [BOND_LABEL_STRONG] = { 1.1, PANGO_WEIGHT_BOLD, 0 },
  [BOND_LABEL_DIGIT] = { 0.9, PANGO_WEIGHT_BOLD, 0 },    [BOND_LABEL_SIDE] = { 0.86, PANGO_WEIGHT_BOLD, 1500 },
  [BOND_LABEL_ZONE] = { 0.82, PANGO_WEIGHT_NORMAL, 0 },  [BOND_LABEL_ZONE_SMALL] = { 0.68, PANGO_WEIGHT_NORMAL, 0 },
  [BOND_LABEL_COUNT] = { 0.72, PANGO_WEIGHT_BOLD, 0 },
};

struct _BondLabeller
{
  PangoContext *context;
  PangoFontDescription *font;
  GHashTable *texts[BOND_N_LABEL_KINDS]; /* text → PangoLayout */
  GHashTable *cells;                     /* cell → GArray of BondBox */
};

static gpointer
cell_key (int column, int row)
{
  return GINT_TO_POINTER ((row + 512) * 4096 + column + 512);
}

BondLabeller *
bond_labeller_new (void)
{
  BondLabeller *labeller = g_new0 (BondLabeller, 1);
  guint i;

  for (i = 0; i < BOND_N_LABEL_KINDS; i++)
    labeller->texts[i] = g_hash_table_new_full (g_str_hash, g_str_equal, g_free, g_object_unref);
  labeller->cells = g_hash_table_new_full (NULL, NULL, NULL, (GDestroyNotify)g_array_unref);
  return labeller;
}

void
bond_labeller_free (BondLabeller *labeller)
{
  guint i;

  if (labeller == NULL)
    return;
  for (i = 0; i < BOND_N_LABEL_KINDS; i++)
    g_hash_table_unref (labeller->texts[i]);
  g_hash_table_unref (labeller->cells);
  g_clear_object (&labeller->context);
  g_clear_pointer (&labeller->font, pango_font_description_free);
  g_free (labeller);
}

void
bond_labeller_begin (BondLabeller *labeller, PangoContext *context)
{
  const PangoFontDescription *font = pango_context_get_font_description (context);
  guint i, n_texts = 0;

  g_hash_table_remove_all (labeller->cells);
  for (i = 0; i < BOND_N_LABEL_KINDS; i++)
    n_texts += g_hash_table_size (labeller->texts[i]);
  if (labeller->context == context && n_texts < KEEP_TEXTS && labeller->font != NULL
      && pango_font_description_equal (labeller->font, font))
    return;
  for (i = 0; i < BOND_N_LABEL_KINDS; i++)
    g_hash_table_remove_all (labeller->texts[i]);
  g_set_object (&labeller->context, context);
  g_clear_pointer (&labeller->font, pango_font_description_free);
  labeller->font = pango_font_description_copy (font);
}

void
bond_labeller_take (BondLabeller *labeller, const BondBox *box)
{
  int column, row;

  for (row = (int)floor (box->y / CELL); row <= (int)floor ((box->y + box->height) / CELL); row++)
    for (column = (int)floor (box->x / CELL); column <= (int)floor ((box->x + box->width) / CELL); column++)
      {
        GArray *boxes = g_hash_table_lookup (labeller->cells, cell_key (column, row));

        if (boxes == NULL)
          {
            boxes = g_array_new (FALSE, FALSE, sizeof (BondBox));
            g_hash_table_insert (labeller->cells, cell_key (column, row), boxes);
          }
        g_array_append_vals (boxes, box, 1);
      }
}

static gboolean
overlap (const BondBox *a, const BondBox *b)
{
  return a->x < b->x + b->width && b->x < a->x + a->width && a->y < b->y + b->height && b->y < a->y + a->height;
}

static gboolean
cell_is_free (const BondLabeller *labeller, int column, int row, const BondBox *box)
{
  const GArray *boxes = g_hash_table_lookup (labeller->cells, cell_key (column, row));
  guint i;

  for (i = 0; boxes != NULL && i < boxes->len; i++)
    if (overlap (box, &g_array_index (boxes, BondBox, i)))
      return FALSE;
  return TRUE;
}

gboolean
bond_labeller_is_free (const BondLabeller *labeller, const BondBox *box)
{
  int column, row;

  for (row = (int)floor (box->y / CELL); row <= (int)floor ((box->y + box->height) / CELL); row++)
    for (column = (int)floor (box->x / CELL); column <= (int)floor ((box->x + box->width) / CELL); column++)
      if (!cell_is_free (labeller, column, row, box))
        return FALSE;
  return TRUE;
}

static PangoLayout *
layout_of (BondLabeller *labeller, BondLabelKind kind, const char *text)
{
  PangoLayout *layout = g_hash_table_lookup (labeller->texts[kind], text);
  g_autoptr (PangoAttrList) attributes = NULL;

  if (layout != NULL)
    return layout;
  layout = pango_layout_new (labeller->context);
  attributes = pango_attr_list_new ();
  pango_attr_list_insert (attributes, pango_attr_scale_new (kinds[kind].scale));
  pango_attr_list_insert (attributes, pango_attr_weight_new (kinds[kind].weight));
  pango_attr_list_insert (attributes, pango_attr_letter_spacing_new (kinds[kind].spacing * PANGO_SCALE / 1000));
  pango_attr_list_insert (attributes, pango_attr_font_features_new ("tnum"));
  pango_layout_set_attributes (layout, attributes);
  pango_layout_set_text (layout, text, -1);
  g_hash_table_insert (labeller->texts[kind], g_strdup (text), layout);
  return layout;
}

void
bond_labeller_measure (BondLabeller *labeller, BondLabelKind kind, const char *text, double *width, double *height)
{
  int w, h;

  pango_layout_get_pixel_size (layout_of (labeller, kind, text), &w, &h);
  *width = w;
  *height = h;
}

void
bond_labeller_draw (BondLabeller *labeller, cairo_t *cr, BondLabelKind kind, const char *text, double x, double y,
                    const BondRgb *ink, const BondRgb *halo)
{
  PangoLayout *layout = layout_of (labeller, kind, text);

  cairo_move_to (cr, round (x), round (y));
  if (halo != NULL)
    {
      pango_cairo_layout_path (cr, layout);
      cairo_set_source_rgba (cr, halo->r, halo->g, halo->b, 0.85);
      cairo_set_line_width (cr, HALO_WIDTH);
      cairo_set_line_join (cr, CAIRO_LINE_JOIN_ROUND);
      cairo_stroke (cr);
      cairo_move_to (cr, round (x), round (y));
    }
  cairo_set_source_rgb (cr, ink->r, ink->g, ink->b);
  pango_cairo_show_layout (cr, layout);
}

void
bond_labeller_draw_turned (BondLabeller *labeller, cairo_t *cr, BondLabelKind kind, const char *text, double x,
                           double y, double angle, const BondRgb *ink, const BondRgb *halo)
{
  double width, height;

  bond_labeller_measure (labeller, kind, text, &width, &height);
  if (angle == 0.0)
    {
      bond_labeller_draw (labeller, cr, kind, text, x - width / 2.0, y - height / 2.0, ink, halo);
      return;
    }
  cairo_save (cr);
  cairo_translate (cr, x, y);
  cairo_rotate (cr, angle);
  bond_labeller_draw (labeller, cr, kind, text, -width / 2.0, -height / 2.0, ink, halo);
  cairo_restore (cr);
}

gboolean
bond_labeller_offer (BondLabeller *labeller, cairo_t *cr, BondLabelKind kind, const char *text, double x, double y,
                     const BondRgb *ink)
{
  BondBox box = { .y = y };

  bond_labeller_measure (labeller, kind, text, &box.width, &box.height);
  box.x = x - box.width / 2.0;
  if (!bond_labeller_is_free (labeller, &box))
    return FALSE;
  bond_labeller_take (labeller, &box);
  bond_labeller_draw (labeller, cr, kind, text, box.x, box.y, ink, NULL);
  return TRUE;
}
