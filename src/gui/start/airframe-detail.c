/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * The register of airframes: every view drawn small, by the code that draws the
 * diagram, and the zones and points that stand on it.
 */
#include "gui/dialog.h"
#include "gui/start/register-page.h"
#include "gui/start/register-private.h"
#include "gui/style.h"
#include "report/diagram-painter.h"
#include <glib/gi18n-lib.h>

#define VIEW_WIDTH 210
#define VIEW_HEIGHT 150
#define AIRFRAME_KEY "bond-airframe"

/* --- the views --- */

static void
draw_view_cb (GtkDrawingArea *area, cairo_t *cr, int width, int height, gpointer data)
{
  const BondView *view = data;
  const BondAirframe *airframe = g_object_get_data (G_OBJECT (area), AIRFRAME_KEY);
  double x, y, w, h, scale;
  BondDiagramStyle style = { .inks = bond_style_inks (GTK_WIDGET (area)), .font = "Inter, Sans", .no_sides = TRUE };

  bond_view_bounds (view, &x, &y, &w, &h);
  scale = MIN (width / (w * 1.06), height / (h * 1.06));
  cairo_translate (cr, (width - w * scale) / 2, (height - h * scale) / 2);
  cairo_scale (cr, scale, scale);
  cairo_translate (cr, -x, -y);
  style.scale = scale;
  bond_diagram_paint (cr, airframe, view, &style);
  for (guint i = 0; i < airframe->points->len; i++)
    {
      double px, py;

      if (!bond_diagram_shows (view, airframe->points->pdata[i], &px, &py))
        continue;
      cairo_set_source_rgb (cr, style.inks->text.r, style.inks->text.g, style.inks->text.b);
      cairo_arc (cr, px, py, 1.4 / scale, 0, 2 * G_PI);
      cairo_fill (cr);
    }
}

static GtkWidget *
view_tile (const BondAirframe *airframe, const BondView *view)
{
  GtkWidget *box = gtk_box_new (GTK_ORIENTATION_VERTICAL, 2);
  GtkWidget *area = g_object_new (GTK_TYPE_DRAWING_AREA, "accessible-role", GTK_ACCESSIBLE_ROLE_IMG, NULL);
  g_autofree char *name = g_strdup_printf (_ ("%s, %s"), airframe->name, view->title);

  gtk_drawing_area_set_content_width (GTK_DRAWING_AREA (area), VIEW_WIDTH);
  gtk_drawing_area_set_content_height (GTK_DRAWING_AREA (area), VIEW_HEIGHT);
  g_object_set_data_full (G_OBJECT (area), AIRFRAME_KEY, bond_airframe_ref ((BondAirframe *)airframe),
                          (GDestroyNotify)bond_airframe_unref);
  gtk_drawing_area_set_draw_func (GTK_DRAWING_AREA (area), draw_view_cb, (gpointer)view, NULL);
  bond_style_watch (area);
  bond_name_widget (area, name);
  gtk_widget_add_css_class (area, "canvas");
  gtk_box_append (GTK_BOX (box), area);
  gtk_box_append (GTK_BOX (box), bond_detail_label (view->title, "note"));
  return box;
}

static void
add_views (GtkBox *box, const BondAirframe *airframe)
{
  GtkWidget *flow = gtk_flow_box_new ();

  gtk_flow_box_set_selection_mode (GTK_FLOW_BOX (flow), GTK_SELECTION_NONE);
  /* Pictures are for looking at; nothing is to be chosen here. */
  gtk_widget_set_can_focus (flow, FALSE);
  gtk_flow_box_set_max_children_per_line (GTK_FLOW_BOX (flow), 4);
  gtk_flow_box_set_column_spacing (GTK_FLOW_BOX (flow), 12);
  gtk_flow_box_set_row_spacing (GTK_FLOW_BOX (flow), 12);
  for (guint i = 0; i < airframe->views->len; i++)
    gtk_flow_box_insert (GTK_FLOW_BOX (flow), view_tile (airframe, airframe->views->pdata[i]), -1);
  gtk_box_append (box, flow);
}

/* --- zones and points: made when somebody opens them, for there may be hundreds --- */

typedef void (*TableFill) (GtkBox *box, const BondAirframe *airframe);

static void
expanded_cb (GtkExpander *expander)
{
  TableFill fill = g_object_get_data (G_OBJECT (expander), "bond-fill");
  GtkWidget *box = gtk_expander_get_child (expander);

  if (gtk_expander_get_expanded (expander) && gtk_widget_get_first_child (box) == NULL)
    fill (GTK_BOX (box), g_object_get_data (G_OBJECT (expander), AIRFRAME_KEY));
}

static void
add_expander (GtkBox *box, const char *label, const BondAirframe *airframe, TableFill fill)
{
  GtkWidget *expander = gtk_expander_new (label);
  GtkWidget *inner = gtk_box_new (GTK_ORIENTATION_VERTICAL, 6);

  gtk_widget_set_margin_top (expander, 12);
  gtk_widget_set_margin_top (inner, 8);
  gtk_expander_set_child (GTK_EXPANDER (expander), inner);
  g_object_set_data_full (G_OBJECT (expander), AIRFRAME_KEY, bond_airframe_ref ((BondAirframe *)airframe),
                          (GDestroyNotify)bond_airframe_unref);
  g_object_set_data (G_OBJECT (expander), "bond-fill", fill);
  g_signal_connect (expander, "notify::expanded", G_CALLBACK (expanded_cb), NULL);
  bond_name_widget (expander, label);
  gtk_box_append (box, expander);
}

static int
points_within (const BondAirframe *airframe, const char *zone)
{
  int n = 0;

  for (guint i = 0; i < airframe->points->len; i++)
    n += bond_airframe_is_within (airframe, ((BondPointSpec *)airframe->points->pdata[i])->zone, zone);
  return n;
}

static void
fill_zones (GtkBox *box, const BondAirframe *airframe)
{
  const char *columns[] = { _ ("Zone"), _ ("+Name"), _ ("Side"), _ ("#Points"), NULL };
  GtkWidget *table = bond_detail_table (box, columns);

  for (guint i = 0; i < airframe->zones->len; i++)
    {
      const BondZone *zone = airframe->zones->pdata[i];
      g_autofree char *points = g_strdup_printf ("%d", points_within (airframe, zone->number));
      const char *cells[] = { zone->number, zone->name, bond_side_name (zone->side), points };

      bond_detail_row (table, cells);
    }
}

static void
fill_points (GtkBox *box, const BondAirframe *airframe)
{
  const char *columns[] = { _ ("Point"), _ ("Class"), _ ("+From"), _ ("+To"), _ ("Limit"), NULL };
  GtkWidget *table = bond_detail_table (box, columns);

  for (guint i = 0; i < airframe->points->len; i++)
    {
      const BondPointSpec *spec = airframe->points->pdata[i];
      const char *cells[] = { spec->number, bond_class_name (spec->klass), spec->from, spec->to, spec->limit };

      bond_detail_row (table, cells);
    }
}

static void
airframe_fill (BondRegisterPage *page, GtkBox *box, gconstpointer object)
{
  const BondAirframe *airframe = object;
  g_autofree char *revision = g_strdup_printf ("%d", airframe->revision);
  g_autofree char *zones = g_strdup_printf (_ ("Zones (%u)"), airframe->zones->len);
  g_autofree char *points = g_strdup_printf (_ ("Points in walking order (%u)"), airframe->points->len);

  bond_detail_heading (box, airframe->name);
  bond_detail_text (box, airframe->note, NULL);
  bond_detail_pair (box, _ ("Revision"), revision);
  bond_detail_pair (box, _ ("Units"), airframe->units);
  bond_detail_pair (box, _ ("Station datum"), airframe->datum_sta);
  bond_detail_pair (box, _ ("Butt line datum"), airframe->datum_bl);
  bond_detail_pair (box, _ ("Waterline datum"), airframe->datum_wl);
  add_views (box, airframe);
  add_expander (box, zones, airframe, fill_zones);
  add_expander (box, points, airframe, fill_points);
}

static char *
airframe_first (gconstpointer object)
{
  return g_strdup (((const BondAirframe *)object)->name);
}

static char *
airframe_second (gconstpointer object)
{
  const BondAirframe *airframe = object;

  return g_strdup_printf (ngettext ("%u point, revision %d", "%u points, revision %d", airframe->points->len),
                          airframe->points->len, airframe->revision);
}

GtkWidget *
bond_airframes_page_new (BondApplication *application)
{
  static const BondRegisterInfo info = {
    .what = BOND_ADOPT_AIRFRAME,
    .folder = "airframes",
    .title = N_ ("Airframes"),
    .empty = N_ ("No airframe in the library. Put its file into the folder “airframes” of the library."),
    .first = airframe_first,
    .second = airframe_second,
    .fill = airframe_fill,
  };

  return bond_register_page_new (application, &info);
}
